// What presses on the studs at a brace's end, all together: the tipping, the roof that comes down there, and the wall.
#pragma once
#include "load_path/forces.hpp"
#include <optional>
#include <string>
#include <vector>

namespace belay {

// Of short members, half trusses, trusses that stick out past a bearing and those under a valley what presses is told
// alone: a bearing that their overhang tips, the face above a high wall, the wind in a recess are not in it.
bool answers_for_press(const Forces&, const Member&);

// Of braces whose mark names a stud group; of others nothing is laid out. What of the roof comes to an end is counted
// on the safe side: the whole of each bearing within reach of it, on whatever wall; of others over the brace by its
// lever, over an opening beside it by the lintel's, and of a truss along the wall its part by length.
class EndPress {
 public:
  explicit EndPress(const Forces&);
  // Why what presses at that end is not known whole; "" where it is.
  const std::string& unknown(std::size_t brace, End e) const { return at(brace, e).unknown; }
  // Precondition of both: it is known.
  Force on(std::size_t load_case, std::size_t brace, End, Working* = nullptr) const;
  std::vector<Piece_of_demand> made_of(std::size_t load_case, std::size_t brace, End) const;
  // Under which combination all presses: the case's own, else that of the method's cases that press.
  const Combination& down(std::size_t load_case) const;
  Marks marks(std::size_t load_case) const;  // the figures behind the roof's part of it

 private:
  struct Share {
    std::size_t bearing;
    double part;
    std::string why;
  };
  struct Laid {
    std::string unknown;
    std::vector<Share> shares;
    Length beside;  // of the wall past the end
  };
  const Laid& at(std::size_t brace, End e) const { return laid_[2 * brace + (e == End::left ? 0 : 1)]; }
  Laid lay_out(std::size_t brace, End) const;
  std::string not_known(std::size_t brace, const Laid&) const;
  Share share_of(std::size_t bearing, std::size_t brace, End, Length beside) const;
  Force roof(std::size_t load_case, std::size_t bearing) const;
  As<Force> tipping(std::size_t load_case, std::size_t brace, End, Working*) const;
  Force wall(std::size_t load_case, std::size_t brace, End, Working*) const;

  const Forces& f_;
  Length reach_;
  std::optional<std::size_t> pressing_;  // the first case that presses
  std::vector<Force> greatest_;          // by bearing: what presses in any case
  std::vector<Laid> laid_;               // by brace and end
};

}  // namespace belay
