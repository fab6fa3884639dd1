// The wind methods: what each hands on, its limits, its openings, and laws that hold for any building.
#include "files/embedded.hpp"
#include "mirrored.hpp"
#include "recompute.hpp"
#include "sanitized.hpp"
#include "wind_house.hpp"
#include <catch2/catch.hpp>
#include <random>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const Table& of_class() { return table("methods/as-4055-2021.toml"); }
const std::vector<std::string> method_tables = [] {
  std::vector<std::string> all;
  for (const Embedded& e : embedded())
    if (e.name.starts_with("methods/")) all.emplace_back(e.name);
  return all;
}();

std::vector<SiteAsk> sites() { return every_site(); }
std::set<std::string> ids(const Loads& l) {
  std::set<std::string> all;
  for (const LoadCase& c : l.cases) all.insert(c.id);
  return all;
}
bool has_excess(const House& h, const std::string& limit) {
  for (const Excess& e : blow(h).loads.excess)
    if (e.limit == limit) return true;
  return false;
}
bool same(const LoadCase& a, const LoadCase& b) {
  if (a.id != b.id || a.net != b.net || a.net_small != b.net_small || a.push.size() != b.push.size() ||
      a.square_on.size() != b.square_on.size())
    return false;
  for (std::size_t i = 0; i < a.push.size(); ++i)
    if (a.push[i].p != b.push[i].p || a.push[i].label != b.push[i].label) return false;
  for (std::size_t i = 0; i < a.square_on.size(); ++i)
    if (a.square_on[i].p != b.square_on[i].p || a.square_on[i].label != b.square_on[i].label) return false;
  return true;
}
bool told(const Working& w, const std::string& symbol, Pressure p) {
  for (const Step& s : w.steps)
    if (s.symbol == symbol && s.result == value(p)) return true;
  return false;
}

}  // namespace

// ---- the tables ----------------------------------------------------------------------------------------------------

TEST_CASE("every figure of every method says where it is from and how it was obtained") {
  for (const std::string& name : method_tables) {
    const Table& t = table(name);
    INFO(name);
    CHECK(t.file == name);
    CHECK(!t.entries.empty());
    CHECK(t.entries.size() <= 64);
    std::set<std::string> figures;
    for (std::size_t i = 0; i < t.entries.size(); ++i) {
      const Entry& e = t.entries[i];
      INFO(e.key);
      CHECK(e.index == i);
      CHECK(&t.entry(e.key) == &e);
      CHECK(!e.figure.empty());
      CHECK(!e.clause.empty());
      CHECK((e.how == "read" || e.how == "from memory" || e.how.starts_with("reproduces ") ||
             e.how == "common practice, no source"));
      CHECK(figures.insert(e.figure).second);
      CHECK(t.mark(e.key) == (e.from_memory() ? std::uint64_t{1} << i : 0));
      CHECK(!(e.columns.empty() && e.texts.empty()));
    }
  }
}

TEST_CASE("sources name the standard, its edition and the clause") {
  CHECK(of_class().source("limits") == "AS 4055:2021 cl. 1.2 (read)");
  CHECK(of_class().source("roof_N") == "AS 4055:2021 section 3 (from memory)");
  CHECK(of_class().source("racking_wall") == "AS 1684.2-2010 Table 8.4 (reproduces 104 figures of that table, read)");
  CHECK(table("methods/asce-7-16.toml").source("case_A") == "ASCE 7-16 Fig. 28.3-1 (from memory)");
  CHECK(of_class().source("wide_door") == "common practice, no source");
}

TEST_CASE("a figure that the table lacks is our own fault, named") {
  CHECK_THROWS_WITH(of_class().entry("gust_N9"), "methods/as-4055-2021.toml has no entry `gust_N9`");
  CHECK_THROWS_AS(of_class().number("limits", "colour"), std::out_of_range);
  CHECK_THROWS_AS(of_class().text("limits", "colour"), std::out_of_range);
  CHECK_THROWS_AS(of_class().get<Length>("limits", "pitch"), std::logic_error);
}

TEST_CASE("the site picks the method and its table") {
  CHECK(method_for(ClassSite{"N3", "", ""}).key == "as-4055");
  CHECK(table_for(ClassSite{"N3", "", ""}) == "methods/as-4055-2021.toml");
  CHECK(method_for(asce("7-10", mph(120.0), "B")).key == "asce");
  CHECK(table_for(asce("7-10", mph(120.0), "B")) == "methods/asce-7-10.toml");
}

