// A ground floor framed on stumps: ties, footings and the bracing under it. Invented houses.
#include "load_path/stumps.hpp"
#include "houses.hpp"
#include "job/mirrored.hpp"
#include "recompute.hpp"
#include "report/page.hpp"
#include "report/said_back.hpp"
#include <algorithm>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const std::string stumps =
    "stumps = { max = \"1.8 m\", tie = \"demo-tie\", footing = { width = \"450 mm\", length = \"450 mm\", thickness = "
    "\"600 mm\", weight = \"24 kN/m3\" } }";
const std::string braces =
    "braces = { across = { use = \"demo-unit\", count = 4 }, up = { use = \"demo-unit\", count = 6 } }";

// A box of 6 by 4.2 m, its floor 0.6 m above the ground.
Draft on_stumps(const std::string& keys, Draft d = closed_box("6 m", "4.2 m")) {
  d.site = by_as_nzs;
  d.floor_level = "\"0.6 m\"";
  d.height += fmt::format("\nfloor = {{ ground = {{ {} }} }}", keys);
  d.slab.clear();
  d.mark("B", "{ brace = \"demo-sheet\", hold_down = \"demo-screw\" }").noted("jamb", "\"demo-screw\"");
  d.noted("anchor", "{ use = \"demo-screw\", max = \"1.2 m\" }");
  return d;
}
std::vector<const Link*> of_kind(const Result& r, std::string_view kind) {
  std::vector<const Link*> list;
  for (const Link& l : r.links)
    if (l.kind == kind) list.push_back(&l);
  return list;
}
double capacity(const Link& l, std::string_view name) { return in_kN(quantity<Force>(part(l, name).capacity.value())); }

}  // namespace

// Walls A and C, 6 m, have four spaces of 1.5 m, walls B and D, 4.2 m, three of 1.4 m. At each corner both walls have
// one stump.
TEST_CASE("stumps stand at equal spaces under the walls, and where walls meet they are one") {
  const Built b(on_stumps(stumps));
  CHECK(of_kind(b.result, "stump tie").size() == 5 + 5 + 2 + 2);
  CHECK(of_kind(b.result, "ground").size() == 14);
  const StumpRows rows(b.forces);
  const auto both = std::ranges::count_if(rows.all, [](const Stump& s) { return s.walls.size() == 2; });
  CHECK(both == 4);
  // An inside wall's end, 300 from a stump of the outside wall, whose footing is 450 wide: one and the same.
  Draft d = on_stumps(stumps);
  d.wall("E", "{ from_left = \"3.3 m\", run = \"B 1200 | 1800 | B 1200\" }");
  CHECK(of_kind(Built(d).result, "stump tie").size() == 14 + 2);
  d.wall("E", "{ from_left = \"3.6 m\", run = \"B 1200 | 1800 | B 1200\" }");
  CHECK(of_kind(Built(d).result, "stump tie").size() == 14 + 4);
}

// No truss bears on wall B: its brace of 4.2 m pulls at the fixing at 100 or at that at 4100. Of a pull T at 4100 the
// stump at 2800 has by the lever rule (4200 - 4100) / 1400 = 0.0714286 T. As one beam over three spans of 1.4 m, with
// the moments M1 and M2 at 1400 and 2800:
//   5.6 M1 + 1.4 M2 = 0,  1.4 M1 + 5.6 M2 = -T x 0.1 x (1.4^2 - 0.1^2) / 1.4 = -0.1392857 T
//   M2 = -0.0265306 T,  M1 = 0.0066327 T
//   0.0714286 T + (0.0265306 + 0.0265306 + 0.0066327) T / 1.4                            = 0.1140670 T
TEST_CASE("what a stump has of the pull of the fixings above it, by hand") {
  const Built b(on_stumps(stumps));
  const StumpRows rows(b.forces);
  const std::size_t wall = b.wall_at("B"), last = b.forces.walls[wall].supports.size() - 1;
  const auto third = std::ranges::find(rows.all, "B stump 3", &Stump::words);
  REQUIRE(third != rows.all.end());
  const auto me = static_cast<std::size_t>(third - rows.all.begin());
  std::size_t pulled = 0;
  for (std::size_t c = 0; c < b.forces.cases(); ++c) {
    const double t = in_kN(b.forces.pull(c, wall, last));
    CHECK_THAT(in_kN(rows.pull(c, me)), WithinAbs(0.1140670 * t, 1e-6 * (1.0 + t)));
    pulled += t > 0.0;
  }
  CHECK(pulled > 0);
}

