// The forces that every link has to hold, one load case at a time: roof to truss bearings, bearings to studs and
// anchors, wind to bracing lines, lines to braces, braces to their ends, and across a first floor to the walls below.
// Load cases are carried to the end: nothing here is a worst. Every function has two lives: with a null Working it
// computes (and remembers); with a Working it computes again and tells its steps, those that it rests on first, each
// once.
#pragma once
#include "capacity/capacity.hpp"
#include "load_path/ceiling.hpp"
#include "load_path/roof.hpp"
#include "load_path/set_out.hpp"
#include "load_path/valley.hpp"
#include "load_path/veranda.hpp"
#include "shape/shape.hpp"
#include "wind/wind.hpp"
#include <array>
#include <optional>
#include <set>
#include <string>
#include <variant>
#include <vector>

namespace belay {

// A fixing of a first floor's wall that can be pulled hands its pull across the floor, in plan where it stands.
// below: the wall of the ground floor under it, the same way and within reach of its line; at: along that wall.
struct Crossing {
  std::size_t wall, support;
  std::optional<std::size_t> below;
  Length at;
};
// A stud that load from above comes down: under a bearing or a crossing, or beside an opening whose lintel carries
// some.
struct Stud {
  std::size_t wall;
  Length at;
  std::optional<Jamb> jamb;  // of this opening's edge
  struct Load {
    std::size_t bearing;
    double share;
    bool over_opening;
    Length at;                                           // where the bearing stands, from the wall's start
    std::optional<std::size_t> crossing = std::nullopt;  // what crosses the floor instead of a bearing
    std::optional<std::size_t> rafter = std::nullopt;    // a veranda's, at the wall, instead of either
  };
  std::vector<Load> loads;
  std::optional<std::size_t> support;  // jamb: the fixing that serves it, direct
  std::optional<std::size_t> plate;    // else: the plate it stands on
  bool beside_fixing;                  // a fixing stands within reach: no bending of the plate
};
// A part of a wall that belongs to one bracing line: all of it, or as far as its plates run on level. from, to: from
// the wall's start.
struct LineWall {
  std::size_t wall;
  Length from, to;
};
// props: outside walls always, and those at the joint of two blocks; an inside wall when one of its braces counts.
// Others take no part in the sharing. Walls on one line are one where they stand in one block; where a wall's floor
// steps, and its top plate with it, its parts are lines of their own. gap: of a line along a block's edge in a house of
// several, the widest stretch without a wall between two of its walls; else zero.
struct Line {
  std::string name;
  Along runs;
  Length at;
  std::vector<std::size_t> walls;
  bool props;
  Floor floor = Floor::ground;
  std::vector<std::size_t> blocks = {0};  // whose ceilings it props, ascending
  std::vector<LineWall> parts = {};       // of `walls`, in their order
  Length gap = {};
};
struct BraceAt {
  std::size_t wall, piece, line;
  BraceCapacity capacity;
};
enum class Sense : unsigned char { plus, minus };  // to the right or to the back; to the left or to the front
inline constexpr std::array<Sense, 2> senses{Sense::plus, Sense::minus};

// Of a place from a wall's start, on the wall's line.
inline Point in_plan(const Wall& w, Length at) {
  return w.runs == Along::across ? Point{w.from + at, w.line} : Point{w.line, w.from + at};
}

class Forces {
 public:
  Forces(const House&, const Shape&, const Loads&, const Table& practice, bool cyclonic);

  // ---- what there is
  RoofForces roof;
  std::vector<WallSetOut> walls;  // per wall of the house
  std::vector<Stud> studs;
  std::vector<Line> lines;
  std::vector<BraceAt> braces;
  std::vector<Crossing> crossings;
  Verandas verandas;
  Valleys valleys;
  const House& house;
  const Shape& shape;
  const Loads& loads;
  const Table& practice;

  bool cyclonic() const { return cyclonic_; }
  // Every function below takes a case: one of the wind's under the ceiling that the job states. Where it wants both,
  // all of the wind's stand under a flexible ceiling first, and again in the same order under a rigid one.
  std::size_t cases() const { return loads.cases.size() * (house.ceiling == Ceiling::both ? 2 : 1); }
  std::size_t wind_of(std::size_t c) const { return c < loads.cases.size() ? c : c - loads.cases.size(); }
  bool under_rigid(std::size_t c) const { return house.ceiling == Ceiling::rigid || c >= loads.cases.size(); }
  const LoadCase& of(std::size_t c) const { return loads.cases[wind_of(c)]; }
  std::size_t brace_on(std::size_t wall, std::size_t piece) const;        // index of the brace that stands there
  std::optional<std::size_t> line_of(std::size_t wall, Length at) const;  // the bracing line of that place of the wall
  // Of the main block, where an inside wall stands at a wing's joint.
  std::optional<Side> side_of_joint(const Wall&) const;
  std::size_t stud_of(std::size_t wall, const Jamb&) const;  // index of the stud beside that opening

