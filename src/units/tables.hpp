// The exact factors behind the two tables of the room, as fractions of whole numbers.
#pragma once

namespace belay::factors {

// Every factor is si = typed * numerator / denominator. Both are whole numbers that a double holds exactly, but for the
// two that say so; so a typed value is rounded once in the product and once in the division.
struct Fraction {
  double numerator, denominator;
};

// By definition (international yard and pound, 1959; standard gravity, 1901): 1 ft = 0.3048 m, 1 mile = 5280 ft,
// 1 lb = 0.45359237 kg, g = 9.80665 m/s^2, hence 1 lbf = 4.4482216152605 N.
inline constexpr double lbf_e13 = 44482216152605.0;  // pound force in N, times 1e13

inline constexpr Fraction one{1.0, 1.0};
inline constexpr Fraction thousand{1000.0, 1.0};
inline constexpr Fraction foot{381.0, 1250.0};
inline constexpr Fraction inch{127.0, 5000.0};
inline constexpr Fraction square_inch{64516.0, 1e8};
inline constexpr Fraction square_foot{9290304.0, 1e8};
inline constexpr Fraction cubic_foot{28316846592.0, 1e12};
inline constexpr Fraction degree{3.14159265358979323846, 180.0};  // pi: rounded
inline constexpr Fraction kilometre_an_hour{5.0, 18.0};
inline constexpr Fraction mile_an_hour{1397.0, 3125.0};
inline constexpr Fraction pound{lbf_e13, 1e13};
inline constexpr Fraction kip{lbf_e13, 1e10};
inline constexpr Fraction pound_a_square_foot{lbf_e13, 9290304.0 * 1e5};
inline constexpr Fraction pound_a_square_inch{lbf_e13, 64516.0 * 1e5};
inline constexpr Fraction pound_a_foot{lbf_e13, 3048.0 * 1e9};
inline constexpr Fraction pound_a_cubic_foot{lbf_e13, 28316846592.0 * 10.0};
inline constexpr Fraction kilonewton_a_millimetre{1e6, 1.0};
inline constexpr Fraction newton_a_millimetre{1e3, 1.0};
inline constexpr Fraction pound_an_inch{lbf_e13, 254.0 * 1e9};
inline constexpr Fraction kip_an_inch{lbf_e13, 254.0 * 1e6};
inline constexpr Fraction pound_an_inch_a_foot{lbf_e13, 254.0 * 3048.0 * 1e5};
inline constexpr Fraction foot_pound{3389544870828501.0, 2.5e15};  // lbf * 0.3048, reduced by 40
// lbf/ft^2 over mph^2: 3125^2 / 1397^2 of the pound a square foot, reduced by 3125. The numerator is rounded.
inline constexpr Fraction pound_a_square_foot_a_mph_squared{lbf_e13 * 3125.0, 32.0 * 9290304.0 * 1951609.0};

}  // namespace belay::factors
