// A house of two floors as it is read: every wall by its floor, every place worked out by hand; what is said of both
// floors, of one, and of a mark; and what cannot be meant is refused with its place. Invented, all of it.
#include "houses.hpp"
#include "job_text.hpp"
#include "report/said_back.hpp"
#include <algorithm>
#include <map>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;

namespace {

constexpr std::string_view lane = R"([job]
title = "Narrow lot, invented"
drawing = "mm"
importance = 2
drawn = "sheets 1 to 4, to frame"
fixings = "demo-test.toml"

[site]
class = "N2"
given_by = "nobody: a test"

[block.main]
floor_level = 300
size = [5400, 14000]
walls = { front = "A", right = "B", back = "C", left = "D" }
height = { ground = 2700, first = 2550 }
floor = { first = { depth = 350 } }
roof = { shape = "gable", ridge = "up", pitch = "25 deg", eaves = 450, verge = 0, weight = "0.40 kPa" }
trusses = { mark = "T1", max = 900, odd_space = "back" }

[slab]
thickness = 100
beyond = 0

[unless_noted]
B = { brace = "demo-sheet" }
truss = "demo-cleat"
plate = 90
hold_down_in = 100
top_tie = "demo-tie"
floor_tie = "demo-tie"
floor_fixing = { use = "demo-screw", max = 600 }

[unless_noted.ground]
hold_down = "demo-rod"
jamb = "demo-bolt"
anchor = { use = "demo-bolt", max = 1200 }

[unless_noted.first]
hold_down = "demo-through"
jamb = "demo-screw"
anchor = { use = "demo-screw", max = 450 }

[mark]
P9 = { brace = "demo-unit" }
GD = { size = "2100 x 2700", wind_rated = "N2" }
SD = { size = "2400 x 3600", wind_rated = "N2" }
D1 = "2100 x 900"
D3 = "2100 x 820"
W1 = "1200 x 1200"
W2 = "1500 x 1800"

[wall.ground]
A = "P9 | GD | 300 | D1 | B 600"
B = "B 1800 | 10400 | B 1800"
C = "B 900 | SD | B 900"
D = "B 1800 | 1500 | W1 | 3000 | W1 | 3500 | B 1800"
E = { from_front = 6000, run = "B 1800 | 900 | D3 | 1880" }
F = { from_front = 9800, run = "B 1800 | 1780 | D3 | 1000" }

[wall.first]
A = "B 1200 | 600 | W2 | 600 | B 1200"
B = { same_as = "ground" }
C = { same_as = "A" }
D = "B 1800 | 1500 | W1 | 1800 | W1 | 1800 | W1 | 1700 | B 1800"
E = { from_front = 5200, run = "B 1800 | 1000 | D3 | 1780" }
F = { same_as = "ground" }
)";

const std::string lane_fixings = std::string(good_fixings) + R"(
[[anchor]]
name = "demo-screw"
how = "into timber"
pull = "6 kN"
slide = "4 kN"
basis = "design"
source = "invented"

[[anchor]]
name = "demo-through"
how = "through floor"
pull = "20 kN"
slide = "8 kN"
basis = "design"
source = "invented"

[[tie]]
name = "demo-tie"
pull = "7 kN"
basis = "design"
source = "invented"
)";

Opened read_lane(std::string_view job) { return read(job, lane_fixings); }
House lane_house(std::string_view job = lane) { return good(job, lane_fixings); }

const Wall& wall(const House& h, std::string_view name) {
  const auto w = std::ranges::find(h.walls, name, &Wall::name);
  INFO("no wall " << name);
  REQUIRE(w != h.walls.end());
  return *w;
}
// "0 B 1800, 1800 - 3000...": of each piece its start in mm and what it is.
std::string laid_out(const Wall& w) {
  std::string all;
  for (const Piece& p : w.pieces)
    all += fmt::format("{}{} {}", all.empty() ? "" : ", ", place(p.from, metric),
                       p.brace     ? p.brace->name
                       : p.opening ? p.opening->mark
                                   : "-");
  return fmt::format("{}, {}", all, place(w.length(), metric));
}
std::string mm(Length l) { return place(l, metric); }
std::string said(const Chosen& c) { return fmt::format("{} | {} | {}", c.name, c.by, c.at); }

}  // namespace

