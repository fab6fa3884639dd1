// Several blocks under one roof: what lies on what, what is left of the overhangs, and the valleys. Expected figures
// are worked by hand beside each.
#include "shape/joined.hpp"
#include "any_wings.hpp"
#include "sanitized.hpp"
#include <catch2/catch.hpp>
#include <functional>
#include <random>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;

namespace {
constexpr double tight = 1e-9;
const Length none = zero<Length>();

// 12 x 8 m, walls 2.4 m, ridge across the sheet.
House main_block(Angle pitch, Length up = metres(8.0), Length eaves = metres(0.6), Length verge = metres(0.3)) {
  return gable(metres(12.0), up, metres(2.4), Along::across, pitch, eaves, verge);
}
House with(House h, Wing w) {
  h.wings.push_back(std::move(w));
  return h;
}
using Which = std::function<bool(const Surface&)>;
double area_where(const Shape& s, const Which& which) {
  Area sum = zero<Area>();
  for (const Surface& f : s.surfaces)
    if (which(f)) sum += area(f.outline);
  return m2(sum);
}
bool lies_on(const Surface& f) { return f.over.has_value(); }
Which held(Part part, std::size_t by) {
  return [=](const Surface& f) { return f.part == part && f.held_by == by; };
}
std::vector<RoofLine> lines_of(const Shape& s, RoofLineKind kind) {
  std::vector<RoofLine> found;
  for (const RoofLine& l : s.lines)
    if (l.kind == kind) found.push_back(l);
  return found;
}
void check_line(const RoofLine& l, double x0, double y0, double up0, double x1, double y1, double up1) {
  CHECK_THAT(m(l.from.x), WithinAbs(x0, tight));
  CHECK_THAT(m(l.from.y), WithinAbs(y0, tight));
  CHECK_THAT(m(l.from_up), WithinAbs(up0, tight));
  CHECK_THAT(m(l.to.x), WithinAbs(x1, tight));
  CHECK_THAT(m(l.to.y), WithinAbs(y1, tight));
  CHECK_THAT(m(l.to_up), WithinAbs(up1, tight));
}
double length_of(const RoofLine& l) { return std::hypot(m(l.to.x - l.from.x), m(l.to.y - l.from.y)); }
double tan_deg(double deg) { return std::tan(deg * std::numbers::pi / 180.0); }
// The house as the wind sees it in that frame, with its wings.
House winged_seen_in(const Frame8& f, const House& h) {
  House t = seen_in(f, h);
  for (Wing& w : t.wings) {
    House own = roofed(w.across, w.up, w.roof.shape, w.roof.ridge, w.roof.pitch, w.roof.eaves, w.roof.verge);
    own.roof = w.roof;
    const Point a = f.seen(Point{w.left, w.front}), b = f.seen(Point{w.left + w.across, w.front + w.up});
    w.left = std::min(a.x, b.x);
    w.front = std::min(a.y, b.y);
    w.across = abs(b.x - a.x);
    w.up = abs(b.y - a.y);
    w.joint = side_facing(f.seen(outward(w.joint)));
    const Along ridge = f.seen(w.roof.ridge);
    own.trusses.clear();
    w.roof = seen_in(f, own).roof;
    w.roof.ridge = ridge;
  }
  return t;
}
}  // namespace

