// The gust at a site by AS/NZS 1170.2: the region's gust, times its factor, by eight directions the multipliers of
// direction, terrain and height, shielding and hill; then for each face of the house the worst of the directions within
// 45 degrees. Also a zone of NZS 3604, and a gust or pressure that an engineer typed in. Bearings run clockwise from
// north.
#include "wind/formulas.hpp"
#include "wind/formulas_site.hpp"
#include "wind/site_multipliers.hpp"
#include <algorithm>
#include <array>
#include <charconv>
#include <numbers>
#include <stdexcept>

namespace belay::as_nzs {

static const AsNzsSite& asked(const WindAsk& ask) { return std::get<AsNzsSite>(ask.site); }
static std::string source_of(Working* w, const Table& t, std::string_view key) {
  return w ? t.source(key) : std::string();
}
static const std::string& place_of(const std::string& at) {
  static const std::string unnamed = "the job's site";
  return at.empty() ? unnamed : at;
}
// A symbol with its tail; nothing is composed in silence.
static std::string symbol(Working* w, std::string_view head, std::string_view tail) {
  return w ? fmt::format("{}{}", head, tail) : std::string();
}

bool stands_among(const std::string& words, std::string_view word) {
  std::size_t from = 0;
  while (from < words.size()) {
    const std::size_t blank = std::min(words.find(' ', from), words.size());
    if (std::string_view(words).substr(from, blank - from) == word) return true;
    from = blank + 1;
  }
  return false;
}
static bool is_for(const Entry& e, std::string_view prefix, std::string_view region) {
  if (!e.key.starts_with(prefix)) return false;
  const auto regions = e.texts.find("regions");
  return regions != e.texts.end() && stands_among(regions->second, region);
}
static const Entry* found_for(const Table& t, std::string_view prefix, std::string_view region) {
  const auto e =
      std::find_if(t.entries.begin(), t.entries.end(), [&](const Entry& x) { return is_for(x, prefix, region); });
  return e == t.entries.end() ? nullptr : &*e;
}
static const Entry& entry_for(const Table& t, std::string_view prefix, const std::string& region) {
  if (const Entry* e = found_for(t, prefix, region)) return *e;
  throw std::out_of_range(fmt::format("{} has no {}entry for region {}", t.file, prefix, region));
}
static bool is_kind_of_region(const Table& t, std::string_view kind, std::string_view region) {
  return !region.empty() && stands_among(t.text("kinds_of_region", kind), region);
}

std::vector<std::string> regions(const Table& t) {
  std::vector<std::string> all;
  for (const Entry& e : t.entries) {
    if (!e.key.starts_with("region_")) continue;
    const std::string& words = e.texts.find("regions")->second;
    for (std::size_t from = 0; from < words.size();) {
      const std::size_t blank = std::min(words.find(' ', from), words.size());
      all.push_back(words.substr(from, blank - from));
      from = blank + 1;
    }
  }
  return all;
}
std::vector<std::string> zones(const Table& t) {
  std::vector<std::string> all;
  if (!t.has("zone")) return all;
  const auto& gusts = t.entry("zone").columns;
  for (const auto& c : gusts) all.push_back(c.first);
  std::sort(all.begin(), all.end(), [&](const std::string& a, const std::string& b) {
    return gusts.find(a)->second.front().si < gusts.find(b)->second.front().si;
  });
  return all;
}
constexpr std::string_view before_category = "TC";
std::vector<std::string> terrains(const Table& t) {
  std::vector<std::string> all;
  if (!t.has("terrain")) return all;
  const auto note = [&](const std::string& name) {
    if (name.starts_with(before_category)) all.push_back(name.substr(before_category.size()));
  };
  for (const auto& c : t.entry("terrain").columns) note(c.first);
  if (t.has("terrain_between"))
    for (const auto& c : t.entry("terrain_between").texts) note(c.first);
  std::sort(all.begin(), all.end());
  return all;
}

// ---- the region ----------------------------------------------------------------------------------------------------

// Where the years stand among those that the entry lists; its size when they are more than all of them.
static std::size_t first_of_at_least(const Entry& e, int years) {
  const auto& listed = e.columns.find("years")->second;
  std::size_t i = 0;
  while (i < listed.size() && listed[i].si < static_cast<double>(years)) ++i;
  return i;
}
static bool is_listed(const Entry& e, int years) {
  const auto& listed = e.columns.find("years")->second;
  const std::size_t i = first_of_at_least(e, years);
  return i < listed.size() && !(listed[i].si > static_cast<double>(years));
}
RegionalGust regional_gust(const Table& t, const std::string& region, int years, const std::string& at,
                           std::string_view tail, Working* w) {
  const Entry& e = entry_for(t, "region_", region);
  const std::string own = symbol(w, "V_R", tail), by_formula = symbol(w, "V_R,f", tail), r = symbol(w, "R_y", tail);
  const double number = static_cast<double>(years);
  const bool has_formula = number >= t.number(e.key, "from");
  given(w, r, "years: such a gust is exceeded once in so many", number, at);
  const Entry* read = found_for(t, "read_", region);
  const bool was_read = read != nullptr && is_listed(*read, years);
  const Entry& shown = was_read ? *read : e;
  // What was read needs no formula from memory beside it.
  Speed formula = zero<Speed>();
  if (has_formula && !was_read) {
    const Speed va = figure<Speed>(w, t, e.key, "V_a", "V_R,a", "figure of the region's formula");
    const Speed vb = figure<Speed>(w, t, e.key, "V_b", "V_R,b", "figure of the region's formula");
    const double k = figure<double>(w, t, e.key, "k", "k_R", "power of the region's formula");
    formula = formulas::regional_gust.told(w, by_formula, source_of(w, t, e.key), va, vb, as(r, number), k);
  }
  if (is_listed(shown, years) || !has_formula) {
    const std::size_t i = first_of_at_least(shown, years);
    const Speed v =
        figure<Speed>(w, t, shown.key, "gust", own, "gust of the region, to whole m/s as the table has it", i);
    return {v, own, t.mark(shown.key)};
  }
  const std::size_t below = first_of_at_least(e, years) - 1;
  const std::string lesser = symbol(w, "V_R,t", tail);
  const Speed listed =
      figure<Speed>(w, t, e.key, "gust", lesser, "gust of the table for the fewer years listed", below);
  const Speed v = greatest<Speed>(w, own, "gust of the region: by the formula, and no less than for fewer years",
                                  source_of(w, t, e.key), {as(by_formula, formula), as(lesser, listed)});
  return {v, own, t.mark(e.key)};
}

Multiplier regional_factor(const Table& t, const std::string& region, int years, std::string_view tail, Working* w) {
  const Entry& e = entry_for(t, "factor_", region);
  const std::string& name = t.text(e.key, "symbol");
  const std::string& words = t.text(e.key, "words");
  const bool long_enough = static_cast<double>(years) >= t.number(e.key, "years");
  const double factor = figure<double>(w, t, e.key, long_enough ? "factor" : "below", symbol(w, name, tail), words);
  return {factor, fmt::format("{}{}", name, tail), words, t.mark(e.key)};
}

// ---- terrain and height --------------------------------------------------------------------------------------------

static Multiplier in_column(const Table& t, const std::string& column, const As<Length>& z, Working* w) {
  const std::string own = symbol(w, "M_z,cat,", column);
  Multiplier m{0.0, own, w ? "terrain " + column.substr(before_category.size()) : std::string(), t.mark("terrain")};
  if (w && !w->first(own)) w = nullptr;
  const auto& heights = t.column("terrain", "z");
  const Place place = place_among(heights, z.quantity);
  const double low = t.column("terrain", column).at(place.low).si;
  const double high = place.between ? t.column("terrain", column).at(place.low + 1).si : low;
  if (!(low < high)) {  // level here
    m.value = figure<double>(w, t, "terrain", column, own,
                             w ? "terrain and height multiplier, " + m.words : std::string(), place.low);
    return m;
  }
  const std::string m1 = symbol(w, own, ",1"), m2 = symbol(w, own, ",2");
  const double below = figure<double>(w, t, "terrain", column, m1, "at the height of the table below", place.low);
  const double above = figure<double>(w, t, "terrain", column, m2, "at the height of the table above", place.low + 1);
  const Length z1 = figure<Length>(w, t, "terrain", "z", "z_1", "height of the table below the roof's", place.low);
  const Length z2 = figure<Length>(w, t, "terrain", "z", "z_2", "height of the table above the roof's", place.low + 1);
  m.value = formulas::between_heights_above_ground.told_as(
      w, own, w ? "terrain and height multiplier, " + m.words + ", between two heights" : std::string(),
      source_of(w, t, "terrain"), as(m1, below), as(m2, above), z, as("z_1", z1), as("z_2", z2));
  return m;
}

Multiplier terrain_and_height(const Table& t, const std::string& terrain, const As<Length>& z, Working* w) {
  const std::string column = fmt::format("{}{}", before_category, terrain);
  if (t.entry("terrain").columns.contains(column)) return in_column(t, column, z, w);
  // A terrain without a column lies half-way between its neighbours.
  const std::string& pair = t.text("terrain_between", column);
  const std::size_t blank = pair.find(' ');
  const Multiplier a = in_column(t, pair.substr(0, blank), z, w), b = in_column(t, pair.substr(blank + 1), z, w);
  Multiplier m{0.0, symbol(w, "M_z,cat,", column), w ? "terrain " + terrain : std::string(),
               a.marks | b.marks | t.mark("terrain_between")};
  if (w && !w->first(m.symbol)) w = nullptr;
  m.value = formulas::half_way_between_terrains.told(w, m.symbol, source_of(w, t, "terrain_between"),
                                                     as(a.symbol, a.value), as(b.symbol, b.value));
  return m;
}

// ---- shielding -----------------------------------------------------------------------------------------------------

static Multiplier shielding(const Table& t, const Upwind& upwind, Length h, const std::string& tail, Working* w) {
  const std::string own = symbol(w, "M_s", tail);
  if (upwind.hill && (upwind.shielding.value_or(1.0) < 1.0 || upwind.buildings) &&
      too_steep_to_shield(t, *upwind.hill)) {
    given(w, own, "nothing shields on ground that rises so steeply", 1.0, source_of(w, t, "shielding"));
    return {1.0, own, "too steep to shield", t.mark("shielding")};
  }
  if (upwind.shielding)
    return {given(w, own, "shielding multiplier", *upwind.shielding, place_of(upwind.at)), own, "as stated", 0};
  const auto none = [&](std::string_view why) {
    const double one = given(w, own, why, 1.0, place_of(upwind.at));
    return Multiplier{one, own, std::string(why), 0};
  };
  if (!upwind.buildings || upwind.buildings->count <= 0) return none("no buildings that shield");
  const Buildings& b = *upwind.buildings;
  if (b.height < h) return none("the buildings are lower than this house's roof: they do not shield");
  if (!(b.breadth > zero<Length>())) return none("the buildings have no breadth");
  const double count = static_cast<double>(b.count);
  const std::string n = symbol(w, "n_s", tail), hs = symbol(w, "h_s", tail), bs = symbol(w, "b_s", tail),
                    ls = symbol(w, "l_s", tail), s = symbol(w, "s_s", tail);
  given(w, n, "buildings upwind", count, place_of(upwind.at));
  given(w, hs, "height of the buildings upwind, on the average", b.height, place_of(upwind.at));
  given(w, bs, "breadth of the buildings upwind, on the average", b.breadth, place_of(upwind.at));
  const std::string source = source_of(w, t, "shielding");
  const double of_number = figure<double>(w, t, "shielding", "of_number", "c_n", "figure of the spacing");
  const double base = figure<double>(w, t, "shielding", "base", "c_0", "figure of the spacing");
  const Length spacing =
      formulas::spacing_of_buildings.told(w, ls, source, h, of_number, as(n, count), as("c_0", base));
  const double parameter =
      formulas::shielding_parameter.told(w, s, source, as(ls, spacing), as(hs, b.height), as(bs, b.breadth));
  const auto& rows = t.column("shielding", "s");
  const Place place = place_among(rows, parameter);
  Multiplier m{0.0, own, w ? fmt::format("{} buildings counted", b.count) : std::string(), t.mark("shielding")};
  if (!place.between) {
    m.value = figure<double>(w, t, "shielding", "M", own, "shielding multiplier", place.low);
    return m;
  }
  const std::string m1 = symbol(w, own, ",1"), m2 = symbol(w, own, ",2"), s1 = symbol(w, s, ",1"),
                    s2 = symbol(w, s, ",2");
  const double below = figure<double>(w, t, "shielding", "M", m1, "in the row below", place.low);
  const double above = figure<double>(w, t, "shielding", "M", m2, "in the row above", place.low + 1);
  const double r1 = figure<double>(w, t, "shielding", "s", s1, "row below", place.low);
  const double r2 = figure<double>(w, t, "shielding", "s", s2, "row above", place.low + 1);
  m.value = formulas::between_spacings.told(w, own, source, as(m1, below), as(m2, above), as(s, parameter), as(s1, r1),
                                            as(s2, r2));
  return m;
}

// ---- hills ---------------------------------------------------------------------------------------------------------

bool too_steep_to_shield(const Table& t, const Hill& hill) {
  return can_be_a_hill(hill) &&
         formulas::hill_slope(nullptr, hill.rise, hill.to_half_height) > t.number("shielding", "steepest") &&
         hill_shape(t, hill, as("z", zero<Length>()), {}, nullptr).value > 1.0;
}
bool can_be_a_hill(const Hill& hill) { return hill.rise > zero<Length>() && hill.to_half_height > zero<Length>(); }

// The formula of a steep crest is the table's for the separation zone: here at every height above it, and to both sides
// of the crest, and never less than the general formula's.
Multiplier hill_shape(const Table& t, const Hill& hill, const As<Length>& z, const std::string& tail, Working* w) {
  const std::string own = symbol(w, "M_h", tail), source = source_of(w, t, "hill");
  Multiplier m{1.0, own, w ? std::string(words(hill.shape)) : std::string(), 0};
  const auto one = [&](std::string_view why) {
    given(w, own, why, m.value, place_of(hill.at));
    return m;
  };
  if (!can_be_a_hill(hill)) return one("not a hill");
  m.marks = t.mark("hill");
  const std::string H = symbol(w, "H", tail), lu = symbol(w, "L_u", tail), x = symbol(w, "x", tail),
                    l1 = symbol(w, "L_1", tail), l2 = symbol(w, "L_2", tail), sigma = symbol(w, "sigma", tail);
  const Length away = abs(hill.past_crest);
  given(w, H, "rise of the hill", hill.rise, place_of(hill.at));
  given(w, lu, "level distance from the crest to half the rise, upwind", hill.to_half_height, place_of(hill.at));
  given(w, x, "level distance of the house from the crest", away, place_of(hill.at));
  const double slope = formulas::hill_slope.told(w, sigma, source, as(H, hill.rise), as(lu, hill.to_half_height));
  const double gentle = figure<double>(w, t, "hill", "gentle", "sigma_0", "slope below which a hill does not count");
  if (slope < gentle) return one("hill-shape multiplier: too gentle to count");

  const double of_half = figure<double>(w, t, "hill", "of_half_length", "k_L", "share of the half length");
  const double of_rise = figure<double>(w, t, "hill", "of_rise", "k_H", "share of the rise");
  const std::string by_length = symbol(w, l1, ",L"), by_rise = symbol(w, l1, ",H");
  const Length first =
      formulas::hill_length.told(w, by_length, source, as("k_L", of_half), as(lu, hill.to_half_height));
  const Length second = formulas::hill_length.told(w, by_rise, source, as("k_H", of_rise), as(H, hill.rise));
  const Length length1 = greatest<Length>(w, l1, "length by which the hill's effect fades with height", source,
                                          {as(by_length, first), as(by_rise, second)});
  const bool past = hill.shape == HillShape::escarpment && hill.past_crest > zero<Length>();
  const double reach = past
                           ? figure<double>(w, t, "hill", "past_escarpment", "k_e", "reach downwind of a cliff, in L_1")
                           : figure<double>(w, t, "hill", "of_L_1", "k_c", "reach of the hill, in L_1");
  const Length length2 = formulas::hill_length.told_as(w, l2, "length by which the hill's effect fades with distance",
                                                       source, as(past ? "k_e" : "k_c", reach), as(l1, length1));
  if (away >= length2) return one("hill-shape multiplier: beyond the reach of the hill");

  const double constant = figure<double>(w, t, "hill", "constant", "c_h", "figure of the formula");
  const double steep_from = t.number("hill", "steep");
  // Within the zone. The zone's reach is told, so that a person can see why the steep formula stands.
  bool steep = slope > steep_from;
  if (steep) {
    m.marks |= t.mark("separation");
    figure<double>(w, t, "hill", "steep", "sigma_1", "slope above which the wind parts from the crest");
    const double zone = figure<double>(w, t, "separation", "of_rise", "k_z", "reach of the separation zone, in H");
    steep = away <= formulas::hill_length.told_as(w, symbol(w, "x_z", tail), "reach of the separation zone",
                                                  source_of(w, t, "separation"), as("k_z", zone), as(H, hill.rise));
  }
  const auto general = [&](const std::string& as_symbol) {
    return formulas::hill_shape.told(w, as_symbol, source, as(H, hill.rise), constant, z, as(l1, length1), as(x, away),
                                     as(l2, length2));
  };
  if (!steep) {
    m.value = general(own);
    return m;
  }
  const std::string everywhere_else = symbol(w, own, ",g"), at_crest = symbol(w, own, ",s");
  const double most = figure<double>(w, t, "separation", "most", "c_s", "figure of the formula for steep crests");
  const double elsewhere = general(everywhere_else);
  const double crest = formulas::steep_crest.told(w, at_crest, source_of(w, t, "separation"), as("c_s", most),
                                                  as(x, away), as(l2, length2));
  m.value = greatest<double>(w, own, "hill-shape multiplier at a steep crest, and no less than elsewhere",
                             source_of(w, t, "separation"), {as(at_crest, crest), as(everywhere_else, elsewhere)});
  return m;
}

namespace {
// What all directions share.
struct Common {
  RegionalGust region;
  Multiplier factor;
  Length h;                            // mean roof height
  std::optional<Multiplier> altitude;  // of high ground
};
// One direction; `symbol` of its gust.
struct Direction {
  Speed gust;
  std::string symbol;
  std::vector<Factor> factors;
  Marks marks;
};
using Directions = std::array<Direction, directions.size()>;
}  // namespace

static std::optional<Multiplier> high_ground(const WindAsk& ask, Working* w) {
  const Table& t = ask.table;
  const Length level = asked(ask).ground_level;
  if (!(level > t.get<Length>("altitude", "from"))) return std::nullopt;
  given(w, "E", "height of the ground above the sea", level, place_of(asked(ask).at));
  const double rate = figure<double>(w, t, "altitude", "rate", "c_E", "figure of the formula");
  const Length over = figure<Length>(w, t, "altitude", "over", "E_1", "height that the figure is for");
  const double m = formulas::high_ground.told(w, "M_E", source_of(w, t, "altitude"), rate, as("E", level), over);
  return Multiplier{m, "M_E", "high ground", t.mark("altitude")};
}

static Multiplier topography(const Table& t, const Upwind& upwind, const Common& common, const std::string& tail,
                             Working* w) {
  const std::string own = symbol(w, "M_t", tail);
  if (!upwind.hill && !common.altitude) return {given(w, own, "flat ground", 1.0, place_of(upwind.at)), own, "flat", 0};
  if (!upwind.hill) {
    const double m = formulas::hill_on_high_ground.told(
        w, own, source_of(w, t, "altitude"),
        as(symbol(w, "M_h", tail), given(w, symbol(w, "M_h", tail), "flat ground", 1.0, place_of(upwind.at))),
        as("M_E", common.altitude->value));
    return {m, own, common.altitude->words, common.altitude->marks};
  }
  Multiplier m = hill_shape(t, *upwind.hill, as("h", common.h), tail, w);
  if (!common.altitude) return m;
  m.value = formulas::hill_on_high_ground.told(w, own, source_of(w, t, "altitude"), as(m.symbol, m.value),
                                               as("M_E", common.altitude->value));
  m.symbol = own;
  m.marks |= common.altitude->marks;
  return m;
}

// ---- directions ----------------------------------------------------------------------------------------------------

// The entry that lists multipliers of this region; none: its directions are not in hand.
static const Entry* directions_of(const Table& t, const std::string& region) {
  const auto e = std::find_if(t.entries.begin(), t.entries.end(), [&](const Entry& x) {
    return x.key.starts_with("directions_") && x.columns.contains(region);
  });
  return e == t.entries.end() ? nullptr : &*e;
}
static Multiplier by_direction(const WindAsk& ask, std::size_t i, const std::string& tail, Working* w) {
  const Table& t = ask.table;
  const std::string own = symbol(w, "M_d", tail);
  const Entry* e = asked(ask).north ? directions_of(t, asked(ask).region) : nullptr;
  if (e == nullptr) {
    const std::string_view why =
        asked(ask).north ? "direction multipliers are not in hand" : "the house's bearing is not known";
    const double one = figure<double>(w, t, "direction_unknown", "M", own, why);
    return {one, own, std::string(why), t.mark("direction_unknown")};
  }
  const double m = figure<double>(w, t, e->key, asked(ask).region, own, "direction multiplier", i);
  return {m, own, "direction", t.mark(e->key)};
}

static Direction from_direction(const WindAsk& ask, std::size_t i, const Common& common, Working* w) {
  const Table& t = ask.table;
  const Upwind& upwind = asked(ask).from[i];
  if (w) w->heading(fmt::format("The wind from {}", directions[i]));
  const std::string tail = symbol(w, ",", directions[i]);
  const Multiplier d = by_direction(ask, i, tail, w);
  const Multiplier z = terrain_and_height(t, upwind.terrain, as("h", common.h), w);
  const Multiplier s = shielding(t, upwind, common.h, tail, w);
  const Multiplier m = topography(t, upwind, common, tail, w);
  Direction from{zero<Speed>(), symbol(w, "V_", directions[i]), {}, d.marks | z.marks | s.marks | m.marks};
  from.gust = formulas::site_gust.told_as(w, from.symbol,
                                          w ? fmt::format("gust at roof height from {}", directions[i]) : std::string(),
                                          "AS/NZS 1170.2 cl. 2.2", as(common.region.symbol, common.region.value),
                                          as(common.factor.symbol, common.factor.value), as(d.symbol, d.value),
                                          as(z.symbol, z.value), as(s.symbol, s.value), as(m.symbol, m.value));
  from.factors = {{"V_R", "region", value(common.region.value)},
                  {common.factor.symbol, common.factor.words, value(common.factor.value)},
                  {"M_d", d.words, value(d.value)},
                  {"M_z,cat", "terrain " + upwind.terrain, value(z.value)},
                  {"M_s", s.words, value(s.value)},
                  {"M_t", m.words, value(m.value)}};
  return from;
}

// ---- faces ---------------------------------------------------------------------------------------------------------

namespace {
constexpr std::array sides{Side::left, Side::front, Side::right, Side::back};
const Angle whole_turn = Angle::from_value(2.0 * std::numbers::pi);
const Angle step = whole_turn / static_cast<double>(directions.size());
// Bearings closer than this are one.
const Angle same_bearing = Angle::from_value(1e-9);
struct Candidate {
  Speed gust;
  std::string symbol, from;
  Marks marks;
};
}  // namespace

// Of a face on a sheet with north at its top.
static Angle bearing_on_sheet(Side side) {
  switch (side) {
    case Side::back: return zero<Angle>();
    case Side::right: return 0.25 * whole_turn;
    case Side::front: return 0.5 * whole_turn;
    case Side::left: return 0.75 * whole_turn;
  }
  throw std::logic_error("a side that is not in the list");
}
static std::size_t around(long i) {
  const long n = static_cast<long>(directions.size());
  return static_cast<std::size_t>(((i % n) + n) % n);
}

// At an end of the face's sector, where no direction stands there itself.
static std::optional<Candidate> at_end(const Directions& from, Side side, Angle bearing, Angle to, bool right,
                                       Working* w) {
  const Angle end = right ? bearing + to : bearing - to;
  const long low = static_cast<long>(std::floor(static_cast<double>((end + same_bearing) / step)));
  const Angle b1 = static_cast<double>(low) * step, b2 = static_cast<double>(low + 1) * step;
  if (end - b1 <= same_bearing) return std::nullopt;
  const std::size_t i = around(low), j = around(low + 1);
  const std::string tail = w ? fmt::format(",{},{}", words(side), right ? "right" : "left") : std::string();
  const std::string e = symbol(w, "beta", tail), e1 = symbol(w, "beta_1", tail), e2 = symbol(w, "beta_2", tail),
                    f = symbol(w, "f", tail), v = symbol(w, "V", tail);
  const std::string beta = symbol(w, "beta,", words(side));
  if (right) formulas::right_end.told(w, e, "geometry", as(beta, bearing), as("beta_s", to));
  else formulas::left_end.told(w, e, "geometry", as(beta, bearing), as("beta_s", to));
  given(w, e1, w ? fmt::format("bearing of {}", directions[i]) : std::string(), b1, "the compass");
  given(w, e2, w ? fmt::format("bearing of {}", directions[j]) : std::string(), b2, "the compass");
  const double share = formulas::share_of_step.told(w, f, "geometry", as(e, end), as(e1, b1), as(e2, b2));
  const Speed gust =
      formulas::between_directions.told(w, v, "linear between directions", as(from[i].symbol, from[i].gust),
                                        as(from[j].symbol, from[j].gust), as(f, share));
  return Candidate{gust, v, fmt::format("between {} and {}", directions[i], directions[j]),
                   from[i].marks | from[j].marks};
}

// The directions within the face's sector, and its ends; all eight where the bearing is not known.
static std::vector<Candidate> candidates(const WindAsk& ask, const Directions& from, Side side, Working* w) {
  std::vector<Candidate> all;
  const auto add = [&](std::size_t i) {
    all.push_back({from[i].gust, from[i].symbol, std::string(directions[i]), from[i].marks});
  };
  const auto& north = asked(ask).north;
  if (!north) {
    for (std::size_t i = 0; i < directions.size(); ++i) add(i);
    return all;
  }
  // A whole turn more where the difference would not be a bearing from 0 up.
  Angle on_sheet = bearing_on_sheet(side);
  while (on_sheet - *north < -same_bearing) on_sheet += whole_turn;
  while (on_sheet - *north >= whole_turn - same_bearing) on_sheet -= whole_turn;
  const std::string tail = symbol(w, ",", words(side));
  const std::string b0 = symbol(w, "beta_0", tail);
  given(w, b0, "bearing of the face with north up the sheet", on_sheet, "the compass");
  const Angle bearing = formulas::bearing_of_face.told_as(
      w, symbol(w, "beta", tail), w ? fmt::format("bearing that the {} looks to", words(side)) : std::string(),
      "geometry", as(b0, on_sheet), as("nu", *north));
  const Angle to = figure<Angle>(w, ask.table, "sector", "to", "beta_s", "sector of a face, to either side");
  if (auto c = at_end(from, side, bearing, to, false, w)) all.push_back(*std::move(c));
  const long first = static_cast<long>(std::ceil(static_cast<double>((bearing - to - same_bearing) / step)));
  for (long i = first; static_cast<double>(i) * step <= bearing + to + same_bearing; ++i) add(around(i));
  if (auto c = at_end(from, side, bearing, to, true, w)) all.push_back(*std::move(c));
  return all;
}
static const Candidate& worst(const std::vector<Candidate>& all) {
  return *std::max_element(all.begin(), all.end(),
                           [](const Candidate& a, const Candidate& b) { return a.gust < b.gust; });
}
static std::vector<As<Speed>> named(const std::vector<Candidate>& all) {
  std::vector<As<Speed>> out;
  for (const Candidate& c : all) out.push_back(as(c.symbol, c.gust));
  return out;
}

// The gust on each face is told as "V_des,front", the pressure as "q_front".
static std::string gust_symbol(Working* w, Side side) { return symbol(w, "V_des,", words(side)); }
static std::string pressure_symbol(Working* w, Side side) { return symbol(w, "q_", words(side)); }

// The pressure of the gust on each face, and the windiest of them.
static void finish_faces(SiteWind& s, Density air, Working* w) {
  for (FaceWind& face : s.faces)
    face.q = formulas::gust_pressure.told_as(
        w, pressure_symbol(w, face.side),
        w ? fmt::format("pressure of the gust on the {}", words(face.side)) : std::string(), "AS/NZS 1170.2 cl. 2.4.1",
        as("rho", air), as(gust_symbol(w, face.side), face.gust));
  std::vector<As<Speed>> gusts;
  std::vector<As<Pressure>> pressures;
  for (const FaceWind& face : s.faces) {
    gusts.push_back(as(gust_symbol(w, face.side), face.gust));
    pressures.push_back(as(pressure_symbol(w, face.side), face.q));
  }
  s.gust = greatest<Speed>(w, "V", "gust on the windiest face", "the faces", gusts);
  s.q = greatest<Pressure>(w, "q", "pressure of the gust on the windiest face", "the faces", pressures);
}

// The figures of shielding and hills once for all directions, before the first.
static void tell_what_directions_share(const WindAsk& ask, Working* w) {
  const Table& t = ask.table;
  const auto& from = asked(ask).from;
  if (std::any_of(from.begin(), from.end(), [](const Upwind& u) { return u.buildings && u.buildings->count > 0; })) {
    figure<double>(w, t, "shielding", "of_number", "c_n", "figure of the spacing");
    figure<double>(w, t, "shielding", "base", "c_0", "figure of the spacing");
  }
  if (std::none_of(from.begin(), from.end(), [](const Upwind& u) { return u.hill && can_be_a_hill(*u.hill); })) return;
  figure<double>(w, t, "hill", "gentle", "sigma_0", "slope below which a hill does not count");
  figure<double>(w, t, "hill", "of_half_length", "k_L", "share of the half length");
  figure<double>(w, t, "hill", "of_rise", "k_H", "share of the rise");
  figure<double>(w, t, "hill", "constant", "c_h", "figure of the formula");
}
static void by_chain(const WindAsk& ask, SiteWind& s, Working* w) {
  const Table& t = ask.table;
  const AsNzsSite& site = asked(ask);
  Common common{regional_gust(t, site.region, site.years, place_of(site.at), "", w),
                regional_factor(t, site.region, site.years, "", w), zero<Length>(), std::nullopt};
  tell_measures(w, ask);
  common.h = formulas::half_way_up(w, ask.shape.floor_level, walls_of(ask), ask.shape.rise);
  common.altitude = high_ground(ask, w);
  // Terrains are told here, once for all directions that share them.
  if (w)
    for (const Upwind& u : site.from) terrain_and_height(t, u.terrain, as("h", common.h), w);
  if (w) tell_what_directions_share(ask, w);
  if (w && site.north)
    given(w, "nu", "bearing of north on the sheet, clockwise from up", *site.north, place_of(site.at));
  s.marks |= common.region.marks | common.factor.marks;

  Directions from;
  for (std::size_t i = 0; i < from.size(); ++i) {
    from[i] = from_direction(ask, i, common, w);
    s.marks |= from[i].marks;
    s.directions.push_back({std::string(directions[i]), from[i].factors, from[i].gust});
  }

  if (w) w->heading("The wind on each face");
  const Speed floor = figure<Speed>(w, t, "sector", "least", "V_min", "least gust for strength");
  s.marks |= t.mark("sector");
  std::vector<As<Speed>> worst_of_faces;
  std::string shared;  // told once where the bearing is not known
  Speed in_all = zero<Speed>();
  for (const Side side : sides) {
    const auto all = candidates(ask, from, side, w);
    std::string own = symbol(w, "V_sit,", words(side));
    Speed v = worst(all).gust;
    if (site.north) {
      v = greatest<Speed>(w, own, w ? fmt::format("greatest gust within the sector of the {}", words(side)) : "",
                          source_of(w, t, "sector"), named(all));
    } else {
      if (shared.empty()) {
        shared = "V_sit";
        in_all = greatest<Speed>(w, shared, "greatest gust of all directions", source_of(w, t, "sector"), named(all));
      }
      v = in_all;
      own = shared;
    }
    worst_of_faces.push_back(as(own, v));
    const Speed design = greatest<Speed>(w, gust_symbol(w, side),
                                         w ? fmt::format("gust to design the {} for", words(side)) : std::string(),
                                         source_of(w, t, "sector"), {as(own, v), as("V_min", floor)});
    Marks marks = t.mark("air") | t.mark("sector") | common.region.marks | common.factor.marks;
    for (const Candidate& c : all) marks |= c.marks;
    s.faces[static_cast<std::size_t>(side)] = {
        side, design, zero<Pressure>(), worst(all).from, design > v ? v : zero<Speed>(), marks};
  }
  if (site.north) in_all = greatest<Speed>(w, "V_sit", "greatest gust of all faces", "the faces", worst_of_faces);

  const RegionalGust service = regional_gust(t, site.region, site.service_years, place_of(site.at), ",s", w);
  const Multiplier factor = regional_factor(t, site.region, site.service_years, ",s", w);
  s.marks |= service.marks | factor.marks;  // told with the rest
  s.service_gust = formulas::service_gust(
      w, as("V_sit", in_all), as(service.symbol, service.value), as(factor.symbol, factor.value),
      as(common.region.symbol, common.region.value), as(common.factor.symbol, common.factor.value));
}

// One gust on every face.
static void all_alike(SiteWind& s, Working* w, const std::function<Speed(Side)>& gust) {
  if (w) w->heading("The wind on each face");
  for (const Side side : sides) s.faces[static_cast<std::size_t>(side)] = {side, gust(side), zero<Pressure>(), ""};
}

// A gust under the method's least one is raised to it, whoever typed it.
static bool below_the_least(const WindAsk& ask) {
  const Speed least = ask.table.get<Speed>("sector", "least");
  const TypedIn& typed = asked(ask).typed;
  const Density air = ask.table.get<Density>("air", "density");
  return typed.gust ? *typed.gust < least : *typed.pressure < formulas::gust_pressure(nullptr, air, least);
}
static void by_typing(const WindAsk& ask, SiteWind& s, Density air, Working* w) {
  const AsNzsSite& site = asked(ask);
  const std::string source = source_of(w, ask.table, "sector");
  s.typed_in = true;
  s.marks |= ask.table.mark("sector");
  if (w) w->heading("The wind on each face");
  const Speed least = figure<Speed>(w, ask.table, "sector", "least", "V_min", "least gust for strength");
  if (site.typed.gust) {
    const Speed typed =
        given(w, "V_typed", "gust at roof height, typed in by an engineer", *site.typed.gust, place_of(site.at));
    all_alike(s, w, [&](Side side) {
      return greatest<Speed>(w, gust_symbol(w, side),
                             w ? fmt::format("gust to design the {} for", words(side)) : std::string(), source,
                             {as("V_typed", typed), as("V_min", least)});
    });
    finish_faces(s, air, w);
    return;
  }
  const Pressure typed =
      given(w, "q_typed", "pressure of the gust, typed in by an engineer", *site.typed.pressure, place_of(site.at));
  const Pressure no_less =
      formulas::gust_pressure.told(w, "q_min", "AS/NZS 1170.2 cl. 2.4.1", as("rho", air), as("V_min", least));
  s.q = greatest<Pressure>(w, "q", "pressure of the gust, no less than the least", source,
                           {as("q_typed", typed), as("q_min", no_less)});
  s.gust = formulas::gust_of_pressure(w, s.q, air);
  all_alike(s, w, [&](Side) { return s.gust; });
  for (FaceWind& face : s.faces)
    face.q = greatest<Pressure>(w, pressure_symbol(w, face.side),
                                w ? fmt::format("pressure of the gust on the {}", words(face.side)) : std::string(),
                                source, {as("q_typed", typed), as("q_min", no_less)});
}

// ---- what is said --------------------------------------------------------------------------------------------------

static bool more_is_asked_in_the_west(const WindAsk& ask) {
  const Table& t = ask.table;
  constexpr std::string_view key = "probability_west";
  return t.has(key) && stands_among(t.text(key, "regions"), asked(ask).region) &&
         t.column(key, "level").front() == value(static_cast<double>(ask.house.importance)) &&
         static_cast<double>(asked(ask).years) < t.number(key, "years");
}
// From these directions the wind comes over the far side of a hill that is stated from the opposite one alone.
static std::vector<std::string_view> hills_without_another_side(const AsNzsSite& site) {
  std::vector<std::string_view> all;
  for (std::size_t i = 0; i < directions.size(); ++i) {
    const auto& opposite_hill = site.from[(i + directions.size() / 2) % directions.size()].hill;
    if (opposite_hill && opposite_hill->shape != HillShape::escarpment && !site.from[i].hill)
      all.push_back(directions[i]);
  }
  return all;
}
static std::vector<std::string> cautions(const WindAsk& ask, bool chain, bool new_zealand) {
  const Table& t = ask.table;
  const AsNzsSite& site = asked(ask);
  std::vector<std::string> all;
  if (t.edition == "2011" && site.family != "nzs-3604")
    all.emplace_back("AS/NZS 1170.2:2011 is superseded by the edition of 2021.");
  if (site.debris_region == false && is_kind_of_region(t, "cyclonic", site.region))
    all.push_back(
        fmt::format("The job says that no debris flies; in region {} it is taken to fly all the same.", site.region));
  if (site.typed.given()) {
    all.emplace_back("The wind was typed in by an engineer and not worked out here.");
    if (below_the_least(ask))
      all.emplace_back("What was typed in is under the least gust of the standard, which is taken instead.");
    if (ask.house.importance > 2)
      all.push_back(fmt::format("Importance level {} plays no part in a gust that is typed in: it is for its engineer.",
                                ask.house.importance));
  } else if (!chain) {
    all.emplace_back("The zone is taken as given; it was not worked out from region, ground and shelter.");
  } else {
    if (!site.north)
      all.emplace_back("The house's bearing is not known: every face takes the worst direction, M_d 1.0.");
    else if (directions_of(t, site.region) == nullptr)
      all.emplace_back("The direction multipliers of this edition are not in hand: M_d 1.0 from every direction.");
    else if (directions_of(t, site.region)->key == "directions_parts")
      all.emplace_back(
          "M_d is 1.0 from every direction, as for brackets and anchors, and not 0.95 as for the whole "
          "building: the same winds judge both.");
    if (is_kind_of_region(t, "cyclonic", site.region))
      all.emplace_back(
          "In cyclonic regions some editions have terrain and height figures of their own, which are not "
          "in hand: those of the other regions stand.");
    if (std::any_of(site.from.begin(), site.from.end(), [&](const Upwind& u) {
          return u.hill && (u.shielding.value_or(1.0) < 1.0 || u.buildings) && too_steep_to_shield(t, *u.hill);
        }))
      all.emplace_back("Nothing shields where the ground rises so steeply upwind: M_s is 1.0 there.");
    if (std::any_of(site.from.begin(), site.from.end(), [&](const Upwind& u) {
          return u.hill && can_be_a_hill(*u.hill) &&
                 formulas::hill_slope(nullptr, u.hill->rise, u.hill->to_half_height) < t.number("hill", "gentle");
        }))
      all.emplace_back("A hill of the job is too gentle to count.");
    if (std::any_of(site.from.begin(), site.from.end(), [&](const Upwind& u) {
          return u.buildings && u.buildings->count > 0 && u.buildings->height < ask.shape.mean_roof_height;
        }))
      all.emplace_back("Buildings upwind that are lower than this house's mean roof height do not shield it.");
    if (const auto other_sides = hills_without_another_side(site); !other_sides.empty())
      all.push_back(fmt::format(
          "A hill or ridge speeds up the wind that comes over it from its other side too: none is stated from {}.",
          fmt::join(other_sides, ", ")));
    const double steep = t.number("hill", "steep");
    if (std::any_of(site.from.begin(), site.from.end(), [&](const Upwind& u) {
          return u.hill && can_be_a_hill(*u.hill) &&
                 formulas::hill_slope(nullptr, u.hill->rise, u.hill->to_half_height) > steep;
        }))
      all.emplace_back(
          "A house within a quarter of the rise from a steep crest is taken to stand in the separation "
          "zone at its whole height, and before the crest as behind it.");
    if (site.ground_level > t.get<Length>("altitude", "from") && !new_zealand)
      all.emplace_back("The factor for high ground is for New Zealand and Tasmania; it is taken here all the same.");
    if (new_zealand)
      all.emplace_back("Lee zones of New Zealand's ranges are not looked at: within one the gust is greater.");
  }
  const Shape& shape = ask.shape;
  const bool one_slope = shape.roof == RoofShape::skillion || shape.roof == RoofShape::flat;
  const auto has_gable = [](const RoofSide& r) { return !r.slopes || r.gable_above > zero<Length>(); };
  if (shape.roof == RoofShape::hip && std::any_of(shape.sides.begin(), shape.sides.end(), has_gable))
    all.emplace_back(
        "With a gable to the wind the hip roof's slopes beside it take the worse of a gable roof's and a hip roof's "
        "figures.");
  if (one_slope && shape.pitch >= t.get<Angle>("limits", "sloping"))
    all.emplace_back(
        "The leeward wall of a single slope takes the worse of the figures by its pitch and by its depth.");
  if (site.sealed)
    all.emplace_back("The house is taken as airtight, as the job says: one whose doors and windows open seldom is.");
  else
    all.emplace_back(
        "A house that is not sealed is taken to leak most on the windward side too: C_pi up to 0.2, which counts as no "
        "surface (K_c 1.0).");
  if (!new_zealand)
    all.emplace_back("In Australia AS 5216 governs anchors in concrete: the sheets' capacities must be by it.");
  return all;
}
static std::string said(const AsNzsSite& site, bool chain) {
  if (chain) return fmt::format("region {}, 1:{}", site.region, site.years);
  return site.typed.given() ? std::string("typed in") : "zone " + site.zone;
}
static std::vector<Combination> combinations(const Table& t) {
  std::vector<Combination> all;
  for (const std::string_view key : {"combination", "combination_down"})
    if (t.has(key)) all.push_back({t.text(key, "name"), t.source(key), t.number(key, "dead"), t.number(key, "wind")});
  return all;
}

SiteWind site(const WindAsk& ask, Working* w) {
  const Table& t = ask.table;
  const AsNzsSite& site = asked(ask);
  if (w && !w->first("the wind")) w = nullptr;  // told already
  if (w) w->heading("The wind");
  const bool by_zone = !site.typed.given() && site.family == "nzs-3604";
  const bool chain = !site.typed.given() && !by_zone;
  const bool new_zealand = site.family == "nzs-3604" || is_kind_of_region(t, "new_zealand", site.region);
  SiteWind s{.method = t.method,
             .edition = t.edition,
             .wind_class = "",
             .given_by = site.given_by,
             .gust = zero<Speed>(),
             .q = zero<Pressure>(),
             .cyclonic = is_kind_of_region(t, "cyclonic", site.region),
             .cautions = cautions(ask, chain, new_zealand),
             .says = said(site, chain),
             .earthquake_may_govern = new_zealand,
             .combinations = combinations(t),
             .marks = t.mark("air")};
  const Density air = figure<Density>(w, t, "air", "density", "rho", "density of air");
  if (site.typed.given()) {
    by_typing(ask, s, air, w);
    return s;
  }
  if (by_zone) {
    s.marks |= t.mark("zone");
    all_alike(s, w, [&](Side side) {
      return figure<Speed>(w, t, "zone", site.zone, gust_symbol(w, side),
                           w ? fmt::format("gust of the zone, on the {}", words(side)) : std::string());
    });
  } else {
    by_chain(ask, s, w);
  }
  finish_faces(s, air, w);
  return s;
}

// ---- limits --------------------------------------------------------------------------------------------------------

// The least number of years for the importance level.
static void limit_of_probability(const WindAsk& ask, std::vector<Excess>& passed) {
  const Table& t = ask.table;
  const AsNzsSite& site = asked(ask);
  for (const std::string_view key : {"probability", "probability_high"}) {
    const auto& levels = t.column(key, "level");
    std::string_view column = is_kind_of_region(t, "cyclonic", site.region) ? "cyclonic" : "normal";
    if (is_kind_of_region(t, "new_zealand", site.region) && t.entry(key).columns.contains("new_zealand"))
      column = "new_zealand";
    for (std::size_t i = 0; i < levels.size(); ++i) {
      const double least = t.column(key, column).at(i).si, has = site.years;
      if (levels[i] == value(static_cast<double>(ask.house.importance)) && has < least)
        passed.push_back(
            {"years between gusts, for the importance level", "at least", t.source(key), value(has), value(least)});
    }
  }
}

std::vector<Excess> site_limits(const WindAsk& ask) {
  const Table& t = ask.table;
  const AsNzsSite& site = asked(ask);
  std::vector<Excess> passed;
  if (site.typed.given()) return passed;
  if (site.family == "nzs-3604") {
    const Length top = t.get<Length>("zone_limits", "top");
    if (ask.shape.top > top)
      passed.push_back(
          {"height to the top of the roof", "at most", t.source("zone_limits"), value(ask.shape.top), value(top)});
    const double level = ask.house.importance, most = t.number("zone_importance", "level");
    if (level > most)
      passed.push_back({"importance level", "at most", t.source("zone_importance"), value(level), value(most)});
    return passed;
  }
  limit_of_probability(ask, passed);
  if (more_is_asked_in_the_west(ask)) {
    const double has = site.years, least = t.number("probability_west", "years");
    passed.push_back(
        {"years between gusts", "at least", t.source("probability_west"), value(has), value(least),
         fmt::format("region D north of the Tropic of Capricorn asks for 1:{} at this importance level, here "
                     "1:{}",
                     least, has)});
  }
  const Entry& region = entry_for(t, "region_", site.region);
  const double most_years = region.columns.find("years")->second.back().si, years = site.years;
  if (years > most_years)
    passed.push_back({"years between gusts", "at most", t.source(region.key), value(years), value(most_years)});
  const Length h = ask.shape.mean_roof_height, highest = quantity<Length>(t.column("terrain", "z").back());
  if (h > highest)
    passed.push_back(
        {"mean roof height, for the terrain multiplier", "at most", t.source("terrain"), value(h), value(highest)});
  for (std::size_t i = 0; i < directions.size(); ++i) {
    const Upwind& u = site.from[i];
    const std::string from = fmt::format(", from {}", directions[i]);
    const bool shields = u.shielding ? *u.shielding < 1.0 : u.buildings && u.buildings->count > 0;
    const Length tallest = t.get<Length>("shielding", "highest");
    if (shields && h > tallest)
      passed.push_back(
          {"mean roof height of a shielded house" + from, "at most", t.source("shielding"), value(h), value(tallest)});
    const double least_shielding = t.number("shielding", "M");
    if (u.shielding && *u.shielding < least_shielding)
      passed.push_back({"shielding multiplier" + from, "at least", t.source("shielding"), value(*u.shielding),
                        value(least_shielding)});
    if (u.hill && !can_be_a_hill(*u.hill)) {
      const Length has = std::min(u.hill->rise, u.hill->to_half_height);
      passed.push_back({"rise and half length of the hill" + from, "more than", t.source("hill"), value(has),
                        value(zero<Length>())});
    }
    double category = 0.0;
    std::from_chars(u.terrain.data(), u.terrain.data() + u.terrain.size(), category);
    const double roughest = t.number("rough_limit", "category");
    if (stands_among(t.text("rough_limit", "regions"), site.region) && category > roughest)
      passed.push_back({"terrain category in this region" + from, "at most", t.source("rough_limit"), value(category),
                        value(roughest)});
  }
  return passed;
}

}  // namespace belay::as_nzs