// ---- by class ------------------------------------------------------------------------------------------------------

TEST_CASE("a shut N3 house: two rules of uplift from each of four ways") {
  const Blown b = blow(cottage());
  CHECK(ids(b.loads) == std::set<std::string>{"left class", "left frame", "front class", "front frame", "right class",
                                              "right frame", "back class", "back frame", "left press", "front press",
                                              "right press", "back press"});
  CHECK(b.loads.basis == Basis::limit_state);
  CHECK(b.loads.excess.empty());
  CHECK(b.loads.layouts.size() == 1);
  CHECK_THAT(b.site.q.value(), WithinAbs(1500.0, 1e-9));
  const LoadCase& c = find_case(b.loads, "front class");
  CHECK(c.combination.name == "0.9 G + W");
  CHECK(c.combination.dead == 0.9);
  CHECK_THAT(net_at(b, c, {metres(3.0), metres(2.0)}, false)->value(), WithinAbs(-0.99 * 1500.0, 1e-9));
  CHECK_THAT(net_at(b, c, {metres(3.0), metres(-0.2)}, false)->value(), WithinAbs(-0.99 * 1500.0, 1e-9));
  CHECK(net_at(b, c, {metres(3.0), metres(-0.2)}, true) == zero<Pressure>());
  CHECK(c.square_on.size() == 4);
  for (const SquareOn& s : c.square_on) CHECK_THAT(s.p.value(), WithinAbs(0.90 * 1500.0, 1e-9));
  const LoadCase& frame = find_case(b.loads, "front frame");
  CHECK(frame.combination.name == "0.8 G + W");
  CHECK_THAT(frame.net.front().value(), WithinAbs(-1.1 * 1500.0, 1e-9));
}

TEST_CASE("push on a gable end: 0.96 q on wall and gable, in the case's own way alone") {
  const Blown b = blow(cottage());
  const LoadCase& c = find_case(b.loads, "left class");
  // 7.8 x 2.7 + 7.8 x 1.61543 / 2 = 27.360 m2 at 1.44 kPa
  CHECK_THAT(push_total(c, Along::across).value(), WithinAbs(1440.0 * 27.3602, 0.5));
  CHECK(push_total(c, Along::up) == zero<Force>());
  for (const Push& p : c.push) CHECK(p.towards == Way::right);
  const LoadCase& other = find_case(b.loads, "right class");
  for (const Push& p : other.push) CHECK(p.towards == Way::left);
  CHECK_THAT(push_total(other, Along::across).value(), WithinAbs(-1440.0 * 27.3602, 0.5));
}

TEST_CASE("push on a long side: the area formula, by hand") {
  // h = (3.0 - 0.45 tan 22.5) + 1.61543 / 2 = 3.62131 m, d = 7.8 m: h/d = 0.46427. At 22.5 degrees, between the columns
  // of 20 and 25 and the rows of 0.25 and 0.5: C_up 0.25 and 0.1, so 0.12144; C_dn -0.66 in both. C_r = 0.8 x 0.78144
  // = 0.62515. h_r = 1.61543 x 12.6 / 12 = 1.69620 m. p = 1500 (0.96 x 1.35 + 0.62515 x 1.69620) / (1.35 + 1.69620)
  const double expected = 1500.0 * (0.96 * 1.35 + 0.62515 * 1.69620) / (1.35 + 1.69620);
  const Blown b = blow(cottage());
  const LoadCase& c = find_case(b.loads, "front class");
  REQUIRE(c.push.size() == 2);
  for (const Push& p : c.push) {
    CHECK(p.towards == Way::back);
    CHECK_THAT(p.p.value(), WithinAbs(expected, 0.02));
  }
  // Wall to full height, roof above the wall's top alone: 12 x 2.7 and 12.6 x 1.61543 m2
  CHECK_THAT(push_total(c, Along::up).value(), WithinAbs(expected * (32.4 + 12.6 * 1.61543), 1.0));
}

