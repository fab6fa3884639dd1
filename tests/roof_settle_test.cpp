// Roofs and what carries them, from the job to the house: every shape that can be written, and what is refused of each,
// at its place and with what would make it right. All houses invented.
#include "houses.hpp"
#include "job_text.hpp"
#include "load_path/members.hpp"
#include <algorithm>
#include <map>
#include <random>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;

namespace {

using Places = std::vector<double>;

// In whole millimetres and parts of them, as a drawing has them.
Places places(const House& h) {
  Places out;
  for (const Truss& t : h.trusses) out.push_back(std::round(in(value(t.at), metric) * 1e6) / 1000.0);
  return out;
}
std::string with_each(std::string text, std::initializer_list<std::pair<const char*, const char*>> changes) {
  for (const auto& [from, to] : changes) text = with(text, from, to);
  return text;
}
bool remarked(const House& h, std::string_view words) {
  return std::any_of(h.remarks.begin(), h.remarks.end(),
                     [&](const std::string& r) { return r.find(words) != std::string::npos; });
}
std::size_t at(Side s) { return static_cast<std::size_t>(s); }
double deg(Angle a) { return in(value(a), metric); }
// The job with an inside wall that runs across the sheet, under all trusses, 4000 from the front.
std::string with_a_spine(const std::string& job) {
  return with(job, "E = { from_left = 6000, run = \"B 1800 | 1690 | D3 | 1690 | B 1800\" }",
              "E = { from_front = 4000, run = \"B 1800 | 8400 | B 1800\" }");
}
const char* const mm_900 = "max = 900, odd_space = \"right\" }";

// A problem that is the only one.
Problem only(const std::string& job, const std::string& fixings = std::string(good_fixings)) {
  const Opened o = read(job, fixings);
  INFO(render(o.problems, false));
  CHECK_FALSE(o.house.has_value());
  REQUIRE(o.problems.size() == 1);
  return o.problems[0];
}

}  // namespace

// ---- what can be written -------------------------------------------------------------------------------------------

TEST_CASE("a hip roof, both ends of it") {
  const House h = good(good_hip_job());
  CHECK(h.roof.shape == RoofShape::hip);
  CHECK(h.roof.ridge == Along::across);
  CHECK(h.roof.hipped[at(Side::left)]);
  CHECK(h.roof.hipped[at(Side::right)]);
  CHECK_FALSE(h.roof.hipped[at(Side::front)]);
  CHECK_FALSE(h.roof.hipped[at(Side::back)]);
  CHECK(h.roof.verge == zero<Length>());
  CHECK(remarked(h, "both ends of the roof are hips: nothing else is said (hipped)"));
  // From girder to girder.
  CHECK(places(h) == Places{2400, 3300, 4200, 5100, 6000, 6900, 7800, 8700, 9600});
  CHECK(h.trusses.front().girder);
  CHECK(h.trusses.front().mark == "TG1");
  CHECK(h.trusses.back().girder);
  CHECK(std::count_if(h.trusses.begin(), h.trusses.end(), [](const Truss& t) { return t.girder; }) == 2);
  // The apex is half of the span in: equal pitches.
  CHECK(remarked(h, "T1 at 3300 is truncated: between the girder and the apex of the left hip, 3900 from its wall"));
  CHECK(remarked(h, "T1 at 8700 is truncated: between the girder and the apex of the right hip, 3900 from its wall"));
  CHECK_FALSE(remarked(h, "no truss stands"));
  REQUIRE(h.hip_ends.size() == 2);
  for (const HipEnd& e : h.hip_ends) {
    CHECK(e.jack == "J1");
    CHECK(e.rafter == "H1");
    CHECK_THAT(in(value(e.jacks), metric), WithinAbs(0.9, 1e-12));
    for (const Chosen* c : {&e.jack_bracket, &e.rafter_bracket}) {
      CHECK(c->name == "demo-cleat");
      CHECK(c->by == "unless noted");
      CHECK(c->at == "job.toml:40");
    }
    for (const Chosen* c : {&e.jack_onto, &e.rafter_onto}) CHECK(c->at == "job.toml:41");
  }
  CHECK(h.hip_ends[0].side == Side::left);
  CHECK(h.hip_ends[1].side == Side::right);
}

TEST_CASE("one end is a hip, the other a gable") {
  const std::string one =
      with_each(good_hip_job(), {{"shape = \"hip\"", "shape = \"hip\"\nhipped = \"left\"\nverge = 300"}});
  House h = good(one);
  CHECK(h.roof.hipped[at(Side::left)]);
  CHECK_FALSE(h.roof.hipped[at(Side::right)]);
  CHECK(places(h) == Places{2400, 3300, 4200, 5100, 6000, 6900, 7800, 8700, 9600, 10500, 11400, 12000});
  CHECK(h.trusses.front().girder);
  CHECK_FALSE(h.trusses.back().girder);
  REQUIRE(h.hip_ends.size() == 1);
  CHECK(h.hip_ends[0].side == Side::left);
  CHECK_FALSE(remarked(h, "nothing else is said (hipped)"));
  h = good(with(one, "hipped = \"left\"", "hipped = [\"right\"]"));
  CHECK(places(h) == Places{0, 900, 1800, 2700, 3600, 4500, 5400, 6300, 7200, 8100, 9000, 9600});
  CHECK(h.trusses.back().girder);
  CHECK(h.hip_ends.at(0).side == Side::right);
  CHECK(remarked(h, "T1 at 9000 is truncated: between the girder and the apex of the right hip"));
  // Up the sheet: the ends are the front and the back.
  h = good(with_each(one, {{"hipped = \"left\"", "hipped = \"back\""},
                           {"ridge = \"across\"", "ridge = \"up\"\nback = { pitch = \"50 deg\" }"},
                           {"odd_space = \"right\"", "odd_space = \"front\""},
                           {"hip_girder = 2400", "hip_girder = 1500"}}));
  CHECK(places(h) == Places{0, 900, 1800, 2700, 3600, 4500, 5400, 6300});
  CHECK(h.hip_ends.at(0).side == Side::back);
}

