// The house as the job states it, settled: runs added up, defaults taken (and where from), marks and fixings found.
// Lengths across the sheet run from the left, up the sheet from the front. Outside walls are given by
// their outside face, inside walls by the line that the drawing gives.
#pragma once
#include "belay/fixings.hpp"
#include "belay/units.hpp"
#include <string>
#include <variant>
#include <vector>

namespace belay {

enum class Side : unsigned char { left, front, right, back };  // of a block; front is the bottom of the sheet
enum class Along : unsigned char { across, up };               // the way a wall or a ridge runs on the sheet
std::string_view words(Side);                                  // "front"

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
struct Brace {
  std::string name;          // "A1": wall and number, counted from the wall's start
  Chosen fixing, hold_down;  // no hold_down: the anchor that stands within 150 mm, if any
  Length hold_down_in;       // from the brace's end to its hold-down
  bool plate_anchors_share;  // stated: anchors within its length share the slide
  std::optional<Side> foot;  // a single strap: the end (left or right) at which its foot stands
};
// One piece of a wall's run, from its left end (side walls: from the front). Neither opening nor brace: plain wall.
struct Piece {
  Length from, to;
  std::optional<Opening> opening;
  std::optional<Brace> brace;
};
struct Wall {
  std::string name, at;  // at: "file:line"
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
  Length length() const { return to - from; }
};
struct RoofWeight {
  Pressure least, greatest;
  bool on_slope;
};
struct Roof {
  Along ridge;
  Angle pitch;
  Length eaves, verge;
  RoofWeight weight;
};
// at: along the ridge, from the left or the front.
struct Truss {
  std::string mark;
  Length at;
  Chosen bracket;
};
// beyond: of the frame's outside face.
struct Slab {
  std::optional<Length> thickness;
  std::optional<Pressure> concrete;
  std::optional<bool> cracked;
  Length beyond;
};
struct Frame {
  std::optional<Length> steel;
  std::optional<std::string> joint_group;
};

// Ways to state the wind. A method reads its own alternative.
struct ClassSite {
  std::string wind_class, given_by, at;
};
struct AsceSite {
  std::string edition;  // "7-10"
  Speed speed;
  std::string speed_is;               // "ultimate", "nominal"
  std::string exposure, risk, level;  // "B"; "I".."IV"; "allowable", "strength"
  std::optional<bool> debris_region;  // wind-borne debris region; asked for from the speed where one may lie
  std::string given_by, at;
};
using SiteAsk = std::variant<ClassSite, AsceSite>;

// what: a kind of link.
struct ByOthers {
  std::string what, who;
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
  SiteAsk site;
  std::string block;
  Length across, up, floor_level, height;
  Roof roof;
  Pressure wall_weight;        // wall_weight 0: none stated, no relief from it
  std::vector<Truss> trusses;  // by `at`, ascending
  std::vector<Wall> walls;     // in the order of their names
  Chosen top_tie, stud_tie, plate_fixing;
  Slab slab;
  Frame frame;
  Fixings fixings;
  std::vector<std::string> remarks;  // what was understood or assumed, for `show`
};

}  // namespace belay
