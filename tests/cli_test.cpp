// The program as a user runs it: what goes to standard output, what to standard error, and the exit codes.
#include "cli/address.hpp"
#include "hand_made.hpp"
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <unistd.h>

using namespace belay;
using belay::test::Folder;
using belay::test::read_file;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
namespace fs = std::filesystem;
namespace hm = belay::hand_made;

namespace {
struct Ran {
  int code;
  std::string out, err;
};
std::string quoted(const std::string& s) {
  std::string q = "'";
  for (const char c : s) q += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return q + "'";
}
// Runs it in `folder` (a page says its commands with the name as typed, so width is tested with short ones); `before`:
// what a shell sets or does first; `after`: redirections.
Ran run_belay(const std::vector<std::string>& arguments, const std::string& before = "", const std::string& after = "",
              const fs::path& folder = BELAY_JOBS) {
  const Folder notes;
  const std::string err = (notes.path() / "err").string();
  std::string command = fmt::format("cd {} && {} {}", quoted(folder.string()), before, quoted(BELAY_PROGRAM));
  for (const std::string& a : arguments) command += ' ' + quoted(a);
  command += fmt::format(" {} 2>{} </dev/null", after, quoted(err));
  const auto [code, out] = belay::test::run_command(command);
  return {code, out, read_file(err)};
}
std::string job(const std::string& name) { return std::string(BELAY_JOBS) + "/" + name; }
}  // namespace

TEST_CASE("the demos answer as they should") {
  const Ran failing = run_belay({"check", job("saltbush-cottage.toml")});
  CHECK(failing.code == 1);
  CHECK_THAT(failing.out, Contains("\nFAIL   "));
  CHECK(failing.err.empty());
  const Ran passing = run_belay({"check", job("wattle-studio.toml")});
  CHECK(passing.code == 0);
  CHECK_THAT(passing.out, Contains("\nPASS   all "));
  CHECK(passing.err.empty());
  const Ran in_feet = run_belay({"check", job("juniper-cabin.toml")});
  CHECK(in_feet.code == 1);
  CHECK_THAT(in_feet.out, Contains(" ft ") && Contains("Forces to the nearest whole lb"));
}

TEST_CASE("the first screen of every demo holds within 30 lines of 80 columns") {
  std::size_t jobs = 0;
  for (const auto& e : fs::directory_iterator(BELAY_JOBS)) {
    if (e.path().extension() != ".toml") continue;
    const std::string text = read_file(e.path().string());
    if (text.find("[job]") == std::string::npos) continue;
    ++jobs;
    const Ran r = run_belay({"check", e.path().filename().string()});  // a long path would stand in the next command
    const auto lines = hm::lines_of(r.out);
    INFO(r.out << r.err);
    CHECK(lines.size() <= 30);
    for (const std::string& l : lines) CHECK(l.size() <= 80);
    CHECK(lines.back() == "Local code and a licensed engineer come before this page.");
  }
  CHECK(jobs >= 3);
}

TEST_CASE("the job of the folder is taken when none is named") {
  const Folder f;
  f.write("job.toml", read_file(job("wattle-studio.toml")));
  CHECK(run_belay({"check"}, "", "", f.path()).code == 0);
  CHECK(run_belay({"show"}, "", "", f.path()).code == 0);
  const Folder empty;
  const Ran r = run_belay({"check"}, "", "", empty.path());
  CHECK(r.code == 2);
  CHECK(r.out.empty());
  CHECK_THAT(r.err, Contains("no job was named, and this folder has no job.toml"));
}

TEST_CASE("a bad job is told on standard error with its place and gives 2") {
  const Folder f;
  std::string text = read_file(job("saltbush-cottage.toml"));
  text.replace(text.find("floor_level"), 11, "flor_level");
  const Ran r = run_belay({"check", f.write("bad.toml", text)});
  CHECK(r.code == 2);
  CHECK(r.out.empty());
  CHECK_THAT(r.err, Contains("bad.toml:") && Contains("flor_level") && Contains("floor_level"));
  for (const std::string& name : {std::string("none.toml"), std::string("."), f.write("empty.toml", "")}) {
    INFO(name);
    const Ran bad = run_belay({"check", name});
    CHECK(bad.code == 2);
    CHECK(bad.out.empty());
    CHECK_FALSE(bad.err.empty());
  }
}

