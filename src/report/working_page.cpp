#include "report/working_page.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <iterator>
#include <span>

namespace belay {

namespace {
using Lines = std::vector<std::string>;
constexpr std::string_view memory_note = "(from memory)";
constexpr std::size_t number_width = 3;  // of the step's own number
const std::string indent(number_width + 2, ' ');

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
Source source_of(const Step& s, const Result& r) {
  std::string words = harmless(s.source);
  const std::size_t at = words.find(memory_note);
  if (at == std::string::npos) return {std::move(words), false, {}};
  words.erase(at, memory_note.size());
  while (!words.empty() && (words.back() == ' ' || words.back() == ',')) words.pop_back();
  // Checked only when every figure of that source is.
  std::string mark = "m: from memory";
  bool open = false;
  for (const FromMemory& f : r.from_memory) {
    if (f.source != s.source && f.source != words) continue;
    open = open || !f.checked;
    mark = open ? "m: from memory, not checked" : fmt::format("m: from memory, checked: {}", harmless(f.who));
  }
  return {std::move(words), true, std::move(mark)};
}

bool stated(const Step& s) { return s.kind == StepKind::given || s.kind == StepKind::lookup; }

// A run of things stated, measured or looked up: one number, one line each, and one source where they share it.
Lines stated_block(std::span<const Step> run, std::size_t n, const Result& r, const Units& u) {
  std::size_t symbols = 0, values = 0;
  for (const Step& s : run) {
    symbols = std::max(symbols, columns(s.symbol));
    values = std::max(values, columns(text(s.result, u)));
  }
  Lines out;
  for (std::size_t i = 0; i < run.size(); ++i) {
    const Step& s = run[i];
    const std::string number = i == 0 ? right(fmt::format("{}", n), number_width) + "  " : indent;
    const std::string head =
        fmt::format("{}{} = {}  ", number, padded(s.symbol, symbols), padded(text(s.result, u), values));
    const std::string words = s.words.empty() ? s.symbol : harmless(s.words);
    // Beside the values, unless they leave no room for words.
    const bool beside_it = columns(head) + 24 <= page_width;
    Lines said = beside_it ? wrapped(words, head, std::string(columns(head) + 2, ' '))
                           : wrapped(words, indent + "  ", indent + "  ");
    if (!beside_it) out.push_back(head.substr(0, head.find_last_not_of(' ') + 1));
    out.insert(out.end(), std::make_move_iterator(said.begin()), std::make_move_iterator(said.end()));
    if (i + 1 < run.size() && run[i + 1].source == s.source) continue;
    const Source source = source_of(s, r);
    const std::string mark = source.from_memory ? source.words.empty() ? source.mark : ", " + source.mark : "";
    beside(out, source.words + mark);
  }
  return out;
}

// likewise: the step before it was said in the same words.
Lines step(const Step& s, std::size_t n, bool likewise, const Result& r, const Units& u) {
  const Source source = source_of(s, r);
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

// Kind and place, the kind said once, and how it ends: "Why the hold-down A1 left, at 120 fails"; a kind of many words
// stands off: "Why the distance between bracing lines, A to C, is for others to answer".
std::string title_words(const Link& l, const Units& u) {
  std::string place = place_words(l, u);
  const std::string kind = kind_words(l.kind, false);
  for (const std::string& said : {harmless(l.kind) + ' ', std::string(l.kind == "line spacing" ? "spacing " : "")})
    if (!said.empty() && place.starts_with(said)) place.erase(0, said.size());
  const bool off = std::ranges::count(kind, ' ') > 1;
  const std::string_view is = l.kind == "compression" || l.kind == "ground" ? "are" : "is";
  const std::string ends = l.verdict == Verdict::pass         ? "holds"
                           : l.verdict == Verdict::fail       ? "fails"
                           : l.verdict == Verdict::not_judged ? fmt::format("{} not judged", is)
                                                              : fmt::format("{} for others to answer", is);
  return fmt::format("Why the {}{} {}{} {}", kind, off ? "," : "", place, off ? "," : "", ends);
}

// What adds most to a pull: where a change helps most.
std::string greatest_of_the_pull(const Link& l, const Units& u) {
  const auto pull = std::ranges::find(l.parts, "pull", &LinkPart::part);
  if (l.kind != "hold-down" || pull == l.parts.end() || pull->made_of.size() < 2) return {};
  const MadeOf& most = *std::ranges::max_element(pull->made_of, {}, [](const MadeOf& m) { return m.value.si; });
  if (!(most.value.si > 0.0) || !(pull->demand.si > 0.0)) return {};
  return fmt::format("{} is {}: {} of {}.",
                     most.value.si > 0.5 * pull->demand.si ? "Most of the pull" : "The greatest part of the pull",
                     harmless(most.what), short_number(most.value, u),
                     fmt::format("{} {}", short_number(pull->demand, u), unit_word(pull->demand.kind, u)));
}

void conclusion(Lines& out, const Result& r, const Link& l, const Units& u, Look look) {
  out.emplace_back();
  out.push_back(bold("What it has to hold, and what it can", look));
  if (l.fixing.given()) {
    std::string s = fmt::format("{}: {}", harmless(l.fixing.name), chosen_words(l.fixing));
    if (!l.fixing_source.empty()) s += fmt::format("; source: {}", harmless(l.fixing_source));
    if (l.fixing_demo) s += "; invented, not for construction";
    for (std::string& line : wrapped(with_stop(s), indent, indent)) out.push_back(std::move(line));
  }
  std::size_t wide = 0;
  for (const LinkPart& p : l.parts) wide = std::max(wide, columns(p.part));
  for (const LinkPart& p : l.parts) {
    std::string s = indent + padded(harmless(p.part), wide) + "  ";
    if (p.role == Role::combined) s += fmt::format("together by the rule \"{}\"", harmless(p.rule));
    else
      s += p.capacity ? fmt::format("{} / {}", text(p.demand, u), text(*p.capacity, u))
                      : fmt::format("{}, no capacity to set against it", text(p.demand, u));
    const std::string use = p.use ? percent_up(p.use->value) : "";
    if (columns(s) + columns(use) + 2 <= page_width) out.push_back(padded(s, page_width - columns(use)) + use);
    else {
      out.push_back(s);
      out.push_back(right(use, page_width));
    }
    if (p.made_of.size() > 1)
      for (const MadeOf& m : p.made_of) {
        const std::string from = m.from.empty() ? "" : fmt::format(" ({})", harmless(m.from));
        for (std::string& line :
             wrapped(fmt::format("{}{}", harmless(m.what), from),
                     fmt::format("{}    {}  ", indent, right(text(m.value, u), 12)), indent + std::string(18, ' ')))
          out.push_back(std::move(line));
      }
  }
  for (const Condition& c : l.conditions) {
    const std::string s = "Condition: " + condition_words(c);
    for (std::string& line : wrapped(with_stop(s), indent, indent + "  ")) out.push_back(std::move(line));
  }
  out.emplace_back();
  const std::string verdict(words(l.verdict));
  const std::string percent = use_words(l);  // none that looks like a pass where the link fails in spite of it
  const std::string use = percent == "-" ? "" : "   " + percent;
  Lines said = wrapped(fmt::format("{}{}   {}", verdict, use, with_stop(why_words(l))), "", "   ");
  if (!said.empty() && said.front().starts_with(verdict))
    said.front() =
        (l.verdict == Verdict::pass ? bold(verdict, look) : red(verdict, look)) + said.front().substr(verdict.size());
  out.insert(out.end(), said.begin(), said.end());
  const std::string add = words(key_to_add(l));
  for (std::string& line : wrapped(greatest_of_the_pull(l, u), "", "  ")) out.push_back(std::move(line));
  if (!add.empty())
    for (std::string& line : wrapped(fmt::format("To have it judged add {}.", add), "", "  "))
      out.push_back(std::move(line));
  if (!l.rests_on_memory.empty()) {
    std::string names;
    for (const std::string& m : l.rests_on_memory) names += (names.empty() ? "" : ", ") + harmless(m);
    for (std::string& line :
         wrapped(with_stop(fmt::format(
                     "It rests on figures from memory that nobody has compared with a bought copy: {}", names)),
                 "", "  "))
      out.push_back(std::move(line));
  }
  for (const std::string& e : r.excess)
    for (std::string& line :
         wrapped(with_stop(fmt::format("Outside what {} covers: {}", harmless(r.site.method), harmless(e))), "", "  "))
      out.push_back(std::move(line));
  out.emplace_back();
  for (const Caution& c : r.cautions)
    for (std::string& line : wrapped(with_stop(harmless(c.text)), "Caution: ", "  ")) out.push_back(std::move(line));
  if (u.name == us.name) out.push_back("lbf: pounds of force, lb on the first screen.");
  out.push_back("Each number is rounded as printed; the sums run on the unrounded ones.");
  out.emplace_back(last_words);
}
}  // namespace

std::string working_page(const Result& r, std::size_t index, const Working& w, Look look) {
  const Link& l = r.links.at(index);
  const Units& u = *w.units;
  Lines out;
  for (const std::string& line : wrapped(title_words(l, u), "", "  ")) out.push_back(bold(line, look));
  std::string facts = harmless(r.title);
  const std::string wall = wall_words(l.where);
  if (!wall.empty()) facts += "   " + wall;
  if (l.where.from_start) facts += fmt::format("   places in {} {}", place_unit(u), from_words(l.where));
  for (std::string& line : wrapped(facts, "", "  ")) out.push_back(std::move(line));
  const std::string worst = case_words(l.load_case);
  if (!worst.empty())
    for (std::string& line : wrapped(with_stop("The case that decides: " + worst), "", "  "))
      out.push_back(std::move(line));
  std::string heading;
  std::size_t n = 0;
  const std::span<const Step> steps(w.steps);
  for (std::size_t i = 0, next = 0; i < steps.size(); i = next) {
    const Step& s = steps[i];
    const bool begins = s.heading != heading || n == 0;
    if (begins) {
      heading = s.heading;
      out.emplace_back();
      if (!heading.empty()) out.push_back(bold(harmless(heading), look));
    }
    for (next = i + 1; stated(s) && next < steps.size() && stated(steps[next]) && steps[next].heading == s.heading;)
      ++next;
    const bool likewise =
        !begins && !stated(s) && !s.words.empty() && steps[i - 1].words == s.words && steps[i - 1].kind == s.kind;
    Lines lines = next > i + 1 ? stated_block(steps.subspan(i, next - i), ++n, r, u) : step(s, ++n, likewise, r, u);
    out.insert(out.end(), std::make_move_iterator(lines.begin()), std::make_move_iterator(lines.end()));
  }
  if (w.steps.empty()) {
    out.emplace_back();
    out.emplace_back("There is no sum to show for this link.");
  }
  conclusion(out, r, l, u, look);
  return joined(out);
}

}  // namespace belay
