// Capacities of braces and fixings from what their sheets state. Forces and rates of resistance, all positive.
#pragma once
#include "belay/fixings.hpp"
#include "belay/working.hpp"

namespace belay::formulas {

inline constexpr auto design_from_phi =
    formula<Force>("C", "capacity for design: the sheet's characteristic value times its phi", "the fixing's sheet",
                   {"phi", "C_k"}, [](auto phi, auto c) { return phi * c; });
inline constexpr auto design_from_gamma =
    formula<Force>("C", "capacity for design: the sheet's characteristic value over its gamma_M", "the fixing's sheet",
                   {"C_k", "gamma_M"}, [](auto c, auto g) { return c / g; });
inline constexpr auto rate_from_phi =
    formula<LineLoad>("v", "bracing rate for design: the sheet's characteristic value times its phi",
                      "the fixing's sheet", {"phi", "v_k"}, [](auto phi, auto v) { return phi * v; });
inline constexpr auto rate_from_gamma =
    formula<LineLoad>("v", "bracing rate for design: the sheet's characteristic value over its gamma_M",
                      "the fixing's sheet", {"v_k", "gamma_M"}, [](auto v, auto g) { return v / g; });
inline constexpr auto strap_angle =
    formula<Angle>("theta", "angle of the strap to the plate, from the brace's own height and length", "geometry",
                   {"h_w", "L"}, [](auto h, auto l) { return arctangent(h / l); });
inline constexpr auto strap_reach =
    formula<Length>("L_m", "how far the strap reaches along the wall at its measured angle", "geometry",
                    {"h_w", "theta_m"}, [](auto h, auto theta) { return h / tangent(theta); });
inline constexpr auto strap_racking =
    formula<Force>("C_b", "racking that the strap resists: the level part of its tension", "statics", {"T", "theta"},
                   [](auto t, auto theta) { return t * cosine(theta); });
inline constexpr auto height_factor =
    formula<double>("k_h", "reduction for a wall higher than the sheet's table", "height rule", {"h_0", "h_w"},
                    [](auto h0, auto h) { return h0 / h; });
inline constexpr auto between_heights =
    formula<double>("k_h", "reduction for height, between two entries of the table", "linear between entries",
                    {"k_1", "k_2", "h_w", "h_1", "h_2"},
                    [](auto k1, auto k2, auto h, auto h1, auto h2) { return k1 + (k2 - k1) * (h - h1) / (h2 - h1); });
inline constexpr auto sheet_racking =
    formula<Force>("C_b", "racking that the sheet resists: its rate times its length, reduced for height",
                   "the fixing's sheet", {"v", "L", "k_h"}, [](auto v, auto l, auto k) { return v * l * k; });
inline constexpr auto lining_racking =
    formula<Force>("C_b", "racking that the lining resists: its rate times its length", "the fixing's sheet",
                   {"v", "L"}, [](auto v, auto l) { return v * l; });

}  // namespace belay::formulas
