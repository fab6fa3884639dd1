// What wind and weight on the roof bring to each bearing, one load case at a time: from creepers to hip rafters, from
// jacks and hip rafters to girders, from trusses to walls. Uplift is positive. Every function has two lives: with a
// null Working it computes (and remembers); with a Working it computes again and tells its steps, those that it rests
// on first, each once.
#pragma once
#include "load_path/members.hpp"
#include "wind/wind.hpp"
#include <optional>
#include <string>
#include <vector>

namespace belay {

struct Measures;  // shape/cut.hpp

// A signed contribution to a demand, for `made_of`.
struct Piece_of_demand {
  std::string what, from;
  Force value;
};

// A symbol of what a block has of its own: of a wing its name stands behind it.
std::string in_block(const House&, std::string symbol, std::size_t block);

class RoofForces {
 public:
  RoofForces(const House&, const Shape&, const Loads&);
  // With members that are laid out already.
  RoofForces(const House&, const Shape&, const Loads&, Members);

  const std::vector<Member>& members() const { return all_.members; }
  const std::vector<Bearing>& bearings() const { return all_.bearings; }
  const Member& member_of(std::size_t bearing) const { return all_.members[all_.bearings[bearing].member]; }

  // Net uplift at a bearing, by moments; the level part of a pressure turns a member as far as it lies along it, about
  // the bearings' level. What stands on another member hands on its upright part, whichever way it goes. Where relief
  // would rest on continuity it is set to zero: a verge's lever on the next truss; an inside wall under a truss: the
  // outside bearings take the worse of with it and without. Past a bearing that is set back the member sticks out: what
  // lies there comes to that bearing by its lever, and to the others only where it makes them worse, its weight then
  // with its greatest; with it counts what blows in the recess under it, which `exact_uplift` leaves out.
  Force uplift(std::size_t load_case, std::size_t bearing, Working* = nullptr) const;
  // What balances the loads exactly, that relief left in (for the laws).
  Force exact_uplift(std::size_t load_case, std::size_t bearing) const;
  // What presses on the bearing under the method's combination for it, the greatest weight counted; not below zero, and
  // zero where the method has no such combination in hand.
  Force press(std::size_t load_case, std::size_t bearing, Working* = nullptr) const;
  // Of jacks, creepers and hip rafters at a wall what presses at most, whether their foot or their head holds the level
  // part of the wind; what stands on them does not relieve.
  Force most_press(std::size_t load_case, std::size_t bearing, Working* = nullptr) const;
  std::string most_press_symbol(std::size_t bearing) const;  // under which it is told
  // What of `press` is weight alone, the greatest, before any factor; not below zero.
  Force greatest_weight(std::size_t bearing) const;
  std::vector<Piece_of_demand> uplift_made_of(std::size_t load_case, std::size_t bearing) const;
  std::string number(std::size_t bearing) const;        // in symbols; a truss's first and last bearing share one
  std::string symbol(std::size_t bearing) const;        // under which `uplift` is told: "U_3"
  std::string press_symbol(std::size_t bearing) const;  // under which `press` is told: "P_3"
  // Of the roof on plan, least; told under that symbol.
  Pressure sure_weight(const Surface&, Working*) const;
  std::string sure_weight_symbol(const Surface&) const;

  // On more than two bearings: taken as one beam of even stiffness over all of them.
  bool continuous(std::size_t member) const { return all_.members[member].bearings.size() > 2; }
  bool any_continuous() const;
  bool has_upright_face() const;  // half trusses with a face above the high wall, which the wind square on turns
  bool any_clear_end() const;
  // Whether what lifts goes by the pressure square on to walls as well.
  bool feels_square_on() const { return has_upright_face() || any_clear_end(); }

