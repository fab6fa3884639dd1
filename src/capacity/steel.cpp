#include "capacity/steel.hpp"

#include "capacity/capacity.hpp"
#include "capacity/formulas_steel.hpp"

namespace belay {

namespace {

// The figures of one standard, marked as they are used.
class Figures {
 public:
  Figures(const Table& t, WorkedOut by, std::uint64_t& marks) : t_(t), by_(by), marks_(marks) {}
  template <class Q = double> Q get(std::string_view entry, std::string_view column) const {
    const std::string k = key(entry);
    marks_ |= t_.mark(k);
    return t_.get<Q>(k, column);
  }
  template <class Q = double>
  Q told(Working* w, std::string_view symbol, std::string_view words, std::string_view entry,
         std::string_view column) const {
    return looked_up(w, symbol, words, get<Q>(entry, column), source(entry));
  }
  const std::vector<Value>& column(std::string_view entry, std::string_view column) const {
    marks_ |= t_.mark(key(entry));
    return t_.column(key(entry), column);
  }
  // Not every standard has each figure.
  bool has(std::string_view entry, std::string_view column) const {
    return t_.entry(key(entry)).columns.contains(column);
  }
  std::string source(std::string_view entry) const { return t_.source(key(entry)); }
  // Not marked: what is not hard rests on nothing of that entry.
  Pressure hard_from() const { return t_.get<Pressure>(key("thin"), "from"); }

 private:
  std::string key(std::string_view entry) const {
    return fmt::format("{}_{}", by_ == WorkedOut::aisi_s100_16 ? "aisi" : "as_nzs", entry);
  }
  const Table& t_;
  WorkedOut by_;
  std::uint64_t& marks_;
};

// A steel that screws go through, or into.
struct Sheet {
  Length thickness;
  Pressure yield, ultimate;
};
// Stated whole or not at all (files).
Sheet gone_into(const House& h, const SteelMade& m) {
  if (m.into_thickness) return {*m.into_thickness, *m.into_yield, *m.into_ultimate};
  return {*h.frame.steel, *h.frame.yield, *h.frame.ultimate};
}
bool in_tension(const SteelMade& m) { return m.screws_in == ScrewsIn::tension; }

class BySteel {
 public:
  BySteel(const House& h, const Terms& t, const SteelMade& m, const Table& practice, std::uint64_t& marks, Working* w)
      : house_(h),
        terms_(t),
        made_(m),
        figures_(practice, *m.worked_out, marks),
        w_(w),
        sheet_(w ? fmt::format("{}, {} ({})", t.name, t.source, t.at) : std::string()) {}

  Force steel(std::string_view symbol) {
    const Sheet own{*made_.thickness, *made_.yield, *made_.ultimate};
    const Pressure fy = counted(own, own.yield, "greatest_yield", "F_y", "yield strength of its steel", sheet_);
    fu1_ = counted(own, own.ultimate, "greatest_ultimate", "F_u1", "tensile strength of its steel", sheet_);
    const Length b = given(w_, "b_s", "its width", *made_.width, sheet_);
    const Length t1 = given(w_, "t_1", "its thickness", *made_.thickness, sheet_);
    Length net = b;
    if (made_.hole && *made_.holes > 0.0) {
      given(w_, "n_h", "holes across one section", *made_.holes, sheet_);
      given(w_, "d_h", "diameter of a hole", *made_.hole, sheet_);
      net = formulas::net_width(w_, b, *made_.holes, *made_.hole);
    } else {
      given(w_, "b_n", "its width, which has no holes", b, sheet_);
    }
    const std::string source = figures_.source("strap");
    const Force yields = formulas::gross_yield.told(w_, "T_ny", source, fy, b, t1);
    breaks_ = formulas::net_rupture.told(w_, "T_nu", source, fu1_, net, t1);
    As<Force> counts = as("T_nu", breaks_);
    if (figures_.has("strap", "rupture_part")) {
      const double k = figures_.told(w_, "k_r", "part of the rupture that counts", "strap", "rupture_part");
      counts = as("T_nr", formulas::part_of_rupture.told(w_, "T_nr", source, k, counts));
    }
    const Force by_yield = for_basis("strap", as("T_ny", yields), "yield_", "y", "T_y");
    const Force by_rupture = for_basis("strap", counts, "rupture_", "u", "T_u");
    return least<Force>(w_, symbol, "the lesser of yield and rupture", source,
                        {as("T_y", by_yield), as("T_u", by_rupture)});
  }

