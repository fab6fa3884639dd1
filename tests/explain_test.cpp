// The working of every link of several houses: nothing in it falls from the sky, every printed step comes out again, it
// ends with the link's own figures to the bit, it names the figures from memory that the link rests on, and it says
// nothing twice. Invented houses.
#include "belay/check.hpp"
#include "houses.hpp"
#include "judge/judge.hpp"
#include "recompute.hpp"
#include "report/working_page.hpp"
#include "sanitized.hpp"
#include "wind/methods.hpp"
#include <algorithm>
#include <bit>
#include <catch2/catch.hpp>
#include <cstdint>
#include <filesystem>
#include <fmt/ranges.h>
#include <iterator>
#include <map>
#include <set>
#include <sstream>

using namespace belay;
namespace t = belay::test;

namespace {

struct Sample {
  std::string name;
  House house;
};

t::Draft braced() {
  t::Draft d;
  d.wall_weight = "\"0.25 kPa\"";
  d.mark("D1", "\"2100 x 2400\"");
  d.mark("W1", "\"1200 x 1800\"");
  d.wall("A", "\"B 1200 | D1 | 4800 | W1 | 600 | B 1200\"");
  d.wall("B", "\"B 1200 | 5400 | B 1200\"");
  d.wall("C", "\"B 1800 | 8400 | B 1800\"");
  d.wall("D", "{ same_as = \"B\" }");
  return d;
}

t::Draft asce(const std::string& level, const std::string& pitch) {
  t::Draft d = braced();
  d.site =
      "method = \"ASCE 7-16\"\nspeed = \"130 mph\"\nspeed_is = \"ultimate\"\nexposure = \"C\"\nrisk = \"II\"\nlevel = "
      "\"" +
      level + "\"\ntopography = \"flat\"\ngiven_by = \"a test\"";
  d.fixings = t::plenty(level == "allowable" ? "allowable" : "design");
  d.pitch = pitch;
  return d;
}

// Every kind of brace, of roof, of site and of fixing that changes what is told.
std::vector<Sample> samples() {
  std::vector<Sample> all;
  for (const auto& f : std::filesystem::directory_iterator(BELAY_JOBS))
    if (f.path().extension() == ".toml") {
      Opened o = open_job(f.path().string());
      REQUIRE(o.house);
      all.push_back({f.path().stem().string(), *std::move(o.house)});
    }
  REQUIRE(all.size() >= 3);
  std::sort(all.begin(), all.end(), [](const Sample& a, const Sample& b) { return a.name < b.name; });
  const auto add = [&](std::string name, const t::Draft& d) { all.push_back({std::move(name), d.house()}); };

  add("plain", braced());
  t::Draft straps = braced();
  straps.mark("X", "{ brace = \"demo-pair\", hold_down = \"demo-rod\" }");
  straps.wall("A", "\"X 2400 | D1 | 2400 | W1 | 600 | X 2400\"");
  House found = straps.house();
  found.walls[0].pieces.front().brace->found = FoundBrace{.at = "job.toml:90", .angles = {t::degrees(52.0)}};
  found.walls[2].pieces.front().brace->found = FoundBrace{.at = "job.toml:93", .missing = true};
  all.push_back({"braces as built", std::move(found)});
  t::Draft d = braced();
  d.ridge = "up";
  d.trusses = "{ mark = \"T1\", max = \"0.9 m\", odd_space = \"back\" }";
  d.pitch = "12 deg";
  d.site = "class = \"C2\"\ngiven_by = \"a test\"";
  add("cyclonic, ridge up the sheet", d);
  d = braced();
  d.pitch = "7 deg";
  d.site = "class = \"N1\"\ngiven_by = \"a test\"";
  d.wall_weight = "";
  add("low pitch, no wall weight", d);

  d = braced();
  d.mark("S", "{ brace = \"demo-single\", hold_down = \"demo-rod\", foot = \"left\" }")
      .mark("P", "{ brace = \"demo-pair\", hold_down = \"demo-rod\" }");
  d.mark("U", "{ brace = \"demo-unit\", hold_down = \"demo-rod\" }");
  d.wall("A", "\"S 2400 | D1 | 4800 | S 2400\"")
      .wall("C", "\"P 2400 | 7200 | P 2400\"")
      .wall("B", "\"U 900 | 6000 | U 900\"");
  add("straps and bought units", d);

  d = braced();
  d.mark("L", "{ brace = \"demo-board\" }");
  d.wall("A", "\"B 1200 | D1 | L 1200 | L 3600 | W1 | 600 | B 1200\"").wall("C", "\"L 6000 | 4200 | B 1800\"");
  d.wall("E", "{ from_left = 6000, run = \"L 1800 | 4200 | L 1800\" }");
  add("lining above its half, an inside line", d);

  d = braced();
  d.wall("C", "{ run = \"B 1800 | 8400 | B 1800\", frames = \"3600 | F2 8400\" }");
  add("shop frames, a truss on their joint", d);

  d = braced();
  d.height = "\"3.2 m\"";
  d.verge = "\"0.6 m\"";
  d.eaves = "\"0.6 m\"";
  add("high walls, wide verge", d);
  d = braced();
  d.verge = "\"0 m\"";
  d.eaves = "\"0 m\"";
  d.weight = "{ least = \"0.35 kPa\", greatest = \"0.45 kPa\", on = \"slope\" }";
  add("no overhangs, weight on the slope", d);
  d = braced();
  d.weight = "\"2.0 kPa\"";
  add("a heavy roof that presses everything down", d);

  d = braced();
  d.fixing(
      "[[anchor]]\nname = \"demo-char\"\nhow = \"bonded\"\npull = \"26 kN\"\nslide = \"14 kN\"\ntogether = \"5/3 "
      "power\"\nbasis = \"characteristic\"\nphi = 0.8\n");
  d.fixing(
      "[[sheet]]\nname = \"demo-sheet-char\"\nracking = \"7.5 kN/m\"\nleast_length = \"900 mm\"\nbasis = "
      "\"characteristic\"\ngamma_M = 1.25\n");
  d.noted("jamb", "\"demo-char\"").noted("anchor", "{ use = \"demo-char\", max = \"1.2 m\" }");
  d.mark("B", "{ brace = \"demo-sheet-char\", hold_down = \"demo-char\" }");
  add("characteristic fixings", d);
  d = braced();
  d.noted("anchor", "{ use = \"demo-bolt\", max = \"2.4 m\" }")
      .noted("top_tie", "")
      .noted("stud_tie", "")
      .noted("plate_fixing", "");
  d.wall("C", "\"12000 mm\"");
  add("links left open, a line without a brace", d);
  d = braced();
  d.slab = {{"concrete", "\"25 MPa\""}, {"thickness", "\"200 mm\""}};
  d.noted("anchor", "{ use = \"demo-made\", max = \"1.2 m\" }");
  d.fixing(
      "[[anchor]]\nname = \"demo-made\"\nhow = \"cast in\"\nworked_out = \"ACI 318-19\"\ndiameter = \"12 "
      "mm\"\nembedment "
      "= \"150 mm\"\nsteel_area = \"84 mm2\"\nhead_area = \"250 mm2\"\nyield = \"240 MPa\"\nultimate = \"400 "
      "MPa\"\ntorqued = false\n");
  add("bolts worked out", d);

  add("allowable, ridge across", asce("allowable", "22.6 deg"));
  add("strength, steep", asce("strength", "35 deg"));
  const std::string studs =
      "[[end_studs]]\nname = \"demo-studs\"\npress = \"40 kN\"\ngreatest_height = \"3 m\"\nbasis = "
      "\"characteristic\"\nphi = 0.8\n";
  d = asce("strength", "18 deg");
  d.wall_weight = "\"6 psf\"";
  d.fixing(studs).noted("end_studs", "\"demo-studs\"");
  d.ridge = "up";
  d.trusses = "{ mark = \"T1\", max = \"0.9 m\", odd_space = \"back\" }";
  d.verge = "\"0.6 m\"";
  add("strength, ridge up the sheet, pressed ends case by case", d);
  d = asce("allowable", "5 deg");
  d.height = "\"3.2 m\"";
  add("allowable, low pitch, high walls", d);

  d = braced();
  d.ridge = "up";
  d.trusses = "{ mark = \"T1\", max = \"0.9 m\", odd_space = \"back\" }";
  d.roof_side("left", "{ pitch = \"30 deg\" }");
  d.fixing(
      "[[strap]]\nname = \"demo-char-strap\"\ntension = \"9 kN\"\nend_fixing = \"8 kN\"\npair = true\nbasis = "
      "\"characteristic\"\nphi = 0.8\n");
  d.fixing("[[strap]]\nname = \"demo-no-end\"\ntension = \"9 kN\"\npair = false\nbasis = \"design\"\n");
  d.roof_brace("demo-single", "left", 0.0, 5.0).roof_brace("demo-char-strap", "left", 3.0, 7.0, 4.0);
  d.roof_brace("demo-pair", "right", 0.0, 6.0).roof_brace("demo-pair", "right", 7.8, 3.0, 5.5);
  d.roof_brace("demo-no-end", "right", 1.0, 7.0).roof_brace("demo-single", "right", 7.0, 6.0);
  add("roof braces that differ, one left open, one too steep", d);
  d = t::two_floor_box();
  d.mark("S", "{ brace = \"demo-open\", round_openings = true }").mark("O", "{ brace = \"demo-open\" }");
  d.mark("D1", "\"2100 x 900\"").mark("W1", "\"1200 x 1800\"");
  d.fixing("[[perforated]]\nname = \"demo-open\"\nracking = \"6 kN/m\"\ngreatest_aspect = 3.5\nbasis = \"design\"\n");
  d.wall("A", "\"S 1200 | D1 | S 1800 | W1 | S 600 | W1 | S 1500 | 2400\"");
  d.first_wall("A", "\"O 1800 | D1 | O 1500 | 3000 | O 1800 | D1 | O 2100\"");
  d.bracing = {{"lines_at_most", "\"12 m\""}, {"given_by", "\"a test\""}};
  add("walls held down at their ends alone, on both floors", d);
  d = braced();
  d.mark("L", "{ brace = \"demo-soft-board\" }").mark("P", "{ brace = \"demo-soft-pair\", hold_down = \"demo-rod\" }");
  d.mark("B", "{ brace = \"demo-soft\", hold_down = \"demo-rod\" }");
  d.fixing(
      "[[sheet]]\nname = \"demo-soft\"\nracking = \"6 kN/m\"\nleast_length = \"600 mm\"\ngreatest_aspect = 3.5\nnarrow "
      "= "
      "\"1.25 - 0.125 h/b\"\nstiffness = \"0.8 kN/mm/m\"\nbasis = \"design\"\n");
  d.fixing(
      "[[lining]]\nname = \"demo-soft-board\"\nracking = \"0.45 kN/m\"\nleast_length = \"450 mm\"\nstiffness = \"0.2 "
      "kN/mm/m\"\nbasis = \"design\"\n");
  d.fixing(
      "[[strap]]\nname = \"demo-soft-pair\"\ntension = \"9 kN\"\nend_fixing = \"8 kN\"\npair = true\nstiffness = \"1.4 "
      "kN/mm\"\nbasis = \"design\"\n");
  d.wall("A", "\"B 900 | D1 | L 4200 | B 900 | 900 | P 2100 | 600\"");
  d.bracing = {{"least", "\"NZS 3604\""}};
  add("stated stiffness, narrow sheets, the least of each line", d);
  d = braced();
  d.frame = {{"steel", "\"1 mm\""}, {"yield", "\"550 MPa\""}, {"ultimate", "\"550 MPa\""}};
  d.fixing(
      "[[strap]]\nname = \"demo-worked\"\npair = true\nbasis = \"design\"\nworked_out = \"AISI S100-16\"\n"
      "width = \"30 mm\"\nthickness = \"0.8 mm\"\nyield = \"250 MPa\"\nultimate = \"320 MPa\"\nholes = 1\n"
      "hole = \"5.5 mm\"\nscrews = 3\nscrew_diameter = \"4.8 mm\"\nscrew_shear = \"6 kN\"\n"
      "screw_spacing = \"20 mm\"\nscrew_edge = \"9 mm\"\n");
  d.mark("B", "{ brace = \"demo-worked\", hold_down = \"demo-rod\" }");
  d.wall("A", "\"B 2400 | D1 | 2400 | W1 | 600 | B 2400\"");
  d.wall("B", "\"B 2400 | 3000 | B 2400\"");
  d.wall("C", "\"B 2400 | 7200 | B 2400\"");
  const std::string screwed =
      "width = \"80 mm\"\nthickness = \"0.8 mm\"\nyield = \"550 MPa\"\nultimate = \"550 MPa\"\nholes = 2\nhole = "
      "\"5.5 mm\"\nscrews = 2\nscrew_diameter = \"5.2 mm\"\nscrew_spacing = \"25 mm\"\nscrew_edge = \"20 "
      "mm\"\nbasis = \"design\"\n";
  d.fixing("[[tie]]\nname = \"demo-sheared\"\nworked_out = \"AS/NZS 4600:2018\"\nscrew_shear = \"6 kN\"\n" + screwed)
      .fixing(
          "[[tie]]\nname = \"demo-pulled\"\nworked_out = \"AISI S100-16\"\nscrews_in = \"tension\"\nscrew_head = "
          "\"14 mm\"\nscrew_tension = \"7 kN\"\npried = false\n" +
          screwed)
      .fixing(
          "[[bracket]]\nname = \"demo-bent\"\nworked_out = \"AS/NZS 4600:2018\"\nscrew_shear = \"6 kN\"\nalong = "
          "\"9 kN\"\nacross = \"9 kN\"\ntogether = \"5/3 power\"\ninto_thickness = \"1.5 mm\"\ninto_yield = \"300 "
          "MPa\"\ninto_ultimate = \"340 MPa\"\n" +
          screwed)
      .noted("top_tie", "\"demo-sheared\"")
      .noted("stud_tie", "\"demo-pulled\"")
      .noted("truss", "\"demo-bent\"");
  d.wall_weight = "\"0.30 kPa\"";
  d.fixing(studs).noted("end_studs", "\"demo-studs\"");
  add("straps, ties and brackets worked out, pressed ends", d);
  d = t::skillion_box("30 m", "6 m");
  d.mark("D1", "\"2100 x 2400\"");
  d.site =
      "method = \"EN 1991-1-4\"\nspeed = \"26 m/s\"\nterrain = \"II\"\ntopography = \"flat\"\ngiven_by = \"a test\"";
  d.roof_brace("demo-pair", "front", 0.0, 6.0).roof_brace("demo-pair", "front", 30.0, 24.0);
  add("roof braces of a long skillion, swept along", d);
  d = t::hip_box();
  d.mark("D1", "\"2100 x 2400\"");
  d.site =
      "method = \"EN 1991-1-4\"\nspeed = \"26 m/s\"\nterrain = \"II\"\ntopography = \"flat\"\ngiven_by = \"a test\"";
  d.noted("anchor", "{ use = \"demo-bolt\", max = \"0.6 m\" }");
  d.roof_brace("demo-pair", "front", 4.0, 7.6).roof_brace("demo-single", "back", 0.0, 4.0);
  add("roof braces between hip ends", d);
  d = braced();
  d.mark("P1", "{ size = \"2100 x 3600\", open = true }");
  d.wall("A", "\"B 2400 | P1 | 4800 | B 1200\"");
  d.wall("E", "{ from_front = 1500, run = \"B 1800 | 8400 | B 1800\" }");
  d.weight = "{ least = \"0.35 kPa\", greatest = \"0.45 kPa\", on = \"slope\" }";
  d.trusses =
      "[{ mark = \"T1\", max = 900, odd_space = \"right\" }, { mark = \"T2\", at = [2700, 3600, 4500, 5400], "
      "also_on = [\"E\"], clear_of = \"front\" }]";
  add("trusses clear of the front", d);
  d.site =
      "method = \"EN 1991-1-4\"\nspeed = \"26 m/s\"\nterrain = \"II\"\ntopography = \"flat\"\ngiven_by = \"a test\"";
  d.shape = "skillion";
  d.pitch = "8 deg";
  d.high = "front";
  d.wall("F", "{ from_front = \"6 m\", run = \"B 1800 | 8400 | B 1800\" }");
  d.trusses.replace(d.trusses.find("[\"E\"]"), 5, "[\"E\", \"F\"]");
  add("half trusses clear of the high front, on three walls", d);
  d = braced();
  d.mark("W1", "\"1200 x 1800\"");
  const t::Keys lifted{
      {"against", "\"A\""},
      {"from", "\"1.2 m\""},
      {"length", "\"6 m\""},
      {"depth", "\"2.4 m\""},
      {"overhang", "\"0.3 m\""},
      {"pitch", "\"12 deg\""},
      {"weight", "\"0.15 kPa\""},
      {"rafters", "{ mark = \"R1\", max = \"0.9 m\", at_wall = \"demo-cleat\", at_beam = \"demo-cleat\" }"},
      {"posts", "{ max = \"3 m\", top = \"demo-tie\", foot = \"demo-screw\" }"},
      {"net_uplift", "{ pressure = \"1.6 kPa\", given_by = \"a test\" }"}};
  t::Keys pressed = lifted, unknown = lifted;
  t::Draft::set(pressed, "against", "\"B\"");
  t::Draft::set(pressed, "net_uplift", "{ pressure = \"0.1 kPa\", given_by = \"a test\" }");
  t::Draft::set(unknown, "against", "\"C\"");
  t::Draft::set(unknown, "net_uplift", "");
  d.verandas = {{"V", lifted}, {"Q", pressed}, {"X", unknown}};
  add("a veranda that is lifted, one that is pressed, one of which that is not known", d);
  return all;
}

const Table& method_of(const House& h) { return table(table_for(h.site)); }
const Table& practice() { return table("practice/common.toml"); }

struct Told {
  const Sample* sample;
  const Units* units;
  Result result;
  std::vector<Working> workings;  // one a link
  std::vector<bool> looked_at;    // the others are empty
};
// Of a house with more links than that the first few of each kind, and then one of so many.
std::vector<bool> worth_a_look(const Result& r, std::size_t all_up_to, std::size_t first, std::size_t of_so_many) {
  std::vector<bool> looked_at;
  std::map<std::string, std::size_t> of_kind;
  for (const Link& l : r.links) {
    const std::size_t n = of_kind[l.kind]++;
    looked_at.push_back(r.links.size() <= all_up_to || n < first || n % of_so_many == 0);
  }
  return looked_at;
}
// All samples told once for the whole test program, in both ways of printing.
const std::vector<Told>& told() {
  static const std::vector<Sample> all = samples();
  static const std::vector<Told> r = [] {
    std::vector<Told> list;
    std::size_t n = 0;
    for (const Sample& s : all) {
      if (t::sanitized && n++ % 11 != 0 && s.name != "saltbush-cottage") continue;
      House h = s.house;
      h.checked.clear();  // so that each link lists all the figures that it rests on
      const Units* u = list.size() % 2 == 0 ? &metric : &us;
      const t::Built b(h);
      const LineSpacing spacing = method_for(b.house.site).line_spacing(b.wind.ask());
      const Judge judge(b.forces, spacing, b.method);
      std::map<std::string, Working> winds;  // by case: what `explain` tells of the wind before each link
      list.push_back({&s, u, b.result, {}, worth_a_look(b.result, 120, 6, 4)});
      for (std::size_t i = 0; i < b.result.links.size(); ++i) {
        if (!list.back().looked_at[i]) {
          list.back().workings.emplace_back(*u);
          continue;
        }
        const CaseName& name = b.result.links[i].load_case;
        const std::size_t c = name.id.empty() ? 0 : b.case_at(name);
        const auto [wind, fresh] = winds.try_emplace(name.id, Working(*u));
        if (fresh) b.wind.tell(b.forces.wind_of(c), wind->second);
        list.back().workings.push_back(wind->second);
        judge.tell(i, c, list.back().workings.back());
      }
    }
    return list;
  }();
  return r;
}
template <class Body> void for_each_link(const Body& body) {
  for (const Told& one : told())
    for (std::size_t i = 0; i < one.workings.size(); ++i) {
      if (!one.looked_at[i]) continue;
      const Link& l = one.result.links[i];
      INFO(one.sample->name << ": " << l.kind << ", " << l.where.words);
      body(one, l, one.workings[i]);
    }
}
std::string line(const Step& s, const Units& u) {
  return fmt::format("{} | {} = {} | {} = {} | {}", s.heading, s.symbol, s.formula, s.numbers, text(s.result, u),
                     s.words);
}
bool same_bits(Value a, Value b) {
  return a.kind == b.kind && std::bit_cast<std::uint64_t>(a.si) == std::bit_cast<std::uint64_t>(b.si);
}

}  // namespace

