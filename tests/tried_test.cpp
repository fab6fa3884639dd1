// A change tried without touching the file: it is what the file would be with that written in it.
#include "files/tried.hpp"
#include "belay/check.hpp"
#include "houses.hpp"
#include "report/tried_page.hpp"
#include "said.hpp"
#include "text_files.hpp"
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;

namespace {

std::string changed(const std::string& job, const std::string& change) {
  const Changed c = with_change(job, "job.toml", change);
  if (!c.problems.empty()) throw std::runtime_error(render(c.problems, false));
  return c.text;
}
std::string code_of(const std::string& job, const std::string& change) {
  const Changed c = with_change(job, "job.toml", change);
  CHECK(c.text == job);  // nothing is half-changed
  return c.problems.empty() ? "" : c.problems.front().code;
}
const std::string job =
    "# a job\n"
    "[job]\n"
    "title = \"Hütte\"   # name\n"
    "\n"
    "[block.main]\n"
    "size = [12000, 7800]\n"
    "roof = { shape = \"gable\", pitch = \"22.5 deg\" }  # tiles\n"
    "trusses = [ { mark = \"T1\", max = 900 }, { mark = \"T2\", max = 600 } ]\n"
    "\n"
    "[unless_noted]\n"
    "anchor = { use = \"demo-bolt\", max = 1200 }\n"
    "B.hold_down = \"demo-rod\"\n"
    "\n"
    "[wall]\n"
    "A = \"\"\"B 1200 |\n 2400\"\"\"\n"
    "\"B 2\" = '600'";

}  // namespace

TEST_CASE("tried: what stands there is replaced in its place, and nothing else") {
  const auto with = [](std::string_view from, std::string_view to) {
    std::string s = job;
    return s.replace(s.find(from), from.size(), to);
  };
  CHECK(changed(job, "job.title = 'Hut'") == with("\"Hütte\"", "'Hut'"));
  CHECK(changed(job, "block.main.size = [9000, 6000]") == with("[12000, 7800]", "[9000, 6000]"));
  CHECK(changed(job, "block.main.size[1] = 6000") == with("7800", "6000"));
  CHECK(changed(job, " block.main.roof.pitch  =  \"30 deg\" ") == with("\"22.5 deg\"", "\"30 deg\""));
  CHECK(changed(job, "block.main.trusses[1].max = 450") == with("max = 600", "max = 450"));
  CHECK(changed(job, "unless_noted.anchor.max = 600") == with("1200 }", "600 }"));
  CHECK(changed(job, "unless_noted.anchor = { use = \"x\", max = 1 }") ==
        with("{ use = \"demo-bolt\", max = 1200 }", "{ use = \"x\", max = 1 }"));
  CHECK(changed(job, "unless_noted.B.hold_down = \"demo-stout\"") == with("\"demo-rod\"", "\"demo-stout\""));
  CHECK(changed(job, "wall.A = \"B 3600\"") == with("\"\"\"B 1200 |\n 2400\"\"\"", "\"B 3600\""));
  CHECK(changed(job, "wall.\"B 2\" = \"B 600\"") == with("'600'", "\"B 600\""));
  const Changed c = with_change(job, "job.toml", "unless_noted.anchor.max = 600");
  REQUIRE(c.tried);
  CHECK(c.tried->key == "unless_noted.anchor.max");
  CHECK(c.tried->before == "1200");
  CHECK(c.tried->line == 11);
}

TEST_CASE("tried: a new key goes into its table, a new table to the end") {
  CHECK_THAT(changed(job, "block.main.ceiling = \"rigid\""), Contains("[block.main]\nceiling = \"rigid\"\nsize"));
  CHECK_THAT(changed(job, "block.main.roof.eaves = 450"),
             Contains("{ shape = \"gable\", pitch = \"22.5 deg\" , eaves = 450 }  # tiles"));
  CHECK_THAT(changed(job, "block.main.trusses[0].plies = 2"), Contains("{ mark = \"T1\", max = 900 , plies = 2 }"));
  CHECK_THAT(changed(job, "slab.thickness = 150"), Catch::Matchers::EndsWith("\n[slab]\nthickness = 150\n"));
  // [block] stands nowhere by itself: not into the first of those inside it
  CHECK_THAT(changed(job, "block.garage.height = 2700"),
             Catch::Matchers::EndsWith("\n[block.garage]\nheight = 2700\n"));
  const std::string listed = job + "\n\n[[as_built]]\nwall = \"A\"\n[[as_built]]\nwall = \"C\"\n";
  CHECK_THAT(changed(listed, "as_built[1].planned = 100"),
             Contains("[[as_built]]\nplanned = 100\nwall = \"C\"") && Contains("[[as_built]]\nwall = \"A\""));
  CHECK_THAT(changed(job, "wall.C = \"B 900\""), Contains("[wall]\nC = \"B 900\"\nA = "));
  const Changed c = with_change(job, "job.toml", "slab.thickness = 150");
  REQUIRE(c.tried);
  CHECK(c.tried->before.empty());
  CHECK(c.tried->line == 0);
}