TEST_CASE("a bad job does not stop the others, and the highest exit code counts") {
  const Ran r = run_belay({"check", job("wattle-studio.toml"), "none.toml", job("saltbush-cottage.toml")});
  CHECK(r.code == 2);
  CHECK_THAT(r.out, Contains("\nPASS   all ") && Contains("\nFAIL   "));
  CHECK(r.out.find("wattle-studio.toml:") < r.out.find("saltbush-cottage.toml:"));
  CHECK_THAT(r.err, Contains("none.toml"));
  CHECK(run_belay({"check", job("wattle-studio.toml"), job("saltbush-cottage.toml")}).code == 1);
}

TEST_CASE("JSON is one object for one job and one object a line for several") {
  const Ran one = run_belay({"check", "--format", "json", job("saltbush-cottage.toml")});
  CHECK(one.code == 1);
  CHECK_THAT(one.out, StartsWith("{\n"));
  const Ran two =
      run_belay({"check", "--format=json", job("saltbush-cottage.toml"), "none.toml", job("wattle-studio.toml")});
  CHECK(two.code == 2);
  const auto lines = hm::lines_of(two.out);
  REQUIRE(lines.size() == 2);
  for (const std::string& l : lines) CHECK_THAT(l, StartsWith("{\"format\":\"belay-result/1\""));
  CHECK_THAT(lines[1], Contains("\"verdict\":\"PASS\""));
}

TEST_CASE("--all lists every link, show says the house back, the same bytes every time") {
  const Ran all = run_belay({"check", "--all", "saltbush-cottage.toml"});
  CHECK(all.code == 1);
  CHECK_THAT(all.out, Contains("Wall A, the front") && Contains("A2 left, at 10920"));
  CHECK(all.out == run_belay({"check", "saltbush-cottage.toml", "--all"}).out);
  const Ran show = run_belay({"show", "saltbush-cottage.toml"});
  CHECK(show.code == 0);
  CHECK(show.err.empty());
  CHECK_THAT(show.out, Contains("10800 to 12000   brace A2") && Contains("10920  hold-down  demo-rod-16"));
  for (const std::string& page : {all.out, show.out})
    for (const std::string& l : hm::lines_of(page)) CHECK(l.size() <= 80);
}

TEST_CASE("explain takes spoken addresses, as one word or many, in any case and order") {
  const Ran r = run_belay({"explain", job("saltbush-cottage.toml"), "A2 left"});
  CHECK(r.code == 0);
  CHECK(r.err.empty());
  CHECK_THAT(r.out, StartsWith("Why the hold-down A2 left, at 10920 "));
  for (const std::string& l : hm::lines_of(r.out)) CHECK(l.size() <= 80);
  for (const std::vector<std::string>& words : {std::vector<std::string>{"A2/left"},
                                                {"left", "a2"},
                                                {"A", "brace", "2", "left"},
                                                {"hold-down", "A2", "left"},
                                                {"A2", "left", "at", "10920"}}) {
    std::vector<std::string> arguments{"explain", job("saltbush-cottage.toml")};
    arguments.insert(arguments.end(), words.begin(), words.end());
    INFO(fmt::format("{}", fmt::join(words, " ")));
    CHECK(run_belay(arguments).out == r.out);
  }
  CHECK_THAT(run_belay({"explain", job("saltbush-cottage.toml"), "T1 at 3600 front"}).out,
             StartsWith("Why the truss bracket T1 at 3600 front "));
}

