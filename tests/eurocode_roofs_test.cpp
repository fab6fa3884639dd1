// EN 1991-1-4 on every kind of roof: hips, hips beside gables, gables on hip ends, one slope, flat, two pitches.
// Tables, zones worked out by hand, and laws for roofs drawn at random.
#include "any_roof.hpp"
#include "mirrored.hpp"
#include "recompute.hpp"
#include "sanitized.hpp"
#include "wind/eurocode.hpp"
#include "wind/formulas_en.hpp"
#include "wind/zones.hpp"
#include <catch2/catch.hpp>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Equals;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using eurocode::Family;

namespace {

const Table& en() { return table("methods/en-1991-1-4-2005.toml"); }
House blown_on(House h, std::string terrain = "II") {
  h.site = en_site(Speed::from_value(26.0), std::move(terrain));
  return h;
}
double c(Family f, const std::string& column, double pitch) {
  return eurocode::coefficient(en(), f, column, degrees(pitch));
}
Area area_of(const Layout& layout, const std::string& label) {
  Area sum = zero<Area>();
  for (const Zone& z : layout.zones)
    if (z.label == label) sum += area(z.part);
  return sum;
}
const Layout& layout_of(const Blown& b, const std::string& name) {
  for (const Layout& layout : b.loads.layouts)
    if (layout.name == name) return layout;
  throw std::runtime_error("no layout " + name);
}
// The zone at a point, seen from above; every label there when a seam or two zones are hit.
std::string zone_at(const Blown& b, const std::string& wind, double x, double y) {
  std::string found;
  for (const Zone& z : layout_of(b, wind).zones)
    if (b.shape.surfaces[z.surface].part != Part::soffit && holds(z.part, {metres(x), metres(y)})) found += z.label;
  return found;
}
// Net pressure there as a share of q_p; small: on 1 m2.
double share_at(const Blown& b, const std::string& id, double x, double y, bool small = false) {
  const LoadCase& of = find_case(b.loads, id);
  const Layout& layout = b.loads.layouts[of.layout];
  for (std::size_t i = 0; i < layout.zones.size(); ++i)
    if (b.shape.surfaces[layout.zones[i].surface].part != Part::soffit &&
        holds(layout.zones[i].part, {metres(x), metres(y)}))
      return (small ? of.net_small[i] : of.net[i]) / b.site.q;
  throw std::runtime_error("nothing there");
}
// The force on the whole building over q_p, in m2.
double pushed(const Blown& b, const std::string& id, Along along) {
  return push_total(find_case(b.loads, id), along).value() / b.site.q.value();
}
std::set<std::string> cases_of(const Loads& l) {
  std::set<std::string> all;
  for (const LoadCase& x : l.cases) all.insert(x.id);
  return all;
}
bool has_excess(const Loads& l, const std::string& limit) {
  return std::any_of(l.excess.begin(), l.excess.end(), [&](const Excess& e) { return e.limit == limit; });
}
const Step* step(const Working& w, const std::string& symbol) {
  for (const Step& s : w.steps)
    if (s.symbol == symbol) return &s;
  return nullptr;
}

}  // namespace

// ---- tables --------------------------------------------------------------------------------------------------------

TEST_CASE("eurocode roofs: monopitch coefficients at every printed pitch") {
  // Tables 7.3a and b, from memory: zone, then 5, 15, 30, 45, 60, 75 degrees
  struct Row {
    Family family;
    const char* column;
    std::array<double, 6> value;
  };
  const std::vector<Row> rows{
      {Family::mono_low, "F10", {-1.7, -0.9, -0.5, 0.0, 0.7, 0.8}},
      {Family::mono_low, "F1", {-2.5, -2.0, -1.5, 0.0, 0.7, 0.8}},
      {Family::mono_low, "F_most", {0.0, 0.2, 0.7, 0.7, 0.7, 0.8}},
      {Family::mono_low, "G10", {-1.2, -0.8, -0.5, 0.0, 0.7, 0.8}},
      {Family::mono_low, "G1", {-2.0, -1.5, -1.5, 0.0, 0.7, 0.8}},
      {Family::mono_low, "G_most", {0.0, 0.2, 0.7, 0.7, 0.7, 0.8}},
      {Family::mono_low, "H10", {-0.6, -0.3, -0.2, 0.0, 0.7, 0.8}},
      {Family::mono_low, "H1", {-1.2, -0.3, -0.2, 0.0, 0.7, 0.8}},
      {Family::mono_low, "H_most", {0.0, 0.2, 0.4, 0.6, 0.7, 0.8}},
      {Family::mono_high, "F10", {-2.3, -2.5, -1.1, -0.6, -0.5, -0.5}},
      {Family::mono_high, "F1", {-2.5, -2.8, -2.3, -1.3, -1.0, -1.0}},
      {Family::mono_high, "G10", {-1.3, -1.3, -0.8, -0.5, -0.5, -0.5}},
      {Family::mono_high, "G1", {-2.0, -2.0, -1.5, -0.5, -0.5, -0.5}},
      {Family::mono_high, "H10", {-0.8, -0.9, -0.8, -0.7, -0.5, -0.5}},
      {Family::mono_high, "H1", {-1.2, -1.2, -0.8, -0.7, -0.5, -0.5}},
      {Family::mono_along, "Fup10", {-2.1, -2.4, -2.1, -1.5, -1.2, -1.2}},
      {Family::mono_along, "Fup1", {-2.6, -2.9, -2.9, -2.4, -2.0, -2.0}},
      {Family::mono_along, "Flow10", {-2.1, -1.6, -1.3, -1.3, -1.2, -1.2}},
      {Family::mono_along, "Flow1", {-2.4, -2.4, -2.0, -2.0, -2.0, -2.0}},
      {Family::mono_along, "G10", {-1.8, -1.9, -1.5, -1.4, -1.2, -1.2}},
      {Family::mono_along, "G1", {-2.0, -2.5, -2.0, -2.0, -2.0, -2.0}},
      {Family::mono_along, "H10", {-0.6, -0.8, -1.0, -1.0, -1.0, -1.0}},
      {Family::mono_along, "H1", {-1.2, -1.2, -1.3, -1.3, -1.3, -1.3}},
      {Family::mono_along, "I10", {-0.5, -0.7, -0.8, -0.9, -0.7, -0.5}},
      {Family::mono_along, "I1", {-0.5, -1.2, -1.2, -1.2, -1.2, -0.5}},
  };
  const std::array pitches{5.0, 15.0, 30.0, 45.0, 60.0, 75.0};
  for (const Row& row : rows)
    for (std::size_t i = 0; i < pitches.size(); ++i) {
      INFO(eurocode::key_of(row.family) << ' ' << row.column << " at " << pitches[i]);
      CHECK_THAT(c(row.family, row.column, pitches[i]), WithinAbs(row.value[i], 1e-9));
      const double near = 1e-9;  // degrees
      CHECK_THAT(c(row.family, row.column, pitches[i] - near),
                 WithinAbs(c(row.family, row.column, pitches[i] + near), 1e-8));
      if (i == 0) continue;
      CHECK_THAT(c(row.family, row.column, 0.5 * (pitches[i - 1] + pitches[i])),
                 WithinAbs(0.5 * (row.value[i - 1] + row.value[i]), 1e-9));
    }
  // Every column of the three tables stands above.
  for (const Family f : {Family::mono_low, Family::mono_high, Family::mono_along})
    for (const auto& named : en().entry(eurocode::key_of(f)).columns) {
      const std::string& column = named.first;
      if (column == "pitch") continue;
      CHECK(std::any_of(rows.begin(), rows.end(), [&](const Row& r) { return r.family == f && r.column == column; }));
    }
}

