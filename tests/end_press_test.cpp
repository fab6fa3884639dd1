// What presses on the studs at a brace's end, put together by hand beside what the program says: which of the roof
// comes there and in what part stands in the tests; what each bearing presses and how a brace tips is tested elsewhere.
#include "houses.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

constexpr const char* by_asce =
    "method = \"ASCE 7-16\"\nspeed = \"130 mph\"\nspeed_is = \"ultimate\"\nexposure = \"C\"\nrisk = \"II\"\nlevel = "
    "\"strength\"\ntopography = \"flat\"\ngiven_by = \"a test\"";

const std::string studs_of(const std::string& press, const std::string& height = "2.7 m") {
  return "[[end_studs]]\nname = \"demo-studs\"\npress = \"" + press + "\"\ngreatest_height = \"" + height +
         "\"\nbasis = \"design\"\n";
}
// 12 m by 7.8 m, a truss every 900 mm from the left and a last one at 12 m; walls of 2.7 m, 0.30 kPa.
Draft pressed(const std::string& front, const std::string& press = "60 kN") {
  Draft d = closed_box();
  d.wall_weight = "\"0.30 kPa\"";
  d.fixing(studs_of(press)).noted("end_studs", "\"demo-studs\"");
  d.wall("A", front);
  return d;
}
// Tipping, so much of each bearing, and the weight of 1.2 * 0.30 kPa * 2.7 m of wall, under a gable to its top at
// 2.7 + 3.9 tan 22.5 = 4.3154 m, in one case. The class knows what
// presses in cases of their own: of any the worst.
double by_hand(const Built& b, const Link& l, const std::string& brace, End e,
               const std::map<std::string, double>& parts, double factor, double width, double height = 2.7) {
  const std::size_t c = b.case_at(l.load_case);
  double sum = b.forces.press(c, b.brace_at(brace), e).value() + factor * 300.0 * height * width;
  for (const auto& [words, part] : parts) {
    Force most = zero<Force>();
    for (std::size_t k = 0; k < b.loads.cases.size(); ++k)
      if (b.loads.cases[c % b.loads.cases.size()].down.name.empty() || k == c % b.loads.cases.size())
        most = std::max(most, b.forces.roof.press(k, b.bearing_at(words)));
    sum += part * most.value();
  }
  return sum;
}
const double to_the_ridge = 2.7 + 3.9 * (std::sqrt(2.0) - 1.0);
double press_of(const Link& l) { return part(l, "press").demand.si; }

}  // namespace

TEST_CASE("trusses within 600 mm of a brace's end press on it whole, others over the brace by their lever") {
  const Built b(pressed("\"B 1200 | 10800\""));
  // The end at 1200: trusses at 900 and 1800 within reach, that at 0 stands over the other end. Wall: 600 + 600 mm.
  const Link& right = b.link("compression A1 right");
  CHECK(right.verdict == Verdict::pass);
  CHECK_THAT(press_of(right), WithinRel(by_hand(b, right, "A1", End::right,
                                                {{"T1 at 900 front", 1.0}, {"T1 at 1800 front", 1.0}}, 1.2, 1.2),
                                        1e-12));
  // The end at 0: the truss there; that at 900 over the brace, (1200 - 900) / 1200.
  const Link& left = b.link("compression A1 left");
  CHECK_THAT(press_of(left),
             WithinRel(by_hand(b, left, "A1", End::left, {{"T1 at 0 front", 1.0}, {"T1 at 900 front", 0.25}}, 1.2, 1.2),
                       1e-12));
  double sum = 0.0;
  for (const MadeOf& m : part(left, "press").made_of) sum += m.value.si;
  CHECK_THAT(sum, WithinRel(press_of(left), 1e-12));
  CHECK(left.load_case.combination == "1.2 G + W");
}

TEST_CASE("a lintel beside a brace brings its share, and half of the wall over the opening") {
  Draft d = pressed("\"B 1200 | D1 3000 | 7800\"");
  d.mark("D1", "{ size = \"2100 x 3000\", wind_rated = \"N3\" }");
  const Built b(d);
  // Trusses at 2700 and 3600 over the opening from 1200 to 4200: 1500 / 3000 and 600 / 3000. Wall: 600 + 1500 mm.
  const Link& l = b.link("compression A1 right");
  CHECK_THAT(press_of(l), WithinRel(by_hand(b, l, "A1", End::right,
                                            {{"T1 at 900 front", 1.0},
                                             {"T1 at 1800 front", 1.0},
                                             {"T1 at 2700 front", 0.5},
                                             {"T1 at 3600 front", 0.2}},
                                            1.2, 2.1),
                                    1e-12));
}

