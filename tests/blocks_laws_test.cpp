// Laws of houses of several blocks, drawn at random from a fixed seed: what lifts the roof and what pushes the walls
// comes down whole, under every method; a house drawn otherwise gives the same answers; a wing that does nothing new
// changes nothing. Invented houses.
#include "grid_blocks.hpp"
#include "sanitized.hpp"
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <memory>
#include <set>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr unsigned houses = sanitized ? 2 : 5;
constexpr unsigned of_two_floors = sanitized ? 1 : 2;  // as many more have a first floor over the main block
// Of a number, and at least so many newtons. Where a wing's roof cuts a corner of an overhang a turned house may have
// it in other parts, and a verge's lever goes by the middle of each.
constexpr double nearly = 1e-5;

House under(House h, const SiteAsk& site) {
  h.site = site;
  return h;
}
const Roof& roof_of_block(const House& h, std::size_t block) { return block == 0 ? h.roof : h.wings[block - 1].roof; }
GridBlocks drawn_blocks(unsigned seed) {
  return seed < houses ? random_blocks(seed) : two_floored(random_blocks(seed), seed);
}
// By the pressure of large areas alone: what it comes to then does not hang on how the roof is framed.
void without_effect_of_area(Loads& l) {
  for (LoadCase& k : l.cases) k.net_small.clear();
}
// Every house under every method, built once for all tests.
struct Case {
  std::string words;
  WingedForces b;
};
const std::vector<std::unique_ptr<Case>>& every_house() {
  static const std::vector<std::unique_ptr<Case>> all = [] {
    std::vector<std::unique_ptr<Case>> list;
    for (unsigned seed = 0; seed < houses + of_two_floors; ++seed) {
      const House drawn = house_of(drawn_blocks(seed));
      for (const SiteAsk& site : one_site_each())
        list.push_back(std::unique_ptr<Case>(
            new Case{fmt::format("seed {}, {}", seed, table_for(site)), {under(drawn, site), without_effect_of_area}}));
    }
    return list;
  }();
  return all;
}
template <class Look> void each_house(Look look) {
  for (const auto& c : every_house()) {
    INFO(c->words);
    look(c->b);
  }
}
// What lies under that zone's wind, upwards, and the weight on that surface.
Force lift(const LoadCase& k, const Layout& layout, const Shape& s, std::size_t zone) {
  const bool under_it = s.surfaces[layout.zones[zone].surface].part == Part::soffit;
  return k.combination.wind * k.net[zone] * area(layout.zones[zone].part) * (under_it ? 1.0 : -1.0);
}
Force weight(const LoadCase& k, const House& h, const Surface& s) {
  if (s.part == Part::soffit) return zero<Force>();
  return k.combination.dead * roof_of_block(h, s.block).weight.least * area(s.outline);
}

}  // namespace

// ---- down

TEST_CASE("blocks: each block's bearings balance the wind and weight on the roof that it holds, under every method") {
  std::size_t compared = 0, on_main = 0;
  each_house([&](const WingedForces& b) {
    const RoofForces& roof = b.forces.roof;
    for (std::size_t c = 0; c < b.used.cases.size(); ++c) {
      const LoadCase& k = b.used.cases[c];
      const Layout& layout = b.used.layouts[k.layout];
      std::vector<Force> expected(b.winds.size(), zero<Force>()), sum = expected, size = expected;
      for (std::size_t z = 0; z < layout.zones.size(); ++z) {
        const Surface& s = b.roof.shape.surfaces[layout.zones[z].surface];
        const Force f = lift(k, layout, b.roof.shape, z);
        expected[s.held_by] += f;
        size[s.held_by] += f < zero<Force>() ? -f : f;
        on_main += s.block > s.held_by ? 1 : 0;
      }
      for (const Surface& s : b.roof.shape.surfaces) {
        expected[s.held_by] -= weight(k, b.house, s);
        size[s.held_by] += weight(k, b.house, s);
      }
      bool used_is_less = false;
      for (std::size_t i = 0; i < roof.bearings().size(); ++i) {
        if (roof.bearings()[i].onto) continue;
        const std::size_t block = roof.member_of(i).block;
        sum[block] += roof.exact_uplift(c, i);
        used_is_less = used_is_less || roof.uplift(c, i) < roof.exact_uplift(c, i) - 1e-12 * size[block];
      }
      for (std::size_t block = 0; block < sum.size(); ++block) {
        INFO(k.id << ", block " << block);
        CHECK_THAT(sum[block] / size[block], WithinAbs(expected[block] / size[block], 1e-9));
        ++compared;
      }
      CHECK(!used_is_less);  // relief set to zero can only add
    }
  });
  CHECK(compared > 100);
  CHECK(on_main > 100);
}

