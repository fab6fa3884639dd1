#include "capacity/roof_strap.hpp"

#include "capacity/capacity.hpp"
#include "capacity/steel.hpp"

namespace belay {

RoofStrapCapacity roof_strap_capacity(const House& house, const RoofBrace& brace, Angle to_ridge, const Table& practice,
                                      bool cyclonic, std::string_view symbol, Working* w) {
  RoofStrapCapacity r{zero<Force>(), {}, {}};
  const StrapBrace* strap = find(house.fixings.straps, brace.fixing.name);
  if (!strap) {
    r.refused = "no-fixing";
    return r;
  }
  const Angle low = practice.get<Angle>("roof_strap_angle", "least"),
              high = practice.get<Angle>("roof_strap_angle", "greatest");
  const Units& u = house.print == Print::us ? us : metric;
  r.conditions.push_back({"angle of the strap to the ridge",
                          fmt::format("{} to {}", text(low, u), text(high, u)),
                          text(to_ridge, u),
                          to_ridge >= low && to_ridge <= high ? Met::yes : Met::no,
                          {}});
  const auto of_entry = strap_conditions(house, *strap, Into::roof, practice);
  const bool known = worst(of_entry) == Met::yes;
  r.conditions.insert(r.conditions.end(), of_entry.begin(), of_entry.end());
  const auto more = frame_conditions(house, strap->terms, cyclonic, true);
  r.conditions.insert(r.conditions.end(), more.begin(), more.end());
  const Met met = worst(r.conditions);
  if (met != Met::yes) r.refused = met == Met::no ? "condition-unmet" : "condition-not-stated";
  if (!known) return r;
  const std::string of_strap = w ? fmt::format("{},s", symbol) : std::string(),
                    of_end = w ? fmt::format("{},e", symbol) : std::string();
  const SteelHolds holds = strap_holds(house, *strap, practice, of_strap, of_end, w);
  r.practice_marks = holds.marks;
  r.end_first = holds.end < holds.steel;
  r.holds = least<Force>(w, symbol, "the lesser of the strap and its end fixing", "statics",
                         {as(of_strap, holds.steel), as(of_end, holds.end)});
  return r;
}

}  // namespace belay
