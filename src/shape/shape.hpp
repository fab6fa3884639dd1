// Geometry alone: the building in plan and in elevation. Knows no wind.
// Axes of a block: x across the sheet from the left, y up the sheet from the front, heights above the bottom plate.
#pragma once
#include "belay/job.hpp"
#include "belay/units.hpp"
#include <array>
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
// foot: x or y of that face. side: the wall that the piece leans on: eaves (their corners too) and slopes on the wall
// that the slope falls to, verges on their gable wall.
struct Surface {
  Part part;
  Polygon outline;
  Angle slope;
  Way falls;
  Length foot;
  Side side;
};
Length height_at(const Surface&, const Point&);  // roof and overhang only

// What can be seen of a side: polygons in (along, up); along is x or y of the block, up from the bottom plate.
enum class ElevationPart : unsigned char { wall, gable, roof };
std::string_view words(ElevationPart);  // "wall", "gable", "roof"
struct Elevation {
  Side side;
  ElevationPart part;
  Polygon outline;
};

struct Shape {
  Length across, up;  // plan, outside of frame
  Length wall_height, floor_level, eaves, verge;
  Along ridge;
  Angle pitch;
  Length span, length, rise;  // across the ridge; along it; of the ridge above the bearings
  Length mean_roof_height, eaves_height,
      top;  // above ground: half-way up the roof; underside of eaves (top of wall, less the fall of the eaves); ridge
  std::vector<Surface> surfaces;
  std::vector<Elevation> elevations;  // walls to full height, gables, roofs as seen square on
};
Shape shape_of(const House&);

// A truss's strip in plan: half-way to its neighbours, the end ones out to the verge.
// Along the ridge, in the block.
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
