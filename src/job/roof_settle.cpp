#include "job/roof_settle.hpp"
#include "job/mirrored.hpp"
#include "job/path.hpp"
#include "job/run.hpp"
#include "job/slips.hpp"
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <set>
#include <utility>

namespace belay {

bool good_name(std::string_view name) {
  if (name.empty() || name.size() > 24) return false;
  const char c = name[0];
  const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
  return letter && std::none_of(name.begin(), name.end(), [](char x) {
           return static_cast<unsigned char>(x) <= ' ' || x == 0x7f || x == '|' || x == '/' || x == '"';
         });
}
bool near(Length a, Length b) { return a - b <= same_place && b - a <= same_place; }

static std::size_t index(Side side) { return static_cast<std::size_t>(side); }
static bool one_slope(const Roof& r) { return r.shape == RoofShape::skillion || r.shape == RoofShape::flat; }
std::optional<Side> side_named(std::string_view word) {
  for (const Side s : {Side::front, Side::right, Side::back, Side::left})
    if (word == words(s)) return s;
  return std::nullopt;
}
Side across_from(Side side) {
  switch (side) {
    case Side::left: return Side::right;
    case Side::right: return Side::left;
    case Side::front: return Side::back;
    case Side::back: return Side::front;
  }
  return side;
}
Along along(Side side) { return side == Side::front || side == Side::back ? Along::across : Along::up; }

Ends ends_of(Along ridge) {
  return ridge == Along::across ? Ends{Side::left, Side::right} : Ends{Side::front, Side::back};
}
bool is_end(const Roof& r, Side side) { return along(side) != r.ridge; }
bool falls_to(const Roof& r, Side side) {
  if (one_slope(r)) return side == across_from(r.high);
  return !is_end(r, side) || (r.shape == RoofShape::hip && r.hipped[index(side)]);
}
Angle pitch_at(const Roof& r, Side side) { return r.own_pitch[index(side)].value_or(r.pitch); }
Length overhang_at(const Roof& r, Side side) {
  return r.own_overhang[index(side)].value_or(falls_to(r, side) ? r.eaves : r.verge);
}

double rise(Angle pitch) { return static_cast<double>(tan(pitch)); }
// Where the slopes on both sides of the ridge are of one height.
static Length ridge_height(const Roof& r, Length span) {
  const Ends sides = ends_of(r.ridge == Along::across ? Along::up : Along::across);
  const double a = rise(pitch_at(r, sides.low)), c = rise(pitch_at(r, sides.high));
  return span * (a * c / (a + c));
}
Length apex_from(const Roof& r, Side end, Length span) { return ridge_height(r, span) / rise(pitch_at(r, end)); }

namespace {

using raw::Maybe;

// In the order in which a job says them.
constexpr Side all_sides[]{Side::front, Side::right, Side::back, Side::left};
// A skillion so level is what a method for flat roofs speaks of.
constexpr Angle steepest_flat = Angle::from_value(5.000001 * std::numbers::pi / 180.0);
constexpr double steepest_degrees = 60;  // that is believed of a roof

class RoofSettling : private Slips {
 public:
  explicit RoofSettling(const RoofAsk& ask)
      : Slips(ask.job.unread), ask_(ask), r_(*ask.block.roof), at_(under(ask.path, "roof")) {}

  RoofSettled run() {
    shape();
    if (shaped_) ridge();
    if (out_.ridge_known) {
      hipped();
      own();
      pitches();
      overhangs();
      if (slips.empty() && ask_.sized) geometry();
      out_.good = shaped_ && slips.empty() && !unread(at_);
    } else {
      roof_.pitch = r_.pitch.value_or(zero<Angle>());
      roof_.eaves = r_.eaves.value_or(zero<Length>());
      roof_.verge = r_.verge.value_or(zero<Length>());
    }
    weight();
    out_.slips = std::move(slips);
    return std::move(out_);
  }

