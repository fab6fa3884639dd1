// A second opinion on every printed sum: GNU Units, which we did not write, works the printed numbers out again.
#pragma once
#include "belay/working.hpp"
#include "text_files.hpp"
#include <charconv>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <unistd.h>
#include <utility>
#include <vector>

namespace belay::recompute {

// An expression and the unit in which its value is wanted ("1" for a plain number), as GNU Units spells them.
struct Question {
  std::string expression, unit;
};

// What a text says as a number, whole; no locale takes part.
inline std::optional<double> as_number(std::string_view s) {
  double x = 0.0;
  const auto [end, fault] = std::from_chars(s.data(), s.data() + s.size(), x);
  if (fault != std::errc() || end != s.data() + s.size() || !std::isfinite(x)) return std::nullopt;
  return x;
}

// The lines that one `units` process prints for these questions. strict: no reciprocal conversions.
inline std::vector<std::string> ask(std::span<const Question> questions) {
  const auto file = std::filesystem::temp_directory_path() / fmt::format("belay-recompute-{}", ::getpid());
  {
    std::ofstream out(file, std::ios::binary);
    for (const Question& q : questions) out << q.expression << '\n' << q.unit << '\n';
    if (!out.flush()) throw std::runtime_error("cannot write " + file.string());
  }
  const std::string command = fmt::format("LC_ALL=C HOME=/nonexistent units -s -t -o %.17g < '{}' 2>&1", file.string());
  const std::string all = test::run_command(command).out;
  std::filesystem::remove(file);
  return test::lines_of(all);
}

// The value of each question, nothing where GNU Units has none. One process does for all; a batch with a fault in it is
// halved until the fault stands alone, because a fault shifts the lines behind it.
inline std::vector<std::optional<double>> values(std::span<const Question> questions) {
  if (questions.empty()) return {};
  const auto lines = ask(questions);
  std::vector<std::optional<double>> out;
  if (lines.size() == questions.size())
    for (const auto& line : lines) {
      out.push_back(as_number(line));
      if (!out.back()) break;
    }
  if (out.size() == questions.size() && out.back()) return out;
  if (questions.size() == 1) return {std::nullopt};
  const std::size_t half = questions.size() / 2;
  out = values(questions.first(half));
  const auto rest = values(questions.subspan(half));
  out.insert(out.end(), rest.begin(), rest.end());
  return out;
}
// What the program prints when it is not there, or not able to add.
inline bool units_works() {
  const std::vector<Question> sum{{"1 kN + 1 N", "N"}};
  return values(sum).front() == 1001.0;
}

// A number in an expression that was rounded for print, and half of its last place.
struct Rounded {
  std::size_t from, size;
  double half;
  int decimals;
};
// Rounded are the numbers with a unit, and the ratios with as many decimals as ratios are rounded to. Others ("2",
// "0.9") are exact, and so are powers.
inline std::vector<Rounded> rounded(std::string_view s, const Units& units) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; };
  std::vector<Rounded> out;
  for (std::size_t i = 0; i < s.size();) {
    const bool inside = i > 0 && (letter(s[i - 1]) || digit(s[i - 1]) || s[i - 1] == '^' || s[i - 1] == '.');
    if (!digit(s[i]) || inside) {
      ++i;
      continue;
    }
    const std::size_t from = i;
    while (i < s.size() && digit(s[i])) ++i;
    int decimals = 0;
    if (i + 1 < s.size() && s[i] == '.' && digit(s[i + 1]))
      for (++i; i < s.size() && digit(s[i]); ++i) ++decimals;
    const bool exponent = i < s.size() && s[i] == 'e';
    const bool has_unit = i + 1 < s.size() && s[i] == ' ' && letter(s[i + 1]);
    if (!exponent && (has_unit || decimals == printed(Kind::ratio, units).decimals))
      out.push_back({from, i - from, 0.5 * std::pow(10.0, -decimals), decimals});
  }
  return out;
}
// The expression with one number moved by a half of its last place.
inline std::string moved(const std::string& s, const Rounded& r, double by) {
  const double x = as_number(std::string_view(s).substr(r.from, r.size)).value();
  return s.substr(0, r.from) + fmt::format("({:.{}f})", x + by * r.half, r.decimals + 1) + s.substr(r.from + r.size);
}

struct Outcome {
  std::size_t checked = 0;          // steps with an expression
  double worst = 0.0;               // the greatest share of its room that a step used
  std::vector<std::string> misses;  // one text for each step that does not come out: step, expression, both values
};

// Works out the printed numbers of every formula and sum again. The room is what the printed digits leave open: half a
// last place of the result, and what the expression moves by when each rounded number moves by half of its last place.
inline Outcome recompute(std::span<const Step> steps, const Units& page) {
  struct Asked {
    const Step* step;
    std::size_t first, moves;
  };
  std::vector<Question> questions;
  std::vector<Asked> asked;
  for (const Step& step : steps) {
    if (step.kind != StepKind::formula && step.kind != StepKind::sum) continue;
    const Units& units = units_of(step, page);
    const std::string_view symbol = printed(step.result.kind, units).symbol;
    const std::string unit = symbol.empty() ? "1" : std::string(symbol);
    const auto moves = rounded(step.numbers, units);
    asked.push_back({&step, questions.size(), moves.size()});
    questions.push_back({step.numbers, unit});
    for (const Rounded& r : moves)
      for (const double by : {-1.0, 1.0}) questions.push_back({moved(step.numbers, r, by), unit});
  }
  const auto answers = values(questions);
  Outcome out;
  for (const Asked& a : asked) {
    const Step& step = *a.step;
    const Units& units = units_of(step, page);
    ++out.checked;
    const std::string result = text(step.result, units);
    const auto miss = [&](const std::string& why) {
      out.misses.push_back(fmt::format("{}: {} = {}, {}", step.symbol, step.numbers, result, why));
    };
    const auto f = answers[a.first];
    const auto said = as_number(number(step.result, units));
    if (!f || !said) {
      miss("which GNU Units does not work out to that unit");
      continue;
    }
    const int decimals = printed(step.result.kind, units).decimals;
    double room = 0.5 * std::pow(10.0, -decimals) + 1e-9 * std::abs(*said);
    for (std::size_t i = 0; i < a.moves; ++i) {
      double most = 0.0;
      for (const std::size_t side : {1U, 2U})
        if (const auto g = answers[a.first + 2 * i + side]) most = std::max(most, std::abs(*g - *f));
      room += most;
    }
    const double off = std::abs(*f - *said);
    out.worst = std::max(out.worst, off / room);
    if (off > room) miss(fmt::format("but GNU Units has {} (off by {:.3g}, room {:.3g})", *f, off, room));
  }
  return out;
}
inline Outcome recompute(const Working& w) { return recompute(w.steps, *w.units); }

}  // namespace belay::recompute
