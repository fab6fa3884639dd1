// What cannot be used is refused, with its place, what was expected and the nearest right spelling; all of a file's
// problems come at once; nothing doubtful becomes a house.
#include "job_text.hpp"
#include "units/characters.hpp"
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <random>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;

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

// One thing spoiled in the good job: exactly one problem, there.
const Bad in_the_job[]{
    {"unknown key", "eaves = 450", "eaves = 450\nridgecap = 3", "unknown-key", 25, 1, 8, "unknown key `ridgecap`",
     "keys here: `shape`"},
    {"misspelt optional key", "odd_space =", "odd_spce =", "unknown-key", 18, 37, 8, "unknown key `odd_spce`",
     "did you mean `odd_space`"},
    {"misspelt required key, said once", "height = 2700", "hieght = 2700", "unknown-key", 16, 1, 6,
     "`hieght`, and `height` is missing", "did you mean `height` (the frame"},
    {"unknown table", "[slab]", "[slap]", "unknown-key", 28, 2, 4, "unknown key `slap`", "did you mean `slab`"},
    {"missing key", "pitch = \"22.5 deg\"\n", "", "missing-key", 20, 1, 17, "`pitch` is missing", "it takes an angle"},
    {"missing table", "[site]\nclass = \"N3\"\ngiven_by = \"nobody: a test\"\n", "", "missing-key", 1, 1, 1,
     "`site` is missing", "a table"},
    {"wrong unit", "weight = { least = \"0.35 kPa\"", "weight = { least = \"0.35 kN\"", "wrong-unit", 26, 20, 9,
     "takes a pressure", "`kPa`"},
    {"length where an angle is due", "\"22.5 deg\"", "\"22.5 mm\"", "wrong-unit", 23, 9, 9, "takes an angle", "`deg`"},
    {"unit left out", "\"0.25 kPa\"", "\"0.25\"", "not-a-quantity", 17, 15, 6, "", "such as \"0.40 kPa\""},
    {"bare length between quotes", "eaves = 450", "eaves = \"450\"", "quoted-number", 24, 9, 5, "stands without quotes",
     "450"},
    {"misspelt unit", "\"0.25 kPa\"", "\"0.25 kpaa\"", "not-a-quantity", 17, 15, 11, "kpaa", ""},
    {"bare number for an angle", "\"22.5 deg\"", "22.5", "bare-number", 23, 9, 4, "carries its unit", "22.5 deg"},
    {"decimal under drawing", "height = 2700", "height = 2.7", "decimal-length", 16, 10, 3,
     "drawings in mm have whole numbers; 2.7 m is 2700", ""},
    {"another decimal", "eaves = 450", "eaves = 450.5", "decimal-length", 24, 9, 5, "write \"450.5 mm\"", ""},
    {"nan", "height = 2700", "height = nan", "not-a-number", 16, 10, 3, "reckoned", ""},
    {"inf", "eaves = 450", "eaves = -inf", "not-a-number", 24, 9, 4, "reckoned", ""},
    {"nan as text", "\"0.25 kPa\"", "\"nan kPa\"", "not-a-quantity", 17, 15, 9, "", ""},
    {"negative length", "eaves = 450", "eaves = -450", "negative", 24, 9, 4, "cannot be negative", ""},
    {"negative length with a unit", "eaves = 450", "eaves = \"-450 mm\"", "negative", 24, 9, 9, "cannot be negative",
     ""},
    {"no height", "height = 2700", "height = 0", "not-positive", 16, 10, 1, "more than 0", ""},
    {"unbelievable eaves", "eaves = 450", "eaves = 4500", "unbelievable-length", 24, 9, 4,
     "hard to believe: from 0 to 1500", "\"4500 mm\""},
    {"unbelievable frame", "height = 2700", "height = 270", "unbelievable-length", 16, 10, 3, "from 1800 to 6000",
     "\"270 mm\""},
    {"unbelievable floor", "floor_level = 300", "floor_level = 3200", "unbelievable-length", 13, 15, 4,
     "from 0 to 3000", ""},
    {"beyond any house, unit or not", "floor_level = 300", "floor_level = \"3 km\"", "unbelievable-length", 13, 15, 6,
     "more than 1 km", ""},
    {"more than 1 km", "floor_level = 300", "floor_level = \"3000 m\"", "unbelievable-length", 13, 15, 8,
     "more than 1 km", ""},
    {"huge whole number", "floor_level = 300", "floor_level = 9223372036854775807", "unbelievable-length", 13, 15, 19,
     "more than 1 km", ""},
    {"unbelievable pitch", "22.5 deg", "67 deg", "unbelievable-value", 23, 9, 8, "not believed", ""},
    {"unbelievable weight", "0.25 kPa", "25 kPa", "unbelievable-value", 17, 15, 8, "not believed", ""},
    {"importance", "importance = 2", "importance = 5", "out-of-range", 4, 14, 1, "from 1 to 4", ""},
    {"importance as text", "importance = 2", "importance = \"2\"", "wrong-type", 4, 14, 3,
     "takes a whole number, not text", ""},
    {"text as number", "title = \"Test house\"", "title = 3", "wrong-type", 2, 9, 1, "takes text, not a whole number",
     ""},
    {"empty text", "\"nobody: a test\"", "\"\"", "empty-text", 10, 12, 2, "`given_by` is empty", ""},
    {"an escape in a text", "\"nobody: a test\"", "\"\\u001b[31m\"", "control-character", 10, 12, 12,
     "control character", ""},
    {"size of one", "[12000, 7800]", "[12000]", "wrong-type", 14, 8, 7, "a list of two", ""},
    {"unknown word", "drawing = \"mm\"", "drawing = \"mn\"", "unknown-word", 3, 11, 4, "`mm` or `ft-in`, not `mn`",
     "how the drawing writes lengths"},
    {"unknown class", "\"N3\"\ng", "\"N7\"\ng", "unknown-class", 9, 9, 4, "`N7` is not a wind class", ""},
    {"no class", "class = \"N3\"\n", "", "no-wind", 8, 1, 6, "neither `class` nor `method`", ""},
    {"no giver", "given_by = \"nobody: a test\"\n", "", "missing-key", 8, 1, 6, "who gave the class", ""},
    {"key of the other method", "class = \"N3\"\n", "class = \"N3\"\nspeed = \"50 m/s\"\n", "wrong-key", 10, 1, 5,
     "says nothing under AS 4055", ""},
    {"class and method", "class = \"N3\"\n", "method = \"AS 4056\"\nclass = \"N3\"\n", "unknown-method", 9, 10, 9,
     "not a method", "did you mean `AS 4055`"},
    {"a shape that no roof has", "shape = \"gable\"", "shape = \"hips\"", "unknown-word", 21, 9, 6,
     "`gable`, `hip`, `skillion` or `flat`, not `hips`", "did you mean `hip`"},
    {"valley", "max = 900,", "max = 900, valley = 900,", "wrong-key", 18, 37, 6,
     "`valley` belongs to a block that stands against another", "[block.NAME] with `place`"},
    {"set-down", "height = 2700", "height = 2700\nslab = -86", "wrong-key", 17, 1, 4,
     "`slab` belongs to a block that stands against another", "add the block"},
    {"wing", "height = 2700", "height = 2700\nplace = { against = \"main front\" }", "wrong-key", 17, 1, 5,
     "`place` belongs to a block that stands against another", "add the block"},
    {"walls of a floor, of one", "[wall]\n", "[wall.first]\nF = \"B 1800 | 6000\"\n[wall]\n", "one-floor", 46, 7, 5,
     "walls of the first floor, but the house has one floor", "height = { ground, first }"},
    {"what a floor has of its own, of one", "[mark]", "[unless_noted.ground]\nplate = 70\n[mark]", "wrong-key", 40, 15,
     6, "`ground` is for a house of two floors", "height = { ground, first }"},
    {"a floor tie under one floor", "plate = 90", "plate = 90\nfloor_fixing = { use = \"demo-rod\", max = 600 }",
     "wrong-key", 38, 1, 12, "`floor_fixing` belongs to a house of two floors", ""},
    {"weights swapped", "least = \"0.35 kPa\"", "least = \"0.55 kPa\"", "weights-swapped", 26, 20, 10,
     "more than the greatest", ""},
    {"run too short", "3600 | D1 | B 1200\"", "3600 | D1 | B 1100\"", "run-too-short", 47, 5, 34,
     "wall A: the pieces add up to 11900, the wall is 12000: 100 short",
     "from 0: B to 1200, D1 to 4200, plain to 7800, D1 to 10800, B to 11900"},
    {"run too long", "C = \"B 1800 | 8400", "C = \"B 1800 | 8401", "run-too-long", 49, 5, 24,
     "the pieces add up to 12001, the wall is 12000: 1 too long", ""},
    {"same run, other length", "D = { same_as = \"B\" }", "D = { same_as = \"C\" }", "run-too-long", 50, 17, 3,
     "wall D: the pieces add up to 12000, the wall is 7800: 4200 too long", ""},
    {"unknown mark", "| W1 |", "| W2 |", "unknown-mark", 48, 22, 2, "no mark `W2`",
     "marks: `B`, `D1`, `D3`, `P9` or `W1`"},
    {"empty piece", "A = \"B 1200 | D1 |", "A = \"B 1200 || D1 |", "empty-piece", 47, 14, 1, "nothing stands between",
     ""},
    {"piece that is neither", "| 8400 |", "| 84OO |", "not-a-length", 49, 15, 4, "", "a mark, a length"},
    {"decimal in a run", "| 8400 |", "| 8.4 |", "decimal-length", 49, 15, 3, "8.4 m is 8400", ""},
    {"width of its own", "| D1 | B 1200\"\nB", "| D1 2900 | B 1200\"\nB", "wrong-width", 47, 30, 4,
     "`D1` is 3000 wide by its size, not 2900", ""},
    {"brace without a length", "C = \"B 1800 |", "C = \"B |", "brace-without-length", 49, 6, 1, "how long", "B 1200"},
    {"unit of another length", "C = \"B 1800 | 8400", "C = \"P9 1800 | 8400", "wrong-width", 49, 9, 4,
     "a unit 900 long", ""},
    {"opening turned", "\"1200 x 1800\"", "\"3000 x 1800\"", "opening-too-high", 43, 6, 13, "3000 high, the frame 2700",
     "height x width"},
    {"opening of one length", "\"1200 x 1800\"", "\"1200\"", "not-a-size", 43, 7, 4, "no size", "height x width"},
    {"opening with a decimal", "\"1200 x 1800\"", "\"1200 x 1.8\"", "decimal-length", 43, 14, 3, "1.8 m is 1800", ""},
    {"mark of nothing", "P9 = { brace = \"demo-unit\" }", "P9 = { hold_down = \"demo-rod\" }", "bad-mark", 44, 1, 2,
     "neither an opening", ""},
    {"mark with a blank", "P9 = {", "\"P 9\" = {", "bad-name", 44, 1, 5, "cannot be a mark", ""},
    {"mark twice", "P9 = {", "B = {", "mark-twice", 44, 1, 1, "[unless_noted] as well", ""},
    {"opening's key on a brace", "P9 = { brace", "P9 = { jamb = \"demo-rod\", brace", "wrong-key", 44, 8, 4,
     "belongs to an opening", ""},
    {"door or not", "D3 = \"2100 x 820\"", "D3 = { size = \"2100 x 820\", door = \"no\" }", "wrong-type", 42, 36, 4,
     "not text", "false, without quotes"},
    {"unknown rating", "wind_rated = \"N3\"", "wind_rated = \"unknown\"", "unknown-rating", 41, 43, 9, "no wind rating",
     ""},
    {"default that is no mark", "jamb = \"demo-bolt\"", "jmab = \"demo-bolt\"", "unknown-key", 34, 1, 4,
     "unknown key `jmab`", "did you mean `jamb`"},
    {"unknown fixing", "jamb = \"demo-bolt\"", "jamb = \"demo-blot\"", "unknown-fixing", 34, 8, 11,
     "no anchor `demo-blot` in demo-test.toml", "did you mean `demo-bolt`"},
    {"fixing of another sort", "jamb = \"demo-bolt\"", "jamb = \"demo-cleat\"", "wrong-sort-of-fixing", 34, 8, 12,
     "`demo-cleat` is a bracket", "its anchors: `demo-bolt` or `demo-rod`"},
    {"anchor as brace", "brace = \"demo-sheet\"", "brace = \"demo-rod\"", "wrong-sort-of-fixing", 33, 15, 10,
     "`demo-rod` is an anchor, not a brace", ""},
    {"anchor's space missing", "anchor = { use = \"demo-bolt\", max = 1200 }", "anchor = { use = \"demo-bolt\" }",
     "missing-key", 35, 10, 21, "`max` is missing", ""},
    {"plate missing", "plate = 90\n", "", "missing-key", 32, 1, 14, "`plate` is missing", ""},
    {"truss off the block", "{ mark = \"T1\", max = 900, odd_space = \"right\" }",
     "{ mark = \"T1\", at = [0, 900, 12900] }", "truss-off-the-block", 18, 40, 5,
     "a truss at 12900, but the block is 12000 long", "between 0 (the left wall's outside face) and 12000"},
    {"truss before the block", "{ mark = \"T1\", max = 900, odd_space = \"right\" }",
     "{ mark = \"T1\", at = [-900, 0, 12000] }", "truss-off-the-block", 18, 32, 4, "a truss at -900", ""},
    {"truss twice", "{ mark = \"T1\", max = 900, odd_space = \"right\" }", "{ mark = \"T1\", at = [0, 900, 900] }",
     "truss-twice", 18, 40, 3, "two trusses stand at 900", "one truss with plies = 2"},
    {"odd space nowhere", "odd_space = \"right\"", "odd_space = \"back\"", "unknown-word", 18, 49, 6,
     "`left`, `right` or `middle`", ""},
    {"truss mark of a tie", "truss = \"demo-cleat\"", "truss = { T2 = \"demo-cleat\" }", "unknown-truss", 36, 11, 2,
     "no truss has the mark `T2`", "marks of trusses: `T1` or `rest`"},
    {"inside wall off the block", "from_left = 6000", "from_left = 12600", "wall-off-the-block", 51, 19, 5,
     "wall E stands at 12600, but the block is 12000 across", ""},
    {"inside wall without a place", "E = { from_left = 6000, run", "E = { run", "wall-without-place", 51, 1, 1,
     "nothing says where it stands", "from_left"},
    {"outside wall with a place", "D = { same_as = \"B\" }", "D = { same_as = \"B\", from_left = 0 }", "wrong-key", 50,
     22, 9, "is the left wall", ""},
    {"wall of the block without a run", "left = \"D\"", "left = \"G\"", "unknown-wall", 15, 56, 3, "no wall `G`", ""},
    {"wall on two sides", "right = \"B\"", "right = \"A\"", "wall-twice", 15, 32, 3,
     "stands at the front and at the right", ""},
    {"same as nothing", "same_as = \"B\"", "same_as = \"BB\"", "unknown-wall", 50, 17, 4, "no wall `BB`",
     "walls: `A`, `B`"},
    {"same as itself", "same_as = \"B\"", "same_as = \"D\"", "same-as-itself", 50, 17, 3, "comes back to itself", ""},
    {"no such fixings", "\"demo-test.toml\"", "\"demo-tset.toml\"", "no-fixings-file", 6, 11, 16,
     "no fixings file `demo-tset.toml`", "beside the job"},
    {"fixings from elsewhere", "\"demo-test.toml\"", "\"../demo-test.toml\"", "bad-file-name", 6, 11, 19,
     "no plain file name", ""},
    {"link that nobody else may answer for", "importance = 2",
     "importance = 2\nby_others = { \"top ties\" = \"frame maker\" }", "unknown-link", 5, 15, 10,
     "`top ties` is no link", "did you mean `top tie`"},
    // Not TOML: the first slip ends it.
    {"unit without quotes", "\"22.5 deg\"", "22.5 deg", "unquoted-text", 23, 9, 8, "between quotes", "\"22.5 deg\""},
    {"word without quotes", "\"gable\"", "gable", "unquoted-text", 21, 9, 5, "between quotes", "\"gable\""},
    {"decimal comma", "height = 2700", "height = 2,7", "decimal-comma", 16, 10, 3, "with a point", "2.7"},
    {"leading zero", "height = 2700", "height = 02700", "leading-zero", 16, 10, 5, "begin with 0", ""},
    {"key twice", "height = 2700", "height = 2700\nheight = 2400", "key-twice", 17, 1, 6,
     "`height` stands here a second time", "line 16"},
    {"table twice", "[slab]", "[site]", "table-twice", 28, 1, 6, "a second time", "line 8"},
    {"text not closed", "title = \"Test house\"", "title = \"Test house", "text-not-closed", 2, 9, 11, "not closed",
     ""},
    {"no value", "height = 2700", "height =", "no-value", 16, 9, 1, "behind `=`", ""},
    {"comma at a table's end", "max = 1200 }", "}", "not-toml", 35, 31, 1, "", "comma"},
    {"bracket alone", "[slab]", "[", "not-toml", 28, 2, 1, "", ""},
};

}  // namespace

