// Every sample of the documents is run: commands print what is printed there, jobs settle, fixings files are read, and
// every key that may be written stands in README's tables. BELAY_APPROVE=1 rewrites the printed answers; read the
// difference.
#include "capacity/capacity.hpp"
#include "files/fields.hpp"
#include "files/read.hpp"
#include "text_files.hpp"
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;
using belay::test::lines_of;
using belay::test::read_file;

// first: index of its first line.
struct Block {
  std::string language;
  std::vector<std::string> lines;
  std::size_t first;
};

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
  return belay::test::run_command(whole).out;
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
  std::size_t jobs = 0, fixings = 0, sites = 0, class_tables = 0, trusses = 0, floors = 0, roof_braces = 0,
              verandas = 0, as_built = 0, blocks = 0, anchors = 0, slabs = 0, grounds = 0, bracings = 0, perforated = 0;
  // A demo job with another [site], and the checked figures of its old method left out.
  const auto sited = [](const std::string& site, const std::string& name) {
    std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs" / name);
    const auto from = job.find("\n[site"), to = job.find("\n[block.");
    REQUIRE(from < to);
    job.replace(from, to - from, '\n' + site);
    return job.substr(0, job.find("\n[checked]"));
  };
  for (const Block& b : blocks_of(lines_of(read_file(fs::path(BELAY_SOURCE_DIR) / "README.md")))) {
    if (b.language != "toml") continue;
    const std::string text = joined(b.lines);
    const std::string demo = read_file(fs::path(BELAY_SOURCE_DIR) / "tables/fixings/demo-light-steel.toml");
    if (text.find("[job]") != std::string::npos) {
      ++jobs;
      const auto opened = belay::read_job(text, "README.md", [&](std::string_view) { return std::optional(demo); });
      INFO(belay::render(opened.problems, false));
      CHECK(opened.house.has_value());
    } else if (text.starts_with("[site]")) {
      ++sites;
      const bool us = text.find("ASCE") != std::string::npos;
      const std::string fixings_text =
          us ? read_file(fs::path(BELAY_SOURCE_DIR) / "tables/fixings/demo-timber-us.toml") : demo;
      const auto opened = belay::read_job(sited(text, us ? "juniper-cabin.toml" : "wattle-studio.toml"), "job.toml",
                                          [&](std::string_view) { return std::optional(fixings_text); });
      INFO(belay::render(opened.problems, false));
      CHECK(opened.house.has_value());
    } else if (text.starts_with("trusses = [")) {
      ++trusses;
      std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/banksia-rise.toml");
      const auto from = job.find("trusses = ["), to = job.find("\n]\n", from) + 3;
      REQUIRE(from < to);
      const auto opened = belay::read_job(job.replace(from, to - from, text), "job.toml",
                                          [&](std::string_view) { return std::optional(demo); });
      INFO(belay::render(opened.problems, false));
      CHECK(opened.house.has_value());
    } else if (text.starts_with("[slab]") || text.starts_with("[block.main.floor.ground]")) {
      // In the place of a job's own slab; a floor on stumps has none, and its anchors go into the floor.
      const bool stumps = text.starts_with("[block.");
      ++(stumps ? grounds : slabs);
      std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/wattle-studio.toml");
      const auto from = job.find("[slab]"), to = job.find("[frame]");
      REQUIRE(from < to);
      job.replace(from, to - from, text + '\n');
      if (stumps) job.replace(job.find("block.main.floor"), 10, "block.studio");
      for (const std::string anchor : {"demo-bolt-12", "demo-rod-16"})
        for (auto at = job.find(anchor); stumps && at != std::string::npos; at = job.find(anchor))
          job.replace(at, anchor.size(), "demo-screws-joist");
      const auto opened = belay::read_job(job, "job.toml", [&](std::string_view) { return std::optional(demo); });
      INFO(belay::render(opened.problems, false));
      REQUIRE(opened.house.has_value());
      CHECK(opened.house->framed.has_value() == stumps);
      CHECK(opened.house->slab.edge.has_value() != stumps);
    } else if (text.starts_with("[block.")) {
      // From the block on: the head and the site of another job stand before it.
      const bool two_floors = text.find("[wall.first]") != std::string::npos;
      ++(two_floors ? floors : blocks);
      const std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/wattle-studio.toml");
      const auto opened = belay::read_job(job.substr(0, job.find("[block.")) + text, "job.toml",
                                          [&](std::string_view) { return std::optional(demo); });
      INFO(belay::render(opened.problems, false));
      REQUIRE(opened.house.has_value());
      CHECK(opened.house->first.has_value() == two_floors);
      CHECK(opened.house->wings.empty() == two_floors);
    } else if (text.starts_with("roof_braces = [")) {
      ++roof_braces;
      std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/saltbush-cottage.toml");
      const auto at = job.find("trusses = {");
      REQUIRE(at != std::string::npos);
      const auto opened =
          belay::read_job(job.insert(at, text), "job.toml", [&](std::string_view) { return std::optional(demo); });
      INFO(belay::render(opened.problems, false));
      CHECK(opened.house.has_value());
    } else if (text.starts_with("[veranda.")) {
      ++verandas;
      std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/acacia-hut.toml");
      const auto from = job.find("[veranda."), to = job.find("[slab]");
      REQUIRE(from < to);
      const auto opened = belay::read_job(job.replace(from, to - from, text + '\n'), "job.toml",
                                          [&](std::string_view) { return std::optional(demo); });
      INFO(belay::render(opened.problems, false));
      REQUIRE(opened.house.has_value());
      CHECK(opened.house->verandas.size() == 1);
    } else if (text.starts_with("[[anchor]]")) {
      // Beside the demo entries, in the place of a job's plate anchors.
      ++anchors;
      std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/saltbush-cottage.toml");
      const std::string old = "use = \"demo-bolt-12\"";
      REQUIRE(job.find(old) != std::string::npos);
      job.replace(job.find(old), old.size(), "use = \"demo-bolt-m12\"");
      const auto opened =
          belay::read_job(job, "job.toml", [&](std::string_view) { return std::optional(demo + '\n' + text); });
      INFO(belay::render(opened.problems, false));
      CHECK(opened.house.has_value());
    } else if (text.starts_with("[[strap]]")) {
      const auto opened = belay::read_job(read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/wattle-studio.toml"), "job.toml",
                                          [&](std::string_view) { return std::optional(demo + '\n' + text); });
      INFO(belay::render(opened.problems, false));
      REQUIRE(opened.house.has_value());
      CHECK(belay::find(opened.house->fixings.straps, "demo-strap-ours") != nullptr);
    } else if (text.starts_with("[[as_built]]")) {
      ++as_built;
      const std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/wattle-studio.toml");
      const auto opened =
          belay::read_job(job + '\n' + text, "job.toml", [&](std::string_view) { return std::optional(demo); });
      INFO(belay::render(opened.problems, false));
      REQUIRE(opened.house.has_value());
      CHECK(opened.house->as_built.size() == 2);
      std::size_t braces = 0;
      for (const belay::Wall& w : opened.house->walls)
        for (const belay::Piece& p : w.pieces) braces += p.brace && p.brace->found;
      CHECK(braces == 2);
    } else if (text.starts_with("[bracing]")) {
      ++bracings;
      const std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/wattle-studio.toml");
      const auto opened =
          belay::read_job(job + '\n' + text, "job.toml", [&](std::string_view) { return std::optional(demo); });
      INFO(belay::render(opened.problems, false));
      REQUIRE(opened.house.has_value());
      CHECK(opened.house->bracing.least.has_value());
    } else if (text.starts_with("[mark]")) {
      // A mark more, and another front wall.
      ++perforated;
      std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/juniper-cabin.toml");
      const auto wall = text.find("[wall]\n");
      REQUIRE(wall != std::string::npos);
      job.insert(job.find("[mark]\n") + 7, text.substr(7, wall - 7));
      const auto front = job.find("\nA = ");
      job.replace(front + 1, job.find('\n', front + 1) - front, text.substr(wall + 7) + '\n');
      const auto opened = belay::read_job(job, "job.toml", [&](std::string_view) {
        return std::optional(read_file(fs::path(BELAY_SOURCE_DIR) / "tables/fixings/demo-timber-us.toml"));
      });
      INFO(belay::render(opened.problems, false));
      REQUIRE(opened.house.has_value());
      CHECK(opened.house->walls.front().pieces.size() == 5);
    } else if (text.find("[[row]]") != std::string::npos) {
      ++class_tables;
      const std::string site =
          "[site]\nmethod = \"AS 4055\"\nregion = \"A2\"\nterrain = 2.5\nshielding = \"PS\"\n"
          "topography = \"T1\"\nclass_table = \"ours.toml\"\ngiven_by = \"invented\"\n";
      const auto opened = belay::read_job(sited(site, "wattle-studio.toml"), "job.toml", [&](std::string_view name) {
        return std::optional(name == "ours.toml" ? text : demo);
      });
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
      cut("end_studs =");
      for (auto at = job.find("X1 2400"); at != std::string::npos; at = job.find("X1 2400")) job.replace(at, 2, "B");
      const auto opened = belay::read_job(job, "job.toml", [&](std::string_view) { return std::optional(text); });
      INFO(belay::render(opened.problems, false));
      CHECK(opened.house.has_value());
    }
  }
  CHECK(jobs >= 1);
  CHECK(fixings >= 1);
  CHECK(anchors >= 1);
  CHECK(bracings >= 1);
  CHECK(perforated >= 1);
  CHECK(sites >= 7);
  CHECK(class_tables >= 1);
  CHECK(trusses >= 1);
  CHECK(floors >= 1);
  CHECK(blocks == 1);
  CHECK(roof_braces >= 1);
  CHECK(verandas >= 1);
  CHECK(as_built == 1);
  CHECK(slabs == 1);
  CHECK(grounds == 1);
}

