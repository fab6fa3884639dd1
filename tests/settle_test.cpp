// What a job means once it is settled: positions, defaults and where they came from, trusses, sites.
#include "job/settle.hpp"
#include "belay/result.hpp"
#include "job_text.hpp"
#include <algorithm>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;

namespace {

std::vector<double> truss_places(const House& h) {
  std::vector<double> out;
  for (const Truss& t : h.trusses) out.push_back(std::round(in(value(t.at), metric) * 1e6) / 1000.0);  // mm
  return out;
}
std::string trusses(std::string_view row) {
  return with(good_job, "{ mark = \"T1\", max = 900, odd_space = \"right\" }", row);
}
const Wall& wall(const House& h, std::string_view name) {
  const auto w = std::find_if(h.walls.begin(), h.walls.end(), [&](const Wall& x) { return x.name == name; });
  REQUIRE(w != h.walls.end());
  return *w;
}
bool remarked(const House& h, std::string_view words) {
  return std::any_of(h.remarks.begin(), h.remarks.end(),
                     [&](const std::string& r) { return r.find(words) != std::string::npos; });
}
std::string code_of(const std::string& job) {
  const Opened o = read(job);
  INFO(render(o.problems, false));
  CHECK_FALSE(o.house.has_value());
  REQUIRE(o.problems.size() == 1);
  return o.problems[0].code;
}

}  // namespace

TEST_CASE("the good job, said back whole") {
  CHECK(told(good(good_job)) ==
        R"(Test house | sheet 1 | job.toml | importance 2 | metric
class N3 by nobody: a test at job.toml:9
block main 12.000 m x 7.800 m, floor 0.300 m, height 2.700 m
roof ridge across, 22.50 deg, eaves 0.450 m, verge 0.300 m, 0.3500 kPa to 0.4500 kPa on slope; walls 0.2500 kPa
T1 at 0.000 m: demo-cleat (unless noted, job.toml:36)
T1 at 0.900 m: demo-cleat (unless noted, job.toml:36)
T1 at 1.800 m: demo-cleat (unless noted, job.toml:36)
T1 at 2.700 m: demo-cleat (unless noted, job.toml:36)
T1 at 3.600 m: demo-cleat (unless noted, job.toml:36)
T1 at 4.500 m: demo-cleat (unless noted, job.toml:36)
T1 at 5.400 m: demo-cleat (unless noted, job.toml:36)
T1 at 6.300 m: demo-cleat (unless noted, job.toml:36)
T1 at 7.200 m: demo-cleat (unless noted, job.toml:36)
T1 at 8.100 m: demo-cleat (unless noted, job.toml:36)
T1 at 9.000 m: demo-cleat (unless noted, job.toml:36)
T1 at 9.900 m: demo-cleat (unless noted, job.toml:36)
T1 at 10.800 m: demo-cleat (unless noted, job.toml:36)
T1 at 11.700 m: demo-cleat (unless noted, job.toml:36)
T1 at 12.000 m: demo-cleat (unless noted, job.toml:36)
wall A job.toml:47 front across line 0.000 m from 0.000 m to 12.000 m, anchors demo-bolt (unless noted, job.toml:35) at 1.200 m, plate 0.090 m
  0.000 m to 1.200 m A1 demo-sheet (unless noted, job.toml:33) hold-down demo-rod (unless noted, job.toml:33) in 0.100 m
  1.200 m to 4.200 m D1 2.100 m x 3.000 m door rated N3 jamb demo-bolt (unless noted, job.toml:34)
  4.200 m to 7.800 m
  7.800 m to 10.800 m D1 2.100 m x 3.000 m door rated N3 jamb demo-bolt (unless noted, job.toml:34)
  10.800 m to 12.000 m A2 demo-sheet (unless noted, job.toml:33) hold-down demo-rod (unless noted, job.toml:33) in 0.100 m
wall B job.toml:48 right up line 12.000 m from 0.000 m to 7.800 m, anchors demo-bolt (unless noted, job.toml:35) at 1.200 m, plate 0.090 m
  0.000 m to 1.200 m B1 demo-sheet (unless noted, job.toml:33) hold-down demo-rod (unless noted, job.toml:33) in 0.100 m
  1.200 m to 3.000 m
  3.000 m to 4.800 m W1 1.200 m x 1.800 m rated - jamb demo-bolt (unless noted, job.toml:34)
  4.800 m to 6.600 m
  6.600 m to 7.800 m B2 demo-sheet (unless noted, job.toml:33) hold-down demo-rod (unless noted, job.toml:33) in 0.100 m
wall C job.toml:49 back across line 7.800 m from 0.000 m to 12.000 m, anchors demo-bolt (unless noted, job.toml:35) at 1.200 m, plate 0.090 m
  0.000 m to 1.800 m C1 demo-sheet (unless noted, job.toml:33) hold-down demo-rod (unless noted, job.toml:33) in 0.100 m
  1.800 m to 10.200 m
  10.200 m to 12.000 m C2 demo-sheet (unless noted, job.toml:33) hold-down demo-rod (unless noted, job.toml:33) in 0.100 m
wall D job.toml:50 left up line 0.000 m from 0.000 m to 7.800 m, anchors demo-bolt (unless noted, job.toml:35) at 1.200 m, plate 0.090 m
  0.000 m to 1.200 m D1 demo-sheet (unless noted, job.toml:33) hold-down demo-rod (unless noted, job.toml:33) in 0.100 m
  1.200 m to 3.000 m
  3.000 m to 4.800 m W1 1.200 m x 1.800 m rated - jamb demo-bolt (unless noted, job.toml:34)
  4.800 m to 6.600 m
  6.600 m to 7.800 m D2 demo-sheet (unless noted, job.toml:33) hold-down demo-rod (unless noted, job.toml:33) in 0.100 m
wall E job.toml:51 inside up line 6.000 m from 0.000 m to 7.800 m, anchors demo-bolt (unless noted, job.toml:35) at 1.200 m, plate 0.090 m
  0.000 m to 1.800 m E1 demo-sheet (unless noted, job.toml:33) hold-down demo-rod (unless noted, job.toml:33) in 0.100 m
  1.800 m to 3.490 m
  3.490 m to 4.310 m D3 2.100 m x 0.820 m door rated - jamb demo-bolt (unless noted, job.toml:34)
  4.310 m to 6.000 m
  6.000 m to 7.800 m E2 demo-sheet (unless noted, job.toml:33) hold-down demo-rod (unless noted, job.toml:33) in 0.100 m
ties -; -; -
slab 0.100 m - - beyond 0.000 m
)");
}

