// A job as its keys stand in the file, one struct a table, before anything is added up or looked up. Knows no TOML.
// An empty optional is a key that was left out, or one that could not be read: then its path stands in `unread`.
#pragma once
#include "belay/units.hpp"
#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace belay::raw {

template <class T> using Maybe = std::optional<T>;
using Texts = std::map<std::string, Maybe<std::string>>;

// How the drawing writes lengths. mm: bare whole numbers are millimetres. feet: "12-6" is 12 ft 6 in. none: every
// length carries its unit.
enum class Drawing : unsigned char { none, mm, feet };

struct Head {  // [job]
  Maybe<std::string> title, drawing, print, drawn, fixings, mirror;
  Maybe<int> importance;
  Texts by_others;  // kind of link -> who answers for it
};
struct HillKeys {
  Maybe<std::string> shape;
  Maybe<Length> rise, to_half_height, to_half_height_behind, upwind_slope, downwind_slope, past_crest, before_crest;
};
struct BuildingsKeys {
  Maybe<int> count;
  Maybe<Length> height, breadth;
};
struct UpwindKeys {  // what the wind comes over from some of the eight directions
  std::vector<std::string> from;
  Maybe<std::string> terrain, shielding, topography;
  Maybe<BuildingsKeys> buildings;
  Maybe<HillKeys> hill;
};
// The keys of every method: which of them a method knows is settled later. terrain, shielding: a word or a number.
struct SiteKeys {
  Maybe<std::string> method, wind_class, given_by, judge_by;
  Maybe<std::string> region, terrain, shielding, topography, class_table, zone;
  Maybe<std::string> probability, service_probability;  // "1:500"
  Maybe<std::string> north;                             // "20 deg right of up"
  Maybe<std::string> speed_is, exposure, risk, level, procedure;
  Maybe<Speed> speed, design_gust;
  Maybe<Pressure> design_pressure;
  Maybe<Length> ground_level;
  Maybe<Density> air_density;
  Maybe<double> directional_factor, season_factor, probability_factor;
  Maybe<bool> debris_region, sealed;
  Maybe<HillKeys> hill;
  Maybe<BuildingsKeys> buildings;
  std::vector<UpwindKeys> upwind;
};
struct Site : SiteKeys {  // [site]: the keys of one method, or tables named by their methods
  std::map<std::string, SiteKeys> by_method;
};
// A user's own table of classes.
struct ClassRowKeys {
  std::vector<std::string> region, terrain, topography, shielding;
  Maybe<std::string> wind_class;
};
struct ClassTableKeys {
  Maybe<std::string> source;
  std::vector<ClassRowKeys> rows;
};
using Pair = std::array<Maybe<Length>, 2>;
struct NamesAbove {
  Maybe<std::string> front, right, back, left;
};
// Of a side that wings leave in several stretches one for each. first: of two floors, the first floor's walls that are
// not called as the first of those below.
struct WallNames {
  std::vector<std::string> front, right, back, left;
  Maybe<NamesAbove> first;
};
struct Weight {
  Maybe<Pressure> least, greatest;
  Maybe<std::string> on;
};
struct SideOfRoof {  // what is its own at one side
  Maybe<Angle> pitch;
  Maybe<Length> overhang, gable_above;
};
struct Roof {
  Maybe<std::string> shape, ridge, high;
  std::vector<std::string> hipped;
  Maybe<Angle> pitch;
  Maybe<Length> eaves, verge;
  Maybe<SideOfRoof> front, right, back, left;
  Maybe<Weight> weight;
};
// Trusses have `max` or `at`; a hip girder, jacks, hip rafters and valley trusses each a key of their own.
struct TrussRow {
  Maybe<std::string> mark, odd_space, end, clear_of;
  Maybe<Length> max, hip_girder, jacks, valley;
  Maybe<std::vector<Maybe<Length>>> at;
  Maybe<bool> hip_rafters;
  std::vector<std::string> also_on;
  Maybe<int> plies;
};
struct Heights {  // by_floor: written floor by floor; else one length, the ground floor's
  Maybe<Length> ground, first;
  bool by_floor = false;
};
struct FootingKeys {
  Maybe<Length> thickness, edge, width, length;
  Maybe<Pressure> concrete;
  Maybe<bool> cracked;
  Maybe<WeightDensity> weight;
};
struct StumpKeys {
  Maybe<Length> max;
  Maybe<std::string> tie;
  Maybe<FootingKeys> footing;
};
struct SubfloorBraceKeys {
  Maybe<std::string> use;
  Maybe<int> count;
};
struct SubfloorKeys {
  Maybe<SubfloorBraceKeys> across, up;
};
struct JoistKeys {
  Maybe<Length> spacing, joist_width;
  Maybe<std::string> joists, odd_space;
  Maybe<bool> edge, blocking;
  Maybe<Pressure> weight;
};
struct FramedFloor {
  Maybe<Length> depth;
  Maybe<Pressure> greatest_weight, live;
  JoistKeys lie;
};
struct GroundFloorKeys {
  JoistKeys lie;
  Maybe<StumpKeys> stumps;
  Maybe<SubfloorKeys> braces;
};
struct Floors {  // what is said of the framed floors under the walls
  Maybe<GroundFloorKeys> ground;
  Maybe<FramedFloor> first;
};
struct RoofBraceRow {
  Maybe<std::string> use, slope;
  Maybe<Length> foot, head, up_to;
};
struct Place {
  Maybe<std::string> against, flush;
  Maybe<Length> from_left, from_front;
};
struct Block {  // [block.NAME]; place, slab: of one that stands against another
  Maybe<Place> place;
  Maybe<Length> floor_level, slab;
  Maybe<Heights> height;
  Maybe<Floors> floor;
  Maybe<Pair> size;  // across, up
  Maybe<WallNames> walls;
  Maybe<Roof> roof;
  Maybe<Pressure> wall_weight;
  Maybe<std::string> ceiling;
  Maybe<std::vector<TrussRow>> trusses;
  Maybe<std::vector<RoofBraceRow>> roof_braces;
};
struct Mark {  // an opening has `size`, a brace has `brace`
  Maybe<std::string> size, wind_rated, jamb, brace, hold_down, foot, end_studs;
  Maybe<bool> door, open, impact_rated, round_openings;
};
struct Anchors {  // `max` or `each`
  Maybe<std::string> use, each;
  Maybe<Length> max;
};
// `rest` is a mark like any other here.
struct TrussTies {
  Maybe<std::string> all;
  Texts by_mark;
};
struct FloorFixing {
  Maybe<std::string> use;
  Maybe<Length> max;
};
// What each floor of a house may have of its own.
struct OfFloor {
  Maybe<std::string> jamb, hold_down, end_studs, top_tie, stud_tie, plate_fixing;
  Maybe<Anchors> anchor;
  Maybe<Length> plate, hold_down_in;
  Maybe<bool> plate_anchors_share;
};
// every: of all floors; ground, first: what is their own.
struct UnlessNoted {
  OfFloor every;
  Maybe<OfFloor> ground, first;
  Maybe<TrussTies> truss, onto;
  Maybe<std::string> floor_tie;
  Maybe<FloorFixing> floor_fixing;
  std::map<std::string, Mark> marks;
};
struct Wall {  // [wall] NAME
  Maybe<std::string> run, same_as, mirror_of, from, in, frames;
  Maybe<Length> from_left, from_front;
  Maybe<Pair> between;
};
using WallsByName = std::map<std::string, Wall>;
struct Walls {  // [wall]: of a house of one floor. [wall.ground], [wall.first]: of a house of two
  WallsByName only;
  Maybe<WallsByName> ground, first;
};
struct EdgeKeys {
  Maybe<Length> width, depth, lifted, slab_width, slab_thickness;
  Maybe<std::string> given_by;
};
struct WholeSlabKeys {
  Maybe<Length> thickness;
  Maybe<double> friction;
  Maybe<std::string> given_by;
};
struct Slab {
  Maybe<Length> thickness, beyond;
  Maybe<Pressure> concrete;
  Maybe<bool> cracked;
  Maybe<WeightDensity> weight;
  Maybe<EdgeKeys> edge, inside;
  Maybe<WholeSlabKeys> whole;
};
struct Frame {
  Maybe<Length> steel;
  Maybe<std::string> joint_group;
  Maybe<Pressure> yield, ultimate;
};
struct VerandaRafters {
  Maybe<std::string> mark, at_wall, at_beam;
  Maybe<Length> max;
};
struct VerandaPosts {  // `max` or `at`
  Maybe<std::string> top, foot;
  Maybe<Length> max;
  Maybe<std::vector<Maybe<Length>>> at;
  Maybe<FootingKeys> footing;
};
struct NetUplift {
  Maybe<Pressure> pressure;
  Maybe<std::string> given_by;
};
struct Veranda {  // [veranda.NAME]
  Maybe<std::string> against;
  Maybe<Length> from, length, depth, overhang;
  Maybe<Angle> pitch;
  Maybe<Pressure> weight;
  Maybe<VerandaRafters> rafters;
  Maybe<VerandaPosts> posts;
  Maybe<NetUplift> net_uplift;
};

struct AsBuilt {                              // [[as_built]]
  Maybe<std::string> wall, brace, use, foot;  // of a fixing `wall`, of a brace `brace`
  Maybe<Length> planned, at, edge;
  Maybe<std::vector<Maybe<Angle>>> angle;  // one, or of a pair two
  Maybe<bool> missing;
};

struct LinesApart {  // by_floor: written floor by floor; else one length for every floor
  Maybe<Length> ground, first;
  bool by_floor = false;
};
struct Bracing {  // [bracing]
  Maybe<LinesApart> lines_at_most;
  Maybe<std::string> given_by, least;
};

struct Job {
  Drawing drawing = Drawing::none;
  Head job;
  Site site;
  std::map<std::string, Block> blocks;
  UnlessNoted unless_noted;
  std::map<std::string, Mark> marks;
  Walls walls;
  std::map<std::string, Veranda> verandas;
  Slab slab;
  Frame frame;
  Bracing bracing;
  std::vector<AsBuilt> as_built;
  Texts checked;                    // figure -> who compared it, when, with which copy
  std::vector<std::string> unread;  // paths that were written but not read
};

}  // namespace belay::raw