TEST_CASE("eurocode roofs: the tables agree where they tell of the same") {
  for (const char* column : {"F10", "F1", "G10", "G1", "G_most", "H10", "H1", "H_most"}) {
    INFO(column);
    // A slope that the wind meets, whatever stands behind it
    CHECK(en().column("monopitch_low", column) == en().column("duopitch_across", column));
    CHECK(en().column("hip", column) == en().column("duopitch_across", column));
  }
  for (const char* key : {"duopitch_along", "hip", "monopitch_low", "monopitch_high", "monopitch_along"}) {
    CHECK(en().column(key, "pitch") == en().column("duopitch_across", "pitch"));
    if (std::string_view(key) != "duopitch_along") CHECK(en().entry(key).from_memory());
  }
  CHECK(en().entries.size() <= 64);
}

// ---- one slope -----------------------------------------------------------------------------------------------------

namespace {
// 12 x 6 m, 15 degrees, high at the back, no overhang: rise 6 tan 15 = 1.607695 m, h = 0.3 + 2.4 + 1.607695 =
// 4.307695 m.
House lean_to() {
  return blown_on(skillion(metres(12.0), metres(6.0), degrees(15.0), Side::back, zero<Length>(), zero<Length>()));
}
}  // namespace

TEST_CASE("eurocode roofs: a skillion, zones by hand") {
  const Blown b = blow(lean_to());
  CHECK(b.loads.excess.empty());
  CHECK(b.loads.layouts.size() == 4);
  const double h = 0.3 + 2.4 + 6.0 * std::tan(degrees(15.0).value());
  // Wind across: e = 2h = 8.615390 under 12 m. On to the low eaves and on to the high edge
  const double e = 2.0 * h;
  const double f = 2.0 * 0.25 * e * 0.1 * e, g = (12.0 - 0.5 * e) * 0.1 * e, rest = (6.0 - 0.1 * e) * 12.0;
  for (const char* wind : {"front", "back"}) {
    const Layout& layout = layout_of(b, wind);
    CHECK_THAT(area_of(layout, "F").value(), WithinAbs(f, 1e-9));
    CHECK_THAT(area_of(layout, "G").value(), WithinAbs(g, 1e-9));
    CHECK_THAT(area_of(layout, "H").value(), WithinAbs(rest, 1e-9));
  }
  const auto lift = [&](const std::string& id, bool small) {
    const LoadCase& of = find_case(b.loads, id);
    const Layout& layout = b.loads.layouts[of.layout];
    double sum = 0.0;
    for (std::size_t i = 0; i < layout.zones.size(); ++i)
      sum += (small ? of.net_small[i] : of.net[i]) / b.site.q * area(layout.zones[i].part).value();
    return sum;
  };
  CHECK_THAT(lift("front lift-lift out", false), WithinAbs(-0.9 * f - 0.8 * g - 0.3 * rest - 0.2 * 72.0, 1e-9));
  CHECK_THAT(lift("front press-lift in", false), WithinAbs(0.2 * 72.0 + 0.3 * 72.0, 1e-9));
  CHECK_THAT(lift("front lift-lift out", true), WithinAbs(-2.0 * f - 1.5 * g - 0.3 * rest - 0.2 * 72.0, 1e-9));
  CHECK_THAT(lift("back out", false), WithinAbs(-2.5 * f - 1.3 * g - 0.9 * rest - 0.2 * 72.0, 1e-9));
  CHECK_THAT(lift("back out", true), WithinAbs(-2.8 * f - 2.0 * g - 1.2 * rest - 0.2 * 72.0, 1e-9));
  // Along: e = b = 6 m. Corners 1.5 x 0.6, G 3 x 0.6, H to 3 m, I behind
  for (const char* wind : {"left", "right"}) {
    const Layout& layout = layout_of(b, wind);
    CHECK_THAT(area_of(layout, "Fup").value(), WithinAbs(0.9, 1e-9));
    CHECK_THAT(area_of(layout, "Flow").value(), WithinAbs(0.9, 1e-9));
    CHECK_THAT(area_of(layout, "G").value(), WithinAbs(1.8, 1e-9));
    CHECK_THAT(area_of(layout, "H").value(), WithinAbs(2.4 * 6.0, 1e-9));
    CHECK_THAT(area_of(layout, "I").value(), WithinAbs(9.0 * 6.0, 1e-9));
    CHECK_THAT(lift(std::string(wind) + " out", false),
               WithinAbs(-2.4 * 0.9 - 1.6 * 0.9 - 1.9 * 1.8 - 0.8 * 14.4 - 0.7 * 54.0 - 0.2 * 72.0, 1e-9));
    CHECK_THAT(lift(std::string(wind) + " in", true),
               WithinAbs(-2.9 * 0.9 - 2.4 * 0.9 - 2.5 * 1.8 - 1.2 * 14.4 - 1.2 * 54.0 + 0.3 * 72.0, 1e-9));
  }
  CHECK(zone_at(b, "left", 0.3, 5.8) == "Fup");
  CHECK(zone_at(b, "left", 0.3, 0.2) == "Flow");
  CHECK(zone_at(b, "right", 11.8, 5.8) == "Fup");
  CHECK(zone_at(b, "right", 11.8, 0.2) == "Flow");
  const std::set<std::string> ids = cases_of(b.loads);
  CHECK(ids.contains("front press-lift out walls"));
  CHECK_FALSE(ids.contains("back press-lift out"));
}

