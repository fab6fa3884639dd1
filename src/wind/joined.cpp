#include "wind/joined.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

namespace belay {

namespace {

Side facing(Side side) { return side_facing(opposite(outward(side))); }
Side face_of(const Push& p) { return side_facing(opposite(p.towards)); }
bool runs_across(Side side) { return !is_across(outward(side)); }  // the face does

// ---- each block as a building of its own ----------------------------------------------------------------------------

Area upright_faces(const Shape& s, Side side) {
  Area sum = zero<Area>();
  for (const Elevation& e : s.elevations)
    if (e.side == side && e.part != ElevationPart::roof) sum += area(e.outline);
  return sum;
}
// By its height the gust goes, but not that of a class.
void raise_to(Shape& s, const Shape& highest) {
  const Length by = std::max({zero<Length>(), highest.mean_roof_height - s.mean_roof_height, highest.top - s.top,
                              highest.floor_level + highest.wall_height - s.floor_level - s.wall_height});
  for (Length* height : {&s.floor_level, &s.mean_roof_height, &s.eaves_height, &s.top}) *height += by;
  s.raised = by;
}

}  // namespace

static Length outline_of(const House& h, Along way) {
  Length low = zero<Length>(), high = extent_of(h, 0, way);
  for (std::size_t b = 1; b <= h.wings.size(); ++b) {
    const Length corner = way == Along::across ? left_of(h, b) : front_of(h, b);
    low = std::min(low, corner);
    high = std::max(high, corner + extent_of(h, b, way));
  }
  return high - low;
}
std::vector<BlockWind> blocks_in_wind(const House& house, const Shape& main, const std::vector<WingShape>& wings) {
  std::vector<BlockWind> all{{seen_from(house, 0), main, zero<Length>(), zero<Length>(), zero<Length>()}};
  for (std::size_t i = 0; i < wings.size(); ++i) {
    const WingShape& w = wings[i];
    House own = seen_from(house, i + 1);
    own.across = w.shape.across;
    own.up = w.shape.up;
    for (Wall& wall : own.walls) {
      const bool across = wall.runs == Along::across;
      const Length x = left_of(house, i + 1) - w.left, y = front_of(house, i + 1) - w.front;
      wall.line += across ? y : x;
      wall.from += across ? x : y;
      wall.to += across ? x : y;
    }
    all.push_back({std::move(own), w.shape, w.left, w.front, house.wings[i].level});
    if (!std::holds_alternative<ClassSite>(house.site)) raise_to(all.back().shape, main);
  }
  for (BlockWind& b : all) {
    b.shape.whole_across = outline_of(house, Along::across);
    b.shape.whole_up = outline_of(house, Along::up);
  }
  for (std::size_t b = 0; b < all.size(); ++b)
    for (std::size_t k = 0; k < all.size(); ++k)
      for (const Side side : {Side::left, Side::front, Side::right, Side::back})
        if (k != b && (k == 0 || side != house.wings[k - 1].joint))
          all[b].shape.walls_beside[static_cast<std::size_t>(side)] += upright_faces(all[k].shape, side);
  return all;
}

namespace {

// ---- which cases belong together ------------------------------------------------------------------------------------

// Of a case's wind, as it is said: "onto the left", "from its front corner", "walls alone".
std::vector<std::string_view> parts_of_wind(const LoadCase& c) {
  std::vector<std::string_view> parts;
  for (std::string_view rest = c.wind; !rest.empty();) {
    const std::size_t comma = rest.find(", ");
    parts.push_back(rest.substr(0, comma));
    rest = comma == std::string_view::npos ? std::string_view() : rest.substr(comma + 2);
  }
  return parts;
}
int in_one_alone(const std::vector<std::string_view>& a, const std::vector<std::string_view>& b) {
  const auto missing = [](const auto& from, const auto& of) {
    return std::count_if(of.begin(), of.end(),
                         [&](std::string_view s) { return std::find(from.begin(), from.end(), s) == from.end(); });
  };
  return static_cast<int>(missing(a, b) + missing(b, a));
}
// How well two cases of two blocks go together; nothing where they cannot: a combination of loads is one for the house.
// The face first, then the pressure inside, the corner that the wind comes from, and what else is said of it.
std::optional<int> likeness(const LoadCase& a, const LoadCase& b) {
  if (a.combination.name != b.combination.name || a.down.name != b.down.name) return std::nullopt;
  const auto said_of_a = parts_of_wind(a), said_of_b = parts_of_wind(b);
  int like = (a.inside == b.inside ? 1000 : 0) + (a.id == b.id ? 1 : 0) - 2 * in_one_alone(said_of_a, said_of_b);
  if (!said_of_a.empty() && !said_of_b.empty() && said_of_a.front() == said_of_b.front()) like += 10'000;
  for (const std::string_view said : said_of_a)
    if (said.starts_with("from its ") && std::find(said_of_b.begin(), said_of_b.end(), said) != said_of_b.end())
      like += 100;
  return like;
}
std::size_t partner(const LoadCase& c, const std::vector<LoadCase>& among) {
  std::optional<std::size_t> best;
  int most = 0;
  for (std::size_t i = 0; i < among.size(); ++i)
    if (const auto like = likeness(c, among[i]); like && (!best || *like > most)) {
      best = i;
      most = *like;
    }
  if (!best) throw std::logic_error("a load case of one block without its like at another");
  return *best;
}
// Those of the main block first, then what a wing has more.
std::vector<std::vector<std::size_t>> laid_together(const std::vector<Loads>& blocks) {
  std::vector<std::vector<std::size_t>> all;
  std::vector<std::vector<bool>> used;
  for (const Loads& l : blocks) used.emplace_back(l.cases.size(), false);
  for (std::size_t b = 0; b < blocks.size(); ++b)
    for (std::size_t c = 0; c < blocks[b].cases.size(); ++c) {
      if (used[b][c]) continue;
      std::vector<std::size_t> of(blocks.size());
      for (std::size_t k = 0; k < blocks.size(); ++k) {
        of[k] = k == b ? c : partner(blocks[b].cases[c], blocks[k].cases);
        used[k][of[k]] = true;
      }
      all.push_back(std::move(of));
    }
  return all;
}

// ---- the roof -------------------------------------------------------------------------------------------------------

// from: of each zone, its place in its own block's layout.
struct LaidOut {
  Layout layout;
  std::vector<std::size_t> from;
};
constexpr Area no_area = Area::from_value(1e-9);
LaidOut laid_out(const Joined& roof, const std::vector<BlockWind>& winds, const std::vector<const Layout*>& layouts) {
  LaidOut r{{layouts.front()->name, {}}, {}};
  for (std::size_t i = 0; i < roof.shape.surfaces.size(); ++i) {
    const Surface& s = roof.shape.surfaces[i];
    const auto& zones = layouts[s.block]->zones;
    for (std::size_t z = 0; z < zones.size(); ++z) {
      if (zones[z].surface != roof.from[i]) continue;
      Polygon part = common(moved(zones[z].part, winds[s.block].left, winds[s.block].front), s.outline);
      if (part.empty()) continue;
      // One zone over all of it: wind and weight then have one area and one middle, to the last bit.
      if (abs(area(s.outline) - area(part)) < no_area) part = s.outline;
      r.layout.zones.push_back({i, std::move(part), zones[z].label, s.block});
      r.from.push_back(z);
    }
  }
  return r;
}

// ---- what is pushed -------------------------------------------------------------------------------------------------

class Faces {
 public:
  Faces(const House& house, const std::vector<BlockWind>& winds) : house_(house), winds_(winds) {}

