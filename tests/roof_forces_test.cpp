// What the roof brings to its bearings, under any roof: sums and moments balance, mirrored houses answer alike, one
// member hands on to another what it should, a truss over inside walls is a continuous beam. Loads are made by hand:
// no method stands behind them, but in the last law every method does.
#include "any_roof.hpp"
#include "load_path/roof.hpp"
#include "load_path/set_out.hpp"
#include "quantities.hpp"
#include "recompute.hpp"
#include "reference_figures.hpp"
#include "sanitized.hpp"
#include "wind_house.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <random>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr int houses = sanitized ? 20 : 150;
const Combination as_it_is{"G + W", "a test", 1.0, 1.0};
// The weight alone, upwards: a pull straight up of so much on plan.
constexpr double upwards = -1.0;

double uniform(std::mt19937& r, double a, double b) { return std::uniform_real_distribution<double>(a, b)(r); }
double span_of(const House& h) { return m(h.roof.ridge == Along::across ? h.up : h.across); }

// Trusses, girders, jacks and rafters on a roof: what the geometry of a house in a test leaves out.
House framed(House h, std::mt19937& r, double jacks = 0.0) {
  const Shape s = shape_of(h);
  h.roof.ridge = s.ridge;
  const auto [start, end] = ends_of(s.ridge);
  const double length = m(s.length);
  double from = uniform(r, 0.0, 0.1), to = length - uniform(r, 0.0, 0.1);
  h.trusses.clear();
  h.hip_ends.clear();
  const bool hip = h.roof.shape == RoofShape::hip;
  for (const Side e : {start, end}) {
    if (!hip || !h.roof.hipped[at(e)]) continue;
    const Length above = h.roof.gable_above[at(e)];
    const double g = above > zero<Length>() ? m(above) : uniform(r, 0.3, 1.0) * m(s.at(e).meets);
    (e == start ? from : to) = e == start ? g : length - g;
    h.hip_ends.push_back(HipEnd{e, "J1", "H1", metres(jacks > 0.0 ? jacks : uniform(r, 0.3, 1.2)), {}, {}, {}, {}});
  }
  const auto truss = [&](double x) { h.trusses.push_back(Truss{"T1", metres(x), Chosen{}}); };
  truss(from);
  for (double x = from + uniform(r, 0.3, 1.2); x < to - 0.3; x += uniform(r, 0.3, 1.2)) truss(x);
  truss(to);
  h.trusses.front().girder = hip && h.roof.hipped[at(start)];
  h.trusses.back().girder = hip && h.roof.hipped[at(end)];
  return h;
}

// One case, every surface cut in a few zones.
Loads loads_on(const Shape& s, std::mt19937& r, const Combination& k) {
  Layout layout{"by hand", {}};
  LoadCase c{};
  c.id = "by hand";
  c.combination = k;
  c.down = {"1.2 G + W", "a test", 1.2, 1.0};
  const auto add = [&](std::size_t i, const Polygon& g, int n) {
    if (g.empty()) return;
    layout.zones.push_back({i, g, fmt::format("{}_{}", i, n)});
    c.net.push_back(Pressure::from_value(uniform(r, -1500.0, 700.0)));
  };
  for (std::size_t i = 0; i < s.surfaces.size(); ++i) {
    const Length x = metres(uniform(r, 0.0, m(s.across))), y = metres(uniform(r, 0.0, m(s.up)));
    add(i, between_x(s.surfaces[i].outline, -everywhere, x), 1);
    const Polygon right = between_x(s.surfaces[i].outline, x, everywhere);
    add(i, between_y(right, -everywhere, y), 2);
    add(i, between_y(right, y, everywhere), 3);
  }
  c.net_small = {};
  return {Basis::limit_state, {layout}, {c}, {}};
}
// A pull straight up, one zone a surface, nothing from the wind.
Loads pulled_up(const Shape& s) {
  Layout layout{"whole", {}};
  LoadCase c{};
  c.combination = {"a pull upwards", "a test", upwards, 1.0};
  for (std::size_t i = 0; i < s.surfaces.size(); ++i) {
    layout.zones.push_back({i, s.surfaces[i].outline, fmt::format("{}", i)});
    c.net.push_back(zero<Pressure>());
  }
  return {Basis::limit_state, {layout}, {c}, {}};
}

struct Loaded {
  House house;
  Shape shape;
  Loads loads;
  RoofForces roof;
  Loaded(House h, const std::function<Loads(const Shape&)>& make)
      : house(std::move(h)), shape(shape_of(house)), loads(make(shape)), roof(house, shape, loads) {}
  Loaded(const Loaded&) = delete;
  Loaded& operator=(const Loaded&) = delete;
  std::size_t bearing(std::string_view words) const {
    for (std::size_t i = 0; i < roof.bearings().size(); ++i)
      if (roof.bearings()[i].words == words) return i;
    std::string all;
    for (const Bearing& b : roof.bearings()) all += b.words + "\n";
    throw std::runtime_error(fmt::format("no bearing {} among\n{}", words, all));
  }
};

