#include "load_path/members.hpp"

#include "belay/working.hpp"
#include "units/sizes.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>
#include <stdexcept>
#include <utility>

namespace belay {

std::string_view words(MemberKind k) {
  switch (k) {
    case MemberKind::truss: return "truss";
    case MemberKind::truncated: return "truncated truss";
    case MemberKind::half: return "half truss";
    case MemberKind::girder: return "hip girder";
    case MemberKind::jack: return "jack";
    case MemberKind::creeper: return "creeper";
    case MemberKind::hip_rafter: return "hip rafter";
  }
  return "truss";
}

bool holds(const Window& w, const Surface& s) {
  const Way way = s.over.value_or(s.falls);
  return s.held_by == w.block && (w.falls >> static_cast<unsigned>(way) & 1u) != 0;
}

Polygon within(const Window& w, const Polygon& g) { return between_y(between_x(g, w.x0, w.x1), w.y0, w.y1); }

namespace {

std::uint8_t only(Way way) { return static_cast<std::uint8_t>(1u << static_cast<unsigned>(way)); }
std::uint8_t all_but(Way way) { return static_cast<std::uint8_t>(every_way & ~only(way)); }

constexpr Strip endless{-everywhere, everywhere};
Strip between(Length a, Length b) { return {std::min(a, b), std::max(a, b)}; }
Length half_way(Length a, Length b) { return 0.5 * (a + b); }
// Equal spaces, none above the greatest; at least one.
int spaces(Length whole, Length greatest) {
  return std::max(1, static_cast<int>(std::ceil(static_cast<double>((whole - same_place) / greatest))));
}
// The k-th of n equal spaces from a to b; the last is b itself.
Length stepped(Length a, Length b, int k, int n) { return k == n ? b : a + (b - a) * (static_cast<double>(k) / n); }

// One corner of a hip end. s is across the ridge. meets: where the hip meets the girder's line.
struct Corner {
  Side side;  // the wall along the ridge
  Length s, meets;
  std::size_t rafter;  // its hip rafter, among the members
};
// The part of the roof between an end wall and its girder. r is along the ridge. last_half: half-way from the creepers
// of the slopes across the ridge to the girder, where the girder's part of those slopes begins.
struct HipPart {
  const HipEnd* framing;
  Side side;
  Length wall, girder_at, apex, last_half;
  std::size_t girder;
  int side_spaces;
  Corner near, far;
};

// r runs along the ridge from the left or the front, s across it from the near wall.
class Framing {
 public:
  Framing(const House& h, const Shape& s) : house_(h), shape_(s), across_(h.roof.ridge == Along::across) {
    length_ = across_ ? h.across : h.up;
    span_ = across_ ? h.up : h.across;
    near_ = across_ ? Side::front : Side::left;
    far_ = across_ ? Side::back : Side::right;
    low_ = across_ ? Side::left : Side::front;
    high_ = across_ ? Side::right : Side::back;
  }

  Members made() {
    low_end_ = hip_end(low_);
    high_end_ = hip_end(high_);
    const auto strips = truss_strips();
    for (std::size_t t = 0; t < house_.trusses.size(); ++t) add_truss(t, strips[t]);
    for (std::size_t t = 0; t < house_.trusses.size(); ++t) add_inside_bearings(t);
    for (auto* end : {&low_end_, &high_end_})
      if (*end) frame(**end);
    for (Member& m : all_.members)
      std::stable_sort(m.bearings.begin(), m.bearings.end(),
                       [&](std::size_t a, std::size_t b) { return all_.bearings[a].u < all_.bearings[b].u; });
    order_from_top();
    return std::move(all_);
  }

