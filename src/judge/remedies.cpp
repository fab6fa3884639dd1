// What would make links hold that fail: another entry of the supplier's sheets in the same place, anchors closer
// together, more bracing, or two of these at once; under them, deeper concrete. Each is tried on the whole house before
// it is told.
#include "belay/check.hpp"
#include "capacity/capacity.hpp"
#include "judge/changes.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <map>
#include <set>
#include <utility>

namespace belay {

namespace {

// What more bracing in a wall may help.
bool braced_kind(const std::string& kind) {
  return kind == "line" || kind == "least bracing" || kind == "brace" || kind == "hold-down";
}

// ---- whether it helps

struct Tally {
  std::size_t failed = 0, open = 0, all = 0;
};
// By kind and wall: anchors that stand elsewhere have other numbers.
using Tallies = std::map<std::pair<std::string, std::string>, Tally>;
Tallies tallies(const Result& r) {
  Tallies all;
  for (const Link& l : r.links) {
    Tally& t = all[{l.kind, l.where.wall}];
    t.failed += l.verdict == Verdict::fail;
    t.open += l.verdict == Verdict::not_judged;
    ++t.all;
  }
  return all;
}
bool nothing_worse(const Tallies& was, const Result& after) {
  for (const auto& [of, now] : tallies(after)) {
    const auto then = was.find(of);
    const Tally old = then == was.end() ? Tally{} : then->second;
    // More anchors are more places that nobody judges, where nobody judges any.
    if (now.failed > old.failed || (now.open > old.open && (old.all == 0 || old.open < old.all))) return false;
  }
  return true;
}

// A house whose every second link fails wants another look, not a hundred trials.
constexpr std::size_t most_trials = 160;

// The deepest that a job may state, of a footing and of the concrete that runs on under a wall.
const Length deepest_footing = Length::from_value(3.0), deepest_edge = Length::from_value(2.0);

using Change = std::function<House(const House&)>;
using Mine = std::function<bool(const Link&)>;
Change both(Change a, Change b) {
  return [a = std::move(a), b = std::move(b)](const House& h) { return b(a(h)); };
}
Change swap(const Statement& s, const std::string& name) {
  return [s, name](const House& h) { return with_fixing(h, s, name); };
}
Chosen chosen(const Statement& s) { return {s.name, s.by, s.at}; }

struct Trial {
  Remedy remedy;
  Change change;
};

class Trials {
 public:
  Trials(const House& house, const Table& method, const Table& practice, const Result& now)
      : house_(house), method_(method), practice_(practice), now_(now), was_(tallies(now)) {
    for (std::size_t i = 0; i < now.links.size(); ++i)
      if (now.links[i].verdict == Verdict::fail) failing_.insert(i);
  }

  // Another fixing, or anchors closer together, for all that one statement of the job fixes.
  std::optional<Trial> for_statement(const Statement& s) {
    const Mine mine = fixed_by(s);
    for (const std::string& name : instead_of(house_.fixings, s)) {
      auto t = tried(swap(s, name), mine);
      if (!t) {
        note_if_strong_enough(s, name, mine);
        continue;
      }
      t->remedy.swaps.push_back({chosen(s), name});
      return t;
    }
    for (const auto& [anchors, space] : closer(s)) {
      const Statement anchor = anchors;
      const Length spacing = space;
      auto t = tried([anchor, spacing](const House& h) { return with_anchors_closer(h, anchor, spacing); }, mine);
      if (!t) continue;
      t->remedy.swaps.push_back({chosen(anchor), anchor.name});
      t->remedy.spacing = spacing;
      return t;
    }
    return std::nullopt;
  }

  // More bracing in one wall, for what fails of its bracing.
  std::optional<Trial> for_wall(const std::string& wall) {
    for (const std::vector<Bracing>& way : ways(wall)) {
      auto t = tried([way](const House& h) { return with_bracing(h, way); }, braces(wall));
      if (!t) continue;
      say_bracing(*t, wall, way);
      return t;
    }
    return std::nullopt;
  }

