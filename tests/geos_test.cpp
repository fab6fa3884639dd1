// Areas of cut polygons against GEOS, a geometry library that we did not write.
#include "shape/shape.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <geos_c.h>
#include <memory>
#include <numbers>
#include <random>

using namespace belay;
using Catch::Matchers::WithinAbs;

namespace {
struct Session {
  GEOSContextHandle_t handle = GEOS_init_r();
  Session() = default;
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;
  ~Session() { GEOS_finish_r(handle); }
};
struct Destroy {
  GEOSContextHandle_t handle;
  void operator()(GEOSGeometry* g) const { GEOSGeom_destroy_r(handle, g); }
};
using Geometry = std::unique_ptr<GEOSGeometry, Destroy>;

Geometry geometry(const Session& s, const Polygon& g) {
  GEOSCoordSequence* ring = GEOSCoordSeq_create_r(s.handle, static_cast<unsigned>(g.size() + 1), 2);
  for (std::size_t i = 0; i <= g.size(); ++i) {
    const Point& p = g[i % g.size()];
    GEOSCoordSeq_setX_r(s.handle, ring, static_cast<unsigned>(i), p.x.value());
    GEOSCoordSeq_setY_r(s.handle, ring, static_cast<unsigned>(i), p.y.value());
  }
  return Geometry(GEOSGeom_createPolygon_r(s.handle, GEOSGeom_createLinearRing_r(s.handle, ring), nullptr, 0),
                  Destroy{s.handle});
}
double area_of(const Session& s, const Geometry& g) {
  double a = 0.0;
  REQUIRE(GEOSArea_r(s.handle, g.get(), &a) == 1);
  return a;
}
// A convex polygon with its corners on an ellipse, counter-clockwise.
Polygon random_polygon(std::mt19937& rng) {
  std::uniform_real_distribution<double> turn(0.0, 2.0 * std::numbers::pi), size(0.5, 9.0), place(-5.0, 15.0);
  std::vector<double> at(3 + rng() % 6);
  for (double& a : at) a = turn(rng);
  std::sort(at.begin(), at.end());
  const double rx = size(rng), ry = size(rng), x = place(rng), y = place(rng);
  Polygon g;
  for (const double a : at)
    g.push_back({Length::from_value(x + rx * std::cos(a)), Length::from_value(y + ry * std::sin(a))});
  return g;
}
}  // namespace

TEST_CASE("cut areas and their moments agree with GEOS") {
  const Session s;
  std::mt19937 rng(2026);
  std::uniform_real_distribution<double> at(-6.0, 16.0);
  int cut = 0;
  for (int i = 0; i < 2000; ++i) {
    const Polygon g = random_polygon(rng);
    double x0 = at(rng), x1 = at(rng), y0 = at(rng), y1 = at(rng);
    if (x1 < x0) std::swap(x0, x1);
    if (y1 < y0) std::swap(y0, y1);
    const auto length = [](double v) { return Length::from_value(v); };
    const Polygon ours = between_y(between_x(g, length(x0), length(x1)), length(y0), length(y1));
    const Geometry whole = geometry(s, g),
                   window = geometry(s, rectangle(length(x0), length(x1), length(y0), length(y1)));
    const Geometry theirs(GEOSIntersection_r(s.handle, whole.get(), window.get()), Destroy{s.handle});
    REQUIRE(theirs);
    CHECK_THAT(area(g).value(), WithinAbs(area_of(s, whole), 1e-9));
    CHECK_THAT(area(ours).value(), WithinAbs(area_of(s, theirs), 1e-9));
    if (ours.empty() || area(ours).value() < 1e-6) continue;
    ++cut;
    const Geometry centre(GEOSGetCentroid_r(s.handle, theirs.get()), Destroy{s.handle});
    double x = 0.0, y = 0.0;
    REQUIRE(GEOSGeomGetX_r(s.handle, centre.get(), &x) == 1);
    REQUIRE(GEOSGeomGetY_r(s.handle, centre.get(), &y) == 1);
    CHECK_THAT(moment_x(ours).value(), WithinAbs(x * area_of(s, theirs), 1e-8));
    CHECK_THAT(moment_y(ours).value(), WithinAbs(y * area_of(s, theirs), 1e-8));
  }
  CHECK(cut > 500);
}
