// The sums of EN 1991-1-4. Pressures are positive towards the surface, coefficients bare numbers. A source that names a
// whole clause is replaced by the table's own when told.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

// ---- the gust
inline constexpr auto top_of_roof =
    formula<Length>("h", "height of the building above ground, to the top of its roof: the reference height",
                    "EN 1991-1-4 7.2", {"f", "h_w", "r"}, [](auto f, auto w, auto r) { return f + w + r; });
inline constexpr auto top_of_high_edge =
    formula<Length>("h", "height of the building above ground, to the high edge of its roof: the reference height",
                    "EN 1991-1-4 7.2", {"f", "h_w", "r", "o_h", "theta"},
                    [](auto f, auto w, auto r, auto o, auto theta) { return f + w + r + o * tangent(theta); });
inline constexpr auto basic_velocity =
    formula<Speed>("v_b", "basic wind velocity: mean of ten minutes at 10 m in open country", "EN 1991-1-4 4.2",
                   {"c_dir", "c_season", "c_prob", "v_b,0"},
                   [](auto dir, auto season, auto prob, auto v) { return dir * season * prob * v; });
inline constexpr auto terrain_factor = formula<double>(
    "k_r", "terrain factor, by the roughness length", "EN 1991-1-4 4.3.2", {"k_0", "z_0", "z_II", "n_r"},
    [](auto k, auto z, auto z2, auto n) { return k * power(z / z2, n); });
inline constexpr auto roughness_factor =
    formula<double>("c_r", "roughness factor: how the ground slows the wind at that height", "EN 1991-1-4 4.3.2",
                    {"k_r", "z_g", "z_0"}, [](auto k, auto z, auto z0) { return k * natural_log(z / z0); });
inline constexpr auto mean_velocity =
    formula<Speed>("v_m", "mean wind velocity at the reference height", "EN 1991-1-4 4.3.1", {"c_r", "c_o", "v_b"},
                   [](auto r, auto o, auto v) { return r * o * v; });
inline constexpr auto turbulence =
    formula<double>("I_v", "turbulence at the reference height", "EN 1991-1-4 4.4", {"k_I", "c_o", "z_g", "z_0"},
                    [](auto k, auto o, auto z, auto z0) { return k / (o * natural_log(z / z0)); });
inline constexpr auto peak_velocity_pressure = formula<Pressure>(
    "q_p", "peak velocity pressure: the mean and the gust on it", "EN 1991-1-4 4.5", {"k_p", "I_v", "rho", "v_m"},
    [](auto k, auto i, auto rho, auto v) { return (1.0 + k * i) * 0.5 * rho * square(v); });
inline constexpr auto peak_velocity =
    formula<Speed>("v_p", "speed of the gust that has the peak velocity pressure", "EN 1991-1-4 4.5",
                   {"v_m", "k_p", "I_v"}, [](auto v, auto k, auto i) { return v * square_root(1.0 + k * i); });
inline constexpr auto velocity_of_pressure =
    formula<Speed>("v_p", "speed of the gust that has this pressure", "EN 1991-1-4 4.5", {"v_1", "q_p", "rho"},
                   [](auto v, auto q, auto rho) { return v * square_root(q / (0.5 * rho * square(v))); });

// ---- hills
inline constexpr auto length_ratio =
    formula<double>("n", "one length over another", "geometry", {"l", "l_1"}, [](auto l, auto l1) { return l / l1; });
inline constexpr auto length_over =
    formula<Length>("L_e", "effective length of a steep slope: its rise over the limit", "EN 1991-1-4 A.3",
                    {"H_o", "Phi_s"}, [](auto h, auto phi) { return h / phi; });
inline constexpr auto second_degree =
    formula<double>("B_o", "polynomial of the second degree", "EN 1991-1-4 A.3", {"b_2", "b_1", "b_0", "r_z"},
                    [](auto b2, auto b1, auto b0, auto r) { return b2 * square(r) + b1 * r + b0; });
inline constexpr auto third_degree = formula<double>(
    "B_o", "polynomial of the third degree", "EN 1991-1-4 A.3", {"b_3", "b_2", "b_1", "b_0", "l"},
    [](auto b3, auto b2, auto b1, auto b0, auto l) { return b3 * power(l, 3.0) + b2 * square(l) + b1 * l + b0; });
inline constexpr auto fourth_degree = formula<double>(
    "A_o", "polynomial of the fourth degree", "EN 1991-1-4 A.3", {"a_4", "a_3", "a_2", "a_1", "a_0", "r_z"},
    [](auto a4, auto a3, auto a2, auto a1, auto a0, auto r) {
      return a4 * power(r, 4.0) + a3 * power(r, 3.0) + a2 * square(r) + a1 * r + a0;
    });
