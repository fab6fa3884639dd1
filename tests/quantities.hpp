// Quantities from plain numbers, and back, for the tests: one definition for all of them. Factors by definition
// (international yard and pound, 1959; standard gravity).
#pragma once
#include "belay/units.hpp"
#include <numbers>

namespace belay::test {

inline Length metres(double m) { return Length::from_value(m); }
inline Length millimetres(double x) { return Length::from_value(x / 1000.0); }
inline Length mm(double x) { return millimetres(x); }
inline Length feet(double ft) { return Length::from_value(ft * 0.3048); }
inline Angle degrees(double deg) { return Angle::from_value(deg * std::numbers::pi / 180.0); }
inline Force kilonewtons(double x) { return Force::from_value(x * 1000.0); }
inline Force pounds(double x) { return Force::from_value(x * 4.4482216152605); }
inline Pressure kilopascals(double x) { return Pressure::from_value(x * 1000.0); }
inline Pressure psf(double x) { return Pressure::from_value(x * 4.4482216152605 / (0.3048 * 0.3048)); }
inline Speed mph(double v) { return Speed::from_value(v * 0.44704); }
inline double in_kN(Force f) { return f / kilonewtons(1.0); }
inline double in_lbf(Force f) { return f / pounds(1.0); }
inline double in_psf(Pressure p) { return p / psf(1.0); }

}  // namespace belay::test
