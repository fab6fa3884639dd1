// Control characters in UTF-8 text: what a terminal would obey instead of showing.
#pragma once
#include <cstddef>
#include <string>
#include <string_view>

namespace belay {

// How many bytes the control character at byte `i` takes: 1 for U+0000 to U+001F and U+007F, 2 for U+0080 to U+009F
// (0xC2 and a byte from 0x80 to 0x9F). 0: none begins there, or the text ends before `i`.
constexpr std::size_t control_at(std::string_view s, std::size_t i) {
  const auto byte = [&](std::size_t k) { return k < s.size() ? static_cast<unsigned char>(s[k]) : 0xFFU; };
  const unsigned first = byte(i), second = byte(i + 1);
  if (first < 0x20U || first == 0x7FU) return 1;
  return first == 0xC2U && second >= 0x80U && second < 0xA0U ? 2 : 0;
}
constexpr bool holds_control(std::string_view s) {
  for (std::size_t i = 0; i < s.size(); ++i)
    if (control_at(s, i) != 0) return true;
  return false;
}
// One `instead` for each control character; all else as it was.
inline std::string without_controls(std::string_view s, char instead) {
  std::string out;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const std::size_t n = control_at(s, i);
    out += n == 0 ? s[i] : instead;
    if (n == 2) ++i;
  }
  return out;
}

}  // namespace belay
