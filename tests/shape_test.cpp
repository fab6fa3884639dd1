// The building in plan and in elevation, and the cutting of polygons. Expected figures are worked by hand beside each.
#include "shape/shape.hpp"
#include "any_roof.hpp"
#include "shape/cut.hpp"
#include "wind/zones.hpp"
#include "wind_house.hpp"
#include <catch2/catch.hpp>
#include <random>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;

namespace {
constexpr double tight = 1e-9;  // m2: what tiling may miss

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

// ---- every kind of roof ---------------------------------------------------------------------------------------------

namespace {
// Area in plan of what falls to a side.
double faces(const Shape& s, Part part, Side side) {
  Area sum = zero<Area>();
  for (const Surface& f : s.surfaces)
    if (f.part == part && f.falls == outward(side)) sum += area(f.outline);
  return m2(sum);
}
double seen_of(const Shape& s, Side side, ElevationPart part, Length above = -everywhere) {
  Area sum = zero<Area>();
  for (const Elevation& e : s.elevations)
    if (e.side == side && e.part == part) sum += area(between_y(e.outline, above, everywhere));
  return m2(sum);
}
std::vector<RoofLine> lines_of(const Shape& s, RoofLineKind kind) {
  std::vector<RoofLine> found;
  for (const RoofLine& l : s.lines)
    if (l.kind == kind) found.push_back(l);
  return found;
}
void check_point(const Point& p, double x, double y) {
  CHECK_THAT(m(p.x), WithinAbs(x, 1e-12));
  CHECK_THAT(m(p.y), WithinAbs(y, 1e-12));
}
bool same(const Polygon& a, std::vector<std::pair<double, double>> b) {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i)
    if (a[i].x != metres(b[i].first) || a[i].y != metres(b[i].second)) return false;
  return true;
}
// The corners of a from any corner on, within rounding.
bool alike(const Polygon& a, const Polygon& b) {
  const auto near = [](const Point& p, const Point& q) {
    return abs(p.x - q.x) < metres(1e-9) && abs(p.y - q.y) < metres(1e-9);
  };
  if (a.size() != b.size()) return false;
  for (std::size_t turn = 0; turn < a.size(); ++turn) {
    bool all = true;
    for (std::size_t i = 0; i < a.size() && all; ++i) all = near(a[i], b[(i + turn) % b.size()]);
    if (all) return true;
  }
  return false;
}
}  // namespace

