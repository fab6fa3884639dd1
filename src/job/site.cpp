#include "job/site.hpp"
#include "job/path.hpp"
#include "job/run.hpp"
#include "job/slips.hpp"
#include <array>
#include <charconv>
#include <utility>

namespace belay {
namespace {

using raw::Maybe;

constexpr std::string_view exposures[]{"B", "C", "D"};
constexpr std::string_view risks[]{"I", "II", "III", "IV"};
constexpr std::string_view levels[]{"allowable", "strength"};
constexpr std::string_view speeds[]{"ultimate", "nominal"};
constexpr std::string_view procedures[]{"envelope", "directional"};
constexpr std::string_view terrains_of_en[]{"0", "I", "II", "III", "IV"};
constexpr std::string_view shielding_classes[]{"FS", "PS", "NS"};
constexpr std::string_view flat[]{"flat"};
// A gust once in so many years, for serviceability, where a job says nothing.
constexpr int usual_service_years = 25;
constexpr int least_years = 5, most_years = 10000;  // of the standard's formulas

// The keys that each method knows, beside `method` and `given_by`.
struct KeysOf {
  std::string_view family;
  std::vector<std::string_view> keys;
};
const KeysOf& keys_of(std::string_view family) {
  static const KeysOf all[]{
      {"as-4055", {"class", "region", "terrain", "shielding", "topography", "hill", "class_table"}},
      {"asce",
       {"speed", "speed_is", "exposure", "risk", "level", "procedure", "topography", "hill", "ground_level",
        "debris_region", "design_pressure"}},
      {"as-nzs-1170-2",
       {"region", "probability", "service_probability", "north", "terrain", "shielding", "buildings", "topography",
        "hill", "upwind", "ground_level", "sealed", "debris_region", "design_gust", "design_pressure"}},
      {"nzs-3604", {"zone", "sealed"}},
      {"en-1991-1-4",
       {"speed", "terrain", "topography", "hill", "directional_factor", "season_factor", "probability_factor",
        "air_density", "design_gust", "design_pressure"}}};
  for (const KeysOf& k : all)
    if (k.family == family) return k;
  static const KeysOf none{"", {}};
  return none;
}
std::vector<std::string_view> written(const raw::SiteKeys& k) {
  std::vector<std::string_view> all;
  const auto note = [&](bool there, std::string_view key) {
    if (there) all.push_back(key);
  };
  note(k.wind_class.has_value(), "class");
  note(k.region.has_value(), "region");
  note(k.probability.has_value(), "probability");
  note(k.service_probability.has_value(), "service_probability");
  note(k.north.has_value(), "north");
  note(k.terrain.has_value(), "terrain");
  note(k.shielding.has_value(), "shielding");
  note(k.buildings.has_value(), "buildings");
  note(k.topography.has_value(), "topography");
  note(k.hill.has_value(), "hill");
  note(!k.upwind.empty(), "upwind");
  note(k.ground_level.has_value(), "ground_level");
  note(k.sealed.has_value(), "sealed");
  note(k.class_table.has_value(), "class_table");
  note(k.zone.has_value(), "zone");
  note(k.speed.has_value(), "speed");
  note(k.speed_is.has_value(), "speed_is");
  note(k.exposure.has_value(), "exposure");
  note(k.risk.has_value(), "risk");
  note(k.level.has_value(), "level");
  note(k.procedure.has_value(), "procedure");
  note(k.debris_region.has_value(), "debris_region");
  note(k.directional_factor.has_value(), "directional_factor");
  note(k.season_factor.has_value(), "season_factor");
  note(k.probability_factor.has_value(), "probability_factor");
  note(k.air_density.has_value(), "air_density");
  note(k.design_gust.has_value(), "design_gust");
  note(k.design_pressure.has_value(), "design_pressure");
  return all;
}

template <class Words> std::vector<std::string_view> views(const Words& words) {
  return {std::begin(words), std::end(words)};
}

// "1:500" as years; nothing where it is none.
std::optional<int> years_of(std::string_view text) {
  if (!text.starts_with("1:")) return std::nullopt;
  text.remove_prefix(2);
  int years = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), years);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return years;
}

