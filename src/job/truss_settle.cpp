#include "job/mirrored.hpp"
#include "job/path.hpp"
#include "job/roof_settle.hpp"
#include "job/run.hpp"
#include "job/slips.hpp"
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

namespace belay {
namespace {

using raw::Maybe;

// A limit of the reader: what is beyond it is a slip of the pen or no job.
constexpr std::size_t most_trusses = 1000;
// As wide as trusses are believed to stand apart: beyond it one has been forgotten.
constexpr Length widest_gap = 3.0 * metre;

// How far trusses are believed to stick out past a bearing that is set back, of the span next to it: common practice,
// no source.
constexpr double longest_cantilever = 1.0 / 3.0;

// What a row of [block.NAME] `trusses` is for.
enum class RowFor : unsigned char { trusses, girder, jacks, rafters, valley };
constexpr RowFor of_hip_ends[]{RowFor::girder, RowFor::jacks, RowFor::rafters};
std::string_view key_of(RowFor f) {
  switch (f) {
    case RowFor::trusses: return "max";
    case RowFor::girder: return "hip_girder";
    case RowFor::jacks: return "jacks";
    case RowFor::rafters: return "hip_rafters";
    case RowFor::valley: return "valley";
  }
  return "max";
}
std::string_view words(RowFor f) {
  switch (f) {
    case RowFor::trusses: return "trusses";
    case RowFor::girder: return "hip girder";
    case RowFor::jacks: return "jacks";
    case RowFor::rafters: return "hip rafters";
    case RowFor::valley: return "valley trusses";
  }
  return "trusses";
}
std::string_view an_example(RowFor f) {
  switch (f) {
    case RowFor::girder:
      return "a row such as { mark = \"TG1\", hip_girder = 2400 }: how far it stands from the end's wall";
    case RowFor::jacks: return "a row such as { mark = \"J1\", jacks = 900 }: the greatest space between jacks";
    default: return "a row such as { mark = \"H1\", hip_rafters = true }";
  }
}

struct Row {
  std::size_t number;
  const raw::TrussRow* keys;
  std::string path;
  RowFor what;
};
// Of a hip end: the rows that fit it, and where its girder stands.
struct End {
  Side side;
  const Row *girder = nullptr, *jacks = nullptr, *rafters = nullptr;
  std::optional<Length> at = std::nullopt;
};

class TrussSettling : private Slips {
 public:
  TrussSettling(const RoofAsk& ask, const RoofSettled& roof, const ChooseBracket& choose)
      : Slips(ask.job.unread), ask_(ask), roof_(roof.roof), choose_(choose), path_(under(ask.path, "trusses")) {
    const bool across = roof_.ridge == Along::across;
    length_ = across ? ask.across : ask.up;
    span_ = across ? ask.up : ask.across;
    for (const auto& [name, block] : ask.job.blocks)
      if (&block != &ask.block && block.trusses)
        for (const raw::TrussRow& row : *block.trusses)
          if (row.mark) {
            elsewhere_.insert(*row.mark);
            onto_elsewhere_ = onto_elsewhere_ || row.jacks || row.hip_rafters || row.valley;
          }
    for (const Side side : {ends_of(roof_.ridge).low, ends_of(roof_.ridge).high})
      if (roof_.shape == RoofShape::hip && roof_.hipped[static_cast<std::size_t>(side)]) ends_.push_back({side});
  }

  TrussesSettled run() {
    if (ask_.block.trusses->empty()) slip(path_, "no-trusses", "no truss is listed");
    read_rows();
    hip_ends();
    for (const Row& row : rows_)
      if (row.what == RowFor::trusses) trusses(row);
    valley();
    together();
    out_.slips = std::move(slips);
    return std::move(out_);
  }

 private:
  struct Placed {
    Truss truss;
    std::size_t row;
  };

  void remark(std::string text) { out_.remarks.push_back(std::move(text)); }
  std::string drawn(Length l) const {
    return as_drawn(l, ask_.job.drawing == raw::Drawing::feet ? raw::Drawing::feet : raw::Drawing::mm);
  }
  // Remarks tell of the house as it is built.
  Side built(Side side) const {
    const auto m = mirror_of_job(ask_.job);
    return m ? mirrored(side, *m) : side;
  }
  bool built_turned() const {
    const auto m = mirror_of_job(ask_.job);
    return m && turns_places(roof_.ridge, *m);
  }
  Side low() const { return ends_of(roof_.ridge).low; }
  Side high() const { return ends_of(roof_.ridge).high; }
  const End* hip(Side side) const {
    const auto e = std::find_if(ends_.begin(), ends_.end(), [&](const End& x) { return x.side == side; });
    return e == ends_.end() ? nullptr : &*e;
  }
  // Between the girders; where none stands, to the end wall.
  Length from() const {
    const End* e = hip(low());
    return e != nullptr && e->at ? *e->at : zero<Length>();
  }
  Length to() const {
    const End* e = hip(high());
    return e != nullptr && e->at ? *e->at : length_;
  }

