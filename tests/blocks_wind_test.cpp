// The wind on houses of several blocks: each block's own cases laid together, zones on roofs that meet, and what of
// each face is seen. Laws on houses drawn at random, under every method, and areas worked out by hand. Invented houses.
#include "grid_blocks.hpp"
#include "sanitized.hpp"
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr unsigned houses = sanitized ? 2 : 6;

// Every house under every method.
template <class Look> void each_house(Look look) {
  for (unsigned seed = 400; seed < 400 + houses; ++seed) {
    House h = house_of(random_blocks(seed));
    for (const SiteAsk& site : one_site_each()) {
      h.site = site;
      INFO("seed " << seed << ", " << table_for(site));
      look(Winged(h));
    }
  }
}
// "onto the left, from its front corner", of the method that knows corners.
std::string corner_of(const LoadCase& c) { return c.wind.substr(0, c.wind.find(" corner")); }
bool walls_alone(const LoadCase& c) { return c.wind.find("walls alone") != std::string::npos; }
Side face_of(const Push& p) { return side_facing(opposite(p.towards)); }

// ---- plain figures, nothing in them of the program's
struct At {
  double x, y;
};
std::vector<At> plain(const Polygon& g) {
  std::vector<At> r;
  for (const Point& p : g) r.push_back({p.x / metres(1.0), p.y / metres(1.0)});
  return r;
}
double area_of(const std::vector<At>& g) {
  double twice = 0.0;
  for (std::size_t i = 0; i < g.size(); ++i) {
    const At &a = g[i], &b = g[(i + 1) % g.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return twice / 2.0;
}
// What two convex outlines have in common, edge by edge of the second.
double common_area(std::vector<At> g, const std::vector<At>& window) {
  for (std::size_t i = 0; i < window.size(); ++i) {
    const At &a = window[i], &b = window[(i + 1) % window.size()];
    const auto left = [&](const At& p) { return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x); };
    std::vector<At> kept;
    for (std::size_t k = 0; k < g.size(); ++k) {
      const At &p = g[k], &q = g[(k + 1) % g.size()];
      const double u = left(p), v = left(q);
      if (u >= 0.0) kept.push_back(p);
      if (u * v < 0.0) kept.push_back({p.x + (q.x - p.x) * u / (u - v), p.y + (q.y - p.y) * u / (u - v)});
    }
    g = std::move(kept);
  }
  return g.empty() ? 0.0 : area_of(g);
}
std::vector<At> outline(const Winged& b, std::size_t block, Side face) {
  std::vector<At> g = plain(outline_from(b.winds[block].shape, face));
  for (At& p : g) {
    p.x += (looks_across(face) ? b.winds[block].front : b.winds[block].left) / metres(1.0);
    p.y += b.winds[block].level / metres(1.0);
  }
  return g;
}
// Of all pushes on a face, and whether any of them acts on both faces at once.
struct Seen {
  double area = 0.0;
  bool both = false;
};
Seen seen(const LoadCase& c, Side face, std::optional<std::size_t> block = std::nullopt) {
  Seen r;
  for (const Push& p : c.push) {
    if (p.acts == Acts::along || face_of(p) != face || (block && p.block != *block)) continue;
    r.area += area_of(plain(p.part));
    r.both = r.both || p.acts == Acts::on_both_faces;
  }
  return r;
}

}  // namespace

// ---- load cases

