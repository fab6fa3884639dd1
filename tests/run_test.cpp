// The run grammar: pieces between bars, lengths as drawings write them, sums and running positions.
#include "job/run.hpp"
#include "job/nearest.hpp"
#include "job/path.hpp"
#include <array>
#include <catch2/catch.hpp>

using namespace belay;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using raw::Drawing;

namespace {

Length mm(double x) { return metre * x / 1000.0; }
std::optional<Length> length(std::string_view text, Drawing d, std::string* code = nullptr) {
  std::string c, why;
  const auto l = read_length(text, d, c, why);
  CHECK(l.has_value() == c.empty());
  CHECK(c.empty() == why.empty());
  if (code != nullptr) *code = c;
  return l;
}
std::string refused(std::string_view text, Drawing d) {
  std::string code;
  CHECK_FALSE(length(text, d, &code).has_value());
  return code;
}

}  // namespace

TEST_CASE("the run of INTERFACE: marks, lengths, marks with lengths") {
  const Run run = read_run("B 1200 | D1 | 3600 | D1 | B 1200", Drawing::mm);
  CHECK(run.slips.empty());
  REQUIRE(run.pieces.size() == 5);
  CHECK(run.pieces[0].mark == "B");
  CHECK(run.pieces[0].length == mm(1200));
  CHECK(run.pieces[0].at == 0);
  CHECK(run.pieces[0].size == 6);
  CHECK(run.pieces[0].length_at == 2);
  CHECK(run.pieces[1].mark == "D1");
  CHECK_FALSE(run.pieces[1].length.has_value());
  CHECK(run.pieces[1].at == 9);
  CHECK(run.pieces[2].mark.empty());
  CHECK(run.pieces[2].length == mm(3600));
  CHECK(run.pieces[4].at == 26);
}

TEST_CASE("blanks are free, bars are not") {
  CHECK(read_run("B 1200|D1|3600", Drawing::mm).slips.empty());
  CHECK(read_run("  B\t1200  |   3600  ", Drawing::mm).slips.empty());
  for (const char* text : {"", " ", "|", "1200 |", "| 1200", "1200 || 900"}) {
    const Run run = read_run(text, Drawing::mm);
    INFO(text);
    REQUIRE_FALSE(run.slips.empty());
    CHECK(run.slips[0].code == "empty-piece");
  }
  CHECK(read_run("1200 | B 1200 900", Drawing::mm).slips.size() == 1);
  std::string long_run = "1";
  for (std::size_t i = 1; i < most_pieces; ++i) long_run += "|1";
  CHECK(read_run(long_run, Drawing::mm).slips.empty());
  CHECK(read_run(long_run + "|1", Drawing::mm).slips.at(0).code == "too-many-pieces");
}

TEST_CASE("lengths as a drawing in mm writes them") {
  CHECK(length("1200", Drawing::mm) == mm(1200));
  CHECK(length("1.2 m", Drawing::mm).has_value());
  CHECK_THAT(length("4 ft", Drawing::mm)->value(), WithinAbs(1.2192, 1e-12));
  // Whole millimetres are the double nearest to them in metres: dividing once, never multiplying by 0.001.
  for (int i = 1; i <= 12000; ++i)
    if (*length(std::to_string(i), Drawing::mm) != *length(std::to_string(i) + " mm", Drawing::mm)) FAIL(i);
  CHECK(refused("1200.5", Drawing::mm) == "decimal-length");
  CHECK(refused("2.7", Drawing::mm) == "decimal-length");
  CHECK(refused("0", Drawing::mm) == "not-positive");
  CHECK(refused("-5", Drawing::mm) == "not-positive");
  CHECK(refused("-5 mm", Drawing::mm) == "not-positive");
  CHECK(refused("1000001", Drawing::mm) == "unbelievable-length");
  CHECK(refused("99999999999999999999", Drawing::mm) == "unbelievable-length");
  CHECK(refused("1001 m", Drawing::mm) == "unbelievable-length");
  CHECK(refused("nan", Drawing::mm) == "not-a-length");
  CHECK(refused("1e3", Drawing::mm) == "not-a-length");
  CHECK(refused("12 kPa", Drawing::mm) == "not-a-length");
  CHECK(refused("12-6", Drawing::mm) == "not-a-length");
  std::string code, why;
  read_length("2.7", Drawing::mm, code, why);
  CHECK(why == "drawings in mm have whole numbers; 2.7 m is 2700");
  read_length("2700.5", Drawing::mm, code, why);
  CHECK(why == "drawings in mm have whole numbers; write \"2700.5 mm\" if it is meant");
}

