#include "load_path/roof.hpp"

#include "load_path/formulas.hpp"
#include "load_path/set_out.hpp"
#include "shape/cut.hpp"
#include "units/sizes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <stdexcept>
#include <utility>

namespace belay {

namespace {

// The member's axis in plan: a unit vector. Along a block's axis its parts are 0 and 1 to the last bit.
struct Axis {
  Point from;
  double x, y;
};
Axis axis_of(const Member& m) {
  const Length dx = m.to.x - m.from.x, dy = m.to.y - m.from.y, none = zero<Length>();
  const Length length = dx == none ? apart(dy, none) : dy == none ? apart(dx, none) : sqrt(dx * dx + dy * dy);
  if (!(length > none)) throw std::logic_error("a member without a length");
  return {m.from, static_cast<double>(dx / length), static_cast<double>(dy / length)};
}
Length along(const Axis& a, const Point& p) { return (p.x - a.from.x) * a.x + (p.y - a.from.y) * a.y; }
Length beside(const Axis& a, const Point& p) { return (p.x - a.from.x) * a.y - (p.y - a.from.y) * a.x; }
double facing(const Axis& a, Way falls) {
  switch (falls) {
    case Way::right: return a.x;
    case Way::back: return a.y;
    case Way::left: return -a.x;
    case Way::front: return -a.y;
  }
  return 0.0;
}

// A slope whose tangent has been worked out before: a formula asks it of this as of an angle.
struct KnownSlope {
  double tan;
};
double tangent(const KnownSlope& s) { return s.tan; }

// How broad a convex polygon is at u, its corners given along and beside the axis.
Length breadth(const std::vector<std::pair<Length, Length>>& corners, Length u) {
  Length low = everywhere, high = -everywhere;
  const auto meet = [&](Length v) {
    low = std::min(low, v);
    high = std::max(high, v);
  };
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const auto& [u0, v0] = corners[i];
    const auto& [u1, v1] = corners[(i + 1) % corners.size()];
    if (u < std::min(u0, u1) || u > std::max(u0, u1)) continue;
    if (u0 == u1) {
      meet(v0);
      meet(v1);
    } else {
      meet(v0 + (v1 - v0) * static_cast<double>((u - u0) / (u1 - u0)));
    }
  }
  return high > low ? high - low : zero<Length>();
}

// What a way of bearing is marked by in symbols.
constexpr std::string_view way_mark(bool as_one_beam) { return as_one_beam ? "c" : ""; }
bool is_low(Side side) { return side == Side::left || side == Side::front; }
Length overlap(Length a, Length b, Length c, Length d) { return std::min(b, d) - std::max(a, c); }

std::string plural(std::string_view word) { return fmt::format("{}{}", word, word.ends_with('s') ? "es" : "s"); }

}  // namespace

std::string in_block(const House& h, std::string symbol, std::size_t block) {
  return block == 0 ? symbol : fmt::format("{},{}", symbol, name_of(h, block));
}

RoofForces::RoofForces(const House& h, const Shape& s, const Loads& l) : RoofForces(h, s, l, members_of(h, s)) {}

RoofForces::RoofForces(const House& h, const Shape& s, const Loads& l, Members m)
    : house_(h), shape_(s), loads_(l), all_(std::move(m)) {
  seats_.resize(all_.bearings.size());
  for (std::size_t i = 0; i < all_.members.size(); ++i) {
    const auto& on = all_.members[i].bearings;
    if (on.size() < 2) throw std::logic_error("a member on fewer than two bearings");
    const Length from = all_.bearings[on.front()].u, to = all_.bearings[on.back()].u;
    for (std::size_t k = 0; k < on.size(); ++k)
      seats_[on[k]] = {i, k, k == 0, k + 1 == on.size(), to - from, k == 0 ? from : to};
  }
  for (const Surface& f : shape_.surfaces) tangents_.push_back(tangent(f.slope));
  cut();
  compute_all();
}

// ---- geometry -------------------------------------------------------------------------------------------------------

std::vector<Length> RoofForces::places_of(const Member& m) const {
  std::vector<Length> r;
  for (const std::size_t b : m.bearings) r.push_back(all_.bearings[b].u);
  return r;
}

// Of a load that is spread evenly over the piece, by the influence lines of a beam of even stiffness. A level force
// above the bearings is a couple on the beam, which comes to a bearing as its influence line slopes. Breadth and height
// are linear and the influence cubic between corners and bearings, so that three points of Gauss are exact.
RoofForces::Shares RoofForces::shares_of(const Member& m, const Surface& s, const Polygon& g) const {
  const Axis axis = axis_of(m);
  const std::vector<Length> bearings = places_of(m);
  std::vector<std::pair<Length, Length>> corners;
  std::vector<Length> stops = bearings;
  for (const Point& p : g) {
    corners.emplace_back(along(axis, p), beside(axis, p));
    stops.push_back(corners.back().first);
  }
  const auto [first, last] = std::minmax_element(corners.begin(), corners.end(),
                                                 [](const auto& a, const auto& b) { return a.first < b.first; });
  const Length from = first->first, to = last->first;
  std::sort(stops.begin(), stops.end());
  const double off = std::sqrt(0.6);
  const std::array<std::pair<double, double>, 3> points{{{-off, 5.0 / 18.0}, {0.0, 8.0 / 18.0}, {off, 5.0 / 18.0}}};
  std::vector<Area> part(bearings.size(), zero<Area>()), turned = part;
  const double turn = s.part == Part::soffit ? 0.0 : facing(axis, s.falls);
  if (turn != 0.0 && turn != 1.0 && turn != -1.0)
    throw std::logic_error("a member askew to its slopes on more than two bearings");
  Area all = zero<Area>();
  for (std::size_t i = 0; i + 1 < stops.size(); ++i) {
    const Length a = std::max(stops[i], from), b = std::min(stops[i + 1], to);
    if (!(b > a)) continue;
    for (const auto& [at, weight] : points) {
      const Length u = 0.5 * (a + b) + 0.5 * at * (b - a);
      const Area slice = weight * (b - a) * breadth(corners, u);
      const auto influence = exact_continuous_shares(bearings, u);
      for (std::size_t k = 0; k < part.size(); ++k) part[k] += influence[k] * slice;
      if (turn != 0.0) {
        // On the axis itself: square to it a slope that falls along it is level.
        const Length z = height_at(s, {axis.from.x + u * axis.x, axis.from.y + u * axis.y});
        const auto slopes = exact_continuous_slopes(bearings, u);
        for (std::size_t k = 0; k < turned.size(); ++k)
          turned[k] -= turn * static_cast<double>(z * slopes[k]) * tangent(s.slope) * slice;
      }
      all += slice;
    }
  }
  Shares r;
  for (std::size_t k = 0; k < part.size(); ++k) {
    r.upright.push_back(static_cast<double>(part[k] / all));
    r.turned.push_back(static_cast<double>((part[k] + turned[k]) / all));
  }
  return r;
}

RoofForces::Piece RoofForces::piece_of(const Member& m, std::size_t surface, const Polygon& g, const Measures& measures,
                                       bool past_end) const {
  const Surface& s = shape_.surfaces[surface];
  const Axis axis = axis_of(m);
  const Area a = measures.a;
  const Point at{measures.x / a, measures.y / a};
  const Length off = beside(axis, at);
  Shares shares;
  if (m.bearings.size() > 2) shares = shares_of(m, s, g);
  return {0,
          surface,
          a,
          at,
          along(axis, at),
          s.part == Part::soffit ? zero<Length>() : height_at(s, at, tangents_[surface]),
          facing(axis, s.falls),
          past_end,
          past_end ? apart(off, zero<Length>()) : zero<Length>(),
          std::move(shares.upright),
          std::move(shares.turned),
          m.clear && (is_low(m.clear->side) ? along(axis, at) < all_.bearings[m.clear->set_back].u
                                            : along(axis, at) > all_.bearings[m.clear->set_back].u)};
}

static bool same(const Polygon& a, const Polygon& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const Point& p, const Point& q) { return p.x == q.x && p.y == q.y; });
}

