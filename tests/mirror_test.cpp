// A house that is built mirrored, and a wall whose run is another's turned round: each against the same written out by
// hand from the mirrored sheet. Invented, all of it.
#include "any_roof.hpp"
#include "houses.hpp"
#include "job/mirrored.hpp"
#include "job_text.hpp"
#include "pages.hpp"
#include "report/json.hpp"
#include "report/said_back.hpp"
#include "report/screen.hpp"
#include "report/side_by_side.hpp"
#include "report/site_page.hpp"
#include "report/working_page.hpp"
#include <algorithm>
#include <map>
#include <random>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;

namespace {

constexpr Look no_colour{false};

// What every job here has in common. The line `#` is where the mirror goes: lines keep their numbers.
constexpr std::string_view head = R"([job]
title = "Mirror house, invented"
drawing = "mm"
importance = 2
drawn = "sheet 1"
fixings = "demo-test.toml"
#

)";
constexpr std::string_view fixed = R"(
[slab]
concrete = "25 MPa"
weight = "24 kN/m3"
edge = { width = 300, depth = 450, lifted = 2400, given_by = "a test" }
inside = { width = 300, depth = 300, given_by = "a test" }

[unless_noted]
B = { brace = "demo-sheet", hold_down = "demo-rod" }
jamb = "demo-bolt"
anchor = { use = "demo-bolt", max = 1200 }
truss = "demo-cleat"
plate = 90
hold_down_in = 100
top_tie = "demo-tie"
stud_tie = "demo-tie"
plate_fixing = "demo-plate"
)";

const std::string gable_job = std::string(head) + R"([site]
method = "AS/NZS 1170.2:2011"
region = "A2"
probability = "1:500"
north = "20 deg left of up"
terrain = 3
topography = "flat"
given_by = "nobody: a test"
[[site.upwind]]
from = ["W", "NW"]
terrain = 2

[block.main]
floor_level = 300
size = [12000, 7800]
walls = { front = "A", right = "B", back = "C", left = "D" }
height = 2700
roof = { shape = "gable", ridge = "across", pitch = "22.5 deg", eaves = 450, verge = 300, weight = "0.40 kPa", front = { pitch = "18 deg" }, left = { overhang = 600 } }
trusses = { mark = "T1", max = 900, odd_space = "right" }
roof_braces = [
  { use = "demo-single", slope = "front", foot = 300, head = 4500 },
  { use = "demo-single", slope = "back", foot = 0, head = 3900, up_to = 3000 },
  { use = "demo-single", slope = "front", foot = 12000, head = 8100 },
]
)" + std::string(fixed) + R"(
[mark]
X1 = { brace = "demo-single", hold_down = "demo-rod", foot = "left" }
X2 = { brace = "demo-single", hold_down = "demo-rod", foot = "right" }
D1 = { size = "2100 x 3000", wind_rated = "50 m/s" }
D3 = "2100 x 820"
W1 = "1200 x 1800"

[wall]
A = { run = "X1 2700 | D1 | 3300 | W1 | B 1200", frames = "F1 7000 | F2 5000" }
B = "B 1200 | 900 | W1 | 1200 | X1 2700"
C = "B 1800 | W1 | 5700 | X2 2700"
D = "B 1200 | 5100 | B 1500"
E = { from_left = 4500, run = "B 1800 | 1690 | D3 | 1790 | B 1700" }
F = { from_front = 3000, between = [4500, 9000], run = "1200 | D3 | B 2480" }
)";
const std::string hip_job = std::string(head) + R"([site]
class = "N3"
given_by = "nobody: a test"

[block.main]
floor_level = 300
size = [14400, 8400]
walls = { front = "A", right = "B", back = "C", left = "D" }
height = 2700
roof = { shape = "hip", ridge = "across", hipped = "left", pitch = "25 deg", eaves = 600, verge = 300, weight = "0.40 kPa", back = { overhang = 900 } }
trusses = [{ mark = "T1", max = 900, odd_space = "right" }, { mark = "TG1", hip_girder = 2500 }, { mark = "J1", jacks = 900 }, { mark = "H1", hip_rafters = true }]
roof_braces = [
  { use = "demo-single", slope = "front", foot = 300, head = 4500 },
  { use = "demo-pair", slope = "back", foot = 6000, head = 9000, up_to = 3500 },
]
)" + std::string(fixed) +
                            R"(onto = "demo-cleat"

[mark]
D3 = "2100 x 820"
W1 = "1200 x 1800"

[wall]
A = "B 1200 | W1 | 10200 | B 1200"
B = "B 1800 | 4800 | B 1800"
C = "B 1800 | 10800 | B 1800"
D = { same_as = "B" }
E = { from_left = 6000, run = "B 1800 | 1980 | D3 | 3800" }
)";
// Hips of their own pitch at both ends, one with a gable on it.
const std::string& two_hips_job() {
  static const std::string job = with(
      with(with(hip_job, "hipped = \"left\", pitch = \"25 deg\"",
                "pitch = \"25 deg\", left = { gable_above = 2700 }, right = { pitch = \"30 deg\" }"),
           "verge = 300, ", ""),
      "{ mark = \"TG1\", hip_girder = 2500 }",
      "{ mark = \"TG1\", hip_girder = 2700, end = \"left\" }, { mark = \"TG2\", hip_girder = 3000, end = \"right\" }");
  return job;
}
const std::string skillion_job = std::string(head) + R"([site]
class = "N2"
given_by = "nobody: a test"

