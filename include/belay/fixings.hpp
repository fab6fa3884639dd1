// What the supplier's sheets say: capacities with the conditions under which they hold. Plain structs, as entered.
#pragma once
#include "belay/units.hpp"
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

enum class Basis : unsigned char { limit_state, allowable };
std::string_view words(Basis);  // "limit state (design)", "allowable"

// How the parts of one fixing act together, as its sheet states it. sum: straight sum of uses; five_thirds: sum of uses
// to the power 5/3; one_and_half: to the power 1.5; alone: the sheet says that each part may be taken alone.
enum class Together : unsigned char { sum, five_thirds, one_and_half, alone };
std::string_view words(Together);  // "straight sum", "5/3 power", "1.5 power", "each alone"

// What a sheet's figure is. design: phi or 1/gamma_M is in it already; characteristic: it is not, and exactly one of
// phi and gamma_M stands beside it; allowable: for unfactored combinations.
enum class FigureIs : unsigned char { design, characteristic, allowable };
std::string_view words(FigureIs);  // "design", "characteristic", "allowable"

// How a fixing was tested. tested: under repeated load.
enum class CyclicTest : unsigned char { tested, only_static };
std::string_view words(CyclicTest);  // "tested", "static"

// How an anchor is set. through_floor: through the framed floor into the wall below, a strap or a rod.
enum class How : unsigned char { cast_in, drilled, screwed, bonded, into_timber, into_steel, through_floor };
std::string_view words(How);  // "cast in", "drilled", "screwed", "bonded", "into timber", "into steel", "through floor"
// Into the slab, whose edge, strength and cracks decide what it holds.
constexpr bool in_concrete(How h) {
  return h == How::cast_in || h == How::drilled || h == How::screwed || h == How::bonded;
}
// Steel all round in concrete: it does not tire as screws and thin metal do.
constexpr bool needs_cyclic_test(How h) { return h != How::cast_in && h != How::bonded; }

