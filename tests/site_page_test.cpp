// The site by itself: what is worked out of it, its page, its JSON, and how every other page says it. Houses and sites
// are invented; what is compared is worked out beside the test.
#include "report/site_page.hpp"
#include "files/read.hpp"
#include "hand_made.hpp"
#include "pages.hpp"
#include "report/json.hpp"
#include "report/said_back.hpp"
#include "report/screen.hpp"
#include "report/working_page.hpp"
#include "wind_house.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <rapidjson/document.h>
#include <set>

using namespace belay;
using belay::test::fits;
using belay::test::lines_of;
using belay::test::metres;
using belay::test::mph;
using belay::test::unwrapped;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
namespace hm = belay::hand_made;

namespace {
const Look no_colour{false};

Speed speed(double x) { return Speed::from_value(x); }

SiteWorkedOut worked_out(const House& h) { return site_of(h, table(table_for(h.site)), metric); }

House saltbush() {
  Opened o = open_job(std::string(BELAY_JOBS) + "/saltbush-cottage.toml");
  if (!o.house) throw std::runtime_error(render(o.problems, false));
  return *std::move(o.house);
}

// A site with eight directions as a method would give it: 45 m/s times three factors. The wind from the north-east goes
// over a hill; the front is given the least gust of all.
SiteWorkedOut by_directions() {
  SiteWorkedOut x{.sheet = {}, .working = Working(metric), .windiest = Working(metric)};
  SiteSheet& s = x.sheet;
  s.title = "Hill House";
  s.drawn = "sheet 1";
  s.file = "hill.toml";
  s.print = Print::metric;
  s.site = SiteSaid{.method = "AS/NZS 1170.2",
                    .edition = "2021",
                    .wind_class = "",
                    .given_by = "invented",
                    .basis = "limit state (design)",
                    .gust = speed(44.82),
                    .q = Pressure::from_value(1205.3),
                    .says = "region A2",
                    .typed_in = ""};
  for (const std::string_view name : directions) {
    const double hill = name == "NE" ? 1.2 : 1.0, terrain = name == "S" ? 0.6 : 0.83;
    const double v = 45.0 * terrain * hill;
    s.directions.push_back(
        {std::string(name),
         {{"V_R", "regional gust", value(speed(45.0))},
          {fmt::format("M_z,cat,{}", name), terrain < 0.7 ? "height, terrain 4" : "height, terrain 3", value(terrain)},
          {fmt::format("M_t,{}", name), hill > 1.0 ? "hill" : "flat ground", value(hill)}},
         speed(v),
         speed(v)});
  }
  const Pressure least = Pressure::from_value(540.0);
  s.faces = {FaceSaid{Side::front, speed(30.0), least, "S"},
             FaceSaid{Side::right, speed(44.82), Pressure::from_value(1205.3), "NE"},
             FaceSaid{Side::back, speed(40.0), Pressure::from_value(960.0), "between N and NE"},
             FaceSaid{Side::left, speed(37.35), Pressure::from_value(837.0), "W"}};
  s.service_gust = speed(32.0);
  s.combinations = {{"0.9 G + W", "AS/NZS 1170.0 cl. 4.2.1", 0.9, 1.0}};
  s.from_memory = {{"gust of regions A", "45 m/s", "AS/NZS 1170.2:2021 Table 3.1 (from memory)", 0, false, ""}};
  s.cautions = {"The region's direction multipliers are not in hand"};
  s.not_looked_at = {{"changes upwind", "trees that may go", ""}};
  Working& w = x.working;
  w.heading("The wind");
  const Speed v = given(&w, "V_R", "regional gust", speed(45.0), "AS/NZS 1170.2:2021 Table 3.1 (from memory)");
  for (const std::string_view name : directions) {
    w.heading(fmt::format("The wind from {}", name));
    given(&w, fmt::format("V_{}", name), "gust from there", v, "invented");
  }
  w.heading("The wind on each face");
  greatest<Speed>(&w, "V", "gust of the windiest", "the faces", {as("V_N", v), as("V_NE", v)});
  x.windiest = w;
  keep_what_leads_to_the_end(x.windiest);
  return x;
}
}  // namespace

