// What is said of bracing lines beside the wind: the stiffness that sheets state, the distance and the least strength
// that a job asks for, and narrow sheets.
#include "capacity/capacity.hpp"
#include "houses.hpp"
#include "load_path/least_bracing.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

std::string codes(const Draft& d) {
  std::string all;
  for (const Problem& p : d.opened().problems) all += p.code + " ";
  return all;
}
Draft with(Draft d, const Keys& bracing) {
  d.bracing = bracing;
  return d;
}
const Keys least_of_nz{{"least", "\"NZS 3604\""}};
const Caution* caution(const Result& r, std::string_view code) {
  for (const Caution& c : r.cautions)
    if (c.code == code) return &c;
  return nullptr;
}

}  // namespace

// ---- stated stiffness -----------------------------------------------------------------------------------------------

namespace {
// Sheets of 0.5 kN/mm/m on all four walls of 12 m x 7.8 m, and on 3.9 m of an inside wall at 6 m others of 2 kN/mm/m.
Draft stiff_inside_wall(const std::string& inside = "stiffness = \"2 kN/mm/m\"\n") {
  Draft d = closed_box();
  d.eaves = d.verge = "0";
  d.ceiling = "rigid";
  d.fixing(
      "[[sheet]]\nname = \"demo-soft\"\nracking = \"6.0 kN/m\"\nleast_length = \"900 mm\"\nbasis = \"design\"\n"
      "stiffness = \"0.5 kN/mm/m\"\n");
  d.fixing("[[sheet]]\nname = \"demo-stiff\"\nracking = \"6.0 kN/m\"\nleast_length = \"900 mm\"\nbasis = \"design\"\n" +
           inside);
  d.mark("B", "{ brace = \"demo-soft\", hold_down = \"demo-rod\" }");
  d.mark("S", "{ brace = \"demo-stiff\", hold_down = \"demo-rod\" }");
  d.wall("E", "{ from_left = \"6 m\", run = \"3.9 m | S 3.9 m\" }");
  return d;
}
}  // namespace

TEST_CASE("a house under a rigid ceiling shares by stated stiffness where every brace states one") {
  // B and D 7.8 m x 0.5 = 3.9 kN/mm each, E 3.9 m x 2 = 7.8 kN/mm; the push's middle and the centre of stiffness are
  // both at 6 m: a quarter, a quarter and a half. By what they hold: 46.8, 46.8 and 23.4 kN, 0.4, 0.4 and 0.2.
  const Built all(stiff_inside_wall()), some(stiff_inside_wall(""));
  CHECK(all.forces.without_stiffness().empty());
  CHECK(caution(all.result, "stiffness-not-stated") == nullptr);
  REQUIRE(some.forces.without_stiffness() == std::vector<std::size_t>{some.brace_at("E1")});
  REQUIRE(caution(some.result, "stiffness-not-stated"));
  CHECK_THAT(caution(some.result, "stiffness-not-stated")->text, Contains("those of E1 state none"));
  std::size_t pushed = 0;
  for (std::size_t c = 0; c < all.loads.cases.size(); ++c) {
    const auto forces = [&](const Built& b) {
      return std::array{in_kN(b.forces.line_force(c, b.line_at("B"))), in_kN(b.forces.line_force(c, b.line_at("D"))),
                        in_kN(b.forces.line_force(c, b.line_at("E")))};
    };
    const auto by_stiffness = forces(all), by_capacity = forces(some);
    const double whole = by_stiffness[0] + by_stiffness[1] + by_stiffness[2];
    if (std::abs(whole) < 1e-6) continue;
    ++pushed;
    CHECK_THAT(by_capacity[0] + by_capacity[1] + by_capacity[2], WithinRel(whole, 1e-9));
    for (const std::size_t i : {std::size_t{0}, std::size_t{1}}) {
      CHECK_THAT(by_stiffness[i], WithinRel(whole / 4.0, 1e-9));
      CHECK_THAT(by_capacity[i], WithinRel(whole * 0.4, 1e-9));
    }
    CHECK_THAT(by_stiffness[2], WithinRel(whole / 2.0, 1e-9));
    CHECK_THAT(by_capacity[2], WithinRel(whole * 0.2, 1e-9));
  }
  CHECK(pushed > 2);
  // Under a flexible ceiling nothing rests on it, and nothing is said
  Draft flexible = stiff_inside_wall("");
  flexible.ceiling = "flexible";
  CHECK(caution(Built(flexible).result, "stiffness-not-stated") == nullptr);
}

