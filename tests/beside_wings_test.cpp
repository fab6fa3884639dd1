// What stands on or against a house of several blocks: verandas at the walls of any block, straps in the slopes of the
// main roof. Figures are worked out by hand beside each; houses are invented.
#include "ell.hpp"
#include "houses.hpp"
#include "job/mirrored.hpp"
#include "job_text.hpp"
#include "load_path/roof_bracing.hpp"
#include "pages.hpp"
#include "report/said_back.hpp"
#include "report/working_page.hpp"
#include <algorithm>
#include <cmath>
#include <numbers>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;

namespace {

constexpr std::string_view by_class = "class = \"N3\"\ngiven_by = \"a test\"";
constexpr std::string_view by_asce =
    "method = \"ASCE 7-16\"\nspeed = \"130 mph\"\nspeed_is = \"ultimate\"\nexposure = \"C\"\nrisk = \"II\"\nlevel = "
    "\"strength\"\ntopography = \"flat\"\ngiven_by = \"a test\"";
constexpr std::string_view by_en =
    "method = \"EN 1991-1-4\"\nspeed = \"26 m/s\"\nterrain = \"II\"\ntopography = \"flat\"\ngiven_by = \"a test\"";

House house_of(const std::string& job) { return good(job, plenty()); }
bool has(const Result& r, std::string_view kind) { return std::ranges::count(r.links, kind, &Link::kind) > 0; }
const NotLookedAt* not_looked_at(const Result& r, std::string_view what) {
  const auto n = std::ranges::find(r.not_looked_at, what, &NotLookedAt::what);
  return n == r.not_looked_at.end() ? nullptr : &*n;
}

// A thing is wrong with the job, and only that.
void refused(const std::string& job, std::string_view where, std::string_view code, const std::string& message) {
  const Opened o = read(job, plenty());
  INFO(render(o.problems, false) << "expected: " << code << ": " << message);
  CHECK_FALSE(o.house.has_value());
  REQUIRE(o.problems.size() == 1);
  CHECK(o.problems.front().code == code);
  CHECK_THAT(o.problems.front().source_line, Contains(std::string(where)));
  CHECK_THAT(o.problems.front().message, Contains(message));
  CHECK_FALSE(o.problems.front().help.empty());
}

// ---- verandas

std::string veranda(const std::string& name, const std::string& against, int from, int length, int depth) {
  return fmt::format(
      "\n[veranda.{}]\nagainst = \"{}\"\nfrom = {}\nlength = {}\ndepth = {}\noverhang = 300\npitch = \"5 deg\"\nweight "
      "= "
      "\"0.15 kPa\"\nrafters = {{ mark = \"R1\", max = 1000, at_wall = \"demo-cleat\", at_beam = \"demo-cleat\" "
      "}}\nposts = {{ max = 3000, top = \"demo-tie\", foot = \"demo-screw\" }}\nnet_uplift = {{ pressure = \"1.6 "
      "kPa\", "
      "given_by = \"a letter\" }}\n",
      name, against, from, length, depth);
}
std::string ell_by(std::string_view site) { return with(ell_job, by_class, site); }
// A second wing before the front: a shed of 2.5 m at its left, 3.5 m from the garage.
std::string two_wings() {
  std::string job = with(ell_job, "[slab]", R"([block.shed]
size = [2500, 5000]
place = { against = "main front", flush = "left" }
walls = { front = "K", right = "L", left = "F" }
height = 2700
trusses = [{ mark = "T3", max = 1000 }, { mark = "V3", valley = 900 }]
roof = { shape = "gable", ridge = "up", pitch = "25 deg", eaves = 450, verge = 300, weight = "0.40 kPa" }

[slab])");
  job = with(job, "A = \"S 1200 | 3600 | S 1200\"", "A = \"S 1200 | 1100 | S 1200\"");
  job = with(job, "F = \"S 1200 | 5600 | S 1200\"", "F = \"S 1200 | 2600 | S 1200 | S 1200 | 5600 | S 1200\"");
  return job +
         "K = \"S 1200 | 1300\"\nL = \"S 1200 | 2600 | S 1200\"\nJ = { in = \"main\", from_front = 0, between = "
         "[0, 2500], run = \"S 1200 | 1300\" }\n";
}

}  // namespace

