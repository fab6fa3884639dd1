// Fixings as they were found on site: moved, missing, of another sort, one more; and what cannot be set against the
// plan.
#include "belay/check.hpp"
#include "found_on_site.hpp"
#include "houses.hpp"
#include "report/screen.hpp"
#include "said.hpp"
#include <catch2/catch.hpp>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;

namespace {

// A wall of 9 m with a brace of 1.2 m at either end; hold-downs 100 mm in, anchors at most 1.2 m apart between them.
Draft planned() {
  Draft d = closed_box("9 m");
  d.wall("A", "\"B 1.2 m | 6.6 m | B 1.2 m\"").noted("hold_down_in", "\"100 mm\"");
  return d;
}
const Link& hold_down(const Result& r, std::string_view words) {
  for (const Link& l : r.links)
    if (l.where.words == words && (l.kind == "hold-down" || l.kind == "anchor")) return l;
  throw std::runtime_error(fmt::format("no hold-down {}", words));
}
double greatest(const Link& l, std::string_view part) {
  for (const LinkPart& p : l.parts)
    if (p.part == part) return p.greatest.si;
  throw std::runtime_error("no such part");
}

}  // namespace

TEST_CASE("as built: all as planned changes nothing") {
  const Built plan(planned());
  Site site;
  for (const Support& s : plan.forces.walls[0].supports)
    site.found("A", fmt::format("planned = \"{:.0f} mm\"\nat = \"{:.0f} mm\"", s.at.value() * 1e3, s.at.value() * 1e3));
  const Built same(with(planned(), site));
  CHECK(same.result.as_built.empty());
  REQUIRE(same.result.links.size() == plan.result.links.size());
  for (std::size_t i = 0; i < plan.result.links.size(); ++i) {
    CHECK(same.result.links[i].verdict == plan.result.links[i].verdict);
    CHECK(same.result.links[i].where.words == plan.result.links[i].where.words);
  }
}

TEST_CASE("as built: a hold-down found further in has the shorter arm, by hand") {
  // Planned 100 mm in, found at 150 mm: the arm is 1.2 - 0.15 - 0.025 m instead of 1.2 - 0.1 - 0.025 m, for both ends.
  const Built plan(planned());
  const Built built(with(planned(), Site().found("A", "planned = \"100 mm\"\nat = \"150 mm\"")));
  const std::size_t a1 = built.brace_at("A1");
  CHECK_THAT(built.forces.arm(a1).value(), Catch::Matchers::WithinAbs(1.025, 1e-12));
  CHECK_THAT(plan.forces.arm(plan.brace_at("A1")).value(), Catch::Matchers::WithinAbs(1.075, 1e-12));
  CHECK_THAT(built.forces.arm(built.brace_at("A2")).value(), Catch::Matchers::WithinAbs(1.075, 1e-12));
  CHECK(hold_down(built.result, "A1 left").where.from_start->value() == 0.15);
  CHECK(greatest(hold_down(built.result, "A1 left"), "pull") > greatest(hold_down(plan.result, "A1 left"), "pull"));
  REQUIRE(built.result.as_built.size() == 1);
  CHECK(built.result.as_built[0] == "wall A: planned at 100: found at 150");
  // Past the reach of common practice it holds nothing, whatever the sums say
  const Built far(with(planned(), Site().found("A", "planned = \"100 mm\"\nat = \"160 mm\"")));
  CHECK(hold_down(far.result, "A1 left").verdict == Verdict::fail);
  CHECK(hold_down(far.result, "A1 left").why.code == "condition-unmet");
}

TEST_CASE("as built: the measured edge counts, and alone where the plate's width is not stated") {
  Draft d = planned();
  d.fixing(
      "[[anchor]]\nname = \"demo-edge\"\nhow = \"cast in\"\npull = \"90 kN\"\nslide = \"90 kN\"\ntogether = \"straight "
      "sum\"\nleast_edge = \"45 mm\"\nleast_spacing = \"10 mm\"\nconcrete = \"20 MPa\"\ncracked = true\nbasis = "
      "\"design\"\ncyclic = \"tested\"\n");
  d.mark("B", "{ brace = \"demo-sheet\", hold_down = \"demo-edge\" }");
  const auto verdict = [&](const char* edge) {
    Site site;
    site.found("A", fmt::format("planned = \"100 mm\"\nedge = \"{}\"", edge));
    return hold_down(Built(with(d, site)).result, "A1 left").verdict;
  };
  CHECK(verdict("45 mm") == Verdict::pass);
  CHECK(verdict("44 mm") == Verdict::fail);
  CHECK(hold_down(Built(d).result, "A1 left").verdict == Verdict::pass);  // half of a plate of 90 mm
}

