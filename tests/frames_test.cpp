// Walls made of shop frames: a joint parts the plates, fixings stand beside it, nothing is shared across it; what a
// joint cannot do is refused with its place. Stations and shares worked out by hand. Invented, all of it.
#include "houses.hpp"
#include "job/run.hpp"
#include "job_text.hpp"
#include "pages.hpp"
#include "report/said_back.hpp"
#include <algorithm>
#include <random>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const std::string c_run = "C = \"B 1800 | 8400 | B 1800\"";
// The good job with other words for its wall C, 12000 long, and fixings that hold.
std::string with_c(std::string_view table) { return with(good_job, c_run, fmt::format("C = {{ {} }}", table)); }
std::string with_frames(std::string_view frames) {
  return with_c(fmt::format("run = \"B 1800 | 8400 | B 1800\", frames = \"{}\"", frames));
}
House house_of(const std::string& job) { return good(job, plenty()); }
const Wall& wall(const House& h, std::string_view name) {
  const auto w = std::ranges::find(h.walls, name, &Wall::name);
  REQUIRE(w != h.walls.end());
  return *w;
}
std::string frames_of(const House& h, std::string_view name) {
  std::string all;
  for (const ShopFrame& f : wall(h, name).frames)
    all += fmt::format("{}{} {} to {}", all.empty() ? "" : ", ", f.mark.empty() ? "-" : f.mark, place(f.from, metric),
                       place(f.to, metric));
  return all;
}
std::string stations(const House& h, std::string_view name) {
  std::string all;
  for (const Station& s : set_out(h, table("practice/common.toml")))
    if (s.wall == name) all += (all.empty() ? "" : " ") + place(s.from_start, metric);
  return all;
}

}  // namespace

TEST_CASE("frames are read as a run is, each with its length") {
  const Run run = read_frames("F1 2400|  EW-2 3600 | 1800 ", raw::Drawing::mm);
  CHECK(run.slips.empty());
  REQUIRE(run.pieces.size() == 3);
  CHECK((run.pieces[0].mark == "F1" && run.pieces[1].mark == "EW-2" && run.pieces[2].mark.empty()));
  CHECK_THAT(run.pieces[1].length->value(), WithinAbs(3.6, 1e-12));
  CHECK((run.pieces[1].at == 10 && run.pieces[1].size == 9));
  const Run feet = read_frames("F1 8-0 | 12-6", raw::Drawing::feet);
  CHECK(feet.slips.empty());
  CHECK_THAT(feet.pieces.at(1).length->value(), WithinAbs(12.5 * 0.3048, 1e-12));
  const Run bad = read_frames("F1 | | 18OO", raw::Drawing::mm);
  std::vector<std::string> codes;
  for (const RunSlip& s : bad.slips) codes.push_back(fmt::format("{} {}", s.at, s.code));
  CHECK(codes == std::vector<std::string>{"5 empty-piece", "7 not-a-length", "0 frame-without-length"});
}

TEST_CASE("a joint parts the plate, and a fixing stands beside it on either side") {
  const House whole = house_of(std::string(good_job));
  // Hold-downs 100 in from the braces' ends; 1700 to 10300 is 8600, in 8 spaces of 1075.
  CHECK(stations(whole, "C") == "100 900 1700 2775 3850 4925 6000 7075 8150 9225 10300 11100 11900");
  const House h = house_of(with_frames("CF1 3600 | CF2 4800 | 3600"));
  CHECK(frames_of(h, "C") == "CF1 0 to 3600, CF2 3600 to 8400, - 8400 to 12000");
  // Plates 0 to 3600, to 8400, to 12000, a fixing 100 in from each end. 1700 to 3500 is 1800, in 2 spaces of 900;
  // 3700 to 8300 is 4600, in 4 of 1150; 8500 to 10300 in 2 of 900.
  CHECK(stations(h, "C") == "100 900 1700 2600 3500 3700 4850 6000 7150 8300 8500 9400 10300 11100 11900");
  for (const char* other : {"A", "B", "D", "E"}) CHECK(stations(h, other) == stations(whole, other));
  const Built b(h);
  const WallSetOut& out = b.forces.walls[b.wall_at("C")];
  REQUIRE(out.plates.size() == 3);
  CHECK(place(out.plates[1].from, metric) == "3600");
  CHECK(place(out.plates[1].to, metric) == "8400");
  // The wind square on goes to the plate that it meets: to the joint, not half-way over it.
  CHECK(place(out.supports[4].to, metric) == "3600");
  CHECK(place(out.supports[5].from, metric) == "3600");
}

