// Low-rise buildings by the envelope procedure of ASCE 7. Everything is laid out once, for wind along +x onto the
// corner at the origin; the eight frames of the plan give the four ways and the two corners of each. Load case A stands
// where the ridge lies across the wind, B where it lies along it. Zones 2 and 2E are taken to the ridge (the safe
// reading).
//
// Hips: the figure gives suction alone to wind along the ridge, but a steep hip end that is met square on is pushed
// like any slope. Load case H stands beside B: hip ends as the slopes of load case A. In A and H zones 2a and 3a are
// those of slopes that the wind passes along: as on a flat roof, or as on the slopes across the wind where those lift
// more. Flat roofs have no ridge: both load cases from every side.
#include "wind/asce.hpp"
#include "wind/formulas.hpp"
#include <algorithm>
#include <array>
#include <map>
#include <tuple>

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
static std::string words_of(char load_case) {
  switch (load_case) {
    case 'F': return ", as on a flat roof";
    case 'H': return ", load case A onto a hip end";
    default: return std::string(", load case ") + load_case;
  }
}

// What a figure gives, as read: one column's coefficient, or those of the columns on both sides, which are brought
// together afterwards. Reading comes first, so that a working shows all that is read in one block.
namespace {
struct Columns {
  std::string symbol;
  double low, high;
  As<Angle> here;
  Angle at_low, at_high;
  bool between;
};
}  // namespace
// Of the columns beside a pitch: "theta_1", or "theta_1,back".
static std::string column_symbol(const As<Angle>& pitch, char which) {
  constexpr std::string_view own = "theta_";
  return std::string("theta_") + which + (pitch.name.starts_with(own) ? "," + pitch.name.substr(own.size()) : "");
}
static Columns read_coefficient(const Table& t, char load_case, const std::string& zone, const As<Angle>& pitch,
                                Working* w, const std::string& symbol) {
  const std::string key = key_of(load_case), column = "z" + zone.substr(0, 1) + (zone.ends_with('E') ? "E" : "");
  const std::string words = w ? "coefficient of zone " + zone + words_of(load_case) : std::string();
  const auto one = [&](double c) { return Columns{symbol, c, c, pitch, pitch.quantity, pitch.quantity, false}; };
  if (load_case == 'B') return one(figure<double>(w, t, key, column, symbol, words));
  const auto& pitches = t.column(key, "pitch");
  const Place place = place_among(pitches, std::max(pitch.quantity, quantity<Angle>(pitches.front())));
  if (!place.between) return one(figure<double>(w, t, key, column, symbol, words, place.low));
  const std::string below = w ? words + ", column below the pitch" : std::string(),
                    above = w ? words + ", column above the pitch" : std::string();
  const double c1 = figure<double>(w, t, key, column, symbol + ",1", below, place.low);
  const double c2 = figure<double>(w, t, key, column, symbol + ",2", above, place.low + 1);
  const Angle t1 = figure<Angle>(w, t, key, "pitch", column_symbol(pitch, '1'), "column below the pitch", place.low);
  const Angle t2 =
      figure<Angle>(w, t, key, "pitch", column_symbol(pitch, '2'), "column above the pitch", place.low + 1);
  return {symbol, c1, c2, pitch, t1, t2, true};
}
static double between_columns(const Columns& read, const std::string& zone, Working* w) {
  if (!read.between) return read.low;
  return formulas::linear_in_pitch.told_as(
      w, read.symbol, w ? "coefficient of zone " + zone + " between two columns, by the pitch" : std::string(),
      "linear between columns", as(read.symbol + ",1", read.low), as(read.symbol + ",2", read.high), read.here,
      as(column_symbol(read.here, '1'), read.at_low), as(column_symbol(read.here, '2'), read.at_high));
}

double coefficient(const Table& t, char load_case, const std::string& zone, Angle pitch, Working* w) {
  const Angle at = load_case == 'F' ? t.get<Angle>("along_ridge", "pitch") : pitch;
  return between_columns(read_coefficient(t, load_case, zone, as("theta", at), w, "GC_pf," + zone), zone, w);
}

// ---- how the wind finds the building -------------------------------------------------------------------------------