// ---- what is worked out

TEST_CASE("a site by class says what the method says of it, with its steps") {
  House h = test::cottage();
  h.title = "Cottage";
  const SiteWorkedOut x = worked_out(h);
  CHECK(x.sheet.site.method == "AS 4055");
  CHECK(x.sheet.site.wind_class == "N3");
  CHECK(x.sheet.site.typed_in.empty());
  CHECK(x.sheet.name.empty());
  // 50 m/s and 0.5 x 1.2 x 50^2 = 1500 Pa (AS 4055:2021 Table 2.1(A), computed).
  REQUIRE(x.sheet.faces.size() == 4);
  const std::array order{Side::front, Side::right, Side::back, Side::left};
  for (std::size_t i = 0; i < order.size(); ++i) {
    CHECK(x.sheet.faces[i].side == order[i]);
    CHECK_THAT(in(value(x.sheet.faces[i].gust), metric), WithinRel(50.0, 1e-12));
    CHECK_THAT(in(value(x.sheet.faces[i].q), metric), WithinRel(1.5, 1e-12));
  }
  CHECK_FALSE(x.working.steps.empty());
  CHECK(x.working.steps.front().heading == "The wind");
  CHECK(orphan(x.working).empty());
  REQUIRE_FALSE(x.sheet.combinations.empty());
  CHECK_FALSE(x.sheet.combinations.front().source.empty());
  CHECK(x.sheet.excess.empty());
  // The same bits as in a check of the house.
  const SiteWind silent = test::blow(h).site;
  CHECK(x.sheet.site.gust == silent.gust);
  CHECK(x.sheet.site.q == silent.q);
  CHECK(x.working.steps.back().result == value(silent.q));
}

TEST_CASE("a figure from memory behind the gust is listed with who checked it") {
  House h = test::cottage();
  h.site = test::asce("7-16", mph(115), "B");
  const auto listed = [&](const SiteWorkedOut& x) {
    std::set<std::string> names;
    for (const FromMemory& f : x.sheet.from_memory) names.insert(f.figure);
    return names;
  };
  const SiteWorkedOut open = worked_out(h);
  // Every step that says so is answered for by an entry of the list.
  for (const Step& s : open.working.steps)
    if (s.source.find("(from memory)") != std::string::npos)
      CHECK(std::ranges::any_of(open.sheet.from_memory, [&](const FromMemory& f) { return f.source == s.source; }));
  REQUIRE_FALSE(listed(open).empty());
  const std::string one = *listed(open).begin();
  CHECK(std::ranges::none_of(open.sheet.from_memory, [](const FromMemory& f) { return f.checked; }));
  h.checked = {{one, "A. Reader, 2 May"}};
  const SiteWorkedOut done = worked_out(h);
  CHECK(listed(done) == listed(open));
  for (const FromMemory& f : done.sheet.from_memory) CHECK(f.checked == (f.figure == one));
  CHECK_THAT(unwrapped(site_page(done, false, no_colour)), Contains("checked, as the job says: A. Reader, 2 May"));
}

TEST_CASE("a house outside the method says so on its site's page") {
  House h = test::cottage();
  h.roof.pitch = test::degrees(40.0);
  const SiteWorkedOut x = worked_out(h);
  REQUIRE_FALSE(x.sheet.excess.empty());
  CHECK_THAT(unwrapped(site_page(x, false, no_colour)),
             Contains("AS 4055:2021 does not cover this house: roof pitch") && Contains("No link is judged by it."));
}

