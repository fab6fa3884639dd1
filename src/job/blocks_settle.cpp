#include "job/blocks_settle.hpp"
#include "job/path.hpp"
#include "job/run.hpp"
#include "job/slips.hpp"
#include "units/sizes.hpp"
#include <algorithm>
#include <array>
#include <map>

namespace belay {
namespace {

using raw::Maybe;

// In the order in which a job says them.
constexpr Side all_sides[]{Side::front, Side::right, Side::back, Side::left};

std::size_t index(Side side) { return static_cast<std::size_t>(side); }
std::vector<std::string_view> side_words() {
  std::vector<std::string_view> out;
  for (const Side s : all_sides) out.push_back(words(s));
  return out;
}
// The ends of a wall at that side.
Ends ends_of_wall(Side side) { return ends_of(along(side)); }

// What a job says of that side, of either floor.
template <class Names> const auto& names_at(const Names& n, Side s) {
  switch (s) {
    case Side::front: return n.front;
    case Side::right: return n.right;
    case Side::back: return n.back;
    case Side::left: return n.left;
  }
  return n.left;
}
// A block's plan in the main block's axes.
struct Plan {
  Length left, front, right, back;
  // Of a wall at that side: its line, and where it begins and ends along it.
  Length line(Side s) const {
    switch (s) {
      case Side::left: return left;
      case Side::front: return front;
      case Side::right: return right;
      case Side::back: return back;
    }
    return left;
  }
  Length from(Side s) const { return along(s) == Along::across ? left : front; }
  Length to(Side s) const { return along(s) == Along::across ? right : back; }
  void grow(Side s, Length by) {
    switch (s) {
      case Side::left: left -= by; break;
      case Side::front: front -= by; break;
      case Side::right: right += by; break;
      case Side::back: back += by; break;
    }
  }
};
Plan plan_of(const House& main) { return {zero<Length>(), zero<Length>(), main.across, main.up}; }
Plan plan_of(const Wing& w) { return {w.left, w.front, w.left + w.across, w.front + w.up}; }
// How far two plans lie in each other, by the lesser of both ways; negative: apart.
Length in_common(const Plan& a, const Plan& b) {
  return std::min(std::min(a.right, b.right) - std::max(a.left, b.left),
                  std::min(a.back, b.back) - std::max(a.front, b.front));
}

// How high the main roof stands above its bearings at a place in its plan.
Length main_roof_at(const House& main, Length from_left, Length from_front) {
  const Plan plan = plan_of(main);
  std::optional<Length> lowest;
  for (const Side s : all_sides) {
    if (!falls_to(main.roof, s)) continue;
    const Length place = along(s) == Along::up ? from_left : from_front;
    const Length in = s == Side::left || s == Side::front ? place - plan.line(s) : plan.line(s) - place;
    const Length gable = main.roof.gable_above[index(s)];
    if (is_end(main.roof, s) && gable > zero<Length>() && in > gable) continue;  // that end's slope has stopped
    const Length high = in * rise(pitch_at(main.roof, s));
    lowest = lowest ? std::min(*lowest, high) : high;
  }
  return lowest.value_or(zero<Length>());
}

class BlocksSettling : private Slips {
 public:
  explicit BlocksSettling(const BlocksAsk& ask) : Slips(ask.job.unread), ask_(ask), main_(ask.main) {}

  BlocksSettled run() {
    refuse_with_wings();
    for (const auto& [name, keys] : ask_.job.blocks)
      if (name != main_.block) wing(name, keys);
    no_wing_at_braced_ends();
    out_.placed = ask_.sure && ask_.sized &&
                  std::all_of(out_.wings.begin(), out_.wings.end(), [](const WingSettled& w) { return w.placed; });
    apart();
    if (out_.placed && !overlap_) under_the_main_roof();
    marks_apart();
    out_.placed = out_.placed && !overlap_;
    outside_walls();
    out_.slips = std::move(slips);
    return std::move(out_);
  }

 private:
  struct Named {  // one name at a side
    std::string name, of, key;
    std::size_t block, number;  // number: in the order of the keys
    Side side;
    bool placed;
    Length line, from, to;
  };

  void remark(std::string text) { out_.remarks.push_back(std::move(text)); }
  std::string drawn(Length l) const {
    const std::string size =
        as_drawn(belay::size(l), ask_.job.drawing == raw::Drawing::feet ? raw::Drawing::feet : raw::Drawing::mm);
    return l < -same_place ? "-" + size : size;
  }
  // "86 below".
  std::string against(Length above, std::string_view what) const {
    return near(above, zero<Length>()) ? fmt::format("level with {}", what)
           : above > zero<Length>()    ? fmt::format("{} above {}", drawn(above), what)
                                       : fmt::format("{} below {}", drawn(-above), what);
  }
  std::string main_side(Side s) const { return fmt::format("the {} of block {}", words(s), main_.block); }
  const raw::Block& main_keys() const { return ask_.job.blocks.at(main_.block); }
  std::string main_path() const { return under("block", main_.block); }