// The members' parts of the plan: area and centroid are all that a reaction needs of a piece, and on more than two
// bearings its shares. What lies on one part of a surface in several layouts, or the weight with it, is cut once.
void RoofForces::cut() {
  const auto& members = all_.members;
  const std::size_t layouts = loads_.layouts.size();
  struct Patch {
    std::size_t surface;
    const Polygon* outline;
    Extent extent;
  };
  struct Lying {
    std::size_t patch, zone;
  };
  std::vector<Patch> patches;
  const auto lying = [&](std::size_t surface, const Polygon& g, std::size_t zone) {
    const auto known = std::find_if(patches.begin(), patches.end(),
                                    [&](const Patch& c) { return c.surface == surface && same(*c.outline, g); });
    const auto at = static_cast<std::size_t>(known - patches.begin());
    if (known == patches.end()) patches.push_back({surface, &g, extent_of(g)});
    return Lying{at, zone};
  };
  std::vector<std::vector<Lying>> of_wind(layouts);
  std::vector<Lying> of_weight;
  for (std::size_t l = 0; l < layouts; ++l)
    for (std::size_t z = 0; z < loads_.layouts[l].zones.size(); ++z) {
      const Zone& zone = loads_.layouts[l].zones[z];
      of_wind[l].push_back(lying(zone.surface, zone.part, z));
    }
  for (std::size_t i = 0; i < shape_.surfaces.size(); ++i)
    if (shape_.surfaces[i].part != Part::soffit) of_weight.push_back(lying(i, shape_.surfaces[i].outline, 0));

  levers_.resize(members.size());
  for (std::size_t m = 0; m < members.size(); ++m)
    if (members[m].next && members[m].space)
      levers_[*members[m].next].push_back({m, *members[m].space, std::vector<std::vector<Piece>>(layouts), {}});

  // Of one window: the pieces of all patches, as its own member feels them and, of a verge, as the next truss does.
  constexpr std::size_t none = ~std::size_t{0};
  std::vector<std::size_t> found;  // patch
  std::vector<Piece> own, there;
  Cutter cutter;
  const auto cut_by = [&](const Member& member, const Window& w, bool lever) {
    found.assign(patches.size(), none);
    own.clear();
    there.clear();
    const Extent window{w.x0, w.x1, w.y0, w.y1};
    for (std::size_t i = 0; i < patches.size(); ++i) {
      const Patch& c = patches[i];
      if (!overlap(c.extent, window) || !holds(w, shape_.surfaces[c.surface])) continue;
      Measures measures{};
      const Polygon& g = cutter.cut(*c.outline, c.extent, window, measures);
      if (g.empty()) continue;
      found[i] = own.size();
      own.push_back(piece_of(member, c.surface, g, measures, w.past_end));
      if (!lever) continue;
      there.push_back(piece_of(members[*member.next], c.surface, g, measures, true));
      there.back().past = own.back().past;
    }
  };
  const auto lay = [&](const std::vector<Lying>& all, const std::vector<Piece>& from, std::vector<Piece>& to) {
    const auto is_there = [&](const Lying& x) { return found[x.patch] != none; };
    to.reserve(to.size() + static_cast<std::size_t>(std::count_if(all.begin(), all.end(), is_there)));
    for (const Lying& x : all) {
      if (!is_there(x)) continue;
      to.push_back(from[found[x.patch]]);
      to.back().zone = x.zone;
    }
  };
  pieces_.assign(layouts, std::vector<std::vector<Piece>>(members.size()));
  dead_.resize(members.size());
  held_.resize(members.size(), zero<Area>());
  between_ = held_;
  for (std::size_t m = 0; m < members.size(); ++m) {
    for (const Window& w : members[m].carries) {
      Lever* lever = nullptr;
      if (w.past_end && members[m].next && members[m].space)
        for (Lever& x : levers_[*members[m].next])
          if (x.from == m) lever = &x;
      cut_by(members[m], w, lever != nullptr);
      for (std::size_t l = 0; l < layouts; ++l) lay(of_wind[l], own, pieces_[l][m]);
      lay(of_weight, own, dead_[m]);
      if (lever == nullptr) continue;
      for (std::size_t l = 0; l < layouts; ++l) lay(of_wind[l], there, lever->wind[l]);
      lay(of_weight, there, lever->dead);
    }
    for (const Piece& p : dead_[m]) {
      held_[m] += p.a;
      if (!p.sticks_out) between_[m] += p.a;
    }
  }
  handed_.resize(members.size());
  for (std::size_t b = 0; b < all_.bearings.size(); ++b)
    if (const auto& on = all_.bearings[b].onto)
      handed_[*on].push_back({b, continuous(*on)
                                     ? exact_continuous_shares(places_of(all_.members[*on]), all_.bearings[b].onto_u)
                                     : std::vector<double>()});
}

static bool one_figure(const ByArea& a, const ByArea& b) {
  return a.small == b.small && a.large == b.large && a.logarithmic == b.logarithmic;
}
// Whether two cases load the roof alike: they differ in what the walls are pushed with.
bool RoofForces::alike(const LoadCase& a, const LoadCase& b) const {
  const auto same = [](const Combination& x, const Combination& y) {
    return x.dead == y.dead && x.wind == y.wind && x.name.empty() == y.name.empty();
  };
  const auto one_face = [](const SquareOn& x, const SquareOn& y) {
    return x.side == y.side && x.from == y.from && x.to == y.to && x.p == y.p;
  };
  return a.layout == b.layout && same(a.combination, b.combination) && same(a.down, b.down) && a.net == b.net &&
         a.net_small == b.net_small && one_figure(a.by_area, b.by_area) &&
         (!feels_square_on() ||
          std::equal(a.square_on.begin(), a.square_on.end(), b.square_on.begin(), b.square_on.end(), one_face));
}

// What has been computed is remembered, case by case, from the top down.
void RoofForces::compute_all() {
  const std::size_t cases = loads_.cases.size(), n = all_.bearings.size();
  area_shares_.resize(cases);
  for (std::size_t c = 0; c < cases; ++c) {
    if (of(c).net_small.empty()) continue;
    if (c > 0 && !area_shares_[c - 1].empty() && one_figure(of(c - 1).by_area, of(c).by_area))
      area_shares_[c] = area_shares_[c - 1];
    else
      for (std::size_t m = 0; m < all_.members.size(); ++m)
        area_shares_[c].push_back(area_share(of(c).by_area, m, nullptr));
  }
  const Force none = zero<Force>();
  for (std::size_t b = 0; b < n; ++b) {
    const auto both = [&](bool greatest, Count count) {
      return Two{own_dead(b, How::by_moments, greatest, count),
                 continuous(seats_[b].member) ? own_dead(b, How::as_one_beam, greatest, count) : none};
    };
    dead_least_.push_back(both(false, Count::all));
    dead_held_.push_back(both(false, Count::what_lifts));
    dead_held_greatest_.push_back(both(true, Count::what_lifts));
    dead_pressing_.push_back(both(true, Count::what_presses));
    dead_tips_.push_back({tipping_weight(b, How::by_moments),
                          continuous(seats_[b].member) ? tipping_weight(b, How::as_one_beam) : none});
  }
  memo_.resize(cases);
  std::vector<Pressure> on_pieces;
  const bool upright_face = has_upright_face();
  for (std::size_t c = 0; c < cases; ++c) {
    Remembered& r = memo_[c];
    std::size_t before = 0;
    while (before < c && !alike(of(before), of(c))) ++before;
    like_.push_back(before);
    if (before < c) continue;
    r.wind.resize(n, {none, none});
    r.wind_up.resize(n, {none, none});
    r.wind_down.resize(n, {none, none});
    for (std::size_t m = 0; m < all_.members.size(); ++m) {
      const auto& pieces = pieces_[of(c).layout][m];
      on_pieces.clear();
      for (const Piece& p : pieces) on_pieces.push_back(net(c, p.zone, m));
      const bool parted = all_.members[m].clear.has_value();
      for (const std::size_t b : all_.members[m].bearings) {
        const auto both = [&](Count count) {
          return Two{own_wind(b, How::by_moments, count, pieces, on_pieces),
                     continuous(m) ? own_wind(b, How::as_one_beam, count, pieces, on_pieces) : none};
        };
        r.wind[b] = both(Count::all);
        r.wind_up[b] = parted ? both(Count::what_lifts) : r.wind[b];
        r.wind_down[b] = parted ? both(Count::what_presses) : r.wind[b];
      }
    }
    r.exact.resize(n, none);
    r.uplift.resize(n, none);
    r.pressed.resize(n, none);
    for (const std::size_t m : all_.from_top)
      for (const std::size_t b : all_.members[m].bearings) {
        r.exact[b] = exactly_lifted(c, b);
        r.uplift[b] = worse(c, b, false, {}, nullptr);
        if (upright_face)
          for (const As<Force>& f : turned_by_face(c, b, false, nullptr)) r.uplift[b] += f.quantity;
        if (of(c).down.name.empty()) continue;
        r.pressed[b] = worse(c, b, true, {}, nullptr);
        if (upright_face)
          for (const As<Force>& f : turned_by_face(c, b, true, nullptr)) r.pressed[b] += f.quantity;
      }
  }
}

Length RoofForces::span_of(std::size_t member) const {
  const auto& on = all_.members[member].bearings;
  return all_.bearings[on.back()].u - all_.bearings[on.front()].u;
}

Length RoofForces::from_bearing(const Seat& s, Length u) const { return s.first ? u - s.end : s.end - u; }

bool RoofForces::set_back(std::size_t b) const {
  const auto& clear = all_.members[seats_[b].member].clear;
  return clear && clear->set_back == b;
}

bool RoofForces::any_clear_end() const {
  return std::any_of(all_.members.begin(), all_.members.end(), [](const Member& m) { return m.clear.has_value(); });
}

// Past a bearing that is set back the wind may blow less than the method says, and what hangs there may weigh more or
// less than the rest: no relief at the other bearings.
bool RoofForces::counts(std::size_t b, const Piece& p, Force row, Count count) const {
  if (count == Count::all || !p.sticks_out || !all_.members[seats_[b].member].clear || set_back(b)) return true;
  return count == Count::what_lifts ? row > zero<Force>() : row < zero<Force>();
}

