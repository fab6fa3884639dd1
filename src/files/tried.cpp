#include "files/tried.hpp"

#include "files/document.hpp"
#include "job/path.hpp"
#include "units/characters.hpp"

#include <fmt/format.h>

namespace belay {

namespace {

constexpr std::string_view named = "--if";

std::string_view stripped(std::string_view s) {
  while (!s.empty() && (s.front() == ' ' || s.front() == '\t')) s.remove_prefix(1);
  while (!s.empty() && (s.back() == ' ' || s.back() == '\t')) s.remove_suffix(1);
  return s;
}
// The first `=` outside quotes.
std::size_t equals_sign(std::string_view s) {
  char quote = 0;
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (quote == 0 && (s[i] == '"' || s[i] == '\'')) quote = s[i];
    else if (s[i] == quote) quote = 0;
    else if (s[i] == '=' && quote == 0) return i;
  }
  return std::string_view::npos;
}
// Letters, digits, `_` and `-`, or between quotes; an index behind a key.
bool is_path(std::string_view key) {
  if (key.empty() || key.front() == '.' || key.back() == '.' || key.front() == '[') return false;
  bool quoted = false;
  for (std::size_t i = 0; i < key.size(); ++i) {
    const char c = key[i];
    if (c == '"') quoted = !quoted;
    else if (c == '\n' || c == '\r') return false;
    else if (quoted) continue;
    else if (c == '[') {
      const std::size_t end = key.find(']', i);
      if (end == std::string_view::npos || end == i + 1 || end - i > 6 ||
          key.substr(i + 1, end - i - 1).find_first_not_of("0123456789") != std::string_view::npos)
        return false;
      i = end;
    } else if (c == '.' && i + 1 < key.size() && key[i + 1] == '.') return false;
    else if (!(c == '.' || c == '_' || c == '-' || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
               (c >= '0' && c <= '9')))
      return false;
  }
  return !quoted;
}

// The byte of a place: columns count code points.
std::size_t byte_at(std::string_view text, const toml::source_position& at) {
  std::size_t line = 1, i = 0;
  while (i < text.size() && line < at.line) line += text[i++] == '\n';
  for (std::size_t column = 1; i < text.size() && column < at.column; ++column) {
    ++i;
    while (i < text.size() && (static_cast<unsigned char>(text[i]) & 0xc0) == 0x80) ++i;
  }
  return i;
}
// Whether the header that stands there is that of the first steps: a table that has none of its own takes the place of
// the first table inside it.
bool is_header_of(std::string_view at, const std::vector<PathStep>& steps, std::size_t known) {
  std::string_view header = at.substr(0, at.find(']'));
  while (header.starts_with('[')) header.remove_prefix(1);
  const std::vector<PathStep> own = steps_of(stripped(header));
  std::size_t i = 0;
  for (std::size_t k = 0; k < known; ++k) {
    if (steps[k].key.empty()) continue;  // of several alike
    if (i == own.size() || own[i].key != steps[k].key) return false;
    ++i;
  }
  return i == own.size();
}
bool has_place(const toml::node& n) { return n.source().begin.line != 0 && n.source().end.line != 0; }

}  // namespace

Changed with_change(std::string_view job, std::string_view file, std::string_view change) {
  Changed out{std::string(job), std::nullopt, {}};
  const auto refuse = [&](std::string code, std::string message, std::string help = {}) {
    out.problems.push_back({std::string(named), 0, 0, 0, std::move(code), std::move(message), std::move(help), {}});
    return out;
  };
  constexpr std::string_view example = "for example: --if 'unless_noted.jamb = \"demo-rod-16\"'";
  const std::size_t sign = equals_sign(change);
  if (sign == std::string_view::npos)
    return refuse("no-value", fmt::format("`{}` says no value: KEY = VALUE", change), std::string(example));
  const std::string_view key = stripped(change.substr(0, sign)), value = stripped(change.substr(sign + 1));
  if (!is_path(key)) return refuse("bad-key", fmt::format("`{}` is no key of a job", key), std::string(example));
  if (value.find('\n') != std::string_view::npos)
    return refuse("bad-value", "the value stands on one line", std::string(example));
  const std::string line = fmt::format("x = {}", value);
  const Document alone(line, named, largest_file, out.problems);
  if (!alone.good() || alone.tree().size() != 1) {
    if (alone.good()) return refuse("bad-value", fmt::format("`{}` is more than one value", value));
    for (Problem& p : out.problems) {
      p.source_line = fmt::format("{} = {}", key, value);
      p.column += p.column > 4 ? static_cast<unsigned>(key.size()) - 1 : 0;
    }
    return out;
  }
  std::vector<Problem> of_job;
  const Document document(job, file, largest_file, of_job);
  if (!document.good()) return out;  // said when it is read

  const toml::node* node = &document.tree();
  const std::vector<PathStep> steps = steps_of(key);
  std::size_t known = 0;
  for (; known < steps.size(); ++known) {
    const PathStep& step = steps[known];
    const toml::node* next = nullptr;
    if (const toml::array* list = node->as_array(); list != nullptr && step.key.empty()) next = list->get(step.index);
    else if (const toml::table* t = node->as_table(); t != nullptr && !step.key.empty()) next = t->get(step.key);
    if (next == nullptr) break;
    node = next;
  }
  const auto replace = [&](std::size_t from, std::size_t to, std::string_view with) {
    out.text.replace(from, to - from, with);
  };
  if (known == steps.size()) {
    const bool whole_section = node->is_table() && !node->as_table()->is_inline();
    if (whole_section || !has_place(*node))
      return refuse("a-section", fmt::format("`{}` is a section of the job: name one of its keys", key));
    const std::size_t from = byte_at(job, node->source().begin), to = byte_at(job, node->source().end);
    out.tried = Tried{std::string(key), std::string(value), std::string(job.substr(from, to - from)),
                      static_cast<unsigned>(node->source().begin.line)};
    replace(from, to, value);
    return out;
  }
  std::string rest;
  for (std::size_t i = known; i < steps.size(); ++i) {
    if (steps[i].key.empty()) return refuse("no-such-place", fmt::format("`{}`: the job lists no such one", key));
    rest = under(rest, steps[i].key);
  }
  const toml::table* into = node->as_table();
  if (into == nullptr) return refuse("no-such-place", fmt::format("`{}`: what stands there takes no further key", key));
  out.tried = Tried{std::string(key), std::string(value), {}, 0};
  if (into->is_inline() && has_place(*node)) {
    const std::size_t end = byte_at(job, node->source().end) - 1;  // its closing bracket
    replace(end, end, fmt::format("{}{} = {} ", into->empty() ? " " : ", ", rest, value));
    return out;
  }
  // Behind the header of its own table; a table without one gets it at the end.
  const std::size_t from =
      into == &document.tree() || !has_place(*node) ? job.size() : byte_at(job, node->source().begin);
  if (from < job.size() && job[from] == '[' && is_header_of(job.substr(from), steps, known)) {
    const std::size_t end = std::min(job.find('\n', from), job.size());
    replace(end, end, fmt::format("\n{} = {}", rest, value));
    return out;
  }
  std::string section;
  for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
    if (steps[i].key.empty()) return refuse("no-such-place", fmt::format("`{}`: no place for a new key there", key));
    section = under(section, steps[i].key);
  }
  if (section.empty()) out.text.insert(0, fmt::format("{} = {}\n", under({}, steps.back().key), value));
  else out.text += fmt::format("\n[{}]\n{} = {}\n", section, under({}, steps.back().key), value);
  return out;
}

}  // namespace belay
