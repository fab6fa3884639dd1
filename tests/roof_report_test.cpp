// What is judged and said of a roof that is no plain gable: brackets between members, what presses down, the roof said
// back in words and in JSON. The houses are invented; figures worked by hand stand beside their checks.
#include "belay/check.hpp"
#include "cli/address.hpp"
#include "houses.hpp"
#include "judge/roof_said.hpp"
#include "pages.hpp"
#include "recompute.hpp"
#include "report/json.hpp"
#include "report/said_back.hpp"
#include "report/screen.hpp"
#include "report/side_by_side.hpp"
#include "report/working_page.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <rapidjson/document.h>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const Look no_colour{false};
std::size_t index(Side s) { return static_cast<std::size_t>(s); }
Chosen picked(std::string name) { return {std::move(name), "a test", "job.toml:1"}; }

// 12 x 7.8 m under a gable; window W1 of wall A from 1800 to 3600.
Draft open_box() {
  Draft d = closed_box();
  d.mark("W1", "\"1200 x 1800\"");
  d.wall("A", "\"B 1800 | W1 | B 8400\"");
  return d;
}
// Of a standard whose combinations press down as well.
Draft strength_box() {
  Draft d = open_box();
  d.site =
      "method = \"ASCE 7-16\"\nspeed = \"120 mph\"\nspeed_is = \"ultimate\"\nexposure = \"B\"\nrisk = "
      "\"II\"\nlevel = \"strength\"\ngiven_by = \"a test\"";
  return d;
}
// The same under a hip roof of 22.5 degrees: girders at 2400 and 9600 from the left, jacks at most 900 apart.
House hipped(const Draft& d = open_box()) {
  House h = d.house();
  h.roof.shape = RoofShape::hip;
  h.roof.hipped[index(Side::left)] = h.roof.hipped[index(Side::right)] = true;
  h.trusses.clear();
  for (int i = 0; i <= 8; ++i) {
    const bool girder = i == 0 || i == 8;
    h.trusses.push_back({.mark = girder ? "TG1" : "T1",
                         .at = millimetres(2400.0 + 900.0 * i),
                         .bracket = picked("demo-cleat"),
                         .girder = girder,
                         .plies = girder ? 2 : 1});
  }
  for (const Side side : {Side::left, Side::right})
    h.hip_ends.push_back({.side = side,
                          .jack = "J1",
                          .rafter = "H1",
                          .jacks = millimetres(900.0),
                          .jack_bracket = picked("demo-cleat"),
                          .jack_onto = picked("demo-cleat"),
                          .rafter_bracket = picked("demo-cleat"),
                          .rafter_onto = picked("demo-cleat")});
  return h;
}
// Trusses that bear on inside wall E as well, in the middle of the house.
House over_an_inside_wall() {
  Draft d = closed_box();
  d.wall("E", "{ from_front = \"3.9 m\", run = \"B 1800 | 8400 | B 1800\" }");
  House h = d.house();
  for (Truss& t : h.trusses) t.also_on = {"E"};
  return h;
}
House skillion() {
  House h = closed_box().house();
  h.roof.shape = RoofShape::skillion;
  h.roof.pitch = degrees(10.0);
  h.roof.high = Side::back;
  return h;
}

bool said(const Result& r, std::string_view code) {
  return std::ranges::any_of(r.cautions, [&](const Caution& c) { return c.code == code; });
}
std::string words_of(const Result& r, std::string_view code) {
  for (const Caution& c : r.cautions)
    if (c.code == code) return c.text;
  return {};
}
Area sum_of_carried(const RoofSaid& r) {
  Area all = zero<Area>();
  for (const MemberSaid& m : r.members) {
    Area own = zero<Area>();
    for (const auto& piece : m.carries) {
      Polygon flat;
      for (const PlanPoint& p : piece) flat.push_back({p.across, p.up});
      own += area(flat);
    }
    CHECK_THAT(own.value(), WithinAbs(m.roof.value(), 1e-9));
    all += own;
  }
  return all;
}
Result checked(const House& h) { return check(h, table(table_for(h.site)), table("practice/common.toml")); }
const Link& link_of(const Result& r, std::string_view words, std::string_view kind) {
  for (const Link& l : r.links)
    if (l.where.words == words && l.kind == kind) return l;
  throw std::runtime_error(fmt::format("no {} \"{}\"", kind, words));
}
const LinkPart* press_of(const Link& l) {
  for (const LinkPart& p : l.parts)
    if (p.part == "press") return &p;
  return nullptr;
}

}  // namespace

