// A ceiling that is stiff in its own plane: published figures, a solution by other means, and what must hold in any
// house.
#include "load_path/ceiling.hpp"
#include "grid_house.hpp"
#include "reference_figures.hpp"
#include "said.hpp"
#include "sanitized.hpp"
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kip_ft = 1355.8179483314004;  // N m
double in_lb(Force f) { return f.value() / 4.4482216152605; }
// By what braces hold, or by the stiffness that their sheets state.
template <class Stiff = Force> StiffLineBy<Stiff> line(Along runs, Length at, double stiff) {
  return {runs, at, Stiff::from_value(stiff), Stiff::from_value(stiff)};
}
template <class Stiff> std::vector<Stiff> stiffness(const std::vector<StiffLineBy<Stiff>>& lines) {
  std::vector<Stiff> k;
  for (const auto& l : lines) k.push_back(l.plus);
  return k;
}

// The ceiling as a rigid body on springs: its two moves and its turn about the corner of the plan, by elimination.
struct Body {
  double x = 0.0, y = 0.0, turn = 0.0;
  double moved(const StiffLine& l) const {
    return l.runs == Along::across ? x - turn * l.at.value() : y + turn * l.at.value();
  }
};
Body on_springs(const std::vector<StiffLine>& lines, const std::vector<Force>& k,
                const std::vector<CeilingPush>& pushes) {
  double m[3][4] = {};
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const double row[3] = {lines[i].runs == Along::across ? 1.0 : 0.0, lines[i].runs == Along::up ? 1.0 : 0.0,
                           lines[i].runs == Along::up ? lines[i].at.value() : -lines[i].at.value()};
    for (int a = 0; a < 3; ++a)
      for (int b = 0; b < 3; ++b) m[a][b] += k[i].value() * row[a] * row[b];
  }
  for (const CeilingPush& p : pushes) {
    const bool across = p.runs == Along::across;
    m[across ? 0 : 1][3] += p.force.value();
    m[2][3] += (across ? -1.0 : 1.0) * p.force.value() * p.middle.value();
  }
  for (int c = 0; c < 3; ++c) {
    int best = c;
    for (int r = c + 1; r < 3; ++r)
      if (std::abs(m[r][c]) > std::abs(m[best][c])) best = r;
    std::swap(m[c], m[best]);
    for (int r = 0; r < 3; ++r) {
      if (r == c) continue;
      const double f = m[r][c] / m[c][c];
      for (int j = c; j < 4; ++j) m[r][j] -= f * m[c][j];
    }
  }
  return {m[0][3] / m[0][0], m[1][3] / m[1][1], m[2][3] / m[2][2]};
}

}  // namespace

TEMPLATE_TEST_CASE("rigid ceiling: two lines each way, as six engines have it", "", Force, Stiffness) {
  // reference/TOOLS.md: 12 m x 8 m, springs 3e6 (y = 0) and 2e6 (y = 8) along x, 4e6 (x = 0) and 1.5e6 (x = 12) N/m
  // along y, 20 kN along y at x = 7: 10373.134, 9626.866 and, both ways, 3059.701 N
  const std::vector<StiffLineBy<TestType>> lines{
      line<TestType>(Along::across, metres(0.0), 3e6), line<TestType>(Along::across, metres(8.0), 2e6),
      line<TestType>(Along::up, metres(0.0), 4e6), line<TestType>(Along::up, metres(12.0), 1.5e6)};
  const std::vector<CeilingPush> push{{Along::up, Force::from_value(20e3), metres(7.0)}};
  const auto k = stiffness(lines);
  const auto up = share_by_stiffness(lines, k, push, Along::up),
             across = share_by_stiffness(lines, k, push, Along::across);
  REQUIRE(up);
  REQUIRE(across);
  CHECK_THAT((up->direct[2] + up->turned[2]).value(), WithinAbs(10373.134, 5e-4));
  CHECK_THAT((up->direct[3] + up->turned[3]).value(), WithinAbs(9626.866, 5e-4));
  CHECK_THAT((across->direct[0] + across->turned[0]).value(), WithinAbs(3059.701, 5e-4));
  CHECK_THAT((across->direct[1] + across->turned[1]).value(), WithinAbs(-3059.701, 5e-4));
}

