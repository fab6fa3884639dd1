#include "report/page.hpp"
#include "units/characters.hpp"
#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <utility>

namespace belay {

namespace {
bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }
// Where the first `n` code points end.
std::size_t bytes_of(std::string_view s, std::size_t n) {
  std::size_t i = 0;
  while (i < s.size() && n > 0) {
    ++i;
    while (i < s.size() && continues(s[i])) ++i;
    --n;
  }
  return i;
}
}  // namespace

std::string bold(std::string_view s, Look look) {
  return look.colour ? fmt::format("\x1b[1m{}\x1b[0m", s) : std::string(s);
}
std::string red(std::string_view s, Look look) {
  return look.colour ? fmt::format("\x1b[1;31m{}\x1b[0m", s) : std::string(s);
}

std::string harmless(std::string_view s) { return without_controls(s, ' '); }

std::size_t columns(std::string_view s) {
  std::size_t n = 0;
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (s[i] == '\x1b') {
      while (i < s.size() && s[i] != 'm') ++i;
      continue;
    }
    if (!continues(s[i])) ++n;
  }
  return n;
}
std::string padded(std::string_view s, std::size_t width) {
  const std::size_t n = columns(s);
  return std::string(s) + std::string(n < width ? width - n : 0, ' ');
}
std::string right(std::string_view s, std::size_t width) {
  const std::size_t n = columns(s);
  return std::string(n < width ? width - n : 0, ' ') + std::string(s);
}
std::string clipped(std::string_view s, std::size_t width) {
  if (columns(s) <= width) return std::string(s);
  return std::string(s.substr(0, bytes_of(s, width > 3 ? width - 3 : 0))) + "...";
}

namespace {
constexpr std::string_view no_break = "\xC2\xA0";
std::string with_blanks(std::string s) {
  for (std::size_t at = s.find(no_break); at != std::string::npos; at = s.find(no_break, at))
    s.replace(at, no_break.size(), 1, ' ');
  return s;
}
}  // namespace

std::string kept_together(std::string_view words) {
  std::string out;
  for (const char c : words) c == ' ' ? out += no_break : out += c;
  return out;
}
std::vector<std::string> wrapped(std::string_view text, std::string_view first, std::string_view rest,
                                 std::size_t width) {
  std::vector<std::string> lines;
  std::string line(first);
  bool empty = true;
  const auto next = [&] {
    lines.push_back(with_blanks(std::move(line)));
    line = rest;
    empty = true;
  };
  std::size_t i = 0;
  while (i < text.size()) {
    const std::size_t start = text.find_first_not_of(' ', i);
    if (start == std::string_view::npos) break;
    const std::size_t end = std::min(text.find(' ', start), text.size());
    std::string_view word = text.substr(start, end - start);
    const std::string gap = empty ? "" : std::string(start - i, ' ');
    if (!empty && columns(line) + gap.size() + columns(word) > width) next();
    if (!empty) line += gap;
    while (columns(line) + columns(word) > width && columns(line) < width) {
      const std::size_t cut = bytes_of(word, width - columns(line));
      line += word.substr(0, cut);
      word.remove_prefix(cut);
      next();
    }
    line += word;
    empty = false;
    i = end;
  }
  if (!empty) lines.push_back(with_blanks(std::move(line)));
  return lines;
}
std::string joined(const std::vector<std::string>& lines) {
  std::string out;
  for (const std::string& l : lines) {
    const std::size_t end = l.find_last_not_of(' ');
    out.append(l, 0, end == std::string::npos ? 0 : end + 1);
    out += '\n';
  }
  return out;
}
std::string counted(std::size_t n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}
std::string and_list(const std::vector<std::string>& items) {
  std::string s;
  for (std::size_t i = 0; i < items.size(); ++i) s += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
  return s;
}
std::string small_number(std::size_t n) {
  static constexpr std::array<std::string_view, 11> words{"no",  "one",   "two",   "three", "four", "five",
                                                          "six", "seven", "eight", "nine",  "ten"};
  return n < words.size() ? std::string(words[n]) : fmt::format("{}", n);
}

const Units& units_of(Print p) { return p == Print::us ? us : metric; }
std::string short_number(Value v, const Units& u) {
  if (v.kind != Kind::force && v.kind != Kind::line_load) return number(v, u);
  const int decimals = u.name == us.name ? 0 : 2;
  const double x = in(v, u);
  const bool nothing = std::abs(x) <= (decimals == 0 ? 0.5 : 0.005);  // without a sign
  return fmt::format("{:.{}f}", nothing ? 0.0 : x, decimals);
}
std::string trimmed(Value v, const Units& u) {
  std::string s = short_number(v, u);
  if (s.find('.') == std::string::npos) return s;
  s.erase(s.find_last_not_of('0') + 1);
  if (s.back() == '.') s.pop_back();
  return s;
}
std::string unit_word(Kind k, const Units& u) {
  if (u.name == us.name && k == Kind::force) return "lb";
  if (u.name == us.name && k == Kind::line_load) return "lb/ft";
  return std::string(printed(k, u).symbol);
}
std::string trimmed_text(Value v, const Units& u) {
  const std::string unit = unit_word(v.kind, u);
  return unit.empty() ? trimmed(v, u) : fmt::format("{} {}", trimmed(v, u), unit);
}

