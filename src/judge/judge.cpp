#include "judge/judge.hpp"

#include "judge/roof_bracing_links.hpp"
#include "judge/seed.hpp"
#include "judge/veranda_links.hpp"

#include <algorithm>
#include <set>

namespace belay {

namespace {

using Of = LinkSeed::Of;

std::string_view kind_of_seed(const LinkSeed& s, const Forces& f) {
  switch (s.of) {
    case Of::girder_bracket: return "girder bracket";
    case Of::bracket: return "bracket";
    case Of::valley: return "valley";
    case Of::top_tie: return "top tie";
    case Of::stud_tie: return "stud tie";
    case Of::plate: return "plate";
    case Of::floor_tie: return "floor tie";
    case Of::floor_fixing: return "floor fixing";
    case Of::roof_plane: return "roof plane";
    case Of::roof_brace: return "roof brace";
    case Of::line: return "line";
    case Of::least: return "least bracing";
    case Of::brace: return "brace";
    case Of::support: {
      const FixingKind k = f.walls[s.a].supports[s.b].kind;
      return k == FixingKind::hold_down ? "hold-down" : k == FixingKind::jamb ? "jamb" : "anchor";
    }
    case Of::loose_end: return "hold-down";
    case Of::loose_jamb: return "jamb";
    case Of::compression:
    case Of::compression_below: return "compression";
    case Of::ground: return "ground";
    case Of::spacing: return "line spacing";
    case Of::veranda_wall:
    case Of::veranda_beam: return "veranda bracket";
    case Of::post_top: return "post tie";
    case Of::post_foot: return "post foot";
    case Of::post_ground: return "ground";
    case Of::house_slides: return "house slide";
    case Of::house_tips: return "house tip";
    case Of::stump_tie: return "stump tie";
    case Of::stump_ground: return "ground";
    case Of::subfloor: return "subfloor";
  }
  return "";
}

// A fixing that goes through the floor into the wall below is its own tie across the floor.
bool goes_through_floor(const House& h, const Chosen& c) {
  const Anchor* a = find(h.fixings.anchors, c.name);
  return a && a->how == How::through_floor;
}

bool of_the_whole_house(const LinkSeed& s) { return s.of == Of::house_slides || s.of == Of::house_tips; }

}  // namespace

bool has_downward_loads(const Loads& loads) {
  return std::any_of(loads.cases.begin(), loads.cases.end(), [](const LoadCase& k) { return !k.down.name.empty(); });
}

Judge::Judge(const Forces& f, const LineSpacing& s, const Table& m)
    : f_(f),
      spacing_(s),
      method_(m),
      roof_bracing_(f.house, f.shape, f.loads, f.practice, f.cyclonic()),
      end_press_(f),
      ground_(f),
      whole_(f),
      stumps_(f),
      presses_(has_downward_loads(f.loads)) {
  sow();
  for (const Tie& t : f_.house.fixings.ties) ties_.push_back(held_by_steel(t.terms, t.pull, t.made, Into::frame));
  for (const Bracket& b : f_.house.fixings.brackets)
    brackets_.push_back(held_by_steel(b.terms, b.uplift, b.made, Into::roof));
  for (std::size_t w = 0; w < f_.walls.size(); ++w) {
    held_.emplace_back(f_.walls[w].supports.size());
    for (std::size_t i = 0; i < held_[w].size(); ++i) {
      const Anchor* a = find(f_.house.fixings.anchors, f_.walls[w].supports[i].fixing.name);
      if (a && a->worked_out) held_[w][i] = held_by_concrete(f_.house, *a, stands_in_slab(w, i), f_.practice, nullptr);
    }
  }
  held_feet_.resize(f_.verandas.posts.size());
  for (const LinkSeed& seed : seeds_) {
    if (seed.of != Of::post_foot) continue;
    const Anchor* a = find(f_.house.fixings.anchors, fixing(seed)->name);
    if (a && a->worked_out) held_feet_[seed.a] = post_foot_holds(f_, seed.a, *a, nullptr);
  }
}

Judge::HeldBySteel Judge::held_by_steel(const Terms& t, Force stated, const SteelMade& m, Into into) const {
  if (!m.worked_out) return {design_force(t, stated, "C", nullptr)};
  HeldBySteel r{std::nullopt, steel_conditions(f_.house, t, m, into, f_.practice)};
  if (worst(r.conditions) != Met::yes) return r;
  const SteelHolds holds = steel_holds(f_.house, t, m, f_.practice, "", "", nullptr);
  r.force = holds.weaker();
  r.gives = holds.gives();
  r.marks = holds.marks;
  return r;
}
const EndStuds* Judge::judged_studs(const LinkSeed& s) const {
  const EndStuds* studs = find(f_.house.fixings.end_studs, drawn(f_, s.a).end_studs.name);
  const std::optional<FirstFloor>& first = f_.house.first;
  const bool weighed = f_.house.wall_weight > zero<Pressure>() &&
                       (!end_press_.under_the_floor(s.a) || (first->greatest_weight && first->live));
  const bool known = weighed && f_.braces[s.a].capacity.refused.empty() && end_press_.unknown(s.a, s.end).empty();
  return studs && known ? studs : nullptr;
}
const Judge::HeldBySteel* Judge::steel_of(const LinkSeed& s) const {
  const Chosen* c = fixing(s);
  const Fixings& x = f_.house.fixings;
  switch (s.of) {
    case Of::girder_bracket:
    case Of::bracket:
    case Of::valley:
    case Of::veranda_wall:
    case Of::veranda_beam: {
      const Bracket* b = find(x.brackets, c->name);
      return b && b->made.worked_out ? &held(*b) : nullptr;
    }
    case Of::top_tie:
    case Of::stud_tie:
    case Of::floor_tie:
    case Of::stump_tie:
    case Of::post_top: {
      const Tie* t = find(x.ties, c->name);
      return t && t->made.worked_out ? &held(*t) : nullptr;
    }
    default: return nullptr;
  }
}

// In the order in which force comes down.
void Judge::sow() {
  const auto add = [&](Of of, std::size_t a, std::size_t b = 0, Sense sense = Sense::plus, End end = End::left) {
    seeds_.push_back({of, a, b, sense, end});
  };
  const std::vector<Bearing>& bearings = f_.roof.bearings();
  for (std::size_t i = 0; i < bearings.size(); ++i)
    if (bearings[i].onto) add(Of::girder_bracket, i);
  for (std::size_t i = 0; i < f_.valleys.crossings.size(); ++i) add(Of::valley, i);
  for (std::size_t i = 0; i < bearings.size(); ++i)
    if (!bearings[i].onto) add(Of::bracket, i);
  for (const Of of : {Of::veranda_wall, Of::veranda_beam})
    for (std::size_t i = 0; i < f_.verandas.rafters.size(); ++i) add(of, i);
  for (const Of of : {Of::top_tie, Of::stud_tie})
    for (std::size_t i = 0; i < f_.studs.size(); ++i)
      if (!f_.studs[i].loads.empty()) add(of, i);
  for (std::size_t i = 0; i < f_.studs.size(); ++i)
    if (!f_.studs[i].loads.empty() && !f_.studs[i].beside_fixing) add(Of::plate, i);
  for (std::size_t i = 0; i < roof_bracing_.planes.size(); ++i)
    for (const Sense s : senses) add(Of::roof_plane, i, 0, s);
  for (std::size_t i = 0; i < roof_bracing_.straps.size(); ++i) add(Of::roof_brace, i);
  for (std::size_t i = 0; i < f_.crossings.size(); ++i) add(Of::floor_tie, i);
  for (std::size_t i = 0; i < f_.lines.size(); ++i)
    if (f_.under_the_floor(i) && f_.lines[i].props) add(Of::floor_fixing, i);
  for (std::size_t i = 0; i < f_.lines.size(); ++i)
    for (const Sense s : senses) add(Of::line, i, 0, s);
  for (std::size_t i = 0; i < f_.lines.size() && f_.house.bracing.least; ++i)
    for (const Sense s : senses)
      if (f_.lines[i].props) add(Of::least, i, 0, s);
  // A piece that counts as an opening is no brace, nor is a missing one.
  const auto braces = [&](std::size_t i) { return !f_.braces[i].capacity.left_out; };
  for (std::size_t i = 0; i < f_.braces.size(); ++i)
    if (braces(i)) add(Of::brace, i);
  for (std::size_t w = 0; w < f_.walls.size(); ++w) {
    for (std::size_t i = 0; i < f_.walls[w].supports.size(); ++i) add(Of::support, w, i);
    for (std::size_t i = 0; i < f_.walls[w].loose_ends.size(); ++i)
      if (!f_.house.walls[w].pieces[f_.walls[w].loose_ends[i].piece].brace->missing()) add(Of::loose_end, w, i);
    for (std::size_t i = 0; i < f_.walls[w].loose_jambs.size(); ++i) add(Of::loose_jamb, w, i);
  }
  for (const Of of : {Of::post_top, Of::post_foot})
    for (std::size_t i = 0; i < f_.verandas.posts.size(); ++i) add(of, i);
  for (std::size_t i = 0; i < f_.braces.size(); ++i)
    for (const End e : {End::left, End::right})
      if (braces(i)) add(Of::compression, i, 0, Sense::plus, e);
  // Where a first floor's brace presses and no brace of the ground floor ends.
  for (std::size_t i = 0; i < f_.braces.size(); ++i)
    for (const End e : {End::left, End::right})
      if (braces(i) && f_.lines[f_.braces[i].line].floor == Floor::first && f_.press_left(i, e) > 1e-9)
        add(Of::compression_below, i, 0, Sense::plus, e);
  for (const Of of : {Of::stump_tie, Of::stump_ground})
    for (std::size_t i = 0; i < stumps_.all.size(); ++i) add(of, i);
  for (std::size_t w = 0; w < f_.walls.size() && stumps_.all.empty(); ++w)
    for (std::size_t i = 0; i < f_.walls[w].supports.size(); ++i)
      if (f_.house.walls[w].floor == Floor::ground && f_.can_be_pulled(w, i)) add(Of::ground, w, i);
  for (std::size_t i = 0; i < f_.verandas.posts.size(); ++i) add(Of::post_ground, i);
  for (const std::size_t along : {0U, 1U})
    for (const Sense s : senses)
      if (f_.house.framed) add(Of::subfloor, along, 0, s);
  if (whole_.stated())
    for (const Of of : {Of::house_slides, Of::house_tips})
      for (const std::size_t along : {0U, 1U})
        for (const Sense s : senses) add(of, along, 0, s);
  // Between lines that prop one ceiling; they stand in order of direction and place.
  std::set<std::pair<std::size_t, std::size_t>> between;
  for (std::size_t block = 0; block <= f_.house.wings.size(); ++block) {
    std::optional<std::size_t> before;
    for (std::size_t i = 0; i < f_.lines.size(); ++i) {
      const Line& l = f_.lines[i];
      if (!l.props || std::find(l.blocks.begin(), l.blocks.end(), block) == l.blocks.end()) continue;
      if (before && f_.lines[*before].runs == l.runs && f_.lines[*before].floor == l.floor &&
          between.emplace(*before, i).second)
        add(Of::spacing, *before, i);
      before = i;
    }
  }
}

const Chosen* Judge::fixing(const LinkSeed& s) const {
  switch (s.of) {
    case Of::girder_bracket: return &f_.roof.member_of(s.a).onto;
    case Of::valley: return &f_.house.wings[f_.valleys.crossings[s.a].wing].valley->onto;
    case Of::bracket: return &f_.roof.member_of(s.a).bracket;
    case Of::top_tie: return &f_.house.walls[f_.studs[s.a].wall].top_tie;
    case Of::stud_tie: return &f_.house.walls[f_.studs[s.a].wall].stud_tie;
    case Of::plate: return &f_.house.walls[f_.studs[s.a].wall].plate_fixing;
    case Of::floor_tie: {
      const Chosen& through = f_.walls[f_.crossings[s.a].wall].supports[f_.crossings[s.a].support].fixing;
      return goes_through_floor(f_.house, through) ? &through : &f_.house.first->tie;
    }
    case Of::floor_fixing: return &f_.house.first->fixing;
    case Of::roof_brace: return &f_.house.roof_braces[s.a].fixing;
    case Of::brace: return &drawn(f_, s.a).fixing;
    case Of::compression: return &drawn(f_, s.a).end_studs;
    case Of::support: return &f_.walls[s.a].supports[s.b].fixing;
    case Of::veranda_wall:
    case Of::veranda_beam:
    case Of::post_top:
    case Of::post_foot: return &veranda_fixing(f_, s);
    case Of::stump_tie: return &f_.house.framed->stumps->tie;
    case Of::subfloor: {
      static const Chosen none;
      const SubfloorBraces* b = subfloor_braces(s);
      return b ? &b->use : &none;
    }
    default: return nullptr;
  }
}
const SubfloorBraces* Judge::subfloor_braces(const LinkSeed& s) const {
  const std::optional<SubfloorBraces>& b = s.a == 0 ? f_.house.framed->across : f_.house.framed->up;
  return b ? &*b : nullptr;
}

const Terms* Judge::terms(const LinkSeed& s) const {
  const Chosen* c = fixing(s);
  if (!c || !c->given()) return nullptr;
  const Fixings& x = f_.house.fixings;
  const auto in_list = [&](const auto& list) -> const Terms* {
    const auto* e = find(list, c->name);
    return e ? &e->terms : nullptr;
  };
  switch (s.of) {
    case Of::girder_bracket:
    case Of::bracket:
    case Of::valley:
    case Of::veranda_wall:
    case Of::veranda_beam: return in_list(x.brackets);
    case Of::top_tie:
    case Of::stud_tie:
    case Of::stump_tie:
    case Of::post_top: return in_list(x.ties);
    case Of::subfloor: return in_list(x.rated);
    case Of::plate: return in_list(x.plates);
    case Of::floor_tie: return goes_through_floor(f_.house, *c) ? in_list(x.anchors) : in_list(x.ties);
    case Of::floor_fixing:
    case Of::support:
    case Of::post_foot: return in_list(x.anchors);
    case Of::roof_brace: return in_list(x.straps);
    case Of::compression: return in_list(x.end_studs);
    case Of::brace:
      for (const Terms* t :
           {in_list(x.straps), in_list(x.sheets), in_list(x.rated), in_list(x.linings), in_list(x.perforated)})
        if (t) return t;
      return nullptr;
    default: return nullptr;
  }
}

// The case that decides: first those in which something is over, then those that the sheet leaves open (a part that
// acts has no capacity, or two act at once without a rule), then the rest: a link holds only if it is answered in every
// case. Among equals the greatest use (without a capacity: the greatest first demand); ties within 1e-9 go to the
// first.
Judge::Deciding Judge::deciding_case(const LinkSeed& s) const {
  Deciding r{0, {}, {}};
  if (s.of == Of::spacing) return r;
  int most_grave = -1;
  double most_use = -1.0, most_demand = -1.0;
  // What no bracing line has a part in is the same under either ceiling.
  const std::size_t cases = braced(s) ? f_.cases() : f_.loads.cases.size();
  for (std::size_t c = 0; c < cases; ++c) {
    const Parts p = parts(s, c);
    r.acting.push_back(acting(p));
    double use = 0.0;
    bool open = p.combined_missing;
    for (std::size_t i = 0; i < p.count; ++i) {
      const Raw& raw = p.part[i];
      use = std::max(use, raw.use.value_or(0.0));
      open = open || is_open(raw);
      const auto known =
          std::find_if(r.greatest.begin(), r.greatest.end(), [&](const Greatest& g) { return g.part == raw.part; });
      if (known == r.greatest.end()) r.greatest.push_back({raw.part, raw.demand.si, c});
      else if (raw.demand.si > known->si) *known = {raw.part, raw.demand.si, c};
    }
    const int grave = use > 1.0 ? 2 : open ? 1 : 0;
    const double demand = p.part[0].demand.si;
    const bool more = grave > most_grave || (grave == most_grave && use > most_use * (1.0 + 1e-9) + 1e-12);
    const bool same = grave == most_grave && !more && use >= most_use * (1.0 - 1e-9) - 1e-12;
    if (more || (same && use == 0.0 && demand > most_demand * (1.0 + 1e-9))) {
      r.load_case = c;
      most_grave = grave;
      most_use = use;
      most_demand = demand;
    }
  }
  return r;
}

bool Judge::braced(const LinkSeed& s) const {
  switch (s.of) {
    case Of::bracket:
    case Of::floor_tie:
    case Of::floor_fixing:
    case Of::line:
    case Of::brace:
    case Of::support:
    case Of::loose_end:
    case Of::compression:
    case Of::compression_below:
    case Of::ground:
    case Of::stump_tie:
    case Of::stump_ground: return true;
    case Of::top_tie:
    case Of::stud_tie:
    case Of::plate:
    case Of::loose_jamb: return !crossings_to(s).empty();
    default: return false;
  }
}
// "": the link has the same to hold under the other ceiling, or the job asks for a flexible one alone.
std::string_view Judge::ceiling_of(const LinkSeed& s, std::size_t c) const {
  if (f_.house.ceiling == Ceiling::flexible || !braced(s)) return {};
  if (f_.house.ceiling == Ceiling::both) {
    const std::size_t under_other = c < f_.loads.cases.size() ? c + f_.loads.cases.size() : f_.wind_of(c);
    const Parts here = parts(s, c), there = parts(s, under_other);
    bool same = true;
    for (std::size_t i = 0; i < here.count; ++i) same = same && here.part[i].demand.si == there.part[i].demand.si;
    if (same) return {};
  }
  return words(f_.under_rigid(c) ? Ceiling::rigid : Ceiling::flexible);
}
std::optional<std::size_t> Judge::case_named(const CaseName& name) const {
  for (std::size_t c = 0; c < f_.loads.cases.size(); ++c) {
    if (f_.of(c).id != name.id) continue;
    return name.ceiling == words(Ceiling::rigid) && f_.house.ceiling == Ceiling::both ? c + f_.loads.cases.size() : c;
  }
  return std::nullopt;
}

bool Judge::acts(const LinkSeed& s, std::size_t c) const { return acting(parts(s, c)); }
bool Judge::acting(const Parts& p) {
  return std::any_of(p.part.begin(), p.part.begin() + static_cast<std::ptrdiff_t>(p.count),
                     [](const Raw& r) { return r.role != Role::reported && r.demand.si > 0.0; });
}

// A part with something to hold and no capacity, that somebody must answer for.
bool Judge::is_open(const Raw& r) {
  return r.role != Role::combined && r.role != Role::reported && !r.use && r.demand.si > 0.0;
}

void Judge::decide(const LinkSeed& s, Link& l, const Parts& p) const {
  const auto say = [&](Verdict v, std::string code, std::string subject = {}) {
    l.verdict = v;
    l.why = {std::move(code), std::move(subject)};
  };
  if (!f_.loads.excess.empty()) return say(Verdict::not_judged, "outside-method", f_.loads.excess.front().limit);
  if (s.of == Of::loose_end) return say(Verdict::fail, "no-hold-down-near", l.where.words);
  if (s.of == Of::loose_jamb) return say(Verdict::fail, "no-fixing-near", l.where.words);
  if (s.of == Of::support && f_.walls[s.a].supports[s.b].missing)
    return say(Verdict::fail, "missing-as-built", l.where.words);
  const auto others = std::find_if(f_.house.by_others.begin(), f_.house.by_others.end(),
                                   [&](const ByOthers& o) { return o.what == l.kind; });
  const auto unanswered = [&](std::string code) {
    if (others != f_.house.by_others.end()) return say(Verdict::by_others, "by-others", others->who);
    return say(Verdict::not_judged, std::move(code), l.kind);
  };
  if (const auto v = veranda_of(f_, s); v && s.of != Of::post_ground && others == f_.house.by_others.end() &&
                                        (!f_.verandas.known(*v) || !fixing(s)->given())) {
    if (const ByOthers* o = who_answers_for_verandas(f_.house))
      return say(Verdict::by_others, "veranda-by-others", o->who);
    if (!f_.verandas.known(*v)) return say(Verdict::not_judged, "veranda-not-known", f_.house.verandas[*v].name);
  } else if (v && s.of != Of::post_ground && !f_.verandas.known(*v)) {
    return unanswered("veranda-not-known");
  }
  if (s.of == Of::compression_below) return unanswered("not-in-this-program");
  if (s.of == Of::ground && f_.house.framed) return unanswered("stumps-not-stated");
  if (s.of == Of::ground && !ground_.under(s.a))
    return unanswered(f_.house.walls[s.a].outside ? "edge-not-stated" : "inside-edge-not-stated");
  if ((s.of == Of::post_ground || s.of == Of::stump_ground) && !p.part[0].capacity)
    return unanswered("footing-not-stated");
  if (const auto v = veranda_of(f_, s); v && s.of == Of::post_ground && !f_.verandas.known(*v)) {
    if (const ByOthers* o = who_answers_for_verandas(f_.house))
      return say(Verdict::by_others, "veranda-by-others", o->who);
    return unanswered("veranda-not-known");
  }
  if (s.of == Of::ground)
    if (const auto other = ground_.overlaps(s.a))
      return say(Verdict::not_judged, "edges-overlap", f_.house.walls[*other].name);
  // What a veranda brings is not in the push on the house.
  if (s.of == Of::subfloor && !f_.house.verandas.empty()) return unanswered("veranda-on-the-house");
  if (s.of == Of::compression && fixing(s)->given() && !end_press_.unknown(s.a, s.end).empty()) {
    if (others == f_.house.by_others.end())
      return say(Verdict::not_judged, "press-not-known", end_press_.unknown(s.a, s.end));
    return unanswered("press-not-known");
  }
  if (of_the_whole_house(s)) {
    if (!f_.house.verandas.empty()) return unanswered("veranda-on-the-house");
    if (!p.part[0].capacity) return unanswered("friction-not-stated");
  }
  if (s.of == Of::spacing && !p.part[0].capacity) return unanswered("no-table");
  if (s.of == Of::roof_plane) {
    const bool enough = p.part[0].use && *p.part[0].use <= 1.0;
    if (auto v = plane_verdict(f_.house, roof_bracing_, s.a, s.sense, enough)) {
      if (!v->stated) return unanswered(std::move(v->code));
      return say(v->fails ? Verdict::fail : Verdict::not_judged, v->code, v->subject);
    }
  }
  if (s.of == Of::line || s.of == Of::least) {
    const bool braced = std::any_of(f_.braces.begin(), f_.braces.end(),
                                    [&](const BraceAt& b) { return b.line == s.a && !b.capacity.missing; });
    const bool counts = std::any_of(f_.braces.begin(), f_.braces.end(), [&](const BraceAt& b) {
      return b.line == s.a && b.capacity.refused.empty() &&
             (s.sense == Sense::plus ? b.capacity.plus : b.capacity.minus) > zero<Force>();
    });
    if (!braced) return say(Verdict::fail, "no-brace", f_.lines[s.a].name);
    // Where a brace's condition is not stated, what the line can hold is not known: no FAIL from a guess.
    const auto unsure = std::find_if(f_.braces.begin(), f_.braces.end(), [&](const BraceAt& b) {
      return b.line == s.a && (b.capacity.refused == "condition-not-stated" || b.capacity.refused == "angle-doubtful");
    });
    const bool enough = p.count > 0 && p.part[0].use && *p.part[0].use <= 1.0;
    if (unsure != f_.braces.end() && !enough)
      return say(Verdict::not_judged, "brace-not-judged",
                 drawn(f_, static_cast<std::size_t>(unsure - f_.braces.begin())).name);
    if (!counts) return say(Verdict::fail, "no-brace-counts", f_.lines[s.a].name);
  }
  const Chosen* c = fixing(s);
  // Who answers for a tie does not answer for where its pull goes on.
  const bool off_walls = s.of == Of::floor_tie && !f_.crossings[s.a].below;
  if (off_walls && c && !c->given()) return say(Verdict::not_judged, "no-wall-below", l.kind);
  if (c && !c->given()) return unanswered("no-fixing");
  if (c && !terms(s)) return say(Verdict::not_judged, "no-fixing", l.kind);
  const Met met = worst(l.conditions);
  const auto first = [&](Met m) {
    return std::find_if(l.conditions.begin(), l.conditions.end(), [&](const Condition& x) { return x.met == m; })->name;
  };
  if (met == Met::no) return say(Verdict::fail, "condition-unmet", first(Met::no));
  // A capacity that a part lacks, or a rule, leaves the link open, unless what is known fails already.
  bool single_over = false, over = false;
  for (std::size_t i = 0; i < p.count; ++i) {
    const bool combined = p.part[i].role == Role::combined;
    if (p.part[i].use && *p.part[i].use > 1.0) (combined ? over : single_over) = true;
    // Nothing is left of the concrete that a fixing may call on.
    const bool nothing_holds = p.part[i].capacity && p.part[i].capacity->si <= 0.0 && p.part[i].demand.si > 0.0;
    if ((s.of == Of::ground || of_the_whole_house(s)) && nothing_holds) single_over = true;
  }
  if (single_over) return say(Verdict::fail, "too-weak", l.kind);
  if (over) return say(Verdict::fail, "together", l.kind);
  if (off_walls) return say(Verdict::not_judged, "no-wall-below", l.kind);
  if (met == Met::not_stated) {
    const bool doubtful = s.of == Of::brace && f_.braces[s.a].capacity.refused == "angle-doubtful";
    return say(Verdict::not_judged, doubtful ? "angle-doubtful" : "condition-not-stated", first(Met::not_stated));
  }
  for (std::size_t i = 0; i < p.count; ++i)
    if (is_open(p.part[i])) return say(Verdict::not_judged, "part-without-capacity", std::string(p.part[i].part));
  if (p.combined_missing) return say(Verdict::not_judged, "no-rule", l.kind);
  // A brace that does not count is stiff all the same: what it does to its ends is not known.
  if (s.of == Of::support)
    if (const auto b = brace_that_does_not_count(s.a, s.b))
      return say(Verdict::not_judged, "brace-does-not-count", drawn(f_, *b).name);
  if (of_the_fixings(s))
    for (const FixingAt& x : fixings_behind(s)) {
      for (const BraceEnd& e : f_.walls[x.wall].supports[x.support].ends)
        if (const std::size_t b = f_.brace_on(x.wall, e.piece); !f_.braces[b].capacity.refused.empty())
          return say(Verdict::not_judged, "brace-does-not-count", drawn(f_, b).name);
      if (const auto& unclear = f_.walls[x.wall].unclear; !unclear.empty())
        return say(Verdict::not_judged, "as-built-unclear", unclear.front());
    }
  // Who answers for what presses there answers for that too.
  const auto not_known = [&](std::string code, std::size_t brace) {
    if (others != f_.house.by_others.end() && s.of == Of::compression) return unanswered(std::move(code));
    return say(Verdict::not_judged, std::move(code), drawn(f_, brace).name);
  };
  if (const auto b = strap_off_its_end(s)) return not_known("strap-off-its-end", *b);
  if (s.of == Of::compression && !f_.braces[s.a].capacity.refused.empty())
    return not_known("brace-does-not-count", s.a);
  if (const auto b = brace_above_that_does_not_count(s))
    return say(Verdict::not_judged, "brace-does-not-count", drawn(f_, *b).name);
  if (s.of == Of::line && f_.lines[s.a].floor == Floor::first && f_.lines[s.a].props && !f_.line_below(s.a))
    return say(Verdict::not_judged, "no-line-below", f_.lines[s.a].name);
  if (const WallSetOut* of = set_out_of(s); of && !of->unclear.empty())
    return say(Verdict::not_judged, "as-built-unclear", of->unclear.front());
  if (const Length gap = gap_behind(s); gap > zero<Length>())
    return say(Verdict::not_judged, "gap-in-line", size_text(gap, f_.house.print == Print::us ? us : metric));
  // A sheet that says what may press on it asks for an answer that short members do not get here.
  if (s.of == Of::bracket || s.of == Of::girder_bracket) {
    const Bracket* b = find(f_.house.fixings.brackets, fixing(s)->name);
    if (presses_ && b && b->press && !answers_for_press(f_, f_.roof.member_of(s.a)))
      return say(Verdict::not_judged, "press-not-judged", std::string(words(f_.roof.member_of(s.a).kind)));
  }
  if (s.of == Of::brace && !f_.braces[s.a].capacity.refused.empty())
    return say(Verdict::fail, f_.braces[s.a].capacity.refused, l.where.words);
  // What a veranda brings is missing in what the link has to hold.
  if (const Veranda* v = unknown_of(f_, verandas_to(s))) {
    if (const ByOthers* o = who_answers_for_verandas(f_.house))
      return say(Verdict::by_others, "veranda-by-others", o->who);
    return say(Verdict::not_judged, "veranda-not-known", v->name);
  }
  say(Verdict::pass, "holds");
}

Link Judge::link(std::size_t i) const {
  const LinkSeed& s = seeds_[i];
  const Deciding deciding = deciding_case(s);
  const std::size_t c = deciding.load_case;
  const LoadCase& k = f_.of(c);
  Link l{.id = {},
         .kind = std::string(kind_of_seed(s, f_)),
         .where = {},
         .fixing = {},
         .fixing_source = {},
         .fixing_demo = false,
         .load_case = {k.id, k.wind, k.inside, k.combination.name, std::string(ceiling_of(s, c))},
         .parts = {},
         .use = std::nullopt,
         .conditions = conditions(s),
         .rests_on_memory = {},
         .verdict = Verdict::not_judged,
         .why = {}};
  if (of_no_case(s)) l.load_case = {};
  place(s, l);
  if (const Chosen* chosen = fixing(s)) l.fixing = *chosen;
  if (const Terms* t = terms(s)) {
    l.fixing_source = t->source;
    l.fixing_demo = t->demo;
  }
  const Parts p = parts(s, c);
  for (std::size_t n = 0; n < p.count; ++n) {
    const Raw& raw = p.part[n];
    LinkPart part{raw.role,
                  std::string(raw.part),
                  raw.demand,
                  raw.capacity,
                  raw.use ? std::optional(Use{*raw.use}) : std::nullopt,
                  std::string(raw.rule),
                  {}};
    std::size_t shown = c;  // what nobody judges is told in its own greatest case
    for (const Greatest& g : deciding.greatest) {
      if (g.part != raw.part) continue;
      if (g.si > part.greatest.si) part.greatest.si = g.si;
      if (raw.role == Role::reported) shown = g.load_case;
    }
    if (raw.role == Role::reported) part.demand = part.greatest;
    const HeldByConcrete* in = in_concrete_of(s);
    if (in && raw.role == Role::single && raw.capacity)
      part.gives = raw.part == "pull" ? in->pull_gives : in->slide_gives;
    if (const HeldBySteel* by = steel_of(s);
        by && raw.role == Role::single && (raw.part == "pull" || raw.part == "uplift"))
      part.gives = by->gives;
    if (raw.demand.kind == Kind::force)
      for (auto& m : made_of(s, shown, raw.part))
        part.made_of.push_back({std::move(m.what), value(m.value), std::move(m.from)});
    if (raw.use && (!l.use || *raw.use > l.use->value)) {
      l.use = Use{*raw.use};
      // What presses is combined as the edition combines what presses.
      if (!of_no_case(s))
        l.load_case.combination = raw.part != "press"       ? k.combination.name
                                  : s.of == Of::compression ? end_press_.down(c, s.a, s.end).name
                                                            : k.down.name;
    }
    l.parts.push_back(std::move(part));
  }
  remember_figures(s, deciding, l);
  decide(s, l, p);
  return l;
}

// The nearest line beside that one, under the same floor's or roof's ceiling, that holds anything in that case.
std::optional<std::size_t> Judge::nearest_that_holds(std::size_t line, std::size_t c) const {
  const Line& here = f_.lines[line];
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < f_.lines.size(); ++i) {
    const Line& l = f_.lines[i];
    const bool beside = i != line && l.runs == here.runs && l.floor == here.floor && l.blocks == here.blocks;
    if (!beside || !(f_.line_capacity(c, i) > zero<Force>())) continue;
    if (!best || apart(l.at, here.at) < apart(f_.lines[*best].at, here.at)) best = i;
  }
  return best;
}

}  // namespace belay