// What pushes on the whole roof: upwards, and about the two axes of the block (upwards at x or y, the level part of the
// pressure at its height). size: of all of it, to measure errors by.
struct Sum {
  double up = 0.0, size = 0.0, about_x = 0.0, about_y = 0.0;  // N, N m: up times y, up times x
};
Pressure weight_on(const House& h, const Surface& s) {
  return h.roof.weight.on_slope ? h.roof.weight.least / std::cos(s.slope.value()) : h.roof.weight.least;
}
Sum on_the_roof(const House& h, const Shape& s, const Loads& l, std::size_t c) {
  const LoadCase& k = l.cases[c];
  const Layout& layout = l.layouts[k.layout];
  Sum r;
  const auto add = [&](double f, const Polygon& g) {
    r.up += f;
    r.size += std::abs(f);
    r.about_x += f * (moment_y(g) / area(g)).value();
    r.about_y += f * (moment_x(g) / area(g)).value();
  };
  for (std::size_t z = 0; z < layout.zones.size(); ++z) {
    const Polygon& g = layout.zones[z].part;
    const Surface& on = s.surfaces[layout.zones[z].surface];
    const double push = k.combination.wind * (k.net[z] * area(g)).value();
    add(on.part == Part::soffit ? push : -push, g);
    if (on.part == Part::soffit) continue;
    const double level =
        push * std::tan(on.slope.value()) * m(height_at(on, {moment_x(g) / area(g), moment_y(g) / area(g)}));
    const double way = on.falls == Way::right || on.falls == Way::back ? 1.0 : -1.0;
    (is_across(on.falls) ? r.about_y : r.about_x) += way * level;
  }
  for (const Surface& on : s.surfaces)
    if (on.part != Part::soffit) add(-k.combination.dead * (weight_on(h, on) * area(on.outline)).value(), on.outline);
  return r;
}
Sum at_the_walls(const RoofForces& f, std::size_t c, const Along ridge) {
  Sum r;
  for (std::size_t b = 0; b < f.bearings().size(); ++b) {
    if (f.bearings()[b].onto) continue;
    const Member& on = f.member_of(b);
    const double u = f.exact_uplift(c, b).value(), along = m(f.bearings()[b].u);
    r.up += u;
    if (ridge == Along::across) r.about_x += u * (m(on.from.y) + along);
    else r.about_y += u * (m(on.from.x) + along);
  }
  return r;
}
bool used_is_less(const RoofForces& f, std::size_t c, double size) {
  for (std::size_t b = 0; b < f.bearings().size(); ++b)
    if (f.uplift(c, b).value() < f.exact_uplift(c, b).value() - 1e-12 * size) return true;
  return false;
}

// An inside wall along the ridge, under all trusses.
void add_inside_wall(House& h, const std::string& name, double in) {
  Wall w{};
  w.name = name;
  w.runs = h.roof.ridge;
  w.line = metres(in);
  w.to = h.roof.ridge == Along::across ? h.across : h.up;
  w.pieces = {Piece{w.from, w.to, std::nullopt, std::nullopt}};
  h.walls.push_back(w);
}

}  // namespace

// ---- laws -----------------------------------------------------------------------------------------------------------

TEST_CASE("bearings on walls hold the wind on any roof less its weight") {
  std::mt19937 r(41);
  std::map<RoofShape, int> seen;
  for (int i = 0; i < houses; ++i) {
    House h = framed(any_roof(r, true), r);
    h.roof.weight.on_slope = i % 2 == 0;
    if (i % 3 == 0) {
      add_inside_wall(h, "E", uniform(r, 0.3, 0.7) * span_of(h));
      for (Truss& t : h.trusses)
        if (r() % 2 == 0) t.also_on = {"E"};
    }
    const Loaded b(h, [&](const Shape& s) { return loads_on(s, r, {"0.9 G + W", "a test", 0.9, 1.0}); });
    ++seen[h.roof.shape];
    const Sum load = on_the_roof(b.house, b.shape, b.loads, 0), held = at_the_walls(b.roof, 0, b.shape.ridge);
    INFO("house " << i << ", " << words(h.roof.shape));
    CHECK_THAT(held.up / load.size, WithinAbs(load.up / load.size, 1e-9));
    CHECK_FALSE(used_is_less(b.roof, 0, load.size));
    // All trusses from wall to wall: the overturning about the ridge's axis as well
    if (h.roof.shape == RoofShape::hip) continue;
    const bool across = b.shape.ridge == Along::across;
    const double lever = load.size * span_of(h);
    CHECK_THAT((across ? held.about_x : held.about_y) / lever,
               WithinAbs((across ? load.about_x : load.about_y) / lever, 1e-9));
  }
  CHECK(seen.size() == 4);
}

TEST_CASE("bearings on walls hold any roof where trusses stick out past an inside wall") {
  std::mt19937 r(45);
  std::map<MemberKind, int> seen;
  for (int i = 0; i < houses; ++i) {
    House h = framed(any_roof(r, true), r);
    h.roof.weight.on_slope = i % 2 == 0;
    const bool across = h.roof.ridge == Along::across, low = r() % 2 == 0;
    const double in = uniform(r, 0.01, 0.25) * span_of(h);
    add_inside_wall(h, "E", low ? in : span_of(h) - in);
    for (Truss& t : h.trusses) {
      if (t.girder || r() % 3 == 0) continue;
      t.also_on = {"E"};
      t.clear_of = across ? (low ? Side::front : Side::back) : (low ? Side::left : Side::right);
    }
    const Loaded b(h, [&](const Shape& s) { return loads_on(s, r, {"0.9 G + W", "a test", 0.9, 1.0}); });
    const Sum load = on_the_roof(b.house, b.shape, b.loads, 0), held = at_the_walls(b.roof, 0, b.shape.ridge);
    INFO("house " << i << ", " << words(h.roof.shape));
    CHECK_THAT(held.up / load.size, WithinAbs(load.up / load.size, 1e-9));
    CHECK_FALSE(used_is_less(b.roof, 0, load.size));
    for (const Member& m : b.roof.members())
      if (m.clear) ++seen[m.kind];
    if (h.roof.shape == RoofShape::hip) continue;
    const double lever = load.size * span_of(h);
    CHECK_THAT((across ? held.about_x : held.about_y) / lever,
               WithinAbs((across ? load.about_x : load.about_y) / lever, 1e-9));
  }
  CHECK(seen.size() == 3);  // whole, truncated, half
}