TEST_CASE("hip ends that differ have rows of their own") {
  const std::string job =
      with_each(good_hip_job(), {{"{ mark = \"TG1\", hip_girder = 2400 }",
                                  "{ mark = \"TG1\", hip_girder = 2400, end = \"left\", plies = 2 },"
                                  " { mark = \"TG2\", hip_girder = 1800, end = \"right\" }"},
                                 {"{ mark = \"J1\", jacks = 900 }",
                                  "{ mark = \"J2\", jacks = 600, end = \"right\" },"
                                  " { mark = \"J1\", jacks = 900, end = \"left\" }"},
                                 {"eaves = 450", "eaves = 450\nright = { pitch = \"35 deg\" }"}});
  const House h = good(job);
  CHECK(h.trusses.front().mark == "TG1");
  CHECK(h.trusses.front().plies == 2);
  CHECK(h.trusses.back().mark == "TG2");
  CHECK(h.trusses.back().plies == 1);
  CHECK(places(h).front() == 2400);
  CHECK(places(h).back() == 10200);
  CHECK(h.hip_ends.at(0).jack == "J1");
  CHECK(h.hip_ends.at(1).jack == "J2");
  CHECK_THAT(in(value(h.hip_ends.at(1).jacks), metric), WithinAbs(0.6, 1e-12));
  CHECK(h.hip_ends.at(1).rafter == "H1");
  REQUIRE(h.roof.own_pitch[at(Side::right)].has_value());
  CHECK_THAT(deg(*h.roof.own_pitch[at(Side::right)]), WithinAbs(35, 1e-9));
  // The steeper hip ends sooner, 3900 x tan 22.5 deg / tan 35 deg = 2307 from its wall: no truss stands within that.
  CHECK(remarked(h, "T1 at 3300 is truncated: between the girder and the apex of the left hip, 3900 from its wall"));
  CHECK_FALSE(remarked(h, "right hip"));
}

TEST_CASE("a gable above a hip end stands over its girder") {
  const House h = good(with_each(good_hip_job(), {{"eaves = 450", "eaves = 450\nleft = { gable_above = 2400 }"}}));
  CHECK_THAT(in(value(h.roof.gable_above[at(Side::left)]), metric), WithinAbs(2.4, 1e-12));
  CHECK(h.roof.gable_above[at(Side::right)] == zero<Length>());
  CHECK_FALSE(remarked(h, "left hip"));  // no truss behind that girder is truncated
  CHECK(remarked(h, "apex of the right hip"));
  CHECK(h.trusses.front().at == h.roof.gable_above[at(Side::left)]);
}

TEST_CASE("a hip roof over a square meets in a point") {
  const std::string square = with_each(good_hip_job(), {{"[12000, 7800]", "[7800, 7800]"},
                                                        {"A = \"B 1200 | D1 | 3600 | D1 | B 1200\"", "A = \"B 7800\""},
                                                        {"C = \"B 1800 | 8400 | B 1800\"", "C = \"B 7800\""}});
  CHECK(places(good(square)) == Places{2400, 3300, 4200, 5100, 5400});
  // A girder in the point of the roof, once.
  const House h = good(with(square, "{ mark = \"TG1\", hip_girder = 2400 }",
                            "{ mark = \"TG1\", hip_girder = 3900, end = \"left\" }, { mark = \"TG2\", hip_girder = "
                            "3000, end = \"right\" }"));
  CHECK(places(h) == Places{3900, 4800});
  const Problem p = only(with(square, "hip_girder = 2400", "hip_girder = 3900"));
  CHECK(p.code == "truss-twice");
  CHECK_THAT(p.message, Contains("the girders of both hip ends stand at 3900"));
  // Half a millimetre beyond the apex is the apex on a drawing, and never beyond it in the house.
  const House odd = good(with_each(square, {{"[7800, 7800]", "[7801, 7801]"},
                                            {"A = \"B 7800\"", "A = \"B 7801\""},
                                            {"C = \"B 7800\"", "C = \"B 7801\""},
                                            {"1800 | W1 | 1800 | B 1200", "1801 | W1 | 1800 | B 1200"},
                                            {"E = { from_left = 6000, run = \"B 1800 | 1690 |",
                                             "E = { from_left = "
                                             "6000, run = \"B 1800 | 1691 |"},
                                            {"{ mark = \"TG1\", hip_girder = 2400 }",
                                             "{ mark = \"TG1\", hip_girder = \"3900.9 mm\", end = \"left\" }, { mark "
                                             "= \"TG2\", hip_girder = 3000, end = \"right\" }"}}));
  CHECK_THAT(in(value(odd.trusses.front().at), metric), WithinAbs(3.9005, 1e-12));
}

TEST_CASE("skillions and flat roofs: the ridge follows from the high side") {
  const std::string skillion = with_each(std::string(good_job), {{"shape = \"gable\"", "shape = \"skillion\""},
                                                                 {"ridge = \"across\"", "high = \"back\""},
                                                                 {"\"22.5 deg\"", "\"8 deg\""}});
  House h = good(skillion);
  CHECK(h.roof.shape == RoofShape::skillion);
  CHECK(h.roof.ridge == Along::across);
  CHECK(h.roof.high == Side::back);
  CHECK(h.trusses.size() == 15);
  CHECK(h.hip_ends.empty());
  // Said as well, and not against it.
  CHECK(places(good(with(skillion, "high = \"back\"", "high = \"back\"\nridge = \"across\""))) == places(h));
  h = good(
      with_each(skillion, {{"high = \"back\"", "high = \"left\""}, {"odd_space = \"right\"", "odd_space = \"back\""}}));
  CHECK(h.roof.ridge == Along::up);
  CHECK(h.roof.high == Side::left);
  CHECK(h.trusses.size() == 10);

  const std::string flat = with_each(skillion, {{"\"skillion\"", "\"flat\""}, {"\"8 deg\"", "\"5 deg\""}});
  CHECK(good(flat).roof.shape == RoofShape::flat);
  h = good(with(flat, "pitch = \"5 deg\"\n", ""));
  CHECK(h.roof.pitch == zero<Angle>());
  CHECK(remarked(h, "the flat roof is taken as level: no pitch is given"));
  CHECK(good(with(flat, "\"5 deg\"", "\"0 deg\"")).roof.pitch == zero<Angle>());
  // The low side may say its own pitch and overhang, the high one its overhang.
  h = good(with(skillion, "eaves = 450", "eaves = 450\nfront = { pitch = \"10 deg\" }\nback = { overhang = 200 }"));
  CHECK_THAT(deg(h.roof.own_pitch[at(Side::front)].value()), WithinAbs(10, 1e-9));
  CHECK_THAT(in(value(h.roof.own_overhang[at(Side::back)].value()), metric), WithinAbs(0.2, 1e-12));
}

