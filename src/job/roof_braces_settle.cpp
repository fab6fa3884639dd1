// The straps in the plane of the roof: from what was written to where each stands.
#include "job/path.hpp"
#include "job/roof_settle.hpp"
#include "job/run.hpp"
#include "job/slips.hpp"
#include <array>
#include <fmt/format.h>
#include <utility>

namespace belay {
namespace {

constexpr Side all_sides[]{Side::front, Side::right, Side::back, Side::left};
constexpr std::size_t most_braces = 200;

class BracesSettling : private Slips {
 public:
  BracesSettling(const RoofAsk& ask, const RoofSettled& roof, const ChooseStrap& choose)
      : Slips(ask.job.unread), ask_(ask), roof_(roof.roof), good_(roof.good), choose_(choose) {}

  RoofBracesSettled run() {
    if (!ask_.block.roof_braces || !good_) return std::move(out_);
    const std::string at = under(ask_.path, "roof_braces");
    const std::vector<raw::RoofBraceRow>& rows = *ask_.block.roof_braces;
    if (roof_.shape == RoofShape::hip) {
      slip_on_key(at, "not-yet", "roof braces under a hip roof cannot be worked out yet: its hips brace it as well",
                  "leave them out: the bracing of the roof is then not looked at, and the answer says so");
    } else if (rows.empty()) {
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
    std::optional<Side> found;
    for (const Side side : all_sides) {
      if (!falls_to(roof_, side)) continue;
      falling.push_back(words(side));
      if (*name == words(side)) found = side;
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
    const std::size_t number = ++count_[static_cast<std::size_t>(*slope)];
    out_.braces.push_back(
        {fmt::format("{} {}", words(*slope), number), *slope, *row.foot, *row.head, row.up_to, fixing});
  }

  const RoofAsk& ask_;
  const Roof& roof_;
  bool good_;
  const ChooseStrap& choose_;
  std::array<std::size_t, 4> count_{};
  RoofBracesSettled out_;
};

}  // namespace

RoofBracesSettled settle_roof_braces(const RoofAsk& ask, const RoofSettled& roof, const ChooseStrap& choose) {
  return BracesSettling(ask, roof, choose).run();
}

}  // namespace belay