TEST_CASE("a plain gable house has the surfaces, elevations and measures it always had, to the last bit") {
  // Recorded from the program when it knew nothing but such houses: 12 x 7.8 m, eaves 0.45 m, verge 0.3 m.
  const Shape s = shape_of(cottage());
  struct Was {
    Part part;
    Way falls;
    double foot;
    Side side;
    std::vector<std::pair<double, double>> outline;
  };
  const double u = 3.8999999999999999, w = 7.7999999999999998, e = 0.45000000000000001, v = 0.29999999999999999;
  const double far = 12.300000000000001, back = 8.25;
  const std::vector<Was> was{{Part::roof, Way::front, 0, Side::front, {{0, 0}, {12, 0}, {12, u}, {0, u}}},
                             {Part::roof, Way::back, w, Side::back, {{0, u}, {12, u}, {12, w}, {0, w}}},
                             {Part::overhang, Way::front, 0, Side::front, {{-v, -e}, {far, -e}, {far, 0}, {-v, 0}}},
                             {Part::overhang, Way::back, w, Side::back, {{-v, w}, {far, w}, {far, back}, {-v, back}}},
                             {Part::overhang, Way::front, 0, Side::left, {{-v, 0}, {0, 0}, {0, u}, {-v, u}}},
                             {Part::overhang, Way::back, w, Side::left, {{-v, u}, {0, u}, {0, w}, {-v, w}}},
                             {Part::overhang, Way::front, 0, Side::right, {{12, 0}, {far, 0}, {far, u}, {12, u}}},
                             {Part::overhang, Way::back, w, Side::right, {{12, u}, {far, u}, {far, w}, {12, w}}},
                             {Part::soffit, Way::front, 0, Side::front, {{-v, -e}, {far, -e}, {far, 0}, {-v, 0}}},
                             {Part::soffit, Way::back, w, Side::back, {{-v, w}, {far, w}, {far, back}, {-v, back}}},
                             {Part::soffit, Way::left, 0, Side::left, {{-v, 0}, {0, 0}, {0, w}, {-v, w}}},
                             {Part::soffit, Way::right, 12, Side::right, {{12, 0}, {far, 0}, {far, w}, {12, w}}}};
  REQUIRE(s.surfaces.size() == was.size());
  for (std::size_t i = 0; i < was.size(); ++i) {
    CHECK(s.surfaces[i].part == was[i].part);
    CHECK(s.surfaces[i].falls == was[i].falls);
    CHECK(s.surfaces[i].side == was[i].side);
    CHECK(s.surfaces[i].foot == metres(was[i].foot));
    CHECK(s.surfaces[i].slope == (was[i].part == Part::soffit ? zero<Angle>() : degrees(22.5)));
    CHECK(same(s.surfaces[i].outline, was[i].outline));
  }
  const double slope = std::tan(degrees(22.5).value()), rise = 0.5 * 7.8 * slope, top = 2.7 + rise;
  const double low = 2.7 - 0.45 * slope, bearings = m(cottage().floor_level + cottage().height);
  CHECK(s.rise == metres(rise));
  CHECK(s.mean_roof_height == metres(bearings + 0.5 * rise));
  CHECK(s.eaves_height == metres(bearings - 0.45 * slope));
  CHECK(s.top == metres(bearings + rise));
  CHECK(s.eaves == metres(0.45));
  CHECK(s.verge == metres(0.3));
  CHECK(s.pitch == degrees(22.5));
  const std::vector<std::tuple<Side, ElevationPart, std::vector<std::pair<double, double>>>> seen{
      {Side::left, ElevationPart::wall, {{0, 0}, {w, 0}, {w, 2.7}, {0, 2.7}}},
      {Side::front, ElevationPart::wall, {{0, 0}, {12, 0}, {12, 2.7}, {0, 2.7}}},
      {Side::right, ElevationPart::wall, {{0, 0}, {w, 0}, {w, 2.7}, {0, 2.7}}},
      {Side::back, ElevationPart::wall, {{0, 0}, {12, 0}, {12, 2.7}, {0, 2.7}}},
      {Side::left, ElevationPart::gable, {{0, 2.7}, {w, 2.7}, {u, top}}},
      {Side::right, ElevationPart::gable, {{0, 2.7}, {w, 2.7}, {u, top}}},
      {Side::front, ElevationPart::roof, {{-v, low}, {far, low}, {far, top}, {-v, top}}},
      {Side::back, ElevationPart::roof, {{-v, low}, {far, low}, {far, top}, {-v, top}}}};
  REQUIRE(s.elevations.size() == seen.size());
  for (std::size_t i = 0; i < seen.size(); ++i) {
    CHECK(s.elevations[i].side == std::get<0>(seen[i]));
    CHECK(s.elevations[i].part == std::get<1>(seen[i]));
    CHECK(same(s.elevations[i].outline, std::get<2>(seen[i])));
  }
  // all that it says besides is new
  REQUIRE(s.lines.size() == 1);
  CHECK(s.lines[0].kind == RoofLineKind::ridge);
  check_point(s.lines[0].from, -0.3, 3.9);
  check_point(s.lines[0].to, 12.3, 3.9);
  CHECK(s.lines[0].from_up == s.rise);
  CHECK(!s.at(Side::left).slopes);
  CHECK(s.at(Side::left).overhang == metres(0.3));
  CHECK(s.at(Side::left).meets == zero<Length>());
  CHECK(s.at(Side::front).slopes);
  CHECK(s.at(Side::front).overhang == metres(0.45));
  CHECK(s.at(Side::front).meets == metres(3.9));
}

TEST_CASE("a gable with an uneven pitch has its ridge off the middle") {
  // 10 x 7 m; front slope 3 in 4, back slope 1 in 1: equal heights at u x 3/4 = (7 - u), u = 4, rise 3 m
  House h = roofed(metres(10.0), metres(7.0), RoofShape::gable, Along::across, degrees(45.0), metres(0.4), metres(0.2));
  h.roof.own_pitch[at(Side::front)] = Angle::from_value(std::atan(0.75));
  h.roof.own_overhang[at(Side::back)] = metres(0.6);
  h.roof.own_overhang[at(Side::right)] = metres(0.5);
  const Shape s = shape_of(h);
  CHECK_THAT(m(s.rise), WithinAbs(3.0, 1e-12));
  CHECK_THAT(m(s.at(Side::front).meets), WithinAbs(4.0, 1e-12));
  CHECK_THAT(m(s.at(Side::back).meets), WithinAbs(3.0, 1e-12));
  CHECK(s.pitch == degrees(45.0));
  CHECK(s.eaves == metres(0.6));
  CHECK(s.verge == metres(0.5));
  CHECK_THAT(m(s.eaves_height), WithinAbs(0.3 + 2.4 - 0.6, 1e-12));
  CHECK_THAT(faces(s, Part::roof, Side::front), WithinAbs(40.0, 1e-9));
  CHECK_THAT(faces(s, Part::roof, Side::back), WithinAbs(30.0, 1e-9));
  // eaves 10.7 x 0.4 and 10.7 x 0.6; verges 4 and 3 long, 0.2 and 0.5 wide
  CHECK_THAT(faces(s, Part::overhang, Side::front), WithinAbs(10.7 * 0.4 + 4.0 * 0.7, 1e-9));
  CHECK_THAT(faces(s, Part::overhang, Side::back), WithinAbs(10.7 * 0.6 + 3.0 * 0.7, 1e-9));
  for (const Elevation& e : s.elevations)
    if (e.part == ElevationPart::gable) {
      REQUIRE(e.outline.size() == 3);
      check_point(e.outline[2], 4.0, 5.4);
    }
  CHECK_THAT(seen_of(s, Side::left, ElevationPart::gable), WithinAbs(10.5, 1e-9));
  CHECK_THAT(seen_of(s, Side::front, ElevationPart::roof), WithinAbs(10.7 * 3.3, 1e-9));
  CHECK_THAT(seen_of(s, Side::back, ElevationPart::roof), WithinAbs(10.7 * 3.6, 1e-9));
}

