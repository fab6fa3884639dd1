// Sheeted walls with openings that are held down at their two ends alone, and narrow sheets (SDPWS).
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

inline constexpr auto narrow_by_length =
    formula<double>("k_n", "part of a sheet more than twice as high as long that counts", "SDPWS 4.3.3.4.1 exc. 1",
                    {"k_2", "L", "h_w"}, [](auto k, auto l, auto h) { return k * l / h; });
inline constexpr auto narrow_by_eighths =
    formula<double>("k_n", "part of a sheet more than twice as high as long that counts", "SDPWS 4.3.4",
                    {"k_a", "k_b", "h_w", "L"}, [](auto a, auto b, auto h, auto l) { return a - b * h / l; });
inline constexpr auto narrow_sheet = formula<Force>("C_b", "racking that the narrow sheet resists", "SDPWS 4.3.4",
                                                    {"k_n", "C_w"}, [](auto k, auto c) { return k * c; });
inline constexpr auto length_that_counts =
    formula<Length>("L_c", "length that counts of a piece more than twice as high as long", "SDPWS 4.3.4.3",
                    {"k_n", "L"}, [](auto k, auto l) { return k * l; });
inline constexpr auto opening_area = formula<Area>("A_o", "area of an opening in the sheet", "geometry", {"b", "h"},
                                                   [](auto b, auto h) { return b * h; });
inline constexpr auto sheeted_part =
    formula<double>("r", "how much of the wall is sheeted", "SDPWS 4.3.3.5, 4.3-6", {"A_o", "h_w", "L_s"},
                    [](auto a, auto h, auto l) { return 1.0 / (1.0 + a / (h * l)); });
inline constexpr auto perforated_factor =
    formula<double>("C_o", "factor for the openings", "SDPWS 4.3.3.5, 4.3-5", {"r", "L_t", "L_s"},
                    [](auto r, auto all, auto l) { return r / (3.0 - 2.0 * r) * all / l; });
inline constexpr auto perforated_racking =
    formula<Force>("C_b", "racking that the piece resists: its rate times the factor and the length that counts",
                   "SDPWS 4.3.3.5", {"v", "C_o", "L"}, [](auto v, auto c, auto l) { return v * c * l; });
inline constexpr auto perforated_shear =
    formula<LineLoad>("v_max", "greatest shear of the sheet, and uplift of the plate under it, for each length",
                      "SDPWS 4.3.6.4", {"V", "C_o", "L"}, [](auto v, auto c, auto l) { return v / (c * l); });
inline constexpr auto perforated_pull = formula<Force>(
    "T_v", "tipping at the wall's end: that shear over the height, by the piece's own length and arm",
    "SDPWS 4.3.6.1; moments", {"v_max", "h_w", "L", "z"}, [](auto v, auto h, auto l, auto z) { return v * h * l / z; });
inline constexpr auto perforated_uplift =
    formula<Force>("U", "uplift of the plate under a piece that comes to this fixing", "SDPWS 4.3.6.4", {"v_max", "l"},
                   [](auto v, auto l) { return v * l; });
inline constexpr auto perforated_slide = formula<Force>(
    "H_a", "slide along the wall: the greatest shear over the piece, by the fixings that take it",
    "SDPWS 4.3.6.4; shared equally", {"v_max", "L", "n"}, [](auto v, auto l, auto n) { return v * l / n; });
inline constexpr auto stiffness_of_length =
    formula<Stiffness>("k", "stiffness of a brace: its sheet's for each length, times its length", "the fixing's sheet",
                       {"k_s", "L"}, [](auto k, auto l) { return k * l; });

}  // namespace belay::formulas
