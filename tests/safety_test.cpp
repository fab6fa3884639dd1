// What is missing, doubtful or out of range never passes and never relieves another link. Each case once passed, or
// could have: found by reading and by trying, 2026-11-25. Invented houses.
#include "cli/address.hpp"
#include "houses.hpp"
#include <algorithm>
#include <catch2/catch.hpp>

using namespace belay;
using namespace belay::test;
using Catch::Matchers::WithinRel;

namespace {

std::string code_of(const Draft& d) {
  const Opened o = d.opened();
  return o.problems.empty() ? "none" : o.problems.front().code;
}
// The entry of that name in the fixings file without the line that begins with `key`.
Draft without(Draft d, const std::string& name, const std::string& key) {
  const auto entry = d.fixings.find("name = \"" + name + "\"");
  REQUIRE(entry != std::string::npos);
  const auto line = d.fixings.find("\n" + key + " = ", entry);
  REQUIRE(line != std::string::npos);
  d.fixings.erase(line, d.fixings.find('\n', line + 1) - line);
  return d;
}
std::size_t count(const Built& b, std::string_view kind, Verdict v) {
  return static_cast<std::size_t>(std::count_if(b.result.links.begin(), b.result.links.end(),
                                                [&](const Link& l) { return l.kind == kind && l.verdict == v; }));
}
Force greatest_uplift(const Built& b) {
  Force most = zero<Force>();
  for (std::size_t c = 0; c < b.loads.cases.size(); ++c)
    for (std::size_t i = 0; i < b.forces.roof.bearings().size(); ++i) most = std::max(most, b.forces.uplift(c, i));
  return most;
}
Draft with_openings(const std::string& mark) {
  Draft d = closed_box();
  d.mark("O", mark).mark("N", "{ brace = \"demo-sheet\" }").wall("A", "\"B 3000 | 1500 | O | 1500 | B 3000\"");
  return d;
}

}  // namespace

TEST_CASE("a capacity that a sheet leaves out counts in every case, whichever way the ridge runs") {
  for (const char* ridge : {"across", "up"}) {
    Draft d = closed_box();
    d.ridge = ridge;
    d.trusses = "{ mark = \"T1\", max = \"0.9 m\" }";
    const Built whole(d);
    CHECK(count(whole, "bracket", Verdict::pass) > 0);
    const Built b(without(d, "demo-cleat", "along"));
    INFO(ridge);
    CHECK(count(b, "bracket", Verdict::pass) == 0);
    CHECK(count(b, "bracket", Verdict::not_judged) == count(whole, "bracket", Verdict::pass));
    // and a sheet that does not say how its forces act together answers for none of them
    const Built c(without(d, "demo-cleat", "together"));
    CHECK(count(c, "bracket", Verdict::pass) == 0);
  }
}

TEST_CASE("a brace that does not count props no ceiling and leaves its ends unjudged") {
  Draft d = closed_box();
  const Built bare(d);
  d.wall("E", "{ from_left = 6000, run = \"B 600 | 7200\" }");  // a sheet of 600 mm: its own least is 900
  const Built b(d);
  CHECK(b.link("brace E1").verdict == Verdict::fail);
  CHECK(b.link("line E to the back").verdict == Verdict::fail);
  for (std::size_t c = 0; c < b.loads.cases.size(); ++c)
    for (const char* line : {"B", "D"})
      CHECK(b.forces.line_force(c, b.line_at(line)) == bare.forces.line_force(c, bare.line_at(line)));
  for (const char* end : {"E1 front", "E1 back"}) {
    CHECK(b.link(end).verdict == Verdict::not_judged);
    CHECK(b.link(end).why.code == "brace-does-not-count");
  }
  CHECK_NOTHROW(b.link("spacing D to B"));  // from outside wall to outside wall, past the line that does not count
}

