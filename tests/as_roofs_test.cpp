// The pressures of AS 4055 and of AS/NZS 1170.2 (and NZS 3604, which borrows them) on every kind of roof: cases by
// hand, a published table through the whole method, and laws that hold for any roof.
#include "any_roof.hpp"
#include "recompute.hpp"
#include "reference_figures.hpp"
#include "sanitized.hpp"
#include <catch2/catch.hpp>
#include <map>
#include <random>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Equals;
using Catch::Matchers::WithinAbs;

namespace {

AsNzsSite typed(const std::string& edition, double gust) {
  AsNzsSite s = as_nzs_site(edition, "A2", "");
  s.from = {};
  s.typed.gust = Speed::from_value(gust);
  return s;
}
House under(House h, const SiteAsk& site) {
  h.site = site;
  return h;
}
// 50 m/s: 1500 Pa
Blown by_1170(const House& h, const std::string& edition = "2021") { return blow(under(h, typed(edition, 50.0))); }
Blown by_class(const House& h, const std::string& wind_class = "N3") {
  return blow(under(h, ClassSite{wind_class, "a test", "job.toml:1"}));
}
std::vector<SiteAsk> sites() {
  return {ClassSite{"N3", "", ""}, ClassSite{"C2", "", ""}, typed("2011", 45.0), as_nzs_site("2021", "B2", "2.5"),
          zone_site("H")};
}
double roof_at(const Blown& b, const std::string& id, double x, double y) {
  const LoadCase& c = find_case(b.loads, id);
  LoadCase small = c;
  if (!c.net_small.empty()) small.net = c.net_small;
  const auto p = net_at(b, small, {metres(x), metres(y)}, false);
  if (!p) throw std::runtime_error("no roof there");
  return p->value();
}
double soffit_at(const Blown& b, const std::string& id, double x, double y) {
  const auto p = net_at(b, find_case(b.loads, id), {metres(x), metres(y)}, true);
  if (!p) throw std::runtime_error("no soffit there");
  return p->value();
}
bool has_case(const Blown& b, const std::string& id) {
  return std::any_of(b.loads.cases.begin(), b.loads.cases.end(), [&](const LoadCase& c) { return c.id == id; });
}
std::set<std::string> limits(const Blown& b) {
  std::set<std::string> all;
  for (const Excess& e : b.loads.excess) all.insert(e.limit);
  return all;
}
double push(const Blown& b, const std::string& id, Along along) {
  return push_total(find_case(b.loads, id), along).value();
}
double pushed_area(const LoadCase& c) {
  Area sum = zero<Area>();
  for (const Push& p : c.push) sum += area(p.part);
  return m2(sum);
}
double tan_deg(double d) { return std::tan(degrees(d).value()); }
bool is_class(const SiteAsk& s) { return std::holds_alternative<ClassSite>(s); }

}  // namespace

// ---- AS/NZS 1170.2, by hand ----------------------------------------------------------------------------------------

TEST_CASE("AS/NZS 1170.2: a hip roof by hand, 25 and 10 degrees, both ways") {
  // 12 x 8 m, walls 2.4 m on a floor 0.3 m up, eaves 0.5 m, 1500 Pa. Tables 5.2 and 5.3, from memory; sums computed.
  // 25 degrees: rise 4 tan 25 = 1.865231, h = 3.632615. On to the front h/d = 0.454077, on to the left 0.302718. Upwind
  // (B) first -0.2 and -0.3 at h/d 0.25 and 0.5, second 0.3 and 0.2; downwind and along (C) -0.6 (b/d under 3); leeward
  // wall -0.5. C_pi 0 leaves the outside alone.
  const Blown b = by_1170(hipped(metres(12.0), metres(8.0), degrees(25.0), metres(0.5), {Side::left, Side::right}));
  CHECK(b.loads.excess.empty());
  const double q = 1500.0;
  const std::map<std::string, std::array<double, 2>> onto{{"front", {-0.281631, 0.218369}},
                                                          {"left", {-0.221087, 0.278913}}};
  for (const auto& [face, up] : onto) {
    const bool front = face == "front";
    const double ux = front ? 6.0 : 1.0, uy = front ? 1.0 : 4.0, dx = front ? 6.0 : 11.0, dy = front ? 7.0 : 4.0,
                 ax = front ? 1.0 : 6.0, ay = front ? 4.0 : 1.0;
    for (const std::size_t value : {0U, 1U}) {
      const std::string id = face + " shut 0 " + (value == 0 ? "first" : "second");
      CHECK_THAT(roof_at(b, id, ux, uy), WithinAbs(q * up[value], 0.01));
      CHECK_THAT(roof_at(b, id, dx, dy), WithinAbs(q * -0.6, 1e-6));
      CHECK_THAT(roof_at(b, id, ax, ay), WithinAbs(q * -0.6, 1e-6));
      CHECK_THAT(roof_at(b, id, 12.0 - ax, 8.0 - ay), WithinAbs(q * -0.6, 1e-6));
    }
  }
  // The corner of the eaves parts at the hip: below 45 degrees in plan the front's, above it the left's
  CHECK_THAT(roof_at(b, "front shut 0 first", -0.1, -0.3), WithinAbs(q * -0.281631, 0.01));
  CHECK_THAT(roof_at(b, "front shut 0 first", -0.3, -0.1), WithinAbs(q * -0.6, 1e-6));
  // Under the eaves: windward 0.7, its corners with it; leeward -0.5; side walls -0.65 to 1 h
  CHECK_THAT(soffit_at(b, "front shut 0 first", 6.0, -0.2), WithinAbs(q * 0.7, 1e-6));
  CHECK_THAT(soffit_at(b, "front shut 0 first", -0.4, -0.2), WithinAbs(q * 0.7, 1e-6));
  CHECK_THAT(soffit_at(b, "front shut 0 first", -0.2, 2.0), WithinAbs(q * -0.65, 1e-6));
  CHECK_THAT(soffit_at(b, "front shut 0 first", 6.0, 8.2), WithinAbs(q * -0.5, 1e-6));
  // Push: walls alone 0.9 (0.7 + 0.5); with the roof 0.8, its slopes (13 + 4)/2 x 4.5 m and 9/2 x 4.5 m on plan
  CHECK_THAT(push(b, "front shut 0 first", Along::up), WithinAbs(q * 0.9 * 1.2 * 28.8, 1e-6));
  CHECK_THAT(push(b, "front shut 0 second roof", Along::up),
             WithinAbs(q * 0.8 * (1.2 * 28.8 + 0.818369 * 38.25 * tan_deg(25.0)), 0.05));
  CHECK_THAT(push(b, "left shut 0 second roof", Along::across),
             WithinAbs(q * 0.8 * (1.2 * 19.2 + 0.878913 * 20.25 * tan_deg(25.0)), 0.05));
  CHECK(push(b, "left shut 0 second roof", Along::up) == 0.0);  // slopes along the wind push nowhere along it

  // 10 degrees: rise 0.705308, h = 3.052654; h/d 0.381582 and 0.254388. (B) first -0.7, -0.9; (C) -0.3, -0.5.
  const Blown low = by_1170(hipped(metres(12.0), metres(8.0), degrees(10.0), metres(0.5), {Side::left, Side::right}));
  CHECK_THAT(roof_at(low, "front shut 0 first", 6.0, 1.0), WithinAbs(q * -0.805266, 0.01));
  CHECK_THAT(roof_at(low, "front shut 0 first", 6.0, 7.0), WithinAbs(q * -0.405266, 0.01));
  CHECK_THAT(roof_at(low, "front shut 0 first", 1.0, 4.0), WithinAbs(q * -0.405266, 0.01));
  CHECK_THAT(roof_at(low, "left shut 0 first", 1.0, 4.0), WithinAbs(q * -0.703510, 0.01));
  CHECK_THAT(roof_at(low, "left shut 0 first", 6.0, 1.0), WithinAbs(q * -0.303510, 0.01));
  // Under 10 degrees by bands all round: 0 to 1 h, h = 2.7 + 2 tan 9
  const Blown flat = by_1170(hipped(metres(12.0), metres(8.0), degrees(9.0), metres(0.5), {Side::left, Side::right}));
  for (const double y : {0.5, 4.0, 7.5}) {
    CHECK_THAT(roof_at(flat, "left shut 0 first", 2.9, y), WithinAbs(q * -0.9, 1e-6));
    CHECK_THAT(roof_at(flat, "left shut 0 first", 3.1, y), WithinAbs(q * -0.5, 1e-6));
  }
}

