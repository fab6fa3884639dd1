#include "load_path/forces.hpp"

#include "capacity/formulas_perforated.hpp"
#include "load_path/formulas.hpp"
#include "units/sizes.hpp"

#include <algorithm>
#include <cmath>

namespace belay {

namespace {

const Units& units_of(const House& h) { return h.print == Print::us ? us : metric; }

std::string along_source(const House& h, std::size_t block) {
  return fmt::format("the job's trusses, block {}", name_of(h, block));
}

Length overlap(Length a0, Length a1, Length b0, Length b1) {
  const Length low = std::max(a0, b0), high = std::min(a1, b1);
  return high > low ? high - low : zero<Length>();
}

using Remembering = std::vector<std::optional<Force>>;
std::optional<Force> remembered(const Remembering& list, std::size_t i) {
  return i < list.size() ? list[i] : std::nullopt;
}
std::optional<Force> remembered(const std::vector<Remembering>& lists, std::size_t i, std::size_t k) {
  return i < lists.size() ? remembered(lists[i], k) : std::nullopt;
}

constexpr std::string_view lifted_by = "lever rule or a continuous plate, the worse";

// What looks like a share but is nothing but the last bit of a sum.
constexpr double no_share = 1e-9;

Force sum_of(const std::vector<Piece_of_demand>& list) {
  Force f = zero<Force>();
  for (const auto& p : list) f += p.value;
  return f;
}

}  // namespace

Forces::Forces(const House& h, const Shape& s, const Loads& l, const Table& p, bool cyclonic)
    : roof(h, s, l),
      verandas(h, l),
      valleys(h, s, l, roof),
      house(h),
      shape(s),
      loads(l),
      practice(p),
      cyclonic_(cyclonic) {
  for (std::size_t i = 0; i < house.walls.size(); ++i) walls.push_back(set_out_wall(house, i, practice));
  lay_out_lines();
  lift_plates();
  lay_out_jamb_studs();
  const Floor top = top_floor(house);
  for (std::size_t b = 0; b < roof.bearings().size(); ++b)
    for (const Foot& foot : roof.bearings()[b].feet) land(foot.wall, {b, 1.0, false, foot.at});
  land_verandas();
  stand_studs(top);
  land_studs(top);
  if (top != Floor::ground) {
    lay_out_crossings();
    stand_studs(Floor::ground);
    land_studs(Floor::ground);
  }
  compute_all();
}

std::string Forces::of_floor(Floor f) const { return house.first ? fmt::format(",{}", words(f)) : std::string(); }

// ---- what there is --------------------------------------------------------------------------------------------------

// An inside wall that two blocks share.
static bool at_joint(const Wall& w) { return !w.outside && w.blocks.size() > 1; }

void Forces::lay_out_lines() {
  lay_out_lines(Floor::ground);
  if (house.first) lay_out_lines(Floor::first);
  for (std::size_t l = 0; l < lines.size(); ++l)
    for (const LineWall& part : lines[l].parts) {
      const Wall& wall = house.walls[part.wall];
      for (std::size_t p = 0; p < wall.pieces.size(); ++p) {
        const Piece& piece = wall.pieces[p];
        const Length middle = 0.5 * (piece.from + piece.to);
        if (!piece.brace || middle < part.from || middle > part.to) continue;
        braces.push_back({part.wall, p, l, brace_capacity(house, wall, piece, practice, cyclonic_, nullptr)});
        const BraceCapacity& holds = braces.back().capacity;
        lines[l].props = lines[l].props || (holds.refused.empty() && !holds.missing);
      }
    }
}
std::optional<std::size_t> Forces::line_of(std::size_t wall, Length at) const {
  for (std::size_t l = 0; l < lines.size(); ++l)
    for (const LineWall& p : lines[l].parts)
      if (p.wall == wall && at >= p.from - same_place && at <= p.to + same_place) return l;
  return std::nullopt;
}

// Of a wall over steps of the floor each part between them.
std::vector<Forces::LinePart> Forces::line_parts(std::size_t wall) const {
  const Wall& w = house.walls[wall];
  if (w.steps.empty()) return {{{wall, zero<Length>(), w.length()}, w.blocks, w.name}};
  std::vector<Length> at{zero<Length>()};
  at.insert(at.end(), w.steps.begin(), w.steps.end());
  at.push_back(w.length());
  std::vector<LinePart> r;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    // Between two steps it may run past several blocks on one level.
    std::vector<std::size_t> blocks;
    std::string names;
    for (const std::size_t b : w.blocks) {
      const Length from = (w.runs == Along::across ? left_of(house, b) : front_of(house, b)) - w.from;
      if (!(overlap(at[i], at[i + 1], from, from + extent_of(house, b, w.runs)) > same_place)) continue;
      blocks.push_back(b);
      names += fmt::format("{}{}", names.empty() ? "" : " and ", name_of(house, b));
    }
    r.push_back({{wall, at[i], at[i + 1]}, std::move(blocks), fmt::format("{} of {}", w.name, names)});
  }
  return r;
}
void Forces::lay_out_lines(Floor floor) {
  for (const Along way : {Along::across, Along::up}) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < house.walls.size(); ++i) {
      const Wall& w = house.walls[i];
      const bool braced =
          std::any_of(w.pieces.begin(), w.pieces.end(), [](const Piece& p) { return p.brace.has_value(); });
      if (w.floor == floor && w.runs == way && (w.outside || at_joint(w) || braced)) order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return house.walls[a].line < house.walls[b].line; });
    const std::size_t first = lines.size();
    for (const std::size_t i : order) {
      const Wall& w = house.walls[i];
      for (LinePart& part : line_parts(i)) {
        const auto same =
            std::find_if(lines.begin() + static_cast<std::ptrdiff_t>(first), lines.end(), [&](const Line& l) {
              return apart(l.at, w.line) <= same_place &&
                     std::any_of(part.blocks.begin(), part.blocks.end(), [&](std::size_t b) {
                       return std::find(l.blocks.begin(), l.blocks.end(), b) != l.blocks.end();
                     });
            });
        if (same != lines.end()) join(*same, part);
        else lines.push_back({part.name, way, w.line, {i}, w.outside || at_joint(w), floor, part.blocks, {part.part}});
      }
    }
    if (!house.wings.empty()) find_gaps(first);
  }
}
void Forces::join(Line& line, const LinePart& part) const {
  const Wall& w = house.walls[part.part.wall];
  line.walls.push_back(part.part.wall);
  line.parts.push_back(part.part);
  line.name += "+" + part.name;
  line.props = line.props || w.outside || at_joint(w);
  for (const std::size_t b : part.blocks)
    if (std::find(line.blocks.begin(), line.blocks.end(), b) == line.blocks.end()) line.blocks.push_back(b);
  std::sort(line.blocks.begin(), line.blocks.end());
}
// Between the walls of one line along a block's edge: no top plate runs there.
void Forces::find_gaps(std::size_t first_line) {
  for (std::size_t l = first_line; l < lines.size(); ++l) {
    const auto bounds = [&](std::size_t w) { return house.walls[w].outside || at_joint(house.walls[w]); };
    if (std::none_of(lines[l].walls.begin(), lines[l].walls.end(), bounds)) continue;
    std::vector<std::pair<Length, Length>> on;
    for (const LineWall& p : lines[l].parts)
      on.emplace_back(house.walls[p.wall].from + p.from, house.walls[p.wall].from + p.to);
    std::sort(on.begin(), on.end());
    Length to = on.front().second;
    for (const auto& [from, end] : on) {
      if (from - to > same_place) lines[l].gap = std::max(lines[l].gap, from - to);
      to = std::max(to, end);
    }
  }
}

std::optional<std::size_t> Forces::line_below(std::size_t line) const {
  const Line& me = lines[line];
  const Length reach = practice.get<Length>("anchor_near", "within");
  std::optional<std::size_t> nearest;
  if (me.floor == Floor::ground) return nearest;
  for (const std::size_t l : lines_of_block(me.runs, Floor::ground, 0)) {
    const Length off = apart(lines[l].at, me.at);
    if (off <= reach + same_place && (!nearest || off < apart(lines[*nearest].at, me.at))) nearest = l;
  }
  return nearest;
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

// What comes down at a place of a wall lands on a stud of its own, beside an opening or, over one, on both its jambs.
void Forces::land(std::size_t wall, const Stud::Load& load) {
  const Length merge = practice.get<Length>("stud", "same_within");
  const auto& pieces = house.walls[wall].pieces;
  const Length x = load.at;
  bool landed = false;
  // On a post between two openings both jambs are asked for the whole: which of them carries it is not known.
  const auto on_jamb = [&](std::size_t i, End e, double share, bool over) {
    studs[stud_of(wall, {i, e})].loads.push_back({load.bearing, share, over, x, load.crossing, load.rafter});
    landed = true;
  };
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Piece& p = pieces[i];
    if (!p.opening) continue;
    if (x > p.from + same_place && x < p.to - same_place) {
      on_jamb(i, End::left, formulas::lever_left(nullptr, p.to, x, p.from), true);
      on_jamb(i, End::right, formulas::lever_right(nullptr, x, p.from, p.to), true);
      continue;
    }
    if (apart(x, p.from) <= merge + same_place && x <= p.from + same_place) on_jamb(i, End::left, 1.0, false);
    if (apart(x, p.to) <= merge + same_place && x >= p.to - same_place) on_jamb(i, End::right, 1.0, false);
  }
  if (!landed) studs.push_back({wall, x, std::nullopt, {load}, std::nullopt, std::nullopt, false});
}

