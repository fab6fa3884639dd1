// The house as the job states it, settled: runs added up, defaults taken (and where from), marks and fixings found.
// Lengths across the sheet run from the left, up the sheet from the front. Outside walls are given by
// their outside face, inside walls by the line that the drawing gives.
#pragma once
#include "belay/fixings.hpp"
#include "belay/units.hpp"
#include <array>
#include <string>
#include <variant>
#include <vector>

namespace belay {

enum class Side : unsigned char { left, front, right, back };  // of a block; front is the bottom of the sheet
enum class Along : unsigned char { across, up };               // the way a wall or a ridge runs on the sheet
std::string_view words(Side);                                  // "front"
enum class Floor : unsigned char { ground, first };            // first: the one above the ground floor
std::string_view words(Floor);                                 // "ground"
// The drawing seen in a mirror: left for right, or front for back.
enum class Mirror : unsigned char { left_right, front_back };
std::string_view words(Mirror);  // "left to right"
// How a ceiling hands the wind to the bracing lines. flexible: as simple spans from line to line. rigid: it goes along
// and turns as one, lines hold it by their stiffness. both: the worse of the two, link by link.
enum class Ceiling : unsigned char { flexible, rigid, both };
std::string_view words(Ceiling);  // "flexible"

// A fixing that the job picked. by: "unless noted", "mark B"...; at: "file:line". No name: the job gives none.
struct Chosen {
  std::string name, by, at;
  bool given() const { return !name.empty(); }
};

struct Opening {
  std::string mark;
  Length height, width;
  bool door;         // stands on the floor: stated, or as high as a door is (wide ones: from 1500 mm)
  bool stands_open;  // stated: nothing closes it
  std::optional<std::string> wind_rated;  // as written: "N3", "130 mph", "not known"
  Chosen jamb;                            // the fixing at the foot of its jambs; none: a plate anchor
  bool impact_rated;                      // stated: stands what a storm carries (debris regions)
};
// A brace as it was found on site. Its measured angles to the plate: of a strap, of a pair one or both. planned: what
// the plan has there, where another fixing was found. foot_moved: its foot was found at the plan's other end. at:
// "file:line".
struct FoundBrace {
  std::string at;
  bool missing = false;
  std::vector<Angle> angles = {};
  std::optional<Chosen> planned = std::nullopt;
  bool foot_moved = false;
};
struct Brace {
  std::string name;             // "A1": wall and number, counted from the wall's start
  Chosen fixing, hold_down;     // no hold_down: the anchor that stands within 150 mm, if any
  Length hold_down_in;          // from the brace's end to its hold-down
  bool plate_anchors_share;     // stated: anchors within its length share the slide
  std::optional<Side> foot;     // a single strap: the end (left or right) at which its foot stands
  Chosen end_studs = {};        // at either end; none: what presses there is told, not judged
  bool round_openings = false;  // stated: of a wall with openings, the sheet goes on above and below them
  std::optional<FoundBrace> found = std::nullopt;  // none: as planned, as far as anybody looked
  const Chosen& planned() const { return found && found->planned ? *found->planned : fixing; }
  bool found_another() const { return found && found->planned; }
  bool missing() const { return found && found->missing; }
  bool measured() const { return found && !found->angles.empty(); }
};
// One piece of a wall's run, from its left end (side walls: from the front). Neither opening nor brace: plain wall.
struct Piece {
  Length from, to;
  std::optional<Opening> opening;
  std::optional<Brace> brace;
};
// A frame as it comes off the truck. mark: "" where the drawing gives none. Places as those of pieces.
struct ShopFrame {
  std::string mark;
  Length from, to;
};
// name: as people say it: "A"; in a house of two floors "ground A", "first A". at: "file:line".
struct Wall {
  std::string name, at;
  bool outside;
  Side side;  // side: of an outside wall
  Along runs;
  Length line;                // how far the wall's line stands from the front (runs across) or the left (up)
  Length from, to;            // its extent along its own direction, in the block
  std::vector<Piece> pieces;  // positions from the wall's own start, covering 0 to `to - from`
  Chosen anchor;
  Length anchor_spacing;  // greatest spacing of plate anchors
  Length plate_width;     // of the bottom plate; 0: not stated
  Length fixing_in;       // from a jamb or a wall's end to the fixing beside it: `hold_down_in`
  Chosen top_tie = {}, stud_tie = {}, plate_fixing = {};
  Floor floor = Floor::ground;
  std::string key = {};                   // the job's own word for it: "A" on either floor
  std::vector<ShopFrame> frames = {};     // from one end to the other; their joints part both plates. None: not told
  std::vector<std::size_t> blocks = {0};  // that it stands in or bounds, ascending: 0 the main block, then the wings
  std::vector<Length> steps = {};  // from the wall's start: where its floor steps; its bottom plate is parted there
  bool anchor_each_joist = false;  // where it crosses the joists under it; else `anchor_spacing`
  Length length() const { return to - from; }
};
struct RoofWeight {
  Pressure least, greatest;
  bool on_slope;
};
// gable: two slopes and a gable at each end. hip: one or both ends slope as well. skillion: one slope, under half
// trusses on level walls, with an upright face above its high wall. flat: a skillion of five degrees or less.
enum class RoofShape : unsigned char { gable, hip, skillion, flat };
std::string_view words(RoofShape);  // "gable"
// Lists of four are in the order of Side.
struct Roof {
  Along ridge;          // skillion, flat: the way its high edge runs
  Angle pitch;          // of every slope that has none of its own
  Length eaves, verge;  // past a wall that a slope falls to; past every other wall
  RoofWeight weight;
  RoofShape shape = RoofShape::gable;
  Side high = Side::back;                              // skillion, flat: the high side
  std::array<bool, 4> hipped = {};                     // hip: the ends that slope
  std::array<std::optional<Angle>, 4> own_pitch = {};  // of the slope that falls to that side
  std::array<std::optional<Length>, 4> own_overhang = {};
  std::array<Length, 4> gable_above = {};  // of a hip end: how far in from its wall a gable stands on it; 0: none
};
// Across the ridge, from wall to wall: a truss, a hip girder, a half truss. at: along the ridge, from the left or the
// front. also_on: names of the inside walls that it bears on as well. clear_of: the side at which it bears on no
// outside wall: past the inside wall nearest to that side it sticks out to its end.
struct Truss {
  std::string mark;
  Length at;
  Chosen bracket;
  bool girder = false;  // a hip girder: the jacks of its end bear on it
  int plies = 1;        // alike, side by side, acting as one
  std::vector<std::string> also_on = {};
  std::optional<Side> clear_of = std::nullopt;
};
// What stands between a hip end's wall and its girder: jacks square to the wall, hip rafters from the corners, and
// short jacks (creepers) from the walls up to the hip rafters. bracket: on a wall; onto: on the girder or the hip
// rafter.
struct HipEnd {
  Side side;
  std::string jack, rafter;  // marks
  Length jacks;              // greatest space between jacks
  Chosen jack_bracket, jack_onto, rafter_bracket, rafter_onto;
};
// A strap in the plane of a slope, from its foot on the wall's top plate to its head up the slope. foot, head: places
// along the ridge, from the left or the front. A pair: the one that crosses it too. name: "front 1", counted on its
// slope.
struct RoofBrace {
  std::string name;
  Side slope;  // the side that the slope falls to
  Length foot, head;
  std::optional<Length> up_to;  // level, from the wall to the head; none: the head stands at the ridge or high edge
  Chosen fixing;
};
// A net pressure upwards that somebody typed in: square to the slope, before the roof's weight and any factor.
struct NetUplift {
  Pressure pressure;
  std::string given_by;
};
// Under a veranda's posts. width, length: of its plan; weight: of a volume of its concrete.
struct Footing {
  std::optional<Length> thickness, edge;  // edge: from a post's anchor to the concrete's nearest edge
  std::optional<Pressure> concrete;
  std::optional<bool> cracked;
  std::optional<Length> width = std::nullopt, length = std::nullopt;
  std::optional<WeightDensity> weight = std::nullopt;
};
// An open-sided roof of one slope that leans on an outside wall of the ground floor and falls away from it to a beam on
// posts. rafters, posts: places along the wall, from the wall's start; the first and the last of either stand at the
// veranda's two ends. at: "file:line".
struct Veranda {
  std::string name, at, wall;  // wall: as people say it
  Length from, to;             // along that wall, from its start
  Length depth, overhang;      // level: from the wall's outside face to the posts; past them
  Angle pitch;
  Pressure weight;  // on plan
  std::string mark;
  std::vector<Length> rafters, posts;
  Chosen at_wall, at_beam, post_top, post_foot;
  Footing footing;
  std::optional<NetUplift> net_uplift;  // none: what lifts it is not known
  Length length() const { return to - from; }
};
// Trusses of a wing's roof that are set on the trusses of the main block below, level across them. max: greatest space
// between two; onto: the fixing at each crossing.
struct Valley {
  std::string mark;
  Length max;
  Chosen onto;
};
// A rectangular block with a roof of its own that stands with one whole side against a side of the main block. All
// lengths and places of its roof, trusses and hip ends are in its own axes: from its own left and front.
struct Wing {
  std::string name, at;        // at: "file:line"
  Length left, front;          // of its left front corner, in the main block's axes
  Length across, up, height;   // height: as House::height
  Length level;                // of its floor above the main block's; negative: set down
  Side joint;                  // its own side that stands against the main block
  Roof roof;                   // gable or hip, its ridge square to the joint; nothing of the joint's side slopes
  std::vector<Truss> trusses;  // the last of them towards the main block stands at the joint
  std::vector<HipEnd> hip_ends;
  std::optional<Valley> valley;  // none: no part of its roof lies over the main block
};
// The concrete that runs on under a wall: a thickened edge of the slab, a strip footing. Under an outside wall its
// width reaches inwards from the frame's outside face, under an inside wall it lies on the wall's line.
struct Edge {
  Length width, depth;
  Length slab_width, slab_thickness;  // of the slab beside it that comes up with it; zero: none
  std::optional<Length> lifted;       // the length that one fixing may call on; none: half way to its neighbours
  std::string given_by;
};
// The whole house on its slab, as one block on the ground. thickness: of the floor between the edges; friction: between
// concrete and ground.
struct WholeSlab {
  Length thickness;
  std::optional<double> friction;
  std::string given_by;
};
// beyond: of the frame's outside face. weight: of a volume of its concrete; stated where an edge or the whole is. edge,
// inside: under outside and inside walls; none: what the ground under their fixings holds is not known.
struct Slab {
  std::optional<Length> thickness;
  std::optional<Pressure> concrete;
  std::optional<bool> cracked;
  Length beyond;
  std::optional<WeightDensity> weight = std::nullopt;
  std::optional<Edge> edge = std::nullopt, inside = std::nullopt;
  std::optional<WholeSlab> whole = std::nullopt;
};
// How a framed floor's joists lie. Their middles stand one spacing apart, measured from the block's left or front, or
// from the far side (from_far); one more lies along each of the two outside walls that run their way. edge: a member
// runs under all outside walls. blocking: a piece is set between two joists under every fixing that meets none.
struct Joists {
  Along runs;
  Length spacing, width;
  bool from_far, edge, blocking;
};
// A framed floor on the ground floor's walls, with walls of its own. depth: from the top of the ground floor's walls to
// the underside of the first floor's bottom plates. joists: none where nothing is said of them. weight: that is sure to
// be there; zero: none stated. greatest_weight, live: what presses on the walls below, live without any factor.
struct FirstFloor {
  Length height, depth;  // height: of its walls, as House::height
  Chosen tie;            // carries what lifts a fixing of its walls down to the wall below
  Chosen fixing;         // of the floor on to the walls below, along each bracing line; greatest space between two
  Length fixing_spacing;
  std::optional<Joists> joists = std::nullopt;
  Pressure weight = {};
  std::optional<Pressure> greatest_weight = std::nullopt, live = std::nullopt;
};
// Under the walls of a ground floor that no slab carries: at equal spaces from one end of each wall to the other.
struct Stumps {
  Length max;  // the greatest space between two
  Chosen tie;  // of the floor's bearer on to a stump
  Footing footing;
};
// What keeps the floor from swaying on its stumps, one way.
struct SubfloorBraces {
  Chosen use;  // a bought unit
  int count;
};
// A ground floor framed on stumps. The way down to the ground is House::floor_level. weight: as of a first floor.
struct StumpFloor {
  std::optional<Joists> joists = std::nullopt;
  Pressure weight = {};
  std::optional<Stumps> stumps = std::nullopt;
  std::optional<SubfloorBraces> across = std::nullopt, up = std::nullopt;
};
struct Frame {
  std::optional<Length> steel;
  std::optional<std::string> joint_group;
  std::optional<Pressure> yield = std::nullopt, ultimate = std::nullopt;  // of the frame's steel
};

// Ways to state the wind. A method reads its own alternative. `at`: "file:line" of what was stated.

// A rise of the ground that the wind comes over. Lengths that the method in hand does not go by are zero.
enum class HillShape : unsigned char { hill, ridge, escarpment };
std::string_view words(HillShape);  // "hill"
struct Hill {
  HillShape shape;
  Length rise;            // of the crest above the ground before the slope
  Length to_half_height;  // AS/NZS 1170.2, ASCE 7: level distance from the crest, upwind, to half the rise
  Length upwind_slope, downwind_slope;  // EN 1991-1-4: their level lengths; downwind: of hills and ridges
  Length past_crest;                    // of the house; negative: it stands before the crest (a job's `before_crest`)
  std::string at;
  Length behind_to_half_height = {};  // ASCE 7: on the far side of a hill or ridge; 0: as on this side
};
// Buildings upwind that shield: those no lower than this house, in a sector of 45 degrees, within twenty of its
// heights.
struct Buildings {
  int count;
  Length height, breadth;  // on the average; breadth: across the wind
};
// What the wind comes over from one of the eight directions.
struct Upwind {
  std::string terrain;              // "2.5"
  std::optional<double> shielding;  // stated
  std::optional<Buildings> buildings;
  std::optional<Hill> hill;  // none: flat
  std::string at;
};
inline constexpr std::array<std::string_view, 8> directions{"N", "NE", "E", "SE", "S", "SW", "W", "NW"};

// What an engineer typed in instead of a site worked out: at most one.
struct TypedIn {
  std::optional<Speed> gust;         // at roof height, for every direction
  std::optional<Pressure> pressure;  // of the gust: q, q_h, q_p
  bool given() const { return gust.has_value() || pressure.has_value(); }
};

// A user's own table of classes, row by row; an empty list fits everything.
struct ClassRow {
  std::vector<std::string> region, terrain, topography, shielding;
  std::string wind_class, at;
};
struct ClassTable {
  std::string file, source;
  std::vector<ClassRow> rows;
};
// From what a class is worked out. topography: "flat", a word of the user's table, or "" where a hill stands.
struct ClassFrom {
  std::string region, terrain, shielding, topography;
  std::optional<Hill> hill;
  std::optional<ClassTable> table;
};
struct ClassSite {
  std::string wind_class, given_by, at;          // wind_class: "" where it is to be worked out
  std::optional<ClassFrom> from = std::nullopt;  // then this
};
struct AsceSite {
  std::string edition;  // "7-10"
  Speed speed;
  std::string speed_is;               // "ultimate", "nominal"
  std::string exposure, risk, level;  // "B"; "I".."IV"; "allowable", "strength"
  std::optional<bool> debris_region;  // wind-borne debris region; asked for from the speed where one may lie
  std::string given_by, at;
  std::string procedure = "envelope";                 // or "directional"
  std::optional<Hill> hill = std::nullopt;            // none: flat
  std::optional<Length> ground_level = std::nullopt;  // above the sea; none: at the sea, which is safe
  TypedIn typed = {};
};
// AS/NZS 1170.2, and NZS 3604 by its zones: the latter state `zone` and nothing of the ground.
struct AsNzsSite {
  std::string family, edition;  // "as-nzs-1170-2", "2021"; "nzs-3604", "2011"
  std::string region;           // "A2"
  int years, service_years;     // 500: the gust is exceeded once in 500 years
  std::optional<Angle> north;   // clockwise from up the sheet; none: not known
  std::array<Upwind, 8> from;   // by direction, as in `directions`
  Length ground_level;          // above the sea
  std::string zone;             // NZS 3604: "H"
  bool sealed;                  // the house is as good as airtight
  std::optional<bool> debris_region;
  TypedIn typed;
  std::string given_by, at;
};
// EN 1991-1-4. What a country chooses stands here where it differs from what the standard recommends.
struct EnSite {
  std::string edition;  // "2005"
  Speed speed;          // fundamental basic wind velocity, mean of ten minutes
  std::string terrain;  // "II"
  std::optional<Hill> hill;
  std::optional<double> directional, season, probability;  // c_dir, c_season, c_prob
  std::optional<Density> air;
  TypedIn typed;
  std::string given_by, at;
};
using SiteAsk = std::variant<ClassSite, AsceSite, AsNzsSite, EnSite>;
// The job's word for each of several sites ("asce-7-16"), in the job's order.
struct NamedSite {
  std::string name;
  SiteAsk site;
};

// By which rules each bracing line must hold a least amount, whatever the wind is.
enum class LeastBracing : unsigned char { nzs_3604 };
std::string_view words(LeastBracing);  // "NZS 3604"
// What the job itself asks of bracing lines. at_most: the greatest distance between two, floor by floor, and who gave
// it.
struct BracingAsked {
  std::array<std::optional<Length>, 2> at_most;
  std::string given_by;
  std::optional<LeastBracing> least;
};

// what: a kind of link.
struct ByOthers {
  std::string what, who;
};
// A fixing through a bottom plate as it was found on site. wall: its name. planned: where the plan has it, from the
// wall's start as built; none: it is not in the plan. at: where it was found; none: where it is planned. edge: from its
// middle to the concrete's nearest edge, as measured. use: what stands there; not given: what is planned. at_line:
// "file:line".
struct AsBuilt {
  std::string wall, at_line;
  std::optional<Length> planned, at, edge;
  Chosen use;
  bool missing;
};
// A change of the job that is tried without touching its file. before, at: what the file says there, and where; "": it
// says nothing.
struct TriedChange {
  std::string key, value, before, at;
};
struct CheckedFigure {
  std::string figure, who;
};
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wshadow"  // g++ takes the scoped names for the two `Units`
enum class Print : unsigned char { metric, us };
#pragma GCC diagnostic pop

struct House {
  std::string title, drawn, file, sha256;  // file: as the user named it
  Print print;
  int importance;
  std::vector<ByOthers> by_others;
  std::vector<CheckedFigure> checked;
  SiteAsk site;                       // by which the house is judged
  std::vector<NamedSite> sites = {};  // all that the job states
  std::string block;
  Length across, up, floor_level, height;  // height: of the ground floor's walls
  Roof roof;
  Pressure wall_weight;        // wall_weight 0: none stated, no relief from it
  std::vector<Truss> trusses;  // by `at`, ascending; at a hip end the first or last is its girder
  std::vector<Wall> walls;     // the ground floor's in the order of their names, then the first floor's
  Slab slab;
  Frame frame;
  Fixings fixings;
  std::vector<std::string> remarks;  // what was understood or assumed, for `show`
  std::vector<HipEnd> hip_ends = {};
  std::optional<FirstFloor> first = std::nullopt;  // over all of the main block's plan
  std::vector<RoofBrace> roof_braces = {};         // as the job lists them
  std::vector<Veranda> verandas = {};              // in the order of their names
  std::optional<Mirror> mirror = std::nullopt;     // how it is built from its drawing; all that stands here is as built
  std::vector<Wing> wings = {};                    // in the order of their names; of one floor
  Ceiling ceiling = Ceiling::flexible;             // of every floor and block
  std::vector<AsBuilt> as_built = {};              // in the job's order
  std::vector<TriedChange> tried = {};             // what is not in the file, in the order in which it was put in
  std::optional<StumpFloor> framed = std::nullopt;  // of one block; none: the ground floor stands on a slab
  BracingAsked bracing = {};
};
// The house as one block sees it: that block as the main one, all walls in its axes and in their order, no wings.
House seen_from(const House&, std::size_t block);
// The corner of a block in the main block's axes, and how far its floor stands above the main block's.
Length left_of(const House&, std::size_t block);
Length front_of(const House&, std::size_t block);
Length level_of(const House&, std::size_t block);
std::string_view name_of(const House&, std::size_t block);
Length extent_of(const House&, std::size_t block, Along);  // of its plan that way
bool stands_in(const Wall&, std::size_t block);
Length height_of(const House&, const Wall&);  // underside of its bottom plate to top of its top plate
Floor top_floor(const House&);                // the one under the roof
Length wall_height(const House&, Floor);      // underside of the bottom plate to top of the top plate
// Heights above the underside of the ground floor's bottom plates.
Length foot_of_walls(const House&, Floor);
Length top_of_walls(const House&);  // under the roof

}  // namespace belay