 private:
  // How loads come to the bearings: by moments about the other one of the first and the last bearing, or with the
  // member as one beam over all its bearings.
  enum class How : unsigned char { by_moments, as_one_beam };
  // What counts of the part of a member that sticks out past a bearing set back: all of it; of what it brings to the
  // other bearings what lifts them, or what presses on them.
  enum class Count : unsigned char { all, what_lifts, what_presses };
  // A piece of the plan that a member holds. at: its centroid; u: along the member from its `from`; z: height above the
  // bearings; facing: cosine of the angle between the way the slope falls and the member's axis; past: of a verge, how
  // far past the end truss. shares: on a continuous member, of each bearing in a load spread evenly over the piece;
  // turned: in a pressure square to it, whose level part turns the member. sticks_out: past a bearing set back.
  struct Piece {
    std::size_t zone, surface;
    Area a;
    Point at;
    Length u, z;
    double facing;
    bool past_end;
    Length past;
    std::vector<double> shares, turned;
    bool sticks_out;
  };
  // The other end of a verge's lever, as it loads the next truss. wind: per layout.
  struct Lever {
    std::size_t from;
    Length space;
    std::vector<std::vector<Piece>> wind;
    std::vector<Piece> dead;
  };
  // A bearing of another member on this one.
  struct Handed {
    std::size_t bearing;
    std::vector<double> shares;  // as those of a piece
  };
  // The place of a bearing among those of its member. span: between the member's outside bearings; end: where the first
  // of them stands, seen from it, or the last.
  struct Seat {
    std::size_t member, place;
    bool first, last;
    Length span, end;
  };
  struct Numbers {
    std::vector<std::size_t> wind, dead;  // under which the pieces are told, from 1
  };

  void cut();
  bool alike(const LoadCase&, const LoadCase&) const;
  void compute_all();

  const LoadCase& of(std::size_t c) const { return loads_.cases[c]; }
  const Surface& surface(const Piece& p) const { return shape_.surfaces[p.surface]; }
  // Its zone is the caller's to set.
  Piece piece_of(const Member&, std::size_t surface, const Polygon&, const Measures&, bool past_end) const;
  struct Shares {
    std::vector<double> upright, turned;
  };
  Shares shares_of(const Member&, const Surface&, const Polygon&) const;
  std::vector<Length> places_of(const Member&) const;
  Length span_of(std::size_t member) const;
  Length from_bearing(const Seat&, Length u) const;  // level distance from the bearing in question
  double facing_here(const Seat& s, const Piece& p) const { return s.first ? -p.facing : p.facing; }
  bool set_back(std::size_t bearing) const;
  // Whether a piece counts at a bearing apart from the weight that lifts it. row: what it brings, upwards.
  bool counts(std::size_t bearing, const Piece&, Force row, Count) const;
  bool is_plain(std::size_t member) const;
  std::string span_symbol(std::size_t member) const;
  std::string pitch_symbol(const Surface&) const;
  std::string prefix(std::size_t bearing) const;  // of the numbers of a member's pieces
  std::string suffix(std::size_t bearing) const;  // of the words for what its bracket has to hold
  std::string along_source(std::size_t member) const;
  const Roof& roof_of(const Surface&) const;

  Pressure weight(const Surface&, bool greatest) const;
  std::string weight_symbol(const Surface&, bool greatest) const;
  void tell_weight(const Surface&, bool greatest, Working&) const;
  // The pressure of a zone on a member: where it goes by the loaded area, that for one end of this member.
  Pressure net(std::size_t c, std::size_t zone, std::size_t member, Working* = nullptr) const;
  std::string net_symbol(std::size_t c, std::size_t zone, std::size_t member) const;  // under which it is told
  Area loaded_area(std::size_t member, Working*) const;
  // From 0 (small areas) to 1 (large ones), of a case whose pressures go by it.
  double area_share(const ByArea&, std::size_t member, Working*) const;

  void tell_piece(std::size_t bearing, const Piece&, std::size_t n, Working&) const;
  Numbers tell_measures(std::size_t c, std::size_t bearing, bool greatest, Working*) const;
  // In silence, under that pressure.
  Force wind_row(std::size_t bearing, How, const Piece&, Pressure) const;
  Force wind_row(std::size_t c, std::size_t bearing, How, const Piece&, std::size_t loaded, std::string_view symbol,
                 std::size_t n, Working*) const;
  Force dead_row(std::size_t bearing, How, const Piece&, bool greatest, std::string_view symbol, std::size_t n,
                 Working*) const;
  std::vector<As<Force>> wind_rows(std::size_t c, std::size_t bearing, How, Count, const Numbers&, Working&) const;
  std::vector<As<Force>> dead_rows(std::size_t bearing, How, bool greatest, Count, const Numbers&, Working&) const;
  // The member's own strip at a bearing and, on end trusses, the lever of the verge. net: the pressure on each of its
  // pieces.
  Force own_wind(std::size_t bearing, How, Count, const std::vector<Piece>&, const std::vector<Pressure>& net) const;
  Force own_dead(std::size_t bearing, How, bool greatest, Count) const;
  // Of the greatest weight past a bearing that is set back what lifts this bearing: negative or nothing.
  Force tipping_weight(std::size_t bearing, How) const;
  bool tips(std::size_t bearing, How, const Piece&) const;  // a piece that does
  bool weight_counts(std::size_t bearing, How, const Piece&, Count) const;
  double tipping_factor(std::size_t c) const;
  As<Force> tell_tipping(std::size_t c, std::size_t bearing, How, const Numbers&, Working&) const;
  // What blows in the recess under the part of a member that sticks out, stretch by stretch of even pressure.
  std::vector<As<Force>> from_the_recess(std::size_t c, std::size_t bearing, How, Working*) const;
  // From the verge past the neighbour; wind and dead: the factors on them. Exact, or what it adds.
  Force carried(std::size_t c, std::size_t bearing, How, double wind, double dead, bool greatest) const;
  Force carried_on(std::size_t c, std::size_t bearing, How, double wind, double dead, bool greatest,
                   bool sticks_out) const;
  Force added_by_verge(std::size_t c, std::size_t bearing, How, Count) const;
  Force handed(std::size_t bearing, How, const Handed&, Force whole, const std::string& whole_symbol, Working*) const;

