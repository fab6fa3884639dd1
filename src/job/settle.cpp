#include "job/settle.hpp"
#include "job/blocks_settle.hpp"
#include "job/frames_settle.hpp"
#include "job/mirrored.hpp"
#include "job/nearest.hpp"
#include "job/path.hpp"
#include "job/roof_settle.hpp"
#include "job/run.hpp"
#include "job/site.hpp"
#include "job/slips.hpp"
#include "job/veranda_settle.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <map>
#include <set>
#include <utility>

namespace belay {
namespace {

using raw::Maybe;

// Limits of the reader, not of the building: what is beyond them is a slip of the pen or no job.
constexpr std::size_t most_walls = 200;
constexpr std::string_view by_others_words[]{
    "roof plane",   "top tie",   "stud tie",     "plate",     "ground",          "compression",
    "line spacing", "floor tie", "floor fixing", "veranda",   "veranda bracket", "post tie",
    "post foot",    "valley",    "house slide",  "house tip", "stump tie",       "subfloor"};

// The sorts of fixing, as the tables of a fixings file are called.
enum class Sort : unsigned char { bracket, tie, plate, anchor, strap, sheet, rated, lining, perforated, end_studs };
struct SortName {
  Sort sort;
  std::string_view table, words;
};
constexpr SortName sorts[]{{Sort::bracket, "bracket", "a bracket (truss to top plate)"},
                           {Sort::tie, "tie", "a tie"},
                           {Sort::plate, "plate", "a plate fixing"},
                           {Sort::anchor, "anchor", "an anchor"},
                           {Sort::strap, "strap", "a strap brace"},
                           {Sort::sheet, "sheet", "a sheet brace"},
                           {Sort::rated, "rated", "a rated brace"},
                           {Sort::lining, "lining", "a lining brace"},
                           {Sort::perforated, "perforated", "a sheet brace with openings"},
                           {Sort::end_studs, "end_studs", "a stud group (at a brace's end)"}};
constexpr Sort brace_sorts[]{Sort::strap, Sort::sheet, Sort::rated, Sort::lining, Sort::perforated};

// One entry of the fixings file under its name. how: of an anchor.
struct Named {
  Sort sort;
  const Terms* terms;
  std::string path;
  std::optional<How> how = std::nullopt;
};

// What the job picked, and the path of the key that did.
struct Pick {
  Chosen chosen;
  std::string path;
};
// What holds on one floor unless a mark says otherwise.
struct Standing {
  Pick jamb, hold_down, anchor;
  Chosen top_tie, stud_tie, plate_fixing, end_studs;
  Length anchor_spacing, plate, hold_down_in;
  bool plate_anchors_share;
  bool each_joist = false;
};

// The walls of one floor as they are written, and the path that they stand under.
struct Storey {
  Floor floor;
  const raw::WallsByName* walls;
  std::string path;
};

class Settling : private Slips {
 public:
  Settling(const raw::Job& job, const Fixings* fixings, const std::function<std::string(std::string_view)>& place,
           const Defaults& unsaid, const Sites& known)
      : Slips(job.unread), job_(job), fixings_(fixings), place_(place), unsaid_(unsaid), known_(known) {
    if (!job.blocks.empty()) main_ = main_block(job);
    if (fixings != nullptr) list_fixings();
  }

  Settled run() {
    head();
    site();
    block();
    bracing();
    if (block_ != nullptr) {
      floors();
      marks();
      defaults();
      trusses();
      roof_braces();
      walls();
      inside_bearings();
      if (several()) bearings();
      verandas();
      as_built();
      openings_said();
      sealed_and_open();
    }
    basis();
    Settled out;
    if (slips.empty() && fixings_ != nullptr && block_ != nullptr && job_.unread.empty()) {
      house_.fixings = *fixings_;
      if (const auto m = mirror_of_job(job_)) build_mirrored(house_, *m);
      out.house = std::move(house_);
    }
    out.slips = std::move(slips);
    return out;
  }

 private:
  struct MarkUse {  // a mark as it was defined
    const raw::Mark* mark;
    std::string path;
    bool by_default;  // under [unless_noted]
    std::optional<OpeningSize> size;
  };

  void remark(std::string text) { house_.remarks.push_back(std::move(text)); }
  std::string drawn(Length l) const {
    return as_drawn(l, job_.drawing == raw::Drawing::feet ? raw::Drawing::feet : raw::Drawing::mm);
  }

  // --- fixings ------------------------------------------------------------------------------------------------------
  template <class Entry> void list_sort(Sort sort, const std::vector<Entry>& entries) {
    const std::string_view table = sorts[static_cast<std::size_t>(sort)].table;
    for (std::size_t i = 0; i < entries.size(); ++i)
      if (!entries[i].terms.name.empty()) {
        named_.push_back({sort, &entries[i].terms, under(table, i)});
        if constexpr (std::is_same_v<Entry, Anchor>) named_.back().how = entries[i].how;
      }
  }
  void list_fixings() {
    list_sort(Sort::bracket, fixings_->brackets);
    list_sort(Sort::tie, fixings_->ties);
    list_sort(Sort::plate, fixings_->plates);
    list_sort(Sort::anchor, fixings_->anchors);
    list_sort(Sort::strap, fixings_->straps);
    list_sort(Sort::sheet, fixings_->sheets);
    list_sort(Sort::rated, fixings_->rated);
    list_sort(Sort::lining, fixings_->linings);
    list_sort(Sort::perforated, fixings_->perforated);
    list_sort(Sort::end_studs, fixings_->end_studs);
  }
  // A fixing that the job picks at `path`. Nothing written: not given. Unknown or of another sort: a slip.
  Chosen choose(const Maybe<std::string>& name, const std::string& path, std::string by, std::span<const Sort> may_be,
                std::string_view what) {
    if (!name) return {};
    Chosen chosen{*name, std::move(by), place_(path)};
    if (fixings_ == nullptr) return chosen;
    const auto fits = [&](const Named& n) { return std::find(may_be.begin(), may_be.end(), n.sort) != may_be.end(); };
    const Named* found = nullptr;
    for (const Named& n : named_)
      if (n.terms->name == *name && (found == nullptr || fits(n))) found = &n;
    if (found != nullptr && fits(*found)) {
      used_.insert(found);
      return chosen;
    }
    std::vector<std::string_view> right;
    for (const Named& n : named_)
      if (fits(n)) right.push_back(n.terms->name);
    std::string help = advice(*name, right);
    if (help.empty())
      help = right.empty() ? fmt::format("it has no {}", what)
                           : fmt::format("its {}s: {}", what,
                                         listed(std::span(right).first(std::min<std::size_t>(right.size(), 8))));
    if (found != nullptr)
      slip(path, "wrong-sort-of-fixing",
           fmt::format("`{}` is {}, not {} {}", *name, sorts[static_cast<std::size_t>(found->sort)].words,
                       what == "anchor" ? "an" : "a", what),
           std::move(help));
    else slip(path, "unknown-fixing", fmt::format("no {} `{}` in {}", what, *name, fixings_->file), std::move(help));
    return chosen;
  }
  Chosen choose(const Maybe<std::string>& name, const std::string& path, std::string by, Sort sort,
                std::string_view what) {
    return choose(name, path, std::move(by), std::span(&sort, 1), what);
  }
  // Fixings that the job uses speak of the same basis as its method.
  void basis() {
    if (!basis_) return;
    for (const Named& n : named_) {
      if (!used_.contains(&n) || !n.terms->basis || n.terms->acts_as() == *basis_) continue;
      const bool limit = *basis_ == Basis::limit_state;
      slip(under(n.path, "basis"), "basis-mismatch",
           limit ? fmt::format("`{}` has an allowable capacity; {} needs limit state capacities", n.terms->name,
                               method_words_)
                 : fmt::format("`{}` has a limit state capacity; {} needs allowable capacities", n.terms->name,
                               method_words_),
           limit ? "enter the sheet's design or characteristic capacity: the one is never turned into the other"
                 : "enter the sheet's allowable capacity, or say level = \"strength\" in the job: the one is never "
                   "turned into the other");
      slips.back().file = Whose::fixings;
    }
  }

  // --- [job], [checked], [site] --------------------------------------------------------------------------------------
  void head() {
    const raw::Head& j = job_.job;
    house_.title = j.title.value_or("");
    house_.drawn = j.drawn.value_or("");
    if (!j.drawn) remark("no drawing is named under [job] (drawn)");
    house_.print = j.print == "us" ? Print::us : Print::metric;
    house_.importance = j.importance.value_or(0);
    for (const auto& [what, who] : j.by_others) {
      const std::string path = under("job.by_others", what);
      if (std::find(std::begin(by_others_words), std::end(by_others_words), what) == std::end(by_others_words)) {
        const std::string help = advice(what, by_others_words);
        slip_on_key(path, "unknown-link",
                    fmt::format("`{}` is no link that others may answer for: {}", what, listed(by_others_words)), help);
      } else if (what.starts_with("floor ") && !two_floors()) {
        slip_on_key(path, "wrong-key", fmt::format("`{}` is a link of a house of two floors", what),
                    std::string(two_floors_help));
      } else if (what == "valley" && !several()) {
        slip_on_key(path, "wrong-key", "`valley` is a link of a house of several blocks",
                    "leave it out, or add the block whose roof lies on the other's");
      } else if (who) {
        house_.by_others.push_back({what, *who});
      }
    }
    for (const auto& [figure, who] : job_.checked)
      if (who) house_.checked.push_back({figure, *who});
    house_.slab = {job_.slab.thickness, job_.slab.concrete, job_.slab.cracked,
                   job_.slab.beyond.value_or(zero<Length>())};
    weigh_slab();
    if (!job_.slab.beyond && !says_stumps())
      remark("the frame stands flush with the slab's edge: nothing is said of it under [slab] (beyond)");
    house_.frame = {job_.frame.steel, job_.frame.joint_group, job_.frame.yield, job_.frame.ultimate};
  }