TEST_CASE("README's drawn braces hold what is written under them, and its drawn hold-down has the pull of its house") {
  const std::string readme = read_file(BELAY_SOURCE_DIR "/README.md");
  const std::string job = std::string(BELAY_JOBS) + "/saltbush-cottage.toml";
  const auto holds = [&](const std::string& height) {
    const belay::Opened o = belay::open_job(
        job, {},
        {"mark.X = { brace = \"demo-strap-pair\", hold_down = \"demo-rod-16\" }",
         "mark.S = { brace = \"demo-strap-single\", hold_down = \"demo-rod-16\", foot = \"left\" }",
         "mark.P = { brace = \"demo-portal-900\", hold_down = \"demo-rod-16\" }",
         "mark.L = { brace = \"demo-board-10\" }", "wall.C = \"X 2400 | S 2400 | B 1200 | P 900 | L 2400 | 2700\"",
         "block.main.height = " + height});
    REQUIRE(o.house);
    std::vector<belay::BraceCapacity> r;
    for (const belay::Wall& w : o.house->walls) {
      if (w.name != "C") continue;
      for (const belay::Piece& piece : w.pieces)
        if (piece.brace)
          r.push_back(brace_capacity(*o.house, w, piece, belay::table("practice/common.toml"), false, nullptr));
    }
    REQUIRE(r.size() == 5);
    return r;
  };
  const auto drawn = [&](belay::Force f, const std::string& before, const std::string& after) {
    const std::string line = before + fmt::format("{:.2f}", f.value() / 1000.0) + after;
    INFO(line);
    CHECK(readme.find(line) != std::string::npos);
  };
  const auto at_2700 = holds("2700"), at_3000 = holds("3000");
  drawn(at_2700[0].plus, "\n ", " kN each way; nothing under");
  CHECK(at_2700[0].minus == at_2700[0].plus);
  drawn(at_2700[1].plus, "the same ", " kN when the top is");
  CHECK(at_2700[1].plus == at_2700[0].plus);
  CHECK(at_2700[1].minus == belay::zero<belay::Force>());
  CHECK(at_2700[2].plus.value() == Approx(7200.0));
  drawn(at_3000[2].plus, "2700/3000: ", " kN");
  CHECK(at_2700[3].plus.value() == Approx(9000.0));
  drawn(at_2700[4].plus, "0.45 kN/m x 2.4 m = ", " kN; never");

  // The hold-down: figures of its working, and where README writes them
  const auto page = belay::test::run_command(std::string(BELAY_PROGRAM) + " explain " + job + " \"C1 left\"").out;
  for (const auto& [worked, written] : std::vector<std::pair<std::string, std::string>>{
           {"V_C1 * h_w / z_C1\n         = 7.271 kN * 2.700 m / 1.655 m\n         = 11.861 kN",
            "7.271 x 2.7 / 1.655             = 11.861 kN"},
           {"0.8 * 1.215 kN * (1.800 m / 2 - 0.025 m) / 1.655 m\n         = 0.514 kN",
            "0.8 x 1.215 x (0.9 - 0.025) / z = -0.514 kN"},
           {"5.613 kN  roof along the plate", "5.613 kN\n"},
           {"pull    16.960 kN", "pull on the rod                                 16.960 kN"}}) {
    INFO(written);
    CHECK(page.find(worked) != std::string::npos);
    CHECK(readme.find(written) != std::string::npos);
  }
}

