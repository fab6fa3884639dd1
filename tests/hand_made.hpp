// Results put together by hand, for the pages that show them. The figures are invented, but for those of the two ends
// of wall A, which are worked in the tests that use them.
#pragma once
#include "belay/result.hpp"
#include "quantities.hpp"
#include "text_files.hpp"
#include <string>
#include <utility>
#include <vector>

namespace belay::hand_made {

using test::kilonewtons;
using test::lines_of;
using test::millimetres;

inline LinkPart part(std::string name, double demand_kn, double capacity_kn) {
  return LinkPart{.role = Role::single,
                  .part = std::move(name),
                  .demand = value(kilonewtons(demand_kn)),
                  .capacity = value(kilonewtons(capacity_kn)),
                  .use = Use{demand_kn / capacity_kn},
                  .rule = "",
                  .made_of = {}};
}
inline LinkPart together(double use) {
  return LinkPart{.role = Role::combined,
                  .part = "both",
                  .demand = Value{use, Kind::ratio},
                  .capacity = std::nullopt,
                  .use = Use{use},
                  .rule = "straight sum",
                  .made_of = {}};
}
inline Link link(std::string id, std::string kind, std::string wall, std::string face, double from_start_mm,
                 std::string spoken, Verdict verdict, std::vector<LinkPart> parts, Why why) {
  std::optional<Use> use;
  for (const LinkPart& p : parts)
    if (p.use && (!use || p.use->value > use->value)) use = p.use;
  return Link{
      .id = std::move(id),
      .kind = std::move(kind),
      .where = Where{.block = "main",
                     .floor = "ground",
                     .wall = std::move(wall),
                     .face = std::move(face),
                     .from_start = millimetres(from_start_mm),
                     .words = std::move(spoken),
                     .also = {}},
      .fixing = Chosen{.name = "demo-rod-16", .by = "unless noted", .at = "saltbush.toml:23"},
      .fixing_source = "invented",
      .fixing_demo = true,
      .load_case = CaseName{.id = "along-left",
                            .wind = "along the house, from the left",
                            .inside = "sealed",
                            .combination = "0.9 G + W"},
      .parts = std::move(parts),
      .use = use,
      .conditions = {Condition{.name = "edge distance", .needs = "45 mm", .has = "45 mm", .met = Met::yes, .key = ""}},
      .rests_on_memory = {"AS 4055 uplift"},
      .verdict = verdict,
      .why = std::move(why)};
}
inline void count(Result& r) {
  r.counts = Counts{0, 0, 0, 0};
  for (const Link& l : r.links) {
    if (l.verdict == Verdict::pass) ++r.counts.pass;
    if (l.verdict == Verdict::fail) ++r.counts.fail;
    if (l.verdict == Verdict::not_judged) ++r.counts.not_judged;
    if (l.verdict == Verdict::by_others) ++r.counts.by_others;
  }
}
// Two ends too weak, one brace line and one bracket that hold, two stud ties not judged, one tie by others.
inline Result saltbush() {
  Link left = link("A2/left", "hold-down", "A", "front", 10900.0, "A2 left", Verdict::fail,
                   {part("pull", 24.751, 26.0), part("slide", 3.029, 14.0), together(24.751 / 26.0 + 3.029 / 14.0)},
                   Why{"together", ""});
  left.parts[0].made_of = {MadeOf{"tipping of brace A2", value(kilonewtons(14.872)), "A2"},
                           MadeOf{"own weight of the brace", value(kilonewtons(-0.398)), "A2"},
                           MadeOf{"roof over doorway D1", value(kilonewtons(10.277)), "T1 at 8100, 9000, 9900"}};
  Link right = link("A1/right", "hold-down", "A", "front", 1100.0, "A1 right", Verdict::fail,
                    {part("pull", 24.604, 26.0), part("slide", 3.029, 14.0), together(24.604 / 26.0 + 3.029 / 14.0)},
                    Why{"together", ""});
  Link line = link("line/E", "line", "E", "inside", 0.0, "line E to the back", Verdict::pass,
                   {part("racking", 8.95, 10.0)}, Why{"holds", ""});
  line.where.from_start.reset();
  Link bracket = link("T1-900/front", "bracket", "A", "front", 900.0, "T1 at 900 front", Verdict::pass,
                      {part("uplift", 4.404, 6.0)}, Why{"holds", ""});
  Link tie = link("tie/T1-900/front", "stud tie", "A", "front", 900.0, "T1 at 900 front", Verdict::not_judged,
                  {LinkPart{.role = Role::single,
                            .part = "pull",
                            .demand = value(kilonewtons(4.404)),
                            .capacity = std::nullopt,
                            .use = std::nullopt,
                            .rule = "",
                            .made_of = {}}},
                  Why{"no-fixing", ""});
  tie.fixing = Chosen{};
  tie.fixing_source.clear();
  tie.fixing_demo = false;
  tie.conditions.clear();
  tie.where.words = "stud tie T1 at 900 front";
  Link tie2 = tie;
  tie2.id = "tie/T1-1800/front";
  tie2.where.words = "stud tie T1 at 1800 front";
  tie2.where.from_start = millimetres(1800.0);
  Link top = tie;
  top.id = "top/T1-900/front";
  top.kind = "top tie";
  top.where.words = "top tie T1 at 900 front";
  top.verdict = Verdict::by_others;
  top.why = Why{"by-others", "frame maker's engineer"};
  top.conditions.clear();
  Result r{.tool = "belay 0.1",
           .table = "methods/as-4055-2021.toml",
           .title = "Saltbush Cottage",
           .drawn = "plan 2403-A2 rev C, to frame",
           .file = "saltbush.toml",
           .sha256 = "0",
           .print = Print::metric,
           .site = SiteSaid{.method = "AS 4055",
                            .edition = "2021",
                            .wind_class = "N3",
                            .given_by = "site report 4471, 3 March",
                            .basis = "limit state (design)",
                            .gust = Speed::from_value(50.0),
                            .q = Pressure::from_value(1500.0)},
           .answer = Answer::fail,
           .counts = {0, 0, 0, 0},
           .links = {left, right, line, bracket, tie, tie2, top},
           .nearest = {2, 3},
           .excess = {},
           .cautions = {Caution{"braces-alike", "Brace ends that share a line by their strength all pull alike"}},
           .not_looked_at = {NotLookedAt{"roof bracing", "no rule for it yet", ""}, NotLookedAt{"earthquake", "", ""}},
           .from_memory = {FromMemory{.figure = "AS 4055 uplift",
                                      .value = "0.99",
                                      .source = "AS 4055:2021 Table C1",
                                      .links = 4,
                                      .checked = false,
                                      .who = ""},
                           FromMemory{.figure = "AS 4055 wall",
                                      .value = "0.96",
                                      .source = "AS 4055:2021 Table C2",
                                      .links = 3,
                                      .checked = true,
                                      .who = "A. Reader, 2 May, library copy"}},
           .by_others = {ByOthers{"top tie", "frame maker's engineer"}}};
  count(r);
  return r;
}
// The same house with everything in order, on checked figures.
inline Result all_good() {
  Result r = saltbush();
  r.links = {r.links[2], r.links[3]};
  for (Link& l : r.links) l.rests_on_memory.clear();
  r.from_memory.clear();
  r.by_others.clear();
  r.nearest = {0, 1};
  r.answer = Answer::pass;
  count(r);
  return r;
}

}  // namespace belay::hand_made
