#include "load_path/set_out.hpp"

#include "capacity/perforated.hpp"
#include "load_path/formulas.hpp"
#include "load_path/joists.hpp"
#include "units/sizes.hpp"

#include <algorithm>
#include <cmath>

namespace belay {

std::string_view end_word(const Wall& w, End e) {
  if (w.runs == Along::across) return e == End::left ? "left" : "right";
  return e == End::left ? "front" : "back";
}

namespace {

bool near(Length a, Length b, Length within) { return apart(a, b) <= within + same_place; }

// Where its plate is parted though no opening stands there: at the joints of frames, and where the floor steps.
std::vector<Length> partings(const Wall& wall) {
  std::vector<Length> r = wall.steps;
  for (const ShopFrame& f : wall.frames) r.push_back(f.to);
  std::sort(r.begin(), r.end());
  return r;
}
// The lengths of bottom plate between doors and those places.
std::vector<Plate> plates_of(const Wall& wall) {
  std::vector<Plate> r;
  Length start = zero<Length>();
  const std::vector<Length> parted = partings(wall);
  const auto close = [&](Length end) {
    for (const Length& at : parted)
      if (at > start + same_place && at < end - same_place) {
        r.push_back({start, at, {}});
        start = at;
      }
    if (end - start > same_place) r.push_back({start, end, {}});
  };
  for (const Piece& p : wall.pieces)
    if (p.opening && p.opening->door) {
      close(p.from);
      start = p.to;
    }
  close(wall.length());
  return r;
}

}  // namespace

std::string found_words(const House& h, const Brace& b) {
  if (!b.found) return {};
  if (b.found->missing) return "nothing stands there";
  std::string r;
  const auto say = [&](const std::string& words) { r += (r.empty() ? "" : ", ") + words; };
  if (b.found->planned) say(fmt::format("{} for {}", b.fixing.name, b.found->planned->name));
  if (b.found->foot_moved) say(fmt::format("foot at its {} end", words(*b.foot)));
  if (b.measured()) {
    std::string angles;
    for (const Angle& a : b.found->angles)
      angles += (angles.empty() ? "" : " and ") + text(a, h.print == Print::us ? us : metric);
    say(fmt::format("at {} to the plate", angles));
  }
  return r;
}

namespace {

class Setter {
 public:
  Setter(const House& h, std::size_t wall, const Table& practice)
      : house_(h),
        wall_(h.walls[wall]),
        index_(wall),
        near_(practice.get<Length>("anchor_near", "within")),
        plates_(plates_of(wall_)) {
    const Joists* j = joists_under(h, wall_.floor);
    if (!wall_.anchor_each_joist || !j || j->runs == wall_.runs) return;
    // Not those under the outside walls that run as the joists do: the wall ends there.
    const std::vector<Length> all = joist_places(h, wall_.floor);
    for (std::size_t i = 1; i + 1 < all.size(); ++i) joists_.push_back(all[i] - wall_.from);
  }

  WallSetOut run() {
    hold_downs();
    jambs();
    plate_ends();
    each_joist();
    brace_ends_without_hold_down();
    equal_spaces();
    as_found();
    return finish();
  }

 private:
  std::optional<std::size_t> plate_at(Length x) const {
    for (std::size_t i = 0; i < plates_.size(); ++i)
      if (x >= plates_[i].from - same_place && x <= plates_[i].to + same_place) return i;
    return std::nullopt;
  }
  void put(Length at, FixingKind kind, const Chosen& fixing, std::size_t plate) {
    out_.supports.push_back({index_, at, kind, fixing, plate, {}, {}, zero<Length>(), zero<Length>()});
  }
  // The nearest fixing within reach of a place, on the same length of plate; hold-downs before others.
  Support* within_reach(Length x, std::optional<std::size_t> plate) {
    Support* best = nullptr;
    const auto rank = [&](const Support& s) {
      return std::pair(s.kind == FixingKind::hold_down ? 0 : 1, apart(s.at, x));
    };
    for (Support& s : out_.supports)
      if ((!plate || s.plate == *plate) && near(s.at, x, near_) && (!best || rank(s) < rank(*best))) best = &s;
    return best;
  }

