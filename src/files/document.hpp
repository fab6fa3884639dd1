// One TOML file: its bytes, its tree, and where each thing of the tree stands.
#pragma once
#include "files/read.hpp"
#include "files/toml.hpp"
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

// As in Problem.
struct Spot {
  unsigned line, column, length;
};

class Document {
 public:
  // Parses. On failure `tree` stays empty and exactly one problem is added. The bytes are refused before parsing when
  // they are empty, too many, nested past sense, or no UTF-8.
  Document(std::string_view bytes, std::string_view file, std::size_t largest, std::vector<Problem>&);
  Document(const Document&) = delete;  // a copied toml tree loses its places
  Document& operator=(const Document&) = delete;

  const std::string& file() const { return file_; }
  bool good() const { return good_; }
  const toml::table& tree() const { return tree_; }
  // The text of a line, from 1, without its end; control characters and bad bytes made visible.
  std::string line(unsigned number) const;
  // A problem there, still without its source line.
  Problem problem(Spot, std::string code, std::string message, std::string help = {}) const;
  Problem problem(const toml::source_region&, std::string code, std::string message, std::string help = {}) const;
  Spot spot(const toml::source_region&) const;
  // Where a path stands (see job/path.hpp): the value, or with `on_key` the key that holds it; what does not exist
  // stands where the innermost part of the path that does exist stands. at, size: bytes inside a text (size 0: all of
  // it).
  Spot find(std::string_view path, bool on_key, std::size_t at, std::size_t size) const;
  std::string place(std::string_view path) const;  // "file:line"

 private:
  std::string_view raw_line(unsigned number) const;
  Problem syntax_problem(const toml::parse_error&) const;
  std::string bytes_, file_;
  std::vector<std::size_t> starts_;  // of lines
  toml::table tree_;
  bool good_ = false;
};

// Sorted by file in the order of `files`, then by place; the same twice is said once.
void sort_problems(std::vector<Problem>&, const std::vector<std::string>& files);

}  // namespace belay
