// The first screen and the list of every link: what must stand there, and how much room it may take.
#include "report/screen.hpp"
#include "hand_made.hpp"
#include "pages.hpp"
#include "report/page.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <regex>

using namespace belay;
using belay::test::unwrapped;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
namespace hm = belay::hand_made;

namespace {
const Look no_colour{false};

std::size_t widest(const std::string& page) {
  std::size_t n = 0;
  for (const std::string& l : hm::lines_of(page)) n = std::max(n, columns(l));
  return n;
}
std::size_t line_of(const std::string& page, const std::string& what) {
  const auto lines = hm::lines_of(page);
  return static_cast<std::size_t>(
      std::ranges::find_if(lines, [&](const std::string& l) { return l.find(what) != std::string::npos; }) -
      lines.begin());
}
// A house with very much to say: n links too weak on each of many walls, many kinds of gaps, long words everywhere.
Result crowded(std::size_t n, Print print) {
  Result r = hm::saltbush();
  r.print = print;
  const std::string lots(240, 'w');
  r.title = "A house with a title that goes on and on " + lots;
  r.drawn = "sheets 1 to 99 revision Q as amended by letter, telephone and word of mouth " + lots;
  r.site.given_by = "a person whose name and office fill the whole line and the next one as well, " + lots;
  r.by_others.clear();
  r.not_looked_at.clear();
  r.cautions.clear();
  r.from_memory.clear();
  for (std::size_t i = 0; i < n; ++i) {
    Link l = r.links[i % 2];
    l.where.wall = fmt::format("W{}", i % 17);
    l.where.words = fmt::format("W{} {} left of a rather long address that nobody can read", i % 17, i);
    l.kind = i % 3 == 0 ? "hold-down" : i % 3 == 1 ? "anchor" : "jamb";
    l.why = Why{fmt::format("reason-{}", i % 23),
                "some subject with quite a number of words to it, and a few more besides"};
    r.links.push_back(l);
    Link open = r.links[4];
    open.kind = fmt::format("kind-{}", i % 29);
    open.conditions = {Condition{"slab thickness", "100 mm", "", Met::not_stated, fmt::format("key_{}", i)}};
    r.links.push_back(open);
    r.by_others.push_back({fmt::format("link {}", i), "somebody with a long name and a longer title"});
    r.not_looked_at.push_back(
        {fmt::format("matter number {} that nobody looked at", i), "there is no rule", "some_key"});
    r.cautions.push_back(
        {"c",
         fmt::format("caution {} which has a good many words, so that it fills more than the one line that it is given",
                     i)});
    r.from_memory.push_back({fmt::format("figure {}", i), "1.23", "a source", 3, i % 2 == 0, "somebody"});
  }
  hm::count(r);
  return r;
}
}  // namespace

TEST_CASE("the first screen answers first and says what to do last") {
  const std::string page = first_screen(hm::saltbush(), no_colour);
  const auto lines = hm::lines_of(page);
  CHECK_THAT(lines[0], StartsWith("Saltbush Cottage   plan 2403-A2 rev C, to frame   N3 (site report 4471, 3 March)"));
  CHECK_THAT(page, Contains("AS 4055:2021"));
  CHECK(line_of(page, "FAIL   2 of the 6 links you gave are too weak.  2 pass, 2 not judged.") == 3);
  CHECK(lines.back() == "Local code and a licensed engineer come before this page.");
  CHECK_THAT(page, Contains("Next:  belay explain saltbush.toml \"A2 left\"     belay check --all saltbush.toml"));
}

TEST_CASE("a failing place stands with its millimetres, its parts and its use") {
  // By hand: 24.75/26 + 3.03/14 = 1.1684, 24.60/26 + 3.03/14 = 1.1626, both rounded up.
  const std::string page = first_screen(hm::saltbush(), no_colour);
  CHECK_THAT(page, Contains("Too weak: two hold-downs on wall A, the front"));
  CHECK_THAT(page, Contains("A2 left, at 10900  24.75 of 26  3.03 of 14  116.9 %"));
  CHECK_THAT(page, Contains("A1 right, at 1100  24.60 of 26  3.03 of 14  116.3 %"));
  CHECK(line_of(page, "116.9 %") < line_of(page, "116.3 %"));
  CHECK_THAT(page, Contains("kN, mm from its left end"));
}

