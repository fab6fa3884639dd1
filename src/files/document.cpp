#include "files/document.hpp"
#include "job/path.hpp"
#include "units/characters.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace belay {
namespace {

// Dots make tables inside tables; the library destroys those by recursion, and that many are no job.
constexpr std::ptrdiff_t most_dots = 5000;

// What a fixings file lists; each entry of a list stands in two brackets.
constexpr std::string_view lists[]{"bracket", "tie", "plate", "anchor", "strap", "sheet", "rated", "lining"};
// "[bracket]" and "[[bracket]]" to the name of such a list, or "".
std::string_view list_in(std::string_view header) {
  while (header.starts_with('[')) header.remove_prefix(1);
  header = header.substr(0, std::min(header.find(']'), header.size()));
  return std::find(std::begin(lists), std::end(lists), header) == std::end(lists) ? std::string_view() : header;
}

bool digit(char c) { return c >= '0' && c <= '9'; }
bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool blank(char c) { return c == ' ' || c == '\t'; }
bool begins_point(char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }

unsigned points(std::string_view text) {
  return static_cast<unsigned>(std::count_if(text.begin(), text.end(), begins_point));
}
// The byte at which code point `n` (from 0) begins, or the end.
std::size_t byte_of(std::string_view text, unsigned n) {
  std::size_t i = 0;
  while (i < text.size()) {
    if (begins_point(text[i]) && n-- == 0) break;
    ++i;
  }
  return i;
}

// Length of the UTF-8 sequence at `i`, or 0 when it is none (Unicode 15, table 3-7).
std::size_t sequence(std::string_view s, std::size_t i) {
  const auto at = [&](std::size_t k) { return i + k < s.size() ? static_cast<unsigned char>(s[i + k]) : 0u; };
  const auto tail = [&](std::size_t k) { return (at(k) & 0xc0) == 0x80; };
  const unsigned a = at(0);
  if (a < 0x80) return 1;
  if (a >= 0xc2 && a <= 0xdf) return tail(1) ? 2 : 0;
  if (a >= 0xe0 && a <= 0xef) {
    const unsigned least = a == 0xe0 ? 0xa0 : 0x80, most = a == 0xed ? 0x9f : 0xbf;
    return at(1) >= least && at(1) <= most && tail(2) ? 3 : 0;
  }
  if (a >= 0xf0 && a <= 0xf4) {
    const unsigned least = a == 0xf0 ? 0x90 : 0x80, most = a == 0xf4 ? 0x8f : 0xbf;
    return at(1) >= least && at(1) <= most && tail(2) && tail(3) ? 4 : 0;
  }
  return 0;
}

std::string visible(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t n = sequence(text, i);
    if (n == 0 || (control_at(text, i) != 0 && text[i] != '\t')) out += '?';
    else out.append(text.substr(i, n));
    i += std::max<std::size_t>(n, 1);
  }
  return out;
}

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && blank(s.front())) s.remove_prefix(1);
  while (!s.empty() && (blank(s.back()) || s.back() == '\r')) s.remove_suffix(1);
  return s;
}

}  // namespace

Document::Document(std::string_view bytes, std::string_view file, std::size_t largest, std::vector<Problem>& problems)
    : file_(file) {
  const auto refuse = [&](std::string code, std::string message, std::string help) {
    problems.push_back({file_, 0, 0, 0, std::move(code), std::move(message), std::move(help), {}});
  };
  if (bytes.size() > largest) {
    refuse("file-too-large", fmt::format("{} bytes: more than {} are not read", bytes.size(), largest), {});
    return;
  }
  bytes_ = bytes;
  starts_.push_back(0);
  for (std::size_t i = 0; i < bytes_.size(); ++i)
    if (bytes_[i] == '\n') starts_.push_back(i + 1);
  if (std::all_of(bytes_.begin(), bytes_.end(), [](char c) { return blank(c) || c == '\n' || c == '\r'; })) {
    refuse("empty-file", "the file is empty", {});
    return;
  }
  for (std::size_t i = 0; i < bytes_.size();) {
    const std::size_t n = sequence(bytes_, i);
    if (n == 0) {
      const auto line = std::upper_bound(starts_.begin(), starts_.end(), i) - 1;
      const auto number = static_cast<unsigned>(line - starts_.begin() + 1);
      problems.push_back(problem(Spot{number, points(std::string_view(bytes_).substr(*line, i - *line)) + 1, 1},
                                 "bad-utf8", "this is no UTF-8 text", "save the file as UTF-8"));
      return;
    }
    i += n;
  }
  std::ptrdiff_t dots = 0;
  for (std::size_t i = 0; i < bytes_.size(); ++i) {
    if (bytes_[i] != '.' || ++dots <= most_dots) continue;
    const auto line = std::upper_bound(starts_.begin(), starts_.end(), i) - 1;
    problems.push_back(problem(Spot{static_cast<unsigned>(line - starts_.begin() + 1),
                                    points(std::string_view(bytes_).substr(*line, i - *line)) + 1, 1},
                               "nested-too-deep", fmt::format("more than {} dots: no job has them", most_dots)));
    return;
  }
  toml::parse_result result = toml::parse(std::string_view(bytes_), std::string_view(file_));
  if (!result) {
    problems.push_back(syntax_problem(result.error()));
    return;
  }
  tree_ = std::move(result).table();
  good_ = true;
}