  bool two_floors() const { return main_.first.has_value(); }
  // ---- what stands beside wings only later
  void refuse_with_wings() {
    const auto not_yet = [&](const std::string& path, std::string_view what, std::string help) {
      slip_on_key(path, "not-yet", fmt::format("{} in a house of several blocks cannot be worked out yet", what),
                  std::move(help));
    };
    for (const auto& [name, b] : ask_.job.blocks) {
      const std::string path = under("block", name);
      if (b.roof_braces && name != main_.block)
        not_yet(under(path, "roof_braces"), "bracing in the plane of a wing's roof",
                "leave it out: then it is not looked at, and the answer says so");
      const bool heights = b.height && b.height->by_floor;
      if ((heights || b.floor) && name != main_.block)
        not_yet(under(path, heights ? "height" : "floor"), "a second floor over a block that stands against another",
                fmt::format("one height, no `floor`: the first floor stands on block {} alone", main_.block));
    }
    for (const auto& [name, b] : ask_.job.blocks)
      if (b.walls && b.walls->first && (name != main_.block || !two_floors()))
        slip_on_key(under(under(under("block", name), "walls"), "first"), "wrong-key",
                    fmt::format("`first` names walls of a first floor, and block {} has one floor", name),
                    "leave it out");
    const raw::Block& m = main_keys();
    if (m.slab && ask_.sure)
      slip_on_key(under(main_path(), "slab"), "wrong-key",
                  "`slab` belongs to a block with `place`: its floor's level above this one's",
                  "this block's own level above the ground is its `floor_level`");
    if (!m.floor_level)
      missing(under(main_path(), "floor_level"),
              "`floor_level` is missing: the floor above the ground, at the lowest side");
    if (ask_.roof_good && (main_.roof.shape == RoofShape::skillion || main_.roof.shape == RoofShape::flat))
      slip(under(under(main_path(), "roof"), "shape"), "not-yet",
           fmt::format("a {} roof with other blocks against it cannot be worked out yet", words(main_.roof.shape)),
           "a gable or hip roof");
  }

  // What a wing's roof along the main block's ridge hands on to its slopes is not known.
  void no_wing_at_braced_ends() {
    if (!main_keys().roof_braces || !ask_.roof_good || two_floors()) return;
    for (const WingSettled& w : out_.wings) {
      if (!w.joint || !is_end(main_.roof, across_from(*w.joint))) continue;
      return slip_on_key(under(main_path(), "roof_braces"), "not-yet",
                         fmt::format("bracing in the plane of the roof cannot be worked out yet where a block stands "
                                     "against an end of the ridge: {} against {}",
                                     w.wing.name, main_side(across_from(*w.joint))),
                         "leave it out: then it is not looked at, and the answer says so");
    }
  }

