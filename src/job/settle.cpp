#include "job/settle.hpp"
#include "job/nearest.hpp"
#include "job/path.hpp"
#include "job/roof_settle.hpp"
#include "job/run.hpp"
#include "job/site.hpp"
#include "job/slips.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <set>

namespace belay {
namespace {

using raw::Maybe;

// Limits of the reader, not of the building: what is beyond them is a slip of the pen or no job.
constexpr std::size_t most_walls = 200;
constexpr std::string_view by_others_words[]{"roof plane", "top tie",     "stud tie",    "plate",
                                             "ground",     "compression", "line spacing"};

// The sorts of fixing, as the tables of a fixings file are called.
enum class Sort : unsigned char { bracket, tie, plate, anchor, strap, sheet, rated, lining };
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
                           {Sort::lining, "lining", "a lining brace"}};
constexpr Sort brace_sorts[]{Sort::strap, Sort::sheet, Sort::rated, Sort::lining};

// One entry of the fixings file under its name.
struct Named {
  Sort sort;
  const Terms* terms;
  std::string path;
};

class Settling : private Slips {
 public:
  Settling(const raw::Job& job, const Fixings* fixings, const std::function<std::string(std::string_view)>& place,
           const Defaults& unsaid, const Sites& known)
      : Slips(job.unread),
        job_(job),
        fixings_(fixings),
        place_(place),
        unsaid_(unsaid),
        known_(known),
        anchor_spacing_(unsaid.anchor_spacing) {
    if (fixings != nullptr) list_fixings();
  }

