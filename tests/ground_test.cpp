// What the concrete under a fixing weighs, and that none of it holds twice. Invented houses.
#include "load_path/ground.hpp"
#include "houses.hpp"
#include "job/mirrored.hpp"
#include "recompute.hpp"
#include "report/page.hpp"
#include "report/said_back.hpp"
#include "said.hpp"
#include <algorithm>
#include <random>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

std::string edge_of(const std::string& keys) { return fmt::format("{{ {}, given_by = \"a test\" }}", keys); }
// 300 x 450 under outside walls.
Draft on_an_edge(const std::string& more = "", Draft d = closed_box()) {
  d.site = by_as_nzs;
  d.slab.emplace_back("weight", "\"24 kN/m3\"");
  d.slab.emplace_back("edge", edge_of("width = \"300 mm\", depth = \"450 mm\"" + more));
  return d;
}
double capacity(const Link& l, std::string_view name) { return in_kN(quantity<Force>(part(l, name).capacity.value())); }
std::vector<const Link*> ground_links(const Result& r) {
  std::vector<const Link*> list;
  for (const Link& l : r.links)
    if (l.kind == "ground") list.push_back(&l);
  return list;
}
const Link& named(const Result& r, std::string_view words) {
  for (const Link& l : r.links)
    if (l.where.words == words) return l;
  throw std::runtime_error("no such link");
}

}  // namespace

// ---- the figures ----------------------------------------------------------------------------------------------------

// Wall A is one brace of 12 m: hold-downs 100 in from its ends, the 11.8 m between them in ten spaces of 1.18 m. The
// edge weighs 24 x 0.3 x 0.45 = 3.24 kN/m, and 0.9 of that counts: 2.916 kN/m.
//   a fixing with two neighbours   1.18 m                                          3.44088 kN
//   the first, at 100              from half of the corner's 300, 150, to 690      1.57464 kN
TEST_CASE("half way to the neighbours, by hand") {
  const Built b(on_an_edge());
  CHECK_THAT(capacity(b.link("ground under A anchor 4"), "pull"), WithinAbs(3.44088, 1e-6));
  CHECK_THAT(capacity(b.link("ground under A1 left"), "pull"), WithinAbs(1.57464, 1e-6));
  CHECK_THAT(capacity(b.link("ground under A1 right"), "pull"), WithinAbs(1.57464, 1e-6));
  // With 600 of slab 100 thick: 0.135 + 0.06 = 0.195 m2, 4.68 kN/m, 4.212 kN/m counted; a corner takes 450 of each
  // wall.
  //   1.18 m                  4.97016 kN
  //   450 to 690              1.01088 kN
  const Built wide(on_an_edge(", slab_width = \"600 mm\", slab_thickness = \"100 mm\""));
  CHECK_THAT(capacity(wide.link("ground under A anchor 4"), "pull"), WithinAbs(4.97016, 1e-6));
  CHECK_THAT(capacity(wide.link("ground under A1 left"), "pull"), WithinAbs(1.01088, 1e-6));
  // The demand is the anchor's own pull, whatever lies under it.
  for (const char* at : {"A anchor 4", "A1 left"}) {
    CHECK(part(b.link(fmt::format("ground under {}", at)), "pull").greatest == part(wide.link(at), "pull").greatest);
    CHECK(b.link(fmt::format("ground under {}", at)).parts.size() == 1);
  }
}

// 3 m stated: 1.5 m to either side of a fixing, 3 x 2.916 = 8.748 kN; of the first 150 to 1600, 1.45 m, 4.2282 kN.
TEST_CASE("a stated length goes to either side, and a row has no more than lies under it") {
  const Built b(on_an_edge(", lifted = \"3 m\""));
  const Link& middle = b.link("ground under A anchor 4");
  CHECK_THAT(capacity(middle, "pull"), WithinAbs(8.748, 1e-6));
  CHECK_THAT(capacity(b.link("ground under A1 left"), "pull"), WithinAbs(4.2282, 1e-6));
  // Where trusses lift all along, a row of them asks for more than one: the whole wall, 12 m less 150 at each end,
  // weighs 11.7 x 2.916 = 34.1172 kN, and no row can have more.
  const LinkPart& row = part(middle, "pull in a row");
  REQUIRE(row.made_of.size() > 1);
  double sum = 0.0;
  for (const MadeOf& m : row.made_of) sum += m.value.si;
  CHECK_THAT(sum, WithinRel(row.demand.si, 1e-12));
  CHECK(capacity(middle, "pull in a row") <= 34.1172 + 1e-6);
  CHECK(row.use->value > part(middle, "pull").use->value);
  CHECK(middle.use->value == row.use->value);
}

