// Laws that hold for any house: loads and reactions balance, a mirrored or turned house gives the mirrored or turned
// answer, units of the drawing do not matter, and more of what loads (or less of what holds) never helps. On houses
// drawn at random from a fixed seed.
#include "grid_house.hpp"
#include "sanitized.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <map>
#include <random>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr int houses = sanitized ? 3 : 60;

}  // namespace

TEST_CASE("bearings balance the wind on the roof less its weight") {
  for (unsigned seed = 0; seed < houses; ++seed) {
    const Built b(draft(random_grid(seed)));
    Area plan = zero<Area>();
    for (const Surface& s : b.shape.surfaces)
      if (s.part != Part::soffit) plan += area(s.outline);
    for (std::size_t c = 0; c < b.loads.cases.size(); ++c) {
      const LoadCase& k = b.loads.cases[c];
      const Layout& layout = b.loads.layouts[k.layout];
      const Force dead = k.combination.dead * b.house.roof.weight.least * plan;
      Force expected = -dead, size = dead, sum = zero<Force>();
      bool used_is_less = false;
      for (std::size_t z = 0; z < layout.zones.size(); ++z) {
        const bool under = b.shape.surfaces[layout.zones[z].surface].part == Part::soffit;
        const Force lift = k.combination.wind * k.net[z] * area(layout.zones[z].part) * (under ? 1.0 : -1.0);
        expected += lift;
        size += lift < zero<Force>() ? -lift : lift;
      }
      for (std::size_t i = 0; i < b.forces.roof.bearings().size(); ++i) {
        sum += b.forces.exact_uplift(c, i);
        used_is_less = used_is_less || b.forces.uplift(c, i) < b.forces.exact_uplift(c, i) - 1e-12 * size;
      }
      INFO("seed " << seed << ", " << k.id);
      CHECK_THAT(sum / size, WithinAbs(expected / size, 1e-9));
      CHECK(!used_is_less);  // relief set to zero can only add
    }
  }
}

TEST_CASE("bracing lines balance the push above mid-height") {
  for (unsigned seed = 0; seed < houses; ++seed) {
    const Built b(draft(random_grid(seed)));
    for (std::size_t c = 0; c < b.loads.cases.size(); ++c) {
      const LoadCase& k = b.loads.cases[c];
      for (const Along way : {Along::across, Along::up}) {
        Force expected = zero<Force>(), size = kilonewtons(1e-6), sum = zero<Force>();
        for (const Push& p : k.push) {
          if (is_across(p.towards) != (way == Along::across)) continue;
          const Force all = k.combination.wind * p.p * area(between_y(p.part, b.house.height / 2.0, everywhere));
          expected += p.towards == Way::right || p.towards == Way::back ? all : -all;
          size += all < zero<Force>() ? -all : all;
        }
        for (std::size_t l = 0; l < b.forces.lines.size(); ++l)
          if (b.forces.lines[l].runs == way) {
            sum += b.forces.exact_line_force(c, l);
            const Force used = b.forces.line_force(c, l), exact = b.forces.exact_line_force(c, l);
            CHECK(std::abs(used / size) >= std::abs(exact / size) - 1e-12);
          }
        INFO("seed " << seed << ", " << k.id);
        CHECK_THAT(sum / size, WithinAbs(expected / size, 1e-9));
      }
      // A line's braces share all of its force, unless none counts
      for (std::size_t l = 0; l < b.forces.lines.size(); ++l) {
        Force shares = zero<Force>();
        for (std::size_t i = 0; i < b.forces.braces.size(); ++i)
          if (b.forces.braces[i].line == l) shares += b.forces.brace_force(c, i);
        const Force v = b.forces.line_force(c, l), of_line = v < zero<Force>() ? -v : v;
        if (b.forces.line_capacity(c, l) > zero<Force>())
          CHECK_THAT(in_kN(shares), WithinAbs(in_kN(of_line), 1e-9 * (1.0 + in_kN(of_line))));
      }
    }
  }
}

// ---- along a plate

