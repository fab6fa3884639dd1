// The wind on houses of two floors: what it shares with a house of one floor that is as high, what the standards have
// of their own for the lower floor, and figures worked out by hand beside their checks.
#include "any_roof.hpp"
#include "mirrored.hpp"
#include "recompute.hpp"
#include "sanitized.hpp"
#include "two_floors.hpp"
#include "wind/zones.hpp"
#include <catch2/catch.hpp>
#include <random>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Equals;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const Length first_height = metres(2.55), depth = metres(0.35);
House two_floors(const House& one) { return with_first_floor(one, first_height, depth); }
// A house of one floor with walls as high as both floors of the other together.
House as_high(House one, const House& two) {
  one.height = top_of_walls(two);
  return one;
}
bool by_class(const SiteAsk& site) { return std::holds_alternative<ClassSite>(site); }
bool by_asce(const SiteAsk& site) { return std::holds_alternative<AsceSite>(site); }
// A house under each roof, and the same with some drawn at random.
std::vector<House> one_of_each() {
  return {cottage(), hipped(metres(11.0), metres(8.0), degrees(25.0), metres(0.6), {Side::left}),
          skillion(metres(9.0), metres(7.0), degrees(8.0), Side::right, metres(0.45), metres(0.3))};
}
std::vector<House> houses() {
  std::vector<House> all = one_of_each();
  std::mt19937 rng(20);
  for (int i = 0; i < (sanitized ? 1 : 3); ++i) all.push_back(any_roof(rng, true));
  return all;
}
bool is_wall(const Push& p) { return p.what.find("wall") != std::string::npos && p.label != "friction"; }
Force from_height(const LoadCase& c, Length up) {
  Force sum = zero<Force>();
  for (const Push& p : c.push) sum += p.p * area(between_y(p.part, up, everywhere));
  return sum;
}
std::set<std::string> excesses(const House& h) {
  std::set<std::string> all;
  for (const Excess& e : blow(h).loads.excess) all.insert(e.limit);
  return all;
}
const SquareOn& square_at(const LoadCase& c, Side side, Length along) {
  for (const SquareOn& s : c.square_on)
    if (s.side == side && s.from <= along && along < s.to) return s;
  throw std::runtime_error("no pressure square on the wall there");
}

}  // namespace

// ---- the shape -----------------------------------------------------------------------------------------------------

TEST_CASE("two floors: heights and elevations by hand") {
  // Walls 2.7 + 0.35 + 2.55 = 5.6 m on a floor 0.3 m up; racking from 5.6 - 2.55 / 2 = 4.325 m; rise 3.9 tan 22.5 =
  // 1.61543 m, fall of the eaves 0.45 tan 22.5 = 0.18640 m
  const Shape s = shape_of(two_floors(cottage()));
  CHECK_THAT(s.wall_height.value(), WithinAbs(5.6, 1e-12));
  CHECK_THAT(s.racking_from.value(), WithinAbs(4.325, 1e-12));
  CHECK_THAT(s.mean_roof_height.value(), WithinAbs(0.3 + 5.6 + 0.5 * 1.61543, 1e-5));
  CHECK_THAT(s.eaves_height.value(), WithinAbs(0.3 + 5.6 - 0.18640, 1e-5));
  CHECK_THAT(s.top.value(), WithinAbs(0.3 + 5.6 + 1.61543, 1e-5));
  for (const Side side : all_sides) {
    Area wall = zero<Area>();
    for (const Elevation& e : s.elevations)
      if (e.side == side && e.part == ElevationPart::wall) wall += area(e.outline);
    CHECK_THAT(wall.value(), WithinAbs(5.6 * (is_across(outward(side)) ? 7.8 : 12.0), 1e-9));
  }
}

// ---- beside a house of one floor that is as high -------------------------------------------------------------------

