#include "job/veranda_settle.hpp"
#include "job/evenly.hpp"
#include "job/path.hpp"
#include "job/roof_settle.hpp"
#include "job/run.hpp"
#include "job/slips.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace belay {
namespace {

constexpr std::size_t most_verandas = 20, most_posts = 200;

// A rectangle of the plan, in the main block's axes.
struct Plot {
  Length left, front, right, back;
};
Plot plot_of(const House& h, std::size_t block) {
  const Length left = left_of(h, block), front = front_of(h, block);
  return {left, front, left + extent_of(h, block, Along::across), front + extent_of(h, block, Along::up)};
}
// What its roof covers: from the wall's face to the edge past the posts.
Plot plot_of(const Veranda& v, const Wall& w) {
  const Length from = w.from + v.from, to = w.from + v.to, out = v.depth + v.overhang;
  switch (w.side) {
    case Side::left: return {w.line - out, from, w.line, to};
    case Side::right: return {w.line, from, w.line + out, to};
    case Side::front: return {from, w.line - out, to, w.line};
    case Side::back: return {from, w.line, to, w.line + out};
  }
  return {};
}
// How far they lie in each other, by the lesser of both ways; not above zero: apart.
Length in_common(const Plot& a, const Plot& b) {
  return std::min(std::min(a.right, b.right) - std::max(a.left, b.left),
                  std::min(a.back, b.back) - std::max(a.front, b.front));
}

class VerandasSettling : private Slips {
 public:
  explicit VerandasSettling(const VerandasAsk& ask) : Slips(ask.job.unread), ask_(ask) {}

  VerandasSettled run() {
    if (ask_.job.verandas.size() > most_verandas)
      slip("veranda", "too-many-verandas", fmt::format("more than {} verandas", most_verandas));
    else
      for (const auto& [name, keys] : ask_.job.verandas) veranda(name, keys, under("veranda", name));
    out_.slips = std::move(slips);
    return std::move(out_);
  }

 private:
  std::string drawn(Length l) const {
    return as_drawn(l, ask_.job.drawing == raw::Drawing::feet ? raw::Drawing::feet : raw::Drawing::mm);
  }

  // The ground floor's wall of that name; nothing: a slip was said.
  const Wall* leaned_on(const raw::Maybe<std::string>& name, const std::string& path) {
    if (!name || !ask_.walls_known) return nullptr;
    std::vector<std::string_view> outside;
    for (const Wall& w : ask_.house.walls) {
      if (w.floor != Floor::ground) continue;
      if (w.outside) outside.push_back(w.key);
      if (w.key != *name) continue;
      if (w.outside) return &w;
      slip(path, "not-an-outside-wall", fmt::format("wall {} stands inside: no veranda can lean on it", w.name),
           fmt::format("an outside wall of the ground floor: one of the {} `walls`",
                       ask_.house.wings.empty() ? "block's" : "blocks'"));
      return nullptr;
    }
    const raw::Walls& w = ask_.job.walls;
    const bool written = w.only.contains(*name) || (w.ground && w.ground->contains(*name));
    if (!written) {
      const std::string help = advice_or_list(*name, outside, "outside walls");
      slip(path, "unknown-wall", fmt::format("no wall `{}` on the ground floor", *name), help);
    }
    return nullptr;
  }

