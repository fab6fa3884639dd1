#include "belay/check.hpp"

#include "judge/brace_cautions.hpp"
#include "judge/judge.hpp"
#include "judge/roof_bracing_links.hpp"
#include "judge/roof_said.hpp"
#include "judge/veranda_links.hpp"
#include "wind/joined.hpp"

#include <algorithm>
#include <set>
#include <stdexcept>

namespace belay {

namespace {

const Units& units_of(const House& h) { return h.print == Print::us ? us : metric; }

// Everything below the verdicts, built in one order so that links keep their index between `check` and `explain`.
struct Engine {
  Engine(const House& h, const Table& m, const Table& p)
      : house(h),
        method(method_for(h.site)),
        table(m),
        wind(h, m),
        shape(wind.shape()),
        site(wind.site()),
        loads(wind.loads()),
        spacing(method.line_spacing(wind.ask())),
        forces(h, shape, loads, p, site.cyclonic),
        judge(forces, spacing, m) {}
  const House& house;
  const Method& method;
  const Table& table;
  HouseWind wind;
  const Shape& shape;
  SiteWind site;
  const Loads& loads;
  LineSpacing spacing;
  Forces forces;
  Judge judge;
};

std::string excess_words(const Excess& e, const Units& u) {
  if (!e.in_words.empty()) return fmt::format("{} ({})", e.in_words, e.source);
  return fmt::format("{}: here {}, {} {} ({})", e.limit, text(e.has, u), e.relation, text(e.greatest, u), e.source);
}

// "gust" or "pressure" where the job states one instead of a site; "" where it states none.
std::string typed_in(const SiteAsk& site) {
  return std::visit(
      [](const auto& s) -> std::string {
        if constexpr (requires { s.typed; }) return s.typed.pressure ? "pressure" : s.typed.gust ? "gust" : "";
        else return "";
      },
      site);
}
// A class that was given and one that was worked out must not look alike.
std::string says(const House& h, const SiteWind& wind) {
  const auto* site = std::get_if<ClassSite>(&h.site);
  if (!site || !site->from || wind.wind_class.empty()) return wind.says;
  return site->from->table ? "class by the table " + site->from->table->file : "class worked out here";
}
SiteSaid said_of(const House& h, const SiteWind& wind, Basis basis) {
  std::string typed = typed_in(h.site);
  if (typed.empty() && wind.typed_in) typed = "gust";
  return {.method = wind.method,
          .edition = wind.edition,
          .wind_class = wind.wind_class,
          .given_by = wind.given_by,
          .basis = std::string(words(basis)),
          .gust = wind.gust,
          .q = wind.q,
          .says = says(h, wind),
          .typed_in = std::move(typed)};
}

bool any_heavy(const Engine& e) {
  const std::vector<Member>& members = e.forces.roof.members();
  return std::any_of(members.begin(), members.end(), is_heavy);
}

bool any_end_studs(const House& h) {
  return std::any_of(h.walls.begin(), h.walls.end(), [](const Wall& w) {
    return std::any_of(w.pieces.begin(), w.pieces.end(),
                       [](const Piece& p) { return p.brace && p.brace->end_studs.given(); });
  });
}
std::vector<NotLookedAt> not_looked_at(const Engine& e) {
  const SiteWind& site = e.site;
  std::vector<NotLookedAt> r;
  if (site.earthquake_may_govern) r.push_back({"earthquake", "this program knows wind alone; here it may govern", ""});
  r.push_back({"ceiling strength",
               "that the ceiling carries the wind to the bracing lines, and its fixing to them, is taken for granted",
               ""});
  if (e.house.ceiling == Ceiling::flexible)
    r.push_back({"rigid ceiling", "lines share the wind as under a flexible ceiling", "ceiling"});
  if (e.house.ceiling == Ceiling::rigid)
    r.push_back({"flexible ceiling", "lines share the wind as under a ceiling that is stiff in its plane", "ceiling"});
  const bool hip = e.shape.roof == RoofShape::hip;
  // Under a roof without a rise a job cannot ask for it.
  const bool may_ask = e.shape.rise > zero<Length>();
  if (e.house.roof_braces.empty())
    r.push_back({"roof bracing",
                 hip ? "bracing in the plane of the roof, at gable ends and hip ends"
                     : "bracing in the plane of the roof and at gable ends",
                 may_ask ? "roof_braces" : ""});
  else
    r.push_back({"way to the roof braces",
                 fmt::format("battens, ridge and top chords, which bring the wind on the {} to the braces of the roof; "
                             "what keeps the top chords from buckling sideways",
                             hip ? "ends" : "gables"),
                 ""});
  if (hip && !e.house.roof_braces.empty())
    r.push_back({"hip zone",
                 "the slopes of hip ends and what lies beside their hips: how jacks, creepers and hip rafters brace it "
                 "and pass on the wind",
                 ""});
  if (!e.house.wings.empty() && !e.house.roof_braces.empty())
    r.push_back({"roof bracing of wings",
                 "bracing in the plane of the wings' roofs and at their ends; how valley trusses bring the wind on a "
                 "wing's roof to the slope that it lies on",
                 ""});
  if (e.house.first)
    r.push_back(
        {"the floor between",
         "joists, trimmers and the floor as a sheet that carries wind to the lines below; studs under the first "
         "floor's braces",
         ""});
  if (!e.house.verandas.empty())
    r.push_back(
        {"verandas",
         "what presses on them, the wind along and against their sides and their own bracing; rafters, beam and "
         "posts as members; what they change in the wind on the house",
         ""});
  if (e.house.framed)
    r.push_back(
        {"the floor on its stumps",
         "joists, bearers and stumps as members; the floor as a sheet that carries wind to the braces under it; "
         "whether the house slides or tips as a whole",
         ""});
  else if (!e.house.slab.whole)
    r.push_back({"the house as a whole", "whether it slides on the ground or tips about an edge", "[slab] whole"});
  r.push_back({"bottom chords", "restraint of trusses' bottom chords under uplift", ""});
  r.push_back({"gable studs", "tops of the gable walls' studs, and verge outriggers", ""});
  r.push_back({"roofing", "battens, purlins, sheets and tiles under local pressure", ""});
  r.push_back({"studs and lintels", "as members; only what comes to their ends", ""});
  if (std::any_of(e.house.walls.begin(), e.house.walls.end(), [](const Wall& w) { return w.frames.size() > 1; }))
    r.push_back(
        {"joints of frames",
         "what fastens one frame to the next: studs to studs, and the top plates, along which the wind comes to "
         "the braces",
         ""});
  if (!e.house.wings.empty())
    r.push_back({"where blocks meet",
                 "valley boards and gutters, what ties the ceilings and top plates of two blocks to one another, and "
                 "slabs at a step",
                 ""});
  if (any_heavy(e))
    r.push_back({"lintels under girders", "and the studs beside them, under what comes together there", ""});
  if (e.shape.roof != RoofShape::gable)
    r.push_back({"slopes that push level",
                 "jacks, hip rafters and half trusses push sideways at their bearings as well; it goes to the bracing "
                 "lines, not into their brackets",
                 ""});
  r.push_back(
      {"downward loads",
       has_downward_loads(e.loads)
           ? any_end_studs(e.house)
                 ? "judged at brackets and brace ends whose sheets say what may press, told at other brackets: not in "
                   "other studs, lintels and footings; no snow, no people on the roof"
                 : "told at the brackets alone: not in the studs, lintels and footings under them; no snow, no people "
                   "on the roof"
           : "weight and wind pressing down",
       ""});
  if (!site.earthquake_may_govern) r.push_back({"earthquake", "this program knows wind alone", ""});
  return r;
}

// The names of the fixings whose sheets do not speak of the loads' basis. What a sheet does not say fits none.
std::set<std::string> of_another_basis(const Fixings& x, Basis basis) {
  std::set<std::string> r;
  const auto look = [&](const auto& list) {
    for (const auto& e : list)
      if (!e.terms.basis || e.terms.acts_as() != basis) r.insert(e.terms.name);
  };
  look(x.brackets);
  look(x.ties);
  look(x.plates);
  look(x.anchors);
  look(x.straps);
  look(x.sheets);
  look(x.rated);
  look(x.linings);
  look(x.perforated);
  look(x.end_studs);
  return r;
}
// The fixing of another basis that the link's verdict would rest on; "" when there is none. A brace's strength shares
// the wind out, so it stands behind all that its line has to hold.
std::string misfit(const Engine& e, const std::set<std::string>& others, std::size_t link, const Chosen& own) {
  using Of = LinkSeed::Of;
  if (others.contains(own.name)) return own.name;
  const LinkSeed& seed = e.judge.seeds()[link];
  const Forces& f = e.forces;
  const std::set<std::size_t> above = e.judge.walls_above(link), pulling = e.judge.walls_pulling(link);
  const auto on_line = [&](std::size_t line) {
    const auto& walls = f.lines[line].walls;
    if (std::any_of(walls.begin(), walls.end(), [&](std::size_t wall) { return above.contains(wall); })) return true;
    switch (seed.of) {
      case Of::line:
      case Of::least: return seed.a == line;
      case Of::brace:
      case Of::compression:
      case Of::compression_below: return f.braces[seed.a].line == line;
      case Of::stump_tie:
      case Of::stump_ground:
        return std::any_of(f.lines[line].walls.begin(), f.lines[line].walls.end(),
                           [&](std::size_t wall) { return pulling.contains(wall); });
      case Of::support:
      case Of::ground:
      case Of::loose_end:
      case Of::loose_jamb:
        return std::find(f.lines[line].walls.begin(), f.lines[line].walls.end(), seed.a) != f.lines[line].walls.end();
      default: return false;
    }
  };
  const RoofBracing& roof = e.judge.roof_bracing();
  if (seed.of == Of::roof_plane || seed.of == Of::roof_brace) {
    const std::size_t plane = seed.of == Of::roof_plane ? seed.a : roof.straps[seed.a].plane;
    for (const std::size_t i : roof.planes[plane].straps)
      if (others.contains(e.house.roof_braces[i].fixing.name)) return e.house.roof_braces[i].fixing.name;
  }
  for (const BraceAt& b : f.braces) {
    const Chosen& fixing = e.house.walls[b.wall].pieces[b.piece].brace->fixing;
    if (others.contains(fixing.name) && on_line(b.line)) return fixing.name;
  }
  return {};
}
// What such a link has to hold stays; no capacity is set against it.
void refuse(Link& l, std::string fixing) {
  const bool by_its_strength = l.verdict == Verdict::pass ||
                               (l.verdict == Verdict::fail && (l.why.code == "too-weak" || l.why.code == "together"));
  if (by_its_strength) {
    l.verdict = Verdict::not_judged;
    l.why = {"basis-differs", std::move(fixing)};
  }
  std::erase_if(l.parts, [](const LinkPart& p) { return p.role == Role::combined; });
  l.use.reset();
  for (LinkPart& p : l.parts) {
    p.use.reset();
    p.capacity.reset();
  }
}

bool any_demo(const House& h) {
  const auto demo = [](const auto& list) {
    return std::any_of(list.begin(), list.end(), [](const auto& e) { return e.terms.demo; });
  };
  const Fixings& x = h.fixings;
  return demo(x.brackets) || demo(x.ties) || demo(x.plates) || demo(x.anchors) || demo(x.straps) || demo(x.sheets) ||
         demo(x.rated) || demo(x.linings) || demo(x.perforated) || demo(x.end_studs);
}

// A truss that is not there is carried by its neighbours in the sums, and perhaps by nobody on site. At a hip end none
// stands on the wall. "" where none is missed.
std::string end_without_truss(const House& h) {
  const bool across = h.roof.ridge == Along::across;
  const auto hipped = [&](Side side) {
    return h.roof.shape == RoofShape::hip && h.roof.hipped[static_cast<std::size_t>(side)];
  };
  const bool first = h.trusses.front().at > same_place && !hipped(across ? Side::left : Side::front),
             last = (across ? h.across : h.up) - h.trusses.back().at > same_place &&
                    !hipped(across ? Side::right : Side::back);
  return first && last ? "either end" : first ? "the first end wall" : last ? "the far end wall" : "";
}

void look_at_trusses(const House& h, const std::string& whose, const Units& u, std::vector<Caution>& r) {
  const auto add = [&](std::string code, const std::string& words) { r.push_back({std::move(code), whose + words}); };
  if (const std::string end = end_without_truss(h); !end.empty())
    add("no-end-truss",
        fmt::format("No truss stands at {}: the roof past the last one is taken to hang over from it.", end));
  std::vector<Length> gaps;
  for (std::size_t i = 0; i + 1 < h.trusses.size(); ++i) gaps.push_back(h.trusses[i + 1].at - h.trusses[i].at);
  std::sort(gaps.begin(), gaps.end());
  for (std::size_t i = 0; i + 1 < h.trusses.size(); ++i)
    if (h.trusses[i + 1].at - h.trusses[i].at > 1.5 * gaps[gaps.size() / 2])
      add("wide-gap-in-trusses", fmt::format("Trusses stand {} apart between {} and {}: is one missing?",
                                             size_text(h.trusses[i + 1].at - h.trusses[i].at, u),
                                             place(h.trusses[i].at, u), place(h.trusses[i + 1].at, u)));
}

// What a bearing brings at most, in any case.
template <class In> Force greatest_in_any_case(const Engine& e, In in_case) {
  Force most = zero<Force>();
  for (std::size_t c = 0; c < e.loads.cases.size(); ++c) most = std::max(most, in_case(c));
  return most;
}
// A girder, or a truss of several plies, whose bearing a lintel carries.
std::vector<std::string> girders_over_openings(const Engine& e) {
  const House& h = e.house;
  const Forces& f = e.forces;
  const Units& u = units_of(h);
  std::vector<std::string> r;
  for (std::size_t b = 0; b < f.roof.bearings().size(); ++b) {
    const Member& m = f.roof.member_of(b);
    if (!is_heavy(m)) continue;
    const auto over = std::find_if(f.studs.begin(), f.studs.end(), [&](const Stud& s) {
      return s.jamb && std::any_of(s.loads.begin(), s.loads.end(),
                                   [&](const Stud::Load& l) { return l.bearing == b && l.over_opening; });
    });
    if (over == f.studs.end()) continue;
    const Opening& opening = *h.walls[over->wall].pieces[over->jamb->piece].opening;
    std::string forces = text(value(greatest_in_any_case(e, [&](std::size_t c) { return f.uplift(c, b); })), u) + " up";
    if (has_downward_loads(e.loads))
      forces += fmt::format(", {} down",
                            text(value(greatest_in_any_case(e, [&](std::size_t c) { return f.roof.press(c, b); })), u));
    r.push_back(fmt::format("A {} stands over opening {} of wall {} ({}: at most {}): its lintel is not checked here.",
                            m.kind == MemberKind::girder ? "girder" : "truss of several plies", opening.mark,
                            h.walls[over->wall].name, f.roof.bearings()[b].words, forces));
  }
  return r;
}

// Stretches of an outside wall, from its start, whose top no truss props: those there are clear of it.
std::vector<Strip> bare_tops(const Forces& f, std::size_t wall) {
  const Wall& w = f.house.walls[wall];
  std::vector<Strip> r;
  for (const Member& m : f.roof.members())
    if (m.clear && m.clear->wall == wall) {
      const Strip s{std::max(m.clear->from - w.from, zero<Length>()), std::min(m.clear->to - w.from, w.length())};
      if (s.to > s.from) r.push_back(s);
    }
  std::sort(r.begin(), r.end(), [](const Strip& a, const Strip& b) { return a.from < b.from; });
  std::vector<Strip> joined;
  for (const Strip& s : r)
    if (!joined.empty() && s.from <= joined.back().to + same_place) joined.back().to = std::max(joined.back().to, s.to);
    else joined.push_back(s);
  return joined;
}
std::vector<std::string> walls_without_props(const Forces& f, const Units& u) {
  std::vector<std::string> r;
  for (std::size_t i = 0; i < f.house.walls.size(); ++i)
    for (const Strip& s : bare_tops(f, i))
      r.push_back(fmt::format(
          "Nothing props the top of wall {} between {} and {} from its {}: the trusses there are clear of it. What "
          "stands or spans there has to hold itself against the wind square on; that is not judged.",
          f.house.walls[i].name, place(s.from, u), place(s.to, u), end_word(f.house.walls[i], End::left)));
  return r;
}

// Of anchors whose capacity is worked out here: what the codes leave to others, and where another one governs.
std::string about_worked_out_anchors(const Engine& e, const std::vector<Link>& links) {
  std::set<std::string> codes;
  for (const Link& l : links)
    if (const Anchor* a = find(e.house.fixings.anchors, l.fixing.name); a && a->worked_out)
      codes.insert(std::string(words(*a->worked_out)));
  if (codes.empty()) return {};
  std::string list;
  for (const std::string& c : codes) list += (list.empty() ? "" : " and ") + c;
  const std::string& method = e.site.method;
  const bool au_nz = method.starts_with("AS") || method.starts_with("NZS"), us = method.starts_with("ASCE"),
             en = method.starts_with("EN");
  std::string r = fmt::format(
      "What some anchors hold in the slab is worked out by {}, in concrete of normal weight without reinforcement that "
      "ties the anchors in; neighbours are taken to be loaded alike, and the whole slide to push towards the edge that "
      "holds least. Earthquake, splitting of the slab and the plate's own bearing on the bolt are not in it.",
      list);
  if (au_nz)
    r += " In Australia AS 5216 governs anchors in concrete, and New Zealand has rules of its own: let an engineer "
         "compare.";
  else if ((us && codes.contains("EN 1992-4")) || (en && codes.contains("ACI 318-19")))
    r += fmt::format(" Its factors go with the loads of its own country's codes, not with those of {}.", method);
  return r;
}

// Of walls that are held down at their ends alone: what was taken, and what is left to others.
std::string about_perforated_walls(const Forces& f) {
  std::string walls, open, short_pieces;
  const auto add = [](std::string& to, const std::string& name) { to += (to.empty() ? "" : ", ") + name; };
  for (const BraceAt& b : f.braces) {
    const Brace& brace = *f.house.walls[b.wall].pieces[b.piece].brace;
    if (b.capacity.left_out && !b.capacity.missing) add(short_pieces, brace.name);
    if (!b.capacity.perforated) continue;
    if (b.capacity.perforated->left) add(walls, b.capacity.perforated->wall);
    if (!brace.round_openings && !(b.capacity.perforated->left && b.capacity.perforated->right)) add(open, brace.name);
  }
  if (walls.empty()) return {};
  std::string r = fmt::format(
      "Held down at their two ends alone, by SDPWS: {}. The uplift of the plate under their pieces is asked for "
      "without "
      "relief from weight; at the ends that standard's pull is taken on the arm to the compression studs. Bending of "
      "the "
      "plate between its fixings, nails, and what carries the wind over the openings are not in it.",
      walls);
  if (!open.empty())
    r += fmt::format(
        " Openings beside {} count as high as the wall: the job does not say that the sheet goes round them "
        "(round_openings).",
        open);
  if (!short_pieces.empty()) r += fmt::format(" Too short to count, and taken as openings: {}.", short_pieces);
  return r;
}

// Of end studs that are judged under a first floor: how its part of what presses is taken.
std::string about_floors_that_press(const Engine& e, const std::vector<Link>& links) {
  const std::vector<LinkSeed>& seeds = e.judge.seeds();
  bool any = false;
  for (std::size_t i = 0; i < links.size(); ++i)
    any = any || (seeds[i].of == LinkSeed::Of::compression && links[i].use &&
                  e.house.walls[e.forces.braces[seeds[i].a].wall].floor == Floor::ground && e.house.first);
  if (!any) return {};
  return fmt::format(
      "What the first floor presses at the ground floor's brace ends is taken on the safe side: its joists as one span "
      "from outside wall to outside wall, of an inside wall across them all that lies on them, the load everywhere{}. "
      "What trimmers beside an opening in the floor bring to one place is not in it, nor is a combination without "
      "wind.",
      e.house.first->joists ? "" : "; the way they run is not stated, and the worse of both is taken");
}

std::vector<Caution> cautions(const Engine& e, const Table& practice, const std::vector<Link>& links) {
  std::vector<Caution> r;
  const House& h = e.house;
  const auto add = [&](std::string code, std::string words) { r.push_back({std::move(code), std::move(words)}); };
  if (any_demo(h)) add("demo-fixings", "The fixings are invented for demonstration: not for construction.");
  for (Caution& x : veranda_cautions(h)) r.push_back(std::move(x));
  const Units& u = units_of(h);
  if (h.wings.empty()) look_at_trusses(h, "", u, r);
  for (std::size_t b = 0; b <= h.wings.size() && !h.wings.empty(); ++b)
    look_at_trusses(seen_from(h, b), fmt::format("{}: ", name_of(h, b)), u, r);
  for (std::string& words : girders_over_openings(e)) add("girder-over-opening", std::move(words));
  for (std::string& words : walls_without_props(e.forces, u)) add("nothing-props-wall", std::move(words));
  for (const BraceAt& b : e.forces.braces)
    if (!b.capacity.refused.empty()) {
      const std::string& name = h.walls[b.wall].pieces[b.piece].brace->name;
      add("brace-does-not-count",
          fmt::format("Brace {} does not count, but it is stiff all the same and will pull at its ends.", name));
    }
  if (std::string words = about_perforated_walls(e.forces); !words.empty()) add("perforated-walls", std::move(words));
  std::string unstated;
  for (const std::size_t b : e.forces.without_stiffness())
    unstated +=
        (unstated.empty() ? "" : ", ") + h.walls[e.forces.braces[b].wall].pieces[e.forces.braces[b].piece].brace->name;
  if (!unstated.empty())
    add("stiffness-not-stated",
        fmt::format("Under a rigid ceiling lines share by what their braces hold, and not by the stiffness that some "
                    "sheets state: those of {} state none.",
                    unstated));
  for (Caution& x : brace_cautions(e.forces, e.judge, links)) r.push_back(std::move(x));
  for (Caution& x : roof_bracing_cautions(h, e.loads, e.judge.roof_bracing(), practice)) r.push_back(std::move(x));
  const Length widest = practice.get<Length>("anchor_spacing", "greatest");
  std::string wide;
  Length most = widest;
  for (const Wall& w : h.walls)
    if (w.anchor_spacing > widest + same_place) {
      wide += (wide.empty() ? "" : ", ") + w.name;
      most = std::max(most, w.anchor_spacing);
    }
  if (!wide.empty())
    add("anchors-wide-apart",
        fmt::format("Plate anchors up to {} apart (wall by wall: {}); {} is the usual most (common practice).",
                    size_text(most, units_of(h)), wide, size_text(widest, units_of(h))));
  const bool alone = std::any_of(links.begin(), links.end(), [](const Link& l) {
    return std::any_of(l.parts.begin(), l.parts.end(),
                       [](const LinkPart& p) { return p.rule == words(Together::alone); });
  });
  if (alone)
    add("each-alone", "Some sheets let pull and slide be taken each alone: ask their makers for that in writing.");
  if (h.slab.edge || h.slab.inside)
    add("edge-brings-it",
        "The concrete under the walls is taken to be as the job says, and strong enough to bring its weight to a "
        "fixing "
        "from as far as that says: neither its steel nor the ground under it is looked at, and no soil counts.");
  if (h.slab.whole)
    add("house-as-one",
        "The house as one block: what the wind lifts of the roof is added up at all its bearings, with the wind's push "
        "on "
        "the roof's height beside it, which counts that part of it twice and is safe. Soil against the slab counts for "
        "nothing.");
  if (std::string words = about_worked_out_anchors(e, links); !words.empty())
    add("anchors-worked-out", std::move(words));
  if (h.wall_weight <= zero<Pressure>())
    add("no-wall-weight", "No wall weight is stated: none is counted against tipping.");
  for (const auto& c : e.site.cautions) add("method", c);
  const bool hips = !h.hip_ends.empty() ||
                    std::any_of(h.wings.begin(), h.wings.end(), [](const Wing& w) { return !w.hip_ends.empty(); });
  if (!h.wings.empty()) {
    add("blocks",
        "Each block is taken as a rectangular building of its own in the wind, no lower than the highest. Its ceiling "
        "hands the wind to the bracing lines in it; walls on one line that share a block are one line, joined by their "
        "top plates (over a step of the floor they are two), and where blocks meet their line holds for both.");
    add("wing-in-the-lee",
        "Where a wing stands in the lee of the main block and the method's push is that on both faces together, each "
        "of "
        "the two is asked for the whole of its own.");
    for (const Wing& w : h.wings)
      if (const Length drop = h.height - w.level - w.height; drop > same_place)
        add("ceiling-below-the-plate",
            fmt::format(
                "The ceiling of {} meets the main block's wall {} below its top plate: how it hands its wind to "
                "that wall's bracing is not checked.",
                w.name, size_text(drop, u)));
    if (h.first)
      add("roof-beside-a-wall",
          "The roof of a wing stands beside the higher walls of the main block's first floor. What that wall adds to "
          "the "
          "wind on the lower roof is in none of the tables here: each block's roof has the wind of a building of its "
          "own. The first floor's walls are pushed over their full height, down to the floor.");
    else
      add("valley-weight",
          "Where a wing's roof lies on the main block's, the trusses below hold the wing's wind and the wing's weight "
          "alone: of the roof beneath nothing is counted, neither to hold down nor to press.");
  }
  if (hips) {
    add("hip-framing",
        "Jacks, creepers and hip rafters are set out by rule; where the truss layout differs, what the brackets, the "
        "girder and the walls of that end have to hold differs too.");
    add("corner-feet",
        "A hip rafter stands on the corner of two walls: each of the two is asked for the whole of its force.");
  }
  if (h.first)
    add("studs-under",
        "Studs are taken to stand in the ground floor's walls right under every fixing and brace end of the first "
        "floor's, and its bracing lines within 150 mm of the ground floor's to stand on them. What presses under the "
        "first floor's brace ends, and at the ground floor's where no end studs are named, is told of the wind's "
        "tipping alone: roof, walls and floors weigh on the same studs.");
  if (std::string words = about_floors_that_press(e, links); !words.empty()) add("floor-presses", std::move(words));
  for (const auto& [framed, joists, which] : {std::tuple{h.framed.has_value(), h.framed && h.framed->joists, "ground"},
                                              {h.first.has_value(), h.first && h.first->joists, "first"}})
    if (framed && !joists)
      add("joists-not-stated",
          fmt::format("Nothing is said of the {} floor's joists: fixings into the floor are taken to meet one, or its "
                      "edge member.",
                      which));
  const bool clear = e.forces.roof.any_clear_end();
  if (clear)
    add("clear-ends",
        "Trusses that are clear of a wall are taken to be made to stick out past the bearing set back from it. Under "
        "that part, beside what is taken for the roof, the wind of that side is taken to push up or to suck as on the "
        "wall, and it blows on the wall at the back of the recess as on the outside one; walls at the recess's sides "
        "are taken as inside walls. Other inside walls are taken to stand clear of the trusses.");
  if (e.forces.roof.any_continuous())
    add("inside-walls-bear",
        "Trusses over an inside wall are taken as continuous beams of even stiffness on bearings that do not give; the "
        "outside bearings take the worse of with and without it. Other inside walls are taken to stand clear of them.");
  else if (!clear)
    add("outside-walls-bear",
        !h.wings.empty()
            ? "Trusses bear on the walls under their two ends alone, jacks and hip rafters on walls and on the roof's "
              "own members; other inside walls are taken to stand clear of them."
        : h.hip_ends.empty()
            ? "Trusses bear on the two outside walls alone; inside walls are taken to stand clear of them."
            : "Trusses bear on outside walls alone, jacks and hip rafters on these and on the roof's own members; "
              "inside walls are taken to stand clear of them.");
  return r;
}

std::string figure_value(const Entry& e, const Units& u) {
  std::string r;
  std::size_t n = 0;
  for (const auto& [name, values] : e.columns)
    for (const Value& v : values) {
      if (++n > 4) return r + " ...";
      r += (r.empty() ? "" : ", ") + text(v, u);
    }
  return r;
}

FromMemory remembered(const House& h, const Table& t, const Entry& entry, std::size_t links) {
  const auto checked = std::find_if(h.checked.begin(), h.checked.end(),
                                    [&](const CheckedFigure& c) { return c.figure == entry.figure; });
  const bool listed = checked != h.checked.end();
  return {entry.figure, figure_value(entry, units_of(h)),     t.source(entry.key), links,
          listed,       listed ? checked->who : std::string()};
}
std::vector<FromMemory> from_memory(const Engine& e, const Table& practice, const std::vector<Link>& links,
                                    const std::vector<std::set<std::string>>& used) {
  std::vector<FromMemory> r;
  for (const Table* t : {&e.table, &practice})
    for (const Entry& entry : t->entries) {
      if (!entry.from_memory()) continue;
      std::size_t n = 0;
      for (std::size_t i = 0; i < links.size(); ++i) n += used[i].contains(entry.figure);
      FromMemory f = remembered(e.house, *t, entry, n);
      if (n > 0 || f.checked) r.push_back(std::move(f));
    }
  return r;
}

constexpr std::size_t most_nearest = 6;  // as many as the first screen has room for
std::vector<std::size_t> nearest(const std::vector<Link>& links) {
  std::vector<std::size_t> order, r;
  for (std::size_t i = 0; i < links.size(); ++i)
    if (links[i].verdict == Verdict::pass && links[i].use) order.push_back(i);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return links[a].use->value > links[b].use->value; });
  std::set<std::string> kinds;
  for (const std::size_t i : order)
    if (r.size() < most_nearest && kinds.insert(links[i].kind).second) r.push_back(i);
  return r;
}

