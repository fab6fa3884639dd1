// What the supplier's sheets say: capacities with the conditions under which they hold. Plain structs, as entered.
#pragma once
#include "belay/units.hpp"
#include <optional>
#include <string>
#include <vector>

namespace belay {

enum class Basis : unsigned char { limit_state, allowable };
std::string_view words(Basis);  // "limit state (design)", "allowable"

// How the parts of one fixing act together, as its sheet states it. sum: straight sum of uses; five_thirds: sum of uses
// to the power 5/3; one_and_half: to the power 1.5; alone: the sheet says that each part may be taken alone.
enum class Together : unsigned char { sum, five_thirds, one_and_half, alone };
std::string_view words(Together);  // "straight sum", "5/3 power", "1.5 power", "each alone"

// What every entry carries. basis: "design" (phi or 1/gamma_M is in the figure), "characteristic" (then exactly one of
// phi, gamma_M), "allowable". Conditions left out are not conditions of the sheet.
struct Terms {
  std::string name, source, at;  // at: "file:line" of the entry
  std::string basis;
  std::optional<double> phi, gamma_M;
  std::optional<std::string> cyclic;       // "tested" or "static"
  std::optional<Length> least_steel;       // thickness of the frame's steel
  std::optional<std::string> joint_group;  // of the frame's timber
  bool demo;                               // invented: not for construction
  Basis acts_as() const { return basis == "allowable" ? Basis::allowable : Basis::limit_state; }
};
struct Bracket {
  Terms terms;
  Force uplift;
  std::optional<Force> along, across;
  std::optional<Together> together;
};
struct Tie {
  Terms terms;
  Force pull;
};
// The plate carries this from a stud to its anchors.
struct PlateFixing {
  Terms terms;
  Force pull;
  Length greatest_spacing;
};
struct Anchor {
  Terms terms;
  std::string how;
  Force pull, slide;
  std::optional<Together> together;
  std::optional<Length> least_edge, least_spacing, least_slab;
  std::optional<Pressure> concrete;
  std::optional<bool> cracked;
};
struct StrapBrace {
  Terms terms;
  Force tension;
  std::optional<Force> end_fixing;
  bool pair;
};
struct SheetBrace {
  Terms terms;
  LineLoad racking;
  Length least_length;
  std::optional<Length> greatest_height;
};
// A bought unit of fixed length.
struct RatedBrace {
  Terms terms;
  Force racking;
  Length length, greatest_height;
};
struct LiningBrace {
  Terms terms;
  LineLoad racking;
  Length least_length;
};

struct Fixings {
  std::string title, status, file;
  std::vector<Bracket> brackets;
  std::vector<Tie> ties;
  std::vector<PlateFixing> plates;
  std::vector<Anchor> anchors;
  std::vector<StrapBrace> straps;
  std::vector<SheetBrace> sheets;
  std::vector<RatedBrace> rated;
  std::vector<LiningBrace> linings;
};
// The entry of that name, or null.
template <class Entry> const Entry* find(const std::vector<Entry>& list, std::string_view name) {
  for (const Entry& e : list)
    if (e.terms.name == name) return &e;
  return nullptr;
}

}  // namespace belay