std::string_view Document::raw_line(unsigned number) const {
  if (number == 0 || number > starts_.size()) return {};
  const std::size_t from = starts_[number - 1];
  std::size_t to = number < starts_.size() ? starts_[number] - 1 : bytes_.size();
  if (to > from && bytes_[to - 1] == '\r') --to;
  std::string_view line = std::string_view(bytes_).substr(from, to - from);
  if (number == 1 && line.starts_with("\xef\xbb\xbf")) line.remove_prefix(3);
  return line;
}

std::string Document::line(unsigned number) const { return visible(raw_line(number)); }

// NOLINTNEXTLINE(performance-unnecessary-value-param): callers hand their texts over, as to the other one
Problem Document::problem(Spot s, std::string code, std::string message, std::string help) const {
  return {file_, s.line, s.column, s.length, std::move(code), visible(message), visible(help), {}};
}
Problem Document::problem(const toml::source_region& region, std::string code, std::string message,
                          std::string help) const {
  return problem(spot(region), std::move(code), std::move(message), std::move(help));
}

Spot Document::spot(const toml::source_region& r) const {
  // The root and things made by a dotted key may have no place of their own.
  if (r.begin.line == 0) return {1, 1, 1};
  const auto line = static_cast<unsigned>(r.begin.line), column = static_cast<unsigned>(r.begin.column);
  if (r.end.line == r.begin.line && r.end.column > r.begin.column)
    return {line, column, static_cast<unsigned>(r.end.column - r.begin.column)};
  const unsigned width = points(raw_line(line));
  return {line, column, r.end.line > r.begin.line && width >= column ? width - column + 1 : 1};
}

Spot Document::find(std::string_view path, bool on_key, std::size_t at, std::size_t size) const {
  const toml::node* node = &tree_;
  const toml::key* key = nullptr;
  for (const PathStep& step : steps_of(path)) {
    if (const toml::array* list = node->as_array(); list != nullptr && step.key.empty()) {
      if (step.index >= list->size()) break;
      node = list->get(step.index);
    } else if (const toml::table* t = node->as_table(); t != nullptr && !step.key.empty()) {
      const auto found = t->find(step.key);
      if (found == t->end()) break;
      key = &found->first;
      node = &found->second;
    } else if (!step.key.empty()) {
      break;  // a short form: `A = "run"` for `A = { run = "run" }`
    }         // an index into a single table: the table itself
  }
  if (on_key && key != nullptr) return spot(key->source());
  if (key == nullptr && node == &tree_) return {1, 1, 1};
  Spot s = spot(node->source());
  if (node->source().begin.line == 0 && key != nullptr) s = spot(key->source());
  const auto* text = node->as_string();
  if (text == nullptr || size == 0) return s;
  // Inside a text: only where the file writes it as it is, on one line between single quotes marks.
  const std::string_view line = raw_line(s.line);
  const std::size_t from = byte_of(line, s.column - 1) + 1;
  const std::string_view value = text->get();
  if (from + value.size() > line.size() || line.substr(from, value.size()) != value || at + size > value.size())
    return s;
  return {s.line, s.column + 1 + points(value.substr(0, at)), std::max(1u, points(value.substr(at, size)))};
}

std::string Document::place(std::string_view path) const {
  const Spot s = find(path, true, 0, 0);
  return fmt::format("{}:{}", file_, s.line);
}

