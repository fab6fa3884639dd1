// Roofs that meet. A wing's planes and the main block's are cut against each other two by two: where they lie over each
// other the difference of their heights is linear, so each part stays convex.
#include "shape/joined.hpp"
#include "shape/planes.hpp"
#include <algorithm>
#include <cmath>

namespace belay {

// Heights nearer than this are one, and places on a line. No piece of a house is so small.
static constexpr Length one_height = Length::from_value(1e-9);
// A wing's roof so near below a verge goes on where the verge would be.
static constexpr Length flush = Length::from_value(1e-3);
// A corner so near to the line between its neighbours, or a place to a cut, stands on it.
static constexpr Length on_the_line = Length::from_value(1e-11);
static constexpr Area no_area = Area::from_value(1e-11);
static constexpr Length shortest_line = Length::from_value(1e-6);

// ---- polygons ------------------------------------------------------------------------------------------------------

// How far left it stands of the line from a to b.
static Length left_by(const Point& a, const Point& b, const Point& p) {
  const Length dx = b.x - a.x, dy = b.y - a.y;
  const Length off = (dx * (p.y - a.y) - dy * (p.x - a.x)) / sqrt(dx * dx + dy * dy);
  return abs(off) < 0.1 * on_the_line ? zero<Length>() : off;
}

// Without corners that stand on the line between their neighbours: a short edge there has no direction to cut by.
static Polygon plain(Polygon g) {
  g = tidy(g);
  for (std::size_t i = 0; i < g.size() && g.size() > 3;) {
    const Point &before = g[(i + g.size() - 1) % g.size()], &after = g[(i + 1) % g.size()];
    if (abs(left_by(before, after, g[i])) < on_the_line) {
      g.erase(g.begin() + static_cast<std::ptrdiff_t>(i));
      i = 0;
    } else {
      ++i;
    }
  }
  return g;
}

// What of it lies left of the line from a to b, and right of it.
static Polygon left_part(const Polygon& g, const Point& a, const Point& b) {
  return where(g, [&](const Point& p) { return left_by(a, b, p); });
}
static Polygon right_part(const Polygon& g, const Point& a, const Point& b) {
  return where(g, [&](const Point& p) { return -left_by(a, b, p); });
}

Polygon common(const Polygon& g, const Polygon& convex) {
  const Polygon window = plain(convex);
  if (window.empty()) return {};
  Polygon inside = tidy(g);
  for (std::size_t i = 0; i < window.size() && !inside.empty(); ++i)
    inside = left_part(inside, window[i], window[(i + 1) % window.size()]);
  return inside;
}

std::vector<Polygon> outside_of(const Polygon& g, const Polygon& convex) {
  if (g.empty()) return {};
  if (common(g, convex).empty()) return {g};
  const Polygon window = plain(convex);
  std::vector<Polygon> parts;
  Polygon rest = g;
  for (std::size_t i = 0; i < window.size() && !rest.empty(); ++i) {
    const Point &a = window[i], &b = window[(i + 1) % window.size()];
    Polygon past = right_part(rest, a, b);
    if (!past.empty()) parts.push_back(std::move(past));
    rest = left_part(rest, a, b);
  }
  return parts;
}

Polygon moved(Polygon g, Length x, Length y) {
  for (Point& p : g) p = {p.x + x, p.y + y};
  return g;
}

// The smallest convex polygon around two.
static Polygon hull(const Polygon& a, const Polygon& b) {
  Polygon all = a;
  all.insert(all.end(), b.begin(), b.end());
  std::sort(all.begin(), all.end(),
            [](const Point& p, const Point& q) { return p.x < q.x || (!(q.x < p.x) && p.y < q.y); });
  Polygon round;
  const auto chain = [&](std::size_t first, const Point& p) {
    const auto turns_left = [&] {
      const Point &o = round[round.size() - 2], &q = round.back();
      return (q.x - o.x) * (p.y - o.y) - (q.y - o.y) * (p.x - o.x) > zero<Area>();
    };
    while (round.size() >= first + 2 && !turns_left()) round.pop_back();
    round.push_back(p);
  };
  for (std::size_t i = 0; i < all.size(); ++i) chain(0, all[i]);
  const std::size_t turn = round.size() - 1;
  for (std::size_t i = all.size() - 1; i-- > 0;) chain(turn, all[i]);
  round.pop_back();
  return plain(std::move(round));
}

// Two that make up one convex polygon are made one, as long as there are such: fewer cuts, fewer parts.
static std::vector<Polygon> merged(std::vector<Polygon> all) {
  const auto merge_two = [&] {
    for (std::size_t i = 0; i < all.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k) {
        Polygon both = hull(all[i], all[k]);
        if (abs(area(both) - area(all[i]) - area(all[k])) > no_area) continue;
        all[k] = std::move(both);
        all.erase(all.begin() + static_cast<std::ptrdiff_t>(i));
        return true;
      }
    }
    return false;
  };
  while (merge_two()) {}
  return all;
}

