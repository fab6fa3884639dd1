// The wind on a house of several blocks: each block's own, by the method, laid together case by case.
#pragma once
#include "shape/joined.hpp"
#include "wind/wind.hpp"
#include <vector>

namespace belay {

// A block as a building of its own for the wind: as high as the highest block, so that the gust is that of the house's
// own height. left, front: of its plan's corner in the main block's axes; level: of its floor above the main block's.
struct BlockWind {
  House house;
  Shape shape;
  Length left, front, level;
};
std::vector<BlockWind> blocks_in_wind(const House&, const Shape& main, const std::vector<WingShape>&);

// Load cases of the whole house: of one wind onto one face and one pressure inside, a case of each block, so that every
// case of every block is among them. of: by load case, the number of each block's own. Zones go by the loads of the
// block whose roof they are on. Pushes: what of a block's faces is seen; where a wing hides a face of the main block,
// or the main block the end of a wing, neither is pushed. A push on both faces at once cannot be parted: the main block
// and a wing in its lee then take it whole, each. Their parts stand in the main block's axes along a face and above the
// bottom plates of the block whose ceiling takes them: of a wing's roof inside the main block's walls, the main block.
struct JoinedLoads {
  Loads loads;
  std::vector<std::vector<std::size_t>> of;
};
JoinedLoads joined_loads(const House&, const Joined&, const std::vector<BlockWind>&, const std::vector<Loads>&);

// A house and the wind on it, whether it has one block or several. It refers to the house and the table that it is made
// of.
class HouseWind {
 public:
  HouseWind(const House&, const Table& method);
  HouseWind(const HouseWind&) = delete;
  HouseWind& operator=(const HouseWind&) = delete;
  const Shape& shape() const { return shape_; }               // of all blocks
  const WindAsk& ask() const { return asks_.front(); }        // of the main block
  const std::vector<WindAsk>& asks() const { return asks_; }  // of each block
  SiteWind site() const;                                      // with what every block's wind cautions of
  const Loads& loads() const { return joined_.loads; }
  // Each block's wind in that case of the whole house, a wing's under its name.
  void tell(std::size_t load_case, Working&) const;

 private:
  const House& house_;
  const Method& method_;
  Shape shape_;
  std::vector<BlockWind> blocks_;  // none: the house is its own one block
  std::vector<WindAsk> asks_;
  JoinedLoads joined_;
};

}  // namespace belay
