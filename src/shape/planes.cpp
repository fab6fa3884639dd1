// The planes of a roof. A slope that falls to a side rises from the outside face of that wall, and on its overhang
// falls on; everywhere the roof is the lowest of the slopes. Where a gable stands on a hip end, the end's slope counts
// only as far in as that.
#include "shape/planes.hpp"
#include <algorithm>

namespace belay {

RoofSides sides_by(Along ridge) {
  if (ridge == Along::across) return {Side::front, Side::back, Side::left, Side::right};
  return {Side::left, Side::right, Side::front, Side::back};
}

// Corners nearer than this are one; what is smaller has no area: rounding, never a part of a house.
static constexpr Length one_corner = Length::from_value(1e-12);
static constexpr Area no_area = Area::from_value(1e-12);

Polygon tidy(const Polygon& g) {
  const auto close = [](const Point& p, const Point& q) {
    return abs(p.x - q.x) < one_corner && abs(p.y - q.y) < one_corner;
  };
  Polygon kept;
  for (const Point& p : g)
    if (kept.empty() || !close(kept.back(), p)) kept.push_back(p);
  while (kept.size() > 1 && close(kept.back(), kept.front())) kept.pop_back();
  if (kept.size() < 3 || !(area(kept) > no_area)) kept.clear();
  return kept;
}

namespace {

struct Stretch {
  Length from, to;
  Length middle() const { return 0.5 * (from + to); }
};

class Layer {
 public:
  explicit Layer(Shape& shape) : s(shape), by(sides_by(shape.ridge)) {
    for (const Side side : {by.low, by.high, by.start, by.end}) rises[index(side)] = slope_of(s.at(side).pitch);
    drop_gables_beyond_the_slope();
  }
  void lay() {
    surfaces();
    measures();
    lines();
    elevations();
  }

 private:
  Shape& s;
  RoofSides by;
  std::array<double, 4> rises{};  // of the slope that falls to each side, for a level length of one

  static std::size_t index(Side side) { return static_cast<std::size_t>(side); }
  static Side facing(Side side) { return side_facing(opposite(outward(side))); }
  RoofSide& at(Side side) { return s.sides[index(side)]; }
  const RoofSide& at(Side side) const { return s.at(side); }
  double rise(Side side) const { return rises[index(side)]; }
  bool slopes(Side side) const { return at(side).slopes; }
  bool has_gable_above(Side side) const { return at(side).gable_above > zero<Length>(); }
  bool is_end(Side side) const { return side == by.start || side == by.end; }

  // ---- places. u: across the ridge, from the low side; v: along it, from the start.
  Length depth(Side side) const { return is_end(side) ? s.length : s.span; }  // to the facing wall
  bool at_origin(Side side) const { return side == by.low || side == by.start; }
  Length face(Side side) const { return at_origin(side) ? zero<Length>() : depth(side); }
  // How far in from a side's face a place on the axis across it stands; and the place that stands so far in.
  Length in_from(Side side, Length place) const { return at_origin(side) ? place : depth(side) - place; }
  Length place(Side side, Length in) const { return at_origin(side) ? in : depth(side) - in; }
  Length in_from(Side side, const Point& p) const { return in_from(side, is_across(outward(side)) ? p.x : p.y); }
  Point point(Length u, Length v) const { return s.ridge == Along::across ? Point{v, u} : Point{u, v}; }
  Polygon box(const Stretch& u, const Stretch& v) const {
    const Point a = point(u.from, v.from), b = point(u.to, v.to);
    return with_an_area(rectangle(a.x, b.x, a.y, b.y));
  }
  Stretch over_walls_u() const { return {zero<Length>(), s.span}; }
  Stretch over_walls_v() const { return {zero<Length>(), s.length}; }
  Stretch over_all_u() const { return {-at(by.low).overhang, s.span + at(by.high).overhang}; }
  Stretch over_all_v() const { return {-at(by.start).overhang, s.length + at(by.end).overhang}; }
  // Outside a wall, up to the edge of the overhang.
  Stretch past(Side side) const {
    const Length wall = face(side), out = at(side).overhang;
    return at_origin(side) ? Stretch{-out, wall} : Stretch{wall, wall + out};
  }

