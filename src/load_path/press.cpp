#include "load_path/press.hpp"

#include "load_path/formulas.hpp"
#include "load_path/formulas_press.hpp"
#include "units/sizes.hpp"

#include <algorithm>

namespace belay {

namespace {

// Where a wing's roof lies on the main block's, the weight of the roof beneath is not counted.
bool under_a_valley(const Forces& f, const Member& m) {
  return std::any_of(f.shape.surfaces.begin(), f.shape.surfaces.end(), [&](const Surface& s) {
    return s.over && std::any_of(m.carries.begin(), m.carries.end(),
                                 [&](const Window& w) { return holds(w, s) && !within(w, s.outline).empty(); });
  });
}

const Piece& piece_of(const Forces& f, std::size_t brace) {
  return f.house.walls[f.braces[brace].wall].pieces[f.braces[brace].piece];
}
// From the wall's start.
Length place_of(const Piece& p, End e) { return e == End::left ? p.from : p.to; }
// The opening whose lintel comes down beside a place.
const Piece* opening_beside(const Wall& w, Length at, Length within) {
  for (const Piece& p : w.pieces)
    if (p.opening && (apart(p.from, at) <= within + same_place || apart(p.to, at) <= within + same_place)) return &p;
  return nullptr;
}
bool lies_along(const Member& m, const Wall& w, Length within) {
  const auto off = [&](const Point& p) { return apart(w.runs == Along::across ? p.y : p.x, w.line); };
  return off(m.from) <= within && off(m.to) <= within;
}

}  // namespace

bool answers_for_press(const Forces& f, const Member& m) {
  if (m.clear || under_a_valley(f, m)) return false;
  return m.kind == MemberKind::truss || m.kind == MemberKind::truncated || m.kind == MemberKind::girder;
}

EndPress::EndPress(const Forces& f) : f_(f), reach_(f.practice.get<Length>("end_studs", "reach")) {
  laid_.resize(2 * f.braces.size());
  const bool any = std::any_of(f.braces.begin(), f.braces.end(), [&](const BraceAt& b) {
    return f.house.walls[b.wall].pieces[b.piece].brace->end_studs.given();
  });
  if (!any) return;
  greatest_.assign(f.roof.bearings().size(), zero<Force>());
  for (std::size_t c = 0; c < f.loads.cases.size(); ++c) {
    if (f.of(c).down.name.empty()) continue;
    if (!pressing_) pressing_ = c;
    for (std::size_t b = 0; b < greatest_.size(); ++b) greatest_[b] = std::max(greatest_[b], f.roof.press(c, b));
  }
  for (std::size_t i = 0; i < f.braces.size(); ++i)
    if (piece_of(f, i).brace->end_studs.given())
      for (const End e : {End::left, End::right}) laid_[2 * i + (e == End::left ? 0 : 1)] = lay_out(i, e);
}

EndPress::Laid EndPress::lay_out(std::size_t brace, End e) const {
  const Wall& w = f_.house.walls[f_.braces[brace].wall];
  Laid r{{}, {}, reach_};
  const Length within = f_.practice.get<Length>("anchor_near", "within");
  if (const Piece* o = opening_beside(w, place_of(piece_of(f_, brace), e), within))
    r.beside = std::max(r.beside, (o->to - o->from) / 2.0);
  for (std::size_t b = 0; b < f_.roof.bearings().size(); ++b)
    if (Share s = share_of(b, brace, e, r.beside); s.part > 0.0) r.shares.push_back(std::move(s));
  r.unknown = not_known(brace, r);
  return r;
}

std::string EndPress::not_known(std::size_t brace, const Laid& laid) const {
  const House& h = f_.house;
  const Wall& w = h.walls[f_.braces[brace].wall];
  if (!pressing_) return "the method has no combination in hand in which weight and wind press";
  if (!h.wings.empty()) return "in a house of several blocks it is not put together here";
  if (h.first && w.floor == Floor::ground) return "what the floor above weighs and carries is not in the job";
  for (const Veranda& v : h.verandas)
    if (v.wall == w.name) return fmt::format("veranda {} presses on this wall as well", v.name);
  for (const Share& s : laid.shares)
    if (const Member& m = f_.roof.member_of(s.bearing); !answers_for_press(f_, m))
      return fmt::format("what presses on a {} is told here, not judged ({})", words(m.kind), m.words);
  return {};
}

EndPress::Share EndPress::share_of(std::size_t bearing, std::size_t brace, End e, Length beside) const {
  const Wall& w = f_.house.walls[f_.braces[brace].wall];
  const Piece& p = piece_of(f_, brace);
  const Length end = place_of(p, e), far = place_of(p, other(e)),
               within = f_.practice.get<Length>("anchor_near", "within");
  const Bearing& b = f_.roof.bearings()[bearing];
  Share r{bearing, 0.0, {}};
  const auto take = [&](double part, std::string_view why) {
    if (part > r.part) r = {bearing, part, std::string(why)};
  };
  if (w.floor != top_floor(f_.house)) return r;  // no truss stands there
  const Point here = in_plan(w, end);
  for (const Foot& foot : b.feet) {
    const Wall& on = f_.house.walls[foot.wall];
    const Point there = in_plan(on, foot.at);
    const Length dx = there.x - here.x, dy = there.y - here.y;
    if (dx * dx + dy * dy <= (reach_ + same_place) * (reach_ + same_place))
      take(1.0, "it bears within reach of the end");
    if (&on != &w) continue;
    if (foot.at >= p.from && foot.at <= p.to)
      take(static_cast<double>(apart(foot.at, far) / (p.to - p.from)),
           "it bears on the brace: a lever about its other end");
    if (const Piece* o = opening_beside(w, end, within); o && foot.at > o->from && foot.at < o->to) {
      const bool from_left = apart(o->from, end) <= apart(o->to, end);
      take(from_left ? formulas::lever_left(nullptr, o->to, foot.at, o->from)
                     : formulas::lever_right(nullptr, foot.at, o->from, o->to),
           "it bears over the opening beside the brace: the lintel is a simple span");
    }
  }
  if (const Member& m = f_.roof.member_of(bearing); !b.feet.empty() && lies_along(m, w, within)) {
    const Length length = apart(m.from.x, m.to.x) + apart(m.from.y, m.to.y);
    take(std::min(1.0, static_cast<double>(((p.to - p.from) / 2.0 + beside) / length)),
         "its truss lies along the wall and may stand on it: by its length");
  }
  return r;
}

const Combination& EndPress::down(std::size_t c) const {
  return f_.of(c).down.name.empty() ? f_.of(*pressing_).down : f_.of(c).down;
}
Marks EndPress::marks(std::size_t c) const {
  const LoadCase& k = f_.of(c).down.name.empty() ? f_.of(*pressing_) : f_.of(c);
  return k.marks_down | k.marks_net;
}
// Where a case that pushes the bracing does not press, and another does: the worst of any, the safe one.
Force EndPress::roof(std::size_t c, std::size_t bearing) const {
  return f_.of(c).down.name.empty() ? greatest_[bearing] : f_.roof.press(f_.wind_of(c), bearing);
}

As<Force> EndPress::tipping(std::size_t c, std::size_t brace, End e, Working* w) const {
  const Force tip = f_.press(c, brace, e);
  const double as_reckoned = f_.of(c).combination.wind, pressing = down(c).wind;
  if (!(tip > zero<Force>())) return as("", zero<Force>());
  if (w) f_.press(c, brace, e, w);
  const As<Force> reckoned = as(w ? w->steps.back().symbol : std::string(), tip);
  if (!(pressing > as_reckoned)) return reckoned;
  given(w, "f_p", "factor on the wind where all presses", pressing, down(c).source);
  given(w, "f_w", "factor on the wind in the tipping", as_reckoned, f_.of(c).combination.source);
  return as("T_p", formulas::tip_pressing.told(w, "T_p", down(c).source, reckoned, pressing, as_reckoned));
}

Force EndPress::wall(std::size_t c, std::size_t brace, End e, Working* w) const {
  const House& h = f_.house;
  const Wall& wall = h.walls[f_.braces[brace].wall];
  const Piece& p = piece_of(f_, brace);
  const Length height = tell_wall_height(h, wall, w), length = p.to - p.from, beside = at(brace, e).beside;
  const double f = down(c).dead;
  if (w) {
    given(w, "L", fmt::format("length of brace {}", p.brace->name), length, "the job");
    given(w, "b_o", "of the wall past the end: as far as studs stand apart, or half of the opening beside it", beside,
          f_.practice.source("end_studs"));
    given(w, "g_w", "weight of the wall", h.wall_weight, "the job, wall_weight");
    given(w, "f_G", fmt::format("factor on weight that presses, {}", down(c).name), f, down(c).source);
  }
  const Length width = formulas::pressing_width(w, length, beside);
  return formulas::wall_presses.told(w, "G_e", formulas::wall_presses.source, f, h.wall_weight,
                                     as(height_symbol(h, wall), height), width);
}

Force EndPress::on(std::size_t c, std::size_t brace, End e, Working* w) const {
  std::vector<As<Force>> rows;
  if (const As<Force> tip = tipping(c, brace, e, w); tip.quantity > zero<Force>()) rows.push_back(tip);
  for (const Share& s : at(brace, e).shares) {
    const Force there = roof(c, s.bearing);
    if (!(there > zero<Force>())) continue;
    if (!w) {
      rows.push_back(as("", formulas::landed(nullptr, s.part, there)));
      continue;
    }
    const std::string n = std::to_string(s.bearing + 1), from = f_.roof.bearings()[s.bearing].words;
    const bool own = !f_.of(c).down.name.empty();
    const std::string symbol = own ? f_.roof.press_symbol(s.bearing) : "P_b" + n;
    if (own) f_.roof.press(f_.wind_of(c), s.bearing, w);
    w->heading("What of the roof presses at that end");
    if (!own)
      given(w, symbol, fmt::format("what presses on the bearing of {}, in the method's worst case", from), there,
            down(c).source);
    given(w, "k_" + n, fmt::format("share of {} that comes down here", from), s.part, s.why);
    rows.push_back(as("R_" + n, formulas::landed.told_as(w, "R_" + n, "what of the roof presses here", "statics",
                                                         as("k_" + n, s.part), as(symbol, there))));
  }
  if (w) w->heading("Pressed at one end of the brace");
  rows.push_back(as("G_e", wall(c, brace, e, w)));
  return total<Force>(w, "P_e", "what presses on the studs at that end", "sum", rows);
}

std::vector<Piece_of_demand> EndPress::made_of(std::size_t c, std::size_t brace, End e) const {
  const std::string& name = piece_of(f_, brace).brace->name;
  std::vector<Piece_of_demand> r;
  if (const Force tip = tipping(c, brace, e, nullptr).quantity; tip > zero<Force>())
    r.push_back({"tipping of brace " + name, name, tip});
  for (const Share& s : at(brace, e).shares)
    if (const Force there = roof(c, s.bearing); there > zero<Force>())
      r.push_back({"roof", f_.roof.bearings()[s.bearing].words, s.part * there});
  r.push_back({"weight of the wall", "the job", wall(c, brace, e, nullptr)});
  return r;
}

}  // namespace belay
