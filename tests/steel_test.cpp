// Ties and brackets that are worked out from their steel and their screws, in shear and in tension, and straps by
// AS/NZS 4600. Figures worked out with 40 digits from the formulas of the standards stand beside the checks.
#include "capacity/steel.hpp"
#include "files/read.hpp"
#include "houses.hpp"
#include "reference_figures.hpp"
#include <algorithm>
#include <catch2/catch.hpp>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const Table& practice() { return table("practice/common.toml"); }
constexpr double lbf = 4.4482216152605;

// 30 x 0.8 mm, 250 and 320 MPa, one hole of 5 mm across; two screws of 4.8 mm behind one another.
const std::string steel =
    "width = \"30 mm\"\nthickness = \"0.8 mm\"\nyield = \"250 MPa\"\nultimate = \"320 MPa\"\nholes = 1\nhole = \"5 "
    "mm\"\n";
const std::string screws =
    "screws = 2\nscrew_diameter = \"4.8 mm\"\nscrew_spacing = \"20 mm\"\nscrew_edge = \"20 mm\"\n";
const std::string shear = screws + "screw_shear = \"6 kN\"\n";
const std::string tension =
    screws + "screws_in = \"tension\"\nscrew_head = \"9 mm\"\nscrew_tension = \"7 kN\"\npried = false\n";
const std::string aisi = "worked_out = \"AISI S100-16\"\n", as_nzs = "worked_out = \"AS/NZS 4600:2018\"\n";

std::string entry(const std::string& sort, const std::string& keys, const std::string& basis = "design") {
  return "[[" + sort + "]]\nname = \"demo-worked\"\nbasis = \"" + basis + "\"\ncyclic = \"tested\"\n" + keys;
}
// The frame is of 0.75 mm steel, 300 and 340 MPa.
Draft framed(const std::string& steel_of_frame = "\"0.75 mm\"") {
  Draft d = closed_box();
  d.frame = {{"steel", steel_of_frame}, {"yield", "\"300 MPa\""}, {"ultimate", "\"340 MPa\""}};
  return d;
}
Draft tied(const std::string& keys, const std::string& steel_of_frame = "\"0.75 mm\"") {
  Draft d = framed(steel_of_frame);
  d.fixing(entry("tie", keys)).noted("top_tie", "\"demo-worked\"");
  return d;
}
SteelHolds tie_holds(const Draft& d, FigureIs basis = FigureIs::design) {
  const House h = d.house();
  Tie t = *find(h.fixings.ties, "demo-worked");
  t.terms.basis = basis;
  REQUIRE(worst(steel_conditions(h, t.terms, t.made, Into::frame, practice())) == Met::yes);
  return steel_holds(h, t.terms, t.made, practice(), "", "", nullptr);
}
Met conditions_of_tie(const Draft& d) {
  const House h = d.house();
  const Tie& t = *find(h.fixings.ties, "demo-worked");
  return worst(steel_conditions(h, t.terms, t.made, Into::frame, practice()));
}
std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("nothing to change: " + from);
  return text.replace(at, from.size(), to);
}
const Link& link_of_kind(const Result& r, std::string_view kind) {
  for (const Link& l : r.links)
    if (l.kind == kind) return l;
  throw std::runtime_error("no such link");
}
bool marked(std::uint64_t marks, std::string_view key) {
  return practice().mark(key) != 0 && (marks & practice().mark(key)) != 0;
}

}  // namespace

