// Statics of a ceiling that is stiff in its own plane: it goes along with the wind and turns, and the bracing lines
// hold it by their stiffness.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

inline constexpr auto floor_push = formula<Force>("F", "push of one part of the face on the whole ceiling", "statics",
                                                  {"f_w", "p", "A"}, [](auto f, auto p, auto a) { return f * p * a; });
inline constexpr auto floor_push_against =
    formula<Force>("F", "push of one part of the face the other way: counted negative", "statics", {"f_w", "p", "A"},
                   [](auto f, auto p, auto a) { return -f * p * a; });
inline constexpr auto relative_stiffness =
    formula<double>("s", "stiffness of a bracing line, of all that run its way", "shared by stiffness", {"k", "K"},
                    [](auto k, auto all) { return k / all; });
inline constexpr auto part_of_centre = formula<Length>("c", "its part in the place of the centre of stiffness",
                                                       "statics", {"s", "x"}, [](auto s, auto x) { return s * x; });
inline constexpr auto centre_of_stiffness = formula<Length>("x_R", "place of the centre of stiffness", "statics",
                                                            {"c", "S"}, [](auto c, auto s) { return c / s; });
inline constexpr auto stiffness_against_turning =
    formula<Area>("j", "what a bracing line does against turning", "statics", {"s", "x", "x_R"},
                  [](auto s, auto x, auto c) { return s * square(x - c); });
inline constexpr auto turning = formula<Moment>("M", "turning of that push about the centre of stiffness", "statics",
                                                {"F", "m", "x_R"}, [](auto f, auto m, auto c) { return f * (m - c); });
inline constexpr auto turning_back =
    formula<Moment>("M", "turning of a push on another face, in the same sense", "statics", {"F", "m", "x_R"},
                    [](auto f, auto m, auto c) { return -f * (m - c); });
inline constexpr auto share_by_stiffness =
    formula<Force>("V_d", "the line's share by stiffness alone, before the ceiling turns", "shared by stiffness",
                   {"F", "s"}, [](auto f, auto s) { return f * s; });
inline constexpr auto share_of_turning =
    formula<Force>("V_t", "what the turning of the ceiling brings to the line", "statics", {"M", "s", "x", "x_R", "J"},
                   [](auto m, auto s, auto x, auto c, auto j) { return m * s * (x - c) / j; });

}  // namespace belay::formulas
