#include "judge/changes.hpp"

#include "capacity/capacity.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <tuple>

namespace belay {

namespace {

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
      if (p.brace->found_another()) act(*p.brace->found->planned);
      act(p.brace->hold_down);
      act(p.brace->end_studs);
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
  if (h.framed) {
    if (h.framed->stumps) act(h.framed->stumps->tie);
    for (std::optional<SubfloorBraces>* b : {&h.framed->across, &h.framed->up})
      if (*b) act((*b)->use);
  }
  for (RoofBrace& b : h.roof_braces) act(b.fixing);
  for (Veranda& v : h.verandas)
    for (Chosen* c : {&v.at_wall, &v.at_beam, &v.post_top, &v.post_foot}) act(*c);
}
bool is_of(const Chosen& c, const Statement& s) { return c.name == s.name && c.by == s.by && c.at == s.at; }

}  // namespace

Statement statement_of(const Link& l) { return {l.kind, l.fixing.name, l.fixing.by, l.fixing.at}; }

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

namespace {

// In the order in which they are tried: set as before, then the weaker first.
struct Candidate {
  bool set_otherwise;
  double holds;  // for order alone
  std::string name;
};
// Of an entry that is worked out: what its whole section yields at.
Force yields_at(const SteelMade& m) {
  return m.yield && m.width && m.thickness ? *m.yield * *m.width * *m.thickness : zero<Force>();
}
Force for_order(const StrapBrace& b) { return b.tension ? *b.tension : yields_at(b.made); }
// Others of the list. alike: whether an entry may stand in the other's place.
template <class Entry, class Holds, class Alike>
void add_others(std::vector<Candidate>& to, const std::vector<Entry>& list, const std::string& now, const Holds& holds,
                const Alike& alike) {
  const Entry* here = find(list, now);
  if (!here) return;
  for (const Entry& e : list)
    if (&e != here && alike(*here, e)) to.push_back({false, value(holds(e)).si, e.terms.name});
}
}  // namespace

std::vector<std::string> instead_of(const Fixings& f, const Statement& s) {
  std::vector<Candidate> r;
  const auto any = [](const auto&, const auto&) { return true; };
  add_others(
      r, f.brackets, s.name, [](const Bracket& b) { return b.made.worked_out ? yields_at(b.made) : b.uplift; }, any);
  add_others(
      r, f.ties, s.name, [](const Tie& t) { return t.made.worked_out ? yields_at(t.made) : t.pull; }, any);
  add_others(
      r, f.plates, s.name, [](const PlateFixing& p) { return p.pull; }, any);
  add_others(
      r, f.end_studs, s.name, [](const EndStuds& e) { return e.press; }, any);
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
  std::vector<std::string> names;
  for (const Candidate& c : r) names.push_back(c.name);
  return names;
}

// ---- what no entry of the file holds

namespace {

// The next figure that a sheet would state: a tenth of a kilonewton, ten pounds.
Value rounded_up(Value v, const House& h) {
  const bool pounds = h.print == Print::us;
  const Units& u = pounds ? us : metric;
  const double step = pounds ? 10.0 : 0.1, one = in({1.0, v.kind}, u);
  return {std::ceil(in(v, u) / step - 1e-9) * step / one, v.kind};
}
// As it stands for design.
void for_design_as_stated(Terms& t) {
  if (t.basis != FigureIs::characteristic) return;
  t.basis = FigureIs::design;
  t.phi.reset();
  t.gamma_M.reset();
}
// Force or force per length: the stated figure to what it must be.
struct Raises {
  const House& house;
  double times;
  const std::set<std::string>& parts;
  std::vector<Remedies::Holds>& holds;

  void operator()(std::string part, const Terms& t, Force& f) const {
    f = quantity<Force>(raised(std::move(part), value(design_force(t, f, "C", nullptr))));
  }
  void operator()(std::string part, const Terms& t, LineLoad& f) const {
    f = quantity<LineLoad>(raised(std::move(part), value(design_rate(t, f, nullptr))));
  }
  template <class Q> void operator()(const std::string& part, const Terms& t, std::optional<Q>& f) const {
    if (f) (*this)(part, t, *f);
  }

