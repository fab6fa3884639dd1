// Two floors: what comes down from the first floor to the ground, with figures worked out by hand. AS 4055 N3 on a
// house of 12 m by 7.8 m under a gable of 22.5 degrees: 1.44 kPa push on its gable ends, 1.35 kPa square on to a wall;
// walls of 2.7 m below and 2.55 m above a floor of 0.35 m. Invented houses.
#include "houses.hpp"
#include <catch2/catch.hpp>
#include <cmath>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double exact = 1e-9;

// A roof so heavy that nothing lifts it: what the first floor's fixings hand down is tipping alone.
Draft heavy(Draft d = two_floor_box()) {
  d.weight = "\"2.0 kPa\"";
  return d;
}
// Both walls A as given: the ground floor's, the first floor's.
Draft fronts(const std::string& ground, const std::string& first, Draft d = heavy()) {
  d.mark("D1", "\"2100 x 820\"").mark("W1", "\"1200 x 1800\"");
  d.wall("A", "\"" + ground + "\"").first_wall("A", "\"" + first + "\"");
  return d;
}
// The fixing of a wall whose place is nearest to that.
std::size_t support_at(const Built& b, const std::string& wall, double millimetres_from_start) {
  const auto& all = b.forces.walls[b.wall_at(wall)].supports;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (std::abs(all[i].at / mm(1.0) - millimetres_from_start) < 0.5) return i;
  throw std::runtime_error(fmt::format("no fixing of wall {} at {}", wall, millimetres_from_start));
}
double pull_at(const Built& b, std::size_t c, const std::string& wall, double at) {
  return in_kN(b.forces.pull(c, b.wall_at(wall), support_at(b, wall, at)));
}
double landed_at(const Built& b, std::size_t c, const std::string& wall, double at) {
  return in_kN(b.forces.roof_on(c, b.wall_at(wall), support_at(b, wall, at)));
}

// From the left, to lines A and C alike.
//   first floor: from its walls' mid-height, 5.6 - 1.275 = 4.325 m, up: 7.8 * 1.275 = 9.945 m2 of wall and a gable of
//     7.8 * 3.9 * tan 22.5 / 2 m2;
//   ground floor: its own band from 1.35 m to 4.325 m, 7.8 * 2.975 = 23.205 m2, and the line above.
const double first_line = 1.44 * (9.945 + 7.8 * 3.9 * std::tan(std::numbers::pi / 8.0) / 2.0) / 2.0;  // 11.70 kN
const double ground_line = 1.44 * 23.205 / 2.0 + first_line;  // 16.71 + 11.70 = 28.40 kN

}  // namespace

TEST_CASE("two floors: the force on a line of each floor by hand") {
  CHECK_THAT(first_line, WithinAbs(11.70, 0.005));
  CHECK_THAT(ground_line, WithinAbs(28.40, 0.005));
  const Built b(two_floor_box());
  for (const char* letter : {"A", "C"}) {
    const std::string name = letter;
    for (const auto& [id, sign] : {std::pair("left class", 1.0), {"right class", -1.0}}) {
      const std::size_t c = b.case_at(id);
      CHECK_THAT(in_kN(b.forces.line_force(c, b.line_at("first " + name))), WithinRel(sign * first_line, exact));
      CHECK_THAT(in_kN(b.forces.line_force(c, b.line_at("ground " + name))), WithinRel(sign * ground_line, exact));
    }
    CHECK_THAT(in_kN(demand(b.link("line ground " + name + " to the right"), "racking")),
               WithinRel(ground_line, exact));
    CHECK_THAT(in_kN(demand(b.link("line first " + name + " to the left"), "racking")), WithinRel(first_line, exact));
  }
  // What makes it up: its own push, and the line above it
  const LinkPart& racking = part(b.link("line ground A to the right"), "racking");
  REQUIRE(racking.made_of.size() == 2);
  CHECK(racking.made_of[1].from == "first A");
  CHECK_THAT(racking.made_of[1].value.si / 1000.0, WithinRel(first_line, exact));
}

