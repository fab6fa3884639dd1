// Two floors: what is missing or doubtful across the floor never passes, and every link is found by its address.
// Invented houses.
#include "cli/address.hpp"
#include "houses.hpp"
#include "report/json.hpp"
#include "report/page.hpp"
#include "sanitized.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <rapidjson/document.h>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinRel;

namespace {

// With inside walls across the sheet, at that distance from the front on either floor; "" for none.
Draft inside(const std::string& ground, const std::string& first, const std::string& run = "B 3 m | 6 m | B 3 m") {
  Draft d = two_floor_box();
  const auto wall = [&](const std::string& at) {
    return fmt::format("{{ from_front = \"{}\", run = \"{}\" }}", at, run);
  };
  if (!ground.empty()) d.wall("E", wall(ground));
  if (!first.empty()) d.first_wall("E", wall(first));
  return d;
}
std::vector<const Link*> of_kind(const Built& b, std::string_view kind) {
  std::vector<const Link*> r;
  for (const Link& l : b.result.links)
    if (l.kind == kind) r.push_back(&l);
  return r;
}
std::size_t case_with(const Built& b, const std::string& line) {  // in which the line is pushed most
  std::size_t most = 0;
  const auto size = [&](std::size_t c) { return std::abs(in_kN(b.forces.line_force(c, b.line_at(line)))); };
  for (std::size_t c = 0; c < b.loads.cases.size(); ++c)
    if (size(c) > size(most)) most = c;
  return most;
}
// Part of a line's force that comes from a line above.
double from_above(const Built& b, std::size_t c, const std::string& line, const std::string& above) {
  double sum = 0.0;
  for (const Piece_of_demand& p : b.forces.line_made_of(c, b.line_at(line)))
    if (p.from == above) sum += in_kN(p.value);
  return sum;
}

}  // namespace

TEST_CASE("two floors: an inside wall that stands off the walls below leaves its ties and its line unjudged") {
  const Built on(inside("3900 mm", "3900 mm")), off(inside("3900 mm", "5100 mm"));
  for (const char* sense : {"left", "right"}) {
    CHECK(on.link(fmt::format("line first E to the {}", sense)).verdict == Verdict::pass);
    const Link& line = off.link(fmt::format("line first E to the {}", sense));
    CHECK(line.verdict == Verdict::not_judged);
    CHECK(line.why.code == "no-line-below");
  }
  std::size_t ties = 0;
  for (const Link* l : of_kind(off, "floor tie")) {
    INFO(l->where.words);
    const bool stands = l->where.wall != "first E";
    CHECK(l->verdict == (stands ? Verdict::pass : Verdict::not_judged));
    if (!stands) CHECK(l->why.code == "no-wall-below");
    ties += stands ? 0 : 1;
  }
  CHECK(ties == 4);  // two braces, two ends each
  // Its force goes to the lines beside it all the same, 5.1 between 3.9 and 7.8, and to the nearest in full
  const std::size_t c = case_with(off, "first E");
  const double v = std::abs(in_kN(off.forces.line_force(c, off.line_at("first E"))));
  CHECK_THAT(from_above(off, c, "ground E", "first E"), WithinRel(v, 1e-9));
  CHECK_THAT(from_above(off, c, "ground C", "first E"), WithinRel(v * 1.2 / 3.9, 1e-9));
  CHECK(from_above(off, c, "ground A", "first E") == 0.0);
  // A tie that is too weak fails wherever it hands its pull to, and whoever answers for ties
  Draft weak = inside("3900 mm", "5100 mm", "B 1 m | 10 m | B 1 m");
  weak.noted_on_first("hold_down", "\"demo-screw\"");
  weak.fixing("[[tie]]\nname = \"demo-thread\"\npull = \"0.1 kN\"\nbasis = \"design\"\ncyclic = \"tested\"\n");
  weak.noted("floor_tie", "\"demo-thread\"").by_others = {{"floor tie", "\"somebody\""}};
  const Built w(weak);
  CHECK(w.link("floor tie first E1 left").verdict == Verdict::fail);
}

