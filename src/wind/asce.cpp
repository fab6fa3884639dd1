#include "wind/asce.hpp"
#include "wind/formulas.hpp"
#include "wind/formulas_asce.hpp"
#include <algorithm>
#include <array>

namespace belay::asce7 {

const AsceSite& asked(const WindAsk& ask) { return std::get<AsceSite>(ask.site); }

// ---- the roof ------------------------------------------------------------------------------------------------------

static constexpr std::array all_sides{Side::left, Side::front, Side::right, Side::back};

bool one_slope(const Shape& s) { return s.roof == RoofShape::skillion || s.roof == RoofShape::flat; }
bool has_hip_end(const Shape& s) {
  const bool across = s.ridge == Along::across;
  return !one_slope(s) &&
         (s.at(across ? Side::left : Side::front).slopes || s.at(across ? Side::right : Side::back).slopes);
}
bool is_flat(const WindAsk& ask) {
  return one_slope(ask.shape) && ask.shape.pitch <= ask.table.get<Angle>("limits", "flat_pitch");
}
// Of all slopes, those of hip ends too.
static Angle steepest(const Shape& s) {
  Angle most = s.pitch;
  for (const RoofSide& side : s.sides)
    if (side.slopes) most = std::max(most, side.pitch);
  return most;
}
static bool has_unlike_slopes(const Shape& s) {
  return std::any_of(s.sides.begin(), s.sides.end(),
                     [&](const RoofSide& side) { return side.slopes && side.pitch != s.pitch; });
}
// ---- height and exposure -------------------------------------------------------------------------------------------

Length mean_height(const WindAsk& ask, Working* w) {
  const Shape& s = ask.shape;
  tell_measures(w, ask);
  const bool low = steepest(s) <= ask.table.get<Angle>("mean_height", "low_pitch") && !one_slope(s);
  return low ? formulas::top_of_walls(w, s.floor_level, walls_of(ask))
             : formulas::half_way_up(w, s.floor_level, walls_of(ask), s.rise);
}

namespace {
// Exposure factors at mean roof height, and at the peak of the gables. In one exposure low buildings and components
// have a least value, other main systems have not.
struct Exposure {
  As<double> main, gable, components;
};
}  // namespace
static Exposure exposure(const WindAsk& ask, Length h, Procedure procedure, Working* w) {
  const Table& t = ask.table;
  const std::string key = "exposure_" + asked(ask).exposure;
  const Length lowest = figure<Length>(w, t, "height_factor", "lowest", "z_0", "least height for the exposure factor");
  const Length z = greatest<Length>(w, "z", "height for the exposure factor",
                                    w ? t.source("height_factor") : std::string(), {as("h", h), as("z_0", lowest)});
  const Length gradient = figure<Length>(w, t, key, "z_g", "z_g", "gradient height of the exposure");
  const double alpha = figure<double>(w, t, key, "alpha", "alpha", "power of the exposure");
  const double factor = figure<double>(w, t, "height_factor", "factor", "k", "factor of the formula");
  const double ratio = formulas::height_over_gradient(w, z, gradient);
  const double by_formula = formulas::exposure_factor(w, factor, ratio, alpha);
  const std::string source = w ? t.source(key) : std::string();
  const bool has_least = t.entry(key).columns.contains("least");
  const auto least_value = [&] {
    return as("K_low", figure<double>(w, t, key, "least", "K_low", "least factor for low buildings in this exposure"));
  };
  std::vector<As<double>> candidates{as("K_f", by_formula)};
  if (has_least && procedure == Procedure::envelope) candidates.push_back(least_value());
  const auto main = as("K_h", greatest<double>(w, "K_h", "exposure factor at mean roof height", source, candidates));
  Exposure all{main, main, main};
  if (procedure == Procedure::envelope) return all;
  const Shape& s = ask.shape;
  const bool hips_alone =
      has_hip_end(s) && std::none_of(s.elevations.begin(), s.elevations.end(),
                                     [](const Elevation& e) { return e.part == ElevationPart::gable; });
  if (!hips_alone && formulas::height_of_ridge(nullptr, s.floor_level, walls_of(ask), s.rise) > lowest) {
    const Length top = formulas::height_of_ridge(w, s.floor_level, walls_of(ask), s.rise);
    const double of_top = formulas::height_over_gradient.told(w, "r_t", source, as("h_t", top), gradient);
    all.gable = as("K_t", formulas::exposure_factor.told_as(w, "K_t", "exposure factor at the peak of the gables",
                                                            source, factor, as("r_t", of_top), alpha));
  }
  if (has_least)
    all.components = as("K_h,c", greatest<double>(w, "K_h,c", "exposure factor for components and cladding", source,
                                                  {main, least_value()}));
  return all;
}

// ---- hills ---------------------------------------------------------------------------------------------------------

static std::string key_of(HillShape shape) { return "hill_" + std::string(words(shape)); }

// A hill that is too low, or too gentle, does not count. The other conditions of the standard (it stands alone, the
// house on its upper part) only ever spare a house: they are not asked, and taken as met.
static bool counts(const Table& t, const Hill& hill, const std::string& exposure) {
  return hill.rise > zero<Length>() && hill.rise >= t.get<Length>("hill_conditions", "least_rise_" + exposure) &&
         hill.rise >= t.number("hill_conditions", "least_ratio") * hill.to_half_height;
}

static SpeedUp speed_up_as_stated(const Table& t, const Hill& hill, const std::string& exposure, Length h, Working* w) {
  if (!counts(t, hill, exposure)) {
    const double flat =
        figure<double>(w, t, "topography", "K_zt", "K_zt", "hills: too low or too gentle a one to count");
    return {flat, flat};
  }
  const std::string key = key_of(hill.shape), source = w ? t.source(key) : std::string(),
                    steep_source = w ? t.source("hill_steep") : std::string();
  const bool before = hill.past_crest < zero<Length>();
  const Length rise = given(w, "H", "rise of the hill", hill.rise, hill.at);
  const Length stated =
      given(w, "L_h", "level distance from the crest, upwind, to half the rise", hill.to_half_height, hill.at);
  const Length x = given(
      w, "x_H",
      before ? "distance of the house from the crest, before it" : "distance of the house from the crest, past it",
      before ? -hill.past_crest : hill.past_crest, hill.at);
  const double steep = figure<double>(w, t, "hill_steep", "ratio", "r_s", "steeper hills count as steep as this");
  const double k = figure<double>(w, t, key, "k_" + exposure, "k_H", "K_1 over the steepness, in this exposure");
  const double mu = figure<double>(
      w, t, key, before ? "mu_up" : "mu_down", "mu",
      before ? "reach of the hill before its crest, over L_c" : "reach of the hill past its crest, over L_c");
  const double gamma = figure<double>(w, t, key, "gamma", "gamma", "fading with height");
  const double own = formulas::rise_over_length.told(w, "H/L_h", source, rise, stated);
  const double r = least<double>(w, "r_c", "steepness that counts", steep_source, {as("H/L_h", own), as("r_s", steep)});
  const Length length_if_steep = formulas::length_of_steep_hill.told(w, "L_s", steep_source, rise, steep);
  const Length length = greatest<Length>(w, "L_c", "length of the hill that counts", steep_source,
                                         {as("L_h", stated), as("L_s", length_if_steep)});
  const double k1 = formulas::hill_at_crest.told(w, "K_1", source, k, r);
  const double fading = formulas::hill_by_distance.told(w, "K_2,x", source, x, mu, length);
  const double nothing = given(w, "K_2,far", "beyond its reach: no speed-up", 0.0, source);
  const double k2 =
      greatest<double>(w, "K_2", "distance from the crest", source, {as("K_2,x", fading), as("K_2,far", nothing)});
  const double k3 = formulas::hill_by_height.told(w, "K_3", source, gamma, h, length);
  return {formulas::topographic_factor.told(w, "K_zt", source, k1, k2, k3),
          formulas::topographic_factor_at_ground.told(w, "K_zt,0", source, k1, k2)};
}

// A hill or ridge as the wind from its far side sees it.
static Hill from_the_far_side(const Hill& hill) {
  Hill turned = hill;
  if (hill.behind_to_half_height > zero<Length>()) turned.to_half_height = hill.behind_to_half_height;
  turned.past_crest = -hill.past_crest;
  return turned;
}
static bool counts_from_a_side(const Table& t, const Hill& hill, const std::string& exposure) {
  return counts(t, hill, exposure) ||
         (hill.shape != HillShape::escarpment && counts(t, from_the_far_side(hill), exposure));
}
// From the side that is the worse; an escarpment has one slope.
static Hill worse_side(const Table& t, const Hill& hill, const std::string& exposure, Length h) {
  if (hill.shape == HillShape::escarpment) return hill;
  Hill other = from_the_far_side(hill);
  const SpeedUp here = speed_up_as_stated(t, hill, exposure, h, nullptr),
                there = speed_up_as_stated(t, other, exposure, h, nullptr);
  return there.at_roof > here.at_roof ? other : hill;
}
SpeedUp speed_up(const Table& t, const Hill& hill, const std::string& exposure, Length h, Working* w) {
  return speed_up_as_stated(t, worse_side(t, hill, exposure, h), exposure, h, w);
}

// ---- the gust ------------------------------------------------------------------------------------------------------

// The pressure by an edition's own form, from the factors that it has besides those of exposure and hill.
namespace {
struct Factors {
  Speed v;
  Density c;
  double directionality, last;  // last: importance or height of the ground, where the form has one
};
}  // namespace
static double last_factor(const WindAsk& ask, Working* w) {
  const Table& t = ask.table;
  const AsceSite& site = asked(ask);
  const std::string& form = t.text("velocity", "form");
  if (form == "with importance")
    return figure<double>(w, t, "importance", site.risk, "I", "importance of the building");
  if (form != "with ground height") return 1.0;
  if (!site.ground_level) return figure<double>(w, t, "ground", "K_e", "K_e", "height of the ground above the sea");
  const Length z = given(w, "z_e", "height of the ground above the sea", *site.ground_level, site.at);
  const double n = figure<double>(w, t, "ground_height", "exponent", "n_e", "exponent over that height");
  const Length over = figure<Length>(w, t, "ground_height", "over", "l_e", "height that the exponent is for");
  return formulas::ground_factor.told(w, "K_e", w ? t.source("ground_height") : std::string(), n, z, over);
}
static Pressure velocity(const WindAsk& ask, const Factors& f, const As<double>& kh, const As<double>& kzt,
                         std::string_view symbol, std::string_view own_words, Working* w) {
  const Table& t = ask.table;
  const std::string source = w ? t.source("velocity") : std::string();
  const std::string& form = t.text("velocity", "form");
  const auto said = [&](const auto& formula) { return own_words.empty() ? formula.words : own_words; };
  if (form == "with importance") {
    const auto& sum = formulas::velocity_pressure_importance;
    return sum.told_as(w, symbol, said(sum), source, f.c, kh, kzt, f.directionality, f.v, f.last);
  }
  if (form == "with ground height") {
    const auto& sum = formulas::velocity_pressure_ground;
    return sum.told_as(w, symbol, said(sum), source, f.c, kh, kzt, f.directionality, f.last, f.v);
  }
  const auto& sum = formulas::velocity_pressure;
  return sum.told_as(w, symbol, said(sum), source, f.c, kh, kzt, f.directionality, f.v);
}

// What an engineer typed in stands for all three.
static std::optional<Pressure> typed_pressure(const WindAsk& ask, Working* w) {
  const AsceSite& site = asked(ask);
  if (site.typed.pressure)
    return given(w, "q_h", "pressure of the gust, typed in by an engineer", *site.typed.pressure, site.at);
  if (!site.typed.gust) return std::nullopt;
  const Speed v = given(w, "V_h", "gust at roof height, typed in by an engineer", *site.typed.gust, site.at);
  const Density c = figure<Density>(w, ask.table, "velocity", "constant", "c", "half the density of air");
  return formulas::pressure_of_typed_gust.told(w, "q_h", w ? ask.table.source("velocity") : std::string(), c, v);
}

// On a hill the walls that the wind meets take the speed-up at the ground together with the exposure factor at roof
// height: at no height is the true product greater. On flat ground that is q_h itself. The gables reach higher: they
// take the factor at their peak.
Gust gust(const WindAsk& ask, Length h, Procedure procedure, Working* w) {
  const Table& t = ask.table;
  const AsceSite& site = asked(ask);
  if (const auto typed = typed_pressure(ask, w)) {
    const auto q = as("q_h", *typed);
    return {q, q, q, q};
  }
  const Speed v = given(w, "V", "speed of the gust", site.speed, site.at);
  const Exposure k = exposure(ask, h, procedure, w);
  const Density c = figure<Density>(w, t, "velocity", "constant", "c", "half the density of air");
  SpeedUp hill{};
  if (site.hill) hill = speed_up(t, *site.hill, site.exposure, h, w);
  else hill.at_roof = hill.at_ground = figure<double>(w, t, "topography", "K_zt", "K_zt", "hills: flat ground");
  const double kd =
      figure<double>(w, t, "directionality", "K_d", "K_d", "the worst wind seldom comes from the worst way");
  const Factors f{v, c, kd, last_factor(ask, w)};
  const auto kzt = as("K_zt", hill.at_roof);
  const auto at_roof = [&](Working* telling) { return velocity(ask, f, k.main, kzt, "q_h", "", telling); };
  const auto main = as("q_h", at_roof(nullptr));
  Gust all{main, main, main, main};
  if (procedure == Procedure::directional) {
    const auto at_ground = hill.at_ground > hill.at_roof ? as("K_zt,0", hill.at_ground) : kzt;
    if (hill.at_ground > hill.at_roof)
      all.windward =
          as("q_w", velocity(ask, f, k.main, at_ground, "q_w", "pressure of the gust on the walls that it meets", w));
    all.gable = all.windward;
    if (k.gable.name != k.main.name)
      all.gable =
          as("q_g", velocity(ask, f, k.gable, at_ground, "q_g", "pressure of the gust on the gable that it meets", w));
    if (k.components.name != k.main.name)
      all.components =
          as("q_c", velocity(ask, f, k.components, kzt, "q_c", "pressure of the gust for components and cladding", w));
  }
  at_roof(w);  // told last: it is what the site ends with
  return all;
}

// Where the standard is silent about this kind of roof: the reading that was taken.
static void say_of_the_roof(const WindAsk& ask, Procedure procedure, std::vector<std::string>& all) {
  const Shape& s = ask.shape;
  if (one_slope(s))
    all.push_back("The mean height of a roof of one slope is taken half-way up it, at a low pitch too.");
  if (procedure == Procedure::directional) return;
  if (is_flat(ask)) all.push_back("The roof counts as flat: the wind from every side by both of the load cases.");
  if (has_hip_end(s))
    all.push_back(
        "Wind onto a hip end is taken along the ridge, and again as across it; a slope that the wind passes along "
        "lifts by the coefficients of a flat roof, or by those of the slopes across the wind where they lift more.");
  if (has_unlike_slopes(s))
    all.push_back(
        "Each slope takes the coefficients of its own pitch; a wall takes the worse of those of the slopes across the "
        "wind.");
}

static std::vector<std::string> cautions(const WindAsk& ask, Procedure procedure) {
  const Table& t = ask.table;
  const AsceSite& stated = asked(ask);
  std::vector<std::string> all;
  if (stated.typed.pressure) {
    all.push_back(
        "The pressure of the gust was typed in by an engineer; it is not worked out here. Exposure, hill and height of "
        "the ground as stated play no part.");
    if (stated.speed > zero<Speed>() && !stated.exposure.empty()) {
      AsceSite as_stated = stated;
      as_stated.typed = {};
      const SiteAsk site{std::move(as_stated)};
      const WindAsk flat{site, ask.house, ask.shape, t};
      if (*stated.typed.pressure < gust(flat, mean_height(flat, nullptr), procedure, nullptr).main.quantity)
        all.push_back("What was typed in is less than the stated speed gives in that exposure.");
    }
  } else if (stated.typed.gust)
    all.push_back(
        "The gust at roof height was typed in by an engineer; it is not worked out here. No factor for exposure, hill, "
        "height of the ground, direction or importance is set on it.");
  else if (!stated.hill) all.push_back("The ground is taken as flat: no hill, ridge or escarpment.");
  else if (!counts_from_a_side(t, *stated.hill, stated.exposure))
    all.push_back(fmt::format("The {} is too low or too gentle to count by {}: no speed-up.", words(stated.hill->shape),
                              t.source("hill_conditions")));
  else
    all.push_back(
        fmt::format("The {} is taken to speed up the wind from whichever side it comes. Whether others around it might "
                    "spare the house is not asked.",
                    words(stated.hill->shape)));
  if (!stated.typed.given() && stated.hill && stated.hill->shape != HillShape::escarpment)
    all.push_back(stated.hill->behind_to_half_height > zero<Length>()
                      ? fmt::format("Of the two sides of the {} the worse stands.", words(stated.hill->shape))
                      : fmt::format("The far side of the {} is taken to be no steeper than the stated one "
                                    "(to_half_height_behind would tell).",
                                    words(stated.hill->shape)));
  all.push_back(fmt::format("{} is superseded by {}. It is computed as the job asks.", t.method,
                            t.text("velocity", "superseded_by")));
  if (procedure == Procedure::envelope && t.edition == "7-05")
    all.push_back("Wind along the ridge is taken by the layout of ASCE 7-05 and by that of later editions.");
  if (procedure == Procedure::directional)
    all.push_back(
        "Load cases with torsion are left out: light-framed buildings of one or two storeys are exempt from them (from "
        "memory).");
  say_of_the_roof(ask, procedure, all);
  return all;
}

static Combination combination_of(const Table& t, const std::string& key) {
  return {t.text(key, "name"), t.source(key), t.number(key, "dead"), t.number(key, "wind")};
}

SiteWind site(const WindAsk& ask, Procedure procedure, Working* w) {
  const Table& t = ask.table;
  const AsceSite& stated = asked(ask);
  if (w && !w->first("the wind")) w = nullptr;  // told already
  if (w) w->heading("The wind");
  const Length h = mean_height(ask, w);
  const Pressure q = gust(ask, h, procedure, w).main.quantity;
  const Speed speed = stated.typed.gust.value_or(stated.speed);
  const auto on = [&](Side side) { return FaceWind{side, zero<Speed>(), q, ""}; };  // a basic speed blows on no face
  return {.method = t.method,
          .edition = t.edition,
          .wind_class = "",
          .given_by = stated.given_by,
          .gust = speed,
          .q = q,
          .cyclonic = false,
          .cautions = cautions(ask, procedure),
          .says = stated.exposure.empty() ? std::string() : "exposure " + stated.exposure,
          .typed_in = stated.typed.given(),
          .earthquake_may_govern = true,
          .faces = {on(Side::left), on(Side::front), on(Side::right), on(Side::back)},
          .combinations = {combination_of(t, stated.level), combination_of(t, stated.level + "_down")},
          .marks = gust_marks(ask)};
}

// ---- openings ------------------------------------------------------------------------------------------------------

// Where the job does not say whether it lies in a region of flying debris, the speed decides. A site without a speed
// (its pressure was typed in) may lie in one, and no rating is known to stand it.
static OpeningRule opening_rule(const WindAsk& ask) {
  const AsceSite& site = asked(ask);
  const Speed speed = site.speed;
  const bool known = speed > zero<Speed>();
  return {.wide = ask.table.get<Length>("wide_door", "width"),
          .debris = site.debris_region.value_or(!known || speed >= ask.table.get<Speed>("debris", "speed")),
          .covers = [speed, known](const std::string& rating) { return known && rated_for_speed(rating, speed); }};
}

bool partially_enclosed(const WindAsk& ask) {
  const Table& t = ask.table;
  const double of_others = t.number("partial_rule", "of_the_others"), of_wall = t.number("partial_rule", "of_the_wall");
  const double elsewhere = t.number("partial_rule", "most_elsewhere");
  const Area least_area = t.get<Area>("partial_rule", "least_area");
  const OpeningRule rule = opening_rule(ask);
  for (const Side side : all_sides) {
    const FaceOpenings wall = openings_in(ask, side, rule);
    Area others_open = zero<Area>(), others_gross = roof_on_slope(ask.shape);
    for (const Side other : all_sides) {
      if (other == side) continue;
      const FaceOpenings f = openings_in(ask, other, rule);
      others_open += f.stated_open;
      others_gross += f.gross;
    }
    const bool more_than_elsewhere = wall.may_be_open > of_others * others_open;
    const bool large = wall.may_be_open > std::min(least_area, of_wall * wall.gross);
    if (more_than_elsewhere && large && others_open <= elsewhere * others_gross) return true;
  }
  return false;
}

std::vector<Inside> insides(const WindAsk& ask) {
  std::vector<Inside> all{{"inside_enclosed", 1.0, "shut out", "shut, pushed out"},
                          {"inside_enclosed", -1.0, "shut in", "shut, sucked in"}};
  if (partially_enclosed(ask)) {
    all.push_back({"inside_partial", 1.0, "open out", "a door or opening open, pushed out"});
    all.push_back({"inside_partial", -1.0, "open in", "a door or opening open, sucked in"});
  }
  return all;
}

double inside_coefficient(const Table& t, const Inside& inside, Working* w) {
  const double greatest_inside =
      figure<double>(w, t, inside.key, "GC_pi", "GC_pi,0", "coefficient of inside pressure, either way");
  return given(w, "GC_pi",
               inside.sign > 0.0 ? "coefficient of inside pressure, pushing outwards"
                                 : "coefficient of inside pressure, sucking inwards",
               inside.sign * greatest_inside, w ? t.source(inside.key) : std::string());
}

// ---- square on walls -----------------------------------------------------------------------------------------------

Length end_zone(const Table& t, const Shape& s, Length h, Working* w) {
  const std::string source = w ? t.source("end_zone") : std::string();
  const bool blocks = s.whole_across > zero<Length>();
  const std::string_view whole = blocks ? ", of the whole house" : "";
  const Length across = given(w, "b_1", w ? fmt::format("plan across the sheet{}", whole) : std::string(),
                              blocks ? s.whole_across : s.across, "the job's block");
  const Length up = given(w, "b_2", w ? fmt::format("plan up the sheet{}", whole) : std::string(),
                          blocks ? s.whole_up : s.up, "the job's block");
  const Length plan = least<Length>(w, "b", "least plan dimension", "geometry", {as("b_1", across), as("b_2", up)});
  const double k1 = figure<double>(w, t, "end_zone", "of_plan", "k_1", "share of the plan");
  const double k2 = figure<double>(w, t, "end_zone", "of_height", "k_2", "share of the height");
  const double k3 = figure<double>(w, t, "end_zone", "least_of_plan", "k_3", "least share of the plan");
  const Length floor = figure<Length>(w, t, "end_zone", "least", "a_4", "least width");
  const Length by_plan = formulas::part_of_length.told(w, "a_1", source, as("k_1", k1), as("b", plan));
  const Length by_height = formulas::part_of_length.told(w, "a_2", source, as("k_2", k2), as("h", h));
  const Length least_by_plan = formulas::part_of_length.told(w, "a_3", source, as("k_3", k3), as("b", plan));
  const Length lesser =
      least<Length>(w, "a_0", "the lesser of the two", source, {as("a_1", by_plan), as("a_2", by_height)});
  return greatest<Length>(w, "a", "width of the end zone of a wall (of the roof: twice that)", source,
                          {as("a_0", lesser), as("a_3", least_by_plan), as("a_4", floor)});
}

static std::string wall_words(std::string_view column) {
  return column == "inward" ? "net coefficient of a wall that is pushed in"
                            : fmt::format("net coefficient of a wall that is pulled out, zone {}", column.back());
}
static WallColumns read_wall(const Table& t, std::string_view column, Area effective, Working* w,
                             std::string_view symbol) {
  const auto& areas = t.column("wall", "area");
  const std::string own(symbol), words = wall_words(column);
  const Place place = place_among(areas, effective);
  if (!place.between) {
    const double c = figure<double>(w, t, "wall", column, symbol, words, place.low);
    return {c, c, effective, effective, effective, false};
  }
  const double c1 = figure<double>(w, t, "wall", column, own + ",1", words + ", for the small area", place.low);
  const double c2 = figure<double>(w, t, "wall", column, own + ",2", words + ", for the large area", place.low + 1);
  const Area a1 = figure<Area>(w, t, "wall", "area", "A_1", "small area of the figure", place.low);
  const Area a2 = figure<Area>(w, t, "wall", "area", "A_2", "large area of the figure", place.low + 1);
  return {c1, c2, effective, a1, a2, true};
}

static double between_areas(const Table& t, const WallColumns& read, std::string_view column, Working* w,
                            std::string_view symbol) {
  if (!read.between) return read.low;
  const std::string own(symbol);
  Working* once = w && w->first("ratios of wall areas") ? w : nullptr;
  const double n = formulas::area_ratio.told_as(once, "n", "effective wind area over the small area of the figure",
                                                "geometry", as("A_e", read.here), as("A_1", read.at_low));
  const double n2 = formulas::area_ratio.told_as(once, "n_2", "large area of the figure over the small one", "geometry",
                                                 as("A_2", read.at_high), as("A_1", read.at_low));
  return formulas::logarithmic_in_area.told_as(
      w, symbol, w ? wall_words(column) + ": between two areas, by their logarithm" : std::string(),
      w ? t.source("wall") : std::string(), as(own + ",1", read.low), as(own + ",2", read.high), n, n2);
}
double wall_coefficient(const Table& t, std::string_view column, Area effective, Working* w, std::string_view symbol) {
  return between_areas(t, read_wall(t, column, effective, w, symbol), column, w, symbol);
}

// The wall by whose studs the effective area goes: of two floors the lower one, whose smaller area is pushed harder.
static As<Length> wall_of_studs(const WindAsk& ask, Working* w) {
  if (!ask.house.first) return walls_of(ask);
  const As<Length> ground = as("h_w,ground", ask.house.height), first = top_walls_of(ask);
  return as("h_stud",
            least<Length>(w, "h_stud", "height of a stud, the lesser of both floors': a smaller area is pushed harder",
                          "the safe one", {ground, first}));
}
WallFigures read_walls(const WindAsk& ask, Working* w) {
  const Table& t = ask.table;
  // The bare sum: told by wall_pressures, once all has been read.
  const Area effective = formulas::effective_wind_area(nullptr, wall_of_studs(ask, nullptr));
  const WallColumns in = read_wall(t, "inward", effective, w, "GC_p,in");
  const WallColumns middle = read_wall(t, "out4", effective, w, "GC_p,out4");
  const WallColumns end = read_wall(t, "out5", effective, w, "GC_p,out5");
  return {in, middle, end, figure<Pressure>(w, t, "wall_minimum", "least", "p_least", "least pressure on a wall")};
}

WallPressures wall_pressures(const WindAsk& ask, const WallFigures& read, const As<Pressure>& q, double inside,
                             Working* w) {
  const Table& t = ask.table;
  const std::string source = w ? t.source("wall") : std::string();
  formulas::effective_wind_area.told(w, "A_e", source, wall_of_studs(ask, w));
  const double in = between_areas(t, read.in, "inward", w, "GC_p,in");
  const Pressure pushed = formulas::pushed_in.told(w, "p_in", source, q, as("GC_p,in", in), inside);
  const auto square_on = [&](const std::string& zone, const WallColumns& columns) {
    const std::string symbol = "GC_p,out" + zone, out_symbol = "p_out" + zone;
    const double out = between_areas(t, columns, "out" + zone, w, symbol);
    const Pressure pulled = formulas::pulled_out.told_as(
        w, out_symbol, w ? "pressure square on the wall, outwards, zone " + zone : std::string(), source, q, inside,
        as(symbol, out));
    return greatest<Pressure>(
        w, "p_sq," + zone,
        w ? "pressure square on the wall, zone " + zone + ": the greatest of in, out and least" : std::string(), source,
        {as("p_in", pushed), as(out_symbol, pulled), as("p_least", read.least)});
  };
  const Pressure middle = square_on("4", read.middle);
  return {middle, square_on("5", read.end)};
}

std::vector<SquareOn> square_on(const Shape& s, Length a, const WallPressures& p) {
  std::vector<SquareOn> all;
  for (const Side side : all_sides) {
    const Length length = length_of(s, side), none = zero<Length>();
    const Length end = std::min(a, 0.5 * length);
    all.push_back({side, none, end, p.end, "5"});
    if (end < length - end) all.push_back({side, end, length - end, p.middle, "4"});
    all.push_back({side, length - end, length, p.end, "5"});
  }
  return all;
}

// ---- load cases ----------------------------------------------------------------------------------------------------

Combination combination(const WindAsk& ask) { return combination_of(ask.table, asked(ask).level); }
Combination down(const WindAsk& ask) { return combination_of(ask.table, asked(ask).level + "_down"); }
Marks down_marks(const WindAsk& ask) { return ask.table.mark(asked(ask).level + "_down"); }
std::string_view on_floors(const WindAsk& ask) {
  return basis(ask) == Basis::allowable ? "allowable_floor" : "strength_floor";
}
Basis basis(const WindAsk& ask) { return asked(ask).level == "allowable" ? Basis::allowable : Basis::limit_state; }

static std::string_view limits_of(Procedure p) { return p == Procedure::directional ? "directional_limits" : "limits"; }
static std::string_view minimum_of(Procedure p) {
  return p == Procedure::directional ? "directional_minimum" : "minimum";
}

Marks gust_marks(const WindAsk& ask) {
  const Table& t = ask.table;
  const AsceSite& site = asked(ask);
  Marks m = t.mark("mean_height");
  if (site.typed.pressure) return m;
  m |= t.mark("velocity");
  if (site.typed.gust) return m;
  m |= t.mark("exposure_" + site.exposure) | t.mark("directionality") | t.mark("height_factor");
  const std::string& form = t.text("velocity", "form");
  if (form == "with importance") m |= t.mark("importance");
  if (form == "with ground height") m |= t.mark(site.ground_level ? "ground_height" : "ground");
  if (!site.hill) return m | t.mark("topography");
  m |= t.mark("hill_conditions");
  return m | (counts_from_a_side(t, *site.hill, site.exposure) ? t.mark("hill_steep") | t.mark(key_of(site.hill->shape))
                                                               : t.mark("topography"));
}
Marks common_marks(const WindAsk& ask, Procedure procedure) {
  return gust_marks(ask) | ask.table.mark(limits_of(procedure)) | ask.table.mark(asked(ask).level);
}
Marks inside_marks(const Table& t, const Inside& inside) {
  return t.mark(inside.key) | t.mark("partial_rule") | t.mark("debris");
}

LoadCase least_wind(const WindAsk& ask, Procedure procedure, Way towards, std::size_t layout, Working* w) {
  const Table& t = ask.table;
  const std::string_view key = minimum_of(procedure);
  const std::string side(words(windward(towards)));
  if (w) w->heading("The pressures");
  const Pressure wall =
      figure<Pressure>(w, t, key, "wall", "p_least,wall", "least pressure on the walls that the wind sees");
  const Pressure roof =
      figure<Pressure>(w, t, key, "roof", "p_least,roof", "least pressure on the roof's vertical projection");
  const Pressure still =
      given(w, "p_none", "the roof is not lifted in this case", zero<Pressure>(), w ? t.source(key) : std::string());
  const Pressure square =
      figure<Pressure>(w, t, "wall_minimum", "least", "p_sq,least", "least pressure square on a wall");
  LoadCase c{.id = side + " least",
             .wind = "onto the " + side + ", least wind",
             .inside = "any",
             .combination = combination(ask),
             .layout = layout,
             .net = std::vector<Pressure>(ask.shape.surfaces.size(), still),
             .push = {},
             .square_on = {},
             .marks = 0,
             .marks_net = t.mark(asked(ask).level),
             .marks_push = t.mark(key) | t.mark(asked(ask).level),
             .marks_square_on = t.mark("wall_minimum") | t.mark(asked(ask).level),
             .down = down(ask),
             .marks_down = down_marks(ask)};
  c.marks = c.marks_net | c.marks_push | c.marks_square_on;
  for (const Elevation& e : ask.shape.elevations) {
    if (e.side != windward(towards)) continue;
    const bool of_roof = e.part == ElevationPart::roof;
    c.push.push_back({towards, e.outline, of_roof ? roof : wall, of_roof ? "least,roof" : "least,wall",
                      fmt::format("{}, least load", words(e.part)), Acts::on_both_faces});
  }
  for (const Side s : all_sides) c.square_on.push_back({s, zero<Length>(), length_of(ask.shape, s), square, "least"});
  return c;
}
Layout not_lifted(const Shape& s) {
  Layout layout{"roof not lifted", {}};
  for (std::size_t i = 0; i < s.surfaces.size(); ++i) layout.zones.push_back({i, s.surfaces[i].outline, "none"});
  return layout;
}

std::vector<Excess> limits_passed(const WindAsk& ask, Procedure procedure, Length h) {
  const Table& t = ask.table;
  const Shape& s = ask.shape;
  const std::string_view key = limits_of(procedure);
  std::vector<Excess> passed;
  const auto no_more = [&](std::string limit, auto has, auto greatest) {
    if (has > greatest) passed.push_back({std::move(limit), "at most", t.source(key), value(has), value(greatest)});
  };
  no_more("mean roof height", h, t.get<Length>(key, "height"));
  no_more("mean roof height, against the least plan dimension", h,
          t.number(key, "height_to_width") *
              (s.whole_across > zero<Length>() ? std::min(s.whole_across, s.whole_up) : std::min(s.across, s.up)));
  no_more("roof pitch", steepest(s), t.get<Angle>(key, "pitch"));
  if (procedure == Procedure::envelope && one_slope(s) && !is_flat(ask))
    passed.push_back({"roof shape", "at most", t.source(key), value(s.pitch), value(t.get<Angle>(key, "flat_pitch")),
                      "the envelope procedure does not show roofs of one slope steeper than flat; the directional "
                      "procedure does"});
  return passed;
}

}  // namespace belay::asce7