TEST_CASE("two floors: an inside line of the first floor within 150 mm of the ground floor's stands on it") {
  // Off by 151 mm the lines beside it share it as by simple spans, and the nearest is asked for all of it
  Draft d = two_floor_box();
  d.wall("E", "{ from_front = 3900, run = \"B 3 m | 9 m\" }");
  for (const auto& [place, stands] : {std::pair(3900, true), {4050, true}, {4051, false}, {3749, false}}) {
    INFO(place);
    d.first_wall("E", fmt::format("{{ from_front = {}, run = \"B 3 m | 9 m\" }}", place));
    const Built b(d);
    const auto below = b.forces.line_below(b.line_at("first E"));
    REQUIRE(below.has_value() == stands);
    if (stands) CHECK(*below == b.line_at("ground E"));
    const Force v = b.forces.line_force(b.case_at("left class"), b.line_at("first E"));
    const auto handed = [&](const char* line) {
      double sum = 0.0;
      for (const Piece_of_demand& p : b.forces.line_made_of(b.case_at("left class"), b.line_at(line)))
        if (p.from == "first E") sum += in_kN(p.value);
      return sum / in_kN(v);
    };
    const double past = (place - 3900) / 3900.0;
    CHECK_THAT(handed("ground E"), WithinRel(1.0, exact));
    CHECK_THAT(handed("ground A"), WithinAbs(!stands && past < 0.0 ? -past : 0.0, exact));
    CHECK_THAT(handed("ground C"), WithinAbs(!stands && past > 0.0 ? past : 0.0, exact));
  }
}

TEST_CASE("two floors: a brace on each floor tips about its own height, the ground floor's with the floor's depth") {
  // Two braces of 1.8 m on each line: half of the line's force each. Arm: 1.8 - 0.1 - 0.025 = 1.675 m.
  Draft d = fronts("B 1.8 m | 8.4 m | B 1.8 m", "B 1.8 m | 8.4 m | B 1.8 m");
  const double arm = 1.675, tip_first = first_line / 2.0 * 2.55 / arm,  //  8.90 kN
      tip_ground = ground_line / 2.0 * (2.7 + 0.35) / arm;              // 25.86 kN
  const Built b(d);
  const std::size_t c = b.case_at("left class");
  REQUIRE_THAT(b.forces.arm(b.brace_at("ground A1")) / metres(1.0), WithinRel(arm, exact));
  CHECK_THAT(in_kN(b.forces.tip(c, b.brace_at("first A1"))), WithinRel(tip_first, exact));
  CHECK_THAT(in_kN(b.forces.tip(c, b.brace_at("ground A1"))), WithinRel(tip_ground, exact));
  // Upper and lower hold-down stand on one place, 100 mm from the end: the lower one pulls for both
  CHECK_THAT(pull_at(b, c, "first A", 100.0), WithinRel(tip_first, exact));
  CHECK_THAT(pull_at(b, c, "ground A", 100.0), WithinRel(tip_ground + tip_first, exact));
  CHECK_THAT(pull_at(b, c, "ground A", 10300.0), WithinRel(tip_ground + tip_first, exact));  // the other brace's
  // and the other end is pressed by both
  CHECK_THAT(in_kN(b.forces.press(c, b.brace_at("ground A1"), End::right)), WithinRel(tip_ground + tip_first, exact));
  CHECK(b.forces.press(c, b.brace_at("ground A1"), End::left) == zero<Force>());
  CHECK_THAT(in_kN(b.forces.press(c, b.brace_at("first A1"), End::right)), WithinRel(tip_first, exact));
  // Each wall's own weight of 0.25 kPa holds its own brace down: 0.9 g h L (L / 2 - 0.025) / z
  d.wall_weight = "\"0.25 kPa\"";
  const Built w(d);
  const auto relief = [&](double h) { return 0.9 * 0.25 * h * 1.8 * (0.9 - 0.025) / arm; };
  CHECK_THAT(pull_at(w, c, "first A", 100.0), WithinRel(tip_first - relief(2.55), exact));  // 0.54 kN less
  CHECK_THAT(pull_at(w, c, "ground A", 100.0),
             WithinRel(tip_ground - relief(2.7) + tip_first - relief(2.55), exact));  // 1.11 kN less
}

TEST_CASE("two floors: a brace above presses no end of a brace below that stands past 150 mm from its own") {
  const double arm = 1.675, tip_first = first_line / 2.0 * 2.55 / arm, tip_ground = ground_line / 2.0 * 3.05 / arm;
  for (const auto& [off, reaches] : {std::pair(150, true), {151, false}}) {
    const std::string first = fmt::format("{} | B 1800 | {} | B 1800 | {}", off, 8400 - 2 * off, off);
    const Built b(fronts("B 1800 | 8400 | B 1800", first));
    INFO(first);
    CHECK_THAT(in_kN(b.forces.press(b.case_at("left class"), b.brace_at("ground A1"), End::right)),
               WithinRel(tip_ground + (reaches ? tip_first : 0.0), exact));
    // What comes to no brace's end below is told in a link of its own
    const auto own = std::find_if(b.result.links.begin(), b.result.links.end(),
                                  [](const Link& l) { return l.where.words == "compression below first A1 right"; });
    REQUIRE((own != b.result.links.end()) == !reaches);
    if (!reaches) CHECK_THAT(in_kN(demand(*own, "press")), WithinRel(tip_first, exact));
  }
}

