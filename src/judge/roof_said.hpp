// The roof as it was understood, put into words and places for pages and drawings.
#pragma once
#include "belay/result.hpp"
#include "load_path/members.hpp"
#include <vector>

namespace belay {

RoofSaid roof_said(const House&, const Shape&, const std::vector<Member>&, const std::vector<Bearing>&);
// Of the block: the end whose slope a jack, a creeper or a hip rafter stands under. Precondition: it is one of these.
Side hip_end_of(const House&, const Shape&, const Member&);
// A hip girder, or a truss of several plies: what brings much to one place.
bool is_heavy(const Member&);

}  // namespace belay