[block.main]
floor_level = 300
size = [10800, 6600]
walls = { front = "A", right = "B", back = "C", left = "D" }
height = 2400
roof = { shape = "skillion", high = "back", pitch = "8 deg", eaves = 600, verge = 450, weight = "0.35 kPa" }
trusses = { mark = "HT1", at = [0, 900, 1800, 2700, 3600, 4500, 5400, 6300, 7200, 8100, 9000, 9900, 10500], also_on = ["E"] }
)" + std::string(fixed) + R"(
[mark]
D2 = "2100 x 820"
W1 = "1200 x 1800"

[wall]
A = "B 1200 | D2 | 3380 | W1 | 2400 | B 1200"
B = "B 1200 | 900 | W1 | 1500 | B 1200"
C = "B 1200 | 8400 | B 1200"
D = { same_as = "B" }
E = { from_front = 3600, run = "B 1800 | 2700 | D2 | 3680 | B 1800" }
)";
const std::string two_floor_job = std::string(head) + R"([site]
class = "N2"
given_by = "nobody: a test"

[block.main]
floor_level = 300
size = [5400, 9300]
walls = { front = "A", right = "B", back = "C", left = "D" }
height = { ground = 2700, first = 2550 }
floor = { first = { depth = 350 } }
roof = { shape = "gable", ridge = "up", pitch = "25 deg", eaves = 450, verge = 0, weight = "0.40 kPa" }
trusses = { mark = "T1", max = 900, odd_space = "back" }

[slab]
concrete = "25 MPa"

[unless_noted]
B = { brace = "demo-sheet" }
truss = "demo-cleat"
plate = 90
hold_down_in = 100
top_tie = "demo-tie"
stud_tie = "demo-tie"
plate_fixing = "demo-plate"
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
GD = { size = "2100 x 2700", wind_rated = "N2" }
D3 = "2100 x 820"
W1 = "1200 x 1800"

[wall.ground]
A = { run = "B 900 | GD | 300 | B 1500", frames = "900 | 2700 | G3 1800" }
B = "B 1800 | 5700 | B 1800"
C = { mirror_of = "A" }
D = "B 1800 | W1 | 3900 | B 1800"
E = { from_front = 4000, run = "B 1800 | 900 | D3 | 1880" }

[wall.first]
A = "B 1200 | 300 | W1 | 900 | B 1200"
B = { same_as = "ground" }
C = { same_as = "A" }
D = { mirror_of = "ground" }
E = { same_as = "ground" }
)";
// A garage that carries the right wall on, set down below it, and a den at the back whose two slopes differ.
const std::string wings_job = std::string(head) + R"([site]
class = "N2"
given_by = "nobody: a test"

[block.main]
floor_level = 300
size = [15000, 8400]
walls = { front = "A", right = "D", back = ["E", "K"], left = "F" }
height = 2700
roof = { shape = "hip", ridge = "across", pitch = "25 deg", eaves = 600, weight = "0.40 kPa", back = { overhang = 450 } }
trusses = [{ mark = "T1", max = 900, odd_space = "right" }, { mark = "TG1", hip_girder = 2400 }, { mark = "J1", jacks = 900 }, { mark = "H1", hip_rafters = true }]

[block.den]
size = [5000, 4000]
place = { against = "main back", from_left = 1500 }
walls = { right = "M", back = "N", left = "P" }
height = 2700
roof = { shape = "gable", ridge = "up", pitch = "25 deg", eaves = 450, verge = 300, weight = "0.40 kPa", left = { pitch = "20 deg" } }
trusses = [{ mark = "T3", max = 900, odd_space = "back" }, { mark = "V3", valley = 900 }]

[block.garage]
size = [6600, 6000]
place = { against = "main front", flush = "right" }
walls = { front = "C", right = "D", left = "B" }
height = 2700
slab = -86
roof = { shape = "hip", ridge = "up", pitch = "25 deg", eaves = 600, weight = "0.40 kPa", right = { overhang = 750 } }
trusses = [{ mark = "T2", max = 900, odd_space = "front" }, { mark = "TG2", hip_girder = 2100 }, { mark = "J2", jacks = 900 }, { mark = "H2", hip_rafters = true }, { mark = "V2", valley = 900 }]
)" + std::string(fixed) +
                              R"(onto = "demo-cleat"

[mark]
GD = { size = "2100 x 4200", wind_rated = "N2" }
D3 = "2100 x 820"
W1 = "1200 x 1800"

[wall]
A = "B 1200 | W1 | 4200 | B 1200"
B = "B 1200 | 3000 | B 1800"
C = "B 900 | GD | 300 | B 1200"
D = { run = "B 1200 | 300 | W1 | 900 | B 1800 | 900 | W1 | 4200 | B 1500", frames = "F1 6000 | 8400" }
E = "B 1500"
F = "B 1800 | W1 | 3300 | B 1500"
G = { in = "main", from_front = 0, between = [8400, 15000], run = "B 1800 | 1000 | D3 | 2980" }
H = { in = "main", from_left = 8600, run = "B 1800 | 1000 | D3 | 4780" }
I = { in = "main", from_front = 4000, between = [9000, 14910], run = "B 1800 | D3 | 3290" }
K = "B 1200 | W1 | 4000 | B 1500"
M = "B 1200 | 1300 | B 1500"
N = "B 1200 | 600 | W1 | B 1400"
P = { mirror_of = "M" }
Q = { in = "main", from_front = 8400, between = [1500, 6500], run = "B 1800 | D3 | 2380" }
R = { in = "den", from_left = 2000, run = "B 1800 | D3 | 1380" }
)";