TEST_CASE("every member is in balance about its own axis") {
  std::mt19937 r(42);
  std::map<MemberKind, int> seen;
  for (int i = 0; i < houses; ++i) {
    const House h = framed(any_roof(r, true), r);
    const Loaded b(h, [&](const Shape& s) { return loads_on(s, r, {"0.9 G + W", "a test", 0.9, 1.0}); });
    const auto& members = b.roof.members();
    const auto& zones = b.loads.layouts[0].zones;
    // Up and up times u that each member has to hold, first what it holds itself; a verge's lever goes to the next.
    std::vector<double> up(members.size(), 0.0), turn(members.size(), 0.0);
    double size = 0.0;
    const auto put = [&](std::size_t k, double part, double f, double level, const Polygon& g, const Surface& s) {
      const Member& me = members[k];
      const double dx = m(me.to.x - me.from.x), dy = m(me.to.y - me.from.y), l = std::hypot(dx, dy);
      const double x = (moment_x(g) / area(g)).value() - m(me.from.x),
                   y = (moment_y(g) / area(g)).value() - m(me.from.y);
      const double fx = s.falls == Way::right  ? 1.0
                        : s.falls == Way::left ? -1.0
                                               : 0.0,
                   fy = s.falls == Way::back    ? 1.0
                        : s.falls == Way::front ? -1.0
                                                : 0.0;
      up[k] += part * f;
      turn[k] += part * (f * (x * dx + y * dy) / l + level * (fx * dx + fy * dy) / l);
      size += std::abs(part * f);
    };
    for (std::size_t k = 0; k < members.size(); ++k)
      for (const Window& w : members[k].carries) {
        const auto add = [&](double f, double level, const Polygon& g, const Surface& s) {
          double past = 0.0;
          if (w.past_end && members[k].space) {
            const Point p{moment_x(g) / area(g), moment_y(g) / area(g)};
            const bool across = b.shape.ridge == Along::across;
            past = std::abs(m((across ? p.x : p.y) - (across ? members[k].from.x : members[k].from.y))) /
                   m(*members[k].space);
            put(*members[k].next, -past, f, level, g, s);
          }
          put(k, 1.0 + past, f, level, g, s);
        };
        for (std::size_t z = 0; z < zones.size(); ++z) {
          const Surface& s = b.shape.surfaces[zones[z].surface];
          const Polygon g = belay::holds(w, s) ? within(w, zones[z].part) : Polygon();
          if (g.empty()) continue;
          const double push = (b.loads.cases[0].net[z] * area(g)).value();
          if (s.part == Part::soffit) {
            add(push, 0.0, g, s);
          } else {
            const Point middle{moment_x(g) / area(g), moment_y(g) / area(g)};
            add(-push, push * std::tan(s.slope.value()) * m(height_at(s, middle)), g, s);
          }
        }
        for (const Surface& s : b.shape.surfaces) {
          const Polygon g = s.part != Part::soffit && belay::holds(w, s) ? within(w, s.outline) : Polygon();
          if (!g.empty()) add(-0.9 * (weight_on(h, s) * area(g)).value(), 0.0, g, s);
        }
      }
    for (std::size_t k = 0; k < b.roof.bearings().size(); ++k)
      if (const Bearing& on = b.roof.bearings()[k]; on.onto) {
        up[*on.onto] += b.roof.exact_uplift(0, k).value();
        turn[*on.onto] += b.roof.exact_uplift(0, k).value() * m(on.onto_u);
      }
    for (std::size_t k = 0; k < members.size(); ++k) {
      double held = 0.0, turned = 0.0;
      for (const std::size_t j : members[k].bearings) {
        held += b.roof.exact_uplift(0, j).value();
        turned += b.roof.exact_uplift(0, j).value() * m(b.roof.bearings()[j].u);
      }
      INFO("house " << i << ", " << words(h.roof.shape) << ", " << members[k].words);
      CHECK_THAT(held / size, WithinAbs(up[k] / size, 1e-11));
      CHECK_THAT(turned / size, WithinAbs(turn[k] / size, 1e-10));
      ++seen[members[k].kind];
    }
  }
  CHECK(seen.size() == 7);
}