TEST_CASE("two floors: a hold-down that stands off the one below goes by the lever rule, over a door to its jambs") {
  // Below: a plate from 0 to 1300 with a hold-down at 100 and 1200, then a door of 820. Above: a brace of 1200 from
  // 300, its hold-downs at 400 and at 1400, the latter over the door.
  const Built b(fronts("B 1300 | D1 | 7760 | D1 | B 1300", "300 | B 1200 | 9000 | B 1200 | 300"));
  const double arm_first = 1.2 - 0.125, arm_ground = 1.3 - 0.125, tip_first = first_line / 2.0 * 2.55 / arm_first,
               tip_ground = ground_line / 2.0 * 3.05 / arm_ground;  // 13.87 and 36.86 kN
  const std::size_t left = b.case_at("left class"), right = b.case_at("right class");
  REQUIRE(b.forces.walls[b.wall_at("ground A")].plates.front().supports.size() == 2);
  CHECK_THAT(pull_at(b, left, "first A", 400.0), WithinRel(tip_first, exact));
  // at 400, between 100 and 1200: 8/11 and 3/11
  CHECK_THAT(pull_at(b, left, "ground A", 100.0), WithinRel(tip_ground + tip_first * 8.0 / 11.0, exact));
  CHECK_THAT(pull_at(b, left, "ground A", 1200.0), WithinRel(tip_first * 3.0 / 11.0, exact));
  // at 1400, on a lintel from 1300 to 2120: 720/820 to the jamb that the hold-down at 1200 serves, 100/820 to the other
  CHECK_THAT(pull_at(b, right, "first A", 1400.0), WithinRel(tip_first, exact));
  CHECK_THAT(pull_at(b, right, "ground A", 1200.0), WithinRel(tip_ground + tip_first * 720.0 / 820.0, exact));
  CHECK_THAT(landed_at(b, right, "ground A", 2220.0), WithinRel(tip_first * 100.0 / 820.0, exact));
  CHECK(pull_at(b, right, "ground A", 100.0) == 0.0);
  // and pressed, the brace's end at 1500: 620/820 to the jamb at 1300, where the lower brace ends
  CHECK_THAT(in_kN(b.forces.press(left, b.brace_at("ground A1"), End::right)),
             WithinRel(tip_ground + tip_first * 620.0 / 820.0, exact));
  // and the links of the stud beside the door say so
  const LinkPart& pull = part(b.link("stud tie ground A jamb D1 at 2120"), "pull");
  const auto from_above = std::find_if(pull.made_of.begin(), pull.made_of.end(),
                                       [](const MadeOf& m) { return m.from == "first A1 right"; });
  REQUIRE(from_above != pull.made_of.end());
  CHECK(from_above->what == "first floor over the opening");
  CHECK_THAT(from_above->value.si / 1000.0, WithinRel(tip_first * 100.0 / 820.0, 0.02));
}

TEST_CASE("two floors: what stands over a window below goes to both its jambs as on a simple span") {
  // A window of 1800 from 3000; above, a brace from 3500 to 4700: pulled ends at 3600 and 4600.
  const Built b(fronts("B 1200 | 1800 | W1 | 6000 | B 1200", "3500 | B 1200 | 7300"));
  const double tip_first = first_line * 2.55 / 1.075;  // 27.74 kN: one brace on its line
  const auto stud = [&](const char* words) -> std::size_t {
    for (std::size_t i = 0; i < b.forces.studs.size(); ++i)
      if (b.forces.stud_words(b.forces.studs[i]) == words) return i;
    throw std::runtime_error(words);
  };
  for (const auto& [id, from_left] : {std::pair("left class", 600.0), {"right class", 1600.0}}) {
    const std::size_t c = b.case_at(id);
    CHECK_THAT(in_kN(b.forces.stud_uplift(c, stud("ground A jamb W1 left"))),
               WithinRel(tip_first * (1800.0 - from_left) / 1800.0, exact));
    CHECK_THAT(in_kN(b.forces.stud_uplift(c, stud("ground A jamb W1 right"))),
               WithinRel(tip_first * from_left / 1800.0, exact));
  }
}