TEST_CASE("the roofs that README shows are read without a problem") {
  const std::string demo = read_file(fs::path(BELAY_SOURCE_DIR) / "tables/fixings/demo-light-steel.toml");
  bool inside = false;
  std::size_t roofs = 0;
  std::string last;  // the last roof that stands in full
  for (const std::string& line : lines_of(read_file(fs::path(BELAY_SOURCE_DIR) / "README.md"))) {
    inside = (inside || line.starts_with("| `roof = { ")) && line.starts_with("|");
    if (!inside || line.starts_with("|---") || line.starts_with("| `roof = { ")) continue;
    const auto open = line.find('`'), close = line.find('`', open + 1);
    REQUIRE(close != std::string::npos);
    const std::string said = line.substr(open + 1, close - open - 1);
    const bool full = said.starts_with("shape = ");
    if (full) last = said;
    const std::string roof = (full ? said : last + ", " + said) + ", weight = \"0.40 kPa\"";
    std::string job = read_file(fs::path(BELAY_SOURCE_DIR) / "jobs/banksia-rise.toml");
    const auto at = job.find("roof    = {");
    REQUIRE(at != std::string::npos);
    job.replace(at, job.find('\n', at) - at, "roof = { " + roof + " }");
    if (!roof.starts_with("shape = \"hip\"")) {
      const auto from = job.find("trusses = ["), to = job.find("\n]\n", from) + 3;
      job.replace(from, to - from, "trusses = { mark = \"T1\", max = 900 }\n");
      const auto braces = job.find("roof_braces = [");  // in slopes that such a roof has not
      REQUIRE(braces != std::string::npos);
      job.erase(braces, job.find("\n]\n", braces) + 3 - braces);
      for (const std::string key : {"truss  =", "onto   ="}) {
        const auto there = job.find(key);
        REQUIRE(there != std::string::npos);
        job.erase(there, job.find('\n', there) - there);
      }
    }
    const auto opened = belay::read_job(job, "job.toml", [&](std::string_view) { return std::optional(demo); });
    INFO(roof << '\n' << belay::render(opened.problems, false));
    CHECK(opened.house.has_value());
    ++roofs;
  }
  CHECK(roofs >= 7);
}

