// `belay show`: the house as it was understood, said back before any sum, for checking against the drawing with a
// thumb.
#pragma once
#include "belay/check.hpp"
#include "belay/job.hpp"
#include "report/page.hpp"
#include <string>
#include <vector>

namespace belay {

// `stations`: from set_out(), every anchor's place. The roof, that of the main block, and those of the wings: from
// roofs_of().
std::string said_back(const House&, const std::vector<Station>& stations, const RoofSaid&, Look,
                      const std::vector<RoofSaid>& of_wings = {});

// "file:line" of what a job states for a site: no two of its sites stand at one place.
std::string stated_at(const SiteAsk&);

}  // namespace belay