  // Precondition: `steel` is worked out.
  Force end(std::string_view symbol) {
    const Sheet into = gone_into(house_, made_);
    const std::string where = made_.into_thickness ? sheet_ : "the job's frame";
    fu2_ =
        counted(into, into.ultimate, "greatest_ultimate", "F_u2", "tensile strength of what the screws go into", where);
    given(w_, "t_2", "thickness of what the screws go into", into.thickness, where);
    given(w_, "d", "diameter of a screw", *made_.screw_diameter, sheet_);
    const char* entry = in_tension(made_) ? "pulled" : "screws";
    const Force one = in_tension(made_) ? pulled(into.thickness) : sheared(into.thickness);
    given(w_, "n_s", "screws at each end", *made_.screws, sheet_);
    const Force group = formulas::screw_group.told(w_, "P_n", figures_.source(entry), *made_.screws, as("P_n1", one));
    if (in_tension(made_)) return for_basis(entry, as("P_n", group), "", "e", symbol);
    // It may break across its screws: there the connection's factor counts, which is the lower one.
    const Force nominal = least<Force>(w_, "R_e", "nominal: the screws, or the steel across them",
                                       figures_.source(entry), {as("P_n", group), across_screws()});
    return for_basis(entry, as("R_e", nominal), "", "e", symbol);
  }

 private:
  const House& house_;
  const Terms& terms_;
  const SteelMade& made_;
  Figures figures_;
  Working* w_;
  std::string sheet_;  // where the entry stands
  Pressure fu1_{}, fu2_{};
  Force breaks_{};

  // A tensile or yield strength as it counts: of hard steel, which stretches little before it breaks, only a part, by
  // some standards only where it is thin. hard: by the yield strength of the same steel.
  Pressure counted(const Sheet& of, Pressure stated, std::string_view cap, std::string_view symbol,
                   std::string_view words, std::string_view stated_at) const {
    if (of.yield < figures_.hard_from()) return given(w_, symbol, words, stated, stated_at);
    std::size_t row = 0;
    if (figures_.has("thin", "below")) {
      const std::vector<Value>& below = figures_.column("thin", "below");
      while (row < below.size() && of.thickness >= quantity<Length>(below[row])) ++row;
      if (row == below.size()) return given(w_, symbol, words, stated, stated_at);
    }
    const std::string own = w_ ? fmt::format("{},s", symbol) : std::string(),
                      part = w_ ? fmt::format("{},r", symbol) : std::string(),
                      most = w_ ? fmt::format("{},c", symbol) : std::string(), source = figures_.source("thin");
    given(w_, own, words, stated, stated_at);
    const double k = looked_up(w_, "k_F", "part of the strength of hard steel that counts",
                               quantity<double>(figures_.column("thin", "factor")[row]), source);
    const Pressure c = looked_up(w_, most, "and no more of it than this",
                                 quantity<Pressure>(figures_.column("thin", cap)[row]), source);
    const Pressure r = formulas::thin_steel_strength.told(w_, part, source, k, as(own, stated));
    return least<Pressure>(w_, symbol, "the lesser of the two", source, {as(part, r), as(most, c)});
  }

  // By the basis of the entry: phi times the nominal strength, or the strength over Omega. `kind` stands before the
  // names of the two in the table's entry, `short_kind` behind their symbols.
  Force for_basis(std::string_view entry, const As<Force>& nominal, std::string_view kind, std::string_view short_kind,
                  std::string_view symbol) const {
    const std::string source = figures_.source(entry);
    const bool allowable = terms_.acts_as() == Basis::allowable;
    const double factor = figures_.get(entry, fmt::format("{}{}", kind, allowable ? "omega" : "phi"));
    const std::string name = fmt::format("{}_{}", allowable ? "Omega" : "phi", short_kind);
    looked_up(w_, name, allowable ? "safety factor" : "resistance factor", factor, source);
    return allowable ? formulas::strength_by_omega.told(w_, symbol, source, nominal, as(name, factor))
                     : formulas::strength_by_phi.told(w_, symbol, source, as(name, factor), nominal);
  }

