// What is said of roof braces and of the slopes that they hold: words, cautions, and how they lie for a drawing.
#pragma once
#include "belay/result.hpp"
#include "load_path/roof_bracing.hpp"
#include <optional>
#include <string>
#include <vector>

namespace belay {

std::string roof_brace_words(const RoofBrace&);                // "roof brace front 1"
std::string roof_plane_words(Side slope, Along ridge, Sense);  // "roof plane front to the right"
// Of the top floor and the main block; at: where along the block, if it matters.
std::optional<std::size_t> wall_under(const House&, Side slope, std::optional<Length> at = std::nullopt);
// Why a slope is not held, or not known to be; nothing where the forces decide.
struct PlaneVerdict {
  bool stated, fails;  // stated: the job states a roof brace in this slope
  std::string code, subject;
};
std::optional<PlaneVerdict> plane_verdict(const House&, const RoofBracing&, std::size_t plane, Sense, bool enough);

std::vector<Caution> roof_bracing_cautions(const House&, const Loads&, const RoofBracing&, const Table& practice);
std::vector<RoofBraceSaid> roof_braces_said(const House&, const Shape&);

}  // namespace belay