static std::vector<Polygon> without(const Polygon& g, const std::vector<Polygon>& gone) {
  std::vector<Polygon> parts{g};
  for (const Polygon& cut : merged(gone)) {
    std::vector<Polygon> left;
    for (const Polygon& part : parts)
      for (Polygon& piece : outside_of(part, cut)) left.push_back(std::move(piece));
    parts = std::move(left);
  }
  return parts;
}

// ---- the wing as a building of its own -----------------------------------------------------------------------------

static Side facing(Side side) { return side_facing(opposite(outward(side))); }

WingShape shape_of_wing(const House& house, std::size_t i) {
  const Wing& wing = house.wings.at(i);
  const Length none = zero<Length>();
  const std::size_t joint = static_cast<std::size_t>(wing.joint);
  House own = seen_from(house, i + 1);
  // Under gables at both ends the ridge has its full height, however short the wing.
  House plain_gable = own;
  plain_gable.roof.shape = RoofShape::gable;
  const Length level = wing.level + wing.height - top_of_walls(house);
  const Length ridge = level + shape_of(plain_gable).rise;
  const Side against = facing(wing.joint);
  const RoofSide main = shape_of(house).at(against);
  Length into = none;
  if (main.slopes && ridge > none) {
    const Length depth = is_across(outward(against)) ? house.across : house.up;
    const double rise = slope_of(main.pitch);
    into = depth * rise > ridge ? ridge / rise : depth;
  }
  own.roof.hipped[joint] = false;
  own.roof.gable_above[joint] = none;
  own.roof.own_overhang[joint] = none;
  (is_across(outward(against)) ? own.across : own.up) += into;
  return {shape_of(own),
          into,
          wing.joint == Side::left ? wing.left - into : wing.left,
          wing.joint == Side::front ? wing.front - into : wing.front,
          level,
          against};
}

// ---- lines ---------------------------------------------------------------------------------------------------------

namespace {

// Of a line, in parts of its length from its start.
struct Reach {
  double from, to;
};
}  // namespace

static Length length_of(const RoofLine& l) {
  const Length dx = l.to.x - l.from.x, dy = l.to.y - l.from.y;
  return sqrt(dx * dx + dy * dy);
}
static Point at(const RoofLine& l, double part) {
  return {l.from.x + part * (l.to.x - l.from.x), l.from.y + part * (l.to.y - l.from.y)};
}
static RoofLine part_of(const RoofLine& l, const Reach& r) {
  const auto up = [&](double part) { return l.from_up + part * (l.to_up - l.from_up); };
  return {l.kind, r.from > 0.0 ? at(l, r.from) : l.from, r.to < 1.0 ? at(l, r.to) : l.to, up(r.from), up(r.to)};
}