  // ---- where slopes meet
  // How far in from `side` its slope and the facing one are of one height; to the facing wall where that does not
  // slope.
  Length meeting(Side side) const {
    if (!slopes(facing(side))) return depth(side);
    const double own = rise(side), other = rise(facing(side));
    if (!(own < other) && !(other < own)) return 0.5 * depth(side);
    return depth(side) * (other / (own + other));
  }
  // u of the ridge: the low side's slope lies before it, the high side's behind it.
  Length ridge_u() const { return slopes(by.low) ? meeting(by.low) : zero<Length>(); }
  Length ridge_height() const { return slopes(by.low) ? ridge_u() * rise(by.low) : s.span * rise(by.high); }
  // How far in from an end's wall no other end's slope lies lower, and no gable stands in the way.
  Length reach(Side end) const {
    const Side other = facing(end);
    Length far = meeting(end);
    if (slopes(other) && has_gable_above(other)) far = std::max(far, s.length - at(other).gable_above);
    return has_gable_above(end) ? std::min(far, at(end).gable_above) : far;
  }
  void drop_gables_beyond_the_slope() {
    for (const Side end : {by.start, by.end}) {
      Length& g = at(end).gable_above;
      if (!slopes(end) || !(g * rise(end) < ridge_height() - one_corner) || !(g < s.length)) g = zero<Length>();
    }
  }
  // Whether an end's slope counts over a stretch along the ridge that no gable's foot parts.
  bool counts(Side end, const Stretch& v) const {
    return slopes(end) && (!has_gable_above(end) || in_from(end, v.middle()) < at(end).gable_above);
  }
  // The stretch along the ridge, parted at each gable that stands on a hip end.
  std::vector<Stretch> parted(const Stretch& v) const {
    std::vector<Length> marks{v.from, v.to};
    for (const Side end : {by.start, by.end})
      if (has_gable_above(end)) marks.push_back(place(end, at(end).gable_above));
    std::sort(marks.begin(), marks.end());
    std::vector<Stretch> parts;
    for (std::size_t i = 1; i < marks.size(); ++i)
      if (marks[i] - marks[i - 1] > one_corner) parts.push_back({marks[i - 1], marks[i]});
    return parts;
  }
  // Where the slope that falls to `side` lies no higher than that of a side round the corner. Level slopes part
  // half-way between the walls' lines.
  Polygon below(const Polygon& g, Side side, Side other) const {
    const double steepest = std::max(rise(side), rise(other));
    const double own = steepest > 0.0 ? rise(side) / steepest : 1.0;
    const double theirs = steepest > 0.0 ? rise(other) / steepest : 1.0;
    return where(g, [&](const Point& p) { return theirs * in_from(other, p) - own * in_from(side, p); });
  }
  Polygon below_ends(Polygon g, Side side, const Stretch& v) const {
    for (const Side end : {by.start, by.end})
      if (counts(end, v)) g = below(g, side, end);
    return g;
  }
  Polygon below_long_slopes(Polygon g, Side end) const {
    for (const Side side : {by.low, by.high}) g = below(g, end, side);
    return g;
  }

  // ---- surfaces
  // to: the side that it falls to. side: the wall that it leans on.
  void add(Part part, Polygon g, Side to, Side side) {
    if (g.empty()) return;
    const Angle slope = part == Part::soffit ? zero<Angle>() : at(to).pitch;
    s.surfaces.push_back({part, std::move(g), slope, outward(to), face(to), side});
  }
  // The slopes along the ridge past a wall that none falls to.
  void add_long_slopes(const Stretch& u, const Stretch& v, Side past_wall) {
    const Length ridge = ridge_u();
    for (const Side side : {by.low, by.high}) {
      if (!slopes(side)) continue;
      const Stretch own =
          side == by.low ? Stretch{u.from, std::min(u.to, ridge)} : Stretch{std::max(u.from, ridge), u.to};
      // A single slope goes on past its high wall.
      const Stretch all = slopes(facing(side)) ? own : u;
      add(Part::overhang, below_ends(box(all, v), side, v), side, past_wall);
    }
  }
  void over_the_walls() {
    for (const Side side : {by.low, by.high}) {
      if (!slopes(side)) continue;
      const Stretch u = side == by.low ? Stretch{zero<Length>(), ridge_u()} : Stretch{ridge_u(), s.span};
      for (const Stretch& v : parted(over_walls_v())) add(Part::roof, below_ends(box(u, v), side, v), side, side);
    }
    for (const Side end : {by.start, by.end}) {
      if (!slopes(end)) continue;
      const Length wall = face(end), far = place(end, reach(end));
      add(Part::roof, below_long_slopes(box(over_walls_u(), {std::min(wall, far), std::max(wall, far)}), end), end,
          end);
    }
  }
  // Eaves with their corners, parted at the hips.
  Polygon eaves(Side side) const {
    if (is_end(side)) return below_long_slopes(box(over_all_u(), past(side)), side);
    Polygon g = box(past(side), over_all_v());
    for (const Side end : {by.start, by.end})
      if (slopes(end)) g = below(g, side, end);
    return g;
  }
  // Past a wall that nothing falls to. Past the high wall of a single slope with both corners.
  Stretch verge_u(Side side) const { return is_end(side) ? over_walls_u() : past(side); }
  Stretch verge_v(Side side) const { return is_end(side) ? past(side) : over_all_v(); }
  void past_the_walls() {
    for (const Side side : {by.low, by.high, by.start, by.end}) {
      if (slopes(side)) {
        add(Part::overhang, eaves(side), side, side);
        continue;
      }
      const Stretch u = verge_u(side), v = verge_v(side);
      add_long_slopes(u, v, side);
      // A hip so flat that it comes out over the gable at the other end.
      if (is_end(side) && counts(facing(side), v))
        add(Part::overhang, below_long_slopes(box(u, v), facing(side)), facing(side), side);
    }
    for (const Side side : {by.low, by.high, by.start, by.end})
      add(Part::soffit, slopes(side) ? eaves(side) : box(verge_u(side), verge_v(side)), side, side);
  }
  void surfaces() {
    over_the_walls();
    past_the_walls();
  }