// The north arrow, clockwise from up the sheet: "up", "20 deg right of up", "35 deg left of up"; also from "down",
// "left" and "right": "10 deg left of right" is rare, and not read.
std::optional<Angle> north_of(const std::string& text) {
  const Angle half_turn = Angle::from_value(3.14159265358979323846);
  if (text == "up") return zero<Angle>();
  if (text == "right") return 0.5 * half_turn;
  if (text == "down") return half_turn;
  if (text == "left") return -0.5 * half_turn;
  for (const auto& [end, sign] : {std::pair{std::string_view(" right of up"), 1.0}, {" left of up", -1.0}}) {
    if (!text.ends_with(end)) continue;
    std::string why;
    const auto angle = parse_quantity(text.substr(0, text.size() - end.size()), Kind::angle, why);
    if (!angle) return std::nullopt;
    const Angle a = quantity<Angle>(*angle);
    if (a < zero<Angle>() || a > half_turn) return std::nullopt;
    return sign * a;
  }
  return std::nullopt;
}

class SiteSettling : private Slips {
 public:
  SiteSettling(const raw::Site& site, const std::vector<std::string>& unread,
               const std::function<std::string(std::string_view)>& place, int importance, const Sites& known)
      : Slips(unread), site_(site), place_(place), importance_(importance), known_(known) {}

  SiteSettled run() {
    if (site_.by_method.empty()) one();
    else each();
    choose();
    out_.slips = std::move(slips);
    return std::move(out_);
  }

 private:
  void remark(std::string text) { out_.remarks.push_back(std::move(text)); }

  // --- which method -------------------------------------------------------------------------------------------------
  // "AS 4055" is enough where there is one edition; so is the name of its table.
  const KnownMethod* method_called(std::string_view words) const {
    const KnownMethod* only = nullptr;
    std::size_t n = 0;
    for (const KnownMethod& m : known_.methods) {
      if (m.words == words || name_of(m) == words || m.family + '-' + m.edition == words) return &m;
      const bool without_edition =
          m.family == words ||
          (m.words.ends_with(m.edition) && m.words.substr(0, m.words.size() - m.edition.size() - 1) == words);
      if (without_edition) {
        ++n;
        only = &m;
      }
    }
    return n == 1 ? only : nullptr;
  }
  // As a job names its table: "asce-7-16", and "as-4055" where there is one edition.
  std::string name_of(const KnownMethod& m) const {
    const auto same = std::count_if(known_.methods.begin(), known_.methods.end(),
                                    [&](const KnownMethod& other) { return other.family == m.family; });
    return same == 1 ? m.family : m.family + '-' + m.edition;
  }
  std::vector<std::string> all_words() const {
    std::vector<std::string> words;
    for (const KnownMethod& m : known_.methods) words.push_back(m.words);
    return words;
  }
  std::vector<std::string> all_names() const {
    std::vector<std::string> names;
    for (const KnownMethod& m : known_.methods) names.push_back(name_of(m));
    return names;
  }

