// The coefficients of AS/NZS 1170.2 on a house. Every wind is laid out once, along +x onto the face at x = 0; four
// frames of the plan give the four faces. Each slope goes by its own pitch and the way it falls: to the windward face
// by Table 5.3(B), to the leeward one by 5.3(C), along the wind by 5.3(C) on a hip roof; slopes below 10 degrees, and
// slopes along the wind of gable roofs and skillions, by the bands of 5.3(A) from the windward edge. A skillion is one
// upwind slope with its low side to the wind, one downwind slope with its high side to it. Where the standard gives two
// coefficients, all the first ones are a load case and all the second ones another. Readings taken:
// - The dynamic factor is 1. The roof's local factors are 1: they are for cladding and what holds it directly (cl.
//   5.4.4), which trusses do not. Near its corners a wall is taken with them (SA1, WA1) on what its anchors resist;
//   what an anchor carries is larger than the areas of the higher factors. K_a of walls is 1, which is safe.
// - Bands start at the wall, not at the edge of its overhang: the strong suction reaches further over the house.
// - Under eaves and verges stands the pressure of the wall below them; under those that reach past the windward wall's
//   plane that of the windward wall. Nothing comes from inside there.
// - K_c is one for the whole roof in a case, by the coefficient inside. Where overhangs count as further surfaces a
//   smaller one would be allowed.
// - Beyond 25 m2 the pressure on a roof falls no further.
// - A house stands on its slab on the ground: 0.7 on the windward wall.
// - Where the table's values differ in sign the second coefficient takes those of the positive sign: it never pushes
//   less than plain interpolation between the four would.
// - On a hip roof with a gable to the wind, on its wall or standing on a hip end, slopes along the wind take the worse
// of
//   5.3(A) and 5.3(C), band by band: the first coefficients the lesser, the second ones the greater.
// - The leeward wall goes by the pitch of the slope that falls to it or, where the windward face has another or none,
// by
//   whichever makes it pull harder; under its overhangs and inside behind its openings, where a pull holds down, by
//   whichever pulls less. Of a single slope along the wind both the figures of its pitch and those of flat roofs count.
// - Where the slopes that fall along the wind do not stand opposite each other at like height, a case with the roof's
//   push leaves out those that relieve; where only their eaves differ, the overhangs that do.
// - The level parts of the pressures on slopes along the wind, and on side walls of unlike height, are left out: they
//   act square to the wind, and are less than what wind on to that face brings.
// - Inside, the ends of the standard's range are load cases, and an end that is no surface (under 0.2) has K_c 1.
#include "wind/formulas_as_nzs.hpp"
#include "wind/zones.hpp"
#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <string_view>
#include <utility>

