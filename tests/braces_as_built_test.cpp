// Braces as they were found on site: a strap's measured angle, another entry, nothing there; and what cannot be.
#include "belay/check.hpp"
#include "found_on_site.hpp"
#include "houses.hpp"
#include "judge/changes.hpp"
#include "pages.hpp"
#include "report/screen.hpp"
#include "text_files.hpp"
#include <catch2/catch.hpp>
#include <filesystem>
#include <numbers>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

// Walls of 2.7 m; in the front a pair of straps of 2.7 m at either end (drawn at 45 degrees), a sheet between.
Draft planned() {
  Draft d = closed_box("12 m");
  d.ceiling = "flexible";
  d.mark("X", "{ brace = \"demo-pair\", hold_down = \"demo-rod\" }");
  d.mark("Y", "{ brace = \"demo-single\", hold_down = \"demo-rod\", foot = \"left\" }");
  d.wall("A", "\"X 2.7 m | 2 m | B 1.2 m | 3.4 m | X 2.7 m\"");
  return d;
}
double cosine_of(double degrees) { return std::cos(degrees * std::numbers::pi / 180.0); }
std::string angle(double degrees) { return fmt::format("angle = \"{} deg\"", degrees); }
const BraceCapacity& holds(const Built& b, const std::string& name) {
  return b.forces.braces[b.brace_at(name)].capacity;
}
bool alike(const Result& a, const Result& b) {
  return a.links.size() == b.links.size() &&
         std::equal(a.links.begin(), a.links.end(), b.links.begin(), [](const Link& x, const Link& y) {
           return x.id == y.id && x.verdict == y.verdict && x.use.has_value() == y.use.has_value() &&
                  (!x.use || x.use->value == y.use->value);
         });
}
// The most that is used of the line of a wall, either way; a line that nothing holds uses more than any.
double line_use(const Result& r, const std::string& line) {
  double most = 0.0;
  for (const Link& l : r.links)
    if (l.kind == "line" && l.where.words.starts_with("line " + line + " to"))
      most = std::max(most, l.use ? l.use->value : 1e9);
  return most;
}

}  // namespace

TEST_CASE("braces as built: a strap counts by its measured angle, by hand") {
  // 10 kN in the pair's straps. Measured 52 degrees: 10 cos 52 = 6.1566 kN, drawn 10 cos 45 = 7.0711 kN.
  const Built plan(planned()), built(with(planned(), Site().brace("A1", angle(52))));
  CHECK_THAT(holds(plan, "A1").plus.value(), WithinRel(7071.07, 1e-5));
  CHECK_THAT(holds(built, "A1").plus.value(), WithinRel(6156.61, 1e-5));
  CHECK(holds(built, "A3").plus == holds(plan, "A3").plus);
  // It reaches 2.7 / tan 52 = 2.10947 m along the wall, and its end is held 0.1 m in, pressed 0.025 m in.
  CHECK_THAT(built.forces.arm(built.brace_at("A1")).value() - plan.forces.arm(plan.brace_at("A1")).value(),
             WithinRel(2.109471 - 2.7, 1e-5));
  CHECK(built.result.as_built == std::vector<std::string>{"wall A: brace A1: at 52.00 deg to the plate"});
  CHECK_THAT(first_screen(built.result, {}), Contains("Judged as built: 1 difference from the plan"));
  CHECK_THAT(every_link(built.result, {}), Contains("at 52.00 deg to the plate"));
}

TEST_CASE("braces as built: a strap that ends well short of its brace leaves both ends' fixings and studs open") {
  // 2.7 / tan 52 = 2.109 m, 591 short; 2.7 / tan 47 = 2.518 m, 182 short; 2.7 / tan 46 = 2.607 m, 93 short.
  const auto at = [](double angle_of_it) { return Built(with(planned(), Site().brace("A1", angle(angle_of_it)))); };
  for (const double steep : {52.0, 47.0}) {
    const Built b = at(steep);
    for (const char* end : {"A1 left", "A1 right"}) {
      CHECK(b.link(end).verdict == Verdict::not_judged);
      CHECK(b.link(end).why.code == "strap-off-its-end");
    }
  }
  // What lies under such a fixing has as little of an answer.
  Draft ground = planned();
  ground.slab.emplace_back("weight", "\"24 kN/m3\"");
  ground.slab.emplace_back("edge", "{ width = \"900 mm\", depth = \"2 m\", given_by = \"a test\" }");
  const Built under(with(ground, Site().brace("A1", angle(52))));
  CHECK(under.link("ground under A1 right").verdict == Verdict::not_judged);
  CHECK(under.link("ground under A1 right").why.code == "strap-off-its-end");
  const Built near = at(46);
  for (const char* end : {"A1 left", "A1 right"}) CHECK(near.link(end).why.code != "strap-off-its-end");
}

