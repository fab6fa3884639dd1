#include "shape/cut.hpp"
#include "shape/planes.hpp"
#include <algorithm>

namespace belay {

Extent extent_of(const Polygon& g) {
  Extent e{everywhere, -everywhere, everywhere, -everywhere};
  for (const Point& p : g) {
    e.x0 = std::min(e.x0, p.x);
    e.x1 = std::max(e.x1, p.x);
    e.y0 = std::min(e.y0, p.y);
    e.y1 = std::max(e.y1, p.y);
  }
  return e;
}

Measures measures_of(const Polygon& g) {
  Area twice = zero<Area>();
  AreaMoment x = zero<AreaMoment>(), y = x;
  for (std::size_t i = 2; i < g.size(); ++i) {
    const Point p = less(g[i - 1], g[0]), q = less(g[i], g[0]);
    const Area both = cross(p, q), triangle = 0.5 * both;
    twice += both;
    x += triangle * ((g[0].x + g[i - 1].x + g[i].x) / 3.0);
    y += triangle * ((g[0].y + g[i - 1].y + g[i].y) / 3.0);
  }
  return {0.5 * twice, x, y};
}

static bool has_an_area(const Polygon& g) { return g.size() >= 3 && area(g) > zero<Area>(); }

// A polygon that a line leaves whole stays as it is: cutting would give its corners back in their order.
const Polygon& Cutter::cut(const Polygon& g, const Extent& e, const Extent& w, Measures& measures) {
  const auto nothing = [this]() -> const Polygon& {
    below_.clear();
    return below_;
  };
  if (!overlap(e, w)) return nothing();
  const Polygon* part = &g;
  const auto keep = [&](Polygon& kept, auto inside, auto meet) {
    half_into(kept, *part, inside, meet);
    part = &kept;
  };
  if (e.x0 < w.x0)
    keep(
        right_, [&](const Point& p) { return p.x - w.x0; },
        [&](const Point& p, const Point& q) { return meet_x(p, q, w.x0); });
  if (e.x1 > w.x1)
    keep(
        left_, [&](const Point& p) { return w.x1 - p.x; },
        [&](const Point& p, const Point& q) { return meet_x(p, q, w.x1); });
  if ((e.y0 < w.y0 || e.y1 > w.y1) && !has_an_area(*part)) return nothing();
  if (e.y0 < w.y0)
    keep(
        above_, [&](const Point& p) { return p.y - w.y0; },
        [&](const Point& p, const Point& q) { return meet_y(p, q, w.y0); });
  if (e.y1 > w.y1)
    keep(
        below_, [&](const Point& p) { return w.y1 - p.y; },
        [&](const Point& p, const Point& q) { return meet_y(p, q, w.y1); });
  measures = measures_of(*part);
  return part->size() >= 3 && measures.a > zero<Area>() ? *part : nothing();
}

}  // namespace belay
