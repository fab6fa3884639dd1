// What a job says of the wind, method by method: what is read, what is missing, what is foreign, what contradicts
// itself. Sites are invented.
#include "job_text.hpp"
#include "quantities.hpp"
#include <algorithm>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;

namespace {

// The good job with other lines instead of its class.
std::string sited(const std::string& lines) { return with(good_job, "class = \"N3\"\n", lines); }
const std::string open_country =
    "method = \"AS/NZS 1170.2:2011\"\nregion = \"A2\"\nprobability = \"1:500\"\nterrain = 2\ntopography = \"flat\"\n";

Opened opened(const std::string& job, const std::string& table = {}, std::string_view method = {}) {
  return read_job(
      job, "job.toml",
      [&](std::string_view name) -> std::optional<std::string> {
        if (name == "demo-test.toml") return std::string(good_fixings);
        if (name == "our-classes.toml" && !table.empty()) return table;
        return std::nullopt;
      },
      method);
}
House house_of(const std::string& job, const std::string& table = {}, std::string_view method = {}) {
  Opened o = opened(job, table, method);
  INFO(render(o.problems, false));
  REQUIRE(o.house);
  return *std::move(o.house);
}

struct Bad {
  const char* what;
  std::string lines;
  const char* code;
  const char* message;
};

}  // namespace

TEST_CASE("a site by AS/NZS 1170.2, direction by direction") {
  // Tables within [site] stand behind all of its keys.
  const std::string rows =
      "[[site.upwind]]\nfrom = [\"N\", \"NE\"]\nterrain = \"3\"\nbuildings = { count = 8, height = \"5 m\", breadth = "
      "\"12 m\" }\n[[site.upwind]]\nfrom = \"W\"\nhill = { shape = \"escarpment\", rise = \"40 m\", to_half_height = "
      "\"60 m\", before_crest = \"15 m\" }\n\n[block.main]";
  const House h = house_of(with(sited(open_country + "north = \"20 deg left of up\"\nshielding = 0.9\n"
                                                     "service_probability = \"1:20\"\n"),
                                "[block.main]", rows));
  const auto& site = std::get<AsNzsSite>(h.site);
  CHECK(site.family == "as-nzs-1170-2");
  CHECK(site.edition == "2011");
  CHECK(site.region == "A2");
  CHECK(site.years == 500);
  CHECK(site.service_years == 20);
  REQUIRE(site.north);
  CHECK_THAT(site.north->value(), WithinAbs(-20.0 * 3.14159265358979323846 / 180.0, 1e-12));
  CHECK(site.from[0].terrain == "3");
  CHECK(site.from[1].buildings->count == 8);
  CHECK_FALSE(site.from[1].shielding.has_value());  // counted there instead
  CHECK(site.from[2].terrain == "2");
  CHECK(site.from[2].shielding == 0.9);
  REQUIRE(site.from[6].hill);
  CHECK(site.from[6].hill->shape == HillShape::escarpment);
  CHECK(site.from[6].hill->past_crest == metres(-15.0));
  CHECK(site.from[6].shielding == 0.9);
  CHECK_FALSE(site.from[5].hill.has_value());
  REQUIRE(h.sites.size() == 1);
  CHECK(h.sites[0].name == "as-nzs-1170-2-2011");
}

TEST_CASE("sites by the other methods") {
  const House zone = house_of(sited("method = \"NZS 3604\"\nzone = \"VH\"\n"));
  CHECK(std::get<AsNzsSite>(zone.site).family == "nzs-3604");
  CHECK(std::get<AsNzsSite>(zone.site).zone == "VH");

  const House en =
      house_of(sited("method = \"EN 1991-1-4\"\nspeed = \"26 m/s\"\nterrain = \"II\"\nair_density = \"1.226 "
                     "kg/m3\"\ndirectional_factor = 0.85\nhill = { shape = \"ridge\", rise = \"30 m\", "
                     "upwind_slope = \"150 m\", downwind_slope = \"120 m\", past_crest = \"10 m\" }\n"));
  const auto& e = std::get<EnSite>(en.site);
  CHECK(e.edition == "2005");
  CHECK(e.terrain == "II");
  CHECK(e.directional == 0.85);
  CHECK(e.hill->upwind_slope == metres(150.0));
  CHECK(e.air->value() == 1.226);

  const House class_of_ground = house_of(
      sited("method = \"AS 4055\"\nregion = \"A2\"\nterrain = 2.5\nshielding = \"PS\"\ntopography = \"flat\"\n"));
  const auto& c = std::get<ClassSite>(class_of_ground.site);
  CHECK(c.wind_class.empty());
  REQUIRE(c.from);
  CHECK(c.from->terrain == "2.5");
  CHECK(c.from->topography == "flat");

  const House typed = house_of(sited("method = \"AS/NZS 1170.2:2021\"\nregion = \"A2\"\ndesign_gust = \"47 m/s\"\n"));
  CHECK(std::get<AsNzsSite>(typed.site).typed.gust == Speed::from_value(47.0));

  const std::string table =
      "source = \"invented for a test\"\n[[row]]\nregion = \"A2\"\nterrain = [2, 2.5]\ntopography = \"T1\"\nclass = "
      "\"N2\"\n";
  const House looked_up = house_of(sited("method = \"AS 4055\"\nregion = \"A2\"\nterrain = 2.5\nshielding = "
                                         "\"PS\"\ntopography = \"T1\"\nclass_table = \"our-classes.toml\"\n"),
                                   table);
  const auto& own = std::get<ClassSite>(looked_up.site);
  REQUIRE(own.from);
  REQUIRE(own.from->table);
  CHECK(own.from->table->source == "invented for a test");
  REQUIRE(own.from->table->rows.size() == 1);
  CHECK(own.from->table->rows[0].terrain == std::vector<std::string>{"2", "2.5"});
  CHECK(own.from->table->rows[0].shielding.empty());
  CHECK(own.from->table->rows[0].at == "our-classes.toml:2");
}

