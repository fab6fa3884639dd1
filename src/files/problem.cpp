#include "files/read.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace belay {
namespace {

// A source line longer than this is shown in part, around its caret.
constexpr std::size_t widest_line = 160, before_caret = 60;

std::vector<std::string_view> code_points(std::string_view text) {
  std::vector<std::string_view> out;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t n = 1;
    while (i + n < text.size() && (static_cast<unsigned char>(text[i + n]) & 0xc0) == 0x80) ++n;
    out.push_back(text.substr(i, n));
    i += n;
  }
  return out;
}

}  // namespace

std::string render(const std::vector<Problem>& problems, bool colour) {
  const std::string_view red = colour ? "\x1b[1;31m" : "", bold = colour ? "\x1b[1m" : "",
                         blue = colour ? "\x1b[34m" : "", off = colour ? "\x1b[0m" : "";
  std::string out;
  for (const Problem& p : problems) {
    if (&p != &problems.front()) out += '\n';
    if (p.line == 0) out += fmt::format("{}{}{}: {}error{}: {} [{}]\n", bold, p.file, off, red, off, p.message, p.code);
    else
      out += fmt::format("{}{}:{}:{}{}: {}error{}: {} [{}]\n", bold, p.file, p.line, p.column, off, red, off, p.message,
                         p.code);
    const std::string number = p.line == 0 ? std::string(" ") : std::to_string(p.line);
    const std::string margin(number.size(), ' ');
    if (p.line != 0) {
      const auto points = code_points(p.source_line);
      std::size_t caret = p.column == 0 ? 0 : p.column - 1, length = std::max(1u, p.length), from = 0;
      if (points.size() > widest_line && caret > before_caret) from = caret - before_caret;
      const std::size_t to = std::min(points.size(), from + widest_line);
      std::string shown = from > 0 ? "..." : "", under = from > 0 ? "   " : "";
      for (std::size_t i = from; i < to; ++i) shown += points[i];
      for (std::size_t i = from; i < caret; ++i) under += i < points.size() && points[i] == "\t" ? '\t' : ' ';
      length = std::min(length, to > caret ? to - caret : std::size_t{1});
      out += fmt::format("{}{} |{} {}{}\n", blue, number, off, shown, to < points.size() ? "..." : "");
      out += fmt::format("{}{} |{} {}{}{}{}\n", blue, margin, off, under, red, std::string(length, '^'), off);
    }
    if (!p.help.empty()) out += fmt::format("{}{} ={} {}\n", blue, margin, off, p.help);
  }
  return out;
}

}  // namespace belay
