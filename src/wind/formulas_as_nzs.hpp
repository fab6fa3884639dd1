// The sums of AS/NZS 1170.2 on a house. Pressures are positive towards the surface, coefficients and factors bare
// numbers, areas and lengths of the building. A source of the whole standard is replaced by the edition's own when
// told.
#pragma once
#include "wind/formulas.hpp"

namespace belay::formulas {

inline constexpr auto upwind_by_sine =
    formula<double>("C_pe", "coefficient of a steep upwind slope: a share of the sine of the pitch",
                    "AS/NZS 1170.2 Table 5.3(B)", {"k", "theta"}, [](auto k, auto t) { return k * sine(t); });
inline constexpr auto downwind_by_breadth = formula<double>(
    "C_pe", "coefficient of a steep downwind slope, by the breadth of the plan over its depth",
    "AS/NZS 1170.2 Table 5.3(C)", {"k_1", "k_2", "m"}, [](auto k1, auto k2, auto m) { return -(k1 * (k2 + m)); });
inline constexpr auto openings_ratio =
    formula<double>("n_A", "what stands open on the face over what stands open elsewhere", "AS/NZS 1170.2 Table 5.1(B)",
                    {"A_face", "A_rest"}, [](auto a, auto rest) { return a / rest; });
inline constexpr auto inside_by_face =
    formula<double>("C_pi", "coefficient inside: a share of that of the face that stands open",
                    "AS/NZS 1170.2 Table 5.1(B)", {"k_o", "C_pe"}, [](auto k, auto c) { return k * c; });
inline constexpr auto inside_by_face_and_factors =
    formula<double>("C_pi", "coefficient inside: a share of that of the face that stands open, with its factors",
                    "AS/NZS 1170.2 Table 5.1(B)", {"k_o", "K_v", "K_l", "C_pe"},
                    [](auto k, auto kv, auto kl, auto c) { return k * kv * kl * c; });
inline constexpr auto factors_together =
    formula<double>("K_ac", "factors for the area and for the surfaces together", "AS/NZS 1170.2 cl. 5.4.3",
                    {"K_a", "K_c"}, [](auto ka, auto kc) { return ka * kc; });
inline constexpr auto outside_alone =
    formula<Pressure>("p", "pressure from outside: the gust's, by factor and coefficient", "AS/NZS 1170.2 cl. 5.2",
                      {"q", "K", "C_pe"}, [](auto q, auto k, auto c) { return q * (k * c); });
inline constexpr auto outside_less_inside =
    formula<Pressure>("p", "net pressure: outside less inside, each with its factor", "AS/NZS 1170.2 cl. 5.2",
                      {"q", "K_e", "C_pe", "K_i", "C_pi"},
                      [](auto q, auto ke, auto ce, auto ki, auto ci) { return q * (ke * ce - ki * ci); });
inline constexpr auto near_a_corner =
    formula<double>("C_pe,l", "coefficient near a corner, with the local factor", "AS/NZS 1170.2 cl. 5.4.4",
                    {"K_l", "C_pe"}, [](auto k, auto c) { return k * c; });
inline constexpr auto square_in = formula<Pressure>(
    "p_sq", "pressure square on the wall, inwards: outside less inside", "AS/NZS 1170.2 cl. 5.2",
    {"q", "K_c", "C_pe", "C_pi"}, [](auto q, auto k, auto ce, auto ci) { return q * (k * (ce - ci)); });
inline constexpr auto square_out = formula<Pressure>(
    "p_sq", "pressure square on the wall, outwards: inside less outside", "AS/NZS 1170.2 cl. 5.2",
    {"q", "K_c", "C_pi", "C_pe"}, [](auto q, auto k, auto ci, auto ce) { return q * (k * (ci - ce)); });
inline constexpr auto local_reach =
    formula<Length>("a", "reach of the local factor from a corner: a share of a length", "AS/NZS 1170.2 cl. 5.4.4",
                    {"k", "l"}, [](auto k, auto l) { return k * l; });

}  // namespace belay::formulas
