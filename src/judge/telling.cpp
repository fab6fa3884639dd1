// The working of one link.
#include "judge/formulas.hpp"
#include "judge/judge.hpp"
#include "judge/seed.hpp"
#include "judge/veranda_links.hpp"
#include "load_path/formulas_ground.hpp"
#include "load_path/least_bracing.hpp"

#include <algorithm>

namespace belay {

using Of = LinkSeed::Of;

// Tells one link in one case; what it ends in is kept with all that leads there, the rest falls away.
class Judge::Telling {
 public:
  Telling(const Judge& judge, const LinkSeed& s, std::size_t load_case, Working& w)
      : judge_(judge),
        f_(judge.f_),
        x_(judge.f_.house.fixings),
        s_(s),
        c_(load_case),
        w_(w),
        name_(judge.fixing(s) ? std::string_view(judge.fixing(s)->name) : std::string_view()) {}
  void all() {
    link();
    keep_what_leads_to(w_, ends_);
  }

 private:
  void link();
  void bracket();
  void valley();
  void stud();
  void floor_tie();
  void floor_fixing();
  void roof_plane();
  void roof_brace();
  void line();
  void least();
  void brace();
  void support();
  void ground();
  void loose_end();
  void loose_jamb();
  void compression();
  void compression_below();
  void stump();
  void subfloor();
  void house_slides();
  void house_tips();
  void spacing();
  void veranda();

  void end_here() { ends_.push_back(w_.steps.size() - 1); }
  // At the last step that gives the symbol that figure.
  void end_at(const std::string& symbol, Force result);
  // A part against its capacity, told already, as for design.
  void against(const std::string& demand_symbol, Force demand, const std::optional<Force>& holds,
               const std::string& what);
  // The same against what a sheet states; without a capacity the demand itself is an end of the working.
  void compare(const std::string& demand_symbol, Force demand, const Terms*, const std::optional<Force>& stated,
               const std::string& what);
  // The same against what a tie or a bracket holds, which may be worked out.
  template <class Entry>
  void compare_held(const std::string& demand_symbol, Force demand, const Entry*, Force stated,
                    const std::string& what);
  void lift_on(const std::string& demand_symbol, Force demand, const Bracket* b) {
    compare_held(demand_symbol, demand, b, b ? b->uplift : zero<Force>(), "uplift");
  }
  void pull_on(const std::string& demand_symbol, Force demand, const Tie* t) {
    compare_held(demand_symbol, demand, t, t ? t->pull : zero<Force>(), "pull");
  }
  void combine(std::optional<Together> rule, const std::vector<As<double>>& u,
               std::string_view source = "the fixing's sheet");
  void brace_and_line(Force demand, const std::string& symbol, Force capacity, std::string capacity_symbol);
  // What lifts the whole roof is told at the bracket that is lifted most; the others are added up as they stand.
  void lifted_most();
  void use(const std::string& demand_symbol, Force demand, Force holds, const std::string& what) {
    uses_.push_back(as("u_" + what, formulas::use_of_force.told(&w_, "u_" + what, "comparison",
                                                                as(demand_symbol, demand), as("C_" + what, holds))));
    end_here();
  }

