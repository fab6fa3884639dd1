// ASCE 7 on roofs other than the plain gable: hips, hips with a gable above, slopes of unlike pitch, roofs of one
// slope. Coefficients marked "from memory" are those of Fig. 6-10 and 6-6 of 7-05 (28.4-1 and 27.4-1 of 7-10; 28.3-1
// and 27.3-1 of 7-16), recalled.
#include "mirrored.hpp"
#include "recompute.hpp"
#include "sanitized.hpp"
#include "wind/asce.hpp"
#include "wind_house.hpp"
#include <catch2/catch.hpp>
#include <random>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const std::vector<std::string> editions{"7-05", "7-10", "7-16"};
const std::vector<std::string> procedures{"envelope", "directional"};
constexpr std::array sides{Side::left, Side::front, Side::right, Side::back};
constexpr std::size_t left = 0, front = 1, right = 2, back = 3;

AsceSite site(const std::string& edition, const std::string& procedure, double v_mph = 120.0) {
  AsceSite s = asce(edition, mph(v_mph), "C");
  s.procedure = procedure;
  return s;
}
House with(House h, const std::string& edition, const std::string& procedure) {
  h.site = site(edition, procedure);
  return h;
}
// 12 m by 8 m, walls of 2.7 m on a floor of 0.3 m, eaves 0.5 m, verges 0.3 m.
House block(double pitch) {
  return gable(metres(12.0), metres(8.0), metres(2.7), Along::across, degrees(pitch), metres(0.5), metres(0.3));
}
House hip(double pitch) {
  House h = block(pitch);
  h.roof.shape = RoofShape::hip;
  h.roof.hipped[left] = h.roof.hipped[right] = true;
  return h;
}
House uneven(double front_pitch, double back_pitch) {
  House h = block(back_pitch);
  h.roof.own_pitch[front] = degrees(front_pitch);
  return h;
}
House one_slope(double pitch, Side high) {
  House h = block(pitch);
  h.roof.shape = pitch <= 5.0 ? RoofShape::flat : RoofShape::skillion;
  h.roof.high = high;
  h.roof.ridge = is_across(outward(high)) ? Along::up : Along::across;
  return h;
}
struct RoofCase {
  std::string name;
  House house;
};
std::vector<RoofCase> every_kind() {
  std::vector<RoofCase> all{{"hip", hip(22.5)},
                            {"low hip", hip(8.0)},
                            {"steep hip", hip(41.0)},
                            {"uneven gable", uneven(33.0, 18.0)},
                            {"gable of a low and a steep slope", uneven(7.0, 24.0)},
                            {"skillion to the back", one_slope(14.0, Side::back)},
                            {"skillion to the left", one_slope(8.0, Side::left)},
                            {"skillion to the front", one_slope(27.0, Side::front)},
                            {"flat", one_slope(3.0, Side::right)},
                            {"level", one_slope(0.0, Side::back)}};
  House h = hip(25.0);
  h.roof.hipped[right] = false;
  all.push_back({"one hip", h});
  h = hip(25.0);
  h.roof.own_pitch[left] = degrees(38.0);
  h.roof.own_pitch[back] = degrees(17.0);
  h.roof.own_overhang[front] = metres(0.9);
  all.push_back({"hip of unlike slopes", h});
  h = hip(30.0);
  h.roof.gable_above[left] = metres(1.6);
  all.push_back({"hip with a gable above", h});
  h = block(20.0);
  h.roof.own_overhang[front] = metres(0.9);
  h.roof.own_overhang[left] = metres(0.0);
  all.push_back({"gable of unlike overhangs", h});
  // Both slopes have a pitch of their own: the roof's stands nowhere
  h = uneven(28.0, 20.0);
  h.roof.own_pitch[back] = degrees(28.0);
  all.push_back({"gable of its own pitch", h});
  return all;
}
House random_roof(std::mt19937& rng) {
  const auto in = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(rng); };
  const auto coin = [&] { return in(0.0, 1.0) < 0.5; };
  const Along ridge = coin() ? Along::across : Along::up;
  House h = gable(metres(in(5.0, 20.0)), metres(in(5.0, 20.0)), metres(in(2.2, 5.0)), ridge, degrees(in(2.0, 45.0)),
                  metres(in(0.0, 0.9)), metres(in(0.0, 0.9)));
  const int kind = static_cast<int>(in(0.0, 4.0));
  h.roof.shape = static_cast<RoofShape>(kind);
  if (kind >= 2) {
    h.roof.high = sides[static_cast<std::size_t>(in(0.0, 4.0))];
    h.roof.ridge = is_across(outward(h.roof.high)) ? Along::up : Along::across;
    if (kind == 3) h.roof.pitch = degrees(in(0.0, 5.0));
    return h;
  }
  for (std::size_t i = 0; i < 4; ++i) {
    if (coin()) h.roof.own_overhang[i] = metres(in(0.0, 0.9));
    const bool end = is_across(outward(sides[i])) == (ridge == Along::across);
    if (!end && coin()) h.roof.own_pitch[i] = degrees(in(2.0, 45.0));
    if (!end || kind == 0) continue;
    h.roof.hipped[i] = coin();
    if (!h.roof.hipped[i]) continue;
    if (coin()) h.roof.own_pitch[i] = degrees(in(5.0, 45.0));
    if (coin()) h.roof.gable_above[i] = metres(in(0.2, 1.2));
  }
  return h;
}

