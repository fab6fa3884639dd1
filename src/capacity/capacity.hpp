// What a brace or a fixing can hold, with the conditions under which it holds. A condition that the job does not meet
// or does not state leaves the capacity unused: the verdict says so.
#pragma once
#include "belay/job.hpp"
#include "belay/result.hpp"
#include "belay/working.hpp"
#include "wind/table.hpp"
#include <vector>

namespace belay {

// The value of a sheet for design in its own basis: as it stands ("design", "allowable"), or phi times, or over
// gamma_M. `symbol` names it in the working: "C_pull".
Force design_force(const Terms&, Force stated, std::string_view symbol, Working*);
LineLoad design_rate(const Terms&, LineLoad stated, Working*);

// A name in a symbol: "A1"; "first A1" as "A1,first".
std::string in_symbol(const std::string& name);

// The height of a wall in the working: "h_w", in a house of two floors "h_ground" or "h_first", of a wing's own walls
// "h_w,garage".
std::string height_symbol(const House&, const Wall&);
Length tell_wall_height(const House&, const Wall&, Working*);

// What a piece of a perforated wall takes from the whole. counted: the part of its length that counts. left, right: the
// wall itself ends there, and is held down.
struct OfPerforated {
  std::string wall;  // "A1 to A3"
  std::string factor_symbol, counted_symbol;
  double factor;
  Length counted;
  bool left, right;
};
// What a brace resists in each sense, before lining is cut to its share. plus: pushed to the right (side walls: to the
// back).
struct BraceCapacity {
  Force plus, minus;
  bool strap, lining;
  std::vector<Condition> conditions;  // of the brace alone: length, height, angle, the fixing's own terms
  std::string refused;                // why it does not count: a Why code, "" when it counts
  std::uint64_t practice_marks;       // from-memory entries of the practice table that it rests on
  bool end_first = false;             // a strap whose end fixing gives before it
  std::optional<Stiffness> stiffness = std::nullopt;  // as its sheet states it, in each sense in which it resists
  std::optional<OfPerforated> perforated = std::nullopt;
  // No brace: of a perforated wall, too short to count and as an opening of the wall's height; or missing as built.
  bool left_out = false;
  bool missing = false;
  std::optional<Length> reach = std::nullopt;  // where it is less than its length: see `brace_reach`
};
// How far it reaches along the wall: its piece's length; of a strap that was measured steeper than drawn, less.
As<Length> brace_reach(const House&, const Wall&, const Piece&, Working*);
// How stiff it is as its sheet states it, under that symbol. Precondition: it states it.
Stiffness tell_stiffness(const House&, const Piece&, const BraceCapacity&, const std::string& symbol, Working&);
BraceCapacity brace_capacity(const House&, const Wall&, const Piece&, const Table& practice, bool cyclonic, Working*);

// Conditions of every sort of entry that the frame or the wind must meet (steel thickness, joint group, cyclic test).
std::vector<Condition> frame_conditions(const House&, const Terms&, bool cyclonic, bool needs_cyclic);
// Conditions of an anchor at its place. `edge`: least distance to an edge of the concrete; `neighbour`: to the next
// fixing.
std::vector<Condition> anchor_conditions(const House&, const Anchor&, std::optional<Length> edge,
                                         std::optional<Length> neighbour, bool cyclonic);
// The worst of a list: not met, else not stated, else met.
Met worst(const std::vector<Condition>&);

// Uses of one fixing added by its sheet's rule. Precondition: each use >= 0.
double together(Together, const std::vector<double>& uses);

}  // namespace belay
