// What the envelope and the directional procedure of ASCE 7 share: the pressure of the gust, openings, the pressure
// square on walls (components and cladding), combinations, the least wind, and the figures behind them.
#pragma once
#include "wind/zones.hpp"
#include <string>
#include <string_view>
#include <vector>

namespace belay::asce7 {

enum class Procedure : unsigned char { envelope, directional };

const AsceSite& asked(const WindAsk&);

// ---- the roof
bool one_slope(const Shape&);
bool has_hip_end(const Shape&);
// One slope of no more pitch than the figures know as flat.
bool is_flat(const WindAsk&);

// ---- the gust
// Height for the coefficients: half-way up the roof; where no slope is steeper than the edition's low pitch the top of
// the walls, but of a single slope half-way up always.
Length mean_height(const WindAsk&, Working*);
// Pressures of the gust, each under the symbol by which it is told: of the main system; of the main system on the walls
// that the wind meets, and on their gables; of components and cladding. They differ on a hill (towards the ground the
// speed-up grows), by height, and where the low-rise exposure factor stands for components alone.
struct Gust {
  As<Pressure> main, windward, gable, components;
};
Gust gust(const WindAsk&, Length mean_height, Procedure, Working*);
SiteWind site(const WindAsk&, Procedure, Working*);
// How much a hill speeds up: factors on the pressure at mean roof height and at the ground. 1.0 where it does not
// count.
struct SpeedUp {
  double at_roof, at_ground;
};
SpeedUp speed_up(const Table&, const Hill&, const std::string& exposure, Length mean_height, Working*);

// ---- the inside
bool partially_enclosed(const WindAsk&);
// key: of its figure in the table. sign: 1 pushes outwards.
struct Inside {
  std::string_view key;
  double sign;
  std::string id, words;
  bool open() const { return key == "inside_partial"; }
};
std::vector<Inside> insides(const WindAsk&);
double inside_coefficient(const Table&, const Inside&, Working*);

// ---- square on walls
Length end_zone(const Table&, const Shape&, Length mean_height, Working*);
// A coefficient read from the figure: one column's, or those on both sides of the area, which are brought together
// afterwards: reading comes first, so that a working shows all that is read in one block.
struct WallColumns {
  double low, high;
  Area here, at_low, at_high;
  bool between;
};
double wall_coefficient(const Table&, std::string_view column, Area, Working*, std::string_view symbol);
struct WallFigures {
  WallColumns in, middle, end;
  Pressure least;
};
WallFigures read_walls(const WindAsk&, Working*);
struct WallPressures {
  Pressure middle, end;
};
WallPressures wall_pressures(const WindAsk&, const WallFigures&, const As<Pressure>& q, double inside, Working*);
std::vector<SquareOn> square_on(const Shape&, Length end_zone, const WallPressures&);

// ---- load cases
Combination combination(const WindAsk&);
Combination down(const WindAsk&);  // in which weight and wind press together, at the level that is asked for
Marks down_marks(const WindAsk&);
std::string_view on_floors(const WindAsk&);  // the table's entry for the load on floors beside them
Basis basis(const WindAsk&);
// Of the gust; of all that every case rests on.
Marks gust_marks(const WindAsk&);
Marks common_marks(const WindAsk&, Procedure);
Marks inside_marks(const Table&, const Inside&);
// The least wind: on what can be seen of the building from one side, the roof not lifted. The layout of such a roof.
Layout not_lifted(const Shape&);
LoadCase least_wind(const WindAsk&, Procedure, Way towards, std::size_t layout, Working*);
std::vector<Excess> limits_passed(const WindAsk&, Procedure, Length mean_height);

}  // namespace belay::asce7

namespace belay::asce_directional {
// A coefficient of the figure `key`: of walls and bands by a ratio of the building; of slopes by pitch and h/L. value:
// "suction" or "other". pitch, ratio: under the symbols by which they are told.
double by_ratio(const Table&, std::string_view key, std::string_view column, const As<double>& ratio, Working*,
                std::string_view symbol, std::string_view words);
double slope(const Table&, std::string_view key, std::string_view value, const As<Angle>& pitch,
             const As<double>& ratio, Working*, std::string_view symbol, std::string_view words);
}  // namespace belay::asce_directional
