// What a strap and the fixing at its end hold: as the sheet states it, or worked out from steel and screws.
#pragma once
#include "belay/job.hpp"
#include "belay/result.hpp"
#include "belay/working.hpp"
#include "wind/table.hpp"
#include <string_view>
#include <vector>

namespace belay {

// Of the entry alone and of the frame's steel that its screws go into: what is not stated, and the screws' places.
std::vector<Condition> strap_conditions(const House&, const StrapBrace&, const Table& practice);

struct StrapHolds {
  Force strap, end;     // each for design
  std::uint64_t marks;  // from-memory entries of the practice table that they rest on
};
// Precondition: every condition of the entry is met.
StrapHolds strap_holds(const House&, const StrapBrace&, const Table& practice, std::string_view strap_symbol,
                       std::string_view end_symbol, Working*);

}  // namespace belay