TEST_CASE("a gable with slopes and overhangs that differ") {
  const std::string uneven = with(
      good_job, "verge = 300", "verge = 300\nback = { pitch = \"35 deg\", overhang = 900 }\nleft = { overhang = 0 }");
  House h = good(uneven);
  CHECK(h.roof.shape == RoofShape::gable);
  CHECK_THAT(deg(h.roof.pitch), WithinAbs(22.5, 1e-9));
  CHECK_THAT(deg(h.roof.own_pitch[at(Side::back)].value()), WithinAbs(35, 1e-9));
  CHECK_FALSE(h.roof.own_pitch[at(Side::front)].has_value());
  CHECK_THAT(in(value(h.roof.own_overhang[at(Side::back)].value()), metric), WithinAbs(0.9, 1e-12));
  CHECK(h.roof.own_overhang[at(Side::left)] == zero<Length>());
  CHECK_FALSE(h.roof.own_overhang[at(Side::right)].has_value());
  // As tables of their own, in any order.
  const House tables = good(with(uneven, "back = { pitch = \"35 deg\", overhang = 900 }\nleft = { overhang = 0 }", "") +
                            "[block.main.roof.left]\noverhang = 0\n[block.main.roof.back]\noverhang = 900\npitch = "
                            "\"35 deg\"\n");
  CHECK(tables.roof.own_pitch == h.roof.own_pitch);
  CHECK(tables.roof.own_overhang == h.roof.own_overhang);
  // Where every slope has its own pitch and every side its own overhang, nothing need hold for the others.
  h = good(with_each(std::string(good_job),
                     {{"pitch = \"22.5 deg\"\n", ""},
                      {"eaves = 450\n", ""},
                      {"verge = 300\n",
                       "front = { pitch = \"20 deg\", overhang = 450 }\nback = { pitch = \"30 deg\", overhang = 600 }\n"
                       "left = { overhang = 300 }\nright = { overhang = 300 }\n"}}));
  CHECK_THAT(deg(h.roof.pitch), WithinAbs(30, 1e-9));
}

TEST_CASE("plies, and trusses on inside walls") {
  const std::string spine = with_a_spine(std::string(good_job));
  House h = good(with(spine, mm_900, "max = 900, odd_space = \"right\", also_on = \"E\", plies = 2 }"));
  CHECK(h.trusses.size() == 15);
  for (const Truss& t : h.trusses) {
    CHECK(t.plies == 2);
    CHECK(t.also_on == std::vector<std::string>{"E"});
    CHECK_FALSE(t.girder);
  }
  // Only those of the row that says so.
  h = good(with(spine, std::string("{ mark = \"T1\", ") + mm_900,
                "[{ mark = \"G1\", at = [0, 12000], also_on = [\"E\"] }, { mark = \"T1\", max = 900 }]"));
  CHECK(h.trusses.front().also_on.size() == 1);
  CHECK(h.trusses.at(1).also_on.empty());
  // A wall under some of them, and girders on it.
  const std::string half = with(with_a_spine(good_hip_job()), "from_front = 4000, run = \"B 1800 | 8400 | B 1800\"",
                                "from_front = 4000, between = [2400, 9600], run = \"B 1800 | 3600 | B 1800\"");
  h = good(with_each(half, {{"hip_girder = 2400", "hip_girder = 2400, also_on = \"E\""},
                            {mm_900, "max = 900, odd_space = \"right\", also_on = [\"E\"] }"}}));
  CHECK(h.trusses.front().also_on == std::vector<std::string>{"E"});
}

TEST_CASE("brackets on walls and on other members, by mark") {
  const std::string job =
      with_each(good_hip_job(), {{"truss = \"demo-cleat\"", "truss = { TG1 = \"demo-cleat\", J1 = \"demo-cleat\" }"},
                                 {"onto = \"demo-cleat\"", "onto = { H1 = \"demo-cleat\" }"}});
  House h = good(job);
  CHECK(h.trusses.front().bracket.given());
  CHECK_FALSE(h.trusses.at(1).bracket.given());
  CHECK(h.hip_ends[0].jack_bracket.given());
  CHECK_FALSE(h.hip_ends[0].rafter_bracket.given());
  CHECK_FALSE(h.hip_ends[0].jack_onto.given());
  CHECK(h.hip_ends[0].rafter_onto.name == "demo-cleat");
  h = good(with(job, "onto = { H1", "onto = { rest"));
  CHECK(h.hip_ends[1].jack_onto.given());
  h = good(with(good_hip_job(), "onto = \"demo-cleat\"\n", ""));
  CHECK_FALSE(h.hip_ends[0].jack_onto.given());  // none stated: none taken
}

TEST_CASE("what a bracket holds when pressed down") {
  CHECK_FALSE(good(good_job).fixings.brackets.at(0).press.has_value());
  const House h = good(good_job, with(good_fixings, "uplift = \"6.0 kN\"", "uplift = \"6.0 kN\"\npress = \"9 kN\""));
  REQUIRE(h.fixings.brackets.at(0).press.has_value());
  CHECK_THAT(in(value(*h.fixings.brackets.at(0).press), metric), WithinAbs(9, 1e-12));
}

TEST_CASE("houses for tests can have any roof") {
  CHECK(hip_box().house().hip_ends.size() == 2);
  Draft one = hip_box();
  one.hipped = "\"right\"";
  CHECK(one.house().hip_ends.size() == 1);
  Draft above = hip_box();
  above.roof_side("left", "{ gable_above = \"2.4 m\" }");
  CHECK(above.house().roof.gable_above[at(Side::left)] > zero<Length>());
  CHECK(skillion_box().house().roof.shape == RoofShape::skillion);
  Draft flat = skillion_box();
  flat.shape = "flat";
  flat.pitch = "";
  CHECK(flat.house().roof.shape == RoofShape::flat);
}

