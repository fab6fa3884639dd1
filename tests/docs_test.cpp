// Every sample of the documents is run: commands print what is printed there, jobs settle, fixings files are read, and
// every key that may be written stands in README's tables. BELAY_APPROVE=1 rewrites the printed answers; read the
// difference.
#include "files/fields.hpp"
#include "files/read.hpp"
#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

std::string read_file(const fs::path& p) {
  std::ifstream in(p, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// first: index of its first line.
struct Block {
  std::string language;
  std::vector<std::string> lines;
  std::size_t first;
};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> r;
  std::istringstream in(text);
  for (std::string l; std::getline(in, l);) r.push_back(l);
  return r;
}

std::vector<Block> blocks_of(const std::vector<std::string>& lines) {
  std::vector<Block> r;
  bool inside = false;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i].starts_with("```")) {
      if (!inside) r.push_back({lines[i].substr(3), {}, i + 1});
      inside = !inside;
    } else if (inside) {
      r.back().lines.push_back(lines[i]);
    }
  }
  return r;
}

// What a command of the documents prints, run in the tree with `belay` on the path.
std::string output_of(const std::string& command) {
  const std::string bin = fs::path(BELAY_PROGRAM).parent_path().string();
  const std::string whole =
      "cd '" BELAY_SOURCE_DIR "' && PATH='" + bin + "':\"$PATH\" && " + command + " </dev/null 2>&1";
  std::FILE* pipe = ::popen(whole.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string out;
  std::array<char, 4096> some{};
  for (std::size_t n = 0; (n = std::fread(some.data(), 1, some.size(), pipe)) > 0;) out.append(some.data(), n);
  ::pclose(pipe);
  return out;
}

// The expected lines against the printed ones; a line `...` stands for any lines to the end.
bool agrees(const std::vector<std::string>& expected, const std::vector<std::string>& printed) {
  for (std::size_t i = 0; i < expected.size(); ++i) {
    if (expected[i] == "...") return true;
    if (i >= printed.size() || expected[i] != printed[i]) return false;
  }
  return expected.size() == printed.size();
}

std::string joined(const std::vector<std::string>& lines) {
  std::string r;
  for (const auto& l : lines) r += l + '\n';
  return r;
}

}  // namespace

TEST_CASE("commands in README print what README shows") {
  const fs::path path = fs::path(BELAY_SOURCE_DIR) / "README.md";
  auto lines = lines_of(read_file(path));
  std::size_t commands = 0;
  const char* approve = std::getenv("BELAY_APPROVE");
  std::vector<std::string> rewritten;
  std::size_t copied = 0;
  for (const Block& b : blocks_of(lines)) {
    if (b.language != "console") continue;
    REQUIRE_FALSE(b.lines.empty());
    REQUIRE(b.lines.front().starts_with("$ "));
    ++commands;
    const std::string command = b.lines.front().substr(2);
    const auto printed = lines_of(output_of(command));
    const std::vector<std::string> expected(b.lines.begin() + 1, b.lines.end());
    if (approve) {
      rewritten.insert(rewritten.end(), lines.begin() + static_cast<std::ptrdiff_t>(copied),
                       lines.begin() + static_cast<std::ptrdiff_t>(b.first + 1));
      // A sample that is cut short stays as long as it was.
      const bool cut = !expected.empty() && expected.back() == "...";
      const std::size_t keep =
          cut ? std::min(printed.size(), std::max<std::size_t>(expected.size() - 1, 24)) : printed.size();
      rewritten.insert(rewritten.end(), printed.begin(), printed.begin() + static_cast<std::ptrdiff_t>(keep));
      if (cut) rewritten.emplace_back("...");
      copied = b.first + b.lines.size();
      continue;
    }
    INFO(command << "\nprinted:\n" << joined(printed) << "\nREADME:\n" << joined(expected));
    CHECK(agrees(expected, printed));
    for (const auto& l : printed) CHECK(l.size() <= 80);
  }
  CHECK(commands >= 3);
  if (approve) {
    rewritten.insert(rewritten.end(), lines.begin() + static_cast<std::ptrdiff_t>(copied), lines.end());
    std::ofstream(path, std::ios::binary) << joined(rewritten);
  }
}

TEST_CASE("jobs and fixings files in README are read without a problem") {
  std::size_t jobs = 0, fixings = 0;
  for (const Block& b : blocks_of(lines_of(read_file(fs::path(BELAY_SOURCE_DIR) / "README.md")))) {
    if (b.language != "toml") continue;
    const std::string text = joined(b.lines);
    const std::string demo = read_file(fs::path(BELAY_SOURCE_DIR) / "tables/fixings/demo-light-steel.toml");
    if (text.find("[job]") != std::string::npos) {
      ++jobs;
      const auto opened = belay::read_job(text, "README.md", [&](std::string_view) { return std::optional(demo); });
      INFO(belay::render(opened.problems, false));
      CHECK(opened.house.has_value());
    } else {
      // Read as the fixings of a job that uses its three entries.
      ++fixings;
      std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/wattle-studio.toml");
      const auto cut = [&](const std::string& line) {
        const auto at = job.find(line);
        REQUIRE(at != std::string::npos);
        job.erase(at, job.find('\n', at) - at);
      };
      cut("jamb   =");
      cut("anchor =");
      cut("X1 =");
      for (auto at = job.find("X1 2400"); at != std::string::npos; at = job.find("X1 2400")) job.replace(at, 2, "B");
      const auto opened = belay::read_job(job, "job.toml", [&](std::string_view) { return std::optional(text); });
      INFO(belay::render(opened.problems, false));
      CHECK(opened.house.has_value());
    }
  }
  CHECK(jobs >= 1);
  CHECK(fixings >= 1);
}

TEST_CASE("every key of a job and of a fixings file stands in README") {
  const std::string text = read_file(fs::path(BELAY_SOURCE_DIR) / "README.md");
  std::set<std::string> missing;
  const std::function<void(std::span<const belay::Field>)> walk = [&](std::span<const belay::Field> rows) {
    for (const auto& f : rows) {
      if (f.takes == "nothing yet") continue;  // refused with a message of its own
      const std::string key(f.key);
      const bool there =
          text.find('`' + key + '`') != std::string::npos || text.find('[' + key + ']') != std::string::npos ||
          text.find('[' + key + ".NAME]") != std::string::npos || text.find("[site." + key + ']') != std::string::npos;
      if (!there) missing.insert(key);
      if (f.inside) walk(f.inside());
    }
  };
  walk(belay::job_rows());
  walk(belay::fixings_rows());
  missing.erase("");
  INFO([&] {
    std::string all;
    for (const auto& m : missing) all += m + ' ';
    return all;
  }());
  CHECK(missing.empty());
}