TEST_CASE("an inside wall's end stands as near the slab's edge as an outside wall's") {
  Draft d = closed_box();
  d.wall("E", "{ from_left = 6000, run = \"B 1200 | 5400 | B 1200\" }");
  d.fixing(
      "[[anchor]]\nname = \"demo-far\"\nhow = \"cast in\"\npull = \"90 kN\"\nslide = \"90 kN\"\ntogether = \"straight "
      "sum\"\nleast_edge = \"250 mm\"\nleast_spacing = \"10 mm\"\nconcrete = \"20 MPa\"\ncracked = true\nbasis = "
      "\"design\"\n");
  d.mark("K", "{ brace = \"demo-sheet\", hold_down = \"demo-far\" }");
  d.wall("E", "{ from_left = 6000, run = \"K 1200 | 5400 | K 1200\" }");
  const Built b(d);
  CHECK(b.link("E1 front").verdict == Verdict::fail);  // 100 mm from the front face
  CHECK(b.link("E1 front").why.code == "condition-unmet");
  CHECK(b.link("E1 back").verdict == Verdict::pass);  // 1100 mm
}

TEST_CASE("an anchor in concrete whose sheet says nothing of edge, spacing, strength or cracks is not judged") {
  for (const char* key : {"least_edge", "least_spacing", "concrete", "cracked"}) {
    const Built b(without(closed_box(), "demo-rod", key));
    INFO(key);
    CHECK(count(b, "hold-down", Verdict::pass) == 0);
    CHECK(b.link("A1 left").why.code == "condition-not-stated");
  }
}

TEST_CASE("a strap without the figure of its end fixing is not judged, and its line neither") {
  Draft d = closed_box();
  d.mark("X", "{ brace = \"demo-pair\", hold_down = \"demo-rod\" }").wall("A", "\"X 2700 | 6600 | X 2700\"");
  CHECK(Built(d).link("brace A1").verdict == Verdict::pass);
  const Built b(without(d, "demo-pair", "end_fixing"));
  CHECK(b.link("brace A1").verdict == Verdict::not_judged);
  CHECK(b.link("line A to the right").verdict == Verdict::not_judged);
  CHECK(b.link("line A to the right").why.code == "brace-not-judged");
}

TEST_CASE("what is static is not judged in cyclonic classes, sheets and drilled anchors included") {
  Draft d = closed_box();
  d.site = "class = \"C1\"\ngiven_by = \"a test\"";
  for (const char* name : {"demo-sheet", "demo-cleat"}) {
    const Built b(without(d, name, "cyclic"));
    const std::string kind = std::string(name) == "demo-sheet" ? "brace" : "bracket";
    CHECK(count(b, kind, Verdict::pass) == 0);
    CHECK(count(b, kind, Verdict::not_judged) > 0);
  }
  CHECK(count(Built(without(d, "demo-rod", "cyclic")), "hold-down", Verdict::pass) > 0);  // cast in
}

TEST_CASE("a door that is not known to stand the wind counts as open, however narrow it is said to be weak") {
  const Force shut = greatest_uplift(Built(with_openings("{ size = \"2100 x 3000\", wind_rated = \"N3\" }")));
  for (const char* mark :
       {"\"2100 x 3000\"", "{ size = \"2100 x 3000\", wind_rated = \"not known\" }",
        "{ size = \"2100 x 3000\", wind_rated = \"N2\" }", "{ size = \"2100 x 3000\", wind_rated = \"C3\" }",
        "{ size = \"1600 x 3000\" }", "{ size = \"1200 x 3000\", open = true }"}) {
    INFO(mark);
    CHECK(greatest_uplift(Built(with_openings(mark))) > shut);
  }
  Draft narrow = with_openings("{ size = \"2100 x 900\", wind_rated = \"not known\" }");
  narrow.wall("A", "\"B 3000 | 3600 | O | 1500 | B 3000\"");
  CHECK(greatest_uplift(Built(narrow)) > shut);
  CHECK(greatest_uplift(Built(with_openings("{ size = \"2100 x 3000\", door = false }"))) == shut);
}

