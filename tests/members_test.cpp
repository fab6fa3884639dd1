// What carries the roof: where trusses, girders, jacks, creepers and hip rafters stand and bear, and that together they
// hold every piece of the roof exactly once. Expected figures are worked by hand beside each; roofs for the laws are
// cut here, slope against slope, and not by the room under test.
#include "load_path/members.hpp"
#include "quantities.hpp"
#include "reference_figures.hpp"
#include "wind_house.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fmt/format.h>
#include <functional>
#include <random>
#include <set>
#include <string>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;

namespace {
constexpr double tight = 1e-9;  // m, m2

double m(Length l) { return l.value(); }
double m2(Area a) { return a.value(); }
std::size_t index(Side s) { return static_cast<std::size_t>(s); }
bool across(const House& h) { return h.roof.ridge == Along::across; }
double span_of(const House& h) { return m(across(h) ? h.up : h.across); }
double length_of(const House& h) { return m(across(h) ? h.across : h.up); }
Side low_end(const House& h) { return across(h) ? Side::left : Side::front; }
Side high_end(const House& h) { return across(h) ? Side::right : Side::back; }
Side near_side(const House& h) { return across(h) ? Side::front : Side::left; }
Side far_side(const House& h) { return across(h) ? Side::back : Side::right; }
double slope(const House& h, Side s) { return std::tan(h.roof.own_pitch[index(s)].value_or(h.roof.pitch).value()); }

// ---- the roof, cut by hand: each slope is what of the outline lies below all others
using Inside = std::function<double(double, double)>;  // not negative: inside
Polygon cut(const Polygon& g, const Inside& inside) {
  Polygon kept;
  for (std::size_t i = 0; i < g.size(); ++i) {
    const Point &p = g[i], &q = g[(i + 1) % g.size()];
    const double a = inside(m(p.x), m(p.y)), b = inside(m(q.x), m(q.y));
    if (a >= 0.0) kept.push_back(p);
    if ((a > 0.0 && b < 0.0) || (a < 0.0 && b > 0.0)) {
      const double t = a / (a - b);
      kept.push_back({p.x + (q.x - p.x) * t, p.y + (q.y - p.y) * t});
    }
  }
  if (kept.size() < 3 || !(area(kept) > zero<Area>())) kept.clear();
  return kept;
}
bool slopes_to(const House& h, Side s) {
  switch (h.roof.shape) {
    case RoofShape::hip: return s == near_side(h) || s == far_side(h) || h.roof.hipped[index(s)];
    case RoofShape::gable: return s == near_side(h) || s == far_side(h);
    default: return side_facing(opposite(outward(s))) == h.roof.high;
  }
}
double overhang(const House& h, Side s) {
  return m(h.roof.own_overhang[index(s)].value_or(slopes_to(h, s) ? h.roof.eaves : h.roof.verge));
}
double in_from(const House& h, Side s, double x, double y) {
  switch (s) {
    case Side::left: return x;
    case Side::right: return m(h.across) - x;
    case Side::front: return y;
    default: return m(h.up) - y;
  }
}
constexpr Side four[]{Side::left, Side::front, Side::right, Side::back};

Shape cut_by_hand(const House& h) {
  Shape s{};
  s.across = h.across;
  s.up = h.up;
  s.ridge = h.roof.ridge;
  s.span = metres(span_of(h));
  s.length = metres(length_of(h));
  s.eaves = h.roof.eaves;
  s.verge = h.roof.verge;
  s.roof = h.roof.shape;
  const double x1 = m(h.across), y1 = m(h.up), l = overhang(h, Side::left), r = overhang(h, Side::right),
               f = overhang(h, Side::front), b = overhang(h, Side::back);
  struct Outline {
    Part part;
    Side side;
    double x0, x1, y0, y1;
  };
  const Outline outlines[]{{Part::roof, Side::front, 0.0, x1, 0.0, y1},
                           {Part::overhang, Side::left, -l, 0.0, -f, y1 + b},
                           {Part::overhang, Side::right, x1, x1 + r, -f, y1 + b},
                           {Part::overhang, Side::front, 0.0, x1, -f, 0.0},
                           {Part::overhang, Side::back, 0.0, x1, y1, y1 + b}};
  // Where an end's slope stops under a gable, the plan falls into parts with fewer slopes.
  const double low_gable = m(h.roof.gable_above[index(low_end(h))]),
               high_gable = m(h.roof.gable_above[index(high_end(h))]);
  const auto along = [&](double x, double y) { return across(h) ? x : y; };
  for (const Outline& o : outlines) {
    const Polygon whole = rectangle(metres(o.x0), metres(o.x1), metres(o.y0), metres(o.y1));
    if (!(area(whole) > zero<Area>())) continue;
    for (int third = 0; third < 3; ++third) {
      Polygon piece = whole;
      if (low_gable > 0.0)
        piece = cut(piece, [&](double x, double y) { return (third == 0 ? 1 : -1) * (low_gable - along(x, y)); });
      else if (third == 0) continue;
      if (high_gable > 0.0)
        piece = cut(piece, [&](double x, double y) {
          return (third == 2 ? 1 : -1) * (along(x, y) - (length_of(h) - high_gable));
        });
      else if (third == 2) continue;
      const auto here = [&](Side side) {
        return slopes_to(h, side) && !(side == low_end(h) && low_gable > 0.0 && third != 0) &&
               !(side == high_end(h) && high_gable > 0.0 && third != 2);
      };
      for (const Side side : four) {
        if (!here(side)) continue;
        Polygon under = piece;
        for (const Side other : four)
          if (other != side && here(other))
            under = cut(under, [&](double x, double y) {
              return in_from(h, other, x, y) * slope(h, other) - in_from(h, side, x, y) * slope(h, side);
            });
        if (under.empty()) continue;
        s.surfaces.push_back({o.part, under, zero<Angle>(), outward(side), zero<Length>(), side});
        if (o.part == Part::overhang)
          s.surfaces.push_back({Part::soffit, under, zero<Angle>(),
                                slopes_to(h, o.side) ? outward(side) : outward(o.side), zero<Length>(), o.side});
      }
    }
  }
  return s;
}

// ---- houses
double between(std::mt19937& rng, double a, double b) { return std::uniform_real_distribution<double>(a, b)(rng); }
bool one_in(std::mt19937& rng, unsigned n) { return rng() % n == 0; }

House bare(std::mt19937& rng, RoofShape shape) {
  const Along ridge = one_in(rng, 2) ? Along::across : Along::up;
  House h = gable(metres(between(rng, 5.0, 20.0)), metres(between(rng, 5.0, 20.0)), metres(2.7), ridge,
                  degrees(between(rng, 6.0, 40.0)), metres(one_in(rng, 4) ? 0.0 : between(rng, 0.0, 1.2)),
                  metres(one_in(rng, 4) ? 0.0 : between(rng, 0.0, 1.2)));
  h.roof.shape = shape;
  for (const Side s : four) {
    if (one_in(rng, 3)) h.roof.own_pitch[index(s)] = degrees(between(rng, 6.0, 40.0));
    if (one_in(rng, 3)) h.roof.own_overhang[index(s)] = metres(between(rng, 0.0, 1.2));
  }
  return h;
}
// Trusses between two places, both with one.
void set_trusses(std::mt19937& rng, House& h, double from, double to) {
  h.trusses.clear();
  const double greatest = between(rng, 0.45, 1.5);
  double at = from;
  while (at < to) {
    h.trusses.push_back({"T1", metres(at), {}});
    at += greatest * between(rng, 0.7, 1.0);
  }
  h.trusses.push_back({"T1", metres(to), {}});
}
House random_plain(std::mt19937& rng, RoofShape shape) {
  House h = bare(rng, shape);
  if (shape == RoofShape::skillion || shape == RoofShape::flat)
    h.roof.high = one_in(rng, 2) ? near_side(h) : far_side(h);
  const bool inset = one_in(rng, 4);
  set_trusses(rng, h, inset ? between(rng, 0.0, 0.6) : 0.0, length_of(h) - (inset ? between(rng, 0.0, 0.6) : 0.0));
  return h;
}
// How far in from its wall a hip end's slope meets both others.
double apex_of(const House& h, Side end) {
  const double b = slope(h, end);
  return span_of(h) / (b / slope(h, near_side(h)) + b / slope(h, far_side(h)));
}
HipEnd framing_of(std::mt19937& rng, Side side) {
  HipEnd e{};
  e.side = side;
  e.jack = side == Side::left || side == Side::front ? "J1" : "J2";
  e.rafter = "H1";
  e.jacks = metres(between(rng, 0.3, 1.5));
  return e;
}
enum class Hips { both, one, above, to_a_point, one_girder };
House random_hip(std::mt19937& rng, Hips kind) {
  for (;;) {
    House h = bare(rng, RoofShape::hip);
    const double length = length_of(h);
    const bool low = kind != Hips::one || one_in(rng, 2), high = kind != Hips::one || !low;
    h.roof.hipped[index(low_end(h))] = low;
    h.roof.hipped[index(high_end(h))] = high;
    if (kind == Hips::to_a_point || kind == Hips::one_girder) {
      // one apex: the high end rises just so that it meets the low end's
      const double rest = length - apex_of(h, low_end(h));
      if (rest < 1.0) continue;
      const double tangent = span_of(h) / (1.0 / slope(h, near_side(h)) + 1.0 / slope(h, far_side(h))) / rest;
      h.roof.own_pitch[index(high_end(h))] = Angle::from_value(std::atan(tangent));
    } else {
      const double hips = (low ? apex_of(h, low_end(h)) : 0.0) + (high ? apex_of(h, high_end(h)) : 0.0);
      if (hips > length) continue;
    }
    double from = 0.0, to = length;
    const auto girder_in = [&](Side end) { return apex_of(h, end) * between(rng, 0.2, one_in(rng, 4) ? 1.0 : 0.9); };
    const auto set_end = [&](Side end, double g) {
      h.hip_ends.push_back(framing_of(rng, end));
      if (kind == Hips::above) h.roof.gable_above[index(end)] = metres(g);
    };
    if (kind == Hips::one_girder) {
      from = to = apex_of(h, low_end(h));
      for (const Side end : {low_end(h), high_end(h)}) set_end(end, from);
      h.trusses = {{"TG1", metres(from), {}, true}};
      return h;
    }
    if (low) set_end(low_end(h), from = girder_in(low_end(h)));
    if (high) {
      const double g = girder_in(high_end(h));
      set_end(high_end(h), g);
      to = length - g;
    }
    if (kind == Hips::to_a_point && one_in(rng, 2) && to > from) {
      h.trusses = {{"TG1", metres(from), {}}, {"TG1", metres(to), {}}};
    } else {
      set_trusses(rng, h, from, to);
    }
    for (const bool first : {true, false})
      if (first ? low : high) {
        Truss& t = first ? h.trusses.front() : h.trusses.back();
        t.mark = first ? "TG1" : "TG2";
        t.girder = true;
      }
    return h;
  }
}

// ---- laws
Area held_of(const Members& all, const Surface& s) {
  Area sum = zero<Area>();
  for (const Member& member : all.members)
    for (const Window& w : member.carries)
      if (holds(w, s)) sum += area(within(w, s.outline));
  return sum;
}
Point somewhere(std::mt19937& rng, const Polygon& g) {
  std::vector<double> weight;
  double sum = 0.0;
  for (std::size_t i = 0; i < g.size(); ++i) sum += weight.emplace_back(between(rng, 0.01, 1.0));
  Point p{zero<Length>(), zero<Length>()};
  for (std::size_t i = 0; i < g.size(); ++i) p = {p.x + g[i].x * (weight[i] / sum), p.y + g[i].y * (weight[i] / sum)};
  return p;
}
void expect_covered(std::mt19937& rng, const Members& all, const Shape& shape) {
  Area roof = zero<Area>();
  for (const Surface& s : shape.surfaces) {
    CHECK_THAT(m2(held_of(all, s)), WithinAbs(m2(area(s.outline)), tight));
    if (s.part != Part::soffit) roof += area(s.outline);
    if (m2(area(s.outline)) < 1e-6) continue;
    for (int n = 0; n < 8; ++n) {
      const Point p = somewhere(rng, s.outline);
      int windows = 0;
      for (const Member& member : all.members)
        for (const Window& w : member.carries)
          windows += holds(w, s) && p.x > w.x0 && p.x < w.x1 && p.y > w.y0 && p.y < w.y1;
      CHECK(windows == 1);
    }
  }
  CHECK(roof > zero<Area>());
}
Point on_axis(const Member& member, Length u) {
  const Length dx = member.to.x - member.from.x, dy = member.to.y - member.from.y;
  const double part = static_cast<double>(u / sqrt(dx * dx + dy * dy));
  return {member.from.x + dx * part, member.from.y + dy * part};
}
void expect_same(const Point& p, const Point& q) {
  CHECK_THAT(m(p.x), WithinAbs(m(q.x), tight));
  CHECK_THAT(m(p.y), WithinAbs(m(q.y), tight));
}
// Each bearing stands where it says: on its walls' faces, on the member that it bears on; axes from end to end.
void expect_bearings_stand(const House& h, const Members& all) {
  std::set<std::string> said, members;
  for (std::size_t b = 0; b < all.bearings.size(); ++b) {
    const Bearing& bearing = all.bearings[b];
    CHECK(said.insert(bearing.words).second);
    const Member& member = all.members[bearing.member];
    CHECK(std::count(member.bearings.begin(), member.bearings.end(), b) == 1);
    const Point here = on_axis(member, bearing.u);
    CHECK(bearing.feet.empty() == bearing.onto.has_value());
    for (const Foot& f : bearing.feet) {
      const Wall& w = h.walls[f.wall];
      const Length line = w.outside && w.side == Side::right  ? h.across
                          : w.outside && w.side == Side::back ? h.up
                          : w.outside                         ? zero<Length>()
                                                              : w.line;
      const Length along = w.from + f.at;
      expect_same(here, w.runs == Along::across ? Point{along, line} : Point{line, along});
      if (!w.outside) {
        CHECK(f.from == f.to);
      } else {
        CHECK(f.from <= along);
        CHECK(f.to >= along);
        CHECK(f.to > f.from);
      }
    }
    if (bearing.onto) expect_same(here, on_axis(all.members[*bearing.onto], bearing.onto_u));
  }
  for (const Member& member : all.members) {
    CHECK(members.insert(member.words).second);
    REQUIRE(member.bearings.size() >= 2);
    for (std::size_t i = 1; i < member.bearings.size(); ++i)
      CHECK(all.bearings[member.bearings[i]].u > all.bearings[member.bearings[i - 1]].u);
    CHECK(all.bearings[member.bearings.front()].u == zero<Length>());
    expect_same(on_axis(member, all.bearings[member.bearings.back()].u), member.to);
    CHECK(member.truss.has_value() == (static_cast<std::size_t>(&member - all.members.data()) < h.trusses.size()));
  }
}
void expect_from_the_top(const Members& all) {
  std::vector<std::size_t> place(all.members.size(), all.members.size());
  REQUIRE(all.from_top.size() == all.members.size());
  for (std::size_t i = 0; i < all.from_top.size(); ++i) place[all.from_top[i]] = i;
  for (const Bearing& b : all.bearings)
    if (b.onto) CHECK(place[b.member] < place[*b.onto]);
  CHECK(std::count(place.begin(), place.end(), all.members.size()) == 0);
}
// What props a wall's top covers it once from end to end, without a gap and without a lap.
void expect_propped_once(const House& h, const Members& all, Side side) {
  std::vector<std::pair<Length, Length>> stretches;
  for (const Bearing& b : all.bearings)
    for (const Foot& f : b.feet)
      if (h.walls[f.wall].outside && h.walls[f.wall].side == side) stretches.emplace_back(f.from, f.to);
  std::sort(stretches.begin(), stretches.end());
  REQUIRE(!stretches.empty());
  const Length end = across(h) == (side == near_side(h) || side == far_side(h)) ? h.across : h.up;
  CHECK(stretches.front().first <= zero<Length>());
  CHECK(stretches.back().second >= end);
  for (std::size_t i = 1; i < stretches.size(); ++i)
    CHECK_THAT(m(stretches[i].first), WithinAbs(m(stretches[i - 1].second), tight));
}
void expect_lawful(std::mt19937& rng, const House& h, const Shape& shape) {
  const Members all = members_of(h, shape);
  INFO(fmt::format("{} x {}, ridge {}", m(h.across), m(h.up), across(h) ? "across" : "up"));
  expect_covered(rng, all, shape);
  expect_bearings_stand(h, all);
  expect_from_the_top(all);
  expect_propped_once(h, all, near_side(h));
  expect_propped_once(h, all, far_side(h));
  for (const Side end : {low_end(h), high_end(h)})
    if (h.roof.shape == RoofShape::hip && h.roof.hipped[index(end)]) expect_propped_once(h, all, end);
}
// Along a hip both slopes are of one height, and no jacks stand wider apart than the job allows.
void expect_framed(const House& h, const Members& all) {
  for (const Member& member : all.members) {
    if (member.kind != MemberKind::hip_rafter && member.kind != MemberKind::creeper) continue;
    const double x = m(member.to.x), y = m(member.to.y);
    const Length along = across(h) ? member.from.x : member.from.y;
    const bool low = h.roof.hipped[index(low_end(h))] && along <= h.trusses.front().at;
    const Side end = low ? low_end(h) : high_end(h);
    const double rise = in_from(h, end, x, y) * slope(h, end),
                 near = in_from(h, near_side(h), x, y) * slope(h, near_side(h)),
                 far = in_from(h, far_side(h), x, y) * slope(h, far_side(h));
    CHECK_THAT(rise, WithinAbs(std::min(near, far), tight));
  }
  for (const HipEnd& e : h.hip_ends) {
    std::vector<double> at;
    for (const Bearing& b : all.bearings)
      for (const Foot& f : b.feet)
        if (h.walls[f.wall].side == e.side) at.push_back(m(f.at));
    std::sort(at.begin(), at.end());
    for (std::size_t i = 1; i < at.size(); ++i) CHECK(at[i] - at[i - 1] <= m(e.jacks) + 0.0005 + tight);
  }
}

// 12 m x 8 m, all at 25 degrees, eaves 600, hip girders at 2400 from both ends, jacks not above 900 apart.
House mangrove() {
  House h = gable(metres(12.0), metres(8.0), metres(2.7), Along::across, degrees(25.0), metres(0.6), metres(0.0));
  h.roof.shape = RoofShape::hip;
  h.roof.hipped = {true, false, true, false};
  h.trusses.clear();
  for (int i = 0; i <= 9; ++i) h.trusses.push_back({"T1", metres(2.4 + i * 0.8), {}});
  h.trusses.front() = {"TG1", metres(2.4), Chosen{"girder-cleat", "", ""}, true, 2};
  h.trusses.back() = {"TG1", metres(9.6), Chosen{"girder-cleat", "", ""}, true, 2};
  for (const Side end : {Side::left, Side::right})
    h.hip_ends.push_back({end, "J1", "H1", metres(0.9), Chosen{"jack-cleat", "", ""}, Chosen{"jack-hanger", "", ""},
                          Chosen{"hip-cleat", "", ""}, Chosen{"hip-hanger", "", ""}});
  return h;
}
const Bearing& bearing(const Members& all, std::string_view words) {
  for (const Bearing& b : all.bearings)
    if (b.words == words) return b;
  std::string said;
  for (const Bearing& b : all.bearings) said += b.words + "\n";
  throw std::runtime_error(fmt::format("no bearing \"{}\" among\n{}", words, said));
}
const Member& member(const Members& all, std::string_view words) {
  for (const Member& x : all.members)
    if (x.words == words) return x;
  throw std::runtime_error(fmt::format("no member \"{}\"", words));
}
double roof_of(const Member& x, const Shape& s) {
  double sum = 0.0;
  for (const Surface& p : s.surfaces)
    for (const Window& w : x.carries)
      if (p.part != Part::soffit && holds(w, p)) sum += m2(area(within(w, p.outline)));
  return sum;
}
}  // namespace

