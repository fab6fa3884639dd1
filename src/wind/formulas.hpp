// The sums of the wind methods. Pressures are positive towards the surface, coefficients bare numbers, heights and
// lengths of the building in its own block. A source that names a table is replaced by the edition's own when told.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

// ---- both
inline constexpr auto pressure_of =
    formula<Pressure>("p", "pressure: the coefficient times the pressure of the gust", "the method's coefficients",
                      {"C", "q"}, [](auto c, auto q) { return c * q; });
inline constexpr auto linear_in_pitch =
    formula<double>("C", "between two columns of the table, by the pitch", "linear between columns",
                    {"C_1", "C_2", "theta", "theta_1", "theta_2"},
                    [](auto c1, auto c2, auto t, auto t1, auto t2) { return c1 + (c2 - c1) * (t - t1) / (t2 - t1); });

// ---- heights of the building
inline constexpr auto walls_of_two_floors =
    formula<Length>("h_walls", "height of the walls of both floors and of the floor between them", "geometry",
                    {"h_w,ground", "d_floor", "h_w,first"}, [](auto g, auto d, auto f) { return g + d + f; });
inline constexpr auto rise_of_ridge =
    formula<Length>("r", "rise of the ridge above the bearings", "geometry", {"s", "theta"},
                    [](auto s, auto theta) { return 0.5 * s * tangent(theta); });
inline constexpr auto half_way_up =
    formula<Length>("h", "mean roof height above ground: half-way up the roof", "geometry", {"f", "h_w", "r"},
                    [](auto f, auto w, auto r) { return f + w + 0.5 * r; });
inline constexpr auto top_of_walls = formula<Length>(
    "h", "height above ground of the top of the walls, which stands for the mean roof height at low pitch", "geometry",
    {"f", "h_w"}, [](auto f, auto w) { return f + w; });
inline constexpr auto underside_of_eaves =
    formula<Length>("h_u", "height above ground of the underside of the eaves", "geometry", {"f", "h_w", "e", "theta"},
                    [](auto f, auto w, auto e, auto theta) { return f + w - e * tangent(theta); });

// ---- by class
inline constexpr auto gust_pressure =
    formula<Pressure>("q", "pressure of the gust: half the density of air times its speed squared",
                      "AS/NZS 1170.2 cl. 2.4.1", {"rho", "V"}, [](auto rho, auto v) { return 0.5 * rho * square(v); });
inline constexpr auto half_wall =
    formula<Length>("h_0", "upper half of the wall: the lower half hands its wind to the slab", "AS 1684.2 cl. 8.3.4",
                    {"h_w"}, [](auto h) { return h / 2.0; });
inline constexpr auto half_rise_above =
    formula<Length>("h", "height to half-way up the roof, for the coefficients of its slopes",
                    "fitted to AS 1684.2-2010 Table 8.4", {"h_e", "r"}, [](auto e, auto r) { return e + r / 2.0; });
inline constexpr auto height_to_depth =
    formula<double>("h/d", "height over the plan's depth along the wind", "AS/NZS 1170.2 Table 5.3", {"h", "d"},
                    [](auto h, auto d) { return h / d; });
inline constexpr auto roof_elevation =
    formula<Area>("A_r", "roof as seen square on above the top of the wall, verges included", "geometry",
                  {"r", "L", "v"}, [](auto r, auto l, auto v) { return r * (l + 2.0 * v); });
inline constexpr auto roof_over_breadth =
    formula<Length>("h_r", "roof part of the elevation over the breadth of the face", "geometry", {"A_r", "b"},
                    [](auto a, auto b) { return a / b; });
inline constexpr auto linear_in_height = formula<double>(
    "C", "between two rows of the table, by h/d", "linear between rows", {"C_1", "C_2", "h/d", "n_1", "n_2"},
    [](auto c1, auto c2, auto n, auto n1, auto n2) { return c1 + (c2 - c1) * (n - n1) / (n2 - n1); });
inline constexpr auto slopes_together = formula<double>(
    "C_r", "both slopes together: push on the upwind one and pull on the downwind one", "AS/NZS 1170.2 cl. 5.4",
    {"k", "C_up", "C_dn"}, [](auto k, auto up, auto down) { return k * (up - down); });