// The nearest stud that stands so near to a place of the wall that it takes what comes down there.
Stud* Forces::stud_beside(std::size_t wall, Length x, bool under_a_bearing) {
  const Length merge = practice.get<Length>("stud", "same_within");
  const auto joint_between = [&](Length a, Length b) {
    const auto& frames = house.walls[wall].frames;
    return std::any_of(frames.begin(), frames.end(), [&](const auto& f) {
      return f.from > std::min(a, b) + same_place && f.from < std::max(a, b) - same_place;
    });
  };
  const auto off = [&](const Stud& s) {
    const bool may_be_one = s.wall == wall && !s.jamb && !joint_between(s.at, x) && (!under_a_bearing || bears_on(s));
    return may_be_one ? apart(s.at, x) : merge + 2.0 * same_place;
  };
  const auto nearest =
      std::min_element(studs.begin(), studs.end(), [&](const Stud& a, const Stud& b) { return off(a) < off(b); });
  return nearest != studs.end() && off(*nearest) <= merge + same_place ? &*nearest : nullptr;
}

// A rafter at the wall pulls on the stud under it as a bearing does; where a truss bears beside it both have one stud.
void Forces::land_verandas() {
  for (std::size_t r = 0; r < verandas.rafters.size(); ++r) {
    const std::size_t wall = verandas.wall_of(verandas.rafters[r].veranda);
    const Length x = verandas.rafters[r].at;
    const Stud::Load load{roof.bearings().size(), 1.0, false, x, std::nullopt, r};
    if (Stud* beside = stud_beside(wall, x, false)) beside->loads.push_back(load);
    else land(wall, load);
  }
}

void Forces::lay_out_jamb_studs() {
  // Jambs first, in the order of the walls' runs: studs under trusses join them where they stand on them.
  for (std::size_t w = 0; w < house.walls.size(); ++w)
    for (std::size_t i = 0; i < house.walls[w].pieces.size(); ++i) {
      const Piece& p = house.walls[w].pieces[i];
      if (!p.opening) continue;
      for (const End e : {End::left, End::right})
        studs.push_back({w, e == End::left ? p.from : p.to, Jamb{i, e}, {}, std::nullopt, std::nullopt, true});
    }
}

static bool stands_on(Length x, const Plate& p) { return x >= p.from - same_place && x <= p.to + same_place; }

// What each stud of a floor stands on.
void Forces::stand_studs(Floor floor) {
  const Length reach = practice.get<Length>("anchor_near", "within");
  for (Stud& s : studs) {
    if (house.walls[s.wall].floor != floor) continue;
    const WallSetOut& out = walls[s.wall];
    if (s.jamb) {
      for (std::size_t i = 0; i < out.supports.size(); ++i)
        for (const Jamb& j : out.supports[i].jambs)
          if (j.piece == s.jamb->piece && j.end == s.jamb->end) s.support = i;
      continue;
    }
    for (std::size_t i = 0; i < out.plates.size(); ++i)
      if (stands_on(s.at, out.plates[i]) && !s.plate) s.plate = i;
    if (s.plate)
      for (const std::size_t i : out.plates[*s.plate].supports)
        s.beside_fixing = s.beside_fixing || apart(out.supports[i].at, s.at) <= reach + same_place;
  }
}

void Forces::land_studs(Floor floor) {
  landings_.resize(house.walls.size());
  for (std::size_t w = 0; w < house.walls.size(); ++w) landings_[w].resize(walls[w].supports.size());
  for (std::size_t i = 0; i < studs.size(); ++i) {
    const Stud& s = studs[i];
    if (s.loads.empty() || house.walls[s.wall].floor != floor) continue;
    if (s.support) landings_[s.wall][*s.support].push_back({i, 1.0, 1.0, true});
    if (!s.plate) continue;
    // What a plate as one beam takes off a fixing further on: not where a veranda pulls, whose wind need not blow with
    // the house's.
    const bool sure = verandas_to(s).empty();
    // On the joint of two frames it may be the one's or the other's: each plate is asked for the whole.
    for (const Plate& p : walls[s.wall].plates) {
      if (!stands_on(s.at, p) || p.supports.empty()) continue;
      std::vector<Length> at;
      for (const std::size_t k : p.supports) at.push_back(walls[s.wall].supports[k].at);
      const auto lever = lever_shares(at, s.at), continuous = continuous_shares(at, s.at);
      for (std::size_t k = 0; k < p.supports.size(); ++k)
        landings_[s.wall][p.supports[k]].push_back(
            {i, lever[k], sure ? continuous[k] : std::max(0.0, continuous[k]), false});
    }
  }
  // Told from one end of the wall to the other: a veranda's studs stand between those of the trusses.
  if (house.verandas.empty()) return;
  for (auto& wall : landings_)
    for (auto& landings : wall)
      std::stable_sort(landings.begin(), landings.end(),
                       [&](const Landing& a, const Landing& b) { return studs[a.stud].at < studs[b.stud].at; });
}

// Each fixing's part of a piece by the lever rule and by the plate as one beam over its fixings, the worse of the two:
// the first is straight between two fixings and the second a cubic, so that three places of each stretch are exact.
void Forces::lift_plates() {
  lifted_.resize(walls.size());
  for (std::size_t w = 0; w < walls.size(); ++w) lifted_[w].resize(walls[w].supports.size());
  for (std::size_t i = 0; i < braces.size(); ++i) {
    const BraceAt& b = braces[i];
    if (!b.capacity.perforated) continue;
    const Piece& piece = house.walls[b.wall].pieces[b.piece];
    for (const Plate& p : walls[b.wall].plates) {
      const Length from = std::max(piece.from, p.from), to = std::min(piece.to, p.to);
      if (!(to - from > same_place) || p.supports.empty()) continue;
      std::vector<Length> at, cuts{from};
      for (const std::size_t k : p.supports) {
        at.push_back(walls[b.wall].supports[k].at);
        if (at.back() > from && at.back() < to) cuts.push_back(at.back());
      }
      cuts.push_back(to);
      std::vector<Length> lever(at.size(), zero<Length>()), beam = lever;
      for (std::size_t s = 0; s + 1 < cuts.size(); ++s) {
        const Length l = cuts[s + 1] - cuts[s], middle = 0.5 * (cuts[s] + cuts[s + 1]);
        const auto half = lever_shares(at, middle), start = continuous_shares(at, cuts[s]),
                   mid = continuous_shares(at, middle), end = continuous_shares(at, cuts[s + 1]);
        for (std::size_t k = 0; k < at.size(); ++k) {
          lever[k] += half[k] * l;
          beam[k] += (start[k] + 4.0 * mid[k] + end[k]) / 6.0 * l;
        }
      }
      for (std::size_t k = 0; k < at.size(); ++k)
        if (const Length l = std::max(lever[k], beam[k]); l > no_share * metre)
          lifted_[b.wall][p.supports[k]].push_back({i, l});
    }
  }
}

std::optional<std::size_t> Forces::wall_below(const Wall& above, Length x) const {
  const Length reach = practice.get<Length>("anchor_near", "within");
  std::optional<std::size_t> nearest;
  for (std::size_t b = 0; b < walls.size(); ++b) {
    const Wall& below = house.walls[b];
    if (below.floor != Floor::ground || !stands_in(below, 0) || below.runs != above.runs ||
        x < below.from - same_place || x > below.to + same_place || apart(below.line, above.line) > reach + same_place)
      continue;
    if (!nearest || apart(below.line, above.line) < apart(house.walls[*nearest].line, above.line)) nearest = b;
  }
  return nearest;
}

void Forces::lay_out_crossings() {
  for (std::size_t w = 0; w < walls.size(); ++w) {
    const Wall& above = house.walls[w];
    if (above.floor == Floor::ground) continue;
    for (std::size_t s = 0; s < walls[w].supports.size(); ++s) {
      if (!can_be_pulled(w, s)) continue;
      const Length x = above.from + walls[w].supports[s].at;
      Crossing crossing{w, s, wall_below(above, x), zero<Length>()};
      if (crossing.below) {
        crossing.at = x - house.walls[*crossing.below].from;
        const Stud::Load load{roof.bearings().size(), 1.0, false, crossing.at, crossings.size()};
        // Where a wing's truss bears beside it both have one stud.
        if (Stud* beside = stud_beside(*crossing.below, crossing.at, true)) beside->loads.push_back(load);
        else land(*crossing.below, load);
      }
      crossings.push_back(crossing);
    }
  }
}

// A share that is nothing but the last bit of a sum is none: a stud that stands on the fixing beside this one.
bool Forces::brings(const Landing& l) {
  return l.direct || std::abs(l.lever) > no_share || std::abs(l.continuous) > no_share;
}

std::vector<std::size_t> Forces::crossings_to(const Stud& s) const {
  std::vector<std::size_t> r;
  for (const Stud::Load& load : s.loads)
    if (load.crossing && load.share > no_share) r.push_back(*load.crossing);
  return r;
}
std::vector<std::size_t> Forces::crossings_to(std::size_t wall, std::size_t support) const {
  std::vector<std::size_t> r;
  for (const Landing& l : landings_[wall][support])
    if (brings(l)) {
      const std::vector<std::size_t> more = crossings_to(studs[l.stud]);
      r.insert(r.end(), more.begin(), more.end());
    }
  return r;
}

bool Forces::bears_on(const Stud& s) {
  return std::any_of(s.loads.begin(), s.loads.end(),
                     [](const Stud::Load& load) { return !load.crossing && !load.rafter && load.share > no_share; });
}
bool Forces::bears_on(std::size_t wall, std::size_t support) const {
  const auto& landings = landings_[wall][support];
  return std::any_of(landings.begin(), landings.end(),
                     [this](const Landing& l) { return brings(l) && bears_on(studs[l.stud]); });
}