TEST_CASE("an earthquake that may govern comes first among what is not looked at, any other last") {
  House h = saltbush();
  const auto unseen = [&] { return check(h, table(table_for(h.site)), table("practice/common.toml")).not_looked_at; };
  CHECK(unseen().front().what != "earthquake");
  CHECK(unseen().back().what == "earthquake");
  CHECK(worked_out(h).sheet.not_looked_at.back().what == "earthquake");
  h.site = test::asce("7-16", mph(115), "B");
  CHECK(unseen().front().what == "earthquake");
  CHECK(unseen().back().what != "earthquake");
  CHECK(worked_out(h).sheet.not_looked_at.front().what == "earthquake");
}

TEST_CASE("what an engineer typed in is no site worked out, whatever the method says") {
  House h = saltbush();
  AsceSite site = test::asce("7-16", mph(115), "B");
  CHECK(worked_out([&] {
          h.site = site;
          return h;
        }())
            .sheet.site.typed_in.empty());
  site.typed.gust = speed(50.0);
  h.site = site;
  CHECK(worked_out(h).sheet.site.typed_in == "gust");
  CHECK(check(h, table(table_for(h.site)), table("practice/common.toml")).site.typed_in == "gust");
  site.typed = TypedIn{std::nullopt, Pressure::from_value(1200.0)};
  h.site = site;
  CHECK(worked_out(h).sheet.site.typed_in == "pressure");
  CHECK_THAT(site_page(worked_out(h), false, no_colour), Contains("THE PRESSURE WAS TYPED IN BY AN ENGINEER"));
}

// ---- the page

TEST_CASE("the page says each face with its direction and the factors in words and numbers") {
  const SiteWorkedOut x = by_directions();
  const std::string page = site_page(x, false, no_colour);
  fits(page);
  const auto lines = lines_of(page);
  CHECK(lines[0] == "Hill House   sheet 1");
  CHECK(lines[1] == "The wind at the house by AS/NZS 1170.2:2021");
  CHECK(lines.back() == "Local code and a licensed engineer come before this page.");
  const std::string said = unwrapped(page);
  // 45 x 0.83 x 1.2 = 44.82.
  CHECK_THAT(said,
             Contains("Onto the right: 44.82 m/s, 1.2053 kPa, from the NE: 45 m/s (regional gust) x 0.83 (height, "
                      "terrain 3) x 1.2 (hill)."));
  // 45 x 0.6 x 1 = 27, and 30 is taken.
  CHECK_THAT(said,
             Contains("Onto the front: 30 m/s, 0.54 kPa, from the S: 45 m/s (regional gust) x 0.6 (height, terrain "
                      "4) x 1 (flat ground); that is 27 m/s, taken as 30 m/s."));
  // Between two directions both are told, with what each makes: 45 x 0.83 = 37.35.
  CHECK_THAT(said,
             Contains("Onto the back: 40 m/s, 0.96 kPa, from between N and NE: from the N 45 m/s (regional gust) x "
                      "0.83 (height, terrain 3) x 1 (flat ground) = 37.35 m/s; from the NE 45 m/s"));
  CHECK_THAT(said, Contains("In service") && Contains("32 m/s"));
  CHECK_THAT(said, Contains("0.9 G + W weight x 0.9, wind x 1 AS/NZS 1170.0 cl. 4.2.1"));
  CHECK_THAT(said, Contains("m gust of regions A (45 m/s): not checked"));
  CHECK_THAT(said, Contains("Caution: The region's direction multipliers are not in hand."));
  CHECK_THAT(said, Contains("Not looked at changes upwind: trees that may go."));
  CHECK_THAT(said, Contains("Next: belay check hill.toml belay site --all hill.toml"));
}

