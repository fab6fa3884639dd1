// A first floor over the main block of a house with wings: what stands where, what comes down and pushes, with figures
// worked out by hand; what cannot be meant is refused, and what is missing never passes. Invented: see tall_ell.hpp.
#include "job/mirrored.hpp"
#include "judge/judge.hpp"
#include "pages.hpp"
#include "recompute.hpp"
#include "report/said_back.hpp"
#include "sanitized.hpp"
#include "tall_ell.hpp"
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double exact = 1e-9;
const double t = std::tan(25.0 * std::numbers::pi / 180.0);

TallEll in_less_wind() {
  TallEll e;
  e.site = "class = \"N1\"\ngiven_by = \"a test\"";
  return e;
}
TallEll tall(const std::function<void(TallEll&)>& change) {
  TallEll e;
  change(e);
  return e;
}
Result checked(const House& h) { return check(h, table(table_for(h.site)), table("practice/common.toml")); }
const Link& link(const Result& r, const std::string& words, const std::string& kind = "") {
  std::string all;
  for (const Link& l : r.links) {
    if (l.where.words == words && (kind.empty() || l.kind == kind)) return l;
    all += l.kind + ": " + l.where.words + "\n";
  }
  throw std::runtime_error(fmt::format("no link \"{}\" among\n{}", words, all));
}
// "front across at 0, 0 to 12000 in 0".
std::string stands(const House& h, std::string_view name) {
  const auto w = std::ranges::find(h.walls, name, &Wall::name);
  REQUIRE(w != h.walls.end());
  std::string s = fmt::format("{} {} at {}, {} to {} in", w->outside ? words(w->side) : "inside",
                              w->runs == Along::across ? "across" : "up", place(w->line, metric),
                              place(w->from, metric), place(w->to, metric));
  for (const std::size_t b : w->blocks) s += fmt::format(" {}", b);
  return s;
}
// One thing is wrong with the job.
void refused(const TallEll& e, std::string_view code, const std::string& message, const std::string& help) {
  const std::string job = e.job(), fixings = plenty(e.basis);
  const Opened o = read_job(job, "job.toml", [&](std::string_view) { return std::optional(fixings); });
  INFO(render(o.problems, false) << "expected: " << code << ": " << message);
  CHECK_FALSE(o.house.has_value());
  REQUIRE(o.problems.size() == 1);
  CHECK(o.problems.front().code == code);
  CHECK_THAT(o.problems.front().message, Contains(message));
  CHECK_THAT(o.problems.front().help, Contains(help));
  CHECK(o.problems.front().line > 0);
}
// On a wall below a slope and on that slope it goes by the pitch and the width: of a block alone.
double push_of(const Winged& b, std::size_t block, const std::string& id, std::string_view part) {
  for (const LoadCase& c : b.each[block].cases)
    if (c.id == id)
      for (const Push& p : c.push)
        if (p.what.find(part) != std::string::npos) return p.p / kilopascals(1.0);
  throw std::runtime_error("no push " + std::string(part) + " in " + id);
}

}  // namespace

// ---- what stands where

TEST_CASE("two floors and a wing: the first floor stands over all of the main block, the wing on the ground alone") {
  const House h = TallEll{}.house();
  CHECK(stands(h, "ground A") == "front across at 0, 0 to 6000 in 0");
  CHECK(stands(h, "ground G") == "inside across at 0, 6000 to 12000 in 0 1");
  CHECK(stands(h, "ground D") == "right up at 12000, -5000 to 8000 in 0 1");
  CHECK(stands(h, "ground C") == "front across at -5000, 6000 to 12000 in 1");
  CHECK(stands(h, "first A") == "front across at 0, 0 to 12000 in 0");
  CHECK(stands(h, "first D") == "right up at 12000, 0 to 8000 in 0");
  CHECK(h.walls.size() == 11);
  CHECK(h.wings.at(0).valley == std::nullopt);
  const House wing = seen_from(h, 1), main = seen_from(h, 0);
  CHECK((main.first && !wing.first));
  CHECK(top_floor(wing) == Floor::ground);
  CHECK_THAT(top_of_walls(main) / metres(1.0), WithinRel(5.6, exact));
  CHECK_THAT(top_of_walls(wing) / metres(1.0), WithinRel(2.7, exact));
  const auto remarked = [&](std::string_view what) {
    return std::ranges::any_of(h.remarks, [&](const std::string& r) { return r.find(what) != std::string::npos; });
  };
  CHECK(remarked("on the first floor one wall, A, stands along all of the front of block main"));
  CHECK(remarked("block garage: its trusses bear 2900 below those of block main; its roof ends at the joint"));
}