TEST_CASE("doors and openings that count as open, by class") {
  CHECK(as4055::rated_for_class("N3", "N3"));
  CHECK(as4055::rated_for_class("N4", "N2"));
  CHECK_FALSE(as4055::rated_for_class("N2", "N3"));
  CHECK_FALSE(as4055::rated_for_class("C3", "N2"));
  CHECK_FALSE(as4055::rated_for_class("N3", "C1"));
  CHECK_FALSE(as4055::rated_for_class("not known", "N1"));
  CHECK_FALSE(as4055::rated_for_class("130 mph", "N1"));
  CHECK_FALSE(as4055::rated_for_class("", "N1"));

  const auto open = [](const Opening& o) {
    House h = cottage();
    put(h, Side::front, o);
    return ids(blow(h).loads).contains("front open");
  };
  CHECK(open(opening(metres(3.0), metres(2.1), true, false, std::nullopt)));
  CHECK(open(opening(metres(2.4), metres(2.1), true, false, "not known")));
  CHECK(open(opening(metres(3.0), metres(2.1), true, false, "N2")));
  CHECK(open(opening(metres(0.6), metres(0.6), false, true, "N3")));
  CHECK_FALSE(open(opening(metres(3.0), metres(2.1), true, false, "N3")));
  CHECK_FALSE(open(opening(metres(2.3), metres(2.1), true, false, std::nullopt)));
  CHECK_FALSE(open(opening(metres(3.0), metres(1.2), false, false, std::nullopt)));
}

TEST_CASE("an open N3 house keeps its shut cases, and its walls take the greater pressure") {
  House h = cottage();
  put(h, Side::front, opening(metres(3.0), metres(2.1), true, false, std::nullopt));
  const Blown b = blow(h);
  CHECK(b.loads.cases.size() == 16);
  const LoadCase& open = find_case(b.loads, "back open");
  CHECK_THAT(open.net.front().value(), WithinAbs(-1.52 * 1500.0, 1e-9));
  CHECK_THAT(open.square_on.front().p.value(), WithinAbs(1.215 * 1500.0, 1e-9));
  CHECK_THAT(find_case(b.loads, "back class").net.front().value(), WithinAbs(-0.99 * 1500.0, 1e-9));
  // A door in an inside wall opens nothing
  House inside = cottage();
  inside.walls.front().outside = false;
  put(inside, Side::left, opening(metres(3.0), metres(2.1), true, true, std::nullopt));
  CHECK(blow(inside).loads.cases.size() == 12);
}

TEST_CASE("C1 shares its gust with N3 and not its coefficients") {
  House h = cottage();
  h.site = ClassSite{"C1", "", ""};
  const Blown b = blow(h);
  CHECK(b.site.gust == Speed::from_value(50.0));
  CHECK_THAT(find_case(b.loads, "left class").net.front().value(), WithinAbs(-1.52 * 1500.0, 1e-9));
  CHECK_THAT(find_case(b.loads, "left class").square_on.front().p.value(), WithinAbs(1.215 * 1500.0, 1e-9));
}

TEST_CASE("limits of the class method, AS 4055:2021 cl. 1.2") {
  CHECK(blow(cottage()).loads.excess.empty());
  House h = cottage();
  h.floor_level = metres(3.6);
  CHECK(has_excess(h, "height to the underside of the eaves"));
  h = gable(metres(20.0), metres(15.9), metres(3.0), Along::across, degrees(34.0), metres(0.6), metres(0.0));
  CHECK(has_excess(h, "height to the top of the roof"));
  // 14.4 m with eaves of 1.7 m: 0.8 m of each counts, 16.0 m in all; a millimetre more does not pass
  h = gable(metres(20.0), metres(14.4), metres(2.4), Along::across, degrees(10.0), metres(1.7), metres(0.0));
  h.across = metres(20.0);
  h.roof.eaves = metres(1.699);
  CHECK_FALSE(has_excess(h, "width"));
  h.roof.eaves = metres(1.701);
  CHECK(has_excess(h, "width"));
  h = gable(metres(30.1), metres(6.0), metres(2.4), Along::across, degrees(10.0), metres(0.4), metres(0.4));
  CHECK(has_excess(h, "length, as widths"));
  h.across = metres(29.9);
  CHECK_FALSE(has_excess(h, "length, as widths"));
  h = cottage();
  h.roof.pitch = degrees(35.1);
  CHECK(has_excess(h, "roof pitch"));
  for (const int level : {1, 3, 4}) {
    h = cottage();
    h.importance = level;
    const Blown b = blow(h);
    REQUIRE(b.loads.excess.size() == 1);
    CHECK(b.loads.excess[0].limit == "importance level");
    CHECK(b.loads.excess[0].relation == "only");
    CHECK(b.loads.excess[0].has == value(static_cast<double>(level)));
    CHECK(b.loads.excess[0].greatest == value(2.0));
  }
}