// A house as drawn, and what changes in the job of it when that is typed from the mirrored sheet.
using Changes = std::vector<std::pair<std::string_view, std::string_view>>;
struct Twin {
  std::string_view what, mirror;
  const std::string& drawn;
  Changes by_hand;
};
const std::vector<Twin>& twins() {
  static const std::vector<Twin> all{
      {"gable",
       "left-right",
       gable_job,
       {{"20 deg left of up", "20 deg right of up"},
        {"right = \"B\", back = \"C\", left = \"D\"", "right = \"D\", back = \"C\", left = \"B\""},
        {"left = { overhang", "right = { overhang"},
        {"odd_space = \"right\"", "odd_space = \"left\""},
        {"foot = 300, head = 4500", "foot = 11700, head = 7500"},
        {"foot = 0, head = 3900", "foot = 12000, head = 8100"},
        {"\"front\", foot = 12000, head = 8100", "\"front\", foot = 0, head = 3900"},
        {"X1 2700 | D1 | 3300 | W1 | B 1200", "B 1200 | W1 | 3300 | D1 | X2 2700"},
        {"F1 7000 | F2 5000", "F2 5000 | F1 7000"},
        {"C = \"B 1800 | W1 | 5700 | X2 2700", "C = \"X1 2700 | 5700 | W1 | B 1800"},
        {"from_left = 4500", "from_left = 7500"},                 // 12000 - 4500
        {"between = [4500, 9000], run = \"1200 | D3 | B 2480\"",  // 12000 - 9000, 12000 - 4500
         "between = [3000, 7500], run = \"B 2480 | D3 | 1200\""}}},
      {"gable",
       "front-back",
       gable_job,
       {{"20 deg left of up", "160 deg left of up"},  // 20 left of down
        {"front = \"A\", right = \"B\", back = \"C\"", "front = \"C\", right = \"B\", back = \"A\""},
        {"front = { pitch", "back = { pitch"},
        {"\"front\", foot = 300", "\"back\", foot = 300"},
        {"\"back\", foot = 0", "\"front\", foot = 0"},
        {"\"front\", foot = 12000", "\"back\", foot = 12000"},
        {"B = \"B 1200 | 900 | W1 | 1200 | X1 2700", "B = \"X2 2700 | 1200 | W1 | 900 | B 1200"},
        {"D = \"B 1200 | 5100 | B 1500", "D = \"B 1500 | 5100 | B 1200"},
        {"B 1800 | 1690 | D3 | 1790 | B 1700", "B 1700 | 1790 | D3 | 1690 | B 1800"},
        {"from_front = 3000", "from_front = 4800"}}},  // 7800 - 3000
      {"hip",
       "left-right",
       hip_job,
       {{"right = \"B\", back = \"C\", left = \"D\"", "right = \"D\", back = \"C\", left = \"B\""},
        {"hipped = \"left\"", "hipped = \"right\""},
        {"foot = 300, head = 4500", "foot = 14100, head = 9900"},
        {"foot = 6000, head = 9000", "foot = 8400, head = 5400"},
        {"odd_space = \"right\"", "odd_space = \"left\""},
        {"B 1200 | W1 | 10200 | B 1200", "B 1200 | 10200 | W1 | B 1200"},
        {"from_left = 6000", "from_left = 8400"}}},
      {"hip",
       "front-back",
       hip_job,
       {{"front = \"A\", right = \"B\", back = \"C\"", "front = \"C\", right = \"B\", back = \"A\""},
        {"back = { overhang", "front = { overhang"},
        {"\"front\", foot = 300", "\"back\", foot = 300"},
        {"\"back\", foot = 6000", "\"front\", foot = 6000"},
        {"B 1800 | 1980 | D3 | 3800", "3800 | D3 | 1980 | B 1800"}}},
      {"two hips",
       "left-right",
       two_hips_job(),
       {{"right = \"B\", back = \"C\", left = \"D\"", "right = \"D\", back = \"C\", left = \"B\""},
        {"left = { gable_above = 2700 }, right = { pitch", "right = { gable_above = 2700 }, left = { pitch"},
        {"hip_girder = 2700, end = \"left\"", "hip_girder = 2700, end = \"right\""},
        {"foot = 300, head = 4500", "foot = 14100, head = 9900"},
        {"foot = 6000, head = 9000", "foot = 8400, head = 5400"},
        {"hip_girder = 3000, end = \"right\"", "hip_girder = 3000, end = \"left\""},
        {"odd_space = \"right\"", "odd_space = \"left\""},
        {"B 1200 | W1 | 10200 | B 1200", "B 1200 | 10200 | W1 | B 1200"},
        {"from_left = 6000", "from_left = 8400"}}},
      {"skillion",
       "left-right",
       skillion_job,
       {{"right = \"B\", back = \"C\", left = \"D\"", "right = \"D\", back = \"C\", left = \"B\""},
        {"0, 900, 1800, 2700, 3600, 4500, 5400, 6300, 7200, 8100, 9000, 9900, 10500",
         "300, 900, 1800, 2700, 3600, 4500, 5400, 6300, 7200, 8100, 9000, 9900, 10800"},
        {"B 1200 | D2 | 3380 | W1 | 2400 | B 1200", "B 1200 | 2400 | W1 | 3380 | D2 | B 1200"},
        {"B 1800 | 2700 | D2 | 3680 | B 1800", "B 1800 | 3680 | D2 | 2700 | B 1800"}}},
      {"skillion",
       "front-back",
       skillion_job,
       {{"front = \"A\", right = \"B\", back = \"C\"", "front = \"C\", right = \"B\", back = \"A\""},
        {"high = \"back\"", "high = \"front\""},
        {"B 1200 | 900 | W1 | 1500 | B 1200", "B 1200 | 1500 | W1 | 900 | B 1200"},
        {"from_front = 3600", "from_front = 3000"}}},  // 6600 - 3600
      {"two floors",
       "left-right",
       two_floor_job,
       {{"right = \"B\", back = \"C\", left = \"D\"", "right = \"D\", back = \"C\", left = \"B\""},
        {"B 900 | GD | 300 | B 1500", "B 1500 | 300 | GD | B 900"},
        {"900 | 2700 | G3 1800", "G3 1800 | 2700 | 900"},
        {"B 1200 | 300 | W1 | 900 | B 1200", "B 1200 | 900 | W1 | 300 | B 1200"},
        {"B 1800 | 900 | D3 | 1880", "1880 | D3 | 900 | B 1800"}}},
      {"two floors",
       "front-back",
       two_floor_job,
       {{"front = \"A\", right = \"B\", back = \"C\"", "front = \"C\", right = \"B\", back = \"A\""},
        {"odd_space = \"back\"", "odd_space = \"front\""},
        {"B 1800 | W1 | 3900 | B 1800", "B 1800 | 3900 | W1 | B 1800"},
        {"from_front = 4000", "from_front = 5300"}}},  // 9300 - 4000
      {"wings",
       "left-right",
       wings_job,
       {{"right = \"D\", back = [\"E\", \"K\"], left = \"F\"", "right = \"F\", back = [\"K\", \"E\"], left = \"D\""},
        {"odd_space = \"right\"", "odd_space = \"left\""},
        {"from_left = 1500", "from_left = 8500"},  // 15000 - 1500 - 5000
        {"right = \"M\", back = \"N\", left = \"P\"", "right = \"P\", back = \"N\", left = \"M\""},
        {"left = { pitch", "right = { pitch"},
        {"flush = \"right\"", "flush = \"left\""},
        {"right = \"D\", left = \"B\"", "right = \"B\", left = \"D\""},
        {"right = { overhang", "left = { overhang"},
        {"B 1200 | W1 | 4200 | B 1200", "B 1200 | 4200 | W1 | B 1200"},
        {"B 900 | GD | 300 | B 1200", "B 1200 | 300 | GD | B 900"},
        {"between = [8400, 15000], run = \"B 1800 | 1000 | D3 | 2980\"",
         "between = [0, 6600], run = \"2980 | D3 | 1000 | B 1800\""},
        {"from_left = 8600", "from_left = 6400"},                  // 15000 - 8600
        {"between = [9000, 14910], run = \"B 1800 | D3 | 3290\"",  // 15000 - 14910, 15000 - 9000
         "between = [90, 6000], run = \"3290 | D3 | B 1800\""},
        {"B 1200 | W1 | 4000 | B 1500", "B 1500 | 4000 | W1 | B 1200"},
        {"B 1200 | 600 | W1 | B 1400", "B 1400 | W1 | 600 | B 1200"},
        {"between = [1500, 6500], run = \"B 1800 | D3 | 2380\"",
         "between = [8500, 13500], run = \"2380 | D3 | B 1800\""},
        {"from_left = 2000", "from_left = 3000"}}},  // the den: 5000 - 2000
      {"wings",
       "front-back",
       wings_job,
       {{"front = \"A\", right = \"D\", back = [\"E\", \"K\"]", "back = \"A\", right = \"D\", front = [\"E\", \"K\"]"},
        {"back = { overhang", "front = { overhang"},
        {"\"main back\"", "\"main front\""},
        {"back = \"N\"", "front = \"N\""},
        {"odd_space = \"back\"", "odd_space = \"front\""},
        {"\"main front\", flush", "\"main back\", flush"},
        {"front = \"C\"", "back = \"C\""},
        {"mark = \"T2\", max = 900, odd_space = \"front\"", "mark = \"T2\", max = 900, odd_space = \"back\""},
        {"B 1200 | 3000 | B 1800", "B 1800 | 3000 | B 1200"},
        {"B 1200 | 300 | W1 | 900 | B 1800 | 900 | W1 | 4200 | B 1500",
         "B 1500 | 4200 | W1 | 900 | B 1800 | 900 | W1 | 300 | B 1200"},
        {"F1 6000 | 8400", "8400 | F1 6000"},
        {"B 1800 | W1 | 3300 | B 1500", "B 1500 | 3300 | W1 | B 1800"},
        {"from_front = 0", "from_front = 8400"},
        {"B 1800 | 1000 | D3 | 4780", "4780 | D3 | 1000 | B 1800"},
        {"from_front = 4000", "from_front = 4400"},  // 8400 - 4000
        {"M = \"B 1200 | 1300 | B 1500", "M = \"B 1500 | 1300 | B 1200"},
        {"from_front = 8400, between = [1500", "from_front = 0, between = [1500"},
        {"B 1800 | D3 | 1380", "1380 | D3 | B 1800"}}}};
  return all;
}
std::string by_hand(const Twin& t) {
  std::string job = t.drawn;
  for (const auto& [from, to] : t.by_hand) job = with(job, from, to);
  return job;
}
std::string built_mirrored(const std::string& job, std::string_view mirror) {
  return with(job, "\n#\n", fmt::format("\nmirror = \"{}\"\n", mirror));
}
House house_of(const std::string& job) { return good(job, plenty()); }

