// Statics from the roof to the anchors. Uplift is positive upwards, a pressure positive towards its surface. Every
// formula here is law of nature (moments, simple spans) unless its source says otherwise.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

// ---- one truss: u is measured from the bearing in question, z is the height above the bearings, both at the centroid
// of the piece. Pressure acts square to the slope: its level part z tan(theta) turns the truss too.
// The area by which a pressure is read: what of the roof one end of the truss holds, on plan.
inline constexpr auto loaded_area =
    formula<Area>("A_t", "roof that loads this end of the truss, on plan", "geometry", {"b_t", "s", "e"},
                  [](auto b, auto s, auto e) { return b * (0.5 * s + e); });
inline constexpr auto half_of_plan =
    formula<Area>("A_t", "half of the roof that this member holds, on plan: the smaller area is the safe one",
                  "statics", {"A_p"}, [](auto a) { return a / 2.0; });
inline constexpr auto area_share = formula<double>(
    "k_A", "where that area stands between the small and the large one", "linear in the area", {"A_t", "A_s", "A_l"},
    [](auto a, auto small, auto large) { return (a - small) / (large - small); });
inline constexpr auto area_share_by_logarithm =
    formula<double>("k_A", "where that area stands between the small and the large one, by the logarithm",
                    "linear in the logarithm of the area", {"A_t", "A_s", "A_l"},
                    [](auto a, auto small, auto large) { return log_ten(a / small) / log_ten(large / small); });
inline constexpr auto pressure_for_area =
    formula<Pressure>("p", "pressure for that area, between those of the small and the large one", "the method's rule",
                      {"p_s", "p_l", "k_A"}, [](auto s, auto l, auto k) { return s + (l - s) * k; });
inline constexpr auto lift_near = formula<Force>(
    "W", "uplift at this bearing from a piece of the slope above it, by moments about the other bearing", "moments",
    {"p", "A", "s", "u", "z", "theta"},
    [](auto p, auto a, auto s, auto u, auto z, auto theta) { return -p * a * (s - u - z * tangent(theta)) / s; });
inline constexpr auto lift_far = formula<Force>(
    "W", "uplift at this bearing from a piece of the far slope, by moments about the other bearing", "moments",
    {"p", "A", "s", "u", "z", "theta"},
    [](auto p, auto a, auto s, auto u, auto z, auto theta) { return -p * a * (s - u + z * tangent(theta)) / s; });
inline constexpr auto lift_square = formula<Force>(
    "W", "uplift at this bearing from a piece of a slope that falls square to the member, by moments", "moments",
    {"p", "A", "s", "u"}, [](auto p, auto a, auto s, auto u) { return -p * a * (s - u) / s; });
// k_f: cosine of the angle on plan between the way the slope falls and the way from the other bearing to this one.
inline constexpr auto lift_askew = formula<Force>(
    "W", "uplift at this bearing from a piece of a slope that falls askew to the member, by moments", "moments",
    {"p", "A", "s", "u", "k_f", "z", "theta"}, [](auto p, auto a, auto s, auto u, auto k, auto z, auto theta) {
      return -p * a * (s - u - k * z * tangent(theta)) / s;
    });
inline constexpr auto lift_soffit =
    formula<Force>("W", "uplift at this bearing from the pressure under a soffit", "moments", {"p", "A", "s", "u"},
                   [](auto p, auto a, auto s, auto u) { return p * a * (s - u) / s; });
inline constexpr auto weight_on_bearing =
    formula<Force>("D", "weight at this bearing from a piece of the roof, by moments", "moments", {"g", "A", "s", "u"},
                   [](auto g, auto a, auto s, auto u) { return g * a * (s - u) / s; });
// A member on more than two bearings is one beam of even stiffness over all of them. i: the share of a load that is
// spread evenly over the piece; j: of a pressure square to it, whose level part turns the beam about the bearings'
// level.
inline constexpr auto beam_lift =
    formula<Force>("W", "uplift at this bearing from the pressure on a piece of a slope, as one beam over all bearings",
                   "three-moment equation", {"p", "A", "j"}, [](auto p, auto a, auto j) { return -p * a * j; });
inline constexpr auto beam_lift_soffit =
    formula<Force>("W", "uplift at this bearing from the pressure under a soffit, as one beam over all bearings",
                   "three-moment equation", {"p", "A", "j"}, [](auto p, auto a, auto j) { return p * a * j; });
inline constexpr auto beam_weight =
    formula<Force>("D", "weight at this bearing from a piece of the roof, as one beam over all bearings",
                   "three-moment equation", {"g", "A", "i"}, [](auto g, auto a, auto i) { return g * a * i; });