namespace {
// Reactions of a beam over supports under a unit load at x by the stiffness method: deflection and slope at every
// support and at the load, each span with the four end stiffnesses of a prismatic beam. Nothing in it of the program's.
std::vector<double> by_stiffness(std::vector<double> supports, double x) {
  std::vector<double> nodes = supports;
  if (std::none_of(nodes.begin(), nodes.end(), [&](double s) { return std::abs(s - x) < 1e-12; })) nodes.push_back(x);
  std::sort(nodes.begin(), nodes.end());
  const std::size_t n = nodes.size() * 2;
  std::vector<std::vector<double>> k(n, std::vector<double>(n, 0.0));
  for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
    const double l = nodes[i + 1] - nodes[i];
    const double e[4][4] = {{12, 6 * l, -12, 6 * l},
                            {6 * l, 4 * l * l, -6 * l, 2 * l * l},
                            {-12, -6 * l, 12, -6 * l},
                            {6 * l, 2 * l * l, -6 * l, 4 * l * l}};
    for (std::size_t a = 0; a < 4; ++a)
      for (std::size_t c = 0; c < 4; ++c) k[2 * i + a][2 * i + c] += e[a][c] / (l * l * l);
  }
  const auto node_at = [&](double at) {
    return static_cast<std::size_t>(
        std::find_if(nodes.begin(), nodes.end(), [&](double v) { return std::abs(v - at) < 1e-12; }) - nodes.begin());
  };
  auto m = k;
  std::vector<double> rhs(n, 0.0);
  rhs[2 * node_at(x)] = 1.0;
  for (const double s : supports) {
    const std::size_t d = 2 * node_at(s);
    for (std::size_t j = 0; j < n; ++j) m[d][j] = 0.0;
    m[d][d] = 1.0;
    rhs[d] = 0.0;
  }
  for (std::size_t p = 0; p < n; ++p) {
    std::size_t best = p;
    for (std::size_t i = p + 1; i < n; ++i)
      if (std::abs(m[i][p]) > std::abs(m[best][p])) best = i;
    std::swap(m[p], m[best]);
    std::swap(rhs[p], rhs[best]);
    for (std::size_t i = p + 1; i < n; ++i) {
      const double q = m[i][p] / m[p][p];
      for (std::size_t j = p; j < n; ++j) m[i][j] -= q * m[p][j];
      rhs[i] -= q * rhs[p];
    }
  }
  for (std::size_t p = n; p-- > 0;) {
    for (std::size_t j = p + 1; j < n; ++j) rhs[p] -= m[p][j] * rhs[j];
    rhs[p] /= m[p][p];
  }
  std::vector<double> reactions;
  for (const double s : supports) {
    const std::size_t d = 2 * node_at(s);
    double f = std::abs(s - x) < 1e-12 ? 1.0 : 0.0;  // a load on the support goes straight in
    for (std::size_t j = 0; j < n; ++j) f -= k[d][j] * rhs[j];
    reactions.push_back(f);
  }
  return reactions;
}
std::vector<Length> lengths(const std::vector<double>& m) {
  std::vector<Length> r;
  for (const double x : m) r.push_back(metres(x));
  return r;
}
std::vector<double> random_supports(std::mt19937& r, std::size_t n) {
  std::vector<double> s{0.1};
  while (s.size() < n) s.push_back(s.back() + 0.15 + static_cast<double>(r() % 1100) / 1000.0);
  return s;
}
}  // namespace