TEST_CASE("rigid ceiling: turning shared out as a published example has it") {
  // tests/reference/checks.toml: UFC 3-310-03A. R is a stiffness, d from the centre; the first two stand across the
  // others, and each pair balances about the centre (5000 * 8.14 = 21872 * 1.86).
  const std::vector<StiffLine> lines{line(Along::up, feet(8.14), 5000.0), line(Along::up, feet(-1.86), 21872.0),
                                     line(Along::across, feet(7.32), 2448.0),
                                     line(Along::across, feet(-12.35), 1450.0)};
  const auto turned = [&](double kip_feet) {
    // A pair of pushes that only turn
    const Force f = Force::from_value(kip_feet * kip_ft / 0.3048);
    const std::vector<CeilingPush> pair{{Along::up, f, feet(1.0)}, {Along::up, -f, feet(0.0)}};
    const auto k = stiffness(lines);
    const auto up = share_by_stiffness(lines, k, pair, Along::up),
               across = share_by_stiffness(lines, k, pair, Along::across);
    return std::vector{in_lb(up->turned[0]) / 1000.0, in_lb(up->turned[1]) / 1000.0, in_lb(across->turned[2]) / 1000.0,
                       in_lb(across->turned[3]) / 1000.0};
  };
  // The printed figures: their sizes; the cross walls pull against each other
  const auto said = numbers(published("rigid-diaphragm-transverse")["out"]["torsional_kip"]);
  const auto got = turned(12.70);
  for (std::size_t i = 0; i < 4; ++i) CHECK_THAT(std::abs(got[i]), WithinAbs(std::abs(said[i]), 0.01));
  CHECK(got[0] * got[1] < 0.0);
  CHECK(got[2] * got[3] < 0.0);
  const auto longer = numbers(published("rigid-diaphragm-longitudinal")["out"]["torsional_kip"]);
  const auto got_longer = turned(28.52);
  for (std::size_t i = 0; i < 4; ++i) CHECK_THAT(std::abs(got_longer[i]), WithinAbs(std::abs(longer[i]), 0.001));
}

TEST_CASE("rigid ceiling: two walls of unlike stiffness; what turning relieves is computed, and not used") {
  // tests/reference/checks.toml: Taly, example 7.12. V = 100 at 45 ft less 4.5 ft of accident: 40.5 ft
  const auto out = published("rigid-diaphragm-two-walls")["out"];
  const std::vector<StiffLine> lines{line(Along::up, feet(0.0), 4.5), line(Along::up, feet(90.0), 5.5),
                                     line(Along::across, feet(30.0), 4.0), line(Along::across, feet(-30.0), 4.0)};
  const auto r = share_by_stiffness(lines, stiffness(lines), {{Along::up, pounds(100.0), feet(40.5)}}, Along::up);
  REQUIRE(r);
  CHECK_THAT(r->centre.value() / 0.3048, WithinAbs(number(out["x_R_ft"]), 0.01));
  // J is of stiffness in the source; here of its share in the 10.0 of both walls
  CHECK_THAT(r->against_turning.value() / (0.3048 * 0.3048) * 10.0, WithinAbs(number(out["J"]), 1.0));
  CHECK_THAT(in_lb(r->direct[0] + r->turned[0]), WithinAbs(number(out["A_k"]), 0.01));
  CHECK_THAT(in_lb(r->direct[1] + r->turned[1]), WithinAbs(number(out["B_k"]), 0.01));
  CHECK_THAT(in_lb(r->turned[0]), WithinAbs(7.36, 0.005));
  CHECK_THAT(in_lb(r->direct[1]), WithinAbs(55.0, 0.01));
}