TEST_CASE("eurocode roofs: pushes on a skillion by hand") {
  // Wind on to the back, the high side: h/d = 4.307695 / 6 = 0.717949, D 0.7 + 0.1 x 0.467949 / 0.75 = 0.762393, E
  // -0.3 - 0.2 x 0.623932 = -0.424786. The wall met 12 x (2.4 + 1.607695), that behind 12 x 2.4; the slope's suction by
  // its level part, tan 15, goes the same way
  const Blown b = blow(lean_to());
  const double slope = std::tan(degrees(15.0).value()), rise = 6.0 * slope, h = 2.7 + rise;
  const double d = 0.7 + 0.1 * (h / 6.0 - 0.25) / 0.75, e = -0.3 - 0.2 * (h / 6.0 - 0.25) / 0.75;
  const double walls = 0.85 * (d * 12.0 * (2.4 + rise) - e * 12.0 * 2.4);
  CHECK_THAT(pushed(b, "back out walls", Along::up), WithinAbs(-walls, 1e-9));
  const double e_r = 2.0 * h, f = 0.05 * e_r * e_r, g = (12.0 - 0.5 * e_r) * 0.1 * e_r, rest = 72.0 - f - g;
  const double roof = slope * (2.5 * f + 1.3 * g + 0.9 * rest);
  CHECK_THAT(pushed(b, "back out", Along::up), WithinAbs(-walls - roof, 1e-9));
  // On to the front: the low wall met, the high one behind; pressed on the slope, which goes with the wind
  const double from_front = 0.85 * (d * 12.0 * 2.4 - e * 12.0 * (2.4 + rise));
  CHECK_THAT(pushed(b, "front press-lift out", Along::up), WithinAbs(from_front + slope * 0.2 * 72.0, 1e-9));
  CHECK_THAT(pushed(b, "front lift-lift out", Along::up),
             WithinAbs(from_front - slope * (0.9 * f + 0.8 * g + 0.3 * rest), 1e-9));
  CHECK_THAT(pushed(b, "front lift-lift out", Along::across), WithinAbs(0.0, 1e-9));
  // Along it: the ends' triangles stand on their walls; h/d 4.307695 / 12 = 0.358975
  const double d2 = 0.7 + 0.1 * (h / 12.0 - 0.25) / 0.75, e2 = -0.3 - 0.2 * (h / 12.0 - 0.25) / 0.75;
  CHECK_THAT(pushed(b, "left out", Along::across), WithinAbs(0.85 * (d2 - e2) * (6.0 * 2.4 + 0.5 * 6.0 * rise), 1e-9));
  // The slope's suction, alike all along, has a level part square to that wind
  CHECK(pushed(b, "left out", Along::up) < 0.0);
  CHECK_THAT(pushed(b, "left out walls", Along::up), WithinAbs(0.0, 1e-9));
}

TEST_CASE("eurocode roofs: the reference height of one slope goes up to its high edge") {
  House h = lean_to();
  const double without = blow(h).site.q.value();
  h.roof.own_overhang[at(Side::back)] = metres(1.0);
  const Blown b = blow(h);
  CHECK(b.site.q.value() > without);
  const Length top =
      formulas::top_of_high_edge(nullptr, metres(0.3), metres(2.4), b.shape.rise, metres(1.0), degrees(15.0));
  CHECK_THAT(top.value(), WithinAbs(b.shape.top.value(), 1e-12));
  CHECK(eurocode::reference_height({h.site, h, b.shape, en()}, nullptr) == top);
}

TEST_CASE("eurocode roofs: friction along one slope by its higher wall") {
  // 40 x 6 m, high at the back, 10 degrees: reach 2b = 12 of 4h; 28 m on; both walls 2.4 + 6 tan 10
  const House h =
      blown_on(skillion(metres(40.0), metres(6.0), degrees(10.0), Side::back, zero<Length>(), zero<Length>()));
  const Blown b = blow(h);
  double sum = 0.0;
  for (const Push& p : find_case(b.loads, "left out walls").push)
    if (p.label == "friction") sum += (p.p * area(p.part)).value() / b.site.q.value();
  const double wall = 2.4 + 6.0 * std::tan(degrees(10.0).value());
  CHECK_THAT(sum, WithinRel(0.04 * (2.0 * wall * 28.0 + 6.0 * 28.0 / std::cos(degrees(10.0).value())), 1e-9));
}

// ---- flat, and about five degrees ----------------------------------------------------------------------------------

TEST_CASE("eurocode roofs: below five degrees a flat roof, whatever its slopes; from there on its own table") {
  // Table 7.2, sharp eaves: F -1.8/-2.5, G -1.2/-2.0, H -0.7/-1.2, I +-0.2. Nothing is interpolated from 0 to 5 degrees
  const auto flat_or = [](double pitch, RoofShape shape) {
    House h = roofed(metres(12.0), metres(8.0), shape, Along::across, degrees(pitch), metres(0.4), metres(0.4));
    h.roof.hipped = {true, false, true, false};
    return blow(blown_on(h));
  };
  for (const RoofShape shape : {RoofShape::gable, RoofShape::hip, RoofShape::skillion, RoofShape::flat})
    for (const double pitch : {0.5, 3.0, 4.999}) {
      INFO(words(shape) << ' ' << pitch);
      const Blown b = flat_or(pitch, shape);
      CHECK(b.loads.excess.empty());
      for (const char* wind : {"left", "front", "right", "back"}) {
        std::set<std::string> labels;
        for (const Zone& z : layout_of(b, wind).zones)
          if (b.shape.surfaces[z.surface].part == Part::roof) labels.insert(z.label);
        CHECK(labels == std::set<std::string>{"F", "G", "H", "I"});
      }
      CHECK_THAT(share_at(b, "front lift-lift out", 0.05, 0.05), WithinAbs(-1.8 - 0.2, 1e-9));
      CHECK_THAT(share_at(b, "front lift-lift out", 0.05, 0.05, true), WithinAbs(-2.5 - 0.2, 1e-9));
      CHECK_THAT(share_at(b, "front lift-lift out", 6.0, 0.05), WithinAbs(-1.2 - 0.2, 1e-9));
      CHECK_THAT(share_at(b, "left lift-lift out", 2.0, 3.9), WithinAbs(-0.7 - 0.2, 1e-9));
      CHECK_THAT(share_at(b, "left lift-press in", 11.0, 3.9), WithinAbs(0.2 + 0.3, 1e-9));
      CHECK_THAT(share_at(b, "left lift-lift in", 11.0, 3.9), WithinAbs(-0.2 + 0.3, 1e-9));
    }
  // At five degrees and above no jump: the first row and a hair more
  for (const RoofShape shape : {RoofShape::gable, RoofShape::hip, RoofShape::skillion}) {
    const Blown at_5 = flat_or(5.0, shape), above = flat_or(5.0 + 1e-7, shape);
    REQUIRE(at_5.loads.cases.size() == above.loads.cases.size());
    for (std::size_t i = 0; i < at_5.loads.cases.size(); ++i) {
      const LoadCase &x = at_5.loads.cases[i], &y = above.loads.cases[i];
      REQUIRE(x.id == y.id);
      std::mt19937 rng(6);
      std::uniform_real_distribution<double> across(-0.4, 12.4), up(-0.4, 8.4);
      for (int k = 0; k < 40; ++k) {
        const Point p{metres(across(rng)), metres(up(rng))};
        for (const bool soffit : {false, true}) {
          const auto here = net_at(at_5, x, p, soffit), there = net_at(above, y, p, soffit);
          if (here && there) CHECK_THAT(there->value(), WithinAbs(here->value(), 1e-3));
        }
      }
    }
  }
  // What is called flat, at five degrees, is one slope
  CHECK(zone_at(flat_or(5.0, RoofShape::flat), "left", 0.2, 7.9) == "Fup");
}