TEST_CASE("AS/NZS 1170.2: a hip roof's slopes towards and away from the wind are a gable's, row by row") {
  // Tables 5.3(B) and (C) know no kind of roof for them: the same pitch, h and plan give the same figures
  for (const std::string edition : {"2011", "2021"})
    for (const double pitch : {10.0, 12.5, 17.5, 22.5, 25.0, 33.0, 40.0, 50.0})
      for (const double up : {4.0, 8.0, 11.0}) {
        const Blown hip =
            by_1170(hipped(metres(12.0), metres(up), degrees(pitch), metres(0.45), {Side::left, Side::right}), edition);
        const Blown gable_roof = by_1170(roofed(metres(12.0), metres(up), RoofShape::gable, Along::across,
                                                degrees(pitch), metres(0.45), metres(0.3)),
                                         edition);
        for (const std::string id : {"front shut 0.2 first", "front shut -0.3 second", "back shut 0 first"})
          for (const double y : {0.1, up - 0.1}) CHECK(roof_at(hip, id, 6.0, y) == roof_at(gable_roof, id, 6.0, y));
      }
}

TEST_CASE("AS/NZS 1170.2: a skillion by hand: on to its low side, its high side, along it") {
  // 12 x 6 m, 15 degrees up to the back, eaves 0.5 m, verges 0.3 m: rise 6 tan 15 = 1.607695, h = 2.7 + 0.803848 =
  // 3.503848, h/d 0.583975: 0.167949 of the way from the row of 0.5 to that of 1.0. Upwind -0.7 to -1.0 and -0.3 to
  // -0.5, downwind -0.5 to -0.6. Leeward wall by 15 degrees -0.3, by d/b 0.5 -0.5.
  const House h = skillion(metres(12.0), metres(6.0), degrees(15.0), Side::back, metres(0.5), metres(0.3));
  const Blown b = by_1170(h);
  const double q = 1500.0, up1 = -0.750385, up2 = -0.333590, down = -0.516795;
  for (const double y : {-0.3, 0.5, 5.5, 6.2}) {
    CHECK_THAT(roof_at(b, "front shut 0 first", 6.0, y), WithinAbs(q * up1, 0.01));
    CHECK_THAT(roof_at(b, "front shut 0 second", 6.0, y), WithinAbs(q * up2, 0.01));
    CHECK_THAT(roof_at(b, "back shut 0 first", 6.0, y), WithinAbs(q * down, 0.01));
  }
  // Along it by bands of h
  for (const auto& [x, c] : std::map<double, double>{{1.0, -0.9}, {5.0, -0.5}, {9.0, -0.3}, {11.0, -0.2}})
    for (const double y : {0.5, 5.5}) CHECK_THAT(roof_at(b, "left shut 0 first", x, y), WithinAbs(q * c, 1e-6));
  // Under the high edge and the eaves: the leeward wall pulls least where it holds down
  CHECK_THAT(soffit_at(b, "front shut 0 first", 6.0, 6.2), WithinAbs(q * -0.3, 1e-6));
  CHECK_THAT(soffit_at(b, "back shut 0 first", 6.0, 6.2), WithinAbs(q * 0.7, 1e-6));
  CHECK_THAT(soffit_at(b, "back shut 0 first", 6.0, -0.2), WithinAbs(q * -0.3, 1e-6));
  // Walls: 12 x 2.4 m low, 12 x 4.007695 m high. The upwind slope relieves and is left out; the downwind one adds.
  CHECK_THAT(push(b, "front shut 0 first", Along::up), WithinAbs(q * 0.9 * (0.7 * 28.8 + 0.5 * 12.0 * 4.007695), 0.05));
  CHECK_FALSE(has_case(b, "front shut 0 first roof"));
  CHECK_FALSE(has_case(b, "front shut 0 second roof"));
  CHECK_THAT(push(b, "back shut 0 first", Along::up), WithinAbs(-q * 0.9 * (0.7 * 12.0 * 4.007695 + 0.5 * 28.8), 0.05));
  CHECK_THAT(push(b, "back shut 0 first roof", Along::up),
             WithinAbs(-q * 0.8 * (0.7 * 12.0 * 4.007695 + 0.5 * 28.8 - down * 12.6 * 6.8 * tan_deg(15.0)), 0.05));
  // Ends: 6 x 2.4 + 6 x 1.607695 / 2; d/b 2: leeward -0.3
  CHECK_THAT(push(b, "left shut 0 first", Along::across), WithinAbs(q * 0.9 * 1.0 * (14.4 + 4.823086), 0.05));
  CHECK_FALSE(has_case(b, "left shut 0 first roof"));
  // 30 degrees: 6 tan 30 = 3.464102, h = 4.432051, h/d 0.738675, 0.477350 of the way: second 0.3 to 0.2, so 0.252265
  const Blown steep = by_1170(skillion(metres(12.0), metres(6.0), degrees(30.0), Side::back, metres(0.5), metres(0.3)));
  CHECK_THAT(push(steep, "front shut 0 second roof", Along::up),
             WithinAbs(q * 0.8 * (0.7 * 28.8 + 0.5 * 12.0 * 5.864102 + 0.252265 * 12.6 * 6.8 * tan_deg(30.0)), 0.05));
}