TEST_CASE("in US print forces are pounds and places feet and inches") {
  Result r = hm::saltbush();
  r.print = Print::us;
  const std::string page = first_screen(r, no_colour);
  // 24.751 kN / 4.4482216 = 5564.2 lb; 26 kN = 5845.0 lb; 10900 mm = 35 ft 9.13 in.
  CHECK_THAT(page, Contains("A2 left, at 35 ft 9.1 in  5564 of 5845"));
  CHECK_THAT(page, Contains("lb, ft and in from its left end"));
  CHECK(page.find("kN") == std::string::npos);
}

TEST_CASE("a fixing that stands beside the place in its address says where to drill") {
  Link l = hm::saltbush().links[0];
  l.kind = "jamb";
  l.where.words = "A jamb W1 at 2040";
  l.where.from_start = hm::millimetres(1940);
  CHECK(place_words(l, metric) == "A jamb W1 at 2040, drill at 1940");
  l.where.from_start = hm::millimetres(204);  // the beginning of 2040
  CHECK(place_words(l, metric) == "A jamb W1 at 2040, drill at 204");
  l.where.from_start = hm::millimetres(2040);
  CHECK(place_words(l, metric) == "A jamb W1 at 2040");
  l.kind = "top tie";
  l.where.words = "top tie A jamb W1 at 2040";
  l.where.from_start = hm::millimetres(1940);
  CHECK(place_words(l, metric) == "top tie A jamb W1 at 2040, stands at 1940");
  l.where.words = "top tie A jamb W1 left";
  CHECK(place_words(l, metric) == "top tie A jamb W1 left, at 1940");
  Result r = hm::saltbush();
  r.links[0].where.words = "A jamb W1 at 2040";
  CHECK_THAT(first_screen(r, no_colour), Contains("A jamb W1 at 2040, drill at 10900  24.75 of 26"));
}

TEST_CASE("a place is never cut, however narrow its column") {
  Result r = hm::saltbush();
  r.print = Print::us;
  for (const std::size_t i : {2U, 3U}) {
    r.links[i].kind = "top tie";
    r.links[i].where.words = "top tie A jamb window-with-long-mark at 35 ft 9.1 in";
    r.links[i].where.from_start = hm::millimetres(11000);  // 36 ft 1.07 in
    r.links[0].where.words = "A jamb window-with-a-long-mark right";
  }
  r.links[0].parts.push_back(hm::part("along", 1.0, 30.0));
  r.links[1].parts.push_back(hm::part("across", 1.0, 30.0));
  const std::string page = first_screen(r, no_colour);
  INFO(page);
  CHECK(widest(page) <= page_width);
  CHECK_THAT(page, Contains("stands at 36 ft 1.1 in ") && Contains("at 35 ft 9.1 in") && Contains("at 3 ft 7.3 in"));
  CHECK(page.find(" ft 9....") == std::string::npos);
  const SpokenPlace p{"A jamb W1 left", ", at 10900"};
  CHECK(place_within(p, 24) == "A jamb W1 left, at 10900");
  CHECK(place_within(p, 18) == "A jam..., at 10900");
  CHECK(place_within({"T1 at 10900 front", ""}, 9) == "T1 at 10900 front");
  CHECK(place_within({"A jamb W1 at 2040", ", drill at 1940"}, 30) == "A ja... at 2040, drill at 1940");
}

