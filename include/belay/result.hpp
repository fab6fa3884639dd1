// What Belay answers: one verdict for each link, with everything that a page or a program needs to show it.
#pragma once
#include "belay/job.hpp"
#include "belay/units.hpp"
#include <array>
#include <optional>
#include <string>
#include <vector>

namespace belay {

enum class Verdict : unsigned char { pass, fail, not_judged, by_others };
std::string_view words(Verdict);  // "PASS", "FAIL", "NOT JUDGED", "BY OTHERS"

// Demand over capacity. Made by `judge` alone, so that a coefficient never prints as a verdict.
struct Use {
  double value;
};

// The values add up to the part's demand.
struct MadeOf {
  std::string what;
  Value value;
  std::string from;
};
// How a fixing whose capacity is worked out gives first. code: of an anchor "steel", "cone", "pull-out", "blow-out",
// "edge", "pry-out", of cold-formed steel "section", "screws"; away: how far the edge is to which the concrete breaks,
// where it breaks to one ("45 mm").
struct Gives {
  std::string code, away;
};
// single: judged by itself. component: told, and judged within the part that joins it (along and across in a slide).
// combined: the uses of several parts under the sheet's rule; its demand is a ratio. reported: told, and judged by
// nobody here (what presses down, where the sheet says nothing of it).
enum class Role : unsigned char { single, component, combined, reported };
struct LinkPart {
  Role role;
  std::string part;  // "uplift", "pull", "slide", "along", "across", "both", "racking", "spacing"
  Value demand;      // in the case that decides; of a combined part ("both"): the combined use as a ratio
  std::optional<Value> capacity;
  std::optional<Use> use;
  std::string rule;  // combined parts: "straight sum"
  std::vector<MadeOf> made_of;
  Value greatest = demand;  // the greatest demand of this part in any case: it may be another one's
  std::optional<Gives> gives = std::nullopt;
};
enum class Met : unsigned char { yes, no, not_stated };
// key: what to add to the job when not stated.
struct Condition {
  std::string name;
  std::string needs, has;
  Met met;
  std::string key;
};
// Why a verdict is what it is: a code with what belongs to it. Renderers word it.
struct Why {
  std::string code, subject;
};
struct Where {
  std::string block, floor, wall, face;  // face: "front"... or "inside"
  std::optional<Length> from_start;      // along the wall from its left end (side walls: from the front)
  std::string words;                     // "A2 left", "T1 at 3600 front": what a person types to `explain`
  std::vector<std::string> also;         // other spoken addresses of the same place: a hold-down that is a jamb's too
};
struct CaseName {
  std::string id, wind, inside, combination;
  std::string ceiling = {};  // "flexible", "rigid": under which the link has more to hold; "": it makes no difference
};
struct Link {
  std::string id;    // stable: "A2/left"
  std::string kind;  // "bracket", "hold-down"...: see kinds_of_link
  Where where;
  Chosen fixing;
  std::string fixing_source;
  bool fixing_demo;
  CaseName load_case;  // the one that decides
  std::vector<LinkPart> parts;
  std::optional<Use> use;  // the greatest of its parts
  std::vector<Condition> conditions;
  std::vector<std::string> rests_on_memory;  // names of unchecked from-memory figures
  Verdict verdict;
  Why why;
};
struct Kind_of_link {
  std::string_view kind, words, plural;
  bool may_be_by_others;
};
std::span<const Kind_of_link> kinds_of_link();

struct NotLookedAt {
  std::string what, why, key_to_add;
};
struct FromMemory {
  std::string figure, value, source;
  std::size_t links;
  bool checked;
  std::string who;
};
struct Caution {
  std::string code, text;
};
// says: what else its line says: "exposure B", "region A2"; "" where there is nothing.
// typed_in: what an engineer typed in where a site is worked out: "gust", "pressure"; "" where nothing was.
struct SiteSaid {
  std::string method, edition, wind_class, given_by, basis;
  Speed gust;  // zero: the method has none in hand
  Pressure q;
  std::string says = {}, typed_in = {};
};
struct Counts {
  std::size_t pass, fail, not_judged, by_others;
  std::size_t given() const { return pass + fail + not_judged; }
};
// pass_if: every link holds, but some rest on unchecked from-memory figures.
enum class Answer : unsigned char { pass, pass_if, fail, not_judged };

// ---- the roof as it was understood, for a drawing. Places in plan from the block's left front corner; `above`: the
// bearings' level.
struct PlanPoint {
  Length across, up, above;
};
// kind: "slope" over the house, "overhang" past its walls. falls: the side that it falls to.
struct PlaneSaid {
  std::string kind, falls;
  Angle slope;
  std::vector<PlanPoint> outline;
};
struct RoofLineSaid {
  std::string kind;  // "ridge", "hip"...
  PlanPoint from, to;
};
// on: "wall A", or the member that it bears on: "TG1 at 2400".
struct BearingSaid {
  std::string words, on;
  PlanPoint at;
};
// carries: convex pieces of plan; roof: their area together, overhangs with it. hip_end: of jacks, creepers and hip
// rafters, the side of the block that their end slopes to; "" for trusses. clear_of: the side at which it bears on no
// outside wall; "" where it bears on both.
struct MemberSaid {
  std::string words, mark, kind;
  int plies;
  PlanPoint from, to;
  std::vector<BearingSaid> bearings;
  std::vector<std::vector<PlanPoint>> carries;
  Area roof;
  Chosen bracket = {}, onto = {};  // on walls; on another member
  std::string hip_end = {};
  std::string clear_of = {};
};
// A strap in the plane of the roof. foot, head: places along the ridge; level: from the wall to its head; length,
// to_ridge: in the plane of the slope. pair: it and the one that crosses it. stops_short: below the top of the slope,
// as the job says.
struct RoofBraceSaid {
  std::string name, slope;
  Length foot, head, level, length;
  Angle to_ridge;
  bool pair, stops_short;
  Chosen fixing;
};
struct RoofSaid {
  std::string shape;  // "hip"
  std::vector<PlaneSaid> planes;
  std::vector<RoofLineSaid> lines;
  std::vector<MemberSaid> members;
  Length mean_height, top;  // above ground: mean roof height, highest point
  std::vector<RoofBraceSaid> braces = {};
};

// A block of several: its left front corner in the main block's axes, its floor above the main block's (negative: set
// down). height: from the underside of its bottom plates to the bearings of its roof.
struct BlockSaid {
  std::string name;
  Length left, front, across, up, level, height;
};
// A change under which links hold that fail now, and nothing else becomes worse: tried on the whole house. links: those
// that fail. swaps: what a statement of the job names today, and what it would name; spacing: or the anchors of that
// name at most so far apart. wall, braces: more of that wall that braces, by itself or with a swap. greatest_use: then,
// of all links of the statements, and of the wall's bracing. then: of the whole house, with this change alone.
struct Remedy {
  struct Swap {
    Chosen now;
    std::string fixing;
  };
  // longer: the brace that is there today; "": a new one. from, to: from the wall's start.
  struct More {
    std::string longer, fixing;
    Length from, to;
  };
  // More of the concrete that fixings pull at. thick: a footing's thickness, else the depth of what runs on under
  // walls.
  struct Deeper {
    std::string what;  // "the stumps' footings"
    bool thick;
    Length now, to;
  };
  std::vector<std::size_t> links;
  std::vector<Swap> swaps;
  std::optional<Length> spacing;
  std::string wall;
  std::vector<More> braces;
  std::optional<Deeper> deeper;
  Use greatest_use;
  Counts then;
};
// strong_enough: fixings that would hold but for a condition of their sheet. needed: where nothing of the file does,
// what a fixing there would have to hold for design at the least, its figures to one another as those of the one that
// is there, and everything else as its sheet says. none_for: kinds of failing links for which neither helps. together:
// of the whole house with all of `each`.
struct Remedies {
  struct Holds {
    std::string part;  // "pull"
    Value value;
  };
  struct Needed {
    std::string kind;
    std::vector<std::size_t> links;
    Chosen now;
    std::vector<Holds> holds;
    Use greatest_use;
    Counts then;
  };
  struct StrongEnough {
    std::string kind, fixing;
    Condition unmet;
  };
  std::vector<Remedy> each;
  std::vector<std::string> none_for;
  std::vector<StrongEnough> strong_enough;
  std::vector<Needed> needed;
  std::optional<Counts> together;
};
struct Result {
  std::string tool;   // "belay 0.1"
  std::string table;  // "methods/as-4055-2021.toml"
  std::string title, drawn, file, sha256;
  Print print;
  SiteSaid site;
  Answer answer;
  Counts counts;
  std::vector<Link> links;
  std::vector<std::size_t> nearest;  // the passing links nearest to their limit, by use, at most one a kind
  std::vector<std::string> excess;   // limits of the method that the building passes, in words
  std::vector<Caution> cautions;
  std::vector<NotLookedAt> not_looked_at;
  std::vector<FromMemory> from_memory;  // the figures that some link rests on
  std::vector<ByOthers> by_others;      // those that answered for some link
  RoofSaid roof = {};
  std::string site_asked = {};                  // by `--method`: which of the job's sites it was judged by, else ""
  std::optional<Mirror> mirror = std::nullopt;  // as House::mirror
  std::vector<BlockSaid> blocks = {};           // of a house of several, the main one first
  Remedies remedies = {};                       // where they were asked for
  std::vector<TriedChange> tried = {};          // as House::tried
  std::vector<std::string> as_built = {};       // where what was found on site differs from the plan, in words
  int exit_code() const { return answer == Answer::pass ? 0 : 1; }
};

// ---- the site by itself: how the wind at the house comes about

// from: the direction that decides ("NE"); "" where the method knows none.
// worked_out: the gust before the method's least one was asked for; 0: the gust itself.
struct FaceSaid {
  Side side;
  Speed gust;
  Pressure q;
  std::string from;
  Speed worked_out = {};
};
struct FactorSaid {
  std::string symbol, words;
  Value value;
};
// product: of the factors, where one of them is a speed and the others are ratios; what the method makes of it is
// `gust`.
struct DirectionSaid {
  std::string name;
  std::vector<FactorSaid> factors;
  std::optional<Speed> product;
  Speed gust;
};
// Factors on the weight that holds down (or presses) and on the wind.
struct CombinationSaid {
  std::string name, source;
  double dead, wind;
};
struct SiteSheet {
  std::string tool, table, title, drawn, file, sha256;
  Print print;
  std::string name;  // the job's word for this one of several sites; "" when it states one alone
  SiteSaid site;
  std::optional<Speed> service_gust;
  std::array<FaceSaid, 4> faces;  // front, right, back, left
  std::vector<DirectionSaid> directions;
  std::vector<CombinationSaid> combinations;
  std::vector<FromMemory> from_memory;  // the figures that the gust rests on; `links` is not counted
  std::vector<std::string> excess, cautions;
  std::vector<NotLookedAt> not_looked_at;
  std::optional<Mirror> mirror = std::nullopt;  // as House::mirror
};

// ---- one house under several methods

// The bracket that has most to hold by the first of the methods, under one of them. as_area: its uplift as that of the
// gust pressure, with the factor on the wind, on so large an area.
struct WorstBracket {
  std::string words;
  Force uplift;
  CombinationSaid combination;
  Pressure factored;
  Area as_area;
};
struct Decides {
  CombinationSaid combination;
  std::size_t links;
};
struct UnderMethod {
  SiteSheet site;
  Result result;
  std::vector<Decides> decides;  // the combinations and how many links each decides, most first
  std::optional<WorstBracket> bracket;
};

}  // namespace belay
