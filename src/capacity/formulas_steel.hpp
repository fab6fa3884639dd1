// Straps of cold-formed steel and the screws at their ends: nominal strengths, and what of them counts for design.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

inline constexpr auto thin_steel_strength =
    formula<Pressure>("F_r", "strength that counts of hard steel with little stretch", "AISI S100-16 A3.1.3",
                      {"k_F", "F_s"}, [](auto k, auto f) { return k * f; });
inline constexpr auto gross_yield =
    formula<Force>("T_ny", "nominal: the strap yields over its whole section", "AISI S100-16 D2", {"F_y", "b_s", "t_1"},
                   [](auto f, auto b, auto t) { return f * b * t; });
inline constexpr auto net_width =
    formula<Length>("b_n", "width of the strap that its holes leave", "geometry", {"b_s", "n_h", "d_h"},
                    [](auto b, auto n, auto d) { return b - n * d; });
inline constexpr auto net_rupture =
    formula<Force>("T_nu", "nominal: the strap breaks across its holes", "AISI S100-16 D3", {"F_u1", "b_n", "t_1"},
                   [](auto f, auto b, auto t) { return f * b * t; });
inline constexpr auto strength_by_phi =
    formula<Force>("T", "for design: phi times the nominal strength", "AISI S100-16 B3.2.2", {"phi", "R_n"},
                   [](auto phi, auto r) { return phi * r; });
inline constexpr auto strength_by_omega =
    formula<Force>("T", "for design: the nominal strength over Omega", "AISI S100-16 B3.2.1", {"R_n", "Omega"},
                   [](auto r, auto omega) { return r / omega; });

// One screw in shear. t_1, F_u1: the steel under its head, the strap; t_2, F_u2: the frame's.
inline constexpr auto screw_tilts = formula<Force>(
    "P_t", "nominal: the screw tilts in the frame's steel", "AISI S100-16 J4.3.1", {"k_t", "F_u2", "t_2", "d"},
    [](auto k, auto f, auto t, auto d) { return k * f * t * t * square_root(d / t); });
inline constexpr auto screw_bears =
    formula<Force>("P_b", "nominal: the steel gives way around the screw", "AISI S100-16 J4.3.1",
                   {"k_b", "F_u", "t", "d"}, [](auto k, auto f, auto t, auto d) { return k * f * t * d; });
inline constexpr auto thickness_ratio = formula<double>("r_t", "the frame's thickness over the strap's", "geometry",
                                                        {"t_2", "t_1"}, [](auto t2, auto t1) { return t2 / t1; });
inline constexpr auto between_thicknesses =
    formula<Force>("P_s", "nominal: between the two by the ratio of the thicknesses", "AISI S100-16 J4.3.1",
                   {"P_1", "P_2", "r_t", "r_1", "r_2"},
                   [](auto a, auto b, auto r, auto r1, auto r2) { return a + (b - a) * (r - r1) / (r2 - r1); });
inline constexpr auto clear_to_edge = formula<Length>("e_c", "clear of the hole to the edge", "geometry", {"e", "d_h"},
                                                      [](auto e, auto d) { return e - d / 2.0; });
inline constexpr auto clear_to_next =
    formula<Length>("s_c", "clear between two holes", "geometry", {"s", "d_h"}, [](auto s, auto d) { return s - d; });
inline constexpr auto screw_tears =
    formula<Force>("P_v", "nominal: the screw tears out along two lines", "AISI S100-16 J6.1",
                   {"k_v", "F_u", "t", "e_n"}, [](auto k, auto f, auto t, auto e) { return k * f * t * e * 2.0; });
inline constexpr auto screw_group = formula<Force>("P_n", "nominal: all screws of one end", "AISI S100-16 J4",
                                                   {"n_s", "P_n1"}, [](auto n, auto p) { return n * p; });

}  // namespace belay::formulas
