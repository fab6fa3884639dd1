// The wind on a building, by a published method: two functions that return data. Pressures are positive towards the
// surface: on a roof from above, on a soffit from below (there positive lifts). What follows (load path, verdicts)
// never asks which method it was.
#pragma once
#include "belay/job.hpp"
#include "belay/working.hpp"
#include "shape/shape.hpp"
#include "wind/table.hpp"
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace belay {

// Which from-memory figures a thing rests on: bit i is entry i of the method's table.
using Marks = std::uint64_t;

// Factors on what resists and on the wind.
struct Combination {
  std::string name, source;
  double dead, wind;
};
// surface: index in Shape::surfaces.
struct Zone {
  std::size_t surface;
  Polygon part;
  std::string label;
};
// Zones tile every surface exactly once.
struct Layout {
  std::string name;
  std::vector<Zone> zones;
};
// A horizontal pressure on a part of what the wind sees, acting towards `towards`; negative: against it.
// part: (along, up) as in Elevation.
// label: of its pressure, told as "p_" and it; what: the part of the building, for people.
struct Push {
  Way towards;
  Polygon part;
  Pressure p;
  std::string label, what;
};
// The pressure square on a stretch of an outside wall, greater of in and out, in this case: what its anchors resist.
// Along the wall, in the block.
struct SquareOn {
  Side side;
  Length from, to;
  Pressure p;
  std::string label;
};
struct LoadCase {
  std::string id;            // short, unique, stable: "A3 out"...
  std::string wind, inside;  // for people: "onto the front, from the left corner"; "sealed"
  Combination combination;
  std::size_t layout;
  std::vector<Pressure> net;  // per zone of the layout: outside less inside (overhangs: outside alone)
  std::vector<Push> push;
  std::vector<SquareOn> square_on;
  Marks marks;                                   // of everything in this case
  Marks marks_net, marks_push, marks_square_on;  // of the figures behind each (gust and combination in all three)
};
// A limit of the method that the building passes: every link is NOT JUDGED.
// relation: how `has` should stand to `greatest`, in words: "at most", "only".
struct Excess {
  std::string limit, relation, source;
  Value has, greatest;
};
struct Loads {
  Basis basis;
  std::vector<Layout> layouts;
  std::vector<LoadCase> cases;
  std::vector<Excess> excess;
};
// What the first screen and the site line say.
// cyclonic: the wind is that of a cyclonic class, whose sheets' capacities must come from cyclic tests.
struct SiteWind {
  std::string method, edition, wind_class, given_by;  // "AS 4055", "2021", "N3"; class "" where there is none
  Speed gust;
  Pressure q;  // at mean roof height
  bool cyclonic;
  std::vector<std::string> cautions;
};
// Limits on bracing lines that come with the method: greatest spacing, or none in hand; never_above: of its lightest
// winds, so that no table can allow more.
struct LineSpacing {
  std::optional<Length> greatest, never_above;
  std::string source;
  Marks marks;
};

struct WindAsk {
  const SiteAsk& site;
  const House& house;
  const Shape& shape;
  const Table& table;
};
// `tell`: the case whose figures are told into the working (when there is one); the others are computed in silence.
struct Method {
  std::string_view key;  // of its table file: "as-4055"
  SiteWind (*site)(const WindAsk&, Working*);
  Loads (*loads)(const WindAsk&, Working*, std::optional<std::size_t> tell);
  LineSpacing (*line_spacing)(const WindAsk&);
};
// The method that the site asks for and the key of its table.
const Method& method_for(const SiteAsk&);
std::string table_for(const SiteAsk&);  // "methods/as-4055-2021.toml"

}  // namespace belay
