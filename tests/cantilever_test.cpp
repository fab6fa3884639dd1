// Trusses that bear on nothing at one end and stick out past an inside wall instead: their reactions by moments and as
// beams, what of the part that sticks out counts where, the wall at the back of the recess, and what is said of it.
// Figures are worked by hand beside their checks; the houses are invented.
#include "any_roof.hpp"
#include "houses.hpp"
#include "job/mirrored.hpp"
#include "judge/roof_said.hpp"
#include "report/json.hpp"
#include "report/said_back.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

// ---- statics: a level roof of 12 x 6 m without overhangs, trusses 1 m apart: each holds 1 m
House level_roof() {
  House h = roofed(metres(12.0), metres(6.0), RoofShape::flat, Along::across, degrees(0.0), metres(0.0), metres(0.0));
  h.roof.high = Side::back;
  h.roof.weight = {kilopascals(1.0), kilopascals(1.0), false};
  h.trusses.clear();
  for (int i = 0; i <= 12; ++i) h.trusses.push_back(Truss{"T1", metres(i), Chosen{}});
  return h;
}
void add_inside_wall(House& h, const std::string& name, double in) {
  Wall w{};
  w.name = name;
  w.runs = h.roof.ridge;
  w.line = metres(in);
  w.to = h.roof.ridge == Along::across ? h.across : h.up;
  w.pieces = {Piece{w.from, w.to, std::nullopt, std::nullopt}};
  h.walls.push_back(w);
}
// One zone a surface, the same pressure from above everywhere, none from below.
Loads even(const Shape& s, double kpa, const Combination& k) {
  Layout layout{"whole", {}};
  LoadCase c{};
  c.combination = k;
  c.down = {"1.2 G + W", "a test", 1.2, 1.0};
  for (std::size_t i = 0; i < s.surfaces.size(); ++i) {
    layout.zones.push_back({i, s.surfaces[i].outline, fmt::format("{}", i)});
    c.net.push_back(s.surfaces[i].part == Part::soffit ? zero<Pressure>() : kilopascals(kpa));
  }
  return {Basis::limit_state, {layout}, {c}, {}};
}
const Combination pull_up{"a pull upwards of the weight", "a test", -1.0, 0.0};

struct Loaded {
  House house;
  Shape shape;
  Loads loads;
  RoofForces roof;
  Loaded(House h, const std::function<Loads(const Shape&)>& make)
      : house(std::move(h)), shape(shape_of(house)), loads(make(shape)), roof(house, shape, loads) {}
  Loaded(const Loaded&) = delete;
  Loaded& operator=(const Loaded&) = delete;
  std::size_t bearing(std::string_view words) const {
    for (std::size_t i = 0; i < roof.bearings().size(); ++i)
      if (roof.bearings()[i].words == words) return i;
    throw std::runtime_error(fmt::format("no bearing {}", words));
  }
  double exact(std::string_view words) const { return kN(roof.exact_uplift(0, bearing(words))); }
  double used(std::string_view words) const { return kN(roof.uplift(0, bearing(words))); }
  double press(std::string_view words) const { return kN(roof.press(0, bearing(words))); }
  static double kN(Force f) { return f.value() / 1000.0; }
};

// ---- whole houses: 12 x 7.8 m, a porch 3600 wide and 1500 deep in the front
Draft porch() {
  Draft d = closed_box();
  d.mark("P1", "{ size = \"2100 x 3600\", open = true }");
  d.wall("A", "\"B 2400 | P1 | B 6000\"");
  d.wall("E", "{ from_front = 1500, run = \"B 1800 | 8400 | B 1800\" }");
  d.trusses =
      "[{ mark = \"T1\", max = 900, odd_space = \"right\" }, { mark = \"T2\", at = [2700, 3600, 4500, 5400], "
      "also_on = [\"E\"], clear_of = \"front\" }]";
  return d;
}
Problem only(const Draft& d) {
  const Opened o = d.opened();
  INFO(render(o.problems, false));
  CHECK_FALSE(o.house.has_value());
  REQUIRE(o.problems.size() == 1);
  return o.problems.front();
}
Draft with(Draft d, std::string_view from, std::string_view to) {
  const std::size_t at = d.trusses.find(from);
  if (at == std::string::npos) throw std::runtime_error("not in the trusses");
  d.trusses.replace(at, from.size(), to);
  return d;
}
// A page as one line, however it is broken.
std::string unbroken(const std::string& page) {
  std::string r;
  for (const char c : page)
    if (const bool space = c == ' ' || c == '\n'; !space || r.empty() || r.back() != ' ') r += space ? ' ' : c;
  return r;
}
bool said(const Result& r, std::string_view code) {
  return std::any_of(r.cautions.begin(), r.cautions.end(), [&](const Caution& c) { return c.code == code; });
}

}  // namespace

