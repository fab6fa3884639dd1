// What presses on the studs at a brace's end under a first floor, and under what stands on walls in other ways than a
// whole truss: put together by hand beside what the program says. How a brace tips, what a truss presses and where the
// first floor's studs stand is tested elsewhere. Invented houses.
#include "ell_house.hpp"
#include "houses.hpp"
#include "recompute.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const std::string studs =
    "[[end_studs]]\nname = \"demo-studs\"\npress = \"400 kN\"\ngreatest_height = \"3 m\"\nbasis = \"design\"\n";
const std::string joists_up = "joists = \"up\", spacing = \"0.45 m\", joist_width = \"45 mm\"";
const std::string joists_across = "joists = \"across\", spacing = \"0.45 m\", joist_width = \"45 mm\"";

struct FloorKeys {
  std::string greatest = "0.60 kPa", live = "1.5 kPa", joists = joists_up;
};
// 12 m by 7.8 m, walls of 2.7 m and 2.55 m of 0.30 kPa, a truss every 900 mm from the left across to both fronts.
Draft pressed(const std::string& ground, const std::string& first, const FloorKeys& floor = {}) {
  Draft d = two_floor_box();
  d.wall_weight = "\"0.30 kPa\"";
  if (!floor.greatest.empty()) d.floor_depth += ", greatest_weight = \"" + floor.greatest + "\"";
  if (!floor.live.empty()) d.floor_depth += ", live = \"" + floor.live + "\"";
  if (!floor.joists.empty()) d.floor_depth += ", " + floor.joists;
  d.fixing(studs).noted("end_studs", "\"demo-studs\"");
  return d.wall("A", ground).first_wall("A", first);
}
double press_of(const Link& l) { return part(l, "press").demand.si; }
double piece(const Link& l, const std::string& what) {
  double sum = 0.0;
  for (const MadeOf& m : part(l, "press").made_of)
    if (m.what == what) sum += m.value.si;
  return sum;
}
// The roof's part: so much of each bearing, in any case that presses (the class knows such cases alone).
double roof_by_hand(const Built& b, const std::map<std::string, double>& parts) {
  double sum = 0.0;
  for (const auto& [words, part] : parts) {
    Force most = zero<Force>();
    for (std::size_t k = 0; k < b.loads.cases.size(); ++k)
      most = std::max(most, b.forces.roof.press(k, b.bearing_at(words)));
    sum += part * most.value();
  }
  return sum;
}
double sum_of(const Link& l) {
  double sum = 0.0;
  for (const MadeOf& m : part(l, "press").made_of) sum += m.value.si;
  return sum;
}
constexpr double exact = 1e-12;
constexpr const char* by_asce_allowable =
    "method = \"ASCE 7-16\"\nspeed = \"130 mph\"\nspeed_is = \"ultimate\"\nexposure = \"C\"\nrisk = \"II\"\nlevel = "
    "\"allowable\"\ntopography = \"flat\"\ngiven_by = \"a test\"";

}  // namespace

TEST_CASE("under a first floor: both braces tip, both walls and the floor weigh, its studs bring the roof") {
  const Built b(pressed("\"B 1200 | 10800\"", "\"B 1200 | 10800\""));
  const Link& right = b.link("compression ground A1 right");
  REQUIRE(right.verdict == Verdict::pass);
  CHECK(right.load_case.combination == "1.2 G + W + 0.4 Q");
  const std::size_t c = b.case_at(right.load_case);
  // Joists up the sheet, one span of 7.8 m: 3.9 m of floor on half of the brace and 600 mm beside it,
  // (1.2 * 0.60 + 0.4 * 1.5) kPa * 3.9 m * 1.2 m = 6.1776 kN. Walls: 1.2 * 0.30 kPa * (2.7 + 2.55) m * 1.2 m = 2.268
  // kN.
  CHECK_THAT(piece(right, "first floor and the load on it"), WithinRel(6177.6, exact));
  CHECK_THAT(piece(right, "weight of the walls"), WithinRel(2268.0, exact));
  CHECK_THAT(piece(right, "tipping of brace ground A1"),
             WithinRel(b.forces.tip(c, b.brace_at("ground A1")).value(), exact));
  CHECK_THAT(piece(right, "tipping of braces above it"),
             WithinRel(b.forces.tip(c, b.brace_at("first A1")).value(), exact));
  CHECK_THAT(piece(right, "roof"),
             WithinRel(roof_by_hand(b, {{"T1 at 900 front", 1.0}, {"T1 at 1800 front", 1.0}}), exact));
  CHECK_THAT(sum_of(right), WithinRel(press_of(right), exact));
}

