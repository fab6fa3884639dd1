// A quantity without its sign, and what is left of it above nothing.
#pragma once
#include "belay/units.hpp"

namespace belay {

template <class Q> Q size(Q q) { return q < zero<Q>() ? -q : q; }
template <class Q> Q apart(Q a, Q b) { return a > b ? a - b : b - a; }
template <class Q> Q not_below_zero(Q q) { return q < zero<Q>() ? zero<Q>() : q; }

}  // namespace belay
