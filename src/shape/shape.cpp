// One rectangular block under a gable roof, and the cutting of convex polygons. The whole geometry cut stands here.
#include "shape/shape.hpp"
#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace belay {

static Way turned(Way way, int quarters) { return static_cast<Way>((static_cast<int>(way) + quarters + 4) % 4); }

Way opposite(Way way) { return turned(way, 2); }

Way outward(Side side) {
  switch (side) {
    case Side::left: return Way::left;
    case Side::front: return Way::front;
    case Side::right: return Way::right;
    case Side::back: return Way::back;
  }
  std::abort();
}

Side side_facing(Way way) {
  switch (way) {
    case Way::right: return Side::right;
    case Way::back: return Side::back;
    case Way::left: return Side::left;
    case Way::front: return Side::front;
  }
  std::abort();
}

bool is_across(Way way) { return way == Way::right || way == Way::left; }

// ---- polygons ------------------------------------------------------------------------------------------------------

static Area cross(const Point& p, const Point& q) { return p.x * q.y - q.x * p.y; }

// All sums are taken about the first corner, so that a small piece far from the origin loses no digits.
static Point less(const Point& p, const Point& origin) { return {p.x - origin.x, p.y - origin.y}; }

std::string_view words(ElevationPart p) {
  switch (p) {
    case ElevationPart::wall: return "wall";
    case ElevationPart::gable: return "gable";
    case ElevationPart::roof: return "roof";
  }
  return "wall";
}

Area area(const Polygon& g) {
  Area twice = zero<Area>();
  for (std::size_t i = 2; i < g.size(); ++i) twice += cross(less(g[i - 1], g[0]), less(g[i], g[0]));
  return 0.5 * twice;
}

template <class Get> static AreaMoment moment(const Polygon& g, Get along) {
  AreaMoment sum = zero<AreaMoment>();
  for (std::size_t i = 2; i < g.size(); ++i) {
    const Area triangle = 0.5 * cross(less(g[i - 1], g[0]), less(g[i], g[0]));
    sum += triangle * ((along(g[0]) + along(g[i - 1]) + along(g[i])) / 3.0);
  }
  return sum;
}
AreaMoment moment_x(const Polygon& g) {
  return moment(g, [](const Point& p) { return p.x; });
}
AreaMoment moment_y(const Polygon& g) {
  return moment(g, [](const Point& p) { return p.y; });
}

Polygon rectangle(Length x0, Length x1, Length y0, Length y1) { return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}; }

// Where the edge from p to q meets the line: the cut coordinate is set, not computed, so that both sides of a cut share
// it.
static Point meet_x(const Point& p, const Point& q, Length x) {
  return {x, p.y + (x - p.x) / (q.x - p.x) * (q.y - p.y)};
}
static Point meet_y(const Point& p, const Point& q, Length y) {
  return {p.x + (y - p.y) / (q.y - p.y) * (q.x - p.x), y};
}

// What of a convex polygon lies where `inside` is not negative.
template <class Inside, class Meet> static Polygon half(const Polygon& g, Inside inside, Meet meet) {
  Polygon kept;
  kept.reserve(g.size() + 1);
  for (std::size_t i = 0; i < g.size(); ++i) {
    const Point &p = g[i], &q = g[(i + 1) % g.size()];
    const Length at_p = inside(p), at_q = inside(q);
    const Length none = zero<Length>();
    if (at_p >= none) kept.push_back(p);
    if ((at_p > none && at_q < none) || (at_p < none && at_q > none)) kept.push_back(meet(p, q));
  }
  return kept;
}
static Polygon with_an_area(Polygon g) {
  if (g.size() < 3 || !(area(g) > zero<Area>())) g.clear();
  return g;
}