TEST_CASE("eurocode roofs: pressures go with the pitch without a jump, on every kind") {
  // Every case of a sign is there on both sides of a row; a pairing of signs comes or goes where its figures meet
  for (const RoofShape shape : {RoofShape::gable, RoofShape::hip, RoofShape::skillion})
    for (const double pitch : {15.0, 22.5, 30.0, 37.0, 45.0, 60.0}) {
      const auto at_pitch = [&](double p) {
        House h = roofed(metres(14.0), metres(7.0), shape, Along::across, degrees(p), metres(0.4), metres(0.3));
        h.roof.hipped = {true, false, false, false};
        h.floor_level = metres(0.0);
        return blow(blown_on(h));
      };
      const Blown low = at_pitch(pitch - 1e-7), high = at_pitch(pitch + 1e-7);
      for (const LoadCase& x : low.loads.cases) {
        if (!cases_of(high.loads).contains(x.id)) continue;
        const LoadCase& y = find_case(high.loads, x.id);
        std::mt19937 rng(5);
        std::uniform_real_distribution<double> across(-0.3, 14.3), up(-0.4, 7.4);
        for (int i = 0; i < 40; ++i) {
          const Point p{metres(across(rng)), metres(up(rng))};
          const auto a = net_at(low, x, p, false), b = net_at(high, y, p, false);
          if (!a || !b) continue;
          INFO(words(shape) << ' ' << pitch << ' ' << x.id << ' ' << p.x.value() << ' ' << p.y.value());
          CHECK_THAT(b->value(), WithinAbs(a->value(), 1e-2));
        }
      }
    }
}

TEST_CASE("eurocode roofs: slopes under five degrees beside steeper ones are outside the tables") {
  House h = roofed(metres(12.0), metres(8.0), RoofShape::gable, Along::across, degrees(20.0), metres(0.4), metres(0.4));
  CHECK(blow(blown_on(h)).loads.excess.empty());
  h.roof.own_pitch[at(Side::front)] = degrees(4.0);
  CHECK(has_excess(blow(blown_on(h)).loads, "pitch of a slope beside steeper ones"));
  h.roof.own_pitch[at(Side::back)] = degrees(3.0);
  CHECK(blow(blown_on(h)).loads.excess.empty());  // flat
  House hip = hipped(metres(12.0), metres(8.0), degrees(20.0), metres(0.4), {Side::left, Side::right});
  hip.roof.own_pitch[at(Side::left)] = degrees(76.0);
  CHECK(has_excess(blow(blown_on(hip)).loads, "roof pitch"));
  House one = skillion(metres(6.0), metres(8.0), degrees(30.0), Side::left, metres(0.4), metres(0.4));
  CHECK(blow(blown_on(one)).loads.excess.empty());
}

// ---- two pitches ---------------------------------------------------------------------------------------------------

TEST_CASE("eurocode roofs: two slopes of their own pitch") {
  // 12 x 9 m, front 15, back 30 degrees, no overhang. The slope met by its own pitch; that in the lee by the worse of
  // both; along the ridge each by its own
  House h =
      roofed(metres(12.0), metres(9.0), RoofShape::gable, Along::across, degrees(30.0), zero<Length>(), zero<Length>());
  h.roof.own_pitch[at(Side::front)] = degrees(15.0);
  const Blown b = blow(blown_on(h));
  CHECK(b.loads.excess.empty());
  CHECK(std::any_of(b.site.cautions.begin(), b.site.cautions.end(),
                    [](const std::string& s) { return s.find("two pitches") != std::string::npos; }));
  // The ridge: y tan 15 = (9 - y) tan 30
  const double t15 = std::tan(degrees(15.0).value()), t30 = std::tan(degrees(30.0).value());
  const double ridge = 9.0 * t30 / (t15 + t30);
  const std::string up = "front lift-lift out", down = "back lift-lift out";
  CHECK_THAT(share_at(b, up, 6.0, 0.1), WithinAbs(-0.8 - 0.2, 1e-9));            // G at 15
  CHECK_THAT(share_at(b, up, 6.0, 3.0), WithinAbs(-0.3 - 0.2, 1e-9));            // H at 15
  CHECK_THAT(share_at(b, up, 6.0, ridge + 0.1), WithinAbs(-1.0 - 0.2, 1e-9));    // J: -1.0 at 15, -0.5 at 30
  CHECK_THAT(share_at(b, up, 6.0, 8.9), WithinAbs(-0.4 - 0.2, 1e-9));            // I
  CHECK_THAT(share_at(b, down, 6.0, 8.9), WithinAbs(-0.5 - 0.2, 1e-9));          // G at 30
  CHECK_THAT(share_at(b, down, 6.0, ridge - 0.1), WithinAbs(-1.0 - 0.2, 1e-9));  // J
  CHECK_THAT(share_at(b, "left out", 0.1, 0.1), WithinAbs(-1.3 - 0.2, 1e-9));    // F at 15
  CHECK_THAT(share_at(b, "left out", 0.1, 8.9), WithinAbs(-1.1 - 0.2, 1e-9));    // F at 30
  CHECK_THAT(share_at(b, "left out", 2.5, 2.0), WithinAbs(-0.6 - 0.2, 1e-9));    // H at 15
  CHECK_THAT(share_at(b, "left out", 2.5, 8.0), WithinAbs(-0.8 - 0.2, 1e-9));    // H at 30
  CHECK(zone_at(b, "left", 0.1, 0.1) == "F,front");
  CHECK(zone_at(b, "left", 0.1, 8.9) == "F,back");
}

// ---- hips ----------------------------------------------------------------------------------------------------------

