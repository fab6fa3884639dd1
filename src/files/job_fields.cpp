// Every key of a job: one row each.
#include "files/fields.hpp"
#include "job/nearest.hpp"
#include "job/path.hpp"
#include "job/settle.hpp"
#include <cmath>
#include <fmt/format.h>

namespace belay {
namespace {

using namespace raw;

constexpr Value mm(double x) { return {x / 1000.0, Kind::length}; }
constexpr Value m(double x) { return {x, Kind::length}; }
constexpr Value kPa(double x) { return {x * 1000.0, Kind::pressure}; }
constexpr Value MPa(double x) { return {x * 1e6, Kind::pressure}; }
constexpr Value mps(double x) { return {x, Kind::speed}; }
constexpr Value degrees(double x) { return {x * 3.14159265358979323846 / 180.0, Kind::angle}; }
constexpr Value kN_m3(double x) { return {x * 1000.0, Kind::weight_density}; }
constexpr Value count(double x) { return {x, Kind::ratio}; }

constexpr Value kg_m3(double x) { return {x, Kind::density}; }
constexpr std::string_view hill_shapes[]{"hill", "ridge", "escarpment"};
constexpr std::string_view drawings[]{"mm", "ft-in"};
constexpr std::string_view prints[]{"metric", "us"};
constexpr std::string_view ridges[]{"across", "up"};
constexpr std::string_view roof_shapes[]{"gable", "hip", "skillion", "flat"};
constexpr std::string_view sides[]{"front", "right", "back", "left"};
constexpr std::string_view planes[]{"plan", "slope"};
constexpr std::string_view ceilings[]{"flexible", "rigid", "both"};
constexpr std::string_view floor_words[]{"ground", "first"};
constexpr std::string_view each_of[]{"joist"};
constexpr std::string_view feet[]{"left", "right"};
constexpr std::string_view mirrors[]{"left-right", "front-back"};

// A key that takes text or a table; the text stands for the table's first key.
template <class T> struct TextOr {
  static constexpr std::string_view takes = "text or a table";
  static constexpr std::span<const Field> (*inside)() = &Rows<T>::list;
};
// true, or the sort of door in words.
struct DoorKey {
  static constexpr std::string_view takes = "true, false or the sort of door";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(Maybe<bool>& to, const toml::node& n, Reading& r, const Field& f) {
    std::string sort;
    bool door = true;
    if (!n.is_string() && !n.is_boolean()) return wrong_type(n, r, f);
    if (n.is_string() ? !read_text(sort, n, r, f) : !read_flag(door, n, r, f)) return false;
    if (sort == "no" || sort == "none" || sort == "not" || sort == "false")
      return wrong_type(n, r, f, "false, without quotes, when it is no door");
    to = door;
    return true;
  }
};

}  // namespace

template <> struct Rows<Head> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&Head::title>("title", "what the job is called on every page").needed(),
        field<&Head::drawing>("drawing",
                              "how the drawing writes lengths: \"mm\" lets bare whole numbers be millimetres, "
                              "\"ft-in\" lets \"12-6\" be feet and inches")
            .one_of(drawings),
        field<&Head::print>("print", "the units of the output; left out: metric").one_of(prints),
        field<&Head::importance>("importance", "the building's importance level, 1 to 4; a house is 2")
            .needed()
            .believed(count(1), count(4)),
        field<&Head::drawn>("drawn",
                            "the sheets and revision that the file was typed from, and to which face they measure"),
        field<&Head::fixings>("fixings", "the file of the fixings' capacities: beside the job, or a built-in demo file")
            .needed(),
        field<&Head::mirror>("mirror",
                             "the house is built as its drawing looks in a mirror: \"left-right\" or \"front-back\"")
            .one_of(mirrors),
        field<&Head::by_others>("by_others",
                                "links that somebody else answers for, and who; printed on the first screen")};
    return rows;
  }
};
namespace {
// A word that may be written as a number: terrain 2.5.
struct WordKey {
  static constexpr std::string_view takes = "a word or a number";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(std::string& to, const toml::node& n, Reading& r, const Field& f) {
    if (const auto* i = n.as_integer()) to = fmt::format("{}", i->get());
    else if (const auto* d = n.as_floating_point(); d != nullptr && std::isfinite(d->get()))
      to = fmt::format("{}", d->get());
    else return read_text(to, n, r, f);
    return true;
  }
  static bool read(Maybe<std::string>& to, const toml::node& n, Reading& r, const Field& f) {
    std::string word;
    if (!read(word, n, r, f)) return false;
    to = std::move(word);
    return true;
  }
};
// One such word, or a list of them.
struct WordsKey {
  static constexpr std::string_view takes = "a word or a list of words";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(std::vector<std::string>& to, const toml::node& n, Reading& r, const Field& f) {
    const toml::array* list = n.as_array();
    std::string word;
    if (list != nullptr && list->empty()) {
      r.problem(n.source(), "empty-list", fmt::format("`{}` is an empty list: {}", r.key, f.doc));
      return false;
    }
    if (list == nullptr) {
      if (!WordKey::read(word, n, r, f)) return false;
      to.push_back(std::move(word));
      return true;
    }
    for (std::size_t i = 0; i < list->size(); ++i)
      if (step_into(r, path_under(r, i), [&] { return WordKey::read(word, *list->get(i), r, f); })) to.push_back(word);
    return true;
  }
};
}  // namespace
template <> struct Rows<HillKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&HillKeys::shape>("shape",
                                "\"hill\" (round), \"ridge\" (long) or \"escarpment\" (level behind the crest)")
            .needed()
            .one_of(hill_shapes),
        field<&HillKeys::rise>("rise", "how high the crest stands above the ground before the slope")
            .needed()
            .within(Bound::positive)
            .firmly(m(1), m(2000)),
        field<&HillKeys::to_half_height>(
            "to_half_height", "AS/NZS 1170.2, ASCE 7: from the crest, upwind, to half the rise, on the level")
            .within(Bound::positive)
            .firmly(m(2), m(20000)),
        field<&HillKeys::to_half_height_behind>(
            "to_half_height_behind",
            "ASCE 7: the same on the far side of a hill or ridge; left out: as on this side, and said so")
            .within(Bound::positive)
            .firmly(m(2), m(20000)),
        field<&HillKeys::upwind_slope>("upwind_slope", "EN 1991-1-4: the length of the upwind slope, on the level")
            .within(Bound::positive)
            .firmly(m(2), m(20000)),
        field<&HillKeys::downwind_slope>("downwind_slope",
                                         "EN 1991-1-4: the length of a hill's or ridge's downwind slope, on the level")
            .within(Bound::positive)
            .firmly(m(2), m(20000)),
        field<&HillKeys::past_crest>("past_crest", "how far the house stands past the crest, as the wind blows")
            .within(Bound::not_negative)
            .firmly(m(0), m(50000)),
        field<&HillKeys::before_crest>("before_crest", "how far it stands before the crest")
            .within(Bound::not_negative)
            .firmly(m(0), m(50000))};
    return rows;
  }
};
template <> struct Rows<BuildingsKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&BuildingsKeys::count>("count",
                                     "how many stand upwind, within 45 degrees and twenty of the house's heights")
            .needed()
            .believed(count(0), count(200)),
        field<&BuildingsKeys::height>("height", "their mean roof height")
            .needed()
            .within(Bound::positive)
            .firmly(m(2), m(50)),
        field<&BuildingsKeys::breadth>("breadth", "their mean breadth across the wind")
            .needed()
            .within(Bound::positive)
            .firmly(m(2), m(100))};
    return rows;
  }
};
template <> struct Rows<UpwindKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field_by<WordsKey, &UpwindKeys::from>("from",
                                              "the directions that the wind comes from, such as [\"N\", \"NE\"]")
            .needed(),
        field_by<WordKey, &UpwindKeys::terrain>("terrain", "the terrain category on that side"),
        field_by<WordKey, &UpwindKeys::shielding>("shielding", "the shielding multiplier on that side, 0.7 to 1"),
        field<&UpwindKeys::topography>("topography", "\"flat\" on that side, where [site] states a hill"),
        field<&UpwindKeys::buildings>("buildings",
                                      "the buildings that shield on that side: { count, height, breadth }"),
        field<&UpwindKeys::hill>("hill", "the hill on that side")};
    return rows;
  }
};
template <> struct Rows<SiteKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&SiteKeys::wind_class>(
            "class", "AS 4055: the wind class, N1 to N6 or C1 to C4; left out: worked out from the ground"),
        field<&SiteKeys::method>("method",
                                 "the wind method and its edition, such as \"AS/NZS 1170.2:2021\" or \"ASCE "
                                 "7-16\"; needed where no class stands"),
        field<&SiteKeys::given_by>("given_by", "who gave the class, the speed or the site's figures, on what evidence"),
        field<&SiteKeys::region>("region", "AS/NZS 1170.2, AS 4055: the wind region, such as \"A2\""),
        field<&SiteKeys::probability>("probability",
                                      "AS/NZS 1170.2: the annual probability that the gust is exceeded, \"1:500\""),
        field<&SiteKeys::service_probability>("service_probability",
                                              "AS/NZS 1170.2: the same for serviceability; left out: 1:25"),
        field<&SiteKeys::north>("north",
                                "AS/NZS 1170.2: the sheet's north arrow, \"20 deg right of up\"; left out: not "
                                "known, every face takes the worst direction"),
        field_by<WordKey, &SiteKeys::terrain>(
            "terrain", "AS/NZS 1170.2, AS 4055: the terrain category, such as \"2.5\"; EN 1991-1-4: 0, I to IV"),
        field_by<WordKey, &SiteKeys::shielding>(
            "shielding", "AS/NZS 1170.2: the multiplier, 0.7 to 1; AS 4055: \"FS\", \"PS\" or \"NS\"; left out: none"),
        field<&SiteKeys::buildings>("buildings",
                                    "AS/NZS 1170.2: the buildings that shield, counted: { count, height, breadth }"),
        field<&SiteKeys::topography>(
            "topography",
            "\"flat\", where no hill stands; with a class table of one's own also its words; left out: "
            "flat, and said so"),
        field<&SiteKeys::hill>("hill", "the hill, ridge or escarpment that the wind comes over"),
        field<&SiteKeys::upwind>("upwind", "AS/NZS 1170.2: [[site.upwind]], what differs from some directions"),
        field<&SiteKeys::ground_level>("ground_level",
                                       "AS/NZS 1170.2, ASCE 7-16: the ground above the sea; left out: at the sea")
            .within(Bound::not_negative)
            .believed(m(0), m(4000)),
        field<&SiteKeys::sealed>("sealed", "AS/NZS 1170.2: the house is as good as airtight; left out: it is not"),
        field<&SiteKeys::class_table>(
            "class_table", "AS 4055: a file with a table of classes of one's own, beside the job; it governs"),
        field<&SiteKeys::zone>("zone", "NZS 3604: the wind zone, L, M, H, VH or EH"),
        field<&SiteKeys::speed>("speed",
                                "ASCE 7: the basic wind speed, a 3-second gust; EN 1991-1-4: the fundamental "
                                "basic wind velocity, a 10-minute mean")
            .within(Bound::positive)
            .believed(mps(15), mps(150)),
        field<&SiteKeys::speed_is>("speed_is",
                                   "ASCE 7: what the speed is: \"ultimate\" (7-10 and later) or \"nominal\" (7-05)"),
        field<&SiteKeys::exposure>("exposure", "ASCE 7: the exposure of the site: B, C or D"),
        field<&SiteKeys::risk>("risk", "ASCE 7: the risk category, I to IV"),
        field<&SiteKeys::level>("level", "ASCE 7: the level of the fixings' capacities: \"allowable\" or \"strength\""),
        field<&SiteKeys::procedure>("procedure",
                                    "ASCE 7: \"envelope\" (low-rise) or \"directional\"; left out: envelope"),
        field<&SiteKeys::debris_region>("debris_region",
                                        "ASCE 7, AS/NZS 1170.2: whether the site lies where the wind carries debris"),
        field<&SiteKeys::directional_factor>("directional_factor",
                                             "EN 1991-1-4: c_dir of the country; left out: the recommended one")
            .within(Bound::positive)
            .believed(count(0.5), count(1.5)),
        field<&SiteKeys::season_factor>("season_factor",
                                        "EN 1991-1-4: c_season of the country; left out: the recommended one")
            .within(Bound::positive)
            .believed(count(0.5), count(1.5)),
        field<&SiteKeys::probability_factor>("probability_factor",
                                             "EN 1991-1-4: c_prob of the country; left out: one for once in 50 years")
            .within(Bound::positive)
            .believed(count(0.5), count(2)),
        field<&SiteKeys::air_density>("air_density",
                                      "EN 1991-1-4: the country's density of air; left out: the recommended one")
            .within(Bound::positive)
            .believed(kg_m3(1), kg_m3(1.4)),
        field<&SiteKeys::design_gust>("design_gust",
                                      "AS/NZS 1170.2, EN 1991-1-4: the gust at roof height, typed in by an engineer "
                                      "instead of a site worked out; marked on every page")
            .within(Bound::positive)
            .believed(mps(15), mps(150)),
        field<&SiteKeys::design_pressure>(
            "design_pressure",
            "AS/NZS 1170.2, ASCE 7, EN 1991-1-4: the pressure of the gust at roof height, "
            "typed in by an engineer; marked on every page")
            .within(Bound::positive)
            .believed(kPa(0.1), kPa(10)),
        field<&SiteKeys::judge_by>("judge_by", "where several sites are stated: which of them the house is judged by")};
    return rows;
  }
};
template <> struct Rows<Site> {
  static std::span<const Field> list() { return Rows<SiteKeys>::list(); }
};
namespace {
// A table among the site's keys is the site by the method that it is named after.
bool site_of_a_method(void* object, std::string_view key, const toml::node& n, Reading& r) {
  Site& site = *static_cast<Site*>(static_cast<SiteKeys*>(object));
  if (!n.is_table()) return false;
  SiteKeys keys;
  r.key = key;
  step_into(r, path_under(r, key), [&] { return read_rows(&keys, Rows<SiteKeys>::list(), n, r); });
  site.by_method.emplace(key, std::move(keys));
  return true;
}
}  // namespace
template <> struct Codec<Site> {
  static constexpr std::string_view takes = "a table";
  static constexpr std::span<const Field> (*inside)() = &Rows<Site>::list;
  static bool read(Site& to, const toml::node& n, Reading& r, const Field&) {
    return read_rows(static_cast<SiteKeys*>(&to), Rows<SiteKeys>::list(), n, r, site_of_a_method);
  }
};
template <> struct Rows<ClassRowKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field_by<WordsKey, &ClassRowKeys::region>("region", "the regions that the row is for; left out: all")
            .may_lack(),
        field_by<WordsKey, &ClassRowKeys::terrain>("terrain", "the terrain categories; left out: all").may_lack(),
        field_by<WordsKey, &ClassRowKeys::topography>("topography", "the topographic classes; left out: all")
            .may_lack(),
        field_by<WordsKey, &ClassRowKeys::shielding>("shielding", "the shielding classes; left out: all").may_lack(),
        field<&ClassRowKeys::wind_class>("class", "the class that this ground has, N1 to N6 or C1 to C4").needed()};
    return rows;
  }
};
template <> struct Rows<ClassTableKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&ClassTableKeys::source>("source", "which copy of which edition the table was typed from, and by whom")
            .needed(),
        field<&ClassTableKeys::rows>("row", "[[row]], one for each kind of ground").needed()};
    return rows;
  }
};
template <> struct Rows<Weight> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&Weight::least>("least", "the weight that is surely there, which resists")
            .needed()
            .within(Bound::positive)
            .believed(kPa(0.05), kPa(2)),
        field<&Weight::greatest>("greatest", "the weight with all that may come, which adds")
            .needed()
            .within(Bound::positive)
            .believed(kPa(0.05), kPa(2)),
        field<&Weight::on>("on", "per square metre of \"plan\" or of \"slope\"; left out: plan").one_of(planes)};
    return rows;
  }
};
namespace {
struct WeightKey : TextOr<Weight> {
  static constexpr std::string_view takes = "a pressure, or least and greatest";
  static bool read(Maybe<Weight>& to, const toml::node& n, Reading& r, const Field& f) {
    if (n.is_table()) return Codec<Maybe<Weight>>::read(to, n, r, f);
    const std::optional<Value> v = read_value(Kind::pressure, n, r, f);
    if (v) to = Weight{quantity<Pressure>(*v), quantity<Pressure>(*v), {}};
    return v.has_value();
  }
};
// One text, or a list of them.
struct TextsKey {
  static constexpr std::string_view takes = "text or a list of texts";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(std::vector<std::string>& to, const toml::node& n, Reading& r, const Field& f) {
    std::string text;
    const toml::array* list = n.as_array();
    if (list == nullptr) {
      if (!n.is_string()) return wrong_type(n, r, f);
      if (!read_text(text, n, r, f)) return false;
      to.push_back(std::move(text));
      return true;
    }
    if (list->empty()) {
      r.problem(n.source(), "empty-list", fmt::format("`{}` is an empty list: {}", r.key, f.doc));
      return false;
    }
    for (std::size_t i = 0; i < list->size(); ++i)
      if (step_into(r, path_under(r, i), [&] { return read_text(text, *list->get(i), r, f); })) to.push_back(text);
    return true;
  }
};
}  // namespace
namespace {
struct WallNamesKey : TextsKey {
  static constexpr std::string_view takes = "text";
};
}  // namespace
template <> struct Rows<raw::NamesAbove> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&raw::NamesAbove::front>("front", "the first floor's wall at the bottom of the sheet"),
        field<&raw::NamesAbove::right>("right", "the first floor's wall at the right of the sheet"),
        field<&raw::NamesAbove::back>("back", "the first floor's wall at the top of the sheet"),
        field<&raw::NamesAbove::left>("left", "the first floor's wall at the left of the sheet")};
    return rows;
  }
};
// Of a side beside wings one name for each stretch. alone: the house is one block, and each side has its wall.
template <bool alone> constexpr std::array<Field, 5> rows_of_wall_names() {
  std::array<Field, 5> rows{field_by<WallNamesKey, &WallNames::front>("front", "the wall at the bottom of the sheet"),
                            field_by<WallNamesKey, &WallNames::right>("right", "the wall at the right of the sheet"),
                            field_by<WallNamesKey, &WallNames::back>("back", "the wall at the top of the sheet"),
                            field_by<WallNamesKey, &WallNames::left>("left", "the wall at the left of the sheet"),
                            field<&WallNames::first>("first",
                                                     "of two floors, the first floor's walls where they have other "
                                                     "names; left out: the first name of each side")};
  for (Field& f : rows) f.required = alone && f.key != "first";
  return rows;
}
template <> struct Rows<WallNames> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_of_wall_names<true>();
    return rows;
  }
};
namespace {
struct WallNamesOfSeveral {
  static constexpr std::string_view takes = "a table";
  static constexpr std::span<const Field> (*inside)() = &Rows<WallNames>::list;
  static bool read(Maybe<WallNames>& to, const toml::node& n, Reading& r, const Field&) {
    static constexpr auto rows = rows_of_wall_names<false>();
    WallNames names;
    const bool good = read_rows(&names, rows, n, r);
    if (good) to = std::move(names);
    return good;
  }
};
}  // namespace
template <> struct Rows<Place> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&Place::against>("against", "the block and the side that it stands against, such as \"main front\"")
            .needed(),
        field<&Place::flush>("flush", "the end of that side with which it stands flush").one_of(sides),
        field<&Place::from_left>("from_left", "at the front or the back: how far from the left end of that side")
            .within(Bound::not_negative)
            .believed(mm(0), m(60)),
        field<&Place::from_front>("from_front", "at the left or the right: how far from the front end of that side")
            .within(Bound::not_negative)
            .believed(mm(0), m(60))};
    return rows;
  }
};
template <> struct Rows<raw::SideOfRoof> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&raw::SideOfRoof::pitch>("pitch", "of the slope that falls to this side, such as \"22.5 deg\"")
            .within(Bound::not_negative)
            .believed(degrees(0), degrees(60.000001)),
        field<&raw::SideOfRoof::overhang>("overhang", "past this side's wall, on plan")
            .within(Bound::not_negative)
            .believed(mm(0), mm(1500)),
        field<&raw::SideOfRoof::gable_above>(
            "gable_above", "of a hip end: how far in from its wall a gable stands on it, over the hip girder")
            .within(Bound::positive)
            .firmly(mm(600), m(20))};
    return rows;
  }
};
template <> struct Rows<raw::Roof> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&raw::Roof::shape>("shape", "the roof's shape: \"gable\", \"hip\", \"skillion\" or \"flat\"")
            .needed()
            .one_of(roof_shapes),
        field<&raw::Roof::ridge>("ridge", "the way the ridge runs on the sheet: \"across\" or \"up\"").one_of(ridges),
        field<&raw::Roof::high>("high", "the side at which a skillion or flat roof is high").one_of(sides),
        field_by<TextsKey, &raw::Roof::hipped>("hipped", "the ends of a hip roof that slope; left out: both")
            .one_of(sides),
        field<&raw::Roof::pitch>("pitch", "the slope of the roof, such as \"22.5 deg\"")
            .within(Bound::not_negative)
            .believed(degrees(0), degrees(60.000001)),
        field<&raw::Roof::eaves>("eaves", "the overhang past the walls that a slope falls to, on plan")
            .within(Bound::not_negative)
            .believed(mm(0), mm(1500)),
        field<&raw::Roof::verge>("verge",
                                 "the overhang past the other walls: at gables, at a skillion's ends and high "
                                 "side")
            .within(Bound::not_negative)
            .believed(mm(0), mm(1500)),
        field<&raw::Roof::front>("front", "what is its own at the front: { pitch, overhang, gable_above }"),
        field<&raw::Roof::right>("right", "what is its own at the right: { pitch, overhang, gable_above }"),
        field<&raw::Roof::back>("back", "what is its own at the back: { pitch, overhang, gable_above }"),
        field<&raw::Roof::left>("left", "what is its own at the left: { pitch, overhang, gable_above }"),
        field_by<WeightKey, &raw::Roof::weight>("weight",
                                                "the roof's own weight: one value, or { least, greatest, on }")
            .needed()
            .within(Bound::positive)
            .believed(kPa(0.05), kPa(2))};
    return rows;
  }
};
template <> struct Rows<TrussRow> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&TrussRow::mark>("mark", "the trusses' mark on the layout").needed(),
        field<&TrussRow::max>("max", "the greatest space between trusses")
            .within(Bound::positive)
            .firmly(mm(300), mm(3000)),
        field<&TrussRow::odd_space>(
            "odd_space", "where the space stands that is left over: an end, or \"middle\"; left out: equal spaces"),
        field<&TrussRow::at>("at", "their places along the ridge, from the left or the front").within(Bound::any),
        field_by<TextsKey, &TrussRow::also_on>(
            "also_on", "the inside walls that each of these trusses bears on as well, such as [\"E\"]"),
        field<&TrussRow::clear_of>("clear_of",
                                   "the side at which these trusses bear on nothing: they stick out past the inside "
                                   "wall in `also_on`, over a porch or a recess")
            .one_of(sides),
        field<&TrussRow::plies>("plies", "how many trusses stand side by side as one, 1 to 4; left out: 1")
            .believed(count(1), count(4)),
        field<&TrussRow::hip_girder>("hip_girder", "a hip girder: how far it stands from its hip end's wall")
            .within(Bound::positive)
            .firmly(mm(600), m(20)),
        field<&TrussRow::jacks>("jacks", "the jacks of a hip end: the greatest space between them")
            .within(Bound::positive)
            .firmly(mm(300), mm(1200)),
        field<&TrussRow::hip_rafters>("hip_rafters", "true: the mark of a hip end's two rafters"),
        field<&TrussRow::end>("end", "the hip end that the row is for; left out: each").one_of(sides),
        field<&TrussRow::valley>("valley",
                                 "the valley trusses of a wing, set on the main block's trusses: the greatest space "
                                 "between them")
            .within(Bound::positive)
            .firmly(mm(300), mm(1200))};
    return rows;
  }
};
template <> struct Rows<Heights> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&Heights::ground>("ground", "of the ground floor's frame: underside of bottom plate to top of top plate")
            .needed()
            .within(Bound::positive)
            .believed(mm(1800), mm(6000)),
        field<&Heights::first>("first", "of the first floor's frame, in the same way")
            .needed()
            .within(Bound::positive)
            .believed(mm(1800), mm(6000))};
    return rows;
  }
};
template <> struct Rows<FootingKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&FootingKeys::thickness>("thickness", "of the concrete under a post")
            .within(Bound::positive)
            .firmly(mm(75), mm(3000)),
        field<&FootingKeys::edge>("edge", "from a post's anchor to the concrete's nearest edge")
            .within(Bound::positive)
            .firmly(mm(20), mm(5000)),
        field<&FootingKeys::concrete>("concrete", "its strength, such as \"25 MPa\"")
            .within(Bound::positive)
            .believed(kPa(10000), kPa(100000)),
        field<&FootingKeys::cracked>("cracked", "whether it counts as cracked"),
        field<&FootingKeys::width>("width",
                                   "of the footing of one post; with `length`, `thickness` and `weight` it is weighed")
            .within(Bound::positive)
            .firmly(mm(100), m(4)),
        field<&FootingKeys::length>("length", "of the footing of one post")
            .within(Bound::positive)
            .firmly(mm(100), m(4)),
        field<&FootingKeys::weight>("weight", "what a volume of its concrete weighs, such as \"24 kN/m3\"")
            .within(Bound::positive)
            .believed(kN_m3(15), kN_m3(30))};
    return rows;
  }
};
namespace {
// Of a stump's footing: nothing is set in it that would ask for its concrete.
struct StumpFooting {
  static constexpr std::string_view takes = "a table";
  static std::span<const Field> rows() {
    static constexpr Field list[]{
        field<&FootingKeys::width>("width", "of the footing of one stump")
            .needed()
            .within(Bound::positive)
            .firmly(mm(100), m(4)),
        field<&FootingKeys::length>("length", "of the footing of one stump")
            .needed()
            .within(Bound::positive)
            .firmly(mm(100), m(4)),
        field<&FootingKeys::thickness>("thickness", "of the concrete under a stump")
            .needed()
            .within(Bound::positive)
            .firmly(mm(75), mm(3000)),
        field<&FootingKeys::weight>("weight", "what a volume of its concrete weighs, such as \"24 kN/m3\"")
            .needed()
            .within(Bound::positive)
            .believed(kN_m3(15), kN_m3(30))};
    return list;
  }
  static constexpr std::span<const Field> (*inside)() = &rows;
  static bool read(Maybe<FootingKeys>& to, const toml::node& n, Reading& r, const Field&) {
    FootingKeys keys;
    const bool good = read_rows(&keys, rows(), n, r);
    if (good) to = keys;
    return good;
  }
};
}  // namespace
template <> struct Rows<StumpKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&StumpKeys::max>(
            "max", "the greatest space between two under a wall; they stand at equal spaces, one at each end")
            .needed()
            .within(Bound::positive)
            .firmly(mm(600), mm(4000)),
        field<&StumpKeys::tie>("tie", "the tie of the floor's bearer on to a stump; left out: NOT JUDGED"),
        field_by<StumpFooting, &StumpKeys::footing>(
            "footing", "the concrete under each: { width, length, thickness, weight }; left out: NOT JUDGED")};
    return rows;
  }
};
template <> struct Rows<SubfloorBraceKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&SubfloorBraceKeys::use>("use", "the rated unit's entry in the fixings file").needed(),
        field<&SubfloorBraceKeys::count>("count", "how many of them brace the floor that way")
            .needed()
            .believed(count(1), count(200))};
    return rows;
  }
};
template <> struct Rows<SubfloorKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&SubfloorKeys::across>("across", "against wind across the sheet: { use, count }; left out: NOT JUDGED"),
        field<&SubfloorKeys::up>("up", "against wind up and down the sheet, in the same way")};
    return rows;
  }
};
namespace {
// What is said of a floor's joists, behind some keys of its own.
template <class Floor, std::size_t N> constexpr std::array<Field, N + 7> with_joists(const std::array<Field, N>& own) {
  const std::array<Field, 7> joists{
      field<&Floor::lie, &JoistKeys::joists>("joists",
                                             "the way its joists run, \"across\" the sheet or \"up\"; left out: "
                                             "fixings into the floor are taken to meet one")
          .one_of(ridges),
      field<&Floor::lie, &JoistKeys::spacing>("spacing", "from the middle of one joist to the next")
          .needed_beside("joists")
          .within(Bound::positive)
          .firmly(mm(200), mm(1200)),
      field<&Floor::lie, &JoistKeys::joist_width>("joist_width", "how wide a joist is where a fixing goes into it")
          .needed_beside("joists")
          .within(Bound::positive)
          .firmly(mm(30), mm(300)),
      field<&Floor::lie, &JoistKeys::odd_space>(
          "odd_space", "the side at which a space is left over; left out: the right or the back")
          .one_of(sides),
      field<&Floor::lie, &JoistKeys::edge>("edge",
                                           "true: a member runs under all outside walls, across the joists' ends too"),
      field<&Floor::lie, &JoistKeys::blocking>(
          "blocking", "true: a piece is set between two joists under every fixing that meets none"),
      field<&Floor::lie, &JoistKeys::weight>(
          "weight", "its own weight that is sure to be there; it counts for the whole house alone")
          .within(Bound::positive)
          .believed(kPa(0.05), kPa(5))};
  std::array<Field, N + 7> all = [&]<std::size_t... O, std::size_t... J>(std::index_sequence<O...>,
                                                                         std::index_sequence<J...>) {
    return std::array<Field, N + 7>{own[O]..., joists[J]...};
  }
  (std::make_index_sequence<N>(), std::make_index_sequence<7>());
  return all;
}
}  // namespace
template <> struct Rows<FramedFloor> {
  static std::span<const Field> list() {
    static constexpr auto rows = with_joists<FramedFloor>(std::array{
        field<&FramedFloor::depth>(
            "depth", "from the top of the walls below to the underside of the first floor's bottom plates")
            .needed()
            .within(Bound::positive)
            .believed(mm(100), mm(800)),
        field<&FramedFloor::greatest_weight>(
            "greatest_weight", "its own weight at most, with the ceiling under it; it presses on the walls below")
            .within(Bound::positive)
            .believed(kPa(0.1), kPa(5)),
        field<&FramedFloor::live>("live",
                                  "the load of people and goods on it by the standard, without any factor; "
                                  "it presses on the walls below")
            .within(Bound::positive)
            .believed(kPa(1), kPa(4.5))});
    return rows;
  }
};
template <> struct Rows<GroundFloorKeys> {
  static std::span<const Field> list() {
    static constexpr auto rows = with_joists<GroundFloorKeys>(std::array{
        field<&GroundFloorKeys::stumps>("stumps", "what it stands on under its walls: { max, tie, footing }"),
        field<&GroundFloorKeys::braces>("braces", "what braces it above the ground: { across, up }")});
    return rows;
  }
};
template <> struct Rows<Floors> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&Floors::ground>("ground", "of a house on stumps, the framed floor under the ground floor's walls"),
        field<&Floors::first>("first", "the framed floor between the ground floor's walls and the first floor's")};
    return rows;
  }
};
namespace {
// One height, or one for each of two floors.
struct HeightKey {
  static constexpr std::string_view takes = "a length, or { ground, first }";
  static constexpr std::span<const Field> (*inside)() = &Rows<Heights>::list;
  static bool read(Maybe<Heights>& to, const toml::node& n, Reading& r, const Field& f) {
    Heights heights;
    heights.by_floor = n.is_table();
    const bool good =
        heights.by_floor ? read_rows(&heights, inside(), n, r) : Codec<Maybe<Length>>::read(heights.ground, n, r, f);
    if (good) to = heights;
    return good;
  }
};
}  // namespace
template <> struct Rows<RoofBraceRow> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&RoofBraceRow::use>("use", "the strap's entry in the fixings file").needed(),
        field<&RoofBraceRow::slope>("slope", "the slope that it lies in: the side that the slope falls to")
            .needed()
            .one_of(sides),
        field<&RoofBraceRow::foot>("foot",
                                   "where its foot stands on the wall: along the ridge, from the left or the front")
            .needed()
            .within(Bound::any),
        field<&RoofBraceRow::head>("head", "where its head stands, in the same way").needed().within(Bound::any),
        field<&RoofBraceRow::up_to>("up_to",
                                    "level distance from the wall to its head; left out: the head stands at the ridge")
            .within(Bound::positive)
            .firmly(mm(300), m(60))};
    return rows;
  }
};
namespace {
constexpr std::array<Field, 12> rows_of_block() {
  return {
      field<&Block::floor_level>("floor_level", "the floor above the ground, at the lowest side")
          .needed()
          .within(Bound::not_negative)
          .believed(mm(0), mm(3000)),
      field<&Block::size>("size", "the block's size to the frame's outside face: across the sheet, up the sheet")
          .needed()
          .within(Bound::positive)
          .believed(mm(300), m(60)),
      field<&Block::walls>("walls",
                           "the names of its outside walls; of a side that other blocks leave in stretches a list "
                           "of names")
          .needed(),
      field_by<HeightKey, &Block::height>("height", "the frame: underside of bottom plate to top of top plate")
          .needed()
          .within(Bound::positive)
          .believed(mm(1800), mm(6000)),
      field<&Block::floor>(
          "floor", "the framed floors: of two floors { first = { depth } }, of a house on stumps { ground = { ... } }"),
      field<&Block::roof>("roof", "the roof over it").needed(),
      field<&Block::wall_weight>("wall_weight", "the walls' own weight per area; left out: no relief from it")
          .within(Bound::positive)
          .believed(kPa(0.05), kPa(2)),
      field<&Block::ceiling>("ceiling",
                             "how the ceiling hands the wind to the bracing lines: \"flexible\", \"rigid\", or the "
                             "worse of \"both\", which is taken when left out")
          .one_of(ceilings),
      field<&Block::trusses>("trusses", "the trusses by mark and greatest space, or by their places").needed(),
      field<&Block::roof_braces>("roof_braces",
                                 "the straps in the plane of the roof: { use, slope, foot, head, up_to }; left out: "
                                 "the bracing of the roof is not looked at"),
      field<&Block::place>("place",
                           "of a block that stands against another: { against, flush }, or from_left or from_front"),
      field<&Block::slab>("slab",
                          "of a block that stands against another: the level of its floor above the other's, "
                          "negative when it is set down; left out: the same level")
          .within(Bound::any)
          .believed(mm(-600), mm(600))};
}
}  // namespace
template <> struct Rows<Block> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_of_block();
    return rows;
  }
};
// Of several blocks not each has every key: which of them must have it is settled later.
template <> struct Codec<std::map<std::string, Block>> {
  static constexpr std::string_view takes = "a table";
  static constexpr std::span<const Field> (*inside)() = &Rows<Block>::list;
  static bool read(std::map<std::string, Block>& to, const toml::node& n, Reading& r, const Field& f) {
    static constexpr auto rows = [] {
      auto all = rows_of_block();
      for (Field& row : all) {
        if (row.key == "floor_level") row = row.may_lack();
        if (row.key == "walls") row = field_by<WallNamesOfSeveral, &Block::walls>("walls", row.doc).needed();
      }
      return all;
    }();
    const toml::table* table = n.as_table();
    if (table == nullptr) return wrong_type(n, r, f);
    for (const auto& entry : *table) {
      r.key = entry.first.str();
      r.key_at = entry.first.source();
      Block block;
      const std::string name(entry.first.str());
      const std::span<const Field> keys = table->size() == 1 ? Rows<Block>::list() : std::span<const Field>(rows);
      if (step_into(r, path_under(r, name), [&] { return read_rows(&block, keys, entry.second, r); }))
        to.emplace(name, std::move(block));
    }
    return true;
  }
};
template <> struct Rows<raw::Mark> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&raw::Mark::size>("size", "an opening's height x width, as the window list gives it"),
        field_by<DoorKey, &raw::Mark::door>(
            "door",
            "the opening stands on the floor; left out: from 1900 mm of height, 2400 mm wide ones from 1500 mm"),
        field<&raw::Mark::wind_rated>(
            "wind_rated",
            "what wind a wide door is rated for: a class, a speed, or \"not known\" (then it counts as open)"),
        field<&raw::Mark::impact_rated>("impact_rated",
                                        "whether it stands what a storm carries; asked for in a debris region"),
        field<&raw::Mark::jamb>("jamb", "the anchor at the foot of its jambs"),
        field<&raw::Mark::open>("open", "nothing closes the opening"),
        field<&raw::Mark::brace>("brace", "a brace: its entry in the fixings file"),
        field<&raw::Mark::hold_down>("hold_down", "the anchor at the brace's ends"),
        field<&raw::Mark::end_studs>("end_studs", "the stud group at the brace's ends, which bears what presses there"),
        field<&raw::Mark::foot>("foot", "the end at which a single strap stands: \"left\" or \"right\"").one_of(feet),
        field<&raw::Mark::round_openings>(
            "round_openings",
            "of a brace under [[perforated]], true: its sheet goes on above and below the openings beside it; left "
            "out: they count as high as the wall")};
    return rows;
  }
};
// An opening's size alone, or all of a mark.
template <> struct Codec<raw::Mark> : TextOr<raw::Mark> {
  static bool read(raw::Mark& to, const toml::node& n, Reading& r, const Field& f) {
    if (n.is_string()) return Codec<Maybe<std::string>>::read(to.size, n, r, f);
    if (!n.is_table())
      return wrong_type(n, r, f, "an opening: \"2100 x 900\"; a brace: { brace = \"...\", hold_down = \"...\" }");
    return read_rows(&to, Rows<raw::Mark>::list(), n, r);
  }
};
template <> struct Rows<Anchors> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&Anchors::use>("use", "the anchor's entry in the fixings file").needed(),
        field<&Anchors::max>("max", "the greatest space between plate anchors")
            .needed_unless("each")
            .within(Bound::positive)
            .firmly(mm(200), mm(3000)),
        field<&Anchors::each>("each",
                              "\"joist\", of a first floor: one at every joist that the wall crosses, else one "
                              "joist's space apart at the most")
            .one_of(each_of)};
    return rows;
  }
};
template <> struct Rows<FloorFixing> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&FloorFixing::use>("use", "the anchor's entry in the fixings file, of one that is not in concrete")
            .needed(),
        field<&FloorFixing::max>("max", "the greatest space between two of them along a bracing line")
            .needed()
            .within(Bound::positive)
            .firmly(mm(50), mm(3000))};
    return rows;
  }
};
namespace {
// One bracket for all trusses, or one for each mark and `rest`.
struct TrussKey {
  static constexpr std::string_view takes = "a bracket's name, or a table of them by the trusses' marks";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(Maybe<TrussTies>& to, const toml::node& n, Reading& r, const Field& f) {
    TrussTies ties;
    if (!n.is_string() && !n.is_table()) return wrong_type(n, r, f);
    const bool good =
        n.is_string() ? Codec<Maybe<std::string>>::read(ties.all, n, r, f) : Codec<Texts>::read(ties.by_mark, n, r, f);
    if (good) to = std::move(ties);
    return good;
  }
};
}  // namespace
// What is said for every floor at once (then in a member), and in the same keys for one of two.
template <auto... Where, class... Own> constexpr auto rows_of_floor(Own... own) {
  constexpr Field plate = field<Where..., &OfFloor::plate>("plate", "the width of the bottom plate")
                              .within(Bound::positive)
                              .believed(mm(35), mm(300));
  return std::array<Field, 10 + sizeof...(Own)>{
      field<Where..., &OfFloor::jamb>("jamb", "the anchor at the foot of every jamb"),
      field<Where..., &OfFloor::anchor>("anchor", "the plate anchors: { use, max }"),
      sizeof...(Where) > 0 ? plate.needed() : plate,
      field<Where..., &OfFloor::top_tie>("top_tie", "the tie from top plate to stud; left out: NOT JUDGED"),
      field<Where..., &OfFloor::stud_tie>("stud_tie", "the tie from stud to bottom plate; left out: NOT JUDGED"),
      field<Where..., &OfFloor::plate_fixing>(
          "plate_fixing", "what carries a stud's pull along the plate to its anchors; left out: NOT JUDGED"),
      field<Where..., &OfFloor::hold_down>("hold_down", "the anchor at every brace's ends, where its mark names none"),
      field<Where..., &OfFloor::end_studs>(
          "end_studs", "the stud group at every brace's ends, where its mark names none; left out: NOT JUDGED"),
      field<Where..., &OfFloor::hold_down_in>("hold_down_in", "from a brace's end to its hold-down; left out: 100 mm")
          .within(Bound::not_negative)
          .believed(mm(20), mm(300)),
      field<Where..., &OfFloor::plate_anchors_share>(
          "plate_anchors_share", "plate anchors within a brace's length share its slide with the hold-downs"),
      own...};
}
template <> struct Rows<OfFloor> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_of_floor<>();
    return rows;
  }
};
template <> struct Rows<UnlessNoted> {
  static std::span<const Field> list() {
    static constexpr auto rows = rows_of_floor<&UnlessNoted::every>(
        field_by<TrussKey, &UnlessNoted::truss>(
            "truss", "the bracket at a truss's bearing on a wall: one, or one for each mark and `rest`"),
        field_by<TrussKey, &UnlessNoted::onto>(
            "onto",
            "the bracket of jacks and hip rafters on their girder, of short jacks on the hip rafter: one, or "
            "one for each mark and `rest`"),
        field<&UnlessNoted::floor_tie>("floor_tie",
                                       "the tie that takes what lifts a fixing of the first floor's walls down to the "
                                       "wall below; left out: NOT JUDGED"),
        field<&UnlessNoted::floor_fixing>(
            "floor_fixing",
            "the anchor of the first floor on to the walls below, along each bracing line: { use, max }; left out: NOT "
            "JUDGED"),
        field<&UnlessNoted::ground>("ground", "of a house of two floors, what its ground floor has of its own"),
        field<&UnlessNoted::first>("first", "of a house of two floors, what its first floor has of its own"));
    return rows;
  }
};
namespace {
// Any other table with a brace or a size is a mark that holds unless noted.
bool default_mark(void* object, std::string_view key, const toml::node& n, Reading& r) {
  const toml::table* t = n.as_table();
  if (t == nullptr || !(t->contains("brace") || t->contains("size") || t->contains("hold_down"))) return false;
  // A floor misspelt is no mark.
  if (!t->contains("brace") && !t->contains("size") && !nearest(key, floor_words).empty()) return false;
  static constexpr Field any{"",    "a mark",         "a table",        false, Bound::any, false,
                             false, {0, Kind::ratio}, {0, Kind::ratio}, {},    nullptr,    nullptr};
  raw::Mark mark;
  if (Codec<raw::Mark>::read(mark, n, r, any))
    static_cast<UnlessNoted*>(object)->marks.emplace(std::string(key), std::move(mark));
  return true;
}
}  // namespace
template <> struct Codec<UnlessNoted> : TextOr<UnlessNoted> {
  static constexpr std::string_view takes = "a table";
  static bool read(UnlessNoted& to, const toml::node& n, Reading& r, const Field&) {
    return read_rows(&to, Rows<UnlessNoted>::list(), n, r, default_mark);
  }
};
template <> struct Rows<raw::Wall> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&raw::Wall::run>("run", "its pieces from left to right (side walls: bottom to top), between bars"),
        field<&raw::Wall::same_as>("same_as", "another wall with the same run"),
        field<&raw::Wall::mirror_of>("mirror_of", "another wall whose run, turned round, is this one's"),
        field<&raw::Wall::from>("from", "the end at which the run begins, when it is not the left or the front"),
        field<&raw::Wall::in>("in", "the block that an inside wall stands in"),
        field<&raw::Wall::from_left>("from_left", "an inside wall that runs up the sheet: how far from the left")
            .within(Bound::not_negative)
            .believed(mm(0), m(60)),
        field<&raw::Wall::from_front>("from_front", "an inside wall that runs across the sheet: how far from the front")
            .within(Bound::not_negative)
            .believed(mm(0), m(60)),
        field<&raw::Wall::between>("between",
                                   "an inside wall's extent, when it does not reach through the block: [from, to]")
            .within(Bound::not_negative)
            .believed(mm(0), m(60)),
        field<&raw::Wall::frames>("frames",
                                  "the frames that it is made of in the shop, with their lengths, read as the run is: "
                                  "\"F1 2400 | F2 3600 | 1800\"")};
    return rows;
  }
};
template <> struct Codec<raw::Wall> : TextOr<raw::Wall> {
  static bool read(raw::Wall& to, const toml::node& n, Reading& r, const Field& f) {
    if (n.is_string()) return Codec<Maybe<std::string>>::read(to.run, n, r, f);
    if (!n.is_table()) return wrong_type(n, r, f, "a run, such as \"B 1200 | 3600 | B 1200\"");
    return read_rows(&to, Rows<raw::Wall>::list(), n, r);
  }
};
// Walls by their names; or a table of them for each of two floors. A table with a run is a wall, whatever it is called.
template <> struct Codec<Walls> {
  static constexpr std::string_view takes = "a table";
  static constexpr std::span<const Field> (*inside)() = &Rows<raw::Wall>::list;
  static bool read(Walls& to, const toml::node& n, Reading& r, const Field& f) {
    const toml::table* table = n.as_table();
    if (table == nullptr) return wrong_type(n, r, f);
    for (const auto& entry : *table) {
      r.key = entry.first.str();
      r.key_at = entry.first.source();
      const toml::table* t = entry.second.as_table();
      const std::string name(entry.first.str());
      const bool a_wall = t == nullptr || t->contains("run") || t->contains("same_as") || t->contains("mirror_of");
      const bool floor = !a_wall && (name == "ground" || name == "first");
      const std::string_view near_floor =
          a_wall || floor || t->contains("from_left") || t->contains("from_front") ? "" : nearest(name, floor_words);
      const std::string missing_floor = path_under(r, near_floor);
      step_into(r, path_under(r, name), [&] {
        if (floor) return Codec<Maybe<WallsByName>>::read(name == "ground" ? to.ground : to.first, entry.second, r, f);
        if (!near_floor.empty()) {
          r.problem(r.key_at, "unknown-key", fmt::format("unknown floor `{}`", name),
                    fmt::format("did you mean `{}`?", near_floor));
          r.unread.insert(r.unread.end(), {r.path, missing_floor});
          return false;
        }
        raw::Wall wall;
        const bool good = Codec<raw::Wall>::read(wall, entry.second, r, f);
        if (good) to.only.emplace(name, std::move(wall));
        return good;
      });
    }
    return true;
  }
};
template <> struct Rows<EdgeKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&EdgeKeys::width>("width",
                                "how wide the concrete is under the wall: an edge beam, a thickening, a footing")
            .needed()
            .within(Bound::positive)
            .firmly(mm(100), m(2)),
        field<&EdgeKeys::depth>("depth", "how deep it is, from the slab's face")
            .needed()
            .within(Bound::positive)
            .firmly(mm(75), m(2)),
        field<&EdgeKeys::slab_width>("slab_width",
                                     "how wide a part of the slab beside it comes up with it; left out: none")
            .within(Bound::positive)
            .firmly(mm(50), m(3)),
        field<&EdgeKeys::slab_thickness>("slab_thickness", "how thick that part of the slab is")
            .needed_beside("slab_width")
            .within(Bound::positive)
            .firmly(mm(50), mm(500)),
        field<&EdgeKeys::lifted>(
            "lifted",
            "the length of it that one fixing may call on, half to either side; left out: half way "
            "to its neighbours")
            .within(Bound::positive)
            .firmly(mm(200), m(20)),
        field<&EdgeKeys::given_by>("given_by", "who says that it is so, and strong enough to bring that weight")
            .needed()};
    return rows;
  }
};
template <> struct Rows<WholeSlabKeys> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&WholeSlabKeys::thickness>("thickness", "of the slab between its edges, at the least")
            .needed()
            .within(Bound::positive)
            .firmly(mm(50), mm(500)),
        field<&WholeSlabKeys::friction>("friction",
                                        "of the concrete on the ground, 0.05 to 1; left out: sliding is NOT JUDGED")
            .within(Bound::positive)
            .believed(count(0.05), count(1)),
        field<&WholeSlabKeys::given_by>("given_by", "who says so, on what evidence").needed()};
    return rows;
  }
};
template <> struct Rows<raw::Slab> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&raw::Slab::thickness>("thickness", "of the slab, or its edge, at the anchors")
            .within(Bound::positive)
            .firmly(mm(75), mm(1000)),
        field<&raw::Slab::concrete>("concrete", "its strength, such as \"25 MPa\"")
            .within(Bound::positive)
            .believed(kPa(10000), kPa(100000)),
        field<&raw::Slab::cracked>("cracked", "whether the concrete counts as cracked"),
        field<&raw::Slab::beyond>("beyond", "how far the slab reaches beyond the frame's outside face; left out: flush")
            .within(Bound::not_negative)
            .firmly(mm(0), mm(1500)),
        field<&raw::Slab::weight>("weight", "what a volume of its concrete weighs, such as \"24 kN/m3\"")
            .within(Bound::positive)
            .believed(kN_m3(15), kN_m3(30)),
        field<&raw::Slab::edge>("edge",
                                "the concrete under outside walls: { width, depth, lifted, given_by }; left out: the "
                                "ground under their fixings is NOT JUDGED"),
        field<&raw::Slab::inside>("inside", "the same under inside walls"),
        field<&raw::Slab::whole>(
            "whole",
            "the house as one block on the ground: { thickness, friction, given_by }; left out: its "
            "sliding and tipping are not looked at")};
    return rows;
  }
};
template <> struct Rows<raw::Frame> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&raw::Frame::steel>("steel", "the thickness of the frame's steel, with its unit (\"0.75 mm\")")
            .within(Bound::positive)
            .firmly(mm(0.3), mm(6)),
        field<&raw::Frame::joint_group>("joint_group", "the joint group of the frame's timber, such as \"JD4\""),
        field<&raw::Frame::yield>("yield", "the yield strength of the frame's steel, such as \"300 MPa\"")
            .within(Bound::positive)
            .believed(MPa(150), MPa(700)),
        field<&raw::Frame::ultimate>("ultimate", "the tensile strength of the frame's steel, such as \"340 MPa\"")
            .within(Bound::positive)
            .believed(MPa(200), MPa(800))};
    return rows;
  }
};
template <> struct Rows<VerandaRafters> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&VerandaRafters::mark>("mark", "the rafters' mark on the layout").needed(),
        field<&VerandaRafters::max>("max", "the greatest space between rafters; they stand at equal spaces")
            .needed()
            .within(Bound::positive)
            .firmly(mm(300), mm(3000)),
        field<&VerandaRafters::at_wall>("at_wall", "the bracket of a rafter at the wall; left out: NOT JUDGED"),
        field<&VerandaRafters::at_beam>("at_beam", "the bracket of a rafter on the beam; left out: NOT JUDGED")};
    return rows;
  }
};
template <> struct Rows<VerandaPosts> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&VerandaPosts::max>("max", "the greatest space between posts; they stand at equal spaces")
            .within(Bound::positive)
            .firmly(mm(600), m(12)),
        field<&VerandaPosts::at>("at", "their places from the veranda's start, the first at 0, the last at its end")
            .within(Bound::any),
        field<&VerandaPosts::top>("top", "the tie between the beam and a post; left out: NOT JUDGED"),
        field<&VerandaPosts::foot>("foot", "the anchor at a post's foot; left out: NOT JUDGED"),
        field<&VerandaPosts::footing>("footing",
                                      "the concrete under the posts: { thickness, concrete, cracked, edge }")};
    return rows;
  }
};
template <> struct Rows<raw::NetUplift> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&raw::NetUplift::pressure>("pressure",
                                         "the net wind pressure upwards, before the weight and any factor of the "
                                         "method; marked on every page as typed in")
            .needed()
            .within(Bound::positive)
            .believed(kPa(0.1), kPa(10)),
        field<&raw::NetUplift::given_by>("given_by", "who gave it, on what evidence").needed()};
    return rows;
  }
};
template <> struct Rows<raw::Veranda> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&raw::Veranda::against>("against", "the outside wall of the ground floor that it leans on").needed(),
        field<&raw::Veranda::from>("from", "where it begins, from the wall's start; left out: there")
            .within(Bound::not_negative)
            .firmly(mm(0), m(60)),
        field<&raw::Veranda::length>("length", "how long it is, along the wall; left out: to the wall's end")
            .within(Bound::positive)
            .firmly(mm(600), m(60)),
        field<&raw::Veranda::depth>("depth", "level, from the wall's outside face to the line of the posts")
            .needed()
            .within(Bound::positive)
            .firmly(mm(600), m(8)),
        field<&raw::Veranda::overhang>("overhang", "level, past the posts; left out: none")
            .within(Bound::not_negative)
            .firmly(mm(0), mm(1500)),
        field<&raw::Veranda::pitch>("pitch", "how steeply it falls away from the wall, 0 to 30 deg")
            .needed()
            .within(Bound::not_negative)
            .firmly(degrees(0), degrees(30.000001)),
        field<&raw::Veranda::weight>("weight", "the weight of its roof that is sure to be there, on plan")
            .needed()
            .within(Bound::positive)
            .believed(kPa(0.05), kPa(2)),
        field<&raw::Veranda::rafters>("rafters", "its rafters: { mark, max, at_wall, at_beam }").needed(),
        field<&raw::Veranda::posts>("posts", "its posts: { max or at, top, foot, footing }").needed(),
        field<&raw::Veranda::net_uplift>(
            "net_uplift",
            "the wind that lifts it: { pressure, given_by }; left out: it, and what it hangs on, is NOT JUDGED")};
    return rows;
  }
};
template <> struct Rows<raw::LinesApart> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{field<&raw::LinesApart::ground>("ground", "between the ground floor's bracing lines")
                                      .within(Bound::positive)
                                      .firmly(m(2), m(20)),
                                  field<&raw::LinesApart::first>("first", "between the first floor's")
                                      .within(Bound::positive)
                                      .firmly(m(2), m(20))};
    return rows;
  }
};
namespace {
struct LinesApartKey {
  static constexpr std::string_view takes = "a length, or { ground, first }";
  static constexpr std::span<const Field> (*inside)() = &Rows<raw::LinesApart>::list;
  static bool read(Maybe<raw::LinesApart>& to, const toml::node& n, Reading& r, const Field& f) {
    raw::LinesApart apart;
    apart.by_floor = n.is_table();
    const bool good =
        apart.by_floor ? read_rows(&apart, inside(), n, r) : Codec<Maybe<Length>>::read(apart.ground, n, r, f);
    if (good) to = apart;
    return good;
  }
};
constexpr std::string_view least_rules[]{"NZS 3604"};
}  // namespace
template <> struct Rows<raw::Bracing> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field_by<LinesApartKey, &raw::Bracing::lines_at_most>(
            "lines_at_most",
            "the greatest distance between two bracing lines by your own table, of two floors { ground, first }; "
            "where the method has one the lesser is taken; left out: the method's, or NOT JUDGED")
            .within(Bound::positive)
            .firmly(m(2), m(20)),
        field<&raw::Bracing::given_by>("given_by", "who gave `lines_at_most`, from which table"),
        field<&raw::Bracing::least>("least",
                                    "a rule by which each line must hold a least amount, whatever the wind brings it: "
                                    "\"NZS 3604\"; left out: none is asked for")
            .one_of(least_rules)};
    return rows;
  }
};
namespace {
// One angle, or of a pair of straps a list of two.
struct AnglesKey {
  static constexpr std::string_view takes = "an angle or a list of two";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(Maybe<std::vector<Maybe<Angle>>>& to, const toml::node& n, Reading& r, const Field& f) {
    const toml::array* list = n.as_array();
    if (list == nullptr) {
      Angle one{};
      if (!Codec<Angle>::read(one, n, r, f)) return false;
      to.emplace(1, one);
      return true;
    }
    if (list->size() != 2) {
      r.problem(n.source(), "wrong-type", fmt::format("`{}` takes {}", r.key, takes),
                "of a pair of straps [\"50 deg\", \"52 deg\"]");
      return false;
    }
    to.emplace(2);
    for (std::size_t i = 0; i < 2; ++i)
      step_into(r, path_under(r, i), [&] { return Codec<Maybe<Angle>>::read((*to)[i], *list->get(i), r, f); });
    return true;
  }
};
}  // namespace
template <> struct Rows<raw::AsBuilt> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&raw::AsBuilt::wall>("wall", "of a fixing, its wall's name; of two floors with its floor: \"ground A\""),
        field<&raw::AsBuilt::brace>(
            "brace", "of a brace, its name as `belay show` prints it; of two floors with its floor: \"ground A2\""),
        field<&raw::AsBuilt::planned>(
            "planned",
            "where the plan has it, as `belay show` prints it: from the wall's start; left out: it is not in the plan")
            .within(Bound::not_negative),
        field<&raw::AsBuilt::at>("at", "where it stands, from the wall's start; left out: where it is planned")
            .within(Bound::not_negative),
        field<&raw::AsBuilt::edge>("edge", "measured from its middle to the concrete's nearest edge")
            .within(Bound::positive)
            .believed(mm(5), mm(10000)),
        field_by<AnglesKey, &raw::AsBuilt::angle>(
            "angle", "measured between a strap and the plate; of a pair one, or both: [\"50 deg\", \"52 deg\"]")
            .firmly(degrees(5), degrees(85)),
        field<&raw::AsBuilt::foot>("foot", "the end at which a single strap stands: \"left\" or \"right\"")
            .one_of(feet),
        field<&raw::AsBuilt::use>("use", "the anchor or the brace that stands there; left out: the planned one"),
        field<&raw::AsBuilt::missing>("missing", "true: nothing stands there")};
    return rows;
  }
};
template <> struct Rows<raw::Job> {
  static std::span<const Field> list() {
    static constexpr Field rows[]{
        field<&raw::Job::job>("job", "what the job is, and how it is written").needed(),
        field<&raw::Job::site>("site", "the wind on the site").needed(),
        field<&raw::Job::blocks>("block", "the building, block by block: [block.main]").needed(),
        field<&raw::Job::unless_noted>("unless_noted", "the fixings that hold where nothing else is said").needed(),
        field<&raw::Job::marks>("mark", "openings as height x width, braces with their own hold-down"),
        field<&raw::Job::walls>("wall", "each wall's run, left to right, side walls bottom to top").needed(),
        field<&raw::Job::verandas>("veranda", "verandas and carports against a wall, by their names: [veranda.V]"),
        field<&raw::Job::slab>("slab", "the concrete under the anchors").may_lack(),
        field<&raw::Job::frame>("frame", "what the frame is made of").may_lack(),
        field<&raw::Job::bracing>("bracing", "what is asked of bracing lines beside the wind").may_lack(),
        field<&raw::Job::as_built>("as_built",
                                   "a fixing or a brace that was found otherwise than planned: [[as_built]]"),
        field<&raw::Job::checked>(
            "checked", "figures from memory that somebody compared with a bought copy: who, when, which copy")};
    return rows;
  }
};