// All of a house in one text but its remarks, which are told one by one.
std::string all_of(House h) {
  h.remarks.clear();
  for (Wall& w : h.walls)
    for (Piece& p : w.pieces)
      if (p.brace && p.brace->foot) {  // a strap whose foot is at its other end has another mark
        p.brace->fixing.by = p.brace->hold_down.by = "a mark";
        p.brace->fixing.at = p.brace->hold_down.at = "";
      }
  std::string out = told(h);
  for (const Wall& w : h.walls) {
    out += fmt::format("wall {} key {} floor {} side {}\n", w.name, w.key, words(w.floor), words(w.side));
    for (const ShopFrame& f : w.frames)
      out += fmt::format("  frame {} {} to {}\n", f.mark, text(f.from, metric), text(f.to, metric));
  }
  for (const RoofBrace& b : h.roof_braces)
    out += fmt::format("roof brace {} {} {} to {} up to {}\n", b.name, words(b.slope), text(b.foot, metric),
                       text(b.head, metric), b.up_to ? text(*b.up_to, metric) : "the ridge");
  for (const Wall& w : h.walls) {
    out += fmt::format("wall {} in", w.name);
    for (const std::size_t b : w.blocks) out += fmt::format(" {}", b);
    for (const Length& step : w.steps) out += fmt::format(", step at {}", text(step, metric));
    out += '\n';
  }
  for (std::size_t i = 0; i < h.wings.size(); ++i) {
    const Wing& w = h.wings[i];
    out += fmt::format("wing {} from {} and {}, level {}, joint {}, valley {} {}\n", w.name, text(w.left, metric),
                       text(w.front, metric), text(w.level, metric), words(w.joint), w.valley ? w.valley->mark : "-",
                       w.valley ? text(w.valley->max, metric) : "");
    House seen = seen_from(h, i + 1);
    seen.remarks.clear();
    out += told(seen);
  }
  if (h.first) out += fmt::format("first {} {}\n", text(h.first->height, metric), text(h.first->depth, metric));
  for (const NamedSite& s : h.sites)
    if (const auto* a = std::get_if<AsNzsSite>(&s.site); a != nullptr && a->north)
      out += fmt::format("north {}, terrain from the W {}\n", text(*a->north, metric), a->from[6].terrain);
  return out;
}
std::vector<std::string> sorted(std::vector<std::string> v) {
  std::ranges::sort(v);
  return v;
}

}  // namespace

