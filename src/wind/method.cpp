// Which method a site asks for: one row for each.
#include "wind/formulas.hpp"
#include "wind/methods.hpp"

namespace belay {

void tell_measures(Working* w, const Shape& s) {
  if (!w || !w->first("measures of the building")) return;
  const std::string_view block = "the job's block", roof = "the job's roof";
  given(w, "f", "floor above ground", s.floor_level, block);
  given(w, "h_w", "height of the walls, from the underside of the bottom plate", s.wall_height, block);
  given(w, "s", "span across the ridge, outside of frame", s.span, block);
  given(w, "theta", "pitch of the roof", s.pitch, roof);
  formulas::rise_of_ridge(w, s.span, s.pitch);
}

static constexpr Method by_class{"as-4055", as4055::site, as4055::loads, as4055::line_spacing};
static constexpr Method by_envelope{"asce-7", asce_envelope::site, asce_envelope::loads, asce_envelope::line_spacing};

const Method& method_for(const SiteAsk& site) {
  return std::holds_alternative<ClassSite>(site) ? by_class : by_envelope;
}

std::string table_for(const SiteAsk& site) {
  if (const auto* asce = std::get_if<AsceSite>(&site)) return "methods/asce-" + asce->edition + ".toml";
  return "methods/as-4055-2021.toml";
}

}  // namespace belay
