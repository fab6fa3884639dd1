#include "load_path/ceiling.hpp"

#include "load_path/formulas_ceiling.hpp"

#include <algorithm>

namespace belay {

namespace {

// What is left of pushes on two faces that cancel turns nothing, and what is left of places that are one is no arm.
constexpr Moment no_turning = Moment::from_value(1e-6);
constexpr Area no_arm = Area::from_value(1e-6);

Along other(Along way) { return way == Along::across ? Along::up : Along::across; }
std::string_view way_words(Along way) { return way == Along::across ? "across" : "up"; }
bool is_nothing(Moment m) { return m < no_turning && -m < no_turning; }

Moment turning_about(const std::vector<CeilingPush>& pushes, Along way, Length centre) {
  Moment m = zero<Moment>();
  for (const CeilingPush& p : pushes)
    if (p.runs == way) m += formulas::turning(nullptr, p.force, p.middle, centre);
  return m;
}

}  // namespace

template <class Stiff>
std::optional<RigidShare> share_by_stiffness(const std::vector<StiffLineBy<Stiff>>& lines,
                                             const std::vector<Stiff>& stiffness,
                                             const std::vector<CeilingPush>& pushes, Along way, const RigidTold* told) {
  constexpr std::string_view shared =
      std::is_same_v<Stiff, Force> ? "shared by capacity" : "shared by stated stiffness";
  Working* w = told ? told->w : nullptr;
  const std::string suffix = told ? told->suffix : std::string();
  const bool against = told && told->against;
  const auto symbol = [&](std::string_view s, std::string_view of = {}) {
    return w ? fmt::format("{}{}{}{}", s, of.empty() ? "" : "_", of, suffix) : std::string();
  };
  const auto of_line = [&](std::string_view s, std::size_t i) { return symbol(s, lines[i].symbol); };
  RigidShare r{zero<Force>(), zero<Moment>(), zero<Length>(), zero<Length>(), zero<Area>(), {}, {}, {}};
  r.share.assign(lines.size(), 0.0);
  r.direct.assign(lines.size(), zero<Force>());
  r.turned.assign(lines.size(), zero<Force>());

  // How stiff each line is, of all that run this way.
  Stiff stiff = zero<Stiff>(), stiff_across = zero<Stiff>();
  for (std::size_t i = 0; i < lines.size(); ++i) (lines[i].runs == way ? stiff : stiff_across) += stiffness[i];
  if (!(stiff > zero<Stiff>())) return std::nullopt;
  if (w)
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (!(stiffness[i] > zero<Stiff>())) continue;
      given(w, of_line("x", i), fmt::format("place of {}", lines[i].words), lines[i].at, "the job");
      if (lines[i].told) continue;
      given(w, of_line("k", i),
            fmt::format("stiffness of {}: what its braces hold in the sense in which it is moved", lines[i].words),
            stiffness[i], lines[i].source);
    }
  std::vector<As<Stiff>> of_all;
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (lines[i].runs == way && stiffness[i] > zero<Stiff>()) of_all.push_back(as(of_line("k", i), stiffness[i]));
  const auto added_up = [&](const std::string& own, std::string_view words, const auto& rows) {
    if (rows.size() == 1) return rows.front();
    auto sum = rows.front();
    sum.name = own;
    sum.quantity = total(w, own, words, "sum", rows);
    return sum;
  };
  const As<Stiff> all =
      added_up(symbol("K"), fmt::format("stiffness of all lines that run {} the sheet", way_words(way)), of_all);
  const auto named = [&](std::size_t i) { return as(of_line("s", i), r.share[i]); };
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (stiffness[i] > zero<Stiff>())
      r.share[i] =
          formulas::relative_stiffness.told(w, of_line("s", i), shared, as(of_line("k", i), stiffness[i]), all);

