// What would make links hold that fail: another entry of the supplier's sheets in the same place, or anchors closer
// together. Each is tried on the whole house before it is told.
#include "belay/check.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <functional>
#include <map>
#include <tuple>

namespace belay {

namespace {

// One statement of the job, and what it fixes.
struct Statement {
  std::string kind, name, by, at;
  friend bool operator==(const Statement&, const Statement&) = default;
};
Statement statement_of(const Link& l) { return {l.kind, l.fixing.name, l.fixing.by, l.fixing.at}; }

// Every fixing that the house names.
template <class Do> void each_chosen(House& h, const Do& act) {
  const auto trusses = [&](std::vector<Truss>& list, std::vector<HipEnd>& ends) {
    for (Truss& t : list) act(t.bracket);
    for (HipEnd& e : ends)
      for (Chosen* c : {&e.jack_bracket, &e.jack_onto, &e.rafter_bracket, &e.rafter_onto}) act(*c);
  };
  for (Wall& w : h.walls) {
    for (Piece& p : w.pieces) {
      if (p.opening) act(p.opening->jamb);
      if (!p.brace) continue;
      act(p.brace->fixing);
      act(p.brace->hold_down);
    }
    for (Chosen* c : {&w.anchor, &w.top_tie, &w.stud_tie, &w.plate_fixing}) act(*c);
  }
  trusses(h.trusses, h.hip_ends);
  for (Wing& w : h.wings) {
    trusses(w.trusses, w.hip_ends);
    if (w.valley) act(w.valley->onto);
  }
  if (h.first)
    for (Chosen* c : {&h.first->tie, &h.first->fixing}) act(*c);
  for (RoofBrace& b : h.roof_braces) act(b.fixing);
  for (Veranda& v : h.verandas)
    for (Chosen* c : {&v.at_wall, &v.at_beam, &v.post_top, &v.post_foot}) act(*c);
}
bool is_of(const Chosen& c, const Statement& s) { return c.name == s.name && c.by == s.by && c.at == s.at; }

House with_fixing(const House& h, const Statement& s, const std::string& name) {
  House changed = h;
  each_chosen(changed, [&](Chosen& c) {
    if (is_of(c, s)) c.name = name;
  });
  return changed;
}
House with_anchors_closer(const House& h, const Statement& s, Length spacing) {
  House changed = h;
  for (Wall& w : changed.walls)
    if (is_of(w.anchor, s)) w.anchor_spacing = std::min(w.anchor_spacing, spacing);
  return changed;
}

// ---- what may stand there instead

// In the order in which they are tried: set as before, then the weaker first.
struct Candidate {
  bool set_otherwise;
  double holds;  // for order alone
  std::string name;
};
// Of a strap that is worked out: what its whole section yields at.
Force for_order(const StrapBrace& b) {
  if (b.tension) return *b.tension;
  return b.yield && b.width && b.thickness ? *b.yield * *b.width * *b.thickness : zero<Force>();
}
// Others of the list. alike: whether an entry may stand in the other's place.
template <class Entry, class Holds, class Alike>
void add_others(std::vector<Candidate>& to, const std::vector<Entry>& list, const std::string& now, const Holds& holds,
                const Alike& alike) {
  const Entry* here = find(list, now);
  if (!here) return;
  for (const Entry& e : list)
    if (&e != here && alike(*here, e)) to.push_back({false, value(holds(e)).si, e.terms.name});
}
std::vector<Candidate> instead_of(const Fixings& f, const Statement& s) {
  std::vector<Candidate> r;
  const auto any = [](const auto&, const auto&) { return true; };
  add_others(
      r, f.brackets, s.name, [](const Bracket& b) { return b.uplift; }, any);
  add_others(
      r, f.ties, s.name, [](const Tie& t) { return t.pull; }, any);
  add_others(
      r, f.plates, s.name, [](const PlateFixing& p) { return p.pull; }, any);
  if (const Anchor* here = find(f.anchors, s.name))
    for (const Anchor& a : f.anchors) {
      const bool same_ground = in_concrete(a.how) == in_concrete(here->how) &&
                               (a.how == How::through_floor) == (here->how == How::through_floor);
      if (&a != here && same_ground) r.push_back({a.how != here->how, value(a.pull).si, a.terms.name});
    }
  add_others(
      r, f.perforated, s.name, [](const PerforatedBrace& b) { return b.racking; }, any);
  // A brace's length stays: what another sort needs of it is judged as everything else.
  const bool brace =
      find(f.straps, s.name) || find(f.sheets, s.name) || find(f.rated, s.name) || find(f.linings, s.name);
  if (s.kind == "roof brace") {
    add_others(r, f.straps, s.name, for_order,
               [](const StrapBrace& a, const StrapBrace& b) { return a.pair == b.pair; });
  } else if (brace) {
    const auto all = [&](const auto& list, bool sort, const auto& holds) {
      for (const auto& e : list)
        if (e.terms.name != s.name) r.push_back({!sort, value(holds(e)).si, e.terms.name});
    };
    all(f.sheets, find(f.sheets, s.name) != nullptr, [](const SheetBrace& b) { return b.racking; });
    all(f.rated, find(f.rated, s.name) != nullptr, [](const RatedBrace& b) { return b.racking; });
    for (const StrapBrace& b : f.straps)
      if (b.terms.name != s.name && b.pair)
        r.push_back({find(f.straps, s.name) == nullptr, value(for_order(b)).si, b.terms.name});
  }
  std::stable_sort(r.begin(), r.end(), [](const Candidate& a, const Candidate& b) {
    return std::tie(a.set_otherwise, a.holds) < std::tie(b.set_otherwise, b.holds);
  });
  return r;
}

// ---- more of the wall that braces

// Pieces of a wall, first to last, that others take the place of: a brace longer than it is, or more braces where plain
// wall was.
struct Bracing {
  std::size_t wall, first, last;
  std::vector<Piece> instead;
  std::vector<Remedy::More> said;
  Length added;
};
bool parted_within(const Wall& w, const Piece& p) {
  const auto inside = [&](Length at) { return at > p.from + same_place && at < p.to - same_place; };
  return std::any_of(w.steps.begin(), w.steps.end(), inside) ||
         std::any_of(w.frames.begin(), w.frames.end(), [&](const ShopFrame& f) { return inside(f.from); });
}
// Each by itself, the least added length first. Sheets alone: a strap or a bought unit has its own length.
std::vector<Bracing> more_bracing(const House& h, std::size_t wall) {
  const Wall& w = h.walls[wall];
  std::vector<Bracing> r;
  const auto sheet_of = [&](std::size_t i) {
    return i < w.pieces.size() && w.pieces[i].brace ? find(h.fixings.sheets, w.pieces[i].brace->fixing.name) : nullptr;
  };
  const auto add = [&](std::size_t first, std::size_t last, std::vector<Piece> instead, const std::string& longer) {
    Bracing b{wall, first, last, std::move(instead), {}, zero<Length>()};
    for (const Piece& p : b.instead) {
      if (!p.brace) continue;
      if (parted_within(w, p)) return;
      b.said.push_back({longer, p.brace->fixing.name, p.from, p.to});
      b.added += p.to - p.from;
    }
    for (std::size_t i = first; i <= last; ++i)
      if (w.pieces[i].brace) b.added -= w.pieces[i].to - w.pieces[i].from;
    r.push_back(std::move(b));
  };
  const auto plain = [](Length from, Length to) { return Piece{from, to, std::nullopt, std::nullopt}; };
  for (std::size_t i = 0; i < w.pieces.size(); ++i) {
    const Piece& p = w.pieces[i];
    const Length length = p.to - p.from;
    if (p.opening || p.brace || !(length > same_place)) continue;
    if (i > 0 && sheet_of(i - 1)) {
      const Brace& b = *w.pieces[i - 1].brace;
      add(i - 1, i, {{w.pieces[i - 1].from, p.to, std::nullopt, b}}, b.name);
    }
    if (sheet_of(i + 1)) {
      const Brace& b = *w.pieces[i + 1].brace;
      add(i, i + 1, {{p.from, w.pieces[i + 1].to, std::nullopt, b}}, b.name);
    }
    // New ones are like the first of this wall: one in the middle, one at either end, one all along.
    std::size_t like = 0;
    while (like < w.pieces.size() && !sheet_of(like)) ++like;
    if (like == w.pieces.size()) continue;
    const Brace& brace = *w.pieces[like].brace;
    const Length own = w.pieces[like].to - w.pieces[like].from;
    const auto braced = [&](Length from, Length to) { return Piece{from, to, std::nullopt, brace}; };
    if (length > own + same_place) {
      const Length from = p.from + 0.5 * (length - own);
      add(i, i, {plain(p.from, from), braced(from, from + own), plain(from + own, p.to)}, {});
    }
    if (length > 2.0 * own + same_place)
      add(i, i, {braced(p.from, p.from + own), plain(p.from + own, p.to - own), braced(p.to - own, p.to)}, {});
    if (length >= sheet_of(like)->least_length - same_place) add(i, i, {braced(p.from, p.to)}, {});
  }
  std::stable_sort(r.begin(), r.end(), [](const Bracing& a, const Bracing& b) { return a.added < b.added; });
  return r;
}
// From the wall's end, so that the pieces before keep their numbers; braces are counted anew.
House with_bracing(const House& h, std::vector<Bracing> more) {
  House changed = h;
  std::sort(more.begin(), more.end(), [](const Bracing& a, const Bracing& b) { return a.first > b.first; });
  for (const Bracing& b : more) {
    auto& pieces = changed.walls[b.wall].pieces;
    const auto at = [&](std::size_t i) { return pieces.begin() + static_cast<std::ptrdiff_t>(i); };
    pieces.erase(at(b.first), at(b.last + 1));
    pieces.insert(at(b.first), b.instead.begin(), b.instead.end());
    std::size_t n = 0;
    for (Piece& p : pieces)
      if (p.brace) p.brace->name = fmt::format("{}{}", changed.walls[b.wall].name, ++n);
  }
  return changed;
}
// All of them that leave each other their pieces, in their order.
std::vector<Bracing> side_by_side(const std::vector<Bracing>& all) {
  std::vector<Bracing> r;
  for (const Bracing& b : all)
    if (std::none_of(r.begin(), r.end(), [&](const Bracing& x) { return b.first <= x.last && x.first <= b.last; }))
      r.push_back(b);
  return r;
}
// What more bracing in a wall may help.
bool braced_kind(const std::string& kind) {
  return kind == "line" || kind == "least bracing" || kind == "brace" || kind == "hold-down";
}

// ---- whether it helps

struct Tally {
  std::size_t failed = 0, open = 0, all = 0;
};
// By kind and wall: anchors that stand elsewhere have other numbers.
std::map<std::pair<std::string, std::string>, Tally> tallies(const Result& r) {
  std::map<std::pair<std::string, std::string>, Tally> all;
  for (const Link& l : r.links) {
    Tally& t = all[{l.kind, l.where.wall}];
    t.failed += l.verdict == Verdict::fail;
    t.open += l.verdict == Verdict::not_judged;
    ++t.all;
  }
  return all;
}
bool nothing_worse(const Result& before, const Result& after) {
  const auto was = tallies(before);
  for (const auto& [of, now] : tallies(after)) {
    const auto then = was.find(of);
    const Tally old = then == was.end() ? Tally{} : then->second;
    // More anchors are more places that nobody judges, where nobody judges any.
    if (now.failed > old.failed || (now.open > old.open && (old.all == 0 || old.open < old.all))) return false;
  }
  return true;
}

// A house whose every second link fails wants another look, not a hundred trials.
constexpr std::size_t most_trials = 80;

struct Trial {
  Remedy remedy;
  std::function<House(const House&)> change;
};

class Trials {
 public:
  Trials(const House& house, const Table& method, const Table& practice, const Result& now)
      : house_(house), method_(method), practice_(practice), now_(now) {}