TEST_CASE("an L of two gables of one pitch: the wing's roof lies on the main block's as a triangle") {
  // The wing, 6 m wide at 25 deg, has its ridge 3 tan 25 above the bearings: it comes out 3 m in from the joint. On the
  // main block lies a triangle of 6 x 3 / 2 = 9 m2, one half of it falling to the left, one to the right.
  const double t = tan_deg(25.0);
  const House h =
      with(main_block(degrees(25.0)), wing_at(main_block(degrees(25.0)), Side::front, metres(3.0), metres(6.0),
                                              metres(5.0), degrees(25.0), metres(0.6), metres(0.3)));
  const WingShape w = shape_of_wing(h, 0);
  CHECK_THAT(m(w.into), WithinAbs(3.0, 1e-12));
  CHECK_THAT(m(w.shape.up), WithinAbs(8.0, 1e-12));
  CHECK_THAT(m(w.shape.across), WithinAbs(6.0, 0.0));
  CHECK_THAT(m(w.left), WithinAbs(3.0, 0.0));
  CHECK_THAT(m(w.front), WithinAbs(-5.0, 0.0));
  CHECK_THAT(m(w.level), WithinAbs(0.0, 0.0));
  CHECK(w.against == Side::front);
  CHECK(w.shape.at(Side::back).overhang == none);
  CHECK(w.shape.at(Side::front).overhang == metres(0.3));

  const Shape s = joined_of(h).shape;
  for (const Surface& f : s.surfaces) {
    if (!lies_on(f)) continue;
    CHECK(f.part == Part::roof);
    CHECK(f.block == 1);
    CHECK(f.held_by == 0);
    CHECK(*f.over == Way::front);
    CHECK_THAT(m(f.base), WithinAbs(0.0, 0.0));
    CHECK_THAT(m(f.foot), WithinAbs(f.falls == Way::left ? 3.0 : 9.0, 1e-12));
    CHECK_THAT(m2(area(f.outline)), WithinAbs(4.5, tight));
    // centroid of the triangle (3, 0), (6, 0), (6, 3) or its image: 5 or 7 across, 1 up
    CHECK_THAT(moment_x(f.outline).value(), WithinAbs(4.5 * (f.falls == Way::left ? 5.0 : 7.0), tight));
    CHECK_THAT(moment_y(f.outline).value(), WithinAbs(4.5, tight));
  }
  CHECK_THAT(area_where(s, lies_on), WithinAbs(9.0, tight));
  // of the front slope 12 x 4 - 9 = 39 m2 are left, of the back slope all 48, of the wing's own plan 6 x 5
  CHECK_THAT(
      area_where(s, [](const Surface& f) { return f.block == 0 && f.part == Part::roof && f.falls == Way::front; }),
      WithinAbs(39.0, tight));
  CHECK_THAT(area_where(s, held(Part::roof, 0)), WithinAbs(96.0, tight));
  CHECK_THAT(area_where(s, held(Part::roof, 1)), WithinAbs(30.0, tight));
  // Main eaves at the front 12.6 x 0.6 = 7.56, less 6 x 0.6 and two halves of the inner corners' squares: 7.56 - 3.96
  for (const Part part : {Part::overhang, Part::soffit}) {
    CHECK_THAT(area_where(s, [&](const Surface& f) { return f.block == 0 && f.part == part && f.side == Side::front; }),
               WithinAbs(3.6, tight));
    // Wing's eaves 0.6 x 5.3 a side, less the other half of the square: 3.18 - 0.18; its verge 6 x 0.3
    CHECK_THAT(area_where(s, held(part, 1)), WithinAbs(2.0 * 3.0 + 1.8, tight));
  }
  // Valleys from the eaves' corners over the walls' corners to the end of the wing's ridge.
  std::vector<RoofLine> valleys = lines_of(s, RoofLineKind::valley);
  REQUIRE(valleys.size() == 2);
  if (valleys[1].from.x < valleys[0].from.x) std::swap(valleys[0], valleys[1]);
  check_line(valleys[0], 2.4, -0.6, -0.6 * t, 6.0, 3.0, 3.0 * t);
  check_line(valleys[1], 9.6, -0.6, -0.6 * t, 6.0, 3.0, 3.0 * t);
  const std::vector<RoofLine> ridges = lines_of(s, RoofLineKind::ridge);
  REQUIRE(ridges.size() == 2);
  check_line(ridges[0], -0.3, 4.0, 4.0 * t, 12.3, 4.0, 4.0 * t);
  check_line(ridges[1], 6.0, -5.3, 3.0 * t, 6.0, 3.0, 3.0 * t);
  CHECK(s.elevations.empty());
  CHECK(s.across == metres(12.0));
  CHECK_THAT(m(s.top), WithinAbs(0.3 + 2.4 + 4.0 * t, 1e-12));
}

TEST_CASE("valley trusses stand in equal spaces, and the wing's last truss holds the bay up to half-way to the first") {
  // The same L. Its ridge runs 3 m in: at 900 mm or less four spaces of 0.75 m. Up to 0.375 m in the wing holds a strip
  // of 6 m at the joint and 5.25 m at its inner edge: 2.109375 m2 of the 9.
  const Wing plain = wing_at(main_block(degrees(25.0)), Side::front, metres(3.0), metres(6.0), metres(5.0),
                             degrees(25.0), metres(0.6), metres(0.3));
  for (const Turn turn : turns) {
    House h = with(main_block(degrees(25.0)), plain);
    h.wings[0].valley = Valley{"V1", metres(0.9), Chosen{}};
    const Frame8 f(h.across, h.up, turn);
    h = winged_seen_in(f, h);
    const std::vector<Length> places = valley_places(h, 0);
    REQUIRE(places.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) CHECK_THAT(m(places[i]), WithinAbs(0.75 * static_cast<double>(i + 1), 1e-9));
    const Shape s = whole_shape(h);
    CHECK_THAT(area_where(s, lies_on), WithinAbs(9.0 - 2.109375, tight));
    CHECK_THAT(area_where(s, held(Part::roof, 1)), WithinAbs(30.0 + 2.109375, tight));
    CHECK_THAT(area_where(s, held(Part::roof, 0)), WithinAbs(96.0 - 2.109375, tight));
    // 3 m at 3 m or more would be one space: there is one truss all the same.
    h.wings[0].valley->max = metres(4.0);
    REQUIRE(valley_places(h, 0).size() == 1);
    CHECK_THAT(m(valley_places(h, 0)[0]), WithinAbs(1.5, 1e-9));
    h.wings[0].valley.reset();
    CHECK(valley_places(h, 0).empty());
  }
}

