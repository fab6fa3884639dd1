// A house of several blocks: from what was written to where each stands, what its roof is and which walls bound it.
#pragma once
#include "belay/job.hpp"
#include "job/raw.hpp"
#include "job/roof_settle.hpp"
#include "job/settle.hpp"
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace belay {

// An outside wall as the blocks name it: a side, what wings leave over of one, or several that run straight on from
// block to block. of: "the front wall of block main". key: the path of its name. placed: line, from, to and steps are
// known, in the main block's axes. floor: of a house of two floors where these have walls of their own; none: on each.
struct OutsideWall {
  std::string name, of, key;
  Side side;
  bool placed = false;
  Length line = {}, from = {}, to = {};
  std::vector<Length> steps = {};  // from its start
  std::optional<Floor> floor = std::nullopt;
  bool stands_on(Floor f) const { return !floor || *floor == f; }
};
// The first floor's wall at a side, as the job names it: by a key of its own, else the first name of the floor below.
// No name: the job has neither.
struct NameAbove {
  std::string name, key;
};
NameAbove name_above(const raw::WallNames&, Side, const std::string& path_of_walls);
// joint: unknown where `place` does not say it. sized: its own size is known; placed: where it stands as well.
// row_of: as in TrussesSettled.
struct WingSettled {
  Wing wing;
  const raw::Block* keys;
  std::string path;
  std::optional<Side> joint;
  bool sized = false, placed = false;
  RoofSettled roof = {};
  std::vector<std::size_t> row_of = {};
  // Where its roof comes out on the main roof: so far in from the joint, its ridge so far along that side; none: what
  // is wrong was said, or is not known.
  struct ComesOut {
    Length into, ridge;
  };
  std::optional<ComesOut> comes_out = std::nullopt;
};
// The main block's name: that of the one without `place`; where none or several have none, a guess that was said.
struct MainBlock {
  std::string name;
  bool sure;
  std::vector<Slip> slips;
};
MainBlock main_block(const raw::Job&);

// main: the house with its main block's measures and roof. sized, roof_good: these are known.
struct BlocksAsk {
  const raw::Job& job;
  const House& main;
  bool sure, sized, roof_good;
  const std::function<std::string(std::string_view path)>& place;
};
// placed: all blocks are. names_good: every outside wall has its name.
struct BlocksSettled {
  std::vector<WingSettled> wings;
  std::vector<OutsideWall> outside;
  bool placed = false, names_good = false;
  std::vector<Slip> slips;
  std::vector<std::string> remarks;
};
BlocksSettled settle_blocks(const BlocksAsk&);
RoofAsk roof_ask(const raw::Job&, const WingSettled&);
std::vector<RoofOver> roofs_over(const std::vector<WingSettled>&);  // on the main block's

// Of a house whose blocks are placed: those that a wall stands in or bounds.
std::vector<std::size_t> blocks_of(const House&, const Wall&);
// Once all walls stand: trusses and jacks with no wall under one of their ends. path, row_of: of each block.
struct BearingsAsk {
  const raw::Job& job;
  const House& house;
  std::vector<std::string> paths;
  std::vector<const std::vector<std::size_t>*> row_of;
};
std::vector<Slip> slips_of_bearings(const BearingsAsk&);

}  // namespace belay