TEST_CASE("the shapes of a roof in words") {
  CHECK(words(RoofShape::gable) == "gable");
  CHECK(words(RoofShape::hip) == "hip");
  CHECK(words(RoofShape::skillion) == "skillion");
  CHECK(words(RoofShape::flat) == "flat");
}

TEST_CASE("a hip roof drawn in feet and inches says so in its messages") {
  std::string job =
      with_each(good_hip_job(), {{"drawing = \"mm\"", "drawing = \"ft-in\""},
                                 {"floor_level = 300", "floor_level = \"1-0\""},
                                 {"[12000, 7800]", "[\"40-0\", \"26-0\"]"},
                                 {"height = 2700", "height = \"9 ft\""},
                                 {"max = 900", "max = \"2-0\""},
                                 {"hip_girder = 2400", "hip_girder = \"8-0\""},
                                 {"jacks = 900", "jacks = \"2-0\""},
                                 {"eaves = 450", "eaves = \"1-6\""},
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
                                 {"\"B 1800 | 1690 | D3 | 1690 | B 1800\"", "\"B 6-0 | 5-6 | D3 | 5-6 | B 6-0\""}});
  CHECK(good(job).trusses.size() == 13);
  CHECK_THAT(only(with(job, "\"8-0\"", "\"14-0\"")).message, Contains("14 ft") && Contains("13 ft"));
}

// ---- what is refused -----------------------------------------------------------------------------------------------

namespace {

struct Bad {
  const char* what;
  const char* from;
  const char* to;
  const char* code;
  unsigned line, column, length;
  const char* message;  // a part of it
  const char* help;     // a part of it
};
void each_is_one_problem(const std::string& job, std::span<const Bad> list) {
  for (const Bad& b : list) {
    const Opened o = read(with(job, b.from, b.to));
    INFO(b.what << "\n" << render(o.problems, false));
    CHECK_FALSE(o.house.has_value());
    CHECK(o.problems.size() == 1);
    if (o.problems.empty()) continue;
    const Problem& p = o.problems[0];
    CHECK(p.code == b.code);
    CHECK(p.line == b.line);
    CHECK(p.column == b.column);
    CHECK(p.length == b.length);
    CHECK_THAT(p.message, Contains(b.message));
    CHECK_THAT(p.help, Contains(b.help));
  }
}

// In the good job: a gable. Its trusses stand on line 18, its roof from line 20.
const Bad of_a_gable[]{
    {"ridge left out", "ridge = \"across\"\n", "", "missing-key", 20, 1, 17, "`ridge` is missing: the way",
     "it takes text"},
    {"eaves left out", "eaves = 450\n", "", "missing-key", 20, 1, 17, "`eaves` is missing", "it takes a length"},
    {"verge left out", "verge = 300\n", "", "missing-key", 20, 1, 17, "`verge` is missing: the overhang at the gables",
     "it takes a length"},
    {"high", "eaves = 450", "eaves = 450\nhigh = \"back\"", "wrong-key", 25, 1, 4, "belongs to a skillion",
     "highest at its ridge"},
    {"hipped", "eaves = 450", "eaves = 450\nhipped = \"left\"", "wrong-key", 25, 1, 6, "`hipped` belongs to a hip roof",
     "shape = \"hip\""},
    {"no pitch", "\"22.5 deg\"", "\"0 deg\"", "level-roof", 23, 9, 7, "a roof without a pitch is no gable",
     "shape = \"flat\", up to 5 deg"},
    {"no pitch at the back", "eaves = 450", "eaves = 450\nback = { pitch = \"0 deg\" }", "level-roof", 25, 18, 7,
     "is no gable", ""},
    {"pitch of a gable end", "eaves = 450", "eaves = 450\nleft = { pitch = \"30 deg\" }", "wrong-key", 25, 10, 5,
     "no slope falls to the left", "shape = \"hip\""},
    {"gable above a gable", "eaves = 450", "eaves = 450\nleft = { gable_above = 900 }", "wrong-key", 25, 10, 11,
     "a gable stands above a hip end; the left is none", "shape = \"hip\""},
    {"gable above the eaves", "eaves = 450", "eaves = 450\nfront = { gable_above = 900 }", "wrong-key", 25, 11, 11,
     "the front is none", ""},
    {"pitch beyond belief at one side", "eaves = 450", "eaves = 450\nback = { pitch = \"67 deg\" }",
     "unbelievable-value", 25, 18, 8, "not believed", ""},
    {"overhang beyond belief at one side", "eaves = 450", "eaves = 450\nback = { overhang = 1600 }",
     "unbelievable-length", 25, 21, 4, "hard to believe", "\"1600 mm\""},
    {"negative overhang", "eaves = 450", "eaves = 450\nback = { overhang = -1 }", "negative", 25, 21, 2,
     "cannot be negative", ""},
    {"a side with another key", "eaves = 450", "eaves = 450\nback = { pich = \"30 deg\" }", "unknown-key", 25, 10, 4,
     "unknown key `pich`", "did you mean `pitch`"},
    {"a side that is none", "eaves = 450", "eaves = 450\nrear = { pitch = \"30 deg\" }", "unknown-key", 25, 1, 4,
     "unknown key `rear`", ""},
    {"eaves longer than half the span", "eaves = 450", "eaves = \"4 m\"", "overhang-too-long", 24, 9, 5,
     "4000 past the front wall is more than half of the 7800", "at most 3900"},
    {"one overhang longer than that", "eaves = 450", "eaves = 450\nback = { overhang = \"4 m\" }", "overhang-too-long",
     25, 21, 5, "4000 past the back wall", "at most 3900"},
    {"verge longer than half the house", "verge = 300", "verge = \"7 m\"", "overhang-too-long", 25, 9, 5,
     "is more than half of the 12000", ""},
    {"hip girder", "max = 900,", "hip_girder = 2400,", "wrong-key", 18, 26, 10,
     "`hip_girder` belongs to a hip roof; this is a gable roof", "shape = \"hip\""},
    {"jacks", "max = 900, odd_space = \"right\"", "jacks = 900", "wrong-key", 18, 26, 5,
     "`jacks` belongs to a hip roof", ""},
    {"hip rafters", "max = 900, odd_space = \"right\"", "hip_rafters = true", "wrong-key", 18, 26, 11,
     "`hip_rafters` belongs to a hip roof", ""},
    {"end", "max = 900,", "max = 900, end = \"left\",", "wrong-key", 18, 37, 3, "`end` belongs to `hip_girder`", ""},
    {"onto", "truss = \"demo-cleat\"", "truss = \"demo-cleat\"\nonto = \"demo-cleat\"", "wrong-key", 37, 1, 4,
     "`onto` belongs to a hip roof; this is a gable roof", "trusses on walls"},
    {"no plies", "max = 900,", "max = 900, plies = 0,", "out-of-range", 18, 45, 1, "from 1 to 4", ""},
    {"too many plies", "max = 900,", "max = 900, plies = 5,", "out-of-range", 18, 45, 1, "from 1 to 4", ""},
    {"plies in words", "max = 900,", "max = 900, plies = \"two\",", "wrong-type", 18, 45, 5, "takes a whole number",
     ""},
    {"on no wall", "max = 900,", "max = 900, also_on = [\"F\"],", "unknown-wall", 18, 48, 3,
     "no wall `F` under [wall] for a truss to bear on", ""},
    {"on a list of nothing", "max = 900,", "max = 900, also_on = [],", "empty-list", 18, 47, 2, "an empty list", ""},
    {"on a number", "max = 900,", "max = 900, also_on = 3,", "wrong-type", 18, 47, 1, "text or a list of texts", ""},
    {"on an outside wall", "max = 900,", "max = 900, also_on = [\"A\"],", "outside-wall", 18, 48, 3,
     "wall A is the front wall", "every truss bears on it already"},
    {"on an end wall", "max = 900,", "max = 900, also_on = \"D\",", "outside-wall", 18, 47, 3,
     "wall D is the left wall", "the way the trusses do"},
    {"on a wall that runs as they do", "max = 900,", "max = 900, also_on = [\"E\"],", "wall-along-the-trusses", 18, 48,
     3, "wall E runs up the sheet, as the trusses do", "runs across the sheet"},
};
}  // namespace

