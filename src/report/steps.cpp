#include "report/steps.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <iterator>
#include <span>

namespace belay {

namespace {
using Lines = std::vector<std::string>;
constexpr std::string_view memory_note = "(from memory)";
constexpr std::size_t number_width = step_number_width;
const std::string& indent = step_indent;

// Where a line may end in an expression: before an operator between blanks; the deeper in brackets, the worse.
struct Break {
  std::size_t at, depth;
};
std::vector<Break> breaks(std::string_view text) {
  std::vector<Break> out;
  std::size_t depth = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '(') ++depth;
    if (text[i] == ')' && depth > 0) --depth;
    if (text[i] == ' ' && i > 0 && i + 2 < text.size() && text[i + 2] == ' ' &&
        std::string_view("+-*/").find(text[i + 1]) != std::string_view::npos)
      out.push_back({i, depth});
  }
  return out;
}
// An expression over as many lines as it needs, broken as far out of its brackets as a line of fair length allows;
// never between a number and its unit unless a term alone is longer than the page.
Lines expression(std::string_view head, std::string_view rest_head, std::string_view text) {
  Lines out;
  std::string_view before = head;
  while (!text.empty()) {
    const std::size_t room = page_width > columns(before) ? page_width - columns(before) : 1;
    if (columns(text) <= room) {
      out.push_back(std::string(before) + std::string(text));
      break;
    }
    const Break* best = nullptr;
    const std::vector<Break> all = breaks(text);
    for (const Break& b : all)
      if (columns(text.substr(0, b.at)) <= room &&
          (!best || b.depth <= best->depth || columns(text.substr(0, best->at)) * 3 < room))
        best = &b;
    std::size_t cut = 0;
    if (best) {
      cut = best->at;
    } else {
      const Lines words = wrapped(text, "", "", room);
      cut = words.front().size();
    }
    out.push_back(std::string(before) + std::string(text.substr(0, cut)));
    text.remove_prefix(cut);
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    before = rest_head;
  }
  return out;
}

// A source beside the last line when there is room, else below it at the right.
void beside(Lines& lines, const std::string& source) {
  if (source.empty()) return;
  const std::string s = fmt::format("[{}]", source);
  const std::size_t n = columns(s);
  if (!lines.empty() && columns(lines.back()) + 2 + n <= page_width) {
    lines.back() = padded(lines.back(), page_width - n) + s;
    return;
  }
  if (n + indent.size() <= page_width) {
    lines.push_back(right(s, page_width));
    return;
  }
  for (std::string& l : wrapped(s, indent, indent + ' ')) lines.push_back(std::move(l));
}

struct Source {
  std::string words;
  bool from_memory;
  std::string mark;
};
Source source_of(const Step& s, const std::vector<FromMemory>& figures) {
  std::string words = harmless(s.source);
  const std::size_t at = words.find(memory_note);
  if (at == std::string::npos) return {std::move(words), false, {}};
  words.erase(at, memory_note.size());
  while (!words.empty() && (words.back() == ' ' || words.back() == ',')) words.pop_back();
  // Checked only when every figure of that source is.
  std::string mark = "m: from memory";
  bool open = false;
  for (const FromMemory& f : figures) {
    if (f.source != s.source && f.source != words) continue;
    open = open || !f.checked;
    mark = open ? "m: from memory, not checked" : fmt::format("m: from memory, checked: {}", harmless(f.who));
  }
  return {std::move(words), true, std::move(mark)};
}

bool stated(const Step& s) { return s.kind == StepKind::given || s.kind == StepKind::lookup; }

// A run of things stated, measured or looked up: one number, one line each, and one source where they share it.
Lines stated_block(std::span<const Step> run, std::size_t n, const std::vector<FromMemory>& figures, const Units& u) {
  std::size_t symbols = 0, values = 0;
  for (const Step& s : run) {
    symbols = std::max(symbols, columns(s.symbol));
    values = std::max(values, columns(text(s.result, units_of(s, u))));
  }
  Lines out;
  for (std::size_t i = 0; i < run.size(); ++i) {
    const Step& s = run[i];
    const std::string number = i == 0 ? right(fmt::format("{}", n), number_width) + "  " : indent;
    const std::string head =
        fmt::format("{}{} = {}  ", number, padded(s.symbol, symbols), padded(text(s.result, units_of(s, u)), values));
    const std::string words = s.words.empty() ? s.symbol : harmless(s.words);
    // Beside the values, unless they leave no room for words.
    const bool beside_it = columns(head) + 24 <= page_width;
    Lines said = beside_it ? wrapped(words, head, std::string(columns(head) + 2, ' '))
                           : wrapped(words, indent + "  ", indent + "  ");
    if (!beside_it) out.push_back(head.substr(0, head.find_last_not_of(' ') + 1));
    out.insert(out.end(), std::make_move_iterator(said.begin()), std::make_move_iterator(said.end()));
    if (i + 1 < run.size() && run[i + 1].source == s.source) continue;
    const Source source = source_of(s, figures);
    const std::string mark = source.from_memory ? source.words.empty() ? source.mark : ", " + source.mark : "";
    beside(out, source.words + mark);
  }
  return out;
}