bool RoofForces::any_continuous() const {
  for (std::size_t m = 0; m < all_.members.size(); ++m)
    if (continuous(m)) return true;
  return false;
}

// ---- symbols and words ----------------------------------------------------------------------------------------------

std::string RoofForces::number(std::size_t b) const {
  const std::size_t trusses = house_.trusses.size();
  return std::to_string(b < 2 * trusses ? b / 2 + 1 : b - trusses + 1);
}
std::string RoofForces::symbol(std::size_t b) const { return "U_" + number(b); }
std::string RoofForces::press_symbol(std::size_t b) const { return "P_" + number(b); }

bool RoofForces::is_plain(std::size_t m) const {
  return all_.members[m].kind == MemberKind::truss && !continuous(m) && !all_.members[m].clear && handed_[m].empty();
}
std::string RoofForces::prefix(std::size_t b) const {
  return is_plain(seats_[b].member) ? std::string() : number(b) + ".";
}
std::string RoofForces::suffix(std::size_t b) const {
  const int plies = all_.members[seats_[b].member].plies;
  std::string r;
  if (plies > 1) r += fmt::format("; of all {} plies together", plies);
  if (all_.bearings[b].feet.size() > 1) r += "; at the corner either wall is asked for all of it";
  return r;
}
std::string RoofForces::along_source(std::size_t m) const {
  return fmt::format("the job's trusses, block {}", name_of(house_, all_.members[m].block));
}

std::string RoofForces::span_symbol(std::size_t m) const {
  return span_of(m) == shape_.span ? "s" : fmt::format("s_{}", number(all_.members[m].bearings.front()));
}
std::string RoofForces::pitch_symbol(const Surface& s) const {
  return in_block(house_, s.slope == roof_of(s).pitch ? "theta" : fmt::format("theta_{}", words(side_facing(s.falls))),
                  s.block);
}
const Roof& RoofForces::roof_of(const Surface& s) const {
  return s.block == 0 ? house_.roof : house_.wings[s.block - 1].roof;
}

// ---- pressures ------------------------------------------------------------------------------------------------------

Area RoofForces::loaded_area(std::size_t m, Working* w) const {
  const Member& member = all_.members[m];
  const std::string number = w ? std::to_string(m + 1) : std::string();
  // Where blocks meet a strip is no rectangle.
  if (member.clear) {
    // Of two ends the one between its bearings: the smaller area is the safe one.
    const Area between =
        given(w, "A_p" + number, "roof that the member holds between its bearings and past the far one", between_[m],
              along_source(m));
    if (!w) return formulas::half_of_plan(nullptr, between);
    return formulas::half_of_plan.told(w, "A_t" + number, "statics", as("A_p" + number, between));
  }
  if (member.kind != MemberKind::truss || !house_.wings.empty()) {
    given(w, "A_p" + number, "roof that the member holds, on plan, overhangs included", held_[m], along_source(m));
    if (!w) return formulas::half_of_plan(nullptr, held_[m]);
    return formulas::half_of_plan.told(w, "A_t" + number, "statics", as("A_p" + number, held_[m]));
  }
  const bool across = shape_.ridge == Along::across;
  Length from = everywhere, to = -everywhere;
  for (const Window& v : member.carries) {
    from = std::min(from, across ? v.x0 : v.y0);
    to = std::max(to, across ? v.x1 : v.y1);
  }
  // Where the overhangs differ, the lesser one: the smaller area is the safe one.
  Length eaves = shape_.eaves;
  for (const Side side : {across ? Side::front : Side::left, across ? Side::back : Side::right})
    if (shape_.at(side).slopes) eaves = std::min(eaves, shape_.at(side).overhang);
  const std::string e = eaves == shape_.eaves ? "e" : "e_t";
  const Length width = given(w, "b_t" + number, "width of the strip that the truss holds", to - from, along_source(m));
  given(w, e, eaves == shape_.eaves ? "eaves, on plan" : "eaves, on plan: the lesser of the two", eaves,
        "the job's roof");
  if (!w) return formulas::loaded_area(nullptr, width, shape_.span, eaves);
  return formulas::loaded_area.told(w, "A_t" + number, "geometry", as("b_t" + number, width), shape_.span,
                                    as(e, eaves));
}