std::set<std::size_t> Forces::verandas_to(const Stud& s) const {
  std::set<std::size_t> r;
  for (const Stud::Load& load : s.loads)
    if (load.rafter && load.share > no_share) r.insert(verandas.rafters[*load.rafter].veranda);
  return r;
}
std::set<std::size_t> Forces::verandas_to(std::size_t wall, std::size_t support) const {
  std::set<std::size_t> r;
  for (const Landing& l : landings_[wall][support])
    if (brings(l)) r.merge(verandas_to(studs[l.stud]));
  return r;
}

// What has been computed is remembered, case by case, in the order in which one thing rests on another; what is asked
// for before its turn is worked out when it is asked for.
void Forces::compute_all() {
  memo_.resize(cases());
  for (std::size_t c = 0; c < cases(); ++c) {
    Remembered& m = memo_[c];
    // What no bracing has a part in is the same under either ceiling.
    if (const Remembered& flexible = memo_[wind_of(c)]; c != wind_of(c)) {
      m.bracket_across = flexible.bracket_across;
      m.across = flexible.across;
      if (!house.first) {
        m.stud = flexible.stud;
        m.roof_on = flexible.roof_on;
      }
    }
    if (under_rigid(c))
      for (const Floor f : {Floor::ground, Floor::first})
        for (std::size_t b = 0; b <= house.wings.size(); ++b)
          m.rigid.push_back(f == Floor::ground || house.first ? rigid_floor(c, f, b) : RigidFloor{});
    const auto each = [](Remembered::Forces_of& to, std::size_t count, const auto& compute) {
      to.resize(count);
      for (std::size_t i = 0; i < count; ++i) to[i] = compute(i);
    };
    const auto each_support = [&](std::vector<Remembered::Forces_of>& to, const auto& compute) {
      to.resize(walls.size());
      for (std::size_t w = 0; w < walls.size(); ++w) to[w].resize(walls[w].supports.size());
      for (std::size_t w = walls.size(); w-- > 0;)  // the first floor's walls stand after those that they stand on
        for (std::size_t i = 0; i < walls[w].supports.size(); ++i) to[w][i] = compute(w, i);
    };
    each(m.exact_line, lines.size(), [&](std::size_t l) { return exact_line_force(c, l); });
    each(m.line, lines.size(), [&](std::size_t l) { return line_force(c, l); });
    each(m.brace_counted, braces.size(), [&](std::size_t i) { return brace_capacity_counted(c, i); });
    each(m.line_capacity, lines.size(), [&](std::size_t l) { return line_capacity(c, l); });
    each(m.brace, braces.size(), [&](std::size_t i) { return brace_force(c, i); });
    each(m.bracket_across, roof.bearings().size(), [&](std::size_t b) { return bracket_across(c, b); });
    each(m.bracket_along, roof.bearings().size(), [&](std::size_t b) { return bracket_along(c, b); });
    each(m.stud, studs.size(), [&](std::size_t i) { return stud_uplift(c, i); });
    each_support(m.roof_on, [&](std::size_t w, std::size_t i) { return roof_on(c, w, i); });
    each_support(m.pull, [&](std::size_t w, std::size_t i) { return pull(c, w, i); });
    each_support(m.along, [&](std::size_t w, std::size_t i) { return along(c, w, i); });
    each_support(m.across, [&](std::size_t w, std::size_t i) { return across(c, w, i); });
  }
}

// ---- roof -----------------------------------------------------------------------------------------------------------

// At a corner either wall may be the one that holds it: the greater of the two.
Force Forces::bracket_across(std::size_t c, std::size_t bearing, Working* w) const {
  if (const auto known = remembered(memo_[c].bracket_across, bearing); known && !w) return *known;
  const Bearing& b = roof.bearings()[bearing];
  if (w) w->heading(fmt::format("The wind square on to the wall, at {}", b.words));
  const bool corner = b.feet.size() > 1;
  const std::string_view kind = words(roof.member_of(bearing).kind);
  const std::string width = w ? fmt::format("width of wall that this {} props", kind) : std::string(),
                    half = w ? fmt::format("statics: the upper half goes to the {}", kind) : std::string();
  std::vector<As<Force>> walls_of;
  for (const Foot& foot : b.feet) {
    const Wall& wall = house.walls[foot.wall];
    const std::string own = w ? (corner ? "B_c," + wall.name : std::string("B_c")) : std::string();
    walls_of.push_back(as(own, total<Force>(w, own, "across the wall at the bracket", "sum",
                                            square_on(c, wall, foot.from, foot.to, own, width, half, w))));
  }
  if (walls_of.empty()) return given(w, "B_c", "it stands on no wall", zero<Force>(), "the job");
  if (!corner) return walls_of.front().quantity;
  return greatest<Force>(w, "B_c", "across the wall at the bracket: of the two at the corner", "the safe one",
                         walls_of);
}

std::optional<Side> Forces::side_of_joint(const Wall& wall) const {
  if (!at_joint(wall)) return std::nullopt;
  for (const Side side : {Side::left, Side::front, Side::right, Side::back}) {
    const Length line = side == Side::right ? house.across : side == Side::back ? house.up : zero<Length>();
    const Along runs = is_across(outward(side)) ? Along::up : Along::across;
    const bool wing = std::any_of(house.wings.begin(), house.wings.end(),
                                  [&](const Wing& w) { return side == side_facing(opposite(outward(w.joint))); });
    if (wing && wall.runs == runs && apart(wall.line, line) <= same_place) return side;
  }
  return std::nullopt;
}

// Of a stretch of wall what the wind blows on: an outside wall, all of it; an inside wall on which trusses bear that
// are clear of the outside wall before it, the back of that recess; the wall at a joint, where the wing's roof stands
// lower than its top. There the whole height is counted.
std::vector<Forces::Stretch> Forces::in_the_wind(const Wall& wall, Length from, Length to) const {
  if (wall.outside) return {{wall.side, from, to, std::nullopt}};
  std::vector<Stretch> r;
  for (const Member& m : roof.members()) {
    if (!m.clear || &house.walls[roof.bearings()[m.clear->set_back].feet.at(0).wall] != &wall) continue;
    const Length low = std::max(from, m.clear->from), high = std::min(to, m.clear->to);
    if (high > low) r.push_back({m.clear->side, low, high, m.block});
  }
  for (std::size_t b = 1; b <= house.wings.size() && at_joint(wall); ++b) {
    const Wing& wing = house.wings[b - 1];
    const Length drop = house.height - wing.level - wing.height;
    if (!stands_in(wall, b) || !(drop > same_place)) continue;
    const bool across = !is_across(outward(wing.joint));
    const Length start = across ? wing.left : wing.front, width = across ? wing.across : wing.up;
    const auto covered_from = [&](Side side) {
      const double rise = tangent(wing.roof.own_pitch[static_cast<std::size_t>(side)].value_or(wing.roof.pitch));
      return rise > 0.0 ? std::min(width, drop / rise) : width;
    };
    const Length low = covered_from(across ? Side::left : Side::front),
                 high = covered_from(across ? Side::right : Side::back);
    const Side side = side_facing(opposite(outward(wing.joint)));
    const auto add = [&](Length a, Length b_end) {
      const Length low_end = std::max(from, a), high_end = std::min(to, b_end);
      if (high_end > low_end) r.push_back({side, low_end, high_end, 0});
    };
    if (low + high >= width) {
      add(start, start + width);
      continue;
    }
    add(start, start + low);
    add(start + width - high, start + width);
  }
  return r;
}

// Half of the push square on a stretch of wall, by stretches of even pressure.
std::vector<As<Force>> Forces::square_on(std::size_t c, const Wall& wall, Length from, Length to,
                                         const std::string& symbol, std::string_view width_words,
                                         std::string_view source, Working* w) const {
  std::vector<As<Force>> rows;
  const double f = of(c).combination.wind;
  const auto stretches = in_the_wind(wall, from, to);
  for (const SquareOn& s : of(c).square_on) {
    if (!stands_in(wall, s.block)) continue;
    Length width = zero<Length>();
    for (const Stretch& part : stretches)
      if (part.side == s.side && s.block == part.block.value_or(s.block))
        width += overlap(part.from, part.to, s.from, s.to);
    if (width <= zero<Length>()) continue;
    const Length height = height_of(house, wall);
    if (!w) {
      rows.push_back(as("", formulas::pushed_square_on(nullptr, f, s.p, height, width)));
      continue;
    }
    const std::string row = fmt::format("{}{}", symbol, rows.size() + 1);
    given(w, "f_w", "factor on the wind", f, of(c).combination.source);
    tell_wall_height(house, wall, w);
    given(w, "b", width_words, width, "the set-out");
    rows.push_back(
        as(row, formulas::pushed_square_on.told(w, row, source, f, as(in_block(house, "p_sq," + s.label, s.block), s.p),
                                                as(height_symbol(house, wall), height), width)));
  }
  return rows;
}