TEST_CASE("a hip roof of 10 x 6 m has the faces of its straight skeleton") {
  // reference/TOOLS.md: 9, 21, 9, 21 m2. Pitch 3 in 4: rise 2.25 m; ridge from x = 3 to 7.
  House h =
      hipped(metres(10.0), metres(6.0), Angle::from_value(std::atan(0.75)), metres(0.6), {Side::left, Side::right});
  const Shape s = shape_of(h);
  CHECK_THAT(faces(s, Part::roof, Side::left), WithinAbs(9.0, 1e-9));
  CHECK_THAT(faces(s, Part::roof, Side::front), WithinAbs(21.0, 1e-9));
  CHECK_THAT(faces(s, Part::roof, Side::right), WithinAbs(9.0, 1e-9));
  CHECK_THAT(faces(s, Part::roof, Side::back), WithinAbs(21.0, 1e-9));
  // overhangs with their half corners: (10 + 11.2) / 2 x 0.6 and (6 + 7.2) / 2 x 0.6
  for (const Part part : {Part::overhang, Part::soffit}) {
    CHECK_THAT(faces(s, part, Side::front), WithinAbs(6.36, 1e-9));
    CHECK_THAT(faces(s, part, Side::left), WithinAbs(3.96, 1e-9));
  }
  CHECK(s.surfaces.size() == 12);
  CHECK_THAT(m(s.rise), WithinAbs(2.25, 1e-12));
  CHECK_THAT(m(s.mean_roof_height), WithinAbs(2.7 + 1.125, 1e-12));
  CHECK_THAT(m(s.eaves_height), WithinAbs(2.7 - 0.45, 1e-12));
  CHECK_THAT(m(s.top), WithinAbs(4.95, 1e-12));
  CHECK(s.verge == zero<Length>());
  for (const Side side : all_sides) CHECK_THAT(m(s.at(side).meets), WithinAbs(3.0, 1e-12));
  const auto ridge = lines_of(s, RoofLineKind::ridge);
  REQUIRE(ridge.size() == 1);
  check_point(ridge[0].from, 3.0, 3.0);
  check_point(ridge[0].to, 7.0, 3.0);
  const auto hips = lines_of(s, RoofLineKind::hip);
  REQUIRE(hips.size() == 4);
  check_point(hips[0].from, -0.6, -0.6);
  check_point(hips[0].to, 3.0, 3.0);
  CHECK_THAT(m(hips[0].from_up), WithinAbs(-0.45, 1e-12));
  CHECK_THAT(m(hips[0].to_up), WithinAbs(2.25, 1e-12));
  // seen from the front: a trapezoid of 11.2 and 4 m, 2.7 m high; from an end a triangle of 7.2 m, 2.7 m high
  CHECK_THAT(seen_of(s, Side::front, ElevationPart::roof), WithinAbs(0.5 * (11.2 + 4.0) * 2.7, 1e-9));
  CHECK_THAT(seen_of(s, Side::right, ElevationPart::roof), WithinAbs(0.5 * 7.2 * 2.7, 1e-9));
  for (const Side side : all_sides) CHECK(seen_of(s, side, ElevationPart::gable) == 0.0);
  // a wedge under a ridge of 4 m: width x height x (2 x 10 + 4) / 6 = 6 x 2.25 x 4 = 54 m3
  double volume = 0.0;
  for (const Surface& f : s.surfaces)
    if (f.part == Part::roof) {
      const Area a = area(f.outline);
      volume += m2(a) * m(height_at(f, {moment_x(f.outline) / a, moment_y(f.outline) / a}));
    }
  CHECK_THAT(volume, WithinAbs(54.0, 1e-9));
  // the slope is 1.25 times its plan: 75 m2
  CHECK_THAT(m2(roof_on_slope(s)), WithinAbs(75.0, 1e-9));
}