TEST_CASE("two floors: others who answer for ties across the floor do not answer for walls that are not there") {
  Draft d = inside("", "5100 mm");
  for (const char* kind : {"floor tie", "floor fixing", "ground", "compression", "line spacing"})
    d.by_others.emplace_back(kind, "\"somebody\"");
  for (const bool given : {true, false}) {
    if (!given) d.noted("floor_tie", "").noted_on_first("hold_down", "\"demo-screw\"");
    const Built b(d);
    for (const char* tie : {"floor tie first E1 left", "floor tie first E2 right"}) {
      CHECK(b.link(tie).verdict == Verdict::not_judged);
      CHECK(b.link(tie).why.code == "no-wall-below");
    }
    CHECK(b.result.answer != Answer::pass);
    CHECK(b.result.answer != Answer::pass_if);
  }
}

TEST_CASE("two floors: a line below that does not count takes nothing of a line above it, its wall does") {
  // Inside walls prop by their braces alone: F at 6.6 m has one of 600 mm, which does not count, so what stands on it
  // is shared between E at 3.9 m and C at 7.8 m. Past an end line no line can stand: outside walls prop always.
  Draft d = inside("3900 mm", "");
  d.wall("F", "{ from_front = 6600, run = \"B 600 | 11400\" }");
  d.first_wall("F", "{ from_front = 6600, run = \"B 3 m | 9 m\" }");
  const Built b(d);
  CHECK(b.link("line first F to the right").why.code == "no-line-below");
  const std::size_t c = case_with(b, "first F");
  const double v = std::abs(in_kN(b.forces.line_force(c, b.line_at("first F"))));
  CHECK_THAT(from_above(b, c, "ground E", "first F"), WithinRel(v * 1.2 / 3.9, 1e-9));
  CHECK_THAT(from_above(b, c, "ground C", "first F"), WithinRel(v, 1e-9));
  CHECK(from_above(b, c, "ground F", "first F") == 0.0);
  // The wall itself stands below: its ties land on it
  CHECK(b.link("floor tie first F1 left").verdict == Verdict::pass);
}

TEST_CASE("two floors: a brace above that does not count leaves all below it that takes its force unjudged") {
  Draft d = two_floor_box();
  d.first_wall("A", "\"B 1.8 m | 1.5 m | B 600 | 6.3 m | B 1.8 m\"");  // a sheet of 600 mm: its own least is 900
  const Built b(d);
  CHECK(b.link("brace first A2").verdict == Verdict::fail);
  for (const char* end : {"left", "right"})
    for (const char* kind : {"floor tie", "top tie below", "stud tie below"}) {
      const Link& l = b.link(fmt::format("{} first A2 {}", kind, end));
      CHECK(l.verdict == Verdict::not_judged);
      CHECK(l.why.code == "brace-does-not-count");
      CHECK(l.why.subject == "first A2");
    }
  // Every fixing of the plate below that a share of it comes to, and none of another wall
  std::size_t unjudged = 0;
  for (std::size_t w = 0; w < b.house.walls.size(); ++w)
    for (std::size_t s = 0; s < b.forces.walls[w].supports.size(); ++s) {
      const Link& l = b.link(b.forces.support_words(w, s));
      const auto crossed = b.forces.crossings_to(w, s);
      const bool takes = std::any_of(crossed.begin(), crossed.end(), [&](std::size_t x) {
        const auto& ends = b.forces.walls[b.forces.crossings[x].wall].supports[b.forces.crossings[x].support].ends;
        return std::any_of(ends.begin(), ends.end(), [&](const BraceEnd& e) {
          return b.house.walls[b.forces.crossings[x].wall].pieces[e.piece].brace->name == "first A2";
        });
      });
      INFO(l.where.words);
      if (takes) {
        CHECK(b.house.walls[w].name == "ground A");
        CHECK(l.verdict == Verdict::not_judged);
        ++unjudged;
      } else if (b.house.walls[w].floor == Floor::ground) {
        CHECK(l.verdict == Verdict::pass);
      }
    }
  CHECK(unjudged >= 2);
}