TEST_CASE("one thing wrong with a gable roof is one problem at its place") {
  each_is_one_problem(std::string(good_job), of_a_gable);
}

namespace {
// In the good hip job. Trusses from line 18: T1 19, TG1 20, J1 21, H1 22; the roof from 25; fixings from 36.
const Bad of_a_hip[]{
    {"a verge that is none", "eaves = 450", "eaves = 450\nverge = 300", "wrong-key", 30, 1, 5, "this roof has no verge",
     "hipped = ..."},
    {"a verge that is missing", "eaves = 450", "eaves = 450\nhipped = \"left\"", "missing-key", 25, 1, 17,
     "`verge` is missing", "a length"},
    {"a hip where the ridge runs along", "eaves = 450", "eaves = 450\nhipped = [\"left\", \"front\"]", "not-an-end", 30,
     19, 7, "`front` is no end of this roof: its ridge runs across the sheet, from the left to the right",
     "\"left\", \"right\", or left out for both"},
    {"a hip twice", "eaves = 450", "eaves = 450\nhipped = [\"left\", \"left\"]\nverge = 300", "named-twice", 30, 19, 6,
     "a second time", ""},
    {"a hip at a side that is none", "eaves = 450", "eaves = 450\nhipped = \"lft\"", "unknown-word", 30, 10, 5,
     "not `lft`", "did you mean `left`"},
    {"hips in a list of none", "eaves = 450", "eaves = 450\nhipped = []", "empty-list", 30, 10, 2, "an empty list", ""},
    {"no pitch", "\"22.5 deg\"", "\"0 deg\"", "level-roof", 28, 9, 7, "is no hip", "shape = \"flat\""},
    {"no pitch at an end", "eaves = 450", "eaves = 450\nleft = { pitch = \"0 deg\" }", "level-roof", 30, 18, 7,
     "is no hip", ""},
    {"high", "eaves = 450", "eaves = 450\nhigh = \"back\"", "wrong-key", 30, 1, 4, "belongs to a skillion", ""},
    {"hips that meet before the ridge", "ridge = \"across\"", "ridge = \"up\"", "hips-meet", 27, 9, 4,
     "the hips meet before the ridge: their slopes reach 6000 from the front and 6000 from the back, and the roof is "
     "7800 long",
     "a `pitch` of the front and the back of its own, 32.6 deg or steeper; or the ridge along the longer side, ridge = "
     "\"across\"; or a gable above"},
    {"a hip so flat that it meets the other", "eaves = 450", "eaves = 450\nleft = { pitch = \"10 deg\" }", "hips-meet",
     30, 18, 8, "reach 9162 from the left and 3900 from the right, and the roof is 12000 long",
     "a `pitch` of the left of its own, 11.3 deg or steeper; or a gable above"},
    {"gable above beyond the apex", "eaves = 450", "eaves = 450\nleft = { gable_above = 3900 }",
     "gable-beyond-the-apex", 30, 24, 4, "a gable 3900 in from the left wall", "less than 3900; left out"},
    {"gable above too near", "eaves = 450", "eaves = 450\nleft = { gable_above = 500 }", "unbelievable-value", 30, 24,
     3, "from 600 to 20000", ""},
    {"gable above the eaves", "eaves = 450", "eaves = 450\nfront = { gable_above = 2400 }", "wrong-key", 30, 11, 11,
     "the front is none", "the ends that `hipped` names"},
    {"girder beside the gable above", "eaves = 450", "eaves = 450\nleft = { gable_above = 2000 }",
     "girder-off-the-gable", 20, 32, 4, "stands 2000 in from its wall, and the girder under it 2400",
     "hip_girder = 2000, or gable_above = 2400"},
    {"girder beyond the apex", "hip_girder = 2400", "hip_girder = 3901", "girder-beyond-the-apex", 20, 32, 4,
     "the girder stands 3901 from the left wall, but the hip's apex 3900", "at most 3900"},
    {"girder in the wall", "hip_girder = 2400", "hip_girder = 500", "unbelievable-value", 20, 32, 3,
     "from 600 to 20000", ""},
    {"girder of nothing", "hip_girder = 2400", "hip_girder = 0", "not-positive", 20, 32, 1, "more than 0", ""},
    {"no girder", "  { mark = \"TG1\", hip_girder = 2400 },\n", "", "missing-key", 18, 11, 1,
     "the hip ends at the left and the right have no hip girder: `hip_girder` is missing",
     "{ mark = \"TG1\", hip_girder = 2400 }"},
    {"no jacks", "  { mark = \"J1\", jacks = 900 },\n", "", "missing-key", 18, 11, 1,
     "have no jacks: `jacks` is missing", "{ mark = \"J1\", jacks = 900 }"},
    {"no hip rafters", "  { mark = \"H1\", hip_rafters = true },\n", "", "missing-key", 18, 11, 1,
     "have no hip rafters: `hip_rafters` is missing", "{ mark = \"H1\", hip_rafters = true }"},
    {"a girder at one end only", "hip_girder = 2400", "hip_girder = 2400, end = \"left\"", "missing-key", 18, 11, 1,
     "the hip end at the right has no hip girder", ""},
    {"two girders at one end", "{ mark = \"TG1\", hip_girder = 2400 }",
     "{ mark = \"TG1\", hip_girder = 2400 }, { mark = \"TG2\", hip_girder = 1800, end = \"left\" }", "two-rows", 20, 40,
     49, "two rows of hip girders are for the hip end at the left", "end = \"left\""},
    {"an end that is no hip", "hip_girder = 2400", "hip_girder = 2400, end = \"front\"", "unknown-word", 20, 44, 7,
     "`front` is not a hip end of this roof: `left` or `right`", ""},
    {"rafters that are none", "hip_rafters = true", "hip_rafters = false", "wrong-key", 22, 32, 5,
     "is true, or left out", ""},
    {"rafters in words", "hip_rafters = true", "hip_rafters = \"yes\"", "wrong-type", 22, 32, 5, "true or false", ""},
    {"jacks far apart", "jacks = 900", "jacks = 1300", "unbelievable-value", 21, 26, 4, "from 300 to 1200", ""},
    {"jacks close by", "jacks = 900", "jacks = 200", "unbelievable-value", 21, 26, 3, "from 300 to 1200", ""},
    {"jacks of two plies", "jacks = 900", "jacks = 900, plies = 2", "wrong-key", 21, 31, 5,
     "`plies` belongs to what spans from wall to wall", ""},
    {"jacks on inside walls", "jacks = 900", "jacks = 900, also_on = \"E\"", "wrong-key", 21, 31, 7,
     "`also_on` belongs to what spans from wall to wall", ""},
    {"jacks with an odd space", "jacks = 900", "jacks = 900, odd_space = \"left\"", "wrong-key", 21, 31, 9,
     "`odd_space` belongs to `max`", ""},
    {"girder and jacks in one row", "hip_girder = 2400", "hip_girder = 2400, jacks = 900", "two-ways", 20, 38, 5,
     "a row of hip girder has no `jacks`", ""},
    {"girder with a space", "hip_girder = 2400", "hip_girder = 2400, max = 900", "two-ways", 20, 38, 3,
     "has no `max`: one row for each", ""},
    {"one mark for two things", "mark = \"J1\"", "mark = \"TG1\"", "mark-twice", 21, 12, 5,
     "`TG1` is the mark of a hip girder already", "a mark of their own for jacks"},
    {"a truss before the girder", "max = 900, odd_space = \"right\"", "at = [1200, 3900, 6000, 8100]",
     "truss-beyond-the-girder", 19, 24, 4,
     "a truss at 1200, but the girder of the left hip end stands at 2400: the jacks carry the roof there",
     "between 2400 and 9600"},
    {"a truss behind the girder", "max = 900, odd_space = \"right\"", "at = [3900, 6000, 8100, 10000]",
     "truss-beyond-the-girder", 19, 42, 5, "the girder of the right hip end stands at 9600", ""},
    {"a truss in the girder", "max = 900, odd_space = \"right\"", "at = [2400, 4800, 7200]", "truss-twice", 19, 24, 4,
     "two trusses stand at 2400", "plies = 2"},
    {"a gap behind the girder", "max = 900, odd_space = \"right\"", "at = [6000, 7800]", "gap-in-trusses", 18, 11, 1,
     "no truss between 2400 and 6000", ""},
    {"eaves longer than the jacks", "eaves = 450", "eaves = 450\nleft = { overhang = \"2.5 m\" }", "overhang-too-long",
     20, 32, 4, "jacks 2400 long would hang 2500 over the left wall", "farther from the wall"},
    {"a tie of no truss", "truss = \"demo-cleat\"", "truss = { T2 = \"demo-cleat\" }", "unknown-truss", 40, 11, 2,
     "no truss has the mark `T2`", "`H1`, `J1`, `T1`, `TG1` or `rest`"},
    {"a truss on another member", "onto = \"demo-cleat\"", "onto = { T1 = \"demo-cleat\" }", "unknown-truss", 41, 10, 2,
     "no truss has the mark `T1`", "`H1`, `J1` or `rest`"},
    {"onto what is no bracket", "onto = \"demo-cleat\"", "onto = \"demo-bolt\"", "wrong-sort-of-fixing", 41, 8, 11,
     "`demo-bolt` is an anchor, not a bracket", ""},
};
}  // namespace

