// Statics of a wing's valley trusses where they cross the trusses below. Uplift is positive.
#pragma once
#include "belay/working.hpp"

namespace belay::formulas {

inline constexpr auto valley_lift =
    formula<Force>("W", "uplift of the pressure on the part of the roof that comes to this crossing", "statics",
                   {"p", "A"}, [](auto p, auto a) { return -p * a; });
inline constexpr auto valley_weight =
    formula<Force>("D", "weight of that part of the roof", "statics", {"g", "A"}, [](auto g, auto a) { return g * a; });

}  // namespace belay::formulas
