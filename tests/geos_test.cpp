// Areas of cut polygons and the tiling of roofs against GEOS, a geometry library that we did not write.
#include "any_wings.hpp"
#include "sanitized.hpp"
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

// On a grid: corners that differ in their last digit alone can mislead GEOS 3.11 into an area that is not there.
double on_grid(Length l) { return std::round(l.value() * 1e11) / 1e11; }
Geometry geometry(const Session& s, const Polygon& g) {
  GEOSCoordSequence* ring = GEOSCoordSeq_create_r(s.handle, static_cast<unsigned>(g.size() + 1), 2);
  for (std::size_t i = 0; i <= g.size(); ++i) {
    const Point& p = g[i % g.size()];
    GEOSCoordSeq_setX_r(s.handle, ring, static_cast<unsigned>(i), on_grid(p.x));
    GEOSCoordSeq_setY_r(s.handle, ring, static_cast<unsigned>(i), on_grid(p.y));
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

namespace {
bool is_convex_and_turns_left(const Polygon& g) {
  for (std::size_t i = 0; i < g.size(); ++i) {
    const Point &a = g[i], &b = g[(i + 1) % g.size()], &c = g[(i + 2) % g.size()];
    const Area turn = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    if (turn.value() < -1e-9) return false;
  }
  return area(g).value() > 0.0;
}
double shared(const Session& s, const Geometry& a, const Geometry& b) {
  const Geometry common(GEOSIntersection_r(s.handle, a.get(), b.get()), Destroy{s.handle});
  REQUIRE(common);
  return area_of(s, common);
}
// Whether the pieces make up `whole`, once and nothing besides.
void check_tiles(const Session& s, const std::vector<Polygon>& pieces, const Geometry& whole) {
  std::vector<Geometry> each;
  double sum = 0.0;
  for (const Polygon& g : pieces) {
    CHECK(is_convex_and_turns_left(g));
    each.push_back(geometry(s, g));
    sum += area_of(s, each.back());
    CHECK_THAT(shared(s, each.back(), whole), WithinAbs(area_of(s, each.back()), 1e-9));
  }
  CHECK_THAT(sum, WithinAbs(area_of(s, whole), 1e-9));
  for (std::size_t i = 0; i < each.size(); ++i)
    for (std::size_t k = 0; k < i; ++k) CHECK(shared(s, each[i], each[k]) < 1e-9);
  Geometry together(GEOSGeom_createEmptyPolygon_r(s.handle), Destroy{s.handle});
  for (const Geometry& g : each) {
    together = Geometry(GEOSUnion_r(s.handle, together.get(), g.get()), Destroy{s.handle});
    REQUIRE(together);
  }
  const Geometry missed(GEOSSymDifference_r(s.handle, together.get(), whole.get()), Destroy{s.handle});
  REQUIRE(missed);
  CHECK(area_of(s, missed) < 1e-9);
}
}  // namespace

TEST_CASE("the planes of any roof tile its plan, and the soffits its overhangs, by GEOS") {
  const Session s;
  std::mt19937 rng(4);
  const int houses = test::sanitized ? 200 : 3000;
  int of_each_kind[4] = {0, 0, 0, 0};
  for (int i = 0; i < houses; ++i) {
    const House h = test::any_roof(rng, i % 3 != 0);
    const Shape shape = shape_of(h);
    ++of_each_kind[static_cast<std::size_t>(shape.roof)];
    std::vector<Polygon> over, above, below;
    for (const Surface& f : shape.surfaces) {
      if (f.part == Part::roof) over.push_back(f.outline);
      (f.part == Part::soffit ? below : above).push_back(f.outline);
    }
    const Length none = zero<Length>();
    const Geometry plan =
        geometry(s, rectangle(-shape.at(Side::left).overhang, shape.across + shape.at(Side::right).overhang,
                              -shape.at(Side::front).overhang, shape.up + shape.at(Side::back).overhang));
    const Geometry house = geometry(s, rectangle(none, shape.across, none, shape.up));
    check_tiles(s, over, house);
    check_tiles(s, above, plan);
    const Geometry past(GEOSDifference_r(s.handle, plan.get(), house.get()), Destroy{s.handle});
    REQUIRE(past);
    check_tiles(s, below, past);
    // Of one side nothing is seen twice, but the eaves that hang before the top of its wall.
    for (const Side side : test::all_sides) {
      std::vector<Geometry> seen;
      for (const Elevation& e : shape.elevations) {
        CHECK(is_convex_and_turns_left(e.outline));
        const Polygon from = between_y(e.outline, e.part == ElevationPart::roof ? shape.wall_height : none, everywhere);
        if (e.side == side && !from.empty()) seen.push_back(geometry(s, from));
      }
      for (std::size_t a = 0; a < seen.size(); ++a)
        for (std::size_t b = 0; b < a; ++b) CHECK(shared(s, seen[a], seen[b]) < 1e-9);
    }
  }
  for (const int kind : of_each_kind) CHECK(kind > houses / 12);
}

TEST_CASE("roofs that meet tile the plans of their blocks, and overhangs with their soffits do not overlap, by GEOS") {
  const Session s;
  std::mt19937 rng(5);
  int lying = 0;
  for (int i = 0; i < (test::sanitized ? 60 : 500); ++i) {
    const House h = test::any_winged(rng);
    const Shape shape = test::joined_of(h).shape;
    for (std::size_t by = 0; by <= h.wings.size(); ++by) {
      std::vector<Polygon> over, above, below;
      for (const Surface& f : shape.surfaces) {
        if (f.held_by != by) continue;
        (f.part == Part::roof ? over : f.part == Part::overhang ? above : below).push_back(f.outline);
        if (f.over) ++lying;
      }
      const Length left = left_of(h, by), front = front_of(h, by);
      const Length across = by == 0 ? h.across : h.wings[by - 1].across, up = by == 0 ? h.up : h.wings[by - 1].up;
      check_tiles(s, over, geometry(s, rectangle(left, left + across, front, front + up)));
      // What is left of the soffits is what is left of the overhangs above them.
      Geometry hangs(GEOSGeom_createEmptyPolygon_r(s.handle), Destroy{s.handle});
      for (const Polygon& g : above) {
        hangs = Geometry(GEOSUnion_r(s.handle, hangs.get(), geometry(s, g).get()), Destroy{s.handle});
        REQUIRE(hangs);
      }
      check_tiles(s, above, hangs);
      check_tiles(s, below, hangs);
    }
  }
  CHECK(lying > (test::sanitized ? 30 : 300));
}
