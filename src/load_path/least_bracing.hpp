// What each bracing line must hold at least, whatever the wind brings it, where the job asks for such a rule; and what
// its braces hold against that.
#pragma once
#include "load_path/forces.hpp"

namespace belay {

// The greatest of what every line must hold, a part of the line's even share of the floor's push in that sense (of the
// house or of one of its blocks, the worse), and what goes with the outside wall on it.
Force least_bracing(const Forces&, std::size_t load_case, std::size_t line, Sense, Working* = nullptr);
// Whether anything pushes in that sense: then it rests on the wind as well.
bool rests_on_wind(const Forces&, std::size_t load_case, std::size_t line, Sense);
// All braces of the line that count in that sense; of lining no more than its greatest share of `least`.
Force holds_against_least(const Forces&, std::size_t line, Sense, Force least, Working* = nullptr);

}  // namespace belay