// What of the line runs in a convex polygon or on its edge.
static std::optional<Reach> reach_in(const RoofLine& l, const Polygon& g) {
  Reach r{0.0, 1.0};
  const Length none = zero<Length>();
  for (std::size_t i = 0; i < g.size(); ++i) {
    const auto inside = [&](const Point& p) {
      const Length off = left_by(g[i], g[(i + 1) % g.size()], p);
      return abs(off) < one_height ? zero<Length>() : off;
    };
    const Length start = inside(l.from), end = inside(l.to);
    if ((start < none && !(end > none)) || (end < none && !(start > none))) return std::nullopt;
    if (start < none) r.from = std::max<double>(r.from, start / (start - end));
    if (end < none) r.to = std::min<double>(r.to, start / (start - end));
  }
  if (!((r.to - r.from) * length_of(l) > shortest_line)) return std::nullopt;
  return r;
}
// In order, those that touch taken together.
static std::vector<Reach> reaches_in(const RoofLine& l, const std::vector<Polygon>& all) {
  std::vector<Reach> found;
  for (const Polygon& g : all)
    if (const auto r = reach_in(l, plain(g))) found.push_back(*r);
  std::sort(found.begin(), found.end(), [](const Reach& a, const Reach& b) { return a.from < b.from; });
  std::vector<Reach> together;
  for (const Reach& r : found) {
    const bool touches = !together.empty() && (r.from - together.back().to) * length_of(l) < shortest_line;
    if (touches) together.back().to = std::max(together.back().to, r.to);
    else together.push_back(r);
  }
  return together;
}
static std::vector<RoofLine> line_within(const RoofLine& l, const std::vector<Polygon>& all) {
  std::vector<RoofLine> parts;
  for (const Reach& r : reaches_in(l, all)) parts.push_back(part_of(l, r));
  return parts;
}
static std::vector<RoofLine> line_without(const RoofLine& l, const std::vector<Polygon>& gone) {
  std::vector<RoofLine> parts;
  double from = 0.0;
  const auto add = [&](double to) {
    if ((to - from) * length_of(l) > shortest_line) parts.push_back(part_of(l, {from, to}));
  };
  for (const Reach& r : reaches_in(l, gone)) {
    add(r.from);
    from = r.to;
  }
  add(1.0);
  return parts;
}

// Whether the second line begins where the first ends and goes on straight.
static bool goes_on(const RoofLine& a, const RoofLine& b) {
  if (a.kind != b.kind || abs(a.to.x - b.from.x) > shortest_line || abs(a.to.y - b.from.y) > shortest_line)
    return false;
  const double part = length_of(b) / length_of(a);
  return abs(left_by(a.from, a.to, b.to)) < shortest_line &&
         abs(b.to_up - b.from_up - part * (a.to_up - a.from_up)) < shortest_line &&
         (b.to.x - b.from.x) * (a.to.x - a.from.x) + (b.to.y - b.from.y) * (a.to.y - a.from.y) > zero<Area>();
}
static std::vector<RoofLine> joined_up(std::vector<RoofLine> lines) {
  for (std::size_t i = 0; i < lines.size();) {
    const auto next = std::find_if(lines.begin(), lines.end(), [&](const RoofLine& l) { return goes_on(lines[i], l); });
    if (next == lines.end()) {
      ++i;
      continue;
    }
    lines[i].to = next->to;
    lines[i].to_up = next->to_up;
    lines.erase(next);
    i = 0;
  }
  return lines;
}

// ---- roofs that meet -----------------------------------------------------------------------------------------------

namespace {

// A polygon parted where one of two roofs over it is the higher one; meet: the line between, where they cross.
struct Parted {
  Polygon first, second;
  std::optional<RoofLine> meet;
};

// What of a wing's surface lies over a surface of the main block, higher than it.
struct Lying {
  std::size_t wing, from;
  Polygon outline;
};

class Joiner {
 public:
  Joiner(const Shape& main_block, const std::vector<WingShape>& all_wings)
      : main(main_block), wings(all_wings), planes(wings.size()), lying(wings.size()), lost(wings.size()) {
    for (std::size_t k = 0; k < wings.size(); ++k)
      for (const Surface& s : wings[k].shape.surfaces) planes[k].push_back(in_main_axes(s, k));
    result.shape = main;
    result.shape.surfaces.clear();
    result.shape.elevations.clear();
    result.shape.lines.clear();
  }
  Joined all() {
    for (std::size_t i = 0; i < main.surfaces.size(); ++i) over_main(i);
    for (std::size_t i = 0; i < main.surfaces.size(); ++i) emit(main.surfaces[i], i, gone_of_main[i]);
    for (std::size_t k = 0; k < wings.size(); ++k) of_wing(k);
    lines();
    measures();
    return std::move(result);
  }

 private:
  struct Piece {
    Surface surface;
    std::size_t from;
  };

  const Shape& main;
  const std::vector<WingShape>& wings;
  std::vector<std::vector<Surface>> planes;  // each wing's surfaces as they would lie on the main block
  std::vector<std::vector<Polygon>> gone_of_main{main.surfaces.size()};  // of each of its surfaces
  std::vector<Polygon> covered;            // where a wing's roof lies on the main block's, and overhangs that are gone
  std::vector<std::vector<Piece>> lying;   // each wing's, on the main block
  std::vector<std::vector<Polygon>> lost;  // of each wing's overhangs
  struct Valley {
    RoofLine line;
    std::size_t wing;
  };
  std::vector<Valley> valleys;
  Joined result;

