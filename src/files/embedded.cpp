#include "files/embedded.hpp"
#include <algorithm>

namespace belay {

const Embedded* embedded(std::string_view name) {
  const auto all = embedded();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Embedded& e) { return e.name == name; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace belay
