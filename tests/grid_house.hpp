// Houses drawn at random on a grid, and how two drawings of one house are set against each other. Every length is a
// multiple of 127 mm, which is 5 inches: the same house can be written exactly in both.
#pragma once
#include "houses.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace belay::test {

// ---- a house on a grid of 127 mm
struct GridPiece {
  std::string mark;  // "": plain wall
  int length;
};
struct GridWall {
  std::string name;
  bool inside, up;  // inside: it stands at `line` and runs up the sheet, or across
  int line;
  std::vector<GridPiece> run;
};
struct Grid {
  bool asce = false, ridge_up = false, share = false, weighty = true;
  std::string site;
  int across = 94, up = 61, height = 21, floor = 3, eaves = 4, verge = 2, spacing = 9;
  double pitch = 22.5, weight = 0.4;
  std::vector<int> trusses;
  std::vector<GridWall> walls;
  std::string shape = "gable", high = "back";  // high: of one slope
  // A floor above, where there is a height; through: its hold-downs go through the floor into the wall below.
  int first_height = 0, depth = 3;
  bool through = true;
  std::vector<GridWall> first;
};

inline const std::map<std::string, int>& openings() {
  static const std::map<std::string, int> widths{{"W1", 14}, {"W2", 7}, {"D1", 7}, {"DW", 24}, {"DR", 21}};
  return widths;
}
inline std::vector<GridPiece> random_run(std::mt19937& r, int length) {
  const auto pick = [&](int n) { return static_cast<int>(r() % static_cast<unsigned>(n)); };
  static const char* braces[] = {"B", "B", "N", "X", "L", "SL", "SR"};
  static const char* holes[] = {"W1", "W1", "W2", "D1", "DW", "DR"};
  std::vector<GridPiece> run;
  int left = length;
  const auto add = [&](const std::string& mark, int n) {
    run.push_back({mark, n});
    left -= n;
  };
  add("B", 9 + pick(4));
  while (left > 30) {
    // A pier between openings: a truss on the very post that two share stands on the first one's jamb, in a mirror on
    // the other's.
    if (openings().contains(run.back().mark) || pick(3) != 0) add("", 1 + pick(9));
    if (pick(2) == 0) {
      const char* hole = holes[pick(6)];
      const int width = openings().at(hole);
      if (width < left && !openings().contains(run.back().mark)) add(hole, width);
    } else {
      const char* brace = braces[pick(7)];
      add(brace, brace[0] == 'X' || brace[0] == 'S' ? 16 + pick(6) : brace[0] == 'L' ? 4 + pick(8) : 1 + pick(13));
    }
  }
  if (left > 0) add(left > 7 && pick(2) == 0 ? "B" : "", left);
  return run;
}
inline Grid random_grid(unsigned seed) {
  std::mt19937 r(seed);
  const auto pick = [&](int n) { return static_cast<int>(r() % static_cast<unsigned>(n)); };
  Grid g;
  g.asce = pick(2) == 0;
  g.ridge_up = pick(2) == 0;
  g.share = pick(3) == 0;
  g.weighty = pick(3) != 0;
  g.across = 48 + pick(60);
  g.up = 48 + pick(50);
  g.height = 19 + pick(4);
  g.floor = pick(5);
  g.eaves = pick(7);
  g.verge = pick(6);
  g.spacing = 7 + pick(5);
  g.pitch = 8.0 + pick(27);
  g.weight = 0.2 + 0.05 * pick(14);
  if (g.asce) {
    static const char* editions[] = {"7-05", "7-10", "7-16"};
    const std::string e = editions[pick(3)];
    g.site = fmt::format(
        "method = \"ASCE {}\"\nspeed = \"{} mph\"\nspeed_is = \"{}\"\nexposure = \"{}\"\nrisk = \"II\"\nlevel = "
        "\"allowable\"\ntopography = \"flat\"\ndebris_region = false\ngiven_by = \"a test\"",
        e, (e == "7-05" ? 85 : 110) + 5 * pick(6), e == "7-05" ? "nominal" : "ultimate", pick(2) == 0 ? "B" : "C");
  } else {
    static const char* classes[] = {"N1", "N2", "N3", "N4", "C1", "C2"};
    g.site = fmt::format("class = \"{}\"\ngiven_by = \"a test\"", classes[pick(6)]);
  }
  const int length = g.ridge_up ? g.up : g.across, step = 4 + pick(4);
  for (int x = pick(3); x < length - 1; x += step) g.trusses.push_back(x);
  g.trusses.push_back(length - pick(2));
  if (pick(5) == 0) {  // few trusses, far apart (2.54 m), and a roof that hangs far past the end ones
    g.trusses.clear();
    for (int x = 5; x < length - 9; x += 20) g.trusses.push_back(x);
    g.trusses.push_back(length - 7);
  }
  g.walls = {{"A", false, false, 0, random_run(r, g.across)},
             {"B", false, true, 0, random_run(r, g.up)},
             {"C", false, false, 0, random_run(r, g.across)},
             {"D", false, true, 0, random_run(r, g.up)}};
  if (pick(2) == 0) g.walls.push_back({"E", true, true, 12 + pick(g.across - 24), random_run(r, g.up)});
  if (pick(2) == 0) g.walls.push_back({"F", true, false, 12 + pick(g.up - 24), random_run(r, g.across)});
  return g;
}
// Two floors under any roof. off: inside walls of the first floor may stand off the ground floor's; else they stand
// right on them.
inline Grid random_two_floors(unsigned seed, bool off) {
  Grid g = random_grid(seed);
  std::mt19937 r(seed + 7000);
  const auto pick = [&](int n) { return static_cast<int>(r() % static_cast<unsigned>(n)); };
  g.first_height = 19 + pick(3);
  g.depth = 1 + pick(4);
  g.through = pick(2) == 0;
  g.first = {{"A", false, false, 0, random_run(r, g.across)},
             {"B", false, true, 0, random_run(r, g.up)},
             {"C", false, false, 0, random_run(r, g.across)},
             {"D", false, true, 0, random_run(r, g.up)}};
  if (pick(4) == 0) g.first = {g.walls.begin(), g.walls.begin() + 4};
  for (const GridWall& below : std::vector<GridWall>(g.walls.begin() + 4, g.walls.end()))
    if (pick(3) != 0)
      g.first.push_back({below.name, true, below.up, below.line, random_run(r, below.up ? g.up : g.across)});
  if (off)
    for (const bool up : {true, false})
      if (pick(2) == 0) {
        const int line = 3 + pick((up ? g.across : g.up) - 6);
        const bool clear = std::none_of(g.first.begin(), g.first.end(), [&](const GridWall& w) {
          return w.inside && w.up == up && std::abs(w.line - line) < 8;
        });
        if (clear) g.first.push_back({up ? "G" : "H", true, up, line, random_run(r, up ? g.up : g.across)});
      }
  static const char* shapes[] = {"gable", "gable", "skillion", "flat", "hip"};
  g.shape = shapes[pick(5)];
  if (g.shape == "hip") {
    g.up = std::min(g.up, 60);
    g.across = std::max(g.across, g.up + 12);
    g.ridge_up = false;
    g.trusses.clear();  // between the girders, which stand 20 steps in
    for (int x = 24 + pick(4); x < g.across - 21; x += 5) g.trusses.push_back(x);
    for (std::vector<GridWall>* walls : {&g.walls, &g.first}) {
      std::erase_if(*walls, [](const GridWall& w) { return w.inside; });
      for (GridWall& w : *walls) w.run = random_run(r, w.up ? g.up : g.across);
    }
  }
  const char* highs[] = {"front", "back", "left", "right"};
  g.high = highs[pick(2) + (g.ridge_up ? 2 : 0)];
  if (g.shape == "flat") g.pitch = 2.0 + pick(4);
  return g;
}
inline GridWall& wall_of(std::vector<GridWall>& walls, const std::string& name) {
  return *std::find_if(walls.begin(), walls.end(), [&](const GridWall& w) { return w.name == name; });
}
inline void turn_round(std::vector<GridPiece>& run) {
  std::reverse(run.begin(), run.end());
  for (GridPiece& p : run)
    if (p.mark == "SL" || p.mark == "SR") p.mark = p.mark == "SL" ? "SR" : "SL";
}
// The house in a mirror: left is right.
inline Grid mirrored(Grid g) {
  for (std::vector<GridWall>* walls : {&g.walls, &g.first}) {
    for (GridWall& w : *walls) {
      if (w.inside && w.up) w.line = g.across - w.line;
      if (!w.up) turn_round(w.run);
    }
    if (!walls->empty()) std::swap(wall_of(*walls, "B").run, wall_of(*walls, "D").run);
  }
  if (!g.ridge_up) {
    std::reverse(g.trusses.begin(), g.trusses.end());
    for (int& t : g.trusses) t = g.across - t;
  } else {
    g.high = g.high == "left" ? "right" : "left";
  }
  return g;
}
// The house over its diagonal: front is left. With `mirrored` after it, a quarter turn.
inline Grid transposed(Grid g) {
  static const std::map<std::string, std::string> side{
      {"front", "left"}, {"left", "front"}, {"back", "right"}, {"right", "back"}};
  std::swap(g.across, g.up);
  g.ridge_up = !g.ridge_up;
  g.high = side.at(g.high);
  for (std::vector<GridWall>* walls : {&g.walls, &g.first}) {
    if (walls->empty()) continue;
    for (GridWall& w : *walls) w.up = !w.up;
    std::swap(wall_of(*walls, "A").run, wall_of(*walls, "D").run);
    std::swap(wall_of(*walls, "B").run, wall_of(*walls, "C").run);
    for (const char* name : {"A", "C"}) wall_of(*walls, name).up = false;
    for (const char* name : {"B", "D"}) wall_of(*walls, name).up = true;
  }
  return g;
}

