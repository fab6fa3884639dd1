// A house of several blocks: where each stands, and the house as one of them sees it.
#include "belay/job.hpp"

#include <algorithm>

namespace belay {

Length left_of(const House& h, std::size_t block) { return block == 0 ? zero<Length>() : h.wings.at(block - 1).left; }
Length front_of(const House& h, std::size_t block) { return block == 0 ? zero<Length>() : h.wings.at(block - 1).front; }
Length level_of(const House& h, std::size_t block) { return block == 0 ? zero<Length>() : h.wings.at(block - 1).level; }
std::string_view name_of(const House& h, std::size_t block) {
  return block == 0 ? h.block : h.wings.at(block - 1).name;
}
Length extent_of(const House& h, std::size_t block, Along way) {
  if (way == Along::across) return block == 0 ? h.across : h.wings.at(block - 1).across;
  return block == 0 ? h.up : h.wings.at(block - 1).up;
}
bool stands_in(const Wall& w, std::size_t block) {
  return std::find(w.blocks.begin(), w.blocks.end(), block) != w.blocks.end();
}
Length height_of(const House& h, const Wall& w) {
  return w.blocks.front() == 0 ? wall_height(h, w.floor) : h.wings.at(w.blocks.front() - 1).height;
}

// In the view a wall of this block stands in block 0; another's, which counts for its openings alone, in block 1. A
// wing has one floor: the first floor's walls are all another's to it.
House seen_from(const House& house, std::size_t block) {
  House h = house;
  const Length left = left_of(house, block), front = front_of(house, block);
  for (Wall& w : h.walls) {
    const bool across = w.runs == Along::across;
    w.line -= across ? front : left;
    w.from -= across ? left : front;
    w.to -= across ? left : front;
    w.blocks = {stands_in(w, block) ? std::size_t{0} : std::size_t{1}};
  }
  h.wings.clear();
  if (block == 0) return h;
  const Wing& wing = house.wings.at(block - 1);
  h.block = wing.name;
  h.across = wing.across;
  h.up = wing.up;
  h.floor_level += wing.level;
  h.height = wing.height;
  h.first.reset();
  h.roof = wing.roof;
  h.trusses = wing.trusses;
  h.hip_ends = wing.hip_ends;
  h.roof_braces.clear();
  h.verandas.clear();
  return h;
}

}  // namespace belay