TEST_CASE("two floors: the roof is pressed and lifted, and the house limited, as one of one floor that is as high") {
  for (const House& roof : houses())
    for (const SiteAsk& site : every_site()) {
      House one = roof;
      one.site = site;
      const House two = two_floors(one);
      const Blown a = blow(two), b = blow(as_high(one, two));
      CHECK(a.site.q == b.site.q);
      REQUIRE(a.loads.cases.size() == b.loads.cases.size());
      REQUIRE(a.loads.excess.size() == b.loads.excess.size());
      for (std::size_t i = 0; i < a.loads.excess.size(); ++i) CHECK(a.loads.excess[i].limit == b.loads.excess[i].limit);
      for (std::size_t i = 0; i < a.loads.cases.size(); ++i) {
        const LoadCase &c = a.loads.cases[i], &d = b.loads.cases[i];
        INFO(a.site.method << " " << a.site.edition << ", " << c.id);
        REQUIRE(c.id == d.id);
        REQUIRE(c.net == d.net);
        REQUIRE(c.net_small == d.net_small);
        // The same force in all; by class the roof's share of the pressure goes by the walls' real height
        if (!by_class(site))
          for (const Along along : {Along::across, Along::up})
            CHECK_THAT(push_total(c, along).value(), WithinAbs(push_total(d, along).value(), 1e-6));
        // By ASCE 7 a stud is one floor high, and what it carries is pushed no less
        REQUIRE(c.square_on.size() == d.square_on.size());
        for (std::size_t k = 0; k < c.square_on.size(); ++k) {
          if (by_asce(site)) CHECK(c.square_on[k].p >= d.square_on[k].p);
          else CHECK(c.square_on[k].p == d.square_on[k].p);
          CHECK(c.square_on[k].to == d.square_on[k].to);
        }
      }
    }
}

TEST_CASE("two floors: the wind on walls covers each elevation once, at every height") {
  for (const House& roof : houses())
    for (const SiteAsk& site : every_site()) {
      House h = two_floors(roof);
      h.site = site;
      const Blown b = blow(h);
      const Shape& s = b.shape;
      for (const LoadCase& c : b.loads.cases) {
        INFO(b.site.method << " " << b.site.edition << ", " << c.id);
        for (const Side side : all_sides) {
          const Length breadth = length_of(s, side);
          std::vector<Polygon> parts;
          for (const Push& p : c.push)
            if (p.towards == opposite(outward(side)) && is_wall(p)) parts.push_back(p.part);
          if (parts.empty()) continue;
          // In twelve fields of the wall: three in its breadth, four in its height
          for (const double x : {0.0, 1.0, 2.0})
            for (const double y : {0.0, 1.0, 2.0, 3.0}) {
              const Length x0 = x / 3.0 * breadth, x1 = (x + 1.0) / 3.0 * breadth, y0 = y / 4.0 * s.wall_height,
                           y1 = (y + 1.0) / 4.0 * s.wall_height;
              Area sum = zero<Area>();
              for (const Polygon& g : parts) sum += area(between_y(between_x(g, x0, x1), y0, y1));
              CHECK_THAT(sum.value(), WithinAbs(area(rectangle(x0, x1, y0, y1)).value(), 1e-9));
            }
        }
        // Nothing but eaves and what stands on the walls is pushed that is no wall
        for (const Push& p : c.push)
          for (const Point& at : p.part)
            if (!is_wall(p)) CHECK(at.y > s.racking_from);
      }
      // Where a case pushes at all, it pushes on walls
      for (const LoadCase& c : b.loads.cases)
        CHECK((c.push.empty() || std::any_of(c.push.begin(), c.push.end(), is_wall)));
    }
}

