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

// The tables of roofs. flat: F and G at the windward edge, H, I behind; across, along: two slopes, by the wind to their
// ridge; hip: F to N. mono: one slope, the wind on to its low eaves, on to its high edge, along them.
enum class Family : unsigned char { flat, across, along, hip, mono_low, mono_high, mono_along };
std::string_view key_of(Family);      // its entry in the table
std::string_view letters_of(Family);  // its zones, a letter for each
// The name that a letter stands for: "F", but "Fup" and "Flow" for U and W, corners at the high and the low edge.
std::string_view zone_name(char letter);

// A zone's coefficient from a column "F10", "F1" or "F_most" at a pitch; a wall's from "D10", "D1" at h/d.
double coefficient(const Table&, Family, std::string_view column, Angle pitch);
double wall_coefficient(const Table&, std::string_view column, double h_d);

}  // namespace belay::eurocode