double RoofForces::area_share(const ByArea& by, std::size_t m, Working* w) const {
  const std::string number = w ? std::to_string(m + 1) : std::string();
  const Area a = loaded_area(m, w);
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

std::string RoofForces::net_symbol(std::size_t c, std::size_t zone, std::size_t m) const {
  const Zone& z = loads_.layouts[of(c).layout].zones[zone];
  std::string own = "p_" + z.label;
  if (!of(c).net_small.empty()) {
    const double share = area_shares_[c][m];
    own += share <= 0.0 ? ",s" : share >= 1.0 ? ",l" : fmt::format(",{}", m + 1);
  }
  return in_block(house_, std::move(own), z.block);
}

Pressure RoofForces::net(std::size_t c, std::size_t zone, std::size_t m, Working* w) const {
  const Pressure large = of(c).net[zone];
  if (of(c).net_small.empty()) return large;
  const Pressure small = of(c).net_small[zone];
  const double share = area_shares_[c][m];
  if (share <= 0.0) return small;
  if (share >= 1.0) return large;
  if (!w) return formulas::pressure_for_area(nullptr, small, large, share);
  const std::string symbol = net_symbol(c, zone, m);
  if (!w->first("pressure " + symbol)) return formulas::pressure_for_area(nullptr, small, large, share);
  const Zone& z = loads_.layouts[of(c).layout].zones[zone];
  return formulas::pressure_for_area.told(
      w, symbol, of(c).by_area.source, as(in_block(house_, fmt::format("p_{},s", z.label), z.block), small),
      as(in_block(house_, fmt::format("p_{},l", z.label), z.block), large), as(fmt::format("k_t{}", m + 1), share));
}

Pressure RoofForces::weight(const Surface& s, bool greatest) const {
  const RoofWeight& g = roof_of(s).weight;
  const Pressure stated = greatest ? g.greatest : g.least;
  return g.on_slope ? formulas::weight_on_plan(nullptr, stated, s.slope) : stated;
}
std::string RoofForces::weight_symbol(const Surface& s, bool greatest) const {
  std::string r = greatest ? "g_G" : "g";
  if (roof_of(s).weight.on_slope && s.slope != roof_of(s).pitch) r += fmt::format("_{}", words(side_facing(s.falls)));
  return in_block(house_, std::move(r), s.block);
}
void RoofForces::tell_weight(const Surface& s, bool greatest, Working& w) const {
  const RoofWeight& g = roof_of(s).weight;
  const Pressure stated = greatest ? g.greatest : g.least;
  const std::string symbol = weight_symbol(s, greatest),
                    kind = greatest ? "greatest roof weight" : "roof weight that is sure to be there";
  if (!g.on_slope) {
    given(&w, symbol, kind + ", on plan", stated, "the job, roof.weight");
    return;
  }
  const std::string on_slope = in_block(house_, greatest ? "g_Gs" : "g_s", s.block);
  given(&w, on_slope, kind + ", on the slope", stated, "the job, roof.weight");
  const auto pitch = as(pitch_symbol(s), s.slope);
  formulas::weight_on_plan.told_as(&w, symbol, formulas::weight_on_plan.words, formulas::weight_on_plan.source,
                                   as(on_slope, stated), pitch);
}

Pressure RoofForces::sure_weight(const Surface& s, Working* w) const {
  if (w) {
    given(w, pitch_symbol(s), fmt::format("pitch of the {} slope", words(side_facing(s.falls))), s.slope,
          "the job's roof");
    tell_weight(s, false, *w);
  }
  return weight(s, false);
}
std::string RoofForces::sure_weight_symbol(const Surface& s) const { return weight_symbol(s, false); }

// ---- one piece at one bearing ---------------------------------------------------------------------------------------

// The measures of one piece, numbered n: what wind and weight on it are told by.
void RoofForces::tell_piece(std::size_t b, const Piece& p, std::size_t n, Working& w) const {
  const Surface& s = surface(p);
  const Seat& seat = seats_[b];
  const std::string own = fmt::format("{}{}", prefix(b), n);
  const bool truss = all_.members[seat.member].kind == MemberKind::truss;
  const std::string_view part = s.part == Part::roof       ? "slope"
                                : s.part == Part::overhang ? "slope, past the wall"
                                                           : "soffit";
  const std::string what =
      fmt::format("{} {}{}{}", words(side_facing(s.falls)), part, p.past_end ? ", past the end truss" : "",
                  s.over ? fmt::format(", of {} over {}", name_of(house_, s.block), name_of(house_, s.held_by)) : "");
  given(&w, "A_" + own, fmt::format("plan area of the {} on the {}", truss ? "strip" : "part that it holds", what), p.a,
        along_source(seat.member));
  if (seat.first || seat.last)
    given(&w, "u_" + own, "level distance of its middle from this bearing", from_bearing(seat, p.u),
          along_source(seat.member));
  if (s.part != Part::soffit)
    given(&w, "z_" + own, "height of its middle above the bearings", p.z, along_source(seat.member));
  const double turn = facing_here(seat, p);
  if (s.part != Part::soffit && turn != 1.0 && turn != -1.0 && turn != 0.0)
    given(&w, "k_" + own, "cosine of the angle on plan between the slope's fall and the member, towards this bearing",
          turn, along_source(seat.member));
  if (p.shares.empty()) return;
  looked_up(&w, "i_" + own, "share of what lies evenly on it that comes to this bearing, as one beam over all",
            p.shares[seat.place], "three-moment equation, even stiffness");
  looked_up(&w, "j_" + own,
            "share of a pressure square to it that comes to this bearing, as one beam over all: its level part turns "
            "the beam",
            p.turned[seat.place], "three-moment equation, even stiffness");
}

Force RoofForces::wind_row(std::size_t b, How how, const Piece& piece, Pressure p) const {
  const Seat& seat = seats_[b];
  const bool soffit = surface(piece).part == Part::soffit;
  if (how == How::as_one_beam) {
    const double share = piece.turned[seat.place];
    return soffit ? formulas::beam_lift_soffit(nullptr, p, piece.a, share)
                  : formulas::beam_lift(nullptr, p, piece.a, share);
  }
  const Length span = seat.span, u = from_bearing(seat, piece.u);
  if (soffit) return formulas::lift_soffit(nullptr, p, piece.a, span, u);
  const double turn = facing_here(seat, piece);
  const KnownSlope slope{tangents_[piece.surface]};
  if (turn == 1.0) return formulas::lift_near.sum(p, piece.a, span, u, piece.z, slope);
  if (turn == -1.0) return formulas::lift_far.sum(p, piece.a, span, u, piece.z, slope);
  if (turn == 0.0) return formulas::lift_square(nullptr, p, piece.a, span, u);
  return formulas::lift_askew.sum(p, piece.a, span, u, turn, piece.z, slope);
}

Force RoofForces::wind_row(std::size_t c, std::size_t b, How how, const Piece& piece, std::size_t loaded,
                           std::string_view symbol, std::size_t n, Working* w) const {
  const Pressure p = net(c, piece.zone, loaded);
  if (!w) return wind_row(b, how, piece, p);
  const Surface& s = surface(piece);
  const Seat& seat = seats_[b];
  const auto pressure = as(net_symbol(c, piece.zone, loaded), p);
  const auto own = [&](std::string_view of, const auto& q) { return as(fmt::format("{}_{}{}", of, prefix(b), n), q); };
  if (how == How::as_one_beam) {
    const auto lift = [&](const auto& formula) {
      return formula.told(w, symbol, formula.source, pressure, own("A", piece.a), own("j", piece.turned[seat.place]));
    };
    return s.part == Part::soffit ? lift(formulas::beam_lift_soffit) : lift(formulas::beam_lift);
  }
  const auto area = own("A", piece.a);
  const auto span = as(span_symbol(seat.member), span_of(seat.member));
  const auto u = own("u", from_bearing(seat, piece.u));
  if (s.part == Part::soffit) return formulas::lift_soffit.told(w, symbol, "moments", pressure, area, span, u);
  const double turn = facing_here(seat, piece);
  if (turn == 0.0) return formulas::lift_square.told(w, symbol, "moments", pressure, area, span, u);
  const auto z = own("z", piece.z);
  const auto pitch = as(pitch_symbol(s), s.slope);
  if (turn == 1.0) return formulas::lift_near.told(w, symbol, "moments", pressure, area, span, u, z, pitch);
  if (turn == -1.0) return formulas::lift_far.told(w, symbol, "moments", pressure, area, span, u, z, pitch);
  return formulas::lift_askew.told(w, symbol, "moments", pressure, area, span, u, own("k", turn), z, pitch);
}

Force RoofForces::dead_row(std::size_t b, How how, const Piece& piece, bool greatest, std::string_view symbol,
                           std::size_t n, Working* w) const {
  const Seat& seat = seats_[b];
  const Pressure g = weight(surface(piece), greatest);
  const auto own = [&](std::string_view of, const auto& q) { return as(fmt::format("{}_{}{}", of, prefix(b), n), q); };
  const auto stated = [&] { return as(weight_symbol(surface(piece), greatest), g); };
  if (how == How::as_one_beam) {
    const double share = piece.shares[seat.place];
    return w ? formulas::beam_weight.told(w, symbol, formulas::beam_weight.source, stated(), own("A", piece.a),
                                          own("i", share))
             : formulas::beam_weight(nullptr, g, piece.a, share);
  }
  const Length span = seat.span, u = from_bearing(seat, piece.u);
  if (!w) return formulas::weight_on_bearing(nullptr, g, piece.a, span, u);
  return formulas::weight_on_bearing.told(w, symbol, "moments", stated(), own("A", piece.a),
                                          as(span_symbol(seat.member), span), own("u", u));
}

// ---- the member's own strip -----------------------------------------------------------------------------------------

// All measures first, each piece's once: a piece that wind and weight share has one number. In silence: the numbers
// alone, of pieces told before.
RoofForces::Numbers RoofForces::tell_measures(std::size_t c, std::size_t b, bool greatest, Working* w) const {
  const std::size_t m = seats_[b].member;
  const auto& pieces = pieces_[of(c).layout][m];
  const auto& space = all_.members[m].space;
  Numbers r;
  std::vector<const Piece*> measured;
  const auto number_of = [&](const Piece& p) -> std::size_t {
    for (std::size_t i = 0; i < measured.size(); ++i) {
      const Piece& k = *measured[i];
      if (k.surface == p.surface && k.past_end == p.past_end && k.a == p.a && k.at.x == p.at.x && k.at.y == p.at.y)
        return i + 1;
    }
    measured.push_back(&p);
    if (!w) return measured.size();
    tell_piece(b, p, measured.size(), *w);
    if (p.past_end && space)
      given(w, fmt::format("d_{}{}", prefix(b), measured.size()), "distance of its middle past the end truss", p.past,
            along_source(m));
    return measured.size();
  };
  // The slopes of different pitch that it holds, each once.
  std::vector<const Surface*> slopes;
  const auto add_slope = [&](const Piece& p) {
    const Surface& s = surface(p);
    if (s.part != Part::soffit && std::none_of(slopes.begin(), slopes.end(),
                                               [&](const Surface* k) { return pitch_symbol(*k) == pitch_symbol(s); }))
      slopes.push_back(&s);
  };
  if (w) {
    for (const Piece& p : pieces) add_slope(p);
    for (const Piece& p : dead_[m]) add_slope(p);
    given(w, span_symbol(m), "span between the bearings", span_of(m), along_source(m));
    for (const Surface* s : slopes)
      given(w, pitch_symbol(*s),
            pitch_symbol(*s) == "theta" ? std::string("pitch of the roof")
                                        : fmt::format("pitch of the {} slope", words(side_facing(s->falls))),
            s->slope, "the job's roof");
    if (space) given(w, "s_1", "first space between trusses", *space, along_source(m));
    if (!of(c).net_small.empty()) {
      area_share(of(c).by_area, m, w);
      for (const Piece& p : pieces) net(c, p.zone, m, w);
    }
  }
  for (const Piece& p : pieces) r.wind.push_back(net(c, p.zone, m) != zero<Pressure>() ? number_of(p) : 0);
  for (const Piece& p : dead_[m]) r.dead.push_back(number_of(p));
  if (w) {
    std::vector<std::string> told;
    for (const Surface* s : slopes)
      if (std::find(told.begin(), told.end(), weight_symbol(*s, greatest)) == told.end()) {
        told.push_back(weight_symbol(*s, greatest));
        tell_weight(*s, greatest, *w);
      }
  }
  return r;
}

std::vector<As<Force>> RoofForces::wind_rows(std::size_t c, std::size_t b, How how, Count count, const Numbers& numbers,
                                             Working& w) const {
  const std::size_t m = seats_[b].member;
  const auto& pieces = pieces_[of(c).layout][m];
  const auto& space = all_.members[m].space;
  const std::string mark(way_mark(how == How::as_one_beam));
  std::vector<As<Force>> rows;
  int n = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Piece& p = pieces[i];
    if (numbers.wind[i] == 0 || !counts(b, p, wind_row(c, b, how, p, m, {}, 0, nullptr), count)) continue;
    const std::string own = fmt::format("W{}_{}.{}", mark, number(b), ++n);
    rows.push_back(as(own, wind_row(c, b, how, p, m, own, numbers.wind[i], &w)));
    if (!p.past_end || !space) continue;
    const std::string lever = fmt::format("X{}_{}.{}", mark, number(b), n);
    rows.push_back(
        as(lever, formulas::outrigger.told(&w, lever, "moments", as(own, rows.back().quantity),
                                           as(fmt::format("d_{}{}", prefix(b), numbers.wind[i]), p.past), *space)));
  }
  return rows;
}
std::vector<As<Force>> RoofForces::dead_rows(std::size_t b, How how, bool greatest, Count count, const Numbers& numbers,
                                             Working& w) const {
  const std::size_t m = seats_[b].member;
  const auto& space = all_.members[m].space;
  const std::string mark(way_mark(how == How::as_one_beam));
  std::vector<As<Force>> rows;
  for (std::size_t i = 0; i < dead_[m].size(); ++i) {
    const Piece& p = dead_[m][i];
    if (!weight_counts(b, how, p, count)) continue;
    const std::string own = fmt::format("{}{}_{}.{}", greatest ? "G" : "D", mark, number(b), i + 1);
    rows.push_back(as(own, dead_row(b, how, p, greatest, own, numbers.dead[i], &w)));
    if (!p.past_end || !space) continue;
    const std::string lever = fmt::format("{}{}_{}.{}", greatest ? "Z" : "Y", mark, number(b), i + 1);
    rows.push_back(
        as(lever, formulas::outrigger.told(&w, lever, "moments", as(own, rows.back().quantity),
                                           as(fmt::format("d_{}{}", prefix(b), numbers.dead[i]), p.past), *space)));
  }
  return rows;
}