  void hold_downs() {
    for (std::size_t i = 0; i < wall_.pieces.size(); ++i) {
      const Piece& p = wall_.pieces[i];
      if (!p.brace || !p.brace->hold_down.given()) continue;
      const Length in = std::min(p.brace->hold_down_in, (p.to - p.from) / 2.0);
      for (const End e : {End::left, End::right}) {
        if (!held_down(i, e)) continue;
        const Length at = e == End::left ? p.from + in : p.to - in;
        const auto plate = plate_at((p.from + p.to) / 2.0);  // a brace stands on one plate
        if (!plate) continue;
        // Both ends of a short brace, or the ends of two braces, on one place: one fixing there serves both. Which of
        // two different ones it is, nobody says.
        if (Support* there = standing_at(at, *plate)) {
          if (there->fixing.name != p.brace->hold_down.name) there->fixing = {};
          there->ends.push_back({i, e});
          continue;
        }
        put(at, FixingKind::hold_down, p.brace->hold_down, *plate);
        out_.supports.back().ends.push_back({i, e});
      }
    }
  }

  // Not where a perforated wall goes on past this end of its piece.
  bool held_down(std::size_t piece, End e) const {
    const auto all = perforated_wall(house_, wall_, piece);
    return !all || piece == (e == End::left ? all->parts.front().piece : all->parts.back().piece);
  }

  // How far from a jamb its fixing stands: as a hold-down from its brace's end, or in the middle of a narrow pier. A
  // pier between two openings is narrow when one fixing can serve both its jambs.
  Length place_beside(Length edge, End e, const Plate& plate) const {
    const Length in = practice_in();
    Length limit_low = plate.from, limit_high = plate.to;
    bool another = false;
    for (const Piece& q : wall_.pieces) {
      if (!q.opening) continue;
      if (e == End::left && q.to <= edge - same_place && q.to >= limit_low) {
        limit_low = q.to;
        another = true;
      }
      if (e == End::right && q.from >= edge + same_place && q.from <= limit_high) {
        limit_high = q.from;
        another = true;
      }
    }
    const Length pier = e == End::left ? edge - limit_low : limit_high - edge;
    const Length away =
        another && pier <= std::min(in, near_) + near_ + same_place ? pier / 2.0 : std::min(in, pier / 2.0);
    return e == End::left ? edge - away : edge + away;
  }
  Length practice_in() const { return wall_.fixing_in; }

  void jambs() {
    for (std::size_t i = 0; i < wall_.pieces.size(); ++i) {
      const Piece& p = wall_.pieces[i];
      if (!p.opening) continue;
      for (const End e : {End::left, End::right}) {
        const Length edge = e == End::left ? p.from : p.to;
        // The stud stands on the solid side of the edge.
        const Length stud = e == End::left ? edge - 2.0 * same_place : edge + 2.0 * same_place;
        const auto plate = plate_at(stud);
        if (!plate) {
          out_.loose_jambs.push_back({i, e});
          continue;
        }
        Support* s = within_reach_of_jamb(edge, e, *plate);
        const Length at = place_beside(edge, e, plates_[*plate]);
        if (!s) s = standing_at(at, *plate);
        if (!s) {
          put(at, p.opening->jamb.given() ? FixingKind::jamb : FixingKind::anchor,
              p.opening->jamb.given() ? p.opening->jamb : wall_.anchor, *plate);
          s = &out_.supports.back();
        }
        s->jambs.push_back({i, e});
      }
    }
  }
  // A fixing that stands on the very place: two never do.
  Support* standing_at(Length x, std::size_t plate) {
    for (Support& s : out_.supports)
      if (s.plate == plate && near(s.at, x, same_place)) return &s;
    return nullptr;
  }
  // Only a fixing on the jamb's own side of the opening can serve it.
  Support* within_reach_of_jamb(Length edge, End e, std::size_t plate) {
    Support* best = nullptr;
    for (Support& s : out_.supports) {
      const bool side = e == End::left ? s.at <= edge + same_place : s.at >= edge - same_place;
      if (s.plate != plate || !side || !near(s.at, edge, near_)) continue;
      const auto rank = [&](const Support& x) {
        return std::pair(x.kind == FixingKind::hold_down ? 0 : 1, apart(x.at, edge));
      };
      if (!best || rank(s) < rank(*best)) best = &s;
    }
    return best;
  }

