// The multipliers of AS/NZS 1170.2 one by one, for the gust at a site and for a wind class that is worked out. Each
// reads its figures from the table, tells its steps under `symbol` and gives the marks of the figures it rests on.
#pragma once
#include "wind/methods.hpp"

namespace belay::as_nzs {

// symbol: of its last step; composed only where there is a working. words: for people.
struct Multiplier {
  double value;
  std::string symbol, words;
  Marks marks;
};
struct RegionalGust {
  Speed value;
  std::string symbol;
  Marks marks;
};

// The table's figure, to whole m/s, for a listed number of years. Between them the formula's, and no less than the
// table's for the fewer years listed. Fewer years than the formula is good for: the table's for the more years listed.
// tail: of the symbols, ",s" for serviceability. at: where the job states the years.
RegionalGust regional_gust(const Table&, const std::string& region, int years, const std::string& at,
                           std::string_view tail, Working*);
// F_C, F_D, M_c, or 1.0. `symbol` is always filled: it is a word of the edition.
Multiplier regional_factor(const Table&, const std::string& region, int years, std::string_view tail, Working*);
// M_z,cat: linear between the heights of the table, level below the first and above the last.
// z: with the symbol under which it was told.
Multiplier terrain_and_height(const Table&, const std::string& terrain, const As<Length>& z, Working*);
// M_h; 1.0 where the house stands beyond the hill's reach. tail: of the symbols, ",NE" or "".
Multiplier hill_shape(const Table&, const Hill&, const As<Length>& z, const std::string& tail, Working*);
// Where the ground rises upwind more steeply than the table allows, nothing shields (within the hill's reach).
bool too_steep_to_shield(const Table&, const Hill&);
bool can_be_a_hill(const Hill&);  // its lengths are more than nothing
// Whether `word` stands among words that blanks part.
bool stands_among(const std::string& words, std::string_view word);

}  // namespace belay::as_nzs