TEST_CASE("blocks: members' windows hold every part of the roof exactly once") {
  std::mt19937 r(3);
  std::uniform_real_distribution<double> part(0.0, 1.0);
  int points = 0;
  for (unsigned seed = 0; seed < 2 * houses; ++seed) {
    const Winged b(house_of(drawn_blocks(seed)));
    const Members all = members_of(b.house, b.roof.shape);
    for (std::size_t i = 0; i < b.roof.shape.surfaces.size(); ++i) {
      const Surface& s = b.roof.shape.surfaces[i];
      Area held = zero<Area>();
      for (const Member& m : all.members)
        for (const Window& w : m.carries)
          if (belay::holds(w, s)) {
            held += area(within(w, s.outline));
            CHECK(m.block == s.held_by);
          }
      INFO("seed " << seed << ", surface " << i << " of block " << s.block << ", held by " << s.held_by);
      CHECK_THAT(held / area(s.outline), WithinAbs(1.0, 1e-9));
      // and no part twice for one that nobody holds
      for (int n = 0; n < 4; ++n) {
        const Point &a = s.outline[0], &q = s.outline[1 + r() % (s.outline.size() - 2)];
        const Point& o = *(&q + 1);
        const double u = part(r), v = (1.0 - u) * part(r);
        const Point p{a.x + u * (q.x - a.x) + v * (o.x - a.x), a.y + u * (q.y - a.y) + v * (o.y - a.y)};
        int holders = 0;
        for (const Member& m : all.members)
          for (const Window& w : m.carries)
            holders += belay::holds(w, s) && p.x > w.x0 && p.x < w.x1 && p.y > w.y0 && p.y < w.y1 ? 1 : 0;
        CHECK(holders == 1);
        ++points;
      }
    }
  }
  CHECK(points > 500);
}

TEST_CASE("blocks: valley trusses' crossings add up to what lies over the main block's members") {
  int wings = 0, lifted = 0;
  each_house([&](const WingedForces& b) {
    for (std::size_t w = 0; w < b.house.wings.size(); ++w) {
      if (!b.house.wings[w].valley || valley_places(b.house, w).empty()) continue;
      ++wings;
      for (std::size_t c = 0; c < b.used.cases.size(); ++c) {
        const LoadCase& k = b.used.cases[c];
        const Layout& layout = b.used.layouts[k.layout];
        Force expected = zero<Force>(), size = kilonewtons(1e-3), sum = zero<Force>(), parts = zero<Force>();
        const auto is_on_main = [&](const Surface& s) {
          return s.block == w + 1 && s.held_by == 0 && s.part != Part::soffit;
        };
        for (std::size_t z = 0; z < layout.zones.size(); ++z) {
          if (!is_on_main(b.roof.shape.surfaces[layout.zones[z].surface])) continue;
          const Force f = lift(k, layout, b.roof.shape, z);
          expected += f;
          size += f < zero<Force>() ? -f : f;
        }
        for (const Surface& s : b.roof.shape.surfaces)
          if (is_on_main(s)) expected -= weight(k, b.house, s);
        for (std::size_t i = 0; i < b.forces.valleys.crossings.size(); ++i) {
          if (b.forces.valleys.crossings[i].wing != w) continue;
          sum += b.forces.valleys.uplift(c, i);
          for (const Piece_of_demand& p : b.forces.valleys.made_of(c, i)) parts += p.value;
        }
        INFO(k.id << ", wing " << w);
        // a corner under a square millimetre may be left out of each crossing
        CHECK_THAT(sum / size, WithinAbs(expected / size, 1e-4));
        CHECK_THAT(parts / size, WithinAbs(sum / size, 1e-9));
        lifted += sum > zero<Force>() ? 1 : 0;
      }
    }
  });
  CHECK(wings >= 10);
  CHECK(lifted > 10);
}

// ---- sideways

