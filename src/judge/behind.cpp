// What stands behind a link: walls, lines and verandas that bring force to it, and whose figures it rests on.
#include "judge/judge.hpp"
#include "judge/seed.hpp"
#include "judge/veranda_links.hpp"
#include "load_path/least_bracing.hpp"

#include <algorithm>
#include <set>

namespace belay {

using Of = LinkSeed::Of;

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
  if (s.of == Of::compression)
    for (const std::size_t b : end_press_.braces_above(s.a, s.end)) r.insert(f_.braces[b].wall);
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
// A strap that reaches less far than its brace: one of its ends is not where its fixing and studs are said to stand.
std::optional<std::size_t> Judge::strap_off_its_end(const LinkSeed& s) const {
  const Length near = f_.practice.get<Length>("anchor_near", "within") + same_place;
  const auto off = [&](std::size_t b) {
    const BraceAt& brace = f_.braces[b];
    const Piece& p = f_.house.walls[brace.wall].pieces[brace.piece];
    return brace.capacity.reach && p.to - p.from - *brace.capacity.reach > near;
  };
  const auto held_by = [&](std::size_t wall, std::size_t support) -> std::optional<std::size_t> {
    for (const BraceEnd& e : f_.walls[wall].supports[support].ends)
      if (const std::size_t b = f_.brace_on(wall, e.piece); off(b)) return b;
    return std::nullopt;
  };
  for (const std::size_t x : crossings_to(s))
    if (const auto b = held_by(f_.crossings[x].wall, f_.crossings[x].support)) return b;
  if (of_the_fixings(s)) {
    for (const FixingAt& x : fixings_behind(s))
      if (const auto b = held_by(x.wall, x.support)) return b;
    return std::nullopt;
  }
  if (s.of != Of::compression) return std::nullopt;
  for (std::size_t b = 0; b < f_.braces.size(); ++b) {
    if (!off(b)) continue;
    const bool presses =
        b == s.a || f_.press_share(b, End::left, s.a, s.end) > 0.0 || f_.press_share(b, End::right, s.a, s.end) > 0.0;
    if (presses) return b;
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
    const bool over = find(f_.house.fixings.perforated, p.brace->planned().name) && s.at >= p.from - same_place &&
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
      if (s.of == Of::compression)
        for (const std::size_t b : end_press_.braces_above(s.a, s.end)) r.insert(f_.braces[b].line);
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
    case Of::compression_below:
    case Of::loose_end: m = k.marks_push; break;
    case Of::compression:
      if (!judged_studs(s) || end_press_.tips(c, s.a, s.end)) m = k.marks_push;
      if (judged_studs(s)) m |= end_press_.marks(c, s.a);
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

}  // namespace belay
