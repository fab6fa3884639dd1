// Spoken addresses: from what a person types to a link of the result.
#pragma once
#include "belay/result.hpp"
#include <string>
#include <string_view>
#include <vector>

namespace belay {

// links: indices of the links that were meant; exactly one when the address is clear, several when it is not. near:
// none was meant; the links whose addresses come nearest, best first, at most five.
struct Found {
  std::vector<std::size_t> links, near;
};

// Legal: a link's words ("A2 left", "T1 at 3600 front", "A jamb D1 right") or its id, in any order and case, with or
// without slashes, `at`, `wall`, `mm` and the like, with the words of its kind where a place stands for several links
// ("bracket T1 at 3600 front"); part of an address when only one link fits it. "A brace 2 left" is "A2 left".
Found find_link(const Result&, std::string_view typed);

}  // namespace belay
