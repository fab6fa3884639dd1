#include "load_path/forces.hpp"

#include "load_path/formulas.hpp"

#include <algorithm>
#include <cmath>

namespace belay {

namespace {

const Units& units_of(const House& h) { return h.print == Print::us ? us : metric; }

std::string along_source(const House& h) { return "the job's trusses, block " + h.block; }

// As the wind's working says it, so that it is told once.
constexpr std::string_view wall_height_words = "height of the walls, from the underside of the bottom plate";

Length distance(Length a, Length b) { return a > b ? a - b : b - a; }

Length overlap(Length a0, Length a1, Length b0, Length b1) {
  const Length low = std::max(a0, b0), high = std::min(a1, b1);
  return high > low ? high - low : zero<Length>();
}

// What has been computed already stands in order: an index beyond the end has not.
std::optional<Force> remembered(const std::vector<Force>& list, std::size_t i) {
  return i < list.size() ? std::optional(list[i]) : std::nullopt;
}
std::optional<Force> remembered(const std::vector<std::vector<Force>>& lists, std::size_t i, std::size_t k) {
  return i < lists.size() ? remembered(lists[i], k) : std::nullopt;
}

Force sum_of(const std::vector<Piece_of_demand>& list) {
  Force f = zero<Force>();
  for (const auto& p : list) f += p.value;
  return f;
}

}  // namespace

Forces::Forces(const House& h, const Shape& s, const Loads& l, const Table& p, bool cyclonic)
    : strips(belay::strips(h, s)), house(h), shape(s), loads(l), practice(p), cyclonic_(cyclonic) {
  for (std::size_t i = 0; i < house.walls.size(); ++i) walls.push_back(set_out_wall(house, i, practice));
  lay_out_bearings();
  lay_out_lines();
  lay_out_studs();
  cut_strips();
  land_studs();
  compute_all();
}

// ---- what there is --------------------------------------------------------------------------------------------------

void Forces::lay_out_bearings() {
  const Side near = shape.ridge == Along::across ? Side::front : Side::left;
  const Side far = shape.ridge == Along::across ? Side::back : Side::right;
  const auto wall_on = [&](Side side) {
    for (std::size_t i = 0; i < house.walls.size(); ++i)
      if (house.walls[i].outside && house.walls[i].side == side) return i;
    throw std::logic_error("a house without one of its four outside walls");
  };
  const std::size_t near_wall = wall_on(near), far_wall = wall_on(far);
  for (std::size_t t = 0; t < house.trusses.size(); ++t)
    for (const bool is_near : {true, false}) {
      const Truss& truss = house.trusses[t];
      const std::size_t wall = is_near ? near_wall : far_wall;
      bearings.push_back(
          {t, is_near, wall, truss.at - house.walls[wall].from,
           fmt::format("{} at {} {}", truss.mark, place(truss.at, units_of(house)), words(is_near ? near : far))});
    }
}

void Forces::lay_out_lines() {
  for (const Along way : {Along::across, Along::up}) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < house.walls.size(); ++i) {
      const Wall& w = house.walls[i];
      const bool braced =
          std::any_of(w.pieces.begin(), w.pieces.end(), [](const Piece& p) { return p.brace.has_value(); });
      if (w.runs == way && (w.outside || braced)) order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return house.walls[a].line < house.walls[b].line; });
    const std::size_t first = lines.size();
    for (const std::size_t i : order) {
      const Wall& w = house.walls[i];
      if (lines.size() > first && distance(lines.back().at, w.line) <= same_place) {
        lines.back().walls.push_back(i);
        lines.back().name += "+" + w.name;
        lines.back().props = lines.back().props || w.outside;
      } else {
        lines.push_back({w.name, way, w.line, {i}, w.outside});
      }
    }
  }
  for (std::size_t l = 0; l < lines.size(); ++l)
    for (const std::size_t w : lines[l].walls)
      for (std::size_t p = 0; p < house.walls[w].pieces.size(); ++p)
        if (house.walls[w].pieces[p].brace) {
          braces.push_back({w, p, l, brace_capacity(house, house.walls[w].pieces[p], practice, cyclonic_, nullptr)});
          lines[l].props = lines[l].props || braces.back().capacity.refused.empty();
        }
}

std::size_t Forces::brace_on(std::size_t wall, std::size_t piece) const {
  for (std::size_t i = 0; i < braces.size(); ++i)
    if (braces[i].wall == wall && braces[i].piece == piece) return i;
  throw std::logic_error("no brace stands on this piece of wall");
}

std::size_t Forces::stud_of(std::size_t wall, const Jamb& jamb) const {
  for (std::size_t i = 0; i < studs.size(); ++i)
    if (studs[i].wall == wall && studs[i].jamb && studs[i].jamb->piece == jamb.piece && studs[i].jamb->end == jamb.end)
      return i;
  throw std::logic_error("no stud stands beside this opening");
}

void Forces::lay_out_studs() {
  const Length merge = practice.get<Length>("stud", "same_within");
  const Length reach = practice.get<Length>("anchor_near", "within");
  // Jambs first, in the order of the walls' runs: studs under trusses join them where they stand on them.
  for (std::size_t w = 0; w < house.walls.size(); ++w)
    for (std::size_t i = 0; i < house.walls[w].pieces.size(); ++i) {
      const Piece& p = house.walls[w].pieces[i];
      if (!p.opening) continue;
      for (const End e : {End::left, End::right})
        studs.push_back({w, e == End::left ? p.from : p.to, Jamb{i, e}, {}, std::nullopt, std::nullopt, true});
    }
  for (std::size_t b = 0; b < bearings.size(); ++b) {
    const Bearing& bearing = bearings[b];
    const auto& pieces = house.walls[bearing.wall].pieces;
    const Length x = bearing.at;
    bool landed = false;
    // On a post between two openings both jambs are asked for the whole: which of them carries it is not known.
    const auto land = [&](std::size_t i, End e, double share, bool over) {
      studs[stud_of(bearing.wall, {i, e})].loads.push_back({b, share, over});
      landed = true;
    };
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      const Piece& p = pieces[i];
      if (!p.opening) continue;
      if (x > p.from + same_place && x < p.to - same_place) {
        land(i, End::left, formulas::lever_left(nullptr, p.to, x, p.from), true);
        land(i, End::right, formulas::lever_right(nullptr, x, p.from, p.to), true);
        continue;
      }
      if (distance(x, p.from) <= merge + same_place && x <= p.from + same_place) land(i, End::left, 1.0, false);
      if (distance(x, p.to) <= merge + same_place && x >= p.to - same_place) land(i, End::right, 1.0, false);
    }
    if (!landed) studs.push_back({bearing.wall, x, std::nullopt, {{b, 1.0, false}}, std::nullopt, std::nullopt, false});
  }
  for (Stud& s : studs) {
    const WallSetOut& out = walls[s.wall];
    if (s.jamb) {
      for (std::size_t i = 0; i < out.supports.size(); ++i)
        for (const Jamb& j : out.supports[i].jambs)
          if (j.piece == s.jamb->piece && j.end == s.jamb->end) s.support = i;
      continue;
    }
    for (std::size_t i = 0; i < out.plates.size(); ++i)
      if (s.at >= out.plates[i].from - same_place && s.at <= out.plates[i].to + same_place && !s.plate) s.plate = i;
    if (s.plate)
      for (const std::size_t i : out.plates[*s.plate].supports)
        s.beside_fixing = s.beside_fixing || distance(out.supports[i].at, s.at) <= reach + same_place;
  }
}

Length Forces::past_end(std::size_t truss, Length along) const {
  return is_low_end(truss) ? house.trusses[truss].at - along : along - house.trusses[truss].at;
}

std::optional<Length> Forces::space_beside(std::size_t truss) const {
  const auto& t = house.trusses;
  if (t.size() < 2) return std::nullopt;
  return truss == 0 ? t[1].at - t[0].at : t[truss].at - t[truss - 1].at;
}

