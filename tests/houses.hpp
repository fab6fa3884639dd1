// Whole houses for the tests of capacity, load path and verdicts: a job's text put together from parts, read as any
// other job, and taken through every room. Invented, all of it.
#pragma once
#include "belay/check.hpp"
#include "files/read.hpp"
#include "judge/judge.hpp"
#include "load_path/forces.hpp"
#include "quantities.hpp"
#include "shape/shape.hpp"
#include "wind/joined.hpp"
#include "wind/wind.hpp"
#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace belay::test {

// ---- a fixings file: entries that hold nearly everything, for tests that are not about them. basis: "design" or
// "allowable".
inline std::string plenty(std::string_view basis = "design") {
  const std::string end = fmt::format("basis = \"{}\"\ncyclic = \"tested\"\nsource = \"invented\"\n\n", basis);
  const std::string in_concrete =
      "least_edge = \"10 mm\"\nleast_spacing = \"10 mm\"\nconcrete = \"20 MPa\"\ncracked = true\n";
  return "[fixings]\ntitle = \"Invented, for tests\"\nstatus = \"demo\"\n\n"
         "[[bracket]]\nname = \"demo-cleat\"\nuplift = \"60 kN\"\nalong = \"60 kN\"\nacross = \"60 kN\"\ntogether = "
         "\"straight sum\"\n" +
         end + "[[tie]]\nname = \"demo-tie\"\npull = \"60 kN\"\n" + end +
         "[[plate]]\nname = \"demo-plate\"\npull = \"60 kN\"\ngreatest_spacing = \"3 m\"\n" + end +
         "[[anchor]]\nname = \"demo-bolt\"\nhow = \"cast in\"\npull = \"60 kN\"\nslide = \"60 kN\"\ntogether = "
         "\"straight sum\"\n" +
         in_concrete + end +
         "[[anchor]]\nname = \"demo-rod\"\nhow = \"cast in\"\npull = \"90 kN\"\nslide = \"90 kN\"\ntogether = "
         "\"straight sum\"\n" +
         in_concrete + end +
         "[[anchor]]\nname = \"demo-screw\"\nhow = \"into timber\"\npull = \"60 kN\"\nslide = \"60 kN\"\ntogether = "
         "\"straight sum\"\n" +
         end +
         "[[anchor]]\nname = \"demo-through\"\nhow = \"through floor\"\npull = \"90 kN\"\nslide = \"90 "
         "kN\"\ntogether = \"straight sum\"\n" +
         end + "[[sheet]]\nname = \"demo-sheet\"\nracking = \"6.0 kN/m\"\nleast_length = \"900 mm\"\n" + end +
         "[[strap]]\nname = \"demo-pair\"\ntension = \"10 kN\"\nend_fixing = \"10 kN\"\npair = true\n" + end +
         "[[strap]]\nname = \"demo-single\"\ntension = \"8 kN\"\nend_fixing = \"8 kN\"\npair = false\n" + end +
         "[[rated]]\nname = \"demo-unit\"\nracking = \"9 kN\"\nlength = \"900 mm\"\ngreatest_height = \"2.7 m\"\n" +
         end + "[[lining]]\nname = \"demo-board\"\nracking = \"0.45 kN/m\"\nleast_length = \"450 mm\"\n" + end +
         "[[lining]]\nname = \"demo-board-both\"\nracking = \"0.75 kN/m\"\nleast_length = \"450 mm\"\n" + end;
}

// ---- a job's text. Every member is TOML as it stands in the file, lengths with their unit.
using Keys = std::vector<std::pair<std::string, std::string>>;
// A site by AS/NZS 1170.2.
inline constexpr const char* by_as_nzs =
    "method = \"AS/NZS 1170.2:2011\"\nregion = \"A2\"\nprobability = \"1:500\"\nterrain = 2.5\ntopography = "
    "\"flat\"\ngiven_by = \"a test\"";
// Of a veranda along a part of wall A.
inline Keys veranda_keys() {
  return {{"against", "\"A\""},
          {"from", "\"1.2 m\""},
          {"length", "\"6 m\""},
          {"depth", "\"2.4 m\""},
          {"overhang", "\"0.3 m\""},
          {"pitch", "\"5 deg\""},
          {"weight", "\"0.15 kPa\""},
          {"rafters", "{ mark = \"R1\", max = \"1 m\", at_wall = \"demo-cleat\", at_beam = \"demo-cleat\" }"},
          {"posts", "{ max = \"3 m\", top = \"demo-tie\", foot = \"demo-screw\" }"},
          {"net_uplift", "{ pressure = \"1.6 kPa\", given_by = \"a letter\" }"}};
}