  bool says_stumps() const {
    const auto main = job_.blocks.find(main_.name);
    return main != job_.blocks.end() && main->second.floor && main->second.floor->ground;
  }
  // What of the slab is weighed needs what its concrete weighs.
  std::optional<Edge> edge(const Maybe<raw::EdgeKeys>& keys, const std::string& path) {
    if (!keys) return std::nullopt;
    if (keys->slab_thickness && !keys->slab_width)
      slip_on_key(under(path, "slab_thickness"), "missing-key",
                  "`slab_thickness` says how thick the slab is that comes up with the edge, and not how wide",
                  "slab_width = ..., or leave both out");
    if (keys->slab_thickness && keys->depth && *keys->slab_thickness > *keys->depth + same_place)
      slip(under(path, "slab_thickness"), "slab-deeper-than-its-edge",
           fmt::format("the slab is {} thick and its edge {} deep", drawn(*keys->slab_thickness), drawn(*keys->depth)),
           "depth: from the slab's face to the underside of the edge");
    const Length none = zero<Length>();
    return Edge{keys->width.value_or(none),
                keys->depth.value_or(none),
                keys->slab_width.value_or(none),
                keys->slab_thickness.value_or(none),
                keys->lifted,
                keys->given_by.value_or("")};
  }
  void weigh_slab() {
    const raw::Slab& s = job_.slab;
    house_.slab.weight = s.weight;
    house_.slab.edge = edge(s.edge, "slab.edge");
    house_.slab.inside = edge(s.inside, "slab.inside");
    if (s.whole)
      house_.slab.whole =
          WholeSlab{s.whole->thickness.value_or(zero<Length>()), s.whole->friction, s.whole->given_by.value_or("")};
    for (const auto& [written, key] :
         {std::pair{s.edge.has_value(), "edge"}, {s.inside.has_value(), "inside"}, {s.whole.has_value(), "whole"}})
      if (written && !s.weight && !unread("slab.weight"))
        return slip_on_key(under("slab", key), "missing-key",
                           fmt::format("`{}` is there to be weighed, and `weight` under [slab] is missing", key),
                           "weight = \"24 kN/m3\": what a volume of the concrete weighs");
    if (s.whole && several())
      slip_on_key("slab.whole", "not-yet", "sliding and tipping of a house of several blocks cannot be worked out yet",
                  "leave `whole` out");
    if (s.weight && !s.edge && !s.inside && !s.whole && !unread("slab.edge") && !unread("slab.inside") &&
        !unread("slab.whole"))
      remark("what a volume of the slab's concrete weighs is stated, and nothing of its size: none of it is weighed");
  }

  // --- [site] --------------------------------------------------------------------------------------------------------
  void site() {
    SiteSettled settled = settle_site(job_.site, job_.unread, place_, house_.importance, known_);
    take(settled);
    if (settled.site) house_.site = *std::move(settled.site);
    house_.sites = std::move(settled.sites);
    basis_ = settled.basis;
    method_words_ = settled.method;
  }

  // --- [block.NAME] --------------------------------------------------------------------------------------------------
  void block() {
    if (job_.blocks.empty()) {
      if (!unread("block"))
        slip("block", "missing-key", "no block: the building's plan, height and roof", "a table such as [block.main]");
      return;
    }
    if (several()) slips.insert(slips.end(), main_.slips.begin(), main_.slips.end());
    const auto& [name, b] = *job_.blocks.find(main_.name);
    block_ = &b;
    at_ = under("block", name);
    house_.block = name;
    if (b.size) {
      house_.across = (*b.size)[0].value_or(zero<Length>());
      house_.up = (*b.size)[1].value_or(zero<Length>());
      sized_ = (*b.size)[0] && (*b.size)[1];
    }
    house_.floor_level = b.floor_level.value_or(zero<Length>());
    if (b.height) house_.height = b.height->ground.value_or(zero<Length>());
    house_.wall_weight = b.wall_weight.value_or(zero<Pressure>());
    house_.ceiling = ceiling(b.ceiling);
    if (!b.wall_weight && !unread(under(at_, "wall_weight")))
      remark("no wall weight is given: none is counted against lifting or tipping");
    if (b.roof) {
      roof_ = settle_roof(roof_ask());
      if (several())
        for (std::string& r : roof_.remarks) r = fmt::format("block {}: {}", name, r);
      take(roof_);
      house_.roof = roof_.roof;
    }
    if (two_floors()) house_.first = raised();
    stump_floor();
    if (several()) blocks(main_.sure);
    else one_block();
  }
  bool several() const { return job_.blocks.size() > 1; }
  void blocks(bool sure) {
    BlocksSettled settled = settle_blocks({job_, house_, sure, sized_, roof_.good, place_});
    take(settled);
    wings_ = std::move(settled.wings);
    outside_ = std::move(settled.outside);
    names_good_ = all_named_ = settled.names_good;
    placed_ = settled.placed;
    for (const WingSettled& w : wings_) house_.wings.push_back(w.wing);
  }
  void one_block() {
    placed_ = sized_;
    for (const auto& [written, key] :
         {std::pair{block_->place.has_value(), "place"}, {block_->slab.has_value(), "slab"}})
      if (written)
        slip_on_key(
            under(at_, key), "wrong-key",
            fmt::format("`{}` belongs to a block that stands against another, and this house is one block", key),
            "leave it out, or add the block that it stands against");
    const raw::WallNames n = block_->walls.value_or(raw::WallNames());
    if (n.first && !two_floors())
      slip_on_key(under(under(at_, "walls"), "first"), "wrong-key",
                  fmt::format("`first` names walls of a first floor, and block {} has one floor", house_.block),
                  std::string(two_floors_help));
    const auto side = [&](Side s, const std::vector<std::string>& names, Length line) {
      const std::string path = under(under(at_, "walls"), words(s));
      if (names.size() > 1)
        slip(path, "wall-beside-wings",
             fmt::format("{} names for one wall: nothing stands against the {} of the block", names.size(), words(s)),
             "one name");
      names_good_ = names_good_ && names.size() < 2;
      if (names.size() != 1) return;
      const std::string of = fmt::format("the {} wall of block {}", words(s), house_.block);
      outside_.push_back({names.front(),
                          of,
                          path,
                          s,
                          sized_,
                          line,
                          zero<Length>(),
                          along(s) == Along::across ? house_.across : house_.up,
                          {},
                          {}});
      if (!two_floors()) return;
      const NameAbove above = name_above(n, s, under(at_, "walls"));
      if (above.name == names.front()) return;
      outside_.back().floor = Floor::ground;
      outside_.push_back(outside_.back());
      outside_.back().name = above.name;
      outside_.back().key = above.key;
      outside_.back().floor = Floor::first;
    };
    side(Side::front, n.front, zero<Length>());
    side(Side::right, n.right, house_.across);
    side(Side::back, n.back, house_.up);
    side(Side::left, n.left, zero<Length>());
    all_named_ = std::ranges::count_if(outside_, [](const OutsideWall& o) { return o.stands_on(Floor::ground); }) == 4;
  }
  RoofAsk roof_ask() const { return {job_, *block_, at_, sized_, house_.across, house_.up}; }
  // What another part of the settling has to say.
  template <class Part> void take(Part& part) {
    slips.insert(slips.end(), std::make_move_iterator(part.slips.begin()), std::make_move_iterator(part.slips.end()));
    for (std::string& r : part.remarks) remark(std::move(r));
  }

  // --- [bracing] -----------------------------------------------------------------------------------------------------
  void bracing() {
    const raw::Bracing& b = job_.bracing;
    house_.bracing.given_by = b.given_by.value_or("");
    if (b.lines_at_most) {
      const auto& [ground, first, by_floor] = *b.lines_at_most;
      house_.bracing.at_most = {ground, by_floor ? first : ground};
      const std::string path = "bracing.lines_at_most";
      if (by_floor && !two_floors())
        slip(path, "wrong-key", "`lines_at_most` is given floor by floor, and the house has one floor",
             std::string(two_floors_help));
      if (!b.given_by && !unread("bracing.given_by"))
        missing("bracing.given_by", "`given_by` is missing: who gave `lines_at_most`, from which table");
      remark(fmt::format("bracing lines at most {} apart, by {}",
                         by_floor && ground && first
                             ? fmt::format("{} and on the first floor {}", drawn(*ground), drawn(*first))
                             : drawn(ground.value_or(first.value_or(zero<Length>()))),
                         house_.bracing.given_by));
    } else if (b.given_by && !unread("bracing.lines_at_most")) {
      slip_on_key("bracing.given_by", "wrong-key", "`given_by` says who gave `lines_at_most`, which is not there");
    }
    if (!b.least) return;
    house_.bracing.least = LeastBracing::nzs_3604;  // the only word
    if (basis_ == Basis::allowable)
      slip("bracing.least", "basis-mismatch",
           fmt::format("{} asks for a strength in limit state; {} works with allowable capacities", *b.least,
                       method_words_),
           "leave it out, or say level = \"strength\" in the job: the one is never turned into the other");
    remark(fmt::format("each bracing line is asked for the least that {} asks of it as well", *b.least));
  }