inline constexpr auto low_pitch_share = formula<double>(
    "C_r", "below the first column of the table: from nothing at the least pitch, linear", "linear between columns",
    {"C_1", "theta", "theta_0", "theta_1"}, [](auto c, auto t, auto t0, auto t1) { return c * (t - t0) / (t1 - t0); });
inline constexpr auto racking_pressure =
    formula<Pressure>("p", "racking pressure on the area of elevation: wall and roof parts by their heights",
                      "fitted to AS 1684.2-2010 Table 8.4", {"q", "C_w", "h_0", "C_r", "h_r"},
                      [](auto q, auto cw, auto h0, auto cr, auto hr) { return q * (cw * h0 + cr * hr) / (h0 + hr); });

// ---- envelope procedure
inline constexpr auto height_over_gradient =
    formula<double>("r_z", "height over the gradient height of the exposure", "ASCE 7", {"z", "z_g"},
                    [](auto z, auto zg) { return z / zg; });
inline constexpr auto exposure_factor =
    formula<double>("K_f", "exposure factor for the height, by the formula under the table", "ASCE 7",
                    {"k", "r_z", "alpha"}, [](auto k, auto r, auto alpha) { return k * power(r, 2.0 / alpha); });
inline constexpr auto velocity_pressure =
    formula<Pressure>("q_h", "pressure of the gust at mean roof height", "ASCE 7", {"c", "K_h", "K_zt", "K_d", "V"},
                      [](auto c, auto kz, auto kzt, auto kd, auto v) { return c * kz * kzt * kd * square(v); });
inline constexpr auto velocity_pressure_importance = formula<Pressure>(
    "q_h", "pressure of the gust at mean roof height, by the building's importance", "ASCE 7-05",
    {"c", "K_h", "K_zt", "K_d", "V", "I"},
    [](auto c, auto kz, auto kzt, auto kd, auto v, auto i) { return c * kz * kzt * kd * square(v) * i; });
inline constexpr auto velocity_pressure_ground = formula<Pressure>(
    "q_h", "pressure of the gust at mean roof height, with the height of the ground", "ASCE 7-16",
    {"c", "K_h", "K_zt", "K_d", "K_e", "V"},
    [](auto c, auto kz, auto kzt, auto kd, auto ke, auto v) { return c * kz * kzt * kd * ke * square(v); });
inline constexpr auto part_of_length =
    formula<Length>("a", "a part of a length", "ASCE 7", {"k", "l"}, [](auto k, auto l) { return k * l; });
inline constexpr auto outside_pressure =
    formula<Pressure>("p", "pressure from outside", "ASCE 7", {"q_h", "GC_pf"}, [](auto q, auto c) { return q * c; });
inline constexpr auto inside_pressure =
    formula<Pressure>("p_i", "pressure from inside", "ASCE 7", {"q_h", "GC_pi"}, [](auto q, auto c) { return q * c; });
inline constexpr auto net_of_inside = formula<Pressure>("p", "net pressure: outside less inside", "ASCE 7",
                                                        {"p_o", "p_i"}, [](auto o, auto i) { return o - i; });
inline constexpr auto effective_wind_area =
    formula<Area>("A_e", "effective wind area of a stud: its height times a third of it", "ASCE 7", {"h_w"},
                  [](auto h) { return h * h / 3.0; });
inline constexpr auto area_ratio =
    formula<double>("n", "one area over another", "geometry", {"A", "A_1"}, [](auto a, auto a1) { return a / a1; });
inline constexpr auto logarithmic_in_area =
    formula<double>("GC_p", "between two areas of the figure, by their logarithm", "ASCE 7", {"C_1", "C_2", "n", "n_2"},
                    [](auto c1, auto c2, auto n, auto n2) { return c1 + (c2 - c1) * log_ten(n) / log_ten(n2); });
inline constexpr auto pushed_in =
    formula<Pressure>("p_in", "pressure square on the wall, inwards", "ASCE 7", {"q_h", "GC_p", "GC_pi"},
                      [](auto q, auto c, auto ci) { return q * (c - ci); });
inline constexpr auto pulled_out =
    formula<Pressure>("p_out", "pressure square on the wall, outwards", "ASCE 7", {"q_h", "GC_pi", "GC_p"},
                      [](auto q, auto ci, auto c) { return q * (ci - c); });

}  // namespace belay::formulas