TEST_CASE("the good job is good") { CHECK(good(good_job).walls.size() == 5); }

TEST_CASE("one thing spoiled is one problem at its place") {
  for (const Bad& b : in_the_job) {
    const Opened o = read(with(good_job, b.from, b.to));
    INFO(b.what << "\n" << render(o.problems, false));
    CHECK_FALSE(o.house.has_value());
    CHECK(o.problems.size() == 1);
    if (o.problems.empty()) continue;
    const Problem& p = o.problems[0];
    CHECK(p.file == "job.toml");
    CHECK(p.code == b.code);
    CHECK(p.line == b.line);
    CHECK(p.column == b.column);
    CHECK(p.length == b.length);
    CHECK_THAT(p.message, Contains(b.message));
    CHECK_THAT(p.help, Contains(b.help));
    CHECK_FALSE(p.message.empty());
    CHECK_FALSE(p.source_line.empty());
  }
}

namespace {

// One thing spoiled in the fixings file.
const Bad in_the_fixings[]{
    {"no basis", "uplift = \"6.0 kN\"\nbasis = \"design\"\n", "uplift = \"6.0 kN\"\n", "missing-key", 5, 1, 11,
     "`basis` is missing", ""},
    {"unknown basis", "uplift = \"6.0 kN\"\nbasis = \"design\"", "uplift = \"6.0 kN\"\nbasis = \"desing\"",
     "unknown-word", 8, 9, 8, "not `desing`", "did you mean `design`"},
    {"characteristic without a factor", "phi = 0.8\n", "", "missing-factor", 28, 9, 16, "`phi` or `gamma_M` is missing",
     ""},
    {"characteristic with both", "phi = 0.8\n", "phi = 0.8\ngamma_M = 1.25\n", "two-factors", 28, 9, 16, "not both",
     ""},
    {"design with a factor", "pull = \"14 kN\"\n", "pull = \"14 kN\"\nphi = 0.8\n", "factor-twice", 15, 7, 3,
     "has it in already", ""},
    {"phi above one", "phi = 0.8", "phi = 1.25", "out-of-range", 29, 7, 4, "from 0 to 1", ""},
    {"phi of nothing", "phi = 0.8", "phi = 0.0", "not-positive", 29, 7, 3, "more than 0", ""},
    {"phi that is none", "phi = 0.8", "phi = nan", "not-a-number", 29, 7, 3, "reckoned", ""},
    {"gamma_M under one", "phi = 0.8", "gamma_M = 0.8", "out-of-range", 29, 11, 3, "from 1 to 10", ""},
    {"capacity of nothing", "\"14 kN\"", "\"0 kN\"", "not-positive", 14, 8, 6, "more than 0", ""},
    {"negative capacity", "\"14 kN\"", "\"-14 kN\"", "negative", 14, 8, 8, "cannot be negative", ""},
    {"slip of a unit", "\"14 kN\"", "\"14000 kN\"", "unbelievable-value", 14, 8, 10, "not believed", ""},
    {"press of nothing", "uplift = \"6.0 kN\"", "uplift = \"6.0 kN\"\npress = \"0 kN\"", "not-positive", 8, 9, 6,
     "more than 0: what it holds when pressed down", ""},
    {"unit of something else", "\"14 kN\"", "\"14 kN/m\"", "wrong-unit", 14, 8, 9, "takes a force", "`kN`"},
    {"bare capacity", "\"14 kN\"", "14", "bare-number", 14, 8, 2, "carries its unit", ""},
    {"bare length", "\"45 mm\"", "45", "bare-number", 17, 14, 2, "has no unit", "drawing"},
    {"unknown rule", "together = \"straight sum\"", "together = \"strait sum\"", "unknown-word", 16, 12, 12,
     "not `strait sum`", "did you mean `straight sum`"},
    {"name twice", "name = \"demo-rod\"", "name = \"demo-bolt\"", "name-twice", 23, 8, 11,
     "`demo-bolt` is a name already", "line 12"},
    {"unknown sort", "[[strap]]", "[[starp]]", "unknown-key", 47, 3, 5, "unknown key `starp`", "did you mean `strap`"},
    {"unknown key", "least_edge = ", "least_egde = ", "unknown-key", 17, 1, 10, "unknown key `least_egde`",
     "did you mean `least_edge`"},
    {"unknown status", "status = \"demo\"", "status = \"Demo\"", "unknown-word", 3, 10, 6, "not `Demo`",
     "did you mean `demo`"},
};

}  // namespace