TEST_CASE("what comes down goes to the fixings of its own frame; on the very joint each frame is asked for the whole") {
  const Built b(house_of(with_frames("CF1 3600 | CF2 4800 | 3600")));
  const Forces& f = b.forces;
  const std::size_t c_wall = b.wall_at("C");
  const auto support_at = [&](int at) {
    const auto& s = f.walls[c_wall].supports;
    return static_cast<std::size_t>(
        std::ranges::find_if(s, [&](const Support& x) { return place(x.at, metric) == std::to_string(at); }) -
        s.begin());
  };
  const auto stud_at = [&](int at) {
    return static_cast<std::size_t>(
        std::ranges::find_if(
            f.studs, [&](const Stud& x) { return x.wall == c_wall && place(x.at, metric) == std::to_string(at); }) -
        f.studs.begin());
  };
  // Trusses at 900 from the left: one on the joint at 3600.
  const std::vector<Length> first{0.1 * metre, 0.9 * metre, 1.7 * metre, 2.6 * metre, 3.5 * metre},
      second{3.7 * metre, 4.85 * metre, 6.0 * metre, 7.15 * metre, 8.3 * metre};
  std::size_t lifted = 0;
  for (std::size_t c = 0; c < f.loads.cases.size(); ++c) {
    const auto u = [&](int at) { return f.stud_uplift(c, stud_at(at)); };
    // At 3500: the truss at 2700 stands 100 past the fixing at 2600, of a space of 900; that at 3600 stands 100 past
    // the last fixing, of a space of 900.
    const Force lever = u(2700) * (100.0 / 900.0) + u(3600) * (1.0 + 100.0 / 900.0);
    Force beam = zero<Force>();
    for (const int at : {0, 900, 1800, 2700, 3600})
      beam += u(at) * continuous_shares(first, at / 1000.0 * metre).back();
    CHECK_THAT(f.roof_on(c, c_wall, support_at(3500)).value(), WithinAbs(std::max(lever, beam).value(), 1e-6));
    // At 3700: the truss at 3600 100 before it, of a space of 1150; that at 4500 350 before the next at 4850.
    const Force lever2 = u(3600) * (1.0 + 100.0 / 1150.0) + u(4500) * (350.0 / 1150.0);
    Force beam2 = zero<Force>();
    for (const int at : {3600, 4500, 5400, 6300, 7200, 8100})
      beam2 += u(at) * continuous_shares(second, at / 1000.0 * metre).front();
    CHECK_THAT(f.roof_on(c, c_wall, support_at(3700)).value(), WithinAbs(std::max(lever2, beam2).value(), 1e-6));
    lifted += u(3600) > zero<Force>() ? 1 : 0;
  }
  CHECK(lifted > 0);
}

