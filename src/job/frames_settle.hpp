// The frames that a wall is made of in the shop: from what was written to where their joints stand.
#pragma once
#include "belay/job.hpp"
#include "job/run.hpp"
#include <string_view>
#include <vector>

namespace belay {

struct FramesSettled {
  std::vector<ShopFrame> frames;
  std::vector<RunSlip> slips;
};
// wall: its extent and its pieces are known. turned: the text goes from the wall's far end. Joints that the drawing has
// on the edge of a piece stand there to the last digit.
FramesSettled settle_frames(std::string_view text, raw::Drawing, const Wall& wall, bool turned);

}  // namespace belay