TEST_CASE("units written out make the same house as a drawing in mm") {
  std::string job(good_job);
  for (const auto& [from, to] : std::initializer_list<std::pair<const char*, const char*>>{
           {"drawing = \"mm\"\n", "print = \"metric\"\n"},
           {"floor_level = 300", "floor_level = \"0.3 m\""},
           {"[12000, 7800]", "[\"12 m\", \"7800 mm\"]"},
           {"height = 2700", "height = \"2.7 m\""},
           {"max = 900", "max = \"900 mm\""},
           {"eaves = 450", "eaves = \"45 cm\""},
           {"verge = 300", "verge = \"300mm\""},
           {"thickness = 100", "thickness = \"100 mm\""},
           {"beyond = 0", "beyond = \"0 mm\""},
           {"max = 1200", "max = \"1.2 m\""},
           {"plate = 90", "plate = \"90 mm\""},
           {"hold_down_in = 100", "hold_down_in = \"100 mm\""},
           {"\"2100 x 3000\"", "\"2.1 m x 3 m\""},
           {"\"2100 x 820\"", "\"2100 mm x 820 mm\""},
           {"\"1200 x 1800\"", "\"1200 mm x 1.8 m\""},
           {"\"B 1200 | D1 | 3600 | D1 | B 1200\"", "\"B 1.2 m | D1 | 3.6 m | D1 | B 1200 mm\""},
           {"\"B 1200 | 1800 | W1 | 1800 | B 1200\"", "\"B 1.2 m | 1.8 m | W1 | 1.8 m | B 1.2 m\""},
           {"\"B 1800 | 8400 | B 1800\"", "\"B 1.8 m | 8.4 m | B 1.8 m\""},
           {"from_left = 6000", "from_left = \"6 m\""},
           {"\"B 1800 | 1690 | D3 | 1690 | B 1800\"", "\"B 1.8 m | 1.69 m | D3 | 1.69 m | B 1.8 m\""}})
    job = with(job, from, to);
  CHECK(told(good(job)) == told(good(good_job)));
}