TEST_CASE("in a wind-borne debris region a wind rating closes no opening, an impact rating does") {
  Draft d = with_openings("{ size = \"1200 x 3000\", wind_rated = \"150 mph\" }");
  for (const char* from : {"\"design\"", "\"design\"\n"})
    for (auto at = d.fixings.find(from); at != std::string::npos; at = d.fixings.find(from))
      d.fixings.replace(at, 8, "\"allowable\"");
  d.site =
      "method = \"ASCE 7-16\"\nspeed = \"140 mph\"\nspeed_is = \"ultimate\"\nexposure = \"B\"\nrisk = \"II\"\nlevel = "
      "\"allowable\"\ntopography = \"flat\"\ngiven_by = \"a test\"";
  const Force open = greatest_uplift(Built(d));  // 140 mph and nothing said: taken as such a region
  d.mark("O", "{ size = \"1200 x 3000\", impact_rated = true }");
  const Force rated = greatest_uplift(Built(d));
  CHECK(open > rated);
  d.mark("O", "{ size = \"1200 x 3000\" }").site += "\ndebris_region = false";
  CHECK(greatest_uplift(Built(d)) == rated);
}

TEST_CASE("bracing lines further apart than the lightest winds allow fail in every class, others or not") {
  for (const char* wind : {"N1", "N2", "N3", "C2"}) {
    Draft d = closed_box("9.1 m", "7.8 m");
    d.site = fmt::format("class = \"{}\"\ngiven_by = \"a test\"", wind);
    d.by_others = {{"line spacing", "\"somebody\""}};
    const Built b(d);
    INFO(wind);
    CHECK(b.link("spacing D to B").verdict == Verdict::fail);
    const bool table_in_hand = std::string_view(wind) < "N3" && wind[0] == 'N';
    CHECK(b.link("spacing A to C").verdict == (table_in_hand ? Verdict::pass : Verdict::by_others));
  }
}

TEST_CASE("jobs that leave roof to nobody or count a thing twice are refused") {
  Draft d = closed_box();
  CHECK(code_of(d) == "none");
  const auto trusses = [&](const char* at) {
    Draft x = d;
    x.trusses = fmt::format("{{ mark = \"T1\", at = [{}] }}", at);
    return code_of(x);
  };
  CHECK(trusses("") == "too-few-trusses");
  CHECK(trusses("6000") == "too-few-trusses");
  CHECK(trusses("0, 3000, 6000, 9000, 12000") == "none");
  CHECK(trusses("0, 3000, 6000, 9001, 12000") == "gap-in-trusses");
  CHECK(trusses("0, 3000, 6000, 9000, 10500") == "none");
  CHECK(trusses("0, 3000, 6000, 9000, 10499") == "gap-in-trusses");
  Draft twice = d;
  twice.wall("E", "{ from_left = 0, run = \"B 7800\" }");
  CHECK(code_of(twice) == "walls-in-one-place");
  Draft steel = d;
  steel.frame = {{"steel", "\"0.75 m\""}};
  CHECK(code_of(steel) == "unbelievable-value");
  Draft risk = d;
  risk.importance = "4";
  risk.site =
      "method = \"ASCE 7-16\"\nspeed = \"120 mph\"\nspeed_is = \"ultimate\"\nexposure = \"B\"\nrisk = \"II\"\nlevel = "
      "\"strength\"\ntopography = \"flat\"\ngiven_by = \"a test\"";
  CHECK(code_of(risk) == "risk-and-importance");
  risk.importance = "2";
  CHECK(code_of(risk) == "none");
}

TEST_CASE("no truss at an end wall, or one that seems to be missing, is said first") {
  Draft d = closed_box();
  d.trusses = "{ mark = \"T1\", at = [0, 900, 1800, 2700, 4500, 5400, 6300, 7200, 8100, 9000, 9900, 11100] }";
  const Built b(d);
  const auto said = [&](std::string_view code) {
    return std::any_of(b.result.cautions.begin(), b.result.cautions.end(),
                       [&](const Caution& c) { return c.code == code; });
  };
  CHECK(said("no-end-truss"));
  CHECK(said("wide-gap-in-trusses"));
  CHECK_FALSE(b.result.cautions.empty());
  CHECK(b.result.cautions.back().code == "outside-walls-bear");  // what holds for every house comes last
}

