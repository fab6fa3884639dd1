// The two tables of units: what may be typed and what is printed. Nothing else in the program knows a kN or a foot.
#include "belay/units.hpp"
#include "units/tables.hpp"
#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <stdexcept>

namespace belay {
namespace {

using factors::Fraction;

constexpr Spelling typed(std::string_view text, Kind kind, Fraction f, std::string_view gnu) {
  return {text, kind, f.numerator, f.denominator, gnu};
}
constexpr Spelling typed(std::string_view text, Kind kind, Fraction f) { return typed(text, kind, f, text); }

// Within a kind in the order in which messages name them: the usual ones first. Everything that is printed may be
// typed.
constexpr std::array spelling_table{
    typed("m", Kind::length, factors::one),
    typed("mm", Kind::length, {1.0, 1000.0}),
    typed("cm", Kind::length, {1.0, 100.0}),
    typed("km", Kind::length, factors::thousand),
    typed("ft", Kind::length, factors::foot),
    typed("in", Kind::length, factors::inch),
    typed("m2", Kind::area, factors::one, "m^2"),
    typed("ft2", Kind::area, factors::square_foot, "ft^2"),
    typed("mm2", Kind::area, {1.0, 1e6}, "mm^2"),
    typed("in2", Kind::area, factors::square_inch, "in^2"),
    typed("m^2", Kind::area, factors::one),
    typed("ft^2", Kind::area, factors::square_foot),
    typed("mm^2", Kind::area, {1.0, 1e6}),
    typed("in^2", Kind::area, factors::square_inch),
    typed("m3", Kind::area_moment, factors::one, "m^3"),
    typed("ft3", Kind::area_moment, factors::cubic_foot, "ft^3"),
    typed("m^3", Kind::area_moment, factors::one),
    typed("ft^3", Kind::area_moment, factors::cubic_foot),
    typed("deg", Kind::angle, factors::degree),
    typed("rad", Kind::angle, factors::one, "radian"),
    typed("m/s", Kind::speed, factors::one),
    typed("km/h", Kind::speed, factors::kilometre_an_hour, "km/hour"),
    typed("mph", Kind::speed, factors::mile_an_hour),
    typed("kPa", Kind::pressure, factors::thousand),
    typed("Pa", Kind::pressure, factors::one),
    typed("MPa", Kind::pressure, {1e6, 1.0}),
    typed("psf", Kind::pressure, factors::pound_a_square_foot, "lbf/ft^2"),
    typed("psi", Kind::pressure, factors::pound_a_square_inch),
    typed("lbf/ft^2", Kind::pressure, factors::pound_a_square_foot),
    typed("kg/m3", Kind::density, factors::one, "kg/m^3"),
    typed("kg/m^3", Kind::density, factors::one),
    typed("lbf/ft^2/mph^2", Kind::density, factors::pound_a_square_foot_a_mph_squared),
    typed("kN", Kind::force, factors::thousand),
    typed("N", Kind::force, factors::one),
    typed("lbf", Kind::force, factors::pound),
    typed("lb", Kind::force, factors::pound, "lbf"),
    typed("kip", Kind::force, factors::kip, "1000 lbf"),
    typed("kN/m", Kind::line_load, factors::thousand),
    typed("N/m", Kind::line_load, factors::one),
    typed("plf", Kind::line_load, factors::pound_a_foot, "lbf/ft"),
    typed("lbf/ft", Kind::line_load, factors::pound_a_foot),
    typed("kNm", Kind::moment, factors::thousand, "kN m"),
    typed("Nm", Kind::moment, factors::one, "N m"),
    typed("kN m", Kind::moment, factors::thousand),
    typed("N m", Kind::moment, factors::one),
    typed("lbf ft", Kind::moment, factors::foot_pound),
    typed("kN/m3", Kind::weight_density, factors::thousand, "kN/m^3"),
    typed("pcf", Kind::weight_density, factors::pound_a_cubic_foot, "lbf/ft^3"),
    typed("kN/m^3", Kind::weight_density, factors::thousand),
    typed("lbf/ft^3", Kind::weight_density, factors::pound_a_cubic_foot),
    typed("kN/mm", Kind::stiffness, factors::kilonewton_a_millimetre),
    typed("N/mm", Kind::stiffness, factors::newton_a_millimetre),
    typed("lbf/in", Kind::stiffness, factors::pound_an_inch),
    typed("kip/in", Kind::stiffness, factors::kip_an_inch, "1000 lbf/in"),
    typed("kN/mm/m", Kind::sheet_stiffness, factors::kilonewton_a_millimetre),
    typed("N/mm/m", Kind::sheet_stiffness, factors::newton_a_millimetre),
    typed("lbf/in/ft", Kind::sheet_stiffness, factors::pound_an_inch_a_foot),
};

constexpr Printed row(Kind kind, std::string_view symbol, Fraction f, int decimals) {
  return {kind, symbol, f.numerator, f.denominator, decimals};
}
// One row for each kind, in the order of the kinds. Decimals: enough for a check by hand at the size of a house.
constexpr std::array<Printed, kinds> metric_rows{
    row(Kind::ratio, "", factors::one, 4),
    row(Kind::length, "m", factors::one, 3),
    row(Kind::area, "m^2", factors::one, 3),
    row(Kind::area_moment, "m^3", factors::one, 3),
    row(Kind::angle, "deg", factors::degree, 2),
    row(Kind::speed, "m/s", factors::one, 2),
    row(Kind::pressure, "kPa", factors::thousand, 4),
    row(Kind::density, "kg/m^3", factors::one, 4),
    row(Kind::force, "kN", factors::thousand, 3),
    row(Kind::line_load, "kN/m", factors::thousand, 3),
    row(Kind::moment, "kN m", factors::thousand, 3),
    row(Kind::weight_density, "kN/m^3", factors::thousand, 3),
    row(Kind::stiffness, "kN/mm", factors::kilonewton_a_millimetre, 3),
    row(Kind::sheet_stiffness, "kN/mm/m", factors::kilonewton_a_millimetre, 3),
};
constexpr std::array<Printed, kinds> us_rows{
    row(Kind::ratio, "", factors::one, 4),
    row(Kind::length, "ft", factors::foot, 3),
    row(Kind::area, "ft^2", factors::square_foot, 3),
    row(Kind::area_moment, "ft^3", factors::cubic_foot, 3),
    row(Kind::angle, "deg", factors::degree, 2),
    row(Kind::speed, "mph", factors::mile_an_hour, 1),
    row(Kind::pressure, "lbf/ft^2", factors::pound_a_square_foot, 3),
    row(Kind::density, "lbf/ft^2/mph^2", factors::pound_a_square_foot_a_mph_squared, 5),
    row(Kind::force, "lbf", factors::pound, 1),
    row(Kind::line_load, "lbf/ft", factors::pound_a_foot, 2),
    row(Kind::moment, "lbf ft", factors::foot_pound, 1),
    row(Kind::weight_density, "lbf/ft^3", factors::pound_a_cubic_foot, 2),
    row(Kind::stiffness, "lbf/in", factors::pound_an_inch, 1),
    row(Kind::sheet_stiffness, "lbf/in/ft", factors::pound_an_inch_a_foot, 1),
};
constexpr std::array<Printed, kinds> with(std::array<Printed, kinds> rows, std::initializer_list<Printed> own) {
  for (const Printed& p : own) rows[static_cast<std::size_t>(p.kind)] = p;
  return rows;
}
constexpr std::array<Printed, kinds> metric_small_rows =
    with(metric_rows, {
                          row(Kind::length, "mm", {1.0, 1000.0}, 2),
                          row(Kind::area, "mm^2", {1.0, 1e6}, 1),
                          row(Kind::pressure, "MPa", {1e6, 1.0}, 3),
                      });
constexpr std::array<Printed, kinds> us_small_rows =
    with(us_rows, {
                      row(Kind::length, "in", factors::inch, 3),
                      row(Kind::area, "in^2", factors::square_inch, 4),
                      row(Kind::pressure, "psi", factors::pound_a_square_inch, 1),
                  });
constexpr bool in_order(const std::array<Printed, kinds>& rows) {
  for (std::size_t i = 0; i < kinds; ++i)
    if (static_cast<std::size_t>(rows[i].kind) != i) return false;
  return true;
}
static_assert(in_order(metric_rows) && in_order(us_rows) && in_order(metric_small_rows) && in_order(us_small_rows),
              "one row for each kind, in the order of the kinds");

// "-0.00" reads as a slip: a number that rounds to nothing has no sign.
std::string without_sign_of_nothing(std::string s) {
  if (!s.empty() && s.front() == '-' && s.find_first_of("123456789") == std::string::npos) s.erase(0, 1);
  return s;
}
// A ratio that needs no more decimals than it is given is printed as it is: "0.9", and reads back to the same bits.
std::optional<std::string> exact(double x, int decimals) {
  std::string s = fmt::format("{}", x);
  const std::size_t point = s.find('.');
  if (s.find('e') != std::string::npos) return std::nullopt;
  if (point == std::string::npos) return s;
  if (s.size() - point - 1 > static_cast<std::size_t>(decimals)) return std::nullopt;
  if (s.ends_with(".0")) s.resize(point);
  return s;
}
bool in_feet(const Units& u) { return printed(Kind::length, u).symbol == "ft"; }

}  // namespace

constinit const Units metric{"metric", metric_rows};
constinit const Units us{"us", us_rows};
constinit const Units metric_small{"metric, small", metric_small_rows};
constinit const Units us_small{"us, small", us_small_rows};
const Units& small_units(const Units& u) { return &u == &us || &u == &us_small ? us_small : metric_small; }

std::span<const Spelling> spellings() { return spelling_table; }

void require_kind(Value v, Kind wanted) {
  if (v.kind == wanted) return;
  throw std::logic_error(fmt::format("a {} stands where a {} is wanted", kind_name(v.kind), kind_name(wanted)));
}

const Printed& printed(Kind kind, const Units& u) { return u.rows[static_cast<std::size_t>(kind)]; }

double in(Value v, const Units& u) {
  const Printed& p = printed(v.kind, u);
  return v.si * p.denominator / p.numerator;
}

std::string number(Value v, const Units& u) {
  const double x = in(v, u);
  const int decimals = printed(v.kind, u).decimals;
  if (!std::isfinite(x)) return fmt::format("{}", x);
  if (v.kind == Kind::ratio)
    if (auto s = exact(x, decimals)) return without_sign_of_nothing(*std::move(s));
  return without_sign_of_nothing(fmt::format("{:.{}f}", x, decimals));
}

std::string text(Value v, const Units& u) {
  std::string s = number(v, u);
  if (v.kind != Kind::ratio) s.append(" ").append(printed(v.kind, u).symbol);
  return s;
}

namespace {
// Two decimals at most, four where the figure is small (sheet steel in inches), without zeros at the end.
std::string trimmed(double x) {
  std::string s = without_sign_of_nothing(fmt::format("{:.{}f}", x, std::abs(x) < 1.0 ? 4 : 2));
  while (s.back() == '0') s.pop_back();
  if (s.back() == '.') s.pop_back();
  return s;
}
}  // namespace

std::string size_text(Length l, const Units& u) {
  if (in_feet(u)) return trimmed(l.value() * factors::inch.denominator / factors::inch.numerator) + " in";
  return trimmed(l.value() * 1000.0) + " mm";
}

std::string strength_text(Pressure p, const Units& u) {
  return in_feet(u)
             ? trimmed(p.value() * factors::pound_a_square_inch.denominator / factors::pound_a_square_inch.numerator) +
                   " psi"
             : trimmed(p.value() / 1e6) + " MPa";
}

std::string place(Length l, const Units& u) {
  if (!in_feet(u)) return without_sign_of_nothing(fmt::format("{:.0f}", l.value() * 1000.0));
  constexpr double tenths = factors::inch.denominator * 10.0 / factors::inch.numerator;  // of an inch, in a metre
  const double whole = std::round(std::abs(l.value()) * tenths);
  const double feet = std::floor(whole / 120.0);
  return fmt::format("{}{:.0f} ft {:.1f} in", l.value() < 0.0 && whole > 0.0 ? "-" : "", feet,
                     (whole - feet * 120.0) / 10.0);
}
std::string_view place_unit(const Units& u) { return in_feet(u) ? "ft and in" : "mm"; }

std::string percent_up(double use) {
  constexpr double most = 9999.9;  // percent: beyond it the figure says nothing more
  if (std::isnan(use)) return "unknown";
  if (use > most / 100.0) return fmt::format("over {:.1f} %", most);
  // The least count of tenths of a percent that is not below the use, compared as the doubles they are.
  double tenths = std::floor(use * 1000.0) - 1.0;
  while (tenths / 1000.0 < use) tenths += 1.0;
  return without_sign_of_nothing(fmt::format("{:.1f}", tenths / 10.0)) + " %";
}

std::string_view kind_name(Kind kind) {
  switch (kind) {
    case Kind::ratio: return "plain number";
    case Kind::length: return "length";
    case Kind::area: return "area";
    case Kind::area_moment: return "first moment of an area";
    case Kind::angle: return "angle";
    case Kind::speed: return "speed";
    case Kind::pressure: return "pressure";
    case Kind::density: return "density";
    case Kind::force: return "force";
    case Kind::line_load: return "racking rate";
    case Kind::moment: return "moment";
    case Kind::weight_density: return "weight of a volume";
    case Kind::stiffness: return "stiffness";
    case Kind::sheet_stiffness: return "stiffness for its length";
  }
  throw std::logic_error("a kind that is not in the list");
}

std::string units_that_fit(Kind kind) {
  std::string s;
  for (const Spelling& u : spelling_table)
    if (u.kind == kind) s += fmt::format("{}`{}`", s.empty() ? "" : ", ", u.text);
  return s;
}

}  // namespace belay
