#include "load_path/least_bracing.hpp"

#include "load_path/formulas.hpp"
#include "load_path/formulas_ceiling.hpp"
#include "load_path/formulas_least.hpp"

#include <algorithm>

namespace belay {

namespace {

// The ceilings that share a push evenly: of all blocks together, or of one that the line props.
struct EvenShare {
  std::vector<std::size_t> blocks;
  double lines;  // that run this line's way under them
};
std::vector<EvenShare> ways(const Forces& f, const Line& me) {
  const auto lines_under = [&](const std::vector<std::size_t>& blocks) {
    return std::count_if(f.lines.begin(), f.lines.end(), [&](const Line& l) {
      return l.props && l.runs == me.runs && l.floor == me.floor &&
             std::find_first_of(l.blocks.begin(), l.blocks.end(), blocks.begin(), blocks.end()) != l.blocks.end();
    });
  };
  std::vector<std::size_t> all;
  for (std::size_t b = 0; b <= f.house.wings.size(); ++b)
    if (me.floor == Floor::ground || b == 0) all.push_back(b);
  std::vector<EvenShare> r{{all, static_cast<double>(lines_under(all))}};
  if (all.size() > 1)
    for (const std::size_t b : me.blocks) r.push_back({{b}, static_cast<double>(lines_under({b}))});
  return r;
}
// Positive in the sense that is asked for; not below nothing. Told: each part of the faces, and their sum as "F_L".
Force push_on(const Forces& f, std::size_t c, const Line& me, const EvenShare& of, Sense sense, Working* w) {
  const LoadCase& k = f.of(c);
  std::vector<As<Force>> rows;
  Force all = zero<Force>();
  for (const std::size_t block : of.blocks)
    for (const CeilingPush& p : f.ceiling_pushes(c, me.floor, block)) {
      if (p.runs != me.runs) continue;
      all += sense == Sense::plus ? p.force : -p.force;
      if (!w) continue;
      const std::string n = fmt::format("{}", rows.size() + 1);
      given(w, "f_w", "factor on the wind", k.combination.wind, k.combination.source);
      given(w, "A_L" + n, fmt::format("area that pushes: {}", p.what), p.area, "measured from the job");
      const auto factor = as("f_w", k.combination.wind);
      const auto pressure = as(p.pressure, p.p);
      const auto area = as("A_L" + n, p.area);
      const bool against = p.positive != (sense == Sense::plus);
      rows.push_back(
          as("F_L" + n, against ? formulas::floor_push_against.told(w, "F_L" + n, "statics", factor, pressure, area)
                                : formulas::floor_push.told(w, "F_L" + n, "statics", factor, pressure, area)));
    }
  if (all > zero<Force>()) return w ? total<Force>(w, "F_L", "push on all lines that run this way", "sum", rows) : all;
  return given(w, "F_L", "nothing pushes on these lines this way", zero<Force>(), "statics");
}
Length outside_wall_on(const Forces& f, const Line& line) {
  Length l = zero<Length>();
  for (const LineWall& part : line.parts)
    if (f.house.walls[part.wall].outside) l += part.to - part.from;
  return l;
}
Force in_sense(const BraceCapacity& k, Sense sense) {
  return !k.refused.empty() ? zero<Force>() : sense == Sense::plus ? k.plus : k.minus;
}

}  // namespace

bool rests_on_wind(const Forces& f, std::size_t c, std::size_t line, Sense sense) {
  const Line& me = f.lines[line];
  const std::vector<EvenShare> each_way = ways(f, me);
  return std::any_of(each_way.begin(), each_way.end(),
                     [&](const EvenShare& of) { return push_on(f, c, me, of, sense, nullptr) > zero<Force>(); });
}

Force least_bracing(const Forces& f, std::size_t c, std::size_t line, Sense sense, Working* w) {
  const Line& me = f.lines[line];
  const std::string source = w ? f.practice.source("nz_least_bracing") : std::string();
  const double k = f.practice.number("nz_least_bracing", "of_even_share");
  const auto share = [&](const EvenShare& of) {
    return formulas::of_even_share(nullptr, k, push_on(f, c, me, of, sense, nullptr), of.lines);
  };
  const std::vector<EvenShare> each_way = ways(f, me);
  const EvenShare& worst = *std::max_element(
      each_way.begin(), each_way.end(), [&](const EvenShare& a, const EvenShare& b) { return share(a) < share(b); });
  if (w) w->heading(fmt::format("What line {} must hold at least", me.name));
  const Force push = push_on(f, c, me, worst, sense, w);
  const double n = given(w, "n_L", "bracing lines that run this way", worst.lines, "the job");
  looked_up(w, "k_L", "part of the even share", k, source);
  const Force even = formulas::of_even_share.told(w, "L_d", source, k, as("F_L", push), n);
  const Force each =
      looked_up(w, "L_e", "each line at least", f.practice.get<Force>("nz_least_bracing", "each_line"), source);
  std::vector<As<Force>> candidates{as("L_e", each), as("L_d", even)};
  if (const Length l = outside_wall_on(f, me); l > zero<Length>()) {
    const LineLoad rate = looked_up(w, "w_L", "for each length of outside wall",
                                    f.practice.get<LineLoad>("nz_least_bracing", "outside_wall"), source);
    given(w, "L_w", fmt::format("length of outside wall on line {}", me.name), l, "the job");
    candidates.push_back(as("L_o", formulas::of_outside_wall.told(w, "L_o", source, rate, as("L_w", l))));
  }
  return greatest<Force>(w, "L_m", fmt::format("what line {} must hold at least", me.name), source, candidates);
}

Force holds_against_least(const Forces& f, std::size_t line, Sense sense, Force least_of_line, Working* w) {
  std::vector<As<Force>> rows, lining;
  for (const BraceAt& b : f.braces) {
    if (b.line != line) continue;
    const Force own = in_sense(b.capacity, sense);
    const Wall& wall = f.house.walls[b.wall];
    const Piece& piece = wall.pieces[b.piece];
    const std::string symbol = "C_" + in_symbol(piece.brace->name);
    if (w) {
      w->heading(fmt::format("What brace {} can hold", piece.brace->name));
      if (own > zero<Force>()) {
        brace_capacity(f.house, wall, piece, f.practice, f.cyclonic(), w);
        greatest<Force>(w, symbol, fmt::format("brace {} in this sense", piece.brace->name), "the brace's kind",
                        {as("C_b", own)});
      } else {
        given(w, symbol, fmt::format("brace {} does not count in this sense", piece.brace->name), own,
              "its conditions");
      }
    }
    (b.capacity.lining ? lining : rows).push_back(as(symbol, own));
  }
  if (w) w->heading(fmt::format("What bracing line {} can hold", f.lines[line].name));
  if (!lining.empty()) {
    const Force all = total<Force>(w, "C_l", "all lining of this line", "sum", lining);
    const double share = looked_up(w, "k_l", "greatest share of lining", f.practice.number("lining", "greatest_share"),
                                   f.practice.source("lining"));
    const Force half =
        formulas::half_of.told(w, "C_n", f.practice.source("lining"), as("k_l", share), as("L_m", least_of_line));
    rows.push_back(as("C_c", least<Force>(w, "C_c", "lining that counts", f.practice.source("lining"),
                                          {as("C_l", all), as("C_n", half)})));
  }
  return total<Force>(w, "C_m", fmt::format("strength of line {} in this sense", f.lines[line].name), "sum", rows);
}

}  // namespace belay