// ---- the site alone

// Whether a step has one of the entry's figures.
bool told(const Working& w, const Entry& e, const std::string& source) {
  return std::any_of(w.steps.begin(), w.steps.end(), [&](const Step& s) {
    return s.source == source && std::any_of(e.columns.begin(), e.columns.end(), [&](const auto& column) {
             return std::find(column.second.begin(), column.second.end(), s.result) != column.second.end();
           });
  });
}
// A method that does not mark what its gust rests on is asked for its steps.
std::vector<FromMemory> figures_behind(const House& h, const Table& t, const SiteWind& wind, const Working& w) {
  std::vector<FromMemory> r;
  for (const Entry& e : t.entries) {
    if (!e.from_memory()) continue;
    if (wind.marks == 0 ? told(w, e, t.source(e.key)) : ((wind.marks >> e.index) & 1U) == 1U)
      r.push_back(remembered(h, t, e, 0));
  }
  return r;
}

DirectionSaid direction(const FromDirection& d) {
  DirectionSaid r{.name = d.name, .factors = {}, .product = std::nullopt, .gust = d.gust};
  double product = 1.0;
  std::size_t speeds = 0, others = 0;
  for (const Factor& f : d.factors) {
    r.factors.push_back({f.symbol, f.words, f.value});
    product *= f.value.si;
    if (f.value.kind == Kind::speed) ++speeds;
    else if (f.value.kind != Kind::ratio) ++others;
  }
  if (speeds == 1 && others == 0) r.product = Speed::from_value(product);
  return r;
}
// A method that knows no faces blows on all of them alike.
std::array<FaceSaid, 4> faces(const SiteWind& wind) {
  std::array<FaceSaid, 4> r{};
  constexpr std::array order{Side::front, Side::right, Side::back, Side::left};
  const bool known =
      std::any_of(wind.faces.begin(), wind.faces.end(), [](const FaceWind& f) { return f.q > zero<Pressure>(); });
  for (std::size_t i = 0; i < order.size(); ++i) {
    const FaceWind& f = wind.faces[static_cast<std::size_t>(order[i])];
    r[i] =
        known ? FaceSaid{order[i], f.gust, f.q, f.from, f.worked_out} : FaceSaid{order[i], wind.gust, wind.q, "", {}};
  }
  return r;
}
void add_new(std::vector<CombinationSaid>& list, const Combination& c) {
  if (std::none_of(list.begin(), list.end(), [&](const CombinationSaid& x) { return x.name == c.name; }))
    list.push_back({c.name, c.source, c.dead, c.wind});
}
std::vector<CombinationSaid> combinations(const SiteWind& wind, const Loads& loads) {
  std::vector<CombinationSaid> r;
  for (const Combination& c : wind.combinations) add_new(r, c);
  for (const LoadCase& k : loads.cases) add_new(r, k.combination);
  return r;
}
std::vector<NotLookedAt> not_looked_at_of_site(const SiteSaid& said, const SiteWind& wind, const SiteAsk& asked) {
  std::vector<NotLookedAt> r;
  if (wind.earthquake_may_govern) r.push_back({"earthquake", "this program knows wind alone; here it may govern", ""});
  const auto* by_class = std::get_if<ClassSite>(&asked);
  const auto* by_zone = std::get_if<AsNzsSite>(&asked);
  const std::string given = !said.typed_in.empty()              ? said.typed_in
                            : by_class && !by_class->from       ? "class"
                            : by_zone && !by_zone->zone.empty() ? "zone"
                                                                : "";
  if (!given.empty())
    r.push_back({"region, terrain, shielding and hills", fmt::format("the {} is taken as given", given), ""});
  r.push_back({"changes upwind", "buildings and trees that may go, ground that may be cleared", ""});
  r.push_back({"snow, flood and surge", "this program knows wind alone", ""});
  if (!wind.earthquake_may_govern) r.push_back({"earthquake", "this program knows wind alone", ""});
  return r;
}