  const Judge& judge_;
  const Forces& f_;
  const Fixings& x_;
  const LinkSeed& s_;
  std::size_t c_;
  Working& w_;
  std::string_view name_;               // of the link's fixing; "" where it has none
  std::vector<std::size_t> ends_ = {};  // steps in which the working ends
  std::vector<As<double>> uses_ = {};   // of the parts told so far
};

void Judge::tell(std::size_t i, std::size_t c, Working& w) const { Telling(*this, seeds_[i], c, w).all(); }

void Judge::Telling::end_at(const std::string& symbol, Force result) {
  const auto at = std::find_if(w_.steps.rbegin(), w_.steps.rend(),
                               [&](const Step& step) { return step.symbol == symbol && step.result == value(result); });
  if (at != w_.steps.rend()) ends_.push_back(static_cast<std::size_t>(w_.steps.rend() - at) - 1);
}

void Judge::Telling::against(const std::string& demand_symbol, Force demand, const std::optional<Force>& holds,
                             const std::string& what) {
  end_at(demand_symbol, demand);
  if (!holds || *holds <= zero<Force>()) return;
  w_.heading("Against " + std::string(name_));
  use(demand_symbol, demand, *holds, what);
}

void Judge::Telling::compare(const std::string& demand_symbol, Force demand, const Terms* t,
                             const std::optional<Force>& stated, const std::string& what) {
  end_at(demand_symbol, demand);
  if (!t || !stated) return;
  w_.heading("Against " + std::string(name_));
  const Force capacity = design_force(*t, *stated, "C_" + what, &w_);
  if (capacity > zero<Force>()) use(demand_symbol, demand, capacity, what);
}

template <class Entry>
void Judge::Telling::compare_held(const std::string& demand_symbol, Force demand, const Entry* entry, Force stated,
                                  const std::string& what) {
  if (!entry || !entry->made.worked_out)
    return compare(demand_symbol, demand, entry ? &entry->terms : nullptr, entry ? std::optional(stated) : std::nullopt,
                   what);
  end_at(demand_symbol, demand);
  const std::optional<Force> holds = judge_.held(*entry).force;
  if (!holds) return;
  w_.heading(fmt::format("What {} holds", name_));
  tell_weaker(f_.house, entry->terms, entry->made, f_.practice, "C_" + what, &w_);
  against(demand_symbol, demand, holds, what);
}

void Judge::Telling::combine(std::optional<Together> rule, const std::vector<As<double>>& u, std::string_view source) {
  if (!rule) return;
  if (*rule == Together::alone)
    greatest<double>(&w_, "use", "each part alone, as the sheet allows", "the fixing's sheet", u);
  else if (*rule == Together::sum)
    u.size() == 2 ? formulas::sum_of_two.told(&w_, "use", source, u[0], u[1])
                  : formulas::sum_of_three.told(&w_, "use", source, u[0], u[1], u[2]);
  else {
    const double n =
        given(&w_, "n", "the sheet's power", *rule == Together::five_thirds ? 5.0 / 3.0 : 1.5, "the fixing's sheet");
    u.size() == 2 ? formulas::powers_of_two(&w_, u[0], u[1], n) : formulas::powers_of_three(&w_, u[0], u[1], u[2], n);
  }
  end_here();
}

void Judge::Telling::brace_and_line(Force demand, const std::string& symbol, Force capacity,
                                    std::string capacity_symbol) {
  if (w_.steps.empty()) return;
  end_at(symbol, demand);
  if (capacity <= zero<Force>()) return;
  formulas::use_of_force(&w_, as(symbol, demand), as(std::move(capacity_symbol), capacity));
  end_here();
}

void Judge::Telling::lifted_most() {
  std::optional<std::size_t> most;
  for (std::size_t b = 0; b < f_.roof.bearings().size(); ++b)
    if (!f_.roof.bearings()[b].onto && f_.uplift(c_, b) > (most ? f_.uplift(c_, *most) : zero<Force>())) most = b;
  if (!most) return;
  f_.uplift(c_, *most, &w_);
  end_here();
}

void Judge::Telling::link() {
  switch (s_.of) {
    case Of::girder_bracket:
    case Of::bracket: return bracket();
    case Of::valley: return valley();
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate: return stud();
    case Of::floor_tie: return floor_tie();
    case Of::floor_fixing: return floor_fixing();
    case Of::roof_plane: return roof_plane();
    case Of::roof_brace: return roof_brace();
    case Of::line: return line();
    case Of::least: return least();
    case Of::brace: return brace();
    case Of::support: return support();
    case Of::ground: return ground();
    case Of::loose_end: return loose_end();
    case Of::loose_jamb: return loose_jamb();
    case Of::compression: return compression();
    case Of::compression_below: return compression_below();
    case Of::stump_tie:
    case Of::stump_ground: return stump();
    case Of::subfloor: return subfloor();
    case Of::house_slides: return house_slides();
    case Of::house_tips: return house_tips();
    case Of::spacing: return spacing();
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot:
    case Of::post_ground: return veranda();
  }
}

void Judge::Telling::bracket() {
  const Bracket* b = find(x_.brackets, name_);
  const Terms* t = b ? &b->terms : nullptr;
  const std::string u = f_.roof.symbol(s_.a);
  Force lift = f_.uplift(c_, s_.a, &w_);
  std::string symbol = u;
  if (lift < zero<Force>()) {
    given(&w_, "nothing", "pressed down: no uplift", zero<Force>(), "statics");
    lift = greatest<Force>(&w_, "U", "uplift on the bracket, not below nothing", "statics",
                           {as(u, lift), as("nothing", zero<Force>())});
    symbol = "U";
  }
  lift_on(symbol, lift, b);
  // Where the wind lifts more than the weight presses there is nothing to tell of it.
  if (judge_.presses_ && judges_press(f_, b, f_.roof.member_of(s_.a)) &&
      f_.roof.press(f_.wind_of(c_), s_.a) > zero<Force>()) {
    const std::size_t lifts = uses_.size();
    compare(f_.roof.press_symbol(s_.a), f_.roof.press(f_.wind_of(c_), s_.a, &w_), t, b->press, "press");
    uses_.erase(uses_.begin() + static_cast<std::ptrdiff_t>(lifts), uses_.end());  // never combined with the others
  }
  if (s_.of == Of::bracket) {
    compare("B_c", f_.bracket_across(c_, s_.a, &w_), t, b ? b->across : std::nullopt, "across");
    compare("B_a", f_.bracket_along(c_, s_.a, &w_), t, b ? b->along : std::nullopt, "along");
    if (uses_.size() == 3) combine(b->together, uses_);
  }
}

void Judge::Telling::valley() {
  const Bracket* b = find(x_.brackets, name_);
  const std::string u = fmt::format("U_v{}", s_.a + 1);
  Force lift = f_.valleys.uplift(f_.wind_of(c_), s_.a, &w_);
  std::string symbol = u;
  if (lift < zero<Force>()) {
    given(&w_, "nothing", "it stays down: no uplift", zero<Force>(), "statics");
    lift = greatest<Force>(&w_, "U", "uplift on the fixing, not below nothing", "statics",
                           {as(u, lift), as("nothing", zero<Force>())});
    symbol = "U";
  }
  lift_on(symbol, lift, b);
}

void Judge::Telling::stud() {
  const Force pull = f_.stud_uplift(c_, s_.a, &w_);
  const std::string symbol = f_.stud_symbol(c_, s_.a);
  if (s_.of == Of::plate) {
    const PlateFixing* p = find(x_.plates, name_);
    compare(symbol, pull, p ? &p->terms : nullptr, p ? std::optional(p->pull) : std::nullopt, "pull");
  } else {
    pull_on(symbol, pull, find(x_.ties, name_));
  }
}

void Judge::Telling::floor_tie() {
  const Crossing& at = f_.crossings[s_.a];
  const Force pull = f_.pull(c_, at.wall, at.support, &w_);
  const Anchor* through = find(x_.anchors, name_);
  if (through) compare("T", pull, &through->terms, through->pull, "pull");
  else pull_on("T", pull, find(x_.ties, name_));
}

void Judge::Telling::floor_fixing() {
  const Anchor* a = find(x_.anchors, name_);
  if (f_.house.first->fixing_spacing > zero<Length>())
    compare("H", f_.floor_fixing_slide(c_, s_.a, &w_), a ? &a->terms : nullptr,
            a && !a->worked_out ? std::optional(a->slide) : std::nullopt, "slide");
  else compare(f_.line_symbol(s_.a), size(f_.line_force(c_, s_.a, &w_)), nullptr, std::nullopt, "slide");
}

void Judge::Telling::roof_plane() {
  const Force p = judge_.roof_bracing_.plane_force(f_.wind_of(c_), s_.a, s_.sense, &w_);
  if (!(p > zero<Force>())) return;
  brace_and_line(p, "P", judge_.roof_bracing_.plane_holds(s_.a, s_.sense, &w_), "C_p");
}

void Judge::Telling::roof_brace() {
  const Force t = judge_.roof_bracing_.tension(f_.wind_of(c_), s_.a, &w_);
  if (!(t > zero<Force>())) {  // its angle may say why
    judge_.roof_bracing_.tell_angle(s_.a, w_);
    end_here();
    return;
  }
  judge_.roof_bracing_.foot_pull(f_.wind_of(c_), s_.a, &w_);
  for (std::size_t n = w_.steps.size() - 2; n < w_.steps.size(); ++n) ends_.push_back(n);
  w_.heading("Against " + std::string(name_));
  brace_and_line(t, "T", judge_.roof_bracing_.holds(s_.a, &w_), "C_b");
}

void Judge::Telling::line() {
  const Force v = f_.line_force(c_, s_.a, &w_);
  if ((v >= zero<Force>()) != (s_.sense == Sense::plus)) return;
  const Force capacity = f_.line_capacity(c_, s_.a, &w_);
  brace_and_line(size(v), f_.line_symbol(s_.a), capacity, f_.capacity_symbol(s_.a));
  if (const auto next = capacity > zero<Force>() ? std::nullopt : judge_.nearest_that_holds(s_.a, c_)) {
    w_.heading(fmt::format("If nothing is added on line {}", f_.lines[s_.a].name));
    const Length b = given(&w_, "b", fmt::format("to line {}, the nearest that holds", f_.lines[*next].name),
                           between_lines(f_.lines[s_.a].at, f_.lines[*next].at), "the job");
    formulas::turns_the_ceiling.told(&w_, "M_e", "moments", as(f_.line_symbol(s_.a), size(v)), as("b", b));
    end_here();
  }
}

void Judge::Telling::least() {
  const Force must = least_bracing(f_, c_, s_.a, s_.sense, &w_);
  const Force holds = holds_against_least(f_, s_.a, s_.sense, must, &w_);
  w_.heading(fmt::format("What line {} must hold at least", f_.lines[s_.a].name));
  brace_and_line(must, "L_m", holds, "C_m");
}

void Judge::Telling::brace() {
  const Force v = f_.brace_force(c_, s_.a, &w_);
  const Force own = f_.brace_capacity_counted(c_, s_.a, &w_);
  const std::string mark = in_symbol(drawn(f_, s_.a).name);
  brace_and_line(v, "V_" + mark, own, "C_" + mark);
}

void Judge::Telling::support() {
  const Anchor* a = find(x_.anchors, name_);
  const Terms* t = a ? &a->terms : nullptr;
  if (const HeldByConcrete* in = judge_.in_concrete_of(s_)) {
    f_.pull(c_, s_.a, s_.b, &w_);
    f_.slide(c_, s_.a, s_.b, &w_);
    w_.heading(fmt::format("What {} holds where it stands", name_));
    held_by_concrete(f_.house, *a, judge_.stands_in_slab(s_.a, s_.b), f_.practice, &w_);
    against("T", f_.pull(c_, s_.a, s_.b), in->pull, "pull");
    against("H", f_.slide(c_, s_.a, s_.b), in->slide, "slide");
  } else {
    compare("T", f_.pull(c_, s_.a, s_.b, &w_), t, a ? std::optional(a->pull) : std::nullopt, "pull");
    compare("H", f_.slide(c_, s_.a, s_.b, &w_), t, a ? std::optional(a->slide) : std::nullopt, "slide");
  }
  if (uses_.size() == 2)
    combine(rule_of(*a), uses_, a->together ? "the fixing's sheet" : "the safe reading: none is stated");
}

void Judge::Telling::ground() {
  const Force own = f_.pull(c_, s_.a, s_.b, &w_);
  end_here();
  const Edge* e = judge_.ground_.under(s_.a);
  if (!e) return;
  const auto weigh = [&](const PulledEdge& row, const std::string& pull, const std::string& what) {
    const std::string holds = "C_" + what;
    judge_.ground_.tell(c_, s_.a, row, holds, w_);
    end_here();
    if (row.holds <= zero<Force>()) return;
    formulas::use_of_force.told(&w_, "u_" + what, "comparison", as(pull, row.pull), as(holds, row.holds));
    end_here();
  };
  w_.heading(fmt::format("What the concrete under {} weighs", f_.support_words(s_.a, s_.b)));
  weigh(judge_.ground_.alone(c_, s_.a, s_.b), "T", "pull");
  const PulledEdge row = judge_.ground_.row(c_, s_.a, s_.b);
  if (row.first == row.last) return;
  std::vector<As<Force>> pulls;
  for (const std::size_t k : judge_.ground_.pulling(c_, s_.a, row)) {
    if (k == s_.b) {
      pulls.push_back(as("T", own));
      continue;
    }
    const std::string symbol = fmt::format("T_f{}", k + 1);
    const Force pull = f_.pull(c_, s_.a, k, &w_);
    pulls.push_back(
        as(symbol, total<Force>(&w_, symbol, "pull at " + f_.support_words(s_.a, k), "sum", {as("T", pull)})));
  }
  w_.heading("What pulls at the same concrete");
  total<Force>(&w_, "T_r", "pull of these in a row", "sum", pulls);
  weigh(row, "T_r", "row");
}

void Judge::Telling::loose_end() {
  const BraceEnd e = f_.walls[s_.a].loose_ends[s_.b];
  const std::size_t brace = f_.brace_on(s_.a, e.piece);
  if (f_.pulls(c_, brace, e.end)) {
    f_.tip_less_weight(c_, brace, &w_);
    end_here();
  }
}

void Judge::Telling::loose_jamb() {
  f_.stud_uplift(c_, f_.stud_of(s_.a, f_.walls[s_.a].loose_jambs[s_.b]), &w_);
  end_here();
}

void Judge::Telling::compression() {
  if (const EndStuds* studs = judge_.judged_studs(s_)) {
    compare("P_e", judge_.end_press_.on(c_, s_.a, s_.end, &w_), &studs->terms, studs->press, "press");
  } else if (f_.press(c_, s_.a, s_.end) > zero<Force>()) {
    f_.press(c_, s_.a, s_.end, &w_);
    end_here();
  }
}

void Judge::Telling::compression_below() {
  if (f_.presses(c_, s_.a, s_.end)) {
    f_.tip(c_, s_.a, &w_);
    end_here();
  }
}

void Judge::Telling::stump() {
  const Force up = judge_.stumps_.pull(c_, s_.a, &w_);
  if (s_.of == Of::stump_tie) {
    pull_on("T_s", up, find(x_.ties, name_));
    return;
  }
  end_at("T_s", up);
  if (!judge_.stumps_.footing_holds(c_)) return;
  w_.heading("What the footing weighs");
  const Force holds = *judge_.stumps_.footing_holds(c_, &w_);
  formulas::use_of_force.told(&w_, "u_pull", "comparison", as("T_s", up), as("C_pull", holds));
  end_here();
}

void Judge::Telling::subfloor() {
  const Force push = judge_.whole_.push(c_, pushed_to(s_), &w_);
  end_at("P", push);
  const RatedBrace* unit = find(x_.rated, name_);
  if (!unit) return;
  w_.heading("Against " + std::string(name_));
  const double n =
      given(&w_, "n", "braces that way", static_cast<double>(judge_.subfloor_braces(s_)->count), "the job's floor");
  const Force one = design_force(unit->terms, unit->racking, "C_b", &w_);
  const Force holds = formulas::subfloor_holds(&w_, n, one);
  formulas::use_of_force(&w_, as("P", push), as("C", holds));
  end_here();
}

void Judge::Telling::house_slides() {
  lifted_most();
  const Force push = judge_.whole_.push(c_, pushed_to(s_), &w_);
  end_here();
  const auto holds = judge_.whole_.held_by_friction(c_, &w_);
  if (!holds || *holds <= zero<Force>()) return;
  formulas::use_of_force(&w_, as("P", push), as("C", *holds));
  end_here();
}

void Judge::Telling::house_tips() {
  lifted_most();
  const Moment tips = judge_.whole_.tips(c_, pushed_to(s_), &w_);
  end_here();
  const Moment holds = judge_.whole_.held_about_edge(c_, pushed_to(s_), &w_);
  if (holds <= zero<Moment>()) return;
  formulas::use_of_moment(&w_, as("M_t", tips), as("C", holds));
  end_here();
}

void Judge::Telling::spacing() {
  w_.heading("Distance between bracing lines");
  const Length b = given(&w_, "b", fmt::format("from line {} to line {}", f_.lines[s_.a].name, f_.lines[s_.b].name),
                         between_lines(f_.lines[s_.a].at, f_.lines[s_.b].at), "the job");
  end_here();
  if (const auto limit = judge_.spacing_limit(s_, b)) {
    given(&w_, "b_max", "greatest distance", limit->greatest, limit->source);
    formulas::use_of_length(&w_, b, limit->greatest);
    end_here();
  }
}

void Judge::Telling::veranda() {
  const Force up = veranda_pull(f_, s_, &w_);
  const Anchor* a = find(x_.anchors, name_);
  const std::string symbol = veranda_symbol(f_, s_);
  if (s_.of == Of::veranda_wall || s_.of == Of::veranda_beam) lift_on(symbol, up, find(x_.brackets, name_));
  else if (s_.of == Of::post_top) pull_on(symbol, up, find(x_.ties, name_));
  else if (const HeldByConcrete* in = judge_.in_concrete_of(s_)) {
    w_.heading(fmt::format("What {} holds where it stands", name_));
    post_foot_holds(f_, s_.a, *a, &w_);
    against(symbol, up, in->pull, "pull");
  } else if (s_.of == Of::post_foot) {
    compare(symbol, up, a ? &a->terms : nullptr, a ? std::optional(a->pull) : std::nullopt, "pull");
  } else {
    end_at(symbol, up);
    if (!judge_.ground_.footing_holds(s_.a)) return;
    w_.heading("What the footing weighs");
    const Force holds = *judge_.ground_.footing_holds(s_.a, &w_);
    formulas::use_of_force.told(&w_, "u_pull", "comparison", as(symbol, up), as("C_pull", holds));
    end_here();
  }
}

}  // namespace belay