TEST_CASE("screws in tension pull out, or their heads through, or break") {
  // Pull-out 0.85 * 0.75 * 4.8 * 340 = 1040.4 N; pull-over 1.5 * 0.8 * 9 * 320 = 3456 N; phi 0.50
  const SteelHolds out = tie_holds(tied(aisi + steel + tension));
  CHECK_THAT(out.end.value(), WithinRel(0.5 * 2.0 * 1040.4, 1e-12));
  CHECK(marked(out.marks, "aisi_pulled"));
  CHECK(!marked(out.marks, "as_nzs_pulled"));
  // Into 3 mm: 4161.6 N is more than the head lets through
  CHECK_THAT(tie_holds(tied(aisi + steel + tension, "\"3 mm\"")).end.value(), WithinRel(0.5 * 2.0 * 3456.0, 1e-12));
  // A great washer counts with half an inch: 1.5 * 0.8 * 12.7 * 320 = 4876.8 N, more than 4161.6 N
  CHECK_THAT(tie_holds(tied(aisi + steel + with(tension, "\"9 mm\"", "\"30 mm\""), "\"3 mm\"")).end.value(),
             WithinRel(0.5 * 2.0 * 4161.6, 1e-12));
  CHECK_THAT(tie_holds(tied(aisi + steel + with(tension, "\"9 mm\"", "\"30 mm\""), "\"4 mm\"")).end.value(),
             WithinRel(0.5 * 2.0 * 4876.8, 1e-12));
  // The screw itself
  CHECK_THAT(tie_holds(tied(aisi + steel + with(tension, "7 kN", "0.9 kN"))).end.value(),
             WithinRel(0.5 * 2.0 * 900.0, 1e-12));
  // Allowable: over 3
  CHECK_THAT(tie_holds(tied(aisi + steel + tension), FigureIs::allowable).end.value(),
             WithinRel(2.0 * 1040.4 / 3.0, 1e-12));
}

TEST_CASE("screws in tension in a sheet of 43 mil: screws-43mil") {
  // Allowable (Omega 3): No. 8, 10 and 12 in 0.0451 in, 45 ksi: 94, 109, 124 lb
  const std::vector<double> lb = numbers(published("screws-43mil")["out"]["pull_out_lb"]);
  const std::vector<const char*> diameters{"0.164", "0.190", "0.216"};
  REQUIRE(lb.size() == diameters.size());
  for (std::size_t i = 0; i < lb.size(); ++i) {
    Draft d = tied(aisi +
                       "width = \"4 in\"\nthickness = \"0.0451 in\"\nyield = \"33000 psi\"\nultimate = \"45000 "
                       "psi\"\nholes = 1\nhole = \"0.22 in\"\nscrews = 1\nscrew_spacing = \"2 in\"\nscrew_edge = \"2 "
                       "in\"\nscrews_in = \"tension\"\nscrew_head = \"0.4 in\"\nscrew_tension = \"1000 lb\"\npried = "
                       "false\nscrew_diameter = \"" +
                       std::string(diameters[i]) + " in\"\n",
                   "\"0.0451 in\"");
    d.frame = {{"steel", "\"0.0451 in\""}, {"yield", "\"33000 psi\""}, {"ultimate", "\"45000 psi\""}};
    CHECK_THAT(tie_holds(d, FigureIs::allowable).end.value() / lbf, WithinAbs(lb[i], 1.0));
  }
}

TEST_CASE("a tie holds the weaker of its steel and of its screws, and the link says which") {
  // Steel: 4800 N (rupture); screws in shear: they tilt, 2 * 2032.0796 N, phi 0.50
  const SteelHolds t = tie_holds(tied(aisi + steel + shear));
  CHECK_THAT(t.steel.value(), WithinRel(4800.0, 1e-12));
  CHECK_THAT(t.end.value(), WithinRel(2032.0796244242005587, 1e-12));
  CHECK_THAT(t.weaker().value(), WithinRel(2032.0796244242005587, 1e-12));
  CHECK(t.gives().code == "screws");
  const Built b(tied(aisi + steel + shear));
  const Link& l = link_of_kind(b.result, "top tie");
  REQUIRE(l.parts.front().capacity.has_value());
  CHECK_THAT(l.parts.front().capacity->si, WithinRel(2032.0796244242005587, 1e-12));
  CHECK(l.parts.front().gives->code == "screws");
  CHECK(std::find(l.rests_on_memory.begin(), l.rests_on_memory.end(), "AISI S100: screws in shear") !=
        l.rests_on_memory.end());
  // Twenty screws in 2.4 mm, of which as many lie behind one another: the steel across them, with the connection's phi:
  // (30 - 5) * 0.8 * 320 * 0.50 = 3200 N
  CHECK_THAT(tie_holds(tied(aisi + steel + with(shear, "screws = 2", "screws = 20"), "\"2.4 mm\"")).weaker().value(),
             WithinRel(3200.0, 1e-12));
}