TEST_CASE("under a first floor: at a corner the other wall brings what of the floor lies on it") {
  // The end at 0: wall D stands there, the joists along it: one space of 450 mm on the 600 mm within reach, beside 3.9
  // m on wall A: 1.32 kPa * (1.2 * 3.9 + 0.6 * 0.45) m2 = 6.534 kN
  const Built up(pressed("\"B 1200 | 10800\"", "\"B 1200 | 10800\""));
  CHECK_THAT(piece(up.link("compression ground A1 left"), "first floor and the load on it"), WithinRel(6534.0, exact));
  // Joists across: 450 mm on A, half of 12 m on D: 1.32 * (1.2 * 0.45 + 0.6 * 6.0) = 5.4648 kN
  const Built across(pressed("\"B 1200 | 10800\"", "\"B 1200 | 10800\"", {"0.60 kPa", "1.5 kPa", joists_across}));
  CHECK_THAT(piece(across.link("compression ground A1 left"), "first floor and the load on it"),
             WithinRel(5464.8, exact));
  // Nothing said of them: of each wall the greater, 1.32 * (1.2 * 3.9 + 0.6 * 6.0) = 10.9296 kN, and a word of it
  const Built unsaid(pressed("\"B 1200 | 10800\"", "\"B 1200 | 10800\"", {"0.60 kPa", "1.5 kPa", ""}));
  CHECK_THAT(piece(unsaid.link("compression ground A1 left"), "first floor and the load on it"),
             WithinRel(10929.6, exact));
  const auto said = [](const Built& b) {
    for (const Caution& c : b.result.cautions)
      if (c.code == "floor-presses") return c.text;
    return std::string();
  };
  CHECK_THAT(said(unsaid), Contains("not stated"));
  CHECK_THAT(said(up), Contains("one span") && !Contains("not stated"));
}

TEST_CASE("under a first floor: an inside wall has all of the floor across the joists, two spaces along them") {
  for (const auto& [joists, wide] : {std::pair(joists_across, 0.9), {joists_up, 7.8}}) {
    Draft d = pressed("\"B 12 m\"", "\"B 12 m\"", {"0.60 kPa", "1.5 kPa", joists});
    d.wall("E", "{ from_front = 3900, run = \"3 m | B 2400 | 6.6 m\" }");
    const Built b(d);
    // Its end at 5.4 m, far from other walls: 1.32 kPa on 1.2 + 0.6 m
    const Link& l = b.link("compression ground E1 right");
    INFO(joists);
    CHECK_THAT(piece(l, "first floor and the load on it"), WithinRel(1320.0 * 1.8 * wide, exact));
    // No wall above it: its own alone, 1.2 * 0.30 * 2.7 * 1.8
    CHECK_THAT(piece(l, "weight of the wall"), WithinRel(1749.6, exact));
  }
}

TEST_CASE("under a first floor: what stands above comes by its place") {
  // A brace above ends at 1600, 400 mm past the end below, and whole; one that ends at 2100 not at all: beyond reach
  const auto tipped = [](const char* first) {
    const Built b(pressed("\"B 1200 | 10800\"", first));
    const Link& l = b.link("compression ground A1 right");
    return piece(l, "tipping of braces above it") /
           b.forces.tip(b.case_at(l.load_case), b.brace_at("first A1")).value();
  };
  CHECK_THAT(tipped("\"B 1600 | 10400\""), WithinRel(1.0, exact));
  CHECK_THAT(tipped("\"B 1800 | 10200\""), WithinRel(1.0, exact));
  CHECK(tipped("\"B 2100 | 9900\"") == 0.0);
  // Over a brace of 3 m that ends at 3000, from 1500 on: half of it by the lever about the other end
  const Built over(pressed("\"B 3000 | 9000\"", "\"B 1500 | 10500\""));
  const Link& l = over.link("compression ground A1 right");
  CHECK_THAT(piece(l, "tipping of braces above it"),
             WithinRel(0.5 * over.forces.tip(over.case_at(l.load_case), over.brace_at("first A1")).value(), exact));
  // A window above, from 1800 to 3600: the trusses at 2700 come down at its jambs, half at 1800, within reach of 1200
  Draft d = pressed("\"B 1200 | 10800\"", "\"B 1200 | 600 | W1 1800 | 8400\"");
  d.mark("W1", "\"1200 x 1800\"");
  const Built window(d);
  CHECK_THAT(
      piece(window.link("compression ground A1 right"), "roof"),
      WithinRel(roof_by_hand(window, {{"T1 at 900 front", 1.0}, {"T1 at 1800 front", 1.0}, {"T1 at 2700 front", 0.5}}),
                exact));
}

