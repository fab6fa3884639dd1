// Houses by wind class (AS 4055): net roof uplift from class coefficients, racking from the area of elevation.
#include "wind/formulas.hpp"
#include "wind/formulas_site.hpp"
#include "wind/site_multipliers.hpp"
#include "wind/zones.hpp"
#include <algorithm>
#include <iterator>
#include <stdexcept>

namespace belay::as4055 {

static const ClassSite& asked(const WindAsk& ask) { return std::get<ClassSite>(ask.site); }
static std::string gust_key(const std::string& wind_class) { return "gust_" + wind_class; }
static bool cyclonic(const std::string& wind_class) { return wind_class.starts_with('C'); }
static bool cyclonic(const WindAsk& ask) { return cyclonic(asked(ask).wind_class); }
using as_nzs::stands_among;

bool rated_for_class(const std::string& rating, const std::string& wind_class) {
  return rating.size() == 2 && wind_class.size() == 2 && rating[0] == wind_class[0] && rating[1] >= wind_class[1] &&
         rating[1] <= '9';
}

// An opening that nothing closes, or a wide door that is not known to stand the class's wind.
static bool counts_as_open(const Opening& o, const WindAsk& ask, Length wide) {
  if (o.stands_open) return true;
  // What the job itself calls too weak, or not known, is open however narrow it is.
  const bool doubted = o.wind_rated.has_value() || (o.door && o.width >= wide);
  return doubted &&
         falls_short(o.wind_rated, [&](const std::string& r) { return rated_for_class(r, asked(ask).wind_class); });
}
static bool has_an_open_side(const WindAsk& ask) {
  const Length wide = ask.table.get<Length>("wide_door", "width");
  for (const Wall& wall : ask.house.walls) {
    if (!wall.outside) continue;
    for (const Piece& piece : wall.pieces)
      if (piece.opening && counts_as_open(*piece.opening, ask, wide)) return true;
  }
  return false;
}

// ---- the class -----------------------------------------------------------------------------------------------------

namespace {
// How the class came about. name: where nothing fits, the strongest of its family, so that demands can be shown;
// `limit` says then what does not fit. says: a caution.
struct ClassFound {
  std::string name;
  std::optional<Excess> limit;
  std::string says;
  Marks marks;
};
}  // namespace

// The classes of a family, weakest first.
static std::vector<std::string> classes_of(const Table& t, char family) {
  std::vector<std::string> all;
  const std::string prefix = gust_key(std::string(1, family));
  for (const Entry& e : t.entries)
    if (e.key.starts_with(prefix)) all.push_back(e.key.substr(prefix.size() - 1));
  return all;
}
// By region alone, never by the gust. A region that is in neither list may be one of cyclones.
static char family_of(const Table& t, const std::string& region) {
  return stands_among(t.text("class_regions", "N"), region) ? 'N' : 'C';
}
static ClassFound none_fits(const Table& t, const std::string& region, Excess limit, Marks marks) {
  return {
      classes_of(t, family_of(t, region)).back(), std::move(limit),
      "No wind class could be found for this site: nothing is judged, and the forces are those of the strongest class "
      "of its family.",
      marks};
}

bool fits_region(std::string_view named, std::string_view region) {
  return named == region || (named.size() == 1 && region.starts_with(named));
}
static bool fits_region(const std::vector<std::string>& named, const std::string& region) {
  return named.empty() ||
         std::any_of(named.begin(), named.end(), [&](const std::string& n) { return fits_region(n, region); });
}
static bool fits(const std::vector<std::string>& words, const std::string& asked_for) {
  return words.empty() || std::find(words.begin(), words.end(), asked_for) != words.end();
}
// By the user's own table: the rows that fit must agree.
static ClassFound by_table(const WindAsk& ask) {
  const ClassFrom& from = *asked(ask).from;
  std::vector<const ClassRow*> rows;
  for (const ClassRow& row : from.table->rows)
    if (fits_region(row.region, from.region) && fits(row.terrain, from.terrain) &&
        fits(row.topography, from.topography) && fits(row.shielding, from.shielding))
      rows.push_back(&row);
  const Table& t = ask.table;
  const bool agree = std::all_of(rows.begin(), rows.end(),
                                 [&](const ClassRow* r) { return r->wind_class == rows.front()->wind_class; });
  const std::string ground = fmt::format("region {}, terrain {}, topography {}, shielding {}", from.region,
                                         from.terrain, from.topography, from.shielding);
  const auto refuse = [&](std::string why) {
    return none_fits(
        t, from.region,
        {"wind class by the user's table", "only", fmt::format("{}, {}", from.table->source, from.table->file),
         value(static_cast<double>(rows.size())), value(1.0), std::move(why)},
        0);
  };
  if (rows.empty()) return refuse(fmt::format("no row of the user's table of classes fits {}", ground));
  if (!agree || !t.has(gust_key(rows.front()->wind_class)))
    return refuse(fmt::format("the rows of the user's table of classes for {} disagree", ground));
  if (rows.front()->wind_class.front() != family_of(t, from.region))
    return refuse(fmt::format("the user's table gives class {} at {}, and region {} has {} classes",
                              rows.front()->wind_class, rows.front()->at, from.region, family_of(t, from.region)));
  return {rows.front()->wind_class, std::nullopt,
          fmt::format("The class was read from the user's table, {}: {}. It governs; its source: {}.", rows.front()->at,
                      ground, from.table->source),
          0};
}

// A letter alone stands for the part of the region that has no factor of its own.
static std::string region_of(const std::string& region) {
  return region == "A" || region == "B" ? region + '1' : region;
}
// By the gust of AS/NZS 1170.2 at the height that classes go by.
static ClassFound by_chain(const WindAsk& ask, Working* w) {
  const Table& t = ask.table;
  const ClassFrom& from = *asked(ask).from;
  const std::string at = asked(ask).at.empty() ? "the job's site" : asked(ask).at;
  const Marks marks = t.mark("class_chain") | t.mark("class_regions") | t.mark("class_shielding");
  const std::string region = region_of(from.region);
  const auto has_words = [&](std::string_view key, std::string_view name, const std::string& word) {
    return stands_among(t.text(key, name), word);
  };
  const auto unknown = [&](const std::string& what, std::string_view key) {
    return none_fits(t, from.region,
                     {"ground of the site", "only", t.source(key), value(0.0), value(1.0), what + " AS 4055"}, marks);
  };
  if (!has_words("class_regions", "N", from.region) && !has_words("class_regions", "C", from.region))
    return unknown(fmt::format("region {} is not one of", from.region), "class_regions");
  if (!has_words("class_chain", "terrains", from.terrain))
    return unknown(fmt::format("terrain {} is not one of", from.terrain), "class_chain");
  if (!t.entry("class_shielding").columns.contains(from.shielding))
    return unknown(fmt::format("shielding {} is not one of", from.shielding), "class_shielding");
  if (from.hill ? !as_nzs::can_be_a_hill(*from.hill) : from.topography != "flat")
    return unknown(fmt::format("topography {}, without a hill and its lengths, says nothing under", from.topography),
                   "hill");

  // In the region where more is asked for, that.
  const bool in_the_west = has_words("probability_west", "regions", region);
  const int years = static_cast<int>(t.number(in_the_west ? "probability_west" : "class_chain", "years"));
  const Length z = figure<Length>(w, t, "class_chain", "height", "z_c", "height that classes go by");
  const as_nzs::RegionalGust v = as_nzs::regional_gust(t, region, years, w ? t.source("class_chain") : at, "", w);
  const as_nzs::Multiplier factor = as_nzs::regional_factor(t, region, years, "", w);
  const double direction = figure<double>(w, t, "class_chain", "M_d", "M_d", "direction: the worst");
  const as_nzs::Multiplier ground = as_nzs::terrain_and_height(t, from.terrain, as("z_c", z), w);
  const bool too_steep = from.hill && as_nzs::too_steep_to_shield(t, *from.hill);
  const double shielding =
      too_steep
          ? given(w, "M_s", "nothing shields on ground that rises so steeply", 1.0, w ? t.source("shielding") : at)
          : figure<double>(w, t, "class_shielding", from.shielding, "M_s", "shielding of the class");
  const as_nzs::Multiplier hill = from.hill ? as_nzs::hill_shape(t, *from.hill, as("z_c", z), ",hill", w)
                                            : as_nzs::Multiplier{given(w, "M_t", "flat ground", 1.0, at), "M_t", "", 0};
  const Marks all =
      marks | (too_steep ? t.mark("shielding") : Marks{0}) | v.marks | factor.marks | ground.marks | hill.marks;
  const Speed gust = formulas::site_gust.told_as(
      w, "V_site", "gust at the site, at the height that classes go by", "AS/NZS 1170.2 cl. 2.2", as(v.symbol, v.value),
      as(factor.symbol, factor.value), as("M_d", direction), as(ground.symbol, ground.value), as("M_s", shielding),
      as(hill.symbol, hill.value));

  const std::vector<std::string> classes = classes_of(t, family_of(t, from.region));
  const auto stands = [&](const std::string& c) { return !(gust > t.get<Speed>(gust_key(c), "gust")); };
  const auto found = std::find_if(classes.begin(), classes.end(), stands);
  if (found == classes.end()) {
    const std::string strongest = gust_key(classes.back());
    return none_fits(t, from.region,
                     {"gust at the site, for the strongest wind class", "at most", t.source(strongest), value(gust),
                      value(t.get<Speed>(strongest, "gust"))},
                     all);
  }
  // Its gust is the greater of itself and the site's. The class below is told too: the site's gust exceeds it.
  Marks below = 0;
  if (found != classes.begin()) {
    const std::string& lighter = *std::prev(found);
    const std::string key = gust_key(lighter);
    figure<Speed>(w, t, key, "gust", w ? "V_" + lighter : std::string(),
                  w ? "gust of class " + lighter + ", which the site's gust exceeds" : std::string());
    below = t.mark(key);
  }
  if (w) {
    const std::string key = gust_key(*found), symbol = "V_" + *found;
    const Speed of_class = figure<Speed>(w, t, key, "gust", symbol, "gust of class " + *found);
    greatest<Speed>(w, "V", "gust at roof height: that of the lowest class which the site's gust does not exceed",
                    t.source(key), {as(symbol, of_class), as("V_site", gust)});
  }
  std::string says =
      "The class was worked out from the gust of AS/NZS 1170.2 at 6.5 m. The standard's own table may give "
      "another class, and governs.";
  if (from.hill) says += " Near a steep crest the house is taken to stand in the separation zone at its whole height.";
  if (in_the_west) says += fmt::format(" In region D the gust once in {} years is taken.", years);
  if (from.hill && from.hill->shape != HillShape::escarpment) says += " The hill is taken from the stated side alone.";
  if (too_steep) says += " Nothing shields on a slope that rises so steeply: M_s 1.0.";
  if (from.region == "B") says += " Region B is taken as B1; in B2 the class is one of cyclones.";
  return {*found, std::nullopt, std::move(says), all | below};
}

static ClassFound class_of(const WindAsk& ask, Working* w) {
  const ClassSite& site = asked(ask);
  if (!site.wind_class.empty())
    return {site.wind_class, std::nullopt,
            "The class is taken as given; it was not worked out from region, terrain, shielding and hills.", 0};
  if (!site.from) throw std::logic_error("a site by class states neither the class nor what it is worked out from");
  return site.from->table ? by_table(ask) : by_chain(ask, w);
}
std::optional<std::string> class_worked_out(const WindAsk& ask, Working* w) {
  if (w) w->heading("The wind");
  ClassFound c = class_of(ask, w);
  if (c.limit) return std::nullopt;
  return std::move(c.name);
}

// Of readings taken for a roof that is no plain gable.
static std::vector<std::string> roof_cautions(const Shape& s) {
  std::vector<std::string> all;
  const bool one_slope = s.roof == RoofShape::skillion || s.roof == RoofShape::flat;
  const auto has_gable = [&](Side side) { return !s.at(side).slopes || s.at(side).gable_above > zero<Length>(); };
  const auto mixed = [&](Side a, Side b) {
    return (has_gable(a) || has_gable(b)) && (s.at(a).slopes || s.at(b).slopes);
  };
  if (!one_slope && (mixed(Side::left, Side::right) || mixed(Side::front, Side::back)))
    all.emplace_back(
        "A gable governs the push on both ends of the house, whether it stands on an end wall or on a hip end.");
  if (one_slope && s.rise > zero<Length>())
    all.emplace_back(
        "Wind on to the low side of the single slope pushes it as an upright face: the leeward face is one, and that "
        "table never gives less.");
  return all;
}

static SiteWind site_of(const WindAsk& ask, const ClassFound& found, Working* w) {
  const Table& t = ask.table;
  const std::string key = gust_key(found.name);
  // A class that is worked out has told its gust already.
  const bool told = w && asked(ask).wind_class.empty() && !asked(ask).from->table && !found.limit;
  const Speed gust =
      figure<Speed>(told ? nullptr : w, t, key, "gust", "V", "gust at roof height that the class stands for");
  const Density air = figure<Density>(w, t, "air", "density", "rho", "density of air");
  const Pressure q = formulas::gust_pressure(w, air, gust);
  SiteWind s{
      .method = t.method,
      .edition = t.edition,
      .wind_class = found.limit ? "" : found.name,
      .given_by = asked(ask).given_by,
      .gust = gust,
      .q = q,
      .cyclonic = cyclonic(found.name),
      .cautions = {found.says,
                   "The class's net uplift is taken on eaves and verges as on the roof; pressure from below is not "
                   "added.",
                   "In Australia AS 5216 governs anchors in concrete: the sheets' capacities must be by it."},
      .says = found.limit ? "no class found" : "class " + found.name,
      .service_gust = t.get<Speed>("service", found.name),
      .marks = t.mark(key) | t.mark("air") | found.marks};
  for (std::string& what : roof_cautions(ask.shape)) s.cautions.push_back(std::move(what));
  if (ask.house.first)
    s.cautions.emplace_back(
        "The standard's racking tables for the lower of two storeys are not in hand: below mid-height of the first "
        "floor's walls the wind pushes the walls as it does without a roof, with the real heights.");
  for (const Side side : {Side::left, Side::front, Side::right, Side::back})
    s.faces[static_cast<std::size_t>(side)] = {side, gust, q, ""};
  for (const std::string_view c : {"combination", "roof_light_frame", "combination_down"})
    s.combinations.push_back({t.text(c, "name"), t.source(c), t.number(c, "dead"), t.number(c, "wind")});
  return s;
}

// The wind that the sums go by: where no class was found, that of the strongest.
static SiteWind wind_of_sums(const WindAsk& ask, Working* w) {
  if (w && !w->first("the wind")) w = nullptr;  // told already
  if (w) w->heading("The wind");
  return site_of(ask, class_of(ask, w), w);
}
SiteWind site(const WindAsk& ask, Working* w) {
  SiteWind s = wind_of_sums(ask, w);
  if (!s.wind_class.empty()) return s;
  // No class, no gust: that of the strongest class serves the sums alone.
  s.gust = zero<Speed>();
  s.q = zero<Pressure>();
  s.service_gust = std::nullopt;
  for (FaceWind& face : s.faces) face = {face.side, zero<Speed>(), zero<Pressure>(), ""};
  return s;
}

// ---- limits --------------------------------------------------------------------------------------------------------

static std::vector<Excess> limits_passed(const WindAsk& ask) {
  const Table& t = ask.table;
  const Shape& s = ask.shape;
  const std::string source = t.source("limits");
  std::vector<Excess> passed;
  const auto no_more = [&](std::string limit, auto has, auto greatest) {
    if (has > greatest) passed.push_back({std::move(limit), "at most", source, value(has), value(greatest)});
  };
  // Eaves up to 0.9 m do not count as width; what goes further does.
  const Length left_out = t.get<Length>("limits", "eaves_left_out");
  const auto past = [&](Side side) { return std::max(zero<Length>(), s.at(side).overhang - left_out); };
  const Length over_across = s.across + (past(Side::left) + past(Side::right)),
               over_up = s.up + (past(Side::front) + past(Side::back));
  const bool across = s.ridge == Along::across;
  const Length over_span = across ? over_up : over_across, over_length = across ? over_across : over_up;
  const Length width = std::min(over_span, over_length), length = std::max(over_span, over_length);
  no_more("height to the underside of the eaves", s.eaves_height, t.get<Length>("limits", "eaves"));
  no_more("height to the top of the roof", s.top, t.get<Length>("limits", "top"));
  no_more("width", width, t.get<Length>("limits", "width"));
  no_more("length, as widths", static_cast<double>(length / width), t.number("limits", "length_to_width"));
  Angle steepest = s.pitch;
  for (const RoofSide& side : s.sides) steepest = std::max(steepest, side.pitch);
  no_more("roof pitch", steepest, t.get<Angle>("limits", "pitch"));
  const double level = t.number("importance", "level"), has = ask.house.importance;
  if (has < level || has > level)
    passed.push_back({"importance level", "only", t.source("importance"), value(has), value(level)});
  return passed;
}

// ---- racking -------------------------------------------------------------------------------------------------------

// A slope's coefficient by pitch and h/d. The last column stands for steeper roofs.
static double slope_coefficient(const Table& t, std::string_view key, const std::string& symbol, const As<Angle>& slope,
                                double ratio, Working* w) {
  const Angle pitch = slope.quantity;
  const auto& pitches = t.column(key, "pitch");
  const auto& ratios = t.column(key, "h_d");
  const Place column = place_among(pitches, std::max(pitch, quantity<Angle>(pitches.front())));
  const Place row = place_among(ratios, ratio);
  const auto in_row = [&](std::size_t r, const std::string& own) {
    const std::string name = fmt::format("row_{}", r + 1);
    const auto at = [&](std::size_t c, const std::string& as_symbol) {
      return figure<double>(w, t, key, name, as_symbol,
                            fmt::format("for h/d {} and the pitch of that column", ratios[r].si), c);
    };
    if (!column.between) return at(column.low, own);
    const std::string n1 = own + 'l', n2 = own + 'r', t1 = symbol + ",theta_1", t2 = symbol + ",theta_2";
    const double c1 = at(column.low, n1), c2 = at(column.low + 1, n2);
    const Angle a1 = figure<Angle>(w, t, key, "pitch", t1, "column below the pitch", column.low);
    const Angle a2 = figure<Angle>(w, t, key, "pitch", t2, "column above the pitch", column.low + 1);
    return formulas::linear_in_pitch.told(w, own, "linear between columns", as(n1, c1), as(n2, c2), slope, as(t1, a1),
                                          as(t2, a2));
  };
  if (!row.between) return in_row(row.low, symbol);
  const std::string own_below = fmt::format("{},{}", symbol, row.low + 1),
                    own_above = fmt::format("{},{}", symbol, row.low + 2);
  const double below = in_row(row.low, own_below), above = in_row(row.low + 1, own_above);
  const std::string n1 = symbol + ",n_1", n2 = symbol + ",n_2";
  const double r1 = figure<double>(w, t, key, "h_d", n1, "row below h/d", row.low);
  const double r2 = figure<double>(w, t, key, "h_d", n2, "row above h/d", row.low + 1);
  return formulas::linear_in_height.told(w, symbol, "linear between rows", as(own_below, below), as(own_above, above),
                                         ratio, as(n1, r1), as(n2, r2));
}

// Of the slope beyond the ridge. Where it has a pitch of its own, the harder pull of those by its pitch and by that of
// the slope in front: the tables know one pitch.
static double downwind_coefficient(const Table& t, const SlopingFace& face, double ratio, Working* w) {
  const As<Angle> own = as(face.pitch_symbol, face.pitch);
  if (!face.beyond) return slope_coefficient(t, face.downwind, "C_dn", own, ratio, w);
  const double by_own = slope_coefficient(t, face.downwind, "C_dn,1", own, ratio, w);
  const double by_beyond =
      slope_coefficient(t, face.downwind, "C_dn,2", as(face.beyond_symbol, *face.beyond), ratio, w);
  return least<double>(w, "C_dn", "downwind slope: the harder pull of those by either slope's pitch",
                       w ? t.source(face.downwind) : std::string(), {as("C_dn,1", by_own), as("C_dn,2", by_beyond)});
}

// What both slopes together add, for eaves of that height.
static double roof_coefficient(const Table& t, const SlopingFace& face, Length eaves, Working* w) {
  const Angle least_pitch = t.get<Angle>("racking_roof", "none_below");
  const bool steeper_beyond = face.beyond && *face.beyond > face.pitch;
  const As<Angle> pitch = as(face.pitch_symbol, face.pitch),
                  steeper = steeper_beyond ? as(face.beyond_symbol, *face.beyond) : pitch;
  const Length height = formulas::half_rise_above(w, as("h_e", eaves), as("r", face.rise));
  const double ratio = formulas::height_to_depth(w, height, as(face.depth_symbol, face.depth));
  const double up = slope_coefficient(t, "upwind", "C_up", pitch, ratio, w);
  const double down = downwind_coefficient(t, face, ratio, w);
  const double together =
      figure<double>(w, t, "racking_roof", "surfaces", "k", "factor for two surfaces that are loaded at once");
  const Angle first = quantity<Angle>(t.column("upwind", "pitch").front());
  if (!(steeper.quantity < first)) return formulas::slopes_together(w, together, up, down);
  const double at_first = formulas::slopes_together.told(w, "C_r,1", "AS/NZS 1170.2 cl. 5.4", together, up, down);
  figure<Angle>(w, t, "racking_roof", "none_below", "theta_0", "pitch up to which the roof adds nothing");
  figure<Angle>(w, t, "upwind", "pitch", "theta_1", "first column of the table");
  return formulas::low_pitch_share(w, as("C_r,1", at_first), steeper, as("theta_0", least_pitch), as("theta_1", first));
}

Pressure racking_under_slope(const Table& t, const SlopingFace& face, Working* w, std::string_view symbol) {
  const double wall = figure<double>(w, t, "racking_wall", "wall", "C_w", "both walls together, push and pull");
  double roof = 0.0;
  if (std::max(face.pitch, face.beyond.value_or(face.pitch)) > t.get<Angle>("racking_roof", "none_below")) {
    const Length highest = t.get<Length>("racking_roof", "highest_eaves");
    // The tables go by eaves no higher than that. Higher ones may be pushed more or less than the tables say: the
    // worse.
    const bool by_own_height = face.eaves > highest && roof_coefficient(t, face, face.eaves, nullptr) >
                                                           roof_coefficient(t, face, highest, nullptr);
    if (by_own_height)
      given(w, "h_e", "height of the eaves: their own, for which the roof is pushed more than for that of the tables",
            face.eaves, "the safe one");
    else if (w)
      least<Length>(w, "h_e", "height of the eaves: the lesser of their own and that of the tables",
                    t.source("racking_roof"),
                    {as("h_u", face.eaves), as("h_4", figure<Length>(w, t, "racking_roof", "highest_eaves", "h_4",
                                                                     "height of eaves that the tables go by"))});
    roof = roof_coefficient(t, face, by_own_height ? face.eaves : std::min(face.eaves, highest), w);
  } else if (w) {
    given(w, "C_r", "the roof adds nothing at this pitch", roof, t.source("racking_roof"));
  }
  return formulas::racking_pressure.told(w, symbol, t.source("racking_wall"), face.q, wall, face.half_wall, roof,
                                         face.roof_over_breadth);
}

// Eaves that hang below the wall's top are left out of the roof's part.
static Polygon above(const Polygon& g, Length up) { return between_y(g, up, everywhere); }

static Side facing(Side side) { return side_facing(opposite(outward(side))); }
static bool slopes_to_the_bearings(const RoofSide& side) { return side.slopes && !(side.gable_above > zero<Length>()); }
// Whether a face is one under a sloping roof: a slope falls to it, another to the wall behind. A gable at either end
// governs both, whether it stands on the wall or on a hip end; the low side of a single slope, with an upright face as
// high behind it, and the sides of a flat roof are taken as upright too. The table of upright faces never gives less.
static bool under_a_slope(const Shape& s, Side face) {
  return slopes_to_the_bearings(s.at(face)) && slopes_to_the_bearings(s.at(facing(face)));
}
// A side round the corner: its length is the depth of the plan behind a face.
static Side beside(Side face) { return is_across(outward(face)) ? Side::front : Side::left; }
static bool is_end(const Shape& s, Side face) { return is_across(outward(face)) == (s.ridge == Along::across); }
// Two slopes of one pitch and overhang between two gables of one verge.
static bool plain_gable(const Shape& s) {
  const auto alike = [&](Side side) {
    const RoofSide &a = s.at(side), &b = s.at(facing(side));
    return a.slopes == b.slopes && a.pitch == b.pitch && a.overhang == b.overhang;
  };
  return s.roof == RoofShape::gable && alike(Side::left) && alike(Side::front);
}

// Of a face on to which the wind blows: the parts that it pushes.
// A single slope's high side is pushed on all that the low side shows, the overhangs at its ends too.
static std::vector<Polygon> pushed_parts(const Shape& s, Side face, ElevationPart part) {
  const bool high = (s.roof == RoofShape::skillion || s.roof == RoofShape::flat) && face == s.high;
  if (high && part == ElevationPart::gable) return {};
  if (high && part == ElevationPart::roof) return pushed_parts(s, facing(face), part);
  std::vector<Polygon> all;
  for (const Elevation& e : s.elevations) {
    if (e.side != face || e.part != part) continue;
    Polygon g = part == ElevationPart::roof ? above(e.outline, s.wall_height) : e.outline;
    if (!g.empty()) all.push_back(std::move(g));
  }
  return all;
}
static Length highest_of(const std::vector<Polygon>& parts, Length least) {
  for (const Polygon& g : parts)
    for (const Point& p : g) least = std::max(least, p.y);
  return least;
}
static std::string_view downwind_key(const Shape& s, Side face) {
  // The figures of hip ends are for faces no broader than the plan is deep.
  const bool narrow = is_end(s, face) && !(length_of(s, face) > length_of(s, beside(face)));
  return narrow ? "downwind_hip" : "downwind_side";
}

// Of the walls under the roof: what the top floor's racking takes of them.
static Length upper_half(Working* w, const WindAsk& ask) {
  if (!ask.house.first) return formulas::half_wall(w, top_walls_of(ask));
  return formulas::half_wall.told_as(w, "h_0", "upper half of the first floor's walls: what lies below is pushed alone",
                                     formulas::half_wall.source, top_walls_of(ask));
}
static SlopingFace plain_long_side(const WindAsk& ask, Pressure q, Working* w) {
  const Shape& s = ask.shape;
  tell_measures(w, ask);
  const Length length = given(w, "L", "length of the face", s.length, "the job's block");
  const Length verge = given(w, "v", "verge", s.verge, "the job's roof");
  const Length overhang = given(w, "e", "eaves, on plan", s.eaves, "the job's roof");
  const Length under = formulas::underside_of_eaves(w, s.floor_level, walls_of(ask), overhang, s.pitch);
  const Length half = upper_half(w, ask);
  const Area roof = formulas::roof_elevation(w, s.rise, length, verge);
  const Length over_breadth = formulas::roof_over_breadth(w, roof, as("L", length));
  return {.q = q,
          .half_wall = half,
          .roof_over_breadth = over_breadth,
          .eaves = under,
          .rise = s.rise,
          .depth = s.span,
          .pitch = s.pitch,
          .downwind = "downwind_side"};
}
static bool pushes_more(const Table& t, SlopingFace face, Length depth) {
  const Pressure before = racking_under_slope(t, face, nullptr, "");
  face.depth = depth;
  return racking_under_slope(t, face, nullptr, "") > before;
}
// Any face under a sloping roof, by what is seen of it. The tables of hip ends go by the breadth of the face alone; the
// plan's depth along the wind may push more: the one that does is taken.
static SlopingFace sloping_face(const WindAsk& ask, Side face, Pressure q, Working* w) {
  const Shape& s = ask.shape;
  const Table& t = ask.table;
  const std::string_view block = "the job's block", job = "the job's roof", seen = "geometry";
  const RoofSide &own = s.at(face), &other = s.at(facing(face));
  const std::vector<Polygon> parts = pushed_parts(s, face, ElevationPart::roof);
  const Length floor = given(w, "f", "floor above ground", s.floor_level, block);
  const As<Length> wall = tell_walls(w, ask);
  const As<Angle> pitch = pitch_of(ask, face), beyond = pitch_of(ask, facing(face));
  given(w, pitch.name, "pitch of the slope that falls to this face", pitch.quantity, job);
  const bool uneven = other.pitch != own.pitch;
  if (uneven) given(w, beyond.name, "pitch of the slope beyond", beyond.quantity, job);
  const Length breadth = given(w, "L", "length of the face", length_of(s, face), block);
  const Length overhang = given(w, "e", "eaves, on plan", own.overhang, job);
  const Length under = formulas::underside_of_eaves(w, floor, wall, overhang, pitch);
  const Length half = upper_half(w, ask);
  const Length rise = given(w, "r", "rise of the roof above the bearings, as seen on this face",
                            highest_of(parts, s.wall_height) - s.wall_height, seen);
  Area sum = zero<Area>();
  for (const Polygon& g : parts) sum += area(g);
  const Area roof = given(w, "A_r", "roof as seen square on above the top of the wall", sum, seen);
  SlopingFace at{.q = q,
                 .half_wall = half,
                 .roof_over_breadth = formulas::roof_over_breadth(w, roof, as("L", breadth)),
                 .eaves = under,
                 .rise = rise,
                 .depth = length_of(s, beside(face)),
                 .pitch = own.pitch,
                 .downwind = downwind_key(s, face),
                 .beyond = uneven ? std::optional<Angle>(other.pitch) : std::nullopt,
                 .pitch_symbol = pitch.name,
                 .beyond_symbol = beyond.name,
                 .depth_symbol = "d_w"};
  const Length whole = is_across(outward(face)) ? s.whole_across : s.whole_up;
  const bool by_whole = whole > at.depth && pushes_more(t, at, whole);
  if (by_whole) at.depth = whole;
  bool by_breadth = false;
  if (is_end(s, face)) {
    by_breadth = pushes_more(t, at, breadth);
    if (by_breadth) at.depth = breadth;
  }
  given(w, at.depth_symbol,
        by_breadth ? "depth of the plan: the face's breadth, which pushes more"
        : by_whole ? "depth of the plan along the wind: of the whole house, which pushes more"
                   : "depth of the plan along the wind",
        at.depth, block);
  return at;
}

// On the walls of a house of two floors below mid-height of the first floor's, under a sloping roof: they hand it to
// the ground floor's bracing, and the roof's share stands with the part above. So the force from mid-height of the
// ground floor's walls up is that of the whole area of elevation there. Its part is set by the caller.
static Push push_below(const WindAsk& ask, Way towards, Pressure q, Working* w) {
  const double wall = figure<double>(w, ask.table, "racking_wall", "wall", "C_w", "both walls together, push and pull");
  const Pressure p = formulas::pressure_of.told_as(
      w, "p_below",
      "pressure on the walls below mid-height of the first floor's: coefficient times the gust's pressure",
      w ? ask.table.source("racking_wall") : std::string(), as("C_w", wall), q);
  return {towards, {}, p, "below", "wall below mid-height of the first floor's", Acts::on_both_faces};
}
static std::vector<Push> racking_pushes(const WindAsk& ask, Way towards, Pressure q, Working* w) {
  const Shape& s = ask.shape;
  const Table& t = ask.table;
  const Side face = windward(towards);
  const std::string label = "push";
  // Of a house of two floors: where the wind on the wall no longer stands beside that on the roof.
  std::optional<Push> below;
  Pressure p = zero<Pressure>(), low = zero<Pressure>();
  if (!under_a_slope(s, face)) {
    const bool end_walls = s.roof == RoofShape::gable;
    const double wall = figure<double>(
        w, t, "racking_gable", "wall", "C_w",
        end_walls ? "both end walls together, push and pull" : "both upright faces together, push and pull");
    p = formulas::pressure_of.told_as(w, "p_" + label,
                                      end_walls ? "pressure on the end walls: coefficient times the gust's pressure"
                                                : "pressure on the face: coefficient times the gust's pressure",
                                      w ? t.source("racking_gable") : std::string(), as("C_w", wall), q);
  } else {
    const bool plain = plain_gable(s) && !(s.whole_across > zero<Length>());
    const SlopingFace at = plain ? plain_long_side(ask, q, w) : sloping_face(ask, face, q, w);
    p = racking_under_slope(t, at, w, "p_" + label);
    if (ask.house.first) below = push_below(ask, towards, q, w);
    else low = push_below(ask, towards, q, nullptr).p;
  }
  std::vector<Push> pushes;
  for (const ElevationPart part : {ElevationPart::wall, ElevationPart::gable, ElevationPart::roof})
    for (Polygon& g : pushed_parts(s, face, part)) {
      if (part == ElevationPart::wall && below) {
        pushes.push_back(*below);
        pushes.back().part = between_y(g, -everywhere, s.racking_from);
        g = above(g, s.racking_from);
      }
      pushes.push_back({towards, std::move(g), p, label, std::string(words(part)), Acts::on_both_faces});
      if (part == ElevationPart::wall) pushes.back().low = low;
    }
  return pushes;
}
static Marks racking_marks(const WindAsk& ask, Way towards) {
  const Table& t = ask.table;
  const Side face = windward(towards);
  if (!under_a_slope(ask.shape, face)) return t.mark("racking_gable");
  return t.mark("racking_wall") | t.mark("racking_roof") | t.mark("upwind") | t.mark(downwind_key(ask.shape, face));
}

// ---- load cases ----------------------------------------------------------------------------------------------------

// How the roof is lifted: the class's coefficient with the house shut or open, or the uplift figures of AS 1684; and
// how it is pressed. The class's own coefficients lift everywhere, so that what presses is a case of its own.
namespace {
struct Rule {
  std::string_view id, roof, wall, combination;
  std::string inside;
  bool presses = false;
};
}  // namespace
static std::vector<Rule> rules(const WindAsk& ask) {
  const bool open = has_an_open_side(ask);
  if (cyclonic(ask)) {
    const std::string inside = open ? "a door or opening stands open" : "openings may fail, as the class takes them";
    return {{"class", "roof_C", "wall_C", "combination", inside},
            {"frame", "roof_light_frame", "wall_C", "roof_light_frame", inside},
            {"press", "roof_down_C", "wall_C", "combination", inside, true}};
  }
  std::vector<Rule> all{{"class", "roof_N", "wall_N", "combination", "shut"}};
  if (open) all.push_back({"open", "roof_C", "wall_C", "combination", "a door or opening stands open"});
  all.push_back({"frame", "roof_light_frame", open ? "wall_C" : "wall_N", "roof_light_frame",
                 open ? "a door or opening stands open" : "shut"});
  all.push_back({"press", open ? "roof_down_C" : "roof_down_N", open ? "wall_C" : "wall_N", "combination",
                 open ? "a door or opening stands open" : "shut", true});
  return all;
}
static Combination combination_of(const Table& t, std::string_view key) {
  return {t.text(key, "name"), t.source(key), t.number(key, "dead"), t.number(key, "wind")};
}
static Layout one_layout(const Shape& s) {
  Layout layout{"whole roof", {}};
  for (std::size_t i = 0; i < s.surfaces.size(); ++i)
    layout.zones.push_back({i, s.surfaces[i].outline, s.surfaces[i].part == Part::soffit ? "soffit" : "roof"});
  return layout;
}

// wind: that of the site; its marks are in every part of the case.
static LoadCase load_case(const WindAsk& ask, const Layout& layout, Way towards, const Rule& rule, const SiteWind& wind,
                          Working* w) {
  const Table& t = ask.table;
  const Pressure q = wind.q;
  const std::string side(words(windward(towards)));
  if (w) w->heading("The pressures");
  const std::string roof_key(rule.roof), wall_key(rule.wall);
  const double roof_net = figure<double>(w, t, roof_key, "net", "C_roof",
                                         rule.presses ? "what presses on the roof, inside and outside together"
                                                      : "net uplift of the roof, inside and outside together");
  const Pressure roof =
      formulas::pressure_of.told_as(w, "p_roof", "pressure on the roof: coefficient times the gust's pressure",
                                    w ? t.source(roof_key) : std::string(), as("C_roof", roof_net), q);
  const Pressure soffit = given(w, "p_soffit", "under the eaves: the roof's coefficient stands for both faces",
                                zero<Pressure>(), w ? t.source(roof_key) : std::string());
  const double wall_net =
      figure<double>(w, t, wall_key, "net", "C_wall", "net pressure on a wall, inside and outside together");
  const Pressure wall =
      formulas::pressure_of.told_as(w, "p_sq,wall", "pressure square on a wall: coefficient times the gust's pressure",
                                    w ? t.source(wall_key) : std::string(), as("C_wall", wall_net), q);

  const std::string_view combination = rule.combination;
  const Marks gust = wind.marks | t.mark(combination);
  LoadCase c{.id = fmt::format("{} {}", side, rule.id),
             .wind = "onto the " + side,
             .inside = rule.inside,
             .combination = combination_of(t, combination),
             .layout = 0,
             .net = {},
             .push = {},
             .square_on = {},
             .marks = 0,
             .marks_net = gust | t.mark(roof_key),
             .marks_push = gust | racking_marks(ask, towards),
             .marks_square_on = gust | t.mark(wall_key)};
  c.marks = c.marks_net | c.marks_push | c.marks_square_on;
  for (const Zone& zone : layout.zones) c.net.push_back(zone.label == "soffit" ? soffit : roof);
  // The cases that lift push on the walls as hard.
  if (rule.presses) {
    c.down = combination_of(t, "combination_down");
    c.marks_down = t.mark("combination_down");
    return c;
  }
  c.push = racking_pushes(ask, towards, q, w);
  for (const Side s : {Side::left, Side::front, Side::right, Side::back}) {
    const Length length = is_across(outward(s)) ? ask.shape.up : ask.shape.across;
    c.square_on.push_back({s, zero<Length>(), length, wall, "wall"});
  }
  return c;
}

// Once the class stands.
static Loads loads_of(const WindAsk& ask, const SiteWind& wind, Working* w, std::optional<std::size_t> tell) {
  Loads all{.basis = Basis::limit_state, .layouts = {one_layout(ask.shape)}, .cases = {}, .excess = limits_passed(ask)};
  press_on_floors(all, ask.table, {"combination_floor"});
  const std::vector<Rule> all_rules = rules(ask);
  all.cases.reserve(4 * all_rules.size());
  for (const Way towards : {Way::right, Way::back, Way::left, Way::front})
    for (const Rule& rule : all_rules)
      all.cases.push_back(
          load_case(ask, all.layouts.front(), towards, rule, wind, tell == all.cases.size() ? w : nullptr));
  return all;
}
Loads loads(const WindAsk& ask, Working* w, std::optional<std::size_t> tell) {
  if (!asked(ask).wind_class.empty()) return loads_of(ask, wind_of_sums(ask, w), w, tell);
  const ClassFound found = class_of(ask, nullptr);
  const SiteWind wind = wind_of_sums(ask, w);
  ClassSite classed = asked(ask);
  classed.wind_class = found.name;
  const SiteAsk as_classed{std::move(classed)};
  Loads all = loads_of({as_classed, ask.house, ask.shape, ask.table}, wind, w, tell);
  if (found.limit) all.excess.insert(all.excess.begin(), *found.limit);
  return all;
}

LineSpacing line_spacing(const WindAsk& ask) {
  const Length light = ask.table.get<Length>("line_spacing", "greatest");
  const std::string source = ask.table.source("line_spacing");
  if (stands_among(ask.table.text("line_spacing", "classes"), class_of(ask, nullptr).name))
    return {light, light, source, ask.table.mark("line_spacing")};
  // The table of spacings for stronger winds is not in hand; it cannot allow more than that of lighter winds.
  return {std::nullopt, light, source, ask.table.mark("line_spacing")};
}

}  // namespace belay::as4055
