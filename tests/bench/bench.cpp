// How long the parts of a check take, on one core. Measured, never asserted: `cmake --preset release -DBELAY_BENCH=ON`,
// build, then build/release/belay_bench. Invented houses.
#include "belay/check.hpp"
#include "files/embedded.hpp"
#include "files/read.hpp"
#include "load_path/forces.hpp"
#include "wind/methods.hpp"
#include <array>
#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <stdexcept>
#include <string>

namespace {
using namespace belay;

// A house of 24 by 12.5 m with `trusses` trusses, as a hip or a gable, under a method.
House house(int trusses, bool hip, const std::string& site) {
  const std::string roof =
      hip ? "{ shape = \"hip\", ridge = \"across\", pitch = \"25 deg\", eaves = 600, weight = \"0.40 kPa\" }"
          : "{ shape = \"gable\", ridge = \"across\", pitch = \"25 deg\", eaves = 600, verge = 300, weight = \"0.40 "
            "kPa\" }";
  const std::string girders = hip ? ", { mark = \"TG1\", hip_girder = 2400 }, { mark = \"J1\", jacks = 900 }, { mark = "
                                    "\"H1\", hip_rafters = true }"
                                  : "";
  const std::string text = fmt::format(
      "[job]\ntitle = \"Bench\"\ndrawing = \"mm\"\nimportance = 2\ndrawn = \"none\"\nfixings = "
      "\"demo-light-steel.toml\"\n\n[site]\n{}\n\n[block.main]\nfloor_level = 300\nsize = [24000, 12500]\nwalls = {{ "
      "front = \"A\", right = \"B\", back = \"C\", left = \"D\" }}\nheight = 2700\nroof = {}\ntrusses = [ {{ mark = "
      "\"T1\", max = \"{} mm\" }}{} ]\n\n[unless_noted]\nB = {{ brace = \"demo-sheet-6\", hold_down = \"demo-rod-16\" "
      "}}\nanchor = {{ use = \"demo-bolt-12\", max = 1200 }}\ntruss = \"demo-cleat-16\"\nplate = 90\nhold_down_in = "
      "120\n{}\n[wall]\nA = \"B 1800 | 20400 | B 1800\"\nB = \"B 1800 | 8900 | B 1800\"\nC = {{ same_as = \"A\" }}\nD "
      "= {{ "
      "same_as = \"B\" }}\nE = {{ from_left = 8000, run = \"B 1800 | 8900 | B 1800\" }}\nF = {{ from_left = 16000, run "
      "= "
      "\"B 1800 | 8900 | B 1800\" }}\n",
      site, roof, (hip ? 19200.0 : 24000.0) / (trusses - 1), girders, hip ? "onto = \"demo-cleat-16\"\n" : "");
  Opened o = read_job(text, "bench.toml", [](std::string_view name) {
    return std::optional(std::string(embedded("fixings/" + std::string(name))->text));
  });
  if (!o.house) throw std::runtime_error(render(o.problems, false));
  return *std::move(o.house);
}
const std::string by_class = "class = \"N3\"\ngiven_by = \"a bench\"";
const std::string by_as_nzs =
    "method = \"AS/NZS 1170.2:2011\"\nregion = \"A1\"\nprobability = \"1:500\"\nterrain = \"2.5\"\ntopography = "
    "\"flat\"\ngiven_by = \"a bench\"";
const std::string by_en =
    "method = \"EN 1991-1-4:2005\"\nspeed = \"26 m/s\"\nterrain = \"II\"\ntopography = \"flat\"\ngiven_by = \"a "
    "bench\"";

std::string by_asce(const std::string& procedure) {
  return fmt::format(
      "method = \"ASCE 7-16\"\nprocedure = \"{}\"\nspeed = \"49 m/s\"\nspeed_is = \"ultimate\"\nexposure = \"C\"\nrisk "
      "= \"II\"\nlevel = \"strength\"\ntopography = \"flat\"\ngiven_by = \"a bench\"",
      procedure);
}

const std::array<std::string, 5> sites{by_class, by_as_nzs, by_en, by_asce("directional"), by_asce("envelope")};

// The shell of the building and the uplift at every bearing in every case, by one of the sites above.
void uplift(benchmark::State& state) {
  const House h = house(static_cast<int>(state.range(0)), true, sites.at(static_cast<std::size_t>(state.range(1))));
  const Method& method = method_for(h.site);
  const Table& figures = table(table_for(h.site));
  std::size_t bearings = 0, cases = 0;
  for (auto _ : state) {
    const Shape shape = shape_of(h);
    const WindAsk ask{h.site, h, shape, figures};
    const Loads loads = method.loads(ask, nullptr, std::nullopt);
    const RoofForces roof(h, shape, loads);
    benchmark::DoNotOptimize(roof.uplift(0, 0));
    bearings = roof.bearings().size();
    cases = loads.cases.size();
  }
  state.counters["bearings"] = static_cast<double>(bearings);
  state.counters["cases"] = static_cast<double>(cases);
}
BENCHMARK(uplift)
    ->ArgNames({"trusses", "method"})
    ->ArgsProduct({{15, 30, 60}, {0, 1, 2, 3, 4}})
    ->Unit(benchmark::kMicrosecond);

void whole_check(benchmark::State& state) {
  const House h = house(static_cast<int>(state.range(0)), state.range(1) != 0, by_class);
  const Table& figures = table(table_for(h.site));
  const Table& practice = table("practice/common.toml");
  for (auto _ : state) benchmark::DoNotOptimize(check(h, figures, practice).links.size());
}
BENCHMARK(whole_check)
    ->ArgNames({"trusses", "hip"})
    ->ArgsProduct({{15, 30, 60}, {0, 1}})
    ->Unit(benchmark::kMillisecond);

}  // namespace
BENCHMARK_MAIN();