// Rafters 1 m apart, 2.4 m to the posts and 0.3 m past them, at 5 degrees (cos^2 = 0.99240388), 1.6 kPa of wind and
// 0.15 kPa of weight; ASCE 7 has W and 0.9 D.
//   at the wall   1.6 x 2.7 x 2.1 / 4.8 / 0.99240388 - 0.9 x 0.15 x 2.7 x 2.1 / 4.8   = 1.9044665 - 0.1594688
//   at the beam   1.6 x 2.7^2 / 4.8 / 0.99240388 - 0.9 x 0.15 x 2.7^2 / 4.8           = 2.4485999 - 0.2050313
TEST_CASE("a veranda against a wall of any block is judged as on a house of one") {
  for (const char* wall : {"A", "B", "C", "D", "E"}) {  // of main, the garage, both in one line
    INFO(wall);
    const int from = *wall == 'D' ? 5000 : 0;  // D: on the main block's side of the step
    const Built b(house_of(ell_by(by_asce) + veranda("V", wall, from, 4000, 2400)));
    for (const int at : {1000, 2000, 3000}) {
      const auto uplift = [&](const char* end) {
        return in_kN(demand(b.link(fmt::format("V R1 at {} {}", from + at, end)), "uplift"));
      };
      CHECK_THAT(uplift("wall"), WithinAbs(1.7449978, 1e-6));
      CHECK_THAT(uplift("beam"), WithinAbs(2.2435687, 1e-6));
    }
    const Link& l = b.link(fmt::format("V R1 at {} wall", from + 1000));
    CHECK(l.where.wall == wall);
    CHECK(l.verdict == Verdict::pass);
    // Its pull is in the wall's own ties: with the veranda no stud of that wall has less to hold, and some more.
    const Built alone(house_of(ell_by(by_asce)));
    const auto pulled = [&](const Built& house) {
      Force sum = zero<Force>();
      const std::size_t w = house.wall_at(wall);
      for (std::size_t i = 0; i < house.forces.studs.size(); ++i)
        if (house.forces.studs[i].wall == w) sum += house.forces.stud_uplift(0, i);
      return in_kN(sum);
    };
    CHECK(pulled(b) > pulled(alone) + 1.0);
    CHECK(not_looked_at(b.result, "verandas") != nullptr);
  }
}

TEST_CASE("a veranda stands in no block, over no step of a floor and in no other veranda") {
  // D's floor steps 5000 from its start, at the joint: up to there and from there on it may lean.
  CHECK(house_of(ell_job + veranda("V", "D", 0, 5000, 2400)).verandas.size() == 1);
  refused(ell_job + veranda("V", "D", 3000, 4000, 2400), "[veranda.V]", "veranda-over-a-step",
          "veranda V reaches from 3000 to 7000 along wall D, whose floor steps at 5000");
  // On one level it is one wall.
  CHECK(house_of(with(ell_job, "slab = -100\n", "") + veranda("V", "D", 3000, 4000, 2400)).verandas.size() == 1);
  // In the inner corner: V reaches 2700 before A, and W 2700 to the left of B, both from the corner on.
  refused(ell_job + veranda("V", "A", 2000, 4000, 2400) + veranda("W", "B", 1000, 4000, 2400), "[veranda.W]",
          "verandas-in-one-place", "would stand 2700 in veranda V against wall A");
  // V ends 2700 from B, where W begins: side by side.
  CHECK(house_of(ell_job + veranda("V", "A", 300, 3000, 2400) + veranda("W", "B", 1000, 4000, 2400)).verandas.size() ==
        2);
  // Between the shed and the garage there are 3500: 3200 and 300 past the posts just fit.
  CHECK(house_of(two_wings() + veranda("V", "L", 1000, 3000, 3200)).verandas.size() == 1);
  refused(two_wings() + veranda("V", "L", 1000, 3000, 3300), "[veranda.V]", "veranda-in-a-block",
          "veranda V, 3600 out from wall L, would stand 100 in block garage");
  // Along all of the wall between them it stands beside both.
  CHECK(house_of(two_wings() + veranda("V", "A", 0, 3500, 2400)).verandas.size() == 1);
  refused(ell_job + veranda("V", "G", 0, 4000, 2400), "against = \"G\"", "not-an-outside-wall", "wall G stands inside");
}

// ---- bracing in the plane of the roof