TEST_CASE("the house of two floors stands as its sheet has it") {
  const House h = lane_house();
  REQUIRE(h.first.has_value());
  CHECK(mm(h.height) == "2700");
  CHECK(mm(h.first->height) == "2550");
  CHECK(mm(h.first->depth) == "350");
  // 2700 + 350 = 3050 to the first floor's plates, 3050 + 2550 = 5600 to the roof.
  CHECK(mm(foot_of_walls(h, Floor::first)) == "3050");
  CHECK(mm(top_of_walls(h)) == "5600");
  CHECK(mm(wall_height(h, Floor::ground)) == "2700");
  CHECK(top_floor(h) == Floor::first);

  std::vector<std::string> names, keys;
  for (const Wall& w : h.walls) {
    names.push_back(w.name);
    keys.push_back(w.key);
    CHECK(w.floor == (names.size() <= 6 ? Floor::ground : Floor::first));
  }
  CHECK(names == std::vector<std::string>{"ground A", "ground B", "ground C", "ground D", "ground E", "ground F",
                                          "first A", "first B", "first C", "first D", "first E", "first F"});
  CHECK(keys == std::vector<std::string>{"A", "B", "C", "D", "E", "F", "A", "B", "C", "D", "E", "F"});

  // By hand from the runs: 900 + 2700 + 300 + 900 + 600 = 5400, and so on.
  CHECK(laid_out(wall(h, "ground A")) == "0 ground A1, 900 GD, 3600 -, 3900 D1, 4800 ground A2, 5400");
  CHECK(laid_out(wall(h, "ground B")) == "0 ground B1, 1800 -, 12200 ground B2, 14000");
  CHECK(laid_out(wall(h, "ground C")) == "0 ground C1, 900 SD, 4500 ground C2, 5400");
  CHECK(laid_out(wall(h, "ground D")) ==
        "0 ground D1, 1800 -, 3300 W1, 4500 -, 7500 W1, 8700 -, 12200 ground D2, 14000");
  CHECK(laid_out(wall(h, "ground E")) == "0 ground E1, 1800 -, 2700 D3, 3520 -, 5400");
  CHECK(laid_out(wall(h, "ground F")) == "0 ground F1, 1800 -, 3580 D3, 4400 -, 5400");
  CHECK(laid_out(wall(h, "first A")) == "0 first A1, 1200 -, 1800 W2, 3600 -, 4200 first A2, 5400");
  CHECK(laid_out(wall(h, "first B")) == "0 first B1, 1800 -, 12200 first B2, 14000");
  CHECK(laid_out(wall(h, "first C")) == "0 first C1, 1200 -, 1800 W2, 3600 -, 4200 first C2, 5400");
  CHECK(laid_out(wall(h, "first D")) ==
        "0 first D1, 1800 -, 3300 W1, 4500 -, 6300 W1, 7500 -, 9300 W1, 10500 -, 12200 first D2, 14000");
  CHECK(laid_out(wall(h, "first E")) == "0 first E1, 1800 -, 2800 D3, 3620 -, 5400");
  CHECK(laid_out(wall(h, "first F")) == "0 first F1, 1800 -, 3580 D3, 4400 -, 5400");

  for (const char* floor : {"ground", "first"}) {
    const auto of = [&](std::string_view key) { return wall(h, fmt::format("{} {}", floor, key)); };
    CHECK((of("A").outside && of("A").side == Side::front && mm(of("A").line) == "0"));
    CHECK((of("B").outside && of("B").side == Side::right && mm(of("B").line) == "5400"));
    CHECK((of("C").outside && of("C").side == Side::back && mm(of("C").line) == "14000"));
    CHECK((of("D").outside && of("D").side == Side::left && mm(of("D").line) == "0"));
  }
  CHECK(mm(wall(h, "ground E").line) == "6000");
  CHECK(mm(wall(h, "first E").line) == "5200");
  CHECK(wall(h, "first E").runs == Along::across);
  // Nothing is said of its place on the first floor: it stands over the ground floor's.
  CHECK(mm(wall(h, "first F").line) == "9800");
  CHECK(wall(h, "first F").runs == Along::across);
  CHECK_FALSE(wall(h, "first F").outside);
  CHECK(wall(h, "first B").at == "job.toml:63");
}

