// Verandas and carports: what the wind that somebody typed in lifts of them, from rafter to wall and beam, from beam to
// posts. No table in hand has the wind on open roofs, so every load case has the same: the pressure as it was given,
// with the greatest factor on the wind and the least on the weight that any case has.
#pragma once
#include "load_path/roof.hpp"
#include "wind/wind.hpp"
#include <string>
#include <vector>

namespace belay {

// at: along the wall, from its start. width: of the roof that it carries, half of the space on both sides.
struct VerandaRafter {
  std::size_t veranda;
  Length at, width;
};
// index: among the veranda's posts.
struct VerandaPost {
  std::size_t veranda, index;
  Length at;
};

class Verandas {
 public:
  Verandas(const House&, const Loads&);
  std::vector<VerandaRafter> rafters;
  std::vector<VerandaPost> posts;

  // Whether the job gives what lifts it; nothing lifts one of which that is not known, and nobody may rely on it.
  bool known(std::size_t veranda) const { return house_.verandas[veranda].net_uplift.has_value(); }
  std::size_t wall_of(std::size_t veranda) const;  // index in House::walls

  // Uplift at a rafter's two ends and on a post, not below zero; exact: with what presses left in.
  Force at_wall(std::size_t rafter, Working* w = nullptr) const { return at(rafter, true, w); }
  Force at_beam(std::size_t rafter, Working* w = nullptr) const { return at(rafter, false, w); }
  Force exact_at_wall(std::size_t rafter) const { return exact(rafter, true, nullptr); }
  Force exact_at_beam(std::size_t rafter) const { return exact(rafter, false, nullptr); }
  Force on_post(std::size_t post, Working* = nullptr) const;
  double on_weight(Working* = nullptr) const;  // factor on weight that holds: the least of all load cases
  std::vector<Piece_of_demand> rafter_made_of(std::size_t rafter, bool wall) const;
  std::vector<Piece_of_demand> post_made_of(std::size_t post) const;

  std::string number(std::size_t rafter) const;       // in symbols
  std::string wall_symbol(std::size_t rafter) const;  // under which `at_wall` is told
  std::string beam_symbol(std::size_t rafter) const;
  std::string post_symbol(std::size_t post) const;
  std::string rafter_words(std::size_t rafter, bool wall) const;  // "V R1 at 900 wall"
  std::string post_words(std::size_t post) const;                 // "V post 1"

 private:
  const Veranda& of(std::size_t veranda) const { return house_.verandas[veranda]; }
  Force wind(std::size_t rafter, bool wall, Working*) const;
  Force weight(std::size_t rafter, bool wall, Working*) const;
  Force exact(std::size_t rafter, bool wall, Working*) const;
  Force at(std::size_t rafter, bool wall, Working*) const;
  double share(std::size_t rafter, std::size_t post) const;
  std::string symbol(std::size_t rafter, bool wall) const;

  const House& house_;
  double on_wind_ = 0.0, on_weight_ = 0.0;
  std::string on_wind_from_, on_weight_from_;
};

}  // namespace belay