TEST_CASE("two floors and a wing: the first floor's walls have the first names of their sides, or names of their own") {
  const House h = tall([](TallEll& e) {
                    e.main_walls += ", first = { front = \"K\" }";
                    e.first_a = "K = \"B 2000 | 8000 | B 2000\"\n";
                  }).house();
  CHECK(stands(h, "first K") == "front across at 0, 0 to 12000 in 0");
  CHECK(stands(h, "ground A") == "front across at 0, 0 to 6000 in 0");
  CHECK(stands(h, "first E") == "back across at 8000, 0 to 12000 in 0");
  // Where the wing stands along a whole side the floor below has no name to take.
  const auto covered = [](const std::string& more) {
    return tall([&](TallEll& e) {
      e.main_walls = "right = \"D\", back = \"E\", left = \"F\"" + more;
      e.garage = false;
      e.more_first =
          "[block.garage]\nsize = [12000, 5000]\nplace = { against = \"main front\", flush = \"right\" }\n"
          "walls = { front = \"C\", right = \"K\", left = \"L\" }\nheight = 2700\nroof = { shape = \"gable\", "
          "ridge = \"up\", pitch = \"15 deg\", eaves = 0, verge = 0, weight = \"0.40 kPa\" }\n"
          "trusses = { mark = \"T2\", max = 1000 }\n";
      e.more_ground =
          "G = { in = \"main\", from_front = 0, run = \"B 2000 | 8000 | B 2000\" }\nC = { same_as = \"E\" "
          "}\nK = \"B 2000 | 3000\"\nL = { same_as = \"K\" }\n";
    });
  };
  const auto without_a = [](TallEll e) {  // no ground wall A: the joint is all of that side
    std::string job = e.job();
    const std::string a = "A = \"B 2000 | 8000 | B 2000\"\n";
    return job.erase(job.find(a), a.size());
  };
  const std::string named = without_a(covered(", first = { front = \"A\" }"));
  CHECK(stands(read_blocks(named, plenty()), "first A") == "front across at 0, 0 to 12000 in 0");
  const std::string unnamed = without_a(covered("")), fixings = plenty();
  const Opened o = read_job(unnamed, "job.toml", [&](std::string_view) { return std::optional(fixings); });
  INFO(render(o.problems, false));
  REQUIRE(o.problems.size() == 1);
  CHECK_THAT(o.problems[0].message, Contains("`first` is missing: the first floor's wall at the front of block main"));
}

TEST_CASE("two floors and a wing: what cannot be meant, or not yet, is refused") {
  refused(tall([](TallEll& e) { e.garage_height = "{ ground = 2700, first = 2550 }"; }), "not-yet",
          "a second floor over a block that stands against another", "block main alone");
  refused(tall([](TallEll& e) { e.garage_walls += ", first = { front = \"C\" }"; }), "wrong-key",
          "block garage has one floor", "leave it out");
  refused(
      tall([](TallEll& e) { e.more_first = "H = { in = \"garage\", from_front = 2000, run = \"B 2000 | 4000\" }\n"; }),
      "wall-over-one-floor", "wall first H would stand in block garage, which has one floor", "in = \"main\"");
  refused(tall([](TallEll& e) { e.pitch = "50 deg"; }), "ridge-above-the-bearings",  // 3 tan 50 = 3.575, 2.9 below
          "the ridge of block garage stands 675 above the bearings of block main's roof", "a lower pitch");
  refused(tall([](TallEll& e) { e.slab = "100"; }), "bearings-above",
          "the trusses of block garage would bear 100 above the ground floor's walls of block main", "slab = 0");
  refused(tall([](TallEll& e) { e.joint = ""; }), "no-wall-at-the-joint",
          "no wall stands where block garage meets block main", "an inside wall on that line");
  // Of one floor's run the other's is not long enough
  refused(tall([](TallEll& e) { e.first_a = "A = { same_as = \"ground\" }\n"; }), "run-too-short", "wall first A", "");
}

TEST_CASE("two floors and a wing: an inside wall of the first floor is the main block's without a word") {
  const std::string run = "run = \"B 2000 | 10000\" }\n";
  const House h = tall([&](TallEll& e) {
                    e.more_ground = "H = { in = \"main\", from_front = 4000, " + run;
                    e.more_first = "H = { same_as = \"ground\" }\nJ = { from_front = 5000, " + run;
                  }).house();
  CHECK(stands(h, "ground H") == "inside across at 4000, 0 to 12000 in 0");
  CHECK(stands(h, "first H") == "inside across at 4000, 0 to 12000 in 0");
  CHECK(stands(h, "first J") == "inside across at 5000, 0 to 12000 in 0");
}