  // Another fixing, or anchors closer together, for all that one statement of the job fixes.
  std::optional<Trial> for_statement(const Statement& s) {
    const auto is_mine = [&](const Link& l) { return l.kind == s.kind && l.fixing.by == s.by && l.fixing.at == s.at; };
    for (const Candidate& c : instead_of(house_.fixings, s)) {
      auto t = tried([s, c](const House& h) { return with_fixing(h, s, c.name); }, is_mine);
      if (!t) {
        note_if_strong_enough(s, c.name, is_mine);
        continue;
      }
      t->remedy.now = {s.name, s.by, s.at};
      t->remedy.fixing = c.name;
      return t;
    }
    for (const auto& [anchors, space] : closer(s)) {
      const Statement anchor = anchors;
      const Length spacing = space;
      auto t = tried([anchor, spacing](const House& h) { return with_anchors_closer(h, anchor, spacing); }, is_mine);
      if (!t) continue;
      t->remedy.now = {anchor.name, anchor.by, anchor.at};
      t->remedy.fixing = anchor.name;
      t->remedy.spacing = spacing;
      return t;
    }
    return std::nullopt;
  }
  // More bracing in one wall, for what fails of its bracing.
  std::optional<Trial> for_wall(const std::string& name) {
    const auto wall =
        std::find_if(house_.walls.begin(), house_.walls.end(), [&](const Wall& w) { return w.name == name; });
    if (wall == house_.walls.end()) return std::nullopt;
    const auto is_mine = [&](const Link& l) { return braced_kind(l.kind) && l.where.wall == name; };
    const std::vector<Bracing> all = more_bracing(house_, static_cast<std::size_t>(wall - house_.walls.begin()));
    std::vector<std::vector<Bracing>> ways;
    for (const Bracing& b : all) ways.push_back({b});
    if (auto together = side_by_side(all); together.size() > 1) ways.push_back(std::move(together));
    for (const std::vector<Bracing>& way : ways) {
      auto t = tried([way](const House& h) { return with_bracing(h, way); }, is_mine);
      if (!t) continue;
      t->remedy.wall = name;
      for (const Bracing& b : way) t->remedy.braces.insert(t->remedy.braces.end(), b.said.begin(), b.said.end());
      return t;
    }
    return std::nullopt;
  }

