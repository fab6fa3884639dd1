// A bare number is no force: it would have a unit in somebody's head.
// says: conversion from .double. to non-scalar type|no viable conversion
#include "belay/units.hpp"
using namespace belay;

Force load() {
#if defined(MUST_FAIL)
  Force x = 5.0;
#else
  Force x = Force::from_value(5.0);
#endif
  return x;
}
