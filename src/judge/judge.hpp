// Demand against capacity, link by link. The only place where a worst case is taken and a verdict is made.
#pragma once
#include "belay/result.hpp"
#include "capacity/concrete.hpp"
#include "capacity/steel.hpp"
#include "load_path/forces.hpp"
#include "load_path/ground.hpp"
#include "load_path/press.hpp"
#include "load_path/roof_bracing.hpp"
#include "load_path/stumps.hpp"
#include "load_path/whole.hpp"
#include <array>
#include <set>
#include <string_view>
#include <vector>

namespace belay {

// What a link is, by index into Forces. Rebuilt in the same order from the same house, so an index is enough to find
// it.
struct LinkSeed {
  enum class Of : unsigned char {
    girder_bracket,
    valley,
    bracket,
    top_tie,
    stud_tie,
    plate,
    roof_plane,
    roof_brace,
    floor_tie,
    floor_fixing,
    line,
    least,
    brace,
    support,
    loose_end,
    loose_jamb,
    compression,
    compression_below,
    ground,
    spacing,
    veranda_wall,
    veranda_beam,
    post_top,
    post_foot,
    post_ground,
    house_slides,
    house_tips,
    stump_tie,
    stump_ground,
    subfloor
  } of;
  std::size_t a, b;  // bearing; crossing of a valley truss; stud; slope; roof brace; crossing; line; brace; wall and
                     // support; lines; a veranda's rafter or post; of the whole house and the braces under its floor 0
                     // across, 1 up the sheet; stump
  Sense sense;
  End end;
};

// Whether the method has a combination in hand in which weight and wind press down.
bool has_downward_loads(const Loads&);

class Judge {
 public:
  Judge(const Forces&, const LineSpacing&, const Table& method);
  const std::vector<LinkSeed>& seeds() const { return seeds_; }
  const RoofBracing& roof_bracing() const { return roof_bracing_; }
  Link link(std::size_t i) const;
  // Whether the link has something to hold in that case.
  bool acts(std::size_t i, std::size_t load_case) const { return acts(seeds_[i], load_case); }
  // The case that a link of the same house says decides; nothing where it is none of its cases.
  std::optional<std::size_t> case_named(const CaseName&) const;
  // Walls of the first floor whose braces bring force to the link across the floor.
  std::set<std::size_t> walls_above(std::size_t i) const;
  // Walls whose fixings' pulls may be in what the link has to hold.
  std::set<std::size_t> walls_pulling(std::size_t i) const;
  // Tells the steps of one link in one case, down to its use.
  void tell(std::size_t i, std::size_t load_case, Working&) const;

 private:
  // One part of a link in one case. No capacity: nothing. use is nothing where it cannot be made.
  struct Raw {
    Role role;
    std::string_view part;
    Value demand;
    std::optional<Value> capacity;
    std::optional<double> use;
    std::string_view rule;
  };
  struct Parts {
    std::array<Raw, 5> part;
    std::size_t count;
    bool combined_missing;
  };