TEST_CASE("shares along a plate add up to the load and balance its moment") {
  std::mt19937 r(7);
  for (int i = 0; i < 400; ++i) {
    const auto s = random_supports(r, 1 + r() % 8);
    const double x = -0.3 + (s.back() + 0.7) * static_cast<double>(r() % 1001) / 1000.0;
    for (const auto& shares :
         {exact_lever_shares(lengths(s), metres(x)), exact_continuous_shares(lengths(s), metres(x))}) {
      REQUIRE(shares.size() == s.size());
      double sum = 0.0, moment = 0.0;
      for (std::size_t k = 0; k < s.size(); ++k) {
        sum += shares[k];
        moment += shares[k] * s[k];
      }
      CHECK_THAT(sum, WithinAbs(1.0, 1e-12));
      if (s.size() > 1) CHECK_THAT(moment, WithinAbs(x, 1e-11));  // one fixing alone cannot hold a lever
    }
    // Without relief nothing lands on fewer newtons, and past the ends nothing is taken off
    const auto used = lever_shares(lengths(s), metres(x)), exact = exact_lever_shares(lengths(s), metres(x));
    const auto used_beam = continuous_shares(lengths(s), metres(x)),
               exact_beam = exact_continuous_shares(lengths(s), metres(x));
    for (std::size_t k = 0; k < s.size(); ++k) {
      CHECK(used[k] >= exact[k]);
      CHECK(used_beam[k] >= exact_beam[k]);
      if (x < s.front() || x > s.back()) CHECK(used_beam[k] >= 0.0);
      CHECK(used[k] >= 0.0);
    }
  }
}

TEST_CASE("a continuous plate agrees with the stiffness method") {
  std::mt19937 r(11);
  int compared = 0;
  for (int i = 0; i < 300; ++i) {
    const auto s = random_supports(r, 2 + r() % 7);
    const bool on_a_support = i % 10 == 0;
    const double x =
        on_a_support ? s[r() % s.size()] : -0.3 + (s.back() + 0.7) * static_cast<double>(r() % 1001) / 1000.0;
    const auto ours = exact_continuous_shares(lengths(s), metres(x)), theirs = by_stiffness(s, x);
    for (std::size_t k = 0; k < s.size(); ++k) {
      INFO("support " << k << " of " << s.size() << ", load at " << x);
      CHECK_THAT(ours[k], WithinAbs(theirs[k], 1e-8));
      ++compared;
    }
  }
  CHECK(compared > 900);
}

TEST_CASE("an even load on equal spans: 1.25 over two, 1.10 over three at the first inner support") {
  // Closed values of the elastic beam. Shares are cubic along a span, so two Gauss points a span sum them exactly.
  const auto even = [](std::size_t spans, std::size_t support) {
    std::vector<double> s;
    for (std::size_t i = 0; i <= spans; ++i) s.push_back(static_cast<double>(i));
    double sum = 0.0;
    for (std::size_t i = 0; i < spans; ++i)
      for (const double g : {-1.0, 1.0})
        sum += 0.5 * exact_continuous_shares(lengths(s),
                                             metres(static_cast<double>(i) + 0.5 + g * 0.5 / std::sqrt(3.0)))[support];
    return sum;
  };
  CHECK_THAT(even(2, 1), WithinAbs(1.25, 1e-12));
  CHECK_THAT(even(2, 0), WithinAbs(0.375, 1e-12));
  CHECK_THAT(even(3, 1), WithinAbs(1.10, 1e-12));
  CHECK_THAT(even(3, 2), WithinAbs(1.10, 1e-12));
  CHECK_THAT(even(3, 0), WithinAbs(0.40, 1e-12));
}

// ---- the same house drawn otherwise

TEST_CASE("a mirrored house gives mirrored answers") {
  for (unsigned seed = 0; seed < houses; ++seed) {
    const Grid g = random_grid(seed);
    const Built b(draft(g)), m(draft(mirrored(g)));
    INFO("seed " << seed);
    const auto across_wall = [](const Built& x, const std::string& name) {
      return x.house.walls[x.wall_at(name)].runs == Along::across;
    };
    const auto own = [&](const Link& l) {
      return fmt::format("{} {} {}", l.kind, l.kind == "line spacing" ? "" : l.where.wall, place_of(b, l, false));
    };
    const auto seen = [&](const Link& l) {
      const std::string wall = l.where.wall == "B" ? "D" : l.where.wall == "D" ? "B" : l.where.wall;
      // a brace is placed by its start: seen in the mirror, by its end
      long at = place_of(m, l, across_wall(m, l.where.wall));
      if (l.kind == "brace" && across_wall(m, l.where.wall))
        for (const Piece& p : m.house.walls[m.wall_at(l.where.wall)].pieces)
          if (p.from == *l.where.from_start) at -= std::lround((p.to - p.from) / mm(0.1));
      return fmt::format("{} {} {}", l.kind, l.kind == "line spacing" ? "" : wall, at);
    };
    same_answers(asked(b, own), asked(m, seen), 1e-9);
  }
}