  // In house axes, above the main block's bottom plates.
  std::vector<Push> seen(const Push& push, std::size_t block) const {
    Push p = push;
    p.block = p.ceiling = block;
    const Side face = face_of(p);
    const Length along = runs_across(face) ? winds_[block].left : winds_[block].front;
    p.part = moved(std::move(p.part), along, winds_[block].level);
    if (p.acts == Acts::along) return above_own_plates({std::move(p)});
    if (block == 0) return above_own_plates(of_main(p, face));
    return above_own_plates(of_wing(p, face));
  }

 private:
  Polygon outline(std::size_t block, Side face) const {
    const BlockWind& b = winds_[block];
    return moved(outline_from(b.shape, face), runs_across(face) ? b.left : b.front, b.level);
  }
  static std::vector<Push> cut(const Push& p, const Polygon& hidden) {
    std::vector<Push> r;
    for (Polygon& g : outside_of(p.part, hidden)) {
      r.push_back(p);
      r.back().part = std::move(g);
    }
    return r;
  }
  // A wing stands before a part of the face at its joint.
  std::vector<Push> of_main(const Push& push, Side face) const {
    std::vector<Push> parts{push};
    for (std::size_t i = 0; i < house_.wings.size(); ++i) {
      if (face != facing(house_.wings[i].joint)) continue;
      std::vector<Push> left;
      for (const Push& p : parts)
        for (Push& q : cut(p, outline(i + 1, face))) left.push_back(std::move(q));
      parts = std::move(left);
    }
    return parts;
  }
  // Its end at the joint is not there; what of it stands inside the main block is seen above that block's roof.
  std::vector<Push> of_wing(Push push, Side face) const {
    const Wing& wing = house_.wings[push.block - 1];
    push.what += fmt::format(" of {}", wing.name);
    if (face == wing.joint) return push.acts == Acts::on_both_faces ? std::vector{push} : std::vector<Push>();
    if (face == facing(wing.joint)) return {push};
    const Length joint = wing.joint == Side::left    ? wing.left
                         : wing.joint == Side::front ? wing.front
                         : wing.joint == Side::right ? wing.left + wing.across
                                                     : wing.front + wing.up;
    const bool goes_on = wing.joint == Side::right || wing.joint == Side::back;  // into the main block, up the axis
    std::vector<Push> r;
    Push own = push, inside = push;
    own.part = between_x(push.part, goes_on ? -everywhere : joint, goes_on ? joint : everywhere);
    inside.part = between_x(push.part, goes_on ? joint : -everywhere, goes_on ? everywhere : joint);
    if (!own.part.empty()) r.push_back(std::move(own));
    if (inside.part.empty()) return r;
    inside.ceiling = 0;
    for (Push& q : cut(inside, outline(0, face))) r.push_back(std::move(q));
    return r;
  }
  std::vector<Push> above_own_plates(std::vector<Push> pushes) const {
    for (Push& p : pushes) p.part = moved(std::move(p.part), zero<Length>(), -winds_[p.ceiling].level);
    return pushes;
  }