TEST_CASE("one thing spoiled in the fixings file is said there") {
  for (const Bad& b : in_the_fixings) {
    const Opened o = read(good_job, with(good_fixings, b.from, b.to));
    INFO(b.what << "\n" << render(o.problems, false));
    CHECK_FALSE(o.house.has_value());
    const auto in_fixings = [](const Problem& p) { return p.file == "demo-test.toml"; };
    CHECK(std::count_if(o.problems.begin(), o.problems.end(), in_fixings) == 1);
    const auto p = std::find_if(o.problems.begin(), o.problems.end(), in_fixings);
    if (p == o.problems.end()) continue;
    CHECK(p->code == b.code);
    CHECK(p->line == b.line);
    CHECK(p->column == b.column);
    CHECK(p->length == b.length);
    CHECK_THAT(p->message, Contains(b.message));
    CHECK_THAT(p->help, Contains(b.help));
  }
}

TEST_CASE("a basis that is not the method's is refused where the capacity stands, for the fixings that are used") {
  CHECK(read(good_job).house.has_value());  // demo-single is allowable, and not used
  Opened o =
      read(with(good_job, "P9 = { brace = \"demo-unit\" }", "P9 = { brace = \"demo-single\", foot = \"left\" }"));
  INFO(render(o.problems, false));
  CHECK_FALSE(o.house.has_value());
  REQUIRE(o.problems.size() == 1);
  CHECK(o.problems[0].file == "demo-test.toml");
  CHECK(o.problems[0].code == "basis-mismatch");
  CHECK(o.problems[0].line == 51);
  CHECK(o.problems[0].column == 9);
  CHECK_THAT(o.problems[0].message, Contains("`demo-single` has an allowable capacity; AS 4055 needs limit state"));

  const std::string asce = with(with(good_job, "class = \"N3\"",
                                     "method = \"ASCE 7-16\"\nspeed = \"115 mph\"\nspeed_is = \"ultimate\"\nexposure = "
                                     "\"B\"\nrisk = \"II\"\nlevel = \"allowable\""),
                                "drawn = \"sheet 1\"", "drawn = \"sheet 1\"");
  o = read(asce);
  INFO(render(o.problems, false));
  CHECK_FALSE(o.house.has_value());
  CHECK(o.problems.size() == 5);  // cleat, bolt, rod, sheet, unit
  for (const Problem& p : o.problems) CHECK(p.code == "basis-mismatch");
  CHECK(read(with(asce, "level = \"allowable\"", "level = \"strength\"")).house.has_value());
}