// likewise: the step before it was said in the same words.
Lines step(const Step& s, std::size_t n, bool likewise, const std::vector<FromMemory>& figures, const Units& page) {
  const Units& u = units_of(s, page);
  const Source source = source_of(s, figures);
  const std::string number = right(fmt::format("{}", n), number_width) + "  ";
  const std::string said = likewise ? std::string("likewise") : s.words.empty() ? s.symbol : harmless(s.words);
  Lines out = wrapped(capitalised(said), number, indent);
  if (source.from_memory) beside(out, source.mark);
  const std::string symbol = indent + s.symbol;
  const std::string head = symbol + " = ";
  const std::string under = indent + std::string(columns(s.symbol), ' ') + " = ";
  // Behind a long symbol the rest begins at a fixed place.
  const bool long_symbol = columns(head) > 24;
  const std::string first = long_symbol ? indent + "  = " : head;
  const std::string other = long_symbol ? indent + "  = " : under;
  const std::string more(columns(other) + 2, ' ');
  if (long_symbol) out.push_back(symbol);
  const std::string result = text(s.result, u);
  const auto put = [&](Lines lines) {
    out.insert(out.end(), std::make_move_iterator(lines.begin()), std::make_move_iterator(lines.end()));
  };
  switch (s.kind) {
    case StepKind::given:
    case StepKind::lookup: put({first + result}); break;
    case StepKind::formula:
    case StepKind::sum:
      put(expression(first, more, s.formula));
      if (s.numbers != result) put(expression(other, more, s.numbers));
      put({other + result});
      break;
    case StepKind::choice: {
      std::size_t wide = 0;
      for (const Operand& o : s.operands) wide = std::max(wide, columns(o.symbol));
      wide = std::min<std::size_t>(wide, 40);
      bool told = false;
      for (const Operand& o : s.operands) {
        if (s.operands.size() < 2) break;  // nothing to choose from
        const bool governs = !told && o.symbol == s.formula;
        told = told || governs;
        put({fmt::format("{}  {}  {}{}", indent, padded(o.symbol, wide), text(o.value, u),
                         governs ? "   <- this one" : "")});
      }
      put(expression(first, more, s.formula));
      put({other + result});
      break;
    }
  }
  beside(out, source.words);
  return out;
}
}  // namespace

std::vector<std::string> steps_told(const Working& w, const std::vector<FromMemory>& figures, Look look,
                                    const std::function<bool(const std::string& heading)>& wanted) {
  const Units& u = *w.units;
  Lines out;
  std::string heading;
  std::size_t n = 0;
  const std::span<const Step> steps(w.steps);
  for (std::size_t i = 0, next = 0; i < steps.size(); i = next) {
    const Step& s = steps[i];
    next = i + 1;
    if (wanted && !wanted(s.heading)) continue;
    const bool begins = s.heading != heading || n == 0;
    if (begins) {
      heading = s.heading;
      out.emplace_back();
      if (!heading.empty()) out.push_back(bold(harmless(heading), look));
    }
    while (stated(s) && next < steps.size() && stated(steps[next]) && steps[next].heading == s.heading) ++next;
    const bool likewise =
        !begins && !stated(s) && !s.words.empty() && steps[i - 1].words == s.words && steps[i - 1].kind == s.kind;
    Lines lines =
        next > i + 1 ? stated_block(steps.subspan(i, next - i), ++n, figures, u) : step(s, ++n, likewise, figures, u);
    out.insert(out.end(), std::make_move_iterator(lines.begin()), std::make_move_iterator(lines.end()));
  }
  return out;
}

}  // namespace belay