  const House& house_;
  const std::vector<BlockWind>& winds_;
};

std::vector<SquareOn> square_on(const House& house, const BlockWind& wind, std::size_t block,
                                const std::vector<SquareOn>& list) {
  std::vector<SquareOn> r;
  for (SquareOn s : list) {
    const bool across = runs_across(s.side);
    s.block = block;
    s.from += across ? wind.left : wind.front;
    s.to += across ? wind.left : wind.front;
    if (block > 0) {
      const Wing& w = house.wings[block - 1];
      s.from = std::max(s.from, across ? w.left : w.front);
      s.to = std::min(s.to, across ? w.left + w.across : w.front + w.up);
      if (s.side == w.joint || !(s.to > s.from)) continue;
    }
    r.push_back(std::move(s));
  }
  return r;
}

LoadCase one_case(const House& house, const std::vector<BlockWind>& winds, const std::vector<Loads>& blocks,
                  const std::vector<std::size_t>& of, const LaidOut& roof, std::size_t layout) {
  LoadCase c = blocks.front().cases[of.front()];
  c.layout = layout;
  c.net.clear();
  c.net_small.clear();
  c.push.clear();
  c.square_on.clear();
  bool by_area = false;
  const Faces faces(house, winds);
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    const LoadCase& own = blocks[b].cases[of[b]];
    by_area = by_area || !own.net_small.empty();
    if (!own.net_small.empty()) c.by_area = own.by_area;
    for (const Push& p : own.push)
      for (Push& q : faces.seen(p, b)) c.push.push_back(std::move(q));
    for (SquareOn& s : square_on(house, winds[b], b, own.square_on)) c.square_on.push_back(std::move(s));
    c.marks |= own.marks;
    c.marks_net |= own.marks_net;
    c.marks_push |= own.marks_push;
    c.marks_square_on |= own.marks_square_on;
    c.marks_down |= own.marks_down;
  }
  for (std::size_t z = 0; z < roof.from.size(); ++z) {
    const std::size_t b = roof.layout.zones[z].block;
    const LoadCase& own = blocks[b].cases[of[b]];
    c.net.push_back(own.net[roof.from[z]]);
    if (by_area) c.net_small.push_back(own.net_small.empty() ? own.net[roof.from[z]] : own.net_small[roof.from[z]]);
  }
  return c;
}

void add_limits(Loads& to, const Loads& of, std::string_view block) {
  for (Excess e : of.excess) {
    const bool known = std::any_of(to.excess.begin(), to.excess.end(), [&](const Excess& x) {
      return x.limit == e.limit && x.has.si == e.has.si && x.in_words == e.in_words;
    });
    if (known) continue;
    e.limit += fmt::format(" ({})", block);
    if (!e.in_words.empty()) e.in_words += fmt::format(" ({})", block);
    to.excess.push_back(std::move(e));
  }
}

}  // namespace