 private:
  // ---- where things stand
  Point point(Length r, Length s) const { return across_ ? Point{r, s} : Point{s, r}; }
  Window window(const Strip& r, const Strip& s, std::uint8_t falls, bool past_end = false) const {
    const Strip x = across_ ? r : s, y = across_ ? s : r;
    return {x.from, x.to, y.from, y.to, falls, past_end};
  }
  Length line_of(Side side) const {
    switch (side) {
      case Side::left:
      case Side::front: return zero<Length>();
      case Side::right: return house_.across;
      case Side::back: return house_.up;
    }
    return zero<Length>();
  }
  // The wall under a side of the roof at a place along it: an outside wall, or where a wing stands against that side an
  // inside wall on its line. Where two meet, the outside one.
  std::size_t wall_on(Side side, Length place) const {
    std::optional<std::size_t> inside;
    const Along runs = is_across(outward(side)) ? Along::up : Along::across;
    for (std::size_t i = 0; i < house_.walls.size(); ++i) {
      const Wall& w = house_.walls[i];
      if (w.floor != top_floor(house_) || !stands_in(w, 0) || place < w.from - same_place || place > w.to + same_place)
        continue;
      if (w.outside && w.side == side) return i;
      if (!w.outside && w.runs == runs && apart(w.line, line_of(side)) <= same_place && !inside) inside = i;
    }
    if (!inside) throw std::logic_error("no wall under a side of the roof");
    return *inside;
  }
  Angle pitch(Side side) const {
    return house_.roof.own_pitch[static_cast<std::size_t>(side)].value_or(house_.roof.pitch);
  }
  bool hipped(Side side) const {
    return house_.roof.shape == RoofShape::hip && house_.roof.hipped[static_cast<std::size_t>(side)];
  }
  // How far the roof reaches along the ridge, overhangs with it.
  Strip reach() const {
    Strip r{zero<Length>(), length_};
    for (const Surface& s : shape_.surfaces)
      for (const Point& p : s.outline) {
        r.from = std::min(r.from, across_ ? p.x : p.y);
        r.to = std::max(r.to, across_ ? p.x : p.y);
      }
    return r;
  }

  std::optional<HipPart> hip_end(Side side) const {
    if (!hipped(side)) return std::nullopt;
    const auto framing =
        std::find_if(house_.hip_ends.begin(), house_.hip_ends.end(), [&](const HipEnd& e) { return e.side == side; });
    const bool low = side == low_;
    if (framing == house_.hip_ends.end() || house_.trusses.empty())
      throw std::logic_error("a hip end without its framing");
    const std::size_t girder = low ? 0 : house_.trusses.size() - 1;
    if (!house_.trusses[girder].girder) throw std::logic_error("a hip end without its girder");
    const Length wall = low ? zero<Length>() : length_, at = house_.trusses[girder].at, g = apart(wall, at);
    const double rises = tangent(pitch(side));
    const Length from_near = g * (rises / tangent(pitch(near_))), from_far = g * (rises / tangent(pitch(far_)));
    if (!(g > same_place && from_near > zero<Length>() && from_far > zero<Length>()))
      throw std::logic_error("a hip end without a slope or with its girder on the wall");
    if (!(framing->jacks > zero<Length>())) throw std::logic_error("jacks without a space between them");
    if (from_near + from_far > span_ + same_place) throw std::logic_error("a hip girder beyond the apex of its hip");
    const int n = spaces(g, framing->jacks);
    return HipPart{&*framing,
                   side,
                   wall,
                   at,
                   g * static_cast<double>(span_ / (from_near + from_far)),
                   half_way(stepped(wall, at, n - 1, n), at),
                   girder,
                   n,
                   {near_, zero<Length>(), from_near, 0},
                   {far_, span_, span_ - from_far, 0}};
  }

  // ---- trusses
  // As at a gable: half-way to the neighbours, the end ones out to the verge; at a hip end half-way to the creepers.
  std::vector<Strip> truss_strips() const {
    std::vector<Strip> all;
    const auto& t = house_.trusses;
    const Strip roof = reach();
    for (std::size_t i = 0; i < t.size(); ++i) {
      const Length low = low_end_ ? low_end_->last_half : roof.from, high = high_end_ ? high_end_->last_half : roof.to;
      all.push_back(
          {i == 0 ? low : half_way(t[i - 1].at, t[i].at), i + 1 == t.size() ? high : half_way(t[i].at, t[i + 1].at)});
    }
    return all;
  }
  // Between the girder and the apex of a hip. With a gable above there is none: behind the girder slope only the sides.
  bool truncated(Length at) const {
    for (const auto* end : {&low_end_, &high_end_})
      if (*end && house_.roof.gable_above[static_cast<std::size_t>((*end)->side)] <= zero<Length>() &&
          apart((*end)->wall, at) < (*end)->apex - same_place)
        return true;
    return false;
  }
  MemberKind kind_of_truss(const Truss& t) const {
    if (house_.roof.shape == RoofShape::skillion || house_.roof.shape == RoofShape::flat) return MemberKind::half;
    if (t.girder) return MemberKind::girder;
    return truncated(t.at) ? MemberKind::truncated : MemberKind::truss;
  }
  std::string place_of(Length at) const { return place(at, house_.print == Print::us ? us : metric); }