  Settled run() {
    head();
    site();
    block();
    if (block_ != nullptr) {
      marks();
      defaults();
      trusses();
      roof_braces();
      walls();
      inside_bearings();
      openings_said();
      sealed_and_open();
    }
    basis();
    Settled out;
    if (slips.empty() && fixings_ != nullptr && block_ != nullptr && job_.unread.empty()) {
      house_.fixings = *fixings_;
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
      if (!entries[i].terms.name.empty()) named_.push_back({sort, &entries[i].terms, under(table, i)});
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
      } else if (who) {
        house_.by_others.push_back({what, *who});
      }
    }
    for (const auto& [figure, who] : job_.checked)
      if (who) house_.checked.push_back({figure, *who});
    house_.slab = {job_.slab.thickness, job_.slab.concrete, job_.slab.cracked,
                   job_.slab.beyond.value_or(zero<Length>())};
    if (!job_.slab.beyond)
      remark("the frame stands flush with the slab's edge: nothing is said of it under [slab] (beyond)");
    house_.frame = {job_.frame.steel, job_.frame.joint_group};
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
    if (job_.blocks.size() > 1) {
      slip_on_key(under("block", std::next(job_.blocks.begin())->first), "not-yet",
                  "only one block can be worked out yet");
    } else if (job_.blocks.empty() && !unread("block")) {
      slip("block", "missing-key", "no block: the building's plan, height and roof", "a table such as [block.main]");
    }
    if (job_.blocks.size() != 1) return;
    const auto& [name, b] = *job_.blocks.begin();
    block_ = &b;
    at_ = under("block", name);
    house_.block = name;
    if (b.size) {
      house_.across = (*b.size)[0].value_or(zero<Length>());
      house_.up = (*b.size)[1].value_or(zero<Length>());
      sized_ = (*b.size)[0] && (*b.size)[1];
    }
    house_.floor_level = b.floor_level.value_or(zero<Length>());
    house_.height = b.height.value_or(zero<Length>());
    house_.wall_weight = b.wall_weight.value_or(zero<Pressure>());
    if (!b.wall_weight && !unread(under(at_, "wall_weight")))
      remark("no wall weight is given: none is counted against lifting or tipping");
    if (!b.roof) return;
    roof_ = settle_roof(roof_ask());
    take(roof_);
    house_.roof = roof_.roof;
  }
  RoofAsk roof_ask() const { return {job_, *block_, at_, sized_, house_.across, house_.up}; }
  // What another part of the settling has to say.
  template <class Part> void take(Part& part) {
    slips.insert(slips.end(), std::make_move_iterator(part.slips.begin()), std::make_move_iterator(part.slips.end()));
    for (std::string& r : part.remarks) remark(std::move(r));
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
      else if (block_->height && use.size->height > *block_->height)
        slip(under(path, "size"), "opening-too-high",
             fmt::format("`{}` is {} high, the frame {}", name, drawn(use.size->height), drawn(*block_->height)),
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
    c.jamb = choose(m.jamb, under(path, "jamb"), by, Sort::anchor, "anchor");
    c.brace = choose(m.brace, under(path, "brace"), by, brace_sorts, "brace");
    c.hold_down = choose(m.hold_down, under(path, "hold_down"), by, Sort::anchor, "anchor");
    if (m.brace && fixings_ != nullptr) {
      const StrapBrace* strap = find(fixings_->straps, *m.brace);
      const bool single = strap != nullptr && !strap->pair;
      if (single && !m.foot)
        missing(under(path, "foot"),
                fmt::format("`foot` is missing: at which end of `{}` its single strap stands, \"left\" or \"right\"",
                            name));
      if (m.foot && !single) foreign(true, "foot", "a brace with a single strap");
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
    const auto at = [](std::string_view key) { return under("unless_noted", key); };
    jamb_ = choose(u.jamb, at("jamb"), "unless noted", Sort::anchor, "anchor");
    hold_down_ = choose(u.hold_down, at("hold_down"), "unless noted", Sort::anchor, "anchor");
    top_tie_ = choose(u.top_tie, at("top_tie"), "unless noted", Sort::tie, "tie");
    stud_tie_ = choose(u.stud_tie, at("stud_tie"), "unless noted", Sort::tie, "tie");
    plate_fixing_ = choose(u.plate_fixing, at("plate_fixing"), "unless noted", Sort::plate, "plate fixing");
    if (u.anchor) {
      anchor_ = choose(u.anchor->use, under(at("anchor"), "use"), "unless noted", Sort::anchor, "anchor");
      if (u.anchor->max) anchor_spacing_ = *u.anchor->max;
    } else if (!unread(at("anchor"))) {
      remark(
          fmt::format("no plate anchor is given under [unless_noted] (anchor): stations at {} are shown, common "
                      "practice, no source",
                      size_text(unsaid_.anchor_spacing, metric)));
    }
  }

  // --- trusses -------------------------------------------------------------------------------------------------------
  // Where hips end is known once all of the roof is.
  void trusses() {
    if (!block_->trusses || !sized_ || !roof_.ridge_known) return;
    if (roof_.roof.shape == RoofShape::hip && !roof_.good) return;
    TrussesSettled settled =
        settle_trusses(roof_ask(), roof_, [this](const Maybe<std::string>& name, const std::string& path) {
          return choose(name, path, "unless noted", Sort::bracket, "bracket");
        });
    take(settled);
    house_.trusses = std::move(settled.trusses);
    house_.hip_ends = std::move(settled.hip_ends);
    row_of_ = std::move(settled.row_of);
  }
  void roof_braces() {
    RoofBracesSettled settled =
        settle_roof_braces(roof_ask(), roof_, [this](const Maybe<std::string>& name, const std::string& path) {
          return choose(name, path, "roof braces", Sort::strap, "strap");
        });
    take(settled);
    house_.roof_braces = std::move(settled.braces);
  }
  void inside_bearings() {
    if (!block_->trusses || !sized_ || !roof_.ridge_known || !names_good_) return;
    const std::vector<Slip> wrong = slips_of_inside_bearings(roof_ask(), house_, row_of_);
    slips.insert(slips.end(), wrong.begin(), wrong.end());
  }

  // --- walls ---------------------------------------------------------------------------------------------------------
  struct Outside {
    Side side;
    Along runs;
    Maybe<std::string> name;
    std::string_view key;
  };
  std::array<Outside, 4> outside() const {
    const raw::WallNames n = block_->walls.value_or(raw::WallNames());
    return {{{Side::front, Along::across, n.front, "front"},
             {Side::right, Along::up, n.right, "right"},
             {Side::back, Along::across, n.back, "back"},
             {Side::left, Along::up, n.left, "left"}}};
  }
  // The wall whose run this one has: itself, or the end of its chain of `same_as`. Null: a slip was said.
  const raw::Wall* source(const std::string& name, const raw::Wall& wall, std::string& run_path,
                          const raw::Wall*& turned_by) {
    const raw::Wall* w = &wall;
    std::string at = name;
    std::set<std::string> seen;
    turned_by = w->from ? w : nullptr;
    for (;;) {
      const std::string path = under("wall", at);
      if (w->run) {
        if (w->same_as) {
          slip_on_key(under(path, "same_as"), "two-ways", "a wall has a `run` or is `same_as` another, not both");
          return nullptr;
        }
        run_path = under(path, "run");
        return w;
      }
      if (!w->same_as) {
        if (w == &wall)
          missing(under(path, "run"),
                  fmt::format("`run` is missing: the pieces of wall {} from one end to the other", at));
        return nullptr;
      }
      if (!seen.insert(at).second) {
        slip(under(under("wall", name), "same_as"), "same-as-itself",
             fmt::format("wall {} comes back to itself by `same_as`", name));
        return nullptr;
      }
      const auto next = job_.walls.find(*w->same_as);
      if (next == job_.walls.end()) {
        if (w == &wall) unknown_wall(under(path, "same_as"), *w->same_as);
        return nullptr;
      }
      at = next->first;
      w = &next->second;
      if (turned_by == nullptr && w->from) turned_by = w;
    }
  }
  void unknown_wall(const std::string& path, const std::string& name) {
    if (unread(under("wall", name))) return;  // it is there, and what is wrong with it has been said
    std::vector<std::string> names;
    for (const auto& [n, w] : job_.walls) names.push_back(n);
    const std::string help = advice_or_list(name, names, "walls");
    slip(path, "unknown-wall", fmt::format("no wall `{}` under [wall]", name), help);
  }

  void walls() {
    if (job_.walls.size() > most_walls)
      return slip("wall", "too-many-walls", fmt::format("more than {} walls", most_walls));
    const auto sides = outside();
    const std::string names = under(at_, "walls");
    for (std::size_t i = 0; i < sides.size(); ++i) {
      if (!sides[i].name) continue;
      for (std::size_t k = 0; k < i; ++k)
        if (sides[k].name == sides[i].name) {
          names_good_ = false;
          slip(under(names, sides[i].key), "wall-twice",
               fmt::format("wall `{}` stands at the {} and at the {}", *sides[i].name, sides[k].key, sides[i].key));
        }
      if (!job_.walls.contains(*sides[i].name) && !unread(under("wall", *sides[i].name)) && !unread_itself("wall")) {
        names_good_ = false;
        unknown_wall(under(names, sides[i].key), *sides[i].name);
      }
    }
    const std::size_t slipsbefore = slips.size();
    for (const auto& [name, w] : job_.walls) wall(name, w, sides);
    if (slips.size() != slipsbefore || !sized_ || !names_good_) return;
    // A wall that stands where another does would be counted twice.
    for (std::size_t i = 0; i < house_.walls.size(); ++i)
      for (std::size_t k = 0; k < i; ++k) {
        const Wall &a = house_.walls[k], &b = house_.walls[i];
        const bool one_line = a.runs == b.runs && near(a.line, b.line);
        if (one_line && std::min(a.to, b.to) - std::max(a.from, b.from) > same_place)
          slip_on_key(under("wall", b.name), "walls-in-one-place",
                      fmt::format("wall {} stands where wall {} stands", b.name, a.name), "one run for one wall");
      }
  }

  void wall(const std::string& name, const raw::Wall& w, const std::array<Outside, 4>& sides) {
    const std::string path = under("wall", name);
    if (!good_name(name))
      return slip_on_key(path, "bad-name", fmt::format("`{}` cannot be a wall's name", name), std::string(name_help));
    Wall out;
    out.name = name;
    out.at = place_(path);
    out.anchor = anchor_;
    out.anchor_spacing = anchor_spacing_;
    out.plate_width = job_.unless_noted.plate.value_or(zero<Length>());
    out.fixing_in = job_.unless_noted.hold_down_in.value_or(unsaid_.hold_down_in);
    out.top_tie = top_tie_;
    out.stud_tie = stud_tie_;
    out.plate_fixing = plate_fixing_;
    out.key = name;
    out.side = Side::front;
    const auto side = std::find_if(sides.begin(), sides.end(), [&](const Outside& o) { return o.name == name; });
    out.outside = side != sides.end();
    if (w.in && *w.in != house_.block) {
      const std::string_view only[]{house_.block};
      const std::string help = advice_or_list(*w.in, only, "blocks");
      slip(under(path, "in"), "unknown-block", fmt::format("no block `{}`", *w.in), help);
    }
    bool placed = true;
    if (out.outside) {
      out.side = side->side;
      out.runs = side->runs;
      if (w.from_left || w.from_front || w.between)
        slip_on_key(
            under(path, w.from_left    ? "from_left"
                        : w.from_front ? "from_front"
                                       : "between"),
            "wrong-key",
            fmt::format("wall {} is the {} wall of block {}: its place is known", name, side->key, house_.block));
      out.line = side->side == Side::back ? house_.up : side->side == Side::right ? house_.across : zero<Length>();
    } else {
      if (w.from_left && w.from_front)
        slip_on_key(under(path, "from_front"), "two-ways",
                    "an inside wall stands `from_left` or `from_front`, not both");
      placed = w.from_left.has_value() != w.from_front.has_value();
      if (!w.from_left && !w.from_front && !unread(under(path, "from_left")) && !unread(under(path, "from_front")) &&
          names_good_ && !unread(path) && all_named(sides))
        slip_on_key(path, "wall-without-place",
                    fmt::format("wall {} is not one of the block's four walls, and nothing says where it stands", name),
                    "from_left = ... for a wall that runs up the sheet, from_front = ... for one that runs across");
      out.runs = w.from_front ? Along::across : Along::up;
      out.line = w.from_front ? *w.from_front : w.from_left.value_or(zero<Length>());
      const Length room = w.from_front ? house_.up : house_.across;
      if (placed && sized_ && (out.line < zero<Length>() || out.line > room + same_place)) {
        slip(under(path, w.from_front ? "from_front" : "from_left"), "wall-off-the-block",
             fmt::format("wall {} stands at {}, but the block is {} {}", name, drawn(out.line), drawn(room),
                         w.from_front ? "up the sheet" : "across"));
        placed = false;
      }
    }
    out.from = zero<Length>();
    out.to = out.runs == Along::across ? house_.across : house_.up;
    if (w.between && !out.outside && placed && sized_) {
      const Maybe<Length> a = (*w.between)[0], b = (*w.between)[1];
      if (!a || !b) placed = false;
      else if (*a < zero<Length>() || *b > out.to + same_place || *a >= *b) {
        slip(under(path, "between"), "wall-off-the-block",
             fmt::format("wall {} reaches from {} to {}, but the block from 0 to {}", name, drawn(*a), drawn(*b),
                         drawn(out.to)));
        placed = false;
      } else {
        out.from = *a;
        out.to = *b;
      }
    }
    std::string run_path;
    const raw::Wall* turned_by = nullptr;
    const raw::Wall* from = source(name, w, run_path, turned_by);
    if (from == nullptr) return;
    bool turned = false;
    if (turned_by != nullptr) {
      const std::string_view start = out.runs == Along::across ? "left" : "front",
                             end = out.runs == Along::across ? "right" : "back";
      const std::string_view words[]{start, end};
      if (turned_by == &w && !is_word(w.from, under(path, "from"), words, "unknown-word", "an end of this wall"))
        return;
      turned = *turned_by->from == "right" || *turned_by->from == "back";
    }
    pieces(out, *from->run, run_path, from == &w, path, turned, placed && sized_);
    house_.walls.push_back(std::move(out));
  }
  static bool all_named(const std::array<Outside, 4>& sides) {
    return std::all_of(sides.begin(), sides.end(), [](const Outside& o) { return o.name.has_value(); });
  }

  // The run's pieces, with their lengths from the marks. `own`: the run is this wall's, so its slips are said here.
  void pieces(Wall& out, const std::string& text, const std::string& run_path, bool own, const std::string& path,
              bool turned, bool sized) {
    Run run = read_run(text, job_.drawing);
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
    if (!whole || !sized) return;
    const std::string wrong =
        adds_up(measured, out.length(), job_.drawing == raw::Drawing::none ? raw::Drawing::mm : job_.drawing);
    if (!wrong.empty())
      return slip(own ? run_path : under(path, "same_as"),
                  sum(measured) < out.length() ? "run-too-short" : "run-too-long",
                  fmt::format("wall {}: {}", out.name, wrong), running_positions(measured, job_.drawing));
    if (turned) std::reverse(measured.begin(), measured.end());
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
        if (use.size) piece.opening = opening(m.mark, use, c);
        else piece.brace = brace(fmt::format("{}{}{}", out.name, figure_last ? "-" : "", ++count), use, c);
      }
      out.pieces.push_back(std::move(piece));
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

  struct Choices {
    Chosen jamb, brace, hold_down;
  };
  Opening opening(const std::string& name, const MarkUse& use, const Choices& c) const {
    const raw::Mark& m = *use.mark;
    return {name,
            use.size->height,
            use.size->width,
            m.door.value_or(looks_like_a_door(*use.size)),
            m.open.value_or(false),
            m.wind_rated,
            c.jamb.given() ? c.jamb : jamb_,
            m.impact_rated.value_or(false)};
  }
  Brace brace(std::string name, const MarkUse& use, const Choices& c) const {
    const raw::UnlessNoted& u = job_.unless_noted;
    std::optional<Side> foot;
    if (use.mark->foot) foot = *use.mark->foot == "left" ? Side::left : Side::right;
    return {std::move(name),
            c.brace,
            c.hold_down.given() ? c.hold_down : hold_down_,
            u.hold_down_in.value_or(unsaid_.hold_down_in),
            u.plate_anchors_share.value_or(false),
            foot};
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
  void openings_said() {
    if (!job_.unless_noted.hold_down_in && !unread("unless_noted.hold_down_in"))
      remark(fmt::format("hold-downs stand {} in from a brace's end: nothing else is said (hold_down_in)",
                         size_text(unsaid_.hold_down_in, metric)));
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
  std::string at_;  // the block's path
  bool sized_ = false;
  RoofSettled roof_;
  std::vector<std::size_t> row_of_;  // of each truss: the row of the block's trusses that it stands in
  bool names_good_ = true;           // the four outside walls are known: what else stands is inside
  std::map<std::string, MarkUse> marks_;
  std::map<std::string, Choices> choices_;
  Chosen jamb_, hold_down_, anchor_, top_tie_, stud_tie_, plate_fixing_;
  Length anchor_spacing_;
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