TEST_CASE("two floors and a wing: the house is said back with its blocks and floors") {
  const House h = tall([](TallEll& e) {
                    e.slab = "-100";
                    e.main_walls += ", first = { front = \"K\" }";
                    e.first_a = "K = \"B 2000 | 8000 | B 2000\"\n";
                  }).house();
  const std::vector<RoofSaid> roofs = roofs_of(h);
  const std::string page =
      said_back(h, set_out(h, table("practice/common.toml")), roofs[0], Look{}, {roofs.begin() + 1, roofs.end()});
  const std::string text = unwrapped(page);
  for (const char* line :
       {"the roof's bearings 5600 mm", "each on wall first K (front) and wall first E (back)",
        "Its floor 100 mm below that of block main; its trusses bear 3000 mm below those of block main",
        "each on wall ground B (left) and wall ground D (right)", "No part of its roof lies on the main roof",
        "Wall ground G, at the joint of blocks main and garage", "Wall ground D, the right of blocks main and garage",
        "Wall first K, the front of block main", "Wall first D, the right of block main",
        "Both floors of block main have one outline: its size"}) {
    INFO(line << "\n" << page);
    CHECK_THAT(text, Contains(line, Catch::CaseSensitive::No));
  }
}

TEST_CASE("two floors and a wing: trusses of the wing bear on its inside walls, among the ground floor's") {
  const auto with_wall = [](std::string_view name) {
    return tall([&](TallEll& e) {
      e.more_ground = "H = { in = \"garage\", from_left = 3000, run = \"B 2000 | 3000\" }\n";
      e.garage_trusses = fmt::format("mark = \"T2\", max = 1000, also_on = [\"{}\"]", name);
    });
  };
  const WingedForces b(with_wall("H").house());
  CHECK(b.house.wings.at(0).trusses.front().also_on == std::vector<std::string>{"ground H"});
  CHECK(b.forces.roof.bearings()[b.bearing_at("T2 at 1000 on ground H")].feet.at(0).wall == b.wall_at("ground H"));
  refused(with_wall("N"), "unknown-wall", "no wall `N` under [wall.ground] for a truss to bear on", "H");
}

// ---- what pushes, by hand. On gables 1.5 * 0.96 = 1.44 kPa, and so on every wall below mid-height of the first
// floor's, 5.6 - 1.275 = 4.325 m.

namespace {
constexpr double on_gable = 1.44;
const double first_across = on_gable * (8.0 * 1.275 + 16.0 * t) / 2.0;  // the gable end's upper part, half to A and E
}  // namespace

TEST_CASE("two floors and a wing: the lines across by hand, the joint's with both floors and both blocks") {
  // From the left: the main block's band from 1.35 to 4.325 m, 8 * 2.975, half to A+G, half to E; the wing's own 5 *
  // 1.35 of wall and 5 * 3 t of roof, half to C, half to the joint.
  const WingedForces b(TallEll{}.house());
  const double band = on_gable * 8.0 * 2.975, wing = push_of(b, 1, "left class", "wall") * (6.75 + 15.0 * t);
  for (const auto& [id, sign] : {std::pair("left class", 1.0), {"right class", -1.0}}) {
    const std::size_t c = b.case_at(id);
    const auto line = [&](const char* name) { return in_kN(b.forces.line_force(c, b.line_at(name))); };
    CHECK_THAT(line("first A"), WithinRel(sign * first_across, exact));
    CHECK_THAT(line("ground A+ground G"), WithinRel(sign * (first_across + band / 2.0 + wing / 2.0), exact));
    CHECK_THAT(line("ground E"), WithinRel(sign * (first_across + band / 2.0), exact));
    CHECK_THAT(line("ground C"), WithinRel(sign * wing / 2.0, exact));
  }
  CHECK(b.forces.line_below(b.line_at("first A")) == b.line_at("ground A+ground G"));
  CHECK(b.forces.line_below(b.line_at("first D")) == b.line_at("ground D"));
}