TEST_CASE("a single row of screws pulls at the steel beside it alone") {
  // Two screws in one row, 40 mm for each of 80 mm: 2.5 * 4.8 / 40 = 0.3 of (80 - 2 * 5) * 0.8 * 320 = 17920 N; phi
  // 0.50. In 3 mm a screw holds 3317.76 N in bearing: two hold 6635.52 N, more than 5376 N.
  const std::string row = with(with(steel, "\"30 mm\"", "\"80 mm\""), "holes = 1", "holes = 2");
  CHECK_THAT(tie_holds(tied(aisi + row + shear, "\"3 mm\"")).end.value(), WithinRel(0.5 * 5376.0, 1e-12));
  // One hole across and two screws: they stand behind one another
  const std::string line = with(steel, "\"30 mm\"", "\"80 mm\"");
  CHECK_THAT(tie_holds(tied(aisi + line + shear, "\"3 mm\"")).end.value(), WithinRel(0.5 * 6635.52, 1e-12));
  // Close together the whole net section counts: 2.5 * 4.8 / 10 > 1; (20 - 10) * 0.8 * 320 = 2560 N
  const std::string close = with(with(steel, "\"30 mm\"", "\"20 mm\""), "holes = 1", "holes = 2");
  CHECK_THAT(tie_holds(tied(aisi + close + shear, "\"3 mm\"")).end.value(), WithinRel(0.5 * 2560.0, 1e-12));
}

TEST_CASE("AS/NZS 4600: a tie's rupture counts in part, bearing falls in thin steel, and screws must be stronger") {
  // Yield 30 * 0.8 * 250 * 0.90 = 5400 N; rupture 0.85 * 25 * 0.8 * 320 * 0.90 = 4896 N
  CHECK_THAT(tie_holds(tied(as_nzs + steel + shear)).steel.value(), WithinRel(4896.0, 1e-12));
  // The screws tilt as by the other standard: 4.2 * sqrt(0.75^3 * 4.8) * 340
  CHECK_THAT(tie_holds(tied(as_nzs + steel + shear)).end.value(), WithinRel(2032.0796244242005587, 1e-12));
  // In 3 mm they bear: 0.8 mm is a sixth of 4.8 mm, 3.3 - 0.1 * 6 = 2.7: 2.7 * 0.8 * 4.8 * 320 = 3317.76 N
  CHECK_THAT(tie_holds(tied(as_nzs + steel + shear, "\"3 mm\"")).end.value(),
             WithinRel(0.5 * std::min(2.0 * 3317.76, 6400.0), 1e-12));
  // 0.6 mm: 4.8 / 0.6 = 8, 3.3 - 0.8 = 2.5: 2.5 * 0.6 * 4.8 * 320 = 2304 N; 0.35 mm: 13.7 diameters, 2.0: 1075.2 N
  CHECK_THAT(tie_holds(tied(as_nzs + with(steel, "0.8", "0.6") + shear, "\"3 mm\"")).end.value(),
             WithinRel(2304.0, 1e-12));
  CHECK_THAT(tie_holds(tied(as_nzs + with(steel, "0.8", "0.35") + shear, "\"3 mm\"")).end.value(),
             WithinRel(1075.2, 1e-12));
  // The screw itself by 1.25: 1.5 / 1.25 = 1.2 kN in shear, 0.9 / 1.25 = 0.72 kN in tension
  CHECK_THAT(tie_holds(tied(as_nzs + steel + with(shear, "6 kN", "1.5 kN"))).end.value(), WithinRel(1200.0, 1e-12));
  CHECK_THAT(tie_holds(tied(as_nzs + steel + with(tension, "7 kN", "0.9 kN"), "\"1 mm\"")).end.value(),
             WithinRel(720.0, 1e-12));
  // Pull-out 0.85 * 1 * 4.8 * 340 = 1387.2 N each, phi 0.50, from 0.9 mm on
  const SteelHolds out = tie_holds(tied(as_nzs + steel + tension, "\"1 mm\""));
  CHECK_THAT(out.end.value(), WithinRel(1387.2, 1e-12));
  CHECK(conditions_of_tie(tied(as_nzs + steel + tension, "\"0.9 mm\"")) == Met::yes);
  CHECK(conditions_of_tie(tied(as_nzs + steel + tension, "\"0.89 mm\"")) == Met::no);
  CHECK(marked(out.marks, "as_nzs_pulled"));
  CHECK(!marked(out.marks, "aisi_pulled"));
}

