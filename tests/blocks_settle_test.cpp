// A house of several blocks as it is read: where each block and each wall stands, in figures worked out by hand; the
// same house turned; and what cannot be meant, or not yet, is refused with its place. Invented, all of it.
#include "hand_made.hpp"
#include "houses.hpp"
#include "job/roof_settle.hpp"
#include "job_text.hpp"
#include "pages.hpp"
#include "report/json.hpp"
#include "report/said_back.hpp"
#include "text_files.hpp"
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <random>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;

namespace {

// An L: slopes of 45 deg, so that a roof rises as far as it reaches in.
constexpr std::string_view ell = R"([job]
title = "L house, invented"
drawing = "mm"
importance = 2
drawn = "sheet 1, to frame"
fixings = "demo-test.toml"

[site]
class = "N3"
given_by = "nobody: a test"

[block.main]
floor_level = 300
size = [12000, 8000]
walls = { front = "A", right = "D", back = "E", left = "F" }
height = 2700
wall_weight = "0.25 kPa"
trusses = [
  { mark = "T1", max = 900 },
  { mark = "TG1", hip_girder = 2400 },
  { mark = "J1", jacks = 900 },
  { mark = "H1", hip_rafters = true },
]
roof = { shape = "hip", ridge = "across", pitch = "45 deg", eaves = 450, weight = "0.40 kPa" }

[block.garage]
size = [6000, 5000]
place = { against = "main front", flush = "right" }
walls = { front = "C", right = "D", left = "B" }
height = 2700
slab = -100
trusses = [
  { mark = "T2", max = 1000 },
  { mark = "V1", valley = 900 },
]
roof = { shape = "gable", ridge = "up", pitch = "45 deg", eaves = 450, verge = 300, weight = "0.40 kPa" }

[slab]
thickness = 100
beyond = 0

[unless_noted]
B = { brace = "demo-sheet", hold_down = "demo-rod" }
jamb = "demo-bolt"
anchor = { use = "demo-bolt", max = 1200 }
truss = { T2 = "demo-cleat-2", rest = "demo-cleat" }
onto = { V1 = "demo-cleat-2", rest = "demo-cleat" }
plate = 90
hold_down_in = 100

[mark]
GD = { size = "2100 x 2400", wind_rated = "N3" }
W1 = "1200 x 1800"

[wall]
A = "B 1200 | 3600 | B 1200"
B = "B 1200 | 2600 | B 1200"
C = "B 1200 | 600 | GD | 600 | B 1200"
D = "B 1200 | 2600 | B 1200 | 900 | W1 | 4100 | B 1200"
E = "B 1200 | 9600 | B 1200"
F = "B 1200 | 5600 | B 1200"
G = { in = "main", from_front = 0, between = [6000, 12000], run = "B 1200 | 3600 | B 1200" }
H = { in = "garage", from_front = 2000, between = [0, 3000], run = "B 1200 | 1800" }
)";
const std::string fixings = std::string(good_fixings) + R"(
[[bracket]]
name = "demo-cleat-2"
uplift = "9.0 kN"
basis = "design"
source = "invented"
)";

Opened read_ell(std::string_view job) { return read(job, fixings); }
House house(std::string_view job = ell) { return good(job, fixings); }
std::string mm(Length l) { return place(l, metric); }
const Wall& wall(const House& h, std::string_view name) {
  const auto w = std::ranges::find(h.walls, name, &Wall::name);
  INFO("no wall " << name);
  REQUIRE(w != h.walls.end());
  return *w;
}
// "front: across at 0, 0 to 6000, in 0".
std::string stands(const House& h, std::string_view name) {
  const Wall& w = wall(h, name);
  std::string s = fmt::format("{}: {} at {}, {} to {}, in", w.outside ? words(w.side) : "inside",
                              w.runs == Along::across ? "across" : "up", mm(w.line), mm(w.from), mm(w.to));
  for (const std::size_t b : w.blocks) s += fmt::format(" {}", b);
  for (const Length& step : w.steps) s += fmt::format(", step at {}", mm(step));
  return s;
}
std::string places(const std::vector<Truss>& trusses) {
  std::string s;
  for (const Truss& t : trusses) s += fmt::format("{}{} {}", s.empty() ? "" : ", ", t.mark, mm(t.at));
  return s;
}
bool remarked(const House& h, std::string_view what) {
  return std::ranges::any_of(h.remarks, [&](const std::string& r) { return r.find(what) != std::string::npos; });
}

// One thing is wrong, in a line of the job that holds `where`, and the help says what would be right.
void refused(const std::string& job, std::string_view where, std::string_view code, const std::string& message,
             const std::string& help) {
  const Opened o = read_ell(job);
  INFO(render(o.problems, false) << "expected: " << code << ": " << message);
  CHECK_FALSE(o.house.has_value());
  REQUIRE(o.problems.size() == 1);
  const Problem& p = o.problems.front();
  CHECK(p.code == code);
  CHECK_THAT(p.source_line, Contains(std::string(where)));
  CHECK_THAT(p.message, Contains(message));
  CHECK_THAT(p.help, Contains(help));
}
std::string ell_with(std::string_view from, std::string_view to) { return with(ell, from, to); }
// The right walls of the L apart: D of main, K of the garage.
std::string ell_apart() {
  return with(with(ell, "right = \"D\", left = \"B\"", "right = \"K\", left = \"B\""),
              "D = \"B 1200 | 2600 | B 1200 | 900 | W1 | 4100 | B 1200\"",
              "D = { same_as = \"F\" }\nK = { same_as = \"B\" }");
}
constexpr std::string_view place_of_garage = "place = { against = \"main front\", flush = \"right\" }";
// The garage in the middle of the front: main's front is left over at both its sides.
std::string tee() {
  std::string job = with(ell_apart(), place_of_garage, "place = { against = \"main front\", from_left = 4000 }");
  job = with(job, "front = \"A\"", "front = [\"A\", \"M\"]");
  job = with(job, "A = \"B 1200 | 3600 | B 1200\"", "A = \"B 1200 | 1600 | B 1200\"\nM = \"B 1200 | 800\"");
  return with(job, "between = [6000, 12000]", "between = [4000, 10000]");
}
constexpr std::string_view wing_at_the_left_end = R"([block.study]
size = [4000, 3000]
place = { against = "main front", flush = "left" }
walls = { front = "P", right = "Q", left = "R" }
height = 2700
trusses = [ { mark = "T3", max = 900 }, { mark = "V3", valley = 900 } ]
roof = { shape = "gable", ridge = "up", pitch = "45 deg", eaves = 300, verge = 300, weight = "0.40 kPa" }

[slab])";
// Two wings at the front; main's front is left over between them.
std::string you() {
  std::string job = with(ell_apart(), "[slab]", wing_at_the_left_end);
  job = with(job, "A = \"B 1200 | 3600 | B 1200\"",
             "A = \"B 1200 | 800\"\nP = \"B 1200 | 2800\"\nQ = \"B 1200 | 1800\"\nR = { same_as = \"Q\" }\n"
             "S = { in = \"main\", from_front = 0, between = [0, 4000], run = \"B 1200 | 2800\" }");
  return job;
}

}  // namespace

