// The published cases of tests/reference/checks.toml: each is held against the program by some test, or says why not
// yet.
#include "reference_figures.hpp"
#include "text_files.hpp"
#include <catch2/catch.hpp>
#include <set>

namespace fs = std::filesystem;
using belay::test::read_file;

TEST_CASE("every published case is named in a test or says why it is not yet") {
  std::string tests;
  for (const auto& e : fs::directory_iterator(fs::path(BELAY_SOURCE_DIR) / "tests"))
    if (e.path().filename().string().ends_with("_test.cpp")) tests += read_file(e.path());
  const toml::table checks = belay::test::reference("checks.toml");
  std::set<std::string> ids;
  for (const toml::node& n : *checks["case"].as_array()) {
    const toml::table& t = *n.as_table();
    const std::string id = t["id"].value_or(std::string());
    INFO(id);
    CHECK(ids.insert(id).second);
    CHECK(t["what"].is_string());
    CHECK((t["how"].is_string() || t["source"].is_string()));
    const bool named = tests.find('"' + id + '"') != std::string::npos;
    const auto used = t["used"].value<std::string>();
    CHECK(named != used.has_value());
    if (used) {
      CHECK(used->starts_with("not yet: "));
      CHECK(used->size() > std::string("not yet: ").size());
    }
  }
  CHECK(ids.size() > 40);
}