TEST_CASE("all problems of both files come at once, in the order of their places") {
  std::string job = with(good_job, "eaves = 450", "eaves = 4.5");
  job = with(job, "wall_weight = \"0.25 kPa\"", "wall_wieght = \"0.25 kPa\"");
  job = with(job, "class = \"N3\"", "class = \"N9\"");
  job = with(job, "| W1 |", "| W7 |");
  job = with(job, "C = \"B 1800 | 8400", "C = \"B 1800 | 8300");
  job = with(job, "jamb = \"demo-bolt\"", "jamb = \"bolt\"");
  job = with(job, "plate = 90\n", "");
  const Opened o = read(job, with(good_fixings, "\"26 kN\"", "\"26\""));
  INFO(render(o.problems, false));
  CHECK_FALSE(o.house.has_value());
  std::vector<std::string> said;
  for (const Problem& p : o.problems) said.push_back(fmt::format("{}:{} {}", p.file, p.line, p.code));
  const std::vector<std::string> expected{"job.toml:9 unknown-class",   "job.toml:17 unknown-key",
                                          "job.toml:24 decimal-length", "job.toml:32 missing-key",
                                          "job.toml:34 unknown-fixing", "job.toml:47 unknown-mark",
                                          "job.toml:48 run-too-short",  "demo-test.toml:25 not-a-quantity"};
  CHECK(said == expected);
}