TEST_CASE("an L house: each block, wall and truss stands where the sheet has it") {
  const House h = house();
  CHECK(h.block == "main");
  REQUIRE(h.wings.size() == 1);
  const Wing& g = h.wings[0];
  CHECK((g.name == "garage" && g.at == "job.toml:26"));
  // Flush with the right end: from 12000 - 6000; it lies before main's front, 5000 deep.
  CHECK(mm(g.left) == "6000");
  CHECK(mm(g.front) == "-5000");
  CHECK((mm(g.across) == "6000" && mm(g.up) == "5000" && mm(g.height) == "2700" && mm(g.level) == "-100"));
  CHECK(g.joint == Side::back);
  CHECK(mm(g.roof.own_overhang[static_cast<std::size_t>(Side::back)].value_or(-metre)) == "0");
  CHECK_FALSE(falls_to(g.roof, Side::back));

  std::string names;
  for (const Wall& w : h.walls) names += w.name;
  CHECK(names == "ABCDEFGH");
  CHECK(stands(h, "A") == "front: across at 0, 0 to 6000, in 0");
  CHECK(stands(h, "B") == "left: up at 6000, -5000 to 0, in 1");
  CHECK(stands(h, "C") == "front: across at -5000, 6000 to 12000, in 1");
  // One wall along both blocks, 5000 + 8000 long; its floor steps where the garage ends.
  CHECK(stands(h, "D") == "right: up at 12000, -5000 to 8000, in 0 1, step at 5000");
  CHECK(stands(h, "E") == "back: across at 8000, 0 to 12000, in 0");
  CHECK(stands(h, "F") == "left: up at 0, 0 to 8000, in 0");
  CHECK(stands(h, "G") == "inside: across at 0, 6000 to 12000, in 0 1");
  // In the garage's own axes 2000 from its front, 0 to 3000 from its left.
  CHECK(stands(h, "H") == "inside: across at -3000, 6000 to 9000, in 1");

  CHECK(places(g.trusses) == "T2 0, T2 1000, T2 2000, T2 3000, T2 4000, T2 5000");
  CHECK(g.trusses[0].bracket.name == "demo-cleat-2");
  REQUIRE(g.valley.has_value());
  CHECK((g.valley->mark == "V1" && mm(g.valley->max) == "900"));
  CHECK((g.valley->onto.name == "demo-cleat-2" && g.valley->onto.at == "job.toml:47"));
  CHECK(h.hip_ends.size() == 2);
  CHECK(h.hip_ends[0].jack_onto.name == "demo-cleat");
  CHECK(remarked(h, "block garage: T2 at 5000 stands at the joint"));
  // The garage's ridge stands 3000 - 100 above main's bearings; main's front slope is as high 2900 in.
  CHECK(remarked(h,
                 "block garage: its trusses bear 100 below those of block main; its ridge comes out on the main "
                 "roof 2900 past the joint"));

  // Seen from the garage its own walls stand in block 0, G at its back.
  const House own = seen_from(h, 1);
  CHECK(own.block == "garage");
  CHECK(stands(own, "G") == "inside: across at 5000, 0 to 6000, in 0");
  CHECK(stands(own, "D") == "right: up at 6000, 0 to 13000, in 0, step at 5000");
  CHECK(stands(own, "A") == "front: across at 5000, -6000 to 0, in 1");
  CHECK(mm(own.floor_level) == "200");
}

TEST_CASE("a step of the floor parts the bottom plate as a joint of frames does") {
  const auto stations = [](const House& h) {
    std::string all;
    for (const Station& s : set_out(h, table("practice/common.toml")))
      if (s.wall == "D") all += (all.empty() ? "" : " ") + mm(s.from_start);
    return all;
  };
  // Hold-downs 100 in from the braces' ends (0 to 1200, 3800 to 5000, 11800 to 13000), one beside each jamb of W1 (5900
  // to 7700). 1100 to 3900 is 2800: 3 spaces of 933. The plate begins again at 5000: a fixing at 5100. 5800 to 7800 is
  // 2000: 2 of 1000. 7800 to 11900 is 4100: 4 of 1025.
  const std::string parted = "100 1100 2033 2967 3900 4900 5100 5800 6800 7800 8825 9850 10875 11900 12900";
  CHECK(stations(house()) == parted);
  // On one level there is no step; the plate runs on from 4900 to 5800.
  const House level = house(ell_with("slab = -100\n", ""));
  CHECK(stands(level, "D") == "right: up at 12000, -5000 to 8000, in 0 1");
  CHECK(stations(level) == "100 1100 2033 2967 3900 4900 5800 6800 7800 8825 9850 10875 11900 12900");

  const House h = house();
  const auto d = static_cast<std::size_t>(&wall(h, "D") - h.walls.data());
  const WallSetOut out = set_out_wall(h, d, table("practice/common.toml"));
  REQUIRE(out.plates.size() == 2);
  CHECK((mm(out.plates[0].from) == "0" && mm(out.plates[0].to) == "5000" && mm(out.plates[1].to) == "13000"));
  // The wind square on goes to the plate that it meets.
  CHECK(mm(out.supports[out.plates[0].supports.back()].to) == "5000");
  // A frame's joint and a step in one place part the plate once; a joint elsewhere parts it again.
  House framed = h;
  framed.walls[d].frames = {{"", zero<Length>(), framed.walls[d].steps[0]},
                            {"", framed.walls[d].steps[0], 8.4 * metre},
                            {"", 8.4 * metre, framed.walls[d].length()}};
  std::string ends;
  for (const Plate& p : set_out_wall(framed, d, table("practice/common.toml")).plates) ends += mm(p.to) + " ";
  CHECK(ends == "5000 8400 13000 ");
}

TEST_CASE("a T: the main side is left over in two stretches, a wall for each from the left") {
  const House h = house(tee());
  CHECK(mm(h.wings[0].left) == "4000");
  CHECK(stands(h, "A") == "front: across at 0, 0 to 4000, in 0");
  CHECK(stands(h, "M") == "front: across at 0, 10000 to 12000, in 0");
  CHECK(stands(h, "B") == "left: up at 4000, -5000 to 0, in 1");
  CHECK(stands(h, "K") == "right: up at 10000, -5000 to 0, in 1");
  CHECK(stands(h, "D") == "right: up at 12000, 0 to 8000, in 0");
  CHECK(stands(h, "G") == "inside: across at 0, 4000 to 10000, in 0 1");
}

TEST_CASE("a U: two wings at one side, in the order of their names") {
  const House h = house(you());
  REQUIRE(h.wings.size() == 2);
  CHECK((h.wings[0].name == "garage" && h.wings[1].name == "study"));
  CHECK((mm(h.wings[1].left) == "0" && mm(h.wings[1].front) == "-3000" && mm(h.wings[1].level) == "0"));
  CHECK(stands(h, "A") == "front: across at 0, 4000 to 6000, in 0");
  CHECK(stands(h, "Q") == "right: up at 4000, -3000 to 0, in 2");
  CHECK(stands(h, "S") == "inside: across at 0, 0 to 4000, in 0 2");
  CHECK(stands(h, "G") == "inside: across at 0, 6000 to 12000, in 0 1");
  CHECK(name_of(h, 2) == "study");
}

