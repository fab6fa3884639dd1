#include "belay/check.hpp"

#include "judge/judge.hpp"

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
        shape(shape_of(h)),
        ask{h.site, h, shape, m},
        site(method.site(ask, nullptr)),
        loads(method.loads(ask, nullptr, std::nullopt)),
        spacing(method.line_spacing(ask)),
        forces(h, shape, loads, p, site.cyclonic),
        judge(forces, spacing, m) {}
  const House& house;
  const Method& method;
  const Table& table;
  Shape shape;
  WindAsk ask;
  SiteWind site;
  Loads loads;
  LineSpacing spacing;
  Forces forces;
  Judge judge;
};

std::string excess_words(const Excess& e, const Units& u) {
  return fmt::format("{}: here {}, {} {} ({})", e.limit, text(e.has, u), e.relation, text(e.greatest, u), e.source);
}

std::string exposure_of(const House& h) {
  const auto* site = std::get_if<AsceSite>(&h.site);
  return site ? site->exposure : std::string();
}

std::vector<NotLookedAt> not_looked_at(const House& h) {
  std::vector<NotLookedAt> r;
  if (std::holds_alternative<AsceSite>(h.site))
    r.push_back({"earthquake", "this program knows wind alone; here it may govern", ""});
  r.push_back({"ceiling strength",
               "that the ceiling carries the wind to the bracing lines, and its fixing to them, is taken for granted",
               ""});
  r.push_back({"rigid ceiling", "lines share the wind as under a flexible ceiling", ""});
  r.push_back({"roof bracing", "bracing in the plane of the roof and at gable ends", ""});
  r.push_back({"bottom chords", "restraint of trusses' bottom chords under uplift", ""});
  r.push_back({"gable studs", "tops of the gable walls' studs, and verge outriggers", ""});
  r.push_back({"roofing", "battens, purlins, sheets and tiles under local pressure", ""});
  r.push_back({"studs and lintels", "as members; only what comes to their ends", ""});
  r.push_back({"downward loads", "weight and wind pressing down", ""});
  if (!std::holds_alternative<AsceSite>(h.site)) r.push_back({"earthquake", "this program knows wind alone", ""});
  return r;
}

bool any_demo(const House& h) {
  const auto demo = [](const auto& list) {
    return std::any_of(list.begin(), list.end(), [](const auto& e) { return e.terms.demo; });
  };
  const Fixings& x = h.fixings;
  return demo(x.brackets) || demo(x.ties) || demo(x.plates) || demo(x.anchors) || demo(x.straps) || demo(x.sheets) ||
         demo(x.rated) || demo(x.linings);
}

std::vector<Caution> cautions(const Engine& e, const Table& practice, const std::vector<Link>& links) {
  std::vector<Caution> r;
  const House& h = e.house;
  const auto add = [&](std::string code, std::string words) { r.push_back({std::move(code), std::move(words)}); };
  if (any_demo(h)) add("demo-fixings", "The fixings are invented for demonstration: not for construction.");
  // A truss that is not there is carried by its neighbours in the sums, and perhaps by nobody on site.
  const Units& u = units_of(h);
  const Length length = e.shape.length, first = h.trusses.front().at, last = h.trusses.back().at;
  if (first > same_place || length - last > same_place)
    add("no-end-truss", fmt::format("No truss stands at {}: the roof past the last one is taken to hang over from it.",
                                    first > same_place && length - last > same_place ? "either end"
                                    : first > same_place                             ? "the first end wall"
                                                                                     : "the far end wall"));
  std::vector<Length> gaps;
  for (std::size_t i = 0; i + 1 < h.trusses.size(); ++i) gaps.push_back(h.trusses[i + 1].at - h.trusses[i].at);
  std::sort(gaps.begin(), gaps.end());
  for (std::size_t i = 0; i + 1 < h.trusses.size(); ++i)
    if (h.trusses[i + 1].at - h.trusses[i].at > 1.5 * gaps[gaps.size() / 2])
      add("wide-gap-in-trusses", fmt::format("Trusses stand {} apart between {} and {}: is one missing?",
                                             size_text(h.trusses[i + 1].at - h.trusses[i].at, u),
                                             place(h.trusses[i].at, u), place(h.trusses[i + 1].at, u)));
  for (const BraceAt& b : e.forces.braces)
    if (!b.capacity.refused.empty()) {
      const std::string& name = h.walls[b.wall].pieces[b.piece].brace->name;
      add("brace-does-not-count",
          fmt::format("Brace {} does not count, but it is stiff all the same and will pull at its ends.", name));
    }
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
  if (h.wall_weight <= zero<Pressure>())
    add("no-wall-weight", "No wall weight is stated: none is counted against tipping.");
  for (const auto& c : e.site.cautions) add("method", c);
  add("outside-walls-bear",
      "Trusses bear on the two outside walls alone; inside walls are taken to stand clear of them.");
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

std::vector<FromMemory> from_memory(const Engine& e, const Table& practice, const std::vector<Link>& links,
                                    const std::vector<std::set<std::string>>& used) {
  std::vector<FromMemory> r;
  for (const Table* t : {&e.table, &practice})
    for (const Entry& entry : t->entries) {
      if (!entry.from_memory()) continue;
      std::size_t n = 0;
      for (std::size_t i = 0; i < links.size(); ++i) n += used[i].contains(entry.figure);
      const auto checked = std::find_if(e.house.checked.begin(), e.house.checked.end(),
                                        [&](const CheckedFigure& c) { return c.figure == entry.figure; });
      const bool listed = checked != e.house.checked.end();
      if (n > 0 || listed)
        r.push_back({entry.figure, figure_value(entry, units_of(e.house)), t->source(entry.key), n, listed,
                     listed ? checked->who : std::string()});
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

}  // namespace

Result check(const House& house, const Table& method, const Table& practice) {
  const Engine e(house, method, practice);
  std::vector<Link> links;
  for (std::size_t i = 0; i < e.judge.seeds().size(); ++i) links.push_back(e.judge.link(i));

  Counts counts{0, 0, 0, 0};
  bool unchecked = false;
  std::vector<std::set<std::string>> used;
  std::set<std::string> others;
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
        others.insert(l.kind);
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
    if (others.contains(o.what)) by_others.push_back(o);

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
                .site = {e.site.method, e.site.edition, e.site.wind_class, e.site.given_by,
                         std::string(words(e.loads.basis)), e.site.gust, e.site.q, exposure_of(house)},
                .answer = answer,
                .counts = counts,
                .links = std::move(links),
                .nearest = std::move(near),
                .excess = std::move(excess),
                .cautions = std::move(said),
                .not_looked_at = not_looked_at(house),
                .from_memory = std::move(figures),
                .by_others = std::move(by_others)};
}

Working explain(const House& house, const Table& method, const Table& practice, const Result& result, std::size_t link,
                const Units& units) {
  const Engine e(house, method, practice);
  const Link& l = result.links.at(link);
  const auto decides = std::find_if(e.loads.cases.begin(), e.loads.cases.end(),
                                    [&](const LoadCase& k) { return k.id == l.load_case.id; });
  if (decides == e.loads.cases.end() && !l.load_case.id.empty())
    throw std::logic_error("a result that belongs to another house: its load case is not there");
  const auto c = decides == e.loads.cases.end() ? 0 : static_cast<std::size_t>(decides - e.loads.cases.begin());
  Working w(units);
  w.heading("The wind");
  e.method.loads(e.ask, &w, c);
  e.judge.tell(link, c, w);
  return w;
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
