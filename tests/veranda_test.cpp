// Verandas and carports against a wall: where they stand, what the wind that was typed in lifts of them, how that comes
// down to the posts and to the house's own wall, and what is never answered without it. Invented houses; what a number
// rests on stands beside it.
#include "cli/address.hpp"
#include "houses.hpp"
#include "job/mirrored.hpp"
#include "judge/veranda_links.hpp"
#include "pages.hpp"
#include "report/json.hpp"
#include "report/said_back.hpp"
#include "report/screen.hpp"
#include "report/working_page.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

Keys with_key(Keys keys, const std::string& key, const std::string& to) {
  Draft::set(keys, key, to);
  return keys;
}
// A box of 12 m by 7.8 m with verandas against its walls.
Draft with_verandas(std::vector<std::pair<std::string, Keys>> list, const char* site = by_as_nzs) {
  Draft d = closed_box();
  d.site = site;
  d.verandas = std::move(list);
  return d;
}
Draft with_veranda(const Keys& keys = veranda_keys(), const char* site = by_as_nzs) {
  return with_verandas({{"V", keys}}, site);
}
double kN_at(const Built& b, const std::string& words, const char* part_name = "uplift") {
  return in_kN(demand(b.link(words), part_name));
}
bool of_a_veranda(const Link& l) {
  return l.kind == "veranda bracket" || l.kind == "post tie" || l.kind == "post foot";
}

}  // namespace

// ---- the figures ----------------------------------------------------------------------------------------------------

// 1.6 kPa on rafters 1 m apart, 2.4 m to the posts and 0.3 m past them, at 5 degrees: cos^2 = 0.99240388; weight 0.15
// kPa. The method has W and 0.9 G.
//   at the wall, by moments about the beam
//     wind     1.6 x 1 x 2.7 x 2.1 / (2 x 2.4) / 0.99240388 = 1.89 / 0.99240388    = 1.9044665 kN
//     weight   0.15 x 1 x 2.7 x 2.1 / 4.8                                          = 0.1771875 kN
//     uplift   1.9044665 - 0.9 x 0.1771875                                         = 1.7449978 kN
//   at the beam, by moments about the wall
//     wind     1.6 x 1 x 2.7^2 / 4.8 / 0.99240388 = 2.43 / 0.99240388              = 2.4485999 kN
//     weight   0.15 x 1 x 2.7^2 / 4.8                                              = 0.2278125 kN
//     uplift   2.4485999 - 0.9 x 0.2278125                                         = 2.2435687 kN
// End rafters carry half as much. Posts 3 m apart, under the first, the fourth and the seventh rafter:
//   end post   (1/2 + 2/3 + 1/3) x 2.2435687                                       = 3.3653530 kN
//   middle     (1/3 + 2/3 + 1 + 2/3 + 1/3) x 2.2435687                             = 6.7307060 kN
TEST_CASE("what lifts a veranda's rafters and posts, by hand") {
  const Built b(with_veranda());
  for (const char* at : {"2200", "3200", "4200", "5200", "6200"}) {
    CHECK_THAT(kN_at(b, fmt::format("V R1 at {} wall", at)), WithinAbs(1.7449978, 1e-6));
    CHECK_THAT(kN_at(b, fmt::format("V R1 at {} beam", at)), WithinAbs(2.2435687, 1e-6));
  }
  for (const char* at : {"1200", "7200"}) {
    CHECK_THAT(kN_at(b, fmt::format("V R1 at {} wall", at)), WithinAbs(1.7449978 / 2.0, 1e-6));
    CHECK_THAT(kN_at(b, fmt::format("V R1 at {} beam", at)), WithinAbs(2.2435687 / 2.0, 1e-6));
  }
  for (const char* end : {"top", "foot"}) {
    CHECK_THAT(kN_at(b, fmt::format("V post 1 {}", end), "pull"), WithinAbs(3.3653530, 1e-6));
    CHECK_THAT(kN_at(b, fmt::format("V post 2 {}", end), "pull"), WithinAbs(6.7307060, 1e-6));
    CHECK_THAT(kN_at(b, fmt::format("V post 3 {}", end), "pull"), WithinAbs(3.3653530, 1e-6));
  }
  CHECK_THAT(kN_at(b, "ground under V post 2", "pull"), WithinAbs(6.7307060, 1e-6));
  const Link& foot = b.link("V post 2 foot");
  CHECK(foot.verdict == Verdict::pass);
  CHECK_THAT(foot.use->value, WithinAbs(6.7307060 / 60.0, 1e-8));  // demo-screw: 60 kN
  CHECK(*foot.where.from_start == 4.2 * metre);
  CHECK(foot.where.wall == "A");
  CHECK(foot.load_case.id.empty());  // no load case of the house is its own
}

