// Houses of several blocks drawn at random on the grid of 127 mm, and a house of several blocks with all that the rooms
// make of it.
#pragma once
#include "grid_house.hpp"
#include "shape/joined.hpp"
#include "wind/joined.hpp"
#include "wind_house.hpp"
#include <algorithm>
#include <random>
#include <string>
#include <vector>

namespace belay::test {

// Places are those of the house: the main block's left front corner stands at 0, 0.
struct GridBlock {
  std::string name;
  Side against;  // of a wing: the side of the main block that it stands at
  int x0, x1, y0, y1, height, level;
  bool ridge_up, hip;
  double pitch, weight;
  int eaves, verge, girder, valley;
  std::vector<int> trusses;  // along the ridge, but for the girders
};
// of: the sides that an outside wall is. An inside wall has none; in: the block whose it is.
struct GridBlockWall {
  std::string name;
  bool up;
  int line, from, to;
  std::vector<GridPiece> run;
  std::vector<std::pair<std::size_t, Side>> of;
  std::size_t in = 0;
};
struct GridBlocks {
  Grid grid;                      // what all blocks share: site, spacing of anchors; of a first floor its measures
  std::vector<GridBlock> blocks;  // the main block first
  std::vector<GridBlockWall> walls;
  std::vector<GridBlockWall> first = {};  // those of a first floor over the main block
};

inline bool looks_across(Side s) { return s == Side::left || s == Side::right; }
inline Side other_end(Side s) { return side_facing(opposite(outward(s))); }

// ---- drawn at random

// What two wings leave over of a side, from one end to the other.
inline std::vector<std::pair<int, int>> stretches_of(const GridBlocks& g, Side side) {
  const GridBlock& main = g.blocks.front();
  std::vector<std::pair<int, int>> taken, left;
  for (std::size_t b = 1; b < g.blocks.size(); ++b) {
    const GridBlock& w = g.blocks[b];
    if (w.against == side) taken.emplace_back(looks_across(side) ? w.y0 : w.x0, looks_across(side) ? w.y1 : w.x1);
  }
  std::sort(taken.begin(), taken.end());
  int at = 0;
  for (const auto& [from, to] : taken) {
    if (from > at) left.emplace_back(at, from);
    at = to;
  }
  const int end = looks_across(side) ? main.y1 : main.x1;
  if (end > at) left.emplace_back(at, end);
  return left;
}
inline int line_of(const GridBlock& b, Side side) {
  return side == Side::left ? b.x0 : side == Side::right ? b.x1 : side == Side::front ? b.y0 : b.y1;
}
// A wall straight on from another of the same side and height is one with it. straight: whether such are made one.
inline void wall_up(GridBlocks& g, std::mt19937& r, bool straight) {
  std::vector<GridBlockWall> all;
  const auto outside = [&](std::size_t b, Side side, int from, int to) {
    const int line = line_of(g.blocks[b], side);
    for (GridBlockWall& w : all) {
      if (!straight || w.of.empty() || w.of.front().second != side || w.line != line ||
          g.blocks[w.of.front().first].height != g.blocks[b].height || (w.from != to && w.to != from))
        continue;
      w.from = std::min(w.from, from);
      w.to = std::max(w.to, to);
      w.of.emplace_back(b, side);
      return;
    }
    all.push_back({"", looks_across(side), line, from, to, {}, {{b, side}}});
  };
  for (const Side side : {Side::front, Side::right, Side::back, Side::left})
    for (const auto& [from, to] : stretches_of(g, side)) outside(0, side, from, to);
  for (std::size_t b = 1; b < g.blocks.size(); ++b) {
    const GridBlock& w = g.blocks[b];
    for (const Side side : {Side::front, Side::right, Side::back, Side::left})
      if (side != other_end(w.against))
        outside(b, side, looks_across(side) ? w.y0 : w.x0, looks_across(side) ? w.y1 : w.x1);
    const bool up = looks_across(w.against);
    all.push_back(
        {"", up, line_of(g.blocks.front(), w.against), up ? w.y0 : w.x0, up ? w.y1 : w.x1, {}, {}});  // at the joint
  }
  if (r() % 2 == 0) {  // one in the main block, in line with a side of a wing where it can be
    const GridBlock &main = g.blocks.front(), &wing = g.blocks.back();
    const int side = looks_across(wing.against) ? 0 : wing.x0;
    all.push_back({"", true, side > 12 ? side : main.x1 / 2, 0, main.y1, {}, {}});
  }
  if (r() % 2 == 0) {  // one in the last wing, the way of the joint
    const GridBlock& wing = g.blocks.back();
    const bool up = looks_across(wing.against);
    all.push_back({"",
                   up,
                   up ? (wing.x0 + wing.x1) / 2 : (wing.y0 + wing.y1) / 2,
                   up ? wing.y0 : wing.x0,
                   up ? wing.y1 : wing.x1,
                   {},
                   {},
                   g.blocks.size() - 1});
  }
  char name = 'A';
  for (GridBlockWall& w : all) {
    w.name = name++;
    // block by block: nothing stands across a step of the floor
    std::vector<std::pair<int, int>> parts;
    for (const auto& [b, side] : w.of) {
      const GridBlock& block = g.blocks[b];
      const int low = looks_across(side) ? block.y0 : block.x0, high = looks_across(side) ? block.y1 : block.x1;
      parts.emplace_back(std::max(w.from, low), std::min(w.to, high));
    }
    if (parts.empty()) parts.emplace_back(w.from, w.to);
    std::sort(parts.begin(), parts.end());
    for (const auto& [from, to] : parts) {
      if (to - from < 13) w.run.push_back({"B", to - from});
      else
        for (const GridPiece& p : random_run(r, to - from)) w.run.push_back(p);
    }
  }
  g.walls = std::move(all);
}
inline std::vector<int> every(int from, int to, int step) {
  std::vector<int> all;
  for (int x = from; x < to; x += step) all.push_back(x);
  all.push_back(to);
  return all;
}
// One wing or two, on one side or on two, flush with an end or not, set down or not, lower or not.
inline GridBlocks random_blocks(unsigned seed) {
  std::mt19937 r(seed + 40000);
  const auto pick = [&](int n) { return static_cast<int>(r() % static_cast<unsigned>(n)); };
  GridBlocks g;
  g.grid = random_grid(seed);
  g.grid.floor = 3;
  GridBlock main{.name = "main",
                 .against = Side::front,
                 .x0 = 0,
                 .x1 = 80 + pick(40),
                 .y0 = 0,
                 .y1 = 56 + pick(20),
                 .height = 21,
                 .level = 0,
                 .ridge_up = false,
                 .hip = pick(2) == 0,
                 .pitch = 15.0 + pick(20),
                 .weight = 0.25 + 0.05 * pick(10),
                 .eaves = pick(7),
                 .verge = pick(5),
                 .girder = 16 + pick(5),
                 .valley = 0,
                 .trusses = {}};
  main.trusses = main.hip ? every(main.girder + 4, main.x1 - main.girder - 4, 5) : every(0, main.x1, 5 + pick(3));
  g.blocks.push_back(main);
  constexpr std::array all_of{Side::front, Side::back, Side::left, Side::right};
  const auto add = [&](const std::string& name, Side against, int from, int wide, int end) {
    GridBlock w = main;
    const bool sideways = looks_across(against);
    const int out = 24 + pick(30);
    // flush, or with room for a wall beside it
    const int how = pick(3);
    if (how == 0 || from < 6) from = 0;
    if (how == 1 || (from > 0 && end - from - wide < 6)) from = end - wide;
    w.name = name;
    w.against = against;
    w.x0 = against == Side::left ? -out : against == Side::right ? main.x1 : from;
    w.x1 = against == Side::left ? 0 : against == Side::right ? main.x1 + out : from + wide;
    w.y0 = against == Side::front ? -out : against == Side::back ? main.y1 : from;
    w.y1 = against == Side::front ? 0 : against == Side::back ? main.y1 + out : from + wide;
    w.height -= pick(3) == 0 ? 2 : 0;
    w.level = pick(2) == 0 ? 0 : -1 - pick(2);
    w.ridge_up = !sideways;
    w.hip = pick(2) == 0 && 2 * out > wide + 4;  // else it would reach past the joint
    if (pick(2) == 0) w.pitch -= pick(8);
    w.weight = 0.25 + 0.05 * pick(10);
    w.eaves = pick(7);
    w.verge = pick(5);
    w.girder = std::min(out - 6, std::min(14, wide / 2 - 2));
    w.valley = 5 + pick(4);
    const int low = sideways ? w.x0 : w.y0, high = sideways ? w.x1 : w.y1;
    const bool starts_at_joint = against == Side::right || against == Side::back;
    w.trusses = !w.hip            ? every(low, high, 6)
                : starts_at_joint ? every(low, high - w.girder - 3, 6)
                                  : every(low + w.girder + 3, high, 6);
    g.blocks.push_back(w);
  };
  std::vector<Side> sides{all_of[static_cast<std::size_t>(pick(4))]};
  sides.push_back(other_end(sides[0]));  // round a corner two roofs may meet
  const int wings = 1 + pick(2);
  if (wings == 2 && !looks_across(sides[0]) && pick(2) == 0) {  // both on this side, clear of each other
    const int half = main.x1 / 2 - 9;
    add("garage", sides[0], pick(half - 30), 30, half);
    add("study", sides[0], 0, 30, half);
    GridBlock& w = g.blocks.back();
    w.x0 += main.x1 - half;
    w.x1 += main.x1 - half;
  } else {
    for (int i = 0; i < wings; ++i) {
      const int end = looks_across(sides[static_cast<std::size_t>(i)]) ? main.y1 : main.x1, wide = 30 + pick(24);
      add(i == 0 ? "garage" : "study", sides[static_cast<std::size_t>(i)], pick(end - wide), wide, end);
    }
  }
  wall_up(g, r, pick(3) != 0);
  return g;
}

// With a floor above over the main block: a wall at each side, and some right over its inside walls.
inline GridBlocks two_floored(GridBlocks g, unsigned seed) {
  std::mt19937 r(seed + 60000);
  const auto pick = [&](int n) { return static_cast<int>(r() % static_cast<unsigned>(n)); };
  g.grid.first_height = 19 + pick(3);
  g.grid.depth = 2 + pick(3);
  g.grid.through = pick(2) == 0;
  const GridBlock& main = g.blocks.front();
  char name = 'P';
  for (const Side side : {Side::front, Side::right, Side::back, Side::left}) {
    const int to = looks_across(side) ? main.y1 : main.x1;
    g.first.push_back(
        {std::string(1, name++), looks_across(side), line_of(main, side), 0, to, random_run(r, to), {{0, side}}});
  }
  for (const GridBlockWall& w : g.walls) {
    const int side = w.up ? main.x1 : main.y1;
    if (!w.of.empty() || w.in != 0 || w.line <= 0 || w.line >= side || pick(3) == 0) continue;
    g.first.push_back({w.name, w.up, w.line, w.from, w.to, random_run(r, w.to - w.from), {}});
  }
  return g;
}

// ---- the same house drawn otherwise

// In a mirror: left is right.
inline GridBlocks mirrored(GridBlocks g) {
  const int w = g.blocks.front().x1;
  const auto seen = [](Side s) { return looks_across(s) ? other_end(s) : s; };
  for (GridBlock& b : g.blocks) {
    b.x0 = std::exchange(b.x1, w - b.x0);
    b.x0 = w - b.x0;
    b.against = seen(b.against);
    if (b.ridge_up) continue;
    std::reverse(b.trusses.begin(), b.trusses.end());
    for (int& t : b.trusses) t = w - t;
  }
  for (std::vector<GridBlockWall>* walls : {&g.walls, &g.first})
    for (GridBlockWall& wall : *walls) {
      if (wall.up) wall.line = w - wall.line;
      else {
        wall.from = std::exchange(wall.to, w - wall.from);
        wall.from = w - wall.from;
        turn_round(wall.run);
      }
      for (auto& [block, side] : wall.of) side = seen(side);
    }
  return g;
}
// Over its diagonal: front is left.
inline GridBlocks transposed(GridBlocks g) {
  const auto seen = [](Side s) {
    return s == Side::front ? Side::left : s == Side::left ? Side::front : s == Side::back ? Side::right : Side::back;
  };
  for (GridBlock& b : g.blocks) {
    std::swap(b.x0, b.y0);
    std::swap(b.x1, b.y1);
    b.against = seen(b.against);
    b.ridge_up = !b.ridge_up;
  }
  for (std::vector<GridBlockWall>* walls : {&g.walls, &g.first})
    for (GridBlockWall& wall : *walls) {
      wall.up = !wall.up;
      for (auto& [block, side] : wall.of) side = seen(side);
    }
  return g;
}

// ---- as a job

inline std::string job_of(const GridBlocks& g) {
  const auto mm_of = [](int n) { return fmt::format("{}", 127 * n); };
  const auto names_on = [&](std::size_t b, Side side) {
    std::vector<std::pair<int, std::string>> on;
    for (const GridBlockWall& w : g.walls)
      for (const auto& [block, s] : w.of)
        if (block == b && s == side) on.emplace_back(w.from, w.name);
    std::sort(on.begin(), on.end());
    std::string r;
    for (const auto& [at, name] : on) r += fmt::format("{}\"{}\"", r.empty() ? "" : ", ", name);
    return on.size() > 1 ? "[" + r + "]" : r;
  };
  Draft d = draft(g.grid);
  std::string text = fmt::format(
      "[job]\ntitle = \"Test house\"\ndrawing = \"mm\"\nimportance = 2\ndrawn = \"none\"\nfixings = "
      "\"demo-test.toml\"\n\n[site]\n{}\n\n",
      d.site);
  for (std::size_t i = 0; i < g.blocks.size(); ++i) {
    const GridBlock& b = g.blocks[i];
    text += fmt::format("[block.{}]\nsize = [{}, {}]\n", b.name, mm_of(b.x1 - b.x0), mm_of(b.y1 - b.y0));
    if (i == 0) text += fmt::format("floor_level = {}\n", d.floor_level);
    else {
      text += fmt::format("place = {{ against = \"main {}\", {} = {} }}\n", words(b.against),
                          looks_across(b.against) ? "from_front" : "from_left",
                          mm_of(looks_across(b.against) ? b.y0 : b.x0));
      if (b.level != 0) text += fmt::format("slab = {}\n", mm_of(b.level));
    }
    std::string walls;
    for (const Side side : {Side::front, Side::right, Side::back, Side::left})
      if (const std::string on = names_on(i, side); !on.empty())
        walls += fmt::format("{}{} = {}", walls.empty() ? "" : ", ", words(side), on);
    const bool two = i == 0 && g.grid.first_height > 0;
    if (two) {
      std::string above;
      for (const GridBlockWall& w : g.first)
        for (const auto& [block, side] : w.of)
          above += fmt::format("{}{} = \"{}\"", above.empty() ? "" : ", ", words(side), w.name);
      walls += fmt::format(", first = {{ {} }}", above);
    }
    text += fmt::format("walls = {{ {} }}\n", walls);
    if (two)
      text += fmt::format("height = {{ ground = {}, first = {} }}\nfloor = {{ first = {{ depth = {} }} }}\n",
                          mm_of(b.height), d.first_height, d.floor_depth);
    else text += fmt::format("height = {}\n", mm_of(b.height));
    text += fmt::format("roof = {{ shape = \"{}\", ridge = \"{}\", pitch = \"{} deg\", eaves = {}, ",
                        b.hip ? "hip" : "gable", b.ridge_up ? "up" : "across", b.pitch, mm_of(b.eaves));
    if (!b.hip) text += fmt::format("verge = {}, ", mm_of(b.verge));
    text += fmt::format("weight = \"{:.2f} kPa\" }}\n", b.weight);
    if (!d.wall_weight.empty() && i == 0) text += fmt::format("wall_weight = {}\n", d.wall_weight);
    const std::string of = i == 0 ? "" : fmt::format("{}", i + 1);
    std::string at;
    for (const int t : b.trusses) at += mm_of(t - (b.ridge_up ? b.y0 : b.x0)) + ", ";
    text += fmt::format("trusses = [\n  {{ mark = \"T{}\", at = [{}] }},\n", i + 1, at);
    if (b.hip)
      text += fmt::format(
          "  {{ mark = \"TG{0}\", hip_girder = {1} }},\n  {{ mark = \"J{0}\", jacks = {2} }},\n  {{ mark = \"H{0}\", "
          "hip_rafters = true }},\n",
          of, mm_of(b.girder), mm_of(7));
    const GridBlock& main = g.blocks.front();
    const bool falls = i > 0 && (main.hip || looks_across(b.against) == main.ridge_up);  // the main roof, to this wing
    const double above = b.level + b.height - main.height +
                         0.5 * (b.ridge_up ? b.x1 - b.x0 : b.y1 - b.y0) * std::tan(b.pitch * std::numbers::pi / 180.0);
    if (falls && above > 0.0 && g.first.empty())
      text += fmt::format("  {{ mark = \"V{}\", valley = {} }},\n", of, mm_of(b.valley));
    text += "]\n\n";
  }
  if (text.find("valley = ") != std::string::npos || text.find("jacks = ") != std::string::npos)
    d.noted("onto", "\"demo-cleat\"");
  const auto table = [](std::string_view name, const Keys& keys) {
    std::string r = fmt::format("[{}]\n", name);
    for (const auto& [k, v] : keys) r += fmt::format("{} = {}\n", k, v);
    return r + "\n";
  };
  text += table("slab", d.slab) + table("unless_noted", d.unless_noted) + table("mark", d.marks);
  if (!g.first.empty())
    text += table("unless_noted.ground", d.ground_noted) + table("unless_noted.first", d.first_noted);
  const auto wall = [&](const GridBlockWall& w) {
    std::string run;
    for (const GridPiece& p : w.run) {
      run += run.empty() ? "" : " | ";
      run += p.mark;
      if (p.mark.empty() || !openings().contains(p.mark)) run += (p.mark.empty() ? "" : " ") + mm_of(p.length);
    }
    if (!w.of.empty()) text += fmt::format("{} = \"{}\"\n", w.name, run);
    else {
      const GridBlock& b = g.blocks[w.in];
      const int along = w.up ? b.y0 : b.x0;
      text += fmt::format("{} = {{ in = \"{}\", {} = {}, between = [{}, {}], run = \"{}\" }}\n", w.name, b.name,
                          w.up ? "from_left" : "from_front", mm_of(w.line - (w.up ? b.x0 : b.y0)),
                          mm_of(w.from - along), mm_of(w.to - along), run);
    }
  };
  text += g.first.empty() ? "[wall]\n" : "[wall.ground]\n";
  std::for_each(g.walls.begin(), g.walls.end(), wall);
  if (!g.first.empty()) text += "\n[wall.first]\n";
  std::for_each(g.first.begin(), g.first.end(), wall);
  return text;
}
inline House read_blocks(const std::string& job, const std::string& fixings) {
  Opened o = read_job(job, "job.toml", [&](std::string_view name) -> std::optional<std::string> {
    return name == "demo-test.toml" ? std::optional(fixings) : std::nullopt;
  });
  if (!o.house) throw std::runtime_error(render(o.problems, false) + "\n" + job);
  return *std::move(o.house);
}
inline House house_of(const GridBlocks& g) {
  return read_blocks(job_of(g), plenty(g.grid.asce ? "allowable" : "design"));
}

// ---- a house with all that the rooms make of it, but for the verdicts

inline std::vector<WingShape> wings_of(const House& h) {
  std::vector<WingShape> all;
  for (std::size_t i = 0; i < h.wings.size(); ++i) all.push_back(shape_of_wing(h, i));
  return all;
}
struct Winged {
  House house;
  const Table& method;
  Shape main;
  std::vector<WingShape> wings;
  Joined roof;
  std::vector<BlockWind> winds;
  std::vector<Loads> each;  // each block's own
  JoinedLoads joined;