std::string kind_words(std::string_view kind, bool many) {
  for (const Kind_of_link& k : kinds_of_link())
    if (k.kind == kind) return std::string(many ? k.plural : k.words);
  return std::string(kind) + (many ? "s" : "");
}
namespace {
// Whether the words say this very place: "T1 at 360 front" does not say 36.
bool says(std::string_view words, const std::string& at) {
  const std::string there = " at " + at;
  for (std::size_t i = words.find(there); i != std::string_view::npos; i = words.find(there, i + 1)) {
    const std::size_t end = i + there.size();
    if (end == words.size() || words[end] == ' ' || words[end] == ',') return true;
  }
  return false;
}
bool says_a_place(std::string_view words) { return words.find(" at ") != std::string_view::npos; }
// What is fixed to the slab.
bool drilled(std::string_view kind) {
  static constexpr std::array<std::string_view, 4> kinds{"hold-down", "jamb", "anchor", "ground"};
  return std::ranges::find(kinds, kind) != kinds.end();
}
}  // namespace

SpokenPlace place_of(const Link& l, const Units& u) {
  std::string words = harmless(l.where.words);
  if (!l.where.from_start) return {std::move(words), {}};
  const std::string at = place(*l.where.from_start, u);
  if (says(words, at)) return {std::move(words), {}};
  const std::string_view how = !says_a_place(words) ? "at" : drilled(l.kind) ? "drill at" : "stands at";
  return {std::move(words), fmt::format(", {} {}", how, at)};
}
std::string place_words(const Link& l, const Units& u) {
  const SpokenPlace p = place_of(l, u);
  return p.words + p.at;
}
std::string without_kind(std::string words, const Link& l) {
  const std::string kind = harmless(l.kind) + ' ';
  if (words.starts_with(kind)) words.erase(0, kind.size());
  return words;
}
std::string place_within(const SpokenPlace& p, std::size_t width) {
  const std::string whole = p.words + p.at;
  if (columns(whole) <= width) return whole;
  const std::size_t name = std::min(p.words.find(" at "), p.words.size());
  const std::string places = p.words.substr(name) + p.at;
  constexpr std::size_t least = 4;
  return clipped(p.words.substr(0, name), columns(places) + least < width ? width - columns(places) : least) + places;
}
bool fails_its_sheet(const Link& l) {
  return l.verdict == Verdict::fail && l.why.code == "condition-unmet" && !(l.use && l.use->value > 1.0);
}
std::string use_words(const Link& l) {
  if (!l.use || (l.verdict == Verdict::fail && !(l.use->value > 1.0))) return "-";
  return percent_up(l.use->value);
}
std::string wall_words(const Where& w) {
  if (w.wall.empty()) return {};
  const std::string wall = fmt::format("wall {}", harmless(w.wall));
  if (w.face.empty()) return wall;
  return w.face == "inside" ? wall + ", inside" : fmt::format("{}, the {}", wall, harmless(w.face));
}
static bool along_a_side(const Where& w) { return w.face == "left" || w.face == "right"; }
std::string from_words(const Where& w) {
  return w.face == "inside" || w.face.empty() ? "from the wall's left or front end"
         : along_a_side(w)                    ? "from its front end"
                                              : "from its left end";
}
std::string file_name(std::string_view path) {
  const std::size_t slash = path.find_last_of('/');
  return harmless(slash == std::string_view::npos ? path : path.substr(slash + 1));
}
std::string shell_word(std::string_view word) {
  const std::string s = harmless(word);
  if (!s.empty() &&
      s.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._/+-:") == std::string::npos)
    return s;
  std::string out = "'";
  for (const char c : s) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}
std::string method_words(const SiteSaid& s) {
  std::string method = harmless(s.method);
  if (!s.edition.empty() && method.find(s.edition) == std::string::npos) method += ':' + harmless(s.edition);
  return method;
}
std::string typed_words(const SiteSaid& s) {
  return s.typed_in.empty() ? std::string() : fmt::format("{} typed in, not worked out", harmless(s.typed_in));
}
std::string wind_words(const SiteSaid& s, const Units& u) {
  std::string out = harmless(s.wind_class);
  const auto add = [&](const std::string& part) {
    if (!part.empty() && out.find(part) == std::string::npos) out += (out.empty() ? "" : ", ") + part;
  };
  if (out.empty() && s.typed_in == "pressure") add(trimmed_text(value(s.q), u));
  else if (out.empty() && s.gust > zero<Speed>()) add(trimmed_text(value(s.gust), u));
  add(typed_words(s));
  if (s.says != "class " + s.wind_class) add(harmless(s.says));
  return out;
}
std::string site_line(const SiteSaid& s, const Units& u) {
  std::string out = method_words(s);
  if (const std::string wind = wind_words(s, u); !wind.empty()) out += (out.empty() ? "" : ", ") + wind;
  if (!s.given_by.empty()) out += fmt::format("{}({})", out.empty() ? "" : " ", harmless(s.given_by));
  return out;
}
std::string chosen_words(const Chosen& c) {
  if (!c.given()) return "none given";
  const std::size_t colon = c.at.find_last_of(':');
  std::string by = harmless(c.by);
  if (colon != std::string::npos && colon + 1 < c.at.size())
    by += fmt::format("{}line {}", by.empty() ? "" : ", ", harmless(c.at.substr(colon + 1)));
  return by;
}
std::vector<std::string> tried_words(const std::vector<TriedChange>& tried) {
  std::vector<std::string> out;
  for (const TriedChange& t : tried) {
    const std::size_t colon = t.at.find_last_of(':');
    const std::string there =
        t.before.empty() || colon == std::string::npos
            ? std::string("the file says nothing there")
            : fmt::format("the file says {}, line {}", harmless(t.before), harmless(t.at.substr(colon + 1)));
    for (std::string& line : wrapped(fmt::format("{} = {}   ({})", harmless(t.key), harmless(t.value), there),
                                     "Tried, not in the file: ", "  "))
      out.push_back(std::move(line));
  }
  return out;
}
std::string case_words(const CaseName& c) {
  std::string all;
  const auto say = [&](std::string_view before, const std::string& part) {
    if (part.empty()) return;
    const std::string s = fmt::format("{}{}", before, harmless(part));
    all += (all.empty() ? "" : "; ") + (columns(s) < 24 ? kept_together(s) : s);
  };
  say("wind ", c.wind);
  // "shut", "a door or opening stands open", and which way the air inside pushes.
  std::string inside = c.inside;
  const bool shut = inside.starts_with("shut");
  for (const auto& [end, plain] : {std::pair<std::string_view, std::string_view>{", pushed out", "pushing out from"},
                                   {", sucked in", "sucking in from"}})
    if (inside.ends_with(end))
      inside =
          fmt::format("{}, {} {} inside", inside.substr(0, inside.size() - end.size()), shut ? "air" : "wind", plain);
  say(shut ? "house " : "", inside);
  say("ceiling ", c.ceiling);
  say("", c.combination);
  return all;
}
std::string condition_words(const Condition& c) {
  std::string s = harmless(c.name);
  if (!c.needs.empty()) s += fmt::format(", needs {}", harmless(c.needs));
  switch (c.met) {
    case Met::yes: return s + fmt::format(", has {}: met", harmless(c.has));
    case Met::no: return s + fmt::format(", has {}: NOT MET", harmless(c.has));
    case Met::not_stated: break;
  }
  if (!c.has.empty() && !c.key.empty())
    return s + fmt::format(", has {}: DOUBTFUL, look at `{}`", harmless(c.has), harmless(c.key));
  return s + (c.key.empty() ? ": NOT STATED" : fmt::format(": NOT STATED, add `{}`", harmless(c.key)));
}
std::string capitalised(std::string s) {
  if (!s.empty() && s.front() >= 'a' && s.front() <= 'z') s.front() = static_cast<char>(s.front() - 'a' + 'A');
  return s;
}
std::string mirrored_words(const std::optional<Mirror>& m) {
  return m ? fmt::format("Built mirrored {}: places are as built.", words(*m)) : std::string();
}
std::string with_stop(std::string s) {
  if (!s.empty() && s.back() != '.' && s.back() != '?' && s.back() != '!') s += '.';
  return s;
}

std::size_t unchecked_figures(const Result& r) {
  return static_cast<std::size_t>(
      std::ranges::count_if(r.from_memory, [](const FromMemory& f) { return !f.checked && f.links > 0; }));
}
std::string answer_words(const Result& r) {
  switch (r.answer) {
    case Answer::pass: return "PASS";
    case Answer::pass_if: {
      const std::size_t n = unchecked_figures(r);
      return n == 1 ? "PASS, IF THIS FIGURE IS RIGHT" : fmt::format("PASS, IF THESE {} FIGURES ARE RIGHT", n);
    }
    case Answer::fail: return "FAIL";
    case Answer::not_judged: return "NOT JUDGED";
  }
  return "NOT JUDGED";
}

}  // namespace belay