TEST_CASE("eurocode roofs: a hip roof, zones integrated by hand") {
  // 12 x 8 m, 30 degrees, no overhang: ridge at 2.309401 m, from x = 4 to 8; h = 0.3 + 2.4 + 2.309401 = 5.009401 m.
  const Blown b =
      blow(blown_on(hipped(metres(12.0), metres(8.0), degrees(30.0), zero<Length>(), {Side::left, Side::right})));
  CHECK(b.loads.excess.empty());
  const double h = 0.3 + 2.4 + 4.0 * std::tan(degrees(30.0).value()), root = std::sqrt(2.0);
  // On to the front: e = 2h = 10.018802 m, edge k = 1.0018802. All in plan.
  const double e = 2.0 * h, k = 0.1 * e;
  const Layout& front = layout_of(b, "front");
  // The slope met is a trapezoid, 12 m at its foot and 4 at the ridge. F: each corner e/4 broad, less the triangle
  // that the hip cuts off
  const double f = 2.0 * (0.25 * e * k - 0.5 * k * k);
  CHECK_THAT(area_of(front, "F").value(), WithinAbs(f, 1e-9));
  const double g = (12.0 - 0.5 * e) * k;
  CHECK_THAT(area_of(front, "G").value(), WithinAbs(g, 1e-9));
  CHECK_THAT(area_of(front, "H").value(), WithinAbs(32.0 - f - g, 1e-9));
  // The ends: triangles of 16 m2. L within k of the hip in front, square to it: what is left has its foot k root 2
  // shorter (the hip stands at 45 degrees): similar to the whole
  const double rest_of_end = 16.0 * std::pow((8.0 - k * root) / 8.0, 2.0);
  CHECK_THAT(area_of(front, "L").value(), WithinAbs(2.0 * (16.0 - rest_of_end), 1e-9));
  // M before e/2 = 5.009401 of the front, past the apex at y = 4: N is a corner triangle of 8 - e/2 by the same
  const double n = 0.5 * std::pow(8.0 - 0.5 * e, 2.0);
  CHECK_THAT(area_of(front, "N").value(), WithinAbs(2.0 * n, 1e-9));
  CHECK_THAT(area_of(front, "M").value(), WithinAbs(2.0 * (rest_of_end - n), 1e-9));
  // Behind the ridge: J (-0.7, -1.2) counts before K (-0.5). What lies clear of both hips is a trapezoid whose foot is
  // 12 - 2 k root 2 and which narrows to 4 - 2 k root 2 at the ridge; K is its top strip
  const double top = 4.0 - 2.0 * k * root, kk = (top + k) * k;
  CHECK_THAT(area_of(front, "K").value(), WithinAbs(kk, 1e-9));
  const double clear = 0.5 * (top + top + 8.0) * 4.0;
  CHECK_THAT(area_of(front, "I").value(), WithinAbs(clear - kk, 1e-9));
  CHECK_THAT(area_of(front, "J").value(), WithinAbs(32.0 - clear, 1e-9));

  const auto lift = [&](const char* id, bool small) {
    const LoadCase& of = find_case(b.loads, id);
    const Layout& layout = b.loads.layouts[of.layout];
    double sum = 0.0;
    for (std::size_t i = 0; i < layout.zones.size(); ++i)
      sum += (small ? of.net_small[i] : of.net[i]) / b.site.q * area(layout.zones[i].part).value();
    return sum;
  };
  const double l = 2.0 * (16.0 - rest_of_end), m = 2.0 * (rest_of_end - n), i = clear - kk, j = 32.0 - clear;
  const double hh = 32.0 - f - g, inside = 0.2 * 96.0;
  CHECK_THAT(lift("front lift-lift out", false), WithinAbs(-0.5 * f - 0.5 * g - 0.2 * hh - 1.4 * l - 0.8 * m -
                                                               0.2 * 2.0 * n - 0.4 * i - 0.7 * j - 0.5 * kk - inside,
                                                           1e-9));
  CHECK_THAT(lift("front press-lift out", false), WithinAbs(0.5 * f + 0.7 * g + 0.4 * hh - 1.4 * l - 0.8 * m -
                                                                0.2 * 2.0 * n - 0.4 * i - 0.7 * j - 0.5 * kk - inside,
                                                            1e-9));
  CHECK_THAT(lift("front lift-lift out", true), WithinAbs(-1.5 * f - 1.5 * g - 0.2 * hh - 2.0 * l - 1.2 * m -
                                                              0.2 * 2.0 * n - 0.4 * i - 1.2 * j - 0.5 * kk - inside,
                                                          1e-9));
  // On to the left end: e = b = 8 m; its slope is a triangle of 16 m2
  const Layout& left = layout_of(b, "left");
  const double f2 = 2.0 * (2.0 * 0.8 - 0.5 * 0.8 * 0.8), g2 = 4.0 * 0.8;
  CHECK_THAT(area_of(left, "F").value(), WithinAbs(f2, 1e-9));
  CHECK_THAT(area_of(left, "G").value(), WithinAbs(g2, 1e-9));
  CHECK_THAT(area_of(left, "H").value(), WithinAbs(16.0 - f2 - g2, 1e-9));
  // Two walls' pushes and the slopes' level parts, by hand: the slopes at the sides even out
  const double d = 0.7 + 0.1 * (h / 12.0 - 0.25) / 0.75, ee = -0.3 - 0.2 * (h / 12.0 - 0.25) / 0.75;
  const double walls = 0.85 * (d - ee) * 8.0 * 2.4;
  CHECK_THAT(pushed(b, "left lift-lift out walls", Along::across), WithinAbs(walls, 1e-9));
  const double lee_j = 16.0 - area_of(left, "I").value();
  const double roof = std::tan(degrees(30.0).value()) *
                      (0.5 * f2 + 0.7 * g2 + 0.4 * (16.0 - f2 - g2) + 0.4 * area_of(left, "I").value() + 0.7 * lee_j);
  CHECK(area_of(left, "K") == zero<Area>());
  CHECK_THAT(pushed(b, "left press-lift out", Along::across), WithinAbs(walls + roof, 1e-9));
  CHECK_THAT(pushed(b, "left press-lift out", Along::up), WithinAbs(0.0, 1e-9));
}

TEST_CASE("eurocode roofs: eaves and soffits of a hip roof") {
  // 12 x 8 m, 20 degrees, eaves 0.5 m: the corner of the eaves is parted at the hip
  const Blown b =
      blow(blown_on(hipped(metres(12.0), metres(8.0), degrees(20.0), metres(0.5), {Side::left, Side::right})));
  CHECK(zone_at(b, "front", -0.1, -0.3) == "F,o");
  CHECK(zone_at(b, "front", -0.3, -0.1) == "L,o");
  CHECK(zone_at(b, "front", 6.0, 8.3) == "I,o");
  CHECK(zone_at(b, "left", -0.3, -0.1) == "F,o");
  CHECK(zone_at(b, "left", -0.1, -0.3) == "L,o");
  // From below by the wall that each leans on: D before the wind, A and B at the sides, E behind
  const LoadCase& of = find_case(b.loads, "front lift-lift out");
  const double q = b.site.q.value(), h_d = (2.7 + 4.0 * std::tan(degrees(20.0).value())) / 8.0;
  const double d = 0.7 + 0.1 * (h_d - 0.25) / 0.75;
  CHECK_THAT(net_at(b, of, {metres(-0.1), metres(-0.3)}, true)->value() / q, WithinAbs(d, 1e-9));
  CHECK_THAT(net_at(b, of, {metres(-0.3), metres(-0.1)}, true)->value() / q, WithinAbs(-1.2, 1e-9));
  CHECK_THAT(net_at(b, of, {metres(-0.3), metres(7.9)}, true)->value() / q, WithinAbs(-0.8, 1e-9));
  // On the eaves from outside alone
  CHECK_THAT(share_at(b, "front lift-lift out", 6.0, -0.3),
             WithinAbs(share_at(b, "front lift-lift out", 6.0, 0.1) + 0.2, 1e-9));
}