  // ---- one wing
  void wing(const std::string& name, const raw::Block& keys) {
    WingSettled w{.wing = Wing{}, .keys = &keys, .path = under("block", name), .joint = std::nullopt};
    w.wing.name = name;
    w.wing.at = ask_.place(w.path);
    if (!good_name(name))
      slip_on_key(w.path, "bad-name", fmt::format("`{}` cannot be a block's name", name), std::string(name_help));
    if (keys.size) {
      w.wing.across = (*keys.size)[0].value_or(zero<Length>());
      w.wing.up = (*keys.size)[1].value_or(zero<Length>());
      w.sized = (*keys.size)[0] && (*keys.size)[1];
    }
    if (keys.height) w.wing.height = keys.height->ground.value_or(zero<Length>());
    w.wing.level = keys.slab.value_or(zero<Length>());
    held_by_main(w);
    if (keys.place && ask_.sure) stands(w);
    if (w.joint) {
      w.wing.joint = *w.joint;
      if (keys.roof) {
        w.roof = settle_roof(roof_ask(ask_.job, w));
        slips.insert(slips.end(), w.roof.slips.begin(), w.roof.slips.end());
        for (const std::string& r : w.roof.remarks) remark(fmt::format("block {}: {}", name, r));
        w.wing.roof = w.roof.roof;
      }
    }
    out_.wings.push_back(std::move(w));
  }
  // Keys of the main block that hold for all.
  void held_by_main(const WingSettled& w) {
    if (!ask_.sure) return;
    const auto foreign = [&](bool written, std::string_view key, std::string help) {
      if (written)
        slip_on_key(under(w.path, key), "wrong-key",
                    fmt::format("`{}` belongs to the block that the others stand against, {}", key, main_.block),
                    std::move(help));
    };
    foreign(w.keys->floor_level.has_value(), "floor_level",
            "slab = ...: this floor's level above that one's, negative when it is set down");
    foreign(w.keys->wall_weight.has_value(), "wall_weight", "it holds for all blocks");
    foreign(w.keys->ceiling.has_value(), "ceiling", "it holds for all blocks");
    if (main_keys().floor_level && main_.floor_level + w.wing.level < -same_place)
      slip(under(w.path, "slab"), "floor-below-the-ground",
           fmt::format("the floor of block {} would stand {} below the ground", w.wing.name,
                       drawn(-(main_.floor_level + w.wing.level))),
           fmt::format("block {} stands {} above it (floor_level)", main_.block, drawn(main_.floor_level)));
  }
  // "main front" in two words.
  std::optional<Side> side_against(const std::string& text, const std::string& path) {
    const auto blank = text.rfind(' ');
    const std::string block = blank == std::string::npos ? text : text.substr(0, blank),
                      side = blank == std::string::npos ? std::string() : text.substr(blank + 1);
    const std::string right = fmt::format("against = \"{} front\", or right, back, left", main_.block);
    if (block != main_.block) {
      if (ask_.job.blocks.contains(block))
        slip(path, "not-yet",
             fmt::format("a block against block {}, which stands against another itself, cannot be worked out yet",
                         block),
             right);
      else if (side.empty() && side_named(block))
        slip(path, "unknown-block", fmt::format("`{}` names a side and no block", text),
             fmt::format("against = \"{} {}\"", main_.block, block));
      else {
        std::vector<std::string> names;
        for (const auto& [name, b] : ask_.job.blocks) names.push_back(name);
        const std::string near_block = advice(block, names);
        slip(path, "unknown-block", fmt::format("no block `{}`", block), near_block.empty() ? right : near_block);
      }
      return std::nullopt;
    }
    const std::optional<Side> found = side_named(side);
    if (found) return found;
    if (side.empty()) slip(path, "unknown-side", fmt::format("`{}` names a block and none of its sides", text), right);
    else {
      const std::string near_side = advice(side, side_words());
      slip(path, "unknown-side", fmt::format("`{}` is no side of a block: {}", side, listed(side_words())),
           near_side.empty() ? right : near_side);
    }
    return std::nullopt;
  }
  void stands(WingSettled& w) {
    const raw::Place& p = *w.keys->place;
    const std::string path = under(w.path, "place");
    if (!p.against) return;
    const std::optional<Side> at = side_against(*p.against, under(path, "against"));
    if (!at) return;
    w.joint = across_from(*at);
    const std::optional<Length> from = along_the_side(w, *at, path);
    if (!from || !w.sized || !ask_.sized) return;
    const bool across = along(*at) == Along::across;
    const Length side = across ? main_.across : main_.up, own = across ? w.wing.across : w.wing.up;
    const bool high = p.flush == words(ends_of_wall(*at).high);
    Length start = high ? side - own : *from;
    if (near(start + own, side)) start = side - own;
    if (start < -same_place || start + own > side + same_place)
      return slip(path, "wing-off-the-side",
                  fmt::format("block {} would reach from {} to {} along {}, which reaches from 0 to {}", w.wing.name,
                              drawn(start), drawn(start + own), main_side(*at), drawn(side)),
                  own > side + same_place
                      ? fmt::format("a block stands with its whole side against the other; this one is {} {}",
                                    drawn(own), across ? "across" : "up the sheet")
                      : fmt::format("it fits from 0 to {}", drawn(side - own)));
    w.wing.left = across ? start : *at == Side::left ? -w.wing.across : main_.across;
    w.wing.front = !across ? start : *at == Side::front ? -w.wing.up : main_.up;
    w.placed = true;
  }
  // Where it begins along that side; flush with its far end: 0.
  std::optional<Length> along_the_side(const WingSettled& w, Side at, const std::string& path) {
    const raw::Place& p = *w.keys->place;
    const bool across = along(at) == Along::across;
    const std::string_view right = across ? "from_left" : "from_front", wrong = across ? "from_front" : "from_left";
    const Maybe<Length>&from = across ? p.from_left : p.from_front, &other = across ? p.from_front : p.from_left;
    const Ends ends = ends_of_wall(at);
    const std::string help =
        fmt::format("flush = \"{}\" or \"{}\", or {} = ...", words(ends.low), words(ends.high), right);
    if (other) {
      slip_on_key(under(path, wrong), "wrong-key",
                  fmt::format("along {} a place is told from the {}", main_side(at), words(ends.low)), help);
      return std::nullopt;
    }
    if (p.flush && from) {
      slip_on_key(under(path, right), "two-ways", fmt::format("a block stands `flush` or `{}`, not both", right));
      return std::nullopt;
    }
    if (p.flush) {
      const std::string_view names[]{words(ends.low), words(ends.high)};
      if (!is_word(p.flush, under(path, "flush"), names, "unknown-word", "an end of " + main_side(at)))
        return std::nullopt;
      return zero<Length>();
    }
    if (!from && !unread(path))
      slip(path, "missing-key", fmt::format("nothing says where along {} block {} stands", main_side(at), w.wing.name),
           help);
    return from;
  }

  // ---- wings beside each other
  void apart() {
    for (std::size_t i = 0; i < out_.wings.size(); ++i)
      for (std::size_t k = 0; k < i; ++k) {
        const WingSettled &a = out_.wings[k], &b = out_.wings[i];
        if (!a.placed || !b.placed) continue;
        const Length both = in_common(plan_of(a.wing), plan_of(b.wing));
        if (both < -same_place) continue;
        overlap_ = true;
        slip(under(b.path, "place"), both > same_place ? "wings-overlap" : "wings-touch",
             fmt::format("blocks {} and {} {}", a.wing.name, b.wing.name,
                         both > same_place ? fmt::format("stand {} in each other", drawn(both)) : std::string("touch")),
             a.joint == b.joint ? where_is_room(a, b) : "one of them farther from the corner that they share");
      }
  }
  std::string where_is_room(const WingSettled& a, const WingSettled& b) const {
    const Side at = across_from(*a.joint);
    const Plan first = plan_of(a.wing);
    return fmt::format("block {} stands from {} to {} along {}; block {} is {} long there, with room left between them",
                       a.wing.name, drawn(first.from(at)), drawn(first.to(at)), main_side(at), b.wing.name,
                       drawn(plan_of(b.wing).to(at) - plan_of(b.wing).from(at)));
  }

