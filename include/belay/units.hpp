// Quantities. Inside the program everything is SI and unscaled: a pressure is in Pa, a force in N, an angle in rad, and
// the compiler checks the dimensions. kN, kPa, mm, ft and mph exist only in the two tables of src/units/text.cpp: the
// spellings that may be typed and the units that are printed.
#pragma once
#include <boost/units/base_dimension.hpp>
#include <boost/units/base_unit.hpp>
#include <boost/units/cmath.hpp>
#include <boost/units/make_system.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/area.hpp>
#include <boost/units/systems/si/force.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass_density.hpp>
#include <boost/units/systems/si/plane_angle.hpp>
#include <boost/units/systems/si/pressure.hpp>
#include <boost/units/systems/si/velocity.hpp>
#include <boost/units/systems/si/volume.hpp>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace belay {

namespace si = boost::units::si;
template <class Unit> using Quantity = boost::units::quantity<Unit, double>;

using Length = Quantity<si::length>;
using Area = Quantity<si::area>;
using AreaMoment = Quantity<si::volume>;  // first moment of an area, m3
using Angle = Quantity<si::plane_angle>;
using Speed = Quantity<si::velocity>;
using Pressure = Quantity<si::pressure>;
using Density = Quantity<si::mass_density>;
using Force = Quantity<si::force>;
using PerLength = decltype(1.0 / Length());              // 1/m: how a share grows along a member
using LineLoad = decltype(Force() / Length());           // N/m: a load along a wall, or a rate of bracing
using WeightDensity = decltype(Force() / AreaMoment());  // N/m3: what a volume of concrete weighs
using Moment = decltype(Force() * Length());             // N m; energy to the library, which never occurs here

// How far a thing gives way is a length of its own kind, so that a stiffness is never taken for a load along a wall.
struct movement_dimension_base : boost::units::base_dimension<movement_dimension_base, 1> {};
using movement_dimension = movement_dimension_base::dimension_type;
struct movement_unit_base : boost::units::base_unit<movement_unit_base, movement_dimension, 1> {};
using movement_unit = boost::units::unit<movement_dimension, boost::units::make_system<movement_unit_base>::type>;
using Movement = Quantity<movement_unit>;                 // m
using Stiffness = decltype(Force() / Movement());         // N for each m that it gives way
using SheetStiffness = decltype(Stiffness() / Length());  // the same for each metre of its length

// The closed list of dimensions that can be read, printed and told in a working.
enum class Kind : unsigned char {
  ratio,
  length,
  area,
  area_moment,
  angle,
  speed,
  pressure,
  density,
  force,
  line_load,
  moment,
  weight_density,
  stiffness,
  sheet_stiffness
};
inline constexpr std::size_t kinds = 14;

template <class Q> struct kind_of;  // undefined for a dimension that has no name: does not compile
template <> struct kind_of<double> { static constexpr Kind value = Kind::ratio; };
template <> struct kind_of<Quantity<si::dimensionless>> { static constexpr Kind value = Kind::ratio; };
template <> struct kind_of<Length> { static constexpr Kind value = Kind::length; };
template <> struct kind_of<Area> { static constexpr Kind value = Kind::area; };
template <> struct kind_of<AreaMoment> { static constexpr Kind value = Kind::area_moment; };
template <> struct kind_of<Angle> { static constexpr Kind value = Kind::angle; };
template <> struct kind_of<Speed> { static constexpr Kind value = Kind::speed; };
template <> struct kind_of<Pressure> { static constexpr Kind value = Kind::pressure; };
template <> struct kind_of<Density> { static constexpr Kind value = Kind::density; };
template <> struct kind_of<Force> { static constexpr Kind value = Kind::force; };
template <> struct kind_of<LineLoad> { static constexpr Kind value = Kind::line_load; };
template <> struct kind_of<Moment> { static constexpr Kind value = Kind::moment; };
template <> struct kind_of<WeightDensity> { static constexpr Kind value = Kind::weight_density; };
template <> struct kind_of<Stiffness> { static constexpr Kind value = Kind::stiffness; };
template <> struct kind_of<SheetStiffness> { static constexpr Kind value = Kind::sheet_stiffness; };

// A quantity with its dimension in a tag: the only form in which the type is erased, for tables, steps and results.
struct Value {
  double si;  // in the unscaled SI unit of its kind (radians for an angle)
  Kind kind;
  friend bool operator==(const Value&, const Value&) = default;
};
inline Value value(double x) { return {x, Kind::ratio}; }
template <class Unit> Value value(const Quantity<Unit>& q) { return {q.value(), kind_of<Quantity<Unit>>::value}; }
// The quantity back from its erased form. Precondition: the kinds agree (asserted).
template <class Q> Q quantity(Value v);
void require_kind(Value v, Kind wanted);  // throws std::logic_error when they differ
template <> inline double quantity<double>(Value v) {
  require_kind(v, Kind::ratio);
  return v.si;
}
template <class Q> Q quantity(Value v) {
  require_kind(v, kind_of<Q>::value);
  return Q::from_value(v.si);
}

