// The wind on a building, by a published method: two functions that return data. Pressures are positive towards the
// surface: on a roof from above, on a soffit from below (there positive lifts). What follows (load path, verdicts)
// never asks which method it was.
#pragma once
#include "belay/job.hpp"
#include "belay/working.hpp"
#include "shape/shape.hpp"
#include "wind/table.hpp"
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace belay {

// Which from-memory figures a thing rests on: bit i is entry i of the method's table.
using Marks = std::uint64_t;

// Factors on weight, on the wind and on the load on floors.
struct Combination {
  std::string name, source;
  double dead, wind;
  double live = 0.0;
};
// surface: index in Shape::surfaces.
struct Zone {
  std::size_t surface;
  Polygon part;
  std::string label;
  std::size_t block = 0;  // by whose loads it goes, where a house has several blocks
};
// Zones tile every surface exactly once.
struct Layout {
  std::string name;
  std::vector<Zone> zones;
};
// A push on the face that looks against its way; on that face and the one behind the house together, whichever of them
// the wind meets; or along the house, on no face.
enum class Acts : unsigned char { on_face, on_both_faces, along };
// A horizontal pressure on a part of what the wind sees, acting towards `towards`; negative: against it.
// part: (along, up) as in Elevation.
// low: of a wall, what pushes its lower half where `p` stands for its upper half and the roof together; zero: p.
// label: of its pressure, told as "p_" and it; what: the part of the building, for people.
struct Push {
  Way towards;
  Polygon part;
  Pressure p;
  std::string label, what;
  Acts acts = Acts::on_face;
  std::size_t block = 0;    // by whose loads it goes, and in whose axes its part stands
  std::size_t ceiling = 0;  // the block whose ceiling takes it
  Pressure low = {};
};
// The pressure square on a stretch of an outside wall, greater of in and out, in this case: what its anchors resist.
// Along the wall, in the house.
struct SquareOn {
  Side side;
  Length from, to;
  Pressure p;
  std::string label;
  std::size_t block = 0;  // whose walls it is on
};
struct ByArea {
  Area small, large;
  bool logarithmic;
  std::string source;
};
struct LoadCase {
  std::string id;            // short, unique, stable: "A3 out"...
  std::string wind, inside;  // for people: "onto the front, from the left corner"; "sealed"
  Combination combination;
  std::size_t layout;
  std::vector<Pressure> net;  // per zone of the layout: outside less inside (overhangs: outside alone)
  // Where pressure falls with the area that loads a member: `net` is for areas of `by_area.large` and more, `net_small`
  // (per zone) for `by_area.small` and less; between them linear, or linear in the logarithm. Empty: no effect of area.
  // Its working tells "p_" + label + ",l" and ",s" then; the load path tells "p_" + label for the area in hand.
  std::vector<Pressure> net_small = {};
  ByArea by_area = {};
  std::vector<Push> push;
  std::vector<SquareOn> square_on;
  Marks marks;                                   // of everything in this case
  Marks marks_net, marks_push, marks_square_on;  // of the figures behind each (gust and combination in all three)
  // The edition's combination in which weight (its greatest) and wind press down. No name: the method has none in hand.
  Combination down = {};
  Marks marks_down = 0;  // of that combination
};
// A limit of the method that the building passes: every link is NOT JUDGED.
// relation: how `has` should stand to `greatest`, in words: "at most", "only". in_words: what is wrong, where two
// values do not tell it.
struct Excess {
  std::string limit, relation, source;
  Value has, greatest;
  std::string in_words = {};
};
struct Loads {
  Basis basis;
  std::vector<Layout> layouts;
  std::vector<LoadCase> cases;
  std::vector<Excess> excess;
  // The edition's combinations in which the load on a floor presses as well, weight as in LoadCase::down and no more of
  // the wind: of all the worst counts. marks: of all of them.
  std::vector<Combination> on_floors = {};
  Marks marks_on_floors = 0;
};
// The wind on one face of the block. from: the direction that decides ("NE"); "" where the method knows none.
// worked_out: the gust before the method's least one was asked for; 0: it is the gust itself.
// marks: of the figures behind its gust, where they differ from face to face; 0: those of the whole site.
struct FaceWind {
  Side side;
  Speed gust;
  Pressure q;
  std::string from;
  Speed worked_out = {};
  Marks marks = 0;
};
// One wind direction: the factors of its gust in the order of the product, for the full grid.
struct Factor {
  std::string symbol, words;
  Value value;
};
struct FromDirection {
  std::string name;
  std::vector<Factor> factors;
  Speed gust;
};
// What the first screen, the site line and the site page say. gust, q: of the windiest face.
// cyclonic: the wind is that of a cyclonic class or region, whose sheets' capacities must come from cyclic tests.
// says: what else the site line says: "exposure B", "region A2". typed_in: by an engineer, not worked out here.
// The working of a site has the heading "The wind" for what all directions share, and "The wind from NE" for one.
struct SiteWind {
  std::string method, edition, wind_class, given_by;  // "AS 4055", "2021", "N3"; class "" where there is none
  Speed gust;
  Pressure q;  // at mean roof height
  bool cyclonic;
  std::vector<std::string> cautions;
  std::string says = {};
  bool typed_in = false;
  bool earthquake_may_govern = false;
  std::array<FaceWind, 4> faces = {};  // in the order of Side
  std::vector<FromDirection> directions = {};
  std::optional<Speed> service_gust = std::nullopt;
  std::vector<Combination> combinations = {};  // of the edition, for what is lifted and what is pressed
  Marks marks = 0;                             // of the figures behind the gust
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
  std::string_view key;  // of its table files, before the edition: "as-4055"
  SiteWind (*site)(const WindAsk&, Working*);
  Loads (*loads)(const WindAsk&, Working*, std::optional<std::size_t> tell);
  LineSpacing (*line_spacing)(const WindAsk&);
};
// The method that the site asks for and its table: the family's name and the edition.
const Method& method_for(const SiteAsk&);
std::string table_for(const SiteAsk&);  // "methods/as-4055-2021.toml"

}  // namespace belay
