// What cold-formed steel and the screws at its ends hold, worked out by the standard that an entry names: straps, ties
// and brackets.
#pragma once
#include "belay/job.hpp"
#include "belay/result.hpp"
#include "belay/working.hpp"
#include "wind/table.hpp"
#include <string_view>
#include <vector>

namespace belay {

// What the screws go into: the frame's steel, or a truss's too, of which the job says nothing.
enum class Into : unsigned char { frame, roof };

// Of the entry alone and of the steel that its screws go into: what is not stated, and the screws' places. Empty where
// nothing is worked out.
std::vector<Condition> steel_conditions(const House&, const Terms&, const SteelMade&, Into, const Table& practice);
// The same, and what neither the sheet states nor the entry lets work out.
std::vector<Condition> strap_conditions(const House&, const StrapBrace&, Into, const Table& practice);

struct SteelHolds {
  Force steel, end;     // each for design
  std::uint64_t marks;  // from-memory entries of the practice table that they rest on
  Force weaker() const { return end < steel ? end : steel; }
  Gives gives() const { return {end < steel ? "screws" : "section", ""}; }
};
// Of an entry that is worked out, its screws with it. Precondition, of these three: every condition of it is met.
SteelHolds steel_holds(const House&, const Terms&, const SteelMade&, const Table& practice,
                       std::string_view steel_symbol, std::string_view end_symbol, Working*);
SteelHolds strap_holds(const House&, const StrapBrace&, const Table& practice, std::string_view strap_symbol,
                       std::string_view end_symbol, Working*);
// The weaker of steel and screws, told down to `symbol`.
SteelHolds tell_weaker(const House&, const Terms&, const SteelMade&, const Table& practice, std::string_view symbol,
                       Working*);

}  // namespace belay
