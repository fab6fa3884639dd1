// Every key of a fixings file: one row each.
#include "files/fields.hpp"
#include "job/path.hpp"
#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace belay {
namespace {

constexpr std::string_view statuses[]{"demo", "from sheets"};

constexpr Value mm(double x) { return {x / 1000.0, Kind::length}; }
constexpr Value mm2(double x) { return {x / 1e6, Kind::area}; }
constexpr Value number(double x) { return {x, Kind::ratio}; }
constexpr Value MPa(double x) { return {x * 1e6, Kind::pressure}; }
constexpr Value kN(double x) { return {x * 1000.0, Kind::force}; }
constexpr Value kN_m(double x) { return {x * 1000.0, Kind::line_load}; }
constexpr Value kN_mm(double x) { return {x * 1e6, Kind::stiffness}; }
constexpr Value kN_mm_m(double x) { return {x * 1e6, Kind::sheet_stiffness}; }

// A capacity: more than nothing, and no slip of a unit.
template <auto... M> constexpr Field force(std::string_view key, std::string_view doc) {
  return field<M...>(key, doc).within(Bound::positive).believed(kN(0.01), kN(2000));
}
template <auto... M> constexpr Field rate(std::string_view key, std::string_view doc) {
  return field<M...>(key, doc).within(Bound::positive).believed(kN_m(0.05), kN_m(200));
}
template <auto... M> constexpr Field stiffness(std::string_view doc) {
  return field<M...>("stiffness", doc).within(Bound::positive).believed(kN_mm(0.01), kN_mm(1000));
}
template <auto... M> constexpr Field sheet_stiffness() {
  return field<M...>("stiffness",
                     "the push at its top for which each length of it gives way by so much; for a rigid ceiling, where "
                     "every brace states one")
      .within(Bound::positive)
      .believed(kN_mm_m(0.01), kN_mm_m(1000));
}
template <auto... M> constexpr Field length(std::string_view key, std::string_view doc) {
  return field<M...>(key, doc).within(Bound::positive);
}

// Only an anchor that is worked out has no figures, whose basis would have to be said.
template <class Entry> constexpr Field basis_of(std::string_view key, std::string_view doc) {
  const Field f = field<&Entry::terms, &Terms::basis>(key, doc).needed();
  return std::is_same_v<Entry, Anchor> ? f.needed_unless("worked_out") : f;
}
// What every entry carries, in front of its own rows.
template <class Entry, class... Own> constexpr auto rows_of(Own... own) {
  return std::array<Field, 9 + sizeof...(Own)>{
      field<&Entry::terms, &Terms::name>("name", "the name by which a job picks it").needed(),
      field<&Entry::terms, &Terms::source>("source", "the sheet that the figures come from, its number and date")
          .needed(),
      basis_of<Entry>(
          "basis",
          "what the figure is: \"design\" (reduced already), \"characteristic\" (then phi or gamma_M), \"allowable\""),
      field<&Entry::terms, &Terms::phi>("phi", "the capacity factor on a characteristic figure, above 0 and at most 1")
          .within(Bound::positive)
          .believed(number(0), number(1)),
      field<&Entry::terms, &Terms::gamma_M>("gamma_M", "the divisor on a characteristic figure, 1 or more")
          .believed(number(1), number(10)),
      field<&Entry::terms, &Terms::cyclic>("cyclic", "how it was tested: \"tested\" under cycles, or \"static\""),
      field<&Entry::terms, &Terms::least_steel>("least_steel", "the thinnest steel of the frame for which it holds")
          .within(Bound::positive)
          .firmly(mm(0.3), mm(20)),
      field<&Entry::terms, &Terms::joint_group>("joint_group", "the joint group of the timber for which it holds"),
      not_yet("load_duration", "load duration in or out of the figure"),
      own...};
}

}  // namespace