TEST_CASE("a house built mirrored is the house typed from the mirrored sheet") {
  for (const Twin& t : twins()) {
    INFO(t.what << ' ' << t.mirror);
    House built = house_of(built_mirrored(t.drawn, t.mirror));
    const House typed = house_of(by_hand(t));
    CHECK(all_of(built) == all_of(typed));
    CHECK(all_of(built) != all_of(house_of(t.drawn)));
    REQUIRE(built.mirror.has_value());
    CHECK(*built.mirror == (t.mirror == "left-right" ? Mirror::left_right : Mirror::front_back));
    CHECK_FALSE(typed.mirror.has_value());
    // The same remarks, and those on the mirror.
    const std::size_t on_mirror =
        std::erase_if(built.remarks, [](const std::string& r) { return r.find("mirrored") != std::string::npos; });
    CHECK(on_mirror == (t.what == "gable" ? 2 : 1));  // the north arrow as well
    CHECK(sorted(built.remarks) == sorted(typed.remarks));
  }
}

TEST_CASE("a house built mirrored is judged as the house typed from the mirrored sheet, link by link") {
  for (const Twin& t : twins()) {
    INFO(t.what << ' ' << t.mirror);
    const Built built(house_of(built_mirrored(t.drawn, t.mirror))), typed(house_of(by_hand(t)));
    const std::vector<Link>&a = built.result.links, &b = typed.result.links;
    REQUIRE(a.size() == b.size());
    CHECK(a.size() > 60);
    for (std::size_t i = 0; i < a.size(); ++i) {
      INFO(b[i].id);
      REQUIRE(a[i].id == b[i].id);
      CHECK(a[i].where.words == b[i].where.words);
      CHECK(a[i].where.face == b[i].where.face);
      CHECK(a[i].where.from_start.has_value() == b[i].where.from_start.has_value());
      if (a[i].where.from_start && b[i].where.from_start)
        CHECK_THAT(a[i].where.from_start->value(), WithinAbs(b[i].where.from_start->value(), 1e-9));
      CHECK(a[i].fixing.name == b[i].fixing.name);
      CHECK(a[i].verdict == b[i].verdict);
      CHECK(a[i].why.code == b[i].why.code);
      REQUIRE(a[i].use.has_value() == b[i].use.has_value());
      if (a[i].use) CHECK_THAT(a[i].use->value, WithinAbs(b[i].use->value, 1e-6));
    }
    CHECK(built.result.answer == typed.result.answer);
  }
}

TEST_CASE("mirrored twice, a house is itself") {
  for (const std::string* job : {&gable_job, &hip_job, &two_hips_job(), &skillion_job, &two_floor_job, &wings_job}) {
    const House h = house_of(*job);
    const std::string own = all_of(h);
    for (const Mirror m : {Mirror::left_right, Mirror::front_back}) {
      CHECK(all_of(mirrored(h, m)) != own);
      CHECK(all_of(mirrored(mirrored(h, m), m)) == own);
    }
    // Either order is half a turn.
    CHECK(all_of(mirrored(mirrored(h, Mirror::left_right), Mirror::front_back)) ==
          all_of(mirrored(mirrored(h, Mirror::front_back), Mirror::left_right)));
  }
}