// 0.9 x 24 x 0.5 x 0.4 x 0.6 = 2.592 kN under a post.
TEST_CASE("a post's footing, by hand") {
  const auto post = [](const std::string& footing, bool known = true) {
    Draft d = closed_box();
    d.site = by_as_nzs;
    d.verandas = {{"V",
                   {{"against", "\"A\""},
                    {"depth", "\"2.4 m\""},
                    {"pitch", "\"5 deg\""},
                    {"weight", "\"0.15 kPa\""},
                    {"rafters", "{ mark = \"R1\", max = \"1 m\" }"},
                    {"posts", fmt::format("{{ max = \"3 m\", footing = {{ {} }} }}", footing)},
                    {"net_uplift", "{ pressure = \"0.6 kPa\", given_by = \"a letter\" }"}}}};
    if (!known) d.verandas.front().second.pop_back();
    return Built(d);
  };
  const std::string plan = "width = \"500 mm\", length = \"400 mm\"", weight = "weight = \"24 kN/m3\"";
  const Built b = post(plan + ", thickness = \"600 mm\", " + weight);
  const Link& l = b.link("ground under V post 1");
  CHECK_THAT(capacity(l, "pull"), WithinAbs(2.592, 1e-9));
  CHECK_THAT(l.use->value, WithinRel(in_kN(demand(l, "pull")) / 2.592, 1e-9));
  CHECK(l.verdict == (l.use->value > 1.0 ? Verdict::fail : Verdict::pass));
  for (const std::string& lacking : {plan + ", thickness = \"600 mm\"", plan + ", " + weight,
                                     "width = \"500 mm\", thickness = \"600 mm\", " + weight}) {
    const Built less = post(lacking);
    CHECK(less.link("ground under V post 1").verdict == Verdict::not_judged);
    CHECK(less.link("ground under V post 1").why.code == "footing-not-stated");
  }
  // What lifts it is not known: whatever weighs under it answers nothing.
  const Built unknown = post(plan + ", thickness = \"600 mm\", " + weight, false);
  CHECK(unknown.link("ground under V post 1").verdict == Verdict::not_judged);
  CHECK(unknown.link("ground under V post 1").why.code == "veranda-not-known");
}

// ---- laws -----------------------------------------------------------------------------------------------------------

// Another way to the same answer: from one end of the wall to the other each fixing takes what its pull needs from the
// nearest free concrete within its reach. It finds enough for all if, and only if, no row asks for too much.
TEST_CASE("rows hold if and only if the concrete can be shared out") {
  std::mt19937 random(7);
  const auto pick = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(random); };
  std::size_t enough = 0, short_of = 0;
  for (int house = 0; house < 12; ++house) {
    Draft d = closed_box("9 m", "6 m");
    d.site = by_as_nzs;
    d.mark("D1", "\"2100 x 900\"").wall("A", "\"B 1800 | 1200 | D1 | 3300 | B 1800\"");
    d.slab.emplace_back("weight", "\"24 kN/m3\"");
    const int lifted = pick(8, 60) * 100, depth = pick(3, 20) * 100;
    d.slab.emplace_back(
        "edge", edge_of(fmt::format("width = \"400 mm\", depth = \"{} mm\", lifted = \"{} mm\"", depth, lifted)));
    const Built b(d);
    const Ground ground(b.forces);
    const double kN_a_metre = 0.9 * 24.0 * 0.4 * depth / 1000.0;
    for (std::size_t w = 0; w < b.house.walls.size(); ++w)
      for (std::size_t c = 0; c < b.forces.cases(); c += 5) {
        REQUIRE(b.forces.of(c).combination.dead == 0.9);
        const double end = b.house.walls[w].length().value() - 0.2;  // half of the corner's 400
        double taken_to = 0.2, worst = 0.0, nearest = 10.0;
        bool shared = true;
        for (std::size_t i = 0; i < b.forces.walls[w].supports.size(); ++i) {
          const double pull = in_kN(b.forces.pull(c, w, i)), x = b.forces.walls[w].supports[i].at.value();
          const PulledEdge row = ground.row(c, w, i);
          if (!(pull > 0.0)) continue;
          const double use = row.pull / row.holds;
          worst = std::max(worst, use);
          nearest = std::min(nearest, std::abs(use - 1.0));
          taken_to = std::max(taken_to, x - lifted / 2000.0) + pull / kN_a_metre;
          shared = shared && taken_to <= std::min(end, x + lifted / 2000.0);
        }
        if (nearest < 1e-9) continue;
        INFO("house " << house << ", wall " << w << ", case " << c << ": " << worst);
        CHECK(shared == (worst <= 1.0));
        if (worst > 0.0) (shared ? enough : short_of) += 1;
      }
  }
  CHECK(enough > 50);
  CHECK(short_of > 50);
}