TEST_CASE("AS/NZS 1170.2: a flat roof by bands from each side") {
  // 12 x 7 m, 3 degrees up to the left: h = 2.7 + 6 tan 3 = 3.014447; h/d up to 0.5 both ways
  const Blown b = by_1170([] {
    House h = skillion(metres(12.0), metres(7.0), degrees(3.0), Side::left, metres(0.3), metres(0.3));
    h.roof.shape = RoofShape::flat;
    return h;
  }());
  const double q = 1500.0;
  for (const double y : {1.0, 6.0}) {
    CHECK_THAT(roof_at(b, "left shut 0 first", 2.9, y), WithinAbs(q * -0.9, 1e-6));
    CHECK_THAT(roof_at(b, "left shut 0 first", 3.1, y), WithinAbs(q * -0.5, 1e-6));
    CHECK_THAT(roof_at(b, "right shut 0 first", 12.0 - 2.9, y), WithinAbs(q * -0.9, 1e-6));
    CHECK_THAT(roof_at(b, "right shut 0 second", 12.0 - 7.0, y), WithinAbs(q * 0.1, 1e-6));
  }
  CHECK_THAT(roof_at(b, "front shut 0 first", 6.0, 2.9), WithinAbs(q * -0.9, 1e-6));
  CHECK_THAT(roof_at(b, "front shut 0 first", 6.0, 3.1), WithinAbs(q * -0.5, 1e-6));
  // On to the high side every band that is pulled adds to the push; on to the low side those that are pushed
  const double slope = tan_deg(3.0), h = 2.7 + 6.0 * slope;
  const double walls = 0.7 * 7.0 * (2.4 + 12.0 * slope) + 0.5 * 0.0;
  const double pulled = 7.6 * slope * (0.9 * (h + 0.3) + 0.5 * h + 0.3 * h + 0.2 * (12.3 - 3.0 * h));
  // d/b 12/7: leeward wall -0.5 + 0.2 x 5/7 = -0.357143
  CHECK_THAT(push(b, "left shut 0 first roof", Along::across),
             WithinAbs(q * 0.8 * (walls + 0.357143 * 7.0 * 2.4 + pulled), 0.05));
  const double pushed = 7.6 * slope * (0.1 * h + 0.2 * (12.3 - 3.0 * h));
  CHECK_THAT(push(b, "right shut 0 second roof", Along::across),
             WithinAbs(-q * 0.8 * (0.7 * 7.0 * 2.4 + 0.357143 * 7.0 * (2.4 + 12.0 * slope) + pushed), 0.05));
  CHECK_FALSE(has_case(b, "right shut 0 first roof"));
  CHECK_FALSE(has_case(b, "front shut 0 first roof"));
}

TEST_CASE("AS/NZS 1170.2: an uneven gable: each slope by its own pitch, the leeward wall by the worse") {
  // 12 x 8 m, front 12.5 degrees, back 30: the ridge where u tan 12.5 = (8 - u) tan 30
  House house =
      roofed(metres(12.0), metres(8.0), RoofShape::gable, Along::across, degrees(12.5), metres(0.4), metres(0.2));
  house.roof.own_pitch[at(Side::back)] = degrees(30.0);
  const Blown b = by_1170(house);
  const double a = tan_deg(12.5), c = tan_deg(30.0), u = 8.0 * c / (a + c), h = 2.7 + 0.5 * u * a, r = h / 8.0;
  REQUIRE(r > 0.25);
  REQUIRE(r < 0.5);
  const double t = (r - 0.25) / 0.25, q = 1500.0;
  const auto between = [&](double low, double high) { return low + t * (high - low); };
  CHECK_THAT(roof_at(b, "front shut 0 first", 6.0, 1.0), WithinAbs(q * between(-0.6, -0.8), 1e-6));
  CHECK_THAT(roof_at(b, "front shut 0 first", 6.0, 7.9), WithinAbs(q * -0.6, 1e-6));
  CHECK_THAT(roof_at(b, "back shut 0 first", 6.0, 7.9), WithinAbs(q * -0.2, 1e-6));
  CHECK_THAT(roof_at(b, "back shut 0 second", 6.0, 7.9), WithinAbs(q * between(0.4, 0.3), 1e-6));
  CHECK_THAT(roof_at(b, "back shut 0 first", 6.0, 1.0), WithinAbs(q * between(-0.4, -0.5), 1e-6));
  // Leeward wall: -0.3 by 12.5 degrees, -0.5 by 30; the harder pull pushes the house, the softer one holds eaves down
  CHECK_THAT(push(b, "front shut 0 first", Along::up), WithinAbs(q * 0.9 * 1.2 * 28.8, 1e-6));
  CHECK_THAT(push(b, "back shut 0 first", Along::up), WithinAbs(-q * 0.9 * 1.2 * 28.8, 1e-6));
  CHECK_THAT(soffit_at(b, "front shut 0 first", 6.0, 8.2), WithinAbs(q * -0.3, 1e-6));
  CHECK_THAT(soffit_at(b, "back shut 0 first", 6.0, -0.2), WithinAbs(q * -0.3, 1e-6));
  // One slope under 10 degrees by bands, the other one by its pitch; the upwind pull is left out of the push
  house.roof.own_pitch[at(Side::front)] = degrees(8.0);
  const Blown mixed = by_1170(house);
  CHECK_THAT(roof_at(mixed, "front shut 0 first", 6.0, 1.0), WithinAbs(q * -0.9, 1e-6));
  CHECK_THAT(roof_at(mixed, "front shut 0 first", 6.0, 7.9), WithinAbs(q * -0.6, 1e-6));
  const double roof = 12.4 * m(mixed.shape.rise + metres(0.4) * c);
  CHECK_THAT(push(mixed, "front shut 0 first roof", Along::up), WithinAbs(q * 0.8 * (1.2 * 28.8 + 0.6 * roof), 0.01));
}