TEST_CASE("a site that cannot be used says why, and where") {
  const std::string hill = "shape = \"hill\", rise = \"30 m\", to_half_height = \"60 m\"";
  const Bad bad[]{
      {"no region", with(open_country, "region = \"A2\"\n", ""), "missing-key", "`region` is missing"},
      {"a region of another edition", with(open_country, "\"A2\"", "\"B2\""), "unknown-region",
       "`B2` is not a `region` that AS/NZS 1170.2:2011 knows"},
      {"no probability", with(open_country, "probability = \"1:500\"\n", ""), "missing-key", "how often the gust"},
      {"probability as a share", with(open_country, "\"1:500\"", "\"0.2 %\""), "bad-probability",
       "no annual probability"},
      {"probability of never", with(open_country, "\"1:500\"", "\"1:1000000\""), "bad-probability",
       "from 1:5 to 1:10000"},
      {"no terrain", with(open_country, "terrain = 2\n", ""), "missing-key", "the terrain category"},
      {"a terrain that there is not", with(open_country, "terrain = 2", "terrain = 7"), "unknown-terrain",
       "`7` is not"},
      {"north by the compass", open_country + "north = \"NNW\"\n", "bad-north", "no way for the north arrow"},
      {"shielding of more than none", open_country + "shielding = 1.2\n", "out-of-range", "from 0.7 to 1"},
      {"shielding below the table", open_country + "shielding = 0.5\n", "out-of-range", "from 0.7 to 1"},
      {"shielding and buildings",
       open_country + "shielding = 0.9\nbuildings = { count = 3, height = \"5 m\", breadth = "
                      "\"9 m\" }\n",
       "shielded-twice", "leave out one"},
      {"flat, and a hill", open_country + "hill = { " + hill + ", past_crest = \"0 m\" }\n", "flat-and-hill",
       "a hill stands here"},
      {"a hill without a place", with(open_country, "topography = \"flat\"\n", "hill = { " + hill + " }\n"),
       "missing-key", "`past_crest` is missing"},
      {"a house on both sides of the crest",
       with(open_country, "topography = \"flat\"\n",
            "hill = { " + hill + ", past_crest = \"5 m\", before_crest = \"5 m\" }\n"),
       "two-places", "not both"},
      {"slopes of another method",
       with(open_country, "topography = \"flat\"\n",
            "hill = { " + hill + ", upwind_slope = \"90 m\", past_crest = \"5 m\" }\n"),
       "wrong-key", "`to_half_height`"},
      {"a hill of no shape",
       with(open_country, "topography = \"flat\"\n",
            "hill = { shape = \"dune\", rise = \"30 m\", to_half_height = \"60 m\", past_crest = \"5 m\" }\n"),
       "unknown-word", "`dune`"},
      {"a class under another method", "class = \"N3\"\n" + open_country, "wrong-key", "does not go by a class"},
      {"a key of another method", open_country + "exposure = \"C\"\n", "wrong-key",
       "`exposure` says nothing under AS/NZS"},
      {"an edition left open", with(open_country, "AS/NZS 1170.2:2011", "AS/NZS 1170.2"), "unknown-method",
       "is not a method"},
      {"a gust typed in beside a site", open_country + "design_gust = \"45 m/s\"\n", "wrong-key",
       "says nothing where the gust"},
      {"gust and pressure typed in",
       "method = \"AS/NZS 1170.2:2021\"\nregion = \"A2\"\ndesign_gust = \"45 m/s\"\ndesign_pressure "
       "= \"1.2 kPa\"\n",
       "typed-twice", "not both"},
      {"zone for a specific design", "method = \"NZS 3604\"\nzone = \"SED\"\n", "specific-design", "specific design"},
      {"no such zone", "method = \"NZS 3604\"\nzone = \"XH\"\n", "unknown-zone",
       "`XH` is not a `zone` that NZS 3604:2011 knows"},
      {"no zone", "method = \"NZS 3604\"\n", "missing-key", "`zone` is missing"},
      {"EN terrain of another standard", "method = \"EN 1991-1-4\"\nspeed = \"26 m/s\"\nterrain = 2.5\n",
       "unknown-terrain", "`2.5` is not"},
      {"EN without a speed", "method = \"EN 1991-1-4\"\nterrain = \"II\"\ntopography = \"flat\"\n", "missing-key",
       "fundamental basic wind velocity"},
      {"a class given and worked out", "class = \"N3\"\nregion = \"A2\"\n", "wrong-key",
       "given or worked out, not both"},
      {"a class of half a site", "method = \"AS 4055\"\nregion = \"A2\"\nshielding = \"NS\"\ntopography = \"flat\"\n",
       "missing-key", "`terrain` is missing"},
      {"shielding of a class by number",
       "method = \"AS 4055\"\nregion = \"A2\"\nterrain = 2\nshielding = 0.9\ntopography = "
       "\"flat\"\n",
       "unknown-word", "`0.9` is not a `shielding` that AS 4055:2021 knows"},
      {"a topographic class without a table",
       "method = \"AS 4055\"\nregion = \"A2\"\nterrain = 2\nshielding = \"NS\"\ntopography = "
       "\"T2\"\n",
       "unknown-word", "class table of your own"},
      {"a class table that is not there",
       "method = \"AS 4055\"\nregion = \"A2\"\nterrain = 2\nshielding = \"NS\"\ntopography = "
       "\"T1\"\nclass_table = \"ours.toml\"\n",
       "no-class-table-file", "no class table file"},
      {"ground level under an edition without it",
       "method = \"ASCE 7-10\"\nspeed = \"120 mph\"\nspeed_is = \"ultimate\"\nexposure = "
       "\"C\"\nrisk = \"II\"\nlevel = \"strength\"\ntopography = \"flat\"\nground_level = \"900 m\"\n",
       "wrong-key", "the first to go by it"},
      {"no such procedure",
       "method = \"ASCE 7-16\"\nspeed = \"120 mph\"\nspeed_is = \"ultimate\"\nexposure = "
       "\"C\"\nrisk = \"II\"\nlevel = \"strength\"\ntopography = \"flat\"\nprocedure = \"tunnel\"\n",
       "unknown-word", "`tunnel`"},
  };
  for (const Bad& b : bad) {
    INFO(b.what);
    const Opened o = opened(sited(b.lines));
    CHECK_FALSE(o.house);
    const auto found = std::find_if(o.problems.begin(), o.problems.end(), [&](const Problem& p) {
      return p.code == b.code && p.message.find(b.message) != std::string::npos;
    });
    INFO(render(o.problems, false));
    CHECK(found != o.problems.end());
    if (found == o.problems.end()) continue;
    CHECK(found->line >= 8);  // in [site]
    CHECK(found->line <= 20);
  }
}