  Force lifted(std::size_t c, std::size_t bearing, How, const std::string& symbol, Working*) const;
  Force exactly_lifted(std::size_t c, std::size_t bearing) const;
  Force pressed(std::size_t c, std::size_t bearing, How, const std::string& symbol, Working*) const;
  // The worse of the ways that count at this bearing.
  How deciding(std::size_t c, std::size_t bearing) const;
  How exact_way(std::size_t bearing) const;
  // Of a half truss: what the wind on the face above the high wall adds, stretch by stretch of even pressure. Which way
  // it turns the truss a case's pressure square on does not say: the worse at every bearing.
  std::vector<As<Force>> turned_by_face(std::size_t c, std::size_t b, bool press, Working*) const;
  // Weight that lifts a bearing (past the other one, by a lever) counts with its greatest and the factor of what
  // presses.
  bool weight_lifts(std::size_t c, std::size_t b, How how) const {
    return dead_held_[b][how] < zero<Force>() && !of(c).down.name.empty();
  }
  // Relief that is not used: what presses on a girder (a hip rafter that its overhang tips up presses its other end),
  // and what a lifting load on one span of a member over several bearings would take from the bearing past the next.
  bool no_relief(std::size_t c, std::size_t b, How how, const Handed& h) const {
    const bool lifts = memo(c).uplift[h.bearing] > zero<Force>();
    if (how == How::as_one_beam) return lifts && h.shares[seats_[b].place] < 0.0;
    return !lifts && all_.members[seats_[b].member].kind == MemberKind::girder;
  }
  Force worse(std::size_t c, std::size_t bearing, bool press, const std::string& symbol, Working*) const;
  Force weighs(std::size_t bearing, How) const;

  const House& house_;
  const Shape& shape_;
  const Loads& loads_;
  Members all_;
  std::vector<Seat> seats_;                              // bearing
  std::vector<double> tangents_;                         // surface: of its slope
  std::vector<std::vector<std::vector<Piece>>> pieces_;  // layout, member
  std::vector<std::vector<Piece>> dead_;                 // member
  std::vector<std::vector<Lever>> levers_;               // member
  std::vector<std::vector<Handed>> handed_;              // member
  std::vector<Area> held_;                               // member: plan area, overhangs included, soffits not
  std::vector<Area> between_;                            // of it what does not stick out past a bearing set back
  std::vector<std::vector<double>> area_shares_;         // case, member; empty: no effect of area
  // Remembered results: per bearing, by how the load comes to it.
  struct Two {
    Force by_moments, as_one_beam;
    const Force& operator[](How how) const { return how == How::by_moments ? by_moments : as_one_beam; }
  };
  struct Remembered {
    std::vector<Two> wind, wind_up, wind_down;  // by Count
    std::vector<Force> exact, uplift, pressed;  // pressed: not yet cut off at zero
  };
  // Bearing: the least weight, exact; least and greatest as they hold down; the greatest as it presses; as it tips.
  std::vector<Two> dead_least_, dead_held_, dead_held_greatest_, dead_pressing_, dead_tips_;
  std::vector<Remembered> memo_;   // case
  std::vector<std::size_t> like_;  // case: the first that loads the roof alike
  const Remembered& memo(std::size_t c) const { return memo_[like_[c]]; }
};

}  // namespace belay
