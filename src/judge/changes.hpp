// Changes of a settled house that may make failing links hold: what `remedies` tries.
#pragma once
#include "belay/check.hpp"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace belay {

// One statement of the job, and what it fixes.
struct Statement {
  std::string kind, name, by, at;
  friend bool operator==(const Statement&, const Statement&) = default;
};
Statement statement_of(const Link&);
House with_fixing(const House&, const Statement&, const std::string& name);
House with_anchors_closer(const House&, const Statement&, Length greatest_space);

// Entries of the file that may stand in a statement's place: set as before first, then the weaker first.
std::vector<std::string> instead_of(const Fixings&, const Statement&);

// An entry like that of a statement, but of so many times its figures for design in some parts, each rounded up to what
// a sheet would say. None where they are worked out: no sheet would say it.
struct Stronger {
  std::string name;  // of the new entry
  Fixings fixings;
  std::vector<Remedies::Holds> holds;
};
std::optional<Stronger> stronger(const House&, const Statement&, double times, const std::set<std::string>& parts);
// The rule by which its sheet takes several parts as one.
std::optional<Together> rule_of(const Fixings&, const Statement&);

// Pieces of a wall, first to last, that others take the place of: a brace longer than it is, or more braces where plain
// wall was.
struct Bracing {
  std::size_t wall, first, last;
  std::vector<Piece> instead;
  std::vector<Remedy::More> said;
  Length added;
};
// Each by itself, the least added length first.
std::vector<Bracing> more_bracing(const House&, std::size_t wall);
// All of them that leave each other their pieces, in their order.
std::vector<Bracing> side_by_side(const std::vector<Bracing>&);
House with_bracing(const House&, std::vector<Bracing>);

// Concrete that fixings pull at and that holds by its weight: the footings under the stumps or under a veranda's posts,
// what runs on under outside or inside walls.
struct HoldsByWeight {
  enum class Of : unsigned char { stumps, posts, edge, inside } of;
  std::size_t veranda;  // of posts
  bool footing() const { return of == Of::stumps || of == Of::posts; }
  friend bool operator==(const HoldsByWeight&, const HoldsByWeight&) = default;
};
// What lies under a link of the ground; nothing of other links, and where the job says nothing of its depth.
std::optional<HoldsByWeight> concrete_under(const House&, const Link&);
Length depth_of(const House&, const HoldsByWeight&);
House with_depth(const House&, const HoldsByWeight&, Length);
std::string words(const House&, const HoldsByWeight&);

}  // namespace belay
