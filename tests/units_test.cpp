// Quantities: what may be typed, what is printed, and that the two agree. Sizes of units against a second source stand
// in gnu_units_test.cpp.
#include "belay/units.hpp"
#include "belay/job.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <concepts>
#include <fmt/format.h>
#include <fstream>
#include <limits>
#include <random>
#include <string>
#include <type_traits>
#include <vector>

using namespace belay;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

std::vector<Kind> all_kinds() {
  std::vector<Kind> list;
  for (std::size_t i = 0; i < kinds; ++i) list.push_back(static_cast<Kind>(i));
  return list;
}
Value read(std::string_view s, Kind kind) {
  std::string why;
  const auto v = parse_quantity(s, kind, why);
  INFO(s << ": " << why);
  REQUIRE(v.has_value());
  return *v;
}
std::string refused(std::string_view s, Kind kind) {
  std::string why;
  INFO(s);
  CHECK_FALSE(parse_quantity(s, kind, why).has_value());
  CHECK_FALSE(why.empty());
  return why;
}
Length read_feet(std::string_view s) {
  std::string why;
  const auto v = parse_feet_inches(s, why);
  INFO(s << ": " << why);
  REQUIRE(v.has_value());
  return *v;
}
std::string refused_feet(std::string_view s) {
  std::string why;
  INFO(s);
  CHECK_FALSE(parse_feet_inches(s, why).has_value());
  return why;
}
Length metres(double x) { return Length::from_value(x); }

// The texts of the list that follows `head` in the header's comment: each ends before four spaces or the line's end.
std::vector<std::string> listed(const std::string& head) {
  std::ifstream in(BELAY_SOURCE_DIR "/include/belay/units.hpp");
  std::vector<std::string> texts;
  bool inside = false;
  for (std::string line; std::getline(in, line);) {
    if (inside && !line.starts_with("//   ")) break;
    if (inside) {
      std::string s = line.substr(5);
      s.erase(std::min(s.find("    "), s.size()));
      texts.push_back(s);
    }
    inside = inside || line.starts_with(head);
  }
  return texts;
}

}  // namespace

// ---- the algebra -------------------------------------------------------------------------------------------------

template <class A, class B>
concept Adds = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Subtracts = requires(A a, B b) {
  a - b;
};
template <class A, class B>
concept Orders = requires(A a, B b) {
  a < b;
};

static_assert(Adds<Force, Force> && Subtracts<Length, Length> && Orders<Pressure, Pressure>);
static_assert(!Adds<Force, Length> && !Adds<Force, double> && !Adds<Pressure, Force> && !Adds<Angle, double>);
static_assert(!Adds<LineLoad, Force> && !Adds<Moment, Force> && !Adds<Area, AreaMoment> && !Adds<Speed, Length>);
static_assert(!Subtracts<Force, Moment> && !Subtracts<Pressure, LineLoad> && !Subtracts<Length, double>);
static_assert(!Subtracts<Density, Pressure> && !Subtracts<Area, Length>);
static_assert(!Orders<Force, Pressure> && !Orders<Length, double> && !Orders<Moment, Force> && !Orders<Angle, Length>);
static_assert(!std::is_convertible_v<double, Force> && !std::is_convertible_v<double, Length>);
static_assert(!std::is_convertible_v<double, Angle> && !std::is_convertible_v<int, Pressure>);
static_assert(!std::is_convertible_v<Force, double> && !std::is_convertible_v<Length, double>);
static_assert(!std::is_convertible_v<Angle, double> && !std::is_convertible_v<Pressure, double>);
static_assert(!std::is_convertible_v<Force, Pressure> && !std::is_convertible_v<Force, LineLoad>);
static_assert(std::same_as<decltype(Pressure() * Area()), Force> &&
              std::same_as<decltype(LineLoad() * Length()), Force>);
static_assert(std::same_as<decltype(Density() * Speed() * Speed()), Pressure>);
static_assert(std::same_as<decltype(Pressure() * AreaMoment()), Moment>);
static_assert(std::is_convertible_v<decltype(Force() / Force()), double>);