TEST_CASE("bracing lines: 9 m for N1 and N2, no figure in hand for the rest") {
  const auto spacing = [](const SiteAsk& site) {
    House h = cottage();
    h.site = site;
    const Shape s = shape_of(h);
    return method_for(site).line_spacing({h.site, h, s, table(table_for(site))}).greatest;
  };
  CHECK(spacing(ClassSite{"N1", "", ""}) == metres(9.0));
  CHECK(spacing(ClassSite{"N2", "", ""}) == metres(9.0));
  for (const char* c : {"N3", "N6", "C1", "C4"}) CHECK_FALSE(spacing(ClassSite{c, "", ""}).has_value());
  CHECK_FALSE(spacing(asce("7-16", mph(120.0), "B")).has_value());
}

// ---- envelope procedure --------------------------------------------------------------------------------------------

TEST_CASE(
    "a shut house: eight corners, inside pressure both ways, with the roof's push and without, and the least wind") {
  House h = cottage();
  h.site = asce("7-16", mph(120.0), "B");
  const Blown b = blow(h);
  CHECK(b.loads.cases.size() == 8 * 2 * 2 + 4);
  CHECK(ids(b.loads).size() == b.loads.cases.size());
  CHECK(b.loads.layouts.size() == 9);
  CHECK(b.loads.basis == Basis::allowable);
  CHECK(b.loads.excess.empty());
  const LoadCase& c = find_case(b.loads, "front left shut out");
  CHECK(c.wind == "onto the front, from its left corner");
  CHECK(c.combination.name == "0.6D + 0.6W");
  // Zone 2E at 22.5 degrees: -1.07 + (0.27 + 1.07) x 2.5 / 10 = -0.735; less 0.18 inside; nothing inside on the eaves
  const double q = b.site.q.value();
  CHECK_THAT(net_at(b, c, {metres(0.5), metres(1.0)}, false)->value(), WithinRel(q * (-0.735 - 0.18), 1e-12));
  CHECK_THAT(net_at(b, c, {metres(0.5), metres(-0.2)}, false)->value(), WithinRel(q * -0.735, 1e-12));
  // Soffits of both walls that meet at the corner, none on the others
  CHECK_THAT(net_at(b, c, {metres(5.0), metres(-0.2)}, true)->value(), WithinRel(q * 0.70, 1e-12));
  CHECK_THAT(net_at(b, c, {metres(-0.1), metres(4.0)}, true)->value(), WithinRel(q * 0.70, 1e-12));
  CHECK(net_at(b, c, {metres(5.0), metres(8.0)}, true) == zero<Pressure>());
  CHECK(net_at(b, c, {metres(12.1), metres(4.0)}, true) == zero<Pressure>());
}

TEST_CASE("wind along the ridge: end strip at the windward end, halves to either side of the ridge") {
  House h = cottage();
  h.site = asce("7-10", mph(120.0), "B");
  const Blown b = blow(h);
  const LoadCase& c = find_case(b.loads, "left front shut in");
  const double q = b.site.q.value();
  CHECK_THAT(net_at(b, c, {metres(0.5), metres(1.0)}, false)->value(), WithinRel(q * (-1.07 + 0.18), 1e-12));
  CHECK_THAT(net_at(b, c, {metres(0.5), metres(7.0)}, false)->value(), WithinRel(q * (-0.53 + 0.18), 1e-12));
  CHECK_THAT(net_at(b, c, {metres(6.0), metres(1.0)}, false)->value(), WithinRel(q * (-0.69 + 0.18), 1e-12));
  CHECK_THAT(net_at(b, c, {metres(6.0), metres(7.0)}, false)->value(), WithinRel(q * (-0.37 + 0.18), 1e-12));
  // The windward end is pushed and the leeward one pulled, both towards +x
  const LoadCase& walls = find_case(b.loads, "left front shut in walls");
  const double end = 2.0 * 0.9144;                       // 2a, a = 3 ft
  const auto gable_part = [&](double from, double to) {  // area of a gable end between two places, m2
    const auto height = [](double y) { return 2.7 + std::min(y, 7.8 - y) * std::tan(degrees(22.5).value()); };
    return to <= 3.9
               ? (to - from) * (height(from) + height(to)) / 2.0
               : (3.9 - from) * (height(from) + height(3.9)) / 2.0 + (to - 3.9) * (height(3.9) + height(to)) / 2.0;
  };
  const double expected = q * ((0.61 + 0.43) * gable_part(0.0, end) + (0.40 + 0.29) * gable_part(end, 7.8));
  CHECK_THAT(push_total(walls, Along::across).value(), WithinRel(expected, 1e-9));
  CHECK_THAT(push_total(walls, Along::up).value(), WithinAbs(0.0, 1e-6));
}