TEST_CASE("a house turned by a quarter gives the same answers") {
  for (unsigned seed = 0; seed < houses; seed += 2) {
    const Grid g = random_grid(seed);
    const Built b(draft(g)), t(draft(mirrored(transposed(g))));
    INFO("seed " << seed);
    // The walls have changed names: kinds, demands and uses are compared, each link with one of its kind
    const auto key = [](const Link& l) { return l.kind; };
    same_answers(asked(b, key), asked(t, key), 1e-9);
  }
}

TEST_CASE("a house over its diagonal gives the same answers, place by place") {
  for (unsigned seed = 0; seed < houses; seed += 2) {
    const Grid g = random_grid(seed);
    const Built b(draft(g)), t(draft(transposed(g)));
    INFO("seed " << seed);
    static const std::map<std::string, std::string> other{{"A", "D"}, {"B", "C"}, {"C", "B"},
                                                          {"D", "A"}, {"E", "E"}, {"F", "F"}};
    const auto own = [&](const Link& l) {
      return fmt::format("{} {} {}", l.kind, l.kind == "line spacing" ? "" : l.where.wall, place_of(b, l, false));
    };
    const auto seen = [&](const Link& l) {
      return fmt::format("{} {} {}", l.kind, l.kind == "line spacing" ? "" : other.at(l.where.wall),
                         place_of(t, l, false));
    };
    same_answers(asked(b, own), asked(t, seen), 1e-9);
  }
}

TEST_CASE("a house drawn in millimetres and in feet asks for the same") {
  for (unsigned seed = 0; seed < houses; ++seed) {
    const Grid g = random_grid(seed);
    const Built a(draft(g, false)), b(draft(g, true));
    REQUIRE(a.result.links.size() == b.result.links.size());
    for (std::size_t i = 0; i < a.result.links.size(); ++i) {
      const Link &x = a.result.links[i], &y = b.result.links[i];
      INFO("seed " << seed << ", " << x.where.words << ", " << x.load_case.id << " and " << y.load_case.id);
      CHECK(x.id == y.id);
      CHECK(x.verdict == y.verdict);
      REQUIRE(x.parts.size() == y.parts.size());
      for (std::size_t p = 0; p < x.parts.size(); ++p)
        CHECK_THAT(x.parts[p].demand.si,
                   WithinAbs(y.parts[p].demand.si, 1e-12 * std::max(1000.0, std::abs(x.parts[p].demand.si))));
    }
  }
}

// ---- what never helps

TEST_CASE("more wind never raises a verdict") {
  int lowered = 0;
  for (unsigned seed = 0; seed < houses; seed += 2) {
    const Grid g = random_grid(seed);
    std::map<std::string, std::pair<int, double>> before;
    for (int step = 0; step < 4; ++step) {
      Draft d = draft(g);
      d.fixings = tight(g.asce ? "allowable" : "design", 1.0);
      if (g.asce)
        d.site = fmt::format(
            "method = \"ASCE 7-16\"\nspeed = \"{} mph\"\nspeed_is = \"ultimate\"\nexposure = \"B\"\nrisk = "
            "\"II\"\nlevel = \"allowable\"\ndebris_region = false\ngiven_by = \"a test\"",
            95 + 20 * step);
      else d.site = fmt::format("class = \"{}{}\"\ngiven_by = \"a test\"", seed % 3 == 0 ? "C" : "N", step + 1);
      const Built b(d);
      for (const Link& l : b.result.links) {
        // The table of spacings ends with N2: above it no line's spacing is judged, whatever it was before
        if (l.kind == "line spacing") continue;
        const auto [at, fresh] = before.try_emplace(l.id, rank(l.verdict), l.use ? l.use->value : 0.0);
        if (fresh) continue;
        INFO("seed " << seed << ", step " << step << ", " << l.where.words << " " << words(l.verdict));
        CHECK(rank(l.verdict) <= at->second.first);
        const double use = l.use ? l.use->value : 0.0;
        CHECK(use >= at->second.second * (1.0 - 1e-9));
        lowered += rank(l.verdict) < at->second.first ? 1 : 0;
        at->second = {rank(l.verdict), use};
      }
    }
  }
  if (!sanitized) CHECK(lowered > 100);
}

