// One rectangular block and its measures, the cutting of convex polygons, strips, and the wind's frame.
#include "shape/shape.hpp"
#include "shape/cut.hpp"
#include "shape/planes.hpp"
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

std::string_view words(ElevationPart p) {
  switch (p) {
    case ElevationPart::wall: return "wall";
    case ElevationPart::gable: return "gable";
    case ElevationPart::roof: return "roof";
  }
  return "wall";
}

std::string_view words(RoofLineKind k) {
  switch (k) {
    case RoofLineKind::ridge: return "ridge";
    case RoofLineKind::hip: return "hip";
    case RoofLineKind::high_edge: return "high edge";
    case RoofLineKind::gable_foot: return "foot of a gable";
    case RoofLineKind::valley: return "valley";
  }
  return "ridge";
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

Polygon with_an_area(Polygon g) {
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

double slope_of(Angle pitch) { return std::tan(pitch.value()); }

Length height_at(const Surface& s, const Point& p) { return height_at(s, p, slope_of(s.slope)); }
Length height_at(const Surface& s, const Point& p, double rise) {
  const Length along = is_across(s.falls) ? p.x : p.y;
  const bool falls_up_the_axis = s.falls == Way::right || s.falls == Way::back;
  return s.base + (falls_up_the_axis ? s.foot - along : along - s.foot) * rise;
}

// What the roof does at each side; `gable_above` only where the job asks for one, however far in.
static std::array<RoofSide, 4> sides_of(const Roof& roof, Along ridge) {
  const auto [low, high, start, end] = sides_by(ridge);
  const bool one_slope = roof.shape == RoofShape::skillion || roof.shape == RoofShape::flat;
  std::array<RoofSide, 4> sides;
  for (const Side side : {low, high, start, end}) {
    const std::size_t i = static_cast<std::size_t>(side);
    RoofSide& r = sides[i];
    const bool is_end = side == start || side == end;
    if (one_slope) r.slopes = outward(side) == opposite(outward(roof.high));
    else r.slopes = !is_end || (roof.shape == RoofShape::hip && roof.hipped[i]);
    if (r.slopes) r.pitch = roof.own_pitch[i].value_or(roof.pitch);
    r.overhang = roof.own_overhang[i].value_or(r.slopes ? roof.eaves : roof.verge);
    if (r.slopes && is_end) r.gable_above = roof.gable_above[i];
  }
  return sides;
}

Shape shape_of(const House& house) {
  const Roof& roof = house.roof;
  const bool one_slope = roof.shape == RoofShape::skillion || roof.shape == RoofShape::flat;
  // The high edge of a single slope runs along its high side.
  const Along ridge = !one_slope ? roof.ridge : is_across(outward(roof.high)) ? Along::up : Along::across;
  const bool across = ridge == Along::across;
  const Length walls = top_of_walls(house), bearings = house.floor_level + walls;
  Shape s{.across = house.across,
          .up = house.up,
          .wall_height = walls,
          .floor_level = house.floor_level,
          .eaves = zero<Length>(),
          .verge = zero<Length>(),
          .ridge = ridge,
          .pitch = zero<Angle>(),
          .span = across ? house.up : house.across,
          .length = across ? house.across : house.up,
          .rise = zero<Length>(),
          .racking_from = walls - wall_height(house, top_floor(house)) / 2.0,
          .mean_roof_height = bearings,
          .eaves_height = bearings,
          .top = bearings,
          .surfaces = {},
          .elevations = {},
          .roof = roof.shape,
          .high = roof.high,
          .sides = sides_of(roof, ridge)};
  const RoofSides by = sides_by(ridge);
  s.pitch = std::max(s.at(by.low).pitch, s.at(by.high).pitch);
  for (const RoofSide& side : s.sides) {
    Length& past = side.slopes ? s.eaves : s.verge;
    past = std::max(past, side.overhang);
    if (side.slopes) s.eaves_height = std::min(s.eaves_height, bearings - side.overhang * slope_of(side.pitch));
  }
  lay_roof(s);
  s.mean_roof_height = bearings + 0.5 * s.rise;
  s.top = bearings + s.rise;
  // The far overhang of a single slope goes on rising past the high wall.
  if (one_slope) s.top += s.at(roof.high).overhang * slope_of(s.pitch);
  return s;
}

std::vector<Strip> strips(const House& house, const Shape& shape) {
  std::vector<Strip> all;
  const auto& trusses = house.trusses;
  if (trusses.empty()) return all;
  const RoofSides by = sides_by(shape.ridge);
  const RoofSide &start = shape.at(by.start), &end = shape.at(by.end);
  const Length first = start.slopes ? trusses.front().at : -start.overhang;
  const Length last = end.slopes ? trusses.back().at : shape.length + end.overhang;
  for (std::size_t i = 0; i < trusses.size(); ++i) {
    const Length from = i == 0 ? first : 0.5 * (trusses[i - 1].at + trusses[i].at);
    const Length to = i + 1 == trusses.size() ? last : 0.5 * (trusses[i].at + trusses[i + 1].at);
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