TEST_CASE("the exposure factor does not fall below the low-rise value in Exposure B") {
  const auto q = [](const std::string& exposure, double level) {
    House h = cottage();
    h.floor_level = metres(level);
    h.site = asce("7-16", mph(100.0), exposure);
    return in_psf(blow(h).site.q);
  };
  CHECK_THAT(q("B", 0.3), WithinRel(0.00256 * 0.70 * 0.85 * 1e4, 1e-9));
  CHECK_THAT(q("C", 0.3), WithinRel(0.00256 * 2.01 * std::pow(15.0 / 900.0, 2.0 / 9.5) * 0.85 * 1e4, 1e-9));
}

TEST_CASE("7-05 multiplies by the importance factor and is called superseded") {
  House h = cottage();
  AsceSite s = asce("7-05", mph(90.0), "B");
  s.risk = "III";
  h.site = s;
  const Blown b = blow(h);
  CHECK_THAT(in_psf(b.site.q), WithinRel(0.00256 * 0.70 * 0.85 * 8100.0 * 1.15, 1e-9));
  const auto& said = b.site.cautions;
  CHECK(std::any_of(said.begin(), said.end(),
                    [](const std::string& c) { return c.find("superseded") != std::string::npos; }));
}

TEST_CASE("7-05 lays wind along the ridge as on a flat roof as well, zone 2 to mid-length") {
  House h = cottage();
  h.site = asce("7-05", mph(90.0), "B");
  const Blown b = blow(h);
  CHECK(b.loads.cases.size() == 8 * 2 * 2 + 4 * 2 * 2 + 4);
  const LoadCase& c = find_case(b.loads, "left front flat shut out");
  const double q = b.site.q.value();
  CHECK_THAT(net_at(b, c, {metres(1.0), metres(1.0)}, false)->value(), WithinRel(q * (-1.07 - 0.18), 1e-12));
  CHECK_THAT(net_at(b, c, {metres(5.0), metres(7.0)}, false)->value(), WithinRel(q * (-0.69 - 0.18), 1e-12));
  CHECK_THAT(net_at(b, c, {metres(7.0), metres(1.0)}, false)->value(), WithinRel(q * (-0.53 - 0.18), 1e-12));
  CHECK_THAT(net_at(b, c, {metres(7.0), metres(7.0)}, false)->value(), WithinRel(q * (-0.37 - 0.18), 1e-12));
  // The end walls are pushed as by load case B
  CHECK_THAT(push_total(find_case(b.loads, "left front flat shut out walls"), Along::across).value(),
             WithinRel(push_total(find_case(b.loads, "left front shut out walls"), Along::across).value(), 1e-12));
}

TEST_CASE("partially enclosed by the area rule") {
  const auto partial = [](const House& h) { return ids(blow(h).loads).contains("front left open out"); };
  House h = cottage();
  h.site = asce("7-16", mph(120.0), "B");
  CHECK_FALSE(partial(h));
  SECTION("a wide door that is not known to stand the wind") {
    put(h, Side::front, opening(metres(3.0), metres(2.1), true, false, "100 mph"));
    CHECK(partial(h));
  }
  SECTION("one that does") {
    put(h, Side::front, opening(metres(3.0), metres(2.1), true, false, "120 mph"));
    CHECK_FALSE(partial(h));
  }
  SECTION("a rating in another system is no rating") {
    put(h, Side::front, opening(metres(3.0), metres(2.1), true, false, "N4"));
    CHECK(partial(h));
  }
  SECTION("as much stands open elsewhere") {
    put(h, Side::front, opening(metres(2.0), metres(2.0), false, true, std::nullopt));
    put(h, Side::back, opening(metres(2.0), metres(2.0), false, true, std::nullopt));
    CHECK_FALSE(partial(h));
  }
  SECTION("a hole of less than 4 square feet and a hundredth of the wall") {
    put(h, Side::front, opening(metres(0.5), metres(0.6), false, true, std::nullopt));  // 0.30 of 0.324 m2
    CHECK_FALSE(partial(h));
  }
  SECTION("and just more than a hundredth") {
    put(h, Side::front, opening(metres(0.55), metres(0.6), false, true, std::nullopt));  // 0.33 of 0.324 m2
    CHECK(partial(h));
  }
  SECTION("a window counts where debris flies, or may fly") {
    put(h, Side::front, opening(metres(1.8), metres(1.2), false, false, std::nullopt));
    CHECK_FALSE(partial(h));
    std::get<AsceSite>(h.site).debris_region = true;
    CHECK(partial(h));
    std::get<AsceSite>(h.site).debris_region = std::nullopt;
    CHECK_FALSE(partial(h));
    std::get<AsceSite>(h.site).speed = mph(140.0);
    CHECK(partial(h));
  }
}