namespace belay::as_nzs {

static const AsNzsSite& asked(const WindAsk& ask) { return std::get<AsNzsSite>(ask.site); }
static std::string source(Working* w, const Table& t, std::string_view key) {
  return w ? t.source(key) : std::string();
}

namespace {
// What the coefficient of a part of the roof goes by: Table 5.3(B), 5.3(C) for the slope beyond and for slopes along
// the wind, a band of 5.3(A), the worse of the last two.
enum class By : unsigned char { upwind, downwind, along, band, worse };
// side: whose slope's pitch it goes by (not of bands). label: "U", "R1".
struct RoofPlace {
  By by;
  Side side;
  std::size_t band;
  std::string label;
};
// By which figures the leeward wall goes: those of a pitch, that of the slope which falls to `side`, or by d/b.
struct Reading {
  bool by_pitch;
  Side side;
};
// The building as one wind meets it. face: the windward one; d along the wind, b across it; q of that face. Of a block
// of several what goes by its own depth is pulled harder, by the whole house's breadth the lee is; what pushes goes by
// the whole depth (d_all, h_d_all).
// place_of: of the slope that falls to each side, in the order of Side, its first one where it goes by bands.
// opposed: the slopes that fall along the wind stand opposite each other at like height; alike: their eaves do as well.
struct Wind {
  Side face;
  Frame8 f;
  Length h, d, b, d_all;
  double h_d, d_b, b_d, h_d_all;
  Pressure q;
  std::vector<RoofPlace> roof;
  std::array<std::size_t, 4> place_of;
  std::vector<Reading> leeward;
  bool opposed, alike;
};
// Coefficients by their place: walls first, then the roof. at_sheltered: of the leeward wall, where a pull holds down.
constexpr std::size_t at_windward = 0, at_leeward = 1, at_side = 2, side_bands = 4, at_sheltered = 6, at_roof = 7;
// 0: the first of two coefficients (it lifts most), 1: the second.
using OfTwo = std::size_t;
}  // namespace

static bool slopes_count(const Table& t, Angle pitch) { return pitch >= t.get<Angle>("limits", "sloping"); }

static constexpr std::array all_sides{Side::left, Side::front, Side::right, Side::back};
static std::size_t index(Side side) { return static_cast<std::size_t>(side); }
static Side facing(Side side) { return side_facing(opposite(outward(side))); }

// ---- bands ---------------------------------------------------------------------------------------------------------

// Ends of the bands in heights h from the windward edge; behind the last one the rest.
static std::vector<double> ends(const Table& t, std::string_view key, std::string_view column) {
  std::vector<double> all;
  for (const Value& v : t.column(key, column)) all.push_back(quantity<double>(v));
  return all;
}
static std::vector<double> side_ends(const Table& t) {
  std::vector<double> all = ends(t, "wall_side", "to");
  all.push_back(t.number("wall_side_far", "to"));
  return all;
}
namespace {
enum class FlatRows : unsigned char { low, between, high };
}
static FlatRows flat_rows(const Table& t, double h_d) {
  const auto& rows = t.column("roof_flat", "h_d");
  if (h_d <= quantity<double>(rows.front())) return FlatRows::low;
  return h_d >= quantity<double>(rows.back()) ? FlatRows::high : FlatRows::between;
}
static std::vector<double> roof_ends(const Table& t, double h_d) {
  std::vector<double> low = ends(t, "roof_flat", "low_to"), high = ends(t, "roof_flat", "high_to");
  switch (flat_rows(t, h_d)) {
    case FlatRows::low: return low;
    case FlatRows::high: return high;
    case FlatRows::between: break;
  }
  high.insert(high.end(), low.begin(), low.end());
  return high;
}
static std::string band_words(const std::vector<double>& to, std::size_t i) {
  const double from = i == 0 ? 0.0 : to[i - 1];
  return i < to.size() ? fmt::format("{} to {} h from the windward edge", from, to[i])
                       : fmt::format("more than {} h from the windward edge", from);
}

// ---- the roof as a wind sees it ------------------------------------------------------------------------------------

// Whether a face is under a slope all the way up to the ridge.
static bool sloping(const RoofSide& side) { return side.slopes && !(side.gable_above > zero<Length>()); }

static By rule_of(const WindAsk& ask, Side face, Side falls_to) {
  const Shape& s = ask.shape;
  if (!slopes_count(ask.table, s.at(falls_to).pitch)) return By::band;
  if (falls_to == face) return By::upwind;
  if (falls_to == facing(face)) return By::downwind;
  if (s.roof != RoofShape::hip) return By::band;
  return sloping(s.at(face)) ? By::along : By::worse;
}
static std::size_t roof_place(std::vector<RoofPlace>& roof, const Shape& s, By by, Side side, std::size_t bands) {
  const auto same = [&](const RoofPlace& p) {
    return p.by == by && (by == By::band || s.at(p.side).pitch == s.at(side).pitch);
  };
  const auto at = std::find_if(roof.begin(), roof.end(), same);
  const std::size_t place = at_roof + static_cast<std::size_t>(at - roof.begin());
  if (at != roof.end()) return place;
  // Slopes along the wind of two pitches: the second one under the name of its side.
  const bool second = std::any_of(roof.begin(), roof.end(), [&](const RoofPlace& p) { return p.by == by; });
  const std::string own = second ? ',' + std::string(words(side)) : std::string();
  const auto in_bands = [&](std::string_view name) {
    for (std::size_t i = 0; i < bands; ++i) roof.push_back({by, side, i, fmt::format("{}{}{}", name, i + 1, own)});
  };
  switch (by) {
    case By::upwind: roof.push_back({by, side, 0, "U"}); break;
    case By::downwind: roof.push_back({by, side, 0, "D"}); break;
    case By::along: roof.push_back({by, side, 0, "A" + own}); break;
    case By::band: in_bands("R"); break;
    case By::worse: in_bands("AR"); break;
  }
  return place;
}
// Lays out `roof` and `place_of`: slopes in the order in which the wind meets them, then bands, then what is the worse
// of both.
static void lay_places(const WindAsk& ask, Wind& wind) {
  const Shape& s = ask.shape;
  const std::size_t bands = roof_ends(ask.table, wind.h_d).size() + 1;
  const std::array meets{wind.face, facing(wind.face), side_facing(wind.f.own(Way::front)),
                         side_facing(wind.f.own(Way::back))};
  for (const By now : {By::upwind, By::downwind, By::along, By::band, By::worse})
    for (const Side side : meets) {
      if (!s.at(side).slopes) continue;
      const By by = rule_of(ask, wind.face, side);
      // The worse of both needs each of them.
      const bool needed = by == By::worse && (now == By::along || now == By::band);
      if (by != now && !needed) continue;
      const std::size_t place = roof_place(wind.roof, s, now, side, bands);
      if (by == now) wind.place_of[index(side)] = place;
    }
}
static std::vector<Reading> leeward_readings(const WindAsk& ask, Side face) {
  const Shape& s = ask.shape;
  std::vector<Reading> all;
  const auto add = [&](Reading r) {
    const auto same = [&](const Reading& x) {
      return x.by_pitch == r.by_pitch && (!r.by_pitch || s.at(x.side).pitch == s.at(r.side).pitch);
    };
    if (std::none_of(all.begin(), all.end(), same)) all.push_back(r);
  };
  for (const Side side : {facing(face), face}) {
    const RoofSide& r = s.at(side);
    if (r.slopes) add({slopes_count(ask.table, r.pitch), side});
    if (!sloping(r)) add({false, side});
  }
  return all;
}
static Wind wind_onto(const WindAsk& ask, const SiteWind& site, const Turn& turn) {
  const Shape& s = ask.shape;
  const Frame8 f(s.across, s.up, turn);
  const Side face = windward(f.own(Way::right));
  const bool blocks = s.whole_across > zero<Length>(), along_x = is_across(f.own(Way::right));
  const Length d_all = !blocks   ? f.across()
                       : along_x ? s.whole_across
                                 : s.whole_up,
               b = !blocks   ? f.up()
                   : along_x ? s.whole_up
                             : s.whole_across;
  Wind wind{
      .face = face,
      .f = f,
      .h = s.mean_roof_height,
      .d = f.across(),
      .b = b,
      .d_all = d_all,
      .h_d = formulas::height_to_depth(nullptr, s.mean_roof_height, f.across()),
      .d_b = formulas::height_to_depth(nullptr, f.across(), b),
      .b_d = formulas::height_to_depth(nullptr, b, f.across()),
      .h_d_all = formulas::height_to_depth(nullptr, s.mean_roof_height, d_all),
      .q = site.faces[index(face)].q,
      .roof = {},
      .place_of = {},
      .leeward = leeward_readings(ask, face),
      .opposed = sloping(s.at(face)) && sloping(s.at(facing(face))),
      .alike = s.at(face).pitch == s.at(facing(face)).pitch && s.at(face).overhang == s.at(facing(face)).overhang};
  lay_places(ask, wind);
  // Of two slopes one by its pitch, the other by bands: not alike.
  wind.opposed =
      wind.opposed && (rule_of(ask, face, face) == By::band) == (rule_of(ask, face, facing(face)) == By::band);
  return wind;
}
static const RoofPlace& on_roof(const Wind& wind, std::size_t place) { return wind.roof[place - at_roof]; }
static bool goes_by_bands(const RoofPlace& p) { return p.by == By::band || p.by == By::worse; }

// "W", "S2", "U": behind C_pe and p in symbols.
static std::string label_of(const Wind& wind, std::size_t place) {
  if (place == at_windward) return "W";
  if (place == at_leeward) return "L";
  if (place == at_sheltered) return wind.leeward.size() > 1 ? "Lo" : "L";
  if (place < at_sheltered) return fmt::format("S{}", place - at_side + 1);
  return on_roof(wind, place).label;
}
static std::string roof_words(const WindAsk& ask, const Wind& wind, const RoofPlace& p) {
  switch (p.by) {
    case By::upwind: return "upwind slope";
    case By::downwind: return "downwind slope";
    case By::along: return "slope along the wind";
    case By::band: return "roof, " + band_words(roof_ends(ask.table, wind.h_d), p.band);
    case By::worse: break;
  }
  return "slope along the wind, " + band_words(roof_ends(ask.table, wind.h_d), p.band);
}

// ---- coefficients --------------------------------------------------------------------------------------------------

// Interpolation goes between values of like sign; where there is none of that sign, 0.0 stands for it.
static As<double> of_sign(Working* w, const std::string& symbol, double c, bool positive) {
  if (!positive || c >= 0.0) return as(symbol, c);
  const std::string none = symbol + ",0";
  return as(none, given(w, none, "no value of this sign in the table: 0.0 stands for it", 0.0, "note under the table"));
}

double roof_by_bands(const Table& t, std::size_t value, std::size_t band, double h_d, Working* w,
                     const std::string& symbol) {
  const std::string_view low = value == 0 ? "low_first" : "low_second",
                         high = value == 0 ? "high_first" : "high_second";
  const std::string words = w ? "roof, " + band_words(roof_ends(t, h_d), band) : std::string();
  switch (flat_rows(t, h_d)) {
    case FlatRows::low: return figure<double>(w, t, "roof_flat", low, symbol, words, band);
    case FlatRows::high: return figure<double>(w, t, "roof_flat", high, symbol, words, band);
    case FlatRows::between: break;
  }
  const std::string s1 = symbol + ",1", s2 = symbol + ",2";
  const double c1 =
      figure<double>(w, t, "roof_flat", low, s1, w ? words + ", for the lower h/d" : words, band == 0 ? 0 : band - 1);
  const double c2 = figure<double>(w, t, "roof_flat", high, s2, w ? words + ", for the higher h/d" : words,
                                   std::min<std::size_t>(band, 1));
  const bool positive = c1 > 0.0 || c2 > 0.0;
  const As<double> below = of_sign(w, s1, c1, positive), above = of_sign(w, s2, c2, positive);
  const double n1 = figure<double>(w, t, "roof_flat", "h_d", "n_1", "row below h/d", 0);
  const double n2 = figure<double>(w, t, "roof_flat", "h_d", "n_2", "row above h/d", 1);
  return formulas::linear_in_height.told_as(w, symbol, words, source(w, t, "roof_flat"), below, above, h_d,
                                            as("n_1", n1), as("n_2", n2));
}

// A coefficient by rows of h/d and columns of pitch. at(row, column, symbol): one figure of the table, told; angle: the
// pitch of a column. `last`: the last column, that stands from its pitch on.
template <class At, class AngleOf>
static double by_height_and_pitch(const Table& t, std::string_view key, std::size_t last, const As<Angle>& slope,
                                  double h_d, const std::string& symbol, const std::string& words, At at, AngleOf angle,
                                  Working* w) {
  const Angle pitch = slope.quantity;
  const auto& rows = t.column(key, "h_d");
  const Place row = place_among(rows, h_d);
  std::size_t low = 0;
  while (low < last && angle(low + 1) <= pitch) ++low;
  const bool columns = low < last && pitch > angle(low);
  const auto corner_symbol = [&](std::size_t r, std::size_t c) {
    std::string s = symbol;
    if (row.between || columns) s += ',';
    if (row.between) s += static_cast<char>('1' + r);
    if (columns) s += c == 0 ? 'l' : 'r';
    return s;
  };
  const std::size_t down = row.between ? 2 : 1, along = columns ? 2 : 1;
  const std::string table = source(w, t, key), left = symbol + ",theta_1", right = symbol + ",theta_2";
  const Angle t1 = angle(low), t2 = columns ? angle(low + 1) : t1;
  if (w && columns) {
    given(w, left, "column below the pitch", t1, table);
    given(w, right, "column above the pitch", t2, table);
  }
  std::array<std::array<As<double>, 2>, 2> c{};
  bool positive = false;
  for (std::size_t r = 0; r < down; ++r)
    for (std::size_t k = 0; k < along; ++k) {
      const std::string own = corner_symbol(r, k);
      c[r][k] = as(own, at(row.low + r, low + k, own));
      positive = positive || c[r][k].quantity > 0.0;
    }
  for (std::size_t r = 0; r < down; ++r)
    for (std::size_t k = 0; k < along; ++k) c[r][k] = of_sign(w, c[r][k].name, c[r][k].quantity, positive);
  const auto in_row = [&](std::size_t r, const std::string& own) {
    if (!columns) return c[r][0];
    return as(own, formulas::linear_in_pitch.told_as(w, own, words, table, c[r][0], c[r][1], slope, as(left, t1),
                                                     as(right, t2)));
  };
  if (!row.between) {
    const As<double> alone = in_row(0, symbol);
    return alone.quantity;
  }
  const As<double> below = in_row(0, symbol + ",1"), above = in_row(1, symbol + ",2");
  const std::string n_low = symbol + ",n_1", n_high = symbol + ",n_2";
  const double n1 = figure<double>(w, t, key, "h_d", n_low, "row below h/d", row.low);
  const double n2 = figure<double>(w, t, key, "h_d", n_high, "row above h/d", row.low + 1);
  return formulas::linear_in_height.told_as(w, symbol, words, table, below, above, h_d, as(n_low, n1), as(n_high, n2));
}

double roof_upwind(const Table& t, std::size_t value, const As<Angle>& slope, double h_d, Working* w,
                   const std::string& symbol) {
  const Angle pitch = slope.quantity;
  constexpr std::string_view key = "roof_upwind", steep = "roof_upwind_steep";
  const auto& pitches = t.column(key, "pitch");
  const std::string words = "coefficient of the upwind slope";
  const Angle from = t.get<Angle>(steep, "from");
  const auto of_steep = [&](const As<Angle>& steep_slope, const std::string& own) {
    if (value == 0) return figure<double>(w, t, steep, "first", own, words);
    const double k = figure<double>(w, t, steep, "of_sine", "k_U", "share of the sine of the pitch");
    return formulas::upwind_by_sine.told(w, own, source(w, t, steep), as("k_U", k), steep_slope);
  };
  if (pitch >= from) return of_steep(slope, symbol);
  const auto at = [&](std::size_t row, std::size_t column, const std::string& own) {
    if (column < pitches.size()) {
      constexpr std::array<std::array<std::string_view, 3>, 2> names{
          {{"first_1", "first_2", "first_3"}, {"second_1", "second_2", "second_3"}}};
      return figure<double>(w, t, key, names[value][row], own, words, column);
    }
    return of_steep(as(symbol + ",theta_2", from), own);
  };
  const auto angle = [&](std::size_t column) {
    return column < pitches.size() ? quantity<Angle>(pitches[column]) : from;
  };
  return by_height_and_pitch(t, key, pitches.size(), slope, h_d, symbol, words, at, angle, w);
}

double roof_downwind(const Table& t, const As<Angle>& slope, double h_d, double b_d, Working* w,
                     const std::string& symbol, std::string_view of) {
  const Angle pitch = slope.quantity;
  constexpr std::string_view key = "roof_downwind", steep = "roof_downwind_steep";
  const auto& pitches = t.column(key, "pitch");
  const std::string words(of);
  const Angle from = t.get<Angle>(steep, "from");
  const auto of_steep = [&](const std::string& own) {
    const std::string table = source(w, t, steep);
    const double low = figure<double>(w, t, steep, "least_b_d", "m_1", "b/d from which the breadth counts");
    const double high = figure<double>(w, t, steep, "greatest_b_d", "m_2", "b/d up to which the breadth counts");
    const double no_more = least<double>(w, "m_3", "b/d, no more than that", table, {as("b/d", b_d), as("m_2", high)});
    const double m = greatest<double>(w, "m", "b/d, no less than that", table, {as("m_3", no_more), as("m_1", low)});
    const double k1 = figure<double>(w, t, steep, "factor", "k_1", "factor of the formula");
    const double k2 = figure<double>(w, t, steep, "added", "k_2", "figure of the formula");
    return formulas::downwind_by_breadth.told(w, own, table, k1, k2, m);
  };
  if (pitch >= from) return of_steep(symbol);
  const auto at = [&](std::size_t row, std::size_t column, const std::string& own) {
    constexpr std::array<std::string_view, 3> names{"row_1", "row_2", "row_3"};
    return column < pitches.size() ? figure<double>(w, t, key, names[row], own, words, column) : of_steep(own);
  };
  const auto angle = [&](std::size_t column) {
    return column < pitches.size() ? quantity<Angle>(pitches[column]) : from;
  };
  return by_height_and_pitch(t, key, pitches.size(), slope, h_d, symbol, words, at, angle, w);
}

// A wall's figure by d/b, linear between rows.
static double by_depth(const Table& t, std::string_view key, double d_b, Working* w, const std::string& symbol,
                       const std::string& own) {
  const std::string words = "coefficient of the leeward wall";
  const Place row = place_among(t.column(key, "d_b"), d_b);
  if (!row.between) return figure<double>(w, t, key, "C_pe", symbol, words, row.low);
  const std::string s1 = symbol + ",1", s2 = symbol + ",2", m1 = "n_" + own + ",1", m2 = "n_" + own + ",2";
  const double c1 = figure<double>(w, t, key, "C_pe", s1, "leeward wall, row below d/b", row.low);
  const double c2 = figure<double>(w, t, key, "C_pe", s2, "leeward wall, row above d/b", row.low + 1);
  const double n1 = figure<double>(w, t, key, "d_b", m1, "row below d/b", row.low);
  const double n2 = figure<double>(w, t, key, "d_b", m2, "row above d/b", row.low + 1);
  return formulas::linear_in_height.told_as(w, symbol, words + ": between two rows, by d/b", source(w, t, key),
                                            as(s1, c1), as(s2, c2), as("d/b", d_b), as(m1, n1), as(m2, n2));
}
double wall_leeward(const Table& t, bool by_slopes, const As<Angle>& pitch, double d_b, Working* w,
                    const std::string& symbol, const std::string& own) {
  if (!by_slopes) return by_depth(t, "wall_leeward", d_b, w, symbol, own);
  constexpr std::string_view key = "wall_leeward_pitched", steep = "wall_leeward_steep";
  const auto& pitches = t.column(key, "pitch");
  const std::size_t last = pitches.size() - 1;
  const Place column = place_among(pitches, pitch.quantity);
  if (column.low == last) return by_depth(t, steep, d_b, w, symbol, own);
  const std::string words = "coefficient of the leeward wall";
  if (!column.between) return figure<double>(w, t, key, "C_pe", symbol, words, column.low);
  const std::string s1 = symbol + ",l", s2 = symbol + ",r", left = "theta_" + own + ",1", right = "theta_" + own + ",2";
  const double c1 = figure<double>(w, t, key, "C_pe", s1, "leeward wall, column below the pitch", column.low);
  const double c2 = column.low + 1 == last
                        ? by_depth(t, steep, d_b, w, s2, own)
                        : figure<double>(w, t, key, "C_pe", s2, "leeward wall, column above the pitch", column.low + 1);
  const Angle t1 = figure<Angle>(w, t, key, "pitch", left, "leeward wall: column below the pitch", column.low);
  const Angle t2 = figure<Angle>(w, t, key, "pitch", right, "leeward wall: column above the pitch", column.low + 1);
  return formulas::linear_in_pitch.told_as(w, symbol, words, source(w, t, key), as(s1, c1), as(s2, c2), pitch,
                                           as(left, t1), as(right, t2));
}
namespace {
struct Leeward {
  double wall, sheltered;
};
}  // namespace
static Leeward leeward_of(const WindAsk& ask, const Wind& wind, Working* w) {
  const Table& t = ask.table;
  if (wind.leeward.size() == 1) {
    const Reading& r = wind.leeward.front();
    const double c = wall_leeward(t, r.by_pitch, pitch_of(ask, r.side), wind.d_b, w, w ? "C_pe,L" : "");
    return {c, c};
  }
  std::vector<As<double>> all;
  for (const Reading& r : wind.leeward) {
    const std::string own = r.by_pitch ? "L," + std::string(words(r.side)) : "L,flat", symbol = "C_pe," + own;
    all.push_back(as(symbol, wall_leeward(t, r.by_pitch, pitch_of(ask, r.side), wind.d_b, w, symbol, own)));
  }
  const std::string table = source(w, t, "wall_leeward");
  return {least<double>(w, "C_pe,L", "leeward wall: the reading that pulls harder", table, all),
          greatest<double>(w, "C_pe,Lo", "leeward wall, where its pull holds down: the reading that pulls less", table,
                           all)};
}

static double wall_side(const Table& t, std::size_t band, Working* w, const std::string& symbol) {
  const std::size_t near = t.column("wall_side", "C_pe").size();
  const std::string words = w ? "coefficient of the side walls, " + band_words(side_ends(t), band) : std::string();
  return band < near ? figure<double>(w, t, "wall_side", "C_pe", symbol, words, band)
                     : figure<double>(w, t, "wall_side_far", "C_pe", symbol, words, band - near);
}

// What the coefficients go by: h, d, b and their ratios.
static void tell_ratios(const WindAsk& ask, const Wind& wind, Working* w) {
  if (!w) return;
  const Shape& s = ask.shape;
  tell_measures(w, ask);
  formulas::half_way_up(w, s.floor_level, walls_of(ask), s.rise);
  given(w, "d_w", "plan along the wind", wind.d, "the job's block");
  given(w, "b_w", wind.b == wind.f.up() ? "plan across the wind" : "plan across the wind, of the whole house", wind.b,
        "the job's block");
  formulas::height_to_depth.told(w, "h/d", "geometry", wind.h, as("d_w", wind.d));
  if (wind.d_all != wind.d) {
    given(w, "d_a", "plan along the wind, of the whole house", wind.d_all, "the job's blocks");
    formulas::height_to_depth.told_as(w, "h/d",
                                      "height over the whole house's depth, for the slope that is pushed most",
                                      "geometry", wind.h, as("d_a", wind.d_all));
  }
  formulas::height_to_depth.told_as(w, "d/b", "the plan's depth along the wind over its breadth", "geometry",
                                    as("d_w", wind.d), as("b_w", wind.b));
  formulas::height_to_depth.told_as(w, "b/d", "the plan's breadth over its depth along the wind", "geometry",
                                    as("b_w", wind.b), as("d_w", wind.d));
}

static std::string_view windward_key(const WindAsk& ask) {
  return ask.shape.floor_level < ask.table.get<Length>("raised_floor", "from") ? "wall_windward"
                                                                               : "wall_windward_raised";
}
static double roof_coefficient(const WindAsk& ask, const Wind& wind, const RoofPlace& p, OfTwo value,
                               const std::vector<double>& known, Working* w, const std::string& symbol) {
  const Table& t = ask.table;
  switch (p.by) {
    case By::upwind:
      return roof_upwind(t, value, pitch_of(ask, p.side), value == 0 ? wind.h_d : wind.h_d_all, w, symbol);
    case By::downwind: return roof_downwind(t, pitch_of(ask, p.side), wind.h_d, wind.b_d, w, symbol);
    case By::along:
      return roof_downwind(t, pitch_of(ask, p.side), wind.h_d, wind.b_d, w, symbol,
                           "coefficient of a slope along the wind, on a hip roof");
    case By::band: return roof_by_bands(t, value, p.band, wind.h_d, w, symbol);
    case By::worse: break;
  }
  const auto found = [&](By by) {
    for (std::size_t i = 0; i < wind.roof.size(); ++i) {
      const RoofPlace& x = wind.roof[i];
      const bool of_both = by == By::band ? x.band == p.band : ask.shape.at(x.side).pitch == ask.shape.at(p.side).pitch;
      if (x.by == by && of_both) return as(w ? "C_pe," + x.label : std::string(), known[at_roof + i]);
    }
    throw std::logic_error("the worse of two coefficients without both");
  };
  const std::vector<As<double>> both{found(By::band), found(By::along)};
  const std::string table = source(w, t, "roof_flat");
  return value == 0 ? least<double>(w, symbol, "the lesser of a gable roof's and a hip roof's", table, both)
                    : greatest<double>(w, symbol, "the greater of a gable roof's and a hip roof's", table, both);
}
// By place. In silence all of them; told are all of them too: what a link does not rest on is left out later.
static std::vector<double> coefficients(const WindAsk& ask, const Wind& wind, OfTwo value, Working* w) {
  const Table& t = ask.table;
  tell_ratios(ask, wind, w);
  std::vector<double> c;
  const auto symbol = [&] { return w ? "C_pe," + label_of(wind, c.size()) : std::string(); };
  c.push_back(figure<double>(w, t, windward_key(ask), "C_pe", symbol(), "coefficient of the windward wall"));
  const Leeward leeward = leeward_of(ask, wind, w);
  c.push_back(leeward.wall);
  for (std::size_t i = 0; i < side_bands; ++i) c.push_back(wall_side(t, i, w, symbol()));
  c.push_back(leeward.sheltered);
  for (const RoofPlace& p : wind.roof) c.push_back(roof_coefficient(ask, wind, p, value, c, w, symbol()));
  return c;
}

// ---- where the zones lie -------------------------------------------------------------------------------------------

namespace {
enum class Over : unsigned char { house, overhang, soffit };
// A place of a coefficient, over the house or past its walls. label: of the pressure.
struct Spot {
  std::size_t place;
  Over over;
  std::string label;
};
// spot: for each zone which of `spots` it is. Zones of one spot have one pressure.
struct Laid {
  Layout layout;
  std::vector<Spot> spots;
  std::vector<std::size_t> spot;
};
}  // namespace

static Laid lay_out(const WindAsk& ask, const Wind& wind) {
  const Shape& s = ask.shape;
  const Table& t = ask.table;
  Laid laid{{"wind onto the " + std::string(words(wind.face)), {}}, {}, {}};
  const auto add = [&](std::size_t surface, Polygon part, std::size_t place, Over over) {
    if (part.empty()) return;
    auto at = std::find_if(laid.spots.begin(), laid.spots.end(),
                           [&](const Spot& x) { return x.place == place && x.over == over; });
    if (at == laid.spots.end()) {
      std::string label = label_of(wind, place);
      if (over == Over::overhang) label += ",o";
      if (over == Over::soffit) label = "soffit," + label;
      at = laid.spots.insert(laid.spots.end(), {place, over, std::move(label)});
    }
    laid.spot.push_back(static_cast<std::size_t>(at - laid.spots.begin()));
    laid.layout.zones.push_back({surface, std::move(part), at->label});
  };
  const auto in_bands = [&](std::size_t surface, const Polygon& seen, Length from, const std::vector<double>& to,
                            std::size_t place, Over over) {
    for (std::size_t i = 0; i <= to.size(); ++i) {
      const Length end = i < to.size() ? to[i] * wind.h : everywhere;
      add(surface, wind.f.own(between_x(seen, from, end)), place + i, over);
      from = end;
    }
  };
  const std::vector<double> side = side_ends(t), roof = roof_ends(t, wind.h_d);
  for (std::size_t i = 0; i < s.surfaces.size(); ++i) {
    const Surface& surface = s.surfaces[i];
    const Polygon seen = wind.f.seen(surface.outline);
    if (surface.part == Part::soffit) {
      const Way looks = wind.f.seen(outward(surface.side));
      if (is_across(looks)) {
        add(i, surface.outline, looks == Way::left ? at_windward : at_sheltered, Over::soffit);
      } else {
        add(i, wind.f.own(between_x(seen, -everywhere, zero<Length>())), at_windward, Over::soffit);
        in_bands(i, seen, zero<Length>(), side, at_side, Over::soffit);
      }
      continue;
    }
    const Over over = surface.part == Part::roof ? Over::house : Over::overhang;
    const std::size_t place = wind.place_of[index(side_facing(surface.falls))];
    if (goes_by_bands(on_roof(wind, place))) in_bands(i, seen, -everywhere, roof, place, over);
    else add(i, surface.outline, place, over);
  }
  return laid;
}

// ---- walls ---------------------------------------------------------------------------------------------------------

// Reach of the local factors from a corner. Only 2021 has the rule for low wide buildings, which reaches further.
static Length reach(const WindAsk& ask, Working* w) {
  const Table& t = ask.table;
  const Shape& s = ask.shape;
  const bool blocks = s.whole_across > zero<Length>();
  const std::string_view whole = blocks ? ", of the whole house" : "";
  const auto plan = [&](std::string_view symbol, std::string_view way, Length own, Length all) {
    return given(w, symbol, w ? fmt::format("plan {} the sheet{}", way, whole) : std::string(), blocks ? all : own,
                 "the job's block");
  };
  const Length h = s.mean_roof_height, across = plan("b_1", "across", s.across, s.whole_across),
               up = plan("b_2", "up", s.up, s.whole_up);
  const std::string table = source(w, t, "local");
  const double k = figure<double>(w, t, "local", "of_plan", "k_b", "share of the plan");
  const double kh = figure<double>(w, t, "local", "of_height", "k_h", "share of the height");
  const Length a1 = formulas::local_reach.told(w, "a_1", table, as("k_b", k), as("b_1", across));
  const Length a2 = formulas::local_reach.told(w, "a_2", table, as("k_b", k), as("b_2", up));
  const Length a3 = formulas::local_reach.told(w, "a_3", table, as("k_h", kh), as("h", h));
  const Length a = least<Length>(w, "a", "reach of the local factor from a corner", table,
                                 {as("a_1", a1), as("a_2", a2), as("a_3", a3)});
  if (!t.entry("local").columns.contains("low_share")) return a;
  const double share = t.number("local", "low_share");
  if (h >= share * across || h >= share * up) return a;
  const double k2 = figure<double>(w, t, "local", "low_of_height", "k_2h", "share of the height, low wide buildings");
  return formulas::local_reach.told(w, "a_4", table, as("k_2h", k2), as("h", h));
}

namespace {
// A stretch of an outside wall under one coefficient, along the wall in the block. corner: with the local factor.
struct Stretch {
  Side side;
  Length from, to;
  std::size_t place;
  bool corner;
  std::string label;
};
}  // namespace
static std::vector<Stretch> stretches(const WindAsk& ask, const Wind& wind, Length a) {
  const Shape& s = ask.shape;
  const std::vector<double> side_to = side_ends(ask.table);
  std::vector<Stretch> all;
  for (const Side side : {Side::left, Side::front, Side::right, Side::back}) {
    const Length length = length_of(s, side), none = zero<Length>();
    const Length end = std::min(a, 0.5 * length);
    const Way looks = wind.f.seen(outward(side));
    if (looks == Way::right) {  // no local factor on a leeward wall
      all.push_back({side, none, length, at_leeward, false, "L"});
      continue;
    }
    const bool met = looks == Way::left, as_seen = runs_as_seen(s, wind.f, side);
    std::vector<Length> cuts{none, end, length - end, length};
    if (!met)
      for (const double to : side_to)
        if (to * wind.h < length) cuts.push_back(as_seen ? to * wind.h : length - to * wind.h);
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      if (!(cuts[i] < cuts[i + 1])) continue;
      const Length middle = 0.5 * (cuts[i] + cuts[i + 1]);
      const bool corner = middle < end || middle > length - end;
      std::size_t place = at_windward;
      if (!met) {
        const Length along = as_seen ? middle : length - middle;
        place = at_side;
        for (const double to : side_to)
          if (along > to * wind.h) ++place;
      }
      all.push_back({side, cuts[i], cuts[i + 1], place, corner, label_of(wind, place) + (corner ? ",c" : "")});
    }
  }
  return all;
}

