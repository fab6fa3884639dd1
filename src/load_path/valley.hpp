// Valley trusses: those of a wing's roof that are set on the trusses of the main block, level across them. Each
// crossing has a fixing of its own, which holds the part of the roof half-way to the crossings beside it.
#pragma once
#include "load_path/roof.hpp"
#include <optional>
#include <string>
#include <vector>

namespace belay {

// in: how far inside the main block's wall the valley truss stands. member: which it crosses, of RoofForces::members.
struct ValleyCrossing {
  std::size_t wing;  // index in House::wings
  Length in;
  std::size_t member;
  std::string words;  // "V1 900 in onto T1 at 9000"
};

class Valleys {
 public:
  Valleys(const House&, const Shape&, const Loads&, const RoofForces&);
  std::vector<ValleyCrossing> crossings;  // wing by wing, from the joint inwards
  // Wind less the weight that is sure to be there; negative: it stays down by itself.
  Force uplift(std::size_t load_case, std::size_t crossing, Working* = nullptr) const;
  std::vector<Piece_of_demand> made_of(std::size_t load_case, std::size_t crossing) const;

 private:
  struct Lot {
    std::size_t zone, surface;
    Area a;
  };
  void add_lot(std::vector<Lot>&, const ValleyCrossing&, const Window& across, std::size_t zone, std::size_t surface,
               const Polygon&) const;
  Pressure net(const LoadCase&, std::size_t zone) const;
  Force wind(std::size_t load_case, std::size_t crossing) const;
  Force weight(std::size_t crossing) const;

  const House& house_;
  const Shape& shape_;
  const Loads& loads_;
  const RoofForces& roof_;
  std::vector<std::vector<std::vector<Lot>>> wind_;  // layout, crossing
  std::vector<std::vector<Lot>> dead_;               // crossing
};

}  // namespace belay
