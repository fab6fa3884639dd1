// Houses of two floors, made from those of one: the first floor's walls are copies of the ground floor's.
#pragma once
#include "belay/job.hpp"
#include <string>
#include <vector>

namespace belay::test {

inline Wall on_floor(Wall w, Floor floor) {
  const std::string spoken(words(floor));
  if (w.key.empty()) w.key = w.name;
  w.floor = floor;
  w.name = spoken + " " + w.name;
  for (Piece& p : w.pieces)
    if (p.brace) p.brace->name = spoken + " " + p.brace->name;
  return w;
}
// height: of the first floor's walls; depth: of the floor between them and those of the ground floor.
inline House with_first_floor(House h, Length height, Length depth) {
  h.first = FirstFloor{height, depth, Chosen{}, Chosen{}, zero<Length>()};
  const std::vector<Wall> walls = std::move(h.walls);
  h.walls.clear();
  for (const Floor floor : {Floor::ground, Floor::first})
    for (const Wall& w : walls) h.walls.push_back(on_floor(w, floor));
  for (Truss& t : h.trusses)
    for (std::string& wall : t.also_on) wall = "first " + wall;
  return h;
}

}  // namespace belay::test