TEST_CASE("hips that meet in a point, or before the ridge") {
  // 6 x 6 m: a pyramid of four triangles of 9 m2. 4 m long, 6 m wide: the ridge runs the other way, 2 m long.
  const Shape point = shape_of(hipped(metres(6.0), metres(6.0), degrees(45.0), metres(0.3), {Side::left, Side::right}));
  for (const Side side : all_sides) CHECK_THAT(faces(point, Part::roof, side), WithinAbs(9.0, 1e-9));
  CHECK(point.lines.size() == 4);
  CHECK_THAT(m(point.rise), WithinAbs(3.0, 1e-12));
  const Shape other = shape_of(hipped(metres(4.0), metres(6.0), degrees(45.0), metres(0.3), {Side::left, Side::right}));
  CHECK_THAT(m(other.rise), WithinAbs(2.0, 1e-12));
  CHECK_THAT(faces(other, Part::roof, Side::front), WithinAbs(4.0, 1e-9));
  CHECK_THAT(faces(other, Part::roof, Side::left), WithinAbs(8.0, 1e-9));
  const auto ridge = lines_of(other, RoofLineKind::ridge);
  REQUIRE(ridge.size() == 1);
  check_point(ridge[0].from, 2.0, 2.0);
  check_point(ridge[0].to, 2.0, 4.0);
}

TEST_CASE("a hip of its own pitch at one end, a gable at the other") {
  // 9 m long, 6 m wide, slopes of 1 in 1, the right end's of 2 in 1: rise 3 m, its apex 1.5 m in
  House h = hipped(metres(9.0), metres(6.0), degrees(45.0), metres(0.5), {Side::right});
  h.roof.verge = metres(0.3);
  h.roof.own_pitch[at(Side::right)] = Angle::from_value(std::atan(2.0));
  const Shape s = shape_of(h);
  CHECK_THAT(m(s.at(Side::right).meets), WithinAbs(1.5, 1e-12));
  CHECK(s.pitch == degrees(45.0));
  CHECK_THAT(faces(s, Part::roof, Side::right), WithinAbs(4.5, 1e-9));
  CHECK_THAT(faces(s, Part::roof, Side::front), WithinAbs(0.5 * (9.0 + 7.5) * 3.0, 1e-9));
  const auto hips = lines_of(s, RoofLineKind::hip);
  REQUIRE(hips.size() == 2);
  // down the hip 0.5 m past the front wall is 0.25 m past the end wall
  check_point(hips[0].from, 9.25, -0.5);
  check_point(hips[0].to, 7.5, 3.0);
  // overhang of the end: 0.5 x 6 m, and at each corner what lies beyond that line: 0.5 x 0.5 less 0.5 x 0.25 / 2
  CHECK_THAT(faces(s, Part::overhang, Side::right), WithinAbs(3.0 + 2.0 * (0.25 - 0.0625), 1e-9));
  CHECK_THAT(faces(s, Part::soffit, Side::right), WithinAbs(3.0 + 2.0 * (0.25 - 0.0625), 1e-9));
  CHECK_THAT(m(s.eaves_height), WithinAbs(2.7 - 1.0, 1e-12));
  const auto ridge = lines_of(s, RoofLineKind::ridge);
  REQUIRE(ridge.size() == 1);
  check_point(ridge[0].from, -0.3, 3.0);
  check_point(ridge[0].to, 7.5, 3.0);
  CHECK_THAT(seen_of(s, Side::left, ElevationPart::gable), WithinAbs(9.0, 1e-9));
  CHECK_THAT(seen_of(s, Side::right, ElevationPart::gable), WithinAbs(0.0, 0.0));
  // level with the walls and above: 9.0 m2 as well
  CHECK_THAT(seen_of(s, Side::right, ElevationPart::roof, s.wall_height), WithinAbs(9.0, 1e-9));
  h.trusses.front().at = metres(0.0);
  h.trusses.back().at = metres(7.8);
  h.trusses.erase(h.trusses.begin() + 1, h.trusses.end() - 1);
  h.trusses.back().girder = true;
  const auto all = strips(h, s);
  REQUIRE(all.size() == 2);
  CHECK(all[0].from == metres(-0.3));
  CHECK_THAT(m(all[0].to), WithinAbs(3.9, 1e-12));
  CHECK(all[1].from == all[0].to);
  CHECK(all[1].to == metres(7.8));
}

