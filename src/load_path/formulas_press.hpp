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

inline constexpr auto face_on_wall =
    formula<Length>("h_f", "what stands upright on that wall under the roof, at its highest", "geometry",
                    {"k_s", "s_r", "theta_r"}, [](auto k, auto s, auto theta) { return k * s * tangent(theta); });

inline constexpr auto floor_load =
    formula<Pressure>("q_f", "what the floor weighs with its load, each with its factor", "the combination",
                      {"f_G", "g_f", "f_Q", "q_Q"}, [](auto f, auto g, auto k, auto q) { return f * g + k * q; });
inline constexpr auto floor_presses =
    formula<Force>("Q", "what of the floor bears on that stretch of wall, at most", "statics", {"q_f", "b_f", "d_f"},
                   [](auto q, auto b, auto d) { return q * b * d; });

}  // namespace belay::formulas