TEST_CASE("a problem is shown with its line, a caret and the help") {
  const Opened o = read(with(good_job, "height = 2700", "\thieght = 2700"));
  CHECK(render(o.problems, false) ==
        "job.toml:16:2: error: unknown key `hieght`, and `height` is missing [unknown-key]\n"
        "16 | \thieght = 2700\n"
        "   | \t^^^^^^\n"
        "   = did you mean `height` (the frame: underside of bottom plate to top of top plate)?\n");
  const std::string coloured = render(o.problems, true);
  CHECK_THAT(coloured, Contains("\x1b[1;31merror\x1b[0m"));
  // Columns and carets count letters, not bytes.
  const Opened letters = read(with(good_job, "C = \"B 1800 | 8400", "C = \"B 1800 | caf\xc3\xa9 | 84\xc3\xbc"));
  CHECK_THAT(render(letters.problems, false),
             Contains("job.toml:49:15: error: no mark `caf\xc3\xa9`") && Contains("   |               ^^^^\n") &&
                 Contains("job.toml:49:22: error:") && Contains("   |                      ^^^\n"));
}

TEST_CASE("a long line is shown in part, around its caret; a problem of the whole file has none") {
  const Opened o =
      read(with(good_job, "{ size = \"2100 x 3000\", wind_rated = \"N3\" }",
                "{ size = \"2100 x 3000\", jamb = \"demo-bolt\", wind_rated = \"" + std::string(300, 'N') + "\" }"));
  REQUIRE(o.problems.size() == 1);
  CHECK(o.problems[0].source_line.size() > 300);
  const std::string page = render(
      {Problem{"f", 3, 301, 4, "code", "message", "", std::string(300, '-') + "here" + std::string(300, '-')}}, false);
  CHECK(page == "f:3:301: error: message [code]\n3 | ..." + std::string(60, '-') + "here" + std::string(96, '-') +
                    "...\n  |    " + std::string(60, ' ') + "^^^^\n");
  CHECK(render({Problem{"f", 0, 0, 0, "code", "message", "help", ""}}, false) ==
        "f: error: message [code]\n  = help\n");
  CHECK(render({}, true).empty());
}