TEST_CASE("AS/NZS 4600: hard steel counts by how thin it is") {
  const auto hard = [](const std::string& thickness) {
    const std::string t = with(with(with(steel, "0.8 mm", thickness), "250 MPa", "550 MPa"), "320 MPa", "550 MPa");
    return tie_holds(tied(as_nzs + t + shear)).steel.value();
  };
  // Rupture 0.85 * 0.90 * 25 * t * f_u: 0.55 mm with 410 MPa (75 % is 412.5), 0.75 mm with 495 MPa, 0.9 mm in full
  CHECK_THAT(hard("0.55 mm"), WithinRel(0.765 * 25.0 * 0.55 * 410.0, 1e-12));
  CHECK_THAT(hard("0.75 mm"), WithinRel(0.765 * 25.0 * 0.75 * 495.0, 1e-12));
  CHECK_THAT(hard("0.9 mm"), WithinRel(0.765 * 25.0 * 0.9 * 550.0, 1e-12));
}

TEST_CASE("screws are judged only where they stand as the standard asks, and in tension where nothing pries") {
  CHECK(conditions_of_tie(tied(aisi + steel + tension)) == Met::yes);
  CHECK(conditions_of_tie(tied(aisi + steel + with(tension, "pried = false\n", ""))) == Met::not_stated);
  CHECK(conditions_of_tie(tied(aisi + steel + with(tension, "pried = false", "pried = true"))) == Met::not_stated);
  // A head of 5/16 in is 7.9375 mm; AS/NZS 4600 asks for 8 mm, and for three diameters to an edge
  CHECK(conditions_of_tie(tied(aisi + steel + with(tension, "\"9 mm\"", "\"7.94 mm\""))) == Met::yes);
  CHECK(conditions_of_tie(tied(aisi + steel + with(tension, "\"9 mm\"", "\"7.9 mm\""))) == Met::no);
  CHECK(conditions_of_tie(tied(as_nzs + steel + with(tension, "\"9 mm\"", "\"7.94 mm\""), "\"1 mm\"")) == Met::no);
  CHECK(conditions_of_tie(tied(as_nzs + steel + with(tension, "\"9 mm\"", "\"8 mm\""), "\"1 mm\"")) == Met::yes);
  CHECK(conditions_of_tie(tied(as_nzs + steel + with(shear, "edge = \"20 mm\"", "edge = \"14.4 mm\""))) == Met::yes);
  CHECK(conditions_of_tie(tied(as_nzs + steel + with(shear, "edge = \"20 mm\"", "edge = \"14.3 mm\""))) == Met::no);
  CHECK(conditions_of_tie(tied(aisi + steel + with(shear, "edge = \"20 mm\"", "edge = \"14.3 mm\""))) == Met::yes);
  Draft no_frame = tied(aisi + steel + shear);
  no_frame.frame = {};
  CHECK(conditions_of_tie(no_frame) == Met::not_stated);
  const Built b(no_frame);
  CHECK(link_of_kind(b.result, "top tie").verdict == Verdict::not_judged);
  CHECK(link_of_kind(b.result, "top tie").why.code == "condition-not-stated");
  // Steel of its own that the screws go into stands for the frame's: 0.75 mm of 340 MPa
  Draft own = tied(aisi + steel + shear +
                   "into_thickness = \"0.75 mm\"\ninto_yield = \"300 MPa\"\ninto_ultimate = \"340 MPa\"\n");
  own.frame = {};
  CHECK_THAT(tie_holds(own).end.value(), WithinRel(2032.0796244242005587, 1e-12));
}