TEST_CASE("a wing whose bearings stand lower comes out lower down, and the main block's eaves go on above its roof") {
  // Its floor 0.2 m down and its walls 0.3 m lower: its bearings stand 0.5 m below. Ridge 3 t - 0.5, so it comes out
  // 3 - 0.5 / t in, and as far from its ridge its roof stands level with the main block's bearings: area into^2.
  const double t = tan_deg(25.0), lag = 0.5 / t, into = 3.0 - lag;
  House h = main_block(degrees(25.0));
  Wing w = wing_at(h, Side::front, metres(3.0), metres(6.0), metres(5.0), degrees(25.0), metres(0.6), metres(0.3));
  w.level = metres(-0.2);
  w.height = metres(2.1);
  h.wings = {w};
  CHECK_THAT(m(shape_of_wing(h, 0).into), WithinAbs(into, 1e-12));
  CHECK_THAT(m(shape_of_wing(h, 0).level), WithinAbs(-0.5, 1e-12));
  const Shape s = joined_of(h).shape;
  CHECK_THAT(area_where(s, lies_on), WithinAbs(into * into, tight));
  for (const Surface& f : s.surfaces) {
    CHECK_THAT(m(f.base), WithinAbs(lies_on(f) ? -0.5 : 0.0, 1e-12));
    if (!lies_on(f)) continue;
    for (const Point& p : f.outline)  // on the main block's slope or above it
      CHECK(m(height_at(f, p)) >= m(p.y) * t - 1e-9);
  }
  // The wing's roof stands higher than the main block's eaves, d out, from 0.5 / t - d in from its walls: of each half
  // 0.6 into + 0.6^2 / 2 are gone. The rest of the eaves stays, and the wing's roof below it.
  const double gone = 2.0 * (0.6 * into + 0.18);
  for (const Part part : {Part::overhang, Part::soffit}) {
    CHECK_THAT(area_where(s, [&](const Surface& f) { return f.block == 0 && f.part == part && f.side == Side::front; }),
               WithinAbs(7.56 - gone, tight));
    // Its own eaves are 0.5 m or more below the bearings, the main block's 0.28 m at most: those cover 0.6 x 0.6 a
    // side.
    CHECK_THAT(area_where(s, held(part, 1)), WithinAbs(2.0 * (3.18 - 0.36) + 1.8, tight));
  }
  CHECK_THAT(area_where(s, held(Part::roof, 1)), WithinAbs(30.0, tight));
  const std::vector<RoofLine> valleys = lines_of(s, RoofLineKind::valley);
  REQUIRE(valleys.size() == 2);
  for (const RoofLine& l : valleys) {
    // from the edge of the eaves, 0.5 / t - 0.6 in from the wing's wall
    const bool left = l.from.x < metres(6.0);
    check_line(l, left ? 3.0 + lag - 0.6 : 9.0 - lag + 0.6, -0.6, -0.6 * t, 6.0, into, into * t);
  }
}

TEST_CASE("a steeper wing comes out further in") {
  // 35 deg on 20 deg, 6 m wide: ridge 3 tan 35, in by 3 tan 35 / tan 20 = 5.771 m; triangle of 6 m by that
  const double into = 3.0 * tan_deg(35.0) / tan_deg(20.0);
  CHECK_THAT(into, WithinAbs(5.771, 5e-4));
  House h = main_block(degrees(20.0), metres(12.0));
  h.wings = {wing_at(h, Side::front, metres(2.0), metres(6.0), metres(4.0), degrees(35.0), metres(0.5), metres(0.2))};
  CHECK_THAT(m(shape_of_wing(h, 0).into), WithinAbs(into, 1e-12));
  const Shape s = joined_of(h).shape;
  CHECK_THAT(area_where(s, lies_on), WithinAbs(3.0 * into, tight));
  // Straight from the edge of the eaves, where the wing's roof falls 0.6 tan 20 within 0.6 tan 20 / tan 35.
  const std::vector<RoofLine> valleys = lines_of(s, RoofLineKind::valley);
  REQUIRE(valleys.size() == 2);
  const double t = tan_deg(20.0), out = 0.6 * t / tan_deg(35.0);
  for (const RoofLine& l : valleys)
    check_line(l, l.from.x < metres(5.0) ? 2.0 - out : 8.0 + out, -0.6, -0.6 * t, 5.0, into, into * t);
}

TEST_CASE("a wing flush with a hip end of its own pitch goes on with that slope: no valley there, no seam") {
  House h = hipped(metres(12.0), metres(8.0), degrees(25.0), metres(0.6), {Side::right});
  h.wings = {wing_at(h, Side::front, metres(6.0), metres(6.0), metres(5.0), degrees(25.0), metres(0.6), none)};
  const Shape whole = shape_of(h), s = joined_of(h).shape;
  const double t = tan_deg(25.0);
  // On the front slope the triangle (6, 0), (12, 0), (9, 3): its right edge is the hip. The hip end keeps 8 x 4 / 2.
  CHECK_THAT(area_where(s, lies_on), WithinAbs(9.0, tight));
  const auto end = [](const Surface& f) { return f.block == 0 && f.part == Part::roof && f.falls == Way::right; };
  CHECK_THAT(area_where(s, end), WithinAbs(16.0, tight));
  CHECK(std::count_if(s.surfaces.begin(), s.surfaces.end(), end) ==
        std::count_if(whole.surfaces.begin(), whole.surfaces.end(), end));
  const std::vector<RoofLine> valleys = lines_of(s, RoofLineKind::valley);
  REQUIRE(valleys.size() == 1);
  check_line(valleys[0], 5.4, -0.6, -0.6 * t, 9.0, 3.0, 3.0 * t);
  // Of the front hip the part beyond the wing's ridge is left; the back one whole.
  const std::vector<RoofLine> hips = lines_of(s, RoofLineKind::hip);
  REQUIRE(hips.size() == 2);
  check_line(hips[0], 9.0, 3.0, 3.0 * t, 8.0, 4.0, 4.0 * t);
  check_line(hips[1], 12.6, 8.6, -0.6 * t, 8.0, 4.0, 4.0 * t);
  // Past the right wall and before the front: the half of the corner that falls to the right stays the main block's
  // (0.18 m2), and the wing's eaves there go on over the other half.
  CHECK_THAT(
      area_where(s, [](const Surface& f) { return f.block == 0 && f.part == Part::overhang && f.side == Side::right; }),
      WithinAbs(0.6 * 8.0 + 2.0 * 0.18, tight));
  CHECK_THAT(
      area_where(s, [](const Surface& f) { return f.block == 1 && f.part == Part::overhang && f.side == Side::right; }),
      WithinAbs(0.6 * 5.0 - 0.18, tight));
}

