#include "load_path/press.hpp"

#include "load_path/formulas.hpp"
#include "load_path/formulas_press.hpp"
#include "units/sizes.hpp"

#include <algorithm>

namespace belay {

namespace {

// Where a wing's roof lies on the main block's, the weight of the roof beneath is not counted.
bool under_a_valley(const Forces& f, const Member& m) {
  return std::any_of(f.shape.surfaces.begin(), f.shape.surfaces.end(), [&](const Surface& s) {
    return s.over && std::any_of(m.carries.begin(), m.carries.end(),
                                 [&](const Window& w) { return holds(w, s) && !within(w, s.outline).empty(); });
  });
}

const Piece& piece_of(const Forces& f, std::size_t brace) {
  return f.house.walls[f.braces[brace].wall].pieces[f.braces[brace].piece];
}
// From the wall's start.
Length place_of(const Piece& p, End e) { return e == End::left ? p.from : p.to; }
// The openings past a brace's end whose lintels come down within reach of it.
std::vector<const Piece*> openings_past(const Wall& w, const Piece& brace, End e, Length reach) {
  std::vector<const Piece*> r;
  for (const Piece& p : w.pieces)
    if (p.opening && (e == End::left ? p.to <= brace.from + same_place && brace.from - p.to <= reach + same_place
                                     : p.from >= brace.to - same_place && p.from - brace.to <= reach + same_place))
      r.push_back(&p);
  return r;
}
// What looks like a share but is nothing but the last bit of a sum.
constexpr double no_share = 1e-9;

Length along(const Wall& w, const Point& p) { return w.runs == Along::across ? p.x : p.y; }
Length off(const Wall& w, const Point& p) { return apart(w.runs == Along::across ? p.y : p.x, w.line); }
// The common part of two stretches, each from one end to the other.
Length common(Length a0, Length a1, Length b0, Length b1) {
  const Length low = std::max(std::min(a0, a1), std::min(b0, b1)), high = std::min(std::max(a0, a1), std::max(b0, b1));
  return high > low ? high - low : zero<Length>();
}
bool within(Length x, Length a, Length b) {
  return x >= std::min(a, b) - same_place && x <= std::max(a, b) + same_place;
}

// Stretches of a first floor's wall, along the block, that stand on the floor alone.
std::vector<std::pair<Length, Length>> on_the_floor_alone(const Forces& f, const Wall& above) {
  std::vector<Length> cuts{above.from, above.to};
  for (const Wall& w : f.house.walls)
    if (w.floor == Floor::ground && w.runs == above.runs)
      for (const Length& x : {w.from, w.to})
        if (x > above.from && x < above.to) cuts.push_back(x);
  std::sort(cuts.begin(), cuts.end());
  std::vector<std::pair<Length, Length>> r;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i)
    if (cuts[i + 1] - cuts[i] > 2.0 * same_place && !f.wall_below(above, 0.5 * (cuts[i] + cuts[i + 1])))
      r.emplace_back(cuts[i], cuts[i + 1]);
  return r;
}

// What stands upright on an outside wall of the top floor, at its highest: a gable, a skillion's ends and high face.
// Zero: nothing does. Of a wall of several blocks the highest. name: of the wall, in symbols.
As<Length> upright_above(const House& h, const Wall& w, const std::string& name, Working* working) {
  struct Face {
    double part;  // of the span, from the foot of the slope to its head
    Length span;
    Angle pitch;
    Length high() const { return formulas::face_on_wall(nullptr, part, span, pitch); }
  };
  std::optional<Face> most;
  const bool under_a_floor = h.first && w.floor == Floor::ground && stands_in(w, 0);
  for (const std::size_t b : w.outside && !under_a_floor ? w.blocks : std::vector<std::size_t>()) {
    const Roof& roof = b == 0 ? h.roof : h.wings[b - 1].roof;
    const bool one_slope = roof.shape == RoofShape::skillion || roof.shape == RoofShape::flat;
    const bool end = w.runs != roof.ridge;
    if (roof.shape == RoofShape::hip ? !end || roof.hipped[static_cast<std::size_t>(w.side)]
                                     : !end && !(one_slope && w.side == roof.high))
      continue;
    Angle steepest = roof.pitch;
    for (const std::optional<Angle>& a : roof.own_pitch) steepest = std::max(steepest, a.value_or(steepest));
    const Face face{one_slope ? 1.0 : 0.5, extent_of(h, b, roof.ridge == Along::across ? Along::up : Along::across),
                    steepest};
    if (!most || face.high() > most->high()) most = face;
  }
  if (!most) return as("", zero<Length>());
  if (!working) return as("", most->high());
  given(working, "k_s", "part of the span that the slope takes", most->part, "the job's roof");
  given(working, "s_r", "span of the roof there", most->span, "the job's block");
  given(working, "theta_r", "its steepest pitch", most->pitch, "the job's roof");
  const std::string own = "h_f" + name;
  return as(own, formulas::face_on_wall.told(working, own, "geometry", most->part, most->span, most->pitch));
}

bool lies_along(const Member& m, const Wall& w, Length within) {
  return off(w, m.from) <= within && off(w, m.to) <= within;
}

bool is_short(const Member& m) {
  return m.kind == MemberKind::jack || m.kind == MemberKind::creeper || m.kind == MemberKind::hip_rafter;
}

}  // namespace