// What every entry carries. Conditions left out are not conditions of the sheet. basis: none only in an entry that was
// not read whole, and such an entry reaches no house.
struct Terms {
  std::string name, source, at;  // at: "file:line" of the entry
  std::optional<FigureIs> basis;
  std::optional<double> phi, gamma_M;
  std::optional<CyclicTest> cyclic;
  std::optional<Length> least_steel;       // thickness of the frame's steel
  std::optional<std::string> joint_group;  // of the frame's timber
  bool demo;                               // invented: not for construction
  Basis acts_as() const { return basis == FigureIs::allowable ? Basis::allowable : Basis::limit_state; }
};
// The standard by which what an entry of cold-formed steel holds is worked out.
enum class WorkedOut : unsigned char { aisi_s100_16, as_nzs_4600_2018 };
std::string_view words(WorkedOut);  // "AISI S100-16", "AS/NZS 4600:2018"
// How the screws at an end are loaded: across their length, or along it.
enum class ScrewsIn : unsigned char { shear, tension };
std::string_view words(ScrewsIn);  // "shear", "tension"
// What such an entry is made of, read whole (files): its steel, and the screws that fasten each end. thickness: of the
// base metal. holes: across one section. screw_shear, screw_tension: of the screw itself, nominal. pried: false where
// nothing pries at screws in tension. into_*: the steel that they go into, where it is not the frame's.
struct SteelMade {
  std::optional<WorkedOut> worked_out;
  std::optional<Length> width, thickness;
  std::optional<Pressure> yield, ultimate;
  std::optional<double> holes;
  std::optional<Length> hole;
  std::optional<double> screws;
  std::optional<Length> screw_diameter, screw_spacing, screw_edge, screw_head;
  std::optional<Force> screw_shear, screw_tension;
  std::optional<ScrewsIn> screws_in;  // none: in shear
  std::optional<bool> pried;
  std::optional<Length> into_thickness;
  std::optional<Pressure> into_yield, into_ultimate;
};
// uplift, pull: where the entry states them; worked out, nothing stands there.
struct Bracket {
  Terms terms;
  Force uplift;
  std::optional<Force> along, across;
  std::optional<Together> together;
  std::optional<Force> press = std::nullopt;  // down on to what it stands on; none: told, not judged
  SteelMade made = {};
};
struct Tie {
  Terms terms;
  Force pull;
  SteelMade made = {};
};
// The plate carries this from a stud to its anchors.
struct PlateFixing {
  Terms terms;
  Force pull;
  Length greatest_spacing;
};
// By which code what an anchor holds in concrete is worked out, where its entry states no figures of a sheet.
enum class ConcreteCode : unsigned char { aci_318_19, en_1992_4 };
std::string_view words(ConcreteCode);  // "ACI 318-19", "EN 1992-4"
// What an anchor is made of, as far as such a code asks for it. pull_out, category, gamma_inst: of one set in hardened
// concrete, as its own assessment states them: a characteristic value in cracked concrete, and how much its setting
// forgives (category 1 to 3 by ACI 318, gamma_inst by EN 1992-4). torqued: tightened more than by hand.
struct AnchorMade {
  std::optional<Length> diameter, embedment, hook;  // hook: of a hooked bolt, from the inside of the bend to its end
  std::optional<Area> steel_area, head_area;        // of the thread in tension; of the head where it bears on concrete
  std::optional<Pressure> yield, ultimate;
  std::optional<bool> ductile, torqued;
  std::optional<Force> pull_out;
  std::optional<int> category;
  std::optional<double> gamma_inst;
};
// An entry gives pull and slide, or the code by which they are worked out and what that asks for.
struct Anchor {
  Terms terms;
  How how;
  Force pull, slide;
  std::optional<Together> together;
  std::optional<Length> least_edge, least_spacing, least_slab;
  std::optional<Pressure> concrete;
  std::optional<bool> cracked;
  std::optional<ConcreteCode> worked_out = std::nullopt;
  AnchorMade made = {};
};
// What a sheet states of strap and end fixing, or the steel and the screws from which they are worked out: each of the
// two by one of the two ways.
struct StrapBrace {
  Terms terms;
  std::optional<Force> tension, end_fixing;
  bool pair;
  SteelMade made = {};
  std::optional<Stiffness> stiffness = std::nullopt;  // of the brace, level at its top
};
// How much less a sheet counts that is more than twice as high as it is long, as its own source rules.
enum class Narrow : unsigned char { twice_length_over_height, by_eighths };
std::string_view words(Narrow);  // "2b/h", "1.25 - 0.125 h/b"
struct SheetBrace {
  Terms terms;
  LineLoad racking;
  Length least_length;
  std::optional<Length> greatest_height;
  std::optional<double> greatest_aspect = std::nullopt;  // height over length
  std::optional<Narrow> narrow = std::nullopt;
  std::optional<SheetStiffness> stiffness = std::nullopt;
};
// A sheeted wall with openings that is held down at its two ends alone. What stands of it on both sides of an opening
// is one piece each.
struct PerforatedBrace {
  Terms terms;
  LineLoad racking;
  double greatest_aspect;  // height over length of a piece that counts
  std::optional<Length> greatest_height = std::nullopt;
  std::optional<SheetStiffness> stiffness = std::nullopt;
};
// A bought unit of fixed length.
struct RatedBrace {
  Terms terms;
  Force racking;
  Length length, greatest_height;
  std::optional<Stiffness> stiffness = std::nullopt;
};
struct LiningBrace {
  Terms terms;
  LineLoad racking;
  Length least_length;
  std::optional<SheetStiffness> stiffness = std::nullopt;
};
// The studs at a brace's end with what they stand on and under.
struct EndStuds {
  Terms terms;
  Force press;
  Length greatest_height;  // of the wall, up to which the figure holds
};

struct Fixings {
  std::string title, status, file;
  std::vector<Bracket> brackets;
  std::vector<Tie> ties;
  std::vector<PlateFixing> plates;
  std::vector<Anchor> anchors;
  std::vector<StrapBrace> straps;
  std::vector<SheetBrace> sheets;
  std::vector<RatedBrace> rated;
  std::vector<LiningBrace> linings;
  std::vector<PerforatedBrace> perforated;
  std::vector<EndStuds> end_studs;
};
// The entry of that name, or null.
template <class Entry> const Entry* find(const std::vector<Entry>& list, std::string_view name) {
  for (const Entry& e : list)
    if (e.terms.name == name) return &e;
  return nullptr;
}

}  // namespace belay