  // Of the roof over the house only: what an overhang adds past a high wall or a gable is no part of the rise.
  void measures() {
    const Side along = slopes(by.low) ? by.low : by.high;
    for (const Surface& f : s.surfaces) {
      if (f.part != Part::roof) continue;
      RoofSide& side = at(f.side);
      for (const Point& p : f.outline) {
        side.meets = std::max(side.meets, in_from(f.side, p));
        if (f.side == along) s.rise = std::max(s.rise, height_at(f, p));
      }
    }
  }

  // ---- lines
  void add_line(RoofLineKind kind, Length u0, Length v0, Length u1, Length v1, Length up0, Length up1) {
    s.lines.push_back({kind, point(u0, v0), point(u1, v1), up0, up1});
  }
  // How far in from an end's wall its hips end: at the ridge, at the other end's slope, at a gable.
  Length hips_end(Side end) const {
    const Length to_ridge = ridge_u() * (rise(by.low) / rise(end));
    if (slopes(facing(end)) || has_gable_above(end)) return std::min(to_ridge, reach(end));
    return std::min(to_ridge, s.length + at(facing(end)).overhang);
  }
  void ridge() {
    const Length none = zero<Length>();
    if (!(s.rise > none)) return;
    const auto from_end = [&](Side end) {
      if (!slopes(end)) return -at(end).overhang;
      if (has_gable_above(end)) return at(end).gable_above;
      return rise(end) > 0.0 ? ridge_u() * (rise(by.low) / rise(end)) : s.length;
    };
    const Length v0 = from_end(by.start), v1 = s.length - from_end(by.end);
    const Length u = ridge_u(), up = ridge_height();
    if (v1 - v0 > one_corner) {
      add_line(RoofLineKind::ridge, u, v0, u, v1, up, up);
      return;
    }
    // The end slopes meet first: the ridge runs the other way.
    if (!slopes(by.start) || !slopes(by.end) || has_gable_above(by.start) || has_gable_above(by.end)) return;
    const Length v = meeting(by.start), top = v * rise(by.start);
    const Length u0 = top / rise(by.low), u1 = s.span - top / rise(by.high);
    if (u1 - u0 > one_corner) add_line(RoofLineKind::ridge, u0, v, u1, v, top, top);
  }
  void hips(Side end) {
    if (!(rise(end) > 0.0)) return;
    for (const Side side : {by.low, by.high}) {
      if (!(rise(side) > 0.0)) continue;
      const double in_side = rise(end) / rise(side), in_end = rise(side) / rise(end);
      const Length out = std::min(at(end).overhang, at(side).overhang * in_end);
      const Length out_side = std::min(at(side).overhang, at(end).overhang * in_side);
      const Length top = hips_end(end);
      add_line(RoofLineKind::hip, place(side, -out_side), place(end, -out), place(side, top * in_side), place(end, top),
               -out * rise(end), top * rise(end));
    }
  }
  void lines() {
    if (!slopes(by.low) || !slopes(by.high)) {
      const Length u = face(s.high);
      add_line(RoofLineKind::high_edge, u, zero<Length>(), u, s.length, s.rise, s.rise);
      return;
    }
    ridge();
    for (const Side end : {by.start, by.end})
      if (slopes(end)) hips(end);
    for (const Side end : {by.start, by.end}) {
      if (!has_gable_above(end)) continue;
      const Length g = at(end).gable_above, up = g * rise(end), v = place(end, g);
      if (!(height_beyond(end, g) > up)) continue;
      add_line(RoofLineKind::gable_foot, up / rise(by.low), v, s.span - up / rise(by.high), v, up, up);
    }
  }