  // ---- rows
  void read_rows() {
    const std::vector<raw::TrussRow>& all = *ask_.block.trusses;
    whole_ = !all.empty() && !unread(path_);
    for (std::size_t i = 0; i < all.size(); ++i) {
      const raw::TrussRow& row = all[i];
      const std::string at = under(path_, i);
      whole_ = whole_ && row.mark && !unread(at);
      if (!row.mark || unread(at)) continue;
      if (!good_name(*row.mark)) {
        slip(under(at, "mark"), "bad-name", fmt::format("`{}` cannot be a truss's mark", *row.mark),
             std::string(name_help));
        whole_ = false;
        continue;
      }
      const bool of_hips = row.hip_girder || row.jacks || row.hip_rafters;
      const RowFor what = row.hip_girder    ? RowFor::girder
                          : row.jacks       ? RowFor::jacks
                          : row.hip_rafters ? RowFor::rafters
                          : row.valley      ? RowFor::valley
                                            : RowFor::trusses;
      if (what == RowFor::valley && !ask_.joint) {
        slip_on_key(under(at, "valley"), "wrong-key",
                    "`valley` belongs to a block that stands against another and whose roof lies on the other's",
                    "[block.NAME] with `place`");
        whole_ = false;
        continue;
      }
      if (of_hips && ends_.empty()) {
        slip_on_key(under(at, key_of(what)), "wrong-key",
                    fmt::format("`{}` belongs to a hip roof; this is a {} roof", key_of(what), words(roof_.shape)),
                    roof_.shape == RoofShape::gable ? "shape = \"hip\", where an end slopes" : "");
        whole_ = false;
        continue;
      }
      const bool fits = keys_fit(row, at, what);
      const auto [known, fresh] = marks_.emplace(*row.mark, what);
      if (!fresh && known->second != what)
        slip(under(at, "mark"), "mark-twice",
             fmt::format("`{}` is the mark of {} already", *row.mark, in_words(known->second)),
             fmt::format("a mark of their own for {}, as the layout has it", in_words(what)));
      if (fits) rows_.push_back({i, &row, at, what});
      else whole_ = false;
    }
  }
  static std::string in_words(RowFor f) { return f == RowFor::girder ? "a hip girder" : std::string(words(f)); }
  // Keys that a row of this kind has no use for. False: it cannot be told where the row belongs.
  bool keys_fit(const raw::TrussRow& row, const std::string& at, RowFor what) {
    bool good = true;
    const auto other = [&](bool written, RowFor f, std::string_view key) {
      if (!written || what == f) return;
      slip_on_key(under(at, key), "two-ways",
                  fmt::format("a row of {} has no `{}`: one row for each", words(what), key));
      good = false;
    };
    other(row.jacks.has_value(), RowFor::jacks, "jacks");
    other(row.hip_rafters.has_value(), RowFor::rafters, "hip_rafters");
    other(row.valley.has_value(), RowFor::valley, "valley");
    other(row.max.has_value(), RowFor::trusses, "max");
    other(row.at.has_value(), RowFor::trusses, "at");
    const bool from_wall_to_wall = what == RowFor::trusses || what == RowFor::girder;
    const auto foreign = [&](bool written, std::string_view key, std::string_view of) {
      if (written) slip_on_key(under(at, key), "wrong-key", fmt::format("`{}` belongs to {}", key, of));
    };
    if (what != RowFor::trusses) foreign(row.odd_space.has_value(), "odd_space", "`max`");
    if (!from_wall_to_wall) {
      foreign(row.plies.has_value(), "plies", "what spans from wall to wall");
      foreign(!row.also_on.empty(), "also_on", "what spans from wall to wall");
    }
    if (what != RowFor::trusses) foreign(row.clear_of.has_value(), "clear_of", "trusses: `max` or `at`");
    else if (row.clear_of) clear_of(row, at);
    for (std::size_t i = 1; i < row.also_on.size(); ++i)
      if (std::count(row.also_on.begin(), row.also_on.begin() + static_cast<std::ptrdiff_t>(i), row.also_on[i]) != 0)
        slip(under(under(at, "also_on"), i), "named-twice",
             fmt::format("`{}` stands here a second time", row.also_on[i]));
    if (row.hip_rafters && !*row.hip_rafters) {
      slip(under(at, "hip_rafters"), "wrong-key", "`hip_rafters` is true, or left out");
      good = false;
    }
    if (!row.end) return good;
    if (what == RowFor::trusses || what == RowFor::valley) {
      foreign(true, "end", "`hip_girder`, `jacks` and `hip_rafters`");
      return good;
    }
    std::vector<std::string_view> names;
    for (const End& e : ends_) names.push_back(words(e.side));
    return is_word(row.end, under(at, "end"), names, "unknown-word", "a hip end of this roof") && good;
  }