TEST_CASE("faces that are alike are said once") {
  SiteWorkedOut x = by_directions();
  for (FaceSaid& f : x.sheet.faces) f = {f.side, speed(50.0), Pressure::from_value(1500.0), ""};
  CHECK_THAT(site_page(x, false, no_colour), Contains("  Onto every face of the house: 50 m/s, 1.5 kPa.\n"));
  x.sheet.faces[0].gust = speed(51.0);
  x.sheet.faces[2].gust = speed(51.0);
  CHECK_THAT(site_page(x, false, no_colour),
             Contains("Onto the front and the back: 51 m/s") && Contains("Onto the right and the left: 50 m/s"));
  // A method that has no gust in hand says its pressure alone.
  for (FaceSaid& f : x.sheet.faces) f.gust = speed(0.0);
  CHECK_THAT(site_page(x, false, no_colour), Contains("Onto every face of the house: 1.5 kPa."));
}

TEST_CASE("the steps to the windiest face stand there by default, all of them with --all") {
  const SiteWorkedOut x = by_directions();
  const auto headings = [](const std::string& page) {
    std::vector<std::string> out;
    for (const std::string& l : lines_of(page))
      if (l.starts_with("The wind") && l.find("by AS") == std::string::npos && l.back() != '.') out.push_back(l);
    return out;
  };
  const std::string few = site_page(x, false, no_colour), many = site_page(x, true, no_colour);
  CHECK(headings(few) == std::vector<std::string>{"The wind from N", "The wind from NE", "The wind on each face"});
  CHECK_THAT(unwrapped(few), Contains("These steps lead to the windiest face, the right; --all tells all of them."));
  CHECK(few.find("From every direction") == std::string::npos);
  CHECK(headings(many).size() == 10);
  fits(many);
  const auto lines = lines_of(many);
  const auto head = std::ranges::find_if(lines, [](const std::string& l) { return l.starts_with("  from  V_R"); });
  REQUIRE(head != lines.end());
  CHECK(*head == "  from  V_R  M_z,cat  M_t   gust");
  CHECK(*(head + 1) == "        m/s                  m/s");
  CHECK(*(head + 3) == "  NE     45     0.83  1.2  44.82");
  CHECK_THAT(unwrapped(many), Contains("M_z,cat: height, terrain 3 from N, NE, E, SE, SW, W and NW; M_z,cat: height, "
                                       "terrain 4 from S; M_t: flat ground from N, E"));
}

TEST_CASE("many factors go on in a second table, none is lost") {
  SiteWorkedOut x = by_directions();
  for (DirectionSaid& d : x.sheet.directions)
    for (int i = 0; i < 9; ++i) d.factors.push_back({fmt::format("M_factor_{}", i), "one more", value(1.01)});
  const std::string page = site_page(x, true, no_colour);
  fits(page);
  for (int i = 0; i < 9; ++i) CHECK_THAT(page, Contains(fmt::format("M_factor_{}", i)));
  std::size_t tables = 0;
  for (const std::string& l : lines_of(page)) tables += l.starts_with("  from  ");
  CHECK(tables == 2);
}

TEST_CASE("a gust typed in is said in a line by itself, in red where colour is wanted") {
  SiteWorkedOut x = by_directions();
  CHECK(site_page(x, false, no_colour).find("TYPED IN") == std::string::npos);
  x.sheet.site.typed_in = "gust";
  CHECK_THAT(site_page(x, false, no_colour),
             Contains("\nTHE GUST WAS TYPED IN BY AN ENGINEER. IT WAS NOT WORKED OUT HERE.\n"));
  CHECK_THAT(site_page(x, false, Look{true}), Contains("\x1b[1;31mTHE GUST WAS TYPED IN"));
  CHECK(site_page(x, false, no_colour).find('\x1b') == std::string::npos);
}