  // --- floors --------------------------------------------------------------------------------------------------------
  static constexpr std::string_view two_floors_help =
      "a house of two floors has height = { ground, first } and floor = { first = { depth } } under [block.main]";
  // By what stands under [block.NAME], of several blocks the main one's.
  bool two_floors() const {
    if (job_.blocks.empty()) return false;
    const raw::Block& b = job_.blocks.at(main_.name);
    const std::string floor = under(under("block", main_.name), "floor"), ground = under(floor, "ground");
    const bool unread_of_first = std::ranges::any_of(job_.unread, [&](const std::string& u) {
      return u == floor || (u.starts_with(floor + ".") && !u.starts_with(ground));
    });
    return (b.height && b.height->by_floor) || (b.floor && (b.floor->first || !b.floor->ground)) || unread_of_first;
  }
  Maybe<Length> frame_height(Floor f) const {
    if (!block_->height) return std::nullopt;
    return f == Floor::ground ? block_->height->ground : block_->height->first;
  }
  // Nothing: that of some floor or block is not known.
  Maybe<Length> highest_frame() const {
    Maybe<Length> ground = frame_height(Floor::ground);
    for (const WingSettled& w : wings_) {
      const Maybe<Length> own = w.keys->height ? w.keys->height->ground : std::nullopt;
      ground = ground && own ? Maybe<Length>(std::max(*ground, *own)) : std::nullopt;
    }
    if (!two_floors() || !ground) return ground;
    const Maybe<Length> first = frame_height(Floor::first);
    return first ? std::max(*ground, *first) : first;
  }
  std::string frames_in_words() const {
    const std::string ground = drawn(*frame_height(Floor::ground));
    if (several())
      return fmt::format("of the highest {} {}", two_floors() ? "floor" : "block", drawn(*highest_frame()));
    return two_floors() ? fmt::format("{} on the ground floor and {} on the first floor", ground,
                                      drawn(*frame_height(Floor::first)))
                        : ground;
  }
  std::string in_full(Floor f, std::string_view key) const {
    return two_floors() ? fmt::format("{} {}", words(f), key) : std::string(key);
  }
  // Two floors are told of in four places: what is missing in one of them.
  void floors() {
    const raw::Walls& w = job_.walls;
    const auto walls_of = [&](Floor f) { return f == Floor::ground ? &w.ground : &w.first; };
    if (!two_floors()) {
      if (!w.only.empty() || (!w.ground && !w.first)) storeys_.push_back({Floor::ground, &w.only, "wall"});
      for (const Floor f : {Floor::ground, Floor::first})
        if (*walls_of(f)) {
          names_good_ = false;
          slip_on_key(under("wall", words(f)), "one-floor",
                      fmt::format("walls of the {} floor, but the house has one floor by its height", words(f)),
                      std::string(two_floors_help) + "; one floor's walls stand under [wall]");
        }
      return;
    }
    remark(several() ? fmt::format("both floors of block {} have one outline: its size", house_.block)
                     : std::string("both floors have one outline: the block's size"));
    if (block_->height && !block_->height->by_floor)
      slip(under(at_, "height"), "missing-key", "`height` is one length, and the house has a first floor",
           fmt::format("height = {{ ground = {}, first = ... }}", drawn(house_.height)));
    if (!block_->floor || !block_->floor->first)
      missing(under(at_, "floor"),
              "`floor` is missing: how deep the framed floor is between the two floors' walls, floor = { first = { "
              "depth = ... } }");
    if (!w.only.empty()) {
      std::vector<std::string_view> stray;
      for (const auto& [name, wall] : w.only) stray.push_back(name);
      slip_on_key(under("wall", stray.front()), "wall-of-no-floor",
                  stray.size() == 1 ? fmt::format("wall {} stands under [wall] itself: on which floor?", stray[0])
                                    : fmt::format("walls {} and {} stand under [wall] itself: on which floor?",
                                                  fmt::join(stray.begin(), stray.end() - 1, ", "), stray.back()),
                  "in a house of two floors every wall stands under [wall.ground] or [wall.first]");
    }
    for (const Floor f : {Floor::ground, Floor::first}) {
      const std::string path = under("wall", words(f));
      if (*walls_of(f)) storeys_.push_back({f, &**walls_of(f), path});
      else if (!unread_itself("wall")) {
        names_good_ = false;
        missing(path, fmt::format("`[wall.{}]` is missing: the walls of the {} floor", words(f), words(f)));
      }
    }
  }
  FirstFloor raised() {
    FirstFloor up{};
    up.height = frame_height(Floor::first).value_or(zero<Length>());
    if (!block_->floor || !block_->floor->first) return up;
    const raw::FramedFloor& keys = *block_->floor->first;
    up.depth = keys.depth.value_or(zero<Length>());
    up.weight = keys.lie.weight.value_or(zero<Pressure>());
    up.greatest_weight = keys.greatest_weight;
    up.live = keys.live;
    const std::string path = under(under(at_, "floor"), "first");
    if (keys.greatest_weight && *keys.greatest_weight < up.weight)
      slip(under(path, "greatest_weight"), "weights-swapped",
           "the floor's greatest weight is less than the `weight` that is sure to be there");
    up.joists = joists(keys.lie, path);
    return up;
  }
  bool on_stumps() const { return block_ != nullptr && block_->floor && block_->floor->ground; }
  void stump_floor() {
    if (!on_stumps()) return;
    const raw::GroundFloorKeys& keys = *block_->floor->ground;
    const std::string path = under(under(at_, "floor"), "ground");
    if (several())
      slip_on_key(path, "not-yet", "a house of several blocks on stumps cannot be worked out yet",
                  "leave `ground` out, or state one block");
    const raw::Slab& s = job_.slab;
    if (s.thickness || s.concrete || s.cracked || s.beyond || s.weight || s.edge || s.inside || s.whole)
      slip_on_key("slab", "wrong-key", "the ground floor stands on stumps: there is no slab",
                  "what is under the stumps stands in their `footing`");
    StumpFloor& floor = house_.framed.emplace();
    floor.joists = joists(keys.lie, path);
    floor.weight = keys.lie.weight.value_or(zero<Pressure>());
    if (keys.stumps) {
      const std::string at = under(path, "stumps");
      Stumps& stumps = floor.stumps.emplace();
      stumps.max = keys.stumps->max.value_or(zero<Length>());
      stumps.tie = choose(keys.stumps->tie, under(at, "tie"), "its stumps", Sort::tie, "tie");
      if (const Maybe<raw::FootingKeys>& f = keys.stumps->footing) {
        stumps.footing = {f->thickness, f->edge, f->concrete, f->cracked, f->width, f->length, f->weight};
        // Stumps stand up to `max` apart, and more than half of it.
        const Length longest = std::max(f->width.value_or(zero<Length>()), f->length.value_or(zero<Length>()));
        if (keys.stumps->max && longest > *keys.stumps->max / 2.0 + same_place)
          slip_on_key(under(at, "footing"), "footing-too-long",
                      fmt::format("a footing {} long may reach into that of the next stump: at most half of `max`, {}",
                                  drawn(longest), drawn(*keys.stumps->max / 2.0)),
                      "what one stump alone can lift of it");
      }
    }
    const auto braces = [&](const Maybe<raw::SubfloorBraceKeys>& b, std::string_view key) {
      const std::string at = under(under(path, "braces"), key);
      if (!b) return std::optional<SubfloorBraces>();
      return std::optional(SubfloorBraces{choose(b->use, under(at, "use"), "its braces", Sort::rated, "rated brace"),
                                          b->count.value_or(0)});
    };
    if (keys.braces) {
      floor.across = braces(keys.braces->across, "across");
      floor.up = braces(keys.braces->up, "up");
    }
  }
  std::optional<Joists> joists(const raw::JoistKeys& keys, const std::string& path) {
    if (!keys.joists) {
      for (const auto& [written, key] : {std::pair{keys.spacing.has_value(), "spacing"},
                                         {keys.joist_width.has_value(), "joist_width"},
                                         {keys.odd_space.has_value(), "odd_space"},
                                         {keys.edge.has_value(), "edge"},
                                         {keys.blocking.has_value(), "blocking"}})
        if (written && !unread(under(path, "joists"))) {
          slip_on_key(under(path, key), "missing-key",
                      fmt::format("`{}` says how joists lie, and `joists`, the way they run, is missing", key),
                      "joists = \"across\" or \"up\"");
          break;
        }
      return std::nullopt;
    }
    const Along runs = *keys.joists == "across" ? Along::across : Along::up;
    const bool near_left = keys.odd_space == "left" || keys.odd_space == "right";
    if (keys.odd_space && near_left != (runs == Along::up))
      slip(under(path, "odd_space"), "wrong-side",
           fmt::format("joists that run {} have a space left over at the {}", *keys.joists,
                       runs == Along::up ? "left or the right" : "front or the back"));
    return Joists{.runs = runs,
                  .spacing = keys.spacing.value_or(zero<Length>()),
                  .width = keys.joist_width.value_or(zero<Length>()),
                  .from_far = keys.odd_space == "left" || keys.odd_space == "front",
                  .edge = keys.edge.value_or(false),
                  .blocking = keys.blocking.value_or(false)};
  }

  // --- marks ---------------------------------------------------------------------------------------------------------
  void mark(const std::string& name, const raw::Mark& m, const std::string& path, bool by_default) {
    if (!good_name(name))
      return slip_on_key(path, "bad-name", fmt::format("`{}` cannot be a mark", name), std::string(name_help));
    if (marks_.contains(name))
      return slip_on_key(path, "mark-twice", fmt::format("`{}` stands under [unless_noted] as well", name));
    MarkUse use{&m, path, by_default, {}};
    const bool opening = m.size || unread(under(path, "size")), brace = m.brace || unread(under(path, "brace"));
    if (opening && brace)
      slip_on_key(path, "bad-mark", fmt::format("`{}` is an opening (size) and a brace (brace) at once", name));
    if (!opening && !brace && !unread(path))
      slip_on_key(path, "bad-mark", fmt::format("`{}` is neither an opening (size) nor a brace (brace)", name),
                  "an opening: \"2100 x 900\"; a brace: { brace = \"...\" }");
    const auto foreign = [&](bool written, std::string_view key, std::string_view of) {
      if (written) slip_on_key(under(path, key), "wrong-key", fmt::format("`{}` belongs to {}", key, of));
    };
    if (opening && !brace) {
      foreign(m.hold_down.has_value(), "hold_down", "a brace");
      foreign(m.foot.has_value(), "foot", "a brace");
      foreign(m.round_openings.has_value(), "round_openings", "a brace");
      foreign(m.end_studs.has_value(), "end_studs", "a brace");
    }
    if (brace && !opening) {
      foreign(m.wind_rated.has_value(), "wind_rated", "an opening");
      foreign(m.jamb.has_value(), "jamb", "an opening");
      foreign(m.door.has_value(), "door", "an opening");
      foreign(m.open.has_value(), "open", "an opening");
      foreign(m.impact_rated.has_value(), "impact_rated", "an opening");
    }
    if (m.size) {
      RunSlip s;
      use.size = read_opening_size(*m.size, job_.drawing, s);
      if (!use.size) slip_in(under(path, "size"), s.at, s.size, s.code, s.message, s.help);
      else if (const auto frame = highest_frame(); frame && use.size->height > *frame)
        slip(under(path, "size"), "opening-too-high",
             fmt::format("`{}` is {} high, the frame {}", name, drawn(use.size->height), frames_in_words()),
             "height x width, in this order");
    }
    if (m.wind_rated) rating(*m.wind_rated, under(path, "wind_rated"));
    if (m.open.value_or(false))
      for (const auto& [closed, key] : {std::pair{m.wind_rated.value_or("not known") != "not known", "wind_rated"},
                                        {m.impact_rated.value_or(false), "impact_rated"}})
        if (closed)
          slip_on_key(under(path, key), "open-and-closed",
                      fmt::format("nothing closes `{}` (open = true): `{}` says what it stands when shut", name, key),
                      "leave out one of them");
    const std::string by = by_default ? "unless noted" : "mark " + name;
    Choices c;
    c.jamb = {choose(m.jamb, under(path, "jamb"), by, Sort::anchor, "anchor"), under(path, "jamb")};
    c.brace = choose(m.brace, under(path, "brace"), by, brace_sorts, "brace");
    c.hold_down = {choose(m.hold_down, under(path, "hold_down"), by, Sort::anchor, "anchor"), under(path, "hold_down")};
    c.end_studs = choose(m.end_studs, under(path, "end_studs"), by, Sort::end_studs, "stud group");
    if (m.brace && fixings_ != nullptr) {
      const StrapBrace* strap = find(fixings_->straps, *m.brace);
      const bool single = strap != nullptr && !strap->pair;
      if (single && !m.foot)
        missing(under(path, "foot"),
                fmt::format("`foot` is missing: at which end of `{}` its single strap stands, \"left\" or \"right\"",
                            name));
      if (m.foot && !single) foreign(true, "foot", "a brace with a single strap");
      if (m.round_openings && find(fixings_->perforated, *m.brace) == nullptr)
        foreign(true, "round_openings", "a brace whose entry stands under [[perforated]]");
    }
    choices_.emplace(name, std::move(c));
    marks_.emplace(name, std::move(use));
  }
  void marks() {
    for (const auto& [name, m] : job_.unless_noted.marks) mark(name, m, under("unless_noted", name), true);
    for (const auto& [name, m] : job_.marks) mark(name, m, under("mark", name), false);
  }
  // "N3", "130 mph" or "not known".
  void rating(const std::string& text, const std::string& path) {
    std::string why;
    const auto classes = wind_classes();
    if (text == "not known" || std::find(classes.begin(), classes.end(), text) != classes.end()) return;
    if (const auto v = parse_quantity(text, Kind::speed, why); v && quantity<Speed>(*v) > zero<Speed>()) return;
    std::vector<std::string_view> words(classes.begin(), classes.end());
    words.push_back("not known");
    const std::string help = advice(text, words);
    slip(path, "unknown-rating",
         fmt::format("`{}` is no wind rating: a class such as \"N3\", a speed such as \"130 mph\", or \"not known\"",
                     text),
         help);
  }