TEST_CASE("one thing wrong with a hip roof is one problem at its place") {
  each_is_one_problem(good_hip_job(), of_a_hip);
}

namespace {
const Bad of_a_skillion[]{
    {"high left out", "high = \"back\"\n", "", "missing-key", 20, 1, 17,
     "`high` is missing: the side at which a skillion roof is high", "\"front\", \"right\", \"back\" or \"left\""},
    {"ridge against high", "high = \"back\"", "high = \"back\"\nridge = \"up\"", "ridge-against-high", 23, 9, 4,
     "a roof that is high at the back has its high edge across the sheet, not up", "leave `ridge` out"},
    {"no such side", "high = \"back\"", "high = \"top\"", "unknown-word", 22, 8, 5, "not `top`", ""},
    {"hipped", "high = \"back\"", "high = \"back\"\nhipped = \"left\"", "wrong-key", 23, 1, 6,
     "`hipped` belongs to a hip roof; this is a skillion roof", ""},
    {"no pitch", "\"8 deg\"", "\"0 deg\"", "level-roof", 23, 9, 7, "is no skillion", "shape = \"flat\""},
    {"pitch left out", "pitch = \"8 deg\"\n", "", "missing-key", 20, 1, 17, "`pitch` is missing", "an angle"},
    {"pitch of the high side", "eaves = 450", "eaves = 450\nback = { pitch = \"8 deg\" }", "wrong-key", 25, 10, 5,
     "no slope falls to the back", "a skillion roof that is high at the back falls to the front"},
    {"gable above", "eaves = 450", "eaves = 450\nleft = { gable_above = 900 }", "wrong-key", 25, 10, 11,
     "a gable stands above a hip end", ""},
    {"a hip row", "max = 900, odd_space = \"right\"", "hip_girder = 2400", "wrong-key", 18, 26, 10,
     "`hip_girder` belongs to a hip roof; this is a skillion roof", ""},
    {"verge left out", "verge = 300\n", "", "missing-key", 20, 1, 17,
     "`verge` is missing: the overhang past the high wall and the two ends", ""},
    {"a flat roof that is steep", "shape = \"skillion\"", "shape = \"flat\"", "too-steep", 23, 9, 7,
     "a flat roof is no steeper than 5 deg, and this is 8.00 deg", "shape = \"skillion\""},
};
}  // namespace

