// The page of one link: every kind of step, marks, the end of the page, and the width of it all.
#include "hand_made.hpp"
#include "report/said_back.hpp"
#include "report/working_page.hpp"
#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace belay;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
namespace hm = belay::hand_made;

namespace {
const Look no_colour{false};
Working by_hand(const Units& u) {
  Working w(u);
  w.heading("The wind");
  const Speed v = Speed::from_value(50.0);
  w.add({StepKind::given, {}, "V", "gust at roof height of class N3", "saltbush.toml:12", {}, {}, value(v), {}});
  w.add({StepKind::formula,
         {},
         "q",
         "pressure that this gust brings to rest",
         "AS 4055:2021 cl. 2.1 (from memory)",
         "0.5 * rho * V^2",
         "0.5 * 1.2 kg/m^3 * (50 m/s)^2",
         value(Pressure::from_value(1500.0)),
         {{"V", value(v)}}});
  w.heading("The roof");
  std::string symbols, numbers;
  std::vector<Operand> rows;
  for (int i = 1; i <= 14; ++i) {
    symbols += fmt::format("{}R_{}", i == 1 ? "" : " + ", i);
    numbers += fmt::format("{}{}.125 kN", i == 1 ? "" : " + ", i);
    rows.push_back({fmt::format("R_{}", i), value(hm::kilonewtons(i + 0.125))});
  }
  w.add({StepKind::sum,
         {},
         "R",
         "all that lands on this stud",
         "statics",
         symbols,
         numbers,
         value(hm::kilonewtons(106.75)),
         rows});
  w.add({StepKind::choice,
         {},
         "P",
         "the greater of the two roof rules",
         "AS 4055:2021 cl. 3 (from memory)",
         "P_2",
         "9.5 kN",
         value(hm::kilonewtons(9.5)),
         {{"P_1", value(hm::kilonewtons(8.0))}, {"P_2", value(hm::kilonewtons(9.5))}}});
  w.add({StepKind::lookup,
         {},
         "K_z",
         "factor for height and ground",
         "ASCE 7-16 Table 26.10-1, exposure B",
         {},
         {},
         Value{0.7, Kind::ratio},
         {}});
  return w;
}
}  // namespace

TEST_CASE("the page numbers its steps and shows words, symbols, numbers, result and source") {
  const std::string page = working_page(hm::saltbush(), 0, by_hand(metric), no_colour);
  INFO(page);
  const auto lines = hm::lines_of(page);
  CHECK(lines[0] == "Why the hold-down A2 left, at 10900 fails");
  CHECK_THAT(page, Contains("\nThe wind\n"));
  CHECK_THAT(page, Contains("  1  Gust at roof height of class N3\n"));
  CHECK_THAT(page, Contains("     V = 50.00 m/s"));
  CHECK_THAT(page, Contains("[saltbush.toml:12]"));
  CHECK_THAT(page, Contains("     q = 0.5 * rho * V^2\n       = 0.5 * 1.2 kg/m^3 * (50 m/s)^2\n       = 1.5000 kPa"));
  CHECK_THAT(page, Contains("  5  Factor for height and ground"));
  for (const std::string& l : lines) CHECK(columns(l) <= page_width);
}

TEST_CASE("a figure from memory is marked at its step") {
  Result r = hm::saltbush();
  CHECK_THAT(working_page(r, 0, by_hand(metric), no_colour),
             Contains("2  Pressure that this gust brings to rest") && Contains("[m: from memory]"));
  // The source names the figure, and somebody has compared it.
  r.from_memory[0].source = "AS 4055:2021 cl. 2.1";
  r.from_memory[0].checked = true;
  r.from_memory[0].who = "A. Reader";
  CHECK_THAT(working_page(r, 0, by_hand(metric), no_colour), Contains("[m: from memory, checked: A. Reader]"));
}