  // The ends of the trusses.
  Side near_end() const { return roof_.ridge == Along::across ? Side::front : Side::left; }
  Side far_end() const { return across_from(near_end()); }
  std::optional<Side> clear_side(const raw::TrussRow& row) const {
    const auto side = row.clear_of ? side_named(*row.clear_of) : std::nullopt;
    return side == near_end() || side == far_end() ? side : std::nullopt;
  }
  void clear_of(const raw::TrussRow& row, const std::string& at) {
    const std::string path = under(at, "clear_of");
    const std::string_view ends[]{words(near_end()), words(far_end())};
    is_word(row.clear_of, path, ends, "unknown-word", "an end of these trusses");
    if (ask_.block.floor || (ask_.block.height && ask_.block.height->by_floor))
      slip_on_key(path, "not-yet", "trusses that are clear of a wall in a house of two floors cannot be worked out yet",
                  "leave it out");
    else if (row.also_on.empty() && !unread(under(at, "also_on")))
      slip_on_key(path, "missing-key",
                  fmt::format("`also_on` is missing: trusses that bear on nothing at the {} bear on an inside wall set "
                              "back from it",
                              *row.clear_of),
                  "also_on = [\"E\"]");
  }

  // ---- hip ends
  const Row* End::*member_of(RowFor f) const {
    return f == RowFor::girder ? &End::girder : f == RowFor::jacks ? &End::jacks : &End::rafters;
  }
  void hip_ends() {
    for (const RowFor f : of_hip_ends) {
      std::vector<std::string_view> lacking;
      std::set<std::string> said;
      for (End& e : ends_) {
        const Row*& own = e.*member_of(f);
        for (const Row& row : rows_) {
          if (row.what != f || (row.keys->end && *row.keys->end != words(e.side))) continue;
          if (own == nullptr) own = &row;
          else if (said.insert(row.path).second)
            slip(row.path, "two-rows",
                 fmt::format("two rows of {} are for the hip end at the {}", plural(f), words(e.side)),
                 ends_.size() == 2
                     ? "where the ends differ each row says its end: end = \"" + std::string(words(e.side)) + "\""
                     : std::string("one of them"));
        }
        if (own == nullptr) lacking.push_back(words(e.side));
      }
      // Rows that could not be read may have been meant.
      if (!lacking.empty() && whole_)
        slip(path_, "missing-key",
             fmt::format("the hip end{} at the {} ha{} no {}: `{}` is missing", lacking.size() == 1 ? "" : "s",
                         fmt::join(lacking, " and the "), lacking.size() == 1 ? "s" : "ve", words(f), key_of(f)),
             std::string(an_example(f)));
    }
    for (End& e : ends_)
      if (e.girder != nullptr) girder(e);
    // A row that is for both ends is told of once.
    slips.erase(std::unique(slips.begin(), slips.end(),
                            [](const Slip& a, const Slip& b) { return a.path == b.path && a.code == b.code; }),
                slips.end());
    if (ends_.size() == 2 && ends_[0].at && ends_[1].at && *ends_[0].at >= *ends_[1].at - same_place)
      slip(under(ends_[1].girder->path, "hip_girder"), "truss-twice",
           fmt::format("the girders of both hip ends stand at {}", drawn(*ends_[0].at)),
           "one of them nearer to its end's wall");
    for (const End& e : ends_)
      if (e.girder != nullptr && e.at) place(e);
  }
  static std::string_view plural(RowFor f) { return f == RowFor::girder ? "hip girders" : words(f); }
  void girder(End& e) {
    const std::string path = under(e.girder->path, "hip_girder");
    const std::size_t i = static_cast<std::size_t>(e.side);
    Length g = *e.girder->keys->hip_girder;
    const Length gable = roof_.gable_above[i], over = roof_.own_overhang[i].value_or(roof_.eaves);
    if (gable > zero<Length>()) {
      if (!near(g, gable))
        return slip(path, "girder-off-the-gable",
                    fmt::format("the gable above the {} end stands {} in from its wall, and the girder under it {}",
                                words(e.side), drawn(gable), drawn(g)),
                    fmt::format("hip_girder = {}, or gable_above = {}", drawn(gable), drawn(g)));
      g = gable;
    } else {
      const Length apex = apex_from(roof_, e.side, span_);
      if (g > apex + same_place)
        return slip(path, "girder-beyond-the-apex",
                    fmt::format("the girder stands {} from the {} wall, but the hip's apex {}", drawn(g), words(e.side),
                                drawn(apex)),
                    fmt::format("at most {}: it carries the slope of the hip end before it", drawn(apex)));
      g = std::min(g, apex);
    }
    if (over > g + same_place)
      return slip(path, "overhang-too-long",
                  fmt::format("jacks {} long would hang {} over the {} wall", drawn(g), drawn(over), words(e.side)),
                  "an overhang no longer than that, or the girder farther from the wall");
    e.at = e.side == low() ? g : length_ - g;
  }
  void place(const End& e) {
    const raw::TrussRow& row = *e.girder->keys;
    placed_.push_back({Truss{.mark = *row.mark,
                             .at = *e.at,
                             .bracket = {},
                             .girder = true,
                             .plies = row.plies.value_or(1),
                             .also_on = row.also_on},
                       e.girder->number});
  }