Force RoofForces::own_wind(std::size_t b, How how, Count count, const std::vector<Piece>& pieces,
                           const std::vector<Pressure>& net) const {
  const auto& space = all_.members[seats_[b].member].space;
  Force sum = zero<Force>();
  if (how == How::by_moments && !seats_[b].first && !seats_[b].last) return sum;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Piece& p = pieces[i];
    if (net[i] == zero<Pressure>()) continue;
    const Force row = wind_row(b, how, p, net[i]);
    if (!counts(b, p, row, count)) continue;
    sum += row;
    if (p.past_end && space) sum += formulas::outrigger(nullptr, row, p.past, *space);
  }
  return sum;
}

// Weight past a bearing set back that lifts is apart; what would hold down there does not count.
bool RoofForces::weight_counts(std::size_t b, How how, const Piece& p, Count count) const {
  if (count == Count::all || !p.sticks_out || set_back(b) || !all_.members[seats_[b].member].clear) return true;
  return count == Count::what_presses && !tips(b, how, p);
}
bool RoofForces::tips(std::size_t b, How how, const Piece& p) const {
  return p.sticks_out && all_.members[seats_[b].member].clear && !set_back(b) &&
         dead_row(b, how, p, true, {}, 0, nullptr) < zero<Force>();
}
Force RoofForces::tipping_weight(std::size_t b, How how) const {
  const std::size_t m = seats_[b].member;
  const auto& space = all_.members[m].space;
  Force sum = zero<Force>();
  if (how == How::by_moments && !seats_[b].first && !seats_[b].last) return sum;
  for (const Piece& p : dead_[m]) {
    if (!tips(b, how, p)) continue;
    const Force row = dead_row(b, how, p, true, {}, 0, nullptr);
    sum += row;
    if (p.past_end && space) sum += formulas::outrigger(nullptr, row, p.past, *space);
  }
  return sum;
}
// Where the method has no combination for what presses, the weight as it is.
double RoofForces::tipping_factor(std::size_t c) const {
  return of(c).down.name.empty() ? std::max(1.0, of(c).combination.dead) : of(c).down.dead;
}

As<Force> RoofForces::tell_tipping(std::size_t c, std::size_t b, How how, const Numbers& numbers, Working& w) const {
  const std::size_t m = seats_[b].member;
  const auto& space = all_.members[m].space;
  const std::string mark(way_mark(how == How::as_one_beam)), n = number(b);
  std::vector<As<Force>> rows;
  for (std::size_t i = 0; i < dead_[m].size(); ++i) {
    const Piece& p = dead_[m][i];
    if (!tips(b, how, p)) continue;
    if (w.first(fmt::format("weight that tips {} {}", b, weight_symbol(surface(p), true))))
      tell_weight(surface(p), true, w);
    const std::string own = fmt::format("T{}_{}.{}", mark, n, i + 1);
    rows.push_back(as(own, dead_row(b, how, p, true, own, numbers.dead[i], &w)));
    if (!p.past_end || !space) continue;
    const std::string lever = fmt::format("V{}_{}.{}", mark, n, i + 1);
    rows.push_back(
        as(lever, formulas::outrigger.told(&w, lever, "moments", as(own, rows.back().quantity),
                                           as(fmt::format("d_{}{}", prefix(b), numbers.dead[i]), p.past), *space)));
  }
  const std::string t_n = fmt::format("T{}_{}", mark, n), l_n = fmt::format("L{}_{}", mark, n);
  total<Force>(&w, t_n, "greatest weight past the bearing that is set back, at this bearing", "sum", rows);
  const double factor = given(&w, "f_D", "factor on weight that lifts this bearing", tipping_factor(c),
                              of(c).down.name.empty() ? of(c).combination.source : of(c).down.source);
  return as(l_n, formulas::tipped_by_weight.told(&w, l_n, formulas::tipped_by_weight.source, as("f_D", factor),
                                                 as(t_n, dead_tips_[b][how])));
}

std::vector<As<Force>> RoofForces::from_the_recess(std::size_t c, std::size_t b, How how, Working* w) const {
  std::vector<As<Force>> rows;
  const Seat& seat = seats_[b];
  const Member& m = all_.members[seat.member];
  if (!m.clear) return rows;
  const bool beam = how == How::as_one_beam;
  const Length depth = m.clear->depth, span = span_of(seat.member);
  const Length middle = is_low(m.clear->side) ? 0.5 * depth : all_.bearings[m.clear->set_back].u + 0.5 * depth;
  // Past the last bearing an influence line is straight: at the middle it is that of the whole.
  const double share = beam ? std::abs(exact_continuous_shares(places_of(m), middle)[seat.place]) : 0.0;
  const Length u = from_bearing(seat, middle);
  const double f = of(c).combination.wind;
  for (const SquareOn& s : of(c).square_on) {
    const Length width = overlap(m.clear->from, m.clear->to, s.from, s.to);
    if (s.side != m.clear->side || s.block != m.block || !(width > zero<Length>())) continue;
    if (!w) {
      rows.push_back(as("", beam          ? formulas::recess_on_beam(nullptr, f, s.p, width, depth, share)
                            : set_back(b) ? formulas::recess_lifts(nullptr, f, s.p, width, depth, span, u)
                                          : formulas::recess_tips(nullptr, f, s.p, width, depth, u, span)));
      continue;
    }
    const std::string n = number(b), own = fmt::format("Q{}_{}.{}", way_mark(beam), n, rows.size() + 1);
    given(w, "d_r" + n, "depth of the recess under it: from the bearing set back to the outside wall's face", depth,
          along_source(seat.member));
    given(w, "b_r" + own.substr(own.find('_') + 1), "width of it that this truss holds", width,
          along_source(seat.member));
    const auto p = as(in_block(house_, "p_sq," + s.label, s.block), s.p);
    const auto b_r = as("b_r" + own.substr(own.find('_') + 1), width);
    const auto d_r = as("d_r" + n, depth);
    const auto s_ = as(span_symbol(seat.member), span);
    if (beam) {
      looked_up(w, "i_r" + n, "share of it that comes to this bearing, as one beam over all, in size", share,
                "three-moment equation, even stiffness");
      rows.push_back(as(own, formulas::recess_on_beam.told(w, own, formulas::recess_on_beam.source, as("f_w", f), p,
                                                           b_r, d_r, as("i_r" + n, share))));
      continue;
    }
    given(w, "u_r" + n, "level distance of its middle from this bearing", u, along_source(seat.member));
    const auto u_r = as("u_r" + n, u);
    rows.push_back(as(own, set_back(b)
                               ? formulas::recess_lifts.told(w, own, "moments", as("f_w", f), p, b_r, d_r, s_, u_r)
                               : formulas::recess_tips.told(w, own, "moments", as("f_w", f), p, b_r, d_r, u_r, s_)));
  }
  return rows;
}

Force RoofForces::own_dead(std::size_t b, How how, bool greatest, Count count) const {
  const std::size_t m = seats_[b].member;
  const auto& space = all_.members[m].space;
  Force sum = zero<Force>();
  if (how == How::by_moments && !seats_[b].first && !seats_[b].last) return sum;
  for (const Piece& p : dead_[m]) {
    if (!weight_counts(b, how, p, count)) continue;
    const Force row = dead_row(b, how, p, greatest, {}, 0, nullptr);
    sum += row;
    if (p.past_end && space) sum += formulas::outrigger(nullptr, row, p.past, *space);
  }
  return sum;
}

// ---- what comes from others -----------------------------------------------------------------------------------------

// The far end of a verge's lever: what it takes from the truss next to the end truss (negative), or adds when the verge
// is pressed down.
Force RoofForces::carried_on(std::size_t c, std::size_t b, How how, double wind, double dead, bool greatest,
                             bool sticks_out) const {
  Force sum = zero<Force>();
  for (const Lever& l : levers_[seats_[b].member]) {
    for (const Piece& p : l.wind[of(c).layout])
      if (p.sticks_out == sticks_out)
        sum += wind * formulas::carried_over(nullptr, wind_row(c, b, how, p, l.from, {}, 0, nullptr), p.past, l.space);
    for (const Piece& p : l.dead)
      if (p.sticks_out == sticks_out)
        sum -= dead * formulas::carried_over(nullptr, dead_row(b, how, p, greatest, {}, 0, nullptr), p.past, l.space);
  }
  return sum;
}
Force RoofForces::carried(std::size_t c, std::size_t b, How how, double wind, double dead, bool greatest) const {
  return carried_on(c, b, how, wind, dead, greatest, false) + carried_on(c, b, how, wind, dead, greatest, true);
}
// Relief that a verge's lever would give is not used, nor that of its part past a bearing set back for the rest.
Force RoofForces::added_by_verge(std::size_t c, std::size_t b, How how, Count count) const {
  const bool presses = count == Count::what_presses;
  const auto& f = presses ? of(c).down : of(c).combination;
  Force sum = zero<Force>();
  for (const bool sticks_out : {false, true}) {
    const Force up = carried_on(c, b, how, f.wind, f.dead, presses, sticks_out);
    sum += std::max(presses ? -up : up, zero<Force>());
  }
  return sum;
}