TEST_CASE("a house turned or mirrored lifts at the turned or mirrored bearings") {
  std::mt19937 r(43);
  for (int i = 0; i < (sanitized ? 5 : 30); ++i) {
    const House h = framed(any_roof(r, true), r, 0.6);
    // One pressure for each way to fall and part, so that it turns with the house.
    std::map<std::pair<Way, Part>, double> p;
    for (const Way w : {Way::right, Way::back, Way::left, Way::front})
      for (const Part part : {Part::roof, Part::overhang, Part::soffit}) p[{w, part}] = uniform(r, -1500.0, 700.0);
    const auto make = [&](const Frame8& f) {
      return [&p, f](const Shape& s) {
        Loads l = pulled_up(s);
        l.cases[0].combination.dead = 0.9;
        l.cases[0].down = {"1.2 G + W", "a test", 1.2, 1.0};
        for (std::size_t z = 0; z < s.surfaces.size(); ++z)
          l.cases[0].net[z] = Pressure::from_value(p.at({f.own(s.surfaces[z].falls), s.surfaces[z].part}));
        return l;
      };
    };
    const Loaded here(h, make(Frame8(h.across, h.up, turns[0])));
    for (const Turn& t : turns) {
      const Frame8 f(h.across, h.up, t);
      House there = seen_in(f, h);
      there.walls =
          gable(there.across, there.up, h.height, there.roof.ridge, h.roof.pitch, h.roof.eaves, h.roof.verge).walls;
      for (HipEnd& e : there.hip_ends) e.side = side_facing(f.seen(outward(e.side)));
      const Loaded turned(there, make(f));
      REQUIRE(turned.roof.bearings().size() == here.roof.bearings().size());
      const auto place = [](const RoofForces& roof, std::size_t b) {
        const Member& on = roof.member_of(b);
        const Length whole = roof.bearings()[on.bearings.back()].u;
        const double part = roof.bearings()[b].u / whole;
        return Point{on.from.x + (on.to.x - on.from.x) * part, on.from.y + (on.to.y - on.from.y) * part};
      };
      std::vector<bool> taken(here.roof.bearings().size(), false);
      for (std::size_t b = 0; b < here.roof.bearings().size(); ++b) {
        const Point mine = f.seen(place(here.roof, b));
        bool found = false;
        for (std::size_t k = 0; k < taken.size() && !found; ++k) {
          const Point other = place(turned.roof, k);
          if (taken[k] || std::abs(m(mine.x - other.x)) > 1e-6 || std::abs(m(mine.y - other.y)) > 1e-6 ||
              turned.roof.member_of(k).kind != here.roof.member_of(b).kind ||
              std::abs(turned.roof.uplift(0, k).value() - here.roof.uplift(0, b).value()) > 1e-6)
            continue;
          CHECK_THAT(turned.roof.exact_uplift(0, k).value(), WithinAbs(here.roof.exact_uplift(0, b).value(), 1e-6));
          CHECK_THAT(turned.roof.press(0, k).value(), WithinAbs(here.roof.press(0, b).value(), 1e-6));
          found = taken[k] = true;
        }
        INFO("house " << i << ", turn " << t.quarter << t.mirror << ", " << here.roof.bearings()[b].words << " "
                      << here.roof.uplift(0, b).value());
        CHECK(found);
      }
    }
  }
}

TEST_CASE("bearings balance under every method and any roof that it knows") {
  std::mt19937 r(44);
  int answered = 0;
  for (int i = 0; i < (sanitized ? 4 : 14); ++i) {
    House h = framed(any_roof(r, true), r);
    for (const SiteAsk& site : every_site()) {
      h.site = site;
      const Blown w = blow(h);
      const RoofForces roof(h, w.shape, w.loads);
      for (std::size_t c = 0; c < w.loads.cases.size(); ++c) {
        if (!w.loads.cases[c].net_small.empty()) continue;  // the pressure goes by each member's own area
        const Sum load = on_the_roof(h, w.shape, w.loads, c), held = at_the_walls(roof, c, w.shape.ridge);
        INFO("house " << i << ", " << words(h.roof.shape) << ", " << table_for(site) << ", " << w.loads.cases[c].id);
        CHECK_THAT(held.up / load.size, WithinAbs(load.up / load.size, 1e-9));
        CHECK_FALSE(used_is_less(roof, c, load.size));
        ++answered;
      }
    }
  }
  CHECK(answered > 500);
}

// ---- one member on another ------------------------------------------------------------------------------------------

TEST_CASE("jack-with-eaves: a jack's wall and its girder") {
  // Computed, tolerance 1e-9: 1.2 kN/m on 1.8 m and 0.6 m of eaves. Jacks 0.6 m apart under 2 kPa.
  const toml::table& c = published("jack-with-eaves");
  std::mt19937 r(1);
  House h = hipped(metres(14.0), metres(9.0), degrees(25.0), metres(0.6), {Side::left});
  h.roof.weight = {kilopascals(2.0), kilopascals(2.0), false};
  h = framed(h, r, 0.6);
  h.trusses.front().at = metres(1.8);
  const Loaded b(h, pulled_up);
  // The girder's line meets the hips at 1.8 and 7.2 m: nine spaces of 0.6 m between
  CHECK_THAT(in_kN(b.roof.uplift(0, b.bearing("J1 at 4200 left"))), WithinAbs(number(c["out"]["wall_kN"]), 1e-9));
  CHECK_THAT(in_kN(b.roof.uplift(0, b.bearing("J1 at 4200 left onto T1"))),
             WithinAbs(number(c["out"]["girder_kN"]), 1e-9));

  // The girder: its own strip and, by moments, what stands on it
  const std::size_t near = b.bearing("T1 at 1800 front"), far = b.bearing("T1 at 1800 back");
  double own = 0.0, turn = 0.0, handed = 0.0, handed_turn = 0.0;
  for (const Window& w : b.roof.members()[0].carries)
    for (const Surface& s : b.shape.surfaces) {
      const Polygon g = s.part != Part::soffit && belay::holds(w, s) ? within(w, s.outline) : Polygon();
      if (g.empty()) continue;
      own += 2.0 * m2(area(g));
      turn += 2.0 * moment_y(g).value();
    }
  for (std::size_t k = 0; k < b.roof.bearings().size(); ++k)
    if (const Bearing& on = b.roof.bearings()[k]; on.onto == std::size_t{0}) {
      handed += in_kN(b.roof.uplift(0, k));
      handed_turn += in_kN(b.roof.uplift(0, k)) * m(on.onto_u);
    }
  CHECK(handed > 5.0);
  CHECK_THAT(in_kN(b.roof.uplift(0, far)), WithinAbs((turn + handed_turn) / 9.0, 1e-9));
  CHECK_THAT(in_kN(b.roof.uplift(0, near)), WithinAbs(own + handed - (turn + handed_turn) / 9.0, 1e-9));
  const auto made = b.roof.uplift_made_of(0, near);
  Force sum = zero<Force>();
  for (const Piece_of_demand& p : made) sum += p.value;
  CHECK_THAT(sum.value(), WithinAbs(b.roof.uplift(0, near).value(), 1e-6));
  const auto jacks = std::find_if(made.begin(), made.end(), [](const auto& p) { return p.what.starts_with("jacks"); });
  REQUIRE(jacks != made.end());
  CHECK(jacks->what == "jacks J1 that stand on it");
  CHECK(jacks->from == "10 of them");
}

