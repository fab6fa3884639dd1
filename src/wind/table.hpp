// The figures of one edition of a method, as read from tables/methods. Knows no TOML: `files` fills it.
#pragma once
#include "belay/units.hpp"
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

// how: "read", "reproduces ..." or "from memory". `figure`: the short name under which a job may list it as checked.
struct Entry {
  std::string key, figure, source, clause, how;
  std::size_t index;  // its bit in Marks
  std::map<std::string, std::vector<Value>, std::less<>> columns;
  std::map<std::string, std::string, std::less<>> texts;
  bool from_memory() const { return how == "from memory"; }
};
class Table {
 public:
  std::string file, method, edition;  // "methods/as-4055-2021.toml", "AS 4055", "2021"
  std::vector<Entry> entries;         // in the order of their keys, at most 64
  std::string named() const;          // "AS 4055:2021", "ASCE 7-16"
  bool has(std::string_view key) const;
  const Entry& entry(std::string_view key) const;  // throws std::out_of_range naming file and key: our own fault
  double number(std::string_view key, std::string_view column) const;  // a single ratio
  template <class Q> Q get(std::string_view key, std::string_view column) const {
    return quantity<Q>(at(key, column, 0));
  }
  const std::vector<Value>& column(std::string_view key, std::string_view column) const;
  const std::string& text(std::string_view key, std::string_view name) const;
  std::string source(std::string_view key) const;  // "AS 4055:2021 cl. 1.2", "... (from memory)"
  std::uint64_t mark(std::string_view key) const;  // its bit when from memory, else 0
 private:
  Value at(std::string_view key, std::string_view column, std::size_t i) const;
};

}  // namespace belay