// The strips, cut once for each layout of zones: area and centroid are all that a reaction needs of a piece.
void Forces::cut_strips() {
  const bool by_x = shape.ridge == Along::across;
  const auto cut = [&](const Polygon& g, Length from, Length to) {
    return by_x ? between_x(g, from, to) : between_y(g, from, to);
  };
  // A strip in up to three stretches: past the low end truss, between, past the high end truss.
  struct Stretch {
    Length from, to;
    bool verge;
  };
  const auto stretches = [&](std::size_t t) {
    std::vector<Stretch> r;
    const Length at = house.trusses[t].at, from = strips[t].from, to = strips[t].to;
    const bool low = t == 0, high = t + 1 == house.trusses.size();
    if (low && at - from > same_place) r.push_back({from, at, true});
    r.push_back({low ? at : from, high ? at : to, false});
    if (high && to - at > same_place) r.push_back({at, to, true});
    return r;
  };
  pieces_.resize(loads.layouts.size());
  for (std::size_t l = 0; l < loads.layouts.size(); ++l) {
    pieces_[l].resize(house.trusses.size());
    for (std::size_t t = 0; t < house.trusses.size(); ++t)
      for (const Stretch& s : stretches(t))
        for (std::size_t z = 0; z < loads.layouts[l].zones.size(); ++z) {
          const Polygon g = cut(loads.layouts[l].zones[z].part, s.from, s.to);
          if (g.empty()) continue;
          const Area a = area(g);
          pieces_[l][t].push_back({z, a, moment_x(g) / a, moment_y(g) / a, s.verge});
        }
  }
  dead_.resize(house.trusses.size());
  for (std::size_t t = 0; t < house.trusses.size(); ++t)
    for (const Stretch& s : stretches(t))
      for (std::size_t i = 0; i < shape.surfaces.size(); ++i) {
        if (shape.surfaces[i].part == Part::soffit) continue;
        const Polygon g = cut(shape.surfaces[i].outline, s.from, s.to);
        if (g.empty()) continue;
        const Area a = area(g);
        dead_[t].push_back({i, a, moment_x(g) / a, moment_y(g) / a, s.verge});
      }
}

void Forces::land_studs() {
  landings_.resize(house.walls.size());
  for (std::size_t w = 0; w < house.walls.size(); ++w) landings_[w].resize(walls[w].supports.size());
  for (std::size_t i = 0; i < studs.size(); ++i) {
    const Stud& s = studs[i];
    if (s.loads.empty()) continue;
    if (s.support) landings_[s.wall][*s.support].push_back({i, 1.0, 1.0, true});
    if (!s.plate) continue;
    const auto& on = walls[s.wall].plates[*s.plate].supports;
    if (on.empty()) continue;
    std::vector<Length> at;
    for (const std::size_t k : on) at.push_back(walls[s.wall].supports[k].at);
    const auto lever = lever_shares(at, s.at), continuous = continuous_shares(at, s.at);
    for (std::size_t k = 0; k < on.size(); ++k) landings_[s.wall][on[k]].push_back({i, lever[k], continuous[k], false});
  }
}

// What has been computed is remembered, case by case, in the order in which one thing rests on another.
void Forces::compute_all() {
  area_shares_.resize(loads.cases.size());
  for (std::size_t c = 0; c < loads.cases.size(); ++c)
    for (std::size_t t = 0; t < house.trusses.size() && !of(c).net_small.empty(); ++t)
      area_shares_[c].push_back(area_share(of(c).by_area, t, nullptr));
  memo_.resize(loads.cases.size());
  for (std::size_t c = 0; c < loads.cases.size(); ++c) {
    Remembered& m = memo_[c];
    for (std::size_t b = 0; b < bearings.size(); ++b) m.uplift.push_back(uplift(c, b));
    for (std::size_t b = 0; b < bearings.size(); ++b) m.exact.push_back(exact_uplift(c, b));
    for (std::size_t s = 0; s < studs.size(); ++s) m.stud.push_back(stud_uplift(c, s));
    for (std::size_t l = 0; l < lines.size(); ++l) m.line.push_back(line_force(c, l));
    for (std::size_t l = 0; l < lines.size(); ++l) m.exact_line.push_back(exact_line_force(c, l));
    for (std::size_t i = 0; i < braces.size(); ++i) m.brace_counted.push_back(brace_capacity_counted(c, i));
    for (std::size_t l = 0; l < lines.size(); ++l) m.line_capacity.push_back(line_capacity(c, l));
    for (std::size_t i = 0; i < braces.size(); ++i) m.brace.push_back(brace_force(c, i));
    for (std::size_t b = 0; b < bearings.size(); ++b) m.bracket_across.push_back(bracket_across(c, b));
    for (std::size_t b = 0; b < bearings.size(); ++b) m.bracket_along.push_back(bracket_along(c, b));
    const auto each_support = [&](std::vector<std::vector<Force>>& to, const auto& compute) {
      to.resize(walls.size());
      for (std::size_t w = 0; w < walls.size(); ++w)
        for (std::size_t s = 0; s < walls[w].supports.size(); ++s) to[w].push_back(compute(w, s));
    };
    each_support(m.roof_on, [&](std::size_t w, std::size_t s) { return roof_on(c, w, s); });
    each_support(m.pull, [&](std::size_t w, std::size_t s) { return pull(c, w, s); });
    each_support(m.along, [&](std::size_t w, std::size_t s) { return along(c, w, s); });
    each_support(m.across, [&](std::size_t w, std::size_t s) { return across(c, w, s); });
  }
}

// ---- roof -----------------------------------------------------------------------------------------------------------

Length Forces::from_bearing(const Bearing& b, Length x, Length y) const {
  const Length across_span = shape.ridge == Along::across ? y : x;
  return b.near ? across_span : shape.span - across_span;
}

Area Forces::loaded_area(std::size_t truss, Working* w) const {
  const std::string number = w ? std::to_string(truss + 1) : std::string();
  const Length width = given(w, "b_t" + number, "width of the strip that the truss holds",
                             strips[truss].to - strips[truss].from, along_source(house));
  const Length eaves = given(w, "e", "eaves, on plan", shape.eaves, "the job's roof");
  if (!w) return formulas::loaded_area(nullptr, width, shape.span, eaves);
  return formulas::loaded_area.told(w, "A_t" + number, "geometry", as("b_t" + number, width), shape.span, eaves);
}
double Forces::area_share(const ByArea& by, std::size_t truss, Working* w) const {
  const std::string number = w ? std::to_string(truss + 1) : std::string();
  const Area a = loaded_area(truss, w);
  if (a <= by.small) return 0.0;
  if (a >= by.large) return 1.0;
  given(w, "A_s", "small area of the method's figure", by.small, by.source);
  given(w, "A_l", "large area of the method's figure", by.large, by.source);
  if (!w)
    return by.logarithmic ? formulas::area_share_by_logarithm(nullptr, a, by.small, by.large)
                          : formulas::area_share(nullptr, a, by.small, by.large);
  const auto own = as("A_t" + number, a);
  return by.logarithmic
             ? formulas::area_share_by_logarithm.told(w, "k_t" + number, by.source, own, as("A_s", by.small),
                                                      as("A_l", by.large))
             : formulas::area_share.told(w, "k_t" + number, by.source, own, as("A_s", by.small), as("A_l", by.large));
}
std::string Forces::net_symbol(std::size_t c, std::size_t zone, std::size_t truss) const {
  const std::string own = "p_" + loads.layouts[of(c).layout].zones[zone].label;
  if (of(c).net_small.empty()) return own;
  const double share = area_shares_[c][truss];
  return share <= 0.0 ? own + ",s" : share >= 1.0 ? own + ",l" : fmt::format("{},{}", own, truss + 1);
}
Pressure Forces::net(std::size_t c, std::size_t zone, std::size_t truss, Working* w) const {
  const Pressure large = of(c).net[zone];
  if (of(c).net_small.empty()) return large;
  const Pressure small = of(c).net_small[zone];
  const double share = area_shares_[c][truss];
  if (share <= 0.0) return small;
  if (share >= 1.0) return large;
  if (!w) return formulas::pressure_for_area(nullptr, small, large, share);
  const std::string symbol = net_symbol(c, zone, truss);
  if (!w->first("pressure " + symbol)) return formulas::pressure_for_area(nullptr, small, large, share);
  const std::string own = "p_" + loads.layouts[of(c).layout].zones[zone].label;
  return formulas::pressure_for_area.told(w, symbol, of(c).by_area.source, as(own + ",s", small), as(own + ",l", large),
                                          as(fmt::format("k_t{}", truss + 1), share));
}

