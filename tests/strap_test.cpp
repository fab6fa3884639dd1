// Straps that are worked out from their steel and their screws, and the least shape of a sheet. Figures worked out with
// 40 digits from the formulas of AISI S100-16 stand beside the checks.
#include "capacity/capacity.hpp"
#include "capacity/formulas_steel.hpp"
#include "capacity/steel.hpp"
#include "files/read.hpp"
#include "houses.hpp"
#include "reference_figures.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const Table& practice() { return table("practice/common.toml"); }
constexpr double kN = 1000.0, lbf = 4.4482216152605;

// 30 x 0.8 mm, 250 and 320 MPa, one hole of 5 mm across; two screws of 4.8 mm.
const std::string strap_steel =
    "worked_out = \"AISI S100-16\"\nwidth = \"30 mm\"\nthickness = \"0.8 mm\"\nyield = \"250 MPa\"\n"
    "ultimate = \"320 MPa\"\nholes = 1\nhole = \"5 mm\"\n";
const std::string its_screws =
    "screws = 2\nscrew_diameter = \"4.8 mm\"\nscrew_shear = \"6 kN\"\nscrew_spacing = \"20 mm\"\n"
    "screw_edge = \"20 mm\"\n";
const std::string into_steel = "into_thickness = \"0.75 mm\"\ninto_yield = \"300 MPa\"\ninto_ultimate = \"340 MPa\"\n";
std::string entry(const std::string& keys, const std::string& basis = "design") {
  return "[[strap]]\nname = \"demo-worked\"\npair = true\nbasis = \"" + basis + "\"\ncyclic = \"tested\"\n" + keys;
}
// A brace as long as it is high, 45 degrees; the frame is of 0.75 mm steel, 300 and 340 MPa.
Draft braced_by(const std::string& keys, const std::string& frame_steel = "\"0.75 mm\"") {
  Draft d = closed_box("30 m", "7.8 m");
  d.fixing(entry(keys)).mark("X", "{ brace = \"demo-worked\", hold_down = \"demo-rod\" }");
  d.wall("A", "\"X 2.7 m | 27.3 m\"");
  d.frame = {{"steel", frame_steel}, {"yield", "\"300 MPa\""}, {"ultimate", "\"340 MPa\""}};
  return d;
}
BraceCapacity capacity_in(const House& h) {
  return brace_capacity(h, h.walls.front(), h.walls.front().pieces.front(), practice(), false, nullptr);
}
SteelHolds holds_in(const House& h) {
  return strap_holds(h, *find(h.fixings.straps, "demo-worked"), practice(), "T_s", "T_e", nullptr);
}
std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("nothing to change: " + from);
  return text.replace(at, from.size(), to);
}
bool marked(std::uint64_t marks, std::string_view key) {
  return practice().mark(key) != 0 && (marks & practice().mark(key)) != 0;
}

}  // namespace

TEST_CASE("a strap holds the lesser of its yield and of its rupture across its holes") {
  // Yield 30 * 0.8 * 250 = 6000 N, times 0.90: 5400; rupture (30 - 5) * 0.8 * 320 = 6400 N, times 0.75: 4800
  House h = braced_by(strap_steel + its_screws).house();
  CHECK_THAT(holds_in(h).steel.value(), WithinRel(4800.0, 1e-12));
  CHECK(marked(holds_in(h).marks, "aisi_strap"));
  CHECK(!marked(holds_in(h).marks, "aisi_thin"));
  // Without a hole rupture is 30 * 0.8 * 320 * 0.75 = 5760 N: it yields first
  h.fixings.straps.back().made.holes = 0.0;
  CHECK_THAT(holds_in(h).steel.value(), WithinRel(5400.0, 1e-12));
  // Allowable: 6000 / 1.67 and 6400 / 2.00
  h.fixings.straps.back().made.holes = 1.0;
  h.fixings.straps.back().terms.basis = FigureIs::allowable;
  CHECK_THAT(holds_in(h).steel.value(), WithinRel(3200.0, 1e-12));
  h.fixings.straps.back().made.holes = 0.0;
  CHECK_THAT(holds_in(h).steel.value(), WithinRel(3592.814371257485, 1e-12));
}