TEST_CASE("the roof of a mirrored house is the roof in the mirror, whatever roof it is") {
  std::mt19937 rng(7);  // always the same roofs
  std::uniform_real_distribution<double> part(0.0, 1.0);
  for (int n = 0; n < 200; ++n) {
    const House h = any_roof(rng, false);
    for (const Mirror m : {Mirror::left_right, Mirror::front_back}) {
      const House in_mirror = mirrored(h, m);
      for (int i = 0; i < 20; ++i) {
        const Point p{h.across * part(rng), h.up * part(rng)};
        const Point there = m == Mirror::left_right ? Point{h.across - p.x, p.y} : Point{p.x, h.up - p.y};
        const Lowest a = lowest_slope(h, p), b = lowest_slope(in_mirror, there);
        CHECK_THAT(b.up.value(), WithinAbs(a.up.value(), 1e-9));
        CHECK(b.falls == mirrored(a.falls, m));
      }
      REQUIRE(in_mirror.trusses.size() == h.trusses.size());
      CHECK(std::ranges::is_sorted(in_mirror.trusses, {}, &Truss::at));
    }
  }
}

TEST_CASE("braces and places of a mirrored house count from the left of what is built") {
  const House h = house_of(built_mirrored(gable_job, "left-right"));
  const auto wall = [&](std::string_view name) { return *std::ranges::find(h.walls, name, &Wall::name); };
  // A, as drawn: a strap to 2700, D1 to 5700, plain to 9000, W1 to 10800, B to 12000.
  const Wall a = wall("A");
  REQUIRE(a.pieces.size() == 5);
  const int ends[]{1200, 3000, 6300, 9300, 12000};  // B, W1, plain, D1, the strap
  for (std::size_t i = 0; i < 5; ++i) CHECK(place(a.pieces[i].to, metric) == std::to_string(ends[i]));
  REQUIRE((a.pieces[0].brace && a.pieces[4].brace));
  CHECK(a.pieces[0].brace->name == "A1");
  CHECK(a.pieces[0].brace->fixing.name == "demo-sheet");
  CHECK(a.pieces[4].brace->name == "A2");
  CHECK(a.pieces[4].brace->fixing.name == "demo-single");
  CHECK(a.pieces[4].brace->foot == Side::right);  // drawn at its left end
  CHECK(a.pieces[1].opening->mark == "W1");
  CHECK((a.side == Side::front && wall("B").side == Side::left && wall("D").side == Side::right));
  // B runs up the sheet: a mirror left to right leaves its run, and its strap's foot at the front.
  CHECK(wall("B").pieces[4].brace->foot == Side::left);
  CHECK(place(wall("B").line, metric) == "0");
  // Trusses at 900 from the left, the odd 300 at the right: in the mirror at 0, 300, 1200...
  REQUIRE(h.trusses.size() == 15);
  CHECK(place(h.trusses[0].at, metric) == "0");
  CHECK(place(h.trusses[1].at, metric) == "300");
  CHECK(place(h.trusses[2].at, metric) == "1200");
  CHECK(place(h.trusses.back().at, metric) == "12000");
}

TEST_CASE("a wall over a step, and the blocks beside it, stand mirrored in figures worked out by hand") {
  const auto at = [](Length l) { return place(l, metric); };
  const House drawn = house_of(wings_job), lr = house_of(built_mirrored(wings_job, "left-right")),
              fb = house_of(built_mirrored(wings_job, "front-back"));
  const auto wall = [](const House& h, std::string_view name) {
    return *std::ranges::find(h.walls, name, &Wall::name);
  };
  // The garage is 6600 by 6000, from 8400 to 15000 before the front: the den 5000 by 4000 behind the back, from 1500.
  REQUIRE((drawn.wings.size() == 2 && lr.wings.size() == 2 && fb.wings.size() == 2));
  CHECK((at(drawn.wings[1].left) == "8400" && at(drawn.wings[1].front) == "-6000"));
  CHECK((at(lr.wings[1].left) == "0" && at(lr.wings[1].front) == "-6000" && lr.wings[1].joint == Side::back));
  CHECK((at(fb.wings[1].left) == "8400" && at(fb.wings[1].front) == "8400" && fb.wings[1].joint == Side::front));
  CHECK((at(lr.wings[0].left) == "8500" && at(lr.wings[0].front) == "8400" && lr.wings[0].joint == Side::front));
  CHECK((at(fb.wings[0].left) == "1500" && at(fb.wings[0].front) == "-4000" && fb.wings[0].joint == Side::back));
  // D is 14400 long from the garage's front, its step 6000 from there; from the other end 8400.
  const Wall d = wall(drawn, "D"), left = wall(lr, "D"), turned = wall(fb, "D");
  REQUIRE((d.steps.size() == 1 && left.steps.size() == 1 && turned.steps.size() == 1));
  CHECK((at(d.steps[0]) == "6000" && at(d.from) == "-6000" && at(d.to) == "8400" && at(d.line) == "15000"));
  CHECK((at(left.steps[0]) == "6000" && at(left.from) == "-6000" && at(left.to) == "8400" && at(left.line) == "0"));
  CHECK((at(turned.steps[0]) == "8400" && at(turned.from) == "0" && at(turned.to) == "14400"));
  CHECK((left.side == Side::left && turned.side == Side::right));
  // The wings' girders stand on the garage's own axes: 2100 from its far end, which is its back when turned.
  CHECK((at(drawn.wings[1].trusses.front().at) == "2100" && at(fb.wings[1].trusses.back().at) == "3900"));
  CHECK((fb.wings[1].hip_ends.size() == 1 && fb.wings[1].hip_ends[0].side == Side::back));
}