TEST_CASE("as built: a missing hold-down leaves its end loose, a missing anchor gives its load to those beside it") {
  const Built plan(planned());
  const Built without(with(planned(), Site().found("A", "planned = \"100 mm\"\nmissing = true")));
  const Link& loose = without.link("A1 left", "hold-down");
  CHECK(loose.verdict == Verdict::fail);
  CHECK(loose.why.code == "no-hold-down-near");
  CHECK(without.result.answer == Answer::fail);
  // Anchors between the hold-downs at 1100 and 7900: five equal spaces and more
  const auto& supports = plan.forces.walls[0].supports;
  const std::size_t taken = 3;
  REQUIRE(supports[taken].kind == FixingKind::anchor);
  const Built fewer(with(planned(), Site().found("A", fmt::format("planned = \"{:.1f} mm\"\nmissing = true",
                                                                  supports[taken].at.value() * 1e3))));
  CHECK(fewer.forces.walls[0].supports.size() == supports.size() - 1);
  for (std::size_t c = 0; c < plan.forces.cases(); ++c)
    for (const std::size_t k : {taken - 1, taken + 1}) {
      const double before = plan.forces.pull(c, 0, k).value(),
                   after = fewer.forces.pull(c, 0, k > taken ? k - 1 : k).value();
      CHECK(after >= before * (1.0 - 1e-9));
    }
}

TEST_CASE("as built: the only fixing of a length of plate that is missing fails in its place") {
  Draft d = planned();
  // A pier of 160 mm between two doors has one fixing in its middle
  d.wall("A", "\"B 1.2 m | D1 | 0.16 m | D1 | 4 m | B 1.2 m\"").mark("D1", "\"2100 x 1220\"");
  const Built plan(d);
  const auto pier = std::find_if(plan.forces.walls[0].plates.begin(), plan.forces.walls[0].plates.end(),
                                 [](const Plate& p) { return p.supports.size() == 1; });
  REQUIRE(pier != plan.forces.walls[0].plates.end());
  const Support& only = plan.forces.walls[0].supports[pier->supports[0]];
  const Built without(
      with(d, Site().found("A", fmt::format("planned = \"{:.1f} mm\"\nmissing = true", only.at.value() * 1e3))));
  std::size_t failed = 0;
  for (const Link& l : without.result.links)
    if (l.why.code == "missing-as-built") {
      ++failed;
      CHECK(l.verdict == Verdict::fail);
      CHECK(greatest(l, "pull") > 0.0);  // what comes to it is told
    }
  CHECK(failed == 1);
}

TEST_CASE("as built: another sort, and one more") {
  const Built other(with(planned(), Site().found("A", "planned = \"100 mm\"\nuse = \"demo-bolt\"")));
  CHECK(hold_down(other.result, "A1 left").fixing.name == "demo-bolt");
  CHECK(hold_down(other.result, "A1 left").fixing.by == "as built");
  CHECK(other.result.as_built[0] == "wall A: planned at 100: demo-bolt for demo-rod");
  const Built more(with(planned(), Site().found("A", "at = \"1.5 m\"\nuse = \"demo-rod\"")));
  CHECK(more.forces.walls[0].supports.size() == Built(planned()).forces.walls[0].supports.size() + 1);
  CHECK(more.result.as_built[0] == "wall A: one more, demo-rod, at 1500");
}

TEST_CASE("as built: what cannot be set against the plan is not judged, and never passes") {
  for (const auto& [keys, words] :
       {std::pair{"planned = \"130 mm\"", "no fixing is planned at 130"},
        {"planned = \"100 mm\"\n[[as_built]]\nwall = \"A\"\nplanned = \"100 mm\"",
         "two entries speak of the fixing planned at 100"},
        {"at = \"100 mm\"\nuse = \"demo-rod\"", "one stands there in the plan"},
        {"planned = \"100 mm\"\nat = \"1.1 m\"", "two fixings of wall A were found on one"}}) {
    INFO(keys);
    const Built b(with(planned(), Site().found("A", keys)));
    std::size_t open = 0;
    for (const Link& l : b.result.links) {
      const bool of_a = l.where.wall == "A" && (l.kind == "hold-down" || l.kind == "anchor" || l.kind == "jamb");
      if (of_a) CHECK(l.verdict != Verdict::pass);
      open += of_a && l.why.code == "as-built-unclear";
      if (of_a && l.why.code == "as-built-unclear") CHECK_THAT(l.why.subject, Contains(words));
    }
    CHECK(open > 0);
    CHECK(b.result.exit_code() == 1);
    CHECK_THAT(first_screen(b.result, {}), Contains("Judged as built: 1 difference from the plan"));
    CHECK_THAT(every_link(b.result, {}), Contains(words));
  }
  // A door parts the plate: a fixing does not stand in it, whatever a job can say
  Draft d = planned();
  d.wall("A", "\"B 1.2 m | 1 m | D1 | 4.6 m | B 1.2 m\"").mark("D1", "\"2100 x 1000\"");
  House h = with(d, {});
  h.as_built.push_back({"A", {}, metres(0.1), metres(2.7), {}, {}, false});
  const Built door(h);
  CHECK(hold_down(door.result, "A1 left").why.code == "as-built-unclear");
}

