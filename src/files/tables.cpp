// Method and practice tables: TOML into belay::Table.
#include "files/document.hpp"
#include "files/embedded.hpp"
#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <mutex>
#include <stdexcept>

namespace belay {
namespace {

// Tables are our own: they may be larger than a job.
constexpr std::size_t largest_table = 1024UL * 1024;
constexpr std::size_t most_entries = 64;  // one bit each in Marks
// How a figure was obtained; a word behind the first may say more ("reproduces Table 3").
constexpr std::string_view how_words[]{"read", "reproduces ", "from memory", "common practice, no source"};

[[noreturn]] void fault(std::string_view file, std::string_view key, std::string_view what) {
  throw std::runtime_error(fmt::format("{}: {}: {}", file, key, what));
}

// "16 psf" as a quantity of whichever kind has that unit; nothing for other text.
std::optional<Value> any_quantity(std::string_view text) {
  for (const Spelling& s : spellings()) {
    std::string why;
    if (text.ends_with(s.text))
      if (const auto v = parse_quantity(text, s.kind, why)) return v;
  }
  return std::nullopt;
}

std::string needed_text(const toml::table& t, std::string_view key, std::string_view file, std::string_view where) {
  const toml::node* n = t.get(key);
  if (n == nullptr || !n->is_string() || n->as_string()->get().empty())
    fault(file, where.empty() ? key : fmt::format("{}.{}", where, key), "this text is missing");
  return n->as_string()->get();
}

std::optional<Value> one_value(const toml::node& n) {
  if (const auto* i = n.as_integer()) return value(static_cast<double>(i->get()));
  if (const auto* d = n.as_floating_point(); d != nullptr && std::isfinite(d->get())) return value(d->get());
  if (const auto* s = n.as_string()) return any_quantity(s->get());
  return std::nullopt;
}

Entry read_entry(std::string_view key, const toml::table& t, const Table& table, std::string_view source) {
  Entry e;
  e.key = key;
  e.figure = needed_text(t, "figure", table.file, key);
  e.clause = needed_text(t, "clause", table.file, key);
  e.how = needed_text(t, "how", table.file, key);
  e.source = t.contains("source") ? needed_text(t, "source", table.file, key) : std::string(source);
  e.index = table.entries.size();
  bool known = false;
  for (const std::string_view w : how_words) known = known || e.how.starts_with(w);
  if (!known) fault(table.file, fmt::format("{}.how", key), fmt::format("`{}` is no way to obtain a figure", e.how));
  for (const auto& entry : t) {
    const std::string_view name = entry.first.str();
    const toml::node& n = entry.second;
    if (name == "figure" || name == "clause" || name == "how" || name == "source") continue;
    const std::string where = fmt::format("{}.{}", key, name);
    if (const toml::array* list = n.as_array()) {
      std::vector<Value> column;
      for (const toml::node& x : *list) {
        const auto v = one_value(x);
        if (!v) fault(table.file, where, "a number or a quantity is expected in this list");
        if (!column.empty() && column.front().kind != v->kind)
          fault(table.file, where, "quantities of two kinds in one list");
        column.push_back(*v);
      }
      if (column.empty()) fault(table.file, where, "an empty list");
      e.columns.emplace(std::string(name), std::move(column));
    } else if (const auto v = one_value(n)) {
      e.columns.emplace(std::string(name), std::vector<Value>{*v});
    } else if (const auto* s = n.as_string()) {
      e.texts.emplace(std::string(name), s->get());
    } else {
      fault(table.file, where, "a number, a quantity, a list of them or text is expected");
    }
  }
  return e;
}

// Entries of another table that stand in this one as well, under their own source: `[borrowed]` (`[[borrowed]]` of
// several) names the table, of another folder with it, and the keys ("*": all). An entry of its own wins.
struct Borrowed {
  std::string from;
  std::vector<std::string> keys;
};
Borrowed read_borrowed(const toml::table& t, std::string_view file) {
  Borrowed b{needed_text(t, "from", file, "borrowed"), {}};
  const toml::array* keys = t["keys"].as_array();
  if (keys == nullptr || keys->empty()) fault(file, "borrowed.keys", "a list of keys is expected");
  for (const toml::node& k : *keys) {
    const auto* s = k.as_string();
    if (s == nullptr) fault(file, "borrowed.keys", "a list of keys is expected");
    b.keys.push_back(s->get());
  }
  return b;
}
void add_borrowed(Table& table, const Borrowed& borrowed, const Table& lender) {
  const auto borrow = [&](const Entry& e) {
    const bool own =
        std::any_of(table.entries.begin(), table.entries.end(), [&](const Entry& x) { return x.key == e.key; });
    if (own) return;
    table.entries.push_back(e);
    // The lender's own figures go under its name from here on.
    const bool lenders = e.source.empty() || e.source.starts_with(lender.method);
    if (lenders) table.entries.back().source = lender.named();
  };
  for (const std::string& key : borrowed.keys) {
    if (key == "*") std::for_each(lender.entries.begin(), lender.entries.end(), borrow);
    else borrow(lender.entry(key));
  }
  if (table.entries.size() > most_entries) fault(table.file, "borrowed", "more than 64 entries with those borrowed");
  std::sort(table.entries.begin(), table.entries.end(), [](const Entry& a, const Entry& b) { return a.key < b.key; });
  for (std::size_t i = 0; i < table.entries.size(); ++i) table.entries[i].index = i;
}

// Every built-in table once, on first use.
const Table& kept(std::string_view name) {
  static std::recursive_mutex lock;                       // a table may borrow from another one
  static std::map<std::string, Table, std::less<>> read;  // a map never moves what it holds
  const std::scoped_lock held(lock);
  if (const auto found = read.find(name); found != read.end()) return found->second;
  const Embedded* file = embedded(name);
  if (file == nullptr) fault(name, "file", "no such table is built in");
  Table fresh = read_table_file(file->text, name);
  return read.emplace(std::string(name), std::move(fresh)).first->second;
}

}  // namespace

Table read_table_file(std::string_view text, std::string_view name) {
  std::vector<Problem> problems;
  const Document document(text, name, largest_table, problems);
  if (!problems.empty())
    fault(name, fmt::format("line {}", problems.front().line), problems.front().message + " " + problems.front().help);
  Table table;
  table.file = name;
  table.method = needed_text(document.tree(), "method", name, {});
  table.edition = needed_text(document.tree(), "edition", name, {});
  const std::string source = needed_text(document.tree(), "source", name, {});
  for (const auto& entry : document.tree()) {  // the library walks keys in their order
    const std::string_view key = entry.first.str();
    if (key == "method" || key == "edition" || key == "source" || key == "borrowed") continue;
    const toml::table* t = entry.second.as_table();
    if (t == nullptr) fault(name, key, "a table is expected");
    if (table.entries.size() == most_entries) fault(name, key, "more than 64 entries");
    table.entries.push_back(read_entry(key, *t, table, source));
  }
  const auto borrow = [&](const toml::table& t) {
    const Borrowed borrowed = read_borrowed(t, name);
    const std::string_view folder = borrowed.from.find('/') == std::string::npos ? "methods/" : "";
    add_borrowed(table, borrowed, kept(fmt::format("{}{}.toml", folder, borrowed.from)));
  };
  if (const toml::table* t = document.tree()["borrowed"].as_table()) borrow(*t);
  if (const toml::array* list = document.tree()["borrowed"].as_array())
    for (const toml::node& t : *list) {
      if (!t.is_table()) fault(name, "borrowed", "a list of tables is expected");
      borrow(*t.as_table());
    }
  return table;
}

const Table& table(std::string_view name) { return kept(name); }

}  // namespace belay
