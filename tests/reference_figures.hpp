// The published figures of tests/reference, each with its source beside it.
#pragma once
#include "files/toml.hpp"
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace belay::test {

inline toml::table reference(const std::string& name) {
  toml::parse_result parsed = toml::parse_file(std::string(BELAY_TEST_DATA) + "/" + name);
  if (!parsed) throw std::runtime_error(name + " cannot be read");
  return std::move(parsed).table();
}
inline double number(toml::node_view<const toml::node> n) {
  const auto x = n.value<double>();
  if (!x) throw std::runtime_error("a reference figure is missing");
  return *x;
}
inline std::vector<double> numbers(toml::node_view<const toml::node> n) {
  const toml::array* list = n.as_array();
  if (!list) throw std::runtime_error("a row of reference figures is missing");
  std::vector<double> all;
  for (const toml::node& x : *list) all.push_back(number(toml::node_view<const toml::node>(x)));
  return all;
}
// A case of checks.toml by its id. The table must outlive what is taken from it.
inline const toml::table& published(std::string_view id) {
  static const toml::table checks = reference("checks.toml");
  for (const toml::node& n : *checks["case"].as_array())
    if (const toml::table* t = n.as_table(); t && (*t)["id"].value<std::string_view>() == id) return *t;
  throw std::runtime_error("no published case " + std::string(id));
}

}  // namespace belay::test
