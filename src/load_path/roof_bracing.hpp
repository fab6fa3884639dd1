// Bracing in the plane of the roof: what of the wind on the gables goes along each slope, and what each strap has to
// hold of it, one load case at a time. Under a hip roof the slopes along the ridge; the slopes of its ends brace
// themselves and hold no strap.
//
// The wind. A gable stands between the ceiling, level with the bottom chords, and the slopes. An upright strip of it
// hands half of its wind to each, so a slope has to carry half of what pushes on its side of the gable. Both gables
// hand theirs to the same slopes, over the battens: what pushes one in and what pulls the other out add up as the
// method gives them. The verge beyond the wall adds nothing.
//
// A hip end is pushed level on its slope, by as much as can be seen of it square on. Between the wall and its girder
// the jacks and creepers span on their own: half goes to the end wall's top, half to the girder and the hips. The
// trusses above the girder, and a gable that stands on it, hand on all of theirs. What comes to girder, hips and those
// trusses could go to the long slopes or down the end by its own triangles of jacks and hip rafters: the long slopes
// are asked for all of it, the safe reading. With the girder at the apex that is the gable's half. Half is no less than
// the jacks' own statics give while the wind on them is nowhere stronger than lower down; a part of the end on which it
// is counts whole. Where the wind meets an end, what pulls on an end's slope against the force in hand is counted as
// nothing; where it blows past both, what they are pulled by adds up as the method gives it, but for what the girder
// may not have of it. A method that pushes one face alone speaks of both ends at once: the lower girder of the two goes
// for it.
//
// In a house of several blocks the slopes are the main block's, and what pushes on it alone counts, with what of a
// wing's roof stands inside its walls: that lies on a slope of it and has no ceiling below, so the slope is asked for
// all of it. Where the wind meets an end, what pulls on a wing's roof against the force in hand is counted as nothing.
//
// The strap. Free body: the slope as a plate with the force P along the ridge, say to the right, held to the wall's top
// plate by straps alone. A strap's tension T pulls the plate at the strap's head towards its foot. To stand against P
// it must pull the head to the left: the foot of a strap that works stands to the left of its head, on the side that
// the force comes from. (Seen as a movement: the head goes right with the slope, away from the foot, and the strap
// grows longer.) Along the ridge, with the angle psi between strap and ridge: T cos(psi) = its share of P. A strap
// whose foot stands to the right of its head goes slack. Up the slope the strap holds T sin(psi), which the truss
// beside it takes as thrust; at its foot it pulls the wall's top along with its share, inwards, and up.
//
// Sharing. Straps that work in the same sense and count share by number; where their fixings differ, by what each can
// hold. A strap that does not count (its angle, a condition of its sheet) relieves none of them: they hold its part
// too. One of which the job leaves a condition open is told what it would have to hold, counted with all others like
// it.
#pragma once
#include "capacity/roof_strap.hpp"
#include "load_path/forces.hpp"
#include <array>
#include <optional>
#include <string>
#include <vector>

namespace belay {

// From foot to head: along the ridge, on the level across it, up the slope.
struct StrapLine {
  Length along, level, up;
  Angle to_ridge;
  Length length() const;
};
StrapLine line_of(const Shape&, const RoofBrace&, Working* = nullptr);

// A strap of the house, by its index there. pair: two that cross. leans: the sense in which a single one works.
struct RoofStrap {
  std::size_t plane;
  StrapLine line;
  bool pair;
  Sense leans;
  RoofStrapCapacity capacity;
};
// A slope. from, to: its side of the gable, along the elevation of the ends.
struct RoofPlane {
  Side slope;
  Length from, to;
  std::vector<std::size_t> straps;
};

class RoofBracing {
 public:
  RoofBracing(const House&, const Shape&, const Loads&, const Table& practice, bool cyclonic);

  std::vector<RoofPlane> planes;  // none where the job states no roof brace
  std::vector<RoofStrap> straps;

  bool works(std::size_t strap, Sense) const;      // by its lean
  bool counts(std::size_t strap, Sense) const;     // and its capacity may be used
  bool may_count(std::size_t strap, Sense) const;  // or a condition of it is not stated
  // Along the ridge in that slope: positive to the right or to the back; of both senses the greater.
  Force plane_force(std::size_t load_case, std::size_t plane) const;
  // As it acts in one sense. Under a hip roof, where what relieves is left out, a case may act in both.
  Force plane_force(std::size_t load_case, std::size_t plane, Sense, Working* = nullptr) const;
  std::vector<Piece_of_demand> plane_made_of(std::size_t load_case, std::size_t plane, Sense) const;
  // What the straps that count hold along the ridge when the first of them reaches its capacity.
  Force plane_holds(std::size_t plane, Sense, Working* = nullptr) const;
  Force tension(std::size_t load_case, std::size_t strap, Working* = nullptr) const;
  Sense pulled_in(std::size_t load_case, std::size_t strap) const;  // the sense of the force that it stands against
  // What the strap pulls with at its foot: along the wall, inwards across it, up.
  struct Foot_pull {
    Force along, across, lift;
  };
  Foot_pull foot_pull(std::size_t load_case, std::size_t strap, Working* = nullptr) const;
  Force holds(std::size_t strap, Working* = nullptr) const;  // in tension
  // The same as it counts: nothing of a strap that does not; none where its sheet leaves a part of it out.
  std::optional<Force> holds_counted(std::size_t strap) const;
  void tell_angle(std::size_t strap, Working&) const;

 private:
  // gable, below_girder: half of it. stronger: below the girder, and the wind is stronger than lower down.
  // wing: what of another block's roof lies on this slope.
  enum class On : unsigned char { gable, swept, below_girder, stronger, above_girder, wing };
  struct Row {
    std::string what, label;
    Pressure p;
    Polygon part;
    bool positive;     // pushes to the right or to the back
    bool surely_half;  // below the girder, and no other wind stands over or under it
    On on;
    Force value;  // in the sense in hand
    Area area() const { return belay::area(part); }
  };
  static bool of_hip_end(On on) { return on == On::below_girder || on == On::stronger || on == On::above_girder; }
  static bool is_halved(On on) { return on == On::gable || on == On::below_girder; }
  std::vector<Row> rows(std::size_t load_case, std::size_t plane, Sense) const;
  std::optional<Length> girder_level(const LoadCase&, Side face) const;
  void find_stronger(std::vector<Row>&, Sense) const;
  static As<Force> to_slope(const Row&, double f, bool against, std::size_t number, Working*);
  std::vector<std::size_t> that_count(std::size_t plane, Sense) const;
  std::vector<std::size_t> that_may_count(std::size_t plane, Sense) const;
  bool alike(const std::vector<std::size_t>& straps) const;
  Force together(const std::vector<std::size_t>& straps, Working*) const;
  Force share(std::size_t load_case, std::size_t strap, Working*) const;
  std::string symbol_of_strength(std::size_t strap) const;

  const House& house_;
  const Shape& shape_;
  const Loads& loads_;
  const Table& practice_;
  bool cyclonic_;
  std::array<std::optional<Length>, 4> girder_levels_ = {};  // above the walls, of hip ends, in the order of Side
  std::vector<std::vector<std::array<Force, 2>>> along_;     // case, plane, sense
};

}  // namespace belay