TEST_CASE("--if tries a change, tells what it changes and leaves the file alone") {
  const std::string path = job("saltbush-cottage.toml"), before = read_file(path);
  const std::vector<std::string> change{"--if", "wall.A = \"B 1200 | D1 | B 3600 | D1 | B 1200\""};
  const auto with = [&](std::vector<std::string> words) {
    words.insert(words.end(), change.begin(), change.end());
    return run_belay(words);
  };
  const Ran page = with({"check", "saltbush-cottage.toml"});
  CHECK(page.code == 1);
  CHECK(page.err.empty());
  CHECK_THAT(page.out,
             Contains("Tried, not in the file: wall.A") && Contains("As it is   FAIL") && Contains("With that  FAIL"));
  CHECK_THAT(with({"check", "--all", "saltbush-cottage.toml"}).out, Contains("Tried, not in the file: wall.A"));
  CHECK_THAT(with({"check", "--format", "json", "saltbush-cottage.toml"}).out,
             Contains("\"key\":") && Contains("wall.A"));
  CHECK_THAT(with({"explain", "saltbush-cottage.toml", "A3 left"}).out, Contains("Tried, not in the file: wall.A"));
  const Ran wrong = run_belay({"check", "saltbush-cottage.toml", "--if", "slab.thikness = 3"});
  CHECK(wrong.code == 2);
  CHECK(wrong.out.empty());
  CHECK_THAT(wrong.err, Contains("thikness") && Contains("thickness"));
  CHECK(with({"check", "--method", "all", "saltbush-cottage.toml"}).code == 2);
  CHECK(read_file(path) == before);
}

TEST_CASE("an address that is unknown or not clear is told with what may be meant") {
  const Ran unknown = run_belay({"explain", job("saltbush-cottage.toml"), "A9 left"});
  CHECK(unknown.code == 2);
  CHECK(unknown.out.empty());
  CHECK_THAT(unknown.err,
             Contains("no link of this house is called `A9 left`. The nearest:") && Contains("\"A1 left hold-down\""));
  const Ran several = run_belay({"explain", job("saltbush-cottage.toml"), "T1 at 3600"});
  CHECK(several.code == 2);
  CHECK(several.out.empty());
  CHECK_THAT(several.err, Contains("say which:") && Contains("T1 at 3600 front") && Contains("T1 at 3600 back") &&
                              Contains("3600 mm"));
  const Ran nothing = run_belay({"explain", job("saltbush-cottage.toml")});
  CHECK(nothing.code == 2);
  CHECK_THAT(nothing.err, Contains("say which link"));
}

TEST_CASE("explain can speak of every link of the demo") {
  const Ran json = run_belay({"check", "--format", "json", job("wattle-studio.toml"), job("wattle-studio.toml")});
  const std::string line = hm::lines_of(json.out).front();
  std::size_t asked = 0;
  // Every seventh link, so that each kind is met and the suite stays short.
  std::size_t n = 0;
  for (std::size_t at = line.find("\"words\":\""); at != std::string::npos; at = line.find("\"words\":\"", at + 1)) {
    const std::string words = line.substr(at + 9, line.find('"', at + 9) - at - 9);
    if (line.substr(at + 9 + words.size(), 9) != "\",\"also\":") continue;  // those of `why`
    if (n++ % 7 != 0) continue;
    const Ran r = run_belay({"explain", job("wattle-studio.toml"), words});
    INFO(words << r.err);
    CHECK(r.code == 0);
    CHECK_THAT(r.out, StartsWith("Why the ") && Contains("Local code and a licensed engineer"));
    ++asked;
  }
  CHECK(asked > 10);
}

TEST_CASE("what is typed wrong is told, never guessed and run") {
  const Ran command = run_belay({"chek", "job.toml"});
  CHECK(command.code == 2);
  CHECK(command.out.empty());
  CHECK_THAT(command.err, Contains("`chek` is not a command; there are `check`, `show`, `explain` or `site`."));
  CHECK_THAT(command.err, Contains("Did you mean `belay check`?"));
  const Ran option = run_belay({"check", job("saltbush-cottage.toml"), "--al"});
  CHECK(option.code == 2);
  CHECK(option.out.empty());
  CHECK_THAT(option.err, Contains("`--al` is not an option of `belay check`. Did you mean `--all`?"));
  const Ran value = run_belay({"check", "--format", "xml", job("saltbush-cottage.toml")});
  CHECK(value.code == 2);
  CHECK(value.out.empty());
  CHECK_THAT(value.err, Contains("`--format xml`") && Contains("`text`") && Contains("`json`"));
  CHECK(run_belay({"check", "--color", "red", job("saltbush-cottage.toml")}).code == 2);
  CHECK_THAT(run_belay({"house.toml"}).err, Contains("Did you mean `belay check house.toml`?"));
  CHECK(run_belay({"check", "--format"}).code == 2);
}