TEST_CASE("remarks of a mirrored house tell of its sides as built") {
  const std::string job =
      with(gable_job, "max = 900, odd_space = \"right\"", "at = [300, 900, 2700, 5400, 8100, 10500, 12000]");
  const auto remarked = [](const House& h, std::string_view words) {
    return std::ranges::any_of(h.remarks, [&](const std::string& r) { return r.find(words) != std::string::npos; });
  };
  CHECK(remarked(house_of(job), "no truss stands on the left wall: the first is 300 from it"));
  const House built = house_of(built_mirrored(job, "left-right"));
  CHECK(remarked(built, "no truss stands on the right wall: the last is 300 from it"));
  CHECK_FALSE(remarked(built, "left wall"));
  CHECK(remarked(house_of(built_mirrored(job, "front-back")), "left wall: the first is 300"));
}

TEST_CASE("every page of a mirrored house says so, and none of another") {
  const std::string two_sites = with(gable_job, "[site]\nmethod",
                                     "[site]\njudge_by = \"as-4055\"\n[site.as-4055]\nclass = \"N2\"\ngiven_by = \"a "
                                     "test\"\n[site.as-nzs-1170-2-2011]\nmethod");
  const std::string job = with(two_sites, "[[site.upwind]]", "[[site.as-nzs-1170-2-2011.upwind]]");
  for (const auto& [mirror, said] : {std::pair{"left-right", "Built mirrored left to right: places are as built."},
                                     {"front-back", "Built mirrored front to back: places are as built."}}) {
    for (const bool is : {true, false}) {
      const House h = house_of(is ? built_mirrored(job, mirror) : job);
      const Built b(h);
      std::vector<const Table*> tables;
      for (const NamedSite& s : h.sites) tables.push_back(&table(table_for(s.site)));
      const auto under = under_each(h, tables, b.practice);
      const SiteWorkedOut site = site_of(h, b.method, metric);
      const std::map<std::string, std::string> pages{
          {"first screen", first_screen(b.result, no_colour)},
          {"every link", every_link(b.result, no_colour)},
          {"explain", working_page(b.result, 0, explain(h, b.method, b.practice, b.result, 0, metric), no_colour)},
          {"show", said_back(h, set_out(h, b.practice), roof_of(h), no_colour)},
          {"site", site_page(site, false, no_colour)},
          {"side by side", side_by_side(under, false, no_colour)}};
      for (const auto& [what, page] : pages) {
        INFO(what << '\n' << page);
        fits(page);
        CHECK((unwrapped(page).find(said) != std::string::npos) == is);
        CHECK((page.find("irrored") != std::string::npos) == is);
      }
      CHECK(lines_of(pages.at("first screen")).size() <= screen_lines);
      const std::string key = fmt::format("\"mirror\":\"{}\"", is ? mirror : "");
      CHECK_THAT(json(b.result, false), Contains(key));
      CHECK_THAT(json(std::vector{site}, false), Contains(key));
      CHECK_THAT(json(under, false), Contains(key));
    }
  }
}

// ---- a wall whose run is another's turned round

namespace {

std::string laid_out(const House& h, std::string_view name) {
  const auto w = std::ranges::find(h.walls, name, &Wall::name);
  REQUIRE(w != h.walls.end());
  std::string all;
  for (const Piece& p : w->pieces)
    all += fmt::format("{}{} {}", all.empty() ? "" : ", ", place(p.from, metric),
                       p.brace     ? p.brace->name
                       : p.opening ? p.opening->mark
                                   : "-");
  return all;
}

}  // namespace

TEST_CASE("mirror_of is the other wall's run turned round") {
  // B from the front: B 1200, 900, W1 1800, 2700, B 1200.
  const auto walls = [](std::string_view b, std::string_view d, std::string_view g = "") {
    std::string job = with(good_job, "B = \"B 1200 | 1800 | W1 | 1800 | B 1200\"", fmt::format("B = {}", b));
    job = with(job, "D = { same_as = \"B\" }", fmt::format("D = {}", d));
    return good(g.empty() ? job : job + fmt::format("G = {}\n", g));
  };
  const std::string_view run = "\"B 1200 | 900 | W1 | 2700 | B 1200\"";
  const std::string_view from_back = "{ run = \"B 1200 | 900 | W1 | 2700 | B 1200\", from = \"back\" }";
  // 1200 + 900 + 1800 + 2700 + 1200 = 7800. As it stands, and turned round:
  const std::string stands = "0 {0}1, 1200 -, 2100 W1, 3900 -, 6600 {0}2",
                    turned = "0 {0}1, 1200 -, 3900 W1, 5700 -, 6600 {0}2";
  const auto of = [](const std::string& how, std::string_view wall) { return fmt::format(fmt::runtime(how), wall); };

  House h = walls(run, "{ mirror_of = \"B\" }");
  CHECK(laid_out(h, "B") == of(stands, "B"));
  CHECK(laid_out(h, "D") == of(turned, "D"));
  h = walls(from_back, "{ mirror_of = \"B\" }");
  CHECK(laid_out(h, "B") == of(turned, "B"));
  CHECK(laid_out(h, "D") == of(stands, "D"));
  // By way of a third wall: once, twice, and from the end that the third one names.
  h = walls(run, "{ mirror_of = \"G\" }", "{ from_left = 3000, same_as = \"B\" }");
  CHECK(laid_out(h, "G") == of(stands, "G"));
  CHECK(laid_out(h, "D") == of(turned, "D"));
  h = walls(run, "{ mirror_of = \"G\" }", "{ from_left = 3000, mirror_of = \"B\" }");
  CHECK(laid_out(h, "G") == of(turned, "G"));
  CHECK(laid_out(h, "D") == of(stands, "D"));
  h = walls(run, "{ same_as = \"G\" }", "{ from_left = 3000, mirror_of = \"B\" }");
  CHECK(laid_out(h, "D") == of(turned, "D"));
  h = walls(run, "{ mirror_of = \"G\" }", "{ from_left = 3000, same_as = \"B\", from = \"back\" }");
  CHECK(laid_out(h, "G") == of(turned, "G"));
  CHECK(laid_out(h, "D") == of(stands, "D"));
  h = walls(from_back, "{ mirror_of = \"G\" }", "{ from_left = 3000, mirror_of = \"B\" }");
  CHECK(laid_out(h, "G") == of(stands, "G"));
  CHECK(laid_out(h, "D") == of(turned, "D"));
}