  // ---- levels and roofs
  bool upright() const { return main_.roof.shape == RoofShape::gable || main_.roof.shape == RoofShape::hip; }
  void under_the_main_roof() {
    std::vector<std::pair<const WingSettled*, Plan>> roofs;
    for (WingSettled& w : out_.wings) {
      const bool heights = main_keys().height && main_keys().height->ground && w.keys->height && w.keys->height->ground;
      if (!heights || (two_floors() && !(main_.first->height > zero<Length>() && main_.first->depth > zero<Length>())))
        continue;
      if (const Length over = w.wing.level + w.wing.height - main_.height; over > same_place) {
        slip(under(w.path, w.keys->slab ? "slab" : "height"), "bearings-above",
             fmt::format("the trusses of block {} would bear {} above {} of block {}: that cannot be worked out yet",
                         w.wing.name, drawn(over), two_floors() ? "the ground floor's walls" : "those", main_.block),
             w.wing.level > zero<Length>()
                 ? fmt::format("slab = {}, or walls {} high", drawn(w.wing.level - over), drawn(w.wing.height - over))
                 : fmt::format("walls {} high or less", drawn(w.wing.height - over)));
        continue;
      }
      const Length bearings = w.wing.level + w.wing.height - top_of_walls(main_);
      if (!w.roof.good || !ask_.roof_good || !upright()) continue;
      w.comes_out = comes_out(w, bearings);
      if (!w.comes_out) continue;
      const Length into = w.comes_out->into;
      valley_row(w, into);
      Plan over = plan_of(w.wing);
      for (const Side s : all_sides) over.grow(s, s == w.joint ? into : overhang_at(w.wing.roof, s));
      roofs.emplace_back(&w, over);
      told(w, bearings, into);
    }
    for (std::size_t i = 0; i < roofs.size(); ++i)
      for (std::size_t k = 0; k < i; ++k)
        if (in_common(roofs[k].second, roofs[i].second) > same_place)
          slip(under(roofs[i].first->path, "place"), "roofs-meet",
               fmt::format("the roofs of blocks {} and {} meet: that cannot be worked out yet",
                           roofs[k].first->wing.name, roofs[i].first->wing.name),
               "they need room between their eaves, and where their ridges come out on the main roof");
  }
  // How far in from the joint the wing's ridge comes out on the main roof. Between its ridge and its walls the wing's
  // roof is straight and the main roof bends down only, and its walls are no higher than the main roof's bearings:
  // where the main roof covers the ridge it covers all of the wing's end.
  std::optional<WingSettled::ComesOut> comes_out(const WingSettled& w, Length bearings) {
    const Side at = across_from(*w.joint);
    const Roof& roof = w.wing.roof;
    const Length span = roof.ridge == Along::across ? w.wing.up : w.wing.across;
    const Side low = ends_of(roof.ridge == Along::across ? Along::up : Along::across).low;
    const Length to_ridge = apex_from(roof, low, span);
    const Length ridge = bearings + to_ridge * rise(pitch_at(roof, low));
    const std::string path = under(w.path, "roof");
    if (two_floors()) {
      const Plan own = plan_of(w.wing);
      if (ridge <= same_place) return WingSettled::ComesOut{zero<Length>(), own.from(at) + to_ridge};
      slip(
          path, "ridge-above-the-bearings",
          fmt::format("the ridge of block {} stands {} above the bearings of block {}'s roof, over its first floor: "
                      "that cannot be worked out yet",
                      w.wing.name, drawn(ridge), main_.block),
          "a ridge no higher than the first floor's walls: a lower pitch, a narrower block, walls or a slab set lower");
      return std::nullopt;
    }
    Length into = zero<Length>();
    if (falls_to(main_.roof, at)) {
      into = std::max(into, ridge / rise(pitch_at(main_.roof, at)));
      const Length gable = main_.roof.gable_above[index(at)];
      if (gable > zero<Length>() && into > gable + same_place) {
        slip(path, "ridge-against-a-gable",
             fmt::format("the ridge of block {} would meet the gable above {}: that cannot be worked out yet",
                         w.wing.name, main_side(at)),
             fmt::format("a ridge at most {} above the bearings of block {}",
                         drawn(gable * rise(pitch_at(main_.roof, at))), main_.block));
        return std::nullopt;
      }
    }
    const Plan own = plan_of(w.wing), plan = plan_of(main_);
    const bool across = along(at) == Along::across;
    const Length beside = own.from(at) + to_ridge;
    const Length inside = at == Side::left || at == Side::front ? plan.line(at) + into : plan.line(at) - into;
    const Length main_high = across ? main_roof_at(main_, beside, inside) : main_roof_at(main_, inside, beside);
    if (ridge <= main_high + same_place) return WingSettled::ComesOut{into, beside};
    slip(path, "ridge-above-the-roof",
         fmt::format("the ridge of block {} stands {} above the bearings of block {}, and the main roof where it would "
                     "come out, {} "
                     "from the left and {} from the front, {}",
                     w.wing.name, drawn(ridge), main_.block, drawn(across ? beside : inside),
                     drawn(across ? inside : beside), against(main_high, "them")),
         "a lower pitch, a narrower block, walls or a slab set lower, or a place nearer to the middle of that side");
    return std::nullopt;
  }
  void valley_row(const WingSettled& w, Length into) {
    if (!w.keys->trusses || unread(under(w.path, "trusses"))) return;
    const std::string path = under(w.path, "trusses");
    const std::vector<raw::TrussRow>& rows = *w.keys->trusses;
    const auto valley =
        std::find_if(rows.begin(), rows.end(), [](const raw::TrussRow& r) { return r.valley.has_value(); });
    if (into > same_place && valley == rows.end())
      slip(path, "missing-key",
           fmt::format("the roof of block {} lies on the main roof for {} past the joint, and no trusses there: "
                       "`valley` is missing",
                       w.wing.name, drawn(into)),
           "a row such as { mark = \"V1\", valley = 900 }: the greatest space between the valley trusses");
    if (into <= same_place && valley != rows.end())
      slip_on_key(under(under(path, static_cast<std::size_t>(valley - rows.begin())), "valley"), "wrong-key",
                  fmt::format("no part of the roof of block {} lies on the main roof", w.wing.name),
                  "leave the row out");
  }
  void told(const WingSettled& w, Length bearings, Length into) {
    std::string s = fmt::format("block {}: its trusses bear {}", w.wing.name,
                                against(bearings, fmt::format("those of block {}", main_.block)));
    s += into > same_place ? fmt::format(
                                 "; its ridge comes out on the main roof {} past the joint, and up to there its roof "
                                 "lies on the main roof",
                                 drawn(into))
                           : std::string("; its roof ends at the joint");
    remark(std::move(s));
  }

