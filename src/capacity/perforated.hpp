// Sheeted walls with openings that are held down at their two ends alone.
#pragma once
#include "belay/job.hpp"
#include "belay/result.hpp"
#include "belay/working.hpp"
#include "wind/table.hpp"
#include <vector>

namespace belay {

// A wall of such pieces in a run, as planned: one entry of the fixings with nothing but openings between, from the
// first piece that is long enough to count to the last. What stands between and is too short counts as an opening of
// the wall's height.
struct PerforatedWall {
  struct Part {
    std::size_t piece;  // of the wall's run
    bool counts;        // a sheeted piece that is long enough; else an opening, or as one
  };
  std::vector<Part> parts;  // in their order, the first and the last count
  Length from, to;
};
// The one that a brace's piece stands in; nothing: the brace is none of the kind, or too short past the last that
// counts.
std::optional<PerforatedWall> perforated_wall(const House&, const Wall&, std::size_t piece);
std::string words(const Wall&, const PerforatedWall&);  // "A1 to A3", of one piece "A1"

// Conditions of the wall as a whole: its height, joints of frames and steps of the floor in it.
std::vector<Condition> perforated_conditions(const House&, const Wall&, const PerforatedWall&, const PerforatedBrace&,
                                             const Table& practice);

// The factor for its openings, and the length of one piece that counts, each with its symbol.
struct PerforatedFactor {
  As<double> factor;
  As<Length> counted;
};
PerforatedFactor perforated_factor(const House&, const Wall&, const PerforatedWall&, std::size_t piece,
                                   const Table& practice, Working*);

// What such a sheet may count for each length: the entry's rate for design, at most the standard's.
LineLoad perforated_rate(const PerforatedBrace&, const Table& practice, Working*);

}  // namespace belay