TEST_CASE("braces as built: of a pair the worse of both angles") {
  const Built both(with(planned(), Site().brace("A1", "angle = [\"50 deg\", \"54 deg\"]"))),
      worse(with(planned(), Site().brace("A1", angle(54))));
  CHECK(holds(both, "A1").plus == holds(worse, "A1").plus);
  CHECK(both.forces.arm(both.brace_at("A1")) == worse.forces.arm(worse.brace_at("A1")));
  const Built out(with(planned(), Site().brace("A1", "angle = [\"61 deg\", \"45 deg\"]")));
  CHECK(holds(out, "A1").refused == "condition-unmet");
  const Built doubtful(with(planned(), Site().brace("A1", "angle = [\"50 deg\", \"38 deg\"]")));
  CHECK(holds(doubtful, "A1").refused == "angle-doubtful");
}

TEST_CASE("braces as built: all as planned changes nothing") {
  const Built plan(planned());
  Site site;
  site.brace("A1", "use = \"demo-pair\"").brace("A2", "missing = false").brace("A3", "use = \"demo-pair\"");
  const Built same(with(planned(), site));
  CHECK(same.result.as_built.empty());
  CHECK(alike(same.result, plan.result));
  // A strap that was measured flatter than drawn, within what a site's measure is worth, counts as drawn.
  CHECK(alike(Built(with(planned(), Site().brace("A1", angle(43)))).result, plan.result));
}

TEST_CASE("braces as built: a steeper strap never holds more, and pulls its line no further below its limit") {
  double before = 1e9, use = 0.0;
  for (double at = 42.0; at < 60.5; at += 1.5) {
    INFO(at);
    const Built b(with(planned(), Site().brace("A1", angle(at))));
    const Force now = holds(b, "A1").plus;
    CHECK(now.value() <= before);
    CHECK(now.value() <= 10e3 * cosine_of(at) + 1e-6);
    CHECK(line_use(b.result, "A") >= use);
    before = now.value();
    use = line_use(b.result, "A");
  }
}

TEST_CASE("braces as built: an angle that the sheet does not allow, and one that cannot be") {
  const Built steep(with(planned(), Site().brace("A1", angle(60.1))));
  CHECK(steep.link("brace A1").verdict == Verdict::fail);
  CHECK(steep.link("brace A1").why.code == "condition-unmet");
  CHECK(holds(Built(with(planned(), Site().brace("A1", angle(59.9)))), "A1").refused.empty());
  // From plate to plate within 2.7 m it cannot lie at less than 45 degrees; 3 are left to the tape.
  const Built flat(with(planned(), Site().brace("A1", angle(41.9))));
  CHECK(flat.link("brace A1").verdict == Verdict::not_judged);
  CHECK(flat.link("brace A1").why.code == "angle-doubtful");
  CHECK(flat.result.exit_code() == 1);
  CHECK(line_use(flat.result, "A") >= line_use(Built(planned()).result, "A"));
  for (const char* words : {"A1 left", "A1 right"}) CHECK(flat.link(words, "hold-down").verdict != Verdict::pass);
  CHECK_THAT(every_link(flat.result, {}), Contains("its measured angle cannot be") && Contains("DOUBTFUL, look at"));
  // So steep that its end's hold-down stands past it: 2.7 / tan 60 = 1.559 m less 1.6 m leaves no arm
  Draft in = planned();
  in.noted("hold_down_in", "\"1.3 m\"");
  CHECK(holds(Built(in), "A1").refused.empty());
  in.noted("hold_down_in", "\"1.6 m\"");
  CHECK(holds(Built(with(in, Site().brace("A1", angle(60)))), "A1").refused == "condition-unmet");
}