// ---- statics --------------------------------------------------------------------------------------------------------

TEST_CASE("a truss of 6 m that bears 1.2 m in: its two bearings by moments") {
  House h = level_roof();
  add_inside_wall(h, "E", 1.2);
  h.trusses[4].also_on = {"E"};
  h.trusses[4].clear_of = Side::front;
  const auto pulled = [](const Shape& s) { return even(s, 0.0, pull_up); };
  const Loaded b(h, pulled);
  // 1 kN/m over 6 m, its middle 3 m from the back, the bearings 4.8 m apart: 6 x 3 / 4.8 = 3.75 and 6 - 3.75 = 2.25.
  CHECK_THAT(b.exact("T1 at 4000 on E"), WithinAbs(3.75, 1e-9));
  CHECK_THAT(b.exact("T1 at 4000 back"), WithinAbs(2.25, 1e-9));
  CHECK_THAT(b.exact("T1 at 5000 front"), WithinAbs(3.0, 1e-9));
  CHECK_FALSE(b.roof.any_continuous());
  CHECK(b.roof.any_clear_end());
  const Member& t = b.roof.members()[4];
  CHECK(t.bearings == std::vector<std::size_t>{8, 9});
  REQUIRE(t.clear);
  CHECK(t.clear->set_back == 8);
  CHECK_THAT(m(t.clear->depth), WithinAbs(1.2, 1e-12));
  CHECK_THAT(m(t.clear->from), WithinAbs(3.5, 1e-12));
  CHECK_THAT(m(t.clear->to), WithinAbs(4.5, 1e-12));
  CHECK(h.walls[t.clear->wall].side == Side::front);
  CHECK(b.roof.number(8) == b.roof.number(9));

  // At the other end: the same from behind.
  h.walls.back().line = metres(4.8);
  h.trusses[4].clear_of = Side::back;
  const Loaded behind(h, pulled);
  CHECK_THAT(behind.exact("T1 at 4000 on E"), WithinAbs(3.75, 1e-9));
  CHECK_THAT(behind.exact("T1 at 4000 front"), WithinAbs(2.25, 1e-9));
}