namespace {
// The pitches by which the coefficients of the zones are read: one, or several, of which the worst holds; none in load
// case B. along: of slopes that the wind passes along.
struct Facing {
  char load_case;
  Side side;  // that the wind meets
  std::vector<As<Angle>> windward, leeward, walls, along;
};
}  // namespace
static void add_pitch(std::vector<As<Angle>>& pitches, const As<Angle>& p) {
  if (std::none_of(pitches.begin(), pitches.end(), [&](const As<Angle>& o) { return o.quantity == p.quantity; }))
    pitches.push_back(p);
}
static Facing facing_of(const WindAsk& ask, const Frame8& f, char load_case) {
  const Shape& s = ask.shape;
  const Side windward_side = side_facing(f.own(Way::left)), leeward_side = side_facing(f.own(Way::right));
  Facing facing{load_case, windward_side, {}, {}, {}, {}};
  const auto one_pitch = [&](As<Angle> p) { facing.windward = facing.leeward = facing.walls = {std::move(p)}; };
  if (load_case == 'B') return facing;
  if (load_case == 'F') {
    one_pitch(as("theta_0", ask.table.get<Angle>("along_ridge", "pitch")));
    return facing;
  }
  if (asce7::one_slope(s)) {
    one_pitch(pitch_of(ask, side_facing(opposite(outward(s.high)))));
    return facing;
  }
  if (s.at(windward_side).slopes) facing.windward = {pitch_of(ask, windward_side)};
  if (s.at(leeward_side).slopes) facing.leeward = {pitch_of(ask, leeward_side)};
  for (const auto* slope : {&facing.windward, &facing.leeward})
    for (const As<Angle>& p : *slope) add_pitch(facing.walls, p);
  if (!asce7::has_hip_end(s)) return facing;
  facing.along = {as("theta_0", quantity<Angle>(ask.table.column("case_A", "pitch").front()))};
  for (const As<Angle>& p : facing.walls) add_pitch(facing.along, p);
  return facing;
}
static const std::vector<As<Angle>>& pitches_of(const Facing& f, const std::string& zone) {
  if (zone[0] == '1' || zone[0] == '4') return f.walls;
  if (zone.find('a') != std::string::npos) return f.along;
  return zone[0] == '2' ? f.windward : f.leeward;
}
static std::vector<std::string> zones_of(const Facing& f) {
  std::vector<std::string> zones;
  for (const std::string end : {"", "E"})
    for (const std::string zone : {"1", "2", "3", "4"})
      if (f.load_case == 'B' || !pitches_of(f, zone).empty()) zones.push_back(zone + end);
  if (f.load_case == 'B') zones.insert(zones.end(), {"5", "6", "5E", "6E"});
  if (!f.along.empty()) zones.insert(zones.end(), {"2a", "3a", "2aE", "3aE"});
  return zones;
}

// The worst of the pitches: the greatest push on walls that the wind meets, else the greatest suction.
static std::vector<Columns> read_zone(const Table& t, const Facing& f, const std::string& zone, Working* w) {
  const std::string symbol = "GC_pf," + zone;
  if (f.load_case == 'B') return {read_coefficient(t, f.load_case, zone, as(std::string(), zero<Angle>()), w, symbol)};
  const auto& pitches = pitches_of(f, zone);
  std::vector<Columns> all;
  for (const As<Angle>& p : pitches)
    all.push_back(read_coefficient(t, f.load_case, zone, p, w, pitches.size() == 1 ? symbol : symbol + ',' + p.name));
  return all;
}
static double worst_of(const Table& t, const Facing& f, const std::vector<Columns>& read, const std::string& zone,
                       Working* w) {
  if (read.size() == 1) return between_columns(read.front(), zone, w);
  std::vector<As<double>> candidates;
  for (const Columns& c : read) candidates.push_back(as(c.symbol, between_columns(c, zone, w)));
  const std::string symbol = "GC_pf," + zone;
  const std::string words = w ? "coefficient of zone " + zone + ": the worst of those pitches" : std::string();
  const std::string source = w ? t.source(key_of(f.load_case)) : std::string();
  return zone[0] == '1' ? greatest<double>(w, symbol, words, source, candidates)
                        : least<double>(w, symbol, words, source, candidates);
}

// ---- the pressures of one load case --------------------------------------------------------------------------------

namespace {
struct Pressures {
  std::map<std::string, Pressure, std::less<>> outside, net;  // by zone; net: of roof zones over the house
  Pressure soffit, none;
  asce7::WallPressures walls;
};
}  // namespace

static bool on_roof(const std::string& zone) { return zone[0] == '2' || zone[0] == '3'; }