  // ---- marks
  void marks_apart() {
    std::map<std::string, std::string> of;  // mark, block
    const auto block = [&](const std::string& name) {
      const raw::Block& keys = ask_.job.blocks.at(name);
      if (!keys.trusses) return;
      for (std::size_t i = 0; i < keys.trusses->size(); ++i) {
        const Maybe<std::string>& mark = (*keys.trusses)[i].mark;
        if (!mark) continue;
        const auto [known, fresh] = of.emplace(*mark, name);
        if (!fresh && known->second != name)
          slip(under(under(under(under("block", name), "trusses"), i), "mark"), "mark-in-two-blocks",
               fmt::format("`{}` is a mark of block {} already", *mark, known->second),
               "marks of its own for each block");
      }
    };
    block(main_.block);
    for (const WingSettled& w : out_.wings) block(w.wing.name);
  }

  // ---- outside walls
  void outside_walls() {
    out_.names_good = true;
    const raw::Block& m = main_keys();
    if (m.walls)
      for (const Side s : all_sides) main_names(*m.walls, s);
    out_.names_good = out_.names_good && m.walls;
    for (std::size_t i = 0; i < out_.wings.size(); ++i) {
      const WingSettled& w = out_.wings[i];
      out_.names_good = out_.names_good && w.keys->walls && w.joint;
      if (!w.keys->walls) continue;
      for (const Side s : all_sides) wing_names(i, s);
    }
    join();
    if (two_floors()) above_ground();
  }
  // The first floor's walls stand all round the main block, over the joints too.
  void above_ground() {
    for (OutsideWall& o : out_.outside) o.floor = Floor::ground;
    const raw::Block& m = main_keys();
    if (!m.walls) return;
    const std::string path = under(main_path(), "walls");
    const Plan plan = plan_of(main_);
    for (const Side s : all_sides) {
      const NameAbove above = name_above(*m.walls, s, path);
      if (above.name.empty()) {
        if (out_.placed && left_over(s).empty())
          no_name(under(path, "first"),
                  fmt::format("`first` is missing: the first floor's wall at {}, over the blocks that stand along all "
                              "of it, {} = \"...\"",
                              main_side(s), words(s)));
        continue;
      }
      out_.outside.push_back({.name = above.name,
                              .of = fmt::format("the {} wall of block {}", words(s), main_.block),
                              .key = above.key,
                              .side = s,
                              .placed = ask_.sure && ask_.sized,
                              .line = plan.line(s),
                              .from = plan.from(s),
                              .to = plan.to(s),
                              .floor = Floor::first});
      if (out_.placed && std::any_of(out_.wings.begin(), out_.wings.end(),
                                     [&](const WingSettled& w) { return w.joint == across_from(s); }))
        remark(fmt::format("on the first floor one wall, {}, stands along all of {}", above.name, main_side(s)));
    }
  }
  void name(std::string wall, std::size_t block, std::string_view block_name, Side s, std::string key, bool placed,
            Length line, Length from, Length to) {
    if (wall.empty()) return;
    names_.push_back({std::move(wall), fmt::format("the {} wall of block {}", words(s), block_name), std::move(key),
                      block, names_.size(), s, placed, line, from, to});
  }
  // What wings leave over of a side of the main block.
  std::vector<std::pair<Length, Length>> left_over(Side s) const {
    std::vector<std::pair<Length, Length>> wings, out;
    for (const WingSettled& w : out_.wings)
      if (w.joint == across_from(s)) wings.emplace_back(plan_of(w.wing).from(s), plan_of(w.wing).to(s));
    std::sort(wings.begin(), wings.end());
    Length at = zero<Length>();
    const Length end = plan_of(main_).to(s);
    for (const auto& [from, to] : wings) {
      if (from - at > same_place) out.emplace_back(at, from);
      at = to;
    }
    if (end - at > same_place) out.emplace_back(at, end);
    return out;
  }
  void main_names(const raw::WallNames& all, Side s) {
    const std::string path = under(under(main_path(), "walls"), words(s));
    const std::vector<std::string>& names = names_at(all, s);
    const auto key = [&](std::size_t i) { return names.size() == 1 ? path : under(path, i); };
    if (unread(path)) {
      out_.names_good = false;
      return;
    }
    if (!out_.placed) {
      const bool beside = !ask_.sure || std::any_of(out_.wings.begin(), out_.wings.end(), [&](const WingSettled& w) {
        return !w.joint || *w.joint == across_from(s);
      });
      if (names.empty() && !beside)
        no_name(path, fmt::format("`{}` is missing: the wall at {}", words(s), main_side(s)));
      out_.names_good = out_.names_good && !names.empty();
      for (std::size_t i = 0; i < names.size(); ++i)
        name(names[i], 0, main_.block, s, key(i), false, zero<Length>(), zero<Length>(), zero<Length>());
      return;
    }
    const auto stretches = left_over(s);
    if (names.size() != stretches.size()) {
      out_.names_good = false;
      std::vector<std::string> places;
      for (const auto& [from, to] : stretches) places.push_back(fmt::format("{} to {}", drawn(from), drawn(to)));
      const std::string left = fmt::format("{}", fmt::join(places, ", "));
      if (stretches.empty())
        slip_on_key(path, "wall-beside-wings",
                    fmt::format("other blocks stand along all of {}: no wall is left there", main_side(s)),
                    "leave it out; walls at the joint are inside walls");
      else if (names.empty())
        slip(path, "missing-key",
             stretches.size() == 1 ? fmt::format("`{}` is missing: the wall at {}, {}", words(s), main_side(s), left)
                                   : fmt::format("`{}` is missing: the walls at {}, {}", words(s), main_side(s), left));
      else
        slip(path, "wall-beside-wings",
             fmt::format("{} name{} for {} of {}: {}", names.size(), names.size() == 1 ? "" : "s",
                         stretches.size() == 1 ? std::string("the one stretch")
                                               : fmt::format("the {} stretches", stretches.size()),
                         main_side(s), left),
             stretches.size() == 1
                 ? "one name"
                 : fmt::format("a list of {} names, from the {}", stretches.size(), words(ends_of_wall(s).low)));
    }
    for (std::size_t i = 0; i < names.size(); ++i) {
      const bool placed = names.size() == stretches.size();
      name(names[i], 0, main_.block, s, key(i), placed, plan_of(main_).line(s),
           placed ? stretches[i].first : zero<Length>(), placed ? stretches[i].second : zero<Length>());
    }
  }
  void no_name(const std::string& path, const std::string& what) {
    out_.names_good = false;
    missing(path, what);
  }
  void wing_names(std::size_t i, Side s) {
    const WingSettled& w = out_.wings[i];
    const std::string path = under(under(w.path, "walls"), words(s));
    const std::vector<std::string>& names = names_at(*w.keys->walls, s);
    if (unread(path)) {
      out_.names_good = false;
      return;
    }
    if (w.joint == s) {
      if (!names.empty()) at_the_joint(w, path, names.front());
      return;
    }
    if (names.empty() && w.joint)
      no_name(path, fmt::format("`{}` is missing: the wall at the {} of block {}", words(s), words(s), w.wing.name));
    if (names.size() > 1) {
      out_.names_good = false;
      slip(path, "wall-beside-wings",
           fmt::format("{} names for one wall: nothing stands against the {} of block {}", names.size(), words(s),
                       w.wing.name),
           "one name");
    }
    const Plan plan = plan_of(w.wing);
    for (const std::string& n : names)
      name(n, i + 1, w.wing.name, s, path, out_.placed && names.size() == 1, plan.line(s), plan.from(s), plan.to(s));
  }
  void at_the_joint(const WingSettled& w, const std::string& path, const std::string& wall) {
    out_.names_good = false;
    std::string help = "a wall at the joint is an inside wall of the main block";
    if (w.placed) {
      const Side at = across_from(*w.joint);
      const Plan plan = plan_of(w.wing);
      help += fmt::format(": {} = {{ in = \"{}\", {} = {}, between = [{}, {}], run = \"...\" }}", wall, main_.block,
                          along(at) == Along::across ? "from_front" : "from_left", drawn(plan_of(main_).line(at)),
                          drawn(plan.from(at)), drawn(plan.to(at)));
    }
    slip_on_key(path, "wall-at-the-joint",
                fmt::format("the {} of block {} is the joint with block {}: it has no outside wall", words(*w.joint),
                            w.wing.name, main_.block),
                std::move(help));
  }
  // Walls of one name run straight on from block to block.
  void join() {
    std::vector<std::string> order;
    std::map<std::string, std::vector<Named>> by_name;
    for (const Named& n : names_) {
      if (!by_name.contains(n.name)) order.push_back(n.name);
      by_name[n.name].push_back(n);
    }
    for (const std::string& wall : order) {
      std::vector<Named>& parts = by_name[wall];
      const bool placed = std::all_of(parts.begin(), parts.end(), [](const Named& n) { return n.placed; });
      if (placed)
        std::stable_sort(parts.begin(), parts.end(), [](const Named& a, const Named& b) { return a.from < b.from; });
      OutsideWall out{.name = wall, .of = parts.front().of, .key = parts.front().key, .side = parts.front().side};
      bool good = true;
      for (std::size_t i = 1; i < parts.size() && good; ++i) good = straight_on(wall, parts[i - 1], parts[i], placed);
      if (placed && good) {
        out.placed = true;
        out.line = parts.front().line;
        out.from = parts.front().from;
        out.to = parts.back().to;
        for (std::size_t i = 1; i < parts.size(); ++i)
          if (!near(level(parts[i].block), level(parts[i - 1].block))) out.steps.push_back(parts[i].from - out.from);
        for (std::size_t i = 1; i < parts.size(); ++i) out.of += fmt::format(" and {}", parts[i].of);
      }
      out_.names_good = out_.names_good && good;
      out_.outside.push_back(std::move(out));
    }
  }
  Length level(std::size_t block) const { return block == 0 ? zero<Length>() : out_.wings[block - 1].wing.level; }
  Length height(std::size_t block) const { return block == 0 ? main_.height : out_.wings[block - 1].wing.height; }
  bool straight_on(const std::string& wall, const Named& a, const Named& b, bool placed) {
    const bool one_line =
        a.side == b.side && a.block != b.block && (!placed || (near(a.line, b.line) && near(a.to, b.from)));
    const Named& later = std::pair(a.block, a.number) < std::pair(b.block, b.number) ? b : a;
    if (!one_line) {
      slip(later.key, "wall-twice",
           fmt::format("`{}` is {} and {}, and neither runs straight on as the other", wall, a.of, b.of),
           "a name for each; one name is one wall, in one line");
      return false;
    }
    if (!placed || near(height(a.block), height(b.block)) || height(a.block) == zero<Length>() ||
        height(b.block) == zero<Length>())
      return true;
    slip(later.key, "wall-of-two-heights",
         fmt::format("`{}` would be {} high as {} and {} as {}", wall, drawn(height(a.block)), a.of,
                     drawn(height(b.block)), b.of),
         "a name for each, with a run of its own");
    return false;
  }

