#include "judge/judge.hpp"

#include "judge/formulas.hpp"
#include "judge/roof_bracing_links.hpp"
#include "judge/veranda_links.hpp"
#include "load_path/formulas_ground.hpp"
#include "load_path/joists.hpp"
#include "load_path/least_bracing.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

namespace belay {

namespace {

using Of = LinkSeed::Of;

Length apart(Length a, Length b) { return a > b ? a - b : b - a; }
// Of two places on a drawing, without the last bits of the subtraction: 9 m are 9 m wherever they are measured.
Length between_lines(Length a, Length b) { return Length::from_value(std::round(value(apart(a, b)).si * 1e9) / 1e9); }
Force size(Force v) { return v < zero<Force>() ? -v : v; }
Force not_below_zero(Force v) { return v < zero<Force>() ? zero<Force>() : v; }

// A contract at the border: a number that is none never becomes a verdict.
double finite(double x) {
  if (!std::isfinite(x)) throw std::logic_error("a demand or a use is not a number");
  return x;
}

std::string slug(std::string words) {
  std::replace(words.begin(), words.end(), ' ', '/');
  return words;
}

// Whether what presses is judged: the bracket's sheet states what it may be, and what stands on it is worked out in
// full.
bool judges_press(const Forces& f, const Bracket* b, const Member& m) {
  return b && b->press && answers_for_press(f, m);
}

std::string_view kind_of_seed(const LinkSeed& s, const Forces& f) {
  switch (s.of) {
    case Of::girder_bracket: return "girder bracket";
    case Of::bracket: return "bracket";
    case Of::valley: return "valley";
    case Of::top_tie: return "top tie";
    case Of::stud_tie: return "stud tie";
    case Of::plate: return "plate";
    case Of::floor_tie: return "floor tie";
    case Of::floor_fixing: return "floor fixing";
    case Of::roof_plane: return "roof plane";
    case Of::roof_brace: return "roof brace";
    case Of::line: return "line";
    case Of::least: return "least bracing";
    case Of::brace: return "brace";
    case Of::support: {
      const FixingKind k = f.walls[s.a].supports[s.b].kind;
      return k == FixingKind::hold_down ? "hold-down" : k == FixingKind::jamb ? "jamb" : "anchor";
    }
    case Of::loose_end: return "hold-down";
    case Of::loose_jamb: return "jamb";
    case Of::compression:
    case Of::compression_below: return "compression";
    case Of::ground: return "ground";
    case Of::spacing: return "line spacing";
    case Of::veranda_wall:
    case Of::veranda_beam: return "veranda bracket";
    case Of::post_top: return "post tie";
    case Of::post_foot: return "post foot";
    case Of::post_ground: return "ground";
    case Of::house_slides: return "house slide";
    case Of::house_tips: return "house tip";
    case Of::stump_tie: return "stump tie";
    case Of::stump_ground: return "ground";
    case Of::subfloor: return "subfloor";
  }
  return "";
}

// The combination and the wind of what presses down in a case.
std::string pressing_words(const LoadCase& k) {
  std::string r;
  for (const std::string& part : {k.down.name, k.wind, k.inside})
    if (!part.empty()) r += (r.empty() ? "" : "; ") + part;
  return r;
}

// A fixing that goes through the floor into the wall below is its own tie across the floor.
bool goes_through_floor(const House& h, const Chosen& c) {
  const Anchor* a = find(h.fixings.anchors, c.name);
  return a && a->how == How::through_floor;
}

bool of_the_whole_house(const LinkSeed& s) { return s.of == Of::house_slides || s.of == Of::house_tips; }
bool of_the_fixings(const LinkSeed& s) {
  return s.of == Of::support || s.of == Of::ground || s.of == Of::stump_tie || s.of == Of::stump_ground;
}
// The way in which the whole house is pushed.
Way pushed_to(const LinkSeed& s) {
  if (s.a == 0) return s.sense == Sense::plus ? Way::right : Way::left;
  return s.sense == Sense::plus ? Way::back : Way::front;
}

const Brace& drawn(const Forces& f, std::size_t brace) {
  return *f.house.walls[f.braces[brace].wall].pieces[f.braces[brace].piece].brace;
}

}  // namespace

bool has_downward_loads(const Loads& loads) {
  return std::any_of(loads.cases.begin(), loads.cases.end(), [](const LoadCase& k) { return !k.down.name.empty(); });
}

Judge::Judge(const Forces& f, const LineSpacing& s, const Table& m)
    : f_(f),
      spacing_(s),
      method_(m),
      roof_bracing_(f.house, f.shape, f.loads, f.practice, f.cyclonic()),
      end_press_(f),
      ground_(f),
      whole_(f),
      stumps_(f),
      presses_(has_downward_loads(f.loads)) {
  sow();
  for (const Tie& t : f_.house.fixings.ties) ties_.push_back(held_by_steel(t.terms, t.pull, t.made, Into::frame));
  for (const Bracket& b : f_.house.fixings.brackets)
    brackets_.push_back(held_by_steel(b.terms, b.uplift, b.made, Into::roof));
  for (std::size_t w = 0; w < f_.walls.size(); ++w) {
    held_.emplace_back(f_.walls[w].supports.size());
    for (std::size_t i = 0; i < held_[w].size(); ++i) {
      const Anchor* a = find(f_.house.fixings.anchors, f_.walls[w].supports[i].fixing.name);
      if (a && a->worked_out) held_[w][i] = held_by_concrete(f_.house, *a, stands_in_slab(w, i), f_.practice, nullptr);
    }
  }
  held_feet_.resize(f_.verandas.posts.size());
  for (const LinkSeed& seed : seeds_) {
    if (seed.of != Of::post_foot) continue;
    const Anchor* a = find(f_.house.fixings.anchors, fixing(seed)->name);
    if (a && a->worked_out) held_feet_[seed.a] = post_foot_holds(f_, seed.a, *a, nullptr);
  }
}

Judge::HeldBySteel Judge::held_by_steel(const Terms& t, Force stated, const SteelMade& m, Into into) const {
  if (!m.worked_out) return {design_force(t, stated, "C", nullptr)};
  HeldBySteel r{std::nullopt, steel_conditions(f_.house, t, m, into, f_.practice)};
  if (worst(r.conditions) != Met::yes) return r;
  const SteelHolds holds = steel_holds(f_.house, t, m, f_.practice, "", "", nullptr);
  r.force = holds.weaker();
  r.gives = holds.gives();
  r.marks = holds.marks;
  return r;
}
const EndStuds* Judge::judged_studs(const LinkSeed& s) const {
  const EndStuds* studs = find(f_.house.fixings.end_studs, drawn(f_, s.a).end_studs.name);
  const bool known = f_.house.wall_weight > zero<Pressure>() && f_.braces[s.a].capacity.refused.empty() &&
                     end_press_.unknown(s.a, s.end).empty();
  return studs && known ? studs : nullptr;
}
const Judge::HeldBySteel* Judge::steel_of(const LinkSeed& s) const {
  const Chosen* c = fixing(s);
  const Fixings& x = f_.house.fixings;
  switch (s.of) {
    case Of::girder_bracket:
    case Of::bracket:
    case Of::valley:
    case Of::veranda_wall:
    case Of::veranda_beam: {
      const Bracket* b = find(x.brackets, c->name);
      return b && b->made.worked_out ? &held(*b) : nullptr;
    }
    case Of::top_tie:
    case Of::stud_tie:
    case Of::floor_tie:
    case Of::stump_tie:
    case Of::post_top: {
      const Tie* t = find(x.ties, c->name);
      return t && t->made.worked_out ? &held(*t) : nullptr;
    }
    default: return nullptr;
  }
}

// In the order in which force comes down.
void Judge::sow() {
  const auto add = [&](Of of, std::size_t a, std::size_t b = 0, Sense sense = Sense::plus, End end = End::left) {
    seeds_.push_back({of, a, b, sense, end});
  };
  const std::vector<Bearing>& bearings = f_.roof.bearings();
  for (std::size_t i = 0; i < bearings.size(); ++i)
    if (bearings[i].onto) add(Of::girder_bracket, i);
  for (std::size_t i = 0; i < f_.valleys.crossings.size(); ++i) add(Of::valley, i);
  for (std::size_t i = 0; i < bearings.size(); ++i)
    if (!bearings[i].onto) add(Of::bracket, i);
  for (const Of of : {Of::veranda_wall, Of::veranda_beam})
    for (std::size_t i = 0; i < f_.verandas.rafters.size(); ++i) add(of, i);
  for (const Of of : {Of::top_tie, Of::stud_tie})
    for (std::size_t i = 0; i < f_.studs.size(); ++i)
      if (!f_.studs[i].loads.empty()) add(of, i);
  for (std::size_t i = 0; i < f_.studs.size(); ++i)
    if (!f_.studs[i].loads.empty() && !f_.studs[i].beside_fixing) add(Of::plate, i);
  for (std::size_t i = 0; i < roof_bracing_.planes.size(); ++i)
    for (const Sense s : senses) add(Of::roof_plane, i, 0, s);
  for (std::size_t i = 0; i < roof_bracing_.straps.size(); ++i) add(Of::roof_brace, i);
  for (std::size_t i = 0; i < f_.crossings.size(); ++i) add(Of::floor_tie, i);
  for (std::size_t i = 0; i < f_.lines.size(); ++i)
    if (f_.under_the_floor(i) && f_.lines[i].props) add(Of::floor_fixing, i);
  for (std::size_t i = 0; i < f_.lines.size(); ++i)
    for (const Sense s : senses) add(Of::line, i, 0, s);
  for (std::size_t i = 0; i < f_.lines.size() && f_.house.bracing.least; ++i)
    for (const Sense s : senses)
      if (f_.lines[i].props) add(Of::least, i, 0, s);
  // A piece that counts as an opening is no brace.
  const auto braces = [&](std::size_t i) { return !f_.braces[i].capacity.left_out; };
  for (std::size_t i = 0; i < f_.braces.size(); ++i)
    if (braces(i)) add(Of::brace, i);
  for (std::size_t w = 0; w < f_.walls.size(); ++w) {
    for (std::size_t i = 0; i < f_.walls[w].supports.size(); ++i) add(Of::support, w, i);
    for (std::size_t i = 0; i < f_.walls[w].loose_ends.size(); ++i) add(Of::loose_end, w, i);
    for (std::size_t i = 0; i < f_.walls[w].loose_jambs.size(); ++i) add(Of::loose_jamb, w, i);
  }
  for (const Of of : {Of::post_top, Of::post_foot})
    for (std::size_t i = 0; i < f_.verandas.posts.size(); ++i) add(of, i);
  for (std::size_t i = 0; i < f_.braces.size(); ++i)
    for (const End e : {End::left, End::right})
      if (braces(i)) add(Of::compression, i, 0, Sense::plus, e);
  // Where a first floor's brace presses and no brace of the ground floor ends.
  for (std::size_t i = 0; i < f_.braces.size(); ++i)
    for (const End e : {End::left, End::right})
      if (braces(i) && f_.lines[f_.braces[i].line].floor == Floor::first && f_.press_left(i, e) > 1e-9)
        add(Of::compression_below, i, 0, Sense::plus, e);
  for (const Of of : {Of::stump_tie, Of::stump_ground})
    for (std::size_t i = 0; i < stumps_.all.size(); ++i) add(of, i);
  for (std::size_t w = 0; w < f_.walls.size() && stumps_.all.empty(); ++w)
    for (std::size_t i = 0; i < f_.walls[w].supports.size(); ++i)
      if (f_.house.walls[w].floor == Floor::ground && f_.can_be_pulled(w, i)) add(Of::ground, w, i);
  for (std::size_t i = 0; i < f_.verandas.posts.size(); ++i) add(Of::post_ground, i);
  for (const std::size_t along : {0U, 1U})
    for (const Sense s : senses)
      if (f_.house.framed) add(Of::subfloor, along, 0, s);
  if (whole_.stated())
    for (const Of of : {Of::house_slides, Of::house_tips})
      for (const std::size_t along : {0U, 1U})
        for (const Sense s : senses) add(of, along, 0, s);
  // Between lines that prop one ceiling; they stand in order of direction and place.
  std::set<std::pair<std::size_t, std::size_t>> between;
  for (std::size_t block = 0; block <= f_.house.wings.size(); ++block) {
    std::optional<std::size_t> before;
    for (std::size_t i = 0; i < f_.lines.size(); ++i) {
      const Line& l = f_.lines[i];
      if (!l.props || std::find(l.blocks.begin(), l.blocks.end(), block) == l.blocks.end()) continue;
      if (before && f_.lines[*before].runs == l.runs && f_.lines[*before].floor == l.floor &&
          between.emplace(*before, i).second)
        add(Of::spacing, *before, i);
      before = i;
    }
  }
}

const Chosen* Judge::fixing(const LinkSeed& s) const {
  switch (s.of) {
    case Of::girder_bracket: return &f_.roof.member_of(s.a).onto;
    case Of::valley: return &f_.house.wings[f_.valleys.crossings[s.a].wing].valley->onto;
    case Of::bracket: return &f_.roof.member_of(s.a).bracket;
    case Of::top_tie: return &f_.house.walls[f_.studs[s.a].wall].top_tie;
    case Of::stud_tie: return &f_.house.walls[f_.studs[s.a].wall].stud_tie;
    case Of::plate: return &f_.house.walls[f_.studs[s.a].wall].plate_fixing;
    case Of::floor_tie: {
      const Chosen& through = f_.walls[f_.crossings[s.a].wall].supports[f_.crossings[s.a].support].fixing;
      return goes_through_floor(f_.house, through) ? &through : &f_.house.first->tie;
    }
    case Of::floor_fixing: return &f_.house.first->fixing;
    case Of::roof_brace: return &f_.house.roof_braces[s.a].fixing;
    case Of::brace: return &drawn(f_, s.a).fixing;
    case Of::compression: return &drawn(f_, s.a).end_studs;
    case Of::support: return &f_.walls[s.a].supports[s.b].fixing;
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot: return &veranda_fixing(f_, s);
    case Of::stump_tie: return &f_.house.framed->stumps->tie;
    case Of::subfloor: {
      static const Chosen none;
      const SubfloorBraces* b = subfloor_braces(s);
      return b ? &b->use : &none;
    }
    default: return nullptr;
  }
}
const SubfloorBraces* Judge::subfloor_braces(const LinkSeed& s) const {
  const std::optional<SubfloorBraces>& b = s.a == 0 ? f_.house.framed->across : f_.house.framed->up;
  return b ? &*b : nullptr;
}

const Terms* Judge::terms(const LinkSeed& s) const {
  const Chosen* c = fixing(s);
  if (!c || !c->given()) return nullptr;
  const Fixings& x = f_.house.fixings;
  const auto in_list = [&](const auto& list) -> const Terms* {
    const auto* e = find(list, c->name);
    return e ? &e->terms : nullptr;
  };
  switch (s.of) {
    case Of::girder_bracket:
    case Of::bracket:
    case Of::valley:
    case Of::veranda_wall:
    case Of::veranda_beam: return in_list(x.brackets);
    case Of::top_tie:
    case Of::stud_tie:
    case Of::stump_tie:
    case Of::post_top: return in_list(x.ties);
    case Of::subfloor: return in_list(x.rated);
    case Of::plate: return in_list(x.plates);
    case Of::floor_tie: return goes_through_floor(f_.house, *c) ? in_list(x.anchors) : in_list(x.ties);
    case Of::floor_fixing:
    case Of::support:
    case Of::post_foot: return in_list(x.anchors);
    case Of::roof_brace: return in_list(x.straps);
    case Of::compression: return in_list(x.end_studs);
    case Of::brace:
      for (const Terms* t :
           {in_list(x.straps), in_list(x.sheets), in_list(x.rated), in_list(x.linings), in_list(x.perforated)})
        if (t) return t;
      return nullptr;
    default: return nullptr;
  }
}

// ---- demand and capacity in one case --------------------------------------------------------------------------------

namespace {

std::optional<double> use_of(Force demand, const std::optional<Force>& capacity) {
  if (!capacity || *capacity <= zero<Force>())
    return demand <= zero<Force>() && capacity ? std::optional(0.0) : std::nullopt;
  return finite(static_cast<double>(demand / *capacity));
}

}  // namespace

Judge::Parts Judge::parts(const LinkSeed& s, std::size_t c) const {
  Parts r{};
  const auto add = [&](std::string_view name, Force demand, const std::optional<Force>& capacity,
                       Role role = Role::single, std::string_view rule = {}) {
    finite(value(demand).si);
    r.part[r.count++] = {
        role, name, value(demand), capacity ? std::optional(value(*capacity)) : std::nullopt, use_of(demand, capacity),
        rule};
  };
  // The uses of single parts under the sheet's own rule; a sheet without one cannot answer for two parts at once.
  const auto combine = [&](std::string_view name, std::optional<Together> rule, std::initializer_list<std::size_t> of) {
    std::vector<double> known;
    std::size_t acting = 0;
    bool all = true;
    for (const std::size_t i : of) {
      // A part with nothing to hold needs no capacity.
      const auto u = r.part[i].demand.si > 0.0 ? r.part[i].use : std::optional(0.0);
      all = all && u.has_value();
      known.push_back(u.value_or(0.0));
      acting += u.value_or(1.0) > 0.0;
    }
    const bool answered = all && (rule || acting < 2);
    const double sum = together(rule.value_or(Together::sum), known);
    r.combined_missing = all && !answered;
    r.part[r.count++] = {Role::combined,
                         name,
                         value(finite(sum)),
                         value(1.0),
                         answered ? std::optional(sum) : std::nullopt,
                         rule ? words(*rule) : std::string_view("not stated by the sheet")};
  };
  const auto pull_on = [&](const auto* entry, Force demand) {
    add("pull", demand, entry ? std::optional(design_force(entry->terms, entry->pull, "C", nullptr)) : std::nullopt);
  };
  const auto tie = [&](const Tie* t, Force demand) { add("pull", demand, t ? held(*t).force : std::nullopt); };
  const auto lift_on = [&](const Bracket* b, Force demand) {
    add("uplift", demand, b ? held(*b).force : std::nullopt);
  };
  const Fixings& x = f_.house.fixings;
  const Chosen* chosen = fixing(s);
  const std::string_view name = chosen ? std::string_view(chosen->name) : std::string_view();
  switch (s.of) {
    case Of::girder_bracket:
    case Of::bracket: {
      const Bracket* b = find(x.brackets, name);
      const auto of = [&](const std::optional<Force>& stated) {
        return b && stated ? std::optional(design_force(b->terms, *stated, "C", nullptr)) : std::nullopt;
      };
      lift_on(b, not_below_zero(f_.uplift(c, s.a)));
      if (s.of == Of::bracket) {
        add("across", f_.bracket_across(c, s.a), b ? of(b->across) : std::nullopt);
        add("along", f_.bracket_along(c, s.a), b ? of(b->along) : std::nullopt);
        if (b) combine("together", b->together, {0, 1, 2});
      }
      // Weight and wind that press are no case of those that lift: never combined with the others.
      const bool judged = judges_press(f_, b, f_.roof.member_of(s.a));
      if (presses_)
        add("press", f_.roof.press(f_.wind_of(c), s.a), judged ? of(b->press) : std::nullopt,
            judged ? Role::single : Role::reported);
      break;
    }
    case Of::valley: lift_on(find(x.brackets, name), not_below_zero(f_.valleys.uplift(f_.wind_of(c), s.a))); break;
    case Of::top_tie:
    case Of::stud_tie: tie(find(x.ties, name), f_.stud_uplift(c, s.a)); break;
    case Of::plate: pull_on(find(x.plates, name), f_.stud_uplift(c, s.a)); break;
    case Of::floor_tie: {
      const Force pull = f_.pull(c, f_.crossings[s.a].wall, f_.crossings[s.a].support);
      const Anchor* through = find(x.anchors, name);
      if (through) add("pull", pull, design_force(through->terms, through->pull, "C", nullptr));
      else tie(find(x.ties, name), pull);
      break;
    }
    case Of::floor_fixing: {
      if (!(f_.house.first->fixing_spacing > zero<Length>())) {
        add("slide", size(f_.line_force(c, s.a)), std::nullopt);
        break;
      }
      const Anchor* a = find(x.anchors, name);
      const auto one =
          a && !a->worked_out ? std::optional(design_force(a->terms, a->slide, "C", nullptr)) : std::nullopt;
      add("along", f_.floor_fixing_along(c, s.a), one, Role::component);
      add("across", f_.floor_fixing_across(c, s.a), one, Role::component);
      add("slide", f_.floor_fixing_slide(c, s.a), one, Role::single, "along and across together");
      break;
    }
    case Of::roof_plane: {
      const bool stated = !roof_bracing_.planes[s.a].straps.empty();
      add("along", roof_bracing_.plane_force(f_.wind_of(c), s.a, s.sense),
          stated ? std::optional(roof_bracing_.plane_holds(s.a, s.sense)) : std::nullopt);
      break;
    }
    case Of::roof_brace: {
      const RoofBracing::Foot_pull foot = roof_bracing_.foot_pull(f_.wind_of(c), s.a);
      add("tension", roof_bracing_.tension(f_.wind_of(c), s.a), roof_bracing_.holds_counted(s.a));
      add("foot along", foot.along, std::nullopt, Role::reported);
      add("foot inwards", foot.across, std::nullopt, Role::reported);
      add("foot up", foot.lift, std::nullopt, Role::reported);
      break;
    }
    case Of::line: {
      const Force v = f_.line_force(c, s.a);
      const bool mine = (v >= zero<Force>()) == (s.sense == Sense::plus);
      add("racking", mine ? size(v) : zero<Force>(), f_.line_capacity(c, s.a));
      break;
    }
    case Of::least: {
      const Force least = least_bracing(f_, c, s.a, s.sense);
      add("least racking", least, holds_against_least(f_, s.a, s.sense, least));
      break;
    }
    case Of::brace: add("racking", f_.brace_force(c, s.a), f_.brace_capacity_counted(c, s.a)); break;
    case Of::support: {
      const Anchor* a = find(x.anchors, name);
      std::optional<Force> pull, slide;
      if (const HeldByConcrete* in = in_concrete_of(s)) {
        pull = in->pull;
        slide = in->slide;
      } else if (a) {
        pull = design_force(a->terms, a->pull, "C", nullptr);
        slide = design_force(a->terms, a->slide, "C", nullptr);
      }
      add("pull", f_.pull(c, s.a, s.b), pull);
      add("along", f_.along(c, s.a, s.b), slide, Role::component);
      add("across", f_.across(c, s.a, s.b), slide, Role::component);
      add("slide", f_.slide(c, s.a, s.b), slide, Role::single, "along and across together");
      if (a) combine("both", rule_of(*a), {0, 3});
      break;
    }
    case Of::loose_end: {
      const BraceEnd e = f_.walls[s.a].loose_ends[s.b];
      Force pull = zero<Force>();
      const std::size_t brace = f_.brace_on(s.a, e.piece);
      if (f_.pulls(c, brace, e.end)) pull = not_below_zero(f_.tip_less_weight(c, brace));
      add("pull", pull, std::nullopt);
      break;
    }
    case Of::loose_jamb: {
      add("pull", f_.stud_uplift(c, f_.stud_of(s.a, f_.walls[s.a].loose_jambs[s.b])), std::nullopt);
      break;
    }
    case Of::compression:
      if (const EndStuds* studs = judged_studs(s))
        add("press", end_press_.on(c, s.a, s.end), design_force(studs->terms, studs->press, "C", nullptr));
      else add("press", f_.press(c, s.a, s.end), std::nullopt);
      break;
    case Of::compression_below:
      add("press", f_.presses(c, s.a, s.end) ? f_.tip(c, s.a) : zero<Force>(), std::nullopt);
      break;
    case Of::ground: {
      const Edge* e = ground_.under(s.a);
      add("pull", f_.pull(c, s.a, s.b), e ? std::optional(ground_.alone(c, s.a, s.b).holds) : std::nullopt);
      if (!e || !e->lifted) break;
      const PulledEdge row = ground_.row(c, s.a, s.b);
      add("pull in a row", row.pull, row.holds);
      break;
    }
    case Of::veranda_wall:
    case Of::veranda_beam: lift_on(find(x.brackets, name), veranda_pull(f_, s)); break;
    case Of::post_top: tie(find(x.ties, name), veranda_pull(f_, s)); break;
    case Of::post_foot: {
      if (const HeldByConcrete* in = in_concrete_of(s)) add("pull", veranda_pull(f_, s), in->pull);
      else pull_on(find(x.anchors, name), veranda_pull(f_, s));
      break;
    }
    case Of::post_ground: add("pull", veranda_pull(f_, s), ground_.footing_holds(s.a)); break;
    case Of::stump_tie: tie(find(x.ties, name), stumps_.pull(c, s.a)); break;
    case Of::stump_ground: add("pull", stumps_.pull(c, s.a), stumps_.footing_holds(c)); break;
    case Of::subfloor: {
      const RatedBrace* unit = find(x.rated, name);
      add("racking", whole_.push(c, pushed_to(s)),
          unit ? std::optional(formulas::subfloor_holds(nullptr, static_cast<double>(subfloor_braces(s)->count),
                                                        design_force(unit->terms, unit->racking, "C_b", nullptr)))
               : std::nullopt);
      break;
    }
    case Of::house_slides: add("slide", whole_.push(c, pushed_to(s)), whole_.held_by_friction(c)); break;
    case Of::house_tips: {
      const Moment tips = whole_.tips(c, pushed_to(s)), holds = whole_.held_about_edge(c, pushed_to(s));
      r.part[r.count++] = {
          Role::single,
          "tip",
          value(tips),
          value(holds),
          holds > zero<Moment>() ? std::optional(finite(static_cast<double>(tips / holds))) : std::nullopt,
          {}};
      break;
    }
    case Of::spacing: {
      const Length b = between_lines(f_.lines[s.a].at, f_.lines[s.b].at);
      const auto limit = spacing_limit(s, b);
      r.part[r.count++] = {Role::single,
                           "spacing",
                           value(b),
                           limit ? std::optional(value(limit->greatest)) : std::nullopt,
                           limit ? std::optional(finite(static_cast<double>(b / limit->greatest))) : std::nullopt,
                           {}};
      break;
    }
  }
  return r;
}

// The case that decides: first those in which something is over, then those that the sheet leaves open (a part that
// acts has no capacity, or two act at once without a rule), then the rest: a link holds only if it is answered in every
// case. Among equals the greatest use (without a capacity: the greatest first demand); ties within 1e-9 go to the
// first.
Judge::Deciding Judge::deciding_case(const LinkSeed& s) const {
  Deciding r{0, {}, {}};
  if (s.of == Of::spacing) return r;
  int most_grave = -1;
  double most_use = -1.0, most_demand = -1.0;
  // What no bracing line has a part in is the same under either ceiling.
  const std::size_t cases = braced(s) ? f_.cases() : f_.loads.cases.size();
  for (std::size_t c = 0; c < cases; ++c) {
    const Parts p = parts(s, c);
    r.acting.push_back(acting(p));
    double use = 0.0;
    bool open = p.combined_missing;
    for (std::size_t i = 0; i < p.count; ++i) {
      const Raw& raw = p.part[i];
      use = std::max(use, raw.use.value_or(0.0));
      open = open || is_open(raw);
      const auto known =
          std::find_if(r.greatest.begin(), r.greatest.end(), [&](const Greatest& g) { return g.part == raw.part; });
      if (known == r.greatest.end()) r.greatest.push_back({raw.part, raw.demand.si, c});
      else if (raw.demand.si > known->si) *known = {raw.part, raw.demand.si, c};
    }
    const int grave = use > 1.0 ? 2 : open ? 1 : 0;
    const double demand = p.part[0].demand.si;
    const bool more = grave > most_grave || (grave == most_grave && use > most_use * (1.0 + 1e-9) + 1e-12);
    const bool same = grave == most_grave && !more && use >= most_use * (1.0 - 1e-9) - 1e-12;
    if (more || (same && use == 0.0 && demand > most_demand * (1.0 + 1e-9))) {
      r.load_case = c;
      most_grave = grave;
      most_use = use;
      most_demand = demand;
    }
  }
  return r;
}

bool Judge::braced(const LinkSeed& s) const {
  switch (s.of) {
    case Of::bracket:
    case Of::floor_tie:
    case Of::floor_fixing:
    case Of::line:
    case Of::brace:
    case Of::support:
    case Of::loose_end:
    case Of::compression:
    case Of::compression_below:
    case Of::ground:
    case Of::stump_tie:
    case Of::stump_ground: return true;
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate:
    case Of::loose_jamb: return !crossings_to(s).empty();
    default: return false;
  }
}
// "": the link has the same to hold under the other ceiling, or the job asks for a flexible one alone.
std::string_view Judge::ceiling_of(const LinkSeed& s, std::size_t c) const {
  if (f_.house.ceiling == Ceiling::flexible || !braced(s)) return {};
  if (f_.house.ceiling == Ceiling::both) {
    const std::size_t under_other = c < f_.loads.cases.size() ? c + f_.loads.cases.size() : f_.wind_of(c);
    const Parts here = parts(s, c), there = parts(s, under_other);
    bool same = true;
    for (std::size_t i = 0; i < here.count; ++i) same = same && here.part[i].demand.si == there.part[i].demand.si;
    if (same) return {};
  }
  return words(f_.under_rigid(c) ? Ceiling::rigid : Ceiling::flexible);
}
std::optional<std::size_t> Judge::case_named(const CaseName& name) const {
  for (std::size_t c = 0; c < f_.loads.cases.size(); ++c) {
    if (f_.of(c).id != name.id) continue;
    return name.ceiling == words(Ceiling::rigid) && f_.house.ceiling == Ceiling::both ? c + f_.loads.cases.size() : c;
  }
  return std::nullopt;
}

// ---- what is said of a link -----------------------------------------------------------------------------------------

// Of a wall that two blocks share, the first of them.
std::size_t Judge::block_of(const LinkSeed& s) const {
  const auto of_wall = [&](std::size_t wall) { return f_.house.walls[wall].blocks.front(); };
  switch (s.of) {
    case Of::girder_bracket:
    case Of::bracket: return f_.roof.member_of(s.a).block;
    case Of::valley: return f_.valleys.crossings[s.a].wing + 1;
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate: return of_wall(f_.studs[s.a].wall);
    case Of::line:
    case Of::least:
    case Of::spacing: return f_.lines[s.a].blocks.front();
    case Of::brace:
    case Of::compression: return of_wall(f_.braces[s.a].wall);
    case Of::support:
    case Of::ground:
    case Of::loose_end:
    case Of::loose_jamb: return of_wall(s.a);
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot:
    case Of::post_ground: return of_wall(f_.verandas.wall_of(*veranda_of(f_, s)));
    case Of::roof_plane:
    case Of::roof_brace:
    case Of::floor_tie:
    case Of::floor_fixing:
    case Of::compression_below:
    case Of::house_slides:
    case Of::house_tips:
    case Of::stump_tie:
    case Of::stump_ground:
    case Of::subfloor: return 0;  // of the main block alone
  }
  return 0;
}

void Judge::place(const LinkSeed& s, Link& l) const {
  const House& h = f_.house;
  const auto on_wall = [&](std::size_t wall, const std::optional<Length>& at) {
    const Wall& w = h.walls[wall];
    l.where.wall = w.name;
    l.where.face = w.outside ? std::string(words(w.side)) : "inside";
    l.where.from_start = at;
  };
  l.where.block = name_of(h, block_of(s));
  l.where.floor = std::string(words(floor_of(s)));
  switch (s.of) {
    case Of::valley:
      l.where.face = "roof";
      l.where.words = f_.valleys.crossings[s.a].words;
      break;
    case Of::girder_bracket:
      l.where.face = "roof";
      l.where.words = f_.roof.bearings()[s.a].words;
      break;
    case Of::bracket: {
      const Bearing& b = f_.roof.bearings()[s.a];
      on_wall(b.feet.at(0).wall, b.feet[0].at);
      l.where.words = b.words;
      break;
    }
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate:
      on_wall(f_.studs[s.a].wall, f_.studs[s.a].at);
      l.where.words = fmt::format("{} {}", l.kind, f_.stud_words(f_.studs[s.a]));
      break;
    case Of::floor_tie: {
      const Crossing& crossing = f_.crossings[s.a];
      on_wall(crossing.wall, f_.walls[crossing.wall].supports[crossing.support].at);
      l.where.words = "floor tie " + f_.support_words(crossing.wall, crossing.support);
      break;
    }
    case Of::floor_fixing:
      on_wall(f_.lines[s.a].walls.front(), std::nullopt);
      l.where.words = "floor to line " + f_.lines[s.a].name;
      break;
    case Of::roof_plane: {
      const RoofPlane& p = roof_bracing_.planes[s.a];
      l.where.face = "roof";
      if (const auto wall = wall_under(h, p.slope)) on_wall(*wall, std::nullopt);
      l.where.words = roof_plane_words(p.slope, f_.shape.ridge, s.sense);
      break;
    }
    case Of::roof_brace: {
      const RoofBrace& b = h.roof_braces[s.a];
      l.where.face = "roof";
      if (const auto wall = wall_under(h, b.slope, b.foot)) on_wall(*wall, b.foot - h.walls[*wall].from);
      l.where.words = roof_brace_words(b);
      break;
    }
    case Of::line:
    case Of::least: {
      const Line& line = f_.lines[s.a];
      on_wall(line.walls.front(), std::nullopt);
      const std::string_view way = line.runs == Along::across ? (s.sense == Sense::plus ? "right" : "left")
                                                              : (s.sense == Sense::plus ? "back" : "front");
      l.where.words = fmt::format("{} {} to the {}", s.of == Of::line ? "line" : "least bracing of", line.name, way);
      break;
    }
    case Of::brace: {
      const BraceAt& b = f_.braces[s.a];
      on_wall(b.wall, h.walls[b.wall].pieces[b.piece].from);
      l.where.words = "brace " + drawn(f_, s.a).name;
      break;
    }
    case Of::support:
    case Of::ground: {
      const Support& x = f_.walls[s.a].supports[s.b];
      on_wall(s.a, x.at);
      const std::string own = f_.support_words(s.a, s.b);
      l.where.words = s.of == Of::ground ? "ground under " + own : own;
      if (s.of == Of::ground) break;
      for (const Stud& t : f_.studs)
        if (t.wall == s.a && t.jamb && t.support == s.b && f_.stud_words(t) != own)
          l.where.also.push_back(f_.stud_words(t));
      for (const BraceEnd& e : x.ends) {
        const std::string end =
            fmt::format("{} {}", h.walls[s.a].pieces[e.piece].brace->name, end_word(h.walls[s.a], e.end));
        if (end != own) l.where.also.push_back(end);
      }
      break;
    }
    case Of::loose_end: {
      const BraceEnd e = f_.walls[s.a].loose_ends[s.b];
      const Piece& p = h.walls[s.a].pieces[e.piece];
      on_wall(s.a, e.end == End::left ? p.from : p.to);
      l.where.words = fmt::format("{} {}", p.brace->name, end_word(h.walls[s.a], e.end));
      break;
    }
    case Of::loose_jamb: {
      const Jamb j = f_.walls[s.a].loose_jambs[s.b];
      const Piece& p = h.walls[s.a].pieces[j.piece];
      on_wall(s.a, j.end == End::left ? p.from : p.to);
      l.where.words = f_.stud_words(stud_of(s));
      break;
    }
    case Of::compression:
    case Of::compression_below: {
      const BraceAt& b = f_.braces[s.a];
      const Piece& p = h.walls[b.wall].pieces[b.piece];
      const auto below = s.of == Of::compression_below ? f_.wall_below(h.walls[b.wall], f_.end_of(s.a, s.end))
                                                       : std::optional<std::size_t>();
      if (below) on_wall(*below, f_.end_of(s.a, s.end) - h.walls[*below].from);
      else on_wall(b.wall, s.end == End::left ? p.from : p.to);
      l.where.words = fmt::format("compression {}{} {}", s.of == Of::compression ? "" : "below ", p.brace->name,
                                  end_word(h.walls[b.wall], s.end));
      break;
    }
    case Of::house_slides:
    case Of::house_tips:
    case Of::subfloor: {
      static constexpr std::array<std::string_view, 4> ways{"right", "back", "left", "front"};
      const std::string_view what = s.of == Of::house_slides ? "house slides"
                                    : s.of == Of::house_tips ? "house tips"
                                                             : "under the floor";
      l.where.words = fmt::format("{} to the {}", what, ways[static_cast<std::size_t>(pushed_to(s))]);
      break;
    }
    case Of::stump_tie:
    case Of::stump_ground: {
      const Stump& stump = stumps_.all[s.a];
      on_wall(stump.walls.front().wall, stump.along);
      l.where.words = fmt::format("{}{}", s.of == Of::stump_ground ? "ground under " : "", stump.words);
      break;
    }
    case Of::spacing:
      l.where.wall = f_.lines[s.a].name;
      l.where.face = "inside";
      l.where.words = fmt::format("spacing {} to {}", f_.lines[s.a].name, f_.lines[s.b].name);
      break;
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot:
    case Of::post_ground: place_of_veranda(f_, s, l.where); break;
  }
  l.id = slug(l.where.words);
}

// The greatest distance between lines: the method's or the job's own, the lesser. Where the method's table is not in
// hand, that of lighter winds when it is passed, which no table can allow.
std::optional<Judge::SpacingLimit> Judge::spacing_limit(const LinkSeed& s, Length b) const {
  const std::optional<Length> by_method = spacing_.greatest                                   ? spacing_.greatest
                                          : spacing_.never_above && b > *spacing_.never_above ? spacing_.never_above
                                                                                              : std::nullopt;
  const BracingAsked& asked = f_.house.bracing;
  const std::optional<Length>& by_job = asked.at_most[static_cast<std::size_t>(f_.lines[s.a].floor)];
  if (by_job && (!by_method || *by_job < *by_method)) return SpacingLimit{*by_job, "the job, by " + asked.given_by};
  return by_method ? std::optional(SpacingLimit{*by_method, spacing_.source}) : std::nullopt;
}

// To the nearest edge of the slab, in plan. An outside wall's fixing stands in the middle of its plate; an inside wall
// may stand half a plate to either side of the line that the drawing gives: the worse. Nothing: the plate's width is
// unknown.
std::optional<Length> Judge::edge_of(std::size_t wall, const Support& s) const {
  const Wall& w = f_.house.walls[wall];
  if (s.edge) return s.edge;  // as it was measured
  if (w.plate_width <= zero<Length>()) return std::nullopt;
  const Point me = in_plan(wall, s);
  const Length doubt = w.outside || f_.side_of_joint(w) ? zero<Length>() : w.plate_width / 2.0;
  const Length doubt_x = w.runs == Along::up ? doubt : zero<Length>(),
               doubt_y = w.runs == Along::across ? doubt : zero<Length>();
  if (!f_.house.wings.empty()) return edge_of_outline(me, w) - doubt;
  const Length in_x = std::min(me.x, f_.house.across - me.x) - doubt_x,
               in_y = std::min(me.y, f_.house.up - me.y) - doubt_y;
  return std::min(in_x, in_y) + f_.house.slab.beyond;
}

// The outline is where outside walls stand, and the slab may go on past it; a step between two slabs is an edge of the
// higher one, at the wall's face.
std::vector<SlabEdge> Judge::edges_of_outline(const Wall& on) const {
  const House& h = f_.house;
  std::vector<SlabEdge> r;
  for (const Wall& w : h.walls)
    if (w.outside && w.floor == Floor::ground) r.push_back({w.runs, w.line, w.from, w.to, h.slab.beyond});
  for (std::size_t b = 1; b <= h.wings.size(); ++b) {
    const Wing& wing = h.wings[b - 1];
    if (wing.level == zero<Length>() || !(stands_in(on, 0) || stands_in(on, b))) continue;
    const bool across = !is_across(outward(wing.joint));
    const bool far = wing.joint == Side::back || wing.joint == Side::right;
    const Length corner = across ? wing.left : wing.front, length = across ? wing.across : wing.up,
                 line = (across ? wing.front : wing.left) + (far ? (across ? wing.up : wing.across) : zero<Length>());
    r.push_back({across ? Along::across : Along::up, line, corner, corner + length, zero<Length>()});
  }
  return r;
}
Length Judge::edge_of_outline(const Point& me, const Wall& on) const {
  Length nearest = everywhere;
  for (const SlabEdge& e : edges_of_outline(on)) {
    const Length at = e.runs == Along::across ? me.x : me.y, off = apart(e.runs == Along::across ? me.y : me.x, e.line);
    const Length past = at < e.from ? e.from - at : at > e.to ? at - e.to : zero<Length>();
    nearest = std::min(nearest, square_root<si::length>(Area(off * off + past * past)) + e.past);
  }
  return nearest;
}

// An inside wall may stand half a plate to either side of its line.
StandsInSlab Judge::stands_in_slab(std::size_t wall, std::size_t support) const {
  const House& h = f_.house;
  const Wall& w = h.walls[wall];
  StandsInSlab r;
  if (w.plate_width <= zero<Length>()) return r;
  const auto doubt_of = [&](const Wall& x, Along square_to) {
    const bool doubtful = !x.outside && !f_.side_of_joint(x) && x.runs != square_to;
    return doubtful ? x.plate_width / 2.0 : zero<Length>();
  };
  const Length doubt_x = doubt_of(w, Along::across), doubt_y = doubt_of(w, Along::up);
  const Point me = in_plan(wall, f_.walls[wall].supports[support]);
  std::array<Length, 4> edges = slab_about(me.x, me.y, edges_of_outline(w));
  for (const Side side : {Side::left, Side::right}) edges[static_cast<std::size_t>(side)] -= doubt_x;
  for (const Side side : {Side::front, Side::back}) edges[static_cast<std::size_t>(side)] -= doubt_y;
  // What was measured to the nearest edge is so; the others are no farther off than planned.
  if (const auto& measured = f_.walls[wall].supports[support].edge)
    *std::min_element(edges.begin(), edges.end()) = *measured;
  r.edges = edges;
  for (std::size_t i = 0; i < f_.walls.size(); ++i)
    for (std::size_t k = 0; k < f_.walls[i].supports.size(); ++k) {
      if ((i == wall && k == support) || h.walls[i].floor != w.floor) continue;
      const Point other = in_plan(i, f_.walls[i].supports[k]);
      const auto nearer = [&](Length d, Length doubt) {
        const Length off = apart(d, zero<Length>());
        const Length left = off > doubt ? off - doubt : zero<Length>();
        return d < zero<Length>() ? -left : left;
      };
      const bool same = i == wall;  // both stand to the same side
      const Length dx = same ? zero<Length>() : doubt_x + doubt_of(h.walls[i], Along::across),
                   dy = same ? zero<Length>() : doubt_y + doubt_of(h.walls[i], Along::up);
      r.neighbours.push_back({nearer(other.x - me.x, dx), nearer(other.y - me.y, dy)});
    }
  return r;
}
const HeldByConcrete* Judge::in_concrete_of(const LinkSeed& s) const {
  if (s.of != Of::support && s.of != Of::post_foot) return nullptr;
  const auto& h = s.of == Of::support ? held_[s.a][s.b] : held_feet_[s.a];
  return h ? &*h : nullptr;
}

// Centre of a fixing in plan: in the middle of an outside wall's plate, on an inside wall's line. The wall at a joint
// stands as an outside wall of the main block would.
Point Judge::in_plan(std::size_t wall, const Support& s) const {
  const Wall& w = f_.house.walls[wall];
  const std::optional<Side> joint = f_.side_of_joint(w);
  const Side side = joint.value_or(w.side);
  const bool far = side == Side::back || side == Side::right;
  const Length line = !w.outside && !joint ? w.line : far ? w.line - w.plate_width / 2.0 : w.line + w.plate_width / 2.0;
  const Length at = w.from + s.at;
  return w.runs == Along::across ? Point{at, line} : Point{line, at};
}

// To the nearest other fixing of any wall: at a corner that is one of the wall round it.
std::optional<Length> Judge::neighbour_of(std::size_t wall, std::size_t support) const {
  const Point me = in_plan(wall, f_.walls[wall].supports[support]);
  std::optional<Area> nearest;
  for (std::size_t w = 0; w < f_.walls.size(); ++w)
    for (std::size_t i = 0; i < f_.walls[w].supports.size(); ++i) {
      if ((w == wall && i == support) || f_.house.walls[w].floor != f_.house.walls[wall].floor) continue;
      const Point other = in_plan(w, f_.walls[w].supports[i]);
      const Area d = (other.x - me.x) * (other.x - me.x) + (other.y - me.y) * (other.y - me.y);
      if (!nearest || d < *nearest) nearest = d;
    }
  return nearest ? std::optional(square_root<si::length>(*nearest)) : std::nullopt;
}

std::optional<Length> Judge::bay_of(const Stud& s) const {
  if (!s.plate) return std::nullopt;
  const auto& on = f_.walls[s.wall].plates[*s.plate].supports;
  for (std::size_t i = 0; i + 1 < on.size(); ++i) {
    const Length a = f_.walls[s.wall].supports[on[i]].at, b = f_.walls[s.wall].supports[on[i + 1]].at;
    if (s.at >= a && s.at <= b) return b - a;
  }
  return std::nullopt;
}

std::vector<Condition> Judge::end_studs_conditions(const LinkSeed& s) const {
  const House& h = f_.house;
  const EndStuds& studs = *find(h.fixings.end_studs, fixing(s)->name);
  auto r = frame_conditions(h, studs.terms, f_.cyclonic(), false);
  const Units& u = h.print == Print::us ? us : metric;
  const Length height = height_of(h, h.walls[f_.braces[s.a].wall]);
  r.push_back({"height of the wall",
               fmt::format("at most {}", size_text(studs.greatest_height, u)),
               size_text(height, u),
               height <= studs.greatest_height + same_place ? Met::yes : Met::no,
               {}});
  if (h.wall_weight <= zero<Pressure>())
    r.push_back({"weight of the walls", "for what presses", "", Met::not_stated, "[block] wall_weight"});
  return r;
}

std::vector<Condition> Judge::conditions(const LinkSeed& s) const {
  const House& h = f_.house;
  const Terms* t = terms(s);
  if (s.of == Of::brace) return f_.braces[s.a].capacity.conditions;
  if (s.of == Of::roof_brace) return roof_bracing_.straps[s.a].capacity.conditions;
  if (!t) return {};
  if (s.of == Of::post_foot) return post_foot_conditions(f_, s.a, *find(h.fixings.anchors, fixing(s)->name));
  if (s.of == Of::support) {
    const Support& x = f_.walls[s.a].supports[s.b];
    const Anchor* a = find(h.fixings.anchors, x.fixing.name);
    auto r = anchor_conditions(h, *a, edge_of(s.a, x), neighbour_of(s.a, s.b), f_.cyclonic());
    if (const HeldByConcrete* in = in_concrete_of(s)) r.insert(r.end(), in->conditions.begin(), in->conditions.end());
    const Wall& w = h.walls[s.a];
    if (auto joist = meets_a_joist(h, w, in_plan(s.a, x), *a)) r.push_back(*std::move(joist));
    // A hold-down further from its brace's end than common practice allows does not hold that end.
    const Length reach = f_.practice.get<Length>("anchor_near", "within");
    const Units& u = h.print == Print::us ? us : metric;
    const auto beside = [&](const char* what, std::size_t piece, End end) {
      const Length away = apart(x.at, end == End::left ? w.pieces[piece].from : w.pieces[piece].to);
      r.push_back({what,
                   fmt::format("at most {}", size_text(reach, u)),
                   size_text(away, u),
                   away <= reach + same_place ? Met::yes : Met::no,
                   {}});
    };
    for (const BraceEnd& e : x.ends) beside("distance from the brace's end", e.piece, e.end);
    for (const Jamb& j : x.jambs) beside("distance from the jamb", j.piece, j.end);
    if (a->least_edge && w.plate_width <= zero<Length>() && !x.edge)
      r.push_back({"distance to the slab's edge", fmt::format("at least {}", size_text(*a->least_edge, u)), "",
                   Met::not_stated, "[unless_noted] plate"});
    return r;
  }
  if (s.of == Of::compression) return end_studs_conditions(s);
  auto r = frame_conditions(h, *t, f_.cyclonic(), true);
  if (const HeldBySteel* in = steel_of(s)) r.insert(r.end(), in->conditions.begin(), in->conditions.end());
  if (s.of == Of::subfloor) {
    const RatedBrace* unit = find(h.fixings.rated, fixing(s)->name);
    const Units& u = h.print == Print::us ? us : metric;
    r.push_back({"height of the bought unit",
                 fmt::format("at most {}", size_text(unit->greatest_height, u)),
                 size_text(h.floor_level, u),
                 h.floor_level <= unit->greatest_height + same_place ? Met::yes : Met::no,
                 {}});
  }
  if (s.of == Of::floor_fixing)
    if (const Anchor* a = find(h.fixings.anchors, fixing(s)->name); a && a->worked_out)
      r.push_back(worked_out_elsewhere(*a));
  if (s.of == Of::plate) {
    const PlateFixing* p = find(h.fixings.plates, fixing(s)->name);
    const auto bay = bay_of(f_.studs[s.a]);
    const Units& u = h.print == Print::us ? us : metric;
    const auto needs = fmt::format("at most {}", size_text(p->greatest_spacing, u));
    if (bay)
      r.push_back({"distance between the fixings on both sides of the stud",
                   needs,
                   size_text(*bay, u),
                   *bay <= p->greatest_spacing + same_place ? Met::yes : Met::no,
                   {}});
    else
      r.push_back(
          {"distance between the fixings on both sides of the stud", needs, "past the last fixing", Met::no, {}});
  }
  return r;
}

std::vector<Piece_of_demand> Judge::made_of(const LinkSeed& s, std::size_t c, std::string_view part) const {
  const auto only = [](std::string what, std::string from, Force f) {
    return std::vector<Piece_of_demand>{{std::move(what), std::move(from), f}};
  };
  switch (s.of) {
    case Of::girder_bracket:
    case Of::bracket: {
      if (part == "press")
        return only("weight and wind pressing down", pressing_words(f_.of(c)), f_.roof.press(f_.wind_of(c), s.a));
      if (part == "across")
        return only("wind square on to the upper half of the wall", f_.of(c).wind, f_.bracket_across(c, s.a));
      if (part == "along") return only("its part of the wall's racking", f_.of(c).wind, f_.bracket_along(c, s.a));
      auto r = f_.uplift_made_of(c, s.a);
      const Force u = f_.uplift(c, s.a);
      if (u < zero<Force>()) r.push_back({"pressed down: counted as nothing", "", -u});
      return r;
    }
    case Of::valley: {
      auto r = f_.valleys.made_of(c, s.a);
      const Force u = f_.valleys.uplift(f_.wind_of(c), s.a);
      if (u < zero<Force>()) r.push_back({"it stays down: counted as nothing", "", -u});
      return r;
    }
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate: return f_.stud_made_of(c, s.a);
    case Of::floor_tie: return f_.pull_made_of(c, f_.crossings[s.a].wall, f_.crossings[s.a].support);
    case Of::floor_fixing:
      if (part == "across")
        return only("wind square on to the upper half of the wall", f_.of(c).wind, f_.floor_fixing_across(c, s.a));
      if (part == "along")
        return only("its share of line " + f_.lines[s.a].name, "line " + f_.lines[s.a].name,
                    f_.floor_fixing_along(c, s.a));
      if (f_.house.first->fixing_spacing > zero<Length>())
        return only("along and across as one force", "", f_.floor_fixing_slide(c, s.a));
      return f_.line_made_of(c, s.a);
    case Of::roof_plane: return roof_bracing_.plane_made_of(c, s.a, s.sense);
    case Of::roof_brace: {
      const Side slope = f_.house.roof_braces[s.a].slope;
      const std::string from = roof_plane_words(slope, f_.shape.ridge, roof_bracing_.pulled_in(c, s.a));
      const RoofBracing::Foot_pull foot = roof_bracing_.foot_pull(f_.wind_of(c), s.a);
      if (part == "foot along") return only("its part along the wall", from, foot.along);
      if (part == "foot inwards") return only("the level part of its pull up the slope", from, foot.across);
      if (part == "foot up") return only("the upright part of its pull up the slope", from, foot.lift);
      return only("its share of the slope's force, at its angle", from, roof_bracing_.tension(f_.wind_of(c), s.a));
    }
    case Of::line: {
      const Force v = f_.line_force(c, s.a);
      if ((v >= zero<Force>()) == (s.sense == Sense::plus)) return f_.line_made_of(c, s.a);
      return {};
    }
    case Of::least:
      return only("the least that each line must hold", std::string(words(*f_.house.bracing.least)),
                  least_bracing(f_, c, s.a, s.sense));
    case Of::brace:
      return only("its share of line " + f_.lines[f_.braces[s.a].line].name,
                  "line " + f_.lines[f_.braces[s.a].line].name, f_.brace_force(c, s.a));
    case Of::support:
    case Of::ground:
      if (part == "pull in a row") return row_made_of(s, c);
      if (part == "along") return only("its share of the brace's push", "the brace beside it", f_.along(c, s.a, s.b));
      if (part == "across")
        return only("wind square on to the lower half of the wall", f_.of(c).wind, f_.across(c, s.a, s.b));
      if (part == "slide") return only("along and across as one force", "", f_.slide(c, s.a, s.b));
      return f_.pull_made_of(c, s.a, s.b);
    case Of::compression: {
      if (judged_studs(s)) return end_press_.made_of(c, s.a, s.end);
      const Force all = f_.press(c, s.a, s.end), own = f_.presses(c, s.a, s.end) ? f_.tip(c, s.a) : zero<Force>();
      auto r = only("tipping of brace " + drawn(f_, s.a).name, drawn(f_, s.a).name, own);
      if (all != own) r.push_back({"tipping of braces above it", "the first floor", all - own});
      return r;
    }
    case Of::compression_below:
      return only("tipping of brace " + drawn(f_, s.a).name, drawn(f_, s.a).name,
                  quantity<Force>(parts(s, c).part[0].demand));
    case Of::loose_end:
      return only("tipping, less own weight", "the brace", quantity<Force>(parts(s, c).part[0].demand));
    case Of::loose_jamb:
      return only(fmt::format("{} over the opening", Forces::words_of_what_comes(stud_of(s))), "",
                  quantity<Force>(parts(s, c).part[0].demand));
    case Of::stump_tie:
    case Of::stump_ground: return stumps_.made_of(c, s.a);
    case Of::subfloor:
      return only("wind on all that stands above the ground", f_.of(c).wind, whole_.push(c, pushed_to(s)));
    case Of::house_slides:
      return only("wind on all that stands above the ground", f_.of(c).wind, whole_.push(c, pushed_to(s)));
    case Of::house_tips:
    case Of::spacing: return {};
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot:
    case Of::post_ground: return veranda_made_of(f_, s);
  }
  return {};
}

std::vector<Piece_of_demand> Judge::row_made_of(const LinkSeed& s, std::size_t c) const {
  std::vector<Piece_of_demand> r;
  for (const std::size_t i : ground_.pulling(c, s.a, ground_.row(c, s.a, s.b))) {
    const std::string at = f_.support_words(s.a, i);
    r.push_back({"pull at " + at, at, f_.pull(c, s.a, i)});
  }
  return r;
}

bool Judge::of_no_case(const LinkSeed& s) const { return s.of == Of::spacing || veranda_of(f_, s); }

std::set<std::size_t> Judge::verandas_to(const LinkSeed& s) const {
  switch (s.of) {
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate:
    case Of::loose_jamb: return f_.verandas_to(stud_of(s));
    case Of::support:
    case Of::ground:
    case Of::stump_tie:
    case Of::stump_ground: {
      std::set<std::size_t> r;
      for (const FixingAt& x : fixings_behind(s)) r.merge(f_.verandas_to(x.wall, x.support));
      return r;
    }
    default: return {};
  }
}

bool Judge::acts(const LinkSeed& s, std::size_t c) const { return acting(parts(s, c)); }
bool Judge::acting(const Parts& p) {
  return std::any_of(p.part.begin(), p.part.begin() + static_cast<std::ptrdiff_t>(p.count),
                     [](const Raw& r) { return r.role != Role::reported && r.demand.si > 0.0; });
}

// A part with something to hold and no capacity, that somebody must answer for.
bool Judge::is_open(const Raw& r) {
  return r.role != Role::combined && r.role != Role::reported && !r.use && r.demand.si > 0.0;
}

Floor Judge::floor_of(const LinkSeed& s) const {
  switch (s.of) {
    case Of::girder_bracket:
    case Of::bracket:
    case Of::valley: return block_of(s) == 0 ? top_floor(f_.house) : Floor::ground;
    case Of::roof_plane:
    case Of::roof_brace: return top_floor(f_.house);
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate: return f_.house.walls[f_.studs[s.a].wall].floor;
    case Of::floor_tie: return Floor::first;
    case Of::floor_fixing: return Floor::ground;
    case Of::line:
    case Of::least:
    case Of::spacing: return f_.lines[s.a].floor;
    case Of::brace:
    case Of::compression: return f_.lines[f_.braces[s.a].line].floor;
    case Of::compression_below:  // where nothing stands below, it is told where it comes from
      return f_.wall_below(f_.house.walls[f_.braces[s.a].wall], f_.end_of(s.a, s.end)) ? Floor::ground : Floor::first;
    case Of::support:
    case Of::loose_end:
    case Of::loose_jamb:
    case Of::ground: return f_.house.walls[s.a].floor;
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot:
    case Of::post_ground:
    case Of::house_slides:
    case Of::house_tips:
    case Of::stump_tie:
    case Of::stump_ground:
    case Of::subfloor: return Floor::ground;
  }
  return Floor::ground;
}

// Of a tie, a plate or a jamb without a fixing.
const Stud& Judge::stud_of(const LinkSeed& s) const {
  return f_.studs[s.of == Of::loose_jamb ? f_.stud_of(s.a, f_.walls[s.a].loose_jambs[s.b]) : s.a];
}

std::vector<std::size_t> Judge::crossings_to(const LinkSeed& s) const {
  switch (s.of) {
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate:
    case Of::loose_jamb: return f_.crossings_to(stud_of(s));
    case Of::floor_tie: return {s.a};
    case Of::support:
    case Of::ground:
    case Of::stump_tie:
    case Of::stump_ground: {
      std::set<std::size_t> r;
      for (const FixingAt& at : fixings_behind(s))
        for (const std::size_t x : f_.crossings_to(at.wall, at.support)) r.insert(x);
      return {r.begin(), r.end()};
    }
    default: return {};
  }
}

std::set<std::size_t> Judge::walls_above(std::size_t i) const {
  const LinkSeed& s = seeds_[i];
  std::set<std::size_t> r;
  for (const std::size_t x : crossings_to(s)) r.insert(f_.crossings[x].wall);
  if (s.of == Of::compression)
    for (std::size_t l = 0; l < f_.lines.size(); ++l)
      if (f_.line_below(l) == f_.braces[s.a].line) r.insert(f_.lines[l].walls.begin(), f_.lines[l].walls.end());
  return r;
}

// A brace that does not count is stiff all the same: what it does to its ends, and below them, is not known.
std::optional<std::size_t> Judge::brace_above_that_does_not_count(const LinkSeed& s) const {
  for (const std::size_t x : crossings_to(s)) {
    const Crossing& crossing = f_.crossings[x];
    if (const auto b = brace_that_does_not_count(crossing.wall, crossing.support)) return b;
  }
  return std::nullopt;
}
// One whose end is held there; of a wall that is held down at its ends alone any piece that stands over the fixing.
std::optional<std::size_t> Judge::brace_that_does_not_count(std::size_t wall, std::size_t support) const {
  const Support& s = f_.walls[wall].supports[support];
  for (std::size_t b = 0; b < f_.braces.size(); ++b) {
    const BraceAt& brace = f_.braces[b];
    if (brace.wall != wall || brace.capacity.refused.empty()) continue;
    const bool end =
        std::any_of(s.ends.begin(), s.ends.end(), [&](const BraceEnd& e) { return e.piece == brace.piece; });
    const Piece& p = f_.house.walls[wall].pieces[brace.piece];
    const bool over = find(f_.house.fixings.perforated, p.brace->fixing.name) && s.at >= p.from - same_place &&
                      s.at <= p.to + same_place;
    if (end || over) return b;
  }
  return std::nullopt;
}

// The fixings whose pull may be in what a fixing, or what lies under it, has to hold.
std::vector<FixingAt> Judge::fixings_behind(const LinkSeed& s) const {
  if (s.of == Of::stump_tie || s.of == Of::stump_ground) return stumps_.above(s.a);
  if (s.of == Of::support || !ground_.under(s.a)) return {{s.a, s.b}};
  std::vector<FixingAt> r;
  for (const std::size_t i : ground_.sharers(s.a, s.b)) r.push_back({s.a, i});
  return r;
}
std::set<std::size_t> Judge::walls_pulling(std::size_t i) const {
  std::set<std::size_t> r;
  if (of_the_fixings(seeds_[i]))
    for (const FixingAt& x : fixings_behind(seeds_[i])) r.insert(x.wall);
  return r;
}

// Whether a brace pulls at a fixing.
bool Judge::racked(std::size_t wall, std::size_t support, std::size_t c) const { return f_.racked(c, wall, support); }

// The figures behind what lifts the roof. The wind square on to the face above a skillion's high wall lifts its half
// trusses too, that in a recess the trusses that stick out over it; there weight lifts as well.
Marks Judge::marks_of_roof(const LoadCase& k) const {
  return k.marks_net | (f_.roof.feels_square_on() ? k.marks_square_on : Marks{0}) |
         (f_.roof.any_clear_end() ? k.marks_down : Marks{0});
}

// The wall whose fixings have a part in what the link has to hold.
const WallSetOut* Judge::set_out_of(const LinkSeed& s) const {
  switch (s.of) {
    case Of::support:
    case Of::ground: return &f_.walls[s.a];
    case Of::plate: return &f_.walls[f_.studs[s.a].wall];
    case Of::floor_tie: return &f_.walls[f_.crossings[s.a].wall];
    default: return nullptr;
  }
}
// Of the bracing line whose braces share what the link has to hold.
Length Judge::gap_behind(const LinkSeed& s) const {
  if (s.of == Of::line || s.of == Of::least || s.of == Of::floor_fixing) return f_.lines[s.a].gap;
  if (s.of == Of::brace || s.of == Of::compression) return f_.lines[f_.braces[s.a].line].gap;
  Length gap = zero<Length>();
  if (s.of != Of::support && s.of != Of::ground) return gap;  // stumps stand under one block, whose lines have none
  bool shares = false;
  for (std::size_t c = 0; c < f_.cases() && !shares; ++c) {
    for (const FixingAt& x : fixings_behind(s)) shares = shares || racked(x.wall, x.support, c);
    shares = shares || (s.of == Of::support && f_.along(c, s.a, s.b) > zero<Force>());
  }
  for (const BraceAt& b : f_.braces)
    if (shares && b.wall == s.a) gap = std::max(gap, f_.lines[b.line].gap);
  return gap;
}

// The bracing lines whose force is in what the link has to hold.
std::set<std::size_t> Judge::lines_behind(const LinkSeed& s, std::size_t c) const {
  std::set<std::size_t> r;
  const auto of_wall = [&](std::size_t wall) {
    for (const BraceAt& b : f_.braces)
      if (b.wall == wall) r.insert(b.line);
  };
  switch (s.of) {
    case Of::bracket:
      if (f_.bracket_along(c, s.a) != zero<Force>())
        for (const Foot& foot : f_.roof.bearings()[s.a].feet)
          for (std::size_t l = 0; l < f_.lines.size(); ++l)
            for (const LineWall& p : f_.lines[l].parts)
              if (p.wall == foot.wall) r.insert(l);
      break;
    case Of::floor_fixing:
    case Of::least:
    case Of::line: r.insert(s.a); break;
    case Of::brace:
    case Of::compression:
    case Of::compression_below:
      r.insert(f_.braces[s.a].line);
      for (std::size_t l = 0; l < f_.lines.size(); ++l)
        if (s.of == Of::compression && f_.line_below(l) == f_.braces[s.a].line) r.insert(l);
      break;
    case Of::loose_end: of_wall(s.a); break;
    case Of::support:
    case Of::ground:
    case Of::stump_tie:
    case Of::stump_ground:
      if (s.of == Of::support && f_.along(c, s.a, s.b) > zero<Force>()) of_wall(s.a);
      for (const FixingAt& x : fixings_behind(s))
        if (racked(x.wall, x.support, c)) of_wall(x.wall);
      break;
    default: break;
  }
  for (const std::size_t x : crossings_to(s))
    if (racked(f_.crossings[x].wall, f_.crossings[x].support, c)) of_wall(f_.crossings[x].wall);
  return r;
}

// The figures behind what crosses the floor.
Marks Judge::marks_across(std::size_t crossing, std::size_t c) const {
  const Crossing& x = f_.crossings[crossing];
  const LoadCase& k = f_.of(c);
  Marks m = 0;
  if (f_.roof_lands(x.wall, x.support)) m |= marks_of_roof(k);
  if (racked(x.wall, x.support, c)) m |= k.marks_push;
  return m;
}

// The figures behind one link in one case.
Marks Judge::marks_in(const LinkSeed& s, std::size_t c) const {
  const LoadCase& k = f_.of(c);
  const Marks net = marks_of_roof(k);
  Marks m = 0;
  const auto pressed = [&] {  // where the sheet says what may press on it, and something does
    const Bracket* b = find(f_.house.fixings.brackets, fixing(s)->name);
    return judges_press(f_, b, f_.roof.member_of(s.a)) && f_.roof.press(f_.wind_of(c), s.a) > zero<Force>()
               ? k.marks_down
               : Marks{0};
  };
  switch (s.of) {
    case Of::girder_bracket: m = net | pressed(); break;
    case Of::valley: m = net; break;
    case Of::bracket:
      m = net | pressed();
      if (f_.bracket_across(c, s.a) != zero<Force>()) m |= k.marks_square_on;
      if (f_.bracket_along(c, s.a) != zero<Force>()) m |= k.marks_push;
      break;
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate:
    case Of::loose_jamb:
      m = crossings_to(s).empty() || Forces::bears_on(stud_of(s)) ? net : Marks{0};
      for (const std::size_t x : crossings_to(s)) m |= marks_across(x, c);
      break;
    case Of::floor_tie: m = marks_across(s.a, c); break;
    case Of::floor_fixing:
      m = f_.line_force(c, s.a) != zero<Force>() ? k.marks_push : Marks{0};
      if (f_.house.first->fixing_spacing > zero<Length>() && f_.floor_fixing_across(c, s.a) != zero<Force>())
        m |= k.marks_square_on;
      break;
    case Of::roof_plane:
    case Of::roof_brace:
    case Of::line:
    case Of::brace:
    case Of::compression:
    case Of::compression_below:
    case Of::loose_end:
      m = k.marks_push | (s.of == Of::compression && judged_studs(s) ? end_press_.marks(c) : Marks{0});
      break;
    case Of::least: m = rests_on_wind(f_, c, s.a, s.sense) ? k.marks_push : Marks{0}; break;
    case Of::support:
    case Of::ground:
    case Of::stump_tie:
    case Of::stump_ground: {
      for (const auto& [wall, i] : fixings_behind(s)) {
        if (f_.crossings_to(wall, i).empty() ? f_.roof_lands(wall, i) : f_.bears_on(wall, i)) m |= net;
        if (racked(wall, i, c)) m |= k.marks_push;
      }
      for (const std::size_t x : crossings_to(s)) m |= marks_across(x, c);
      if (s.of == Of::support && f_.across(c, s.a, s.b) != zero<Force>()) m |= k.marks_square_on;
      if (s.of == Of::support && f_.along(c, s.a, s.b) > zero<Force>()) m |= k.marks_push;
      break;
    }
    case Of::spacing: m = spacing_.marks; break;
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot:
    case Of::post_ground: m = marks_of_combination(method_, k); break;
    case Of::subfloor: m = k.marks_push; break;
    case Of::house_slides:
    case Of::house_tips:
      m = k.marks_push;
      if (whole_.lift(c) > zero<Force>()) m |= net;
      break;
  }
  if (!verandas_to(s).empty()) m |= marks_of_combination(method_, k);
  return m;
}

// A verdict rests on every case in which the link has something to hold, not on the deciding one alone: had another's
// figure been greater, that one would decide.
void Judge::remember_figures(const LinkSeed& s, const Deciding& deciding, Link& l) const {
  Marks m = 0, p = 0;
  bool acts_at_all = false;
  bool pushed = false;                     // in some case a brace brings force to this fixing
  std::set<std::size_t> pushed_on, above;  // walls whose braces do so; those that do so across the floor
  const std::size_t cases = deciding.acting.empty() ? f_.cases() : deciding.acting.size();
  for (std::size_t c = 0; c < cases; ++c) {
    if (deciding.acting.empty() ? !acts(s, c) : !deciding.acting[c]) continue;
    acts_at_all = true;
    m |= marks_in(s, c);
    if (of_the_fixings(s))
      for (const FixingAt& x : fixings_behind(s))
        if (racked(x.wall, x.support, c)) {
          pushed = true;
          pushed_on.insert(x.wall);
        }
    if (s.of == Of::support || s.of == Of::loose_end) pushed_on.insert(s.a);
    pushed = pushed || (s.of == Of::support && f_.along(c, s.a, s.b) > zero<Force>());
    for (const std::size_t x : crossings_to(s))
      if (racked(f_.crossings[x].wall, f_.crossings[x].support, c)) above.insert(f_.crossings[x].wall);
    if (s.of == Of::spacing) break;
    if (f_.under_rigid(c))
      for (const std::size_t line : lines_behind(s, c)) p |= f_.marks_of_stiffness(c, line);
  }
  for (const BraceAt& b : f_.braces) {
    const bool on_line = (s.of == Of::line || s.of == Of::least) && b.line == s.a;
    const bool of_brace = s.of == Of::brace || s.of == Of::compression || s.of == Of::compression_below;
    const bool self = of_brace && (f_.braces[s.a].line == b.line ||
                                   (s.of == Of::compression && f_.line_below(b.line) == f_.braces[s.a].line));
    const auto& walls = f_.lines[b.line].walls;
    const bool beside =
        (pushed || s.of == Of::loose_end) &&
        std::any_of(walls.begin(), walls.end(), [&](std::size_t wall) { return pushed_on.contains(wall); });
    const bool over = std::any_of(walls.begin(), walls.end(), [&](std::size_t wall) { return above.contains(wall); });
    if (on_line || self || beside || over) p |= b.capacity.practice_marks;
  }
  if (const HeldByConcrete* in = in_concrete_of(s); in && acts_at_all) p |= in->marks;
  if (s.of == Of::least) p |= f_.practice.mark("nz_least_bracing");
  if (const HeldBySteel* in = steel_of(s); in && acts_at_all) p |= in->marks;
  if (acts_at_all && (s.of == Of::roof_plane || s.of == Of::roof_brace))
    for (const std::size_t i :
         roof_bracing_.planes[s.of == Of::roof_plane ? s.a : roof_bracing_.straps[s.a].plane].straps)
      p |= roof_bracing_.straps[i].capacity.practice_marks;
  const auto add = [&](const Table& t, Marks marks) {
    for (const Entry& e : t.entries)
      if ((marks >> e.index) & 1U) {
        const bool checked = std::any_of(f_.house.checked.begin(), f_.house.checked.end(),
                                         [&](const CheckedFigure& x) { return x.figure == e.figure; });
        if (!checked) l.rests_on_memory.push_back(e.figure);
      }
  };
  add(method_, m);
  add(f_.practice, p);
}

void Judge::decide(const LinkSeed& s, Link& l, const Parts& p) const {
  const auto say = [&](Verdict v, std::string code, std::string subject = {}) {
    l.verdict = v;
    l.why = {std::move(code), std::move(subject)};
  };
  if (!f_.loads.excess.empty()) return say(Verdict::not_judged, "outside-method", f_.loads.excess.front().limit);
  if (s.of == Of::loose_end) return say(Verdict::fail, "no-hold-down-near", l.where.words);
  if (s.of == Of::loose_jamb) return say(Verdict::fail, "no-fixing-near", l.where.words);
  if (s.of == Of::support && f_.walls[s.a].supports[s.b].missing)
    return say(Verdict::fail, "missing-as-built", l.where.words);
  const auto others = std::find_if(f_.house.by_others.begin(), f_.house.by_others.end(),
                                   [&](const ByOthers& o) { return o.what == l.kind; });
  const auto unanswered = [&](std::string code) {
    if (others != f_.house.by_others.end()) return say(Verdict::by_others, "by-others", others->who);
    return say(Verdict::not_judged, std::move(code), l.kind);
  };
  if (const auto v = veranda_of(f_, s); v && s.of != Of::post_ground && others == f_.house.by_others.end() &&
                                        (!f_.verandas.known(*v) || !fixing(s)->given())) {
    if (const ByOthers* o = who_answers_for_verandas(f_.house))
      return say(Verdict::by_others, "veranda-by-others", o->who);
    if (!f_.verandas.known(*v)) return say(Verdict::not_judged, "veranda-not-known", f_.house.verandas[*v].name);
  } else if (v && s.of != Of::post_ground && !f_.verandas.known(*v)) {
    return unanswered("veranda-not-known");
  }
  if (s.of == Of::compression_below) return unanswered("not-in-this-program");
  if (s.of == Of::ground && f_.house.framed) return unanswered("stumps-not-stated");
  if (s.of == Of::ground && !ground_.under(s.a))
    return unanswered(f_.house.walls[s.a].outside ? "edge-not-stated" : "inside-edge-not-stated");
  if ((s.of == Of::post_ground || s.of == Of::stump_ground) && !p.part[0].capacity)
    return unanswered("footing-not-stated");
  if (const auto v = veranda_of(f_, s); v && s.of == Of::post_ground && !f_.verandas.known(*v)) {
    if (const ByOthers* o = who_answers_for_verandas(f_.house))
      return say(Verdict::by_others, "veranda-by-others", o->who);
    return unanswered("veranda-not-known");
  }
  if (s.of == Of::ground)
    if (const auto other = ground_.overlaps(s.a))
      return say(Verdict::not_judged, "edges-overlap", f_.house.walls[*other].name);
  // What a veranda brings is not in the push on the house.
  if (s.of == Of::subfloor && !f_.house.verandas.empty()) return unanswered("veranda-on-the-house");
  if (s.of == Of::compression && fixing(s)->given() && !end_press_.unknown(s.a, s.end).empty()) {
    if (others == f_.house.by_others.end())
      return say(Verdict::not_judged, "press-not-known", end_press_.unknown(s.a, s.end));
    return unanswered("press-not-known");
  }
  if (of_the_whole_house(s)) {
    if (!f_.house.verandas.empty()) return unanswered("veranda-on-the-house");
    if (!p.part[0].capacity) return unanswered("friction-not-stated");
  }
  if (s.of == Of::spacing && !p.part[0].capacity) return unanswered("no-table");
  if (s.of == Of::roof_plane) {
    const bool enough = p.part[0].use && *p.part[0].use <= 1.0;
    if (auto v = plane_verdict(f_.house, roof_bracing_, s.a, s.sense, enough)) {
      if (!v->stated) return unanswered(std::move(v->code));
      return say(v->fails ? Verdict::fail : Verdict::not_judged, v->code, v->subject);
    }
  }
  if (s.of == Of::line || s.of == Of::least) {
    const bool braced =
        std::any_of(f_.braces.begin(), f_.braces.end(), [&](const BraceAt& b) { return b.line == s.a; });
    const bool counts = std::any_of(f_.braces.begin(), f_.braces.end(), [&](const BraceAt& b) {
      return b.line == s.a && b.capacity.refused.empty() &&
             (s.sense == Sense::plus ? b.capacity.plus : b.capacity.minus) > zero<Force>();
    });
    if (!braced) return say(Verdict::fail, "no-brace", f_.lines[s.a].name);
    // Where a brace's condition is not stated, what the line can hold is not known: no FAIL from a guess.
    const auto unsure = std::find_if(f_.braces.begin(), f_.braces.end(), [&](const BraceAt& b) {
      return b.line == s.a && b.capacity.refused == "condition-not-stated";
    });
    const bool enough = p.count > 0 && p.part[0].use && *p.part[0].use <= 1.0;
    if (unsure != f_.braces.end() && !enough)
      return say(Verdict::not_judged, "brace-not-judged",
                 drawn(f_, static_cast<std::size_t>(unsure - f_.braces.begin())).name);
    if (!counts) return say(Verdict::fail, "no-brace-counts", f_.lines[s.a].name);
  }
  const Chosen* c = fixing(s);
  // Who answers for a tie does not answer for where its pull goes on.
  const bool off_walls = s.of == Of::floor_tie && !f_.crossings[s.a].below;
  if (off_walls && c && !c->given()) return say(Verdict::not_judged, "no-wall-below", l.kind);
  if (c && !c->given()) return unanswered("no-fixing");
  if (c && !terms(s)) return say(Verdict::not_judged, "no-fixing", l.kind);
  const Met met = worst(l.conditions);
  const auto first = [&](Met m) {
    return std::find_if(l.conditions.begin(), l.conditions.end(), [&](const Condition& x) { return x.met == m; })->name;
  };
  if (met == Met::no) return say(Verdict::fail, "condition-unmet", first(Met::no));
  // A capacity that a part lacks, or a rule, leaves the link open, unless what is known fails already.
  bool single_over = false, over = false;
  for (std::size_t i = 0; i < p.count; ++i) {
    const bool combined = p.part[i].role == Role::combined;
    if (p.part[i].use && *p.part[i].use > 1.0) (combined ? over : single_over) = true;
    // Nothing is left of the concrete that a fixing may call on.
    const bool nothing_holds = p.part[i].capacity && p.part[i].capacity->si <= 0.0 && p.part[i].demand.si > 0.0;
    if ((s.of == Of::ground || of_the_whole_house(s)) && nothing_holds) single_over = true;
  }
  if (single_over) return say(Verdict::fail, "too-weak", l.kind);
  if (over) return say(Verdict::fail, "together", l.kind);
  if (off_walls) return say(Verdict::not_judged, "no-wall-below", l.kind);
  if (met == Met::not_stated) return say(Verdict::not_judged, "condition-not-stated", first(Met::not_stated));
  for (std::size_t i = 0; i < p.count; ++i)
    if (is_open(p.part[i])) return say(Verdict::not_judged, "part-without-capacity", std::string(p.part[i].part));
  if (p.combined_missing) return say(Verdict::not_judged, "no-rule", l.kind);
  // A brace that does not count is stiff all the same: what it does to its ends is not known.
  if (s.of == Of::support)
    if (const auto b = brace_that_does_not_count(s.a, s.b))
      return say(Verdict::not_judged, "brace-does-not-count", drawn(f_, *b).name);
  if (of_the_fixings(s))
    for (const FixingAt& x : fixings_behind(s)) {
      for (const BraceEnd& e : f_.walls[x.wall].supports[x.support].ends)
        if (const std::size_t b = f_.brace_on(x.wall, e.piece); !f_.braces[b].capacity.refused.empty())
          return say(Verdict::not_judged, "brace-does-not-count", drawn(f_, b).name);
      if (const auto& unclear = f_.walls[x.wall].unclear; !unclear.empty())
        return say(Verdict::not_judged, "as-built-unclear", unclear.front());
    }
  if (s.of == Of::compression && !f_.braces[s.a].capacity.refused.empty())
    return say(Verdict::not_judged, "brace-does-not-count", drawn(f_, s.a).name);
  if (const auto b = brace_above_that_does_not_count(s))
    return say(Verdict::not_judged, "brace-does-not-count", drawn(f_, *b).name);
  if (s.of == Of::line && f_.lines[s.a].floor == Floor::first && f_.lines[s.a].props && !f_.line_below(s.a))
    return say(Verdict::not_judged, "no-line-below", f_.lines[s.a].name);
  if (const WallSetOut* of = set_out_of(s); of && !of->unclear.empty())
    return say(Verdict::not_judged, "as-built-unclear", of->unclear.front());
  if (const Length gap = gap_behind(s); gap > zero<Length>())
    return say(Verdict::not_judged, "gap-in-line", size_text(gap, f_.house.print == Print::us ? us : metric));
  // A sheet that says what may press on it asks for an answer that short members and half trusses do not get here.
  if (s.of == Of::bracket || s.of == Of::girder_bracket) {
    const Bracket* b = find(f_.house.fixings.brackets, fixing(s)->name);
    if (presses_ && b && b->press && !answers_for_press(f_, f_.roof.member_of(s.a)))
      return say(Verdict::not_judged, "press-not-judged", std::string(words(f_.roof.member_of(s.a).kind)));
  }
  if (s.of == Of::brace && !f_.braces[s.a].capacity.refused.empty())
    return say(Verdict::fail, f_.braces[s.a].capacity.refused, l.where.words);
  // What a veranda brings is missing in what the link has to hold.
  if (const Veranda* v = unknown_of(f_, verandas_to(s))) {
    if (const ByOthers* o = who_answers_for_verandas(f_.house))
      return say(Verdict::by_others, "veranda-by-others", o->who);
    return say(Verdict::not_judged, "veranda-not-known", v->name);
  }
  say(Verdict::pass, "holds");
}

Link Judge::link(std::size_t i) const {
  const LinkSeed& s = seeds_[i];
  const Deciding deciding = deciding_case(s);
  const std::size_t c = deciding.load_case;
  const LoadCase& k = f_.of(c);
  Link l{.id = {},
         .kind = std::string(kind_of_seed(s, f_)),
         .where = {},
         .fixing = {},
         .fixing_source = {},
         .fixing_demo = false,
         .load_case = {k.id, k.wind, k.inside, k.combination.name, std::string(ceiling_of(s, c))},
         .parts = {},
         .use = std::nullopt,
         .conditions = conditions(s),
         .rests_on_memory = {},
         .verdict = Verdict::not_judged,
         .why = {}};
  if (of_no_case(s)) l.load_case = {};
  place(s, l);
  if (const Chosen* chosen = fixing(s)) l.fixing = *chosen;
  if (const Terms* t = terms(s)) {
    l.fixing_source = t->source;
    l.fixing_demo = t->demo;
  }
  const Parts p = parts(s, c);
  for (std::size_t n = 0; n < p.count; ++n) {
    const Raw& raw = p.part[n];
    LinkPart part{raw.role,
                  std::string(raw.part),
                  raw.demand,
                  raw.capacity,
                  raw.use ? std::optional(Use{*raw.use}) : std::nullopt,
                  std::string(raw.rule),
                  {}};
    std::size_t shown = c;  // what nobody judges is told in its own greatest case
    for (const Greatest& g : deciding.greatest) {
      if (g.part != raw.part) continue;
      if (g.si > part.greatest.si) part.greatest.si = g.si;
      if (raw.role == Role::reported) shown = g.load_case;
    }
    if (raw.role == Role::reported) part.demand = part.greatest;
    const HeldByConcrete* in = in_concrete_of(s);
    if (in && raw.role == Role::single && raw.capacity)
      part.gives = raw.part == "pull" ? in->pull_gives : in->slide_gives;
    if (const HeldBySteel* by = steel_of(s);
        by && raw.role == Role::single && (raw.part == "pull" || raw.part == "uplift"))
      part.gives = by->gives;
    if (raw.demand.kind == Kind::force)
      for (auto& m : made_of(s, shown, raw.part))
        part.made_of.push_back({std::move(m.what), value(m.value), std::move(m.from)});
    if (raw.use && (!l.use || *raw.use > l.use->value)) {
      l.use = Use{*raw.use};
      // What presses is combined as the edition combines what presses.
      if (!of_no_case(s))
        l.load_case.combination = raw.part != "press"       ? k.combination.name
                                  : s.of == Of::compression ? end_press_.down(c).name
                                                            : k.down.name;
    }
    l.parts.push_back(std::move(part));
  }
  remember_figures(s, deciding, l);
  decide(s, l, p);
  return l;
}

// The nearest line beside that one, under the same floor's or roof's ceiling, that holds anything in that case.
std::optional<std::size_t> Judge::nearest_that_holds(std::size_t line, std::size_t c) const {
  const Line& here = f_.lines[line];
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < f_.lines.size(); ++i) {
    const Line& l = f_.lines[i];
    const bool beside = i != line && l.runs == here.runs && l.floor == here.floor && l.blocks == here.blocks;
    if (!beside || !(f_.line_capacity(c, i) > zero<Force>())) continue;
    if (!best || apart(l.at, here.at) < apart(f_.lines[*best].at, here.at)) best = i;
  }
  return best;
}

