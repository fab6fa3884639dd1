// Cutting the same polygons by many windows: the parts that between_x and between_y give, to the last bit, without room
// made for each.
#pragma once
#include "shape/shape.hpp"

namespace belay {

struct Extent {
  Length x0, x1, y0, y1;
};
Extent extent_of(const Polygon&);
inline bool overlap(const Extent& a, const Extent& b) {
  return a.x1 > b.x0 && a.x0 < b.x1 && a.y1 > b.y0 && a.y0 < b.y1;
}

// Area and first moments, as area, moment_x and moment_y.
struct Measures {
  Area a;
  AreaMoment x, y;
};
Measures measures_of(const Polygon&);
// As height_at, the rise of the slope for a level length of one worked out before.
Length height_at(const Surface&, const Point&, double rise);

class Cutter {
 public:
  // What of a polygon, whose extent is known, lies within the window, with its measures; empty when nothing of it has
  // an area. It stands until the next cut, and as long as the polygon does.
  const Polygon& cut(const Polygon&, const Extent& of_it, const Extent& window, Measures&);

 private:
  Polygon right_, left_, above_, below_;
};

}  // namespace belay