TEST_CASE(
    "two floors: what trusses bring to an inside wall comes down through the wall below, and is open without it") {
  for (const bool pitched : {true, false}) {
    Draft d = inside("3900 mm", "3900 mm", "12 m");
    if (!pitched) {
      d.shape = "skillion";
      d.pitch = "8 deg";
    }
    d.weight = "\"0.10 kPa\"";
    d.trusses = "{ mark = \"T1\", max = \"0.9 m\", also_on = [\"E\"] }";
    const Built b(d);
    const std::size_t above = b.wall_at("first E"), below = b.wall_at("ground E");
    REQUIRE(b.forces.walls[above].supports.size() == b.forces.walls[below].supports.size());
    double most = 0.0;
    for (std::size_t c = 0; c < b.loads.cases.size(); ++c)
      for (std::size_t s = 0; s < b.forces.walls[above].supports.size(); ++s) {
        CHECK_THAT(in_kN(b.forces.pull(c, below, s)), WithinRel(in_kN(b.forces.pull(c, above, s)), 1e-9));
        most = std::max(most, in_kN(b.forces.pull(c, below, s)));
      }
    CHECK(most > 1.0);
    d.wall("E", "");
    const Built bare(d);
    std::size_t open = 0;
    for (const Link* l : of_kind(bare, "floor tie"))
      if (l->where.wall == "first E") {
        CHECK(l->why.code == "no-wall-below");
        ++open;
      }
    CHECK(open == b.forces.walls[above].supports.size());
    CHECK(bare.result.answer != Answer::pass);
  }
}

TEST_CASE("two floors: floor ties and floor fixings left out are not judged, or others answer for them") {
  Draft d = two_floor_box();
  d.noted_on_first("hold_down", "\"demo-screw\"").noted("floor_tie", "").noted("floor_fixing", "");
  Draft handed_over = d;
  handed_over.by_others = {{"floor tie", "\"somebody\""}, {"floor fixing", "\"somebody\""}};
  const Built with(two_floor_box()), without(d), others(handed_over);
  for (const auto& [b, verdict, code] :
       {std::tuple(&without, Verdict::not_judged, "no-fixing"), {&others, Verdict::by_others, "by-others"}}) {
    for (const char* kind : {"floor tie", "floor fixing"}) {
      const auto links = of_kind(*b, kind);
      CHECK(links.size() == of_kind(with, kind).size());
      CHECK(links.size() >= 4);
      for (const Link* l : links) {
        INFO(l->where.words);
        CHECK(l->verdict == verdict);
        CHECK(l->why.code == code);
        CHECK(!l->use);
      }
    }
    // Without their spacing the whole of the line's force is told
    CHECK(demand(b->link("floor to line ground A"), "slide") ==
          demand(with.link("line ground A to the right"), "racking"));
    CHECK(demand(b->link("floor tie first A1 left"), "pull") == demand(with.link("floor tie first A1 left"), "pull"));
  }
}