TEST_CASE("each floor takes what is its own, else what holds for both, and says from where") {
  const House h = lane_house();
  const Wall &below = wall(h, "ground A"), &above = wall(h, "first A");
  CHECK(said(below.anchor) == "demo-bolt | unless noted, ground floor | job.toml:37");
  CHECK(said(above.anchor) == "demo-screw | unless noted, first floor | job.toml:42");
  CHECK(mm(below.anchor_spacing) == "1200");
  CHECK(mm(above.anchor_spacing) == "450");
  CHECK(said(below.pieces[0].brace->hold_down) == "demo-rod | unless noted, ground floor | job.toml:35");
  CHECK(said(above.pieces[0].brace->hold_down) == "demo-through | unless noted, first floor | job.toml:40");
  CHECK(said(below.pieces[1].opening->jamb) == "demo-bolt | unless noted, ground floor | job.toml:36");
  CHECK(said(above.pieces[2].opening->jamb) == "demo-screw | unless noted, first floor | job.toml:41");
  CHECK(said(below.top_tie) == "demo-tie | unless noted | job.toml:30");
  CHECK(said(above.top_tie) == said(below.top_tie));
  CHECK_FALSE(above.stud_tie.given());
  CHECK(said(h.first->tie) == "demo-tie | unless noted | job.toml:31");
  CHECK(said(h.first->fixing) == "demo-screw | unless noted | job.toml:32");
  CHECK(mm(h.first->fixing_spacing) == "600");

  // Every key that a floor may have of its own.
  const House own = lane_house(with(lane, "hold_down = \"demo-through\"\n",
                                    "hold_down = \"demo-through\"\nplate = 70\nhold_down_in = 60\nstud_tie = "
                                    "\"demo-tie\"\nplate_anchors_share = true\n"));
  CHECK(mm(wall(own, "first E").plate_width) == "70");
  CHECK(mm(wall(own, "ground E").plate_width) == "90");
  CHECK(mm(wall(own, "first E").fixing_in) == "60");
  CHECK(mm(wall(own, "ground E").fixing_in) == "100");
  CHECK(mm(wall(own, "first E").pieces[0].brace->hold_down_in) == "60");
  CHECK(wall(own, "first E").pieces[0].brace->plate_anchors_share);
  CHECK_FALSE(wall(own, "ground E").pieces[0].brace->plate_anchors_share);
  CHECK(wall(own, "first E").stud_tie.by == "unless noted, first floor");
  CHECK_FALSE(wall(own, "ground E").stud_tie.given());

  // Left out: not given, whatever else is.
  const House none = lane_house(
      with(with(lane, "floor_tie = \"demo-tie\"\n", ""), "floor_fixing = { use = \"demo-screw\", max = 600 }\n", ""));
  CHECK_FALSE(none.first->tie.given());
  CHECK_FALSE(none.first->fixing.given());
  // A mark's own goes before the floor's.
  const House mark = lane_house(with(lane, "W2 = \"1500 x 1800\"",
                                     "W2 = { size = \"1500 x 1800\", jamb = "
                                     "\"demo-through\" }"));
  CHECK(said(wall(mark, "first C").pieces[2].opening->jamb) == "demo-through | mark W2 | job.toml:51");
}

TEST_CASE("a run is taken from the other floor, turned or not, through other walls or not") {
  const auto laid = [](std::string_view from, std::string_view to, std::string_view name) {
    return laid_out(wall(lane_house(with(lane, from, to)), name));
  };
  const std::string_view d = "D = \"B 1800 | 1500 | W1 | 3000 | W1 | 3500 | B 1800\"\n";
  const std::string_view first_d = "D = \"B 1800 | 1500 | W1 | 1800 | W1 | 1800 | W1 | 1700 | B 1800\"";
  // Upwards and down.
  CHECK(laid(first_d, "D = { same_as = \"ground\" }", "first D") ==
        "0 first D1, 1800 -, 3300 W1, 4500 -, 7500 W1, 8700 -, 12200 first D2, 14000");
  CHECK(laid(d, "D = { same_as = \"first\" }\n", "ground D") ==
        "0 ground D1, 1800 -, 3300 W1, 4500 -, 6300 W1, 7500 -, 9300 W1, 10500 -, 12200 ground D2, 14000");
  // Turned where it is taken: 14000 - 4500 = 9500 to the first window, 14000 - 8700 = 5300 to the other.
  CHECK(laid(first_d, "D = { same_as = \"ground\", from = \"back\" }", "first D") ==
        "0 first D1, 1800 -, 5300 W1, 6500 -, 9500 W1, 10700 -, 12200 first D2, 14000");
  // Turned where it was written: the same wall stands above.
  const std::string turned = with(with(lane, d,
                                       "D = { run = \"B 1800 | 1500 | W1 | 3000 | W1 | 3500 | B 1800\", from = "
                                       "\"back\" }\n"),
                                  first_d, "D = { same_as = \"ground\" }");
  CHECK(laid_out(wall(lane_house(turned), "first D")) ==
        "0 first D1, 1800 -, 5300 W1, 6500 -, 9500 W1, 10700 -, 12200 first D2, 14000");
  // A wall of this floor that is the ground floor's: first D is first B, which is ground B.
  CHECK(laid(first_d, "D = { same_as = \"B\" }", "first D") == "0 first D1, 1800 -, 12200 first D2, 14000");
  // And the ground floor's, which is another wall of its own floor.
  const std::string chain = with(with(lane, d, "D = { same_as = \"B\" }\n"), first_d, "D = { same_as = \"ground\" }");
  CHECK(laid_out(wall(lane_house(chain), "first D")) == "0 first D1, 1800 -, 12200 first D2, 14000");
  // The run alone: it stands where it says.
  const House moved =
      lane_house(with(lane, "F = { same_as = \"ground\" }", "F = { same_as = \"ground\", from_front = 9000 }"));
  CHECK(mm(wall(moved, "first F").line) == "9000");
  CHECK(mm(wall(moved, "ground F").line) == "9800");
}