TEST_CASE("two floors and a wing: the lines up by hand: the wing hides a part of the ground floor's face alone") {
  // Onto the front. Above mid-height of the first floor's walls, 12 * 1.275 of wall and 12 * 4 t of roof, half to F,
  // half to D: the wing's ridge, at 2.7 + 3 t = 4.10 m, hides nothing there. Below, 6 * 2.975 = 17.85 m2 beside the
  // wing, its middle at 3 m; behind it as much less the wing's 6 * 1.35 + 9 t, its middle at 9 m. The wing's gable,
  // half to B, half to D.
  const WingedForces b(TallEll{}.house());
  const double above = push_of(b, 0, "front class", "roof") * (12.0 * 1.275 + 48.0 * t) / 2.0;
  const double beside = on_gable * 17.85, behind = on_gable * (17.85 - 8.1 - 9.0 * t),
               wing = on_gable * (8.1 + 9.0 * t);
  const std::size_t c = b.case_at("front class");
  const auto line = [&](const char* name) { return in_kN(b.forces.line_force(c, b.line_at(name))); };
  CHECK_THAT(line("first F"), WithinRel(above, exact));
  CHECK_THAT(line("first D"), WithinRel(above, exact));
  CHECK_THAT(line("ground F"), WithinRel(above + beside * 0.75 + behind * 0.25, exact));
  CHECK_THAT(line("ground D"), WithinRel(above + beside * 0.25 + behind * 0.75 + wing / 2.0, exact));
  CHECK_THAT(line("ground B"), WithinRel(wing / 2.0, exact));
}

TEST_CASE("two floors and a wing: under rigid ceilings the joint's line has its shares of both blocks by stiffness") {
  // Each brace holds 2 * 6 = 12 kN: A+G has four, E, C and F two each, D three, B two. Of the main block's push from
  // the left, all of it above 1.35 m, A+G has 48 of 72, E the rest; of the wing's A+G has 48 of 72, C the rest.
  House h = TallEll{}.house();
  h.ceiling = Ceiling::rigid;
  const WingedForces b(h);
  const double main = on_gable * 8.0 * 2.975 + 2.0 * first_across,
               wing = push_of(b, 1, "left class", "wall") * (6.75 + 15.0 * t);
  const std::size_t c = b.case_at("left class");
  const auto direct = [&](const char* line) {
    double sum = 0.0;
    for (const Piece_of_demand& p : b.forces.line_made_of(c, b.line_at(line)))
      if (p.what != "turning of the ceiling") sum += in_kN(p.value);
    return sum;
  };
  CHECK_THAT(direct("ground A+ground G"), WithinRel((main + wing) * 2.0 / 3.0, exact));
  CHECK_THAT(direct("ground E"), WithinRel(main / 3.0, exact));
  CHECK_THAT(direct("ground C"), WithinRel(wing / 3.0, exact));
  CHECK_THAT(direct("first A"), WithinRel(first_across, exact));
  for (const Line& l : b.forces.lines)
    CHECK(std::abs(in_kN(b.forces.line_force(c, b.line_at(l.name)))) >= direct(l.name.c_str()) - 1e-9);
}

TEST_CASE("two floors and a wing: through the wing's brackets goes what its ceiling brings, not what the floor does") {
  // Onto the front, to D: of the main block a quarter of what is beside the wing and three quarters of what is behind,
  // half of the wing's gable; a truss serves 1 m of the wing's 5 m. What first D hands down goes through none of them.
  const WingedForces b(TallEll{}.house());
  const std::size_t c = b.case_at("front class");
  const double ceilings = on_gable * (17.85 * 0.25 + (17.85 - 8.1 - 9.0 * t) * 0.75) + on_gable * (8.1 + 9.0 * t) / 2.0;
  CHECK_THAT(in_kN(b.forces.bracket_along(c, b.bearing_at("T2 at 2000 right"))), WithinRel(ceilings / 5.0, exact));
  CHECK(in_kN(b.forces.line_force(c, b.line_at("ground D"))) > ceilings + 1.0);
}

// ---- what comes down, by hand

TEST_CASE("two floors and a wing: a brace above the joint hands its pull to the joint's wall below") {
  // A roof so heavy that nothing lifts it. Each line has four braces below, two above, alike; arm 2 - 0.1 - 0.025.
  const WingedForces b(tall([](TallEll& e) { e.weight = "2.0 kPa"; }).house());
  const std::size_t c = b.case_at("left class");
  const double wing = push_of(b, 1, "left class", "wall") * (6.75 + 15.0 * t),
               joint = first_across + on_gable * 8.0 * 2.975 / 2.0 + wing / 2.0;
  const double above = first_across / 2.0 * 2.55 / 1.875, below = joint / 4.0 * 3.05 / 1.875;
  const auto pull = [&](const char* wall, double at) {
    const std::size_t w = b.wall_at(wall);
    for (std::size_t i = 0; i < b.forces.walls[w].supports.size(); ++i)
      if (std::abs(b.forces.walls[w].supports[i].at / mm(1.0) - at) < 0.5) return in_kN(b.forces.pull(c, w, i));
    throw std::runtime_error("no fixing there");
  };
  // The second brace above stands from 10 to 12 m, over the joint's second, 4 to 6 m along it
  CHECK_THAT(pull("first A", 10100.0), WithinRel(above, exact));
  CHECK_THAT(pull("ground G", 4100.0), WithinRel(above + below, exact));
  CHECK_THAT(pull("ground G", 100.0), WithinRel(below, exact));  // no brace stands over it
  // and tips by its own height alone in the wing: no floor lies on C
  const double of_c = in_kN(b.forces.line_force(c, b.line_at("ground C"))) / 2.0 * 2.7 / 1.875;
  CHECK_THAT(pull("ground C", 100.0), WithinRel(of_c, exact));
}

