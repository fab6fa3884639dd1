// Rows of [[as_built]] put at the end of a draft's job.
#pragma once
#include "houses.hpp"
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

namespace belay::test {

struct Site {
  std::string entries;
  Site& found(const std::string& wall, const std::string& keys) { return row("wall", wall, keys); }
  Site& brace(const std::string& brace, const std::string& keys) { return row("brace", brace, keys); }

 private:
  Site& row(std::string_view what, const std::string& name, const std::string& keys) {
    entries += fmt::format("[[as_built]]\n{} = \"{}\"\n{}\n", what, name, keys);
    return *this;
  }
};
inline Opened opened_with(const Draft& d, const Site& site) {
  return read_job(d.text() + "\n" + site.entries, "job.toml",
                  [&](std::string_view) { return std::optional(d.fixings); });
}
inline House with(const Draft& d, const Site& site) {
  Opened o = opened_with(d, site);
  if (!o.house) throw std::runtime_error(render(o.problems, false));
  return *std::move(o.house);
}

}  // namespace belay::test