// ---- the roof as it was understood ----------------------------------------------------------------------------------

TEST_CASE("the roof that is said holds every piece of the plan once, overhangs with it") {
  // Plan with overhangs: hip 0.45 m all round, gable 0.45 and 0.3 m, skillion 0.45 m below its foot, 0.3 m elsewhere.
  struct Case {
    House house;
    double area;
  };
  for (const Case& c : {Case{hipped(), 12.9 * 8.7}, Case{closed_box().house(), 12.6 * 8.7},
                        Case{over_an_inside_wall(), 12.6 * 8.7}, Case{skillion(), 12.6 * 8.55}}) {
    const RoofSaid r = roof_of(c.house);
    INFO(r.shape);
    CHECK_THAT(sum_of_carried(r).value(), WithinAbs(c.area, 1e-9));
    Area planes = zero<Area>();
    for (const PlaneSaid& p : r.planes) {
      Polygon flat;
      for (const PlanPoint& x : p.outline) flat.push_back({x.across, x.up});
      planes += area(flat);
    }
    CHECK_THAT(planes.value(), WithinAbs(c.area, 1e-9));
  }
}

TEST_CASE("a hip roof is said with its ridge, its hips and what stands on what") {
  const House h = hipped();
  const RoofSaid r = roof_of(h);
  CHECK(r.shape == "hip");
  // Equal pitches: the hips run at 45 degrees in plan, the ridge from 3.9 to 8.1 m, 3.9 m tan 22.5 deg = 1.61543 m up.
  const double rise = 3.9 * std::tan(std::numbers::pi / 8.0);
  std::size_t ridges = 0, hips = 0;
  for (const RoofLineSaid& l : r.lines) {
    if (l.kind == "ridge") {
      ++ridges;
      CHECK_THAT(std::min(l.from.across, l.to.across).value(), WithinAbs(3.9, 1e-9));
      CHECK_THAT(std::max(l.from.across, l.to.across).value(), WithinAbs(8.1, 1e-9));
      CHECK_THAT(l.from.above.value(), WithinAbs(rise, 1e-9));
    }
    if (l.kind == "hip") {
      ++hips;
      CHECK_THAT(std::max(l.from.above, l.to.above).value(), WithinAbs(rise, 1e-9));
    }
  }
  CHECK(ridges == 1);
  CHECK(hips == 4);
  // Mean roof height: half-way up the roof, above 0.3 m of floor and 2.7 m of wall.
  CHECK_THAT(r.mean_height.value(), WithinAbs(3.0 + 0.5 * rise, 0.1));
  CHECK_THAT(r.top.value(), WithinAbs(3.0 + rise, 1e-9));

  const auto named = [&](const std::string& words) -> const MemberSaid& {
    for (const MemberSaid& m : r.members)
      if (m.words == words) return m;
    throw std::runtime_error("no member " + words);
  };
  // y_g = 2400 mm from each side; jacks there and at spaces of 750 mm between.
  const MemberSaid& jack = named("J1 at 2400 left");
  CHECK(jack.kind == "jack");
  CHECK(jack.hip_end == "left");
  REQUIRE(jack.bearings.size() == 2);
  CHECK(jack.bearings[0].on == "wall D");
  CHECK(jack.bearings[1].on == "TG1 at 2400");
  CHECK_THAT(jack.bearings[1].at.across.value(), WithinAbs(2.4, 1e-12));
  CHECK_THAT(jack.bearings[1].at.up.value(), WithinAbs(2.4, 1e-12));
  const MemberSaid& rafter = named("H1 back right");
  CHECK(rafter.hip_end == "right");
  CHECK(rafter.bearings.at(0).on == "walls B and C");
  CHECK(rafter.bearings.at(1).on == "TG1 at 9600");
  const MemberSaid& creeper = named("J1 at 800 front");
  CHECK(creeper.kind == "creeper");
  CHECK(creeper.bearings.at(1).on == "H1 front left");
  CHECK_THAT(creeper.bearings.at(1).at.up.value(), WithinAbs(0.8, 1e-12));
  CHECK(named("TG1 at 2400").plies == 2);
  CHECK(named("TG1 at 2400").hip_end.empty());
}

