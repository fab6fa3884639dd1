#include "load_path/veranda.hpp"

#include "load_path/formulas.hpp"
#include "load_path/formulas_veranda.hpp"
#include "units/sizes.hpp"

#include <algorithm>
#include <stdexcept>

namespace belay {

namespace {
const Units& units_of(const House& h) { return h.print == Print::us ? us : metric; }
std::string table_of(const Veranda& v) { return fmt::format("the job, veranda {}", v.name); }
// What looks like a share but is nothing but the last bit of a place: a rafter that stands over a post.
constexpr double no_share = 1e-9;
}  // namespace

Verandas::Verandas(const House& h, const Loads& l) : house_(h) {
  for (std::size_t i = 0; i < l.cases.size(); ++i) {
    const Combination& c = l.cases[i].combination;
    if (i == 0 || c.wind > on_wind_) {
      on_wind_ = c.wind;
      on_wind_from_ = c.source;
    }
    if (i == 0 || c.dead < on_weight_) {
      on_weight_ = c.dead;
      on_weight_from_ = c.source;
    }
  }
  for (std::size_t v = 0; v < h.verandas.size(); ++v) {
    const std::vector<Length>& at = h.verandas[v].rafters;
    for (std::size_t i = 0; i < at.size(); ++i) {
      const Length before = i == 0 ? zero<Length>() : at[i] - at[i - 1],
                   after = i + 1 == at.size() ? zero<Length>() : at[i + 1] - at[i];
      rafters.push_back({v, at[i], (before + after) / 2.0});
    }
    for (std::size_t i = 0; i < h.verandas[v].posts.size(); ++i) posts.push_back({v, i, h.verandas[v].posts[i]});
  }
}

std::size_t Verandas::wall_of(std::size_t veranda) const {
  const auto wall =
      std::find_if(house_.walls.begin(), house_.walls.end(), [&](const Wall& w) { return w.name == of(veranda).wall; });
  if (wall == house_.walls.end()) throw std::logic_error("a veranda against a wall that is not there");
  return static_cast<std::size_t>(wall - house_.walls.begin());
}

// ---- a rafter -------------------------------------------------------------------------------------------------------

Force Verandas::wind(std::size_t r, bool wall, Working* w) const {
  const VerandaRafter& me = rafters[r];
  const Veranda& v = of(me.veranda);
  if (!v.net_uplift) return zero<Force>();
  const Pressure p = v.net_uplift->pressure;
  const auto tell = [&](const auto& formula) {
    if (!w) return formula(nullptr, p, me.width, v.depth, v.overhang, v.pitch);
    const std::string symbol = fmt::format("p_{}", v.name);
    given(w, symbol, fmt::format("net wind pressure upwards on veranda {}, typed in, not worked out here", v.name), p,
          "given by " + v.net_uplift->given_by);
    given(w, "theta_v", "pitch of the veranda", v.pitch, table_of(v));
    return formula.told(w, fmt::format("W_{}", number(r)), formula.source, as(symbol, p), me.width, v.depth, v.overhang,
                        v.pitch);
  };
  return wall ? tell(formulas::veranda_lift_at_wall) : tell(formulas::veranda_lift_at_beam);
}

Force Verandas::weight(std::size_t r, bool wall, Working* w) const {
  const VerandaRafter& me = rafters[r];
  const Veranda& v = of(me.veranda);
  const auto tell = [&](const auto& formula) {
    if (!w) return formula(nullptr, v.weight, me.width, v.depth, v.overhang);
    given(w, "g_v", "weight of the veranda's roof, on plan", v.weight, table_of(v));
    return formula.told(w, fmt::format("D_{}", number(r)), formula.source, v.weight, me.width, v.depth, v.overhang);
  };
  return wall ? tell(formulas::veranda_weight_at_wall) : tell(formulas::veranda_weight_at_beam);
}

Force Verandas::exact(std::size_t r, bool wall, Working* w) const {
  const VerandaRafter& me = rafters[r];
  const Veranda& v = of(me.veranda);
  if (!w) return formulas::net_uplift(nullptr, on_wind_, wind(r, wall, nullptr), on_weight_, weight(r, wall, nullptr));
  given(w, "b", "width of roof that this rafter carries: half of the space on both sides", me.width, table_of(v));
  given(w, "d", "level, from the wall to the beam", v.depth, table_of(v));
  given(w, "o", "level, past the beam", v.overhang, table_of(v));
  const Force lift = wind(r, wall, w), own = weight(r, wall, w);
  given(w, "f_w", "factor on the wind: the greatest of all load cases", on_wind_, on_wind_from_);
  on_weight(w);
  return formulas::net_uplift.told(w, symbol(r, wall) + ",n", "combination", on_wind_,
                                   as(fmt::format("W_{}", number(r)), lift), on_weight_,
                                   as(fmt::format("D_{}", number(r)), own));
}

// Pressed down it gives no relief: the wind that lifts the house need not press on the veranda.
Force Verandas::at(std::size_t r, bool wall, Working* w) const {
  const std::string own = w ? symbol(r, wall) : std::string();
  if (!known(rafters[r].veranda)) {
    if (w && w->first("veranda " + own))
      given(w, own, "what lifts it is not known: nothing is counted here, and no link that it comes to is judged",
            zero<Force>(), table_of(of(rafters[r].veranda)));
    return zero<Force>();
  }
  if (!w || !w->first("veranda " + own)) return not_below_zero(exact(r, wall, nullptr));
  // One like one already told is not told again: the same veranda, a strip as wide.
  for (std::size_t i = 0; i < r; ++i) {
    const Length more = rafters[i].width - rafters[r].width;
    if (rafters[i].veranda != rafters[r].veranda || more > same_place || more < -same_place) continue;
    const std::string like = symbol(i, wall);
    if (std::none_of(w->steps.begin(), w->steps.end(), [&](const Step& s) { return s.symbol == like; })) continue;
    w->heading("The veranda lifts: rafters like one above");
    return given(w, own, fmt::format("uplift at {}, an equal strip", rafter_words(r, wall)),
                 not_below_zero(exact(r, wall, nullptr)), "as " + like);
  }
  w->heading(fmt::format("The veranda lifts: {}", rafter_words(r, wall)));
  const Force net = exact(r, wall, w);
  if (net >= zero<Force>())
    return greatest<Force>(w, own, "uplift at this end of the rafter", "sum", {as(own + ",n", net)});
  given(w, "nothing", "pressed down: no uplift", zero<Force>(), "statics");
  return greatest<Force>(w, own, "uplift at this end of the rafter, not below nothing", "statics",
                         {as(own + ",n", net), as("nothing", zero<Force>())});
}

std::vector<Piece_of_demand> Verandas::rafter_made_of(std::size_t r, bool wall) const {
  const std::size_t v = rafters[r].veranda;
  if (!known(v)) return {};
  const Force lift = on_wind_ * wind(r, wall, nullptr), own = on_weight_ * weight(r, wall, nullptr);
  std::vector<Piece_of_demand> made{{"net uplift pressure, typed in", "given by " + of(v).net_uplift->given_by, lift},
                                    {"weight of its strip of roof", table_of(of(v)), -own}};
  const Force sum = lift - own;
  if (sum < zero<Force>()) made.push_back({"pressed down: counted as nothing", "", -sum});
  return made;
}

// ---- the beam and its posts -----------------------------------------------------------------------------------------

// Of a rafter's pull on the beam, which is a simple span from post to post.
double Verandas::share(std::size_t r, std::size_t post) const {
  const VerandaPost& me = posts[post];
  const std::vector<Length>& at = of(me.veranda).posts;
  const Length x = rafters[r].at;
  if (rafters[r].veranda != me.veranda) return 0.0;
  if (me.index > 0 && x > at[me.index - 1] && x <= me.at)
    return formulas::lever_right(nullptr, x, at[me.index - 1], me.at);
  if (me.index + 1 < at.size() && x >= me.at && x < at[me.index + 1])
    return formulas::lever_left(nullptr, at[me.index + 1], x, me.at);
  return 0.0;
}

Force Verandas::on_post(std::size_t post, Working* w) const {
  const VerandaPost& me = posts[post];
  const Veranda& v = of(me.veranda);
  std::vector<As<Force>> rows;
  if (w)
    for (std::size_t r = 0; r < rafters.size(); ++r)
      if (share(r, post) > no_share) at_beam(r, w);
  if (w) w->heading(fmt::format("Along the beam to {}", post_words(post)));
  for (std::size_t r = 0; r < rafters.size(); ++r) {
    const double k = share(r, post);
    if (!(k > no_share)) continue;
    const Force u = at_beam(r);
    if (!w) {
      rows.push_back(as("", formulas::landed(nullptr, k, u)));
      continue;
    }
    const std::string n = number(r), mine = fmt::format("x_p{}", me.index + 1), place_of = fmt::format("x_{}", n);
    given(w, mine, fmt::format("place of {}, along the wall", post_words(post)), me.at, table_of(v));
    given(w, place_of, fmt::format("place of {}, along the wall", rafter_words(r, false)), rafters[r].at, table_of(v));
    const bool before = rafters[r].at <= me.at && me.index > 0;
    const std::size_t next = before ? me.index - 1 : me.index + 1;
    const std::string other = fmt::format("x_p{}", next + 1);
    given(w, other, fmt::format("place of {} post {}, along the wall", v.name, next + 1), v.posts[next], table_of(v));
    const std::string share_symbol = "k_" + n, part = "F_" + n;
    if (before)
      formulas::lever_right.told(w, share_symbol, "the beam is a simple span from post to post",
                                 as(place_of, rafters[r].at), as(other, v.posts[next]), as(mine, me.at));
    else
      formulas::lever_left.told(w, share_symbol, "the beam is a simple span from post to post",
                                as(other, v.posts[next]), as(place_of, rafters[r].at), as(mine, me.at));
    rows.push_back(as(part, formulas::landed.told(w, part, "statics", as(share_symbol, k), as(beam_symbol(r), u))));
  }
  return total<Force>(w, w ? post_symbol(post) : std::string(),
                      "uplift on this post; its own weight and the beam's are not counted", "sum", rows);
}

double Verandas::on_weight(Working* w) const {
  return given(w, "f_d", "factor on the weight: the least of all load cases", on_weight_, on_weight_from_);
}

std::vector<Piece_of_demand> Verandas::post_made_of(std::size_t post) const {
  const Veranda& v = of(posts[post].veranda);
  if (!v.net_uplift) return {};
  return {{fmt::format("rafters {} on the beam beside it", v.mark), table_of(v), on_post(post)}};
}

// ---- words ----------------------------------------------------------------------------------------------------------

std::string Verandas::number(std::size_t r) const { return fmt::format("r{}", r + 1); }
std::string Verandas::symbol(std::size_t r, bool wall) const {
  return fmt::format("{}_{}", wall ? "U" : "B", number(r));
}
std::string Verandas::wall_symbol(std::size_t r) const { return symbol(r, true); }
std::string Verandas::beam_symbol(std::size_t r) const { return symbol(r, false); }
std::string Verandas::post_symbol(std::size_t post) const { return fmt::format("T_p{}", post + 1); }
std::string Verandas::rafter_words(std::size_t r, bool wall) const {
  const Veranda& v = of(rafters[r].veranda);
  return fmt::format("{} {} at {} {}", v.name, v.mark, place(rafters[r].at, units_of(house_)), wall ? "wall" : "beam");
}
std::string Verandas::post_words(std::size_t post) const {
  return fmt::format("{} post {}", of(posts[post].veranda).name, posts[post].index + 1);
}

}  // namespace belay