TEMPLATE_TEST_CASE("rigid ceiling: three lines, with what cross walls help", "", Force, Stiffness) {
  const auto out = published("flexible-and-rigid")["out"];
  const std::vector<StiffLineBy<TestType>> lines{
      line<TestType>(Along::up, feet(0.0), 6.0), line<TestType>(Along::up, feet(20.0), 4.0),
      line<TestType>(Along::up, feet(50.0), 4.0), line<TestType>(Along::across, feet(12.5), 3.0),
      line<TestType>(Along::across, feet(-12.5), 3.0)};
  const std::vector<CeilingPush> push{{Along::up, pounds(10'000.0), feet(25.0)}};
  const auto k = stiffness(lines);
  const auto up = share_by_stiffness(lines, k, push, Along::up),
             across = share_by_stiffness(lines, k, push, Along::across);
  const auto rigid = numbers(out["rigid_lb"]);
  for (std::size_t i = 0; i < 3; ++i) CHECK_THAT(in_lb(up->direct[i] + up->turned[i]), WithinAbs(rigid[i], 0.1));
  CHECK_THAT(std::abs(in_lb(across->turned[3])), WithinAbs(number(out["cross_lb"]), 0.1));
}

TEST_CASE("rigid ceiling: as a body on springs, for plans and pushes at random") {
  std::mt19937 r(20261127);
  const auto real = [&](double from, double to) { return std::uniform_real_distribution<double>(from, to)(r); };
  for (int n = 0; n < (sanitized ? 60 : 600); ++n) {
    std::vector<StiffLine> lines;
    for (const Along way : {Along::across, Along::up})
      for (int i = 0; i < 2 + n % 4; ++i)
        lines.push_back(
            {way, metres(real(0.0, 15.0)), Force::from_value(real(1e3, 3e4)), Force::from_value(real(1e3, 3e4))});
    std::vector<CeilingPush> pushes;
    for (int i = 0; i < 1 + n % 5; ++i)
      pushes.push_back(
          {i % 2 == n % 2 ? Along::up : Along::across, Force::from_value(real(-2e4, 3e4)), metres(real(-1.0, 16.0))});
    const auto k = stiffness_moved(lines, pushes);
    const Body body = on_springs(lines, k, pushes);
    Force across = zero<Force>(), up = zero<Force>();
    Moment turning = zero<Moment>();
    for (const Along way : {Along::across, Along::up}) {
      const auto share = share_by_stiffness(lines, k, pushes, way);
      REQUIRE(share);
      for (std::size_t i = 0; i < lines.size(); ++i) {
        if (lines[i].runs != way) continue;
        const Force v = share->direct[i] + share->turned[i];
        CHECK_THAT(v.value(), WithinAbs(k[i].value() * body.moved(lines[i]), 1e-5));
        // It is as stiff as it is in the sense in which it is moved
        CHECK(k[i] == (body.moved(lines[i]) > 0.0 ? lines[i].plus : lines[i].minus));
        (way == Along::across ? across : up) += v;
        turning += (way == Along::across ? -1.0 : 1.0) * v * lines[i].at;
      }
    }
    for (const CeilingPush& p : pushes) {
      (p.runs == Along::across ? across : up) -= p.force;
      turning -= (p.runs == Along::across ? -1.0 : 1.0) * p.force * p.middle;
    }
    CHECK_THAT(across.value(), WithinAbs(0.0, 1e-6));
    CHECK_THAT(up.value(), WithinAbs(0.0, 1e-6));
    CHECK_THAT(turning.value(), WithinAbs(0.0, 1e-4));
  }
}

TEST_CASE("rigid ceiling: nothing to hold it gives no share") {
  const std::vector<CeilingPush> push{{Along::up, pounds(100.0), feet(3.0)}};
  const std::vector<StiffLine> none{line(Along::up, feet(0.0), 0.0), line(Along::across, feet(0.0), 5.0)};
  CHECK(!share_by_stiffness(none, stiffness(none), push, Along::up));
  // One line each way keeps nothing from turning, unless the push meets it
  const std::vector<StiffLine> one{line(Along::up, feet(0.0), 5.0), line(Along::across, feet(0.0), 5.0)};
  CHECK(!share_by_stiffness(one, stiffness(one), push, Along::up));
  const auto met = share_by_stiffness(one, stiffness(one), {{Along::up, pounds(100.0), feet(0.0)}}, Along::up);
  REQUIRE(met);
  CHECK_THAT(in_lb(met->direct[0]), WithinRel(100.0, 1e-12));
}

// ---- in a house

TEST_CASE("a house under a rigid ceiling: lines balance the push above mid-height, its turning too") {
  std::size_t shared = 0;
  for (unsigned seed = 0; seed < (sanitized ? 10U : 60U); ++seed) {
    Draft d = draft(random_grid(seed));
    d.ceiling = "rigid";
    const Built b(d);
    for (std::size_t c = 0; c < b.forces.cases(); ++c) {
      const LoadCase& k = b.forces.of(c);
      // A line whose braces do not hold in that sense is asked for its part under a flexible one
      const bool all_hold = std::all_of(b.forces.lines.begin(), b.forces.lines.end(), [&](const Line& l) {
        const auto i = static_cast<std::size_t>(&l - b.forces.lines.data());
        Force plus = zero<Force>(), minus = zero<Force>();
        for (const BraceAt& x : b.forces.braces)
          if (x.line == i && x.capacity.refused.empty()) {
            plus += x.capacity.plus;
            minus += x.capacity.minus;
          }
        return !l.props || (plus > zero<Force>() && minus > zero<Force>());
      });
      if (!all_hold) continue;
      ++shared;
      Force across = zero<Force>(), up = zero<Force>(), size = kilonewtons(1e-6);
      Moment turning = zero<Moment>();
      for (const Push& p : k.push) {
        const Polygon g = between_y(p.part, b.house.height / 2.0, everywhere);
        if (g.empty()) continue;
        const bool plus = p.towards == Way::right || p.towards == Way::back;
        const Force f = (plus ? 1.0 : -1.0) * k.combination.wind * p.p * area(g);
        (is_across(p.towards) ? across : up) += f;
        turning += (is_across(p.towards) ? -1.0 : 1.0) * f * (moment_x(g) / area(g));
        size += f < zero<Force>() ? -f : f;
      }
      for (std::size_t l = 0; l < b.forces.lines.size(); ++l) {
        const Line& x = b.forces.lines[l];
        const Force v = b.forces.exact_line_force(c, l);
        (x.runs == Along::across ? across : up) -= v;
        turning -= (x.runs == Along::across ? -1.0 : 1.0) * v * x.at;
        // What is used is never less than what balances, nor less than the share without turning
        const Force used = b.forces.line_force(c, l);
        CHECK(std::abs(used.value()) >= std::abs(v.value()) - 1e-9);
      }
      INFO("seed " << seed << ", " << k.id);
      CHECK_THAT(across / size, WithinAbs(0.0, 1e-9));
      CHECK_THAT(up / size, WithinAbs(0.0, 1e-9));
      CHECK_THAT(turning / (size * metres(1.0)), WithinAbs(0.0, 1e-7));
    }
  }
  CHECK(shared > (sanitized ? 20 : 150));
}

TEST_CASE("both ceilings: each link has the worse of the two, and says under which") {
  std::size_t rigid_decides = 0, flexible_decides = 0;
  for (unsigned seed = 0; seed < (sanitized ? 6U : 30U); ++seed) {
    Draft d = draft(random_grid(seed));
    d.fixings = tight(d.fixings.find("allowable") == std::string::npos ? "design" : "allowable", 1.0);
    const Result both = Built(d).result;
    d.ceiling = "flexible";
    const Result flexible = Built(d).result;
    d.ceiling = "rigid";
    const Result rigid = Built(d).result;
    REQUIRE(both.links.size() == flexible.links.size());
    REQUIRE(both.links.size() == rigid.links.size());
    for (std::size_t i = 0; i < both.links.size(); ++i) {
      const Link &x = both.links[i], &f = flexible.links[i], &r = rigid.links[i];
      INFO("seed " << seed << ", " << x.where.words);
      CHECK(f.load_case.ceiling.empty());
      if (x.load_case.ceiling == "rigid") ++rigid_decides;
      if (x.load_case.ceiling == "flexible") ++flexible_decides;
      const auto rank = [](Verdict v) { return v == Verdict::pass ? 0 : v == Verdict::fail ? 2 : 1; };
      CHECK(rank(x.verdict) == std::max(rank(f.verdict), rank(r.verdict)));
      for (std::size_t p = 0; p < x.parts.size(); ++p)
        CHECK(x.parts[p].greatest.si == std::max(f.parts[p].greatest.si, r.parts[p].greatest.si));
      if (x.use && f.use && r.use && x.verdict != Verdict::not_judged)
        CHECK_THAT(x.use->value, WithinRel(std::max(f.use->value, r.use->value), 1e-8));
    }
  }
  CHECK(rigid_decides > 20);
  CHECK(flexible_decides > 20);
}

TEST_CASE("a house under a rigid ceiling by hand: a strong inside line draws what the end lines do not get") {
  // Walls of 2.7 m, 12 m by 7.8 m; sheets of 6 kN/m on all four walls (7.8 m: 46.8 kN a line) and on 3.9 m of an inside
  // wall at 6 m (23.4 kN). Wind on to the front, the same on every metre: its middle at 6 m, where the centre of
  // stiffness is too. Rigid: B and D 46.8 of 117, E 23.4 of 117. Flexible: B and D a quarter, E a half.
  Draft d = closed_box();
  d.wall("E", "{ from_left = \"6 m\", run = \"3.9 m | B 3.9 m\" }");
  d.mark("B", "{ brace = \"demo-sheet\", hold_down = \"demo-rod\" }");
  d.eaves = d.verge = "0";
  d.ceiling = "rigid";
  const Built rigid(d);
  d.ceiling = "flexible";
  const Built flexible(d);
  for (std::size_t c = 0; c < rigid.loads.cases.size(); ++c) {
    const double whole = in_kN(flexible.forces.line_force(c, flexible.line_at("B")) +
                               flexible.forces.line_force(c, flexible.line_at("D")) +
                               flexible.forces.line_force(c, flexible.line_at("E")));
    if (std::abs(whole) < 1e-6) continue;
    CHECK_THAT(in_kN(flexible.forces.line_force(c, flexible.line_at("E"))), WithinRel(whole / 2.0, 1e-9));
    CHECK_THAT(in_kN(rigid.forces.line_force(c, rigid.line_at("E"))), WithinRel(whole / 5.0, 1e-9));
    CHECK_THAT(in_kN(rigid.forces.line_force(c, rigid.line_at("B"))), WithinRel(whole * 0.4, 1e-9));
    CHECK_THAT(in_kN(rigid.forces.line_force(c, rigid.line_at("D"))), WithinRel(whole * 0.4, 1e-9));
  }
}

TEST_CASE("a rigid ceiling saves no wall without a brace, nor one whose strap leans the wrong way") {
  Draft d = closed_box();
  d.ceiling = "rigid";
  d.wall("A", "\"12 m\"");
  const Built open(d);
  for (const char* words : {"line A to the right", "line A to the left"}) {
    CHECK(open.link(words).verdict == Verdict::fail);
    CHECK(open.link(words).why.code == "no-brace");
    CHECK(open.link(words).parts.at(0).demand.si > 0.0);  // its part under a flexible one
    // and told is what would turn the house about the other wall, 7.8 m off
    const auto at = static_cast<std::size_t>(&open.link(words) - open.result.links.data());
    const Working w = explain(open.house, open.method, open.practice, open.result, at, metric);
    const auto moment = std::find_if(w.steps.begin(), w.steps.end(), [](const Step& s) { return s.symbol == "M_e"; });
    REQUIRE(moment != w.steps.end());
    CHECK(moment->result.kind == Kind::moment);
    CHECK_THAT(moment->result.si, WithinRel(7.8 * open.link(words).parts.at(0).demand.si, 1e-12));
  }
  Draft s = closed_box();
  s.ceiling = "rigid";
  s.wall("A", "\"S 2 m | 10 m\"");
  s.mark("S", "{ brace = \"demo-single\", hold_down = \"demo-rod\", foot = \"left\" }");
  const Built single(s);
  CHECK(single.link("line A to the left").verdict == Verdict::fail);
  CHECK(single.link("line A to the left").why.code == "no-brace-counts");
}

TEST_CASE("what the job says of the ceiling: a word of three, once for all blocks") {
  Draft d = closed_box();
  d.ceiling = "stiff";
  const Opened o = d.opened();
  REQUIRE(!o.house);
  REQUIRE(o.problems.size() == 1);
  CHECK(o.problems[0].code == "unknown-word");
  CHECK(closed_box().house().ceiling == Ceiling::both);
}