// ---- inside --------------------------------------------------------------------------------------------------------

namespace {
// A face with what may stand open on it, over what stands open elsewhere for certain.
struct OpenFace {
  Side side;
  Area open, elsewhere;
  bool near_corner;
};
// What is inside: figure i of the entry `key`; or by the face that stands open, at the low or the high end of its
// range.
struct Inside {
  std::string id, words, key;
  std::size_t i = 0;
  std::optional<OpenFace> face = std::nullopt;
  bool high = false;
};
}  // namespace

static bool stands_near_a_corner(const WindAsk& ask, Side side, const OpeningRule& rule, Length a) {
  const Length length = length_of(ask.shape, side);
  for (const Wall& wall : ask.house.walls) {
    if (!wall.outside || wall.side != side) continue;
    for (const Piece& piece : wall.pieces)
      if (piece.opening && may_stand_open(*piece.opening, rule) &&
          (wall.from + piece.from < a || wall.from + piece.to > length - a))
        return true;
  }
  return false;
}

// Debris opens anything in cyclonic regions, or where the job says that it flies. A rating that is no speed covers
// nothing.
static std::vector<OpenFace> open_faces(const WindAsk& ask, const SiteWind& site, Length a) {
  const Speed gust = site.gust;
  const OpeningRule rule{
      .wide = ask.table.get<Length>("wide_door", "width"),
      .debris = site.cyclonic || asked(ask).debris_region.value_or(false),
      .covers = [gust](const std::string& rating) { return gust > zero<Speed>() && rated_for_speed(rating, gust); }};
  std::array<FaceOpenings, 4> each{{openings_in(ask, all_sides[0], rule), openings_in(ask, all_sides[1], rule),
                                    openings_in(ask, all_sides[2], rule), openings_in(ask, all_sides[3], rule)}};
  std::vector<OpenFace> all;
  for (std::size_t i = 0; i < all_sides.size(); ++i) {
    Area elsewhere = zero<Area>();
    for (std::size_t k = 0; k < all_sides.size(); ++k)
      if (k != i) elsewhere += each[k].stated_open;
    const Area open = each[i].may_be_open;
    if (open > zero<Area>())
      all.push_back({all_sides[i], open, elsewhere, stands_near_a_corner(ask, all_sides[i], rule, a)});
  }
  return all;
}