TEST_CASE("help leads with examples; without a command it goes to standard error and gives 2") {
  const Ran help = run_belay({"--help"});
  CHECK(help.code == 0);
  CHECK(help.err.empty());
  CHECK(help.out.find("belay check house.toml") < help.out.find("Options:"));
  CHECK(run_belay({"help"}).out == help.out);
  const Ran own = run_belay({"explain", "--help"});
  CHECK(own.code == 0);
  CHECK_THAT(own.out, Contains("belay explain house.toml \"A2 left\""));
  CHECK(run_belay({"help", "explain"}).out == own.out);
  const Ran bare = run_belay({});
  CHECK(bare.code == 2);
  CHECK(bare.out.empty());
  CHECK(bare.err == help.out);
  for (const std::vector<std::string>& words : {std::vector<std::string>{"--help"},
                                                {"check", "--help"},
                                                {"show", "--help"},
                                                {"explain", "--help"},
                                                {"site", "--help"}})
    for (const std::string& l : hm::lines_of(run_belay(words).out)) {
      INFO(l);
      CHECK(l.size() <= 80);
    }
  const Ran version = run_belay({"--version"});
  CHECK(version.code == 0);
  CHECK_THAT(version.out, StartsWith("belay "));
}

TEST_CASE("colour: never where it is not wanted, and only bold and red where it is") {
  const std::vector<std::string> plain{"check", job("saltbush-cottage.toml")};
  CHECK(run_belay(plain).out.find('\x1b') == std::string::npos);  // a pipe
  const Ran always = run_belay({"check", "--color=always", job("saltbush-cottage.toml")}, "NO_COLOR=1");
  CHECK_THAT(always.out, Contains("\x1b[1;31mFAIL\x1b[0m"));  // the option is stronger than NO_COLOR
  CHECK(run_belay({"check", "--color", "never", job("saltbush-cottage.toml")}).out == run_belay(plain).out);
  CHECK(run_belay({"--color", "always", "check", job("saltbush-cottage.toml")}).out == always.out);
}

TEST_CASE("at a terminal NO_COLOR and TERM=dumb are kept to") {
  if (std::system("command -v script >/dev/null 2>&1") != 0) {
    WARN("no `script` on this machine: a terminal cannot be imitated");
    return;
  }
  const auto at_terminal = [&](const std::string& settings) {
    const std::string inner =
        fmt::format("{} {} check {}", settings, quoted(BELAY_PROGRAM), quoted(job("saltbush-cottage.toml")));
    return belay::test::run_command(fmt::format("script -qec {} /dev/null </dev/null", quoted(inner))).out;
  };
  const std::string seen = at_terminal("env -u NO_COLOR TERM=xterm");
  CHECK_THAT(seen, Contains("\x1b[1;31mFAIL"));
  CHECK_THAT(at_terminal("env NO_COLOR= TERM=xterm"), Contains("\x1b[1;31mFAIL"));  // empty does not count
  CHECK(at_terminal("env NO_COLOR=1 TERM=xterm").find('\x1b') == std::string::npos);
  CHECK(at_terminal("env -u NO_COLOR TERM=dumb").find('\x1b') == std::string::npos);
}

TEST_CASE("a result that cannot be written is told and gives 2") {
  for (const std::vector<std::string>& arguments : {std::vector<std::string>{"check", job("wattle-studio.toml")},
                                                    {"check", "--all", job("wattle-studio.toml")},
                                                    {"show", job("wattle-studio.toml")},
                                                    {"site", job("wattle-studio.toml")},
                                                    {"--help"},
                                                    {"--version"}}) {
    const Ran r = run_belay(arguments, "", ">/dev/full");
    INFO(arguments.front());
    CHECK(r.code == 2);
    CHECK_THAT(r.err, Contains("the result could not be written: No space left on device"));
  }
  const Ran closed = run_belay({"check", job("wattle-studio.toml")}, "", ">&-");
  CHECK(closed.code == 2);
  CHECK_THAT(closed.err, Contains("the result could not be written"));
  // A reader that has gone: the code of the program itself, past the pipe.
  const Folder f;
  const std::string note = (f.path() / "code").string();
  run_belay({"check", "--all", job("saltbush-cottage.toml")}, "(",
            fmt::format("2>{}; echo $? >{}) | true", quoted((f.path() / "said").string()), quoted(note)));
  CHECK((read_file(note) == "2\n" || read_file(note) == "1\n"));  // 1 when the pipe took all of it before it closed
  CHECK(read_file((f.path() / "said").string()).empty());         // nobody is there to be told
}

