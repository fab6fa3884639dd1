// Where the fixings of a wall's bottom plate stand, and which loads land on which. Geometry and statics only.
#pragma once
#include "belay/check.hpp"
#include "belay/job.hpp"
#include "wind/table.hpp"
#include <optional>
#include <string>
#include <vector>

namespace belay {

enum class End : unsigned char { left, right };  // of a brace or an opening; of side walls: front, back
constexpr End other(End e) { return e == End::left ? End::right : End::left; }
std::string_view end_word(const Wall&, End);  // "left", or "front" on a side wall

enum class FixingKind : unsigned char { hold_down, jamb, anchor };
// piece: index in Wall::pieces.
struct BraceEnd {
  std::size_t piece;
  End end;
};
struct Jamb {
  std::size_t piece;
  End end;
};

// One fixing through the bottom plate. It may be the hold-down of brace ends and the fixing of jambs at once.
struct Support {
  std::size_t wall;
  Length at;  // from the wall's start
  FixingKind kind;
  Chosen fixing;
  std::size_t plate;  // which length of plate: doors, joints of frames and steps of the floor part it
  std::vector<BraceEnd> ends;
  std::vector<Jamb> jambs;
  Length from, to;                               // the stretch of wall whose square-on push comes to it
  std::optional<Length> edge = std::nullopt;     // to the concrete's nearest edge, where it was measured
  bool missing = false;                          // the only one of its plate, and not there
  std::optional<Length> planned = std::nullopt;  // where it was found elsewhere: where the plan has it
};
// Indices in WallSetOut::supports, ascending places.
struct Plate {
  Length from, to;
  std::vector<std::size_t> supports;
};
struct WallSetOut {
  std::vector<Support> supports;  // ascending
  std::vector<Plate> plates;
  std::vector<BraceEnd> loose_ends;  // brace ends with nothing within reach
  std::vector<Jamb> loose_jambs;
  std::vector<std::string> as_built;  // where what was found differs from the plan, in words
  std::vector<std::string> unclear;   // what was found and cannot be set against the plan
};
// Ends, jambs and brace ends first, then equal spaces not above the greatest spacing; and then as it was found on site.
// A fixing that was found elsewhere keeps what it was planned for; one that is missing leaves brace ends and jambs
// loose.
WallSetOut set_out_wall(const House&, std::size_t wall, const Table& practice);

// The share of a unit load at x that goes to each support of a plate: by the lever rule, and by the plate as one beam
// over all its supports (three-moment equation). Past the last support the lever is kept and its relief on the others
// set to zero. Precondition: at least one support, ascending.
std::vector<double> lever_shares(const std::vector<Length>& supports, Length x);
std::vector<double> continuous_shares(const std::vector<Length>& supports, Length x);
// The same with the relief left in: what balances the load exactly.
std::vector<double> exact_lever_shares(const std::vector<Length>& supports, Length x);
std::vector<double> exact_continuous_shares(const std::vector<Length>& supports, Length x);
// How those shares of the beam grow along it, per length: what a unit couple at x brings to each support. At a support,
// of the span past it.
std::vector<PerLength> exact_continuous_slopes(const std::vector<Length>& supports, Length x);

}  // namespace belay