TEST_CASE("eurocode roofs: the pitch of the slope that the wind meets governs a hip roof") {
  // Table 7.5, note 3, from memory. Sides 15, ends 45 degrees: on to the front every zone at 15, on to an end at 45
  House h = hipped(metres(14.0), metres(8.0), degrees(15.0), zero<Length>(), {Side::left, Side::right});
  h.roof.own_pitch[at(Side::left)] = h.roof.own_pitch[at(Side::right)] = degrees(45.0);
  const Blown b = blow(blown_on(h));
  CHECK(b.loads.excess.empty());
  CHECK_THAT(share_at(b, "front lift-lift out", 0.1, 0.9), WithinAbs(-1.4 - 0.2, 1e-9));  // L at 15
  CHECK_THAT(share_at(b, "front lift-lift out", 7.0, 4.2), WithinAbs(-1.2 - 0.2, 1e-9));  // K at 15
  CHECK_THAT(share_at(b, "left lift-lift out", 0.5, 4.0), WithinAbs(0.0 - 0.2, 1e-9));    // G at 45
  CHECK_THAT(share_at(b, "left lift-lift out", 3.0, 2.0), WithinAbs(-0.8 - 0.2, 1e-9));   // M at 45
  CHECK_THAT(share_at(b, "left press-lift in", 0.5, 4.0), WithinAbs(0.7 + 0.3, 1e-9));
  // The hip runs where both slopes are of one height: x tan 45 = y tan 15. L is square to it
  CHECK(zone_at(b, "left", 0.5, 1.0) == "L");
  CHECK(zone_at(b, "left", 0.5, 1.9) == "G");
}

TEST_CASE("eurocode roofs: a hip end and a gable end, each by its own rule") {
  // 14 x 8 m, 15 degrees, hip on the left, gable on the right, no overhang; h = 2.7 + 4 tan 15 = 3.771797, e across
  // 7.543594, along 7.543594 (8 m is more)
  const House h = blown_on(hipped(metres(14.0), metres(8.0), degrees(15.0), zero<Length>(), {Side::left}));
  const Blown b = blow(h);
  CHECK(b.loads.excess.empty());
  CHECK(std::any_of(b.site.cautions.begin(), b.site.cautions.end(),
                    [](const std::string& s) { return s.find("a hip and a gable") != std::string::npos; }));
  // On to the hip: its zones; past e/2 the last zone of either table, I of duopitch -0.5 over N -0.3
  CHECK(zone_at(b, "left", 0.3, 4.0) == "G");
  CHECK(zone_at(b, "left", 2.0, 1.6) == "L");
  CHECK(zone_at(b, "left", 3.0, 1.0) == "M");
  CHECK(zone_at(b, "left", 9.0, 1.0) == "NI");
  CHECK_THAT(share_at(b, "left lift-lift out", 9.0, 1.0), WithinAbs(-0.5 - 0.2, 1e-9));
  CHECK_THAT(share_at(b, "left lift-lift out", 3.0, 1.0), WithinAbs(-0.6 - 0.2, 1e-9));
  // On to the gable: a duopitch roof's end zones, and the hip's own lee at its pitch
  CHECK_THAT(share_at(b, "right out", 13.9, 0.1), WithinAbs(-1.3 - 0.2, 1e-9));  // F
  CHECK_THAT(share_at(b, "right out", 13.9, 4.2), WithinAbs(-1.3 - 0.2, 1e-9));  // G
  CHECK_THAT(share_at(b, "right out", 12.0, 2.0), WithinAbs(-0.6 - 0.2, 1e-9));  // H
  CHECK_THAT(share_at(b, "right out", 6.0, 2.0), WithinAbs(-0.5 - 0.2, 1e-9));   // I
  CHECK_THAT(share_at(b, "right out", 0.5, 0.9), WithinAbs(-1.0 - 0.2, 1e-9));   // J of the hip
  CHECK_THAT(share_at(b, "right out", 0.5, 4.0), WithinAbs(-0.5 - 0.2, 1e-9));   // I of the hip
  // Across: K of hip roofs -1.2 over J of duopitch roofs -1.0 all along the ridge; I -0.5 over -0.4
  CHECK(zone_at(b, "front", 7.0, 4.1) == "KJ");
  CHECK_THAT(share_at(b, "front lift-lift out", 7.0, 4.1), WithinAbs(-1.2 - 0.2, 1e-9));
  CHECK_THAT(share_at(b, "front lift-lift out", 7.0, 7.0), WithinAbs(-0.5 - 0.2, 1e-9));
  CHECK_THAT(share_at(b, "front lift-lift out", 1.0, 7.3), WithinAbs(-1.0 - 0.2, 1e-9));  // J along the hip
  CHECK_THAT(share_at(b, "front lift-lift out", 0.2, 0.5), WithinAbs(-1.4 - 0.2, 1e-9));  // L on the end's slope
  CHECK_THAT(share_at(b, "front press-press in", 7.0, 7.0), WithinAbs(0.0 + 0.3, 1e-9));  // I of duopitch roofs
  CHECK_THAT(share_at(b, "front press-lift in", 7.0, 2.0), WithinAbs(0.2 + 0.3, 1e-9));
  // Pushes: on to the hip the end wall and the slope; behind, the wall and its gable
  const double slope = std::tan(degrees(15.0).value()), hd = (2.7 + 4.0 * slope) / 14.0;
  const double d = 0.7 + 0.1 * (hd - 0.25) / 0.75, e = -0.3 - 0.2 * (hd - 0.25) / 0.75;
  CHECK_THAT(pushed(b, "left lift-lift out walls", Along::across),
             WithinAbs(0.85 * (d * 8.0 * 2.4 - e * (8.0 * 2.4 + 0.5 * 8.0 * 4.0 * slope)), 1e-9));
  CHECK_THAT(pushed(b, "left press-lift out", Along::across),
             WithinAbs(0.85 * (d * 8.0 * 2.4 - e * (8.0 * 2.4 + 0.5 * 8.0 * 4.0 * slope)) + 0.2 * 16.0 * slope, 1e-9));
}