// ---- several methods

const LinkPart* part_named(const Link& l, std::string_view name) {
  for (const LinkPart& p : l.parts)
    if (p.part == name) return &p;
  return nullptr;
}
Force uplift_of(const Link& l) {
  const LinkPart* p = l.kind == "bracket" ? part_named(l, "uplift") : nullptr;
  return p ? quantity<Force>(p->demand) : zero<Force>();
}
// The bracket with the most uplift; nothing where none is lifted.
const Link* worst_bracket(const Result& r) {
  const Link* worst = nullptr;
  for (const Link& l : r.links)
    if (uplift_of(l) > (worst ? uplift_of(*worst) : zero<Force>())) worst = &l;
  return worst;
}
const CombinationSaid* named(const std::vector<CombinationSaid>& list, const std::string& name) {
  for (const CombinationSaid& c : list)
    if (c.name == name) return &c;
  return nullptr;
}
std::vector<Decides> deciding(const Result& r, const std::vector<CombinationSaid>& list) {
  std::vector<Decides> out;
  for (const CombinationSaid& c : list) {
    const auto n = std::count_if(r.links.begin(), r.links.end(), [&](const Link& l) {
      return !l.load_case.id.empty() && l.load_case.combination == c.name;
    });
    if (n > 0) out.push_back({c, static_cast<std::size_t>(n)});
  }
  std::stable_sort(out.begin(), out.end(), [](const Decides& a, const Decides& b) { return a.links > b.links; });
  return out;
}
// Whether what presses down decides, and not what lifts.
bool pressed_most(const Link& l) {
  const LinkPart* p = part_named(l, "press");
  return p && p->use && l.use && p->use->value == l.use->value;
}
std::optional<WorstBracket> bracket_under(const UnderMethod& under, const std::string& id) {
  for (const Link& l : under.result.links) {
    if (l.id != id) continue;
    if (pressed_most(l)) return std::nullopt;
    const CombinationSaid* c = named(under.site.combinations, l.load_case.combination);
    if (!c) return std::nullopt;
    const Pressure factored = c->wind * under.site.site.q;
    if (!(factored > zero<Pressure>())) return std::nullopt;
    return WorstBracket{l.where.words, uplift_of(l), *c, factored, uplift_of(l) / factored};
  }
  return std::nullopt;
}

