// Of a link's seed, what more than one of the judge's files asks.
#pragma once
#include "judge/judge.hpp"
#include "units/sizes.hpp"
#include <cmath>

namespace belay {

// Whether what presses is judged: the bracket's sheet states what it may be, and what stands on it is worked out in
// full.
inline bool judges_press(const Forces& f, const Bracket* b, const Member& m) {
  return b && b->press && answers_for_press(f, m);
}

inline bool of_the_fixings(const LinkSeed& s) {
  using Of = LinkSeed::Of;
  return s.of == Of::support || s.of == Of::ground || s.of == Of::stump_tie || s.of == Of::stump_ground;
}

// The way in which the whole house is pushed.
inline Way pushed_to(const LinkSeed& s) {
  if (s.a == 0) return s.sense == Sense::plus ? Way::right : Way::left;
  return s.sense == Sense::plus ? Way::back : Way::front;
}

inline const Brace& drawn(const Forces& f, std::size_t brace) {
  return *f.house.walls[f.braces[brace].wall].pieces[f.braces[brace].piece].brace;
}

// Of two places on a drawing, without the last bits of the subtraction: 9 m are 9 m wherever they are measured.
inline Length between_lines(Length a, Length b) {
  return Length::from_value(std::round(value(apart(a, b)).si * 1e9) / 1e9);
}

}  // namespace belay
