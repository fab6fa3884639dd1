// One house under several methods: no verdict where the fixings' basis is another than the loads', the page, its JSON,
// and why the columns differ. The house and its sites are invented; what is compared is worked out beside the test.
#include "belay/check.hpp"
#include "files/read.hpp"
#include "pages.hpp"
#include "report/json.hpp"
#include "report/side_by_side.hpp"
#include "text_files.hpp"
#include "wind_house.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <map>
#include <rapidjson/document.h>
#include <set>
#include <stdexcept>

using namespace belay;
using belay::test::fits;
using belay::test::lines_of;
using belay::test::mph;
using belay::test::unwrapped;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {
const Look no_colour{false};
const Table& practice() { return table("practice/common.toml"); }

House job(const std::string& name) {
  Opened o = open_job(std::string(BELAY_JOBS) + "/" + name);
  if (!o.house) throw std::runtime_error(render(o.problems, false));
  o.house->file = name;  // the page says it in commands, which are never broken: as a person beside the file types it
  return *std::move(o.house);
}
AsceSite asce(const std::string& level) {
  AsceSite s = test::asce("7-16", mph(115), "B");
  s.level = level;
  return s;
}
House with_sites(House h, const std::vector<std::pair<std::string, SiteAsk>>& sites) {
  h.sites.clear();
  for (const auto& [name, site] : sites) {
    NamedSite s;
    s.name = name;
    s.site = site;
    h.sites.push_back(std::move(s));
  }
  h.site = h.sites.front().site;
  return h;
}
std::vector<UnderMethod> under(const House& h) {
  std::vector<const Table*> methods;
  for (const NamedSite& s : h.sites) methods.push_back(&table(table_for(s.site)));
  return under_each(h, methods, practice());
}
// A class and ASCE 7 at both levels; the fixings are those of the class, design capacities.
House three(const std::string& name = "saltbush-cottage.toml") {
  const House h = job(name);
  return with_sites(h,
                    {{"as-4055", h.site}, {"asce-strength", asce("strength")}, {"asce-allowable", asce("allowable")}});
}
void rebase(Fixings& x, FigureIs figure) {
  const auto all = [&](auto& list) {
    for (auto& e : list) e.terms.basis = figure;
  };
  all(x.brackets);
  all(x.ties);
  all(x.plates);
  all(x.anchors);
  all(x.straps);
  all(x.sheets);
  all(x.rated);
  all(x.linings);
}
const LinkPart* single(const Link& l, const std::string& part) {
  for (const LinkPart& p : l.parts)
    if (p.role != Role::combined && p.part == part) return &p;
  return nullptr;
}
}  // namespace

// ---- basis

TEST_CASE("a fixing of another basis than the loads gives no verdict by its strength") {
  House h = job("saltbush-cottage.toml");
  h.site = asce("allowable");
  const Table& method = table(table_for(h.site));
  const Result r = check(h, method, practice());
  std::size_t refused = 0;
  for (const Link& l : r.links) {
    INFO(l.id);
    CHECK(l.verdict != Verdict::pass);
    if (!l.fixing.given() && l.kind != "line") continue;
    CHECK_FALSE(l.use.has_value());
    for (const LinkPart& p : l.parts) {
      CHECK_FALSE(p.use.has_value());
      CHECK_FALSE(p.capacity.has_value());
    }
    if (l.why.code == "basis-differs") {
      CHECK(l.verdict == Verdict::not_judged);
      CHECK(l.why.subject.starts_with("demo-"));
      CHECK_THAT(why_words(l), Contains("is never turned into the other"));
      ++refused;
    }
  }
  CHECK(refused > 50);
  CHECK(r.answer == Answer::not_judged);
  CHECK(r.exit_code() == 1);
  CHECK(r.counts.pass == 0);
  CHECK(r.nearest.empty());
  // What each link has to hold is that of the same fixings on the right basis.
  rebase(h.fixings, FigureIs::allowable);
  const Result right = check(h, method, practice());
  REQUIRE(right.links.size() == r.links.size());
  CHECK(right.counts.pass > 0);
  for (std::size_t i = 0; i < r.links.size(); ++i)
    for (const LinkPart& p : r.links[i].parts) {
      const LinkPart* same = single(right.links[i], p.part);
      REQUIRE(same);
      CHECK(same->demand == p.demand);
    }
}

