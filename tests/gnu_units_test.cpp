// Every unit that may be typed and every unit that is printed, against GNU Units (a required package: never skipped).
#include "belay/units.hpp"
#include "recompute.hpp"
#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace belay;
using Catch::Matchers::WithinRel;

namespace {
// The unscaled SI unit of a kind, as GNU Units spells it.
std::string si_unit(Kind kind) {
  switch (kind) {
    case Kind::ratio: return "1";
    case Kind::length: return "m";
    case Kind::area: return "m^2";
    case Kind::area_moment: return "m^3";
    case Kind::angle: return "radian";
    case Kind::speed: return "m/s";
    case Kind::pressure: return "Pa";
    case Kind::density: return "kg/m^3";
    case Kind::force: return "N";
    case Kind::line_load: return "N/m";
    case Kind::moment: return "N m";
    case Kind::weight_density: return "N/m^3";
    case Kind::stiffness: return "N/m";
    case Kind::sheet_stiffness: return "N/m/m";
  }
  return {};
}
// Conversions are exact fractions, or pi; both sides round a handful of times.
constexpr double last_bits = 4e-15;
}  // namespace

TEST_CASE("gnu units: the program is there and adds") { REQUIRE(recompute::units_works()); }

TEST_CASE("gnu units: every spelling that may be typed has its size") {
  std::vector<recompute::Question> questions;
  for (const Spelling& s : spellings()) questions.push_back({"1 " + std::string(s.gnu), si_unit(s.kind)});
  const auto answers = recompute::values(questions);
  REQUIRE(answers.size() == spellings().size());
  for (std::size_t i = 0; i < answers.size(); ++i) {
    const Spelling& s = spellings()[i];
    INFO(s.text << " spelt " << s.gnu);
    REQUIRE(answers[i].has_value());
    std::string why;
    const auto read = parse_quantity("1 " + std::string(s.text), s.kind, why);
    REQUIRE(read.has_value());
    CHECK_THAT(read->si, WithinRel(*answers[i], last_bits));
  }
}

TEST_CASE("gnu units: every printed unit has its size, and what is printed is read to the same value") {
  for (const Units* units : {&metric, &us}) {
    std::vector<recompute::Question> questions;
    for (const Printed& p : units->rows)
      questions.push_back({text(Value{7.0 * p.numerator / p.denominator, p.kind}, *units), si_unit(p.kind)});
    const auto answers = recompute::values(questions);
    REQUIRE(answers.size() == kinds);
    for (std::size_t i = 0; i < kinds; ++i) {
      const Printed& p = units->rows[i];
      INFO(units->name << " " << questions[i].expression);
      REQUIRE(answers[i].has_value());
      CHECK_THAT(7.0 * p.numerator / p.denominator, WithinRel(*answers[i], last_bits));
      std::string why;
      const auto read = parse_quantity(questions[i].expression, p.kind, why);
      INFO(why);
      REQUIRE(read.has_value());
      CHECK_THAT(read->si, WithinRel(*answers[i], last_bits));
    }
  }
}