TEST_CASE("a block cut in two under a gable and joined again has the roof of the one block") {
  for (const Side side : {Side::left, Side::right}) {
    House h = main_block(degrees(25.0));
    h.wings = {wing_at(h, side, none, metres(8.0), metres(5.0), degrees(25.0), metres(0.6), metres(0.3))};
    const Joined j = joined_of(h);
    House one = main_block(degrees(25.0));
    one.across += metres(5.0);
    const Shape whole = shape_of(one);
    const Length shift = side == Side::left ? metres(5.0) : none;  // of the corner
    for (const Part part : {Part::roof, Part::overhang, Part::soffit}) {
      for (const Way way : {Way::right, Way::back, Way::left, Way::front}) {
        const auto sums = [&](const Shape& s, Length by) {
          std::array<double, 3> sum{};
          for (const Surface& f : s.surfaces) {
            if (f.part != part || f.falls != way) continue;
            sum[0] += m2(area(f.outline));
            sum[1] += moment_x(f.outline).value() + m(by) * m2(area(f.outline));
            sum[2] += moment_y(f.outline).value();
          }
          return sum;
        };
        const auto a = sums(j.shape, shift), b = sums(whole, none);
        for (std::size_t i = 0; i < 3; ++i) CHECK_THAT(a[i], WithinAbs(b[i], 1e-9));
      }
    }
    CHECK(area_where(j.shape, lies_on) == 0.0);
    REQUIRE(j.shape.lines.size() == 1);
    check_line(j.shape.lines[0], -0.3 - m(shift), 4.0, 4.0 * tan_deg(25.0), 17.3 - m(shift), 4.0, 4.0 * tan_deg(25.0));
  }
}

TEST_CASE("under a gable the verge stays where the wing is lower, and goes where the wing reaches it") {
  // The main block 12 x 8 m at 25 deg; at its right a wing 8 m wide, set down; within a millimetre it goes on flush.
  for (const double down : {0.0009, 0.0011, 0.4}) {
    House h = main_block(degrees(25.0));
    Wing w = wing_at(h, Side::right, none, metres(8.0), metres(5.0), degrees(25.0), metres(0.6), metres(0.3));
    w.level = metres(-down);
    h.wings = {w};
    CHECK(shape_of_wing(h, 0).into == none);
    const Shape s = joined_of(h).shape;
    const bool reaches = down < 0.001;
    for (const Part part : {Part::overhang, Part::soffit}) {
      CHECK_THAT(
          area_where(s, [&](const Surface& f) { return f.block == 0 && f.part == part && f.side == Side::right; }),
          WithinAbs(reaches ? 0.0 : 0.3 * 8.0, tight));
      // its eaves past its two walls, and its verge at the far end
      CHECK_THAT(area_where(s, held(part, 1)), WithinAbs(2.0 * 0.6 * 5.3 + 0.3 * 8.0, tight));
    }
    CHECK_THAT(area_where(s, held(Part::roof, 1)), WithinAbs(40.0, tight));
    CHECK_THAT(area_where(s, held(Part::roof, 0)), WithinAbs(96.0, tight));
  }
  // 4 m wide in the middle: half as high, all below.
  House h = main_block(degrees(25.0));
  h.wings = {wing_at(h, Side::right, metres(2.0), metres(4.0), metres(5.0), degrees(25.0), metres(0.6), metres(0.3))};
  const Shape s = joined_of(h).shape;
  CHECK_THAT(area_where(s, held(Part::overhang, 0)), WithinAbs(2.0 * 0.6 * 12.6 + 2.0 * 0.3 * 8.0, tight));
  CHECK_THAT(area_where(s, held(Part::overhang, 1)), WithinAbs(2.0 * 0.6 * 5.3 + 0.3 * 4.0, tight));
}

TEST_CASE("level roofs of one height: the main block's eaves go over the wing's walls, not over its plan") {
  // Eaves at the front 12.6 x 0.6 = 7.56 m2, less 6 x 0.6 over the wing; they keep the squares beside its walls.
  House h = main_block(degrees(0.0));
  h.wings = {wing_at(h, Side::front, metres(3.0), metres(6.0), metres(5.0), degrees(0.0), metres(0.6), metres(0.3))};
  const Shape s = joined_of(h).shape;
  for (const Part part : {Part::overhang, Part::soffit}) {
    CHECK_THAT(area_where(s, [&](const Surface& f) { return f.block == 0 && f.part == part && f.side == Side::front; }),
               WithinAbs(7.56 - 3.6, tight));
    CHECK_THAT(area_where(s, held(part, 1)), WithinAbs(2.0 * (3.18 - 0.36) + 1.8, tight));
  }
  CHECK(area_where(s, lies_on) == 0.0);
  CHECK(lines_of(s, RoofLineKind::valley).empty());
}

TEST_CASE("of a wing's hips what the main block's eaves cover is not seen") {
  // 0.5 m out and 1 m down, with eaves of 0.3 m: all of it under the main block's eaves of 0.9 m, which hang 0.42 m
  // below the bearings at their edge. Its own eaves are gone, its roof stays, and with it the hips from its corners on.
  House h = main_block(degrees(25.0), metres(8.0), metres(0.9));
  Wing w = wing_at(h, Side::front, metres(3.0), metres(6.0), metres(0.5), degrees(25.0), metres(0.3), none);
  w.roof.shape = RoofShape::hip;
  w.roof.hipped[at(Side::front)] = true;
  w.level = metres(-1.0);
  h.wings = {w};
  const Shape s = joined_of(h).shape;
  CHECK(area_where(s, held(Part::overhang, 1)) == 0.0);
  CHECK(area_where(s, held(Part::soffit, 1)) == 0.0);
  CHECK_THAT(area_where(s, held(Part::roof, 1)), WithinAbs(3.0, tight));
  const std::vector<RoofLine> hips = lines_of(s, RoofLineKind::hip);
  REQUIRE(hips.size() == 2);
  const double t = tan_deg(25.0);
  for (const RoofLine& l : hips) {
    const bool left = l.from.x < metres(6.0);
    check_line(l, left ? 3.0 : 9.0, -0.5, -1.0, left ? 3.5 : 8.5, 0.0, 0.5 * t - 1.0);
  }
}

