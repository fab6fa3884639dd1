#include "belay/result.hpp"

#include <array>

namespace belay {

namespace {
// In the order in which force comes down. A kind may be by others when nothing in this program can judge it from a
// sheet alone, or when frame makers answer for it as a rule.
constexpr std::array<Kind_of_link, 26> kinds_list{{
    {"girder bracket", "bracket on a girder or hip rafter", "brackets on girders or hip rafters", false},
    {"valley", "fixing of a valley truss to a truss below", "fixings of valley trusses to trusses below", true},
    {"bracket", "truss bracket", "truss brackets", false},
    {"veranda bracket", "bracket of a veranda's rafter", "brackets of verandas' rafters", true},
    {"top tie", "tie from top plate to stud", "ties from top plate to stud", true},
    {"stud tie", "tie from stud to bottom plate", "ties from stud to bottom plate", true},
    {"plate", "bottom plate between stud and anchor", "bottom plates between stud and anchor", true},
    {"floor tie", "tie across the floor", "ties across the floor", true},
    {"floor fixing", "fixing of the floor to a bracing line", "fixings of the floor to bracing lines", true},
    {"roof plane", "bracing of a slope of the roof", "bracings of slopes of the roof", true},
    {"roof brace", "brace in the plane of the roof", "braces in the plane of the roof", false},
    {"line", "bracing line", "bracing lines", false},
    {"least bracing", "least bracing of a line", "least bracings of lines", false},
    {"brace", "brace", "braces", false},
    {"hold-down", "hold-down", "hold-downs", false},
    {"jamb", "jamb fixing", "jamb fixings", false},
    {"anchor", "plate anchor", "plate anchors", false},
    {"post tie", "tie on top of a veranda's post", "ties on top of verandas' posts", true},
    {"post foot", "anchor at the foot of a veranda's post", "anchors at the feet of verandas' posts", true},
    {"compression", "pressed end of a brace", "pressed ends of braces", true},
    {"ground", "slab and ground under a fixing", "places of slab and ground under fixings", true},
    {"stump tie", "tie of the floor on to a stump", "ties of the floor on to stumps", true},
    {"subfloor", "bracing between floor and ground", "bracings between floor and ground", true},
    {"house slide", "sliding of the house on the ground", "slidings of the house on the ground", true},
    {"house tip", "tipping of the house about an edge", "tippings of the house about its edges", true},
    {"line spacing", "distance between bracing lines", "distances between bracing lines", true},
}};
}  // namespace

std::span<const Kind_of_link> kinds_of_link() { return kinds_list; }

std::string_view words(Verdict v) {
  switch (v) {
    case Verdict::pass: return "PASS";
    case Verdict::fail: return "FAIL";
    case Verdict::not_judged: return "NOT JUDGED";
    case Verdict::by_others: return "BY OTHERS";
  }
  return "NOT JUDGED";
}

}  // namespace belay