  // ---- valley trusses
  void valley() {
    for (const Row& r : rows_) {
      if (r.what != RowFor::valley) continue;
      if (out_.valley) return slip(r.path, "two-rows", "two rows of valley trusses are for this block", "one of them");
      out_.valley = Valley{*r.keys->mark, *r.keys->valley, {}};
    }
  }

  // ---- trusses
  Placed placed(const Row& row, Length at) const {
    return {Truss{.mark = *row.keys->mark,
                  .at = at,
                  .bracket = {},
                  .girder = false,
                  .plies = row.keys->plies.value_or(1),
                  .also_on = row.keys->also_on,
                  .clear_of = clear_side(*row.keys)},
            row.number};
  }
  void trusses(const Row& r) {
    const raw::TrussRow& row = *r.keys;
    const std::string& at = r.path;
    if (row.at && row.max) slip_on_key(under(at, "max"), "two-ways", "trusses stand at `max` or `at`, not both");
    if (!row.at && !row.max)
      slip(at, "missing-key", "`max` is missing: the greatest space between trusses",
           ends_.empty() ? "or `at`, the list of their places"
                         : "or `at`, the list of their places; or `hip_girder`, `jacks`, `hip_rafters`");
    if (row.at && row.at->size() + placed_.size() > most_trusses)
      slip(under(at, "at"), "too-many-trusses", fmt::format("more than {} trusses", most_trusses));
    else if (row.at) listed_places(r);
    else if (row.max) spaced(r);
  }
  void listed_places(const Row& r) {
    const raw::TrussRow& row = *r.keys;
    if (row.odd_space) slip_on_key(under(r.path, "odd_space"), "wrong-key", "`odd_space` belongs to `max`");
    for (std::size_t k = 0; k < row.at->size(); ++k) {
      const Maybe<Length>& x = (*row.at)[k];
      const std::string path = under(under(r.path, "at"), k);
      if (!x) continue;
      if (*x < zero<Length>() || *x > length_ + same_place)
        slip(path, "truss-off-the-block",
             fmt::format("a truss at {}, but the block is {} long", drawn(*x), drawn(length_)),
             fmt::format("between 0 (the {} wall's outside face) and {} (the {} wall's)", words(low()), drawn(length_),
                         words(high())));
      else if (const bool before = *x < from() - same_place; before || *x > to() + same_place)
        slip(path, "truss-beyond-the-girder",
             fmt::format("a truss at {}, but the girder of the {} hip end stands at {}: the jacks carry the roof there",
                         drawn(*x), words(before ? low() : high()), drawn(before ? from() : to())),
             fmt::format("between {} and {}", drawn(from()), drawn(to())));
      else if (std::any_of(placed_.begin(), placed_.end(), [&](const Placed& p) { return near(p.truss.at, *x); }))
        slip(path, "truss-twice", fmt::format("two trusses stand at {}", drawn(*x)),
             "two side by side that act as one are one truss with plies = 2");
      else placed_.push_back(placed(r, *x));
    }
  }
  void spaced(const Row& r) {
    const raw::TrussRow& row = *r.keys;
    if (spaced_)
      return slip(r.path, "two-spacings", "two rows of trusses have a `max`: which stands where?",
                  "give the places of one of them, at = [0, 900]");
    spaced_ = true;
    const std::string_view names[]{words(low()), words(high()), "middle"};
    if (row.odd_space &&
        !is_word(row.odd_space, under(r.path, "odd_space"), names, "unknown-word", "a place of the odd space here"))
      return;
    const Length room = to() - from();
    if (room / *row.max > static_cast<double>(most_trusses))
      return slip(under(r.path, "max"), "too-many-trusses",
                  fmt::format("trusses {} apart would be more than {} of them", drawn(*row.max), most_trusses));
    if (room <= same_place) return;
    for (const Length& x : stations(room, *row.max, row.odd_space, names[0])) even_.push_back(placed(r, from() + x));
    if (!row.odd_space)
      remark(fmt::format("trusses {} stand at equal spaces not above {}: no odd space is named", *row.mark,
                         drawn(*row.max)));
  }
  static std::vector<Length> stations(Length length, Length greatest, const Maybe<std::string>& odd,
                                      std::string_view first) {
    std::vector<Length> out;
    const double full = std::floor((length + same_place) / greatest);
    const auto n = static_cast<std::size_t>(full);
    const Length rest = length - full * greatest;
    const bool exact = rest <= same_place;
    if (exact || !odd) {
      const std::size_t spaces = exact ? n : n + 1;
      for (std::size_t i = 0; i <= spaces; ++i)
        out.push_back(length * static_cast<double>(i) / static_cast<double>(spaces));
      return out;
    }
    // The odd space comes after so many full ones.
    const std::size_t before = *odd == first ? 0 : *odd == "middle" ? (n + 1) / 2 : n;
    for (std::size_t i = 0; i <= before; ++i) out.push_back(static_cast<double>(i) * greatest);
    for (std::size_t i = before; i <= n; ++i) out.push_back(length - static_cast<double>(n - i) * greatest);
    return out;
  }