TEST_CASE("more capacity never lowers the verdict of a link that does not set the sharing") {
  int raised = 0;
  for (unsigned seed = 0; seed < houses; seed += 2) {
    const Grid g = random_grid(seed);
    Draft d = draft(g);
    std::map<std::string, int> before;
    for (const double factor : {0.5, 1.0, 2.0, 4.0}) {
      d.fixings = tight(g.asce ? "allowable" : "design", factor);  // brackets, ties, plates, anchors: no brace
      const Built b(d);
      for (const Link& l : b.result.links) {
        const auto [at, fresh] = before.try_emplace(l.id, rank(l.verdict));
        INFO("seed " << seed << ", " << factor << ", " << l.where.words);
        CHECK(rank(l.verdict) >= at->second);
        raised += rank(l.verdict) > at->second ? 1 : 0;
        at->second = rank(l.verdict);
      }
    }
  }
  CHECK(raised > 100);
}

TEST_CASE("a stronger brace draws more to its own end, and the link at its end is the one that may fall") {
  // Two 1.2 m sheets of 6 kN/m on a line: 4.0 of 8 kN each way. One twice as strong takes 5.33.
  Draft d = closed_box();
  d.fixing("[[sheet]]\nname = \"demo-strong\"\nracking = \"12 kN/m\"\nleast_length = \"900 mm\"\nbasis = \"design\"\n");
  d.mark("S", "{ brace = \"demo-strong\", hold_down = \"demo-rod\" }").wall("A", "\"B 1.2 m | 9.6 m | B 1.2 m\"");
  const Built even(d);
  d.wall("A", "\"S 1.2 m | 9.6 m | B 1.2 m\"");
  const Built uneven(d);
  const std::size_t k = even.case_at("left class");
  const Force v = even.forces.line_force(k, even.line_at("A"));
  CHECK_THAT(even.forces.brace_force(k, even.brace_at("A1")) / v * 8.0, WithinRel(4.0, 1e-12));
  CHECK_THAT(uneven.forces.brace_force(k, uneven.brace_at("A1")) / v * 8.0, WithinRel(16.0 / 3.0, 1e-12));
}

TEST_CASE("one more brace never raises the use of its own line") {
  // Under either ceiling, and under both: what a line gives way under a push falls with what it holds.
  int compared = 0, eased = 0;
  const auto is_plain = [](const GridPiece& p) { return p.mark.empty() && p.length >= 8; };  // demo-sheet: 900 mm
  for (unsigned seed = 0; seed < houses; seed += 2) {
    const Grid plain = random_grid(seed);
    Grid braced = plain;
    std::string wall;
    for (GridWall& w : braced.walls) {
      const auto p = std::find_if(w.run.begin(), w.run.end(), is_plain);
      if (p == w.run.end()) continue;
      p->mark = "B";
      wall = w.name;
      break;
    }
    if (wall.empty()) continue;
    for (const char* ceiling : {"flexible", "rigid", "both"}) {
      Draft was = draft(plain), is = draft(braced);
      was.ceiling = is.ceiling = ceiling;
      const Built before(was), after(is);
      const std::size_t line = before.line_at(wall);
      REQUIRE(after.line_at(wall) == line);
      for (std::size_t c = 0; c < before.loads.cases.size(); ++c) {
        const Force held = before.forces.line_capacity(c, line), holds = after.forces.line_capacity(c, line);
        if (!(held > zero<Force>())) continue;
        const double use = std::abs(before.forces.line_force(c, line) / held),
                     now = std::abs(after.forces.line_force(c, line) / holds);
        INFO("seed " << seed << ", wall " << wall << ", " << ceiling << ", " << before.loads.cases[c].id);
        CHECK(now <= use * (1.0 + 1e-9));
        ++compared;
        eased += now < 0.99 * use ? 1 : 0;
      }
    }
  }
  if (!sanitized) CHECK(compared > 500);
  if (!sanitized) CHECK(2 * eased > compared);
}

