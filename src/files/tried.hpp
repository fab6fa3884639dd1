// A job with something else in it, tried without touching its file.
#pragma once
#include "files/read.hpp"

namespace belay {

// One change as it was typed, and what stood there. before: "" where nothing did; line: of the job, 0 where nothing
// stood.
struct Tried {
  std::string key, value, before;
  unsigned line;
};
// The job's text with `KEY = VALUE` in it: the key as a path from the top of the job (`mark.B.hold_down`,
// `block.main.trusses[0].max`), the value as TOML. What stands there is replaced in its place; a new key goes into its
// table's header line's own, or into a table of its own at the end. Problems: of the change, named "--if", or of the
// job that is no TOML.
struct Changed {
  std::string text;
  std::optional<Tried> tried;
  std::vector<Problem> problems;
};
Changed with_change(std::string_view job, std::string_view file, std::string_view change);

}  // namespace belay