inline std::string written(int n, bool feet_drawing) {
  return feet_drawing ? fmt::format("{}-{}", 5 * n / 12, 5 * n % 12) : fmt::format("{}", 127 * n);
}
inline Draft draft(const Grid& g, bool feet_drawing = false) {
  const auto length = [&](int n) { return feet_drawing ? "\"" + written(n, true) + "\"" : written(n, false); };
  const auto size = [&](int high, int wide) {
    return fmt::format("\"{} x {}\"", written(high, feet_drawing), written(wide, feet_drawing));
  };
  Draft d;
  d.drawing = feet_drawing ? "ft-in" : "mm";
  d.site = g.site;
  d.across = length(g.across);
  d.up = length(g.up);
  d.floor_level = length(g.floor);
  d.height = length(g.height);
  d.ridge = g.ridge_up ? "up" : "across";
  d.pitch = fmt::format("{} deg", g.pitch);
  d.eaves = length(g.eaves);
  d.verge = length(g.verge);
  d.weight = fmt::format("\"{:.2f} kPa\"", g.weight);
  if (g.weighty) d.wall_weight = "\"0.25 kPa\"";
  d.shape = g.shape;
  d.high = g.high;
  d.trusses = "{ mark = \"T1\", at = [";
  for (const int t : g.trusses) d.trusses += length(t) + ", ";
  d.trusses += "] }";
  if (g.shape == "hip") {
    const std::string plain = d.trusses;
    d.trusses = fmt::format(
        "[{}, {{ mark = \"TG1\", hip_girder = {} }}, {{ mark = \"J1\", jacks = {} }}, {{ mark = \"H1\", hip_rafters = "
        "true }}]",
        plain, length(20), length(7));
    d.noted("onto", "\"demo-cleat\"");
  }
  d.noted("anchor", fmt::format("{{ use = \"demo-bolt\", max = {} }}", length(g.spacing)));
  if (g.share) d.noted("plate_anchors_share", "true");
  d.marks = {{"B", "{ brace = \"demo-sheet\", hold_down = \"demo-rod\" }"},
             {"N", "{ brace = \"demo-sheet\" }"},
             {"X", "{ brace = \"demo-pair\", hold_down = \"demo-rod\" }"},
             {"SL", "{ brace = \"demo-single\", hold_down = \"demo-rod\", foot = \"left\" }"},
             {"SR", "{ brace = \"demo-single\", hold_down = \"demo-rod\", foot = \"right\" }"},
             {"L", "{ brace = \"demo-board\", hold_down = \"demo-rod\" }"},
             {"W1", size(10, openings().at("W1"))},
             {"W2", size(5, openings().at("W2"))},
             {"D1", size(16, openings().at("D1"))},
             {"DW", size(16, openings().at("DW"))},
             {"DR", fmt::format("{{ size = {}, wind_rated = \"{}\" }}", size(16, openings().at("DR")),
                                g.asce ? "200 mph" : "N3")}};
  for (const auto& [walls, keys] : {std::pair(&g.walls, &d.walls), std::pair(&g.first, &d.first_walls)})
    for (const GridWall& w : *walls) {
      std::string run;
      for (const GridPiece& p : w.run) {
        run += run.empty() ? "" : " | ";
        run += p.mark;
        if (p.mark.empty() || !openings().contains(p.mark))
          run += (p.mark.empty() ? "" : " ") + written(p.length, feet_drawing);
      }
      Draft::set(
          *keys, w.name,
          w.inside ? fmt::format("{{ {} = {}, run = \"{}\" }}", w.up ? "from_left" : "from_front", length(w.line), run)
                   : "\"" + run + "\"");
    }
  if (g.first_height > 0) {  // what is cast in below stands in timber above
    d.first_height = length(g.first_height);
    d.floor_depth = length(g.depth);
    for (auto& [mark, keys] : d.marks)
      if (const std::size_t at = keys.find(", hold_down = \"demo-rod\""); at != std::string::npos)
        keys.erase(at, std::string_view(", hold_down = \"demo-rod\"").size());
    const Draft box = two_floor_box();
    for (const char* key : {"floor_tie", "floor_fixing"})
      for (const auto& [k, v] : box.unless_noted)
        if (k == key) d.noted(k, v);
    d.ground_noted = box.ground_noted;
    d.first_noted = box.first_noted;
    d.noted_on_first("hold_down", g.through ? "\"demo-through\"" : "\"demo-screw\"");
    d.noted_on_first("anchor", fmt::format("{{ use = \"demo-screw\", max = {} }}", length(g.spacing)));
  }
  d.fixings = plenty(g.asce ? "allowable" : "design");
  return d;
}