TEST_CASE("an anchor removed never helps its neighbours") {
  // Studs at even steps along a plate: without one anchor that is pulled up, the two beside it take no less. (An anchor
  // that a stiff plate presses down, with its neighbours close to it and studs beyond them, adds to its neighbours'
  // pull; the lever rule then still holds the law, the plate as a beam does not.)
  std::mt19937 r(23);
  int compared = 0;
  for (int i = 0; i < 200; ++i) {
    const auto s = random_supports(r, 3 + r() % 6);
    const std::size_t gone = 1 + r() % (s.size() - 2);
    auto fewer = s;
    fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(gone));
    const double step = 0.45 + static_cast<double>(r() % 5) / 10.0;
    struct Two {
      double lever, beam;
      double worse() const { return std::max(lever, beam); }
    };
    const auto on = [&](const std::vector<double>& at, double place) {
      const auto me = static_cast<std::size_t>(std::find(at.begin(), at.end(), place) - at.begin());
      Two sum{0.0, 0.0};
      for (double x = s.front(); x <= s.back(); x += step) {
        sum.lever += lever_shares(lengths(at), metres(x))[me];
        sum.beam += continuous_shares(lengths(at), metres(x))[me];
      }
      return sum;
    };
    const bool pulled = on(s, s[gone]).beam >= 0.0;
    for (const double neighbour : {s[gone - 1], s[gone + 1]}) {
      INFO("round " << i << ", neighbour at " << neighbour);
      const Two before = on(s, neighbour), after = on(fewer, neighbour);
      CHECK(after.lever >= before.lever - 1e-9);
      if (!pulled) continue;
      CHECK(after.beam >= before.beam - 1e-9);
      CHECK(after.worse() >= before.worse() - 1e-9);
      ++compared;
    }
  }
  CHECK(compared > 250);
}

TEST_CASE("every second plate anchor taken away never helps those that stay") {
  std::mt19937 r(31);
  int compared = 0;
  for (int i = 0; i < 24; ++i) {
    // A long wall with plate anchors alone, at an even number of equal spaces: twice the space leaves every second one
    const int spaces = 2 * (3 + static_cast<int>(r() % 4));
    const double gap = 0.9 + 0.1 * static_cast<double>(r() % 4), length = gap * spaces + 0.2,
                 truss = 0.45 + 0.05 * static_cast<double>(r() % 15);
    Draft d = closed_box(fmt::format("{} m", length), "7.8 m");
    d.mark("N", "{ brace = \"demo-sheet\" }").wall("A", fmt::format("\"{} m\"", length)).trusses =
        fmt::format("{{ mark = \"T1\", max = \"{} m\" }}", truss);
    const auto at = [&](double space) {
      d.noted("anchor", fmt::format("{{ use = \"demo-bolt\", max = \"{} m\" }}", space + 0.001));
      return d;
    };
    const Built close(at(gap)), wide(at(2.0 * gap));
    const std::size_t wall = close.wall_at("A");
    REQUIRE(close.forces.walls[wall].supports.size() == static_cast<std::size_t>(spaces) + 1);
    REQUIRE(wide.forces.walls[wall].supports.size() == static_cast<std::size_t>(spaces) / 2 + 1);
    for (std::size_t c = 0; c < close.loads.cases.size(); ++c)
      for (std::size_t k = 0; k < wide.forces.walls[wall].supports.size(); ++k) {
        INFO("round " << i << ", anchor " << k);
        CHECK(wide.forces.pull(c, wall, k) >= close.forces.pull(c, wall, 2 * k) * (1.0 - 1e-9));
        ++compared;
      }
  }
  CHECK(compared > 500);
}

// ---- every link