TEST_CASE("what sticks out counts in full at the bearing set back, and at the far one only where it makes it worse") {
  House h = level_roof();
  h.roof.weight = {kilopascals(0.4), kilopascals(0.6), false};
  add_inside_wall(h, "E", 1.2);
  h.trusses[4].also_on = {"E"};
  h.trusses[4].clear_of = Side::front;
  const auto with_wind = [](double net) {
    return [net](const Shape& s) {
      Loads l = even(s, net, {"0.9 G + W", "a test", 0.9, 1.0});
      l.cases[0].square_on = {{Side::front, metres(0.0), metres(12.0), kilopascals(0.8), "front"},
                              {Side::back, metres(0.0), metres(12.0), kilopascals(0.5), "back"}};
      return l;
    };
  };
  const Loaded up(h, with_wind(-2.0));
  // Wind 2 x 6 x 3 / 4.8 = 7.5, weight 0.4 x 6 x 3 / 4.8 = 1.5 at 0.9: exact 6.15. The recess: 0.8 kPa on 1 x 1.2 m,
  // its middle 5.4 m from the back: 0.96 x 5.4 / 4.8 = 1.08.
  CHECK_THAT(up.exact("T1 at 4000 on E"), WithinAbs(6.15, 1e-9));
  CHECK_THAT(up.used("T1 at 4000 on E"), WithinAbs(7.23, 1e-9));
  // Exact 2 x 6 - 7.5 = 4.5 less 0.9 x (2.4 - 1.5) = 0.81. Used: of the 4.8 m between the bearings 2 x 2.4 = 4.8 less
  // 0.9 x 0.96; the greatest weight of the 1.2 m lifts 1.2 x 0.72 x 0.6 / 4.8 = 0.108; the recess, should it suck,
  // 0.96 x 0.6 / 4.8 = 0.12.
  CHECK_THAT(up.exact("T1 at 4000 back"), WithinAbs(3.69, 1e-9));
  CHECK_THAT(up.used("T1 at 4000 back"), WithinAbs(4.8 - 0.864 + 0.108 + 0.12, 1e-9));
  // Wind that presses: what lies past the bearing set back then lifts the far one: -2.4 + 2 x 1.2 x 0.6 / 4.8 = -2.1
  // for 1 kPa.
  const Loaded down(h, with_wind(1.0));
  CHECK_THAT(down.exact("T1 at 4000 back"), WithinAbs(-2.25 - 0.81, 1e-9));
  CHECK_THAT(down.used("T1 at 4000 back"), WithinAbs(-2.4 + 0.15 - 0.864 + 0.108 + 0.12, 1e-9));
  // Pressed, in wind of 0.1 kPa upwards. Set back: 1.2 x 2.25 - 0.375. Far: 1.2 x 1.44 less the 0.24 between the
  // bearings, and past them 0.1 x 1.2 x 0.6 / 4.8 = 0.015 presses it.
  const Loaded calm(h, with_wind(-0.1));
  CHECK_THAT(calm.press("T1 at 4000 on E"), WithinAbs(2.325, 1e-9));
  CHECK_THAT(calm.press("T1 at 4000 back"), WithinAbs(1.728 - 0.24 + 0.015, 1e-9));
  // What each demand is made of adds up to it.
  for (const Loaded* l : {&up, &down, &calm})
    for (std::size_t k = 0; k < l->roof.bearings().size(); ++k) {
      double sum = 0.0;
      for (const Piece_of_demand& p : l->roof.uplift_made_of(0, k)) sum += Loaded::kN(p.value);
      CHECK_THAT(sum, WithinAbs(Loaded::kN(l->roof.uplift(0, k)), 1e-9));
    }
}

TEST_CASE("a truss that sticks out past three bearings: the three-moment equation in closed form") {
  House h = level_roof();
  add_inside_wall(h, "E", 1.2);
  add_inside_wall(h, "F", 3.6);
  h.trusses[4].also_on = {"F", "E"};
  h.trusses[4].clear_of = Side::front;
  const Loaded b(h, [](const Shape& s) { return even(s, 0.0, pull_up); });
  CHECK(b.roof.any_continuous());
  // 1 kN/m over 1.2 m past E and two spans of 2.4 m: M_E = -1.2^2 / 2 = -0.72, M_back = 0, and M_E + 4 M_F + M_back =
  // -2.4^2 / 2: M_F = -0.54. At the back 1.2 + M_F / 2.4 = 0.975; at E 1.2 + 1.2 + (M_F - M_E) / 2.4 = 2.475; F holds
  // the rest of 6.
  CHECK_THAT(b.exact("T1 at 4000 on E"), WithinAbs(2.475, 1e-9));
  CHECK_THAT(b.exact("T1 at 4000 on F"), WithinAbs(2.55, 1e-9));
  CHECK_THAT(b.exact("T1 at 4000 back"), WithinAbs(0.975, 1e-9));
  // At its ends never less than with those two bearings alone.
  CHECK(b.used("T1 at 4000 on E") >= 3.75 - 1e-9);
  CHECK(b.used("T1 at 4000 back") >= 2.25 - 1e-9);
}