TEST_CASE("a choice lists its candidates and says which is taken") {
  const std::string page = working_page(hm::saltbush(), 0, by_hand(metric), no_colour);
  CHECK_THAT(page, Contains("P_1  8.000 kN\n"));
  CHECK_THAT(page, Contains("P_2  9.500 kN   <- this one\n"));
}

TEST_CASE("the title says a link's kind once") {
  Result r = hm::saltbush();
  r.links[0].kind = "brace";
  r.links[0].where.words = "brace A1";
  r.links[0].where.from_start.reset();
  CHECK_THAT(working_page(r, 0, by_hand(metric), no_colour), StartsWith("Why the brace A1 fails\n"));
  r.links[0].kind = "compression";
  r.links[0].where.words = "compression A1 left";
  r.links[0].verdict = Verdict::by_others;
  CHECK_THAT(working_page(r, 0, by_hand(metric), no_colour),
             StartsWith("Why the pressed end of a brace, A1 left, is for others to answer\n"));
  r.links[0].kind = "line spacing";
  r.links[0].where.words = "spacing A to C";
  r.links[0].verdict = Verdict::not_judged;
  CHECK_THAT(working_page(r, 0, by_hand(metric), no_colour),
             StartsWith("Why the distance between bracing lines, A to C, is not judged\n"));
}

TEST_CASE("a figure is checked only when every figure of its source is") {
  Result r = hm::saltbush();
  r.from_memory = {
      {.figure = "one", .value = "1", .source = "AS 4055:2021 cl. 2.1", .links = 1, .checked = false, .who = ""},
      {.figure = "other",
       .value = "2",
       .source = "AS 4055:2021 cl. 2.1",
       .links = 1,
       .checked = true,
       .who = "A. Reader"}};
  CHECK_THAT(working_page(r, 0, by_hand(metric), no_colour),
             Contains("[m: from memory, not checked]") && !Contains("A. Reader"));
  std::swap(r.from_memory[0], r.from_memory[1]);
  CHECK_THAT(working_page(r, 0, by_hand(metric), no_colour),
             Contains("[m: from memory, not checked]") && !Contains("A. Reader"));
}

TEST_CASE("what is stated in a row stands under one number, a source that is shared once, and like sums say so") {
  Working w(metric);
  w.heading("The roof");
  given(&w, "s", "span between the bearings", hm::millimetres(7800), "the job");
  given(&w, "A_1", "plan area of the strip on the front slope, which is long enough in words for two lines",
        Area::from_value(3.51), "the job's trusses");
  given(&w, "u_1", "level distance of its middle from this bearing", hm::millimetres(1950), "the job's trusses");
  looked_up(&w, "f_w", "factor on the wind", 0.99, "AS 4055:2021 cl. 3 (from memory)");
  const auto add = [&](const std::string& symbol, const std::string& words) {
    w.add({StepKind::formula,
           {},
           symbol,
           words,
           "moments",
           "f_w * s",
           "0.99 * 7.800 m",
           value(hm::millimetres(7722)),
           {}});
  };
  add("W_1", "what lands here");
  add("W_2", "what lands here");
  add("W_3", "what lands there");
  w.heading("Further down");
  add("W_4", "what lands there");
  const std::string page = working_page(hm::saltbush(), 0, w, no_colour);
  INFO(page);
  CHECK_THAT(page, Contains("\n  1  s   = 7.800 m    span between the bearings                        [the job]\n"
                            "     A_1 = 3.510 m^2  plan area of the strip on the front slope, which is long\n"
                            "                        enough in words for two lines\n"
                            "     u_1 = 1.950 m    level distance of its middle from this bearing\n"
                            "                                                             [the job's trusses]\n"
                            "     f_w = 0.99       factor on the wind    [AS 4055:2021 cl. 3, m: from memory]\n"
                            "  2  What lands here\n"
                            "     W_1 = f_w * s\n"));
  CHECK_THAT(page, Contains("\n  3  Likewise\n     W_2 = f_w * s\n") && Contains("\n  4  What lands there\n"));
  CHECK_THAT(page, Contains("\nFurther down\n  5  What lands there\n"));  // a heading begins anew
}