  // ---- roof
  Force uplift(std::size_t load_case, std::size_t bearing, Working* w = nullptr) const {
    return roof.uplift(wind_of(load_case), bearing, w);
  }
  Force exact_uplift(std::size_t load_case, std::size_t bearing) const {
    return roof.exact_uplift(wind_of(load_case), bearing);
  }
  std::vector<Piece_of_demand> uplift_made_of(std::size_t load_case, std::size_t bearing) const {
    return roof.uplift_made_of(wind_of(load_case), bearing);
  }
  // Of a bearing on walls; at a corner the greater of its two walls'. Nothing on inside walls and on other members.
  Force bracket_across(std::size_t load_case, std::size_t bearing, Working* = nullptr) const;
  Force bracket_along(std::size_t load_case, std::size_t bearing, Working* = nullptr) const;

  // ---- down the wall
  Force stud_uplift(std::size_t load_case, std::size_t stud, Working* = nullptr) const;  // not below zero
  std::string stud_symbol(std::size_t load_case, std::size_t stud) const;  // under which its working tells it
  std::vector<Piece_of_demand> stud_made_of(std::size_t load_case, std::size_t stud) const;

  // What crosses the floor and comes down to a stud, or to a fixing of the ground floor's walls, in any measure.
  std::vector<std::size_t> crossings_to(const Stud&) const;
  std::vector<std::size_t> crossings_to(std::size_t wall, std::size_t support) const;

  // Whether a truss or its like bears there, beside what else comes down.
  static bool bears_on(const Stud&);
  bool bears_on(std::size_t wall, std::size_t support) const;

  // Verandas whose rafters do.
  std::set<std::size_t> verandas_to(const Stud&) const;
  std::set<std::size_t> verandas_to(std::size_t wall, std::size_t support) const;

  // ---- bracing. A line's force is positive to the right or to the back. A line of the ground floor takes the wind
  // between mid-height of its walls and of those above, and what the lines above hand down.
  Force line_force(std::size_t load_case, std::size_t line, Working* = nullptr) const;
  Force exact_line_force(std::size_t load_case, std::size_t line) const;  // relief past the end lines left in
  std::vector<Piece_of_demand> line_made_of(std::size_t load_case, std::size_t line) const;
  // What the line can hold against that force: braces that count, lining cut to its share.
  Force line_capacity(std::size_t load_case, std::size_t line, Working* = nullptr) const;
  std::string line_symbol(std::size_t line) const;      // under which its working tells the force, in size
  std::string capacity_symbol(std::size_t line) const;  // and what it can hold
  // From-memory entries of the practice table behind the stiffness by which a rigid ceiling gives the line its share.
  std::uint64_t marks_of_stiffness(std::size_t load_case, std::size_t line) const;
  // The braces whose sheets state no stiffness, on a floor under a rigid ceiling where others' do: its lines share by
  // capacity, as where none is stated.
  std::vector<std::size_t> without_stiffness() const;
  // The ground floor's line in the main block under one of the first floor's, within reach of it; none: the floor would
  // have to carry its force to lines beside it.
  std::optional<std::size_t> line_below(std::size_t line) const;
  Force brace_capacity_counted(std::size_t load_case, std::size_t brace, Working* = nullptr) const;
  Force brace_force(std::size_t load_case, std::size_t brace, Working* = nullptr) const;  // its share, not below zero

  // What pushes on the ceiling of a floor of a block, by parts of the faces; of a lower floor all that stands on it.
  std::vector<CeilingPush> ceiling_pushes(std::size_t load_case, Floor, std::size_t block) const;

  // ---- a brace's ends. Pull before the roof: tipping less own weight; zero at the end that is pressed. The pieces of
  // a perforated wall are held down at the wall's own ends alone; each is pressed at its end as any brace is.
  bool pulls(std::size_t load_case, std::size_t brace, End) const;
  bool presses(std::size_t load_case, std::size_t brace, End) const;
  Force tip(std::size_t load_case, std::size_t brace, Working* = nullptr) const;  // tipping alone
  Force tip_less_weight(std::size_t load_case, std::size_t brace, Working* = nullptr) const;
  As<Length> reach(std::size_t brace, Working* = nullptr) const;  // along the wall
  Length arm(std::size_t brace, Working* = nullptr) const;        // above zero for a brace that counts
  // On the compression studs of an end: its own tipping, and what braces above press there, a lintel's share with it.
  // Of the wind alone: no weight.
  Force press(std::size_t load_case, std::size_t brace, End, Working* = nullptr) const;
  // The main block's wall under a place of a first floor's, along the block; none: nothing stands there.
  std::optional<std::size_t> wall_below(const Wall& above, Length along) const;
  Length end_of(std::size_t brace, End) const;  // along the block
  // The share of what an end of a first floor's brace presses that comes to an end of a brace below: 0 to 1.
  double press_share(std::size_t above, End, std::size_t below, End) const;
  // The part of what an end of a first floor's brace presses that comes to no end of a ground floor's brace: 0 to 1.
  double press_left(std::size_t brace, End) const;

