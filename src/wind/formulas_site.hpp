// The sums of the gust at a site by AS/NZS 1170.2. A source that names a clause is replaced by the edition's own when
// told. Angles of the compass run clockwise from north.
#pragma once
#include "belay/working.hpp"

namespace belay {

// The root of a speed squared. It stands in this room because no other sum needs it.
using SpeedSquared = decltype(Speed() * Speed());
inline Speed square_root(const SpeedSquared& x) {
  return Speed::from_value(std::sqrt(x / SpeedSquared::from_value(1.0)));
}
inline Term<Speed> square_root(const Term<SpeedSquared>& t) {
  return {square_root(t.value), "sqrt(" + t.symbols + ')', "sqrt(" + t.numbers + ')', 0};
}

}  // namespace belay

namespace belay::formulas {

// ---- the region
inline constexpr auto regional_gust = formula<Speed>(
    "V_R,f", "gust of the region by the formula, exceeded once in R_y years", "AS/NZS 1170.2 Table 3.1",
    {"V_R,a", "V_R,b", "R_y", "k_R"}, [](auto va, auto vb, auto r, auto k) { return va - vb * power(r, -k); });

// ---- terrain and height
inline constexpr auto between_heights_above_ground =
    formula<double>("M_z,cat", "terrain and height multiplier between two heights of the table", "linear between rows",
                    {"M_1", "M_2", "z", "z_1", "z_2"},
                    [](auto m1, auto m2, auto z, auto z1, auto z2) { return m1 + (m2 - m1) * (z - z1) / (z2 - z1); });
inline constexpr auto half_way_between_terrains =
    formula<double>("M_z,cat", "terrain and height multiplier half-way between two terrains", "AS/NZS 1170.2 cl. 4.2",
                    {"M_1", "M_2"}, [](auto m1, auto m2) { return 0.5 * (m1 + m2); });

// ---- shielding
inline constexpr auto spacing_of_buildings =
    formula<Length>("l_s", "spacing of the buildings that shield, by how many there are", "AS/NZS 1170.2 cl. 4.3",
                    {"h", "c_n", "n_s", "c_0"}, [](auto h, auto c, auto n, auto base) { return h * (c / n + base); });
inline constexpr auto shielding_parameter = formula<double>(
    "s_s", "spacing of the buildings over the root of their height times their breadth", "AS/NZS 1170.2 cl. 4.3",
    {"l_s", "h_s", "b_s"}, [](auto l, auto h, auto b) { return square_root((l / h) * (l / b)); });
inline constexpr auto between_spacings =
    formula<double>("M_s", "shielding multiplier between two rows of the table", "linear between rows",
                    {"M_1", "M_2", "s_s", "s_1", "s_2"},
                    [](auto m1, auto m2, auto s, auto s1, auto s2) { return m1 + (m2 - m1) * (s - s1) / (s2 - s1); });

// ---- hills
inline constexpr auto hill_slope = formula<double>("sigma", "slope of the hill's upper half", "AS/NZS 1170.2 cl. 4.4.2",
                                                   {"H", "L_u"}, [](auto h, auto l) { return h / (2.0 * l); });
inline constexpr auto hill_length =
    formula<Length>("L_1", "length by which the hill's effect fades", "AS/NZS 1170.2 cl. 4.4.2", {"k", "l"},
                    [](auto k, auto l) { return k * l; });
inline constexpr auto hill_shape = formula<double>(
    "M_h", "hill-shape multiplier", "AS/NZS 1170.2 cl. 4.4.2", {"H", "c_h", "z", "L_1", "x", "L_2"},
    [](auto h, auto c, auto z, auto l1, auto x, auto l2) { return 1.0 + h / (c * (z + l1)) * (1.0 - x / l2); });
inline constexpr auto steep_crest =
    formula<double>("M_h", "hill-shape multiplier at a steep crest", "AS/NZS 1170.2 cl. 4.4.2", {"c_s", "x", "L_2"},
                    [](auto c, auto x, auto l2) { return 1.0 + c * (1.0 - x / l2); });
inline constexpr auto high_ground =
    formula<double>("M_E", "topographic multiplier of ground high above the sea", "AS/NZS 1170.2 cl. 4.4.1",
                    {"c_E", "E", "E_1"}, [](auto c, auto e, auto e1) { return 1.0 + c * e / e1; });
inline constexpr auto hill_on_high_ground =
    formula<double>("M_t", "topographic multiplier: hill and height above the sea", "AS/NZS 1170.2 cl. 4.4.1",
                    {"M_h", "M_E"}, [](auto h, auto e) { return h * e; });

// ---- the gust
inline constexpr auto site_gust =
    formula<Speed>("V", "gust at roof height from this direction", "AS/NZS 1170.2 cl. 2.2",
                   {"V_R", "F", "M_d", "M_z,cat", "M_s", "M_t"},
                   [](auto v, auto f, auto d, auto z, auto s, auto t) { return v * f * d * z * s * t; });
inline constexpr auto bearing_of_face = formula<Angle>("beta", "bearing that the face looks to", "geometry",
                                                       {"beta_0", "nu"}, [](auto b, auto north) { return b - north; });
inline constexpr auto left_end = formula<Angle>("beta", "bearing of the sector's left end", "geometry",
                                                {"beta_f", "beta_s"}, [](auto b, auto to) { return b - to; });
inline constexpr auto right_end = formula<Angle>("beta", "bearing of the sector's right end", "geometry",
                                                 {"beta_f", "beta_s"}, [](auto b, auto to) { return b + to; });
inline constexpr auto share_of_step =
    formula<double>("f", "how far past the direction the bearing lies, as a share of the way to the next", "geometry",
                    {"beta", "beta_1", "beta_2"}, [](auto b, auto b1, auto b2) { return (b - b1) / (b2 - b1); });
inline constexpr auto between_directions =
    formula<Speed>("V", "gust between two directions, at an end of the face's sector", "linear between directions",
                   {"V_1", "V_2", "f"}, [](auto v1, auto v2, auto f) { return v1 + (v2 - v1) * f; });
inline constexpr auto service_gust =
    formula<Speed>("V_serv", "gust of serviceability: the ultimate one by the ratio of the region's gusts",
                   "AS/NZS 1170.2 cl. 2.2", {"V", "V_R,s", "F_s", "V_R", "F"},
                   [](auto v, auto vs, auto fs, auto vu, auto fu) { return v * ((vs * fs) / (vu * fu)); });
inline constexpr auto gust_of_pressure =
    formula<Speed>("V", "gust that has this pressure", "AS/NZS 1170.2 cl. 2.4.1", {"q", "rho"},
                   [](auto q, auto rho) { return square_root(2.0 * q / rho); });

}  // namespace belay::formulas