TEST_CASE("AS/NZS 1170.2: a gable at one end or on a hip end: slopes along the wind take the worse of both tables") {
  // 14 x 8 m, 20 degrees, hip at the right alone: h = 2.7 + 2 tan 20 = 3.427941
  const Blown b = by_1170(hipped(metres(14.0), metres(8.0), degrees(20.0), metres(0.4), {Side::right}));
  const double q = 1500.0;
  // On to the gable: bands -0.9, -0.5, -0.3, -0.2 and -0.4, 0, 0.1, 0.2 against (C) -0.6
  for (const auto& [x, c] : std::map<double, std::array<double, 2>>{
           {1.0, {-0.9, -0.4}}, {5.0, {-0.6, 0.0}}, {8.5, {-0.6, 0.1}}, {10.5, {-0.6, 0.2}}})
    for (const double y : {0.5, 7.5}) {
      CHECK_THAT(roof_at(b, "left shut 0 first", x, y), WithinAbs(q * c[0], 1e-6));
      CHECK_THAT(roof_at(b, "left shut 0 second", x, y), WithinAbs(q * c[1], 1e-6));
    }
  CHECK_THAT(roof_at(b, "left shut 0 first", 13.5, 4.0), WithinAbs(q * -0.6, 1e-6));  // the hip beyond, downwind
  // On to the hip: (C) alone
  CHECK_THAT(roof_at(b, "right shut 0 first", 9.0, 1.0), WithinAbs(q * -0.6, 1e-6));
  CHECK_THAT(roof_at(b, "right shut 0 first", 1.0, 1.0), WithinAbs(q * -0.6, 1e-6));
  // The hip beyond the gable pulls: it adds to the push of the ends. The leeward wall by d/b 1.75 -0.35, by 20 degrees
  // -0.4. The hip on plan: triangle 8.8/2 x 4.4 m.
  const double gable_area = 8.0 * 2.4 + 8.0 * 4.0 * tan_deg(20.0) / 2.0;
  CHECK_THAT(push(b, "left shut 0 first roof", Along::across),
             WithinAbs(q * 0.8 * (0.7 * gable_area + 0.4 * 19.2 + 0.6 * 4.4 * 4.4 * tan_deg(20.0)), 0.05));

  // A gable 2 m in on the left hip end
  House above = hipped(metres(14.0), metres(8.0), degrees(20.0), metres(0.4), {Side::left, Side::right});
  above.roof.gable_above[at(Side::left)] = metres(2.0);
  const Blown g = by_1170(above);
  CHECK_THAT(roof_at(g, "left shut 0 first", 5.0, 1.0), WithinAbs(q * -0.6, 1e-6));
  CHECK_THAT(roof_at(g, "left shut 0 first", 3.3, 1.0), WithinAbs(q * -0.9, 1e-6));
  CHECK_THAT(roof_at(g, "right shut 0 first", 5.0, 1.0), WithinAbs(q * -0.6, 1e-6));
  // The gable stands upright over the wall: from 2 tan 20 up it is 4 m wide and 2 tan 20 high. Leeward: by d/b 1.75
  // -0.35, by 20 degrees -0.4.
  const double upright_part = 4.0 * 2.0 * tan_deg(20.0) / 2.0;
  CHECK_THAT(push(g, "left shut 0 first", Along::across),
             WithinAbs(q * 0.9 * (0.7 * (19.2 + upright_part) + 0.4 * 19.2), 0.05));
}

TEST_CASE("AS/NZS 1170.2: the steepest slope counts for its limit") {
  House h = hipped(metres(12.0), metres(8.0), degrees(20.0), metres(0.4), {Side::left, Side::right});
  CHECK(limits(by_1170(h)).empty());
  h.roof.own_pitch[at(Side::right)] = degrees(60.5);
  CHECK(limits(by_1170(h)) == std::set<std::string>{"roof pitch"});
}

TEST_CASE("AS/NZS 1170.2 and NZS 3604: every case has the combination that presses") {
  for (const SiteAsk& site : sites()) {
    if (is_class(site)) continue;
    const House h =
        under(hipped(metres(12.0), metres(8.0), degrees(25.0), metres(0.5), {Side::left, Side::right}), site);
    for (const LoadCase& c : blow(h).loads.cases) {
      CHECK(c.down.dead == 1.2);
      CHECK(c.down.wind == 1.0);
      CHECK_THAT(c.down.source, Catch::Matchers::Contains("AS/NZS 1170.0"));
    }
  }
  // What presses: the upwind slope by its second coefficient, with the pull inside. 0.9 (0.218369 + 0.3) of 1500 Pa
  const Blown b = by_1170(hipped(metres(12.0), metres(8.0), degrees(25.0), metres(0.5), {Side::left, Side::right}));
  CHECK_THAT(roof_at(b, "front shut -0.3 second", 6.0, 1.0), WithinAbs(1500.0 * 0.9 * 0.518369, 0.01));
}

// ---- AS 4055, by hand ----------------------------------------------------------------------------------------------

TEST_CASE("AS 4055: the same net uplift on every part of every roof, and a case that presses") {
  std::mt19937 rng(23);
  for (int i = 0; i < 60; ++i) {
    House h = any_roof(rng, false);
    if (i % 3 == 0) put(h, Side::front, opening(metres(3.0), metres(2.1), true, false, std::nullopt));
    const bool open = i % 3 == 0;
    for (const std::string wind_class : {"N3", "C1"}) {
      const Blown b = by_class(h, wind_class);
      const bool c_figures = open || wind_class == "C1";
      for (const LoadCase& c : b.loads.cases) {
        const bool presses = c.id.ends_with(" press");
        const double net = presses                           ? (c_figures ? 0.95 : 0.63)
                           : c.id.ends_with(" frame")        ? -1.1
                           : c.id.ends_with(" open")         ? -1.52
                           : wind_class == std::string("N3") ? -0.99
                                                             : -1.52;
        for (std::size_t k = 0; k < c.net.size(); ++k) {
          const bool soffit = b.shape.surfaces[b.loads.layouts[c.layout].zones[k].surface].part == Part::soffit;
          CHECK_THAT(c.net[k].value(), WithinAbs(soffit ? 0.0 : 1500.0 * net, 1e-9));
        }
        // Only what presses has a combination for it
        CHECK(c.down.name == (presses ? "1.2 G + W" : ""));
        if (presses) CHECK(c.down.dead == 1.2);
      }
      for (const char* face : {"left", "front", "right", "back"}) CHECK(has_case(b, std::string(face) + " press"));
    }
  }
}