 private:
  template <class Mine> std::optional<Trial> tried(std::function<House(const House&)> change, const Mine& is_mine) {
    last_.reset();
    if (done_ == most_trials) return std::nullopt;
    ++done_;
    last_ = check(change(house_), method_, practice_);
    const Result& after = *last_;
    if (!nothing_worse(now_, after)) return std::nullopt;
    Remedy r{};
    for (const Link& l : after.links) {
      if (!is_mine(l)) continue;
      if (l.verdict == Verdict::fail) return std::nullopt;
      if (l.use) r.greatest_use.value = std::max(r.greatest_use.value, l.use->value);
    }
    for (std::size_t i = 0; i < now_.links.size(); ++i)
      if (now_.links[i].verdict == Verdict::fail && is_mine(now_.links[i])) r.links.push_back(i);
    r.then = after.counts;
    return Trial{std::move(r), std::move(change)};
  }
  // The last trial failed by a condition of the sheet alone.
  template <class Mine> void note_if_strong_enough(const Statement& s, const std::string& name, const Mine& is_mine) {
    if (!last_) return;
    const Condition* unmet = nullptr;
    for (const Link& l : last_->links) {
      if (!is_mine(l)) continue;
      if (!l.use || l.use->value > 1.0 || l.verdict == Verdict::not_judged) return;
      for (const Condition& c : l.conditions)
        if (c.met == Met::no && !unmet) unmet = &c;
    }
    if (unmet) strong_enough.push_back({s.kind, name, *unmet});
  }
  // The anchors' statement of a wall on which such a link fails, at parts of their greatest space.
  std::vector<std::pair<Statement, Length>> closer(const Statement& s) const {
    std::vector<std::pair<Statement, Length>> r;
    if (s.kind != "anchor" && s.kind != "plate") return r;
    for (const Link& l : now_.links) {
      if (l.verdict != Verdict::fail || statement_of(l) != s) continue;
      for (const Wall& w : house_.walls) {
        if (w.name != l.where.wall || !w.anchor.given()) continue;
        for (const double part : {3.0 / 4.0, 1.0 / 2.0, 1.0 / 3.0, 1.0 / 4.0})
          r.emplace_back(Statement{"anchor", w.anchor.name, w.anchor.by, w.anchor.at}, part * w.anchor_spacing);
        return r;
      }
    }
    return r;
  }

