// The gust at the house by EN 1991-1-4: peak velocity pressure at the top of the roof, the same for all four faces.
#include "wind/eurocode.hpp"
#include "wind/formulas.hpp"
#include "wind/formulas_en.hpp"

namespace belay::eurocode {

static const EnSite& asked(const WindAsk& ask) { return std::get<EnSite>(ask.site); }

Length reference_height(const WindAsk& ask, Working* w) {
  const Shape& s = ask.shape;
  tell_measures(w, ask);
  if (w && !w->first("reference height")) w = nullptr;
  const bool one_slope = s.roof == RoofShape::skillion || s.roof == RoofShape::flat;
  if (!one_slope || !(s.at(s.high).overhang > zero<Length>()))
    return formulas::top_of_roof(w, s.floor_level, walls_of(ask), s.rise);
  const Length past = given(w, "o_h", "overhang past the high wall", s.at(s.high).overhang, "the job's roof");
  return formulas::top_of_high_edge(w, s.floor_level, walls_of(ask), s.rise, past,
                                    pitch_of(ask, side_facing(opposite(outward(s.high)))));
}

// ---- hills ---------------------------------------------------------------------------------------------------------

namespace {
// A polynomial's coefficients in the table: "a_4", "a_3"... Their symbols in a working are the letter's own.
struct Coefficients {
  const Table& t;
  std::string_view key, letter;
  double operator()(int degree, Working* w) const {
    const std::string column = fmt::format("{}_{}", letter, degree);
    return figure<double>(w, t, key, column, name(degree), "coefficient of the polynomial");
  }
  // One of several entries with the same letter: told apart by the entry.
  std::string name(int degree) const {
    return fmt::format("{}_{}{}", letter, degree, key == "hill_upwind" ? "" : ",d");
  }
};
}  // namespace

static double fourth(const Coefficients& c, double r, Working* w) {
  const double a4 = c(4, w), a3 = c(3, w), a2 = c(2, w), a1 = c(1, w), a0 = c(0, w);
  return formulas::fourth_degree.told(w, "A_o", w ? c.t.source(c.key) : std::string(), as(c.name(4), a4),
                                      as(c.name(3), a3), as(c.name(2), a2), as(c.name(1), a1), as(c.name(0), a0), r);
}
static double second(const Coefficients& c, double r, Working* w) {
  const double b2 = c(2, w), b1 = c(1, w), b0 = c(0, w);
  return formulas::second_degree.told(w, "B_o", w ? c.t.source(c.key) : std::string(), as(c.name(2), b2),
                                      as(c.name(1), b1), as(c.name(0), b0), r);
}
static double third(const Coefficients& c, double l, Working* w, std::string_view symbol) {
  const double b3 = c(3, w), b2 = c(2, w), b1 = c(1, w), b0 = c(0, w);
  return formulas::third_degree.told(w, symbol, w ? c.t.source(c.key) : std::string(), as(c.name(3), b3),
                                     as(c.name(2), b2), as(c.name(1), b1), as(c.name(0), b0), as("l_r", l));
}

// Past the crest of a cliff or escarpment. r: height over effective length; x: distance over it.
static double past_cliff(const Table& t, double r, double x, Working* w) {
  const std::string_view key = "cliff_downwind";
  const std::string source = w ? t.source(key) : std::string();
  const double lowest = figure<double>(w, t, key, "lowest", "r_min", "least r of the formula");
  const double nearest = figure<double>(w, t, key, "nearest", "x_near", "nearest distance of the formula, over L_e");
  const double farthest = figure<double>(w, t, key, "farthest", "x_far", "farthest distance of the formula, over L_e");
  const double r_c = greatest<double>(w, "r_c", "r, not under the least", source, {as("r_z", r), as("r_min", lowest)});
  const double l = formulas::logarithm.told_as(w, "l_r", "decimal logarithm of r", source, as("r_c", r_c));
  const double a = third({t, key, "a"}, l, w, "A_c"), b = third({t, key, "b"}, l, w, "B_c"),
               c = third({t, key, "c"}, l, w, "C_c");
  const auto at = [&](std::string_view symbol, double l_x) {
    return formulas::location_past_cliff.told(w, symbol, source, as("A_c", a), as("B_c", b), as("C_c", c), l_x);
  };
  if (x < nearest) {
    const double at_crest = fourth({t, "hill_upwind", "a"}, r, w);
    const double l_x = formulas::logarithm.told_as(w, "l_x", "decimal logarithm of the nearest distance", source,
                                                   as("x_near", nearest));
    const double s1 = at("s_near", l_x);
    return formulas::location_between.told(w, "s_o", source, as("A_o", at_crest), s1, x, nearest);
  }
  // Farther away the last value is kept: safe, the annex has nothing there.
  const double x_c = least<double>(w, "x_hc", "distance over L_e, not past the farthest", source,
                                   {as("x_h", x), as("x_far", farthest)});
  const double l_x =
      formulas::logarithm.told_as(w, "l_x", "decimal logarithm of the distance", source, as("x_hc", x_c));
  const double s = at("s_c", l_x);
  const double none = given(w, "s_n", "no less than nothing", 0.0, source);
  return greatest<double>(w, "s_o", "orographic location factor", source, {as("s_c", s), as("s_n", none)});
}

static double location(const Table& t, const Hill& hill, Length effective, double r, Working* w) {
  const Length x =
      given(w, "X_h", "how far the house stands past the crest (negative: before it)", hill.past_crest, hill.at);
  const bool past = x > zero<Length>();
  if (past && hill.shape == HillShape::escarpment) {
    const double over = formulas::length_ratio.told_as(w, "x_h", "distance past the crest over the effective length",
                                                       "geometry", as("X_h", x), as("L_e", effective));
    return past_cliff(t, r, over, w);
  }
  const double a = fourth({t, "hill_upwind", "a"}, r, w);
  const double b = second({t, past ? "hill_downwind" : "hill_upwind", "b"}, r, w);
  if (!past)
    return formulas::location_by_distance.told(w, "s_o", w ? t.source("hill_upwind") : std::string(), a, b, x,
                                               as("L_u", hill.upwind_slope));
  const Length down = given(w, "L_d", "level length of the slope past the crest", hill.downwind_slope, hill.at);
  return formulas::location_by_distance.told(w, "s_o", w ? t.source("hill_downwind") : std::string(), a, b, x,
                                             as("L_d", down));
}

// Whether the slope is steep enough to count as a hill.
static double slope_of(const Hill& hill) { return formulas::length_ratio(nullptr, hill.rise, hill.upwind_slope); }
static bool counts(const Table& t, const Hill& hill) { return !(slope_of(hill) < t.number("hill", "flat")); }
static Length effective_length(const Table& t, const Hill& hill, Working* w) {
  const double steep = t.number("hill", "steep");
  const std::string source = w ? t.source("hill") : std::string();
  return slope_of(hill) > steep
             ? formulas::length_over.told(w, "L_e", source, hill.rise, steep)
             : given(w, "L_e", "effective length of a gentle slope: its own", hill.upwind_slope, source);
}
// Past a cliff, nearer than its formula reaches.
static bool near_crest(const Table& t, const Hill& hill) {
  return formulas::length_ratio(nullptr, hill.past_crest, effective_length(t, hill, nullptr)) <
         t.number("cliff_downwind", "nearest");
}

double orography(const Table& t, const Hill& hill, Length h, Working* w) {
  const std::string source = w ? t.source("hill") : std::string();
  const Length rise = given(w, "H_o", "rise of the hill", hill.rise, hill.at);
  const Length slope = given(w, "L_u", "level length of the slope that the wind comes up", hill.upwind_slope, hill.at);
  const double phi = formulas::length_ratio.told_as(w, "Phi", "slope that the wind comes up", source, as("H_o", rise),
                                                    as("L_u", slope));
  if (!counts(t, hill))
    return given(w, "c_o", "orography factor: the slope is too gentle to count as a hill", 1.0, source);
  const bool steep = phi > figure<double>(w, t, "hill", "steep", "Phi_s", "slope from which the hill is steep");
  const double k = figure<double>(w, t, "hill", steep ? "times_steep" : "times_gentle", "k_o", "factor of the hill");
  const double highest = figure<double>(w, t, "hill", "highest", "r_max", "greatest r of the formulas");
  const Length effective = effective_length(t, hill, w);
  const double own = formulas::length_ratio.told_as(w, "r_0", "height above ground over the effective length", source,
                                                    as("h", h), as("L_e", effective));
  const double r =
      least<double>(w, "r_z", "that, not past the greatest", source, {as("r_0", own), as("r_max", highest)});
  const double s = location(t, hill, effective, r, w);
  return steep ? formulas::orography_steep.told(w, "c_o", source, k, s)
               : formulas::orography_gentle.told(w, "c_o", source, k, s, phi);
}

// A hill or ridge is met from both of its sides: from the far one its slopes change places, and the house stands before
// the crest where it stood past it. The side that is the worse; an escarpment has one slope.
static Hill worse_side(const Table& t, const Hill& hill, Length h) {
  if (hill.shape == HillShape::escarpment) return hill;
  Hill turned = hill;
  std::swap(turned.upwind_slope, turned.downwind_slope);
  turned.past_crest = -hill.past_crest;
  return orography(t, turned, h, nullptr) > orography(t, hill, h, nullptr) ? turned : hill;
}

// ---- the gust ------------------------------------------------------------------------------------------------------

// The job's own figure, or the recommended one.
template <class Q>
static Q own_or(const std::optional<Q>& own, const WindAsk& ask, Working* w, std::string_view key,
                std::string_view column, std::string_view symbol, std::string_view words) {
  return own ? given(w, symbol, words, *own, asked(ask).at) : figure<Q>(w, ask.table, key, column, symbol, words);
}

namespace {
struct Gust {
  Speed speed;
  Pressure q;
};
}  // namespace

static Gust worked_out(const WindAsk& ask, Length h, Density air, Working* w) {
  const Table& t = ask.table;
  const EnSite& site = asked(ask);
  const auto source = [&](std::string_view key) { return w ? t.source(key) : std::string(); };
  const Speed v0 = given(w, "v_b,0", "fundamental value of the basic wind velocity", site.speed, site.at);
  const double dir = own_or(site.directional, ask, w, "factors", "c_dir", "c_dir", "directional factor");
  const double season = own_or(site.season, ask, w, "factors", "c_season", "c_season", "season factor");
  const double prob = own_or(site.probability, ask, w, "factors", "c_prob", "c_prob", "probability factor");
  const Length z0 = figure<Length>(w, t, "terrain", "z_0_" + site.terrain, "z_0", "roughness length of the terrain");
  const Length z_min =
      figure<Length>(w, t, "terrain", "z_min_" + site.terrain, "z_min", "height below which the gust is the same");
  const Length z0_open = figure<Length>(w, t, "terrain", "z_0_II", "z_II", "roughness length of terrain II");
  const double k0 = figure<double>(w, t, "terrain_factor", "factor", "k_0", "terrain factor of terrain II");
  const double n = figure<double>(w, t, "terrain_factor", "power", "n_r", "power of the roughness length");
  const double turbulence_factor = figure<double>(w, t, "turbulence", "k_I", "k_I", "turbulence factor");
  const double peak = figure<double>(w, t, "gust", "peak", "k_p", "what the gust adds, times the turbulence");

  const Speed vb = formulas::basic_velocity.told(w, "v_b", source("factors"), dir, season, prob, v0);
  const double kr = formulas::terrain_factor.told(w, "k_r", source("terrain_factor"), k0, z0, z0_open, n);
  const Length z = greatest<Length>(w, "z_g", "height at which the gust is taken", source("terrain"),
                                    {as("h", h), as("z_min", z_min)});
  const double cr = formulas::roughness_factor.told(w, "c_r", source("terrain_factor"), kr, z, z0);
  // At the height itself even below z_min, where the hill speeds the wind up most: safe.
  const double co = site.hill ? orography(t, worse_side(t, *site.hill, h), h, w)
                              : given(w, "c_o", "orography factor: flat ground", 1.0, site.at);
  const Speed vm = formulas::mean_velocity(w, cr, co, vb);
  const double iv = formulas::turbulence.told(w, "I_v", source("turbulence"), turbulence_factor, co, z, z0);
  const Speed vp = formulas::peak_velocity.told(w, "v_p", source("gust"), vm, peak, iv);
  return {vp, formulas::peak_velocity_pressure.told(w, "q_p", source("gust"), peak, iv, air, vm)};
}

static Gust typed_in(const WindAsk& ask, Density air, Working* w) {
  const EnSite& site = asked(ask);
  const std::string source = w ? ask.table.source("air") : std::string();
  if (site.typed.pressure) {
    const Pressure q = given(w, "q_p", "pressure of the gust, typed in by an engineer", *site.typed.pressure, site.at);
    const Speed one = given(w, "v_1", "unit of speed", Speed::from_value(1.0), source);
    return {formulas::velocity_of_pressure.told(w, "v_p", source, one, q, air), q};
  }
  const Speed v = given(w, "v_p", "speed of the gust, typed in by an engineer", *site.typed.gust, site.at);
  return {v, formulas::gust_pressure.told(w, "q_p", source, air, as("v_p", v))};
}

// Of the curves that the house's place is on.
static Marks marks_of_hill(const Table& t, const Hill& hill) {
  const Marks m = t.mark("hill"), upwind = t.mark("hill_upwind");
  if (!counts(t, hill)) return m;
  if (!(hill.past_crest > zero<Length>())) return m | upwind;
  if (hill.shape != HillShape::escarpment) return m | upwind | t.mark("hill_downwind");
  return m | t.mark("cliff_downwind") | (near_crest(t, hill) ? upwind : Marks{0});
}

Marks marks_of_gust(const WindAsk& ask) {
  const Table& t = ask.table;
  const EnSite& site = asked(ask);
  Marks m = site.air ? Marks{0} : t.mark("air");  // of a typed pressure: behind the speed that doors must stand
  if (site.typed.given()) return m;
  for (const std::string_view key : {"factors", "terrain", "terrain_factor", "turbulence", "gust"}) m |= t.mark(key);
  if (site.hill) m |= marks_of_hill(t, worse_side(t, *site.hill, reference_height(ask, nullptr)));
  return m;
}

// Where the tables of roofs do not tell the whole roof.
static void add_cautions_of_roof(std::vector<std::string>& all, const Table& t, const Shape& s) {
  const bool across = s.ridge == Along::across;
  const RoofSide &low = s.at(across ? Side::front : Side::left), &high = s.at(across ? Side::back : Side::right);
  const RoofSide &start = s.at(across ? Side::left : Side::front), &end = s.at(across ? Side::right : Side::back);
  const Angle steepest = std::max(std::max(low.pitch, high.pitch), std::max(start.pitch, end.pitch));
  if (steepest < t.get<Angle>("flat", "below")) return;
  const bool gable_above = start.gable_above > zero<Length>() || end.gable_above > zero<Length>();
  if ((start.slopes || end.slopes) && (gable_above || start.slopes != end.slopes))
    all.push_back(fmt::format(
        "{} has no table of roofs with a hip and a gable: at each place the worse of hip and duopitch roofs counts.",
        t.method));
  const bool all_hips = start.slopes && end.slopes && !gable_above;
  if (low.slopes && high.slopes && low.pitch != high.pitch && !all_hips)
    all.push_back(fmt::format(
        "{} has no table of roofs with two pitches: the slope in the lee takes the worse of both.", t.method));
}
static std::vector<std::string> cautions(const WindAsk& ask, Length h) {
  const Table& t = ask.table;
  const EnSite& site = asked(ask);
  const Shape& s = ask.shape;
  std::vector<std::string> all;
  if (site.typed.given()) {
    all.emplace_back("The gust was typed in by an engineer. It is not worked out here.");
  } else {
    all.emplace_back(
        "These are the values that EN 1991-1-4 recommends: a country's annex may choose others, for the map of "
        "velocities too.");
    if (!site.hill) {
      all.emplace_back("The ground is taken as flat: no hill, ridge or escarpment.");
    } else if (const Hill hill = worse_side(t, *site.hill, h); !counts(t, hill)) {
      all.push_back(fmt::format("The {} is too gentle to count: no speed-up.", words(hill.shape)));
    } else {
      all.push_back(fmt::format("The {} is taken to stand in the way of the wind onto every face{}.", words(hill.shape),
                                hill.shape == HillShape::escarpment ? "" : ", and of its two sides the worse"));
    }
  }
  add_cautions_of_roof(all, t, s);
  if (ask.house.first && h > std::min(s.across, s.up))
    all.emplace_back(
        "The house is higher than one side of its plan is long: its walls take the pressure of the gust at the top of "
        "the roof to their full height; EN 1991-1-4 7.2.2 would allow less low down.");
  return all;
}

SiteWind site(const WindAsk& ask, Working* w) {
  const Table& t = ask.table;
  const EnSite& stated = asked(ask);
  if (w && !w->first("the wind")) w = nullptr;  // told already
  if (w) w->heading("The wind");
  const Length h = reference_height(ask, w);
  const Density air = own_or(stated.air, ask, w, "air", "density", "rho", "density of air");
  const bool typed = stated.typed.given();
  const Gust gust = typed ? typed_in(ask, air, w) : worked_out(ask, h, air, w);
  const auto combination = [&](std::string_view key) {
    return Combination{t.text(key, "name"), t.source(key), t.number(key, "dead"), t.number(key, "wind")};
  };
  SiteWind wind{.method = t.method,
                .edition = t.edition,
                .wind_class = "",
                .given_by = stated.given_by,
                .gust = gust.speed,
                .q = gust.q,
                .cyclonic = false,
                .cautions = cautions(ask, h),
                .says = typed ? std::string() : "terrain " + stated.terrain,
                .typed_in = typed};
  std::size_t i = 0;
  for (const Side side : {Side::left, Side::front, Side::right, Side::back})
    wind.faces.at(i++) = {side, gust.speed, gust.q, ""};
  wind.combinations = {combination("lifted"), combination("strength"), combination("pressed_down")};
  wind.marks = marks_of_gust(ask);
  return wind;
}

}  // namespace belay::eurocode