  // Where the ceiling turns: the centre of stiffness each way.
  const auto centre = [&](Along runs, const std::string& own, bool is_one) {
    std::vector<As<Length>> parts;
    std::vector<As<double>> shares;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (lines[i].runs != runs || !(stiffness[i] > zero<Stiff>())) continue;
      parts.push_back(as(of_line("c", i), formulas::part_of_centre.told(w, of_line("c", i), "statics", named(i),
                                                                        as(of_line("x", i), lines[i].at))));
      shares.push_back(named(i));
    }
    const std::string words = fmt::format("centre of stiffness of the lines that run {} the sheet", way_words(runs));
    if (is_one) return total<Length>(w, own, words, "sum", parts);
    return formulas::centre_of_stiffness.told_as(
        w, own, words, "statics", added_up(symbol("c", way_words(runs)), "its parts together", parts),
        added_up(symbol("S"), fmt::format("stiffness of those that run {}", way_words(runs)), shares));
  };
  const std::string here = symbol("x_R", way_words(way)), there = symbol("x_R", way_words(other(way)));
  r.centre = centre(way, here, true);
  const bool across = stiff_across > zero<Stiff>();
  if (across) r.centre_across = centre(other(way), there, false);

  // What turns it.
  const Moment own_turning = turning_about(pushes, way, r.centre),
               side_turning = across ? turning_about(pushes, other(way), r.centre_across) : zero<Moment>();
  const bool sideways = !is_nothing(side_turning);
  std::vector<As<Force>> forces;
  std::vector<As<Moment>> turnings;
  std::size_t n = 0;
  for (const CeilingPush& p : pushes) {
    const bool mine = p.runs == way;
    if (!mine && !sideways) continue;
    const std::string number = w ? fmt::format("p{}", ++n) : std::string();
    const Force f = against ? -p.force : p.force;
    if (w) {
      given(w, symbol("A", number), fmt::format("area that pushes on the ceiling: {}", p.what), p.area,
            "measured from the job");
      given(w, symbol("m", number), "its middle, along the face", p.middle, "measured from the job");
      const auto pressure = as(p.pressure, p.p);
      const auto area = as(symbol("A", number), p.area);
      if (p.positive == against)
        formulas::floor_push_against.told(w, symbol("F", number), "statics", as("f_w", told->wind_factor), pressure,
                                          area);
      else formulas::floor_push.told(w, symbol("F", number), "statics", as("f_w", told->wind_factor), pressure, area);
    }
    const auto force = as(symbol("F", number), f);
    const auto middle = as(symbol("m", number), p.middle);
    const std::string turns = symbol("M", number);
    if (mine) {
      forces.push_back(force);
      turnings.push_back(as(turns, formulas::turning.told(w, turns, "statics", force, middle, as(here, r.centre))));
    } else {
      turnings.push_back(
          as(turns, formulas::turning_back.told(w, turns, "statics", force, middle, as(there, r.centre_across))));
    }
  }
  r.whole = total<Force>(w, symbol("F", "c"), "push on the whole ceiling along these lines", "sum", forces);
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (lines[i].runs == way) r.direct[i] = formulas::share_by_stiffness(nullptr, r.whole, r.share[i]);
  if (w)
    formulas::share_by_stiffness.told(w, of_line("V_d", told->line), shared, as(symbol("F", "c"), r.whole),
                                      named(told->line));
  if (is_nothing(own_turning) && !sideways) return r;
  r.turning =
      total<Moment>(w, symbol("M", "c"), "what turns the ceiling about the centre of stiffness", "sum", turnings);

  // How each line holds against that.
  std::vector<As<Area>> arms;
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (stiffness[i] > zero<Stiff>()) {
      const bool mine = lines[i].runs == way;
      arms.push_back(as(of_line("j", i), formulas::stiffness_against_turning.told(
                                             w, of_line("j", i), "statics", named(i), as(of_line("x", i), lines[i].at),
                                             as(mine ? here : there, mine ? r.centre : r.centre_across))));
    }
  r.against_turning = total<Area>(w, symbol("J"), "all lines against turning", "sum", arms);
  if (r.against_turning < no_arm) return std::nullopt;
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (lines[i].runs == way)
      r.turned[i] =
          formulas::share_of_turning(nullptr, r.turning, r.share[i], lines[i].at, r.centre, r.against_turning);
  if (w)
    formulas::share_of_turning.told(w, of_line("V_t", told->line), "statics", as(symbol("M", "c"), r.turning),
                                    named(told->line), as(of_line("x", told->line), lines[told->line].at),
                                    as(here, r.centre), as(symbol("J"), r.against_turning));
  return r;
}

// The sense in which a line is moved decides how stiff it is, and that decides how the ceiling moves: begun with the
// stiffer of both senses, and again until no line changes. Whatever the stiffness, the shares balance the pushes.
template <class Stiff>
std::vector<Stiff> stiffness_moved(const std::vector<StiffLineBy<Stiff>>& lines,
                                   const std::vector<CeilingPush>& pushes) {
  std::vector<Stiff> k;
  for (const StiffLineBy<Stiff>& l : lines) k.push_back(std::max(l.plus, l.minus));
  for (std::size_t round = 0; round < 2 * lines.size() + 2; ++round) {
    std::vector<Stiff> next = k;
    for (const Along way : {Along::across, Along::up}) {
      const std::optional<RigidShare> r = share_by_stiffness(lines, k, pushes, way);
      if (!r) continue;
      for (std::size_t i = 0; i < lines.size(); ++i) {
        if (lines[i].runs != way) continue;
        // How the ceiling moves there, as a force on a line that alone is as stiff as all.
        const Force moved = r->against_turning < no_arm
                                ? r->whole
                                : r->whole + r->turning * (lines[i].at - r->centre) / r->against_turning;
        if (moved < no_push && -moved < no_push) continue;
        next[i] = moved > zero<Force>() ? lines[i].plus : lines[i].minus;
      }
    }
    if (next == k) break;
    k = std::move(next);
  }
  return k;
}

template std::optional<RigidShare> share_by_stiffness(const std::vector<StiffLine>&, const std::vector<Force>&,
                                                      const std::vector<CeilingPush>&, Along, const RigidTold*);
template std::optional<RigidShare> share_by_stiffness(const std::vector<StatedLine>&, const std::vector<Stiffness>&,
                                                      const std::vector<CeilingPush>&, Along, const RigidTold*);
template std::vector<Force> stiffness_moved(const std::vector<StiffLine>&, const std::vector<CeilingPush>&);
template std::vector<Stiffness> stiffness_moved(const std::vector<StatedLine>&, const std::vector<CeilingPush>&);

}  // namespace belay