TEST_CASE(
    "stated stiffness: a brace that does not count, and a strap in the sense in which it holds nothing, have none") {
  // The stiff piece of 0.8 m is shorter than its least length: the floor is that of the other walls alone
  Draft d = stiff_inside_wall("");
  d.wall("E", "{ from_left = \"6 m\", run = \"7 m | S 0.8 m\" }");
  CHECK(Built(d).forces.without_stiffness().empty());
  // A single strap at the left holds a push to the right alone
  Draft s = closed_box();
  s.ceiling = "rigid";
  for (const char* k : {"demo-sheet", "demo-single"}) {
    const auto at = s.fixings.find(fmt::format("name = \"{}\"\n", k));
    s.fixings.insert(s.fixings.find('\n', at) + 1,
                     std::string(k) == "demo-sheet" ? "stiffness = \"0.5 kN/mm/m\"\n" : "stiffness = \"3.9 kN/mm\"\n");
  }
  s.mark("L", "{ brace = \"demo-single\", hold_down = \"demo-rod\", foot = \"left\" }");
  s.wall("E", "{ from_front = \"3.9 m\", run = \"L 2.7 m | 9.3 m\" }");
  const Built b(s);
  CHECK(b.forces.without_stiffness().empty());
  const std::size_t e = b.line_at("E");
  std::size_t right = 0, left = 0;
  for (std::size_t c = 0; c < b.loads.cases.size(); ++c) {
    const double v = in_kN(b.forces.line_force(c, e)),
                 whole = in_kN(b.forces.line_force(c, b.line_at("A")) + b.forces.line_force(c, b.line_at("C"))) + v;
    if (whole > 1e-6) {
      // A and C 12 m x 0.5 = 6 kN/mm each, E 3.9 of 15.9
      CHECK_THAT(v, WithinRel(whole * 3.9 / 15.9, 1e-6));
      ++right;
    }
    left += whole < -1e-6;
  }
  CHECK(right > 0);
  CHECK(left > 0);
}

TEST_CASE("stiffness has its own units, and is no load along a wall") {
  std::string why;
  CHECK(parse_quantity("1.2 kN/mm", Kind::stiffness, why)->si == 1.2e6);
  CHECK(parse_quantity("0.8 kN/mm/m", Kind::sheet_stiffness, why)->si == 0.8e6);
  // 1 lbf/in = 4.4482216152605 / 0.0254 N/m
  CHECK_THAT(parse_quantity("1 lbf/in", Kind::stiffness, why)->si, WithinRel(4.4482216152605 / 0.0254, 1e-15));
  CHECK_THAT(parse_quantity("12 lbf/in/ft", Kind::sheet_stiffness, why)->si,
             WithinRel(12.0 * 4.4482216152605 / 0.0254 / 0.3048, 1e-15));
  CHECK(!parse_quantity("6 kN/m", Kind::stiffness, why));
  CHECK_THAT(why, Contains("racking rate") && Contains("`kN/mm`"));
  Draft d = closed_box();
  d.fixing(
      "[[sheet]]\nname = \"demo-x\"\nracking = \"6 kN/m\"\nleast_length = \"900 mm\"\nbasis = \"design\"\nstiffness "
      "= \"1.2 kN/mm\"\n");
  CHECK(codes(d) == "wrong-unit ");
}

// ---- how far apart lines may stand
// ------------------------------------------------------------------------------------

TEST_CASE("the greatest distance between lines: the job's own table, or the method's where that is less") {
  const auto spacing = [](const std::string& wind, const std::string& at_most) {
    Draft d = closed_box("8.5 m", "7.8 m");
    d.site = "class = \"" + wind + "\"\ngiven_by = \"a test\"";
    if (!at_most.empty()) d.bracing = {{"lines_at_most", "\"" + at_most + "\""}, {"given_by", "\"a table\""}};
    const Built b(d);
    const Link& l = b.link("spacing D to B");
    const auto& c = l.parts.at(0).capacity;
    return fmt::format("{} {}", c ? fmt::format("{:.1f}", c->si) : "-", words(l.verdict));
  };
  // By AS 4055 lines of N1 and N2 stand at most 9 m apart; for stronger winds its table is not in hand
  CHECK(spacing("N2", "") == "9.0 PASS");
  CHECK(spacing("N2", "8 m") == "8.0 FAIL");
  CHECK(spacing("N2", "12 m") == "9.0 PASS");
  CHECK(spacing("N3", "") == "- NOT JUDGED");
  CHECK(spacing("N3", "8.4 m") == "8.4 FAIL");
  CHECK(spacing("N3", "8.5 m") == "8.5 PASS");
}