// AS 4055 has W with 0.9 G and 1.1 W with 0.8 G, or the like: the worst of either is taken, whichever case has it.
TEST_CASE("the greatest factor on the wind and the least on the weight of all load cases are taken") {
  const Built b(with_veranda(veranda_keys(), "class = \"N3\"\ngiven_by = \"a test\""));
  double wind = 0.0, dead = 10.0;
  for (const LoadCase& c : b.loads.cases) {
    wind = std::max(wind, c.combination.wind);
    dead = std::min(dead, c.combination.dead);
  }
  CHECK(dead < 0.9);
  CHECK_THAT(kN_at(b, "V R1 at 2200 wall"), WithinAbs(wind * 1.9044665 - dead * 0.1771875, 1e-6));
}

// A rafter at 2200 stands between the trusses at 1800 and 2700: a stud of its own. At 7200 stands a truss: one stud,
// and its tie has both to hold, in every load case.
TEST_CASE("what lifts a rafter at the wall comes down the house's own wall, in every load case") {
  const Built b(with_veranda());
  CHECK_THAT(kN_at(b, "top tie below V R1 at 2200 wall", "pull"), WithinAbs(1.7449978, 1e-6));
  CHECK_THAT(kN_at(b, "stud tie below V R1 at 2200 wall", "pull"), WithinAbs(1.7449978, 1e-6));
  const Built alone([] {
    Draft d = closed_box();
    d.site = by_as_nzs;
    return d;
  }());
  const auto stud_at = [](const Built& house, double at) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < house.forces.studs.size(); ++i)
      if (house.forces.studs[i].wall == house.wall_at("A") && !house.forces.studs[i].loads.empty() &&
          std::abs(house.forces.studs[i].at.value() - at) < 0.05)
        found.push_back(i);
    REQUIRE(found.size() == 1);
    return found.front();
  };
  const std::size_t both = stud_at(b, 7.2), truss = stud_at(alone, 7.2);
  CHECK(b.forces.studs[both].loads.size() == 2);
  const std::size_t bearing = alone.forces.studs[truss].loads.front().bearing;
  REQUIRE(b.loads.cases.size() == alone.loads.cases.size());
  for (std::size_t c = 0; c < b.loads.cases.size(); ++c) {
    const double sum = in_kN(alone.forces.uplift(c, bearing)) + 1.7449978 / 2.0;
    CHECK_THAT(in_kN(b.forces.stud_uplift(c, both)), WithinAbs(std::max(0.0, sum), 1e-6));
  }
  // Every fixing has at least as much to hold as without it: the plate's continuity never lets the veranda ease one.
  // All of wall A together has all that it brings.
  const std::size_t a = b.wall_at("A");
  for (std::size_t c = 0; c < b.loads.cases.size(); ++c) {
    double more = 0.0;
    bool all_lifted = true;
    for (std::size_t w = 0; w < b.forces.walls.size(); ++w)
      for (std::size_t s = 0; s < b.forces.walls[w].supports.size(); ++s) {
        const double with = in_kN(b.forces.roof_on(c, w, s)), without = in_kN(alone.forces.roof_on(c, w, s));
        CHECK(with >= without - 1e-9);
        if (w == a) more += with - without;
        else CHECK(with == without);
      }
    for (const Stud& s : alone.forces.studs)
      all_lifted = all_lifted &&
                   (s.wall != a || s.loads.empty() || in_kN(alone.forces.uplift(c, s.loads.front().bearing)) >= 0.0);
    if (all_lifted) CHECK(more >= 6.0 * 1.7449978 - 1e-6);
  }
}