namespace {
struct Pushed {
  double force = 0.0, moment = 0.0, size = 1e-6;
};
// What pushes a ceiling, from mid-height of its block's walls up: all of them, or one block's. first: what of it the
// first floor's walls take.
Pushed pushed(const House& h, const LoadCase& k, Along way, std::optional<std::size_t> ceiling = std::nullopt,
              bool first = false) {
  Pushed r;
  for (const Push& p : k.push) {
    if (is_across(p.towards) != (way == Along::across) || (ceiling && p.ceiling != *ceiling)) continue;
    const Length height = p.ceiling == 0 ? h.height : h.wings[p.ceiling - 1].height;
    const Length low = first ? h.height + h.first->depth + h.first->height / 2.0 : height / 2.0;
    const Polygon g = between_y(p.part, low, everywhere);
    if (g.empty()) continue;
    const double f = k.combination.wind * in_kN(p.p * area(g)), arm = moment_x(g) / area(g) / metres(1.0);
    const double sign = p.towards == Way::right || p.towards == Way::back ? 1.0 : -1.0;
    r.force += sign * f;
    r.moment += sign * f * arm;
    r.size += std::abs(f);
  }
  return r;
}
// Of all lines that run this way: the exact forces, and their moment about the sheet's left or front.
Pushed held(const WingedForces& b, std::size_t c, Along way, Floor floor = Floor::ground) {
  Pushed r;
  for (std::size_t l = 0; l < b.forces.lines.size(); ++l) {
    if (b.forces.lines[l].runs != way || b.forces.lines[l].floor != floor) continue;
    const double v = in_kN(b.forces.exact_line_force(c, l));
    r.force += v;
    r.moment += v * (b.forces.lines[l].at / metres(1.0));
  }
  return r;
}
}  // namespace

TEST_CASE("blocks: bracing lines balance the push on all ceilings, and its moment, under every method") {
  each_house([&](const WingedForces& b) {
    for (std::size_t c = 0; c < b.used.cases.size(); ++c)
      for (const Along way : {Along::across, Along::up}) {
        const Pushed push = pushed(b.house, b.used.cases[c], way);
        INFO(b.used.cases[c].id);
        const auto balance = [](const Pushed& a, const Pushed& lines) {
          CHECK_THAT(lines.force / a.size, WithinAbs(a.force / a.size, 1e-9));
          CHECK_THAT(lines.moment / a.size, WithinAbs(a.moment / a.size, 1e-7));
        };
        balance(push, held(b, c, way));
        if (b.house.first) balance(pushed(b.house, b.used.cases[c], way, 0, true), held(b, c, way, Floor::first));
        for (std::size_t l = 0; l < b.forces.lines.size(); ++l)
          CHECK(std::abs(in_kN(b.forces.line_force(c, l))) >=
                std::abs(in_kN(b.forces.exact_line_force(c, l))) - 1e-9 * push.size);
      }
  });
}

TEST_CASE("blocks: what pushes one block's ceiling is held by the lines in that block alone") {
  for (unsigned seed = 0; seed < houses + of_two_floors; ++seed) {
    const House drawn = house_of(drawn_blocks(seed));
    for (std::size_t block = 0; block <= drawn.wings.size(); ++block) {
      const WingedForces b(drawn, [&](Loads& l) {
        for (LoadCase& k : l.cases) std::erase_if(k.push, [&](const Push& p) { return p.ceiling != block; });
      });
      for (std::size_t c = 0; c < b.used.cases.size(); ++c)
        for (const Along way : {Along::across, Along::up}) {
          const Pushed push = pushed(b.house, b.loads().cases[c], way, block), lines = held(b, c, way);
          INFO("seed " << seed << ", " << b.used.cases[c].id << ", block " << block);
          CHECK_THAT(lines.force / push.size, WithinAbs(push.force / push.size, 1e-9));
          CHECK_THAT(lines.moment / push.size, WithinAbs(push.moment / push.size, 1e-7));
          for (std::size_t l = 0; l < b.forces.lines.size(); ++l) {
            const auto& in = b.forces.lines[l].blocks;
            if (std::find(in.begin(), in.end(), block) == in.end())
              CHECK(b.forces.exact_line_force(c, l) == zero<Force>());
          }
        }
    }
  }
}