  // --- [unless_noted] ------------------------------------------------------------------------------------------------
  void defaults() {
    const raw::UnlessNoted& u = job_.unless_noted;
    const Standing unsaid{.jamb = {},
                          .hold_down = {},
                          .anchor = {},
                          .top_tie = {},
                          .stud_tie = {},
                          .plate_fixing = {},
                          .end_studs = {},
                          .anchor_spacing = unsaid_.anchor_spacing,
                          .plate = zero<Length>(),
                          .hold_down_in = unsaid_.hold_down_in,
                          .plate_anchors_share = false,
                          .each_joist = false};
    const Standing every = standing(unsaid, u.every, "unless_noted", "unless noted");
    for (const Floor f : {Floor::ground, Floor::first}) {
      const Maybe<raw::OfFloor>& own = f == Floor::ground ? u.ground : u.first;
      const std::string path = under("unless_noted", words(f));
      if (own && !two_floors())
        slip_on_key(path, "wrong-key", fmt::format("`{}` is for a house of two floors", words(f)),
                    std::string(two_floors_help));
      Standing& here = standing_[static_cast<std::size_t>(f)];
      here = own && two_floors() ? standing(every, *own, path, fmt::format("unless noted, {} floor", words(f))) : every;
      if (own && two_floors())
        for (const Pick* p : {&here.jamb, &here.hold_down, &here.anchor})
          if (p->path.starts_with(path + ".")) anchor_fits(*p, f, {});
    }
    floor_links();
    nothing_said_of_anchors();
  }
  // `before`, with what these keys say in its place.
  Standing standing(Standing before, const raw::OfFloor& keys, const std::string& path, const std::string& by) {
    const auto pick = [&](Pick& to, const Maybe<std::string>& name, std::string at) {
      if (name) to = {choose(name, at, by, Sort::anchor, "anchor"), std::move(at)};
    };
    const auto tie = [&](Chosen& to, const Maybe<std::string>& name, std::string_view key, Sort sort,
                         std::string_view what) {
      if (name) to = choose(name, under(path, key), by, sort, what);
    };
    pick(before.jamb, keys.jamb, under(path, "jamb"));
    pick(before.hold_down, keys.hold_down, under(path, "hold_down"));
    tie(before.top_tie, keys.top_tie, "top_tie", Sort::tie, "tie");
    tie(before.stud_tie, keys.stud_tie, "stud_tie", Sort::tie, "tie");
    tie(before.plate_fixing, keys.plate_fixing, "plate_fixing", Sort::plate, "plate fixing");
    tie(before.end_studs, keys.end_studs, "end_studs", Sort::end_studs, "stud group");
    if (keys.anchor) {
      pick(before.anchor, keys.anchor->use, under(under(path, "anchor"), "use"));
      if (keys.anchor->max) before.anchor_spacing = *keys.anchor->max;
      const std::optional<Length> joists = at_each_joist(*keys.anchor, under(path, "anchor"));
      before.each_joist = joists.has_value();
      if (joists) before.anchor_spacing = *joists;
    }
    before.plate = keys.plate.value_or(before.plate);
    before.hold_down_in = keys.hold_down_in.value_or(before.hold_down_in);
    before.plate_anchors_share = keys.plate_anchors_share.value_or(before.plate_anchors_share);
    return before;
  }
  // The joists' spacing; nothing: anchors do not go by the joists.
  std::optional<Length> at_each_joist(const raw::Anchors& keys, const std::string& path) {
    if (!keys.each) return std::nullopt;
    const std::string each = under(path, "each");
    if (keys.max)
      slip_on_key(under(path, "max"), "two-ways", "anchors stand at `each` joist or at most `max` apart, not both");
    const Floor f = path.starts_with("unless_noted.first") ? Floor::first : Floor::ground;
    const bool of_one_floor = path != "unless_noted.anchor" || !two_floors();
    const std::optional<Joists>* joists = !of_one_floor                         ? nullptr
                                          : f == Floor::first && house_.first   ? &house_.first->joists
                                          : f == Floor::ground && house_.framed ? &house_.framed->joists
                                                                                : nullptr;
    if (joists == nullptr)
      slip_on_key(each, "wrong-key", "`each` sets out anchors at the joists under the walls of one framed floor",
                  "under [unless_noted.first], or of a ground floor on stumps");
    else if (!*joists && !unread(under(at_, "floor")))
      slip_on_key(
          each, "missing-key", "anchors stand at each joist, and nothing is said of the joists",
          fmt::format("floor = {{ {} = {{ joists = \"across\", spacing = ..., joist_width = ... }} }}", words(f)));
    if (joists == nullptr || !*joists || !((*joists)->spacing > zero<Length>())) return std::nullopt;
    return (*joists)->spacing;
  }
  const Standing& standing(Floor f) const { return standing_[static_cast<std::size_t>(f)]; }
  // What carries force from one floor's walls to the other's.
  void floor_links() {
    const raw::UnlessNoted& u = job_.unless_noted;
    const std::string tie = under("unless_noted", "floor_tie"), fixing = under("unless_noted", "floor_fixing");
    for (const auto& [written, path, key] :
         {std::tuple{u.floor_tie.has_value(), tie, "floor_tie"}, {u.floor_fixing.has_value(), fixing, "floor_fixing"}})
      if (written && !two_floors())
        slip_on_key(path, "wrong-key", fmt::format("`{}` belongs to a house of two floors", key),
                    std::string(two_floors_help));
    if (!house_.first || !two_floors()) return;
    house_.first->tie = choose(u.floor_tie, tie, "unless noted", Sort::tie, "tie");
    if (!u.floor_fixing) return;
    const Pick use{choose(u.floor_fixing->use, under(fixing, "use"), "unless noted", Sort::anchor, "anchor"),
                   under(fixing, "use")};
    house_.first->fixing = use.chosen;
    house_.first->fixing_spacing = u.floor_fixing->max.value_or(zero<Length>());
    if (const auto how = how_of(use.chosen); how && in_concrete(*how))
      slip(use.path, "anchor-on-the-wrong-floor",
           fmt::format("`{}` is {}, and a framed floor stands on walls: no concrete there", use.chosen.name,
                       set_in_words(*how)),
           std::string(framed_help));
  }
  void nothing_said_of_anchors() {
    const raw::UnlessNoted& u = job_.unless_noted;
    const auto remark_on = [&](std::string_view where, Length spacing) {
      remark(fmt::format("no plate anchor is given {}: stations at {} are shown, common practice, no source", where,
                         size_text(spacing, metric)));
    };
    if (u.every.anchor || unread("unless_noted.anchor")) return;
    if (!two_floors()) return remark_on("under [unless_noted] (anchor)", unsaid_.anchor_spacing);
    for (const Floor f : {Floor::ground, Floor::first})
      if (!(f == Floor::ground ? u.ground : u.first).value_or(raw::OfFloor()).anchor &&
          !unread(under(under("unless_noted", words(f)), "anchor")))
        remark_on(fmt::format("for the {} floor (anchor)", words(f)), unsaid_.anchor_spacing);
  }

  // --- what an anchor is set into, floor by floor --------------------------------------------------------------------
  std::optional<How> how_of(const Chosen& c) const {
    for (const Named& n : named_)
      if (n.sort == Sort::anchor && n.terms->name == c.name) return n.how;
    return std::nullopt;
  }
  static std::string set_in_words(How how) {
    return how == How::cast_in ? "cast in" : fmt::format("{} into concrete", words(how));
  }
  static constexpr std::string_view framed_help =
      "an anchor whose sheet says how = \"into timber\", \"into steel\" or \"through floor\"";
  // `wall`: in whose place it was found; empty: said of the floor's own table. Said once for a floor.
  void anchor_fits(const Pick& p, Floor f, const std::string& wall) {
    const auto how = how_of(p.chosen);
    const bool through = how == How::through_floor;
    const bool no_concrete = f == Floor::first || on_stumps();
    if (!how || !((f == Floor::ground && through) || (no_concrete && in_concrete(*how)))) return;
    if (!wrong_on_floor_.emplace(p.path, f).second) return;
    const std::string where = wall.empty() ? std::string() : fmt::format("wall {}: ", wall);
    if (f == Floor::ground && !through)
      slip(p.path, "anchor-on-the-wrong-floor",
           fmt::format("{}`{}` is {}, and the ground floor stands on stumps: no concrete there", where, p.chosen.name,
                       set_in_words(*how)),
           "an anchor whose sheet says how = \"into timber\" or \"into steel\"");
    else if (f == Floor::ground)
      slip(p.path, "anchor-on-the-wrong-floor",
           fmt::format("{}`{}` goes through a floor into the wall below, and {}", where, p.chosen.name,
                       two_floors() ? "the ground floor has none below" : "this house has one floor"),
           "\"through floor\" is for the first floor of two");
    else
      slip(p.path, "anchor-on-the-wrong-floor",
           fmt::format("{}`{}` is {}, and the first floor stands on a framed floor: no concrete there", where,
                       p.chosen.name, set_in_words(*how)),
           std::string(framed_help));
  }