Pressure Forces::dead_pressure(Working* w) const {
  const RoofWeight& g = house.roof.weight;
  if (!g.on_slope)
    return given(w, "g", "roof weight that is sure to be there, on plan", g.least, "the job, roof.weight");
  given(w, "g_s", "roof weight that is sure to be there, on the slope", g.least, "the job, roof.weight");
  return formulas::weight_on_plan(w, as("g_s", g.least), house.roof.pitch);
}

// The measures of one piece of the strip, numbered n: what wind and weight on it are told by.
void Forces::tell_piece(const Bearing& b, std::size_t surface, Area a, Length x, Length y, bool verge, std::size_t n,
                        Working& w) const {
  const Surface& s = shape.surfaces[surface];
  const std::string_view part = s.part == Part::roof       ? "slope"
                                : s.part == Part::overhang ? "slope, past the wall"
                                                           : "soffit";
  const std::string what =
      fmt::format("{} {}{}", words(side_facing(s.falls)), part, verge ? ", past the end truss" : "");
  given(&w, fmt::format("A_{}", n), fmt::format("plan area of the strip on the {}", what), a, along_source(house));
  given(&w, fmt::format("u_{}", n), "level distance of its middle from this bearing", from_bearing(b, x, y),
        along_source(house));
  if (s.part != Part::soffit)
    given(&w, fmt::format("z_{}", n), "height of its middle above the bearings", height_at(s, {x, y}),
          along_source(house));
}

Force Forces::wind_row(std::size_t c, const Bearing& b, const StripPiece& piece, std::string_view symbol, std::size_t n,
                       Working* w) const {
  const Surface& s = shape.surfaces[loads.layouts[of(c).layout].zones[piece.zone].surface];
  const Pressure p = net(c, piece.zone, b.truss);
  const Length u = from_bearing(b, piece.x, piece.y);
  const auto pressure = [&] { return as(net_symbol(c, piece.zone, b.truss), p); };
  const auto own = [&](std::string_view of, const auto& q) { return as(fmt::format("{}_{}", of, n), q); };
  if (s.part == Part::soffit)
    return w ? formulas::lift_soffit.told(w, symbol, "moments", pressure(), own("A", piece.a), shape.span, own("u", u))
             : formulas::lift_soffit(nullptr, p, piece.a, shape.span, u);
  const Length z = height_at(s, {piece.x, piece.y});
  const bool leans_here =
      shape.ridge == Along::across ? (s.falls == Way::front) == b.near : (s.falls == Way::left) == b.near;
  if (w) {
    return leans_here ? formulas::lift_near.told(w, symbol, "moments", pressure(), own("A", piece.a), shape.span,
                                                 own("u", u), own("z", z), house.roof.pitch)
                      : formulas::lift_far.told(w, symbol, "moments", pressure(), own("A", piece.a), shape.span,
                                                own("u", u), own("z", z), house.roof.pitch);
  }
  return leans_here ? formulas::lift_near(nullptr, p, piece.a, shape.span, u, z, house.roof.pitch)
                    : formulas::lift_far(nullptr, p, piece.a, shape.span, u, z, house.roof.pitch);
}

Force Forces::dead_row(const Bearing& b, const DeadPiece& piece, std::string_view symbol, std::size_t n,
                       Working* w) const {
  const Pressure g = dead_pressure(nullptr);
  const Length u = from_bearing(b, piece.x, piece.y);
  if (!w) return formulas::weight_on_bearing(nullptr, g, piece.a, shape.span, u);
  return formulas::weight_on_bearing.told(w, symbol, "moments", g, as(fmt::format("A_{}", n), piece.a), shape.span,
                                          as(fmt::format("u_{}", n), u));
}

Forces::Wind_and_dead Forces::own_strip(std::size_t c, std::size_t bearing, Working* w) const {
  const Bearing& b = bearings[bearing];
  const auto space = is_end(b.truss) ? space_beside(b.truss) : std::nullopt;
  const std::string number = w ? std::to_string(b.truss + 1) : std::string();
  const auto lever = [&](Force f, std::string_view own, const std::string& symbol, std::size_t piece, Length x,
                         Length y) {
    const Length d = past_end(b.truss, along_ridge(x, y));
    if (w)
      return formulas::outrigger.told(w, symbol, "moments", as(std::string(own), f), as(fmt::format("d_{}", piece), d),
                                      *space);
    return formulas::outrigger(nullptr, f, d, *space);
  };
  // All measures first, each piece's once: a piece that wind and weight share has one number.
  struct Measured {
    std::size_t surface;
    Area a;
    Length x, y;
    bool verge;
  };
  std::vector<Measured> measured;
  const auto number_of = [&](std::size_t surface, Area a, Length x, Length y, bool verge) -> std::size_t {
    if (!w) return 0;
    for (std::size_t i = 0; i < measured.size(); ++i) {
      const Measured& m = measured[i];
      if (m.surface == surface && m.verge == verge && value(m.a) == value(a) && value(m.x) == value(x) &&
          value(m.y) == value(y))
        return i + 1;
    }
    measured.push_back({surface, a, x, y, verge});
    tell_piece(b, surface, a, x, y, verge, measured.size(), *w);
    if (verge && space)
      given(w, fmt::format("d_{}", measured.size()), "distance of its middle past the end truss",
            past_end(b.truss, along_ridge(x, y)), along_source(house));
    return measured.size();
  };
  const auto surface_of = [&](const StripPiece& p) { return loads.layouts[of(c).layout].zones[p.zone].surface; };
  if (w) {
    given(w, "s", "span between the bearings", shape.span, along_source(house));
    given(w, "theta", "pitch of the roof", house.roof.pitch, "the job's roof");
    if (space) given(w, "s_1", "first space between trusses", *space, along_source(house));
    if (!of(c).net_small.empty()) {
      area_share(of(c).by_area, b.truss, w);
      for (const StripPiece& p : pieces_[of(c).layout][b.truss]) net(c, p.zone, b.truss, w);
    }
    for (const StripPiece& p : pieces_[of(c).layout][b.truss])
      if (net(c, p.zone, b.truss) != zero<Pressure>()) number_of(surface_of(p), p.a, p.x, p.y, p.verge);
    for (const DeadPiece& p : dead_[b.truss]) number_of(p.surface, p.a, p.x, p.y, p.verge);
    dead_pressure(w);
  }
  std::vector<As<Force>> wind, dead;
  int n = 0;
  for (const StripPiece& p : pieces_[of(c).layout][b.truss]) {
    if (net(c, p.zone, b.truss) == zero<Pressure>()) continue;
    const std::string symbol = w ? fmt::format("W_{}.{}", number, ++n) : std::string();
    const std::size_t piece = number_of(surface_of(p), p.a, p.x, p.y, p.verge);
    wind.push_back(as(symbol, wind_row(c, b, p, symbol, piece, w)));
    if (p.verge && space) {
      const std::string x = w ? fmt::format("X_{}.{}", number, n) : std::string();
      wind.push_back(as(x, lever(wind.back().quantity, symbol, x, piece, p.x, p.y)));
    }
  }
  n = 0;
  for (const DeadPiece& p : dead_[b.truss]) {
    const std::string symbol = w ? fmt::format("D_{}.{}", number, ++n) : std::string();
    const std::size_t piece = number_of(p.surface, p.a, p.x, p.y, p.verge);
    dead.push_back(as(symbol, dead_row(b, p, symbol, piece, w)));
    if (p.verge && space) {
      const std::string x = w ? fmt::format("Y_{}.{}", number, n) : std::string();
      dead.push_back(as(x, lever(dead.back().quantity, symbol, x, piece, p.x, p.y)));
    }
  }
  return {total<Force>(w, w ? "W_" + number : std::string(), "wind on this truss, at this bearing", "sum", wind),
          total<Force>(w, w ? "D_" + number : std::string(), "weight on this truss, at this bearing", "sum", dead)};
}