  Surface in_main_axes(Surface s, std::size_t k) const {
    const WingShape& w = wings[k];
    s.outline = moved(std::move(s.outline), w.left, w.front);
    s.foot += is_across(s.falls) ? w.left : w.front;
    s.block = k + 1;
    s.base = w.level;
    return s;
  }
  // What stands on the wing's side of the joint, and what in the main block.
  Polygon before_joint(const Polygon& g, Side against) const {
    const Length none = zero<Length>();
    switch (against) {
      case Side::left: return tidy(between_x(g, -everywhere, none));
      case Side::front: return tidy(between_y(g, -everywhere, none));
      case Side::right: return tidy(between_x(g, main.across, everywhere));
      case Side::back: return tidy(between_y(g, main.up, everywhere));
    }
    return {};
  }
  Polygon in_main(const Polygon& g) const {
    const Length none = zero<Length>();
    return tidy(between_y(between_x(g, none, main.across), none, main.up));
  }
  static bool from_above(const Surface& s) { return s.part != Part::soffit; }

  // first: where f is the higher one, or where it is nowhere lower than s by more than `tie`.
  static Parted parted(const Polygon& g, const Surface& f, const Surface& s, Length tie) {
    const auto higher = [&](const Point& p) {
      const Length by = height_at(f, p) - height_at(s, p);
      return abs(by) < 0.1 * on_the_line ? zero<Length>() : by;
    };
    Length least = everywhere, most = -everywhere;
    for (const Point& p : g) {
      least = std::min(least, higher(p));
      most = std::max(most, higher(p));
    }
    if (least >= -tie) return {g, {}, std::nullopt};
    if (most <= one_height) return {{}, g, std::nullopt};
    Parted both{plain(where(g, higher)), plain(where(g, [&](const Point& p) { return -higher(p); })), std::nullopt};
    if (both.first.empty() || both.second.empty()) return both;
    // The cut's two ends.
    std::vector<Point> ends;
    for (const Point& p : both.first)
      if (abs(higher(p)) < one_height) ends.push_back(p);
    if (ends.size() == 2) {
      std::sort(ends.begin(), ends.end(),
                [&](const Point& a, const Point& b) { return height_at(s, a) < height_at(s, b); });
      both.meet = RoofLine{RoofLineKind::valley, ends[0], ends[1], height_at(s, ends[0]), height_at(s, ends[1])};
    }
    return both;
  }
  void add_valley(const std::optional<RoofLine>& line, std::size_t k) {
    if (line && length_of(*line) > shortest_line) valleys.push_back({*line, k});
  }

