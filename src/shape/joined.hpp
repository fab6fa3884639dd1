// Several blocks under one roof. Each block has the shape that it would have alone; where roofs meet the highest is the
// roof. Inside the main block's walls a wing's roof lies on that of the main block, whose members carry it there.
#pragma once
#include "shape/shape.hpp"
#include <vector>

namespace belay {

// A wing as a building of its own, in its own axes: its plan goes on past the joint, between its side walls, until its
// ridge comes out on the main block's roof (`into`; zero under an upright gable of the main block), and ends there
// upright, without overhang. left, front: of that longer plan's corner, in the main block's axes. level: of its
// bearings above the main block's. against: the side of the main block that it stands at.
struct WingShape {
  Shape shape;
  Length into, left, front, level;
  Side against;
};
// house: with its wings. A ridge that comes out nowhere ends above the main block's far wall.
WingShape shape_of_wing(const House& house, std::size_t wing);

// One of its surfaces was the surface `from` of the block it is of, or a part of it.
struct Joined {
  Shape shape;
  std::vector<std::size_t> from;
};
// All plans in the main block's axes. `shape` has the main block's measures (plan, heights, sides); its mean height,
// eaves and top are the most that any block has. Elevations: none (each block has its own).
//
// Surfaces, each with `block`, `held_by`, `over` and `base`; the main block's first, then wing by wing what the wing
// holds and what lies on the main block. Those roofs that the main block holds tile its plan once, those that a wing
// holds the wing's plan up to the joint; under valley trusses the wing holds its first bay inside the main block too.
// Of overhangs and their soffits is gone:
// - of a wing's all that goes on past the joint's line;
// - where a slope of the main block falls to the joint: of the main block's what a wing's roof or overhang covers, and
//   of the wing's overhangs what the main block's cover. Where the main block's eaves are higher than the roof over a
//   wing's own plan, both stay: that roof runs on below them, up to the wall.
// - at an upright gable of the main block: of its verge what a wing's roof or overhang covers, or reaches within a
//   millimetre. Where the wing is lower both stay.
// Where two roofs are of one height (within a millionth of a millimetre) the part is the main block's, but for
// overhangs over a wing's plan and at a gable.
//
// Lines: of all blocks, as far as they are seen, and the valleys (from their foot up); heights above the main block's
// bearings. Two wings' overhangs are not cut by each other.
Joined joined(const House& house, const Shape& main, const std::vector<WingShape>& wings);

// How far inside the main block's wall each of a wing's valley trusses stands, from the joint to where its ridge comes
// out, in equal spaces not above the greatest; none stands at either end. Up to half-way to the first of them the
// wing's roof is its last truss's, which stands at the joint.
std::vector<Length> valley_places(const House&, std::size_t wing);

// Of the house, whether it has wings or not: `joined`, or the shape of its one block.
Shape whole_shape(const House&);

// What of a polygon lies outside a convex one, as convex parts without overlap. Both counter-clockwise. The polygon
// itself where they have nothing in common.
std::vector<Polygon> outside_of(const Polygon&, const Polygon& convex);
Polygon moved(Polygon, Length x, Length y);
Polygon common(const Polygon&, const Polygon& convex);  // empty when nothing of it has an area

// Seen square on to a side: the outline of a block as it stands before or behind another, walls and roof between the
// walls' faces, up to its ridge: convex, counter-clockwise. (along, up) as in Elevation, in the block's own axes, up
// from its own bottom plate. What a gable on a hip end adds above the hip's slope is left out: never more than there
// is.
Polygon outline_from(const Shape&, Side);

}  // namespace belay
