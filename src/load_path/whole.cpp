#include "load_path/whole.hpp"

#include "load_path/formulas_ceiling.hpp"
#include "load_path/formulas_ground.hpp"

#include <algorithm>

namespace belay {

namespace {
Length lowest(const Polygon& g) {
  Length r = everywhere;
  for (const Point& p : g) r = std::min(r, p.y);
  return r;
}
// Of what stands on the level of the ground floor's plates.
Length breadth_at_foot(const Polygon& g) {
  Length from = everywhere, to = -everywhere;
  for (const Point& p : g) {
    if (p.y > same_place) continue;
    from = std::min(from, p.x);
    to = std::max(to, p.x);
  }
  return to > from ? to - from : zero<Length>();
}
constexpr const char* slab_source = "the job's slab";
}  // namespace

// A wall down to the ground: its lower half, and the slab's edge under it, have the wall's own pressure.
std::vector<WholeHouse::Row> WholeHouse::rows(std::size_t c, Way way) const {
  std::vector<Row> r;
  const Length floor = f_.house.floor_level;
  for (const Push& push : f_.of(c).push) {
    if (is_across(push.towards) != is_across(way)) continue;
    const bool against = push.towards != way;
    const std::string symbol = "p_" + push.label;
    const auto add = [&](const Polygon& g, Pressure p, const std::string& own, const std::string& what) {
      if (g.empty()) return;
      const Area a = area(g);
      r.push_back({what, own, p, a, moment_y(g) / a + floor, against});
    };
    const bool own_low = push.low > zero<Pressure>();
    const Length middle = f_.shape.racking_from;
    add(own_low ? between_y(push.part, middle, everywhere) : push.part, push.p, symbol,
        own_low ? push.what + ", upper half" : push.what);
    if (own_low) add(between_y(push.part, -everywhere, middle), push.low, symbol + ",low", push.what + ", lower half");
    const Length breadth = breadth_at_foot(push.part);
    if (breadth > zero<Length>() && floor > zero<Length>() && lowest(push.part) <= same_place)
      r.push_back({(f_.house.framed ? "stretch under the " : "slab's edge under the ") + push.what,
                   own_low ? symbol + ",low" : symbol, own_low ? push.low : push.p, breadth * floor, floor / 2.0,
                   against});
  }
  return r;
}

std::vector<As<Force>> WholeHouse::pushes(std::size_t c, Way way, Working* w) const {
  std::vector<As<Force>> r;
  const double f = given(w, "f_w", "factor on the wind", f_.of(c).combination.wind, f_.of(c).combination.source);
  for (const Row& row : rows(c, way)) {
    const auto push = [&](const auto& formula) {
      if (!w) return as(std::string(), formula(nullptr, f, row.p, row.area));
      const std::string n = fmt::format("{}", r.size() + 1), symbol = "P_" + n, a = "A_" + n;
      if (row.symbol.ends_with(",low"))
        given(w, row.symbol, "pressure on walls alone: no roof shares in that of their lower half", row.p,
              "the method's figure for walls");
      given(w, a, fmt::format("area of the {}", row.what), row.area, "measured from the job");
      const std::string what =
          fmt::format("push of the wind on the {}{}", row.what, row.against ? ", the other way: counted negative" : "");
      return as(symbol, formula.told_as(w, symbol, what, "statics", f, as(row.symbol, row.p), as(a, row.area)));
    };
    r.push_back(row.against ? push(formulas::floor_push_against) : push(formulas::floor_push));
  }
  return r;
}

Force WholeHouse::push(std::size_t c, Way way, Working* w) const {
  if (w) w->heading("What the wind pushes at the whole house");
  const std::vector<As<Force>> all = pushes(c, way, w);
  const Force sum = total<Force>(w, "P_n", "push of the wind on the whole house", "sum", all);
  if (sum >= zero<Force>())
    return greatest<Force>(w, "P", "push of the wind on the whole house", "sum", {as("P_n", sum)});
  given(w, "nothing", "pushed the other way", zero<Force>(), "statics");
  return greatest<Force>(w, "P", "push that way, not below nothing", "statics",
                         {as("P_n", sum), as("nothing", zero<Force>())});
}

// ---- what lifts -----------------------------------------------------------------------------------------------------

// Where a bearing on walls stands in plan; nothing: it stands on another member.
std::optional<Point> WholeHouse::foot_of(std::size_t bearing) const {
  const Bearing& b = f_.roof.bearings()[bearing];
  if (b.onto || b.feet.empty()) return std::nullopt;
  return in_plan(f_.house.walls[b.feet.front().wall], b.feet.front().at);
}
Length WholeHouse::from_edge(const Point& p, Way way) const {
  switch (way) {
    case Way::right: return f_.house.across - p.x;
    case Way::left: return p.x;
    case Way::back: return f_.house.up - p.y;
    case Way::front: return p.y;
  }
  return zero<Length>();
}
Force WholeHouse::lift(std::size_t c) const {
  Force sum = zero<Force>();
  for (std::size_t b = 0; b < f_.roof.bearings().size(); ++b)
    if (foot_of(b)) sum += std::max(f_.uplift(c, b), zero<Force>());
  return sum;
}
Moment WholeHouse::lift_about_edge(std::size_t c, Way way) const {
  Moment sum = zero<Moment>();
  for (std::size_t b = 0; b < f_.roof.bearings().size(); ++b)
    if (const auto foot = foot_of(b)) sum += std::max(f_.uplift(c, b), zero<Force>()) * from_edge(*foot, way);
  return sum;
}

Moment WholeHouse::tips(std::size_t c, Way way, Working* w) const {
  if (w) w->heading("What the wind pushes at the whole house");
  const std::vector<As<Force>> forces = pushes(c, way, w);
  const std::vector<Row> parts = rows(c, way);
  if (w) w->heading("What tips the whole house about its edge");
  std::vector<As<Moment>> all;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::string z = fmt::format("z_{}", i + 1), m = fmt::format("M_{}", i + 1);
    given(w, z, fmt::format("height of the middle of the {} above the ground", parts[i].what), parts[i].z,
          "measured from the job");
    all.push_back(as(m, formulas::push_tips.told(w, m, "moments", forces[i], as(z, parts[i].z))));
  }
  const Moment by_roof = lift_about_edge(c, way);
  given(w, "M_U", "what the wind lifts at each of the roof's bearings, about the edge", by_roof,
        "as at the bracket above: each at its place");
  all.push_back(as("M_U", by_roof));
  const Moment sum = total<Moment>(w, "M_n", "what tips it", "sum", all);
  if (sum >= zero<Moment>()) return greatest<Moment>(w, "M_t", "what tips it", "sum", {as("M_n", sum)});
  given(w, "nothing", "it is pushed down there", zero<Moment>(), "statics");
  return greatest<Moment>(w, "M_t", "what tips it, not below nothing", "statics",
                          {as("M_n", sum), as("nothing", zero<Moment>())});
}

