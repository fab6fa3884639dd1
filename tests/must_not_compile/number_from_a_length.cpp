// A length does not turn into a bare number.
// says: cannot convert|no viable conversion
#include "belay/units.hpp"
using namespace belay;

double share(Length part, Length all) {
#if defined(MUST_FAIL)
  double x = part;
#else
  double x = part / all;
#endif
  return x;
}