TEST_CASE("stumps together hold no less than what the fixings pull") {
  Draft d = on_stumps(stumps);
  d.wall("E", "{ from_left = \"3.3 m\", run = \"B 1200 | 1800 | B 1200\" }");
  const Built b(d);
  const StumpRows rows(b.forces);
  for (std::size_t c = 0; c < b.forces.cases(); c += 3) {
    Force above = zero<Force>(), below = zero<Force>();
    for (std::size_t w = 0; w < b.forces.walls.size(); ++w)
      for (std::size_t i = 0; i < b.forces.walls[w].supports.size(); ++i) above += b.forces.pull(c, w, i);
    for (std::size_t s = 0; s < rows.all.size(); ++s) {
      below += rows.pull(c, s);
      Force parts = zero<Force>();
      for (const auto& p : rows.made_of(c, s)) parts += p.value;
      CHECK_THAT(parts / kilonewtons(1.0), WithinAbs(in_kN(rows.pull(c, s)), 1e-9));
    }
    CHECK(below >= above * (1.0 - 1e-9));
  }
}

// 0.9 x 24 x 0.45 x 0.45 x 0.6 = 2.6244 kN under a stump; four units of 9 kN across, six up the sheet.
TEST_CASE("what a stump's footing and the braces under the floor hold, by hand") {
  const Built b(on_stumps(stumps + ", " + braces));
  CHECK_THAT(capacity(b.link("ground under A stump 2"), "pull"), WithinAbs(2.6244, 1e-9));
  CHECK_THAT(capacity(b.link("A stump 2"), "pull"), WithinAbs(60.0, 1e-9));
  CHECK_THAT(capacity(b.link("under the floor to the left"), "racking"), WithinAbs(36.0, 1e-9));
  CHECK_THAT(capacity(b.link("under the floor to the back"), "racking"), WithinAbs(54.0, 1e-9));
  // All that stands above the ground: what the lines take, and the lower half of the walls and what is under them.
  for (const char* way : {"right", "back"}) {
    const Link& l = b.link(fmt::format("under the floor to the {}", way));
    const LoadCase& k = b.loads.cases[b.case_at(l.load_case)];
    const Way towards = way == std::string("right") ? Way::right : Way::back;
    double sum = 0.0;
    for (const Push& p : k.push) {
      if (is_across(p.towards) != is_across(towards)) continue;
      const bool wall = std::ranges::any_of(p.part, [](const Point& at) { return at.y <= same_place; });
      Length from = everywhere, to = -everywhere;
      for (const Point& at : p.part) {
        from = std::min(from, at.x);
        to = std::max(to, at.x);
      }
      const Area a = area(p.part) + (wall ? (to - from) * mm(600) : zero<Area>());
      sum += (p.towards == towards ? 1.0 : -1.0) * in_kN(k.combination.wind * p.p * a);
    }
    CHECK_THAT(in_kN(demand(l, "racking")), WithinRel(sum, 1e-9));
    CHECK(l.verdict == (sum > capacity(l, "racking") ? Verdict::fail : Verdict::pass));
  }
  // The unit's sheet ends at 2.7 m.
  Draft high = on_stumps(stumps + ", " + braces);
  high.floor_level = "\"2.8 m\"";
  const Built above(high);
  CHECK(above.link("under the floor to the left").verdict == Verdict::fail);
  CHECK(above.link("under the floor to the left").why.code == "condition-unmet");
}