// A door of 3 m from 1.5 to 4.5 m: the rafter at 2200 stands 0.7 m past its left jamb, so 2.3/3 and 0.7/3 of it go left
// and right.
TEST_CASE("a rafter over an opening lands on both its jambs by the lever rule") {
  Draft d = with_veranda();
  d.mark("D1", "{ size = \"2100 x 3000\", wind_rated = \"60 m/s\" }").wall("A", "\"B 1500 | D1 | B 7500\"");
  const Built b(d);
  std::size_t landed = 0;
  for (const Stud& s : b.forces.studs)
    for (const Stud::Load& load : s.loads) {
      if (!load.rafter || b.forces.verandas.rafter_words(*load.rafter, true) != "V R1 at 2200 wall") continue;
      ++landed;
      REQUIRE(s.jamb);
      CHECK(load.over_opening);
      CHECK_THAT(load.share, WithinAbs(s.jamb->end == End::left ? 2.3 / 3.0 : 0.7 / 3.0, 1e-12));
    }
  CHECK(landed == 2);
}

TEST_CASE("in a house of two floors a veranda hangs on the ground floor's wall") {
  Draft d = two_floor_box();
  d.verandas = {{"V", veranda_keys()}};
  const Built b(d);
  CHECK(b.link("V R1 at 2200 wall").where.wall == "ground A");
  CHECK(b.link("top tie below V R1 at 2200 wall").where.floor == "ground");
  for (const Stud& s : b.forces.studs)
    for (const Stud::Load& load : s.loads)
      if (load.rafter) CHECK(b.house.walls[s.wall].name == "ground A");
}

// ---- laws -----------------------------------------------------------------------------------------------------------

// Moments about either end close: level, both ends together hold pressure times area less the weight. At a pitch each
// end is asked for what it has when the other holds all of the level part: both together 1 / cos^2 of the wind.
TEST_CASE(
    "the ends of all rafters hold the pressure times the area less the weight; the posts hold what the beam does") {
  std::mt19937 rng(41);
  std::uniform_real_distribution<double> depth(1.0, 5.0), past(0.0, 0.9), pitch(0.0, 30.0), long_(1.0, 11.0),
      pressure(0.1, 3.0);
  for (int i = 0; i < 40; ++i) {
    const double d = depth(rng), o = past(rng), theta = i % 2 == 0 ? 0.0 : pitch(rng), l = long_(rng),
                 p = pressure(rng);
    Keys keys = veranda_keys();
    Draft::set(keys, "depth", fmt::format("\"{} m\"", d));
    Draft::set(keys, "overhang", fmt::format("\"{} m\"", o));
    Draft::set(keys, "pitch", fmt::format("\"{} deg\"", theta));
    Draft::set(keys, "length", fmt::format("\"{} m\"", l));
    Draft::set(keys, "from", "\"0.4 m\"");
    Draft::set(keys, "net_uplift", fmt::format("{{ pressure = \"{} kPa\", given_by = \"a test\" }}", p));
    const House house = with_veranda(keys).house();
    const Table& method = table(table_for(house.site));
    const Shape shape = shape_of(house);
    const Loads loads = method_for(house.site).loads(WindAsk{house.site, house, shape, method}, nullptr, std::nullopt);
    const Verandas v(house, loads);
    double wall = 0.0, beam = 0.0, lifted = 0.0, posts = 0.0;
    for (std::size_t r = 0; r < v.rafters.size(); ++r) {
      wall += in_kN(v.exact_at_wall(r));
      beam += in_kN(v.exact_at_beam(r));
      lifted += in_kN(v.at_beam(r));
    }
    for (std::size_t n = 0; n < v.posts.size(); ++n) posts += in_kN(v.on_post(n));
    const double plan = l * (d + o), cos2 = std::pow(std::cos(theta * std::numbers::pi / 180.0), 2);
    CHECK_THAT(wall + beam, WithinAbs(p * plan / cos2 - 0.9 * 0.15 * plan, 1e-6));
    CHECK_THAT(beam * d, WithinAbs((p / cos2 - 0.9 * 0.15) * plan * (d + o) / 2.0, 1e-6));  // about the wall
    CHECK_THAT(posts, WithinAbs(lifted, 1e-6));
  }
}