// The far end of a verge's lever: what it takes from the truss next to the end truss (negative), or adds when the verge
// is pressed down.
Force Forces::carried(std::size_t c, std::size_t bearing, Working* w) const {
  const Bearing& b = bearings[bearing];
  const std::size_t last = house.trusses.size() - 1;
  const auto& f = of(c).combination;
  Force sum = zero<Force>();
  for (const std::size_t end : {std::size_t{0}, last}) {
    if (last == 0 || end == b.truss || (end == 0 ? b.truss != 1 : b.truss + 1 != last)) continue;
    const Bearing there{end, b.near, b.wall, house.trusses[end].at, {}};
    const Length space = *space_beside(end);
    for (const StripPiece& p : pieces_[of(c).layout][end])
      if (p.verge)
        sum += f.wind * formulas::carried_over(nullptr, wind_row(c, there, p, "W", 0, nullptr),
                                               past_end(end, along_ridge(p.x, p.y)), space);
    for (const DeadPiece& p : dead_[end])
      if (p.verge)
        sum -= f.dead * formulas::carried_over(nullptr, dead_row(there, p, "D", 0, nullptr),
                                               past_end(end, along_ridge(p.x, p.y)), space);
  }
  if (w && sum > zero<Force>())
    given(w, "K", "added by a verge that is pressed down: the other end of its lever", sum,
          "moments, from the verge's strip");
  return sum;
}

Force Forces::uplift(std::size_t c, std::size_t bearing, Working* w) const {
  if (const auto known = remembered(memo_[c].uplift, bearing);
      known && (!w || !w->first(fmt::format("uplift {}", bearing))))
    return *known;
  const Bearing& b = bearings[bearing];
  const auto& f = of(c).combination;
  const std::string symbol = w ? fmt::format("U_{}", b.truss + 1) : std::string();
  if (w) {
    w->heading(fmt::format("The roof lifts: {}", b.words));
    // A truss like one already told is not told again: same strip, same pressures, the same number.
    const Force known = memo_[c].uplift[bearing];
    const auto width = [&](std::size_t t) { return strips[t].to - strips[t].from; };
    for (std::size_t t = 0; t < house.trusses.size(); ++t) {
      const std::string like = fmt::format("U_{}", t + 1);
      const auto told = std::find_if(w->steps.begin(), w->steps.end(),
                                     [&](const Step& s) { return s.symbol == like && s.kind == StepKind::formula; });
      if (t == b.truss || told == w->steps.end() || distance(width(t), width(b.truss)) > same_place) continue;
      if (std::abs(told->result.si - value(known).si) > 1e-9 * std::abs(told->result.si)) continue;
      w->heading("The roof lifts: trusses like one above");
      return given(w, symbol, fmt::format("net uplift at {}, an equal strip under equal pressures", b.words), known,
                   "as " + like);
    }
  }
  if (w) {
    given(w, "f_w", "factor on the wind", f.wind, f.source);
    given(w, "f_d", "factor on weight that holds down", f.dead, f.source);
  }
  const Wind_and_dead own = own_strip(c, bearing, w);
  const Force extra = carried(c, bearing, w);
  if (extra > zero<Force>()) {
    const std::string number = w ? std::to_string(b.truss + 1) : std::string();
    const Force net = w ? formulas::net_uplift.told(w, "U_n", f.source, f.wind, as("W_" + number, own.wind), f.dead,
                                                    as("D_" + number, own.dead))
                        : formulas::net_uplift(nullptr, f.wind, own.wind, f.dead, own.dead);
    return total<Force>(w, symbol, "net uplift at the bearing, with what the verge's lever adds", "sum",
                        {as("U_n", net), as("K", extra)});
  }
  if (!w) return formulas::net_uplift(nullptr, f.wind, own.wind, f.dead, own.dead);
  const std::string number = std::to_string(b.truss + 1);
  return formulas::net_uplift.told(w, symbol, f.source, f.wind, as("W_" + number, own.wind), f.dead,
                                   as("D_" + number, own.dead));
}

Force Forces::exact_uplift(std::size_t c, std::size_t bearing) const {
  if (const auto known = remembered(memo_[c].exact, bearing)) return *known;
  const auto& f = of(c).combination;
  const Wind_and_dead own = own_strip(c, bearing, nullptr);
  return formulas::net_uplift(nullptr, f.wind, own.wind, f.dead, own.dead) + carried(c, bearing, nullptr);
}

std::vector<Piece_of_demand> Forces::uplift_made_of(std::size_t c, std::size_t bearing) const {
  const Bearing& b = bearings[bearing];
  const auto& f = of(c).combination;
  Force slopes = zero<Force>(), past = zero<Force>(), soffits = zero<Force>(), lever = zero<Force>();
  const auto space = is_end(b.truss) ? space_beside(b.truss) : std::nullopt;
  for (const StripPiece& p : pieces_[of(c).layout][b.truss]) {
    const Surface& s = shape.surfaces[loads.layouts[of(c).layout].zones[p.zone].surface];
    const Force lift = f.wind * wind_row(c, b, p, "W", 0, nullptr);
    (s.part == Part::roof ? slopes : s.part == Part::overhang ? past : soffits) += lift;
    if (p.verge && space) lever += formulas::outrigger(nullptr, lift, past_end(b.truss, along_ridge(p.x, p.y)), *space);
  }
  std::vector<Piece_of_demand> r{{"wind on the slopes over the house", b.words, slopes},
                                 {"wind on eaves and verges, from above", b.words, past}};
  if (soffits != zero<Force>()) r.push_back({"wind under the soffits", b.words, soffits});
  if (lever != zero<Force>()) r.push_back({"lever of the verge on the first space", b.words, lever});
  r.push_back({fmt::format("{} of the roof's weight", f.dead), b.words, -f.dead * own_strip(c, bearing, nullptr).dead});
  const Force extra = carried(c, bearing, nullptr);
  if (extra > zero<Force>()) r.push_back({"other end of a verge's lever", b.words, extra});
  return r;
}

Force Forces::bracket_across(std::size_t c, std::size_t bearing, Working* w) const {
  if (const auto known = remembered(memo_[c].bracket_across, bearing); known && !w) return *known;
  const Bearing& b = bearings[bearing];
  if (w) w->heading(fmt::format("The wind square on to the wall, at {}", b.words));
  return total<Force>(w, "B_c", "across the wall at the bracket", "sum",
                      square_on(c, house.walls[b.wall], strips[b.truss].from, strips[b.truss].to, "B_c",
                                "width of wall that this truss props", "statics: the upper half goes to the truss", w));
}

// Half of the push square on a stretch of an outside wall, by stretches of even pressure; inside walls have none.
std::vector<As<Force>> Forces::square_on(std::size_t c, const Wall& wall, Length from, Length to,
                                         const std::string& symbol, const char* width_words, const char* source,
                                         Working* w) const {
  std::vector<As<Force>> rows;
  const double f = of(c).combination.wind;
  for (const SquareOn& s : of(c).square_on) {
    if (!wall.outside || s.side != wall.side) continue;
    const Length width = overlap(from, to, s.from, s.to);
    if (width <= zero<Length>()) continue;
    if (!w) {
      rows.push_back(as("", formulas::pushed_square_on(nullptr, f, s.p, house.height, width)));
      continue;
    }
    const std::string row = fmt::format("{}{}", symbol, rows.size() + 1);
    given(w, "f_w", "factor on the wind", f, of(c).combination.source);
    given(w, "h_w", wall_height_words, house.height, "the job's block");
    given(w, "b", width_words, width, "the set-out");
    rows.push_back(
        as(row, formulas::pushed_square_on.told(w, row, source, f, as("p_sq," + s.label, s.p), house.height, width)));
  }
  return rows;
}