TEST_CASE("a gable on a hip end") {
  // 10 x 6 m, all slopes 1 in 1, a gable 1.2 m in from the left: 1.2 m up, 3.6 m wide, 1.8 m high
  House h = hipped(metres(10.0), metres(6.0), degrees(45.0), metres(0.5), {Side::left, Side::right});
  h.roof.gable_above[at(Side::left)] = metres(1.2);
  const Shape s = shape_of(h);
  CHECK_THAT(faces(s, Part::roof, Side::left), WithinAbs(0.5 * (6.0 + 3.6) * 1.2, 1e-9));
  CHECK_THAT(faces(s, Part::roof, Side::right), WithinAbs(9.0, 1e-9));
  CHECK_THAT(faces(s, Part::roof, Side::front), WithinAbs(21.0 + 0.5 * 1.8 * 1.8, 1e-9));
  CHECK_THAT(m(s.at(Side::left).meets), WithinAbs(1.2, 1e-12));
  CHECK(s.at(Side::left).gable_above == metres(1.2));
  CHECK_THAT(seen_of(s, Side::left, ElevationPart::gable), WithinAbs(0.5 * 3.6 * 1.8, 1e-9));
  CHECK_THAT(seen_of(s, Side::left, ElevationPart::roof), WithinAbs(0.5 * (7.0 + 3.6) * 1.7, 1e-9));
  // from the front: 11 m at the eaves, from 7 m (right) and 0.0 (left: 1.2 m in, upright) to the ridge
  CHECK_THAT(seen_of(s, Side::front, ElevationPart::roof), WithinAbs(0.5 * (11.0 + 4.0) * 3.5 + 0.5 * 1.8 * 1.8, 1e-9));
  const auto feet = lines_of(s, RoofLineKind::gable_foot);
  REQUIRE(feet.size() == 1);
  check_point(feet[0].from, 1.2, 1.2);
  check_point(feet[0].to, 1.2, 4.8);
  CHECK_THAT(m(feet[0].from_up), WithinAbs(1.2, 1e-12));
  const auto ridge = lines_of(s, RoofLineKind::ridge);
  REQUIRE(ridge.size() == 1);
  check_point(ridge[0].from, 1.2, 3.0);
  check_point(ridge[0].to, 7.0, 3.0);
  CHECK_THAT(m2(roof_on_slope(s)), WithinAbs(60.0 * std::numbers::sqrt2 + 3.24, 1e-9));
  // the wall below has no gable of its own
  h.roof.weight = {};
  const SiteAsk site = h.site;
  const WindAsk ask{site, h, s, table(table_for(h.site))};
  const OpeningRule rule{metres(2.4), false, [](const std::string&) { return true; }};
  CHECK_THAT(m2(openings_in(ask, Side::left, rule).gross), WithinAbs(6.0 * 2.4, 1e-9));
  // as far in as the apex or further it is a plain hip
  for (const double in : {3.0, 3.5}) {
    h.roof.gable_above[at(Side::left)] = metres(in);
    const Shape plain = shape_of(h);
    CHECK_THAT(faces(plain, Part::roof, Side::left), WithinAbs(9.0, 1e-9));
    CHECK(plain.at(Side::left).gable_above == zero<Length>());
    CHECK(plain.surfaces.size() == 12);
  }
}