TEST_CASE("eurocode roofs: a gable on a hip end") {
  // 14 x 8 m, 30 degrees, hips at both ends, on the left a gable 2 m in: its foot at 2 tan 30 up, from y = 2 to 6
  House h = hipped(metres(14.0), metres(8.0), degrees(30.0), zero<Length>(), {Side::left, Side::right});
  h.roof.gable_above[at(Side::left)] = metres(2.0);
  const Blown b = blow(blown_on(h));
  CHECK(b.loads.excess.empty());
  // On to it: the hip's zones up to the gable, from there the worse of hip and duopitch roofs: e = 8 m. At 30 degrees
  // L -1.4, M -0.8, N -0.2; F -1.1, G -1.4, H -0.8, I -0.5
  CHECK(zone_at(b, "left", 0.3, 4.0) == "G");
  CHECK(zone_at(b, "left", 1.5, 4.0) == "H");
  CHECK(zone_at(b, "left", 1.5, 1.0) == "L");
  CHECK(zone_at(b, "left", 2.5, 2.5) == "MF");
  CHECK(zone_at(b, "left", 3.0, 3.0) == "MH");
  CHECK(zone_at(b, "left", 5.0, 3.0) == "NH");
  CHECK(zone_at(b, "left", 7.0, 3.0) == "NI");
  CHECK_THAT(share_at(b, "left lift-lift out", 2.5, 2.5), WithinAbs(-1.1 - 0.2, 1e-9));
  CHECK_THAT(share_at(b, "left lift-lift out", 3.0, 3.0), WithinAbs(-0.8 - 0.2, 1e-9));
  CHECK_THAT(share_at(b, "left lift-lift out", 3.0, 3.0, true), WithinAbs(-1.2 - 0.2, 1e-9));
  CHECK_THAT(share_at(b, "left lift-lift out", 5.0, 3.0), WithinAbs(-0.8 - 0.2, 1e-9));
  CHECK_THAT(share_at(b, "left lift-lift out", 7.0, 3.0), WithinAbs(-0.5 - 0.2, 1e-9));
  // From behind: hip zones, the last of either table up to the gable
  CHECK(zone_at(b, "right", 5.0, 3.0) == "NI");
  CHECK(zone_at(b, "right", 12.0, 1.7) == "L");
  // Across, no strip along a hip past the gable: behind the ridge K and J alone
  CHECK(zone_at(b, "front", 2.3, 5.8) == "I");
  CHECK(zone_at(b, "front", 1.5, 6.8) == "J");
  CHECK(zone_at(b, "front", 1.2, 4.0) == "M");
  CHECK(zone_at(b, "front", 0.3, 0.7) == "L");
  // It is met as a wall is: 4 m at its foot, (4 - 2) tan 30 high
  const double slope = std::tan(degrees(30.0).value()), hd = (2.7 + 4.0 * slope) / 14.0;
  const double d = 0.7 + 0.1 * (hd - 0.25) / 0.75, e = -0.3 - 0.2 * (hd - 0.25) / 0.75;
  CHECK_THAT(pushed(b, "left lift-lift out walls", Along::across),
             WithinAbs(0.85 * (d * (19.2 + 0.5 * 4.0 * 2.0 * slope) - e * 19.2), 1e-9));
}

// ---- laws for any roof ---------------------------------------------------------------------------------------------

TEST_CASE("eurocode roofs: zones cover every surface once, of any roof, and nothing throws") {
  std::mt19937 rng(20);
  std::set<std::string> shapes;
  for (int i = 0; i < (sanitized ? 60 : 600); ++i) {
    House h = any_roof(rng, i % 3 != 0);
    if (i % 7 == 0) h.roof.pitch = degrees(1.0 + 0.1 * i);
    if (i % 11 == 0) h.floor_level = metres(3.0);
    const Blown b = blow(blown_on(h, i % 2 == 0 ? "II" : "IV"));
    shapes.insert(std::string(words(h.roof.shape)));
    REQUIRE(b.loads.layouts.size() == 4);
    std::set<std::string> ids;
    for (const Layout& layout : b.loads.layouts) {
      std::vector<Area> covered(b.shape.surfaces.size(), zero<Area>());
      for (const Zone& z : layout.zones) {
        REQUIRE(area(z.part) > zero<Area>());
        covered[z.surface] += area(z.part);
      }
      for (std::size_t k = 0; k < covered.size(); ++k) {
        INFO("roof " << i << ' ' << words(h.roof.shape) << ' ' << layout.name << ", surface " << k);
        CHECK_THAT(covered[k].value(), WithinAbs(area(b.shape.surfaces[k].outline).value(), 1e-9));
      }
    }
    for (const LoadCase& x : b.loads.cases) {
      CHECK(ids.insert(x.id).second);
      REQUIRE(x.net.size() == b.loads.layouts[x.layout].zones.size());
      REQUIRE(x.net_small.size() == x.net.size());
      for (const Pressure& p : x.net) REQUIRE(std::isfinite(p.value()));
      CHECK(x.down.name == "1.35G + 1.5W");
      CHECK(x.down.dead == 1.35);
      CHECK(x.down.wind == 1.5);
    }
  }
  CHECK(shapes.size() == 4);
}

TEST_CASE("eurocode roofs: a pressure alike all round pushes nowhere") {
  // Walls, uprights and the slopes over the house as seen from two facing sides are of one area: what the methods push
  // on is closed. Overhangs stand out on both of their faces
  std::mt19937 rng(21);
  for (int i = 0; i < 300; ++i) {
    const House h = any_roof(rng, i % 2 == 0);
    const Shape s = shape_of(h);
    std::array<Area, 4> seen{zero<Area>(), zero<Area>(), zero<Area>(), zero<Area>()};
    for (const Elevation& e : s.elevations)
      if (e.part != ElevationPart::roof) seen[at(e.side)] += area(e.outline);
    for (const Surface& f : s.surfaces)
      if (f.part == Part::roof) seen[at(side_facing(f.falls))] += area(upright(s, f, f.outline));
    INFO(i << ' ' << words(h.roof.shape));
    CHECK_THAT(seen[at(Side::left)].value(), WithinAbs(seen[at(Side::right)].value(), 1e-9));
    CHECK_THAT(seen[at(Side::front)].value(), WithinAbs(seen[at(Side::back)].value(), 1e-9));
  }
}

TEST_CASE("eurocode roofs: mirrored and turned houses get mirrored and turned pressures") {
  std::mt19937 rng(22);
  for (int i = 0; i < (sanitized ? 10 : 80); ++i) {
    House h = any_roof(rng, true);
    h.site = en_site(Speed::from_value(26.0), "II");
    const Blown a = blow(h);
    for (const Turn turn : turns) {
      const Frame8 f(h.across, h.up, turn);
      const Blown b = blow(blown_on(seen_in(f, h)));
      REQUIRE(a.loads.cases.size() == b.loads.cases.size());
      const auto there = [&](Side s) { return std::string(words(side_facing(f.seen(outward(s))))); };
      for (const LoadCase& x : a.loads.cases) {
        std::map<std::string, std::string> names;
        for (const Side s : all_sides) names[std::string(words(s))] = there(s);
        const LoadCase& y = find_case(b.loads, renamed(x.id, names));
        std::uniform_real_distribution<double> px(-1.0, h.across.value() + 1.0), py(-1.0, h.up.value() + 1.0);
        for (int k = 0; k < 12; ++k) {
          const Point p{metres(px(rng)), metres(py(rng))};
          for (const bool soffit : {false, true}) {
            const auto here = net_at(a, x, p, soffit), over = net_at(b, y, f.seen(p), soffit);
            INFO("roof " << i << ' ' << words(h.roof.shape) << ' ' << x.id << " at " << p.x.value() << ' '
                         << p.y.value());
            REQUIRE(here.has_value() == over.has_value());
            if (here) CHECK_THAT(over->value(), WithinAbs(here->value(), 1e-9));
          }
        }
        const auto along = [&](const LoadCase& of, Way w) {
          const Force total = push_total(of, is_across(w) ? Along::across : Along::up);
          return w == Way::right || w == Way::back ? total.value() : -total.value();
        };
        for (const Way w : {Way::right, Way::back}) CHECK_THAT(along(y, f.seen(w)), WithinAbs(along(x, w), 1e-6));
      }
    }
  }
}

