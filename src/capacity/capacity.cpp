#include "capacity/capacity.hpp"

#include "capacity/formulas.hpp"
#include "capacity/formulas_perforated.hpp"
#include "capacity/perforated.hpp"
#include "capacity/steel.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace belay {

namespace {

// The sheet's figure for design: told as phi times or over gamma_M where the sheet is characteristic, else as given.
template <class Q, class ByPhi, class ByGamma>
Q for_design(const Terms& t, Q stated, std::string_view symbol, const ByPhi& by_phi, const ByGamma& by_gamma,
             Working* w) {
  const std::string source = w ? fmt::format("{}, {} ({})", t.name, t.source, t.at) : std::string();
  if (t.basis != FigureIs::characteristic) return given(w, symbol, "capacity as the sheet states it", stated, source);
  const std::string stated_symbol = std::string(symbol) + "_k";
  given(w, stated_symbol, "characteristic capacity as the sheet states it", stated, source);
  if (t.phi)
    return by_phi.told(w, symbol, by_phi.source, given(w, "phi", "the sheet's phi", *t.phi, source),
                       as(stated_symbol, stated));
  return by_gamma.told(w, symbol, by_gamma.source, as(stated_symbol, stated),
                       given(w, "gamma_M", "the sheet's gamma_M", t.gamma_M.value_or(1.0), source));
}

std::string length_text(Length l, const House& h) { return size_text(l, h.print == Print::us ? us : metric); }

Condition compared(std::string name, Length needs, std::string_view relation, Length has, bool met, const House& h) {
  return {std::move(name),
          fmt::format("{} {}", relation, length_text(needs, h)),
          length_text(has, h),
          met ? Met::yes : Met::no,
          {}};
}

}  // namespace

Force design_force(const Terms& t, Force stated, std::string_view symbol, Working* w) {
  return for_design(t, stated, symbol, formulas::design_from_phi, formulas::design_from_gamma, w);
}

LineLoad design_rate(const Terms& t, LineLoad stated, Working* w) {
  return for_design(t, stated, "v", formulas::rate_from_phi, formulas::rate_from_gamma, w);
}

std::vector<Condition> frame_conditions(const House& h, const Terms& t, bool cyclonic, bool needs_cyclic) {
  std::vector<Condition> r;
  if (t.least_steel) {
    const auto needs = fmt::format("at least {}", length_text(*t.least_steel, h));
    if (h.frame.steel)
      r.push_back({"thickness of the frame's steel",
                   needs,
                   length_text(*h.frame.steel, h),
                   *h.frame.steel >= *t.least_steel ? Met::yes : Met::no,
                   {}});
    else r.push_back({"thickness of the frame's steel", needs, "", Met::not_stated, "[frame] steel"});
  }
  if (t.joint_group) {
    if (h.frame.joint_group)
      r.push_back({"joint group of the frame's timber",
                   *t.joint_group,
                   *h.frame.joint_group,
                   *h.frame.joint_group == *t.joint_group ? Met::yes : Met::no,
                   {}});
    else r.push_back({"joint group of the frame's timber", *t.joint_group, "", Met::not_stated, "[frame] joint_group"});
  }
  // A static test says little of a strap or bracket that a cyclone works for hours (cyclonic classes).
  if (cyclonic && needs_cyclic) {
    r.push_back({"test under repeated load (cyclonic class)", std::string(words(CyclicTest::tested)),
                 std::string(t.cyclic ? words(*t.cyclic) : std::string_view()),
                 t.cyclic == CyclicTest::tested ? Met::yes : Met::not_stated, "`cyclic` of the fixing"});
  }
  return r;
}