static std::vector<Inside> insides(const WindAsk& ask, const std::vector<OpenFace>& open) {
  const Table& t = ask.table;
  std::vector<Inside> all;
  const auto shut = [&](const std::string& name, const std::string& people, const std::string& key) {
    const auto& values = t.column(key, "C_pi");
    for (std::size_t i = 0; i < values.size(); ++i) {
      const double c = quantity<double>(values[i]);
      all.push_back({fmt::format("{} {}", name, c), fmt::format("{}: C_pi {}", people, c), key, i});
    }
  };
  if (asked(ask).sealed) {
    shut("sealed", "sealed", "inside_sealed");
  } else {
    shut("shut", "shut, all walls leak alike", "inside_leaky");
    shut("shut", "shut, windward walls leak most", "inside_windward");
  }
  const auto& ratios = t.column("inside_open", "ratio");
  for (const OpenFace& face : open) {
    const std::string side(words(face.side)), people = "an opening on the " + side + " stands open";
    const bool alone = !(face.elsewhere > zero<Area>());
    const double ratio = alone ? 0.0 : formulas::openings_ratio(nullptr, face.open, face.elsewhere);
    if (!alone && ratio <= quantity<double>(ratios.front())) {
      // Its range is that of a building that leaks, which a sealed one with so much open is no longer.
      if (asked(ask).sealed &&
          !std::any_of(all.begin(), all.end(), [](const Inside& x) { return x.key == "inside_leaky"; }))
        shut("shut", "much stands open elsewhere", "inside_leaky");
    } else if (alone || ratio >= quantity<double>(ratios[2])) {
      all.push_back({side + " open", people, "inside_open", 0, face});
    } else {
      all.push_back({side + " open low", people + " against others, least inside", "inside_open", 0, face, false});
      all.push_back({side + " open high", people + " against others, most inside", "inside_open", 0, face, true});
    }
  }
  return all;
}