TEST_CASE("a wing under an upright gable of the main block ends at the joint and has no valley") {
  // Main a gable along its length, the wing against its right gable: 6000 wide from 1000, ridge 3000 up under the
  // main gable's 4000 there.
  std::string job = with(ell_apart(), "shape = \"hip\", ridge = \"across\", pitch = \"45 deg\", eaves = 450,",
                         "shape = \"gable\", ridge = \"across\", pitch = \"45 deg\", eaves = 450, verge = 300,");
  job = with(job,
             "  { mark = \"TG1\", hip_girder = 2400 },\n  { mark = \"J1\", jacks = 900 },\n"
             "  { mark = \"H1\", hip_rafters = true },\n",
             "");
  job = with(job,
             "size = [6000, 5000]\nplace = { against = \"main front\", flush = \"right\" }\n"
             "walls = { front = \"C\", right = \"K\", left = \"B\" }",
             "size = [5000, 6000]\nplace = { against = \"main right\", from_front = 1000 }\n"
             "walls = { right = \"C\", back = \"K\", front = \"B\" }");
  job = with(job, "  { mark = \"V1\", valley = 900 },\n", "");
  job = with(job, "onto = { V1 = \"demo-cleat-2\", rest = \"demo-cleat\" }\n", "");
  job = with(job, "ridge = \"up\"", "ridge = \"across\"");
  job = with(job, "right = \"D\"", "right = [\"D\", \"N\"]");
  job = with(job, "D = { same_as = \"F\" }", "D = \"1000\"\nN = \"1000\"");
  job = with(job, "A = \"B 1200 | 3600 | B 1200\"", "A = { same_as = \"E\" }");
  job = with(job, "G = { in = \"main\", from_front = 0, between = [6000, 12000]",
             "G = { in = \"main\", from_left = 12000, between = [1000, 7000]");
  job = with(job, "from_front = 2000, between = [0, 3000]", "from_left = 2000, between = [0, 3000]");
  const House h = house(job);
  CHECK_FALSE(h.wings[0].valley.has_value());
  CHECK(h.wings[0].joint == Side::left);
  CHECK(stands(h, "D") == "right: up at 12000, 0 to 1000, in 0");
  CHECK(stands(h, "N") == "right: up at 12000, 7000 to 8000, in 0");
  CHECK(stands(h, "G") == "inside: up at 12000, 1000 to 7000, in 0 1");
  CHECK(stands(h, "H") == "inside: up at 14000, 1000 to 4000, in 1");
  CHECK(remarked(h, "its roof ends at the joint"));
  SECTION("a row of valley trusses has no place there") {
    refused(
        with(job, "{ mark = \"T2\", max = 1000 },", "{ mark = \"T2\", max = 1000 }, { mark = \"V1\", valley = 900 },"),
        "V1", "wrong-key", "no part of the roof of block garage lies on the main roof", "leave the row out");
  }
  SECTION("its ceiling needs a wall at the joint") {
    const std::string run =
        "G = { in = \"main\", from_left = 12000, between = [1000, 7000], run = \"B 1200 | 3600 | B 1200\" }\n";
    refused(with(job, run, ""), "[block.garage]", "no-wall-at-the-joint",
            "its ceiling would lean on the far wall alone", "in full or in part");
  }
  SECTION("its ridge stays under the main gable") {
    // Ridge at 1500 + 3000 from the front: the main gable is 3500 high there; 60 deg lifts it to 3000 x 1.732 - 100.
    std::string steep =
        with(job, "ridge = \"across\", pitch = \"45 deg\", eaves = 450, verge = 300, weight = \"0.40 kPa\" }\n\n[slab]",
             "ridge = \"across\", pitch = \"60 deg\", eaves = 450, verge = 300, weight = \"0.40 kPa\" }\n\n[slab]");
    refused(
        steep, "60 deg", "ridge-above-the-roof",
        "stands 5096 above the bearings of block main, and the main roof where it would come out, 12000 from the left "
        "and 4000 from the front, 4000 above them",
        "a lower pitch");
  }
}

namespace {
// A wing on any side of a main block with four equal slopes. Runs that differ from end to end.
struct WingAt {
  Side side;
  int along, out, start;  // its length along that side, how far it stands out, where it begins
};
std::string job_of(const WingAt& w, bool turned) {
  const bool across = w.side == Side::front || w.side == Side::back;
  const int main_across = 12000, main_up = 8000, side = across ? main_across : main_up;
  std::string names[4], walls;
  const auto run = [&](int length, bool up) {
    return up && turned ? fmt::format("{} | B 1200", length - 1200) : fmt::format("B 1200 | {}", length - 1200);
  };
  const auto add = [&](std::string_view name, int length, bool up) {
    walls += fmt::format("{} = \"{}\"\n", name, run(length, up));
  };
  // Main: left L, front F, right R, back B; of the wing the same with a W before it. Turned, front and back change.
  for (const Side s : {Side::left, Side::front, Side::right, Side::back}) {
    const bool up = s == Side::left || s == Side::right;
    const std::string name = s == Side::left ? "L" : s == Side::right ? "R" : (s == Side::front) != turned ? "F" : "K";
    std::string& list = names[static_cast<std::size_t>(s)];
    if (s != w.side) {
      list = fmt::format("\"{}\"", name);
      add(name, up ? main_up : main_across, up);
      continue;
    }
    const int before = w.start, after = side - w.start - w.along;
    const bool swapped = turned && up;
    list = "[";
    for (const auto& [length, tail] : {std::pair{before, swapped ? "2" : "1"}, {after, swapped ? "1" : "2"}}) {
      if (length == 0) continue;
      list += fmt::format("{}\"{}{}\"", list == "[" ? "" : ", ", name, tail);
      add(name + tail, length, up);
    }
    list += "]";
  }
  std::string own;
  for (const Side s : {Side::left, Side::front, Side::right, Side::back}) {
    if (s == across_from(w.side)) continue;
    const bool up = s == Side::left || s == Side::right;
    const std::string name = s == Side::left                ? "WL"
                             : s == Side::right             ? "WR"
                             : (s == Side::front) != turned ? "WF"
                                                            : "WK";
    own += fmt::format("{}{} = \"{}\"", own.empty() ? "" : ", ", words(s), name);
    add(name, up == across ? w.out : w.along, up);
  }
  const int line = w.side == Side::right ? main_across : w.side == Side::back ? main_up : 0;
  walls += fmt::format("J = {{ in = \"main\", {} = {}, between = [{}, {}], run = \"{}\" }}\n",
                       across ? "from_front" : "from_left", line, w.start, w.start + w.along, run(w.along, !across));
  const int inside = turned && across ? w.out - 1300 : 1300;
  walls += fmt::format("I = {{ in = \"wing\", {} = {}, run = \"{}\" }}\n", across ? "from_front" : "from_left", inside,
                       run(w.along, !across));
  std::string job(ell);
  job.replace(job.find("walls = {"), job.find("\n", job.find("walls = {")) - job.find("walls = {"),
              fmt::format("walls = {{ left = {}, front = {}, right = {}, back = {} }}", names[0], names[1], names[2],
                          names[3]));
  const auto from = job.find("[block.garage]"), to = job.find("[slab]");
  job.replace(
      from, to - from,
      fmt::format("[block.wing]\nsize = [{}, {}]\nplace = {{ against = \"main {}\", {} = {} }}\nwalls = {{ {} }}\n"
                  "height = 2700\nslab = -100\n"
                  "trusses = [ {{ mark = \"T2\", max = 1000 }}, {{ mark = \"V1\", valley = 900 }} ]\n"
                  "roof = {{ shape = \"gable\", ridge = \"{}\", pitch = \"45 deg\", eaves = 450, verge = 300, "
                  "weight = \"0.40 kPa\" }}\n\n",
                  across ? w.along : w.out, across ? w.out : w.along, words(w.side),
                  across ? "from_left" : "from_front", w.start, own, across ? "up" : "across"));
  return job.substr(0, job.find("[wall]")) + "[wall]\n" + walls;
}
std::string run_of(const Wall& w, bool backwards) {
  std::vector<std::string> pieces;
  for (const Piece& p : w.pieces) pieces.push_back(fmt::format("{}{}", p.brace ? "B " : "", mm(p.to - p.from)));
  if (backwards) std::ranges::reverse(pieces);
  return fmt::format("{}", fmt::join(pieces, " | "));
}
}  // namespace