TEST_CASE("a long sum is broken between its terms, never between a number and its unit") {
  const std::string page = working_page(hm::saltbush(), 0, by_hand(metric), no_colour);
  for (const std::string& l : hm::lines_of(page)) {
    INFO(l);
    CHECK(columns(l) <= page_width);
    const std::size_t first = l.find_first_not_of(' ');
    if (first != std::string::npos) CHECK(l.compare(first, 2, "kN") != 0);
  }
  CHECK_THAT(page, Contains("14.125 kN"));
}

TEST_CASE("the page ends with demand against capacity, the verdict, the conditions and the pointer to codes") {
  const Result r = hm::saltbush();
  const std::string page = working_page(r, 0, by_hand(metric), no_colour);
  INFO(page);
  CHECK_THAT(page, Contains("pull   24.751 kN / 26.000 kN"));
  CHECK_THAT(page, Contains("95.2 %"));
  CHECK_THAT(page, Contains("roof over doorway D1 (T1 at 8100, 9000, 9900)"));
  CHECK_THAT(page, Contains("together by the rule \"straight sum\""));
  CHECK_THAT(page, Contains("FAIL   116.9 %"));
  CHECK_THAT(page, Contains("\nMost of the pull is tipping of brace A2: 14.87 of 24.75 kN.\n"));
  CHECK_THAT(page, Contains("Condition: edge distance, needs 45 mm, has 45 mm: met."));
  CHECK_THAT(page, Contains("rests on figures from memory"));
  CHECK_THAT(page, Contains("Caution: "));
  CHECK(hm::lines_of(page).back() == last_words);
  const std::string open = working_page(r, 4, Working(metric), no_colour);
  CHECK_THAT(open, Contains("4.404 kN, no capacity to set against it"));
  CHECK_THAT(open, Contains("To have it judged add `stud_tie` or `by_others`."));
  CHECK_THAT(open, Contains("\nNOT JUDGED   "));
}

namespace {
House small_house() {
  const Chosen bolt{.name = "demo-bolt-12", .by = "unless noted", .at = "saltbush.toml:21"};
  const Piece brace{.from = hm::millimetres(0),
                    .to = hm::millimetres(1200),
                    .opening = std::nullopt,
                    .brace = Brace{.name = "A1",
                                   .fixing = Chosen{"demo-sheet-6", "unless noted", "saltbush.toml:20"},
                                   .hold_down = Chosen{"demo-rod-16", "unless noted", "saltbush.toml:20"},
                                   .hold_down_in = hm::millimetres(100),
                                   .plate_anchors_share = false,
                                   .foot = std::nullopt}};
  const Piece door{.from = hm::millimetres(1200),
                   .to = hm::millimetres(4200),
                   .opening = Opening{.mark = "D1",
                                      .height = hm::millimetres(2100),
                                      .width = hm::millimetres(3000),
                                      .door = true,
                                      .stands_open = false,
                                      .wind_rated = "N3",
                                      .jamb = bolt,
                                      .impact_rated = false},
                   .brace = std::nullopt};
  const Piece plain{
      .from = hm::millimetres(4200), .to = hm::millimetres(12000), .opening = std::nullopt, .brace = std::nullopt};
  const auto wall = [&](std::string name, Side side, Along runs, Length line, Length to, std::vector<Piece> pieces) {
    return Wall{.name = std::move(name),
                .at = "saltbush.toml:40",
                .outside = true,
                .side = side,
                .runs = runs,
                .line = line,
                .from = zero<Length>(),
                .to = to,
                .pieces = std::move(pieces),
                .anchor = bolt,
                .anchor_spacing = hm::millimetres(1200),
                .plate_width = hm::millimetres(90),
                .fixing_in = hm::millimetres(100)};
  };
  return House{
      .title = "Saltbush Cottage",
      .drawn = "plan 2403-A2",
      .file = "saltbush.toml",
      .sha256 = "0",
      .print = Print::metric,
      .importance = 2,
      .by_others = {ByOthers{"stud tie", "frame maker's engineer"}},
      .checked = {},
      .site = ClassSite{"N3", "site report 4471", "saltbush.toml:10"},
      .block = "main",
      .across = hm::millimetres(12000),
      .up = hm::millimetres(7800),
      .floor_level = hm::millimetres(300),
      .height = hm::millimetres(2700),
      .roof = Roof{.ridge = Along::across,
                   .pitch = Angle::from_value(0.39269908169872414),
                   .eaves = hm::millimetres(450),
                   .verge = hm::millimetres(300),
                   .weight = RoofWeight{Pressure::from_value(400.0), Pressure::from_value(400.0), false}},
      .wall_weight = zero<Pressure>(),
      .trusses = {Truss{"T1", hm::millimetres(0), Chosen{"demo-cleat-4", "unless noted", "saltbush.toml:22"}},
                  Truss{"T1", hm::millimetres(900), Chosen{"demo-cleat-4", "unless noted", "saltbush.toml:22"}}},
      .walls = {wall("A", Side::front, Along::across, zero<Length>(), hm::millimetres(12000), {brace, door, plain}),
                wall("C", Side::back, Along::across, hm::millimetres(7800), hm::millimetres(12000),
                     {Piece{zero<Length>(), hm::millimetres(12000), std::nullopt, std::nullopt}})},
      .slab = Slab{std::nullopt, std::nullopt, std::nullopt, zero<Length>()},
      .frame = Frame{std::nullopt, std::nullopt},
      .fixings = Fixings{.title = "Invented light steel fixings",
                         .status = "demo",
                         .file = "demo-light-steel.toml",
                         .brackets = {},
                         .ties = {},
                         .plates = {},
                         .anchors = {},
                         .straps = {},
                         .sheets = {},
                         .rated = {},
                         .linings = {},
                         .perforated = {},
                         .end_studs = {}},
      .remarks = {"the roof's weight is read as on plan"}};
}
}  // namespace