TEST_CASE("a house drawn in feet and inches") {
  std::string job(good_job);
  for (const auto& [from, to] : std::initializer_list<std::pair<const char*, const char*>>{
           {"drawing = \"mm\"", "drawing = \"ft-in\"\nprint = \"us\""},
           {"floor_level = 300", "floor_level = \"1-0\""},
           {"[12000, 7800]", "[\"40-0\", \"26-0\"]"},
           {"height = 2700", "height = \"9 ft\""},
           {"max = 900", "max = \"2-0\""},
           {"eaves = 450", "eaves = \"1-6\""},
           {"verge = 300", "verge = \"1-0\""},
           {"thickness = 100", "thickness = \"4 in\""},
           {"beyond = 0", "beyond = \"0-0\""},
           {"max = 1200", "max = \"4-0\""},
           {"plate = 90", "plate = \"0-3.5\""},
           {"hold_down_in = 100", "hold_down_in = \"4 in\""},
           {"\"2100 x 3000\"", "\"6-8 x 8-0\""},
           {"\"2100 x 820\"", "\"6-8 x 3-0\""},
           {"\"1200 x 1800\"", "\"4-0 x 6-0\""},
           {"\"B 1200 | D1 | 3600 | D1 | B 1200\"", "\"B 4-0 | D1 | 16-0 | D1 | B 4-0\""},
           {"\"B 1200 | 1800 | W1 | 1800 | B 1200\"", "\"B 4-0 | 6-0 | W1 | 6-0 | B 4-0\""},
           {"\"B 1800 | 8400 | B 1800\"", "\"B 6-0 | 28-0 | B 6-0\""},
           {"from_left = 6000", "from_left = \"20-0\""},
           {"\"B 1800 | 1690 | D3 | 1690 | B 1800\"", "\"B 6-0 | 5-6 | D3 | 5-6 | B 6-0\""}})
    job = with(job, from, to);
  const House h = good(job);
  CHECK(h.print == Print::us);
  CHECK_THAT(h.across.value(), WithinAbs(12.192, 1e-12));
  CHECK_THAT(wall(h, "A").pieces.at(3).from.value(), WithinAbs(28 * 0.3048, 1e-12));
  CHECK(h.trusses.size() == 21);
  const Opened bare = read(with(job, "\"26-0\"", "26"));
  INFO(render(bare.problems, false));
  REQUIRE(bare.problems.size() == 1);
  CHECK(bare.problems[0].code == "bare-number");
  const Opened short_run = read(with(job, "| 16-0 |", "| 15-0 |"));
  REQUIRE(short_run.problems.size() == 1);
  CHECK_THAT(short_run.problems[0].message, Contains("39 ft") && Contains("40 ft") && Contains("short"));
}

TEST_CASE("trusses at a greatest space: where the odd space stands") {
  using V = std::vector<double>;
  const std::string small = with(
      with(with(with(trusses("{ mark = \"T1\", max = 900, odd_space = \"ODD\" }"), "[12000, 7800]", "[3000, 7800]"),
                "\"B 1200 | D1 | 3600 | D1 | B 1200\"", "\"B 3000\""),
           "\"B 1800 | 8400 | B 1800\"", "\"B 3000\""),
      "from_left = 6000", "from_left = 1500");
  CHECK(truss_places(good(with(small, "ODD", "right"))) == V{0, 900, 1800, 2700, 3000});
  CHECK(truss_places(good(with(small, "ODD", "left"))) == V{0, 300, 1200, 2100, 3000});
  CHECK(truss_places(good(with(small, "ODD", "middle"))) == V{0, 900, 1800, 2100, 3000});
  const House equal = good(with(small, ", odd_space = \"ODD\"", ""));
  CHECK(truss_places(equal) == V{0, 750, 1500, 2250, 3000});
  CHECK(remarked(equal, "equal spaces"));
  // No odd space when it goes in evenly, wherever it was asked for.
  CHECK(truss_places(good(with(with(small, "max = 900", "max = 1000"), "ODD", "left"))) == V{0, 1000, 2000, 3000});
  CHECK(truss_places(good(with(with(small, "max = 900", "max = 3000"), "ODD", "left"))) == V{0, 3000});
}