TEST_CASE("limits of the envelope procedure") {
  House h = cottage();
  h.site = asce("7-16", mph(120.0), "B");
  CHECK(blow(h).loads.excess.empty());
  h.floor_level = metres(4.5);
  CHECK(has_excess(h, "mean roof height, against the least plan dimension"));
  h.floor_level = metres(17.0);
  CHECK(has_excess(h, "mean roof height"));
  h.floor_level = metres(0.3);
  h.roof.pitch = degrees(45.5);
  CHECK(has_excess(h, "roof pitch"));
}

TEST_CASE("square on: wall zones 4 and 5 by the stud's area") {
  // h 2.7 m: A = 2.43 m2 = 26.156 ft2; log10(2.6156)/log10(50) = 0.24577. Zone 5: -1.4 + 0.6 x 0.24577 = -1.25254,
  // zone 4: -1.1 + 0.3 x 0.24577 = -1.02627; with 0.18 inside, outwards
  House h = cottage();
  h.site = asce("7-16", mph(150.0), "C");
  const Blown b = blow(h);
  const double q = b.site.q.value();
  const LoadCase& c = find_case(b.loads, "front left shut out");
  for (const SquareOn& s : c.square_on)
    CHECK_THAT(s.p.value(), WithinRel(q * (s.label == "5" ? 1.25254 + 0.18 : 1.02627 + 0.18), 1e-5));
  for (const Side side : {Side::left, Side::front, Side::right, Side::back}) {
    Length reached = zero<Length>();
    for (const SquareOn& s : c.square_on) {
      if (s.side != side) continue;
      CHECK(s.from == reached);
      reached = s.to;
    }
    CHECK(reached == (is_across(outward(side)) ? h.up : h.across));
  }
}

// ---- laws ----------------------------------------------------------------------------------------------------------

TEST_CASE("a mirrored and a quarter-turned house get the mirrored and turned pressures") {
  std::mt19937 rng(3);
  for (const SiteAsk& site : sites()) {
    House h = cottage();
    h.site = site;
    put(h, Side::front, opening(metres(3.0), metres(2.1), true, false, std::nullopt));
    House turned = cottage();
    std::swap(turned.across, turned.up);
    turned.roof.ridge = Along::up;
    turned.site = site;
    for (Wall& w : turned.walls) w.to = w.runs == Along::across ? turned.across : turned.up;
    put(turned, Side::right, opening(metres(3.0), metres(2.1), true, false, std::nullopt));
    const Blown a = blow(h), t = blow(turned);
    REQUIRE(a.loads.cases.size() == t.loads.cases.size());
    for (const LoadCase& c : a.loads.cases) {
      INFO(c.id);
      check_turned_and_mirrored(a, t, c, rng, 60);
    }
  }
}

TEST_CASE("more wind never means less pressure") {
  const auto grows = [](const SiteAsk& less, const SiteAsk& more) {
    House h = cottage();
    h.site = less;
    const Blown a = blow(h);
    h.site = more;
    const Blown b = blow(h);
    REQUIRE(a.loads.cases.size() == b.loads.cases.size());
    for (std::size_t i = 0; i < a.loads.cases.size(); ++i) {
      const LoadCase &c = a.loads.cases[i], &d = b.loads.cases[i];
      REQUIRE(c.id == d.id);
      for (std::size_t k = 0; k < c.net.size(); ++k) CHECK(std::abs(d.net[k].value()) >= std::abs(c.net[k].value()));
      for (std::size_t k = 0; k < c.push.size(); ++k)
        CHECK(std::abs(d.push[k].p.value()) >= std::abs(c.push[k].p.value()));
      for (std::size_t k = 0; k < c.square_on.size(); ++k) CHECK(d.square_on[k].p >= c.square_on[k].p);
    }
  };
  for (char n = '1'; n < '6'; ++n)
    grows(ClassSite{std::string("N") + n, "", ""}, ClassSite{std::string("N") + static_cast<char>(n + 1), "", ""});
  for (char n = '1'; n < '4'; ++n)
    grows(ClassSite{std::string("C") + n, "", ""}, ClassSite{std::string("C") + static_cast<char>(n + 1), "", ""});
  for (const std::string edition : {"7-05", "7-10", "7-16"})
    for (double v = 80.0; v < 180.0; v += 10.0) grows(asce(edition, mph(v), "C"), asce(edition, mph(v + 10.0), "C"));
}