  // Other hold-downs in one wall, with more bracing there or with braces of another sort.
  std::optional<Trial> for_wall_by_two(const std::string& wall) {
    for (const Statement& rod : statements(wall, "hold-down")) {
      const std::vector<std::string> rods = instead_of(house_.fixings, rod);
      const Mine held = fixed_by(rod), braced = braces(wall);
      for (const std::vector<Bracing>& way : ways(wall))
        for (const std::string& name : rods) {
          auto t = tried(both(swap(rod, name), [way](const House& h) { return with_bracing(h, way); }),
                         [&](const Link& l) { return held(l) || braced(l); });
          if (!t) continue;
          t->remedy.swaps.push_back({chosen(rod), name});
          say_bracing(*t, wall, way);
          return t;
        }
      for (const Statement& sort : statements(wall, "brace"))
        for (const std::string& other : instead_of(house_.fixings, sort))
          for (const std::string& name : rods) {
            const Mine sorted = fixed_by(sort);
            auto t = tried(both(swap(sort, other), swap(rod, name)),
                           [&](const Link& l) { return held(l) || sorted(l) || braced(l); });
            if (!t) continue;
            t->remedy.swaps = {{chosen(sort), other}, {chosen(rod), name}};
            return t;
          }
    }
    return std::nullopt;
  }

  // Deeper concrete under what fixings pull at: the least that holds, in steps as one would dig.
  std::optional<Trial> for_concrete(const HoldsByWeight& c) {
    const Mine mine = [&](const Link& l) { return concrete_under(house_, l) == c; };
    const Length now = depth_of(house_, c), step = Length::from_value(house_.print == Print::us ? 0.0508 : 0.050);
    const auto as_deep = [&](double steps) {
      const Length depth = (std::floor(now / step + 1e-9) + steps) * step;
      auto t = tried([c, depth](const House& h) { return with_depth(h, c, depth); }, mine);
      if (t) t->remedy.deeper = Remedy::Deeper{words(house_, c), c.footing(), now, depth};
      return t;
    };
    const double most = std::floor(((c.footing() ? deepest_footing : deepest_edge) + same_place) / step) -
                        std::floor(now / step + 1e-9);
    double fails = 0.0, holds = 1.0;
    if (most < holds) return std::nullopt;
    std::optional<Trial> best = as_deep(holds);
    while (!best && holds < most) {
      fails = holds;
      holds = std::min(2.0 * holds, most);
      best = as_deep(holds);
    }
    while (best && holds - fails > 1.5) {
      const double middle = std::floor(0.5 * (fails + holds));
      auto t = as_deep(middle);
      (t ? holds : fails) = middle;
      if (t) best = std::move(t);
    }
    return best;
  }

  // How strong an entry must be that stands there, the least in steps of what a sheet would say.
  std::optional<Remedies::Needed> needed(const Statement& s) {
    const Mine mine = fixed_by(s);
    const std::optional<Together> rule = rule_of(house_.fixings, s);
    const std::set<std::string> raised = worth_raising(mine);
    double times = 1.0;
    // A stronger brace draws more: tried again with what it then has to hold.
    for (int n = 0; n < 4; ++n) {
      const std::optional<double> more = times_enough(n == 0 ? now_ : *last_, mine, rule, raised);
      if (!more) return std::nullopt;
      times *= *more;
      const std::optional<Stronger> entry = stronger(house_, s, times, raised);
      if (!entry || entry->holds.empty()) return std::nullopt;
      const auto t = tried(
          [&](const House& h) {
            House changed = with_fixing(h, s, entry->name);
            changed.fixings = entry->fixings;
            return changed;
          },
          mine);
      if (t)
        return Remedies::Needed{s.kind,       t->remedy.links,        chosen(s),
                                entry->holds, t->remedy.greatest_use, t->remedy.then};
      if (!last_) return std::nullopt;
    }
    return std::nullopt;
  }

  // What has been told is not told again.
  void told(const std::vector<std::size_t>& links) {
    for (const std::size_t i : links) failing_.erase(i);
  }
  std::set<std::size_t> failing() const { return failing_; }  // as it is now: more may be told meanwhile
  bool still_fails(std::size_t link) const { return failing_.contains(link); }