// The closed lists of words(): each with its last item.
template <class E> inline constexpr std::optional<E> last_of = std::nullopt;
template <> inline constexpr std::optional<Together> last_of<Together> = Together::alone;
template <> inline constexpr std::optional<FigureIs> last_of<FigureIs> = FigureIs::allowable;
template <> inline constexpr std::optional<CyclicTest> last_of<CyclicTest> = CyclicTest::only_static;
template <> inline constexpr std::optional<WorkedOut> last_of<WorkedOut> = WorkedOut::as_nzs_4600_2018;
template <> inline constexpr std::optional<ScrewsIn> last_of<ScrewsIn> = ScrewsIn::tension;
template <> inline constexpr std::optional<How> last_of<How> = How::through_floor;
template <> inline constexpr std::optional<Narrow> last_of<Narrow> = Narrow::by_eighths;
template <> inline constexpr std::optional<ConcreteCode> last_of<ConcreteCode> = ConcreteCode::en_1992_4;
template <class E>
requires(last_of<E>.has_value()) struct Codec<E> {
  static constexpr std::string_view takes = "text";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(E& to, const toml::node& n, Reading& r, const Field& f) {
    constexpr std::size_t count = static_cast<std::size_t>(*last_of<E>) + 1;
    std::array<std::string_view, count> list;
    for (std::size_t i = 0; i < count; ++i) list[i] = words(static_cast<E>(i));
    std::string text;
    if (!read_text(text, n, r, f.one_of(list))) return false;
    to = static_cast<E>(std::find(list.begin(), list.end(), text) - list.begin());
    return true;
  }
};
namespace {
// What an entry of cold-formed steel adds to its own rows, where it is worked out.
template <class Entry, class... Own> constexpr auto rows_with_steel(Own... own) {
  constexpr auto strength_of = [](Field f) { return f.within(Bound::positive).believed(MPa(150), MPa(800)); };
  return rows_of<Entry>(
      own...,
      field<&Entry::made, &SteelMade::worked_out>("worked_out",
                                                  "the standard by which steel and screws are worked out: \"AISI "
                                                  "S100-16\" or \"AS/NZS 4600:2018\""),
      length<&Entry::made, &SteelMade::width>("width", "of its steel, square to the pull").firmly(mm(10), mm(500)),
      length<&Entry::made, &SteelMade::thickness>("thickness", "of its steel without the coating")
          .firmly(mm(0.3), mm(6)),
      strength_of(field<&Entry::made, &SteelMade::yield>("yield", "the yield strength of its steel")),
      strength_of(field<&Entry::made, &SteelMade::ultimate>("ultimate", "the tensile strength of its steel")),
      field<&Entry::made, &SteelMade::holes>("holes", "the most holes across one section, those of its screws too")
          .within(Bound::not_negative)
          .believed(number(0), number(20)),
      length<&Entry::made, &SteelMade::hole>("hole", "the diameter of a hole").firmly(mm(1), mm(50)),
      field<&Entry::made, &SteelMade::screws>("screws", "how many screws hold each end")
          .within(Bound::positive)
          .believed(number(1), number(100)),
      length<&Entry::made, &SteelMade::screw_diameter>("screw_diameter", "of a screw's thread, outside")
          .firmly(mm(1), mm(20)),
      force<&Entry::made, &SteelMade::screw_shear>("screw_shear",
                                                   "what breaks one screw in shear: the nominal figure of its sheet"),
      length<&Entry::made, &SteelMade::screw_spacing>("screw_spacing",
                                                      "the least distance between screws, from centre to centre")
          .firmly(mm(3), mm(500)),
      length<&Entry::made, &SteelMade::screw_edge>(
          "screw_edge", "the least distance from a screw's centre to an edge, of either steel")
          .firmly(mm(1), mm(500)),
      length<&Entry::made, &SteelMade::into_thickness>(
          "into_thickness",
          "the thinnest steel that the screws go into; left out: [frame] steel, and NOT JUDGED at "
          "trusses")
          .firmly(mm(0.3), mm(6)),
      strength_of(field<&Entry::made, &SteelMade::into_yield>("into_yield", "the least yield strength of that steel")),
      strength_of(
          field<&Entry::made, &SteelMade::into_ultimate>("into_ultimate", "the least tensile strength of that steel")));
}
// Of what may hold by screws in tension as well.
template <class Entry, class... Own> constexpr auto rows_with_screws(Own... own) {
  return rows_with_steel<Entry>(
      own...,
      field<&Entry::made, &SteelMade::screws_in>("screws_in",
                                                 "how its screws are loaded: \"shear\" or \"tension\"; "
                                                 "left out: in shear"),
      length<&Entry::made, &SteelMade::screw_head>("screw_head", "in tension: the diameter of a screw's head or washer")
          .firmly(mm(3), mm(50)),
      force<&Entry::made, &SteelMade::screw_tension>(
          "screw_tension", "what breaks one screw in tension: the nominal figure of its sheet"),
      field<&Entry::made, &SteelMade::pried>(
          "pried",
          "in tension: false where the screws are pulled straight and no leg that bends pries at them; left "
          "out or true: NOT JUDGED"));
}
}  // namespace
template <> struct Rows<Bracket> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_with_screws<Bracket>(
        force<&Bracket::uplift>("uplift", "what it holds down at one truss end").needed_unless("worked_out"),
        force<&Bracket::along>("along", "along the wall; left out: lateral force on it is NOT JUDGED"),
        force<&Bracket::across>("across", "square to the wall; left out: lateral force on it is NOT JUDGED"),
        field<&Bracket::together>("together", "how uplift and lateral force act together, as the sheet says"),
        force<&Bracket::press>("press",
                               "what it holds when pressed down on what it stands on; left out: told, not "
                               "judged"));
    return rows;
  }
};
template <> struct Rows<Tie> {
  static std::span<const Field> list() {
    static constexpr auto rows =
        rows_with_screws<Tie>(force<&Tie::pull>("pull", "what it holds in pull").needed_unless("worked_out"));
    return rows;
  }
};
template <> struct Rows<PlateFixing> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_of<PlateFixing>(
        force<&PlateFixing::pull>("pull", "the pull of one stud that the plate carries to its anchors"),
        length<&PlateFixing::greatest_spacing>("greatest_spacing",
                                               "the greatest space between anchors for which it holds")
            .firmly(mm(100), mm(3000)));
    return rows;
  }
};
template <> struct Rows<Anchor> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_of<Anchor>(
        field<&Anchor::how>(
            "how",
            "how it is set: \"cast in\", \"drilled\", \"screwed\", \"bonded\", \"into timber\", \"into steel\"; "
            "\"through floor\": through a framed floor into the wall below"),
        force<&Anchor::pull>("pull", "what it holds in pull").needed_unless("worked_out"),
        force<&Anchor::slide>("slide", "what it holds along the plate or square to it").needed_unless("worked_out"),
        field<&Anchor::together>(
            "together", "how pull and slide act together, as the sheet says; left out: NOT JUDGED where both act"),
        length<&Anchor::least_edge>("least_edge", "the least distance to the slab's edge").firmly(mm(10), mm(1000)),
        length<&Anchor::least_spacing>("least_spacing", "the least distance to the next anchor")
            .firmly(mm(10), mm(1000)),
        length<&Anchor::least_slab>("least_slab", "the least thickness of the slab").firmly(mm(50), mm(1000)),
        field<&Anchor::concrete>("concrete", "the least strength of the concrete")
            .within(Bound::positive)
            .believed(MPa(5), MPa(100)),
        field<&Anchor::cracked>("cracked", "true: it holds in cracked concrete; false: only in uncracked"),
        field<&Anchor::worked_out>(
            "worked_out",
            "instead of `pull`, `slide` and `basis`: the code by which what it holds in concrete "
            "is worked out, \"ACI 318-19\" or \"EN 1992-4\""),
        length<&Anchor::made, &AnchorMade::diameter>("diameter", "of the bolt; beside `worked_out`")
            .firmly(mm(4), mm(64))
            .needed_beside("worked_out"),
        length<&Anchor::made, &AnchorMade::embedment>(
            "embedment", "from the concrete's face to where the head bears, effective; beside `worked_out`")
            .firmly(mm(25), mm(635))
            .needed_beside("worked_out"),
        field<&Anchor::made, &AnchorMade::steel_area>("steel_area",
                                                      "of the bolt in tension, at its thread; beside `worked_out`")
            .within(Bound::positive)
            .believed(mm2(8), mm2(3500))
            .needed_beside("worked_out"),
        field<&Anchor::made, &AnchorMade::yield>("yield", "yield strength of its steel; beside `worked_out`")
            .within(Bound::positive)
            .believed(MPa(150), MPa(1200))
            .needed_beside("worked_out"),
        field<&Anchor::made, &AnchorMade::ultimate>("ultimate", "tensile strength of its steel; beside `worked_out`")
            .within(Bound::positive)
            .believed(MPa(250), MPa(1500))
            .needed_beside("worked_out"),
        field<&Anchor::made, &AnchorMade::ductile>(
            "ductile", "true: its steel is ductile by the code; left out: taken as brittle"),
        field<&Anchor::made, &AnchorMade::torqued>(
            "torqued", "false: its nut is tightened by hand alone; left out: taken as tightened further"),
        field<&Anchor::made, &AnchorMade::head_area>("head_area",
                                                     "cast in with a head: the head's area that bears on concrete")
            .within(Bound::positive)
            .believed(mm2(10), mm2(20000)),
        length<&Anchor::made, &AnchorMade::hook>(
            "hook", "cast in with a hook: from the inside of the bend to the end of the hook")
            .firmly(mm(10), mm(300)),
        force<&Anchor::made, &AnchorMade::pull_out>(
            "pull_out", "set in hardened concrete: characteristic pull-out in cracked concrete by its own assessment"),
        field<&Anchor::made, &AnchorMade::category>(
            "category", "set in hardened concrete, by ACI 318: 1, 2 or 3 by its own assessment")
            .believed(number(1), number(3)),
        field<&Anchor::made, &AnchorMade::gamma_inst>(
            "gamma_inst", "set in hardened concrete, by EN 1992-4: 1 to 1.4 by its own assessment")
            .believed(number(1), number(1.4)));
    return rows;
  }
};
template <> struct Rows<StrapBrace> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_with_steel<StrapBrace>(
        force<&StrapBrace::tension>("tension", "what one strap holds in tension; left out: `worked_out` and its steel"),
        force<&StrapBrace::end_fixing>("end_fixing",
                                       "what the fixing at its end holds; left out: `screws`, else NOT JUDGED"),
        field<&StrapBrace::pair>("pair", "true: two straps crossing, one for each sense; false: one"),
        stiffness<&StrapBrace::stiffness>(
            "the push at its top for which the brace gives way by so much; for a rigid ceiling, where every brace "
            "states one"));
    return rows;
  }
};
template <> struct Rows<SheetBrace> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_of<SheetBrace>(
        rate<&SheetBrace::racking>("racking", "what it holds for each length of sheet"),
        length<&SheetBrace::least_length>("least_length", "the shortest piece that counts").firmly(mm(200), mm(5000)),
        length<&SheetBrace::greatest_height>("greatest_height",
                                             "the frame's height up to which the figure holds; above it less counts")
            .firmly(mm(1800), mm(6000)),
        field<&SheetBrace::greatest_aspect>("greatest_aspect",
                                            "the greatest height over length at which a piece counts")
            .within(Bound::positive)
            .believed(number(0.5), number(10)),
        field<&SheetBrace::narrow>("narrow",
                                   "what counts of a piece more than twice as high as long, up to `greatest_aspect`: "
                                   "\"2b/h\" or \"1.25 - 0.125 h/b\" of it; left out: all of it"),
        sheet_stiffness<&SheetBrace::stiffness>());
    return rows;
  }
};
template <> struct Rows<PerforatedBrace> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_of<PerforatedBrace>(
        rate<&PerforatedBrace::racking>("racking", "what it holds for each length of a wall without openings"),
        field<&PerforatedBrace::greatest_aspect>("greatest_aspect",
                                                 "the greatest height over length at which a piece counts")
            .needed()
            .within(Bound::positive)
            .believed(number(0.5), number(3.5)),
        length<&PerforatedBrace::greatest_height>("greatest_height",
                                                  "the greatest height of the frame for which it holds")
            .firmly(mm(1800), mm(6100)),
        sheet_stiffness<&PerforatedBrace::stiffness>());
    return rows;
  }
};
template <> struct Rows<RatedBrace> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_of<RatedBrace>(
        force<&RatedBrace::racking>("racking", "what the whole unit holds"),
        length<&RatedBrace::length>("length", "of the unit").firmly(mm(200), mm(5000)),
        length<&RatedBrace::greatest_height>("greatest_height", "the greatest height of frame for which it holds")
            .firmly(mm(1800), mm(6000)),
        stiffness<&RatedBrace::stiffness>("the push at its top for which the unit gives way by so much; for a rigid "
                                          "ceiling, where every brace states "
                                          "one"));
    return rows;
  }
};
template <> struct Rows<LiningBrace> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_of<LiningBrace>(
        rate<&LiningBrace::racking>("racking", "what it holds for each length of lining"),
        length<&LiningBrace::least_length>("least_length", "the shortest piece that counts").firmly(mm(200), mm(5000)),
        sheet_stiffness<&LiningBrace::stiffness>());
    return rows;
  }
};
template <> struct Rows<EndStuds> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_of<EndStuds>(
        force<&EndStuds::press>("press",
                                "what the studs at a brace's end bear, pressed down on the bottom plate with the wind "
                                "square on to their wall"),
        length<&EndStuds::greatest_height>("greatest_height", "the greatest height of wall for which it holds")
            .firmly(mm(1800), mm(6000)));
    return rows;
  }
};

