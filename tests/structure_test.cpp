// The house rules that a compiler cannot see, read from the source files themselves: which room may know which, where a
// quantity may be stripped of its unit, and what must not stand in the tree at all.
#include "text_files.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <functional>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace fs = std::filesystem;

namespace {

struct File {
  std::string path;  // from the top of the tree, with '/'
  std::string text;
};

// Every file below the given places (files or folders) that exist, sorted by path.
std::vector<File> files_in(const std::vector<std::string>& places) {
  const fs::path top = BELAY_SOURCE_DIR;
  std::vector<File> files;
  const auto add = [&](const fs::path& p) {
    files.push_back({fs::relative(p, top).generic_string(), belay::test::read_file(p)});
  };
  for (const auto& place : places) {
    if (fs::is_regular_file(top / place)) add(top / place);
    if (!fs::is_directory(top / place)) continue;
    for (const auto& e : fs::recursive_directory_iterator(top / place))
      if (e.is_regular_file() && e.path().filename().string().find("__pycache__") == std::string::npos) add(e.path());
  }
  std::ranges::sort(files, {}, &File::path);
  return files;
}

bool is_cpp(const File& f) { return f.path.ends_with(".cpp") || f.path.ends_with(".hpp"); }

std::vector<File> sources() {
  auto files = files_in({"include", "src"});
  std::erase_if(files, [](const File& f) { return !is_cpp(f); });
  return files;
}

std::vector<File> tree() {
  return files_in({".ci", ".clang-format", ".clang-tidy", ".gitignore", "CMakeLists.txt", "CMakePresets.json",
                   "DEVELOPERS.md", "README.md", "include", "jobs", "src", "tables", "tests"});
}

// The code without its comments, strings and characters left as they are; line breaks stay.
std::string without_comments(std::string_view text) {
  std::string code;
  enum { code_, line, block, string, character } in = code_;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const char next = i + 1 < text.size() ? text[i + 1] : '\0';
    if (in == line && c == '\n') in = code_;
    if (in == block && c == '*' && next == '/') {
      in = code_;
      ++i;
      continue;
    }
    if (in == line || in == block) {
      if (c == '\n') code += c;
      continue;
    }
    if (in == code_ && c == '/' && (next == '/' || next == '*')) {
      in = next == '/' ? line : block;
      continue;
    }
    code += c;
    if (in == code_ && c == '"') in = string;
    // Not the separator in 1'000.
    else if (in == code_ && c == '\'' && (i == 0 || std::isalnum(static_cast<unsigned char>(text[i - 1])) == 0))
      in = character;
    else if ((in == string || in == character) && c == '\\') {
      code += next;
      ++i;
    } else if ((in == string && c == '"') || (in == character && c == '\'')) in = code_;
  }
  return code;
}

// "path:line: the line" for every line on which the pattern is found.
std::vector<std::string> found(const File& f, const std::string& text, const std::regex& pattern) {
  std::vector<std::string> places;
  std::size_t number = 1, start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    const std::string row = text.substr(start, end - start);
    if (std::regex_search(row, pattern)) places.push_back(f.path + ":" + std::to_string(number) + ": " + row);
    ++number;
    start = end + 1;
  }
  return places;
}

std::vector<std::string> found_in_code(const std::vector<File>& files, const std::string& pattern,
                                       const std::function<bool(const File&)>& wanted) {
  const std::regex what(pattern);
  std::vector<std::string> places;
  for (const auto& f : files)
    if (wanted(f))
      for (auto& place : found(f, without_comments(f.text), what)) places.push_back(std::move(place));
  return places;
}

std::string listed(const std::vector<std::string>& places) {
  std::string text;
  for (const auto& p : places) text += '\n' + p;
  return text;
}

#define CHECK_NONE(places)                                \
  do {                                                    \
    const std::vector<std::string> found_places = places; \
    INFO("found" << listed(found_places));                \
    CHECK(found_places.empty());                          \
  } while (false)

// Which room may include which directly; what those may include comes with them. Four headers hold nothing but data or
// declarations and count as rooms of their own: fixings and result (plain structs), table (the figures that wind and
// capacity read) and check (the two calls from outside, whose bodies stand in load_path and judge).
const std::map<std::string, std::set<std::string>>& direct_edges() {
  static const std::map<std::string, std::set<std::string>> edges{
      {"units", {}},
      {"working", {"units"}},
      {"fixings", {"units"}},
      {"table", {"units"}},
      {"job", {"fixings"}},
      {"result", {"job"}},
      {"check", {"result", "working"}},
      {"shape", {"job"}},
      {"wind", {"shape", "working", "table"}},
      {"capacity", {"job", "working", "table", "result"}},
      {"load_path", {"wind", "capacity", "check"}},
      {"judge", {"load_path"}},
      {"files", {"job", "wind"}},
      {"report", {"files", "judge"}},
      {"cli", {"report"}},
  };
  return edges;
}