TEST_CASE("a gable house: trusses bear and hold as their strips say") {
  std::mt19937 rng(41);
  for (int n = 0; n < 200; ++n) {
    House h = random_plain(rng, RoofShape::gable);
    if (one_in(rng, 3)) h.print = Print::us;
    const Shape s = shape_of(h);
    const Members all = members_of(h, s);
    const auto of = strips(h, s);
    REQUIRE(all.members.size() == h.trusses.size());
    REQUIRE(all.bearings.size() == 2 * h.trusses.size());
    for (std::size_t t = 0; t < h.trusses.size(); ++t) {
      const Length at = h.trusses[t].at;
      const Member& x = all.members[t];
      CHECK(x.kind == MemberKind::truss);
      CHECK(x.truss == t);
      for (const bool near : {true, false}) {
        const Bearing& b = all.bearings[2 * t + (near ? 0 : 1)];
        const Side side = near ? near_side(h) : far_side(h);
        CHECK(b.member == t);
        CHECK(b.u == (near ? zero<Length>() : s.span));
        REQUIRE(b.feet.size() == 1);
        CHECK(h.walls[b.feet[0].wall].side == side);
        CHECK(b.feet[0].at == at);
        CHECK(b.feet[0].from == of[t].from);
        CHECK(b.feet[0].to == of[t].to);
        CHECK(b.words == fmt::format("T1 at {} {}", place(at, h.print == Print::us ? us : metric), words(side)));
        CHECK(x.bearings[near ? 0 : 1] == 2 * t + (near ? 0 : 1));
      }
      // past the low end truss, between, past the high one: today's cuts to the last bit
      const bool low = t == 0 && at - of[t].from > same_place,
                 high = t + 1 == h.trusses.size() && of[t].to - at > same_place;
      REQUIRE(x.carries.size() == 1u + low + high);
      std::size_t k = 0;
      const auto expect_window = [&](Length from, Length to, bool past) {
        const Window& w = x.carries[k++];
        CHECK((across(h) ? w.x0 : w.y0) == from);
        CHECK((across(h) ? w.x1 : w.y1) == to);
        CHECK((across(h) ? w.y0 : w.x0) == -everywhere);
        CHECK((across(h) ? w.y1 : w.x1) == everywhere);
        CHECK(w.falls == every_way);
        CHECK(w.past_end == past);
        for (const Surface& surface : s.surfaces) {
          const Polygon a = within(w, surface.outline),
                        b = across(h) ? between_x(surface.outline, from, to) : between_y(surface.outline, from, to);
          REQUIRE(a.size() == b.size());
          for (std::size_t i = 0; i < a.size(); ++i) CHECK((a[i].x == b[i].x && a[i].y == b[i].y));
        }
      };
      if (low) expect_window(of[t].from, at, true);
      expect_window(low ? at : of[t].from, high ? at : of[t].to, false);
      if (high) expect_window(at, of[t].to, true);
      CHECK(x.space.has_value() == (low || high));
      CHECK(x.next.has_value() == (low || high));
      if (low) {
        CHECK(x.next == 1u);
        CHECK(*x.space == h.trusses[1].at - at);
      } else if (high) {
        CHECK(x.next == t - 1);
        CHECK(*x.space == at - h.trusses[t - 1].at);
      }
    }
  }
}