TEST_CASE("the mean height, the eaves and the top are the most that any block has") {
  House h = main_block(degrees(10.0));
  Wing w = wing_at(h, Side::right, none, metres(8.0), metres(5.0), degrees(10.0), metres(0.9), metres(0.3));
  w.level = metres(-0.5);
  h.wings = {w};
  Shape s = joined_of(h).shape;
  const double rise = 4.0 * tan_deg(10.0);
  CHECK_THAT(m(s.mean_roof_height), WithinAbs(2.7 + 0.5 * rise, 1e-12));
  CHECK_THAT(m(s.top), WithinAbs(2.7 + rise, 1e-12));
  CHECK_THAT(m(s.eaves), WithinAbs(0.9, 1e-12));
  CHECK(s.wall_height == metres(2.4));
  h.wings[0].roof.pitch = degrees(40.0);
  s = joined_of(h).shape;
  CHECK_THAT(m(s.mean_roof_height), WithinAbs(2.2 + 0.5 * 4.0 * tan_deg(40.0), 1e-12));
  CHECK_THAT(m(s.top), WithinAbs(2.2 + 4.0 * tan_deg(40.0), 1e-12));
}

TEST_CASE("without wings the roof is the main block's") {
  std::mt19937 rng(7);
  for (int i = 0; i < 20; ++i) {
    const House h = any_roof(rng, true);
    const Shape s = shape_of(h);
    const Joined j = joined(h, s, {});
    REQUIRE(j.shape.surfaces.size() == s.surfaces.size());
    for (std::size_t k = 0; k < s.surfaces.size(); ++k) {
      CHECK(j.from[k] == k);
      CHECK(area(j.shape.surfaces[k].outline) == area(s.surfaces[k].outline));
    }
    CHECK(j.shape.lines.size() == s.lines.size());
  }
}

// ---- any house of several blocks -----------------------------------------------------------------------------------

namespace {
const Surface* only_one(const Shape& s, const Point& p, const Which& which) {
  const Surface* found = nullptr;
  for (const Surface& f : s.surfaces) {
    if (!which(f) || !holds(f.outline, p)) continue;
    if (found != nullptr) return nullptr;
    found = &f;
  }
  return found;
}
int how_many(const Shape& s, const Point& p, const Which& which) {
  return static_cast<int>(std::count_if(s.surfaces.begin(), s.surfaces.end(),
                                        [&](const Surface& f) { return which(f) && holds(f.outline, p); }));
}
// The height of the wing's planes over its longer plan, above the main block's bearings.
Length wing_height(const Longer& w, const Point& p) { return w.level + lowest_slope(w.house, w.own(p)).up; }
bool before_joint(const House& h, const Longer& w, const Point& p) { return in_from(h, w.against, p) < none; }
}  // namespace

TEST_CASE("inside the main block's walls the roof is the highest of all, and tiles the plan once") {
  std::mt19937 rng(26);
  int main_highest = 0, wing_highest = 0;
  for (int i = 0; i < (sanitized ? 40 : 300); ++i) {
    const House h = any_winged(rng);
    const Shape s = joined_of(h).shape;
    CHECK_THAT(area_where(s, held(Part::roof, 0)), WithinAbs(m2(h.across * h.up), tight));
    std::vector<const Surface*> roofs;
    for (const Surface& f : s.surfaces) {
      CHECK(area(f.outline).value() > 1e-12);
      if (f.part == Part::roof && f.held_by == 0) roofs.push_back(&f);
      CHECK(f.over.has_value() == (f.held_by != f.block));
    }
    for (std::size_t a = 0; a < roofs.size(); ++a)
      for (std::size_t b = 0; b < a; ++b) {
        const Polygon both = common(roofs[a]->outline, roofs[b]->outline);
        CHECK((both.empty() || area(both).value() < tight));
      }
    std::vector<Longer> wings;
    for (std::size_t k = 0; k < h.wings.size(); ++k) wings.push_back(longer(h, k));
    std::uniform_real_distribution<double> x(0.0, m(h.across)), y(0.0, m(h.up));
    for (int n = 0; n < 60; ++n) {
      const Point p{metres(x(rng)), metres(y(rng))};
      const Surface* f = only_one(s, p, held(Part::roof, 0));
      REQUIRE(f != nullptr);
      const Lowest under = lowest_slope(h, p);
      Length up = under.up;
      std::size_t highest = 0;
      for (std::size_t k = 0; k < wings.size(); ++k) {
        if (!in_walls(wings[k].house, wings[k].own(p)) || !(wing_height(wings[k], p) > up + metres(1e-9))) continue;
        up = wing_height(wings[k], p);
        highest = k + 1;
      }
      CHECK(f->block == highest);
      CHECK_THAT(m(height_at(*f, p)), WithinAbs(m(up), 1e-9));
      if (highest != 0) {
        CHECK(f->over == outward(under.falls));
        CHECK_THAT(m(f->base), WithinAbs(m(wings[highest - 1].level), 1e-12));
      }
      ++(highest == 0 ? main_highest : wing_highest);
    }
  }
  CHECK(main_highest > 1000);
  CHECK(wing_highest > 300);
}