  // ---- under the pieces of a perforated wall the plate is lifted by as much, for each length, as it is pushed along.
  struct Lifted {
    std::size_t brace;
    Length length;  // of the piece, as much as comes to one fixing
  };
  const std::vector<Lifted>& lifted(std::size_t wall, std::size_t support) const { return lifted_[wall][support]; }
  LineLoad perforated_shear(std::size_t load_case, std::size_t brace, Working* = nullptr) const;
  // Whether a brace pulls at the fixing.
  bool racked(std::size_t load_case, std::size_t wall, std::size_t support) const;

  // ---- the floor on the ground floor's bracing lines, one of its fixings: along the line, square on to the worst of
  // its outside walls (their upper half pushes at the floor), and both as one.
  bool under_the_floor(std::size_t line) const;  // a ground floor's line in the main block, with a floor over it
  double floor_fixings(std::size_t line) const;
  Force floor_fixing_along(std::size_t load_case, std::size_t line, Working* = nullptr) const;
  Force floor_fixing_across(std::size_t load_case, std::size_t line, Working* = nullptr) const;
  Force floor_fixing_slide(std::size_t load_case, std::size_t line, Working* = nullptr) const;

  // ---- fixings through the bottom plate
  Force roof_on(std::size_t load_case, std::size_t wall, std::size_t support, Working* = nullptr) const;
  Force pull(std::size_t load_case, std::size_t wall, std::size_t support, Working* = nullptr) const;  // not below zero
  Force along(std::size_t load_case, std::size_t wall, std::size_t support, Working* = nullptr) const;
  Force across(std::size_t load_case, std::size_t wall, std::size_t support, Working* = nullptr) const;
  Force slide(std::size_t load_case, std::size_t wall, std::size_t support, Working* = nullptr) const;
  bool roof_lands(std::size_t wall, std::size_t support) const;     // some truss's load comes to it
  bool can_be_pulled(std::size_t wall, std::size_t support) const;  // a brace's end or roof load comes to it
  std::vector<Piece_of_demand> pull_made_of(std::size_t load_case, std::size_t wall, std::size_t support) const;

  std::string stud_words(const Stud&) const;
  static std::string_view words_of_what_comes(const Stud&);  // "roof", "first floor"
  std::string_view words_of_what_comes(std::size_t wall, std::size_t support) const;
  std::string support_words(std::size_t wall, std::size_t support) const;

 private:
  struct Landing {
    std::size_t stud;
    double lever, continuous;
    bool direct;
  };

  static bool brings(const Landing&);
  std::string tip_symbol(std::size_t brace) const;  // under which its tipping is told

  void lay_out_lines();
  void lay_out_lines(Floor);
  struct LinePart {
    LineWall part;
    std::vector<std::size_t> blocks;
    std::string name;
  };
  std::vector<LinePart> line_parts(std::size_t wall) const;
  void join(Line&, const LinePart&) const;
  void find_gaps(std::size_t first_line);
  // block: whose face the wind blows on; none: any that the wall stands in.
  struct Stretch {
    Side side;
    Length from, to;
    std::optional<std::size_t> block;
  };
  std::vector<Stretch> in_the_wind(const Wall&, Length from, Length to) const;
  void lay_out_jamb_studs();
  void land(std::size_t wall, const Stud::Load&);
  Stud* stud_beside(std::size_t wall, Length at, bool under_a_bearing);
  void land_verandas();
  void stand_studs(Floor);
  void land_studs(Floor);
  void lift_plates();
  void lay_out_crossings();
  void compute_all();