TEST_CASE("two floors: a mirrored house has mirrored answers, a turned one turned answers") {
  for (const SiteAsk& site : every_site()) {
    // The door stands in a wall of the first floor alone
    const auto house = [&](Length across, Length up, Along ridge, const std::string& wall) {
      House h = two_floors(gable(across, up, metres(2.7), ridge, degrees(22.5), metres(0.45), metres(0.3)));
      h.site = site;
      for (Wall& w : h.walls)
        if (w.name == wall) {
          const Length at = 0.5 * (w.to - w.from) - metres(1.5);
          const Opening door = opening(metres(3.0), metres(2.1), true, false, std::nullopt);
          w.pieces = {Piece{at, at + door.width, door, std::nullopt}};
        }
      return h;
    };
    const Blown a = blow(house(metres(12.0), metres(7.8), Along::across, "first front")),
                t = blow(house(metres(7.8), metres(12.0), Along::up, "first right"));
    REQUIRE(a.loads.cases.size() == t.loads.cases.size());
    std::mt19937 rng(7);
    for (const LoadCase& c : a.loads.cases) {
      INFO(a.site.method << " " << a.site.edition << ", " << c.id);
      check_turned_and_mirrored(a, t, c, rng, sanitized ? 2 : 8);
    }
  }
}

TEST_CASE("two floors: an opening counts on either floor alike, and both floors' together") {
  for (const SiteAsk& site : every_site()) {
    const auto loads = [&](const std::set<std::string>& walls) {
      House h = two_floors(cottage());
      h.site = site;
      for (Wall& w : h.walls)
        if (walls.contains(w.name))
          w.pieces = {
              Piece{metres(0.2), metres(1.4), opening(metres(1.2), metres(1.5), false, true, std::nullopt), {}}};
      return blow(h).loads;
    };
    const Loads ground = loads({"ground front"}), first = loads({"first front"}), shut = loads({});
    REQUIRE(ground.cases.size() == first.cases.size());
    const auto insides = [](const Loads& l) {
      std::set<std::string> all;
      for (const LoadCase& c : l.cases) all.insert(c.inside);
      return all;
    };
    CHECK(insides(first) != insides(shut));
    for (std::size_t i = 0; i < ground.cases.size(); ++i) {
      CHECK(ground.cases[i].id == first.cases[i].id);
      CHECK(ground.cases[i].net == first.cases[i].net);
    }
    House both = two_floors(cottage());
    both.site = site;
    for (Wall& w : both.walls)
      if (w.side == Side::front)
        w.pieces = {Piece{metres(2.0), metres(3.0), opening(metres(1.0), metres(1.2), false, true, std::nullopt), {}}};
    const Shape s = shape_of(both);
    const OpeningRule rule{metres(2.0), false, [](const std::string&) { return true; }};
    const FaceOpenings f = openings_in({both.site, both, s, table(table_for(site))}, Side::front, rule);
    CHECK_THAT(f.stated_open.value(), WithinAbs(2.4, 1e-12));  // two of 1.0 x 1.2 m
    CHECK_THAT(f.gross.value(), WithinAbs(12.0 * 5.6, 1e-9));
  }
}

// ---- AS 4055 -------------------------------------------------------------------------------------------------------

TEST_CASE("AS 4055, two floors: the force law of the area of elevation, floor by floor") {
  // Of a house of one floor with walls h high the force from half their height up is q [C_w h / 2 + roof] over the
  // breadth. With two floors the same stands from any height down: q [C_w (height of wall above it) + roof]. So from
  // mid-height of the first floor's walls it is less than that by C_w q (h / 2 - their half), and from mid-height of
  // the ground floor's more by C_w q (h / 2 - their half).
  const double c_w = 0.96;
  for (const House& roof : houses())
    for (const std::string wind_class : {"N3", "C2"}) {
      House one = roof;
      one.site = ClassSite{wind_class, "", ""};
      const House two = two_floors(one);
      const Blown a = blow(two), b = blow(as_high(one, two));
      const Length high = b.shape.wall_height;
      for (const LoadCase& c : a.loads.cases) {
        if (c.push.empty()) continue;
        INFO(wind_class << " " << c.id);
        const Force whole = from_height(find_case(b.loads, c.id), high / 2.0);
        const Length breadth = length_of(a.shape, windward(c.push.front().towards));
        const auto from = [&](Length up) { return whole + c_w * a.site.q * breadth * (high / 2.0 - up); };
        CHECK_THAT(from_height(c, a.shape.racking_from).value(), WithinRel(from(a.shape.racking_from).value(), 1e-12));
        CHECK_THAT(from_height(c, two.height / 2.0).value(), WithinRel(from(two.height / 2.0).value(), 1e-12));
        CHECK_THAT(from_height(c, zero<Length>()).value(), WithinRel(from(zero<Length>()).value(), 1e-12));
      }
    }
}