  void one() {
    const auto keys = written(site_);
    const bool classed = site_.wind_class || unread("site.class");
    if (!site_.method && !classed) {
      if (!unread("site"))
        slip("site", "no-wind", "neither `class` nor `method` says by what wind the house is judged",
             "class = \"N3\", or method = \"ASCE 7-16\" with its keys");
      return;
    }
    const KnownMethod* m = site_.method ? method_called(*site_.method) : method_called("as-4055");
    if (m == nullptr) {
      const std::vector<std::string> words = all_words();
      const auto list = views(words);
      std::vector<std::string> spellings = words;
      for (const KnownMethod& known : known_.methods)  // "AS 4055" is enough
        if (name_of(known) == known.family && known.words.ends_with(':' + known.edition))
          spellings.push_back(known.words.substr(0, known.words.size() - known.edition.size() - 1));
      const std::string help = advice(*site_.method, views(spellings));
      slip("site.method", "unknown-method", fmt::format("`{}` is not a method: {}", *site_.method, listed(list)), help);
      return;
    }
    if (m->family != "as-4055" && site_.wind_class) {
      slip_on_key("site.class", "wrong-key",
                  fmt::format("`class` or `method`, not both: {} does not go by a class", *site_.method),
                  "leave out `method` to be judged by the class, or `class` to be judged by the method");
      // Which of the two is meant is asked first, before the keys that one of them would need.
      if (keys.size() == 1) return;
    }
    settle(*m, site_, "site");
  }
  void each() {
    std::vector<std::string_view> plain = written(site_);
    if (site_.method) plain.push_back("method");
    if (site_.given_by) plain.push_back("given_by");
    if (!plain.empty())
      return slip_on_key(
          under("site", plain.front()), "two-sites",
          fmt::format("the wind is stated twice: under [site] and under [site.{}]", site_.by_method.begin()->first));
    for (const auto& [name, keys] : site_.by_method) {
      const std::string path = under("site", name);
      const KnownMethod* m = method_called(name);
      if (m == nullptr) {
        const std::vector<std::string> names = all_names();
        const auto list = views(names);
        const std::string help = advice(name, list);
        slip_on_key(path, "unknown-method",
                    fmt::format("`{}` is no key of [site], and no method: {}", name, listed(list)), help);
        continue;
      }
      if (keys.method && method_called(*keys.method) != m)
        slip(under(path, "method"), "wrong-key",
             fmt::format("[site.{}] is the site by {}, not by {}", name, m->words, *keys.method));
      if (keys.judge_by) slip_on_key(under(path, "judge_by"), "wrong-key", "`judge_by` stands under [site] itself");
      settle(*m, keys, path);
    }
  }
  void settle(const KnownMethod& m, const raw::SiteKeys& keys, const std::string& path) {
    const KeysOf& own = keys_of(m.family);
    method_in_hand_ = m.words;
    method_family_ = m.family;
    for (const std::string_view key : written(keys))
      if (std::find(own.keys.begin(), own.keys.end(), key) == own.keys.end() &&
          !(key == "class" && path == "site"))  // said already
        slip_on_key(under(path, key), "wrong-key",
                    m.family == "as-4055" && keys.wind_class
                        ? fmt::format("`{}` says nothing under AS 4055: the class stands for it", key)
                        : fmt::format("`{}` says nothing under {}", key, m.words));
    const std::string name = name_of(m);
    if (m.family == "as-4055") add(name, class_site(m, keys, path), Basis::limit_state, "AS 4055");
    if (m.family == "asce") {
      std::optional<Basis> basis;
      if (keys.level == "allowable") basis = Basis::allowable;
      if (keys.level == "strength") basis = Basis::limit_state;
      add(name, asce_site(m, keys, path), basis, m.words);
    }
    if (m.family == "as-nzs-1170-2") add(name, as_nzs_site(m, keys, path), Basis::limit_state, m.words);
    if (m.family == "nzs-3604") add(name, zone_site(m, keys, path), Basis::limit_state, m.words);
    if (m.family == "en-1991-1-4") add(name, en_site(m, keys, path), Basis::limit_state, m.words);
  }
  struct Named {
    std::optional<Basis> basis;
    std::string words;
  };
  void add(std::string name, SiteAsk site, std::optional<Basis> basis, std::string words) {
    out_.sites.push_back({std::move(name), std::move(site)});
    named_.push_back({basis, std::move(words)});
  }

  // By which of them the house is judged.
  void choose() {
    if (out_.sites.empty()) return;
    std::string wanted = known_.choice.empty() ? site_.judge_by.value_or("") : known_.choice;
    const bool outside = !known_.choice.empty();
    const std::string at = outside ? "site" : "site.judge_by";
    if (outside && wanted == "all") return take(0, true);
    if (wanted.empty()) {
      if (out_.sites.size() == 1) return take(0, false);
      std::string names;
      for (const NamedSite& s : out_.sites) names += (names.empty() ? "" : ", ") + s.name;
      if (site_.by_method.size() == out_.sites.size())
        slip("site", "several-sites",
             fmt::format("the job states {} sites, and none to judge by: {}", out_.sites.size(), names),
             fmt::format("judge_by = \"{}\" under [site], or --method {} (--method all sets them side by side)",
                         out_.sites.front().name, out_.sites.front().name));
      return;
    }
    const KnownMethod* m = method_called(wanted);
    for (std::size_t i = 0; i < out_.sites.size(); ++i)
      if (out_.sites[i].name == wanted || (m != nullptr && name_of(*m) == out_.sites[i].name)) return take(i, false);
    std::vector<std::string_view> names;
    for (const NamedSite& s : out_.sites) names.emplace_back(s.name);
    const std::string help = advice(wanted, names);
    slip(at, "unknown-site", fmt::format("the job states no site by `{}`; it has {}", wanted, listed(names)), help);
  }
  void take(std::size_t i, bool all) {
    out_.site = out_.sites[i].site;
    out_.method = named_[i].words;
    if (!all) out_.basis = named_[i].basis;
  }