TEST_CASE("AS 4055: racking of hip ends, AS 1684.2-2010 Table 8.4, N3, through a whole house") {
  // Square plans W x W under hips, walls 2.4 m with their tops 4.5 m up, no eaves: the table's own model, its 0 degree
  // column left out. Read; tolerance the printed rounding.
  const toml::table t = reference("au-racking-hip-end.toml");
  const auto pitches = numbers(t["pitch_deg"]);
  const toml::array& rows = *t["N3"].as_array();
  std::string missed;
  int matched = 0;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const double span = 4.0 + static_cast<double>(r);
    const auto expected = numbers(toml::node_view<const toml::node>(rows[r]));
    for (std::size_t c = 1; c < pitches.size(); ++c) {
      House h = hipped(metres(span), metres(span), degrees(pitches[c]), zero<Length>(), {Side::left, Side::right});
      h.floor_level = metres(2.1);
      const double ours = find_case(by_class(h).loads, "left class").push.front().p.value() / 1000.0;
      const double rounding = expected[c] >= 1.0 ? 0.05 : 0.005;
      if (std::abs(ours - expected[c]) <= rounding + 1e-9) ++matched;
      else missed += fmt::format("W {} m, {} degrees: {} printed, {:.3f} here\n", span, pitches[c], expected[c], ours);
    }
  }
  CHECK_THAT(missed, Equals(""));
  CHECK(matched == 91);
}

TEST_CASE("AS 4055: push on the faces of a hip house, by hand") {
  // 12 x 8 m, 20 degrees, eaves 0.5 m: rise 4 tan 20 = 1.455881, h_u = 2.7 - 0.181985 = 2.518015, h = 3.245955.
  // Front: trapezoid (12 + 4)/2 x 1.455881 = 11.647047 m2, h_r = 0.970587; h/d 0.405744: C_up 0.2 - 0.2 x 0.622978;
  // C_dn -0.6; C_r = 0.8 x 0.675404. Left: triangle 5.823523 m2, h_r = 0.727940; h/d by the depth of 12 m 0.270496:
  // C_up 0.183603, which pushes more than by the breadth of 8 m; C_r = 0.8 x 0.783603.
  const Blown b = by_class(hipped(metres(12.0), metres(8.0), degrees(20.0), metres(0.5), {Side::left, Side::right}));
  CHECK(b.loads.excess.empty());
  const double front = 1500.0 * (0.96 * 1.2 + 0.8 * 0.675404 * 0.970587) / (1.2 + 0.970587);
  const double left = 1500.0 * (0.96 * 1.2 + 0.8 * 0.783603 * 0.727940) / (1.2 + 0.727940);
  CHECK_THAT(push(b, "front class", Along::up), WithinAbs(front * (28.8 + 11.647047), 1.0));
  CHECK_THAT(push(b, "back class", Along::up), WithinAbs(-front * (28.8 + 11.647047), 1.0));
  CHECK_THAT(push(b, "left class", Along::across), WithinAbs(left * (19.2 + 5.823523), 1.0));
  CHECK_THAT(push(b, "right class", Along::across), WithinAbs(-left * (19.2 + 5.823523), 1.0));
  CHECK(push(b, "left class", Along::up) == 0.0);
}

TEST_CASE(
    "AS 4055: a gable governs both ends, on its wall or on a hip end; skillions and flat roofs are upright faces") {
  const double p = 0.96 * 1500.0, slope = tan_deg(20.0);
  const Blown half = by_class(hipped(metres(12.0), metres(8.0), degrees(20.0), metres(0.5), {Side::right}));
  const double end = 8.0 * 2.4 + 8.0 * 4.0 * slope / 2.0;
  CHECK_THAT(push(half, "left class", Along::across), WithinAbs(p * end, 0.01));
  CHECK_THAT(push(half, "right class", Along::across), WithinAbs(-p * end, 0.01));  // the hip end, all that is seen
  CHECK(push(half, "front class", Along::up) < p * pushed_area(find_case(half.loads, "front class")) - 1.0);
  CHECK(std::any_of(half.site.cautions.begin(), half.site.cautions.end(),
                    [](const std::string& c) { return c.starts_with("A gable governs"); }));
  House above = hipped(metres(12.0), metres(8.0), degrees(20.0), metres(0.5), {Side::left, Side::right});
  above.roof.gable_above[at(Side::left)] = metres(1.5);
  const Blown g = by_class(above);
  CHECK_THAT(push(g, "left class", Along::across), WithinAbs(p * end, 0.01));
  CHECK_THAT(push(g, "right class", Along::across), WithinAbs(-p * end, 0.01));

  const Blown one = by_class(skillion(metres(12.0), metres(6.0), degrees(15.0), Side::back, metres(0.5), metres(0.3)));
  const double rise = 6.0 * tan_deg(15.0);
  // On to the high side the same: never less than on to the low one
  CHECK_THAT(push(one, "back class", Along::up), WithinAbs(-p * (28.8 + 12.6 * (rise + 0.3 * tan_deg(15.0))), 0.01));
  // What is seen of the low side: the wall, and the slope with its verges and the edge beyond the high wall
  CHECK_THAT(push(one, "front class", Along::up), WithinAbs(p * (28.8 + 12.6 * (rise + 0.3 * tan_deg(15.0))), 0.01));
  CHECK_THAT(push(one, "left class", Along::across), WithinAbs(p * (14.4 + 3.0 * rise), 0.01));
  CHECK(std::any_of(one.site.cautions.begin(), one.site.cautions.end(),
                    [](const std::string& c) { return c.starts_with("Wind on to the low side"); }));
  for (const LoadCase& c : one.loads.cases)
    for (const Push& x : c.push) CHECK_THAT(x.p.value(), WithinAbs(p, 1e-9));
  const auto says = [](const Blown& b, const std::string& start) {
    return std::any_of(b.site.cautions.begin(), b.site.cautions.end(),
                       [&](const std::string& c) { return c.starts_with(start); });
  };
  const House skillion_house = skillion(metres(12.0), metres(6.0), degrees(15.0), Side::back, metres(0.5), metres(0.3));
  CHECK(says(by_1170(skillion_house), "The leeward wall of a single slope"));
  CHECK(says(by_1170(above), "With a gable to the wind"));
  CHECK_FALSE(says(by_1170(cottage()), "With a gable to the wind"));
  // Nothing of the kind for a plain gable or a plain hip
  const Blown plain =
      by_class(hipped(metres(12.0), metres(8.0), degrees(20.0), metres(0.5), {Side::left, Side::right}));
  CHECK(plain.site.cautions.size() == by_class(cottage()).site.cautions.size());
}