 private:
  static Mine fixed_by(const Statement& s) {
    return [s](const Link& l) { return l.kind == s.kind && l.fixing.by == s.by && l.fixing.at == s.at; };
  }
  static Mine braces(const std::string& wall) {
    return [wall](const Link& l) { return braced_kind(l.kind) && l.where.wall == wall; };
  }
  static double greatest_use(const Result& r, const Mine& mine) {
    double most = 0.0;
    for (const Link& l : r.links)
      if (mine(l) && l.use) most = std::max(most, l.use->value);
    return most;
  }
  // Parts that take a fifth or more of a link that fails; the others' figures stay.
  std::set<std::string> worth_raising(const Mine& mine) const {
    std::set<std::string> r;
    for (const Link& l : now_.links) {
      if (!mine(l) || l.verdict != Verdict::fail || !l.use) continue;
      for (const LinkPart& p : l.parts)
        if (p.role == Role::single && p.use && p.use->value > 0.2 * l.use->value) r.insert(p.part);
    }
    return r;
  }
  // How many times the raised figures must be what they are, for all of those links to be at most wholly used.
  static std::optional<double> times_enough(const Result& r, const Mine& mine, std::optional<Together> rule,
                                            const std::set<std::string>& raised) {
    const auto use_at = [&](const Link& l, double times) {
      std::vector<double> uses;
      for (const LinkPart& p : l.parts)
        if (p.role == Role::single && p.use) uses.push_back(p.use->value / (raised.contains(p.part) ? times : 1.0));
      const bool joined =
          std::any_of(l.parts.begin(), l.parts.end(), [](const LinkPart& p) { return p.role == Role::combined; });
      return uses.empty() ? 0.0 : joined && rule ? together(*rule, uses) : *std::max_element(uses.begin(), uses.end());
    };
    constexpr double most = 50.0;
    double enough = 1.0;
    for (const Link& l : r.links) {
      if (!mine(l) || use_at(l, enough) <= 1.0) continue;
      if (use_at(l, most) > 1.0) return std::nullopt;
      double low = enough, high = most;
      for (int n = 0; n < 60; ++n) (use_at(l, 0.5 * (low + high)) > 1.0 ? low : high) = 0.5 * (low + high);
      enough = high;
    }
    return enough > 1.0 ? std::optional(enough) : std::nullopt;
  }
  // Of the links of a kind in a wall.
  std::vector<Statement> statements(const std::string& wall, std::string_view kind) const {
    std::vector<Statement> r;
    for (const Link& l : now_.links) {
      const Statement s = statement_of(l);
      if (l.kind == kind && l.where.wall == wall && l.fixing.given() && std::find(r.begin(), r.end(), s) == r.end())
        r.push_back(s);
    }
    return r;
  }
  std::vector<std::vector<Bracing>> ways(const std::string& name) const {
    const auto wall =
        std::find_if(house_.walls.begin(), house_.walls.end(), [&](const Wall& w) { return w.name == name; });
    if (wall == house_.walls.end()) return {};
    const std::vector<Bracing> all = more_bracing(house_, static_cast<std::size_t>(wall - house_.walls.begin()));
    std::vector<std::vector<Bracing>> r;
    for (const Bracing& b : all) r.push_back({b});
    std::vector<Bracing> longer;
    std::copy_if(all.begin(), all.end(), std::back_inserter(longer),
                 [](const Bracing& b) { return !b.said.empty() && !b.said.front().longer.empty(); });
    const auto add_together = [&](const std::vector<Bracing>& several) {
      if (auto together = side_by_side(several); together.size() > 1) r.push_back(std::move(together));
    };
    if (longer.size() < all.size()) add_together(longer);
    add_together(all);
    return r;
  }
  static void say_bracing(Trial& t, const std::string& wall, const std::vector<Bracing>& way) {
    t.remedy.wall = wall;
    for (const Bracing& b : way) t.remedy.braces.insert(t.remedy.braces.end(), b.said.begin(), b.said.end());
  }

