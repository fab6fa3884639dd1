// Cold-formed steel that is pulled, and the screws at its ends: nominal strengths, and what of them counts for design.
// AISI S100 and AS/NZS 4600 share them; each standard's own clause is told beside its figures.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

inline constexpr auto thin_steel_strength =
    formula<Pressure>("F_r", "strength that counts of hard steel with little stretch", "the standard", {"k_F", "F_s"},
                      [](auto k, auto f) { return k * f; });
inline constexpr auto gross_yield =
    formula<Force>("T_ny", "nominal: it yields over its whole section", "the standard", {"F_y", "b_s", "t_1"},
                   [](auto f, auto b, auto t) { return f * b * t; });
inline constexpr auto net_width =
    formula<Length>("b_n", "width that its holes leave", "geometry", {"b_s", "n_h", "d_h"},
                    [](auto b, auto n, auto d) { return b - n * d; });
inline constexpr auto net_rupture =
    formula<Force>("T_nu", "nominal: it breaks across its holes", "the standard", {"F_u1", "b_n", "t_1"},
                   [](auto f, auto b, auto t) { return f * b * t; });
inline constexpr auto part_of_rupture = formula<Force>("T_nr", "nominal: the part of it that counts", "the standard",
                                                       {"k_r", "T_nu"}, [](auto k, auto t) { return k * t; });
inline constexpr auto strength_by_phi =
    formula<Force>("T", "for design: phi times the nominal strength", "the standard", {"phi", "R_n"},
                   [](auto phi, auto r) { return phi * r; });
inline constexpr auto strength_by_omega =
    formula<Force>("T", "for design: the nominal strength over Omega", "the standard", {"R_n", "Omega"},
                   [](auto r, auto omega) { return r / omega; });

// One screw in shear. t_1, F_u1: the steel under its head; t_2, F_u2: the steel that it goes into.
inline constexpr auto screw_tilts = formula<Force>(
    "P_t", "nominal: the screw tilts in the steel that it goes into", "the standard", {"k_t", "F_u2", "t_2", "d"},
    [](auto k, auto f, auto t, auto d) { return k * f * t * t * square_root(d / t); });
inline constexpr auto bearing_of_thin =
    formula<double>("k_b", "factor of bearing in steel that is thin beside the screw", "the standard",
                    {"k_0", "k_d", "d", "t"}, [](auto k0, auto k1, auto d, auto t) { return k0 - k1 * (d / t); });
inline constexpr auto screw_bears =
    formula<Force>("P_b", "nominal: the steel gives way around the screw", "the standard", {"k_b", "F_u", "t", "d"},
                   [](auto k, auto f, auto t, auto d) { return k * f * t * d; });
inline constexpr auto thickness_ratio =
    formula<double>("r_t", "thickness of what the screw goes into over that under its head", "geometry", {"t_2", "t_1"},
                    [](auto t2, auto t1) { return t2 / t1; });
inline constexpr auto between_thicknesses =
    formula<Force>("P_s", "nominal: between the two by the ratio of the thicknesses", "the standard",
                   {"P_1", "P_2", "r_t", "r_1", "r_2"},
                   [](auto a, auto b, auto r, auto r1, auto r2) { return a + (b - a) * (r - r1) / (r2 - r1); });
inline constexpr auto clear_to_edge = formula<Length>("e_c", "clear of the hole to the edge", "geometry", {"e", "d_h"},
                                                      [](auto e, auto d) { return e - d / 2.0; });
inline constexpr auto clear_to_next =
    formula<Length>("s_c", "clear between two holes", "geometry", {"s", "d_h"}, [](auto s, auto d) { return s - d; });
inline constexpr auto screw_tears =
    formula<Force>("P_v", "nominal: the screw tears out along two lines", "the standard", {"k_v", "F_u", "t", "e_n"},
                   [](auto k, auto f, auto t, auto e) { return k * f * t * e * 2.0; });
inline constexpr auto screw_itself =
    formula<Force>("P_w", "nominal: the screw itself, which must be stronger than what is round it", "the standard",
                   {"P_ss", "k_w"}, [](auto p, auto k) { return p / k; });

// One screw in tension.
inline constexpr auto screw_pulls_out =
    formula<Force>("P_o", "nominal: the screw is pulled out of the steel that it goes into", "the standard",
                   {"k_o", "F_u2", "t_2", "d"}, [](auto k, auto f, auto t, auto d) { return k * f * t * d; });
inline constexpr auto head_pulls_through =
    formula<Force>("P_h", "nominal: its head is pulled through the steel under it", "the standard",
                   {"k_h", "F_u1", "t_1", "d_w"}, [](auto k, auto f, auto t, auto d) { return k * f * t * d; });

inline constexpr auto screw_group = formula<Force>("P_n", "nominal: all screws of one end", "the standard",
                                                   {"n_s", "P_n1"}, [](auto n, auto p) { return n * p; });
inline constexpr auto width_of_one = formula<Length>("s_r", "width for each screw of the only row", "geometry",
                                                     {"b_s", "n_h"}, [](auto b, auto n) { return b / n; });
inline constexpr auto of_one_row =
    formula<double>("k_s", "part of the net section that counts across a single row of screws", "the standard",
                    {"k_1", "d", "s_r"}, [](auto k, auto d, auto s) { return k * (d / s); });

}  // namespace belay::formulas
