// The steps of a working as every page prints them.
#pragma once
#include "belay/result.hpp"
#include "belay/working.hpp"
#include "report/page.hpp"
#include <functional>
#include <string>
#include <vector>

namespace belay {

// How far what belongs to a step stands in, behind its number.
inline constexpr std::size_t step_number_width = 3;
inline const std::string step_indent(step_number_width + 2, ' ');

// Lines: the numbered steps under their headings, a blank line before each heading, each step with its words, its
// formula in symbols and in numbers, its result and its source; a figure from memory is marked at the step that it
// enters by. wanted: the headings whose steps are shown, numbered on without a gap; none: all of them.
std::vector<std::string> steps_told(const Working&, const std::vector<FromMemory>&, Look,
                                    const std::function<bool(const std::string& heading)>& wanted = {});

}  // namespace belay