TEST_CASE("with the ridge up the sheet trusses count from the front") {
  const House h = good(
      with(with(good_job, "ridge = \"across\"", "ridge = \"up\""), "odd_space = \"right\"", "odd_space = \"back\""));
  CHECK(h.trusses.size() == 10);
  CHECK_THAT(h.trusses.at(8).at.value(), WithinAbs(7.2, 1e-9));
  CHECK_THAT(h.trusses.at(9).at.value(), WithinAbs(7.8, 1e-9));
  CHECK(code_of(with(good_job, "ridge = \"across\"", "ridge = \"up\"")) == "unknown-word");  // odd_space = "right"
}

TEST_CASE("trusses by their places, and both together") {
  using V = std::vector<double>;
  const House listed = good(trusses("{ mark = \"T1\", at = [300, 3000, 6000, 9000, 11700] }"));
  CHECK(truss_places(listed) == V{300, 3000, 6000, 9000, 11700});
  CHECK(remarked(listed, "no truss stands on the left wall: the first is 300 from it"));
  CHECK(remarked(listed, "no truss stands on the right wall: the last is 300 from it"));
  const House both = good(trusses("[{ mark = \"G1\", at = [0, 5000, 12000] }, { mark = \"T1\", max = 3000 }]"));
  CHECK(truss_places(both) == V{0, 3000, 5000, 6000, 9000, 12000});
  CHECK(both.trusses[0].mark == "G1");  // a listed truss stands in the place of the other
  CHECK(both.trusses[1].mark == "T1");
  CHECK_FALSE(remarked(both, "no truss"));
  CHECK(code_of(trusses("[{ mark = \"T1\", max = 900 }, { mark = \"T2\", max = 900 }]")) == "two-spacings");
  CHECK(code_of(trusses("{ mark = \"T1\" }")) == "missing-key");
  CHECK(code_of(trusses("{ mark = \"T1\", max = 900, at = [0] }")) == "two-ways");
  CHECK(code_of(trusses("[]")) == "no-trusses");
  CHECK(code_of(trusses("{ mark = \"T1\", at = [0, \"3 kN\"] }")) == "wrong-unit");
  CHECK(code_of(trusses("{ mark = \"H1\", hip_girder = 2400, max = 900 }")) == "wrong-key");
}

TEST_CASE("brackets by the trusses' marks") {
  const std::string job = trusses("[{ mark = \"G1\", at = [0, 12000] }, { mark = \"T1\", max = 900 }]");
  House h = good(with(job, "truss = \"demo-cleat\"", "truss = { G1 = \"demo-cleat\" }"));
  CHECK(h.trusses.front().bracket.given());
  CHECK(h.trusses.front().bracket.by == "unless noted");
  CHECK(h.trusses.front().bracket.at == "job.toml:36");
  CHECK_FALSE(h.trusses.at(1).bracket.given());  // none stated: none taken
  h = good(with(job, "truss = \"demo-cleat\"", "truss = { rest = \"demo-cleat\" }"));
  CHECK(h.trusses.at(1).bracket.given());
  h = good(with(job, "truss = \"demo-cleat\"\n", ""));
  CHECK_FALSE(h.trusses.front().bracket.given());
}

TEST_CASE("what a mark says holds over what holds unless noted") {
  House h = good(
      with(with(good_job, "wind_rated = \"N3\" }", "wind_rated = \"not known\", jamb = \"demo-rod\", open = true }"),
           "B = { brace = \"demo-sheet\", hold_down = \"demo-rod\" }",
           "B = { brace = \"demo-sheet\" }\nhold_down = \"demo-bolt\"\nplate_anchors_share = true"));
  const Piece& door = wall(h, "A").pieces.at(1);
  CHECK(door.opening->jamb.name == "demo-rod");
  CHECK(door.opening->jamb.by == "mark D1");
  CHECK(door.opening->jamb.at == "job.toml:43");
  CHECK(door.opening->stands_open);
  CHECK(remarked(h, "door D1 counts as open: its wind rating is not known"));
  const Piece& brace = wall(h, "A").pieces.at(0);
  CHECK(brace.brace->hold_down.name == "demo-bolt");
  CHECK(brace.brace->hold_down.at == "job.toml:34");
  CHECK(brace.brace->plate_anchors_share);

  h = good(with(good_job, "D1 = { size = \"2100 x 3000\", wind_rated = \"N3\" }", "D1 = \"2100 x 3000\""));
  CHECK(remarked(h, "door D1 counts as open: no wind rating is given"));
  h = good(with(good_job, "W1 = \"1200 x 1800\"", "W1 = { size = \"1200 x 1800\", door = true }"));
  CHECK(wall(h, "B").pieces.at(2).opening->door);
  h = good(with(good_job, "D3 = \"2100 x 820\"", "D3 = { size = \"2100 x 820\", door = false }"));
  CHECK_FALSE(wall(h, "E").pieces.at(2).opening->door);
  h = good(with(good_job, "D3 = \"2100 x 820\"", "D3 = { size = \"1800 x 820\", door = \"hatch\" }"));
  CHECK(wall(h, "E").pieces.at(2).opening->door);
}