  const BlocksAsk& ask_;
  const House& main_;
  BlocksSettled out_;
  std::vector<Named> names_;
  bool overlap_ = false;
};

// Whether a wall stands under each end of what spans in the roof of one block.
class Bearings : private Slips {
 public:
  Bearings(const BearingsAsk& ask, std::size_t block)
      : Slips(ask.job.unread), ask_(ask), block_(block), house_(seen_from(ask.house, block)) {}

  std::vector<Slip> run() {
    const Ends sides = ends_of(house_.roof.ridge == Along::across ? Along::up : Along::across);
    for (const Side s : {sides.low, sides.high}) side(s);
    for (const HipEnd& e : house_.hip_ends)
      for (const auto& [from, to] : bare(e.side)) nothing_under(e, e.side, from, to);
    if (block_ > 0) at_joint(ask_.house.wings[block_ - 1].joint);
    return std::move(slips);
  }

 private:
  std::string drawn(Length l) const {
    return as_drawn(l, ask_.job.drawing == raw::Drawing::feet ? raw::Drawing::feet : raw::Drawing::mm);
  }
  Length line(Side s) const { return s == Side::right ? house_.across : s == Side::back ? house_.up : zero<Length>(); }
  Length length(Side s) const { return along(s) == Along::across ? house_.across : house_.up; }
  // The stretches of a side on which no wall stands.
  std::vector<std::pair<Length, Length>> bare(Side s) const {
    std::vector<std::pair<Length, Length>> walls, out;
    for (const Wall& w : house_.walls)
      if (w.floor == top_floor(house_) && stands_in(w, 0) && w.runs == along(s) && near(w.line, line(s)))
        walls.emplace_back(w.from, w.to);
    std::sort(walls.begin(), walls.end());
    Length at = zero<Length>();
    for (const auto& [from, to] : walls) {
      if (from - at > same_place) out.emplace_back(at, from);
      at = std::max(at, to);
    }
    if (length(s) - at > same_place) out.emplace_back(at, length(s));
    return out;
  }
  std::string path() const { return under(ask_.paths[block_], "trusses"); }
  std::string wall_there(Side s, Length from, Length to) const {
    return fmt::format("a wall there: {{ in = \"{}\", {} = {}, between = [{}, {}], run = \"...\" }}", house_.block,
                       along(s) == Along::across ? "from_front" : "from_left", drawn(line(s)), drawn(from), drawn(to));
  }
  // A ceiling needs two walls to lean on, each way: of a wing one of them is the one at the joint.
  void at_joint(Side s) {
    // What bears there misses the wall already; of two floors it bears above.
    if (falls_to(ask_.house.roof, across_from(s)) && !ask_.house.first) return;
    const auto stretches = bare(s);
    if (stretches.size() != 1 || !near(stretches.front().second - stretches.front().first, length(s))) return;
    slip(ask_.paths[block_], "no-wall-at-the-joint",
         fmt::format("no wall stands where block {} meets block {}: its ceiling would lean on the far wall alone",
                     house_.block, ask_.house.block),
         "an inside wall on that line, in full or in part");
  }
  void side(Side s) {
    for (const auto& [from, to] : bare(s)) {
      std::vector<std::string> over;
      std::optional<std::size_t> row;
      for (std::size_t i = 0; i < house_.trusses.size(); ++i) {
        const Truss& t = house_.trusses[i];
        if (t.clear_of == s) continue;  // it bears on an inside wall instead
        // At the end of a wall a truss bears on it.
        if (from > same_place && t.at <= from + same_place) continue;
        if (to < length(s) - same_place && t.at >= to - same_place) continue;
        if (t.at < from - same_place || t.at > to + same_place) continue;
        if (!row) row = (*ask_.row_of[block_])[i];
        over.push_back(fmt::format("{} at {}", t.mark, drawn(t.at)));
      }
      if (row)
        slip(under(path(), *row), "bearing-on-nothing",
             fmt::format("block {}: {} would bear on nothing at the {}: no wall stands there between {} and {}",
                         house_.block, fmt::join(over, ", "), words(s), drawn(from), drawn(to)),
             wall_there(s, from, to));
      else
        for (const HipEnd& e : house_.hip_ends)
          if (girder_inside(e, from, to)) nothing_under(e, s, from, to);
    }
  }
  // Whether the stretch lies, in part, between a hip end's corner and its girder.
  bool girder_inside(const HipEnd& e, Length from, Length to) const {
    const bool low = e.side == Side::left || e.side == Side::front;
    if (house_.trusses.empty()) return false;
    return low ? from < house_.trusses.front().at : to > house_.trusses.back().at;
  }
  void nothing_under(const HipEnd& e, Side s, Length from, Length to) {
    slip(path(), "bearing-on-nothing",
         fmt::format("block {}: what frames the hip end at the {} would bear on nothing at the {}: no wall stands "
                     "there between {} and {}",
                     house_.block, words(e.side), words(s), drawn(from), drawn(to)),
         wall_there(s, from, to));
  }