struct Draft {
  std::string drawing = "mm";
  std::string importance = "2";
  Keys by_others = {};
  std::string site = "class = \"N3\"\ngiven_by = \"a test\"";
  std::string across = "\"12 m\"", up = "\"7.8 m\"";
  std::string floor_level = "\"0.3 m\"", height = "\"2.7 m\"";
  std::string shape = "gable";
  std::string ridge = "across", pitch = "22.5 deg";       // ridge: of gables and hips; pitch: empty to leave it out
  std::string high = "back";                              // of skillions and flat roofs
  std::string hipped = "";                                // "\"left\""; empty: both ends of a hip
  std::string eaves = "\"0.45 m\"", verge = "\"0.3 m\"";  // verge: not of a roof that has none
  Keys roof_sides = {};  // "left", "{ pitch = ..., overhang = ..., gable_above = ... }"
  std::string weight = "\"0.40 kPa\"", wall_weight = "", ceiling = "";  // ceiling: "flexible"...; left out: both
  std::string trusses = "{ mark = \"T1\", max = \"0.9 m\", odd_space = \"right\" }";
  std::vector<std::string> roof_braces = {};  // "{ use = ..., slope = ..., foot = ..., head = ... }"
  Keys slab = {{"concrete", "\"25 MPa\""}}, frame = {}, bracing = {};
  Keys unless_noted = {{"jamb", "\"demo-bolt\""},         {"anchor", "{ use = \"demo-bolt\", max = \"1.2 m\" }"},
                       {"truss", "\"demo-cleat\""},       {"plate", "\"90 mm\""},
                       {"top_tie", "\"demo-tie\""},       {"stud_tie", "\"demo-tie\""},
                       {"plate_fixing", "\"demo-plate\""}};
  Keys marks = {{"B", "{ brace = \"demo-sheet\", hold_down = \"demo-rod\" }"}};
  Keys walls = {};  // A front, B right, C back, D left; others say where they stand
  // A floor above, where it has a height: then `walls` are the ground floor's, and each floor may have its own fixings.
  std::string first_height = "", floor_depth = "";
  Keys first_walls = {}, ground_noted = {}, first_noted = {};
  std::vector<std::pair<std::string, Keys>> verandas = {};  // by name
  std::string fixings = plenty();

  // Sets one key among those of a list, or adds it; an empty value takes it away.
  static void set(Keys& keys, const std::string& key, const std::string& to) {
    for (std::size_t i = 0; i < keys.size(); ++i)
      if (keys[i].first == key) {
        if (to.empty()) keys.erase(keys.begin() + static_cast<std::ptrdiff_t>(i));
        else keys[i].second = to;
        return;
      }
    if (!to.empty()) keys.emplace_back(key, to);
  }
  Draft& noted(const std::string& key, const std::string& to) {
    set(unless_noted, key, to);
    return *this;
  }
  Draft& mark(const std::string& key, const std::string& to) {
    set(marks, key, to);
    return *this;
  }
  Draft& roof_side(const std::string& side, const std::string& to) {
    set(roof_sides, side, to);
    return *this;
  }
  // Places in metres, as a job in any drawing may write them.
  Draft& roof_brace(const std::string& use, const std::string& slope, double foot, double head,
                    std::optional<double> up_to = std::nullopt) {
    roof_braces.push_back(fmt::format("{{ use = \"{}\", slope = \"{}\", foot = \"{} m\", head = \"{} m\"{} }}", use,
                                      slope, foot, head, up_to ? fmt::format(", up_to = \"{} m\"", *up_to) : ""));
    return *this;
  }
  Draft& wall(const std::string& key, const std::string& to) {
    set(walls, key, to);
    return *this;
  }
  Draft& first_wall(const std::string& key, const std::string& to) {
    set(first_walls, key, to);
    return *this;
  }
  Draft& noted_on_ground(const std::string& key, const std::string& to) {
    set(ground_noted, key, to);
    return *this;
  }
  Draft& noted_on_first(const std::string& key, const std::string& to) {
    set(first_noted, key, to);
    return *this;
  }
  Draft& fixing(const std::string& entry) {
    fixings += entry + "source = \"invented\"\n\n";
    return *this;
  }

