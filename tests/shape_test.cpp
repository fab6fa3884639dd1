// The building in plan and in elevation, and the cutting of polygons. Expected figures are worked by hand beside each.
#include "shape/shape.hpp"
#include "wind_house.hpp"
#include <catch2/catch.hpp>
#include <random>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;

namespace {
constexpr double tight = 1e-9;  // m2: what tiling may miss

double m2(Area a) { return a.value(); }
double m(Length l) { return l.value(); }

House random_house(std::mt19937& rng) {
  std::uniform_real_distribution<double> plan(4.0, 20.0), pitch(0.0, 44.0), wall(2.1, 4.0), over(0.0, 1.2);
  const Along ridge = rng() % 2 == 0 ? Along::across : Along::up;
  const double eaves = rng() % 4 == 0 ? 0.0 : over(rng), verge = rng() % 4 == 0 ? 0.0 : over(rng);
  return gable(metres(plan(rng)), metres(plan(rng)), metres(wall(rng)), ridge, degrees(pitch(rng)), metres(eaves),
               metres(verge));
}
}  // namespace

TEST_CASE("heights of a gable block") {
  // 7.8 m span at 22.5 degrees: rise 3.9 tan 22.5 = 1.61543 m; floor 0.3 m, wall 2.7 m
  const Shape s = shape_of(cottage());
  const double rise = 3.9 * std::tan(m(metres(22.5)) * std::numbers::pi / 180.0);
  CHECK_THAT(rise, WithinAbs(1.61543, 5e-6));
  CHECK_THAT(m(s.rise), WithinAbs(rise, 1e-12));
  CHECK_THAT(m(s.span), WithinAbs(7.8, 0.0));
  CHECK_THAT(m(s.length), WithinAbs(12.0, 0.0));
  CHECK_THAT(m(s.mean_roof_height), WithinAbs(3.0 + rise / 2.0, 1e-12));
  CHECK_THAT(m(s.top), WithinAbs(3.0 + rise, 1e-12));
  CHECK_THAT(m(s.eaves_height), WithinAbs(3.0 - 0.45 * rise / 3.9, 1e-12));
}

TEST_CASE("a ridge up the sheet is the same house turned") {
  House h = cottage();
  const Shape s = shape_of(h);
  std::swap(h.across, h.up);
  h.roof.ridge = Along::up;
  const Shape t = shape_of(h);
  CHECK(s.span == t.span);
  CHECK(s.length == t.length);
  CHECK(s.rise == t.rise);
  REQUIRE(s.surfaces.size() == t.surfaces.size());
  for (std::size_t i = 0; i < s.surfaces.size(); ++i)
    CHECK_THAT(m2(area(s.surfaces[i].outline)), WithinAbs(m2(area(t.surfaces[i].outline)), tight));
}

TEST_CASE("surfaces tile the roof's outline once from above, and the soffits once from below") {
  std::mt19937 rng(4055);
  for (int i = 0; i < 300; ++i) {
    const House h = random_house(rng);
    const Shape s = shape_of(h);
    const bool across = s.ridge == Along::across;
    const Length out_x = across ? s.verge : s.eaves, out_y = across ? s.eaves : s.verge;
    const Area plan = (s.across + 2.0 * out_x) * (s.up + 2.0 * out_y), house = s.across * s.up;
    Area over = zero<Area>(), past = zero<Area>(), under = zero<Area>();
    for (const Surface& f : s.surfaces) {
      CHECK(area(f.outline) > zero<Area>());
      (f.part == Part::roof ? over : f.part == Part::overhang ? past : under) += area(f.outline);
    }
    CHECK_THAT(m2(over), WithinAbs(m2(house), tight));
    CHECK_THAT(m2(past), WithinAbs(m2(plan - house), tight));
    CHECK_THAT(m2(under), WithinAbs(m2(plan - house), tight));
    std::uniform_real_distribution<double> x(-m(out_x), m(s.across + out_x)), y(-m(out_y), m(s.up + out_y));
    for (int k = 0; k < 20; ++k) {
      const Point p{metres(x(rng)), metres(y(rng))};
      const bool in_house = p.x > zero<Length>() && p.x < s.across && p.y > zero<Length>() && p.y < s.up;
      int from_above = 0, from_below = 0;
      for (const Surface& f : s.surfaces)
        if (holds(f.outline, p)) ++(f.part == Part::soffit ? from_below : from_above);
      CHECK(from_above == 1);
      CHECK(from_below == (in_house ? 0 : 1));
    }
  }
}