TEST_CASE("heights of the planes' corners are those of the slopes: low at the overhang, high at the ridge") {
  for (const House& h : {hipped(), skillion()})
    for (const PlaneSaid& p : roof_of(h).planes) {
      const double tan = std::tan(p.slope.value());
      for (const PlanPoint& x : p.outline) {
        const Length in = p.falls == "left"    ? x.across
                          : p.falls == "right" ? h.across - x.across
                          : p.falls == "front" ? x.up
                                               : h.up - x.up;
        CHECK_THAT(x.above.value(), WithinAbs(in.value() * tan, 1e-9));
      }
    }
}

TEST_CASE("`show` says a hip roof back in words, at 80 columns, in mm and in feet") {
  House h = hipped();
  h.roof.own_pitch[index(Side::right)] = degrees(25.0);
  h.roof.gable_above[index(Side::right)] = millimetres(2400.0);
  for (const Print print : {Print::metric, Print::us}) {
    h.print = print;
    const std::string page = said_back(h, {}, roof_of(h), no_colour), plain = unwrapped(page);
    INFO(page);
    fits(page);
    CHECK_THAT(plain, Contains("Hip roof, ridge across the sheet:"));
    CHECK_THAT(plain, Contains("front and back: slope, pitch 22.5 deg, overhang"));
    CHECK_THAT(plain, Contains("right: hip end, pitch 25 deg"));
    CHECK_THAT(plain, Contains("TG1, hip girder, 2 plies, bracket at both bearings demo-cleat"));
    CHECK_THAT(plain, Contains("T1, truncated truss, bracket at both bearings demo-cleat"));
    CHECK_THAT(plain, Contains("Hip end, the left"));
    CHECK_THAT(plain, Contains("hip rafter H1 front left on walls D and A and TG1 at "));
    CHECK_THAT(plain, Contains("Brackets of hip rafters: on walls demo-cleat (a test, line 1); on the girder"));
    CHECK_THAT(plain, Contains("The roof that they hold, in plan, overhangs with it"));
    if (print == Print::us) continue;
    CHECK_THAT(plain, Contains("a gable above it 2400 mm in from the wall"));
    CHECK_THAT(plain, Contains("Ridge 1615 mm above the bearings"));
    // Above the right hip the gable stands at 2.4 m tan 25 deg = 1.11914 m.
    CHECK_THAT(plain, Contains("hips rise to 1615 mm and 1119 mm"));
    CHECK_THAT(plain,
               Contains("5 jacks J1 on wall D and TG1 at 2400, from the front at 2400  3150  3900  4650  5400") ||
                   Contains("5 jacks J1 on wall D and TG1 at 2400, from the front at 2400 3150 3900 4650 5400"));
    CHECK_THAT(plain, Contains("2 creepers J1 on wall A and H1 front left, from the left at 800 1600"));
    CHECK_THAT(plain, Contains("112.2 m^2: "));  // 12.9 m x 8.7 m = 112.23 m2
  }
}

TEST_CASE("`show` says other roofs back, and a plain gable in one line as ever") {
  House h = skillion();
  std::string page = unwrapped(said_back(h, {}, roof_of(h), no_colour));
  INFO(page);
  CHECK_THAT(page, Contains("Skillion roof, high edge across the sheet:"));
  CHECK_THAT(page, Contains("front: slope, pitch 10 deg, overhang 450 mm"));
  CHECK_THAT(page, Contains("back: high face, overhang 300 mm"));
  CHECK_THAT(page, Contains("left and right: end, along the slope, overhang 300 mm"));
  CHECK_THAT(page, Contains("T1, half truss, bracket at both bearings demo-cleat"));
  h = over_an_inside_wall();
  page = unwrapped(said_back(h, {}, roof_of(h), no_colour));
  CHECK_THAT(page, Contains("T1, bracket at every bearing demo-cleat (unless noted, line 31), also on wall E, at") ||
                       Contains("also on wall E, at"));
  h = closed_box().house();
  h.roof.own_pitch[index(Side::front)] = degrees(30.0);
  page = unwrapped(said_back(h, {}, roof_of(h), no_colour));
  CHECK_THAT(page, Contains("Gable roof, ridge across the sheet: front: slope, pitch 30 deg, overhang 450 mm back: "
                            "slope, pitch 22.5 deg, overhang 450 mm left and right: gable, overhang 300 mm"));
  h = closed_box().house();
  page = unwrapped(said_back(h, {}, roof_of(h), no_colour));
  CHECK_THAT(page, Contains("Gable roof, ridge across the sheet, pitch 22.5 deg, eaves 450 mm, verge 300 mm"));
  CHECK_THAT(page, !Contains("The roof that they hold"));
  CHECK_THAT(page, !Contains("Mean roof height"));
}

