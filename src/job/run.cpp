#include "job/run.hpp"
#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace belay {
namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }
bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool blank(char c) { return c == ' ' || c == '\t'; }
// What a mark is written with: a letter first, then letters, figures, `-`, `_` and bytes of other scripts' letters.
bool begins_mark(char c) { return letter(c) || static_cast<unsigned char>(c) >= 0x80; }

constexpr Length longest = 1000.0 * metre;

// The part of `text` from `from` to `to` without the blanks around it.
struct Cut {
  std::size_t at, size;
};
Cut trimmed(std::string_view text, std::size_t from, std::size_t to) {
  while (from < to && blank(text[from])) ++from;
  while (to > from && blank(text[to - 1])) --to;
  return {from, to - from};
}

// "2.7 m is 2700" for a decimal in a drawing in mm, when that is what was meant.
std::string decimal_advice(std::string_view text) {
  double number = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size()) return "drawings in mm have whole numbers";
  const double mm = number * 1000.0;
  const double whole = std::round(mm);
  if (number < 100.0 && mm - whole < 1e-6 && whole - mm < 1e-6 && whole > 0)
    return fmt::format("drawings in mm have whole numbers; {} m is {:.0f}", text, whole);
  return fmt::format("drawings in mm have whole numbers; write \"{} mm\" if it is meant", text);
}

// What may stand between two bars, in the words of the help.
struct Between {
  std::string_view whole, parts, empty, wrong;
};
constexpr Between of_a_run{"a run", "pieces", "one piece between bars: a mark, a length, or a mark with a length",
                           "a piece is a mark, a length, or a mark with a length: `D1`, `3600`, `B 1200`"};
constexpr Between of_frames{"a wall", "frames", "one frame between bars: a length, or a mark with a length",
                            "a frame is a length, or a mark with a length: `3600`, `F1 2400`"};

Run read(std::string_view text, raw::Drawing drawing, const Between& words_for) {
  Run run;
  const auto slip = [&](Cut c, std::string code, std::string message, std::string help = {}) {
    run.slips.push_back({c.at, c.size, std::move(code), std::move(message), std::move(help)});
  };
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t bar = std::min(text.find('|', from), text.size());
    const Cut piece = trimmed(text, from, bar);
    from = bar + 1;
    if (run.pieces.size() == most_pieces) {
      slip(piece, "too-many-pieces",
           fmt::format("{} has at most {} {}", words_for.whole, most_pieces, words_for.parts));
      break;
    }
    if (piece.size == 0) {
      slip({bar < text.size() ? bar : (text.empty() ? 0 : text.size() - 1), 1}, "empty-piece",
           "nothing stands between two bars here", std::string(words_for.empty));
      continue;
    }
    const std::string_view words = text.substr(piece.at, piece.size);
    RunPiece p{{}, {}, piece.at, piece.size, piece.at, piece.size};
    if (begins_mark(words[0])) {
      const std::size_t end = std::min(words.find_first_of(" \t"), words.size());
      p.mark = words.substr(0, end);
      const Cut rest = trimmed(text, piece.at + end, piece.at + piece.size);
      p.length_at = rest.at;
      p.length_size = rest.size;
    }
    if (p.length_size > 0) {
      std::string code, why;
      p.length = read_length(text.substr(p.length_at, p.length_size), drawing, code, why);
      if (!p.length) slip({p.length_at, p.length_size}, code, why, std::string(words_for.wrong));
    }
    run.pieces.push_back(std::move(p));
  }
  return run;
}

}  // namespace

