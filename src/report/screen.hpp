// What `belay check` prints for people: the first screen, and every link.
#pragma once
#include "belay/result.hpp"
#include "report/page.hpp"
#include <string>

namespace belay {

inline constexpr std::size_t screen_lines = 30;

// The first screen: the answer, the places, why, what is nearest to its limit, what was not looked at, what to do next.
// At most 80 columns and `screen_lines` lines, whatever the house; what had to be left out is counted and named.
std::string first_screen(const Result&, Look);
// Every link by wall and kind with its place, parts, use, verdict, conditions and the case that decides; then the same
// foot as the first screen, with nothing left out.
std::string every_link(const Result&, Look);

}  // namespace belay