TEST_CASE("blocks: every line's walls stand on one place, in blocks that they share, and every part of a wall once") {
  for (unsigned seed = 0; seed < 2 * houses; ++seed) {
    const WingedForces b(house_of(drawn_blocks(seed)));
    std::map<std::size_t, std::vector<std::pair<double, double>>> seen;  // by wall, in millimetres from its start
    for (const Line& l : b.forces.lines)
      for (const LineWall& part : l.parts) {
        const Wall& wall = b.house.walls[part.wall];
        seen[part.wall].emplace_back(part.from / mm(1.0), part.to / mm(1.0));
        CHECK(wall.runs == l.runs);
        CHECK(std::abs((wall.line - l.at) / mm(1.0)) < 1e-6);
        for (const std::size_t block : wall.blocks) {
          if (!wall.steps.empty()) continue;  // its plate is parted there: each part is a line of its own block
          CHECK(std::find(l.blocks.begin(), l.blocks.end(), block) != l.blocks.end());
        }
      }
    for (auto& [w, parts] : seen) {
      std::sort(parts.begin(), parts.end());
      CHECK(std::abs(parts.front().first) < 1e-6);
      CHECK(std::abs(parts.back().second - b.house.walls[w].length() / mm(1.0)) < 1e-6);
      CHECK(parts.size() == b.house.walls[w].steps.size() + 1);
      for (std::size_t i = 1; i < parts.size(); ++i) CHECK(std::abs(parts[i].first - parts[i - 1].second) < 1e-6);
    }
    for (std::size_t w = 0; w < b.house.walls.size(); ++w) {
      const Wall& wall = b.house.walls[w];
      if (wall.outside) CHECK(seen.contains(w));
      // In a block on its sides, or inside it: by places alone
      for (std::size_t block = 0; block <= b.house.wings.size(); ++block) {
        const bool across = wall.runs == Along::across;
        const Length x0 = left_of(b.house, block), y0 = front_of(b.house, block);
        const Length x1 = x0 + (block == 0 ? b.house.across : b.house.wings[block - 1].across),
                     y1 = y0 + (block == 0 ? b.house.up : b.house.wings[block - 1].up);
        const Length low = across ? y0 : x0, high = across ? y1 : x1, from = across ? x0 : y0, to = across ? x1 : y1;
        const bool in = wall.line > low - mm(0.5) && wall.line < high + mm(0.5) &&
                        std::min(wall.to, to) - std::max(wall.from, from) > mm(0.5);
        INFO("seed " << seed << ", wall " << wall.name << ", block " << block);
        CHECK(stands_in(wall, block) == (in && (block == 0 || wall.floor == Floor::ground)));
      }
    }
  }
}

// ---- the same house drawn otherwise

namespace {
// Verdicts too.
struct Answered {
  House house;
  Result result;
  explicit Answered(const GridBlocks& g) : Answered(house_of(g)) {}
  explicit Answered(House h)
      : house(std::move(h)), result(check(house, table(table_for(house.site)), table("practice/common.toml"))) {}
  const Wall& wall(const std::string& name) const {
    return *std::find_if(house.walls.begin(), house.walls.end(), [&](const Wall& w) { return w.name == name; });
  }
  // Tenths of a millimetre from the wall's start, or from its end.
  long place(const Link& l, bool from_end) const {
    if (!l.where.from_start) return -1;
    Length at = *l.where.from_start;
    if (from_end) {
      at = wall(l.where.wall).length() - at;
      // a brace is placed by its start: seen in the mirror, by its end
      if (l.kind == "brace")
        for (const Piece& p : wall(l.where.wall).pieces)
          if (p.from == *l.where.from_start) at -= p.to - p.from;
    }
    return std::lround(at / mm(0.1) + 0.01);
  }
  // By kind, wall and place; what stands on no wall by its kind and block alone.
  std::multimap<std::string, Asked> asked(const std::function<std::string(const Link&)>& key) const {
    std::multimap<std::string, Asked> all;
    for (const Link& l : result.links) {
      std::vector<double> n{static_cast<double>(l.verdict), l.use ? l.use->value : -1.0};
      for (const LinkPart& p : l.parts) n.push_back(p.demand.si);
      all.emplace(key(l), Asked{std::move(n), l.where.words + ": " + numbers_of(l) + l.load_case.id});
    }
    return all;
  }
};
bool on_no_wall(const Link& l) { return l.kind == "line spacing" || l.kind == "line" || l.where.wall.empty(); }
std::string by_place(const Answered& a, const Link& l, bool mirror) {
  if (on_no_wall(l)) return l.kind + (l.kind == "valley" ? " of " + l.where.block : "");
  return fmt::format("{} {} {}", l.kind, l.where.wall,
                     a.place(l, mirror && a.wall(l.where.wall).runs == Along::across));
}
// Under AS 4055, ASCE 7 by envelope and EN 1991-1-4 no direction is another's better.
std::vector<std::string> without_direction() {
  return {"class = \"N3\"\ngiven_by = \"a test\"",
          "method = \"ASCE 7-16\"\nspeed = \"120 mph\"\nspeed_is = \"ultimate\"\nexposure = \"C\"\nrisk = "
          "\"II\"\nlevel = \"allowable\"\ntopography = \"flat\"\ndebris_region = false\ngiven_by = \"a test\"",
          "method = \"EN 1991-1-4\"\nspeed = \"26 m/s\"\nterrain = \"II\"\ntopography = \"flat\"\ngiven_by = \"a "
          "test\""};
}
GridBlocks blocks_under(unsigned seed, std::size_t site) {
  GridBlocks g = seed % 100 < houses ? random_blocks(seed) : two_floored(random_blocks(seed), seed);
  g.grid.site = without_direction()[site];
  g.grid.asce = site == 1;
  return g;
}
}  // namespace