TEST_CASE("the greatest distance between lines, floor by floor; slips of the pen") {
  Draft d = two_floor_box("8.5 m");
  const std::pair<std::string, std::string> by{"given_by", "\"a table\""}, apart{"lines_at_most", "\"8 m\""};
  const std::string by_floor = "{ ground = \"9 m\", first = \"8 m\" }";
  const Built b(with(d, {{"lines_at_most", by_floor}, by}));
  CHECK(b.link("spacing ground D to ground B").verdict == Verdict::pass);
  CHECK(b.link("spacing first D to first B").verdict == Verdict::fail);
  const Draft one = closed_box();
  CHECK(codes(with(one, {apart, by})).empty());
  CHECK(codes(with(one, {apart})) == "missing-key ");
  CHECK(codes(with(one, {by})) == "wrong-key ");
  CHECK(codes(with(one, {{"lines_at_most", by_floor}, by})) == "wrong-key ");
  CHECK(codes(with(one, {{"lines_at_most", "\"80 mm\""}, by})) == "unbelievable-value ");
  CHECK(codes(with(one, {{"least", "\"AS 1684\""}})) == "unknown-word ");
  CHECK(codes(with(one, {{"lines_at_least", "\"8 m\""}})) == "unknown-key ");
}

// ---- the least that each line must hold
// -------------------------------------------------------------------------------

namespace {
Draft in_new_zealand(const std::string& front) {
  Draft d = closed_box("10 m", "6 m");
  d.site = "method = \"NZS 3604\"\nzone = \"M\"\ngiven_by = \"a test\"";
  d.mark("L", "{ brace = \"demo-board\" }");
  d.wall("A", "\"" + front + "\"");
  return d;
}
}  // namespace

TEST_CASE("the least that each line must hold: by hand") {
  const Built b(with(in_new_zealand("B 1.2 m | 8.8 m"), least_of_nz));
  for (const Sense sense : {Sense::plus, Sense::minus}) {
    double most = 0.0;
    for (std::size_t c = 0; c < b.forces.cases(); ++c) {
      double push = 0.0;
      for (const char* line : {"A", "C"}) push += b.forces.exact_line_force(c, b.line_at(line)).value();
      if (sense == Sense::minus) push = -push;
      // 100 bracing units are 5 kN; 10 m of outside wall at 15 units a metre 7.5 kN; half of the even share of two
      // lines
      const double must = std::max({5000.0, 7500.0, 0.5 * std::max(push, 0.0) / 2.0});
      CHECK_THAT(least_bracing(b.forces, c, b.line_at("A"), sense).value(), WithinRel(must, 1e-12));
      most = std::max(most, must);
    }
    // 1.2 m of 6 kN/m hold 7.2 kN
    const Link& l = b.link(fmt::format("least bracing of A to the {}", sense == Sense::plus ? "right" : "left"));
    CHECK(l.kind == "least bracing");
    CHECK(l.verdict == Verdict::fail);
    CHECK_THAT(l.use->value, WithinRel(most / 7200.0, 1e-12));
    CHECK(std::ranges::count(l.rests_on_memory, "NZS 3604: least bracing of a line") == 1);
  }
  CHECK(b.link("least bracing of C to the left").verdict == Verdict::pass);
  // It is asked for by the job alone
  const Built without(in_new_zealand("B 1.2 m | 8.8 m"));
  for (const Link& l : without.result.links) CHECK(l.kind != "least bracing");
}