TEST_CASE("a wing at each of the four sides stands against it, walls and roof in its own axes") {
  struct Expected {
    Side side;
    std::string left, front, wing_line, inside;
  };
  // 4000 long, 3000 out, 2500 along its side from its left or front end.
  for (const Expected& e : {Expected{Side::front, "2500", "-3000", "across at -3000, 2500 to 6500, in 1",
                                     "inside: across at -1700, 2500 to 6500, in 1"},
                            Expected{Side::back, "2500", "8000", "across at 11000, 2500 to 6500, in 1",
                                     "inside: across at 9300, 2500 to 6500, in 1"},
                            Expected{Side::left, "-3000", "2500", "up at -3000, 2500 to 6500, in 1",
                                     "inside: up at -1700, 2500 to 6500, in 1"},
                            Expected{Side::right, "12000", "2500", "up at 15000, 2500 to 6500, in 1",
                                     "inside: up at 13300, 2500 to 6500, in 1"}}) {
    const std::string job = job_of({e.side, 4000, 3000, 2500}, false);
    INFO(job);
    const House h = house(job);
    const Wing& w = h.wings.at(0);
    CHECK(w.joint == across_from(e.side));
    CHECK(mm(w.left) == e.left);
    CHECK(mm(w.front) == e.front);
    const char* far = e.side == Side::front ? "WF" : e.side == Side::back ? "WK" : e.side == Side::left ? "WL" : "WR";
    CHECK(stands(h, far) == fmt::format("{}: {}", words(e.side), e.wing_line));
    CHECK(stands(h, "I") == e.inside);
    // From its far wall to the joint, 3000 in spaces of 1000; the joint is at its high end on the left and the front.
    CHECK(places(w.trusses) == "T2 0, T2 1000, T2 2000, T2 3000");
    CHECK(wall(h, "J").blocks == std::vector<std::size_t>{0, 1});
    REQUIRE(w.valley.has_value());
    // Ridge 2000 - 100 above main's bearings, as high as its slope 1900 in.
    CHECK(remarked(h, "comes out on the main roof 1900 past the joint"));
  }
}

TEST_CASE("a wing at the front and the mirrored description at the back are mirrored houses") {
  std::mt19937 random(26);
  const auto tens = [&](int from, int to) { return std::uniform_int_distribution<>(from / 10, to / 10)(random) * 10; };
  for (int i = 0; i < 40; ++i) {
    const bool at_front = i % 2 == 0;
    const int along = tens(2500, 5000), side = at_front ? 12000 : 8000, start = 10 * ((side - along) / 20);
    WingAt w{at_front ? Side::front : Side::right, along, tens(2600, 6000),
             start - tens(0, 1000 < start ? 1000 : start)};
    if (w.start < 1300) w.start = 1300;
    WingAt m = w;
    if (at_front) m.side = Side::back;
    else m.start = 8000 - w.start - w.along;
    const std::string one = job_of(w, false), other = job_of(m, true);
    INFO(one << "\n----\n" << other);
    const House a = house(one), b = house(other);
    REQUIRE(a.walls.size() == b.walls.size());
    for (const Wall& p : a.walls) {
      const Wall& q = wall(b, p.name);
      INFO(p.name);
      CHECK(p.runs == q.runs);
      CHECK(p.blocks == q.blocks);
      CHECK(p.outside == q.outside);
      if (p.outside) CHECK((p.runs == Along::across ? p.side == across_from(q.side) : p.side == q.side));
      const Length up = 8.0 * metre;
      CHECK(mm(p.line) == mm(p.runs == Along::across ? up - q.line : q.line));
      CHECK(mm(p.from) == mm(p.runs == Along::across ? q.from : up - q.to));
      CHECK(mm(p.to) == mm(p.runs == Along::across ? q.to : up - q.from));
      CHECK(run_of(p, false) == run_of(q, p.runs == Along::up));
    }
    const Wing &v = a.wings.at(0), &u = b.wings.at(0);
    CHECK(mm(v.front) == mm(8.0 * metre - u.front - u.up));
    CHECK(mm(v.left) == mm(u.left));
    REQUIRE(v.trusses.size() == u.trusses.size());
    for (std::size_t t = 0; t < v.trusses.size(); ++t) {
      const Length turned = v.up - u.trusses[u.trusses.size() - 1 - t].at;
      CHECK(mm(v.trusses[t].at) == mm(at_front ? turned : u.trusses[t].at));
    }
  }
}

TEST_CASE("where a block stands: what cannot be meant is refused with its place") {
  SECTION("no block is the main one") {
    const Opened o =
        read_ell(ell_with("height = 2700\nwall_weight",
                          "place = { against = \"garage back\", flush = \"left\" }\nheight = 2700\nwall_weight"));
    INFO(render(o.problems, false));
    REQUIRE(o.problems.size() == 1);
    CHECK(o.problems[0].code == "no-main-block");
    CHECK_THAT(o.problems[0].help, Contains("the block without `place`"));
  }
  SECTION("two blocks without a place") {
    refused(ell_with("place = { against = \"main front\", flush = \"right\" }\n", ""), "[block.garage]", "missing-key",
            "`place` is missing: where block garage stands", "against = \"main front\"");
  }
  SECTION("one block with a place, or a level") {
    refused(std::string(with(good_job, "floor_level = 300", "floor_level = 300\nslab = -86")), "slab", "wrong-key",
            "`slab` belongs to a block that stands against another", "leave it out");
    refused(std::string(with(good_job, "floor_level = 300", "floor_level = 300\nplace = { against = \"main front\" }")),
            "place", "wrong-key", "`place` belongs to a block that stands against another", "leave it out");
  }
  const auto at = [&](std::string_view place, std::string_view code, const std::string& message,
                      const std::string& help) {
    refused(ell_with(place_of_garage, place), "place", code, message, help);
  };
  SECTION("against what") {
    at("place = { against = \"mian front\", flush = \"right\" }", "unknown-block", "no block `mian`",
       "did you mean `main`?");
    at("place = { against = \"main fornt\", flush = \"right\" }", "unknown-side", "`fornt` is no side",
       "did you mean `front`?");
    at("place = { against = \"main\", flush = \"right\" }", "unknown-side", "none of its sides", "main front");
    at("place = { against = \"front\", flush = \"right\" }", "unknown-block", "names a side and no block",
       "against = \"main front\"");
    at("place = { against = \"garage front\", flush = \"right\" }", "not-yet", "against block garage", "main front");
    at("place = { flush = \"right\" }", "missing-key", "`against` is missing", "it takes text");
  }
  SECTION("where along it") {
    at("place = { against = \"main front\" }", "missing-key", "nothing says where along the front of block main",
       "from_left = ...");
    at("place = { against = \"main front\", flush = \"right\", from_left = 6000 }", "two-ways", "not both", "");
    at("place = { against = \"main front\", from_front = 6000 }", "wrong-key", "told from the left", "from_left = ...");
    at("place = { against = \"main front\", flush = \"back\" }", "unknown-word", "`back` is not an end", "");
    at("place = { against = \"main front\", from_left = 6100 }", "wing-off-the-side",
       "from 6100 to 12100 along the front of block main, which reaches from 0 to 12000", "from 0 to 6000");
  }
  SECTION("longer than the side") {
    refused(ell_with("size = [6000, 5000]", "size = [12100, 5000]"), "place", "wing-off-the-side", "from -100 to 12000",
            "12100 across");
  }
  SECTION("keys of the main block") {
    refused(ell_with("slab = -100", "slab = -100\nfloor_level = 200"), "floor_level = 200", "wrong-key",
            "belongs to the block that the others stand against, main", "slab");
    refused(ell_with("slab = -100", "slab = -100\nwall_weight = \"0.25 kPa\""), "wall_weight", "wrong-key", "main",
            "holds for all");
    refused(ell_with("slab = -100", "slab = -100\nceiling = \"rigid\""), "ceiling", "wrong-key", "main",
            "holds for all");
    refused(ell_with("wall_weight = \"0.25 kPa\"", "wall_weight = \"0.25 kPa\"\nslab = 0"), "slab = 0", "wrong-key",
            "`slab` belongs to a block with `place`", "floor_level");
    refused(ell_with("floor_level = 300\n", ""), "[block.main]", "missing-key", "`floor_level` is missing", "");
    refused(ell_with("floor_level = 300", "floor_level = 50"), "slab = -100", "floor-below-the-ground",
            "50 below the ground", "stands 50 above it");
    refused(ell_with("slab = -100", "slab = -900"), "slab", "unbelievable-length", "", "");
  }
}