TEST_CASE("words of a job cannot steer the terminal from the site's page") {
  SiteWorkedOut x = by_directions();
  const std::string evil = "\x1b[2J\x07 name\n";
  x.sheet.title = x.sheet.drawn = x.sheet.name = x.sheet.site.given_by = x.sheet.site.says = x.sheet.file = evil;
  x.sheet.cautions = {evil};
  x.sheet.excess = {evil};
  x.sheet.from_memory[0].who = evil;
  x.sheet.from_memory[0].checked = true;
  for (DirectionSaid& d : x.sheet.directions) d.factors[0].words = evil;
  const std::string page = site_page(x, true, no_colour);
  CHECK(page.find('\x1b') == std::string::npos);
  CHECK(page.find('\x07') == std::string::npos);
  fits(page);
}

// ---- JSON

namespace {
rapidjson::Document read_back(const std::string& text) {
  rapidjson::Document d;
  d.Parse<rapidjson::kParseFullPrecisionFlag | rapidjson::kParseValidateEncodingFlag>(text.data(), text.size());
  INFO(text);
  REQUIRE(!d.HasParseError());
  return d;
}
std::vector<std::string> keys(const rapidjson::Value& v) {
  std::vector<std::string> out;
  for (const auto& m : v.GetObject()) out.emplace_back(m.name.GetString());
  return out;
}
}  // namespace

TEST_CASE("the site as JSON: the same data and the steps, with keys that never come and go") {
  const SiteWorkedOut far = by_directions();
  SiteWorkedOut bare{.sheet = {}, .working = Working(metric), .windiest = Working(metric)};
  bare.sheet.print = Print::metric;
  const auto d = read_back(json(std::vector{far, bare}, true));
  CHECK(std::string(d["format"].GetString()) == "belay-site/1");
  CHECK(std::string(d["job"]["file"].GetString()) == "hill.toml");
  REQUIRE(d["sites"].Size() == 2);
  CHECK(keys(d["sites"][0]) == keys(d["sites"][1]));
  CHECK(keys(d["sites"][0]["site"]) == keys(d["sites"][1]["site"]));
  const auto& s = d["sites"][0];
  CHECK(std::string(s["site"]["says"].GetString()) == "region A2");
  CHECK_FALSE(s["site"]["typed_in"].GetBool());
  REQUIRE(s["faces"].Size() == 4);
  CHECK(std::string(s["faces"][1]["face"].GetString()) == "right");
  CHECK(std::string(s["faces"][1]["from"].GetString()) == "NE");
  CHECK_THAT(s["faces"][1]["gust"]["value"].GetDouble(), WithinAbs(44.82, 1e-9));
  CHECK(std::string(s["faces"][1]["pressure"]["unit"].GetString()) == "kPa");
  REQUIRE(s["directions"].Size() == 8);
  CHECK(std::string(s["directions"][1]["factors"][2]["words"].GetString()) == "hill");
  CHECK_THAT(s["directions"][1]["factors"][2]["value"]["value"].GetDouble(), WithinAbs(1.2, 1e-12));
  CHECK_THAT(s["combinations"][0]["dead"].GetDouble(), WithinAbs(0.9, 1e-12));
  CHECK_THAT(s["service_gust"]["value"].GetDouble(), WithinAbs(32.0, 1e-12));
  REQUIRE(s["steps"].Size() == far.working.steps.size());
  CHECK(std::string(s["steps"][0]["symbol"].GetString()) == "V_R");
  CHECK(std::string(s["steps"][0]["source"].GetString()) == far.working.steps[0].source);
  CHECK(std::string(s["steps"][2]["heading"].GetString()) == "The wind from NE");
  CHECK(d["sites"][1]["service_gust"].IsNull());
  CHECK(d["sites"][1]["site"]["gust"].IsNull());
  const std::string line = json(std::vector{far}, false);
  CHECK(std::ranges::count(line, '\n') == 1);
}

TEST_CASE("a result's site object says what is typed in, under keys that stay") {
  Result r = hm::saltbush();
  const auto given = read_back(json(r, false));
  r.site.typed_in = "pressure";
  r.site.says = "region A2";
  r.site.wind_class.clear();
  const auto typed = read_back(json(r, false));
  CHECK(keys(given["site"]) == keys(typed["site"]));
  CHECK_FALSE(given["site"]["typed_in"].GetBool());
  CHECK(typed["site"]["typed_in"].GetBool());
  CHECK(std::string(typed["site"]["says"].GetString()) == "region A2");
}