 private:
  void remark(std::string text) { out_.remarks.push_back(std::move(text)); }
  std::string drawn(Length l) const {
    return as_drawn(l, ask_.job.drawing == raw::Drawing::feet ? raw::Drawing::feet : raw::Drawing::mm);
  }
  std::string path(std::string_view key) const { return under(at_, key); }
  void need(std::string_view key, std::string_view what, std::string help) {
    if (!unread(path(key)))
      slip(path(key), "missing-key", fmt::format("`{}` is missing: {}", key, what), std::move(help));
  }
  const Maybe<raw::SideOfRoof>& keys(Side side) const {
    switch (side) {
      case Side::front: return r_.front;
      case Side::right: return r_.right;
      case Side::back: return r_.back;
      case Side::left: return r_.left;
    }
    return r_.left;
  }
  std::string key_of(Side side, std::string_view key) const { return under(path(words(side)), key); }
  Length span() const { return roof_.ridge == Along::across ? ask_.up : ask_.across; }
  Length length() const { return roof_.ridge == Along::across ? ask_.across : ask_.up; }
  bool flat() const { return roof_.shape == RoofShape::flat; }
  std::string a_shape() const { return fmt::format("a {} roof", words(roof_.shape)); }

  void shape() {
    static constexpr RoofShape all[]{RoofShape::gable, RoofShape::hip, RoofShape::skillion, RoofShape::flat};
    std::vector<std::string_view> names;
    for (const RoofShape s : all) names.push_back(words(s));
    shaped_ = is_word(r_.shape, path("shape"), names, "unknown-word", "a roof's shape");
    if (shaped_) roof_.shape = all[std::find(names.begin(), names.end(), *r_.shape) - names.begin()];
    if (!ask_.joint || !shaped_ || !one_slope(roof_)) return;
    shaped_ = false;
    slip(path("shape"), "not-yet",
         fmt::format("{} on a block that stands against another cannot be worked out yet", a_shape()),
         "a gable or hip roof, its ridge square to the joint");
  }
  void ridge() {
    if (r_.ridge) roof_.ridge = *r_.ridge == "up" ? Along::up : Along::across;
    if (!one_slope(roof_)) {
      if (!r_.ridge) need("ridge", "the way the ridge runs on the sheet: \"across\" or \"up\"", "it takes text");
      if (r_.high)
        slip_on_key(path("high"), "wrong-key", "`high` belongs to a skillion or flat roof",
                    "this one is highest at its ridge");
      out_.ridge_known = r_.ridge.has_value();
      if (!out_.ridge_known || !ask_.joint || is_end(roof_, *ask_.joint)) return;
      out_.ridge_known = false;
      slip(path("ridge"), "ridge-along-the-joint",
           fmt::format("the block stands with its {} side against another, and its ridge runs along that side",
                       words(*ask_.joint)),
           fmt::format("square to it, ridge = \"{}\"", roof_.ridge == Along::across ? "up" : "across"));
      return;
    }
    if (!r_.high)
      return need("high", fmt::format("the side at which {} is high", a_shape()),
                  "\"front\", \"right\", \"back\" or \"left\"");
    const auto high =
        std::find_if(std::begin(all_sides), std::end(all_sides), [&](Side s) { return words(s) == *r_.high; });
    std::vector<std::string_view> names;
    for (const Side s : all_sides) names.push_back(words(s));
    if (!is_word(r_.high, path("high"), names, "unknown-word", "a side")) return;
    roof_.high = *high;
    const Along edge = along(roof_.high);
    if (r_.ridge && roof_.ridge != edge)
      slip(path("ridge"), "ridge-against-high",
           fmt::format("a roof that is high at the {} has its high edge {} the sheet, not {}", *r_.high,
                       edge == Along::across ? "across" : "up", *r_.ridge),
           "leave `ridge` out: it follows from `high`");
    roof_.ridge = edge;
    out_.ridge_known = true;
  }
  void hipped() {
    const Ends ends = ends_of(roof_.ridge);
    if (roof_.shape != RoofShape::hip) {
      if (!r_.hipped.empty())
        slip_on_key(path("hipped"), "wrong-key", fmt::format("`hipped` belongs to a hip roof; this is {}", a_shape()),
                    one_slope(roof_) ? "" : "shape = \"hip\"");
      return;
    }
    if (r_.hipped.empty() && !unread(path("hipped"))) {
      for (const Side end : {ends.low, ends.high}) roof_.hipped[index(end)] = end != ask_.joint;
      const auto m = mirror_of_job(ask_.job);  // remarks tell of the house as it is built
      remark(ask_.joint ? fmt::format("the roof is a hip at the {}: nothing else is said (hipped)",
                                      words(m ? mirrored(across_from(*ask_.joint), *m) : across_from(*ask_.joint)))
                        : "both ends of the roof are hips: nothing else is said (hipped)");
    }
    for (std::size_t i = 0; i < r_.hipped.size(); ++i) {
      const std::string at = under(path("hipped"), i), &word = r_.hipped[i];
      const Side* end = word == words(ends.low) ? &ends.low : word == words(ends.high) ? &ends.high : nullptr;
      if (end == nullptr)
        slip(at, "not-an-end",
             fmt::format("`{}` is no end of this roof: its ridge runs {} the sheet, from the {} to the {}", word,
                         roof_.ridge == Along::across ? "across" : "up", words(ends.low), words(ends.high)),
             fmt::format("\"{}\", \"{}\", or left out for both", words(ends.low), words(ends.high)));
      else if (*end == ask_.joint)
        slip(at, "hip-at-the-joint",
             fmt::format("the {} side stands against another block: no slope falls there", words(*end)),
             fmt::format("hipped = \"{}\", or shape = \"gable\"", words(across_from(*end))));
      else if (std::exchange(roof_.hipped[index(*end)], true))
        slip(at, "named-twice", fmt::format("`{}` stands here a second time", word));
    }
    ends_known_ = slips.empty() && !unread(path("hipped"));
  }
  bool end_is_known(Side side) const { return ends_known_ || roof_.shape != RoofShape::hip || !is_end(roof_, side); }