namespace {

struct FixingsHead {
  std::string title, status;
};
struct FixingsFile {
  FixingsHead head;
  Fixings fixings;
};
// After an entry's keys: its place, its status, and whether its basis is whole. `entry`: its table.
void finish(Terms& terms, const toml::table& entry, Reading& r, std::string_view status) {
  terms.at = fmt::format("{}:{}", r.document.file(), r.document.spot(entry.source()).line);
  terms.demo = status == "demo" || terms.name.starts_with("demo-");
  if (!terms.basis) return;
  const toml::node* basis = entry.get("basis");
  const bool phi = entry.contains("phi"), gamma = entry.contains("gamma_M");
  if (terms.basis == FigureIs::characteristic && phi == gamma)
    r.problem(basis->source(), phi ? "two-factors" : "missing-factor",
              phi ? "a characteristic figure takes one of `phi` and `gamma_M`, not both"
                  : "a characteristic figure needs its factor: `phi` or `gamma_M` is missing",
              "as the sheet or the standard of the capacity gives it");
  if (terms.basis != FigureIs::characteristic && (phi || gamma))
    r.problem(entry.get(phi ? "phi" : "gamma_M")->source(), "factor-twice",
              fmt::format("`{}` belongs to basis \"characteristic\": a figure that is \"{}\" has it in already",
                          phi ? "phi" : "gamma_M", words(*terms.basis)));
}

// Which of an entry's figures may be worked out. end: of a strap, whose end fixing may be stated all the same; else "".
struct Figure {
  std::string_view key, end;
};
constexpr Figure figure_of(const StrapBrace&) { return {"tension", "end_fixing"}; }
constexpr Figure figure_of(const Tie&) { return {"pull", ""}; }
constexpr Figure figure_of(const Bracket&) { return {"uplift", ""}; }
// It is stated or worked out, and what is worked out needs its steel and its screws whole.
void finish_steel(const Figure& figure, const Terms& t, const SteelMade& m, const toml::table& entry, Reading& r) {
  constexpr std::string_view steel[]{"width", "thickness", "yield", "ultimate", "holes"};
  constexpr std::string_view screws[]{"screws", "screw_diameter", "screw_spacing", "screw_edge"};
  constexpr std::string_view pulled[]{"screw_head", "screw_tension"};
  constexpr std::string_view into[]{"into_thickness", "into_yield", "into_ultimate"};
  const auto missing = [&](std::string_view key, std::string_view why) {
    if (!entry.contains(key))
      r.problem(entry.source(), "missing-key", fmt::format("`{}` is missing: {}", key, why),
                "as the sheet of the steel or of the screw gives it");
  };
  const auto foreign = [&](std::string_view key, std::string_view why) {
    if (const toml::node* n = entry.get(key)) r.problem(n->source(), "wrong-key", fmt::format("`{}`: {}", key, why));
  };
  const auto wrong = [&](std::string_view key, std::string message, std::string help) {
    r.problem(entry.get(key)->source(), "unbelievable-value", std::move(message), std::move(help));
  };
  const auto any_of = [&](const auto& keys) {
    return std::any_of(std::begin(keys), std::end(keys), [&](std::string_view k) { return entry.contains(k); });
  };
  if (!entry.contains("worked_out")) {
    if (!figure.end.empty()) missing(figure.key, "what one strap holds in tension, or `worked_out` and its steel");
    const auto all_foreign = [&](const auto& keys) {
      for (const std::string_view k : keys) foreign(k, "belongs to an entry with `worked_out`");
    };
    all_foreign(steel);
    all_foreign(screws);
    all_foreign(pulled);
    all_foreign(into);
    all_foreign(std::initializer_list<std::string_view>{"hole", "screw_shear", "screws_in", "pried"});
    return;
  }
  foreign(figure.key, "is stated or worked out, not both");
  for (const std::string_view k : steel) missing(k, "what is worked out needs it");
  if (m.holes.value_or(0.0) > 0.0) missing("hole", "it has holes");
  const bool tension = m.screws_in == ScrewsIn::tension;
  const bool screwed = figure.end.empty() || any_of(screws) || any_of(into) || entry.contains("screw_shear");
  if (screwed) {
    if (!figure.end.empty()) foreign(figure.end, "is stated or worked out from the screws, not both");
    constexpr std::string_view why = "an end that is worked out from its screws needs it";
    for (const std::string_view k : screws) missing(k, why);
    if (!tension) missing("screw_shear", why);
    for (const std::string_view k : pulled)
      if (tension) missing(k, why);
      else foreign(k, "belongs to screws in tension");
    if (tension) foreign("screw_shear", "belongs to screws in shear");
    else foreign("pried", "belongs to screws in tension");
    for (const std::string_view k : into)
      if (any_of(into)) missing(k, "the steel that the screws go into is stated whole");
  }
  if (t.basis == FigureIs::characteristic)
    wrong("basis", "what is worked out is \"design\" or \"allowable\"", "the standard's own factors are applied");
  if (t.basis == FigureIs::allowable && m.worked_out == WorkedOut::as_nzs_4600_2018)
    wrong("basis", fmt::format("{} has no allowable strengths", words(*m.worked_out)), "basis = \"design\"");
  for (const auto& [yield, ultimate, key] :
       {std::tuple(m.yield, m.ultimate, "ultimate"), std::tuple(m.into_yield, m.into_ultimate, "into_ultimate")})
    if (yield && ultimate && *ultimate < *yield)
      wrong(key, "the steel breaks before it yields", fmt::format("`{}` is its yield strength or more", key));
  for (const std::string_view k : {std::string_view("holes"), std::string_view("screws")}) {
    const auto& count = k == "holes" ? m.holes : m.screws;
    if (count && *count != std::floor(*count)) wrong(k, fmt::format("`{}` is a count", k), "a whole number");
  }
  if (m.width && m.hole && m.holes && *m.holes * *m.hole >= *m.width)
    wrong("hole", "the holes leave nothing of its width", "`holes` times `hole` is less than `width`");
  if (screwed && m.holes && *m.holes < 1.0)
    wrong("holes", "each screw makes a hole: at least one lies across a section", "1 or more");
  if (m.screw_diameter && m.hole && *m.hole < *m.screw_diameter)
    wrong("hole", "a hole that is smaller than the screw in it", "the screw's diameter or more");
}
// A rule for narrow pieces says nothing of how narrow a piece may be.
void finish_sheet(const SheetBrace&, const toml::table& entry, Reading& r) {
  if (const toml::node* n = entry.get("narrow"); n != nullptr && !entry.contains("greatest_aspect"))
    r.problem(n->source(), "missing-key", "`greatest_aspect` is missing: `narrow` counts pieces up to it",
              "as the source of the rule gives it, such as 3.5");
}
// An anchor gives the figures of a sheet, or what a code needs to work them out; never some of both.
void finish_made(Anchor& a, const toml::table& entry, Reading& r) {
  const auto at = [&](std::string_view key) { return entry.get(key)->source(); };
  static constexpr std::string_view stated[]{"pull", "slide", "basis", "phi", "gamma_M"};
  static constexpr std::string_view made[]{"diameter", "embedment", "steel_area", "yield",    "ultimate", "ductile",
                                           "torqued",  "head_area", "hook",       "pull_out", "category", "gamma_inst"};
  const bool worked_out = entry.contains("worked_out");
  for (const std::string_view key :
       worked_out ? std::span<const std::string_view>(stated) : std::span<const std::string_view>(made))
    if (entry.contains(key))
      r.problem(at(key), "stated-and-worked-out",
                worked_out ? fmt::format("`{}` stands beside `worked_out`: what it holds is stated or worked out", key)
                           : fmt::format("`{}` says how the anchor is made, and nothing here is worked out", key),
                worked_out ? "leave out one of the two" : "worked_out = \"ACI 318-19\" or \"EN 1992-4\"");
  if (!worked_out) return;
  a.terms.basis = FigureIs::design;  // the code's own factors are in what comes out
  if (!a.worked_out || !entry.contains("how")) return;
  if (!in_concrete(a.how)) {
    r.problem(at("how"), "not-in-concrete",
              fmt::format("`worked_out` is for anchors in concrete, and this one is \"{}\"", words(a.how)));
    return;
  }
  const bool cast = a.how == How::cast_in;
  if (cast && entry.contains("head_area") == entry.contains("hook"))
    r.problem(entry.source(), "head-or-hook", "what is cast in has a head or a hook: one of `head_area` and `hook`");
  for (const std::string_view key : {"head_area", "hook", "pull_out", "category", "gamma_inst"})
    if (const bool for_cast = key == "head_area" || key == "hook"; entry.contains(key) && for_cast != cast)
      r.problem(at(key), "not-of-this-anchor",
                fmt::format("`{}` is for what is {}, and this one is \"{}\"", key,
                            for_cast ? "cast in" : "set in hardened concrete", words(a.how)));
  const Together power = a.worked_out == ConcreteCode::aci_318_19 ? Together::five_thirds : Together::one_and_half;
  if (a.together && *a.together != Together::sum && *a.together != power)
    r.problem(
        at("together"), "not-the-codes-rule",
        fmt::format("{} knows no \"{}\" of pull and slide", words(*a.worked_out), words(*a.together)),
        fmt::format("\"{}\" or \"{}\"; left out: \"{}\"", words(power), words(Together::sum), words(Together::sum)));
}

}  // namespace