  // ---- all of them
  void together() {
    for (const Placed& e : even_)
      if (std::none_of(placed_.begin(), placed_.end(), [&](const Placed& p) { return near(p.truss.at, e.truss.at); }))
        placed_.push_back(e);
    std::sort(placed_.begin(), placed_.end(), [](const Placed& a, const Placed& b) { return a.truss.at < b.truss.at; });
    whole_ = whole_ && slips.empty();
    if (whole_) no_gaps();
    if (whole_ && ask_.joint && !placed_.empty()) stands_at_the_joint();
    if (!placed_.empty()) {
      const Length first = placed_.front().truss.at, last = length_ - placed_.back().truss.at;
      const auto none_on = [&](Side end, Length away) {
        if (hip(end) == nullptr && end != ask_.joint && away > same_place)
          remark(fmt::format("no truss stands on the {} wall: the {} is {} from it", words(built(end)),
                             built(end) == low() ? "first" : "last", drawn(away)));
      };
      none_on(low(), first);
      none_on(high(), last);
    }
    if (whole_)
      for (const End& e : ends_) truncated(e);
    brackets();
    for (Placed& p : placed_) {
      out_.trusses.push_back(std::move(p.truss));
      out_.row_of.push_back(p.row);
    }
  }
  // There the main block's roof begins: what lies between that truss and the next is carried by the two.
  void stands_at_the_joint() {
    const bool at_high = *ask_.joint == high();
    const Length joint = at_high ? length_ : zero<Length>();
    const Truss& last = (at_high ? placed_.back() : placed_.front()).truss;
    if (near(last.at, joint))
      return remark(fmt::format("{} at {} stands at the joint with the other block", last.mark,
                                drawn(built_turned() ? length_ - last.at : last.at)));
    slip(path_, "no-truss-at-the-joint",
         fmt::format("no truss stands at the joint with the other block: it is at {}, and the nearest truss at {}",
                     drawn(joint), drawn(last.at)),
         fmt::format("one of the places in `at` is {}", drawn(joint)));
  }
  // A truss that was forgotten leaves roof that nobody carries.
  void no_gaps() {
    if (placed_.size() < 2)
      return slip(path_, "too-few-trusses", "fewer than two trusses stand on the block",
                  "a roof needs at least two, one at each end");
    for (std::size_t i = 0; i + 1 < placed_.size(); ++i) {
      const Length a = placed_[i].truss.at, b = placed_[i + 1].truss.at;
      if (b - a > widest_gap + same_place)
        slip(path_, "gap-in-trusses",
             fmt::format("no truss between {} and {}: {} apart", drawn(a), drawn(b), drawn(b - a)),
             fmt::format("trusses no wider apart than {}", drawn(widest_gap)));
    }
    const auto hangs = [&](Side end) { return hip(end) == nullptr && end != ask_.joint; };
    const Length past = std::max(hangs(low()) ? placed_.front().truss.at : zero<Length>(),
                                 hangs(high()) ? length_ - placed_.back().truss.at : zero<Length>());
    if (past > widest_gap / 2.0 + same_place)
      slip(path_, "gap-in-trusses", fmt::format("the roof past the last truss hangs {} over to the wall", drawn(past)),
           "a truss at or near each end wall");
  }
  // Those between a hip girder and the apex are flat-topped, whatever their mark.
  void truncated(const End& e) {
    if (roof_.gable_above[static_cast<std::size_t>(e.side)] > zero<Length>()) return;
    const Length apex = apex_from(roof_, e.side, span_);
    std::vector<std::string> at;
    for (const Placed& p : placed_)
      if (!p.truss.girder && (e.side == low() ? p.truss.at : length_ - p.truss.at) < apex - same_place)
        at.push_back(fmt::format("{} at {}", p.truss.mark, drawn(built_turned() ? length_ - p.truss.at : p.truss.at)));
    if (at.empty()) return;
    if (built_turned()) std::reverse(at.begin(), at.end());
    remark(fmt::format(
        "{} {} truncated: between the girder and the apex of the {} hip, {} from its wall",
        at.size() == 1 ? at[0] : fmt::format("{} and {}", fmt::join(at.begin(), at.end() - 1, ", "), at.back()),
        at.size() == 1 ? "is" : "are", words(built(e.side)), drawn(apex)));
  }