// Capacities in the order of what is asked of them, so that every verdict occurs.
inline std::string tight(const std::string& basis, double factor) {
  std::string text = plenty(basis);
  const auto all = [&](std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
      text.replace(at, from.size(), to);
  };
  all("\"60 kN\"", fmt::format("\"{} kN\"", 6.0 * factor));
  all("\"90 kN\"", fmt::format("\"{} kN\"", 14.0 * factor));
  return text;
}

inline int rank(Verdict v) {
  return v == Verdict::pass ? 3 : v == Verdict::by_others ? 2 : v == Verdict::not_judged ? 1 : 0;
}
inline std::string numbers_of(const Link& l) {
  std::string s;
  for (const LinkPart& p : l.parts) s += fmt::format("{} {:.9g}; ", p.part, p.demand.si);
  return s;
}

// What a link asks for, to be found again in another drawing of the same house.
struct Asked {
  std::vector<double> numbers;
  std::string words;
};
inline std::multimap<std::string, Asked> asked(const Built& b, const std::function<std::string(const Link&)>& key) {
  std::multimap<std::string, Asked> all;
  for (const Link& l : b.result.links) {
    std::vector<double> n{static_cast<double>(l.verdict), l.use ? l.use->value : -1.0};
    for (const LinkPart& p : l.parts) n.push_back(p.demand.si);
    all.emplace(key(l), Asked{std::move(n), l.where.words + ": " + numbers_of(l) + l.load_case.id});
  }
  return all;
}
// Both hold the same keys, and under each key the same numbers in some order.
inline void same_answers(const std::multimap<std::string, Asked>& a, const std::multimap<std::string, Asked>& b,
                         double tolerance) {
  for (const auto& [key, asked] : b)
    if (!a.contains(key)) UNSCOPED_INFO("in the second alone: " << key << ", " << asked.words);
  CHECK(a.size() == b.size());
  std::size_t compared = 0;
  for (auto it = a.begin(); it != a.end(); it = a.upper_bound(it->first)) {
    INFO(it->first);
    REQUIRE(a.count(it->first) == b.count(it->first));
    std::vector<Asked> left, right;
    for (auto [i, end] = a.equal_range(it->first); i != end; ++i) left.push_back(i->second);
    for (auto [i, end] = b.equal_range(it->first); i != end; ++i) right.push_back(i->second);
    for (const Asked& l : left) {
      const auto match = std::find_if(right.begin(), right.end(), [&](const Asked& r) {
        if (l.numbers.size() != r.numbers.size()) return false;
        for (std::size_t i = 0; i < l.numbers.size(); ++i)
          if (std::abs(l.numbers[i] - r.numbers[i]) > tolerance * std::max(1.0, std::abs(l.numbers[i]))) return false;
        return true;
      });
      INFO(l.words << "\n  against " << right.front().words);
      REQUIRE(match != right.end());
      right.erase(match);
      ++compared;
    }
  }
  CHECK(compared == a.size());
}
// Where a link stands, in tenths of a millimetre along its wall.
inline long place_of(const Built& b, const Link& l, bool turned) {
  if (!l.where.from_start) return -1;
  const Length length = b.house.walls[b.wall_at(l.where.wall)].length();
  return std::lround((turned ? length - *l.where.from_start : *l.where.from_start) / mm(0.1) + 0.01);
}

}  // namespace belay::test