  void over_main(std::size_t i) {
    const Surface& s = main.surfaces[i];
    if (s.part == Part::roof) lay_on(i);
    if (s.part == Part::overhang) meet_overhang(i);
  }
  // Wings' roofs on a roof of the main block.
  void lay_on(std::size_t i) {
    const Surface& under = main.surfaces[i];
    std::vector<Lying> highest;
    for (std::size_t k = 0; k < wings.size(); ++k) {
      std::vector<Lying> next;
      for (std::size_t j = 0; j < planes[k].size(); ++j) {
        const Surface& s = planes[k][j];
        if (!from_above(s)) continue;
        const Polygon both = common(in_main(s.outline), under.outline);
        if (both.empty()) continue;
        const Parted parts = parted(both, under, s, one_height);
        add_valley(parts.meet, k);
        if (!parts.second.empty()) next.push_back({k, j, parts.second});
      }
      highest = highest_of(highest, next);
    }
    for (Lying& l : highest) {
      gone_of_main[i].push_back(l.outline);
      covered.push_back(l.outline);
      Surface s = planes[l.wing][l.from];
      s.outline = std::move(l.outline);
      s.over = under.falls;
      lying[l.wing].push_back({std::move(s), l.from});
    }
  }
  // Of two wings' roofs on the same slope.
  std::vector<Lying> highest_of(const std::vector<Lying>& before, const std::vector<Lying>& next) {
    std::vector<std::vector<Polygon>> gone_before(before.size()), gone_next(next.size());
    for (std::size_t a = 0; a < before.size(); ++a) {
      for (std::size_t b = 0; b < next.size(); ++b) {
        const Polygon both = common(before[a].outline, next[b].outline);
        if (both.empty()) continue;
        const Surface &f = planes[before[a].wing][before[a].from], &s = planes[next[b].wing][next[b].from];
        const Parted parts = parted(both, f, s, one_height);
        if (!parts.first.empty()) gone_next[b].push_back(parts.first);
        if (!parts.second.empty()) gone_before[a].push_back(parts.second);
        if (parts.meet) result.shape.lines.push_back(*parts.meet);
      }
    }
    std::vector<Lying> left;
    const auto keep = [&](const std::vector<Lying>& all, const std::vector<std::vector<Polygon>>& gone) {
      for (std::size_t n = 0; n < all.size(); ++n)
        for (Polygon& g : without(all[n].outline, gone[n])) left.push_back({all[n].wing, all[n].from, std::move(g)});
    };
    keep(before, gone_before);
    keep(next, gone_next);
    return left;
  }
  // Wings' roofs and overhangs, and an overhang of the main block.
  void meet_overhang(std::size_t i) {
    const Surface& s = main.surfaces[i];
    for (std::size_t k = 0; k < wings.size(); ++k) {
      const bool upright = !main.at(wings[k].against).slopes;
      for (const Surface& w : planes[k]) {
        if (!from_above(w)) continue;
        const Polygon both = common(before_joint(w.outline, wings[k].against), s.outline);
        if (both.empty()) continue;
        const bool both_stay = upright || w.part == Part::roof;
        const Parted parts =
            both_stay ? parted(both, w, s, upright ? flush : one_height) : parted(both, s, w, one_height);
        const Polygon& of_main = both_stay ? parts.first : parts.second;
        if (!of_main.empty()) {
          gone_of_main[i].push_back(of_main);
          covered.push_back(of_main);
          for (std::size_t n = 0; n < main.surfaces.size(); ++n)
            if (main.surfaces[n].part == Part::soffit && !common(of_main, main.surfaces[n].outline).empty())
              gone_of_main[n].push_back(of_main);
        }
        if (!both_stay && !parts.first.empty()) lost[k].push_back(parts.first);
        if (!upright) add_valley(parts.meet, k);
      }
    }
  }
  void of_wing(std::size_t k) {
    for (std::size_t j = 0; j < planes[k].size(); ++j) {
      Surface s = planes[k][j];
      s.outline = before_joint(s.outline, wings[k].against);
      if (s.outline.empty()) continue;
      s.held_by = k + 1;
      s.base = zero<Length>();
      emit(s, j, s.part == Part::roof ? std::vector<Polygon>{} : lost[k]);
    }
    for (const Piece& p : lying[k]) emit(p.surface, p.from, {});
  }
  void emit(Surface s, std::size_t from, const std::vector<Polygon>& gone) {
    for (Polygon& part : without(s.outline, gone)) {
      s.outline = std::move(part);
      result.shape.surfaces.push_back(s);
      result.from.push_back(from);
    }
  }

  // ---- lines
  std::vector<Polygon> on_main(std::size_t k) const {
    std::vector<Polygon> all;
    for (const Piece& p : lying[k]) all.push_back(p.surface.outline);
    return all;
  }
  void add(const std::vector<RoofLine>& all) {
    result.shape.lines.insert(result.shape.lines.end(), all.begin(), all.end());
  }
  void lines() {
    std::vector<RoofLine> found;
    std::swap(found, result.shape.lines);  // between two wings
    for (const RoofLine& l : main.lines) add(line_without(l, covered));
    const Length far = 1e-3 * everywhere;
    for (std::size_t k = 0; k < wings.size(); ++k) {
      const WingShape& w = wings[k];
      std::vector<Polygon> seen = on_main(k);
      seen.push_back(before_joint(rectangle(-far, far, -far, far), w.against));
      for (RoofLine l : w.shape.lines) {
        l.from = {l.from.x + w.left, l.from.y + w.front};
        l.to = {l.to.x + w.left, l.to.y + w.front};
        l.from_up += w.level;
        l.to_up += w.level;
        for (const RoofLine& part : line_within(l, seen)) add(line_without(part, lost[k]));
      }
    }
    for (const Valley& v : valleys) {
      std::vector<Polygon> others;
      for (std::size_t k = 0; k < wings.size(); ++k)
        if (k != v.wing)
          for (Polygon& g : on_main(k)) others.push_back(std::move(g));
      for (const RoofLine& part : line_without(v.line, others)) found.push_back(part);
    }
    add(found);
    result.shape.lines = joined_up(std::move(result.shape.lines));
  }
  void measures() {
    Shape& s = result.shape;
    for (const WingShape& w : wings) {
      s.mean_roof_height = std::max(s.mean_roof_height, w.shape.mean_roof_height);
      s.eaves = std::max(s.eaves, w.shape.eaves);
      s.top = std::max(s.top, w.shape.top);
    }
  }
};

}  // namespace