TEST_CASE("roofs of every kind are held exactly once, and every bearing stands where it says") {
  std::mt19937 rng(42);
  for (const RoofShape shape : {RoofShape::gable, RoofShape::skillion, RoofShape::flat})
    for (int n = 0; n < 150; ++n) {
      const House h = random_plain(rng, shape);
      expect_lawful(rng, h, cut_by_hand(h));
      expect_lawful(rng, h, shape_of(h));
    }
}

TEST_CASE("the shape's slopes are those cut by hand, slope against slope") {
  std::mt19937 rng(44);
  for (int n = 0; n < 200; ++n) {
    const House h = n % 2 == 0 ? random_hip(rng, static_cast<Hips>(rng() % 5))
                               : random_plain(rng, n % 4 == 1 ? RoofShape::gable : RoofShape::skillion);
    const Shape a = cut_by_hand(h), b = shape_of(h);
    const auto sum = [](const Shape& s, Part part, Way falls) {
      double total = 0.0;
      for (const Surface& x : s.surfaces)
        if (x.part == part && x.falls == falls) total += m2(area(x.outline));
      return total;
    };
    // Soffits under a gable's corners are put to the eaves there, to the verge here: the same for what holds them.
    for (const Part part : {Part::roof, Part::overhang})
      for (const Side side : four)
        CHECK_THAT(sum(a, part, outward(side)), WithinAbs(sum(b, part, outward(side)), tight));
  }
}

