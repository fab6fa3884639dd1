// Geometry alone: the building in plan and in elevation. Knows no wind.
// Axes of a block: x across the sheet from the left, y up the sheet from the front, heights above the bottom plate.
#pragma once
#include "belay/job.hpp"
#include "belay/units.hpp"
#include <array>
#include <optional>
#include <vector>

namespace belay {

struct Point {
  Length x, y;
};
using Polygon = std::vector<Point>;  // convex, counter-clockwise; plan (x, y) or elevation (along, up)

// The four ways to face or blow: the first is +x. `toward(Side)`: the outward way of a side.
enum class Way : unsigned char { right, back, left, front };  // +x, +y, -x, -y
Way opposite(Way);
Way outward(Side);
Side side_facing(Way);  // the side whose outside looks that way
bool is_across(Way);    // right or left: along x

Area area(const Polygon&);
AreaMoment moment_x(const Polygon&);  // first moment about x = 0; centroid x = moment_x / area
AreaMoment moment_y(const Polygon&);
Polygon rectangle(Length x0, Length x1, Length y0, Length y1);
// Parts of a convex polygon between two parallels; empty when nothing of it has an area.
Polygon between_x(const Polygon&, Length x0, Length x1);
Polygon between_y(const Polygon&, Length y0, Length y1);
inline constexpr Length everywhere = Length::from_value(1e6);

enum class Part : unsigned char { roof, overhang, soffit };  // over the house; past its walls, from above; from below
// A plane piece of the roof in plan. It falls towards `falls`; its height above the bearings at a point is
// `height_at`: zero on the wall's outside face below it, negative on the eaves. Soffits are level.
// foot: x or y of that face. side: the wall that the piece leans on: eaves (their corners too, parted at the hip) and
// slopes on the wall that the slope falls to, verges on the wall that they stand past. A slope that is cut by others
// into several convex pieces is several surfaces. A soffit falls as the piece above it, but a verge's soffit outwards.
// In a house of several blocks: block: whose roof it is of, as in Wall::blocks; held_by: whose members carry it; over:
// of a wing's roof that lies on another's, the way that the slope beneath it falls; base: how far the bearings of its
// own block stand above those of the block that holds it.
struct Surface {
  Part part;
  Polygon outline;
  Angle slope;
  Way falls;
  Length foot;
  Side side;
  std::size_t block = 0, held_by = 0;
  std::optional<Way> over = std::nullopt;
  Length base = {};
};
// Roof and overhang only; above the bearings of the block that holds it.
Length height_at(const Surface&, const Point&);

// A line on which slopes or a slope and a wall meet, in plan, with its heights above the bearings.
enum class RoofLineKind : unsigned char { ridge, hip, high_edge, gable_foot, valley };
std::string_view words(RoofLineKind);  // "ridge", "hip", "high edge", "foot of a gable", "valley"
struct RoofLine {
  RoofLineKind kind;
  Point from, to;
  Length from_up, to_up;
};
// What the roof does at one side of the block. pitch: of the slope that falls to it; zero where none does.
// meets: how far in from this side's wall its slope ends, in the middle: at the ridge, a hip's apex, the gable above
// it.
struct RoofSide {
  bool slopes = false;
  Angle pitch = {};
  Length overhang = {}, gable_above = {}, meets = {};
};

// What can be seen of a side: polygons in (along, up); along is x or y of the block, up from the bottom plate.
enum class ElevationPart : unsigned char { wall, gable, roof };
std::string_view words(ElevationPart);  // "wall", "gable", "roof"
struct Elevation {
  Side side;
  ElevationPart part;
  Polygon outline;
};

// eaves: the greatest overhang of a side that a slope falls to; verge: of the others (0: there are none). pitch: of the
// steepest slope across the ridge (a hip end's own stands in `sides`).
struct Shape {
  Length across, up;                              // plan, outside of frame
  Length wall_height, floor_level, eaves, verge;  // wall_height: of all floors together
  Along ridge;
  Angle pitch;
  Length span, length, rise;  // across the ridge; along it; of the highest point above the bearings
  Length racking_from;  // above the bottom plate: mid-height of the top floor's walls, where what racks them begins
  Length mean_roof_height, eaves_height,
      top;  // above ground: half-way up the roof; underside of eaves (top of wall, less the fall of the eaves); ridge
  std::vector<Surface> surfaces;
  // Walls to full height; what stands upright above a wall (gable; a skillion's ends and high face); roofs as seen
  // square on.
  std::vector<Elevation> elevations;
  RoofShape roof = RoofShape::gable;
  Side high = Side::back;              // skillion, flat
  std::array<RoofSide, 4> sides = {};  // in the order of Side
  std::vector<RoofLine> lines = {};
  std::array<Area, 4> walls_beside = {};    // upright faces of other blocks that look that way, in the order of Side
  Length whole_across = {}, whole_up = {};  // of a block, the outline of the whole house; zero: its own plan is all
  Length raised = {};  // by which a block's heights above ground stand for those of a higher block beside it
  const RoofSide& at(Side side) const { return sides[static_cast<std::size_t>(side)]; }
};
Shape shape_of(const House&);

// A truss's strip in plan: half-way to its neighbours, the end ones out to the verge; a hip girder's begins at its own
// place. Along the ridge, in the block.
struct Strip {
  Length from, to;
};
std::vector<Strip> strips(const House&, const Shape&);

// ---- the helper that keeps wind methods short: a zone is laid out once, for wind along +x onto the corner at the
// origin; the eight frames of a rectangle give every direction and corner, so mirrored buildings give mirrored answers.
struct Turn {
  int quarter;
  bool mirror;
};
inline constexpr std::array<Turn, 8> turns{
    {{0, false}, {1, false}, {2, false}, {3, false}, {0, true}, {1, true}, {2, true}, {3, true}}};
class Frame8 {
 public:
  Frame8(Length across, Length up, Turn);
  Length across() const, up() const;  // of the plan as the wind sees it
  Point seen(const Point&) const;
  Point own(const Point&) const;  // building to wind's frame, and back
  Polygon seen(const Polygon&) const;
  Polygon own(const Polygon&) const;  // orientation kept counter-clockwise
  Way seen(Way) const;
  Way own(Way) const;
  Along seen(Along) const;

 private:
  Length x_, y_;
  Turn t_;
};

}  // namespace belay