  void add_truss(std::size_t i, const Strip& strip) {
    const Truss& t = house_.trusses[i];
    Member m{.kind = kind_of_truss(t),
             .mark = t.mark,
             .words = only_once(fmt::format("{} at {}", t.mark, place_of(t.at))),
             .bracket = t.bracket,
             .onto = {},
             .plies = t.plies,
             .from = point(t.at, zero<Length>()),
             .to = point(t.at, span_),
             .carries = {},
             .bearings = {},
             .truss = i,
             .space = std::nullopt,
             .next = std::nullopt};
    const bool first = i == 0, last = i + 1 == house_.trusses.size();
    Strip main = strip;
    const bool girder_low = first && low_end_, girder_high = last && high_end_;
    const bool verge_low = first && !low_end_ && t.at - strip.from > same_place;
    const bool verge_high = last && !high_end_ && strip.to - t.at > same_place;
    if (girder_low || verge_low) main.from = t.at;
    if (girder_high || verge_high) main.to = t.at;
    // A girder: on its way to the wall only the slopes at the sides; the end slope there is the jacks'.
    if (girder_low) m.carries.push_back(window({strip.from, t.at}, endless, all_but(outward(low_))));
    if (verge_low) m.carries.push_back(window({strip.from, t.at}, endless, every_way, true));
    if (main.to > main.from) m.carries.push_back(window(main, endless, every_way));
    if (verge_high) m.carries.push_back(window({t.at, strip.to}, endless, every_way, true));
    if (girder_high) m.carries.push_back(window({t.at, strip.to}, endless, all_but(outward(high_))));
    if ((verge_low || verge_high) && house_.trusses.size() > 1) {
      m.next = first ? i + 1 : i - 1;
      m.space = apart(house_.trusses[*m.next].at, t.at);
    }
    all_.members.push_back(std::move(m));
    for (const Side side : {near_, far_}) {
      if (t.clear_of == side) {
        stick_out(i, side, strip);
        continue;
      }
      const std::size_t wall = wall_on(side, t.at);
      bear(i, side == near_ ? zero<Length>() : span_, {{wall, t.at - house_.walls[wall].from, strip.from, strip.to}},
           only_once(fmt::format("{} at {} {}", t.mark, place_of(t.at), words(side))));
    }
  }
  // It bears on the inside wall nearest to that side. The wind in the recess blows on that wall's face, whose top the
  // bearing props; what it holds is parted there.
  void stick_out(std::size_t i, Side side, const Strip& strip) {
    const Truss& t = house_.trusses[i];
    const std::vector<std::size_t> on = inside_walls(t);
    if (on.empty()) throw std::logic_error("a truss clear of a wall without a wall set back from it");
    const std::size_t wall = side == near_ ? on.front() : on.back(), outside = wall_on(side, t.at);
    const Length line = house_.walls[wall].line;
    Member& m = all_.members[i];
    m.clear = {.side = side,
               .wall = outside,
               .set_back = all_.bearings.size(),
               .depth = side == near_ ? line : span_ - line,
               .from = strip.from,
               .to = strip.to};
    std::vector<Window> parted;
    for (const Window& w : m.carries)
      for (const bool low : {true, false}) {
        parted.push_back(w);
        (across_ ? (low ? parted.back().y1 : parted.back().y0) : (low ? parted.back().x1 : parted.back().x0)) = line;
      }
    m.carries = std::move(parted);
    bear(i, line, {{wall, t.at - house_.walls[wall].from, strip.from, strip.to}},
         only_once(fmt::format("{} at {} on {}", t.mark, place_of(t.at), house_.walls[wall].name)));
  }
  // Those that it bears on as well, from near to far.
  std::vector<std::size_t> inside_walls(const Truss& t) const {
    std::vector<std::size_t> on;
    for (const std::string& name : t.also_on) {
      const auto w =
          std::find_if(house_.walls.begin(), house_.walls.end(), [&](const Wall& x) { return x.name == name; });
      if (w == house_.walls.end() || w->outside || w->runs != house_.roof.ridge || !(w->line > zero<Length>()) ||
          !(w->line < span_) || t.at < w->from - same_place || t.at > w->to + same_place)
        throw std::logic_error("a truss on a wall that does not stand under it");
      on.push_back(static_cast<std::size_t>(w - house_.walls.begin()));
    }
    std::stable_sort(on.begin(), on.end(),
                     [&](std::size_t a, std::size_t b) { return house_.walls[a].line < house_.walls[b].line; });
    for (std::size_t k = 1; k < on.size(); ++k)
      if (house_.walls[on[k]].line - house_.walls[on[k - 1]].line <= same_place)
        throw std::logic_error("a truss that bears twice at one place");
    return on;
  }
  // An inside wall props nothing of what blows on the outside.
  void add_inside_bearings(std::size_t i) {
    const Truss& t = house_.trusses[i];
    std::vector<std::size_t> on = inside_walls(t);
    if (t.clear_of && !on.empty()) on.erase(*t.clear_of == near_ ? on.begin() : on.end() - 1);
    for (const std::size_t w : on)
      bear(i, house_.walls[w].line, {{w, t.at - house_.walls[w].from, zero<Length>(), zero<Length>()}},
           only_once(fmt::format("{} at {} on {}", t.mark, place_of(t.at), house_.walls[w].name)));
  }

