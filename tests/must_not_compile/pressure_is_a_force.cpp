// A force is no pressure before it is divided by an area.
// says: is_implicitly_convertible
#include "belay/units.hpp"
using namespace belay;

Pressure on(Force f, Area a) {
  Pressure p = f / a;
#if defined(MUST_FAIL)
  p = f;
#endif
  return p;
}