bool answers_for_press(const Forces& f, const Member& m) {
  if (m.clear || under_a_valley(f, m)) return false;
  return m.kind == MemberKind::truss || m.kind == MemberKind::truncated || m.kind == MemberKind::girder ||
         m.kind == MemberKind::half;
}

EndPress::EndPress(const Forces& f)
    : f_(f),
      reach_(f.practice.get<Length>("end_studs", "reach")),
      near_(f.practice.get<Length>("anchor_near", "within")) {
  laid_.resize(2 * f.braces.size());
  const bool any = std::any_of(f.braces.begin(), f.braces.end(), [&](const BraceAt& b) {
    return f.house.walls[b.wall].pieces[b.piece].brace->end_studs.given();
  });
  if (!any) return;
  greatest_.assign(f.roof.bearings().size(), zero<Force>());
  most_.resize(f.loads.cases.size());
  for (std::size_t c = 0; c < f.loads.cases.size(); ++c) {
    if (f.of(c).down.name.empty()) continue;
    if (!pressing_) pressing_ = c;
    most_[c].assign(greatest_.size(), zero<Force>());
    for (std::size_t b = 0; b < greatest_.size(); ++b) {
      if (is_short(f.roof.member_of(b)) && !f.roof.bearings()[b].feet.empty()) most_[c][b] = f.roof.most_press(c, b);
      greatest_[b] = std::max(greatest_[b], press(c, b));
    }
  }
  for (std::size_t b = 0; b < f.roof.bearings().size() && f.house.first; ++b)
    weight_.push_back(f.roof.greatest_weight(b));
  for (std::size_t i = 0; i < f.braces.size(); ++i)
    if (piece_of(f, i).brace->end_studs.given())
      for (const End e : {End::left, End::right}) laid_[2 * i + (e == End::left ? 0 : 1)] = lay_out(i, e);
}

// ---- what comes to an end -------------------------------------------------------------------------------------------

bool EndPress::under_the_floor(std::size_t brace) const {
  const House& h = f_.house;
  const Wall& w = h.walls[f_.braces[brace].wall];
  if (!h.first || w.floor != Floor::ground) return false;
  const auto beside_main = [&](End e) {  // of a wing's wall
    const Point p = in_plan(w, place_of(piece_of(f_, brace), e));
    return within(p.x, -reach_, h.across + reach_) && within(p.y, -reach_, h.up + reach_);
  };
  return stands_in(w, 0) || beside_main(End::left) || beside_main(End::right);
}

EndPress::Laid EndPress::lay_out(std::size_t brace, End e) const {
  const Wall& w = f_.house.walls[f_.braces[brace].wall];
  Laid r{{}, {}, reach_};
  const Piece& p = piece_of(f_, brace);
  for (const Piece* o : openings_past(w, p, e, reach_))
    r.beside = std::max(r.beside, apart(0.5 * (o->from + o->to), place_of(p, e)));
  for (std::size_t b = 0; b < f_.roof.bearings().size(); ++b)
    if (Share s = share_of(b, brace, e, r.beside); s.part > 0.0) r.shares.push_back(std::move(s));
  if (under_the_floor(brace)) lay_out_floor(brace, e, r);
  r.unknown = not_known(brace, e, r);
  return r;
}

