// The roof over a block and what carries it: from what was written to slopes, trusses and the framing of hip ends.
#pragma once
#include "belay/job.hpp"
#include "job/raw.hpp"
#include "job/settle.hpp"
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

// What is settled. path: of the block. sized: across and up are known. joint: of a block that stands against another,
// its side there.
struct RoofAsk {
  const raw::Job& job;
  const raw::Block& block;
  std::string path;
  bool sized;
  Length across, up;
  std::optional<Side> joint = std::nullopt;
};
// ridge_known: trusses can be placed along it. good: nothing of the roof is wrong or unknown.
struct RoofSettled {
  Roof roof;
  bool ridge_known = false, good = false;
  std::vector<Slip> slips;
  std::vector<std::string> remarks;
};
RoofSettled settle_roof(const RoofAsk&);

// The bracket that the job picks at a path; where there is none of that name it says so itself.
using ChooseBracket = std::function<Chosen(const raw::Maybe<std::string>& name, const std::string& path)>;
// row_of: of each truss, the row that it stands in.
struct TrussesSettled {
  std::vector<Truss> trusses;
  std::vector<HipEnd> hip_ends;
  std::vector<std::size_t> row_of;
  std::optional<Valley> valley;
  std::vector<Slip> slips;
  std::vector<std::string> remarks;
};
TrussesSettled settle_trusses(const RoofAsk&, const RoofSettled&, const ChooseBracket&);
// Once the walls of the house are settled: what is wrong with the inside walls that trusses bear on.
std::vector<Slip> slips_of_inside_bearings(const RoofAsk&, const House&, const std::vector<std::size_t>& row_of);

// The strap that the job picks at a path; whether its entry is a pair that crosses.
using ChooseStrap = ChooseBracket;
using IsPair = std::function<bool(const Chosen&)>;
struct RoofBracesSettled {
  std::vector<RoofBrace> braces;
  std::vector<Slip> slips;
  std::vector<std::string> remarks;
};
// Another block's roof that lies on a slope of this one: within a triangle from the wall, where it reaches from `from`
// to `to`, up to where its ridge comes out, so far in. Places along that wall.
struct RoofOver {
  std::string block;
  Side slope;
  Length from, to, ridge, into;
};
RoofBracesSettled settle_roof_braces(const RoofAsk&, const RoofSettled&, const std::vector<RoofOver>&,
                                     const ChooseStrap&, const IsPair&);

// Names are spoken and typed ("A2 left", "T1 at 3600"): a letter first, and nothing that would take them apart.
bool good_name(std::string_view);
inline constexpr std::string_view name_help = "a letter first, at most 24 in all, no blanks, bars or slashes";
bool near(Length, Length);  // one place on a drawing
// The ends of a ridge: left or front, right or back.
struct Ends {
  Side low, high;
};
Ends ends_of(Along ridge);
bool is_end(const Roof&, Side);
bool falls_to(const Roof&, Side);  // a slope does
std::optional<Side> side_named(std::string_view);
Side across_from(Side);
Along along(Side);  // the way its wall runs
Angle pitch_at(const Roof&, Side);
// What a slope rises on a level length of one.
double rise(Angle pitch);
Length overhang_at(const Roof&, Side);
// How far in from a hip end's wall its slope meets the ridge; the span: across the ridge, of the walls. All three
// slopes rise.
Length apex_from(const Roof&, Side end, Length span);

}  // namespace belay