TEST_CASE("a unit of fixed length needs no length in the run; a single strap needs its foot") {
  const House h = good(with(good_job, "C = \"B 1800 | 8400 | B 1800\"", "C = \"P9 | 10200 | P9 900\""));
  CHECK(wall(h, "C").pieces.at(0).brace->fixing.name == "demo-unit");
  CHECK(wall(h, "C").pieces.at(0).brace->fixing.by == "mark P9");
  CHECK(wall(h, "C").pieces.at(0).to == metre * 900.0 / 1000.0);
  CHECK_FALSE(wall(h, "C").pieces.at(0).brace->hold_down.given());

  const std::string limit = with(good_fixings, "basis = \"allowable\"", "basis = \"design\"");
  const auto strap = [&](std::string_view mark) {
    return read(with(with(good_job, "{ brace = \"demo-unit\" }", mark), "C = \"B 1800 |", "C = \"P9 1800 |"), limit);
  };
  const Opened without = strap("{ brace = \"demo-single\" }");
  REQUIRE(without.problems.size() == 1);
  CHECK_THAT(without.problems[0].message, Contains("`foot` is missing"));
  const Opened with_foot = strap("{ brace = \"demo-single\", foot = \"right\" }");
  REQUIRE(with_foot.house.has_value());
  CHECK(wall(*with_foot.house, "C").pieces.at(0).brace->foot == Side::right);
  CHECK(code_of(with(good_job, "{ brace = \"demo-unit\" }", "{ brace = \"demo-unit\", foot = \"left\" }")) ==
        "wrong-key");
}

TEST_CASE("a turned run counts from the left all the same") {
  const House h = good(
      with(good_job, "C = \"B 1800 | 8400 | B 1800\"", "C = { run = \"B 1200 | 9000 | B 1800\", from = \"right\" }"));
  CHECK(wall(h, "C").pieces.at(0).to == metre * 1800.0 / 1000.0);
  CHECK(wall(h, "C").pieces.at(0).brace->name == "C1");
  CHECK(wall(h, "C").pieces.at(2).brace->name == "C2");
  // `same_as` turns with the wall that it follows, unless it says otherwise.
  const std::string turned = with(good_job, "B = \"B 1200 | 1800 | W1 | 1800 | B 1200\"",
                                  "B = { run = \"B 1000 | 2000 | W1 | 1800 | B 1200\", from = \"back\" }");
  CHECK_THAT(wall(good(turned), "D").pieces.at(0).to.value(), WithinAbs(1.2, 1e-12));
  CHECK_THAT(
      wall(good(with(turned, "same_as = \"B\"", "same_as = \"B\", from = \"front\"")), "D").pieces.at(0).to.value(),
      WithinAbs(1.0, 1e-12));
  CHECK(code_of(with(good_job, "D = { same_as = \"B\" }", "D = { same_as = \"B\", from = \"right\" }")) ==
        "unknown-word");
}