  // --- what several methods ask for ---------------------------------------------------------------------------------
  void need_given_by(const Maybe<std::string>& given_by, const std::string& path, std::string_view what) {
    if (!given_by)
      missing(under(path, "given_by"), fmt::format("`given_by` is missing: who gave {}, on what evidence", what));
  }
  void need_word(const Maybe<std::string>& text, const std::string& path, std::string_view key,
                 std::span<const std::string_view> words, std::string_view what,
                 std::string_view code = "unknown-word") {
    const std::string at = under(path, key);
    if (!text) missing(at, fmt::format("`{}` is missing: {}{}{}", key, what, words.empty() ? "" : ", ", listed(words)));
    else if (!words.empty()) is_word(text, at, words, code, fmt::format("a `{}` that {} knows", key, method_in_hand_));
  }
  std::string method_in_hand_, method_family_;
  // The hill that a site or a direction states. slopes: the method goes by the slopes' lengths (EN), not by the half
  // height.
  std::optional<Hill> hill(const Maybe<raw::HillKeys>& keys, const Maybe<std::string>& topography,
                           const std::string& path, bool slopes) {
    if (topography && keys) {
      slip_on_key(under(path, "hill"), "flat-and-hill", "`topography` says flat, and a hill stands here as well",
                  "leave out one of them");
      return std::nullopt;
    }
    if (!keys) return std::nullopt;
    const std::string at = under(path, "hill");
    Hill h{.shape = HillShape::hill,
           .rise = keys->rise.value_or(zero<Length>()),
           .to_half_height = zero<Length>(),
           .upwind_slope = zero<Length>(),
           .downwind_slope = zero<Length>(),
           .past_crest = zero<Length>(),
           .at = place_(at)};
    if (keys->shape == "ridge") h.shape = HillShape::ridge;
    if (keys->shape == "escarpment") h.shape = HillShape::escarpment;
    const auto foreign = [&](const Maybe<Length>& l, std::string_view key, std::string_view instead) {
      if (l)
        slip_on_key(under(at, key), "wrong-key",
                    fmt::format("`{}` says nothing under this method: it goes by {}", key, instead));
    };
    const auto need = [&](const Maybe<Length>& l, std::string_view key, std::string_view what) {
      if (!l) missing(under(at, key), fmt::format("`{}` is missing: {}", key, what));
      return l.value_or(zero<Length>());
    };
    if (slopes) {
      foreign(keys->to_half_height, "to_half_height", "`upwind_slope` (the slope's whole length)");
      foreign(keys->to_half_height_behind, "to_half_height_behind", "`downwind_slope`");
      h.upwind_slope = need(keys->upwind_slope, "upwind_slope", "the level length of the slope before the crest");
      if (h.shape == HillShape::escarpment) {
        foreign(keys->downwind_slope, "downwind_slope", "`upwind_slope` alone at an escarpment");
      } else {
        h.downwind_slope = need(keys->downwind_slope, "downwind_slope", "the level length of the slope past the crest");
      }
    } else {
      foreign(keys->upwind_slope, "upwind_slope", "`to_half_height`");
      foreign(keys->downwind_slope, "downwind_slope", "`to_half_height`");
      const bool far_side = method_family_ == "asce" && h.shape != HillShape::escarpment;
      if (!far_side)
        foreign(keys->to_half_height_behind, "to_half_height_behind",
                method_family_ == "asce" ? "one slope at an escarpment" : "each direction's own hill");
      h.behind_to_half_height = keys->to_half_height_behind.value_or(zero<Length>());
      h.to_half_height =
          need(keys->to_half_height, "to_half_height", "from the crest, upwind, to half the rise, on the level");
    }
    if (keys->past_crest && keys->before_crest)
      slip_on_key(under(at, "before_crest"), "two-places", "the house stands before the crest or past it, not both");
    if (!keys->past_crest && !keys->before_crest)
      missing(under(at, "past_crest"),
              "`past_crest` is missing (or `before_crest`): how far the house stands from the crest");
    h.past_crest = keys->past_crest ? *keys->past_crest : -keys->before_crest.value_or(zero<Length>());
    return h;
  }
  // `topography` may only say flat; nothing said is flat too, and said so.
  void only_flat(const raw::SiteKeys& keys, const std::string& path) {
    if (keys.topography && *keys.topography != "flat")
      slip(under(path, "topography"), "unknown-word",
           fmt::format("topography `{}` is not known: \"flat\", or a hill under `hill`", *keys.topography),
           "hill = { shape = \"ridge\", rise = \"30 m\", ... }");
    if (!keys.topography && !keys.hill && !unread(under(path, "topography")) && !unread(under(path, "hill")))
      remark("the site is taken as flat: no topography is given under [site]");
  }
  TypedIn typed(const raw::SiteKeys& keys, const std::string& path) {
    if (keys.design_gust && keys.design_pressure)
      slip_on_key(under(path, "design_pressure"), "typed-twice", "a gust or a pressure is typed in, not both");
    return {keys.design_gust, keys.design_pressure};
  }
  // Typed in, be it readable or not: what a site worked out would need is not asked for.
  bool is_typed(const raw::SiteKeys& keys, const std::string& path) const {
    return keys.design_gust || keys.design_pressure || unread(under(path, "design_gust")) ||
           unread(under(path, "design_pressure"));
  }
  // What a worked-out site goes by says nothing beside a gust that was typed in.
  void nothing_beside_typed(const raw::SiteKeys& keys, const std::string& path,
                            std::initializer_list<std::string_view> idle) {
    for (const std::string_view key : written(keys))
      if (std::find(idle.begin(), idle.end(), key) != idle.end())
        slip_on_key(under(path, key), "wrong-key",
                    fmt::format("`{}` says nothing where the gust or its pressure is typed in", key));
  }