  explicit Winged(House h)
      : house(std::move(h)),
        method(table(table_for(house.site))),
        main(shape_of(seen_from(house, 0))),
        wings(wings_of(house)),
        roof(belay::joined(house, main, wings)),
        winds(blocks_in_wind(house, main, wings)),
        each(own_loads()),
        joined(joined_loads(house, roof, winds, each)) {}
  Winged(const Winged&) = delete;
  Winged& operator=(const Winged&) = delete;
  const Loads& loads() const { return joined.loads; }
  bool cyclonic() const {
    return method_for(house.site).site(WindAsk{house.site, winds[0].house, winds[0].shape, method}, nullptr).cyclonic;
  }

 private:
  std::vector<Loads> own_loads() const {
    std::vector<Loads> all;
    for (const BlockWind& b : winds)
      all.push_back(method_for(house.site).loads(WindAsk{house.site, b.house, b.shape, method}, nullptr, std::nullopt));
    return all;
  }
};
struct WingedForces : Winged {
  const Table& practice;
  Loads used;  // by which the forces go
  Forces forces;
  explicit WingedForces(House h) : WingedForces(std::move(h), [](Loads&) {}) {}
  // As it would be under other loads.
  template <class Change>
  WingedForces(House h, Change change)
      : Winged(std::move(h)),
        practice(table("practice/common.toml")),
        used(changed(loads(), change)),
        forces(house, roof.shape, used, practice, cyclonic()) {}