TEST_CASE("a mirrored veranda has the mirrored forces") {
  Keys here = veranda_keys(), there = veranda_keys();
  Draft::set(here, "posts", "{ at = [0, \"2 m\", \"6 m\"], top = \"demo-tie\", foot = \"demo-screw\" }");
  Draft::set(there, "posts", "{ at = [0, \"4 m\", \"6 m\"], top = \"demo-tie\", foot = \"demo-screw\" }");
  Draft::set(there, "from", "\"4.8 m\"");  // 12 - 1.2 - 6
  const Built a(with_veranda(here)), b(with_veranda(there));
  for (int i = 1; i <= 3; ++i)
    CHECK_THAT(kN_at(a, fmt::format("V post {} top", i), "pull"),
               WithinRel(kN_at(b, fmt::format("V post {} top", 4 - i), "pull"), 1e-9));
  for (int i = 0; i <= 6; ++i)
    CHECK_THAT(kN_at(a, fmt::format("V R1 at {} wall", 1200 + 1000 * i)),
               WithinRel(kN_at(b, fmt::format("V R1 at {} wall", 10800 - 1000 * i)), 1e-9));
}

TEST_CASE("a house that is built mirrored has its verandas mirrored with their walls") {
  for (const char* wall : {"A", "B", "C", "D"})
    for (const Mirror m : {Mirror::left_right, Mirror::front_back}) {
      INFO(wall << " " << words(m));
      Keys keys = with_key(veranda_keys(), "against", fmt::format("\"{}\"", wall));
      Draft::set(keys, "posts", "{ at = [0, \"2 m\", \"6 m\"], top = \"demo-tie\", foot = \"demo-screw\" }");
      const House drawn = with_veranda(keys).house();
      const bool across = wall[0] == 'A' || wall[0] == 'C', turned = across == (m == Mirror::left_right);
      const Built here(drawn), there(mirrored(drawn, m));
      const Veranda& v = there.house.verandas.at(0);
      const double from = !turned ? 1.2 : across ? 12.0 - 7.2 : 7.8 - 7.2;
      CHECK_THAT(v.from.value(), WithinAbs(from, 1e-9));
      CHECK_THAT(v.posts.at(1).value(), WithinAbs(from + (turned ? 4.0 : 2.0), 1e-9));
      for (int i = 1; i <= 3; ++i)
        CHECK_THAT(kN_at(there, fmt::format("V post {} top", turned ? 4 - i : i), "pull"),
                   WithinRel(kN_at(here, fmt::format("V post {} top", i), "pull"), 1e-9));
      CHECK(there.result.counts.pass == here.result.counts.pass);
      CHECK(there.result.counts.not_judged == here.result.counts.not_judged);
    }
}