TEST_CASE("what is strong enough and fails by its sheet stands apart, without a use") {
  Result r = hm::saltbush();
  Link l = hm::link("A2/right", "hold-down", "A", "front", 5900.0, "A2 right", Verdict::fail,
                    {hm::part("pull", 5.64, 26.0)}, Why{"condition-unmet", "distance to the next anchor"});
  l.conditions = {Condition{"distance to the next anchor", "at least 100 mm", "78 mm", Met::no, ""}};
  CHECK(fails_its_sheet(l));
  CHECK(use_words(l) == "-");
  r.links.push_back(l);
  hm::count(r);
  const std::string page = first_screen(r, no_colour);
  INFO(page);
  CHECK_THAT(page, Contains("FAIL   3 of the 7 links you gave fail.  2 pass, 2 not judged."));
  CHECK_THAT(page, Contains("Too weak: two hold-downs on wall A, the front"));
  CHECK_THAT(page, Contains("Does not meet its sheet: one hold-down on wall A, the front"));
  CHECK_THAT(page, Contains("A2 right, at 5900  5.64 of 26    -"));
  CHECK(page.find("21.7 %") == std::string::npos);  // 5.64/26
  CHECK(every_link(r, no_colour).find("21.7 %") == std::string::npos);
  l.use = Use{1.2};
  CHECK_FALSE(fails_its_sheet(l));
  CHECK(use_words(l) == "120.0 %");
}

TEST_CASE("nothing to set against a force is none, never 0.0 %") {
  Result r = hm::saltbush();
  for (const std::size_t i : {0U, 1U}) {
    r.links[i].parts = {hm::part("racking", 0.0, 1.0)};
    r.links[i].parts[0].capacity = value(hm::kilonewtons(0.0));
    r.links[i].parts[0].use = r.links[i].use = Use{0.0};
  }
  const std::string page = first_screen(r, no_colour);
  INFO(page);
  CHECK_THAT(page, Contains("0.00 of none") && !Contains(" 0.0 %"));
}

TEST_CASE("the head of the page says the wind of a job without a class, and who gave it is not cut") {
  Result r = hm::saltbush();
  r.print = Print::us;
  r.site.wind_class.clear();
  r.site.says = "exposure B";
  r.site.gust = Speed::from_value(51.4096);  // 115 mph of 0.44704 m/s
  CHECK_THAT(unwrapped(first_screen(r, no_colour)), Contains("115 mph, exposure B (site report 4471, 3 March)"));
  r.title += std::string(200, 't');
  r.site.given_by = "a geotechnical and wind report of 14 pages by an engineer whose long name stands here in full";
  const std::string page = first_screen(r, no_colour);
  CHECK_THAT(unwrapped(page), Contains(r.site.given_by));
  CHECK(hm::lines_of(page).size() <= screen_lines);
}

TEST_CASE("--all says the conditions before the case that decides, in plain words") {
  Result r = hm::saltbush();
  r.links[0].load_case.inside = "a door or opening open, pushed out";
  r.links[1].load_case.inside = "shut, sucked in";
  r.links[1].conditions[0].has = "46 mm";
  const std::string page = every_link(r, no_colour);
  INFO(page);
  CHECK(line_of(page, "has 46 mm: met") < line_of(page, "The case that decides"));
  CHECK(case_words(r.links[0].load_case).find("pushed out") == std::string::npos);
  CHECK_THAT(unwrapped(page), Contains("; a door or opening open, wind pushing out from inside; 0.9 G + W"));
  CHECK_THAT(unwrapped(page), Contains("; house shut, air sucking in from inside; 0.9 G + W"));
}

TEST_CASE("side walls are measured from the front") {
  Result r = hm::saltbush();
  for (Link& l : r.links) l.where.face = "right";
  CHECK_THAT(first_screen(r, no_colour), Contains("kN, mm from its front end"));
}

TEST_CASE("what was not judged, handed over, remembered and not looked at stands on the first screen") {
  const std::string page = first_screen(hm::saltbush(), no_colour);
  CHECK_THAT(page, Contains("The job gives no fixing: 2 ties from stud to bottom plate (add `stud_tie`);"));
  CHECK_THAT(page, Contains("`by_others` may say who answers."));
  CHECK_THAT(page, Contains("By others, as the job says: frame maker's engineer: 1 tie from top plate to"));
  CHECK_THAT(page, Contains("1 figure is from memory, not checked: AS 4055 uplift."));
  CHECK_THAT(page, Contains("[checked]"));
  CHECK_THAT(page, Contains("Not looked at: roof bracing, earthquake."));
  CHECK_THAT(page, Contains("Caution: "));
  CHECK_THAT(page, Contains("89.5 % m") &&
                       Contains("demo-rod-16 takes the pull alone and the slide alone, not both at once."));
}