static std::size_t place_of_face(const Wind& wind, Side side) {
  const Way looks = wind.f.seen(outward(side));
  return looks == Way::left ? at_windward : looks == Way::right ? at_sheltered : at_side;
}

// The inside where a face's own coefficient gets in, by `share` of it.
static double through(const WindAsk& ask, const Wind& wind, const OpenFace& face, double share, double c_face,
                      Working* w, const std::string& symbol) {
  const Table& t = ask.table;
  const std::size_t place = place_of_face(wind, face.side);
  const std::string from = w ? "C_pe," + label_of(wind, place) : std::string(), table = source(w, t, "inside_open");
  if (!t.has("inside_open_factors"))
    return formulas::inside_by_face.told(w, symbol, table, as("k_o", share), as(from, c_face));
  const double kv = figure<double>(w, t, "inside_open_factors", "K_v", "K_v", "factor for the volume: its greatest");
  const bool local = face.near_corner && place == at_side;
  const double kl =
      local ? figure<double>(w, t, "inside_open_factors", "K_l", "K_l,i", "local factor of an opening near a corner")
            : given(w, "K_l,i", "no local factor at this opening", 1.0, source(w, t, "inside_open_factors"));
  return formulas::inside_by_face_and_factors.told(w, symbol, table, as("k_o", share), kv, as("K_l,i", kl),
                                                   as(from, c_face));
}

