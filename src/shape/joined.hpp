// Several blocks under one roof. Each block has the shape that it would have alone; where roofs meet the highest is the
// roof. Inside the main block's walls a wing's roof lies on that of the main block, whose members carry it there.
#pragma once
#include "shape/shape.hpp"
#include <vector>

namespace belay {

// A wing as a building of its own, in its own axes: its plan goes on past the joint, between its side walls, until its
// ridge comes out on the main block's roof (`into`; zero under an upright gable of the main block), and ends there
// upright, without overhang. left, front: of that longer plan's corner, in the main block's axes. level: of its
// bearings above the main block's.
struct WingShape {
  Shape shape;
  Length into, left, front, level;
};
// house: with its wings.
WingShape shape_of_wing(const House& house, std::size_t wing);

// One of its surfaces was the surface `from` of the block it is of, or a part of it.
struct Joined {
  Shape shape;
  std::vector<std::size_t> from;
};
// All in the main block's axes, heights above its bearings; `shape` has the main block's measures (plan, heights,
// sides), its mean height, eaves and top the most that any block has. Surfaces: each with `block`, `held_by`, `over`
// and `base`; together those held by the main block tile its plan and what is left of its overhangs once, those held by
// a wing its own. A part where two roofs are of one height is the main block's. Lines: of all blocks, as far as they
// are seen, and the valleys. Elevations: none (each block has its own; see `behind`).
Joined joined(const House& house, const Shape& main, const std::vector<WingShape>& wings);

// How far inside the main block's wall each of a wing's valley trusses stands, from the joint to where its ridge comes
// out, in equal spaces not above the greatest; none stands at either end. Up to half-way to the first of them the roof
// is the wing's last truss's, at the joint.
std::vector<Length> valley_places(const House&, std::size_t wing);

// Of the house, whether it has wings or not: `joined`, or the shape of its one block.
Shape whole_shape(const House&);

// What of a polygon lies outside a convex one, as convex parts without overlap. Both counter-clockwise.
std::vector<Polygon> outside_of(const Polygon&, const Polygon& convex);
Polygon common(const Polygon&, const Polygon& convex);  // empty when nothing of it has an area

// Seen square on to a side: the outline of a block as it stands before or behind another, walls and roof, up to its
// ridge: convex. (along, up) as in Elevation, in the block's own axes.
Polygon outline_from(const Shape&, Side);

}  // namespace belay