// Of a load that stands on the member, what comes to this bearing.
Force RoofForces::handed(std::size_t b, How how, const Handed& h, Force whole, const std::string& whole_symbol,
                         Working* w) const {
  const Seat& seat = seats_[b];
  const Bearing& there = all_.bearings[h.bearing];
  const std::string own = w ? fmt::format("{}.{}", number(b), number(h.bearing)) : std::string();
  if (how == How::as_one_beam) {
    const double share = h.shares[seat.place];
    if (!w) return formulas::landed(nullptr, share, whole);
    looked_up(w, "y_" + own, fmt::format("share of {} that comes to this bearing, as one beam over all", there.words),
              share, "three-moment equation, even stiffness");
    const std::string symbol = fmt::format("{}_{}", whole_symbol.starts_with('P') ? "Hc" : "Ec", own);
    return formulas::landed.told_as(w, symbol, "what comes to this bearing of that load, as one beam over all bearings",
                                    "three-moment equation", as("y_" + own, share), as(whole_symbol, whole));
  }
  const Length span = seat.span, x = from_bearing(seat, there.onto_u);
  if (!w) return formulas::handed_on(nullptr, whole, span, x);
  given(w, "x_" + own, fmt::format("where {} stands on it, from this bearing", all_.members[there.member].words), x,
        along_source(seat.member));
  return formulas::handed_on.told(w, fmt::format("{}_{}", whole_symbol.starts_with('P') ? "H" : "E", own), "moments",
                                  as(whole_symbol, whole), as(span_symbol(seat.member), span), as("x_" + own, x));
}

// ---- bearings -------------------------------------------------------------------------------------------------------

RoofForces::How RoofForces::exact_way(std::size_t b) const {
  return continuous(seats_[b].member) ? How::as_one_beam : How::by_moments;
}

Force RoofForces::exactly_lifted(std::size_t c, std::size_t b) const {
  const auto& f = of(c).combination;
  const How how = exact_way(b);
  Force sum = formulas::net_uplift(nullptr, f.wind, memo(c).wind[b][how], f.dead, dead_least_[b][how]) +
              carried(c, b, how, f.wind, f.dead, false);
  for (const Handed& h : handed_[seats_[b].member]) sum += handed(b, how, h, memo(c).exact[h.bearing], {}, nullptr);
  return sum;
}

Force RoofForces::lifted(std::size_t c, std::size_t b, How how, const std::string& symbol, Working* w) const {
  const auto& f = of(c).combination;
  const auto& from_above = handed_[seats_[b].member];
  const bool lifts = weight_lifts(c, b, how);
  const Force wind = memo(c).wind_up[b][how], dead = (lifts ? dead_held_greatest_ : dead_held_)[b][how];
  const double factor = lifts ? of(c).down.dead : f.dead;
  const Force extra = added_by_verge(c, b, how, Count::what_lifts), tips = dead_tips_[b][how];
  const auto presses = [&](const Handed& h) { return no_relief(c, b, how, h); };
  if (!w) {
    Force sum = formulas::net_uplift(nullptr, f.wind, wind, factor, dead);
    if (extra > zero<Force>()) sum += extra;
    if (tips < zero<Force>()) sum += formulas::tipped_by_weight(nullptr, tipping_factor(c), tips);
    for (const As<Force>& r : from_the_recess(c, b, how, nullptr)) sum += r.quantity;
    for (const Handed& h : from_above)
      if (!presses(h)) sum += handed(b, how, h, memo(c).uplift[h.bearing], {}, nullptr);
    return sum;
  }
  const std::string mark(way_mark(how == How::as_one_beam)), n = number(b);
  if (w->first(fmt::format("measures {}", b))) {
    given(w, "f_w", "factor on the wind", f.wind, f.source);
    given(w, "f_d", "factor on weight that holds down", f.dead, f.source);
    tell_measures(c, b, lifts, w);
  }
  if (lifts) given(w, "f_D", "factor on weight that lifts this bearing", factor, of(c).down.source);
  const Numbers numbers = tell_measures(c, b, false, nullptr);
  w->first(fmt::format("wind {} {}", b, mark));
  const auto wind_told = wind_rows(c, b, how, Count::what_lifts, numbers, *w);
  const auto dead_told = dead_rows(b, how, lifts, Count::what_lifts, numbers, *w);
  const std::string_view what = words(all_.members[seats_[b].member].kind);
  const std::string whose = is_plain(seats_[b].member) ? "truss" : std::string(what);
  const std::string by = how == How::as_one_beam ? ", as one beam over all bearings" : "";
  const std::string w_n = fmt::format("W{}_{}", mark, n), d_n = fmt::format("D{}_{}", mark, n);
  total<Force>(w, w_n, fmt::format("wind on this {}, at this bearing{}", whose, by), "sum", wind_told);
  total<Force>(w, d_n, fmt::format("weight on this {}, at this bearing{}", whose, by), "sum", dead_told);
  const bool nothing_on_it = std::all_of(from_above.begin(), from_above.end(), presses);
  const bool sticks_out = all_.members[seats_[b].member].clear.has_value();
  const bool alone = !(extra > zero<Force>()) && nothing_on_it && !sticks_out;
  const std::string own = alone                               ? symbol
                          : from_above.empty() && !sticks_out ? fmt::format("U{}_n", mark)
                                                              : fmt::format("U{}_{},n", mark, n);
  const std::string k = fmt::format("K{}", mark);
  if (extra > zero<Force>())
    given(w, k, "added by a verge that is pressed down: the other end of its lever", extra,
          "moments, from the verge's strip");
  const Force net = formulas::net_uplift.told_as(
      w, own, fmt::format("{}{}{}", formulas::net_uplift.words, by, alone ? suffix(b) : std::string()), f.source,
      f.wind, as(w_n, wind), as(lifts ? "f_D" : "f_d", factor), as(d_n, dead));
  if (alone) return net;
  std::vector<As<Force>> rows{as(own, net)};
  if (extra > zero<Force>()) rows.push_back(as(k, extra));
  if (tips < zero<Force>()) rows.push_back(tell_tipping(c, b, how, numbers, *w));
  for (As<Force>& r : from_the_recess(c, b, how, w)) rows.push_back(std::move(r));
  for (const Handed& h : from_above) {
    if (presses(h)) continue;
    const Force there = handed(b, how, h, memo(c).uplift[h.bearing], this->symbol(h.bearing), w);
    rows.push_back(as(fmt::format("E{}_{}.{}", mark, n, number(h.bearing)), there));
  }
  return total<Force>(w, symbol,
                      fmt::format("net uplift at the bearing{}, with {}{}", by,
                                  sticks_out           ? "what its part past the bearing set back adds"
                                  : from_above.empty() ? "what the verge's lever adds"
                                                       : "what stands on the member",
                                  suffix(b)),
                      "sum", rows);
}

// Downwards, not cut off at zero. Relief that a verge's lever would give is not used.
Force RoofForces::pressed(std::size_t c, std::size_t b, How how, const std::string& symbol, Working* w) const {
  const Combination& f = of(c).down;
  const auto& from_above = handed_[seats_[b].member];
  const Force wind = memo(c).wind_down[b][how], dead = dead_pressing_[b][how];
  const Force extra = added_by_verge(c, b, how, Count::what_presses);
  if (!w) {
    Force sum = formulas::net_press(nullptr, f.dead, dead, f.wind, wind);
    if (extra > zero<Force>()) sum += extra;
    for (const Handed& h : from_above) sum += handed(b, how, h, memo(c).pressed[h.bearing], {}, nullptr);
    return sum;
  }
  const std::string mark(way_mark(how == How::as_one_beam)), n = number(b);
  if (w->first(fmt::format("measures pressed {}", b))) {
    given(w, "f_W", fmt::format("factor on the wind, {}", f.name), f.wind, f.source);
    given(w, "f_G", fmt::format("factor on weight that presses, {}", f.name), f.dead, f.source);
    tell_measures(c, b, true, w);
  }
  const Numbers numbers = tell_measures(c, b, true, nullptr);
  const bool parted = all_.members[seats_[b].member].clear.has_value();
  const bool wind_is_new = w->first(fmt::format("wind {} {}", b, mark)) || parted;
  const auto wind_told =
      wind_is_new ? wind_rows(c, b, how, Count::what_presses, numbers, *w) : std::vector<As<Force>>();
  const auto dead_told = dead_rows(b, how, true, Count::what_presses, numbers, *w);
  const std::string by = how == How::as_one_beam ? ", as one beam over all bearings" : "";
  const std::string w_n = fmt::format("W{}_{}", mark, n), g_n = fmt::format("G{}_{}", mark, n);
  if (wind_is_new)
    total<Force>(w, w_n, fmt::format("wind on this member, at this bearing, upwards{}", by), "sum", wind_told);
  total<Force>(w, g_n, fmt::format("greatest weight on this member, at this bearing{}", by), "sum", dead_told);
  const bool alone = !(extra > zero<Force>()) && from_above.empty();
  const std::string own = alone ? symbol : fmt::format("P{}_{},o", mark, n), k = fmt::format("K{}_G", mark);
  if (extra > zero<Force>())
    given(w, k, "added by a verge that is lifted: the other end of its lever", extra,
          "moments, from the verge's strip");
  const Force net = formulas::net_press.told_as(w, own, fmt::format("{}{}", formulas::net_press.words, by), f.source,
                                                f.dead, as(g_n, dead), f.wind, as(w_n, wind));
  if (alone) return net;
  std::vector<As<Force>> rows{as(own, net)};
  if (extra > zero<Force>()) rows.push_back(as(k, extra));
  for (const Handed& h : from_above) {
    const Force there = handed(b, how, h, memo(c).pressed[h.bearing], press_symbol(h.bearing) + ",n", w);
    rows.push_back(as(fmt::format("H{}_{}.{}", mark, n, number(h.bearing)), there));
  }
  return total<Force>(w, symbol,
                      fmt::format("what presses on the bearing{}, with {}", by,
                                  from_above.empty() ? "what the verge's lever adds" : "what stands on the member"),
                      "sum", rows);
}

