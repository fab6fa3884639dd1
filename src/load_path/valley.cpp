#include "load_path/valley.hpp"

#include "load_path/formulas.hpp"
#include "load_path/formulas_valley.hpp"
#include "shape/joined.hpp"

#include <algorithm>

namespace belay {

namespace {

// A strip across the wing, from so far to so far inside the main block's wall.
Window strip(const House& house, const Wing& w, Length from, Length to) {
  const Length all = everywhere;
  const auto window = [](Length x0, Length x1, Length y0, Length y1) {
    return Window{x0, x1, y0, y1, every_way, false, 0};
  };
  switch (w.joint) {
    case Side::back: return window(-all, all, from, to);  // the wing stands at the main block's front
    case Side::front: return window(-all, all, house.up - to, house.up - from);
    case Side::right: return window(from, to, -all, all);
    case Side::left: return window(house.across - to, house.across - from, -all, all);
  }
  return window(-all, all, -all, all);
}

}  // namespace

Valleys::Valleys(const House& h, const Shape& s, const Loads& l, const RoofForces& r)
    : house_(h), shape_(s), loads_(l), roof_(r) {
  const Area nothing = Area::from_value(1e-6);  // a square millimetre is a corner, no part of a roof
  const Units& u = h.print == Print::us ? us : metric;
  for (std::size_t i = 0; i < h.wings.size(); ++i) {
    const Wing& wing = h.wings[i];
    if (!wing.valley) continue;
    const std::vector<Length> at = valley_places(h, i);
    const Length into = shape_of_wing(h, i).into;
    for (std::size_t k = 0; k < at.size(); ++k) {
      const Length from = k == 0 ? 0.5 * at[k] : 0.5 * (at[k - 1] + at[k]),
                   to = k + 1 == at.size() ? into : 0.5 * (at[k] + at[k + 1]);
      const Window across = strip(h, wing, from, to);
      for (std::size_t m = 0; m < roof_.members().size(); ++m) {
        if (roof_.members()[m].block != 0) continue;
        const ValleyCrossing crossing{
            i, at[k], m, fmt::format("{} {} in onto {}", wing.valley->mark, place(at[k], u), roof_.members()[m].words)};
        std::vector<Lot> dead;
        for (std::size_t f = 0; f < s.surfaces.size(); ++f)
          add_lot(dead, crossing, across, 0, f, s.surfaces[f].outline);
        Area all = zero<Area>();
        for (const Lot& lot : dead) all += lot.a;
        if (!(all > nothing)) continue;
        crossings.push_back(crossing);
        dead_.push_back(std::move(dead));
        wind_.resize(l.layouts.size());
        for (std::size_t layout = 0; layout < l.layouts.size(); ++layout) {
          const auto& zones = l.layouts[layout].zones;
          wind_[layout].emplace_back();
          for (std::size_t z = 0; z < zones.size(); ++z)
            add_lot(wind_[layout].back(), crossing, across, z, zones[z].surface, zones[z].part);
        }
      }
    }
  }
}

// What of a polygon of the wing's roof comes to the crossing; nothing of other surfaces.
void Valleys::add_lot(std::vector<Lot>& lots, const ValleyCrossing& x, const Window& across, std::size_t zone,
                      std::size_t surface, const Polygon& part) const {
  const Surface& s = shape_.surfaces[surface];
  if (s.block != x.wing + 1 || !s.over || s.part == Part::soffit) return;
  for (const Window& w : roof_.members()[x.member].carries) {
    if (!holds(w, s)) continue;
    const Polygon g = within(across, within(w, part));
    if (!g.empty()) lots.push_back({zone, surface, area(g)});
  }
}

// The part is small: where pressure falls with the area, that of the small ones.
Pressure Valleys::net(const LoadCase& c, std::size_t zone) const {
  return c.net_small.empty() ? c.net[zone] : c.net_small[zone];
}
Force Valleys::wind(std::size_t c, std::size_t i) const {
  Force sum = zero<Force>();
  const LoadCase& k = loads_.cases[c];
  for (const Lot& p : wind_[k.layout][i]) sum += formulas::valley_lift(nullptr, net(k, p.zone), p.a);
  return sum;
}
Force Valleys::weight(std::size_t i) const {
  Force sum = zero<Force>();
  for (const Lot& p : dead_[i])
    sum += formulas::valley_weight(nullptr, roof_.sure_weight(shape_.surfaces[p.surface], nullptr), p.a);
  return sum;
}

Force Valleys::uplift(std::size_t c, std::size_t i, Working* w) const {
  const LoadCase& k = loads_.cases[c];
  const double fw = k.combination.wind, fd = k.combination.dead;
  if (!w) return formulas::net_uplift(nullptr, fw, wind(c, i), fd, weight(i));
  const ValleyCrossing& x = crossings[i];
  const std::string n = fmt::format("v{}", i + 1), source = "the job's valley trusses";
  w->heading(fmt::format("Lifted off: {}", x.words));
  std::vector<As<Force>> lifts, weights;
  for (const Lot& p : wind_[k.layout][i]) {
    const Zone& z = loads_.layouts[k.layout].zones[p.zone];
    const std::string own = fmt::format("{}.{}", n, lifts.size() + 1),
                      pressure =
                          in_block(house_, fmt::format("p_{}{}", z.label, k.net_small.empty() ? "" : ",s"), z.block);
    given(w, "A_" + own, "plan area of roof that comes to this crossing", p.a, source);
    lifts.push_back(as("W_" + own, formulas::valley_lift.told(w, "W_" + own, formulas::valley_lift.source,
                                                              as(pressure, net(k, p.zone)), as("A_" + own, p.a))));
  }
  for (const Lot& p : dead_[i]) {
    const Surface& s = shape_.surfaces[p.surface];
    const std::string own = fmt::format("{}.g{}", n, weights.size() + 1);
    const Pressure g = roof_.sure_weight(s, w);
    given(w, "A_" + own, "plan area of roof whose weight comes to this crossing", p.a, source);
    weights.push_back(
        as("D_" + own, formulas::valley_weight.told(w, "D_" + own, formulas::valley_weight.source,
                                                    as(roof_.sure_weight_symbol(s), g), as("A_" + own, p.a))));
  }
  given(w, "f_w", "factor on the wind", fw, k.combination.source);
  given(w, "f_d", "factor on weight that holds down", fd, k.combination.source);
  const Force lift = total<Force>(w, "W_" + n, "uplift of the wind", "sum", lifts),
              held = total<Force>(w, "D_" + n, "weight", "sum", weights);
  return formulas::net_uplift.told_as(w, "U_" + n,
                                      "net uplift at the crossing: wind less the weight that is sure to be there",
                                      formulas::net_uplift.source, fw, as("W_" + n, lift), fd, as("D_" + n, held));
}

std::vector<Piece_of_demand> Valleys::made_of(std::size_t c, std::size_t i) const {
  const LoadCase& k = loads_.cases[c];
  return {{"wind on the valley's roof", crossings[i].words, k.combination.wind * wind(c, i)},
          {fmt::format("{} of its weight", k.combination.dead), crossings[i].words, -k.combination.dead * weight(i)}};
}

}  // namespace belay