TEST_CASE("AS 4055, two floors: push on a long side by hand") {
  // Eaves 0.3 + 5.6 - 0.18640 = 5.7136 m, no more than 4.5 m of the tables: h = 4.5 + 1.615433 / 2 = 5.307716 m, d
  // = 7.8 m, h/d = 0.680476. At 22.5 degrees, between the columns of 20 and 25: C_up 0.1 in the row of 0.5 and -0.15 in
  // that of 1.0, so 0.009762; C_dn -0.66 in both. C_r = 0.8 x 0.669762 = 0.535810. h_0 = 2.55 / 2 = 1.275 m, h_r
  // = 1.615433 x 12.6 / 12 = 1.696204 m: p = 1500 (0.96 x 1.275 + 0.535810 x 1.696204) / 2.971204 = 1076.8 Pa. Below
  // 0.96 x 1500.
  const Blown b = blow(two_floors(cottage()));
  const LoadCase& c = find_case(b.loads, "front class");
  REQUIRE(c.push.size() == 3);
  const double roof = 0.535810 * 1.696204, upper = 1500.0 * (0.96 * 1.275 + roof) / (1.275 + 1.696204);
  for (const Push& p : c.push) {
    CHECK(p.towards == Way::back);
    CHECK_THAT(p.p.value(), WithinAbs(p.label == "below" ? 1440.0 : upper, 0.02));
  }
  // The first floor's bracing: 12 x 1.275 m2 of wall and the roof; the ground floor's: q L [0.96 (5.6 - 1.35) + roof]
  CHECK_THAT(from_height(c, b.shape.racking_from).value(), WithinAbs(1500.0 * 12.0 * (0.96 * 1.275 + roof), 1.0));
  CHECK_THAT(from_height(c, metres(1.35)).value(), WithinAbs(1500.0 * 12.0 * (0.96 * 4.25 + roof), 1.0));
  // A gable end is pushed by 0.96 of the gust's pressure all over: 7.8 m broad, its triangle 7.8 x 1.615433 / 2
  CHECK_THAT(from_height(find_case(b.loads, "left class"), metres(1.35)).value(),
             WithinAbs(1440.0 * (7.8 * 4.25 + 7.8 * 1.615433 / 2.0), 0.01));
}

// ---- ASCE 7 --------------------------------------------------------------------------------------------------------