TEST_CASE("two floors and a wing: the floor is fixed to the main block's lines, as far as they are its own") {
  const WingedForces b(TallEll{}.house());
  // one for each 0.6 m: 10 on A, 10 on G; D's 8 m of 13 have 13
  CHECK(b.forces.floor_fixings(b.line_at("ground A+ground G")) == 20.0);
  CHECK(b.forces.floor_fixings(b.line_at("ground D")) == 13.0);
  const Result r = checked(b.house);
  for (const Link& l : r.links)
    if (l.kind == "floor fixing") CHECK(l.where.block == "main");
  CHECK(std::ranges::count(r.links, "floor fixing", &Link::kind) == 4);
  // Square on: half of 2.7 m of wall A for each of its spaces of 0.6 m; the same at the joint's end of the line
  const std::size_t c = b.case_at("front class");
  double p = 0.0;
  for (const SquareOn& s : b.used.cases[c].square_on)
    if (s.side == Side::front && s.block == 0) p = s.p / kilopascals(1.0);
  CHECK(std::abs(p) > 1.0);
  CHECK_THAT(in_kN(b.forces.floor_fixing_across(c, b.line_at("ground A+ground G"))),
             WithinRel(std::abs(p) * 2.7 / 2.0 * 0.6, exact));
}

TEST_CASE("two floors and a wing: the roof's uplift is that of the house without the wing") {
  const WingedForces b(TallEll{}.house());
  const House h = tall([](TallEll& e) { e.garage = false; }).house();
  const Built alone(h);
  std::size_t compared = 0;
  for (std::size_t c = 0; c < alone.loads.cases.size(); ++c) {
    const std::size_t d = b.case_at(alone.loads.cases[c].id);
    for (int at = 0; at <= 12; ++at)
      for (const char* side : {"front", "back"}) {
        const std::string words = fmt::format("T1 at {} {}", 1000 * at, side);
        CHECK_THAT(in_kN(b.forces.uplift(d, b.bearing_at(words))),
                   WithinAbs(in_kN(alone.forces.uplift(c, alone.bearing_at(words))), 1e-9));
        ++compared;
      }
    // On a side below a slope the push goes by the depth of the whole plan, where that is worse.
    const auto force = [&](const char* line) {
      return std::pair(in_kN(b.forces.line_force(d, b.line_at(line))),
                       in_kN(alone.forces.line_force(c, alone.line_at(line))));
    };
    for (const char* line : {"first A", "first E"}) CHECK_THAT(force(line).first, WithinAbs(force(line).second, 1e-9));
    for (const char* line : {"first D", "first F"})
      CHECK(std::abs(force(line).first) >= std::abs(force(line).second) - 1e-9);
  }
  CHECK(compared > 100);
}

TEST_CASE("two floors and a wing: a truss at the joint and a fixing above it pull on one stud") {
  // The wing's last truss stands at the joint, y = 0: on D 5 m from its start. First D's front hold-down stands 40 mm
  // behind it.
  const WingedForces b(tall([](TallEll& e) { e.hold_down_in = "40"; }).house());
  std::size_t both = 0;
  for (const Stud& s : b.forces.studs) {
    const bool crossed = !b.forces.crossings_to(s).empty();
    if (!crossed || !Forces::bears_on(s)) continue;
    ++both;
    CHECK(b.house.walls[s.wall].name == "ground D");
    CHECK_THAT(s.at / metres(1.0), WithinRel(5.0, exact));
    for (std::size_t c = 0; c < b.used.cases.size(); ++c) {
      Force sum = zero<Force>();
      for (const Stud::Load& l : s.loads)
        sum += l.crossing
                   ? b.forces.pull(c, b.forces.crossings[*l.crossing].wall, b.forces.crossings[*l.crossing].support)
                   : b.forces.uplift(c, l.bearing);
      CHECK_THAT(in_kN(b.forces.stud_uplift(c, static_cast<std::size_t>(&s - b.forces.studs.data()))),
                 WithinAbs(std::max(0.0, in_kN(sum)), 1e-9));
    }
  }
  CHECK(both == 1);
}