TEST_CASE("AS 4055: an uneven gable: own pitch in front, the harder pull of both behind") {
  // 12 x 8 m, no overhangs, front 30 degrees, back 15: rise = 8 x tan 30 tan 15 / (tan 30 + tan 15) = 1.464102,
  // h = 2.7 + 0.732051, h/d 0.429006: 0.716025 of the way from 0.25 to 0.5. Front: C_up 0.4 to 0.3; C_dn by 30 degrees
  // -0.72, by 15 -0.5: -0.72. Back: C_up at 15 degrees 0.0 to -0.3; C_dn again -0.72.
  House h =
      roofed(metres(12.0), metres(8.0), RoofShape::gable, Along::across, degrees(30.0), zero<Length>(), zero<Length>());
  h.roof.own_pitch[at(Side::back)] = degrees(15.0);
  const Blown b = by_class(h);
  const double rise = 1.464102, t = 0.716025;
  const auto p = [&](double up) {
    return 1500.0 * (0.96 * 1.2 + 0.8 * (up + 0.72) * rise) / (1.2 + rise) * (28.8 + 12.0 * rise);
  };
  CHECK_THAT(push(b, "front class", Along::up), WithinAbs(p(0.4 - 0.1 * t), 1.0));
  CHECK_THAT(push(b, "back class", Along::up), WithinAbs(-p(-0.3 * t), 1.0));
  CHECK_THAT(push(b, "left class", Along::across), WithinAbs(1440.0 * (19.2 + 4.0 * rise), 0.5));
  // A slope too flat for the tables in front of a steep one still takes that one's pull: C_up of the first column,
  // nothing taken off
  h.roof.own_pitch[at(Side::back)] = degrees(4.0);
  const Blown flat = by_class(h);
  CHECK(find_case(flat.loads, "back class").push.front().p.value() >
        1500.0 * 0.96 * 1.2 / (1.2 + m(flat.shape.rise)) + 1.0);
}

TEST_CASE("AS 4055: limits by every slope and by each overhang") {
  House h = hipped(metres(12.0), metres(8.0), degrees(20.0), metres(0.5), {Side::left, Side::right});
  CHECK(limits(by_class(h)).empty());
  h.roof.own_pitch[at(Side::left)] = degrees(35.5);
  CHECK(limits(by_class(h)) == std::set<std::string>{"roof pitch"});
  // 15.2 m wide: eaves of 0.9 m do not count, of 1.7 m 0.8 m do; on one side alone 16.0 m stands, on both it does not
  h = hipped(metres(20.0), metres(15.2), degrees(15.0), metres(0.9), {Side::left, Side::right});
  CHECK(limits(by_class(h)).empty());
  h.roof.own_overhang[at(Side::front)] = metres(1.6999);
  CHECK(limits(by_class(h)).empty());
  h.roof.own_overhang[at(Side::back)] = metres(1.0);
  CHECK(limits(by_class(h)) == std::set<std::string>{"width"});
}

TEST_CASE("AS 4055: no face under a slope is pushed harder than an upright one") {
  // What the readings for gables at one end and for skillions rest on
  std::mt19937 rng(29);
  for (int i = 0; i < 300; ++i) {
    const Blown b = by_class(any_roof(rng, false));
    for (const LoadCase& c : b.loads.cases)
      for (const Push& p : c.push) {
        CHECK(p.p.value() <= 0.96 * 1500.0 + 1e-9);
        CHECK(p.p > zero<Pressure>());
      }
  }
}

// ---- laws for any roof ----------------------------------------------------------------------------------------------

TEST_CASE("any roof by AS 4055, AS/NZS 1170.2 and NZS 3604: zones tile every surface, every wall has its pressure") {
  std::mt19937 rng(31);
  for (int i = 0; i < (sanitized ? 60 : 400); ++i) {
    const House h = under(any_roof(rng, i % 2 == 0), sites()[static_cast<std::size_t>(i) % sites().size()]);
    const Blown b = blow(h);
    REQUIRE(!b.loads.layouts.empty());
    REQUIRE(!b.loads.cases.empty());
    for (const Layout& l : b.loads.layouts) {
      REQUIRE(!l.zones.empty());
      std::vector<Area> covered(b.shape.surfaces.size(), zero<Area>());
      for (const Zone& z : l.zones) {
        CHECK(area(z.part) > zero<Area>());
        covered[z.surface] += area(z.part);
      }
      for (std::size_t k = 0; k < covered.size(); ++k)
        CHECK_THAT(m2(covered[k]), WithinAbs(m2(area(b.shape.surfaces[k].outline)), 1e-9));
    }
    std::set<std::string> ids;
    for (const LoadCase& c : b.loads.cases) {
      CHECK(ids.insert(c.id).second);
      const std::size_t zones = b.loads.layouts[c.layout].zones.size();
      REQUIRE(c.net.size() == zones);
      REQUIRE((c.net_small.empty() || c.net_small.size() == zones));
      CHECK(c.marks == (c.marks_net | c.marks_push | c.marks_square_on));
      // What presses by class is a case of its own: those that lift push on the walls as hard.
      const bool presses = c.id.ends_with(" press");
      CHECK((presses ? c.push.empty() && c.square_on.empty() && !c.down.name.empty() : !c.push.empty()));
      if (presses) continue;
      for (const Side side : all_sides) {
        Length reached = zero<Length>();
        for (const SquareOn& s : c.square_on) {
          if (s.side != side) continue;
          CHECK(s.from == reached);
          reached = s.to;
        }
        CHECK(reached == (is_across(outward(side)) ? h.up : h.across));
      }
    }
  }
}

