// What stands on or against a house of several blocks: verandas at the walls of any block. Figures are worked out by hand beside each; houses are invented.
#include "ell.hpp"
#include "houses.hpp"
#include "job/mirrored.hpp"
#include "job_text.hpp"
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
constexpr std::string_view by_as_nzs =
    "method = \"AS/NZS 1170.2:2011\"\nregion = \"A2\"\nprobability = \"1:500\"\nterrain = 2.5\ntopography = "
    "\"flat\"\ngiven_by = \"a test\"";
House house_of(const std::string& job) { return good(job, plenty()); }
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
// 0.15 kPa of weight; the method has W and 0.9 G.
//   at the wall   1.6 x 2.7 x 2.1 / 4.8 / 0.99240388 - 0.9 x 0.15 x 2.7 x 2.1 / 4.8   = 1.9044665 - 0.1594688
//   at the beam   1.6 x 2.7^2 / 4.8 / 0.99240388 - 0.9 x 0.15 x 2.7^2 / 4.8           = 2.4485999 - 0.2050313
TEST_CASE("a veranda against a wall of any block is judged as on a house of one") {
  for (const char* wall : {"A", "B", "C", "D", "E"}) {  // of main, the garage, both in one line
    INFO(wall);
    const int from = *wall == 'D' ? 5000 : 0;  // D: on the main block's side of the step
    const Built b(house_of(ell_by(by_as_nzs) + veranda("V", wall, from, 4000, 2400)));
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
    const Built alone(house_of(ell_by(by_as_nzs)));
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