// ---- places and edges

TEST_CASE("two floors and a wing: each link says its block and its floor") {
  const Result r = checked(TallEll{}.house());
  const auto where = [&](const std::string& words, const std::string& kind) {
    const Link& l = link(r, words, kind);
    return l.where.block + ", " + l.where.floor;
  };
  CHECK(where("T1 at 3000 front", "bracket") == "main, first");
  CHECK(where("T2 at 1000 left", "bracket") == "garage, ground");
  CHECK(where("line ground C to the right", "line") == "garage, ground");
  CHECK(where("line first A to the right", "line") == "main, first");
  CHECK(where("ground B1 front", "hold-down") == "garage, ground");
  CHECK(where("first A2 left", "hold-down") == "main, first");
  CHECK(r.blocks.size() == 2);
  CHECK_THAT(r.blocks[0].height / metres(1.0), WithinRel(5.6, exact));
  CHECK_THAT(r.blocks[1].height / metres(1.0), WithinRel(2.7, exact));
}

TEST_CASE("two floors and a wing: the first floor's wall over the joint is no edge of the slab") {
  // Of G's middle the nearest outside wall is 3 m away; of A's hold-down its own, half a plate.
  const Result r = checked(TallEll{}.house());
  const auto edge = [&](const std::string& wall, double at) {
    for (const Link& l : r.links)
      if (l.where.wall == wall && l.where.from_start && std::abs(*l.where.from_start / mm(1.0) - at) < 30.0)
        for (const Condition& c : l.conditions)
          if (c.name == "distance to the slab's edge") return c.has;
    return std::string();
  };
  CHECK_THAT(edge("ground A", 3000.0), Contains("45 mm"));
  const std::string far = edge("ground G", 3000.0);
  INFO(far);
  CHECK((!far.empty() && far.find("45 mm") == std::string::npos));
}

// ---- what is missing never passes

TEST_CASE(
    "two floors and a wing: with all of its fixings and braces none of its links fails, without them none passes") {
  const Result r = checked(in_less_wind().house());
  for (const Link& l : r.links) {
    INFO(l.kind << ": " << l.where.words);
    CHECK((l.verdict == Verdict::pass || l.kind == "ground" || l.kind == "compression" || l.kind == "line spacing"));
  }
  const Result bare = checked(tall([](TallEll& e) { e.floor_fixing = ""; }).house());
  for (const char* line : {"ground A+ground G", "ground D", "ground E", "ground F"})
    CHECK(link(bare, fmt::format("floor to line {}", line), "floor fixing").verdict == Verdict::not_judged);
}

TEST_CASE(
    "two floors and a wing: where no wall stands below the first floor's, its ties and their line are not judged") {
  // Open from 9 to 12 m: first A's second brace stands over nothing.
  const House h = tall([](TallEll& e) {
                    e.joint =
                        "G = { in = \"main\", from_front = 0, between = [6000, 9000], run = \"B 2000 | 1000\" }\n";
                  }).house();
  const Result r = checked(h);
  CHECK(link(r, "floor tie first A2 left", "floor tie").verdict == Verdict::not_judged);
  CHECK(link(r, "floor tie first A1 left", "floor tie").verdict == Verdict::pass);
  // Open from 6 to 9 m: the line has a gap.
  TallEll open = in_less_wind();
  open.joint = "G = { in = \"main\", from_front = 0, between = [9000, 12000], run = \"B 2000 | 1000\" }\n";
  const Result gap = checked(open.house());
  for (const char* sense : {"right", "left"}) {
    const Link& l = link(gap, fmt::format("line ground A+ground G to the {}", sense), "line");
    CHECK(l.verdict == Verdict::not_judged);
    CHECK_THAT(l.why.code, Contains("gap"));
  }
  CHECK(link(gap, "floor to line ground A+ground G", "floor fixing").verdict == Verdict::not_judged);
  CHECK(link(gap, "ground G1 left", "hold-down").verdict == Verdict::not_judged);
}

TEST_CASE("two floors and a wing: a brace above the joint that does not count leaves what stands under it unjudged") {
  // The sheet counts from 900 mm: 600 mm of it are stiff all the same.
  const Result r =
      checked(tall([](TallEll& e) { e.first_a = "A = \"B 2000 | 4000 | B 2000 | 3400 | B 600\"\n"; }).house());
  CHECK(link(r, "brace first A3", "brace").verdict == Verdict::fail);
  CHECK(link(r, "ground G2 right", "hold-down").verdict != Verdict::pass);
}

// ---- what else such a house may have

