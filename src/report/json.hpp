// What other programs read: one JSON object a job.
#pragma once
#include "belay/check.hpp"
#include "belay/result.hpp"
#include <string>
#include <vector>

namespace belay {

// Keys never come and go: what does not apply is null, "" or an empty list. Quantities are {"value", "unit"} in the
// units of the job's print, in at most nine significant digits; a use is a bare number, rounded up at the sixth
// decimal, so that a use above 1 never reads 1. Places are in mm (metric) or ft. Nothing here can be NaN or infinite:
// such a value would be our own fault and throws std::logic_error. spread: over many lines, for one job; otherwise one
// line, so that those of many jobs can be read line by line. Either way the text ends with a line end.
std::string json(const Result&, bool spread);                      // format "belay-result/1"
std::string json(const std::vector<SiteWorkedOut>&, bool spread);  // "belay-site/1": of one job, at least one
std::string json(const std::vector<UnderMethod>&, bool spread);    // "belay-methods/1": of one job, at least one

}  // namespace belay
