// What a link has to hold in one case, of what it is made, and what it can hold.
#include "judge/judge.hpp"
#include "judge/roof_bracing_links.hpp"
#include "judge/seed.hpp"
#include "judge/veranda_links.hpp"
#include "load_path/formulas_ground.hpp"
#include "load_path/least_bracing.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace belay {

namespace {

using Of = LinkSeed::Of;

// A contract at the border: a number that is none never becomes a verdict.
double finite(double x) {
  if (!std::isfinite(x)) throw std::logic_error("a demand or a use is not a number");
  return x;
}

// The combination and the wind of what presses down in a case.
std::string pressing_words(const LoadCase& k) {
  std::string r;
  for (const std::string& part : {k.down.name, k.wind, k.inside})
    if (!part.empty()) r += (r.empty() ? "" : "; ") + part;
  return r;
}

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

}  // namespace belay
