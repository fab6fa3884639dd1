// A veranda's rafter between the wall and the beam. d: from the wall to the beam; o: past the beam; b: the width of
// roof that the rafter carries. The pressure acts square to the slope, and its level part turns the rafter, whose two
// ends do not stand on one level: each end is asked for as if the other one held all of the level part.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

inline constexpr auto veranda_lift_at_wall =
    formula<Force>("W", "wind that lifts the rafter off the wall, by moments about the beam", "moments",
                   {"p", "b", "d", "o", "theta_v"}, [](auto p, auto b, auto d, auto o, auto theta) {
                     return p * b * (d + o) * (d - o) / (2.0 * d * square(cosine(theta)));
                   });
inline constexpr auto veranda_lift_at_beam =
    formula<Force>("W", "wind that lifts the rafter off the beam, by moments about the wall", "moments",
                   {"p", "b", "d", "o", "theta_v"}, [](auto p, auto b, auto d, auto o, auto theta) {
                     return p * b * (d + o) * (d + o) / (2.0 * d * square(cosine(theta)));
                   });
inline constexpr auto veranda_weight_at_wall = formula<Force>(
    "D", "weight of its strip of roof at the wall, by moments about the beam", "moments", {"g_v", "b", "d", "o"},
    [](auto g, auto b, auto d, auto o) { return g * b * (d + o) * (d - o) / (2.0 * d); });
inline constexpr auto veranda_weight_at_beam = formula<Force>(
    "D", "weight of its strip of roof at the beam, by moments about the wall", "moments", {"g_v", "b", "d", "o"},
    [](auto g, auto b, auto d, auto o) { return g * b * (d + o) * (d + o) / (2.0 * d); });

}  // namespace belay::formulas