TEST_CASE("how far a fixing may stand off its place: there it holds, one step further something does not") {
  Draft d = planned();
  const Built b(d);
  std::size_t looked_at = 0;
  for (std::size_t i = 0; i < b.result.links.size(); ++i) {
    const Link& l = b.result.links[i];
    const auto room = room_to_move(b.house, b.method, b.practice, b.result, i);
    const bool stands = l.kind == "hold-down" || l.kind == "anchor" || l.kind == "jamb";
    CHECK(room.has_value() == (stands && l.verdict == Verdict::pass));
    if (!room || l.where.wall != "A" || looked_at > 3) continue;
    ++looked_at;
    INFO(l.where.words);
    const Length here = *l.where.from_start;
    CHECK(room->from <= here);
    CHECK(room->to >= here);
    const auto answer_at = [&](Length at) {
      House moved = b.house;
      moved.as_built.push_back({"A", {}, here, at, {}, {}, false});
      return Built(moved).result;
    };
    for (const Length& at : {room->from, room->to}) CHECK(answer_at(at).counts.fail == b.result.counts.fail);
    if (here - room->from < room->most - same_place && room->from > room->step) {
      const Counts past = answer_at(room->from - room->step).counts;
      CHECK(past.fail + past.not_judged > b.result.counts.fail + b.result.counts.not_judged);
    }
  }
  CHECK(looked_at == 4);
}

TEST_CASE("as built: slips are told with their place") {
  const auto code = [](const std::string& wall, const std::string& keys) {
    const Opened o = opened_with(planned(), Site().found(wall, keys));
    REQUIRE(!o.house);
    return o.problems.front().code;
  };
  CHECK(code("Z", "planned = \"100 mm\"") == "unknown-wall");
  CHECK(code("A", "missing = true") == "missing-key");
  CHECK(code("A", "use = \"demo-rod\"") == "missing-key");
  CHECK(code("A", "at = \"1 m\"") == "missing-key");
  CHECK(code("A", "planned = \"100 mm\"\nmissing = true\nat = \"1 m\"") == "two-ways");
  CHECK(code("A", "at = \"9.2 m\"\nuse = \"demo-rod\"") == "outside-the-wall");
  // A door of 0.9 m from 2.2 m on; built mirrored it stands from 5.9 m on
  for (const bool turned : {false, true}) {
    Draft d = planned();
    d.wall("A", "\"B 1.2 m | 1 m | D1 | 4.7 m | B 1.2 m\"").mark("D1", "\"2100 x 900\"");
    if (turned) d.importance = "2\nmirror = \"left-right\"";
    for (const double x : {2.6, 6.4}) {
      const Opened o = opened_with(d, Site().found("A", fmt::format("at = \"{} m\"\nuse = \"demo-rod\"", x)));
      CHECK(o.house.has_value() == ((x < 4.5) == turned));
      if (!o.house) CHECK(o.problems.front().code == "in-a-doorway");
    }
  }
  CHECK(code("A", "planned = \"100 mm\"\nuse = \"demo-cleat\"") == "wrong-sort-of-fixing");
  CHECK(code("A", "planned = \"100 mm\"\nuse = \"demo-rodd\"") == "unknown-fixing");
}

TEST_CASE("as built: the upper floor's walls by their names") {
  Draft d = two_floor_box("9 m");
  const Built b(with(d, Site().found("first A", "planned = \"100 mm\"\nat = \"140 mm\"")));
  CHECK(b.result.as_built.size() == 1);
  CHECK_THAT(b.result.as_built[0], Contains("wall first A"));
}