TEST_CASE("the house is said back: places, marks, fixings and where each was chosen, and what was left out") {
  const std::vector<Station> stations{
      {"A", "hold-down", "demo-rod-16", "unless noted", hm::millimetres(1100), "A1 right, jamb D1 left"},
      {"A", "hold-down", "demo-rod-16", "unless noted", hm::millimetres(100), "A1 left"}};
  const std::string page = said_back(small_house(), stations, {}, no_colour);
  INFO(page);
  CHECK_THAT(page, Contains("Class N3, given by site report 4471"));
  CHECK_THAT(page, Contains("12000 mm across the sheet, 7800 mm up the sheet"));
  CHECK_THAT(page, Contains("pitch 22.5 deg, eaves 450 mm, verge 300 mm"));
  CHECK_THAT(page, Contains("Wall A, the front"));
  CHECK_THAT(page, Contains("    0 to  1200   brace A1"));
  CHECK_THAT(page, Contains(" 1200 to  4200   door D1 2100 high x 3000 wide"));
  CHECK_THAT(page, Contains("A1: demo-sheet-6 (unless noted, line 20); hold-downs demo-rod-16 (unless"));
  CHECK_THAT(page, Contains("wind rated: N3"));
  CHECK_THAT(page, Contains("1100  hold-down  demo-rod-16  A1 right, jamb D1 left"));
  CHECK(page.find("A1 left\n") < page.find("A1 right, jamb"));
  CHECK_THAT(page, Contains("2 trusses, each on wall A (front) and wall C (back)"));
  CHECK_THAT(page, Contains("0  900"));
  CHECK_THAT(page, Contains("Wall weight: none stated; walls give no help against uplift"));
  CHECK_THAT(page, Contains("Top plate to stud: none given"));
  CHECK_THAT(page, Contains("Stud to bottom plate: by others, frame maker's engineer"));
  CHECK_THAT(page, Contains("the roof's weight is read as on plan."));
  for (const std::string& l : hm::lines_of(page)) CHECK(columns(l) <= page_width);
}