TEST_CASE("braces as built: a missing brace counts for nothing, and its fixings stay") {
  const Built plan(planned()), gone(with(planned(), Site().brace("A1", "missing = true")));
  CHECK(gone.result.as_built == std::vector<std::string>{"wall A: brace A1: nothing stands there"});
  CHECK(gone.forces.walls[0].supports.size() == plan.forces.walls[0].supports.size());
  for (const Link& l : gone.result.links) CHECK(l.where.words != "brace A1");
  for (const char* words : {"A1 left", "A1 right"}) {
    const Link& l = gone.link(words, "hold-down");
    CHECK(l.verdict == Verdict::pass);  // what the roof brings to it
    CHECK(l.parts.front().greatest.si <= plan.link(words, "hold-down").parts.front().greatest.si);
  }
  const std::size_t line = gone.forces.braces[gone.brace_at("A1")].line;
  for (std::size_t c = 0; c < gone.forces.cases(); ++c) {
    CHECK(gone.forces.line_capacity(c, line) < plan.forces.line_capacity(c, line));
    CHECK(gone.forces.brace_force(c, gone.brace_at("A2")) >= plan.forces.brace_force(c, plan.brace_at("A2")));
  }
  CHECK(line_use(gone.result, "A") > line_use(plan.result, "A"));
  // A missing brace whose hold-down is missing as well leaves no end to hold
  Site both;
  both.brace("A1", "missing = true").entries += "[[as_built]]\nwall = \"A\"\nplanned = \"100 mm\"\nmissing = true\n";
  Draft in = planned();
  in.noted("hold_down_in", "\"100 mm\"");
  for (const Link& l : Built(with(in, both)).result.links) CHECK(l.why.code != "no-hold-down-near");
  // None is left
  Site all;
  for (const char* name : {"A1", "A2", "A3"}) all.brace(name, "missing = true");
  const Built none(with(planned(), all));
  CHECK(none.result.answer == Answer::fail);
  bool fails = false;
  for (const Link& l : none.result.links) fails = fails || (l.kind == "line" && l.why.code == "no-brace");
  CHECK(fails);
}

TEST_CASE("braces as built: an inside wall whose only brace is missing props no ceiling") {
  Draft d = planned();
  d.wall("E", "{ run = \"B 1.2 m | 10.8 m\", from_front = \"4 m\", between = [\"0 m\", \"12 m\"] }");
  const Built plan(d), gone(with(d, Site().brace("E1", "missing = true")));
  const auto line_of = [](const Built& b) { return b.forces.lines[b.forces.braces[b.brace_at("E1")].line]; };
  CHECK(line_of(plan).props);
  CHECK(!line_of(gone).props);
  for (const char* line : {"A", "C"}) CHECK(line_use(gone.result, line) >= line_use(plan.result, line));
}

TEST_CASE("braces as built: another entry has its own figures and conditions") {
  // 8 kN in a single strap at 45 degrees: 5.6569 kN the way that it pulls
  const Built single(with(planned(), Site().brace("A1", "use = \"demo-single\"\nfoot = \"left\"")));
  CHECK_THAT(holds(single, "A1").plus.value(), WithinRel(8000.0 * cosine_of(45), 1e-9));
  CHECK(holds(single, "A1").minus == zero<Force>());
  CHECK(single.link("brace A1").fixing.by == "as built");
  CHECK(single.result.as_built == std::vector<std::string>{"wall A: brace A1: demo-single for demo-pair"});
  const Built unit(with(planned(), Site().brace("A2", "use = \"demo-unit\"")));  // 0.9 m long, here 1.2 m
  CHECK(unit.link("brace A2").why.code == "condition-unmet");
  CHECK_THAT(holds(Built(with(planned(), Site().brace("A1", "use = \"demo-sheet\""))), "A1").plus.value(),
             WithinRel(2.7 * 6e3, 1e-9));
  // The planned single strap, found the other way round
  Draft d = planned();
  d.wall("A", "\"Y 2.7 m | 2 m | B 1.2 m | 3.4 m | Y 2.7 m\"");
  const Built turned(with(d, Site().brace("A1", "foot = \"right\"")));
  CHECK(holds(turned, "A1").minus == holds(Built(d), "A1").plus);
  CHECK(turned.result.as_built == std::vector<std::string>{"wall A: brace A1: foot at its right end"});
  CHECK(alike(Built(with(d, Site().brace("A1", "foot = \"left\""))).result, Built(d).result));
}