TEST_CASE("one thing wrong with a skillion is one problem at its place") {
  each_is_one_problem(with_each(std::string(good_job), {{"shape = \"gable\"", "shape = \"skillion\""},
                                                        {"ridge = \"across\"", "high = \"back\""},
                                                        {"\"22.5 deg\"", "\"8 deg\""}}),
                      of_a_skillion);
}

TEST_CASE("a lone hip that reaches past the other end, and what fits it") {
  // 6000 x tan 22.5 deg / 7800 = tan 17.7 deg, for a slope that would reach 6000 x tan 22.5 / tan 15.
  const std::string job =
      with_each(good_hip_job(), {{"ridge = \"across\"", "ridge = \"up\"\nhipped = \"back\"\nverge = 300"},
                                 {"eaves = 450", "eaves = 450\nback = { pitch = \"15 deg\" }"},
                                 {"odd_space = \"right\"", "odd_space = \"back\""}});
  const Problem p = only(job);
  CHECK(p.code == "hips-meet");
  CHECK_THAT(p.message,
             Contains("the hip reaches past the other end: 9275 from the back") && Contains("the roof is 7800 long"));
  CHECK_THAT(p.help, Contains("a `pitch` of the back of its own, 17.7 deg or steeper"));
  CHECK(read(with(job, "\"15 deg\"", "\"17.7 deg\"")).house.has_value());
  CHECK_FALSE(read(with(job, "\"15 deg\"", "\"17.6 deg\"")).house.has_value());
  // What the message offers for two hips holds as well: 6000 x tan 22.5 deg x 2 / 7800 = tan 32.6 deg.
  const std::string both = with_each(good_hip_job(), {{"ridge = \"across\"", "ridge = \"up\""},
                                                      {"eaves = 450",
                                                       "eaves = 450\nback = { pitch = \"32.6 deg\" }\n"
                                                       "front = { pitch = \"32.6 deg\" }"},
                                                      {"odd_space = \"right\"", "odd_space = \"back\""}});
  CHECK(read(both).house.has_value());
  // With a gable above one end the other may be flatter.
  CHECK(read(with_each(good_hip_job(), {{"ridge = \"across\"", "ridge = \"up\""},
                                        {"eaves = 450", "eaves = 450\nback = { gable_above = 1800 }"},
                                        {"{ mark = \"TG1\", hip_girder = 2400 }",
                                         "{ mark = \"TG1\", hip_girder = 1800, end = \"back\" }, { mark = \"TG2\", "
                                         "hip_girder = 2400, end = \"front\" }"},
                                        {"odd_space = \"right\"", "odd_space = \"back\""}}))
            .house.has_value());
}

TEST_CASE("trusses over a wall that does not reach under them bear on nothing") {
  const std::string job =
      with(with(with_a_spine(std::string(good_job)), mm_900, "max = 900, odd_space = \"right\", also_on = [\"E\"] }"),
           "from_front = 4000, run = \"B 1800 | 8400 | B 1800\"",
           "from_front = 4000, between = [0, 4000], run = \"B 4000\"");
  Problem p = only(job);
  CHECK(p.code == "bearing-on-nothing");
  CHECK(p.line == 18);
  CHECK(p.column == 69);
  CHECK_THAT(p.message, Contains("T1 at 4500 would bear on nothing: wall E ends at 4000"));
  CHECK_THAT(p.help, Contains("for the trusses from 0 to 4000"));
  p = only(with_each(job, {{"[0, 4000]", "[8000, 12000]"}}));
  CHECK_THAT(p.message, Contains("T1 at 0 would bear on nothing: wall E begins at 8000"));
  // The row that the message asks for.
  CHECK(
      read(
          with(job, "{ mark = \"T1\", max = 900, odd_space = \"right\", also_on = [\"E\"] }",
               "[{ mark = \"T1\", at = [0, 900, 1800, 2700, 3600], also_on = [\"E\"] }, { mark = \"T2\", max = 900 }]"))
          .house.has_value());
}

