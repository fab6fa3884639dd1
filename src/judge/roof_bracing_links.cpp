#include "judge/roof_bracing_links.hpp"

#include <algorithm>

namespace belay {

namespace {
const Units& units_of(const House& h) { return h.print == Print::us ? us : metric; }
std::string list_of(const std::vector<std::string>& names) {
  std::string s;
  for (std::size_t i = 0; i < names.size(); ++i) s += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return s;
}
}  // namespace

std::string roof_brace_words(const RoofBrace& b) { return "roof brace " + b.name; }

std::string roof_plane_words(Side slope, Along ridge, Sense s) {
  const std::string_view way =
      ridge == Along::across ? (s == Sense::plus ? "right" : "left") : (s == Sense::plus ? "back" : "front");
  return fmt::format("roof plane {} to the {}", words(slope), way);
}

std::optional<std::size_t> wall_under(const House& h, Side slope, std::optional<Length> at) {
  const auto wall = std::find_if(h.walls.begin(), h.walls.end(), [&](const Wall& w) {
    return w.outside && w.side == slope && w.floor == top_floor(h) && stands_in(w, 0) &&
           (!at || (*at >= w.from - same_place && *at <= w.to + same_place));
  });
  return wall == h.walls.end() ? std::nullopt : std::optional(static_cast<std::size_t>(wall - h.walls.begin()));
}

std::optional<PlaneVerdict> plane_verdict(const House& h, const RoofBracing& b, std::size_t plane, Sense s,
                                          bool enough) {
  const std::vector<std::size_t>& straps = b.planes[plane].straps;
  if (straps.empty()) return PlaneVerdict{false, false, "no-roof-braces", ""};
  // Where a condition is not stated what the slope can hold is not known: no FAIL from a guess.
  const auto unsure = std::find_if(straps.begin(), straps.end(), [&](std::size_t i) {
    return b.works(i, s) && b.straps[i].capacity.refused == "condition-not-stated";
  });
  if (unsure != straps.end() && !enough)
    return PlaneVerdict{true, false, "roof-brace-not-judged", h.roof_braces[*unsure].name};
  const auto one = [&](std::size_t i) { return b.counts(i, s); };
  if (std::none_of(straps.begin(), straps.end(), one))
    return PlaneVerdict{true, true, "no-roof-brace", std::string(words(b.planes[plane].slope))};
  return std::nullopt;
}

std::vector<Caution> roof_bracing_cautions(const House& h, const Loads& loads, const RoofBracing& b,
                                           const Table& practice) {
  std::vector<Caution> r;
  if (b.straps.empty()) return r;
  const Units& u = units_of(h);
  const bool hip = h.roof.shape == RoofShape::hip;
  r.push_back({"roof-bracing",
               fmt::format("Battens and the trusses' top chords are taken to bring the wind on the {} to the roof "
                           "braces; the braces of one slope that pull in one sense are taken to share it by number, or "
                           "by what each can hold where they differ.",
                           hip ? "ends" : "gables")});
  if (hip)
    r.push_back(
        {"roof-bracing-hip",
         "Of what the wind pushes level on a hip end, the slopes along the ridge are asked for half of what "
         "stands below its girder's level and all above it, a gable there too: the safe one. Its own jacks and "
         "hips may hold part of that, and where the wind meets an end, what pulls on an end's slope may relieve "
         "it: neither is counted."});
  RoofBracing::Foot_pull most{};
  std::string where;
  for (std::size_t i = 0; i < b.straps.size(); ++i)
    for (std::size_t c = 0; c < loads.cases.size(); ++c) {
      const RoofBracing::Foot_pull f = b.foot_pull(c, i);
      if (f.along > most.along) where = h.roof_braces[i].name;
      most.along = std::max(most.along, f.along);
      most.across = std::max(most.across, f.across);
      most.lift = std::max(most.lift, f.lift);
    }
  if (most.along > zero<Force>())
    r.push_back(
        {"roof-brace-foot",
         fmt::format("At its foot a roof brace pulls the wall's top and the truss beside it: at most {} along "
                     "the wall, {} inwards, {} up (most along the wall: {}). The brackets and ties there are not "
                     "judged for it.",
                     text(value(most.along), u), text(value(most.across), u), text(value(most.lift), u), where)});
  const Angle best = practice.get<Angle>("roof_strap_angle", "best");
  std::vector<std::string> steep;
  for (std::size_t i = 0; i < b.straps.size(); ++i) {
    const StrapLine& line = b.straps[i].line;
    if (b.straps[i].capacity.refused.empty() && line.up > line.along * tangent(best) + same_place)
      steep.push_back(h.roof_braces[i].name);
  }
  if (!steep.empty())
    r.push_back(
        {"roof-brace-steep",
         fmt::format("{} {} steeper than {} to the ridge, which is best (common practice): a longer reach along "
                     "the ridge eases {}.",
                     (steep.size() == 1 ? "Roof brace " : "Roof braces ") + list_of(steep),
                     steep.size() == 1 ? "stands" : "stand", text(value(best), u), steep.size() == 1 ? "it" : "them")});
  return r;
}

std::vector<RoofBraceSaid> roof_braces_said(const House& h, const Shape& shape) {
  std::vector<RoofBraceSaid> r;
  for (const RoofBrace& b : h.roof_braces) {
    const StrapLine line = line_of(shape, b);
    const StrapBrace* strap = find(h.fixings.straps, b.fixing.name);
    r.push_back({b.name, std::string(words(b.slope)), b.foot, b.head, line.level, line.length(), line.to_ridge,
                 strap != nullptr && strap->pair, b.up_to.has_value(), b.fixing});
  }
  return r;
}

}  // namespace belay
