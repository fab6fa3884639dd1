// The joists of a framed first floor, and the fixings that go into them. Invented houses.
#include "load_path/joists.hpp"
#include "houses.hpp"
#include "job/mirrored.hpp"
#include "report/page.hpp"
#include "report/said_back.hpp"
#include <algorithm>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;

namespace {

// Two floors of 6 by 7.8 m; what is said of the joists; the first floor's plate anchors.
Draft on_joists(const std::string& joists, const std::string& anchors = "each = \"joist\"") {
  Draft d = two_floor_box("6 m", "7.8 m");
  d.floor_depth = "\"0.35 m\"" + (joists.empty() ? std::string() : ", " + joists);
  d.noted_on_first("anchor", fmt::format("{{ use = \"demo-screw\", {} }}", anchors));
  return d;
}
const std::string up_the_sheet = "joists = \"up\", spacing = \"450 mm\", joist_width = \"45 mm\"";
std::vector<double> in_mm(const std::vector<Length>& places) {
  std::vector<double> r;
  for (const Length& x : places) r.push_back(x / mm(1.0));
  return r;
}
std::vector<double> anchors_on(const Built& b, std::string_view wall) {
  std::vector<double> r;
  for (const Support& s : b.forces.walls[b.wall_at(wall)].supports)
    if (s.kind == FixingKind::anchor) r.push_back(s.at / mm(1.0));
  return r;
}
const Condition* joist_under(const Link& l) {
  const auto c = std::ranges::find(l.conditions, "joist under it", &Condition::name);
  return c == l.conditions.end() ? nullptr : &*c;
}

}  // namespace

// 6 m: one under each outside wall, its middle half of its width in; between them every 450, up to 5850, 150 before the
// end.
TEST_CASE("joists lie one spacing apart from the left or the front, or from the far side") {
  const std::vector<double> from_left = in_mm(joist_places(on_joists(up_the_sheet).house(), Floor::first)),
                            from_right = in_mm(
                                joist_places(on_joists(up_the_sheet + ", odd_space = \"left\"").house(), Floor::first));
  REQUIRE(from_left.size() == 15);
  CHECK_THAT(from_left.front(), WithinAbs(22.5, 1e-9));
  for (std::size_t i = 1; i < 14; ++i) CHECK_THAT(from_left[i], WithinAbs(450.0 * static_cast<double>(i), 1e-9));
  CHECK_THAT(from_left.back(), WithinAbs(5977.5, 1e-9));
  REQUIRE(from_right.size() == 15);
  for (std::size_t i = 0; i < 15; ++i) CHECK_THAT(from_right[i], WithinAbs(6000.0 - from_left[14 - i], 1e-9));
  CHECK(joist_places(on_joists("", "max = \"1.2 m\"").house(), Floor::first).empty());
  // In the mirror left is right.
  const House h = on_joists(up_the_sheet).house();
  CHECK(in_mm(joist_places(mirrored(h, Mirror::left_right), Floor::first)) == from_right);
  CHECK(in_mm(joist_places(mirrored(h, Mirror::front_back), Floor::first)) == from_left);
}

// Wall A crosses them, with hold-downs 100 in from its ends; wall B runs as they do, 7.6 m between its hold-downs: 17
// spaces of no more than 450.
TEST_CASE("anchors at each joist that a wall crosses") {
  const Built b(on_joists(up_the_sheet));
  const std::vector<double> at = anchors_on(b, "first A");
  REQUIRE(at.size() == 13);
  for (std::size_t i = 0; i < 13; ++i) CHECK_THAT(at[i], WithinAbs(450.0 * static_cast<double>(i + 1), 1e-9));
  CHECK(anchors_on(b, "first B").size() == 16);
  const Link& l = b.link("first A anchor 3");
  REQUIRE(joist_under(l) != nullptr);
  CHECK(joist_under(l)->met == Met::yes);
  CHECK(joist_under(l)->needs == "a joist whose middle is within 22.5 mm");
  // The ground floor stands on concrete; what goes through the floor meets a stud of the wall below.
  CHECK(joist_under(b.link("ground A anchor 1")) == nullptr);
  CHECK(joist_under(b.link("first A1 left")) == nullptr);
}

TEST_CASE("a fixing into the floor that meets no joist fails, unless the floor has something there") {
  // Five spaces of 1160 from 100: at 1260, 90 short of the joist at 1350.
  const auto second = [](const std::string& more) {
    const Built b(on_joists(up_the_sheet + more, "max = \"1.2 m\""));
    return b.link("first A anchor 1");
  };
  const Link l = second("");
  CHECK(l.verdict == Verdict::fail);
  CHECK(l.why.code == "condition-unmet");
  CHECK_THAT(why_words(l), Contains("joist") && Contains("90 mm away"));
  CHECK(second(", edge = true").verdict == Verdict::pass);
  CHECK(second(", blocking = true").verdict == Verdict::pass);
  CHECK(second(", edge = false, blocking = false").verdict == Verdict::fail);
}

// A wall that runs as the joists do: an outside one stands over the joist under it, an inside one half a plate to
// either side of the line that is drawn.
TEST_CASE("a wall along the joists stands on one, on none, or nobody knows") {
  const auto inside = [](const char* at) {
    Draft d = on_joists(up_the_sheet);
    d.wall("E", fmt::format("{{ from_left = \"{}\", run = \"B 7.8 m\" }}", at));
    d.first_wall("E", "{ same_as = \"ground\" }");
    return Built(d).link("first E anchor 3");
  };
  CHECK(joist_under(Built(on_joists(up_the_sheet)).link("first B anchor 3"))->met == Met::yes);
  CHECK(inside("2925 mm").verdict == Verdict::fail);
  const Link doubtful = inside("2700 mm");
  CHECK(doubtful.verdict == Verdict::not_judged);
  CHECK(doubtful.why.code == "condition-not-stated");
  CHECK(words(key_to_add(doubtful)) == "`floor.first.blocking`");
}

TEST_CASE("a floor of which nothing is said asks for nothing, and a caution says so") {
  const auto said = [](const Built& b) {
    return std::ranges::any_of(b.result.cautions, [](const Caution& c) { return c.code == "joists-not-stated"; });
  };
  const Built silent(on_joists("", "max = \"1.2 m\"")), told(on_joists(up_the_sheet));
  CHECK(joist_under(silent.link("first A anchor 1")) == nullptr);
  CHECK(said(silent));
  CHECK_FALSE(said(told));
  CHECK_THAT(said_back(told.house, set_out(told.house, told.practice), told.result.roof, Look{false}),
             Contains("joists run up the sheet") && Contains("at each joist"));
}

TEST_CASE("anchors at each joist of no joists are refused") {
  const auto code_of = [](const Draft& d) {
    const Opened o = d.opened();
    CHECK_FALSE(o.house.has_value());
    return o.problems.empty() ? std::string() : o.problems.front().code;
  };
  CHECK(code_of(on_joists("")) == "missing-key");
  CHECK(code_of(on_joists(up_the_sheet, "each = \"joist\", max = \"1.2 m\"")) == "two-ways");
  CHECK(code_of(on_joists(up_the_sheet, "each = \"stud\"")) == "unknown-word");
  CHECK(code_of(on_joists(up_the_sheet).noted_on_ground("anchor", "{ use = \"demo-bolt\", each = \"joist\" }")) ==
        "wrong-key");
  CHECK(code_of(closed_box().noted("anchor", "{ use = \"demo-bolt\", each = \"joist\" }")) == "wrong-key");
}