  // --- AS 4055
  // --------------------------------------------------------------------------------------------------------
  SiteAsk class_site(const KnownMethod& m, const raw::SiteKeys& keys, const std::string& path) {
    ClassSite site{keys.wind_class.value_or(""), keys.given_by.value_or(""), place_(under(path, "class"))};
    const bool ground =
        keys.region || keys.terrain || keys.shielding || keys.topography || keys.hill || keys.class_table;
    const bool classed = keys.wind_class || unread(under(path, "class"));
    if (classed || !ground) {
      if (!keys.wind_class)
        missing(under(path, "class"),
                "`class` is missing: the wind class, such as \"N3\", or the ground it is worked out from (region, "
                "terrain, shielding, topography or hill)");
      is_word(keys.wind_class, under(path, "class"), wind_classes(), "unknown-class", "a wind class of AS 4055");
      need_given_by(keys.given_by, path, "the class");
      for (const std::string_view key : written(keys))
        if (classed && key != "class" &&
            (key == "region" || key == "terrain" || key == "shielding" || key == "topography" || key == "hill" ||
             key == "class_table"))
          slip_on_key(under(path, key), "wrong-key",
                      fmt::format("`{}` says nothing beside `class`: a class is given or worked out, not both", key));
      return site;
    }
    site.at = place_(path);
    need_given_by(keys.given_by, path, "the site's figures");
    ClassFrom from{keys.region.value_or(""),
                   keys.terrain.value_or(""),
                   keys.shielding.value_or(""),
                   keys.topography.value_or(keys.hill ? "" : "flat"),
                   std::nullopt,
                   std::nullopt};
    if (keys.class_table) {
      if (const auto found = known_.class_tables.find(*keys.class_table); found != known_.class_tables.end())
        from.table = found->second;
      need_word(keys.region, path, "region", {}, "the wind region");
      need_word(keys.terrain, path, "terrain", {}, "the terrain category");
      need_word(keys.shielding, path, "shielding", {}, "the shielding class");
      need_word(keys.topography, path, "topography", {}, "the topographic class, in the table's words");
      if (keys.hill)
        slip_on_key(under(path, "hill"), "wrong-key",
                    "`hill` says nothing where a class table governs: its own topographic class is asked for");
    } else {
      const SiteWords known = m.knows();
      need_word(keys.region, path, "region", views(known.regions), "the wind region", "unknown-region");
      need_word(keys.terrain, path, "terrain", views(known.terrains), "the terrain category", "unknown-terrain");
      need_word(keys.shielding, path, "shielding", shielding_classes, "the shielding class");
      if (keys.topography && *keys.topography != "flat")
        slip(under(path, "topography"), "unknown-word",
             fmt::format("topography `{}` can only be looked up in a class table of your own", *keys.topography),
             "\"flat\", or hill = { shape = \"ridge\", rise = \"30 m\", ... }; or class_table = \"FILE.toml\"");
      else from.hill = hill(keys.hill, keys.topography, path, false);
      need_topography(keys, path);
    }
    site.from = std::move(from);
    return site;
  }

