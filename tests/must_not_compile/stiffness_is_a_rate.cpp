// A stiffness and a load along a wall are both a force for each metre, and one never stands for the other.
// says: is_implicitly_convertible
#include "belay/units.hpp"
using namespace belay;

Stiffness of(Force f, Movement m, Length l) {
  Stiffness k = f / m;
  const LineLoad rate = f / l;
#if defined(MUST_FAIL)
  k = rate;
#endif
  return rate > zero<LineLoad>() ? k : 2.0 * k;
}
