// What presses on the studs at a brace's end.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

inline constexpr auto tip_pressing =
    formula<Force>("T_p", "the tipping, with the wind's factor where all presses", "the combination",
                   {"T_v", "f_p", "f_w"}, [](auto t, auto p, auto w) { return t * p / w; });
inline constexpr auto pressing_width =
    formula<Length>("b_e", "length of wall whose weight comes to this end: half of the brace, and what is beside it",
                    "geometry", {"L", "b_o"}, [](auto l, auto o) { return l / 2.0 + o; });
inline constexpr auto wall_presses =
    formula<Force>("G_e", "weight of that wall, with the factor of what presses", "statics",
                   {"f_G", "g_w", "h_w", "b_e"}, [](auto f, auto g, auto h, auto b) { return f * g * h * b; });

}  // namespace belay::formulas