TEST_CASE("a link's pieces add up, its use is its worst part's, and no number is none") {
  std::size_t links = 0, made = 0;
  for (unsigned seed = 0; seed < houses; ++seed) {
    Draft d = draft(random_grid(seed));
    d.fixings = tight(random_grid(seed).asce ? "allowable" : "design", 1.0);
    const Built b(d);
    std::set<std::string> ids;
    for (const Link& l : b.result.links) {
      INFO("seed " << seed << ", " << l.where.words << ", " << l.load_case.id);
      ++links;
      CHECK(ids.insert(l.id).second);  // an address is one link's alone
      std::optional<double> most;
      for (const LinkPart& p : l.parts) {
        CHECK(std::isfinite(p.demand.si));
        CHECK(p.demand.si >= 0.0);
        if (p.capacity) CHECK(std::isfinite(p.capacity->si));
        if (p.use) {
          CHECK(std::isfinite(p.use->value));
          if (p.rule.empty() && p.capacity->si > 0.0)
            CHECK_THAT(p.use->value, WithinAbs(p.demand.si / p.capacity->si, 1e-12));
          most = std::max(most.value_or(0.0), p.use->value);
        }
        if (p.demand.kind != Kind::force) continue;
        double sum = 0.0, size = 1.0;
        for (const MadeOf& m : p.made_of) {
          CHECK(m.value.kind == Kind::force);
          sum += m.value.si;
          size += std::abs(m.value.si);
        }
        INFO(p.part << " " << p.demand.si << " against " << sum);
        CHECK_THAT(sum, WithinAbs(p.demand.si, 1e-9 * size));
        if (p.demand.si > 0.0) CHECK(!p.made_of.empty());
        ++made;
      }
      CHECK(l.use.has_value() == most.has_value());
      if (most && l.use) CHECK(l.use->value == *most);
      if (l.verdict == Verdict::pass) {
        REQUIRE(l.use);
        CHECK(l.use->value <= 1.0);
        for (const LinkPart& p : l.parts)
          CHECK((p.use.has_value() || p.demand.si == 0.0 || p.rule == "along and across together" ||
                 p.role == Role::reported));
      }
      if (l.use && l.use->value > 1.0) CHECK(l.verdict == Verdict::fail);
    }
    const Counts& n = b.result.counts;
    CHECK(n.pass + n.fail + n.not_judged + n.by_others == b.result.links.size());
  }
  CHECK(links > (sanitized ? 100 : 5000));
  CHECK(made > links);
}

TEST_CASE("the deciding case has the greatest use of all cases") {
  for (unsigned seed = 0; seed < houses; seed += 4) {
    Draft d = draft(random_grid(seed));
    d.fixings = tight(random_grid(seed).asce ? "allowable" : "design", 1.0);
    const Built b(d);
    for (const Link& l : b.result.links) {
      if (l.kind != "bracket" && l.kind != "top tie" && l.kind != "brace") continue;
      Force most = zero<Force>();
      for (std::size_t c = 0; c < b.loads.cases.size(); ++c) {
        if (l.kind == "brace") most = std::max(most, b.forces.brace_force(c, b.brace_at(l.where.words.substr(6))));
        else if (l.kind == "bracket") most = std::max(most, b.forces.uplift(c, b.bearing_at(l.where.words)));
        else
          for (std::size_t s = 0; s < b.forces.studs.size(); ++s)
            if ("top tie " + b.forces.stud_words(b.forces.studs[s]) == l.where.words)
              most = std::max(most, b.forces.stud_uplift(c, s));
      }
      INFO("seed " << seed << ", " << l.where.words);
      if (l.kind == "top tie") CHECK_THAT(demand(l, "pull") / kilonewtons(1.0), WithinAbs(in_kN(most), 1e-9));
      if (l.kind == "bracket")
        CHECK(l.use.value().value >= most / quantity<Force>(part(l, "uplift").capacity.value()) - 1e-9);
    }
  }
}