TEST_CASE("a bearing set back by nothing is the plain truss's, and the farther back the more it holds") {
  House h = level_roof();
  h.roof.eaves = metres(0.45);
  const auto wind = [](const Shape& s) { return even(s, -1.5, {"0.9 G + W", "a test", 0.9, 1.0}); };
  const Loaded plain(h, wind);
  double before = plain.exact("T1 at 4000 front");
  bool first = true;
  for (const double in : {1e-3, 0.3, 0.9, 1.4}) {
    House c = h;
    add_inside_wall(c, "E", in);
    c.trusses[4].also_on = {"E"};
    c.trusses[4].clear_of = Side::front;
    const Loaded b(c, wind);
    const double there = b.exact("T1 at 4000 on E");
    if (first) {
      CHECK_THAT(there, WithinRel(before, 1e-3));
      CHECK_THAT(b.exact("T1 at 4000 back"), WithinRel(plain.exact("T1 at 4000 back"), 1e-3));
    }
    CHECK(there > before);
    CHECK(b.used("T1 at 4000 back") >= b.exact("T1 at 4000 back"));
    // All other trusses as before, and all of them together what the roof brings.
    double sum = 0.0, plain_sum = 0.0;
    for (std::size_t k = 0; k < b.roof.bearings().size(); ++k) {
      sum += Loaded::kN(b.roof.exact_uplift(0, k));
      plain_sum += Loaded::kN(plain.roof.exact_uplift(0, k));
      if (b.roof.bearings()[k].member != 4) CHECK(b.roof.uplift(0, k) == plain.roof.uplift(0, k));
    }
    CHECK_THAT(sum, WithinRel(plain_sum, 1e-12));
    before = there;
    first = false;
  }
}

TEST_CASE("the wind on the upright face above a skillion's high wall turns a truss that is clear of it as well") {
  House h = skillion(metres(12.0), metres(6.0), degrees(10.0), Side::back, metres(0.0), metres(0.0));
  h.trusses.clear();
  for (int i = 0; i <= 12; ++i) h.trusses.push_back(Truss{"HT1", metres(i), Chosen{}});
  add_inside_wall(h, "E", 4.8);
  h.trusses[4].also_on = {"E"};
  h.trusses[4].clear_of = Side::back;
  const Loaded b(h, [](const Shape& s) {
    Loads l = even(s, -1.0, {"W", "a test", 0.0, 1.0});
    l.cases[0].square_on = {{Side::back, metres(0.0), metres(12.0), kilopascals(1.0), "back"}};
    return l;
  });
  // 1 kPa on 1 m of a face 6 tan 10 = 1.058 m high: 1.058^2 / 2 kN m, over 6 m at its neighbour and 4.8 m here.
  const double couple = 0.5 * std::pow(6.0 * std::tan(10.0 * 3.14159265358979 / 180.0), 2);
  const auto face = [&](std::string_view words) {
    for (const Piece_of_demand& p : b.roof.uplift_made_of(0, b.bearing(words)))
      if (p.what == "wind on the face above the high wall") return Loaded::kN(p.value);
    return 0.0;
  };
  CHECK_THAT(face("HT1 at 5000 back"), WithinAbs(couple / 6.0, 1e-9));
  CHECK_THAT(face("HT1 at 4000 on E"), WithinAbs(couple / 4.8, 1e-9));
  CHECK_THAT(face("HT1 at 4000 front"), WithinAbs(couple / 4.8, 1e-9));
}

// ---- the house under it ---------------------------------------------------------------------------------------------

TEST_CASE("the wall at the back of a recess takes the wind there, the outside wall's brackets all that goes along it") {
  const Built b(porch());
  Draft d = porch();
  d.trusses = "{ mark = \"T1\", max = 900, odd_space = \"right\" }";
  const Built plain(d);
  REQUIRE(b.loads.cases.size() == plain.loads.cases.size());
  const std::size_t back = b.wall_at("E"), front = b.wall_at("A");
  std::size_t pushed = 0;
  for (std::size_t c = 0; c < b.loads.cases.size(); ++c) {
    // Square on: as the same truss props the outside wall elsewhere.
    const Force across = b.forces.bracket_across(c, b.bearing_at("T2 at 3600 on E"));
    CHECK(across == plain.forces.bracket_across(c, plain.bearing_at("T1 at 3600 front")));
    CHECK(b.forces.bracket_along(c, b.bearing_at("T2 at 3600 on E")) == zero<Force>());
    pushed += across > zero<Force>() ? 1 : 0;
    // The anchors of that wall with it; those of the plain house's take nothing.
    double of_anchors = 0.0;
    for (std::size_t s = 0; s < b.forces.walls[back].supports.size(); ++s) {
      of_anchors += b.forces.across(c, back, s).value();
      CHECK(plain.forces.across(c, back, s) == zero<Force>());
    }
    // 3600 of the wall, half its height: what the four brackets take above, the anchors take below.
    double of_brackets = 0.0;
    for (const char* at : {"2700", "3600", "4500", "5400"})
      of_brackets += b.forces.bracket_across(c, b.bearing_at(fmt::format("T2 at {} on E", at))).value();
    CHECK_THAT(of_anchors, WithinAbs(of_brackets, 1e-6));
    // Along: the line's force goes through the brackets that there are.
    double along = 0.0;
    for (std::size_t k = 0; k < b.forces.roof.bearings().size(); ++k)
      for (const Foot& f : b.forces.roof.bearings()[k].feet)
        if (f.wall == front) along += b.forces.bracket_along(c, k).value();
    const double line = std::abs(b.forces.line_force(c, b.line_at("A")).value());
    CHECK_THAT(along, WithinAbs(line, 1e-6 * line + 1e-9));
  }
  CHECK(pushed > 0);
  // Nothing of it comes down on wall A; on wall E each has a stud.
  std::size_t on_e = 0;
  for (const Stud& s : b.forces.studs)
    for (const Stud::Load& l : s.loads)
      if (b.forces.roof.bearings()[l.bearing].words.starts_with("T2") && s.wall != b.wall_at("C")) {
        CHECK(s.wall == back);
        ++on_e;
      }
  CHECK(on_e == 4);
}