TEST_CASE("a wall whose word ends in a figure keeps its braces apart from it on either floor") {
  std::string job = with(lane, "walls = { front = \"A\"", "walls = { front = \"A1\"");
  for (const char* run : {"A = \"P9", "A = \"B 1200"}) job = with(job, run, std::string("A1") + (run + 1));
  job = with(job, "C = { same_as = \"A\" }", "C = { same_as = \"A1\" }");
  const House h = lane_house(job);
  CHECK(wall(h, "first A1").pieces[0].brace->name == "first A1-1");
  CHECK(wall(h, "ground A1").pieces[4].brace->name == "ground A1-2");
  CHECK(wall(h, "first C").pieces[0].brace->name == "first C1");
}

TEST_CASE("trusses bear on the first floor's inside walls, named by their own word") {
  const std::string job = with(with(lane, "E = { from_front = 5200, run = \"B 1800 | 1000 | D3 | 1780\" }",
                                    "E = { from_left = 2400, run = \"B 1800 | 10400 | B 1800\" }"),
                               "max = 900, odd_space = \"back\"", "max = 900, also_on = [\"E\"]");
  const House h = lane_house(job);
  for (const Truss& t : h.trusses) CHECK(t.also_on == std::vector<std::string>{"first E"});
  CHECK(wall(h, "first E").outside == false);
}

TEST_CASE("the draft of the other tests makes a house of two floors") {
  const House h = two_floor_box().house();
  REQUIRE(h.first.has_value());
  CHECK(h.walls.size() == 8);
  CHECK(laid_out(wall(h, "first B")) == "0 first B1, 7800");
  CHECK(wall(h, "first B").pieces[0].brace->hold_down.name == "demo-through");
  CHECK(wall(h, "ground B").pieces[0].brace->hold_down.name == "demo-rod");
}

TEST_CASE("a house of one floor has no floor in its names") {
  const House h = good(good_job);
  CHECK_FALSE(h.first.has_value());
  CHECK(top_floor(h) == Floor::ground);
  for (const Wall& w : h.walls) {
    CHECK(w.name == w.key);
    CHECK(w.floor == Floor::ground);
  }
  CHECK(wall(h, "A").anchor.by == "unless noted");
  // A wall may be called by a floor's word, as any other word.
  CHECK(wall(good(with(good_job, "E = { from_left", "first = { from_left")), "first").length() == h.up);
}

namespace {
struct Bad {
  const char* what;
  const char* from;
  const char* to;
  const char* code;
  unsigned line, column;
  const char* message;  // a part of it
  const char* help;     // a part of it
};
}  // namespace