TEST_CASE("explain: what is looked at here is what `explain` gives") {
  for (const Told& one : told()) {
    if (one.sample->name != "saltbush-cottage" && one.sample->name != "allowable, ridge across") continue;
    House h = one.sample->house;
    h.checked.clear();
    std::string different;
    for (std::size_t i = 0; i < one.workings.size(); i += 3) {
      if (!one.looked_at[i]) continue;
      const Working w = explain(h, method_of(h), practice(), one.result, i, *one.units);
      const bool same = std::equal(w.steps.begin(), w.steps.end(), one.workings[i].steps.begin(),
                                   one.workings[i].steps.end(), [&](const Step& a, const Step& b) {
                                     return line(a, *one.units) == line(b, *one.units) &&
                                            same_bits(a.result, b.result) && a.source == b.source;
                                   });
      if (!same) different += one.result.links[i].where.words + '\n';
    }
    CHECK(different == "");
  }
}

TEST_CASE("explain: no step of any link uses what was not told before it") {
  std::size_t steps = 0;
  for_each_link([&](const Told&, const Link&, const Working& w) {
    CHECK(orphan(w) == "");
    steps += w.steps.size();
  });
  CHECK(steps > 10000);
}

TEST_CASE("explain: every printed step comes out again in GNU Units") {
  REQUIRE(recompute::units_works());
  for (const Told& one : told()) {
    std::vector<Step> different;
    std::set<std::string> seen;
    for (const Working& w : one.workings)
      for (const Step& s : w.steps)
        if (seen.insert(s.numbers + " = " + text(s.result, *one.units)).second) different.push_back(s);
    const auto outcome = recompute::recompute(different, *one.units);
    INFO(one.sample->name << ", worst share of the room " << outcome.worst);
    for (const auto& miss : outcome.misses) FAIL_CHECK(miss);
    CHECK(outcome.checked > 50);
    CHECK(outcome.worst <= 1.0);
  }
}