  std::string roof() const {
    const bool one_slope = shape == "skillion" || shape == "flat", full_hip = shape == "hip" && hipped.empty();
    std::string r =
        fmt::format("{{ shape = \"{}\", {} = \"{}\", ", shape, one_slope ? "high" : "ridge", one_slope ? high : ridge);
    if (!hipped.empty()) r += fmt::format("hipped = {}, ", hipped);
    if (!pitch.empty()) r += fmt::format("pitch = \"{}\", ", pitch);
    r += fmt::format("eaves = {}, ", eaves);
    if (!full_hip) r += fmt::format("verge = {}, ", verge);
    for (const auto& [side, keys] : roof_sides) r += fmt::format("{} = {}, ", side, keys);
    return r + fmt::format("weight = {} }}", weight);
  }
  std::string listed_roof_braces() const {
    std::string r;
    for (const std::string& b : roof_braces) r += (r.empty() ? "roof_braces = [\n  " : ",\n  ") + b;
    return r.empty() ? r : r + "\n]\n";
  }
  std::string listed_verandas() const {
    std::string r;
    for (const auto& [name, keys] : verandas) {
      r += fmt::format("[veranda.\"{}\"]\n", name);
      for (const auto& [k, v] : keys) r += fmt::format("{} = {}\n", k, v);
    }
    return r;
  }
  std::string text() const {
    const auto table = [](std::string_view name, const Keys& keys) {
      std::string r = keys.empty() ? std::string() : fmt::format("[{}]\n", name);
      for (const auto& [k, v] : keys) r += fmt::format("\"{}\" = {}\n", k, v);
      return r + "\n";
    };
    const bool two = !first_height.empty();
    const std::string heights =
        two ? fmt::format("{{ ground = {}, first = {} }}\nfloor = {{ first = {{ depth = {} }} }}", height, first_height,
                          floor_depth)
            : height;
    return fmt::format(
               "[job]\ntitle = \"Test house\"\ndrawing = \"{}\"\nimportance = {}\ndrawn = \"none\"\nfixings = "
               "\"demo-test.toml\"\n\n",
               drawing, importance) +
           table("job.by_others", by_others) + "[site]\n" + site +
           fmt::format(
               "\n\n[block.main]\nfloor_level = {}\nsize = [{}, {}]\nwalls = {{ front = \"A\", right = \"B\", back = "
               "\"C\", left = \"D\" }}\nheight = {}\n",
               floor_level, across, up, heights) +
           "roof = " + roof() + "\n" + (wall_weight.empty() ? std::string() : "wall_weight = " + wall_weight + "\n") +
           (ceiling.empty() ? std::string() : "ceiling = \"" + ceiling + "\"\n") + "trusses = " + trusses + "\n" +
           listed_roof_braces() + "\n" + table("slab", slab) + table("frame", frame) +
           (bracing.empty() ? std::string() : table("bracing", bracing)) + table("unless_noted", unless_noted) +
           table("unless_noted.ground", ground_noted) + table("unless_noted.first", first_noted) +
           table("mark", marks) + table(two ? "wall.ground" : "wall", walls) + table("wall.first", first_walls) +
           listed_verandas();
  }
  Opened opened() const {
    return read_job(text(), "job.toml", [&](std::string_view name) -> std::optional<std::string> {
      return name == "demo-test.toml" ? std::optional(fixings) : std::nullopt;
    });
  }
  House house() const {
    Opened o = opened();
    if (!o.house) throw std::runtime_error(render(o.problems, false) + "\n" + text());
    return *std::move(o.house);
  }
};
// Four walls that are one brace each: a house in which nothing but the asked-for is special. `mark`: of the braces.
inline Draft closed_box(std::string across = "12 m", std::string up = "7.8 m", const std::string& mark = "B") {
  Draft d;
  d.across = fmt::format("\"{}\"", across);
  d.up = fmt::format("\"{}\"", up);
  for (const char* w : {"A", "C"}) d.wall(w, fmt::format("\"{} {}\"", mark, across));
  for (const char* w : {"B", "D"}) d.wall(w, fmt::format("\"{} {}\"", mark, up));
  return d;
}
// The same on two floors, each with what holds on it: cast in below, into timber and through the floor above.
inline Draft two_floor_box(std::string across = "12 m", std::string up = "7.8 m", const std::string& mark = "B") {
  Draft d = closed_box(std::move(across), std::move(up), mark);
  d.first_height = "\"2.55 m\"";
  d.floor_depth = "\"0.35 m\"";
  d.first_walls = d.walls;
  d.mark("B", "{ brace = \"demo-sheet\" }");
  d.noted("floor_tie", "\"demo-tie\"").noted("floor_fixing", "{ use = \"demo-screw\", max = \"0.6 m\" }");
  d.noted_on_ground("hold_down", "\"demo-rod\"");
  d.noted_on_first("hold_down", "\"demo-through\"").noted_on_first("jamb", "\"demo-screw\"");
  d.noted_on_first("anchor", "{ use = \"demo-screw\", max = \"1.2 m\" }");
  return d;
}