TEST_CASE("under a first floor: what is not stated is not judged, and its key is named") {
  const auto open = [](const FloorKeys& keys) {
    const Built b(pressed("\"B 1200 | 10800\"", "\"B 1200 | 10800\"", keys));
    const Link& l = b.link("compression ground A1 right");
    CHECK(l.verdict == Verdict::not_judged);
    CHECK(l.why.code == "condition-not-stated");
    CHECK_FALSE(l.use.has_value());
    std::string keys_to_add;
    for (const Condition& c : l.conditions)
      if (c.met == Met::not_stated) keys_to_add += c.key + " ";
    CHECK(b.link("compression first A1 right").verdict == Verdict::pass);
    return keys_to_add;
  };
  CHECK(open({"", "1.5 kPa", joists_up}) == "floor.first.greatest_weight ");
  CHECK(open({"0.60 kPa", "", joists_up}) == "floor.first.live ");
  CHECK(open({"", "", ""}) == "floor.first.greatest_weight floor.first.live ");
  Draft crossed = pressed("\"B 12 m\"", "\"B 12 m\"");
  crossed.floor_depth += ", weight = \"0.70 kPa\"";
  const Opened o = crossed.opened();
  REQUIRE_FALSE(o.house);
  CHECK(o.problems.front().code == "weights-swapped");
}

TEST_CASE("under a first floor: what stands on the floor alone is not known where joists may bring it") {
  const auto why = [](const std::string& first_e, const std::string& joists) {
    Draft d = pressed("\"B 1200 | 9600 | B 1200\"", "\"B 1200 | 9600 | B 1200\"", {"0.60 kPa", "1.5 kPa", joists});
    d.first_wall("E", first_e);
    const Built b(d);
    const Link& l = b.link("compression ground A1 right");
    return l.verdict == Verdict::pass ? std::string("judged") : l.why.code + ": " + l.why.subject;
  };
  // From 600 to 3600 across, 3.9 m from the front: joists up the sheet bring its brace's end to wall A at 600
  const std::string near = "{ from_front = 3900, run = \"600 | B 3 m | 8.4 m\" }";
  const std::string away = "{ from_front = 3900, run = \"5 m | B 3 m | 4 m\" }";
  CHECK_THAT(why(near, joists_up), Contains("press-not-known") && Contains("first E1"));
  CHECK_THAT(why(near, ""), Contains("first E1"));
  CHECK(why(near, joists_across) == "judged");
  CHECK(why(away, joists_up) == "judged");
  // Its weight comes all the same: 1.2 * 0.30 * 2.55 m * 1.2 m of it = 1.1016 kN more than without it
  Draft d = pressed("\"B 1200 | 9600 | B 1200\"", "\"B 1200 | 9600 | B 1200\"");
  const double without = piece(Built(d).link("compression ground A1 right"), "weight of the walls");
  d.first_wall("E", away);
  CHECK_THAT(piece(Built(d).link("compression ground A1 right"), "weight of the walls") - without,
             WithinAbs(1101.6, 1e-6));
  // A brace above that does not count is stiff all the same
  const Built refused(pressed("\"B 1200 | 10800\"", "\"B 600 | 11400\""));
  CHECK_THAT(refused.link("compression ground A1 right").why.subject, Contains("first A1 above does not count"));
}

