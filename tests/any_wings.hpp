// Houses of several blocks under every kind of roof, and where their roofs stand, worked out point by point in another
// way than the program's.
#pragma once
#include "any_roof.hpp"
#include "shape/joined.hpp"

namespace belay::test {

inline Side facing(Side side) { return side_facing(opposite(outward(side))); }
inline Length side_length(const House& h, Side side) { return is_across(outward(side)) ? h.up : h.across; }

// A wing with a gable against a side of the block: `from` along that side, `wide` along it, `out` from it.
inline Wing wing_at(const House& h, Side against, Length from, Length wide, Length out, Angle pitch, Length eaves,
                    Length verge) {
  const bool sideways = is_across(outward(against));
  Wing w{};
  w.name = "wing";
  w.at = "job.toml:1";
  w.across = sideways ? out : wide;
  w.up = sideways ? wide : out;
  w.left = against == Side::left ? -out : against == Side::right ? h.across : from;
  w.front = against == Side::front ? -out : against == Side::back ? h.up : from;
  w.height = h.height;
  w.joint = facing(against);
  w.roof = Roof{sideways ? Along::across : Along::up, pitch, eaves, verge, h.roof.weight};
  return w;
}

// As drawings have it: lengths of half a metre, pitches of 15, 25 or 35 deg. Then roofs meet in lines and points that
// others share.
inline Length rounded(Length l, double to = 0.5) { return metres(to * std::round(m(l) / to)); }
inline Roof rounded(Roof r) {
  const auto pitch = [](Angle a) { return degrees(a < degrees(20.0) ? 15.0 : a < degrees(30.0) ? 25.0 : 35.0); };
  if (r.shape != RoofShape::flat) r.pitch = pitch(r.pitch);
  r.eaves = rounded(r.eaves, 0.3);
  r.verge = rounded(r.verge, 0.3);
  for (const Side s : all_sides) {
    if (r.own_pitch[at(s)]) r.own_pitch[at(s)] = pitch(*r.own_pitch[at(s)]);
    if (r.own_overhang[at(s)]) r.own_overhang[at(s)] = rounded(*r.own_overhang[at(s)], 0.3);
    r.gable_above[at(s)] = rounded(r.gable_above[at(s)]);
  }
  return r;
}

// One to three wings, some flush with a corner or of the main block's pitch, set down, lower, hipped. Some could not be
// built: they come out nowhere, or stand above a gable. Their geometry is sound all the same.
inline House any_winged(std::mt19937& rng) {
  std::uniform_real_distribution<double> part(0.0, 1.0), pitch(6.0, 44.0);
  const auto once_in = [&](unsigned n) { return rng() % n == 0; };
  const auto overhang = [&] { return metres(once_in(4) ? 0.0 : 1.2 * part(rng)); };
  House h = any_roof(rng, true);
  while (h.across < metres(7.0) || h.up < metres(7.0)) h = any_roof(rng, true);
  const bool round = once_in(2);
  if (round) {
    h.across = rounded(h.across);
    h.up = rounded(h.up);
    h.roof = rounded(h.roof);
  }
  std::array<Side, 4> sides = all_sides;
  std::shuffle(sides.begin(), sides.end(), rng);
  const std::size_t count = 1 + rng() % 3;
  const auto add = [&](Side against, Length from, Length to) {
    if (round) {
      from = rounded(from);
      to = std::max(rounded(to), from + metres(1.0));
    }
    Wing w = wing_at(h, against, from, to - from, metres(2.0 + 8.0 * part(rng)),
                     once_in(3) ? h.roof.pitch : degrees(pitch(rng)), overhang(), overhang());
    if (once_in(2)) w.level = metres(-0.8 * part(rng));
    if (once_in(3)) w.height -= metres(0.5 * part(rng));
    const Side far = facing(w.joint);
    if (once_in(2)) {
      w.roof.shape = RoofShape::hip;
      w.roof.hipped[at(far)] = true;
      if (once_in(4)) w.roof.gable_above[at(far)] = metres(0.3 + part(rng));
    }
    for (const Side s : all_sides) {
      if (once_in(4)) w.roof.own_pitch[at(s)] = degrees(pitch(rng));
      if (once_in(4)) w.roof.own_overhang[at(s)] = overhang();
    }
    if (round) {
      w.level = rounded(w.level);
      w.height = h.height;
      w.roof = rounded(w.roof);
    }
    h.wings.push_back(w);
  };
  for (std::size_t i = 0; i < count; ++i) {
    const Length all = side_length(h, sides[i]);
    if (i == 0 && count == 3 && once_in(2)) {  // two on this side, more than two overhangs apart
      add(sides[i], zero<Length>(), 0.5 * all - metres(1.3));
      add(sides[i], 0.5 * all + metres(1.3), all);
      continue;
    }
    Length from = 0.5 * part(rng) * all, to = all - 0.4 * part(rng) * all;
    if (once_in(3)) from = zero<Length>();
    if (once_in(3)) to = all;
    add(sides[i], from, to);
  }
  // A floor above: the wings' roofs end at its walls, or stand too high to be built.
  if (once_in(5)) h.first = FirstFloor{metres(2.4 + part(rng)), metres(0.3), Chosen{}, Chosen{}, zero<Length>()};
  return h;
}

inline Joined joined_of(const House& h) {
  std::vector<WingShape> wings;
  for (std::size_t i = 0; i < h.wings.size(); ++i) wings.push_back(shape_of_wing(h, i));
  return joined(h, shape_of(h), wings);
}

// A wing as a house that goes on to where its ridge comes out. left, front: of its corner. level: of its bearings.
struct Longer {
  House house;
  Length left, front, level, into;
  Side against;
  Point own(const Point& p) const { return {p.x - left, p.y - front}; }
};
inline double rise_of(const Roof& r, Side side) { return std::tan(r.own_pitch[at(side)].value_or(r.pitch).value()); }
inline Longer longer(const House& h, std::size_t i) {
  const Wing& w = h.wings[i];
  const Side against = facing(w.joint);
  const bool sideways = is_across(outward(against));
  const double a = rise_of(w.roof, sideways ? Side::front : Side::left),
               b = rise_of(w.roof, sideways ? Side::back : Side::right);
  const Length level = w.level + w.height - top_of_walls(h);
  const Length ridge = level + (sideways ? w.up : w.across) * (a * b / (a + b));
  const Length depth = sideways ? h.across : h.up;
  Length into = zero<Length>();
  if (shape_of(h).at(against).slopes && ridge > into)
    into = std::min(depth, ridge / std::max(rise_of(h.roof, against), 1e-9));
  House own = roofed(w.across, w.up, w.roof.shape, w.roof.ridge, w.roof.pitch, w.roof.eaves, w.roof.verge);
  own.roof = w.roof;
  own.roof.own_overhang[at(w.joint)] = zero<Length>();
  (sideways ? own.across : own.up) += into;
  return {own,
          w.left - (w.joint == Side::left ? into : zero<Length>()),
          w.front - (w.joint == Side::front ? into : zero<Length>()),
          level,
          into,
          against};
}
inline bool in_walls(const House& h, const Point& p) {
  return p.x > zero<Length>() && p.x < h.across && p.y > zero<Length>() && p.y < h.up;
}
inline bool under_roof(const House& h, const Point& p) {
  const Shape s = shape_of(h);
  return p.x > -s.at(Side::left).overhang && p.x < h.across + s.at(Side::right).overhang &&
         p.y > -s.at(Side::front).overhang && p.y < h.up + s.at(Side::back).overhang;
}

}  // namespace belay::test