namespace {

// The garage's bearings level with those of the main block. Its ridge then stands 3 tan 25 above them and comes out
// 3000 in, at 9000 from the left.
std::string level_ell() { return with(ell_job, "slab = -100\n", ""); }
std::string braced(const std::string& job, const std::string& list) {
  return with(job, "trusses = { mark = \"T1\", max = 900 }",
              fmt::format("trusses = {{ mark = \"T1\", max = 900 }}\nroof_braces = [{}]", list));
}
std::string strap(const char* slope, int foot, int head, const char* use = "demo-single", const char* more = "") {
  return fmt::format("{{ use = \"{}\", slope = \"{}\", foot = {}, head = {}{} }}, ", use, slope, foot, head, more);
}
// One for each sense in each slope.
std::string all_braced(const std::string& job) {
  return braced(
      job, strap("front", 0, 3700) + strap("front", 6000, 2300) + strap("back", 0, 3700) + strap("back", 12000, 8300));
}
// The house without its garage.
std::string main_alone() {
  std::string job = level_ell();
  const auto from = job.find("[block.garage]"), to = job.find("[slab]");
  job.erase(from, to - from);
  job = with(job, "A = \"S 1200 | 3600 | S 1200\"", "A = \"S 1200 | 9600 | S 1200\"");
  job.erase(job.find("B = \""), job.find("E = \"") - job.find("B = \""));
  job.erase(job.find("G = {"));
  job = with(job, "onto = \"demo-cleat\"\n", "");
  return job + "D = \"S 1200 | 5600 | S 1200\"\n";
}

}  // namespace

// Of each gable 4 x 4 tan 25 / 2 = 3.730461 m2 is on either slope's side, half of its wind for the slope. Of the wing's
// roof there is seen from the left or the right, above the main roof's line, a triangle from the wall to 3 m in, up to
// its ridge: 3 x 3 tan 25 / 2 = 2.098385 m2. It lies on the front slope, which is asked for all of it.
TEST_CASE("what pushes on a wing's roof over the main block goes to the slope that it lies on, whole") {
  for (const std::string_view site : {by_class, std::string_view(by_as_nzs), by_asce, by_en}) {
    INFO(site);
    const Built b(house_of(all_braced(with(level_ell(), by_class, site))));
    const RoofBracing r(b.house, b.shape, b.loads, b.practice, b.site.cyclonic);
    REQUIRE(r.planes.size() == 2);
    std::size_t on_wing = 0;
    for (std::size_t c = 0; c < b.loads.cases.size(); ++c) {
      const LoadCase& k = b.loads.cases[c];
      const bool meets_an_end = std::ranges::any_of(k.push, [](const Push& p) {
        const auto low = [](const Point& at) { return at.y < metres(1.3); };
        return is_across(p.towards) && p.p > zero<Pressure>() && std::ranges::any_of(p.part, low);
      });
      for (const auto& [sense, with_it] : {std::pair{Sense::plus, Way::right}, {Sense::minus, Way::left}}) {
        double to_front = 0.0, to_back = 0.0, wing = 0.0;
        for (const Way way : {Way::right, Way::left}) {
          double seen = 0.0;
          for (const Push& p : k.push) {
            if (p.towards != way) continue;
            const double pressure = (way == with_it ? 1.0 : -1.0) * p.p.value();
            // The ridge stands 4 m from either wall. Wind that sweeps along the house goes to the slopes whole.
            const bool sweeps = p.label == "friction";
            if (p.block == 0 && (sweeps || p.what.find("gable") != std::string::npos)) {
              const double share = pressure * (sweeps ? 1.0 : 0.5);
              to_front += share * area(between_x(p.part, -everywhere, metres(4.0))).value();
              to_back += share * area(between_x(p.part, metres(4.0), everywhere)).value();
            }
            if (p.block == 0 || p.ceiling != 0) continue;
            seen += area(p.part).value();
            if (pressure > 0.0 || !meets_an_end) wing += pressure * area(p.part).value();
          }
          if (!(seen > 0.0)) continue;
          ++on_wing;
          CHECK_THAT(seen, WithinAbs(2.098385, 1e-6));
        }
        INFO(k.id << ' ' << k.wind << ": gables " << to_front << " and " << to_back << ", wing " << wing);
        const double f = k.combination.wind;
        CHECK_THAT(r.plane_force(c, 1, sense).value(), WithinAbs(std::max(0.0, f * to_back), 1e-6));
        CHECK_THAT(r.plane_force(c, 0, sense).value(), WithinAbs(std::max(0.0, f * (to_front + wing)), 1e-6));
      }
    }
    CHECK(on_wing > 0);
    if (site != by_class) continue;
    // The back slope has what the house without its garage has: AS 4055, N3: 0.96 x 1.5 kPa on half of 3.730461 m2.
    const auto along = [](const Built& house, const char* slope, const char* way) {
      return in_kN(demand(house.link(fmt::format("roof plane {} to the {}", slope, way)), "along"));
    };
    const Built alone(house_of(all_braced(main_alone())));
    for (const char* way : {"right", "left"}) {
      CHECK_THAT(along(b, "back", way), WithinAbs(1.44 * 3.730461 / 2.0, 1e-5));
      for (const char* slope : {"front", "back"})
        CHECK_THAT(along(alone, slope, way), WithinAbs(along(b, "back", way), 1e-6));
      CHECK(along(b, "front", way) > along(alone, "front", way) + 1.0);
    }
  }
}