TEST_CASE("one brace of another basis leaves what its line shares out without a verdict, and nothing else") {
  House h = job("saltbush-cottage.toml");
  const std::string brace = h.walls.front().pieces.front().brace->fixing.name;
  const Result before = check(h, table(table_for(h.site)), practice());
  for (SheetBrace& s : h.fixings.sheets)
    if (s.terms.name == brace) s.terms.basis = FigureIs::allowable;
  const Result r = check(h, table(table_for(h.site)), practice());
  std::set<std::string> refused, kept;
  for (std::size_t i = 0; i < r.links.size(); ++i) {
    const Link& l = r.links[i];
    if (l.why.code == "basis-differs") refused.insert(l.kind);
    else if (l.verdict == Verdict::pass) kept.insert(l.kind);
    if (l.kind == "bracket") CHECK(l.verdict == before.links[i].verdict);
    if (l.kind == "line" || l.kind == "brace" || l.kind == "hold-down") CHECK(l.verdict != Verdict::pass);
  }
  CHECK(refused.contains("line"));
  CHECK(refused.contains("brace"));
  CHECK(refused.contains("hold-down"));
  CHECK(kept == std::set<std::string>{"bracket"});
}

TEST_CASE("what no strength would mend stays a failure under another basis") {
  House h = job("saltbush-cottage.toml");
  h.slab.thickness = test::metres(0.05);  // thinner than any anchor's sheet allows
  const auto unmet = [](const Result& r) {
    return std::ranges::count_if(
        r.links, [](const Link& l) { return l.verdict == Verdict::fail && l.why.code == "condition-unmet"; });
  };
  const auto before = unmet(check(h, table(table_for(h.site)), practice()));
  CHECK(before > 0);
  rebase(h.fixings, FigureIs::allowable);
  CHECK(unmet(check(h, table(table_for(h.site)), practice())) == before);
}

// ---- side by side

TEST_CASE("each column is what a check by that site alone gives") {
  const House h = three();
  const auto all = under(h);
  REQUIRE(all.size() == 3);
  for (std::size_t i = 0; i < all.size(); ++i) {
    House alone = h;
    alone.site = h.sites[i].site;
    const Result r = check(alone, table(table_for(alone.site)), practice());
    CHECK(all[i].site.name == h.sites[i].name);
    CHECK(all[i].result.answer == r.answer);
    CHECK(all[i].result.counts.fail == r.counts.fail);
    REQUIRE(all[i].result.links.size() == r.links.size());
    for (std::size_t k = 0; k < r.links.size(); ++k) {
      CHECK(all[i].result.links[k].id == r.links[k].id);
      CHECK(all[i].result.links[k].verdict == r.links[k].verdict);
    }
  }
  CHECK(under(job("saltbush-cottage.toml")).size() == job("saltbush-cottage.toml").sites.size());
}

TEST_CASE("strength and allowable loads of one standard differ by its own factors") {
  // ASCE 7-16 2.3.1: 0.9D + 1.0W; 2.4.1: 0.6D + 0.6W. Racking has no weight in it: 0.6 times.
  const auto all = under(three());
  std::size_t lines = 0;
  for (const auto& row : rows_of(all)) {
    if (row[1]->kind != "line") continue;
    const LinkPart* strength = deciding_part(row, 1);
    const LinkPart* allowable = deciding_part(row, 2);
    REQUIRE(strength);
    REQUIRE(allowable);
    CHECK_THAT(allowable->demand.si, WithinRel(0.6 * strength->demand.si, 1e-9));
    ++lines;
  }
  CHECK(lines > 4);
}

TEST_CASE("the exit code is that of the worst, and 0 only when every method passes") {
  House h = job("wattle-studio.toml");
  const SiteAsk own = h.site;
  CHECK(worst_exit(under(with_sites(h, {{"a", own}, {"b", own}}))) == 0);
  CHECK(worst_exit(under(with_sites(h, {{"a", own}, {"b", asce("allowable")}}))) == 1);
  CHECK(worst_exit(under(with_sites(h, {{"a", asce("allowable")}, {"b", own}}))) == 1);
  ClassSite strong{"N6", "a test", "job.toml:1"};
  CHECK(worst_exit(under(with_sites(h, {{"a", own}, {"b", strong}}))) == 1);
  CHECK(worst_exit(under(with_sites(job("saltbush-cottage.toml"), {{"a", own}}))) == 1);
}