TEST_CASE("hip roofs are held exactly once, and every bearing stands where it says") {
  std::mt19937 rng(43);
  for (const Hips kind : {Hips::both, Hips::one, Hips::above, Hips::to_a_point, Hips::one_girder})
    for (int n = 0; n < 120; ++n) {
      const House h = random_hip(rng, kind);
      const Shape s = cut_by_hand(h);
      expect_lawful(rng, h, s);
      expect_lawful(rng, h, shape_of(h));
      expect_framed(h, members_of(h, s));
    }
}

TEST_CASE("a hip house by hand: jacks, creepers, rafters, in their order") {
  // y_g = g = 2400: three spaces of 800 for creepers; between 2400 and 5600 four of 800 for jacks
  const House h = mangrove();
  const Shape s = cut_by_hand(h);
  const Members all = members_of(h, s);
  REQUIRE(all.members.size() == 10u + 2 * (5 + 8 + 2));
  REQUIRE(all.bearings.size() == 2 * all.members.size());
  std::vector<std::string> left;
  for (std::size_t i = 10; i < 25; ++i) left.push_back(all.members[i].words);
  CHECK(left == std::vector<std::string>{"J1 at 2400 left", "J1 at 3200 left", "J1 at 4000 left", "J1 at 4800 left",
                                         "J1 at 5600 left", "J1 at 800 left", "J1 at 1600 left", "J1 at 6400 left",
                                         "J1 at 7200 left", "J1 at 800 front", "J1 at 1600 front", "J1 at 800 back",
                                         "J1 at 1600 back", "H1 front left", "H1 back left"});
  CHECK(all.members[25].words == "J1 at 2400 right");
  CHECK(all.members[39].words == "H1 back right");
  CHECK(member(all, "J1 at 11200 front").kind == MemberKind::creeper);
  CHECK(member(all, "J1 at 11200 front").to.x == metres(11.2));
  CHECK_THAT(m(member(all, "J1 at 11200 front").to.y), WithinAbs(0.8, 1e-12));

  // the ridge begins where both slopes have risen over 4 m: trusses at 3200 are cut flat, the one at 4000 is not
  CHECK(all.members[0].kind == MemberKind::girder);
  CHECK(all.members[1].kind == MemberKind::truncated);
  CHECK(all.members[2].kind == MemberKind::truss);
  CHECK(all.members[7].kind == MemberKind::truss);
  CHECK(all.members[8].kind == MemberKind::truncated);
  CHECK(all.members[0].plies == 2);
  CHECK(all.members[0].bracket.name == "girder-cleat");
  CHECK(all.members[10].bracket.name == "jack-cleat");
  CHECK(all.members[10].onto.name == "jack-hanger");
  CHECK(all.members[15].bracket.name == "jack-cleat");
  CHECK(all.members[23].bracket.name == "hip-cleat");
  CHECK(all.members[23].onto.name == "hip-hanger");

  const Bearing &foot = bearing(all, "J1 at 3200 left"), &head = bearing(all, "J1 at 3200 left onto TG1");
  CHECK(h.walls[foot.feet.at(0).wall].side == Side::left);
  CHECK_THAT(m(foot.feet[0].from), WithinAbs(2.8, 1e-12));
  CHECK_THAT(m(foot.feet[0].to), WithinAbs(3.6, 1e-12));
  CHECK(head.onto == 0u);
  CHECK_THAT(m(head.onto_u), WithinAbs(3.2, 1e-12));
  CHECK_THAT(m(head.u), WithinAbs(2.4, 1e-12));

  // H1 is 2.4 sqrt 2 long; a creeper at 1600 stands on it at 1.6 sqrt 2
  const Bearing &corner = bearing(all, "H1 front left"), &top = bearing(all, "H1 front left onto TG1");
  REQUIRE(corner.feet.size() == 2);
  CHECK(h.walls[corner.feet[0].wall].side == Side::left);
  CHECK(h.walls[corner.feet[1].wall].side == Side::front);
  for (const Foot& f : corner.feet) {
    CHECK(f.at == zero<Length>());
    CHECK(f.from == zero<Length>());
    CHECK_THAT(m(f.to), WithinAbs(0.4, 1e-12));
  }
  CHECK_THAT(m(top.u), WithinAbs(2.4 * std::sqrt(2.0), 1e-12));
  CHECK_THAT(m(top.onto_u), WithinAbs(2.4, 1e-12));
  for (const char* side : {"left", "front"}) {
    const Bearing& on = bearing(all, fmt::format("J1 at 1600 {} onto H1 front left", side));
    CHECK(on.onto == 23u);
    CHECK_THAT(m(on.onto_u), WithinAbs(1.6 * std::sqrt(2.0), 1e-12));
    CHECK_THAT(m(on.u), WithinAbs(1.6, 1e-12));
  }
  const Bearing& back_right = bearing(all, "H1 back right");
  CHECK(back_right.feet[0].at == metres(8.0));
  CHECK(back_right.feet[1].at == metres(12.0));
  CHECK_THAT(m(back_right.feet[1].from), WithinAbs(11.6, 1e-12));
  CHECK(back_right.feet[1].to == metres(12.0));
  CHECK_THAT(m(bearing(all, "H1 back right onto TG1").onto_u), WithinAbs(5.6, 1e-12));
  CHECK(bearing(all, "H1 back right onto TG1").onto == 9u);

  // the girder's feet: from half-way to the creeper at 1600 to half-way to the truss at 3200
  CHECK_THAT(m(bearing(all, "TG1 at 2400 front").feet[0].from), WithinAbs(2.0, 1e-12));
  CHECK_THAT(m(bearing(all, "TG1 at 2400 front").feet[0].to), WithinAbs(2.8, 1e-12));
  CHECK_FALSE(all.members[0].space);

  // Areas in plan, eaves with them. Rafter: the square from -600 to 400. Creeper at 800, strip 400 to 1200: mean depth
  // 800 + 600. Jack at 2400: strip 2000 to 2400 of mean depth 2200 + 600, then 2400 to 2800 of 2400 + 600.
  CHECK_THAT(roof_of(member(all, "H1 front left"), s), WithinAbs(1.0, tight));
  CHECK_THAT(roof_of(member(all, "J1 at 800 left"), s), WithinAbs(0.8 * 1.4, tight));
  CHECK_THAT(roof_of(member(all, "J1 at 800 front"), s), WithinAbs(0.8 * 1.4, tight));
  CHECK_THAT(roof_of(member(all, "J1 at 2400 left"), s), WithinAbs(0.4 * 2.8 + 0.4 * 3.0, tight));
  CHECK_THAT(roof_of(member(all, "J1 at 4000 left"), s), WithinAbs(0.8 * 3.0, tight));
  // Girder: the sides from 2000 to 2400, mean depth 2200 + 600 each, and the whole from 2400 to 2800.
  CHECK_THAT(roof_of(all.members[0], s), WithinAbs(2.0 * 0.4 * 2.8 + 0.4 * 9.2, tight));
  CHECK_THAT(roof_of(all.members[4], s), WithinAbs(0.8 * 9.2, tight));
}

