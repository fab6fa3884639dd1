// Every formula of the program on one list, tests/approved/formulas.txt, which somebody who knows the subject reads and
// approves. A formula that is new, or told otherwise than approved, fails here.
#include "capacity/formulas.hpp"
#include "capacity/formulas_concrete.hpp"
#include "capacity/formulas_perforated.hpp"
#include "capacity/formulas_steel.hpp"
#include "judge/formulas.hpp"
#include "load_path/formulas.hpp"
#include "load_path/formulas_ceiling.hpp"
#include "load_path/formulas_ground.hpp"
#include "load_path/formulas_least.hpp"
#include "load_path/formulas_press.hpp"
#include "load_path/formulas_roof_bracing.hpp"
#include "load_path/formulas_valley.hpp"
#include "load_path/formulas_veranda.hpp"
#include "text_files.hpp"
#include "wind/formulas.hpp"
#include "wind/formulas_as_nzs.hpp"
#include "wind/formulas_asce.hpp"
#include "wind/formulas_en.hpp"
#include "wind/formulas_site.hpp"
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>

using namespace belay;

namespace {

const std::filesystem::path approved_file = std::filesystem::path(BELAY_SOURCE_DIR) / "tests/approved/formulas.txt";

// Any quantities of the right kinds.
const Pressure p = Pressure::from_value(900.0);
const Area a = Area::from_value(3.5);
const Length l = metre;
const Angle angle = Angle::from_value(0.4);
const Force f = Force::from_value(5000.0);
const LineLoad rate = LineLoad::from_value(6000.0);
const Speed v = Speed::from_value(50.0);
const Density air = Density::from_value(1.2);
const WeightDensity concrete = WeightDensity::from_value(24000.0);
const double n = 0.8;

struct Listed {
  std::string room, name;
  Step step;
};
class List {
 public:
  std::vector<Listed> all;
  std::string room;
  template <class F, class... T> void add(std::string name, const F& formula, const T&... operand) {
    Working w;
    formula(&w, operand...);
    REQUIRE(w.steps.size() == 1);
    all.push_back({room, std::move(name), w.steps.front()});
  }
};

// In the order of the headers. The name is written once.
#define FORMULA(name, ...) list.add(#name, formulas::name, __VA_ARGS__)
std::vector<Listed> formulas_of_the_program() {
  List list;
  list.room = "wind";
  FORMULA(pressure_of, n, p);
  FORMULA(linear_in_pitch, n, n, angle, angle, 2.0 * angle);
  FORMULA(walls_of_two_floors, l, l, l);
  FORMULA(rise_of_ridge, l, angle);
  FORMULA(half_way_up, l, l, l);
  FORMULA(top_of_walls, l, l);
  FORMULA(underside_of_eaves, l, l, l, angle);
  FORMULA(gust_pressure, air, v);
  FORMULA(half_wall, l);
  FORMULA(half_rise_above, l, l);
  FORMULA(height_to_depth, l, l);
  FORMULA(roof_elevation, l, l, l);
  FORMULA(roof_over_breadth, a, l);
  FORMULA(linear_in_height, n, n, n, n, 2.0 * n);
  FORMULA(slopes_together, n, n, -n);
  FORMULA(low_pitch_share, n, angle, angle, 2.0 * angle);
  FORMULA(racking_pressure, p, n, l, n, l);
  FORMULA(height_over_gradient, l, l);
  FORMULA(exposure_factor, n, n, 7.0);
  FORMULA(velocity_pressure, air, n, n, n, v);
  FORMULA(velocity_pressure_importance, air, n, n, n, v, n);
  FORMULA(velocity_pressure_ground, air, n, n, n, n, v);
  FORMULA(part_of_length, n, l);
  FORMULA(outside_pressure, p, n);
  FORMULA(inside_pressure, p, n);
  FORMULA(net_of_inside, p, p);
  FORMULA(effective_wind_area, l);
  FORMULA(area_ratio, a, a);
  FORMULA(logarithmic_in_area, n, n, 3.0, 50.0);
  FORMULA(pushed_in, p, n, n);
  FORMULA(pulled_out, p, n, n);
  // formulas_as_nzs.hpp
  FORMULA(upwind_by_sine, n, angle);
  FORMULA(downwind_by_breadth, 0.06, 7.0, 3.0);
  FORMULA(openings_ratio, a, a);
  FORMULA(inside_by_face, n, n);
  FORMULA(inside_by_face_and_factors, n, n, n, n);
  FORMULA(factors_together, n, n);
  FORMULA(outside_alone, p, n, n);
  FORMULA(outside_less_inside, p, n, -n, n, n);
  FORMULA(near_a_corner, n, n);
  FORMULA(square_in, p, n, n, -n);
  FORMULA(square_out, p, n, n, -n);
  FORMULA(local_reach, n, l);
  // formulas_asce.hpp
  FORMULA(rise_over_length, l, l);
  FORMULA(length_of_steep_hill, l, n);
  FORMULA(hill_at_crest, n, n);
  FORMULA(hill_by_distance, l, 1.5, 3.0 * l);
  FORMULA(hill_by_height, 3.0, l, 5.0 * l);
  FORMULA(topographic_factor, n, n, n);
  FORMULA(topographic_factor_at_ground, n, n);
  FORMULA(ground_factor, n, l, l);
  FORMULA(height_of_ridge, l, l, l);
  FORMULA(pressure_of_typed_gust, air, v);
  FORMULA(length_over_breadth, l, l);
  FORMULA(height_over_length, l, l);
  FORMULA(linear_in_ratio, n, n, n, n, 2.0 * n);
  FORMULA(outside_with_gust_effect, p, n, n);
  // formulas_en.hpp
  FORMULA(top_of_roof, l, l, l);
  FORMULA(top_of_high_edge, l, l, l, l, angle);
  FORMULA(basic_velocity, n, n, n, v);
  FORMULA(terrain_factor, n, l, 2.0 * l, n);
  FORMULA(roughness_factor, n, 5.0 * l, l);
  FORMULA(mean_velocity, n, n, v);
  FORMULA(turbulence, n, n, 5.0 * l, l);
  FORMULA(peak_velocity_pressure, n, n, air, v);
  FORMULA(peak_velocity, v, n, n);
  FORMULA(velocity_of_pressure, v, p, air);
  FORMULA(length_ratio, l, l);
  FORMULA(length_over, l, n);
  FORMULA(second_degree, n, n, n, n);
  FORMULA(third_degree, n, n, n, n, n);
  FORMULA(fourth_degree, n, n, n, n, n, n);
  FORMULA(logarithm, n);
  FORMULA(location_by_distance, n, n, l, l);
  FORMULA(location_past_cliff, n, n, n, n);
  FORMULA(location_between, n, n, n, n);
  FORMULA(orography_gentle, n, n, n);
  FORMULA(orography_steep, n, n);
  FORMULA(peak_pressure_on, p, n);
  FORMULA(peak_pressure_inside, p, n);
  FORMULA(not_met_at_once, n, p, n);
  FORMULA(inside_of_dominant, n, n);
  FORMULA(share_of_dominant, n, n, 2.5, 2.0, 3.0);
  FORMULA(square_on_inwards, p, n, n);
  FORMULA(square_on_outwards, p, n, n);
  FORMULA(swept_length, 2.0 * l, l);
  FORMULA(highest_wall, l, l);
  FORMULA(swept_area, l, l, l, angle);
  FORMULA(friction_as_pressure, p, n, a, l, l);
  // formulas_site.hpp
  FORMULA(regional_gust, v, 0.5 * v, 500.0, 0.1);
  FORMULA(between_heights_above_ground, n, n, l, l, 2.0 * l);
  FORMULA(half_way_between_terrains, n, n);
  FORMULA(spacing_of_buildings, l, 10.0, 5.0, 5.0);
  FORMULA(shielding_parameter, l, l, l);
  FORMULA(between_spacings, n, n, n, n, 2.0 * n);
  FORMULA(hill_slope, l, l);
  FORMULA(hill_length, n, l);
  FORMULA(hill_shape, l, 3.5, l, l, l, 2.0 * l);
  FORMULA(steep_crest, n, l, 2.0 * l);
  FORMULA(high_ground, n, l, 2.0 * l);
  FORMULA(hill_on_high_ground, n, n);
  FORMULA(site_gust, v, n, n, n, n, n);
  FORMULA(bearing_of_face, angle, angle);
  FORMULA(left_end, angle, angle);
  FORMULA(right_end, angle, angle);
  FORMULA(share_of_step, angle, angle, 2.0 * angle);
  FORMULA(between_directions, v, v, n);
  FORMULA(service_gust, v, v, n, v, n);
  FORMULA(gust_of_pressure, p, air);
  list.room = "capacity";
  FORMULA(design_from_phi, n, f);
  FORMULA(design_from_gamma, f, n);
  FORMULA(rate_from_phi, n, rate);
  FORMULA(rate_from_gamma, rate, n);
  FORMULA(strap_angle, l, l);
  FORMULA(strap_reach, l, angle);
  FORMULA(strap_racking, f, angle);
  FORMULA(height_factor, l, l);
  FORMULA(between_heights, n, n, l, l, 2.0 * l);
  FORMULA(sheet_racking, rate, l, n);
  FORMULA(lining_racking, rate, l);
  // formulas_concrete.hpp
  FORMULA(anchor_steel_pull, a, p);
  FORMULA(anchor_steel_slide, n, a, p);
  FORMULA(times_yield, n, p);
  FORMULA(cone_reach, n, l);
  FORMULA(half_way, l);
  FORMULA(cone_area, l, l, l, l);
  FORMULA(whole_cone, l);
  FORMULA(beside_edge, n, n, l, l);
  FORMULA(cone_aci, n, p, l, n);
  FORMULA(cone_en, n, p, l, n);
  FORMULA(shell, n, l, l);
  FORMULA(cone, a, a, n, n, f);
  FORMULA(pull_out_of_head, n, n, a, p);
  FORMULA(pull_out_of_hook, n, n, p, l, l);
  FORMULA(blow_out_aci, n, l, a, p);
  FORMULA(blow_out_corner, l, l, n);
  FORMULA(blow_out_shared, l, l, n, l);
  FORMULA(blow_out_here, n, n, f);
  FORMULA(blow_out_en, n, l, a, p);
  FORMULA(times_edge, n, l);
  FORMULA(below_head, 2.0 * l, l);
  FORMULA(face_area, l, l, l, l);
  FORMULA(blow_out, a, a, n, f);
  FORMULA(counted_length, n, l);
  FORMULA(edge_aci, n, l, l, n, p, l, n);
  FORMULA(edge_aci_most, n, p, l, n);
  FORMULA(edge_power, n, l, l, n);
  FORMULA(edge_en, n, l, n, l, n, p, l, n);
  FORMULA(narrow, l, n);
  FORMULA(edge_area, l, l, l);
  FORMULA(whole_edge, l);
  FORMULA(thin_slab, l, l);
  FORMULA(edge, a, a, n, n, n, f);
  FORMULA(shared_in_line, f, n);
  FORMULA(pry_out, n, f);
  FORMULA(by_phi, n, f);
  FORMULA(by_gamma, f, n);
  FORMULA(gamma_of_concrete, n, n);
  FORMULA(gamma_of_steel, n, p, p);
  // formulas_perforated.hpp
  FORMULA(narrow_by_length, n, l, l);
  FORMULA(narrow_by_eighths, n, n, l, l);
  FORMULA(narrow_sheet, n, f);
  FORMULA(length_that_counts, n, l);
  FORMULA(opening_area, l, l);
  FORMULA(sheeted_part, a, l, l);
  FORMULA(perforated_factor, n, 2.0 * l, l);
  FORMULA(perforated_racking, rate, n, l);
  FORMULA(perforated_shear, f, n, l);
  FORMULA(perforated_pull, rate, l, l, l);
  FORMULA(perforated_uplift, rate, l);
  FORMULA(perforated_slide, rate, l, n);
  FORMULA(stiffness_of_length, SheetStiffness::from_value(8e5), l);
  // formulas_steel.hpp
  FORMULA(thin_steel_strength, n, p);
  FORMULA(gross_yield, p, l, l);
  FORMULA(net_width, l, n, l);
  FORMULA(net_rupture, p, l, l);
  FORMULA(part_of_rupture, n, f);
  FORMULA(strength_by_phi, n, f);
  FORMULA(strength_by_omega, f, n);
  FORMULA(screw_tilts, n, p, l, l);
  FORMULA(bearing_of_thin, 3.0 * n, n, l, l);
  FORMULA(screw_bears, n, p, l, l);
  FORMULA(thickness_ratio, l, l);
  FORMULA(between_thicknesses, f, 2.0 * f, n, 2.0 * n, 3.0 * n);
  FORMULA(clear_to_edge, l, l);
  FORMULA(clear_to_next, 2.0 * l, l);
  FORMULA(screw_tears, n, p, l, l);
  FORMULA(screw_itself, f, n);
  FORMULA(screw_pulls_out, n, p, l, l);
  FORMULA(head_pulls_through, n, p, l, l);
  FORMULA(screw_group, n, f);
  FORMULA(width_of_one, l, n);
  FORMULA(of_one_row, n, l, l);
  list.room = "load_path";
  FORMULA(loaded_area, l, l, l);
  FORMULA(half_of_plan, a);
  FORMULA(area_share, 5.0 * a, a, 9.0 * a);
  FORMULA(area_share_by_logarithm, 5.0 * a, a, 9.0 * a);
  FORMULA(pressure_for_area, p, p, n);
  FORMULA(lift_near, p, a, l, l, l, angle);
  FORMULA(lift_far, p, a, l, l, l, angle);
  FORMULA(lift_square, p, a, l, l);
  FORMULA(lift_askew, p, a, l, l, n, l, angle);
  FORMULA(lift_soffit, p, a, l, l);
  FORMULA(weight_on_bearing, p, a, l, l);
  FORMULA(beam_lift, p, a, n);
  FORMULA(beam_lift_soffit, p, a, n);
  FORMULA(beam_weight, p, a, n);
  FORMULA(weight_on_plan, p, angle);
  FORMULA(outrigger, f, l, l);
  FORMULA(carried_over, f, l, l);
  FORMULA(net_uplift, n, f, n, f);
  FORMULA(recess_lifts, n, p, l, l, l, l);
  FORMULA(recess_tips, n, p, l, l, l, l);
  FORMULA(recess_on_beam, n, p, l, l, n);
  FORMULA(tipped_by_weight, n, f);
  FORMULA(face_turns, n, p, l, l, l);
  FORMULA(handed_on, f, l, l);
  FORMULA(net_press, n, f, n, f);
  FORMULA(held_at_its_head, n, p, a, n, angle);
  FORMULA(racking_share, n, p, a, 2.0 * l, l, 0.0 * l);
  FORMULA(racking_share_upper, n, p, a, l, 0.0 * l, 2.0 * l);
  FORMULA(racking_share_against, n, p, a, 2.0 * l, l, 0.0 * l);
  FORMULA(racking_share_upper_against, n, p, a, l, 0.0 * l, 2.0 * l);
  FORMULA(handed_down, n, f);
  FORMULA(half_of, n, f);
  FORMULA(lining_counted, f, f, f);
  FORMULA(brace_share, f, f, f);
  FORMULA(tipping_arm, l, l, l);
  FORMULA(tipping_height, l, l);
  FORMULA(tipping_pull, f, l, l);
  FORMULA(brace_weight, p, l, l);
  FORMULA(weight_relief, n, f, l, l, l);
  FORMULA(tip_less_weight, f, f);
  FORMULA(lever_left, 2.0 * l, l, 0.0 * l);
  FORMULA(lever_right, l, 0.0 * l, 2.0 * l);
  FORMULA(lever_past, l, l);
  FORMULA(landed, n, f);
  FORMULA(slide_share, f, n);
  FORMULA(pushed_square_on, n, p, l, l);
  FORMULA(resultant, f, f);
  FORMULA(along_bracket, f, l, l);
  FORMULA(floor_push, n, p, a);
  FORMULA(floor_push_against, n, p, a);
  FORMULA(relative_stiffness, f, f);
  FORMULA(part_of_centre, n, l);
  FORMULA(centre_of_stiffness, l, n);
  FORMULA(stiffness_against_turning, n, l, 0.5 * l);
  FORMULA(turning, f, l, 0.5 * l);
  FORMULA(turning_back, f, l, 0.5 * l);
  FORMULA(share_by_stiffness, f, n);
  FORMULA(share_of_turning, f * l, n, l, 0.5 * l, a);
  FORMULA(edge_section, l, l);
  FORMULA(edge_section_with_slab, l, l, l, l);
  FORMULA(edge_length, 2.0 * l, l);
  FORMULA(edge_weight, concrete, a, l);
  FORMULA(footing_weight, concrete, l, l, l);
  FORMULA(weight_that_holds, n, f);
  FORMULA(subfloor_holds, n, f);
  FORMULA(push_tips, f, l);
  FORMULA(slab_weight, concrete, l, l, l);
  FORMULA(edges_round, 2.0 * l, l, 0.5 * l);
  FORMULA(weight_of_edges, concrete, l, 2.0 * l, l, l);
  FORMULA(weight_of_floor, p, l, l);
  FORMULA(weight_of_walls, p, a);
  FORMULA(weight_on_ground, n, f, f);
  FORMULA(held_by_friction, n, f);
  FORMULA(weight_about_edge, n, f, l);
  FORMULA(walls_about_edge, n, p, a * l);
  FORMULA(of_even_share, n, f, n);
  FORMULA(of_outside_wall, rate, l);
  FORMULA(tip_pressing, f, 2.0 * n, n);
  FORMULA(pressing_width, l, l);
  FORMULA(wall_presses, n, p, l, l);
  FORMULA(face_on_wall, n, l, angle);
  FORMULA(floor_load, n, p, n, p);
  FORMULA(floor_presses, p, l, l);
  FORMULA(gable_to_slope, n, p, a);
  FORMULA(gable_to_slope_against, n, p, a);
  FORMULA(hip_end_to_slope, n, p, a);
  FORMULA(hip_end_to_slope_against, n, p, a);
  FORMULA(hip_end_whole, n, p, a);
  FORMULA(hip_end_whole_against, n, p, a);
  FORMULA(swept_to_slope, n, p, a);
  FORMULA(swept_to_slope_against, n, p, a);
  FORMULA(wing_to_slope, n, p, a);
  FORMULA(wing_to_slope_against, n, p, a);
  FORMULA(up_the_slope, l, angle);
  FORMULA(angle_to_ridge, l, l);
  FORMULA(even_share, f, n);
  FORMULA(share_by_strength, f, f, f);
  FORMULA(strap_tension, f, angle);
  FORMULA(straps_alike, n, f);
  FORMULA(slope_holds, f, angle);
  FORMULA(pull_up_the_slope, f, angle);
  FORMULA(foot_across, f, angle);
  FORMULA(foot_lift, f, angle);
  FORMULA(valley_lift, p, a);
  FORMULA(valley_weight, p, a);
  FORMULA(veranda_lift_at_wall, p, l, l, l, angle);
  FORMULA(veranda_lift_at_beam, p, l, l, l, angle);
  FORMULA(veranda_weight_at_wall, p, l, l, l);
  FORMULA(veranda_weight_at_beam, p, l, l, l);
  list.room = "judge";
  FORMULA(use_of_force, f, f);
  FORMULA(use_of_moment, f * l, f * l);
  FORMULA(use_of_length, l, l);
  FORMULA(turns_the_ceiling, f, l);
  FORMULA(sum_of_two, n, n);
  FORMULA(sum_of_three, n, n, n);
  FORMULA(powers_of_two, n, n, n);
  FORMULA(powers_of_three, n, n, n, n);
  return std::move(list.all);
}
#undef FORMULA

constexpr std::string_view header =
    "# Every formula of the program, as its workings print it: name: symbol = text  [source]. What each yields is "
    "said\n"
    "# below it. A source in the form \"the fixing's sheet\" or of a whole standard is replaced by the clause when "
    "told.\n"
    "# For whoever answers for the engineering: read each changed line against its source before you approve it.\n"
    "# The list is compared by tests/formulas_test.cpp. To approve the present formulas write it anew:\n"
    "#   BELAY_APPROVE=1 belay_tests \"formulas: the list is the approved one\"\n"
    "# and commit the file with the change that made it different.\n";

std::string listing(const std::vector<Listed>& all) {
  std::string text(header), room;
  for (const Listed& x : all) {
    if (x.room != room) text += fmt::format("\n[{}]\n", room = x.room);
    text +=
        fmt::format("{}: {} = {}  [{}]\n    {}\n", x.name, x.step.symbol, x.step.formula, x.step.source, x.step.words);
  }
  return text;
}

}  // namespace