// ---- what holds -----------------------------------------------------------------------------------------------------

Force WholeHouse::slab_and_edges(Working* w) const {
  const House& h = f_.house;
  const WholeSlab& whole = *h.slab.whole;
  const WeightDensity gamma = *h.slab.weight;
  const std::string source = "given by " + whole.given_by;
  given(w, "gamma_c", "weight of a volume of the concrete", gamma, slab_source);
  given(w, "t_s", "thickness of the slab", whole.thickness, source);
  given(w, "X", "size of the plan, across", h.across, "the job's block");
  given(w, "Y", "size of the plan, up the sheet", h.up, "the job's block");
  std::vector<As<Force>> parts{as("G_s", formulas::slab_weight(w, gamma, whole.thickness, h.across, h.up))};
  if (const auto& e = h.slab.edge; e && e->depth > whole.thickness) {
    given(w, "b_e", "width of the edge", e->width, "given by " + e->given_by);
    given(w, "d_e", "its depth", e->depth, "given by " + e->given_by);
    const Length round = formulas::edges_round(w, h.across, h.up, e->width);
    parts.push_back(as("G_e", formulas::weight_of_edges(w, gamma, e->width, e->depth, whole.thickness, round)));
  }
  if (h.first && h.first->weight > zero<Pressure>()) {
    given(w, "g_f", "weight of the first floor", h.first->weight, "the job's floor");
    parts.push_back(as("G_f", formulas::weight_of_floor(w, h.first->weight, h.across, h.up)));
  }
  return total<Force>(w, "G_c", "weight of the slab, and of what lies over all of the plan", "sum", parts);
}
// The plain parts of all walls, and their first moment about that edge.
WholeHouse::Walls WholeHouse::walls(Way way) const {
  Walls r{zero<Area>(), zero<AreaMoment>()};
  for (const Wall& wall : f_.house.walls)
    for (const Piece& p : wall.pieces) {
      if (p.opening) continue;
      const Area face = (p.to - p.from) * height_of(f_.house, wall);
      r.face += face;
      r.about_edge += face * from_edge(in_plan(wall, (p.from + p.to) / 2.0), way);
    }
  return r;
}

