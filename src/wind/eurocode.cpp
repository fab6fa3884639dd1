// Pressures by EN 1991-1-4. Everything is laid out once, for wind along +x with the building's windward edge at x = 0;
// the four turns of the plan give the four winds. Both signs that the tables give are cases of their own, never mixed
// on the zones of one slope.
#include "wind/eurocode.hpp"
#include "wind/formulas.hpp"
#include "wind/formulas_en.hpp"
#include "wind/zones.hpp"
#include <algorithm>
#include <array>

namespace belay::eurocode {

// ---- families of roof zones ----------------------------------------------------------------------------------------

std::string_view key_of(Family f) {
  switch (f) {
    case Family::flat: return "flat";
    case Family::across: return "duopitch_across";
    case Family::along: return "duopitch_along";
    case Family::hip: return "hip";
    case Family::mono_low: return "monopitch_low";
    case Family::mono_high: return "monopitch_high";
    case Family::mono_along: return "monopitch_along";
  }
  return "flat";
}
std::string_view letters_of(Family f) {
  switch (f) {
    case Family::flat:
    case Family::along: return "FGHI";
    case Family::across: return "FGHIJ";
    case Family::hip: return "FGHIJKLMN";
    case Family::mono_low:
    case Family::mono_high: return "FGH";
    case Family::mono_along: return "UWGHI";
  }
  return "";
}
std::string_view zone_name(char letter) {
  if (letter == 'U') return "Fup";
  if (letter == 'W') return "Flow";
  constexpr std::string_view letters = "FGHIJKLMN";
  return letters.substr(letters.find(letter), 1);
}
// For symbols and for people, where tables of several roofs stand side by side.
static std::string_view short_of(Family f) {
  switch (f) {
    case Family::flat: return "flat";
    case Family::across: return "duo";
    case Family::along: return "end";
    case Family::hip: return "hip";
    default: return "mono";
  }
}
static std::string_view roofs_of(Family f) {
  switch (f) {
    case Family::flat: return "flat roofs";
    case Family::across: return "duopitch roofs";
    case Family::along: return "duopitch roofs met at a gable";
    case Family::hip: return "hip roofs";
    default: return "monopitch roofs";
  }
}

// ---- coefficients --------------------------------------------------------------------------------------------------

// What a table gives, as read: the figure of one row, or those of the rows on both sides. Reading comes first, so that
// a working shows all that is read in one block. Symbols: empty in silence.
namespace {
template <class Q> struct Rows {
  double low, high;
  Q here, at_low, at_high;
  bool between;
};
struct RowNames {
  std::string_view low, high, words_low, words_high;
};
}  // namespace
static constexpr RowNames pitch_rows{"theta_1", "theta_2", "row below the pitch", "row above the pitch"};
static constexpr RowNames height_rows{"n_1", "n_2", "row below h/d", "row above h/d"};
static constexpr RowNames correlation_rows{"n_3", "n_4", "lesser h/d of the figures", "greater h/d of the figures"};

template <class Q>
static Rows<Q> read(const Table& t, std::string_view key, std::string_view row, std::string_view column, Q at,
                    const RowNames& names, Working* w, const std::string& symbol, const std::string& words) {
  const auto& rows = t.column(key, row);
  const Place place = place_among(rows, std::max(at, quantity<Q>(rows.front())));
  if (!place.between) {
    const double c = figure<double>(w, t, key, column, symbol, words, place.low);
    return {c, c, at, at, at, false};
  }
  const std::size_t i = place.low;
  const auto& figures = t.column(key, column);
  if (figures[i] == figures[i + 1]) {  // the same in both rows
    const double c = figure<double>(w, t, key, column, symbol, w ? words + ", in both rows" : std::string(), i);
    return {c, c, at, at, at, false};
  }
  if (!w)
    return {figure<double>(w, t, key, column, {}, {}, i),
            figure<double>(w, t, key, column, {}, {}, i + 1),
            at,
            quantity<Q>(rows[i]),
            quantity<Q>(rows[i + 1]),
            true};
  const double low = figure<double>(w, t, key, column, symbol + ",lo", words + ", " + std::string(names.words_low), i);
  const double high =
      figure<double>(w, t, key, column, symbol + ",hi", words + ", " + std::string(names.words_high), i + 1);
  return {low,
          high,
          at,
          figure<Q>(w, t, key, row, names.low, names.words_low, i),
          figure<Q>(w, t, key, row, names.high, names.words_high, i + 1),
          true};
}
static double between_pitches(const Rows<Angle>& r, Working* w, const std::string& symbol, const std::string& words,
                              const std::string& theta, const std::string& slope) {
  if (!r.between) return r.low;
  if (!w) return formulas::linear_in_pitch(nullptr, r.low, r.high, r.here, r.at_low, r.at_high);
  return formulas::linear_in_pitch.told_as(w, symbol, words + ", between two rows by the pitch", "linear between rows",
                                           as(symbol + ",lo", r.low), as(symbol + ",hi", r.high), as(theta, r.here),
                                           as("theta_1" + slope, r.at_low), as("theta_2" + slope, r.at_high));
}
static double between_heights(const Rows<double>& r, Working* w, const std::string& symbol, const std::string& words,
                              const RowNames& names) {
  if (!r.between) return r.low;
  if (!w) return formulas::linear_in_height(nullptr, r.low, r.high, r.here, r.at_low, r.at_high);
  return formulas::linear_in_height.told_as(
      w, symbol, words + ", between two rows by h/d", "linear between rows", as(symbol + ",lo", r.low),
      as(symbol + ",hi", r.high), r.here, as(std::string(names.low), r.at_low), as(std::string(names.high), r.at_high));
}

double coefficient(const Table& t, Family f, std::string_view column, Angle pitch) {
  return between_pitches(read(t, key_of(f), "pitch", column, pitch, pitch_rows, nullptr, {}, {}), nullptr, {}, {}, {},
                         {});
}
double wall_coefficient(const Table& t, std::string_view column, double h_d) {
  return between_heights(read(t, "walls", "h_d", column, h_d, height_rows, nullptr, {}, {}), nullptr, {}, {},
                         height_rows);
}

// ---- the roof as one wind sees it ----------------------------------------------------------------------------------

namespace {
// Of the slope that falls to a side. of_roof: told as "theta", the pitch of the roof; others under that side's name.
struct Pitch {
  Angle angle;
  Side side;
  bool of_roof;
};
// One figure that may hold in a zone: a letter of a table, read at a pitch.
struct Rule {
  Family family;
  char zone;
  Pitch pitch;
  bool operator==(const Rule& o) const { return family == o.family && zone == o.zone && pitch.angle == o.pitch.angle; }
};
using Rules = std::vector<Rule>;
// Zones that share their figures. Several rules: no table tells the roof as a whole, and the worst of them holds.
// label: "F"; "KJ" of K and J; "F,back" where other zones have the same letters.
struct ZoneKind {
  Rules rules;
  std::string label, words;
};
struct Piece {
  Polygon part;
  Rules rules;
};
// The outer edges of the roof as the wind sees it, and where the slope that it does not meet begins.
struct Edges {
  Length x0, x1, y0, y1, ridge;
};
struct Parts {
  Polygon within, beyond;
};
// How the roof stands to the wind.
enum class Stands : unsigned char { flat, one_slope, across, along };
}  // namespace

static std::string_view words_of(Side side) { return words(side); }
static bool has_column(const Table& t, Family f, const std::string& column) {
  return t.entry(key_of(f)).columns.contains(column);
}
static std::string column_of(char zone, std::string_view kind) {
  std::string column(zone_name(zone));
  column += kind;
  return column;
}
// The column that holds for loaded areas of "10" or "1" m2; `press`: the other sign than suction, where there is one.
static std::string column_of(const Table& t, const Rule& r, std::string_view area, bool press) {
  std::string most = press ? column_of(r.zone, "_most") : std::string();
  return press && has_column(t, r.family, most) ? most : column_of(r.zone, area);
}
static double figure_of(const Table& t, const Rules& rules, std::string_view area, bool press) {
  double worst = 0.0;
  for (std::size_t i = 0; i < rules.size(); ++i) {
    const double c = coefficient(t, rules[i].family, column_of(t, rules[i], area, press), rules[i].pitch.angle);
    if (i == 0 || (press ? c > worst : c < worst)) worst = c;
  }
  return worst;
}
static Rules joined(Rules a, const Rules& b) {
  for (const Rule& r : b)
    if (std::find(a.begin(), a.end(), r) == a.end()) a.push_back(r);
  return a;
}
static bool has_two_signs(const Table& t, const Rules& rules) {
  return std::any_of(rules.begin(), rules.end(),
                     [&](const Rule& r) { return has_column(t, r.family, column_of(r.zone, "_most")); });
}
// Whether these figures are the worse ones whichever area and sign counts.
static bool covers(const Table& t, const Rules& a, const Rules& b) {
  const bool both_signs = has_two_signs(t, a) || has_two_signs(t, b);
  for (const std::string_view of : {"10", "1"}) {
    if (figure_of(t, a, of, false) > figure_of(t, b, of, false)) return false;
    if (both_signs && figure_of(t, a, of, true) < figure_of(t, b, of, true)) return false;
  }
  return true;
}

static Edges edges_of(const Shape& s, const Frame8& f) {
  Edges e{everywhere, -everywhere, everywhere, -everywhere, everywhere};
  for (const Surface& surface : s.surfaces) {
    if (surface.part == Part::soffit) continue;
    const bool lee = f.seen(surface.falls) == Way::right;
    for (const Point& p : f.seen(surface.outline)) {
      e.x0 = std::min(e.x0, p.x);
      e.x1 = std::max(e.x1, p.x);
      e.y0 = std::min(e.y0, p.y);
      e.y1 = std::max(e.y1, p.y);
      if (lee && surface.part == Part::roof) e.ridge = std::min(e.ridge, p.x);
    }
  }
  return e;
}

static Parts cut_x(const Polygon& g, Length x) { return {between_x(g, -everywhere, x), between_x(g, x, everywhere)}; }
static Parts cut_y(const Polygon& g, Length y) { return {between_y(g, -everywhere, y), between_y(g, y, everywhere)}; }
// The parts of a convex polygon within a distance of a line and past it; `past`: how far a point lies past that
// distance, linear.
static Parts cut_along(const Polygon& g, const std::function<Length(const Point&)>& past) {
  Parts parts;
  const Length none = zero<Length>();
  for (std::size_t i = 0; i < g.size(); ++i) {
    const Point &p = g[i], &q = g[(i + 1) % g.size()];
    const Length at_p = past(p), at_q = past(q);
    if (at_p <= none) parts.within.push_back(p);
    if (at_p >= none) parts.beyond.push_back(p);
    if ((at_p > none && at_q < none) || (at_p < none && at_q > none)) {
      const auto share = at_p / (at_p - at_q);
      const Point meet{p.x + share * (q.x - p.x), p.y + share * (q.y - p.y)};
      parts.within.push_back(meet);
      parts.beyond.push_back(meet);
    }
  }
  const auto drop = [](Polygon& part) {
    if (part.size() < 3 || !(area(part) > zero<Area>())) part.clear();
  };
  drop(parts.within);
  drop(parts.beyond);
  return parts;
}
// How far a seen point lies from the hip in which two slopes meet, in plan and square to the hip. The standard's
// drawing can be read along the wind as well: square to the hip gives the wider strip.
static Length from_hip(const Frame8& f, const Surface& own, const Surface& other, const Point& seen) {
  const Point p = f.own(seen);
  const double a = tangent(own.slope), b = tangent(other.slope);
  return (height_at(other, p) - height_at(own, p)) / square_root(square(a) + square(b));
}

// ---- which slopes there are ----------------------------------------------------------------------------------------

namespace {
// By the way that a slope falls, in the building's own frame. ridge: of the two slopes that face each other, where all
// four fall that of the shape.
struct Slopes {
  std::array<std::optional<Angle>, 4> pitch;
  std::array<bool, 4> gable_above;  // a gable stands on it
  Along ridge;
  Angle of_roof;  // stated for all slopes that have none of their own
  int count = 0;
  Angle least, greatest;