TEST_CASE("blocks' wind: every case of every block is laid into one of the house, and loads are combined alike") {
  each_house([](const Winged& b) {
    std::set<std::string> ids;
    std::vector<std::set<std::size_t>> used(b.each.size());
    for (std::size_t i = 0; i < b.joined.of.size(); ++i) {
      const LoadCase& c = b.loads().cases[i];
      CHECK(ids.insert(c.id).second);
      REQUIRE(b.joined.of[i].size() == b.each.size());
      Marks marks = 0;
      for (std::size_t k = 0; k < b.each.size(); ++k) {
        const LoadCase& own = b.each[k].cases.at(b.joined.of[i][k]);
        used[k].insert(b.joined.of[i][k]);
        CHECK(own.combination.name == c.combination.name);
        CHECK(own.combination.wind == c.combination.wind);
        CHECK(own.combination.dead == c.combination.dead);
        CHECK(own.down.name == c.down.name);
        marks |= own.marks;
      }
      CHECK(c.marks == marks);
    }
    CHECK(b.joined.of.size() == b.loads().cases.size());
    for (std::size_t k = 0; k < b.each.size(); ++k) CHECK(used[k].size() == b.each[k].cases.size());
  });
}

TEST_CASE(
    "blocks' wind: beside a block's case stands the other block's of one face, pressure inside, corner and kind") {
  std::size_t alike = 0, of_a_corner = 0;
  each_house([&](const Winged& b) {
    for (const auto& of : b.joined.of)
      for (std::size_t k = 1; k < of.size(); ++k) {
        const LoadCase &main = b.each[0].cases[of[0]], &wing = b.each[k].cases[of[k]];
        // One of the two asked for the other: where both have their like, it stands there. Where one has none, the
        // other still has the face, and the walls alone where they are.
        const auto like = [](const std::vector<LoadCase>& all, const LoadCase& to, auto same) {
          return std::any_of(all.begin(), all.end(), [&](const LoadCase& c) {
            return same(c, to) && c.inside == to.inside && c.combination.name == to.combination.name;
          });
        };
        const auto same_wind = [](const LoadCase& a, const LoadCase& c) { return a.wind == c.wind; };
        const auto same_corner = [](const LoadCase& a, const LoadCase& c) {
          return corner_of(a) == corner_of(c) && walls_alone(a) == walls_alone(c);
        };
        INFO(main.id << " with " << wing.id);
        if (like(b.each[k].cases, main, same_wind) && like(b.each[0].cases, wing, same_wind)) {
          ++alike;
          CHECK(main.wind == wing.wind);
          CHECK(main.inside == wing.inside);
        } else if (main.wind.find(" corner") != std::string::npos && like(b.each[k].cases, main, same_corner) &&
                   like(b.each[0].cases, wing, same_corner)) {
          ++of_a_corner;
          CHECK(same_corner(main, wing));
          CHECK(main.inside == wing.inside);
        }
      }
  });
  CHECK(alike > 500);
  CHECK(of_a_corner > 50);
}

// ---- the roof

TEST_CASE("blocks' wind: zones tile each surface of the joined roof once, each with its own block's pressure") {
  std::size_t compared = 0;
  each_house([&](const Winged& b) {
    for (std::size_t i = 0; i < b.joined.of.size(); ++i) {
      const LoadCase& c = b.loads().cases[i];
      const Layout& layout = b.loads().layouts[c.layout];
      REQUIRE(c.net.size() == layout.zones.size());
      std::vector<double> covered(b.roof.shape.surfaces.size(), 0.0);
      for (std::size_t z = 0; z < layout.zones.size(); ++z) {
        const Zone& zone = layout.zones[z];
        const Surface& s = b.roof.shape.surfaces[zone.surface];
        const double a = area_of(plain(zone.part));
        covered[zone.surface] += a;
        CHECK(zone.block == s.block);
        if (i % 7 != 0 || a < 1e-6) continue;
        // In the middle of the zone, the block alone has this pressure on that surface
        const Length x = moment_x(zone.part) / area(zone.part) - b.winds[s.block].left,
                     y = moment_y(zone.part) / area(zone.part) - b.winds[s.block].front;
        const LoadCase& own = b.each[s.block].cases[b.joined.of[i][s.block]];
        const Layout& own_layout = b.each[s.block].layouts[own.layout];
        int found = 0;
        for (std::size_t k = 0; k < own_layout.zones.size(); ++k) {
          if (own_layout.zones[k].surface != b.roof.from[zone.surface] ||
              !belay::test::holds(own_layout.zones[k].part, {x, y}))
            continue;
          ++found;
          CHECK(own.net[k] == c.net[z]);
          if (!c.net_small.empty()) CHECK((own.net_small.empty() ? own.net[k] : own.net_small[k]) == c.net_small[z]);
          CHECK(own_layout.zones[k].label == zone.label);
        }
        CHECK(found == 1);
        ++compared;
      }
      for (std::size_t s = 0; s < covered.size(); ++s)
        CHECK_THAT(covered[s], WithinRel(area_of(plain(b.roof.shape.surfaces[s].outline)), 1e-9));
    }
  });
  CHECK(compared > 1000);
}

