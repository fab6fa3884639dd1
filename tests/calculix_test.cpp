// Reactions of trusses and plates against CalculiX, a finite-element engine that we did not write. It is not run here:
// the figures are those that it printed.
//
// CalculiX 2.20 (Debian 12: calculix-ccx 2.20-1), linear statics. Beam elements B32R (three nodes, shear-flexible,
// worked out as solids), 0.25 m long, of plates 0.05 m; a section of 20 by 20 mm, modulus 1e10 Pa, no lateral strain;
// the first bearing held along and upwards, the others upwards. Loads: on 1 m of roof, as pressures on the elements
// (P1); at a point, on a node. The level part of a pressure comes to beams over several bearings as couples on the
// nodes (Simpson's rule), to a simple truss by the slope of its rafters. Net uplift = the element load that goes
// straight into the node (q l / 6 from each element beside it) less the RF printed, which holds it.
// tests/reference/beam_over_three_bearings.inp is one of the models, to run again; the others are made like it.
#include "load_path/roof.hpp"
#include "load_path/set_out.hpp"
#include "quantities.hpp"
#include "wind_house.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fmt/format.h>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;

namespace {

// A stretch of the roof over a beam along y, with the pressure up and out on it. Level, or a slope that falls to the
// front or the back, to its foot. narrow: how broad it is at `from`; at `to` 1 m.
struct Stretch {
  double from, to, pull;
  Way falls = Way::front;
  double pitch = 0.0, foot = 0.0, narrow = 1.0;
};
// N at each bearing, for 1 m of roof.
std::vector<double> on_bearings(const std::vector<double>& places, const std::vector<Stretch>& roof) {
  House h =
      gable(metres(12.0), metres(12.0), metres(2.4), Along::across, zero<Angle>(), zero<Length>(), zero<Length>());
  h.trusses.clear();
  Shape s = shape_of(h);
  s.surfaces.clear();
  Layout layout{"by hand", {}};
  LoadCase k{};
  k.combination = {"the wind alone", "a test", 0.0, 1.0};
  for (const Stretch& t : roof) {
    Polygon part{{metres(0.5), metres(t.to)}, {metres(-0.5), metres(t.to)}, {metres(-0.5 * t.narrow), metres(t.from)}};
    if (t.narrow > 0.0) part.push_back({metres(0.5 * t.narrow), metres(t.from)});
    layout.zones.push_back({s.surfaces.size(), part, fmt::format("{}", s.surfaces.size())});
    s.surfaces.push_back({Part::roof, part, degrees(t.pitch), t.falls, metres(t.foot), side_facing(t.falls)});
    k.net.push_back(Pressure::from_value(-t.pull));
  }
  const Loads l{Basis::limit_state, {layout}, {k}, {}};
  Members all;
  Member beam{MemberKind::truss, "T1", "T1", {}, {}, 1, {}, {}, {}, {}, {}, {}, {}};
  beam.from = {zero<Length>(), metres(places.front())};
  beam.to = {zero<Length>(), metres(places.back())};
  beam.carries = {{-everywhere, everywhere, -everywhere, everywhere, every_way, false}};
  for (std::size_t i = 0; i < places.size(); ++i) {
    beam.bearings.push_back(i);
    all.bearings.push_back({0, metres(places[i] - places.front()), {}, std::nullopt, zero<Length>(), "T1"});
  }
  all.members = {beam};
  all.from_top = {0};
  const RoofForces forces(h, s, l, all);
  std::vector<double> r;
  for (std::size_t i = 0; i < places.size(); ++i) r.push_back(forces.exact_uplift(0, i).value());
  return r;
}

// within: of all reactions' sizes together. by_moments: the digits printed (7). The elements bend by shear as well,
// which counts as 2.35 (depth / span)^2 beside 1: 2.4e-4 at the shortest span of a truss here (2 m), 1.2e-3 of a plate
// (0.9 m). What was seen is a tenth of that.
constexpr double by_moments = 1e-6, on_trusses = 2.4e-4, on_plates = 1.2e-3;
void check_each(const std::vector<double>& ours, const std::vector<double>& theirs, double within) {
  REQUIRE(ours.size() == theirs.size());
  double size = 0.0;
  for (const double x : theirs) size += std::abs(x);
  for (std::size_t i = 0; i < ours.size(); ++i) {
    INFO("bearing " << i + 1);
    CHECK_THAT(ours[i], WithinAbs(theirs[i], within * size));
  }
}

}  // namespace