  std::size_t wall_at(std::string_view name) const {
    for (std::size_t i = 0; i < house.walls.size(); ++i)
      if (house.walls[i].name == name) return i;
    throw std::runtime_error(fmt::format("no wall {}", name));
  }
  std::size_t line_at(std::string_view name) const {
    for (std::size_t i = 0; i < forces.lines.size(); ++i)
      if (forces.lines[i].name == name) return i;
    throw std::runtime_error(fmt::format("no line {}", name));
  }
  std::size_t bearing_at(std::string_view words) const {
    std::string all;
    for (std::size_t i = 0; i < forces.roof.bearings().size(); ++i) {
      if (forces.roof.bearings()[i].words == words) return i;
      all += forces.roof.bearings()[i].words + "\n";
    }
    throw std::runtime_error(fmt::format("no bearing {} among\n{}", words, all));
  }
  // The case that a link says decides, under its ceiling.
  std::size_t case_at(const CaseName& name) const {
    const bool again = name.ceiling == "rigid" && house.ceiling == Ceiling::both;
    return case_at(name.id) + (again ? used.cases.size() : 0);
  }
  std::size_t case_at(std::string_view id) const {
    for (std::size_t i = 0; i < used.cases.size(); ++i)
      if (used.cases[i].id == id) return i;
    throw std::runtime_error(fmt::format("no load case {}", id));
  }

 private:
  template <class Change> static Loads changed(Loads l, Change change) {
    change(l);
    return l;
  }
};

// One site for each way in which wind is laid on a roof.
inline std::vector<SiteAsk> one_site_each() {
  AsceSite directional = asce("7-16", mph(120.0), "B");
  directional.procedure = "directional";
  return {ClassSite{"N3", "a test", "job.toml:1"}, as_nzs_site("2021", "A2", "2.5"), asce("7-10", mph(120.0), "C"),
          directional, en_site(Speed::from_value(26.0), "II")};
}

}  // namespace belay::test