TEST_CASE("hip-corner-creepers: discrete creepers, and the limit of a close row of them") {
  // Computed, tolerance 1e-9, for a row without end: walls 3.24, hip 6.48, girder end 4.32, corner 2.16 kN. A square
  // corner of 3.6 m under 1 kPa. Creepers of even spaces d: the k-th is k d long and holds d either side of it
  // half-way; by moments over its strip it gives the hip k d^2 / 2 + d^2 / (24 k). The hip's own is a square of d / 2.
  const toml::table& c = published("hip-corner-creepers");
  for (const int n : {6, 12, 24, 48, 96}) {
    std::mt19937 r(1);
    const double d = 3.6 / n;
    House h = hipped(metres(14.0), metres(9.0), degrees(25.0), zero<Length>(), {Side::left});
    h.roof.weight = {kilopascals(1.0), kilopascals(1.0), false};
    h = framed(h, r, d + 1e-6);
    h.trusses.front().at = metres(3.6);
    const Loaded b(h, pulled_up);
    double wall = 0.0, onto_hip = 0.0, hip = 0.0, hip_at_girder = 0.0;
    for (int k = 1; k < n; ++k) {
      const double gives = d * d * k / 2.0 + d * d / (24.0 * k);
      wall += d * d * k - gives;
      onto_hip += 2.0 * gives;
      hip_at_girder += 2.0 * gives * k / n;
    }
    hip = onto_hip + d * d / 4.0;
    hip_at_girder += d * d / 4.0 * (d / 4.0) / 3.6;
    double on_front = 0.0, on_hip = 0.0;
    for (std::size_t k = 0; k < b.roof.bearings().size(); ++k) {
      if (b.roof.member_of(k).kind != MemberKind::creeper) continue;
      const Bearing& on = b.roof.bearings()[k];
      const bool front = b.roof.member_of(k).words.ends_with("front");
      if (!on.onto && front) on_front += in_kN(b.roof.uplift(0, k));
      if (on.onto && b.roof.members()[*on.onto].words == "H1 front left") on_hip += in_kN(b.roof.uplift(0, k));
    }
    const double corner = in_kN(b.roof.uplift(0, b.bearing("H1 front left"))),
                 girder = in_kN(b.roof.uplift(0, b.bearing("H1 front left onto T1")));
    CHECK_THAT(on_front, WithinAbs(wall, 1e-9));
    CHECK_THAT(on_hip, WithinAbs(onto_hip, 1e-9));
    CHECK_THAT(girder, WithinAbs(hip_at_girder, 1e-9));
    CHECK_THAT(corner, WithinAbs(hip - hip_at_girder, 1e-9));
    // What the row without end has more: the last half space, which the girder and the jack beside it hold. It is half
    // of 3.6 m by d / 2 on each wall and on the hip from each side, all of it at the girder's end.
    const double last = 0.5 * 3.6 * d / 2.0, near = 0.4 * d * std::sqrt(d);
    CHECK_THAT(on_front, WithinAbs(number(c["out"]["walls_each_kN"]) - last, near));
    CHECK_THAT(on_hip, WithinAbs(number(c["out"]["hip_total_kN"]) - 2.0 * last, near));
    CHECK_THAT(girder, WithinAbs(number(c["out"]["girder_end_kN"]) - 2.0 * last, near));
    CHECK_THAT(corner, WithinAbs(number(c["out"]["corner_end_kN"]), near));
    CHECK(corner > number(c["out"]["corner_end_kN"]));  // few creepers: the corner holds more
  }
}

TEST_CASE("a hip rafter feels the level part of the pressure by the angle that it stands at") {
  // By hand: even pitches of 30 degrees, 1 kPa of suction on the slopes, no weight, no eaves. The rafter's own corner
  // is a square of d / 2 = 0.3 m; centroids of its two triangles along the hip: 1/2 of its diagonal's 0.3 sqrt(2).
  std::mt19937 r(1);
  House h = hipped(metres(14.0), metres(9.0), degrees(30.0), zero<Length>(), {Side::left});
  h.roof.weight = {zero<Pressure>(), zero<Pressure>(), false};
  h = framed(h, r, 3.0 + 1e-6);  // one space: no creepers
  h.trusses.front().at = metres(3.0);
  const Loaded b(h, [&](const Shape& s) {
    Loads l = pulled_up(s);
    for (std::size_t z = 0; z < s.surfaces.size(); ++z)
      if (s.surfaces[z].part != Part::soffit) l.cases[0].net[z] = -kilopascals(1.0);
    return l;
  });
  // Its half space is 1.5 m: two triangles of 1.125 m2, their middles 1.0 by 0.5 m in: 1.5 / sqrt(2) along the hip, at
  // 0.5 tan 30 above. Upwards 2 x 1.125 kN; the suction's level part pulls outwards, 45 degrees off the hip.
  const double s = 3.0 * std::sqrt(2.0), u = 1.5 / std::sqrt(2.0), tan = std::tan(30.0 * std::numbers::pi / 180.0),
               level = 0.5 * tan * tan / std::sqrt(2.0);
  CHECK_THAT(in_kN(b.roof.uplift(0, b.bearing("H1 front left"))), WithinAbs(2.25 * (s - u - level) / s, 1e-9));
  CHECK_THAT(in_kN(b.roof.uplift(0, b.bearing("H1 front left onto T1"))), WithinAbs(2.25 * (u + level) / s, 1e-9));
}

// ---- more than two bearings -----------------------------------------------------------------------------------------

