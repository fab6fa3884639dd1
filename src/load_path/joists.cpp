#include "load_path/joists.hpp"

#include "units/sizes.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace belay {

const Joists* joists_under(const House& h, Floor f) {
  if (f == Floor::first) return h.first && h.first->joists ? &*h.first->joists : nullptr;
  return h.framed && h.framed->joists ? &*h.framed->joists : nullptr;
}

std::vector<Length> joist_places(const House& h, Floor f) {
  const Joists* under = joists_under(h, f);
  if (!under) return {};
  const Joists& j = *under;
  const Length end = j.runs == Along::up ? h.across : h.up;
  std::vector<Length> r{j.width / 2.0};
  for (int n = 1; static_cast<double>(n) * j.spacing < end - 1.5 * j.width - same_place; ++n)
    r.push_back(static_cast<double>(n) * j.spacing);
  r.push_back(end - j.width / 2.0);
  if (!j.from_far) return r;
  std::ranges::reverse(r);
  for (Length& x : r) x = end - x;
  return r;
}

// An inside wall that runs as the joists do may stand half a plate to either side of the line that the drawing gives:
// whether it stands over a joist that lies so near is not known.
std::optional<Condition> meets_a_joist(const House& h, const Wall& wall, const Point& at, const Anchor& a) {
  const Joists* under = joists_under(h, wall.floor);
  if (!under || (a.how != How::into_timber && a.how != How::into_steel)) return std::nullopt;
  const Joists& j = *under;
  const Units& u = h.print == Print::us ? us : metric;
  const Length reach = j.width / 2.0 - a.least_edge.value_or(zero<Length>());
  const std::string needs = fmt::format("a joist whose middle is within {}", size_text(reach, u));
  const auto say = [&](std::string has, Met met) {
    return Condition{"joist under it", needs, std::move(has), met,
                     met == Met::not_stated ? fmt::format("floor.{}.blocking", words(wall.floor)) : std::string()};
  };
  if (j.blocking) return say("a joist or blocking, as stated", Met::yes);
  if (j.edge && wall.outside) return say("the floor's edge member", Met::yes);
  const Length me = j.runs == Along::up ? at.x : at.y;
  Length off = everywhere;
  for (const Length& x : joist_places(h, wall.floor)) off = std::min(off, apart(x, me));
  const std::string has = fmt::format("the nearest {} away", size_text(off, u));
  if (off <= reach + same_place && (wall.outside || wall.runs != j.runs)) return say(has, Met::yes);
  const bool doubtful = !wall.outside && wall.runs == j.runs && off <= reach + wall.plate_width / 2.0 + same_place;
  return say(doubtful ? "" : has, doubtful ? Met::not_stated : Met::no);
}

}  // namespace belay