JoinedLoads joined_loads(const House& house, const Joined& roof, const std::vector<BlockWind>& winds,
                         const std::vector<Loads>& blocks) {
  JoinedLoads r{{blocks.front().basis, {}, {}, {}}, laid_together(blocks)};
  r.loads.on_floors = blocks.front().on_floors;
  r.loads.marks_on_floors = blocks.front().marks_on_floors;
  for (std::size_t b = 0; b < blocks.size(); ++b) add_limits(r.loads, blocks[b], name_of(house, b));
  std::map<std::vector<std::size_t>, std::size_t> known;
  std::vector<LaidOut> laid;
  for (std::size_t i = 0; i < r.of.size(); ++i) {
    std::vector<std::size_t> numbers;
    std::vector<const Layout*> layouts;
    for (std::size_t b = 0; b < blocks.size(); ++b) {
      numbers.push_back(blocks[b].cases[r.of[i][b]].layout);
      layouts.push_back(&blocks[b].layouts[numbers.back()]);
    }
    const auto [at, fresh] = known.try_emplace(numbers, laid.size());
    if (fresh) laid.push_back(laid_out(roof, winds, layouts));
    r.loads.cases.push_back(one_case(house, winds, blocks, r.of[i], laid[at->second], at->second));
    // What a wing has more goes under the main block's name and its own number there.
    LoadCase& c = r.loads.cases.back();
    for (std::size_t k = 0; k < i; ++k)
      if (r.loads.cases[k].id == c.id) {
        for (std::size_t b = 1; b < blocks.size(); ++b)
          c.id += fmt::format(", {} {}", name_of(house, b), blocks[b].cases[r.of[i][b]].id);
        break;
      }
  }
  for (LaidOut& l : laid) r.loads.layouts.push_back(std::move(l.layout));
  return r;
}

HouseWind::HouseWind(const House& h, const Table& table) : house_(h), method_(method_for(h.site)) {
  if (h.wings.empty()) {
    shape_ = shape_of(h);
    asks_.push_back({h.site, h, shape_, table});
    joined_.loads = method_.loads(ask(), nullptr, std::nullopt);
    return;
  }
  const Shape main = shape_of(seen_from(h, 0));
  std::vector<WingShape> wings;
  for (std::size_t i = 0; i < h.wings.size(); ++i) wings.push_back(shape_of_wing(h, i));
  const Joined roof = belay::joined(h, main, wings);
  shape_ = roof.shape;
  blocks_ = blocks_in_wind(h, main, wings);
  std::vector<Loads> each;
  for (const BlockWind& b : blocks_) {
    asks_.push_back({h.site, b.house, b.shape, table});
    each.push_back(method_.loads(asks_.back(), nullptr, std::nullopt));
  }
  joined_ = joined_loads(h, roof, blocks_, each);
  // Where the others go by depth and breadth of the plan they take the whole house's where that is worse.
  if (std::holds_alternative<EnSite>(h.site))
    joined_.loads.excess.push_back({"plan", "only", table.method, value(static_cast<double>(blocks_.size())),
                                    value(1.0),
                                    "its coefficients go by the depth and breadth of one rectangular plan: of the "
                                    "whole outline they may be greater "
                                    "than those of its blocks, which are worked out here"});
}
SiteWind HouseWind::site() const {
  SiteWind all = method_.site(ask(), nullptr);
  for (std::size_t b = 1; b < asks_.size(); ++b)
    for (std::string& c : method_.site(asks_[b], nullptr).cautions)
      if (std::find(all.cautions.begin(), all.cautions.end(), c) == all.cautions.end())
        all.cautions.push_back(std::move(c));
  return all;
}
void HouseWind::tell(std::size_t load_case, Working& w) const {
  for (std::size_t b = 0; b < asks_.size(); ++b) {
    if (b > 0) w.in_block(std::string(name_of(house_, b)));
    w.heading("The wind");
    method_.loads(asks_[b], &w, blocks_.empty() ? load_case : joined_.of[load_case][b]);
  }
  w.in_block({});
}

}  // namespace belay