// ---- the same house turned by a quarter (+x to +y), and seen in a mirror (left for right)
template <class T> void move_sides(std::array<T, 4>& of, const std::array<std::size_t, 4>& to) {
  const std::array<T, 4> before = of;
  for (std::size_t i = 0; i < 4; ++i) of[to[i]] = before[i];
}
House moved(House h, const std::array<std::size_t, 4>& to) {
  move_sides(h.roof.hipped, to);
  move_sides(h.roof.own_pitch, to);
  move_sides(h.roof.own_overhang, to);
  move_sides(h.roof.gable_above, to);
  h.roof.high = sides[to[static_cast<std::size_t>(h.roof.high)]];
  for (Wall& w : h.walls) w.side = sides[to[static_cast<std::size_t>(w.side)]];
  return h;
}
House turned(const House& house) {
  House h = moved(house, {front, right, back, left});
  std::swap(h.across, h.up);
  h.roof.ridge = house.roof.ridge == Along::across ? Along::up : Along::across;
  for (Wall& w : h.walls) {
    w.runs = w.runs == Along::across ? Along::up : Along::across;
    w.to = w.runs == Along::across ? h.across : h.up;
  }
  return h;
}
House in_a_mirror(const House& house) { return moved(house, {right, front, left, back}); }

const Push* push(const LoadCase& c, const std::string& label) {
  for (const Push& p : c.push)
    if (p.label == label) return &p;
  return nullptr;
}
double of_push(const LoadCase& c, const std::string& label, Pressure q) {
  const Push* p = push(c, label);
  return p ? p->p.value() / q.value() : 0.0;
}
// A force over the gust's pressure, in square metres.
double over_gust(Force f, Pressure q) { return f.value() / q.value(); }
// Of the gust at mean roof height, from above at a point over the house, without what comes from inside.
double from_outside(const Blown& b, const LoadCase& c, double x, double y, double inside) {
  const auto p = net_at(b, c, {metres(x), metres(y)}, false);
  REQUIRE(p.has_value());
  return *p / b.site.q + inside;
}
bool any_says(const SiteWind& s, const std::string& part) {
  return std::any_of(s.cautions.begin(), s.cautions.end(),
                     [&](const std::string& c) { return c.find(part) != std::string::npos; });
}

}  // namespace

// ---- envelope procedure --------------------------------------------------------------------------------------------