// What the first floor brings: its braces' pressed ends, itself, and its walls.
void EndPress::lay_out_floor(std::size_t brace, End e, Laid& r) const {
  const House& h = f_.house;
  const std::size_t own = f_.braces[brace].wall;
  const Wall& w = h.walls[own];
  const Piece& p = piece_of(f_, brace);
  const Point here = in_plan(w, place_of(p, e));
  for (std::size_t i = 0; i < f_.braces.size(); ++i) {
    const Wall& above = h.walls[f_.braces[i].wall];
    if (above.floor != Floor::first || f_.braces[i].capacity.left_out) continue;
    for (const End end : {End::left, End::right}) {
      const Length place = f_.end_of(i, end);
      const Part part = part_of(in_plan(above, place - above.from), f_.wall_below(above, place), brace, e);
      if (part.part > no_share) r.above.push_back({i, end, part.part, std::string(part.why)});
    }
  }
  const Length stretch = (p.to - p.from) / 2.0 + r.beside;
  if (stands_in(w, 0)) r.floors.push_back(floored(own, stretch, "half of the brace, and what is beside it"));
  for (std::size_t i = 0; i < h.walls.size(); ++i) {
    const Wall& other = h.walls[i];
    // A wall that goes on has its part in the own wall's, where that one carries the floor.
    const bool goes_on = other.runs == w.runs && apart(other.line, w.line) <= near_ + same_place && stands_in(w, 0);
    if (i == own || other.floor != Floor::ground || !stands_in(other, 0) || goes_on ||
        off(other, here) > reach_ + same_place)
      continue;
    const auto [low, high] = reached_on(other, here, OfLintels::half);
    const Length on = common(low, high, other.from, other.to);
    if (on > zero<Length>()) r.floors.push_back(floored(i, on, "within reach of the end"));
  }
  bool over = false;
  for (std::size_t i = 0; i < h.walls.size(); ++i) {
    const Wall& above = h.walls[i];
    if (above.floor != Floor::first) continue;
    const auto [from, to] = stretch_of(brace, e, r.beside);
    if (!over && above.runs == w.runs && apart(above.line, w.line) <= near_ + same_place &&
        common(from, to, above.from, above.to) > zero<Length>()) {
      r.walls.push_back({i, stretch, false});
      over = true;
    }
    Length on_floor = zero<Length>();
    for (const auto& [a, b] : on_the_floor_alone(f_, above)) on_floor += reached(above, a, b, brace, e, r.beside);
    if (on_floor > zero<Length>()) r.walls.push_back({i, on_floor, true});
  }
}

// Along the block: from the middle of the brace to as far past its end as its studs hold the wall.
std::pair<Length, Length> EndPress::stretch_of(std::size_t brace, End e, Length beside) const {
  const Piece& p = piece_of(f_, brace);
  const Length end = f_.end_of(brace, e), half = (p.to - p.from) / 2.0;
  return e == End::left ? std::pair(end - beside, end + half) : std::pair(end - half, end + beside);
}
// The same from the brace's other end, and over all of an opening beside: where a single thing may come from.
std::pair<Length, Length> EndPress::wide_stretch_of(std::size_t brace, End e) const {
  const Wall& w = f_.house.walls[f_.braces[brace].wall];
  const Piece& p = piece_of(f_, brace);
  Length past = reach_;
  for (const Piece* o : openings_past(w, p, e, reach_))
    past = std::max(past, apart(e == End::left ? o->from : o->to, place_of(p, e)));
  const Length end = f_.end_of(brace, e), far = f_.end_of(brace, other(e));
  return e == End::left ? std::pair(end - past, far) : std::pair(far, end + past);
}

// Joists are taken as one span between outside walls, where walls under them would take a part; of a wall under them
// nothing is known but that no more than all of it can come to it. Along a wall the floor's sheets bring what lies on
// one space to either side. Which way the joists run is stated, or the greater is taken.
EndPress::Floored EndPress::floored(std::size_t wall, Length stretch, std::string why) const {
  const House& h = f_.house;
  const Wall& w = h.walls[wall];
  const Length width = extent_of(h, 0, w.runs == Along::across ? Along::up : Along::across);
  const bool edge = w.line <= near_ + same_place || w.line >= width - near_ - same_place;
  const std::optional<Joists>& joists = h.first->joists;
  if (joists && joists->runs == w.runs) {
    const Length all = (edge ? 1.0 : 2.0) * joists->spacing;
    return {wall, stretch, std::min(all, width), std::move(why),
            edge ? "joists run along it: one space" : "joists run along it: a space on either side"};
  }
  const std::string unstated = joists ? "" : "; the way joists run is not stated: the greater is taken";
  return {wall, stretch, edge ? width / 2.0 : width, std::move(why),
          (edge ? "half of the floor's width: joists as one span to the far wall"
                : "all of the floor's width: more cannot come to a wall under it") +
              unstated};
}

std::vector<std::size_t> EndPress::braces_above(std::size_t brace, End e) const {
  std::vector<std::size_t> r;
  for (const Above& a : at(brace, e).above) r.push_back(a.brace);
  return r;
}

bool EndPress::tips(std::size_t c, std::size_t brace, End e) const {
  const std::vector<Above>& above = at(brace, e).above;
  return f_.presses(c, brace, e) ||
         std::any_of(above.begin(), above.end(), [&](const Above& a) { return f_.presses(c, a.brace, a.end); });
}

