// Houses under every kind of roof, the height of a roof worked out point by point in another way than the program's,
// and a house as seen in one of the eight frames.
#pragma once
#include "wind_house.hpp"
#include <algorithm>
#include <random>

namespace belay::test {

inline double m(Length l) { return l.value(); }
inline double m2(Area a) { return a.value(); }
inline std::size_t at(Side side) { return static_cast<std::size_t>(side); }
inline constexpr std::array<Side, 4> all_sides{Side::left, Side::front, Side::right, Side::back};

// The first and the last end of a ridge.
inline std::array<Side, 2> ends_of(Along ridge) {
  return ridge == Along::across ? std::array{Side::left, Side::right} : std::array{Side::front, Side::back};
}
inline House roofed(Length across, Length up, RoofShape shape, Along ridge, Angle pitch, Length eaves, Length verge) {
  House h = gable(across, up, metres(2.4), ridge, pitch, eaves, verge);
  h.roof.shape = shape;
  return h;
}
inline House hipped(Length across, Length up, Angle pitch, Length eaves, std::vector<Side> ends) {
  House h =
      roofed(across, up, RoofShape::hip, !ends.empty() && is_across(outward(ends.front())) ? Along::across : Along::up,
             pitch, eaves, zero<Length>());
  for (const Side e : ends) h.roof.hipped[at(e)] = true;
  return h;
}
inline House skillion(Length across, Length up, Angle pitch, Side high, Length eaves, Length verge) {
  House h = roofed(across, up, RoofShape::skillion, is_across(outward(high)) ? Along::up : Along::across, pitch, eaves,
                   verge);
  h.roof.high = high;
  return h;
}

// buildable: every hip ends at the ridge, and gables on hip ends leave a ridge. Others are only sound geometry.
inline House any_roof(std::mt19937& rng, bool buildable) {
  std::uniform_real_distribution<double> plan(4.0, 20.0), pitch(6.0, 44.0), over(0.0, 1.2), part(0.1, 1.2);
  const auto once_in = [&](unsigned n) { return rng() % n == 0; };
  const auto overhang = [&] { return metres(once_in(4) ? 0.0 : over(rng)); };
  const RoofShape shape = std::array{RoofShape::gable, RoofShape::hip,      RoofShape::hip,
                                     RoofShape::hip,   RoofShape::skillion, RoofShape::flat}[rng() % 6];
  for (;;) {
    House h = roofed(metres(plan(rng)), metres(plan(rng)), shape, once_in(2) ? Along::across : Along::up,
                     degrees(shape == RoofShape::flat ? 5.0 * part(rng) / 1.2 : pitch(rng)), overhang(), overhang());
    h.roof.high = all_sides[rng() % 4];
    const bool even = once_in(2);
    for (const Side s : all_sides) {
      if (even) break;
      if (once_in(2) && shape != RoofShape::flat) h.roof.own_pitch[at(s)] = degrees(pitch(rng));
      if (once_in(2)) h.roof.own_overhang[at(s)] = overhang();
    }
    if (shape != RoofShape::hip) return h;
    const auto [start, end] = ends_of(h.roof.ridge);
    h.roof.hipped[at(start)] = !once_in(3);
    h.roof.hipped[at(end)] = !h.roof.hipped[at(start)] || !once_in(3);
    const Shape plain = shape_of(h);
    const bool ridge = plain.at(start).meets + plain.at(end).meets < plain.length - metres(0.01);
    if (buildable && !ridge) continue;
    for (const Side s : {start, end})
      if (h.roof.hipped[at(s)] && once_in(3))
        h.roof.gable_above[at(s)] = std::min(0.9, part(rng)) * (buildable ? 1.0 : 1.6) * plain.at(s).meets;
    return h;
  }
}

// How far in from the outside face of a side.
inline Length in_from(const House& h, Side side, const Point& p) {
  switch (side) {
    case Side::left: return p.x;
    case Side::front: return p.y;
    case Side::right: return h.across - p.x;
    default: return h.up - p.y;
  }
}
// The lowest of the slopes that count at a point, and the side that it falls to.
struct Lowest {
  Length up;
  Side falls;
};
inline Lowest lowest_slope(const House& h, const Point& p) {
  const Roof& r = h.roof;
  const auto height = [&](Side s) { return in_from(h, s, p) * std::tan(r.own_pitch[at(s)].value_or(r.pitch).value()); };
  if (r.shape == RoofShape::skillion || r.shape == RoofShape::flat) {
    const Side low = side_facing(opposite(outward(r.high)));
    return {height(low), low};
  }
  std::optional<Lowest> lowest;
  const auto [start, end] = ends_of(r.ridge);
  for (const Side s : all_sides) {
    if (s == start || s == end) {
      if (r.shape != RoofShape::hip || !r.hipped[at(s)]) continue;
      const Length g = r.gable_above[at(s)];
      if (g > zero<Length>() && in_from(h, s, p) > g) continue;
    }
    if (!lowest || height(s) < lowest->up) lowest = Lowest{height(s), s};
  }
  return *lowest;
}

// The house as the wind sees it in that frame. Its walls are left out.
inline House seen_in(const Frame8& f, const House& h) {
  House t = h;
  t.across = f.across();
  t.up = f.up();
  t.walls.clear();
  t.roof.ridge = f.seen(h.roof.ridge);
  const auto there = [&](Side s) { return side_facing(f.seen(outward(s))); };
  t.roof.high = there(h.roof.high);
  for (const Side s : all_sides) {
    t.roof.hipped[at(there(s))] = h.roof.hipped[at(s)];
    t.roof.own_pitch[at(there(s))] = h.roof.own_pitch[at(s)];
    t.roof.own_overhang[at(there(s))] = h.roof.own_overhang[at(s)];
    t.roof.gable_above[at(there(s))] = h.roof.gable_above[at(s)];
  }
  const Along along = shape_of(h).ridge;
  for (Truss& truss : t.trusses) {
    const Length none = zero<Length>();
    const Point p = f.seen(along == Along::across ? Point{truss.at, none} : Point{none, truss.at});
    truss.at = f.seen(along) == Along::across ? p.x : p.y;
  }
  std::stable_sort(t.trusses.begin(), t.trusses.end(), [](const Truss& a, const Truss& b) { return a.at < b.at; });
  return t;
}

}  // namespace belay::test