TEST_CASE("two floors and a wing: built in the mirror, the same lines hold the same") {
  const House h = TallEll{}.house();
  const WingedForces b(h), m(mirrored(h, Mirror::left_right));
  const std::map<std::string, std::string> seen{{"left class", "right class"}, {"right class", "left class"}};
  REQUIRE(b.forces.lines.size() == m.forces.lines.size());
  for (const LoadCase& k : b.used.cases) {
    const std::string other = seen.contains(k.id) ? seen.at(k.id) : k.id;
    for (const Line& l : b.forces.lines) {
      INFO(k.id << ", line " << l.name);
      const double here = in_kN(b.forces.line_force(b.case_at(k.id), b.line_at(l.name))),
                   there = in_kN(m.forces.line_force(m.case_at(other), m.line_at(l.name)));
      CHECK_THAT(std::abs(there), WithinAbs(std::abs(here), 1e-9));
    }
  }
}

TEST_CASE("two floors and a wing: straps stand over the joint too, and hold the roof as without the wing") {
  const auto braced = [](bool garage) {
    return tall([&](TallEll& e) {
      e.garage = garage;
      e.more_main =
          "roof_braces = [\n  { use = \"demo-pair\", slope = \"front\", foot = 7000, head = 10000 },\n  { use = "
          "\"demo-pair\", slope = \"back\", foot = 7000, head = 10000 },\n]\n";
    });
  };
  const Result with_it = checked(braced(true).house()), without = checked(braced(false).house());
  int compared = 0;
  for (const Link& l : with_it.links) {
    if (l.kind != "roof plane" && l.kind != "roof brace") continue;
    const Link& alone = link(without, l.where.words, l.kind);
    INFO(l.where.words);
    CHECK(l.where.block == "main");
    CHECK(l.where.floor == "first");
    REQUIRE(l.parts.size() == alone.parts.size());
    for (std::size_t i = 0; i < l.parts.size(); ++i)
      CHECK_THAT(l.parts[i].demand.si, WithinAbs(alone.parts[i].demand.si, 1e-6));
    ++compared;
  }
  CHECK(compared >= 6);
}

TEST_CASE(
    "two floors and a wing: a veranda leans on the ground floor, and what it pulls goes with what comes from above") {
  const auto with_veranda = [](std::string_view wall, std::string_view pressure) {
    return tall([&](TallEll& e) {
      e.more_first = fmt::format(
          "\n[veranda.V]\nagainst = \"{}\"\nfrom = 0\nlength = 4000\ndepth = 1800\noverhang = 300\npitch = \"5 "
          "deg\"\nweight = \"0.15 kPa\"\nrafters = {{ mark = \"R1\", max = 1000, at_wall = \"demo-cleat\", at_beam = "
          "\"demo-cleat\" }}\nposts = {{ max = 3000, top = \"demo-tie\", foot = \"demo-screw\" }}\nnet_uplift = {{ "
          "pressure = \"{}\", given_by = \"a letter\" }}\n",
          wall, pressure);
    });
  };
  for (const auto& [wall, block] : {std::pair("A", "main"), {"C", "garage"}}) {
    const WingedForces b(with_veranda(wall, "1.6 kPa").house());
    const WingedForces plain(TallEll{}.house());
    const std::size_t w = b.wall_at(fmt::format("ground {}", wall));
    const auto pulled = [&](const WingedForces& f) {
      Force sum = zero<Force>();
      for (std::size_t i = 0; i < f.forces.studs.size(); ++i)
        if (f.forces.studs[i].wall == w) sum += f.forces.stud_uplift(0, i);
      return in_kN(sum);
    };
    INFO(wall);
    CHECK(pulled(b) > pulled(plain) + 1.0);
    const Result r = checked(b.house);
    const Link& rafter = link(r, "V R1 at 1000 wall");
    CHECK(rafter.where.block == block);
    CHECK(rafter.where.floor == "ground");
  }
  refused(with_veranda("G", "1.6 kPa"), "not-an-outside-wall", "wall ground G stands inside", "an outside wall");
}

// ---- the working

