#include "load_path/ground.hpp"

#include "load_path/formulas_ground.hpp"

#include <algorithm>

namespace belay {

namespace {
// What looks like a pull but is nothing but the last bit of a sum.
constexpr Force no_pull = Force::from_value(1e-6);

Length in_all(const Edge& e) { return e.width + e.slab_width; }
Force weight_of(const Edge& e, const WeightDensity& gamma, Length l) {
  const Area section = e.slab_width > zero<Length>()
                           ? formulas::edge_section_with_slab(nullptr, e.width, e.depth, e.slab_width, e.slab_thickness)
                           : formulas::edge_section(nullptr, e.width, e.depth);
  return formulas::edge_weight(nullptr, gamma, section, l);
}
// Whether a row leaves less to spare than another. Concrete that holds nothing leaves least.
bool tighter(const PulledEdge& a, const PulledEdge& b) { return a.pull * b.holds > b.pull * a.holds; }

// In plan: what a wall's concrete covers, its ends left free.
struct Plot {
  Length left, front, right, back;
};
bool overlap(const Plot& a, const Plot& b) {
  return std::min(a.right, b.right) - std::max(a.left, b.left) > same_place &&
         std::min(a.back, b.back) - std::max(a.front, b.front) > same_place;
}
}  // namespace

Ground::Ground(const Forces& f) : f_(f), corner_(zero<Length>()) {
  const Slab& slab = f.house.slab;
  for (const auto* e : {&slab.edge, &slab.inside})
    if (*e) corner_ = std::max(corner_, in_all(**e));
  reach_.resize(f.walls.size());
  overlaps_.resize(f.walls.size());
  std::vector<std::optional<Plot>> plots(f.walls.size());
  for (std::size_t w = 0; w < f.walls.size(); ++w) {
    const Edge* e = under(w);
    if (!e) continue;
    bool pulled = false;
    for (std::size_t i = 0; i < f.walls[w].supports.size(); ++i) {
      reach_[w].push_back(reach(w, i));
      pulled = pulled || f.can_be_pulled(w, i);
    }
    if (!pulled) continue;
    const Wall& wall = f.house.walls[w];
    const Length cut = wall.outside ? corner_ / 2.0 : corner_;
    const bool far = wall.side == Side::back || wall.side == Side::right;
    const Length low = !wall.outside ? wall.line - in_all(*e) / 2.0
                       : far         ? wall.line - in_all(*e)
                                     : wall.line,
                 high = low + in_all(*e), from = wall.from + cut, to = wall.to - cut;
    plots[w] = wall.runs == Along::across ? Plot{from, low, to, high} : Plot{low, from, high, to};
  }
  // Where two outside walls meet at a corner each has its half of it: `corner_`.
  for (std::size_t a = 0; a < plots.size(); ++a)
    for (std::size_t b = 0; b < plots.size() && !overlaps_[a]; ++b) {
      const Wall &mine = f.house.walls[a], &other = f.house.walls[b];
      const bool corner = mine.outside && other.outside && mine.runs != other.runs;
      if (a != b && plots[a] && plots[b] && !corner && overlap(*plots[a], *plots[b])) overlaps_[a] = b;
    }
}

const Edge* Ground::under(std::size_t wall) const {
  const Wall& w = f_.house.walls[wall];
  const Slab& slab = f_.house.slab;
  const std::optional<Edge>& e = w.outside ? slab.edge : slab.inside;
  return w.floor == Floor::ground && e && slab.weight ? &*e : nullptr;
}

Ground::Stretch Ground::level_part(std::size_t wall, Length at) const {
  const Wall& w = f_.house.walls[wall];
  Length from = zero<Length>(), to = w.length();
  for (const Length& step : w.steps) {
    if (step <= at) from = std::max(from, step);
    else to = std::min(to, step);
  }
  const Length cut = w.outside ? corner_ / 2.0 : corner_;
  return {from + cut, to - cut};
}

// Within its level part; nothing is left of a part that its corners take up.
Ground::Stretch Ground::reach(std::size_t wall, std::size_t support) const {
  const auto& supports = f_.walls[wall].supports;
  const Length x = supports[support].at;
  const Stretch part = level_part(wall, x);
  Stretch r = part;
  if (const auto& lifted = under(wall)->lifted) {
    r = {x - *lifted / 2.0, x + *lifted / 2.0};
  } else {
    if (support > 0) r.from = (supports[support - 1].at + x) / 2.0;
    if (support + 1 < supports.size()) r.to = (x + supports[support + 1].at) / 2.0;
  }
  r = {std::max(r.from, part.from), std::min(r.to, part.to)};
  return r.to > r.from ? r : Stretch{r.from, r.from};
}

std::vector<std::size_t> Ground::sharers(std::size_t wall, std::size_t support) const {
  const Edge* e = under(wall);
  if (!e) return {};
  if (!e->lifted) return {support};
  std::vector<std::size_t> r;
  for (std::size_t i = 0; i < f_.walls[wall].supports.size(); ++i)
    if (f_.can_be_pulled(wall, i)) r.push_back(i);
  return r;
}

Force Ground::holds(std::size_t c, std::size_t wall, Length from, Length to) const {
  return formulas::weight_that_holds(
      nullptr, f_.of(c).combination.dead,
      weight_of(*under(wall), *f_.house.slab.weight, formulas::edge_length(nullptr, to, from)));
}

PulledEdge Ground::alone(std::size_t c, std::size_t wall, std::size_t support) const {
  const Stretch& r = reach_[wall][support];
  return {support, support, r.from, r.to, f_.pull(c, wall, support), holds(c, wall, r.from, r.to)};
}

// Every row of neighbours that pull and whose stretches touch: if none of them asks for more than its concrete weighs,
// the concrete can be shared out so that each has what it pulls at, out of its own stretch.
PulledEdge Ground::row(std::size_t c, std::size_t wall, std::size_t support) const {
  PulledEdge worst = alone(c, wall, support);
  if (!under(wall)->lifted || !(worst.pull > no_pull)) return worst;
  const auto& reach = reach_[wall];
  // With one more fixing to the left or right; false: its stretch stands off.
  const auto join = [&](PulledEdge& row, std::size_t i) {
    const Force pull = f_.pull(c, wall, i);
    if (!(pull > no_pull)) return true;
    if (reach[i].from > row.to || reach[i].to < row.from) return false;
    row.first = std::min(row.first, i);
    row.last = std::max(row.last, i);
    row.from = std::min(row.from, reach[i].from);
    row.to = std::max(row.to, reach[i].to);
    row.pull += pull;
    return true;
  };
  PulledEdge left = worst;
  for (std::size_t i = support + 1; i-- > 0;) {
    if (i < support && !join(left, i)) break;
    PulledEdge row = left;
    for (std::size_t k = support; k < reach.size(); ++k) {
      if (k > support && !join(row, k)) break;
      row.holds = holds(c, wall, row.from, row.to);
      if (tighter(row, worst)) worst = row;
    }
  }
  // As it is told: from the first to the last.
  worst.pull = zero<Force>();
  for (const std::size_t i : pulling(c, wall, worst)) worst.pull += f_.pull(c, wall, i);
  return worst;
}

std::vector<std::size_t> Ground::pulling(std::size_t c, std::size_t wall, const PulledEdge& row) const {
  std::vector<std::size_t> r;
  for (std::size_t i = row.first; i <= row.last; ++i)
    if (f_.pull(c, wall, i) > no_pull) r.push_back(i);
  return r;
}

void Ground::tell(std::size_t c, std::size_t wall, const PulledEdge& row, const std::string& symbol, Working& w) const {
  const Edge& e = *under(wall);
  const std::string source = "given by " + e.given_by;
  given(&w, "gamma_c", "weight of a volume of the concrete", *f_.house.slab.weight, "the job's slab");
  given(&w, "b_e", "width of the concrete under the wall", e.width, source);
  given(&w, "d_e", "its depth", e.depth, source);
  // A second stretch of the same concrete has the same section.
  Working* const w_section = w.first(fmt::format("section under wall {}", wall)) ? &w : nullptr;
  Area section;
  if (e.slab_width > zero<Length>()) {
    given(&w, "b_s", "width of the slab that comes up with it", e.slab_width, source);
    given(&w, "t_s", "thickness of that slab", e.slab_thickness, source);
    section = formulas::edge_section_with_slab(w_section, e.width, e.depth, e.slab_width, e.slab_thickness);
  } else {
    section = formulas::edge_section(w_section, e.width, e.depth);
  }
  const bool one = row.first == row.last;
  const std::string_view how =
      e.lifted ? (one ? "half of the stated length to either side, as far as the concrete runs on level"
                      : "half of the stated length past the outermost of them, as far as the concrete runs on level")
               : "half way to its neighbours, at the wall's end as far as its half of the corner";
  given(&w, "x_1", fmt::format("where what may be called on begins: {}", how), row.from, e.lifted ? source : "set-out");
  given(&w, "x_2", "where it ends", row.to, e.lifted ? source : "set-out");
  const std::string l = one ? "l" : "l_r", weight = one ? "G" : "G_r";
  const Length length = formulas::edge_length.told(&w, l, "geometry", row.to, row.from);
  const Force g = formulas::edge_weight.told(&w, weight, "statics", *f_.house.slab.weight, section, as(l, length));
  const double f = f_.of(c).combination.dead;
  given(&w, "f_d", "factor on weight that holds down", f, f_.of(c).combination.source);
  formulas::weight_that_holds.told(&w, symbol, "combination", f, as(weight, g));
}

std::optional<Force> footing_weighs(const Footing& at, std::string_view source, Working* w) {
  if (!at.weight || !at.width || !at.length || !at.thickness) return std::nullopt;
  given(w, "gamma_c", "weight of a volume of the footing's concrete", *at.weight, source);
  given(w, "b_f", "width of the footing", *at.width, source);
  given(w, "l_f", "its length", *at.length, source);
  given(w, "d_f", "its thickness", *at.thickness, source);
  return formulas::footing_weight(w, *at.weight, *at.width, *at.length, *at.thickness);
}

std::optional<Force> Ground::footing_holds(std::size_t post, Working* w) const {
  const Veranda& v = f_.house.verandas[f_.verandas.posts[post].veranda];
  const auto weighs = footing_weighs(v.footing, fmt::format("the job, veranda {}", v.name), w);
  if (!weighs) return std::nullopt;
  const double f = f_.verandas.on_weight(w);
  return formulas::weight_that_holds.told(w, "C_pull", "combination", f, *weighs);
}

}  // namespace belay