TEST_CASE("ASCE 7 envelope, two floors: walls, roof and studs by hand") {
  // 50 x 30 ft, walls 9 + 1 + 8 ft, 20 degrees, 120 mph, exposure C. Rise 15 tan 20 = 5.45955 ft, h = 18 + 2.72978 =
  // 20.7298 ft; K_h = 2.01 (20.7298 / 900)^(2 / 9.5) = 0.908716; q_h = 0.00256 x 0.85 x 120^2 x 0.908716 = 28.4741 psf.
  // End zone 2 x 3 ft.
  House h = gable(feet(50.0), feet(30.0), feet(9.0), Along::across, degrees(20.0), zero<Length>(), zero<Length>());
  h.floor_level = zero<Length>();
  h.site = asce("7-10", mph(120.0), "C");
  const Blown b = blow(with_first_floor(h, feet(8.0), feet(1.0)));
  const double q = 28.4741;
  CHECK_THAT(in_psf(b.site.q), WithinAbs(q, 1e-3));
  // Across the ridge: 0.53 and 0.80 (6 ft) to windward, 0.43 and 0.64 to the lee, on walls 18 ft high:
  // 18 (44 x 0.96 + 6 x 1.44) = 915.84 ft2
  const LoadCase& c = find_case(b.loads, "front left shut out walls");
  CHECK_THAT(in_lbf(push_total(c, Along::up)), WithinRel(915.84 * q, 1e-4));
  // Of that the first floor's bracing takes 4 ft of 18, the ground floor's all but 4.5 ft
  Force above_first = zero<Force>(), above_ground = zero<Force>();
  for (const Push& p : c.push) {
    const auto f = [&](double up) { return p.p * area(between_y(p.part, feet(up), everywhere)); };
    above_first += p.towards == Way::back ? f(14.0) : -f(14.0);
    above_ground += p.towards == Way::back ? f(4.5) : -f(4.5);
  }
  CHECK_THAT(in_lbf(above_first), WithinRel(4.0 / 18.0 * 915.84 * q, 1e-4));
  CHECK_THAT(in_lbf(above_ground), WithinRel(13.5 / 18.0 * 915.84 * q, 1e-4));
  // Windward slope in the middle: -0.69 - 0.18
  CHECK_THAT(in_psf(net_at(b, c, {feet(30.0), feet(5.0)}, false).value()), WithinRel(-0.87 * q, 1e-4));
  // A stud of the lower of the two walls, 8 ft: 8 x 8 / 3 = 21.333 ft2; log(2.1333) / log(50) = 0.193681 of the way
  // from 10 to 500 ft2: zone 4 -1.1 + 0.3 x 0.193681 = -1.041896, zone 5 -1.4 + 0.6 x 0.193681 = -1.283791; with 0.18
  // inside
  CHECK_THAT(in_psf(square_at(c, Side::front, feet(25.0)).p), WithinRel(1.221896 * q, 1e-4));
  CHECK_THAT(in_psf(square_at(c, Side::front, feet(1.0)).p), WithinRel(1.463791 * q, 1e-4));
  // Whichever floor has the lower walls
  const Blown turned_over = blow(with_first_floor(
      [&] {
        House o = h;
        o.height = feet(8.0);
        return o;
      }(),
      feet(9.0), feet(1.0)));
  const LoadCase& d = find_case(turned_over.loads, "front left shut out walls");
  CHECK(square_at(d, Side::front, feet(25.0)).p == square_at(c, Side::front, feet(25.0)).p);
}

TEST_CASE("ASCE 7, two floors: the least wind pushes on all of both floors' walls") {
  // 7-16, strength: 16 psf on walls, 8 psf on the roof's projection: 12 x 5.6 m and 12.6 x (1.61543 + 0.18640) m
  House h = two_floors(cottage());
  AsceSite site = asce("7-16", mph(100.0), "B");
  site.level = "strength";
  h.site = site;
  const LoadCase c = find_case(blow(h).loads, "front least");
  const double on_wall = 16.0 * 12.0 * 5.6, on_roof = 8.0 * 12.6 * (1.61543 + 0.18640);
  CHECK_THAT(push_total(c, Along::up) / psf(1.0) / metres(1.0) / metres(1.0), WithinRel(on_wall + on_roof, 1e-5));
}

// ---- EN 1991-1-4 ---------------------------------------------------------------------------------------------------