Force Forces::bracket_along(std::size_t c, std::size_t bearing, Working* w) const {
  if (const auto known = remembered(memo_[c].bracket_along, bearing); known && !w) return *known;
  const Bearing& b = roof.bearings()[bearing];
  const bool corner = b.feet.size() > 1;
  std::vector<As<Force>> walls_of;
  for (const Foot& foot : b.feet) {
    const Wall& wall = house.walls[foot.wall];
    const Length width = overlap(foot.from - wall.from, foot.to - wall.from, zero<Length>(), wall.length());
    // The wall as far as it belongs to the line over the stretch that is served.
    // A verge may reach past the block, where the wall goes on: the line is that of the member's own block.
    const std::size_t block = roof.member_of(bearing).block;
    const Length start = (wall.runs == Along::across ? left_of(house, block) : front_of(house, block)) - wall.from,
                 end = start + extent_of(house, block, wall.runs);
    const Length middle = 0.5 * (std::max({foot.from - wall.from, zero<Length>(), start}) +
                                 std::min({foot.to - wall.from, wall.length(), end}));
    const auto l = line_of(foot.wall, middle);
    if (!l || !(wall.outside || at_joint(wall))) continue;
    const auto part = std::find_if(lines[*l].parts.begin(), lines[*l].parts.end(), [&](const LineWall& p) {
      return p.wall == foot.wall && middle >= p.from - same_place && middle <= p.to + same_place;
    });
    // As far as it runs along the member's own block, whose ceiling brings it; of the whole line's force, which is
    // safe.
    const Length own = overlap(part->from, part->to, start, end);
    const bool of_block = own > same_place;
    const Length from = of_block ? std::max(part->from, start) : part->from,
                 to = of_block ? std::min(part->to, end) : part->to;
    // Where trusses are clear of the wall no bracket brings it anything.
    Length bare = zero<Length>();
    for (const Member& m : roof.members())
      if (m.clear && m.clear->wall == foot.wall && m.block == block)
        bare += overlap(m.clear->from - wall.from, m.clear->to - wall.from, from, to);
    const Length under = (of_block ? own : to - from) - bare, length = under > same_place ? under : width;
    const As<Force> brought = through_brackets(c, *l, w);
    if (!w) {
      walls_of.push_back(as("", formulas::along_bracket(nullptr, brought.quantity, width, length)));
      continue;
    }
    w->heading(fmt::format("Down through the brackets into the wall, at {}", b.words));
    const std::string mark = corner ? "," + wall.name : std::string();
    given(w, "b" + mark, fmt::format("length of wall that this {} serves", words(roof.member_of(bearing).kind)), width,
          along_source(house, roof.member_of(bearing).block));
    given(w, "L" + mark,
          bare > zero<Length>() ? "length of the wall, without what trusses are clear of" : "length of the wall",
          length, "the job");
    walls_of.push_back(
        as("B_a" + mark, formulas::along_bracket.told(w, "B_a" + mark, formulas::along_bracket.source, brought,
                                                      as("b" + mark, width), as("L" + mark, length))));
  }
  if (walls_of.empty())
    return w ? given(w, "B_a", "no outside wall's racking goes through it", zero<Force>(), "the job") : zero<Force>();
  if (!corner) return walls_of.front().quantity;
  if (w) w->heading(fmt::format("Down through the brackets into the wall, at {}", b.words));
  return greatest<Force>(w, "B_a", "along the wall: of the two at the corner", "the safe one", walls_of);
}

// ---- down the wall --------------------------------------------------------------------------------------------------

// A load on a stud: a truss's uplift, a veranda's, or what crosses the floor from the fixing of a wall above.
Force Forces::brought(std::size_t c, const Stud::Load& load, Working* w) const {
  if (load.rafter) return verandas.at_wall(*load.rafter, w);
  if (!load.crossing) return uplift(c, load.bearing, w);
  const Crossing& from = crossings[*load.crossing];
  if (w && !w->first(brought_symbol(load))) w = nullptr;
  const Force f = pull(c, from.wall, from.support, w);
  if (!w) return f;
  w->heading(fmt::format("Across the floor from {}", support_words(from.wall, from.support)));
  return greatest<Force>(w, brought_symbol(load), "pull that the fixing above hands down", "statics", {as("T", f)});
}
std::string Forces::number(const Stud::Load& load) const {
  if (load.rafter) return verandas.number(*load.rafter);
  return load.crossing ? fmt::format("x{}", *load.crossing + 1) : roof.number(load.bearing);
}
std::string Forces::brought_symbol(const Stud::Load& load) const {
  if (load.rafter) return verandas.wall_symbol(*load.rafter);
  return load.crossing ? fmt::format("X_{}", *load.crossing + 1) : roof.symbol(load.bearing);
}
std::string Forces::brought_words(const Stud::Load& load) const {
  if (load.rafter) return verandas.rafter_words(*load.rafter, true);
  if (!load.crossing) return roof.bearings()[load.bearing].words;
  return support_words(crossings[*load.crossing].wall, crossings[*load.crossing].support);
}

// One load that stands on the stud and lifts is told as that load itself.
std::string Forces::stud_symbol(std::size_t c, std::size_t stud) const {
  const auto& on = studs[stud].loads;
  if (on.size() == 1 && !on.front().over_opening && brought(c, on.front()) >= zero<Force>())
    return brought_symbol(on.front());
  return fmt::format("S_{}", stud + 1);
}

