// The straps in the plane of the roof: from what was written to where each stands.
#include "job/path.hpp"
#include "job/roof_settle.hpp"
#include "job/run.hpp"
#include "job/slips.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <limits>
#include <utility>

namespace belay {
namespace {

constexpr Side all_sides[]{Side::front, Side::right, Side::back, Side::left};
constexpr std::size_t most_braces = 200;

class BracesSettling : private Slips {
 public:
  BracesSettling(const RoofAsk& ask, const RoofSettled& roof, const std::vector<RoofOver>& over,
                 const ChooseStrap& choose, const IsPair& is_pair)
      : Slips(ask.job.unread),
        ask_(ask),
        roof_(roof.roof),
        over_(over),
        good_(roof.good),
        choose_(choose),
        is_pair_(is_pair) {}

  RoofBracesSettled run() {
    if (!ask_.block.roof_braces || !good_) return std::move(out_);
    const std::string at = under(ask_.path, "roof_braces");
    const std::vector<raw::RoofBraceRow>& rows = *ask_.block.roof_braces;
    if (rows.empty()) {
      slip_on_key(at, "empty-list", "`roof_braces` is an empty list",
                  "leave it out: the bracing of the roof is then not looked at, and the answer says so");
    } else if (rows.size() > most_braces) {
      slip_on_key(at, "too-many-roof-braces", fmt::format("more than {} roof braces", most_braces));
    } else {
      for (std::size_t i = 0; i < rows.size(); ++i) brace(rows[i], under(at, i));
    }
    out_.slips = std::move(slips);
    return std::move(out_);
  }

 private:
  std::string drawn(Length l) const {
    return as_drawn(l, ask_.job.drawing == raw::Drawing::feet ? raw::Drawing::feet : raw::Drawing::mm);
  }
  bool one_slope() const { return roof_.shape == RoofShape::skillion || roof_.shape == RoofShape::flat; }
  Length length() const { return roof_.ridge == Along::across ? ask_.across : ask_.up; }
  // Level, from the slope's wall to the ridge or the high edge.
  Length to_the_top(Side slope) const {
    const Length span = roof_.ridge == Along::across ? ask_.up : ask_.across;
    return one_slope() ? span : apex_from(roof_, slope, span);
  }

  std::optional<Side> slope_named(const raw::Maybe<std::string>& name, const std::string& path) {
    if (!name) return std::nullopt;
    std::vector<std::string_view> falling;
    std::optional<Side> found, hip_end;
    for (const Side side : all_sides) {
      if (!falls_to(roof_, side)) continue;
      const bool end = roof_.shape == RoofShape::hip && is_end(roof_, side);
      if (!end) falling.push_back(words(side));
      if (*name == words(side)) (end ? hip_end : found) = side;
    }
    if (hip_end) {
      slip(path, "hip-end-slope",
           fmt::format("the slope to the {} is that of a hip end: its jacks and hip rafters brace it, and a roof brace "
                       "in it cannot be worked out",
                       *name),
           fmt::format("the slopes along the ridge: {}", listed(falling)));
      return std::nullopt;
    }
    if (!found) {
      slip(path, "no-slope-there", fmt::format("no slope of this roof falls to the {}", *name),
           fmt::format("its {}: {}", falling.size() == 1 ? "slope" : "slopes", listed(falling)));
      return std::nullopt;
    }
    if (!(pitch_at(roof_, *found) > zero<Angle>())) {
      slip(path, "level-slope",
           fmt::format("the slope to the {} is level: nothing stands upright at its ends for a roof brace to hold",
                       *name));
      return std::nullopt;
    }
    return found;
  }
  // Along the ridge; over the walls, not past them.
  bool on_the_roof(const raw::Maybe<Length>& at, std::string_view key, const std::string& path) {
    if (!at) return false;
    if (*at >= -same_place && *at <= length() + same_place) return true;
    slip(under(path, key), "off-the-roof",
         fmt::format("`{}` stands at {}, and the walls under the {} reach from 0 to {}", key, drawn(*at),
                     one_slope() ? "high edge" : "ridge", drawn(length())));
    return false;
  }

