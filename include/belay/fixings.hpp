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
struct Bracket {
  Terms terms;
  Force uplift;
  std::optional<Force> along, across;
  std::optional<Together> together;
  std::optional<Force> press = std::nullopt;  // down on to what it stands on; none: told, not judged
};
struct Tie {
  Terms terms;
  Force pull;
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
// The standard by which a strap is worked out from its steel.
enum class WorkedOut : unsigned char { aisi_s100_16 };
std::string_view words(WorkedOut);  // "AISI S100-16"

// What a sheet states of strap and end fixing, or the steel and the screws from which they are worked out: each of the
// two by one of the two ways. A strap's steel is read whole (files); its screws too.
struct StrapBrace {
  Terms terms;
  std::optional<Force> tension, end_fixing;
  bool pair;
  std::optional<WorkedOut> worked_out = std::nullopt;
  std::optional<Length> width = std::nullopt, thickness = std::nullopt;  // thickness: of the base metal
  std::optional<Pressure> yield = std::nullopt, ultimate = std::nullopt;
  std::optional<double> holes = std::nullopt;  // across one section
  std::optional<Length> hole = std::nullopt;   // its diameter
  std::optional<double> screws = std::nullopt;
  std::optional<Length> screw_diameter = std::nullopt;
  std::optional<Force> screw_shear = std::nullopt;  // of the screw itself, nominal
  std::optional<Length> screw_spacing = std::nullopt, screw_edge = std::nullopt;
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
};
// The entry of that name, or null.
template <class Entry> const Entry* find(const std::vector<Entry>& list, std::string_view name) {
  for (const Entry& e : list)
    if (e.terms.name == name) return &e;
  return nullptr;
}

}  // namespace belay