  void sow();
  Parts parts(const LinkSeed&, std::size_t load_case) const;
  // si: the greatest demand of a part in any case, and the first case that has it.
  struct Greatest {
    std::string_view part;
    double si;
    std::size_t load_case;
  };
  // acting: by case, whether it brings anything; of a spacing, which no case changes: empty.
  struct Deciding {
    std::size_t load_case;
    std::vector<Greatest> greatest;
    std::vector<bool> acting;
  };
  Deciding deciding_case(const LinkSeed&) const;
  std::optional<std::size_t> nearest_that_holds(std::size_t line, std::size_t load_case) const;
  void place(const LinkSeed&, Link&) const;
  const Chosen* fixing(const LinkSeed&) const;
  const Terms* terms(const LinkSeed&) const;
  std::vector<Condition> conditions(const LinkSeed&) const;
  std::vector<Condition> end_studs_conditions(const LinkSeed&) const;
  std::vector<Piece_of_demand> made_of(const LinkSeed&, std::size_t load_case, std::string_view part) const;
  void decide(const LinkSeed&, Link&, const Parts&) const;
  bool acts(const LinkSeed&, std::size_t load_case) const;
  static bool acting(const Parts&);
  std::set<std::size_t> lines_behind(const LinkSeed&, std::size_t load_case) const;
  bool of_no_case(const LinkSeed&) const;  // the same in every load case
  bool braced(const LinkSeed&) const;      // what bracing lines have to hold may come to it
  std::string_view ceiling_of(const LinkSeed&, std::size_t load_case) const;
  std::set<std::size_t> verandas_to(const LinkSeed&) const;
  // What the first floor's walls bring to a link of the ground floor's, or to the floor between.
  const Stud& stud_of(const LinkSeed&) const;
  std::vector<std::size_t> crossings_to(const LinkSeed&) const;
  std::optional<std::size_t> brace_above_that_does_not_count(const LinkSeed&) const;
  std::optional<std::size_t> strap_off_its_end(const LinkSeed&) const;
  std::optional<std::size_t> brace_that_does_not_count(std::size_t wall, std::size_t support) const;
  Marks marks_of_roof(const LoadCase&) const;
  Marks marks_across(std::size_t crossing, std::size_t load_case) const;
  Floor floor_of(const LinkSeed&) const;
  Length gap_behind(const LinkSeed&) const;
  const WallSetOut* set_out_of(const LinkSeed&) const;
  bool racked(std::size_t wall, std::size_t support, std::size_t load_case) const;
  std::vector<FixingAt> fixings_behind(const LinkSeed&) const;
  const SubfloorBraces* subfloor_braces(const LinkSeed&) const;
  std::vector<Piece_of_demand> row_made_of(const LinkSeed&, std::size_t load_case) const;
  static bool is_open(const Raw&);
  Marks marks_in(const LinkSeed&, std::size_t load_case) const;
  void remember_figures(const LinkSeed&, const Deciding&, Link&) const;
  std::optional<Length> bay_of(const Stud&) const;
  struct SpacingLimit {
    Length greatest;
    std::string source;
  };
  std::optional<SpacingLimit> spacing_limit(const LinkSeed&, Length) const;
  std::optional<Length> edge_of(std::size_t wall, const Support&) const;
  std::vector<SlabEdge> edges_of_outline(const Wall& on) const;
  Length edge_of_outline(const Point&, const Wall& on) const;
  StandsInSlab stands_in_slab(std::size_t wall, std::size_t support) const;
  // Of an anchor under a wall or at a post's foot whose capacity is worked out; else null.
  const HeldByConcrete* in_concrete_of(const LinkSeed&) const;
  std::size_t block_of(const LinkSeed&) const;
  Point in_plan(std::size_t wall, const Support&) const;
  std::optional<Length> neighbour_of(std::size_t wall, std::size_t support) const;
  class Telling;  // telling.cpp

  const Forces& f_;
  const LineSpacing& spacing_;
  const Table& method_;
  RoofBracing roof_bracing_;
  EndPress end_press_;
  Ground ground_;
  WholeHouse whole_;
  StumpRows stumps_;
  bool presses_;  // has_downward_loads
  std::vector<LinkSeed> seeds_;
  std::vector<std::vector<std::optional<HeldByConcrete>>> held_;  // by wall and support
  std::vector<std::optional<HeldByConcrete>> held_feet_;          // by a veranda's post
  // What a tie or a bracket holds, for design, as its sheet states it or worked out: then on what conditions, and
  // nothing where one is not met.
  struct HeldBySteel {
    std::optional<Force> force;
    std::vector<Condition> conditions = {};
    Gives gives = {};
    Marks marks = 0;
  };
  HeldBySteel held_by_steel(const Terms&, Force stated, const SteelMade&, Into) const;
  const HeldBySteel& held(const Tie& t) const {
    return ties_[static_cast<std::size_t>(&t - f_.house.fixings.ties.data())];
  }
  const HeldBySteel& held(const Bracket& b) const {
    return brackets_[static_cast<std::size_t>(&b - f_.house.fixings.brackets.data())];
  }
  // Of a compression link: the studs that its brace's mark names, where all that presses there is known.
  const EndStuds* judged_studs(const LinkSeed&) const;
  // Of the link's own fixing, where it is worked out.
  const HeldBySteel* steel_of(const LinkSeed&) const;
  std::vector<HeldBySteel> ties_, brackets_;  // of the house's fixings, in their order
};

}  // namespace belay