// One thing spoiled in a good house of two floors: exactly one problem, there.
TEST_CASE("what cannot be meant of two floors is refused where it stands") {
  const Bad slips[]{
      {"a height left out", "{ ground = 2700, first = 2550 }", "{ ground = 2700 }", "missing-key", 16, 10,
       "`first` is missing", "it takes a length"},
      {"one height", "{ ground = 2700, first = 2550 }", "2700", "missing-key", 16, 10,
       "`height` is one length, and the house has a first floor", "height = { ground = 2700, first = ... }"},
      {"a height of a third floor", "first = 2550 }", "first = 2550, second = 2400 }", "unknown-key", 16, 41,
       "unknown key `second`", "`ground`"},
      {"an unbelievable height", "first = 2550 }", "first = 255 }", "unbelievable-length", 16, 35, "from 1800 to 6000",
       "\"255 mm\""},
      {"no floor", "floor = { first = { depth = 350 } }\n", "", "missing-key", 12, 1, "`floor` is missing", ""},
      {"a floor without its depth", "{ depth = 350 }", "{ }", "missing-key", 17, 19, "`depth` is missing",
       "it takes a length"},
      {"a floor too thin", "depth = 350", "depth = 35", "unbelievable-length", 17, 29, "from 100 to 800", "\"35 mm\""},
      {"a floor too deep", "depth = 350", "depth = 3500", "unbelievable-length", 17, 29, "from 100 to 800", ""},
      {"joists without their spacing", "depth = 350", "depth = 350, joists = \"across\", joist_width = 45",
       "missing-key", 17, 19, "`spacing` is missing", "it takes a length"},
      {"a spacing of no joists", "depth = 350", "depth = 350, spacing = 450", "missing-key", 17, 34,
       "the way they run, is missing", "joists = \"across\""},
      {"a space left over where the joists end", "depth = 350",
       "depth = 350, joists = \"up\", spacing = 450, joist_width = 45, odd_space = \"front\"", "wrong-side", 17, 94,
       "at the left or the right", ""},
      {"a wall of no floor", "[wall.ground]\n", "[wall]\nG = \"B 1800 | 3600\"\n[wall.ground]\n", "wall-of-no-floor",
       54, 1, "wall G stands under [wall] itself", "[wall.ground] or [wall.first]"},
      {"a run of one wall of two too long", "C = \"B 900 | SD | B 900\"", "C = \"B 900 | SD | B 1000\"", "run-too-long",
       56, 5, "wall ground C: the pieces add up to 5500, the wall is 5400: 100 too long", "from 0:"},
      {"no wall of that name above", "F = { same_as = \"ground\" }\n", "G = { same_as = \"ground\" }\n", "unknown-wall",
       67, 17, "no wall `G` under [wall.ground]", "walls: `A`"},
      {"the same as no wall", "C = { same_as = \"A\" }", "C = { same_as = \"Q\" }", "unknown-wall", 64, 17,
       "no wall `Q` under [wall.first]", "walls: `A`"},
      {"an opening too high for one floor", "W2 = \"1500 x 1800\"", "W2 = \"2600 x 1800\"", "opening-too-high", 62, 21,
       "wall first A: `W2` is 2600 high, the first floor's frame 2550", ""},
      {"an opening too high for both", "GD = { size = \"2100 x 2700\"", "GD = { size = \"2800 x 2700\"",
       "opening-too-high", 46, 15, "`GD` is 2800 high, the frame 2700 on the ground floor and 2550 on the first floor",
       "height x width"},
      {"a wall called by a floor's word", "E = { from_front = 5200", "ground = { from_front = 5200", "bad-name", 66, 1,
       "`ground` cannot be a wall's name: it is a floor's", ""},
      {"through no floor", "hold_down = \"demo-rod\"", "hold_down = \"demo-through\"", "anchor-on-the-wrong-floor", 35,
       13, "`demo-through` goes through a floor into the wall below, and the ground floor has none below",
       "for the first floor"},
      {"cast into a framed floor", "anchor = { use = \"demo-screw\", max = 450 }",
       "anchor = { use = \"demo-bolt\", max = 450 }", "anchor-on-the-wrong-floor", 42, 18,
       "`demo-bolt` is cast in, and the first floor stands on a framed floor: no concrete there", "\"into timber\""},
      {"bonded into a framed floor", "hold_down = \"demo-through\"", "hold_down = \"demo-rod\"",
       "anchor-on-the-wrong-floor", 40, 13, "`demo-rod` is bonded into concrete", "\"through floor\""},
      {"a mark's jamb in concrete on the first floor", "W2 = \"1500 x 1800\"",
       "W2 = { size = \"1500 x 1800\", jamb = \"demo-bolt\" }", "anchor-on-the-wrong-floor", 51, 37,
       "wall first A: `demo-bolt` is cast in", "\"into timber\""},
      {"a mark's jamb through the ground floor", "wind_rated = \"N2\" }\nD1",
       "wind_rated = \"N2\", jamb = \"demo-through\" }\nD1", "anchor-on-the-wrong-floor", 47, 56,
       "wall ground C: `demo-through` goes through a floor", ""},
      {"a floor fixing in concrete", "floor_fixing = { use = \"demo-screw\"", "floor_fixing = { use = \"demo-bolt\"",
       "anchor-on-the-wrong-floor", 32, 24, "`demo-bolt` is cast in, and a framed floor stands on walls", ""},
      {"a floor fixing without its space", "use = \"demo-screw\", max = 600 }", "use = \"demo-screw\" }", "missing-key",
       32, 16, "`max` is missing", "a length"},
      {"a floor fixing that is no anchor", "floor_fixing = { use = \"demo-screw\"",
       "floor_fixing = { use = \"demo-cleat\"", "wrong-sort-of-fixing", 32, 24, "not an anchor", ""},
      {"a floor tie that is none", "floor_tie = \"demo-tie\"", "floor_tie = \"demo-bolt\"", "wrong-sort-of-fixing", 31,
       13, "not a tie", ""},
      {"a truss on a wall of the ground floor alone", "max = 900, odd_space = \"back\"", "max = 900, also_on = [\"X\"]",
       "unknown-wall", 19, 48, "no wall `X` under [wall.first]", ""},
      {"a truss on an outside wall", "max = 900, odd_space = \"back\"", "max = 900, also_on = [\"B\"]", "outside-wall",
       19, 48, "wall first B is the right wall", "leave it out"},
      {"an unknown key of a floor", "[unless_noted.first]\n", "[unless_noted.first]\ntruss = \"demo-cleat\"\n",
       "unknown-key", 40, 1, "unknown key `truss`", "keys here"},
      {"an unknown fixing of a floor", "hold_down = \"demo-through\"", "hold_down = \"demo-thruogh\"", "unknown-fixing",
       40, 13, "no anchor `demo-thruogh`", "did you mean `demo-through`"},
      {"a floor misspelt", "[unless_noted.first]", "[unless_noted.frist]", "unknown-key", 39, 15, "unknown key `frist`",
       "did you mean `first`"},
      {"a floor of walls misspelt", "[wall.first]", "[wall.frist]", "unknown-key", 61, 7, "unknown floor `frist`",
       "did you mean `first`"},
      {"walls in one place above", "E = { from_front = 5200, run", "E = { from_front = 9800, run", "walls-in-one-place",
       67, 1, "wall first F stands where wall first E stands", ""},
      {"a brace without a length, taken above", "P9 = { brace = \"demo-unit\" }", "P9 = { brace = \"demo-sheet\" }",
       "brace-without-length", 54, 6, "how long is it here", ""},
  };
  std::size_t told = 0;
  for (const Bad& b : slips) {
    ++told;
    const Opened o = read_lane(with(lane, b.from, b.to));
    INFO(b.what << '\n' << render(o.problems, false));
    CHECK_FALSE(o.house.has_value());
    REQUIRE(o.problems.size() == 1);
    CHECK(o.problems[0].code == b.code);
    CHECK(o.problems[0].line == b.line);
    CHECK(o.problems[0].column == b.column);
    CHECK_THAT(o.problems[0].message, Contains(b.message));
    CHECK_THAT(o.problems[0].help, Contains(b.help));
  }
  CHECK(told >= 20);
}

