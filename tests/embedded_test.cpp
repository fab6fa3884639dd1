// The tables that the program carries are the files of tables/, byte for byte, sorted by name.
#include "files/embedded.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace fs = std::filesystem;

TEST_CASE("the program carries tables/ byte for byte") {
  const fs::path tables = fs::path(BELAY_SOURCE_DIR) / "tables";
  std::vector<std::string> names;
  for (const auto& e : fs::recursive_directory_iterator(tables))
    if (e.path().extension() == ".toml") names.push_back(fs::relative(e.path(), tables).generic_string());
  std::ranges::sort(names);

  const auto carried = belay::embedded();
  REQUIRE(carried.size() == names.size());
  for (std::size_t i = 0; i < names.size(); ++i) {
    INFO(names[i]);
    CHECK(carried[i].name == names[i]);
    std::ifstream in(tables / names[i], std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    CHECK(carried[i].text == text);
  }
}