TEST_CASE(
    "the JSON carries the roof for a drawing: planes, lines, members with what they hold, every number with a "
    "unit") {
  const Result r = checked(hipped());
  rapidjson::Document d;
  const std::string written = json(r, false);
  d.Parse(written.data(), written.size());
  REQUIRE_FALSE(d.HasParseError());
  const auto& roof = d["roof"];
  CHECK(std::string(roof["shape"].GetString()) == "hip");
  CHECK(std::string(roof["top"]["unit"].GetString()) == "m");
  CHECK(roof["lines"].Size() == 5);
  CHECK(roof["planes"].Size() == r.roof.planes.size());
  REQUIRE(roof["members"].Size() == r.roof.members.size());
  double all = 0.0;
  std::size_t girder_bearings = 0;
  for (const auto& m : roof["members"].GetArray()) {
    all += m["roof_area"]["value"].GetDouble();
    CHECK(std::string(m["roof_area"]["unit"].GetString()) == "m^2");
    CHECK(m["carries"].Size() > 0);
    for (const auto& b : m["bearings"].GetArray())
      girder_bearings += std::string(b["on"].GetString()).starts_with("TG1");
    CHECK(m["from"]["across"].HasMember("unit"));
    CHECK(m["carries"][0]["outline"][0]["above"].HasMember("unit"));
    CHECK(std::string(m["bracket"]["name"].GetString()) == "demo-cleat");
  }
  CHECK_THAT(all, WithinAbs(112.23, 1e-6));
  CHECK(girder_bearings == 2 * (5 + 2));  // at each end five jacks and two hip rafters
  for (const auto& l : d["links"].GetArray())
    for (const auto& p : l["parts"].GetArray()) CHECK(p.HasMember("role"));
}

// ---- brackets between members ---------------------------------------------------------------------------------------

TEST_CASE("a bracket on a girder or a hip rafter is a link of its own, of uplift alone") {
  const Built b(hipped());
  std::size_t n = 0;
  std::set<std::string> ids;
  for (const Link& l : b.result.links) {
    CHECK(ids.insert(l.id + "|" + l.kind).second);
    if (l.kind != "girder bracket") continue;
    ++n;
    CHECK(l.where.wall.empty());
    CHECK(l.where.face == "roof");
    CHECK_FALSE(l.where.from_start);
    CHECK_THAT(l.where.words, Contains(" onto "));
    CHECK(l.fixing.name == "demo-cleat");
    CHECK(l.verdict == Verdict::pass);
    for (const LinkPart& p : l.parts) CHECK((p.part == "uplift" || p.part == "press"));
  }
  // At each end: five jacks, two hip rafters, two creepers on each side of each hip.
  CHECK(n == 2 * (5 + 2 + 8));
  const Link& jack = b.link("J1 at 3900 left onto TG1", "girder bracket");
  CHECK(jack.id == "J1/at/3900/left/onto/TG1");
  CHECK(demand(jack, "uplift") > zero<Force>());
  CHECK(b.link("J1 at 3900 left", "bracket").where.wall == "D");
  CHECK(b.link("H1 front left", "bracket").where.wall == "D");
}

TEST_CASE("what the girder's wall brackets hold grows by what its jacks hand over") {
  const Built b(hipped());
  const Force girder = demand(b.link("TG1 at 2400 front", "bracket"), "uplift"),
              truss = demand(b.link("T1 at 6000 front", "bracket"), "uplift");
  CHECK(girder > 1.3 * truss);
}