// ---- what is pushed

TEST_CASE("blocks' wind: square on to every outside wall stands what its own block has there") {
  std::size_t places = 0;
  each_house([&](const Winged& b) {
    for (std::size_t i = 0; i < b.joined.of.size(); i += 5)
      for (const Wall& w : b.house.walls)
        for (const std::size_t block : w.blocks) {
          if (!w.outside) continue;
          const bool across = w.runs == Along::across;
          const Length corner = across ? left_of(b.house, block) : front_of(b.house, block);
          const Length size = block == 0 ? (across ? b.house.across : b.house.up)
                                         : (across ? b.house.wings[block - 1].across : b.house.wings[block - 1].up);
          const Length from = std::max(w.from, corner), to = std::min(w.to, corner + size);
          const auto there = [&](const std::vector<SquareOn>& all, std::size_t of, Length at) {
            std::multiset<std::string> r;
            for (const SquareOn& s : all)
              if (s.block == of && s.side == w.side && s.from < at && at < s.to)
                r.insert(fmt::format("{} {}", s.label, s.p.value()));
            return r;
          };
          for (const double part : {0.013, 0.31, 0.59, 0.87}) {
            const Length at = from + part * (to - from);
            const auto joined = there(b.loads().cases[i].square_on, block, at);
            const Length own = at - (across ? b.winds[block].left : b.winds[block].front);
            CHECK(joined == there(b.each[block].cases[b.joined.of[i][block]].square_on, 0, own));
            CHECK(joined.empty() == b.each[block].cases[b.joined.of[i][block]].square_on.empty());
            places += joined.empty() ? 0 : 1;
          }
        }
  });
  CHECK(places > 1000);
}

TEST_CASE("blocks' wind: what is pushed of a face is the outline of all blocks, each part once") {
  std::size_t before = 0, beside = 0, behind = 0, lee = 0;
  each_house([&](const Winged& b) {
    if (b.house.wings.size() != 1) return;
    const Side joint = b.house.wings[0].joint;
    for (std::size_t i = 0; i < b.joined.of.size(); ++i)
      for (const Side face : {Side::left, Side::front, Side::right, Side::back}) {
        const std::vector<At> main = outline(b, 0, face), wing = outline(b, 1, face);
        const Seen own_main = seen(b.each[0].cases[b.joined.of[i][0]], face),
                   own_wing = seen(b.each[1].cases[b.joined.of[i][1]], face);
        // Those methods and cases that push all of a block's outline
        if (std::abs(own_main.area - area_of(main)) > 1e-6 || std::abs(own_wing.area - area_of(wing)) > 1e-6) continue;
        const Seen all = seen(b.loads().cases[i], face);
        INFO(b.loads().cases[i].id << ", " << words(face) << ", the wing's joint is its " << words(joint));
        if (face == joint) {
          CHECK_THAT(all.area, WithinRel(area_of(main) + (own_wing.both ? area_of(wing) : 0.0), 1e-9));
          ++(own_wing.both ? lee : behind);
        } else {
          CHECK_THAT(all.area, WithinRel(area_of(main) + area_of(wing) - common_area(main, wing), 1e-9));
          ++(face == other_end(joint) ? before : beside);
        }
      }
  });
  CHECK(before > 10);
  CHECK(beside > 10);
  CHECK(behind > 10);
  CHECK(lee > 10);
}