  // ---- brackets
  struct ByMark {
    std::map<std::string, Chosen> own;
    Chosen all;
    const Chosen& of(const std::string& mark) const {
      const auto mine = own.find(mark), rest = own.find("rest");
      return mine != own.end() ? mine->second : rest != own.end() ? rest->second : all;
    }
  };
  ByMark chosen(const Maybe<raw::TrussTies>& ties, const std::string& path, const std::set<std::string>& marks) {
    ByMark out;
    if (!ties) return out;
    std::set<std::string> known{"rest"};
    known.insert(marks.begin(), marks.end());
    known.insert(elsewhere_.begin(), elsewhere_.end());
    const std::vector<std::string> names(known.begin(), known.end());
    for (const auto& [m, name] : ties->by_mark) {
      if (!known.contains(m)) {
        const std::string help = advice_or_list(m, names, "marks of trusses");
        slip_on_key(under(path, m), "unknown-truss", fmt::format("no truss has the mark `{}`", m), help);
      }
      out.own[m] = choose_(name, under(path, m));
    }
    out.all = choose_(ties->all, path);
    return out;
  }
  void brackets() {
    const raw::UnlessNoted& u = ask_.job.unless_noted;
    std::set<std::string> on_walls, on_others;
    for (const Placed& p : placed_) on_walls.insert(p.truss.mark);
    for (const auto& [mark, what] : marks_)
      if (what == RowFor::valley) {
        on_others.insert(mark);
      } else if (what != RowFor::trusses) {
        on_walls.insert(mark);
        if (what != RowFor::girder) on_others.insert(mark);
      }
    const ByMark walls = chosen(u.truss, "unless_noted.truss", on_walls);
    for (Placed& p : placed_) p.truss.bracket = walls.of(p.truss.mark);
    if (u.onto && ends_.empty() && on_others.empty() && !onto_elsewhere_)
      return slip_on_key("unless_noted.onto", "wrong-key",
                         fmt::format("`onto` belongs to a hip roof; this is a {} roof", words(roof_.shape)),
                         "jacks, short jacks and hip rafters bear on another member; trusses on walls");
    const ByMark others = chosen(u.onto, "unless_noted.onto", on_others);
    if (out_.valley) out_.valley->onto = others.of(out_.valley->mark);
    for (const End& e : ends_) {
      if (e.jacks == nullptr || e.rafters == nullptr) continue;
      const std::string &jack = *e.jacks->keys->mark, &rafter = *e.rafters->keys->mark;
      out_.hip_ends.push_back({.side = e.side,
                               .jack = jack,
                               .rafter = rafter,
                               .jacks = *e.jacks->keys->jacks,
                               .jack_bracket = walls.of(jack),
                               .jack_onto = others.of(jack),
                               .rafter_bracket = walls.of(rafter),
                               .rafter_onto = others.of(rafter)});
    }
  }