TEST_CASE("an address finds its link among links built by hand") {
  const Result r = hm::saltbush();
  CHECK(find_link(r, "a2 LEFT").links == std::vector<std::size_t>{0});
  CHECK(find_link(r, "A/2/left").links.empty());
  CHECK(find_link(r, "left of A2").links == std::vector<std::size_t>{0});
  CHECK(find_link(r, "T1 at 900 front").links == std::vector<std::size_t>{3});
  CHECK(find_link(r, "stud tie T1 900 front").links == std::vector<std::size_t>{4});
  CHECK(find_link(r, "front 900 T1").links == std::vector<std::size_t>{3});
  CHECK(find_link(r, "T1").links.size() == 4);
  // 900 mm is 2 ft 11.43 in.
  Result in_feet = r;
  in_feet.print = Print::us;
  for (Link& l : in_feet.links)
    if (const std::size_t at = l.where.words.find("900 front"); at != std::string::npos)
      l.where.words.replace(at, 3, "2 ft 11.0 in"), l.where.from_start = hm::millimetres(889);
  CHECK(find_link(in_feet, "T1 at 2-11 front").links == std::vector<std::size_t>{3});
  CHECK(find_link(in_feet, "T1 at 2 ft 11 in front").links == std::vector<std::size_t>{3});
  CHECK(find_link(in_feet, "T1 at 2-11.0 front").links == std::vector<std::size_t>{3});
  CHECK(find_link(in_feet, "T1 at 2-10 2/2 front").links.empty());
  CHECK(find_link(r, "").links.empty());
  CHECK(find_link(r, "B7 right").links.empty());
  const Found near = find_link(r, "A2 lft");
  CHECK(near.links.empty());
  REQUIRE_FALSE(near.near.empty());
  CHECK(near.near.front() == 0);
  // The same place under another name.
  Result also = r;
  also.links[0].where.also = {"A jamb D1 right"};
  CHECK(find_link(also, "A jamb D1 right").links == std::vector<std::size_t>{0});
}

// ---- sites and methods

namespace {
// The demo with two sites instead of its own.
std::string two_sites() {
  std::string text = read_file(job("saltbush-cottage.toml"));
  const std::size_t from = text.find("[site]"), to = text.find("[block.main]");
  return text.replace(
      from, to - from,
      "[site.as-4055]\nclass = \"N3\"\ngiven_by = \"invented\"\n\n"
      "[site.asce-7-16]\nspeed = \"115 mph\"\nspeed_is = \"ultimate\"\nexposure = \"B\"\nrisk = \"II\"\n"
      "level = \"allowable\"\ntopography = \"flat\"\ngiven_by = \"invented\"\n\n");
}
}  // namespace

TEST_CASE("site tells the wind of every demo, in text and as JSON") {
  for (const char* name : {"saltbush-cottage.toml", "wattle-studio.toml", "juniper-cabin.toml"}) {
    INFO(name);
    for (const bool all : {false, true}) {
      std::vector<std::string> arguments{"site", name};
      if (all) arguments.emplace_back("--all");
      const Ran r = run_belay(arguments);
      CHECK(r.code == 0);
      CHECK(r.err.empty());
      CHECK_THAT(r.out, Contains("The wind at the house by ") && Contains("\nOn each face\n") &&
                            Contains("\nCombinations of ") && Contains("\nThe wind\n"));
      const auto lines = hm::lines_of(r.out);
      CHECK(lines.back() == "Local code and a licensed engineer come before this page.");
      for (const std::string& l : lines) CHECK(l.size() <= 80);
      CHECK(r.out == run_belay(arguments).out);
    }
    const Ran json = run_belay({"site", "--format", "json", name});
    CHECK(json.code == 0);
    CHECK_THAT(json.out, StartsWith("{\n  \"format\": \"belay-site/1\"") && Contains("\"steps\": ["));
  }
  const Ran several =
      run_belay({"site", "--format=json", job("saltbush-cottage.toml"), "none.toml", job("wattle-studio.toml")});
  CHECK(several.code == 2);
  const auto lines = hm::lines_of(several.out);
  REQUIRE(lines.size() == 2);
  for (const std::string& l : lines) CHECK_THAT(l, StartsWith("{\"format\":\"belay-site/1\""));
}