TEST_CASE("the least that each line must hold: lining for half of it, an inside line for 5 kN") {
  // Lining of 0.45 kN/m on 8.8 m holds 3.96 kN, more than half of 7.5: with 1.2 m of sheet 7.2 + 3.75 kN
  Draft d = in_new_zealand("B 1.2 m | L 8.8 m");
  d.fixings.replace(d.fixings.find("racking = \"0.45 kN/m\""), 21, "racking = \"0.60 kN/m\"");  // 5.28 kN
  d.wall("E", "{ from_front = \"3 m\", run = \"B 0.9 m | 9.1 m\" }");
  const Built b(with(d, least_of_nz));
  const std::size_t a = b.line_at("A"), e = b.line_at("E");
  CHECK_THAT(holds_against_least(b.forces, a, Sense::plus, kilonewtons(7.5)).value(),
             WithinRel(7200.0 + 3750.0, 1e-12));
  CHECK_THAT(holds_against_least(b.forces, a, Sense::plus, kilonewtons(20.0)).value(),
             WithinRel(7200.0 + 5280.0, 1e-12));
  for (std::size_t c = 0; c < b.forces.cases(); ++c) {
    double push = 0.0;
    for (const char* line : {"A", "C", "E"}) push += b.forces.exact_line_force(c, b.line_at(line)).value();
    CHECK_THAT(least_bracing(b.forces, c, e, Sense::plus).value(),
               WithinRel(std::max(5000.0, 0.5 * std::max(push, 0.0) / 3.0), 1e-12));
  }
  // 0.9 m hold 5.4 kN
  CHECK(b.link("least bracing of E to the right").parts.at(0).capacity->si == 5400.0);
}

TEST_CASE("the least that each line must hold: nothing passes without a brace, or by allowable strengths") {
  const Built open(with(in_new_zealand("10 m"), least_of_nz));
  CHECK(open.link("least bracing of A to the left").verdict == Verdict::fail);
  CHECK(open.link("least bracing of A to the left").why.code == "no-brace");
  Draft american = closed_box();
  american.site =
      "method = \"ASCE 7-16\"\nspeed = \"115 mph\"\nspeed_is = \"ultimate\"\nexposure = \"B\"\nrisk = \"II\"\nlevel = "
      "\"allowable\"\ntopography = \"flat\"\ngiven_by = \"a test\"";
  american.fixings = plenty("allowable");
  CHECK(codes(with(american, least_of_nz)) == "basis-mismatch ");
}

// ---- narrow sheets
// ----------------------------------------------------------------------------------------------------

TEST_CASE("a narrow sheet counts as its source rules, up to its greatest height over length") {
  const auto holds = [](const std::string& narrow, double length) {
    Draft d = closed_box();
    d.height = "\"2.4 m\"";
    d.fixing(
        "[[sheet]]\nname = \"demo-narrow\"\nracking = \"10 kN/m\"\nleast_length = \"600 mm\"\ngreatest_aspect = "
        "3.5\nbasis = \"design\"\n" +
        narrow);
    d.mark("N", "{ brace = \"demo-narrow\", hold_down = \"demo-rod\" }");
    d.wall("A", fmt::format("\"N {} m | {} m\"", length, 12.0 - length));
    const House h = d.house();
    const BraceCapacity k = brace_capacity(h, h.walls.front(), h.walls.front().pieces.front(),
                                           table("practice/common.toml"), false, nullptr);
    return k.refused.empty() ? in_kN(k.plus) : -1.0;
  };
  // 2.4 m high: up to twice as high as long all of it; 0.8 m long 3 times as high: 2/3 of it, or 1.25 - 0.375 = 0.875
  for (const char* narrow : {"", "narrow = \"2b/h\"\n", "narrow = \"1.25 - 0.125 h/b\"\n"})
    CHECK_THAT(holds(narrow, 1.2), WithinRel(12.0, 1e-12));
  CHECK_THAT(holds("", 0.8), WithinRel(8.0, 1e-12));
  CHECK_THAT(holds("narrow = \"2b/h\"\n", 0.8), WithinRel(8.0 * 2.0 / 3.0, 1e-12));
  CHECK_THAT(holds("narrow = \"1.25 - 0.125 h/b\"\n", 0.8), WithinRel(8.0 * 0.875, 1e-12));
  CHECK(holds("narrow = \"2b/h\"\n", 0.68) == -1.0);  // 3.53
  Draft d = closed_box();
  d.fixing(
      "[[sheet]]\nname = \"demo-x\"\nracking = \"6 kN/m\"\nleast_length = \"900 mm\"\nbasis = \"design\"\nnarrow = "
      "\"2b/h\"\n");
  CHECK(codes(d) == "missing-key ");
}