inline constexpr auto logarithm =
    formula<double>("l", "decimal logarithm", "EN 1991-1-4 A.3", {"r_z"}, [](auto r) { return log_ten(r); });
inline constexpr auto location_by_distance =
    formula<double>("s_o", "orographic location factor", "EN 1991-1-4 A.3", {"A_o", "B_o", "X_h", "L"},
                    [](auto a, auto b, auto x, auto l) { return a * exponential(b * x / l); });
inline constexpr auto location_past_cliff = formula<double>(
    "s_o", "orographic location factor past the crest of a cliff or escarpment", "EN 1991-1-4 A.3",
    {"A_o", "B_o", "C_o", "l_x"}, [](auto a, auto b, auto c, auto l) { return a * square(l) + b * l + c; });
inline constexpr auto location_between = formula<double>(
    "s_o", "orographic location factor between the crest and the first figure past it, linear", "EN 1991-1-4 A.3",
    {"A_o", "s_near", "x_h", "x_near"}, [](auto s0, auto s1, auto x, auto x1) { return s0 + (s1 - s0) * x / x1; });
inline constexpr auto orography_gentle =
    formula<double>("c_o", "orography factor of a gentle slope", "EN 1991-1-4 A.3", {"k_o", "s_o", "Phi"},
                    [](auto k, auto s, auto phi) { return 1.0 + k * s * phi; });
inline constexpr auto orography_steep = formula<double>("c_o", "orography factor of a steep slope", "EN 1991-1-4 A.3",
                                                        {"k_o", "s_o"}, [](auto k, auto s) { return 1.0 + k * s; });

// ---- pressures
inline constexpr auto peak_pressure_on = formula<Pressure>("p", "pressure from outside", "EN 1991-1-4 5.2",
                                                           {"q_p", "c_pe"}, [](auto q, auto c) { return q * c; });
inline constexpr auto peak_pressure_inside = formula<Pressure>("p_i", "pressure from inside", "EN 1991-1-4 5.2",
                                                               {"q_p", "c_pi"}, [](auto q, auto c) { return q * c; });
inline constexpr auto not_met_at_once =
    formula<Pressure>("p", "pressure on a wall, for the force on the whole building: less for lack of correlation",
                      "EN 1991-1-4 7.2.2", {"k_c", "q_p", "c_pe"}, [](auto k, auto q, auto c) { return k * q * c; });
inline constexpr auto inside_of_dominant =
    formula<double>("c_pi", "coefficient of inside pressure, a share of that on the dominant face", "EN 1991-1-4 7.2.9",
                    {"k_i", "c_pe"}, [](auto k, auto c) { return k * c; });
inline constexpr auto share_of_dominant =
    formula<double>("k_i", "share of the dominant face's pressure, linear between two ratios of openings",
                    "EN 1991-1-4 7.2.9", {"k_i,1", "k_i,2", "n_o", "n_5", "n_6"},
                    [](auto k1, auto k2, auto n, auto n1, auto n2) { return k1 + (k2 - k1) * (n - n1) / (n2 - n1); });
inline constexpr auto square_on_inwards =
    formula<Pressure>("p_in", "pressure square on the wall, inwards", "EN 1991-1-4 5.2", {"q_p", "c_pe", "c_pi"},
                      [](auto q, auto c, auto ci) { return q * (c - ci); });
inline constexpr auto square_on_outwards =
    formula<Pressure>("p_out", "pressure square on the wall, outwards", "EN 1991-1-4 5.2", {"q_p", "c_pi", "c_pe"},
                      [](auto q, auto ci, auto c) { return q * (ci - c); });

// ---- friction
inline constexpr auto swept_length =
    formula<Length>("l_f", "length that the wind sweeps past the reach of the edge it meets first", "EN 1991-1-4 7.5",
                    {"d_r", "x_f"}, [](auto d, auto x) { return d - x; });
inline constexpr auto highest_wall = formula<Length>("h_s", "height of the highest wall, for walls on both sides: safe",
                                                     "geometry", {"h_w", "r"}, [](auto w, auto r) { return w + r; });
inline constexpr auto swept_area = formula<Area>(
    "A_f", "walls on both sides and roof along that length", "EN 1991-1-4 7.5", {"h_w", "l_f", "b_r", "theta"},
    [](auto h, auto l, auto b, auto theta) { return 2.0 * h * l + b * l / cosine(theta); });
inline constexpr auto friction_as_pressure = formula<Pressure>(
    "p_friction", "friction, spread over a band above the wall's top so that all of it goes into the bracing",
    "EN 1991-1-4 7.5", {"q_p", "c_fr", "A_f", "b", "h_f"},
    [](auto q, auto c, auto a, auto b, auto h) { return q * c * a / (b * h); });

}  // namespace belay::formulas