TEST_CASE("nothing of a hostile file reaches the terminal as a control") {
  const std::string nasty = with(good_job, "title = \"Test house\"", "title = \"Test \x1b[31m house\"");
  const Opened o = read(nasty);
  CHECK_FALSE(o.house.has_value());
  REQUIRE(o.problems.size() == 1);
  CHECK(render(o.problems, false).find('\x1b') == std::string::npos);
  CHECK(o.problems[0].line == 2);
  CHECK(o.problems[0].code == "control-character");
  // The controls above ASCII too: next line and the one-character start of an escape, U+0085 and U+009B; and the ends
  // of their range. U+00A0, the blank that does not break, is none.
  for (const std::string_view control : {"\xc2\x80", "\xc2\x85", "\xc2\x9b", "\xc2\x9f", "\x7f"}) {
    const Opened high =
        read(with(good_job, "title = \"Test house\"", fmt::format("title = \"Test {} house\"", control)));
    CHECK_FALSE(high.house.has_value());
    REQUIRE(high.problems.size() == 1);
    CHECK(high.problems[0].code == "control-character");
    CHECK(high.problems[0].line == 2);
    CHECK(render(high.problems, false).find(control) == std::string::npos);
  }
  CHECK(read(with(good_job, "title = \"Test house\"", "title = \"Test\xc2\xa0house \xc3\x85\"")).house.has_value());
}

TEST_CASE("an example is given once, limits in the unit of the thing, a second way in plain words") {
  const auto only = [](const Opened& o) {
    INFO(render(o.problems, false));
    CHECK_FALSE(o.house.has_value());
    REQUIRE(o.problems.size() == 1);
    return o.problems[0];
  };
  const std::string help = only(read(with(good_job, "\"22.5 deg\"", "\"22.5 degg\""))).help;
  CHECK_THAT(help, Contains("such as \"22.5 deg\""));
  CHECK(help.find("such as") == help.rfind("such as"));
  CHECK_THAT(only(read(with(good_job, "[12000, 7800]", "[12000]"))).message,
             Contains("a list of two, and 1 stands in it"));
  CHECK_THAT(only(read(with(good_job, "[12000, 7800]", "[1, 2, 3]"))).message,
             Contains("a list of two, and 3 stand in it"));
  const std::string concrete = "thickness = 100\nconcrete = ";
  CHECK_THAT(only(read(with(good_job, "thickness = 100", concrete + "\"5 MPa\""))).message,
             Contains("from 10 MPa to 100 MPa"));
  CHECK_THAT(only(read(with(good_job, "thickness = 100", concrete + "\"25 GPa\""))).message,
             Contains("did you mean `MPa`?"));
  const Problem both = only(read(with(good_job, "class = \"N3\"", "class = \"N3\"\nmethod = \"ASCE 7-16\"")));
  CHECK(both.code == "wrong-key");
  CHECK_THAT(both.message, Contains("`class` or `method`, not both"));
}

TEST_CASE("the entries of a list in one bracket are told of the second one") {
  for (const auto& [first, second] :
       {std::pair{"[bracket]", "[bracket]"}, {"[bracket]", "[[bracket]]"}, {"[[bracket]]", "[bracket]"}}) {
    const std::string text =
        fmt::format("title = \"x\"\nstatus = \"demo\"\n{}\nname = \"demo-a\"\n{}\nname = \"demo-b\"\n", first, second);
    const Opened o = read_job(good_job, "job.toml", [&](std::string_view) { return std::optional(text); });
    const auto said = std::ranges::find(o.problems, "table-twice", &Problem::code);
    INFO(render(o.problems, false));
    REQUIRE(said != o.problems.end());
    CHECK(said->line == 5);
    CHECK_THAT(said->help, Contains("each entry stands in two brackets: [[bracket]]"));
  }
}

