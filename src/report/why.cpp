// The words for the reason of a verdict. The engineering gives a code and what belongs to it; here it becomes a sentence.
#include "report/page.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace belay {

namespace {
// {0}: the subject, {1}: the fixing's name, {2}: the kind of link.
struct Wording { std::string_view code, words; };
constexpr std::array wordings{
    Wording{"holds", "{1} holds"},
    Wording{"too-weak", "{1} is too weak in {0}"},
    Wording{"together", "{1} takes each force alone, not all of them at once"},
    Wording{"no-fixing", "the job gives no fixing for it"},
    Wording{"no-hold-down", "no anchor stands within 150 mm of it, so nothing holds it down"},
    Wording{"no-brace", "no brace stands on this line in this direction"},
    Wording{"no-capacity", "the sheet of {1} gives no capacity for {0}"},
    Wording{"no-interaction", "the sheet of {1} does not say how {0} act together"},
    Wording{"condition-not-met", "the job does not meet a condition of {1}: {0}"},
    Wording{"condition-not-stated", "the job does not state what {1} asks for: {0}"},
    Wording{"not-stated", "the job does not state {0}"},
    Wording{"excess", "the house is outside what the method covers: {0}"},
    Wording{"by-others", "answered by {0}"},
    Wording{"static-in-cyclonic", "{1} was tested without the load cycles of a cyclone"},
    Wording{"line-spacing", "the bracing lines stand further apart than the method allows"},
    Wording{"no-line-spacing", "the method's greatest distance between bracing lines is not in hand"},
    Wording{"too-short", "the brace is shorter than its sheet allows"},
    Wording{"too-steep", "the strap is too steep to count"},
    Wording{"too-flat", "the strap is too flat to count"},
    Wording{"too-tall", "the frame is taller than the brace's sheet allows"},
};
std::string with(std::string_view words, std::string_view subject, std::string_view fixing, std::string_view kind) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == '{' && i + 2 < words.size() && words[i + 2] == '}') {
      out += words[i + 1] == '0' ? subject : words[i + 1] == '1' ? fixing : kind;
      i += 2;
    } else {
      out += words[i];
    }
  }
  return out;
}
}  // namespace

std::string why_words(const Link& l, const Units&) {
  const std::string subject = harmless(l.why.subject);
  const std::string fixing = l.fixing.given() ? harmless(l.fixing.name) : "what stands there";
  const auto found = std::ranges::find(wordings, std::string_view(l.why.code), &Wording::code);
  if (found != wordings.end()) {
    // A sentence that needs its subject and has none falls back to the code's own words.
    const bool needs = found->words.find("{0}") != std::string_view::npos;
    if (!needs || !subject.empty()) return with(found->words, subject, fixing, kind_words(l.kind, false));
  }
  std::string words = harmless(l.why.code);
  std::ranges::replace(words, '-', ' ');
  return subject.empty() ? words : fmt::format("{}: {}", words, subject);
}

}  // namespace belay
