// A force and a length do not add.
// says: no match for .operator\+|invalid operands to binary expression
#include "belay/units.hpp"
using namespace belay;

Force sum(Force f, Length l) {
#if defined(MUST_FAIL)
  return f + l;
#else
  return f + f * (l / l);
#endif
}
