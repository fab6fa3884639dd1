// How a failed check prints what it compared: quantities with their unit, other things that have no words as {?}.
// First in the tests' precompiled header, because it must stand before catch.hpp.
#pragma once
#include "belay/units.hpp"
#include <fmt/format.h>
#include <string>

namespace belay {

template <class T> std::string said(const T& x) {
  if constexpr (requires { value(x); }) return fmt::format("{} (SI: {})", text(value(x), metric), value(x).si);
  else return "{?}";
}

}  // namespace belay

#define CATCH_CONFIG_FALLBACK_STRINGIFIER belay::said
