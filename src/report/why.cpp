// The words for the reason of a verdict. The engineering gives a code and what belongs to it; here it becomes a
// sentence.
#include "report/page.hpp"
#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace belay {

namespace {
std::string fixing_words(const Link& l) { return l.fixing.given() ? harmless(l.fixing.name) : "what stands there"; }

// The parts that are too much by themselves.
std::string parts_over(const Link& l) {
  std::string s;
  for (const LinkPart& p : l.parts)
    if (p.role == Role::single && p.use && p.use->value > 1.0) s += (s.empty() ? "" : " and in ") + harmless(p.part);
  return s;
}
// How a fixing that was worked out gives first, and what would help.
std::string gives_words(const Gives& g) {
  const std::string away = g.away.empty() ? g.away : fmt::format(" {} away", harmless(g.away));
  if (g.code == "steel") return "its steel gives first: a thicker bolt or a stronger steel holds more";
  if (g.code == "cone")
    return "the concrete breaks out in a cone: a deeper bolt, more space to edges and neighbours or a stronger slab "
           "holds more";
  if (g.code == "pull-out") return "it pulls out of the concrete: a greater head or a stronger slab holds more";
  if (g.code == "blow-out")
    return fmt::format("the side face at the edge{} blows out: more space to the edge or a greater head holds more",
                       away);
  if (g.code == "edge")
    return fmt::format(
        "the concrete breaks out towards the edge{}: more space to the edge, or a thicker or stronger slab, holds more",
        away);
  if (g.code == "pry-out") return "the concrete behind it is levered off: a deeper bolt holds more";
  if (g.code == "screws") return "its screws give first: more screws, thicker or stronger steel holds more";
  if (g.code == "section") return "its own steel gives first: a wider, thicker or stronger one holds more";
  return {};
}
std::string how_it_gives(const Link& l) {
  std::string r;
  for (const LinkPart& p : l.parts)
    if (p.role == Role::single && p.use && p.use->value > 1.0 && p.gives)
      if (const std::string s = gives_words(*p.gives); r.find(s) == std::string::npos)
        r += (r.empty() ? ": " : "; ") + s;
  return r;
}
// Of the concrete under a fixing: how much it is short by, in words of length.
std::string too_light(const Link& l) {
  const LinkPart* worst = nullptr;
  for (const LinkPart& p : l.parts)
    if (p.capacity && (worst == nullptr || p.demand.si * worst->capacity->si > worst->demand.si * p.capacity->si))
      worst = &p;
  if (worst == nullptr) return "the concrete weighs too little";
  if (!(worst->capacity->si > 0.0))
    return "no concrete is left here that it may call on: its neighbours and the corner have it";
  const double times = std::ceil(10.0 * worst->demand.si / worst->capacity->si) / 10.0;
  const bool footing =
      l.where.words.find(" post ") != std::string::npos || l.where.words.find(" stump ") != std::string::npos;
  if (footing) return fmt::format("its footing weighs too little: {:.1f} times as much is wanted", times);
  const bool row = worst->part != "pull" && worst->made_of.size() > 1;
  return fmt::format(
      "{} weighs too little: {:.1f} times as much is wanted, by a wider or deeper edge or a greater length",
      row ? fmt::format("the concrete that {} fixings in a row pull at", worst->made_of.size())
          : std::string("the concrete that it may call on"),
      times);
}
std::string too_weak(const Link& l) {
  if (l.kind == "ground") return too_light(l);
  if (l.kind == "house slide")
    return "friction under the house, with what the wind lifts taken off its weight, holds less than the wind pushes";
  if (l.kind == "house tip") return "the house weighs too little to hold itself down about this edge";
  if (l.kind == "line") return "the braces on this line hold less than the wind pushes on it";
  if (l.kind == "roof plane") return "the braces in this slope hold less than the wind pushes along it";
  if (l.kind == "subfloor") return "the braces under the floor hold less than the wind pushes";
  if (l.kind == "least bracing") return "the braces on this line hold less than each line must by the rule asked for";
  if (l.kind == "line spacing") return "the bracing lines stand further apart than they may";
  const std::string parts = parts_over(l);
  return parts.empty() ? fmt::format("{} is too weak", fixing_words(l))
                       : fmt::format("{} is too weak in {}{}", fixing_words(l), parts, how_it_gives(l));
}
std::string together(const Link& l) {
  if (!parts_over(l).empty()) return too_weak(l);
  std::string each, list;
  std::size_t n = 0;
  for (const LinkPart& p : l.parts)
    if (p.role == Role::single && p.use) {
      each += fmt::format("{}the {} alone", each.empty() ? "" : " and ", harmless(p.part));
      list += (list.empty() ? "" : ", ") + harmless(p.part);
      ++n;
    }
  if (n > 2) return fmt::format("{} takes each force alone ({}), not all at once", fixing_words(l), list);
  return fmt::format("{} takes {}, not both at once", fixing_words(l), each);
}
const Condition* condition(const Link& l, Met met) {
  const auto named =
      std::ranges::find_if(l.conditions, [&](const Condition& c) { return c.met == met && c.name == l.why.subject; });
  if (named != l.conditions.end()) return &*named;
  const auto any = std::ranges::find_if(l.conditions, [&](const Condition& c) { return c.met == met; });
  return any == l.conditions.end() ? nullptr : &*any;
}
std::string unmet(const Link& l) {
  const Condition* c = condition(l, Met::no);
  if (!c) return "a condition of its sheet is not met";
  return fmt::format("{}: {} needs {}, here {}", fixing_words(l), harmless(c->name), harmless(c->needs),
                     c->has.empty() ? "not so" : harmless(c->has));
}
std::string unstated(const Link& l) {
  const Condition* c = condition(l, Met::not_stated);
  if (!c) return "the job does not state what its sheet asks for";
  return fmt::format("the sheet of {} asks for {}{}, and the job does not state it", fixing_words(l), harmless(c->name),
                     c->needs.empty() ? "" : " (" + harmless(c->needs) + ")");
}

struct Wording {
  std::string_view code;
  std::string (*words)(const Link&);
};
constexpr std::array wordings{
    Wording{
        "holds",
        [](const Link& l) { return l.fixing.given() ? harmless(l.fixing.name) + " holds" : std::string("it holds"); }},
    Wording{"too-weak", too_weak},
    Wording{"together", together},
    Wording{"no-fixing", [](const Link&) { return std::string("the job gives no fixing"); }},
    Wording{
        "no-hold-down-near",
        [](const Link&) { return std::string("no anchor stands near this end of the brace: nothing holds it down"); }},
    Wording{"no-fixing-near",
            [](const Link&) { return std::string("no fixing stands near this jamb: nothing holds it down"); }},
    Wording{"missing-as-built",
            [](const Link&) { return std::string("it is planned, and nothing stands there as built"); }},
    Wording{"as-built-unclear",
            [](const Link& l) {
              return fmt::format("what was found on site cannot be set against the plan: {}", harmless(l.why.subject));
            }},
    Wording{"no-brace", [](const Link&) { return std::string("no brace stands on this line"); }},
    Wording{"no-brace-counts",
            [](const Link&) { return std::string("no brace on this line counts in this direction"); }},
    Wording{"no-roof-braces", [](const Link&) { return std::string("the job states no roof brace in this slope"); }},
    Wording{"no-roof-brace",
            [](const Link& l) {
              return fmt::format("no roof brace in the {} slope pulls against this direction and counts",
                                 harmless(l.why.subject));
            }},
    Wording{"roof-brace-not-judged",
            [](const Link& l) {
              return fmt::format("a condition of roof brace {} is not stated, so what the slope can hold is not known",
                                 harmless(l.why.subject));
            }},
    Wording{"brace-not-judged",
            [](const Link& l) {
              return fmt::format("a condition of brace {} is not stated, so the line's strength is not known",
                                 harmless(l.why.subject));
            }},
    Wording{"brace-does-not-count",
            [](const Link& l) {
              return fmt::format("brace {} does not count, and what it does to its ends is not known",
                                 harmless(l.why.subject));
            }},
    Wording{"press-not-judged",
            [](const Link& l) {
              return fmt::format("{} states `press`, and what presses on a {} is told here, not judged",
                                 harmless(l.fixing.name), harmless(l.why.subject));
            }},
    Wording{"press-not-known",
            [](const Link& l) {
              return fmt::format("what presses there is not known whole: {}", harmless(l.why.subject));
            }},
    Wording{"strap-off-its-end",
            [](const Link& l) {
              return fmt::format(
                  "by its measured angle the strap of brace {} ends well short of the brace: by which fixing it "
                  "pulls and on which studs it presses is not known",
                  harmless(l.why.subject));
            }},
    Wording{"angle-doubtful",
            [](const Link& l) {
              const Condition* c = condition(l, Met::not_stated);
              return fmt::format("its measured angle cannot be: {} is asked for, and {} was measured",
                                 c ? harmless(c->needs) : std::string(), c ? harmless(c->has) : std::string());
            }},
    Wording{"condition-unmet", unmet},
    Wording{"condition-not-stated", unstated},
    Wording{"part-without-capacity",
            [](const Link& l) {
              return fmt::format("the sheet of {} gives no capacity for the force {}", fixing_words(l),
                                 harmless(l.why.subject));
            }},
    Wording{"no-rule",
            [](const Link& l) {
              return fmt::format("the sheet of {} does not say how its forces act together", fixing_words(l));
            }},
    Wording{"no-wall-below",
            [](const Link&) {
              return std::string("no wall of the ground floor stands under it: what the floor does is not worked out");
            }},
    Wording{"no-line-below",
            [](const Link& l) {
              return fmt::format(
                  "no bracing line of the ground floor stands under line {}: whether the floor carries its force to "
                  "those beside it is not worked out",
                  harmless(l.why.subject));
            }},
    Wording{
        "gap-in-line",
        [](const Link& l) {
          return fmt::format(
              "for {} no wall stands in this line, and what carries the wind across from wall to wall there (a beam, "
              "the ceiling's edge) is not worked out",
              harmless(l.why.subject));
        }},
    Wording{"veranda-not-known",
            [](const Link& l) {
              return fmt::format("what lifts veranda {} is not given, so what comes of it is not known",
                                 harmless(l.why.subject));
            }},
    Wording{"veranda-by-others",
            [](const Link& l) { return fmt::format("answered by {}, with the veranda", harmless(l.why.subject)); }},
    Wording{"no-table", [](const Link&) { return std::string("the table that limits it is not in hand"); }},
    Wording{"edge-not-stated",
            [](const Link&) { return std::string("the job does not say what the slab's edge weighs there"); }},
    Wording{
        "inside-edge-not-stated",
        [](const Link&) { return std::string("the job does not say what the concrete under inside walls weighs"); }},
    Wording{"footing-not-stated",
            [](const Link&) { return std::string("the job does not say what the footing weighs"); }},
    Wording{"stumps-not-stated",
            [](const Link&) { return std::string("the job does not say on what stumps the ground floor stands"); }},
    Wording{"friction-not-stated",
            [](const Link&) { return std::string("the job does not say what friction there is under the slab"); }},
    Wording{"veranda-on-the-house",
            [](const Link&) {
              return std::string(
                  "what the wind pushes at a veranda along and across is not worked out, and comes to it");
            }},
    Wording{"edges-overlap",
            [](const Link& l) {
              return fmt::format(
                  "by the job's sizes some of its concrete lies under wall {} as well: none may count twice",
                  harmless(l.why.subject));
            }},
    Wording{"not-in-this-program", [](const Link&) { return std::string("this program has no sum for it"); }},
    Wording{"basis-differs",
            [](const Link& l) {
              return fmt::format(
                  "the sheet of {} gives its capacity on another basis than this method's loads (limit "
                  "state against allowable): the one is never turned into the other",
                  harmless(l.why.subject));
            }},
    Wording{"outside-method",
            [](const Link& l) {
              return fmt::format("the house is outside what the method covers: {}", harmless(l.why.subject));
            }},
    Wording{"by-others", [](const Link& l) { return fmt::format("answered by {}", harmless(l.why.subject)); }},
};

// The key of a job that would name a fixing of this kind; "" where there is none.
std::string_view key_of(std::string_view kind) {
  struct Row {
    std::string_view kind, key;
  };
  static constexpr std::array rows{
      Row{"bracket", "truss"},   Row{"girder bracket", "onto"}, Row{"valley", "onto"},
      Row{"top tie", "top_tie"}, Row{"stud tie", "stud_tie"},   Row{"plate", "plate_fixing"},
      Row{"brace", "brace"},     Row{"hold-down", "hold_down"}, Row{"jamb", "jamb"},
      Row{"anchor", "anchor"},   Row{"floor tie", "floor_tie"}, Row{"floor fixing", "floor_fixing"},
      Row{"post tie", "top"},    Row{"post foot", "foot"},      Row{"compression", "end_studs"},
      Row{"stump tie", "tie"},   Row{"subfloor", "braces"}};
  const auto found = std::ranges::find(rows, kind, &Row::kind);
  return found == rows.end() ? std::string_view() : found->key;
}
bool may_be_by_others(std::string_view kind) {
  return std::ranges::any_of(kinds_of_link(),
                             [&](const Kind_of_link& k) { return k.kind == kind && k.may_be_by_others; });
}
}  // namespace