TEST_CASE("more concrete never holds less, and what pulls stays") {
  for (const char* lifted : {"", ", lifted = \"2.4 m\""}) {
    const auto of = [&](const std::string& size) {
      Draft d = closed_box();
      d.site = by_as_nzs;
      d.slab.emplace_back("weight", "\"24 kN/m3\"");
      d.slab.emplace_back("edge", edge_of(size + lifted));
      return Built(d);
    };
    const Built base = of("width = \"300 mm\", depth = \"450 mm\""),
                deep = of("width = \"300 mm\", depth = \"600 mm\"");
    const auto less = ground_links(base.result), more = ground_links(deep.result);
    REQUIRE(less.size() == more.size());
    for (std::size_t i = 0; i < less.size(); ++i) {
      INFO(less[i]->where.words);
      CHECK(demand(*less[i], "pull") == demand(*more[i], "pull"));
      CHECK_THAT(capacity(*more[i], "pull"), WithinRel(capacity(*less[i], "pull") * 600.0 / 450.0, 1e-12));
      CHECK(more[i]->use->value <= less[i]->use->value);
      CHECK((less[i]->verdict != Verdict::pass || more[i]->verdict == Verdict::pass));
    }
  }
}

TEST_CASE("a mirrored house has the same under its fixings") {
  Draft d = on_an_edge(", lifted = \"2 m\"");
  d.slab.emplace_back("whole", "{ thickness = \"100 mm\", friction = 0.4, given_by = \"a test\" }");
  d.mark("D1", "\"2100 x 900\"").wall("A", "\"B 1800 | 1200 | D1 | 6300 | B 1800\"");
  d.trusses = "{ mark = \"T1\", max = \"0.9 m\", odd_space = \"middle\" }";
  const House h = d.house();
  const Result one = check(h, table(table_for(h.site)), table("practice/common.toml"));
  for (const Mirror m : {Mirror::left_right, Mirror::front_back}) {
    const House turned = mirrored(h, m);
    const Result other = check(turned, table(table_for(h.site)), table("practice/common.toml"));
    const auto uses = [](const Result& r) {
      std::vector<double> all;
      for (const Link& l : r.links)
        if (l.kind == "ground" || l.kind.starts_with("house")) all.push_back(l.use.value().value);
      std::ranges::sort(all);
      return all;
    };
    const auto a = uses(one), b = uses(other);
    REQUIRE(a.size() == b.size());
    for (std::size_t i = 0; i < a.size(); ++i) CHECK_THAT(a[i], WithinRel(b[i], 1e-9));
  }
}

// ---- what is missing or doubtful ------------------------------------------------------------------------------------

TEST_CASE("concrete of which nothing is said is not judged, or by others") {
  Draft d = on_an_edge(", lifted = \"6 m\"");
  d.wall("E", "{ from_left = \"6 m\", run = \"B 1800 | 4200 | B 1800\" }");
  const Built b(d);
  CHECK(b.link("ground under A1 left").verdict != Verdict::not_judged);
  const Link& inside = b.link("ground under E1 front");
  CHECK(inside.verdict == Verdict::not_judged);
  CHECK(inside.why.code == "inside-edge-not-stated");
  CHECK(words(key_to_add(inside)) == "`[slab] inside` or `by_others`");
  CHECK(!inside.use);
  Draft handed_over = d;
  handed_over.by_others = {{"ground", "\"somebody\""}};
  const Built others(handed_over);
  CHECK(others.link("ground under E1 front").verdict == Verdict::by_others);
  CHECK(others.link("ground under A1 left").verdict == b.link("ground under A1 left").verdict);
  d.slab.emplace_back("inside", edge_of("width = \"400 mm\", depth = \"300 mm\""));
  // E stands on 400 x 300: 0.9 x 24 x 0.12 = 2.592 kN/m. Each of its ends lies in the outside walls' concrete, at most
  // 400 wide: nothing is left of what lies half way to the fixing at 100.
  const Built both(d);
  const Link& judged = both.link("ground under E1 front");
  CHECK(judged.verdict == Verdict::fail);
  CHECK_THAT(why_words(judged), Contains("weighs too little"));
}