// The same under a hip roof, both ends of it, with girders, jacks and hip rafters.
inline Draft hip_box(std::string across = "12 m", std::string up = "7.8 m", const std::string& girder = "2.4 m") {
  Draft d = closed_box(std::move(across), std::move(up));
  d.shape = "hip";
  d.trusses = fmt::format(
      "[{{ mark = \"T1\", max = \"0.9 m\", odd_space = \"middle\" }}, {{ mark = \"TG1\", hip_girder = \"{}\" }}, "
      "{{ mark = \"J1\", jacks = \"0.9 m\" }}, {{ mark = \"H1\", hip_rafters = true }}]",
      girder);
  d.noted("onto", "\"demo-cleat\"");
  return d;
}
// The same under one slope that is high at the back.
inline Draft skillion_box(std::string across = "12 m", std::string up = "7.8 m") {
  Draft d = closed_box(std::move(across), std::move(up));
  d.shape = "skillion";
  d.pitch = "8 deg";
  return d;
}

// ---- a house with all that the rooms make of it
struct Built {
  House house;
  const Table &method, &practice;
  HouseWind wind;
  const Shape& shape;
  const Loads& loads;
  SiteWind site;
  Forces forces;
  Result result;

  explicit Built(const Draft& d) : Built(d.house()) {}
  explicit Built(House h)
      : house(std::move(h)),
        method(table(table_for(house.site))),
        practice(table("practice/common.toml")),
        wind(house, method),
        shape(wind.shape()),
        loads(wind.loads()),
        site(wind.site()),
        forces(house, shape, loads, practice, site.cyclonic),
        result(check(house, method, practice)) {}
  Built(const Built&) = delete;
  Built& operator=(const Built&) = delete;

  const Link& link(std::string_view words, std::string_view kind = {}) const {
    for (const Link& l : result.links)
      if (l.where.words == words && (kind.empty() || l.kind == kind)) return l;
    std::string all;
    for (const Link& l : result.links) all += l.where.words + "\n";
    throw std::runtime_error(fmt::format("no link \"{}\" among\n{}", words, all));
  }
  // The case that a link says decides, under its ceiling.
  std::size_t case_at(const CaseName& name) const {
    const bool again = name.ceiling == "rigid" && house.ceiling == Ceiling::both;
    return case_at(name.id) + (again ? loads.cases.size() : 0);
  }
  std::size_t case_at(std::string_view id) const {
    for (std::size_t i = 0; i < loads.cases.size(); ++i)
      if (loads.cases[i].id == id) return i;
    throw std::runtime_error(fmt::format("no load case {}", id));
  }
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
  std::size_t brace_at(std::string_view name) const {
    for (std::size_t i = 0; i < forces.braces.size(); ++i)
      if (house.walls[forces.braces[i].wall].pieces[forces.braces[i].piece].brace->name == name) return i;
    throw std::runtime_error(fmt::format("no brace {}", name));
  }
  std::size_t bearing_at(std::string_view words) const {
    for (std::size_t i = 0; i < forces.roof.bearings().size(); ++i)
      if (forces.roof.bearings()[i].words == words) return i;
    throw std::runtime_error(fmt::format("no bearing {}", words));
  }
};
inline const LinkPart& part(const Link& l, std::string_view name) {
  for (const LinkPart& p : l.parts)
    if (p.part == name) return p;
  throw std::runtime_error(fmt::format("{} has no part {}", l.where.words, name));
}
inline Force demand(const Link& l, std::string_view name) { return quantity<Force>(part(l, name).demand); }

}  // namespace belay::test