  void plate_ends() {
    for (std::size_t i = 0; i < plates_.size(); ++i) {
      const Plate& p = plates_[i];
      const Length in = std::min(practice_in(), (p.to - p.from) / 2.0);
      for (const Length& end : {p.from, p.to}) {
        const Length at = joist_near(end, p).value_or(end == p.from ? end + in : end - in);
        if (!within_reach(end, i) && !standing_at(at, i)) put(at, FixingKind::anchor, wall_.anchor, i);
      }
    }
  }

  // The joist nearest to a plate's end that the plate covers, within reach of it.
  std::optional<Length> joist_near(Length end, const Plate& p) const {
    std::optional<Length> r;
    for (const Length& x : joists_)
      if (x > p.from && x < p.to && near(x, end, near_) && (!r || near(x, end, apart(*r, end)))) r = x;
    return r;
  }
  // Not beside a fixing that stands on the same joist, or so near that both would be in one another's way.
  void each_joist() {
    for (std::size_t i = 0; i < plates_.size(); ++i)
      for (const Length& x : joists_) {
        if (x <= plates_[i].from || x >= plates_[i].to) continue;
        const bool taken = std::ranges::any_of(out_.supports, [&](const Support& s) {
          return s.plate == i && near(s.at, x, joists_under(house_, wall_.floor)->width);
        });
        if (!taken) put(x, FixingKind::anchor, wall_.anchor, i);
      }
  }

  // A brace without hold-downs of its own leans on what stands within reach of its ends.
  void brace_ends_without_hold_down() {
    for (std::size_t i = 0; i < wall_.pieces.size(); ++i) {
      const Piece& p = wall_.pieces[i];
      if (!p.brace || p.brace->hold_down.given()) continue;
      for (const End e : {End::left, End::right}) {
        if (!held_down(i, e)) continue;
        const Length edge = e == End::left ? p.from : p.to;
        const auto plate = plate_at(e == End::left ? edge + 2.0 * same_place : edge - 2.0 * same_place);
        if (Support* s = plate ? within_reach(edge, *plate) : nullptr) s->ends.push_back({i, e});
        else out_.loose_ends.push_back({i, e});
      }
    }
  }

  void equal_spaces() {
    if (!joists_.empty()) return;
    for (std::size_t i = 0; i < plates_.size(); ++i) {
      std::vector<Length> at;
      for (const Support& s : out_.supports)
        if (s.plate == i) at.push_back(s.at);
      std::sort(at.begin(), at.end());
      for (std::size_t k = 1; k < at.size(); ++k) {
        const Length gap = at[k] - at[k - 1];
        const auto spaces = static_cast<int>(std::ceil(static_cast<double>((gap - same_place) / wall_.anchor_spacing)));
        for (int n = 1; n < spaces; ++n)
          put(at[k - 1] + gap * (static_cast<double>(n) / spaces), FixingKind::anchor, wall_.anchor, i);
      }
    }
  }