TEST_CASE("what two floors lack is said all at once") {
  const auto codes = [](const std::string& job) {
    const Opened o = read_lane(job);
    CHECK_FALSE(o.house.has_value());
    std::vector<std::string> all;
    for (const Problem& p : o.problems) all.push_back(fmt::format("{} {}: {}", p.line, p.code, p.message));
    return all;
  };
  const auto starts = [](const std::vector<std::string>& all, const std::vector<std::string>& with) {
    std::string joined;
    for (const std::string& s : all) joined += s + '\n';
    INFO(joined);
    REQUIRE(all.size() == with.size());
    for (std::size_t i = 0; i < all.size(); ++i) CHECK_THAT(all[i], Catch::Matchers::StartsWith(with[i]));
  };
  const std::string ground_walls(
      lane.substr(lane.find("[wall.ground]"), lane.find("[wall.first]") - lane.find("[wall.ground]")));
  const std::string first_walls(lane.substr(lane.find("[wall.first]")));
  const std::string floor_line = "floor = { first = { depth = 350 } }\n";
  // Heights of two, and nothing else of them.
  std::string job = with(with(with(lane, first_walls, ""), "[wall.ground]", "[wall]"), floor_line, "");
  starts(codes(job),
         {"12 missing-key: `floor` is missing", "52 missing-key: `[wall.ground]` is missing",
          "52 missing-key: `[wall.first]` is missing", "53 wall-of-no-floor: walls A, B, C, D, E and F stand"});
  // A floor without a height for it and without its walls.
  job = with(with(lane, first_walls, ""), "{ ground = 2700, first = 2550 }", "2700");
  starts(codes(job), {"16 missing-key: `height` is one length", "53 missing-key: `[wall.first]` is missing"});
  // Walls of floors alone: one floor by its height.
  job = with(with(lane, "{ ground = 2700, first = 2550 }", "2700"), floor_line, "");
  starts(codes(job), {"30 wrong-key: `floor_tie` belongs to a house of two floors",
                      "31 wrong-key: `floor_fixing` belongs", "33 wrong-key: `ground` is for a house of two floors",
                      "38 wrong-key: `first` is for", "52 one-floor: walls of the ground floor, but the house has one",
                      "60 one-floor: walls of the first floor, but the house has one"});
  // One of the four walls on one floor alone; and what runs over from it.
  job = with(lane, "D = \"B 1800 | 1500 | W1 | 1800 | W1 | 1800 | W1 | 1700 | B 1800\"\n", "");
  starts(codes(job), {"15 unknown-wall: no wall `D` under [wall.first]"});
  job = with(with(lane, "B = \"B 1800 | 10400 | B 1800\"\n", ""), "B = { same_as = \"ground\" }\n", "");
  starts(codes(job),
         {"15 unknown-wall: no wall `B` under [wall.ground]", "15 unknown-wall: no wall `B` under [wall.first]"});
}