std::string EndPress::not_known(std::size_t brace, End e, const Laid& laid) const {
  const House& h = f_.house;
  const Wall& w = h.walls[f_.braces[brace].wall];
  if (!pressing_) return "the method has no combination in hand in which weight and wind press";
  for (const Veranda& v : h.verandas)
    if (v.wall == w.name) return fmt::format("veranda {} presses on this wall as well", v.name);
  for (const Share& s : laid.shares)
    if (const Member& m = f_.roof.member_of(s.bearing);
        !answers_for_press(f_, m) && (!is_short(m) || m.clear || under_a_valley(f_, m)))
      return under_a_valley(f_, m)
                 ? fmt::format("another roof lies on {}, and the weight of the roof beneath is not counted", m.words)
                 : fmt::format("what presses on a {} is told here, not judged ({})", words(m.kind), m.words);
  return under_the_floor(brace) ? not_known_of_floor(brace, e, laid) : std::string();
}
std::string EndPress::not_known_of_floor(std::size_t brace, End e, const Laid& laid) const {
  const House& h = f_.house;
  if (f_.loads.on_floors.empty()) return "the method has no combination in hand with the load on floors";
  for (const Above& a : laid.above)
    if (!f_.braces[a.brace].capacity.refused.empty())
      return fmt::format("brace {} above does not count, and what it does to its ends is not known",
                         piece_of(f_, a.brace).brace->name);
  for (const Wall& above : h.walls)
    if (above.floor == Floor::first && above.outside && !on_the_floor_alone(f_, above).empty())
      return fmt::format("no wall stands under a part of {}, and what carries the floor there is not worked out",
                         above.name);
  const auto comes = [&](const Wall& above, Length place, bool counted) {
    return !counted && !f_.wall_below(above, place) && may_come_by_joists(in_plan(above, place - above.from), brace, e);
  };
  for (const Stud& s : f_.studs) {
    const Wall& above = h.walls[s.wall];
    if (above.floor != Floor::first || !Forces::bears_on(s)) continue;
    const bool counted = part_of(in_plan(above, s.at), std::nullopt, brace, e).part >= 1.0;
    if (comes(above, above.from + s.at, counted))
      return fmt::format("what comes down {} stands on the floor alone, and may come here by its joists",
                         f_.stud_words(s));
  }
  for (std::size_t i = 0; i < f_.braces.size(); ++i) {
    const Wall& above = h.walls[f_.braces[i].wall];
    if (above.floor != Floor::first || f_.braces[i].capacity.left_out) continue;
    for (const End end : {End::left, End::right}) {
      const Length place = f_.end_of(i, end);
      const bool counted = part_of(in_plan(above, place - above.from), std::nullopt, brace, e).part >= 1.0;
      if (comes(above, place, counted))
        return fmt::format("brace {} stands on the floor alone, and what it presses may come here by the joists",
                           piece_of(f_, i).brace->name);
    }
  }
  return {};
}

// wall: on which it comes down; none: on no wall of that floor.
EndPress::Part EndPress::part_of(const Point& there, std::optional<std::size_t> wall, std::size_t brace, End e) const {
  const std::size_t own = f_.braces[brace].wall;
  const Wall& w = f_.house.walls[own];
  const Piece& p = piece_of(f_, brace);
  const Length end = place_of(p, e), far = place_of(p, other(e));
  const Point here = in_plan(w, end);
  if (near_by(there, here)) return {1.0, "it bears within reach of the end"};
  Part r{0.0, {}};
  if (!wall) return r;
  const auto take = [&](double part, std::string_view why) {
    if (part > r.part) r = {part, why};
  };
  const Wall& on = f_.house.walls[*wall];
  const Length x = along(on, there) - on.from;
  if (wall == own && x >= p.from && x <= p.to)
    take(static_cast<double>(apart(x, far) / (p.to - p.from)), "it bears on the brace: a lever about its other end");
  for (const Piece& o : on.pieces) {
    if (!o.opening || !(x > o.from && x < o.to)) continue;
    constexpr std::string_view why = "it bears over an opening within reach of the end: the lintel is a simple span";
    if (jamb_near(on, o.from, here)) take(formulas::lever_left(nullptr, o.to, x, o.from), why);
    if (jamb_near(on, o.to, here)) take(formulas::lever_right(nullptr, x, o.from, o.to), why);
  }
  return r;
}

