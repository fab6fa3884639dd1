// The one small grammar of a job: a wall's run, "B 1200 | D1 | 3600 | D1 | B 1200". One piece between bars: a mark, a
// length, or a mark with a length; a length alone is plain wall. The frames of a wall are written in it as well, each
// with its length: "F1 2400 | F2 3600 | 1800".
#pragma once
#include "belay/units.hpp"
#include "job/raw.hpp"
#include <string>
#include <string_view>
#include <vector>

namespace belay {

// A length as a run or an opening's size writes it: "1200" in a drawing in mm, "12-6" in one in feet and inches, and
// with its unit ("1.2 m") anywhere. Positive and at most 1 km; else nothing, `code` and `why` say what is wrong.
std::optional<Length> read_length(std::string_view text, raw::Drawing, std::string& code, std::string& why);

// `at`, `size`: bytes of the run's text, for the caret.
struct RunPiece {
  std::string mark;              // empty: plain wall
  std::optional<Length> length;  // nothing: the mark brings its own
  std::size_t at, size;          // of the whole piece
  std::size_t length_at, length_size;
};
struct RunSlip {
  std::size_t at, size;
  std::string code, message, help;
};
struct Run {
  std::vector<RunPiece> pieces;
  std::vector<RunSlip> slips;
};
inline constexpr std::size_t most_pieces = 200;  // of one run

Run read_run(std::string_view text, raw::Drawing);
Run read_frames(std::string_view text, raw::Drawing);  // without a slip every piece has its length

// The two lengths of "2100 x 3000" as height and width. On failure nothing, and the slip.
struct OpeningSize {
  Length height, width;
};
std::optional<OpeningSize> read_opening_size(std::string_view text, raw::Drawing, RunSlip&);

// One piece with its length known, for the sum and its message.
struct Measured {
  std::string mark;
  Length length;
};
Length sum(const std::vector<Measured>&);
// "A length in the drawing's own writing": "11900", or "39 ft 0.5 in".
std::string as_drawn(Length, raw::Drawing);
// "the pieces add up to 11900, the wall is 12000: 100 short"; empty when they agree within half a millimetre.
std::string adds_up(const std::vector<Measured>&, Length wall, raw::Drawing, std::string_view what = "pieces");
// "from 0: B to 1200, D1 to 4200, plain to 7800": where each piece ends. no_mark: what one without a mark is.
std::string running_positions(const std::vector<Measured>&, raw::Drawing, std::string_view no_mark = "plain");

}  // namespace belay