  // ---- as it was found
  std::string said(Length at) const { return place(at, house_.print == Print::us ? us : metric); }
  void as_found() {
    std::stable_sort(out_.supports.begin(), out_.supports.end(),
                     [](const Support& a, const Support& b) { return a.at < b.at; });
    const std::vector<Support> plan = out_.supports;
    std::vector<bool> gone(plan.size(), false), met(plan.size(), false);
    for (const AsBuilt& b : house_.as_built) {
      if (b.wall != wall_.name) continue;
      if (!b.planned) {
        add_unplanned(b);
        continue;
      }
      std::size_t i = 0;
      while (i < plan.size() && !near(plan[i].at, *b.planned, found_within - same_place)) ++i;
      if (i == plan.size()) {
        out_.unclear.push_back(fmt::format("no fixing is planned at {} on wall {}{}", said(*b.planned), wall_.name,
                                           nearest_planned(plan, *b.planned)));
        continue;
      }
      if (met[i]) {
        out_.unclear.push_back(
            fmt::format("two entries speak of the fixing planned at {} on wall {}", said(plan[i].at), wall_.name));
        continue;
      }
      met[i] = true;
      if (b.missing) {
        gone[i] = true;
        out_.as_built.push_back(fmt::format("nothing stands at {}", said(plan[i].at)));
        continue;
      }
      found(out_.supports[i], b);
    }
    take_away(gone);
    for (const Piece& p : wall_.pieces)
      if (const std::string differs = p.brace ? found_words(house_, *p.brace) : std::string(); !differs.empty())
        out_.as_built.push_back(fmt::format("brace {}: {}", p.brace->name, differs));
  }
  static std::string nearest_planned(const std::vector<Support>&, Length);
  void found(Support& s, const AsBuilt& b) {
    std::string differs;
    const auto say = [&](const std::string& words) { differs += (differs.empty() ? "" : ", ") + words; };
    if (b.at && !near(*b.at, s.at, zero<Length>())) {
      const auto plate = plate_at(*b.at);
      if (!plate || *plate != s.plate) {
        out_.unclear.push_back(fmt::format("the fixing planned at {} on wall {} was found at {}: {}", said(s.at),
                                           wall_.name, said(*b.at),
                                           plate ? "that is another length of bottom plate" : "no plate runs there"));
        return;
      }
      if (const Support* there = standing_at(*b.at, *plate); there && there != &s) {
        out_.unclear.push_back(
            fmt::format("two fixings of wall {} were found on one place, {}", wall_.name, said(*b.at)));
        return;
      }
      s.planned = s.at;
      s.at = *b.at;
      say(fmt::format("found at {}", said(s.at)));
    }
    if (b.edge) {
      s.edge = b.edge;
      say(fmt::format("{} from the edge", size_text(*b.edge, house_.print == Print::us ? us : metric)));
    }
    if (b.use.given() && b.use.name != s.fixing.name) {
      say(fmt::format("{} for {}", b.use.name, s.fixing.given() ? s.fixing.name : "none"));
      s.fixing = b.use;
    }
    if (!differs.empty())
      out_.as_built.push_back(fmt::format("planned at {}: {}", said(s.planned.value_or(s.at)), differs));
  }
  void add_unplanned(const AsBuilt& b) {
    const auto plate = plate_at(*b.at);
    if (!plate || standing_at(*b.at, *plate)) {
      out_.unclear.push_back(fmt::format("one more fixing was found at {} on wall {}: {}", said(*b.at), wall_.name,
                                         plate ? "one stands there in the plan" : "no plate runs there"));
      return;
    }
    put(*b.at, FixingKind::anchor, b.use, *plate);
    out_.supports.back().edge = b.edge;
    out_.as_built.push_back(fmt::format("one more, {}, at {}", b.use.name, said(*b.at)));
  }
  // The last of a plate stays to say what is missing: nothing else could.
  void take_away(const std::vector<bool>& gone) {
    std::vector<Support> left;
    for (std::size_t i = 0; i < out_.supports.size(); ++i) {
      Support& s = out_.supports[i];
      if (i >= gone.size() || !gone[i]) {
        left.push_back(std::move(s));
        continue;
      }
      const bool last = std::none_of(out_.supports.begin(), out_.supports.end(), [&](const Support& x) {
        const auto k = static_cast<std::size_t>(&x - out_.supports.data());
        return x.plate == s.plate && k != i && (k >= gone.size() || !gone[k]);
      });
      const bool kept =
          std::any_of(left.begin(), left.end(), [&](const Support& x) { return x.plate == s.plate && x.missing; });
      if (last && !kept) {
        s.missing = true;
        s.fixing = {};
        left.push_back(std::move(s));
        continue;
      }
      out_.loose_ends.insert(out_.loose_ends.end(), s.ends.begin(), s.ends.end());
      out_.loose_jambs.insert(out_.loose_jambs.end(), s.jambs.begin(), s.jambs.end());
    }
    out_.supports = std::move(left);
  }