static double through_opening(const WindAsk& ask, const Wind& wind, const Inside& inside, double c_face, Working* w) {
  const Table& t = ask.table;
  const OpenFace& face = *inside.face;
  constexpr std::string_view key = "inside_open";
  const auto& ratios = t.column(key, "ratio");
  const auto& shares = t.column(key, "share");
  const std::string table = source(w, t, key);
  const auto share = [&](const std::string& symbol, std::size_t i) {
    return figure<double>(w, t, key, "share", symbol, "share of the coefficient of the face that stands open", i);
  };
  if (!(face.elsewhere > zero<Area>()))
    return through(ask, wind, face, share("k_o", shares.size() - 1), c_face, w, "C_pi");
  given(w, "A_face", "what may stand open on that face", face.open, "the job's walls");
  given(w, "A_rest", "what stands open elsewhere", face.elsewhere, "the job's walls");
  const double n = formulas::openings_ratio.told(w, "n_A", table, face.open, face.elsewhere);
  const Place at = place_among(ratios, n);
  const auto between = [&](const std::string& symbol, const std::string& s1, double c1, const std::string& s2,
                           double c2) {
    const double n1 = figure<double>(w, t, key, "ratio", "n_A,1", "ratio below", at.low);
    const double n2 = figure<double>(w, t, key, "ratio", "n_A,2", "ratio above", at.low + 1);
    return formulas::linear_in_height.told_as(w, symbol, "between two rows, by the ratio of openings", table,
                                              as(s1, c1), as(s2, c2), as("n_A", n), as("n_A,1", n1), as("n_A,2", n2));
  };
  if (at.low >= 2) {  // from this row on a share of the face's coefficient
    if (!at.between) return through(ask, wind, face, share("k_o", at.low - 2), c_face, w, "C_pi");
    const double k1 = share("k_o,1", at.low - 2), k2 = share("k_o,2", at.low - 1);
    return through(ask, wind, face, between("k_o", "k_o,1", k1, "k_o,2", k2), c_face, w, "C_pi");
  }
  const bool met = place_of_face(wind, face.side) == at_windward;
  const std::string_view column = inside.high ? "high" : met ? "low" : "low_other";
  const std::string words = inside.high ? "greatest coefficient inside" : "least coefficient inside";
  if (!at.between) return figure<double>(w, t, key, column, "C_pi", words, at.low);
  const double c1 = figure<double>(w, t, key, column, "C_pi,1", words, at.low);
  const double c2 = at.low == 0 ? figure<double>(w, t, key, column, "C_pi,2", words, 1)
                                : through(ask, wind, face, share("k_o", 0), c_face, w, "C_pi,2");
  return between("C_pi", "C_pi,1", c1, "C_pi,2", c2);
}

static double inside_coefficient(const WindAsk& ask, const Wind& wind, const Inside& inside,
                                 const std::vector<double>& c, Working* w) {
  if (inside.face) return through_opening(ask, wind, inside, c[place_of_face(wind, inside.face->side)], w);
  return figure<double>(w, ask.table, inside.key, "C_pi", "C_pi", "coefficient inside", inside.i);
}

double surfaces_factor(const Table& t, double c_pi, Working* w) {
  const bool counts = std::abs(c_pi) >= t.number("surfaces", "least_inside");
  return figure<double>(
      w, t, "surfaces", counts ? "two" : "one", "K_c",
      counts ? "roof or wall outside and inside: two surfaces" : "so little inside counts as no surface: one surface");
}

// The same for what is inside a shut house. Its figures are the ends of a range: just within an end at which the inside
// begins to count as a surface it does not count yet, and that is the worse.
static double surfaces_factor_of(const Table& t, const Inside& inside, double c_pi, Working* w) {
  const bool at_the_step = !inside.face && !(std::abs(c_pi) > t.number("surfaces", "least_inside"));
  if (!at_the_step) return surfaces_factor(t, c_pi, w);
  return figure<double>(w, t, "surfaces", "one", "K_c",
                        "up to this end of its range the inside counts as no surface: one surface");
}

// ---- the pressures of one load case --------------------------------------------------------------------------------

namespace {
// small, large: by spot, for little and much area on a member.
struct Pressures {
  std::vector<Pressure> small, large, square;
};
// roof: by its places; nothing where none of its zones pushes.
struct Pushed {
  Pressure windward, leeward;
  std::vector<Pressure> roof;
};
}  // namespace

static std::string spot_words(const WindAsk& ask, const Wind& wind, const Spot& spot) {
  const std::string along = spot.place >= at_roof ? roof_words(ask, wind, on_roof(wind, spot.place)) : std::string();
  switch (spot.over) {
    case Over::house: return "net pressure, " + along + ": outside less inside";
    case Over::overhang: return "pressure on an overhang, " + along;
    case Over::soffit: break;
  }
  return spot.place == at_windward    ? "pressure from below on overhangs: that of the windward wall"
         : spot.place == at_sheltered ? "pressure from below on overhangs: that of the leeward wall"
                                      : "pressure from below on overhangs: that of the side wall, " +
                                            band_words(side_ends(ask.table), spot.place - at_side);
}

static Pressures pressures(const WindAsk& ask, const Wind& wind, const Laid& laid, const std::vector<Stretch>& walls,
                           const std::vector<double>& c, const Inside& inside, double c_pi, Working* w) {
  const Table& t = ask.table;
  const Pressure q = wind.q;
  const std::string gust = w ? "q_" + std::string(words(wind.face)) : std::string();
  const auto coefficient = [&](std::size_t place) { return w ? "C_pe," + label_of(wind, place) : std::string(); };
  const double kc = surfaces_factor_of(t, inside, c_pi, w);
  const double ka_small = figure<double>(w, t, "area_factor", "K_a", "K_a,s", "factor for a small area of roof", 0);
  const double ka_large = figure<double>(w, t, "area_factor", "K_a", "K_a,l", "factor for a large area of roof", 1);
  const double no_less =
      figure<double>(w, t, "surfaces_more", "least_product", "K_0", "least that the factors come to together");
  const std::string joint = source(w, t, "surfaces_more");
  const auto together = [&](double ka, const std::string& size) {
    const double product = formulas::factors_together.told(w, "K_p," + size, joint, as("K_a," + size, ka), kc);
    return greatest<double>(w, "K_ac," + size,
                            "factors for the area and for the surfaces together, not under the least", joint,
                            {as("K_p," + size, product), as("K_0", no_less)});
  };
  const double small = together(ka_small, "s"), large = together(ka_large, "l");
  Pressures all;
  for (const Spot& spot : laid.spots) {
    const std::string people = w ? spot_words(ask, wind, spot) : std::string();
    const std::string table = source(w, t, "area_factor"), from = coefficient(spot.place);
    const auto one = [&](double k, const std::string& size) {
      const std::string own = w ? "p_" + spot.label + "," + size : std::string();
      const std::string full = people + (size == "s" ? ", little area" : ", much area");
      if (spot.over == Over::house)
        return formulas::outside_less_inside.told_as(w, own, full, table, as(gust, q), as("K_ac," + size, k),
                                                     as(from, c[spot.place]), as("K_c", kc), as("C_pi", c_pi));
      if (spot.over == Over::overhang)
        return formulas::outside_alone.told_as(w, own, full, table, as(gust, q), as("K_ac," + size, k),
                                               as(from, c[spot.place]));
      return formulas::outside_alone.told_as(w, own, full, source(w, t, "surfaces"), as(gust, q), as("K_c", kc),
                                             as(from, c[spot.place]));
    };
    all.small.push_back(one(small, "s"));
    all.large.push_back(one(large, "l"));
  }
  const bool tall = wind.h > std::min(wind.d, wind.b);
  const double kl =
      figure<double>(w, t, "local", tall ? "tall" : "K_l", "K_l", "local factor near a corner of the house");
  for (std::size_t i = 0; i < walls.size(); ++i) {
    const Stretch& s = walls[i];
    const auto same = [&](const Stretch& before) { return before.label == s.label; };
    Working* once =
        w && std::none_of(walls.begin(), walls.begin() + static_cast<std::ptrdiff_t>(i), same) ? w : nullptr;
    const std::string local = coefficient(s.place) + (s.corner ? ",c" : "");
    const double ce = s.corner ? formulas::near_a_corner.told(once, local, source(once, t, "local"), kl,
                                                              as(coefficient(s.place), c[s.place]))
                               : c[s.place];
    const std::string own = once ? "p_sq," + s.label : std::string(), table = source(once, t, "surfaces");
    all.square.push_back(
        ce >= c_pi
            ? formulas::square_in.told(once, own, table, as(gust, q), as("K_c", kc), as(local, ce), as("C_pi", c_pi))
            : formulas::square_out.told(once, own, table, as(gust, q), as("K_c", kc), as("C_pi", c_pi), as(local, ce)));
  }
  return all;
}

