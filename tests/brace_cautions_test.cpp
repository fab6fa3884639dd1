// What is said of braces beside their verdicts.
#include "houses.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;

namespace {

std::string caution(const Result& r, std::string_view code) {
  for (const Caution& c : r.cautions)
    if (c.code == code) return c.text;
  return {};
}
Draft strapped(const std::string& keys) {
  Draft d = closed_box("30 m", "7.8 m");
  d.fixing("[[strap]]\nname = \"demo-ended\"\npair = true\nbasis = \"design\"\n" + keys)
      .mark("X", "{ brace = \"demo-ended\", hold_down = \"demo-rod\" }");
  d.wall("A", "\"X 2.7 m | 27.3 m\"");
  return d;
}

}  // namespace

TEST_CASE("a strap whose end holds less than itself is named once, in walls and roofs alike") {
  CHECK(caution(Built(strapped("tension = \"8 kN\"\nend_fixing = \"8 kN\"\n")).result, "strap-end-weaker").empty());
  CHECK(caution(Built(strapped("tension = \"8 kN\"\nend_fixing = \"9 kN\"\n")).result, "strap-end-weaker").empty());
  const Built weak(strapped("tension = \"8 kN\"\nend_fixing = \"7.9 kN\"\n"));
  CHECK_THAT(caution(weak.result, "strap-end-weaker"), Contains("(demo-ended)"));
  CHECK(std::count_if(weak.result.cautions.begin(), weak.result.cautions.end(),
                      [](const Caution& c) { return c.code == "strap-end-weaker"; }) == 1);
  Draft roof = closed_box();
  roof.fixing(
          "[[strap]]\nname = \"demo-up\"\npair = true\nbasis = \"design\"\ntension = \"9 kN\"\nend_fixing = \"8 "
          "kN\"\n")
      .roof_brace("demo-up", "front", 0.0, 4.0);
  CHECK_THAT(caution(Built(roof).result, "strap-end-weaker"), Contains("(demo-up)"));
  // A strap that does not count, standing too steep, holds nobody up and is named for that alone.
  Draft steep = strapped("tension = \"8 kN\"\nend_fixing = \"7 kN\"\n");
  steep.wall("A", "\"X 1.2 m | 28.8 m\"");
  CHECK(caution(Built(steep).result, "strap-end-weaker").empty());
}

TEST_CASE("a hold-down that holds the wind's pull and less than its brace may bring is counted") {
  // Wall A is one sheet of 12 m, 6 kN/m: worked to the full 72 kN at 2.7 m over an arm of 12 - 0.1 - 0.025 m, 16.371 kN
  constexpr double tipping = 72000.0 * 2.7 / 11.875;
  const auto built = [](double newtons) {
    Draft d = closed_box();
    d.fixing(fmt::format("[[anchor]]\nname = \"demo-weak\"\nhow = \"cast in\"\npull = \"{} N\"\nslide = \"90 "
                         "kN\"\ntogether = \"each alone\"\nleast_edge = \"10 mm\"\nleast_spacing = \"10 mm\"\nconcrete "
                         "= \"20 MPa\"\ncracked = true\nbasis = \"design\"\ncyclic = \"tested\"\n",
                         newtons))
        .mark("W", "{ brace = \"demo-sheet\", hold_down = \"demo-weak\" }")
        .wall("A", "\"W 12 m\"");
    return Built(d);
  };
  // With what of the roof comes to it in the worst case in which that end is pulled
  const Built b = built(1e6);
  CHECK(caution(b.result, "hold-down-below-brace").empty());
  const std::size_t wall = b.wall_at("A"), brace = b.brace_at("A1");
  Force roof = zero<Force>();
  for (std::size_t i = 0; i < b.forces.walls[wall].supports.size(); ++i)
    for (const BraceEnd& e : b.forces.walls[wall].supports[i].ends)
      for (std::size_t c = 0; c < b.forces.cases(); ++c)
        if (b.forces.pulls(c, brace, e.end)) roof = std::max(roof, b.forces.roof_on(c, wall, i));
  const double full = tipping + roof.value();
  CHECK(demand(b.link("A1 left"), "pull").value() < full - 100.0);
  CHECK(caution(built(full + 1.0).result, "hold-down-below-brace").empty());
  const Built weak = built(full - 1.0);
  CHECK(weak.link("A1 left").verdict == Verdict::pass);
  CHECK_THAT(caution(weak.result, "hold-down-below-brace"), Contains("A1 "));
  // It says so beside the verdict, which stays; one that fails already is not counted
  CHECK(weak.link("A1 left").use->value < 1.0);
  const Built fails = built(100.0);
  CHECK(fails.link("A1 left").verdict == Verdict::fail);
  CHECK(fails.link("A1 right").verdict == Verdict::fail);
  CHECK(caution(fails.result, "hold-down-below-brace").empty());
}