  // ---- hip ends
  void frame(HipPart& end) {
    // Along the end wall: rafter, creepers, jacks, creepers, rafter, each half-way to its neighbours.
    const HipEnd& f = *end.framing;
    const int near_spaces = spaces(end.near.meets, f.jacks), far_spaces = spaces(span_ - end.far.meets, f.jacks);
    const Length middle = end.far.meets - end.near.meets;
    // Where both hips meet the girder at its apex one jack stands beside both.
    const bool at_apex = middle <= same_place;
    const int jack_spaces = at_apex ? 0 : spaces(middle, f.jacks);
    std::vector<Length> at;
    for (int k = 0; k < near_spaces; ++k) at.push_back(stepped(end.near.s, end.near.meets, k, near_spaces));
    const std::size_t first_jack = at.size();
    if (at_apex) at.push_back(half_way(end.near.meets, end.far.meets));
    else
      for (int k = 0; k <= jack_spaces; ++k) at.push_back(stepped(end.near.meets, end.far.meets, k, jack_spaces));
    const std::size_t last_jack = at.size() - 1;
    for (int k = 1; k <= far_spaces; ++k) at.push_back(stepped(end.far.meets, end.far.s, k, far_spaces));

    const std::size_t jacks = last_jack + 1 - first_jack,
                      creepers = at.size() - 2 - jacks + 2 * static_cast<std::size_t>(end.side_spaces - 1);
    end.near.rafter = all_.members.size() + jacks + creepers;
    end.far.rafter = end.near.rafter + 1;

    const auto along_end = [&](std::size_t i, const Strip& whole) {
      return Strip{i == 0 ? whole.from : half_way(at[i - 1], at[i]),
                   i + 1 == at.size() ? whole.to : half_way(at[i], at[i + 1])};
    };
    for (std::size_t i = first_jack; i <= last_jack; ++i) add_jack(end, at[i], along_end(i, endless));
    for (std::size_t i = 1; i < first_jack; ++i) add_end_creeper(end, end.near, at[i], along_end(i, endless));
    for (std::size_t i = last_jack + 1; i + 1 < at.size(); ++i)
      add_end_creeper(end, end.far, at[i], along_end(i, endless));
    for (const Corner* c : {&end.near, &end.far})
      for (int k = 1; k < end.side_spaces; ++k) add_side_creeper(end, *c, k);
    const Strip side{zero<Length>(), span_};
    add_rafter(end, end.near, along_end(0, endless), along_end(0, side));
    add_rafter(end, end.far, along_end(at.size() - 1, endless), along_end(at.size() - 1, side));
  }
  // What of the end slope stands before the girder, within a strip across the ridge.
  Window of_end_slope(const HipPart& end, const Strip& s) const {
    const Length outwards = end.side == low_ ? -everywhere : everywhere;
    return window(between(outwards, end.girder_at), s, only(outward(end.side)));
  }

