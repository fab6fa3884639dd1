// Which method a site asks for: one row for each.
#include "wind/formulas.hpp"
#include "wind/methods.hpp"

namespace belay {

As<Angle> pitch_of(const WindAsk& ask, Side side) {
  const Angle pitch = ask.shape.at(side).pitch;
  return pitch == ask.house.roof.pitch ? as("theta", pitch) : as("theta_" + std::string(words(side)), pitch);
}
As<Length> walls_of(const WindAsk& ask) { return as(ask.house.first ? "h_walls" : "h_w", ask.shape.wall_height); }
As<Length> top_walls_of(const WindAsk& ask) {
  return as(ask.house.first ? "h_w,first" : "h_w", wall_height(ask.house, top_floor(ask.house)));
}
As<Length> tell_walls(Working* w, const WindAsk& ask) {
  if (!w) return walls_of(ask);
  const std::string_view block = "the job's block", from = "from the underside of the bottom plate";
  if (!ask.house.first) {
    given(w, "h_w", fmt::format("height of the walls, {}", from), ask.shape.wall_height, block);
    return walls_of(ask);
  }
  const FirstFloor& first = *ask.house.first;
  const auto ground = as("h_w,ground", ask.house.height), depth = as("d_floor", first.depth), top = top_walls_of(ask);
  given(w, ground.name, fmt::format("height of the ground floor's walls, {}", from), ground.quantity, block);
  given(w, depth.name, "from the top of the ground floor's walls to the underside of the first floor's bottom plates",
        depth.quantity, block);
  given(w, top.name, fmt::format("height of the first floor's walls, {}", from), top.quantity, block);
  formulas::walls_of_two_floors(w, ground, depth, top);
  return walls_of(ask);
}
void tell_measures(Working* w, const WindAsk& ask) {
  if (!w) return;
  const Shape& s = ask.shape;
  const std::string_view block = "the job's block", roof = "the job's roof";
  // The formula for the rise holds where the ridge stands in the middle of two slopes of the roof's own pitch.
  const bool even = s.pitch == ask.house.roof.pitch && s.rise == formulas::rise_of_ridge(nullptr, s.span, s.pitch);
  if (w->first("measures of the building")) {
    given(w, "f",
          s.raised > zero<Length>() ? "floor above ground, raised: no lower in the wind than the highest block"
                                    : "floor above ground",
          s.floor_level, block);
    tell_walls(w, ask);
    if (even) {
      given(w, "s", "span across the ridge, outside of frame", s.span, block);
      given(w, "theta", "pitch of the roof", s.pitch, roof);
      formulas::rise_of_ridge(w, s.span, s.pitch);
    } else {
      given(w, "r", "rise of the roof's highest point above the bearings, inside the walls", s.rise, "geometry");
    }
  }
  for (const Side side : {Side::left, Side::front, Side::right, Side::back}) {
    if (!s.at(side).slopes) continue;
    const As<Angle> pitch = pitch_of(ask, side);
    const bool of_roof = pitch.name == "theta";
    if ((of_roof && even) || !w->first("pitch " + pitch.name)) continue;
    given(w, pitch.name,
          of_roof ? std::string("pitch of the roof")
                  : fmt::format("pitch of the slope that falls to the {}", words(side)),
          pitch.quantity, roof);
  }
}

void press_on_floors(Loads& loads, const Table& t, std::initializer_list<std::string_view> keys) {
  for (const std::string_view key : keys) {
    loads.on_floors.push_back(
        {t.text(key, "name"), t.source(key), t.number(key, "dead"), t.number(key, "wind"), t.number(key, "live")});
    loads.marks_on_floors |= t.mark(key);
  }
}

static constexpr Method by_class{"as-4055", as4055::site, as4055::loads, as4055::line_spacing};
static constexpr Method by_envelope{"asce", asce_envelope::site, asce_envelope::loads, asce_envelope::line_spacing};
static constexpr Method by_directions{"asce", asce_directional::site, asce_directional::loads,
                                      asce_directional::line_spacing};
static constexpr Method as_nzs_1170{"as-nzs-1170-2", as_nzs::site, as_nzs::loads, as_nzs::line_spacing};
static constexpr Method nzs_3604{"nzs-3604", as_nzs::site, as_nzs::loads, as_nzs::line_spacing};
static constexpr Method en_1991{"en-1991-1-4", eurocode::site, eurocode::loads, eurocode::line_spacing};

namespace {
// The method and the edition of each alternative.
struct Asked {
  const Method& method;
  std::string edition;
};
struct Which {
  Asked operator()(const ClassSite&) const { return {by_class, "2021"}; }
  Asked operator()(const AsceSite& s) const {
    return {s.procedure == "directional" ? by_directions : by_envelope, s.edition};
  }
  Asked operator()(const AsNzsSite& s) const { return {s.family == nzs_3604.key ? nzs_3604 : as_nzs_1170, s.edition}; }
  Asked operator()(const EnSite& s) const { return {en_1991, s.edition}; }
};
}  // namespace

const Method& method_for(const SiteAsk& site) { return std::visit(Which{}, site).method; }

std::string table_for(const SiteAsk& site) {
  const Asked asked = std::visit(Which{}, site);
  return fmt::format("methods/{}-{}.toml", asked.method.key, asked.edition);
}

}  // namespace belay