TEST_CASE("every link is explained by the numbers that judge it") {
  std::size_t told = 0;
  for (unsigned seed = 0; seed < 6; ++seed) {
    Draft d = draft(random_grid(seed));
    d.fixings = tight(random_grid(seed).asce ? "allowable" : "design", 1.0);
    const Built b(d);
    for (std::size_t i = seed; i < b.result.links.size(); i += 11) {  // each takes a while
      const Link& l = b.result.links[i];
      const Working w = explain(b.house, b.method, b.practice, b.result, i, metric);
      INFO("seed " << seed << ", " << l.where.words << ", " << l.load_case.id);
      CHECK_THAT(orphan(w), Catch::Matchers::Equals(""));
      for (const LinkPart& p : l.parts) {
        if (p.demand.si == 0.0 || (p.rule.empty() == false && !p.use)) continue;
        if (p.role == Role::reported) {  // what presses, where the sheet says nothing of it: no verdict rests on it
          CHECK_FALSE((p.use || p.capacity));
          continue;
        }
        INFO(p.part << " " << p.demand.si);
        CHECK(std::any_of(w.steps.begin(), w.steps.end(), [&](const Step& s) { return s.result == p.demand; }));
        ++told;
      }
    }
  }
  CHECK(told > 100);
}

// ---- what is left out, and what is out of bounds

TEST_CASE("a link without a fixing is NOT JUDGED, by others when the job says so, and keeps its demand") {
  for (unsigned seed = 0; seed < houses; seed += 3) {
    const Grid g = random_grid(seed);
    const Built with(draft(g));
    Draft bare = draft(g);
    for (const char* key : {"truss", "top_tie", "stud_tie", "plate_fixing"}) bare.noted(key, "");
    Draft handed_over = bare;
    for (const char* kind : {"top tie", "stud tie", "plate", "ground", "compression", "line spacing"})
      handed_over.by_others.emplace_back(kind, "\"somebody\"");
    const Built without(bare), others(handed_over);
    const auto by_id = [](const Built& b, const std::string& id) -> const Link* {
      for (const Link& l : b.result.links)
        if (l.id == id) return &l;
      return nullptr;
    };
    for (const Link& l : with.result.links) {
      INFO("seed " << seed << ", " << l.where.words);
      const Link *n = by_id(without, l.id), *o = by_id(others, l.id);
      if (l.kind == "top tie" || l.kind == "stud tie" || l.kind == "plate" || l.kind == "bracket") {
        REQUIRE((n && o));
        CHECK(n->verdict == Verdict::not_judged);
        CHECK(n->why.code == "no-fixing");
        CHECK(o->verdict == (l.kind == "bracket" ? Verdict::not_judged : Verdict::by_others));
        const char* first = l.kind == "bracket" ? "uplift" : "pull";
        if (l.kind != "bracket") {
          CHECK(demand(*n, first) == demand(l, first));
          CHECK(demand(*o, first) == demand(l, first));
        }
        CHECK(demand(*n, first) >= demand(l, first) * (1.0 - 1e-9));
        CHECK(!n->use);
      }
      if (l.kind == "compression" || l.kind == "ground") {
        CHECK(l.verdict == Verdict::not_judged);
        if (o) CHECK(o->verdict == Verdict::by_others);
      }
    }
  }
}

TEST_CASE("outside the method's limits nothing is judged, and every demand stays") {
  const auto nothing_judged = [](const Draft& d, const Built& inside) {
    const Built b(d);
    REQUIRE(!b.result.excess.empty());
    CHECK(b.result.answer == Answer::not_judged);
    CHECK(b.result.links.size() == inside.result.links.size());
    bool some = false;
    for (const Link& l : b.result.links) {
      INFO(l.where.words);
      CHECK(l.verdict == Verdict::not_judged);
      CHECK(l.why.code == "outside-method");
      for (const LinkPart& p : l.parts) some = some || p.demand.si > 0.0;
    }
    CHECK(some);
  };
  const Draft good = closed_box();
  const Built inside(good);
  CHECK(inside.result.excess.empty());
  Draft steep = good, important = good, handed_over = good;
  steep.pitch = "36 deg";
  important.importance = "3";
  handed_over.importance = "3";
  handed_over.by_others = {{"ground", "\"somebody\""},
                           {"compression", "\"somebody\""}};  // others do not widen a method's limits
  nothing_judged(steep, inside);
  nothing_judged(important, inside);
  nothing_judged(handed_over, inside);
}