TEST_CASE("tried: what cannot be put in is refused, and nothing is changed") {
  CHECK(code_of(job, "unless_noted.anchor.max") == "no-value");
  CHECK(code_of(job, "= 3") == "bad-key");
  CHECK(code_of(job, "wall..A = 3") == "bad-key");
  CHECK(code_of(job, "wall.A] = 3") == "bad-key");
  CHECK(code_of(job, "block.main = 3") == "a-section");
  CHECK(code_of(job, "block.main.size[7] = 3") == "no-such-place");
  CHECK(code_of(job, "job.title.more = 3") == "no-such-place");
  CHECK(code_of(job, "job.title = \"Hut\nx = 3\"") == "bad-value");
  CHECK(code_of(job, "job.title = Hut") == "unquoted-text");
  CHECK(code_of(job, "job.title = \"Hut") == "text-not-closed");
  CHECK(code_of(job, "job.title =") == "no-value");
}

TEST_CASE("tried: the answer is that of the file with the change written in it") {
  const std::string path = std::string(BELAY_JOBS) + "/saltbush-cottage.toml";
  const std::string text = read_file(path);
  const Folder folder;
  struct Case {
    std::string change, from, to;
  };
  for (const Case& c : {Case{"unless_noted.anchor.max = 600", "max = 1200", "max = 600"},
                        Case{"wall.A = \"B 1200 | D1 | B 3600 | D1 | B 1200\"", "\"B 1200 | D1 | 3600 | D1 | B 1200\"",
                             "\"B 1200 | D1 | B 3600 | D1 | B 1200\""},
                        Case{"slab.thickness = 200", "thickness = 100", "thickness = 200"}}) {
    INFO(c.change);
    std::string by_hand = text;
    REQUIRE(by_hand.find(c.from) != std::string::npos);
    by_hand.replace(by_hand.find(c.from), c.from.size(), c.to);
    const std::string other = folder.write("job.toml", by_hand);
    const Opened tried = open_job(path, {}, {c.change}), written = open_job(other);
    REQUIRE(tried.house);
    REQUIRE(written.house);
    CHECK(tried.house->sha256 == written.house->sha256);
    CHECK(tried.house->tried.size() == 1);
    CHECK(written.house->tried.empty());
    const Table &m = table(table_for(tried.house->site)), &p = table("practice/common.toml");
    const Result a = check(*tried.house, m, p), b = check(*written.house, m, p),
                 now = check(*open_job(path).house, m, p);
    REQUIRE(a.links.size() == b.links.size());
    for (std::size_t i = 0; i < a.links.size(); ++i) {
      CHECK(a.links[i].verdict == b.links[i].verdict);
      CHECK(a.links[i].use.has_value() == b.links[i].use.has_value());
      if (a.links[i].use) CHECK(a.links[i].use->value == b.links[i].use->value);
    }
    const std::string page = tried_page(now, a, {});
    CHECK_THAT(page, Contains("Tried, not in the file: "));
    CHECK_THAT(page, Contains(fmt::format("{} pass, {} fail", a.counts.pass, a.counts.fail)));
    CHECK_THAT(page, Contains(fmt::format("{} pass, {} fail", now.counts.pass, now.counts.fail)));
    CHECK_THAT(page, Catch::Matchers::EndsWith("engineer come before this page.\n"));
  }
  CHECK(read_file(path) == text);
  // Two changes that mend each other, and one that the job cannot have
  CHECK(open_job(path, {}, {"slab.thickness = 200", "slab.thickness = 100"}).house);
  const Opened bad = open_job(path, {}, {"slab.thickness = \"2 kN\""});
  REQUIRE(!bad.house);
  CHECK(bad.problems.front().line == 33);
}

TEST_CASE("tried: a link that holds by what is tried, one that fails by it, and one that has gone") {
  const auto with_hold_down = [](const char* rod) {
    Draft d = closed_box("9 m");
    d.wall("A", "\"B 1.2 m | 6.6 m | B 1.2 m\"");
    d.mark("B", fmt::format("{{ brace = \"demo-sheet\", hold_down = \"{}\" }}", rod));
    d.fixing(
        "[[anchor]]\nname = \"demo-thin\"\nhow = \"cast in\"\npull = \"8 kN\"\nslide = \"60 kN\"\ntogether = "
        "\"straight "
        "sum\"\nleast_edge = \"10 mm\"\nleast_spacing = \"10 mm\"\nconcrete = \"20 MPa\"\ncracked = true\nbasis = "
        "\"design\"\ncyclic = \"tested\"\n");
    return Built(d).result;
  };
  const Result thin = with_hold_down("demo-thin"), rod = with_hold_down("demo-rod");
  const std::string mends = tried_page(thin, rod, {}), breaks = tried_page(rod, thin, {});
  CHECK_THAT(mends, Contains("Now hold:\n  hold-down  A1 right, at 1100"));
  CHECK_THAT(mends, !Contains("Now fail:"));
  CHECK_THAT(breaks, Contains("Now fail:\n  hold-down  A1 right, at 1100"));
  CHECK_THAT(breaks, Contains("Why: demo-thin is too weak in pull"));
  CHECK_THAT(tried_page(rod, rod, {}), Contains("Nothing changes."));
  Result less = rod;
  less.links.pop_back();
  CHECK_THAT(tried_page(rod, less, {}), Contains("1 is there no more"));
}
