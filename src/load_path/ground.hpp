// The concrete that the fixings of the ground floor's walls pull at, and what of its weight each may count on. None of
// it counts twice: without a stated length a fixing has what lies half way to its neighbours; with one, it and any row
// of neighbours that pull with it have no more than what lies within that length of one of them.
#pragma once
#include "load_path/forces.hpp"
#include <optional>
#include <string>
#include <vector>

namespace belay {

// A row of fixings of one wall that pull at the same concrete. from, to: the stretch of it, from the wall's start.
struct PulledEdge {
  std::size_t first, last;  // in WallSetOut::supports
  Length from, to;
  Force pull, holds;
};

// Nothing: the job does not say what it weighs.
std::optional<Force> footing_weighs(const Footing&, std::string_view source, Working*);

class Ground {
 public:
  explicit Ground(const Forces&);
  // What the job says of the concrete under a wall of the ground floor; null: nothing.
  const Edge* under(std::size_t wall) const;
  // A wall under which lies some of the same concrete, as the job has it; nothing: none.
  std::optional<std::size_t> overlaps(std::size_t wall) const { return overlaps_[wall]; }
  // The fixings whose pull may be in what the concrete under this one has to hold: itself, and of a stated length all
  // of its wall. Empty: the job says nothing of the concrete.
  std::vector<std::size_t> sharers(std::size_t wall, std::size_t support) const;

  // In one case. Alone: its own pull and its own stretch. The row: with those beside it that leave least to spare; the
  // fixing alone, where none pulls with it.
  PulledEdge alone(std::size_t load_case, std::size_t wall, std::size_t support) const;
  PulledEdge row(std::size_t load_case, std::size_t wall, std::size_t support) const;
  // Those of a row that pull.
  std::vector<std::size_t> pulling(std::size_t load_case, std::size_t wall, const PulledEdge&) const;
  // Tells what a stretch holds; its last step has the symbol. The pulls are told before.
  void tell(std::size_t load_case, std::size_t wall, const PulledEdge&, const std::string& symbol, Working&) const;

  // Of a veranda's post, under the least factor on weight of all cases. Nothing: the job does not say what its footing
  // weighs.
  std::optional<Force> footing_holds(std::size_t post, Working* = nullptr) const;

 private:
  struct Stretch {
    Length from, to;
  };
  Stretch level_part(std::size_t wall, Length at) const;  // between steps and corners, at that place
  Stretch reach(std::size_t wall, std::size_t support) const;
  Force holds(std::size_t load_case, std::size_t wall, Length from, Length to) const;

  const Forces& f_;
  Length corner_;  // the most that one wall's concrete takes up of another's at its end
  std::vector<std::vector<Stretch>> reach_;
  std::vector<std::optional<std::size_t>> overlaps_;
};

}  // namespace belay