  bool has(Way w) const { return pitch[static_cast<std::size_t>(w)].has_value(); }
  // Slopes in pairs that face each other, and others only at the ends of such a pair.
  bool faced() const {
    return count == 1 || (has(Way::left) && has(Way::right)) || (has(Way::front) && has(Way::back));
  }
  bool has_hip() const { return count > 2; }
  // Ends of the ridge up which a gable goes, in part or from the wall.
  bool gable_at(Way w) const { return !has(w) || gable_above[static_cast<std::size_t>(w)]; }
};
}  // namespace

static Slopes slopes_of(const Shape& s, Angle of_roof) {
  Slopes all{{}, {}, s.ridge, of_roof, 0, zero<Angle>(), zero<Angle>()};
  for (const Surface& surface : s.surfaces) {
    if (surface.part != Part::roof) continue;
    auto& own = all.pitch[static_cast<std::size_t>(surface.falls)];
    if (own) continue;
    own = surface.slope;
    all.least = all.count == 0 ? surface.slope : std::min(all.least, surface.slope);
    all.greatest = all.count == 0 ? surface.slope : std::max(all.greatest, surface.slope);
    ++all.count;
    all.gable_above[static_cast<std::size_t>(surface.falls)] =
        s.at(side_facing(surface.falls)).gable_above > zero<Length>();
  }
  const bool across = all.has(Way::left) && all.has(Way::right), up = all.has(Way::front) && all.has(Way::back);
  if (across != up) all.ridge = across ? Along::up : Along::across;
  return all;
}

static Stands stands(const Table& t, const Slopes& slopes, const Frame8& f) {
  if (slopes.greatest < t.get<Angle>("flat", "below")) return Stands::flat;
  if (slopes.count == 1) return Stands::one_slope;
  return f.seen(slopes.ridge) == Along::up ? Stands::across : Stands::along;
}

// ---- where the zones lie -------------------------------------------------------------------------------------------

namespace {
struct Layer {
  const Shape& shape;
  const Frame8& frame;
  const Table& t;
  const Slopes& slopes;
  Stands stands;
  Length e;
  Edges edges;

  Length part(std::string_view column) const {
    return t.number(stands == Stands::one_slope ? "zones_monopitch" : "zones", column) * e;
  }
  bool has(Way seen) const { return slopes.has(frame.own(seen)); }
  bool gable_at(Way seen) const { return slopes.gable_at(frame.own(seen)); }
  Pitch pitch_of(Way seen) const {
    const Way way = frame.own(seen);
    const Angle angle = slopes.pitch[static_cast<std::size_t>(way)].value_or(shape.pitch);
    return {angle, side_facing(way), angle == slopes.of_roof};
  }
  const Surface* falling(Way seen) const {
    for (const Surface& s : shape.surfaces)
      if (s.part == Part::roof && frame.seen(s.falls) == seen) return &s;
    return nullptr;
  }

  // ---- which figures hold
  // Of hip roofs the slope that the wind meets governs all zones; where it meets none, the slope itself.
  Rule hip(char zone, Way own) const { return {Family::hip, zone, pitch_of(has(Way::left) ? Way::left : own)}; }
  bool gable_at_some_end() const {
    const bool across = stands == Stands::across;
    return gable_at(across ? Way::front : Way::left) || gable_at(across ? Way::back : Way::right);
  }
  // Across a ridge that ends in a hip and a gable each table counts all along it, and the worse holds.
  Rules on_met(char zone) const {
    if (stands == Stands::one_slope) return {{Family::mono_low, zone, pitch_of(Way::left)}};
    if (stands == Stands::along) return {hip(zone, Way::left)};
    Rules rules;
    if (slopes.has_hip()) rules.push_back(hip(zone, Way::left));
    if (gable_at_some_end() || !slopes.has_hip()) rules.push_back({Family::across, zone, pitch_of(Way::left)});
    return rules;
  }
  // hip_zone, zone: in the tables of hip and duopitch roofs. The latter has one pitch for both slopes: of two the
  // worse.
  Rules on_lee(char hip_zone, char zone) const {
    Rules rules;
    if (slopes.has_hip()) rules.push_back(hip(hip_zone, Way::right));
    if (stands == Stands::along) return rules;
    if (gable_at_some_end() || !slopes.has_hip()) {
      rules = joined(std::move(rules), {{Family::across, zone, pitch_of(Way::right)}});
      if (has(Way::left)) rules = joined(std::move(rules), {{Family::across, zone, pitch_of(Way::left)}});
    }
    return rules;
  }
  Rules on_swept(char zone, Way own) const {
    if (stands == Stands::flat) return {{Family::flat, zone, {shape.pitch, Side::left, true}}};
    return {{stands == Stands::one_slope ? Family::mono_along : Family::along, zone, pitch_of(own)}};
  }
  // Behind a hip end on a ridge that ends in a gable: past where the wind has come to rest again either table's last
  // zone.
  Rules beside_hip(char zone, Way own) const {
    Rules rules{hip(zone, own)};
    if (zone == 'N' && stands == Stands::along && gable_at(Way::right))
      rules.push_back({Family::along, 'I', pitch_of(own)});
    return rules;
  }