Force Forces::bracket_along(std::size_t c, std::size_t bearing, Working* w) const {
  if (const auto known = remembered(memo_[c].bracket_along, bearing); known && !w) return *known;
  const Bearing& b = bearings[bearing];
  const Wall& wall = house.walls[b.wall];
  for (std::size_t l = 0; l < lines.size(); ++l) {
    if (std::find(lines[l].walls.begin(), lines[l].walls.end(), b.wall) == lines[l].walls.end()) continue;
    const Force v = line_force(c, l, w);
    const Force size = v < zero<Force>() ? -v : v;
    const Length width =
        overlap(strips[b.truss].from - wall.from, strips[b.truss].to - wall.from, zero<Length>(), wall.length());
    if (w) {
      w->heading(fmt::format("Down through the brackets into the wall, at {}", b.words));
      given(w, "b", "length of wall that this truss serves", width, along_source(house));
      given(w, "L", "length of the wall", wall.length(), "the job");
    }
    return formulas::along_bracket(w, as("V", size), width, wall.length());
  }
  return zero<Force>();
}

// ---- down the wall --------------------------------------------------------------------------------------------------

// One truss that stands on the stud and lifts is told as that truss's uplift.
std::string Forces::stud_symbol(std::size_t c, std::size_t stud) const {
  const auto& on = studs[stud].loads;
  if (on.size() == 1 && !on.front().over_opening && uplift(c, on.front().bearing) >= zero<Force>())
    return fmt::format("U_{}", bearings[on.front().bearing].truss + 1);
  return fmt::format("S_{}", stud + 1);
}

Force Forces::stud_uplift(std::size_t c, std::size_t stud, Working* w) const {
  if (const auto known = remembered(memo_[c].stud, stud); known && !w) return *known;
  const Stud& s = studs[stud];
  std::vector<As<Force>> rows;
  if (w && !w->first(fmt::format("stud {}", stud))) w = nullptr;
  if (w)
    for (const auto& load : s.loads) uplift(c, load.bearing, w);
  const std::string symbol = w ? stud_symbol(c, stud) : std::string();
  if (w && symbol.starts_with('U')) return uplift(c, s.loads.front().bearing);
  if (w) w->heading(fmt::format("Down to the stud: {}", stud_words(s)));
  if (w && s.jamb) {
    const Piece& p = house.walls[s.wall].pieces[s.jamb->piece];
    given(w, "x_1", "left jamb of the opening, from the wall's start", p.from, "the job");
    given(w, "x_2", "right jamb of the opening", p.to, "the job");
  }
  if (w)
    for (const auto& load : s.loads)
      if (load.over_opening)
        given(w, fmt::format("t_{}", bearings[load.bearing].truss + 1),
              fmt::format("place of {}", bearings[load.bearing].words), bearings[load.bearing].at, "the job");
  for (const auto& load : s.loads) {
    const Force u = uplift(c, load.bearing);
    const std::size_t number = bearings[load.bearing].truss + 1;
    if (!w) {
      rows.push_back(as("", formulas::landed(nullptr, load.share, u)));
      continue;
    }
    const std::string k = fmt::format("j_{}", number), f = fmt::format("F_{}", number),
                      up = fmt::format("U_{}", number);
    if (!load.over_opening) {
      rows.push_back(as(up, u));  // the truss stands on this stud
      continue;
    }
    const Piece& p = house.walls[s.wall].pieces[s.jamb->piece];
    const auto place = as(fmt::format("t_{}", number), bearings[load.bearing].at);
    if (s.jamb->end == End::left) formulas::lever_left.told(w, k, "the lintel is a simple span", p.to, place, p.from);
    else formulas::lever_right.told(w, k, "the lintel is a simple span", place, p.from, p.to);
    rows.push_back(as(f, formulas::landed.told(w, f, "statics", as(k, load.share), as(up, u))));
  }
  const Force sum = total<Force>(w, w ? symbol + ",n" : std::string(), "all its loads together", "sum", rows);
  if (sum >= zero<Force>())
    return w ? greatest<Force>(w, symbol, "uplift that comes down this stud", "sum", {as(symbol + ",n", sum)}) : sum;
  if (w) given(w, "nothing", "pressed down: no uplift", zero<Force>(), "statics");
  return w ? greatest<Force>(w, symbol, "uplift that comes down this stud, not below nothing",
                             "a pressed stud gives no relief", {as(symbol + ",n", sum), as("nothing", zero<Force>())})
           : zero<Force>();
}

std::vector<Piece_of_demand> Forces::stud_made_of(std::size_t c, std::size_t stud) const {
  std::vector<Piece_of_demand> r;
  for (const auto& load : studs[stud].loads)
    r.push_back({load.over_opening ? "roof over the opening" : "roof on this stud", bearings[load.bearing].words,
                 load.share * uplift(c, load.bearing)});
  const Force sum = sum_of(r);
  if (sum < zero<Force>()) r.push_back({"pressed down: counted as nothing", "", -sum});
  return r;
}

// ---- bracing --------------------------------------------------------------------------------------------------------

std::vector<std::size_t> Forces::lines_running(Along way) const {
  std::vector<std::size_t> r;
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (lines[i].runs == way && lines[i].props) r.push_back(i);
  return r;
}

std::vector<Forces::LineRow> Forces::line_rows(std::size_t c, std::size_t line) const {
  if (!lines[line].props) return {};  // nothing on it counts: the others do without it
  const auto order = lines_running(lines[line].runs);
  const auto me = static_cast<std::size_t>(std::find(order.begin(), order.end(), line) - order.begin());
  std::vector<LineRow> rows;
  if (order.size() < 2) throw std::logic_error("fewer than two bracing lines in a direction");
  const double f = of(c).combination.wind;
  const Length x = lines[line].at;
  // Past the first and the last line the ceiling is a cantilever: the same two formulas, with a share above 1 for the
  // end line and below 0 (relief) for the next.
  const auto add = [&](const Push& push, Length from, Length to, Length other, bool relief) {
    const Polygon g = between_x(between_y(push.part, house.height / 2.0, everywhere), from, to);
    if (g.empty()) return;
    const Area a = area(g);
    const Length middle = moment_x(g) / a;
    const bool positive = push.towards == Way::right || push.towards == Way::back;
    const Force r = other > x ? formulas::racking_share(nullptr, f, push.p, a, other, middle, x)
                              : formulas::racking_share_upper(nullptr, f, push.p, a, middle, other, x);
    rows.push_back({push.what, push.label, positive ? r : -r, relief, push.p, a, middle, other, positive});
  };
  for (const Push& push : of(c).push) {
    if (is_across(push.towards) != (lines[line].runs == Along::across)) continue;
    const std::size_t last = order.size() - 1;
    if (me == 0) add(push, -everywhere, x, lines[order[1]].at, false);
    if (me > 0) add(push, lines[order[me - 1]].at, x, lines[order[me - 1]].at, false);
    if (me < last) add(push, x, lines[order[me + 1]].at, lines[order[me + 1]].at, false);
    if (me == last) add(push, x, everywhere, lines[order[last - 1]].at, false);
    if (me == 1) add(push, -everywhere, lines[order[0]].at, lines[order[0]].at, true);
    if (me + 1 == last) add(push, lines[order[last]].at, everywhere, lines[order[last]].at, true);
  }
  return rows;
}

namespace {
template <class Rows> Force sum_of_rows(const Rows& rows, bool with_relief) {
  Force sum = zero<Force>();
  for (const auto& row : rows)
    if (with_relief || !row.past_end_relief) sum += row.value;
  return sum;
}
Force size(Force f) { return f < zero<Force>() ? -f : f; }
}  // namespace

Force Forces::line_force(std::size_t c, std::size_t line, Working* w) const {
  if (const auto known = remembered(memo_[c].line, line); known && (!w || !w->first(fmt::format("line {}", line))))
    return *known;
  auto rows = line_rows(c, line);
  const Force without = sum_of_rows(rows, false), with = sum_of_rows(rows, true);
  // Relief that a ceiling past its end line would give the next line is not used; if it is no relief, it is.
  const bool keep = size(with) > size(without);
  const Force v = keep ? with : without;
  if (!w) return v;
  if (!keep) std::erase_if(rows, [](const LineRow& row) { return row.past_end_relief; });
  tell_line(c, line, rows, v < zero<Force>(), *w);
  return v;
}