raw::Job read_job_keys(const Document& document, std::vector<Problem>& problems) {
  raw::Job job;
  Reading reading{document, raw::Drawing::none, problems, {}, {}, {}, {}};
  // How lengths are written must be known before any is read. Whatever else stands there counts as mm, so that one slip
  // is not said once for each length.
  if (const toml::table* head = document.tree()["job"].as_table())
    if (const toml::node* drawing = head->get("drawing")) {
      const auto* text = drawing->as_string();
      reading.drawing = text != nullptr && text->get() == "ft-in" ? raw::Drawing::feet : raw::Drawing::mm;
    }
  job.drawing = reading.drawing;
  read_rows(&job, job_rows(), document.tree(), reading);
  job.unread = std::move(reading.unread);
  return job;
}

raw::ClassTableKeys read_class_table_keys(const Document& document, std::vector<Problem>& problems) {
  raw::ClassTableKeys table;
  Reading reading{document, raw::Drawing::none, problems, {}, {}, {}, {}};
  read_rows(&table, Rows<ClassTableKeys>::list(), document.tree(), reading);
  return table;
}

std::span<const Field> class_table_rows() { return Rows<ClassTableKeys>::list(); }
std::span<const Field> job_rows() { return Rows<raw::Job>::list(); }

}  // namespace belay