  // A jack or creeper from its wall; words and bearing on that wall are the same.
  Member short_jack(MemberKind kind, const HipPart& end, Side side, Length along_wall, const Point& from,
                    const Point& to) {
    const HipEnd& f = *end.framing;
    return {.kind = kind,
            .mark = f.jack,
            .words = only_once(fmt::format("{} at {} {}", f.jack, place_of(along_wall), words(side))),
            .bracket = f.jack_bracket,
            .onto = f.jack_onto,
            .plies = 1,
            .from = from,
            .to = to,
            .carries = {},
            .bearings = {},
            .truss = std::nullopt,
            .space = std::nullopt,
            .next = std::nullopt};
  }
  // Puts it among the members, with its foot on the wall and its head on another member.
  void stand(Member m, std::vector<Foot> feet, Length length, std::size_t onto, std::string_view onto_words,
             Length onto_u) {
    const std::size_t i = all_.members.size();
    const std::string foot = m.words, head = fmt::format("{} onto {}", foot, onto_words);
    all_.members.push_back(std::move(m));
    bear(i, zero<Length>(), std::move(feet), foot);
    bear(i, length, {}, head, onto, onto_u);
  }
  void add_jack(const HipPart& end, Length s, Strip strip) {
    Member m = short_jack(MemberKind::jack, end, end.side, s, point(end.wall, s), point(end.girder_at, s));
    m.carries = {of_end_slope(end, strip)};
    const std::size_t w = wall_on(end.side, s);
    stand(std::move(m), {{w, s - house_.walls[w].from, strip.from, strip.to}}, apart(end.wall, end.girder_at),
          end.girder, house_.trusses[end.girder].mark, s);
  }
  void add_end_creeper(const HipPart& end, const Corner& c, Length s, const Strip& strip) {
    const double part = static_cast<double>((s - c.s) / (c.meets - c.s));
    const Length to = end.wall + (end.girder_at - end.wall) * part;
    Member m = short_jack(MemberKind::creeper, end, end.side, s, point(end.wall, s), point(to, s));
    m.carries = {of_end_slope(end, strip)};
    const std::size_t w = wall_on(end.side, s);
    stand_on_rafter(std::move(m), {w, s - house_.walls[w].from, strip.from, strip.to}, apart(end.wall, to), end, c,
                    part);
  }
  void add_side_creeper(const HipPart& end, const Corner& c, int k) {
    const auto station = [&](int i) { return stepped(end.wall, end.girder_at, i, end.side_spaces); };
    const Length r = station(k);
    const Strip strip = between(half_way(station(k - 1), r), half_way(r, station(k + 1)));
    const double part = static_cast<double>((r - end.wall) / (end.girder_at - end.wall));
    const Length to = c.s + (c.meets - c.s) * part;
    Member m = short_jack(MemberKind::creeper, end, c.side, r, point(r, c.s), point(r, to));
    m.carries = {window(strip, endless, only(outward(c.side)))};
    const std::size_t w = wall_on(c.side, r);
    stand_on_rafter(std::move(m), {w, r - house_.walls[w].from, strip.from, strip.to}, apart(c.s, to), end, c, part);
  }
  Length rafter_length(const HipPart& end, const Corner& c) const {
    const Length g = apart(end.wall, end.girder_at), y = apart(c.s, c.meets);
    return sqrt(g * g + y * y);
  }
  // "H1 front left": front or back first.
  std::string rafter_words(const HipPart& end, const Corner& c) const {
    return fmt::format("{} {} {}", end.framing->rafter, words(across_ ? c.side : end.side),
                       words(across_ ? end.side : c.side));
  }
  void stand_on_rafter(Member m, const Foot& foot, Length length, const HipPart& end, const Corner& c, double part) {
    stand(std::move(m), {foot}, length, c.rafter, rafter_words(end, c), rafter_length(end, c) * part);
  }
  // It holds the first half space at its corner, of both slopes, overhangs with it. It stands on both walls' ends.
  void add_rafter(const HipPart& end, const Corner& c, const Strip& strip, const Strip& of_wall) {
    const std::size_t end_wall = wall_on(end.side, c.s), side_wall = wall_on(c.side, end.wall);
    const Length half = half_way(stepped(end.wall, end.girder_at, 0, end.side_spaces),
                                 stepped(end.wall, end.girder_at, 1, end.side_spaces));
    const bool low = end.side == low_;
    Member m{.kind = MemberKind::hip_rafter,
             .mark = end.framing->rafter,
             .words = rafter_words(end, c),
             .bracket = end.framing->rafter_bracket,
             .onto = end.framing->rafter_onto,
             .plies = 1,
             .from = point(end.wall, c.s),
             .to = point(end.girder_at, c.meets),
             .carries = {of_end_slope(end, strip),
                         window(between(low ? -everywhere : everywhere, half), endless, only(outward(c.side)))},
             .bearings = {},
             .truss = std::nullopt,
             .space = std::nullopt,
             .next = std::nullopt};
    const Wall &ew = house_.walls[end_wall], &sw = house_.walls[side_wall];
    const Strip of_side = between(low ? zero<Length>() : length_, half);
    const Length on_end = std::clamp(c.s - ew.from, zero<Length>(), ew.length()),
                 on_side = std::clamp(end.wall - sw.from, zero<Length>(), sw.length());
    stand(std::move(m), {{end_wall, on_end, of_wall.from, of_wall.to}, {side_wall, on_side, of_side.from, of_side.to}},
          rafter_length(end, c), end.girder, house_.trusses[end.girder].mark, c.meets);
  }