// Told in the direction in which the line is pushed, so that V is positive; pushes the other way count negative in it.
void Forces::tell_line(std::size_t c, std::size_t line, const std::vector<LineRow>& rows, bool negative,
                       Working& w) const {
  const Line& me = lines[line];
  const double f = of(c).combination.wind;
  const auto symbol = [&](Length at) {
    const auto there = std::find_if(lines.begin(), lines.end(),
                                    [&](const Line& l) { return l.runs == me.runs && value(l.at) == value(at); });
    return "x_" + house.walls[there->walls.front()].name;
  };
  const auto tell_place = [&](Length at) {
    const auto there = std::find_if(lines.begin(), lines.end(),
                                    [&](const Line& l) { return l.runs == me.runs && value(l.at) == value(at); });
    given(&w, symbol(at), fmt::format("place of bracing line {} along the face", there->name), at, "the job");
  };
  w.heading(fmt::format("What bracing line {} has to hold", me.name));
  given(&w, "f_w", "factor on the wind", f, of(c).combination.source);
  tell_place(me.at);
  for (const LineRow& row : rows) tell_place(row.other);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    given(&w, fmt::format("A_{}", i + 1), fmt::format("area above half-height that pushes here: {}", rows[i].what),
          rows[i].area, "measured from the job");
    given(&w, fmt::format("m_{}", i + 1), "its middle, along the face", rows[i].middle, "measured from the job");
  }
  std::vector<As<Force>> told;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const LineRow& row = rows[i];
    const auto p = as("p_" + row.label, row.p);
    const auto a = as(fmt::format("A_{}", i + 1), row.area);
    const auto m = as(fmt::format("m_{}", i + 1), row.middle), here = as(symbol(me.at), me.at),
               there = as(symbol(row.other), row.other);
    const std::string own = fmt::format("R_{}", i + 1);
    const bool against = row.positive == negative, upper = row.other <= me.at;
    const Force r =
        upper ? (against ? formulas::racking_share_upper_against.told(&w, own, "moments", f, p, a, m, there, here)
                         : formulas::racking_share_upper.told(&w, own, "moments", f, p, a, m, there, here))
              : (against ? formulas::racking_share_against.told(&w, own, "moments", f, p, a, there, m, here)
                         : formulas::racking_share.told(&w, own, "moments", f, p, a, there, m, here));
    told.push_back(as(own, r));
  }
  total<Force>(&w, "V", fmt::format("force on line {}", me.name), "sum", told);
}

Force Forces::exact_line_force(std::size_t c, std::size_t line) const {
  if (const auto known = remembered(memo_[c].exact_line, line)) return *known;
  return sum_of_rows(line_rows(c, line), true);
}

std::vector<Piece_of_demand> Forces::line_made_of(std::size_t c, std::size_t line) const {
  // Rows of one push are one entry: the builder asks which part of the face pushes, not which bay.
  const auto rows = line_rows(c, line);
  const Force without = sum_of_rows(rows, false), with = sum_of_rows(rows, true);
  const bool keep = size(with) > size(without);
  const double sign = (keep ? with : without) < zero<Force>() ? -1.0 : 1.0;
  std::vector<Piece_of_demand> r;
  for (const LineRow& row : rows) {
    if (row.past_end_relief && !keep) continue;
    const auto same = std::find_if(r.begin(), r.end(), [&](const Piece_of_demand& p) { return p.what == row.what; });
    if (same != r.end()) same->value += sign * row.value;
    else r.push_back({row.what, of(c).wind, sign * row.value});
  }
  return r;
}

Force Forces::brace_capacity_counted(std::size_t c, std::size_t brace, Working* w) const {
  if (const auto known = remembered(memo_[c].brace_counted, brace); known && !w) return *known;
  const BraceAt& b = braces[brace];
  const Force v = line_force(c, b.line, nullptr);
  const auto own = [&](const BraceCapacity& k) {
    return !k.refused.empty() ? zero<Force>() : v < zero<Force>() ? k.minus : k.plus;
  };
  const Force capacity = own(b.capacity);
  const Brace& drawn = *house.walls[b.wall].pieces[b.piece].brace;
  const std::string symbol = w ? "C_" + drawn.name : std::string();
  if (w) {
    if (!w->first("capacity " + drawn.name)) w = nullptr;
  }
  if (w) {
    w->heading(fmt::format("What brace {} can hold", drawn.name));
    if (b.capacity.refused.empty()) brace_capacity(house, house.walls[b.wall].pieces[b.piece], practice, cyclonic_, w);
    if (capacity == zero<Force>())
      return given(w, symbol, fmt::format("brace {} does not count in this sense", drawn.name), zero<Force>(),
                   "its conditions");
  }
  if (!b.capacity.lining)
    return w ? greatest<Force>(w, symbol, fmt::format("brace {} in this sense", drawn.name), "the brace's kind",
                               {as("C_b", capacity)})
             : capacity;
  // Lining counts for half of the line at most: of its force in exact balance, so that the lines together stay within
  // half of the floor's too.
  Force all = zero<Force>();
  for (const BraceAt& other : braces)
    if (other.line == b.line && other.capacity.lining) all += own(other.capacity);
  const double share = practice.number("lining", "greatest_share");
  const Force exact = size(exact_line_force(c, b.line));
  const Force half = formulas::half_of(nullptr, share, std::min(exact, size(v)));
  if (all <= half)
    return w ? greatest<Force>(w, symbol,
                               fmt::format("lining {} in full: not above half of the line's force", drawn.name),
                               "AS 1684.2 Table 8.17", {as("C_b", capacity)})
             : capacity;
  if (!w) return formulas::lining_counted(nullptr, capacity, half, all);
  given(w, "k_l", "greatest share of lining", share, practice.source("lining"));
  line_force(c, b.line, w);
  w->heading(fmt::format("What brace {} can hold", drawn.name));
  const std::string force = exact < size(v) ? "V_e" : "V";
  if (exact < size(v))
    given(w, force, "the line's force with the relief past the end lines left in", exact, "the sum of the line's rows");
  formulas::half_of.told(w, "C_n", practice.source("lining"), as("k_l", share), as(force, std::min(exact, size(v))));
  given(w, "C_l", "all lining of this line", all, "sum of the line's lining");
  return formulas::lining_counted.told(w, symbol, practice.source("lining"), as("C_b", capacity), as("C_n", half),
                                       as("C_l", all));
}

std::string Forces::capacity_symbol(std::size_t line) const {
  std::string only;
  for (const BraceAt& b : braces)
    if (b.line == line) {
      if (!only.empty()) return "C";
      only = "C_" + house.walls[b.wall].pieces[b.piece].brace->name;
    }
  return only.empty() ? "C" : only;
}

Force Forces::line_capacity(std::size_t c, std::size_t line, Working* w) const {
  if (const auto known = remembered(memo_[c].line_capacity, line);
      known && (!w || !w->first(fmt::format("line capacity {}", line))))
    return *known;
  std::vector<As<Force>> rows;
  for (std::size_t i = 0; i < braces.size(); ++i)
    if (braces[i].line == line) {
      const std::string& name = house.walls[braces[i].wall].pieces[braces[i].piece].brace->name;
      rows.push_back(as(w ? "C_" + name : std::string(), brace_capacity_counted(c, i, w)));
    }
  if (w && rows.size() == 1) return rows.front().quantity;  // told as the brace's: see capacity_symbol
  if (w) w->heading(fmt::format("What bracing line {} can hold", lines[line].name));
  return total<Force>(w, "C", fmt::format("strength of line {} in this sense", lines[line].name), "sum", rows);
}

Force Forces::brace_force(std::size_t c, std::size_t brace, Working* w) const {
  if (const auto known = remembered(memo_[c].brace, brace); known && (!w || !w->first(fmt::format("brace {}", brace))))
    return *known;
  const BraceAt& b = braces[brace];
  const Force v = size(line_force(c, b.line, w));
  const Force all = line_capacity(c, b.line, w);
  const Force own = brace_capacity_counted(c, brace, w);
  if (own <= zero<Force>() || all <= zero<Force>()) return zero<Force>();
  if (!w) return formulas::brace_share(nullptr, v, own, all);
  const std::string& name = house.walls[b.wall].pieces[b.piece].brace->name;
  w->heading(fmt::format("Brace {}'s share", name));
  return formulas::brace_share.told(w, "V_" + name, "shared by capacity", as("V", v), as("C_" + name, own),
                                    as(capacity_symbol(b.line), all));
}

