// The only way to toml++: every file that reads TOML includes this and nothing of the library's. The settings must be
// the same everywhere, for different ones in two files would break the one-definition rule.
#pragma once
#define TOML_EXCEPTIONS 0
#define TOML_HEADER_ONLY 0
// The library's own assertion fails on ordinary slips such as `[` at a line's end; without it a plain error comes back.
#define TOML_ASSERT(expr) static_assert(true)
// Off by default for g++, where it then opens a string stream for each number.
#define TOML_FLOAT_CHARCONV 1
#include <toml++/toml.h>
