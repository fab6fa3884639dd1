// What is said of braces beside their verdicts: straps that break at their ends, and hold-downs that hold less than
// their brace may bring.
#pragma once
#include "belay/result.hpp"
#include "judge/judge.hpp"
#include <vector>

namespace belay {

// links: in the order of the judge's seeds.
std::vector<Caution> brace_cautions(const Forces&, const Judge&, const std::vector<Link>& links);

}  // namespace belay