TEST_CASE("EN 1991-1-4, two floors: walls by hand, and what is said where the house is higher than broad") {
  // h = 0.3 + 5.6 + 1.615433 = 7.515433 m; terrain II: c_r = 0.19 ln(7.515433 / 0.05) = 0.952411, v_m = 26 x 0.952411 =
  // 24.7627 m/s, I_v = 1 / ln(150.309) = 0.199494, q_p = (1 + 7 x 0.199494) x 0.625 x 24.7627^2 = 918.43 Pa. h/d =
  // 0.963517: D 0.7 + 0.1 x 0.713517 / 0.75 = 0.795136, E -0.3 - 0.2 x 0.713517 / 0.75 = -0.490271; together 0.85 x
  // 1.285407 on 12 x 5.6 m
  House h = two_floors(cottage());
  h.site = en_site(Speed::from_value(26.0), "II");
  const Blown b = blow(h);
  CHECK_THAT(b.site.q.value(), WithinAbs(918.43, 0.01));
  CHECK_THAT(push_total(find_case(b.loads, "front lift-lift out walls"), Along::up).value(),
             WithinRel(0.85 * 1.285407 * 12.0 * 5.6 * 918.428, 1e-5));

  const auto says = [](const House& x) {
    const Blown blown = blow(x);
    return std::any_of(blown.site.cautions.begin(), blown.site.cautions.end(),
                       [](const std::string& c) { return c.find("7.2.2") != std::string::npos; });
  };
  CHECK_FALSE(says(h));  // 7.515 m high, 7.8 m broad
  House narrow = gable(metres(12.0), metres(6.0), metres(2.7), Along::across, degrees(22.5), metres(0.45), metres(0.3));
  narrow.site = h.site;
  CHECK(says(two_floors(narrow)));
  CHECK_FALSE(says(narrow));
}

TEST_CASE("EN 1991-1-4, two floors: friction along both floors' walls goes into the first floor's bracing") {
  // 40 x 8 m: reach 2b = 16 m of 4h; 40.6 - 16 = 24.6 m; walls 2 x 5.6 x 24.6, roof 8.9 x 24.6 / cos 22.5
  House h = two_floors(
      gable(metres(40.0), metres(8.0), metres(2.7), Along::across, degrees(22.5), metres(0.45), metres(0.3)));
  h.site = en_site(Speed::from_value(26.0), "II");
  const Blown b = blow(h);
  const LoadCase& c = find_case(b.loads, "left out walls");
  Force friction = zero<Force>(), up_there = zero<Force>();
  for (const Push& p : c.push) {
    if (p.label != "friction") continue;
    friction += p.p * area(p.part);
    up_there += p.p * area(between_y(p.part, b.shape.racking_from, everywhere));
  }
  CHECK_THAT(friction.value() / b.site.q.value(),
             WithinRel(0.04 * 24.6 * (11.2 + 8.9 / std::cos(degrees(22.5).value())), 1e-9));
  CHECK(friction == up_there);
}

// ---- limits --------------------------------------------------------------------------------------------------------

TEST_CASE("two floors: a house that is too high is outside the method, whichever floor makes it so") {
  // AS 4055: eaves 0.3 + 3 + 0.35 + 3 - 0.18640 = 6.46 m, more than 6.0; each floor alone is well within
  House h = cottage();
  h.height = metres(3.0);
  CHECK(excesses(h).empty());
  CHECK(excesses(with_first_floor(h, metres(3.0), depth)).contains("height to the underside of the eaves"));
  CHECK(excesses(two_floors(cottage())).empty());
  // Top 0.3 + 5.6 + 3.9 tan 35 = 8.63 m, more than 8.5
  House steep = cottage();
  steep.roof.pitch = degrees(35.0);
  CHECK(excesses(two_floors(steep)) == std::set<std::string>{"height to the top of the roof"});
  // NZS 3604: 0.3 + 8.2 + 1.62 = 10.1 m, more than 10
  h.site = zone_site("H");
  h.height = metres(4.0);
  CHECK(excesses(h).empty());
  CHECK(excesses(with_first_floor(h, metres(3.85), depth)) == std::set<std::string>{"height to the top of the roof"});
  CHECK(excesses(with_first_floor(h, metres(3.65), depth)).empty());
  // ASCE 7: mean height 0.3 + 5.6 + 0.52 = 6.42 m over a plan of 5 m
  House narrow = gable(metres(12.0), metres(5.0), metres(2.7), Along::across, degrees(22.5), metres(0.45), metres(0.3));
  narrow.site = asce("7-16", mph(110.0), "C");
  CHECK(excesses(narrow).empty());
  CHECK(excesses(two_floors(narrow)) == std::set<std::string>{"mean roof height, against the least plan dimension"});
  // All methods
  for (const SiteAsk& site : every_site()) {
    House tower = cottage();
    tower.site = site;
    CHECK(excesses(two_floors(tower)).size() == excesses(tower).size());
    CHECK(excesses(with_first_floor(tower, metres(250.0), depth)).size() > excesses(tower).size());
  }
}