template <> struct Rows<FixingsHead> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&FixingsHead::title>("title", "what the file holds"),
        field<&FixingsHead::status>(
            "status", "\"demo\": invented, not for construction; \"from sheets\": typed from the suppliers' sheets")
            .one_of(statuses)};
    return rows;
  }
};
template <> struct Rows<FixingsFile> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&FixingsFile::head>("fixings", "what the file is").needed(),
        field<&FixingsFile::fixings, &Fixings::brackets>("bracket", "truss to top plate"),
        field<&FixingsFile::fixings, &Fixings::ties>("tie", "stud to plate, plate to plate"),
        field<&FixingsFile::fixings, &Fixings::plates>("plate", "the bottom plate from a stud to its anchors"),
        field<&FixingsFile::fixings, &Fixings::anchors>("anchor", "bottom plate or stud to slab"),
        field<&FixingsFile::fixings, &Fixings::straps>("strap", "strap brace, a pair or single"),
        field<&FixingsFile::fixings, &Fixings::sheets>("sheet", "sheet brace"),
        field<&FixingsFile::fixings, &Fixings::rated>("rated", "bought unit of fixed length"),
        field<&FixingsFile::fixings, &Fixings::linings>("lining", "lining board that braces"),
        field<&FixingsFile::fixings, &Fixings::perforated>(
            "perforated", "sheeted wall with openings that is held down at its two ends alone"),
        field<&FixingsFile::fixings, &Fixings::end_studs>("end_studs", "studs at a brace's end, which are pressed")};
    return rows;
  }
};