TEST_CASE("units: a quantity goes through its erased form unchanged, and only as what it is") {
  const Force f = Force::from_value(24751.0);
  CHECK(quantity<Force>(value(f)) == f);
  CHECK(quantity<double>(value(0.25)) == 0.25);
  CHECK(value(f).kind == Kind::force);
  CHECK(value(f / f).kind == Kind::ratio);
  CHECK_NOTHROW(require_kind(value(f), Kind::force));
  CHECK_THROWS_AS(quantity<Length>(value(f)), std::logic_error);
  CHECK_THROWS_AS(quantity<double>(value(metre)), std::logic_error);
  CHECK_THROWS_WITH(require_kind(value(f), Kind::moment), Contains("force") && Contains("moment"));
}

// ---- reading -----------------------------------------------------------------------------------------------------

TEST_CASE("units: every text that the header lists as legal is read, as one kind") {
  const auto texts = listed("// Legal (each line");
  REQUIRE(texts.size() >= 10);
  for (const auto& s : texts) {
    std::size_t kinds_that_read = 0;
    for (const Kind kind : all_kinds()) {
      std::string why;
      if (const auto v = parse_quantity(s, kind, why)) {
        ++kinds_that_read;
        CHECK(v->kind == kind);
        CHECK(std::isfinite(v->si));
        CHECK(why.empty());
      }
    }
    INFO(s);
    CHECK(kinds_that_read == 1);
  }
}

TEST_CASE("units: every text that the header lists as illegal is refused with a reason") {
  const auto texts = listed("// Illegal:");
  REQUIRE(texts.size() >= 14);
  for (const auto& s : texts) {
    const Kind wanted = s.ends_with('%') ? Kind::ratio : Kind::length;
    CHECK_THAT(refused(s, wanted), !Contains("\n"));
  }
}

TEST_CASE("units: sizes by definition") {
  // International yard and pound (1959), standard gravity (3rd CGPM, 1901).
  CHECK(read("1 ft", Kind::length).si == 0.3048);
  CHECK(read("1 in", Kind::length).si == 0.0254);
  CHECK(read("1 mph", Kind::speed).si == 0.44704);
  CHECK(read("1 lbf", Kind::force).si == 4.4482216152605);
  CHECK(read("1 kip", Kind::force).si == 4448.2216152605);
  CHECK(read("36 km/h", Kind::speed).si == 10.0);
  CHECK(read("180 deg", Kind::angle).si == 3.14159265358979323846);
  CHECK(read("32 MPa", Kind::pressure).si == 32e6);
  CHECK(read("24 kN/m3", Kind::weight_density).si == 24000.0);
  CHECK(read("150 pcf", Kind::weight_density) == read("150 lbf/ft^3", Kind::weight_density));
  // 150 lbf/ft3 are 150 * 4.4482216152605 N / 0.028316846592 m3 = 23563.1 N/m3
  CHECK_THAT(read("150 pcf", Kind::weight_density).si, WithinRel(23563.1, 1e-5));
  CHECK(read("12 lb", Kind::force) == read("12 lbf", Kind::force));
  CHECK(read("20 psf", Kind::pressure) == read("20 lbf/ft^2", Kind::pressure));
  CHECK(read("480 plf", Kind::line_load) == read("480 lbf/ft", Kind::line_load));
  CHECK_THAT(read("3000 psi", Kind::pressure).si, WithinRel(20684271.879, 1e-10));
}

TEST_CASE("units: whole millimetres are the same bits as metres, up to 60 m") {
  for (int mm = 0; mm <= 60000; ++mm) {
    const std::string point = fmt::format("{}.{:03} m", mm / 1000, mm % 1000);
    if (read(fmt::format("{} mm", mm), Kind::length) != read(point, Kind::length)) FAIL(point);
  }
}

TEST_CASE("units: signs, spaces and exponents") {
  CHECK(read("-3 mm", Kind::length).si == -0.003);
  CHECK(read("+0.5 kPa", Kind::pressure).si == 500.0);
  CHECK(read("  2.7m ", Kind::length).si == 2.7);
  CHECK(read("1e3 mm", Kind::length).si == 1.0);
  CHECK(read("1E-3 m", Kind::length).si == 0.001);
  CHECK(read("-0.65", Kind::ratio).si == -0.65);
}