Force Forces::stud_uplift(std::size_t c, std::size_t stud, Working* w) const {
  if (const auto known = remembered(memo_[c].stud, stud); known && !w) return *known;
  const Stud& s = studs[stud];
  std::vector<As<Force>> rows;
  if (w && !w->first(fmt::format("stud {}", stud))) w = nullptr;
  if (w)
    for (const auto& load : s.loads) brought(c, load, w);
  const std::string symbol = w ? stud_symbol(c, stud) : std::string();
  if (w && !symbol.starts_with('S')) return brought(c, s.loads.front());
  if (w) w->heading(fmt::format("Down to the stud: {}", stud_words(s)));
  if (w && s.jamb) {
    const Piece& p = house.walls[s.wall].pieces[s.jamb->piece];
    given(w, "x_1", "left jamb of the opening, from the wall's start", p.from, "the job");
    given(w, "x_2", "right jamb of the opening", p.to, "the job");
  }
  if (w)
    for (const auto& load : s.loads)
      if (load.over_opening)
        given(w, fmt::format("t_{}", number(load)), fmt::format("place of {}", brought_words(load)), load.at,
              "the job");
  for (const auto& load : s.loads) {
    const Force u = brought(c, load);
    if (!w) {
      rows.push_back(as("", formulas::landed(nullptr, load.share, u)));
      continue;
    }
    const std::string n = number(load);
    const std::string k = fmt::format("j_{}", n), f = fmt::format("F_{}", n), up = brought_symbol(load);
    if (!load.over_opening) {
      rows.push_back(as(up, u));  // the truss stands on this stud
      continue;
    }
    const Piece& p = house.walls[s.wall].pieces[s.jamb->piece];
    const auto place = as(fmt::format("t_{}", n), load.at);
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
    r.push_back({fmt::format("{} {}",
                             load.rafter     ? "veranda"
                             : load.crossing ? "first floor"
                                             : "roof",
                             load.over_opening ? "over the opening" : "on this stud"),
                 brought_words(load), load.share * brought(c, load)});
  const Force sum = sum_of(r);
  if (sum < zero<Force>()) r.push_back({"pressed down: counted as nothing", "", -sum});
  return r;
}

// ---- bracing --------------------------------------------------------------------------------------------------------

std::vector<std::size_t> Forces::lines_running(Along way, Floor floor) const {
  std::vector<std::size_t> r;
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (lines[i].runs == way && lines[i].floor == floor && lines[i].props) r.push_back(i);
  return r;
}

std::vector<std::size_t> Forces::lines_of_block(Along way, Floor floor, std::size_t block) const {
  std::vector<std::size_t> r = lines_running(way, floor);
  std::erase_if(r, [&](std::size_t l) {
    return std::find(lines[l].blocks.begin(), lines[l].blocks.end(), block) == lines[l].blocks.end();
  });
  return r;
}

// Of every block whose ceiling it props.
std::vector<Forces::LineRow> Forces::line_rows(std::size_t c, std::size_t line) const {
  std::vector<LineRow> rows;
  if (!lines[line].props) return rows;  // nothing on it counts: the others do without it
  for (const std::size_t block : lines[line].blocks) add_line_rows(c, line, block, rows);
  return rows;
}
void Forces::add_line_rows(std::size_t c, std::size_t line, std::size_t block, std::vector<LineRow>& rows) const {
  const Floor floor = lines[line].floor;
  const auto order = lines_of_block(lines[line].runs, floor, block);
  // From mid-height of this floor's walls up: to the sky, or to where the floor above takes over.
  const Length walls_up = block == 0 ? wall_height(house, floor) : house.wings[block - 1].height;
  const Length low = foot_of_walls(house, floor) + walls_up / 2.0,
               high = block > 0 || floor == top_floor(house) ? everywhere : shape.racking_from;
  const auto me = static_cast<std::size_t>(std::find(order.begin(), order.end(), line) - order.begin());
  if (order.size() < 2) throw std::logic_error("fewer than two bracing lines in a direction");
  const double f = of(c).combination.wind;
  const Length x = lines[line].at;
  // Past the first and the last line the ceiling is a cantilever: the same two formulas, with a share above 1 for the
  // end line and below 0 (relief) for the next.
  const auto add = [&](const Push& push, Length from, Length to, std::size_t beside, bool relief) {
    const Length other = lines[beside].at;
    const Polygon g = between_x(between_y(push.part, low, high), from, to);
    if (g.empty()) return;
    const Area a = area(g);
    const Length middle = moment_x(g) / a;
    const bool positive = push.towards == Way::right || push.towards == Way::back;
    const Force r = other > x ? formulas::racking_share(nullptr, f, push.p, a, other, middle, x)
                              : formulas::racking_share_upper(nullptr, f, push.p, a, middle, other, x);
    rows.push_back({push.what, in_block(house, "p_" + push.label, push.block), positive ? r : -r, relief, push.p, a,
                    middle, beside, positive});
  };
  for (const Push& push : of(c).push) {
    if (push.ceiling != block || is_across(push.towards) != (lines[line].runs == Along::across)) continue;
    const std::size_t last = order.size() - 1;
    if (me == 0) add(push, -everywhere, x, order[1], false);
    if (me > 0) add(push, lines[order[me - 1]].at, x, order[me - 1], false);
    if (me < last) add(push, x, lines[order[me + 1]].at, order[me + 1], false);
    if (me == last) add(push, x, everywhere, order[last - 1], false);
    if (me == 1) add(push, -everywhere, lines[order[0]].at, order[0], true);
    if (me + 1 == last) add(push, lines[order[last]].at, everywhere, order[last], true);
  }
}

namespace {
// Added on to what stands before, row by row as the working adds them up: to the same bits.
template <class Rows> Force sum_of_rows(const Rows& rows, bool with_relief, Force sum = zero<Force>()) {
  for (const auto& row : rows)
    if (with_relief || !row.past_end_relief) sum += row.value;
  return sum;
}
}  // namespace

// A line above stands on its own line below. One that stands off all of them goes to the lines beside it as by simple
// spans, past the end line as by a lever, and to the nearest in full. exact: as shared out, the relief left in.
std::vector<Forces::FromAbove> Forces::from_above(std::size_t c, std::size_t line, bool exact) const {
  std::vector<FromAbove> r;
  const Line& me = lines[line];
  if (!under_the_floor(line) || !me.props) return r;
  const auto order = lines_of_block(me.runs, Floor::ground, 0);
  std::vector<Length> at;
  for (const std::size_t l : order) at.push_back(lines[l].at);
  const auto place = static_cast<std::size_t>(std::find(order.begin(), order.end(), line) - order.begin());
  for (const std::size_t u : lines_running(me.runs, Floor::first)) {
    const Force v = exact ? exact_line_force(c, u) : line_force(c, u);
    if (const auto below = line_below(u)) {
      if (*below == line) r.push_back({u, 1.0, v, false, false, exact});
      continue;
    }
    // How stiff the floor is nobody knows: the nearest line may get all of it, and is asked for that.
    const double lever = exact_lever_shares(at, lines[u].at)[place];
    const bool nearest = std::none_of(at.begin(), at.end(), [&](Length other) {
      return apart(other, lines[u].at) < apart(me.at, lines[u].at) - same_place;
    });
    const double share = nearest && !exact ? std::max(lever, 1.0) : lever;
    if (share != 0.0) r.push_back({u, share, share * v, share < 0.0, true, exact});
  }
  return r;
}

// Relief that a ceiling or a floor past its end line would give the next line is not used; where it is no relief, it
// is. A line above that is pushed the other way relieves this one: with no more than what it has in exact balance.
Forces::LineSum Forces::line_sum(std::size_t c, std::size_t line) const {
  LineSum r{line_rows(c, line), from_above(c, line, false), zero<Force>()};
  std::vector<FromAbove> balanced = from_above(c, line, true);
  r.force = sum_of_rows(r.above, false, sum_of_rows(r.rows, false));
  const Force with = sum_of_rows(r.above, true, sum_of_rows(r.rows, true)),
              exact = sum_of_rows(balanced, true, sum_of_rows(r.rows, true));
  const bool keep = size(with) > size(r.force) || size(exact) > size(r.force);
  if (!keep) {
    std::erase_if(r.rows, [](const LineRow& row) { return row.past_end_relief; });
    std::erase_if(r.above, [](const FromAbove& a) { return a.past_end_relief; });
    return r;
  }
  r.force = with;
  if (size(exact) > size(with)) {
    r.force = exact;
    r.above = std::move(balanced);
  }
  return r;
}

Force Forces::line_force(std::size_t c, std::size_t line, Working* w) const {
  if (const auto known = remembered(memo_[c].line, line); known && (!w || !w->first(fmt::format("line {}", line))))
    return *known;
  if (under_rigid(c))
    if (const auto rigid = rigid_line(c, line)) {
      if (w) tell_rigid_line(c, line, *rigid, *w);
      return rigid->force;
    }
  const LineSum all = line_sum(c, line);
  if (!w) return all.force;
  for (const FromAbove& a : all.above)
    if (!a.exact) line_force(c, a.line, w);
  tell_line(c, line, all.rows, all.above, all.force < zero<Force>(), *w);
  return all.force;
}

// What ceilings bring to a line through the brackets above it, in size: its force without what the first floor hands
// down, since no truss stands between that floor and the walls below it.
As<Force> Forces::through_brackets(std::size_t c, std::size_t line, Working* w) const {
  const Force v = line_force(c, line, w);
  const auto whole = [&] { return as(w ? line_symbol(line) : std::string(), size(v)); };
  if (!under_the_floor(line)) return whole();
  std::vector<As<Force>> rows;  // positive the way in which the line is pushed
  if (under_rigid(c) && rigid_line(c, line)) {
    rows = rigid_shares_of_wings(c, line);
  } else {
    const LineSum all = line_sum(c, line);
    for (std::size_t i = 0; i < all.rows.size() && !all.above.empty(); ++i)
      rows.push_back(as(w ? fmt::format("R_{}{}", i + 1, of_floor(lines[line].floor)) : std::string(),
                        v < zero<Force>() ? -all.rows[i].value : all.rows[i].value));
  }
  if (rows.empty()) return whole();
  Force own = zero<Force>();
  for (const As<Force>& row : rows) own += row.quantity;
  if (!w) return as("", size(own));
  const std::string symbol = "V_c," + in_symbol(house.walls[lines[line].walls.front()].name),
                    words = fmt::format("what ceilings bring to line {}, without the floor above", lines[line].name);
  if (own < zero<Force>())
    return as(symbol, given(w, symbol, words + ": the other way", size(own), "the sum of the line's rows"));
  return as(symbol, total<Force>(w, symbol, words, "sum", rows));
}

// Told in the direction in which the line is pushed, so that V is positive; pushes the other way count negative in it.
void Forces::tell_line(std::size_t c, std::size_t line, const std::vector<LineRow>& rows,
                       const std::vector<FromAbove>& above, bool negative, Working& w) const {
  const Line& me = lines[line];
  const std::string floor = of_floor(me.floor);
  const double f = of(c).combination.wind;
  const auto symbol = [&](std::size_t l) { return "x_" + in_symbol(house.walls[lines[l].walls.front()].name); };
  const auto tell_place = [&](std::size_t l) {
    given(&w, symbol(l), fmt::format("place of bracing line {} along the face", lines[l].name), lines[l].at, "the job");
  };
  w.heading(fmt::format("What bracing line {} has to hold", me.name));
  given(&w, "f_w", "factor on the wind", f, of(c).combination.source);
  tell_place(line);
  for (const LineRow& row : rows) tell_place(row.beside);
  const std::string_view which =
      !under_the_floor(line)  ? "area above half-height that pushes here"
      : me.blocks.size() == 1 ? "area from half-height to that of the walls above that pushes here"
                              : "area from half-height, under a first floor to that of its walls, that pushes here";
  for (std::size_t i = 0; i < rows.size(); ++i) {
    given(&w, fmt::format("A_{}{}", i + 1, floor), fmt::format("{}: {}", which, rows[i].what), rows[i].area,
          "measured from the job");
    given(&w, fmt::format("m_{}{}", i + 1, floor), "its middle, along the face", rows[i].middle,
          "measured from the job");
  }
  std::vector<As<Force>> told;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const LineRow& row = rows[i];
    const auto p = as(row.symbol, row.p);
    const auto a = as(fmt::format("A_{}{}", i + 1, floor), row.area);
    const auto m = as(fmt::format("m_{}{}", i + 1, floor), row.middle), here = as(symbol(line), me.at),
               there = as(symbol(row.beside), lines[row.beside].at);
    const std::string own = fmt::format("R_{}{}", i + 1, floor);
    const bool against = row.positive == negative, upper = lines[row.beside].at <= me.at;
    const Force r =
        upper ? (against ? formulas::racking_share_upper_against.told(&w, own, "moments", f, p, a, m, there, here)
                         : formulas::racking_share_upper.told(&w, own, "moments", f, p, a, m, there, here))
              : (against ? formulas::racking_share_against.told(&w, own, "moments", f, p, a, there, m, here)
                         : formulas::racking_share.told(&w, own, "moments", f, p, a, there, m, here));
    told.push_back(as(own, r));
  }
  for (const FromAbove& a : above) told.push_back(tell_from_above(c, line, a, negative, w));
  w.heading(fmt::format("What bracing line {} has to hold", me.name));
  total<Force>(&w, line_symbol(line), fmt::format("force on line {}", me.name), "sum", told);
}

// Its force in the sense in which the line below is pushed.
As<Force> Forces::tell_from_above(std::size_t c, std::size_t line, const FromAbove& a, bool negative,
                                  Working& w) const {
  const Line &me = lines[line], &above = lines[a.line];
  const Force v = a.exact ? exact_line_force(c, a.line) : line_force(c, a.line);
  const std::string name = in_symbol(house.walls[above.walls.front()].name);
  w.heading(fmt::format("From line {} down to line {}", above.name, me.name));
  const auto force = as(a.exact ? "V_e," + name : line_symbol(a.line), size(v));
  if (a.exact)
    given(&w, force.name, fmt::format("force on line {} with the relief past its end lines left in", above.name),
          force.quantity, "the sum of the line's rows");
  const bool against = (v < zero<Force>()) != negative;
  const std::string symbol = "D_" + name;
  const double share = against ? -a.share : a.share;
  const std::string_view way = against ? ", pushed the other way" : "";
  const std::string what =
      a.beside ? fmt::format("what the floor may bring here of line {}, which stands beside{}", above.name, way)
               : fmt::format("line {} stands on this one{}", above.name, way);
  const auto k = as("k_" + name, given(&w, "k_" + name, what, share,
                                       a.beside ? "lever rule; all of it for the nearest line" : "the job"));
  return as(symbol, formulas::handed_down.told(&w, symbol, "statics", k, force));
}