  // ---- bearings and words
  void bear(std::size_t member, Length u, std::vector<Foot> feet, std::string said,
            std::optional<std::size_t> onto = std::nullopt, Length onto_u = zero<Length>()) {
    all_.members[member].bearings.push_back(all_.bearings.size());
    all_.bearings.push_back({member, u, std::move(feet), onto, onto_u, std::move(said)});
  }
  // Where two of one mark stand so near that their places print alike the second has "(2)" behind it.
  std::string only_once(std::string said) {
    std::string r = said;
    for (int n = 2; !spoken_.insert(r).second; ++n) r = fmt::format("{} ({})", said, n);
    return r;
  }
  void order_from_top() {
    const auto rank = [](MemberKind k) {
      return k == MemberKind::creeper ? 0 : k == MemberKind::jack || k == MemberKind::hip_rafter ? 1 : 2;
    };
    for (int r = 0; r < 3; ++r)
      for (std::size_t i = 0; i < all_.members.size(); ++i)
        if (rank(all_.members[i].kind) == r) all_.from_top.push_back(i);
  }

  const House& house_;
  const Shape& shape_;
  bool across_;
  Length length_, span_;
  Side near_, far_, low_, high_;
  std::optional<HipPart> low_end_, high_end_;
  std::set<std::string> spoken_;
  Members all_;
};

}  // namespace

// The wing's truss at the joint holds what of its roof lies on the main block as far as the wing holds it.
static Window past_joint(Window w, const Wing& wing) {
  const auto open = [](Length& edge, Length joint, Length to) {
    if (apart(edge, joint) <= same_place) edge = to;
  };
  switch (wing.joint) {
    case Side::left: open(w.x0, zero<Length>(), -everywhere); break;
    case Side::front: open(w.y0, zero<Length>(), -everywhere); break;
    case Side::right: open(w.x1, wing.across, everywhere); break;
    case Side::back: open(w.y1, wing.up, everywhere); break;
  }
  return w;
}

// In the main block's axes, and by numbers of all blocks together.
static void add_block(Members& all, Members block, std::size_t number, const Point& corner, const House& house) {
  const std::size_t members = all.members.size(), bearings = all.bearings.size();
  const auto shift = [&](Point& p) { p = {p.x + corner.x, p.y + corner.y}; };
  for (Member& m : block.members) {
    m.block = number;
    shift(m.from);
    shift(m.to);
    for (Window& w : m.carries) {
      if (number > 0) w = past_joint(w, house.wings[number - 1]);
      w = {w.x0 + corner.x, w.x1 + corner.x, w.y0 + corner.y, w.y1 + corner.y, w.falls, w.past_end, number};
    }
    for (std::size_t& b : m.bearings) b += bearings;
    if (m.next) *m.next += members;
    if (m.clear) {
      const Length off = house.walls[m.clear->wall].runs == Along::across ? corner.x : corner.y;
      m.clear->set_back += bearings;
      m.clear->from += off;
      m.clear->to += off;
    }
    all.members.push_back(std::move(m));
  }
  for (Bearing& b : block.bearings) {
    b.member += members;
    if (b.onto) *b.onto += members;
    for (Foot& f : b.feet) {
      const Length off = house.walls[f.wall].runs == Along::across ? corner.x : corner.y;
      f.from += off;
      f.to += off;
    }
    all.bearings.push_back(std::move(b));
  }
  for (const std::size_t m : block.from_top) all.from_top.push_back(m + members);
}

Members members_of(const House& house, const Shape& shape) {
  if (house.wings.empty()) return Framing(house, shape).made();
  Members all;
  for (std::size_t b = 0; b <= house.wings.size(); ++b) {
    const House view = seen_from(house, b);
    add_block(all, Framing(view, shape_of(view)).made(), b, {left_of(house, b), front_of(house, b)}, house);
  }
  return all;
}

}  // namespace belay