TEST_CASE("walls that are the same in a circle are refused, on one floor and across two") {
  const std::string_view ground_d = "D = \"B 1800 | 1500 | W1 | 3000 | W1 | 3500 | B 1800\"\n";
  const std::string_view first_d = "D = \"B 1800 | 1500 | W1 | 1800 | W1 | 1800 | W1 | 1700 | B 1800\"\n";
  const auto said_of = [](const std::string& job) {
    const Opened o = read_lane(job);
    CHECK_FALSE(o.house.has_value());
    std::vector<std::string> all;
    for (const Problem& p : o.problems) {
      CHECK(p.code == "same-as-itself");
      all.push_back(fmt::format("{}:{} {}", p.line, p.column, p.message));
    }
    return all;
  };
  CHECK(
      said_of(with(with(lane, ground_d, "D = { same_as = \"first\" }\n"), first_d, "D = { same_as = \"ground\" }\n")) ==
      std::vector<std::string>{"57:17 wall ground D comes back to itself by `same_as`",
                               "65:17 wall first D comes back to itself by `same_as`"});
  CHECK(said_of(with(lane, first_d, "D = { same_as = \"first\" }\n")) ==
        std::vector<std::string>{"65:17 wall first D comes back to itself by `same_as`"});
  CHECK(said_of(with(lane, first_d, "D = { same_as = \"D\" }\n")) ==
        std::vector<std::string>{"65:17 wall first D comes back to itself by `same_as`"});
  // Through a third: first D is first B, that is ground B, that is first B.
  const Opened o = read_lane(with(with(lane, "B = \"B 1800 | 10400 | B 1800\"", "B = { same_as = \"first\" }"), first_d,
                                  "D = { same_as = \"B\" }\n"));
  CHECK(o.problems.size() == 3);
  CHECK_FALSE(o.house.has_value());
}

TEST_CASE("an opening too high for one floor is said of every wall that it comes to by the other floor's run") {
  const std::string job =
      with(with(lane, "B = \"B 1800 | 10400 | B 1800\"", "B = \"B 1800 | 5000 | TW | 4500 | B 1800\""),
           "W1 = ", "TW = \"2600 x 900\"\nW1 = ");
  const Opened o = read_lane(job);
  INFO(render(o.problems, false));
  CHECK_FALSE(o.house.has_value());
  REQUIRE(o.problems.size() == 1);
  CHECK(o.problems[0].line == 64);
  CHECK(o.problems[0].column == 17);
  CHECK(o.problems[0].message == "wall first B: `TW` is 2600 high, the first floor's frame 2550");
  // As high as the frame is no higher.
  CHECK(read_lane(with(job, "2600 x 900", "2550 x 900")).house.has_value());
  // On the ground floor alone it may stand.
  CHECK(read_lane(with(job, "B = { same_as = \"ground\" }", "B = { same_as = \"D\" }")).house.has_value());
}

TEST_CASE("an anchor set into what a floor has none of is said at the key that chose it, once") {
  const auto problems = [](const std::string& job) {
    const Opened o = read_lane(job);
    CHECK_FALSE(o.house.has_value());
    std::vector<std::string> all;
    for (const Problem& p : o.problems) {
      CHECK(p.code == "anchor-on-the-wrong-floor");
      all.push_back(fmt::format("{}:{} {}", p.line, p.column, p.message.substr(0, p.message.find(','))));
    }
    return all;
  };
  // Nothing of its own on the first floor: what holds for both is in concrete there. The first wall that takes it is
  // named.
  std::string job = with(lane, "[unless_noted.first]\nhold_down = \"demo-through\"\njamb = \"demo-screw\"\n",
                         "[unless_noted.first]\nhold_down = \"demo-through\"\n");
  job = with(job, "plate = 90\n", "plate = 90\njamb = \"demo-bolt\"\n");
  CHECK(problems(job) == std::vector<std::string>{"29:8 wall first A: `demo-bolt` is cast in"});
  // A mark's own, on both floors: right on one of them is not enough.
  CHECK(problems(
            with(lane, "B = { brace = \"demo-sheet\" }", "B = { brace = \"demo-sheet\", hold_down = \"demo-rod\" }")) ==
        std::vector<std::string>{"26:41 wall first A: `demo-rod` is bonded into concrete"});
  CHECK(problems(with(lane, "B = { brace = \"demo-sheet\" }",
                      "B = { brace = \"demo-sheet\", hold_down = \"demo-through\" }")) ==
        std::vector<std::string>{"26:41 wall ground A: `demo-through` goes through a floor into the wall below"});
  // What no wall of that floor takes is nobody's slip.
  CHECK(read_lane(with(lane, "plate = 90\n", "plate = 90\njamb = \"demo-bolt\"\n")).house.has_value());
  // Into timber it may stand on either floor.
  CHECK(read_lane(with(lane, "jamb = \"demo-bolt\"", "jamb = \"demo-screw\"")).house.has_value());
  // A house of one floor has no floor to go through.
  const Opened one = read(with(good_job, "jamb = \"demo-bolt\"", "jamb = \"demo-through\""), lane_fixings);
  REQUIRE(one.problems.size() == 1);
  CHECK(one.problems[0].line == 34);
  CHECK_THAT(one.problems[0].message, Contains("into the wall below, and this house has one floor"));
}

TEST_CASE("what goes through a floor is no anchor in concrete, and tires as thin metal does") {
  CHECK(words(How::through_floor) == "through floor");
  CHECK_FALSE(in_concrete(How::through_floor));
  CHECK(needs_cyclic_test(How::through_floor));
  for (const How how : {How::cast_in, How::drilled, How::screwed, How::bonded}) CHECK(in_concrete(how));
  for (const How how : {How::into_timber, How::into_steel}) CHECK_FALSE(in_concrete(how));
}