// The library stops at the first thing that it cannot read, often just behind the culprit, and says so in a parser's
// words.
Problem Document::syntax_problem(const toml::parse_error& error) const {
  const std::string_view said = error.description();
  Spot s = spot(error.source());
  s.length = 1;
  const auto has = [&](std::string_view words) { return said.find(words) != std::string_view::npos; };
  const std::string_view line = raw_line(s.line);
  if (has("redefine") || has("cannot insert")) {
    // The same key between here and the last header, or the same header anywhere above.
    const std::string_view own = trimmed(line);
    const bool header = own.starts_with('[');
    const std::string_view name = header ? own : trimmed(own.substr(0, std::min(own.find('='), own.size())));
    const auto before = static_cast<unsigned>(line.find(name.empty() ? line : name.substr(0, 1)));
    for (unsigned n = s.line - 1; n > 0; --n) {
      const std::string_view other = trimmed(raw_line(n));
      const bool other_header = other.starts_with('[');
      const std::string_view other_name =
          header ? other : trimmed(other.substr(0, std::min(other.find('='), other.size())));
      if (other_name == name && header == other_header)
        return problem(Spot{s.line, before + 1, points(name)}, header ? "table-twice" : "key-twice",
                       fmt::format("`{}` stands here a second time", name),
                       fmt::format("the first stands on line {}{}", n,
                                   list_in(name).empty()
                                       ? ""
                                       : fmt::format("; each entry stands in two brackets: [[{}]]", list_in(name))));
      if (other_header && !header) break;
    }
    if (const std::string_view list = list_in(name); header && !list.empty())
      return problem(Spot{s.line, before + 1, points(name)}, "table-twice",
                     fmt::format("`{}` stands in one bracket in one place and in two in another", list),
                     fmt::format("each entry stands in two brackets: [[{}]]", list));
    return problem(s, "key-twice", "this key has been given already", std::string(said));
  }
  // The value that the parser was in: from the last `=`, `[` or `,` before it stopped.
  const std::size_t stopped = std::min(byte_of(line, s.column - 1), line.size());
  std::size_t from = line.rfind('=', stopped == 0 ? 0 : stopped - 1);
  if (from == std::string_view::npos) from = line.find('=');
  if (from != std::string_view::npos) {
    ++from;
    while (from < line.size() && blank(line[from])) ++from;
    const std::string_view value = line.substr(from);
    const auto token = [&](std::string_view ends) {
      const std::string_view t = value.substr(0, std::min(value.find_first_of(ends), value.size()));
      return trimmed(t);
    };
    const auto at = [&](std::string_view t) {
      return Spot{s.line, points(line.substr(0, from)) + 1, std::max(1u, points(t))};
    };
    const std::size_t sign = !value.empty() && (value[0] == '-' || value[0] == '+') ? 1 : 0;
    if (value.empty() || value[0] == '#') return problem(at({}), "no-value", "nothing stands behind `=`");
    if (sign < value.size() && digit(value[sign])) {
      const std::size_t end = std::min(value.find_first_not_of("0123456789._", sign), value.size());
      if (end < value.size() && value[end] == ',' && end + 1 < value.size() && digit(value[end + 1]) &&
          line.find_first_of("[{") >= from) {
        const std::string_view t = token(" \t#");
        std::string right(t);
        std::replace(right.begin(), right.end(), ',', '.');
        return problem(at(t), "decimal-comma", "decimals are written with a point", fmt::format("`{}`", right));
      }
      const std::string_view t = token("#,}]");
      if (has("leading zero") || (value[sign] == '0' && sign + 1 < value.size() && digit(value[sign + 1])))
        return problem(at(t), "leading-zero", "a number does not begin with 0",
                       "write it without the zeros in front, or as text between quotes");
      if (t.size() > end)
        return problem(at(t), "unquoted-text", "a value with its unit is text: it stands between quotes",
                       fmt::format("\"{}\"", t));
    }
    if (letter(value[0])) {
      const std::string_view t = token("#,}]");
      if (t != "true" && t != "false")
        return problem(at(t), "unquoted-text", "text stands between quotes", fmt::format("\"{}\"", t));
    }
    if ((value[0] == '"' || value[0] == '\'') && value.find(value[0], 1) == std::string_view::npos)
      return problem(at(trimmed(value)), "text-not-closed",
                     fmt::format("the text is not closed: a second {} is missing", value[0]));
  }
  if (has("control character")) return problem(s, "control-character", "a control character stands here");
  const std::size_t colon = said.starts_with("Error while parsing ") ? said.find(": ") : std::string_view::npos;
  return problem(s, "not-toml", "this cannot be read as TOML here",
                 std::string(colon == std::string_view::npos ? said : said.substr(colon + 2)));
}

void sort_problems(std::vector<Problem>& problems, const std::vector<std::string>& files) {
  const auto rank = [&](const Problem& p) { return std::find(files.begin(), files.end(), p.file) - files.begin(); };
  std::stable_sort(problems.begin(), problems.end(), [&](const Problem& a, const Problem& b) {
    return std::make_tuple(rank(a), a.line, a.column) < std::make_tuple(rank(b), b.line, b.column);
  });
  problems.erase(std::unique(problems.begin(), problems.end(),
                             [](const Problem& a, const Problem& b) {
                               return a.file == b.file && a.line == b.line && a.column == b.column &&
                                      a.code == b.code && a.message == b.message;
                             }),
                 problems.end());
}

}  // namespace belay