namespace {
// A beam along y at x = 0, its bearings at these places, under one flat surface: a polygon that pulls with 1 kPa.
std::vector<double> on_bearings(const std::vector<double>& places, const Polygon& part, bool exact) {
  House h =
      gable(metres(10.0), metres(10.0), metres(2.4), Along::across, zero<Angle>(), zero<Length>(), zero<Length>());
  h.trusses.clear();
  h.roof.weight = {kilopascals(1.0), kilopascals(1.0), false};
  Shape s = shape_of(h);
  s.surfaces = {{Part::roof, part, zero<Angle>(), Way::front, zero<Length>(), Side::front}};
  const Loads l = pulled_up(s);
  Members all;
  Member beam{MemberKind::truss, "T1", "T1", {}, {}, 1, {}, {}, {}, {}, {}, {}, {}};
  beam.from = {zero<Length>(), metres(places.front())};
  beam.to = {zero<Length>(), metres(places.back())};
  beam.carries = {{-everywhere, everywhere, -everywhere, everywhere, every_way, false}};
  for (std::size_t i = 0; i < places.size(); ++i) {
    beam.bearings.push_back(i);
    all.bearings.push_back({0, metres(places[i] - places.front()), {}, std::nullopt, zero<Length>(), "T1"});
  }
  all.members = {beam};
  all.from_top = {0};
  const RoofForces roof(h, s, l, all);
  std::vector<double> r;
  for (std::size_t i = 0; i < places.size(); ++i)
    r.push_back(in_kN(exact ? roof.exact_uplift(0, i) : roof.uplift(0, i)));
  return r;
}
void check_each(const std::vector<double>& a, const std::vector<double>& b) {
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i) CHECK_THAT(a[i], WithinAbs(b[i], 1e-11));
}
}  // namespace

TEST_CASE("a truss on more than two bearings is one beam of even stiffness") {
  // Computed with SymPy 1.11.1 by the force method in fractions; kN for 1 kN/m and for a load that rises to 1 kN/m.
  const auto strip = [](double from, double to) {
    return rectangle(metres(-0.5), metres(0.5), metres(from), metres(to));
  };
  SECTION("three bearings at 0, 3 and 8 m, 0.6 m past both ends") {
    check_each(on_bearings({0.0, 3.0, 8.0}, strip(-0.6, 8.6), true), {839.0 / 600.0, 1921.0 / 375.0, 2.679});
    // Outside bearings get no relief from the one inside: they are asked for what two alone would hold
    check_each(on_bearings({0.0, 3.0, 8.0}, strip(-0.6, 8.6), false), {4.6, 1921.0 / 375.0, 4.6});
  }
  SECTION("the overhang alone: the continuous beam asks for more at its bearing") {
    check_each(on_bearings({0.0, 3.0, 8.0}, strip(-0.6, 0.0), true), {537.0 / 800.0, -0.078, 0.00675});
    check_each(on_bearings({0.0, 3.0, 8.0}, strip(-0.6, 0.0), false), {537.0 / 800.0, -0.078, 0.00675});
  }
  SECTION("four bearings, equal spans: 0.4 and 1.1 of w l, as in every handbook") {
    check_each(on_bearings({0.0, 2.5, 5.0, 7.5}, strip(0.0, 7.5), true), {1.0, 2.75, 2.75, 1.0});
  }
  SECTION("breadths that are not even") {
    const Polygon rising{{metres(-0.5), metres(5.0)}, {zero<Length>(), metres(1.0)}, {metres(0.5), metres(5.0)}};
    check_each(on_bearings({0.0, 3.0, 8.0}, rising, true), {-29.0 / 225.0, 2182.0 / 1125.0, 71.0 / 375.0});
    check_each(on_bearings({0.0, 3.0, 8.0}, rising, false), {13.0 / 12.0, 2182.0 / 1125.0, 11.0 / 12.0});
    const Polygon falling{{metres(-0.5), metres(0.5)}, {metres(0.5), metres(0.5)}, {zero<Length>(), metres(6.0)}};
    check_each(on_bearings({0.0, 2.0, 5.5, 9.0}, falling, true),
               {387623.0 / 1496880.0, 49704289.0 / 24449040.0, 1547207.0 / 3056130.0, -1767391.0 / 36673560.0});
  }
}

TEST_CASE("a couple on a beam over three bearings comes to them as the influence lines slope") {
  // Bearings at 0, 4 and 8, load 1 at x = 1. The middle moment is -x (16 - x^2) / (2 * 4 * 8) = -15/64, it grows with x
  // by -(16 - 3 x^2) / 64 = -13/64. R_1 = (4 - x)/4 + M/4 grows by -1/4 - 13/256; R_3 = M/4 by -13/256; R_2 by the
  // rest.
  const std::vector<Length> bearings{metres(0.0), metres(4.0), metres(8.0)};
  const auto slopes = exact_continuous_slopes(bearings, metres(1.0));
  REQUIRE(slopes.size() == 3);
  CHECK_THAT(slopes[0].value(), WithinAbs(-0.25 - 13.0 / 256.0, 1e-15));
  CHECK_THAT(slopes[1].value(), WithinAbs(0.25 + 26.0 / 256.0, 1e-15));
  CHECK_THAT(slopes[2].value(), WithinAbs(-13.0 / 256.0, 1e-15));
  // Anywhere, over any bearings: they add up to nothing, balance the couple, and are how the shares differ.
  std::mt19937 r(77);
  for (int i = 0; i < 500; ++i) {
    std::vector<Length> at{metres(0.0)};
    const int spans = 2 + static_cast<int>(r() % 3);
    for (int k = 0; k < spans; ++k) at.push_back(at.back() + metres(uniform(r, 0.8, 6.0)));
    const double low = -1.0, high = at.back().value() + 1.0, x = uniform(r, low, high), step = 1e-5;
    const auto growth = exact_continuous_slopes(at, metres(x));
    const auto before = exact_continuous_shares(at, metres(x - step)),
               after = exact_continuous_shares(at, metres(x + step));
    double sum = 0.0, couple = 0.0;
    for (std::size_t k = 0; k < at.size(); ++k) {
      sum += growth[k].value();
      couple += growth[k].value() * at[k].value();
      CHECK_THAT(growth[k].value(), WithinAbs((after[k] - before[k]) / (2.0 * step), 1e-4));
    }
    CHECK_THAT(sum, WithinAbs(0.0, 1e-12));
    CHECK_THAT(couple, WithinAbs(1.0, 1e-12));
  }
}

