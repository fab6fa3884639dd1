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
    : roof(h, s, l), house(h), shape(s), loads(l), practice(p), cyclonic_(cyclonic) {
  for (std::size_t i = 0; i < house.walls.size(); ++i) walls.push_back(set_out_wall(house, i, practice));
  lay_out_lines();
  lay_out_studs();
  land_studs();
  compute_all();
}

// ---- what there is --------------------------------------------------------------------------------------------------

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

// A bearing comes down on a stud of its own, beside an opening or, over one, on both its jambs.
void Forces::land_foot(std::size_t b, const Foot& foot, Length merge) {
  const auto& pieces = house.walls[foot.wall].pieces;
  const Length x = foot.at;
  bool landed = false;
  // On a post between two openings both jambs are asked for the whole: which of them carries it is not known.
  const auto land = [&](std::size_t i, End e, double share, bool over) {
    studs[stud_of(foot.wall, {i, e})].loads.push_back({b, share, over, x});
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
  if (!landed) studs.push_back({foot.wall, x, std::nullopt, {{b, 1.0, false, x}}, std::nullopt, std::nullopt, false});
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
  for (std::size_t b = 0; b < roof.bearings().size(); ++b)
    for (const Foot& foot : roof.bearings()[b].feet) land_foot(b, foot, merge);
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
  memo_.resize(loads.cases.size());
  for (std::size_t c = 0; c < loads.cases.size(); ++c) {
    Remembered& m = memo_[c];
    for (std::size_t s = 0; s < studs.size(); ++s) m.stud.push_back(stud_uplift(c, s));
    for (std::size_t l = 0; l < lines.size(); ++l) m.line.push_back(line_force(c, l));
    for (std::size_t l = 0; l < lines.size(); ++l) m.exact_line.push_back(exact_line_force(c, l));
    for (std::size_t i = 0; i < braces.size(); ++i) m.brace_counted.push_back(brace_capacity_counted(c, i));
    for (std::size_t l = 0; l < lines.size(); ++l) m.line_capacity.push_back(line_capacity(c, l));
    for (std::size_t i = 0; i < braces.size(); ++i) m.brace.push_back(brace_force(c, i));
    for (std::size_t b = 0; b < roof.bearings().size(); ++b) m.bracket_across.push_back(bracket_across(c, b));
    for (std::size_t b = 0; b < roof.bearings().size(); ++b) m.bracket_along.push_back(bracket_along(c, b));
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

// Half of the push square on a stretch of an outside wall, by stretches of even pressure; inside walls have none.
std::vector<As<Force>> Forces::square_on(std::size_t c, const Wall& wall, Length from, Length to,
                                         const std::string& symbol, std::string_view width_words,
                                         std::string_view source, Working* w) const {
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
  const Bearing& b = roof.bearings()[bearing];
  const bool corner = b.feet.size() > 1;
  std::vector<As<Force>> walls_of;
  for (const Foot& foot : b.feet) {
    const Wall& wall = house.walls[foot.wall];
    const Length width = overlap(foot.from - wall.from, foot.to - wall.from, zero<Length>(), wall.length());
    if (!wall.outside) continue;
    for (std::size_t l = 0; l < lines.size(); ++l) {
      if (std::find(lines[l].walls.begin(), lines[l].walls.end(), foot.wall) == lines[l].walls.end()) continue;
      const Force v = line_force(c, l, w);
      const Force size = v < zero<Force>() ? -v : v;
      if (!w) {
        walls_of.push_back(as("", formulas::along_bracket(nullptr, size, width, wall.length())));
        break;
      }
      w->heading(fmt::format("Down through the brackets into the wall, at {}", b.words));
      const std::string mark = corner ? "," + wall.name : std::string();
      given(w, "b" + mark, fmt::format("length of wall that this {} serves", words(roof.member_of(bearing).kind)),
            width, along_source(house));
      given(w, "L" + mark, "length of the wall", wall.length(), "the job");
      walls_of.push_back(
          as("B_a" + mark, formulas::along_bracket.told(w, "B_a" + mark, formulas::along_bracket.source, as("V", size),
                                                        as("b" + mark, width), as("L" + mark, wall.length()))));
      break;
    }
  }
  if (walls_of.empty())
    return w ? given(w, "B_a", "no outside wall's racking goes through it", zero<Force>(), "the job") : zero<Force>();
  if (!corner) return walls_of.front().quantity;
  if (w) w->heading(fmt::format("Down through the brackets into the wall, at {}", b.words));
  return greatest<Force>(w, "B_a", "along the wall: of the two at the corner", "the safe one", walls_of);
}

// ---- down the wall --------------------------------------------------------------------------------------------------

// One truss that stands on the stud and lifts is told as that truss's uplift.
std::string Forces::stud_symbol(std::size_t c, std::size_t stud) const {
  const auto& on = studs[stud].loads;
  if (on.size() == 1 && !on.front().over_opening && uplift(c, on.front().bearing) >= zero<Force>())
    return roof.symbol(on.front().bearing);
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
        given(w, fmt::format("t_{}", roof.number(load.bearing)),
              fmt::format("place of {}", roof.bearings()[load.bearing].words), load.at, "the job");
  for (const auto& load : s.loads) {
    const Force u = uplift(c, load.bearing);
    if (!w) {
      rows.push_back(as("", formulas::landed(nullptr, load.share, u)));
      continue;
    }
    const std::string number = roof.number(load.bearing);
    const std::string k = fmt::format("j_{}", number), f = fmt::format("F_{}", number),
                      up = fmt::format("U_{}", number);
    if (!load.over_opening) {
      rows.push_back(as(up, u));  // the truss stands on this stud
      continue;
    }
    const Piece& p = house.walls[s.wall].pieces[s.jamb->piece];
    const auto place = as(fmt::format("t_{}", number), load.at);
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
    r.push_back({load.over_opening ? "roof over the opening" : "roof on this stud", roof.bearings()[load.bearing].words,
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
  const Force all = roof_on(c, wall, support);
  Force direct = zero<Force>();
  for (const Landing& l : landings_[wall][support])
    if (l.direct) {
      r.push_back({"roof on the " + stud_words(studs[l.stud]), stud_words(studs[l.stud]), stud_uplift(c, l.stud)});
      direct += r.back().value;
    }
  if (all != direct) r.push_back({"roof along the plate", "trusses beside it", all - direct});
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
  if (!s.jamb) {
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
