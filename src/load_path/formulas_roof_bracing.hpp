// The wind on gables and hip ends along the slopes, and the straps that hold it. Lengths and angles of a strap lie in
// its slope's plane.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

// A strip of the gable from the ceiling up to the roof hands half of its wind to each.
inline constexpr auto gable_to_slope =
    formula<Force>("F", "what comes to this slope of the wind on the gable: half, the ceiling has the other half",
                   "statics", {"f_w", "p", "A"}, [](auto f, auto p, auto a) { return f * p * a / 2.0; });
inline constexpr auto gable_to_slope_against =
    formula<Force>("F",
                   "what comes to this slope of the wind on the gable that faces the other way: half, a push on it "
                   "counted negative",
                   "statics", {"f_w", "p", "A"}, [](auto f, auto p, auto a) { return -f * p * a / 2.0; });
// Between the wall and its girder the slope of a hip end spans on jacks and creepers: half of what pushes it level
// comes to the girder and the hips. What stands above the girder has no wall to go to.
inline constexpr auto hip_end_to_slope =
    formula<Force>("F",
                   "what comes to this slope of the wind on the hip end: half, by jacks and creepers the end wall has "
                   "the other half",
                   "statics", {"f_w", "p", "A"}, [](auto f, auto p, auto a) { return f * p * a / 2.0; });
inline constexpr auto hip_end_to_slope_against =
    formula<Force>("F",
                   "what comes to this slope of the wind on the hip end that faces the other way: half, a push on it "
                   "counted negative",
                   "statics", {"f_w", "p", "A"}, [](auto f, auto p, auto a) { return -f * p * a / 2.0; });
inline constexpr auto hip_end_whole =
    formula<Force>("F", "what comes to this slope of the wind on the hip end above where its jacks halve it: all of it",
                   "the safe one", {"f_w", "p", "A"}, [](auto f, auto p, auto a) { return f * p * a; });
inline constexpr auto hip_end_whole_against = formula<Force>(
    "F",
    "what comes to this slope of the wind on the hip end that faces the other way, above where its jacks "
    "halve it: all of it, a push on it counted negative",
    "the safe one", {"f_w", "p", "A"}, [](auto f, auto p, auto a) { return -f * p * a; });
inline constexpr auto swept_to_slope =
    formula<Force>("F", "wind that sweeps along walls and roof: taken whole, by the slope's part of the width",
                   "the safe one", {"f_w", "p", "A"}, [](auto f, auto p, auto a) { return f * p * a; });
inline constexpr auto swept_to_slope_against =
    formula<Force>("F", "wind that sweeps the other way along walls and roof: counted negative", "the safe one",
                   {"f_w", "p", "A"}, [](auto f, auto p, auto a) { return -f * p * a; });
// Inside the main block's walls a wing's roof stands on that block's trusses, and no ceiling is below it.
inline constexpr auto wing_to_slope =
    formula<Force>("F", "what comes to this slope of the wind on a wing's roof that lies on it: all of it",
                   "the safe one", {"f_w", "p", "A"}, [](auto f, auto p, auto a) { return f * p * a; });
inline constexpr auto wing_to_slope_against =
    formula<Force>("F",
                   "what comes to this slope of the wind the other way on a wing's roof that lies on it: all of it, a "
                   "push on it counted negative",
                   "the safe one", {"f_w", "p", "A"}, [](auto f, auto p, auto a) { return -f * p * a; });
inline constexpr auto up_the_slope =
    formula<Length>("w", "from its foot to its head, straight up the slope", "geometry", {"d", "theta_r"},
                    [](auto d, auto theta) { return d / cosine(theta); });
inline constexpr auto angle_to_ridge =
    formula<Angle>("psi", "angle between strap and ridge, in the plane of the slope", "geometry", {"w", "a"},
                   [](auto w, auto a) { return arctangent(w / a); });
inline constexpr auto even_share = formula<Force>("P_b", "this strap's share of it: straps alike share by number",
                                                  "shared equally", {"P", "n"}, [](auto p, auto n) { return p / n; });
inline constexpr auto share_by_strength =
    formula<Force>("P_b", "this strap's share of it: straps that differ share by what each can hold",
                   "shared by capacity", {"P", "C_b", "C_n"}, [](auto p, auto c, auto all) { return p * c / all; });
inline constexpr auto strap_tension =
    formula<Force>("T", "tension in the strap, whose part along the ridge is that share", "statics", {"P_b", "psi"},
                   [](auto p, auto psi) { return p / cosine(psi); });
inline constexpr auto straps_alike =
    formula<Force>("C_n", "what these straps hold together", "sum", {"n", "C_b"}, [](auto n, auto c) { return n * c; });
inline constexpr auto slope_holds =
    formula<Force>("C_p", "what they hold along the ridge, by the angle of the steepest of them", "statics",
                   {"C_n", "psi"}, [](auto c, auto psi) { return c * cosine(psi); });
// What the strap does at its foot.
inline constexpr auto pull_up_the_slope = formula<Force>("S", "what it pulls at its foot up the slope", "statics",
                                                         {"T", "psi"}, [](auto t, auto psi) { return t * sine(psi); });
inline constexpr auto foot_across =
    formula<Force>("X_c", "the level part of that, inwards across the wall", "statics", {"S", "theta_r"},
                   [](auto s, auto theta) { return s * cosine(theta); });
inline constexpr auto foot_lift = formula<Force>("X_u", "the upright part of that: it lifts", "statics",
                                                 {"S", "theta_r"}, [](auto s, auto theta) { return s * sine(theta); });

}  // namespace belay::formulas