TEST_CASE("wings beside each other keep their distance") {
  const std::string job = you();
  constexpr std::string_view study = "place = { against = \"main front\", flush = \"left\" }";
  refused(with(job, study, "place = { against = \"main front\", from_left = 2000 }"), "from_left = 2000", "wings-touch",
          "blocks garage and study touch", "from 6000 to 12000");
  refused(with(job, study, "place = { against = \"main front\", from_left = 2500 }"), "from_left = 2500",
          "wings-overlap", "stand 500 in each other", "room left between them");
  // Round the corner: the study at the right of main, from its front end.
  std::string corner = with(job, study, "place = { against = \"main right\", flush = \"front\" }");
  corner = with(corner, "walls = { front = \"P\", right = \"Q\", left = \"R\" }",
                "walls = { front = \"P\", right = \"Q\", back = \"R\" }");
  corner = with(corner, "roof = { shape = \"gable\", ridge = \"up\", pitch = \"45 deg\", eaves = 300",
                "roof = { shape = \"gable\", ridge = \"across\", pitch = \"45 deg\", eaves = 300");
  const Opened o = read_ell(corner);
  INFO(render(o.problems, false));
  REQUIRE_FALSE(o.problems.empty());
  CHECK(std::ranges::count(o.problems, "wings-touch", &Problem::code) == 1);
  // Eaves of 450 and 300 over a gap of 700 meet.
  std::string close = with(job, study, "place = { against = \"main front\", from_left = 1300 }");
  close = with(close, "front = \"A\"", "front = [\"N\", \"A\"]");
  close = with(close, "A = \"B 1200 | 800\"", "A = \"700\"\nN = \"1300\"");
  close = with(close, "between = [0, 4000]", "between = [1300, 5300]");
  refused(close, "from_left = 1300", "roofs-meet", "the roofs of blocks garage and study meet",
          "room between their eaves");
  // 750 is room enough.
  close = with(close, "from_left = 1300", "from_left = 1250");
  close = with(close, "A = \"700\"\nN = \"1300\"", "A = \"750\"\nN = \"1250\"");
  close = with(close, "between = [1300, 5300]", "between = [1250, 5250]");
  CHECK(house(close).wings.size() == 2);
}

TEST_CASE("outside walls: names for what is there, and runs that fill it") {
  SECTION("the joint has none") {
    refused(ell_with("walls = { front = \"C\", right = \"D\", left = \"B\" }",
                     "walls = { front = \"C\", right = \"D\", back = \"G\", left = \"B\" }"),
            "back = \"G\"", "wall-at-the-joint", "the back of block garage is the joint with block main",
            "G = { in = \"main\", from_front = 0, between = [6000, 12000]");
  }
  SECTION("a wing's wall is missing") {
    const Opened o = read_ell(
        ell_with("walls = { front = \"C\", right = \"D\", left = \"B\" }", "walls = { front = \"C\", right = \"D\" }"));
    INFO(render(o.problems, false));
    REQUIRE_FALSE(o.problems.empty());
    CHECK(o.problems[0].code == "missing-key");
    CHECK_THAT(o.problems[0].message, Contains("`left` is missing: the wall at the left of block garage"));
  }
  SECTION("names and stretches of the main side") {
    refused(with(tee(), "front = [\"A\", \"M\"]", "front = \"A\""), "front = \"A\"", "wall-beside-wings",
            "1 name for the 2 stretches of the front of block main: 0 to 4000, 10000 to 12000",
            "a list of 2 names, from the left");
    refused(ell_with("front = \"A\"", "front = [\"A\", \"H\"]"), "front = [", "wall-beside-wings",
            "2 names for the one stretch of the front of block main: 0 to 6000", "one name");
    refused(ell_with("front = \"A\", ", ""), "walls = { right", "missing-key",
            "`front` is missing: the wall at the front of block main, 0 to 6000", "");
    refused(ell_with("front = \"C\"", "front = [\"C\", \"H\"]"), "front = [", "wall-beside-wings",
            "2 names for one wall: nothing stands against the front of block garage", "one name");
    refused(std::string(with(good_job, "front = \"A\"", "front = [\"A\", \"E\"]")), "front = [", "wall-beside-wings",
            "2 names for one wall", "one name");
  }
  SECTION("a side that a wing covers has no wall") {
    std::string job = ell_with("size = [6000, 5000]", "size = [12000, 5000]");
    job = with(job, "left = \"B\"", "left = \"F\"");
    job = with(job, "between = [6000, 12000], run = \"B 1200 | 3600 | B 1200\"", "run = \"B 1200 | 9600 | B 1200\"");
    job = with(job, "C = \"B 1200 | 600 | GD | 600 | B 1200\"", "C = { same_as = \"E\" }");
    job = with(job, "F = \"B 1200 | 5600 | B 1200\"", "F = \"B 1200 | 2600 | B 1200 | 6800 | B 1200\"");
    job = with(job, "B = \"B 1200 | 2600 | B 1200\"\n", "");
    // 12000 wide at 20 deg: 6000 x 0.364 = 2184 up, below main's 4000.
    job = with(job, "ridge = \"up\", pitch = \"45 deg\"", "ridge = \"up\", pitch = \"20 deg\"");
    const std::string bare = with(with(job, "front = \"A\", ", ""), "A = \"B 1200 | 3600 | B 1200\"\n", "");
    const House h = house(bare);
    CHECK(stands(h, "F") == "left: up at 0, -5000 to 8000, in 0 1, step at 5000");
    CHECK(stands(h, "G") == "inside: across at 0, 0 to 12000, in 0 1");
    refused(with(bare, "right = \"D\", back = \"E\"", "front = \"A\", right = \"D\", back = \"E\"") +
                "A = \"B 1200 | 10800\"\n",
            "front = \"A\"", "wall-beside-wings", "other blocks stand along all of the front of block main",
            "leave it out");
  }
  SECTION("a run fills its stretch") {
    refused(ell_with("A = \"B 1200 | 3600 | B 1200\"", "A = \"B 1200 | 9600 | B 1200\""), "A =", "run-too-long",
            "wall A: the pieces add up to 12000, the wall is 6000: 6000 too long", "B to 1200");
    refused(ell_with("| 900 | W1 | 4100 | B 1200\"", "| 900 | W1 | 4000 | B 1200\""), "D =", "run-too-short",
            "wall D: the pieces add up to 12900, the wall is 13000", "");
  }
  SECTION("one name is one wall in one line") {
    refused(with(tee(), "right = \"K\", left = \"B\"", "right = \"D\", left = \"B\""), "right = \"D\", left",
            "wall-twice", "`D` is the right wall of block", "a name for each");
    refused(ell_with("height = 2700\nslab", "height = 2400\nslab"), "right = \"D\", left", "wall-of-two-heights",
            "`D` would be 2400 high as the right wall of block garage and 2700", "a name for each");
    refused(ell_with("left = \"F\"", "left = \"A\""), "left = \"A\"", "wall-twice",
            "`A` is the front wall of block main and the left wall of block main", "a name for each");
  }
  SECTION("inside walls say their block") {
    refused(ell_with("G = { in = \"main\", ", "G = { "), "G =", "missing-key",
            "`in` is missing: the block in whose axes inside wall G is placed", "");
    refused(ell_with("H = { in = \"garage\"", "H = { in = \"garrage\""), "H =", "unknown-block", "no block `garrage`",
            "did you mean `garage`?");
    refused(ell_with("from_front = 2000, between = [0, 3000]", "from_front = 5100, between = [0, 3000]"),
            "H =", "wall-off-the-block", "stands at 5100, but the block is 5000", "");
    refused(ell_with("A = \"B 1200 | 3600 | B 1200\"", "A = { in = \"main\", run = \"B 1200 | 3600 | B 1200\" }"),
            "A =", "wrong-key", "wall A is an outside wall", "");
  }
  SECTION("nothing of one length stands across a step of the floor") {
    refused(ell_with("D = \"B 1200 | 2600 | B 1200 | 900 | W1", "D = \"B 1200 | 2700 | B 1200 | 800 | W1"),
            "D =", "piece-across-a-step", "wall D: brace D2, 3900 to 5100, stands across the step of the floor at 5000",
            "two braces");
    refused(
        ell_with("D = \"B 1200 | 2600 | B 1200 | 900 | W1 | 4100", "D = \"B 1200 | 2600 | W1 | 900 | B 1200 | 4100"),
        "D =", "piece-across-a-step", "opening W1, 3800 to 5600", "one side");
    const auto framed = [](std::string_view frames) {
      return ell_with(
          "D = \"B 1200 | 2600 | B 1200 | 900 | W1 | 4100 | B 1200\"",
          fmt::format("D = {{ run = \"B 1200 | 2600 | B 1200 | 900 | W1 | 4100 | B 1200\", frames = \"{}\" }}",
                      frames));
    };
    CHECK(wall(house(framed("5000 | 8000")), "D").frames.size() == 2);
    refused(framed("5800 | 7200"), "D =", "frame-across-a-step",
            "a frame from 0 to 5800 would stand across the step of the floor at 5000", "a joint of frames at the step");
    // On one level both stand.
    CHECK(wall(house(with(ell_with("slab = -100\n", ""), "D = \"B 1200 | 2600 | B 1200 | 900 | W1",
                          "D = \"B 1200 | 2700 | B 1200 | 800 | W1")),
               "D")
              .steps.empty());
  }
  SECTION("an opening is no higher than its own block's frame") {
    const std::string low = with(ell_apart(), "height = 2700\nslab", "height = 2000\nslab");
    refused(low, "C =", "opening-too-high", "wall C: `GD` is 2100 high, the frame there 2000", "");
  }
}

