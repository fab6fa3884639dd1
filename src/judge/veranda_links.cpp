#include "judge/veranda_links.hpp"

#include "capacity/concrete.hpp"
#include "units/sizes.hpp"

#include <algorithm>
#include <stdexcept>

namespace belay {

namespace {
using Of = LinkSeed::Of;
const Units& units_of(const House& h) { return h.print == Print::us ? us : metric; }
bool on_a_rafter(const LinkSeed& s) { return s.of == Of::veranda_wall || s.of == Of::veranda_beam; }
bool on_a_post(const LinkSeed& s) { return s.of == Of::post_top || s.of == Of::post_foot || s.of == Of::post_ground; }
}  // namespace

std::optional<std::size_t> veranda_of(const Forces& f, const LinkSeed& s) {
  if (on_a_rafter(s)) return f.verandas.rafters[s.a].veranda;
  if (on_a_post(s)) return f.verandas.posts[s.a].veranda;
  return std::nullopt;
}

const Chosen& veranda_fixing(const Forces& f, const LinkSeed& s) {
  const Veranda& v = f.house.verandas[*veranda_of(f, s)];
  switch (s.of) {
    case Of::veranda_wall: return v.at_wall;
    case Of::veranda_beam: return v.at_beam;
    case Of::post_top: return v.post_top;
    case Of::post_foot: return v.post_foot;
    default: throw std::logic_error("a link of a veranda that has no fixing");
  }
}

Force veranda_pull(const Forces& f, const LinkSeed& s, Working* w) {
  if (!on_a_rafter(s)) return f.verandas.on_post(s.a, w);
  return s.of == Of::veranda_wall ? f.verandas.at_wall(s.a, w) : f.verandas.at_beam(s.a, w);
}
std::string veranda_symbol(const Forces& f, const LinkSeed& s) {
  if (!on_a_rafter(s)) return f.verandas.post_symbol(s.a);
  return s.of == Of::veranda_wall ? f.verandas.wall_symbol(s.a) : f.verandas.beam_symbol(s.a);
}
std::vector<Piece_of_demand> veranda_made_of(const Forces& f, const LinkSeed& s) {
  return on_a_rafter(s) ? f.verandas.rafter_made_of(s.a, s.of == Of::veranda_wall) : f.verandas.post_made_of(s.a);
}

void place_of_veranda(const Forces& f, const LinkSeed& s, Where& where) {
  const Wall& wall = f.house.walls[f.verandas.wall_of(*veranda_of(f, s))];
  where.wall = wall.name;
  where.face = std::string(words(wall.side));
  where.from_start = on_a_rafter(s) ? f.verandas.rafters[s.a].at : f.verandas.posts[s.a].at;
  if (on_a_rafter(s)) where.words = f.verandas.rafter_words(s.a, s.of == Of::veranda_wall);
  else if (s.of == Of::post_ground) where.words = fmt::format("ground under {}", f.verandas.post_words(s.a));
  else where.words = fmt::format("{} {}", f.verandas.post_words(s.a), s.of == Of::post_top ? "top" : "foot");
}

namespace {

// A post's anchor stands in a footing of its own, not in the house's slab.
House at_foot_of(const House& h, const Veranda& v) {
  House r{};
  r.print = h.print;
  r.frame = h.frame;
  r.slab = {v.footing.thickness, v.footing.concrete, v.footing.cracked, zero<Length>()};
  return r;
}
void speak_of_the_footing(std::string& words) {
  for (auto at = words.find("slab"); at != std::string::npos; at = words.find("slab", at))
    words.replace(at, 4, "footing");
}

}  // namespace

// The nearest edge stands for all four; anchors of other posts may stand in the same strip of concrete.
HeldByConcrete post_foot_holds(const Forces& f, std::size_t post, const Anchor& a, Working* w) {
  const Veranda& v = f.house.verandas[f.verandas.posts[post].veranda];
  StandsInSlab stands;
  if (const auto& e = v.footing.edge) stands.edges = {*e, *e, *e, *e};
  for (const Length& x : v.posts)
    if (const Length off = x - f.verandas.posts[post].at; off > same_place || -off > same_place)
      stands.neighbours.push_back({off, zero<Length>()});
  const std::size_t before = w ? w->steps.size() : 0;
  HeldByConcrete r = held_by_concrete(at_foot_of(f.house, v), a, stands, f.practice, w);
  for (std::size_t i = before; w && i < w->steps.size(); ++i)
    for (std::string* s : {&w->steps[i].words, &w->steps[i].source}) speak_of_the_footing(*s);
  return r;
}

std::vector<Condition> post_foot_conditions(const Forces& f, std::size_t post, const Anchor& a) {
  const House& h = f.house;
  const Veranda& v = h.verandas[f.verandas.posts[post].veranda];
  std::optional<Length> neighbour;
  for (const Length& x : v.posts) {
    const Length me = f.verandas.posts[post].at, off = apart(x, me);
    if (off > same_place && (!neighbour || off < *neighbour)) neighbour = off;
  }
  std::vector<Condition> r = anchor_conditions(at_foot_of(h, v), a, v.footing.edge, neighbour, f.cyclonic());
  if (a.worked_out) {
    const HeldByConcrete held = post_foot_holds(f, post, a, nullptr);
    r.insert(r.end(), held.conditions.begin(), held.conditions.end());
  }
  if (a.least_edge && !v.footing.edge && !a.worked_out)
    r.push_back({"distance to the slab's edge", fmt::format("at least {}", size_text(*a.least_edge, units_of(h))), "",
                 Met::not_stated, "[slab] edge"});
  for (Condition& c : r) {
    speak_of_the_footing(c.name);
    if (c.key == "[unless_noted] plate") c.key = "[slab] edge";  // where it stands in the footing
    if (c.key.starts_with("[slab] ")) c.key = fmt::format("footing.{} of veranda {}", c.key.substr(7), v.name);
  }
  return r;
}

const Veranda* unknown_of(const Forces& f, const std::set<std::size_t>& verandas) {
  const auto v = std::find_if(verandas.begin(), verandas.end(), [&](std::size_t i) { return !f.verandas.known(i); });
  return v == verandas.end() ? nullptr : &f.house.verandas[*v];
}

const ByOthers* who_answers_for_verandas(const House& h) {
  const auto o =
      std::find_if(h.by_others.begin(), h.by_others.end(), [](const ByOthers& x) { return x.what == "veranda"; });
  return o == h.by_others.end() ? nullptr : &*o;
}

Marks marks_of_combination(const Table& method, const LoadCase& k) {
  Marks m = 0;
  bool found = false;
  for (const Entry& e : method.entries) {
    if (method.source(e.key) != k.combination.source) continue;
    found = true;
    m |= method.mark(e.key);
  }
  // The combination stands behind all three of these, with the gust, and what is each one's own behind one alone.
  return found ? m : k.marks_net & k.marks_push & k.marks_square_on;
}

std::vector<Caution> veranda_cautions(const House& h) {
  std::vector<Caution> r;
  for (const Veranda& v : h.verandas) {
    if (v.net_uplift)
      r.push_back({"veranda-typed-in",
                   fmt::format("The wind that lifts veranda {}, {}, was typed in, not worked out here (given by {}).",
                               v.name, text(value(v.net_uplift->pressure), units_of(h)), v.net_uplift->given_by)});
    else if (const ByOthers* o = who_answers_for_verandas(h))
      r.push_back(
          {"veranda-by-others", fmt::format("What lifts veranda {} is not counted in wall {}: {} answers for both.",
                                            v.name, v.wall, o->who)});
    else
      r.push_back({"veranda-not-known",
                   fmt::format("The wind on open roofs is in no table here: veranda {}, and what it hangs on in wall "
                               "{}, is not judged without its net_uplift.",
                               v.name, v.wall)});
  }
  if (!h.verandas.empty())
    r.push_back({"veranda-frame",
                 "Rafters, beam and posts of a veranda are taken to be of the house's frame: its steel, its timber."});
  return r;
}

}  // namespace belay