TEST_CASE("a brace that does not count leaves the ground of its wall open") {
  // The sheet counts from 900 on.
  Draft d = on_an_edge();
  Draft::set(d.slab, "edge", edge_of("width = \"2 m\", depth = \"2 m\", lifted = \"12 m\""));
  d.wall("A", "\"B 3000 | 3000 | B 600 | 2400 | B 3000\"");
  const Built b(d);
  const Link& beside = b.link("ground under A1 left");
  CHECK(beside.verdict == Verdict::not_judged);
  CHECK(beside.why.code == "brace-does-not-count");
  // On another wall it has no part.
  CHECK(b.link("ground under C1 left").verdict != Verdict::not_judged);
}

TEST_CASE("concrete that two walls would share is not judged") {
  const auto with_walls = [](const char* f) {
    Draft d = on_an_edge(", lifted = \"6 m\"");
    d.slab.emplace_back("inside", edge_of("width = \"300 mm\", depth = \"300 mm\""));
    d.wall("E", "{ from_left = \"6 m\", run = \"B 1800 | 4200 | B 1800\" }");
    d.wall("F", fmt::format("{{ from_left = \"{}\", run = \"B 1800 | 4200 | B 1800\" }}", f));
    return Built(d);
  };
  const Built near = with_walls("6.2 m"), off = with_walls("6.3 m");
  for (const char* wall : {"E", "F"}) {
    const Link& l = near.link(fmt::format("ground under {}1 front", wall));
    CHECK(l.verdict == Verdict::not_judged);
    CHECK(l.why.code == "edges-overlap");
    CHECK(off.link(fmt::format("ground under {}1 front", wall)).why.code != "edges-overlap");
  }
  CHECK(near.link("ground under A1 left").why.code != "edges-overlap");
}

// ---- what is written and said ---------------------------------------------------------------------------------------

TEST_CASE("what is written of the concrete and cannot be is refused") {
  struct Case {
    const char *key, *to, *code;
  };
  for (const Case& x :
       {Case{"edge", "{ width = \"300 mm\", depth = \"450 mm\" }", "missing-key"},
        {"edge", "{ width = \"300 mm\", depth = \"450 mm\", slab_width = \"1 m\", given_by = \"x\" }", "missing-key"},
        {"edge", "{ width = \"300 mm\", depth = \"450 mm\", slab_thickness = \"100 mm\", given_by = \"x\" }",
         "missing-key"},
        {"edge",
         "{ width = \"300 mm\", depth = \"100 mm\", slab_width = \"1 m\", slab_thickness = \"200 mm\", given_by = "
         "\"x\" }",
         "slab-deeper-than-its-edge"},
        {"edge", "{ width = \"30 mm\", depth = \"450 mm\", given_by = \"x\" }", "unbelievable-value"},
        {"weight", "\"24 kg/m3\"", "wrong-unit"},
        {"weight", "24", "bare-number"},
        {"weight", "\"2.4 kN/m3\"", "unbelievable-value"},
        {"weight", "", "missing-key"}}) {
    INFO(x.key << " = " << x.to);
    Draft d = on_an_edge();
    Draft::set(d.slab, x.key, x.to);
    const Opened o = d.opened();
    CHECK_FALSE(o.house.has_value());
    REQUIRE_FALSE(o.problems.empty());
    CHECK(o.problems.front().code == x.code);
  }
}