TEST_CASE("the page has a column a method and the worst link of each kind and wall") {
  const auto all = under(three());
  const std::string page = side_by_side(all, false, no_colour);
  fits(page);
  CHECK(lines_of(page).back() == "Local code and a licensed engineer come before this page.");
  const std::string said = unwrapped(page);
  CHECK_THAT(said, Contains("AS 4055:2021") && Contains("ASCE 7-16 (asce-strength)") &&
                       Contains("ASCE 7-16 (asce-allowable)"));
  CHECK_THAT(said, Contains("q 1.5 kPa") && Contains("limit state") && Contains("allowable"));
  CHECK_THAT(said, Contains("basis differs") && Contains("links get no verdict"));
  CHECK_THAT(said,
             Contains("Not looked at by any of them: earthquake") || Contains("Not looked at by any of them: ceiling"));
  CHECK_THAT(said, Contains("belay check --method asce-strength"));
  // The numbers of the hold-down that fails, as a check by the class alone gives them.
  const Result& by_class = all[0].result;
  const auto fails = std::ranges::max_element(by_class.links, {}, [](const Link& l) {
    return l.kind == "hold-down" && l.where.wall == "A" && l.use ? l.use->value : 0.0;
  });
  CHECK_THAT(said, Contains(short_number(single(*fails, "pull")->demand, metric) + " FAIL"));
  // One row a kind and wall, where one table has room for the methods.
  const std::vector<UnderMethod> two(all.begin(), all.begin() + 2);
  std::map<std::string, int> rows;
  std::string kind;
  for (const std::string& l : lines_of(side_by_side(two, false, no_colour))) {
    if (l.starts_with("hold-downs")) kind = "hold-down";
    else if (!l.starts_with("  ")) kind.clear();
    else if (kind == "hold-down") ++rows[l.substr(2, 1)];
  }
  CHECK(rows == std::map<std::string, int>{{"A", 1}, {"B", 1}, {"C", 1}, {"D", 1}, {"E", 1}});
}

TEST_CASE("--all has every link") {
  const auto all = under(three());
  const std::string page = side_by_side(all, true, no_colour);
  fits(page);
  // Two tables of two and one method, or one of three: each link stands once in each.
  for (const Link& l : all[0].result.links) {
    if (l.kind != "hold-down") continue;
    INFO(l.where.words);
    CHECK_THAT(page, Contains("  " + l.where.words));
  }
  CHECK(lines_of(page).size() > all[0].result.links.size());
  CHECK(page.find("--all gives every one") == std::string::npos);
}

TEST_CASE("a place is never cut, however narrow the column of names") {
  auto all = under(three());
  const std::string place = "A jamb window-with-long-mark at 35 ft 9.1 in";
  for (UnderMethod& u : all) {
    u.result.print = Print::us;
    for (Link& l : u.result.links) {
      l.where.words = place;
      l.where.from_start = test::metres(11.0);  // 36 ft 1.07 in
    }
  }
  const std::string page = side_by_side(all, false, no_colour);
  fits(page);
  CHECK_THAT(page,
             Contains("at 35 ft 9.1 in") && Contains("36 ft 1.1 in") && !Contains(" ft 9...") && !Contains("ft 1..."));
}

TEST_CASE("many methods are set in tables of the page's width, none is lost") {
  const House h = job("saltbush-cottage.toml");
  std::vector<std::pair<std::string, SiteAsk>> sites;
  for (const char* c : {"N1", "N2", "N3", "N4", "N5", "N6"})
    sites.emplace_back(fmt::format("site-{}", c), ClassSite{c, "a test", "job.toml:1"});
  const std::string page = side_by_side(under(with_sites(h, sites)), false, no_colour);
  fits(page);
  for (const char* c : {"N1", "N2", "N3", "N4", "N5", "N6"}) CHECK_THAT(page, Contains(fmt::format("(site-{})", c)));
}