TEST_CASE(
    "a bracket is worked out where the steel of truss and plate is stated, and its sideways force is the sheet's") {
  const std::string into = "into_thickness = \"0.75 mm\"\ninto_yield = \"300 MPa\"\ninto_ultimate = \"340 MPa\"\n";
  const std::string sideways = "along = \"9 kN\"\nacross = \"9 kN\"\ntogether = \"straight sum\"\n";
  const auto bracket = [&](const std::string& keys) {
    Draft d = framed();
    d.fixing(entry("bracket", aisi + steel + shear + keys)).noted("truss", "\"demo-worked\"");
    return Built(d);
  };
  const Built whole = bracket(into + sideways);
  const Link& l = link_of_kind(whole.result, "bracket");
  REQUIRE(l.parts.front().part == "uplift");
  REQUIRE(l.parts.front().capacity.has_value());
  CHECK_THAT(l.parts.front().capacity->si, WithinRel(2032.0796244242005587, 1e-12));
  CHECK(l.verdict == Verdict::fail);  // a truss of this house lifts by more than 2 kN
  const Built no_truss_steel = bracket(sideways);
  CHECK(link_of_kind(no_truss_steel.result, "bracket").why.code == "condition-not-stated");
  // Many screws of a strong sheet, and nothing said of sideways forces: not judged
  Draft d = framed();
  d.fixing(entry("bracket", aisi + with(with(steel, "\"30 mm\"", "\"90 mm\""), "0.8", "3") +
                                with(shear, "screws = 2", "screws = 20") + with(into, "0.75", "3")))
      .noted("truss", "\"demo-worked\"");
  const Built open(d);
  CHECK(link_of_kind(open.result, "bracket").verdict == Verdict::not_judged);
  CHECK(link_of_kind(open.result, "bracket").why.code == "part-without-capacity");
}

TEST_CASE("a tie's or a bracket's figure is stated or worked out, and its screws by how they are loaded") {
  const auto problem = [](const std::string& sort, const std::string& keys, const std::string& basis = "design") {
    Draft d = closed_box();
    d.fixing(entry(sort, keys, basis));
    const Opened o = d.opened();
    return o.problems.empty() ? std::string() : o.problems.front().code + ": " + o.problems.front().message;
  };
  CHECK(problem("tie", aisi + steel + shear).empty());
  CHECK(problem("tie", aisi + steel + tension).empty());
  CHECK(problem("bracket", as_nzs + steel + shear).empty());
  CHECK_THAT(problem("tie", ""), Contains("missing-key: `pull`"));
  CHECK_THAT(problem("bracket", ""), Contains("missing-key: `uplift`"));
  CHECK_THAT(problem("tie", "pull = \"3 kN\"\npried = false\n"), Contains("wrong-key: `pried`"));
  CHECK_THAT(problem("tie", "pull = \"3 kN\"\n" + aisi + steel + shear), Contains("wrong-key: `pull`"));
  CHECK_THAT(problem("tie", aisi + steel), Contains("missing-key: `screws`"));
  CHECK_THAT(problem("tie", aisi + steel + shear + "screw_head = \"9 mm\"\n"), Contains("wrong-key: `screw_head`"));
  CHECK_THAT(problem("tie", aisi + steel + shear + "pried = false\n"), Contains("wrong-key: `pried`"));
  CHECK_THAT(problem("tie", aisi + steel + tension + "screw_shear = \"6 kN\"\n"), Contains("wrong-key: `screw_shear`"));
  CHECK_THAT(problem("tie", aisi + steel + with(tension, "screw_head = \"9 mm\"\n", "")),
             Contains("missing-key: `screw_head`"));
  CHECK_THAT(problem("tie", as_nzs + steel + shear, "allowable"), Contains("no allowable strengths"));
  CHECK_THAT(problem("strap", "tension = \"3 kN\"\npair = true\nscrews_in = \"tension\"\n"), Contains("unknown-key"));
}