  // ---- elevations: (along, up), as seen square on
  void add(Side side, ElevationPart part, Polygon g) {
    if (!g.empty()) s.elevations.push_back({side, part, std::move(g)});
  }
  Polygon standing(const Stretch& along, Length from_up, Length to_up) const {
    return with_an_area(rectangle(along.from, along.to, s.wall_height + from_up, s.wall_height + to_up));
  }
  // What of an elevation lies under the slope of a side round the corner, which is seen edge-on.
  Polygon under(const Polygon& g, Side other) const {
    return where(g, [&](const Point& p) { return rise(other) * in_from(other, p.x) - (p.y - s.wall_height); });
  }
  void long_roof(Side side) {
    const Length lowest = -at(side).overhang * rise(side);
    if (!slopes(facing(side))) {
      add(side, ElevationPart::roof, standing(over_all_v(), lowest, s.rise + at(facing(side)).overhang * rise(side)));
      return;
    }
    for (const Stretch& v : parted(over_all_v())) {
      Polygon g = standing(v, lowest, ridge_height());
      for (const Side end : {by.start, by.end})
        if (counts(end, v)) g = under(g, end);
      add(side, ElevationPart::roof, std::move(g));
    }
  }
  void end_roof(Side end) {
    const bool open_end = !slopes(facing(end)) && !has_gable_above(end);
    const Length far = open_end ? s.length + at(facing(end)).overhang : reach(end);
    Polygon g = standing(over_all_u(), -at(end).overhang * rise(end), std::min(far * rise(end), ridge_height()));
    for (const Side side : {by.low, by.high}) g = under(g, side);
    add(end, ElevationPart::roof, std::move(g));
  }
  // Of the roof that stands upright so far in from an end: the ridge's, or less where the other end's slope lies lower.
  Length height_beyond(Side end, Length in) const {
    const Side other = facing(end);
    const bool lower = counts(other, {place(end, in), place(end, in)});
    return lower ? std::min(ridge_height(), (s.length - in) * rise(other)) : ridge_height();
  }
  // Upright under the long slopes, from a level up: at an end wall, or the gable on a hip end.
  void gable(Side end, Length in, Length foot) {
    const Length top = height_beyond(end, in);
    if (!(top > foot)) return;
    const Length base = s.wall_height + foot, peak = s.wall_height + top;
    Polygon g{{foot / rise(by.low), base}, {s.span - foot / rise(by.high), base}};
    if (top < ridge_height()) g.push_back({s.span - top / rise(by.high), peak});
    g.push_back(top < ridge_height() ? Point{top / rise(by.low), peak} : Point{ridge_u(), peak});
    add(end, ElevationPart::gable, std::move(g));
  }
  void half_gable(Side end) {
    const Length base = s.wall_height, peak = s.wall_height + s.rise;
    add(end, ElevationPart::gable, with_an_area({{zero<Length>(), base}, {s.span, base}, {face(s.high), peak}}));
  }
  void elevations() {
    for (const Side side : {Side::left, Side::front, Side::right, Side::back}) {
      const Stretch along = is_end(side) ? over_walls_u() : over_walls_v();
      add(side, ElevationPart::wall, rectangle(along.from, along.to, zero<Length>(), s.wall_height));
    }
    if (!(s.rise > zero<Length>())) return;
    const bool one_slope = !slopes(by.low) || !slopes(by.high);
    for (const Side end : {by.start, by.end}) {
      if (one_slope) half_gable(end);
      else if (!slopes(end)) gable(end, zero<Length>(), zero<Length>());
      else if (has_gable_above(end)) gable(end, at(end).gable_above, at(end).gable_above * rise(end));
    }
    if (one_slope) add(s.high, ElevationPart::gable, standing(over_walls_v(), zero<Length>(), s.rise));
    for (const Side side : {by.low, by.high})
      if (slopes(side)) long_roof(side);
    for (const Side end : {by.start, by.end})
      if (slopes(end)) end_roof(end);
  }
};

}  // namespace

void lay_roof(Shape& shape) { Layer(shape).lay(); }

}  // namespace belay