TEST_CASE("a wrong wall in an address is no link of another wall") {
  Draft d = closed_box();
  d.mark("W", "\"1200 x 1800\"").wall("C", "\"B 1200 | 3000 | W | 4800 | B 1200\"");
  const Built b(d);
  REQUIRE(find_link(b.result, "C jamb W left").links.size() == 1);
  CHECK(find_link(b.result, "A jamb W left").links.empty());
  const auto ground = find_link(b.result, "ground C1 left").links;
  REQUIRE(ground.size() == 1);
  CHECK(b.result.links[ground.front()].kind == "ground");
}

TEST_CASE("a sheet that states `press` is not passed over where pressing is not judged") {
  const auto with_press = [](Draft d) {
    const std::string along = "along = \"60 kN\"\nacross = \"60 kN\"\n";
    const auto at = d.fixings.find(along);
    REQUIRE(at != std::string::npos);
    d.fixings.insert(at, "press = \"0.05 kN\"\n");
    return Built(d);
  };
  std::size_t refused = 0, judged = 0;
  for (const Draft& d : {skillion_box(), hip_box()}) {
    const Built b = with_press(d);
    CHECK(b.result.answer != Answer::pass);
    CHECK(b.result.answer != Answer::pass_if);
    for (std::size_t i = 0; i < b.forces.roof.bearings().size(); ++i) {
      const MemberKind kind = b.forces.roof.member_of(i).kind;
      const auto link = std::find_if(b.result.links.begin(), b.result.links.end(), [&](const Link& l) {
        return l.where.words == b.forces.roof.bearings()[i].words && l.kind.ends_with("bracket");
      });
      REQUIRE(link != b.result.links.end());
      INFO(link->where.words);
      CHECK(link->verdict != Verdict::pass);
      if (kind != MemberKind::jack && kind != MemberKind::creeper && kind != MemberKind::hip_rafter) {
        CHECK(link->verdict == Verdict::fail);
        ++judged;
      } else {
        CHECK(link->verdict == Verdict::not_judged);
        CHECK(link->why.code == "press-not-judged");
        ++refused;
      }
    }
  }
  CHECK(judged > 30);
  CHECK(refused > 30);
}

TEST_CASE("what a truss brings to an inside wall is judged, under two slopes as under one, and pitch adds to it") {
  double flat_lift = 0.0;
  for (const bool pitched : {true, false}) {
    Draft d = pitched ? closed_box() : skillion_box();
    d.trusses = "{ mark = \"T1\", max = \"0.9 m\", also_on = [\"E\"] }";
    d.wall("E", "{ from_front = \"3.9 m\", run = \"B 1200 | 9600 | B 1200\" }");
    const Built b(d);
    std::size_t brackets = 0;
    for (const Link& l : b.result.links) {
      if (l.where.wall != "E" || l.kind != "bracket") continue;
      ++brackets;
      INFO(l.where.words);
      CHECK(l.verdict == Verdict::pass);
    }
    CHECK(brackets > 10);
  }
  // Under suction that is the same on both slopes their level parts pull the truss apart above its bearings and bow it
  // up: the steeper, the more comes to the wall under its middle.
  for (const char* pitch : {"10 deg", "20 deg", "30 deg"}) {
    Draft d = closed_box();
    d.pitch = pitch;
    d.trusses = "{ mark = \"T1\", max = \"0.9 m\", odd_space = \"right\", also_on = [\"E\"] }";
    d.wall("E", "{ from_front = \"3.9 m\", run = \"B 1200 | 9600 | B 1200\" }");
    const Built b(d);
    const double lift = b.forces.uplift(b.case_at("front class"), b.bearing_at("T1 at 3600 on E")).value();
    CHECK(lift > flat_lift);
    flat_lift = lift;
  }
}
