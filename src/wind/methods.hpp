// The methods that there are, and what their files share.
#pragma once
#include "wind/wind.hpp"
#include <fmt/format.h>
#include <functional>
#include <initializer_list>

namespace belay {

namespace as4055 {
SiteWind site(const WindAsk&, Working*);
Loads loads(const WindAsk&, Working*, std::optional<std::size_t> tell);
LineSpacing line_spacing(const WindAsk&);

// Racking pressure on the area of elevation of a face under a sloping roof.
// downwind: the table's entry for the downwind slope, "downwind_side" or "downwind_hip". highest_eaves of the table
// limits `eaves`; depth: of the plan along the wind; rise: of the highest point seen above the bearings. pitch: of the
// slope that falls to the face; beyond: of the one behind it, where that has another. The symbols: under which they are
// told.
struct SlopingFace {
  Pressure q;
  Length half_wall, roof_over_breadth, eaves, rise, depth;
  Angle pitch;
  std::string_view downwind;
  std::optional<Angle> beyond = std::nullopt;
  std::string pitch_symbol = "theta", beyond_symbol = {}, depth_symbol = "s";
};
Pressure racking_under_slope(const Table&, const SlopingFace&, Working*, std::string_view symbol);
// Whether a region as a table of classes names it holds this one: "A" holds "A2" too.
bool fits_region(std::string_view named, std::string_view region);
// Whether the door's rating covers the class: the same family and no weaker. "N3" covers N2; "C3" does not.
bool rated_for_class(const std::string& rating, const std::string& wind_class);
// The class that the site asks for: as given, or worked out from what it states ("N3"); none where nothing fits.
std::optional<std::string> class_worked_out(const WindAsk&, Working*);
}  // namespace as4055

namespace asce_envelope {
SiteWind site(const WindAsk&, Working*);
Loads loads(const WindAsk&, Working*, std::optional<std::size_t> tell);
LineSpacing line_spacing(const WindAsk&);

// GC_pf of a zone ("2E") at a pitch in load case 'A' (wind across the ridge), 'B' (along it) or 'F' (along it, laid out
// as on a flat roof: an edition that has an entry "along_ridge").
double coefficient(const Table&, char load_case, const std::string& zone, Angle pitch, Working*);
// Net wall coefficient of components and cladding: column "inward", "out4" or "out5", for an effective area.
double wall_coefficient(const Table&, std::string_view column, Area, Working*, std::string_view symbol);
Length end_zone(const Table&, const Shape&, Length mean_height, Working*);
// By the area rule of the standard, with the doubtful openings of each face in turn open.
bool partially_enclosed(const WindAsk&);
}  // namespace asce_envelope

namespace asce_directional {
SiteWind site(const WindAsk&, Working*);
Loads loads(const WindAsk&, Working*, std::optional<std::size_t> tell);
LineSpacing line_spacing(const WindAsk&);
}  // namespace asce_directional

// The coefficients of AS/NZS 1170.2 on the gust worked out by it, given by a zone of NZS 3604, or typed in.
namespace as_nzs {
SiteWind site(const WindAsk&, Working*);
Loads loads(const WindAsk&, Working*, std::optional<std::size_t> tell);
LineSpacing line_spacing(const WindAsk&);

// What a table of AS/NZS 1170.2, or one that borrows from it, knows: the regions ("A2"), the terrain categories ("2.5")
// and the wind zones of NZS 3604 ("H"). Empty where there are none.
std::vector<std::string> regions(const Table&);
std::vector<std::string> terrains(const Table&);
std::vector<std::string> zones(const Table&);
// Limits of the site alone that are passed; `loads` has the building's beside them.
std::vector<Excess> site_limits(const WindAsk&);

// Coefficients of outside pressure by the tables. value: 0 the first of two, 1 the second; the symbol is for the told
// steps; pitch: with the symbol under which it was told. h_d, d_b, b_d: of the mean height, the depth along the wind
// and the breadth across it. roof_by_bands: of a band counted from the windward edge, for roofs below 10 degrees and
// wind along the ridge of a gable. roof_downwind: of the slopes of a hip roof that the wind blows along as well.
double roof_upwind(const Table&, std::size_t value, const As<Angle>& pitch, double h_d, Working*,
                   const std::string& symbol);
double roof_downwind(const Table&, const As<Angle>& pitch, double h_d, double b_d, Working*, const std::string& symbol,
                     std::string_view words = "coefficient of the downwind slope");
double roof_by_bands(const Table&, std::size_t value, std::size_t band, double h_d, Working*,
                     const std::string& symbol);
// by_slopes: wind on to a slope of 10 degrees or more. own: of the symbols beside its own, "L".
double wall_leeward(const Table&, bool by_slopes, const As<Angle>& pitch, double d_b, Working*,
                    const std::string& symbol, const std::string& own = "L");
// K_c of a roof or wall by the coefficient inside.
double surfaces_factor(const Table&, double c_pi, Working*);
}  // namespace as_nzs

namespace eurocode {
SiteWind site(const WindAsk&, Working*);
Loads loads(const WindAsk&, Working*, std::optional<std::size_t> tell);
LineSpacing line_spacing(const WindAsk&);
}  // namespace eurocode

// ---- shared
// The job's own measures, told once under the symbols that the formulas use: f floor level, h_w wall (or what
// `tell_walls` says), r rise; s span and theta pitch where the ridge stands in the middle of two slopes alike, else
// each slope's own pitch. Bit for bit those of the shape.
void tell_measures(Working*, const WindAsk&);
// The height of all walls together, under the symbol by which it is told: "h_w"; of two floors "h_walls", the sum of
// both floors' walls and the floor between. And that of the walls under the roof: "h_w", of two floors "h_w,first".
As<Length> walls_of(const WindAsk&);
As<Length> top_walls_of(const WindAsk&);
As<Length> tell_walls(Working*, const WindAsk&);  // what both stand on; walls_of
// Of the slope that falls to a side, under the symbol by which it is told: "theta" where it is the roof's own pitch,
// "theta_back" where that slope has another.
As<Angle> pitch_of(const WindAsk&, Side);
// The combinations of these entries, in which the load on a floor presses as well.
void press_on_floors(Loads&, const Table&, std::initializer_list<std::string_view> keys);
// One figure of the table, told with its source, once under each symbol. In silence nothing is composed.
template <class Q>
Q figure(Working* w, const Table& t, std::string_view key, std::string_view column, std::string_view symbol,
         std::string_view words, std::size_t i = 0) {
  const Q x = quantity<Q>(t.column(key, column).at(i));
  if (w && w->first(fmt::format("figure {} {} {} {}", symbol, key, column, i)))
    looked_up(w, symbol, words, x, t.source(key));
  return x;
}
// Where x stands among ascending columns: between `low` and `low + 1`, or on `low` (outside them: on the nearest).
struct Place {
  std::size_t low;
  bool between;
};
template <class Q> Place place_among(const std::vector<Value>& columns, Q x) {
  std::size_t i = 0;
  while (i + 1 < columns.size() && quantity<Q>(columns[i + 1]) <= x) ++i;
  const bool between = i + 1 < columns.size() && x > quantity<Q>(columns[i]);
  return {i, between};
}
inline Side windward(Way towards) { return side_facing(opposite(towards)); }
inline bool falls_short(const std::optional<std::string>& rating,
                        const std::function<bool(const std::string&)>& covers) {
  return !rating || !covers(*rating);
}

}  // namespace belay
