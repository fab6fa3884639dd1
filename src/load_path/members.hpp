// What carries the roof: trusses, girders, jacks, creepers and hip rafters, where they bear, and which part of the
// roof's plan each one holds. Geometry alone. Together their windows cover every surface of the roof exactly once.
#pragma once
#include "belay/job.hpp"
#include "shape/shape.hpp"
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace belay {

// truss: of full height. truncated: flat-topped, between a hip girder and the apex of that hip. half: under a skillion.
// jack: from an end wall to the girder. creeper: a short jack from a wall to a hip rafter.
enum class MemberKind : unsigned char { truss, truncated, half, girder, jack, creeper, hip_rafter };
std::string_view words(MemberKind);  // "truss", "hip girder", "hip rafter"...

// A part of the plan that a member holds: what of the surfaces that fall one of these ways lies within it. A wing's
// roof that lies on another falls, for this, as the slope beneath it.
struct Window {
  Length x0, x1, y0, y1;
  std::uint8_t falls;     // bit i: surfaces whose `falls` is Way i
  bool past_end;          // past an end truss: a verge, which is a lever on the first space as well
  std::size_t block = 0;  // of the surfaces that this block holds
};
inline constexpr std::uint8_t every_way = 0b1111;
// Where a bearing stands on a wall. at: along it from its start. from, to: the stretch of the wall, in the block, whose
// top this bearing props against the wind square on.
struct Foot {
  std::size_t wall;
  Length at, from, to;
};
// feet: at a corner there are two, and either wall must be able to hold it. onto: none on a wall; then it stands on
// that other member, `onto_u` along it from its `from`.
struct Bearing {
  std::size_t member;
  Length u;  // along the member from its `from`
  std::vector<Foot> feet;
  std::optional<std::size_t> onto;
  Length onto_u;
  std::string words;  // "T1 at 3600 front", "J1 at 2400 left", "J1 at 2400 left onto TG1"
};
// Of a truss that is clear of an outside wall. wall: that wall. set_back: the bearing, on an inside wall, past which it
// sticks out by `depth` to that wall's face. from, to: the stretch of that wall that none props there, in the block.
struct ClearEnd {
  Side side;
  std::size_t wall, set_back;
  Length depth, from, to;
};
// from, to: the axis in plan between the outside faces that it spans between (a jack: to the girder's line; a creeper:
// to the hip line; a hip rafter: from the corner to the girder). bearings: indices, ascending u; the first at u = 0,
// but for a clear end.
struct Member {
  MemberKind kind;
  std::string mark, words;  // words: "T1 at 3600", "J1 at 2400 left", "H1 front left"
  Chosen bracket, onto;     // on walls; on another member
  int plies;
  Point from, to;
  std::vector<Window> carries;
  std::vector<std::size_t> bearings;
  std::optional<std::size_t> truss;  // index among its block's trusses
  // An end truss beside a verge: the first space inside, and the truss there. None: no lever.
  std::optional<Length> space;
  std::optional<std::size_t> next;
  std::size_t block = 0;
  std::optional<ClearEnd> clear = std::nullopt;
};
// The first members are House::trusses in their order. from_top: all members, each before those that it bears on.
// Bearings: first those of House::trusses, two by two (near, far; of a clear end the one set back), then the others.
// The wings' follow, block by block.
struct Members {
  std::vector<Member> members;
  std::vector<Bearing> bearings;
  std::vector<std::size_t> from_top;
};
Members members_of(const House&, const Shape&);  // shape: of the main block alone, or of all joined

bool holds(const Window&, const Surface&);      // whether it looks at surfaces that fall that way
Polygon within(const Window&, const Polygon&);  // empty when nothing of it has an area

}  // namespace belay
