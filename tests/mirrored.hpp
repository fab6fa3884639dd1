// One law for every method: a house that is turned by a quarter, or mirrored, has the turned or mirrored pressures and
// pushes. The houses are 12 m by 7.8 m; their cases name the sides in words of their own.
#pragma once
#include "wind_house.hpp"
#include <catch2/catch.hpp>
#include <map>
#include <random>
#include <string>

namespace belay::test {

inline std::string renamed(const std::string& id, const std::map<std::string, std::string>& names) {
  std::string out;
  for (std::size_t i = 0; i < id.size();) {
    const std::size_t end = std::min(id.find(' ', i), id.size());
    const std::string word = id.substr(i, end - i);
    out += (out.empty() ? "" : " ") + (names.contains(word) ? names.at(word) : word);
    i = end + 1;
  }
  return out;
}
// The same case of the house turned by a quarter (+x to +y), and of the house seen in a mirror.
inline const LoadCase& turned_case(const Blown& turned, const LoadCase& c) {
  return find_case(turned.loads,
                   renamed(c.id, {{"right", "back"}, {"back", "left"}, {"left", "front"}, {"front", "right"}}));
}
inline const LoadCase& mirrored_case(const Blown& house, const LoadCase& c) {
  return find_case(house.loads, renamed(c.id, {{"left", "right"}, {"right", "left"}}));
}
inline void check_turned_and_mirrored(const Blown& a, const Blown& turned, const LoadCase& c, std::mt19937& rng,
                                      int points) {
  using Catch::Matchers::WithinAbs;
  std::uniform_real_distribution<double> x(-0.3, 12.3), y(-0.45, 8.25);
  const LoadCase &ct = turned_case(turned, c), &cm = mirrored_case(a, c);
  const Length up = a.shape.up, across = a.shape.across;
  for (int i = 0; i < points; ++i) {
    const Point p{metres(x(rng)), metres(y(rng))};
    for (const bool soffit : {false, true}) {
      const auto here = net_at(a, c, p, soffit), there = net_at(turned, ct, {up - p.y, p.x}, soffit),
                 mirrored = net_at(a, cm, {across - p.x, p.y}, soffit);
      REQUIRE(here.has_value() == there.has_value());
      REQUIRE(here.has_value() == mirrored.has_value());
      if (!here) continue;
      CHECK_THAT(there->value(), WithinAbs(here->value(), 1e-9));
      CHECK_THAT(mirrored->value(), WithinAbs(here->value(), 1e-9));
    }
  }
  // a turn takes +x to +y and +y to -x
  CHECK_THAT(push_total(ct, Along::up).value(), WithinAbs(push_total(c, Along::across).value(), 1e-6));
  CHECK_THAT(push_total(ct, Along::across).value(), WithinAbs(-push_total(c, Along::up).value(), 1e-6));
  CHECK_THAT(push_total(cm, Along::across).value(), WithinAbs(-push_total(c, Along::across).value(), 1e-6));
  CHECK_THAT(push_total(cm, Along::up).value(), WithinAbs(push_total(c, Along::up).value(), 1e-6));
}

}  // namespace belay::test