std::vector<Condition> anchor_conditions(const House& h, const Anchor& a, std::optional<Length> edge,
                                         std::optional<Length> neighbour, bool cyclonic) {
  std::vector<Condition> r = frame_conditions(h, a.terms, cyclonic, needs_cyclic_test(a.how));
  // What an anchor in concrete can hold hangs on these: a sheet that leaves one out has not been typed whole.
  const auto needed = [&](bool there, const char* what, const char* key) {
    if (in_concrete(a.how) && !a.worked_out && !there)
      r.push_back({what, "the sheet's figure", "", Met::not_stated, fmt::format("`{}` of {}", key, a.terms.name)});
  };
  needed(a.least_edge.has_value(), "distance to the slab's edge", "least_edge");
  needed(a.least_spacing.has_value(), "distance to the next anchor", "least_spacing");
  needed(a.concrete.has_value(), "strength of the concrete", "concrete");
  needed(a.cracked.has_value(), "cracked or uncracked concrete", "cracked");
  if (a.least_edge && edge)
    r.push_back(compared("distance to the slab's edge", *a.least_edge, "at least", *edge,
                         *edge >= *a.least_edge - same_place, h));
  if (a.least_spacing && neighbour)
    r.push_back(compared("distance to the next anchor", *a.least_spacing, "at least", *neighbour,
                         *neighbour >= *a.least_spacing - same_place, h));
  if (a.least_slab) {
    if (h.slab.thickness)
      r.push_back(compared("thickness of the slab", *a.least_slab, "at least", *h.slab.thickness,
                           *h.slab.thickness >= *a.least_slab - same_place, h));
    else
      r.push_back({"thickness of the slab", fmt::format("at least {}", length_text(*a.least_slab, h)), "",
                   Met::not_stated, "[slab] thickness"});
  }
  const Units& u = h.print == Print::us ? us : metric;
  if (a.concrete) {
    const auto needs = fmt::format("at least {}", strength_text(*a.concrete, u));
    if (h.slab.concrete)
      r.push_back({"strength of the concrete",
                   needs,
                   strength_text(*h.slab.concrete, u),
                   *h.slab.concrete >= *a.concrete ? Met::yes : Met::no,
                   {}});
    else r.push_back({"strength of the concrete", needs, "", Met::not_stated, "[slab] concrete"});
  }
  // A capacity for uncracked concrete needs a slab that is stated to stay uncracked.
  if (a.cracked && !*a.cracked) {
    if (h.slab.cracked)
      r.push_back({"concrete stays uncracked",
                   "uncracked",
                   *h.slab.cracked ? "cracked" : "uncracked",
                   *h.slab.cracked ? Met::no : Met::yes,
                   {}});
    else r.push_back({"concrete stays uncracked", "uncracked", "", Met::not_stated, "[slab] cracked"});
  }
  return r;
}

Met worst(const std::vector<Condition>& list) {
  Met m = Met::yes;
  for (const Condition& c : list) {
    if (c.met == Met::no) return Met::no;
    if (c.met == Met::not_stated) m = Met::not_stated;
  }
  return m;
}