TEST_CASE("under a first floor: by ASCE 7's allowable level the worst of both combinations") {
  // D + 0.6W has no load of the floor, D + 0.75L + 0.75(0.6W) three quarters of the wind
  for (const auto& [live, name] : {std::pair("1.0 kPa", "D + 0.6W"), {"4.5 kPa", "D + 0.75L + 0.75(0.6W)"}}) {
    Draft d = pressed("\"B 1200 | 10800\"", "\"B 1200 | 10800\"", {"0.60 kPa", live, joists_up});
    d.fixings = plenty("allowable") +
                "[[end_studs]]\nname = \"demo-studs\"\npress = \"400 kN\"\ngreatest_height = \"3 m\"\nbasis = "
                "\"allowable\"\nsource = \"invented\"\n";
    d.site = by_asce_allowable;
    const Built b(d);
    const Link& l = b.link("compression ground A1 right");
    REQUIRE(l.verdict == Verdict::pass);
    INFO(live << ": " << l.load_case.combination);
    const std::size_t c = b.case_at(l.load_case);
    const double tips = (b.forces.tip(c, b.brace_at("ground A1")) + b.forces.tip(c, b.brace_at("first A1"))).value();
    const double pascals = live[0] == '1' ? 1000.0 : 4500.0;
    // Walls 0.30 * 5.25 * 1.2, floor 0.60 * 4.68 m2, and the load on it
    const double weight = 300.0 * 5.25 * 1.2 + 600.0 * 4.68;
    double roof = 0.0, roof_less = 0.0;
    for (const char* t : {"T1 at 900 front", "T1 at 1800 front"}) {
      const double there = b.forces.roof.press(c % b.loads.cases.size(), b.bearing_at(t)).value();
      roof += there;
      roof_less += std::max(there, b.forces.roof.greatest_weight(b.bearing_at(t)).value());
    }
    const double with_wind = tips + roof + weight, with_load = 0.75 * tips + roof_less + weight + 0.75 * pascals * 4.68;
    CHECK_THAT(press_of(l), WithinRel(std::max(with_wind, with_load), exact));
    CHECK(l.load_case.combination == name);
    CHECK_THAT(sum_of(l), WithinRel(press_of(l), exact));
  }
}

TEST_CASE("under a first floor: more of anything never presses less, and a house seen in a mirror is pressed alike") {
  const auto presses = [](const FloorKeys& floor, const char* roof, const char* wall, const char* site, bool mirrored) {
    Draft d = mirrored ? pressed("\"B 2400 | 8400 | B 1200\"", "\"B 1800 | 9000 | B 1200\"", floor)
                       : pressed("\"B 1200 | 8400 | B 2400\"", "\"B 1200 | 9000 | B 1800\"", floor);
    if (mirrored) d.trusses = "{ mark = \"T1\", max = \"0.9 m\", odd_space = \"left\" }";
    d.site = fmt::format("class = \"{}\"\ngiven_by = \"a test\"", site);
    d.weight = roof;
    d.wall_weight = wall;
    const Built b(d);
    std::map<std::string, double> r;
    for (const Link& l : b.result.links)
      if (l.kind == "compression" && !l.where.words.starts_with("compression below")) r[l.where.words] = press_of(l);
    return r;
  };
  const FloorKeys plain, heavy{"0.90 kPa", "1.5 kPa", joists_up}, full{"0.60 kPa", "2.0 kPa", joists_up};
  const auto now = presses(plain, "\"0.40 kPa\"", "\"0.30 kPa\"", "N3", false);
  CHECK(now.size() == 20);
  for (const auto& more : {presses(heavy, "\"0.40 kPa\"", "\"0.30 kPa\"", "N3", false),
                           presses(full, "\"0.40 kPa\"", "\"0.30 kPa\"", "N3", false),
                           presses(plain, "\"0.60 kPa\"", "\"0.30 kPa\"", "N3", false),
                           presses(plain, "\"0.40 kPa\"", "\"0.45 kPa\"", "N3", false),
                           presses(plain, "\"0.40 kPa\"", "\"0.30 kPa\"", "N4", false)})
    for (const auto& [words, force] : now) {
      INFO(words);
      CHECK(more.at(words) >= force);
    }
  const auto other = presses(plain, "\"0.40 kPa\"", "\"0.30 kPa\"", "N3", true);
  for (const char* floor : {"ground", "first"})
    for (const auto& [here, there] : {std::pair("A1 left", "A2 right"),
                                      {"A1 right", "A2 left"},
                                      {"A2 left", "A1 right"},
                                      {"A2 right", "A1 left"}}) {
      INFO(floor << " " << here);
      CHECK_THAT(now.at(fmt::format("compression {} {}", floor, here)),
                 WithinRel(other.at(fmt::format("compression {} {}", floor, there)), 1e-9));
    }
}