TEST_CASE("the roof of a wing: what it may be, and where it meets the main roof") {
  constexpr std::string_view roof =
      "roof = { shape = \"gable\", ridge = \"up\", pitch = \"45 deg\", eaves = 450, verge = 300, weight = \"0.40 kPa\" "
      "}\n\n[slab]";
  const auto roofed = [&](const std::string& keys) {
    return ell_with(roof, fmt::format("roof = {{ {}, weight = \"0.40 kPa\" }}\n\n[slab]", keys));
  };
  SECTION("a hip at its far end, never at the joint") {
    const std::string hips = with(roofed("shape = \"hip\", ridge = \"up\", pitch = \"45 deg\", eaves = 450"),
                                  "  { mark = \"T2\", max = 1000 },",
                                  "  { mark = \"T2\", max = 1000 },\n  { mark = \"TG2\", hip_girder = 2000 },\n  { "
                                  "mark = \"J2\", jacks = 900 },\n  { mark = \"H2\", hip_rafters = true },");
    const House h = house(hips);
    const Wing& g = h.wings[0];
    CHECK((falls_to(g.roof, Side::front) && !falls_to(g.roof, Side::back)));
    REQUIRE(g.hip_ends.size() == 1);
    CHECK((g.hip_ends[0].side == Side::front && g.hip_ends[0].jack_onto.name == "demo-cleat"));
    // From the girder to the joint.
    CHECK(places(g.trusses) == "TG2 2000, T2 3000, T2 4000, T2 5000");
    CHECK(remarked(h, "block garage: the roof is a hip at the front"));
    refused(with(hips, "ridge = \"up\", pitch = \"45 deg\", eaves = 450,",
                 "ridge = \"up\", pitch = \"45 deg\", eaves = 450, verge = 300,"),
            "verge", "wrong-key", "this roof has no verge", "leave it out");
    refused(with(hips, "shape = \"hip\", ridge = \"up\"",
                 "shape = \"hip\", hipped = [\"front\", \"back\"], ridge = \"up\""),
            "hipped", "hip-at-the-joint", "the back side stands against another block", "hipped = \"front\"");
  }
  SECTION("shapes and ridges") {
    refused(roofed("shape = \"skillion\", high = \"back\", pitch = \"10 deg\", eaves = 450, verge = 300"), "skillion",
            "not-yet", "a skillion roof on a block that stands against another", "gable or hip");
    refused(roofed("shape = \"flat\", high = \"back\", eaves = 450, verge = 300"), "flat", "not-yet", "a flat roof",
            "gable or hip");
    refused(roofed("shape = \"gable\", ridge = \"across\", pitch = \"45 deg\", eaves = 450, verge = 300"), "ridge",
            "ridge-along-the-joint", "its ridge runs along that side", "ridge = \"up\"");
    refused(roofed("shape = \"gable\", ridge = \"up\", pitch = \"45 deg\", eaves = 450, verge = 300, back = { overhang "
                   "= 300 }"),
            "back", "wrong-key", "the back side stands against another block", "leave it out");
  }
  SECTION("the main roof") {
    std::string job =
        ell_with("roof = { shape = \"hip\", ridge = \"across\", pitch = \"45 deg\", eaves = 450,",
                 "roof = { shape = \"skillion\", high = \"back\", pitch = \"10 deg\", eaves = 450, verge = 300,");
    job = with(job,
               "  { mark = \"TG1\", hip_girder = 2400 },\n  { mark = \"J1\", jacks = 900 },\n  { mark = \"H1\", "
               "hip_rafters = true },\n",
               "");
    refused(job, "skillion", "not-yet", "a skillion roof with other blocks against it", "gable or hip");
  }
  SECTION("bearings no higher than the main block's") {
    refused(ell_with("slab = -100", "slab = 50"), "slab = 50", "bearings-above",
            "would bear 50 above those of block main", "slab = 0, or walls 2650 high");
    const std::string high = with(with(ell_apart(), "height = 2700\nslab = -100", "height = 2800\nslab = -50"),
                                  "[block.garage]", "[block.garage]");
    refused(high, "slab = -50", "bearings-above", "would bear 50 above", "walls 2750 high or less");
  }
  SECTION("a ridge that would come out above the main roof") {
    // 3000 x tan 60 - 100 = 5096; the main slope is as high 5096 in, past its own ridge at 4000; there its back slope
    // is 8000 - 5096 = 2904 high.
    refused(roofed("shape = \"gable\", ridge = \"up\", pitch = \"60 deg\", eaves = 450, verge = 300"), "60 deg",
            "ridge-above-the-roof",
            "stands 5096 above the bearings of block main, and the main roof where it would come out, 9000 from the "
            "left and 5096 from the front, 2904 above them",
            "a lower pitch");
    // Just 4000: 45 deg of 8000 wide and no step.
    std::string wide = ell_apart();
    wide = with(wide, "size = [6000, 5000]\nplace = { against = \"main front\", flush = \"right\" }",
                "size = [8000, 5000]\nplace = { against = \"main front\", from_left = 2000 }");
    wide = with(wide, "slab = -100\n", "");
    wide = with(wide, "front = \"A\"", "front = [\"A\", \"M\"]");
    wide = with(wide, "A = \"B 1200 | 3600 | B 1200\"", "A = \"2000\"\nM = \"2000\"");
    wide =
        with(wide, "between = [6000, 12000], run = \"B 1200 | 3600", "between = [2000, 10000], run = \"B 1200 | 5600");
    wide = with(wide, "C = \"B 1200 | 600 | GD | 600 ", "C = \"B 1200 | 1600 | GD | 1600 ");
    CHECK(remarked(house(wide), "comes out on the main roof 4000 past the joint"));
    // At the corner the ridge of an 8000 wide one stands 4000 from the hip's wall: as high as the hip, and no higher.
    std::string corner = with(wide, "from_left = 2000", "flush = \"right\"");
    corner = with(corner, "front = [\"A\", \"M\"]", "front = \"A\"");
    corner = with(corner, "A = \"2000\"\nM = \"2000\"", "A = \"4000\"");
    corner = with(corner, "between = [2000, 10000]", "between = [4000, 12000]");
    CHECK(remarked(house(corner), "comes out on the main roof 4000 past the joint"));
    // Hips of 40 deg are 4000 x 0.839 = 3356 high there.
    corner = with(corner, "ridge = \"across\", pitch = \"45 deg\", eaves = 450,",
                  "ridge = \"across\", pitch = \"45 deg\", eaves = 450, left = { pitch = \"40 deg\" }, right = { pitch "
                  "= \"40 deg\" },");
    refused(corner, "ridge = \"up\"", "ridge-above-the-roof",
            "8000 from the left and 4000 from the front, 3356 above them", "a place nearer to the middle");
  }
  SECTION("a ridge that would meet a gable above a hip end") {
    // The wing at main's right, whose hip stops 2400 in under a gable; the wing's ridge would come out 2900 in.
    std::string job = job_of({Side::right, 6000, 5000, 1000}, false);
    for (const char* name : {"R1", "R2"})
      job = with(job, fmt::format("{} = \"B 1200 | -200\"", name), fmt::format("{} = \"1000\"", name));
    CHECK(house(job).wings.size() == 1);
    job = with(job, "pitch = \"45 deg\", eaves = 450, weight",
               "pitch = \"45 deg\", eaves = 450, right = { gable_above = 2400 }, weight");
    refused(job, "ridge = \"across\", pitch = \"45 deg\", eaves = 450, verge", "ridge-against-a-gable",
            "the ridge of block wing would meet the gable above the right of block main", "at most 2400 above");
  }
}