TEST_CASE("a slope stands at nothing over the wall, below it on the eaves and at the rise on the ridge") {
  for (const Along ridge : {Along::across, Along::up}) {
    const Shape s =
        shape_of(gable(metres(9.0), metres(6.0), metres(2.4), ridge, degrees(30.0), metres(0.6), metres(0.2)));
    for (const Surface& f : s.surfaces) {
      if (f.part == Part::soffit) continue;
      const Point middle = ridge == Along::across ? Point{metres(1.0), 0.5 * s.span} : Point{0.5 * s.span, metres(1.0)};
      CHECK_THAT(m(height_at(f, middle)), WithinAbs(m(s.rise), 1e-12));
      const bool low = f.falls == Way::front || f.falls == Way::left;
      const Length wall = low ? zero<Length>() : s.span, edge = low ? -s.eaves : s.span + s.eaves;
      const auto at = [&](Length u) { return ridge == Along::across ? Point{metres(1.0), u} : Point{u, metres(1.0)}; };
      CHECK_THAT(m(height_at(f, at(wall))), WithinAbs(0.0, 1e-12));
      CHECK_THAT(m(height_at(f, at(edge))), WithinAbs(-0.6 * std::tan(std::numbers::pi / 6.0), 1e-12));
    }
  }
}

TEST_CASE("what is seen of each side") {
  // 12.0 x 7.8 m, walls 2.7 m, rise 1.61543 m: walls 32.4 and 21.06 m2; gable 7.8 x 1.61543 / 2 = 6.300 m2;
  // roof (12 + 0.6) x (1.61543 + 0.45 tan 22.5) = 12.6 x 1.80182 = 22.703 m2
  const Shape s = shape_of(cottage());
  const auto seen = [&](Side side, ElevationPart part) {
    Area sum = zero<Area>();
    for (const Elevation& e : s.elevations)
      if (e.side == side && e.part == part) sum += area(e.outline);
    return m2(sum);
  };
  for (const Side side : {Side::front, Side::back}) {
    CHECK_THAT(seen(side, ElevationPart::wall), WithinAbs(32.4, 1e-9));
    CHECK_THAT(seen(side, ElevationPart::gable), WithinAbs(0.0, 0.0));
    CHECK_THAT(seen(side, ElevationPart::roof), WithinAbs(22.703, 5e-4));
  }
  for (const Side side : {Side::left, Side::right}) {
    CHECK_THAT(seen(side, ElevationPart::wall), WithinAbs(21.06, 1e-9));
    CHECK_THAT(seen(side, ElevationPart::gable), WithinAbs(6.300, 5e-4));
    CHECK_THAT(seen(side, ElevationPart::roof), WithinAbs(0.0, 0.0));
  }
}

TEST_CASE("strips meet half-way and reach the verges") {
  const House h = cottage();
  const Shape s = shape_of(h);
  const auto all = strips(h, s);
  REQUIRE(all.size() == h.trusses.size());
  CHECK(all.front().from == -s.verge);
  CHECK(all.back().to == s.length + s.verge);
  for (std::size_t i = 1; i < all.size(); ++i) {
    CHECK(all[i].from == all[i - 1].to);
    CHECK_THAT(m(all[i].from), WithinAbs(m(h.trusses[i - 1].at + h.trusses[i].at) / 2.0, 1e-12));
  }
}

TEST_CASE("moments of area of a triangle") {
  // corners (1, 1), (4, 1), (1, 3): area 3 m2, centroid (2, 5/3)
  const Polygon g{{metres(1.0), metres(1.0)}, {metres(4.0), metres(1.0)}, {metres(1.0), metres(3.0)}};
  CHECK_THAT(m2(area(g)), WithinAbs(3.0, 1e-12));
  CHECK_THAT(moment_x(g).value(), WithinAbs(6.0, 1e-12));
  CHECK_THAT(moment_y(g).value(), WithinAbs(5.0, 1e-12));
}

TEST_CASE("a cut leaves no piece without an area") {
  const Polygon g = rectangle(metres(0.0), metres(4.0), metres(0.0), metres(3.0));
  CHECK(between_x(g, metres(4.0), metres(9.0)).empty());
  CHECK(between_x(g, metres(-3.0), metres(0.0)).empty());
  CHECK(between_y(g, metres(3.0), everywhere).empty());
  CHECK(between_y(g, metres(5.0), metres(6.0)).empty());
  CHECK_THAT(m2(area(between_x(g, -everywhere, everywhere))), WithinAbs(12.0, 1e-12));
  CHECK_THAT(m2(area(between_y(between_x(g, metres(1.0), metres(2.5)), metres(2.0), everywhere))),
             WithinAbs(1.5, 1e-12));
}