// Symbols: p_1, p_1E... on walls; p_2 net and p_2,o from outside alone on the roof; p_soffit under windward overhangs.
static Pressures pressures(const WindAsk& ask, const Facing& facing, const Inside& inside, Pressure q, Working* w) {
  const Table& t = ask.table;
  Pressures all{.outside = {}, .net = {}, .soffit = zero<Pressure>(), .none = zero<Pressure>(), .walls = {}};
  if (w) w->heading("The pressures");
  const auto source = [&](std::string_view key) { return w ? t.source(key) : std::string(); };
  // All that is read first, in one block.
  const double ci = asce7::inside_coefficient(t, inside, w);
  std::map<std::string, std::vector<Columns>> read;
  const std::vector<std::string> zones = zones_of(facing);
  for (const std::string& zone : zones) read.emplace(zone, read_zone(t, facing, zone, w));
  const double under =
      figure<double>(w, t, "soffit", "GC_p", "GC_p,soffit", "under the overhangs of the walls that the wind meets");
  all.none = given(w, "p_soffit,lee", "under the other overhangs: nothing", all.none, source("soffit"));
  const asce7::WallFigures walls = asce7::read_walls(ask, w);

  const Pressure from_inside = formulas::inside_pressure.told(w, "p_i", source(inside.key), q, ci);
  const std::string case_source = source(key_of(facing.load_case));
  for (const std::string& zone : zones) {
    const double c = worst_of(t, facing, read.at(zone), zone, w);
    const std::string own = on_roof(zone) ? "p_" + zone + ",o" : "p_" + zone;
    const Pressure outside =
        formulas::outside_pressure.told_as(w, own, w ? "pressure in zone " + zone + " from outside" : std::string(),
                                           case_source, q, as("GC_pf," + zone, c));
    all.outside[zone] = outside;
    if (on_roof(zone))
      all.net[zone] = formulas::net_of_inside.told_as(
          w, "p_" + zone, w ? "net pressure in zone " + zone + ": outside less inside" : std::string(), case_source,
          as(own, outside), as("p_i", from_inside));
  }
  all.soffit =
      formulas::outside_pressure.told_as(w, "p_soffit", "pressure from below on the overhangs that the wind meets",
                                         source("soffit"), q, as("GC_p,soffit", under));

  all.walls = asce7::wall_pressures(ask, walls, as("q_h", q), ci, w);
  return all;
}

// ---- where the zones lie -------------------------------------------------------------------------------------------

static std::string load_cases_in(const WindAsk& ask, const Frame8& f) {
  const Shape& s = ask.shape;
  if (asce7::is_flat(ask)) return "AB";
  if (f.seen(s.ridge) == Along::up) return "A";
  const auto& entries = ask.table.entries;
  const bool flat_too =
      std::any_of(entries.begin(), entries.end(), [](const Entry& e) { return e.key == "along_ridge"; });
  return std::string("B") + (flat_too ? "F" : "") + (asce7::has_hip_end(s) ? "H" : "");
}

// The line, as the wind sees it, on which zones 2 and 3 part on slopes that do not part them by themselves: half-way
// along the plan, or on a hip end the ridge (its line carried on).
static Length parting_line(const Shape& s, const Frame8& f, char load_case) {
  const bool along_the_wind = load_case != 'B';
  const bool hip_end = asce7::has_hip_end(s) && (load_case == 'A' || load_case == 'B');
  if (!hip_end) return 0.5 * (along_the_wind ? f.across() : f.up());
  const bool across = s.ridge == Along::across;
  const Length from_low = s.at(across ? Side::front : Side::left).meets,
               from_high = s.at(across ? Side::back : Side::right).meets;
  const Length u = 0.5 * (from_low + (s.span - from_high)), none = zero<Length>();
  const Point seen = f.seen(across ? Point{none, u} : Point{u, none});
  return along_the_wind ? seen.x : seen.y;
}