Polygon between_x(const Polygon& g, Length x0, Length x1) {
  const Polygon right = half(
      g, [=](const Point& p) { return p.x - x0; }, [=](const Point& p, const Point& q) { return meet_x(p, q, x0); });
  return with_an_area(half(
      right, [=](const Point& p) { return x1 - p.x; },
      [=](const Point& p, const Point& q) { return meet_x(p, q, x1); }));
}
Polygon between_y(const Polygon& g, Length y0, Length y1) {
  const Polygon above = half(
      g, [=](const Point& p) { return p.y - y0; }, [=](const Point& p, const Point& q) { return meet_y(p, q, y0); });
  return with_an_area(half(
      above, [=](const Point& p) { return y1 - p.y; },
      [=](const Point& p, const Point& q) { return meet_y(p, q, y1); }));
}

// ---- the building --------------------------------------------------------------------------------------------------

static double slope_of(Angle pitch) { return std::tan(pitch.value()); }

Length height_at(const Surface& s, const Point& p) {
  const Length along = is_across(s.falls) ? p.x : p.y;
  const bool falls_up_the_axis = s.falls == Way::right || s.falls == Way::back;
  return (falls_up_the_axis ? s.foot - along : along - s.foot) * slope_of(s.slope);
}

// Lays out the gable roof in the ridge's own axes (u across the ridge, v along it), then puts it on the block.
namespace {
struct Layer {
  Shape& shape;
  Point on_block(Length u, Length v) const { return shape.ridge == Along::across ? Point{v, u} : Point{u, v}; }
  void add(Part part, Length u0, Length u1, Length v0, Length v1, Angle slope, Way falls, Length foot,
           Side side) const {
    const Point low = on_block(u0, v0), high = on_block(u1, v1);
    Polygon outline = with_an_area(rectangle(low.x, high.x, low.y, high.y));
    if (!outline.empty()) shape.surfaces.push_back({part, std::move(outline), slope, falls, foot, side});
  }
};
}  // namespace

static void add_surfaces(Shape& s) {
  const Layer layer{s};
  const Length none = zero<Length>(), middle = 0.5 * s.span;
  const bool across = s.ridge == Along::across;
  const Way low_way = across ? Way::front : Way::left, high_way = across ? Way::back : Way::right;
  const Side start = across ? Side::left : Side::front, end = across ? Side::right : Side::back;
  const Side low_side = side_facing(low_way), high_side = side_facing(high_way);
  const Angle level = zero<Angle>();
  const Length v_start = -s.verge, v_end = s.length + s.verge;

  layer.add(Part::roof, none, middle, none, s.length, s.pitch, low_way, none, low_side);
  layer.add(Part::roof, middle, s.span, none, s.length, s.pitch, high_way, s.span, high_side);
  layer.add(Part::overhang, -s.eaves, none, v_start, v_end, s.pitch, low_way, none, low_side);
  layer.add(Part::overhang, s.span, s.span + s.eaves, v_start, v_end, s.pitch, high_way, s.span, high_side);
  layer.add(Part::overhang, none, middle, v_start, none, s.pitch, low_way, none, start);
  layer.add(Part::overhang, middle, s.span, v_start, none, s.pitch, high_way, s.span, start);
  layer.add(Part::overhang, none, middle, s.length, v_end, s.pitch, low_way, none, end);
  layer.add(Part::overhang, middle, s.span, s.length, v_end, s.pitch, high_way, s.span, end);
  layer.add(Part::soffit, -s.eaves, none, v_start, v_end, level, low_way, none, low_side);
  layer.add(Part::soffit, s.span, s.span + s.eaves, v_start, v_end, level, high_way, s.span, high_side);
  layer.add(Part::soffit, none, s.span, v_start, none, level, outward(start), none, start);
  layer.add(Part::soffit, none, s.span, s.length, v_end, level, outward(end), s.length, end);
}

static void add_elevations(Shape& s) {
  const Length none = zero<Length>();
  for (const Side side : {Side::left, Side::front, Side::right, Side::back}) {
    const Length breadth = is_across(outward(side)) ? s.up : s.across;
    s.elevations.push_back({side, ElevationPart::wall, rectangle(none, breadth, none, s.wall_height)});
  }
  if (!(s.rise > none)) return;
  const bool across = s.ridge == Along::across;
  for (const Side side : {across ? Side::left : Side::front, across ? Side::right : Side::back})
    s.elevations.push_back({side,
                            ElevationPart::gable,
                            {{none, s.wall_height}, {s.span, s.wall_height}, {0.5 * s.span, s.wall_height + s.rise}}});
  const Length lowest = s.wall_height - s.eaves * slope_of(s.pitch), ridge = s.wall_height + s.rise;
  for (const Side side : {across ? Side::front : Side::left, across ? Side::back : Side::right})
    s.elevations.push_back({side, ElevationPart::roof, rectangle(-s.verge, s.length + s.verge, lowest, ridge)});
}