inline constexpr auto weight_on_plan =
    formula<Pressure>("g", "roof weight on plan, from its weight on the slope", "geometry", {"g_s", "theta"},
                      [](auto g, auto theta) { return g / cosine(theta); });
inline constexpr auto outrigger =
    formula<Force>("X", "what a load past the end truss adds to it: the verge is a lever on the first space", "moments",
                   {"F", "d", "s_1"}, [](auto f, auto d, auto s) { return f * d / s; });
inline constexpr auto carried_over =
    formula<Force>("K", "the other end of that lever, on the next truss", "moments", {"F", "d", "s_1"},
                   [](auto f, auto d, auto s) { return -f * d / s; });
inline constexpr auto net_uplift =
    formula<Force>("U", "net uplift at the bearing: wind less the weight that is sure to be there", "combination",
                   {"f_w", "W", "f_d", "D"}, [](auto fw, auto w, auto fd, auto d) { return fw * w - fd * d; });

// A truss that sticks out past a bearing set back from the outside wall. Under what sticks out the porch or recess is
// open to the wind, which pushes there as on the wall; whether up or down is not said: the worse at every bearing.
inline constexpr auto recess_lifts =
    formula<Force>("Q", "what the wind under the roof past the bearing that is set back lifts at that bearing",
                   "moments", {"f_w", "p", "b_r", "d_r", "s", "u_r"},
                   [](auto f, auto p, auto b, auto d, auto s, auto u) { return f * p * b * d * (s - u) / s; });
inline constexpr auto recess_tips =
    formula<Force>("Q", "what the wind on that part, should it suck, lifts at the other bearing", "moments",
                   {"f_w", "p", "b_r", "d_r", "u_r", "s"},
                   [](auto f, auto p, auto b, auto d, auto u, auto s) { return f * p * b * d * (u - s) / s; });
inline constexpr auto recess_on_beam =
    formula<Force>("Q", "what the wind on that part, up or down, lifts at this bearing, as one beam over all bearings",
                   "three-moment equation", {"f_w", "p", "b_r", "d_r", "i_r"},
                   [](auto f, auto p, auto b, auto d, auto i) { return f * p * b * d * i; });
inline constexpr auto tipped_by_weight =
    formula<Force>("L", "weight past the bearing that is set back lifts this bearing: the greatest counts",
                   "combination", {"f_D", "D"}, [](auto f, auto d) { return -f * d; });

// The upright face above a skillion's high wall stands on the truss: the wind square on to it turns the truss.
inline constexpr auto face_turns = formula<Force>(
    "N", "what the wind on the upright face above the high wall adds by turning the truss, taken the worse way",
    "moments", {"f_w", "p", "b", "h_f", "s"},
    [](auto f, auto p, auto b, auto h, auto s) { return f * p * b * h * (h / 2.0) / s; });

// ---- one member on another
inline constexpr auto handed_on =
    formula<Force>("E", "what comes to this bearing of a load that stands on the member, by moments", "moments",
                   {"R", "s", "x"}, [](auto r, auto s, auto x) { return r * (s - x) / s; });
inline constexpr auto net_press =
    formula<Force>("P", "what presses on the bearing: the greatest weight, with the wind of this case", "combination",
                   {"f_G", "D", "f_W", "W"}, [](auto fd, auto d, auto fw, auto w) { return fd * d - fw * w; });

// A straight rafter whose head takes the level part of the wind: about the head that has the arm h - z, as a truss
// about the bearings' level -z; h, the height of the head, is s k_f tan(theta).
inline constexpr auto held_at_its_head =
    formula<Force>("L", "what more presses where the member's head holds the level part of the wind, and not its foot",
                   "moments", {"f_W", "p", "A", "k_f", "theta"},
                   [](auto f, auto p, auto a, auto k, auto theta) { return f * p * a * square(k * tangent(theta)); });

// ---- a bracing direction
inline constexpr auto racking_share =
    formula<Force>("R", "share of a bracing line in the push on one part of the face: a simple span between lines",
                   "moments", {"f_w", "p", "A", "x_2", "x", "x_1"},
                   [](auto f, auto p, auto a, auto x2, auto x, auto x1) { return f * p * a * (x2 - x) / (x2 - x1); });
inline constexpr auto racking_share_upper =
    formula<Force>("R", "share of a bracing line in the push on one part of the face: a simple span between lines",
                   "moments", {"f_w", "p", "A", "x", "x_1", "x_2"},
                   [](auto f, auto p, auto a, auto x, auto x1, auto x2) { return f * p * a * (x - x1) / (x2 - x1); });
// The same of a push the other way than the line's force.
inline constexpr auto racking_share_against =
    formula<Force>("R", "share of a bracing line in a push the other way: counted negative", "moments",
                   {"f_w", "p", "A", "x_2", "x", "x_1"},
                   [](auto f, auto p, auto a, auto x2, auto x, auto x1) { return -f * p * a * (x2 - x) / (x2 - x1); });