TEST_CASE("blocks: a mirrored house gives mirrored answers, link by link") {
  for (unsigned seed = 100; seed < 100 + houses + of_two_floors; ++seed) {
    const GridBlocks g = blocks_under(seed, seed % 3);
    const Answered b(g), m(mirrored(g));
    INFO("seed " << seed);
    same_answers(b.asked([&](const Link& l) { return by_place(b, l, false); }),
                 m.asked([&](const Link& l) { return by_place(m, l, true); }), nearly);
  }
}

TEST_CASE("blocks: a house over its diagonal and one turned by a quarter give the same answers, link by link") {
  for (unsigned seed = 200; seed < 200 + houses + of_two_floors; ++seed) {
    const GridBlocks g = blocks_under(seed, seed % 3);
    const Answered b(g), t(transposed(g)), q(mirrored(transposed(g)));
    INFO("seed " << seed);
    const auto own = b.asked([&](const Link& l) { return by_place(b, l, false); });
    same_answers(own, t.asked([&](const Link& l) { return by_place(t, l, false); }), nearly);
    same_answers(own, q.asked([&](const Link& l) { return by_place(q, l, true); }), nearly);
  }
}

TEST_CASE("blocks: neither the blocks' names nor their order change an answer") {
  int two = 0;
  for (unsigned seed = 300; seed < 300 + 2 * houses; ++seed) {
    const GridBlocks g = blocks_under(seed, seed % 3);
    if (g.blocks.size() < 3) continue;
    GridBlocks other = g;
    other.blocks[1].name = "zebra";
    other.blocks[2].name = "annex";
    std::swap(other.blocks[1], other.blocks[2]);
    for (GridBlockWall& w : other.walls) {
      for (auto& [block, side] : w.of) block = block == 0 ? 0 : 3 - block;
      w.in = w.in == 0 ? 0 : 3 - w.in;
    }
    const Answered b(g), o(other);
    REQUIRE(b.house.wings[0].name == "garage");
    REQUIRE(o.house.wings[0].name == "annex");
    INFO("seed " << seed);
    const auto key = [](const Answered& a) {
      return a.asked([&](const Link& l) { return l.kind == "valley" ? l.kind : by_place(a, l, false); });
    };
    same_answers(key(b), key(o), nearly);
    ++two;
  }
  CHECK(two >= 2);
}

// ---- a wing that does nothing new

namespace {
// One gable roof 6 m deep, `length` long, trusses every 600 mm; parted at 8 m into a main block and a wing at its end,
// or not. Walls are one brace each.
std::string in_line(int length, bool parted, int verge) {
  const auto braced = [](int l) { return fmt::format("\"B {} mm\"", l); };
  const auto block = [&](int l, const std::string& keys, const std::string& mark) {
    return fmt::format(
        "size = [\"{} mm\", 6000]\n{}height = \"2.7 m\"\nroof = {{ shape = \"gable\", ridge = \"across\", pitch = "
        "\"25 deg\", eaves = \"0.5 m\", verge = {}, weight = \"0.40 kPa\" }}\ntrusses = {{ mark = \"{}\", max = "
        "\"0.6 m\", odd_space = \"{}\" }}\n\n",
        l, keys, verge, mark, parted && mark == "T2" ? "left" : "right");
  };
  std::string text =
      "[job]\ntitle = \"Test house\"\ndrawing = \"mm\"\nimportance = 2\ndrawn = \"none\"\nfixings = "
      "\"demo-test.toml\"\n\n[site]\nclass = \"N3\"\ngiven_by = \"a test\"\n\n[block.main]\nfloor_level = 300\n";
  if (parted)
    text +=
        block(7800, "walls = { front = \"A\", back = \"C\", left = \"D\" }\n", "T1") + "[block.wing]\n" +
        block(length - 7800,
              "place = { against = \"main right\", from_front = 0 }\nwalls = { front = \"A\", right = \"B\", back = "
              "\"C\" }\n",
              "T2");
  else text += block(length, "walls = { front = \"A\", right = \"B\", back = \"C\", left = \"D\" }\n", "T1");
  const Draft d;
  text += "[slab]\nconcrete = \"25 MPa\"\n\n[unless_noted]\n";
  for (const auto& [k, v] : d.unless_noted) text += fmt::format("{} = {}\n", k, v);
  text += fmt::format(
      "\n[mark]\nB = {{ brace = \"demo-sheet\", hold_down = \"demo-rod\" }}\n\n[wall]\nA = {0}\nB = {1}\nC = "
      "{0}\nD = {1}\n",
      braced(length), braced(6000));
  if (parted) text += "E = { in = \"main\", from_left = 7800, between = [0, 6000], run = \"B 6000\" }\n";
  return text;
}
}  // namespace