  // --- trusses -------------------------------------------------------------------------------------------------------
  // Where hips end is known once all of the roof is.
  void trusses() {
    const std::size_t before = slips.size();
    if (TrussesSettled settled = trusses_of(roof_ask(), roof_); !settled.trusses.empty()) {
      house_.trusses = std::move(settled.trusses);
      house_.hip_ends = std::move(settled.hip_ends);
      row_of_ = std::move(settled.row_of);
    }
    for (std::size_t i = 0; i < wings_.size(); ++i) {
      if (!wings_[i].joint) continue;
      TrussesSettled settled = trusses_of(belay::roof_ask(job_, wings_[i]), wings_[i].roof);
      house_.wings[i].trusses = std::move(settled.trusses);
      house_.wings[i].hip_ends = std::move(settled.hip_ends);
      house_.wings[i].valley = std::move(settled.valley);
      wings_[i].row_of = std::move(settled.row_of);
    }
    if (several()) once(before);
  }
  TrussesSettled trusses_of(const RoofAsk& ask, const RoofSettled& roof) {
    if (!ask.block.trusses || !ask.sized || !roof.ridge_known) return {};
    if (roof.roof.shape == RoofShape::hip && !roof.good) return {};
    TrussesSettled settled = settle_trusses(ask, roof, [this](const Maybe<std::string>& name, const std::string& path) {
      return choose(name, path, "unless noted", Sort::bracket, "bracket");
    });
    if (several())
      for (std::string& r : settled.remarks) r = fmt::format("block {}: {}", steps_of(ask.path).back().key, r);
    take(settled);
    return settled;
  }
  // What each block has to say of the same key is said once. from: of the slips.
  void once(std::size_t from) {
    std::vector<Slip> kept(slips.begin(), slips.begin() + static_cast<std::ptrdiff_t>(from));
    for (std::size_t i = from; i < slips.size(); ++i)
      if (std::none_of(kept.begin() + static_cast<std::ptrdiff_t>(from), kept.end(), [&](const Slip& s) {
            return s.path == slips[i].path && s.code == slips[i].code && s.message == slips[i].message;
          }))
        kept.push_back(slips[i]);
    slips = std::move(kept);
  }
  void roof_braces() {
    if (several() && !placed_) return;
    RoofBracesSettled settled = settle_roof_braces(
        roof_ask(), roof_, roofs_over(wings_),
        [this](const Maybe<std::string>& name, const std::string& path) {
          return choose(name, path, "roof braces", Sort::strap, "strap");
        },
        [this](const Chosen& c) {
          const StrapBrace* strap = fixings_ != nullptr ? find(fixings_->straps, c.name) : nullptr;
          return strap != nullptr && strap->pair;
        });
    take(settled);
    house_.roof_braces = std::move(settled.braces);
  }
  // What each says of itself; whether it fits the plan is seen where the plan is set out.
  void as_built() {
    for (std::size_t i = 0; i < job_.as_built.size(); ++i) {
      const raw::AsBuilt& b = job_.as_built[i];
      const std::string path = under("as_built", i);
      if (b.brace || unread(under(path, "brace"))) {
        brace_as_built(b, path);
        continue;
      }
      if (!b.wall && !unread(under(path, "wall")))
        slip(path, "missing-key", "nothing says what was found: a fixing in a `wall`, or a `brace`");
      for (const auto& [written, key] : {std::pair{b.angle.has_value(), "angle"}, {b.foot.has_value(), "foot"}})
        if (written) wrong_key(under(path, key), key, "what was found of a `brace`");
      AsBuilt found{b.wall.value_or(""), place_(path), b.planned, b.at, b.edge, {}, b.missing.value_or(false)};
      found.use = choose(b.use, under(path, "use"), "as built", Sort::anchor, "anchor");
      std::vector<std::string> names;
      for (const Wall& w : house_.walls) names.push_back(w.name);
      const auto wall =
          std::find_if(house_.walls.begin(), house_.walls.end(), [&](const Wall& w) { return w.name == found.wall; });
      if (b.wall && wall == house_.walls.end()) {
        slip(under(path, "wall"), "unknown-wall", fmt::format("no wall `{}`", found.wall), advice(found.wall, names));
        continue;
      }
      if (!b.planned && !b.at && !unread(under(path, "planned")) && !unread(under(path, "at")))
        slip(path, "missing-key", "nothing says which fixing: where it is `planned`, or `at` for one more");
      if (!b.planned && b.missing.value_or(false))
        slip_on_key(under(path, "missing"), "two-ways", "what is missing is in the plan: where it is `planned`");
      if (b.missing.value_or(false) && (b.at || b.edge || b.use))
        slip_on_key(under(path, "missing"), "two-ways", "what is missing stands nowhere and has no edge");
      if (!b.planned && !b.use && !unread(under(path, "use")))
        slip(path, "missing-key", "a fixing that is not in the plan says what it is: `use` is missing");
      if (wall == house_.walls.end()) continue;
      for (const auto& [at, key] : {std::pair{b.planned, "planned"}, {b.at, "at"}})
        if (at && *at > wall->length() + same_place)
          slip(under(path, key), "outside-the-wall",
               fmt::format("{} is past the end of wall {}, which is {} long", drawn(*at), found.wall,
                           drawn(wall->length())),
               "places run from the wall's start, as `belay show` prints them");
      // A doorway parts the plate: whatever stands in it holds nothing of this wall. The walls are still as drawn, the
      // places of what was found as built.
      const std::optional<Mirror> mirror = mirror_of_job(job_);
      const bool turned = mirror && turns_places(wall->runs, *mirror);
      const Length x = b.at ? turned ? wall->length() - *b.at : *b.at : zero<Length>();
      for (const Piece& p : wall->pieces)
        if (b.at && p.opening && p.opening->door && x > p.from + same_place && x < p.to - same_place)
          slip(under(path, "at"), "in-a-doorway",
               fmt::format("{} is in the doorway {} of wall {}: no plate runs there", drawn(*b.at), p.opening->mark,
                           found.wall),
               "places run from the wall's start, as `belay show` prints them");
      house_.as_built.push_back(std::move(found));
    }
  }

  // A brace by its name on the house as it is built, where the numbers of a mirrored wall run the other way.
  struct BuiltBrace {
    Brace* brace;
    bool turned;
  };
  std::map<std::string, BuiltBrace, std::less<>> braces_as_built() {
    std::map<std::string, BuiltBrace, std::less<>> r;
    const std::optional<Mirror> mirror = mirror_of_job(job_);
    for (Wall& w : house_.walls) {
      std::vector<Brace*> of_wall;
      for (Piece& p : w.pieces)
        if (p.brace) of_wall.push_back(&*p.brace);
      const bool turned = mirror && turns_places(w.runs, *mirror);
      for (std::size_t i = 0; i < of_wall.size(); ++i)
        r[of_wall[turned ? of_wall.size() - 1 - i : i]->name] = {of_wall[i], turned};
    }
    return r;
  }
  void wrong_key(const std::string& path, std::string_view key, std::string_view of) {
    slip_on_key(path, "wrong-key", fmt::format("`{}` belongs to {}", key, of));
  }
  void brace_as_built(const raw::AsBuilt& b, const std::string& path) {
    if (b.wall)
      slip_on_key(under(path, "wall"), "two-ways", "a row speaks of a fixing in a `wall` or of a `brace`, not of both",
                  "the brace's name says in which wall it stands");
    for (const auto& [written, key] :
         {std::pair{b.planned.has_value(), "planned"}, {b.at.has_value(), "at"}, {b.edge.has_value(), "edge"}})
      if (written) wrong_key(under(path, key), key, "what was found of a fixing");
    const bool missing = b.missing.value_or(false);
    if (missing && (b.angle || b.use || b.foot))
      slip_on_key(under(path, "missing"), "two-ways", "what is missing has no angle, no foot and no entry");
    if (!b.missing && !b.angle && !b.use && !b.foot && !unread(path))
      slip(path, "missing-key", "nothing says what was found of it: its `angle`, `use`, `foot` or `missing`");
    const Chosen use = choose(b.use, under(path, "use"), "as built", brace_sorts, "brace");
    if (!b.brace) return;
    const auto all = braces_as_built();
    const auto found = all.find(*b.brace);
    if (found == all.end()) {
      std::vector<std::string> names;
      for (const auto& entry : all) names.push_back(entry.first);
      return slip(under(path, "brace"), "unknown-brace", fmt::format("no brace `{}`", *b.brace),
                  advice_or_list(*b.brace, names, "its braces"));
    }
    Brace& brace = *found->second.brace;
    if (brace.found)
      return slip(under(path, "brace"), "brace-twice", fmt::format("another row speaks of brace `{}`", *b.brace),
                  "all that was found of it stands in one row");
    stands_as_found(brace, b, use, path, found->second.turned);
  }
  // turned: its foot is told as the wall is built, and its wall is still as drawn.
  void stands_as_found(Brace& brace, const raw::AsBuilt& b, const Chosen& use, const std::string& path, bool turned) {
    brace.found = FoundBrace{.at = place_(path), .missing = b.missing.value_or(false)};
    FoundBrace& found = *brace.found;
    if (fixings_ == nullptr) return;
    const auto perforated = [&](const Chosen& c) { return find(fixings_->perforated, c.name) != nullptr; };
    if (use.given() && use.name != brace.fixing.name) {
      if (perforated(use))
        slip(under(path, "use"), "wrong-sort-of-fixing",
             fmt::format("`{}` is a sheet brace with openings: its pieces hold together, as planned", use.name),
             "where such a wall was built, state it in the wall's run");
      found.planned = std::exchange(brace.fixing, use);
    }
    const StrapBrace* strap = find(fixings_->straps, brace.fixing.name);
    const bool single = strap != nullptr && !strap->pair;
    if (b.foot && !single) wrong_key(under(path, "foot"), "foot", "a brace with a single strap");
    if (single && !brace.foot && !b.foot)
      this->missing(under(path, "foot"),
                    fmt::format("`foot` is missing: at which end of brace {} the single strap stands, \"left\" or "
                                "\"right\"",
                                *b.brace));
    if (b.foot && single) {
      const Side foot = (*b.foot == "left") != turned ? Side::left : Side::right;
      found.foot_moved = brace.foot && *brace.foot != foot;
      brace.foot = foot;
    }
    if (!b.angle) return;
    if (strap == nullptr) return wrong_key(under(path, "angle"), "angle", "a brace with a strap");
    if (single && b.angle->size() > 1)
      slip(under(path, "angle"), "wrong-key", "a single strap has one angle", "two belong to a pair");
    for (const raw::Maybe<Angle>& a : *b.angle)
      if (a) found.angles.push_back(*a);
  }

