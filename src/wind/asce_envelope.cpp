// Low-rise buildings by the envelope procedure of ASCE 7. Everything is laid out once, for wind along +x onto the
// corner at the origin; the eight frames of the plan give the four ways and the two corners of each. Load case A stands
// where the ridge lies across the wind, B where it lies along it. Zones 2 and 2E are taken to the ridge (the safe
// reading).
#include "wind/formulas.hpp"
#include "wind/methods.hpp"
#include <algorithm>
#include <array>
#include <map>

namespace belay::asce_envelope {

static const AsceSite& asked(const WindAsk& ask) { return std::get<AsceSite>(ask.site); }

// ---- the pressure of the gust --------------------------------------------------------------------------------------

// Height for the coefficients: half-way up the roof; at low pitch the top of the walls.
static Length mean_height(const WindAsk& ask, Working* w) {
  const Shape& s = ask.shape;
  tell_measures(w, s);
  const bool low = s.pitch <= ask.table.get<Angle>("mean_height", "low_pitch");
  return low ? formulas::top_of_walls(w, s.floor_level, s.wall_height)
             : formulas::half_way_up(w, s.floor_level, s.wall_height, s.rise);
}

static double exposure(const WindAsk& ask, Length h, Working* w) {
  const Table& t = ask.table;
  const std::string key = "exposure_" + asked(ask).exposure;
  const Length lowest = figure<Length>(w, t, "height_factor", "lowest", "z_0", "least height for the exposure factor");
  const Length z = greatest<Length>(w, "z", "height for the exposure factor",
                                    w ? t.source("height_factor") : std::string(), {as("h", h), as("z_0", lowest)});
  const Length gradient = figure<Length>(w, t, key, "z_g", "z_g", "gradient height of the exposure");
  const double alpha = figure<double>(w, t, key, "alpha", "alpha", "power of the exposure");
  const double factor = figure<double>(w, t, "height_factor", "factor", "k", "factor of the formula");
  const double ratio = formulas::height_over_gradient(w, z, gradient);
  const double by_formula = formulas::exposure_factor(w, factor, ratio, alpha);
  std::vector<As<double>> candidates{as("K_f", by_formula)};
  if (t.entry(key).columns.contains("least"))
    candidates.push_back(
        as("K_low", figure<double>(w, t, key, "least", "K_low", "least factor for low buildings in this exposure")));
  return greatest<double>(w, "K_h", "exposure factor at mean roof height", w ? t.source(key) : std::string(),
                          candidates);
}

static Pressure velocity(const WindAsk& ask, Length h, Working* w) {
  const Table& t = ask.table;
  const AsceSite& site = asked(ask);
  const Speed v = given(w, "V", "speed of the gust", site.speed, site.at);
  const double kh = exposure(ask, h, w);
  const Density c = figure<Density>(w, t, "velocity", "constant", "c", "half the density of air");
  const double kzt = figure<double>(w, t, "topography", "K_zt", "K_zt", "hills: flat ground");
  const double kd =
      figure<double>(w, t, "directionality", "K_d", "K_d", "the worst wind seldom comes from the worst way");
  const std::string source = w ? t.source("velocity") : std::string();
  const std::string& form = t.text("velocity", "form");
  if (form == "with importance") {
    const double importance = figure<double>(w, t, "importance", site.risk, "I", "importance of the building");
    return formulas::velocity_pressure_importance.told(w, "q_h", source, c, kh, kzt, kd, v, importance);
  }
  if (form == "with ground height") {
    const double ground = figure<double>(w, t, "ground", "K_e", "K_e", "height of the ground above the sea");
    return formulas::velocity_pressure_ground.told(w, "q_h", source, c, kh, kzt, kd, ground, v);
  }
  return formulas::velocity_pressure.told(w, "q_h", source, c, kh, kzt, kd, v);
}

SiteWind site(const WindAsk& ask, Working* w) {
  const AsceSite& stated = asked(ask);
  if (w && !w->first("the wind")) w = nullptr;  // told already
  if (w) w->heading("The wind");
  const Length h = mean_height(ask, w);
  const Pressure q = velocity(ask, h, w);
  std::vector<std::string> cautions{"The ground is taken as flat: no hill, ridge or escarpment."};
  if (ask.table.edition == "7-05")
    cautions.push_back(
        "ASCE 7-05 is superseded. Wind along the ridge is taken by its layout and by that of later editions.");
  return {.method = ask.table.method,
          .edition = ask.table.edition,
          .wind_class = "",
          .given_by = stated.given_by,
          .gust = stated.speed,
          .q = q,
          .cyclonic = false,
          .cautions = std::move(cautions)};
}

// ---- openings ------------------------------------------------------------------------------------------------------

static bool rated_for_speed(const std::string& rating, Speed speed) {
  std::string why;
  const auto stated = parse_quantity(rating, Kind::speed, why);
  return stated && quantity<Speed>(*stated) >= speed;
}

// May stand open when the wind comes: a wide door that is not known to stand it, or in a debris region anything that is
// not known to stand what the storm carries. Where the job does not say whether it is such a region, the speed decides.
static bool doubtful(const Opening& o, const WindAsk& ask) {
  const AsceSite& site = asked(ask);
  const bool debris = site.debris_region.value_or(site.speed >= ask.table.get<Speed>("debris", "speed"));
  const bool wide_door = o.door && o.width >= ask.table.get<Length>("wide_door", "width");
  if (debris && !o.impact_rated) return true;
  // What the job itself calls too weak, or not known, is open however narrow it is.
  const bool doubted = o.wind_rated.has_value() || wide_door;
  return doubted && falls_short(o.wind_rated, [&](const std::string& r) { return rated_for_speed(r, site.speed); });
}

namespace {
struct Face {
  Area gross, stated_open, may_be_open;
};
}  // namespace
static Face face(const WindAsk& ask, Side side) {
  Face f{zero<Area>(), zero<Area>(), zero<Area>()};
  for (const Elevation& e : ask.shape.elevations)
    if (e.side == side && e.part != ElevationPart::roof) f.gross += area(e.outline);
  for (const Wall& wall : ask.house.walls) {
    if (!wall.outside || wall.side != side) continue;
    for (const Piece& piece : wall.pieces) {
      if (!piece.opening) continue;
      const Opening& o = *piece.opening;
      const Area size = o.height * o.width;
      if (o.stands_open) f.stated_open += size;
      if (o.stands_open || doubtful(o, ask)) f.may_be_open += size;
    }
  }
  return f;
}
static Area roof_on_slope(const Shape& s) { return s.span * s.length / cosine(s.pitch); }

bool partially_enclosed(const WindAsk& ask) {
  const Table& t = ask.table;
  constexpr std::array sides{Side::left, Side::front, Side::right, Side::back};
  const double of_others = t.number("partial_rule", "of_the_others"), of_wall = t.number("partial_rule", "of_the_wall");
  const double elsewhere = t.number("partial_rule", "most_elsewhere");
  const Area least_area = t.get<Area>("partial_rule", "least_area");
  for (const Side side : sides) {
    const Face wall = face(ask, side);
    Area others_open = zero<Area>(), others_gross = roof_on_slope(ask.shape);
    for (const Side other : sides) {
      if (other == side) continue;
      const Face f = face(ask, other);
      others_open += f.stated_open;
      others_gross += f.gross;
    }
    const bool more_than_elsewhere = wall.may_be_open > of_others * others_open;
    const bool large = wall.may_be_open > std::min(least_area, of_wall * wall.gross);
    if (more_than_elsewhere && large && others_open <= elsewhere * others_gross) return true;
  }
  return false;
}

// ---- coefficients --------------------------------------------------------------------------------------------------

static std::string key_of(char load_case) { return load_case == 'B' ? "case_B" : "case_A"; }

// What a figure gives, as read: one column's coefficient, or those of the columns on both sides, which are brought
// together afterwards. Reading comes first, so that a working shows all that is read in one block.
namespace {
template <class Q> struct Columns {
  double low, high;
  Q here, at_low, at_high;
  bool between;
};
}  // namespace
static Columns<Angle> read_coefficient(const Table& t, char load_case, const std::string& zone, Angle pitch,
                                       Working* w) {
  const std::string key = key_of(load_case), column = "z" + zone, symbol = "GC_pf," + zone;
  const std::string words = "coefficient of zone " + zone +
                            (load_case == 'F' ? ", as on a flat roof" : std::string(", load case ") + load_case);
  if (load_case == 'F') pitch = t.get<Angle>("along_ridge", "pitch");
  const auto one = [&](double c) { return Columns<Angle>{c, c, pitch, pitch, pitch, false}; };
  if (load_case == 'B') return one(figure<double>(w, t, key, column, symbol, words));
  const auto& pitches = t.column(key, "pitch");
  const Place place = place_among(pitches, std::max(pitch, quantity<Angle>(pitches.front())));
  if (!place.between) return one(figure<double>(w, t, key, column, symbol, words, place.low));
  const double c1 = figure<double>(w, t, key, column, symbol + ",1", words + ", column below the pitch", place.low);
  const double c2 = figure<double>(w, t, key, column, symbol + ",2", words + ", column above the pitch", place.low + 1);
  const Angle t1 = figure<Angle>(w, t, key, "pitch", "theta_1", "column below the pitch", place.low);
  const Angle t2 = figure<Angle>(w, t, key, "pitch", "theta_2", "column above the pitch", place.low + 1);
  return {c1, c2, pitch, t1, t2, true};
}
static double between_columns(const Columns<Angle>& read, const std::string& zone, Working* w) {
  if (!read.between) return read.low;
  const std::string symbol = "GC_pf," + zone;
  return formulas::linear_in_pitch.told_as(
      w, symbol, "coefficient of zone " + zone + " between two columns, by the pitch", "linear between columns",
      as(symbol + ",1", read.low), as(symbol + ",2", read.high), read.here, as("theta_1", read.at_low),
      as("theta_2", read.at_high));
}

double coefficient(const Table& t, char load_case, const std::string& zone, Angle pitch, Working* w) {
  return between_columns(read_coefficient(t, load_case, zone, pitch, w), zone, w);
}

static std::string wall_words(std::string_view column) {
  return column == "inward" ? "net coefficient of a wall that is pushed in"
                            : fmt::format("net coefficient of a wall that is pulled out, zone {}", column.back());
}
static Columns<Area> read_wall(const Table& t, std::string_view column, Area effective, Working* w,
                               std::string_view symbol) {
  const auto& areas = t.column("wall", "area");
  const std::string own(symbol), words = wall_words(column);
  const Place place = place_among(areas, effective);
  if (!place.between) {
    const double c = figure<double>(w, t, "wall", column, symbol, words, place.low);
    return {c, c, effective, effective, effective, false};
  }
  const double c1 = figure<double>(w, t, "wall", column, own + ",1", words + ", for the small area", place.low);
  const double c2 = figure<double>(w, t, "wall", column, own + ",2", words + ", for the large area", place.low + 1);
  const Area a1 = figure<Area>(w, t, "wall", "area", "A_1", "small area of the figure", place.low);
  const Area a2 = figure<Area>(w, t, "wall", "area", "A_2", "large area of the figure", place.low + 1);
  return {c1, c2, effective, a1, a2, true};
}
static double between_areas(const Table& t, const Columns<Area>& read, std::string_view column, Working* w,
                            std::string_view symbol) {
  if (!read.between) return read.low;
  const std::string own(symbol);
  Working* once = w && w->first("ratios of wall areas") ? w : nullptr;
  const double n = formulas::area_ratio.told_as(once, "n", "effective wind area over the small area of the figure",
                                                "geometry", as("A_e", read.here), as("A_1", read.at_low));
  const double n2 = formulas::area_ratio.told_as(once, "n_2", "large area of the figure over the small one", "geometry",
                                                 as("A_2", read.at_high), as("A_1", read.at_low));
  return formulas::logarithmic_in_area.told_as(
      w, symbol, w ? wall_words(column) + ": between two areas, by their logarithm" : std::string(),
      w ? t.source("wall") : std::string(), as(own + ",1", read.low), as(own + ",2", read.high), n, n2);
}
double wall_coefficient(const Table& t, std::string_view column, Area effective, Working* w, std::string_view symbol) {
  return between_areas(t, read_wall(t, column, effective, w, symbol), column, w, symbol);
}

Length end_zone(const Table& t, const Shape& s, Length h, Working* w) {
  const std::string source = w ? t.source("end_zone") : std::string();
  const Length across = given(w, "b_1", "plan across the sheet", s.across, "the job's block");
  const Length up = given(w, "b_2", "plan up the sheet", s.up, "the job's block");
  const Length plan = least<Length>(w, "b", "least plan dimension", "geometry", {as("b_1", across), as("b_2", up)});
  const double k1 = figure<double>(w, t, "end_zone", "of_plan", "k_1", "share of the plan");
  const double k2 = figure<double>(w, t, "end_zone", "of_height", "k_2", "share of the height");
  const double k3 = figure<double>(w, t, "end_zone", "least_of_plan", "k_3", "least share of the plan");
  const Length floor = figure<Length>(w, t, "end_zone", "least", "a_4", "least width");
  const Length by_plan = formulas::part_of_length.told(w, "a_1", source, as("k_1", k1), as("b", plan));
  const Length by_height = formulas::part_of_length.told(w, "a_2", source, as("k_2", k2), as("h", h));
  const Length least_by_plan = formulas::part_of_length.told(w, "a_3", source, as("k_3", k3), as("b", plan));
  const Length lesser =
      least<Length>(w, "a_0", "the lesser of the two", source, {as("a_1", by_plan), as("a_2", by_height)});
  return greatest<Length>(w, "a", "width of the end zone of a wall (of the roof: twice that)", source,
                          {as("a_0", lesser), as("a_3", least_by_plan), as("a_4", floor)});
}

// ---- the pressures of one load case --------------------------------------------------------------------------------

namespace {
// inside: its key in the table and its sign.
struct Inside {
  std::string_view key;
  double sign;
  std::string id, words;
};
struct Pressures {
  std::map<std::string, Pressure, std::less<>> outside, net;  // by zone; net: of roof zones over the house
  Pressure soffit, none, wall_middle, wall_end;
};
}  // namespace

static std::vector<std::string> zones_of(char load_case) {
  std::vector<std::string> zones{"1", "2", "3", "4", "1E", "2E", "3E", "4E"};
  if (load_case == 'B') zones.insert(zones.end(), {"5", "6", "5E", "6E"});
  return zones;
}
static bool on_roof(const std::string& zone) { return zone[0] == '2' || zone[0] == '3'; }

// Symbols: p_1, p_1E... on walls; p_2 net and p_2,o from outside alone on the roof; p_soffit under windward overhangs.
static Pressures pressures(const WindAsk& ask, char load_case, const Inside& inside, Pressure q, Working* w) {
  const Table& t = ask.table;
  const Shape& s = ask.shape;
  Pressures all{.outside = {},
                .net = {},
                .soffit = zero<Pressure>(),
                .none = zero<Pressure>(),
                .wall_middle = zero<Pressure>(),
                .wall_end = zero<Pressure>()};
  if (w) w->heading("The pressures");
  const auto source = [&](std::string_view key) { return w ? t.source(key) : std::string(); };
  // All that is read first, in one block.
  const double greatest_inside =
      figure<double>(w, t, inside.key, "GC_pi", "GC_pi,0", "coefficient of inside pressure, either way");
  const double ci = given(w, "GC_pi",
                          inside.sign > 0.0 ? "coefficient of inside pressure, pushing outwards"
                                            : "coefficient of inside pressure, sucking inwards",
                          inside.sign * greatest_inside, source(inside.key));
  std::map<std::string, Columns<Angle>> read;
  const std::vector<std::string> zones = zones_of(load_case);
  for (const std::string& zone : zones) read.emplace(zone, read_coefficient(t, load_case, zone, s.pitch, w));
  const double under =
      figure<double>(w, t, "soffit", "GC_p", "GC_p,soffit", "under the overhangs of the walls that the wind meets");
  all.none = given(w, "p_soffit,lee", "under the other overhangs: nothing", all.none, source("soffit"));
  // The bare sum: told below, once all has been read.
  const Area effective = formulas::effective_wind_area(nullptr, s.wall_height);
  const std::array<std::array<std::string, 2>, 3> columns{
      {{"inward", "GC_p,in"}, {"out4", "GC_p,out4"}, {"out5", "GC_p,out5"}}};
  std::map<std::string, Columns<Area>> walls;
  for (const auto& [column, symbol] : columns) walls.emplace(column, read_wall(t, column, effective, w, symbol));
  const Pressure least_on_wall = figure<Pressure>(w, t, "wall_minimum", "least", "p_least", "least pressure on a wall");

  const Pressure from_inside = formulas::inside_pressure.told(w, "p_i", source(inside.key), q, ci);
  const std::string case_source = source(key_of(load_case));
  for (const std::string& zone : zones) {
    const double c = between_columns(read.at(zone), zone, w);
    const std::string own = on_roof(zone) ? "p_" + zone + ",o" : "p_" + zone;
    const Pressure outside = formulas::outside_pressure.told_as(w, own, "pressure in zone " + zone + " from outside",
                                                                case_source, q, as("GC_pf," + zone, c));
    all.outside[zone] = outside;
    if (on_roof(zone))
      all.net[zone] =
          formulas::net_of_inside.told_as(w, "p_" + zone, "net pressure in zone " + zone + ": outside less inside",
                                          case_source, as(own, outside), as("p_i", from_inside));
  }
  all.soffit =
      formulas::outside_pressure.told_as(w, "p_soffit", "pressure from below on the overhangs that the wind meets",
                                         source("soffit"), q, as("GC_p,soffit", under));

  formulas::effective_wind_area.told(w, "A_e", source("wall"), s.wall_height);
  const double in = between_areas(t, walls.at("inward"), "inward", w, "GC_p,in");
  const Pressure pushed = formulas::pushed_in.told(w, "p_in", source("wall"), q, as("GC_p,in", in), ci);
  const auto square_on = [&](const std::string& zone) {
    const std::string symbol = "GC_p,out" + zone, out_symbol = "p_out" + zone, column = "out" + zone;
    const double out = between_areas(t, walls.at(column), column, w, symbol);
    const Pressure pulled = formulas::pulled_out.told_as(
        w, out_symbol, "pressure square on the wall, outwards, zone " + zone, source("wall"), q, ci, as(symbol, out));
    return greatest<Pressure>(
        w, "p_sq," + zone, "pressure square on the wall, zone " + zone + ": the greatest of in, out and least",
        source("wall"), {as("p_in", pushed), as(out_symbol, pulled), as("p_least", least_on_wall)});
  };
  all.wall_middle = square_on("4");
  all.wall_end = square_on("5");
  return all;
}

// ---- where the zones lie -------------------------------------------------------------------------------------------

static std::string load_cases_in(const Frame8& f, const Shape& s, const Table& t) {
  if (f.seen(s.ridge) == Along::up) return "A";
  const bool flat_too =
      std::any_of(t.entries.begin(), t.entries.end(), [](const Entry& e) { return e.key == "along_ridge"; });
  return flat_too ? "BF" : "B";
}

// Roof zones of a surface as the wind sees it: end strip 2a wide (A: along the wind, at the corner; B: across it, at
// the windward end), and windward or leeward half (A), or the half on the corner's side and the other (B). F is laid
// out as A.
static Layout roof_layout(const Shape& s, const Frame8& f, char load_case, Length a, std::string name) {
  Layout layout{std::move(name), {}};
  const bool halves_along_the_wind = load_case != 'B';
  const Length end = 2.0 * a, middle = 0.5 * (halves_along_the_wind ? f.across() : f.up());
  for (std::size_t i = 0; i < s.surfaces.size(); ++i) {
    const Surface& surface = s.surfaces[i];
    if (surface.part == Part::soffit) {
      const Way looks = f.seen(outward(surface.side));
      const bool met = looks == Way::left || looks == Way::front;
      layout.zones.push_back({i, surface.outline, met ? "soffit" : "soffit,lee"});
      continue;
    }
    const Polygon seen = f.seen(surface.outline);
    for (const bool first_half : {true, false})
      for (const bool at_end : {true, false}) {
        const Length h0 = first_half ? -everywhere : middle, h1 = first_half ? middle : everywhere;
        const Length e0 = at_end ? -everywhere : end, e1 = at_end ? end : everywhere;
        const Polygon part = halves_along_the_wind ? between_y(between_x(seen, h0, h1), e0, e1)
                                                   : between_x(between_y(seen, h0, h1), e0, e1);
        if (part.empty()) continue;
        std::string label = first_half ? "2" : "3";
        if (at_end) label += 'E';
        if (surface.part == Part::overhang) label += ",o";
        layout.zones.push_back({i, f.own(part), std::move(label)});
      }
  }
  return layout;
}
static std::string zone_of(const std::string& label) { return label.substr(0, label.find(',')); }

// The wall zone that a side is in, or "" where the load case gives it none (A, F: the walls along the wind).
static std::string wall_zone(char load_case, Way looks) {
  if (load_case != 'B') return looks == Way::left ? "1" : looks == Way::right ? "4" : "";
  switch (looks) {
    case Way::front: return "1";
    case Way::back: return "4";
    case Way::left: return "5";
    case Way::right: return "6";
  }
  return "";
}

// Parts of an elevation within the end zone and past it. The end zone starts at the end of the wall that lies at the
// wind's origin.
static std::array<Polygon, 2> at_end_and_past(const Shape& s, const Frame8& f, const Elevation& e, Length end) {
  const bool along_y = is_across(outward(e.side));
  const Length breadth = along_y ? s.up : s.across, none = zero<Length>();
  const auto place = [&](Length along) {
    const Point seen = f.seen(along_y ? Point{none, along} : Point{along, none});
    return is_across(f.seen(outward(e.side))) ? seen.y : seen.x;
  };
  const bool same_way = place(none) < place(breadth);
  if (same_way) return {between_x(e.outline, -everywhere, end), between_x(e.outline, end, everywhere)};
  return {between_x(e.outline, breadth - end, everywhere), between_x(e.outline, -everywhere, breadth - end)};
}

static std::vector<Push> wall_pushes(const Shape& s, const Frame8& f, char load_case, Length a, const Pressures& p) {
  std::vector<Push> pushes;
  for (const Elevation& e : s.elevations) {
    if (e.part == ElevationPart::roof) continue;
    const Way out = outward(e.side);
    const std::string zone = wall_zone(load_case, f.seen(out));
    if (zone.empty()) continue;
    const auto parts = at_end_and_past(s, f, e, 2.0 * a);
    for (const std::size_t i : {0U, 1U}) {
      const std::string label = i == 0 ? zone + 'E' : zone;
      if (!parts[i].empty())
        pushes.push_back(
            {opposite(out), parts[i], p.outside.at(label), label, fmt::format("{}, zone {}", words(e.part), label)});
    }
  }
  return pushes;
}

// The level part of the pressure on a slope: the pressure on the slope's vertical projection, from outside alone (what
// comes from inside meets itself on the other slope).
static Polygon upright(const Shape& s, const Surface& surface, const Polygon& plan) {
  Polygon g;
  for (const Point& p : plan)
    g.push_back({s.ridge == Along::across ? p.x : p.y, s.wall_height + height_at(surface, p)});
  if (area(g) < zero<Area>()) std::reverse(g.begin(), g.end());
  return g;
}
static std::vector<Push> roof_pushes(const Shape& s, const Layout& layout, const Pressures& p) {
  std::vector<Push> pushes;
  for (const Zone& z : layout.zones) {
    const Surface& surface = s.surfaces[z.surface];
    if (surface.part == Part::soffit) continue;
    Polygon part = upright(s, surface, z.part);
    if (!(area(part) > zero<Area>())) continue;
    const std::string zone = zone_of(z.label);
    pushes.push_back({opposite(surface.falls), std::move(part), p.outside.at(zone), zone + ",o", "roof, zone " + zone});
  }
  return pushes;
}

static std::vector<SquareOn> square_on(const Shape& s, Length a, const Pressures& p) {
  std::vector<SquareOn> all;
  for (const Side side : {Side::left, Side::front, Side::right, Side::back}) {
    const Length length = is_across(outward(side)) ? s.up : s.across, none = zero<Length>();
    const Length end = std::min(a, 0.5 * length);
    all.push_back({side, none, end, p.wall_end, "5"});
    if (end < length - end) all.push_back({side, end, length - end, p.wall_middle, "4"});
    all.push_back({side, length - end, length, p.wall_end, "5"});
  }
  return all;
}

static Pressure net(const Pressures& p, const std::string& label) {
  if (label == "soffit") return p.soffit;
  if (label == "soffit,lee") return p.none;
  return label.ends_with(",o") ? p.outside.at(zone_of(label)) : p.net.at(label);
}

// ---- all load cases ------------------------------------------------------------------------------------------------

static Combination combination(const WindAsk& ask) {
  const std::string& level = asked(ask).level;
  return {ask.table.text(level, "name"), ask.table.source(level), ask.table.number(level, "dead"),
          ask.table.number(level, "wind")};
}

static std::vector<Excess> limits_passed(const WindAsk& ask, Length h) {
  const Table& t = ask.table;
  const Shape& s = ask.shape;
  std::vector<Excess> passed;
  const auto no_more = [&](std::string limit, auto has, auto greatest) {
    if (has > greatest)
      passed.push_back({std::move(limit), "at most", t.source("limits"), value(has), value(greatest)});
  };
  no_more("mean roof height", h, t.get<Length>("limits", "height"));
  no_more("mean roof height, against the least plan dimension", h,
          t.number("limits", "height_to_width") * std::min(s.across, s.up));
  no_more("roof pitch", s.pitch, t.get<Angle>("limits", "pitch"));
  return passed;
}

static Marks common_marks(const WindAsk& ask) {
  const Table& t = ask.table;
  Marks m = t.mark("exposure_" + asked(ask).exposure) | t.mark(asked(ask).level);
  for (const std::string_view key :
       {"limits", "velocity", "directionality", "topography", "height_factor", "mean_height"})
    m |= t.mark(key);
  const std::string& form = t.text("velocity", "form");
  if (form == "with importance") m |= t.mark("importance");
  if (form == "with ground height") m |= t.mark("ground");
  return m;
}

// The least wind of the procedure: on what can be seen of the building from one side, the roof not lifted.
static LoadCase least_wind(const WindAsk& ask, Way towards, std::size_t layout, std::size_t zones, Working* w) {
  const Table& t = ask.table;
  const std::string side(words(windward(towards)));
  if (w) w->heading("The pressures");
  const Pressure wall =
      figure<Pressure>(w, t, "minimum", "wall", "p_least,wall", "least pressure on the walls that the wind sees");
  const Pressure roof =
      figure<Pressure>(w, t, "minimum", "roof", "p_least,roof", "least pressure on the roof's vertical projection");
  const Pressure still = given(w, "p_none", "the roof is not lifted in this case", zero<Pressure>(),
                               w ? t.source("minimum") : std::string());
  const Pressure square =
      figure<Pressure>(w, t, "wall_minimum", "least", "p_sq,least", "least pressure square on a wall");
  LoadCase c{.id = side + " least",
             .wind = "onto the " + side + ", least wind",
             .inside = "any",
             .combination = combination(ask),
             .layout = layout,
             .net = std::vector<Pressure>(zones, still),
             .push = {},
             .square_on = {},
             .marks = 0,
             .marks_net = t.mark(asked(ask).level),
             .marks_push = t.mark("minimum") | t.mark(asked(ask).level),
             .marks_square_on = t.mark("wall_minimum") | t.mark(asked(ask).level)};
  c.marks = c.marks_net | c.marks_push | c.marks_square_on;
  for (const Elevation& e : ask.shape.elevations) {
    if (e.side != windward(towards)) continue;
    const bool of_roof = e.part == ElevationPart::roof;
    c.push.push_back({towards, e.outline, of_roof ? roof : wall, of_roof ? "least,roof" : "least,wall",
                      fmt::format("{}, least load", words(e.part))});
  }
  for (const Side s : {Side::left, Side::front, Side::right, Side::back})
    c.square_on.push_back(
        {s, zero<Length>(), is_across(outward(s)) ? ask.shape.up : ask.shape.across, square, "least"});
  return c;
}
static Layout not_lifted(const Shape& s) {
  Layout layout{"roof not lifted", {}};
  for (std::size_t i = 0; i < s.surfaces.size(); ++i) layout.zones.push_back({i, s.surfaces[i].outline, "none"});
  return layout;
}

static std::vector<Inside> insides(const WindAsk& ask) {
  std::vector<Inside> all{{"inside_enclosed", 1.0, "shut out", "shut, pushed out"},
                          {"inside_enclosed", -1.0, "shut in", "shut, sucked in"}};
  if (partially_enclosed(ask)) {
    all.push_back({"inside_partial", 1.0, "open out", "a door or opening open, pushed out"});
    all.push_back({"inside_partial", -1.0, "open in", "a door or opening open, sucked in"});
  }
  return all;
}

// One corner that the wind meets, in one load case: its names, and what is the same whatever the pressure inside.
namespace {
struct Corner {
  char load_case;
  std::string id, wind;
  std::size_t layout;
  std::vector<Push> walls, roof;
};
}  // namespace
static LoadCase corner_case(const WindAsk& ask, const Corner& corner, const Layout& layout, const Inside& inside,
                            const Pressures& p, Length a, bool with_roof) {
  const Table& t = ask.table;
  const Marks common = common_marks(ask) | t.mark("end_zone");
  const Marks of_case = t.mark(key_of(corner.load_case)) | (corner.load_case == 'F' ? t.mark("along_ridge") : Marks{0});
  const Marks of_inside = t.mark(inside.key) | t.mark("partial_rule") | t.mark("debris");
  LoadCase c{.id = fmt::format("{} {}{}", corner.id, inside.id, with_roof ? "" : " walls"),
             .wind = corner.wind + (with_roof ? "" : ", walls alone"),
             .inside = inside.words,
             .combination = combination(ask),
             .layout = corner.layout,
             .net = {},
             .push = corner.walls,
             .square_on = square_on(ask.shape, a, p),
             .marks = 0,
             .marks_net = common | of_case | of_inside | t.mark("soffit"),
             .marks_push = common | of_case,
             .marks_square_on = common | of_inside | t.mark("wall") | t.mark("wall_minimum")};
  c.marks = c.marks_net | c.marks_push | c.marks_square_on;
  c.net.reserve(layout.zones.size());
  for (const Zone& z : layout.zones) c.net.push_back(net(p, z.label));
  if (with_roof) c.push.insert(c.push.end(), corner.roof.begin(), corner.roof.end());
  return c;
}

Loads loads(const WindAsk& ask, Working* w, std::optional<std::size_t> tell) {
  const Table& t = ask.table;
  const Shape& s = ask.shape;
  const Pressure q = site(ask, w).q;
  const Length h = mean_height(ask, nullptr);
  const Length a = end_zone(t, s, h, tell ? w : nullptr);
  const std::vector<Inside> inside = insides(ask);
  Loads all{.basis = asked(ask).level == "allowable" ? Basis::allowable : Basis::limit_state,
            .layouts = {},
            .cases = {},
            .excess = limits_passed(ask, h)};
  std::map<std::pair<char, std::size_t>, Pressures> worked_out;  // by load case and inside pressure
  const auto in_silence = [&](char load_case, std::size_t i) -> const Pressures& {
    const auto [at, fresh] = worked_out.try_emplace({load_case, i});
    if (fresh) at->second = pressures(ask, load_case, inside[i], q, nullptr);
    return at->second;
  };
  for (const Turn turn : turns) {
    const Frame8 f(s.across, s.up, turn);
    const std::string face(words(windward(f.own(Way::right)))), side(words(side_facing(f.own(Way::front))));
    for (const char load_case : load_cases_in(f, s, t)) {
      const bool flat = load_case == 'F';
      Layout layout = roof_layout(s, f, load_case, a, fmt::format("{} {}{}", face, side, flat ? " flat" : ""));
      const Pressures& outside = in_silence(load_case, 0);
      const Corner corner{
          .load_case = load_case,
          .id = layout.name,
          .wind = fmt::format("onto the {}, from its {} corner{}", face, side, flat ? ", zones as on a flat roof" : ""),
          .layout = all.layouts.size(),
          .walls = wall_pushes(s, f, load_case, a, outside),
          .roof = roof_pushes(s, layout, outside)};
      for (std::size_t i = 0; i < inside.size(); ++i)
        for (const bool with_roof : {true, false}) {
          if (w && tell == all.cases.size()) pressures(ask, load_case, inside[i], q, w);
          all.cases.push_back(corner_case(ask, corner, layout, inside[i], in_silence(load_case, i), a, with_roof));
        }
      all.layouts.push_back(std::move(layout));
    }
  }
  all.layouts.push_back(not_lifted(s));
  for (const Way towards : {Way::right, Way::back, Way::left, Way::front})
    all.cases.push_back(
        least_wind(ask, towards, all.layouts.size() - 1, s.surfaces.size(), tell == all.cases.size() ? w : nullptr));
  return all;
}

LineSpacing line_spacing(const WindAsk& ask) {
  return {std::nullopt, std::nullopt, ask.table.method + " gives no spacing of bracing lines", 0};
}

}  // namespace belay::asce_envelope