  // The screw itself breaks; a standard may want it stronger than what is round it.
  As<Force> screw_itself(Force stated, std::string_view entry) const {
    given(w_, "P_ss", "nominal: the screw itself breaks", stated, sheet_);
    if (!figures_.has(entry, "screw_over")) return as("P_ss", stated);
    const double k = figures_.told(w_, "k_w", "the screw must be stronger by", entry, "screw_over");
    return as("P_w", formulas::screw_itself.told(w_, "P_w", figures_.source(entry), stated, k));
  }

  // Of either steel; some standards have less of it for one that is thin beside the screw.
  As<double> bearing_factor(std::string symbol, const As<Length>& t) const {
    const Length d = *made_.screw_diameter;
    const std::string source = figures_.source("screws");
    const auto plain = [&](std::string_view words, std::string_view column) {
      const double k = figures_.told(w_, symbol, words, "screws", column);
      return as(std::move(symbol), k);
    };
    const double slender = static_cast<double>(d / t.quantity);
    if (slender < figures_.get("screws", "thin_from")) return plain("factor of bearing", "bearing");
    if (slender > figures_.get("screws", "thin_to")) return plain("factor of bearing in thin steel", "thin_least");
    const double k = formulas::bearing_of_thin.told(
        w_, symbol, source, figures_.told(w_, "k_0", "factor of bearing, to begin with", "screws", "thin_most"),
        figures_.told(w_, "k_d", "less for each of the screw's diameters", "screws", "thin_falls"), d, t);
    return as(std::move(symbol), k);
  }

  // One screw in shear, nominal.
  Force sheared(Length t2) const {
    const std::string source = figures_.source("screws");
    const Length t1 = *made_.thickness, d = *made_.screw_diameter;
    given(w_, "e", "least distance from a screw's centre to an edge", *made_.screw_edge, sheet_);
    given(w_, "s", "least distance between screws", *made_.screw_spacing, sheet_);
    const As<Force> itself = screw_itself(*made_.screw_shear, "screws");
    const bool by_thickness = figures_.has("screws", "thin_from");
    const As<double> kb1 = by_thickness ? bearing_factor("k_b1", as("t_1", t1))
                                        : as("k_b", figures_.told(w_, "k_b", "factor of bearing", "screws", "bearing")),
                     kb2 = by_thickness ? bearing_factor("k_b2", as("t_2", t2)) : kb1;
    const double kv = figures_.told(w_, "k_v", "factor of tearing", "screws", "tearing");
    const double r1 = figures_.get("screws", "ratio_low"), r2 = figures_.get("screws", "ratio_high");
    const double r = formulas::thickness_ratio(w_, t2, t1);
    const auto bears = [&](std::string_view symbol, const As<double>& k, const As<Pressure>& f, const As<Length>& t) {
      return formulas::screw_bears.told(w_, symbol, source, k, f, t, d);
    };
    const Force in_own = bears("P_b1", kb1, as("F_u1", fu1_), as("t_1", t1));
    const Force in_frame = bears("P_b2", kb2, as("F_u2", fu2_), as("t_2", t2));
    const auto tilting = [&](std::string_view symbol) {
      const double kt = figures_.told(w_, "k_t", "factor of tilting", "screws", "tilting");
      const Force tilts = formulas::screw_tilts.told(w_, "P_t", source, kt, fu2_, t2, d);
      return least<Force>(w_, symbol, "the screw tilts, or one of the two steels gives way", source,
                          {as("P_t", tilts), as("P_b1", in_own), as("P_b2", in_frame)});
    };
    const auto bearing = [&](std::string_view symbol) {
      return least<Force>(w_, symbol, "the weaker of the two steels gives way", source,
                          {as("P_b1", in_own), as("P_b2", in_frame)});
    };
    Force held;
    if (r <= r1) {
      held = tilting("P_s");
    } else if (r >= r2) {
      held = bearing("P_s");
    } else {
      const Force a = tilting("P_1"), b = bearing("P_2");
      figures_.told(w_, "r_1", "up to this ratio the screw tilts", "screws", "ratio_low");
      figures_.told(w_, "r_2", "from this ratio on it does not", "screws", "ratio_high");
      held = formulas::between_thicknesses.told(w_, "P_s", source, as("P_1", a), as("P_2", b), r, r1, r2);
    }
    const Length edge = formulas::clear_to_edge(w_, *made_.screw_edge, *made_.hole);
    const Length next = formulas::clear_to_next(w_, *made_.screw_spacing, *made_.hole);
    const Length clear =
        least<Length>(w_, "e_n", "the lesser of the two: the safe one", "geometry", {as("e_c", edge), as("s_c", next)});
    const auto tears = [&](std::string_view symbol, const As<Pressure>& f, const As<Length>& t) {
      return formulas::screw_tears.told(w_, symbol, source, kv, f, t, as("e_n", clear));
    };
    const Force out_of_own = tears("P_v1", as("F_u1", fu1_), as("t_1", t1));
    const Force out_of_frame = tears("P_v2", as("F_u2", fu2_), as("t_2", t2));
    return least<Force>(w_, "P_n1", "nominal: what one screw holds, by its weakest way to give", "the least",
                        {as("P_s", held), as("P_v1", out_of_own), as("P_v2", out_of_frame), itself});
  }