// ---- a brace's ends -------------------------------------------------------------------------------------------------

bool Forces::pulls(std::size_t c, std::size_t brace, End e) const {
  if (brace_force(c, brace) <= zero<Force>()) return false;
  return (line_force(c, braces[brace].line) >= zero<Force>()) == (e == End::left);
}

Length Forces::arm(std::size_t brace, Working* w) const {
  const Piece& p = house.walls[braces[brace].wall].pieces[braces[brace].piece];
  const Length l = p.to - p.from, in = p.brace->hold_down_in,
               studs_in = practice.get<Length>("hold_down", "compression_in");
  if (w) {
    given(w, "L", fmt::format("length of brace {}", p.brace->name), l, "the job");
    given(w, "e_h", "from the brace's end to its hold-down", in, "the job, or common practice");
    given(w, "e_c", "from the other end to the middle of the compression studs", studs_in,
          practice.source("hold_down"));
    return formulas::tipping_arm.told(w, "z_" + p.brace->name, "geometry", l, in, studs_in);
  }
  return formulas::tipping_arm(nullptr, l, in, studs_in);
}

Force Forces::tip(std::size_t c, std::size_t brace, Working* w) const {
  const Brace& drawn = *house.walls[braces[brace].wall].pieces[braces[brace].piece].brace;
  const Force v = brace_force(c, brace, w);
  if (v <= zero<Force>()) return zero<Force>();
  if (w) w->heading(fmt::format("Brace {} wants to tip over", drawn.name));
  if (w) given(w, "h_w", wall_height_words, house.height, "the job's block");
  const Length z = arm(brace, w);
  if (!w) return formulas::tipping_pull(nullptr, v, house.height, z);
  return formulas::tipping_pull.told(w, "T_v", "moments", as("V_" + drawn.name, v), house.height,
                                     as("z_" + drawn.name, z));
}

Force Forces::tip_less_weight(std::size_t c, std::size_t brace, Working* w) const {
  const Piece& p = house.walls[braces[brace].wall].pieces[braces[brace].piece];
  const std::string symbol = w ? "T_" + p.brace->name : std::string();
  const Force pull = tip(c, brace, w);
  if (pull <= zero<Force>()) return zero<Force>();
  const Length z = arm(brace);
  if (house.wall_weight <= zero<Pressure>())
    return w ? greatest<Force>(w, symbol, "pull at the brace's end before the roof (no wall weight stated: no relief)",
                               "the job", {as("T_v", pull)})
             : pull;
  const Length l = p.to - p.from, in = practice.get<Length>("hold_down", "compression_in");
  const double f = of(c).combination.dead;
  if (!w)
    return formulas::tip_less_weight(
        nullptr, pull,
        formulas::weight_relief(nullptr, f, formulas::brace_weight(nullptr, house.wall_weight, house.height, l), l, in,
                                z));
  given(w, "g_w", "weight of the wall", house.wall_weight, "the job, wall_weight");
  given(w, "f_d", "factor on weight that holds down", f, of(c).combination.source);
  given(w, "h_w", wall_height_words, house.height, "the job's block");
  const Force weight = formulas::brace_weight.told(w, "G_w", "statics", house.wall_weight, house.height, l);
  const Force relief = formulas::weight_relief.told(w, "T_g", "moments", f, weight, l, in, as("z_" + p.brace->name, z));
  return formulas::tip_less_weight.told(w, symbol, "statics", pull, relief);
}

// ---- fixings through the bottom plate -------------------------------------------------------------------------------

Force Forces::roof_on(std::size_t c, std::size_t wall, std::size_t support, Working* w) const {
  if (const auto known = remembered(memo_[c].roof_on, wall, support); known && !w) return *known;
  std::vector<As<Force>> direct, lever, continuous;
  const Support& me = walls[wall].supports[support];
  const auto& on = walls[wall].plates[me.plate].supports;
  std::vector<Length> at;
  for (const std::size_t k : on) at.push_back(walls[wall].supports[k].at);
  for (const Landing& l : landings_[wall][support]) {
    if (!l.direct && l.lever == 0.0 && l.continuous == 0.0) continue;
    const Force u = stud_uplift(c, l.stud, w);
    const std::string s = w ? stud_symbol(c, l.stud) : std::string();
    if (l.direct) {
      direct.push_back(as(s, u));
      continue;
    }
    if (!w) {
      lever.push_back(as("", formulas::landed(nullptr, l.lever, u)));
      continuous.push_back(as("", formulas::landed(nullptr, l.continuous, u)));
      continue;
    }
    w->heading(fmt::format("Along the plate to {}", support_words(wall, support)));
    const std::size_t n = l.stud + 1;
    tell_lever_share(at, studs[l.stud].at,
                     static_cast<std::size_t>(std::find(on.begin(), on.end(), support) - on.begin()),
                     fmt::format("k_{}", n), l.lever, w);
    if (u > zero<Force>())
      looked_up(w, fmt::format("c_{}", n), "the same share when the plate is one beam over all its fixings",
                l.continuous, "three-moment equation, even stiffness");
    lever.push_back(as(fmt::format("N_{}", n), formulas::landed.told(w, fmt::format("N_{}", n), "lever rule",
                                                                     as(fmt::format("k_{}", n), l.lever), as(s, u))));
    if (!(u > zero<Force>())) continue;  // a negative share of nothing would be told as a sum of its own
    continuous.push_back(
        as(fmt::format("M_{}", n), formulas::landed.told(w, fmt::format("M_{}", n), "continuous plate",
                                                         as(fmt::format("c_{}", n), l.continuous), as(s, u))));
  }
  if (w) w->heading(fmt::format("Along the plate to {}", support_words(wall, support)));
  if (lever.empty()) return total<Force>(w, "P", "roof on this fixing", "sum", direct);
  const Force by_lever = total<Force>(w, "N", "roof on this fixing by the lever rule", "sum", lever);
  const Force by_beam = total<Force>(w, "M", "roof on this fixing with a continuous plate", "sum", continuous);
  const Force along_plate =
      greatest<Force>(w, "Q", "the worse of the two", "the safe one", {as("N", by_lever), as("M", by_beam)});
  direct.push_back(as("Q", along_plate));
  return total<Force>(w, "P", "roof on this fixing", "sum", direct);
}

Force Forces::pull(std::size_t c, std::size_t wall, std::size_t support, Working* w) const {
  if (const auto known = remembered(memo_[c].pull, wall, support); known && !w) return *known;
  std::vector<As<Force>> rows;
  for (const BraceEnd& e : walls[wall].supports[support].ends)
    if (const std::size_t i = brace_on(wall, e.piece); pulls(c, i, e.end))
      rows.push_back(
          as(w ? "T_" + house.walls[wall].pieces[e.piece].brace->name : std::string(), tip_less_weight(c, i, w)));
  if (roof_lands(wall, support)) rows.push_back(as("P", roof_on(c, wall, support, w)));
  if (w) w->heading(fmt::format("Added up at {}", support_words(wall, support)));
  const Force sum = total<Force>(w, "T_n", "pull on this fixing", "sum", rows);
  if (sum >= zero<Force>()) return w ? greatest<Force>(w, "T", "pull on this fixing", "sum", {as("T_n", sum)}) : sum;
  if (w) given(w, "nothing", "held down: no pull", zero<Force>(), "statics");
  return w ? greatest<Force>(w, "T", "pull on this fixing, not below nothing", "statics",
                             {as("T_n", sum), as("nothing", zero<Force>())})
           : zero<Force>();
}

bool Forces::roof_lands(std::size_t wall, std::size_t support) const {
  // A share that is nothing but the last bit of a sum is none: a stud that stands on the fixing beside this one.
  constexpr double nothing = 1e-9;
  const auto& landings = landings_[wall][support];
  return std::any_of(landings.begin(), landings.end(), [](const Landing& l) {
    return l.direct || std::abs(l.lever) > nothing || std::abs(l.continuous) > nothing;
  });
}