  // ---- pieces
  static void keep(std::vector<Piece>& pieces, Polygon part, Rules rules) {
    if (!part.empty()) pieces.push_back({std::move(part), std::move(rules)});
  }
  // The edge strip that the wind meets: corners at both ends, G between. The edge goes from y0 to y1; one too short for
  // its corners is all corner.
  template <class Of>
  void add_edge(std::vector<Piece>& pieces, const Polygon& strip, Length y0, Length y1, Of of) const {
    Length low = y0 + part("corner"), high = y1 - part("corner");
    if (high < low) low = high = 0.5 * (y0 + y1);
    keep(pieces, between_y(strip, -everywhere, low), of('F', Way::front));
    keep(pieces, between_y(strip, low, high), of('G', Way::front));
    keep(pieces, between_y(strip, high, everywhere), of('F', Way::back));
  }
  std::vector<Piece> met(const Polygon& g, const std::function<Rules(char)>& of) const {
    std::vector<Piece> pieces;
    const Parts edge = cut_x(g, edges.x0 + part("edge"));
    add_edge(pieces, edge.within, edges.y0, edges.y1, [&](char zone, Way) { return of(zone); });
    keep(pieces, edge.beyond, of('H'));
    return pieces;
  }
  // Behind an edge at x0, from y0 to y1: flat roofs, and slopes along whose ridge the wind blows.
  std::vector<Piece> swept(const Polygon& g, Length x0, Length y0, Length y1,
                           const std::function<Rules(char, Way)>& of) const {
    std::vector<Piece> pieces;
    const Parts edge = cut_x(g, x0 + part("edge"));
    add_edge(pieces, edge.within, y0, y1, of);
    const Parts behind = cut_x(edge.beyond, x0 + part("behind_the_end"));
    keep(pieces, behind.within, of('H', Way::front));
    keep(pieces, behind.beyond, of('I', Way::front));
    return pieces;
  }
  std::vector<Piece> swept(const Polygon& g, Way own) const {
    // One slope along which the wind blows: its corners by the edge that they stand at.
    const bool high_at_front = stands == Stands::one_slope && has(Way::back);
    return swept(g, edges.x0, edges.y0, edges.y1, [&, own](char zone, Way end) {
      if (stands == Stands::one_slope && zone == 'F') zone = (end == Way::front) == high_at_front ? 'U' : 'W';
      return on_swept(zone, own);
    });
  }

  // How far an end's slope reaches, in the direction that it falls from.
  struct Reach {
    Length x0, x1, y0, y1;
  };
  Reach reach_of(Way seen) const {
    Reach r{everywhere, -everywhere, everywhere, -everywhere};
    for (const Surface& s : shape.surfaces) {
      if (s.part != Part::roof || frame.seen(s.falls) != seen) continue;
      for (const Point& p : frame.seen(s.outline)) {
        r.x0 = std::min(r.x0, p.x);
        r.x1 = std::max(r.x1, p.x);
        r.y0 = std::min(r.y0, p.y);
        r.y1 = std::max(r.y1, p.y);
      }
    }
    return r;
  }
  // Of a slope beside an end on which a gable stands: on the end's side of the gable, and past it.
  Parts at_gable(const Polygon& g, Way end) const {
    const Reach r = reach_of(end);
    Parts parts = is_across(end) ? cut_x(g, end == Way::left ? r.x1 : r.x0) : cut_y(g, end == Way::front ? r.y1 : r.y0);
    if (end == Way::right || end == Way::back) std::swap(parts.within, parts.beyond);
    return parts;
  }
  bool stands_on(Way end) const { return slopes.gable_above[static_cast<std::size_t>(frame.own(end))]; }

  // The strips along the hips towards some sides, or nothing of them; what is left over.
  std::vector<Polygon> off_hips(std::vector<Piece>& pieces, const Surface& own, Polygon g,
                                std::initializer_list<Way> others, const Rules& rules) const {
    std::vector<Polygon> rest{std::move(g)};
    for (const Way way : others) {
      const Surface* other = falling(way);
      if (!other) continue;
      std::vector<Polygon> left;
      const auto leave = [&](Polygon part) {
        if (!part.empty()) left.push_back(std::move(part));
      };
      for (const Polygon& of : rest) {
        Parts near{of, {}};
        if (stands_on(way)) near = at_gable(of, way);
        leave(std::move(near.beyond));
        if (near.within.empty()) continue;
        Parts strip =
            cut_along(near.within, [&](const Point& p) { return from_hip(frame, own, *other, p) - part("edge"); });
        keep(pieces, std::move(strip.within), rules);
        leave(std::move(strip.beyond));
      }
      rest = std::move(left);
    }
    return rest;
  }
  // The strips along ridge and hips; where they overlap, the figures that are worse, or both.
  std::vector<Piece> lee(const Surface& own, const Polygon& g) const {
    std::vector<Piece> pieces;
    const Rules ridge = on_lee('K', 'J'), behind = on_lee('I', 'I');
    const Length to = edges.ridge + part("edge");
    if (!slopes.has_hip()) {
      Parts strip = cut_x(g, to);
      keep(pieces, std::move(strip.within), ridge);
      keep(pieces, std::move(strip.beyond), behind);
      return pieces;
    }
    const std::initializer_list<Way> sides{Way::front, Way::back};
    const Rules along_hips{hip('J', Way::right)};
    if (covers(t, along_hips, ridge)) {
      for (const Polygon& rest : off_hips(pieces, own, g, sides, along_hips)) {
        Parts strip = cut_x(rest, to);
        keep(pieces, std::move(strip.within), ridge);
        keep(pieces, std::move(strip.beyond), behind);
      }
      return pieces;
    }
    const Parts strip = cut_x(g, to);
    if (!strip.within.empty()) {
      if (covers(t, ridge, along_hips)) keep(pieces, strip.within, ridge);
      else
        for (Polygon& rest : off_hips(pieces, own, strip.within, sides, joined(ridge, along_hips)))
          keep(pieces, std::move(rest), ridge);
    }
    if (!strip.beyond.empty())
      for (Polygon& rest : off_hips(pieces, own, strip.beyond, sides, along_hips))
        keep(pieces, std::move(rest), behind);
    return pieces;
  }
  // Slopes at the sides of one that the wind meets, cornered to it in a hip.
  std::vector<Piece> beside(const Surface& own, const Polygon& g, Way way) const {
    std::vector<Piece> pieces;
    const Length behind = edges.x0 + part("behind_the_end");
    const auto add = [&](const Polygon& of, const Rules& also) {
      Parts parts = cut_x(of, behind);
      keep(pieces, std::move(parts.within), joined(beside_hip('M', way), also));
      keep(pieces, std::move(parts.beyond), joined(beside_hip('N', way), also));
    };
    const bool gable = stands == Stands::along && stands_on(Way::left);
    const Parts near = gable ? at_gable(g, Way::left) : Parts{g, {}};
    if (!near.within.empty())
      for (const Polygon& rest : off_hips(pieces, own, near.within, {Way::left}, {hip('L', way)})) add(rest, {});
    if (near.beyond.empty()) return pieces;
    // The gable on the hip end is an edge that the wind meets as well.
    const Reach r = foot_of_gable();
    const auto of = [&](char zone, Way) { return on_swept(zone, way); };
    for (const Piece& piece : swept(near.beyond, r.x1, r.y0, r.y1, of)) add(piece.part, piece.rules);
    return pieces;
  }
  // Of the gable on the end that the wind meets: its line x1, its ends y0 and y1.
  Reach foot_of_gable() const {
    const Reach all = reach_of(Way::left);
    Reach foot{all.x1, all.x1, everywhere, -everywhere};
    for (const Surface& s : shape.surfaces) {
      if (s.part != Part::roof || frame.seen(s.falls) != Way::left) continue;
      for (const Point& p : frame.seen(s.outline))
        if (all.x1 - p.x < same_place) {
          foot.y0 = std::min(foot.y0, p.y);
          foot.y1 = std::max(foot.y1, p.y);
        }
    }
    return foot;
  }