TEST_CASE("braces as built: named as the mirrored house has them") {
  Draft d = planned();
  d.wall("A", "\"Y 2.7 m | 2 m | B 1.2 m | 3.4 m | X 2.7 m\"");
  d.importance = "2\nmirror = \"left-right\"";
  // Drawn from the left: Y, B, X; built X (A1), B (A2), Y (A3), whose foot is then at the right.
  const Built b(with(d, Site().brace("A1", angle(52)).brace("A3", "foot = \"left\"")));
  CHECK(b.result.as_built == std::vector<std::string>{"wall A: brace A1: at 52.00 deg to the plate",
                                                      "wall A: brace A3: foot at its left end"});
  CHECK_THAT(holds(b, "A1").plus.value(), WithinRel(6156.61, 1e-5));
  CHECK((holds(b, "A3").plus > zero<Force>() && holds(b, "A3").minus == zero<Force>()));
  CHECK(Built(with(d, Site().brace("A3", "foot = \"right\""))).result.as_built.empty());
  // The same site on the same house drawn as it is built
  Draft drawn = planned();
  drawn.wall("A", "\"X 2.7 m | 3.4 m | B 1.2 m | 2 m | Y 2.7 m\"")
      .mark("Y", "{ brace = \"demo-single\", hold_down = \"demo-rod\", foot = \"right\" }");
  drawn.trusses = "{ mark = \"T1\", max = \"0.9 m\", odd_space = \"left\" }";
  const Built same(with(drawn, Site().brace("A1", angle(52)).brace("A3", "foot = \"left\"")));
  CHECK_THAT(line_use(b.result, "A"), WithinRel(line_use(same.result, "A"), 1e-9));
}

TEST_CASE("braces as built: studs at a brace's end answer for a strap that reaches them alone") {
  Draft d = planned();
  d.wall_weight = "\"0.25 kPa\"";
  d.fixing("[[end_studs]]\nname = \"demo-studs\"\npress = \"80 kN\"\ngreatest_height = \"3 m\"\nbasis = \"design\"\n");
  d.noted("end_studs", "\"demo-studs\"");
  const auto verdict = [&](double at) {
    const Built b(with(d, Site().brace("A1", angle(at))));
    CHECK(b.link("compression A3 left").verdict == Verdict::pass);
    return b.link("compression A1 left").verdict;
  };
  // 2.7 m - 2.7 / tan 46.6 = 0.147 m, 2.7 m - 2.7 / tan 46.8 = 0.164 m: fixings serve what is 150 mm away
  CHECK(verdict(45) == Verdict::pass);
  CHECK(verdict(46.6) == Verdict::pass);
  CHECK(verdict(46.8) == Verdict::not_judged);
}

TEST_CASE("braces as built: of two floors by their names, and what is missing below presses on no brace") {
  const Draft d = two_floor_box("9 m");
  const Built plan(d), b(with(d, Site().brace("ground A1", "missing = true").brace("first C1", "missing = true")));
  CHECK(b.result.as_built.size() == 2);
  CHECK(b.forces.press_left(b.brace_at("first A1"), End::left) == 1.0);
  CHECK(plan.forces.press_left(plan.brace_at("first A1"), End::left) == 0.0);
  CHECK(b.link("compression below first A1 left").verdict != Verdict::pass);
  CHECK(b.result.answer == Answer::fail);
}