TEST_CASE("controls are told from letters, and each is replaced by one character") {
  CHECK(control_at("\x1b[m", 0) == 1);
  CHECK(control_at("\xc2\x9b", 0) == 2);
  CHECK(control_at("\xc2\xa0", 0) == 0);
  CHECK(control_at("\xc2", 0) == 0);
  CHECK(control_at("a", 1) == 0);
  for (const char* unseen : {"\xe2\x80\x8b", "\xe2\x80\xa8", "\xe2\x80\xa9", "\xe2\x80\xaa", "\xe2\x80\xae",
                             "\xe2\x81\xa6", "\xe2\x81\xa9", "\xef\xbf\xbe", "\xef\xbf\xbf", "\xef\xbb\xbf"}) {
    INFO(fmt::format("{:x} {:x}", static_cast<unsigned char>(unseen[1]), static_cast<unsigned char>(unseen[2])));
    CHECK(control_at(unseen, 0) == 3);
    CHECK(without_controls(std::string("a") + unseen + "b", ' ') == "a b");
    const Opened o = read(with(good_job, "title = \"Test house\"", std::string("title = \"Test") + unseen + "house\""));
    CHECK_FALSE(o.house.has_value());
  }
  CHECK(control_at("\xf4\x8f\xbf\xbf", 0) == 4);  // U+10FFFF
  CHECK(control_at("\xf0\x9f\x8f\xa0", 0) == 0);  // a house
  CHECK(control_at("\xe2\x80\xa6", 0) == 0);      // three dots in one
  CHECK(control_at("\xe2\x80\x93", 0) == 0);      // a dash
  CHECK(without_controls("a\x1b\xc2\x85z\xc3\x85", '?') == "a??z\xc3\x85");
  std::string why;
  CHECK_FALSE(parse_quantity("12 \xc2\x9bm", Kind::length, why).has_value());
  CHECK_FALSE(holds_control(why));
}

TEST_CASE("files that are no job") {
  const auto one = [](const Opened& o) {
    INFO(render(o.problems, false));
    CHECK_FALSE(o.house.has_value());
    REQUIRE(o.problems.size() == 1);
    return o.problems[0];
  };
  CHECK(one(read("")).code == "empty-file");
  CHECK(one(read(" \n\t\n")).code == "empty-file");
  CHECK(read("# nothing but a remark\n").problems.size() == 5);  // job, site, block, unless_noted, wall
  CHECK(one(read(std::string(largest_file + 1, '#'))).code == "file-too-large");
  CHECK(read(std::string(good_job) + "#" + std::string(largest_file - good_job.size() - 1, '-')).house.has_value());
  const Problem utf8 = one(read(with(good_job, "Test house", "Test \xff house")));
  CHECK(utf8.code == "bad-utf8");
  CHECK(utf8.line == 2);
  CHECK(utf8.column == 15);
  for (const char* bytes : {"\xc0\xaf", "\xed\xa0\x80", "\xf5\x80\x80\x80", "\xe2\x82", "\x80"})
    CHECK(one(read(with(good_job, "Test house", bytes))).code == "bad-utf8");
  CHECK(one(read("\xff\xfe[\0j\0")).code == "bad-utf8");  // UTF-16
  CHECK(good(with(good_job, "Test house", "Caf\xc3\xa9 \xf0\x9f\x8f\xa0")).title == "Caf\xc3\xa9 \xf0\x9f\x8f\xa0");
  CHECK(good(std::string("\xef\xbb\xbf") + std::string(good_job)).title == "Test house");
  std::string crlf;
  for (const char c : good_job) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
  CHECK(told(good(crlf)) == told(good(good_job)));
}

TEST_CASE("paths that are no job") {
  namespace fs = std::filesystem;
  const fs::path folder = fs::temp_directory_path() / fmt::format("belay-bad-input-{}", std::random_device()());
  fs::create_directories(folder);
  const auto code = [](const fs::path& p) {
    const Opened o = open_job(p.string());
    CHECK_FALSE(o.house.has_value());
    REQUIRE(o.problems.size() == 1);
    CHECK(o.problems[0].file == p.string());
    CHECK(o.problems[0].line == 0);
    return o.problems[0].code;
  };
  CHECK(code(folder) == "a-folder");
  CHECK(code(folder / "none.toml") == "no-such-file");
  CHECK(code("/dev/null") == "cannot-be-read");
  std::ofstream(folder / "empty.toml");
  CHECK(code(folder / "empty.toml") == "empty-file");
  std::ofstream(folder / "large.toml") << std::string(largest_file + 1, '#');
  CHECK(code(folder / "large.toml") == "file-too-large");

  // The fixings file: beside the job first, then built in.
  std::ofstream(folder / "job.toml") << good_job;
  Opened o = open_job((folder / "job.toml").string());
  REQUIRE(o.problems.size() == 1);
  CHECK(o.problems[0].code == "no-fixings-file");
  fs::create_directory(folder / "demo-test.toml");
  o = open_job((folder / "job.toml").string());
  REQUIRE(o.problems.size() == 1);
  CHECK(o.problems[0].code == "a-folder");
  CHECK(o.problems[0].message == "`demo-test.toml` is a folder, not a file");
  CHECK(o.problems[0].line == 6);
  fs::remove(folder / "demo-test.toml");
  std::ofstream(folder / "demo-test.toml") << good_fixings;
  o = open_job((folder / "job.toml").string());
  INFO(render(o.problems, false));
  REQUIRE(o.house.has_value());
  CHECK(o.house->file == (folder / "job.toml").string());
  CHECK(o.house->fixings.file == (folder / "demo-test.toml").string());
  fs::remove(folder / "demo-test.toml");
  fs::create_directories(folder / "demo-test.toml");
  o = open_job((folder / "job.toml").string());
  REQUIRE(o.problems.size() == 1);
  CHECK_THAT(o.problems[0].message, Contains("is a folder"));
  fs::remove_all(folder);
}

