// What changes in a house when something of its job is tried otherwise.
#pragma once
#include "report/page.hpp"
#include <string>

namespace belay {

// before: by the file as it is; after: with what was tried.
std::string tried_page(const Result& before, const Result& after, Look);

}  // namespace belay
