#include "job/mirrored.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <utility>

namespace belay {
namespace {

template <class T> void swap_sides(std::array<T, 4>& of_sides, Mirror m) {
  const auto at = [&](Side s) -> T& { return of_sides[static_cast<std::size_t>(s)]; };
  if (m == Mirror::left_right) std::swap(at(Side::left), at(Side::right));
  else std::swap(at(Side::front), at(Side::back));
}
void mirror(Roof& r, Mirror m) {
  if (r.shape == RoofShape::skillion || r.shape == RoofShape::flat) r.high = mirrored(r.high, m);
  swap_sides(r.hipped, m);
  swap_sides(r.own_pitch, m);
  swap_sides(r.own_overhang, m);
  swap_sides(r.gable_above, m);
}

// What stands in a row on a length, seen from its other end.
template <class Row> void turn(Row& row, Length length) {
  std::reverse(row.begin(), row.end());
  for (auto& x : row) x.from = length - std::exchange(x.to, length - x.from);
  if (row.empty()) return;
  row.front().from = zero<Length>();
  row.back().to = length;
}
void turn_places(std::vector<Length>& places, Length length) {
  std::ranges::reverse(places);
  for (Length& x : places) x = length - x;
}
// A brace's name holds its number, which counts from the start of the wall as it is built.
void turn_run(Wall& w) {
  std::vector<std::string> names;
  for (const Piece& p : w.pieces)
    if (p.brace) names.push_back(p.brace->name);
  turn(w.pieces, w.length());
  turn(w.frames, w.length());
  turn_places(w.steps, w.length());
  auto name = names.begin();
  for (Piece& p : w.pieces) {
    if (!p.brace) continue;
    p.brace->name = *name++;
    if (p.brace->foot) p.brace->foot = *p.brace->foot == Side::left ? Side::right : Side::left;
  }
}
void mirror(Wall& w, const House& h, Mirror m) {
  const Length across_it = w.runs == Along::across ? h.up : h.across,
               along_it = w.runs == Along::across ? h.across : h.up;
  if (w.outside) w.side = mirrored(w.side, m);
  if (!turns_places(w.runs, m)) {
    w.line = across_it - w.line;
    return;
  }
  w.from = along_it - std::exchange(w.to, along_it - w.from);
  turn_run(w);
}

// Its name begins with its slope.
void mirror(RoofBrace& b, const House& h, Mirror m) {
  const std::string number = b.name.substr(words(b.slope).size());
  b.slope = mirrored(b.slope, m);
  b.name = std::string(words(b.slope)) + number;
  if (!turns_places(h.roof.ridge, m)) return;
  const Length ridge = h.roof.ridge == Along::across ? h.across : h.up;
  b.foot = ridge - b.foot;
  b.head = ridge - b.head;
}

// Places along its wall, in their order.
void mirror(Veranda& v, const House& h, Mirror m) {
  const auto wall = std::ranges::find(h.walls, v.wall, &Wall::name);
  if (wall == h.walls.end() || !turns_places(wall->runs, m)) return;
  const Length length = wall->length();
  v.from = length - std::exchange(v.to, length - v.from);
  turn_places(v.rafters, length);
  turn_places(v.posts, length);
}

// They stand in a row the other way than they run.
void mirror(std::optional<Joists>& j, Mirror m) {
  if (j && turns_places(j->runs == Along::across ? Along::up : Along::across, m)) j->from_far = !j->from_far;
}

// A block's roof and what stands under it, in the block's own axes.
struct Roofing {
  Length across, up;
  Roof& roof;
  std::vector<Truss>& trusses;
  std::vector<HipEnd>& hip_ends;
};
void mirror(const Roofing& r, Mirror m) {
  mirror(r.roof, m);
  for (HipEnd& e : r.hip_ends) e.side = mirrored(e.side, m);
  for (Truss& t : r.trusses)
    if (t.clear_of) t.clear_of = mirrored(*t.clear_of, m);
  if (!turns_places(r.roof.ridge, m)) return;  // what stands in the order of its places along the ridge
  const Length ridge = r.roof.ridge == Along::across ? r.across : r.up;
  for (Truss& t : r.trusses) t.at = ridge - t.at;
  std::ranges::reverse(r.trusses);
  std::ranges::reverse(r.hip_ends);
}
void mirror(Wing& w, const House& h, Mirror m) {
  if (m == Mirror::left_right) w.left = h.across - w.left - w.across;
  else w.front = h.up - w.front - w.up;
  w.joint = mirrored(w.joint, m);
  mirror({w.across, w.up, w.roof, w.trusses, w.hip_ends}, m);
}

// The sheet's north arrow, clockwise from up. What the wind comes over is told by the compass and stays.
void mirror(SiteAsk& site, Mirror m) {
  auto* s = std::get_if<AsNzsSite>(&site);
  if (s == nullptr || !s->north) return;
  const Angle half_turn = Angle::from_value(3.14159265358979323846);
  Angle north = m == Mirror::left_right ? zero<Angle>() - *s->north : half_turn - *s->north;
  if (north > half_turn) north -= 2.0 * half_turn;
  s->north = north;
}

}  // namespace

bool turns_places(Along runs, Mirror m) { return (runs == Along::across) == (m == Mirror::left_right); }

Side mirrored(Side side, Mirror m) {
  switch (side) {
    case Side::left: return m == Mirror::left_right ? Side::right : side;
    case Side::right: return m == Mirror::left_right ? Side::left : side;
    case Side::front: return m == Mirror::front_back ? Side::back : side;
    case Side::back: return m == Mirror::front_back ? Side::front : side;
  }
  return side;
}

// Whatever else of a house has a side or a place on the sheet belongs here as well: a line for each.
House mirrored(House h, Mirror m) {
  for (Wall& w : h.walls) mirror(w, h, m);
  mirror({h.across, h.up, h.roof, h.trusses, h.hip_ends}, m);
  for (Wing& w : h.wings) mirror(w, h, m);
  for (RoofBrace& b : h.roof_braces) mirror(b, h, m);
  for (Veranda& v : h.verandas) mirror(v, h, m);
  if (h.first) mirror(h.first->joists, m);
  if (h.framed) mirror(h.framed->joists, m);
  mirror(h.site, m);
  for (NamedSite& s : h.sites) mirror(s.site, m);
  return h;
}

std::optional<Mirror> mirror_of_job(const raw::Job& job) {
  if (!job.job.mirror) return std::nullopt;
  return *job.job.mirror == "front-back" ? Mirror::front_back : Mirror::left_right;
}

void build_mirrored(House& h, Mirror m) {
  h = mirrored(std::move(h), m);
  h.mirror = m;
  h.remarks.push_back(
      fmt::format("the house is built mirrored {}: all that is said here is as built, places and the numbers of braces "
                  "count from the left or the front of the house that is built; the job's runs, places and sides are "
                  "those of the drawing before it is mirrored",
                  words(m)));
  const auto north_given = [](const NamedSite& s) {
    const auto* site = std::get_if<AsNzsSite>(&s.site);
    return site != nullptr && site->north;
  };
  if (std::ranges::any_of(h.sites, north_given))
    h.remarks.push_back("the sheet's north arrow is mirrored with the sheet: hold the angle against the lot");
}

}  // namespace belay