  std::vector<Piece> roof(const Surface& s) const {
    const Polygon g = frame.seen(s.outline);
    const Way way = frame.seen(s.falls);
    if (stands == Stands::flat) return swept(g, way);
    if (way == Way::left) return met(g, [&](char zone) { return on_met(zone); });
    if (stands == Stands::one_slope) {
      if (way != Way::right) return swept(g, way);
      return met(g, [&](char zone) { return Rules{{Family::mono_high, zone, pitch_of(Way::right)}}; });
    }
    if (way == Way::right) return lee(s, g);
    return has(Way::left) ? beside(s, g, way) : swept(g, way);
  }
};

// A roof's zones with what holds in each. kind: of each zone of the layout; soffits have none.
struct RoofZones {
  const Slopes& slopes;
  Stands stands;
  bool far_side_has_one_sign;
  Pitch steepest;
  Layout layout;
  std::vector<ZoneKind> kinds;
  std::vector<std::optional<std::size_t>> kind;
};
}  // namespace

// Letters, told apart by the slope where several kinds have the same.
static void name_kinds(std::vector<ZoneKind>& kinds, const std::vector<std::optional<Side>>& found_on) {
  std::vector<std::string> plain;
  for (ZoneKind& kind : kinds) {
    for (const Rule& r : kind.rules) {
      const std::string_view name = zone_name(r.zone);
      if (kind.label.find(name) != std::string::npos) continue;  // of another table
      kind.words += (kind.words.empty() ? "" : " or ") + std::string(name);
      kind.label += name;
    }
    plain.push_back(kind.label);
  }
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    if (std::count(plain.begin(), plain.end(), plain[i]) == 1) continue;
    const std::string_view side = words_of(found_on[i].value_or(kinds[i].rules.front().pitch.side));
    kinds[i].label += fmt::format(",{}", side);
    kinds[i].words += fmt::format(" of the slope to the {}", side);
    const auto same = [&](const ZoneKind& other) { return other.label == kinds[i].label; };
    const auto before = std::count_if(kinds.begin(), kinds.begin() + static_cast<std::ptrdiff_t>(i), same);
    if (before > 0) kinds[i].label += fmt::format(",{}", before + 1);
  }
}

// ---- which of two signs --------------------------------------------------------------------------------------------

// met: the slope that the wind meets takes the other sign than suction; rest: the other zones do.
namespace {
struct Signs {
  bool met, rest;
};
}  // namespace
static bool on_met_slope(const ZoneKind& kind) {
  return kind.rules.front().zone >= 'F' && kind.rules.front().zone <= 'H';
}
static bool pressed(const Signs& s, const ZoneKind& kind) { return on_met_slope(kind) ? s.met : s.rest; }

// Every pairing of signs that differs at this pitch, suction first.
static std::vector<Signs> signs_of(const Table& t, const RoofZones& roof) {
  bool met = false, rest = false;
  for (const ZoneKind& kind : roof.kinds)
    for (const Rule& r : kind.rules) {
      if (!has_column(t, r.family, column_of(r.zone, "_most"))) continue;
      const bool differs = coefficient(t, r.family, column_of(r.zone, "_most"), r.pitch.angle) >
                           coefficient(t, r.family, column_of(r.zone, "10"), r.pitch.angle);
      (on_met_slope(kind) ? met : rest) |= differs;
    }
  std::vector<Signs> all;
  for (const bool m : {false, true})
    for (const bool r : {false, true})
      if ((met || !m) && (rest || !r)) all.push_back({m, r});
  return all;
}
// The parts of a case's name that tell the signs: "lift-press", and for people.
static std::string id_of(const Signs& s, std::size_t of) {
  if (of == 1) return "";
  return fmt::format(" {}-{}", s.met ? "press" : "lift", s.rest ? "press" : "lift");
}
static std::string words_of(const Signs& s, const RoofZones& roof, std::size_t of) {
  if (of == 1) return "";
  const auto one = [](bool press) { return press ? "lifted least" : "lifted most"; };
  if (roof.stands == Stands::flat) return fmt::format(", the roof behind its edges {}", one(s.rest));
  if (roof.stands == Stands::one_slope) return fmt::format(", the slope {}", one(s.met));
  if (roof.far_side_has_one_sign) return fmt::format(", the near slope {}", one(s.met));
  return fmt::format(", the near slope {}, the far slope {}", one(s.met), one(s.rest));
}

// ---- walls, and the layout as a whole ------------------------------------------------------------------------------

// Where the zones A, B and C of a wall along the wind end, from the edge that the wind meets.
static std::array<Length, 2> ends_of_side_zones(const Table& t, Length e_w) {
  return {t.number("zones", "wall_end") * e_w, t.number("zones", "wall_next") * e_w};
}
namespace {
struct WallPiece {
  Polygon part;
  char zone;
};
}  // namespace
// The wall zones of a polygon on the side that looks so; for walls along the wind x runs along them as seen.
static std::vector<WallPiece> wall_zones(const Table& t, Way looks, const Polygon& seen, Length e_w) {
  if (looks == Way::left) return {{seen, 'D'}};
  if (looks == Way::right) return {{seen, 'E'}};
  std::vector<WallPiece> pieces;
  const auto keep = [&](Polygon part, char zone) {
    if (!part.empty()) pieces.push_back({std::move(part), zone});
  };
  const auto ends = ends_of_side_zones(t, e_w);
  Parts first = cut_x(seen, ends[0]), next = cut_x(first.beyond, ends[1]);
  keep(std::move(first.within), 'A');
  keep(std::move(next.within), 'B');
  keep(std::move(next.beyond), 'C');
  return pieces;
}

static std::size_t kind_of(std::vector<ZoneKind>& kinds, const Rules& rules) {
  for (std::size_t i = 0; i < kinds.size(); ++i)
    if (kinds[i].rules == rules) return i;
  kinds.push_back({rules, {}, {}});
  return kinds.size() - 1;
}
// The zones of one table in its order, also those for which this roof has no room.
static void list_zones(std::vector<ZoneKind>& kinds, Family f, const Pitch& pitch) {
  for (const char zone : letters_of(f)) kind_of(kinds, {{f, zone, pitch}});
}

// e_r: e of the roof, measured from its outer edges; e_w: of the walls. Labels: "F" over the house, "F,o" over eaves
// and verges, "soffit,D" under them by the wall zone.
static RoofZones roof_zones(const Shape& s, const Frame8& f, const Table& t, const Slopes& slopes, Stands stands,
                            Length e_r, Length e_w) {
  const Layer layer{s, f, t, slopes, stands, e_r, edges_of(s, f)};
  const Pitch flat{s.pitch, Side::left, true};
  RoofZones zones{slopes, stands, false, flat, {std::string(words(windward(f.own(Way::right)))), {}}, {}, {}};
  zones.far_side_has_one_sign = stands == Stands::along || (slopes.count == 4 && !layer.gable_at_some_end());
  for (const Way way : {Way::left, Way::front, Way::right, Way::back})
    if (slopes.has(way) && slopes.pitch[static_cast<std::size_t>(way)] == slopes.greatest)
      zones.steepest = layer.pitch_of(f.seen(way));
  if (stands == Stands::flat) list_zones(zones.kinds, Family::flat, flat);
  else if (slopes.count == 2 && slopes.least == slopes.greatest)
    list_zones(zones.kinds, stands == Stands::across ? Family::across : Family::along, zones.steepest);
  std::vector<std::optional<Side>> found_on(zones.kinds.size());
  for (std::size_t i = 0; i < s.surfaces.size(); ++i) {
    const Surface& surface = s.surfaces[i];
    if (surface.part == Part::soffit) {
      for (const WallPiece& piece : wall_zones(t, f.seen(outward(surface.side)), f.seen(surface.outline), e_w)) {
        zones.layout.zones.push_back({i, f.own(piece.part), fmt::format("soffit,{}", piece.zone)});
        zones.kind.emplace_back();
      }
      continue;
    }
    for (const Piece& piece : layer.roof(surface)) {
      const std::size_t kind = kind_of(zones.kinds, piece.rules);
      found_on.resize(zones.kinds.size());
      if (!found_on[kind]) found_on[kind] = side_facing(surface.falls);
      zones.layout.zones.push_back({i, f.own(piece.part), {}});
      zones.kind.emplace_back(kind);
    }
  }
  name_kinds(zones.kinds, found_on);
  for (std::size_t i = 0; i < zones.kind.size(); ++i) {
    if (!zones.kind[i]) continue;
    Zone& z = zones.layout.zones[i];
    z.label = zones.kinds[*zones.kind[i]].label + (s.surfaces[z.surface].part == Part::overhang ? ",o" : "");
  }
  return zones;
}