// Whether a zone's level pressure goes into the push of the roof: it stands on a slope that falls along the wind, and
// where no like part stands opposite it acts with the wind.
static bool pushes_along(const WindAsk& ask, const Wind& wind, const Laid& laid, const std::vector<double>& c,
                         std::size_t zone) {
  const Surface& surface = ask.shape.surfaces[laid.layout.zones[zone].surface];
  const Way falls = wind.f.seen(surface.falls);
  if (surface.part == Part::soffit || !is_across(falls)) return false;
  const double own = c[laid.spots[laid.spot[zone]].place];
  const bool met = wind.opposed && (wind.alike || surface.part == Part::roof);
  return met || (falls == Way::left ? own > 0.0 : own < 0.0);
}
// Whether the roof adds to what the walls hand on in the wind's direction. Slopes that stand opposite each other on the
// same elevation: where the upwind one is pulled as hard as the downwind one, the walls alone push more at every point;
// in bands the pull falls with the distance from the windward edge. Others: where a part of it acts with the wind.
static bool roof_adds(const WindAsk& ask, const Wind& wind, const Laid& laid, const std::vector<double>& c) {
  if (wind.opposed) {
    const std::size_t up = wind.place_of[index(wind.face)], down = wind.place_of[index(facing(wind.face))];
    return !goes_by_bands(on_roof(wind, up)) && c[up] > c[down];
  }
  for (std::size_t i = 0; i < laid.layout.zones.size(); ++i)
    if (pushes_along(ask, wind, laid, c, i)) return true;
  return false;
}

// Windward and leeward wall alone are two surfaces, with the roof (all its slopes one) three. Nothing of the area is
// taken off: with three surfaces the product stands at its least already.
static Pushed pushed(const WindAsk& ask, const Wind& wind, const Laid& laid, const std::vector<double>& c,
                     bool with_roof, Working* w) {
  const Table& t = ask.table;
  const std::string_view key = with_roof ? "surfaces_more" : "surfaces";
  const double k = figure<double>(
      w, t, key, with_roof ? "three" : "two", "K_c,r",
      with_roof ? "windward wall, leeward wall and roof: three surfaces" : "windward and leeward wall: two surfaces");
  const auto one = [&](std::size_t place, std::string_view people) {
    const std::string label = w ? label_of(wind, place) : std::string();
    return formulas::outside_alone.told_as(w, w ? "p_push," + label : label, people, source(w, t, key),
                                           as(w ? "q_" + std::string(words(wind.face)) : std::string(), wind.q),
                                           as("K_c,r", k), as(w ? "C_pe," + label : label, c[place]));
  };
  Pushed p{one(at_windward, "pressure on the windward wall"), one(at_leeward, "pressure on the leeward wall"), {}};
  if (!with_roof) return p;
  std::vector<bool> counts(wind.roof.size(), false);
  for (std::size_t i = 0; i < laid.spot.size(); ++i)
    if (pushes_along(ask, wind, laid, c, i)) counts[laid.spots[laid.spot[i]].place - at_roof] = true;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    const std::string people =
        w ? "pressure on the " + roof_words(ask, wind, wind.roof[i]) + " from outside" : std::string();
    p.roof.push_back(counts[i] ? one(at_roof + i, people) : zero<Pressure>());
  }
  return p;
}
// Pressure from inside meets itself on the opposite wall and slope; so does that on the side walls.
static std::vector<Push> pushes(const WindAsk& ask, const Wind& wind, const Laid& laid, const std::vector<double>& c,
                                const Pushed& p, bool with_roof) {
  const Shape& s = ask.shape;
  std::vector<Push> all;
  for (const Elevation& e : s.elevations) {
    if (e.part == ElevationPart::roof) continue;
    const Way out = outward(e.side), looks = wind.f.seen(out);
    if (!is_across(looks)) continue;
    const bool met = looks == Way::left;
    all.push_back({opposite(out), e.outline, met ? p.windward : p.leeward, met ? "push,W" : "push,L",
                   fmt::format("{} {}", met ? "windward" : "leeward", words(e.part))});
  }
  if (!with_roof) return all;
  for (std::size_t i = 0; i < laid.layout.zones.size(); ++i) {
    if (!pushes_along(ask, wind, laid, c, i)) continue;
    const std::size_t place = laid.spots[laid.spot[i]].place;
    const Side to = side_facing(s.surfaces[laid.layout.zones[i].surface].falls);
    const std::vector<Push> one = roof_pushes(s, {"", {laid.layout.zones[i]}}, [&](const Zone&) {
      return Push{Way::right,
                  {},
                  p.roof[place - at_roof],
                  "push," + label_of(wind, place),
                  to == wind.face ? "upwind slope" : "downwind slope"};
    });
    all.insert(all.end(), one.begin(), one.end());
  }
  return all;
}

// ---- all load cases ------------------------------------------------------------------------------------------------

static Combination combination(const Table& t, std::string_view key) {
  return {t.text(key, "name"), t.source(key), t.number(key, "dead"), t.number(key, "wind")};
}

static std::vector<Excess> limits_passed(const WindAsk& ask) {
  const Table& t = ask.table;
  const Shape& s = ask.shape;
  std::vector<Excess> passed = site_limits(ask);
  const Length highest = t.get<Length>("pressure_limits", "height");
  const Angle steepest = t.get<Angle>("limits", "steepest");
  if (s.mean_roof_height > highest)
    passed.push_back(
        {"mean roof height", "at most", t.source("pressure_limits"), value(s.mean_roof_height), value(highest)});
  Angle pitch = s.pitch;
  for (const RoofSide& side : s.sides) pitch = std::max(pitch, side.pitch);
  if (pitch > steepest) passed.push_back({"roof pitch", "at most", t.source("limits"), value(pitch), value(steepest)});
  return passed;
}