Shape shape_of(const House& house) {
  const Roof& roof = house.roof;
  const bool across = roof.ridge == Along::across;
  const Length span = across ? house.up : house.across;
  const Length rise = 0.5 * span * slope_of(roof.pitch);
  const Length bearings = house.floor_level + house.height;
  Shape s{.across = house.across,
          .up = house.up,
          .wall_height = house.height,
          .floor_level = house.floor_level,
          .eaves = roof.eaves,
          .verge = roof.verge,
          .ridge = roof.ridge,
          .pitch = roof.pitch,
          .span = span,
          .length = across ? house.across : house.up,
          .rise = rise,
          .mean_roof_height = bearings + 0.5 * rise,
          .eaves_height = bearings - roof.eaves * slope_of(roof.pitch),
          .top = bearings + rise,
          .surfaces = {},
          .elevations = {}};
  add_surfaces(s);
  add_elevations(s);
  return s;
}

std::vector<Strip> strips(const House& house, const Shape& shape) {
  std::vector<Strip> all;
  const auto& trusses = house.trusses;
  for (std::size_t i = 0; i < trusses.size(); ++i) {
    const Length from = i == 0 ? -shape.verge : 0.5 * (trusses[i - 1].at + trusses[i].at);
    const Length to = i + 1 == trusses.size() ? shape.length + shape.verge : 0.5 * (trusses[i].at + trusses[i + 1].at);
    all.push_back({from, to});
  }
  return all;
}

// ---- the wind's frame ----------------------------------------------------------------------------------------------

Frame8::Frame8(Length across, Length up, Turn turn) : x_(across), y_(up), t_(turn) {}

Length Frame8::across() const { return t_.quarter % 2 == 0 ? x_ : y_; }
Length Frame8::up() const { return t_.quarter % 2 == 0 ? y_ : x_; }

Point Frame8::seen(const Point& p) const {
  Point s = p;
  switch (t_.quarter) {
    case 1: s = {p.y, x_ - p.x}; break;
    case 2: s = {x_ - p.x, y_ - p.y}; break;
    case 3: s = {y_ - p.y, p.x}; break;
    default: break;
  }
  return t_.mirror ? Point{s.x, up() - s.y} : s;
}
Point Frame8::own(const Point& p) const {
  const Point s = t_.mirror ? Point{p.x, up() - p.y} : p;
  switch (t_.quarter) {
    case 1: return {x_ - s.y, s.x};
    case 2: return {x_ - s.x, y_ - s.y};
    case 3: return {s.y, y_ - s.x};
    default: return s;
  }
}
Polygon Frame8::seen(const Polygon& g) const {
  Polygon turned_over;
  for (const Point& p : g) turned_over.push_back(seen(p));
  if (t_.mirror) std::reverse(turned_over.begin(), turned_over.end());
  return turned_over;
}
Polygon Frame8::own(const Polygon& g) const {
  Polygon turned_back;
  for (const Point& p : g) turned_back.push_back(own(p));
  if (t_.mirror) std::reverse(turned_back.begin(), turned_back.end());
  return turned_back;
}

static Way mirrored(Way way) { return is_across(way) ? way : opposite(way); }

Way Frame8::seen(Way way) const {
  const Way straight = turned(way, -t_.quarter);
  return t_.mirror ? mirrored(straight) : straight;
}
Way Frame8::own(Way way) const { return turned(t_.mirror ? mirrored(way) : way, t_.quarter); }

Along Frame8::seen(Along along) const {
  if (t_.quarter % 2 == 0) return along;
  return along == Along::across ? Along::up : Along::across;
}

}  // namespace belay