  // What stands at one side only.
  void own() {
    for (const Side side : all_sides) {
      const Maybe<raw::SideOfRoof>& k = keys(side);
      if (side == ask_.joint) {
        roof_.own_overhang[index(side)] = zero<Length>();
        if (k)
          slip_on_key(path(words(side)), "wrong-key",
                      fmt::format("the {} side stands against another block: nothing of the roof is its own there",
                                  words(side)),
                      "leave it out");
        continue;
      }
      if (!k || !end_is_known(side)) continue;
      roof_.own_overhang[index(side)] = k->overhang;
      if (k->pitch && !falls_to(roof_, side))
        slip_on_key(key_of(side, "pitch"), "wrong-key", fmt::format("no slope falls to the {}", words(side)),
                    one_slope(roof_)
                        ? fmt::format("{} that is high at the {} falls to the {}", a_shape(), words(roof_.high),
                                      words(across_from(roof_.high)))
                        : fmt::format("the {} is a gable; an end slopes with shape = \"hip\", and where `hipped` is "
                                      "written it names the end",
                                      words(side)));
      else roof_.own_pitch[index(side)] = k->pitch;
      if (!k->gable_above) continue;
      if (is_end(roof_, side) && falls_to(roof_, side) && !one_slope(roof_))
        roof_.gable_above[index(side)] = *k->gable_above;
      else
        slip_on_key(key_of(side, "gable_above"), "wrong-key",
                    fmt::format("a gable stands above a hip end; the {} is none", words(side)),
                    roof_.shape == RoofShape::hip ? "the ends that `hipped` names" : "shape = \"hip\"");
    }
  }
  // Whether some side of those that a slope falls to (or: that none does) has not this key of its own.
  template <class Key> bool some_side_lacks(bool sloping, std::string_view key, Key raw::SideOfRoof::*own) const {
    return std::any_of(std::begin(all_sides), std::end(all_sides), [&](Side s) {
      return s != ask_.joint && end_is_known(s) && falls_to(roof_, s) == sloping && !(keys(s) && (*keys(s)).*own) &&
             !unread(key_of(s, key)) && !unread_itself(path(words(s)));
    });
  }