inline constexpr auto racking_share_upper_against =
    formula<Force>("R", "share of a bracing line in a push the other way: counted negative", "moments",
                   {"f_w", "p", "A", "x", "x_1", "x_2"},
                   [](auto f, auto p, auto a, auto x, auto x1, auto x2) { return -f * p * a * (x - x1) / (x2 - x1); });
inline constexpr auto handed_down = formula<Force>("D", "what a line above hands down to this one", "statics",
                                                   {"k", "V"}, [](auto k, auto v) { return k * v; });
inline constexpr auto half_of =
    formula<Force>("C_n", "most that lining may count: half of what the line has to hold", "AS 1684.2 Table 8.17",
                   {"k", "V"}, [](auto k, auto v) { return k * v; });
inline constexpr auto lining_counted =
    formula<Force>("C_c", "what this piece of lining may count: its part of that", "AS 1684.2 Table 8.17",
                   {"C_b", "C_n", "C_l"}, [](auto cb, auto cn, auto cl) { return cb * cn / cl; });
inline constexpr auto brace_share =
    formula<Force>("V_b", "the brace's share of the line's force, by its part of the line's strength",
                   "shared by capacity", {"V", "C_b", "C"}, [](auto v, auto cb, auto c) { return v * cb / c; });

// ---- a brace's end
inline constexpr auto tipping_arm =
    formula<Length>("z", "arm: from the hold-down to the middle of the compression studs", "geometry",
                    {"L", "e_h", "e_c"}, [](auto l, auto h, auto c) { return l - h - c; });
inline constexpr auto tipping_height =
    formula<Length>("h_t", "height at which the floor above pushes: to the top of that floor", "geometry",
                    {"h_ground", "d_f"}, [](auto h, auto d) { return h + d; });
inline constexpr auto tipping_pull =
    formula<Force>("T_v", "tipping: the push at the top over the arm at the foot", "moments", {"V_b", "h_w", "z"},
                   [](auto v, auto h, auto z) { return v * h / z; });
inline constexpr auto brace_weight =
    formula<Force>("G_w", "weight of that brace's own wall", "statics", {"g_w", "h_w", "L"},
                   [](auto g, auto h, auto l) { return g * h * l; });
inline constexpr auto weight_relief = formula<Force>(
    "T_g", "its own weight holds it down: factored, at mid-length", "moments", {"f_d", "G_w", "L", "e_c", "z"},
    [](auto f, auto g, auto l, auto c, auto z) { return f * g * (l / 2.0 - c) / z; });
inline constexpr auto tip_less_weight = formula<Force>("T_b", "pull at the brace's end before the roof", "statics",
                                                       {"T_v", "T_g"}, [](auto t, auto g) { return t - g; });

// ---- along the bottom plate
inline constexpr auto lever_left =
    formula<double>("k", "share of a load between two supports that goes to the left one (lever rule)", "lever rule",
                    {"x_2", "x", "x_1"}, [](auto x2, auto x, auto x1) { return (x2 - x) / (x2 - x1); });
inline constexpr auto lever_right =
    formula<double>("k", "share of a load between two supports that goes to the right one (lever rule)", "lever rule",
                    {"x", "x_1", "x_2"}, [](auto x, auto x1, auto x2) { return (x - x1) / (x2 - x1); });
inline constexpr auto lever_past =
    formula<double>("k", "a stud past the last fixing: the plate is a lever, the fixing takes more than the load",
                    "lever rule", {"e", "s"}, [](auto e, auto s) { return 1.0 + e / s; });
inline constexpr auto landed =
    formula<Force>("F", "what lands here of that load", "statics", {"k", "U"}, [](auto k, auto u) { return k * u; });
inline constexpr auto slide_share =
    formula<Force>("H_a", "slide along the wall: the brace's force over the fixings that take it", "shared equally",
                   {"V_b", "n"}, [](auto v, auto n) { return v / n; });
inline constexpr auto pushed_square_on =
    formula<Force>("H_c", "push square on to the wall: half of its height, over this width", "statics",
                   {"f_w", "p", "h_w", "b"}, [](auto f, auto p, auto h, auto b) { return f * p * (h / 2.0) * b; });
inline constexpr auto resultant = formula<Force>("H", "along and across together", "statics", {"H_a", "H_c"},
                                                 [](auto a, auto c) { return hypotenuse(a, c); });
inline constexpr auto along_bracket =
    formula<Force>("B_a", "the line's force handed down through this bracket: by its part of the wall's length",
                   "shared by length", {"V", "b", "L"}, [](auto v, auto b, auto l) { return v * b / l; });

}  // namespace belay::formulas
