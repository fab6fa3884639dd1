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

// ---- families of roof zones
// --------------------------------------------------------------------------------------------

std::string_view key_of(Family f) {
  switch (f) {
    case Family::flat: return "flat";
    case Family::across: return "duopitch_across";
    case Family::along: return "duopitch_along";
    case Family::hip: return "hip";
  }
  return "flat";
}
std::string_view letters_of(Family f) {
  switch (f) {
    case Family::flat:
    case Family::along: return "FGHI";
    case Family::across: return "FGHIJ";
    case Family::hip: return "FGHIJKLMN";
  }
  return "";
}
// What the roof's slopes fall to, in the order of Way.
static std::array<bool, 4> falls(const Shape& s) {
  std::array<bool, 4> ways{};
  for (const Surface& surface : s.surfaces)
    if (surface.part == Part::roof) ways.at(static_cast<std::size_t>(surface.falls)) = true;
  return ways;
}
static bool hipped(const Shape& s) {
  const auto ways = falls(s);
  return (ways[0] || ways[2]) && (ways[1] || ways[3]);
}
Family family_of(const Shape& s, const Frame8& f, const Table& t) {
  if (s.pitch < t.get<Angle>("flat", "below")) return Family::flat;
  if (hipped(s)) return Family::hip;
  return f.seen(s.ridge) == Along::up ? Family::across : Family::along;
}

// ---- coefficients
// --------------------------------------------------------------------------------------------------------

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
static double between_pitches(const Rows<Angle>& r, Working* w, const std::string& symbol, const std::string& words) {
  if (!r.between) return r.low;
  if (!w) return formulas::linear_in_pitch(nullptr, r.low, r.high, r.here, r.at_low, r.at_high);
  return formulas::linear_in_pitch.told_as(w, symbol, words + ", between two rows by the pitch", "linear between rows",
                                           as(symbol + ",lo", r.low), as(symbol + ",hi", r.high), r.here, r.at_low,
                                           r.at_high);
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
  return between_pitches(read(t, key_of(f), "pitch", column, pitch, pitch_rows, nullptr, {}, {}), nullptr, {}, {});
}
double wall_coefficient(const Table& t, std::string_view column, double h_d) {
  return between_heights(read(t, "walls", "h_d", column, h_d, height_rows, nullptr, {}, {}), nullptr, {}, {},
                         height_rows);
}

// ---- which of two signs
// --------------------------------------------------------------------------------------------------

// met: the slope that the wind meets takes the other sign than suction; rest: the other zones do.
namespace {
struct Signs {
  bool met, rest;
};
}  // namespace
static bool on_met_slope(char zone) { return zone >= 'F' && zone <= 'H'; }
static bool has_column(const Table& t, Family f, const std::string& column) {
  return t.entry(key_of(f)).columns.contains(column);
}
static std::string most_of(char zone) { return std::string(1, zone) + "_most"; }