  void verandas() {
    const auto pick = [this](Sort sort, std::string_view what) {
      return [this, sort, what](const Maybe<std::string>& name, const std::string& path) {
        return choose(name, path, "its veranda", sort, what);
      };
    };
    const auto foot = [this, any = pick(Sort::anchor, "anchor")](const Maybe<std::string>& name,
                                                                 const std::string& path) {
      Chosen chosen = any(name, path);
      if (how_of(chosen) == How::through_floor)
        slip(path, "anchor-on-the-wrong-floor",
             fmt::format("`{}` goes through a floor into the wall below, and a post stands on none", chosen.name),
             "\"through floor\" is for the first floor of two");
      return chosen;
    };
    VerandasSettled settled = settle_verandas(
        {job_, house_, placed_ && names_good_, place_, pick(Sort::bracket, "bracket"), pick(Sort::tie, "tie"), foot});
    take(settled);
    house_.verandas = std::move(settled.verandas);
  }
  void inside_bearings() {
    if (!block_->trusses || !sized_ || !roof_.ridge_known || !names_good_) return;
    const auto of_block = [this](const RoofAsk& ask, const House& house, const std::vector<std::size_t>& row_of) {
      const std::vector<Slip> wrong = slips_of_inside_bearings(ask, house, row_of);
      slips.insert(slips.end(), wrong.begin(), wrong.end());
    };
    of_block(roof_ask(), house_, row_of_);
    for (std::size_t i = 0; i < wings_.size() && placed_; ++i)
      if (wings_[i].keys->trusses && wings_[i].roof.ridge_known)
        of_block(belay::roof_ask(job_, wings_[i]), seen_from(house_, i + 1), wings_[i].row_of);
    if (!two_floors()) return;
    const auto named_in_full = [this](std::vector<Truss>& trusses, Floor f) {
      for (Truss& t : trusses)
        for (std::string& on : t.also_on) on = in_full(f, on);
    };
    named_in_full(house_.trusses, Floor::first);
    for (Wing& w : house_.wings) named_in_full(w.trusses, Floor::ground);
  }

  // Only of a house of several blocks: else the four walls stand under all that spans. What is wrong with a wall or a
  // truss may be why there seems to be none.
  void bearings() {
    const auto of_walls_or_blocks = [](std::string_view path) {
      return path.starts_with("wall") || path.starts_with("block");
    };
    if (!placed_ || !names_good_ || std::ranges::any_of(slips, of_walls_or_blocks, &Slip::path) ||
        std::ranges::any_of(job_.unread, of_walls_or_blocks))
      return;
    BearingsAsk ask{job_, house_, {at_}, {&row_of_}};
    for (const WingSettled& w : wings_) {
      ask.paths.push_back(w.path);
      ask.row_of.push_back(&w.row_of);
    }
    const std::vector<Slip> wrong = slips_of_bearings(ask);
    slips.insert(slips.end(), wrong.begin(), wrong.end());
  }

  // --- walls ---------------------------------------------------------------------------------------------------------
  // A block's own axes, in which its inside walls are placed. known: where they lie.
  struct Axes {
    Length left, front, across, up;
    bool known;
  };
  Axes axes_of(const Maybe<std::string>& block) const {
    for (const WingSettled& w : wings_)
      if (block == w.wing.name) return {w.wing.left, w.wing.front, w.wing.across, w.wing.up, placed_};
    return {zero<Length>(), zero<Length>(), house_.across, house_.up, placed_};
  }
  // The wall whose run this one has: itself, or the end of its chain of `same_as` and `mirror_of`. No keys: a slip was
  // said. frames: those of the first wall on the way that has some. turned: read from this wall's far end.
  struct Source {
    const raw::Wall* keys = nullptr;
    bool turned = false;
    Floor floor = Floor::ground;
    std::string run_path = {};
    const raw::Wall* frames = nullptr;
    bool frames_turned = false;
  };
  // Not one of the words: refused where it was read.
  static Ceiling ceiling(const Maybe<std::string>& word) {
    for (const Ceiling c : {Ceiling::flexible, Ceiling::rigid})
      if (word == words(c)) return c;
    return Ceiling::both;
  }
  // The key by which a wall has the run of another.
  static std::string_view repeats_by(const raw::Wall& w) { return w.mirror_of ? "mirror_of" : "same_as"; }
  static const Maybe<std::string>& repeated(const raw::Wall& w) { return w.mirror_of ? w.mirror_of : w.same_as; }
  const Storey* storey(Floor f) const {
    const auto s = std::find_if(storeys_.begin(), storeys_.end(), [&](const Storey& x) { return x.floor == f; });
    return s == storeys_.end() ? nullptr : &*s;
  }
  // The floor that `same_as` or `mirror_of` names, in a house of two.
  std::optional<Floor> floor_named(const Maybe<std::string>& wall) const {
    if (!two_floors() || !wall) return std::nullopt;
    for (const Floor f : {Floor::ground, Floor::first})
      if (*wall == words(f)) return f;
    return std::nullopt;
  }
  // One way to have a run, and one word on how it goes.
  bool one_run(const raw::Wall& w, const std::string& path) {
    const bool two = (w.run && (w.same_as || w.mirror_of)) || (w.same_as && w.mirror_of);
    if (two) {
      const std::string_view key = w.run ? repeats_by(w) : "mirror_of";
      slip_on_key(under(path, key), "two-ways",
                  w.run ? fmt::format("a wall has a `run` or {} another, not both",
                                      w.mirror_of ? "is the `mirror_of`" : "is `same_as`")
                        : "a wall is `same_as` another or the `mirror_of` one, not both");
    } else if (w.mirror_of && w.from) {
      slip_on_key(under(path, "from"), "two-ways", "`mirror_of` turns the run round, and `from` says how it goes",
                  "same_as with `from`, or mirror_of alone");
      return false;
    }
    return !two;
  }
  Source source(const Storey& own, const std::string& name, const raw::Wall& wall) {
    const raw::Wall* w = &wall;
    const Storey* on = &own;
    std::string at = name;
    std::set<std::pair<Floor, std::string>> seen;
    Source out;
    std::optional<bool> told;  // by the first `from` on the way
    bool mirrored = false;     // by the `mirror_of` on the way
    for (;;) {
      const std::string path = under(on->path, at);
      if (!told && w->from) told = mirrored != (*w->from == "right" || *w->from == "back");
      out.turned = told.value_or(mirrored);
      if (out.frames == nullptr && w->frames) {
        out.frames = w;
        out.frames_turned = out.turned;
      }
      if (w == &wall ? !one_run(*w, path) : w->run && repeated(*w)) return {};
      if (w->run) {
        out.run_path = under(path, "run");
        out.floor = on->floor;
        out.keys = w;
        return out;
      }
      const Maybe<std::string>& other_wall = repeated(*w);
      if (!other_wall) {
        if (w == &wall && !unread(under(path, "same_as")) && !unread(under(path, "mirror_of")))
          missing(under(path, "run"), fmt::format("`run` is missing: the pieces of wall {} from one end to the other",
                                                  in_full(on->floor, at)));
        return {};
      }
      if (!seen.emplace(on->floor, at).second) {
        slip(under(under(own.path, name), repeats_by(wall)), "same-as-itself",
             fmt::format("wall {} comes back to itself by `{}`", in_full(own.floor, name), repeats_by(wall)));
        return {};
      }
      const std::optional<Floor> other = floor_named(other_wall);
      const Storey* there = other ? storey(*other) : on;
      if (there == nullptr) return {};  // said: that floor has no walls
      const auto next = there->walls->find(other ? at : *other_wall);
      if (next == there->walls->end()) {
        if (w == &wall) unknown_wall(*there, under(path, repeats_by(*w)), other ? at : *other_wall);
        return {};
      }
      mirrored = mirrored != w->mirror_of.has_value();
      on = there;
      at = next->first;
      w = &next->second;
    }
  }
  void unknown_wall(const Storey& on, const std::string& path, const std::string& name) {
    if (unread(under(on.path, name))) return;  // it is there, and what is wrong with it has been said
    std::vector<std::string> names;
    for (const auto& [n, w] : *on.walls) names.push_back(n);
    const std::string help = advice_or_list(name, names, "walls");
    slip(path, "unknown-wall", fmt::format("no wall `{}` under [{}]", name, on.path), help);
  }

  void walls() {
    std::size_t count = 0;
    for (const Storey& s : storeys_) count += s.walls->size();
    if (count > most_walls) return slip("wall", "too-many-walls", fmt::format("more than {} walls", most_walls));
    for (std::size_t i = 0; i < outside_.size(); ++i) {
      const OutsideWall& o = outside_[i];
      for (std::size_t k = 0; k < i; ++k) {
        const OutsideWall& other = outside_[k];
        if (other.name != o.name || (o.floor && other.floor && o.floor != other.floor)) continue;
        names_good_ = false;
        const bool said =
            std::ranges::any_of(slips, [&](const Slip& s) { return s.path == o.key && s.code == "wall-twice"; });
        if (!said)
          slip(o.key, "wall-twice",
               fmt::format("wall `{}` stands at the {} and at the {}", o.name, words(other.side), words(o.side)));
      }
      for (const Storey& s : storeys_)
        if (o.stands_on(s.floor) && !s.walls->contains(o.name) && !unread(under(s.path, o.name)) &&
            !unread_itself(s.path)) {
          names_good_ = false;
          unknown_wall(s, o.key, o.name);
        }
    }
    for (const Storey& s : storeys_) {
      const std::size_t slipsbefore = slips.size(), first = house_.walls.size();
      for (const auto& [name, w] : *s.walls) wall(s, name, w);
      if (slips.size() == slipsbefore && placed_ && names_good_ && !unread(s.path)) apart(s, first);
    }
  }
  // A wall that stands where another of its floor does would be counted twice. first: of this floor.
  void apart(const Storey& s, std::size_t first) {
    for (std::size_t i = first; i < house_.walls.size(); ++i)
      for (std::size_t k = first; k < i; ++k) {
        const Wall &a = house_.walls[k], &b = house_.walls[i];
        const bool one_line = a.runs == b.runs && near(a.line, b.line);
        if (one_line && std::min(a.to, b.to) - std::max(a.from, b.from) > same_place)
          slip_on_key(under(s.path, b.key), "walls-in-one-place",
                      fmt::format("wall {} stands where wall {} stands", b.name, a.name), "one run for one wall");
      }
  }