TEST_CASE("a wing's roof tiles its plan up to the joint, whatever hangs over it") {
  std::mt19937 rng(27);
  for (int i = 0; i < (sanitized ? 40 : 300); ++i) {
    const House h = any_winged(rng);
    const Shape s = joined_of(h).shape;
    for (std::size_t k = 0; k < h.wings.size(); ++k) {
      const Wing& w = h.wings[k];
      CHECK_THAT(area_where(s, held(Part::roof, k + 1)), WithinAbs(m2(w.across * w.up), tight));
      const Longer l = longer(h, k);
      std::uniform_real_distribution<double> x(0.0, m(w.across)), y(0.0, m(w.up));
      for (int n = 0; n < 20; ++n) {
        const Point p{w.left + metres(x(rng)), w.front + metres(y(rng))};
        const Surface* f = only_one(s, p, held(Part::roof, k + 1));
        REQUIRE(f != nullptr);
        CHECK(f->block == k + 1);
        CHECK_THAT(m(l.level + height_at(*f, p)), WithinAbs(m(wing_height(l, p)), 1e-9));
        // the main block's overhang stays where it is the higher one, by a millimetre under a gable
        if (!under_roof(h, p)) continue;
        const double above = m(lowest_slope(h, p).up - wing_height(l, p));
        if (above > 0.0011 || above < -1e-8) CHECK(how_many(s, p, held(Part::overhang, 0)) == (above > 0.0 ? 1 : 0));
      }
    }
  }
}

TEST_CASE("of two overhangs the lower one is gone, but under a gable, and each soffit goes with its overhang") {
  std::mt19937 rng(28);
  int corners = 0;
  for (int i = 0; i < (sanitized ? 60 : 500); ++i) {
    const House h = any_winged(rng);
    const Shape s = joined_of(h).shape;
    for (const std::size_t by : {0U, 1U, 2U, 3U})
      CHECK_THAT(area_where(s, held(Part::overhang, by)), WithinAbs(area_where(s, held(Part::soffit, by)), tight));
    for (std::size_t k = 0; k < h.wings.size(); ++k) {
      const Longer l = longer(h, k);
      const Wing& w = h.wings[k];
      std::uniform_real_distribution<double> x(-1.3, m(w.across) + 1.3), y(-1.3, m(w.up) + 1.3);
      for (int n = 0; n < 60; ++n) {
        const Point p{w.left + metres(x(rng)), w.front + metres(y(rng))};
        if (in_walls(h, p)) continue;
        for (const std::size_t by : {std::size_t{0}, k + 1})
          CHECK(how_many(s, p, held(Part::overhang, by)) == how_many(s, p, held(Part::soffit, by)));
        const bool past_wing = before_joint(h, l, p) && under_roof(l.house, l.own(p)) && !in_walls(l.house, l.own(p));
        const int of_wing = how_many(s, p, held(Part::overhang, k + 1)),
                  of_main = how_many(s, p, held(Part::overhang, 0));
        if (!past_wing) {
          CHECK(of_wing == 0);
          continue;
        }
        if (!under_roof(h, p)) {
          CHECK(of_wing == 1);
          continue;
        }
        const double wing_above = m(wing_height(l, p) - lowest_slope(h, p).up);
        bool alone = true;  // where another wing hangs over it too, that one may have taken the main block's
        for (std::size_t o = 0; o < h.wings.size(); ++o) {
          const Longer other = longer(h, o);
          if (o != k && under_roof(other.house, other.own(p))) alone = false;
        }
        if (!alone || std::abs(wing_above) < 0.0011) continue;
        ++corners;
        const bool upright = !shape_of(h).at(l.against).slopes;
        CHECK(of_main == (wing_above > 0.0 ? 0 : 1));
        CHECK(of_wing == (wing_above > 0.0 || upright ? 1 : 0));
      }
    }
  }
  CHECK(corners > (sanitized ? 10 : 100));
}

TEST_CASE("along a valley both roofs are of one height, and it rises from its foot") {
  std::mt19937 rng(29);
  int valleys = 0;
  for (int i = 0; i < (sanitized ? 40 : 300); ++i) {
    const House h = any_winged(rng);
    const Shape s = joined_of(h).shape;
    std::vector<Longer> wings;
    for (std::size_t k = 0; k < h.wings.size(); ++k) wings.push_back(longer(h, k));
    for (const RoofLine& l : lines_of(s, RoofLineKind::valley)) {
      ++valleys;
      CHECK(l.from_up <= l.to_up + metres(1e-12));  // some are level
      for (const double part : {0.001, 0.5, 0.999}) {
        const Point p{l.from.x + part * (l.to.x - l.from.x), l.from.y + part * (l.to.y - l.from.y)};
        const double up = m(l.from_up + part * (l.to_up - l.from_up));
        int at_this_height = std::abs(m(lowest_slope(h, p).up) - up) < 1e-8 ? 1 : 0;
        for (const Longer& w : wings)
          if (std::abs(m(wing_height(w, p)) - up) < 1e-8) ++at_this_height;
        CHECK(at_this_height >= 2);
      }
    }
  }
  CHECK(valleys > (sanitized ? 20 : 200));
}