TEST_CASE("a lintel that comes down within 600 mm of a brace's end brings its share, round a corner too") {
  // 300 mm on: trusses at 2700 and 3600 over the opening from 1500 to 4500. Wall: 600 mm and 1800 to its middle.
  Draft beyond = pressed("\"B 1200 | 300 | D1 3000 | 7500\"");
  beyond.mark("D1", "{ size = \"2100 x 3000\", wind_rated = \"N3\" }");
  const Built b(beyond);
  const Link& l = b.link("compression A1 right");
  CHECK_THAT(press_of(l), WithinRel(by_hand(b, l, "A1", End::right,
                                            {{"T1 at 900 front", 1.0},
                                             {"T1 at 1800 front", 1.0},
                                             {"T1 at 2700 front", 0.6},
                                             {"T1 at 3600 front", 0.3}},
                                            1.2, 2.4),
                                    1e-12));
  // From the corner on, in the front: trusses at 900, 1800 and 2700 over 3000, one jamb at the end of the side's brace.
  Draft round = pressed("\"D1 3000 | 600 | B 1200 | 7200\"");
  round.mark("D1", "{ size = \"2100 x 3000\", wind_rated = \"N3\" }").wall("D", "\"B 1200 | 6600\"");
  const Built r(round);
  const Link& corner = r.link("compression D1 front");
  CHECK_THAT(press_of(corner), WithinRel(by_hand(r, corner, "D1", End::left,
                                                 {{"T1 at 0 front", 1.0},
                                                  {"T1 at 0 back", 1.2 / 7.8},
                                                  {"T1 at 900 front", 0.7},
                                                  {"T1 at 1800 front", 0.4},
                                                  {"T1 at 2700 front", 0.1}},
                                                 1.2, 1.2, to_the_ridge),
                                         1e-12));
}

TEST_CASE("at a gable's corner the end truss presses, and may stand on the wall all along") {
  Draft d = pressed("\"B 12 m\"");
  d.wall("B", "\"B 1200 | 6600\"");
  const Built b(d);
  // Trusses at 12 m and 11.7 m bear within 600 mm of the corner; the one at 12 m lies along the wall: of its other
  // bearing (600 + 600) / 7800.
  const Link& front = b.link("compression B1 front");
  CHECK_THAT(
      press_of(front),
      WithinRel(by_hand(b, front, "B1", End::left,
                        {{"T1 at 12000 front", 1.0}, {"T1 at 11700 front", 1.0}, {"T1 at 12000 back", 1.2 / 7.8}}, 1.2,
                        1.2, to_the_ridge),
                1e-12));
  const Link& back = b.link("compression B1 back");
  CHECK_THAT(press_of(back), WithinRel(by_hand(b, back, "B1", End::right,
                                               {{"T1 at 12000 front", 1.2 / 7.8}, {"T1 at 12000 back", 1.2 / 7.8}}, 1.2,
                                               1.2, to_the_ridge),
                                       1e-12));
}

TEST_CASE("a method whose every case presses is taken case by case") {
  Draft d = pressed("\"B 1200 | 10800\"");
  d.site = by_asce;
  const Built b(d);
  const Link& l = b.link("compression A1 right");
  const LoadCase& k = b.loads.cases[b.case_at(l.load_case) % b.loads.cases.size()];
  REQUIRE_FALSE(k.down.name.empty());
  REQUIRE(k.down.wind == k.combination.wind);  // so the tipping counts as it is reckoned
  CHECK_THAT(press_of(l), WithinRel(by_hand(b, l, "A1", End::right,
                                            {{"T1 at 900 front", 1.0}, {"T1 at 1800 front", 1.0}}, k.down.dead, 1.2),
                                    1e-12));
  CHECK(l.load_case.combination == k.down.name);
}