std::optional<Force> WholeHouse::held_by_friction(std::size_t c, Working* w) const {
  const House& h = f_.house;
  if (!h.slab.whole->friction) return std::nullopt;
  if (w) w->heading("What holds the whole house by friction");
  std::vector<As<Force>> weights{as("G_c", slab_and_edges(w))};
  if (h.wall_weight > zero<Pressure>()) {
    given(w, "g_w", "weight of the wall", h.wall_weight, "the job, wall_weight");
    const Area face =
        given(w, "A_w", "faces of all walls, openings left out", walls(Way::right).face, "the job's runs");
    weights.push_back(as("G_w", formulas::weight_of_walls(w, h.wall_weight, face)));
  }
  const Force weight = total<Force>(w, "G", "weight of slab, floor and walls", "sum", weights);
  const double f =
      given(w, "f_d", "factor on weight that holds down", f_.of(c).combination.dead, f_.of(c).combination.source);
  const Force up = given(w, "U", "what the wind lifts at the roof's bearings, its weight taken off", lift(c),
                         "as at the bracket above: all of them, added up");
  const Force net = formulas::weight_on_ground(w, f, weight, up);
  const double mu = given(w, "mu", "friction of the concrete on the ground", *h.slab.whole->friction,
                          "given by " + h.slab.whole->given_by);
  if (net > zero<Force>()) return formulas::held_by_friction(w, mu, net);
  return given(w, "C", "nothing presses on the ground: friction holds nothing", zero<Force>(), "statics");
}

Moment WholeHouse::held_about_edge(std::size_t c, Way way, Working* w) const {
  const House& h = f_.house;
  if (w) w->heading("What holds the whole house about its edge");
  const As<Force> concrete = as("G_c", slab_and_edges(w));
  const double f =
      given(w, "f_d", "factor on weight that holds down", f_.of(c).combination.dead, f_.of(c).combination.source);
  const Length deep = is_across(way) ? h.across : h.up;
  std::vector<As<Moment>> all{as(
      "M_c", formulas::weight_about_edge.told(w, "M_c", "moments", f, concrete, as(is_across(way) ? "X" : "Y", deep)))};
  if (h.wall_weight > zero<Pressure>()) {
    given(w, "g_w", "weight of the wall", h.wall_weight, "the job, wall_weight");
    const AreaMoment s = given(w, "S_w", "faces of all walls without openings, each times its distance from the edge",
                               walls(way).about_edge, "the job's runs");
    all.push_back(as("M_w", formulas::walls_about_edge.told(w, "M_w", "moments", f, h.wall_weight, s)));
  }
  return total<Moment>(w, "C", "what holds it", "sum", all);
}

}  // namespace belay