// Both slopes have the same of the hip ends, and the front one what pushes on the garage's roof: 2.098385 m2 of it.
TEST_CASE("under a hip roof the slope with a wing's roof on it has all of that more to hold") {
  std::string job = with(level_ell(), "{ mark = \"T1\", max = 900 }",
                         "[{ mark = \"T1\", max = 900 }, { mark = \"TG1\", hip_girder = 2400 }, { mark = \"J1\", "
                         "jacks = 900 }, { mark = \"H1\", hip_rafters = true }]\nroof_braces = [" +
                             strap("front", 600, 4600) + strap("back", 600, 4600) + "]");
  job = with(job, "shape = \"gable\", ridge = \"across\", pitch = \"25 deg\", eaves = 450, verge = 300",
             "shape = \"hip\", ridge = \"across\", pitch = \"25 deg\", eaves = 450");
  const Built b(house_of(job));
  const RoofBracing r(b.house, b.shape, b.loads, b.practice, b.site.cyclonic);
  Force most = zero<Force>();
  for (std::size_t c = 0; c < b.loads.cases.size(); ++c) {
    const LoadCase& k = b.loads.cases[c];
    for (const auto& [sense, way] : {std::pair{Sense::plus, Way::right}, {Sense::minus, Way::left}}) {
      Force wing = zero<Force>();
      for (const Push& p : k.push)
        if (p.towards == way && p.block == 1 && p.ceiling == 0) wing += k.combination.wind * p.p * area(p.part);
      const Force more = r.plane_force(c, 0, sense) - r.plane_force(c, 1, sense);
      CHECK_THAT(more.value(), WithinAbs(wing.value(), 1e-6));
      most = std::max(most, more);
    }
  }
  CHECK(most > kilonewtons(1.0));
}

TEST_CASE("a house with wings that is mirrored has the mirrored forces in its slopes, and straps on the right walls") {
  const std::string job = all_braced(ell_job);
  const Built b(house_of(job)), m(house_of(with(job, "\n#\n", "\nmirror = \"left-right\"\n")));
  for (const char* slope : {"front", "back"})
    for (const auto& [way, other] : {std::pair{"right", "left"}, {"left", "right"}})
      CHECK_THAT(in_kN(demand(m.link(fmt::format("roof plane {} to the {}", slope, other)), "along")),
                 WithinAbs(in_kN(demand(b.link(fmt::format("roof plane {} to the {}", slope, way)), "along")), 1e-9));
  // A stands at the front from 0 to 6000; mirrored from 6000 to 12000, and the foot that stood at 0 at 12000.
  CHECK(b.link("roof brace front 1").where.wall == "A");
  CHECK_THAT(b.link("roof brace front 1").where.from_start->value(), WithinAbs(0.0, 1e-9));
  CHECK(m.link("roof brace front 1").where.wall == "A");
  CHECK_THAT(m.link("roof brace front 1").where.from_start->value(), WithinAbs(6.0, 1e-9));
  CHECK_THAT(m.link("roof brace front 2").where.from_start->value(), WithinAbs(0.0, 1e-9));
  // The garage hides no wall of the main block's back.
  CHECK(b.link("roof brace back 2").where.wall == "E");
}

TEST_CASE("the bracing of the wings' own roofs is named as not looked at") {
  const Built b(house_of(all_braced(level_ell()))), none(house_of(level_ell())),
      one(house_of(all_braced(main_alone())));
  CHECK(not_looked_at(b.result, "roof bracing of wings") != nullptr);
  CHECK(not_looked_at(b.result, "roof bracing") == nullptr);
  CHECK(not_looked_at(none.result, "roof bracing of wings") == nullptr);
  CHECK(not_looked_at(none.result, "roof bracing") != nullptr);
  CHECK(not_looked_at(one.result, "roof bracing of wings") == nullptr);
  CHECK((has(b.result, "roof brace") && !has(none.result, "roof brace")));
  // The working adds up: told, it is the force that is computed.
  for (std::size_t i = 0; i < b.result.links.size(); ++i) {
    const Link& l = b.result.links[i];
    if (l.where.words != "roof plane front to the right") continue;
    const std::string page =
        unwrapped(working_page(b.result, i, explain(b.house, b.method, b.practice, b.result, i, metric), Look{false}));
    CHECK_THAT(page, Contains("on what lies on this slope, above the main roof's outline"));
    CHECK_THAT(page, Contains("of garage"));
  }
}