TEST_CASE("coefficients have no steps where the columns and rows of the tables meet") {
  const double near = 1e-9;
  const Table& m = table("methods/asce-7-16.toml");
  for (const std::string zone : {"1", "2", "3", "4", "1E", "2E", "3E", "4E"})
    for (const double at : {5.0, 20.0, 30.0, 45.0}) {
      const double below = asce_envelope::coefficient(m, 'A', zone, degrees(at - near), nullptr),
                   above = asce_envelope::coefficient(m, 'A', zone, degrees(at + near), nullptr);
      CHECK_THAT(below, WithinAbs(above, 1e-8));
    }
  for (const double ft2 : {10.0, 500.0}) {
    const Area at = ft2 * feet(1.0) * feet(1.0);
    CHECK_THAT(asce_envelope::wall_coefficient(m, "out5", at * (1.0 - near), nullptr, "c"),
               WithinAbs(asce_envelope::wall_coefficient(m, "out5", at * (1.0 + near), nullptr, "c"), 1e-8));
  }
  const auto racking = [](double pitch, double depth, std::string_view slope) {
    const double rise = 0.5 * depth * std::tan(degrees(pitch).value());
    const as4055::SlopingFace face{.q = Pressure::from_value(1500.0),
                                   .half_wall = metres(1.35),
                                   .roof_over_breadth = metres(rise),
                                   .eaves = metres(3.0),
                                   .rise = metres(rise),
                                   .depth = metres(depth),
                                   .pitch = degrees(pitch),
                                   .downwind = slope};
    return as4055::racking_under_slope(of_class(), face, nullptr, "p").value();
  };
  for (const std::string_view slope : {"downwind_side", "downwind_hip"})
    for (const double at : {5.0, 10.0, 15.0, 20.0, 25.0, 30.0})
      for (const double depth : {4.0, 7.0, 12.0})
        CHECK_THAT(racking(at - near, depth, slope), WithinAbs(racking(at + near, depth, slope), 1e-5));
}

TEST_CASE("eaves above those that the racking tables go by are never pushed less than eaves as high as those") {
  std::size_t more = 0;
  for (const std::string_view slope : {"downwind_side", "downwind_hip"})
    for (const double pitch : {3.0, 8.0, 10.0, 15.0, 20.0, 22.5, 25.0, 30.0, 35.0})
      for (const double depth : {4.0, 7.8, 10.0, 12.0, 16.0})
        for (const double high : {4.6, 5.2, 5.9}) {
          const auto p = [&](double eaves, Working* w) {
            const double rise = 0.5 * depth * std::tan(degrees(pitch).value());
            const as4055::SlopingFace face{.q = Pressure::from_value(1500.0),
                                           .half_wall = metres(1.35),
                                           .roof_over_breadth = metres(rise),
                                           .eaves = metres(eaves),
                                           .rise = metres(rise),
                                           .depth = metres(depth),
                                           .pitch = degrees(pitch),
                                           .downwind = slope};
            return as4055::racking_under_slope(of_class(), face, w, "p").value();
          };
          const double at_limit = p(4.5, nullptr), silent = p(high, nullptr);
          Working told;
          CHECK(p(high, &told) == silent);
          CHECK(silent >= at_limit);
          // The step that tells the height says which of the two it is.
          const auto step =
              std::find_if(told.steps.begin(), told.steps.end(), [](const Step& s) { return s.symbol == "h_e"; });
          if (pitch > 3.0) {
            REQUIRE(step != told.steps.end());
            CHECK(step->result.si == (silent > at_limit ? high : 4.5));
          }
          more += silent > at_limit ? 1 : 0;
        }
  CHECK(more > 10);
}

TEST_CASE("heights where the rows of h/d meet leave no step") {
  for (const double row : {0.25, 0.5, 1.0}) {
    const auto racking = [&](double ratio) {
      // eaves such that (eaves + rise / 2) / depth is the ratio: depth 6 m, rise 1 m
      const as4055::SlopingFace face{.q = Pressure::from_value(1500.0),
                                     .half_wall = metres(1.35),
                                     .roof_over_breadth = metres(1.0),
                                     .eaves = metres(6.0 * ratio - 0.5),
                                     .rise = metres(1.0),
                                     .depth = metres(6.0),
                                     .pitch = degrees(18.4),
                                     .downwind = "downwind_side"};
      return as4055::racking_under_slope(of_class(), face, nullptr, "p").value();
    };
    CHECK_THAT(racking(row - 1e-9), WithinAbs(racking(row + 1e-9), 1e-4));
  }
}