std::string why_words(const Link& l) {
  const auto found = std::ranges::find(wordings, std::string_view(l.why.code), &Wording::code);
  if (found != wordings.end()) return found->words(l);
  // A code without words yet: its own, so that nothing is hidden.
  std::string words = harmless(l.why.code);
  std::ranges::replace(words, '-', ' ');
  const std::string subject = harmless(l.why.subject);
  return subject.empty() ? words : fmt::format("{}: {}", words, subject);
}

ToAdd key_to_add(const Link& l) {
  if (l.verdict != Verdict::not_judged) return {{}, false};
  const auto quoted = [](std::string_view key) { return fmt::format("`{}`", harmless(key)); };
  for (const Condition& c : l.conditions)
    if (c.met == Met::not_stated && !c.key.empty()) return {quoted(c.key), false};
  const bool others = may_be_by_others(l.kind);
  if (l.why.code == "no-roof-braces") return {quoted("roof_braces"), others};
  if (l.why.code == "veranda-not-known") return {quoted("net_uplift"), true};
  if (l.why.code == "edge-not-stated") return {quoted("[slab] edge"), others};
  if (l.why.code == "inside-edge-not-stated") return {quoted("[slab] inside"), others};
  if (l.why.code == "friction-not-stated") return {quoted("friction"), others};
  if (l.why.code == "stumps-not-stated") return {quoted("floor.ground.stumps"), others};
  if (l.why.code == "footing-not-stated") return {quoted("footing"), others};
  if (l.why.code == "no-fixing") {
    const std::string_view key =
        l.kind == "veranda bracket" ? (l.where.words.ends_with(" wall") ? "at_wall" : "at_beam") : key_of(l.kind);
    if (!key.empty()) return {quoted(key), others};
  }
  if (l.why.code == "part-without-capacity")
    return {fmt::format("{} in the fixings file", quoted(l.why.subject)), false};
  if (l.why.code == "no-rule") return {"`together` in the fixings file", false};
  return {{}, others && l.why.code != "outside-method" && l.why.code != "no-wall-below"};
}
std::string words(const ToAdd& x) {
  return x.key + (x.others ? fmt::format("{}`by_others`", x.key.empty() ? "" : " or ") : "");
}

}  // namespace belay