static Marks marks_of(const Table& t, std::initializer_list<std::string_view> keys) {
  Marks m = 0;
  for (const std::string_view key : keys)
    if (t.has(key)) m |= t.mark(key);
  return m;
}
// Marks of the figures behind the coefficient of a place: of the entries that the pitch and the plan lead to.
// Of a table by pitch and the entry that stands from `from` on: both where the pitch lies between the last column and
// that.
static Marks marks_by_pitch(const Table& t, std::string_view key, std::string_view steep, std::size_t last, Angle from,
                            Angle pitch) {
  return (pitch < from ? t.mark(key) : Marks{0}) |
         (pitch > quantity<Angle>(t.column(key, "pitch").at(last)) ? t.mark(steep) : Marks{0});
}
static Marks marks_of_roof(const WindAsk& ask, const RoofPlace& p) {
  const Table& t = ask.table;
  const auto of_slope = [&](std::string_view key, std::string_view steep) {
    return marks_by_pitch(t, key, steep, t.column(key, "pitch").size() - 1, t.get<Angle>(steep, "from"),
                          ask.shape.at(p.side).pitch);
  };
  switch (p.by) {
    case By::upwind: return of_slope("roof_upwind", "roof_upwind_steep");
    case By::downwind:
    case By::along: return of_slope("roof_downwind", "roof_downwind_steep");
    case By::band: return t.mark("roof_flat");
    case By::worse: break;
  }
  return of_slope("roof_downwind", "roof_downwind_steep") | t.mark("roof_flat");
}
static Marks marks_of_leeward(const WindAsk& ask, const Wind& wind) {
  const Table& t = ask.table;
  const auto& pitches = t.column("wall_leeward_pitched", "pitch");
  Marks m = 0;
  for (const Reading& r : wind.leeward)
    m |= r.by_pitch ? marks_by_pitch(t, "wall_leeward_pitched", "wall_leeward_steep", pitches.size() - 2,
                                     quantity<Angle>(pitches.back()), ask.shape.at(r.side).pitch)
                    : t.mark("wall_leeward");
  return m;
}
static Marks marks_of_place(const WindAsk& ask, const Wind& wind, std::size_t place) {
  const Table& t = ask.table;
  if (place == at_windward) return t.mark(windward_key(ask));
  if (place == at_leeward || place == at_sheltered) return marks_of_leeward(ask, wind);
  if (place < at_side + t.column("wall_side", "C_pe").size()) return t.mark("wall_side");
  if (place < at_roof) return t.mark("wall_side_far");
  return marks_of_roof(ask, on_roof(wind, place));
}
namespace {
struct CaseMarks {
  Marks net, push, square_on;
};
}  // namespace
// of_places: of the figures behind each place's coefficient.
static CaseMarks marks(const WindAsk& ask, const SiteWind& site, const Wind& wind, const Laid& laid,
                       const std::vector<Stretch>& walls, const std::vector<double>& c,
                       const std::vector<Marks>& of_places, const Inside& inside, bool with_roof) {
  const Table& t = ask.table;
  const auto of = [&](std::size_t place) { return of_places[place]; };
  const Marks of_face = site.faces[index(wind.face)].marks;
  const Marks common =
      (of_face != 0 ? of_face : site.marks) | marks_of(t, {"combination", "pressure_limits", "limits"});
  Marks within = t.mark(inside.key) | t.mark("surfaces");
  if (inside.face)
    within |= of(place_of_face(wind, inside.face->side)) | marks_of(t, {"inside_open_factors", "wide_door"});
  CaseMarks m{.net = common | within | marks_of(t, {"area_factor", "surfaces_more"}),
              .push = common | of(at_windward) | of(at_leeward) | t.mark(with_roof ? "surfaces_more" : "surfaces"),
              .square_on = common | within | t.mark("local")};
  for (const Spot& spot : laid.spots) m.net |= of(spot.place);
  for (std::size_t i = 0; with_roof && i < laid.spot.size(); ++i)
    if (pushes_along(ask, wind, laid, c, i)) m.push |= of(laid.spots[laid.spot[i]].place);
  for (const Stretch& s : walls) m.square_on |= of(s.place);
  return m;
}

namespace {
// All that the cases of one wind share.
struct Winded {
  Wind wind;
  Laid laid;
  std::vector<Stretch> walls;
  std::array<std::vector<double>, 2> c;
  std::vector<Marks> marks;  // by place
};
}  // namespace

static LoadCase load_case(const WindAsk& ask, const SiteWind& site, const Winded& x, OfTwo value, const Inside& inside,
                          bool with_roof, std::size_t layout, const Pressures& p) {
  const Table& t = ask.table;
  const std::string face(words(x.wind.face));
  const std::string_view which = value == 0 ? "first" : "second";
  const std::vector<double>& of_value = x.c[value];
  const CaseMarks m = marks(ask, site, x.wind, x.laid, x.walls, of_value, x.marks, inside, with_roof);
  LoadCase c{
      .id = fmt::format("{} {} {}{}", face, inside.id, which, with_roof ? " roof" : ""),
      .wind = fmt::format("onto the {}, roof by its {} coefficients{}", face, which, with_roof ? "" : ", walls alone"),
      .inside = inside.words,
      .combination = combination(t, "combination"),
      .layout = layout,
      .net = {},
      .net_small = {},
      .by_area = {t.get<Area>("area_factor", "area"), quantity<Area>(t.column("area_factor", "area").back()), false,
                  t.source("area_factor")},
      .push =
          pushes(ask, x.wind, x.laid, of_value, pushed(ask, x.wind, x.laid, of_value, with_roof, nullptr), with_roof),
      .square_on = {},
      .marks = m.net | m.push | m.square_on,
      .marks_net = m.net,
      .marks_push = m.push,
      .marks_square_on = m.square_on,
      .down = combination(t, "combination_down"),
      .marks_down = t.mark("combination_down")};
  c.net.reserve(x.laid.spot.size());
  c.net_small.reserve(x.laid.spot.size());
  for (const std::size_t spot : x.laid.spot) {
    c.net.push_back(p.large[spot]);
    c.net_small.push_back(p.small[spot]);
  }
  c.square_on.reserve(x.walls.size());
  for (std::size_t i = 0; i < x.walls.size(); ++i)
    c.square_on.push_back({x.walls[i].side, x.walls[i].from, x.walls[i].to, p.square[i], x.walls[i].label});
  return c;
}

static void tell_case(const WindAsk& ask, const Winded& x, OfTwo value, const Inside& inside, bool with_roof,
                      Working* w) {
  w->heading("The pressures");
  const std::vector<double> c = coefficients(ask, x.wind, value, w);
  reach(ask, w);
  const double c_pi = inside_coefficient(ask, x.wind, inside, c, w);
  pressures(ask, x.wind, x.laid, x.walls, c, inside, c_pi, w);
  pushed(ask, x.wind, x.laid, c, with_roof, w);
}

Loads loads(const WindAsk& ask, Working* w, std::optional<std::size_t> tell) {
  const SiteWind wind_of_site = site(ask, w);
  const Length a = reach(ask, nullptr);
  const std::vector<Inside> inside = insides(ask, open_faces(ask, wind_of_site, a));
  Loads all{.basis = Basis::limit_state, .layouts = {}, .cases = {}, .excess = limits_passed(ask)};
  press_on_floors(all, ask.table, {"combination_floor"});
  all.cases.reserve(std::size_t{16} * inside.size());  // winds, coefficients, with the roof and without
  for (const std::size_t quarter : {0U, 1U, 2U, 3U}) {
    const Wind wind = wind_onto(ask, wind_of_site, turns[quarter]);
    Winded x{wind,
             lay_out(ask, wind),
             stretches(ask, wind, a),
             {coefficients(ask, wind, 0, nullptr), coefficients(ask, wind, 1, nullptr)},
             {}};
    for (std::size_t place = 0; place < x.c[0].size(); ++place) x.marks.push_back(marks_of_place(ask, wind, place));
    for (const OfTwo value : {0U, 1U})
      for (const Inside& within : inside) {
        const double c_pi = inside_coefficient(ask, wind, within, x.c[value], nullptr);
        const Pressures p = pressures(ask, wind, x.laid, x.walls, x.c[value], within, c_pi, nullptr);
        for (const bool with_roof : {false, true}) {
          if (with_roof && !roof_adds(ask, wind, x.laid, x.c[value])) continue;
          if (w && tell == all.cases.size()) tell_case(ask, x, value, within, with_roof, w);
          all.cases.push_back(load_case(ask, wind_of_site, x, value, within, with_roof, all.layouts.size(), p));
        }
      }
    all.layouts.push_back(std::move(x.laid.layout));
  }
  return all;
}

// For NZS 3604 too: its own rules for lines of bracing are not looked at.
LineSpacing line_spacing(const WindAsk& ask) {
  const bool by_zone = !asked(ask).zone.empty();
  return {std::nullopt, std::nullopt,
          by_zone ? ask.table.method + "'s own rules for bracing lines are not looked at"
                  : ask.table.method + " gives no spacing of bracing lines",
          0};
}

}  // namespace belay::as_nzs