  void pitches() {
    roof_.pitch = r_.pitch.value_or(zero<Angle>());
    if (r_.pitch) fits(*r_.pitch, path("pitch"));
    else if (some_side_lacks(true, "pitch", &raw::SideOfRoof::pitch)) {
      if (!flat()) need("pitch", "the slope of the roof, such as \"22.5 deg\"", "it takes an angle");
      else if (!unread(path("pitch"))) remark("the flat roof is taken as level: no pitch is given");
    }
    for (const Side side : all_sides)
      if (const auto& p = roof_.own_pitch[index(side)]) {
        fits(*p, key_of(side, "pitch"));
        if (!r_.pitch) roof_.pitch = std::max(roof_.pitch, *p);
      }
  }
  void fits(Angle pitch, const std::string& at) {
    if (flat() && pitch > steepest_flat)
      slip(at, "too-steep", fmt::format("a flat roof is no steeper than 5 deg, and this is {}", text(pitch, metric)),
           "shape = \"skillion\"");
    if (!flat() && !(pitch > zero<Angle>()))
      slip(at, "level-roof", fmt::format("a roof without a pitch is no {}", words(roof_.shape)),
           "the pitch of its slopes; or shape = \"flat\", up to 5 deg, with its `high` side");
  }
  void overhangs() {
    roof_.eaves = r_.eaves.value_or(zero<Length>());
    roof_.verge = r_.verge.value_or(zero<Length>());
    if (!r_.eaves && some_side_lacks(true, "overhang", &raw::SideOfRoof::overhang))
      need("eaves", "the overhang past the walls that a slope falls to, on plan", "it takes a length");
    if (!r_.verge && some_side_lacks(false, "overhang", &raw::SideOfRoof::overhang))
      need("verge",
           one_slope(roof_) ? "the overhang past the high wall and the two ends" : "the overhang at the gables",
           "it takes a length");
    const bool all_slope = std::all_of(std::begin(all_sides), std::end(all_sides), [&](Side s) {
      return s == ask_.joint || (end_is_known(s) && falls_to(roof_, s));
    });
    if (all_slope && roof_.verge > zero<Length>())
      slip_on_key(path("verge"), "wrong-key", "this roof has no verge: a slope falls to every wall",
                  "leave it out; or say which end slopes, hipped = ..., where the other one is a gable");
  }