std::optional<Length> read_length(std::string_view text, raw::Drawing drawing, std::string& code, std::string& why) {
  const auto refuse = [&](std::string_view c, std::string w) {
    code = c;
    why = std::move(w);
    return std::nullopt;
  };
  const std::size_t sign = !text.empty() && (text[0] == '-' || text[0] == '+') ? 1 : 0;
  const std::string_view body = text.substr(sign);
  const bool number =
      !body.empty() && std::all_of(body.begin(), body.end(), [](char c) { return digit(c) || c == '.'; });
  const bool whole = number && std::all_of(body.begin(), body.end(), digit);
  std::optional<Length> out;
  if (number && drawing == raw::Drawing::none)
    return refuse("bare-number",
                  fmt::format("`{}` has no unit: write \"{} mm\", or say drawing = \"mm\" under [job]", text, text));
  if (number && drawing == raw::Drawing::feet)
    return refuse("bare-number", fmt::format("`{}` has no unit: feet and inches are written 12-6, 0-6", text));
  if (number && !whole) return refuse("decimal-length", decimal_advice(body));
  if (whole) {
    if (body.size() > 9) return refuse("unbelievable-length", fmt::format("`{}` is more than 1 km", text));
    int mm = 0;
    std::from_chars(body.data(), body.data() + body.size(), mm);
    if (sign == 1 && text[0] == '-') mm = -mm;
    out = metre * static_cast<double>(mm) / 1000.0;
  } else if (drawing == raw::Drawing::feet && !text.empty() && digit(text[0]) &&
             text.find('-') != std::string_view::npos) {
    out = parse_feet_inches(text, why);
    if (!out) return refuse("not-a-length", why);
  } else {
    const auto v = parse_quantity(text, Kind::length, why);
    if (!v) return refuse("not-a-length", why);
    out = quantity<Length>(*v);
  }
  if (!(*out > zero<Length>())) return refuse("not-positive", fmt::format("`{}`: a length is more than 0", text));
  if (*out > longest) return refuse("unbelievable-length", fmt::format("`{}` is more than 1 km", text));
  return out;
}

Run read_run(std::string_view text, raw::Drawing drawing) { return read(text, drawing, of_a_run); }

Run read_frames(std::string_view text, raw::Drawing drawing) {
  Run run = read(text, drawing, of_frames);
  for (const RunPiece& p : run.pieces)
    if (!p.length && p.length_size == 0)
      run.slips.push_back({p.at, p.size, "frame-without-length", fmt::format("how long is the frame `{}`?", p.mark),
                           std::string(of_frames.wrong)});
  return run;
}

std::optional<OpeningSize> read_opening_size(std::string_view text, raw::Drawing drawing, RunSlip& slip) {
  const std::size_t cross = text.find('x');
  if (cross == std::string_view::npos || text.find('x', cross + 1) != std::string_view::npos) {
    slip = {0, text.size(), "not-a-size", fmt::format("`{}` is no size of an opening", text),
            "height x width, such as \"2100 x 900\""};
    return std::nullopt;
  }
  const Cut high = trimmed(text, 0, cross), wide = trimmed(text, cross + 1, text.size());
  std::optional<Length> lengths[2];
  for (const std::size_t i : {0u, 1u}) {
    const Cut c = i == 0 ? high : wide;
    std::string code, why;
    auto& to = lengths[i];
    to = c.size == 0 ? std::nullopt : read_length(text.substr(c.at, c.size), drawing, code, why);
    if (!to) {
      slip = {c.size == 0 ? 0 : c.at, c.size == 0 ? text.size() : c.size, c.size == 0 ? "not-a-size" : code,
              c.size == 0 ? "the height or the width is missing" : why, "height x width, such as \"2100 x 900\""};
      return std::nullopt;
    }
  }
  return OpeningSize{*lengths[0], *lengths[1]};
}

Length sum(const std::vector<Measured>& pieces) {
  Length total = zero<Length>();
  for (const Measured& p : pieces) total += p.length;
  return total;
}

std::string as_drawn(Length l, raw::Drawing drawing) { return place(l, drawing == raw::Drawing::feet ? us : metric); }

std::string adds_up(const std::vector<Measured>& pieces, Length wall, raw::Drawing drawing, std::string_view what) {
  const Length total = sum(pieces), off = wall - total;
  if (off <= same_place && off >= -same_place) return {};
  const bool low = off > zero<Length>();
  return fmt::format("the {} add up to {}, the wall is {}: {} {}", what, as_drawn(total, drawing),
                     as_drawn(wall, drawing), as_drawn(low ? off : -off, drawing), low ? "short" : "too long");
}

std::string running_positions(const std::vector<Measured>& pieces, raw::Drawing drawing, std::string_view no_mark) {
  std::string out = "from 0:";
  Length at = zero<Length>();
  for (const Measured& p : pieces) {
    at += p.length;
    out += fmt::format("{} {} to {}", &p == &pieces.front() ? "" : ",",
                       p.mark.empty() ? no_mark : std::string_view(p.mark), as_drawn(at, drawing));
  }
  return out;
}

}  // namespace belay