TEST_CASE(
    "a truss over an inside wall: outside walls get no relief, what stands on a girder is shared as by the beam") {
  std::mt19937 r(7);
  House h = hipped(metres(14.0), metres(9.0), degrees(22.5), metres(0.45), {Side::left});
  h = framed(h, r, 0.6);
  h.trusses.front().at = metres(2.4);
  add_inside_wall(h, "E", 4.0);
  House with = h;
  for (Truss& t : with.trusses) t.also_on = {"E"};
  const auto make = [&](const Shape& s) {
    std::mt19937 same(8);
    return loads_on(s, same, {"0.9 G + W", "a test", 0.9, 1.0});
  };
  const Loaded two(h, make), three(with, make);
  CHECK_FALSE(two.roof.any_continuous());
  CHECK(three.roof.any_continuous());
  const Sum load = on_the_roof(h, two.shape, two.loads, 0);
  CHECK_THAT(at_the_walls(three.roof, 0, Along::across).up / load.size, WithinAbs(load.up / load.size, 1e-9));
  for (std::size_t b = 0; b < two.roof.bearings().size(); ++b) {
    const std::size_t k = three.bearing(two.roof.bearings()[b].words);
    INFO(two.roof.bearings()[b].words);
    CHECK(three.roof.uplift(0, k) >= two.roof.uplift(0, b));
    CHECK(three.roof.press(0, k) >= two.roof.press(0, b));
    if (!three.roof.continuous(three.roof.bearings()[k].member))
      CHECK(three.roof.uplift(0, k) == two.roof.uplift(0, b));
  }
  // The jacks' shares on the girder are the beam's: its bearings hold in sum what its own strip and the jacks bring
  const std::size_t inside = three.bearing("T1 at 2400 on E");
  Force jacks = zero<Force>();
  const auto places = std::vector{zero<Length>(), metres(4.0), metres(9.0)};
  for (std::size_t k = 0; k < three.roof.bearings().size(); ++k)
    if (const Bearing& on = three.roof.bearings()[k]; on.onto == std::size_t{0})
      jacks += exact_continuous_shares(places, on.onto_u)[1] * three.roof.uplift(0, k);
  Force told = zero<Force>();
  for (const Piece_of_demand& p : three.roof.uplift_made_of(0, inside))
    if (p.what.ends_with("stand on it") || p.what.ends_with("stands on it")) told += p.value;
  CHECK_THAT(told.value(), WithinAbs(jacks.value(), 1e-6));
}

// ---- pressed down ---------------------------------------------------------------------------------------------------

TEST_CASE("what presses down: the greatest weight and the wind by the combination for it") {
  std::mt19937 r(9);
  House h = hipped(metres(14.0), metres(9.0), degrees(22.5), metres(0.45), {Side::left, Side::right});
  h.roof.weight = {kilopascals(0.3), kilopascals(0.9), false};
  h = framed(h, r, 0.6);
  const Loaded b(h, [&](const Shape& s) {
    Loads l = loads_on(s, r, as_it_is);
    for (Pressure& p : l.cases[0].net) p *= 0.1;  // weak: everything is pressed
    l.cases.push_back(l.cases[0]);
    l.cases[1].down = {};
    l.cases.push_back(l.cases[0]);
    l.cases[2].down.wind = 40.0;
    return l;
  });
  // Nothing is cut off at zero: the sum on the walls is 1.2 of the greatest weight less the wind's lift
  House heavy = h;
  heavy.roof.weight.least = heavy.roof.weight.greatest;
  Loads same = b.loads;
  same.cases[0].combination = {"", "", 1.2, 1.0};
  const Sum load = on_the_roof(heavy, b.shape, same, 0);
  double sum = 0.0;
  for (std::size_t k = 0; k < b.roof.bearings().size(); ++k) {
    CHECK(b.roof.press(0, k) > zero<Force>());
    CHECK(b.roof.press(1, k) == zero<Force>());  // no combination in hand
    CHECK(b.roof.press(2, k) >= zero<Force>());
    if (!b.roof.bearings()[k].onto) sum += b.roof.press(0, k).value();
  }
  CHECK_THAT(sum / load.size, WithinAbs(-load.up / load.size, 1e-9));
}

// ---- pressures by area ----------------------------------------------------------------------------------------------