TEST_CASE("asce envelope: a hip of 20 degrees, zone by zone") {
  // a: the lesser of 0.1 x 8 and 0.4 x 3.728 m, at least 3 ft: 0.9144 m; end strips 1.8288 m. Figures from memory
  const Blown b = blow(with(hip(20.0), "7-16", "envelope"));
  CHECK(b.loads.excess.empty());
  // A, onto the front from its left corner. Front slope: 2E at the left end, then 2; back slope 3E, 3; the end slopes
  // part at the ridge: 2a and 3a, as on a flat roof, but -0.48 and -0.69 of 20 degrees lift more than -0.37 and -0.53
  const LoadCase& a = find_case(b.loads, "front left shut out");
  CHECK_THAT(from_outside(b, a, 1.7, 0.5, 0.18), WithinAbs(-1.07, 1e-9));
  CHECK_THAT(from_outside(b, a, 2.0, 0.5, 0.18), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(from_outside(b, a, 6.0, 3.9, 0.18), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(from_outside(b, a, 6.0, 4.1, 0.18), WithinAbs(-0.48, 1e-9));
  CHECK_THAT(from_outside(b, a, 1.7, 7.5, 0.18), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(from_outside(b, a, 0.5, 2.0, 0.18), WithinAbs(-1.07, 1e-9));
  CHECK_THAT(from_outside(b, a, 0.5, 5.0, 0.18), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(from_outside(b, a, 11.5, 2.0, 0.18), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(from_outside(b, a, 11.5, 5.0, 0.18), WithinAbs(-0.48, 1e-9));
  // Past the walls from outside alone, and from below 0.70 under the front's and the left's overhangs
  CHECK_THAT(from_outside(b, a, 6.0, -0.2, 0.0), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(*net_at(b, a, {metres(6.0), metres(-0.2)}, true) / b.site.q, WithinAbs(0.70, 1e-9));
  CHECK_THAT(*net_at(b, a, {metres(-0.2), metres(4.0)}, true) / b.site.q, WithinAbs(0.70, 1e-9));
  CHECK(net_at(b, a, {metres(12.2), metres(4.0)}, true) == zero<Pressure>());
  CHECK_THAT(of_push(a, "1", b.site.q), WithinAbs(0.53, 1e-9));
  CHECK_THAT(of_push(a, "4E", b.site.q), WithinAbs(-0.64, 1e-9));
  // B, onto the left from its front corner: by place alone. Strip 2E to 1.83 m from the left, 2 before the ridge
  const LoadCase& along = find_case(b.loads, "left front shut out");
  CHECK_THAT(from_outside(b, along, 0.5, 2.0, 0.18), WithinAbs(-1.07, 1e-9));
  CHECK_THAT(from_outside(b, along, 0.5, 5.0, 0.18), WithinAbs(-0.53, 1e-9));
  CHECK_THAT(from_outside(b, along, 2.5, 3.5, 0.18), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(from_outside(b, along, 6.0, 2.0, 0.18), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(from_outside(b, along, 6.0, 6.0, 0.18), WithinAbs(-0.37, 1e-9));
  CHECK_THAT(from_outside(b, along, 11.5, 5.0, 0.18), WithinAbs(-0.37, 1e-9));
  CHECK(any_says(b.site, "Wind onto a hip end"));
  CHECK_FALSE(any_says(b.site, "own pitch"));
}

TEST_CASE("asce envelope: a steep hip end is pushed when the wind meets it, and lifted when it passes along") {
  // 35 degrees, from memory: zones 1 0.56, 2 0.21, 2E 0.27, 3 -0.43, 4 -0.37; of a flat roof 2 -0.69, 3 -0.37
  const Blown b = blow(with(hip(35.0), "7-10", "envelope"));
  const LoadCase& across = find_case(b.loads, "front left shut out");
  CHECK_THAT(from_outside(b, across, 6.0, 2.0, 0.18), WithinAbs(0.21, 1e-9));
  CHECK_THAT(from_outside(b, across, 11.5, 2.0, 0.18), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(from_outside(b, across, 11.5, 6.0, 0.18), WithinAbs(-0.43, 1e-9));
  const LoadCase &onto = find_case(b.loads, "left front hip shut out"),
                 &walls = find_case(b.loads, "left front hip shut out walls"),
                 &along = find_case(b.loads, "left front shut out");
  CHECK_THAT(from_outside(b, onto, 1.0, 4.0, 0.18), WithinAbs(0.21, 1e-9));
  CHECK_THAT(from_outside(b, onto, 0.3, 1.0, 0.18), WithinAbs(0.27, 1e-9));
  CHECK_THAT(from_outside(b, onto, 11.0, 4.0, 0.18), WithinAbs(-0.43, 1e-9));
  // The long slopes, passed along: parted half-way
  CHECK_THAT(from_outside(b, onto, 5.9, 7.0, 0.18), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(from_outside(b, onto, 6.1, 7.0, 0.18), WithinAbs(-0.43, 1e-9));
  CHECK_THAT(of_push(onto, "1", b.site.q), WithinAbs(0.56, 1e-9));
  CHECK_THAT(of_push(onto, "4", b.site.q), WithinAbs(-0.37, 1e-9));
  // Upright, each end slope: 8 x 4 tan 35 / 2 over the house. By hand without eaves: q (0.21 + 0.43) and more in the
  // strip
  House bare = hip(35.0);
  bare.roof.eaves = zero<Length>();
  const Blown without_eaves = blow(with(bare, "7-10", "envelope"));
  const double t = std::tan(degrees(35.0).value()), strip = 2.0 * 0.9144;
  const double end = 16.0 * t, in_strip = 0.5 * strip * strip * t;
  const LoadCase& c = find_case(without_eaves.loads, "left front hip shut out");
  const Force roof = push_total(c, Along::across) -
                     push_total(find_case(without_eaves.loads, "left front hip shut out walls"), Along::across);
  CHECK_THAT(over_gust(roof, without_eaves.site.q),
             WithinAbs(0.64 * (end - in_strip) + (0.27 + 0.53) * in_strip, 1e-6));
  // Load case B would have taken the roof's push off the walls
  CHECK(push_total(onto, Along::across) > push_total(walls, Along::across));
  CHECK(push_total(along, Along::across) < push_total(onto, Along::across));
}

TEST_CASE("asce envelope: slopes of unlike pitch each by their own, walls by the worse, parted at the ridge") {
  // Front slope 30 degrees, back 20. From memory: at 30 z1 0.56, z2 0.21, z3 -0.43, z4 -0.37; at 20 z1 0.53, z2 -0.69,
  // z3 -0.48, z4 -0.43. The ridge stands 8 tan 20 / (tan 20 + tan 30) = 3.0933 m from the front
  const Blown b = blow(with(uneven(30.0, 20.0), "7-16", "envelope"));
  const double t20 = std::tan(degrees(20.0).value()), t30 = std::tan(degrees(30.0).value());
  const double ridge = 8.0 * t20 / (t20 + t30);
  CHECK_THAT(ridge, WithinAbs(3.0933, 5e-5));
  CHECK_THAT(b.shape.mean_roof_height.value(), WithinAbs(3.0 + 0.5 * ridge * t30, 1e-9));
  const LoadCase &f = find_case(b.loads, "front left shut out"), &k = find_case(b.loads, "back left shut out");
  CHECK_THAT(from_outside(b, f, 6.0, ridge - 0.01, 0.18), WithinAbs(0.21, 1e-9));
  CHECK_THAT(from_outside(b, f, 6.0, ridge + 0.01, 0.18), WithinAbs(-0.48, 1e-9));
  CHECK_THAT(from_outside(b, k, 6.0, ridge + 0.01, 0.18), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(from_outside(b, k, 6.0, ridge - 0.01, 0.18), WithinAbs(-0.43, 1e-9));
  for (const LoadCase* c : {&f, &k}) {
    CHECK_THAT(of_push(*c, "1", b.site.q), WithinAbs(0.56, 1e-9));
    CHECK_THAT(of_push(*c, "4", b.site.q), WithinAbs(-0.43, 1e-9));
    CHECK_THAT(of_push(*c, "4E", b.site.q), WithinAbs(-0.64, 1e-9));
  }
  // Along the ridge zone 2 reaches to it
  const LoadCase& along = find_case(b.loads, "left front shut out");
  CHECK_THAT(from_outside(b, along, 6.0, ridge - 0.01, 0.18), WithinAbs(-0.69, 1e-9));
  CHECK_THAT(from_outside(b, along, 6.0, ridge + 0.01, 0.18), WithinAbs(-0.37, 1e-9));
  CHECK(any_says(b.site, "its own pitch"));
}

TEST_CASE("asce envelope: flat roofs by both load cases from every side, parted half-way; steeper ones not judged") {
  // From memory, 0 to 5 degrees: z2 -0.69, z3 -0.37, z1 0.40, z4 -0.29; B z5 0.40, z6 -0.29
  for (const std::string& e : editions) {
    const Blown b = blow(with(one_slope(3.0, Side::back), e, "envelope"));
    CHECK(b.loads.excess.empty());
    CHECK(any_says(b.site, "counts as flat"));
    for (const char* name :
         {"front left shut out", "back left shut out", "left front shut out", "right front shut out"}) {
      const LoadCase& c = find_case(b.loads, name);
      const Way towards = push(c, "1")->towards;
      const double x = towards == Way::right ? 5.9 : towards == Way::left ? 6.1 : 6.0;
      const double y = towards == Way::back ? 3.9 : towards == Way::front ? 4.1 : 4.0;
      CHECK_THAT(from_outside(b, c, x, y, 0.18), WithinAbs(-0.69, 1e-9));
      CHECK_THAT(from_outside(b, c, 12.0 - x, 8.0 - y, 0.18), WithinAbs(-0.37, 1e-9));
      CHECK_THAT(of_push(c, "1", b.site.q), WithinAbs(0.40, 1e-9));
      CHECK_THAT(of_push(c, "4", b.site.q), WithinAbs(-0.29, 1e-9));
    }
    const LoadCase& along = find_case(b.loads, "front left along shut out");
    CHECK_THAT(from_outside(b, along, 5.9, 6.0, 0.18), WithinAbs(-0.69, 1e-9));
    CHECK_THAT(from_outside(b, along, 6.1, 6.0, 0.18), WithinAbs(-0.37, 1e-9));
    CHECK_THAT(from_outside(b, along, 5.0, 1.0, 0.18), WithinAbs(-1.07, 1e-9));
    CHECK_THAT(of_push(along, "5", b.site.q), WithinAbs(0.40, 1e-9));

    for (const double pitch : {5.5, 15.0, 30.0}) {
      const Blown steep = blow(with(one_slope(pitch, Side::left), e, "envelope"));
      REQUIRE(steep.loads.excess.size() == 1);
      const Excess& x = steep.loads.excess.front();
      CHECK(x.limit == "roof shape");
      CHECK_THAT(x.in_words, Catch::Matchers::Contains("directional"));
      CHECK(blow(with(one_slope(pitch, Side::left), e, "directional")).loads.excess.empty());
    }
  }
}

// ---- directional procedure -----------------------------------------------------------------------------------------

TEST_CASE("asce directional: a hip's end slopes as slopes when the wind meets them, in bands when it passes along") {
  // 22.5 degrees: rise 4 tan 22.5 = 1.656854 m, h = 3.828427 m. Along the ridge h/L = 0.319036: windward slope between
  // -0.25 (h/L 0.25) and -0.35 (0.5): -0.25 - 0.1 x 0.276142 = -0.277614; the other value between 0.25 and 0.10:
  // 0.25 - 0.15 x 0.276142 = 0.208579; leeward -0.6. Across it h/L = 0.478553: -0.25 - 0.1 x 0.914214 = -0.341421.
  // Figures from memory
  const Blown b = blow(with(hip(22.5), "7-16", "directional"));
  CHECK(b.loads.excess.empty());
  const double g = 0.85, h = 3.828427;
  CHECK_THAT(b.shape.mean_roof_height.value(), WithinAbs(h, 1e-6));
  const LoadCase &along = find_case(b.loads, "left shut out"), &other = find_case(b.loads, "left shut out other"),
                 &across = find_case(b.loads, "front shut out");
  CHECK_THAT(from_outside(b, along, 1.0, 4.0, 0.18), WithinAbs(g * -0.277614, 1e-6));
  CHECK_THAT(from_outside(b, other, 1.0, 4.0, 0.18), WithinAbs(g * 0.208579, 1e-6));
  CHECK_THAT(from_outside(b, along, 11.0, 4.0, 0.18), WithinAbs(g * -0.6, 1e-9));
  CHECK_THAT(from_outside(b, other, 11.0, 4.0, 0.18), WithinAbs(g * -0.6, 1e-9));
  // The long slopes: -0.9 to h from the left wall, -0.5 to 2 h, -0.3 past it; -0.18 as the other value
  for (const double y : {0.1, 7.9}) CHECK_THAT(from_outside(b, along, h - 0.1, y, 0.18), WithinAbs(g * -0.9, 1e-9));
  for (const double y : {2.0, 6.0}) CHECK_THAT(from_outside(b, along, h + 0.1, y, 0.18), WithinAbs(g * -0.5, 1e-9));
  for (const double y : {2.0, 6.0})
    CHECK_THAT(from_outside(b, along, 2.0 * h + 0.1, y, 0.18), WithinAbs(g * -0.3, 1e-9));
  CHECK_THAT(from_outside(b, other, 6.0, 2.0, 0.18), WithinAbs(g * -0.18, 1e-9));
  // Across: the front slope, the back one, and the ends by their distance from the front wall
  CHECK_THAT(from_outside(b, across, 6.0, 2.0, 0.18), WithinAbs(g * -0.341421, 1e-6));
  CHECK_THAT(from_outside(b, across, 6.0, 6.0, 0.18), WithinAbs(g * -0.6, 1e-9));
  for (const double x : {0.5, 11.5}) {
    CHECK_THAT(from_outside(b, across, x, 3.5, 0.18), WithinAbs(g * -0.9, 1e-9));
    CHECK_THAT(from_outside(b, across, x, 4.5, 0.18), WithinAbs(g * -0.5, 1e-9));
  }
  // From below all along the front wall, the corners too
  for (const double x : {-0.3, 6.0, 12.3})
    CHECK_THAT(*net_at(b, across, {metres(x), metres(-0.4)}, true) / b.site.q, WithinAbs(g * 0.8, 1e-9));
  CHECK(net_at(b, across, {metres(-0.3), metres(0.2)}, true) == zero<Pressure>());
  // Below 10 degrees: bands, whatever the slope falls to
  const Blown low = blow(with(hip(9.0), "7-16", "directional"));
  for (const Zone& z : low.loads.layouts[0].zones) CHECK(z.label.find("RW") == std::string::npos);
  CHECK_THAT(from_outside(low, find_case(low.loads, "left shut out"), 0.5, 4.0, 0.18), WithinAbs(g * -0.9, 1e-9));
}

TEST_CASE("asce directional: one slope is all windward or all leeward, and in bands when the wind passes along") {
  // 15 degrees, high at the back: rise 8 tan 15 = 2.143594 m, h = 4.071797 m; h/L = 0.508975 from front and back:
  // windward -0.7 (0.5) to -1.0 (1.0): -0.7 - 0.3 x 0.017949 = -0.705385; leeward -0.5 to -0.6: -0.501795. Along: h/L =
  // 0.339316, bands -0.9, -0.5, -0.3. Figures from memory
  const Blown b = blow(with(one_slope(15.0, Side::back), "7-10", "directional"));
  CHECK(b.loads.excess.empty());
  CHECK(any_says(b.site, "half-way up it"));
  const double g = 0.85, rise = 2.143594, h = 3.0 + 0.5 * rise;
  CHECK_THAT(b.shape.mean_roof_height.value(), WithinAbs(h, 1e-6));
  const LoadCase &low = find_case(b.loads, "front shut out"), &high = find_case(b.loads, "back shut out"),
                 &along = find_case(b.loads, "right shut out");
  for (const double y : {0.1, 4.0, 7.9}) {
    CHECK_THAT(from_outside(b, low, 6.0, y, 0.18), WithinAbs(g * -0.705385, 1e-6));
    CHECK_THAT(from_outside(b, high, 6.0, y, 0.18), WithinAbs(g * -0.501795, 1e-6));
    CHECK_THAT(from_outside(b, along, 12.0 - 4.0, y, 0.18), WithinAbs(g * -0.9, 1e-9));
    CHECK_THAT(from_outside(b, along, 12.0 - 4.2, y, 0.18), WithinAbs(g * -0.5, 1e-9));
    CHECK_THAT(from_outside(b, along, 12.0 - 8.3, y, 0.18), WithinAbs(g * -0.3, 1e-9));
  }
  CHECK_THAT(from_outside(b, find_case(b.loads, "front shut out other"), 6.0, 4.0, 0.18), WithinAbs(g * -0.18, 1e-9));
  // Walls alone, onto the high side: 12 x 2.7 m of wall, above it 12 x 2.143594 m of upright face, whose peak (5.143594
  // m = 16.8753 ft) takes the gust there: (16.8753 / 15)^(2/9.5) of the one at h (13.36 ft, so that of 15 ft). In the
  // lee 12 x 2.7 m, L/B = 0.667: -0.5
  const double peak = std::pow((3.0 + rise) / 4.572, 2.0 / 9.5);
  const LoadCase& walls = find_case(b.loads, "back shut out walls");
  CHECK_THAT(over_gust(-push_total(walls, Along::up), b.site.q),
             WithinAbs(g * (0.8 * (32.4 + 12.0 * rise * peak) + 0.5 * 32.4), 1e-4));
  // Onto the low side the face stands in the lee
  CHECK_THAT(over_gust(push_total(find_case(b.loads, "front shut out walls"), Along::up), b.site.q),
             WithinAbs(g * (0.8 * 32.4 + 0.5 * (32.4 + 12.0 * rise)), 1e-4));
  // The triangles above the end walls: 8 x 2.143594 / 2 m2 each, windward on the right, in the lee on the left
  const double triangle = 4.0 * rise, lee = 0.5 - 0.2 * (12.0 / 8.0 - 1.0);
  CHECK_THAT(over_gust(-push_total(find_case(b.loads, "right shut out walls"), Along::across), b.site.q),
             WithinAbs(g * (0.8 * (21.6 + triangle * peak) + lee * (21.6 + triangle)), 1e-4));
}

TEST_CASE("asce directional: slopes of unlike pitch, each by its own") {
  // Front 30 degrees, back 20: ridge 3.0933 m from the front, rise 1.785902 m, h = 3.892951 m, h/L = 0.486619. From the
  // front: windward at 30 -0.2; other 0.3 to 0.2: 0.3 - 0.1 x 0.946476 = 0.205352; leeward at 20 -0.6. From the back:
  // windward at 20: -0.3 - 0.1 x 0.946476 = -0.394648. Figures from memory
  const Blown b = blow(with(uneven(30.0, 20.0), "7-05", "directional"));
  CHECK_THAT(b.shape.mean_roof_height.value(), WithinAbs(3.892951, 1e-6));
  const auto at = [&](const char* name, double y) {
    return from_outside(b, find_case(b.loads, name), 6.0, y, 0.18) / 0.85;
  };
  CHECK_THAT(at("front shut out", 3.0), WithinAbs(-0.2, 1e-9));
  CHECK_THAT(at("front shut out other", 3.0), WithinAbs(0.205352, 1e-6));
  CHECK_THAT(at("front shut out", 3.2), WithinAbs(-0.6, 1e-9));
  CHECK_THAT(at("back shut out", 3.2), WithinAbs(-0.394648, 1e-6));
  CHECK_THAT(at("back shut out", 3.0), WithinAbs(-0.6, 1e-9));
  // A slope under 10 degrees in bands, the other one beside it as a slope
  const Blown mixed = blow(with(uneven(7.0, 24.0), "7-16", "directional"));
  const double h = mixed.shape.mean_roof_height.value();
  const LoadCase& f = find_case(mixed.loads, "front shut out");
  CHECK_THAT(from_outside(mixed, f, 6.0, 0.5, 0.18), WithinAbs(0.85 * -0.9, 1e-9));
  CHECK_THAT(from_outside(mixed, f, 6.0, h + 0.2, 0.18), WithinAbs(0.85 * -0.5, 1e-9));
  CHECK_THAT(from_outside(mixed, f, 6.0, 7.5, 0.18), WithinAbs(0.85 * -0.6, 1e-9));
}

TEST_CASE("asce directional: a gable that stands on a hip end is pushed as a gable") {
  House h = hip(30.0);
  h.roof.gable_above[left] = metres(1.6);
  h.roof.eaves = zero<Length>();
  const Blown b = blow(with(h, "7-16", "directional"));
  const LoadCase &onto = find_case(b.loads, "left shut out walls"), &lee = find_case(b.loads, "right shut out walls");
  const Push *met = push(onto, "G"), *sheltered = nullptr;
  for (const Push& p : lee.push)
    if (p.label == "L" && p.what == "gable, zone L") sheltered = &p;
  REQUIRE(met);
  REQUIRE(sheltered);
  // A triangle under the long slopes from 1.6 m in: 8 - 3.2 m wide, 2.4 tan 30 high
  const double size = 0.5 * 4.8 * 2.4 * std::tan(degrees(30.0).value());
  CHECK_THAT(area(met->part).value(), WithinAbs(size, 1e-9));
  CHECK_THAT(area(sheltered->part).value(), WithinAbs(size, 1e-9));
  CHECK(met->p >= 0.85 * 0.8 * b.site.q);
  CHECK(met->towards == Way::right);
  // and stands over slopes that reach 1.6 m in
  const LoadCase& c = find_case(b.loads, "left shut out");
  CHECK(from_outside(b, c, 1.5, 4.0, 0.18) != from_outside(b, c, 1.7, 3.5, 0.18));
}

// ---- both ----------------------------------------------------------------------------------------------------------

TEST_CASE("asce: the combination that presses down, by edition and level") {
  const std::map<std::string, std::array<double, 4>> by{
      {"7-05", {1.0, 1.0, 1.2, 1.6}}, {"7-10", {1.0, 0.6, 1.2, 1.0}}, {"7-16", {1.0, 0.6, 1.2, 1.0}}};
  for (const std::string& e : editions)
    for (const std::string& procedure : procedures)
      for (const char* level : {"allowable", "strength"}) {
        House h = hip(25.0);
        AsceSite s = site(e, procedure);
        s.level = level;
        h.site = s;
        const std::size_t at = s.level == "strength" ? 2 : 0;
        const Blown b = blow(h);
        for (const LoadCase& c : b.loads.cases) {
          CHECK(c.down.dead == by.at(e)[at]);
          CHECK(c.down.wind == by.at(e)[at + 1]);
          CHECK(c.down.name == b.site.combinations[1].name);
          CHECK_FALSE(c.down.source.empty());
          CHECK(c.combination.name != c.down.name);
        }
      }
}

TEST_CASE("asce: no hip end is steeper than the limit, and a low slope beside a steep one gives no lower height") {
  House h = hip(25.0);
  h.roof.own_pitch[left] = degrees(46.0);
  for (const std::string& procedure : procedures) {
    const Blown b = blow(with(h, "7-16", procedure));
    REQUIRE(b.loads.excess.size() == 1);
    CHECK(b.loads.excess.front().limit == "roof pitch");
  }
  // At low pitch the top of the walls stands for the height of a hip, half-way up for all others
  const auto q = [](const House& house) { return blow(with(house, "7-16", "directional")).site.q; };
  House walls = hip(8.0), steep = hip(8.0);
  walls.floor_level = steep.floor_level = metres(6.0);
  steep.roof.own_pitch[left] = degrees(12.0);
  CHECK(q(steep) > q(walls));
  House single = one_slope(4.0, Side::back);
  single.floor_level = metres(6.0);
  CHECK(q(single) > q(walls));
}

TEST_CASE("asce: zones tile every roof, and nothing throws") {
  std::mt19937 rng(23);
  std::vector<House> houses;
  for (const RoofCase& k : every_kind()) houses.push_back(k.house);
  for (int n = 0; n < (sanitized ? 40 : 300); ++n) houses.push_back(random_roof(rng));
  for (std::size_t n = 0; n < houses.size(); ++n)
    for (const std::string& procedure : procedures) {
      House h = with(houses[n], editions[n % 3], procedure);
      if (n % 2 == 0) put(h, Side::front, opening(metres(3.0), metres(2.1), true, false, std::nullopt));
      const Blown b = blow(h);
      INFO(n << " " << procedure);
      for (const Layout& l : b.loads.layouts) {
        std::vector<Area> covered(b.shape.surfaces.size(), zero<Area>());
        bool all_have_an_area = true;
        for (const Zone& z : l.zones) {
          covered[z.surface] += area(z.part);
          all_have_an_area = all_have_an_area && area(z.part) > zero<Area>();
        }
        CHECK(all_have_an_area);
        for (std::size_t i = 0; i < covered.size(); ++i)
          CHECK_THAT(covered[i].value(), WithinAbs(area(b.shape.surfaces[i].outline).value(), 1e-9));
      }
      std::set<std::string> ids;
      for (const LoadCase& c : b.loads.cases) {
        ids.insert(c.id);
        REQUIRE(c.net.size() == b.loads.layouts[c.layout].zones.size());
        CHECK(std::all_of(c.net.begin(), c.net.end(), [](Pressure p) { return std::isfinite(p.value()); }));
        CHECK(std::all_of(c.push.begin(), c.push.end(), [](const Push& p) { return area(p.part) > zero<Area>(); }));
      }
      CHECK(ids.size() == b.loads.cases.size());
    }
}

TEST_CASE("asce: turned and mirrored houses of every roof have the turned and mirrored pressures") {
  std::mt19937 rng(31);
  std::vector<House> houses;
  for (const RoofCase& k : every_kind()) houses.push_back(k.house);
  for (int n = 0; n < (sanitized ? 4 : 20); ++n) houses.push_back(random_roof(rng));
  for (std::size_t n = 0; n < houses.size(); ++n)
    for (const std::string& procedure : procedures) {
      const House h = with(houses[n], editions[n % 3], procedure);
      const Blown a = blow(h), t = blow(turned(h)), m = blow(in_a_mirror(h));
      REQUIRE(a.loads.cases.size() == t.loads.cases.size());
      REQUIRE(a.loads.cases.size() == m.loads.cases.size());
      const Length x = h.across, y = h.up;
      std::uniform_real_distribution<double> along(-0.5, x.value() + 0.5), up(-0.5, y.value() + 0.5);
      for (const LoadCase& c : a.loads.cases) {
        INFO(n << " " << c.id);
        const LoadCase& ct = turned_case(t, c);
        const LoadCase& cm = find_case(m.loads, renamed(c.id, {{"left", "right"}, {"right", "left"}}));
        for (int i = 0; i < 12; ++i) {
          const Point p{metres(along(rng)), metres(up(rng))};
          for (const bool soffit : {false, true}) {
            const auto here = net_at(a, c, p, soffit), there = net_at(t, ct, {y - p.y, p.x}, soffit),
                       mirrored = net_at(m, cm, {x - p.x, p.y}, soffit);
            REQUIRE(here.has_value() == there.has_value());
            REQUIRE(here.has_value() == mirrored.has_value());
            if (!here) continue;
            CHECK_THAT(there->value(), WithinAbs(here->value(), 1e-9));
            CHECK_THAT(mirrored->value(), WithinAbs(here->value(), 1e-9));
          }
        }
        CHECK_THAT(push_total(ct, Along::up).value(), WithinAbs(push_total(c, Along::across).value(), 1e-6));
        CHECK_THAT(push_total(ct, Along::across).value(), WithinAbs(-push_total(c, Along::up).value(), 1e-6));
        CHECK_THAT(push_total(cm, Along::across).value(), WithinAbs(-push_total(c, Along::across).value(), 1e-6));
        CHECK_THAT(push_total(cm, Along::up).value(), WithinAbs(push_total(c, Along::up).value(), 1e-6));
      }
    }
}

TEST_CASE("asce: away from the end slope of a hip its long slopes have the pressures of a gable's") {
  // One hip end, on the right: the long slopes across the wind
  House h = hip(24.0);
  h.roof.hipped[left] = false;
  for (const std::string& procedure : procedures) {
    const Blown one = blow(with(h, "7-10", procedure)), plain = blow(with(block(24.0), "7-10", procedure));
    const std::string id = procedure == "envelope" ? "front left shut out" : "front shut out";
    for (double x = 0.2; x < 7.0; x += 0.7)
      for (double y = 0.3; y < 8.0; y += 0.5)
        CHECK(net_at(one, find_case(one.loads, id), {metres(x), metres(y)}, false) ==
              net_at(plain, find_case(plain.loads, id), {metres(x), metres(y)}, false));
  }
}

// ---- the working ---------------------------------------------------------------------------------------------------

TEST_CASE(
    "asce: on every roof the told case is the silent one, no orphans, each symbol one value, each pressure told") {
  std::size_t n = 0;
  for (const RoofCase& k : every_kind())
    for (const std::string& procedure : procedures) {
      House h = with(k.house, editions[n++ % 3], procedure);
      put(h, Side::front, opening(metres(3.0), metres(2.1), true, false, std::nullopt));
      h.height = metres(n % 2 == 0 ? 2.7 : 4.5);
      const Shape s = shape_of(h);
      const Table& t = table(table_for(h.site));
      const WindAsk ask{h.site, h, s, t};
      const Method& m = method_for(h.site);
      const Loads silent = m.loads(ask, nullptr, std::nullopt);
      for (std::size_t i = 0; i < silent.cases.size(); i += sanitized ? 7 : 1) {
        Working w(i % 2 == 0 ? metric : us);
        const Loads loud = m.loads(ask, &w, i);
        const LoadCase &c = loud.cases[i], &quiet = silent.cases[i];
        INFO(k.name << ": " << c.id << ", " << procedure);
        REQUIRE(c.id == quiet.id);
        REQUIRE(c.net == quiet.net);
        REQUIRE(c.push.size() == quiet.push.size());
        for (std::size_t j = 0; j < c.push.size(); ++j) REQUIRE(c.push[j].p == quiet.push[j].p);
        CHECK_THAT(orphan(w), Catch::Matchers::Equals(""));
        std::map<std::string, Value> values;
        // As the load path tells them
        for (const Surface& f : s.surfaces)
          if (f.part != Part::soffit)
            values.emplace(
                f.slope == h.roof.pitch ? std::string("theta") : "theta_" + std::string(words(side_facing(f.falls))),
                value(f.slope));
        for (const Step& step : w.steps) {
          const auto [at, fresh] = values.emplace(step.symbol, step.result);
          if (!fresh && !(at->second == step.result)) FAIL_CHECK(step.symbol << " stands for two values");
        }
        const Layout& layout = loud.layouts[c.layout];
        const auto told = [&](const std::string& symbol, Pressure p) {
          return values.contains(symbol) && values.at(symbol) == value(p);
        };
        for (std::size_t j = 0; j < layout.zones.size(); ++j) CHECK(told("p_" + layout.zones[j].label, c.net[j]));
        for (const Push& p : c.push) CHECK(told("p_" + p.label, p.p));
        for (const SquareOn& p : c.square_on) CHECK(told("p_sq," + p.label, p.p));
        CHECK(c.marks == (c.marks_net | c.marks_push | c.marks_square_on));
        // What is told from memory is marked
        if (c.id.ends_with("least")) continue;
        for (const Entry& e : t.entries) {
          if (!e.from_memory() || (c.marks & t.mark(e.key)) != 0) continue;
          for (const Step& step : w.steps) {
            if (step.kind != StepKind::lookup || step.source != t.source(e.key)) continue;
            const bool shared = std::any_of(t.entries.begin(), t.entries.end(), [&](const Entry& o) {
              return o.key != e.key && t.source(o.key) == step.source && (c.marks & t.mark(o.key)) != 0;
            });
            INFO(e.key << " " << step.symbol);
            CHECK(shared);
          }
        }
      }
      Working w;
      const SiteWind site_wind = m.site(ask, &w);
      CHECK_THAT(orphan(w), Catch::Matchers::Equals(""));
      CHECK(std::any_of(w.steps.begin(), w.steps.end(),
                        [&](const Step& step) { return step.symbol == "q_h" && step.result == value(site_wind.q); }));
    }
}

TEST_CASE("asce: on every roof every step is worked out again by GNU Units") {
  REQUIRE(recompute::units_works());
  std::size_t n = 0;
  for (const Units* units : {&metric, &us}) {
    std::vector<Step> steps;
    std::set<std::string> seen;
    for (const RoofCase& k : every_kind())
      for (const std::string& procedure : procedures) {
        const House h = with(k.house, editions[n++ % 3], procedure);
        const Shape s = shape_of(h);
        const WindAsk ask{h.site, h, s, table(table_for(h.site))};
        const std::size_t cases = method_for(h.site).loads(ask, nullptr, std::nullopt).cases.size();
        for (std::size_t i = 0; i < cases; i += sanitized ? 11 : 3) {
          Working w(*units);
          method_for(h.site).loads(ask, &w, i);
          for (Step& step : w.steps)
            if (seen.insert(step.symbol + "|" + step.numbers + "|" + text(step.result, *units)).second)
              steps.push_back(std::move(step));
        }
      }
    const auto outcome = recompute::recompute(steps, *units);
    CHECK(outcome.checked > 500);
    for (const std::string& miss : outcome.misses) FAIL_CHECK(miss);
  }
}
