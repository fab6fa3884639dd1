// Buildings of any height within the limits by the directional procedure of ASCE 7 (7-05: the analytical one for
// buildings of all heights; later: chapter 27). Laid out once, for wind along +x; the four quarter turns give the four
// faces. The zones are the same on both sides of the wind, so the mirrored frames add nothing.
//
// Of the standard's four design cases this is the first, all of the wind from one side. The third, three quarters of it
// from two sides at once, loads no bracing line more: under a ceiling that gives, a line takes only what blows along
// it, and three quarters of that. The two with torsion are not for light frames of one or two storeys (a caution says
// so).
#include "wind/asce.hpp"
#include "wind/formulas.hpp"
#include "wind/formulas_asce.hpp"
#include <algorithm>
#include <array>

namespace belay::asce_directional {

using asce7::Inside;
using asce7::Procedure;

SiteWind site(const WindAsk& ask, Working* w) { return asce7::site(ask, Procedure::directional, w); }

// ---- coefficients --------------------------------------------------------------------------------------------------

// By one of the two ratios of the building, linear between the rows of the figure and flat past its ends.
double by_ratio(const Table& t, std::string_view key, std::string_view column, const As<double>& ratio, Working* w,
                std::string_view symbol, std::string_view words) {
  const auto& ratios = t.column(key, "ratio");
  const Place place = place_among(ratios, ratio.quantity);
  if (!place.between) return figure<double>(w, t, key, column, symbol, words, place.low);
  const std::string own(symbol), c1 = own + ",1", c2 = own + ",2", n1 = "n_1," + own, n2 = "n_2," + own;
  const double low = figure<double>(w, t, key, column, c1, w ? fmt::format("{}, row below", words) : "", place.low);
  const double high =
      figure<double>(w, t, key, column, c2, w ? fmt::format("{}, row above", words) : "", place.low + 1);
  const double at_low = figure<double>(w, t, key, "ratio", n1, "row below the ratio", place.low);
  const double at_high = figure<double>(w, t, key, "ratio", n2, "row above the ratio", place.low + 1);
  return formulas::linear_in_ratio.told_as(w, symbol, words, "linear between rows", as(c1, low), as(c2, high), ratio,
                                           as(n1, at_low), as(n2, at_high));
}

namespace {
// The figures around a place in a figure of slopes: one, two or four of them.
struct Cell {
  Place column, row;
};
}  // namespace
static std::string row_name(std::string_view value, std::size_t row) { return fmt::format("{}_{}", value, row + 1); }
static bool any_positive(const Table& t, std::string_view key, std::string_view value, const Cell& cell) {
  for (std::size_t r = cell.row.low; r <= cell.row.low + (cell.row.between ? 1 : 0); ++r)
    for (std::size_t c = cell.column.low; c <= cell.column.low + (cell.column.between ? 1 : 0); ++c)
      if (quantity<double>(t.column(key, row_name(value, r)).at(c)) > 0.0) return true;
  return false;
}

// A slope's coefficient by pitch and h/L. Values of unlike sign are not brought together: where a positive one stands
// at the place, negative ones beside it count as 0.0, as the figure says; what is left out lies between this and the
// suction, so it decides nothing.
double slope(const Table& t, std::string_view key, std::string_view value, const As<Angle>& pitch,
             const As<double>& ratio, Working* w, std::string_view symbol, std::string_view words) {
  const auto &pitches = t.column(key, "pitch"), &ratios = t.column(key, "ratio");
  const Cell cell{place_among(pitches, std::max(pitch.quantity, quantity<Angle>(pitches.front()))),
                  place_among(ratios, ratio.quantity)};
  const bool push = any_positive(t, key, value, cell);
  const std::string own(symbol);
  const auto one = [&](std::size_t r, std::size_t c, const std::string& as_symbol) {
    const std::string row = row_name(value, r);
    const double read = quantity<double>(t.column(key, row).at(c));
    if (push && read < 0.0)
      return given(w, as_symbol, "beside values of the other sign: counts as", 0.0, w ? t.source(key) : "");
    return figure<double>(w, t, key, row, as_symbol,
                          w ? fmt::format("{}, for h/L {} and the pitch of that column", words, ratios[r].si) : "", c);
  };
  const auto in_row = [&](std::size_t r, const std::string& as_symbol) {
    if (!cell.column.between) return one(r, cell.column.low, as_symbol);
    const std::string c1 = as_symbol + 'l', c2 = as_symbol + 'r', t1 = "theta_1," + own, t2 = "theta_2," + own;
    const double left = one(r, cell.column.low, c1), right = one(r, cell.column.low + 1, c2);
    const Angle a1 = figure<Angle>(w, t, key, "pitch", t1, "column below the pitch", cell.column.low);
    const Angle a2 = figure<Angle>(w, t, key, "pitch", t2, "column above the pitch", cell.column.low + 1);
    return formulas::linear_in_pitch.told_as(w, as_symbol, words, "linear between columns", as(c1, left), as(c2, right),
                                             pitch, as(t1, a1), as(t2, a2));
  };
  if (!cell.row.between) return in_row(cell.row.low, own);
  const std::string c1 = own + ",1", c2 = own + ",2", n1 = "n_1," + own, n2 = "n_2," + own;
  const double below = in_row(cell.row.low, c1), above = in_row(cell.row.low + 1, c2);
  const double r1 = figure<double>(w, t, key, "ratio", n1, "row below h/L", cell.row.low);
  const double r2 = figure<double>(w, t, key, "ratio", n2, "row above h/L", cell.row.low + 1);
  return formulas::linear_in_ratio.told_as(w, symbol, words, "linear between rows", as(c1, below), as(c2, above), ratio,
                                           as(n1, r1), as(n2, r2));
}

// ---- the pressures of one load case --------------------------------------------------------------------------------

namespace {
// How the wind finds the building: its plan along and across the wind; the slopes of some pitch that fall against it
// and away from it; and whether anything else of the roof is there, which is divided into bands.
// Of a block of several: along, its own depth, by which the roof is pulled harder; along_all, across: of the whole
// house, by which its slope is pushed harder and the lee is pulled harder.
struct Facing {
  Length along, across, along_all;
  std::optional<As<Angle>> windward, leeward;
  bool bands;
  bool slopes() const { return windward || leeward; }
};
// Both values of the roof: the greater suction, and the other.
enum class Value_of_roof : unsigned char { suction, other };
struct OfZone {
  std::string zone;
  Pressure outside, net;  // net: over the house
};
struct Pressures {
  std::array<Pressure, 4> walls;  // W windward, L leeward, S side, G windward gable
  std::vector<OfZone> roof;       // RW and RL; R1 to R4 from the windward edge on
  Pressure soffit, none;
  asce7::WallPressures square_on;
};
struct Named {
  std::string zone, words;
  double coefficient;
};
}  // namespace
static constexpr std::array<std::string_view, 4> wall_zones{"W", "L", "S", "G"};

static std::vector<Named> roof_coefficients(const WindAsk& ask, const Facing& facing, Value_of_roof value,
                                            const As<double>& ratio, Working* w) {
  const Table& t = ask.table;
  const bool suction = value == Value_of_roof::suction;
  std::vector<Named> all;
  if (facing.windward)
    all.push_back({"RW", "the windward slope",
                   slope(t, "directional_windward", suction ? "suction" : "other", *facing.windward, ratio, w, "C_p,RW",
                         suction ? "coefficient of the windward slope, suction"
                                 : "coefficient of the windward slope, the other value")});
  if (facing.leeward)
    all.push_back({"RL", "the leeward slope",
                   slope(t, "directional_leeward", "suction", *facing.leeward, ratio, w, "C_p,RL",
                         "coefficient of the leeward slope")});
  if (!facing.bands) return all;
  for (const char band : {'1', '2', '3', '4'}) {
    const std::string zone = std::string("R") + band, symbol = "C_p," + zone;
    const std::string words =
        w ? fmt::format("coefficient of band {} of the roof{}", band, suction ? "" : ", the other value") : "";
    const double c = suction ? by_ratio(t, "directional_bands", std::string("band_") + band, ratio, w, symbol, words)
                             : figure<double>(w, t, "directional_bands", "other", symbol, words);
    all.push_back({zone, std::string("band ") + band + " of the roof", c});
  }
  return all;
}
static std::string_view key_of(std::string_view zone) {
  if (zone == "RW") return "directional_windward";
  return zone == "RL" ? "directional_leeward" : "directional_bands";
}

// Symbols: p_W, p_L, p_S on walls, p_G on a gable; p_RW net and p_RW,o from outside alone on the roof; p_soffit under
// the overhang. The inside of an open house is pushed out by the gust on the wall that the wind meets, which on a hill
// is more than that at roof height.
static Pressures pressures(const WindAsk& ask, const Facing& facing, Value_of_roof value, const Inside& inside,
                           const asce7::Gust& q, Length h, Working* w) {
  const Table& t = ask.table;
  if (w) w->heading("The pressures");
  const auto source = [&](std::string_view key) { return w ? t.source(key) : std::string(); };
  const double ci = asce7::inside_coefficient(t, inside, w);
  const double g = figure<double>(w, t, "gust_effect", "G", "G", "gust effect on a rigid building");
  const double windward =
      figure<double>(w, t, "directional_walls", "windward", "C_p,W", "the wall that the wind meets");
  const double side = figure<double>(w, t, "directional_walls", "side", "C_p,S", "the walls along the wind");
  const double under =
      figure<double>(w, t, "directional_soffit", "C_p", "C_p,soffit", "under the overhang of the wall that it meets");
  const Pressure none =
      given(w, "p_soffit,lee", "under the other overhangs: nothing", zero<Pressure>(), source("directional_soffit"));
  const asce7::WallFigures square_on = asce7::read_walls(ask, w);

  given(w, "L_w", "plan along the wind", facing.along, "the job's block");
  given(w, "B_w",
        facing.along_all == facing.along ? "plan across the wind" : "plan across the wind, of the whole house",
        facing.across, "the job's block");
  const auto plan =
      as("L/B", formulas::length_over_breadth.told(w, "L/B", source("directional_walls"), facing.along, facing.across));
  const double leeward = by_ratio(t, "directional_walls", "leeward", plan, w, "C_p,L", "the wall in the lee");
  const std::string_view roof_key = key_of(facing.windward ? "RW" : facing.leeward ? "RL" : "R1");
  const bool by_whole = value == Value_of_roof::other && facing.along_all != facing.along;
  const auto length = as(by_whole ? "L_a" : "L_w", by_whole ? facing.along_all : facing.along);
  if (by_whole) given(w, "L_a", "plan along the wind, of the whole house", facing.along_all, "the job's blocks");
  const auto height = as("h/L", formulas::height_over_length.told(w, "h/L", source(roof_key), h, length));
  const std::vector<Named> roof = roof_coefficients(ask, facing, value, height, w);

  const auto pressure = [&](const std::string& symbol, const std::string& what, std::string_view key,
                            const As<Pressure>& gust, const std::string& name, double c) {
    return formulas::outside_with_gust_effect.told_as(w, symbol, w ? "pressure from outside on " + what : "",
                                                      source(key), gust, as("G", g), as(name, c));
  };
  Pressures all{
      .walls = {pressure("p_W", "the wall that the wind meets", "directional_walls", q.windward, "C_p,W", windward),
                pressure("p_L", "the wall in the lee", "directional_walls", q.main, "C_p,L", leeward),
                pressure("p_S", "the walls along the wind", "directional_walls", q.main, "C_p,S", side),
                pressure("p_G", "the gable that the wind meets", "directional_walls", q.gable, "C_p,W", windward)},
      .roof = {},
      .soffit = pressure("p_soffit", "the underside of the overhang that the wind meets", "directional_soffit",
                         q.windward, "C_p,soffit", under),
      .none = none,
      .square_on = {}};
  const As<Pressure>& gust_inside = inside.open() && inside.sign > 0.0 ? q.windward : q.main;
  const Pressure from_inside = formulas::inside_pressure.told(w, "p_i", source(inside.key), gust_inside, ci);
  for (const Named& n : roof) {
    const std::string_view key = key_of(n.zone);
    const std::string net = "p_" + n.zone, outside = net + ",o";
    const Pressure p = pressure(outside, n.words, key, q.main, "C_p," + n.zone, n.coefficient);
    all.roof.push_back(
        {n.zone, p,
         formulas::net_of_inside.told_as(w, net, w ? "net pressure on " + n.words + ": outside less inside" : "",
                                         source(key), as(outside, p), as("p_i", from_inside))});
  }
  all.square_on = asce7::wall_pressures(ask, square_on, q.components, ci, w);
  return all;
}

// ---- where the zones lie -------------------------------------------------------------------------------------------

// Ends of the bands, from the windward wall: so they reach further in than from the edge of its eaves, the safe
// reading.
static std::array<Length, 5> ends_of_bands(const Table& t, Length h) {
  const auto& ends = t.column("directional_bands", "end");
  const auto end = [&](std::size_t i) { return quantity<double>(ends.at(i)) * h; };
  return {-everywhere, end(0), end(1), end(2), everywhere};
}

// The zone of a slope of some pitch that the wind meets square on, or "": it is divided into bands.
static std::string_view slope_zone(const Frame8& f, const Facing& facing, const Surface& surface) {
  const Way falls = f.seen(surface.falls);
  if (falls == Way::left && facing.windward) return "RW";
  return falls == Way::right && facing.leeward ? "RL" : "";
}
static Facing facing_of(const WindAsk& ask, const Frame8& f) {
  const Angle least_pitch = ask.table.get<Angle>("directional_bands", "below");
  const auto slope_that_falls = [&](Way seen) -> std::optional<As<Angle>> {
    const RoofSide& side = ask.shape.at(side_facing(f.own(seen)));
    if (!side.slopes || side.pitch < least_pitch) return std::nullopt;
    return pitch_of(ask, side_facing(f.own(seen)));
  };
  const Length whole_x = ask.shape.whole_across, whole_y = ask.shape.whole_up;
  const bool blocks = whole_x > zero<Length>(), along_x = is_across(f.own(Way::right));
  const Length along_all = !blocks   ? f.across()
                           : along_x ? whole_x
                                     : whole_y,
               across = !blocks   ? f.up()
                        : along_x ? whole_y
                                  : whole_x;
  Facing facing{f.across(), across, along_all, slope_that_falls(Way::left), slope_that_falls(Way::right), false};
  const auto& surfaces = ask.shape.surfaces;
  facing.bands = std::any_of(surfaces.begin(), surfaces.end(), [&](const Surface& s) {
    return s.part != Part::soffit && slope_zone(f, facing, s).empty();
  });
  return facing;
}

static Layout roof_layout(const WindAsk& ask, const Frame8& f, const Facing& facing, Length h, std::string name) {
  const Shape& s = ask.shape;
  Layout layout{std::move(name), {}};
  const auto ends = ends_of_bands(ask.table, h);
  for (std::size_t i = 0; i < s.surfaces.size(); ++i) {
    const Surface& surface = s.surfaces[i];
    const Polygon seen = f.seen(surface.outline);
    if (surface.part == Part::soffit) {
      // All that hangs out before the wall that the wind meets, the ends of the eaves at its corners too.
      const Polygon before = between_x(seen, -everywhere, zero<Length>()),
                    past = between_x(seen, zero<Length>(), everywhere);
      if (!before.empty()) layout.zones.push_back({i, f.own(before), "soffit"});
      if (!past.empty()) layout.zones.push_back({i, f.own(past), "soffit,lee"});
      continue;
    }
    const std::string_view past_walls = surface.part == Part::overhang ? ",o" : "";
    if (const std::string_view zone = slope_zone(f, facing, surface); !zone.empty()) {
      layout.zones.push_back({i, surface.outline, fmt::format("{}{}", zone, past_walls)});
      continue;
    }
    for (std::size_t band = 0; band < 4; ++band) {
      const Polygon part = between_x(seen, ends[band], ends[band + 1]);
      if (!part.empty()) layout.zones.push_back({i, f.own(part), fmt::format("R{}{}", band + 1, past_walls)});
    }
  }
  return layout;
}

static const OfZone& of_zone(const Pressures& p, std::string_view label) {
  const std::string_view zone = label.substr(0, label.find(','));
  return *std::find_if(p.roof.begin(), p.roof.end(), [&](const OfZone& z) { return z.zone == zone; });
}
static Pressure net(const Pressures& p, const std::string& label) {
  if (label == "soffit") return p.soffit;
  if (label == "soffit,lee") return p.none;
  return label.ends_with(",o") ? of_zone(p, label).outside : of_zone(p, label).net;
}

static std::vector<Push> wall_pushes(const Shape& s, const Frame8& f, const Pressures& p) {
  std::vector<Push> pushes;
  for (const Elevation& e : s.elevations) {
    if (e.part == ElevationPart::roof) continue;
    const Way out = outward(e.side), looks = f.seen(out);
    const bool met = looks == Way::left, gable = e.part == ElevationPart::gable;
    const std::size_t zone = met ? (gable ? 3 : 0) : looks == Way::right ? 1 : 2;
    const std::string label(wall_zones[zone]);
    pushes.push_back(
        {opposite(out), e.outline, p.walls[zone], label, fmt::format("{}, zone {}", words(e.part), label)});
  }
  return pushes;
}

// From outside alone: what comes from inside meets itself on the other slope.
static std::vector<Push> roof_pushes(const Shape& s, const Layout& layout, const Pressures& p) {
  return belay::roof_pushes(s, layout, [&](const Zone& z) {
    const OfZone& zone = of_zone(p, z.label);
    return Push{Way::right, {}, zone.outside, zone.zone + ",o", "roof, zone " + zone.zone};
  });
}

// ---- all load cases ------------------------------------------------------------------------------------------------

namespace {
struct Sort {
  Value_of_roof value;
  bool with_roof;
  std::string_view id, words;
};
// The roof's push left out, or its suction the smaller one: each may be worse for the bracing. With the smaller suction
// and no push of the roof nothing is worse than with the greater.
constexpr std::array<Sort, 3> sorts{{{Value_of_roof::suction, true, "", ""},
                                     {Value_of_roof::suction, false, " walls", ", walls alone"},
                                     {Value_of_roof::other, true, " other", ", the roof's other value"}}};
}  // namespace

static LoadCase load_case(const WindAsk& ask, const Frame8& f, const Facing& facing, const Layout& layout,
                          const Inside& inside, const Sort& sort, const Pressures& p, Length a) {
  const Table& t = ask.table;
  const Marks common = asce7::common_marks(ask, Procedure::directional) | t.mark("gust_effect");
  const Marks of_roof = t.mark("directional_bands") |
                        (facing.slopes() ? t.mark("directional_windward") | t.mark("directional_leeward") : Marks{0});
  const Marks of_inside = asce7::inside_marks(t, inside);
  LoadCase c{.id = fmt::format("{} {}{}", layout.name, inside.id, sort.id),
             .wind = fmt::format("onto the {}{}", layout.name, sort.words),
             .inside = inside.words,
             .combination = asce7::combination(ask),
             .layout = 0,
             .net = {},
             .push = wall_pushes(ask.shape, f, p),
             .square_on = asce7::square_on(ask.shape, a, p.square_on),
             .marks = 0,
             .marks_net = common | of_roof | of_inside | t.mark("directional_soffit"),
             .marks_push = common | t.mark("directional_walls") | (sort.with_roof ? of_roof : Marks{0}),
             .marks_square_on = asce7::common_marks(ask, Procedure::directional) | of_inside | t.mark("wall") |
                                t.mark("wall_minimum") | t.mark("end_zone"),
             .down = asce7::down(ask),
             .marks_down = asce7::down_marks(ask)};
  c.marks = c.marks_net | c.marks_push | c.marks_square_on;
  c.net.reserve(layout.zones.size());
  for (const Zone& z : layout.zones) c.net.push_back(net(p, z.label));
  if (sort.with_roof)
    for (Push& push : roof_pushes(ask.shape, layout, p)) c.push.push_back(std::move(push));
  return c;
}

Loads loads(const WindAsk& ask, Working* w, std::optional<std::size_t> tell) {
  const Shape& s = ask.shape;
  if (w) site(ask, w);
  const Length h = asce7::mean_height(ask, nullptr);
  const asce7::Gust q = asce7::gust(ask, h, Procedure::directional, nullptr);
  const Length a = asce7::end_zone(ask.table, s, h, tell ? w : nullptr);
  const std::vector<Inside> insides = asce7::insides(ask);
  Loads all{.basis = asce7::basis(ask),
            .layouts = {},
            .cases = {},
            .excess = asce7::limits_passed(ask, Procedure::directional, h)};
  press_on_floors(all, ask.table, {asce7::on_floors(ask)});
  all.cases.reserve(4 * (insides.size() * sorts.size() + 1));  // with the least wind
  for (const int quarter : {0, 1, 2, 3}) {
    const Frame8 f(s.across, s.up, {quarter, false});
    const Facing facing = facing_of(ask, f);
    Layout layout = roof_layout(ask, f, facing, h, std::string(words(windward(f.own(Way::right)))));
    for (const Inside& inside : insides)
      for (const Sort& sort : sorts) {
        Working* telling = tell == all.cases.size() ? w : nullptr;
        const Pressures p = pressures(ask, facing, sort.value, inside, q, h, telling);
        all.cases.push_back(load_case(ask, f, facing, layout, inside, sort, p, a));
        all.cases.back().layout = all.layouts.size();
      }
    all.layouts.push_back(std::move(layout));
  }
  all.layouts.push_back(asce7::not_lifted(s));
  for (const Way towards : {Way::right, Way::back, Way::left, Way::front})
    all.cases.push_back(asce7::least_wind(ask, Procedure::directional, towards, all.layouts.size() - 1,
                                          tell == all.cases.size() ? w : nullptr));
  return all;
}

LineSpacing line_spacing(const WindAsk& ask) {
  return {std::nullopt, std::nullopt, ask.table.method + " gives no spacing of bracing lines", 0};
}

}  // namespace belay::asce_directional