TEST_CASE("a bracket on a girder that the job does not give is not judged, and one too weak fails") {
  House h = hipped();
  for (HipEnd& e : h.hip_ends) e.jack_onto = {};
  h.by_others.push_back({"girder bracket", "somebody"});  // a reader would refuse it
  Result r = checked(h);
  const Link& none = link_of(r, "J1 at 3900 left onto TG1", "girder bracket");
  CHECK(none.verdict == Verdict::by_others);
  h.by_others.clear();
  r = checked(h);
  const Link& open = link_of(r, "J1 at 3900 left onto TG1", "girder bracket");
  CHECK(open.verdict == Verdict::not_judged);
  CHECK(open.why.code == "no-fixing");
  CHECK(words(key_to_add(open)) == "`onto`");
  CHECK(std::ranges::none_of(kinds_of_link(),
                             [](const Kind_of_link& k) { return k.kind == "girder bracket" && k.may_be_by_others; }));

  Draft d = open_box();
  d.fixing("[[bracket]]\nname = \"demo-weak\"\nuplift = \"0.5 kN\"\nbasis = \"design\"\ncyclic = \"tested\"\n");
  h = hipped(d);
  for (HipEnd& e : h.hip_ends) e.jack_onto = picked("demo-weak");
  r = checked(h);
  const Link& weak = link_of(r, "J1 at 3900 left onto TG1", "girder bracket");
  CHECK(weak.verdict == Verdict::fail);
  CHECK(weak.why.code == "too-weak");
  const std::string screen = first_screen(r, no_colour);
  INFO(screen);
  fits(screen);
  CHECK_THAT(unwrapped(screen), Contains("brackets on girders or hip rafters"));
}

// ---- pressed down ---------------------------------------------------------------------------------------------------

TEST_CASE("what presses is told of every bracket in its own greatest case and changes no verdict") {
  const Built b(hipped(strength_box()));
  REQUIRE(std::ranges::any_of(b.loads.cases, [](const LoadCase& k) { return !k.down.name.empty(); }));
  for (const Link& l : b.result.links) {
    if (l.kind != "bracket" && l.kind != "girder bracket") {
      CHECK((l.kind == "compression" || press_of(l) == nullptr));
      continue;
    }
    INFO(l.where.words);
    CHECK(l.parts.back().part == "press");
    const LinkPart& p = l.parts.back();
    CHECK(p.role == Role::reported);
    CHECK_FALSE(p.capacity);
    CHECK_FALSE(p.use);
    CHECK(p.demand == p.greatest);
    CHECK(l.verdict == Verdict::pass);
    std::size_t bearing = 0;
    while (b.forces.roof.bearings().at(bearing).words != l.where.words) ++bearing;
    Force most = zero<Force>();
    for (std::size_t c = 0; c < b.loads.cases.size(); ++c) most = std::max(most, b.forces.roof.press(c, bearing));
    CHECK(p.demand.si == value(most).si);
    REQUIRE(p.made_of.size() == 1);
    CHECK(p.made_of[0].value == p.demand);
  }
}

TEST_CASE("a sheet that says `press` has it judged, never together with what lifts") {
  const auto with = [](std::string_view press) {
    Draft d = strength_box();
    d.fixing(
        fmt::format("[[bracket]]\nname = \"demo-seat\"\nuplift = \"60 kN\"\nalong = \"60 kN\"\nacross = \"60 kN\"\n"
                    "press = \"{}\"\ntogether = \"straight sum\"\nbasis = \"design\"\ncyclic = \"tested\"\n",
                    press));
    House h = hipped(d);
    for (Truss& t : h.trusses) t.bracket = picked("demo-seat");
    return h;
  };
  const Result plain = checked(hipped(strength_box()));
  const double told = press_of(link_of(plain, "TG1 at 2400 front", "bracket"))->demand.si;
  REQUIRE(told > 0.0);
  const Result strong = checked(with("100 kN"));
  const Link& good = link_of(strong, "TG1 at 2400 front", "bracket");
  const LinkPart* p = press_of(good);
  REQUIRE(p != nullptr);
  CHECK(p->role == Role::single);
  CHECK(p->greatest.si == told);
  REQUIRE(p->use);
  CHECK(good.verdict == Verdict::pass);
  // 0.1 kN: far below what it presses with.
  const House h = with("0.1 kN");
  const Result weak = checked(h);
  const Link& bad = link_of(weak, "TG1 at 2400 front", "bracket");
  CHECK(bad.verdict == Verdict::fail);
  CHECK(bad.why.code == "too-weak");
  CHECK_THAT(bad.use->value, WithinRel(told / 100.0, 1e-9));
  CHECK_THAT(why_words(bad), Contains("too weak in press"));
  CHECK_FALSE(bad.load_case.combination.empty());
  CHECK(bad.load_case.combination != good.load_case.combination);
  for (const LinkPart& x : bad.parts)
    if (x.role == Role::combined && x.use) CHECK(x.use->value < 1.0);
  fits(first_screen(weak, no_colour));
  fits(every_link(weak, no_colour));
}

