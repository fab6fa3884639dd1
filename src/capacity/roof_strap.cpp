#include "capacity/roof_strap.hpp"

#include "capacity/capacity.hpp"

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
  // Worked out is what a strap in a wall holds; of one in the roof the figures must be stated.
  if (!strap->tension)
    r.conditions.push_back({"tension of the strap", "the sheet's figure", "", Met::not_stated,
                            fmt::format("`tension` of {}", strap->terms.name)});
  if (!strap->end_fixing)
    r.conditions.push_back({"end fixing of the strap", "the sheet's figure", "", Met::not_stated,
                            fmt::format("`end_fixing` of {}", strap->terms.name)});
  const auto more = frame_conditions(house, strap->terms, cyclonic, true);
  r.conditions.insert(r.conditions.end(), more.begin(), more.end());
  const Met met = worst(r.conditions);
  if (met != Met::yes) r.refused = met == Met::no ? "condition-unmet" : "condition-not-stated";
  if (!strap->tension || !strap->end_fixing) return r;
  const std::string of_strap = w ? fmt::format("{},s", symbol) : std::string(),
                    of_end = w ? fmt::format("{},e", symbol) : std::string();
  const Force strap_holds = design_force(strap->terms, *strap->tension, of_strap, w);
  const Force end_holds = design_force(strap->terms, *strap->end_fixing, of_end, w);
  r.holds = least<Force>(w, symbol, "the lesser of the strap and its end fixing", "statics",
                         {as(of_strap, strap_holds), as(of_end, end_holds)});
  return r;
}

}  // namespace belay