TEST_CASE(
    "braces as built: of a wall that is held down at its ends alone all pieces stand as planned, or none counts") {
  Draft d = planned();
  d.height = "\"2.4 m\"";
  d.fixing(
      "[[perforated]]\nname = \"demo-open\"\nracking = \"6 kN/m\"\ngreatest_aspect = 3.5\nbasis = \"design\"\ncyclic "
      "= \"tested\"\n");
  d.mark("S", "{ brace = \"demo-open\", hold_down = \"demo-rod\", round_openings = true }").mark("D", "\"2100 x 900\"");
  d.wall("A", "\"S 1.2 m | D | S 1.2 m | D | S 1.2 m | 2 m | B 1.2 m | 3.4 m\"");
  const Built plan(d);
  for (const char* name : {"A1", "A2", "A3"})
    for (const char* keys : {"missing = true", "use = \"demo-sheet\""}) {
      INFO(name << ' ' << keys);
      const Built b(with(d, Site().brace(name, keys)));
      for (const char* piece : {"A1", "A2", "A3"}) {
        CHECK(holds(b, piece).plus == zero<Force>());
        if (holds(b, piece).missing) continue;
        CHECK(b.link(std::string("brace ") + piece).why.code == "condition-unmet");
      }
      CHECK(b.forces.walls[0].supports.size() == plan.forces.walls[0].supports.size());
      for (const char* end : {"A1 left", "A3 right"})
        CHECK(b.link(end, "hold-down").verdict ==
              (end[1] == name[1] && keys[0] == 'm' ? Verdict::pass : Verdict::not_judged));
      CHECK(line_use(b.result, "A") > line_use(plan.result, "A"));
    }
}

TEST_CASE("braces as built: in a house of several blocks and floors no missing brace helps its line") {
  const Opened o = open_job(std::string(BELAY_JOBS) + "/cedar-terrace.toml");
  REQUIRE(o.house);
  const Built plan(*o.house);
  std::size_t looked_at = 0;
  for (std::size_t i = 0; i < plan.forces.braces.size(); i += 3) {
    const BraceAt& at = plan.forces.braces[i];
    House h = *o.house;
    Brace& brace = *h.walls[at.wall].pieces[at.piece].brace;
    brace.found = FoundBrace{.at = "job.toml:1", .missing = true};
    INFO(brace.name);
    const std::string& line = plan.forces.lines[at.line].name;
    CHECK(line_use(plan.result, line) > 0.0);
    CHECK(line_use(Built(h).result, line) >= line_use(plan.result, line));
    ++looked_at;
  }
  CHECK(looked_at > 5);
}

TEST_CASE("braces as built: what would hold is told of the house that stands") {
  Draft d = planned();
  d.site = "class = \"N4\"\ngiven_by = \"a test\"";
  d.wall("A", "\"B 1.2 m | 1 m | B 1.2 m | 7.4 m | B 1.2 m\"");
  const Built plan(d);
  const House h = with(d, Site().brace("A2", "missing = true"));
  const Built b(h);
  REQUIRE(line_use(plan.result, "A") <= 1.0);
  REQUIRE(line_use(b.result, "A") > 1.0);
  const Remedies r = remedies(h, b.method, b.practice, b.result);
  CHECK(!r.each.empty());
  for (const Remedy& x : r.each)
    for (const Remedy::More& m : x.braces) CHECK(m.longer != "A2");  // what is missing cannot be made longer
  // To set it up as planned is among what is tried, and makes the planned house.
  const std::vector<Bracing> ways = more_bracing(h, 0);
  const auto back = std::ranges::find_if(ways, [](const Bracing& x) { return x.first == 2 && x.last == 2; });
  REQUIRE(back != ways.end());
  CHECK(back->said.front().longer.empty());
  CHECK_THAT(back->added.value(), WithinRel(1.2, 1e-12));
  CHECK(alike(Built(with_bracing(h, {*back})).result, plan.result));
  // A strap that is longer than one with a measured angle, or like it, is none that was measured
  const House strapped = with(planned().wall("A", "\"X 2.7 m | 6.6 m | X 2.7 m\""), Site().brace("A1", angle(55)));
  for (const Bracing& x : more_bracing(strapped, 0))
    for (const Piece& p : x.instead) CHECK((!p.brace || !p.brace->measured()));
}