// Roof zones of a surface as the wind sees it: end strip 2a wide (A: along the wind, at the corner; B: across it, at
// the windward end), and windward or leeward slope (A), or the slope on the corner's side and the other (B). Slopes
// that fall to neither, and all of F and of roofs without a ridge, are parted by a line. F and H are laid out as A.
static Layout roof_layout(const WindAsk& ask, const Frame8& f, const Facing& facing, Length a, std::string name) {
  const Shape& s = ask.shape;
  Layout layout{std::move(name), {}};
  const bool halves_along_the_wind = facing.load_case != 'B';
  const bool by_line_alone = facing.load_case == 'F' || asce7::is_flat(ask);
  const Way first = halves_along_the_wind ? Way::left : Way::front;
  const Length end = 2.0 * a, middle = parting_line(s, f, facing.load_case);
  for (std::size_t i = 0; i < s.surfaces.size(); ++i) {
    const Surface& surface = s.surfaces[i];
    if (surface.part == Part::soffit) {
      const Way looks = f.seen(outward(surface.side));
      const bool met = looks == Way::left || looks == Way::front;
      layout.zones.push_back({i, surface.outline, met ? "soffit" : "soffit,lee"});
      continue;
    }
    const Polygon seen = f.seen(surface.outline);
    const Way falls = f.seen(surface.falls);
    const bool whole = !by_line_alone && is_across(falls) == halves_along_the_wind;
    const bool passed_along = !by_line_alone && !whole && !facing.along.empty();
    for (const bool first_half : {true, false})
      for (const bool at_end : {true, false}) {
        if (whole && first_half != (falls == first)) continue;
        const Length h0 = first_half || whole ? -everywhere : middle, h1 = first_half && !whole ? middle : everywhere;
        const Length e0 = at_end ? -everywhere : end, e1 = at_end ? end : everywhere;
        const Polygon part = halves_along_the_wind ? between_y(between_x(seen, h0, h1), e0, e1)
                                                   : between_x(between_y(seen, h0, h1), e0, e1);
        if (part.empty()) continue;
        std::string label = first_half ? "2" : "3";
        if (passed_along) label += 'a';
        if (at_end) label += 'E';
        if (surface.part == Part::overhang) label += ",o";
        layout.zones.push_back({i, f.own(part), std::move(label)});
      }
  }
  return layout;
}
static std::string zone_of(const std::string& label) { return label.substr(0, label.find(',')); }

// The wall zone that a side is in, or "" where the load case gives it none (A, F, H: the walls along the wind).
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
             .marks_square_on = common | of_inside | t.mark("wall") | t.mark("wall_minimum"),
             .down = asce7::down(ask),
             .marks_down = asce7::down_marks(ask)};
  c.marks = c.marks_net | c.marks_push | c.marks_square_on;
  c.net.reserve(layout.zones.size());
  for (const Zone& z : layout.zones) c.net.push_back(net(p, z.label));
  if (with_roof) c.push.insert(c.push.end(), corner.roof.begin(), corner.roof.end());
  return c;
}

namespace {
struct Told_as {
  std::string_view id, words;
};
}  // namespace
// What is said of a load case where the wind has several from one corner.
static Told_as told_as(char load_case, bool flat) {
  switch (load_case) {
    case 'F': return {" flat", ", zones as on a flat roof"};
    case 'H': return {" hip", ", hip ends as slopes across the wind"};
    case 'B': return flat ? Told_as{" along", ", load case B"} : Told_as{};
    default: return {};
  }
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
  press_on_floors(all, t, {asce7::on_floors(ask)});
  // By load case, the side that the wind meets and the inside pressure.
  std::map<std::tuple<char, Side, std::size_t>, Pressures> worked_out;
  const auto in_silence = [&](const Facing& facing, std::size_t i) -> const Pressures& {
    const auto [at, fresh] = worked_out.try_emplace({facing.load_case, facing.side, i});
    if (fresh) at->second = pressures(ask, facing, inside[i], q, nullptr);
    return at->second;
  };
  all.cases.reserve(2 * turns.size() * 2 * inside.size() + 4);  // two load cases a corner at most, taken together
  for (const Turn turn : turns) {
    const Frame8 f(s.across, s.up, turn);
    const std::string face(words(windward(f.own(Way::right)))), side(words(side_facing(f.own(Way::front))));
    for (const char load_case : load_cases_in(ask, f)) {
      const Facing facing = facing_of(ask, f, load_case);
      const Told_as told = told_as(load_case, asce7::is_flat(ask));
      Layout layout = roof_layout(ask, f, facing, a, fmt::format("{} {}{}", face, side, told.id));
      const Pressures& outside = in_silence(facing, 0);
      const Corner corner{.load_case = load_case,
                          .id = layout.name,
                          .wind = fmt::format("onto the {}, from its {} corner{}", face, side, told.words),
                          .layout = all.layouts.size(),
                          .walls = wall_pushes(s, f, load_case, a, outside),
                          .roof = roof_pushes(s, layout, outside)};
      for (std::size_t i = 0; i < inside.size(); ++i)
        for (const bool with_roof : {true, false}) {
          if (w && tell == all.cases.size()) pressures(ask, facing, inside[i], q, w);
          all.cases.push_back(corner_case(ask, corner, layout, inside[i], in_silence(facing, i), a, with_roof));
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