TEST_CASE("two floors: a floor tie holds what the fixing above pulls; one that goes through the floor is its own tie") {
  const std::string run = "B 1.8 m | 8.4 m | B 1.8 m";
  Draft d = fronts(run, run);
  const double tip_first = first_line / 2.0 * 2.55 / 1.675;  // 8.90 kN, and what little the lightest case lifts here
  const Built through(d);
  double pulled = 0.0;
  for (std::size_t c = 0; c < through.loads.cases.size(); ++c)
    pulled = std::max(pulled, pull_at(through, c, "first A", 100.0));
  REQUIRE_THAT(pulled, WithinAbs(tip_first, 0.3));
  const Link& own = through.link("floor tie first A1 left");
  CHECK(own.fixing.name == "demo-through");
  CHECK_THAT(in_kN(demand(own, "pull")), WithinRel(pulled, exact));
  CHECK_THAT(own.use.value().value, WithinRel(pulled / 90.0, exact));
  d.noted_on_first("hold_down", "\"demo-screw\"");
  const Built screwed(d);
  const Link& tie = screwed.link("floor tie first A1 left");
  CHECK(tie.fixing.name == "demo-tie");
  CHECK_THAT(tie.use.value().value, WithinRel(pulled / 60.0, exact));
  CHECK(tie.verdict == Verdict::pass);
  // The hold-down through the floor answers for itself even where no floor tie is given; screws do not
  d.noted("floor_tie", "");
  CHECK(Built(d).link("floor tie first A1 left").why.code == "no-fixing");
  d.noted_on_first("hold_down", "\"demo-through\"");
  CHECK(Built(d).link("floor tie first A1 left").verdict == Verdict::pass);
}

TEST_CASE("two floors: the floor's fixings along a line count one for each of their greatest spaces") {
  // Each takes its part of the line's 28.40 kN, and square on, over its part of 12 m, half of the wall's height of
  // 1.35 kPa; both as one against 60 kN
  Draft d = two_floor_box();
  for (const auto& [spacing, n] : {std::pair("0.6 m", 20.0), {"1.3 m", 9.0}, {"1.2 m", 10.0}, {"3 m", 4.0}}) {
    INFO(spacing);
    d.noted("floor_fixing", fmt::format("{{ use = \"demo-screw\", max = \"{}\" }}", spacing));
    const Built b(d);
    const Link& l = b.link("floor to line ground A");
    const double along = ground_line / n, across = 1.35 * 2.7 / 2.0 * 12.0 / n;
    CHECK(l.kind == "floor fixing");
    CHECK_THAT(in_kN(demand(l, "along")), WithinRel(along, exact));
    CHECK_THAT(in_kN(demand(l, "across")), WithinRel(across, exact));
    CHECK_THAT(in_kN(demand(l, "slide")), WithinRel(std::hypot(along, across), exact));
    CHECK_THAT(l.use.value().value, WithinRel(std::hypot(along, across) / 60.0, exact));
  }
}

TEST_CASE("two floors: the wind square on to a wall pushes by that floor's own height") {
  const Built b(two_floor_box());
  const std::size_t c = b.case_at("front class");
  // Anchors at every 1.18 m: 1.35 kPa * half of the wall's height * 1.18 m
  for (const auto& [wall, height] : {std::pair("ground A", 2.7), {"first A", 2.55}})
    CHECK_THAT(in_kN(b.forces.across(c, b.wall_at(wall), support_at(b, wall, 2460.0))),
               WithinRel(1.35 * height / 2.0 * 1.18, exact));
  // A truss bears on the first floor's wall: the upper half of that wall, over 0.9 m
  CHECK_THAT(in_kN(b.forces.bracket_across(c, b.bearing_at("T1 at 3600 front"))),
             WithinRel(1.35 * 2.55 / 2.0 * 0.9, exact));
}

TEST_CASE("two floors: the roof's uplift comes down through both floors where studs stand on one another") {
  // Alike on both floors, without racking along A: what is pulled at a fixing above is pulled at the one below
  const Built b(two_floor_box());
  const std::size_t c = b.case_at("front class"), above = b.wall_at("first A"), below = b.wall_at("ground A");
  REQUIRE(b.forces.walls[above].supports.size() == b.forces.walls[below].supports.size());
  Force all = zero<Force>();
  for (std::size_t i = 0; i < b.forces.walls[above].supports.size(); ++i) {
    CHECK_THAT(in_kN(b.forces.pull(c, below, i)), WithinRel(in_kN(b.forces.pull(c, above, i)), exact));
    all += b.forces.pull(c, below, i);
  }
  CHECK(all > kilonewtons(10.0));
}
