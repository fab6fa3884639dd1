#include "cli/terminal.hpp"
#include <cstdlib>
#include <unistd.h>

namespace belay {

Look look_of(std::FILE* stream, Colour asked) {
  if (asked != Colour::automatic) return {asked == Colour::always};
  const char* no_color = std::getenv("NO_COLOR");
  const char* terminal = std::getenv("TERM");
  if (no_color && *no_color != '\0') return {false};
  if (terminal && std::string_view(terminal) == "dumb") return {false};
  return {::isatty(::fileno(stream)) == 1};
}

bool write_out(std::FILE* stream, std::string_view text) {
  return std::fwrite(text.data(), 1, text.size(), stream) == text.size() && std::fflush(stream) == 0;
}

}  // namespace belay