TEST_CASE("braces on both sides of a joint hold on to their own frames") {
  const House h =
      house_of(with_c("run = \"B 1800 | B 1800 | 6600 | B 1800\", frames = \"CF1 1800 | CF2 6000 | CF3 4200\""));
  const Built b(h);
  const WallSetOut& out = b.forces.walls[b.wall_at("C")];
  const auto serving = [&](std::size_t piece) {
    std::string all;
    for (const Support& s : out.supports)
      for (const BraceEnd& e : s.ends)
        if (e.piece == piece) all += fmt::format("{} on plate {}; ", place(s.at, metric), s.plate);
    return all;
  };
  CHECK(serving(0) == "100 on plate 0; 1700 on plate 0; ");
  CHECK(serving(1) == "1900 on plate 1; 3500 on plate 1; ");
  // Without hold-downs of their own they lean on the nearest fixing, and the nearest across the joint is none of
  // theirs.
  const std::string job =
      with(with(with_c("run = \"B 1800 | B 1800 | 6600 | B 1800\", frames = \"CF1 1800 | CF2 6000 | CF3 4200\""),
                "B = { brace = \"demo-sheet\", hold_down = \"demo-rod\" }", "B = { brace = \"demo-sheet\" }"),
           "hold_down_in = 100", "hold_down_in = 140");
  const Built leaning(house_of(job));
  std::string leans;
  for (const Support& s : leaning.forces.walls[leaning.wall_at("C")].supports)
    for (const BraceEnd& e : s.ends)
      leans += fmt::format("C{} {} at {} on plate {}; ", e.piece + 1, e.end == End::left ? "left" : "right",
                           place(s.at, metric), s.plate);
  // Ends of plates are fixed 140 in: at the wall's ends and on either side of the joint at 1800.
  CHECK(leans ==
        "C1 left at 140 on plate 0; C1 right at 1660 on plate 0; C2 left at 1940 on plate 1; "
        "C4 right at 11860 on plate 2; ");
}

TEST_CASE("a hold-down in the very end of its brace stands on the plate of its own frame") {
  const House h = house_of(with(with_c("run = \"1800 | B 1800 | 6600 | B 1800\", frames = \"CF1 1800 | CF2 10200\""),
                                "hold_down_in = 100", "hold_down_in = \"0 mm\""));
  const Built b(h);
  std::size_t there = 0;
  for (const Support& s : b.forces.walls[b.wall_at("C")].supports)
    for (const BraceEnd& e : s.ends)
      if (e.piece == 1) {
        CHECK(s.plate == 1);
        ++there;
      }
  CHECK(there == 2);
}

TEST_CASE("one frame from end to end is the wall without frames") {
  const Built whole(house_of(std::string(good_job))), framed(house_of(with_frames("CF1 12000")));
  REQUIRE(whole.result.links.size() == framed.result.links.size());
  for (std::size_t i = 0; i < whole.result.links.size(); ++i) {
    const Link &a = whole.result.links[i], &b = framed.result.links[i];
    CHECK(a.id == b.id);
    REQUIRE(a.use.has_value() == b.use.has_value());
    if (a.use) CHECK(a.use->value == b.use->value);
  }
}

TEST_CASE("wherever joints stand, every plate is fixed at its ends and within its spaces") {
  std::mt19937 rng(20);  // always the same walls
  std::size_t joints = 0;
  for (int n = 0; n < 40; ++n) {
    // Joints clear of the braces' 1800 at either end and of W1 from 5000 to 6800.
    std::vector<int> at;
    for (const auto& [low, high] : {std::pair{1800, 4900}, {6900, 10200}}) {
      const int how_many = std::uniform_int_distribution<int>(0, 2)(rng);
      for (int i = 0; i < how_many; ++i) at.push_back(std::uniform_int_distribution<int>(low, high)(rng));
    }
    at.push_back(12000);
    std::ranges::sort(at);
    at.erase(std::unique(at.begin(), at.end()), at.end());
    std::string frames;
    int from = 0;
    for (const int to : at) {
      frames += fmt::format("{}{}", frames.empty() ? "" : " | ", to - from);
      from = to;
    }
    INFO(frames);
    const House h =
        house_of(with_c(fmt::format("run = \"B 1800 | 3200 | W1 | 3400 | B 1800\", frames = \"{}\"", frames)));
    const WallSetOut out = set_out_wall(h, 2, table("practice/common.toml"));
    REQUIRE(out.plates.size() == at.size());
    for (std::size_t i = 0; i < out.plates.size(); ++i) {
      const Plate& p = out.plates[i];
      CHECK(place(p.to, metric) == std::to_string(at[i]));
      REQUIRE_FALSE(p.supports.empty());
      const Length reach = 0.15 * metre + same_place;
      CHECK(out.supports[p.supports.front()].at - p.from <= reach);
      CHECK(p.to - out.supports[p.supports.back()].at <= reach);
      for (std::size_t k = 0; k < p.supports.size(); ++k) {
        const Support& s = out.supports[p.supports[k]];
        CHECK((s.at >= p.from && s.at <= p.to));
        CHECK((s.from >= p.from && s.to <= p.to));
        if (k > 0) CHECK(s.at - out.supports[p.supports[k - 1]].at <= 1.2 * metre + same_place);
      }
      joints += i > 0 ? 1 : 0;
    }
    for (const Jamb& j : out.loose_jambs) CHECK(j.piece != 2);
    CHECK(out.loose_ends.empty());
  }
  CHECK(joints > 20);
}