TEST_CASE("openings that contradict themselves or the site") {
  const auto code = [](const std::string& job) {
    const Opened o = opened(job);
    return o.problems.empty() ? std::string("good") : o.problems.front().code;
  };
  const std::string open = with(good_job, "D1 = { size = \"2100 x 3000\", wind_rated = \"N3\" }",
                                "D1 = { size = \"2100 x 3000\", open = true }");
  CHECK(code(open) == "good");
  CHECK(code(with(open, "open = true", "open = true, wind_rated = \"N3\"")) == "open-and-closed");
  CHECK(code(with(open, "open = true", "open = true, impact_rated = true")) == "open-and-closed");
  CHECK(code(with(open, "open = true", "open = true, impact_rated = false")) == "good");
  CHECK(code(with(open, "class = \"N3\"\n", open_country)) == "good");
  CHECK(code(with(open, "class = \"N3\"\n", open_country + "sealed = true\n")) == "sealed-and-open");
  CHECK(code(sited(open_country + "sealed = true\n")) == "good");
}

TEST_CASE("directions: each once, each with a terrain") {
  const auto code = [](const std::string& lines, const std::string& rows) {
    const Opened o = opened(with(sited(lines), "[block.main]", rows + "\n[block.main]"));
    return o.problems.empty() ? std::string("good") : o.problems.front().code + ": " + o.problems.front().message;
  };
  const std::string bare = with(open_country, "terrain = 2\n", "");
  CHECK(
      code(bare, "[[site.upwind]]\nfrom = [\"N\", \"NE\", \"E\", \"SE\", \"S\", \"SW\", \"W\", \"NW\"]\nterrain = 3") ==
      "good");
  CHECK_THAT(code(bare, "[[site.upwind]]\nfrom = [\"N\", \"NE\", \"E\", \"SE\", \"S\", \"SW\"]\nterrain = 3"),
             Contains("direction-missing: no terrain is given for the wind from `W` or `NW`"));
  CHECK_THAT(code(open_country, "[[site.upwind]]\nfrom = \"NNE\"\nterrain = 3"), Contains("unknown-direction"));
  CHECK_THAT(code(open_country, "[[site.upwind]]\nfrom = [\"N\", \"N\"]\nterrain = 3"), Contains("direction-twice"));
  CHECK_THAT(code(open_country, "[[site.upwind]]\nterrain = 3"), Contains("missing-key: `from` is missing"));
}

