// Where the joists of a framed floor lie, and whether a fixing meets one.
#pragma once
#include "belay/result.hpp"
#include "shape/shape.hpp"
#include <optional>
#include <vector>

namespace belay {

// Their middles, in order, from the block's left (joists that run up the sheet) or its front. Empty: nothing is said.
std::vector<Length> joist_places(const House&, Floor);
// What is said of the joists under a floor's walls; null: nothing.
const Joists* joists_under(const House&, Floor);
// Of a fixing that goes into timber or steel, in plan; nothing where nothing is said of joists under its wall.
std::optional<Condition> meets_a_joist(const House&, const Wall&, const Point&, const Anchor&);

}  // namespace belay