// ---- the working of one link ----------------------------------------------------------------------------------------

void Judge::tell(std::size_t i, std::size_t c, Working& w) const {
  const LinkSeed& s = seeds_[i];
  const Fixings& x = f_.house.fixings;
  const Chosen* chosen = fixing(s);
  const std::string_view name = chosen ? std::string_view(chosen->name) : std::string_view();
  std::vector<std::size_t> ends;
  std::vector<As<double>> uses;
  const auto end_here = [&] { ends.push_back(w.steps.size() - 1); };
  const auto end_at = [&](const std::string& symbol, Force result) {
    const auto at = std::find_if(w.steps.rbegin(), w.steps.rend(), [&](const Step& step) {
      return step.symbol == symbol && step.result == value(result);
    });
    if (at != w.steps.rend()) ends.push_back(static_cast<std::size_t>(w.steps.rend() - at) - 1);
  };
  // A part against its capacity, told already, as for design.
  const auto against = [&](const std::string& demand_symbol, Force demand, const std::optional<Force>& holds,
                           const std::string& what) {
    end_at(demand_symbol, demand);
    if (!holds || *holds <= zero<Force>()) return;
    w.heading("Against " + std::string(name));
    uses.push_back(as("u_" + what, formulas::use_of_force.told(&w, "u_" + what, "comparison", as(demand_symbol, demand),
                                                               as("C_" + what, *holds))));
    end_here();
  };
  // The same against what a sheet states; without a capacity the demand itself is an end of the working.
  const auto compare = [&](const std::string& demand_symbol, Force demand, const Terms* t,
                           const std::optional<Force>& stated, const std::string& what) {
    end_at(demand_symbol, demand);
    if (!t || !stated) return;
    w.heading("Against " + std::string(name));
    const std::string capacity_symbol = "C_" + what;
    const Force capacity = design_force(*t, *stated, capacity_symbol, &w);
    if (capacity <= zero<Force>()) return;
    uses.push_back(as("u_" + what, formulas::use_of_force.told(&w, "u_" + what, "comparison", as(demand_symbol, demand),
                                                               as(capacity_symbol, capacity))));
    end_here();
  };
  // The same against what a tie or a bracket holds, which may be worked out.
  const auto compare_held = [&](const std::string& demand_symbol, Force demand, const auto* entry, Force stated,
                                const std::string& what) {
    if (!entry || !entry->made.worked_out)
      return compare(demand_symbol, demand, entry ? &entry->terms : nullptr,
                     entry ? std::optional(stated) : std::nullopt, what);
    end_at(demand_symbol, demand);
    const std::optional<Force> holds = held(*entry).force;
    if (!holds) return;
    w.heading(fmt::format("What {} holds", name));
    tell_weaker(f_.house, entry->terms, entry->made, f_.practice, "C_" + what, &w);
    against(demand_symbol, demand, holds, what);
  };
  const auto lift_on = [&](const std::string& demand_symbol, Force demand, const Bracket* b) {
    compare_held(demand_symbol, demand, b, b ? b->uplift : zero<Force>(), "uplift");
  };
  const auto pull_on = [&](const std::string& demand_symbol, Force demand, const Tie* t) {
    compare_held(demand_symbol, demand, t, t ? t->pull : zero<Force>(), "pull");
  };
  const auto combine = [&](std::optional<Together> rule, const std::vector<As<double>>& u,
                           std::string_view source = "the fixing's sheet") {
    if (!rule) return;
    if (*rule == Together::alone)
      greatest<double>(&w, "use", "each part alone, as the sheet allows", "the fixing's sheet", u);
    else if (*rule == Together::sum)
      u.size() == 2 ? formulas::sum_of_two.told(&w, "use", source, u[0], u[1])
                    : formulas::sum_of_three.told(&w, "use", source, u[0], u[1], u[2]);
    else {
      const double n =
          given(&w, "n", "the sheet's power", *rule == Together::five_thirds ? 5.0 / 3.0 : 1.5, "the fixing's sheet");
      u.size() == 2 ? formulas::powers_of_two(&w, u[0], u[1], n) : formulas::powers_of_three(&w, u[0], u[1], u[2], n);
    }
    end_here();
  };
  const auto brace_and_line = [&](Force demand, std::string symbol, Force capacity, std::string capacity_symbol) {
    if (w.steps.empty()) return;
    const auto at = std::find_if(w.steps.rbegin(), w.steps.rend(), [&](const Step& step) {
      return step.symbol == symbol && step.result == value(demand);
    });
    if (at != w.steps.rend()) ends.push_back(static_cast<std::size_t>(w.steps.rend() - at) - 1);
    if (capacity <= zero<Force>()) return;
    formulas::use_of_force(&w, as(std::move(symbol), demand), as(std::move(capacity_symbol), capacity));
    end_here();
  };
  // What lifts the whole roof is told at the bracket that is lifted most; the others are added up as they stand.
  const auto lifted_most = [&] {
    std::optional<std::size_t> most;
    for (std::size_t b = 0; b < f_.roof.bearings().size(); ++b)
      if (!f_.roof.bearings()[b].onto && f_.uplift(c, b) > (most ? f_.uplift(c, *most) : zero<Force>())) most = b;
    if (!most) return;
    f_.uplift(c, *most, &w);
    end_here();
  };
  switch (s.of) {
    case Of::girder_bracket:
    case Of::bracket: {
      const Bracket* b = find(x.brackets, name);
      const Terms* t = b ? &b->terms : nullptr;
      const std::string u = f_.roof.symbol(s.a);
      Force lift = f_.uplift(c, s.a, &w);
      std::string symbol = u;
      if (lift < zero<Force>()) {
        given(&w, "nothing", "pressed down: no uplift", zero<Force>(), "statics");
        lift = greatest<Force>(&w, "U", "uplift on the bracket, not below nothing", "statics",
                               {as(u, lift), as("nothing", zero<Force>())});
        symbol = "U";
      }
      lift_on(symbol, lift, b);
      // Where the wind lifts more than the weight presses there is nothing to tell of it.
      if (presses_ && judges_press(f_, b, f_.roof.member_of(s.a)) &&
          f_.roof.press(f_.wind_of(c), s.a) > zero<Force>()) {
        const std::size_t lifts = uses.size();
        compare(f_.roof.press_symbol(s.a), f_.roof.press(f_.wind_of(c), s.a, &w), t, b->press, "press");
        uses.erase(uses.begin() + static_cast<std::ptrdiff_t>(lifts), uses.end());  // never combined with the others
      }
      if (s.of == Of::bracket) {
        compare("B_c", f_.bracket_across(c, s.a, &w), t, b ? b->across : std::nullopt, "across");
        compare("B_a", f_.bracket_along(c, s.a, &w), t, b ? b->along : std::nullopt, "along");
        if (uses.size() == 3) combine(b->together, uses);
      }
      break;
    }
    case Of::valley: {
      const Bracket* b = find(x.brackets, name);
      const std::string u = fmt::format("U_v{}", s.a + 1);
      Force lift = f_.valleys.uplift(f_.wind_of(c), s.a, &w);
      std::string symbol = u;
      if (lift < zero<Force>()) {
        given(&w, "nothing", "it stays down: no uplift", zero<Force>(), "statics");
        lift = greatest<Force>(&w, "U", "uplift on the fixing, not below nothing", "statics",
                               {as(u, lift), as("nothing", zero<Force>())});
        symbol = "U";
      }
      lift_on(symbol, lift, b);
      break;
    }
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate: {
      const Force pull = f_.stud_uplift(c, s.a, &w);
      const std::string symbol = f_.stud_symbol(c, s.a);
      if (s.of == Of::plate) {
        const PlateFixing* p = find(x.plates, name);
        compare(symbol, pull, p ? &p->terms : nullptr, p ? std::optional(p->pull) : std::nullopt, "pull");
      } else {
        pull_on(symbol, pull, find(x.ties, name));
      }
      break;
    }
    case Of::floor_tie: {
      const Crossing& at = f_.crossings[s.a];
      const Force pull = f_.pull(c, at.wall, at.support, &w);
      const Anchor* through = find(x.anchors, name);
      if (through) compare("T", pull, &through->terms, through->pull, "pull");
      else pull_on("T", pull, find(x.ties, name));
      break;
    }
    case Of::floor_fixing: {
      const Anchor* a = find(x.anchors, name);
      if (f_.house.first->fixing_spacing > zero<Length>())
        compare("H", f_.floor_fixing_slide(c, s.a, &w), a ? &a->terms : nullptr,
                a && !a->worked_out ? std::optional(a->slide) : std::nullopt, "slide");
      else compare(f_.line_symbol(s.a), size(f_.line_force(c, s.a, &w)), nullptr, std::nullopt, "slide");
      break;
    }
    case Of::roof_plane: {
      const Force p = roof_bracing_.plane_force(f_.wind_of(c), s.a, s.sense, &w);
      if (!(p > zero<Force>())) break;
      brace_and_line(p, "P", roof_bracing_.plane_holds(s.a, s.sense, &w), "C_p");
      break;
    }
    case Of::roof_brace: {
      const Force t = roof_bracing_.tension(f_.wind_of(c), s.a, &w);
      if (!(t > zero<Force>())) {  // its angle may say why
        roof_bracing_.tell_angle(s.a, w);
        end_here();
        break;
      }
      roof_bracing_.foot_pull(f_.wind_of(c), s.a, &w);
      for (std::size_t n = w.steps.size() - 2; n < w.steps.size(); ++n) ends.push_back(n);
      w.heading("Against " + std::string(name));
      brace_and_line(t, "T", roof_bracing_.holds(s.a, &w), "C_b");
      break;
    }
    case Of::line: {
      const Force v = f_.line_force(c, s.a, &w);
      if ((v >= zero<Force>()) != (s.sense == Sense::plus)) break;
      const Force capacity = f_.line_capacity(c, s.a, &w);
      brace_and_line(size(v), f_.line_symbol(s.a), capacity, f_.capacity_symbol(s.a));
      if (const auto next = capacity > zero<Force>() ? std::nullopt : nearest_that_holds(s.a, c)) {
        w.heading(fmt::format("If nothing is added on line {}", f_.lines[s.a].name));
        const Length b = given(&w, "b", fmt::format("to line {}, the nearest that holds", f_.lines[*next].name),
                               between_lines(f_.lines[s.a].at, f_.lines[*next].at), "the job");
        formulas::turns_the_ceiling.told(&w, "M_e", "moments", as(f_.line_symbol(s.a), size(v)), as("b", b));
        end_here();
      }
      break;
    }
    case Of::least: {
      const Force must = least_bracing(f_, c, s.a, s.sense, &w);
      const Force holds = holds_against_least(f_, s.a, s.sense, must, &w);
      w.heading(fmt::format("What line {} must hold at least", f_.lines[s.a].name));
      brace_and_line(must, "L_m", holds, "C_m");
      break;
    }
    case Of::brace: {
      const Force v = f_.brace_force(c, s.a, &w);
      const Force own = f_.brace_capacity_counted(c, s.a, &w);
      const std::string mark = in_symbol(drawn(f_, s.a).name);
      brace_and_line(v, "V_" + mark, own, "C_" + mark);
      break;
    }
    case Of::support: {
      const Anchor* a = find(x.anchors, name);
      const Terms* t = a ? &a->terms : nullptr;
      if (const HeldByConcrete* in = in_concrete_of(s)) {
        f_.pull(c, s.a, s.b, &w);
        f_.slide(c, s.a, s.b, &w);
        w.heading(fmt::format("What {} holds where it stands", name));
        held_by_concrete(f_.house, *a, stands_in_slab(s.a, s.b), f_.practice, &w);
        against("T", f_.pull(c, s.a, s.b), in->pull, "pull");
        against("H", f_.slide(c, s.a, s.b), in->slide, "slide");
      } else {
        compare("T", f_.pull(c, s.a, s.b, &w), t, a ? std::optional(a->pull) : std::nullopt, "pull");
        compare("H", f_.slide(c, s.a, s.b, &w), t, a ? std::optional(a->slide) : std::nullopt, "slide");
      }
      if (uses.size() == 2)
        combine(rule_of(*a), uses, a->together ? "the fixing's sheet" : "the safe reading: none is stated");
      break;
    }
    case Of::ground: {
      const Force own = f_.pull(c, s.a, s.b, &w);
      end_here();
      const Edge* e = ground_.under(s.a);
      if (!e) break;
      const auto weigh = [&](const PulledEdge& row, const std::string& pull, const std::string& what) {
        const std::string holds = "C_" + what;
        ground_.tell(c, s.a, row, holds, w);
        end_here();
        if (row.holds <= zero<Force>()) return;
        formulas::use_of_force.told(&w, "u_" + what, "comparison", as(pull, row.pull), as(holds, row.holds));
        end_here();
      };
      w.heading(fmt::format("What the concrete under {} weighs", f_.support_words(s.a, s.b)));
      weigh(ground_.alone(c, s.a, s.b), "T", "pull");
      const PulledEdge row = ground_.row(c, s.a, s.b);
      if (row.first == row.last) break;
      std::vector<As<Force>> pulls;
      for (const std::size_t k : ground_.pulling(c, s.a, row)) {
        if (k == s.b) {
          pulls.push_back(as("T", own));
          continue;
        }
        const std::string symbol = fmt::format("T_f{}", k + 1);
        const Force pull = f_.pull(c, s.a, k, &w);
        pulls.push_back(
            as(symbol, total<Force>(&w, symbol, "pull at " + f_.support_words(s.a, k), "sum", {as("T", pull)})));
      }
      w.heading("What pulls at the same concrete");
      total<Force>(&w, "T_r", "pull of these in a row", "sum", pulls);
      weigh(row, "T_r", "row");
      break;
    }
    case Of::loose_end: {
      const BraceEnd e = f_.walls[s.a].loose_ends[s.b];
      const std::size_t brace = f_.brace_on(s.a, e.piece);
      if (f_.pulls(c, brace, e.end)) {
        f_.tip_less_weight(c, brace, &w);
        end_here();
      }
      break;
    }
    case Of::loose_jamb: {
      f_.stud_uplift(c, f_.stud_of(s.a, f_.walls[s.a].loose_jambs[s.b]), &w);
      end_here();
      break;
    }
    case Of::compression:
      if (const EndStuds* studs = judged_studs(s)) {
        compare("P_e", end_press_.on(c, s.a, s.end, &w), &studs->terms, studs->press, "press");
      } else if (f_.press(c, s.a, s.end) > zero<Force>()) {
        f_.press(c, s.a, s.end, &w);
        end_here();
      }
      break;
    case Of::compression_below:
      if (f_.presses(c, s.a, s.end)) {
        f_.tip(c, s.a, &w);
        end_here();
      }
      break;
    case Of::stump_tie:
    case Of::stump_ground: {
      const Force up = stumps_.pull(c, s.a, &w);
      if (s.of == Of::stump_tie) {
        pull_on("T_s", up, find(x.ties, name));
        break;
      }
      end_at("T_s", up);
      if (!stumps_.footing_holds(c)) break;
      w.heading("What the footing weighs");
      const Force holds = *stumps_.footing_holds(c, &w);
      formulas::use_of_force.told(&w, "u_pull", "comparison", as("T_s", up), as("C_pull", holds));
      end_here();
      break;
    }
    case Of::subfloor: {
      const Force push = whole_.push(c, pushed_to(s), &w);
      end_at("P", push);
      const RatedBrace* unit = find(x.rated, name);
      if (!unit) break;
      w.heading("Against " + std::string(name));
      const double n =
          given(&w, "n", "braces that way", static_cast<double>(subfloor_braces(s)->count), "the job's floor");
      const Force one = design_force(unit->terms, unit->racking, "C_b", &w);
      const Force holds = formulas::subfloor_holds(&w, n, one);
      formulas::use_of_force(&w, as("P", push), as("C", holds));
      end_here();
      break;
    }
    case Of::house_slides: {
      lifted_most();
      const Force push = whole_.push(c, pushed_to(s), &w);
      end_here();
      const auto holds = whole_.held_by_friction(c, &w);
      if (!holds || *holds <= zero<Force>()) break;
      formulas::use_of_force(&w, as("P", push), as("C", *holds));
      end_here();
      break;
    }
    case Of::house_tips: {
      lifted_most();
      const Moment tips = whole_.tips(c, pushed_to(s), &w);
      end_here();
      const Moment holds = whole_.held_about_edge(c, pushed_to(s), &w);
      if (holds <= zero<Moment>()) break;
      formulas::use_of_moment(&w, as("M_t", tips), as("C", holds));
      end_here();
      break;
    }
    case Of::spacing: {
      w.heading("Distance between bracing lines");
      const Length b = given(&w, "b", fmt::format("from line {} to line {}", f_.lines[s.a].name, f_.lines[s.b].name),
                             between_lines(f_.lines[s.a].at, f_.lines[s.b].at), "the job");
      end_here();
      if (const auto limit = spacing_limit(s, b)) {
        given(&w, "b_max", "greatest distance", limit->greatest, limit->source);
        formulas::use_of_length(&w, b, limit->greatest);
        end_here();
      }
      break;
    }
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot:
    case Of::post_ground: {
      const Force up = veranda_pull(f_, s, &w);
      const Anchor* a = find(x.anchors, name);
      const std::string symbol = veranda_symbol(f_, s);
      if (s.of == Of::veranda_wall || s.of == Of::veranda_beam) lift_on(symbol, up, find(x.brackets, name));
      else if (s.of == Of::post_top) pull_on(symbol, up, find(x.ties, name));
      else if (const HeldByConcrete* in = in_concrete_of(s)) {
        w.heading(fmt::format("What {} holds where it stands", name));
        post_foot_holds(f_, s.a, *a, &w);
        against(symbol, up, in->pull, "pull");
      } else if (s.of == Of::post_foot) {
        compare(symbol, up, a ? &a->terms : nullptr, a ? std::optional(a->pull) : std::nullopt, "pull");
      } else {
        end_at(symbol, up);
        if (!ground_.footing_holds(s.a)) break;
        w.heading("What the footing weighs");
        const Force holds = *ground_.footing_holds(s.a, &w);
        formulas::use_of_force.told(&w, "u_pull", "comparison", as(symbol, up), as("C_pull", holds));
        end_here();
      }
      break;
    }
  }
  keep_what_leads_to(w, ends);
}

}  // namespace belay