TEST_CASE("eurocode roofs: slopes alike on all sides are met alike") {
  // A square plan under one pitch: four winds, one layout
  const Blown b =
      blow(blown_on(hipped(metres(9.0), metres(9.0), degrees(27.0), metres(0.4), {Side::left, Side::right})));
  for (const char* label : {"F", "G", "H", "I", "J", "L", "M", "N", "F,o", "L,o", "I,o"})
    for (const char* wind : {"front", "right", "back"})
      CHECK_THAT(area_of(layout_of(b, wind), label).value(),
                 WithinAbs(area_of(layout_of(b, "left"), label).value(), 1e-9));
}

// ---- the working ---------------------------------------------------------------------------------------------------

namespace {
std::vector<House> told_houses() {
  std::vector<House> all;
  const auto add = [&](House h) { all.push_back(blown_on(std::move(h))); };
  add(skillion(metres(9.0), metres(6.0), degrees(12.0), Side::left, metres(0.5), metres(0.4)));
  add(skillion(metres(40.0), metres(6.0), degrees(30.0), Side::front, metres(0.5), metres(0.4)));
  add(roofed(metres(9.0), metres(6.0), RoofShape::flat, Along::across, degrees(3.0), metres(0.5), metres(0.4)));
  add(roofed(metres(9.0), metres(6.0), RoofShape::flat, Along::across, degrees(5.0), metres(0.5), metres(0.4)));
  House uneven =
      roofed(metres(12.0), metres(9.0), RoofShape::gable, Along::across, degrees(35.0), metres(0.5), metres(0.4));
  uneven.roof.own_pitch[at(Side::front)] = degrees(18.0);
  add(uneven);
  add(hipped(metres(12.0), metres(8.0), degrees(22.5), metres(0.5), {Side::left, Side::right}));
  House steep = hipped(metres(40.0), metres(8.0), degrees(22.5), metres(0.5), {Side::left, Side::right});
  steep.roof.own_pitch[at(Side::left)] = degrees(50.0);
  add(steep);
  add(hipped(metres(12.0), metres(8.0), degrees(19.0), metres(0.5), {Side::back}));
  House both = hipped(metres(14.0), metres(8.0), degrees(23.0), metres(0.5), {Side::left});
  both.roof.own_pitch[at(Side::front)] = degrees(33.0);
  both.roof.own_pitch[at(Side::left)] = degrees(40.0);
  both.roof.gable_above[at(Side::left)] = metres(1.0);
  add(both);
  House above = hipped(metres(14.0), metres(8.0), degrees(23.0), metres(0.5), {Side::left, Side::right});
  above.roof.gable_above[at(Side::right)] = metres(2.0);
  add(above);
  House own = skillion(metres(9.0), metres(6.0), degrees(12.0), Side::left, metres(0.5), metres(0.4));
  own.roof.own_pitch[at(Side::right)] = degrees(17.0);  // of its only slope
  add(own);
  House neither = uneven;  // no slope has the roof's pitch
  neither.roof.own_pitch[at(Side::back)] = degrees(18.0);
  add(neither);
  put(all.front(), Side::front, opening(metres(3.0), metres(2.1), true, false, std::nullopt));
  put(all.back(), Side::left, opening(metres(3.0), metres(2.1), true, false, std::nullopt));
  std::mt19937 rng(23);
  for (int i = 0; i < (sanitized ? 2 : 12); ++i) add(any_roof(rng, true));
  return all;
}
}  // namespace

TEST_CASE("eurocode roofs: the told case is the silent one, nothing in it is an orphan, and what is told is marked") {
  std::size_t number = 0;
  for (const House& h : told_houses()) {
    const Shape s = shape_of(h);
    const WindAsk ask{h.site, h, s, en()};
    const Loads silent = eurocode::loads(ask, nullptr, std::nullopt);
    ++number;
    for (std::size_t i = 0; i < silent.cases.size(); i += sanitized ? 9 : 2) {
      Working w(i % 4 == 0 ? metric : us);
      const Loads loud = eurocode::loads(ask, &w, i);
      const LoadCase &x = loud.cases[i], &quiet = silent.cases[i];
      INFO("house " << number << ", " << x.id);
      REQUIRE(x.id == quiet.id);
      REQUIRE(x.net == quiet.net);
      REQUIRE(x.net_small == quiet.net_small);
      CHECK_THAT(orphan(w), Equals(""));
      const auto told = [&](const std::string& symbol, Pressure p) {
        const Step* found = step(w, symbol);
        INFO(symbol);
        REQUIRE(found != nullptr);
        CHECK(found->result == value(p));
      };
      const Layout& layout = loud.layouts[x.layout];
      for (std::size_t k = 0; k < layout.zones.size(); ++k) {
        told("p_" + layout.zones[k].label + ",l", x.net[k]);
        told("p_" + layout.zones[k].label + ",s", x.net_small[k]);
      }
      for (const Push& p : x.push) told("p_" + p.label, p.p);
      for (const SquareOn& q : x.square_on) told("p_sq," + q.label, q.p);
      // Pitches under the names that the load path gives them
      for (const Side side : all_sides) {
        const Step* own = step(w, "theta_" + std::string(words(side)));
        if (own) CHECK(own->result == value(s.at(side).pitch));
      }
      if (const Step* theta = step(w, "theta")) CHECK(theta->result == value(h.roof.pitch));
      // A symbol stands for one value
      std::map<std::string, Value> values;
      for (const Step& y : w.steps) {
        const auto [place, fresh] = values.try_emplace(y.symbol, y.result);
        INFO(y.symbol);
        CHECK((fresh || place->second == y.result));
      }
      for (const Entry& e : en().entries) {
        const bool is_told = std::any_of(w.steps.begin(), w.steps.end(), [&](const Step& y) {
          return y.kind == StepKind::lookup && y.source == en().source(e.key);
        });
        INFO(e.key);
        if (e.from_memory() && is_told && (x.marks & en().mark(e.key)) == 0)
          CHECK(std::any_of(en().entries.begin(), en().entries.end(), [&](const Entry& o) {
            return o.key != e.key && en().source(o.key) == en().source(e.key) && (x.marks & en().mark(o.key)) != 0;
          }));
      }
    }
  }
}

TEST_CASE("eurocode roofs: every step is worked out again by GNU Units") {
  REQUIRE(recompute::units_works());
  std::size_t number = 0;
  for (const House& h : told_houses()) {
    const Shape s = shape_of(h);
    const WindAsk ask{h.site, h, s, en()};
    const std::size_t cases = eurocode::loads(ask, nullptr, std::nullopt).cases.size();
    const Units& units = number++ % 2 == 0 ? metric : us;
    std::set<std::string> asked;
    std::vector<Step> steps;
    for (std::size_t i = 0; i < cases; i += sanitized ? 9 : 2) {
      Working w(units);
      eurocode::loads(ask, &w, i);
      for (Step& x : w.steps)
        if (asked.insert(x.symbol + '=' + x.numbers + text(x.result, units)).second) steps.push_back(std::move(x));
    }
    const auto outcome = recompute::recompute(steps, units);
    CHECK(outcome.checked > 60);
    for (const std::string& miss : outcome.misses) FAIL_CHECK("house " << number << ": " << miss);
  }
}