namespace {

// Above the sheet's own full height: the lesser of the height table and full height over height; 1 up to it.
double sheet_height_factor(const As<Length>& height, Length full, const Table& practice, std::uint64_t& marks,
                           Working* w) {
  const std::string source = practice.source("sheet_height");
  const Length h = height.quantity;
  if (h <= full + same_place)
    return given(w, "k_h", "no reduction up to the sheet's full height", 1.0, "the fixing's sheet");
  marks |= practice.mark("sheet_height");
  given(w, "h_0", "height up to which the sheet has its full rate", full, "the fixing's sheet");
  const double by_rule =
      formulas::height_factor.told(w, "k_r", practice.text("sheet_height", "rule"), as("h_0", full), height);
  const auto& heights = practice.column("sheet_height", "height");
  const auto& factors = practice.column("sheet_height", "factor");
  if (h <= quantity<Length>(heights.front()))
    return least<double>(w, "k_h", "below the table's heights: the rule alone", "the safe one", {as("k_r", by_rule)});
  for (std::size_t i = 1; i < heights.size(); ++i) {
    const Length h1 = quantity<Length>(heights[i - 1]), h2 = quantity<Length>(heights[i]);
    if (h > h2) continue;
    const double k1 = looked_up(w, "k_1", "reduction at the lower height", quantity<double>(factors[i - 1]), source);
    const double k2 = looked_up(w, "k_2", "reduction at the greater height", quantity<double>(factors[i]), source);
    looked_up(w, "h_1", "the lower height of the table", h1, source);
    looked_up(w, "h_2", "the greater height of the table", h2, source);
    const double by_table = formulas::between_heights.told(w, "k_t", source, k1, k2, height, h1, h2);
    return least<double>(w, "k_h", "the lesser of the table and the height rule", "the safe one",
                         {as("k_t", by_table), as("k_r", by_rule)});
  }
  throw std::logic_error("a sheet above the height table was let through");
}

Condition aspect_condition(double most, Length height, Length length, bool met) {
  return {"height of the sheet over its length",
          fmt::format("at most {}", number(value(most), metric)),
          number(value(height / length), metric),
          met ? Met::yes : Met::no,
          {}};
}

// More than twice as high as long, and its own source says what counts of it then.
bool narrow_enough(const SheetBrace& s, Length height, Length length, const Table& practice) {
  return s.narrow && height > practice.number("sdpws_narrow", "from") * length + same_place;
}
Force narrow_sheet(const SheetBrace& s, const As<Length>& height, Length length, Force whole, const Table& practice,
                   std::uint64_t& marks, Working* w) {
  const std::string source = w ? practice.source("sdpws_narrow") : std::string();
  marks |= practice.mark("sdpws_narrow");
  const auto figure = [&](std::string_view symbol, std::string_view words, std::string_view key) {
    return looked_up(w, symbol, words, practice.number("sdpws_narrow", key), source);
  };
  const auto l = as("L", length);
  double k = 0.0;
  if (*s.narrow == Narrow::twice_length_over_height) {
    const double from = figure("k_2", "height over length from which less counts", "from");
    k = formulas::narrow_by_length.told(w, "k_n", source, as("k_2", from), l, height);
  } else {
    const double a = figure("k_a", "the most, of the rule by height over length", "most");
    const double b = figure("k_b", "what each height over length takes off it", "less");
    k = formulas::narrow_by_eighths.told(w, "k_n", source, as("k_a", a), as("k_b", b), height, l);
  }
  return formulas::narrow_sheet.told(w, "C_b", source, as("k_n", k), as("C_w", whole));
}

std::optional<Stiffness> of_length(const std::optional<SheetStiffness>& k, Length length) {
  return k ? std::optional(formulas::stiffness_of_length(nullptr, *k, length)) : std::nullopt;
}

bool is_counted(const PerforatedWall& all, const Wall& wall, const Piece& piece) {
  return std::any_of(all.parts.begin(), all.parts.end(),
                     [&](const PerforatedWall::Part& p) { return p.counts && &wall.pieces[p.piece] == &piece; });
}
// What the wall gives one of its pieces that count.
void give_perforated(BraceCapacity& r, const House& house, const Wall& wall, const Piece& piece,
                     const PerforatedWall& all, const PerforatedBrace& entry, const Table& practice, Working* w) {
  const auto index = static_cast<std::size_t>(&piece - wall.pieces.data());
  const PerforatedFactor k = perforated_factor(house, wall, all, index, practice, w);
  const LineLoad v = perforated_rate(entry, practice, w);
  r.plus = r.minus = formulas::perforated_racking.told(w, "C_b", w ? practice.source("sdpws_perforated") : "",
                                                       as("v_p", v), k.factor, k.counted);
  r.stiffness = of_length(entry.stiffness, k.counted.quantity);
  r.perforated = {words(wall, all),
                  k.factor.name,
                  k.counted.name,
                  k.factor.quantity,
                  k.counted.quantity,
                  index == all.parts.front().piece,
                  index == all.parts.back().piece};
}

// Two senses of a single strap: it pulls when the wall is pushed away from its foot.
void give_by_foot(BraceCapacity& r, Force c, bool pair, const std::optional<Side>& foot) {
  r.plus = pair || foot == Side::left ? c : zero<Force>();
  r.minus = pair || foot == Side::right ? c : zero<Force>();
}

}  // namespace

std::string in_symbol(const std::string& name) {
  for (const Floor f : {Floor::ground, Floor::first})
    if (const std::string before = fmt::format("{} ", words(f)); name.starts_with(before))
      return fmt::format("{},{}", name.substr(before.size()), words(f));
  return name;
}

std::string height_symbol(const House& h, const Wall& wall) {
  const std::size_t block = wall.blocks.front();
  if (block > 0) return fmt::format("h_w,{}", name_of(h, block));
  return h.first ? fmt::format("h_{}", words(wall.floor)) : "h_w";
}
Length tell_wall_height(const House& h, const Wall& wall, Working* w) {
  if (!w) return height_of(h, wall);
  const std::size_t block = wall.blocks.front();
  const std::string whose = block > 0 ? fmt::format("the walls of {}", name_of(h, block))
                            : h.first ? fmt::format("the {} floor's walls", words(wall.floor))
                                      : std::string("the walls");
  return given(w, height_symbol(h, wall), fmt::format("height of {}, from the underside of the bottom plate", whose),
               height_of(h, wall), "the job's block");
}