Force Forces::exact_line_force(std::size_t c, std::size_t line) const {
  if (const auto known = remembered(memo_[c].exact_line, line)) return *known;
  if (under_rigid(c))
    if (const auto rigid = rigid_line(c, line)) return rigid->direct + rigid->turned;
  return sum_of_rows(from_above(c, line, true), true, sum_of_rows(line_rows(c, line), true));
}

std::vector<Piece_of_demand> Forces::line_made_of(std::size_t c, std::size_t line) const {
  if (under_rigid(c))
    if (const auto rigid = rigid_line(c, line)) return rigid_line_made_of(c, line, *rigid);
  // Rows of one push are one entry: the builder asks which part of the face pushes, not which bay.
  const LineSum all = line_sum(c, line);
  const double sign = all.force < zero<Force>() ? -1.0 : 1.0;
  std::vector<Piece_of_demand> r;
  for (const LineRow& row : all.rows) {
    const auto same = std::find_if(r.begin(), r.end(), [&](const Piece_of_demand& p) { return p.what == row.what; });
    if (same != r.end()) same->value += sign * row.value;
    else r.push_back({row.what, of(c).wind, sign * row.value});
  }
  for (const FromAbove& a : all.above)
    r.push_back({"line " + lines[a.line].name + " above", lines[a.line].name, sign * a.value});
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
  const std::string symbol = w ? "C_" + in_symbol(drawn.name) : std::string();
  if (w) {
    if (!w->first("capacity " + drawn.name)) w = nullptr;
  }
  if (w) {
    w->heading(fmt::format("What brace {} can hold", drawn.name));
    if (b.capacity.refused.empty() && !b.capacity.missing)
      brace_capacity(house, house.walls[b.wall], house.walls[b.wall].pieces[b.piece], practice, cyclonic_, w);
    if (capacity == zero<Force>())
      return given(w, symbol,
                   b.capacity.missing ? fmt::format("brace {} is missing as built", drawn.name)
                                      : fmt::format("brace {} does not count in this sense", drawn.name),
                   zero<Force>(),
                   b.capacity.missing ? fmt::format("as built, {}", drawn.found->at) : std::string("its conditions"));
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
  const std::string force = exact < size(v) ? "V_e" : line_symbol(b.line);
  if (exact < size(v))
    given(w, force, "the line's force with the relief past the end lines left in", exact, "the sum of the line's rows");
  formulas::half_of.told(w, "C_n", practice.source("lining"), as("k_l", share), as(force, std::min(exact, size(v))));
  given(w, "C_l", "all lining of this line", all, "sum of the line's lining");
  return formulas::lining_counted.told(w, symbol, practice.source("lining"), as("C_b", capacity), as("C_n", half),
                                       as("C_l", all));
}

std::string Forces::line_symbol(std::size_t line) const {
  return house.first ? "V_l," + in_symbol(house.walls[lines[line].walls.front()].name) : "V";
}
std::string Forces::tip_symbol(std::size_t brace) const {
  const BraceAt& b = braces[brace];
  return house.first ? "T_v," + in_symbol(house.walls[b.wall].pieces[b.piece].brace->name) : "T_v";
}
std::string Forces::capacity_symbol(std::size_t line) const {
  const std::string whole = house.first ? "C_l," + in_symbol(house.walls[lines[line].walls.front()].name) : "C";
  std::string only;
  for (const BraceAt& b : braces)
    if (b.line == line) {
      if (!only.empty()) return whole;
      only = "C_" + in_symbol(house.walls[b.wall].pieces[b.piece].brace->name);
    }
  return only.empty() ? whole : only;
}

Force Forces::line_capacity(std::size_t c, std::size_t line, Working* w) const {
  if (const auto known = remembered(memo_[c].line_capacity, line);
      known && (!w || !w->first(fmt::format("line capacity {}", line))))
    return *known;
  std::vector<As<Force>> rows;
  for (std::size_t i = 0; i < braces.size(); ++i)
    if (braces[i].line == line) {
      const std::string& name = house.walls[braces[i].wall].pieces[braces[i].piece].brace->name;
      rows.push_back(as(w ? "C_" + in_symbol(name) : std::string(), brace_capacity_counted(c, i, w)));
    }
  if (w && rows.size() == 1) return rows.front().quantity;  // told as the brace's: see capacity_symbol
  if (w) w->heading(fmt::format("What bracing line {} can hold", lines[line].name));
  return total<Force>(w, w ? capacity_symbol(line) : std::string(),
                      fmt::format("strength of line {} in this sense", lines[line].name), "sum", rows);
}

Force Forces::brace_force(std::size_t c, std::size_t brace, Working* w) const {
  if (const auto known = remembered(memo_[c].brace, brace); known && (!w || !w->first(fmt::format("brace {}", brace))))
    return *known;
  const BraceAt& b = braces[brace];
  const Force v = size(line_force(c, b.line, w));
  const Force all = line_capacity(c, b.line, w);
  const Force own = brace_capacity_counted(c, brace, w);
  if (own <= zero<Force>() || all <= zero<Force>() || v <= no_push) return zero<Force>();
  if (!w) return formulas::brace_share(nullptr, v, own, all);
  const std::string& name = house.walls[b.wall].pieces[b.piece].brace->name;
  w->heading(fmt::format("Brace {}'s share", name));
  return formulas::brace_share.told(w, "V_" + in_symbol(name), "shared by capacity", as(line_symbol(b.line), v),
                                    as("C_" + in_symbol(name), own), as(capacity_symbol(b.line), all));
}

// ---- a brace's ends -------------------------------------------------------------------------------------------------

bool Forces::presses(std::size_t c, std::size_t brace, End e) const {
  if (brace_force(c, brace) <= zero<Force>()) return false;
  return (line_force(c, braces[brace].line) >= zero<Force>()) == (e == End::right);
}
bool Forces::pulls(std::size_t c, std::size_t brace, End e) const {
  const auto& of = braces[brace].capacity.perforated;
  return presses(c, brace, other(e)) && (!of || (e == End::left ? of->left : of->right));
}
bool Forces::racked(std::size_t c, std::size_t wall, std::size_t support) const {
  const auto& ends = walls[wall].supports[support].ends;
  return std::any_of(ends.begin(), ends.end(),
                     [&](const BraceEnd& e) { return pulls(c, brace_on(wall, e.piece), e.end); }) ||
         std::any_of(lifted(wall, support).begin(), lifted(wall, support).end(),
                     [&](const Lifted& l) { return brace_force(c, l.brace) > zero<Force>(); });
}

LineLoad Forces::perforated_shear(std::size_t c, std::size_t brace, Working* w) const {
  const OfPerforated& of = *braces[brace].capacity.perforated;
  const Force v = brace_force(c, brace, w);
  if (!w || !w->first(fmt::format("shear {}", brace)))
    return formulas::perforated_shear(nullptr, v, of.factor, of.counted);
  const std::string name = in_symbol(house.walls[braces[brace].wall].pieces[braces[brace].piece].brace->name);
  w->heading(fmt::format("In the sheet and under it: wall {}", of.wall));
  return formulas::perforated_shear.told(w, "v_" + name, practice.source("sdpws_perforated"), as("V_" + name, v),
                                         as(of.factor_symbol, of.factor), as(of.counted_symbol, of.counted));
}

// Where one was found further in than planned, that: of two ends the worse. Some arm is always left: an end so far from
// its hold-down fails by itself.
Length Forces::hold_down_in(std::size_t brace) const {
  const BraceAt& b = braces[brace];
  const Piece& p = house.walls[b.wall].pieces[b.piece];
  const Length planned = p.brace->hold_down_in, least_arm = Length::from_value(0.05),
               most = reach(brace).quantity - practice.get<Length>("hold_down", "compression_in") - least_arm;
  Length in = planned;
  for (const Support& s : walls[b.wall].supports)
    for (const BraceEnd& e : s.ends)
      if (e.piece == b.piece && s.planned) in = std::max(in, e.end == End::left ? s.at - p.from : p.to - s.at);
  return in == planned ? planned : std::max(planned, std::min(in, most));
}
As<Length> Forces::reach(std::size_t brace, Working* w) const {
  const Wall& wall = house.walls[braces[brace].wall];
  const Piece& p = wall.pieces[braces[brace].piece];
  const auto& shorter = braces[brace].capacity.reach;
  if (!w) return shorter ? as("L_m", *shorter) : as("L", p.to - p.from);
  return brace_reach(house, wall, p, w);
}
Length Forces::arm(std::size_t brace, Working* w) const {
  const Piece& p = house.walls[braces[brace].wall].pieces[braces[brace].piece];
  const As<Length> l = reach(brace, w);
  const Length studs_in = practice.get<Length>("hold_down", "compression_in"), in = hold_down_in(brace);
  if (w) {
    given(w, "e_h", "from the brace's end to its hold-down", in,
          in == p.brace->hold_down_in ? "the job, or common practice" : "as it was found");
    given(w, "e_c", "from the other end to the middle of the compression studs", studs_in,
          practice.source("hold_down"));
    return formulas::tipping_arm.told(w, "z_" + in_symbol(p.brace->name), "geometry", l, in, studs_in);
  }
  return formulas::tipping_arm(nullptr, l, in, studs_in);
}

Force Forces::tip(std::size_t c, std::size_t brace, Working* w) const {
  const Brace& drawn = *house.walls[braces[brace].wall].pieces[braces[brace].piece].brace;
  const Force v = brace_force(c, brace, w);
  if (v <= zero<Force>()) return zero<Force>();
  const bool perforated = braces[brace].capacity.perforated.has_value();
  const LineLoad shear = perforated ? perforated_shear(c, brace, w) : zero<LineLoad>();
  if (w) w->heading(fmt::format("Brace {} wants to tip over", drawn.name));
  const Wall& wall = house.walls[braces[brace].wall];
  const Piece& piece = wall.pieces[braces[brace].piece];
  const Length h = tipping_height(brace, w);
  const Length z = arm(brace, w), l = piece.to - piece.from;
  if (!w)
    return perforated ? formulas::perforated_pull(nullptr, shear, h, l, z) : formulas::tipping_pull(nullptr, v, h, z);
  const std::string name = in_symbol(drawn.name);
  const auto height = as(under_the_floor(braces[brace].line) ? "h_t" : height_symbol(house, wall), h);
  if (perforated)
    return formulas::perforated_pull.told(w, tip_symbol(brace), practice.source("sdpws_perforated") + "; moments",
                                          as("v_" + name, shear), height, l, as("z_" + name, z));
  return formulas::tipping_pull.told(w, tip_symbol(brace), "moments", as("V_" + name, v), height, as("z_" + name, z));
}
// A framed floor pushes at its top, the roof at the top of the wall.
Length Forces::tipping_height(std::size_t brace, Working* w) const {
  const Length h = tell_wall_height(house, house.walls[braces[brace].wall], w);
  if (!under_the_floor(braces[brace].line)) return h;
  const Length depth =
      given(w, "d_f", "from the top of the ground floor's walls to the underside of the first floor's bottom plates",
            house.first->depth, "the job's block");
  return formulas::tipping_height(w, h, depth);
}
Length Forces::end_of(std::size_t brace, End e) const {
  const Wall& wall = house.walls[braces[brace].wall];
  const Piece& p = wall.pieces[braces[brace].piece];
  return wall.from + (e == End::left ? p.from : p.to);
}
// Over an opening the lintel shares it between the jambs.
double Forces::press_share(std::size_t above, End e, std::size_t below, End end) const {
  const Wall& upper = house.walls[braces[above].wall];
  const Length x = end_of(above, e);
  if (braces[below].capacity.left_out) return 0.0;  // a post beside an opening, no brace
  if (upper.floor == Floor::ground || wall_below(upper, x) != braces[below].wall) return 0.0;
  const Wall& wall = house.walls[braces[below].wall];
  const Length at = x - wall.from, mine = end_of(below, end) - wall.from,
               reach = practice.get<Length>("anchor_near", "within") + same_place;
  for (const Piece& p : wall.pieces) {
    if (!p.opening || !(at > p.from + same_place && at < p.to - same_place)) continue;
    double share = 0.0;
    if (apart(p.from, mine) <= reach) share += formulas::lever_left(nullptr, p.to, at, p.from);
    if (apart(p.to, mine) <= reach) share += formulas::lever_right(nullptr, at, p.from, p.to);
    return share;
  }
  return apart(at, mine) <= reach ? 1.0 : 0.0;
}
double Forces::press_left(std::size_t brace, End e) const {
  const Length reach = practice.get<Length>("anchor_near", "within");
  double left = 1.0;
  std::vector<Length> counted;  // ends that stand on one place are each asked for the whole: counted once
  for (std::size_t below = 0; below < braces.size(); ++below)
    for (const End end : {End::left, End::right}) {
      const double share = press_share(brace, e, below, end);
      const Length at = end_of(below, end);
      const bool twin =
          std::any_of(counted.begin(), counted.end(), [&](Length k) { return apart(k, at) <= reach + reach; });
      if (!(share > no_share) || twin) continue;
      counted.push_back(at);
      left -= share;
    }
  return std::max(left, 0.0);
}

Force Forces::press(std::size_t c, std::size_t brace, End end, Working* w) const {
  std::vector<As<Force>> rows;
  if (presses(c, brace, end)) rows.push_back(as(w ? tip_symbol(brace) : std::string(), tip(c, brace, w)));
  for (std::size_t i = 0; i < braces.size() && house.first; ++i)
    for (const End e : {End::left, End::right}) {
      const double share = press_share(i, e, brace, end);
      if (!(share > no_share) || !presses(c, i, e)) continue;
      const Force there = tip(c, i, w);
      if (!w) {
        rows.push_back(as("", formulas::landed(nullptr, share, there)));
        continue;
      }
      const std::string& name = house.walls[braces[i].wall].pieces[braces[i].piece].brace->name;
      const std::string own = in_symbol(name);
      w->heading(fmt::format("From brace {} above", name));
      given(w, "k_" + own, "share of what its pressed end brings that comes down here", share,
            share < 1.0 ? "the lintel is a simple span" : "it stands here");
      rows.push_back(as("P_" + own, formulas::landed.told_as(w, "P_" + own, "what presses here from above", "statics",
                                                             as("k_" + own, share), as(tip_symbol(i), there))));
    }
  if (rows.size() == 1) return rows.front().quantity;
  if (w) w->heading("Pressed at one end of the brace");
  return total<Force>(w, "P_c", "what presses on the compression studs", "sum", rows);
}

// ---- the floor on the walls below -----------------------------------------------------------------------------------

namespace {
// As many as the wall's length has of their greatest spaces.
double fixings_along(Length wall, Length spacing) {
  return std::max(1.0, std::floor(static_cast<double>((wall + same_place) / spacing)));
}
}  // namespace

bool Forces::under_the_floor(std::size_t line) const {
  const Line& l = lines[line];
  return house.first && l.floor == Floor::ground && l.blocks.front() == 0;
}
std::pair<Length, Length> Forces::below_the_floor(const LineWall& part) const {
  const Wall& wall = house.walls[part.wall];
  const Length from = std::max(wall.from + part.from, zero<Length>()),
               to = std::min(wall.from + part.to, extent_of(house, 0, wall.runs));
  return {from, std::max(from, to)};
}
double Forces::floor_fixings(std::size_t line) const {
  double n = 0.0;
  for (const LineWall& part : lines[line].parts)
    if (const auto [from, to] = below_the_floor(part); to - from > same_place)
      n += fixings_along(to - from, house.first->fixing_spacing);
  return n;
}
Force Forces::floor_fixing_along(std::size_t c, std::size_t line, Working* w) const {
  const Force v = size(line_force(c, line, w));
  const double n = floor_fixings(line);
  if (!w) return formulas::slide_share(nullptr, v, n);
  w->heading(fmt::format("One fixing of the floor to line {}", lines[line].name));
  given(w, "n", "fixings along the line: one for each of their greatest spaces", n, "the job");
  return formulas::slide_share.told_as(w, "H_a", "along the line: its force over the fixings", "shared equally",
                                       as(line_symbol(line), v), n);
}
Force Forces::floor_fixing_across(std::size_t c, std::size_t line, Working* w) const {
  std::vector<As<Force>> rows;
  if (w) w->heading("The wind square on to the wall, at a fixing of the floor");  // its line is told before
  const double f = of(c).combination.wind;
  for (const LineWall& part : lines[line].parts) {
    const Wall& wall = house.walls[part.wall];
    const auto [from, to] = below_the_floor(part);
    if (!(to - from > same_place)) continue;
    const Length space = (to - from) / fixings_along(to - from, house.first->fixing_spacing),
                 h = height_of(house, wall);
    const std::vector<Stretch> blown_on = in_the_wind(wall, from, to);
    for (const SquareOn& s : of(c).square_on) {
      const bool pushed = std::any_of(blown_on.begin(), blown_on.end(), [&](const Stretch& stretch) {
        return stretch.side == s.side && overlap(stretch.from, stretch.to, s.from, s.to) > zero<Length>();
      });
      if (s.block != 0 || !pushed) continue;
      if (!w) {
        rows.push_back(as("", formulas::pushed_square_on(nullptr, f, s.p, h, space)));
        continue;
      }
      const std::string row = fmt::format("H_c{}", rows.size() + 1);
      given(w, "f_w", "factor on the wind", f, of(c).combination.source);
      tell_wall_height(house, wall, w);
      given(w, "b", "length of wall for each fixing of the floor", space, "the job");
      rows.push_back(as(row, formulas::pushed_square_on.told(w, row, "statics: the upper half goes to the floor", f,
                                                             as("p_sq," + s.label, s.p),
                                                             as(height_symbol(house, wall), h), as("b", space))));
    }
  }
  if (rows.empty())
    return w ? given(w, "H_c", "no outside wall stands on this line", zero<Force>(), "the job") : zero<Force>();
  return greatest<Force>(w, "H_c", "across the wall: where it is pushed hardest", "the safe one", rows);
}
Force Forces::floor_fixing_slide(std::size_t c, std::size_t line, Working* w) const {
  const Force a = floor_fixing_along(c, line, w), b = floor_fixing_across(c, line, w);
  return formulas::resultant(w, a, b);
}

Force Forces::tip_less_weight(std::size_t c, std::size_t brace, Working* w) const {
  const Piece& p = house.walls[braces[brace].wall].pieces[braces[brace].piece];
  const std::string name = w ? in_symbol(p.brace->name) : std::string(), symbol = "T_" + name;
  const Wall& wall = house.walls[braces[brace].wall];
  const Length height = height_of(house, wall);
  const std::string tipping = w ? tip_symbol(brace) : std::string();
  const Force pull = tip(c, brace, w);
  if (pull <= zero<Force>()) return zero<Force>();
  const Length z = arm(brace);
  if (house.wall_weight <= zero<Pressure>())
    return w ? greatest<Force>(w, symbol, "pull at the brace's end before the roof (no wall weight stated: no relief)",
                               "the job", {as(tipping, pull)})
             : pull;
  const As<Length> l = reach(brace);
  const Length in = practice.get<Length>("hold_down", "compression_in");
  const double f = of(c).combination.dead;
  if (!w)
    return formulas::tip_less_weight(
        nullptr, pull,
        formulas::weight_relief(nullptr, f, formulas::brace_weight(nullptr, house.wall_weight, height, l), l, in, z));
  given(w, "g_w", "weight of the wall", house.wall_weight, "the job, wall_weight");
  given(w, "f_d", "factor on weight that holds down", f, of(c).combination.source);
  tell_wall_height(house, wall, w);
  const Force weight =
      formulas::brace_weight.told(w, "G_w", "statics", house.wall_weight, as(height_symbol(house, wall), height), l);
  const Force relief = formulas::weight_relief.told(w, "T_g", "moments", f, weight, l, in, as("z_" + name, z));
  return formulas::tip_less_weight.told(w, symbol, "statics", as(tipping, pull), relief);
}

// ---- fixings through the bottom plate -------------------------------------------------------------------------------

Force Forces::roof_on(std::size_t c, std::size_t wall, std::size_t support, Working* w) const {
  if (const auto known = remembered(memo_[c].roof_on, wall, support); known && !w) return *known;
  std::vector<As<Force>> direct, lever, continuous;
  const std::string what = w ? std::string(words_of_what_comes(wall, support)) : std::string();
  const Support& me = walls[wall].supports[support];
  const auto& on = walls[wall].plates[me.plate].supports;
  std::vector<Length> at;  // for the working alone
  if (w)
    for (const std::size_t k : on) at.push_back(walls[wall].supports[k].at);
  const auto brings_nothing = [](const Landing& l) { return !l.direct && l.lever == 0.0 && l.continuous == 0.0; };
  // What comes down first, then how the plate shares it out, without a break.
  if (w)
    for (const Landing& l : landings_[wall][support])
      if (!brings_nothing(l)) stud_uplift(c, l.stud, w);
  for (const Landing& l : landings_[wall][support]) {
    if (brings_nothing(l)) continue;
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
  if (lever.empty()) return total<Force>(w, "P", what + " on this fixing", "sum", direct);
  const Force by_lever = total<Force>(w, "N", what + " on this fixing by the lever rule", "sum", lever);
  const Force by_beam = total<Force>(w, "M", what + " on this fixing with a continuous plate", "sum", continuous);
  const Force along_plate =
      greatest<Force>(w, "Q", "the worse of the two", "the safe one", {as("N", by_lever), as("M", by_beam)});
  direct.push_back(as("Q", along_plate));
  return total<Force>(w, "P", what + " on this fixing", "sum", direct);
}

Force Forces::pull(std::size_t c, std::size_t wall, std::size_t support, Working* w) const {
  if (const auto known = remembered(memo_[c].pull, wall, support); known && !w) return *known;
  std::vector<As<Force>> rows;
  for (const BraceEnd& e : walls[wall].supports[support].ends)
    if (const std::size_t i = brace_on(wall, e.piece); pulls(c, i, e.end))
      rows.push_back(as(w ? "T_" + in_symbol(house.walls[wall].pieces[e.piece].brace->name) : std::string(),
                        tip_less_weight(c, i, w)));
  for (const Lifted& l : lifted(wall, support)) {
    if (brace_force(c, l.brace) <= zero<Force>()) continue;
    const LineLoad v = perforated_shear(c, l.brace, w);
    const std::string name = w ? in_symbol(house.walls[wall].pieces[braces[l.brace].piece].brace->name) : std::string();
    if (w) given(w, "l_" + name, "length of it whose uplift comes to this fixing", l.length, lifted_by);
    rows.push_back(as("U_" + name, formulas::perforated_uplift.told(w, "U_" + name, lifted_by, as("v_" + name, v),
                                                                    as("l_" + name, l.length))));
  }
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
  const auto& landings = landings_[wall][support];
  return std::any_of(landings.begin(), landings.end(), brings);
}

bool Forces::can_be_pulled(std::size_t wall, std::size_t support) const {
  return !walls[wall].supports[support].ends.empty() || !lifted(wall, support).empty() || roof_lands(wall, support);
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
    const bool perforated = braces[i].capacity.perforated.has_value();
    const auto takers = perforated ? slide_takers_of_piece(i, support) : slide_takers(i, sense);
    if (std::find(takers.begin(), takers.end(), support) == takers.end()) continue;
    if (perforated) {
      rows.push_back(slide_of_piece(c, i, support, static_cast<double>(takers.size()), w));
      continue;
    }
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
    const std::string symbol = "H_" + in_symbol(name);
    rows.push_back(
        as(symbol, formulas::slide_share.told(w, symbol, "shared equally", as("V_" + in_symbol(name), v), n)));
  }
  return total<Force>(w, "H_a", "slide along the wall", "sum", rows);
}

// All fixings within a piece of a perforated wall. Whether its hold-down takes a part nobody says: the others are asked
// for all of it, the hold-down for its even share.
std::vector<std::size_t> Forces::slide_takers_of_piece(std::size_t brace, std::size_t support) const {
  const BraceAt& b = braces[brace];
  const Piece& p = house.walls[b.wall].pieces[b.piece];
  const auto& supports = walls[b.wall].supports;
  std::vector<std::size_t> all, others;
  for (std::size_t i = 0; i < supports.size(); ++i) {
    if (supports[i].at < p.from - same_place || supports[i].at > p.to + same_place) continue;
    all.push_back(i);
    if (supports[i].kind != FixingKind::hold_down) others.push_back(i);
  }
  const bool alone = !p.brace->plate_anchors_share && std::find(others.begin(), others.end(), support) != others.end();
  return alone ? others : all;
}
As<Force> Forces::slide_of_piece(std::size_t c, std::size_t brace, std::size_t support, double takers,
                                 Working* w) const {
  const BraceAt& b = braces[brace];
  const Piece& p = house.walls[b.wall].pieces[b.piece];
  const Length l = p.to - p.from;
  const LineLoad v = perforated_shear(c, brace, w);
  if (!w) return as("", formulas::perforated_slide(nullptr, v, l, takers));
  const std::string name = in_symbol(p.brace->name), symbol = "H_" + name;
  w->heading(fmt::format("Slide along the wall at {}", support_words(b.wall, support)));
  given(w, "L", fmt::format("length of brace {}", p.brace->name), l, "the job");
  given(w, "n", "fixings that take this piece's slide", takers, "the job");
  return as(symbol,
            formulas::perforated_slide.told(w, symbol, "shared equally", as("v_" + name, v), l, as("n", takers)));
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
  for (const Lifted& l : lifted(wall, support)) {
    if (brace_force(c, l.brace) <= zero<Force>()) continue;
    const std::string& name = house.walls[wall].pieces[braces[l.brace].piece].brace->name;
    r.push_back({"uplift under brace " + name, name, perforated_shear(c, l.brace) * l.length});
  }
  const Force all = roof_on(c, wall, support);
  const std::string what(words_of_what_comes(wall, support));
  Force direct = zero<Force>();
  for (const Landing& l : landings_[wall][support])
    if (l.direct) {
      r.push_back({fmt::format("{} on the {}", words_of_what_comes(studs[l.stud]), stud_words(studs[l.stud])),
                   stud_words(studs[l.stud]), stud_uplift(c, l.stud)});
      direct += r.back().value;
    }
  if (all != direct)
    r.push_back({what + " along the plate",
                 what == "roof"          ? "trusses beside it"
                 : what == "veranda"     ? "rafters beside it"
                 : what == "first floor" ? "fixings above, beside it"
                                         : "trusses and fixings above, beside it",
                 all - direct});
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
    const Length e = apart(x, end), s = apart(next, end);
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

static std::string_view what_comes(bool floor, bool roof) {
  return floor && roof ? "roof and first floor" : floor ? "first floor" : roof ? "roof" : "veranda";
}
std::string_view Forces::words_of_what_comes(const Stud& s) {
  const bool floor =
      std::any_of(s.loads.begin(), s.loads.end(), [](const Stud::Load& load) { return load.crossing.has_value(); });
  return what_comes(floor, bears_on(s));
}
std::string_view Forces::words_of_what_comes(std::size_t wall, std::size_t support) const {
  return what_comes(!crossings_to(wall, support).empty(), bears_on(wall, support));
}
std::string Forces::stud_words(const Stud& s) const {
  const Wall& w = house.walls[s.wall];
  if (!s.jamb) {
    if (s.loads.front().crossing || s.loads.front().rafter) return "below " + brought_words(s.loads.front());
    const Bearing& b = roof.bearings()[s.loads.front().bearing];
    return b.feet.size() > 1 ? fmt::format("{} on {}", b.words, w.name) : b.words;
  }
  const Piece& p = w.pieces[s.jamb->piece];
  const auto twins = std::count_if(w.pieces.begin(), w.pieces.end(),
                                   [&](const Piece& q) { return q.opening && q.opening->mark == p.opening->mark; });
  if (twins == 1) return fmt::format("{} jamb {} {}", w.name, p.opening->mark, end_word(w, s.jamb->end));
  // Two openings of one mark side by side: both their jambs stand on one place.
  const bool touching = std::any_of(w.pieces.begin(), w.pieces.end(), [&](const Piece& q) {
    return q.opening && q.opening->mark == p.opening->mark &&
           apart(s.jamb->end == End::left ? q.to : q.from, s.at) <= same_place;
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
