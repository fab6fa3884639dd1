// Houses by wind class (AS 4055): net roof uplift from class coefficients, racking from the area of elevation.
#include "wind/formulas.hpp"
#include "wind/methods.hpp"
#include <algorithm>

namespace belay::as4055 {

static const ClassSite& asked(const WindAsk& ask) { return std::get<ClassSite>(ask.site); }
static std::string gust_key(const WindAsk& ask) { return "gust_" + asked(ask).wind_class; }
static bool cyclonic(const WindAsk& ask) { return asked(ask).wind_class.starts_with('C'); }
// `word` stands among the words, which blanks part.
static bool stands_among(const std::string& words, const std::string& word) {
  return (' ' + words + ' ').find(' ' + word + ' ') != std::string::npos;
}

bool rated_for_class(const std::string& rating, const std::string& wind_class) {
  return rating.size() == 2 && wind_class.size() == 2 && rating[0] == wind_class[0] && rating[1] >= wind_class[1] &&
         rating[1] <= '9';
}

// An opening that nothing closes, or a wide door that is not known to stand the class's wind.
static bool counts_as_open(const Opening& o, const WindAsk& ask, Length wide) {
  if (o.stands_open) return true;
  // What the job itself calls too weak, or not known, is open however narrow it is.
  const bool doubted = o.wind_rated.has_value() || (o.door && o.width >= wide);
  return doubted &&
         falls_short(o.wind_rated, [&](const std::string& r) { return rated_for_class(r, asked(ask).wind_class); });
}
static bool has_an_open_side(const WindAsk& ask) {
  const Length wide = ask.table.get<Length>("wide_door", "width");
  for (const Wall& wall : ask.house.walls) {
    if (!wall.outside) continue;
    for (const Piece& piece : wall.pieces)
      if (piece.opening && counts_as_open(*piece.opening, ask, wide)) return true;
  }
  return false;
}

SiteWind site(const WindAsk& ask, Working* w) {
  const Table& t = ask.table;
  if (w && !w->first("the wind")) w = nullptr;  // told already
  if (w) w->heading("The wind");
  const Speed gust = figure<Speed>(w, t, gust_key(ask), "gust", "V", "gust at roof height that the class stands for");
  const Density air = figure<Density>(w, t, "air", "density", "rho", "density of air");
  const Pressure q = formulas::gust_pressure(w, air, gust);
  return {.method = t.method,
          .edition = t.edition,
          .wind_class = asked(ask).wind_class,
          .given_by = asked(ask).given_by,
          .gust = gust,
          .q = q,
          .cyclonic = cyclonic(ask),
          .cautions = {
              "The class is taken as given; it was not worked out from region, terrain, shielding and hills.",
              "The class's net uplift is taken on eaves and verges as on the roof; pressure from below is not added.",
              "In Australia AS 5216 governs anchors in concrete: the sheets' capacities must be by it."}};
}

// ---- limits --------------------------------------------------------------------------------------------------------

static std::vector<Excess> limits_passed(const WindAsk& ask) {
  const Table& t = ask.table;
  const Shape& s = ask.shape;
  const std::string source = t.source("limits");
  std::vector<Excess> passed;
  const auto no_more = [&](std::string limit, auto has, auto greatest) {
    if (has > greatest) passed.push_back({std::move(limit), "at most", source, value(has), value(greatest)});
  };
  // Eaves up to 0.9 m do not count as width; what goes further does.
  const Length left_out = t.get<Length>("limits", "eaves_left_out");
  const auto past = [&](Length overhang) { return std::max(zero<Length>(), overhang - left_out); };
  const Length over_span = s.span + 2.0 * past(s.eaves), over_length = s.length + 2.0 * past(s.verge);
  const Length width = std::min(over_span, over_length), length = std::max(over_span, over_length);
  no_more("height to the underside of the eaves", s.eaves_height, t.get<Length>("limits", "eaves"));
  no_more("height to the top of the roof", s.top, t.get<Length>("limits", "top"));
  no_more("width", width, t.get<Length>("limits", "width"));
  no_more("length, as widths", static_cast<double>(length / width), t.number("limits", "length_to_width"));
  no_more("roof pitch", s.pitch, t.get<Angle>("limits", "pitch"));
  const double level = t.number("importance", "level"), has = ask.house.importance;
  if (has < level || has > level)
    passed.push_back({"importance level", "only", t.source("importance"), value(has), value(level)});
  return passed;
}

// ---- racking -------------------------------------------------------------------------------------------------------

// A slope's coefficient by pitch and h/d. The last column stands for steeper roofs.
static double slope_coefficient(const Table& t, std::string_view key, const std::string& symbol, Angle pitch,
                                double ratio, Working* w) {
  const auto& pitches = t.column(key, "pitch");
  const auto& ratios = t.column(key, "h_d");
  const Place column = place_among(pitches, std::max(pitch, quantity<Angle>(pitches.front())));
  const Place row = place_among(ratios, ratio);
  const auto in_row = [&](std::size_t r, const std::string& own) {
    const std::string name = fmt::format("row_{}", r + 1);
    const auto at = [&](std::size_t c, const std::string& as_symbol) {
      return figure<double>(w, t, key, name, as_symbol,
                            fmt::format("for h/d {} and the pitch of that column", ratios[r].si), c);
    };
    if (!column.between) return at(column.low, own);
    const std::string n1 = own + 'l', n2 = own + 'r', t1 = symbol + ",theta_1", t2 = symbol + ",theta_2";
    const double c1 = at(column.low, n1), c2 = at(column.low + 1, n2);
    const Angle a1 = figure<Angle>(w, t, key, "pitch", t1, "column below the pitch", column.low);
    const Angle a2 = figure<Angle>(w, t, key, "pitch", t2, "column above the pitch", column.low + 1);
    return formulas::linear_in_pitch.told(w, own, "linear between columns", as(n1, c1), as(n2, c2), pitch, as(t1, a1),
                                          as(t2, a2));
  };
  if (!row.between) return in_row(row.low, symbol);
  const std::string own_below = fmt::format("{},{}", symbol, row.low + 1),
                    own_above = fmt::format("{},{}", symbol, row.low + 2);
  const double below = in_row(row.low, own_below), above = in_row(row.low + 1, own_above);
  const std::string n1 = symbol + ",n_1", n2 = symbol + ",n_2";
  const double r1 = figure<double>(w, t, key, "h_d", n1, "row below h/d", row.low);
  const double r2 = figure<double>(w, t, key, "h_d", n2, "row above h/d", row.low + 1);
  return formulas::linear_in_height.told(w, symbol, "linear between rows", as(own_below, below), as(own_above, above),
                                         ratio, as(n1, r1), as(n2, r2));
}

Pressure racking_under_slope(const Table& t, const SlopingFace& face, Working* w, std::string_view symbol) {
  const double wall = figure<double>(w, t, "racking_wall", "wall", "C_w", "both walls together, push and pull");
  const Angle least_pitch = t.get<Angle>("racking_roof", "none_below");
  double roof = 0.0;
  if (face.pitch > least_pitch) {
    const Length highest =
        figure<Length>(w, t, "racking_roof", "highest_eaves", "h_4", "height of eaves that the tables go by");
    const Length eaves = least<Length>(w, "h_e", "height of the eaves: the lesser of their own and that of the tables",
                                       t.source("racking_roof"), {as("h_u", face.eaves), as("h_4", highest)});
    const Length height = formulas::half_rise_above(w, as("h_e", eaves), as("r", face.rise));
    const double ratio = formulas::height_to_depth(w, height, as("s", face.depth));
    const double up = slope_coefficient(t, "upwind", "C_up", face.pitch, ratio, w);
    const double down = slope_coefficient(t, face.downwind, "C_dn", face.pitch, ratio, w);
    const double together =
        figure<double>(w, t, "racking_roof", "surfaces", "k", "factor for two surfaces that are loaded at once");
    const Angle first = quantity<Angle>(t.column("upwind", "pitch").front());
    if (face.pitch < first) {
      const double at_first = formulas::slopes_together.told(w, "C_r,1", "AS/NZS 1170.2 cl. 5.4", together, up, down);
      figure<Angle>(w, t, "racking_roof", "none_below", "theta_0", "pitch up to which the roof adds nothing");
      figure<Angle>(w, t, "upwind", "pitch", "theta_1", "first column of the table");
      roof = formulas::low_pitch_share(w, as("C_r,1", at_first), face.pitch, as("theta_0", least_pitch),
                                       as("theta_1", first));
    } else {
      roof = formulas::slopes_together(w, together, up, down);
    }
  } else if (w) {
    given(w, "C_r", "the roof adds nothing at this pitch", roof, t.source("racking_roof"));
  }
  return formulas::racking_pressure.told(w, symbol, t.source("racking_wall"), face.q, wall, face.half_wall, roof,
                                         face.roof_over_breadth);
}

// Eaves that hang below the wall's top are left out of the roof's part.
static Polygon above(const Polygon& g, Length up) { return between_y(g, up, everywhere); }

static std::vector<Push> racking_pushes(const WindAsk& ask, Way towards, Pressure q, Working* w) {
  const Shape& s = ask.shape;
  const Table& t = ask.table;
  const bool onto_gable = is_across(towards) == (s.ridge == Along::across);
  const std::string label = "push";
  Pressure p = zero<Pressure>();
  if (onto_gable) {
    const double wall = figure<double>(w, t, "racking_gable", "wall", "C_w", "both end walls together, push and pull");
    p = formulas::pressure_of.told_as(w, "p_" + label,
                                      "pressure on the end walls: coefficient times the gust's pressure",
                                      w ? t.source("racking_gable") : std::string(), as("C_w", wall), q);
  } else {
    tell_measures(w, s);
    const Length length = given(w, "L", "length of the face", s.length, "the job's block");
    const Length verge = given(w, "v", "verge", s.verge, "the job's roof");
    const Length overhang = given(w, "e", "eaves, on plan", s.eaves, "the job's roof");
    const Length under = formulas::underside_of_eaves(w, s.floor_level, s.wall_height, overhang, s.pitch);
    const Length half = formulas::half_wall(w, s.wall_height);
    const Area roof = formulas::roof_elevation(w, s.rise, length, verge);
    const Length over_breadth = formulas::roof_over_breadth(w, roof, as("L", length));
    p = racking_under_slope(t,
                            {.q = q,
                             .half_wall = half,
                             .roof_over_breadth = over_breadth,
                             .eaves = under,
                             .rise = s.rise,
                             .depth = s.span,
                             .pitch = s.pitch,
                             .downwind = "downwind_side"},
                            w, "p_" + label);
  }
  std::vector<Push> pushes;
  for (const Elevation& e : s.elevations) {
    if (e.side != windward(towards)) continue;
    Polygon part = e.part == ElevationPart::roof ? above(e.outline, s.wall_height) : e.outline;
    if (!part.empty()) pushes.push_back({towards, std::move(part), p, label, std::string(words(e.part))});
  }
  return pushes;
}
static Marks racking_marks(const WindAsk& ask, Way towards) {
  const Table& t = ask.table;
  if (is_across(towards) == (ask.shape.ridge == Along::across)) return t.mark("racking_gable");
  return t.mark("racking_wall") | t.mark("racking_roof") | t.mark("upwind") | t.mark("downwind_side");
}

// ---- load cases ----------------------------------------------------------------------------------------------------

// How the roof is lifted: the class's coefficient with the house shut or open, or the uplift figures of AS 1684.
namespace {
struct Rule {
  std::string_view id, roof, wall, combination;
  std::string inside;
};
}  // namespace
static std::vector<Rule> rules(const WindAsk& ask) {
  const bool open = has_an_open_side(ask);
  if (cyclonic(ask)) {
    const std::string inside = open ? "a door or opening stands open" : "openings may fail, as the class takes them";
    return {{"class", "roof_C", "wall_C", "combination", inside},
            {"frame", "roof_light_frame", "wall_C", "roof_light_frame", inside}};
  }
  std::vector<Rule> all{{"class", "roof_N", "wall_N", "combination", "shut"}};
  if (open) all.push_back({"open", "roof_C", "wall_C", "combination", "a door or opening stands open"});
  all.push_back({"frame", "roof_light_frame", open ? "wall_C" : "wall_N", "roof_light_frame",
                 open ? "a door or opening stands open" : "shut"});
  return all;
}
static Layout one_layout(const Shape& s) {
  Layout layout{"whole roof", {}};
  for (std::size_t i = 0; i < s.surfaces.size(); ++i)
    layout.zones.push_back({i, s.surfaces[i].outline, s.surfaces[i].part == Part::soffit ? "soffit" : "roof"});
  return layout;
}

static LoadCase load_case(const WindAsk& ask, const Layout& layout, Way towards, const Rule& rule, Pressure q,
                          Working* w) {
  const Table& t = ask.table;
  const std::string side(words(windward(towards)));
  if (w) w->heading("The pressures");
  const std::string roof_key(rule.roof), wall_key(rule.wall);
  const double roof_net =
      figure<double>(w, t, roof_key, "net", "C_roof", "net uplift of the roof, inside and outside together");
  const Pressure roof =
      formulas::pressure_of.told_as(w, "p_roof", "pressure on the roof: coefficient times the gust's pressure",
                                    w ? t.source(roof_key) : std::string(), as("C_roof", roof_net), q);
  const Pressure soffit = given(w, "p_soffit", "under the eaves: the roof's coefficient stands for both faces",
                                zero<Pressure>(), w ? t.source(roof_key) : std::string());
  const double wall_net =
      figure<double>(w, t, wall_key, "net", "C_wall", "net pressure on a wall, inside and outside together");
  const Pressure wall =
      formulas::pressure_of.told_as(w, "p_sq,wall", "pressure square on a wall: coefficient times the gust's pressure",
                                    w ? t.source(wall_key) : std::string(), as("C_wall", wall_net), q);

  const std::string_view combination = rule.combination;
  const Marks gust = t.mark(gust_key(ask)) | t.mark("air") | t.mark(combination);
  LoadCase c{.id = fmt::format("{} {}", side, rule.id),
             .wind = "onto the " + side,
             .inside = rule.inside,
             .combination = {t.text(combination, "name"), t.source(combination), t.number(combination, "dead"),
                             t.number(combination, "wind")},
             .layout = 0,
             .net = {},
             .push = racking_pushes(ask, towards, q, w),
             .square_on = {},
             .marks = 0,
             .marks_net = gust | t.mark(roof_key),
             .marks_push = gust | racking_marks(ask, towards),
             .marks_square_on = gust | t.mark(wall_key)};
  c.marks = c.marks_net | c.marks_push | c.marks_square_on;
  for (const Zone& zone : layout.zones) c.net.push_back(zone.label == "soffit" ? soffit : roof);
  for (const Side s : {Side::left, Side::front, Side::right, Side::back}) {
    const Length length = is_across(outward(s)) ? ask.shape.up : ask.shape.across;
    c.square_on.push_back({s, zero<Length>(), length, wall, "wall"});
  }
  return c;
}

Loads loads(const WindAsk& ask, Working* w, std::optional<std::size_t> tell) {
  const Pressure q = site(ask, w).q;
  Loads all{.basis = Basis::limit_state, .layouts = {one_layout(ask.shape)}, .cases = {}, .excess = limits_passed(ask)};
  for (const Way towards : {Way::right, Way::back, Way::left, Way::front})
    for (const Rule& rule : rules(ask))
      all.cases.push_back(
          load_case(ask, all.layouts.front(), towards, rule, q, tell == all.cases.size() ? w : nullptr));
  return all;
}

LineSpacing line_spacing(const WindAsk& ask) {
  const Length light = ask.table.get<Length>("line_spacing", "greatest");
  const std::string source = ask.table.source("line_spacing");
  if (stands_among(ask.table.text("line_spacing", "classes"), asked(ask).wind_class))
    return {light, light, source, ask.table.mark("line_spacing")};
  // The table of spacings for stronger winds is not in hand; it cannot allow more than that of lighter winds.
  return {std::nullopt, light, source, ask.table.mark("line_spacing")};
}

}  // namespace belay::as4055