namespace {

// By the wall's height and its own length.
Angle drawn_angle(const House& house, const Wall& wall, const Piece& piece, std::string_view symbol, Working* w) {
  return formulas::strap_angle.told(w, symbol, formulas::strap_angle.source,
                                    as(height_symbol(house, wall), height_of(house, wall)),
                                    as("L", piece.to - piece.from));
}
bool is_measured_strap(const House& house, const Brace& b) {
  return b.measured() && find(house.fixings.straps, b.fixing.name) != nullptr;
}
const Angle& steepest(const Brace& b) { return *std::max_element(b.found->angles.begin(), b.found->angles.end()); }
const Angle& flattest(const Brace& b) { return *std::min_element(b.found->angles.begin(), b.found->angles.end()); }
Angle told_steepest(const Brace& b, Working* w) {
  return given(w, "theta_m",
               b.found->angles.size() > 1 ? "angle of the steeper of both to the plate, as measured"
                                          : "angle of the strap to the plate, as measured",
               steepest(b), w ? fmt::format("as built, {}", b.found->at) : std::string());
}

// The angle by which a strap counts: of the drawn and the measured the steeper one, which holds less.
Angle strap_angle(const House& house, const Wall& wall, const Piece& piece, Working* w) {
  if (!piece.brace->measured()) return drawn_angle(house, wall, piece, "theta", w);
  const Angle drawn = drawn_angle(house, wall, piece, "theta_d", w), measured = told_steepest(*piece.brace, w);
  return greatest<Angle>(w, "theta", "the steeper of drawn and measured: it holds less", "the safe one",
                         {as("theta_d", drawn), as("theta_m", measured)});
}
// A strap from plate to plate within its brace's length cannot lie flatter than drawn.
std::optional<Condition> angle_that_can_be(const House& house, const Wall& wall, const Piece& piece,
                                           const Table& practice) {
  const Brace& b = *piece.brace;
  if (!b.measured()) return std::nullopt;
  const Units& u = house.print == Print::us ? us : metric;
  const Angle drawn = drawn_angle(house, wall, piece, "theta_d", nullptr),
              least = drawn - practice.get<Angle>("strap_angle", "measured_within");
  if (flattest(b) >= least) return std::nullopt;
  return Condition{"measured angle of the strap",
                   fmt::format("at least {}, {} as drawn", text(least, u), text(drawn, u)), text(flattest(b), u),
                   Met::not_stated, "[[as_built]] angle"};
}

}  // namespace

As<Length> brace_reach(const House& house, const Wall& wall, const Piece& piece, Working* w) {
  const Brace& b = *piece.brace;
  const auto length =
      as("L", given(w, "L", fmt::format("length of brace {}", b.name), piece.to - piece.from, "the job"));
  if (!is_measured_strap(house, b) || steepest(b) <= drawn_angle(house, wall, piece, "theta_d", nullptr)) return length;
  tell_wall_height(house, wall, w);
  told_steepest(b, w);
  return as("L_m", formulas::strap_reach.told(w, "L_m", formulas::strap_reach.source,
                                              as(height_symbol(house, wall), height_of(house, wall)),
                                              as("theta_m", steepest(b))));
}