TEST_CASE("the concrete is said back, and its working comes out again") {
  Draft d = on_an_edge(", slab_width = \"600 mm\", slab_thickness = \"100 mm\", lifted = \"2 m\"");
  d.slab.emplace_back("inside", edge_of("width = \"400 mm\", depth = \"300 mm\""));
  d.wall("E", "{ from_left = \"6 m\", run = \"B 2400 | 3000 | B 2400\" }");
  const Built b(d);
  const std::string said = said_back(b.house, set_out(b.house, b.practice), b.result.roof, Look{false});
  CHECK_THAT(said, Contains("300 mm wide, 450 mm deep") && Contains("24 kN/m^3") && Contains("given by a test"));
  for (std::size_t i = 0; i < b.result.links.size(); ++i) {
    const Link& l = b.result.links[i];
    if (l.kind != "ground" || i % 3 != 0) continue;
    INFO(l.where.words);
    const Working w = explain(b.house, b.method, b.practice, b.result, i, metric);
    CHECK(orphan(w) == "");
    const recompute::Outcome again = recompute::recompute(w);
    CHECK(again.checked > 5);
    for (const std::string& miss : again.misses) FAIL_CHECK(miss);
    for (const LinkPart& p : l.parts)
      if (p.demand.si > 0.0)
        CHECK(std::ranges::any_of(w.steps, [&](const Step& s) { return s.result == *p.capacity; }));
  }
}

// ---- the house as one block
// ------------------------------------------------------------------------------------------

namespace {
Draft on_a_slab(const std::string& whole, const char* site = "class = \"N3\"\ngiven_by = \"a test\"") {
  Draft d = on_an_edge();
  d.site = site;
  d.slab.emplace_back("whole", fmt::format("{{ thickness = \"100 mm\", {}given_by = \"a test\" }}", whole));
  return d;
}
double moment(const std::optional<Value>& v) { return quantity<Moment>(v.value()).value() / 1000.0; }
}  // namespace

// A box of 12 by 7.8 m, walls 2.7 m, floor 0.3 m above the ground, gables at 22.5 degrees. N3: 0.96 x 1.5 = 1.44 kPa
// onto an end, on both end walls together:
//   wall       7.8 x 2.7                       21.06 m2        its middle 0.3 + 1.35            1.65 m up
//   gable      3.9 x 3.9 x tan 22.5            6.3001883 m2    0.3 + 2.7 + 1.6154329 / 3        3.5384776 m
//   slab       7.8 x 0.3                       2.34 m2                                          0.15 m
//   push       1.44 x 29.7001883               42.768271 kN
//   about the ground   1.44 x (34.749 + 22.2930753 + 0.351)                                     82.645987 kN m
// Concrete: 24 x 0.1 x 12 x 7.8 = 224.64 kN, edges 24 x 0.3 x 0.35 x (2 x 19.8 - 1.2) = 96.768 kN; 321.408 kN together.
TEST_CASE("the whole house: push, weight and moments by hand") {
  const Built b(on_a_slab("friction = 0.4, "));
  std::size_t seen = 0;
  for (const auto& [words, half] : {std::pair{"house slides to the right", 6.0}, {"house slides to the left", 6.0}}) {
    const Link& l = b.link(words);
    const std::size_t c = b.case_at(l.load_case);
    const Combination& by = b.loads.cases[c].combination;
    CHECK_THAT(in_kN(demand(l, "slide")), WithinRel(by.wind * 42.768271, 1e-6));
    double up = 0.0;
    for (std::size_t i = 0; i < b.forces.roof.bearings().size(); ++i) up += std::max(0.0, in_kN(b.forces.uplift(c, i)));
    CHECK_THAT(capacity(l, "slide"), WithinRel(0.4 * (by.dead * 321.408 - up), 1e-9));
    CHECK(l.use->value == part(l, "slide").use->value);
    const Link& t = b.link(words == std::string("house slides to the right") ? "house tips to the right"
                                                                             : "house tips to the left");
    const std::size_t tc = b.case_at(t.load_case);
    const Combination& tips = b.loads.cases[tc].combination;
    CHECK_THAT(moment(part(t, "tip").capacity), WithinRel(tips.dead * 321.408 * half, 1e-9));
    // Both ends are alike, so what lifts the roof has its middle half-way along.
    double lifted = 0.0;
    for (std::size_t i = 0; i < b.forces.roof.bearings().size(); ++i) {
      const Foot& foot = b.forces.roof.bearings()[i].feet.front();
      const double x = foot.at.value();
      const bool right = t.where.words.ends_with("right");
      lifted += std::max(0.0, in_kN(b.forces.uplift(tc, i))) * (right ? 12.0 - x : x);
    }
    CHECK_THAT(moment(part(t, "tip").demand), WithinRel(tips.wind * 82.645987 + lifted, 1e-6));
    ++seen;
  }
  CHECK(seen == 2);
}

