#include "load_path/least_bracing.hpp"

#include "load_path/formulas.hpp"
#include "load_path/formulas_least.hpp"

#include <algorithm>

namespace belay {

namespace {

std::string line_name(const Forces& f, std::size_t line) {
  return in_symbol(f.house.walls[f.lines[line].walls.front()].name);
}
// Lines that hold the same push as this one: of the whole house, or of one block of several.
std::vector<std::size_t> beside(const Forces& f, std::size_t line, std::optional<std::size_t> block) {
  std::vector<std::size_t> r;
  for (std::size_t l = 0; l < f.lines.size(); ++l) {
    const Line &me = f.lines[line], &other = f.lines[l];
    const bool there = !block || std::find(other.blocks.begin(), other.blocks.end(), *block) != other.blocks.end();
    if (other.props && other.runs == me.runs && other.floor == me.floor && there) r.push_back(l);
  }
  return r;
}
// What pushes on them in that sense; not below nothing.
Force push_on(const Forces& f, std::size_t c, const std::vector<std::size_t>& lines, Sense sense) {
  Force all = zero<Force>();
  for (const std::size_t l : lines) all += sense == Sense::plus ? f.exact_line_force(c, l) : -f.exact_line_force(c, l);
  return std::max(all, zero<Force>());
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

Force least_bracing(const Forces& f, std::size_t c, std::size_t line, Sense sense, Working* w) {
  const Line& me = f.lines[line];
  const std::string source = w ? f.practice.source("nz_least_bracing") : std::string();
  const double k = f.practice.number("nz_least_bracing", "of_even_share");
  const auto share = [&](const std::vector<std::size_t>& lines) {
    return formulas::of_even_share(nullptr, k, push_on(f, c, lines, sense), static_cast<double>(lines.size()));
  };
  std::vector<std::size_t> worst = beside(f, line, std::nullopt);
  if (!f.house.wings.empty())
    for (const std::size_t block : me.blocks)
      if (auto lines = beside(f, line, block); share(lines) > share(worst)) worst = std::move(lines);
  if (w) w->heading(fmt::format("What line {} must hold at least", me.name));
  const Force push = push_on(f, c, worst, sense);
  if (w) {
    std::vector<As<Force>> rows;
    for (const std::size_t l : worst) {
      const Force v = sense == Sense::plus ? f.exact_line_force(c, l) : -f.exact_line_force(c, l);
      rows.push_back(as("V_e," + line_name(f, l), v));
      if (push > zero<Force>())
        given(w, rows.back().name, fmt::format("push on line {} this way, in exact balance", f.lines[l].name), v,
              "the sum of the line's rows");
    }
    if (push > zero<Force>()) total<Force>(w, "F_L", "push on all lines that run this way", "sum", rows);
    else given(w, "F_L", "nothing pushes on these lines this way", push, "statics");
  }
  const auto n = given(w, "n_L", "bracing lines that run this way", static_cast<double>(worst.size()), "the job");
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