TEST_CASE("fixings of two frames nearer to each other than the anchor's sheet allows fail") {
  // 100 on either side of the joint: 200 apart.
  for (const auto& [needs, fails] : {std::pair{"200 mm", false}, {"201 mm", true}}) {
    std::string fixings = plenty();
    const auto bolt = fixings.find("name = \"demo-bolt\"");
    const std::string was = "least_spacing = \"10 mm\"";
    fixings.replace(fixings.find(was, bolt), was.size(), fmt::format("least_spacing = \"{}\"", needs));
    const Built b(
        good(with(with_frames("CF1 3600 | CF2 8400"), "thickness = 100", "thickness = 100\nconcrete = \"25 MPa\""),
             fixings));
    for (const char* words : {"C anchor at 3500", "C anchor at 3700"}) {
      INFO(words << ' ' << needs);
      const auto l = std::ranges::find_if(b.result.links, [&](const Link& x) {
        return x.kind == "anchor" && x.where.wall == "C" && x.where.from_start &&
               std::string(words).ends_with(place(*x.where.from_start, metric));
      });
      REQUIRE(l != b.result.links.end());
      const auto spacing = std::ranges::find_if(l->conditions, [](const Condition& c) {
        return c.name.find("next") != std::string::npos || c.name.find("spacing") != std::string::npos;
      });
      REQUIRE(spacing != l->conditions.end());
      CHECK(spacing->has == "200 mm");
      CHECK(spacing->met == (fails ? Met::no : Met::yes));
      CHECK(l->verdict == (fails ? Verdict::fail : Verdict::pass));
    }
  }
}

TEST_CASE("frames go with the run that they are made for") {
  const std::string b_run = "B = \"B 1200 | 1800 | W1 | 1800 | B 1200\"", d = "D = { same_as = \"B\" }";
  const auto walls = [&](std::string_view b, std::string_view d_keys) {
    std::string job =
        with(good_job, b_run, fmt::format("B = {{ run = \"B 1200 | 900 | W1 | 2700 | B 1200\", {} }}", b));
    return house_of(with(job, d, fmt::format("D = {{ {} }}", d_keys)));
  };
  const std::string_view made = "frames = \"F1 1500 | F2 6300\"";
  const std::string stands = "F1 0 to 1500, F2 1500 to 7800", turned = "F2 0 to 6300, F1 6300 to 7800";
  House h = walls(made, "same_as = \"B\"");
  CHECK(frames_of(h, "B") == stands);
  CHECK(frames_of(h, "D") == stands);
  h = walls(made, "mirror_of = \"B\"");
  CHECK(frames_of(h, "D") == turned);
  // The end from which the run is read is that from which the frames are.
  h = walls("from = \"back\", frames = \"F1 1500 | F2 6300\"", "same_as = \"B\"");
  CHECK(frames_of(h, "B") == turned);
  CHECK(frames_of(h, "D") == turned);
  h = walls("from = \"back\", frames = \"F1 1500 | F2 6300\"", "mirror_of = \"B\"");
  CHECK(frames_of(h, "D") == stands);
  h = walls(made, "same_as = \"B\", from = \"back\"");
  CHECK(frames_of(h, "D") == turned);
  // Frames of its own win, and go from its left or front.
  h = walls(made, "mirror_of = \"B\", frames = \"G1 3000 | G2 4800\"");
  CHECK(frames_of(h, "D") == "G1 0 to 3000, G2 3000 to 7800");
  h = walls("from = \"back\"", "same_as = \"B\", frames = \"G1 3000 | G2 4800\"");
  CHECK(frames_of(h, "D") == "G1 0 to 3000, G2 3000 to 7800");
  CHECK(frames_of(h, "B").empty());
}