TEST_CASE("the studs' sheet decides, on its conditions") {
  const Built b(pressed("\"B 1200 | 10800\""));
  const double most = press_of(b.link("compression A1 right"));
  const auto verdict = [](const Draft& d) { return Built(d).link("compression A1 right").verdict; };
  CHECK(verdict(pressed("\"B 1200 | 10800\"", fmt::format("{} N", most * 1.0001))) == Verdict::pass);
  const Built weak(pressed("\"B 1200 | 10800\"", fmt::format("{} N", most * 0.9999)));
  CHECK(weak.link("compression A1 right").verdict == Verdict::fail);
  CHECK(weak.link("compression A1 right").why.code == "too-weak");
  // Who answers for what is not judged does not answer for what fails.
  Draft others = pressed("\"B 1200 | 10800\"", "1 kN");
  others.by_others = {{"compression", "\"somebody\""}};
  CHECK(verdict(others) == Verdict::fail);
  Draft low = closed_box();
  low.wall_weight = "\"0.30 kPa\"";
  low.fixing(studs_of("60 kN", "2.6 m")).noted("end_studs", "\"demo-studs\"").wall("A", "\"B 1200 | 10800\"");
  CHECK(Built(low).link("compression A1 right").why.code == "condition-unmet");
  // A mark's own entry stands before what holds unless noted.
  Draft own = pressed("\"B 1200 | 10800\"", "1 kN");
  own.fixing(
         "[[end_studs]]\nname = \"demo-strong\"\npress = \"90 kN\"\ngreatest_height = \"3 m\"\nbasis = \"design\"\n")
      .mark("B", "{ brace = \"demo-sheet\", hold_down = \"demo-rod\", end_studs = \"demo-strong\" }");
  CHECK(verdict(own) == Verdict::pass);
}

TEST_CASE("what presses is judged only where all of it is known") {
  const auto open = [](const Draft& d, const std::string& link, const std::string& code) {
    const Built b(d);
    const Link& l = b.link(link);
    INFO(link << ": " << l.why.code << " " << l.why.subject);
    CHECK(l.verdict == Verdict::not_judged);
    CHECK(l.why.code == code);
    CHECK_FALSE(part(l, "press").use.has_value());
    return l.why.subject;
  };
  Draft no_weight = pressed("\"B 1200 | 10800\"");
  no_weight.wall_weight = "";
  open(no_weight, "compression A1 right", "condition-not-stated");
  Draft none = pressed("\"B 1200 | 10800\"");
  none.noted("end_studs", "");
  open(none, "compression A1 right", "no-fixing");
  // A brace that does not count (too short for its sheet) is stiff all the same
  open(pressed("\"B 600 | 11400\""), "compression A1 right", "brace-does-not-count");
  // Under a truss that is clear of the outside wall past it
  Draft porch = pressed("\"B 3000 | 9000\"");
  porch.mark("P1", "{ size = \"2100 x 3600\", open = true }").wall("C", "\"B 2400 | P1 | B 6000\"");
  porch.wall("E", "{ from_front = 6300, run = \"12 m\" }");
  porch.trusses =
      "[{ mark = \"T1\", max = 900, odd_space = \"right\" }, { mark = \"T2\", at = [2700, 3600, 4500, 5400], "
      "also_on = [\"E\"], clear_of = \"back\" }]";
  open(porch, "compression A1 right", "press-not-known");
  // Of two floors nothing is said of the one between; the first floor's own braces are judged
  Draft two = two_floor_box();
  two.wall_weight = "\"0.30 kPa\"";
  two.fixing(studs_of("90 kN")).noted("end_studs", "\"demo-studs\"");
  open(two, "compression ground A1 left", "condition-not-stated");
  CHECK(Built(two).link("compression first A1 left").verdict == Verdict::pass);
}

TEST_CASE("more wind, a heavier roof or a heavier wall never presses less") {
  const auto presses = [](const char* wind_class, const char* roof, const char* wall) {
    Draft d = pressed("\"B 1200 | 9600 | B 1200\"");
    d.site = fmt::format("class = \"{}\"\ngiven_by = \"a test\"", wind_class);
    d.weight = roof;
    d.wall_weight = wall;
    const Built b(d);
    std::map<std::string, double> r;
    for (const Link& l : b.result.links)
      if (l.kind == "compression") r[l.where.words] = press_of(l);
    return r;
  };
  const auto now = presses("N3", "\"0.40 kPa\"", "\"0.30 kPa\"");
  CHECK(now.size() == 10);
  for (const auto& more : {presses("N4", "\"0.40 kPa\"", "\"0.30 kPa\""), presses("N3", "\"0.60 kPa\"", "\"0.30 kPa\""),
                           presses("N3", "\"0.40 kPa\"", "\"0.50 kPa\"")})
    for (const auto& [words, force] : now) {
      INFO(words);
      CHECK(more.at(words) >= force);
    }
}
