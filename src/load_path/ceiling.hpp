// How a ceiling that is stiff in its own plane shares the wind out to the bracing lines: by their stiffness, and by how
// far they stand from where it turns. A line is as stiff as what its braces can hold in the sense in which it is moved,
// or as their sheets state.
#pragma once
#include "belay/job.hpp"
#include "belay/working.hpp"
#include <optional>
#include <string>
#include <vector>

namespace belay {

// What is left of pushes that cancel: a millionth of a newton moves no brace.
inline constexpr Force no_push = Force::from_value(1e-6);
// plus: how stiff it is pushed to the right or to the back, by what its braces hold (Force) or as stated (Stiffness);
// minus: the other way. Neither below zero. symbol, words, source (of the stiffness), told (it is, already): for the
// working alone.
template <class Stiff> struct StiffLineBy {
  Along runs;
  Length at;  // square to its run: up the sheet for lines that run across
  Stiff plus, minus;
  std::string symbol = {}, words = {}, source = {};
  bool told = false;
};
using StiffLine = StiffLineBy<Force>;
using StatedLine = StiffLineBy<Stiffness>;
// One push on the ceiling, positive to the right or to the back, at its middle along the face. For the working: what it
// is of, and its parts; the symbols that they have there already.
struct CeilingPush {
  Along runs;  // the way it pushes: as the lines that hold it run
  Force force;
  Length middle;
  bool positive = true;  // the pressure itself pushes to the right or to the back
  std::string what = {}, pressure = {};
  Pressure p = {};
  Area area = {};
};

// For each line, how stiff it is in the sense in which the ceiling moves it.
template <class Stiff>
std::vector<Stiff> stiffness_moved(const std::vector<StiffLineBy<Stiff>>&, const std::vector<CeilingPush>&);

// What lines that run one way get of the pushes. direct, turned: per line (others: zero), with the sign of the pushes.
struct RigidShare {
  Force whole;                   // of the pushes along these lines
  Moment turning;                // of all pushes, positive as one along these lines beyond their centre
  Length centre, centre_across;  // of stiffness: of these lines, and of those that run across them
  Area against_turning;          // sum of relative stiffness times distance squared, of all lines
  std::vector<double> share;     // stiffness of a line over that of all lines that run this way
  std::vector<Force> direct, turned;
};
// How the working names things and which way it counts as positive.
struct RigidTold {
  Working* w;
  std::string suffix;  // behind each symbol: of the floor, of the block
  double wind_factor;  // told as "f_w" before
  bool against;        // pushes to the left or to the front count as positive
  std::size_t line;    // whose share is told
};
// Nothing where the lines cannot hold the ceiling: none is stiff this way, or nothing keeps it from turning.
// stiffness: per line, as from stiffness_moved.
template <class Stiff>
std::optional<RigidShare> share_by_stiffness(const std::vector<StiffLineBy<Stiff>>&,
                                             const std::vector<Stiff>& stiffness, const std::vector<CeilingPush>&,
                                             Along way, const RigidTold* told = nullptr);

}  // namespace belay