TEST_CASE("an inside wall in the line of an outside wall, or two in one line, give no bearing of their own") {
  const std::string job = with(std::string(good_job), mm_900, "max = 900, odd_space = \"right\", also_on = [\"E\"] }");
  const auto walls = [&](std::string_view text) {
    return with(job, "E = { from_left = 6000, run = \"B 1800 | 1690 | D3 | 1690 | B 1800\" }", text);
  };
  // In the line of an outside wall two walls stand in one place already.
  const Opened in_line = read(walls("E = { from_front = 0, run = \"B 12000\" }"));
  CHECK_FALSE(in_line.house.has_value());
  CHECK(std::ranges::count(in_line.problems, "outside-wall", &Problem::code) == 1);
  const std::string two =
      "E = { from_front = 4000, between = [0, 6000], run = \"B 6000\" }\n"
      "F = { from_front = 4000, between = [6000, 12000], run = \"B 6000\" }";
  const Problem p = only(with_each(
      walls(two), {{"max = 900, odd_space = \"right\", also_on = [\"E\"] }", "at = [6000], also_on = [\"E\", \"F\"] }"},
                   {"{ mark = \"T1\"", "[{ mark = \"T2\", max = 900 }, { mark = \"T1\""},
                   {"\"F\"] }", "\"F\"] }]"}}));
  CHECK(p.code == "bearing-twice");
  CHECK_THAT(p.message, Contains("walls E and F stand in one line"));
  CHECK(only(walls("E = { from_front = 4000, run = \"B 12000\" }") + "", with(good_fixings, "\"6.0 kN\"", "\"6.0\""))
            .file == "demo-test.toml");
  CHECK(
      only(with(walls("E = { from_front = 4000, run = \"B 12000\" }"), "also_on = [\"E\"]", "also_on = [\"E\", \"E\"]"))
          .code == "named-twice");
}

TEST_CASE("an unknown inside wall is told of those there are") {
  const std::string job =
      with(with_a_spine(std::string(good_job)), mm_900, "max = 900, odd_space = \"right\", also_on = [\"G\"] }");
  CHECK_THAT(only(job).help, Contains("inside walls along the ridge: `E`"));
}

TEST_CASE("a roof that is wrong hides nothing of the rest, and says nothing of what hangs on it") {
  // The hips cannot be laid out, so nothing is said of girders; the wall's run is wrong all the same.
  const Opened o = read(with_each(good_hip_job(), {{"ridge = \"across\"", "ridge = \"up\""},
                                                   {"C = \"B 1800 | 8400", "C = \"B 1800 | 8300"},
                                                   {"hip_girder = 2400", "hip_girder = 5500"}}));
  std::vector<std::string> codes;
  for (const Problem& p : o.problems) codes.push_back(p.code);
  CHECK(codes == std::vector<std::string>{"hips-meet", "run-too-short"});
  // A row that cannot be read may be the one that seems to be missing.
  CHECK(only(with(good_hip_job(), "hip_girder = 2400", "hip_girder = \"2400 kN\"")).code == "wrong-unit");
  CHECK(only(with(good_hip_job(), "hip_girder = 2400", "hip_girdr = 2400")).code == "unknown-key");
}

TEST_CASE("any roof that is not refused can be laid out and framed") {
  std::mt19937 random(20250407);
  const auto pick = [&](int from, int to) {
    return from + static_cast<int>(random() % static_cast<unsigned>(to - from + 1));
  };
  const char* shapes[] = {"gable", "hip", "hip", "hip", "skillion", "flat"};
  std::map<std::string, int> houses;
  int refused = 0;
  for (int round = 0; round < 1500; ++round) {
    const int across = 10 * pick(300, 1600), up = 10 * pick(300, 1600);
    Draft d = closed_box(fmt::format("{} mm", across), fmt::format("{} mm", up));
    d.shape = shapes[random() % 6];
    d.ridge = across >= up ? "across" : "up";
    if (pick(0, 9) == 0) d.ridge = across >= up ? "up" : "across";
    const bool level = d.shape == "flat";
    d.pitch = fmt::format("{} deg", level ? pick(0, 5) : pick(1, 45));
    const char* sides[] = {"front", "back", "left", "right"};
    d.high = sides[random() % 4];
    const bool ridge_across = d.ridge == "across";
    const std::string low = ridge_across ? "left" : "front", high = ridge_across ? "right" : "back";
    d.eaves = fmt::format("{}", 100 * pick(0, 9));
    d.trusses = "[{ mark = \"T1\", max = 900 }";
    if (d.shape == "hip") {
      if (pick(0, 2) == 0) d.hipped = fmt::format("\"{}\"", pick(0, 1) == 0 ? low : high);
      for (const std::string& end : {low, high}) {
        if (!d.hipped.empty() && d.hipped != '"' + end + '"') continue;
        const int span = ridge_across ? up : across;
        // Often in the apex itself, or as near to it as a drawing tells.
        const std::string g = pick(0, 3) == 0 ? fmt::format("\"{:.1f} mm\"", span / 2.0 + 0.1 * pick(-6, 6))
                                              : fmt::format("{}", 10 * pick(60, span / 15));
        if (pick(0, 3) == 0) d.roof_side(end, fmt::format("{{ gable_above = {} }}", g));
        else if (pick(0, 2) == 0) d.roof_side(end, fmt::format("{{ pitch = \"{} deg\" }}", pick(5, 60)));
        d.trusses += fmt::format(", {{ mark = \"TG1\", hip_girder = {}, end = \"{}\" }}", g, end);
      }
      d.trusses += ", { mark = \"J1\", jacks = 900 }, { mark = \"H1\", hip_rafters = true }";
    }
    if (!level && d.shape != "skillion" && pick(0, 2) == 0)
      d.roof_side(ridge_across ? "back" : "left", fmt::format("{{ pitch = \"{} deg\" }}", pick(5, 45)));
    d.trusses += "]";
    const Opened o = d.opened();
    if (!o.house) {
      ++refused;
      continue;
    }
    ++houses[d.shape];
    const Shape shape = shape_of(*o.house);
    INFO(d.text());
    const Members all = members_of(*o.house, shape);
    if (all.members.size() < o.house->trusses.size()) FAIL("members were lost");
    // A gable above stays where the job has it.
    for (std::size_t i = 0; i < 4; ++i)
      if (shape.sides[i].gable_above != o.house->roof.gable_above[i]) FAIL("a gable was moved");
    // The end's jacks need their girder there.
    for (const HipEnd& e : o.house->hip_ends) {
      const Truss& girder =
          e.side == Side::left || e.side == Side::front ? o.house->trusses.front() : o.house->trusses.back();
      if (!girder.girder) FAIL("no girder at a hip end");
    }
  }
  for (const auto& [shape, n] : houses) {
    INFO(shape << " " << n << ", refused " << refused);
    CHECK(n > 50);
  }
  CHECK(houses.size() == 4);
}