// ---- the working ---------------------------------------------------------------------------------------------------

TEST_CASE("two floors: the told case is the silent one, nothing is an orphan, each height has a symbol of its own") {
  for (const House& roof : one_of_each())
    for (const SiteAsk& site : every_site()) {
      House h = two_floors(roof);
      h.site = site;
      const Shape s = shape_of(h);
      const WindAsk ask{h.site, h, s, table(table_for(h.site))};
      const Method& m = method_for(h.site);
      const Loads silent = m.loads(ask, nullptr, std::nullopt);
      const std::size_t step = sanitized ? 13 : 5;
      for (std::size_t i = 0; i < silent.cases.size(); i += step) {
        Working w(i % 2 == 0 ? metric : us);
        const Loads loud = m.loads(ask, &w, i);
        const LoadCase &c = loud.cases[i], &quiet = silent.cases[i];
        INFO(c.id);
        REQUIRE(c.net == quiet.net);
        REQUIRE(c.net_small == quiet.net_small);
        REQUIRE(c.push.size() == quiet.push.size());
        REQUIRE(c.square_on.size() == quiet.square_on.size());
        CHECK_THAT(orphan(w), Equals(""));
        const auto told = [&](const std::string& symbol, Value v) {
          return std::any_of(w.steps.begin(), w.steps.end(),
                             [&](const Step& x) { return x.symbol == symbol && x.result == v; });
        };
        for (std::size_t k = 0; k < c.push.size(); ++k) {
          REQUIRE(c.push[k].p == quiet.push[k].p);
          CHECK(told("p_" + c.push[k].label, value(c.push[k].p)));
        }
        for (std::size_t k = 0; k < c.square_on.size(); ++k) {
          REQUIRE(c.square_on[k].p == quiet.square_on[k].p);
          CHECK(told("p_sq," + c.square_on[k].label, value(c.square_on[k].p)));
        }
        const std::map<std::string, Length> heights{{"h_w,ground", h.height},
                                                    {"h_w,first", h.first->height},
                                                    {"d_floor", h.first->depth},
                                                    {"h_walls", s.wall_height}};
        for (const Step& x : w.steps) {
          CHECK(x.symbol != "h_w");
          if (heights.contains(x.symbol)) CHECK(x.result == value(heights.at(x.symbol)));
        }
      }
    }
}

TEST_CASE("two floors: every step of the wind is worked out again by GNU Units") {
  REQUIRE(recompute::units_works());
  Working all;
  for (const SiteAsk& site : every_site()) {
    House h = two_floors(cottage());
    h.site = site;
    const Shape s = shape_of(h);
    const Method& m = method_for(h.site);
    Working w;
    m.loads({h.site, h, s, table(table_for(h.site))}, &w, 0);
    all.steps.insert(all.steps.end(), w.steps.begin(), w.steps.end());
  }
  const recompute::Outcome o = recompute::recompute(all);
  CHECK(o.checked > 200);
  for (const std::string& miss : o.misses) FAIL_CHECK(miss);
}