  // --- ASCE 7
  // ---------------------------------------------------------------------------------------------------------
  SiteAsk asce_site(const KnownMethod& m, const raw::SiteKeys& keys, const std::string& path) {
    if (!keys.speed) missing(under(path, "speed"), "`speed` is missing: the basic wind speed, such as \"130 mph\"");
    need_word(keys.speed_is, path, "speed_is", speeds, "what the speed is");
    need_word(keys.exposure, path, "exposure", exposures, "the exposure of the site");
    need_word(keys.risk, path, "risk", risks, "the risk category");
    if (keys.risk) {
      const auto* const at = std::find(std::begin(risks), std::end(risks), *keys.risk);
      const auto category = static_cast<int>(at - std::begin(risks)) + 1;
      if (at != std::end(risks) && importance_ > 0 && category != importance_)
        slip(under(path, "risk"), "risk-and-importance",
             fmt::format("risk category {} and importance {} do not agree", *keys.risk, importance_),
             "importance 1 to 4 is risk category I to IV");
    }
    need_word(keys.level, path, "level", levels, "the level of the capacities");
    need_given_by(keys.given_by, path, "the speed");
    const bool nominal = m.edition == "7-05";
    if (keys.speed_is && std::find(std::begin(speeds), std::end(speeds), *keys.speed_is) != std::end(speeds) &&
        (*keys.speed_is == "nominal") != nominal)
      slip(under(path, "speed_is"), "wrong-speed",
           fmt::format("ASCE {} goes by {} speeds", m.edition, nominal ? "nominal" : "ultimate"),
           nominal ? "an ultimate speed belongs to ASCE 7-10 or later" : "a nominal speed belongs to ASCE 7-05");
    if (keys.procedure) is_word(keys.procedure, under(path, "procedure"), procedures, "unknown-word", "a procedure");
    if (keys.ground_level && (m.edition == "7-05" || m.edition == "7-10"))
      slip_on_key(under(path, "ground_level"), "wrong-key",
                  fmt::format("`ground_level` says nothing under {}: ASCE 7-16 is the first to go by it", m.words));
    only_flat(keys, path);
    AsceSite site{m.edition,
                  keys.speed.value_or(zero<Speed>()),
                  keys.speed_is.value_or(""),
                  keys.exposure.value_or(""),
                  keys.risk.value_or(""),
                  keys.level.value_or(""),
                  keys.debris_region,
                  keys.given_by.value_or(""),
                  place_(under(path, "speed"))};
    site.procedure = keys.procedure.value_or("envelope");
    site.hill = hill(keys.hill, keys.topography, path, false);
    site.ground_level = keys.ground_level;
    site.typed = typed(keys, path);
    if (is_typed(keys, path)) nothing_beside_typed(keys, path, {"hill", "ground_level"});
    return site;
  }

