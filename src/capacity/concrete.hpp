// What one anchor holds in concrete where it stands, worked out by the code that its entry names: the steel, the cone,
// the pull-out of the head, the blow-out of the side face, the breakout of each edge and the pry-out. Others pull and
// push beside it: the concrete is shared as if all were loaded alike.
#pragma once
#include "belay/job.hpp"
#include "belay/result.hpp"
#include "belay/working.hpp"
#include "wind/table.hpp"
#include <array>
#include <cstdint>
#include <vector>

namespace belay {

// An edge of a slab's outline in plan, along `line` between two places. past: how far the slab goes on past it.
struct SlabEdge {
  Along runs;
  Length line, from, to, past;
};
// From a place in the slab to the sides of a rectangle about it that no edge enters, in the order of Side. Past the end
// of an edge, where the slab turns a corner inwards, it is cut there or beside it, where more of it stays.
std::array<Length, 4> slab_about(Length across, Length up, const std::vector<SlabEdge>&);

// Where an anchor stands in its slab. edges: how far the concrete goes on to each side, in the order of Side.
// neighbours: from it to the others, in plan. edges missing: the plate's width, and with it where the anchor stands, is
// not known.
struct StandsInSlab {
  struct Off {
    Length across, up;
  };
  std::optional<std::array<Length, 4>> edges;
  std::vector<Off> neighbours;
};

struct HeldByConcrete {
  std::optional<Force> pull, slide;  // for design; nothing where the job or the entry leaves out what they hang on
  Gives pull_gives, slide_gives;
  std::vector<Condition> conditions;
  std::uint64_t marks = 0;  // the from-memory entries that it rests on
};
// Told down to "C_pull" and "C_slide", in small units. Precondition: the anchor has a code by which it is worked out.
HeldByConcrete held_by_concrete(const House&, const Anchor&, const StandsInSlab&, const Table& codes, Working*);

// A condition that nothing meets: such an entry is worked out in the slab under the house's walls alone.
Condition worked_out_elsewhere(const Anchor&);
// How pull and slide of an anchor act together. Of one worked out that does not say: the straight sum, which is safe.
std::optional<Together> rule_of(const Anchor&);

}  // namespace belay