TEST_CASE("explain: demand, capacity and use are the link's own to the bit") {
  std::size_t compared = 0, demands = 0, combined = 0;
  for_each_link([&](const Told& one, const Link& l, const Working& w) {
    const auto tells = [&](const Value& v) {
      return std::any_of(w.steps.begin(), w.steps.end(), [&](const Step& s) { return same_bits(s.result, v); });
    };
    for (const LinkPart& p : l.parts) {
      if (p.role == Role::reported) continue;  // judged by nobody, and in a case of its own
      INFO(p.part << ": " << text(p.demand, *one.units));
      const bool together = p.demand.kind == Kind::ratio;
      // One sense of a line is not pushed in the case that decides; "along" and "across" come to the anchor as "slide".
      if (!together && p.demand.si != 0.0) {
        CHECK(tells(p.demand));
        ++demands;
      }
      if (!p.use || p.demand.si == 0.0) continue;
      if (together) {
        REQUIRE_FALSE(w.steps.empty());
        CHECK(same_bits(w.steps.back().result, value(p.use->value)));
        ++combined;
        continue;
      }
      const bool slides = l.kind == "anchor" || l.kind == "jamb" || l.kind == "hold-down" || l.kind == "floor fixing";
      const bool within_slide = slides && (p.part == "along" || p.part == "across");
      if (within_slide) continue;
      CHECK(std::any_of(w.steps.begin(), w.steps.end(), [&](const Step& s) {
        return s.operands.size() == 2 && same_bits(s.operands[0].value, p.demand) &&
               same_bits(s.operands[1].value, *p.capacity) && same_bits(s.result, value(p.use->value));
      }));
      ++compared;
    }
    // The last word of the working is the use that decides, unless there is nothing to compare with.
    if (l.use && l.use->value > 0.0 && !w.steps.empty() && l.parts.size() == 1)
      CHECK(same_bits(w.steps.back().result, value(l.use->value)));
  });
  CHECK(compared > 500);
  CHECK(demands > (t::sanitized ? 500U : 1000U));
  CHECK(combined > (t::sanitized ? 100U : 200U));
}