  std::vector<Length> posts(const raw::VerandaPosts& keys, Length length, const std::string& path) {
    if (keys.at && keys.max) slip_on_key(under(path, "max"), "two-ways", "posts stand at `max` or `at`, not both");
    if (!keys.at && !keys.max && !unread(under(path, "at")) && !unread(under(path, "max")))
      slip(path, "missing-key", "`max` is missing: the greatest space between posts",
           "or `at`, the list of their places from the veranda's start");
    if (!keys.at) return keys.max ? evenly(length, *keys.max) : std::vector<Length>();
    const std::string list = under(path, "at");
    if (keys.at->size() > most_posts) {
      slip(list, "too-many-posts", fmt::format("more than {} posts", most_posts));
      return {};
    }
    std::vector<Length> r;
    for (std::size_t i = 0; i < keys.at->size(); ++i) {
      const raw::Maybe<Length>& x = (*keys.at)[i];
      if (!x) return {};
      if (*x < -same_place || *x > length + same_place) {
        slip(under(list, i), "post-beyond-the-veranda",
             fmt::format("a post at {}, but the veranda is {} long", drawn(*x), drawn(length)),
             "places from the veranda's start");
        return {};
      }
      if (!r.empty() && *x <= r.back() + same_place) {
        slip(under(list, i), "posts-out-of-order",
             fmt::format("a post at {} after one at {}", drawn(*x), drawn(r.back())),
             "each place once, in their order");
        return {};
      }
      r.push_back(*x);
    }
    if (r.size() < 2 || !near(r.front(), zero<Length>()) || !near(r.back(), length)) {
      slip(list, "beam-end-without-a-post",
           fmt::format("the beam is {} long, and a post must stand at each of its ends", drawn(length)),
           fmt::format("the first at 0, the last at {}", drawn(length)));
      return {};
    }
    r.front() = zero<Length>();
    r.back() = length;
    return r;
  }