TEST_CASE("site keeps to what is said of colour, and gives 2 for what cannot be used") {
  CHECK(run_belay({"site", job("saltbush-cottage.toml")}).out.find('\x1b') == std::string::npos);
  CHECK_THAT(run_belay({"site", "--color=always", job("saltbush-cottage.toml")}).out, Contains("\x1b[1m"));
  CHECK(run_belay({"site", job("saltbush-cottage.toml")}, "NO_COLOR=1").out.find('\x1b') == std::string::npos);
  const Ran none = run_belay({"site", "none.toml"});
  CHECK(none.code == 2);
  CHECK(none.out.empty());
  CHECK_FALSE(none.err.empty());
  CHECK(run_belay({"site", "--method"}).code == 2);
}

TEST_CASE("several sites: each in turn, one by its name, all of them side by side") {
  const Folder f;
  const std::string path = f.write("two.toml", two_sites());
  const Ran both = run_belay({"site", path});
  CHECK(both.code == 0);
  CHECK(both.err.empty());
  CHECK_THAT(both.out, Contains("by AS 4055:2021 (as-4055)") && Contains("by ASCE 7-16 (asce-7-16)"));
  const Ran one = run_belay({"site", "--method", "as-4055", path});
  CHECK(one.code == 0);
  CHECK_THAT(one.out, Contains("by AS 4055:2021 (as-4055)") && !Contains("ASCE"));
  const Ran by_class = run_belay({"check", "--method", "as-4055", path});
  CHECK(by_class.code == 1);
  CHECK_THAT(by_class.out, Contains("AS 4055:2021") && Contains("\nFAIL   "));
  CHECK(run_belay({"explain", "--method", "as-4055", path, "A2 left"}).code == 0);
  const Ran all = run_belay({"check", "--method", "all", path});
  CHECK(all.code == 1);
  CHECK(all.err.empty());
  CHECK_THAT(all.out, Contains("What each link has to hold, method by method") && Contains("basis differs"));
  for (const std::string& l : hm::lines_of(all.out)) CHECK(l.size() <= 80);
  const Ran json = run_belay({"check", "--method=all", "--format=json", path});
  CHECK(json.code == 1);
  CHECK_THAT(json.out, StartsWith("{\n  \"format\": \"belay-methods/1\""));
  // Fixings on another basis are refused where one method is asked for, and never judged.
  const Ran other = run_belay({"check", "--method", "asce-7-16", path});
  CHECK(other.code == 2);
  CHECK(other.out.empty());
  const Ran shown = run_belay({"show", "--method", "as-4055", path});
  CHECK(shown.code == 0);
  CHECK_THAT(shown.out, Contains("Site as-4055, by which the house is judged\n") && Contains("Site asce-7-16\n"));
  for (const std::vector<std::string>& arguments :
       {std::vector<std::string>{"explain", "--method", "all", path, "A2 left"}, {"show", "--method", "all", path}}) {
    const Ran r = run_belay(arguments);
    CHECK(r.code == 2);
    CHECK(r.out.empty());
    CHECK_THAT(r.err, Contains("`--method all` is for `belay check` and `belay site`"));
  }
}

TEST_CASE("a method that the job states no site for is told with the names that there are") {
  const Folder f;
  const std::string path = f.write("two.toml", two_sites());
  for (const char* command : {"check", "site"}) {
    const Ran r = run_belay({command, "--method", "asce-7-61", path});
    INFO(command << r.err);
    CHECK(r.code == 2);
    CHECK(r.out.empty());
    CHECK_THAT(r.err, Contains("asce-7-61") && Contains("asce-7-16"));
  }
  CHECK(run_belay({"explain", "--method", "as-4505", path, "A2 left"}).code == 2);
}