  WallSetOut finish() {
    std::stable_sort(out_.supports.begin(), out_.supports.end(),
                     [](const Support& a, const Support& b) { return a.at < b.at; });
    for (std::size_t i = 0; i < out_.supports.size(); ++i) {
      Support& s = out_.supports[i];
      s.from = i == 0 ? zero<Length>() : out_.supports[i - 1].to;
      s.to = wall_.length();
      if (i + 1 < out_.supports.size()) s.to = boundary(s, out_.supports[i + 1]);
      plates_[s.plate].supports.push_back(i);
    }
    pieces_without_fixing();
    out_.plates = std::move(plates_);
    return std::move(out_);
  }
  // A piece, as planned, in the middle of a perforated wall under which nothing fixes the plate: nothing holds that
  // piece.
  void pieces_without_fixing() {
    for (std::size_t i = 0; i < wall_.pieces.size(); ++i) {
      const Piece& p = wall_.pieces[i];
      const auto all = p.brace ? perforated_wall(house_, wall_, i) : std::nullopt;
      if (!all) continue;
      const bool counts = std::any_of(all->parts.begin(), all->parts.end(),
                                      [&](const PerforatedWall::Part& part) { return part.counts && part.piece == i; });
      const bool fixed = std::any_of(out_.supports.begin(), out_.supports.end(), [&](const Support& s) {
        return !s.missing && s.at >= p.from - same_place && s.at <= p.to + same_place;
      });
      if (counts && !fixed) out_.loose_ends.push_back({i, End::left});
    }
  }
  // Half-way to the neighbour on the same plate; across a door, the middle of the door; at a joint, the joint.
  Length boundary(const Support& a, const Support& b) const {
    if (a.plate == b.plate) return (a.at + b.at) / 2.0;
    return (plates_[a.plate].to + plates_[b.plate].from) / 2.0;
  }

  // A tape on site and a plan in whole millimetres speak of one place when they are no further apart.
  static constexpr Length found_within = Length::from_value(0.010);

