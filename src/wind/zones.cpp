#include "wind/zones.hpp"
#include <algorithm>

namespace belay {

bool may_stand_open(const Opening& o, const OpeningRule& rule) {
  if (o.stands_open) return true;
  if (rule.debris && !o.impact_rated) return true;
  // What the job itself calls too weak, or not known, is open however narrow it is.
  const bool doubted = o.wind_rated.has_value() || (o.door && o.width >= rule.wide);
  return doubted && falls_short(o.wind_rated, rule.covers);
}
bool rated_for_speed(const std::string& rating, Speed speed) {
  std::string why;
  const auto stated = parse_quantity(rating, Kind::speed, why);
  return stated && quantity<Speed>(*stated) >= speed;
}

FaceOpenings openings_in(const WindAsk& ask, Side side, const OpeningRule& rule) {
  FaceOpenings f{zero<Area>(), zero<Area>(), zero<Area>()};
  const bool stands_back = ask.shape.at(side).gable_above > zero<Length>();
  for (const Elevation& e : ask.shape.elevations) {
    const bool of_wall = e.part == ElevationPart::wall || (e.part == ElevationPart::gable && !stands_back);
    if (e.side == side && of_wall) f.gross += area(e.outline);
  }
  f.gross += ask.shape.walls_beside[static_cast<std::size_t>(side)];
  for (const Wall& wall : ask.house.walls) {
    if (!wall.outside || wall.side != side) continue;
    for (const Piece& piece : wall.pieces) {
      if (!piece.opening) continue;
      const Area size = piece.opening->height * piece.opening->width;
      if (piece.opening->stands_open) f.stated_open += size;
      if (may_stand_open(*piece.opening, rule)) f.may_be_open += size;
    }
  }
  return f;
}
Area roof_on_slope(const Shape& s) {
  Area sum = zero<Area>();
  for (const Surface& f : s.surfaces)
    if (f.part == Part::roof) sum += area(f.outline) / cosine(f.slope);
  for (const Elevation& e : s.elevations)
    if (e.part == ElevationPart::gable && s.at(e.side).gable_above > zero<Length>()) sum += area(e.outline);
  return sum;
}

Polygon upright(const Shape& s, const Surface& surface, const Polygon& plan) {
  Polygon g;
  for (const Point& p : plan)
    g.push_back({is_across(surface.falls) ? p.y : p.x, s.wall_height + height_at(surface, p)});
  if (area(g) < zero<Area>()) std::reverse(g.begin(), g.end());
  return g;
}
std::vector<Push> roof_pushes(const Shape& s, const Layout& layout, const std::function<Push(const Zone&)>& push) {
  std::vector<Push> pushes;
  for (const Zone& z : layout.zones) {
    const Surface& surface = s.surfaces[z.surface];
    if (surface.part == Part::soffit) continue;
    Polygon part = upright(s, surface, z.part);
    if (!(area(part) > zero<Area>())) continue;
    Push p = push(z);
    p.towards = opposite(surface.falls);
    p.part = std::move(part);
    pushes.push_back(std::move(p));
  }
  return pushes;
}

Length length_of(const Shape& s, Side side) { return is_across(outward(side)) ? s.up : s.across; }
bool runs_as_seen(const Shape& s, const Frame8& f, Side side) {
  const bool along_y = is_across(outward(side));
  const Length none = zero<Length>();
  const auto place = [&](Length along) {
    const Point seen = f.seen(along_y ? Point{none, along} : Point{along, none});
    return is_across(f.seen(outward(side))) ? seen.y : seen.x;
  };
  return place(none) < place(length_of(s, side));
}

}  // namespace belay