// ---- the building as one wind sees it ------------------------------------------------------------------------------

// d: depth along the wind; e_r, e_w: e of the roof and of the walls; friction: swept_length greater than nothing.
namespace {
struct Seen {
  Length b, d, h, b_r, d_r;
  double h_d;
  Length e_r, e_w, reach, swept_length;
};
}  // namespace

static Seen seen_by_wind(const WindAsk& ask, const Frame8& f, Working* w) {
  const Table& t = ask.table;
  const Shape& s = ask.shape;
  if (w) w->heading("The pressures");
  const std::string source = w ? t.source("zones") : std::string(),
                    by_friction = w ? t.source("friction") : std::string();
  const Edges edges = edges_of(s, f);
  const Length h = reference_height(ask, w);
  const Length b = given(w, "b", "breadth of the plan across the wind", f.up(), "the job's block");
  const Length d = given(w, "d", "depth of the plan along the wind", f.across(), "the job's block");
  const Length b_r =
      given(w, "b_r", "breadth of the roof across the wind, edge to edge", edges.y1 - edges.y0, "the job's roof");
  const Length d_r =
      given(w, "d_r", "depth of the roof along the wind, edge to edge", edges.x1 - edges.x0, "the job's roof");
  const double heights = figure<double>(w, t, "zones", "heights", "k_e", "heights of the building");
  const double k1 = figure<double>(w, t, "friction", "breadths", "k_f,b", "breadths that friction does not count on");
  const double k2 = figure<double>(w, t, "friction", "heights", "k_f,h", "heights that it does not count on");
  const double h_d =
      formulas::height_to_depth.told(w, "h/d", w ? t.source("walls") : std::string(), as("h", h), as("d", d));
  const Length by_height = formulas::part_of_length.told(w, "e_2h", source, as("k_e", heights), as("h", h));
  const Length e_w =
      least<Length>(w, "e_w", "e, whose parts are the zones of walls", source, {as("b", b), as("e_2h", by_height)});
  // From edge to edge of the roof: the wider zones, safe.
  const Length e_r = least<Length>(w, "e_r", "e, whose parts are the zones of the roof", source,
                                   {as("b_r", b_r), as("e_2h", by_height)});
  const Length x1 = formulas::part_of_length.told(w, "x_f,b", by_friction, as("k_f,b", k1), as("b", b));
  const Length x2 = formulas::part_of_length.told(w, "x_f,h", by_friction, as("k_f,h", k2), as("h", h));
  const Length reach = least<Length>(w, "x_f", "from the edge that the wind meets to where friction counts",
                                     by_friction, {as("x_f,b", x1), as("x_f,h", x2)});
  const bool swept = d_r > reach;
  const Length l = swept ? formulas::swept_length.told(w, "l_f", by_friction, d_r, reach) : zero<Length>();
  return {.b = b,
          .d = d,
          .h = h,
          .b_r = b_r,
          .d_r = d_r,
          .h_d = h_d,
          .e_r = e_r,
          .e_w = e_w,
          .reach = reach,
          .swept_length = l};
}

// ---- inside --------------------------------------------------------------------------------------------------------

// key: of the table. A dominant face: its side, and by how much its openings are more than those of the others (none:
// so much more that the last share counts).
namespace {
struct Dominant {
  Side side;
  Area open, elsewhere;
  std::optional<double> times;
};
struct Inside {
  std::string_view key, column;
  std::string id, words;
  std::optional<Dominant> dominant;
};
}  // namespace

static OpeningRule opening_rule(const WindAsk& ask, Speed gust) {
  return {.wide = ask.table.get<Length>("wide_door", "width"),
          .debris = false,  // the standard knows no flying debris
          .covers = [gust](const std::string& rating) { return rated_for_speed(rating, gust); }};
}

static std::vector<Inside> insides(const WindAsk& ask, const OpeningRule& rule) {
  const Table& t = ask.table;
  constexpr std::array sides{Side::left, Side::front, Side::right, Side::back};
  std::vector<Inside> all{{"inside", "out", "out", "no face dominant, pushed out", std::nullopt},
                          {"inside", "in", "in", "no face dominant, sucked in", std::nullopt}};
  int open_faces = 0;
  const auto& times = t.column("inside_dominant", "times");
  for (const Side side : sides) {
    const Area open = openings_in(ask, side, rule).may_be_open;
    if (!(open > zero<Area>())) continue;
    ++open_faces;
    Area elsewhere = zero<Area>();
    for (const Side other : sides)
      if (other != side) elsewhere += openings_in(ask, other, rule).stated_open;
    if (open < quantity<double>(times.front()) * elsewhere) continue;
    const bool by_far = open >= quantity<double>(times.back()) * elsewhere;
    all.push_back({"inside_dominant", "share", fmt::format("open {}", words(side)),
                   fmt::format("openings of the {} open", words(side)),
                   Dominant{side, open, elsewhere,
                            by_far ? std::optional<double>() : formulas::area_ratio(nullptr, open, elsewhere)}});
  }
  // Openings on several faces, none dominant for certain: both ends of the curve, safe.
  if (open_faces > 1) {
    all.push_back({"inside_open", "out", "several out", "openings of several faces open, pushed out", std::nullopt});
    all.push_back({"inside_open", "in", "several in", "openings of several faces open, sucked in", std::nullopt});
  }
  return all;
}

// ---- the pressures of one case -------------------------------------------------------------------------------------

namespace {
// l: on 10 m2 and more; s: on 1 m2 and less. out: from outside alone.
struct OnRoof {
  Pressure out_l, out_s, net_l, net_s;
};
struct OnWall {
  Pressure under_l, under_s, push, square;
};
struct Pressures {
  std::vector<OnRoof> roof;    // by kind of zone
  std::array<OnWall, 5> wall;  // A to E
  Pressure friction;
  const OnWall& on_wall(char zone) const { return wall.at(static_cast<std::size_t>(zone - 'A')); }
};
// Names and words are empty in silence. theta: the pitch's name; slope: what is added to those of its rows.
struct RuleFigure {
  std::string symbol, words, theta, slope;
  Rows<Angle> rows;
};
// from: the rule that gives the value.
struct Coefficient {
  std::string symbol;
  std::vector<RuleFigure> rules;
  double value;
  std::size_t from;
};
struct RoofCoefficients {
  Coefficient large, small;  // on 10 m2 and more, on 1 m2 and less
};
struct WallCoefficient {
  char zone;
  std::string large, small;
  Rows<double> read_large, read_small;
  double c_large, c_small;
};
}  // namespace

static constexpr std::string_view wall_letters = "ABCDE";
static std::string symbol(Working* w, std::string_view form, char zone) {
  return w ? fmt::format(fmt::runtime(form), zone) : std::string();
}

// The wall zone whose pressure (of large areas: it fills the house) comes in by a dominant face. On walls along the
// wind the first, of the greatest suction: what comes in by another zone lies between that and the case of no dominant
// face.
static char zone_of_face(const Frame8& f, Side side) {
  switch (f.seen(outward(side))) {
    case Way::left: return 'D';
    case Way::right: return 'E';
    default: return 'A';
  }
}

namespace {
struct Ask {
  const WindAsk& wind;
  const Frame8& frame;
  const RoofZones& roof;
  const Seen& seen;
  Signs signs;
  const Inside& inside;
  Pressure q;
};
}  // namespace

