// Low-rise buildings by the envelope procedure of ASCE 7. Everything is laid out once, for wind along +x onto the
// corner at the origin; the eight frames of the plan give the four ways and the two corners of each. Load case A stands
// where the ridge lies across the wind, B where it lies along it. Zones 2 and 2E are taken to the ridge (the safe
// reading).
#include "wind/asce.hpp"
#include "wind/formulas.hpp"
#include <algorithm>
#include <array>
#include <map>

namespace belay::asce_envelope {

using asce7::Inside;
using asce7::Procedure;

SiteWind site(const WindAsk& ask, Working* w) { return asce7::site(ask, Procedure::envelope, w); }
bool partially_enclosed(const WindAsk& ask) { return asce7::partially_enclosed(ask); }
Length end_zone(const Table& t, const Shape& s, Length h, Working* w) { return asce7::end_zone(t, s, h, w); }
double wall_coefficient(const Table& t, std::string_view column, Area effective, Working* w, std::string_view symbol) {
  return asce7::wall_coefficient(t, column, effective, w, symbol);
}

// ---- coefficients --------------------------------------------------------------------------------------------------

static std::string key_of(char load_case) { return load_case == 'B' ? "case_B" : "case_A"; }

// What a figure gives, as read: one column's coefficient, or those of the columns on both sides, which are brought
// together afterwards. Reading comes first, so that a working shows all that is read in one block.
namespace {
struct Columns {
  double low, high;
  Angle here, at_low, at_high;
  bool between;
};
}  // namespace
static Columns read_coefficient(const Table& t, char load_case, const std::string& zone, Angle pitch, Working* w) {
  const std::string key = key_of(load_case), column = "z" + zone, symbol = "GC_pf," + zone;
  const std::string words = "coefficient of zone " + zone +
                            (load_case == 'F' ? ", as on a flat roof" : std::string(", load case ") + load_case);
  if (load_case == 'F') pitch = t.get<Angle>("along_ridge", "pitch");
  const auto one = [&](double c) { return Columns{c, c, pitch, pitch, pitch, false}; };
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
static double between_columns(const Columns& read, const std::string& zone, Working* w) {
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

// ---- the pressures of one load case --------------------------------------------------------------------------------

namespace {
struct Pressures {
  std::map<std::string, Pressure, std::less<>> outside, net;  // by zone; net: of roof zones over the house
  Pressure soffit, none;
  asce7::WallPressures walls;
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
  Pressures all{.outside = {}, .net = {}, .soffit = zero<Pressure>(), .none = zero<Pressure>(), .walls = {}};
  if (w) w->heading("The pressures");
  const auto source = [&](std::string_view key) { return w ? t.source(key) : std::string(); };
  // All that is read first, in one block.
  const double ci = asce7::inside_coefficient(t, inside, w);
  std::map<std::string, Columns> read;
  const std::vector<std::string> zones = zones_of(load_case);
  for (const std::string& zone : zones) read.emplace(zone, read_coefficient(t, load_case, zone, s.pitch, w));
  const double under =
      figure<double>(w, t, "soffit", "GC_p", "GC_p,soffit", "under the overhangs of the walls that the wind meets");
  all.none = given(w, "p_soffit,lee", "under the other overhangs: nothing", all.none, source("soffit"));
  const asce7::WallFigures walls = asce7::read_walls(ask, w);

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

  all.walls = asce7::wall_pressures(ask, walls, as("q_h", q), ci, w);
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
  if (runs_as_seen(s, f, e.side))
    return {between_x(e.outline, -everywhere, end), between_x(e.outline, end, everywhere)};
  const Length breadth = length_of(s, e.side);
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

// From outside alone: what comes from inside meets itself on the other slope.
static std::vector<Push> roof_pushes(const Shape& s, const Layout& layout, const Pressures& p) {
  return belay::roof_pushes(s, layout, [&](const Zone& z) {
    const std::string zone = zone_of(z.label);
    return Push{Way::right, {}, p.outside.at(zone), zone + ",o", "roof, zone " + zone};
  });
}

static Pressure net(const Pressures& p, const std::string& label) {
  if (label == "soffit") return p.soffit;
  if (label == "soffit,lee") return p.none;
  return label.ends_with(",o") ? p.outside.at(zone_of(label)) : p.net.at(label);
}

// ---- all load cases ------------------------------------------------------------------------------------------------

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
  const Marks common = asce7::common_marks(ask, Procedure::envelope) | t.mark("end_zone");
  const Marks of_case = t.mark(key_of(corner.load_case)) | (corner.load_case == 'F' ? t.mark("along_ridge") : Marks{0});
  const Marks of_inside = asce7::inside_marks(t, inside);
  LoadCase c{.id = fmt::format("{} {}{}", corner.id, inside.id, with_roof ? "" : " walls"),
             .wind = corner.wind + (with_roof ? "" : ", walls alone"),
             .inside = inside.words,
             .combination = asce7::combination(ask),
             .layout = corner.layout,
             .net = {},
             .push = corner.walls,
             .square_on = asce7::square_on(ask.shape, a, p.walls),
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
  if (w) site(ask, w);
  const Length h = asce7::mean_height(ask, nullptr);
  const Pressure q = asce7::gust(ask, h, Procedure::envelope, nullptr).main.quantity;
  const Length a = end_zone(t, s, h, tell ? w : nullptr);
  const std::vector<Inside> inside = asce7::insides(ask);
  Loads all{.basis = asce7::basis(ask),
            .layouts = {},
            .cases = {},
            .excess = asce7::limits_passed(ask, Procedure::envelope, h)};
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
  all.layouts.push_back(asce7::not_lifted(s));
  for (const Way towards : {Way::right, Way::back, Way::left, Way::front})
    all.cases.push_back(asce7::least_wind(ask, Procedure::envelope, towards, all.layouts.size() - 1,
                                          tell == all.cases.size() ? w : nullptr));
  return all;
}

LineSpacing line_spacing(const WindAsk& ask) {
  return {std::nullopt, std::nullopt, ask.table.method + " gives no spacing of bracing lines", 0};
}

}  // namespace belay::asce_envelope