TEST_CASE("hard steel counts with three quarters of its strengths, and no more than the cap") {
  const std::string hard = with(with(strap_steel, "250 MPa", "550 MPa"), "320 MPa", "550 MPa");
  // 412.5 MPa each: 30 * 0.8 * 412.5 * 0.90 = 8910 N, 25 * 0.8 * 412.5 * 0.75 = 6187.5 N
  const House h = braced_by(hard + its_screws).house();
  CHECK_THAT(holds_in(h).steel.value(), WithinRel(6187.5, 1e-12));
  CHECK(marked(holds_in(h).marks, "aisi_thin"));
  // 0.75 * 700 = 525 MPa is above 60 and 62 ksi (413.685 and 427.475 MPa): 25 * 0.8 * 427.475 * 0.75 = 6412.1 N
  const std::string harder = with(with(strap_steel, "250 MPa", "700 MPa"), "320 MPa", "700 MPa");
  CHECK_THAT(holds_in(braced_by(harder + its_screws).house()).steel.value(), WithinAbs(6412.1, 0.05));
  // A hard frame: its 600 MPa are 427.475 at most; the screws tilt with 4.2 * sqrt(0.75^3 * 4.8) * 427.475 = 2554.9 N
  Draft d = braced_by(strap_steel + its_screws);
  d.frame = {{"steel", "\"0.75 mm\""}, {"yield", "\"550 MPa\""}, {"ultimate", "\"600 MPa\""}};
  const SteelHolds framed = holds_in(d.house());
  CHECK_THAT(framed.end.value(), WithinAbs(0.5 * 2.0 * 2554.9, 0.5));
  CHECK(marked(framed.marks, "aisi_thin"));
}

TEST_CASE("screws tilt in thin steel, bear in thick, and in between it goes straight") {
  const std::pair<const char*, double> one_screw[] = {
      {"\"0.75 mm\"", 2032.0796244242005587},  // 4.2 * sqrt(0.75^3 * 4.8) * 340: the frame is the thinner
      {"\"1 mm\"", 3160.1193737245907001},     // a sixth of the way from 3128.59 (tilting) to 3317.76 (bearing)
      {"\"2.4 mm\"", 3317.76},                 // 2.7 * 0.8 * 4.8 * 320: three times as thick, the strap gives way
  };
  for (const auto& [steel, n] : one_screw) {
    INFO(steel);
    const SteelHolds t = holds_in(braced_by(strap_steel + its_screws, steel).house());
    // Two screws, or the strap across them: 6400 N; phi is 0.50 for either
    CHECK_THAT(t.end.value(), WithinRel(0.5 * std::min(2.0 * n, 6400.0), 1e-12));
    CHECK(marked(t.marks, "aisi_screws"));
  }
  // More screws never hold more than the strap across them
  const SteelHolds many = holds_in(braced_by(strap_steel + with(its_screws, "screws = 2", "screws = 40")).house());
  CHECK_THAT(many.end.value(), WithinRel(3200.0, 1e-12));
  // The screw's own strength: 2 * 1.5 kN
  const SteelHolds weak = holds_in(braced_by(strap_steel + with(its_screws, "6 kN", "1.5 kN")).house());
  CHECK_THAT(weak.end.value(), WithinRel(0.5 * 2.0 * 1.5 * kN, 1e-12));
  // Torn out: spacing 15 mm less the hole is 10 mm, 8 mm to the edge less half of the hole is 5.5 mm;
  // 0.6 * 340 * 0.75 * 5.5 * 2 = 1683 N
  const SteelHolds torn = holds_in(
      braced_by(strap_steel + with(with(its_screws, "edge = \"20 mm\"", "edge = \"8 mm\""), "20 mm", "15 mm")).house());
  CHECK_THAT(torn.end.value(), WithinRel(0.5 * 2.0 * 1683.0, 1e-12));
}

TEST_CASE("screws in two sheets of 43 mil: screws-43mil") {
  // Allowable (Omega 3): No. 8, 10 and 12 in 0.0451 in, 45 ksi: 244, 263, 280 lb
  const std::vector<double> lb = numbers(published("screws-43mil")["out"]["shear_lb"]);
  const std::vector<const char*> diameters{"0.164", "0.190", "0.216"};
  REQUIRE(lb.size() == diameters.size());
  for (std::size_t i = 0; i < lb.size(); ++i) {
    Draft d = braced_by(
        "worked_out = \"AISI S100-16\"\nwidth = \"4 in\"\nthickness = \"0.0451 in\"\nyield = \"33000 psi\"\n"
        "ultimate = \"45000 psi\"\nholes = 1\nhole = \"0.22 in\"\nscrews = 1\nscrew_shear = \"1000 lb\"\n"
        "screw_spacing = \"2 in\"\nscrew_edge = \"2 in\"\nscrew_diameter = \"" +
            std::string(diameters[i]) + " in\"\n",
        "\"0.0451 in\"");
    d.frame = {{"steel", "\"0.0451 in\""}, {"yield", "\"33000 psi\""}, {"ultimate", "\"45000 psi\""}};
    House h = d.house();
    h.fixings.straps.back().terms.basis = FigureIs::allowable;
    CHECK_THAT(holds_in(h).end.value() / lbf, WithinAbs(lb[i], 1.0));
  }
}