TEST_CASE("a skillion: one slope, an upright face above its high wall, triangles above its ends") {
  // 8 x 5 m, slope 1 in 5 up to the back: rise 1 m; overhangs 0.5 m in front, 0.4 m elsewhere
  const House h =
      skillion(metres(8.0), metres(5.0), Angle::from_value(std::atan(0.2)), Side::back, metres(0.5), metres(0.4));
  const Shape s = shape_of(h);
  CHECK(s.ridge == Along::across);
  CHECK_THAT(m(s.span), WithinAbs(5.0, 0.0));
  CHECK_THAT(m(s.rise), WithinAbs(1.0, 1e-12));
  CHECK_THAT(m(s.mean_roof_height), WithinAbs(2.7 + 0.5, 1e-12));
  CHECK_THAT(m(s.eaves_height), WithinAbs(2.7 - 0.1, 1e-12));
  CHECK_THAT(m(s.top), WithinAbs(2.7 + 1.08, 1e-12));
  CHECK_THAT(m(s.at(Side::front).meets), WithinAbs(5.0, 1e-12));
  CHECK(!s.at(Side::back).slopes);
  CHECK_THAT(faces(s, Part::roof, Side::front), WithinAbs(40.0, 1e-9));
  CHECK_THAT(faces(s, Part::overhang, Side::front), WithinAbs(8.8 * 5.9 - 40.0, 1e-9));
  CHECK_THAT(faces(s, Part::soffit, Side::front), WithinAbs(8.8 * 0.5, 1e-9));
  CHECK_THAT(faces(s, Part::soffit, Side::back), WithinAbs(8.8 * 0.4, 1e-9));
  CHECK_THAT(faces(s, Part::soffit, Side::left), WithinAbs(5.0 * 0.4, 1e-9));
  for (const Surface& f : s.surfaces)
    if (f.part != Part::soffit) CHECK_THAT(m(height_at(f, {metres(4.0), metres(5.4)})), WithinAbs(1.08, 1e-12));
  CHECK_THAT(seen_of(s, Side::back, ElevationPart::gable), WithinAbs(8.0, 1e-9));
  CHECK_THAT(seen_of(s, Side::back, ElevationPart::roof), WithinAbs(0.0, 0.0));
  CHECK_THAT(seen_of(s, Side::left, ElevationPart::gable), WithinAbs(2.5, 1e-9));
  CHECK_THAT(seen_of(s, Side::right, ElevationPart::gable), WithinAbs(2.5, 1e-9));
  CHECK_THAT(seen_of(s, Side::front, ElevationPart::roof), WithinAbs(8.8 * 1.18, 1e-9));
  CHECK_THAT(seen_of(s, Side::front, ElevationPart::gable), WithinAbs(0.0, 0.0));
  const auto high = lines_of(s, RoofLineKind::high_edge);
  REQUIRE(high.size() == 1);
  check_point(high[0].from, 0.0, 5.0);
  check_point(high[0].to, 8.0, 5.0);
  CHECK_THAT(m(high[0].to_up), WithinAbs(1.0, 1e-12));
  const auto all = strips(h, s);
  CHECK(all.front().from == metres(-0.4));
  CHECK(all.back().to == s.length + metres(0.4));
}

TEST_CASE("a level flat roof has walls alone in its elevations") {
  House h = skillion(metres(8.0), metres(5.0), zero<Angle>(), Side::left, metres(0.5), metres(0.4));
  h.roof.shape = RoofShape::flat;
  const Shape s = shape_of(h);
  CHECK(s.elevations.size() == 4);
  CHECK(s.rise == zero<Length>());
  CHECK(s.top == s.eaves_height);
  CHECK_THAT(faces(s, Part::roof, Side::right), WithinAbs(40.0, 1e-9));
}

TEST_CASE("everywhere the roof is the lowest of the slopes that count there") {
  std::mt19937 rng(31);
  for (int i = 0; i < 1500; ++i) {
    const House h = any_roof(rng, i % 3 != 0);
    const Shape s = shape_of(h);
    std::uniform_real_distribution<double> x(-m(s.at(Side::left).overhang), m(s.across + s.at(Side::right).overhang)),
        y(-m(s.at(Side::front).overhang), m(s.up + s.at(Side::back).overhang));
    for (int k = 0; k < 20; ++k) {
      const Point p{metres(x(rng)), metres(y(rng))};
      const bool in_house = p.x > zero<Length>() && p.x < s.across && p.y > zero<Length>() && p.y < s.up;
      int above = 0, below = 0;
      for (const Surface& f : s.surfaces) {
        if (!holds(f.outline, p)) continue;
        if (f.part == Part::soffit) {
          ++below;
          continue;
        }
        ++above;
        const Lowest lowest = lowest_slope(h, p);
        CHECK_THAT(m(height_at(f, p)), WithinAbs(m(lowest.up), 1e-9));
        CHECK(f.falls == outward(lowest.falls));
        CHECK((f.part == Part::roof) == in_house);
        if (in_house) CHECK(height_at(f, p) <= s.rise + metres(1e-12));
      }
      CHECK(above == 1);
      CHECK(below == (in_house ? 0 : 1));
    }
  }
}

