// A formula says what it yields: a pressure times a length is no force.
// says: cannot convert|conversion from .*quantity.* to non-scalar type|no viable conversion
#include "belay/working.hpp"
using namespace belay;

#if defined(MUST_FAIL)
inline constexpr auto push = formula<Force>("F", "push", "statics", {"p", "l"}, [](auto p, auto l) { return p * l; });
#else
inline constexpr auto push =
    formula<Force>("F", "push", "statics", {"p", "l"}, [](auto p, auto l) { return p * l * l; });
#endif
Force pushed(Pressure p, Length l) { return push(nullptr, p, l); }