 private:
  Value raised(std::string part, Value design) const {
    if (!parts.contains(part)) return design;
    const Value v = rounded_up({design.si * times, design.kind}, house);
    holds.push_back({std::move(part), v});
    return v;
  }
};
// Each figure of an entry, by the word of the part that it is set against.
void each_figure(Bracket& b, const Raises& act) {
  act("uplift", b.terms, b.uplift);
  act("across", b.terms, b.across);
  act("along", b.terms, b.along);
  act("press", b.terms, b.press);
}
void each_figure(Tie& t, const Raises& act) { act("pull", t.terms, t.pull); }
void each_figure(PlateFixing& p, const Raises& act) { act("pull", p.terms, p.pull); }
void each_figure(Anchor& a, const Raises& act) {
  act("pull", a.terms, a.pull);
  act("slide", a.terms, a.slide);
}
void each_figure(StrapBrace& b, const Raises& act) {
  act("tension", b.terms, b.tension);
  act("end fixing", b.terms, b.end_fixing);
}
void each_figure(SheetBrace& b, const Raises& act) { act("racking", b.terms, b.racking); }
void each_figure(RatedBrace& b, const Raises& act) { act("racking", b.terms, b.racking); }
void each_figure(LiningBrace& b, const Raises& act) { act("racking", b.terms, b.racking); }
void each_figure(PerforatedBrace& b, const Raises& act) { act("racking", b.terms, b.racking); }
void each_figure(EndStuds& e, const Raises& act) { act("press", e.terms, e.press); }

template <class Entry> bool worked_out(const Entry& e) {
  if constexpr (requires { e.worked_out; }) return e.worked_out.has_value();
  else if constexpr (requires { e.made.worked_out; }) return e.made.worked_out.has_value();
  else return false;
}

}  // namespace

std::optional<Stronger> stronger(const House& h, const Statement& s, double times, const std::set<std::string>& parts) {
  Stronger r{s.name + ", stronger", h.fixings, {}};
  const auto in_list = [&](auto& list) {
    const auto* here = find(list, s.name);
    if (!here || worked_out(*here)) return false;
    auto entry = *here;
    each_figure(entry, Raises{h, times, parts, r.holds});
    for_design_as_stated(entry.terms);
    entry.terms.name = r.name;
    list.push_back(std::move(entry));
    return true;
  };
  Fixings& f = r.fixings;
  const bool found = in_list(f.brackets) || in_list(f.ties) || in_list(f.plates) || in_list(f.anchors) ||
                     in_list(f.straps) || in_list(f.sheets) || in_list(f.rated) || in_list(f.linings) ||
                     in_list(f.perforated) || in_list(f.end_studs);
  return found ? std::optional(std::move(r)) : std::nullopt;
}

std::optional<Together> rule_of(const Fixings& f, const Statement& s) {
  if (const Bracket* b = find(f.brackets, s.name)) return b->together;
  if (const Anchor* a = find(f.anchors, s.name)) return a->together;
  return std::nullopt;
}

// ---- more of the wall that braces

namespace {

bool stands_alone(const House& h, const Piece& p) {
  return p.brace && find(h.fixings.perforated, p.brace->planned().name) == nullptr;
}
bool parted_within(const Wall& w, const Piece& p) {
  const auto inside = [&](Length at) { return at > p.from + same_place && at < p.to - same_place; };
  return std::any_of(w.steps.begin(), w.steps.end(), inside) ||
         std::any_of(w.frames.begin(), w.frames.end(), [&](const ShopFrame& f) { return inside(f.from); });
}

}  // namespace