EndPress::Share EndPress::share_of(std::size_t bearing, std::size_t brace, End e, Length beside) const {
  const Wall& w = f_.house.walls[f_.braces[brace].wall];
  const Piece& p = piece_of(f_, brace);
  const Bearing& b = f_.roof.bearings()[bearing];
  Share r{bearing, 0.0, {}};
  const auto take = [&](double part, std::string why) {
    if (part > r.part) r = {bearing, part, std::move(why)};
  };
  bool comes = false;  // not of another floor
  for (const Foot& foot : b.feet) {
    const Wall& on = f_.house.walls[foot.wall];
    if (on.floor != w.floor) continue;
    const Part part = part_of(in_plan(on, foot.at), foot.wall, brace, e);
    take(part.part, std::string(part.why));
    comes = true;
  }
  if (under_the_floor(brace)) {
    double sum = 0.0;
    Part most{0.0, {}};
    for (const Stud& s : f_.studs) {
      const Wall& above = f_.house.walls[s.wall];
      if (above.floor != Floor::first) continue;
      for (const Stud::Load& load : s.loads) {
        if (load.crossing || load.rafter || load.bearing != bearing || !(load.share > no_share)) continue;
        comes = true;
        const Part part = part_of(in_plan(above, s.at), f_.wall_below(above, above.from + s.at), brace, e);
        sum += load.share * part.part;
        if (load.share * part.part > most.part) most = {load.share * part.part, part.why};
      }
    }
    if (sum > no_share) take(std::min(sum, 1.0), fmt::format("by the first floor's studs: {}", most.why));
  }
  if (const Member& m = f_.roof.member_of(bearing); comes && lies_along(m, w, near_)) {
    const Length length = apart(m.from.x, m.to.x) + apart(m.from.y, m.to.y);
    take(std::min(1.0, static_cast<double>(((p.to - p.from) / 2.0 + beside) / length)),
         "its truss lies along the wall and may stand on it: by its length");
  }
  return r;
}

// Whether what stands there, on the floor alone, may come to the end: joists carry it along, to the brace's own wall or
// to one beside its end.
bool EndPress::may_come_by_joists(const Point& there, std::size_t brace, End e) const {
  return std::any_of(f_.house.walls.begin(), f_.house.walls.end(), [&](const Wall& w) {
    const auto [from, to] = caught_by(w, brace, e, wide_stretch_of(brace, e));
    return to > from && within(along(w, there), from, to) && off(w, there) <= carried_to(w);
  });
}
// The stretch of a ground floor's wall, along the block, from which a thing comes to the end: of its own wall that one,
// of others what is within reach. Empty: none.
std::pair<Length, Length> EndPress::caught_by(const Wall& w, std::size_t brace, End e,
                                              std::pair<Length, Length> own) const {
  const std::pair<Length, Length> none{};
  const Wall& mine = f_.house.walls[f_.braces[brace].wall];
  if (w.floor != Floor::ground || !stands_in(w, 0)) return none;
  if (w.runs == mine.runs && apart(w.line, mine.line) <= near_ + same_place) return own;
  const Point here = in_plan(mine, place_of(piece_of(f_, brace), e));
  if (off(w, here) > reach_ + same_place) return none;
  return reached_on(w, here, OfLintels::whole);
}
// Of a wall that meets another near an end of a brace: what is within reach of that place, and of openings whose
// lintels come down there the half that they bring, or all of where a single thing may come from. Along the block.
std::pair<Length, Length> EndPress::reached_on(const Wall& w, const Point& here, OfLintels take) const {
  const Length x = along(w, here);
  Length low = x - reach_, high = x + reach_;
  for (const Piece& o : w.pieces) {
    if (!o.opening) continue;
    const Length middle = w.from + 0.5 * (o.from + o.to);
    const bool whole = take == OfLintels::whole;
    if (jamb_near(w, o.from, here)) high = std::max(high, whole ? w.from + o.to : middle);
    if (jamb_near(w, o.to, here)) low = std::min(low, whole ? w.from + o.from : middle);
  }
  return {low, high};
}
bool EndPress::jamb_near(const Wall& w, Length at, const Point& here) const { return near_by(in_plan(w, at), here); }
bool EndPress::near_by(const Point& there, const Point& here) const {
  const Length dx = there.x - here.x, dy = there.y - here.y;
  return dx * dx + dy * dy <= (reach_ + same_place) * (reach_ + same_place);
}
// How far from a wall the floor may bring a thing to it.
Length EndPress::carried_to(const Wall& w) const {
  const std::optional<Joists>& joists = f_.house.first->joists;
  return joists && joists->runs == w.runs ? std::max(reach_, joists->spacing) : everywhere;
}
// Of a stretch of a first floor's wall, on the floor alone, what may come to the end; a wall along the joists whole.
Length EndPress::reached(const Wall& above, Length from, Length to, std::size_t brace, End e, Length beside) const {
  Length most = zero<Length>();
  for (const Wall& w : f_.house.walls) {
    const bool same_way = w.runs == above.runs;
    const auto [a, b] = caught_by(w, brace, e, same_way ? stretch_of(brace, e, beside) : wide_stretch_of(brace, e));
    if (!(b > a)) continue;
    const Length far = carried_to(w);
    if (same_way && apart(above.line, w.line) <= far) most = std::max(most, common(from, to, a, b));
    if (!same_way && within(above.line, a, b)) most = std::max(most, common(from, to, w.line - far, w.line + far));
  }
  return most;
}