TEST_CASE("where a wing's roof comes out of the main block's there is a valley") {
  std::mt19937 rng(33);
  int edges = 0;
  for (int i = 0; i < (sanitized ? 40 : 300); ++i) {
    const House h = any_winged(rng);
    const Shape s = joined_of(h).shape;
    const std::vector<RoofLine> valleys = lines_of(s, RoofLineKind::valley);
    for (const Surface& f : s.surfaces) {
      if (!lies_on(f)) continue;
      for (std::size_t n = 0; n < f.outline.size(); ++n) {
        const Point &a = f.outline[n], &b = f.outline[(n + 1) % f.outline.size()];
        const double dx = m(b.x - a.x), dy = m(b.y - a.y), length = std::hypot(dx, dy);
        if (length < 0.01) continue;
        const Point middle{0.5 * (a.x + b.x), 0.5 * (a.y + b.y)};
        const auto off = [&](double by) {  // to the right of the edge: out of the piece
          return Point{middle.x + metres(by * dy / length), middle.y - metres(by * dx / length)};
        };
        const Surface* next = only_one(s, off(1e-4), held(Part::roof, 0));
        if (next == nullptr || next->block != 0) continue;
        // Both at one height on the edge, and the main block's higher past it than the wing's would be.
        const bool meet = std::abs(m(height_at(*next, middle) - height_at(f, middle))) < 1e-8;
        const bool dips = m(height_at(*next, off(1e-4)) - height_at(f, off(1e-4))) > 1e-6;
        if (!meet || !dips) continue;
        ++edges;
        CHECK(std::any_of(valleys.begin(), valleys.end(), [&](const RoofLine& l) {
          const double vx = m(l.to.x - l.from.x), vy = m(l.to.y - l.from.y), v = std::hypot(vx, vy);
          const double px = m(middle.x - l.from.x), py = m(middle.y - l.from.y);
          const double along = (px * vx + py * vy) / v, aside = (px * vy - py * vx) / v;
          return std::abs(aside) < 1e-6 && along > -1e-6 && along < v + 1e-6;
        }));
      }
    }
  }
  CHECK(edges > (sanitized ? 20 : 200));
}

TEST_CASE("each surface is a part of the one that it says it is from") {
  std::mt19937 rng(30);
  for (int i = 0; i < 100; ++i) {
    const House h = any_winged(rng);
    const Joined j = joined_of(h);
    REQUIRE(j.from.size() == j.shape.surfaces.size());
    for (std::size_t n = 0; n < j.from.size(); ++n) {
      const Surface& f = j.shape.surfaces[n];
      const bool main = f.block == 0;
      const WingShape w =
          main ? WingShape{shape_of(h), none, none, none, none, Side::front} : shape_of_wing(h, f.block - 1);
      Surface from = w.shape.surfaces.at(j.from[n]);
      for (Point& p : from.outline) p = {p.x + w.left, p.y + w.front};
      CHECK(f.part == from.part);
      CHECK(f.falls == from.falls);
      CHECK(f.side == from.side);
      CHECK(f.slope == from.slope);
      CHECK_THAT(m2(area(common(f.outline, from.outline))), WithinAbs(m2(area(f.outline)), tight));
    }
  }
}

TEST_CASE("a house of several blocks turned or mirrored has the roof turned or mirrored") {
  std::mt19937 rng(31);
  for (int i = 0; i < (sanitized ? 10 : 60); ++i) {
    const House h = any_winged(rng);
    const Shape s = joined_of(h).shape;
    for (const Turn turn : turns) {
      const Frame8 f(h.across, h.up, turn);
      const Shape t = joined_of(winged_seen_in(f, h)).shape;
      for (const Part part : {Part::roof, Part::overhang, Part::soffit})
        for (const std::size_t by : {0U, 1U, 2U, 3U})
          for (const std::size_t block : {0U, 1U, 2U, 3U}) {
            const Which which = [=](const Surface& g) { return g.part == part && g.held_by == by && g.block == block; };
            CHECK_THAT(area_where(t, which), WithinAbs(area_where(s, which), 1e-8));
          }
      for (const RoofLineKind kind : {RoofLineKind::ridge, RoofLineKind::hip, RoofLineKind::valley}) {
        double was = 0.0, is = 0.0;
        for (const RoofLine& l : lines_of(s, kind)) was += length_of(l);
        for (const RoofLine& l : lines_of(t, kind)) is += length_of(l);
        CHECK_THAT(is, WithinAbs(was, 1e-5));
      }
      std::uniform_real_distribution<double> x(-4.0, m(h.across) + 4.0), y(-4.0, m(h.up) + 4.0);
      for (int n = 0; n < 20; ++n) {
        const Point p{metres(x(rng)), metres(y(rng))};
        for (const std::size_t by : {0U, 1U, 2U, 3U}) {
          const Which above = [=](const Surface& g) { return g.held_by == by && g.part != Part::soffit; };
          const Surface *a = only_one(s, p, above), *b = only_one(t, f.seen(p), above);
          REQUIRE((a == nullptr) == (b == nullptr));
          if (a == nullptr) continue;
          CHECK(a->block == b->block);
          CHECK(f.seen(a->falls) == b->falls);
          CHECK(a->over.has_value() == b->over.has_value());
          if (a->over) CHECK(f.seen(*a->over) == *b->over);
          CHECK_THAT(m(height_at(*b, f.seen(p))), WithinAbs(m(height_at(*a, p)), 1e-9));
        }
      }
    }
  }
}

// ---- cutting, and outlines -----------------------------------------------------------------------------------------

TEST_CASE("what lies outside a window, and what it has in common") {
  const Polygon g = rectangle(none, metres(4.0), none, metres(3.0));
  const auto sum = [](const std::vector<Polygon>& all) {
    double a = 0.0;
    for (const Polygon& p : all) a += m2(area(p));
    return a;
  };
  // a window of 2 x 1 m in it: 12 - 2
  const Polygon window = rectangle(metres(1.0), metres(3.0), metres(1.0), metres(2.0));
  CHECK_THAT(m2(area(common(g, window))), WithinAbs(2.0, 1e-12));
  CHECK_THAT(sum(outside_of(g, window)), WithinAbs(10.0, 1e-12));
  // a triangle on its foot, 4 m by 3 m: half of it
  const Polygon triangle{{none, none}, {metres(4.0), none}, {metres(2.0), metres(3.0)}};
  CHECK_THAT(m2(area(common(g, triangle))), WithinAbs(6.0, 1e-12));
  CHECK(outside_of(g, triangle).size() == 2);
  CHECK_THAT(sum(outside_of(g, triangle)), WithinAbs(6.0, 1e-12));
  // beside it, and touching along an edge
  const Polygon beside = rectangle(metres(4.0), metres(6.0), none, metres(3.0));
  CHECK(common(g, beside).empty());
  REQUIRE(outside_of(g, beside).size() == 1);
  CHECK(outside_of(g, beside)[0].size() == 4);
  // all of it
  CHECK(outside_of(g, rectangle(metres(-1.0), metres(5.0), metres(-1.0), metres(4.0))).empty());
  CHECK(outside_of({}, g).empty());
  CHECK(common({}, g).empty());
  CHECK(common(g, {}).empty());
}