TEST_CASE("half trusses press with the wind on their upright face") {
  Draft d = skillion_box();
  d.wall_weight = "\"0.30 kPa\"";
  d.fixing(studs).noted("end_studs", "\"demo-studs\"").wall("A", "\"B 1200 | 10800\"");
  d.site = by_as_nzs;
  const Built b(d);
  const Link& l = b.link("compression A1 right");
  CHECK(l.verdict == Verdict::pass);
  // At a bearing in the middle: greatest weight and wind by moments, and p b h^2 / 2 s of the face, h = 7.8 tan 8 deg
  const std::size_t bearing = b.bearing_at("T1 at 5400 front");
  const double h = 7.8 * std::tan(8.0 * std::numbers::pi / 180.0);
  std::size_t turned = 0;
  for (std::size_t c = 0; c < b.loads.cases.size(); ++c) {
    Working w;
    const double press = b.forces.roof.press(c, bearing, &w).value();
    double face = 0.0;
    for (const SquareOn& s : b.loads.cases[c].square_on)
      if (s.side == Side::back && s.from <= mm(4950.0) && s.to >= mm(5850.0))
        face = s.p.value() * 0.9 * h * h / 2.0 / 7.8 * b.loads.cases[c].down.wind;
    REQUIRE(face > 0.0);
    if (!(press > 0.0)) continue;
    ++turned;
    const auto level =
        std::find_if(w.steps.begin(), w.steps.end(), [](const Step& s) { return s.symbol.ends_with(",nt"); });
    REQUIRE(level != w.steps.end());
    CHECK_THAT(press - level->result.si, WithinRel(face, 1e-9));
  }
  CHECK(turned > 0);
}

TEST_CASE("jacks and hip rafters press at most, however they are held") {
  Draft hip = hip_box();
  hip.wall_weight = "\"0.30 kPa\"";
  hip.fixing(studs)
      .noted("end_studs", "\"demo-studs\"")
      .wall("A", "\"B 1200 | 10800\"")
      .wall("D", "\"3300 | B 1200 | 3300\"");
  const Built b(hip);
  CHECK(b.link("compression A1 left").verdict == Verdict::pass);   // the corner, its hip rafter
  CHECK(b.link("compression A1 right").verdict == Verdict::pass);  // creepers
  CHECK(b.link("compression D1 front").verdict == Verdict::pass);  // jacks
  const RoofForces& roof = b.forces.roof;
  std::map<MemberKind, std::size_t> met;
  for (std::size_t i = 0; i < roof.bearings().size(); ++i) {
    const Member& m = roof.member_of(i);
    if (m.kind != MemberKind::jack && m.kind != MemberKind::creeper && m.kind != MemberKind::hip_rafter) continue;
    for (std::size_t c = 0; c < b.loads.cases.size(); ++c)
      if (!b.loads.cases[c].down.name.empty() && !roof.bearings()[i].feet.empty()) {
        CHECK(roof.most_press(c, i).value() >= roof.press(c, i).value() * (1.0 - 1e-12));
        ++met[m.kind];
      }
  }
  CHECK(met.size() == 3);
  // The jack in the middle of the left end, s = 2.4 m to its girder, eaves e = 0.45 m, b wide, under p all over and
  // 1.2 * 0.40 kPa on plan. A straight rafter L = (s + e) / cos long, held by its girder both ways and by the wall
  // upright alone: about its head R s = p b L^2 / 2, R = p b (s + e)^2 (1 + tan^2) / 2 s; its weight as on level
  // ground.
  double middle = 1e9;
  std::size_t jack = 0;
  for (std::size_t i = 0; i < roof.bearings().size(); ++i)
    if (const Member& m = roof.member_of(i); m.kind == MemberKind::jack && !roof.bearings()[i].feet.empty() &&
                                             m.words.ends_with("left") &&
                                             std::abs(m.from.y / mm(1.0) - 3900.0) < middle) {
      middle = std::abs(m.from.y / mm(1.0) - 3900.0);
      jack = i;
    }
  const Window& holds = roof.member_of(jack).carries.front();
  const double s = 2.4, e = 0.45, wide = (holds.y1 - holds.y0) / mm(1000.0),
               slope = std::tan(22.5 * std::numbers::pi / 180.0);
  const LoadCase& k = b.loads.cases[b.case_at("left press")];
  double p = 0.0;
  const Layout& zones = b.loads.layouts[k.layout];
  for (std::size_t i = 0; i < zones.zones.size(); ++i)
    if (b.shape.surfaces[zones.zones[i].surface].part == Part::roof) p = k.net[i].value();
  for (std::size_t i = 0; i < zones.zones.size(); ++i)
    CHECK(k.net[i].value() == (b.shape.surfaces[zones.zones[i].surface].part == Part::soffit ? 0.0 : p));
  CHECK_THAT(roof.most_press(b.case_at("left press"), jack).value(),
             WithinRel((1.2 * 400.0 + p * (1.0 + slope * slope)) * wide * (s + e) * (s + e) / (2.0 * s), 1e-9));
}