TEST_CASE("uneven pitches: the hip meets the girder elsewhere at each side") {
  // end 20 deg, front 30, back 15: y_g = 2400 tan 20 / tan 30 = 1513.0 and 2400 tan 20 / tan 15 = 3260.1
  House h = mangrove();
  h.roof.own_pitch = {degrees(20.0), degrees(30.0), degrees(20.0), degrees(15.0)};
  h.hip_ends[0].jacks = h.hip_ends[1].jacks = metres(10.0);
  const double front = 2.4 * std::tan(degrees(20.0).value()) / std::tan(degrees(30.0).value()),
               back = 2.4 * std::tan(degrees(20.0).value()) / std::tan(degrees(15.0).value());
  CHECK_THAT(front, WithinAbs(1.5130, 5e-5));
  CHECK_THAT(back, WithinAbs(3.2601, 5e-5));
  const Members all = members_of(h, cut_by_hand(h));
  CHECK(all.members.size() == 10u + 2 * (2 + 2));  // one space everywhere: no creepers, a jack beside each rafter
  CHECK_THAT(m(bearing(all, "H1 front left onto TG1").onto_u), WithinAbs(front, 1e-12));
  CHECK_THAT(m(bearing(all, "H1 front left onto TG1").u), WithinAbs(std::hypot(2.4, front), 1e-12));
  CHECK_THAT(m(bearing(all, "H1 back left onto TG1").onto_u), WithinAbs(8.0 - back, 1e-12));
  CHECK_THAT(m(bearing(all, "J1 at 1513 left onto TG1").onto_u), WithinAbs(front, 1e-12));
  CHECK_THAT(m(bearing(all, "J1 at 4740 left onto TG1").onto_u), WithinAbs(8.0 - back, 1e-12));
}