BraceCapacity brace_capacity(const House& house, const Wall& wall, const Piece& piece, const Table& practice,
                             bool cyclonic, Working* w) {
  const Brace& brace = *piece.brace;
  const std::string& name = brace.fixing.name;
  const Fixings& f = house.fixings;
  BraceCapacity r{zero<Force>(), zero<Force>(), false, false, {}, {}, 0};
  const Length h = height_of(house, wall), length = piece.to - piece.from;
  const As<Length> height = as(height_symbol(house, wall), h);
  if (brace.missing()) {
    r.left_out = r.missing = true;
    return r;
  }
  if (w) {
    tell_wall_height(house, wall, w);
    given(w, "L", fmt::format("length of brace {}", brace.name), length, "the job");
  }
  const auto refuse_by_conditions = [&](const Terms& terms, bool needs_cyclic) {
    const auto more = frame_conditions(house, terms, cyclonic, needs_cyclic);
    r.conditions.insert(r.conditions.end(), more.begin(), more.end());
    const Met m = worst(r.conditions);
    if (m != Met::yes) r.refused = m == Met::no ? "condition-unmet" : "condition-not-stated";
    return m == Met::yes;
  };
  // Between a hold-down and the compression studs at the other end there must be a lever.
  if (const Length reach = brace_reach(house, wall, piece, nullptr).quantity; reach < length) r.reach = reach;
  const Length arm =
      r.reach.value_or(length) - brace.hold_down_in - practice.get<Length>("hold_down", "compression_in");
  if (arm <= zero<Length>())
    r.conditions.push_back(
        compared("arm from the hold-down to the compression studs", zero<Length>(), "more than", arm, false, house));
  // What stands in the place of a piece has no hold-downs of its own.
  if (brace.found_another() && find(f.perforated, brace.planned().name))
    r.conditions.push_back({"pieces of a wall that is held down at its ends alone",
                            "all as planned",
                            fmt::format("{} is another", brace.name),
                            Met::no,
                            {}});
  if (const StrapBrace* strap = find(f.straps, name)) {
    r.strap = true;
    const Angle theta = strap_angle(house, wall, piece, w);
    const Angle low = practice.get<Angle>("strap_angle", "least"),
                high = practice.get<Angle>("strap_angle", "greatest");
    const Units& u = house.print == Print::us ? us : metric;
    r.conditions.push_back(
        {"angle of the strap to the plate",
         fmt::format("{} to {}", text(low, u), text(high, u)),
         text(theta < low || theta > high || !brace.measured() ? theta : flattest(brace), u),
         theta >= low && theta <= high && (!brace.measured() || flattest(brace) >= low) ? Met::yes : Met::no,
         {}});
    const auto doubtful = angle_that_can_be(house, wall, piece, practice);
    if (doubtful) r.conditions.push_back(*doubtful);
    if (!strap->pair && !brace.foot)
      r.conditions.push_back(
          {"which way a single strap leans", "left or right", "", Met::not_stated, "`foot` of the mark"});
    const auto of_entry = strap_conditions(house, *strap, Into::frame, practice);
    r.conditions.insert(r.conditions.end(), of_entry.begin(), of_entry.end());
    if (!refuse_by_conditions(strap->terms, true)) {
      if (doubtful && r.refused == "condition-not-stated") r.refused = "angle-doubtful";
      return r;
    }
    // What is not stated has refused the brace above.
    const SteelHolds holds = strap_holds(house, *strap, practice, "T_s", "T_e", w);
    r.practice_marks |= holds.marks;
    r.end_first = holds.end < holds.steel;
    const Force t = least<Force>(w, "T",
                                 r.end_first ? "the end fixing: it gives before the strap can stretch, a brittle end"
                                             : "the lesser of the strap and its end fixing",
                                 "statics", {as("T_s", holds.steel), as("T_e", holds.end)});
    give_by_foot(r, formulas::strap_racking(w, t, theta), strap->pair, brace.foot);
    r.stiffness = strap->stiffness;
  } else if (const SheetBrace* sheet = find(f.sheets, name)) {
    r.conditions.push_back(compared("length of the sheet", sheet->least_length, "at least", length,
                                    length >= sheet->least_length - same_place, house));
    if (sheet->greatest_aspect) {
      const double aspect = *sheet->greatest_aspect;
      r.conditions.push_back(aspect_condition(aspect, h, length, h <= aspect * length + same_place));
    }
    const Length full = sheet->greatest_height.value_or(practice.get<Length>("sheet_height", "full_to"));
    const Length top = std::max(full, quantity<Length>(practice.column("sheet_height", "height").back()));
    r.conditions.push_back(compared("height of the sheet", top, "at most", h, h <= top, house));
    if (!refuse_by_conditions(sheet->terms, true)) return r;
    const LineLoad v = design_rate(sheet->terms, sheet->racking, w);
    const double k = sheet_height_factor(height, full, practice, r.practice_marks, w);
    r.plus = r.minus =
        narrow_enough(*sheet, h, length, practice)
            ? narrow_sheet(*sheet, height, length,
                           formulas::sheet_racking.told(w, "C_w", formulas::sheet_racking.source, v, length, k),
                           practice, r.practice_marks, w)
            : formulas::sheet_racking(w, v, length, k);
    r.stiffness = of_length(sheet->stiffness, length);
  } else if (const RatedBrace* unit = find(f.rated, name)) {
    const bool fits = length >= unit->length - same_place && length <= unit->length + same_place;
    r.conditions.push_back(compared("length of the bought unit", unit->length, "just", length, fits, house));
    r.conditions.push_back(compared("height of the bought unit", unit->greatest_height, "at most", h,
                                    h <= unit->greatest_height + same_place, house));
    if (!refuse_by_conditions(unit->terms, true)) return r;
    r.plus = r.minus = design_force(unit->terms, unit->racking, "C_b", w);
    r.stiffness = unit->stiffness;
  } else if (const LiningBrace* lining = find(f.linings, name)) {
    r.lining = true;
    const Length shortest = std::max(lining->least_length, practice.get<Length>("lining", "least_length"));
    r.conditions.push_back(
        compared("length of the lining", shortest, "at least", length, length >= shortest - same_place, house));
    if (!refuse_by_conditions(lining->terms, true)) return r;
    r.plus = r.minus = formulas::lining_racking(w, design_rate(lining->terms, lining->racking, w), length);
    r.stiffness = of_length(lining->stiffness, length);
  } else if (const PerforatedBrace* sheeted = find(f.perforated, name)) {
    const auto all = perforated_wall(house, wall, static_cast<std::size_t>(&piece - wall.pieces.data()));
    const bool long_enough = all && is_counted(*all, wall, piece);
    r.left_out = all && !long_enough;
    if (!r.left_out) r.conditions.push_back(aspect_condition(sheeted->greatest_aspect, h, length, long_enough));
    if (all) {
      const auto of_wall = perforated_conditions(house, wall, *all, *sheeted, practice);
      r.conditions.insert(r.conditions.end(), of_wall.begin(), of_wall.end());
    }
    if (!refuse_by_conditions(sheeted->terms, true) || r.left_out) return r;
    r.practice_marks |= practice.mark("sdpws_perforated");
    give_perforated(r, house, wall, piece, *all, *sheeted, practice, w);
  } else {
    r.refused = "no-fixing";
  }
  return r;
}