TEST_CASE("in a house of several blocks what presses is judged but under another roof") {
  Ell ell;
  ell.marks = "B = { brace = \"demo-sheet\", hold_down = \"demo-rod\", end_studs = \"demo-studs\" }\n";
  ell.wall_weight = "\"0.30 kPa\"";
  const Built b(read_blocks(ell.job(), plenty() + studs + "source = \"invented\"\n"));
  std::size_t judged = 0, under = 0;
  for (const Link& l : b.result.links) {
    if (l.kind != "compression") continue;
    INFO(l.where.words << ": " << l.why.code << " " << l.why.subject);
    if (l.use) ++judged;
    else {
      CHECK(l.verdict == Verdict::not_judged);
      under += l.why.subject.find("another roof lies on") != std::string::npos;
    }
  }
  CHECK(judged > 4);
  CHECK(under > 0);
}

TEST_CASE("what presses under a first floor is told by the numbers that judge it") {
  REQUIRE(recompute::units_works());
  std::vector<House> houses;
  houses.push_back(pressed("\"B 1200 | 10800\"", "\"B 1200 | 10800\"").house());
  Draft asce = pressed("\"B 1200 | 10800\"", "\"B 1200 | 10800\"", {"0.60 kPa", "4.5 kPa", ""});
  asce.fixings = plenty("allowable") +
                 "[[end_studs]]\nname = \"demo-studs\"\npress = \"400 kN\"\ngreatest_height = \"3 m\"\nbasis = "
                 "\"allowable\"\nsource = \"invented\"\n";
  asce.site = by_asce_allowable;
  asce.first_wall("E", "{ from_front = 3900, run = \"5 m | B 3 m | 4 m\" }");
  houses.push_back(asce.house());
  Draft hip = hip_box();
  hip.wall_weight = "\"0.30 kPa\"";
  hip.fixing(studs).noted("end_studs", "\"demo-studs\"").wall("D", "\"3300 | B 1200 | 3300\"");
  hip.site = by_as_nzs;
  houses.push_back(hip.house());
  Draft half = skillion_box();
  half.wall_weight = "\"0.30 kPa\"";
  half.fixing(studs).noted("end_studs", "\"demo-studs\"").wall("A", "\"B 1200 | 10800\"");
  half.site = by_as_nzs;
  houses.push_back(half.house());
  for (const House& h : houses) {
    const Result r = check(h, table(table_for(h.site)), table("practice/common.toml"));
    std::size_t told = 0;
    for (std::size_t i = 0; i < r.links.size(); ++i) {
      const Link& l = r.links[i];
      if (l.kind != "compression" || !l.use || l.where.words.find("B1") != std::string::npos ||
          l.where.words.find("C1") != std::string::npos)
        continue;
      INFO(l.where.words << " " << l.load_case.id);
      const Working w = explain(h, table(table_for(h.site)), table("practice/common.toml"), r, i, metric);
      CHECK(orphan(w) == "");
      const auto outcome = recompute::recompute(w);
      for (const auto& miss : outcome.misses) FAIL_CHECK(miss);
      CHECK(outcome.checked >= 5);
      CHECK(outcome.worst <= 1.0);
      CHECK(std::any_of(w.steps.begin(), w.steps.end(), [&](const Step& s) { return s.result.si == press_of(l); }));
      ++told;
    }
    CHECK(told >= 4);
  }
}
