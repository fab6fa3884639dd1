// The whole of the engineering in two calls. Pure: no files, no TOML, no printing, no threads.
#pragma once
#include "belay/job.hpp"
#include "belay/result.hpp"
#include "belay/working.hpp"
#include <optional>
#include <string>
#include <vector>

namespace belay {

class Table;

// The verdict on every link of a settled house by the method that its site asks for. `method`: that method's figures;
// `practice`: tables/practice/common.toml.
Result check(const House&, const Table& method, const Table& practice);

// What would make links hold that fail in this house's result: other entries of its fixings in their place, the weakest
// that is enough, anchors closer together, or more of a wall that braces. Each is checked on the whole house, so it
// takes as long as some checks.
Remedies remedies(const House&, const Table& method, const Table& practice, const Result&);

// How far a fixing of a bottom plate may stand off its place along the wall, each way, everything else as it is: tried
// on the whole house, step by step, up to `most`, until the fixing or anything else holds less well than now. Nothing
// for other links, for one that does not pass, and on a wall where fixings were found off their places.
struct RoomToMove {
  Length from, to, step, most;
};
std::optional<RoomToMove> room_to_move(const House&, const Table& method, const Table& practice, const Result&,
                                       std::size_t link);

// The steps behind one link's numbers in the case that decides, from the first formula on. Runs the same functions as
// `check`; its last results are bit for bit those of the link. Precondition: `link` is an index into the result's
// links.
Working explain(const House&, const Table& method, const Table& practice, const Result&, std::size_t link,
                const Units&);

// The site alone: what its method makes of it, with every step from what the job states to the gust on each face. Its
// `name` is left empty.
// windiest: of the working, what leads to the gust on the windiest face; all of it where the method knows no faces.
struct SiteWorkedOut {
  SiteSheet sheet;
  Working working, windiest;
};
SiteWorkedOut site_of(const House&, const Table& method, const Units&);

// The house under each of its `sites`, in their order. `methods`: the tables that they ask for, as many. A fixing whose
// sheet speaks of another basis than a method gives that method no verdict, here as in `check`: why is
// "basis-differs".
std::vector<UnderMethod> under_each(const House&, const std::vector<const Table*>& methods, const Table& practice);

// Where every anchor stands, said back: set out by rule from the house (ends, joints and jambs first, then equal
// spaces).
// What: "hold-down", "jamb", "anchor".
struct Station {
  std::string wall, what, fixing, by;
  Length from_start;
  std::string serves;
};
std::vector<Station> set_out(const House&, const Table& practice);
// What was found of a brace, where it differs from the plan: "demo-strap for demo-sheet, at 52 deg to the plate"; else
// "".
std::string found_words(const House&, const Brace&);

// The roof as it was understood: its planes and lines, every truss, girder, jack and rafter with its bearings and the
// part of the roof that it holds. What `check` puts into its result as well.
RoofSaid roof_of(const House&);
// The roof of each block as it would be alone, the main one first, and what holds the roof of the whole house there; in
// that block's own axes.
std::vector<RoofSaid> roofs_of(const House&);

}  // namespace belay