// By AS 4055 the push on a long side stands for the upper half of its walls and the roof together; the lower half has a
// wall's own, 0.96 q, which is more than that under a low roof.
TEST_CASE("the lower half of a wall under a sloping roof is pushed as a wall") {
  const Built b(on_a_slab("friction = 0.4, "));
  const Link& l = b.link("house slides to the back");
  const LoadCase& k = b.loads.cases[b.case_at(l.load_case)];
  double upper = 0.0;
  for (const Push& p : k.push)
    if (p.towards == Way::back) upper += in_kN(p.p * area(between_y(p.part, mm(1350), everywhere)));
  // below it: half of the wall and the slab, 12 x (1.35 + 0.3) x 1.44 = 28.512 kN
  CHECK_THAT(in_kN(demand(l, "slide")), WithinRel(k.combination.wind * (upper + 28.512), 1e-6));
}

TEST_CASE("the whole house is judged on what is stated of it alone") {
  const auto links = [](const Built& b, std::string_view kind) {
    std::vector<const Link*> r;
    for (const Link& l : b.result.links)
      if (l.kind == kind) r.push_back(&l);
    return r;
  };
  const auto not_looked = [](const Built& b) {
    return std::ranges::any_of(b.result.not_looked_at,
                               [](const NotLookedAt& n) { return n.key_to_add == "[slab] whole"; });
  };
  // N3 lifts this roof by more than a slab of 100 can spare; one of 200 holds.
  Draft heavy = on_a_slab("");
  Draft::set(heavy.slab, "whole", "{ thickness = \"200 mm\", friction = 0.6, given_by = \"a test\" }");
  const Built without(on_an_edge()), no_friction(on_a_slab("")), with(heavy);
  CHECK(links(without, "house slide").empty());
  CHECK(links(without, "house tip").empty());
  CHECK(not_looked(without));
  CHECK_FALSE(not_looked(with));
  REQUIRE(links(no_friction, "house slide").size() == 4);
  for (const Link* l : links(no_friction, "house slide")) {
    CHECK(l->verdict == Verdict::not_judged);
    CHECK(l->why.code == "friction-not-stated");
  }
  for (const Link* l : links(no_friction, "house tip")) CHECK(l->verdict == Verdict::pass);
  for (const Link* l : links(with, "house slide")) CHECK(l->verdict == Verdict::pass);
  Draft slippery = on_a_slab("friction = 0.05, ");
  const Built fails(slippery);
  for (const Link* l : links(fails, "house slide")) {
    CHECK(l->verdict == Verdict::fail);
    CHECK_THAT(why_words(*l), Contains("friction"));
  }
  slippery.verandas = {{"V",
                        {{"against", "\"A\""},
                         {"depth", "\"2.4 m\""},
                         {"pitch", "\"5 deg\""},
                         {"weight", "\"0.15 kPa\""},
                         {"rafters", "{ mark = \"R1\", max = \"1 m\" }"},
                         {"posts", "{ max = \"3 m\" }"}}}};
  const Built beside(slippery);
  for (const Link* l : links(beside, "house slide")) {
    CHECK(l->verdict == Verdict::not_judged);
    CHECK(l->why.code == "veranda-on-the-house");
  }
}

TEST_CASE("the whole house: heavier never holds less, and its working comes out again") {
  Draft d = on_a_slab("friction = 0.4, ", by_as_nzs);
  d.wall_weight = "\"0.25 kPa\"";
  const Built b(d), bare(on_a_slab("friction = 0.4, ", by_as_nzs));
  for (std::size_t i = 0; i < b.result.links.size(); ++i) {
    const Link& l = b.result.links[i];
    if (!l.kind.starts_with("house")) continue;
    INFO(l.where.words);
    CHECK(l.use->value < named(bare.result, l.where.words).use->value);
    const Working w = explain(b.house, b.method, b.practice, b.result, i, metric);
    CHECK(orphan(w).empty());
    const recompute::Outcome again = recompute::recompute(w);
    CHECK(again.checked > 5);
    for (const std::string& miss : again.misses) FAIL_CHECK(miss);
    CHECK(w.steps.back().result == value(l.use->value));
  }
}