TEST_CASE("two floors and a wing: the working of both floors' and both blocks' links comes out again") {
  REQUIRE(recompute::units_works());
  for (const bool asce : {false, true}) {
    TallEll e;
    e.slab = "-100";
    e.wall_weight = "\"0.25 kPa\"";
    if (asce) {
      e.basis = "allowable";
      e.site =
          "method = \"ASCE 7-16\"\nspeed = \"130 mph\"\nspeed_is = \"ultimate\"\nexposure = \"C\"\nrisk = "
          "\"II\"\nlevel = \"allowable\"\ntopography = \"flat\"\ndebris_region = false\ngiven_by = \"a test\"";
    }
    const House h = e.house();
    const Result r = checked(h);
    for (const auto& [words_of, kind] : {std::pair("T2 at 5000 left", "bracket"),
                                         {"T2 at 2000 right", "bracket"},
                                         {"line ground A+ground G to the right", "line"},
                                         {"line ground D of main to the back", "line"},
                                         {"line ground D of garage to the back", "line"},
                                         {"floor to line ground A+ground G", "floor fixing"},
                                         {"ground G2 left", "hold-down"},
                                         {"ground B1 front", "hold-down"}}) {
      const Link& l = link(r, words_of, kind);
      const Units* u = asce ? &us : &metric;
      const Working w = explain(h, table(table_for(h.site)), table("practice/common.toml"), r,
                                static_cast<std::size_t>(&l - r.links.data()), *u);
      INFO((asce ? "ASCE 7-16, " : "AS 4055, ") << words_of << ", " << u->name);
      CHECK(orphan(w) == "");
      const auto outcome = recompute::recompute(w);
      for (const auto& miss : outcome.misses) FAIL_CHECK(miss);
      CHECK(outcome.checked >= 5);
      CHECK(outcome.worst <= 1.0);
      for (const LinkPart& p : l.parts)
        if (p.role != Role::reported && p.demand.si != 0.0 && p.demand.kind != Kind::ratio)
          CHECK(std::any_of(w.steps.begin(), w.steps.end(), [&](const Step& s) { return s.result.si == p.demand.si; }));
    }
  }
}

// ---- houses drawn at random

TEST_CASE("two floors and wings: what crosses the floor comes down in the main block whole, and every number is told") {
  std::size_t crossed = 0, over_joints = 0, told = 0;
  for (unsigned seed = 400; seed < (sanitized ? 401U : 403U); ++seed) {
    const WingedForces b(house_of(two_floored(random_blocks(seed), seed)));
    const Forces& f = b.forces;
    std::vector<double> shares(f.crossings.size(), 0.0);
    for (const Stud& s : f.studs)
      for (const Stud::Load& l : s.loads)
        if (l.crossing) {
          CHECK(f.crossings[*l.crossing].below == s.wall);
          shares[*l.crossing] += l.share;
        }
    for (std::size_t x = 0; x < f.crossings.size(); ++x) {
      INFO("seed " << seed << ", " << f.support_words(f.crossings[x].wall, f.crossings[x].support));
      // Walls stand all round on the ground floor, and under each inside wall above: something is always there.
      REQUIRE(f.crossings[x].below);
      const Wall& below = b.house.walls[*f.crossings[x].below];
      CHECK((below.floor == Floor::ground && stands_in(below, 0)));
      // twice only on a post between two openings, of which either may carry it
      CHECK((std::abs(shares[x] - 1.0) < 1e-12 || shares[x] == 2.0));
      ++crossed;
      over_joints += below.blocks.size() > 1 ? 1 : 0;
    }
    const HouseWind wind(b.house, b.method);
    const LineSpacing spacing = method_for(b.house.site).line_spacing(wind.ask());
    const Judge judge(f, spacing, b.method);
    std::map<std::string, Working> winds;
    for (std::size_t i = seed % 7; i < judge.seeds().size(); i += 7) {
      const Link l = judge.link(i);
      const std::size_t c = l.load_case.id.empty() ? 0 : b.case_at(l.load_case);
      const auto [told_wind, fresh] = winds.try_emplace(l.load_case.id, Working(metric));
      if (fresh) wind.tell(f.wind_of(c), told_wind->second);
      Working w = told_wind->second;
      judge.tell(i, c, w);
      INFO(l.where.words << ", " << l.load_case.id);
      CHECK_THAT(orphan(w), Catch::Matchers::Equals(""));
      std::set<std::string> once;  // under each heading
      for (const Step& step : w.steps)
        if (!once.insert(fmt::format("{} | {} | {} | {} | {}", step.heading, step.symbol, step.words, step.formula,
                                     step.result.si))
                 .second)
          FAIL_CHECK(step.heading << ": " << step.symbol << ", " << step.words);
      for (const LinkPart& part : l.parts) {
        if (part.demand.si == 0.0 || (!part.rule.empty() && !part.use) || part.role == Role::reported) continue;
        INFO(part.part << " " << part.demand.si);
        CHECK(
            std::any_of(w.steps.begin(), w.steps.end(), [&](const Step& step) { return step.result == part.demand; }));
      }
      ++told;
    }
  }
  CHECK(crossed > (sanitized ? 30U : 100U));
  CHECK(over_joints > (sanitized ? 0U : 10U));
  CHECK(told > (sanitized ? 20U : 50U));
}