TEST_CASE("units: feet and inches") {
  CHECK(read("8 ft 6 in", Kind::length) == read("102 in", Kind::length));
  CHECK(read("8ft6in", Kind::length) == read("102 in", Kind::length));
  CHECK(read("8 ft 0 in", Kind::length) == read("8 ft", Kind::length));
  CHECK(read("-8 ft 6 in", Kind::length).si == -read("8 ft 6 in", Kind::length).si);
  CHECK(read("-0 ft 6 in", Kind::length).si == -0.1524);
  CHECK_THAT(refused("8 ft 12 in", Kind::length), Contains("`12` inches are a foot"));
  CHECK_THAT(refused("8.5 ft 6 in", Kind::length), Contains("whole number"));
  CHECK_THAT(refused("8 ft 6", Kind::length), Contains("8 ft 6 in"));
  CHECK_THAT(refused("8 ft -6 in", Kind::length), Contains("follows `ft`"));
  CHECK_THAT(refused("8 ft 6 in", Kind::pressure), Contains("kPa"));
}

TEST_CASE("units: messages name what fits and what was meant") {
  CHECK_THAT(refused("0.4 KPA", Kind::pressure), Contains("did you mean `kPa`?") && Contains("`psf`"));
  CHECK_THAT(refused("12 KN", Kind::force), Contains("did you mean `kN`?"));
  CHECK_THAT(refused("25 Mpa", Kind::pressure), Contains("did you mean `MPa`?"));
  CHECK_THAT(refused("22.5 degrees", Kind::angle), Contains("did you mean `deg`?"));
  CHECK_THAT(refused("8 feet", Kind::length), Contains("did you mean `ft`?"));
  CHECK_THAT(refused("3 M", Kind::length), Contains("did you mean `m`?"));
  CHECK_THAT(refused("6 kn/m", Kind::line_load), Contains("did you mean `kN/m`?"));
  CHECK_THAT(refused("9 xyzzy", Kind::length), !Contains("did you mean") && Contains(units_that_fit(Kind::length)));
  CHECK_THAT(refused("2.7", Kind::length), Contains("no unit") && Contains("`m`, `mm`"));
  CHECK_THAT(refused("2.7 kN", Kind::length), Contains("unit of force") && Contains("a length is wanted"));
  CHECK_THAT(refused("2.7 m", Kind::angle), Contains("an angle is wanted"));
  CHECK_THAT(refused("2,7 m", Kind::length), Contains("decimal comma") && Contains("`2.7 m`"));
  CHECK_THAT(refused("1,200 mm", Kind::length), Contains("`1.200 mm`") && Contains("`1200 mm`"));
  CHECK_THAT(refused(".5 m", Kind::length), Contains("`0.5 m`"));
  CHECK_THAT(refused("5. m", Kind::length), Contains("after the point"));
  CHECK_THAT(refused("5 %", Kind::ratio), Contains("0.05"));
  CHECK_THAT(refused("0.9 m", Kind::ratio), Contains("no unit"));
  CHECK_THAT(refused("\xE2\x88\x92"
                     "3 kPa",
                     Kind::pressure),
             Contains("minus sign of the keyboard"));
  CHECK_THAT(refused("", Kind::speed), Contains("50 m/s"));
  CHECK_THAT(refused("1e10 m", Kind::length), Contains("exponent"));
  CHECK_THAT(refused("inf", Kind::ratio), Contains("0.85"));
  CHECK(refused(std::string(100000, 'x'), Kind::length).size() < 300);
  CHECK(refused(std::string(300, '1'), Kind::length).size() < 300);
  CHECK(refused("." + std::string(300, '1'), Kind::length).size() < 300);
  CHECK_THAT(refused("2.7 \x1B[31m", Kind::length), Contains("`?[31m`"));
  CHECK_THAT(refused("2.7 m\n", Kind::length), !Contains("\n"));
  CHECK(refused("1 " + std::string(100000, 'x'), Kind::length).size() < 300);
  CHECK(refused(std::string(100000, '1'), Kind::length).size() < 300);
  CHECK(refused(std::string(400, '9') + " m", Kind::length).size() < 300);
}

