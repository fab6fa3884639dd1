// Inside the room: how a roof is laid out from what it does at each side.
#pragma once
#include "shape/shape.hpp"

namespace belay {

double slope_of(Angle pitch);  // rise for a level length of one

// The sides by the ridge (a single slope: by its high edge): two along it, two across its ends, each pair in the order
// of the block's axes.
struct RoofSides {
  Side low, high, start, end;
};
RoofSides sides_by(Along ridge);

// Fills in the surfaces, lines, elevations and rise, and of the sides `meets`, from the plan and the sides. A gable
// that is to stand on a hip end further in than its slope goes is taken away: there is none.
void lay_roof(Shape&);

Polygon with_an_area(Polygon);  // empty when it has none
// All sums are taken about a polygon's first corner, so that a small piece far from the origin loses no digits.
inline Point less(const Point& p, const Point& origin) { return {p.x - origin.x, p.y - origin.y}; }
inline Area cross(const Point& p, const Point& q) { return p.x * q.y - q.x * p.y; }
// Where the edge from p to q meets the line: the cut coordinate is set, not computed, so that both sides of a cut share
// it.
inline Point meet_x(const Point& p, const Point& q, Length x) {
  return {x, p.y + (x - p.x) / (q.x - p.x) * (q.y - p.y)};
}
inline Point meet_y(const Point& p, const Point& q, Length y) {
  return {p.x + (y - p.y) / (q.y - p.y) * (q.x - p.x), y};
}

// What of a convex polygon lies where `inside` is not negative. `meet`: where the edge between two corners meets the
// line.
template <class Inside, class Meet> void half_into(Polygon& kept, const Polygon& g, Inside inside, Meet meet) {
  kept.clear();
  if (g.empty()) return;
  kept.reserve(g.size() + 1);
  const Length none = zero<Length>();
  Length at_p = inside(g[0]);
  for (std::size_t i = 0; i < g.size(); ++i) {
    const Point &p = g[i], &q = g[i + 1 < g.size() ? i + 1 : 0];
    const Length at_q = inside(q);
    if (at_p >= none) kept.push_back(p);
    if ((at_p > none && at_q < none) || (at_p < none && at_q > none)) kept.push_back(meet(p, q));
    at_p = at_q;
  }
}
template <class Inside, class Meet> Polygon half(const Polygon& g, Inside inside, Meet meet) {
  Polygon kept;
  half_into(kept, g, inside, meet);
  return kept;
}

// Corners that are one taken together; empty when what is left has no area but rounding's.
Polygon tidy(const Polygon&);
// What of it lies where a linear function of the place is not negative.
template <class Inside> Polygon where(const Polygon& g, Inside inside) {
  return tidy(half(g, inside, [&](const Point& p, const Point& q) {
    const Length at_p = inside(p), at_q = inside(q);
    const double part = at_p / (at_p - at_q);
    return Point{p.x + part * (q.x - p.x), p.y + part * (q.y - p.y)};
  }));
}

}  // namespace belay