// An outside bearing of a member that has others between: the worse of one beam over all of them and of the outside
// ones alone. An inside one: as one beam.
Force RoofForces::worse(std::size_t c, std::size_t b, bool press, const std::string& symbol, Working* w) const {
  const Seat& seat = seats_[b];
  const auto by = [&](How how, const std::string& own) {
    return press ? pressed(c, b, how, own, w) : lifted(c, b, how, own, w);
  };
  if (!continuous(seat.member)) return by(How::by_moments, symbol);
  if (!seat.first && !seat.last) return by(How::as_one_beam, symbol);
  const std::string beam = w ? symbol + ",c" : std::string(), ends = w ? symbol + ",e" : std::string();
  const Force over_all = by(How::as_one_beam, beam), over_ends = by(How::by_moments, ends);
  if (!w) return std::max(over_all, over_ends);
  return greatest<Force>(w, symbol,
                         fmt::format("{} at the bearing: the worse of one beam over all its bearings and of the "
                                     "outside ones alone{}",
                                     press ? "what presses" : "net uplift", suffix(b)),
                         "an inside wall gives no relief", {as(beam, over_all), as(ends, over_ends)});
}

RoofForces::How RoofForces::deciding(std::size_t c, std::size_t b) const {
  const Seat& seat = seats_[b];
  if (!continuous(seat.member)) return How::by_moments;
  if (!seat.first && !seat.last) return How::as_one_beam;
  return lifted(c, b, How::as_one_beam, {}, nullptr) >= lifted(c, b, How::by_moments, {}, nullptr) ? How::as_one_beam
                                                                                                   : How::by_moments;
}

Force RoofForces::uplift(std::size_t c, std::size_t b, Working* w) const {
  if (!w || !w->first(fmt::format("uplift {}", b))) return memo(c).uplift[b];
  const Bearing& me = all_.bearings[b];
  const Member& member = all_.members[me.member];
  const std::string own = symbol(b), heading = fmt::format("The roof lifts: {}", me.words);
  const Force known = memo(c).uplift[b];
  w->heading(heading);
  // One like one already told is not told again: same strip, same pressures, as much on it, the same number.
  const auto& from_above = handed_[me.member];
  for (std::size_t i = 0; i < all_.bearings.size(); ++i) {
    const Bearing& other = all_.bearings[i];
    if (other.member == me.member || all_.members[other.member].kind != member.kind ||
        other.onto.has_value() != me.onto.has_value() || handed_[other.member].size() != from_above.size())
      continue;
    // On more than two bearings: the same one of as many, in the same places.
    const auto here = places_of(member), there = places_of(all_.members[other.member]);
    const bool clear = member.clear || all_.members[other.member].clear;
    if (here.size() != there.size() || ((here.size() > 2 || clear) && seats_[i].place != seats_[b].place)) continue;
    if (!std::equal(here.begin(), here.end(), there.begin(),
                    [](Length x, Length y) { return apart(x, y) <= same_place; }))
      continue;
    const Area more = held_[other.member] > held_[me.member] ? held_[other.member] - held_[me.member]
                                                             : held_[me.member] - held_[other.member];
    if (more > same_place * span_of(me.member)) continue;
    const std::string like = symbol(i);
    const auto told = std::find_if(w->steps.begin(), w->steps.end(), [&](const Step& s) {
      return s.symbol == like && (is_plain(me.member) ? s.kind == StepKind::formula : s.kind != StepKind::given);
    });
    if (told == w->steps.end()) continue;
    if (std::abs(told->result.si - value(known).si) > 1e-9 * std::abs(told->result.si)) continue;
    w->heading(fmt::format("The roof lifts: {} like one above", plural(words(member.kind))));
    return given(
        w, own,
        fmt::format("net uplift at {}, an equal {}", me.words,
                    from_above.empty() ? "strip under equal pressures" : "part of the roof and equal loads on it"),
        known, "as " + like);
  }
  for (const Handed& h : from_above) uplift(c, h.bearing, w);
  w->heading(heading);
  if (turned_by_face(c, b, false, nullptr).empty()) return worse(c, b, false, own, w);
  const Force level = worse(c, b, false, own + ",t", w);
  w->heading(heading);
  std::vector<As<Force>> rows{as(own + ",t", level)};
  for (As<Force>& f : turned_by_face(c, b, false, w)) rows.push_back(std::move(f));
  return total<Force>(w, own, fmt::format("net uplift at the bearing, with the wind on the upright face{}", suffix(b)),
                      "sum", rows);
}

bool RoofForces::has_upright_face() const {
  return std::any_of(shape_.lines.begin(), shape_.lines.end(),
                     [](const RoofLine& l) { return l.kind == RoofLineKind::high_edge && l.from_up > zero<Length>(); });
}

std::vector<As<Force>> RoofForces::turned_by_face(std::size_t c, std::size_t b, bool press, Working* w) const {
  std::vector<As<Force>> rows;
  const std::size_t m = seats_[b].member;
  const Member& member = all_.members[m];
  const auto edge = std::find_if(shape_.lines.begin(), shape_.lines.end(),
                                 [](const RoofLine& l) { return l.kind == RoofLineKind::high_edge; });
  if (member.kind != MemberKind::half || edge == shape_.lines.end()) return rows;
  const Length high = edge->from_up, span = span_of(m);
  if (!(high > zero<Length>())) return rows;
  std::optional<Strip> held;
  for (const std::size_t i : member.bearings)
    for (const Foot& f : all_.bearings[i].feet)
      if (house_.walls[f.wall].outside && house_.walls[f.wall].side == shape_.high) held = {f.from, f.to};
  if (member.clear && member.clear->side == shape_.high) held = {member.clear->from, member.clear->to};
  if (!held) return rows;
  const auto& f = press ? of(c).down : of(c).combination;
  for (const SquareOn& s : of(c).square_on) {
    const Length from = std::max(held->from, s.from), to = std::min(held->to, s.to);
    if (s.side != shape_.high || !(to > from)) continue;
    if (!w) {
      rows.push_back(as("", formulas::face_turns(nullptr, f.wind, s.p, to - from, high, span)));
      continue;
    }
    const std::string n = fmt::format("{}.{}", number(b), rows.size() + 1);
    const std::string own = (press ? "NP_" : "N_") + n;
    given(w, "h_f", "height of the upright face above the high wall", high, along_source(m));
    given(w, "b_f" + n, "width of it that this truss holds", to - from, along_source(m));
    rows.push_back(as(
        own, formulas::face_turns.told(w, own, "moments", as(press ? "f_W" : "f_w", f.wind), as("p_sq," + s.label, s.p),
                                       as("b_f" + n, to - from), as("h_f", high), as(span_symbol(m), span))));
  }
  return rows;
}

Force RoofForces::exact_uplift(std::size_t c, std::size_t b) const { return memo(c).exact[b]; }

Force RoofForces::press(std::size_t c, std::size_t b, Working* w) const {
  const Force known = memo(c).pressed[b];
  const Force used = known > zero<Force>() ? known : zero<Force>();
  if (!w) return used;
  const std::string own = press_symbol(b);
  if (of(c).down.name.empty())
    return given(w, own, "no combination in hand for what presses down", zero<Force>(), "the method");
  // Told before it is cut off at zero: what stands on another member is handed on whole.
  const std::function<void(std::size_t)> tell = [&](std::size_t i) {
    if (!w->first(fmt::format("press {}", i))) return;
    for (const Handed& h : handed_[seats_[i].member]) tell(h.bearing);
    w->heading(fmt::format("The roof presses: {}", all_.bearings[i].words));
    const std::string own_n = press_symbol(i) + ",n";
    if (turned_by_face(c, i, true, nullptr).empty()) {
      worse(c, i, true, own_n, w);
      return;
    }
    std::vector<As<Force>> rows{as(own_n + "t", worse(c, i, true, own_n + "t", w))};
    for (As<Force>& f : turned_by_face(c, i, true, w)) rows.push_back(std::move(f));
    total<Force>(w, own_n, "what presses on the bearing, with the wind on the upright face", "sum", rows);
  };
  tell(b);
  if (known > zero<Force>())
    return greatest<Force>(w, own, "what presses on the bearing", "statics", {as(own + ",n", known)});
  given(w, "nothing", "lifted: nothing presses", zero<Force>(), "statics");
  return greatest<Force>(w, own, "what presses on the bearing, not below nothing", "statics",
                         {as(own + ",n", known), as("nothing", zero<Force>())});
}

