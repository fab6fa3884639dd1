// Bracing lines under a ceiling that is stiff in its own plane. Each floor of each block has a ceiling of its own; a
// line that props two of them is asked for both shares together.
#include "load_path/forces.hpp"
#include "units/sizes.hpp"

#include <algorithm>

namespace belay {

namespace {
std::size_t index(Along way) { return way == Along::across ? 0 : 1; }
bool of_block(const Line& l, Floor floor, std::size_t block) {
  return l.props && l.floor == floor && std::find(l.blocks.begin(), l.blocks.end(), block) != l.blocks.end();
}
bool resists(const BraceCapacity& k) {
  return k.refused.empty() && (k.plus > zero<Force>() || k.minus > zero<Force>());
}
// How stiff a brace is in either sense: by what it holds there, or as stated wherever it holds something.
std::pair<Force, Force> stiff_by(const BraceCapacity& k, const Force*) { return {k.plus, k.minus}; }
std::pair<Stiffness, Stiffness> stiff_by(const BraceCapacity& k, const Stiffness*) {
  const auto in = [&](Force holds) { return holds > zero<Force>() ? *k.stiffness : zero<Stiffness>(); };
  return {in(k.plus), in(k.minus)};
}
}  // namespace

// Both ways, since the lines that run across hold the ceiling against turning.
Forces::Stated Forces::stiffness_stated(Floor floor, std::size_t block) const {
  std::size_t braces_there = 0, stated = 0;
  for (const BraceAt& b : braces) {
    if (!resists(b.capacity) || !of_block(lines[b.line], floor, block)) continue;
    ++braces_there;
    stated += b.capacity.stiffness.has_value();
  }
  return stated == 0 ? Stated::none : stated < braces_there ? Stated::some : Stated::all;
}
std::vector<std::size_t> Forces::without_stiffness() const {
  std::vector<std::size_t> r;
  if (house.ceiling == Ceiling::flexible) return r;
  const auto some = [&](const Line& l) {
    return std::any_of(l.blocks.begin(), l.blocks.end(), [&](std::size_t block) {
      return of_block(l, l.floor, block) && stiffness_stated(l.floor, block) == Stated::some;
    });
  };
  for (std::size_t b = 0; b < braces.size(); ++b)
    if (resists(braces[b].capacity) && !braces[b].capacity.stiffness && some(lines[braces[b].line])) r.push_back(b);
  return r;
}

template <class Stiff> void Forces::share_out(RigidFloor& r, StiffLines<Stiff> by) const {
  for (const std::size_t l : r.lines) {
    by.lines.push_back({lines[l].runs, lines[l].at, zero<Stiff>(), zero<Stiff>()});
    for (const BraceAt& b : braces) {
      if (b.line != l || !resists(b.capacity)) continue;
      const auto [plus, minus] = stiff_by(b.capacity, static_cast<const Stiff*>(nullptr));
      by.lines.back().plus += plus;
      by.lines.back().minus += minus;
    }
  }
  by.moved = stiffness_moved(by.lines, r.pushes);
  for (const Along way : {Along::across, Along::up})
    r.share[index(way)] = share_by_stiffness(by.lines, by.moved, r.pushes, way);
  r.stiff = std::move(by);
}

// Everything above mid-height of the floor's walls: a floor above passes on the wind on all that stands on it.
std::vector<CeilingPush> Forces::ceiling_pushes(std::size_t c, Floor floor, std::size_t block) const {
  std::vector<CeilingPush> r;
  const LoadCase& k = of(c);
  const Length walls_up = block == 0 ? wall_height(house, floor) : house.wings[block - 1].height;
  const Length low = foot_of_walls(house, floor) + walls_up / 2.0;
  for (const Push& push : k.push) {
    if (push.ceiling != block) continue;
    const Polygon g = between_y(push.part, low, everywhere);
    if (g.empty()) continue;
    const Area a = area(g);
    const bool positive = push.towards == Way::right || push.towards == Way::back;
    const Force f = k.combination.wind * push.p * a;
    r.push_back({is_across(push.towards) ? Along::across : Along::up, positive ? f : -f, moment_x(g) / a, positive,
                 push.what, in_block(house, "p_" + push.label, push.block), push.p, a});
  }
  return r;
}
Forces::RigidFloor Forces::rigid_floor(std::size_t c, Floor floor, std::size_t block) const {
  RigidFloor r;
  for (const Along way : {Along::across, Along::up})
    for (const std::size_t l : lines_of_block(way, floor, block)) r.lines.push_back(l);
  r.pushes = ceiling_pushes(c, floor, block);
  if (stiffness_stated(floor, block) == Stated::all) share_out(r, StiffLines<Stiffness>{});
  else share_out(r, StiffLines<Force>{});
  return r;
}
std::size_t Forces::RigidFloor::place_of(std::size_t line) const {
  return static_cast<std::size_t>(std::find(lines.begin(), lines.end(), line) - lines.begin());
}
bool Forces::RigidFloor::is_stiff(std::size_t place) const {
  return std::visit([&]<class Stiff>(const StiffLines<Stiff>& by) { return by.moved[place] > zero<Stiff>(); }, stiff);
}
const Forces::RigidFloor& Forces::remembered_floor(std::size_t c, Floor floor, std::size_t block) const {
  return memo_[c].rigid[(floor == Floor::ground ? 0 : house.wings.size() + 1) + block];
}

std::optional<Forces::RigidLine> Forces::rigid_line(std::size_t c, std::size_t line) const {
  const Line& me = lines[line];
  if (!me.props) return std::nullopt;
  RigidLine r{zero<Force>(), zero<Force>(), zero<Force>()};
  for (const std::size_t block : me.blocks) {
    const RigidFloor& floor = remembered_floor(c, me.floor, block);
    const auto& share = floor.share[index(me.runs)];
    const std::size_t i = floor.place_of(line);
    if (!share || !floor.is_stiff(i)) return std::nullopt;
    r.direct += share->direct[i];
    r.turned += share->turned[i];
  }
  const Force both = r.direct + r.turned;
  r.force = size(both) > size(r.direct) ? both : r.direct;
  return r;
}

std::vector<StiffLine> Forces::as_told(const RigidFloor& floor, const StiffLines<Force>& by, const std::string&,
                                       Working&) const {
  std::vector<StiffLine> r = by.lines;
  for (std::size_t i = 0; i < r.size(); ++i) {
    r[i].symbol = in_symbol(house.walls[lines[floor.lines[i]].walls.front()].name);
    r[i].words = fmt::format("bracing line {}", lines[floor.lines[i]].name);
    const std::uint64_t marks = marks_of_capacity(floor.lines[i]);
    for (const Entry& e : practice.entries)
      if ((marks >> e.index) & 1U) r[i].source += (r[i].source.empty() ? "" : "; ") + practice.source(e.key);
    if (r[i].source.empty()) r[i].source = "shared by capacity";
  }
  return r;
}
// Each line's stiffness is the sum of its braces'.
std::vector<StatedLine> Forces::as_told(const RigidFloor& floor, const StiffLines<Stiffness>& by,
                                        const std::string& suffix, Working& w) const {
  std::vector<StatedLine> r = by.lines;
  for (std::size_t i = 0; i < r.size(); ++i) {
    const Line& line = lines[floor.lines[i]];
    r[i].symbol = in_symbol(house.walls[line.walls.front()].name);
    r[i].words = fmt::format("bracing line {}", line.name);
    r[i].told = true;
    std::vector<As<Stiffness>> rows;
    for (const BraceAt& b : braces) {
      if (b.line != floor.lines[i] || !resists(b.capacity)) continue;
      const auto [plus, minus] = stiff_by(b.capacity, static_cast<const Stiffness*>(nullptr));
      const bool to_plus = by.moved[i] == by.lines[i].plus;
      const Stiffness own = to_plus ? plus : minus;
      if (!(own > zero<Stiffness>())) continue;
      const Piece& piece = house.walls[b.wall].pieces[b.piece];
      const std::string symbol = "k_b," + in_symbol(piece.brace->name);
      rows.push_back(as(symbol, tell_stiffness(house, piece, b.capacity, symbol, w)));
    }
    if (!rows.empty())
      total<Stiffness>(&w, fmt::format("k_{}{}", r[i].symbol, suffix), fmt::format("stiffness of {}", r[i].words),
                       "sum", rows);
  }
  return r;
}

// Told in the direction in which the line is pushed, as under a flexible ceiling.
void Forces::tell_rigid_line(std::size_t c, std::size_t line, const RigidLine& told, Working& w) const {
  const Line& me = lines[line];
  const bool against = told.force < zero<Force>();
  const auto symbol_of = [&](std::size_t l) { return in_symbol(house.walls[lines[l].walls.front()].name); };
  const std::string own = symbol_of(line);
  std::vector<As<Force>> direct, turned;
  for (const std::size_t block : me.blocks) {
    const RigidFloor& floor = remembered_floor(c, me.floor, block);
    const std::string suffix = in_block(house, of_floor(me.floor), block);
    w.heading(house.wings.empty() ? fmt::format("Line {} under a rigid ceiling", me.name)
                                  : fmt::format("Line {} under a rigid ceiling of {}", me.name, name_of(house, block)));
    given(&w, "f_w", "factor on the wind", of(c).combination.wind, of(c).combination.source);
    const std::size_t i = floor.place_of(line);
    const RigidTold how{&w, suffix, of(c).combination.wind, against, i};
    const auto share = std::visit(
        [&](const auto& by) {
          return share_by_stiffness(as_told(floor, by, suffix, w), by.moved, floor.pushes, me.runs, &how);
        },
        floor.stiff);
    direct.push_back(as(fmt::format("V_d_{}{}", own, suffix), share->direct[i]));
    if (share->turned[i] != zero<Force>()) turned.push_back(as(fmt::format("V_t_{}{}", own, suffix), share->turned[i]));
  }
  w.heading(fmt::format("What bracing line {} has to hold", me.name));
  const bool counted = told.force != told.direct;
  std::vector<As<Force>> rows{as("V_d", total<Force>(&w, "V_d", "its share of the push, by stiffness", "sum", direct))};
  if (counted) rows.push_back(as("V_t", total<Force>(&w, "V_t", "its share of the turning", "sum", turned)));
  total<Force>(&w, line_symbol(line),
               fmt::format("force on line {}{}", me.name,
                           counted || turned.empty() ? "" : "; turning that would relieve it is not counted"),
               "sum", rows);
}

// Of a line under a first floor, as they are told: positive the way in which it is pushed; turning that relieves them
// is left out.
std::vector<As<Force>> Forces::rigid_shares_of_wings(std::size_t c, std::size_t line) const {
  const Line& me = lines[line];
  const double sign = line_force(c, line) < zero<Force>() ? -1.0 : 1.0;
  std::vector<As<Force>> direct, both;
  Force sum_direct = zero<Force>(), sum_both = zero<Force>();
  for (const std::size_t block : me.blocks) {
    if (block == 0) continue;
    const RigidFloor& floor = remembered_floor(c, me.floor, block);
    const auto& share = *floor.share[index(me.runs)];
    const std::size_t i = floor.place_of(line);
    const std::string name =
        fmt::format("{}{}", in_symbol(house.walls[me.walls.front()].name), in_block(house, of_floor(me.floor), block));
    direct.push_back(as("V_d_" + name, sign * share.direct[i]));
    both.push_back(direct.back());
    if (share.turned[i] != zero<Force>()) both.push_back(as("V_t_" + name, sign * share.turned[i]));
    sum_direct += share.direct[i];
    sum_both += share.direct[i] + share.turned[i];
  }
  return size(sum_both) > size(sum_direct) ? both : direct;
}

std::uint64_t Forces::marks_of_capacity(std::size_t line) const {
  std::uint64_t m = 0;
  for (const BraceAt& b : braces)
    if (b.line == line && b.capacity.refused.empty()) m |= b.capacity.practice_marks;
  return m;
}
std::uint64_t Forces::marks_of_stiffness(std::size_t c, std::size_t line) const {
  std::uint64_t m = 0;
  if (!under_rigid(c)) return m;
  const auto mine = rigid_line(c, line);
  if (!mine || size(mine->force) <= no_push) return m;
  for (const std::size_t block : lines[line].blocks) {
    const RigidFloor& floor = remembered_floor(c, lines[line].floor, block);
    for (std::size_t i = 0; i < floor.lines.size(); ++i)
      if (floor.by_capacity() && floor.is_stiff(i) &&
          (lines[floor.lines[i]].runs == lines[line].runs || mine->force != mine->direct))
        m |= marks_of_capacity(floor.lines[i]);
  }
  return m;
}

std::vector<Piece_of_demand> Forces::rigid_line_made_of(std::size_t c, std::size_t line, const RigidLine& told) const {
  const Line& me = lines[line];
  const double sign = told.force < zero<Force>() ? -1.0 : 1.0;
  std::vector<Piece_of_demand> r;
  const auto add = [&](const std::string& what, const std::string& from, Force f) {
    const auto same = std::find_if(r.begin(), r.end(), [&](const Piece_of_demand& p) { return p.what == what; });
    if (same != r.end()) same->value += f;
    else r.push_back({what, from, f});
  };
  for (const std::size_t block : me.blocks) {
    const RigidFloor& floor = remembered_floor(c, me.floor, block);
    const std::size_t i = floor.place_of(line);
    const double share = floor.share[index(me.runs)]->share[i];
    for (const CeilingPush& p : floor.pushes)
      if (p.runs == me.runs) add(p.what, of(c).wind, sign * share * p.force);
  }
  if (told.force != told.direct) add("turning of the ceiling", of(c).wind, sign * told.turned);
  return r;
}

}  // namespace belay