TEST_CASE("why the columns differ is said with the numbers at hand") {
  const auto all = under(three());
  const auto why = why_they_differ(all);
  std::string said;
  for (const std::string& s : why) said += s + "\n";
  CHECK_THAT(said,
             Contains("do not speak of the same thing: AS 4055:2021 and ASCE 7-16 (asce-strength) ask for strengths "
                      "(limit state), ASCE 7-16 (asce-allowable) allowable capacities"));
  const double q0 = all[0].result.site.q / Pressure::from_value(1000.0),
               q1 = all[1].result.site.q / Pressure::from_value(1000.0);
  CHECK_THAT(said,
             Contains(fmt::format("the greatest is {:.2f} times the least", std::max(q0, q1) / std::min(q0, q1))));
  CHECK_THAT(said,
             Contains("the wind is multiplied by 1 by AS 4055:2021") && Contains("0.6 by ASCE 7-16 (asce-allowable)"));
  for (const UnderMethod& u : all) {
    REQUIRE(u.bracket);
    // Uplift over pressure is an area: by hand from the same link.
    const auto l = std::ranges::find_if(
        u.result.links, [&](const Link& x) { return x.kind == "bracket" && x.where.words == u.bracket->words; });
    REQUIRE(l != u.result.links.end());
    CHECK(value(u.bracket->uplift) == single(*l, "uplift")->demand);
    CHECK_THAT(u.bracket->factored / u.result.site.q, WithinRel(u.bracket->combination.wind, 1e-12));
    CHECK_THAT(value(u.bracket->as_area).si,
               WithinRel(single(*l, "uplift")->demand.si / value(u.bracket->factored).si, 1e-12));
    CHECK_THAT(said, Contains(trimmed_text(value(u.bracket->as_area), metric)));
    // Every link that has a case counts under one combination.
    std::size_t decided = 0, with_case = 0;
    for (const Decides& d : u.decides) decided += d.links;
    for (const Link& x : u.result.links) with_case += x.load_case.id.empty() ? 0 : 1;
    CHECK(decided == with_case);
  }
  const House alone = with_sites(job("saltbush-cottage.toml"), {{"a", ClassSite{"N3", "a test", "job.toml:1"}}});
  CHECK(why_they_differ(under(alone)) ==
        std::vector<std::string>{"The job states one site alone: there is nothing to compare it with."});
}

TEST_CASE("a method that does not cover the house is named") {
  House h = three();
  h.roof.pitch = test::degrees(40.0);
  const auto all = under(h);
  REQUIRE_FALSE(all[0].result.excess.empty());
  CHECK_THAT(unwrapped(side_by_side(all, false, no_colour)),
             Contains("Does not cover this house: roof pitch") && Contains("its numbers stand outside its limits"));
  CHECK(all[0].result.counts.pass == 0);
}

TEST_CASE("the methods as JSON, with keys that stay") {
  const auto all = under(three());
  const std::string text = json(all, false);
  CHECK(std::ranges::count(text, '\n') == 1);
  rapidjson::Document d;
  d.Parse(text.data(), text.size());
  REQUIRE_FALSE(d.HasParseError());
  CHECK(std::string(d["format"].GetString()) == "belay-methods/1");
  CHECK(d["exit_code"].GetInt() == 1);
  REQUIRE(d["methods"].Size() == 3);
  CHECK(std::string(d["methods"][2]["name"].GetString()) == "asce-allowable");
  CHECK(std::string(d["methods"][2]["verdict"].GetString()) == "NOT JUDGED");
  CHECK(std::string(d["methods"][2]["site"]["basis"].GetString()) == "allowable");
  REQUIRE(d["links"].Size() == all[0].result.links.size());
  CHECK(d["why_they_differ"].Size() == why_they_differ(all).size());
  std::set<std::string> first;
  std::size_t refused = 0;
  for (const auto& l : d["links"].GetArray()) {
    REQUIRE(l["under"].Size() == 3);
    for (const auto& u : l["under"].GetArray()) {
      std::set<std::string> keys;
      for (const auto& m : u.GetObject()) keys.insert(m.name.GetString());
      if (first.empty()) first = keys;
      CHECK(keys == first);
    }
    CHECK(std::string(l["under"][2]["verdict"].GetString()) != "PASS");
    if (std::string(l["under"][2]["why"].GetString()).find("another basis") != std::string::npos) {
      CHECK(l["under"][2]["use"].IsNull());
      CHECK_FALSE(l["under"][2]["demand"].IsNull());
      ++refused;
    }
  }
  CHECK(refused > 50);
}

TEST_CASE("words of a job cannot steer the terminal from the columns") {
  auto all = under(three());
  const std::string evil = "\x1b[2J\x07 name\n";
  for (UnderMethod& u : all) {
    u.site.name = u.result.title = u.result.drawn = u.result.file = u.result.site.given_by = evil;
    for (Link& l : u.result.links) l.where.words = evil;
    for (Decides& x : u.decides) x.combination.source = evil;
    u.bracket->words = evil;
  }
  const std::string page = side_by_side(all, true, no_colour);
  CHECK(page.find('\x1b') == std::string::npos);
  CHECK(page.find('\x07') == std::string::npos);
  fits(page);
}