inline constexpr Length metre = Length::from_value(1.0);
inline constexpr Angle radian = Angle::from_value(1.0);
template <class Q> constexpr Q zero() { return Q::from_value(0.0); }
// Half a millimetre: places closer than this are one place on a drawing that is written in whole millimetres.
inline constexpr Length same_place = Length::from_value(0.0005);

// How each kind is printed: the factor is printed = si * denominator / numerator (see src/units/text.cpp).
struct Printed {
  Kind kind;
  std::string_view symbol;
  double numerator, denominator;
  int decimals;
};
struct Units {
  std::string_view name;
  std::span<const Printed> rows;
};
extern const Units metric;  // kN, kPa, m, deg, m/s, kg/m^3, kN/m, kN m, kN/m^3, kN/mm, kN/mm/m
extern const Units us;      // lbf, lbf/ft^2, ft, deg, mph, lbf/ft^2/mph^2, lbf/ft, lbf ft, lbf/ft^3, lbf/in, lbf/in/ft
// For bolts and what they are set in, whose sizes a house's units would round away: mm, mm^2, MPa; in, in^2, psi. All
// else as in the units that they go with.
extern const Units metric_small;
extern const Units us_small;
const Units& small_units(const Units&);

const Printed& printed(Kind, const Units&);
double in(Value, const Units&);           // the number that `text` prints, unrounded
std::string number(Value, const Units&);  // "24.750", never "-0.000"; a ratio "0.9" when that is all of it
std::string text(Value, const Units&);    // "24.750 kN", a ratio as a bare number; GNU Units reads it
template <class Q> std::string text(const Q& q, const Units& u) { return text(value(q), u); }
// A place along a wall as a drawing gives it: whole millimetres "10900" (metric), "35 ft 9.1 in" (us).
std::string place(Length, const Units&);
std::string_view place_unit(const Units&);  // "mm", or "ft and in"
// The size of a thing: "45 mm", "0.75 mm" (metric), "1.77 in" (us); and the strength of concrete: "25 MPa", "3600 psi".
std::string size_text(Length, const Units&);
std::string strength_text(Pressure, const Units&);
// A use as a percentage with one decimal, rounded up: 1.00004 is "100.1 %". From 100 times on "over 9999.9 %" (a
// capacity of zero), nan is "unknown".
std::string percent_up(double use);

// Reads a quantity as a person types it: one decimal number, spaces or none, one unit that fits `kind` (letter for
// letter as in `spellings()`); for a ratio the number alone. On failure returns nothing and says in `why` what was
// wrong, the nearest right spelling, and which units fit. `why` is left alone on success.
//
// Legal (each line is run by a test):
//   2.7 m            a decimal number with `.`, a space, a unit
//   2700mm           no space
//   2.7   m          more spaces, also around it
//   -0.3 kPa         a sign, also `+`
//   8 ft 6 in        whole feet, then less than 12 inches; the sign belongs to both
//   1.5e3 N          an exponent of one digit
//   0.85             a ratio, without a unit
//   22.5 deg
//   130 mph
//   24.75 kN m       all that `text` prints
// Illegal:
//   2.7              no unit
//   2.7 kN           a unit of another kind, where a length is wanted
//   2.7 KPA          letters of the wrong case
//   2,7 m            a comma, for decimals or for thousands
//   1e12 m           an exponent beyond 9
//   nan m            nan, inf
//   .5 m             no digit before the point, or none after it
//   2.7 m high       anything after it
//   2.7 m 30 mm      two quantities, but for feet and inches
//   8.5 ft 6 in      feet that are not whole, before inches
//   8 ft 12 in       12 inches or more, after feet
//   5 %              a ratio with anything behind it
//   m                no number
//   0x10 m           any other way to write a number
std::optional<Value> parse_quantity(std::string_view, Kind, std::string& why);
// "12-6", "12-6.5" or "12-6 1/2": feet and inches as drawings write them (drawing = "ft-in"). Feet are whole, inches
// are never left out and less than 12, parts are halves down to 64ths. On failure as parse_quantity.
std::optional<Length> parse_feet_inches(std::string_view, std::string& why);
std::string_view kind_name(Kind);  // "length", "pressure", "racking rate"...
// The spellings that fit a kind, in the order in which messages name them; "" for a ratio.
std::string units_that_fit(Kind);  // "`m`, `mm`, `cm`, `km`, `ft`, `in`"
// All that may be typed: si = typed * numerator / denominator. What is printed may be typed as well.
// gnu: how GNU Units spells it.
struct Spelling {
  std::string_view text;
  Kind kind;
  double numerator, denominator;
  std::string_view gnu;
};
std::span<const Spelling> spellings();

}  // namespace belay