std::vector<Bracing> more_bracing(const House& h, std::size_t wall) {
  const Wall& w = h.walls[wall];
  std::vector<Bracing> r;
  const auto stands = [&](std::size_t i) {
    return i < w.pieces.size() && stands_alone(h, w.pieces[i]) && !w.pieces[i].brace->missing();
  };
  const auto sheet_of = [&](std::size_t i) {
    return stands(i) ? find(h.fixings.sheets, w.pieces[i].brace->fixing.name) : nullptr;
  };
  // A strap that is longer lies flatter: its sheet's angles are judged as everything else.
  const auto may_be_longer = [&](std::size_t i) {
    return sheet_of(i) || (stands(i) && find(h.fixings.straps, w.pieces[i].brace->fixing.name));
  };
  const auto set_anew = [&](std::size_t i) {
    Brace b = *w.pieces[i].brace;
    if (b.found) b.found->angles.clear();
    return b;
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
      if (w.pieces[i].brace && !w.pieces[i].brace->missing()) b.added -= w.pieces[i].to - w.pieces[i].from;
    r.push_back(std::move(b));
  };
  const auto plain = [](Length from, Length to) { return Piece{from, to, std::nullopt, std::nullopt}; };
  for (std::size_t i = 0; i < w.pieces.size(); ++i) {
    const Piece& p = w.pieces[i];
    const Length length = p.to - p.from;
    if (p.brace && p.brace->missing()) {  // set up as planned
      Piece planned = p;
      planned.brace->found.reset();
      add(i, i, {planned}, {});
    }
    if (p.opening || p.brace || !(length > same_place)) continue;
    if (i > 0 && may_be_longer(i - 1)) {
      const Brace b = set_anew(i - 1);
      add(i - 1, i, {{w.pieces[i - 1].from, p.to, std::nullopt, b}}, b.name);
    }
    if (may_be_longer(i + 1)) {
      const Brace b = set_anew(i + 1);
      add(i, i + 1, {{p.from, w.pieces[i + 1].to, std::nullopt, b}}, b.name);
    }
    // New ones are like the first sheet of this wall, or else like its first brace: one in the middle, one at either
    // end, of sheets one all along. A new strap or bought unit has the length of the one it is like; a piece of a wall
    // with openings is none to be set up anew.
    std::size_t like = 0;
    while (like < w.pieces.size() && !sheet_of(like)) ++like;
    if (like == w.pieces.size()) like = 0;
    while (like < w.pieces.size() && !stands_alone(h, w.pieces[like])) ++like;
    if (like == w.pieces.size()) continue;
    Brace brace = *w.pieces[like].brace;
    brace.found.reset();
    const Length own = w.pieces[like].to - w.pieces[like].from;
    const auto braced = [&](Length from, Length to) { return Piece{from, to, std::nullopt, brace}; };
    if (length > own + same_place) {
      const Length from = p.from + 0.5 * (length - own);
      add(i, i, {plain(p.from, from), braced(from, from + own), plain(from + own, p.to)}, {});
    }
    if (length > 2.0 * own + same_place)
      add(i, i, {braced(p.from, p.from + own), plain(p.from + own, p.to - own), braced(p.to - own, p.to)}, {});
    if (sheet_of(like) && length >= sheet_of(like)->least_length - same_place) add(i, i, {braced(p.from, p.to)}, {});
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
std::vector<Bracing> side_by_side(const std::vector<Bracing>& all) {
  std::vector<Bracing> r;
  for (const Bracing& b : all)
    if (std::none_of(r.begin(), r.end(), [&](const Bracing& x) { return b.first <= x.last && x.first <= b.last; }))
      r.push_back(b);
  return r;
}

// ---- more concrete

namespace {

template <class H> auto depth_in(H& h, const HoldsByWeight& c) -> decltype(&h.slab.edge->depth) {
  const auto of = [](auto& l) { return l ? &*l : nullptr; };
  switch (c.of) {
    case HoldsByWeight::Of::stumps:
      return h.framed && h.framed->stumps ? of(h.framed->stumps->footing.thickness) : nullptr;
    case HoldsByWeight::Of::posts: return of(h.verandas[c.veranda].footing.thickness);
    case HoldsByWeight::Of::edge: return h.slab.edge ? &h.slab.edge->depth : nullptr;
    case HoldsByWeight::Of::inside: return h.slab.inside ? &h.slab.inside->depth : nullptr;
  }
  return nullptr;
}

}  // namespace

std::optional<HoldsByWeight> concrete_under(const House& h, const Link& l) {
  if (l.kind != "ground") return std::nullopt;
  HoldsByWeight c{HoldsByWeight::Of::stumps, 0};
  const auto veranda = std::find_if(h.verandas.begin(), h.verandas.end(), [&](const Veranda& v) {
    return l.where.words.starts_with(fmt::format("ground under {} post ", v.name));
  });
  const auto wall = std::find_if(h.walls.begin(), h.walls.end(), [&](const Wall& w) { return w.name == l.where.wall; });
  if (veranda != h.verandas.end())
    c = {HoldsByWeight::Of::posts, static_cast<std::size_t>(veranda - h.verandas.begin())};
  else if (!h.framed && wall != h.walls.end())
    c.of = wall->outside ? HoldsByWeight::Of::edge : HoldsByWeight::Of::inside;
  return depth_in(h, c) ? std::optional(c) : std::nullopt;
}
Length depth_of(const House& h, const HoldsByWeight& c) { return *depth_in(h, c); }
House with_depth(const House& h, const HoldsByWeight& c, Length depth) {
  House changed = h;
  *depth_in(changed, c) = depth;
  return changed;
}
std::string words(const House& h, const HoldsByWeight& c) {
  switch (c.of) {
    case HoldsByWeight::Of::stumps: return "the stumps' footings";
    case HoldsByWeight::Of::posts: return fmt::format("the footings of {}", h.verandas[c.veranda].name);
    case HoldsByWeight::Of::edge: return "the concrete under outside walls";
    case HoldsByWeight::Of::inside: return "the concrete under inside walls";
  }
  return {};
}

}  // namespace belay