TEST_CASE("what is not said of a floor on stumps is not judged, or by others") {
  const Built b(on_stumps("edge = true, joists = \"up\", spacing = \"450 mm\", joist_width = \"45 mm\""));
  CHECK(of_kind(b.result, "stump tie").empty());
  for (const Link* l : of_kind(b.result, "ground")) {
    CHECK(l->verdict == Verdict::not_judged);
    CHECK(l->why.code == "stumps-not-stated");
  }
  REQUIRE(of_kind(b.result, "subfloor").size() == 4);
  for (const Link* l : of_kind(b.result, "subfloor")) {
    CHECK(l->verdict == Verdict::not_judged);
    CHECK(words(key_to_add(*l)) == "`braces` or `by_others`");
    CHECK(demand(*l, "racking") > zero<Force>());
  }
  Draft d = on_stumps("stumps = { max = \"1.8 m\" }");
  const Built bare(d);
  for (const char* kind : {"stump tie", "ground"})
    for (const Link* l : of_kind(bare.result, kind)) CHECK(l->verdict == Verdict::not_judged);
  d.by_others = {{"stump tie", "\"somebody\""}, {"ground", "\"somebody\""}, {"subfloor", "\"somebody\""}};
  const Built others(d);
  for (const char* kind : {"stump tie", "ground", "subfloor"})
    for (const Link* l : of_kind(others.result, kind)) CHECK(l->verdict == Verdict::by_others);
  // A brace that does not count pulls all the same, and nobody knows how much.
  Draft short_brace = on_stumps(stumps);
  short_brace.wall("B", "\"B 1200 | 1200 | B 600 | 1200\"");
  const Built open(short_brace);
  CHECK(open.link("B stump 2").verdict == Verdict::not_judged);
  CHECK(open.link("B stump 2").why.code == "brace-does-not-count");
}

TEST_CASE("what cannot stand under a floor on stumps is refused") {
  const auto code_of = [](const Draft& d) {
    const Opened o = d.opened();
    CHECK_FALSE(o.house.has_value());
    return o.problems.empty() ? std::string() : o.problems.front().code;
  };
  Draft on_concrete = on_stumps(stumps), slab = on_stumps(stumps);
  on_concrete.noted("anchor", "{ use = \"demo-bolt\", max = \"1.2 m\" }");
  CHECK(code_of(on_concrete) == "anchor-on-the-wrong-floor");
  slab.slab = {{"thickness", "\"100 mm\""}};
  CHECK(code_of(slab) == "wrong-key");
  CHECK(code_of(on_stumps("stumps = { max = \"1.8 m\", footing = { width = \"1 m\", length = \"0.4 m\", thickness = "
                          "\"0.6 m\", weight = "
                          "\"24 kN/m3\" } }")) == "footing-too-long");
  CHECK(code_of(on_stumps("stumps = { max = \"1.8 m\", tie = \"demo-bolt\" }")) == "wrong-sort-of-fixing");
  CHECK(code_of(on_stumps("braces = { across = { use = \"demo-unit\" } }")) == "missing-key");
}

TEST_CASE("a floor on stumps is said back, its working comes out again, and its mirror holds the same") {
  const std::string joists = ", joists = \"up\", spacing = \"450 mm\", joist_width = \"45 mm\", blocking = true";
  const Built b(on_stumps(stumps + ", " + braces + joists));
  CHECK_THAT(said_back(b.house, set_out(b.house, b.practice), b.result.roof, Look{false}),
             Contains("on stumps, no slab") && Contains("1800 mm apart") && Contains("4 of demo-unit"));
  for (std::size_t i = 0; i < b.result.links.size(); ++i) {
    const Link& l = b.result.links[i];
    const bool on_a_stump = l.where.words.find("stump") != std::string::npos && i % 4 == 0;
    if (!on_a_stump && l.kind != "subfloor") continue;
    INFO(l.where.words);
    const Working w = explain(b.house, b.method, b.practice, b.result, i, metric);
    CHECK(orphan(w) == "");
    const recompute::Outcome again = recompute::recompute(w);
    for (const std::string& miss : again.misses) FAIL_CHECK(miss);
    CHECK(again.checked > 2);
  }
  const auto uses = [](const Result& r) {
    std::vector<double> all;
    for (const char* kind : {"stump tie", "ground", "subfloor"})
      for (const Link* l : of_kind(r, kind)) all.push_back(l->use.value().value);
    std::ranges::sort(all);
    return all;
  };
  for (const Mirror m : {Mirror::left_right, Mirror::front_back}) {
    const auto here = uses(b.result), there = uses(check(mirrored(b.house, m), b.method, b.practice));
    REQUIRE(here.size() == there.size());
    for (std::size_t i = 0; i < here.size(); ++i) CHECK_THAT(here[i], WithinAbs(there[i], 1e-9));
  }
}