Stiffness tell_stiffness(const House& house, const Piece& piece, const BraceCapacity& k, const std::string& symbol,
                         Working& w) {
  const Brace& brace = *piece.brace;
  const Fixings& f = house.fixings;
  const std::string own = in_symbol(brace.name);
  const auto by_length = [&](const auto* entry, Length length) {
    const std::string source = fmt::format("{}, {} ({})", entry->terms.name, entry->terms.source, entry->terms.at);
    const auto rate = as("k_s,b," + own, *entry->stiffness);
    given(&w, rate.name, "stiffness for each length, as the sheet states it", rate.quantity, source);
    const auto l = as("L_" + own, length);
    given(&w, l.name,
          k.perforated ? fmt::format("length of brace {} that counts", brace.name)
                       : fmt::format("length of brace {}", brace.name),
          length, "the job");
    return formulas::stiffness_of_length.told(&w, symbol, formulas::stiffness_of_length.source, rate, l);
  };
  const Length length = piece.to - piece.from;
  if (const SheetBrace* s = find(f.sheets, brace.fixing.name)) return by_length(s, length);
  if (const LiningBrace* l = find(f.linings, brace.fixing.name)) return by_length(l, length);
  if (const PerforatedBrace* p = find(f.perforated, brace.fixing.name)) return by_length(p, k.perforated->counted);
  return given(&w, symbol, fmt::format("stiffness of brace {}, as its sheet states it", brace.name), *k.stiffness,
               fmt::format("{} ({})", brace.fixing.name, brace.fixing.at));
}

double together(Together rule, const std::vector<double>& uses) {
  const double n = rule == Together::five_thirds ? 5.0 / 3.0 : rule == Together::one_and_half ? 1.5 : 1.0;
  double sum = 0.0, most = 0.0;
  for (const double u : uses) {
    sum += std::pow(u, n);
    most = std::max(most, u);
  }
  return rule == Together::alone ? most : sum;
}

}  // namespace belay
