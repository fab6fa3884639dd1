// `belay site`: the wind at the house by itself, from what the job states to the gust on each face.
#pragma once
#include "belay/check.hpp"
#include "report/page.hpp"
#include <string>

namespace belay {

// What the site is and who gave it; the wind on each face with the direction that decides and its factors; the steps;
// the edition's combinations, figures from memory, cautions and what was not looked at. all: every direction's factors
// in a table and every direction's steps, not those alone that decide a face.
std::string site_page(const SiteWorkedOut&, bool all, Look);

}  // namespace belay
