// Cutting the same polygons by many windows: the parts that between_x and between_y give, to the last bit, without room
// made for each.
#pragma once
#include "shape/shape.hpp"

namespace belay {

struct Extent {
  Length x0, x1, y0, y1;
};
Extent extent_of(const Polygon&);

// Area and first moments, as area, moment_x and moment_y.
struct Measures {
  Area a;
  AreaMoment x, y;
};
Measures measures_of(const Polygon&);

class Cutter {
 public:
  // What of a polygon, whose extent is known, lies within the window; empty when nothing of it has an area. It stands
  // until the next cut, and as long as the polygon does.
  const Polygon& cut(const Polygon&, const Extent& of_it, const Extent& window);

 private:
  Polygon right_, left_, above_, below_;
};

}  // namespace belay