  const RoofAsk& ask_;
  const Roof& roof_;
  const ChooseBracket& choose_;
  std::string path_;
  Length length_, span_;
  std::vector<End> ends_;
  std::vector<Row> rows_;
  std::map<std::string, RowFor> marks_;
  std::set<std::string> elsewhere_;  // marks of other blocks
  bool onto_elsewhere_ = false;      // some of them bear on another member
  std::vector<Placed> placed_, even_;
  bool whole_ = false, spaced_ = false;
  TrussesSettled out_;
};

// Whether each truss of a row stands on the inside walls that the row names.
class InsideBearings : private Slips {
 public:
  InsideBearings(const RoofAsk& ask, const House& house, const std::vector<std::size_t>& row_of)
      : Slips(ask.job.unread), ask_(ask), house_(house), row_of_(row_of) {}
  std::vector<Slip> run() {
    for (std::size_t i = 0; i < ask_.block.trusses->size(); ++i) row(i);
    return std::move(slips);
  }

 private:
  std::string drawn(Length l) const {
    return as_drawn(l, ask_.job.drawing == raw::Drawing::feet ? raw::Drawing::feet : raw::Drawing::mm);
  }
  bool across() const { return house_.roof.ridge == Along::across; }

  void row(std::size_t i) {
    const raw::TrussRow& keys = (*ask_.block.trusses)[i];
    if (keys.jacks || keys.hip_rafters || keys.valley) return;  // said: they have no such bearing
    const std::vector<std::string>& names = keys.also_on;
    std::vector<const Wall*> good;
    for (std::size_t k = 0; k < names.size(); ++k) {
      if (std::count(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(k), names[k]) != 0) continue;
      const std::string path = under(under(under(under(ask_.path, "trusses"), i), "also_on"), k);
      const Wall* w = wall(names[k], path);
      if (w == nullptr || !under_all(*w, i, path)) continue;
      const auto beside = std::find_if(good.begin(), good.end(), [&](const Wall* g) { return near(g->line, w->line); });
      if (beside != good.end())
        slip(path, "bearing-twice",
             fmt::format("walls {} and {} stand in one line: a truss over both would bear twice in one place",
                         (*beside)->name, w->name),
             "one of them for each truss");
      else good.push_back(w);
    }
    if (!keys.clear_of || good.size() != names.size() || good.empty()) return;
    const std::string path = under(under(under(ask_.path, "trusses"), i), "clear_of");
    std::optional<Side> side;
    for (std::size_t t = 0; t < row_of_.size(); ++t) {
      if (row_of_[t] != i || !house_.trusses[t].clear_of) continue;
      side = house_.trusses[t].clear_of;
      if (!clear(house_.trusses[t], path)) return;
    }
    if (side) sticks_out(*side, good, path);
  }
  Length span() const { return across() ? house_.up : house_.across; }
  // Past the bearing that is set back, as far as the outside wall's face.
  void sticks_out(Side side, const std::vector<const Wall*>& on, const std::string& path) {
    const bool low = side == Side::left || side == Side::front;
    std::vector<Length> from_it{span()};
    for (const Wall* w : on) from_it.push_back(low ? w->line : span() - w->line);
    std::sort(from_it.begin(), from_it.end());
    const Length back = from_it[1] - from_it[0], most = longest_cantilever * back;
    if (from_it[0] <= most + same_place) return;
    slip(path, "cantilever-too-long",
         fmt::format("the trusses would stick out {} past their last bearing, with {} between it and the next",
                     drawn(from_it[0]), drawn(back)),
         fmt::format("at most a third of it, {} (common practice, no source); beyond that it is the truss maker's own "
                     "calculation",
                     drawn(most)));
  }
  // Nothing but an opening stands under its end.
  bool clear(const Truss& t, const std::string& path) {
    for (const Wall& w : house_.walls) {
      if (!w.outside || w.side != *t.clear_of || w.floor != top_floor(house_) || t.at < w.from - same_place ||
          t.at > w.to + same_place)
        continue;
      const Length x = t.at - w.from;
      if (std::any_of(w.pieces.begin(), w.pieces.end(),
                      [&](const Piece& p) { return p.opening && x > p.from + same_place && x < p.to - same_place; }))
        return true;
      slip(path, "wall-under-the-end",
           fmt::format("{} at {} cannot be clear of the {}: wall {} stands under its end there", t.mark, drawn(t.at),
                       words(*t.clear_of), w.name),
           "a row of its own, with `at`, for the trusses over the porch's opening in that wall");
      return false;
    }
    slip(path, "no-outside-wall",
         fmt::format("no outside wall of block {} stands at the {} where {} at {} ends", house_.block,
                     words(*t.clear_of), t.mark, drawn(t.at)),
         "trusses are clear of an outside wall, over an opening in it");
    return false;
  }
  // An inside wall that trusses can bear on; null: there is none, which is said here or was said before.
  const Wall* wall(const std::string& name, const std::string& path) {
    const auto w = std::find_if(house_.walls.begin(), house_.walls.end(),
                                [&](const Wall& x) { return x.floor == top_floor(house_) && x.key == name; });
    const std::string_view way = across() ? "across" : "up", other = across() ? "up" : "across";
    if (w == house_.walls.end()) {
      const raw::Walls& all = ask_.job.walls;
      // A wing of a house of two floors has its walls among the ground floor's.
      const bool above = house_.first.has_value(), below = !above && all.ground;
      const std::string table = above ? "wall.first" : below ? "wall.ground" : "wall";
      const raw::WallsByName* written = above ? (all.first ? &*all.first : nullptr) : below ? &*all.ground : &all.only;
      if (written == nullptr || written->contains(name) || unread(under(table, name)) || unread_itself("wall") ||
          unread_itself(table))
        return nullptr;
      std::vector<std::string> inside;
      for (const Wall& x : house_.walls)
        if (!x.outside && x.runs == house_.roof.ridge && x.floor == top_floor(house_)) inside.push_back(x.key);
      const std::string help = advice_or_list(name, inside, "inside walls along the ridge");
      slip(path, "unknown-wall", fmt::format("no wall `{}` under [{}] for a truss to bear on", name, table), help);
      return nullptr;
    }
    if (w->outside) {
      slip(path, "outside-wall", fmt::format("wall {} is the {} wall, not an inside wall", w->name, words(w->side)),
           w->runs == house_.roof.ridge ? "leave it out: every truss bears on it already"
                                        : "leave it out: it runs the way the trusses do");
      return nullptr;
    }
    if (w->runs != house_.roof.ridge) {
      slip(path, "wall-along-the-trusses",
           fmt::format("wall {} runs {} the sheet, as the trusses do: none of them crosses it", w->name, other),
           fmt::format("an inside wall that runs {} the sheet", way));
      return nullptr;
    }
    if (w->line > same_place && w->line < span() - same_place) return &*w;
    slip(path, "outside-wall", fmt::format("wall {} stands in the line of an outside wall", w->name),
         "leave it out: every truss bears on that wall already");
    return nullptr;
  }
  bool under_all(const Wall& w, std::size_t row, const std::string& path) {
    for (std::size_t t = 0; t < row_of_.size(); ++t) {
      const Truss& truss = house_.trusses[t];
      if (row_of_[t] != row || (truss.at >= w.from - same_place && truss.at <= w.to + same_place)) continue;
      slip(path, "bearing-on-nothing",
           fmt::format("{} at {} would bear on nothing: wall {} {} at {}", truss.mark, drawn(truss.at), w.name,
                       truss.at > w.to ? "ends" : "begins", drawn(truss.at > w.to ? w.to : w.from)),
           fmt::format("a row of its own, with `at`, for the trusses from {} to {}", drawn(w.from), drawn(w.to)));
      return false;
    }
    return true;
  }

  const RoofAsk& ask_;
  const House& house_;
  const std::vector<std::size_t>& row_of_;
};

}  // namespace

TrussesSettled settle_trusses(const RoofAsk& ask, const RoofSettled& roof, const ChooseBracket& choose) {
  return TrussSettling(ask, roof, choose).run();
}
std::vector<Slip> slips_of_inside_bearings(const RoofAsk& ask, const House& house,
                                           const std::vector<std::size_t>& row_of) {
  return InsideBearings(ask, house, row_of).run();
}

}  // namespace belay