  // ---- what the plan allows
  void geometry() {
    std::set<std::string> said;
    for (const Side side : all_sides) {
      const bool slopes = falls_to(roof_, side), own = roof_.own_overhang[index(side)].has_value();
      const Length over = roof_.own_overhang[index(side)].value_or(slopes ? roof_.eaves : roof_.verge);
      const Length back = is_end(roof_, side) ? length() : span();
      const std::string at = own ? key_of(side, "overhang") : path(slopes ? "eaves" : "verge");
      if (over > 0.5 * back + same_place && said.insert(at).second)
        slip(at, "overhang-too-long",
             fmt::format("{} past the {} wall is more than half of the {} to the wall across from it", drawn(over),
                         words(side), drawn(back)),
             fmt::format("at most {}: what hangs over is held down behind the wall", drawn(0.5 * back)));
    }
    if (roof_.shape != RoofShape::hip) return;
    for (const Side side : all_sides)
      if (const Length g = roof_.gable_above[index(side)], apex = apex_from(roof_, side, span());
          g > zero<Length>() && g >= apex - same_place)
        slip(key_of(side, "gable_above"), "gable-beyond-the-apex",
             fmt::format("a gable {} in from the {} wall would stand where the end's slope has met the ridge already, "
                         "at {}",
                         drawn(g), words(side), drawn(apex)),
             fmt::format("less than {}; left out, the hip reaches the ridge", drawn(apex)));
    if (slips.empty()) hips_meet();
  }
  struct Hip {
    Side side;
    Length reach;
    bool to_ridge, own_pitch;
  };
  // The end slopes of one roof end before they meet.
  void hips_meet() {
    std::vector<Hip> hips;
    Length sum = zero<Length>();
    for (const Side side : {ends_of(roof_.ridge).low, ends_of(roof_.ridge).high}) {
      if (!roof_.hipped[index(side)]) continue;
      const Length g = roof_.gable_above[index(side)];
      const bool to_ridge = !(g > zero<Length>());
      hips.push_back({side, to_ridge ? apex_from(roof_, side, span()) : g, to_ridge,
                      to_ridge && roof_.own_pitch[index(side)].has_value()});
      sum += hips.back().reach;
    }
    if (!(sum > length() + same_place)) return;  // a pitch that could not be read makes no sum
    std::string where = path("ridge");
    for (const Hip& h : hips)
      if (h.own_pitch) where = key_of(h.side, "pitch");
    std::string reach;
    for (const Hip& h : hips)
      reach += fmt::format("{}{} from the {}", reach.empty() ? "" : " and ", drawn(h.reach), words(h.side));
    slip(where, "hips-meet",
         hips.size() == 2
             ? fmt::format("the hips meet before the ridge: their slopes reach {}, and the roof is {} long", reach,
                           drawn(length()))
             : fmt::format("the hip reaches past the other end: {}, and the roof is {} long", reach, drawn(length())),
         what_fits(hips));
  }
  // Steeper ends: those with a pitch of their own, where that is enough; else all that reach the ridge.
  std::string what_fits(const std::vector<Hip>& hips) const {
    std::string out;
    const auto add = [&](std::string_view s) { out.append(out.empty() ? "" : "; or ").append(s); };
    const auto steeper = [&](bool Hip::*these) {
      std::vector<std::string_view> ends;
      Length room = length();
      for (const Hip& h : hips)
        if (h.*these) ends.push_back(words(h.side));
        else room -= h.reach;
      if (ends.empty() || room <= same_place) return false;
      using boost::units::atan;
      const Quantity<si::dimensionless> least(
          static_cast<double>(static_cast<double>(ends.size()) * ridge_height(roof_, span()) / room));
      const double degrees = std::ceil(in(value(Angle(atan(least))), metric) * 10.0) / 10.0;
      if (degrees <= steepest_degrees)
        add(fmt::format("a `pitch` of the {} of its own, {:.1f} deg or steeper", fmt::join(ends, " and the "),
                        degrees));
      return true;
    };
    if (!steeper(&Hip::own_pitch)) steeper(&Hip::to_ridge);
    if (span() > length() + same_place)
      add(fmt::format("the ridge along the longer side, ridge = \"{}\"",
                      roof_.ridge == Along::across ? "up" : "across"));
    add("a gable above an end (`gable_above`) where its slope stops");
    return out;
  }

  void weight() {
    if (!r_.weight) return;
    const Pressure least = r_.weight->least.value_or(zero<Pressure>()), most = r_.weight->greatest.value_or(least);
    if (r_.weight->least && r_.weight->greatest && least > most)
      slip(under(path("weight"), "least"), "weights-swapped", "the least weight of the roof is more than the greatest");
    roof_.weight = {least, most, r_.weight->on == "slope"};
    if (!r_.weight->on) remark("the roof's weight is taken per square metre on plan: nothing else is said (on)");
  }

  const RoofAsk& ask_;
  const raw::Roof& r_;
  std::string at_;
  RoofSettled out_{};
  Roof& roof_ = out_.roof;
  bool shaped_ = false, ends_known_ = false;
};

}  // namespace

RoofSettled settle_roof(const RoofAsk& ask) { return RoofSettling(ask).run(); }

}  // namespace belay