TEST_CASE("a mirrored house answers alike with trusses clear of a wall") {
  Draft d = porch();
  d.site =
      "method = \"ASCE 7-16\"\nspeed = \"120 mph\"\nspeed_is = \"ultimate\"\nexposure = \"B\"\nrisk = "
      "\"II\"\nlevel = \"strength\"\ngiven_by = \"a test\"";
  const House h = d.house();
  const Built drawn(h), turned(mirrored(h, Mirror::front_back)), swapped(mirrored(h, Mirror::left_right));
  const auto worst = [](const Built& b, const std::string& words) {
    double most = -1e9;
    for (std::size_t c = 0; c < b.loads.cases.size(); ++c)
      most = std::max(most, b.forces.uplift(c, b.bearing_at(words)).value());
    return most;
  };
  CHECK(turned.house.trusses[4].clear_of == Side::back);
  CHECK_THAT(worst(turned, "T2 at 3600 on E"), WithinRel(worst(drawn, "T2 at 3600 on E"), 1e-9));
  CHECK_THAT(worst(turned, "T2 at 3600 front"), WithinRel(worst(drawn, "T2 at 3600 back"), 1e-9));
  CHECK_THAT(worst(swapped, "T2 at 8400 on E"), WithinRel(worst(drawn, "T2 at 3600 on E"), 1e-9));
  CHECK(turned.result.links.size() == drawn.result.links.size());
}

TEST_CASE("a sheet that states what may press gets no answer at a truss that sticks out") {
  Draft d = porch();
  d.site =
      "method = \"ASCE 7-16\"\nspeed = \"120 mph\"\nspeed_is = \"ultimate\"\nexposure = \"B\"\nrisk = "
      "\"II\"\nlevel = \"strength\"\ngiven_by = \"a test\"";
  d.fixing(
      "[[bracket]]\nname = \"demo-seat\"\nuplift = \"60 kN\"\nalong = \"60 kN\"\nacross = \"60 kN\"\npress = \"80 "
      "kN\"\ntogether = \"straight sum\"\nbasis = \"design\"\ncyclic = \"tested\"\n");
  d.noted("truss", "\"demo-seat\"");
  const Built b(d);
  CHECK(b.link("T2 at 3600 on E", "bracket").why.code == "press-not-judged");
  CHECK(b.link("T2 at 3600 back", "bracket").why.code == "press-not-judged");
  CHECK(b.link("T1 at 7200 front", "bracket").why.code != "press-not-judged");
}

// ---- said -----------------------------------------------------------------------------------------------------------