TEST_CASE("a strap that is worked out braces as one whose figures are stated") {
  const House h = braced_by(strap_steel + its_screws).house();
  const BraceCapacity c = capacity_in(h);
  CHECK(c.refused.empty());
  // 2 screws of 2032.08 N, phi 0.50; the strap stands at 45 degrees
  CHECK_THAT(c.plus.value(), WithinRel(2032.0796244242005587 * std::sqrt(0.5), 1e-12));
  CHECK(c.minus == c.plus);
  CHECK(marked(c.practice_marks, "aisi_screws"));
  // An end as a sheet states it beside a strap that is worked out
  const BraceCapacity stated = capacity_in(braced_by(strap_steel + "end_fixing = \"4.5 kN\"\n").house());
  CHECK_THAT(stated.plus.value(), WithinRel(4500.0 * std::sqrt(0.5), 1e-12));
}

TEST_CASE("what a strap that is worked out is not told leaves it unjudged; too close a screw leaves it out") {
  const auto refused = [](const Draft& d) { return capacity_in(d.house()).refused; };
  for (const char* key : {"steel", "yield", "ultimate"}) {
    Draft d = braced_by(strap_steel + its_screws);
    Draft::set(d.frame, key, "");
    INFO(key);
    CHECK(refused(d) == "condition-not-stated");
  }
  CHECK(refused(braced_by(strap_steel)) == "condition-not-stated");
  // 3 * 4.8 = 14.4 mm apart, 1.5 * 4.8 = 7.2 mm to an edge, 6.35 mm thick at most
  const auto screws = [](const std::string& from, const std::string& to) {
    return braced_by(strap_steel + with(its_screws, from, to));
  };
  CHECK(refused(screws("spacing = \"20 mm\"", "spacing = \"14.4 mm\"")).empty());
  CHECK(refused(screws("spacing = \"20 mm\"", "spacing = \"14.3 mm\"")) == "condition-unmet");
  CHECK(refused(screws("edge = \"20 mm\"", "edge = \"7.2 mm\"")).empty());
  CHECK(refused(screws("edge = \"20 mm\"", "edge = \"7.1 mm\"")) == "condition-unmet");
  CHECK(refused(braced_by(with(strap_steel, "hole = \"5 mm\"", "hole = \"7 mm\"") + with(its_screws, "4.8", "6.4"))) ==
        "condition-unmet");
}