// ---- the working ---------------------------------------------------------------------------------------------------

TEST_CASE("the told case is the silent one, bit for bit, and every pressure in it is told under its label") {
  for (const double pitch : {0.0, 4.0, 7.5, 10.0, 22.5, 30.0, 35.0})
    for (const SiteAsk& site : sites()) {
      House h = cottage();
      h.roof.pitch = degrees(pitch);
      h.site = site;
      put(h, Side::front, opening(metres(3.0), metres(2.1), true, false, std::nullopt));
      const Shape s = shape_of(h);
      const WindAsk ask{h.site, h, s, table(table_for(h.site))};
      const Loads silent = method_for(h.site).loads(ask, nullptr, std::nullopt);
      for (std::size_t i = 0; i < silent.cases.size(); i += sanitized ? 7 : 1) {
        Working w(i % 2 == 0 ? metric : us);
        const Loads loud = method_for(h.site).loads(ask, &w, i);
        const LoadCase& c = loud.cases[i];
        INFO(c.id << " at " << pitch);
        REQUIRE(same(silent.cases[i], c));
        CHECK_THAT(orphan(w), Catch::Matchers::Equals(""));
        const Layout& layout = loud.layouts[c.layout];
        for (std::size_t k = 0; k < layout.zones.size(); ++k) {
          const std::string symbol = "p_" + layout.zones[k].label;
          CHECK(told(w, c.net_small.empty() ? symbol : symbol + ",l", c.net[k]));
          if (!c.net_small.empty()) CHECK(told(w, symbol + ",s", c.net_small[k]));
        }
        for (const Push& p : c.push) CHECK(told(w, "p_" + p.label, p.p));
        for (const SquareOn& p : c.square_on) CHECK(told(w, "p_sq," + p.label, p.p));
      }
    }
}

TEST_CASE("marks name the from-memory figures that a case rests on, and each is told") {
  for (const SiteAsk& site : sites()) {
    House h = cottage();
    h.site = site;
    const Table& t = table(table_for(site));
    const Shape s = shape_of(h);
    const WindAsk ask{h.site, h, s, t};
    const Loads silent = method_for(site).loads(ask, nullptr, std::nullopt);
    for (std::size_t i = 0; i < silent.cases.size(); ++i) {
      const LoadCase& c = silent.cases[i];
      INFO(c.id);
      CHECK(c.marks == (c.marks_net | c.marks_push | c.marks_square_on));
      Marks any = 0;
      for (const Entry& e : t.entries) any |= t.mark(e.key);
      CHECK((c.marks & ~any) == 0);
      Working w;
      method_for(site).loads(ask, &w, i);
      for (const Entry& e : t.entries) {
        if (!e.from_memory()) continue;
        const bool is_told = std::any_of(w.steps.begin(), w.steps.end(), [&](const Step& step) {
          return step.kind == StepKind::lookup && step.source == t.source(e.key);
        });
        INFO(e.key);
        // What is told is marked, but where entries share a clause or the case is the least wind (its gust is not used)
        if (is_told && (c.marks & t.mark(e.key)) == 0 && !c.id.ends_with("least")) {
          const bool shared = std::any_of(t.entries.begin(), t.entries.end(), [&](const Entry& o) {
            return o.key != e.key && t.source(o.key) == t.source(e.key) && (c.marks & t.mark(o.key)) != 0;
          });
          CHECK(shared);
        }
      }
    }
  }
}

TEST_CASE("every step of the wind is worked out again by GNU Units") {
  REQUIRE(recompute::units_works());
  for (const SiteAsk& site : sites()) {
    House h = cottage();
    h.site = site;
    const Shape s = shape_of(h);
    const WindAsk ask{h.site, h, s, table(table_for(site))};
    const std::size_t cases = method_for(site).loads(ask, nullptr, std::nullopt).cases.size();
    for (const Units* units : {&metric, &us}) {
      for (const std::size_t i : {std::size_t{0}, std::size_t{2}, cases / 2, cases - 1}) {
        Working w(*units);
        method_for(site).loads(ask, &w, i);
        CHECK(!w.steps.empty());
        const auto outcome = recompute::recompute(w.steps, *units);
        CHECK(outcome.checked > 0);
        for (const std::string& miss : outcome.misses) FAIL_CHECK(miss);
      }
    }
  }
}