TEST_CASE("braces as built: as a user runs it, with what is tried") {
  const Folder folder;
  const std::filesystem::path jobs = BELAY_JOBS;
  const std::string plan = read_file(jobs / "wattle-studio.toml");
  const std::string job = folder.write("job.toml", plan + "\n[[as_built]]\nbrace = \"C1\"\nangle = \"48 deg\"\n");
  const auto said = [&](const std::string& command) {
    const auto ran = run_command(fmt::format("'{}' {} </dev/null 2>&1", BELAY_PROGRAM, command));
    return fmt::format("{}: {}", ran.code, ran.out);
  };
  CHECK_THAT(said("check " + job), Catch::Matchers::StartsWith("0: ") && Contains("Judged as built: 1 difference"));
  CHECK_THAT(said("check --all " + job), Contains("Wall C: brace C1: at 48.00 deg to the plate."));
  CHECK_THAT(said("check --format json " + job), Contains("wall C: brace C1: at 48.00 deg to the plate"));
  CHECK_THAT(said("show " + job), Contains("as built at 48.00 deg to the plate"));
  const std::string tried = said(fmt::format("check --if 'as_built[0].angle = \"61 deg\"' {}", job));
  CHECK_THAT(tried, Contains("brace C1") && Contains("61.00 deg"));
  folder.write("job.toml", plan + "\n[[as_built]]\nbrace = \"C3\"\nmissing = true\n");
  const std::string wrong = said("check " + job);
  CHECK_THAT(wrong, Catch::Matchers::StartsWith("2: ") && Contains("no brace `C3`") &&
                        Contains(fmt::format("job.toml:{}:9", lines_of(plan).size() + 3)));
}

TEST_CASE("braces as built: slips are told with their place") {
  const auto first = [](const std::string& entries) {
    const Draft d = planned();
    const Opened o =
        read_job(d.text() + "\n" + entries, "job.toml", [&](std::string_view) { return std::optional(d.fixings); });
    REQUIRE(!o.house);
    const Problem& p = o.problems.front();
    CHECK(p.line > 0);
    return p.code + ": " + p.message + (p.help.empty() ? "" : "; " + p.help);
  };
  const auto of = [&](const std::string& keys) { return first("[[as_built]]\n" + keys + "\n"); };
  CHECK_THAT(of("brace = \"A22\"\nmissing = true"), Contains("unknown-brace") && Contains("did you mean `A2`?"));
  CHECK_THAT(of("brace = \"A1\"\nwall = \"A\"\nmissing = true"), Contains("two-ways"));
  CHECK_THAT(of("brace = \"A1\""), Contains("missing-key"));
  CHECK_THAT(of("missing = true"), Contains("missing-key"));
  for (const char* key : {"planned = \"100 mm\"", "at = \"100 mm\"", "edge = \"40 mm\""})
    CHECK_THAT(of(std::string("brace = \"A1\"\nmissing = true\n") + key), Contains("wrong-key"));
  for (const char* key : {"angle = \"50 deg\"", "foot = \"left\""})
    CHECK_THAT(of(std::string("wall = \"A\"\nplanned = \"100 mm\"\n") + key), Contains("wrong-key"));
  for (const char* key : {"angle = \"50 deg\"", "foot = \"left\"", "use = \"demo-pair\""})
    CHECK_THAT(of(std::string("brace = \"A1\"\nmissing = true\n") + key), Contains("two-ways"));
  CHECK_THAT(of("brace = \"A2\"\nangle = \"50 deg\""), Contains("wrong-key") && Contains("a brace with a strap"));
  CHECK_THAT(of("brace = \"A2\"\nfoot = \"left\""), Contains("wrong-key") && Contains("a single strap"));
  CHECK_THAT(of("brace = \"A1\"\nuse = \"demo-single\""), Contains("missing-key") && Contains("`foot` is missing"));
  CHECK_THAT(of("brace = \"A1\"\nuse = \"demo-single\"\nfoot = \"left\"\nangle = [\"50 deg\", \"50 deg\"]"),
             Contains("wrong-key"));
  CHECK_THAT(of("brace = \"A1\"\nangle = [\"50 deg\"]"), Contains("wrong-type"));
  CHECK_THAT(of("brace = \"A1\"\nangle = 50"), Contains("unit"));
  CHECK_THAT(of("brace = \"A1\"\nangle = \"95 deg\""), Contains("angle"));
  CHECK_THAT(of("brace = \"A1\"\nuse = \"demo-rod\""), Contains("wrong-sort-of-fixing"));
  CHECK_THAT(of("brace = \"A1\"\nuse = \"demo-pare\""), Contains("unknown-fixing") && Contains("demo-pair"));
  CHECK_THAT(first("[[as_built]]\nbrace = \"A1\"\nangle = \"50 deg\"\n[[as_built]]\nbrace = \"A1\"\nmissing = true\n"),
             Contains("brace-twice"));
}