// ---- in one load case -----------------------------------------------------------------------------------------------

const Combination& EndPress::own(std::size_t c) const {
  return f_.of(c).down.name.empty() ? f_.of(*pressing_).down : f_.of(c).down;
}
std::vector<const Combination*> EndPress::combinations(std::size_t c, std::size_t brace) const {
  std::vector<const Combination*> r{&own(c)};
  if (under_the_floor(brace))
    for (const Combination& k : f_.loads.on_floors) r.push_back(&k);
  return r;
}
const Combination& EndPress::down(std::size_t c, std::size_t brace, End e) const {
  const std::vector<const Combination*> all = combinations(c, brace);
  if (all.size() == 1) return *all.front();
  const Combination* r = nullptr;
  Force most = zero<Force>();
  for (const Combination* k : all) {
    const Force there = sum(c, brace, e, *k, nullptr);
    if (r && !(there > most)) continue;
    r = k;
    most = there;
  }
  return *r;
}
Marks EndPress::marks(std::size_t c, std::size_t brace) const {
  const LoadCase& k = f_.of(c).down.name.empty() ? f_.of(*pressing_) : f_.of(c);
  return k.marks_down | k.marks_net | (f_.roof.feels_square_on() ? k.marks_square_on : Marks{0}) |
         (under_the_floor(brace) ? f_.loads.marks_on_floors : Marks{0});
}

Force EndPress::press(std::size_t wind_case, std::size_t bearing) const {
  return is_short(f_.roof.member_of(bearing)) ? most_[wind_case][bearing] : f_.roof.press(wind_case, bearing);
}
// Where a case that pushes the bracing does not press, and another does: the worst of any, the safe one. With less of
// the wind than that the roof presses no more than with all of it or with none.
Force EndPress::roof(std::size_t c, std::size_t bearing, const Combination& k) const {
  const Force there = f_.of(c).down.name.empty() ? greatest_[bearing] : press(f_.wind_of(c), bearing);
  return k.wind < own(c).wind ? std::max(there, k.dead * weight_[bearing]) : there;
}
As<Force> EndPress::tell_roof(std::size_t c, const Share& s, const Combination& k, Working& w) const {
  const std::string n = std::to_string(s.bearing + 1), from = f_.roof.bearings()[s.bearing].words;
  const bool has_own = !f_.of(c).down.name.empty();
  const bool at_most = is_short(f_.roof.member_of(s.bearing));
  std::string symbol = !has_own  ? "P_b" + n
                       : at_most ? f_.roof.most_press_symbol(s.bearing)
                                 : f_.roof.press_symbol(s.bearing);
  if (has_own) {
    if (at_most) f_.roof.most_press(f_.wind_of(c), s.bearing, &w);
    else f_.roof.press(f_.wind_of(c), s.bearing, &w);
  }
  w.heading("What of the roof presses at that end");
  const Force there = roof(c, s.bearing, own(c)), used = roof(c, s.bearing, k);
  if (!has_own)
    given(&w, symbol, fmt::format("what presses on the bearing of {}, in the method's worst case", from), there,
          own(c).source);
  if (k.wind < own(c).wind) {
    given(&w, "G_b" + n, fmt::format("the roof's greatest weight on the bearing of {}", from), weight_[s.bearing],
          "moments, without wind");
    given(&w, "f_G", fmt::format("factor on weight that presses, {}", k.name), k.dead, k.source);
    const Force alone = formulas::landed.told_as(&w, "W_b" + n, "that weight alone, with its factor", k.source,
                                                 as("f_G", k.dead), as("G_b" + n, weight_[s.bearing]));
    greatest<Force>(&w, "P_k" + n, "with less of the wind it presses no more than with all of it or with none",
                    "the safe one", {as(symbol, there), as("W_b" + n, alone)});
    symbol = "P_k" + n;
  }
  given(&w, "k_" + n, fmt::format("share of {} that comes down here", from), s.part, s.why);
  return as("R_" + n, formulas::landed.told_as(&w, "R_" + n, "what of the roof presses here", "statics",
                                               as("k_" + n, s.part), as(symbol, used)));
}

