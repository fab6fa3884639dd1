// `belay explain`: the steps of one link, from the first formula to the verdict.
#pragma once
#include "belay/check.hpp"
#include "belay/result.hpp"
#include "belay/working.hpp"
#include "report/page.hpp"
#include <optional>
#include <string>

namespace belay {

// The numbered steps under their headings, each with its words, its formula in symbols and in numbers, its result and
// its source; then demand against capacity, the verdict in words, the conditions and the cautions. A figure from memory
// is marked at the step that it enters by. Numbers stand as they do in the working, so that a pencil can repeat them.
// Precondition: `link` is an index into the result's links, and the working is that link's.
// room: how far it may stand off its place.
std::string working_page(const Result&, std::size_t link, const Working&, Look,
                         const std::optional<RoomToMove>& room = std::nullopt);

}  // namespace belay