TEST_CASE("inside walls stand by one dimension, and may reach through a part of the block") {
  const House h = good(with(good_job, "E = { from_left = 6000, run = \"B 1800 | 1690 | D3 | 1690 | B 1800\" }",
                            "E = { in = \"main\", from_front = 4000, between = [1000, 3000], run = \"B 2000\" }\nE1 = "
                            "{ from_left = 3000, between = [4000, 7800], run = \"B 3800\" }"));
  const Wall& e = wall(h, "E");
  CHECK_FALSE(e.outside);
  CHECK(e.runs == Along::across);
  CHECK(e.line == metre * 4000.0 / 1000.0);
  CHECK(e.from == metre);
  CHECK(e.length() == metre * 2.0);
  CHECK(e.pieces.at(0).brace->name == "E1");
  CHECK(wall(h, "E1").pieces.at(0).brace->name == "E1-1");  // a name that ends in a figure
  CHECK(code_of(with(good_job, "from_left = 6000,", "from_left = 6000, between = [4000, 4000],")) ==
        "wall-off-the-block");
  CHECK(code_of(with(good_job, "from_left = 6000,", "from_left = 6000, between = [4000, 9000],")) ==
        "wall-off-the-block");
  CHECK(code_of(with(good_job, "from_left = 6000,", "from_left = 6000, from_front = 10,")) == "two-ways");
  CHECK(code_of(with(good_job, "from_left = 6000,", "from_left = 6000, in = \"mian\",")) == "unknown-block");
}

TEST_CASE("a chain of same_as ends at a run") {
  const House h = good(with(good_job, "D = { same_as = \"B\" }\n",
                            "D = { same_as = \"F\" }\nF = { from_left = 3000, same_as = \"B\" }\n"));
  CHECK(wall(h, "D").pieces.size() == 5);
  CHECK(wall(h, "F").pieces.at(4).brace->name == "F2");
  CHECK(code_of(with(good_job, "D = { same_as = \"B\" }", "D = { same_as = \"B\", run = \"B 7800\" }")) == "two-ways");
}

TEST_CASE("an ASCE site, under [site] or as a table of its own") {
  const std::string limit = with(good_fixings, "basis = \"allowable\"", "basis = \"design\"");
  const std::string keys =
      "speed = \"130 mph\"\nspeed_is = \"ultimate\"\nexposure = \"C\"\nrisk = \"II\"\nlevel = "
      "\"strength\"\ndebris_region = false\n";
  const std::string flat = with(good_job, "class = \"N3\"\n", "method = \"ASCE 7-16\"\n" + keys);
  const House h = good(flat, limit);
  const auto& site = std::get<AsceSite>(h.site);
  CHECK(site.edition == "7-16");
  CHECK_THAT(site.speed.value(), WithinAbs(130 * 0.44704, 1e-9));
  CHECK(site.exposure == "C");
  CHECK(site.debris_region == false);
  CHECK(site.given_by == "nobody: a test");
  CHECK(remarked(h, "taken as flat"));
  const House own = good(with(good_job, "[site]\nclass = \"N3\"\n", "[site.asce-7-10]\n" + keys), limit);
  CHECK(std::get<AsceSite>(own.site).edition == "7-10");
  const House by_class = good(with(good_job, "[site]\n", "[site.as-4055]\n"));
  CHECK(std::get<ClassSite>(by_class.site).wind_class == "N3");

  CHECK(code_of(with(flat, "risk = \"II\"\n", "")) == "missing-key");
  CHECK(code_of(with(flat, "\"C\"\nrisk", "\"E\"\nrisk")) == "unknown-word");
  CHECK(code_of(with(flat, "\"ultimate\"", "\"nominal\"")) == "wrong-speed");
  CHECK(code_of(with(flat, "ASCE 7-16", "ASCE 7-05")) == "wrong-speed");
  CHECK(code_of(with(flat, "risk =", "topography = \"hill\"\nrisk =")) == "unknown-word");
  CHECK(code_of(with(flat, "\"130 mph\"", "\"130 km\"")) == "wrong-unit");
  CHECK(code_of(with(flat, "\"130 mph\"", "\"1300 mph\"")) == "unbelievable-value");
  CHECK(code_of(with(flat, "method =", "class = \"N3\"\nmethod =")) == "wrong-key");
  CHECK(code_of(with(good_job, "[block.main]", "[site.asce-7-16]\n" + keys + "given_by = \"x\"\n[block.main]")) ==
        "two-sites");
  CHECK(code_of(with(good_job, "[site]\nclass = \"N3\"\n",
                     "[site.as-4055]\nclass = \"N3\"\ngiven_by = \"x\"\n[site.asce-7-16]\n" + keys)) ==
        "several-sites");
}

