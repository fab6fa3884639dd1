#include "capacity/strap.hpp"

#include "capacity/capacity.hpp"
#include "capacity/formulas_steel.hpp"

namespace belay {

namespace {

// A tensile or yield strength as it counts: of hard steel, which stretches little before it breaks, only a part.
// hard: by the yield strength of the same steel.
Pressure counted_strength(Pressure stated, bool hard, std::string_view cap, const Table& practice,
                          std::string_view symbol, std::string_view words, std::string_view stated_at, Working* w) {
  if (!hard) return given(w, symbol, words, stated, stated_at);
  const std::string own = w ? fmt::format("{},s", symbol) : std::string(),
                    part = w ? fmt::format("{},r", symbol) : std::string(),
                    most = w ? fmt::format("{},c", symbol) : std::string(), source = practice.source("thin_steel");
  given(w, own, words, stated, stated_at);
  const double k = looked_up(w, "k_F", "part of the strength of hard steel that counts",
                             practice.number("thin_steel", "factor"), source);
  const Pressure c =
      looked_up(w, most, "and no more of it than this", practice.get<Pressure>("thin_steel", cap), source);
  const Pressure r = formulas::thin_steel_strength.told(w, part, source, k, as(own, stated));
  return least<Pressure>(w, symbol, "the lesser of the two", source, {as(part, r), as(most, c)});
}
bool is_hard(Pressure yield, const Table& practice) { return yield >= practice.get<Pressure>("thin_steel", "from"); }

// By the basis of the entry: phi times the nominal strength, or the strength over Omega. `kind` stands before the names
// of the two in the table's entry, `short_kind` behind their symbols.
Force for_basis(const Terms& t, const As<Force>& nominal, std::string_view kind, std::string_view short_kind,
                std::string_view symbol, const Table& practice, std::string_view entry, Working* w) {
  const std::string source = practice.source(entry);
  const bool allowable = t.acts_as() == Basis::allowable;
  const double factor = practice.number(entry, fmt::format("{}{}", kind, allowable ? "omega" : "phi"));
  const std::string name = fmt::format("{}_{}", allowable ? "Omega" : "phi", short_kind);
  looked_up(w, name, allowable ? "safety factor" : "resistance factor", factor, source);
  return allowable ? formulas::strength_by_omega.told(w, symbol, source, nominal, as(name, factor))
                   : formulas::strength_by_phi.told(w, symbol, source, as(name, factor), nominal);
}

// One screw in shear between the strap (t_1) and the frame's steel (t_2), nominal.
Force one_screw(const House& h, const StrapBrace& s, Pressure fu1, Pressure fu2, const Table& practice, Working* w) {
  const std::string source = practice.source("screws");
  const auto figure = [&](std::string_view symbol, std::string_view words, std::string_view key) {
    return looked_up(w, symbol, words, practice.number("screws", key), source);
  };
  const Length t1 = *s.thickness, t2 = *h.frame.steel, d = *s.screw_diameter;
  const double kb = figure("k_b", "factor of bearing", "bearing"), kv = figure("k_v", "factor of tearing", "tearing");
  const double r1 = practice.number("screws", "ratio_low"), r2 = practice.number("screws", "ratio_high");
  const double r = formulas::thickness_ratio(w, t2, t1);
  const auto bears = [&](std::string_view symbol, const As<Pressure>& f, const As<Length>& t) {
    return formulas::screw_bears.told(w, symbol, source, kb, f, t, d);
  };
  const Force in_strap = bears("P_b1", as("F_u1", fu1), as("t_1", t1));
  const Force in_frame = bears("P_b2", as("F_u2", fu2), as("t_2", t2));
  const auto tilting = [&](std::string_view symbol) {
    const double kt = figure("k_t", "factor of tilting", "tilting");
    const Force tilts = formulas::screw_tilts.told(w, "P_t", source, kt, fu2, t2, d);
    return least<Force>(w, symbol, "the screw tilts, or one of the two steels gives way", source,
                        {as("P_t", tilts), as("P_b1", in_strap), as("P_b2", in_frame)});
  };
  const auto bearing = [&](std::string_view symbol) {
    return least<Force>(w, symbol, "the weaker of the two steels gives way", source,
                        {as("P_b1", in_strap), as("P_b2", in_frame)});
  };
  Force held;
  if (r <= r1) {
    held = tilting("P_s");
  } else if (r >= r2) {
    held = bearing("P_s");
  } else {
    const Force a = tilting("P_1"), b = bearing("P_2");
    figure("r_1", "up to this ratio the screw tilts", "ratio_low");
    figure("r_2", "from this ratio on it does not", "ratio_high");
    held = formulas::between_thicknesses.told(w, "P_s", source, as("P_1", a), as("P_2", b), r, r1, r2);
  }
  const Length edge = formulas::clear_to_edge(w, *s.screw_edge, *s.hole);
  const Length next = formulas::clear_to_next(w, *s.screw_spacing, *s.hole);
  const Length clear =
      least<Length>(w, "e_n", "the lesser of the two: the safe one", "geometry", {as("e_c", edge), as("s_c", next)});
  const auto tears = [&](std::string_view symbol, const As<Pressure>& f, const As<Length>& t) {
    return formulas::screw_tears.told(w, symbol, source, kv, f, t, as("e_n", clear));
  };
  const Force out_of_strap = tears("P_v1", as("F_u1", fu1), as("t_1", t1));
  const Force out_of_frame = tears("P_v2", as("F_u2", fu2), as("t_2", t2));
  return least<Force>(
      w, "P_n1", "nominal: what one screw holds, by its weakest way to give", "the least",
      {as("P_s", held), as("P_v1", out_of_strap), as("P_v2", out_of_frame), as("P_ss", *s.screw_shear)});
}

}  // namespace

std::vector<Condition> strap_conditions(const House& h, const StrapBrace& s, const Table& practice) {
  std::vector<Condition> r;
  const Units& u = h.print == Print::us ? us : metric;
  const auto not_stated = [&](std::string name, std::string_view key) {
    r.push_back({std::move(name), "for its screws", "", Met::not_stated, std::string(key)});
  };
  if (!s.tension && !s.worked_out)
    r.push_back({"tension of the strap", "the sheet's figure", "", Met::not_stated,
                 fmt::format("`tension` of {}", s.terms.name)});
  if (!s.end_fixing && !s.screws)
    r.push_back({"end fixing of the strap", "the sheet's figure", "", Met::not_stated,
                 fmt::format("`end_fixing` of {}", s.terms.name)});
  if (!s.screws) return r;
  if (!h.frame.steel) not_stated("thickness of the frame's steel", "[frame] steel");
  if (!h.frame.yield) not_stated("yield strength of the frame's steel", "[frame] yield");
  if (!h.frame.ultimate) not_stated("tensile strength of the frame's steel", "[frame] ultimate");
  const Length d = *s.screw_diameter;
  const auto at_least = [&](std::string name, Length needs, Length has) {
    r.push_back({std::move(name),
                 fmt::format("at least {}", size_text(needs, u)),
                 size_text(has, u),
                 has >= needs ? Met::yes : Met::no,
                 {}});
  };
  const Length thin = practice.get<Length>("screws", "least_diameter"),
               thick = practice.get<Length>("screws", "greatest_diameter");
  r.push_back({"diameter of the screws",
               fmt::format("{} to {}", size_text(thin, u), size_text(thick, u)),
               size_text(d, u),
               d >= thin && d <= thick ? Met::yes : Met::no,
               {}});
  at_least("distance between screws", practice.number("screws", "spacing") * d, *s.screw_spacing);
  at_least("distance from a screw to the edge", practice.number("screws", "edge") * d, *s.screw_edge);
  return r;
}

StrapHolds strap_holds(const House& h, const StrapBrace& s, const Table& practice, std::string_view strap_symbol,
                       std::string_view end_symbol, Working* w) {
  if (!s.worked_out)
    return {design_force(s.terms, *s.tension, strap_symbol, w), design_force(s.terms, *s.end_fixing, end_symbol, w), 0};
  const InSmallUnits small(w);
  std::uint64_t marks = practice.mark("strap_steel");
  const std::string sheet = w ? fmt::format("{}, {} ({})", s.terms.name, s.terms.source, s.terms.at) : std::string();
  const bool hard = is_hard(*s.yield, practice);
  if (hard) marks |= practice.mark("thin_steel");
  const Pressure fy = counted_strength(*s.yield, hard, "greatest_yield", practice, "F_y",
                                       "yield strength of the strap's steel", sheet, w);
  const Pressure fu = counted_strength(*s.ultimate, hard, "greatest_ultimate", practice, "F_u1",
                                       "tensile strength of the strap's steel", sheet, w);
  const Length b = given(w, "b_s", "width of the strap", *s.width, sheet);
  const Length t1 = given(w, "t_1", "thickness of the strap", *s.thickness, sheet);
  Length net = b;
  if (s.hole && *s.holes > 0.0) {
    given(w, "n_h", "holes across one section", *s.holes, sheet);
    given(w, "d_h", "diameter of a hole", *s.hole, sheet);
    net = formulas::net_width(w, b, *s.holes, *s.hole);
  } else {
    given(w, "b_n", "width of the strap, which has no holes", b, sheet);
  }
  const Force yields = formulas::gross_yield(w, fy, b, t1), breaks = formulas::net_rupture(w, fu, net, t1);
  const Force by_yield =
      for_basis(s.terms, as("T_ny", yields), "yield_", "y", w ? "T_y" : "", practice, "strap_steel", w);
  const Force by_rupture =
      for_basis(s.terms, as("T_nu", breaks), "rupture_", "u", w ? "T_u" : "", practice, "strap_steel", w);
  const Force strap = least<Force>(w, strap_symbol, "the lesser of yield and rupture", practice.source("strap_steel"),
                                   {as("T_y", by_yield), as("T_u", by_rupture)});
  if (!s.screws) return {strap, design_force(s.terms, *s.end_fixing, end_symbol, w), marks};
  marks |= practice.mark("screws");
  const bool hard_frame = is_hard(*h.frame.yield, practice);
  if (hard_frame) marks |= practice.mark("thin_steel");
  const Pressure fu2 = counted_strength(*h.frame.ultimate, hard_frame, "greatest_ultimate", practice, "F_u2",
                                        "tensile strength of the frame's steel", "the job's frame", w);
  given(w, "t_2", "thickness of the frame's steel", *h.frame.steel, "the job's frame");
  given(w, "d", "diameter of a screw", *s.screw_diameter, sheet);
  given(w, "e", "least distance from a screw's centre to an edge", *s.screw_edge, sheet);
  given(w, "s", "least distance between screws", *s.screw_spacing, sheet);
  given(w, "P_ss", "nominal: the screw itself breaks", *s.screw_shear, sheet);
  given(w, "n_s", "screws at each end", *s.screws, sheet);
  const Force one = one_screw(h, s, fu, fu2, practice, w);
  const Force group = formulas::screw_group(w, *s.screws, as("P_n1", one));
  // The strap may break across its screws: there the connection's factor counts, which is the lower one.
  const Force nominal = least<Force>(w, "R_e", "nominal: the screws, or the strap across them (AISI S100-16 J6.2)",
                                     practice.source("screws"), {as("P_n", group), as("T_nu", breaks)});
  return {strap, for_basis(s.terms, as("R_e", nominal), "", "e", end_symbol, practice, "screws", w), marks};
}

}  // namespace belay