  const House& house_;
  const Wall& wall_;
  std::size_t index_;
  Length near_;
  std::vector<Plate> plates_;
  std::vector<Length> joists_;  // that the wall crosses and has an anchor at, from its start; empty: equal spaces
  WallSetOut out_;
};

std::string Setter::nearest_planned(const std::vector<Support>& plan, Length at) {
  if (plan.empty()) return {};
  const auto off = [&](const Support& s) { return apart(s.at, at); };
  const auto nearest =
      std::min_element(plan.begin(), plan.end(), [&](const Support& a, const Support& b) { return off(a) < off(b); });
  return fmt::format("; the nearest at {}", place(nearest->at, metric));
}

// A number and how it grows with x.
struct Growing {
  double v, d = 0.0;
  friend Growing operator+(Growing a, Growing b) { return {a.v + b.v, a.d + b.d}; }
  friend Growing operator-(Growing a, Growing b) { return {a.v - b.v, a.d - b.d}; }
  friend Growing operator*(Growing a, Growing b) { return {a.v * b.v, a.d * b.v + a.v * b.d}; }
  friend Growing operator/(Growing a, double b) { return {a.v / b, a.d / b}; }
  friend bool operator<(Growing a, double b) { return a.v < b; }
  friend bool operator>(Growing a, double b) { return a.v > b; }
  friend bool operator<=(Growing a, double b) { return a.v <= b; }
  friend bool operator>=(Growing a, double b) { return a.v >= b; }
};

// Bending moments at the supports of a continuous beam of even stiffness under a unit load at x (three-moment
// equation). Lengths in metres as plain numbers inside this file only: a linear system has no mixed dimensions to get
// wrong here. Number: double, or Growing for how the reactions change with x.
template <class Number> std::vector<Number> exact_continuous(const std::vector<double>& s, Number x) {
  const std::size_t n = s.size();
  const auto plain = [](double v) { return Number{v}; };
  std::vector<Number> m(n, plain(0.0)), r(n, plain(0.0));
  if (n == 1) return {plain(1.0)};
  if (x < s.front()) m.front() = plain(0.0) - (plain(s.front()) - x);
  if (x > s.back()) m.back() = plain(0.0) - (x - plain(s.back()));
  if (n > 2) {
    // Thomas algorithm on the n - 2 inner equations: l1 m0 + 2 (l1 + l2) m1 + l2 m2 = -6 A1 a1 / l1 - 6 A2 b2 / l2.
    std::vector<double> upper(n, 0.0);
    std::vector<Number> rhs(n, plain(0.0));
    for (std::size_t i = 1; i + 1 < n; ++i) {
      const double l1 = s[i] - s[i - 1], l2 = s[i + 1] - s[i];
      Number b = plain(0.0);
      if (x > s[i - 1] && x <= s[i]) {
        const Number before = x - plain(s[i - 1]);
        b = b - before * (plain(l1 * l1) - before * before) / l1;
      }
      if (x > s[i] && x < s[i + 1]) {
        const Number after = plain(s[i + 1]) - x;
        b = b - after * (plain(l2 * l2) - after * after) / l2;
      }
      if (i == 1) b = b - plain(l1) * m.front();
      if (i + 2 == n) b = b - plain(l2) * m.back();
      const double lower = i > 1 ? l1 : 0.0;
      const double pivot = 2.0 * (l1 + l2) - lower * upper[i - 1];
      upper[i] = i + 2 < n ? l2 / pivot : 0.0;
      rhs[i] = (b - plain(lower) * rhs[i - 1]) / pivot;
    }
    for (std::size_t i = n - 2; i >= 1; --i) m[i] = rhs[i] - plain(upper[i]) * (i + 2 < n ? m[i + 1] : plain(0.0));
  }
  for (std::size_t i = 0; i + 1 < n; ++i) {
    const double l = s[i + 1] - s[i];
    if (x >= s[i] && x < s[i + 1]) {
      r[i] = r[i] + (plain(s[i + 1]) - x) / l;
      r[i + 1] = r[i + 1] + (x - plain(s[i])) / l;
    }
    r[i] = r[i] + (m[i + 1] - m[i]) / l;
    r[i + 1] = r[i + 1] + (m[i] - m[i + 1]) / l;
  }
  if (x < s.front()) r.front() = r.front() + plain(1.0);
  if (x >= s.back()) r.back() = r.back() + plain(1.0);
  return r;
}

std::vector<double> numbers(const std::vector<Length>& v) {
  std::vector<double> r;
  for (const Length& l : v) r.push_back(static_cast<double>(l / metre));
  return r;
}

// A load past the end supports gives no relief to the others.
std::vector<double> without_relief(std::vector<double> r, const std::vector<Length>& s, Length x) {
  if (x < s.front() || x > s.back())
    for (double& k : r) k = std::max(k, 0.0);
  return r;
}

}  // namespace

std::vector<double> exact_lever_shares(const std::vector<Length>& s, Length x) {
  std::vector<double> r(s.size(), 0.0);
  const std::size_t last = s.size() - 1;
  if (last == 0) {
    r[0] = 1.0;
  } else if (x < s.front()) {
    r[0] = formulas::lever_past(nullptr, s.front() - x, s[1] - s[0]);
    r[1] = 1.0 - r[0];
  } else if (x > s.back()) {
    r[last] = formulas::lever_past(nullptr, x - s.back(), s[last] - s[last - 1]);
    r[last - 1] = 1.0 - r[last];
  } else {
    std::size_t i = 0;
    while (i + 2 < s.size() && x > s[i + 1]) ++i;
    r[i] = formulas::lever_left(nullptr, s[i + 1], x, s[i]);
    r[i + 1] = formulas::lever_right(nullptr, x, s[i], s[i + 1]);
  }
  return r;
}
std::vector<double> exact_continuous_shares(const std::vector<Length>& s, Length x) {
  return exact_continuous(numbers(s), static_cast<double>(x / metre));
}
std::vector<PerLength> exact_continuous_slopes(const std::vector<Length>& s, Length x) {
  std::vector<PerLength> r;
  for (const Growing& share : exact_continuous(numbers(s), Growing{static_cast<double>(x / metre), 1.0}))
    r.push_back(share.d / metre);
  return r;
}
std::vector<double> lever_shares(const std::vector<Length>& s, Length x) {
  return without_relief(exact_lever_shares(s, x), s, x);
}
std::vector<double> continuous_shares(const std::vector<Length>& s, Length x) {
  return without_relief(exact_continuous_shares(s, x), s, x);
}

WallSetOut set_out_wall(const House& house, std::size_t wall, const Table& practice) {
  return Setter(house, wall, practice).run();
}

}  // namespace belay