TEST_CASE("a jack's pressure goes by half of the roof that it holds, a truss's by the lesser of its overhangs") {
  std::mt19937 r(10);
  House h = hipped(metres(14.0), metres(9.0), degrees(22.5), metres(0.6), {Side::left});
  h.roof.own_overhang[at(Side::back)] = metres(0.3);
  h = framed(h, r, 0.6);
  h.trusses.front().at = metres(1.8);
  const Area one = metre * metre;
  const auto with = [&](double small_kpa, double large_kpa, bool by_area) {
    return [=](const Shape& s) {
      Loads l = pulled_up(s);
      l.cases[0].combination.dead = 0.0;
      for (Pressure& p : l.cases[0].net) p = -kilopascals(large_kpa);
      if (!by_area) return l;
      l.cases[0].net_small.assign(l.cases[0].net.size(), -kilopascals(small_kpa));
      l.cases[0].by_area = {0.1 * one, 20.0 * one, false, "a test"};
      return l;
    };
  };
  const Loaded small(h, with(0.0, 1.0, false)), large(h, with(0.0, 0.5, false)), both(h, with(1.0, 0.5, true));
  const auto share = [&](std::size_t b) {
    const double s = small.roof.exact_uplift(0, b).value(), l = large.roof.exact_uplift(0, b).value();
    return (both.roof.exact_uplift(0, b).value() - s) / (l - s);
  };
  // A jack 1.8 m long with 0.6 m of eaves, its strip 0.6 m: half of 1.44 m2
  CHECK_THAT(share(small.bearing("J1 at 4200 left")), WithinAbs((0.72 - 0.1) / 19.9, 1e-9));
  // A truss far from the hip
  const std::size_t t = h.trusses.size() - 3;
  const double width = 0.5 * m(h.trusses[t + 1].at - h.trusses[t - 1].at);
  CHECK_THAT(share(2 * t), WithinAbs((width * (4.5 + 0.3) - 0.1) / 19.9, 1e-9));
}

// ---- told -----------------------------------------------------------------------------------------------------------

TEST_CASE("every bearing can be told: the same bits, from nowhere nothing, no symbol for two things") {
  std::mt19937 r(11);
  House h = hipped(metres(11.0), metres(7.2), degrees(22.5), metres(0.45), {Side::left});
  h.roof.own_pitch[at(Side::left)] = degrees(30.0);
  h.roof.verge = metres(0.3);
  h.roof.weight = {kilopascals(0.4), kilopascals(0.9), true};
  h = framed(h, r, 0.9);
  add_inside_wall(h, "E", 3.0);
  h.trusses.front().plies = 2;
  for (const std::size_t i : {std::size_t{1}, h.trusses.size() - 2, h.trusses.size() - 1}) h.trusses[i].also_on = {"E"};
  const Loaded b(h, [&](const Shape& s) {
    Loads l = loads_on(s, r, {"0.9 G + W", "a test", 0.9, 1.5});
    l.cases.push_back(l.cases[0]);
    for (Pressure& p : l.cases[1].net) p = -p;
    l.cases.push_back(l.cases[0]);
    l.cases[2].net_small = l.cases[2].net;
    for (Pressure& p : l.cases[2].net_small) p *= 1.3;
    l.cases[2].by_area = {metre * metre, 10.0 * metre * metre, true, "a test"};
    return l;
  });
  std::set<MemberKind> kinds_told;
  std::size_t steps = 0, bearings = 0;
  for (std::size_t c = 0; c < b.loads.cases.size(); ++c)
    for (std::size_t k = 0; k < b.roof.bearings().size(); ++k) {
      INFO("case " << c << ", " << b.roof.bearings()[k].words);
      kinds_told.insert(b.roof.member_of(k).kind);
      for (const bool press : {false, true}) {
        Working w;
        // What the wind's working tells before
        const LoadCase& on = b.loads.cases[c];
        const auto& zones = b.loads.layouts[0].zones;
        w.heading("The wind");
        for (std::size_t z = 0; z < zones.size(); ++z) {
          const std::string p = "p_" + zones[z].label;
          given(&w, on.net_small.empty() ? p : p + ",l", "pressure", on.net[z], "a test");
          if (!on.net_small.empty()) given(&w, p + ",s", "pressure", on.net_small[z], "a test");
        }
        const Force told = press ? b.roof.press(c, k, &w) : b.roof.uplift(c, k, &w);
        CHECK(told == (press ? b.roof.press(c, k) : b.roof.uplift(c, k)));
        CHECK(orphan(w) == "");
        REQUIRE_FALSE(w.steps.empty());
        CHECK(w.steps.back().symbol == (press ? b.roof.press_symbol(k) : b.roof.symbol(k)));
        CHECK(w.steps.back().result == value(told));
        std::map<std::string, Value> values;
        for (const Step& s : w.steps) {
          const auto [at_symbol, fresh] = values.emplace(s.symbol, s.result);
          INFO(s.symbol << " " << s.words);
          CHECK(at_symbol->second == s.result);
        }
        steps += w.steps.size();
        ++bearings;
        if (c == 0 && k % (sanitized ? 40 : 7) == 0) {
          const auto out = recompute::recompute(w);
          for (const auto& miss : out.misses) FAIL_CHECK(miss);
        }
      }
    }
  CHECK(kinds_told.size() >= 5);
  CHECK(steps > bearings);
}

TEST_CASE("a working tells the plies together, the corner's two walls, and what stands on what") {
  std::mt19937 r(12);
  House h = hipped(metres(11.0), metres(7.2), degrees(22.5), metres(0.45), {Side::left});
  h = framed(h, r, 0.9);
  h.trusses.front().plies = 3;
  h.trusses.front().at = metres(2.4);
  const Loaded b(h, [&](const Shape& s) { return loads_on(s, r, {"0.9 G + W", "a test", 0.9, 1.5}); });
  const auto told = [&](std::string_view words) {
    Working w;
    b.roof.uplift(0, b.bearing(words), &w);
    return w;
  };
  const Working girder = told("T1 at 2400 front");
  CHECK(girder.steps.back().words ==
        "net uplift at the bearing, with what stands on the member; of all 3 plies together");
  std::set<std::string> headings;
  for (const Step& s : girder.steps) headings.insert(s.heading);
  CHECK(headings.contains("The roof lifts: J1 at 2400 left onto T1"));
  CHECK(headings.contains("The roof lifts: T1 at 2400 front"));
  CHECK(told("H1 front left").steps.back().words.ends_with("; at the corner either wall is asked for all of it"));
}
