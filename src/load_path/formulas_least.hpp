// What each bracing line must hold at least by the rules that a job asks for.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

inline constexpr auto of_even_share =
    formula<Force>("L_d", "part of what each line would hold if all held alike", "NZS 3604, section 5",
                   {"k_L", "F_L", "n_L"}, [](auto k, auto f, auto n) { return k * f / n; });
inline constexpr auto of_outside_wall =
    formula<Force>("L_o", "for the outside wall that stands on the line", "NZS 3604, section 5", {"w_L", "L"},
                   [](auto w, auto l) { return w * l; });

}  // namespace belay::formulas
