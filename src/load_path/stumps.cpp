#include "load_path/stumps.hpp"

#include "job/evenly.hpp"
#include "load_path/formulas.hpp"
#include "load_path/formulas_ground.hpp"
#include "load_path/ground.hpp"

#include <algorithm>
#include <cmath>

namespace belay {

namespace {
// What looks like a share but is nothing but the last bit of a place.
constexpr double no_share = 1e-9;

Area apart(const Point& a, const Point& b) { return (a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y); }
}  // namespace

// Two stumps of different walls that stand so near that their footings would meet are one: all of both comes to it.
StumpRows::StumpRows(const Forces& f) : f_(f) {
  if (!f.house.framed || !f.house.framed->stumps) return;
  const Stumps& stumps = *f.house.framed->stumps;
  const Length together =
      std::max({f.practice.get<Length>("anchor_near", "within"), stumps.footing.width.value_or(zero<Length>()),
                stumps.footing.length.value_or(zero<Length>())});
  places_.resize(f.walls.size());
  lever_.resize(f.walls.size());
  continuous_.resize(f.walls.size());
  for (std::size_t w = 0; w < f.walls.size(); ++w) {
    const Wall& wall = f.house.walls[w];
    const auto& supports = f.walls[w].supports;
    bool pulled = false;
    for (std::size_t i = 0; i < supports.size(); ++i) pulled = pulled || f.can_be_pulled(w, i);
    if (wall.floor != Floor::ground || !pulled) continue;
    places_[w] = evenly(wall.length(), stumps.max);
    for (const Support& s : supports) {
      lever_[w].push_back(lever_shares(places_[w], s.at));
      continuous_[w].push_back(continuous_shares(places_[w], s.at));
    }
    for (std::size_t i = 0; i < places_[w].size(); ++i) {
      const Point at = in_plan(wall, places_[w][i]);
      Stump* nearest = nullptr;
      for (Stump& s : all)
        if (s.walls.front().wall != w && apart(s.at, at) <= together * together &&
            (!nearest || apart(s.at, at) < apart(nearest->at, at)))
          nearest = &s;
      if (nearest) nearest->walls.push_back({w, i});
      else all.push_back({at, {{w, i}}, places_[w][i], fmt::format("{} stump {}", wall.name, i + 1)});
    }
  }
}

std::vector<FixingAt> StumpRows::above(std::size_t stump) const {
  std::vector<FixingAt> r;
  for (const Stump::Under& u : all[stump].walls)
    for (std::size_t i = 0; i < lever_[u.wall].size(); ++i)
      if (f_.can_be_pulled(u.wall, i)) r.push_back({u.wall, i});
  return r;
}

Force StumpRows::from_wall(std::size_t c, const Stump::Under& u, const std::string& symbol, Working* w) const {
  const std::string& name = f_.house.walls[u.wall].name;
  std::vector<As<Force>> lever, continuous;
  for (std::size_t i = 0; i < lever_[u.wall].size(); ++i) {
    const Force pull = f_.pull(c, u.wall, i);
    // What a bearer as one beam takes off a stump further on: not where a veranda pulls, whose wind need not blow with
    // the house's.
    const bool sure = f_.verandas_to(u.wall, i).empty();
    const double k = lever_[u.wall][i][u.place],
                 m = sure ? continuous_[u.wall][i][u.place] : std::max(0.0, continuous_[u.wall][i][u.place]);
    const bool by_lever = std::abs(k) > no_share, by_beam = std::abs(m) > no_share;
    if (!(pull > zero<Force>()) || !(by_lever || by_beam)) continue;
    if (!w) {
      if (by_lever) lever.push_back(as("", formulas::landed(nullptr, k, pull)));
      if (by_beam) continuous.push_back(as("", formulas::landed(nullptr, m, pull)));
      continue;
    }
    const std::string n = fmt::format("{}{}", in_symbol(name), i + 1), t = "T_" + n;
    f_.pull(c, u.wall, i, w);
    total<Force>(w, t, "pull at " + f_.support_words(u.wall, i), "sum", {as("T", pull)});
    w->heading(fmt::format("Along the bearer under wall {}", name));
    if (by_lever) {
      looked_up(w, "k_" + n, "its share here by the lever rule", k, "the bearer as simple spans");
      lever.push_back(as("N_" + n, formulas::landed.told(w, "N_" + n, "lever rule", as("k_" + n, k), as(t, pull))));
    }
    if (!by_beam) continue;
    looked_up(w, "c_" + n, "its share here with the bearer as one beam", m, "three-moment equation, even stiffness");
    continuous.push_back(
        as("M_" + n, formulas::landed.told(w, "M_" + n, "continuous bearer", as("c_" + n, m), as(t, pull))));
  }
  if (w) w->heading(fmt::format("Along the bearer under wall {}", name));
  if (lever.empty())
    lever.push_back(as("nothing", given(w, "nothing", "no fixing beside it pulls", zero<Force>(), "statics")));
  const Force by_lever = total<Force>(w, "N", "pull on this stump by the lever rule", "sum", lever);
  std::vector<As<Force>> ways{as("N", by_lever)};
  if (!continuous.empty())
    ways.push_back(as("M", total<Force>(w, "M", "pull on this stump with a continuous bearer", "sum", continuous)));
  return greatest<Force>(w, symbol, fmt::format("pull from wall {}: the worse of the two", name), "the safe one", ways);
}

// Each wall's part is the worse of two; by the lever rule nothing is below zero.
Force StumpRows::pull(std::size_t c, std::size_t stump, Working* w) const {
  std::vector<As<Force>> parts;
  for (const Stump::Under& u : all[stump].walls) {
    const std::string symbol = "R_" + in_symbol(f_.house.walls[u.wall].name);
    parts.push_back(as(symbol, from_wall(c, u, symbol, w)));
  }
  return total<Force>(w, "T_s", "pull on the stump; what the floor weighs is not counted", "sum", parts);
}
std::vector<Piece_of_demand> StumpRows::made_of(std::size_t c, std::size_t stump) const {
  std::vector<Piece_of_demand> r;
  for (const Stump::Under& u : all[stump].walls) {
    const std::string& name = f_.house.walls[u.wall].name;
    r.push_back(
        {fmt::format("fixings of wall {} along the bearer", name), "wall " + name, from_wall(c, u, "", nullptr)});
  }
  return r;
}

std::optional<Force> StumpRows::footing_holds(std::size_t c, Working* w) const {
  const auto weighs = footing_weighs(f_.house.framed->stumps->footing, "the job's stumps", w);
  if (!weighs) return std::nullopt;
  const double f =
      given(w, "f_d", "factor on weight that holds down", f_.of(c).combination.dead, f_.of(c).combination.source);
  return formulas::weight_that_holds.told(w, "C_pull", "combination", f, *weighs);
}

}  // namespace belay