TEST_CASE("each answer has its words") {
  Result r = hm::all_good();
  CHECK_THAT(first_screen(r, no_colour), Contains("\nPASS   all 2 links you gave hold.\n"));
  r.answer = Answer::pass_if;
  r.from_memory = {FromMemory{"AS 4055 uplift", "0.99", "AS 4055", 2, false, ""},
                   FromMemory{"AS 4055 wall", "0.96", "AS 4055", 2, false, ""},
                   FromMemory{"not used", "1", "AS 4055", 0, false, ""}};
  CHECK_THAT(first_screen(r, no_colour), Contains("\nPASS, IF THESE 2 FIGURES ARE RIGHT   all 2 links you gave hold."));
  r.from_memory.pop_back();
  r.from_memory.pop_back();
  CHECK_THAT(first_screen(r, no_colour), Contains("\nPASS, IF THIS FIGURE IS RIGHT   "));
  r.answer = Answer::not_judged;
  r.links[0].verdict = Verdict::not_judged;
  hm::count(r);
  CHECK_THAT(first_screen(r, no_colour),
             Contains("\nNOT JUDGED   1 of the 2 links you gave is not judged.  1 pass, 0 fail."));
  r.links.clear();
  r.nearest.clear();
  hm::count(r);
  CHECK_THAT(first_screen(r, no_colour), Contains("NOT JUDGED   the job gives no link that can be judged."));
}

TEST_CASE("a house outside the method is told so, with the limit, and no link passes") {
  Result r = hm::saltbush();
  r.answer = Answer::not_judged;
  r.excess = {"roof pitch 38 deg, at most 35 deg"};
  for (Link& l : r.links) l.verdict = Verdict::not_judged;
  r.nearest.clear();
  hm::count(r);
  const std::string page = first_screen(r, no_colour);
  CHECK_THAT(page, Contains("AS 4055 does not cover this house: roof pitch 38 deg, at most 35 deg. No link is"));
  CHECK(page.find("PASS") == std::string::npos);
}

TEST_CASE("the first screen holds within 30 lines of 80 columns, whatever the house") {
  for (const Print print : {Print::metric, Print::us})
    for (const std::size_t n : {1U, 2U, 5U, 20U, 150U}) {
      const Result r = crowded(n, print);
      const std::string page = first_screen(r, no_colour);
      INFO(n << '\n' << page);
      CHECK(hm::lines_of(page).size() <= screen_lines);
      CHECK(widest(page) <= page_width);
      CHECK_THAT(page, Contains("FAIL   "));
      CHECK_THAT(page, Contains("Too weak: "));
      CHECK_THAT(page, Contains("Not judged:"));
      CHECK_THAT(page, Contains("Not looked at: "));
      CHECK_THAT(page, Contains("Next:  belay explain"));
      CHECK(hm::lines_of(page).back() == last_words);
    }
  const std::string page = first_screen(crowded(150, Print::metric), no_colour);
  // 2 of the demo house's own and 150 more fail; as many as are told and as many as are not make them all.
  CHECK(std::regex_search(page, std::regex("of the 152 links|FAIL   152 of ")));
  const std::regex rows("at \\d+ (?:and (\\d+) more|\\+(\\d+))"), rest("(\\d+) of the 152 are not shown");
  std::size_t shown = 0;
  for (std::sregex_iterator i(page.begin(), page.end(), rows), end; i != end; ++i)
    shown += 1 + std::stoul((*i)[1].matched ? (*i)[1].str() : (*i)[2].str());
  std::smatch left;
  REQUIRE(std::regex_search(page, left, rest));
  CHECK(shown + std::stoul(left[1].str()) == 152);
}

TEST_CASE("what is invented, and what is left to others, stands on the first screen however crowded") {
  for (const std::size_t n : {1U, 5U, 150U}) {
    Result r = crowded(n, Print::metric);
    r.cautions.push_back({"demo-fixings", "The fixings are invented for demonstration: not for construction."});
    const std::string page = first_screen(r, no_colour);
    INFO(page);
    CHECK(hm::lines_of(page).size() <= screen_lines);
    CHECK(widest(page) <= page_width);
    CHECK_THAT(page, Contains("The fixings are invented for demonstration: not for construction."));
    CHECK_THAT(page, Contains("\nBy others"));
    std::string in_one_line = page;
    std::ranges::replace(in_one_line, '\n', ' ');
    CHECK(std::regex_search(in_one_line, std::regex(" By others[^.]*link +0")));
    CHECK(page.find("named by --all") == std::string::npos);
  }
}