TEST_CASE("what others answer for, figures that were checked, ties") {
  const House h = good(with(
      with(good_job, "[slab]", "[checked]\n\"AS 4055 roof uplift 0.99\" = \"J. Test, 3 March, library copy\"\n[slab]"),
      "drawn = \"sheet 1\"", "by_others = { \"stud tie\" = \"frame maker\", ground = \"engineer\" }"));
  REQUIRE(h.by_others.size() == 2);
  CHECK(h.by_others[1].what == "stud tie");
  CHECK(h.by_others[1].who == "frame maker");
  REQUIRE(h.checked.size() == 1);
  CHECK(h.checked[0].figure == "AS 4055 roof uplift 0.99");
  CHECK(remarked(h, "no drawing is named"));
  CHECK(code_of(with(good_job, "drawn = \"sheet 1\"", "by_others = { bracket = \"x\" }")) == "unknown-link");
}

TEST_CASE("what is left out is said, and never taken for more than it is") {
  std::string job(good_job);
  for (const char* line :
       {"wall_weight = \"0.25 kPa\"\n", "[slab]\nthickness = 100\nbeyond = 0\n", "hold_down_in = 100\n",
        "jamb = \"demo-bolt\"\n", "anchor = { use = \"demo-bolt\", max = 1200 }\n", "truss = \"demo-cleat\"\n"})
    job = with(job, line, "");
  const House h = good(job);
  CHECK(h.wall_weight == zero<Pressure>());
  CHECK(remarked(h, "no wall weight is given"));
  CHECK_FALSE(h.slab.thickness.has_value());
  CHECK_FALSE(h.slab.concrete.has_value());
  CHECK_FALSE(h.slab.cracked.has_value());
  CHECK(remarked(h, "flush with the slab's edge"));
  CHECK(remarked(h, "100 mm in from a brace's end"));
  CHECK(remarked(h, "no plate anchor is given"));
  CHECK_FALSE(wall(h, "A").anchor.given());
  CHECK(wall(h, "A").anchor_spacing == metre * 1.2);
  CHECK_FALSE(wall(h, "A").pieces.at(1).opening->jamb.given());
  CHECK_FALSE(h.trusses.front().bracket.given());
}

TEST_CASE("a job made without a file settles too, and names paths") {
  raw::Job job;
  job.site.wind_class = "N3";
  job.site.given_by = "a test";
  job.blocks["main"];
  const Defaults unsaid{.door_height = metre * 1.9,
                        .wide_door = metre * 2.4,
                        .wide_door_height = metre * 1.5,
                        .anchor_spacing = metre * 1.2,
                        .hold_down_in = metre * 0.1};
  const Settled s = settle(
      job, nullptr, [](std::string_view path) { return std::string(path); }, unsaid,
      Sites{{{"as-4055", "2021", "AS 4055:2021", [] { return SiteWords{}; }}}, {}, ""});
  CHECK_FALSE(s.house.has_value());
}

TEST_CASE("what a job may leave to others is what the answer knows as such") {
  std::set<std::string_view> of_the_answer;
  for (const Kind_of_link& k : kinds_of_link())
    if (k.may_be_by_others) of_the_answer.insert(k.kind);
  of_the_answer.insert("veranda");  // all of a veranda's kinds at once
  const auto of_the_job = kinds_by_others();
  CHECK(of_the_answer == std::set<std::string_view>(of_the_job.begin(), of_the_job.end()));
}

TEST_CASE("what nothing is said of follows the rules of thumb that the practice table holds") {
  const Table& practice = table("practice/common.toml");
  const House h =
      good(with(with(good_job, "hold_down_in = 100\n", ""), "anchor = { use = \"demo-bolt\", max = 1200 }\n", ""));
  CHECK(wall(h, "A").anchor_spacing == practice.get<Length>("anchor_spacing", "greatest"));
  CHECK(wall(h, "A").pieces.at(0).brace->hold_down_in == practice.get<Length>("hold_down", "in_from_end"));
  CHECK(std::find(h.remarks.begin(), h.remarks.end(),
                  "hold-downs stand 100 mm in from a brace's end: nothing else is said (hold_down_in)") !=
        h.remarks.end());
  const auto door = [&](std::string_view size) {
    return wall(good(with(good_job, "D3 = \"2100 x 820\"", fmt::format("D3 = \"{} x 820\"", size))), "E")
        .pieces.at(2)
        .opening->door;
  };
  CHECK(door("1900"));
  CHECK_FALSE(door("1899"));
}
