#include "judge/brace_cautions.hpp"

#include <set>

namespace belay {

namespace {

// Straps stretch before they break, ends do not: a wall should find out by the first.
std::string straps_with_weak_ends(const Forces& f, const RoofBracing& roof) {
  std::set<std::string> names;
  for (const BraceAt& b : f.braces)
    if (b.capacity.end_first) names.insert(f.house.walls[b.wall].pieces[b.piece].brace->fixing.name);
  for (std::size_t i = 0; i < roof.straps.size(); ++i)
    if (roof.straps[i].capacity.end_first) names.insert(f.house.roof_braces[i].fixing.name);
  std::string list;
  for (const std::string& n : names) list += (list.empty() ? "" : ", ") + n;
  return list;
}

// What a brace's end may pull at most: as tipped by all that the brace can hold in that sense, less what it weighs.
Force pull_at_capacity(const Forces& f, std::size_t c, std::size_t brace, End e) {
  const BraceCapacity& holds = f.braces[brace].capacity;
  const Force now = f.tip(c, brace), most = e == End::left ? holds.plus : holds.minus, force = f.brace_force(c, brace),
              less_weight = f.tip_less_weight(c, brace);
  if (most <= force) return less_weight;
  const double times = static_cast<double>(most / force);
  return now * times - (now - less_weight);
}

struct Overpulled {
  std::size_t of = 0, count = 0;
  std::string worst;
  Force pull, holds;
};
// Hold-downs that hold today, and would not if their braces were worked to the full.
Overpulled at_full_braces(const Forces& f, const Judge& judge, const std::vector<Link>& links) {
  Overpulled r{};
  double most = 1.0;
  for (std::size_t i = 0; i < links.size(); ++i) {
    const LinkSeed& s = judge.seeds()[i];
    if (s.of != LinkSeed::Of::support || links[i].verdict == Verdict::fail || links[i].parts.empty()) continue;
    const LinkPart& part = links[i].parts.front();
    const auto& ends = f.walls[s.a].supports[s.b].ends;
    if (ends.empty() || part.part != "pull" || !part.capacity) continue;
    const Force holds = quantity<Force>(*part.capacity);
    ++r.of;
    Force pull = zero<Force>();
    for (std::size_t c = 0; c < f.cases(); ++c) {
      Force here = f.roof_on(c, s.a, s.b);
      bool racked = false;
      for (const BraceEnd& e : ends)
        if (const std::size_t b = f.brace_on(s.a, e.piece); f.pulls(c, b, e.end)) {
          here += pull_at_capacity(f, c, b, e.end);
          racked = true;
        }
      if (racked) pull = std::max(pull, here);
    }
    if (pull <= holds) continue;
    ++r.count;
    if (const double use = static_cast<double>(pull / holds); use > most) {
      most = use;
      r.worst = links[i].where.words;
      r.pull = pull;
      r.holds = holds;
    }
  }
  return r;
}

}  // namespace

std::vector<Caution> brace_cautions(const Forces& f, const Judge& judge, const std::vector<Link>& links) {
  std::vector<Caution> r;
  const Units& u = f.house.print == Print::us ? us : metric;
  if (const std::string names = straps_with_weak_ends(f, judge.roof_bracing()); !names.empty())
    r.push_back(
        {"strap-end-weaker",
         fmt::format("Some straps' ends hold less than the straps ({}): where more comes than was reckoned, they break "
                     "there without warning.",
                     names)});
  if (const Overpulled o = at_full_braces(f, judge, links); o.count > 0)
    r.push_back(
        {"hold-down-below-brace",
         fmt::format("Braces can bring more to their hold-downs than the wind asks for: worked to all that they "
                     "hold, they would pull {} of the {} that stand it now by more than it holds, {} the most "
                     "({}, and it holds {}). A line that is stiffer than reckoned draws more wind.",
                     o.count, o.of, o.worst, text(value(o.pull), u), text(value(o.holds), u))});
  return r;
}

}  // namespace belay