TEST_CASE("any roof by AS/NZS 1170.2: the push is with its wind, and the first coefficients lift most") {
  std::mt19937 rng(37);
  for (int i = 0; i < (sanitized ? 40 : 200); ++i) {
    const Blown b = by_1170(any_roof(rng, false), i % 2 == 0 ? "2011" : "2021");
    for (const LoadCase& c : b.loads.cases) {
      const bool across = c.id.starts_with("left ") || c.id.starts_with("right ");
      const double sign = c.id.starts_with("left ") || c.id.starts_with("front ") ? 1.0 : -1.0;
      CHECK(sign * push_total(c, across ? Along::across : Along::up).value() > 0.0);
      CHECK(push_total(c, across ? Along::up : Along::across) == zero<Force>());
      const std::string roof = " roof";
      if (c.id.ends_with(roof)) {
        const LoadCase& walls = find_case(b.loads, c.id.substr(0, c.id.size() - roof.size()));
        CHECK(sign * push_total(c, across ? Along::across : Along::up).value() >
              0.8 / 0.9 * sign * push_total(walls, across ? Along::across : Along::up).value());
      }
      if (!c.id.ends_with(" first")) continue;
      const LoadCase& d = find_case(b.loads, c.id.substr(0, c.id.size() - 5) + "second");
      for (std::size_t k = 0; k < c.net.size(); ++k) {
        CHECK(c.net[k].value() <= d.net[k].value() + 1e-9);
        CHECK(c.net_small[k].value() <= c.net[k].value() + 1e-9);
      }
    }
  }
}

TEST_CASE("any roof turned or mirrored has the turned or mirrored pressures and pushes") {
  std::mt19937 rng(41);
  for (int i = 0; i < (sanitized ? 10 : 40); ++i) {
    House h = any_roof(rng, i % 2 == 0);
    h.walls.clear();
    for (const SiteAsk& site : sites()) {
      h.site = site;
      const Blown a = blow(h);
      std::uniform_real_distribution<double> x(-1.0, m(h.across) + 1.0), y(-1.0, m(h.up) + 1.0);
      for (const Turn& turn : turns) {
        const Frame8 f(h.across, h.up, turn);
        const Blown t = blow(seen_in(f, h));
        REQUIRE(a.loads.cases.size() == t.loads.cases.size());
        const auto there = [&](const std::string& id) {
          for (const Side side : all_sides) {
            const std::string name(words(side));
            if (id.starts_with(name + ' '))
              return std::string(words(side_facing(f.seen(outward(side))))) + id.substr(name.size());
          }
          return id;
        };
        for (std::size_t k = 0; k < a.loads.cases.size(); k += 3) {
          const LoadCase &c = a.loads.cases[k], &d = find_case(t.loads, there(c.id));
          INFO(c.id << " turned by " << turn.quarter << (turn.mirror ? ", mirrored" : ""));
          for (int n = 0; n < 12; ++n) {
            const Point p{metres(x(rng)), metres(y(rng))};
            for (const bool soffit : {false, true}) {
              const auto here = net_at(a, c, p, soffit), seen = net_at(t, d, f.seen(p), soffit);
              REQUIRE(here.has_value() == seen.has_value());
              if (here) CHECK_THAT(seen->value(), WithinAbs(here->value(), 1e-6));
            }
          }
          const auto way = [&](const LoadCase& of, Way w) {
            const double f_along = push_total(of, is_across(w) ? Along::across : Along::up).value();
            return w == Way::right || w == Way::back ? f_along : -f_along;
          };
          for (const Way w : {Way::right, Way::back}) CHECK_THAT(way(d, f.seen(w)), WithinAbs(way(c, w), 1e-5));
        }
      }
    }
  }
}

// ---- the working ---------------------------------------------------------------------------------------------------

namespace {
// Roofs that lead through every rule: hips at both ends, at one, with a gable above; uneven; skillions; flat.
std::vector<House> one_of_each() {
  std::vector<House> all;
  const auto hip = [](double up, double pitch, std::vector<Side> ends) {
    return hipped(metres(12.0), metres(up), degrees(pitch), metres(0.5), std::move(ends));
  };
  const std::vector<Side> both{Side::left, Side::right};
  for (const double pitch : {7.5, 12.5, 22.5, 38.0, 50.0}) all.push_back(hip(8.0, pitch, both));
  all.push_back(hip(3.2, 17.5, {Side::right}));
  all.push_back(hip(8.0, 22.5, {Side::right}));
  all.push_back(hip(8.0, 22.5, both));
  all.back().roof.gable_above[at(Side::left)] = metres(2.0);
  all.push_back(hip(8.0, 22.5, both));
  all.back().roof.own_pitch = {degrees(35.0), degrees(17.5), degrees(8.0), degrees(23.0)};
  all.push_back(hip(8.0, 22.5, {Side::right}));
  all.back().roof.own_pitch = {std::nullopt, degrees(12.0), degrees(26.0), degrees(23.0)};
  for (const double pitch : {8.0, 17.5, 30.0}) {
    all.push_back(
        roofed(metres(12.0), metres(8.0), RoofShape::gable, Along::across, degrees(22.5), metres(0.5), metres(0.3)));
    all.back().roof.own_pitch[at(Side::back)] = degrees(pitch);
    all.back().roof.own_overhang[at(Side::left)] = metres(0.9);
  }
  all.push_back(
      roofed(metres(12.0), metres(8.0), RoofShape::gable, Along::across, degrees(7.0), metres(0.5), metres(0.3)));
  all.back().roof.own_pitch[at(Side::back)] = degrees(9.0);
  for (const double pitch : {6.0, 12.5, 23.0})
    for (const Side high : {Side::back, Side::left})
      all.push_back(skillion(metres(12.0), metres(7.0), degrees(pitch), high, metres(0.5), metres(0.3)));
  for (const double pitch : {0.0, 3.0}) {
    all.push_back(skillion(metres(12.0), metres(7.0), degrees(pitch), Side::right, metres(0.3), metres(0.3)));
    all.back().roof.shape = RoofShape::flat;
  }
  for (House& h : all) put(h, Side::front, opening(metres(3.0), metres(2.0), true, true, std::nullopt));
  for (std::size_t i = 0; i < all.size(); i += 2)
    put(all[i], Side::left, opening(metres(1.7), metres(2.0), true, true, std::nullopt));
  return all;
}
bool told(const Working& w, const std::string& symbol, Pressure p) {
  return std::any_of(w.steps.begin(), w.steps.end(),
                     [&](const Step& s) { return s.symbol == symbol && s.result == value(p); });
}
}  // namespace