TEST_CASE("the page says what of the downward loads nobody looked at") {
  const Result r = checked(hipped(strength_box()));
  const auto about = std::ranges::find(r.not_looked_at, "downward loads", &NotLookedAt::what);
  REQUIRE(about != r.not_looked_at.end());
  CHECK_THAT(about->why, Contains("told at the brackets alone"));
}

// ---- cautions -------------------------------------------------------------------------------------------------------

TEST_CASE("cautions know hip ends, girders over openings and inside walls") {
  const Result hip = checked(hipped());
  CHECK_FALSE(said(hip, "no-end-truss"));
  CHECK_FALSE(said(hip, "wide-gap-in-trusses"));
  CHECK(said(hip, "hip-framing"));
  CHECK(said(hip, "corner-feet"));
  CHECK(said(hip, "outside-walls-bear"));
  // W1 stands from 1800 to 3600 on wall A, the girder at 2400.
  const std::string girder = words_of(checked(hipped(strength_box())), "girder-over-opening");
  CHECK_THAT(girder, Contains("A girder stands over opening W1 of wall A (TG1 at 2400 front: at most "));
  CHECK_THAT(girder, Contains(" up, ") && Contains(" down): its lintel is not checked here."));
  CHECK(std::ranges::count(hip.cautions, "girder-over-opening", &Caution::code) == 1);
  CHECK(std::ranges::any_of(hip.not_looked_at, [](const NotLookedAt& n) { return n.what == "lintels under girders"; }));

  // One end hipped: the other still misses its end truss.
  House h = hipped();
  h.roof.hipped[index(Side::right)] = false;
  h.hip_ends.pop_back();
  h.trusses.back().girder = false;
  CHECK_THAT(words_of(checked(h), "no-end-truss"), Contains("at the far end wall"));

  const Result inside = checked(over_an_inside_wall());
  CHECK(said(inside, "inside-walls-bear"));
  CHECK_FALSE(said(inside, "outside-walls-bear"));
  CHECK_FALSE(said(inside, "hip-framing"));

  const Result gable = checked(closed_box().house());
  CHECK(said(gable, "outside-walls-bear"));
  CHECK_FALSE(said(gable, "girder-over-opening"));
  CHECK_FALSE(said(gable, "corner-feet"));
}

TEST_CASE("a plied truss over an opening is warned about as a girder is") {
  House h = open_box().house();
  const auto t = std::ranges::find_if(h.trusses, [](const Truss& x) { return x.at > millimetres(2000.0); });
  t->plies = 2;
  CHECK_THAT(words_of(checked(h), "girder-over-opening"), Contains("A truss of several plies stands over opening W1"));
}

// ---- pages and addresses --------------------------------------------------------------------------------------------

TEST_CASE("--all groups what stands in the roof by itself and tells what presses; the first screen does not") {
  for (const Print print : {Print::metric, Print::us}) {
    House h = hipped(strength_box());
    h.print = print;
    const Result r = checked(h);
    const std::string all = every_link(r, no_colour), first = first_screen(r, no_colour);
    INFO(all);
    fits(all);
    fits(first);
    CHECK_THAT(all, Contains("\nIn the roof\n") && Contains("\nWall A, the front "));
    CHECK_THAT(all, Contains("uplift        presses") || Contains("resses"));
    CHECK_THAT(all, !Contains("The whole house"));
    CHECK_THAT(first, !Contains("presses") && !Contains("Presses"));
  }
}