  void veranda(const std::string& name, const raw::Veranda& keys, const std::string& path) {
    if (!good_name(name))
      return slip_on_key(path, "bad-name", fmt::format("`{}` cannot be a veranda's name", name),
                         std::string(name_help));
    Veranda v{};
    v.name = name;
    v.at = ask_.place(path);
    v.depth = keys.depth.value_or(zero<Length>());
    v.overhang = keys.overhang.value_or(zero<Length>());
    v.pitch = keys.pitch.value_or(zero<Angle>());
    v.weight = keys.weight.value_or(zero<Pressure>());
    if (keys.depth && v.overhang > v.depth + same_place)
      slip(under(path, "overhang"), "overhang-too-long",
           fmt::format("the roof hangs {} past its posts, and these stand {} from the wall: it would tip over the beam",
                       drawn(v.overhang), drawn(v.depth)),
           "an overhang no longer than the depth");
    if (keys.rafters) {
      const std::string at = under(path, "rafters");
      v.mark = keys.rafters->mark.value_or("");
      if (keys.rafters->mark && !good_name(v.mark))
        slip(under(at, "mark"), "bad-name", fmt::format("`{}` cannot be the rafters' mark", v.mark),
             std::string(name_help));
      v.at_wall = ask_.bracket(keys.rafters->at_wall, under(at, "at_wall"));
      v.at_beam = ask_.bracket(keys.rafters->at_beam, under(at, "at_beam"));
    }
    if (keys.posts) {
      const std::string at = under(path, "posts");
      v.post_top = ask_.tie(keys.posts->top, under(at, "top"));
      v.post_foot = ask_.anchor(keys.posts->foot, under(at, "foot"));
      if (const raw::Maybe<raw::FootingKeys>& f = keys.posts->footing)
        v.footing = {f->thickness, f->edge, f->concrete, f->cracked, f->width, f->length, f->weight};
    }
    if (keys.net_uplift && keys.net_uplift->pressure && keys.net_uplift->given_by)
      v.net_uplift = NetUplift{*keys.net_uplift->pressure, *keys.net_uplift->given_by};
    const Wall* wall = leaned_on(keys.against, under(path, "against"));
    if (wall == nullptr) return;
    v.wall = wall->name;
    v.from = keys.from.value_or(zero<Length>());
    v.to = keys.length ? v.from + *keys.length : wall->length();
    const bool starts_on_it = v.from < wall->length() - same_place;
    if (!starts_on_it || v.to > wall->length() + same_place)
      return slip(under(path, keys.length && starts_on_it ? "length" : "from"), "beyond-the-wall",
                  fmt::format("the veranda reaches from {} to {}, and wall {} from 0 to {}", drawn(v.from),
                              drawn(std::max(v.from, v.to)), wall->name, drawn(wall->length())));
    v.to = std::min(v.to, wall->length());
    if (keys.rafters && keys.rafters->max) v.rafters = evenly(v.length(), *keys.rafters->max);
    if (keys.posts) v.posts = posts(*keys.posts, v.length(), under(path, "posts"));
    if (keys.posts && keys.posts->footing) room_for_footings(v, under(under(path, "posts"), "footing"));
    for (std::vector<Length>* places : {&v.rafters, &v.posts})
      for (Length& x : *places) x += v.from;
    beside_blocks(v, *wall, path);
    for (const Veranda& other : out_.verandas)
      if (other.wall == v.wall && std::min(other.to, v.to) - std::max(other.from, v.from) > same_place)
        slip_on_key(path, "verandas-in-one-place",
                    fmt::format("verandas {} and {} overlap along wall {}", other.name, name, wall->name),
                    fmt::format("{} reaches from {} to {}, {} from {} to {}", other.name, drawn(other.from),
                                drawn(other.to), name, drawn(v.from), drawn(v.to)));
    out_.verandas.push_back(std::move(v));
  }
  // Which way a footing lies is not said: its longer side may lie either way. None reaches into the next post's, nor
  // under the house, where the concrete is the slab's.
  void room_for_footings(const Veranda& v, const std::string& path) {
    const Length longest =
        std::max(v.footing.width.value_or(zero<Length>()), v.footing.length.value_or(zero<Length>()));
    const std::string_view key = v.footing.length && *v.footing.length == longest ? "length" : "width";
    const auto too_long = [&](Length most, const std::string& beside) {
      if (longest > most + same_place)
        slip(under(path, key), "footing-too-long",
             fmt::format("a footing {} long reaches into {}: at most {} is a post's own", drawn(longest), beside,
                         drawn(most)),
             "what one post alone can lift of it");
      return longest > most + same_place;
    };
    for (std::size_t i = 0; i + 1 < v.posts.size(); ++i)
      if (too_long(v.posts[i + 1] - v.posts[i], "that of the next post")) return;
    if (v.depth > zero<Length>()) too_long(2.0 * v.depth, "the house's slab");
  }
  // Of a house of several blocks: at an inner corner a veranda may reach another block, or the veranda against that.
  void beside_blocks(const Veranda& v, const Wall& wall, const std::string& path) {
    const House& h = ask_.house;
    if (h.wings.empty()) return;
    for (const Length& step : wall.steps)
      if (v.from < step - same_place && v.to > step + same_place)
        slip_on_key(
            path, "veranda-over-a-step",
            fmt::format("veranda {} reaches from {} to {} along wall {}, whose floor steps at {}: one roof over "
                        "both levels cannot be worked out",
                        v.name, drawn(v.from), drawn(v.to), wall.name, drawn(step)),
            "a veranda on either side of the step, each with its own beam and posts");
    const Plot own = plot_of(v, wall);
    const auto reach = fmt::format("{} out from wall {}", drawn(v.depth + v.overhang), wall.name);
    for (std::size_t b = 0; b <= h.wings.size(); ++b)
      if (const Length both = in_common(own, plot_of(h, b)); both > same_place)
        slip_on_key(
            path, "veranda-in-a-block",
            fmt::format("veranda {}, {}, would stand {} in block {}", v.name, reach, drawn(both), name_of(h, b)),
            "a shorter one, or less deep with its overhang");
    for (const Veranda& other : out_.verandas) {
      const auto theirs =
          std::find_if(h.walls.begin(), h.walls.end(), [&](const Wall& w) { return w.name == other.wall; });
      const Length both = in_common(own, plot_of(other, *theirs));
      if (other.wall == v.wall || both <= same_place) continue;
      slip_on_key(path, "verandas-in-one-place",
                  fmt::format("veranda {}, {}, would stand {} in veranda {} against wall {}", v.name, reach,
                              drawn(both), other.name, other.wall),
                  "a shorter one, or less deep with its overhang");
    }
  }

  const VerandasAsk& ask_;
  VerandasSettled out_;
};

}  // namespace

VerandasSettled settle_verandas(const VerandasAsk& ask) { return VerandasSettling(ask).run(); }

}  // namespace belay
