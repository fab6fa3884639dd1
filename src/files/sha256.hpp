// SHA-256 (FIPS 180-4), to say on every page which bytes were checked. Not for secrets.
#pragma once
#include <string>
#include <string_view>

namespace belay {

std::string sha256(std::string_view bytes);  // 64 small hexadecimal figures

}  // namespace belay