std::vector<std::string> found_otherwise(const Forces& f) {
  std::vector<std::string> r;
  for (std::size_t w = 0; w < f.walls.size(); ++w)
    for (const auto* list : {&f.walls[w].as_built, &f.walls[w].unclear})
      for (const std::string& s : *list) r.push_back(fmt::format("wall {}: {}", f.house.walls[w].name, s));
  return r;
}
std::vector<BlockSaid> blocks_said(const House& h) {
  std::vector<BlockSaid> r;
  if (!h.wings.empty())
    r.push_back({h.block, zero<Length>(), zero<Length>(), h.across, h.up, zero<Length>(), top_of_walls(h)});
  for (const Wing& w : h.wings) r.push_back({w.name, w.left, w.front, w.across, w.up, w.level, w.height});
  return r;
}

}  // namespace

Result check(const House& house, const Table& method, const Table& practice) {
  const Engine e(house, method, practice);
  std::vector<Link> links;
  links.reserve(e.judge.seeds().size());
  const std::set<std::string> others = of_another_basis(house.fixings, e.loads.basis);
  for (std::size_t i = 0; i < e.judge.seeds().size(); ++i) {
    links.push_back(e.judge.link(i));
    if (std::string fixing = misfit(e, others, i, links.back().fixing); !fixing.empty())
      refuse(links.back(), std::move(fixing));
  }

  Counts counts{0, 0, 0, 0};
  bool unchecked = false;
  std::vector<std::set<std::string>> used;
  std::set<std::string> handed_over;
  for (std::size_t i = 0; i < links.size(); ++i) {
    const Link& l = links[i];
    switch (l.verdict) {
      case Verdict::pass:
        ++counts.pass;
        unchecked = unchecked || !l.rests_on_memory.empty();
        break;
      case Verdict::fail: ++counts.fail; break;
      case Verdict::not_judged: ++counts.not_judged; break;
      case Verdict::by_others:
        ++counts.by_others;
        handed_over.insert(l.why.code == "veranda-by-others" ? "veranda" : l.kind);
        break;
    }
    used.emplace_back(l.rests_on_memory.begin(), l.rests_on_memory.end());
  }
  const Answer answer = counts.fail > 0                             ? Answer::fail
                        : counts.not_judged > 0 || counts.pass == 0 ? Answer::not_judged
                        : unchecked                                 ? Answer::pass_if
                                                                    : Answer::pass;

  std::vector<std::string> excess;
  for (const Excess& x : e.loads.excess) excess.push_back(excess_words(x, units_of(house)));
  std::vector<ByOthers> by_others;
  for (const ByOthers& o : house.by_others)
    if (handed_over.contains(o.what)) by_others.push_back(o);

  auto said = cautions(e, practice, links);
  auto figures = from_memory(e, practice, links, used);
  for (const CheckedFigure& c : house.checked)
    if (std::none_of(figures.begin(), figures.end(), [&](const FromMemory& f) { return f.figure == c.figure; }))
      said.push_back({"checked-unknown",
                      fmt::format("[checked] lists \"{}\", which is no figure of this method from memory.", c.figure)});
  auto near = nearest(links);
  return Result{.tool = "belay " BELAY_VERSION,
                .table = method.file,
                .title = house.title,
                .drawn = house.drawn,
                .file = house.file,
                .sha256 = house.sha256,
                .print = house.print,
                .site = said_of(house, e.site, e.loads.basis),
                .answer = answer,
                .counts = counts,
                .links = std::move(links),
                .nearest = std::move(near),
                .excess = std::move(excess),
                .cautions = std::move(said),
                .not_looked_at = not_looked_at(e),
                .from_memory = std::move(figures),
                .by_others = std::move(by_others),
                .roof = roof_said(house, e.shape, e.forces.roof.members(), e.forces.roof.bearings()),
                .mirror = house.mirror,
                .blocks = blocks_said(house),
                .tried = house.tried,
                .as_built = found_otherwise(e.forces)};
}

