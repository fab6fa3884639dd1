// What tests of printed pages share.
#pragma once
#include "report/page.hpp"
#include "text_files.hpp"
#include <catch2/catch.hpp>
#include <string>

namespace belay::test {

// Without the lines that it was set in.
inline std::string unwrapped(const std::string& page) {
  std::string out;
  for (const char c : page)
    if ((c != ' ' && c != '\n') || out.empty() || out.back() != ' ') out += c == '\n' ? ' ' : c;
  return out;
}
// No line is wider than the page.
inline void fits(const std::string& page) {
  for (const std::string& l : lines_of(page)) {
    INFO(l);
    CHECK(columns(l) <= page_width);
  }
}

}  // namespace belay::test