// The name of a pitch, which is told before its first use.
static std::string tell_pitch(const Pitch& p, Working& w) {
  if (p.of_roof) return "theta";
  std::string name = fmt::format("theta_{}", words_of(p.side));
  if (w.first("pitch " + name))
    given(&w, name, fmt::format("pitch of the slope that falls to the {}", words_of(p.side)), p.angle,
          "the job's roof");
  return name;
}
// The rows of a rule's table at its pitch.
static RuleFigure read_rule(const Table& t, const Rule& r, std::string_view area, bool press, bool alone,
                            const ZoneKind& kind, Working* w) {
  const std::string column = column_of(t, r, area, press);
  RuleFigure f;
  if (!w) {
    f.rows = read(t, key_of(r.family), "pitch", column, r.pitch.angle, pitch_rows, nullptr, {}, {});
    return f;
  }
  f.theta = tell_pitch(r.pitch, *w);
  if (!r.pitch.of_roof) f.slope = fmt::format(",{}", words_of(r.pitch.side));
  f.symbol = alone ? fmt::format("c_{},{}", kind.label, area)
                   : fmt::format("c_{},{}{},{}", zone_name(r.zone), short_of(r.family), f.slope, area);
  f.words = fmt::format("coefficient of zone {}{}, {} m2{}", alone ? kind.words : std::string(zone_name(r.zone)),
                        alone ? std::string() : fmt::format(" of {}", roofs_of(r.family)), area,
                        column.ends_with("_most") ? ", least suction" : "");
  if (!alone && !r.pitch.of_roof)
    f.words += fmt::format(", by the pitch of the slope to the {}", words_of(r.pitch.side));
  const std::string low = "theta_1" + f.slope, high = "theta_2" + f.slope;
  f.rows = read(t, key_of(r.family), "pitch", column, r.pitch.angle,
                {low, high, pitch_rows.words_low, pitch_rows.words_high}, w, f.symbol, f.words);
  return f;
}
static Coefficient read_kind(const Table& t, const ZoneKind& kind, std::string_view area, bool press, Working* w) {
  Coefficient c{{}, {}, 0.0, 0};
  if (w) c.symbol = fmt::format("c_{},{}", kind.label, area);
  c.rules.reserve(kind.rules.size());
  for (const Rule& r : kind.rules) c.rules.push_back(read_rule(t, r, area, press, kind.rules.size() == 1, kind, w));
  return c;
}
static std::vector<RoofCoefficients> read_roof(const Ask& a, Working* w) {
  const Table& t = a.wind.table;
  std::vector<RoofCoefficients> all;
  all.reserve(a.roof.kinds.size());
  for (const ZoneKind& kind : a.roof.kinds) {
    const bool press = pressed(a.signs, kind);
    Coefficient large = read_kind(t, kind, "10", press, w);
    all.push_back({std::move(large), read_kind(t, kind, "1", press, w)});
  }
  return all;
}
// Of several rules the one that lifts most, or least where the zone takes the other sign.
static void finish(Coefficient& c, const Table& t, const ZoneKind& kind, bool press, std::string_view area,
                   Working* w) {
  std::vector<As<double>> candidates;
  for (std::size_t i = 0; i < c.rules.size(); ++i) {
    const RuleFigure& f = c.rules[i];
    const std::string words = !w ? std::string()
                              : c.rules.size() == 1
                                  ? fmt::format("coefficient of zone {}", kind.words)
                                  : fmt::format("coefficient of zone {} of {}", zone_name(kind.rules[i].zone),
                                                roofs_of(kind.rules[i].family));
    const double value = between_pitches(f.rows, w, f.symbol, words, f.theta, f.slope);
    if (i == 0 || (press ? value > c.value : value < c.value)) {
      c.value = value;
      c.from = i;
    }
    if (w) candidates.push_back(as(f.symbol, value));
  }
  if (!w || candidates.size() == 1) return;
  const std::string words =
      fmt::format("coefficient of zone {}, {} m2: the one that lifts {}", kind.words, area, press ? "least" : "most");
  const std::string source = t.source(key_of(kind.rules[c.from].family));
  if (press) greatest<double>(w, c.symbol, words, source, candidates);
  else least<double>(w, c.symbol, words, source, candidates);
}
static std::vector<WallCoefficient> read_walls(const Ask& a, Working* w) {
  std::vector<WallCoefficient> all;
  all.reserve(wall_letters.size());
  for (const char zone : wall_letters) {
    WallCoefficient c{zone, symbol(w, "c_{},10", zone), symbol(w, "c_{},1", zone), {}, {}, 0.0, 0.0};
    const std::string letter(1, zone);
    c.read_large = read(a.wind.table, "walls", "h_d", letter + "10", a.seen.h_d, height_rows, w, c.large,
                        symbol(w, "coefficient of wall zone {}, 10 m2", zone));
    c.read_small = read(a.wind.table, "walls", "h_d", letter + "1", a.seen.h_d, height_rows, w, c.small,
                        symbol(w, "coefficient of wall zone {}, 1 m2", zone));
    all.push_back(std::move(c));
  }
  return all;
}
static void finish(const Ask& a, std::vector<RoofCoefficients>& roof, std::vector<WallCoefficient>& walls, Working* w) {
  for (std::size_t i = 0; i < roof.size(); ++i) {
    const ZoneKind& kind = a.roof.kinds[i];
    finish(roof[i].large, a.wind.table, kind, pressed(a.signs, kind), "10", w);
    finish(roof[i].small, a.wind.table, kind, pressed(a.signs, kind), "1", w);
  }
  for (WallCoefficient& c : walls) {
    const std::string words = symbol(w, "coefficient of wall zone {}", c.zone);
    c.c_large = between_heights(c.read_large, w, c.large, words, height_rows);
    c.c_small = between_heights(c.read_small, w, c.small, words, height_rows);
  }
}

// c_pi: read where it is a figure, or worked out of the wall that is open.
static double inside_coefficient(const Ask& a, const std::vector<WallCoefficient>& walls, Working* w) {
  const Table& t = a.wind.table;
  const Inside& inside = a.inside;
  if (!inside.dominant)
    return figure<double>(w, t, inside.key, inside.column, "c_pi", "coefficient of inside pressure");
  const std::string source = w ? t.source(inside.key) : std::string();
  const Dominant& dominant = *inside.dominant;
  double share = 0.0;
  if (dominant.times) {
    const Area open = given(w, "A_open", "openings of that face that may stand open", dominant.open, "the job's walls");
    const Area elsewhere = given(w, "A_else", "openings of the other faces", dominant.elsewhere, "the job's walls");
    const double n5 = figure<double>(w, t, inside.key, "times", "n_5", "least ratio of openings for a dominant face");
    const double n6 = figure<double>(w, t, inside.key, "times", "n_6", "ratio from which the share is greatest", 1);
    const double k1 = figure<double>(w, t, inside.key, "share", "k_i,1", "share at the least ratio");
    const double k2 = figure<double>(w, t, inside.key, "share", "k_i,2", "greatest share", 1);
    const double n = formulas::area_ratio.told_as(w, "n_o", "openings of the dominant face over those of the others",
                                                  source, as("A_open", open), as("A_else", elsewhere));
    share = formulas::share_of_dominant.told(w, "k_i", source, k1, k2, n, n5, n6);
  } else {
    share = figure<double>(w, t, inside.key, "share", "k_i", "share of the dominant face's pressure", 1);
  }
  const char zone = zone_of_face(a.frame, dominant.side);
  const WallCoefficient& wall = walls.at(static_cast<std::size_t>(zone - 'A'));
  return formulas::inside_of_dominant.told(w, "c_pi", source, share, as(wall.large, wall.c_large));
}

static OnRoof on_roof(const Ask& a, const ZoneKind& kind, const RoofCoefficients& c, Pressure from_inside, Working* w) {
  const auto both = [&](const Coefficient& x, char size) {
    if (!w) {
      const Pressure out = formulas::peak_pressure_on(nullptr, a.q, x.value);
      return std::pair{out, formulas::net_of_inside(nullptr, out, from_inside)};
    }
    const std::string source = a.wind.table.source(key_of(kind.rules[x.from].family));
    const std::string area = size == 'l' ? "10 m2 and more" : "1 m2 and less";
    const std::string out_symbol = fmt::format("p_{},o,{}", kind.label, size);
    const Pressure out = formulas::peak_pressure_on.told_as(
        w, out_symbol, fmt::format("pressure in zone {} from outside, on {}", kind.words, area), source, a.q,
        as(x.symbol, x.value));
    return std::pair{out, formulas::net_of_inside.told_as(
                              w, fmt::format("p_{},{}", kind.label, size),
                              fmt::format("net pressure in zone {} on {}: outside less inside", kind.words, area),
                              source, as(out_symbol, out), as("p_i", from_inside))};
  };
  const auto [out_l, net_l] = both(c.large, 'l');
  const auto [out_s, net_s] = both(c.small, 's');
  return {out_l, out_s, net_l, net_s};
}

