// What a strap in the plane of the roof can hold, and on what conditions.
#pragma once
#include "belay/job.hpp"
#include "belay/result.hpp"
#include "belay/working.hpp"
#include "wind/table.hpp"
#include <string>
#include <vector>

namespace belay {

struct RoofStrapCapacity {
  Force holds;  // in tension: the lesser of the strap and its end fixing; nothing where one of them is not known
  std::vector<Condition> conditions;
  std::string refused;               // why it does not count: a Why code, "" when it counts
  std::uint64_t practice_marks = 0;  // from-memory entries of the practice table that it rests on
  bool end_first = false;            // its end fixing gives before it
};
// to_ridge: the angle between strap and ridge, in the slope's plane. `symbol` names what it holds in the working.
RoofStrapCapacity roof_strap_capacity(const House&, const RoofBrace&, Angle to_ridge, const Table& practice,
                                      bool cyclonic, std::string_view symbol, Working*);

}  // namespace belay
