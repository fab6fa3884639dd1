// What every text page of ours is made with: lines of at most 80 columns, words from a job made harmless, and the
// sentences for verdicts, reasons and places. Knows nothing of files or terminals beyond the two marks for bold and
// red.
#pragma once
#include "belay/result.hpp"
#include "belay/units.hpp"
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

inline constexpr std::size_t page_width = 80;

// colour: bold and red may be written. Words carry every meaning; colour only repeats it.
struct Look {
  bool colour;
};
std::string bold(std::string_view, Look);
std::string red(std::string_view, Look);

// Text from a job with control characters, line ends and what cannot be seen turned to spaces, so that no file can
// steer a terminal.
std::string harmless(std::string_view);
std::size_t columns(std::string_view);                     // code points of UTF-8, marks for colour not counted
std::string padded(std::string_view, std::size_t width);   // filled with spaces on the right
std::string right(std::string_view, std::size_t width);    // filled with spaces on the left
std::string clipped(std::string_view, std::size_t width);  // shortened with "..." when longer
// Words set in lines of at most `width`; the first begins with `first`, the others with `rest`. A single word that is
// longer than a line is cut. No words: no lines.
// A no-break space (see kept_together) is set as a blank at which no line ends.
std::vector<std::string> wrapped(std::string_view words, std::string_view first = {}, std::string_view rest = {},
                                 std::size_t width = page_width);
std::string kept_together(std::string_view words);          // blanks turned to no-break spaces, for `wrapped`
std::string joined(const std::vector<std::string>& lines);  // each with its line end
std::string counted(std::size_t n, std::string_view one, std::string_view many);  // "1 link", "3 links"
std::string and_list(const std::vector<std::string>& items);                      // "A", "A and B", "A, B and C"
std::string small_number(std::size_t n);                                          // "two" up to "ten", then digits

const Units& units_of(Print);
// Numbers as a screen shows them, shorter than in a working: forces and rates to the nearest 0.01 kN, 0.01 kN/m, whole
// pounds and pounds a foot; everything else as `number` gives it.
std::string short_number(Value, const Units&);
std::string trimmed(Value, const Units&);                  // the same without the zeros at its end: "26", "14.4"
std::string unit_word(Kind, const Units&);                 // as people say it: "kN", "lb"
std::string trimmed_text(Value, const Units&);             // a trimmed number with its unit word
std::string kind_words(std::string_view kind, bool many);  // from kinds_of_link(); an unknown kind as it is
// Where a link is, with its place on the wall: "A2 left, at 10900"; "A jamb W1 at 2040, drill at 1940" where the fixing
// stands beside the place in its words.
std::string place_words(const Link&, const Units&);
// The same in two: the words of the address, and the place behind them (", at 10900", or "").
struct SpokenPlace {
  std::string words, at;
};
SpokenPlace place_of(const Link&, const Units&);
// The words without the kind that a heading says already: "top tie T1 at 900 front" is "T1 at 900 front".
std::string without_kind(std::string words, const Link&);
// At most `width` columns, with every place whole: the words before the first are shortened, to no less than four
// columns (then the text may be wider).
std::string place_within(const SpokenPlace&, std::size_t width);
// Fails by a condition of its sheet (or of the job's own words) with a use that would hold.
bool fails_its_sheet(const Link&);
// Its use in percent; "-" where there is none, and where the link fails in spite of it.
std::string use_words(const Link&);
std::string wall_words(const Where&);           // "wall A, the front"; "" when it stands on no wall
std::string from_words(const Where&);           // what its place is measured from: "from its left end"
std::string file_name(std::string_view path);   // without its folders
std::string shell_word(std::string_view word);  // as it may be typed in a shell
// "AS 4055:2021"; "ASCE 7-16", whose name holds its edition already.
std::string method_words(const SiteSaid&);
// What the wind was made of, in one line: "N3", "115 mph, exposure B", "45 m/s, gust typed in, not worked out".
std::string wind_words(const SiteSaid&, const Units&);
std::string typed_words(const SiteSaid&);  // "gust typed in, not worked out"; "" where nothing was
// The method, the wind and who gave it: "AS 4055:2021, N3 (site report 4471, 3 March)".
std::string site_line(const SiteSaid&, const Units&);
// Who chose a fixing, for people: "unless noted, line 20".
std::string chosen_words(const Chosen&);
// "wind onto the front; house shut; 0.9 G + W"; "" when there is nothing to say. Short parts stay on one line.
std::string case_words(const CaseName&);
// "edge distance, needs 45 mm, has 40 mm: NOT MET".
std::string condition_words(const Condition&);
// Why a link has its verdict, as a sentence without its full stop.
std::string why_words(const Link&);
// What to add, and where, so that a link that is not judged may be. key: "`stud_tie`", "`together` in the fixings file"
// or "" when there is none; others: `by_others` may say who answers for the link.
struct ToAdd {
  std::string key;
  bool others;
};
ToAdd key_to_add(const Link&);
std::string words(const ToAdd&);          // "`stud_tie` or `by_others`"; "" when nothing helps
std::string answer_words(const Result&);  // "PASS, IF THESE 3 FIGURES ARE RIGHT"
std::size_t unchecked_figures(const Result&);
// "Built mirrored left to right: places are as built."; "" when it is built as drawn.
std::string mirrored_words(const std::optional<Mirror>&);
// "Tried, not in the file: mark.B.hold_down = ..." with what the file says there; none: no lines.
std::vector<std::string> tried_words(const std::vector<TriedChange>&);
std::string with_stop(std::string sentence);  // ends with a full stop
std::string capitalised(std::string sentence);

inline constexpr std::string_view last_words = "Local code and a licensed engineer come before this page.";

}  // namespace belay