TEST_CASE("wider spaces, a deeper roof, a longer overhang, more pressure never ease what lifts most") {
  struct Most {
    double rafter, post;
  };
  const auto most = [](const Keys& keys) {
    const Built b(with_veranda(keys));
    Most m{0.0, 0.0};
    for (const Link& l : b.result.links) {
      if (l.kind == "veranda bracket" && l.where.words.ends_with("beam"))
        m.rafter = std::max(m.rafter, in_kN(demand(l, "uplift")));
      if (l.kind == "post tie") m.post = std::max(m.post, in_kN(demand(l, "pull")));
    }
    return m;
  };
  const auto grows = [&](const std::string& key, std::initializer_list<const char*> values) {
    Most before{0.0, 0.0};
    for (const char* v : values) {
      INFO(key << " = " << v);
      const Most now = most(with_key(veranda_keys(), key, v));
      CHECK(now.rafter >= before.rafter - 1e-9);
      CHECK(now.post >= before.post - 1e-9);
      before = now;
    }
  };
  grows("rafters", {"{ mark = \"R1\", max = \"0.5 m\" }", "{ mark = \"R1\", max = \"1 m\" }",
                    "{ mark = \"R1\", max = \"1.5 m\" }"});
  grows("posts", {"{ max = \"1 m\" }", "{ max = \"2 m\" }", "{ max = \"3 m\" }", "{ max = \"6 m\" }"});
  grows("depth", {"\"1.2 m\"", "\"2.4 m\"", "\"4 m\""});
  grows("overhang", {"\"0 m\"", "\"0.3 m\"", "\"0.9 m\""});
  grows("net_uplift", {"{ pressure = \"0.3 kPa\", given_by = \"a\" }", "{ pressure = \"1.6 kPa\", given_by = \"a\" }",
                       "{ pressure = \"3 kPa\", given_by = \"a\" }"});
}

// 0.1 kPa against 0.9 x 0.15 kPa: pressed.
TEST_CASE("a veranda that is pressed relieves nothing") {
  Draft plain = closed_box();
  plain.site = by_as_nzs;
  const Built b(with_veranda(with_key(veranda_keys(), "net_uplift", "{ pressure = \"0.1 kPa\", given_by = \"a\" }"))),
      alone(plain);
  for (const Link& l : b.result.links)
    if (of_a_veranda(l)) CHECK(l.parts.front().demand.si == 0.0);
  for (std::size_t c = 0; c < b.loads.cases.size(); ++c)
    for (std::size_t s = 0; s < b.forces.walls[b.wall_at("A")].supports.size(); ++s)
      CHECK(b.forces.pull(c, b.wall_at("A"), s) >= alone.forces.pull(c, alone.wall_at("A"), s));
}

// ---- without the wind that lifts it --------------------------------------------------------------------------------

TEST_CASE("without net_uplift neither the veranda nor what carries it in the house is judged") {
  const Built b(with_veranda(with_key(veranda_keys(), "net_uplift", ""))), given(with_veranda());
  REQUIRE(b.result.links.size() == given.result.links.size());
  std::size_t of_the_house = 0;
  for (std::size_t i = 0; i < b.result.links.size(); ++i) {
    const Link &l = b.result.links[i], &full = given.result.links[i];
    INFO(l.where.words);
    REQUIRE(l.where.words == full.where.words);
    if (of_a_veranda(l)) {
      CHECK(l.verdict == Verdict::not_judged);
      CHECK(l.why.code == "veranda-not-known");
    }
    // A link that has more to hold with the veranda must not hold without it.
    const bool carries = !l.parts.empty() && l.parts.front().greatest.si < full.parts.front().greatest.si;
    if (carries) CHECK(l.verdict != Verdict::pass);
    if (!of_a_veranda(l) && l.why.code == "veranda-not-known") {
      ++of_the_house;
      CHECK(l.where.wall == "A");
      CHECK(key_to_add(l).key == "`net_uplift`");
    }
    if (l.where.wall == "C") CHECK(l.verdict == full.verdict);
  }
  CHECK(of_the_house >= 10);
  CHECK(b.result.answer != Answer::pass);
  CHECK(b.result.answer != Answer::pass_if);
  const std::string page = unwrapped(first_screen(b.result, Look{}));
  CHECK_THAT(page, Contains("what lifts veranda V is not given"));
  CHECK_THAT(page, Contains("`net_uplift`"));
}