  std::optional<Trial> tried(Change change, const Mine& mine) {
    last_.reset();
    if (done_ == most_trials) return std::nullopt;
    ++done_;
    last_ = check(change(house_), method_, practice_);
    const Result& after = *last_;
    if (!nothing_worse(was_, after)) return std::nullopt;
    std::set<std::string> still;
    for (const Link& l : after.links) {
      if (mine(l) && l.verdict == Verdict::fail) return std::nullopt;
      if (l.verdict == Verdict::fail || l.verdict == Verdict::not_judged) still.insert(l.id);
    }
    Remedy r{};
    r.greatest_use.value = greatest_use(after, mine);
    // A stronger brace may mend its line as well. Anchors that stand elsewhere have other names.
    for (const std::size_t i : failing_)
      if (mine(now_.links[i]) || (now_.links[i].kind == "line" && !still.contains(now_.links[i].id)))
        r.links.push_back(i);
    r.then = after.counts;
    return Trial{std::move(r), std::move(change)};
  }
  // The last trial failed by a condition of the sheet alone.
  void note_if_strong_enough(const Statement& s, const std::string& name, const Mine& is_mine) {
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
  const Tallies was_;
  std::set<std::size_t> failing_;  // of `now_`, and not yet told how they hold
  std::optional<Result> last_;     // of the last trial
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
  const Tallies was = tallies(result);
  const auto holds_at = [&](Length at) {
    House moved = house;
    moved.as_built.push_back({l.where.wall, {}, here, at, {}, {}, false});
    const Result after = check(moved, method, practice);
    return nothing_worse(was, after) && std::any_of(after.links.begin(), after.links.end(), [&](const Link& x) {
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
  House all = house;
  const auto take = [&](std::optional<Trial> t) {
    if (!t) return;
    trials.told(t->remedy.links);
    r.each.push_back(std::move(t->remedy));
    all = t->change(all);
  };
  // Once for each of what the failing links are of; what one change mends is not asked for again.
  const auto each_failing = [&](const auto& of, const auto& act) {
    std::vector<std::decay_t<decltype(of(result.links.front()))>> asked;
    const std::set<std::size_t> now = trials.failing();
    for (const std::size_t i : now) {
      const auto x = of(result.links[i]);
      if (!trials.still_fails(i) || std::find(asked.begin(), asked.end(), x) != asked.end()) continue;
      asked.push_back(x);
      act(x, result.links[i]);
    }
  };
  const auto braced_wall = [](const Link& l) { return braced_kind(l.kind) ? l.where.wall : std::string(); };
  each_failing(statement_of, [&](const Statement& s, const Link& l) {
    if (l.fixing.given()) take(trials.for_statement(s));
  });
  each_failing(braced_wall, [&](const std::string& wall, const Link&) { take(trials.for_wall(wall)); });
  each_failing(braced_wall, [&](const std::string& wall, const Link&) { take(trials.for_wall_by_two(wall)); });
  each_failing([&](const Link& l) { return concrete_under(house, l); },
               [&](const std::optional<HoldsByWeight>& c, const Link&) {
                 if (c) take(trials.for_concrete(*c));
               });
  const auto kind_of_link = [](const Link& l) { return l.kind; };
  std::vector<std::string> unmended;
  each_failing(kind_of_link, [&](const std::string& kind, const Link&) { unmended.push_back(kind); });
  for (Remedies::StrongEnough& s : trials.strong_enough)
    if (std::find(unmended.begin(), unmended.end(), s.kind) != unmended.end()) r.strong_enough.push_back(std::move(s));
  each_failing(statement_of, [&](const Statement& s, const Link& l) {
    if (!l.fixing.given()) return;
    if (auto n = trials.needed(s)) {
      trials.told(n->links);
      r.needed.push_back(std::move(*n));
    }
  });
  each_failing(kind_of_link, [&](const std::string& kind, const Link&) { r.none_for.push_back(kind); });
  if (!r.each.empty()) r.together = r.each.size() == 1 ? r.each.front().then : check(all, method, practice).counts;
  return r;
}

}  // namespace belay