TEST_CASE("side by side the worst bracket on a girder stands for all in the roof") {
  House h = hipped();
  h.sites = {{"as-4055", h.site}};
  const auto under = under_each(h, {&table(table_for(h.site))}, table("practice/common.toml"));
  const std::string few = side_by_side(under, false, no_colour), all = side_by_side(under, true, no_colour);
  INFO(few);
  fits(few);
  fits(all);
  CHECK_THAT(few, Contains("bracket on a girder or hip rafter, uplift"));
  CHECK_THAT(all, Contains("J1 at 800 front onto H1 front left"));
}

TEST_CASE("a bracket between members answers to its own words and never to those of the wall's") {
  const Result r = checked(hipped());
  const auto one = [&](std::string_view typed) {
    const Found f = find_link(r, typed);
    INFO(typed);
    REQUIRE(f.links.size() == 1);
    return r.links[f.links[0]].kind + ": " + r.links[f.links[0]].where.words;
  };
  CHECK(one("J1 at 3900 left onto TG1") == "girder bracket: J1 at 3900 left onto TG1");
  CHECK(one("J1 3900 left onto tg1 girder bracket") == "girder bracket: J1 at 3900 left onto TG1");
  CHECK(one("bracket on girder J1 at 3900 left onto TG1") == "girder bracket: J1 at 3900 left onto TG1");
  CHECK(one("bracket J1 at 3900 left") == "bracket: J1 at 3900 left");
  CHECK(one("J1 at 800 front onto H1 front left") == "girder bracket: J1 at 800 front onto H1 front left");
  CHECK(one("H1 front left onto TG1") == "girder bracket: H1 front left onto TG1");
  CHECK(one("truss bracket H1 front left") == "bracket: H1 front left");
}

TEST_CASE("explain: brackets of girders, jacks and hip rafters, on walls and on members, step by step") {
  Draft d = strength_box();
  d.fixing(
      "[[bracket]]\nname = \"demo-seat\"\nuplift = \"60 kN\"\nalong = \"60 kN\"\nacross = \"60 kN\"\npress = \"80 "
      "kN\"\ntogether = \"straight sum\"\nbasis = \"design\"\ncyclic = \"tested\"\n");
  House h = hipped(d);
  for (Truss& t : h.trusses) t.bracket = picked("demo-seat");
  for (HipEnd& e : h.hip_ends) e.rafter_onto = e.jack_onto = picked("demo-seat");
  const Result r = checked(h);
  const Table &method = table(table_for(h.site)), &practice = table("practice/common.toml");
  std::vector<Step> steps;
  std::size_t told_of = 0;
  for (std::size_t i = 0; i < r.links.size(); ++i) {
    const Link& l = r.links[i];
    if (l.kind != "bracket" && l.kind != "girder bracket") continue;
    INFO(l.where.words);
    const Working w = explain(h, method, practice, r, i, metric);
    CHECK(orphan(w) == "");
    for (const LinkPart& p : l.parts) {
      if (p.role != Role::single || p.demand.si == 0.0) continue;
      INFO(p.part);
      CHECK(std::ranges::any_of(w.steps, [&](const Step& s) { return s.result == p.demand; }));
      CHECK(std::ranges::any_of(w.steps, [&](const Step& s) {
        return s.operands.size() == 2 && s.operands[0].value == p.demand && s.operands[1].value == *p.capacity &&
               s.result.si == p.use->value;
      }));
      ++told_of;
    }
    for (const Step& s : w.steps) steps.push_back(s);
    const std::string page = working_page(r, i, w, no_colour);
    fits(page);
    const LinkPart* press = press_of(l);
    REQUIRE(press != nullptr);
    if (press->role == Role::single && press->greatest.si > press->demand.si)
      CHECK_THAT(page, Contains("at most, in another case"));
  }
  CHECK(told_of > 60);
  REQUIRE(recompute::units_works());
  std::vector<Step> different;
  std::set<std::string> seen;
  for (const Step& s : steps)
    if (seen.insert(s.numbers + " = " + text(s.result, metric)).second) different.push_back(s);
  const auto outcome = recompute::recompute(different, metric);
  for (const auto& miss : outcome.misses) FAIL_CHECK(miss);
  CHECK(outcome.checked > 100);
}