TEST_CASE("half trusses under a skillion bear in front and at the back, with verges past the ends") {
  House h = gable(metres(9.0), metres(6.0), metres(2.7), Along::across, degrees(10.0), metres(0.5), metres(0.4));
  h.roof.shape = RoofShape::skillion;
  h.roof.high = Side::back;
  const Shape s = cut_by_hand(h);
  const Members all = members_of(h, s);
  REQUIRE(all.members.size() == 11);
  for (const Member& x : all.members) CHECK(x.kind == MemberKind::half);
  CHECK(all.bearings[0].words == "T1 at 0 front");
  CHECK(all.bearings[1].words == "T1 at 0 back");
  CHECK(all.bearings[1].u == metres(6.0));
  // verge 400 past the left wall, over 500 in front and 400 behind
  REQUIRE(all.members[0].carries.size() == 2);
  CHECK(all.members[0].carries[0].past_end);
  CHECK_THAT(roof_of(all.members[0], s), WithinAbs((0.4 + 0.45) * 6.9, tight));
  CHECK(all.members[0].next == 1u);
  CHECK_THAT(m(*all.members[10].space), WithinAbs(0.9, 1e-12));
}

TEST_CASE("trusses bear on inside walls as well, after all bearings on outside walls") {
  House h = cottage();  // 12 m x 7.8 m, trusses 1200 apart
  Wall e{};
  e.name = "E";
  e.runs = Along::across;
  e.line = metres(5.0);
  e.from = metres(2.0);
  e.to = metres(7.0);
  h.walls.push_back(e);
  e.name = "F";
  e.line = metres(3.0);
  h.walls.push_back(e);
  h.trusses[3].also_on = {"E", "F"};
  h.trusses[4].also_on = {"E"};
  const Members all = members_of(h, shape_of(h));
  const std::size_t outside = 2 * h.trusses.size();
  REQUIRE(all.bearings.size() == outside + 3);
  CHECK(all.bearings[outside].words == "T1 at 3600 on F");
  CHECK(all.bearings[outside + 1].words == "T1 at 3600 on E");
  CHECK(all.bearings[outside + 2].words == "T1 at 4800 on E");
  CHECK(all.members[3].bearings == std::vector<std::size_t>{6, outside, outside + 1, 7});
  CHECK(all.bearings[outside + 1].u == metres(5.0));
  CHECK(all.bearings[outside + 1].feet[0].wall == 4);
  CHECK_THAT(m(all.bearings[outside + 1].feet[0].at), WithinAbs(1.6, 1e-12));
  CHECK(all.bearings[outside + 1].feet[0].from == zero<Length>());
  CHECK(all.bearings[outside + 1].feet[0].to == zero<Length>());
  expect_bearings_stand(h, all);

  h.trusses[0].also_on = {"E"};  // at 0, the wall begins at 2000
  CHECK_THROWS_AS(members_of(h, shape_of(h)), std::logic_error);
  h.trusses[0].also_on = {"front"};
  CHECK_THROWS_AS(members_of(h, shape_of(h)), std::logic_error);
  h.trusses[0].also_on = {};
  h.trusses[4].also_on = {"E", "E"};
  CHECK_THROWS_AS(members_of(h, shape_of(h)), std::logic_error);
  h.trusses[4].also_on = {};
  h.trusses[0].also_on = {"Z"};
  CHECK_THROWS_AS(members_of(h, shape_of(h)), std::logic_error);
}