  // Beside a hip the slope of the end lies lower, up to the ridge or to the gable above the end.
  struct Hip {
    Side end;
    Length gable;   // in from the end's wall; where there is none it stands nowhere
    double across;  // level, along the ridge for each length in from the slope's wall
  };
  std::vector<Hip> hips_beside(Side slope) const {
    std::vector<Hip> r;
    const Ends ends = ends_of(roof_.ridge);
    for (const Side end : {ends.low, ends.high}) {
      const auto i = static_cast<std::size_t>(end);
      if (!roof_.hipped[i]) continue;
      const Length gable = roof_.gable_above[i], none = Length::from_value(std::numeric_limits<double>::infinity());
      r.push_back({end, gable > zero<Length>() ? gable : none,
                   static_cast<double>(tan(pitch_at(roof_, slope)) / tan(pitch_at(roof_, end)))});
    }
    return r;
  }
  Length in_from(Side end, Length at) const { return end == ends_of(roof_.ridge).low ? at : length() - at; }
  // From its foot at the wall to its head so far in. crossing: the other of a pair, with foot and head exchanged.
  bool on_its_slope(Side slope, Length foot_at, Length head_at, Length level, bool crossing, const std::string& path) {
    Length from = zero<Length>(), to = length();
    const Hip* cut = nullptr;
    const std::vector<Hip> hips = hips_beside(slope);
    for (const Hip& hip : hips) {
      const Length reach = std::min(level * hip.across, hip.gable);
      if (in_from(hip.end, head_at) < reach - same_place) cut = &hip;
      if (hip.end == ends_of(roof_.ridge).low) from = reach;
      else to = length() - reach;
    }
    const std::string_view which = crossing ? "the strap that crosses it" : "the strap";
    if (cut) {
      std::string help =
          fmt::format("so far in the {} slope reaches from {} to {}", words(slope), drawn(from), drawn(to));
      if (const Length in = in_from(cut->end, head_at); in > same_place)
        help += fmt::format("; at {} it reaches {} in (`up_to`)", drawn(head_at), drawn(in / cut->across));
      slip(under(path, crossing ? "foot" : "head"), "beyond-the-hip",
           fmt::format("{} has its head at {}, {} in from the {} wall: there the slope of the {} end lies lower", which,
                       drawn(head_at), drawn(level), words(slope), words(cut->end)),
           std::move(help));
      return false;
    }
    // A gable above the end stands on the end's slope: a strap that comes from beside the hip may not cut the corner.
    for (const Hip& hip : hips) {
      const Length foot = in_from(hip.end, foot_at), head = in_from(hip.end, head_at);
      if (foot >= hip.gable - same_place || head < hip.gable - same_place) continue;
      const Length there = level * ((hip.gable - foot) / (head - foot));
      if (there * hip.across <= hip.gable + same_place) continue;
      slip(under(path, crossing ? "head" : "foot"), "beyond-the-hip",
           fmt::format("{} from {} to {} leaves the {} slope: where the gable above the {} end stands it lies {} in "
                       "from the wall, and the slope reaches {} there",
                       which, drawn(foot_at), drawn(head_at), words(slope), words(hip.end), drawn(there),
                       drawn(hip.gable / hip.across)),
           "a foot nearer to that gable, or past it");
      return false;
    }
    return true;
  }

  // The main roof goes on under a wing's, but what brings its wind to a strap there is not known.
  bool under_no_other(Side slope, Length foot_at, Length head_at, Length level, bool crossing,
                      const std::string& path) {
    for (const RoofOver& o : over_) {
      if (o.slope != slope || !(o.into > same_place)) continue;
      // How far in from the wall the other roof reaches, past the place where the strap is so far along.
      const auto past = [&](Length along_it, Length in) {
        return std::min(o.into * ((along_it - o.from) / (o.ridge - o.from)),
                        o.into * ((o.to - along_it) / (o.to - o.ridge))) -
               in;
      };
      // Straight on both sides of the other's ridge: the most is at an end of the strap or there.
      Length most = std::max(past(foot_at, zero<Length>()), past(head_at, level));
      const double to_ridge = (o.ridge - foot_at) / (head_at - foot_at);
      if (to_ridge > 0.0 && to_ridge < 1.0) most = std::max(most, past(o.ridge, level * to_ridge));
      if (!(most > same_place)) continue;
      slip(under(path, crossing ? "head" : "foot"), "under-another-roof",
           fmt::format("{} from {} to {} runs under the roof of block {}, which lies on the {} slope there: what it "
                       "would hold cannot be worked out",
                       crossing ? "the strap that crosses it" : "the strap", drawn(foot_at), drawn(head_at), o.block,
                       words(slope)),
           fmt::format("that roof reaches from {} to {} at the wall, and {} in at {}, where its ridge comes out",
                       drawn(o.from), drawn(o.to), drawn(o.into), drawn(o.ridge)));
      return false;
    }
    return true;
  }

  void brace(const raw::RoofBraceRow& row, const std::string& path) {
    const Chosen fixing = choose_(row.use, under(path, "use"));
    const std::optional<Side> slope = slope_named(row.slope, under(path, "slope"));
    const bool foot = on_the_roof(row.foot, "foot", path), head = on_the_roof(row.head, "head", path);
    if (foot && head && near(*row.foot, *row.head))
      return slip(under(path, "head"), "foot-under-head",
                  "`foot` and `head` stand at one place: such a strap holds nothing along the ridge",
                  "about as far apart along the ridge as the strap is long up the slope");
    if (!slope) return;
    if (row.up_to && *row.up_to > to_the_top(*slope) + same_place)
      return slip(under(path, "up_to"), "beyond-the-ridge",
                  fmt::format("`up_to` is {}, and the {} stands {} from the {} wall", drawn(*row.up_to),
                              one_slope() ? "high edge" : "ridge", drawn(to_the_top(*slope)), words(*slope)),
                  "left out, the head stands there");
    if (!foot || !head) return;
    const Length level = row.up_to.value_or(to_the_top(*slope));
    if (!on_its_slope(*slope, *row.foot, *row.head, level, false, path)) return;
    if (!under_no_other(*slope, *row.foot, *row.head, level, false, path)) return;
    if (is_pair_(fixing) && (!on_its_slope(*slope, *row.head, *row.foot, level, true, path) ||
                             !under_no_other(*slope, *row.head, *row.foot, level, true, path)))
      return;
    const std::size_t number = ++count_[static_cast<std::size_t>(*slope)];
    out_.braces.push_back(
        {fmt::format("{} {}", words(*slope), number), *slope, *row.foot, *row.head, row.up_to, fixing});
  }

  const RoofAsk& ask_;
  const Roof& roof_;
  const std::vector<RoofOver>& over_;
  bool good_;
  const ChooseStrap& choose_;
  const IsPair& is_pair_;
  std::array<std::size_t, 4> count_{};
  RoofBracesSettled out_;
};

}  // namespace

RoofBracesSettled settle_roof_braces(const RoofAsk& ask, const RoofSettled& roof, const std::vector<RoofOver>& over,
                                     const ChooseStrap& choose, const IsPair& is_pair) {
  return BracesSettling(ask, roof, over, choose, is_pair).run();
}

}  // namespace belay
