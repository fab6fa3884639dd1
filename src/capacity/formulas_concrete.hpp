// What one anchor holds in concrete, by the rules of ACI 318-19 chapter 17 and EN 1992-4. Empirical rules that hold in
// named units alone say them: f_c / psi is a plain number. Symbols and clauses of each code are told with them.
#pragma once
#include "belay/working.hpp"

namespace belay {

// A unit that a rule of a code is written in, as GNU Units spells it.
template <class Q> struct Named {
  Q one;
  std::string_view symbol;
};
template <class Q> Term<Q> lift(const Named<Q>& n) { return {n.one, std::string(n.symbol), std::string(n.symbol), 0}; }
template <class Unit> double operator/(const Quantity<Unit>& q, const Named<Quantity<Unit>>& n) {
  return settled(Quantity<si::dimensionless>(q / n.one));
}
template <class Q> Q operator*(double x, const Named<Q>& n) { return x * n.one; }

namespace rule_units {
inline constexpr Length an_inch = Length::from_value(0.0254);
inline constexpr Force a_pound = Force::from_value(4.4482216152605);
inline constexpr Named<Length> inch{an_inch, "in"}, mm{Length::from_value(1e-3), "mm"};
inline constexpr Named<Area> square_inch{an_inch * an_inch, "in^2"}, square_mm{Area::from_value(1e-6), "mm^2"};
inline constexpr Named<Force> pound{a_pound, "lbf"}, newton{Force::from_value(1.0), "N"};
inline constexpr Named<Pressure> psi{a_pound / (an_inch * an_inch), "psi"}, MPa{Pressure::from_value(1e6), "MPa"};
}  // namespace rule_units

namespace formulas {

inline constexpr auto anchor_steel_pull =
    formula<Force>("N_s", "the bolt's steel in pull", "the code", {"A_s", "f_u"}, [](auto a, auto f) { return a * f; });
inline constexpr auto anchor_steel_slide =
    formula<Force>("V_s", "the bolt's steel in shear: a share of what it holds in pull", "the code",
                   {"k_s", "A_s", "f_u"}, [](auto k, auto a, auto f) { return k * a * f; });
inline constexpr auto times_yield = formula<Pressure>("f_1", "strength of the steel counted at most, by its yield",
                                                      "the code", {"k_y", "f_y"}, [](auto k, auto f) { return k * f; });

inline constexpr auto cone_reach = formula<Length>("r_N", "how far the cone reaches on every side at the slab's face",
                                                   "the code", {"k_r", "h_ef"}, [](auto k, auto h) { return k * h; });
inline constexpr auto half_way = formula<Length>("a", "half way to the neighbour, which is taken to pull as hard",
                                                 "the safe reading", {"s"}, [](auto s) { return s / 2.0; });
inline constexpr auto cone_area = formula<Area>(
    "A_N", "the cone's area on the slab's face, cut at the edges and half way to its neighbours", "geometry",
    {"a_left", "a_right", "a_front", "a_back"}, [](auto l, auto r, auto f, auto b) { return (l + r) * (f + b); });
inline constexpr auto whole_cone =
    formula<Area>("A_N0", "area of a whole cone", "the code", {"r_N"}, [](auto r) { return 4.0 * square(r); });
inline constexpr auto beside_edge =
    formula<double>("psi_e", "less beside an edge: its distance over the reach", "the code", {"k_0", "k_1", "c", "r"},
                    [](auto k0, auto k1, auto c, auto r) { return k0 + k1 * c / r; });
inline constexpr auto cone_aci =
    formula<Force>("N_b", "breakout of one anchor far from edges, in cracked concrete of normal weight", "ACI 318-19",
                   {"k_c", "f_c", "h_ef", "n"}, [](auto k, auto f, auto h, auto n) {
                     using namespace rule_units;
                     return k * square_root(f / psi) * power(h / inch, n) * pound;
                   });
inline constexpr auto cone_en = formula<Force>("N_0", "cone of one fastener far from edges", "EN 1992-4",
                                               {"k_1", "f_ck", "h_ef", "n"}, [](auto k, auto f, auto h, auto n) {
                                                 using namespace rule_units;
                                                 return k * square_root(f / MPa) * power(h / mm, n) * newton;
                                               });
inline constexpr auto shell =
    formula<double>("psi_re", "less where reinforcement is close, as it is taken to be", "EN 1992-4",
                    {"k_0", "h_ef", "d_0"}, [](auto k, auto h, auto d) { return k + h / d; });
inline constexpr auto cone = formula<Force>("N_c", "the concrete's cone: its part of a whole one", "the code",
                                            {"A_N", "A_N0", "psi_e", "psi_c", "N_b"},
                                            [](auto a, auto a0, auto e, auto c, auto n) { return a / a0 * e * c * n; });

inline constexpr auto pull_out_of_head =
    formula<Force>("N_p", "pull-out of the head: the concrete crushed over it", "the code",
                   {"psi_p", "k_p", "A_h", "f_c"}, [](auto psi, auto k, auto a, auto f) { return psi * k * a * f; });
inline constexpr auto pull_out_of_hook =
    formula<Force>("N_p", "pull-out of the hook", "the code", {"psi_p", "k_p", "f_c", "e_h", "d"},
                   [](auto psi, auto k, auto f, auto e, auto d) { return psi * k * f * e * d; });

inline constexpr auto blow_out_aci =
    formula<Force>("N_sb", "blow-out of the side face beside a deep head", "ACI 318-19", {"k_b", "c", "A_h", "f_c"},
                   [](auto k, auto c, auto a, auto f) {
                     using namespace rule_units;
                     return k * (c / inch) * square_root(a / square_inch) * square_root(f / psi) * pound;
                   });
inline constexpr auto blow_out_corner = formula<double>("k_cb", "less at a corner", "ACI 318-19", {"c_2", "c", "n"},
                                                        [](auto c2, auto c, auto n) { return (1.0 + c2 / c) / n; });
inline constexpr auto blow_out_shared =
    formula<double>("k_sb", "its share where neighbours along the edge blow out with it", "ACI 318-19",
                    {"b_1", "b_2", "n", "c"}, [](auto b1, auto b2, auto n, auto c) { return (b1 + b2) / (n * c); });
inline constexpr auto blow_out_here =
    formula<Force>("N_bo", "blow-out of the side face here", "ACI 318-19", {"k_cb", "k_sb", "N_sb"},
                   [](auto k, auto s, auto n) { return k * s * n; });
inline constexpr auto blow_out_en =
    formula<Force>("N_0,cb", "blow-out beside an edge, far from corners", "EN 1992-4", {"k_5", "c", "A_h", "f_ck"},
                   [](auto k, auto c, auto a, auto f) {
                     using namespace rule_units;
                     return k * (c / mm) * square_root(a / square_mm) * square_root(f / MPa) * newton;
                   });
inline constexpr auto times_edge = formula<Length>("r", "how far it reaches, by the distance to the edge", "the code",
                                                   {"k_r", "c"}, [](auto k, auto c) { return k * c; });
inline constexpr auto below_head =
    formula<Length>("h_b", "slab below the head", "geometry", {"h_a", "h_ef"}, [](auto h, auto e) { return h - e; });
inline constexpr auto face_area = formula<Area>(
    "A_b", "area on the slab's side face, cut at corners, at its underside and half way to neighbours", "geometry",
    {"b_1", "b_2", "h_1", "h_2"}, [](auto a, auto b, auto h1, auto h2) { return (a + b) * (h1 + h2); });
inline constexpr auto blow_out =
    formula<Force>("N_bo", "blow-out beside the edge here", "the code", {"A_b", "A_b0", "psi_b", "N_0,cb"},
                   [](auto a, auto a0, auto p, auto n) { return a / a0 * p * n; });

inline constexpr auto counted_length =
    formula<Length>("l_1", "length that counts at most", "the code", {"n", "d"}, [](auto n, auto d) { return n * d; });
inline constexpr auto edge_aci = formula<Force>(
    "V_1", "breakout of the edge, by the bolt's thickness and length", "ACI 318-19",
    {"k_v", "l_e", "d", "m", "f_c", "c", "n"}, [](auto k, auto l, auto d, auto m, auto f, auto c, auto n) {
      using namespace rule_units;
      return k * power(l / d, m) * square_root(d / inch) * square_root(f / psi) * power(c / inch, n) * pound;
    });
inline constexpr auto edge_aci_most = formula<Force>("V_2", "breakout of the edge, at most", "ACI 318-19",
                                                     {"k_v", "f_c", "c", "n"}, [](auto k, auto f, auto c, auto n) {
                                                       using namespace rule_units;
                                                       return k * square_root(f / psi) * power(c / inch, n) * pound;
                                                     });
inline constexpr auto edge_power =
    formula<double>("alpha", "power of a length in the edge's strength", "EN 1992-4", {"k", "l", "c", "m"},
                    [](auto k, auto l, auto c, auto m) { return k * power(l / c, m); });
inline constexpr auto edge_en =
    formula<Force>("V_0", "breakout of the edge by one fastener, far from corners in a thick slab", "EN 1992-4",
                   {"k_9", "d", "alpha", "l_f", "beta", "f_ck", "c", "n"},
                   [](auto k, auto d, auto a, auto l, auto b, auto f, auto c, auto n) {
                     using namespace rule_units;
                     return k * power(d / mm, a) * power(l / mm, b) * square_root(f / MPa) * power(c / mm, n) * newton;
                   });
inline constexpr auto narrow = formula<Length>("c_m", "distance to the edge that counts between corners in a thin slab",
                                               "the code", {"x", "k_r"}, [](auto x, auto k) { return x / k; });
inline constexpr auto edge_area =
    formula<Area>("A_V", "what breaks out of the slab's edge, cut at corners and half way to neighbours", "geometry",
                  {"b_1", "b_2", "h_V"}, [](auto a, auto b, auto h) { return (a + b) * h; });
inline constexpr auto whole_edge =
    formula<Area>("A_V0", "what breaks out whole", "the code", {"r_V"}, [](auto r) { return 2.0 * square(r); });
inline constexpr auto thin_slab =
    formula<double>("psi_h", "the edge of a thin slab holds more than its part of the area says", "the code",
                    {"r_V", "h_V"}, [](auto r, auto h) { return square_root(r / h); });
inline constexpr auto edge =
    formula<Force>("V_c", "breakout of the edge here: its part of a whole one", "the code",
                   {"A_V", "A_V0", "psi_v", "psi_c", "psi_h", "V_b"},
                   [](auto a, auto a0, auto e, auto c, auto h, auto v) { return a / a0 * e * c * h * v; });
inline constexpr auto shared_in_line =
    formula<Force>("V_c", "its share, with the anchors before it", "the safe reading", {"V_c", "n_l"},
                   [](auto v, auto n) { return v / n; });
inline constexpr auto pry_out = formula<Force>("V_p", "pry-out: the concrete behind the bolt levered off", "the code",
                                               {"k_cp", "N_cp"}, [](auto k, auto n) { return k * n; });

inline constexpr auto by_phi =
    formula<Force>("C", "for design", "the code", {"phi", "R"}, [](auto phi, auto r) { return phi * r; });
inline constexpr auto by_gamma =
    formula<Force>("C", "for design", "the code", {"R", "gamma"}, [](auto r, auto g) { return r / g; });
inline constexpr auto gamma_of_concrete =
    formula<double>("gamma_Mc", "partial factor of the concrete and of how the fastener is set", "EN 1992-4",
                    {"gamma_c", "gamma_inst"}, [](auto c, auto i) { return c * i; });
inline constexpr auto gamma_of_steel =
    formula<double>("gamma_1", "partial factor of the steel, by its strength over its yield", "EN 1992-4",
                    {"k", "f_u", "f_y"}, [](auto k, auto u, auto y) { return k * u / y; });

}  // namespace formulas
}  // namespace belay