std::string RoofForces::most_press_symbol(std::size_t b) const { return "Pm_" + number(b); }

// By moments, the level part of each piece of the wind held at the foot or at the head, whichever presses more.
Force RoofForces::most_press(std::size_t c, std::size_t b, Working* w) const {
  const Combination& f = of(c).down;
  const Seat& seat = seats_[b];
  const auto& pieces = pieces_[of(c).layout][seat.member];
  const auto& from_above = handed_[seat.member];
  const std::string n = w ? number(b) : std::string(), symbol = w ? most_press_symbol(b) : std::string();
  std::vector<As<Force>> held;  // what more comes of those that press on it
  if (w)
    for (const Handed& h : from_above) most_press(c, h.bearing, w);
  if (w) w->heading(fmt::format("The roof presses at most: {}", all_.bearings[b].words));
  if (w) {
    given(w, "f_W", fmt::format("factor on the wind, {}", f.name), f.wind, f.source);
    given(w, "f_G", fmt::format("factor on weight that presses, {}", f.name), f.dead, f.source);
  }
  const Numbers numbers = w ? tell_measures(c, b, true, w) : Numbers{};
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Piece& p = pieces[i];
    const Pressure q = net(c, p.zone, seat.member);
    const double turn = facing_here(seat, p);
    const Surface& on = surface(p);
    if (on.part == Part::soffit || !(q > zero<Pressure>()) || turn == 0.0) continue;
    if (!w) {
      held.push_back(as("", formulas::held_at_its_head(nullptr, f.wind, q, p.a, turn, on.slope)));
      continue;
    }
    const std::string of_piece = fmt::format("{}{}", prefix(b), numbers.wind[i]),
                      own = fmt::format("L_{}.{}", n, i + 1);
    given(w, "kf_" + of_piece, "how far the slope falls along the member", turn, "geometry");
    held.push_back(as(own, formulas::held_at_its_head.told(
                               w, own, "moments", f.wind, as(net_symbol(c, p.zone, seat.member), q),
                               as("A_" + of_piece, p.a), as("kf_" + of_piece, turn), as(pitch_symbol(on), on.slope))));
  }
  const Force wind = memo(c).wind_down[b][How::by_moments], dead = dead_pressing_[b][How::by_moments];
  std::vector<As<Force>> rows;
  if (w) {
    const std::string w_n = "W_" + n, g_n = "G_" + n;
    total<Force>(w, w_n, "wind on this member, at this bearing, upwards", "sum",
                 wind_rows(c, b, How::by_moments, Count::what_presses, numbers, *w));
    total<Force>(w, g_n, "greatest weight on this member, at this bearing", "sum",
                 dead_rows(b, How::by_moments, true, Count::what_presses, numbers, *w));
    rows.push_back(as(symbol + ",o", formulas::net_press.told(w, symbol + ",o", f.source, f.dead, as(g_n, dead), f.wind,
                                                              as(w_n, wind))));
  } else {
    rows.push_back(as("", formulas::net_press(nullptr, f.dead, dead, f.wind, wind)));
  }
  rows.insert(rows.end(), held.begin(), held.end());
  for (const Handed& h : from_above) {
    const Force there =
        handed(b, How::by_moments, h, most_press(c, h.bearing), w ? most_press_symbol(h.bearing) : std::string(), w);
    rows.push_back(as(w ? fmt::format("H_{}.{}", n, number(h.bearing)) : std::string(), there));
  }
  const Force sum = total<Force>(w, w ? symbol + ",n" : symbol, "what presses on the bearing, at most", "sum", rows);
  if (!w) return std::max(sum, zero<Force>());
  if (sum >= zero<Force>())
    return greatest<Force>(w, symbol, "what presses on the bearing, at most", "statics", {as(symbol + ",n", sum)});
  given(w, "nothing", "lifted: nothing presses", zero<Force>(), "statics");
  return greatest<Force>(w, symbol, "what presses on the bearing at most, not below nothing", "statics",
                         {as(symbol + ",n", sum), as("nothing", zero<Force>())});
}

// As `pressed` without wind; what stands on the member never as relief.
Force RoofForces::weighs(std::size_t b, How how) const {
  Force sum = dead_pressing_[b][how];
  for (const bool sticks_out : {false, true})
    sum += std::max(-carried_on(0, b, how, 0.0, 1.0, true, sticks_out), zero<Force>());
  for (const Handed& h : handed_[seats_[b].member])
    sum += std::max(handed(b, how, h, greatest_weight(h.bearing), {}, nullptr), zero<Force>());
  return sum;
}
Force RoofForces::greatest_weight(std::size_t b) const {
  const Seat& seat = seats_[b];
  const bool over_all = continuous(seat.member), inside = !seat.first && !seat.last;
  Force most = over_all && inside ? zero<Force>() : weighs(b, How::by_moments);
  if (over_all) most = std::max(most, weighs(b, How::as_one_beam));
  return std::max(most, zero<Force>());
}

std::vector<Piece_of_demand> RoofForces::uplift_made_of(std::size_t c, std::size_t b) const {
  const Seat& seat = seats_[b];
  const std::string& here = all_.bearings[b].words;
  const auto& f = of(c).combination;
  const auto& space = all_.members[seat.member].space;
  const How how = deciding(c, b);
  Force slopes = zero<Force>(), past = zero<Force>(), soffits = zero<Force>(), lever = zero<Force>(),
        out = zero<Force>();
  for (const Piece& p : pieces_[of(c).layout][seat.member]) {
    const Force row = wind_row(c, b, how, p, seat.member, {}, 0, nullptr);
    if (!counts(b, p, row, Count::what_lifts)) continue;
    const Force lift = f.wind * row;
    const Part part = surface(p).part;
    (p.sticks_out && part != Part::soffit ? out
     : part == Part::roof                 ? slopes
     : part == Part::overhang             ? past
                                          : soffits) += lift;
    if (p.past_end && space) lever += formulas::outrigger(nullptr, lift, p.past, *space);
  }
  std::vector<Piece_of_demand> r{{"wind on the slopes over the house", here, slopes},
                                 {"wind on eaves and verges, from above", here, past}};
  if (out != zero<Force>()) r.push_back({"wind on what sticks out past the bearing set back", here, out});
  if (soffits != zero<Force>()) r.push_back({"wind under the soffits", here, soffits});
  if (lever != zero<Force>()) r.push_back({"lever of the verge on the first space", here, lever});
  const bool lifts = weight_lifts(c, b, how);
  const double factor = lifts ? of(c).down.dead : f.dead;
  r.push_back({fmt::format("{} of the roof's {}weight", factor, lifts ? "greatest " : ""), here,
               -factor * (lifts ? dead_held_greatest_ : dead_held_)[b][how]});
  if (const Force tips = dead_tips_[b][how]; tips < zero<Force>())
    r.push_back({fmt::format("{} of the greatest weight past the bearing set back", tipping_factor(c)), here,
                 formulas::tipped_by_weight(nullptr, tipping_factor(c), tips)});
  Force recess = zero<Force>();
  for (const As<Force>& x : from_the_recess(c, b, how, nullptr)) recess += x.quantity;
  if (recess != zero<Force>()) r.push_back({"wind in the recess below", here, recess});
  Force turned = zero<Force>();
  for (const As<Force>& face : turned_by_face(c, b, false, nullptr)) turned += face.quantity;
  if (turned != zero<Force>()) r.push_back({"wind on the face above the high wall", here, turned});
  const Force extra = added_by_verge(c, b, how, Count::what_lifts);
  if (extra > zero<Force>()) r.push_back({"other end of a verge's lever", here, extra});
  // What stands on it, by mark and kind: a girder has many jacks.
  const std::size_t own = r.size();
  std::vector<std::size_t> counted;
  for (const Handed& h : handed_[seat.member]) {
    if (no_relief(c, b, how, h)) continue;
    const Member& there = all_.members[all_.bearings[h.bearing].member];
    const Force share = handed(b, how, h, memo(c).uplift[h.bearing], {}, nullptr);
    const std::string what = fmt::format("{} {} that stand on it", plural(words(there.kind)), there.mark);
    std::size_t i = own;
    while (i < r.size() && r[i].what != what) ++i;
    if (i == r.size()) {
      r.push_back({what, there.words, zero<Force>()});
      counted.push_back(0);
    }
    r[i].value += share;
    if (++counted[i - own] > 1) r[i].from = fmt::format("{} of them", counted[i - own]);
  }
  return r;
}

}  // namespace belay
