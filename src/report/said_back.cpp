#include "report/said_back.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <iterator>

namespace belay {

namespace {
using Lines = std::vector<std::string>;

class Page {
 public:
  Page(const House& h, const RoofSaid& roof, Look look) : h_(h), roof_(roof), u_(units_of(h.print)), look_(look) {}
  Lines lines;

  const Units& units() const { return u_; }
  std::string at(Length x) const { return place(x, u_); }
  std::string long_(Length x) const { return u_.name == us.name ? place(x, u_) : fmt::format("{} mm", place(x, u_)); }
  template <class Q> std::string q(const Q& x) const { return trimmed_text(value(x), u_); }

  void heading(std::string_view s) {
    lines.emplace_back();
    lines.push_back(bold(s, look_));
  }
  void say(std::string_view s, std::string_view first = "  ", std::string_view rest = "    ") {
    for (std::string& l : wrapped(s, first, rest)) lines.push_back(std::move(l));
  }
  const House& house() const { return h_; }
  const RoofSaid& roof() const { return roof_; }
  // Of a wing: its side that stands against the main block, and that block's name.
  std::optional<Side> joint;
  std::string_view main_block;

 private:
  const House& h_;
  const RoofSaid& roof_;
  const Units& u_;
  Look look_;
};

std::string chosen(const Chosen& c) {
  return c.given() ? fmt::format("{} ({})", harmless(c.name), chosen_words(c)) : "none given";
}

// ---- the site

std::string by_whom(const std::string& given_by, const std::string& at) {
  return fmt::format("Given by {}{}", given_by.empty() ? "nobody named" : harmless(given_by),
                     at.empty() ? "" : fmt::format(" ({})", file_name(at)));
}
std::string hill_words(const Page& p, const Hill& h) {
  std::string s = fmt::format("{} {} high", words(h.shape), p.q(h.rise));
  if (h.to_half_height > zero<Length>())
    s += fmt::format(", half of it {} level from the crest", p.q(h.to_half_height));
  if (h.behind_to_half_height > zero<Length>()) s += fmt::format(" ({} on its far side)", p.q(h.behind_to_half_height));
  if (h.upwind_slope > zero<Length>()) s += fmt::format(", slope upwind {} long", p.q(h.upwind_slope));
  if (h.downwind_slope > zero<Length>()) s += fmt::format(", slope downwind {} long", p.q(h.downwind_slope));
  const Length past = h.past_crest;
  s += past > zero<Length>()   ? fmt::format("; the house {} past the crest", p.q(past))
       : past < zero<Length>() ? fmt::format("; the house {} before the crest", p.q(-past))
                               : "; the house on the crest";
  return h.at.empty() ? s : fmt::format("{} ({})", s, file_name(h.at));
}
std::string ground_words(const Page& p, const std::optional<Hill>& hill) {
  return hill ? hill_words(p, *hill) : std::string("flat ground");
}
std::string yes_or_no(const std::optional<bool>& b) { return b ? (*b ? "yes" : "no") : "not stated"; }
void typed(Page& p, const TypedIn& t) {
  const auto say = [&](std::string_view what, const std::string& how_much) {
    p.say(fmt::format("{} {} typed in by an engineer, not worked out here", what, how_much));
  };
  if (t.gust) say("Gust", p.q(*t.gust));
  if (t.pressure) say("Pressure of the gust", p.q(*t.pressure));
}

// What is stated of one direction; the same words are the same wind.
std::string upwind_words(const Page& p, const Upwind& w) {
  std::string s =
      w.terrain.empty() ? std::string("terrain not stated") : fmt::format("terrain {}", harmless(w.terrain));
  if (w.shielding) s += fmt::format(", shielding {} as stated", number(value(*w.shielding), metric));
  else if (w.buildings)
    s += fmt::format(", shielded by {}, {} high and {} broad on the average",
                     counted(static_cast<std::size_t>(std::max(0, w.buildings->count)), "building", "buildings"),
                     p.q(w.buildings->height), p.q(w.buildings->breadth));
  else s += ", no shielding";
  return s + ", " + ground_words(p, w.hill);
}

struct Said_site {
  Page& p;
  void operator()(const ClassSite& s) const {
    const std::string by = by_whom(s.given_by, s.at);
    if (!s.from) {
      p.say(fmt::format("Class {}, g{}", harmless(s.wind_class), by.substr(1)));
      return;
    }
    const ClassFrom& f = *s.from;
    p.say(fmt::format("Class to be {}: region {}, terrain {}, shielding {}, {}",
                      f.table ? "read from a table of the user's own" : "worked out", harmless(f.region),
                      harmless(f.terrain), harmless(f.shielding),
                      f.hill || f.topography.empty() || f.topography == "flat"
                          ? ground_words(p, f.hill)
                          : fmt::format("topography {}", harmless(f.topography))));
    if (f.table)
      p.say(fmt::format("The user's table: {} ({}), {}", harmless(f.table->file), harmless(f.table->source),
                        counted(f.table->rows.size(), "row", "rows")));
    p.say(by);
  }
  void operator()(const AsceSite& a) const {
    p.say(fmt::format("ASCE {}, {} {} speed, exposure {}, risk category {}, {} level", harmless(a.edition),
                      p.q(a.speed), harmless(a.speed_is), harmless(a.exposure), harmless(a.risk), harmless(a.level)));
    typed(p, a.typed);
    p.say(fmt::format("Procedure: {}", harmless(a.procedure)));
    p.say(fmt::format("Ground: {}, {}", ground_words(p, a.hill),
                      a.ground_level ? fmt::format("{} above the sea", p.q(*a.ground_level))
                                     : std::string("height above the sea not stated: taken at the sea")));
    p.say("Wind-borne debris region: " + yes_or_no(a.debris_region));
    p.say(by_whom(a.given_by, a.at));
  }
  void operator()(const AsNzsSite& a) const {
    std::string head = fmt::format("{}:{}", a.family == "nzs-3604" ? "NZS 3604" : "AS/NZS 1170.2", harmless(a.edition));
    if (!a.zone.empty()) head += fmt::format(", zone {}", harmless(a.zone));
    if (!a.region.empty()) head += fmt::format(", region {}", harmless(a.region));
    if (a.years > 0 && !a.typed.given()) head += fmt::format(", a gust exceeded once in {} years", a.years);
    if (a.service_years > 0 && !a.typed.given()) head += fmt::format(" (in service: once in {})", a.service_years);
    p.say(head);
    typed(p, a.typed);
    if (a.zone.empty() && !a.typed.given()) {
      p.say(a.north ? fmt::format("North: {} clockwise from up the sheet", p.q(*a.north))
                    : "North: not known; every face takes the worst of all directions");
      p.say(a.ground_level > zero<Length>() ? fmt::format("Ground {} above the sea", p.q(a.ground_level))
                                            : std::string("Ground: at the sea, or its height is not stated"));
      std::vector<std::pair<std::string, std::vector<std::string>>> groups;
      for (std::size_t i = 0; i < a.from.size(); ++i) {
        const std::string said = upwind_words(p, a.from[i]);
        auto g = std::ranges::find(groups, said, &std::pair<std::string, std::vector<std::string>>::first);
        if (g == groups.end()) g = groups.insert(groups.end(), {said, {}});
        g->second.emplace_back(directions[i]);
      }
      for (const auto& [said, from] : groups)
        p.say(fmt::format("From {}: {}", from.size() == a.from.size() ? "every direction" : and_list(from), said));
    }
    p.say(a.sealed ? "The house is stated to be as good as airtight" : "The house is not stated to be airtight");
    p.say("Wind-borne debris region: " + yes_or_no(a.debris_region));
    p.say(by_whom(a.given_by, a.at));
  }
  void operator()(const EnSite& e) const {
    std::string head = fmt::format("EN 1991-1-4:{}", harmless(e.edition));
    if (e.speed > zero<Speed>()) head += fmt::format(", basic wind {} (mean of ten minutes)", p.q(e.speed));
    if (!e.terrain.empty()) head += fmt::format(", terrain {}", harmless(e.terrain));
    p.say(head);
    typed(p, e.typed);
    if (!e.typed.given()) p.say("Ground: " + ground_words(p, e.hill));
    std::string national;
    const auto own = [&](std::string_view what, const std::string& how_much) {
      national += fmt::format("{}{} {}", national.empty() ? "" : ", ", what, how_much);
    };
    if (e.directional) own("c_dir", number(value(*e.directional), metric));
    if (e.season) own("c_season", number(value(*e.season), metric));
    if (e.probability) own("c_prob", number(value(*e.probability), metric));
    if (e.air) own("air", p.q(*e.air));
    p.say("National choices: " + (national.empty() ? "none stated, as the standard recommends" : national));
    p.say(by_whom(e.given_by, e.at));
  }
};

void site(Page& p) {
  const House& h = p.house();
  if (h.sites.size() < 2) {
    p.heading("Site");
    std::visit(Said_site{p}, h.site);
  }
  for (const NamedSite& s : h.sites) {
    if (h.sites.size() < 2) break;
    p.heading(fmt::format("Site {}{}", harmless(s.name),
                          stated_at(s.site) == stated_at(h.site) ? ", by which the house is judged" : ""));
    std::visit(Said_site{p}, s.site);
  }
  p.say(fmt::format("Importance {}", h.importance));
}

// ---- the roof

std::size_t index(Side side) { return static_cast<std::size_t>(side); }
bool across_ridge(const House& h, Side side) {
  const bool left_or_right = side == Side::left || side == Side::right;
  return h.roof.ridge == Along::across ? !left_or_right : left_or_right;
}
Side facing(Side side) {
  switch (side) {
    case Side::left: return Side::right;
    case Side::right: return Side::left;
    case Side::front: return Side::back;
    case Side::back: return Side::front;
  }
  return side;
}
bool one_slope(const Roof& r) { return r.shape == RoofShape::skillion || r.shape == RoofShape::flat; }
// Both slopes and both ends alike, and nothing but trusses from wall to wall: said in a line.
bool plain_roof(const Roof& r) {
  const auto none = [](const auto& list) { return std::ranges::none_of(list, [](const auto& x) { return !!x; }); };
  return r.shape == RoofShape::gable && none(r.own_pitch) && none(r.own_overhang);
}
bool plain_trusses(const House& h) {
  return plain_roof(h.roof) && h.hip_ends.empty() &&
         std::ranges::all_of(h.trusses, [](const Truss& t) { return !t.girder && t.plies == 1 && t.also_on.empty(); });
}
std::string runs_words(Along a) { return a == Along::across ? "across the sheet" : "up the sheet"; }

std::string side_of_roof(const Page& p, Side side) {
  const House& h = p.house();
  const Roof& r = h.roof;
  const std::size_t i = index(side);
  if (side == p.joint) return fmt::format("stands against block {}", harmless(std::string(p.main_block)));
  const bool slopes = one_slope(r) ? side == facing(r.high) : across_ridge(h, side) || r.hipped[i];
  std::string s = slopes ? fmt::format("{}, pitch {}", across_ridge(h, side) ? "slope" : "hip end",
                                       p.q(r.own_pitch[i].value_or(r.pitch)))
                  : one_slope(r) && side == r.high ? std::string("high face")
                  : one_slope(r)                   ? std::string("end, along the slope")
                                                   : std::string("gable");
  s += fmt::format(", overhang {}", p.long_(r.own_overhang[i].value_or(slopes ? r.eaves : r.verge)));
  if (r.gable_above[i] > zero<Length>())
    s += fmt::format(", a gable above it {} in from the wall", p.long_(r.gable_above[i]));
  return s;
}
// "Ridge 1616 mm above the bearings, hips up to it"; nothing where no lines are known.
std::string heights(const Page& p) {
  std::string ridge;
  std::vector<std::string> hips;
  for (const RoofLineSaid& l : p.roof().lines) {
    const std::string up = p.long_(std::max(l.from.above, l.to.above));
    if (l.kind == "ridge" || l.kind == "high edge") ridge = fmt::format("{} {} above the bearings", l.kind, up);
    if (l.kind == "hip" && std::ranges::find(hips, up) == hips.end()) hips.push_back(up);
  }
  std::string s = ridge;
  if (!hips.empty()) s += fmt::format("{}hips rise to {}", s.empty() ? "" : "; ", and_list(hips));
  return s;
}
void roof(Page& p) {
  const Roof& r = p.house().roof;
  if (plain_roof(r)) {
    p.say(fmt::format("Gable roof, ridge {}, pitch {}, eaves {}, verge {}", runs_words(r.ridge), p.q(r.pitch),
                      p.long_(r.eaves), p.long_(r.verge)));
    return;
  }
  p.say(capitalised(
      fmt::format("{} roof, {} {}:", words(r.shape), one_slope(r) ? "high edge" : "ridge", runs_words(r.ridge))));
  std::vector<std::pair<std::string, std::vector<std::string>>> alike;
  for (const Side side : {Side::front, Side::back, Side::left, Side::right}) {
    const std::string said = side_of_roof(p, side);
    auto known = std::ranges::find(alike, said, &std::pair<std::string, std::vector<std::string>>::first);
    if (known == alike.end()) known = alike.insert(alike.end(), {said, {}});
    known->second.emplace_back(words(side));
  }
  for (const auto& [said, sides] : alike) p.say(fmt::format("{}: {}", and_list(sides), said), "    ", "      ");
  if (const std::string up = heights(p); !up.empty()) p.say(capitalised(up));
  if (p.roof().mean_height > zero<Length>())
    p.say(fmt::format("Mean roof height {} above the ground, highest point {}", p.long_(p.roof().mean_height),
                      p.long_(p.roof().top)));
}

void joists(Page& p, const std::optional<Joists>& j) {
  if (!j) return;
  std::string s = fmt::format(
      "Its joists run {} the sheet, {} wide, {} from middle to middle, from the {}; one along each outside wall beside "
      "them",
      j->runs == Along::across ? "across" : "up", p.long_(j->width), p.long_(j->spacing),
      j->runs == Along::up ? (j->from_far ? "right" : "left") : (j->from_far ? "back" : "front"));
  if (j->edge) s += "; a member under all outside walls";
  s += j->blocking ? "; blocking under every fixing that meets none" : "; no blocking is stated";
  p.say(s);
}
void on_stumps(Page& p) {
  if (!p.house().framed) return;
  const StumpFloor& floor = *p.house().framed;
  p.say("Ground floor framed on stumps, no slab");
  joists(p, floor.joists);
  if (floor.stumps) {
    const Footing& f = floor.stumps->footing;
    std::string s = fmt::format("Stumps under the walls at most {} apart, one at each end; tie on to a stump: {}",
                                p.long_(floor.stumps->max), chosen(floor.stumps->tie));
    s += f.width && f.length && f.thickness && f.weight
             ? fmt::format("; footings {} by {}, {} thick, of concrete that weighs {}", p.long_(*f.width),
                           p.long_(*f.length), p.long_(*f.thickness), p.q(*f.weight))
             : std::string("; what a footing weighs is not stated: not judged");
    p.say(s);
  } else {
    p.say("Stumps: none stated, not judged");
  }
  for (const auto& [braces, way] : {std::pair{&floor.across, "across"}, {&floor.up, "up"}})
    p.say(*braces
              ? fmt::format("Bracing under it, {} the sheet: {} of {}", way, (*braces)->count, chosen((*braces)->use))
              : fmt::format("Bracing under it, {} the sheet: none stated, not judged", way));
}

void frames_of_two(Page& p) {
  const House& h = p.house();
  p.say(fmt::format("Ground floor's frame {} high, first floor's {} (underside of bottom plate to top of top plate)",
                    p.long_(h.height), p.long_(h.first->height)));
  p.say(
      fmt::format("Framed floor between them {} deep: from the top of the walls below to the underside of the first "
                  "floor's plates",
                  p.long_(h.first->depth)));
  joists(p, h.first->joists);
  if (h.first->weight > zero<Pressure>())
    p.say(fmt::format("Its weight {}, for the whole house on the ground alone", p.q(h.first->weight)));
  p.say(
      fmt::format("Above the underside of the ground floor's plates: the first floor's plates {}, the roof's bearings "
                  "{}",
                  p.long_(foot_of_walls(h, Floor::first)), p.long_(top_of_walls(h))));
  p.say(fmt::format("Ground floor {} above the ground's lowest side", p.long_(h.floor_level)));
}

void block_itself(Page& p) {
  const House& h = p.house();
  p.say(fmt::format("{} across the sheet, {} up the sheet, to the outside of the frame", p.long_(h.across),
                    p.long_(h.up)));
  if (h.first) frames_of_two(p);
  else
    p.say(fmt::format(
        "Frame {} high (underside of bottom plate to top of top plate); floor {} above the ground's lowest side",
        p.long_(h.height), p.long_(h.floor_level)));
  roof(p);
  const RoofWeight& w = h.roof.weight;
  const std::string on = w.on_slope ? "on the slope" : "on plan";
  p.say(w.least == w.greatest ? fmt::format("Roof weight {} {}", p.q(w.least), on)
                              : fmt::format("Roof weight {} to {} {}: the least holds down, the greatest presses",
                                            p.q(w.least), p.q(w.greatest), on));
}
// What the concrete under the walls is by the job, and who says so.
void weighed(Page& p, const Slab& slab) {
  if (!slab.weight) return;
  const auto edge = [&](const std::optional<Edge>& e, std::string_view where) {
    if (!e) return;
    std::string s =
        fmt::format("Under {} walls: concrete {} wide, {} deep", where, p.long_(e->width), p.long_(e->depth));
    if (e->slab_width > zero<Length>())
      s += fmt::format(", with {} of slab {} thick beside it", p.long_(e->slab_width), p.long_(e->slab_thickness));
    s += e->lifted ? fmt::format("; a fixing may call on {}, half to either side", p.long_(*e->lifted))
                   : std::string("; a fixing may call on it half way to its neighbours");
    p.say(fmt::format("{}; given by {}", s, harmless(e->given_by)));
  };
  if (slab.edge || slab.inside || slab.whole) p.say(fmt::format("Concrete weighs {}", p.q(*slab.weight)));
  edge(slab.edge, "outside");
  edge(slab.inside, "inside");
  if (const std::optional<WholeSlab>& w = slab.whole)
    p.say(fmt::format("The whole on the ground: slab at least {} thick, friction {}; given by {}",
                      p.long_(w->thickness), w->friction ? text(*w->friction, p.units()) : "not stated",
                      harmless(w->given_by)));
}
void block(Page& p) {
  const House& h = p.house();
  p.heading(fmt::format("Block {}", harmless(h.block)));
  block_itself(p);
  p.say(h.wall_weight > zero<Pressure>() ? fmt::format("Wall weight {} of wall face", p.q(h.wall_weight))
                                         : "Wall weight: none stated; walls give no help against uplift");
  p.say(h.ceiling == Ceiling::both ? std::string("Ceiling: taken as flexible and as rigid, the worse for each link")
                                   : fmt::format("Ceiling: taken as {} alone, as the job says", words(h.ceiling)));
  on_stumps(p);
  std::string slab = fmt::format("Slab: {} beyond the frame's outside face", p.long_(h.slab.beyond));
  slab += h.slab.thickness ? fmt::format(", {} thick", p.long_(*h.slab.thickness)) : ", thickness not stated";
  slab += h.slab.concrete ? fmt::format(", concrete {}", strength_text(*h.slab.concrete, p.units()))
                          : ", concrete not stated";
  slab += h.slab.cracked ? (*h.slab.cracked ? ", taken as cracked" : ", stated as not cracked")
                         : ", cracked or not: not stated";
  if (!h.framed) p.say(slab);
  weighed(p, h.slab);
  std::string frame = "Frame: steel " + (h.frame.steel ? size_text(*h.frame.steel, p.units()) + " thick"
                                                       : std::string("thickness not stated"));
  frame += h.frame.joint_group ? fmt::format(", timber joint group {}", harmless(*h.frame.joint_group))
                               : ", timber joint group not stated";
  if (h.frame.yield) frame += fmt::format(", its steel yields at {}", strength_text(*h.frame.yield, p.units()));
  if (h.frame.ultimate) frame += fmt::format(", breaks at {}", strength_text(*h.frame.ultimate, p.units()));
  p.say(frame);
}

// ---- several blocks

bool several(const House& h) { return !h.wings.empty(); }
std::string level_words(const Page& p, Length above, const std::string& what) {
  return above > zero<Length>()   ? fmt::format("{} above {}", p.long_(above), what)
         : above < zero<Length>() ? fmt::format("{} below {}", p.long_(-above), what)
                                  : fmt::format("level with {}", what);
}
// A place in the main block's axes; negative before its front or left of its left.
std::string from_main(const Page& p, Length x, bool from_left) {
  const std::string_view side = from_left ? "left" : "front";
  return x < zero<Length>() ? fmt::format("{} {} its {}", p.long_(-x), from_left ? "left of" : "before", side)
                            : fmt::format("{} from its {}", p.long_(x), side);
}
void wing(Page& p, const House& house, const Wing& w) {
  p.heading(fmt::format("Block {}", harmless(w.name)));
  const Side at = facing(w.joint);
  const bool across = at == Side::front || at == Side::back;
  const Length from = across ? w.left : w.front, to = from + (across ? w.across : w.up);
  const std::string main = fmt::format("block {}", harmless(house.block));
  p.say(fmt::format("Stands against the {} of {}, from {} to {} along it ({})", words(at), main, p.at(from), p.at(to),
                    file_name(w.at)));
  p.say(fmt::format("Its left front corner in {}'s axes: {} and {}", main, from_main(p, w.left, true),
                    from_main(p, w.front, false)));
  p.say(fmt::format("Its floor {}; its trusses bear {}", level_words(p, w.level, "that of " + main),
                    level_words(p, w.level + w.height - top_of_walls(house), "those of " + main)));
  block_itself(p);
}
void valley(Page& p, const Wing& w) {
  if (!w.valley) {
    p.say("No part of its roof lies on the main roof");
    return;
  }
  p.say(fmt::format(
      "Valley trusses {} past the joint, on the main block's trusses, at most {} apart; at each crossing {}",
      harmless(w.valley->mark), p.long_(w.valley->max), chosen(w.valley->onto)));
}
std::string blocks_words(const House& h, const Wall& w) {
  std::vector<std::string> names;
  for (const std::size_t b : w.blocks) names.emplace_back(harmless(std::string(name_of(h, b))));
  return fmt::format("{} {}", names.size() == 1 ? "block" : "blocks", and_list(names));
}
void wall_among_blocks(Page& p, const Wall& w) {
  const House& h = p.house();
  const bool across = w.runs == Along::across;
  p.heading(fmt::format("Wall {}, {} {}", harmless(w.name),
                        w.outside             ? fmt::format("the {} of", words(w.side))
                        : w.blocks.size() > 1 ? "at the joint of"
                                              : "inside",
                        blocks_words(h, w)));
  p.say(fmt::format("{} long, runs {}; in block {}'s axes {}, starts {} ({})", p.long_(w.length()), runs_words(w.runs),
                    harmless(h.block), from_main(p, w.line, !across), from_main(p, w.from, across), file_name(w.at)));
  for (const Length& step : w.steps)
    p.say(fmt::format("The floor steps at {}: the bottom plate is parted there", p.at(step)));
  p.say(fmt::format("Frame {} high", p.long_(height_of(h, w))));
}

void chain(Page& p) {
  const House& h = p.house();
  p.heading("From the truss to the ground, for the whole house");
  std::vector<std::string> said;
  const auto row = [&](std::string_view what, const Chosen& c, std::string_view kind, std::string_view key,
                       std::string_view spaced = {}) {
    const auto by = std::ranges::find(h.by_others, kind, &ByOthers::what);
    if (c.given()) {
      p.say(fmt::format("{}: {} ({}){}", what, harmless(c.name), chosen_words(c), spaced));
    } else if (by != h.by_others.end()) {
      p.say(fmt::format("{}: by others, {}", what, harmless(by->who)));
      said.emplace_back(kind);
    } else {
      p.say(fmt::format("{}: none given; not judged until `{}` is given or `by_others` says who answers", what, key));
    }
  };
  // Walls of one floor have the same ties; so have both floors, as a rule.
  const Wall &upper = h.walls.back(), &lower = h.walls.front();
  const auto rows = [&](std::string_view what, Chosen Wall::*tie, std::string_view kind, std::string_view key) {
    const Chosen &above = upper.*tie, &below = lower.*tie;
    if (above.name == below.name && above.at == below.at) return row(what, below, kind, key);
    row(fmt::format("{}, first floor", what), above, kind, key);
    row(fmt::format("{}, ground floor", what), below, kind, key);
  };
  rows("Top plate to stud", &Wall::top_tie, "top tie", "top_tie");
  rows("Stud to bottom plate", &Wall::stud_tie, "stud tie", "stud_tie");
  rows("Plate to its anchors", &Wall::plate_fixing, "plate", "plate_fixing");
  if (h.first) {
    row("From a first floor's fixing to the wall below", h.first->tie, "floor tie", "floor_tie");
    row("First floor on to the walls below", h.first->fixing, "floor fixing", "floor_fixing",
        fmt::format(", at most {} apart along each bracing line", p.long_(h.first->fixing_spacing)));
  }
  for (const ByOthers& b : h.by_others)
    if (std::ranges::find(said, b.what) == said.end())
      p.say(fmt::format("By others: {}, {}", kind_words(harmless(b.what), true), harmless(b.who)));
  for (const CheckedFigure& c : h.checked) p.say(fmt::format("Checked: {}, {}", harmless(c.figure), harmless(c.who)));
}

std::string piece_words(const Page& p, const Piece& x) {
  if (x.opening)
    return fmt::format("{} {} {} high x {} wide", x.opening->door ? "door" : "opening", harmless(x.opening->mark),
                       p.at(x.opening->height), p.at(x.opening->width));
  if (x.brace) return fmt::format("brace {}", harmless(x.brace->name));
  return "plain wall";
}

void openings_of(Page& p, const Wall& w) {
  std::vector<std::string> seen;
  for (const Piece& x : w.pieces) {
    if (!x.opening) continue;
    const Opening& o = *x.opening;
    if (std::ranges::find(seen, o.mark) != seen.end()) continue;
    seen.push_back(o.mark);
    std::string s = fmt::format("{}: jamb {}", harmless(o.mark), o.jamb.given() ? chosen(o.jamb) : "on plate anchors");
    if (o.stands_open) s += "; stands open";
    if (o.wind_rated) s += fmt::format("; wind rated: {}", harmless(*o.wind_rated));
    p.say(s, "    ", "      ");
  }
}

void frames_of(Page& p, const Wall& w) {
  if (w.frames.empty()) return;
  std::vector<std::string> said;
  for (const ShopFrame& f : w.frames)
    said.push_back(kept_together(
        fmt::format("{}{} to {}", f.mark.empty() ? "" : harmless(f.mark) + " ", p.at(f.from), p.at(f.to))));
  std::string s = fmt::format("{}: {}", counted(w.frames.size(), "frame", "frames"), and_list(said));
  if (w.frames.size() > 1) s += "; both plates part at each joint; what fastens one frame to the next is not looked at";
  p.say(s, "    ", "      ");
}

void walls(Page& p, const std::vector<Station>& stations) {
  const bool two = p.house().first.has_value();
  std::optional<Floor> floor;
  for (const Wall& w : p.house().walls) {
    if (two && floor != w.floor) p.heading(capitalised(fmt::format("{} floor", words(w.floor))));
    floor = w.floor;
    const std::string_view on = w.floor == Floor::ground && !p.house().framed ? "slab" : "floor";
    const std::string where = w.outside ? fmt::format("the {}", words(w.side)) : "inside";
    if (several(p.house())) {
      wall_among_blocks(p, w);
    } else {
      p.heading(fmt::format("Wall {}, {}", harmless(two ? w.key : w.name), where));
      p.say(fmt::format("{} long, runs {}, {} from the {} ({}){}", p.long_(w.length()),
                        w.runs == Along::across ? "across the sheet" : "up the sheet", p.long_(w.line),
                        w.runs == Along::across ? "front" : "left", file_name(w.at),
                        w.from > zero<Length>() ? fmt::format("; starts at {}", p.at(w.from)) : ""));
    }
    p.say(fmt::format("Places from its {} end, in {}:", w.runs == Along::across ? "left" : "front",
                      place_unit(p.units())));
    std::size_t from_wide = 0, to_wide = 0;
    for (const Piece& x : w.pieces) {
      from_wide = std::max(from_wide, columns(p.at(x.from)));
      to_wide = std::max(to_wide, columns(p.at(x.to)));
    }
    for (const Piece& x : w.pieces)
      p.say(piece_words(p, x),
            fmt::format("    {} to {}   ", right(p.at(x.from), from_wide), right(p.at(x.to), to_wide)),
            std::string(from_wide + to_wide + 11, ' '));
    for (const Piece& x : w.pieces) {
      if (!x.brace) continue;
      const Brace& b = *x.brace;
      std::string s = fmt::format("{}: {}", harmless(b.name), chosen(b.fixing));
      const bool perforated = find(p.house().fixings.perforated, b.fixing.name) != nullptr;
      if (perforated)
        s += fmt::format("; of a wall with openings that is held down at its two ends alone, openings {}",
                         b.round_openings ? "with the sheet round them" : "as high as the wall");
      s += b.hold_down.given()
               ? fmt::format("; hold-downs {}, {} in from {}", chosen(b.hold_down), p.long_(b.hold_down_in),
                             perforated ? "them" : "its ends")
               : "; no hold-down of its own: the anchor nearest to its end must do, if it stands near enough";
      if (b.end_studs.given()) s += fmt::format("; pressed on {}", chosen(b.end_studs));
      if (b.foot) s += fmt::format("; foot at its {} end", words(*b.foot));
      if (b.plate_anchors_share) s += "; plate anchors within it share the slide, as stated";
      if (const std::string found = found_words(p.house(), b); !found.empty())
        s += fmt::format("; as built {}", harmless(found));
      p.say(s, "    ", "      ");
    }
    openings_of(p, w);
    frames_of(p, w);
    p.say(w.anchor.given()
              ? fmt::format("Plate anchors {}, {} {} apart; plate {} wide", chosen(w.anchor),
                            w.anchor_each_joist ? "at each joist that it crosses, else at most" : "at most",
                            p.long_(w.anchor_spacing), p.long_(w.plate_width))
              : fmt::format("Plate anchors: none given, not judged; plate {} wide", p.long_(w.plate_width)));
    std::vector<const Station*> own;
    for (const Station& s : stations)
      if (s.wall == w.name) own.push_back(&s);
    std::ranges::stable_sort(own, {}, [](const Station* s) { return s->from_start; });
    if (own.empty()) {
      p.say(fmt::format("No fixing to the {} stands on this wall.", on));
      continue;
    }
    const bool found = std::ranges::any_of(p.house().as_built, [&](const AsBuilt& b) { return b.wall == w.name; });
    p.say(fmt::format("{} to the {}, set out by rule{}:", counted(own.size(), "fixing", "fixings"), on,
                      found ? " and as found on site" : ""));
    std::size_t at_wide = 0, what_wide = 0, fix_wide = 0;
    for (const Station* s : own) {
      at_wide = std::max(at_wide, columns(p.at(s->from_start)));
      what_wide = std::max(what_wide, columns(harmless(s->what)));
      fix_wide = std::max(fix_wide, columns(harmless(s->fixing)));
    }
    for (const Station* s : own) {
      const std::string head = fmt::format("    {}  {}  {}", right(p.at(s->from_start), at_wide),
                                           padded(harmless(s->what), what_wide), padded(harmless(s->fixing), fix_wide));
      if (s->serves.empty()) p.lines.push_back(head);
      else p.say(harmless(s->serves), head + "  ", std::string(at_wide + 6, ' '));
    }
  }
}

// Places in a row, as many to a line as there is room for.
void in_a_row(Page& p, const std::vector<std::string>& places) {
  std::string all;
  for (const std::string& s : places) all += (all.empty() ? "" : "  ") + s;
  p.say(all, "      ", "      ");
}
std::string kind_of(const Page& p, std::size_t truss) {
  const std::vector<MemberSaid>& members = p.roof().members;
  if (truss < members.size()) return members[truss].kind;
  return p.house().trusses[truss].girder ? "hip girder" : "truss";
}
std::string truss_words(const Page& p, std::size_t i) {
  const Truss& t = p.house().trusses[i];
  std::string s = harmless(t.mark);
  if (const std::string kind = kind_of(p, i); kind != "truss") s += ", " + kind;
  if (t.plies > 1) s += fmt::format(", {} plies", t.plies);
  s += fmt::format(", bracket at {} {}",
                   t.also_on.empty() || (t.clear_of && t.also_on.size() == 1) ? "both bearings" : "every bearing",
                   chosen(t.bracket));
  std::vector<std::string> inside;
  for (const std::string& w : t.also_on) inside.push_back(harmless(w));
  if (t.clear_of)
    s += fmt::format(", clear of the {}: on wall{} {} instead", words(*t.clear_of), inside.size() == 1 ? "" : "s",
                     and_list(inside));
  else if (!inside.empty()) s += fmt::format(", also on wall{} {}", inside.size() == 1 ? "" : "s", and_list(inside));
  return s;
}

// The walls in the line of a side under the roof: its outside wall; of several blocks those at a joint as well.
std::string walls_under(const House& h, Side side) {
  const bool across = side == Side::front || side == Side::back;
  const Length line = side == Side::right ? h.across : side == Side::back ? h.up : zero<Length>();
  std::vector<std::string> names;
  for (const Wall& w : h.walls)
    if (w.floor == top_floor(h) && stands_in(w, 0) && (w.runs == Along::across) == across &&
        w.line - line <= same_place && line - w.line <= same_place)
      names.push_back(harmless(w.name));
  if (names.empty()) return std::string(words(side));
  return fmt::format("wall{} {} ({})", names.size() == 1 ? "" : "s", and_list(names), words(side));
}
// The walls that run along the ridge carry the trusses: one bearing at each end.
void trusses(Page& p, std::string_view of_block) {
  const House& h = p.house();
  const bool across = h.roof.ridge == Along::across;
  p.heading(fmt::format("Trusses{}", of_block));
  const std::string bear[2] = {walls_under(h, across ? Side::front : Side::left),
                               walls_under(h, across ? Side::back : Side::right)};
  const bool clear = std::ranges::any_of(h.trusses, [](const Truss& t) { return t.clear_of.has_value(); });
  p.say(fmt::format(
      "{}, each on {} and {}{}; places from the {}, in {}:", counted(h.trusses.size(), "truss", "trusses"), bear[0],
      bear[1], clear ? " where nothing else is said" : "", across ? "left" : "front", place_unit(p.units())));
  // What it is with its bracket, then the places; those of a hip roof's two ends stand together.
  std::vector<std::pair<std::string, std::vector<std::string>>> runs;
  const bool plain = plain_trusses(h);
  for (std::size_t i = 0; i < h.trusses.size(); ++i) {
    const std::string name = truss_words(p, i);
    auto run = runs.empty() ? runs.end() : std::prev(runs.end());
    if (!plain) run = std::ranges::find(runs, name, &std::pair<std::string, std::vector<std::string>>::first);
    if (run == runs.end() || run->first != name) run = runs.insert(runs.end(), {name, {}});
    run->second.push_back(p.at(h.trusses[i].at));
  }
  for (const auto& [name, places] : runs) {
    p.say(name + ", at", "    ", "      ");
    in_a_row(p, places);
  }
}

// Straps in the plane of the roof.
void roof_braces(Page& p) {
  const std::vector<RoofBraceSaid>& braces = p.roof().braces;
  if (braces.empty()) return;
  const bool across = p.house().roof.ridge == Along::across;
  const std::string_view top = one_slope(p.house().roof) ? "high edge" : "ridge";
  p.heading("Braces in the plane of the roof");
  p.say(fmt::format("{}; places along the {} from the {}, in {}:", counted(braces.size(), "strap", "straps"), top,
                    across ? "left" : "front", place_unit(p.units())));
  for (const RoofBraceSaid& b : braces)
    p.say(fmt::format("{}: from the {} wall at {} up to {} at {}, {} long, {} to the {}{}; {}", b.name, b.slope,
                      p.at(b.foot),
                      b.stops_short ? fmt::format("a point {} from that wall, level,", p.long_(b.level))
                                    : fmt::format("the {}", top),
                      p.at(b.head), p.long_(b.length), p.q(b.to_ridge), top,
                      b.pair ? ", and another that crosses it" : "", chosen(b.fixing)),
          "    ", "      ");
}

// Open roofs against a wall.
void verandas(Page& p) {
  for (const Veranda& v : p.house().verandas) {
    p.heading(fmt::format("Veranda {}, against wall {}", harmless(v.name), harmless(v.wall)));
    p.say(fmt::format("From {} to {} along that wall; {} deep to the posts, {} past them, level; falls away at {}",
                      p.at(v.from), p.at(v.to), p.long_(v.depth), p.long_(v.overhang), p.q(v.pitch)));
    p.say(fmt::format("Weight {} on plan", p.q(v.weight)));
    if (v.net_uplift)
      p.say(fmt::format("The wind lifts it by {}, typed in, not worked out here; given by {}",
                        p.q(v.net_uplift->pressure), harmless(v.net_uplift->given_by)));
    else p.say("What the wind lifts of it is not given (net_uplift): not judged");
    const auto places = [&](const std::vector<Length>& list) {
      std::vector<std::string> words;
      for (const Length& x : list) words.push_back(p.at(x));
      in_a_row(p, words);
    };
    p.say(fmt::format("Rafters {}, at the wall {}, on the beam {}; along the wall at", harmless(v.mark),
                      chosen(v.at_wall), chosen(v.at_beam)),
          "    ", "      ");
    places(v.rafters);
    p.say(fmt::format("Posts, at their top {}, at their foot {}; along the wall at", chosen(v.post_top),
                      chosen(v.post_foot)),
          "    ", "      ");
    places(v.posts);
    const Footing& f = v.footing;
    p.say(fmt::format(
        "Footings: {}, {}, {}, {}", f.thickness ? p.long_(*f.thickness) + " thick" : "thickness not stated",
        f.concrete ? "concrete " + strength_text(*f.concrete, p.units()) : "concrete not stated",
        f.cracked ? (*f.cracked ? "taken as cracked" : "stated as not cracked") : "cracked or not: not stated",
        f.edge ? p.long_(*f.edge) + " from a post's anchor to the edge" : "distance to the edge not stated"));
    if (f.width && f.length && f.weight)
      p.say(fmt::format("Each footing {} by {}, of concrete that weighs {}", p.long_(*f.width), p.long_(*f.length),
                        p.q(*f.weight)));
    else p.say("What a footing weighs is not stated (footing: width, length, weight): not judged");
  }
}

// ---- hip ends

std::string several(std::string_view kind) { return fmt::format("{}{}", kind, kind.ends_with("s") ? "es" : "s"); }
// Its place along the wall that it stands square to; of a hip rafter none.
std::string place_of_member(const Page& p, const MemberSaid& m) {
  if (m.from.up == m.to.up) return p.at(m.from.up);
  if (m.from.across == m.to.across) return p.at(m.from.across);
  return {};
}
std::string places_from(const MemberSaid& m) {
  return m.from.up == m.to.up ? ", from the front at" : m.from.across == m.to.across ? ", from the left at" : "";
}
void hip_end(Page& p, const HipEnd& e, std::string_view of_block) {
  const House& h = p.house();
  const bool first = e.side == Side::left || e.side == Side::front;
  p.heading(fmt::format("Hip end{}, the {}", of_block, words(e.side)));
  if (!h.trusses.empty()) {
    const Truss& girder = first ? h.trusses.front() : h.trusses.back();
    p.say(fmt::format(
        "Girder {} at {}, {} from this end's wall; jacks at most {} apart", harmless(girder.mark), p.at(girder.at),
        p.long_(first ? girder.at : (h.roof.ridge == Along::across ? h.across : h.up) - girder.at), p.long_(e.jacks)));
  }
  struct Group {
    std::string name, kind, from;
    std::vector<std::string> places;
    std::size_t n;
  };
  std::vector<Group> groups;
  for (const MemberSaid& m : p.roof().members) {
    if (m.hip_end != words(e.side)) continue;
    std::string on;
    for (std::size_t i = 0; i < m.bearings.size(); ++i)
      on += (i == 0 ? "" : i + 1 == m.bearings.size() ? " and " : ", ") + harmless(m.bearings[i].on);
    const std::string at = place_of_member(p, m);
    const std::string name = fmt::format("{} on {}", harmless(at.empty() ? m.words : m.mark), on);
    auto g = std::ranges::find(groups, name, &Group::name);
    if (g == groups.end()) g = groups.insert(groups.end(), Group{name, m.kind, places_from(m), {}, 0});
    ++g->n;
    if (!at.empty()) g->places.push_back(at);
  }
  for (const Group& g : groups) {
    const std::string what = g.n == 1 ? g.kind : fmt::format("{} {}", g.n, several(g.kind));
    p.say(fmt::format("{} {}{}", what, g.name, g.from), "    ", "      ");
    if (!g.places.empty()) in_a_row(p, g.places);
  }
  const auto brackets = [&](std::string_view what, const Chosen& bracket, std::string_view upper, const Chosen& onto) {
    p.say(fmt::format("Brackets of {}: on walls {}; on {} {}", what, chosen(bracket), upper, chosen(onto)));
  };
  brackets("jacks and creepers", e.jack_bracket, "the girder or a hip rafter", e.jack_onto);
  brackets("hip rafters", e.rafter_bracket, "the girder", e.rafter_onto);
}

// How much of the roof each kind holds, overhangs with it.
void roof_held(Page& p) {
  struct Held {
    std::string kind, mark;
    std::size_t n;
    Area roof;
  };
  std::vector<Held> kinds;
  Area all = zero<Area>();
  for (const MemberSaid& m : p.roof().members) {
    auto k = std::ranges::find_if(kinds, [&](const Held& x) { return x.kind == m.kind && x.mark == harmless(m.mark); });
    if (k == kinds.end()) k = kinds.insert(kinds.end(), Held{m.kind, harmless(m.mark), 0, zero<Area>()});
    ++k->n;
    k->roof += m.roof;
    all += m.roof;
  }
  if (kinds.empty()) return;
  const auto round = [&](Area a) {
    return fmt::format("{:.1f} {}", in(value(a), p.units()), unit_word(Kind::area, p.units()));
  };
  std::string s;
  for (const Held& k : kinds)
    s += fmt::format("{}{} by {}", s.empty() ? "" : ", ", kept_together(round(k.roof)),
                     kept_together(fmt::format("{} {} {}", k.n, k.n == 1 ? k.kind : several(k.kind), k.mark)));
  p.heading("The roof that they hold, in plan, overhangs with it");
  p.say(fmt::format("{}: {}", round(all), s));
}
}  // namespace

std::string stated_at(const SiteAsk& site) {
  return std::visit([](const auto& s) { return s.at; }, site);
}

std::string said_back(const House& h, const std::vector<Station>& stations, const RoofSaid& roof_of_it, Look look,
                      const std::vector<RoofSaid>& of_wings) {
  Page p(h, roof_of_it, look);
  p.say(fmt::format("{}   {}   {}", harmless(h.title), harmless(h.drawn), harmless(h.file)), "", "  ");
  p.say(mirrored_words(h.mirror), "", "");
  p.say(h.mirror ? "The house as it was understood; nothing is checked yet. Hold it against the mirrored sheet."
                 : "The house as it was understood; nothing is checked yet. Hold it against the sheet.",
        "", "");
  site(p);
  block(p);
  const std::string of_main = several(h) ? fmt::format(" of block {}", harmless(h.block)) : std::string();
  trusses(p, of_main);
  roof_braces(p);
  for (const HipEnd& e : h.hip_ends) hip_end(p, e, of_main);
  if (!several(h) && !plain_trusses(h)) roof_held(p);
  for (std::size_t i = 0; i < h.wings.size(); ++i) {
    const House own = seen_from(h, i + 1);
    const RoofSaid none{};
    Page of_wing(own, i < of_wings.size() ? of_wings[i] : none, look);
    of_wing.joint = h.wings[i].joint;
    of_wing.main_block = h.block;
    const std::string of_block = fmt::format(" of block {}", harmless(own.block));
    wing(of_wing, h, h.wings[i]);
    trusses(of_wing, of_block);
    valley(of_wing, h.wings[i]);
    for (const HipEnd& e : own.hip_ends) hip_end(of_wing, e, of_block);
    p.lines.insert(p.lines.end(), of_wing.lines.begin(), of_wing.lines.end());
  }
  verandas(p);
  chain(p);
  walls(p, stations);
  p.heading("Fixings");
  p.say(fmt::format("{} ({}){}", harmless(h.fixings.title), harmless(h.fixings.file),
                    h.fixings.status == "demo" ? ": invented for a demo, not for construction" : ""));
  if (!h.remarks.empty()) {
    p.heading("Taken as understood");
    for (const std::string& r : h.remarks) p.say(with_stop(harmless(r)));
  }
  p.lines.emplace_back();
  p.say(fmt::format("Next:  belay check {}", harmless(h.file)), "", "  ");
  p.lines.emplace_back(last_words);
  return joined(p.lines);
}

}  // namespace belay