// Under an overhang suction is relief: it stays that of large areas.
static OnWall on_wall(const Ask& a, const WallCoefficient& c, double k, double ci, Working* w) {
  const Table& t = a.wind.table;
  const Pressure q = a.q, none = zero<Pressure>();
  const bool pushes = c.zone == 'D' || c.zone == 'E';
  const bool relief = c.c_small < 0.0;
  const double small_under = relief ? c.c_large : c.c_small;
  if (!w) {
    const Pressure in = formulas::square_on_inwards(nullptr, q, c.c_small, ci),
                   out = formulas::square_on_outwards(nullptr, q, ci, c.c_small);
    return {formulas::peak_pressure_on(nullptr, q, c.c_large), formulas::peak_pressure_on(nullptr, q, small_under),
            pushes ? formulas::not_met_at_once(nullptr, k, q, c.c_large) : none, std::max(in, out)};
  }
  const std::string walls = t.source("walls"), overhang = t.source("overhang");
  const auto under = [&](char size, double x, const std::string& named) {
    return formulas::peak_pressure_on.told_as(w, fmt::format("p_soffit,{},{}", c.zone, size),
                                              fmt::format("pressure from below on overhangs of wall zone {}, on {}",
                                                          c.zone, size == 'l' ? "10 m2 and more" : "1 m2 and less"),
                                              overhang, q, as(named, x));
  };
  OnWall p{none, none, none, none};
  p.under_l = under('l', c.c_large, c.large);
  p.under_s = under('s', small_under, relief ? c.large : c.small);
  if (pushes)
    p.push = formulas::not_met_at_once.told_as(
        w, fmt::format("p_{}", c.zone),
        fmt::format("pressure on wall zone {}, for the force on the whole building: less for lack of correlation",
                    c.zone),
        t.source("correlation"), k, q, as(c.large, c.c_large));
  // A stud's anchor by the figure of 1 m2: safe.
  const std::string in_symbol = fmt::format("p_in,{}", c.zone), out_symbol = fmt::format("p_out,{}", c.zone);
  const Pressure in =
      formulas::square_on_inwards.told_as(w, in_symbol, fmt::format("pressure square on wall zone {}, inwards", c.zone),
                                          walls, q, as(c.small, c.c_small), ci);
  const Pressure out = formulas::square_on_outwards.told_as(
      w, out_symbol, fmt::format("pressure square on wall zone {}, outwards", c.zone), walls, q, ci,
      as(c.small, c.c_small));
  p.square = greatest<Pressure>(w, fmt::format("p_sq,{}", c.zone),
                                fmt::format("pressure square on wall zone {}: the greater of in and out", c.zone),
                                walls, {as(in_symbol, in), as(out_symbol, out)});
  return p;
}

// The band above the wall's top on which friction is set: half as high as the top floor's wall. It carries the force to
// the bracing and is no part of the house. What sweeps the lower walls of two floors goes in up there too: safe.
static Length friction_band(const WindAsk& ask, Working* w) {
  if (!ask.house.first) return formulas::half_wall.told(w, "h_f", "geometry", top_walls_of(ask));
  return formulas::half_wall.told_as(w, "h_f", "half as high as the first floor's walls", "geometry",
                                     top_walls_of(ask));
}
static Pressure friction(const Ask& a, Working* w) {
  if (!(a.seen.swept_length > zero<Length>())) return zero<Pressure>();
  const Table& t = a.wind.table;
  const Shape& s = a.wind.shape;
  const std::string source = w ? t.source("friction") : std::string();
  const double c = figure<double>(w, t, "friction", "c_fr", "c_fr", "friction coefficient of ribs and folds");
  // Under a single slope both walls as high as the highest; on the steepest slope.
  const bool one_slope = a.roof.slopes.count == 1;
  const As<Length> walls = walls_of(a.wind),
                   wall =
                       one_slope ? as("h_s", formulas::highest_wall.told(w, "h_s", "geometry", walls, s.rise)) : walls;
  const Pitch& steepest = a.roof.steepest;
  const std::string theta = w ? tell_pitch(steepest, *w) : std::string();
  const Area swept =
      formulas::swept_area.told(w, "A_f", source, wall, a.seen.swept_length, a.seen.b_r, as(theta, steepest.angle));
  const Length band = friction_band(a.wind, w);
  return formulas::friction_as_pressure.told(w, "p_friction", source, a.q, c, swept, a.seen.b, band);
}

// What a wind and its signs have in common, whatever comes from inside. together: the share of the forces on windward
// and leeward walls that come at once.
namespace {
struct Coefficients {
  std::vector<RoofCoefficients> roof;
  std::vector<WallCoefficient> walls;
  double together;
};
}  // namespace
static Coefficients coefficients(const Ask& a, Working* w) {
  Coefficients c{read_roof(a, w), read_walls(a, w), 0.0};
  const std::string k_c = w ? std::string("k_c") : std::string();
  const std::string words = w ? "share of the forces on windward and leeward walls that come at once" : std::string();
  const Rows<double> correlation =
      read(a.wind.table, "correlation", "h_d", "factor", a.seen.h_d, correlation_rows, w, k_c, words);
  finish(a, c.roof, c.walls, w);
  c.together = between_heights(correlation, w, k_c, words, correlation_rows);
  return c;
}
static Pressures pressures(const Ask& a, const Coefficients& by, Working* w) {
  const Table& t = a.wind.table;
  Pressures p{};
  const double ci = inside_coefficient(a, by.walls, w);
  const Pressure from_inside =
      formulas::peak_pressure_inside.told(w, "p_i", w ? t.source(a.inside.key) : std::string(), a.q, ci);
  p.roof.reserve(by.roof.size());
  for (std::size_t i = 0; i < by.roof.size(); ++i)
    p.roof.push_back(on_roof(a, a.roof.kinds[i], by.roof[i], from_inside, w));
  for (const WallCoefficient& c : by.walls)
    p.wall.at(static_cast<std::size_t>(c.zone - 'A')) = on_wall(a, c, by.together, ci, w);
  p.friction = friction(a, w);
  return p;
}

// ---- one wind's pushes and pressures, as the load path takes them --------------------------------------------------

static std::vector<Push> wall_pushes(const Ask& a, const Pressures& p) {
  std::vector<Push> pushes;
  const Shape& s = a.wind.shape;
  for (const Elevation& e : s.elevations) {
    if (e.part == ElevationPart::roof) continue;
    const Way out = outward(e.side), looks = a.frame.seen(out);
    if (looks != Way::left && looks != Way::right) continue;
    const char zone = looks == Way::left ? 'D' : 'E';
    pushes.push_back({opposite(out), e.outline, p.on_wall(zone).push, std::string(1, zone),
                      fmt::format("{}, zone {}", words(e.part), zone)});
  }
  if (a.seen.swept_length > zero<Length>())
    pushes.push_back(
        {a.frame.own(Way::right),
         rectangle(zero<Length>(), a.seen.b, s.wall_height, s.wall_height + friction_band(a.wind, nullptr)), p.friction,
         "friction", "friction along walls and roof", Acts::along});
  return pushes;
}
// What all cases of one wind share of the roof: its pushes but for their pressure, each with its kind of zone, and the
// marks of the figures behind its zones.
namespace {
struct RoofOfWind {
  std::vector<Push> pushes;
  std::vector<std::size_t> kinds;
  Marks marks = 0;
};
}  // namespace
static RoofOfWind roof_of_wind(const WindAsk& ask, const RoofZones& roof) {
  const std::vector<Zone>& zones = roof.layout.zones;
  RoofOfWind r;
  r.pushes = belay::roof_pushes(ask.shape, roof.layout, [&](const Zone& z) {
    const std::size_t kind = *roof.kind[static_cast<std::size_t>(&z - zones.data())];  // no soffit
    const ZoneKind& k = roof.kinds[kind];
    r.kinds.push_back(kind);
    return Push{
        Way::right, {}, zero<Pressure>(), fmt::format("{},o,l", k.label), fmt::format("roof, zone {}", k.words)};
  });
  for (const ZoneKind& kind : roof.kinds)
    for (const Rule& rule : kind.rules) r.marks |= ask.table.mark(key_of(rule.family));
  return r;
}
static void add_pushes_on_roof(std::vector<Push>& to, const RoofOfWind& roof, const Pressures& p) {
  to.reserve(to.size() + roof.pushes.size());
  for (std::size_t i = 0; i < roof.pushes.size(); ++i) {
    to.push_back(roof.pushes[i]);
    to.back().p = p.roof[roof.kinds[i]].out_l;
  }
}