TEST_CASE("two floors: a brace of another basis above leaves what it hands down without a verdict by its strength") {
  Draft d = two_floor_box();
  d.fixing(
      "[[sheet]]\nname = \"demo-other\"\nracking = \"6 kN/m\"\nleast_length = \"900 mm\"\nbasis = "
      "\"design\"\ncyclic = \"tested\"\n");
  d.mark("K", "{ brace = \"demo-other\" }").first_wall("A", "\"K 12 m\"");
  House other = d.house();
  for (SheetBrace& sheet : other.fixings.sheets)
    if (sheet.terms.name == "demo-other") sheet.terms.basis = FigureIs::allowable;
  const Built right(two_floor_box()), b(other);
  std::size_t refused = 0;
  REQUIRE(b.result.links.size() == right.result.links.size());
  for (std::size_t i = 0; i < b.result.links.size(); ++i) {
    const Link &l = b.result.links[i], &was = right.result.links[i];
    INFO(l.where.words);
    REQUIRE(l.id == was.id);
    // What its pressed and pulled ends bring down stands on wall ground A; the line below takes its line's force
    // whatever its strength
    const bool behind = l.where.words.find("first A1") != std::string::npos ||
                        (l.where.wall == "first A" && l.kind != "bracket" && l.kind != "top tie" &&
                         l.kind != "stud tie" && l.kind != "plate" && l.kind != "floor tie");
    if (behind && was.verdict == Verdict::pass) {
      CHECK(l.verdict == Verdict::not_judged);
      CHECK(l.why.code == "basis-differs");
      CHECK(l.why.subject == "demo-other");
      CHECK(!l.use);
      ++refused;
    }
    if (l.kind == "hold-down" && l.where.wall == "ground A") CHECK(l.verdict != Verdict::pass);
    if (l.where.wall == "ground C" || l.where.wall == "first C") CHECK(l.verdict == was.verdict);
  }
  CHECK(refused > 6);
  for (const char* line : {"line ground A to the left", "floor to line ground A"})
    CHECK(b.link(line).verdict == right.link(line).verdict);
}

TEST_CASE("two floors: a ground floor's wall that ends before the one above takes nothing past its end") {
  Draft d = inside("", "3900 mm");
  d.wall("E", "{ from_front = \"3900 mm\", between = [\"0 mm\", \"6000 mm\"], run = \"B 3 m | 3 m\" }");
  const Built b(d);
  CHECK(b.link("floor tie first E1 left").verdict == Verdict::pass);   // at 100
  CHECK(b.link("floor tie first E1 right").verdict == Verdict::pass);  // at 2900
  for (const char* past : {"floor tie first E2 left", "floor tie first E2 right"}) {
    CHECK(b.link(past).verdict == Verdict::not_judged);
    CHECK(b.link(past).why.code == "no-wall-below");
  }
  for (const Crossing& x : b.forces.crossings)
    if (x.below) {
      CHECK(x.at >= zero<Length>() - same_place);
      CHECK(x.at <= b.house.walls[*x.below].length() + same_place);
    }
}

TEST_CASE("two floors: of two walls below within reach the nearer one takes what comes down") {
  Draft d = inside("3900 mm", "3970 mm");
  d.wall("F", "{ from_front = 4020, run = \"B 3 m | 9 m\" }");
  const Built b(d);  // 70 mm from E, 50 mm from F
  std::size_t crossed = 0;
  for (const Crossing& x : b.forces.crossings)
    if (b.house.walls[x.wall].name == "first E") {
      REQUIRE(x.below);
      CHECK(b.house.walls[*x.below].name == "ground F");
      ++crossed;
    }
  CHECK(crossed == 4);
  REQUIRE(b.forces.line_below(b.line_at("first E")));
  CHECK(b.forces.lines[*b.forces.line_below(b.line_at("first E"))].name == "ground F");
}

TEST_CASE("two floors: distances between lines and between fixings are those of one floor") {
  const Built b(inside("3900 mm", "5200 mm"));
  std::set<std::string> said;
  for (const Link* l : of_kind(b, "line spacing")) said.insert(l->where.words);
  CHECK(said == std::set<std::string>{"spacing ground A to ground E", "spacing ground E to ground C",
                                      "spacing ground D to ground B", "spacing first A to first E",
                                      "spacing first E to first C", "spacing first D to first B"});
  // A first floor's wall stands right above: were its fixings neighbours, those below would stand at no distance
  Draft d = two_floor_box();
  d.fixing(
      "[[anchor]]\nname = \"demo-wide\"\nhow = \"cast in\"\npull = \"90 kN\"\nslide = \"90 kN\"\ntogether = "
      "\"straight sum\"\nleast_edge = \"10 mm\"\nleast_spacing = \"70 mm\"\nconcrete = \"20 MPa\"\ncracked = "
      "true\nbasis = \"design\"\n");
  d.noted_on_ground("hold_down", "\"demo-wide\"");
  const Built wide(d);
  const Link& l = wide.link("ground A1 left");
  const auto spacing = std::find_if(l.conditions.begin(), l.conditions.end(),
                                    [](const Condition& c) { return c.needs == "at least 70 mm"; });
  REQUIRE(spacing != l.conditions.end());
  // 100 mm along wall A and in the middle of its plate of 90 mm, and the same round the corner: 55 mm each way, 77.78
  // mm
  CHECK(spacing->has == "77.78 mm");
  CHECK(l.verdict == Verdict::pass);
}