TEST_CASE("blocks: a wing in line under the main block's gable leaves every truss away from the seam as in one block") {
  const WingedForces two(read_blocks(in_line(13800, true, 300), plenty()));
  const House one = read_blocks(in_line(13800, false, 300), plenty());
  const Built whole(one);
  int compared = 0;
  for (std::size_t c = 0; c < whole.loads.cases.size(); ++c) {
    const std::size_t d = two.case_at(whole.loads.cases[c].id);
    for (const char* side : {"front", "back"}) {
      double seam = 0.0;
      for (int at = 0; at <= 13800; at += 600) {
        const double alone = in_kN(whole.forces.uplift(c, whole.bearing_at(fmt::format("T1 at {} {}", at, side))));
        INFO(whole.loads.cases[c].id << ", truss at " << at << " " << side);
        if (at == 7800) {  // the main block's last truss and the wing's stand here and have half of its strip each
          for (const std::string& t : {fmt::format("T1 at 7800 {}", side), fmt::format("T2 at 0 {}", side)})
            seam += in_kN(two.forces.uplift(d, two.bearing_at(t)));
          CHECK_THAT(seam, WithinAbs(alone, 1e-9));
          continue;
        }
        const std::string words =
            at < 7800 ? fmt::format("T1 at {} {}", at, side) : fmt::format("T2 at {} {}", at - 7800, side);
        CHECK_THAT(in_kN(two.forces.uplift(d, two.bearing_at(words))), WithinAbs(alone, 1e-9));
        ++compared;
      }
    }
  }
  CHECK(compared > 40);
}

TEST_CASE("blocks: a wing that shrinks to nothing leaves the main block's answers") {
  const Built alone(read_blocks(in_line(7800, false, 0), plenty()));
  int lee = 0;
  for (const int depth : {200, 20}) {
    const WingedForces b(read_blocks(in_line(7800 + depth, true, 0), plenty()));
    for (std::size_t c = 0; c < alone.loads.cases.size(); ++c) {
      const std::size_t d = b.case_at(alone.loads.cases[c].id);
      INFO(depth << " mm, " << alone.loads.cases[c].id);
      for (const char* side : {"front", "back"})
        for (int at = 0; at < 7200; at += 600) {
          const std::string words = fmt::format("T1 at {} {}", at, side);
          CHECK_THAT(in_kN(b.forces.uplift(d, b.bearing_at(words))),
                     WithinAbs(in_kN(alone.forces.uplift(c, alone.bearing_at(words))), 1e-9));
        }
      // 6 kN on a metre of wall and roof is more than any of them is pushed by. From the left the wing stands in the
      // lee of the main block: a push on both faces at once is taken whole by each.
      const double times = alone.loads.cases[c].id.starts_with("left") ? 2.0 : 1.0;
      lee += times > 1.0 ? 1 : 0;
      for (const char* line : {"A", "C", "D"})
        CHECK_THAT(in_kN(b.forces.line_force(d, b.line_at(line))),
                   WithinAbs(times * in_kN(alone.forces.line_force(c, alone.line_at(line))), 0.006 * depth));
      const double right = in_kN(alone.forces.line_force(c, alone.line_at("B"))),
                   parted =
                       in_kN(b.forces.line_force(d, b.line_at("E"))) + in_kN(b.forces.line_force(d, b.line_at("B")));
      CHECK_THAT(parted, WithinAbs(right, 0.006 * depth));
    }
  }
  CHECK(lee > 0);
}