// Of equal spaces, none above the greatest. Where one would do there are two: a valley has a truss.
static int valley_spaces(const Wing& wing, Length into) {
  return std::max(2, static_cast<int>(std::ceil(static_cast<double>((into - one_height) / wing.valley->max))));
}
std::vector<Length> valley_places(const House& house, std::size_t i) {
  const Wing& wing = house.wings.at(i);
  const Length into = wing.valley ? shape_of_wing(house, i).into : zero<Length>();
  std::vector<Length> places;
  if (!(into > zero<Length>())) return places;
  const int n = valley_spaces(wing, into);
  for (int k = 1; k < n; ++k) places.push_back(into * (static_cast<double>(k) / n));
  return places;
}

// From the joint half-way to the first valley truss the wing's last truss holds what lies on the main block.
static Joined first_bays_to_wings(Joined all, const House& house, const std::vector<WingShape>& wings) {
  std::vector<Surface> surfaces;
  std::vector<std::size_t> from;
  const Length none = zero<Length>();
  for (std::size_t i = 0; i < all.from.size(); ++i) {
    const auto keep = [&](Surface s, Polygon g) {
      if (g.empty()) return;
      s.outline = std::move(g);
      surfaces.push_back(std::move(s));
      from.push_back(all.from[i]);
    };
    const Surface& s = all.shape.surfaces[i];
    const Wing* wing = s.over ? &house.wings[s.block - 1] : nullptr;
    if (!wing || !wing->valley) {
      keep(s, s.outline);
      continue;
    }
    const WingShape& w = wings[s.block - 1];
    const Length half = w.into / (2.0 * valley_spaces(*wing, w.into));
    const bool from_origin = w.against == Side::left || w.against == Side::front;
    const bool along_x = is_across(outward(w.against));
    const Length far = along_x ? all.shape.across : all.shape.up, line = from_origin ? half : far - half;
    const auto part = [&](bool near) {
      const bool low = near == from_origin;
      const Length a = low ? -everywhere : line, b = low ? line : everywhere;
      return along_x ? between_x(s.outline, a, b) : between_y(s.outline, a, b);
    };
    Surface near = s;
    near.held_by = s.block;
    near.over.reset();
    near.base = none;
    keep(std::move(near), tidy(part(true)));
    keep(s, tidy(part(false)));
  }
  all.shape.surfaces = std::move(surfaces);
  all.from = std::move(from);
  return all;
}

Joined joined(const House& house, const Shape& main, const std::vector<WingShape>& wings) {
  return first_bays_to_wings(Joiner(main, wings).all(), house, wings);
}

Shape whole_shape(const House& house) {
  if (house.wings.empty()) return shape_of(house);
  std::vector<WingShape> wings;
  for (std::size_t i = 0; i < house.wings.size(); ++i) wings.push_back(shape_of_wing(house, i));
  return joined(house, shape_of(seen_from(house, 0)), wings).shape;
}

// ---- as seen square on ---------------------------------------------------------------------------------------------

Polygon outline_from(const Shape& s, Side side) {
  const bool along_x = !is_across(outward(side));
  const Length length = along_x ? s.across : s.up, none = zero<Length>();
  const Side start = along_x ? Side::left : Side::front, end = facing(start);
  Polygon g = rectangle(none, length, none, s.wall_height + s.rise);
  for (const Side round_the_corner : {start, end}) {
    const RoofSide& slope = s.at(round_the_corner);
    if (!slope.slopes) continue;
    const double rise = slope_of(slope.pitch);
    g = where(g, [&](const Point& p) {
      const Length in = round_the_corner == start ? p.x : length - p.x;
      return s.wall_height + rise * in - p.y;
    });
  }
  return g;
}

}  // namespace belay