TEST_CASE("one of each roof: the told case is the silent one, every pressure is told, nothing is an orphan") {
  std::vector<House> houses = one_of_each();
  std::mt19937 rng(43);
  for (int i = 0; i < (sanitized ? 5 : 30); ++i) houses.push_back(any_roof(rng, false));
  for (std::size_t n = 0; n < houses.size(); ++n)
    for (const SiteAsk& site : sites()) {
      const House h = under(houses[n], site);
      const Shape s = shape_of(h);
      const Table& t = table(table_for(site));
      const WindAsk ask{h.site, h, s, t};
      const Loads silent = method_for(site).loads(ask, nullptr, std::nullopt);
      for (std::size_t i = n % 7; i < silent.cases.size(); i += sanitized ? 71 : 7) {
        Working w(i % 2 == 0 ? metric : us);
        const Loads loud = method_for(site).loads(ask, &w, i);
        const LoadCase &c = loud.cases[i], &was = silent.cases[i];
        INFO("house " << n << ", " << t.named() << ": " << c.id);
        REQUIRE(c.id == was.id);
        REQUIRE(c.net == was.net);
        REQUIRE(c.net_small == was.net_small);
        REQUIRE(c.push.size() == was.push.size());
        for (std::size_t k = 0; k < c.push.size(); ++k) CHECK(c.push[k].p == was.push[k].p);
        CHECK_THAT(orphan(w), Equals(""));
        const Layout& layout = loud.layouts[c.layout];
        for (std::size_t k = 0; k < layout.zones.size(); ++k) {
          const std::string symbol = "p_" + layout.zones[k].label;
          CHECK(told(w, c.net_small.empty() ? symbol : symbol + ",l", c.net[k]));
          if (!c.net_small.empty()) CHECK(told(w, symbol + ",s", c.net_small[k]));
        }
        for (const Push& p : c.push) CHECK(told(w, "p_" + p.label, p.p));
        for (const SquareOn& p : c.square_on) CHECK(told(w, "p_sq," + p.label, p.p));
        std::map<std::string, Value> symbols;
        for (const Step& step : w.steps) {
          const auto [known, fresh] = symbols.emplace(step.symbol, step.result);
          INFO(step.symbol);
          CHECK((fresh || known->second == step.result));
        }
        // What is told from memory is marked, but where entries share a clause
        for (const Entry& e : t.entries) {
          if (!e.from_memory() || (c.marks & t.mark(e.key)) != 0) continue;
          if (std::any_of(t.entries.begin(), t.entries.end(), [&](const Entry& o) {
                return o.key != e.key && t.source(o.key) == t.source(e.key) && (c.marks & t.mark(o.key)) != 0;
              }))
            continue;
          const auto rests = [&](const std::string& symbol) {
            return std::any_of(w.steps.begin(), w.steps.end(), [&](const Step& step) {
              return step.symbol == symbol && step.kind == StepKind::lookup && step.source == t.source(e.key);
            });
          };
          for (const Push& p : c.push) {
            INFO(e.key);
            CHECK_FALSE(rests("C_pe," + p.label.substr(p.label.find(',') + 1)));
          }
        }
      }
    }
}

TEST_CASE("one of each roof: GNU Units works every printed step out again") {
  REQUIRE(recompute::units_works());
  for (const Units* units : {&metric, &us}) {
    std::vector<Step> steps;  // each once
    std::set<std::string> seen;
    for (const House& house : one_of_each())
      for (const SiteAsk& site : sites()) {
        const House h = under(house, site);
        const Shape s = shape_of(h);
        const WindAsk ask{h.site, h, s, table(table_for(site))};
        const std::size_t cases = method_for(site).loads(ask, nullptr, std::nullopt).cases.size();
        for (std::size_t i = 0; i < cases; i += sanitized ? 71 : 5) {
          Working w(*units);
          method_for(site).loads(ask, &w, i);
          for (const Step& step : w.steps)
            if (seen.insert(step.symbol + " = " + step.numbers).second) steps.push_back(step);
        }
      }
    const recompute::Outcome out = recompute::recompute(steps, *units);
    for (const std::string& miss : out.misses) UNSCOPED_INFO(miss);
    CHECK(out.misses.empty());
    CHECK(out.checked > 500);
  }
}

TEST_CASE("one of each roof: marks name the figures from memory behind each part") {
  const Table& t = table("methods/as-nzs-1170-2-2021.toml");
  const auto marks = [&](const Blown& b, const std::string& id) { return find_case(b.loads, id); };
  const std::vector<Side> both{Side::left, Side::right};
  const Blown hip = by_1170(hipped(metres(12.0), metres(8.0), degrees(17.5), metres(0.5), both));
  CHECK((marks(hip, "left shut 0 first").marks_net & t.mark("roof_downwind")) != 0);
  CHECK((marks(hip, "left shut 0 first").marks_net & t.mark("roof_flat")) == 0);
  CHECK((marks(hip, "left shut 0 first").marks_push & t.mark("wall_leeward_pitched")) != 0);
  const Blown half = by_1170(hipped(metres(12.0), metres(8.0), degrees(17.5), metres(0.5), {Side::right}));
  CHECK((marks(half, "left shut 0 first").marks_net & t.mark("roof_flat")) != 0);
  CHECK((marks(half, "left shut 0 first").marks_net & t.mark("roof_downwind")) != 0);
  CHECK((marks(half, "left shut 0 first").marks_push & t.mark("wall_leeward")) != 0);
  CHECK((marks(half, "left shut 0 first").marks_push & t.mark("wall_leeward_pitched")) != 0);
  const Blown one = by_1170(skillion(metres(12.0), metres(6.0), degrees(15.0), Side::back, metres(0.5), metres(0.3)));
  CHECK((marks(one, "front shut 0 first").marks_net & t.mark("roof_upwind")) != 0);
  CHECK((marks(one, "front shut 0 first").marks_net & t.mark("roof_downwind")) == 0);
  CHECK((marks(one, "back shut 0 first").marks_net & t.mark("roof_upwind")) == 0);
  CHECK((marks(one, "back shut 0 first roof").marks_push & t.mark("roof_downwind")) != 0);
  const Table& c = table("methods/as-4055-2021.toml");
  const Blown by_c = by_class(hipped(metres(12.0), metres(8.0), degrees(17.5), metres(0.5), both));
  CHECK((marks(by_c, "left press").marks_net & c.mark("roof_down_N")) != 0);
  CHECK((marks(by_c, "left class").marks_net & c.mark("roof_down_N")) == 0);
  CHECK((marks(by_c, "front class").marks_push & c.mark("downwind_side")) != 0);
  CHECK((marks(by_c, "left class").marks_push & c.mark("downwind_side")) == 0);
  CHECK((marks(by_class(skillion(metres(12.0), metres(6.0), degrees(15.0), Side::back, metres(0.5), metres(0.3))),
               "front class")
             .marks_push &
         c.mark("racking_gable")) != 0);
}