As<Force> EndPress::from_above(std::size_t c, const Above& a, Working* w) const {
  const Force there = f_.presses(c, a.brace, a.end) ? f_.tip(c, a.brace, w) : zero<Force>();
  if (!w || !(there > zero<Force>())) return as("", formulas::landed(nullptr, a.part, there));
  const std::string& name = piece_of(f_, a.brace).brace->name;
  const std::string own = in_symbol(name), tip = w->steps.back().symbol;
  w->heading(fmt::format("From brace {} above", name));
  given(w, "k_" + own, "share of what its pressed end brings that comes down here", a.part, a.why);
  return as("P_" + own, formulas::landed.told_as(w, "P_" + own, "what presses here from above", "statics",
                                                 as("k_" + own, a.part), as(tip, there)));
}
As<Force> EndPress::tipping(std::size_t c, std::size_t brace, End e, const Combination& k, Working* w) const {
  std::vector<As<Force>> rows;
  if (f_.presses(c, brace, e)) {
    const Force tip = f_.tip(c, brace, w);
    if (tip > zero<Force>()) rows.push_back(as(w ? w->steps.back().symbol : std::string(), tip));
  }
  for (const Above& a : at(brace, e).above)
    if (const As<Force> more = from_above(c, a, w); more.quantity > zero<Force>()) rows.push_back(more);
  if (rows.empty()) return as("", zero<Force>());
  if (w) w->heading("What tipping presses at that end");
  const As<Force> reckoned =
      rows.size() == 1 ? rows.front()
                       : as(std::string("P_c"),
                            total<Force>(w, "P_c", "what tipping presses there, from above as well", "sum", rows));
  const double as_reckoned = f_.of(c).combination.wind;
  const bool less = k.wind < own(c).wind && k.wind < as_reckoned;
  if (!less && !(k.wind > as_reckoned)) return reckoned;
  given(w, "f_p", "factor on the wind where all presses", k.wind, k.source);
  given(w, "f_w", "factor on the wind in the tipping", as_reckoned, f_.of(c).combination.source);
  return as("T_p", formulas::tip_pressing.told(w, "T_p", k.source, reckoned, k.wind, as_reckoned));
}

// The brace's own wall and, under a floor, those above.
std::vector<As<Force>> EndPress::walls(std::size_t brace, End e, const Combination& k, Working* w) const {
  const House& h = f_.house;
  const Wall& wall = h.walls[f_.braces[brace].wall];
  const Piece& p = piece_of(f_, brace);
  const Length height = tell_wall_height(h, wall, w), length = p.to - p.from, beside = at(brace, e).beside;
  if (w) {
    given(w, "L", fmt::format("length of brace {}", p.brace->name), length, "the job");
    given(w, "b_o", "of the wall past the end: as far as studs stand apart, or to the middle of an opening near it",
          beside, f_.practice.source("end_studs"));
    given(w, "g_w", "weight of the wall", h.wall_weight, "the job, wall_weight");
    given(w, "f_G", fmt::format("factor on weight that presses, {}", k.name), k.dead, k.source);
  }
  const Length width = formulas::pressing_width(w, length, beside);
  std::vector<As<Force>> r{
      as("G_e", formulas::wall_presses.told(w, "G_e", formulas::wall_presses.source, k.dead, h.wall_weight,
                                            as(height_symbol(h, wall), height), width))};
  const auto upright = [&](const Wall& under, const As<Length>& on) {
    const std::string name = w ? in_symbol(under.name) : std::string(), symbol = "G_f" + name;
    const As<Length> face = upright_above(h, under, name, w);
    if (!(face.quantity > zero<Length>())) return;
    r.push_back(as(symbol, formulas::wall_presses.told_as(
                               w, symbol, "weight of what stands upright on that wall, with the same factor",
                               formulas::wall_presses.source, k.dead, h.wall_weight, face, on)));
  };
  upright(wall, as("b_e", width));
  for (const WallAbove& a : at(brace, e).walls) {
    const Wall& above = h.walls[a.wall];
    const Length high = tell_wall_height(h, above, w);
    const std::string name = w ? in_symbol(above.name) : std::string();
    std::string on = "b_e";
    if (w && a.on_the_floor) {
      on = "b_" + name;
      given(w, on,
            fmt::format("length of {}, which stands on the floor alone, that the joists may bring here", above.name),
            a.length, "the job");
    }
    const std::string symbol = (a.on_the_floor ? "G_o" : "G_u") + name;
    r.push_back(as(symbol, formulas::wall_presses.told_as(
                               w, symbol, w ? fmt::format("weight of {} above, with the same factor", above.name) : "",
                               formulas::wall_presses.source, k.dead, h.wall_weight,
                               as(w ? height_symbol(h, above) : std::string(), high), as(on, a.length))));
    upright(above, as(on, a.length));
  }
  return r;
}

