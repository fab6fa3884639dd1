// The library's own code, compiled once, here.
#define TOML_IMPLEMENTATION
#include "files/toml.hpp"