  // --- AS/NZS 1170.2, NZS 3604
  // ----------------------------------------------------------------------------------------
  int years(const Maybe<std::string>& text, const std::string& path, std::string_view key, int unsaid) {
    if (!text) return unsaid;
    const std::optional<int> years = years_of(*text);
    if (!years || *years < least_years || *years > most_years) {
      slip(under(path, key), "bad-probability",
           fmt::format("`{}` is no annual probability from 1:{} to 1:{}", *text, least_years, most_years),
           "such as \"1:500\"");
      return unsaid;
    }
    return *years;
  }
  std::optional<double> multiplier(const Maybe<std::string>& text, const std::string& path) {
    if (!text) return std::nullopt;
    double x = 0.0;
    const char* const end = text->data() + text->size();
    const auto [stop, error] = std::from_chars(text->data(), end, x);
    if (error != std::errc() || stop != end || !(x >= 0.7 && x <= 1.0)) {
      slip(under(path, "shielding"), "out-of-range",
           fmt::format("`shielding` of `{}` is no multiplier from 0.7 to 1", *text),
           "1 for none; or count the buildings: buildings = { count = 6, height = \"5 m\", breadth = \"10 m\" }");
      return std::nullopt;
    }
    return x;
  }
  std::optional<Buildings> buildings(const Maybe<raw::BuildingsKeys>& keys, const Maybe<std::string>& shielding,
                                     const std::string& path) {
    if (!keys) return std::nullopt;
    if (shielding)
      slip_on_key(under(path, "buildings"), "shielded-twice",
                  "`shielding` states the multiplier, and `buildings` are counted as well: leave out one of them");
    return Buildings{keys->count.value_or(0), keys->height.value_or(zero<Length>()),
                     keys->breadth.value_or(zero<Length>())};
  }
  SiteAsk as_nzs_site(const KnownMethod& m, const raw::SiteKeys& keys, const std::string& path) {
    AsNzsSite site{.family = m.family,
                   .edition = m.edition,
                   .region = keys.region.value_or(""),
                   .years = 0,
                   .service_years = usual_service_years,
                   .north = std::nullopt,
                   .from = {},
                   .ground_level = keys.ground_level.value_or(zero<Length>()),
                   .zone = "",
                   .sealed = keys.sealed.value_or(false),
                   .debris_region = keys.debris_region,
                   .typed = typed(keys, path),
                   .given_by = keys.given_by.value_or(""),
                   .at = place_(path)};
    if (is_typed(keys, path)) {
      need_given_by(keys.given_by, path, "the gust");
      nothing_beside_typed(keys, path,
                           {"probability", "service_probability", "north", "terrain", "shielding", "buildings",
                            "topography", "hill", "upwind", "ground_level"});
      if (keys.region)
        is_word(keys.region, under(path, "region"), views(m.knows().regions), "unknown-region",
                fmt::format("a `region` that {} knows", m.words));
      else
        missing(under(path, "region"),
                "`region` is missing: whether storms carry debris, and fixings want cyclic tests, hangs on it");
      return site;
    }
    need_given_by(keys.given_by, path, "the site's figures");
    need_word(keys.region, path, "region", views(m.knows().regions), "the wind region", "unknown-region");
    if (!keys.probability)
      missing(under(path, "probability"),
              "`probability` is missing: how often the gust may be exceeded in a year, such as \"1:500\"");
    site.years = years(keys.probability, path, "probability", 500);
    site.service_years = years(keys.service_probability, path, "service_probability", usual_service_years);
    if (site.service_years > site.years)
      slip(under(path, "service_probability"), "service-rarer",
           "the gust of serviceability is rarer than the one that the house must stand",
           "service_probability is the more frequent one, such as \"1:25\"");
    if (keys.north) {
      site.north = north_of(*keys.north);
      if (!site.north)
        slip(under(path, "north"), "bad-north", fmt::format("`{}` is no way for the north arrow", *keys.north),
             "\"up\", \"20 deg right of up\" or \"20 deg left of up\"");
    } else if (!unread(under(path, "north"))) {
      remark("the sheet's north is not given: every face takes the worst of all directions");
    }
    directions_of(m, keys, path, site);
    return site;
  }
  // Whether hills were thought of: for AS/NZS 1170.2, AS 4055 and EN 1991-1-4 that is asked for, not supposed.
  void need_topography(const raw::SiteKeys& keys, const std::string& path) {
    if (!keys.topography && !keys.hill && !unread(under(path, "hill")))
      missing(under(path, "topography"),
              "`topography` is missing: \"flat\", or the hill that the wind comes over (hill)");
  }
  // What holds everywhere, and then what differs from some directions.
  void directions_of(const KnownMethod& m, const raw::SiteKeys& keys, const std::string& path, AsNzsSite& site) {
    only_flat_somewhere(keys, path);
    const SiteWords known = m.knows();
    const auto terrain_word = [&](const Maybe<std::string>& text, const std::string& at) {
      return is_word(text, under(at, "terrain"), views(known.terrains), "unknown-terrain",
                     fmt::format("a `terrain` that {} knows", m.words));
    };
    terrain_word(keys.terrain, path);
    const auto of_all = Upwind{keys.terrain.value_or(""), multiplier(keys.shielding, path),
                               buildings(keys.buildings, keys.shielding, path),
                               hill(keys.hill, keys.topography, path, false), place_(path)};
    for (Upwind& u : site.from) u = of_all;
    std::array<std::string, 8> said;  // the path of the row that has spoken of a direction
    for (std::size_t i = 0; i < keys.upwind.size(); ++i) {
      const raw::UpwindKeys& row = keys.upwind[i];
      const std::string at = under(under(path, "upwind"), i);
      terrain_word(row.terrain, at);
      if (row.from.empty() && !unread(under(at, "from")))
        slip(under(at, "from"), "no-direction", "`from` names no direction: such a row would say nothing",
             "from = [\"N\", \"NE\"]");
      if (!row.terrain && !row.shielding && !row.buildings && !row.hill && !row.topography && !unread(at))
        slip(at, "row-of-nothing",
             "the row says nothing of these directions: no terrain, shielding, buildings or hill");
      if (row.topography && *row.topography != "flat")
        is_word(row.topography, under(at, "topography"), flat, "unknown-word", "a topography");
      const auto stated = multiplier(row.shielding, at);
      const auto counted = buildings(row.buildings, row.shielding, at);
      const auto rises = hill(row.hill, row.topography, at, false);
      for (std::size_t j = 0; j < row.from.size(); ++j) {
        const std::string spot = under(under(at, "from"), j);
        const auto* const found = std::find(directions.begin(), directions.end(), row.from[j]);
        if (found == directions.end()) {
          is_word(row.from[j], spot, directions, "unknown-direction", "a direction");
          continue;
        }
        const auto d = static_cast<std::size_t>(found - directions.begin());
        if (!said[d].empty()) {
          slip(spot, "direction-twice", fmt::format("{} stands twice in `upwind`", row.from[j]));
          continue;
        }
        said[d] = at;
        Upwind& u = site.from[d];
        u.at = place_(under(at, "from"));
        if (row.terrain) u.terrain = *row.terrain;
        if (row.shielding || row.buildings) {
          u.shielding = stated;
          u.buildings = counted;
        }
        if (row.hill || row.topography) u.hill = rises;
      }
    }
    std::vector<std::string_view> bare;
    for (std::size_t d = 0; d < site.from.size(); ++d)
      if (site.from[d].terrain.empty()) bare.push_back(directions[d]);
    if (bare.empty() || unread(under(path, "terrain")) || unread(under(path, "upwind")) || keys.terrain) return;
    if (bare.size() == directions.size() && keys.upwind.empty())
      missing(under(path, "terrain"), "`terrain` is missing: the terrain category, " + listed(views(known.terrains)));
    else
      slip(path, "direction-missing", fmt::format("no terrain is given for the wind from {}", listed(bare)),
           "terrain = \"...\" under [site] holds wherever `upwind` says nothing");
  }
  void only_flat_somewhere(const raw::SiteKeys& keys, const std::string& path) {
    if (keys.topography) is_word(keys.topography, under(path, "topography"), flat, "unknown-word", "a topography");
    std::size_t spoken_of = 0;  // directions whose rows say what hill stands there, or that none does
    for (const raw::UpwindKeys& u : keys.upwind)
      if (u.hill || u.topography) spoken_of += u.from.size();
    if (spoken_of < directions.size() && !unread(under(path, "upwind"))) need_topography(keys, path);
  }
  SiteAsk zone_site(const KnownMethod& m, const raw::SiteKeys& keys, const std::string& path) {
    AsNzsSite site{.family = m.family,
                   .edition = m.edition,
                   .region = "",
                   .years = 0,
                   .service_years = 0,
                   .north = std::nullopt,
                   .from = {},
                   .ground_level = zero<Length>(),
                   .zone = keys.zone.value_or(""),
                   .sealed = keys.sealed.value_or(false),
                   .debris_region = std::nullopt,
                   .typed = {},
                   .given_by = keys.given_by.value_or(""),
                   .at = place_(under(path, "zone"))};
    if (keys.zone == "SED")
      slip(under(path, "zone"), "specific-design", "zone SED needs a specific design: NZS 3604 gives it no gust",
           "have an engineer state the gust: method = \"AS/NZS 1170.2:2011\", design_gust = \"...\"");
    else need_word(keys.zone, path, "zone", views(m.knows().zones), "the wind zone", "unknown-zone");
    need_given_by(keys.given_by, path, "the zone");
    return site;
  }