TEST_CASE("a roof that rises to a point: one girder for both ends, or two") {
  // 8 m x 8 m at one pitch: all hips meet at 4000
  House h = mangrove();
  h.across = metres(8.0);
  for (Wall& w : h.walls) w.to = metres(8.0);
  h.trusses = {{"TG1", metres(4.0), {}, true}};
  Shape s = cut_by_hand(h);
  Members all = members_of(h, s);
  // creepers: five spaces of 800 on each of four sides, both ends of each; one jack at 4000 of each end
  CHECK(all.members.size() == 1u + 2 * (1 + 16 + 2));
  CHECK(all.members[0].carries.size() == 2);
  CHECK_THAT(roof_of(all.members[0], s), WithinAbs(4.0 * (0.4 * 0.6 + 0.4 * 3.8), tight));
  CHECK(bearing(all, "J1 at 4000 left onto TG1").onto_u == metres(4.0));
  CHECK(bearing(all, "H1 back right onto TG1").onto_u == metres(4.0));

  h.trusses = {{"TG1", metres(3.0), {}, true}, {"TG1", metres(5.0), {}, true}};
  s = cut_by_hand(h);
  all = members_of(h, s);
  CHECK(bearing(all, "H1 back right onto TG1").onto == 1u);
  // between the girders each has its half of the sides and of what the end slopes have beyond it
  CHECK_THAT(roof_of(all.members[0], s), WithinAbs(roof_of(all.members[1], s), tight));
}