// The garage's roof lies on the front slope from 6000 to 12000 at the wall, and 3000 in at 9000.
TEST_CASE("no strap lies under a wing's roof") {
  const auto front = [](int foot, int head, const char* use = "demo-single", const char* more = "") {
    return braced(level_ell(), strap("front", foot, head, use, more));
  };
  const auto fine = [](const std::string& job) { return read(job, plenty()).house.has_value(); };
  CHECK(fine(front(0, 3700)));
  CHECK(fine(front(6000, 2300)));   // from the very corner, away from it
  CHECK(fine(front(5000, 9000)));   // at 9000 it is 4000 in, the garage's roof 3000
  CHECK(fine(front(6000, 10000)));  // along the valley, to 3000 in, and on above the ridge
  CHECK(fine(front(5900, 9500)));   // at 9000 it is 4000 x 3100 / 3600 = 3444 in
  for (const auto& [foot, head] : {std::pair{9000, 5300}, {6100, 9800}, {12000, 7000}, {5900, 11500}}) {
    INFO(foot << ' ' << head);  // 5900 to 11500: at 9000 it is 4000 x 3100 / 5600 = 2214 in
    refused(front(foot, head), "roof_braces", "under-another-roof",
            fmt::format("the strap from {} to {} runs under the roof of block garage, which lies on the front slope",
                        foot, head));
  }
  refused(front(4000, 7800, "demo-pair"), "roof_braces", "under-another-roof",
          "the strap that crosses it from 7800 to 4000 runs under the roof");
  CHECK(fine(front(4000, 7000, "demo-single", ", up_to = 2000")));  // at 7000 it is 2000 in, the garage's roof 1000
  refused(front(4000, 8500, "demo-single", ", up_to = 2000"), "roof_braces", "under-another-roof",
          "the strap from 4000 to 8500");  // at 8500 it is 2000 in, the garage's roof 2500
  // On the other slope nothing lies.
  CHECK(fine(braced(level_ell(), strap("back", 12000, 8300))));
}

TEST_CASE("roof braces with a wing at an end of the ridge, or in a wing's own roof, are refused") {
  const std::string at_end =
      with(with(with(with(with(with(with(level_ell(), "against = \"main front\", flush = \"right\"",
                                         "against = \"main right\", from_front = 1000"),
                                    "walls = { front = \"C\", right = \"D\", left = \"B\" }",
                                    "walls = { front = \"B\", right = \"C\", back = \"H\" }"),
                               "right = \"D\", back", "right = [\"D\", \"K\"], back"),
                          "size = [6000, 5000]", "size = [5000, 6000]"),
                     "ridge = \"up\", pitch", "ridge = \"across\", pitch"),
                "A = \"S 1200 | 3600 | S 1200\"", "A = \"S 1200 | 9600 | S 1200\"\nH = \"S 1200 | 2600 | S 1200\""),
           "D = \"S 1200 | 2600 | S 1200 | S 1200 | 5600 | S 1200\"", "D = \"1000\"\nK = \"1000\"");
  std::string joint = with(with(at_end, "{ in = \"main\", from_front = 0, between = [6000, 12000]",
                                "{ in = \"main\", from_left = 12000, between = [1000, 7000]"),
                           ", { mark = \"V1\", valley = 900 }", "");
  joint = with(joint, "onto = \"demo-cleat\"\n", "");
  const Opened fine = read(joint, plenty());
  INFO(render(fine.problems, false));
  REQUIRE(fine.house.has_value());
  refused(braced(joint, strap("front", 0, 3700)), "roof_braces", "not-yet",
          "where a block stands against an end of the ridge: garage against the right of block main");
  refused(
      with(level_ell(), "trusses = [{ mark = \"T2\"",
           "roof_braces = [{ use = \"demo-single\", slope = \"left\", foot = 0, head = 3000 }]\ntrusses = [{ mark = "
           "\"T2\""),
      "roof_braces", "not-yet", "bracing in the plane of a wing's roof");
}