TEST_CASE("trusses clear of a wall are said back, cautioned of and in the JSON") {
  const House h = porch().house();
  REQUIRE(h.trusses.size() == 15);
  for (const Truss& t : h.trusses) CHECK(t.clear_of.has_value() == (t.mark == "T2"));
  const Built b(h);
  CHECK(said(b.result, "clear-ends"));
  CHECK_FALSE(said(b.result, "inside-walls-bear"));
  CHECK_FALSE(said(b.result, "outside-walls-bear"));
  std::string bare;
  for (const Caution& c : b.result.cautions)
    if (c.code == "nothing-props-wall") bare += c.text;
  // From half-way between 1800 and 2700 to half-way between 5400 and 6300.
  CHECK_THAT(bare, Contains("the top of wall A between 2250 and 5850 from its left"));
  const std::string page = unbroken(said_back(h, set_out(h, table("practice/common.toml")), roof_of(h), Look{false}));
  CHECK_THAT(page,
             Contains("T2, bracket at both bearings demo-cleat (unless noted, line 28), clear of the front: on wall "
                      "E instead, at 2700 3600 4500 5400"));
  std::size_t clear = 0;
  for (const MemberSaid& m : b.result.roof.members) {
    CHECK((m.clear_of == "front") == (m.mark == "T2"));
    if (m.clear_of.empty()) continue;
    ++clear;
    REQUIRE(m.bearings.size() == 2);
    CHECK(m.bearings[0].on == "wall E");
    CHECK(m.bearings[1].on == "wall C");
    CHECK_THAT(m.bearings[0].at.up.value(), WithinAbs(1.5, 1e-12));
  }
  CHECK(clear == 4);
  CHECK_THAT(json(b.result, false), Contains("\"clear_of\":\"front\""));
}

TEST_CASE("trusses clear of a wall: what is wrong with them is told at its place") {
  CHECK(porch().opened().problems.empty());
  Problem p = only(with(porch(), "also_on = [\"E\"], ", ""));
  CHECK(p.code == "missing-key");
  CHECK_THAT(p.message, Contains("`also_on` is missing: trusses that bear on nothing at the front"));
  p = only(with(porch(), "\"front\"", "\"left\""));
  CHECK(p.code == "unknown-word");
  CHECK_THAT(p.message, Contains("`left` is not an end of these trusses"));
  // Only over an opening of that wall.
  p = only(with(porch(), "4500, 5400", "4500, 6300"));
  CHECK(p.code == "wall-under-the-end");
  CHECK_THAT(p.message, Contains("T2 at 6300 cannot be clear of the front: wall A stands under its end there"));
  p = only(with(porch(), "2700, 3600", "2400, 3600"));  // at the opening's edge
  CHECK(p.code == "wall-under-the-end");
  // At most a third of the span left: 1950 of 5850.
  Draft d = porch();
  d.wall("E", "{ from_front = 1950, run = \"B 1800 | 8400 | B 1800\" }");
  CHECK(d.opened().problems.empty());
  d.wall("E", "{ from_front = 1960, run = \"B 1800 | 8400 | B 1800\" }");
  p = only(d);
  CHECK(p.code == "cantilever-too-long");
  CHECK_THAT(p.message, Contains("would stick out 1960 past their last bearing, with 5840 between it and the next"));
  // The span next to it counts: to F, not to the back.
  d = with(porch(), "[\"E\"]", "[\"E\", \"F\"]");
  d.wall("F", "{ from_front = 5000, run = \"B 1800 | 8400 | B 1800\" }");
  CHECK_THAT(only(d).message, Contains("would stick out 1500 past their last bearing, with 3500 between it and the"));
  // Of trusses alone, in a house of one floor.
  Draft hips = hip_box();
  hips.wall("E", "{ from_front = 1500, run = \"B 1800 | 8400 | B 1800\" }");
  p = only(with(hips, "hip_girder = \"2.4 m\"", "hip_girder = \"2.4 m\", also_on = [\"E\"], clear_of = \"front\""));
  CHECK(p.code == "wrong-key");
  CHECK_THAT(p.message, Contains("`clear_of` belongs to trusses"));
  Draft two = two_floor_box();
  two.trusses = "{ mark = \"T1\", max = \"0.9 m\", also_on = [\"E\"], clear_of = \"front\" }";
  two.wall("E", "{ from_front = 1500, run = \"B 1800 | 8400 | B 1800\" }");
  two.first_wall("E", "{ same_as = \"ground\" }");
  const Opened o = two.opened();
  CHECK(std::any_of(o.problems.begin(), o.problems.end(), [](const Problem& x) { return x.code == "not-yet"; }));
}