Fixings read_fixings_keys(const Document& document, std::vector<Problem>& problems) {
  FixingsFile file;
  Reading reading{document, raw::Drawing::none, problems, {}, {}, {}, {}};
  read_rows(&file, fixings_rows(), document.tree(), reading);
  Fixings& all = file.fixings;
  all.title = file.head.title;
  all.status = file.head.status;
  all.file = document.file();
  struct Name {
    std::string text;
    toml::source_region at;
  };
  std::vector<Name> names;
  const auto finish_list = [&](auto& entries, std::string_view key) {
    const toml::node* node = document.tree().get(key);
    if (node == nullptr) return;
    for (std::size_t i = 0; i < entries.size(); ++i) {
      const toml::table* entry = node->is_array() ? node->as_array()->get(i)->as_table() : node->as_table();
      if (entry == nullptr) continue;
      finish(entries[i].terms, *entry, reading, all.status);
      if constexpr (std::is_same_v<decltype(entries[i]), SheetBrace&>) finish_sheet(entries[i], *entry, reading);
      if constexpr (requires { figure_of(entries[i]); })
        finish_steel(figure_of(entries[i]), entries[i].terms, entries[i].made, *entry, reading);
      if constexpr (std::is_same_v<std::decay_t<decltype(entries[i])>, Anchor>)
        finish_made(entries[i], *entry, reading);
      if (!entries[i].terms.name.empty()) names.push_back({entries[i].terms.name, entry->get("name")->source()});
    }
  };
  finish_list(all.brackets, "bracket");
  finish_list(all.ties, "tie");
  finish_list(all.plates, "plate");
  finish_list(all.anchors, "anchor");
  finish_list(all.straps, "strap");
  finish_list(all.sheets, "sheet");
  finish_list(all.rated, "rated");
  finish_list(all.linings, "lining");
  finish_list(all.perforated, "perforated");
  finish_list(all.end_studs, "end_studs");
  std::stable_sort(names.begin(), names.end(), [](const Name& a, const Name& b) { return a.at.begin < b.at.begin; });
  std::map<std::string_view, std::size_t> first;
  for (const Name& n : names) {
    const auto [seen, fresh] = first.emplace(n.text, n.at.begin.line);
    if (!fresh)
      reading.problem(n.at, "name-twice", fmt::format("`{}` is a name already", n.text),
                      fmt::format("the first stands on line {}", seen->second));
  }
  return all;
}

std::span<const Field> fixings_rows() { return Rows<FixingsFile>::list(); }

}  // namespace belay