  // Part of a push that a line takes: value positive to the right or to the back; positive: the push itself goes there.
  // symbol: of the pressure; beside: the line that the other share goes to.
  struct LineRow {
    std::string what, symbol;
    Force value;
    bool past_end_relief;
    Pressure p;
    Area area;
    Length middle;
    std::size_t beside;
    bool positive;
  };
  // What a line above hands to this one. beside: it stands off every line below and the floor shares it out. exact: of
  // its force with the relief past its own end lines left in.
  struct FromAbove {
    std::size_t line;
    double share;
    Force value;
    bool past_end_relief, beside, exact;
  };
  // What a line has to hold, and what it is made of.
  struct LineSum {
    std::vector<LineRow> rows;
    std::vector<FromAbove> above;
    Force force;
  };
  LineSum line_sum(std::size_t c, std::size_t line) const;
  // Under a rigid ceiling. A line's shares of every block whose ceiling it props; nothing where no brace of it holds in
  // the sense in which it is moved, or no line the ceiling: then it is asked for its part under a flexible one.
  template <class Stiff> struct StiffLines {
    std::vector<StiffLineBy<Stiff>> lines;
    std::vector<Stiff> moved;  // in the sense in which the ceiling moves each
  };
  struct RigidFloor {
    std::vector<std::size_t> lines;  // of the block, both ways
    std::variant<StiffLines<Force>, StiffLines<Stiffness>> stiff;
    std::vector<CeilingPush> pushes;
    std::optional<RigidShare> share[2];  // for lines that run across, up
    std::size_t place_of(std::size_t line) const;
    bool is_stiff(std::size_t place) const;
    bool by_capacity() const { return stiff.index() == 0; }
  };
  template <class Stiff> void share_out(RigidFloor&, StiffLines<Stiff>) const;
  std::vector<StiffLine> as_told(const RigidFloor&, const StiffLines<Force>&, const std::string& suffix,
                                 Working&) const;
  std::vector<StatedLine> as_told(const RigidFloor&, const StiffLines<Stiffness>&, const std::string& suffix,
                                  Working&) const;
  RigidFloor rigid_floor(std::size_t c, Floor, std::size_t block) const;
  const RigidFloor& remembered_floor(std::size_t c, Floor, std::size_t block) const;
  struct RigidLine {
    Force direct, turned, force;  // of all blocks together; turning that relieves is left out of the force
  };
  std::optional<RigidLine> rigid_line(std::size_t c, std::size_t line) const;
  std::uint64_t marks_of_capacity(std::size_t line) const;
  enum class Stated : unsigned char { none, some, all };
  Stated stiffness_stated(Floor, std::size_t block) const;
  void tell_rigid_line(std::size_t c, std::size_t line, const RigidLine&, Working&) const;
  std::vector<Piece_of_demand> rigid_line_made_of(std::size_t c, std::size_t line, const RigidLine&) const;
  std::vector<LineRow> line_rows(std::size_t c, std::size_t line) const;
  void add_line_rows(std::size_t c, std::size_t line, std::size_t block, std::vector<LineRow>&) const;
  std::vector<FromAbove> from_above(std::size_t c, std::size_t line, bool exact) const;
  void tell_line(std::size_t c, std::size_t line, const std::vector<LineRow>&, const std::vector<FromAbove>&,
                 bool negative, Working&) const;
  As<Force> through_brackets(std::size_t c, std::size_t line, Working*) const;
  std::vector<As<Force>> rigid_shares_of_wings(std::size_t c, std::size_t line) const;
  As<Force> tell_from_above(std::size_t c, std::size_t line, const FromAbove&, bool negative, Working&) const;
  std::vector<std::size_t> lines_running(Along, Floor) const;
  std::vector<std::size_t> lines_of_block(Along, Floor, std::size_t block) const;
  // Of symbols that both floors have: "" in a house of one floor, else ",ground" or ",first".
  std::string of_floor(Floor) const;
  // What of a line's part the first floor stands on: its start and end along the block; empty past the main block.
  std::pair<Length, Length> below_the_floor(const LineWall&) const;
  Length tipping_height(std::size_t brace, Working*) const;
  Length hold_down_in(std::size_t brace) const;
  Force brought(std::size_t c, const Stud::Load&, Working* = nullptr) const;
  std::string number(const Stud::Load&) const;
  std::string brought_symbol(const Stud::Load&) const;
  std::string brought_words(const Stud::Load&) const;
  void tell_lever_share(const std::vector<Length>& at, Length x, std::size_t me, const std::string& symbol,
                        double share, Working*) const;
  std::vector<As<Force>> square_on(std::size_t c, const Wall&, Length from, Length to, const std::string& symbol,
                                   std::string_view width_words, std::string_view source, Working*) const;
  std::vector<std::size_t> slide_takers(std::size_t brace, Sense) const;
  std::vector<std::size_t> slide_takers_of_piece(std::size_t brace, std::size_t support) const;
  As<Force> slide_of_piece(std::size_t c, std::size_t brace, std::size_t support, double takers, Working*) const;

  bool cyclonic_;
  std::vector<std::vector<std::vector<Landing>>> landings_;  // wall, support
  std::vector<std::vector<std::vector<Lifted>>> lifted_;     // wall, support
  // Remembered results, per case.
  struct Remembered {
    using Forces_of = std::vector<std::optional<Force>>;
    Forces_of stud, line, exact_line, brace, brace_counted, line_capacity, bracket_across, bracket_along;
    std::vector<Forces_of> roof_on, pull, along, across;
    std::vector<RigidFloor> rigid;  // by floor and block
  };
  std::vector<Remembered> memo_;
};

}  // namespace belay
