// Bracing in the plane of the roof: what of the wind on the gables goes along each slope, and what each strap has to
// hold of it, one load case at a time. Gable, skillion and flat roofs; a hip roof's hips brace it as well, and a job
// cannot ask for it there.
//
// The wind. A gable stands between the ceiling, level with the bottom chords, and the slopes. An upright strip of it
// hands half of its wind to each, so a slope has to carry half of what pushes on its side of the gable. Both gables
// hand theirs to the same slopes, over the battens: what pushes one in and what pulls the other out add up as the
// method gives them. The verge beyond the wall adds nothing.
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
  // Along the ridge in that slope: positive to the right or to the back.
  Force plane_force(std::size_t load_case, std::size_t plane) const { return along_[load_case][plane]; }
  // The same as it acts in one sense, and nothing where it acts in the other.
  Force plane_force(std::size_t load_case, std::size_t plane, Sense, Working* = nullptr) const;
  std::vector<Piece_of_demand> plane_made_of(std::size_t load_case, std::size_t plane, Sense) const;
  // What the straps that count hold along the ridge when the first of them reaches its capacity.
  Force plane_holds(std::size_t plane, Sense, Working* = nullptr) const;
  Force tension(std::size_t load_case, std::size_t strap, Working* = nullptr) const;
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
  struct Row {
    std::string what, label;
    Pressure p;
    Area area;
    bool positive, whole;  // whole: not halved, swept along
    Force value;
  };
  std::vector<Row> rows(std::size_t load_case, std::size_t plane) const;
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
  std::vector<std::vector<Force>> along_;  // case, plane
};

}  // namespace belay