namespace {
bool convex(const Polygon& g) {
  for (std::size_t i = 0; i < g.size(); ++i) {
    const Point &a = g[i], &b = g[(i + 1) % g.size()], &c = g[(i + 2) % g.size()];
    if (((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x)).value() < 0.0) return false;
  }
  return true;
}
}  // namespace

TEST_CASE("the outline of a block as it stands before another") {
  const auto seen = [](const House& h, Side side) { return outline_from(shape_of(h), side); };
  // 12 x 8 m at 25 deg, walls 2.4 m: gable end 8 x 2.4 + 8 x 4 tan 25 / 2, along the ridge 12 x (2.4 + 4 tan 25)
  const double t = tan_deg(25.0);
  const House plain = main_block(degrees(25.0));
  const Polygon end = seen(plain, Side::right);
  REQUIRE(end.size() == 5);
  CHECK(convex(end));
  CHECK_THAT(m2(area(end)), WithinAbs(19.2 + 16.0 * t, 1e-9));
  CHECK_THAT(m2(area(seen(plain, Side::front))), WithinAbs(12.0 * (2.4 + 4.0 * t), 1e-9));
  // both ends hipped at the same pitch: cut by 4 m along at each end of the ridge
  const House hips = hipped(metres(12.0), metres(8.0), degrees(25.0), metres(0.6), {Side::left, Side::right});
  CHECK_THAT(m2(area(seen(hips, Side::back))), WithinAbs(12.0 * 2.4 + 8.0 * 4.0 * t, 1e-9));
  CHECK_THAT(m2(area(seen(hips, Side::left))), WithinAbs(19.2 + 16.0 * t, 1e-9));
  // front slope 30 deg, back 15 deg: the ridge at height 8 a b / (a + b), nearer to the front
  House uneven = plain;
  uneven.roof.own_pitch[at(Side::front)] = degrees(30.0);
  uneven.roof.own_pitch[at(Side::back)] = degrees(15.0);
  const double a = tan_deg(30.0), b = tan_deg(15.0), top = 8.0 * a * b / (a + b);
  const Polygon g = seen(uneven, Side::left);
  CHECK(convex(g));
  CHECK_THAT(m2(area(g)), WithinAbs(19.2 + 0.5 * 8.0 * top, 1e-9));
  const auto peak = *std::max_element(g.begin(), g.end(), [](const Point& p, const Point& q) { return p.y < q.y; });
  CHECK_THAT(m(peak.x), WithinAbs(top / a, 1e-9));
  CHECK_THAT(m(peak.y), WithinAbs(2.4 + top, 1e-9));
  // one slope, high at the back: a triangle on the wall from its side, a rectangle from the front
  const House half = skillion(metres(12.0), metres(8.0), degrees(10.0), Side::back, metres(0.3), metres(0.3));
  CHECK_THAT(m2(area(seen(half, Side::right))), WithinAbs(19.2 + 0.5 * 64.0 * tan_deg(10.0), 1e-9));
  CHECK_THAT(m2(area(seen(half, Side::front))), WithinAbs(12.0 * (2.4 + 8.0 * tan_deg(10.0)), 1e-9));
  // level: the wall alone
  CHECK_THAT(m2(area(seen(main_block(degrees(0.0)), Side::front))), WithinAbs(12.0 * 2.4, 1e-9));
}

TEST_CASE("the outline of a block is as high as its roof, and no higher behind a gable on a hip end") {
  std::mt19937 rng(32);
  for (int i = 0; i < 200; ++i) {
    const House h = any_roof(rng, true);
    const Shape s = shape_of(h);
    for (const Side side : all_sides) {
      const Polygon outline = outline_from(s, side);
      CHECK(convex(outline));
      std::uniform_real_distribution<double> along(0.0, m(is_across(outward(side)) ? h.up : h.across));
      for (int n = 0; n < 20; ++n) {
        const Length x = metres(along(rng));
        Length highest = -everywhere;  // of the roof behind that place
        for (const Surface& f : s.surfaces) {
          if (f.part != Part::roof) continue;
          const bool across = is_across(outward(side));
          const Length wide = metres(1e-6);
          const Polygon strip =
              across ? between_y(f.outline, x - wide, x + wide) : between_x(f.outline, x - wide, x + wide);
          for (const Point& p : strip) highest = std::max(highest, height_at(f, p));
        }
        const Polygon strip = between_x(outline, x - metres(1e-6), x + metres(1e-6));
        Length top = none;
        for (const Point& p : strip) top = std::max(top, p.y);
        CHECK(m(top) <= m(s.wall_height + highest) + 1e-5);
        bool gable_on_hip = false;
        for (const Side o : all_sides) gable_on_hip |= s.at(o).gable_above > none;
        if (!gable_on_hip) CHECK(m(top) >= m(s.wall_height + highest) - 1e-5);
      }
    }
  }
}