TEST_CASE("explain: the figures from memory that it names are those that the link rests on") {
  constexpr std::string_view note = "(from memory)";
  // These decide which case, height, zone or capacity is taken; they enter no sum as a number of their own.
  const std::set<std::string> only_decide{"limits",
                                          "en_edge_far",
                                          "en_edge_corner",
                                          "aci_edge_corner",
                                          "aci_least",
                                          "aci_depth",
                                          "mean_height",
                                          "partial_rule",
                                          "debris",
                                          "wide_door",
                                          "importance",
                                          "end_zone",
                                          "along_ridge",
                                          "class_regions",
                                          "zones",
                                          "friction",
                                          "wall_side_far",
                                          "local",
                                          "wall_leeward",
                                          "wall_leeward_pitched",
                                          "hill_conditions",
                                          "directional_limits",
                                          "wall_leeward_steep",
                                          "gust_N1",
                                          "directional_soffit",
                                          "canopy",
                                          "flat",
                                          "inside_dominant"};
  std::size_t named = 0;
  for (const Sample& sample : samples()) {
    if (sample.name != "saltbush-cottage" && sample.name != "high walls, wide verge" &&
        sample.name != "ironbark-lodge" && sample.name != "heather-croft" && sample.name != "sagebrush-house" &&
        sample.name != "fernside-cottage" && sample.name != "mallee-hut" && sample.name != "banksia-rise" &&
        sample.name != "dune-house" && sample.name != "fig-tree-lane" && sample.name != "low pitch, no wall weight" &&
        sample.name != "allowable, low pitch, high walls" && sample.name != "cyclonic, ridge up the sheet" &&
        sample.name != "lining above its half, an inside line" && sample.name != "bolts worked out" &&
        sample.name != "stated stiffness, narrow sheets, the least of each line")
      continue;
    if (t::sanitized && sample.name != "saltbush-cottage") continue;
    House house = sample.house;
    house.checked.clear();  // so that each link lists all the figures that it rests on
    const t::Built b(house);
    const LineSpacing spacing = method_for(b.house.site).line_spacing(b.wind.ask());
    const Judge judge(b.forces, spacing, b.method);
    std::vector<std::set<std::string>> said(b.result.links.size());
    // Each is told in every case.
    const std::vector<bool> looked_at = worth_a_look(b.result, 0, 2, 15);
    for (std::size_t c = 0; c < b.forces.cases(); ++c) {
      Working wind;
      b.wind.tell(b.forces.wind_of(c), wind);
      for (std::size_t i = 0; i < said.size(); ++i) {
        // Under a rigid ceiling the same comes again to what no bracing has a part in.
        const std::string& kind = b.result.links[i].kind;
        const bool again = c != b.forces.wind_of(c) && !b.house.first &&
                           (kind == "top tie" || kind == "stud tie" || kind == "plate" || kind == "girder bracket");
        if (!looked_at[i] || again || !judge.acts(i, c)) continue;
        Working w = wind;
        judge.tell(i, c, w);
        for (const Step& s : w.steps)
          if (s.source.ends_with(note)) said[i].insert(s.source);
      }
    }
    for (std::size_t i = 0; i < said.size(); ++i) {
      if (!looked_at[i]) continue;
      const Link& l = b.result.links[i];
      INFO(sample.name << ": " << l.kind << ", " << l.where.words);
      std::set<std::string> rests, decides;
      for (const Table* t : {&b.method, &b.practice})
        for (const Entry& e : t->entries)
          if (std::find(l.rests_on_memory.begin(), l.rests_on_memory.end(), e.figure) != l.rests_on_memory.end())
            (only_decide.contains(e.key) ? decides : rests).insert(t->source(e.key));
      std::vector<std::string> not_listed, not_told;
      rests.insert(decides.begin(), decides.end());
      std::set_difference(said[i].begin(), said[i].end(), rests.begin(), rests.end(), std::back_inserter(not_listed));
      for (const std::string& d : decides) said[i].insert(d);
      std::set_difference(rests.begin(), rests.end(), said[i].begin(), said[i].end(), std::back_inserter(not_told));
      CHECK(fmt::format("{}", fmt::join(not_listed, "; ")) == "");
      CHECK(fmt::format("{}", fmt::join(not_told, "; ")) == "");
      named += said[i].size();
    }
  }
  CHECK(named > (t::sanitized ? 100 : 400));
}