  void wall(const Storey& on, const std::string& name, const raw::Wall& w) {
    const std::string path = under(on.path, name);
    if (!good_name(name))
      return slip_on_key(path, "bad-name", fmt::format("`{}` cannot be a wall's name", name), std::string(name_help));
    if (floor_named(name))
      return slip_on_key(path, "bad-name", fmt::format("`{}` cannot be a wall's name: it is a floor's", name),
                         "the word that the drawing has for the wall");
    const Standing& here = standing(on.floor);
    Wall out;
    out.name = in_full(on.floor, name);
    out.at = place_(path);
    out.anchor = here.anchor.chosen;
    out.anchor_spacing = here.anchor_spacing;
    out.anchor_each_joist = here.each_joist;
    out.plate_width = here.plate;
    out.fixing_in = here.hold_down_in;
    out.top_tie = here.top_tie;
    out.stud_tie = here.stud_tie;
    out.plate_fixing = here.plate_fixing;
    out.floor = on.floor;
    out.key = name;
    anchor_fits(here.anchor, on.floor, out.name);
    out.side = Side::front;
    const auto side = std::find_if(outside_.begin(), outside_.end(),
                                   [&](const OutsideWall& o) { return o.name == name && o.stands_on(on.floor); });
    out.outside = side != outside_.end();
    const raw::Wall& place = place_keys(w, name, out.outside);
    const bool own_place = &place == &w;
    const Maybe<std::string> in = block_in(w, place, out);
    bool placed = stands_in_a_block(w, in, out, path);
    const Axes axes = axes_of(in);
    if (out.outside) {
      out.side = side->side;
      out.runs = along(side->side);
      if ((w.from_left || w.from_front || w.between) && (names_good_ || !several()))
        slip_on_key(under(path, w.from_left    ? "from_left"
                                : w.from_front ? "from_front"
                                               : "between"),
                    "wrong-key", fmt::format("wall {} is {}: its place is known", out.name, side->of));
      out.line = side->line;
      placed = side->placed;
    } else {
      if (w.from_left && w.from_front)
        slip_on_key(under(path, "from_front"), "two-ways",
                    "an inside wall stands `from_left` or `from_front`, not both");
      placed = placed && place.from_left.has_value() != place.from_front.has_value();
      if (own_place && !floor_named(repeated(w)) && !w.from_left && !w.from_front &&
          !unread(under(path, "from_left")) && !unread(under(path, "from_front")) && names_good_ && !unread(path) &&
          all_named_)
        slip_on_key(path, "wall-without-place",
                    fmt::format("wall {} is not one of {}, and nothing says where it stands", out.name,
                                several() ? "the blocks' outside walls" : "the block's four walls"),
                    "from_left = ... for a wall that runs up the sheet, from_front = ... for one that runs across");
      out.runs = place.from_front ? Along::across : Along::up;
      out.line = place.from_front ? *place.from_front : place.from_left.value_or(zero<Length>());
      const Length room = place.from_front ? axes.up : axes.across;
      if (placed && axes.known && (out.line < zero<Length>() || out.line > room + same_place)) {
        if (own_place)
          slip(under(path, w.from_front ? "from_front" : "from_left"), "wall-off-the-block",
               fmt::format("wall {} stands at {}, but the block is {} {}", out.name, drawn(out.line), drawn(room),
                           w.from_front ? "up the sheet" : "across"));
        placed = false;
      }
    }
    out.from = out.outside ? side->from : zero<Length>();
    out.to = out.outside ? side->to : out.runs == Along::across ? axes.across : axes.up;
    if (place.between && !out.outside && placed && axes.known) {
      const Maybe<Length> a = (*place.between)[0], b = (*place.between)[1];
      if (!a || !b) placed = false;
      else if (*a < zero<Length>() || *b > out.to + same_place || *a >= *b) {
        if (own_place)
          slip(under(path, "between"), "wall-off-the-block",
               fmt::format("wall {} reaches from {} to {}, but the block from 0 to {}", out.name, drawn(*a), drawn(*b),
                           drawn(out.to)));
        placed = false;
      } else {
        out.from = *a;
        out.to = *b;
      }
    }
    const Source from = source(on, name, w);
    if (from.keys == nullptr) return;
    const std::string_view start = out.runs == Along::across ? "left" : "front",
                           end = out.runs == Along::across ? "right" : "back";
    const std::string_view words[]{start, end};
    if (w.from && !is_word(w.from, under(path, "from"), words, "unknown-word", "an end of this wall")) return;
    const std::string by = under(path, repeats_by(w));
    if (several() && placed && placed_) {
      if (out.outside) {
        out.steps = side->steps;
      } else {
        const bool across = out.runs == Along::across;
        out.line += across ? axes.front : axes.left;
        out.from += across ? axes.left : axes.front;
        out.to += across ? axes.left : axes.front;
      }
      out.blocks = blocks_of(house_, out);
    }
    pieces(out, from, from.keys == &w, by, placed && axes.known);
    if (from.frames != nullptr && !out.pieces.empty()) {
      FramesSettled made = settle_frames(*from.frames->frames, job_.drawing, out, from.frames_turned);
      out.frames = std::move(made.frames);
      if (from.frames == &w)  // those of another wall are said there
        for (RunSlip& s : made.slips)
          slip_in(under(path, "frames"), s.at, s.size, std::move(s.code), std::move(s.message), std::move(s.help));
      for (const Length& step : out.steps)
        for (const ShopFrame& f : out.frames)
          if (step > f.from + same_place && step < f.to - same_place)
            slip(from.frames == &w ? under(path, "frames") : by, "frame-across-a-step",
                 fmt::format("wall {}: a frame from {} to {} would stand across the step of the floor at {}", out.name,
                             drawn(f.from), drawn(f.to), drawn(step)),
                 "a joint of frames at the step");
    }
    house_.walls.push_back(std::move(out));
  }
  // Where an inside wall stands: a wall that is the same as the other floor's stands where that one does, unless it
  // says otherwise.
  const raw::Wall& place_keys(const raw::Wall& w, const std::string& name, bool outside) const {
    const std::optional<Floor> other = floor_named(repeated(w));
    if (outside || !other || w.from_left || w.from_front || w.between) return w;
    const Storey* there = storey(*other);
    if (there == nullptr) return w;
    const auto found = there->walls->find(name);
    return found == there->walls->end() ? w : found->second;
  }
  // The block in whose axes an inside wall is placed: its own word; that of the other floor's wall where it stands as
  // that one does; above the ground floor there is the main block alone.
  Maybe<std::string> block_in(const raw::Wall& w, const raw::Wall& place, const Wall& out) const {
    if (out.outside || w.in || !several() || !two_floors()) return w.in;
    if (place.in) return place.in;
    return out.floor == Floor::first || &place != &w ? Maybe<std::string>(house_.block) : std::nullopt;
  }
  // Whether it is known where an inside wall stands, as far as its block goes.
  bool stands_in_a_block(const raw::Wall& w, const Maybe<std::string>& in, const Wall& out, const std::string& path) {
    std::vector<std::string_view> blocks{house_.block};
    for (const WingSettled& b : wings_) blocks.push_back(b.wing.name);
    if (w.in && std::find(blocks.begin(), blocks.end(), *w.in) == blocks.end()) {
      const std::string help = advice_or_list(*w.in, blocks, "blocks");
      slip(under(path, "in"), "unknown-block", fmt::format("no block `{}`", *w.in), help);
      return !several();
    }
    if (!several()) return true;
    if (out.outside && w.in && names_good_)
      slip_on_key(under(path, "in"), "wrong-key",
                  fmt::format("wall {} is an outside wall: its blocks are known", out.name));
    if (in && !out.outside && out.floor == Floor::first && *in != house_.block) {
      slip(under(path, w.in ? std::string_view("in") : repeats_by(w)), "wall-over-one-floor",
           fmt::format("wall {} would stand in block {}, which has one floor", out.name, *in),
           fmt::format("in = \"{}\": the first floor stands on that block alone", house_.block));
      return false;
    }
    if (out.outside || in) return true;
    if (unread(under(path, "in"))) return false;
    if (names_good_ && all_named_ && (w.from_left || w.from_front))
      missing(under(path, "in"), fmt::format("`in` is missing: the block in whose axes inside wall {} is placed, {}",
                                             out.name, listed(blocks)));
    return false;
  }