// ---- the other pages

TEST_CASE("a gust or pressure typed in is marked on every page") {
  Result r = hm::saltbush();
  r.site.wind_class.clear();
  r.site.says = "region A2";
  const auto pages = [&] {
    return std::vector<std::string>{first_screen(r, no_colour), every_link(r, no_colour),
                                    working_page(r, 0, Working(metric), no_colour)};
  };
  for (const std::string& page : pages()) {
    CHECK_THAT(unwrapped(page), Contains("50 m/s, region A2") && !Contains("typed in"));
    fits(page);
  }
  r.site.typed_in = "gust";
  for (const std::string& page : pages()) {
    CHECK_THAT(unwrapped(page), Contains("50 m/s, gust typed in, not worked out, region A2"));
    fits(page);
  }
  r.site.typed_in = "pressure";
  for (const std::string& page : pages())
    CHECK_THAT(unwrapped(page), Contains("1.5 kPa, pressure typed in, not worked out"));
  // Long words on the house take nothing from the mark.
  r.title += std::string(300, 't');
  r.drawn += std::string(300, 'd');
  r.site.given_by += std::string(300, 'g');
  CHECK_THAT(unwrapped(first_screen(r, no_colour)), Contains("pressure typed in, not worked out"));
}

TEST_CASE("a class that is given and one that is worked out do not look alike") {
  House h = test::cottage();
  CHECK(wind_words(worked_out(h).sheet.site, metric) == "N3");
  SiteSaid s{};
  s.wind_class = "N3";
  s.says = "class N3";
  CHECK(wind_words(s, metric) == "N3");
  s.says = "class worked out here";
  CHECK(wind_words(s, metric) == "N3, class worked out here");
}

// ---- what a job states, read back

namespace {
std::string shown(const House& h) { return unwrapped(said_back(h, {}, {}, no_colour)); }
House stating(SiteAsk site) {
  House h = test::cottage();
  h.title = "Cottage";
  h.site = std::move(site);
  return h;
}
const Hill ridge{HillShape::ridge, metres(30.0), metres(90.0), metres(0.0), metres(0.0), metres(20.0), "a.toml:9"};
}  // namespace

TEST_CASE("a class to be worked out is read back with what it is worked out from") {
  ClassSite s{"", "a walk", "a.toml:3", ClassFrom{"A2", "2.5", "PS", "flat", std::nullopt, std::nullopt}};
  CHECK_THAT(shown(stating(s)), Contains("Class to be worked out: region A2, terrain 2.5, shielding PS, flat ground") &&
                                    Contains("Given by a walk (a.toml:3)"));
  s.from->hill = ridge;
  s.from->topography.clear();
  CHECK_THAT(shown(stating(s)),
             Contains("shielding PS, ridge 30 m high, half of it 90 m level from the crest; the house "
                      "20 m past the crest (a.toml:9)"));
  s.from->hill.reset();
  s.from->topography = "T2";
  s.from->table = ClassTable{"my.toml", "my copy", {ClassRow{}, ClassRow{}}};
  CHECK_THAT(shown(stating(s)), Contains("Class to be read from a table of the user's own: region A2, terrain 2.5, "
                                         "shielding PS, topography T2") &&
                                    Contains("The user's table: my.toml (my copy), 2 rows"));
}