TEST_CASE("units: a drawing's feet and inches") {
  CHECK(read_feet("12-6") == metres(3.81));
  CHECK(read_feet("12-6.5") == metres(3.8227));
  CHECK(read_feet("12-6 1/2") == read_feet("12-6.5"));
  CHECK(read_feet("0-0") == metres(0.0));
  CHECK(read_feet("4-0") == quantity<Length>(read("4 ft", Kind::length)));
  CHECK(read_feet("8-11 63/64") < quantity<Length>(read("9 ft", Kind::length)));
  CHECK_THAT(refused_feet("12"), Contains("12-0"));
  CHECK_THAT(refused_feet("12-12"), Contains("foot"));
  CHECK_THAT(refused_feet("12-6,5"), Contains("comma"));
  CHECK_THAT(refused_feet("12-6 1/3"), Contains("halves"));
  CHECK_THAT(refused_feet("12-6 3/2"), Contains("an inch or more"));
  for (const char* bad : {"", "-6", "12-", "12--6", "12-6 1/", "12-6 /2", "12-6.5 1/2", "12-6 1/2 in", "12-6in",
                          "1234567-0", "12-1e0", "12.5-6", "12-6 01/2x", "a-b"})
    CHECK_THAT(refused_feet(bad), Contains("12-6 1/2"));
}

// ---- printing ----------------------------------------------------------------------------------------------------

TEST_CASE("units: printed text") {
  CHECK(text(Force::from_value(24751.04), metric) == "24.751 kN");
  CHECK(text(Pressure::from_value(-1650.0), metric) == "-1.6500 kPa");
  CHECK(text(read("22.5 deg", Kind::angle), metric) == "22.50 deg");
  CHECK(text(metres(2.7), metric) == "2.700 m");
  CHECK(text(Speed::from_value(50.0), metric) == "50.00 m/s");
  CHECK(text(LineLoad::from_value(6400.0), metric) == "6.400 kN/m");
  CHECK(text(Moment::from_value(3500.0), metric) == "3.500 kN m");
  CHECK(text(Area::from_value(96.0), metric) == "96.000 m^2");
  CHECK(text(Density::from_value(1.2), metric) == "1.2000 kg/m^3");
  CHECK(text(read("130 mph", Kind::speed), us) == "130.0 mph");
  CHECK(text(read("0.00256 lbf/ft^2/mph^2", Kind::density), us) == "0.00256 lbf/ft^2/mph^2");
  CHECK(text(read("20 psf", Kind::pressure), us) == "20.000 lbf/ft^2");
  CHECK(text(read("1 kip", Kind::force), us) == "1000.0 lbf");
  CHECK(text(read("35 ft 9.12 in", Kind::length), us) == "35.760 ft");
  CHECK(text(value(0.9), metric) == "0.9");
  CHECK(text(value(-1.0), us) == "-1");
  CHECK(text(value(2.0 / 3.0), metric) == "0.6667");
  CHECK(text(value(0.00004), metric) == "0.0000");
  CHECK_FALSE(printed(Kind::force, us).symbol.empty());
}

TEST_CASE("units: small things keep their size in print") {
  CHECK(text(read("0.75 mm", Kind::length), small_units(metric)) == "0.75 mm");
  CHECK(text(read("84.3 mm2", Kind::area), small_units(metric)) == "84.3 mm^2");
  CHECK(text(read("25 MPa", Kind::pressure), small_units(metric)) == "25.000 MPa");
  CHECK(text(read("0.625 in", Kind::length), small_units(us)) == "0.625 in");
  CHECK(text(read("0.142 in2", Kind::area), small_units(us)) == "0.1420 in^2");
  CHECK(text(read("3000 psi", Kind::pressure), small_units(us)) == "3000.0 psi");
  for (const Units* u : {&metric, &us}) {
    CHECK(text(read("4.5 kN", Kind::force), small_units(*u)) == text(read("4.5 kN", Kind::force), *u));
    CHECK(&small_units(small_units(*u)) == &small_units(*u));
  }
}