TEST_CASE("lengths as a drawing in feet and inches writes them, and where no drawing is named") {
  CHECK_THAT(length("12-6", Drawing::feet)->value(), WithinAbs(12.5 * 0.3048, 1e-12));
  CHECK_THAT(length("0-9", Drawing::feet)->value(), WithinAbs(0.75 * 0.3048, 1e-12));
  CHECK_THAT(length("12-6 1/2", Drawing::feet)->value(), WithinAbs(150.5 * 0.0254, 1e-12));
  CHECK_THAT(length("8 ft 6 in", Drawing::feet)->value(), WithinAbs(8.5 * 0.3048, 1e-12));
  CHECK(refused("12", Drawing::feet) == "bare-number");
  CHECK(refused("0-0", Drawing::feet) == "not-positive");
  CHECK(refused("1200", Drawing::none) == "bare-number");
  CHECK(refused("1.2", Drawing::none) == "bare-number");
  CHECK(length("1200 mm", Drawing::none) == mm(1200));
  const Run run = read_run("B 4-0 | W1 | 12-6 1/2", Drawing::feet);
  CHECK(run.slips.empty());
  CHECK_THAT(run.pieces.at(2).length->value(), WithinAbs(150.5 * 0.0254, 1e-12));
}

TEST_CASE("an opening is height x width") {
  RunSlip slip;
  const auto size = read_opening_size("2100 x 900", Drawing::mm, slip);
  REQUIRE(size.has_value());
  CHECK(size->height == mm(2100));
  CHECK(size->width == mm(900));
  CHECK(read_opening_size("2100x900", Drawing::mm, slip).has_value());
  CHECK_THAT(read_opening_size("6-8 x 3-0", Drawing::feet, slip)->height.value(), WithinAbs(80 * 0.0254, 1e-12));
  CHECK(read_opening_size("2.1 m x 90 cm", Drawing::none, slip).has_value());
  for (const char* text :
       {"", "2100", "2100 x", "x 900", "2100 x 900 x 4", "2100 by 900", "2100 x 0", "2100 x -9", "2.1 x 900"}) {
    INFO(text);
    slip = {};
    CHECK_FALSE(read_opening_size(text, Drawing::mm, slip).has_value());
    CHECK_FALSE(slip.message.empty());
    CHECK(slip.at + slip.size <= std::string_view(text).size());
  }
}

TEST_CASE("a sum that is off says by how much, and where each piece ends") {
  const std::vector<Measured> pieces{
      {"B", mm(1200)}, {"D1", mm(3000)}, {"", mm(3600)}, {"D1", mm(3000)}, {"B", mm(1100)}};
  CHECK(adds_up(pieces, mm(12000), Drawing::mm) == "the pieces add up to 11900, the wall is 12000: 100 short");
  CHECK(adds_up(pieces, mm(11800), Drawing::mm) == "the pieces add up to 11900, the wall is 11800: 100 too long");
  CHECK(adds_up(pieces, mm(11900), Drawing::mm).empty());
  CHECK(adds_up(pieces, mm(11900.4), Drawing::mm).empty());  // half a millimetre is one place
  CHECK_FALSE(adds_up(pieces, mm(11901), Drawing::mm).empty());
  CHECK(running_positions(pieces, Drawing::mm) ==
        "from 0: B to 1200, D1 to 4200, plain to 7800, D1 to 10800, B to 11900");
  CHECK_THAT(adds_up({{"", metre * 0.3048}}, metre * 0.6096, Drawing::feet), Contains("1 ft") && Contains("short"));
}

TEST_CASE("the nearest right spelling") {
  const std::array<std::string_view, 4> words{"anchor", "jamb", "truss", "plate"};
  CHECK(nearest("anchr", words) == "anchor");
  CHECK(nearest("acnhor", words) == "anchor");  // neighbours swapped are one letter
  CHECK(nearest("Jamb", words) == "jamb");
  CHECK(nearest("trusses", words) == "truss");
  CHECK(nearest("pla", words) == "plate");  // the beginning of a word
  CHECK(nearest("roof", words).empty());
  CHECK(nearest("", words).empty());
  const std::array<std::string_view, 2> tie{"N1", "N2"};
  CHECK(nearest("N9", tie).empty());  // as near to the one as to the other
  CHECK(nearest("n2", tie) == "N2");
  const std::array<std::string_view, 1> one{"W1"};
  CHECK(nearest("D1", one).empty());  // half of so short a word is another word
  CHECK(distance("kitten", "sitting") == 3);
  CHECK(distance("ab", "ba") == 1);
  CHECK(distance("a", "abcdefgh") == 4);  // more than the limit is the limit and one
  CHECK(listed(words) == "`anchor`, `jamb`, `truss` or `plate`");
}

TEST_CASE("paths go there and back") {
  const std::string path = under(under(under("checked", "AS 4055 \"x\" \\ uplift"), std::size_t{12}), "at");
  CHECK(path == "checked.\"AS 4055 \\\"x\\\" \\\\ uplift\"[12].at");
  const auto steps = steps_of(path);
  REQUIRE(steps.size() == 4);
  CHECK(steps[0].key == "checked");
  CHECK(steps[1].key == "AS 4055 \"x\" \\ uplift");
  CHECK(steps[2].key.empty());
  CHECK(steps[2].index == 12);
  CHECK(steps[3].key == "at");
}
