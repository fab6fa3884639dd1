// What presses on the studs at a brace's end, all together: the tipping, what the roof and a first floor bring down
// there, and the walls.
#pragma once
#include "load_path/forces.hpp"
#include <optional>
#include <string>
#include <vector>

namespace belay {

// Of short members, trusses that stick out past a bearing and those under a valley what presses is told alone: how a
// member is held at its head, a bearing that its overhang tips, the wind in a recess are not in it.
bool answers_for_press(const Forces&, const Member&);

// Of braces whose mark names a stud group; of others nothing is laid out. What comes to an end is counted on the safe
// side. Of the roof the whole of each bearing within reach of it, on whatever wall (of a short member the most that it
// may press, however it is held); of others over the brace by its lever, over an opening beside it by the lintel's, and
// of a truss along the wall its part by length. Under a first floor the same of what its studs bring down and of the
// pressed ends of its braces; of the floor itself, with its load, what may bear on the walls within reach; and its
// walls. What stands on the floor alone and would come here by the joists is not known.
class EndPress {
 public:
  explicit EndPress(const Forces&);
  // Why what presses at that end is not known whole; "" where it is.
  const std::string& unknown(std::size_t brace, End e) const { return at(brace, e).unknown; }
  // Whether a floor over it presses there: its weight and load must be stated.
  bool under_the_floor(std::size_t brace) const;
  // Braces of the first floor whose pressed ends come there, in any measure.
  std::vector<std::size_t> braces_above(std::size_t brace, End) const;
  // Whether tipping presses there in that case, that of the brace itself or of one above.
  bool tips(std::size_t load_case, std::size_t brace, End) const;
  // Precondition of all that follow: it is known, and what it rests on is stated.
  Force on(std::size_t load_case, std::size_t brace, End, Working* = nullptr) const;
  std::vector<Piece_of_demand> made_of(std::size_t load_case, std::size_t brace, End) const;
  // Under which combination all presses most: the case's own, else that of the method's cases that press, or under a
  // floor one with its load.
  const Combination& down(std::size_t load_case, std::size_t brace, End) const;
  Marks marks(std::size_t load_case, std::size_t brace) const;  // the figures behind all but the tipping

 private:
  struct Share {
    std::size_t bearing;
    double part;
    std::string why;
  };
  struct Above {
    std::size_t brace;
    End end;
    double part;
    std::string why;
  };
  // Of a floor what may bear on a wall: so long a stretch of the wall, and so wide a strip beside it.
  struct Floored {
    std::size_t wall;
    Length along, deep;
    std::string along_why, deep_why;
  };
  // A wall of the first floor over the brace's own, or on the floor alone, where its weight may come here.
  struct WallAbove {
    std::size_t wall;
    Length length;
    bool on_the_floor;
  };
  enum class OfLintels : unsigned char { half, whole };
  struct Laid {
    std::string unknown;
    std::vector<Share> shares;
    Length beside;  // of the wall past the end
    std::vector<Above> above = {};
    std::vector<Floored> floors = {};
    std::vector<WallAbove> walls = {};
  };
  // A part of what stands somewhere, and why.
  struct Part {
    double part;
    std::string_view why;
  };
  const Laid& at(std::size_t brace, End e) const { return laid_[2 * brace + (e == End::left ? 0 : 1)]; }
  Laid lay_out(std::size_t brace, End) const;
  void lay_out_floor(std::size_t brace, End, Laid&) const;
  Floored floored(std::size_t wall, Length stretch, std::string why) const;
  std::string not_known(std::size_t brace, End, const Laid&) const;
  std::string not_known_of_floor(std::size_t brace, End, const Laid&) const;
  Share share_of(std::size_t bearing, std::size_t brace, End, Length beside) const;
  Part part_of(const Point& there, std::optional<std::size_t> wall, std::size_t brace, End) const;
  std::pair<Length, Length> stretch_of(std::size_t brace, End, Length beside) const;
  std::pair<Length, Length> wide_stretch_of(std::size_t brace, End) const;
  bool may_come_by_joists(const Point& there, std::size_t brace, End) const;
  std::pair<Length, Length> caught_by(const Wall&, std::size_t brace, End, std::pair<Length, Length> own) const;
  Length carried_to(const Wall&) const;
  Length reached(const Wall& above, Length from, Length to, std::size_t brace, End, Length beside) const;

  const Combination& own(std::size_t load_case) const;
  std::vector<const Combination*> combinations(std::size_t load_case, std::size_t brace) const;
  Force press(std::size_t wind_case, std::size_t bearing) const;
  std::pair<Length, Length> reached_on(const Wall&, const Point& here, OfLintels) const;
  bool jamb_near(const Wall&, Length at, const Point& here) const;
  bool near_by(const Point& there, const Point& here) const;
  Force roof(std::size_t load_case, std::size_t bearing, const Combination&) const;
  As<Force> tell_roof(std::size_t load_case, const Share&, const Combination&, Working&) const;
  As<Force> from_above(std::size_t load_case, const Above&, Working*) const;
  As<Force> tipping(std::size_t load_case, std::size_t brace, End, const Combination&, Working*) const;
  std::vector<As<Force>> walls(std::size_t brace, End, const Combination&, Working*) const;
  std::vector<As<Force>> floors(std::size_t brace, End, const Combination&, Working*) const;
  Force sum(std::size_t load_case, std::size_t brace, End, const Combination&, Working*) const;

  const Forces& f_;
  Length reach_, near_;
  std::optional<std::size_t> pressing_;   // the first case that presses
  std::vector<Force> greatest_;           // by bearing: what presses in any case
  std::vector<std::vector<Force>> most_;  // by the wind's case and bearing: what a short member presses
  std::vector<Force> weight_;             // by bearing, under a first floor's roof: its greatest weight
  std::vector<Laid> laid_;                // by brace and end
};

}  // namespace belay
