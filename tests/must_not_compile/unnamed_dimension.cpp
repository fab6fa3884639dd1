// A dimension that has no name in the closed list cannot be printed.
// says: incomplete type|undefined template
#include "belay/units.hpp"
using namespace belay;

Value printable(Length l, Force f) {
#if defined(MUST_FAIL)
  return value(l * l * f);
#else
  return value(l * f);
#endif
}