  // The run's pieces, with their lengths from the marks. `own`: the run is this wall's, so its slips are said here.
  // by: the path of the key that names another wall's.
  void pieces(Wall& out, const Source& from, bool own, const std::string& by, bool sized) {
    const std::string& run_path = from.run_path;
    Run run = read_run(*from.keys->run, job_.drawing);
    bool whole = run.slips.empty();
    if (own)
      for (RunSlip& s : run.slips)
        slip_in(run_path, s.at, s.size, std::move(s.code), std::move(s.message), std::move(s.help));
    std::vector<Measured> measured;
    for (const RunPiece& p : run.pieces) {
      const std::optional<Length> length = piece_length(p, own, run_path);
      if (!length) whole = false;
      else measured.push_back({p.mark, *length});
    }
    if (own || from.floor != out.floor || several()) openings_fit(out, run, own ? run_path : by, own);
    if (!whole || !sized) return;
    const std::string wrong =
        adds_up(measured, out.length(), job_.drawing == raw::Drawing::none ? raw::Drawing::mm : job_.drawing);
    if (!wrong.empty())
      return slip(own ? run_path : by, sum(measured) < out.length() ? "run-too-short" : "run-too-long",
                  fmt::format("wall {}: {}", out.name, wrong), running_positions(measured, job_.drawing));
    if (from.turned) std::reverse(measured.begin(), measured.end());
    const bool figure_last = !out.name.empty() && out.name.back() >= '0' && out.name.back() <= '9';
    Length at = zero<Length>();
    std::size_t count = 0;
    for (const Measured& m : measured) {
      Piece piece{at, at + m.length, {}, {}};
      if (&m == &measured.back()) piece.to = out.length();
      at = piece.to;
      if (!m.mark.empty()) {
        const MarkUse& use = marks_.at(m.mark);
        const Choices& c = choices_.at(m.mark);
        if (use.size) piece.opening = opening(out, m.mark, use, c);
        else piece.brace = brace(out, fmt::format("{}{}{}", out.name, figure_last ? "-" : "", ++count), use, c);
      }
      out.pieces.push_back(std::move(piece));
    }
    across_steps(out, own ? run_path : by);
  }
  // Where the floor steps two plates end, each with its own stud: nothing of one length stands over that place.
  void across_steps(const Wall& w, const std::string& path) {
    for (const Length& step : w.steps)
      for (const Piece& p : w.pieces) {
        if (!(p.brace || p.opening) || step <= p.from + same_place || step >= p.to - same_place) continue;
        const std::string what =
            p.brace ? fmt::format("brace {}", p.brace->name) : fmt::format("opening {}", p.opening->mark);
        slip(path, "piece-across-a-step",
             fmt::format("wall {}: {}, {} to {}, stands across the step of the floor at {}", w.name, what,
                         drawn(p.from), drawn(p.to), drawn(step)),
             p.brace ? "two braces, one on each side of the step" : "an opening on one side of it");
      }
  }
  std::optional<Length> piece_length(const RunPiece& p, bool own, const std::string& run_path) {
    if (p.mark.empty()) return p.length;
    const auto say = [&](std::size_t at, std::size_t size, std::string code, std::string message,
                         std::string help = {}) {
      if (own) slip_in(run_path, at, size, std::move(code), std::move(message), std::move(help));
    };
    const auto found = marks_.find(p.mark);
    if (found == marks_.end()) {
      if (known_bad_mark(p.mark)) return std::nullopt;
      std::vector<std::string> words;
      if (slips.size() < most_advice)
        for (const auto& [name, m] : marks_) words.push_back(name);
      const std::string help = advice_or_list(p.mark, words, "marks");
      say(p.at, p.mark.size(), "unknown-mark", fmt::format("no mark `{}` under [mark] or [unless_noted]", p.mark),
          help);
      return std::nullopt;
    }
    const MarkUse& use = found->second;
    if (use.mark->size) {
      if (!use.size) return std::nullopt;
      if (p.length && !near(*p.length, use.size->width)) {
        say(p.length_at, p.length_size, "wrong-width",
            fmt::format("`{}` is {} wide by its size, not {}", p.mark, drawn(use.size->width), drawn(*p.length)),
            "an opening's mark needs no length here");
        return std::nullopt;
      }
      return use.size->width;
    }
    const RatedBrace* rated =
        fixings_ != nullptr && use.mark->brace ? find(fixings_->rated, *use.mark->brace) : nullptr;
    if (rated != nullptr && rated->length > zero<Length>()) {
      if (p.length && !near(*p.length, rated->length)) {
        say(p.length_at, p.length_size, "wrong-width",
            fmt::format("`{}` is a unit {} long, not {}", *use.mark->brace, drawn(rated->length), drawn(*p.length)));
        return std::nullopt;
      }
      return rated->length;
    }
    if (!p.length && p.length_size == 0)
      say(p.at, p.size, "brace-without-length", fmt::format("`{}` is a brace: how long is it here?", p.mark),
          fmt::format("a mark with a length, such as `{} {}`", p.mark, drawn(1.2 * metre)));
    return p.length;
  }
  // Defined, but so that it could not be read: that is said already.
  bool known_bad_mark(const std::string& name) const {
    return job_.marks.contains(name) || job_.unless_noted.marks.contains(name) || unread(under("mark", name)) ||
           unread(under("unless_noted", name));
  }

  // Of two floors one may be too low for an opening; what fits neither is said at its mark.
  void openings_fit(const Wall& out, const Run& run, const std::string& path, bool own) {
    const Maybe<Length> highest = highest_frame();
    const Maybe<Length> frame = several() && placed_ ? Maybe<Length>(height_of(house_, out)) : frame_height(out.floor);
    if (!(two_floors() || (several() && placed_)) || !frame || !highest) return;
    std::set<std::string> said;
    for (const RunPiece& p : run.pieces) {
      const auto found = marks_.find(p.mark);
      if (p.mark.empty() || found == marks_.end() || !found->second.size) continue;
      const Length height = found->second.size->height;
      if (height <= *frame || height > *highest || (!own && !said.insert(p.mark).second)) continue;
      slip_in(path, own ? p.at : 0, own ? p.size : 0, "opening-too-high",
              several() ? fmt::format("wall {}: `{}` is {} high, the frame there {}", out.name, p.mark, drawn(height),
                                      drawn(*frame))
                        : fmt::format("wall {}: `{}` is {} high, the {} floor's frame {}", out.name, p.mark,
                                      drawn(height), words(out.floor), drawn(*frame)));
    }
  }

  struct Choices {
    Pick jamb, hold_down;
    Chosen brace, end_studs;
  };
  // The mark's own, or what holds on the floor.
  const Pick& chosen_for(const Wall& w, const Pick& own, const Pick& here) {
    const Pick& p = own.chosen.given() ? own : here;
    anchor_fits(p, w.floor, w.name);
    return p;
  }
  Opening opening(const Wall& w, const std::string& name, const MarkUse& use, const Choices& c) {
    const raw::Mark& m = *use.mark;
    return {name,
            use.size->height,
            use.size->width,
            m.door.value_or(looks_like_a_door(*use.size)),
            m.open.value_or(false),
            m.wind_rated,
            chosen_for(w, c.jamb, standing(w.floor).jamb).chosen,
            m.impact_rated.value_or(false)};
  }
  Brace brace(const Wall& w, std::string name, const MarkUse& use, const Choices& c) {
    const Standing& here = standing(w.floor);
    std::optional<Side> foot;
    if (use.mark->foot) foot = *use.mark->foot == "left" ? Side::left : Side::right;
    return {std::move(name),
            c.brace,
            chosen_for(w, c.hold_down, here.hold_down).chosen,
            here.hold_down_in,
            here.plate_anchors_share,
            foot,
            c.end_studs.given() ? c.end_studs : here.end_studs,
            use.mark->round_openings.value_or(false)};
  }
  // When nothing is said of it.
  bool looks_like_a_door(const OpeningSize& s) const {
    return s.height >= unsaid_.door_height || (s.width >= unsaid_.wide_door && s.height >= unsaid_.wide_door_height);
  }
  // A house with a hole in it is not airtight.
  void sealed_and_open() {
    const auto sealed = [](const NamedSite& s) {
      const auto* site = std::get_if<AsNzsSite>(&s.site);
      return site != nullptr && site->sealed;
    };
    if (std::none_of(house_.sites.begin(), house_.sites.end(), sealed)) return;
    for (const Wall& w : house_.walls)
      for (const Piece& p : w.pieces)
        if (w.outside && p.opening && p.opening->stands_open)
          return slip_on_key(marks_.at(p.opening->mark).path, "sealed-and-open",
                             fmt::format("`{}` stands open in wall {}, and [site] says that the house is sealed",
                                         p.opening->mark, w.name),
                             "leave out `sealed`, or `open`");
  }
  void hold_downs_said() {
    const raw::UnlessNoted& u = job_.unless_noted;
    if (u.every.hold_down_in || unread("unless_noted.hold_down_in")) return;
    const auto says = [](const Maybe<raw::OfFloor>& f) { return f && f->hold_down_in; };
    if (says(u.ground) && says(u.first)) return;
    const std::string_view where = says(u.ground) ? " on the first floor" : says(u.first) ? " on the ground floor" : "";
    remark(fmt::format("hold-downs{} stand {} in from a brace's end: nothing else is said (hold_down_in)", where,
                       size_text(unsaid_.hold_down_in, metric)));
  }
  void openings_said() {
    hold_downs_said();
    std::set<std::string> used;
    for (const Wall& w : house_.walls)
      for (const Piece& p : w.pieces) {
        if (!p.opening) continue;
        used.insert(p.opening->mark);
      }
    for (const auto& [name, use] : marks_) {
      if (!use.size) continue;
      const bool door = use.mark->door.value_or(looks_like_a_door(*use.size));
      if (!used.contains(name) && slips.empty())
        remark(fmt::format("opening {} is listed, but stands in no wall", name));
      if (used.contains(name) && !door && looks_like_a_door(*use.size))
        remark(fmt::format("opening {} has a door's size and is taken as a window, as the job says", name));
      if (used.contains(name) && door && use.size->width >= unsaid_.wide_door &&
          (!use.mark->wind_rated || *use.mark->wind_rated == "not known"))
        remark(fmt::format(
            "door {} counts as open: {}", name,
            use.mark->wind_rated ? "its wind rating is not known" : "no wind rating is given (wind_rated)"));
    }
  }

  const raw::Job& job_;
  const Fixings* fixings_;
  const std::function<std::string(std::string_view)>& place_;
  const Defaults& unsaid_;
  const Sites& known_;
  std::vector<Named> named_;
  std::set<const Named*> used_;  // asked of, never walked: its order reaches nothing
  House house_{};
  const raw::Block* block_ = nullptr;
  MainBlock main_{};  // of the job's blocks
  std::string at_;    // its path
  bool sized_ = false;
  RoofSettled roof_;
  std::vector<std::size_t> row_of_;  // of each truss: the row of the block's trusses that it stands in
  bool names_good_ = true;           // the outside walls are known: what else stands is inside
  std::vector<OutsideWall> outside_;
  bool all_named_ = false, placed_ = false;  // placed: it is known where all blocks stand
  std::vector<WingSettled> wings_;
  std::map<std::string, MarkUse> marks_;
  std::map<std::string, Choices> choices_;
  std::vector<Storey> storeys_;
  std::array<Standing, 2> standing_{};                      // of each floor
  std::set<std::pair<std::string, Floor>> wrong_on_floor_;  // anchors of which that was said
  std::optional<Basis> basis_;
  std::string method_words_;
};

}  // namespace

Settled settle(const raw::Job& job, const Fixings* fixings, const std::function<std::string(std::string_view)>& place,
               const Defaults& unsaid, const Sites& known) {
  return Settling(job, fixings, place, unsaid, known).run();
}

std::span<const std::string_view> kinds_by_others() { return by_others_words; }

}  // namespace belay