TEST_CASE("mirror_of the other floor's wall of the same name") {
  const House h = house_of(two_floor_job);
  CHECK(laid_out(h, "ground D") == "0 ground D1, 1800 W1, 3600 -, 7500 ground D2");
  CHECK(laid_out(h, "first D") == "0 first D1, 1800 -, 5700 W1, 7500 first D2");
  CHECK(laid_out(h, "ground A") == "0 ground A1, 900 GD, 3600 -, 3900 ground A2");
  CHECK(laid_out(h, "ground C") == "0 ground C1, 1500 -, 1800 GD, 4500 ground C2");
  // An inside wall stands where the other one does.
  const House inside = house_of(with(two_floor_job, "D = { mirror_of = \"ground\" }\nE = { same_as",
                                     "D = { mirror_of = \"ground\" }\nE = { mirror_of"));
  CHECK(laid_out(inside, "ground E") == "0 ground E1, 1800 -, 2700 D3, 3520 -");
  CHECK(laid_out(inside, "first E") == "0 -, 1880 D3, 2700 -, 3600 first E1");
  CHECK(place(std::ranges::find(inside.walls, "first E", &Wall::name)->line, metric) == "4000");
}

TEST_CASE("what cannot be meant by a mirror is refused with its place") {
  struct Bad {
    const char *what, *from, *to, *code;
    std::size_t line, column, size;
    const char* message;
  };
  const Bad bad[]{
      {"no such mirror", "drawn = \"sheet 1\"", "mirror = \"left\"", "unknown-word", 5, 10, 6, "`left-right`"},
      {"a mirror that is no word", "drawn = \"sheet 1\"", "mirror = true", "wrong-type", 5, 10, 4, "mirror"},
      {"a mirror on the block", "height = 2700", "height = 2700\nmirror = \"left-right\"", "unknown-key", 17, 1, 6,
       "`mirror`"},
      {"no such wall", "same_as = \"B\"", "mirror_of = \"Q\"", "unknown-wall", 50, 19, 3, "no wall `Q`"},
      {"itself", "same_as = \"B\"", "mirror_of = \"D\"", "same-as-itself", 50, 19, 3,
       "wall D comes back to itself by `mirror_of`"},
      {"a run and a mirror", "D = { same_as = \"B\" }", "D = { run = \"7800\", mirror_of = \"B\" }", "two-ways", 50, 21,
       9, "a `run` or is the `mirror_of` another"},
      {"the same and a mirror", "same_as = \"B\"", "same_as = \"B\", mirror_of = \"B\"", "two-ways", 50, 22, 9,
       "`same_as` another or the `mirror_of` one"},
      {"turned twice over", "same_as = \"B\"", "mirror_of = \"B\", from = \"back\"", "two-ways", 50, 24, 4,
       "`mirror_of` turns the run round"},
      {"another length", "same_as = \"B\"", "mirror_of = \"A\"", "run-too-long", 50, 19, 3,
       "wall D: the pieces add up to 12000, the wall is 7800: 4200 too long"},
      {"a floor, of one floor", "same_as = \"B\"", "mirror_of = \"ground\"", "unknown-wall", 50, 19, 8,
       "no wall `ground`"},
  };
  for (const Bad& b : bad) {
    INFO(b.what);
    const Opened o = read(with(good_job, b.from, b.to));
    INFO(render(o.problems, false));
    CHECK_FALSE(o.house.has_value());
    const auto p = std::ranges::find(o.problems, b.code, &Problem::code);
    REQUIRE(p != o.problems.end());
    CHECK(p->line == b.line);
    CHECK(p->column == b.column);
    CHECK(p->length == b.size);
    CHECK_THAT(p->message, Contains(b.message));
  }
  // A wall that could not be read is not told to lack its run as well.
  for (const char* key : {"mirror_of", "same_as"})
    CHECK(read(with(good_job, "same_as = \"B\"", fmt::format("{} = 5", key))).problems.size() == 1);
  // A ring of three, two of the ways turned: said of each wall in it, and nothing hangs.
  const Opened ring =
      read(with(with(good_job, "B = \"B 1200 | 1800 | W1 | 1800 | B 1200\"", "B = { mirror_of = \"E\" }"),
                "E = { from_left = 6000, run = \"B 1800 | 1690 | D3 | 1690 | B 1800\" }",
                "E = { from_left = 6000, mirror_of = \"D\" }"));
  CHECK_FALSE(ring.house.has_value());
  CHECK(std::ranges::count(ring.problems, "same-as-itself", &Problem::code) == 3);
}