Working explain(const House& house, const Table& method, const Table& practice, const Result& result, std::size_t link,
                const Units& units) {
  const Engine e(house, method, practice);
  const Link& l = result.links.at(link);
  const auto decides = e.judge.case_named(l.load_case);
  if (!decides && !l.load_case.id.empty())
    throw std::logic_error("a result that belongs to another house: its load case is not there");
  const std::size_t c = decides.value_or(0);
  Working w(units);
  e.wind.tell(e.forces.wind_of(c), w);
  e.judge.tell(link, c, w);
  return w;
}

// A method that knows faces tells the pressure on one as "q_left".
static Working leading_to_the_windiest(const SiteWind& wind, const Working& whole) {
  const FaceWind& face = *std::max_element(wind.faces.begin(), wind.faces.end(),
                                           [](const FaceWind& a, const FaceWind& b) { return a.q < b.q; });
  const std::string symbol = fmt::format("q_{}", words(face.side));
  Working part = whole;
  for (std::size_t i = 0; i < part.steps.size(); ++i)
    if (part.steps[i].symbol == symbol) {
      keep_what_leads_to(part, {i});
      break;
    }
  return part;
}
SiteWorkedOut site_of(const House& house, const Table& method, const Units& units) {
  const Method& m = method_for(house.site);
  const HouseWind all(house, method);
  const WindAsk& ask = all.ask();
  SiteWorkedOut r{.sheet = {}, .working = Working(units), .windiest = Working(units)};
  r.working.heading("The wind");
  const SiteWind wind = m.site(ask, &r.working);
  const Loads& loads = all.loads();
  const SiteSaid said = said_of(house, wind, loads.basis);
  std::vector<DirectionSaid> from;
  for (const FromDirection& d : wind.directions) from.push_back(direction(d));
  std::vector<std::string> excess;
  for (const Excess& x : loads.excess) excess.push_back(excess_words(x, units));
  r.sheet = {.tool = "belay " BELAY_VERSION,
             .table = method.file,
             .title = house.title,
             .drawn = house.drawn,
             .file = house.file,
             .sha256 = house.sha256,
             .print = house.print,
             .name = {},
             .site = said,
             .service_gust = wind.service_gust,
             .faces = faces(wind),
             .directions = std::move(from),
             .combinations = combinations(wind, loads),
             .from_memory = figures_behind(house, method, wind, r.working),
             .excess = std::move(excess),
             .cautions = wind.cautions,
             .not_looked_at = not_looked_at_of_site(said, wind, house.site),
             .mirror = house.mirror};
  r.windiest = leading_to_the_windiest(wind, r.working);
  return r;
}