TEST_CASE("several sites in one job, and which of them counts") {
  const std::string both =
      with(good_job, "[site]\nclass = \"N3\"\ngiven_by = \"nobody: a test\"\n",
           "[site.as-4055]\nclass = \"N3\"\ngiven_by = \"a\"\n[site.nzs-3604]\nzone = \"H\"\ngiven_by = \"b\"\n");
  const Opened none = opened(both);
  REQUIRE(none.problems.size() == 1);
  CHECK(none.problems[0].code == "several-sites");
  CHECK_THAT(none.problems[0].help, Contains("judge_by = \"as-4055\""));
  const House own = house_of(with(both, "[site.as-4055]", "[site]\njudge_by = \"nzs-3604\"\n[site.as-4055]"));
  CHECK(std::get<AsNzsSite>(own.site).zone == "H");
  CHECK(own.sites.size() == 2);
  CHECK(std::holds_alternative<ClassSite>(house_of(both, {}, "as-4055").site));
  CHECK(std::holds_alternative<AsNzsSite>(house_of(both, {}, "NZS 3604").site));
  const House all = house_of(both, {}, "all");
  REQUIRE(all.sites.size() == 2);
  CHECK(all.sites[0].name == "as-4055");
  CHECK(all.sites[1].name == "nzs-3604");
  const Opened other = opened(both, {}, "asce-7-16");
  REQUIRE_FALSE(other.house);
  CHECK(other.problems[0].code == "unknown-site");
  CHECK_THAT(other.problems[0].message, Contains("`as-4055` or `nzs-3604`"));
  const Opened misspelt = opened(with(both, "[site.nzs-3604]", "[site.nzs-3064]"));
  REQUIRE_FALSE(misspelt.house);
  CHECK(misspelt.problems[0].code == "unknown-method");
  CHECK_THAT(misspelt.problems[0].help, Contains("did you mean `nzs-3604`"));
  const Opened twice = opened(with(both, "[site.as-4055]", "[site]\ngiven_by = \"c\"\n[site.as-4055]"));
  CHECK_FALSE(twice.house);
  CHECK(twice.problems[0].code == "two-sites");
}

TEST_CASE("a table of classes of one's own is read with its places") {
  const std::string lines =
      "method = \"AS 4055\"\nregion = \"A2\"\nterrain = 2\nshielding = \"NS\"\ntopography = "
      "\"T1\"\nclass_table = \"our-classes.toml\"\n";
  const auto problem = [&](const std::string& table) {
    const Opened o = opened(sited(lines), table);
    REQUIRE_FALSE(o.problems.empty());
    CHECK_FALSE(o.house);
    return o.problems.front();
  };
  const Problem no_class = problem("source = \"x\"\n[[row]]\nregion = \"A2\"\n");
  CHECK(no_class.file == "our-classes.toml");
  CHECK(no_class.code == "missing-key");
  const Problem bad_class = problem("source = \"x\"\n[[row]]\nregion = \"A2\"\nclass = \"N9\"\n");
  CHECK(bad_class.code == "unknown-class");
  CHECK(bad_class.line == 4);
  CHECK(bad_class.source_line == "class = \"N9\"");
  CHECK(problem("[[row]]\nclass = \"N2\"\n").code == "missing-key");  // no source
  CHECK(problem("source = \"x\"\nrow = 3\n").code == "wrong-type");
  CHECK(problem("source = \"x\"\n[[row]]\nclas = \"N2\"\n").code == "unknown-key");
  CHECK(problem("source = \n").file == "our-classes.toml");
}
