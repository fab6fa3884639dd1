// Places at equal spaces.
#pragma once
#include "belay/units.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace belay {

// From 0 to `length`, both with one; no space is above the greatest. Precondition: both are above zero.
inline std::vector<Length> evenly(Length length, Length greatest) {
  const auto spaces = static_cast<std::size_t>(std::max(1.0, std::ceil((length - same_place) / greatest)));
  std::vector<Length> r;
  for (std::size_t i = 0; i <= spaces; ++i)
    r.push_back(i == spaces ? length : length * static_cast<double>(i) / static_cast<double>(spaces));
  return r;
}

}  // namespace belay
