// Characters in UTF-8 text that a terminal would obey instead of showing, and those that cannot be seen or turn the
// direction in which the rest is read: a page with them may say something else than it seems to.
#pragma once
#include <cstddef>
#include <string>
#include <string_view>

namespace belay {

// How many bytes the character at byte `i` takes when it is one of those: 1 for U+0000 to U+001F and U+007F, 2 for
// U+0080 to U+009F (0xC2 and a byte from 0x80 to 0x9F), 3 for blanks without width, marks of direction and separators
// of lines (U+200B, U+200E, U+200F, U+2028 to U+202E, U+2060, U+2066 to U+2069, U+FEFF), 3 or 4 for what is no
// character (the last two of each plane, U+FFFE and U+FFFF). 0: none begins there, or the text ends before `i`.
constexpr std::size_t control_at(std::string_view s, std::size_t i) {
  const auto byte = [&](std::size_t k) { return k < s.size() ? static_cast<unsigned char>(s[k]) : 0xFFU; };
  const unsigned first = byte(i), second = byte(i + 1), third = byte(i + 2), fourth = byte(i + 3);
  if (first < 0x20U || first == 0x7FU) return 1;
  if (first == 0xC2U && second >= 0x80U && second < 0xA0U) return 2;
  if (first == 0xE2U && second == 0x80U &&
      (third == 0x8BU || third == 0x8EU || third == 0x8FU || (third >= 0xA8U && third <= 0xAEU)))
    return 3;
  if (first == 0xE2U && second == 0x81U && (third == 0xA0U || (third >= 0xA6U && third <= 0xA9U))) return 3;
  if (first == 0xEFU && second == 0xBBU && third == 0xBFU) return 3;
  if (first == 0xEFU && second == 0xBFU && (third == 0xBEU || third == 0xBFU)) return 3;
  if (first >= 0xF0U && first <= 0xF4U && (second & 0xCFU) == 0x8FU && third == 0xBFU &&
      (fourth == 0xBEU || fourth == 0xBFU))
    return 4;
  return 0;
}
constexpr bool holds_control(std::string_view s) {
  for (std::size_t i = 0; i < s.size(); ++i)
    if (control_at(s, i) != 0) return true;
  return false;
}
// One `instead` for each of them; all else as it was.
inline std::string without_controls(std::string_view s, char instead) {
  std::string out;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const std::size_t n = control_at(s, i);
    out += n == 0 ? s[i] : instead;
    if (n > 1) i += n - 1;
  }
  return out;
}

}  // namespace belay
