// A ground floor on stumps: what pulls at each, from the fixings of the walls above it along the bearer, and what its
// footing weighs.
#pragma once
#include "load_path/forces.hpp"
#include <optional>
#include <string>
#include <vector>

namespace belay {

// A fixing through a bottom plate.
struct FixingAt {
  std::size_t wall, support;
};
// Under the end or along the length of one wall; where walls meet, of them all. place: among those of its wall.
struct Stump {
  struct Under {
    std::size_t wall, place;
  };
  Point at;
  std::vector<Under> walls;
  Length along;       // of the first of its walls, from its start
  std::string words;  // "A stump 2"
};

class StumpRows {
 public:
  explicit StumpRows(const Forces&);
  std::vector<Stump> all;

  // The fixings whose pull may come to it.
  std::vector<FixingAt> above(std::size_t stump) const;
  // The worse of the bearer as simple spans from stump to stump and as one beam over all of them; not below zero.
  Force pull(std::size_t load_case, std::size_t stump, Working* = nullptr) const;
  std::vector<Piece_of_demand> made_of(std::size_t load_case, std::size_t stump) const;
  // Nothing: the job does not say what a footing weighs.
  std::optional<Force> footing_holds(std::size_t load_case, Working* = nullptr) const;

 private:
  Force from_wall(std::size_t load_case, const Stump::Under&, const std::string& symbol, Working*) const;

  const Forces& f_;
  std::vector<std::vector<Length>> places_;                           // wall: from its start
  std::vector<std::vector<std::vector<double>>> lever_, continuous_;  // wall, support, place
};

}  // namespace belay