namespace {

// The words between back quotes of a row of a Markdown table, cell by cell.
std::vector<std::vector<std::string>> quoted_cells(const std::string& row) {
  std::vector<std::vector<std::string>> cells(1);
  std::size_t open = std::string::npos;
  for (std::size_t i = 1; i < row.size(); ++i) {
    if (row[i] == '`' && open != std::string::npos) {
      cells.back().push_back(row.substr(open + 1, i - open - 1));
      open = std::string::npos;
    } else if (row[i] == '`') {
      open = i;
    } else if (row[i] == '|' && open == std::string::npos) {
      cells.emplace_back();
    }
  }
  return cells;
}
// "[block.NAME]", "[[sheet]]": block, sheet.
std::string table_name(const std::string& header) {
  const std::size_t from = header.find_first_not_of('[');
  return header.substr(from, header.find_first_of(".]", from) - from);
}
// The tables of README that follow a row with these words, each with its keys. Words in double quotes are values, those
// with a blank are commands.
std::map<std::string, std::set<std::string>> key_table(const std::string& head, std::set<std::string>& in_every) {
  std::map<std::string, std::set<std::string>> tables;
  bool inside = false;
  for (const std::string& line : lines_of(read_file(fs::path(BELAY_SOURCE_DIR) / "README.md"))) {
    if (line.starts_with(head)) {
      inside = true;
      const auto cells = quoted_cells(line);
      in_every.insert(cells.at(1).begin(), cells.at(1).end());
    } else if (inside && !line.starts_with('|')) {
      break;
    } else if (inside && !line.starts_with("|--")) {
      const auto cells = quoted_cells(line);
      REQUIRE(cells.at(0).size() == 1);
      std::set<std::string>& keys = tables[table_name(cells[0][0])];
      for (const std::string& word : cells.at(1)) {
        if (word.starts_with('"') || word.find(' ') != std::string::npos) continue;
        if (!word.starts_with('[')) keys.insert(word);  // else a table of its own, "[site.as-4055]": its name
      }
    }
  }
  return tables;
}
// Every key that may be written in these rows and in the tables inside them. What cannot be worked out yet is refused
// with a message of its own and stands in no list.
void add_keys(std::span<const belay::Field> rows, std::set<std::string>& keys) {
  for (const belay::Field& f : rows) {
    if (f.takes == "nothing yet") continue;
    keys.emplace(f.key);
    if (f.inside != nullptr) add_keys(f.inside(), keys);
  }
}
void compare(std::span<const belay::Field> rows, const std::map<std::string, std::set<std::string>>& said,
             const std::set<std::string>& in_every, const std::string& left_out) {
  std::set<std::string> tables;
  for (const belay::Field& f : rows) {
    if (f.takes == "nothing yet" || f.key == left_out) continue;
    tables.emplace(f.key);
    INFO("[" << f.key << "]");
    REQUIRE(said.contains(std::string(f.key)));
    std::set<std::string> keys, expected = said.at(std::string(f.key));
    expected.insert(in_every.begin(), in_every.end());
    if (f.inside != nullptr) add_keys(f.inside(), keys);
    CHECK(expected == keys);
  }
  for (const auto& [table, keys] : said) {
    INFO("[" << table << "] of README");
    CHECK(tables.contains(table));
  }
}

}  // namespace