TEST_CASE("two floors: every link is found by its own address and by no other's") {
  const Built box(two_floor_box());
  const Opened demo = open_job(std::string(BELAY_JOBS) + "/fig-tree-lane.toml");
  REQUIRE(demo.house);
  const Built lane(*demo.house);
  for (const Built* b : {&box, &lane})
    for (std::size_t i = 0; i < b->result.links.size(); i += sanitized ? 101 : 4) {
      INFO(b->result.links[i].where.words);
      for (const std::string& address : {b->result.links[i].where.words, b->result.links[i].id}) {
        const Found found = find_link(b->result, address);
        REQUIRE(found.links.size() == 1);
        CHECK(found.links.front() == i);
      }
    }
  const auto only = [&](std::string_view typed) -> const Link& {
    const Found found = find_link(lane.result, typed);
    INFO(typed);
    REQUIRE(found.links.size() == 1);
    return lane.result.links[found.links.front()];
  };
  CHECK(only("ground A1 left").kind == "hold-down");
  CHECK(only("first A1 left").kind == "hold-down");
  CHECK(only("first A1 left").where.floor == "first");
  CHECK(only("hold-down ground A1 left").where.floor == "ground");
  CHECK(only("A1 left first").where.floor == "first");
  CHECK(only("floor tie first A1 left").kind == "floor tie");
  CHECK(only("floor to line ground A").kind == "floor fixing");
  CHECK(only("floor fixing ground A").kind == "floor fixing");
  CHECK(only("ground under ground A1 left").kind == "ground");
  CHECK(find_link(lane.result, "ground under first E anchor 1").links.empty());  // no ground under a first floor
  // As the list of several writes it, with its kind
  for (std::size_t i = 0; i < box.result.links.size(); ++i) {
    const Link& l = box.result.links[i];
    INFO(l.where.words << " " << l.kind);
    const Found found = find_link(box.result, fmt::format("{} {}", l.where.words, kind_words(l.kind, false)));
    REQUIRE(found.links.size() == 1);
    CHECK(found.links.front() == i);
  }
  // Without its floor: both floors' are offered
  std::set<std::string> floors;
  for (const std::size_t i : find_link(lane.result, "A1 left").links) floors.insert(lane.result.links[i].where.floor);
  CHECK(floors == std::set<std::string>{"ground", "first"});
  CHECK(find_link(lane.result, "second A1 left").links.empty());
}

TEST_CASE("two floors: JSON names the floor of every link") {
  const Built b(two_floor_box());
  rapidjson::Document d;
  const std::string text = json(b.result, false);
  d.Parse(text.c_str(), text.size());
  REQUIRE_FALSE(d.HasParseError());
  REQUIRE(d["links"].Size() == b.result.links.size());
  std::set<std::string> met_kinds;
  for (const auto& l : d["links"].GetArray()) {
    const std::string kind = l["kind"].GetString(), wall = l["where"]["wall"].GetString(),
                      floor = l["where"]["floor"].GetString();
    INFO(l["where"]["words"].GetString());
    CHECK(wall.starts_with(floor + " "));
    if (kind == "bracket" || kind == "floor tie") CHECK(floor == "first");
    if (kind == "floor fixing" || kind == "ground") CHECK(floor == "ground");
    met_kinds.insert(kind + " " + floor);
  }
  for (const char* kind : {"line", "brace", "hold-down", "anchor", "compression", "top tie", "stud tie"})
    for (const char* floor : {" ground", " first"}) CHECK(met_kinds.contains(std::string(kind) + floor));
}