TEST_CASE("two that print alike are told apart") {
  // 1 mm of girder between the two hips, a jack beside each: in tenths of inches both stand at one place
  House h = mangrove();
  h.print = Print::us;
  h.trusses.front().at = metres(3.9995);
  h.trusses.erase(h.trusses.begin() + 1, h.trusses.begin() + 3);
  const Members all = members_of(h, cut_by_hand(h));
  expect_bearings_stand(h, all);
  int twice = 0;
  for (const Member& x : all.members) twice += x.kind == MemberKind::jack && x.words.ends_with("(2)");
  CHECK(twice == 1);
}

TEST_CASE("a hip corner hands on its load as published") {
  // Reactions under an even pressure by moments of the pieces that each member holds, creepers 5 mm apart. The
  // published figures are those of creepers without end: with n spaces of h the sums miss by less than 3600 h, in kN
  // under 0.02.
  const toml::table& c = published("hip-corner-creepers");
  House h = gable(metres(12.0), metres(9.0), metres(2.7), Along::across, degrees(25.0), metres(0.0), metres(0.0));
  h.roof.shape = RoofShape::hip;
  h.roof.hipped = {true, false, false, false};
  h.trusses.erase(h.trusses.begin(), h.trusses.begin() + 3);
  h.trusses.front() = {"TG1", metres(3.6), {}, true};
  h.hip_ends = {{Side::left, "J1", "H1", metres(0.005), {}, {}, {}, {}}};
  const Shape s = cut_by_hand(h);
  const Members all = members_of(h, s);
  const Member& rafter = member(all, "H1 front left");
  const auto rafter_at = static_cast<std::size_t>(&rafter - all.members.data());
  const Length along = all.bearings[rafter.bearings[1]].u;
  // load and its first moment about the member's foot, per pascal
  const auto load = [&](const Member& x, Area& whole, AreaMoment& turning) {
    const Length length = all.bearings[x.bearings[1]].u;
    const double dx = (x.to.x - x.from.x) / length, dy = (x.to.y - x.from.y) / length;
    for (const Surface& p : s.surfaces)
      for (const Window& w : x.carries) {
        if (p.part != Part::roof || !holds(w, p)) continue;
        const Polygon g = within(w, p.outline);
        if (g.empty()) continue;
        whole += area(g);
        turning += (moment_x(g) - x.from.x * area(g)) * dx + (moment_y(g) - x.from.y * area(g)) * dy;
      }
  };
  Area walls[2]{zero<Area>(), zero<Area>()}, on_rafter = zero<Area>();
  AreaMoment turning = zero<AreaMoment>();
  load(rafter, on_rafter, turning);
  for (const Bearing& b : all.bearings) {
    if (b.onto != rafter_at) continue;
    const Member& x = all.members[b.member];
    Area whole = zero<Area>();
    AreaMoment own = zero<AreaMoment>();
    load(x, whole, own);
    const Area head = own / b.u;
    on_rafter += head;
    turning += head * b.onto_u;
    walls[h.walls[all.bearings[x.bearings[0]].feet[0].wall].side == Side::left ? 0 : 1] += whole - head;
  }
  const auto out = c["out"];
  CHECK_THAT(m2(walls[0]), WithinAbs(number(out["walls_each_kN"]), 0.02));
  CHECK_THAT(m2(walls[1]), WithinAbs(number(out["walls_each_kN"]), 0.02));
  CHECK_THAT(m2(on_rafter), WithinAbs(number(out["hip_total_kN"]), 0.02));
  CHECK_THAT(m2(turning / along), WithinAbs(number(out["girder_end_kN"]), 0.02));
  CHECK_THAT(m2(on_rafter - turning / along), WithinAbs(number(out["corner_end_kN"]), 0.02));
}

TEST_CASE("a hip end that cannot stand is refused") {
  const auto refused = [](const House& h) { CHECK_THROWS_AS(members_of(h, cut_by_hand(h)), std::logic_error); };
  House h = mangrove();
  h.hip_ends.pop_back();
  refused(h);
  h = mangrove();
  h.trusses.front().girder = false;
  refused(h);
  h = mangrove();
  h.trusses.erase(h.trusses.begin(), h.trusses.begin() + 3);  // the first at 4800, the apex at 4000
  h.trusses.front().girder = true;
  refused(h);
  h = mangrove();
  h.trusses.front().at = zero<Length>();
  refused(h);
  h = mangrove();
  h.roof.own_pitch[index(Side::left)] = zero<Angle>();
  refused(h);
  h = mangrove();
  h.trusses.clear();
  refused(h);
  h = mangrove();
  h.hip_ends[0].jacks = zero<Length>();
  refused(h);
}

TEST_CASE("kinds of members in words") {
  CHECK(words(MemberKind::truss) == "truss");
  CHECK(words(MemberKind::truncated) == "truncated truss");
  CHECK(words(MemberKind::half) == "half truss");
  CHECK(words(MemberKind::girder) == "hip girder");
  CHECK(words(MemberKind::jack) == "jack");
  CHECK(words(MemberKind::creeper) == "creeper");
  CHECK(words(MemberKind::hip_rafter) == "hip rafter");
}
