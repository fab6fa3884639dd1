// What the two halves of EN 1991-1-4 share, site and pressures, and what the tests look at.
#pragma once
#include "wind/methods.hpp"
#include <string_view>

namespace belay::eurocode {

// To the top of the roof: safe for walls of tall buildings, whose lower parts may take a lower height.
Length reference_height(const WindAsk&, Working*);
// c_o at height h above the ground, at least 1. Past the ends of the annex its last value or its own curve goes on,
// which is never less than the annex's nothing.
double orography(const Table&, const Hill&, Length h, Working*);
Marks marks_of_gust(const WindAsk&);

// The zones that a roof is divided into. along, flat: F and G at the windward edge, H, I behind; hip: F to N.
enum class Family : unsigned char { flat, across, along, hip };
std::string_view key_of(Family);      // its entry in the table
std::string_view letters_of(Family);  // its zones
Family family_of(const Shape&, const Frame8&, const Table&);

// A zone's coefficient from a column "F10", "F1" or "F_most" at a pitch; a wall's from "D10", "D1" at h/d.
double coefficient(const Table&, Family, std::string_view column, Angle pitch);
double wall_coefficient(const Table&, std::string_view column, double h_d);

// e_r: e of the roof, measured from its outer edges; e_w: of the walls. Labels: "F" over the house, "F,o" over eaves
// and verges, "soffit,D" under them by the wall zone.
struct Widths {
  Length e_r, e_w;
};
Layout roof_layout(const Shape&, const Frame8&, const Table&, Family, const Widths&, std::string name);

}  // namespace belay::eurocode