TEST_CASE("explain: nothing is told twice under one heading") {
  for_each_link([&](const Told& one, const Link&, const Working& w) {
    std::set<std::string> seen;
    std::string again;
    for (const Step& s : w.steps)
      if (!seen.insert(fmt::format("{}|{}|{}|{}|{}", s.heading, s.symbol, s.words, s.formula,
                                   std::bit_cast<std::uint64_t>(s.result.si)))
               .second)
        again += line(s, *one.units) + '\n';
    CHECK(again == "");
  });
}

TEST_CASE("explain: no step is another name alone, and every step says what it is and whence") {
  for_each_link([&](const Told& one, const Link&, const Working& w) {
    std::string faulty;
    for (const Step& s : w.steps) {
      const bool renamed = (s.kind == StepKind::sum || s.kind == StepKind::choice) && s.operands.size() < 2;
      if (renamed || s.symbol.empty() || s.words.empty() || s.source.empty() || s.heading.empty())
        faulty += line(s, *one.units) + '\n';
    }
    CHECK(faulty == "");
  });
}

TEST_CASE("explain: the page of every link keeps to its width, and a student gets through it") {
  std::size_t most = 0;
  for (const Told& one : told())
    for (std::size_t i = 0; i < one.workings.size(); ++i) {
      if (!one.looked_at[i]) continue;
      const std::string page = working_page(one.result, i, one.workings[i], Look{false});
      std::istringstream lines(page);
      std::string wide;
      std::size_t numbered = 0;
      for (std::string l; std::getline(lines, l);) {
        if (columns(l) > page_width) wide += l + '\n';
        if (l.starts_with(fmt::format("{:>3}  ", numbered + 1))) ++numbered;
      }
      INFO(one.sample->name << ": " << one.result.links[i].where.words);
      CHECK(wide == "");
      if (one.sample->name == "saltbush-cottage" && one.result.links[i].where.words == "A1 right") {
        CHECK(one.result.links[i].kind == "hold-down");  // beside the doorway
        CHECK(numbered > 40);
        CHECK(numbered < 80);
        most = numbered;
      }
    }
  CHECK(most > 0);
}