TEST_CASE("by_others answers for all of a veranda, and for what it brings to the house") {
  Draft d = with_veranda(with_key(veranda_keys(), "net_uplift", ""));
  d.by_others = {{"veranda", "\"engineer M\""}};
  const Built b(d), open(with_veranda(with_key(veranda_keys(), "net_uplift", "")));
  REQUIRE(b.result.links.size() == open.result.links.size());
  for (std::size_t i = 0; i < b.result.links.size(); ++i) {
    const Link &l = b.result.links[i], &before = open.result.links[i];
    INFO(l.where.words);
    if (before.why.code == "veranda-not-known") {
      CHECK(l.verdict == Verdict::by_others);
      CHECK(l.why.subject == "engineer M");
    } else {
      CHECK(l.verdict == before.verdict);
    }
  }
  REQUIRE(b.result.by_others.size() == 1);
  CHECK(b.result.by_others.front().what == "veranda");
  CHECK_THAT(unwrapped(every_link(b.result, Look{})), Contains("engineer M answers for both"));
  CHECK_THAT(unwrapped(every_link(b.result, Look{})), Contains("links of verandas and of what they hang on"));
}

TEST_CASE("a fixing that is not named, or a footing not stated where the sheet asks, is not judged") {
  Keys bare = with_key(veranda_keys(), "rafters", "{ mark = \"R1\", max = \"1 m\" }");
  Draft::set(bare, "posts", "{ max = \"3 m\" }");
  const Built b(with_veranda(bare));
  for (const Link& l : b.result.links)
    if (of_a_veranda(l)) {
      CHECK(l.verdict == Verdict::not_judged);
      CHECK(l.why.code == "no-fixing");
    }
  CHECK(key_to_add(b.link("V R1 at 2200 wall")).key == "`at_wall`");
  CHECK(key_to_add(b.link("V R1 at 2200 beam")).key == "`at_beam`");
  CHECK(key_to_add(b.link("V post 1 top")).key == "`top`");
  CHECK(key_to_add(b.link("V post 1 foot")).key == "`foot`");
  // demo-bolt is cast in and asks for its edge and its concrete: those of the footing, never those of the house's slab.
  const auto foot = [](const char* footing) {
    return Built(with_veranda(with_key(veranda_keys(), "posts",
                                       fmt::format("{{ max = \"3 m\", foot = \"demo-bolt\"{} }}", footing))))
        .link("V post 1 foot");
  };
  const Link open = foot("");
  CHECK(open.verdict == Verdict::not_judged);
  CHECK(open.why.code == "condition-not-stated");
  CHECK(foot(", footing = { edge = 200, concrete = \"25 MPa\", cracked = true }").verdict == Verdict::pass);
  CHECK(foot(", footing = { edge = 200, concrete = \"15 MPa\", cracked = true }").verdict == Verdict::fail);
  CHECK(foot(", footing = { concrete = \"25 MPa\", cracked = true }").verdict == Verdict::not_judged);
}

// ---- bad input ------------------------------------------------------------------------------------------------------