TEST_CASE("deep and wide files end in a problem, not in a crash") {
  const auto refused = [](const std::string& text) {
    const Opened o = read(text);
    CHECK_FALSE(o.house.has_value());
    CHECK_FALSE(o.problems.empty());
    CHECK_FALSE(render(o.problems, true).empty());
  };
  std::string dots, brackets, braces, headers, wide, many, bars, places = "0", rows, ties, unknown_marks, marks;
  for (int i = 0; i < 60000; ++i) dots += "a.";
  for (int i = 0; i < 4000; ++i) headers += "a.";
  for (int i = 0; i < 5000; ++i) brackets += "[";
  for (int i = 0; i < 5000; ++i) braces += "{a=";
  for (int i = 0; i < 8000; ++i) wide += fmt::format("k{} = 1\n", i);
  for (int i = 0; i < 1000; ++i) many += fmt::format("Z{} = {{ same_as = \"A\" }}\n", i);
  for (int i = 0; i < 30000; ++i) bars += "|1";
  for (int i = 0; i < 30000; ++i) places += fmt::format(",{}", i % 10);
  for (int i = 0; i < 900; ++i) rows += fmt::format("{{mark=\"M{}\",at=[{}]}},", i, 13 * i);
  for (int i = 0; i < 5000; ++i) ties += fmt::format("{}x{}=\"a\"", i == 0 ? "" : ",", i);
  for (int i = 0; i < 100; ++i) {
    unknown_marks += fmt::format("Z{} = \"", i);
    for (int k = 0; k < 190; ++k) unknown_marks += k == 0 ? "XQ" : "|XQ";
    unknown_marks += "\"\n";
  }
  for (int i = 0; i < 1500; ++i) marks += fmt::format("Y{} = \"1 x 1\"\n", i);
  const std::string trusses = "{ mark = \"T1\", max = 900, odd_space = \"right\" }";
  refused(with(good_job, trusses, "{ mark = \"T1\", at = [" + places + "] }"));
  refused(with(with(good_job, trusses, "[" + rows + "]"), "truss = \"demo-cleat\"", "truss = {" + ties + "}"));
  refused(with(good_job, "P9 = {", marks + "P9 = {") + unknown_marks);
  refused(dots + "a = 1");
  refused("[" + headers + "a]");
  refused("a = " + brackets);
  refused("a = " + braces);
  refused(wide);
  CHECK(read(wide).problems.size() == most_problems + 1);
  CHECK(read(wide).problems.back().code == "too-many-problems");
  refused(std::string(good_job) + many);
  refused(with(good_job, "3600 | D1", "3600 " + bars));
  refused(with(good_job, "max = 900", "max = \"0.0001 mm\""));
  refused("[");
  refused("[}]");
  refused("[\xc3\xa9]");
  refused("a = \"\"\"");
  refused("=");
  refused(std::string("a = 1\0b = 2", 11));
}

TEST_CASE("every cut of a good job fails, or is the job of the lines that are left") {
  const std::string job(good_job);
  std::size_t houses = 0;
  for (std::size_t n = 0; n < job.size(); ++n) {
    const std::string cut = job.substr(0, n);
    const Opened o = read(cut);
    if (!o.house) {
      if (o.problems.empty()) FAIL("neither house nor problem at byte " << n);
      continue;
    }
    ++houses;
    CHECK(o.problems.empty());
    // A cut inside a line may only lose that line's end mark: it never makes another house of half a line.
    const std::string lines = cut.substr(0, cut.rfind('\n') + 1);
    const std::string next = job.substr(0, job.find('\n', n) + 1);
    const std::string own = told(*o.house);
    const Opened without = read(lines), whole = read(next);
    CHECK(((without.house && told(*without.house) == own) || (whole.house && told(*whole.house) == own)));
  }
  CHECK(houses >= 1);
  CHECK(houses <= 4);  // without the last line, an inside wall, it is a whole job too
}

TEST_CASE("a job with some bytes changed never crashes, and gives a house or problems") {
  std::mt19937 random(20240229);
  const std::string hip = good_hip_job();
  for (int round = 0; round < 3000; ++round) {
    std::string job(round % 8 < 4 ? std::string(good_job) : hip);
    for (int k = 0; k < 1 + round % 4; ++k) {
      const std::size_t at = random() % job.size();
      switch (random() % 3) {
        case 0: job[at] = static_cast<char>(random() % 256); break;
        case 1: job.erase(at, 1 + random() % 8); break;
        default: job.insert(at, job.substr(random() % job.size(), 1 + random() % 12));
      }
    }
    const Opened o = read(job);
    if (o.house.has_value() == !o.problems.empty()) FAIL("house and problems, or neither:\n" << job);
    for (const Problem& p : o.problems)
      if (p.code.empty() || p.message.empty()) FAIL("a problem without words");
    render(o.problems, false);
  }
  SUCCEED();
}