std::vector<As<Force>> EndPress::floors(std::size_t brace, End e, const Combination& k, Working* w) const {
  std::vector<As<Force>> r;
  if (at(brace, e).floors.empty()) return r;
  const FirstFloor& first = *f_.house.first;
  if (w) {
    w->heading("What the first floor presses at that end");
    given(w, "f_G", fmt::format("factor on weight that presses, {}", k.name), k.dead, k.source);
    given(w, "g_f", "weight of the first floor, at most", *first.greatest_weight, "the job, floor.first");
    given(w, "f_Q", fmt::format("factor on the load on floors, {}", k.name), k.live, k.source);
    given(w, "q_Q", "load on it", *first.live, "the job, floor.first");
  }
  const Pressure q = formulas::floor_load(w, k.dead, *first.greatest_weight, k.live, *first.live);
  for (const Floored& on : at(brace, e).floors) {
    if (!w) {
      r.push_back(as("", formulas::floor_presses(nullptr, q, on.along, on.deep)));
      continue;
    }
    const std::string& name = f_.house.walls[on.wall].name;
    const std::string n = in_symbol(name);
    given(w, "b_f" + n, fmt::format("stretch of wall {}: {}", name, on.along_why), on.along, "geometry");
    given(w, "d_f" + n, fmt::format("width of floor that may bear on it: {}", on.deep_why), on.deep, "the safe one");
    r.push_back(as("Q_" + n, formulas::floor_presses.told(w, "Q_" + n, "statics", q, as("b_f" + n, on.along),
                                                          as("d_f" + n, on.deep))));
  }
  return r;
}

Force EndPress::sum(std::size_t c, std::size_t brace, End e, const Combination& k, Working* w) const {
  std::vector<As<Force>> rows;
  if (const As<Force> tip = tipping(c, brace, e, k, w); tip.quantity > zero<Force>()) rows.push_back(tip);
  for (const Share& s : at(brace, e).shares) {
    const Force there = roof(c, s.bearing, k);
    if (!(there > zero<Force>())) continue;
    rows.push_back(w ? tell_roof(c, s, k, *w) : as("", formulas::landed(nullptr, s.part, there)));
  }
  for (As<Force>& f : floors(brace, e, k, w)) rows.push_back(std::move(f));
  if (w) w->heading("Pressed at one end of the brace");
  for (As<Force>& f : walls(brace, e, k, w)) rows.push_back(std::move(f));
  return total<Force>(w, "P_e", "what presses on the studs at that end", "sum", rows);
}
Force EndPress::on(std::size_t c, std::size_t brace, End e, Working* w) const {
  return sum(c, brace, e, down(c, brace, e), w);
}

std::vector<Piece_of_demand> EndPress::made_of(std::size_t c, std::size_t brace, End e) const {
  const Combination& k = down(c, brace, e);
  const std::string& name = piece_of(f_, brace).brace->name;
  std::vector<Piece_of_demand> r;
  const Force tip = tipping(c, brace, e, k, nullptr).quantity;
  Force above = zero<Force>(), own = f_.presses(c, brace, e) ? f_.tip(c, brace) : zero<Force>();
  for (const Above& a : at(brace, e).above) above += from_above(c, a, nullptr).quantity;
  if (own + above > zero<Force>()) own = tip * (own / (own + above));
  if (own > zero<Force>()) r.push_back({"tipping of brace " + name, name, own});
  if (above > zero<Force>()) r.push_back({"tipping of braces above it", "the first floor", tip - own});
  for (const Share& s : at(brace, e).shares)
    if (const Force there = roof(c, s.bearing, k); there > zero<Force>())
      r.push_back({"roof", f_.roof.bearings()[s.bearing].words, s.part * there});
  Force on_floor = zero<Force>(), of_walls = zero<Force>();
  for (const As<Force>& f : floors(brace, e, k, nullptr)) on_floor += f.quantity;
  for (const As<Force>& f : walls(brace, e, k, nullptr)) of_walls += f.quantity;
  if (on_floor > zero<Force>()) r.push_back({"first floor and the load on it", "the job", on_floor});
  r.push_back({at(brace, e).walls.empty() ? "weight of the wall" : "weight of the walls", "the job", of_walls});
  return r;
}

}  // namespace belay