bool Forces::can_be_pulled(std::size_t wall, std::size_t support) const {
  return !walls[wall].supports[support].ends.empty() || roof_lands(wall, support);
}

std::vector<std::size_t> Forces::slide_takers(std::size_t brace, Sense sense) const {
  const BraceAt& b = braces[brace];
  const Piece& p = house.walls[b.wall].pieces[b.piece];
  const auto& supports = walls[b.wall].supports;
  const End tension = sense == Sense::plus ? End::left : End::right;
  std::vector<std::size_t> r;
  for (std::size_t i = 0; i < supports.size(); ++i) {
    const Support& s = supports[i];
    const bool serves = std::any_of(s.ends.begin(), s.ends.end(), [&](const BraceEnd& e) {
      return e.piece == b.piece && (!b.capacity.strap || e.end == tension);
    });
    const bool within = s.at >= p.from - same_place && s.at <= p.to + same_place;
    const bool shares = !b.capacity.strap && (p.brace->plate_anchors_share || !p.brace->hold_down.given()) && within;
    if (serves || shares) r.push_back(i);
  }
  return r;
}

Force Forces::along(std::size_t c, std::size_t wall, std::size_t support, Working* w) const {
  if (const auto known = remembered(memo_[c].along, wall, support); known && !w) return *known;
  std::vector<As<Force>> rows;
  for (std::size_t i = 0; i < braces.size(); ++i) {
    if (braces[i].wall != wall || brace_force(c, i) <= zero<Force>()) continue;
    const Sense sense = line_force(c, braces[i].line) >= zero<Force>() ? Sense::plus : Sense::minus;
    const auto takers = slide_takers(i, sense);
    if (std::find(takers.begin(), takers.end(), support) == takers.end()) continue;
    const std::string& name = house.walls[wall].pieces[braces[i].piece].brace->name;
    const Force v = brace_force(c, i, w);
    const auto n = static_cast<double>(takers.size());
    if (!w) {
      rows.push_back(as("", formulas::slide_share(nullptr, v, n)));
      continue;
    }
    w->heading(fmt::format("Slide along the wall at {}", support_words(wall, support)));
    given(w, "n",
          braces[i].capacity.strap ? "a strap gives it all to the fixing at its foot"
                                   : "fixings that take this brace's slide",
          n, "the job");
    const std::string symbol = "H_" + name;
    rows.push_back(as(symbol, formulas::slide_share.told(w, symbol, "shared equally", as("V_" + name, v), n)));
  }
  return total<Force>(w, "H_a", "slide along the wall", "sum", rows);
}

Force Forces::across(std::size_t c, std::size_t wall, std::size_t support, Working* w) const {
  if (const auto known = remembered(memo_[c].across, wall, support); known && !w) return *known;
  const Wall& drawn = house.walls[wall];
  const Support& s = walls[wall].supports[support];
  if (w) w->heading(fmt::format("The wind square on to the wall at {}", support_words(wall, support)));
  return total<Force>(
      w, "H_c", "across the wall", "sum",
      square_on(c, drawn, s.from + drawn.from, s.to + drawn.from, "H_c", "width of wall that leans on this fixing",
                "statics: the lower half goes to the plate", w));
}

Force Forces::slide(std::size_t c, std::size_t wall, std::size_t support, Working* w) const {
  const Force a = along(c, wall, support, w), b = across(c, wall, support, w);
  return formulas::resultant(w, a, b);
}

std::vector<Piece_of_demand> Forces::pull_made_of(std::size_t c, std::size_t wall, std::size_t support) const {
  std::vector<Piece_of_demand> r;
  for (const BraceEnd& e : walls[wall].supports[support].ends) {
    const std::size_t i = brace_on(wall, e.piece);
    if (!pulls(c, i, e.end)) continue;
    const std::string& name = house.walls[wall].pieces[e.piece].brace->name;
    const Force whole = tip(c, i), net = tip_less_weight(c, i);
    r.push_back({"tipping of brace " + name, name, whole});
    if (net != whole) r.push_back({"own weight of brace " + name, name, net - whole});
  }
  const Force roof = roof_on(c, wall, support);
  Force direct = zero<Force>();
  for (const Landing& l : landings_[wall][support])
    if (l.direct) {
      r.push_back({"roof on the " + stud_words(studs[l.stud]), stud_words(studs[l.stud]), stud_uplift(c, l.stud)});
      direct += r.back().value;
    }
  if (roof != direct) r.push_back({"roof along the plate", "trusses beside it", roof - direct});
  const Force sum = sum_of(r);
  if (sum < zero<Force>()) r.push_back({"held down: counted as nothing", "", -sum});
  return r;
}

void Forces::tell_lever_share(const std::vector<Length>& at, Length x, std::size_t me, const std::string& symbol,
                              double share, Working* w) const {
  given(w, "x", "place of the stud, from the wall's start", x, "the job");
  if (at.size() == 1) {
    given(w, symbol, "the only fixing on this length of plate takes it all", share, "lever rule");
    return;
  }
  const bool before = x < at.front();
  const bool past = x > at.back();
  if (share == 0.0) {
    given(w, symbol, before || past ? "no relief from a stud past the last fixing" : "not beside this stud", share,
          "lever rule");
    return;
  }
  if (before || past) {
    const Length end = before ? at.front() : at.back(), next = before ? at[1] : at[at.size() - 2];
    const Length e = distance(x, end), s = distance(next, end);
    given(w, "e", "how far the stud stands past the last fixing", e, "the set-out");
    given(w, "s", "from that fixing to the next", s, "the set-out");
    formulas::lever_past.told(w, symbol, "lever rule", e, s);
    return;
  }
  const bool left = me == 0 || x > at[me] || x <= at[me - 1];
  if (left) {
    given(w, "x_1", "this fixing", at[me], "the set-out");
    given(w, "x_2", "the next fixing", at[me + 1], "the set-out");
    formulas::lever_left.told(w, symbol, "lever rule", at[me + 1], x, at[me]);
  } else {
    given(w, "x_1", "the fixing before", at[me - 1], "the set-out");
    given(w, "x_2", "this fixing", at[me], "the set-out");
    formulas::lever_right.told(w, symbol, "lever rule", x, at[me - 1], at[me]);
  }
}

// ---- words ----------------------------------------------------------------------------------------------------------

std::string Forces::stud_words(const Stud& s) const {
  const Wall& w = house.walls[s.wall];
  if (!s.jamb) return bearings[s.loads.front().bearing].words;
  const Piece& p = w.pieces[s.jamb->piece];
  const auto twins = std::count_if(w.pieces.begin(), w.pieces.end(),
                                   [&](const Piece& q) { return q.opening && q.opening->mark == p.opening->mark; });
  if (twins == 1) return fmt::format("{} jamb {} {}", w.name, p.opening->mark, end_word(w, s.jamb->end));
  // Two openings of one mark side by side: both their jambs stand on one place.
  const bool touching = std::any_of(w.pieces.begin(), w.pieces.end(), [&](const Piece& q) {
    return q.opening && q.opening->mark == p.opening->mark &&
           distance(s.jamb->end == End::left ? q.to : q.from, s.at) <= same_place;
  });
  const std::string end = touching ? fmt::format(" {}", end_word(w, s.jamb->end)) : std::string();
  return fmt::format("{} jamb {}{} at {}", w.name, p.opening->mark, end, place(s.at, units_of(house)));
}

std::string Forces::support_words(std::size_t wall, std::size_t support) const {
  const Support& s = walls[wall].supports[support];
  const Wall& w = house.walls[wall];
  if (s.kind == FixingKind::hold_down)
    return fmt::format("{} {}", w.pieces[s.ends.front().piece].brace->name, end_word(w, s.ends.front().end));
  if (s.kind == FixingKind::jamb)
    for (const Stud& t : studs)
      if (t.wall == wall && t.jamb && t.support == support) return stud_words(t);
  std::size_t n = 0;
  for (std::size_t i = 0; i <= support; ++i)
    if (walls[wall].supports[i].kind == FixingKind::anchor) ++n;
  return fmt::format("{} anchor {}", w.name, n);
}

}  // namespace belay