  // One screw in tension, nominal.
  Force pulled(Length t2) const {
    const std::string source = figures_.source("pulled");
    const As<Force> itself = screw_itself(*made_.screw_tension, "pulled");
    const double ko = figures_.told(w_, "k_o", "factor of pull-out", "pulled", "pull_out");
    const Force out = formulas::screw_pulls_out.told(w_, "P_o", source, ko, fu2_, t2, *made_.screw_diameter);
    given(w_, "d_w,s", "diameter of the screw's head or washer", *made_.screw_head, sheet_);
    const Length most = figures_.told<Length>(w_, "d_w,c", "and no more of it than this", "pulled", "greatest_head");
    const Length head =
        least<Length>(w_, "d_w", "the lesser of the two", source, {as("d_w,s", *made_.screw_head), as("d_w,c", most)});
    const double kh = figures_.told(w_, "k_h", "factor of pull-over", "pulled", "pull_over");
    const Force through = formulas::head_pulls_through.told(w_, "P_h", source, kh, fu1_, *made_.thickness, head);
    return least<Force>(w_, "P_n1", "nominal: what one screw holds, by its weakest way to give", "the least",
                        {as("P_o", out), as("P_h", through), itself});
  }

  // More screws than holes across a section stand behind one another; else they are a single row, which pulls at the
  // steel beside it alone.
  As<Force> across_screws() const {
    if (*made_.screws > *made_.holes) return as("T_nu", breaks_);
    const std::string source = figures_.source("screws");
    const double k1 = figures_.told(w_, "k_1r", "factor of a single row", "screws", "row");
    const Length s = formulas::width_of_one(w_, *made_.width, *made_.holes);
    const double k = formulas::of_one_row.told(w_, "k_s", source, as("k_1r", k1), *made_.screw_diameter, s);
    if (k >= 1.0) return as("T_nu", breaks_);
    return as("T_n1", formulas::part_of_rupture.told(w_, "T_n1", source, as("k_s", k), as("T_nu", breaks_)));
  }
};

Condition not_stated(std::string name, std::string needs, std::string key) {
  return {std::move(name), std::move(needs), "", Met::not_stated, std::move(key)};
}

}  // namespace

std::vector<Condition> steel_conditions(const House& h, const Terms& t, const SteelMade& m, Into where,
                                        const Table& practice) {
  std::vector<Condition> r;
  if (!m.screws) return r;
  const Units& u = h.print == Print::us ? us : metric;
  std::uint64_t unused = 0;
  const Figures figures(practice, *m.worked_out, unused);
  const auto missing = [&](const char* name, std::string key) {
    r.push_back(not_stated(name, "for its screws", std::move(key)));
  };
  if (where == Into::roof && !m.into_thickness) {
    missing("steel of the trusses", fmt::format("`into_thickness` of {}", t.name));
  } else if (!m.into_thickness) {
    if (!h.frame.steel) missing("thickness of the frame's steel", "[frame] steel");
    if (!h.frame.yield) missing("yield strength of the frame's steel", "[frame] yield");
    if (!h.frame.ultimate) missing("tensile strength of the frame's steel", "[frame] ultimate");
  }
  const auto at_least = [&](const char* name, Length needs, Length has) {
    r.push_back({name,
                 fmt::format("at least {}", size_text(needs, u)),
                 size_text(has, u),
                 has >= needs ? Met::yes : Met::no,
                 {}});
  };
  const Length d = *m.screw_diameter, thin = figures.get<Length>("screws", "least_diameter"),
               thick = figures.get<Length>("screws", "greatest_diameter");
  r.push_back({"diameter of the screws",
               fmt::format("{} to {}", size_text(thin, u), size_text(thick, u)),
               size_text(d, u),
               d >= thin && d <= thick ? Met::yes : Met::no,
               {}});
  at_least("distance between screws", figures.get("screws", "spacing") * d, *m.screw_spacing);
  at_least("distance from a screw to the edge", figures.get("screws", "edge") * d, *m.screw_edge);
  if (!in_tension(m)) return r;
  at_least("diameter of the screws' heads", figures.get<Length>("pulled", "least_head"), *m.screw_head);
  if (figures.has("pulled", "into_from") && (m.into_thickness || h.frame.steel))
    at_least("thickness of what the screws are pulled out of", figures.get<Length>("pulled", "into_from"),
             m.into_thickness ? *m.into_thickness : *h.frame.steel);
  // A leg that bends pulls harder at its screws than it is pulled itself, and by how much is not worked out here.
  if (m.pried.value_or(true))
    r.push_back(
        not_stated("screws in tension pulled straight", "nothing pries at them", fmt::format("`pried` of {}", t.name)));
  return r;
}

std::vector<Condition> strap_conditions(const House& h, const StrapBrace& s, Into where, const Table& practice) {
  std::vector<Condition> r;
  if (!s.tension && !s.made.worked_out)
    r.push_back(not_stated("tension of the strap", "the sheet's figure", fmt::format("`tension` of {}", s.terms.name)));
  if (!s.end_fixing && !s.made.screws)
    r.push_back(
        not_stated("end fixing of the strap", "the sheet's figure", fmt::format("`end_fixing` of {}", s.terms.name)));
  const auto more = steel_conditions(h, s.terms, s.made, where, practice);
  r.insert(r.end(), more.begin(), more.end());
  return r;
}

SteelHolds steel_holds(const House& h, const Terms& t, const SteelMade& m, const Table& practice,
                       std::string_view steel_symbol, std::string_view end_symbol, Working* w) {
  const InSmallUnits small(w);
  SteelHolds r{};
  BySteel by(h, t, m, practice, r.marks, w);
  r.steel = by.steel(steel_symbol);
  r.end = by.end(end_symbol);
  return r;
}

SteelHolds strap_holds(const House& h, const StrapBrace& s, const Table& practice, std::string_view strap_symbol,
                       std::string_view end_symbol, Working* w) {
  if (s.made.worked_out && s.made.screws) return steel_holds(h, s.terms, s.made, practice, strap_symbol, end_symbol, w);
  SteelHolds r{};
  if (s.made.worked_out) {
    const InSmallUnits small(w);
    r.steel = BySteel(h, s.terms, s.made, practice, r.marks, w).steel(strap_symbol);
  } else {
    r.steel = design_force(s.terms, *s.tension, strap_symbol, w);
  }
  r.end = design_force(s.terms, *s.end_fixing, end_symbol, w);
  return r;
}

SteelHolds tell_weaker(const House& h, const Terms& t, const SteelMade& m, const Table& practice,
                       std::string_view symbol, Working* w) {
  const std::string steel = w ? fmt::format("{},s", symbol) : std::string(),
                    end = w ? fmt::format("{},e", symbol) : std::string();
  const SteelHolds r = steel_holds(h, t, m, practice, steel, end, w);
  least<Force>(w, symbol, "the weaker of its steel and of its screws", "the weakest way to give",
               {as(steel, r.steel), as(end, r.end)});
  return r;
}

}  // namespace belay