std::set<std::string> allowed(const std::string& room) {
  std::set<std::string> all{room};
  for (const auto& lower : direct_edges().at(room)) all.merge(allowed(lower));
  return all;
}

// The room of "include/belay/units.hpp", "src/wind/table.hpp", or of an included "belay/units.hpp", "wind/table.hpp".
std::string room_of(std::string path) {
  for (const std::string_view front : {"include/", "src/"})
    if (path.starts_with(front)) path.erase(0, front.size());
  const std::size_t slash = path.find('/');
  if (slash == std::string::npos) return {};
  if (path == "wind/table.hpp" || path == "wind/table.cpp") return "table";
  if (path.substr(0, slash) != "belay") return path.substr(0, slash);
  return path.substr(slash + 1, path.rfind('.') - slash - 1);
}

bool is_engineering(const File& f) {
  static const std::set<std::string> rooms{"units", "working", "fixings", "table",    "job",       "result",
                                           "check", "shape",   "wind",    "capacity", "load_path", "judge"};
  return rooms.contains(room_of(f.path));
}

bool anywhere(const File&) { return true; }

}  // namespace

TEST_CASE("comments are told from code") {
  CHECK(without_comments("a; // b\nc /* d\n e */ f") == "a; \nc \n f");
  CHECK(without_comments(R"(x = "// no"; y = '"'; z = 1'000; // yes)") == R"(x = "// no"; y = '"'; z = 1'000; )");
}

TEST_CASE("every source file stands in a known room") {
  const auto files = sources();
  REQUIRE(files.size() > 10);
  for (const auto& f : files) {
    INFO(f.path);
    CHECK(direct_edges().contains(room_of(f.path)));
  }
}

TEST_CASE("a room includes only what stands below it") {
  const std::regex include(R"(^\s*#\s*include\s*"([^"]+)\")");
  std::vector<std::string> wrong;
  for (const auto& f : sources()) {
    const std::string room = room_of(f.path);
    if (!direct_edges().contains(room)) continue;  // told by the test above
    const auto may = allowed(room);
    const std::string code = without_comments(f.text);
    std::size_t start = 0;
    while (start < code.size()) {
      const std::size_t end = std::min(code.find('\n', start), code.size());
      const std::string row = code.substr(start, end - start);
      start = end + 1;
      std::smatch m;
      if (!std::regex_search(row, m, include)) continue;
      const std::string other = room_of(m[1]);
      if (!may.contains(other)) wrong.push_back(f.path + " includes " + m[1].str() + ", which is not below " + room);
    }
  }
  CHECK_NONE(wrong);
}

TEST_CASE("the libraries stay in their rooms") {
  const auto files = sources();
  CHECK_NONE(
      found_in_code(files, R"(#\s*include\s*<toml\+\+/)", [](const File& f) { return room_of(f.path) != "files"; }));
  CHECK_NONE(found_in_code(files, R"(#\s*include\s*<CLI/)", [](const File& f) { return room_of(f.path) != "cli"; }));
  CHECK_NONE(found_in_code(files, R"(#\s*include\s*<rapidjson/)",
                           [](const File& f) { return room_of(f.path) != "report" && room_of(f.path) != "files"; }));
}

TEST_CASE("the engineering neither prints nor reads files, TOML or the environment, and starts no threads") {
  CHECK_NONE(
      found_in_code(sources(),
                    R"(std::(cout|cerr|clog|printf|puts|getenv|ifstream|ofstream|fstream|filesystem)"
                    R"(|thread|jthread|async)\b|\b(printf|fprintf|fopen|fmt::print)\s*\(|\btoml::|[Rr]apid[Jj]son)"
                    R"(|#\s*include\s*<(iostream|fstream|filesystem|thread|cstdio|fmt/(ostream|os|color))\.?h?>)",
                    is_engineering));
}

TEST_CASE("a quantity loses its unit only in units, working and the geometry's cut") {
  CHECK_NONE(found_in_code(sources(), R"((\.|->)\s*(template\s+)?value\s*\(\s*\))", [](const File& f) {
    const std::string room = room_of(f.path);
    return room != "units" && room != "working" && f.path != "src/shape/shape.cpp";
  }));
}

TEST_CASE("nothing whose order or form depends on the machine can reach the output") {
  const auto files = sources();
  CHECK_NONE(found_in_code(files, R"(\bunordered_)", anywhere));
  CHECK_NONE(found_in_code(
      files, R"(__FILE__|__DATE__|__TIME__|source_location|system_clock|\btime\s*\(\s*(0|NULL|nullptr)\s*\))",
      anywhere));
  CHECK_NONE(found_in_code(files, R"(setlocale|std::locale|\{:[^}]*L\}|\b(stod|strtod|atof|stof|sscanf)\b)", anywhere));
  CHECK_NONE(found_in_code(files, R"(\bstd::(rand|random_device|mt19937))", anywhere));
}

TEST_CASE("every number is a double") {
  // Another's code is compiled in units/fmt.cpp.
  CHECK_NONE(found_in_code(sources(), R"(\bfloat\b)", [](const File& f) { return f.path != "src/units/fmt.cpp"; }));
}

TEST_CASE("no machine's paths, addresses or unfinished notes stand in the tree") {
  // Put together here, so that this file does not find itself.
  const std::string slash = "/";
  const std::regex paths(slash + "(home|root|work|Users|mnt)" + slash + "|[A-Z]:\\\\\\\\");
  // Private networks only: a clause number may look like any other address.
  const std::regex hosts(
      R"(\b(10\.\d+|127\.0|192\.168|172\.(1[6-9]|2\d|3[01]))\.\d+\.\d+\b|\b[a-z0-9-]+\.(local|lan|internal|intranet)\b)"
      R"(|local)"
      R"(host)");
  const std::regex notes(std::string("\\b(TO") + "DO|FIX" + "ME|XX" + "X|HA" + "CK)\\b");
  // What each of them has in it somewhere: the patterns are slow, and few files have any of that.
  const std::vector<std::pair<const std::regex*, std::vector<std::string>>> patterns{
      {&paths, {slash + "home", slash + "root", slash + "work", slash + "Users", slash + "mnt", ":\\\\"}},
      {&hosts, {"10.", "127.0", "192.168", "172.", ".lo", ".lan", ".int", std::string("local") + "host"}},
      {&notes,
       {std::string("TO") + "DO", std::string("FIX") + "ME", std::string("XX") + "X", std::string("HA") + "CK"}}};
  const auto files = tree();
  REQUIRE(files.size() > 20);
  std::vector<std::string> places;
  for (const auto& f : files)
    for (const auto& [pattern, parts] : patterns) {
      std::string rows;  // others left empty, so that each keeps its number
      for (const std::string& row : belay::test::lines_of(f.text)) {
        if (std::any_of(parts.begin(), parts.end(),
                        [&](const std::string& p) { return row.find(p) != std::string::npos; }))
          rows += row;
        rows += '\n';
      }
      for (auto& place : found(f, rows, *pattern)) places.push_back(std::move(place));
    }
  CHECK_NONE(places);
}

TEST_CASE("invented fixings say so in their names") {
  const std::regex name(R"regex(^\s*name\s*=\s*"([^"]*)")regex");
  std::size_t names = 0;
  for (const auto& f : files_in({"tables/fixings", "jobs"})) {
    if (!f.path.ends_with(".toml")) continue;
    // A fixings file, not a job: a job has its [job].
    if (std::regex_search(f.text, std::regex(R"((^|\n)\s*\[job\])"))) continue;
    std::size_t start = 0;
    while (start < f.text.size()) {
      const std::size_t end = std::min(f.text.find('\n', start), f.text.size());
      const std::string row = f.text.substr(start, end - start);
      start = end + 1;
      std::smatch m;
      if (!std::regex_search(row, m, name)) continue;
      ++names;
      INFO(f.path << ": " << row);
      CHECK(m[1].str().starts_with("demo-"));
    }
  }
  CHECK(names > 0);
}

TEST_CASE("text files end with a line break and hold no tabs or trailing blanks") {
  std::vector<std::string> wrong;
  const std::regex blanks("[ \\t]+$|\\t");
  for (const auto& f : tree()) {
    if (f.path.starts_with("tests/")) continue;  // inputs and approved outputs there may be odd on purpose
    if (!f.text.empty() && f.text.back() != '\n') wrong.push_back(f.path + ": no line break at the end");
    for (auto& place : found(f, f.text, blanks)) wrong.push_back(std::move(place));
  }
  CHECK_NONE(wrong);
}