  const BearingsAsk& ask_;
  std::size_t block_;
  House house_;
};

}  // namespace

MainBlock main_block(const raw::Job& job) {
  Slips s(job.unread);
  std::vector<std::string> free;
  for (const auto& [name, b] : job.blocks)
    if (!b.place && !s.unread(under(under("block", name), "place"))) free.push_back(name);
  const auto& first = job.blocks.begin()->first;
  const auto named_main = [](const std::string& name) { return name == "main"; };
  if (free.empty()) {
    s.slip_on_key(under("block", first), "no-main-block",
                  "each block has a `place`: none is left for the others to stand against",
                  "the block without `place` is the main one");
    return {job.blocks.contains("main") ? "main" : first, false, std::move(s.slips)};
  }
  const auto found = std::find_if(free.begin(), free.end(), named_main);
  std::string main = found == free.end() ? free.front() : *found;
  for (const std::string& name : free)
    if (name != main)
      s.slip_on_key(under("block", name), "missing-key",
                    fmt::format("`place` is missing: where block {} stands, since one block alone, here {}, has none",
                                name, main),
                    fmt::format("place = {{ against = \"{} front\", flush = \"right\" }}", main));
  return {std::move(main), free.size() == 1, std::move(s.slips)};
}

BlocksSettled settle_blocks(const BlocksAsk& ask) { return BlocksSettling(ask).run(); }

RoofAsk roof_ask(const raw::Job& job, const WingSettled& w) {
  return {job, *w.keys, w.path, w.sized, w.wing.across, w.wing.up, w.joint};
}

std::vector<RoofOver> roofs_over(const std::vector<WingSettled>& wings) {
  std::vector<RoofOver> r;
  for (const WingSettled& w : wings) {
    if (!w.joint || !w.comes_out || !(w.comes_out->into > same_place)) continue;
    const Side at = across_from(*w.joint);
    const Plan plan = plan_of(w.wing);
    r.push_back({w.wing.name, at, plan.from(at), plan.to(at), w.comes_out->ridge, w.comes_out->into});
  }
  return r;
}

NameAbove name_above(const raw::WallNames& all, Side s, const std::string& path_of_walls) {
  if (all.first && names_at(*all.first, s))
    return {*names_at(*all.first, s), under(under(path_of_walls, "first"), words(s))};
  const std::vector<std::string>& below = names_at(all, s);
  const std::string path = under(path_of_walls, words(s));
  if (below.empty()) return {{}, path};
  return {below.front(), below.size() == 1 ? path : under(path, std::size_t{0})};
}

std::vector<std::size_t> blocks_of(const House& house, const Wall& wall) {
  if (wall.floor == Floor::first) return {0};
  std::vector<std::size_t> out;
  for (std::size_t b = 0; b <= house.wings.size(); ++b) {
    const Plan p = b == 0 ? plan_of(house) : plan_of(house.wings[b - 1]);
    const bool across = wall.runs == Along::across;
    const Length low = across ? p.front : p.left, high = across ? p.back : p.right;
    const Length common = std::min(wall.to, across ? p.right : p.back) - std::max(wall.from, across ? p.left : p.front);
    if (wall.line >= low - same_place && wall.line <= high + same_place && common > same_place) out.push_back(b);
  }
  return out;
}

std::vector<Slip> slips_of_bearings(const BearingsAsk& ask) {
  std::vector<Slip> out;
  for (std::size_t b = 0; b < ask.paths.size(); ++b) {
    std::vector<Slip> of_block = Bearings(ask, b).run();
    std::move(of_block.begin(), of_block.end(), std::back_inserter(out));
  }
  return out;
}

}  // namespace belay