TEST_CASE("formulas: the list is the approved one") {
  const std::string now = listing(formulas_of_the_program());
  if (std::getenv("BELAY_APPROVE")) std::ofstream(approved_file, std::ios::binary) << now;
  const std::string approved = test::read_file(approved_file);
  std::istringstream a1(now), a2(approved);
  for (std::string is, was; std::getline(a1, is);) {
    std::getline(a2, was);
    REQUIRE(is == was);
  }
  CHECK(now == approved);
}

TEST_CASE("formulas: none is missing from the list") {
  std::map<std::string, std::vector<std::string>> listed, written;
  for (const Listed& x : formulas_of_the_program()) listed[x.room].push_back(x.name);
  const std::regex definition(R"(auto\s+(\w+)\s*=\s*formula<)");
  std::set<std::filesystem::path> files;  // in the order of their names
  for (const auto& file :
       std::filesystem::recursive_directory_iterator(std::filesystem::path(BELAY_SOURCE_DIR) / "src"))
    files.insert(file.path());
  for (const auto& file : files) {
    if (file.extension() != ".hpp" && file.extension() != ".cpp") continue;
    const std::string text = test::read_file(file);
    for (std::sregex_iterator i(text.begin(), text.end(), definition), end; i != end; ++i) {
      INFO(file);
      CHECK(file.filename().string().starts_with("formulas"));  // so that a reader finds them all
      written[file.parent_path().filename().string()].push_back((*i)[1]);
    }
  }
  CHECK(written == listed);
}

TEST_CASE("formulas: each says in words what it yields, and where it is from") {
  for (const Listed& x : formulas_of_the_program()) {
    INFO(x.room << ": " << x.name);
    CHECK(!x.step.words.empty());
    CHECK(!x.step.source.empty());
    CHECK(!x.step.symbol.empty());
    CHECK(x.step.operands.size() > 0);
    for (const Operand& o : x.step.operands) CHECK(x.step.formula.find(o.symbol) != std::string::npos);
  }
}