TEST_CASE("an opening may be all that stands between two joints") {
  // A garage: a frame on each side of its door, whose lintel goes in on site.
  const House h =
      house_of(with(good_job, "A = \"B 1200 | D1 | 3600 | D1 | B 1200\"",
                    "A = { run = \"B 1200 | D1 | 3600 | D1 | B 1200\", frames = \"A1 1200 | 3000 | A2 3600 | "
                    "3000 | A1 1200\" }"));
  CHECK(frames_of(h, "A") == "A1 0 to 1200, - 1200 to 4200, A2 4200 to 7800, - 7800 to 10800, A1 10800 to 12000");
  const Built b(h), whole(house_of(std::string(good_job)));
  // The doors part the plate as it is: nothing changes.
  CHECK(stations(h, "A") == stations(whole.house, "A"));
  CHECK(b.forces.walls[b.wall_at("A")].plates.size() == 3);
  // The window has a plate under it, of its own now; its jambs stand on the frames beside it.
  const Built window(
      house_of(with(good_job, "B = \"B 1200 | 1800 | W1 | 1800 | B 1200\"",
                    "B = { run = \"B 1200 | 1800 | W1 | 1800 | B 1200\", frames = \"3000 | 1800 | 3000\" "
                    "}")));
  const WallSetOut& out = window.forces.walls[window.wall_at("B")];
  REQUIRE(out.plates.size() == 3);
  std::string jambs;
  for (const Support& s : out.supports)
    for (const Jamb& j : s.jambs)
      jambs += fmt::format("{} {} on plate {}; ", place(s.at, metric), j.end == End::left ? "front" : "back", s.plate);
  CHECK(jambs == "2900 front on plate 0; 4900 back on plate 2; ");
}

TEST_CASE("frames are said back, and what was not looked at is said") {
  const House h = house_of(with_frames("CF1 3600 | CF2 4800 | 3600"));
  const std::string page = said_back(h, set_out(h, table("practice/common.toml")), roof_of(h), Look{false});
  fits(page);
  CHECK_THAT(unwrapped(page),
             Contains("3 frames: CF1 0 to 3600, CF2 3600 to 8400 and 8400 to 12000; both plates part at each joint"));
  const House whole = house_of(std::string(good_job));
  CHECK_THAT(said_back(whole, set_out(whole, table("practice/common.toml")), roof_of(whole), Look{false}),
             !Contains("frames:"));
  const auto told = [](const House& x) {
    const Built b(x);
    return std::ranges::count(b.result.not_looked_at, "joints of frames", &NotLookedAt::what);
  };
  CHECK(told(h) == 1);
  CHECK(told(whole) == 0);
  CHECK(told(house_of(with_frames("CF1 12000"))) == 0);
}