  const House& house_;
  const Table &method_, &practice_;
  const Result& now_;
  std::optional<Result> last_;
  std::size_t done_ = 0;

 public:
  std::vector<Remedies::StrongEnough> strong_enough;
};

}  // namespace

std::optional<RoomToMove> room_to_move(const House& house, const Table& method, const Table& practice,
                                       const Result& result, std::size_t link) {
  const Link& l = result.links.at(link);
  const bool stands = l.kind == "hold-down" || l.kind == "jamb" || l.kind == "anchor";
  if (!stands || l.verdict != Verdict::pass || !l.where.from_start) return std::nullopt;
  const Length here = *l.where.from_start, step = Length::from_value(house.print == Print::us ? 0.0127 : 0.010),
               most = 30.0 * step;
  const bool spoken_of = std::any_of(house.as_built.begin(), house.as_built.end(),
                                     [&](const AsBuilt& b) { return b.wall == l.where.wall && (b.at || b.missing); });
  if (spoken_of) return std::nullopt;
  const auto holds_at = [&](Length at) {
    House moved = house;
    moved.as_built.push_back({l.where.wall, {}, here, at, {}, {}, false});
    const Result after = check(moved, method, practice);
    return nothing_worse(result, after) && std::any_of(after.links.begin(), after.links.end(), [&](const Link& x) {
             return x.kind == l.kind && x.where.wall == l.where.wall && x.verdict == Verdict::pass &&
                    x.where.from_start && *x.where.from_start > at - same_place &&
                    *x.where.from_start < at + same_place;
           });
  };
  RoomToMove r{here, here, step, most};
  for (double n = 1.0; n * step <= most + same_place && here - n * step >= zero<Length>() && holds_at(here - n * step);
       n += 1.0)
    r.from = here - n * step;
  for (double n = 1.0; n * step <= most + same_place && holds_at(here + n * step); n += 1.0) r.to = here + n * step;
  return r;
}

// Each change is tried by itself on the house as it is, and at the end all together.
Remedies remedies(const House& house, const Table& method, const Table& practice, const Result& result) {
  Remedies r;
  if (!result.excess.empty()) return r;
  Trials trials(house, method, practice, result);
  std::vector<bool> mended(result.links.size(), false);
  House all = house;
  const auto take = [&](std::optional<Trial> t) {
    if (!t) return;
    for (const std::size_t i : t->remedy.links) mended[i] = true;
    r.each.push_back(std::move(t->remedy));
    all = t->change(all);
  };
  const auto each_failing = [&](const auto& act) {
    for (std::size_t i = 0; i < result.links.size(); ++i)
      if (result.links[i].verdict == Verdict::fail && !mended[i]) act(result.links[i]);
  };
  std::vector<Statement> asked;
  each_failing([&](const Link& l) {
    const Statement s = statement_of(l);
    if (!l.fixing.given() || std::find(asked.begin(), asked.end(), s) != asked.end()) return;
    asked.push_back(s);
    take(trials.for_statement(s));
  });
  std::vector<std::string> walls;
  each_failing([&](const Link& l) {
    if (!braced_kind(l.kind) || std::find(walls.begin(), walls.end(), l.where.wall) != walls.end()) return;
    walls.push_back(l.where.wall);
    take(trials.for_wall(l.where.wall));
  });
  each_failing([&](const Link& l) {
    if (std::find(r.none_for.begin(), r.none_for.end(), l.kind) == r.none_for.end()) r.none_for.push_back(l.kind);
  });
  for (Remedies::StrongEnough& s : trials.strong_enough)
    if (std::find(r.none_for.begin(), r.none_for.end(), s.kind) != r.none_for.end())
      r.strong_enough.push_back(std::move(s));
  if (!r.each.empty()) r.together = r.each.size() == 1 ? r.each.front().then : check(all, method, practice).counts;
  return r;
}

}  // namespace belay
