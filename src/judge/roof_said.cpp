#include "judge/roof_said.hpp"

#include "belay/check.hpp"
#include "judge/roof_bracing_links.hpp"
#include "shape/joined.hpp"

#include <fmt/format.h>

namespace belay {

namespace {

PlanPoint on_plan(const Point& p, Length above = zero<Length>()) { return {p.x, p.y, above}; }

std::vector<PlanPoint> on_surface(const Polygon& outline, const Surface& s) {
  std::vector<PlanPoint> r;
  for (const Point& p : outline) r.push_back(on_plan(p, height_at(s, p)));
  return r;
}
bool is_upper(const Surface& s) { return s.part != Part::soffit; }

// From one end of a member's axis, that far along it. An axis without length: its `from`.
Point along(const Member& m, Length u) {
  const Length dx = m.to.x - m.from.x, dy = m.to.y - m.from.y;
  const Length whole = square_root<si::length>(Area(dx * dx + dy * dy));
  if (!(whole > zero<Length>())) return m.from;
  const double share = static_cast<double>(u / whole);
  return {m.from.x + share * dx, m.from.y + share * dy};
}

std::string stands_on(const House& h, const std::vector<Member>& members, const Bearing& b) {
  if (b.onto) return members[*b.onto].words;
  std::string walls;
  for (std::size_t i = 0; i < b.feet.size(); ++i)
    walls += (i == 0 ? "" : i + 1 == b.feet.size() ? " and " : ", ") + h.walls[b.feet[i].wall].name;
  return fmt::format("{} {}", b.feet.size() > 1 ? "walls" : "wall", walls);
}

MemberSaid member_said(const House& h, const Shape& shape, const std::vector<Member>& members,
                       const std::vector<Bearing>& bearings, const Member& m) {
  MemberSaid r{.words = m.words,
               .mark = m.mark,
               .kind = std::string(words(m.kind)),
               .plies = m.plies,
               .from = on_plan(m.from),
               .to = on_plan(m.to),
               .bearings = {},
               .carries = {},
               .roof = zero<Area>(),
               .bracket = m.bracket,
               .onto = m.onto,
               .hip_end = m.truss ? std::string() : std::string(words(hip_end_of(h, shape, m))),
               .clear_of = m.clear ? std::string(words(m.clear->side)) : std::string()};
  for (const std::size_t b : m.bearings)
    r.bearings.push_back({bearings[b].words, stands_on(h, members, bearings[b]), on_plan(along(m, bearings[b].u))});
  for (const Surface& s : shape.surfaces) {
    if (!is_upper(s)) continue;
    for (const Window& w : m.carries) {
      if (!holds(w, s)) continue;
      const Polygon piece = within(w, s.outline);
      if (piece.empty()) continue;
      r.carries.push_back(on_surface(piece, s));
      r.roof += area(piece);
    }
  }
  return r;
}

void move_to(PlanPoint& p, Length left, Length front) {
  p.across -= left;
  p.up -= front;
}
// From the main block's axes to those whose corner stands there.
MemberSaid moved_to(MemberSaid m, Length left, Length front) {
  move_to(m.from, left, front);
  move_to(m.to, left, front);
  for (auto& b : m.bearings) move_to(b.at, left, front);
  for (auto& piece : m.carries)
    for (PlanPoint& p : piece) move_to(p, left, front);
  return m;
}

}  // namespace

Side hip_end_of(const House& h, const Shape& shape, const Member& m) {
  const Wing* wing = m.block == 0 ? nullptr : &h.wings[m.block - 1];
  const Roof& roof = wing ? wing->roof : h.roof;
  const bool across = wing ? roof.ridge == Along::across : shape.ridge == Along::across;
  const Side first = across ? Side::left : Side::front, last = across ? Side::right : Side::back;
  if (!roof.hipped[static_cast<std::size_t>(first)]) return last;
  if (!roof.hipped[static_cast<std::size_t>(last)]) return first;
  const Length length = !wing    ? shape.length
                        : across ? wing->across
                                 : wing->up,
               from = across ? left_of(h, m.block) : front_of(h, m.block);
  const Length twice_middle = across ? m.from.x + m.to.x : m.from.y + m.to.y;
  return twice_middle - from - from < length ? first : last;
}

bool is_heavy(const Member& m) { return m.kind == MemberKind::girder || m.plies > 1; }

RoofSaid roof_said(const House& h, const Shape& shape, const std::vector<Member>& members,
                   const std::vector<Bearing>& bearings) {
  RoofSaid r{.shape = std::string(words(h.roof.shape)),
             .planes = {},
             .lines = {},
             .members = {},
             .mean_height = shape.mean_roof_height,
             .top = shape.top};
  for (const Surface& s : shape.surfaces)
    if (is_upper(s))
      r.planes.push_back({s.part == Part::roof ? "slope" : "overhang", std::string(words(side_facing(s.falls))),
                          s.slope, on_surface(s.outline, s)});
  for (const RoofLine& l : shape.lines)
    r.lines.push_back({std::string(words(l.kind)), on_plan(l.from, l.from_up), on_plan(l.to, l.to_up)});
  for (const Member& m : members) r.members.push_back(member_said(h, shape, members, bearings, m));
  r.braces = roof_braces_said(h, shape);
  return r;
}

RoofSaid roof_of(const House& h) {
  const Shape shape = whole_shape(h);
  const Members all = members_of(h, shape);
  return roof_said(h, shape, all.members, all.bearings);
}

std::vector<RoofSaid> roofs_of(const House& h) {
  if (h.wings.empty()) return {roof_of(h)};
  std::vector<RoofSaid> r;
  for (std::size_t b = 0; b <= h.wings.size(); ++b) {
    const House block = seen_from(h, b);
    r.push_back(roof_said(block, shape_of(block), {}, {}));
  }
  const Shape whole = whole_shape(h);
  const Members all = members_of(h, whole);
  for (const Member& m : all.members)
    r.at(m.block).members.push_back(
        moved_to(member_said(h, whole, all.members, all.bearings, m), left_of(h, m.block), front_of(h, m.block)));
  return r;
}

}  // namespace belay