TEST_CASE("frames that cannot be built are refused with their place") {
  struct Bad {
    const char *what, *job;  // what C's table says
    const char* code;
    std::size_t column, size;
    const char *message, *help;
  };
  // C = { run = "..." stands in line 49; `frames` begins in column 12 when it comes first.
  const Bad bad[]{
      {"too short", "frames = \"F1 6000 | F2 5900\", run = \"B 1800 | 8400 | B 1800\"", "frames-too-short", 17, 17,
       "wall C: the frames add up to 11900, the wall is 12000: 100 short", "from 0: F1 to 6000, F2 to 11900"},
      {"too long", "frames = \"6001 | F2 6000\", run = \"B 1800 | 8400 | B 1800\"", "frames-too-long", 17, 14,
       "the frames add up to 12001, the wall is 12000: 1 too long", "from 0: a frame to 6001, F2 to 12001"},
      {"without a length", "frames = \"F1 6000 | F2\", run = \"B 1800 | 8400 | B 1800\"", "frame-without-length", 27, 2,
       "how long is the frame `F2`?", "F1 2400"},
      {"no length", "frames = \"F1 6000 | 60OO\", run = \"B 1800 | 8400 | B 1800\"", "not-a-length", 27, 4, "",
       "a frame is a length"},
      {"nothing between bars", "frames = \"F1 6000 || 6000\", run = \"B 1800 | 8400 | B 1800\"", "empty-piece", 26, 1,
       "nothing stands between", "one frame between bars"},
      {"empty", "frames = \"\", run = \"B 1800 | 8400 | B 1800\"", "empty-text", 0, 0, "", ""},
      {"no text", "frames = [6000, 6000], run = \"B 1800 | 8400 | B 1800\"", "wrong-type", 16, 12, "frames", ""},
      {"through a brace", "frames = \"F1 1000 | F2 11000\", run = \"B 1800 | 8400 | B 1800\"", "joint-in-a-brace", 17,
       7, "wall C: the joint at 1000 goes through brace C1 (0 to 1800)", "two braces"},
      {"through the last brace", "frames = \"F1 5000 | F2 6000 | 1000\", run = \"B 1800 | 8400 | B 1800\"",
       "joint-in-a-brace", 27, 7, "wall C: the joint at 11000 goes through brace C2 (10200 to 12000)", ""},
      {"through a window", "frames = \"F1 4000 | F2 8000\", run = \"B 1800 | 1800 | W1 | 4800 | B 1800\"",
       "joint-in-an-opening", 17, 7, "wall C: the joint at 4000 goes through opening W1 (3600 to 5400)", "one frame"},
      {"through a door", "frames = \"F1 4000 | F2 8000\", run = \"B 1800 | 1800 | D3 | 5780 | B 1800\"",
       "joint-in-an-opening", 17, 7, "opening D3 (3600 to 4420)", ""},
      {"beside a window", "frames = \"F1 3600 | F2 8400\", run = \"B 1800 | 1800 | W1 | 4800 | B 1800\"",
       "opening-beside-a-joint", 27, 7, "wall C: opening W1 ends on the joint at 3600", "leave room for the stud"},
      {"beside a window, after it", "frames = \"F1 5400 | F2 6600\", run = \"B 1800 | 1800 | W1 | 4800 | B 1800\"",
       "opening-beside-a-joint", 17, 7, "wall C: opening W1 ends on the joint at 5400", ""},
      {"read from the right",
       "frames = \"F1 4000 | F2 8000\", from = \"right\", run = \"B 1800 | 1800 | W1 | 4800 | B 1800\"",
       "joint-in-an-opening", 17, 7, "the joint at 8000 goes through opening W1 (6600 to 8400)", ""},
      {"one mark, two lengths", "frames = \"F1 5000 | F1 7000\", run = \"B 1800 | 8400 | B 1800\"", "frame-twice", 27,
       7, "frame `F1` is 7000 long here and 5000 before", "alike"},
  };
  for (const Bad& b : bad) {
    INFO(b.what);
    const Opened o = read(with_c(b.job));
    INFO(render(o.problems, false));
    CHECK_FALSE(o.house.has_value());
    REQUIRE(o.problems.size() == 1);
    const Problem& p = o.problems[0];
    CHECK(p.line == 49);
    if (b.column > 0) {
      CHECK(p.code == b.code);
      CHECK(p.column == b.column);
      CHECK(p.length == b.size);
    }
    CHECK_THAT(p.message, Contains(b.message));
    CHECK_THAT(p.help, Contains(b.help));
  }
  // What is wrong with the frames of a wall is said there once, and not of the walls that are like it.
  const std::string twice = with(with_c("frames = \"F1 1000 | F2 11000\", run = \"B 1800 | 8400 | B 1800\""),
                                 "A = \"B 1200 | D1 | 3600 | D1 | B 1200\"", "A = { mirror_of = \"C\" }");
  const Opened o = read(twice);
  CHECK(o.problems.size() == 1);
  CHECK_FALSE(o.house.has_value());
  // The block has no frames.
  const Opened on_block = read(with(good_job, "height = 2700", "height = 2700\nframes = \"6000\""));
  REQUIRE(on_block.problems.size() == 1);
  CHECK(on_block.problems[0].code == "unknown-key");
}
