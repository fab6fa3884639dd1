// Houses for the tests of shape and wind: plain gable blocks, nothing in them but what the wind asks about.
#pragma once
#include "files/read.hpp"
#include "quantities.hpp"
#include "shape/shape.hpp"
#include "wind/methods.hpp"
#include "wind/wind.hpp"
#include <cmath>
#include <string>

namespace belay::test {

inline House gable(Length across, Length up, Length height, Along ridge, Angle pitch, Length eaves, Length verge) {
  House h{};
  h.importance = 2;
  h.block = "main";
  h.across = across;
  h.up = up;
  h.floor_level = metres(0.3);
  h.height = height;
  h.roof =
      Roof{ridge, pitch, eaves, verge, RoofWeight{Pressure::from_value(400.0), Pressure::from_value(400.0), false}};
  h.site = ClassSite{"N3", "a test", "job.toml:1"};
  const Length length = ridge == Along::across ? across : up;
  for (int i = 0; i <= 10; ++i) h.trusses.push_back(Truss{"T1", length * (i / 10.0), Chosen{}});
  for (const Side side : {Side::left, Side::front, Side::right, Side::back}) {
    Wall w{};
    w.name = std::string(words(side));
    w.outside = true;
    w.side = side;
    w.runs = is_across(outward(side)) ? Along::up : Along::across;
    w.from = zero<Length>();
    w.to = w.runs == Along::across ? across : up;
    w.pieces = {Piece{w.from, w.to, std::nullopt, std::nullopt}};
    h.walls.push_back(w);
  }
  return h;
}
inline House cottage() {
  return gable(metres(12.0), metres(7.8), metres(2.7), Along::across, degrees(22.5), metres(0.45), metres(0.3));
}
inline AsceSite asce(std::string edition, Speed v, std::string exposure) {
  return AsceSite{
      edition,  v,           edition == "7-05" ? "nominal" : "ultimate", std::move(exposure), "II", "allowable", false,
      "a test", "job.toml:1"};
}
// The same terrain and, when it is given, the same hill from all eight directions; the north is not known.
inline AsNzsSite as_nzs_site(std::string edition, std::string region, std::string terrain,
                             std::optional<Hill> hill = std::nullopt) {
  AsNzsSite s{.family = "as-nzs-1170-2",
              .edition = std::move(edition),
              .region = std::move(region),
              .years = 500,
              .service_years = 25,
              .north = std::nullopt,
              .from = {},
              .ground_level = zero<Length>(),
              .zone = "",
              .sealed = false,
              .debris_region = std::nullopt,
              .typed = {},
              .given_by = "a test",
              .at = "job.toml:1"};
  for (Upwind& u : s.from) u = Upwind{terrain, 0.9, std::nullopt, hill, "job.toml:1"};
  return s;
}
inline AsNzsSite zone_site(std::string zone) {
  AsNzsSite s = as_nzs_site("2011", "", "");
  s.family = "nzs-3604";
  s.zone = std::move(zone);
  s.from = {};
  return s;
}
inline EnSite en_site(Speed v, std::string terrain, std::optional<Hill> hill = std::nullopt) {
  return EnSite{.edition = "2005",
                .speed = v,
                .terrain = std::move(terrain),
                .hill = std::move(hill),
                .directional = std::nullopt,
                .season = std::nullopt,
                .probability = std::nullopt,
                .air = std::nullopt,
                .typed = {},
                .given_by = "a test",
                .at = "job.toml:1"};
}
// With the measures that every method asks for.
inline Hill a_hill(HillShape shape) {
  return Hill{.shape = shape,
              .rise = metres(25.0),
              .to_half_height = metres(60.0),
              .upwind_slope = metres(140.0),
              .downwind_slope = metres(120.0),
              .past_crest = metres(30.0),
              .at = "job.toml:1"};
}
// One site for each way that a wind can be stated, so that a law holds for all of them.
inline std::vector<SiteAsk> every_site() {
  AsceSite directional = asce("7-16", mph(110.0), "C");
  directional.procedure = "directional";
  directional.hill = a_hill(HillShape::hill);
  directional.ground_level = metres(900.0);
  AsNzsSite typed = as_nzs_site("2021", "C", "2");
  typed.typed.gust = Speed::from_value(55.0);
  typed.from = {};
  ClassSite worked_out{"", "a test", "job.toml:1"};
  worked_out.from = ClassFrom{"A2", "2.5", "PS", "", a_hill(HillShape::ridge), std::nullopt};
  return {ClassSite{"N2", "", ""},
          ClassSite{"N3", "", ""},
          ClassSite{"C2", "", ""},
          worked_out,
          asce("7-05", mph(90.0), "B"),
          asce("7-10", mph(120.0), "C"),
          asce("7-16", mph(130.0), "D"),
          directional,
          as_nzs_site("2011", "A2", "3", a_hill(HillShape::escarpment)),
          as_nzs_site("2021", "B2", "2.5"),
          typed,
          zone_site("H"),
          en_site(Speed::from_value(26.0), "II", a_hill(HillShape::ridge)),
          en_site(Speed::from_value(24.0), "IV")};
}
inline Opening opening(Length width, Length height, bool door, bool stands_open, std::optional<std::string> rated) {
  return Opening{"D1", height, width, door, stands_open, std::move(rated), Chosen{}, false};
}
inline void put(House& h, Side side, const Opening& o) {
  for (Wall& w : h.walls)
    if (w.side == side) w.pieces.push_back(Piece{metres(1.0), metres(1.0) + o.width, o, std::nullopt});
}

struct Blown {
  Shape shape;
  Loads loads;
  SiteWind site;
};
inline Blown blow(const House& h) {
  Shape s = shape_of(h);
  const Method& m = method_for(h.site);
  const WindAsk ask{h.site, h, s, table(table_for(h.site))};
  Loads l = m.loads(ask, nullptr, std::nullopt);
  SiteWind w = m.site(ask, nullptr);
  return {std::move(s), std::move(l), std::move(w)};
}
inline const LoadCase& find_case(const Loads& l, const std::string& id) {
  for (const LoadCase& c : l.cases)
    if (c.id == id) return c;
  throw std::runtime_error("no load case " + id);
}
// The sum of the pushes towards +x or +y (the first of the two ways of `along`).
inline Force push_total(const LoadCase& c, Along along) {
  Force sum = zero<Force>();
  for (const Push& p : c.push) {
    if (is_across(p.towards) != (along == Along::across)) continue;
    const Force f = p.p * area(p.part);
    sum += p.towards == Way::right || p.towards == Way::back ? f : -f;
  }
  return sum;
}
// Whether a point lies inside a convex polygon, clear of its edges.
inline bool holds(const Polygon& g, Point p) {
  for (std::size_t i = 0; i < g.size(); ++i) {
    const Point a = g[i], b = g[(i + 1) % g.size()];
    if (!((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) > zero<Area>())) return false;
  }
  return true;
}
// The net pressure at a point of the roof from above, or of the soffits from below; nothing off them or on a seam.
inline std::optional<Pressure> net_at(const Blown& b, const LoadCase& c, Point p, bool soffit) {
  const Layout& layout = b.loads.layouts[c.layout];
  for (std::size_t i = 0; i < layout.zones.size(); ++i) {
    const bool under = b.shape.surfaces[layout.zones[i].surface].part == Part::soffit;
    if (under == soffit && holds(layout.zones[i].part, p)) return c.net[i];
  }
  return std::nullopt;
}

}  // namespace belay::test
