#include "load_path/roof_bracing.hpp"

#include "load_path/formulas_roof_bracing.hpp"
#include "units/sizes.hpp"

#include <algorithm>

namespace belay {

namespace {

constexpr std::string_view how_many_count = "straps that pull in this sense and count";
constexpr Side all_sides[]{Side::left, Side::front, Side::right, Side::back};

bool along_ridge(const Shape& s, Way way) { return is_across(way) == (s.ridge == Along::across); }
bool one_slope(const Shape& s) { return s.roof == RoofShape::skillion || s.roof == RoofShape::flat; }
std::size_t index(Sense s) { return s == Sense::plus ? 0 : 1; }
std::size_t index(Side side) { return static_cast<std::size_t>(side); }
Side face_of(const Push& push) { return side_facing(opposite(push.towards)); }

// Level, from a slope's wall to where the slope ends above.
Length to_the_top(const Shape& s, Side slope) { return one_slope(s) ? s.span : s.at(slope).meets; }

// Of the roof above the bearings, where it crosses the end walls: the lowest of the slopes.
Length roof_above(const Shape& s, Length along) {
  Length lowest = everywhere;
  for (const Side side : all_sides) {
    if (!s.at(side).slopes || along_ridge(s, outward(side))) continue;
    const bool from_start = side == Side::left || side == Side::front;
    lowest = std::min(lowest, (from_start ? along : s.span - along) * tangent(s.at(side).pitch));
  }
  return lowest;
}
// What is drawn past the roof's line stands for a wind that sweeps along the house, not for one that meets a gable.
bool stands_out(const Shape& s, const Polygon& part) {
  return std::any_of(part.begin(), part.end(),
                     [&](const Point& p) { return p.y - s.wall_height > roof_above(s, p.x) + same_place; });
}

Length lowest(const Polygon& g) {
  Length r = everywhere;
  for (const Point& p : g) r = std::min(r, p.y);
  return r;
}
Length highest(const Polygon& g) {
  Length r = -everywhere;
  for (const Point& p : g) r = std::max(r, p.y);
  return r;
}
// Whether the wind of this case blows on to an end wall.
bool meets_an_end(const Shape& s, const LoadCase& c) {
  return std::any_of(c.push.begin(), c.push.end(), [&](const Push& p) {
    return along_ridge(s, p.towards) && p.p > zero<Pressure>() && lowest(p.part) < s.racking_from;
  });
}
// On the level over its whole breadth.
bool stands_on(Length level, const Polygon& g) {
  const auto breadth = [&](bool at_foot) {
    Length from = everywhere, to = -everywhere;
    for (const Point& p : g) {
      if (at_foot && p.y > level + same_place) continue;
      from = std::min(from, p.x);
      to = std::max(to, p.x);
    }
    return to - from;
  };
  return breadth(true) >= breadth(false) - same_place;
}
// Over its whole breadth all of the roof's elevation from the ceiling to that level: each upright strip of it has one
// pressure.
bool fills_columns(const Shape& s, Length level, const Polygon& g) {
  return stands_on(s.wall_height, g) && std::all_of(g.begin(), g.end(), [&](const Point& p) {
           const Length up = p.y - s.wall_height;
           return up <= same_place || up >= std::min(roof_above(s, p.x), level) - same_place;
         });
}
// How far in from a hip end's wall its girder stands: of the trusses the outermost there.
Length girder_in_from(const House& h, const Shape& s, Side end) {
  return end == Side::left || end == Side::front ? h.trusses.front().at : s.length - h.trusses.back().at;
}

}  // namespace

Length StrapLine::length() const { return square_root<si::length>(Area(along * along + up * up)); }

StrapLine line_of(const Shape& s, const RoofBrace& b, Working* w) {
  const bool to_top = !b.up_to;
  StrapLine r{};
  r.along = given(w, "a", "from its foot to its head along the ridge", apart(b.head, b.foot), "the job");
  r.level = given(
      w, "d", to_top ? "level, from the wall to its head at the top of the slope" : "level, from the wall to its head",
      to_top ? to_the_top(s, b.slope) : *b.up_to, to_top ? "measured from the job" : "the job");
  const Angle pitch = given(w, "theta_r", "pitch of this slope", s.at(b.slope).pitch, "the job's roof");
  r.up = formulas::up_the_slope(w, r.level, pitch);
  r.to_ridge = formulas::angle_to_ridge(w, r.up, r.along);
  return r;
}

RoofBracing::RoofBracing(const House& h, const Shape& s, const Loads& l, const Table& practice, bool cyclonic)
    : house_(h), shape_(s), loads_(l), practice_(practice), cyclonic_(cyclonic) {
  if (h.roof_braces.empty()) return;
  for (const Side side : all_sides) {
    if (!s.at(side).slopes || along_ridge(s, outward(side))) continue;
    planes.push_back({side, -everywhere, everywhere, {}});
  }
  // Two slopes meet at the ridge: one place for both, so that their parts of a gable are all of it.
  if (planes.size() == 2) planes[0].to = planes[1].from = to_the_top(s, planes[0].slope);
  for (std::size_t i = 0; i < h.roof_braces.size(); ++i) {
    const RoofBrace& b = h.roof_braces[i];
    const auto plane =
        std::find_if(planes.begin(), planes.end(), [&](const RoofPlane& p) { return p.slope == b.slope; });
    if (plane == planes.end()) throw std::logic_error("a roof brace in a slope that is not there");
    const StrapBrace* strap = find(h.fixings.straps, b.fixing.name);
    const StrapLine line = line_of(s, b);
    straps.push_back({static_cast<std::size_t>(plane - planes.begin()), line, strap != nullptr && strap->pair,
                      b.head > b.foot ? Sense::plus : Sense::minus,
                      roof_strap_capacity(h, b, line.to_ridge, practice, cyclonic, "", nullptr)});
    plane->straps.push_back(i);
  }
  for (const Side end : all_sides)
    if (s.roof == RoofShape::hip && s.at(end).slopes && along_ridge(s, outward(end)))
      girder_levels_[index(end)] = std::min(girder_in_from(h, s, end), s.at(end).meets) * tangent(s.at(end).pitch);
  for (std::size_t c = 0; c < l.cases.size(); ++c) {
    std::vector<std::array<Force, 2>> of_case;
    for (std::size_t p = 0; p < planes.size(); ++p) {
      std::array<Force, 2> both{};
      for (const Sense sense : senses) {
        Force sum = zero<Force>();
        for (const Row& row : rows(c, p, sense)) sum += row.value;
        both[index(sense)] = std::max(sum, zero<Force>());
      }
      of_case.push_back(both);
    }
    along_.push_back(std::move(of_case));
  }
}

bool RoofBracing::works(std::size_t strap, Sense s) const { return straps[strap].pair || straps[strap].leans == s; }
bool RoofBracing::counts(std::size_t strap, Sense s) const {
  return works(strap, s) && straps[strap].capacity.refused.empty();
}
bool RoofBracing::may_count(std::size_t strap, Sense s) const {
  return counts(strap, s) || (works(strap, s) && straps[strap].capacity.refused == "condition-not-stated");
}
std::vector<std::size_t> RoofBracing::that_count(std::size_t plane, Sense s) const {
  std::vector<std::size_t> r;
  for (const std::size_t i : planes[plane].straps)
    if (counts(i, s)) r.push_back(i);
  return r;
}
std::vector<std::size_t> RoofBracing::that_may_count(std::size_t plane, Sense s) const {
  std::vector<std::size_t> r;
  for (const std::size_t i : planes[plane].straps)
    if (may_count(i, s)) r.push_back(i);
  return r;
}
bool RoofBracing::alike(const std::vector<std::size_t>& list) const {
  return std::all_of(list.begin(), list.end(), [&](std::size_t i) {
    return house_.roof_braces[i].fixing.name == house_.roof_braces[list.front()].fixing.name;
  });
}

// ---- the wind along a slope -----------------------------------------------------------------------------------------

// Of a face's elevation: up to where the jacks of a hip end span. A method that pushes one face alone speaks of both
// ends at once.
std::optional<Length> RoofBracing::girder_level(const LoadCase& c, Side face) const {
  const auto pushes = [&](Side side) {
    return std::any_of(c.push.begin(), c.push.end(), [&](const Push& p) { return p.block == 0 && face_of(p) == side; });
  };
  const Side other = side_facing(opposite(outward(face)));
  const std::optional<Length>&own = girder_levels_[index(face)], &beyond = girder_levels_[index(other)];
  if (!beyond || pushes(other)) return own;
  return own ? std::min(*own, *beyond) : beyond;
}

std::vector<RoofBracing::Row> RoofBracing::rows(std::size_t c, std::size_t plane, Sense s) const {
  std::vector<Row> r;
  const LoadCase& k = loads_.cases[c];
  const auto add = [&](const Push& push, Polygon part, On on, Length level = everywhere) {
    if (part.empty()) return;
    const bool positive = push.towards == Way::right || push.towards == Way::back;
    const bool halved = on == On::below_girder && fills_columns(shape_, level, part);
    std::string label = push.block == 0 ? push.label : fmt::format("{},{}", push.label, name_of(house_, push.block));
    r.push_back({push.what, std::move(label), push.p, std::move(part), positive, halved, on, zero<Force>()});
  };
  for (const Push& push : k.push) {
    if (push.ceiling != 0 || !along_ridge(shape_, push.towards)) continue;
    Polygon g = between_x(between_y(push.part, shape_.wall_height, everywhere), planes[plane].from, planes[plane].to);
    if (g.empty()) continue;
    const std::optional<Length> level = girder_level(k, face_of(push));
    if (push.block != 0) {
      add(push, std::move(g), On::wing);
    } else if (stands_out(shape_, push.part)) {
      add(push, std::move(g), On::swept);
    } else if (!level) {
      add(push, std::move(g), On::gable);
    } else {
      const Length girder = shape_.wall_height + *level;
      if (lowest(g) >= girder - same_place) {
        add(push, std::move(g), On::above_girder);
      } else {
        if (highest(g) > girder + same_place) add(push, between_y(g, girder, everywhere), On::above_girder);
        add(push, between_y(g, -everywhere, girder), On::below_girder, *level);
      }
    }
  }
  find_stronger(r, s);
  const double f = k.combination.wind;
  for (Row& row : r) { row.value = to_slope(row, f, row.positive != (s == Sense::plus), 0, nullptr).quantity; }
  const bool meets = meets_an_end(shape_, k);
  std::erase_if(r, [&](const Row& row) {
    if (!(row.value < zero<Force>())) return false;
    if (row.on == On::wing) return meets;
    return of_hip_end(row.on) && (meets || !(row.on == On::above_girder || row.surely_half));
  });
  return r;
}
// Where the wind on a strip of the end, from the wall to the girder, is nowhere stronger than lower down, the girder
// has no more than half of it. Of each face on its own.
void RoofBracing::find_stronger(std::vector<Row>& r, Sense s) const {
  const auto with = [&](const Row& row) { return row.positive == (s == Sense::plus) ? row.p : -row.p; };
  std::vector<std::size_t> stronger;
  for (std::size_t i = 0; i < r.size(); ++i) {
    if (r[i].on != On::below_girder || !(with(r[i]) > zero<Pressure>())) continue;
    if (stands_on(shape_.wall_height, r[i].part)) continue;
    bool over_another = false, over_weaker = false;
    for (const Row& other : r) {
      if (other.on != On::below_girder || other.positive != r[i].positive || &other == &r[i]) continue;
      if (!stands_on(shape_.wall_height, other.part) && !(lowest(other.part) < lowest(r[i].part))) continue;
      over_another = true;
      over_weaker = over_weaker || with(other) < with(r[i]);
    }
    if (!over_another || over_weaker) stronger.push_back(i);
  }
  for (const std::size_t i : stronger) r[i].on = On::stronger;
}

Force RoofBracing::plane_force(std::size_t c, std::size_t plane) const {
  const auto [plus, minus] = along_[c][plane];
  return plus < minus ? -minus : plus;
}

// number: of it among the rows of its slope, in the working.
As<Force> RoofBracing::to_slope(const Row& row, double f, bool against, std::size_t number, Working* w) {
  const auto p = as(w ? "p_" + row.label : std::string(), row.p);
  const auto a = as(w ? fmt::format("A_{}", number) : std::string(), row.area());
  const std::string own = w ? fmt::format("F_{}", number) : std::string();
  const auto tell = [&](const auto& with, const auto& turned) {
    return as(own, against ? turned.told(w, own, turned.source, f, p, a) : with.told(w, own, with.source, f, p, a));
  };
  if (row.on == On::swept) return tell(formulas::swept_to_slope, formulas::swept_to_slope_against);
  if (row.on == On::wing) return tell(formulas::wing_to_slope, formulas::wing_to_slope_against);
  if (row.on == On::gable) return tell(formulas::gable_to_slope, formulas::gable_to_slope_against);
  return is_halved(row.on) ? tell(formulas::hip_end_to_slope, formulas::hip_end_to_slope_against)
                           : tell(formulas::hip_end_whole, formulas::hip_end_whole_against);
}

// Told in the sense in which it acts, so that P is positive.
Force RoofBracing::plane_force(std::size_t c, std::size_t plane, Sense s, Working* w) const {
  const Force along = along_[c][plane][index(s)];
  if (!w || !(along > zero<Force>())) return along;
  const std::string_view side = words(planes[plane].slope);
  w->heading(fmt::format("What the {} slope has to hold along the ridge", side));
  const std::vector<Row> list = rows(c, plane, s);
  const double f =
      given(w, "f_w", "factor on the wind", loads_.cases[c].combination.wind, loads_.cases[c].combination.source);
  const auto where = [](On on) -> std::string_view {
    switch (on) {
      case On::gable: return "above the ceiling, on this slope's side";
      case On::swept: return "on this slope's side";
      case On::below_girder: return "from the ceiling to the hip girder's level, on this slope's side";
      case On::stronger:
        return "below the hip girder's level, where the wind is stronger than lower down, on this side";
      case On::above_girder: return "above the hip girder's level, on this slope's side";
      case On::wing: return "on what lies on this slope, above the main roof's outline";
    }
    return "";
  };
  for (std::size_t i = 0; i < list.size(); ++i)
    given(w, fmt::format("A_{}", i + 1), fmt::format("{}: {}", where(list[i].on), list[i].what), list[i].area(),
          "measured from the job");
  std::vector<As<Force>> told;
  for (std::size_t i = 0; i < list.size(); ++i)
    told.push_back(to_slope(list[i], f, list[i].positive != (s == Sense::plus), i + 1, w));
  return total<Force>(w, "P", fmt::format("force along the ridge in the {} slope", side), "sum", told);
}

std::vector<Piece_of_demand> RoofBracing::plane_made_of(std::size_t c, std::size_t plane, Sense s) const {
  std::vector<Piece_of_demand> r;
  if (!(plane_force(c, plane, s) > zero<Force>())) return r;
  for (const Row& row : rows(c, plane, s)) {
    std::string what = row.on == On::swept  ? row.what
                       : row.on == On::wing ? fmt::format("all of the wind on what lies on it: {}", row.what)
                       : is_halved(row.on)  ? fmt::format("half of the wind on its side: {}", row.what)
                                            : fmt::format("all of the wind on its side, high up: {}", row.what);
    const auto same = std::find_if(r.begin(), r.end(), [&](const Piece_of_demand& p) { return p.what == what; });
    if (same != r.end()) same->value += row.value;
    else r.push_back({std::move(what), loads_.cases[c].wind, row.value});
  }
  return r;
}

// ---- the straps -----------------------------------------------------------------------------------------------------

// A strap's own in the working of several.
std::string RoofBracing::symbol_of_strength(std::size_t strap) const {
  const auto& list = planes[straps[strap].plane].straps;
  return fmt::format("C_{}", std::find(list.begin(), list.end(), strap) - list.begin() + 1);
}
Force RoofBracing::holds(std::size_t strap, Working* w) const {
  if (!w) return straps[strap].capacity.holds;
  const RoofBrace& b = house_.roof_braces[strap];
  return roof_strap_capacity(house_, b, straps[strap].line.to_ridge, practice_, cyclonic_, "C_b", w).holds;
}
std::optional<Force> RoofBracing::holds_counted(std::size_t strap) const {
  const RoofStrapCapacity& c = straps[strap].capacity;
  if (!c.refused.empty() && c.refused != "condition-not-stated") return zero<Force>();
  return c.holds > zero<Force>() ? std::optional(c.holds) : std::nullopt;
}
void RoofBracing::tell_angle(std::size_t strap, Working& w) const {
  w.heading(fmt::format("The angle of roof brace {}", house_.roof_braces[strap].name));
  line_of(shape_, house_.roof_braces[strap], &w);
}
// Straps that differ, each told under its own symbol.
Force RoofBracing::together(const std::vector<std::size_t>& list, Working* w) const {
  std::vector<As<Force>> each;
  for (const std::size_t i : list) {
    const std::string symbol = w ? symbol_of_strength(i) : std::string();
    if (w) roof_strap_capacity(house_, house_.roof_braces[i], straps[i].line.to_ridge, practice_, cyclonic_, symbol, w);
    each.push_back(as(symbol, straps[i].capacity.holds));
  }
  return total<Force>(w, "C_n", "what these straps hold together", "sum", each);
}

Force RoofBracing::plane_holds(std::size_t plane, Sense s, Working* w) const {
  const std::vector<std::size_t> list = that_count(plane, s);
  if (list.empty()) return zero<Force>();
  const std::size_t steepest = *std::max_element(list.begin(), list.end(), [&](std::size_t a, std::size_t b) {
    return straps[a].line.to_ridge < straps[b].line.to_ridge;
  });
  if (w) w->heading(fmt::format("What the straps of the {} slope can hold", words(planes[plane].slope)));
  Force all = zero<Force>();
  if (alike(list)) {
    const double n = given(w, "n", how_many_count, static_cast<double>(list.size()), "the job");
    all = formulas::straps_alike(w, n, as("C_b", holds(list.front(), w)));
  } else {
    all = together(list, w);
  }
  if (w) w->heading(fmt::format("The steepest strap: {}", house_.roof_braces[steepest].name));
  const Angle psi = line_of(shape_, house_.roof_braces[steepest], w).to_ridge;
  return formulas::slope_holds(w, all, psi);
}

Sense RoofBracing::pulled_in(std::size_t c, std::size_t strap) const {
  const auto [plus, minus] = along_[c][straps[strap].plane];
  if (!straps[strap].pair) return straps[strap].leans;
  return plus < minus ? Sense::minus : Sense::plus;
}

Force RoofBracing::share(std::size_t c, std::size_t strap, Working* w) const {
  const std::size_t plane = straps[strap].plane;
  const Sense s = pulled_in(c, strap);
  if (!may_count(strap, s) || !(plane_force(c, plane, s) > zero<Force>())) return zero<Force>();
  const Force p = plane_force(c, plane, s, w);
  const bool sure = counts(strap, s);
  const std::vector<std::size_t> list = sure ? that_count(plane, s) : that_may_count(plane, s);
  if (w) w->heading(fmt::format("The share of roof brace {}", house_.roof_braces[strap].name));
  if (!sure || alike(list)) {
    const double n = given(w, "n", sure ? how_many_count : "straps that pull in this sense and may count",
                           static_cast<double>(list.size()), "the job");
    return formulas::even_share(w, p, n);
  }
  const Force all = together(list, w);
  return formulas::share_by_strength(
      w, p, as(w ? symbol_of_strength(strap) : std::string(), straps[strap].capacity.holds), all);
}

Force RoofBracing::tension(std::size_t c, std::size_t strap, Working* w) const {
  const Force along = share(c, strap, w);
  if (!(along > zero<Force>())) return zero<Force>();
  if (w) w->heading(fmt::format("The tension in roof brace {}", house_.roof_braces[strap].name));
  const Angle psi = line_of(shape_, house_.roof_braces[strap], w).to_ridge;
  return formulas::strap_tension(w, along, psi);
}

RoofBracing::Foot_pull RoofBracing::foot_pull(std::size_t c, std::size_t strap, Working* w) const {
  const Force t = tension(c, strap, nullptr), along = share(c, strap, nullptr);
  const Force nothing = zero<Force>();
  if (!(t > nothing)) return {nothing, nothing, nothing};
  if (w) w->heading(fmt::format("What roof brace {} does at its foot", house_.roof_braces[strap].name));
  const Angle psi = straps[strap].line.to_ridge, pitch = shape_.at(house_.roof_braces[strap].slope).pitch;
  const Force up = formulas::pull_up_the_slope(w, t, psi);
  return {along, formulas::foot_across(w, up, as("theta_r", pitch)), formulas::foot_lift(w, up, as("theta_r", pitch))};
}

}  // namespace belay