TEST_CASE("a strap's figures are stated or worked out, whole and believable") {
  const auto problem = [](const std::string& keys, const std::string& basis = "design") {
    Draft d = closed_box();
    d.fixing(entry(keys, basis));
    const Opened o = d.opened();
    return o.problems.empty() ? std::string() : o.problems.front().code + ": " + o.problems.front().message;
  };
  CHECK(problem(strap_steel + its_screws).empty());
  CHECK_THAT(problem("end_fixing = \"4 kN\"\n"), Contains("missing-key: `tension`"));
  CHECK_THAT(problem("tension = \"4 kN\"\nwidth = \"30 mm\"\n"), Contains("wrong-key: `width`"));
  CHECK_THAT(problem("tension = \"4 kN\"\n" + its_screws), Contains("wrong-key: `screws`"));
  CHECK_THAT(problem(strap_steel + "tension = \"4 kN\"\n"), Contains("wrong-key: `tension`"));
  CHECK_THAT(problem(strap_steel + its_screws + "end_fixing = \"4 kN\"\n"), Contains("wrong-key: `end_fixing`"));
  for (const char* key : {"width = \"30 mm\"\n", "thickness = \"0.8 mm\"\n", "yield = \"250 MPa\"\n", "holes = 1\n",
                          "ultimate = \"320 MPa\"\n", "hole = \"5 mm\"\n"})
    CHECK_THAT(problem(with(strap_steel, key, "") + its_screws), Contains("missing-key"));
  for (const char* key : {"screw_shear = \"6 kN\"\n", "screw_spacing = \"20 mm\"\n", "screw_edge = \"20 mm\"\n"})
    CHECK_THAT(problem(strap_steel + with(its_screws, key, "")), Contains("missing-key"));
  CHECK_THAT(problem(strap_steel + "phi = 0.8\n", "characteristic"), Contains("\"design\" or \"allowable\""));
  CHECK_THAT(problem(with(strap_steel, "250", "330")), Contains("breaks before it yields"));
  CHECK_THAT(problem(with(strap_steel, "holes = 1", "holes = 1.5")), Contains("is a count"));
  CHECK_THAT(problem(with(strap_steel, "holes = 1", "holes = 6")), Contains("nothing of its width"));
  CHECK_THAT(problem(with(strap_steel, "holes = 1", "holes = 0") + its_screws), Contains("each screw makes a hole"));
  CHECK_THAT(problem(with(strap_steel, "\"5 mm\"", "\"4 mm\"") + its_screws), Contains("smaller than the screw"));
  CHECK(problem(strap_steel + its_screws + into_steel).empty());
  CHECK_THAT(problem(strap_steel + its_screws + with(into_steel, "into_yield = \"300 MPa\"\n", "")),
             Contains("missing-key: `into_yield`"));
  CHECK_THAT(problem(strap_steel + its_screws + with(into_steel, "340", "290")), Contains("breaks before it yields"));
  CHECK_THAT(problem(with(strap_steel, "AISI S100-16", "AS/NZS 4600:2018") + its_screws, "allowable"),
             Contains("AS/NZS 4600:2018 has no allowable strengths"));
}

TEST_CASE("in the roof a strap is worked out where the trusses' steel is stated") {
  const auto braced = [](const std::string& keys) {
    Draft d = closed_box();
    d.frame = {{"steel", "\"0.75 mm\""}, {"yield", "\"300 MPa\""}, {"ultimate", "\"340 MPa\""}};
    d.fixing(entry(keys));
    d.roof_brace("demo-worked", "front", 0.0, 4.0);
    return Built(d);
  };
  // The frame's steel says nothing of the trusses'.
  const Built unsaid = braced(strap_steel + its_screws);
  const Link& open = unsaid.link("roof brace front 1");
  CHECK(open.verdict == Verdict::not_judged);
  CHECK(std::any_of(open.conditions.begin(), open.conditions.end(),
                    [](const Condition& c) { return c.name == "steel of the trusses" && c.met == Met::not_stated; }));
  // 0.75 mm of 340 MPa: two screws tilt at 2 * 2032.08 N, phi 0.50
  const Built told = braced(strap_steel + its_screws + into_steel);
  const Link& l = told.link("roof brace front 1");
  REQUIRE(l.parts.front().capacity.has_value());
  CHECK_THAT(l.parts.front().capacity->si, WithinRel(2032.0796244242005587, 1e-12));
  CHECK(std::find(l.rests_on_memory.begin(), l.rests_on_memory.end(), "AISI S100: screws in shear") !=
        l.rests_on_memory.end());
  // An end as a sheet states it: 4.5 kN, less than the strap's 4.8 kN
  const Built stated = braced(strap_steel + "end_fixing = \"4.5 kN\"\n");
  CHECK_THAT(stated.link("roof brace front 1").parts.front().capacity->si, WithinRel(4500.0, 1e-12));
}

TEST_CASE("a sheet that is too high for its length does not count where its entry says so") {
  const auto refused = [](const std::string& length, const std::string& aspect) {
    Draft d = closed_box("30 m", "7.8 m");
    d.fixing("[[sheet]]\nname = \"demo-slim\"\nracking = \"6 kN/m\"\nleast_length = \"300 mm\"\nbasis = \"design\"\n" +
             aspect)
        .mark("X", "{ brace = \"demo-slim\", hold_down = \"demo-rod\" }");
    d.wall("A", fmt::format("\"X {} | {} mm\"", length, 30000 - std::stoi(length)));
    return capacity_in(d.house()).refused;
  };
  // 2.7 m over 3.5 is 771.4 mm
  CHECK(refused("772", "greatest_aspect = 3.5\n").empty());
  CHECK(refused("770", "greatest_aspect = 3.5\n") == "condition-unmet");
  CHECK(refused("770", "").empty());
}
