// The sums that ASCE 7 adds for hills, for the height of the ground and for the directional procedure. As in
// formulas.hpp: pressures are positive towards the surface, a source that names the standard alone is replaced by the
// edition's clause when told.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

// ---- hills
inline constexpr auto rise_over_length =
    formula<double>("H/L_h", "rise of the hill over its level length to half height", "ASCE 7", {"H", "L_h"},
                    [](auto h, auto l) { return h / l; });
inline constexpr auto length_of_steep_hill =
    formula<Length>("L_s", "length by which hills that are steeper count", "ASCE 7", {"H", "r_s"},
                    [](auto h, auto r) { return h / r; });
inline constexpr auto hill_at_crest = formula<double>("K_1", "shape of the hill and its rise", "ASCE 7", {"k_H", "r_c"},
                                                      [](auto k, auto r) { return k * r; });
inline constexpr auto hill_by_distance =
    formula<double>("K_2", "fading with the distance from the crest", "ASCE 7", {"x_H", "mu", "L_c"},
                    [](auto x, auto mu, auto l) { return 1.0 - x / (mu * l); });
inline constexpr auto hill_by_height =
    formula<double>("K_3", "fading with the height above the ground", "ASCE 7", {"gamma", "h", "L_c"},
                    [](auto gamma, auto h, auto l) { return exponential(-(gamma * h / l)); });
inline constexpr auto topographic_factor =
    formula<double>("K_zt", "speed-up over the hill, on the pressure", "ASCE 7", {"K_1", "K_2", "K_3"},
                    [](auto a, auto b, auto c) { return square(1.0 + a * b * c); });
inline constexpr auto topographic_factor_at_ground =
    formula<double>("K_zt,0", "speed-up over the hill at the ground, where it is greatest", "ASCE 7", {"K_1", "K_2"},
                    [](auto a, auto b) { return square(1.0 + a * b); });

// ---- height of the ground
inline constexpr auto ground_factor =
    formula<double>("K_e", "thinner air at the height of the ground above the sea", "ASCE 7-16", {"n_e", "z_e", "l_e"},
                    [](auto n, auto z, auto l) { return exponential(-(n * z / l)); });

// ---- pressure of the gust
inline constexpr auto height_of_ridge =
    formula<Length>("h_t", "height of the ridge above ground", "geometry", {"f", "h_w", "r"},
                    [](auto f, auto w, auto r) { return f + w + r; });
inline constexpr auto pressure_of_typed_gust =
    formula<Pressure>("q_h", "pressure of the gust that was typed in, as it stands", "ASCE 7", {"c", "V_h"},
                      [](auto c, auto v) { return c * square(v); });

// ---- directional procedure
inline constexpr auto length_over_breadth = formula<double>("L/B", "plan along the wind over plan across it", "ASCE 7",
                                                            {"L_w", "B_w"}, [](auto l, auto b) { return l / b; });
inline constexpr auto height_over_length =
    formula<double>("h/L", "mean roof height over the plan along the wind", "ASCE 7", {"h", "L_w"},
                    [](auto h, auto l) { return h / l; });
inline constexpr auto linear_in_ratio =
    formula<double>("C", "between two rows of the figure, by the ratio", "ASCE 7", {"C_1", "C_2", "n", "n_1", "n_2"},
                    [](auto c1, auto c2, auto n, auto n1, auto n2) { return c1 + (c2 - c1) * (n - n1) / (n2 - n1); });
inline constexpr auto outside_with_gust_effect = formula<Pressure>(
    "p", "pressure from outside", "ASCE 7", {"q_h", "G", "C_p"}, [](auto q, auto g, auto c) { return q * g * c; });

}  // namespace belay::formulas