TEST_CASE("each frame puts the wind along +x and its corner at the origin") {
  const Length across = metres(12.0), up = metres(7.0);
  std::mt19937 rng(8);
  std::uniform_real_distribution<double> x(-1.0, 13.0), y(-1.0, 8.0);
  for (const Turn turn : turns) {
    const Frame8 f(across, up, turn);
    CHECK(f.across() * f.up() == across * up);
    const Point origin = f.own(Point{zero<Length>(), zero<Length>()});
    CHECK((origin.x == zero<Length>() || origin.x == across));
    CHECK((origin.y == zero<Length>() || origin.y == up));
    for (int i = 0; i < 100; ++i) {
      const Point p{metres(x(rng)), metres(y(rng))};
      const Point back = f.own(f.seen(p));
      CHECK_THAT(m(back.x), WithinAbs(m(p.x), 1e-14));
      CHECK_THAT(m(back.y), WithinAbs(m(p.y), 1e-14));
    }
    for (const Way way : {Way::right, Way::back, Way::left, Way::front}) {
      CHECK(f.own(f.seen(way)) == way);
      // a step that way in the block is a step that way as the wind sees it
      const Point here{metres(3.0), metres(3.0)};
      const double step = way == Way::right || way == Way::back ? 1.0 : -1.0;
      const Point there = is_across(way) ? Point{here.x + step * metre, here.y} : Point{here.x, here.y + step * metre};
      const Point a = f.seen(here), b = f.seen(there);
      const Way seen = f.seen(way);
      CHECK_THAT(m(b.x - a.x), WithinAbs(seen == Way::right ? 1.0 : seen == Way::left ? -1.0 : 0.0, 1e-12));
      CHECK_THAT(m(b.y - a.y), WithinAbs(seen == Way::back ? 1.0 : seen == Way::front ? -1.0 : 0.0, 1e-12));
    }
    const Polygon g = rectangle(metres(1.0), metres(3.0), metres(2.0), metres(6.0));
    CHECK_THAT(m2(area(f.seen(g))), WithinAbs(8.0, 1e-12));
    CHECK_THAT(m2(area(f.own(f.seen(g)))), WithinAbs(8.0, 1e-12));
  }
}

TEST_CASE("the eight frames give every side and both its corners once") {
  std::vector<std::pair<Side, Side>> met;
  for (const Turn turn : turns) {
    const Frame8 f(metres(12.0), metres(7.0), turn);
    met.emplace_back(side_facing(f.own(Way::left)), side_facing(f.own(Way::front)));
  }
  std::sort(met.begin(), met.end());
  CHECK(std::adjacent_find(met.begin(), met.end()) == met.end());
  for (const auto& [face, corner] : met) CHECK(is_across(outward(face)) != is_across(outward(corner)));
}

TEST_CASE("every layout of every method tiles every surface once") {
  std::mt19937 rng(7);
  for (int i = 0; i < 60; ++i) {
    House h = random_house(rng);
    for (const SiteAsk& site : every_site()) {
      h.site = site;
      const Blown b = blow(h);
      for (const Layout& layout : b.loads.layouts) {
        std::vector<Area> covered(b.shape.surfaces.size(), zero<Area>());
        for (const Zone& z : layout.zones) {
          REQUIRE(z.surface < covered.size());
          CHECK(area(z.part) > zero<Area>());
          covered[z.surface] += area(z.part);
        }
        for (std::size_t k = 0; k < covered.size(); ++k)
          CHECK_THAT(m2(covered[k]), WithinAbs(m2(area(b.shape.surfaces[k].outline)), tight));
        for (std::size_t k = 0; k < covered.size(); ++k) {
          const Polygon& g = b.shape.surfaces[k].outline;
          std::uniform_real_distribution<double> x(m(g[0].x), m(g[2].x)), y(m(g[0].y), m(g[2].y));
          for (int n = 0; n < 3; ++n) {
            const Point p{metres(x(rng)), metres(y(rng))};
            const auto hits = std::count_if(layout.zones.begin(), layout.zones.end(),
                                            [&](const Zone& z) { return z.surface == k && holds(z.part, p); });
            CHECK(hits == 1);
          }
        }
      }
      for (const LoadCase& c : b.loads.cases) {
        REQUIRE(c.layout < b.loads.layouts.size());
        CHECK(c.net.size() == b.loads.layouts[c.layout].zones.size());
      }
    }
  }
}
