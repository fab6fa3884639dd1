#include "load_path/roof_bracing.hpp"

#include "load_path/formulas_roof_bracing.hpp"

#include <algorithm>

namespace belay {

namespace {

constexpr std::string_view how_many_count = "straps that pull in this sense and count";
constexpr Side all_sides[]{Side::left, Side::front, Side::right, Side::back};

Length apart(Length a, Length b) { return a > b ? a - b : b - a; }
bool along_ridge(const Shape& s, Way way) { return is_across(way) == (s.ridge == Along::across); }
bool one_slope(const Shape& s) { return s.roof == RoofShape::skillion || s.roof == RoofShape::flat; }
Sense sense_of(Force f) { return f < zero<Force>() ? Sense::minus : Sense::plus; }
Force size(Force f) { return f < zero<Force>() ? -f : f; }

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
  for (std::size_t c = 0; c < l.cases.size(); ++c) {
    std::vector<Force> of_case;
    for (std::size_t p = 0; p < planes.size(); ++p) {
      Force sum = zero<Force>();
      for (const Row& row : rows(c, p)) sum += row.value;
      of_case.push_back(sum);
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

std::vector<RoofBracing::Row> RoofBracing::rows(std::size_t c, std::size_t plane) const {
  std::vector<Row> r;
  const double f = loads_.cases[c].combination.wind;
  for (const Push& push : loads_.cases[c].push) {
    if (!along_ridge(shape_, push.towards)) continue;
    const Polygon g =
        between_x(between_y(push.part, shape_.wall_height, everywhere), planes[plane].from, planes[plane].to);
    if (g.empty()) continue;
    const Area a = area(g);
    const bool positive = push.towards == Way::right || push.towards == Way::back;
    const bool whole = stands_out(shape_, push.part);
    const Force to_it =
        whole ? formulas::swept_to_slope(nullptr, f, push.p, a) : formulas::gable_to_slope(nullptr, f, push.p, a);
    r.push_back({push.what, push.label, push.p, a, positive, whole, positive ? to_it : -to_it});
  }
  return r;
}

// Told in the sense in which it acts, so that P is positive.
Force RoofBracing::plane_force(std::size_t c, std::size_t plane, Sense s, Working* w) const {
  const Force along = plane_force(c, plane);
  if (sense_of(along) != s) return zero<Force>();
  if (!w) return size(along);
  const std::string_view side = words(planes[plane].slope);
  w->heading(fmt::format("What the {} slope has to hold along the ridge", side));
  const std::vector<Row> list = rows(c, plane);
  const double f =
      given(w, "f_w", "factor on the wind", loads_.cases[c].combination.wind, loads_.cases[c].combination.source);
  for (std::size_t i = 0; i < list.size(); ++i)
    given(w, fmt::format("A_{}", i + 1),
          list[i].whole ? fmt::format("on this slope's side: {}", list[i].what)
                        : fmt::format("above the ceiling, on this slope's side: {}", list[i].what),
          list[i].area, "measured from the job");
  std::vector<As<Force>> told;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const Row& row = list[i];
    const bool against = row.positive != (s == Sense::plus);
    const auto p = as("p_" + row.label, row.p);
    const auto a = as(fmt::format("A_{}", i + 1), row.area);
    const std::string own = fmt::format("F_{}", i + 1);
    const auto tell = [&](const auto& formula) { return formula.told(w, own, formula.source, f, p, a); };
    told.push_back(as(own, row.whole
                               ? (against ? tell(formulas::swept_to_slope_against) : tell(formulas::swept_to_slope))
                               : (against ? tell(formulas::gable_to_slope_against) : tell(formulas::gable_to_slope))));
  }
  return total<Force>(w, "P", fmt::format("force along the ridge in the {} slope", side), "sum", told);
}

std::vector<Piece_of_demand> RoofBracing::plane_made_of(std::size_t c, std::size_t plane, Sense s) const {
  std::vector<Piece_of_demand> r;
  if (sense_of(plane_force(c, plane)) != s) return r;
  for (const Row& row : rows(c, plane)) {
    const Force value = s == Sense::plus ? row.value : -row.value;
    std::string what = row.whole ? row.what : fmt::format("half of the wind on its side: {}", row.what);
    const auto same = std::find_if(r.begin(), r.end(), [&](const Piece_of_demand& p) { return p.what == what; });
    if (same != r.end()) same->value += value;
    else r.push_back({std::move(what), loads_.cases[c].wind, value});
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

Force RoofBracing::share(std::size_t c, std::size_t strap, Working* w) const {
  const std::size_t plane = straps[strap].plane;
  const Sense s = sense_of(plane_force(c, plane));
  if (!may_count(strap, s)) return zero<Force>();
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