TEST_CASE("planes meet without a step, but at the foot of a gable") {
  std::mt19937 rng(37);
  const auto touches = [](const Polygon& g, const Point& p) {
    for (std::size_t i = 0; i < g.size(); ++i) {
      const Point a = g[i], b = g[(i + 1) % g.size()];
      const double length = std::hypot(m(b.x - a.x), m(b.y - a.y));
      if (m2((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) < -1e-9 * length) return false;
    }
    return true;
  };
  int met = 0;
  for (int i = 0; i < 1000; ++i) {
    const House h = any_roof(rng, i % 3 != 0);
    const Shape s = shape_of(h);
    for (const Surface& f : s.surfaces) {
      if (f.part == Part::soffit) continue;
      for (std::size_t k = 0; k < f.outline.size(); ++k) {
        const Point a = f.outline[k], b = f.outline[(k + 1) % f.outline.size()];
        const Point middle{0.5 * (a.x + b.x), 0.5 * (a.y + b.y)};
        for (const Surface& g : s.surfaces) {
          if (&g == &f || g.part == Part::soffit || !touches(g.outline, middle)) continue;
          const bool at_foot = std::any_of(all_sides.begin(), all_sides.end(), [&](Side side) {
            const Length in = s.at(side).gable_above;
            return in > zero<Length>() && abs(in_from(h, side, middle) - in) < metres(1e-9) &&
                   (f.falls == outward(side) || g.falls == outward(side));
          });
          if (at_foot) continue;
          ++met;
          CHECK_THAT(m(height_at(f, middle)), WithinAbs(m(height_at(g, middle)), 1e-8));
        }
      }
    }
    for (const RoofLine& l : s.lines) {
      const Point middle{0.5 * (l.from.x + l.to.x), 0.5 * (l.from.y + l.to.y)};
      const Length up = 0.5 * (l.from_up + l.to_up);
      bool on_the_roof = false;  // the line, at its middle
      for (const Surface& f : s.surfaces)
        if (f.part != Part::soffit && touches(f.outline, middle))
          on_the_roof = on_the_roof || abs(height_at(f, middle) - up) < metres(1e-8);
      CHECK(on_the_roof);
    }
  }
  CHECK(met > 5000);
}

TEST_CASE("what is seen of the roof is what its planes hold upright, and as much from the other side") {
  std::mt19937 rng(41);
  for (int i = 0; i < 1500; ++i) {
    const bool buildable = i % 3 != 0;
    const House h = any_roof(rng, buildable);
    const Shape s = shape_of(h);
    for (const Side side : all_sides) {
      double planes = 0.0;
      for (const Surface& f : s.surfaces)
        if (f.part != Part::soffit && f.falls == outward(side)) planes += m2(area(upright(s, f, f.outline)));
      CHECK_THAT(seen_of(s, side, ElevationPart::roof), WithinAbs(planes, 1e-8));
      CHECK_THAT(seen_of(s, side, ElevationPart::wall), WithinAbs(m2(length_of(s, side) * s.wall_height), 1e-9));
      const auto above = [&](Side from) {
        return seen_of(s, from, ElevationPart::roof, s.wall_height) +
               seen_of(s, from, ElevationPart::gable, s.wall_height);
      };
      const Side other = side_facing(opposite(outward(side)));
      const bool one_slope = h.roof.shape == RoofShape::skillion || h.roof.shape == RoofShape::flat;
      if (buildable && (!one_slope || (side != h.roof.high && other != h.roof.high)))
        CHECK_THAT(above(side), WithinAbs(above(other), 1e-8));
    }
  }
}

TEST_CASE("a house turned or mirrored has the shape turned or mirrored, under every roof") {
  std::mt19937 rng(43);
  for (int i = 0; i < 400; ++i) {
    const House h = any_roof(rng, i % 3 != 0);
    const Shape s = shape_of(h);
    for (const Turn turn : turns) {
      const Frame8 f(h.across, h.up, turn);
      const House turned = seen_in(f, h);
      const Shape t = shape_of(turned);
      for (const auto& [a, b] : {std::pair{s.span, t.span},
                                 {s.length, t.length},
                                 {s.rise, t.rise},
                                 {s.top, t.top},
                                 {s.eaves, t.eaves},
                                 {s.verge, t.verge},
                                 {s.eaves_height, t.eaves_height},
                                 {s.mean_roof_height, t.mean_roof_height}})
        CHECK_THAT(m(b), WithinAbs(m(a), 1e-9));
      CHECK(t.pitch == s.pitch);
      CHECK(t.ridge == f.seen(s.ridge));
      REQUIRE(t.surfaces.size() == s.surfaces.size());
      for (const Surface& mine : s.surfaces) {
        const Polygon seen = f.seen(mine.outline);
        const auto is_it = [&](const Surface& g) {
          return g.part == mine.part && g.falls == f.seen(mine.falls) && g.slope == mine.slope &&
                 outward(g.side) == f.seen(outward(mine.side)) && alike(g.outline, seen) &&
                 (g.part == Part::soffit ||
                  abs(height_at(g, g.outline[0]) - height_at(mine, f.own(g.outline[0]))) < metres(1e-9));
        };
        CHECK(std::count_if(t.surfaces.begin(), t.surfaces.end(), is_it) == 1);
      }
      for (const Side side : all_sides) {
        const Side there = side_facing(f.seen(outward(side)));
        CHECK(t.at(there).slopes == s.at(side).slopes);
        CHECK(t.at(there).pitch == s.at(side).pitch);
        CHECK(t.at(there).overhang == s.at(side).overhang);
        CHECK_THAT(m(t.at(there).meets), WithinAbs(m(s.at(side).meets), 1e-9));
        CHECK_THAT(m(t.at(there).gable_above), WithinAbs(m(s.at(side).gable_above), 1e-9));
        for (const ElevationPart part : {ElevationPart::wall, ElevationPart::gable, ElevationPart::roof}) {
          AreaMoment own = zero<AreaMoment>(), seen = zero<AreaMoment>();
          const Length far = length_of(s, side);
          for (const Elevation& e : s.elevations)
            if (e.side == side && e.part == part)
              own += runs_as_seen(s, f, side) ? moment_x(e.outline) : far * area(e.outline) - moment_x(e.outline);
          for (const Elevation& e : t.elevations)
            if (e.side == there && e.part == part) seen += moment_x(e.outline);
          CHECK_THAT(seen.value(), WithinAbs(own.value(), 1e-7));
          CHECK_THAT(seen_of(t, there, part), WithinAbs(seen_of(s, side, part), 1e-8));
        }
      }
      REQUIRE(t.lines.size() == s.lines.size());
      for (const RoofLine& l : s.lines) {
        const Polygon ends = f.seen(Polygon{l.from, l.to});
        CHECK(std::count_if(t.lines.begin(), t.lines.end(), [&](const RoofLine& o) {
                return o.kind == l.kind && abs(o.from_up + o.to_up - l.from_up - l.to_up) < metres(1e-9) &&
                       alike(Polygon{o.from, o.to}, ends);
              }) == 1);
      }
      const auto here = strips(h, s), there = strips(turned, t);
      REQUIRE(here.size() == there.size());
      Length wide = zero<Length>(), as_wide = zero<Length>();
      for (const Strip& strip : here) wide += strip.to - strip.from;
      for (const Strip& strip : there) as_wide += strip.to - strip.from;
      CHECK_THAT(m(as_wide), WithinAbs(m(wide), 1e-9));
    }
  }
}

TEST_CASE("a roof's lines have names of their own") {
  CHECK(words(RoofLineKind::ridge) == "ridge");
  CHECK(words(RoofLineKind::hip) == "hip");
  CHECK(words(RoofLineKind::high_edge) == "high edge");
  CHECK(words(RoofLineKind::gable_foot) == "foot of a gable");
}

// ---- polygons and frames -------------------------------------------------------------------------------------------

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

TEST_CASE("a window cut in one go is the same as cut along x, then along y, to the last bit") {
  std::mt19937 rng(2718);
  Cutter cutter;
  std::size_t as_many = 0, other = 0, nothing = 0;  // corners
  for (int i = 0; i < 60; ++i) {
    const Shape s = shape_of(any_roof(rng, true));
    for (const Surface& f : s.surfaces)
      for (int k = 0; k < 30; ++k) {
        // Edges anywhere, on corners of the roof, or nowhere
        const auto edge = [&](Length Point::*of, Length none) {
          if (rng() % 4 == 0) return none;
          const Polygon& g = s.surfaces[rng() % s.surfaces.size()].outline;
          const Length on = g[rng() % g.size()].*of;
          return rng() % 2 == 0 ? on : on + metres(std::uniform_real_distribution<double>(-1.5, 1.5)(rng));
        };
        Extent w{edge(&Point::x, -everywhere), edge(&Point::x, everywhere), edge(&Point::y, -everywhere),
                 edge(&Point::y, everywhere)};
        if (w.x1 < w.x0) std::swap(w.x0, w.x1);
        if (w.y1 < w.y0) std::swap(w.y0, w.y1);
        const Polygon expected = between_y(between_x(f.outline, w.x0, w.x1), w.y0, w.y1);
        Measures measures{};
        const Polygon& got = cutter.cut(f.outline, extent_of(f.outline), w, measures);
        REQUIRE(got.size() == expected.size());
        for (std::size_t n = 0; n < got.size(); ++n) {
          CHECK(got[n].x == expected[n].x);
          CHECK(got[n].y == expected[n].y);
        }
        ++(expected.empty() ? nothing : expected.size() == f.outline.size() ? as_many : other);
        if (expected.empty()) continue;
        CHECK(measures.a == area(expected));
        CHECK(measures.x == moment_x(expected));
        CHECK(measures.y == moment_y(expected));
      }
  }
  CHECK(std::min({as_many, other, nothing}) > 100);
}