// Every pairing of signs that differs at this pitch, suction first.
static std::vector<Signs> signs_of(const Table& t, Family f, Angle pitch) {
  bool met = false, rest = false;
  for (const char zone : letters_of(f)) {
    if (!has_column(t, f, most_of(zone))) continue;
    const bool differs =
        coefficient(t, f, most_of(zone), pitch) > coefficient(t, f, std::string(1, zone) + "10", pitch);
    (on_met_slope(zone) ? met : rest) |= differs;
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
static std::string words_of(const Signs& s, Family f, std::size_t of) {
  if (of == 1) return "";
  const auto one = [](bool press) { return press ? "lifted least" : "lifted most"; };
  if (f == Family::flat) return fmt::format(", the roof behind its edges {}", one(s.rest));
  if (f == Family::hip) return fmt::format(", the near slope {}", one(s.met));
  return fmt::format(", the near slope {}, the far slope {}", one(s.met), one(s.rest));
}

// ---- where the zones lie
// -------------------------------------------------------------------------------------------------

namespace {
struct Piece {
  Polygon part;
  std::string zone;
};
// The outer edges of the roof as the wind sees it, and where the slope that it does not meet begins.
struct Edges {
  Length x0, x1, y0, y1, ridge;
};
struct Parts {
  Polygon within, beyond;
};
}  // namespace

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

static void keep(std::vector<Piece>& pieces, Polygon part, std::string_view zone) {
  if (!part.empty()) pieces.push_back({std::move(part), std::string(zone)});
}

namespace {
struct Layer {
  const Shape& shape;
  const Frame8& frame;
  const Table& t;
  Family family;
  Length e;
  Edges edges;

  Length part(std::string_view column) const { return t.number("zones", column) * e; }
  const Surface* falling(Way seen) const {
    for (const Surface& s : shape.surfaces)
      if (s.part == Part::roof && frame.seen(s.falls) == seen) return &s;
    return nullptr;
  }
  // The edge strip that the wind meets: F at both corners, G between.
  void add_edge(std::vector<Piece>& pieces, const Polygon& strip) const {
    const Length low = edges.y0 + part("corner"), high = edges.y1 - part("corner");
    keep(pieces, between_y(strip, -everywhere, low), "F");
    keep(pieces, between_y(strip, low, high), "G");
    keep(pieces, between_y(strip, high, everywhere), "F");
  }
  std::vector<Piece> met(const Polygon& g) const {
    std::vector<Piece> pieces;
    const Parts edge = cut_x(g, edges.x0 + part("edge"));
    add_edge(pieces, edge.within);
    keep(pieces, edge.beyond, "H");
    return pieces;
  }
  // Flat roofs, and slopes along whose ridge the wind blows.
  std::vector<Piece> swept(const Polygon& g) const {
    std::vector<Piece> pieces;
    const Parts edge = cut_x(g, edges.x0 + part("edge"));
    add_edge(pieces, edge.within);
    const Parts behind = cut_x(edge.beyond, edges.x0 + part("behind_the_end"));
    keep(pieces, behind.within, "H");
    keep(pieces, behind.beyond, "I");
    return pieces;
  }
  std::vector<Piece> lee(const Polygon& g) const {
    std::vector<Piece> pieces;
    const Parts ridge = cut_x(g, edges.ridge + part("edge"));
    keep(pieces, ridge.within, "J");
    keep(pieces, ridge.beyond, "I");
    return pieces;
  }
  // The strip along the hips towards both sides, or nothing of it.
  Polygon off_hips(std::vector<Piece>& pieces, const Surface& own, Polygon g, std::initializer_list<Way> others,
                   std::string_view zone) const {
    for (const Way way : others) {
      const Surface* other = falling(way);
      if (!other || g.empty()) continue;
      const Parts parts = cut_along(g, [&](const Point& p) { return from_hip(frame, own, *other, p) - part("edge"); });
      keep(pieces, parts.within, zone);
      g = parts.beyond;
    }
    return g;
  }
  // Where the strips along ridge and hips overlap the one with the greater suction counts.
  std::vector<Piece> lee_of_hip(const Surface& own, const Polygon& g) const {
    std::vector<Piece> pieces;
    const bool ridge_first = coefficient(t, family, "K10", shape.pitch) < coefficient(t, family, "J10", shape.pitch);
    const auto off_ridge = [&](const Polygon& of) {
      const Parts ridge = cut_x(of, edges.ridge + part("edge"));
      keep(pieces, ridge.within, "K");
      return ridge.beyond;
    };
    Polygon rest = ridge_first ? off_ridge(g) : g;
    rest = off_hips(pieces, own, std::move(rest), {Way::front, Way::back}, "J");
    keep(pieces, ridge_first ? rest : off_ridge(rest), "I");
    return pieces;
  }
  std::vector<Piece> side_of_hip(const Surface& own, const Polygon& g) const {
    std::vector<Piece> pieces;
    const Polygon rest = off_hips(pieces, own, g, {Way::left}, "L");
    const Parts behind = cut_x(rest, edges.x0 + part("behind_the_end"));
    keep(pieces, behind.within, "M");
    keep(pieces, behind.beyond, "N");
    return pieces;
  }
  std::vector<Piece> roof(const Surface& s) const {
    const Polygon g = frame.seen(s.outline);
    if (family == Family::flat || family == Family::along) return swept(g);
    const Way way = frame.seen(s.falls);
    if (way == Way::left) return met(g);
    if (way == Way::right) return family == Family::hip ? lee_of_hip(s, g) : lee(g);
    return side_of_hip(s, g);
  }
};
}  // namespace

// Where the zones A, B and C of a wall along the wind end, from the edge that the wind meets.
static std::array<Length, 2> ends_of_side_zones(const Table& t, Length e_w) {
  return {t.number("zones", "wall_end") * e_w, t.number("zones", "wall_next") * e_w};
}
// The wall zones of a polygon on the side that looks so; for walls along the wind x runs along them as seen.
static std::vector<Piece> wall_zones(const Table& t, Way looks, const Polygon& seen, Length e_w) {
  if (looks == Way::left) return {{seen, "D"}};
  if (looks == Way::right) return {{seen, "E"}};
  std::vector<Piece> pieces;
  const auto ends = ends_of_side_zones(t, e_w);
  const Parts first = cut_x(seen, ends[0]), next = cut_x(first.beyond, ends[1]);
  keep(pieces, first.within, "A");
  keep(pieces, next.within, "B");
  keep(pieces, next.beyond, "C");
  return pieces;
}

Layout roof_layout(const Shape& s, const Frame8& f, const Table& t, Family family, const Widths& widths,
                   std::string name) {
  Layout layout{std::move(name), {}};
  const Layer layer{s, f, t, family, widths.e_r, edges_of(s, f)};
  for (std::size_t i = 0; i < s.surfaces.size(); ++i) {
    const Surface& surface = s.surfaces[i];
    const bool soffit = surface.part == Part::soffit;
    const auto pieces = soffit ? wall_zones(t, f.seen(outward(surface.side)), f.seen(surface.outline), widths.e_w)
                               : layer.roof(surface);
    for (const Piece& piece : pieces)
      layout.zones.push_back({i, f.own(piece.part),
                              soffit                           ? "soffit," + piece.zone
                              : surface.part == Part::overhang ? piece.zone + ",o"
                                                               : piece.zone});
  }
  return layout;
}

// ---- the building as one wind sees it
// ------------------------------------------------------------------------------------

// d: depth along the wind; e: as Widths; friction: swept_length greater than nothing.
namespace {
struct Seen {
  Family family;
  Length b, d, h, b_r, d_r;
  double h_d;
  Widths e;
  Length reach, swept_length;
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
  return {.family = family_of(s, f, t),
          .b = b,
          .d = d,
          .h = h,
          .b_r = b_r,
          .d_r = d_r,
          .h_d = h_d,
          .e = {e_r, e_w},
          .reach = reach,
          .swept_length = l};
}

// ---- inside
// ----------------------------------------------------------------------------------------------------------------

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

// ---- the pressures of one case
// ---------------------------------------------------------------------------------------------

namespace {
// l: on 10 m2 and more; s: on 1 m2 and less. out: from outside alone.
struct OnRoof {
  Pressure out_l, out_s, net_l, net_s;
};
struct OnWall {
  Pressure under_l, under_s, push, square;
};
struct Pressures {
  std::array<OnRoof, 14> roof;  // by letter, F to N in use
  std::array<OnWall, 5> wall;   // A to E
  Pressure friction;
  const OnRoof& on_roof(char zone) const { return roof.at(static_cast<std::size_t>(zone - 'A')); }
  const OnWall& on_wall(char zone) const { return wall.at(static_cast<std::size_t>(zone - 'A')); }
};
struct Coefficient {
  char zone;
  std::string large, small;  // their symbols; empty in silence
  Rows<Angle> read_large, read_small;
  double c_large, c_small;
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
  const Seen& seen;
  Signs signs;
  const Inside& inside;
  Pressure q;
};
}  // namespace

static std::vector<Coefficient> read_roof(const Ask& a, Working* w) {
  const Table& t = a.wind.table;
  const Angle pitch = a.wind.shape.pitch;
  const Family f = a.seen.family;
  std::vector<Coefficient> all;
  all.reserve(letters_of(f).size());
  for (const char zone : letters_of(f)) {
    const bool most = (on_met_slope(zone) ? a.signs.met : a.signs.rest) && has_column(t, f, most_of(zone));
    Coefficient c{zone, symbol(w, "c_{},10", zone), symbol(w, "c_{},1", zone), {}, {}, 0.0, 0.0};
    const auto words = [&](std::string_view area) {
      return w ? fmt::format("coefficient of zone {}, {}{}", zone, area, most ? ", least suction" : "") : std::string();
    };
    const std::string letter(1, zone);
    c.read_large = read(t, key_of(f), "pitch", most ? most_of(zone) : letter + "10", pitch, pitch_rows, w, c.large,
                        words("10 m2"));
    c.read_small =
        read(t, key_of(f), "pitch", most ? most_of(zone) : letter + "1", pitch, pitch_rows, w, c.small, words("1 m2"));
    all.push_back(std::move(c));
  }
  return all;
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
static void finish(std::vector<Coefficient>& roof, std::vector<WallCoefficient>& walls, Working* w) {
  for (Coefficient& c : roof) {
    const std::string words = symbol(w, "coefficient of zone {}", c.zone);
    c.c_large = between_pitches(c.read_large, w, c.large, words);
    c.c_small = between_pitches(c.read_small, w, c.small, words);
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

static OnRoof on_roof(const Ask& a, const Coefficient& c, Pressure from_inside, Working* w) {
  const std::string source = w ? a.wind.table.source(key_of(a.seen.family)) : std::string();
  const auto both = [&](double x, const std::string& named, char size) {
    if (!w) {
      const Pressure out = formulas::peak_pressure_on(nullptr, a.q, x);
      return std::pair{out, formulas::net_of_inside(nullptr, out, from_inside)};
    }
    const std::string area = size == 'l' ? "10 m2 and more" : "1 m2 and less";
    const std::string out_symbol = fmt::format("p_{},o,{}", c.zone, size);
    const Pressure out = formulas::peak_pressure_on.told_as(
        w, out_symbol, fmt::format("pressure in zone {} from outside, on {}", c.zone, area), source, a.q, as(named, x));
    return std::pair{out, formulas::net_of_inside.told_as(
                              w, fmt::format("p_{},{}", c.zone, size),
                              fmt::format("net pressure in zone {} on {}: outside less inside", c.zone, area), source,
                              as(out_symbol, out), as("p_i", from_inside))};
  };
  const auto [out_l, net_l] = both(c.c_large, c.large, 'l');
  const auto [out_s, net_s] = both(c.c_small, c.small, 's');
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

// The band above the wall's top on which friction is set: half as high as the wall. It carries the force to the bracing
// and is no part of the house.
static Length friction_band(const Shape& s, Working* w) {
  return formulas::half_wall.told(w, "h_f", "geometry", s.wall_height);
}
static Pressure friction(const Ask& a, Working* w) {
  if (!(a.seen.swept_length > zero<Length>())) return zero<Pressure>();
  const Table& t = a.wind.table;
  const Shape& s = a.wind.shape;
  const std::string source = w ? t.source("friction") : std::string();
  const double c = figure<double>(w, t, "friction", "c_fr", "c_fr", "friction coefficient of ribs and folds");
  const Area swept =
      formulas::swept_area.told(w, "A_f", source, s.wall_height, a.seen.swept_length, a.seen.b_r, s.pitch);
  const Length band = friction_band(s, w);
  return formulas::friction_as_pressure.told(w, "p_friction", source, a.q, c, swept, a.seen.b, band);
}

static Pressures pressures(const Ask& a, Working* w) {
  const Table& t = a.wind.table;
  Pressures p{};
  std::vector<Coefficient> roof = read_roof(a, w);
  std::vector<WallCoefficient> walls = read_walls(a, w);
  const std::string k_words = w ? "share of the forces on windward and leeward walls that come at once" : std::string();
  const Rows<double> correlation = read(t, "correlation", "h_d", "factor", a.seen.h_d, correlation_rows, w,
                                        w ? std::string("k_c") : std::string(), k_words);
  finish(roof, walls, w);
  const double k = between_heights(correlation, w, w ? std::string("k_c") : std::string(), k_words, correlation_rows);
  const double ci = inside_coefficient(a, walls, w);
  const Pressure from_inside =
      formulas::peak_pressure_inside.told(w, "p_i", w ? t.source(a.inside.key) : std::string(), a.q, ci);
  for (const Coefficient& c : roof) p.roof.at(static_cast<std::size_t>(c.zone - 'A')) = on_roof(a, c, from_inside, w);
  for (const WallCoefficient& c : walls) p.wall.at(static_cast<std::size_t>(c.zone - 'A')) = on_wall(a, c, k, ci, w);
  p.friction = friction(a, w);
  return p;
}

// ---- one wind's pushes and pressures, as the load path takes them
// ----------------------------------------------------------

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
    pushes.push_back({a.frame.own(Way::right),
                      rectangle(zero<Length>(), a.seen.b, s.wall_height, s.wall_height + friction_band(s, nullptr)),
                      p.friction, "friction", "friction along walls and roof"});
  return pushes;
}
static std::vector<Push> pushes_on_roof(const Ask& a, const Layout& layout, const Pressures& p) {
  return belay::roof_pushes(a.wind.shape, layout, [&](const Zone& z) {
    const char zone = z.label.front();
    return Push{Way::right, {}, p.on_roof(zone).out_l, fmt::format("{},o,l", zone), fmt::format("roof, zone {}", zone)};
  });
}

static std::vector<SquareOn> square_on(const Ask& a, const Pressures& p) {
  std::vector<SquareOn> all;
  const Shape& s = a.wind.shape;
  const auto ends = ends_of_side_zones(a.wind.table, a.seen.e.e_w);
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

// Of a zone's label: "F", "F,o" or "soffit,D".
static std::pair<Pressure, Pressure> net_of(const Pressures& p, const std::string& label) {
  if (label.starts_with("soffit")) {
    const OnWall& under = p.on_wall(label.back());
    return {under.under_l, under.under_s};
  }
  const OnRoof& on = p.on_roof(label.front());
  return label.size() == 1 ? std::pair{on.net_l, on.net_s} : std::pair{on.out_l, on.out_s};
}

// ---- all load cases ------------------------------------------------------------------------------------------------

static std::vector<Excess> limits_passed(const WindAsk& ask, const std::vector<Seen>& winds, const OpeningRule& rule) {
  const Table& t = ask.table;
  const Shape& s = ask.shape;
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
  const std::string_view roof = hipped(s) ? "hip" : "duopitch_across";
  no_more(roof, "roof pitch", s.pitch, quantity<Angle>(t.column(roof, "pitch").back()));
  double h_d = 0.0;
  for (const Seen& seen : winds) h_d = std::max(h_d, seen.h_d);
  no_more("walls", "height, as depths of the plan", h_d, quantity<double>(t.column("walls", "h_d").back()));
  // Gable roofs have two slopes back to back, hip roofs four.
  const auto ways = falls(s);
  const bool one_sided = ways[0] != ways[2] || ways[1] != ways[3];
  if (one_sided && s.pitch >= t.get<Angle>("flat", "below"))
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

static LoadCase wind_case(const Ask& a, const Layout& layout, std::size_t at, const Pressures& p, std::size_t signs,
                          bool with_roof) {
  const Table& t = a.wind.table;
  const std::string face(words(windward(a.frame.own(Way::right))));
  const Marks common = marks_of_gust(a.wind) | t.mark("lifted") | t.mark("limits") | t.mark("canopy");
  const Marks of_walls = common | t.mark("walls") | t.mark("zones"),
              of_roof = common | t.mark(key_of(a.seen.family)) | t.mark("flat");
  const Marks of_inside =
      t.mark(a.inside.key) | t.mark("inside_dominant") | (a.inside.dominant ? t.mark("walls") : Marks{0});
  LoadCase c{.id = fmt::format("{}{} {}{}", face, id_of(a.signs, signs), a.inside.id, with_roof ? "" : " walls"),
             .wind = fmt::format("onto the {}{}{}", face, words_of(a.signs, a.seen.family, signs),
                                 with_roof ? "" : ", walls alone"),
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
             .marks_square_on = of_walls | of_inside};
  c.marks = c.marks_net | c.marks_push | c.marks_square_on;
  c.net.reserve(layout.zones.size());
  c.net_small.reserve(layout.zones.size());
  for (const Zone& z : layout.zones) {
    const auto [large, small] = net_of(p, z.label);
    c.net.push_back(large);
    c.net_small.push_back(small);
  }
  if (with_roof) {
    std::vector<Push> roof = pushes_on_roof(a, layout, p);
    std::move(roof.begin(), roof.end(), std::back_inserter(c.push));
  }
  return c;
}

Loads loads(const WindAsk& ask, Working* w, std::optional<std::size_t> tell) {
  const Shape& s = ask.shape;
  const SiteWind wind = site(ask, w);
  const OpeningRule rule = opening_rule(ask, wind.gust);
  const std::vector<Inside> inside = insides(ask, rule);
  Loads all{.basis = Basis::limit_state, .layouts = {}, .cases = {}, .excess = {}};
  std::vector<Seen> winds;
  for (const Turn turn : turns) {
    if (turn.mirror) continue;  // the zones are the same to both sides of the wind
    const Frame8 f(s.across, s.up, turn);
    const Seen seen = seen_by_wind(ask, f, nullptr);
    Layout layout = roof_layout(s, f, ask.table, seen.family, seen.e, std::string(words(windward(f.own(Way::right)))));
    const auto signs = signs_of(ask.table, seen.family, s.pitch);
    for (const Signs sign : signs)
      for (const Inside& i : inside) {
        const Ask a{ask, f, seen, sign, i, wind.q};
        const Pressures p = pressures(a, nullptr);
        for (const bool with_roof : {true, false}) {
          if (w && tell == all.cases.size()) {
            seen_by_wind(ask, f, w);
            pressures(a, w);
          }
          all.cases.push_back(wind_case(a, layout, all.layouts.size(), p, signs.size(), with_roof));
        }
      }
    all.layouts.push_back(std::move(layout));
    winds.push_back(seen);
  }
  all.excess = limits_passed(ask, winds, rule);
  return all;
}

LineSpacing line_spacing(const WindAsk& ask) {
  return {std::nullopt, std::nullopt, ask.table.method + " gives no spacing of bracing lines", 0};
}

}  // namespace belay::eurocode
