// What methods share that divide a building into zones: openings by face, the level part of the pressure on a slope,
// and which way a wall runs as the wind sees it.
#pragma once
#include "wind/methods.hpp"

namespace belay {

// May stand open when the wind comes: what nothing closes; a door of `wide` or more, or anything the job calls too weak
// or not known, that is not known to stand the wind; where debris flies anything not known to stand that.
// covers: whether a rating as the job writes it stands the wind.
struct OpeningRule {
  Length wide;
  bool debris;
  std::function<bool(const std::string&)> covers;
};
bool may_stand_open(const Opening&, const OpeningRule&);
// A rating written as a speed ("50 m/s", "130 mph") of at least `speed`.
bool rated_for_speed(const std::string& rating, Speed);

// gross: of the wall with what stands upright on it (gable; a skillion's ends and high face), without a gable that
// stands further in, on a hip end. may_be_open holds stated_open as well.
struct FaceOpenings {
  Area gross, stated_open, may_be_open;
};
FaceOpenings openings_in(const WindAsk&, Side, const OpeningRule&);
Area roof_on_slope(const Shape&);  // over the house, with the gables that stand on hip ends

// The vertical projection of a piece of roof on the elevation that its slope falls to; may have no area.
Polygon upright(const Shape&, const Surface&, const Polygon& plan);
// The level part of the pressure on each roof zone (soffits left out). `push`: the outside pressure of a zone with its
// label and words; `towards` and `part` are set here.
std::vector<Push> roof_pushes(const Shape&, const Layout&, const std::function<Push(const Zone&)>& push);

// Whether the wall's own axis (x or y of the block) runs as the seen one does: x for walls along the wind, y for
// others.
bool runs_as_seen(const Shape&, const Frame8&, Side);
Length length_of(const Shape&, Side);  // of that wall

}  // namespace belay
