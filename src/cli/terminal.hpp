// Manners at a terminal: colour, and output that is never lost in silence.
#pragma once
#include "report/page.hpp"
#include <cstdio>
#include <string>
#include <string_view>

namespace belay {

enum class Colour : unsigned char { automatic, always, never };
// Colour for one stream: as asked; `automatic` is a terminal, with NO_COLOR unset or empty and TERM not "dumb".
Look look_of(std::FILE*, Colour);

// Writes all of it and flushes. False when the stream did not take it (full disk, closed pipe); errno says why.
bool write_out(std::FILE*, std::string_view);

}  // namespace belay
