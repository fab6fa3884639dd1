// A house as its drawing looks in a mirror. Walls keep their names, fixings theirs; sides, places and runs change.
#pragma once
#include "belay/job.hpp"
#include "job/raw.hpp"
#include <optional>

namespace belay {

// Whether places that run so count from the other end.
bool turns_places(Along, Mirror);
Side mirrored(Side, Mirror);
// Places and the numbers of braces count from the left or the front of the house that comes out. Twice is the house
// itself. Leaves `House::mirror` and the remarks alone.
House mirrored(House, Mirror);

// How a job has its house built, if not as drawn; then the house is mirrored, and says so.
std::optional<Mirror> mirror_of_job(const raw::Job&);
void build_mirrored(House&, Mirror);

}  // namespace belay