TEST_CASE("a simple truss past both walls, as a pitched frame of rafters and a tie in CalculiX") {
  // Bearings 8 m apart, eaves 0.6 m in front and 0.9 m behind, 25 degrees, the ridge in the middle. Pressures square to
  // the rafters: the engine itself finds their level parts.
  const auto pulled = [](double eaves, double front, double back, double eaves_behind) {
    return on_bearings({0.0, 8.0}, {{-0.6, 0.0, eaves, Way::front, 25.0, 0.0},
                                    {0.0, 4.0, front, Way::front, 25.0, 0.0},
                                    {4.0, 8.0, back, Way::back, 25.0, 8.0},
                                    {8.0, 8.9, eaves_behind, Way::back, 25.0, 8.0}});
  };
  check_each(pulled(1000.0, 1000.0, 1000.0, 1000.0), {4565.759, 4934.241}, by_moments);
  check_each(pulled(2000.0, -400.0, 1200.0, 0.0), {1602.694, 2797.307}, by_moments);
  // Of the front slope the stretch from 1 to 3 m alone
  check_each(on_bearings({0.0, 8.0}, {{1.0, 3.0, 1000.0, Way::front, 25.0, 0.0}}), {1391.279, 608.721}, by_moments);
}

TEST_CASE("a truss over three bearings of uneven spans, as in CalculiX") {
  const std::vector<double> at{0.0, 3.0, 8.0};
  check_each(on_bearings(at, {{-0.6, 8.6, 1000.0}}), {1398.342, 5122.651, 2679.005}, on_trusses);
  check_each(on_bearings(at, {{4.0, 6.5, 1000.0}}), {-454.747, 2102.594, 852.152}, on_trusses);
  check_each(on_bearings(at, {{-0.6, 0.0, 1000.0}}), {671.249, -77.999, 6.750}, on_trusses);
}

TEST_CASE("a truss over four bearings of uneven spans, as in CalculiX") {
  const std::vector<double> at{0.0, 2.0, 5.5, 9.0};
  check_each(on_bearings(at, {{-0.5, 9.8, 1000.0}}), {1197.593, 2898.414, 3925.073, 2278.918}, on_trusses);
  check_each(on_bearings(at, {{2.5, 7.0, 1000.0}}), {-305.057, 1499.543, 3249.631, 55.882}, on_trusses);
  check_each(on_bearings(at, {{5.5, 9.8, 1000.0}}), {118.493, -399.021, 2151.917, 2428.611}, on_trusses);
  // A load that rises from nothing at the first bearing to 1 kN/m at the last: in CalculiX by steps of 0.1 m
  check_each(on_bearings(at, {{0.0, 9.0, 1000.0, Way::front, 0.0, 0.0, 0.0}}), {10.504, 605.668, 2619.035, 1264.793},
             on_trusses);
}

TEST_CASE("the level part of a pressure turns a truss over several bearings, as couples do in CalculiX") {
  // 9 m between the outside bearings, eaves of 0.5 m, 25 degrees, the ridge in the middle.
  const auto pulled = [](const std::vector<double>& at, double front, double back) {
    return on_bearings(at, {{-0.5, 4.5, front, Way::front, 25.0, 0.0}, {4.5, 9.5, back, Way::back, 25.0, 9.0}});
  };
  const std::vector<double> three{0.0, 4.0, 9.0}, four{0.0, 2.5, 6.0, 9.0};
  check_each(pulled(three, 1000.0, 0.0), {1867.356, 3203.871, -71.229}, on_trusses);
  // beam_over_three_bearings.inp
  check_each(pulled(three, -400.0, 1200.0), {-1196.840, 2450.128, 2746.712}, on_trusses);
  check_each(pulled(four, 1000.0, 0.0), {1177.921, 2941.061, 1035.791, -154.775}, on_trusses);
  check_each(pulled(four, -400.0, 1200.0), {-619.902, -437.046, 3299.668, 1757.280}, on_trusses);
}

TEST_CASE("a plate over four anchors hands on a pull at a stud, as in CalculiX") {
  const std::vector<Length> anchors{metres(0.15), metres(1.05), metres(2.25), metres(3.45)};
  const std::vector<std::pair<double, std::vector<double>>> of_1000_N{
      {0.0, {1205.099, -241.126, 43.230, -7.203}}, {0.6, {413.484, 667.619, -97.317, 16.215}},
      {1.2, {-71.501, 982.770, 106.088, -17.357}}, {1.8, {-93.142, 460.253, 710.633, -77.745}},
      {2.4, {21.019, -91.985, 1001.168, 69.798}},  {3.0, {33.031, -144.549, 573.264, 538.254}},
      {3.6, {-12.808, 56.052, -201.881, 1158.637}}};
  for (const auto& [x, theirs] : of_1000_N) {
    INFO("pulled at " << x);
    std::vector<double> ours = exact_continuous_shares(anchors, metres(x));
    for (double& share : ours) share *= 1000.0;
    check_each(ours, theirs, on_plates);
  }
}