TEST_CASE("directions that are stated alike are read back together") {
  AsNzsSite s{};
  s.family = "as-nzs-1170-2";
  s.edition = "2021";
  s.region = "A2";
  s.years = 500;
  s.service_years = 25;
  s.north = test::degrees(20.0);
  s.ground_level = metres(40.0);
  for (Upwind& u : s.from) u = Upwind{"3", 0.9, std::nullopt, std::nullopt, "a.toml:5"};
  s.from[1] = Upwind{"2", std::nullopt, std::nullopt, ridge, "a.toml:6"};
  s.from[4] = Upwind{"2.5", std::nullopt, Buildings{6, metres(5.0), metres(12.0)}, std::nullopt, "a.toml:7"};
  s.given_by = "a walk";
  s.at = "a.toml:3";
  const std::string page = shown(stating(s));
  CHECK_THAT(page,
             Contains("AS/NZS 1170.2:2021, region A2, a gust exceeded once in 500 years (in service: once in 25)") &&
                 Contains("North: 20 deg clockwise from up the sheet") && Contains("Ground 40 m above the sea"));
  CHECK_THAT(page, Contains("From N, E, SE, SW, W and NW: terrain 3, shielding 0.9 as stated, flat ground"));
  CHECK_THAT(page, Contains("From NE: terrain 2, no shielding, ridge 30 m high"));
  CHECK_THAT(page,
             Contains("From S: terrain 2.5, shielded by 6 buildings, 5 m high and 12 m broad on the average, flat "
                      "ground"));
  AsNzsSite unknown = s;
  unknown.north.reset();
  for (Upwind& u : unknown.from) u = s.from[0];
  CHECK_THAT(shown(stating(unknown)), Contains("North: not known; every face takes the worst of all directions") &&
                                          Contains("From every direction: terrain 3"));
  AsNzsSite zone{};
  zone.family = "nzs-3604";
  zone.edition = "2011";
  zone.zone = "H";
  CHECK_THAT(shown(stating(zone)), Contains("NZS 3604:2011, zone H") && Contains("Given by nobody named") &&
                                       !Contains("From every direction"));
  AsNzsSite typed = s;
  typed.typed.gust = speed(46.0);
  CHECK_THAT(shown(stating(typed)),
             Contains("Gust 46 m/s typed in by an engineer, not worked out here") && !Contains("North:"));
}

TEST_CASE("the other methods' sites are read back: procedure, ground, national choices") {
  AsceSite a = test::asce("7-16", mph(115), "B");
  a.procedure = "directional";
  a.hill = ridge;
  a.ground_level = metres(600.0);
  CHECK_THAT(shown(stating(a)), Contains("Procedure: directional") && Contains("Ground: ridge 30 m high") &&
                                    Contains("600 m above the sea") && Contains("debris region: no"));
  EnSite e{};
  e.edition = "2005";
  e.speed = speed(24.0);
  e.terrain = "II";
  e.at = "a.toml:3";
  CHECK_THAT(shown(stating(e)), Contains("EN 1991-1-4:2005, basic wind 24 m/s (mean of ten minutes), terrain II") &&
                                    Contains("National choices: none stated, as the standard recommends"));
  e.season = 0.9;
  e.air = Density::from_value(1.226);
  CHECK_THAT(shown(stating(e)), Contains("National choices: c_season 0.9, air 1.226 kg/m^3"));
  e.typed.pressure = Pressure::from_value(900.0);
  CHECK_THAT(shown(stating(e)), Contains("Pressure of the gust 0.9 kPa typed in by an engineer, not worked out here"));
}

TEST_CASE("several sites are read back each under its name, and by which the house is judged") {
  House h = stating(ClassSite{"N3", "a report", "a.toml:4"});
  NamedSite first, second;
  first.name = "as-4055";
  first.site = h.site;
  second.name = "asce-7-16";
  second.site = test::asce("7-16", mph(115), "B");
  h.sites = {first, second};
  const std::string page = shown(h);
  CHECK_THAT(page, Contains("Site as-4055, by which the house is judged Class N3, given by a report (a.toml:4)"));
  CHECK_THAT(page, Contains("Site asce-7-16 ASCE 7-16, 51.41 m/s"));
}