std::vector<UnderMethod> under_each(const House& house, const std::vector<const Table*>& methods,
                                    const Table& practice) {
  std::vector<UnderMethod> r;
  House under = house;
  for (std::size_t i = 0; i < house.sites.size(); ++i) {
    under.site = house.sites[i].site;
    SiteSheet sheet = site_of(under, *methods.at(i), units_of(house)).sheet;
    sheet.name = house.sites[i].name;
    Result result = check(under, *methods[i], practice);
    std::vector<Decides> decides = deciding(result, sheet.combinations);
    r.push_back({std::move(sheet), std::move(result), std::move(decides), std::nullopt});
  }
  if (r.empty()) return r;
  if (const Link* worst = worst_bracket(r.front().result)) {
    const std::string id = worst->id;
    for (UnderMethod& u : r) u.bracket = bracket_under(u, id);
  }
  return r;
}

std::vector<Station> set_out(const House& house, const Table& practice) {
  std::vector<Station> r;
  for (std::size_t i = 0; i < house.walls.size(); ++i) {
    const Wall& wall = house.walls[i];
    for (const Support& s : set_out_wall(house, i, practice).supports) {
      std::string serves;
      const auto add = [&](const std::string& what) { serves += (serves.empty() ? "" : ", ") + what; };
      for (const BraceEnd& e : s.ends)
        add(fmt::format("{} {}", wall.pieces[e.piece].brace->name, end_word(wall, e.end)));
      for (const Jamb& j : s.jambs)
        add(fmt::format("jamb {} {}", wall.pieces[j.piece].opening->mark, end_word(wall, j.end)));
      const char* what = s.kind == FixingKind::hold_down ? "hold-down" : s.kind == FixingKind::jamb ? "jamb" : "anchor";
      r.push_back({wall.name, what, s.fixing.name, s.fixing.by, s.at, serves});
    }
  }
  return r;
}

}  // namespace belay