static std::vector<SquareOn> square_on(const Ask& a, const Pressures& p) {
  std::vector<SquareOn> all;
  const Shape& s = a.wind.shape;
  const auto ends = ends_of_side_zones(a.wind.table, a.seen.e_w);
  const auto add = [&](Side side, Length from, Length to, char zone) {
    if (to > from) all.push_back({side, from, to, p.on_wall(zone).square, std::string(1, zone)});
  };
  for (const Side side : {Side::left, Side::front, Side::right, Side::back}) {
    const Length length = length_of(s, side), none = zero<Length>();
    const Way looks = a.frame.seen(outward(side));
    if (is_across(looks)) {
      add(side, none, length, looks == Way::left ? 'D' : 'E');
      continue;
    }
    const Length first = std::min(ends[0], length), next = std::min(ends[1], length);
    if (runs_as_seen(s, a.frame, side)) {
      add(side, none, first, 'A');
      add(side, first, next, 'B');
      add(side, next, length, 'C');
    } else {
      add(side, none, length - next, 'C');
      add(side, length - next, length - first, 'B');
      add(side, length - first, length, 'A');
    }
  }
  return all;
}

// On large and on small areas.
static std::pair<Pressure, Pressure> net_of(const Ask& a, const Pressures& p, std::size_t zone) {
  const Zone& z = a.roof.layout.zones[zone];
  if (!a.roof.kind[zone]) {
    const OnWall& under = p.on_wall(z.label.back());
    return {under.under_l, under.under_s};
  }
  const OnRoof& on = p.roof[*a.roof.kind[zone]];
  const bool over_house = a.wind.shape.surfaces[z.surface].part == Part::roof;
  return over_house ? std::pair{on.net_l, on.net_s} : std::pair{on.out_l, on.out_s};
}

// ---- all load cases ------------------------------------------------------------------------------------------------

static std::vector<Excess> limits_passed(const WindAsk& ask, const Slopes& slopes, const std::vector<Seen>& winds,
                                         const OpeningRule& rule) {
  const Table& t = ask.table;
  std::vector<Excess> passed;
  const EnSite& stated = std::get<EnSite>(ask.site);
  if (ask.house.importance > 2 && !stated.probability && !stated.typed.given())
    passed.push_back(
        {"importance level", "at most", t.source("factors"), value(static_cast<double>(ask.house.importance)),
         value(2.0),
         fmt::format("importance level {} without a `probability_factor` of its own", ask.house.importance)});
  const auto no_more = [&](std::string_view key, std::string limit, auto has, auto greatest) {
    if (has > greatest) passed.push_back({std::move(limit), "at most", t.source(key), value(has), value(greatest)});
  };
  no_more("limits", "height to the top of the roof", winds.front().h, t.get<Length>("limits", "height"));
  const std::string_view roof = key_of(slopes.has_hip()    ? Family::hip
                                       : slopes.count == 1 ? Family::mono_low
                                                           : Family::across);
  no_more(roof, "roof pitch", slopes.greatest, quantity<Angle>(t.column(roof, "pitch").back()));
  double h_d = 0.0;
  for (const Seen& seen : winds) h_d = std::max(h_d, seen.h_d);
  no_more("walls", "height, as depths of the plan", h_d, quantity<double>(t.column("walls", "h_d").back()));
  const Angle flat = t.get<Angle>("flat", "below");
  if (slopes.least < flat && !(slopes.greatest < flat))
    passed.push_back({"pitch of a slope beside steeper ones", "at least", t.source(roof), value(slopes.least),
                      value(flat), "slopes under 5 degrees beside steeper ones"});
  if (!slopes.faced())
    passed.push_back({"slopes of the roof that have no opposite", "at most", t.source(roof), value(1.0), value(0.0)});
  // The second most open face.
  std::vector<double> shares;
  for (const Side side : {Side::left, Side::front, Side::right, Side::back}) {
    const FaceOpenings f = openings_in(ask, side, rule);
    shares.push_back(f.gross > zero<Area>() ? formulas::area_ratio(nullptr, f.may_be_open, f.gross) : 0.0);
  }
  std::sort(shares.begin(), shares.end());
  no_more("canopy", "share of a second face that may stand open", shares[2], t.number("canopy", "share"));
  return passed;
}

static LoadCase wind_case(const Ask& a, std::size_t at, const Pressures& p, const RoofOfWind& roof, std::size_t signs,
                          bool with_roof) {
  const Table& t = a.wind.table;
  const std::string face(words(windward(a.frame.own(Way::right))));
  const Marks common = marks_of_gust(a.wind) | t.mark("lifted") | t.mark("limits") | t.mark("canopy");
  const Marks of_walls = common | t.mark("walls") | t.mark("zones");
  const Marks of_roof = common | roof.marks | t.mark("flat") |
                        (a.roof.stands == Stands::one_slope ? t.mark("zones_monopitch") : Marks{0});
  const Marks of_inside =
      t.mark(a.inside.key) | t.mark("inside_dominant") | (a.inside.dominant ? t.mark("walls") : Marks{0});
  LoadCase c{
      .id = fmt::format("{}{} {}{}", face, id_of(a.signs, signs), a.inside.id, with_roof ? "" : " walls"),
      .wind = fmt::format("onto the {}{}{}", face, words_of(a.signs, a.roof, signs), with_roof ? "" : ", walls alone"),
      .inside = a.inside.words,
      .combination = {t.text("lifted", "name"), t.source("lifted"), t.number("lifted", "dead"),
                      t.number("lifted", "wind")},
      .layout = at,
      .net = {},
      .net_small = {},
      .by_area = {t.get<Area>("area", "small"), t.get<Area>("area", "large"), true, t.source("area")},
      .push = wall_pushes(a, p),
      .square_on = square_on(a, p),
      .marks = 0,
      .marks_net = of_walls | of_roof | of_inside | t.mark("overhang") | t.mark("area"),
      .marks_push = of_walls | of_roof | t.mark("correlation") | t.mark("friction"),
      .marks_square_on = of_walls | of_inside,
      .down = {t.text("pressed_down", "name"), t.source("pressed_down"), t.number("pressed_down", "dead"),
               t.number("pressed_down", "wind")},
      .marks_down = t.mark("pressed_down")};
  c.marks = c.marks_net | c.marks_push | c.marks_square_on;
  const std::size_t zones = a.roof.layout.zones.size();
  c.net.reserve(zones);
  c.net_small.reserve(zones);
  for (std::size_t i = 0; i < zones; ++i) {
    const auto [large, small] = net_of(a, p, i);
    c.net.push_back(large);
    c.net_small.push_back(small);
  }
  if (with_roof) add_pushes_on_roof(c.push, roof, p);
  return c;
}

Loads loads(const WindAsk& ask, Working* w, std::optional<std::size_t> tell) {
  const Shape& s = ask.shape;
  const SiteWind wind = site(ask, w);
  const OpeningRule rule = opening_rule(ask, wind.gust);
  const std::vector<Inside> inside = insides(ask, rule);
  Loads all{.basis = Basis::limit_state, .layouts = {}, .cases = {}, .excess = {}};
  press_on_floors(all, ask.table, {"pressed_by_floor", "pressed_most_by_floor"});
  const Slopes slopes = slopes_of(s, ask.house.roof.pitch);
  std::vector<Seen> winds;
  for (const Turn turn : turns) {
    if (turn.mirror) continue;  // the zones are the same to both sides of the wind
    const Frame8 f(s.across, s.up, turn);
    const Seen seen = seen_by_wind(ask, f, nullptr);
    RoofZones roof = roof_zones(s, f, ask.table, slopes, stands(ask.table, slopes, f), seen.e_r, seen.e_w);
    const RoofOfWind of_wind = roof_of_wind(ask, roof);
    const auto signs = signs_of(ask.table, roof);
    all.cases.reserve(std::size_t{8} * signs.size() * inside.size());  // winds, with the roof and without
    for (const Signs sign : signs) {
      const Coefficients by = coefficients({ask, f, roof, seen, sign, inside.front(), wind.q}, nullptr);
      for (const Inside& i : inside) {
        const Ask a{ask, f, roof, seen, sign, i, wind.q};
        const Pressures p = pressures(a, by, nullptr);
        for (const bool with_roof : {true, false}) {
          if (w && tell == all.cases.size()) {
            seen_by_wind(ask, f, w);
            pressures(a, coefficients(a, w), w);
          }
          all.cases.push_back(wind_case(a, all.layouts.size(), p, of_wind, signs.size(), with_roof));
        }
      }
    }
    all.layouts.push_back(std::move(roof.layout));
    winds.push_back(seen);
  }
  all.excess = limits_passed(ask, slopes, winds, rule);
  return all;
}

LineSpacing line_spacing(const WindAsk& ask) {
  return {std::nullopt, std::nullopt, ask.table.method + " gives no spacing of bracing lines", 0};
}

}  // namespace belay::eurocode