TEST_CASE("--all leaves no link out and stays within 80 columns") {
  for (const Print print : {Print::metric, Print::us}) {
    const Result r = crowded(40, print);
    const std::string page = every_link(r, no_colour);
    CHECK(widest(page) <= page_width);
    std::size_t verdicts = 0;
    for (const std::string& l : hm::lines_of(page))
      for (const std::string end :
           {"  PASS", "  FAIL", "  NOT JUDGED", "  BY OTHERS", "; PASS", "; FAIL", "; NOT JUDGED", "; BY OTHERS"})
        if (l.ends_with(end)) ++verdicts;
    CHECK(verdicts == r.links.size());
  }
  const std::string page = every_link(hm::saltbush(), no_colour);
  CHECK_THAT(page, Contains("Wall A, the front"));
  CHECK_THAT(page, Contains("unless noted, line 23"));
  CHECK_THAT(page, Contains("Condition: edge distance, needs 45 mm, has 45 mm: met"));
  CHECK_THAT(page, Contains("The case that decides: wind along the house, from the left;"));
  CHECK(hm::lines_of(page).back() == last_words);
}

TEST_CASE("colour is never the only sign, and nothing but bold and red") {
  const std::string plain = first_screen(hm::saltbush(), no_colour);
  CHECK(plain.find('\x1b') == std::string::npos);
  std::string coloured = first_screen(hm::saltbush(), Look{true});
  CHECK(coloured.find("\x1b[1;31mFAIL\x1b[0m") != std::string::npos);
  for (const std::string mark : {"\x1b[1;31m", "\x1b[1m", "\x1b[0m"})
    for (std::size_t at = coloured.find(mark); at != std::string::npos; at = coloured.find(mark))
      coloured.erase(at, mark.size());
  CHECK(coloured == plain);
}

TEST_CASE("nothing in a job can steer the terminal") {
  Result r = hm::saltbush();
  r.title = "Salt\x1b[2Jbush\nPASS\r\x07";
  r.cautions[0].text =
      "two\nlines \xC2\x9B"
      "31m";
  r.links[0].where.words = "A2\x1b]0;x left";
  r.drawn =
      "sheet \xE2\x80\xAE"
      "1 rev\xE2\x80\x8B A";  // U+202E turns the text round, U+200B is not seen
  for (const std::string& page : {first_screen(r, no_colour), every_link(r, no_colour)}) {
    CHECK(page.find('\x1b') == std::string::npos);
    CHECK(page.find('\r') == std::string::npos);
    CHECK(page.find("\xE2\x80") == std::string::npos);
    CHECK(page.find('\x07') == std::string::npos);
    CHECK(page.find("\xC2\x9B") == std::string::npos);
    CHECK(page.find("\nPASS") == std::string::npos);
  }
}

TEST_CASE("a use is rounded up, so that a failing link never reads 100.0 %") {
  Result r = hm::all_good();
  r.links[0].use = Use{1.00004};
  r.links[0].parts[0].use = r.links[0].use;
  r.links[0].verdict = Verdict::fail;
  r.answer = Answer::fail;
  hm::count(r);
  CHECK_THAT(first_screen(r, no_colour), Contains("100.1 %"));
}

TEST_CASE("words are wrapped, cut and counted by what is seen") {
  CHECK(columns("a\xC3\xA9"
                "b") == 3);
  CHECK(columns(bold("abc", Look{true})) == 3);
  CHECK(clipped("abcdefgh", 6) == "abc...");
  CHECK(clipped("\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9", 4) == "\xC3\xA9...");
  CHECK(wrapped("one two three", "", "  ", 8) == std::vector<std::string>{"one two", "  three"});
  CHECK(wrapped("", "x").empty());
  CHECK(wrapped("abcdefghij", "", "", 4) == std::vector<std::string>{"abcd", "efgh", "ij"});
}