TEST_CASE("units: nothing has a sign") {
  for (const Units* u : {&metric, &us})
    for (const Kind kind : all_kinds()) {
      CHECK(number(Value{-1e-9, kind}, *u).front() != '-');
      CHECK(number(Value{-0.0, kind}, *u).front() != '-');
      CHECK(number(Value{-1000.0, kind}, *u).front() == '-');
    }
  CHECK(place(metres(-0.0001), metric) == "0");
  CHECK(place(metres(-0.0001), us) == "0 ft 0.0 in");
}

TEST_CASE("units: what is printed reads back within half of its last place") {
  std::mt19937 random(4711);
  std::uniform_real_distribution<double> size(-3.0, 5.0);
  for (const Units* u : {&metric, &us, &metric_small, &us_small})
    for (const Kind kind : all_kinds())
      for (int i = 0; i < 200; ++i) {
        const Value v{(i % 2 == 0 ? 1.0 : -1.0) * std::pow(10.0, size(random)), kind};
        const std::string s = text(v, *u);
        INFO(s);
        const double half = 0.5 * std::pow(10.0, -printed(kind, *u).decimals);
        CHECK(std::abs(in(read(s, kind), *u) - in(v, *u)) <= half * (1.0 + 1e-9) + 1e-12 * std::abs(in(v, *u)));
      }
  // A ratio with few decimals is printed whole: the same bits come back.
  for (int i = -20000; i <= 20000; ++i)
    if (read(text(value(i / 10000.0), metric), Kind::ratio).si != i / 10000.0) FAIL(i);
}

TEST_CASE("units: places as drawings give them") {
  CHECK(place(metres(10.9), metric) == "10900");
  CHECK(place(metres(-0.09), metric) == "-90");
  CHECK(place(read_feet("35-9.1"), us) == "35 ft 9.1 in");
  CHECK(place(read_feet("12-11 63/64"), us) == "13 ft 0.0 in");
  CHECK(place(-read_feet("0-3"), us) == "-0 ft 3.0 in");
  CHECK(place_unit(metric) == "mm");
  CHECK(place_unit(us) == "ft and in");
}

TEST_CASE("units: a use never looks smaller than it is") {
  CHECK(percent_up(1.0) == "100.0 %");
  CHECK(percent_up(1.00004) == "100.1 %");
  CHECK(percent_up(std::nextafter(1.0, 2.0)) == "100.1 %");
  CHECK(percent_up(0.952) == "95.2 %");
  CHECK(percent_up(0.9520001) == "95.3 %");
  CHECK(percent_up(0.0) == "0.0 %");
  CHECK(percent_up(1e-12) == "0.1 %");
  CHECK(percent_up(99.9) == "9990.0 %");
  CHECK(percent_up(no_limit) == "over 9999.9 %");
  CHECK(percent_up(not_a_number) == "unknown");
  for (int i = 0; i <= 3000; ++i)
    if (percent_up(i / 1000.0) != fmt::format("{}.{} %", i / 10, i % 10)) FAIL(i);
}

// ---- the tables --------------------------------------------------------------------------------------------------

TEST_CASE("units: every kind has a name, units that fit, and an order that begins with the usual one") {
  for (const Kind kind : all_kinds()) {
    CHECK_FALSE(kind_name(kind).empty());
    CHECK(units_that_fit(kind).empty() == (kind == Kind::ratio));
  }
  CHECK(units_that_fit(Kind::length) == "`m`, `mm`, `cm`, `km`, `ft`, `in`");
  CHECK(units_that_fit(Kind::pressure).starts_with("`kPa`"));
}

TEST_CASE("units: no spelling stands for two things") {
  const auto all = spellings();
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t j = i + 1; j < all.size(); ++j) CHECK(all[i].text != all[j].text);
}

TEST_CASE("units: the closed lists of job and sheets have their words") {
  CHECK(words(Basis::limit_state) == "limit state (design)");
  CHECK(words(Basis::allowable) == "allowable");
  CHECK(words(Together::sum) == "straight sum");
  CHECK(words(Together::five_thirds) == "5/3 power");
  CHECK(words(Together::one_and_half) == "1.5 power");
  CHECK(words(Together::alone) == "each alone");
  CHECK(words(Side::left) == "left");
  CHECK(words(Side::front) == "front");
  CHECK(words(Side::right) == "right");
  CHECK(words(Side::back) == "back");
}
