// The forces that every link has to hold, one load case at a time: roof to truss bearings, bearings to studs and
// anchors, wind to bracing lines, lines to braces, braces to their ends. Load cases are carried to the end: nothing
// here is a worst. Every function has two lives: with a null Working it computes (and remembers); with a Working it
// computes again and tells its steps, those that it rests on first, each once.
#pragma once
#include "capacity/capacity.hpp"
#include "load_path/roof.hpp"
#include "load_path/set_out.hpp"
#include "shape/shape.hpp"
#include "wind/wind.hpp"
#include <array>
#include <optional>
#include <string>
#include <vector>

namespace belay {

// A stud that roof load comes down: under a bearing, or beside an opening whose lintel carries bearings.
struct Stud {
  std::size_t wall;
  Length at;
  std::optional<Jamb> jamb;  // of this opening's edge
  struct Load {
    std::size_t bearing;
    double share;
    bool over_opening;
    Length at;  // where the bearing stands, from the wall's start
  };
  std::vector<Load> loads;
  std::optional<std::size_t> support;  // jamb: the fixing that serves it, direct
  std::optional<std::size_t> plate;    // else: the plate it stands on
  bool beside_fixing;                  // a fixing stands within reach: no bending of the plate
};
// props: outside walls always; an inside wall when one of its braces counts. Others take no part in the sharing.
struct Line {
  std::string name;
  Along runs;
  Length at;
  std::vector<std::size_t> walls;
  bool props;
};
struct BraceAt {
  std::size_t wall, piece, line;
  BraceCapacity capacity;
};
enum class Sense : unsigned char { plus, minus };  // to the right or to the back; to the left or to the front
inline constexpr std::array<Sense, 2> senses{Sense::plus, Sense::minus};

class Forces {
 public:
  Forces(const House&, const Shape&, const Loads&, const Table& practice, bool cyclonic);

  // ---- what there is
  RoofForces roof;
  std::vector<WallSetOut> walls;  // per wall of the house
  std::vector<Stud> studs;
  std::vector<Line> lines;
  std::vector<BraceAt> braces;
  const House& house;
  const Shape& shape;
  const Loads& loads;
  const Table& practice;

  bool cyclonic() const { return cyclonic_; }
  std::size_t brace_on(std::size_t wall, std::size_t piece) const;  // index of the brace that stands there
  std::size_t stud_of(std::size_t wall, const Jamb&) const;         // index of the stud beside that opening

  // ---- roof
  Force uplift(std::size_t load_case, std::size_t bearing, Working* w = nullptr) const {
    return roof.uplift(load_case, bearing, w);
  }
  Force exact_uplift(std::size_t load_case, std::size_t bearing) const { return roof.exact_uplift(load_case, bearing); }
  std::vector<Piece_of_demand> uplift_made_of(std::size_t load_case, std::size_t bearing) const {
    return roof.uplift_made_of(load_case, bearing);
  }
  // Of a bearing on walls; at a corner the greater of its two walls'. Nothing on inside walls and on other members.
  Force bracket_across(std::size_t load_case, std::size_t bearing, Working* = nullptr) const;
  Force bracket_along(std::size_t load_case, std::size_t bearing, Working* = nullptr) const;

  // ---- down the wall
  Force stud_uplift(std::size_t load_case, std::size_t stud, Working* = nullptr) const;  // not below zero
  std::string stud_symbol(std::size_t load_case, std::size_t stud) const;  // under which its working tells it
  std::vector<Piece_of_demand> stud_made_of(std::size_t load_case, std::size_t stud) const;

  // ---- bracing. A line's force is positive to the right or to the back.
  Force line_force(std::size_t load_case, std::size_t line, Working* = nullptr) const;
  Force exact_line_force(std::size_t load_case, std::size_t line) const;  // relief past the end lines left in
  std::vector<Piece_of_demand> line_made_of(std::size_t load_case, std::size_t line) const;
  // What the line can hold against that force: braces that count, lining cut to its share.
  Force line_capacity(std::size_t load_case, std::size_t line, Working* = nullptr) const;
  std::string capacity_symbol(std::size_t line) const;  // under which its working tells it
  Force brace_capacity_counted(std::size_t load_case, std::size_t brace, Working* = nullptr) const;
  Force brace_force(std::size_t load_case, std::size_t brace, Working* = nullptr) const;  // its share, not below zero

  // ---- a brace's ends. Pull before the roof: tipping less own weight; zero at the end that is pressed.
  bool pulls(std::size_t load_case, std::size_t brace, End) const;
  Force tip(std::size_t load_case, std::size_t brace, Working* = nullptr) const;  // tipping alone
  Force tip_less_weight(std::size_t load_case, std::size_t brace, Working* = nullptr) const;
  Length arm(std::size_t brace, Working* = nullptr) const;  // above zero for a brace that counts

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
  std::string support_words(std::size_t wall, std::size_t support) const;

 private:
  struct Landing {
    std::size_t stud;
    double lever, continuous;
    bool direct;
  };

  void lay_out_lines();
  void lay_out_studs();
  void land_foot(std::size_t bearing, const Foot&, Length merge);
  void land_studs();
  void compute_all();

  const LoadCase& of(std::size_t c) const { return loads.cases[c]; }
  // Part of a push that a line takes: value positive to the right or to the back; positive: the push itself goes there.
  struct LineRow {
    std::string what, label;
    Force value;
    bool past_end_relief;
    Pressure p;
    Area area;
    Length middle, other;
    bool positive;
  };
  std::vector<LineRow> line_rows(std::size_t c, std::size_t line) const;
  void tell_line(std::size_t c, std::size_t line, const std::vector<LineRow>&, bool negative, Working&) const;
  std::vector<std::size_t> lines_running(Along) const;
  void tell_lever_share(const std::vector<Length>& at, Length x, std::size_t me, const std::string& symbol,
                        double share, Working*) const;
  std::vector<As<Force>> square_on(std::size_t c, const Wall&, Length from, Length to, const std::string& symbol,
                                   std::string_view width_words, std::string_view source, Working*) const;
  std::vector<std::size_t> slide_takers(std::size_t brace, Sense) const;

  bool cyclonic_;
  std::vector<std::vector<std::vector<Landing>>> landings_;  // wall, support
  // Remembered results, per case.
  struct Remembered {
    std::vector<Force> stud, line, exact_line, brace, brace_counted, line_capacity, bracket_across, bracket_along;
    std::vector<std::vector<Force>> roof_on, pull, along, across;
  };
  std::vector<Remembered> memo_;
};

}  // namespace belay