TEST_CASE("a veranda that cannot be is refused where it stands") {
  struct Bad {
    const char *key, *to, *code, *on;  // on: what the line that is shown begins with
  };
  for (const Bad& bad : {
           Bad{"against", "\"E\"", "not-an-outside-wall", "against"},
           Bad{"against", "\"Z\"", "unknown-wall", "against"},
           Bad{"against", "", "missing-key", "[veranda"},
           Bad{"from", "\"13 m\"", "beyond-the-wall", "from"},
           Bad{"length", "\"11 m\"", "beyond-the-wall", "length"},
           Bad{"length", "\"0 m\"", "not-positive", "length"},
           Bad{"depth", "\"0 m\"", "not-positive", "depth"},
           Bad{"depth", "", "missing-key", "[veranda"},
           Bad{"depth", "\"20 m\"", "unbelievable-value", "depth"},
           Bad{"overhang", "\"-0.1 m\"", "negative", "overhang"},
           Bad{"pitch", "\"31 deg\"", "unbelievable-value", "pitch"},
           Bad{"pitch", "\"-5 deg\"", "negative", "pitch"},
           Bad{"weight", "", "missing-key", "[veranda"},
           Bad{"rafters", "", "missing-key", "[veranda"},
           Bad{"rafters", "{ mark = \"R1\" }", "missing-key", "rafters"},
           Bad{"rafters", "{ mark = \"R 1\", max = \"1 m\" }", "bad-name", "rafters"},
           Bad{"rafters", "{ mark = \"R1\", max = \"1 m\", at_wall = \"demo-claet\" }", "unknown-fixing", "rafters"},
           Bad{"rafters", "{ mark = \"R1\", max = \"1 m\", at_wall = \"demo-tie\" }", "wrong-sort-of-fixing",
               "rafters"},
           Bad{"posts", "{ top = \"demo-tie\" }", "missing-key", "posts"},
           Bad{"posts", "{ max = \"3 m\", at = [0, \"6 m\"] }", "two-ways", "posts"},
           Bad{"posts", "{ at = [0, \"7 m\"] }", "post-beyond-the-veranda", "posts"},
           Bad{"posts", "{ at = [0, \"-1 m\", \"6 m\"] }", "post-beyond-the-veranda", "posts"},
           Bad{"posts", "{ at = [0, \"5 m\"] }", "beam-end-without-a-post", "posts"},
           Bad{"posts", "{ at = [\"1 m\", \"6 m\"] }", "beam-end-without-a-post", "posts"},
           Bad{"posts", "{ at = [0, \"4 m\", \"3 m\", \"6 m\"] }", "posts-out-of-order", "posts"},
           Bad{"posts", "{ max = \"3 m\", foot = \"demo-bolts\" }", "unknown-fixing", "posts"},
           Bad{"posts", "{ max = \"3 m\", foot = \"demo-through\" }", "anchor-on-the-wrong-floor", "posts"},
           Bad{"net_uplift", "{ pressure = \"1.6 kPa\" }", "missing-key", "net_uplift"},
           Bad{"net_uplift", "{ given_by = \"a letter\" }", "missing-key", "net_uplift"},
           Bad{"net_uplift", "{ pressure = \"-1 kPa\", given_by = \"a\" }", "negative", "net_uplift"},
           Bad{"net_uplift", "{ pressure = \"1.6 kN\", given_by = \"a\" }", "wrong-unit", "net_uplift"},
           Bad{"shade", "true", "unknown-key", "shade"},
       }) {
    INFO(bad.key << " = " << bad.to);
    Draft d = with_veranda(with_key(veranda_keys(), bad.key, bad.to));
    d.wall("E", "{ from_left = 6000, run = \"7800 mm\" }");
    const Opened o = d.opened();
    CHECK_FALSE(o.house.has_value());
    REQUIRE(o.problems.size() == 1);
    CHECK(o.problems.front().code == bad.code);
    CHECK(o.problems.front().source_line.starts_with(bad.on));
  }
  const Opened two =
      with_verandas({{"V", veranda_keys()}, {"W", with_key(veranda_keys(), "from", "\"6 m\"")}}).opened();
  REQUIRE(two.problems.size() == 1);
  CHECK(two.problems.front().code == "verandas-in-one-place");
  CHECK(with_verandas(
            {{"V", with_key(veranda_keys(), "from", "\"0 m\"")}, {"W", with_key(veranda_keys(), "from", "\"6 m\"")}})
            .opened()
            .house.has_value());
  Keys tipping = with_key(veranda_keys(), "depth", "\"0.8 m\"");
  Draft::set(tipping, "overhang", "\"1.2 m\"");
  const Opened tips = with_veranda(tipping).opened();
  REQUIRE(tips.problems.size() == 1);
  CHECK(tips.problems.front().code == "overhang-too-long");
  Draft basis = with_veranda(with_key(veranda_keys(), "posts", "{ max = \"3 m\", top = \"asd\" }"));
  basis.fixing("[[tie]]\nname = \"asd\"\npull = \"9 kN\"\nbasis = \"allowable\"\n");
  const Opened other = basis.opened();
  REQUIRE(other.problems.size() == 1);
  CHECK(other.problems.front().code == "basis-mismatch");
}

