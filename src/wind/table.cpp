#include "wind/table.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <stdexcept>

namespace belay {

namespace {
struct Before {
  bool operator()(const Entry& e, std::string_view key) const { return e.key < key; }
  bool operator()(std::string_view key, const Entry& e) const { return key < e.key; }
};
}  // namespace

std::string Table::named() const { return method.ends_with(edition) ? method : method + ':' + edition; }

bool Table::has(std::string_view key) const {
  return std::binary_search(entries.begin(), entries.end(), key, Before{});
}

const Entry& Table::entry(std::string_view key) const {
  const auto found = std::lower_bound(entries.begin(), entries.end(), key, Before{});
  if (found == entries.end() || found->key != key)
    throw std::out_of_range(fmt::format("{} has no entry `{}`", file, key));
  return *found;
}

const std::vector<Value>& Table::column(std::string_view key, std::string_view name) const {
  const Entry& e = entry(key);
  const auto found = e.columns.find(name);
  if (found == e.columns.end() || found->second.empty())
    throw std::out_of_range(fmt::format("{}: entry `{}` has no figures `{}`", file, key, name));
  return found->second;
}

const std::string& Table::text(std::string_view key, std::string_view name) const {
  const Entry& e = entry(key);
  const auto found = e.texts.find(name);
  if (found == e.texts.end()) throw std::out_of_range(fmt::format("{}: entry `{}` has no text `{}`", file, key, name));
  return found->second;
}

Value Table::at(std::string_view key, std::string_view name, std::size_t i) const { return column(key, name).at(i); }

double Table::number(std::string_view key, std::string_view name) const { return quantity<double>(at(key, name, 0)); }

// An entry of another standard names it; else the table's own method and edition stand, unless the method's name holds
// the edition already ("ASCE 7-16").
std::string Table::source(std::string_view key) const {
  const Entry& e = entry(key);
  if (e.how == "common practice, no source") return e.how;
  const bool own = e.source.empty() || e.source.starts_with(method);
  const std::string standard = own ? named() : e.source;
  return fmt::format("{} {} ({})", standard, e.clause, e.how);
}

std::uint64_t Table::mark(std::string_view key) const {
  const Entry& e = entry(key);
  return e.from_memory() ? std::uint64_t{1} << e.index : 0;
}

}  // namespace belay