TEST_CASE("the links between two floors may be left to others") {
  const House h =
      lane_house(with(lane, "[site]", "[job.by_others]\n\"floor tie\" = \"an engineer, invented\"\n[site]"));
  REQUIRE(h.by_others.size() == 1);
  CHECK(h.by_others[0].what == "floor tie");
  const Opened one = read(with(good_job, "[site]", "[job.by_others]\n\"floor tie\" = \"nobody\"\n[site]"));
  REQUIRE(one.problems.size() == 1);
  CHECK(one.problems[0].line == 9);
  CHECK(one.problems[0].message == "`floor tie` is a link of a house of two floors");
}

TEST_CASE("the house of two floors is said back floor by floor") {
  const std::vector<Station> stations{{"ground A", "anchor", "demo-bolt", "unless noted", metre * 0.9, {}},
                                      {"first A", "anchor", "demo-screw", "unless noted", metre * 0.45, {}}};
  const auto page_of = [&](const House& h) { return said_back(h, stations, RoofSaid{}, Look{}); };
  const std::string page = page_of(lane_house());
  INFO(page);
  std::size_t from = 0;
  for (const char* line : {"\n  Ground floor's frame 2700 mm high, first floor's 2550 mm",
                           "\n  Framed floor between them 350 mm deep",
                           "first floor's plates\n    3050 mm, the roof's bearings 5600 mm\n",
                           "\n  17 trusses, each on wall first D (left) and wall first B (right)",
                           "\n  Top plate to stud: demo-tie (unless noted, line 30)\n",
                           "\n  From a first floor's fixing to the wall below: demo-tie (unless noted, line\n    31)\n",
                           "\n  First floor on to the walls below: demo-screw (unless noted, line 32), at most\n    "
                           "600 mm apart along each bracing line\n",
                           "\n\nGround floor\n\nWall A, the front\n",
                           "900 to 3600   door GD 2100 high x 2700 wide\n",
                           "demo-bolt (unless noted, ground floor, line 37), at most 1200 mm",
                           "\n  1 fixing to the slab, set out by rule:\n",
                           "\nWall B, the right\n",
                           "\n  No fixing to the slab stands on this wall.\n",
                           "\nWall F, inside\n",
                           "\n\nFirst floor\n\nWall A, the front\n",
                           "brace first A1\n",
                           "demo-screw (unless noted, first floor, line 42), at most 450 mm",
                           "\n  1 fixing to the floor, set out by rule:\n",
                           "\n  No fixing to the floor stands on this wall.\n",
                           "\nWall F, inside\n",
                           "5400 mm long, runs across the sheet, 9800 mm from the front",
                           "both floors have one outline"}) {
    const std::size_t at = page.find(line, from);
    INFO(line);
    REQUIRE(at != std::string::npos);
    from = at;
  }
  // Ties that differ are told floor by floor, from the top down; links without a fixing say what they need.
  const std::string differ =
      page_of(lane_house(with(with(lane, "[unless_noted.first]\n", "[unless_noted.first]\nstud_tie = \"demo-tie\"\n"),
                              "floor_tie = \"demo-tie\"\n", "")));
  CHECK_THAT(differ,
             Contains("  Stud to bottom plate, first floor: demo-tie (unless noted, first floor, line\n    39)\n"
                      "  Stud to bottom plate, ground floor: none given; not judged until"));
  CHECK_THAT(
      differ,
      Contains(
          "  From a first floor's fixing to the wall below: none given; not judged until\n    `floor_tie` is given"));
  // One floor: none of these words.
  const std::string one = said_back(good(good_job), {}, RoofSaid{}, Look{});
  for (const char* word : {"Ground floor", "First floor", "first floor", "to the floor"})
    CHECK(one.find(word) == std::string::npos);
  CHECK_THAT(one, Contains("Frame 2700 mm high") && Contains("\nWall A, the front\n"));
}

TEST_CASE("a job of two floors cut short anywhere is refused or whole, and never a crash") {
  const std::size_t whole_from =
      lane.find("\nE = { from_front = 5200");  // the four walls of both floors stand before it
  std::size_t refused = 0;
  constexpr std::size_t cuts = 60;
  for (std::size_t i = 0; i < cuts; ++i) {
    const std::size_t at = lane.size() * i / cuts;
    const Opened o = read_lane(lane.substr(0, at));
    INFO("cut at " << at);
    CHECK(o.house.has_value() == o.problems.empty());
    if (at < whole_from) CHECK_FALSE(o.house.has_value());
    refused += o.house ? 0 : 1;
    // A piece torn out of the middle.
    const std::size_t to = std::min(lane.size(), at + 97);
    const Opened torn = read_lane(std::string(lane.substr(0, at)) + std::string(lane.substr(to)));
    CHECK(torn.house.has_value() == torn.problems.empty());
  }
  CHECK(refused > 50);
}
