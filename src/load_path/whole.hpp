// The house as one block on the ground: what the wind pushes and lifts of it at once, and what its weight holds by
// friction and about its edges. Of a house of one block that states its slab alone.
#pragma once
#include "load_path/forces.hpp"
#include <optional>
#include <vector>

namespace belay {

class WholeHouse {
 public:
  explicit WholeHouse(const Forces& f) : f_(f) {}
  bool stated() const { return f_.house.slab.whole && f_.house.slab.weight; }

  // In one case. The push that way, not below zero, and what friction holds against it; nothing: no friction is stated.
  Force push(std::size_t load_case, Way, Working* = nullptr) const;
  std::optional<Force> held_by_friction(std::size_t load_case, Working* = nullptr) const;
  // About the edge of the slab on that side: the push that way and what the wind lifts of the roof; the weights.
  Moment tips(std::size_t load_case, Way, Working* = nullptr) const;
  Moment held_about_edge(std::size_t load_case, Way, Working* = nullptr) const;
  // What the wind lifts of the roof; a bearing that is pressed down gives no relief.
  Force lift(std::size_t load_case) const;

 private:
  // Positive: the way that is asked for. z: of its middle, above the ground.
  struct Row {
    std::string what, symbol;
    Pressure p;
    Area area;
    Length z;
    bool against;
  };
  std::vector<Row> rows(std::size_t load_case, Way) const;
  Length from_edge(const Point&, Way) const;
  Moment lift_about_edge(std::size_t load_case, Way) const;
  std::optional<Point> foot_of(std::size_t bearing) const;
  struct Walls {
    Area face;
    AreaMoment about_edge;
  };
  Walls walls(Way) const;
  Force slab_and_edges(Working*) const;
  std::vector<As<Force>> pushes(std::size_t load_case, Way, Working*) const;

  const Forces& f_;
};

}  // namespace belay