TEST_CASE("left out, a veranda takes the whole wall, has no overhang, and stands on its own side") {
  Keys keys = veranda_keys();
  for (const char* key : {"from", "length", "overhang"}) Draft::set(keys, key, "");
  Draft::set(keys, "against", "\"D\"");
  const House h = with_veranda(keys).house();
  const Veranda& v = h.verandas.at(0);
  CHECK(v.from == zero<Length>());
  CHECK(v.to == 7.8 * metre);
  CHECK(v.overhang == zero<Length>());
  CHECK(v.rafters.size() == 9);  // eight spaces of 975 mm
  CHECK(v.posts.size() == 4);    // three of 2600 mm
  CHECK(Built(h).link("V R1 at 975 wall").where.face == "left");
}

// ---- what is said ---------------------------------------------------------------------------------------------------

TEST_CASE("the pages say a veranda back, tell its forces, and mark what was typed in") {
  const Built b(with_veranda());
  const std::string show = unwrapped(said_back(b.house, set_out(b.house, b.practice), b.result.roof, Look{}));
  CHECK_THAT(show, Contains("Veranda V, against wall A"));
  CHECK_THAT(show, Contains("From 1200 to 7200 along that wall; 2400 mm deep to the posts, 300 mm past them"));
  CHECK_THAT(show, Contains("1.6 kPa, typed in, not worked out here; given by a letter"));
  CHECK_THAT(show, Contains("1200 4200 7200"));

  const std::string typed =
      "The wind that lifts veranda V, 1.6000 kPa, was typed in, not worked out here (given by a letter)";
  CHECK_THAT(unwrapped(first_screen(b.result, Look{})), Contains(typed));
  CHECK_THAT(unwrapped(every_link(b.result, Look{})), Contains(typed));
  CHECK_THAT(unwrapped(belay::json(b.result, false)), Contains("veranda-typed-in"));
  CHECK_THAT(belay::json(b.result, false), Contains("\"V/R1/at/2200/wall\""));
  CHECK(std::any_of(b.result.not_looked_at.begin(), b.result.not_looked_at.end(),
                    [](const NotLookedAt& n) { return n.what == "verandas"; }));
  Draft plain = closed_box();
  const Built without(plain);
  CHECK(std::none_of(without.result.not_looked_at.begin(), without.result.not_looked_at.end(),
                     [](const NotLookedAt& n) { return n.what == "verandas"; }));

  for (const char* words : {"V R1 at 2200 wall", "V R1 at 2200 beam", "V post 2 top", "V post 2 foot"}) {
    const Found found = find_link(b.result, words);
    INFO(words);
    REQUIRE(found.links.size() == 1);
    const std::size_t i = found.links.front();
    CHECK(b.result.links[i].where.words == words);
    const std::string page =
        working_page(b.result, i, explain(b.house, b.method, b.practice, b.result, i, metric), Look{});
    fits(page);
    CHECK_THAT(unwrapped(page), Contains("given by a letter"));
    CHECK_THAT(unwrapped(page), Contains(typed));
    CHECK(orphan(explain(b.house, b.method, b.practice, b.result, i, metric)).empty());
  }
}

// The job's own figures rest on no coefficient of the method, but for the factors of its combination.
TEST_CASE("a veranda's links rest on no figure from memory but those of the combination") {
  const Built b(with_veranda());
  for (const Link& l : b.result.links)
    if (of_a_veranda(l)) {
      INFO(l.where.words);
      CHECK(l.rests_on_memory.empty());  // AS/NZS 1170.0 cl. 4.2.2 was read
    }
  CHECK_FALSE(b.link("top tie T1 at 900 front").rests_on_memory.empty());
}
