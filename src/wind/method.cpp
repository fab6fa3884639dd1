// Which method a site asks for: one row for each.
#include "wind/methods.hpp"

namespace belay {

static constexpr Method by_class{"as-4055", as4055::site, as4055::loads, as4055::line_spacing};
static constexpr Method by_envelope{"asce-7", asce_envelope::site, asce_envelope::loads, asce_envelope::line_spacing};

const Method& method_for(const SiteAsk& site) { return std::holds_alternative<ClassSite>(site) ? by_class : by_envelope; }

std::string table_for(const SiteAsk& site) {
  if (const auto* asce = std::get_if<AsceSite>(&site)) return "methods/asce-" + asce->edition + ".toml";
  return "methods/as-4055-2021.toml";
}

}  // namespace belay
