// What the concrete under a fixing weighs. It lies on the ground; nothing else of it counts: no soil at its sides, no
// wall and no roof on it, whose weight is in the pull already.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

inline constexpr auto edge_section = formula<Area>("S", "section of the concrete under the wall", "geometry",
                                                   {"b_e", "d_e"}, [](auto b, auto d) { return b * d; });
inline constexpr auto edge_section_with_slab =
    formula<Area>("S", "section of the concrete under the wall, with the slab that comes up beside it", "geometry",
                  {"b_e", "d_e", "b_s", "t_s"}, [](auto b, auto d, auto bs, auto ts) { return b * d + bs * ts; });
inline constexpr auto edge_length =
    formula<Length>("l", "length of that concrete", "geometry", {"x_2", "x_1"}, [](auto b, auto a) { return b - a; });
inline constexpr auto edge_weight = formula<Force>("G", "weight of that length", "statics", {"gamma_c", "S", "l"},
                                                   [](auto gamma, auto s, auto l) { return gamma * s * l; });
inline constexpr auto footing_weight =
    formula<Force>("G", "weight of the footing", "statics", {"gamma_c", "b_f", "l_f", "d_f"},
                   [](auto gamma, auto b, auto l, auto d) { return gamma * b * l * d; });
inline constexpr auto weight_that_holds = formula<Force>("C", "what of that weight may be counted on", "combination",
                                                         {"f_d", "G"}, [](auto f, auto g) { return f * g; });

inline constexpr auto subfloor_holds = formula<Force>("C", "what the braces under the floor hold together", "sum",
                                                      {"n", "C_b"}, [](auto n, auto c) { return n * c; });

// ---- the house as one block on the ground. z: height above the ground.
inline constexpr auto push_tips =
    formula<Moment>("M", "that push about the edge, at the height of its part's middle above the ground", "moments",
                    {"P", "z"}, [](auto f, auto z) { return f * z; });
inline constexpr auto slab_weight =
    formula<Force>("G_s", "weight of the slab", "statics", {"gamma_c", "t_s", "X", "Y"},
                   [](auto gamma, auto t, auto x, auto y) { return gamma * t * x * y; });
inline constexpr auto edges_round =
    formula<Length>("l_e", "length of the edges round the house, along their middles", "geometry", {"X", "Y", "b_e"},
                    [](auto x, auto y, auto b) { return 2.0 * (x + y) - 4.0 * b; });
inline constexpr auto weight_of_edges =
    formula<Force>("G_e", "weight of the edges below the slab", "statics", {"gamma_c", "b_e", "d_e", "t_s", "l_e"},
                   [](auto gamma, auto b, auto d, auto t, auto l) { return gamma * b * (d - t) * l; });
inline constexpr auto weight_of_floor = formula<Force>("G_f", "weight of the first floor", "statics", {"g_f", "X", "Y"},
                                                       [](auto g, auto x, auto y) { return g * x * y; });
inline constexpr auto weight_of_walls = formula<Force>("G_w", "weight of the walls, openings left out", "statics",
                                                       {"g_w", "A_w"}, [](auto g, auto a) { return g * a; });
inline constexpr auto weight_on_ground = formula<Force>(
    "N", "what presses on the ground: the weight that may be counted on, less what the wind lifts of the roof",
    "combination", {"f_d", "G", "U"}, [](auto f, auto g, auto u) { return f * g - u; });
inline constexpr auto held_by_friction =
    formula<Force>("C", "what friction holds of it", "statics", {"mu", "N"}, [](auto mu, auto n) { return mu * n; });
inline constexpr auto weight_about_edge =
    formula<Moment>("M", "weight of slab, edges and floor about the edge: half of the plan away", "moments",
                    {"f_d", "G", "b"}, [](auto f, auto g, auto b) { return f * g * (b / 2.0); });
inline constexpr auto walls_about_edge =
    formula<Moment>("M", "weight of the walls about the edge", "moments", {"f_d", "g_w", "S_w"},
                    [](auto f, auto g, auto s) { return f * g * s; });

}  // namespace belay::formulas