  // --- EN 1991-1-4
  // ----------------------------------------------------------------------------------------------------
  SiteAsk en_site(const KnownMethod& m, const raw::SiteKeys& keys, const std::string& path) {
    EnSite site{.edition = m.edition,
                .speed = keys.speed.value_or(zero<Speed>()),
                .terrain = keys.terrain.value_or(""),
                .hill = std::nullopt,
                .directional = keys.directional_factor,
                .season = keys.season_factor,
                .probability = keys.probability_factor,
                .air = keys.air_density,
                .typed = typed(keys, path),
                .given_by = keys.given_by.value_or(""),
                .at = place_(path)};
    if (is_typed(keys, path)) {
      need_given_by(keys.given_by, path, "the gust");
      nothing_beside_typed(
          keys, path,
          {"speed", "terrain", "topography", "hill", "directional_factor", "season_factor", "probability_factor"});
      return site;
    }
    if (!keys.speed)
      missing(under(path, "speed"), "`speed` is missing: the fundamental basic wind velocity, such as \"26 m/s\"");
    need_word(keys.terrain, path, "terrain", terrains_of_en, "the terrain category", "unknown-terrain");
    need_given_by(keys.given_by, path, "the velocity");
    need_topography(keys, path);
    only_flat(keys, path);
    site.hill = hill(keys.hill, keys.topography, path, true);
    return site;
  }

  const raw::Site& site_;
  const std::function<std::string(std::string_view)>& place_;
  int importance_;
  const Sites& known_;
  SiteSettled out_;
  std::vector<Named> named_;
};

}  // namespace

std::span<const std::string_view> wind_classes() {
  static constexpr std::string_view all[]{"N1", "N2", "N3", "N4", "N5", "N6", "C1", "C2", "C3", "C4"};
  return all;
}

SiteSettled settle_site(const raw::Site& site, const std::vector<std::string>& unread,
                        const std::function<std::string(std::string_view path)>& place, int importance,
                        const Sites& known) {
  return SiteSettling(site, unread, place, importance, known).run();
}

}  // namespace belay