TEST_CASE("README's table of a job's keys lists the keys of every table, no more and no fewer") {
  std::set<std::string> in_every;
  auto said = key_table("| where | keys |", in_every);
  CHECK(in_every.empty());
  CHECK(said.at("unless_noted").erase("rest") == 1);  // a name that stands for marks, not a key with a row
  said.at("site").erase("importance");                // what `risk` is compared with
  compare(belay::job_rows(), said, in_every, "");
}

TEST_CASE("README's table of a fixings file's keys lists the keys of every table, no more and no fewer") {
  std::set<std::string> in_every;
  const auto said = key_table("| table | keys beside", in_every);
  CHECK(in_every.contains("name"));
  compare(belay::fixings_rows(), said, in_every, "fixings");
  // The head of the file is told in a sentence.
  const std::string text = read_file(fs::path(BELAY_SOURCE_DIR) / "README.md");
  const std::size_t at = text.find("`[fixings]` says ");
  REQUIRE(at != std::string::npos);
  const std::string sentence = text.substr(at, text.find(". ", at) - at);
  for (const belay::Field& f : belay::fixings_rows()) {
    if (f.key != "fixings") continue;
    for (const belay::Field& inner : f.inside()) CHECK(sentence.find(std::string(inner.key)) != std::string::npos);
  }
}