TEST_CASE("trusses of several blocks") {
  SECTION("a mark belongs to one block") {
    std::string job = ell_with("{ mark = \"T2\", max = 1000 }", "{ mark = \"T1\", max = 1000 }");
    job = with(job, "truss = { T2 = \"demo-cleat-2\", rest = \"demo-cleat\" }", "truss = \"demo-cleat\"");
    refused(job, "max = 1000", "mark-in-two-blocks", "`T1` is a mark of block main already", "marks of its own");
  }
  SECTION("a mark of no block is said once") {
    refused(ell_with("truss = { T2 =", "truss = { T9 ="), "T9", "unknown-truss", "no truss has the mark `T9`", "T2");
    refused(ell_with("onto = { V1 =", "onto = { V9 ="), "V9", "unknown-truss", "no truss has the mark `V9`", "V1");
    refused(ell_with("onto = { V1 = \"demo-cleat-2\"", "onto = { V1 = \"demo-cleat-3\""), "demo-cleat-3",
            "unknown-fixing", "no bracket `demo-cleat-3`", "demo-cleat-2");
  }
  SECTION("valley trusses where the roof lies on the main roof") {
    std::string job = ell_with("  { mark = \"V1\", valley = 900 },\n", "");
    job = with(job, "onto = { V1 = \"demo-cleat-2\", rest = \"demo-cleat\" }", "onto = \"demo-cleat\"");
    refused(job, "trusses = [", "missing-key",
            "lies on the main roof for 2900 past the joint, and no trusses there: `valley` is missing", "valley = 900");
    refused(ell_with("{ mark = \"J1\", jacks = 900 },",
                     "{ mark = \"J1\", jacks = 900 },\n  { mark = \"V7\", valley = 900 },"),
            "V7", "wrong-key", "`valley` belongs to a block that stands against another", "`place`");
    refused(ell_with("{ mark = \"V1\", valley = 900 },",
                     "{ mark = \"V1\", valley = 900 },\n  { mark = \"V2\", valley = 600 },"),
            "V2", "two-rows", "two rows of valley trusses", "one of them");
    refused(ell_with("{ mark = \"V1\", valley = 900 }", "{ mark = \"V1\", valley = 900, max = 900 }"), "V1", "two-ways",
            "a row of valley trusses has no `max`", "");
  }
  SECTION("others may answer for the fixings of valley trusses, where there are any") {
    constexpr std::string_view head = "fixings = \"demo-test.toml\"\n";
    const std::string by = std::string(head) + "by_others = { valley = \"the truss maker, invented\" }\n";
    const House h = house(ell_with(head, by));
    REQUIRE(h.by_others.size() == 1);
    CHECK(h.by_others[0].what == "valley");
    refused(with(good_job, head, by), "valley", "wrong-key", "`valley` is a link of a house of several blocks",
            "leave it out");
  }
  SECTION("the last stands at the joint") {
    const std::string at = "{ mark = \"T2\", at = [0, 1000, 2000, 3000, 4000, 5000] }";
    CHECK(places(house(ell_with("{ mark = \"T2\", max = 1000 }", at)).wings[0].trusses) ==
          places(house().wings[0].trusses));
    refused(ell_with("{ mark = \"T2\", max = 1000 }", "{ mark = \"T2\", at = [0, 1500, 3000, 4500] }"), "trusses = [",
            "no-truss-at-the-joint", "it is at 5000, and the nearest truss at 4500", "5000");
  }
  SECTION("a wall stands under each end") {
    const std::string no_g = with(
        ell, "G = { in = \"main\", from_front = 0, between = [6000, 12000], run = \"B 1200 | 3600 | B 1200\" }\n", "");
    refused(no_g, "{ mark = \"T1\"", "bearing-on-nothing", "T1 at 6900, T1 at 7800, T1 at 8700",
            "{ in = \"main\", from_front = 0, between = [6000, 12000]");
    // What is wrong elsewhere hides it not.
    const Opened both = read_ell(with(no_g, "GD = { size = \"2100 x 2400\", wind_rated = \"N3\" }",
                                      "GD = { size = \"2100 x 2400\", wind_rated = \"N33\" }"));
    INFO(render(both.problems, false));
    CHECK(both.problems.size() == 2);
    CHECK(std::ranges::count(both.problems, "bearing-on-nothing", &Problem::code) == 1);
    // The wall ends at 11000: the girder at 9600 bears on it, the hip's jacks and the rafter past it on nothing.
    const std::string short_g = ell_with("between = [6000, 12000], run = \"B 1200 | 3600 | B 1200\"",
                                         "between = [6000, 11000], run = \"B 1200 | 2600 | B 1200\"");
    refused(short_g, "trusses = [", "bearing-on-nothing",
            "what frames the hip end at the right would bear on nothing at the front: no wall stands there between "
            "11000 and 12000",
            "between = [11000, 12000]");
    // A wall off the line by 10 is no bearing.
    refused(ell_with("from_front = 0, between", "from_front = 10, between"), "{ mark = \"T1\"", "bearing-on-nothing",
            "T1 at 6900", "between = [6000, 12000]");
    // Two walls, end to end, are one line of bearings.
    const std::string two =
        ell_with("G = { in = \"main\", from_front = 0, between = [6000, 12000], run = \"B 1200 | 3600 | B 1200\" }",
                 "G = { in = \"main\", from_front = 0, between = [6000, 8000], run = \"2000\" }\nN = { in = "
                 "\"garage\", from_front = 5000, between = [2000, 6000], run = \"4000\" }");
    CHECK(stands(house(two), "N") == "inside: across at 0, 8000 to 12000, in 0 1");
  }
  SECTION("inside bearings in the block's own axes") {
    std::string job =
        ell_with("H = { in = \"garage\", from_front = 2000, between = [0, 3000], run = \"B 1200 | 1800\" }",
                 "H = { in = \"garage\", from_left = 2500, run = \"B 1200 | 3800\" }");
    job = with(job, "{ mark = \"T2\", max = 1000 }", "{ mark = \"T2\", max = 1000, also_on = [\"H\"] }");
    CHECK(house(job).wings[0].trusses[0].also_on == std::vector<std::string>{"H"});
    refused(with(job, "from_left = 2500, run = \"B 1200 | 3800\"",
                 "from_left = 2500, between = [1000, 5000], run = \"B 1200 | 2800\""),
            "also_on", "bearing-on-nothing", "T2 at 0 would bear on nothing: wall H begins at 1000", "");
  }
}

