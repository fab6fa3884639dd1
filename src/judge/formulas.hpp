// From force and capacity to use. A use above 1 fails; there is no tolerance.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

inline constexpr auto use_of_force = formula<double>("use", "what it has to hold over what it can hold", "comparison",
                                                     {"F", "C"}, [](auto f, auto c) { return f / c; });
inline constexpr auto use_of_length = formula<double>("use", "what there is over the most that may be", "comparison",
                                                      {"b", "b_max"}, [](auto b, auto m) { return b / m; });
inline constexpr auto turns_the_ceiling =
    formula<Moment>("M_e", "what would turn the ceiling if this line's force went to the nearest line that holds",
                    "moments", {"V", "b"}, [](auto v, auto b) { return v * b; });
inline constexpr auto sum_of_two = formula<double>("use", "both at once: straight sum", "the fixing's sheet",
                                                   {"u_1", "u_2"}, [](auto a, auto b) { return a + b; });
inline constexpr auto sum_of_three =
    formula<double>("use", "all at once: straight sum", "the fixing's sheet", {"u_1", "u_2", "u_3"},
                    [](auto a, auto b, auto c) { return a + b + c; });
inline constexpr auto powers_of_two =
    formula<double>("use", "both at once: sum of powers", "the fixing's sheet", {"u_1", "u_2", "n"},
                    [](auto a, auto b, auto n) { return power(a, n) + power(b, n); });
inline constexpr auto powers_of_three =
    formula<double>("use", "all at once: sum of powers", "the fixing's sheet", {"u_1", "u_2", "u_3", "n"},
                    [](auto a, auto b, auto c, auto n) { return power(a, n) + power(b, n) + power(c, n); });

}  // namespace belay::formulas