TEST_CASE("however an L house is spoilt it is a house or it has problems, each with a line") {
  std::mt19937 random(4);
  const auto below = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
  const std::string whole = you();
  const std::vector<std::string> lines = lines_of(whole);
  constexpr std::string_view words[]{"main", "garage", "study", "front", "right", "back", "left",  "0",
                                     "6000", "-100",   "[]",    "\"D\"", "hip",   "flat", "across"};
  std::size_t houses = 0;
  for (int i = 0; i < 1500; ++i) {
    std::string job;
    const std::size_t a = below(lines.size()), b = below(lines.size());
    for (std::size_t l = 0; l < lines.size(); ++l) {
      std::string line = lines[l];
      if (l == a && i % 3 == 0) continue;  // left out
      if (l == a && i % 3 == 1) line = lines[b];
      if (l == a && i % 3 == 2) {  // a word or a number of it another one
        const std::size_t from = line.find_first_of("\"0123456789", below(line.size() + 1));
        if (from != std::string::npos) {
          const bool quoted = line[from] == '"';
          const std::size_t to = quoted ? line.find('"', from + 1) : line.find_first_not_of("0123456789", from);
          const std::string word(words[below(std::size(words))]);
          if (to != std::string::npos) line.replace(from, to - from, quoted ? "\"" + word : word);
        }
      }
      job += line + "\n";
    }
    const Opened o = read_ell(job);
    INFO(job);
    CHECK(o.house.has_value() == o.problems.empty());
    for (const Problem& p : o.problems) CHECK((p.line >= 1 && !p.message.empty()));
    if (!o.house) continue;
    ++houses;
    // What is read can be said back.
    const std::vector<RoofSaid> roofs = roofs_of(*o.house);
    CHECK_FALSE(said_back(*o.house, set_out(*o.house, table("practice/common.toml")), roofs[0], Look{},
                          {roofs.begin() + 1, roofs.end()})
                    .empty());
  }
  CHECK(houses > 20);
}

TEST_CASE("what does not go with several blocks yet is refused, all of it at once") {
  const std::string job = ell_with("slab = -100",
                                   "slab = -100\nroof_braces = { use = \"demo-single\", slope = \"left\", foot = 0, "
                                   "head = 2000 }\nfloor = { first = { depth = 350 } }");
  const Opened o = read_ell(job);
  INFO(render(o.problems, false));
  std::vector<std::string> said;
  for (const Problem& p : o.problems)
    said.push_back(fmt::format("{} {}", p.code, p.message.substr(0, p.message.find(" in a house"))));
  CHECK(said == std::vector<std::string>{"not-yet bracing in the plane of a wing's roof",
                                         "not-yet a second floor over a block that stands against another"});
  for (const auto& [from, to, where] :
       {std::tuple{"height = 2700\nslab", "height = { ground = 2700, first = 2550 }\nslab", "height = {"},
        {"slab = -100", "slab = -100\nfloor = { first = { depth = 350 } }", "floor = {"}})
    refused(ell_with(from, to), where, "not-yet", "a second floor over a block that stands against another",
            "one height");
}

TEST_CASE("the house of several blocks is said back with its blocks, levels, walls and valleys") {
  const House h = house();
  const std::vector<RoofSaid> roofs = roofs_of(h);
  REQUIRE(roofs.size() == 2);
  const std::string page =
      said_back(h, set_out(h, table("practice/common.toml")), roofs[0], Look{}, {roofs.begin() + 1, roofs.end()});
  const std::string text = unwrapped(page);
  for (const char* line :
       {"Trusses of block main", "5 jacks J1 on wall F and TG1 at 2400",
        "each on walls A and G (front) and wall E (back)",
        "Stands against the front of block main, from 6000 to 12000 along it (job.toml:26)",
        "Its left front corner in block main's axes: 6000 mm from its left and 5000 mm before its front",
        "Its floor 100 mm below that of block main; its trusses bear 100 mm below those of block main",
        "back: stands against block main", "each on wall B (left) and wall D (right)",
        "Valley trusses V1 past the joint, on the main block's trusses, at most 900 mm apart; at each crossing "
        "demo-cleat-2",
        "Wall D, the right of blocks main and garage", "The floor steps at 5000: the bottom plate is parted there",
        "Wall G, at the joint of blocks main and garage", "Wall H, inside block garage",
        "in block main's axes 3000 mm before its front, starts 6000 mm from its left",
        "Ridge 3000 mm above the bearings"}) {
    INFO(line << "\n" << page);
    CHECK_THAT(text, Contains(line));
  }
  // A house of one block says nothing of blocks.
  const House one = good(good_job);
  CHECK_THAT(said_back(one, {}, roof_of(one), Look{}), !Contains("of block") && !Contains("axes"));
}

TEST_CASE("the result as JSON tells where the blocks of several stand") {
  Result r = hand_made::saltbush();
  CHECK_THAT(json(r, false), !Contains("\"blocks\""));
  r.blocks = {{"main", zero<Length>(), zero<Length>(), 12.0 * metre, 8.0 * metre, zero<Length>(), 2.7 * metre},
              {"garage", 6.0 * metre, -5.0 * metre, 6.0 * metre, 5.0 * metre, -0.1 * metre, 2.7 * metre}};
  CHECK_THAT(json(r, false), Contains("\"blocks\":[{\"name\":\"main\",\"left\":{\"value\":0,\"unit\":\"mm\"}"));
  CHECK_THAT(
      json(r, false),
      Contains(
          "{\"name\":\"garage\",\"left\":{\"value\":6000,\"unit\":\"mm\"},\"front\":{\"value\":-5000,\"unit\":\"mm\"},"
          "\"across\":{\"value\":6000,\"unit\":\"mm\"},\"up\":{\"value\":5000,\"unit\":\"mm\"},"
          "\"level\":{\"value\":-100,\"unit\":\"mm\"},\"height\":{\"value\":2700,\"unit\":\"mm\"}}"));
}

TEST_CASE("belay show on a file of several blocks, and what is wrong with one") {
  const auto dir = std::filesystem::temp_directory_path() / fmt::format("belay-blocks-{}", std::random_device{}());
  std::filesystem::create_directories(dir);
  const auto write = [&](const char* name, std::string_view text) {
    std::ofstream(dir / name, std::ios::binary) << text;
  };
  write("demo-test.toml", fixings);
  write("ell.toml", ell);
  write("wrong.toml", ell_with("flush = \"right\"", "flush = \"rihgt\""));
  const auto told = [&](const char* name) {
    return run_command(fmt::format("cd '{}' && '" BELAY_PROGRAM "' show {} </dev/null 2>&1", dir.string(), name));
  };
  const auto good = told("ell.toml"), bad = told("wrong.toml");
  CHECK(good.code == 0);
  CHECK_THAT(good.out, Contains("Block garage\n  Stands against the front of block main, from 6000 to 12000"));
  for (const std::string& line : lines_of(good.out)) CHECK(line.size() <= 80);
  CHECK(bad.code == 2);
  CHECK_THAT(bad.out, Contains("wrong.toml:28:43: error: `flush` is"));
  std::filesystem::remove_all(dir);
}
