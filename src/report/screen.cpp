#include "report/screen.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <functional>
#include <limits>

namespace belay {

namespace {
using Lines = std::vector<std::string>;

// How much of a section is shown; `--all` leaves nothing out. kinds to reasons: of what is too weak, in all; lines of
// reasons and of what the worst demand is made of: of each kind.
constexpr std::size_t all_of_it = static_cast<std::size_t>(-1);
struct Weak {
  std::size_t kinds, rows, reasons, made_of;
};

// At most `most` of the lines; when lines are left out the last one says so.
Lines at_most(Lines lines, std::size_t most) {
  if (lines.size() <= most) return lines;
  lines.resize(most);
  if (!lines.empty())
    lines.back() = clipped(lines.back(), page_width - 4) + (columns(lines.back()) <= page_width - 4 ? " ..." : "");
  return lines;
}
void append(Lines& to, const Lines& more) { to.insert(to.end(), more.begin(), more.end()); }
void gap(Lines& to) {
  if (!to.empty() && !to.back().empty()) to.emplace_back();
}

// For order alone: what has failed without a use has nothing to hold it and comes first.
double badness(const Link& l) { return l.use ? l.use->value : std::numeric_limits<double>::infinity(); }

std::string cell(const LinkPart& p, const Units& u) {
  if (p.role == Role::combined) return p.use ? percent_up(p.use->value) : "-";
  const bool own_unit =
      p.demand.kind != Kind::force && p.demand.kind != Kind::line_load && p.demand.kind != Kind::ratio;
  if (!p.capacity) return own_unit ? trimmed_text(p.demand, u) : short_number(p.demand, u);
  if (p.capacity->si == 0.0)  // a brace that does not count, a line without braces
    return fmt::format("{} of none", own_unit ? trimmed_text(p.demand, u) : short_number(p.demand, u));
  return fmt::format("{} of {}", own_unit ? trimmed(p.demand, u) : short_number(p.demand, u),
                     own_unit ? trimmed_text(*p.capacity, u) : trimmed(*p.capacity, u));
}

// What presses on a bracket, which never comes with what lifts it: shown by its greatest, and not in the case of that.
bool presses_down(const Link& l, const LinkPart& p) {
  return p.part == "press" && (l.kind == "bracket" || l.kind == "girder bracket");
}
LinkPart at_its_greatest(LinkPart p) {
  p.demand = p.greatest;
  return p;
}
std::string press_words(const LinkPart& p, const Units& u) {
  if (!p.capacity)
    return fmt::format("Presses down by {} at most{}", trimmed_text(p.greatest, u),
                       p.role == Role::reported ? ": told, not judged" : "");
  return fmt::format("Presses down by {} of {} at most", trimmed(p.greatest, u), trimmed_text(*p.capacity, u));
}

bool places_differ(const std::vector<const Link*>& links) {
  return std::ranges::any_of(links, [&](const Link* l) { return l->where.from_start.has_value(); });
}
// Links of one kind on one wall, or in the roof.
struct Group {
  std::string place, kind;
  std::vector<const Link*> links;
};
// "Wall A, the front"; "In the roof".
std::string place_heading(const Where& w) {
  if (!w.wall.empty()) return capitalised(wall_words(w));
  return w.face == "roof" ? "In the roof" : "The whole house";
}
std::vector<Group> grouped(const std::vector<const Link*>& links) {
  std::vector<Group> groups;
  for (const Link* l : links) {
    const std::string place = l->where.wall.empty() ? place_heading(l->where) : "wall " + l->where.wall;
    auto g = std::ranges::find_if(groups, [&](const Group& x) { return x.place == place && x.kind == l->kind; });
    if (g == groups.end()) g = groups.insert(groups.end(), Group{place, l->kind, {}});
    g->links.push_back(l);
  }
  return groups;
}

// Rows of a group as columns: place, one column a part, use. Parts that act together are seen in the use.
// likewise: how many more links each row stands for, or none. What presses on brackets has a column where asked for;
// with `always` there are no lines where that takes room from the places.
enum class Presses : unsigned char { never, where_too_much, always };
Lines table(const std::vector<const Link*>& links, const Units& u, Look look, bool with_verdict,
            const std::vector<std::size_t>& likewise = {}, Presses presses = Presses::where_too_much) {
  const bool too_much = std::ranges::any_of(links, [](const Link* l) {
    return std::ranges::any_of(l->parts,
                               [&](const LinkPart& p) { return presses_down(*l, p) && p.use && p.use->value > 1.0; });
  });
  const bool pressed = presses == Presses::always || (presses == Presses::where_too_much && too_much);
  const auto shown = [&](const Link& l, const LinkPart& p) {
    return presses_down(l, p) ? pressed && (presses == Presses::always || p.role == Role::single)
                              : p.role == Role::single;
  };
  std::vector<std::string> parts;
  bool all_together = true;
  std::string together_name = "together";
  for (const Link* l : links) {
    bool together = false;
    for (const LinkPart& p : l->parts) {
      if (p.role == Role::combined) {
        together = together || (p.use && l->use && p.use->value == l->use->value);
        together_name = harmless(p.part);
      } else if (shown(*l, p) && std::ranges::find(parts, p.part) == parts.end()) {
        parts.push_back(p.part);
      }
    }
    all_together = all_together && together;
  }
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> head{""};
  for (const std::string& p : parts) {
    const bool judged = std::ranges::any_of(links, [&](const Link* l) {
      return std::ranges::any_of(l->parts, [&](const LinkPart& x) { return x.part == p && x.role == Role::single; });
    });
    head.push_back(!judged && p == "press" ? "presses" : harmless(p));
  }
  head.emplace_back(all_together ? together_name : "use");
  if (with_verdict) head.emplace_back("");
  rows.push_back(head);
  for (std::size_t i = 0; i < links.size(); ++i) {
    const Link* l = links[i];
    std::vector<std::string> row{""};
    for (const std::string& name : parts) {
      const auto p = std::ranges::find_if(l->parts, [&](const LinkPart& x) { return x.part == name && shown(*l, x); });
      row.push_back(p == l->parts.end() ? "-" : presses_down(*l, *p) ? cell(at_its_greatest(*p), u) : cell(*p, u));
    }
    row.push_back(use_words(*l));
    if (with_verdict) row.emplace_back(words(l->verdict));
    rows.push_back(std::move(row));
  }
  std::vector<std::size_t> wide(head.size(), 0);
  for (const auto& row : rows)
    for (std::size_t i = 0; i < row.size(); ++i) wide[i] = std::max(wide[i], columns(row[i]));
  std::size_t figures = 0;
  for (std::size_t i = 1; i < wide.size(); ++i) figures += wide[i] + 2;
  const std::size_t last = wide.size() - (with_verdict ? 2 : 1);
  // What does not fit loses words before and behind the place, never the place; a row that still does not fit is
  // written over two lines.
  constexpr std::size_t least = 24;
  const std::size_t room = page_width > figures + 2 ? page_width - figures - 2 : 0;
  enum Less { whole, no_kind, short_count, short_words, own_line };
  for (const Less less : {whole, no_kind, short_count, short_words, own_line}) {
    if (presses == Presses::always && less > no_kind) return {};
    if (less == short_words && room < least) continue;
    wide[0] = 0;
    for (std::size_t i = 0; i < links.size(); ++i) {
      SpokenPlace p = place_of(*links[i], u);
      if (less > whole) p.words = without_kind(std::move(p.words), *links[i]);
      const std::size_t more = likewise.empty() ? 0 : likewise[i];
      const std::string after = more == 0            ? ""
                                : less < short_count ? fmt::format(" and {} more", more)
                                                     : fmt::format(" +{}", more);
      const std::size_t most = less == short_words ? room : page_width - 2;
      std::string& said = rows[i + 1].front();
      said = (less < short_words ? p.words + p.at : place_within(p, most - std::min(most, columns(after)))) + after;
      wide[0] = std::max(wide[0], columns(said));
    }
    if (wide[0] <= room) break;
  }
  const std::size_t total = wide[0] + 2 + figures;
  Lines out;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const auto& row = rows[r];
    const bool fails = r > 0 && links[r - 1]->verdict == Verdict::fail;
    if (total > page_width && r > 0) {
      append(out, wrapped(row[0], "  ", "    "));
      std::string more;
      for (std::size_t i = 1; i < row.size(); ++i)
        if (!row[i].empty()) more += (more.empty() ? "" : "; ") + (head[i].empty() ? row[i] : head[i] + ' ' + row[i]);
      append(out, wrapped(more, "    ", "    "));
      continue;
    }
    if (total > page_width) continue;
    std::string line = "  " + padded(row[0], wide[0]);
    for (std::size_t i = 1; i < row.size(); ++i) {
      const bool to_right = i == last;
      const std::string text_of = to_right ? right(row[i], wide[i]) : padded(row[i], wide[i]);
      line += "  " + (fails && i >= last ? red(text_of, look) : text_of);
    }
    out.push_back(std::move(line));
  }
  return out;
}

// ---- the sections, from the top of the page down

Lines title(const Result& r, std::size_t most) {
  std::string site = wind_words(r.site, units_of(r.print));
  if (!r.site.given_by.empty()) site += fmt::format("{}({})", site.empty() ? "" : " ", harmless(r.site.given_by));
  const std::string method = method_words(r.site);
  const auto in_a_row = [](std::initializer_list<std::string> parts) {
    std::string line;
    for (const std::string& s : parts)
      if (!s.empty()) line += (line.empty() ? "" : "   ") + s;
    return line;
  };
  const std::string title = harmless(r.title), drawn = harmless(r.drawn);
  Lines out = wrapped(in_a_row({title, drawn, site, method}));
  if (out.size() > most) {
    // Too long: the words for the house are cut before those for its wind and for who gave it.
    out = at_most(wrapped(in_a_row({title, drawn})), 1);
    append(out, at_most(wrapped(in_a_row({method, site})), most > 1 ? most - 1 : 1));
  }
  append(out, wrapped(mirrored_words(r.mirror)));
  append(out, tried_words(r.tried));
  if (!r.as_built.empty() && most != all_of_it)
    out.push_back(fmt::format("Judged as built: {} from the plan (--all lists {}).",
                              counted(r.as_built.size(), "difference", "differences"),
                              r.as_built.size() == 1 ? "it" : "them"));
  if (!r.as_built.empty() && most == all_of_it) {
    out.emplace_back("Judged as built, where it differs from the plan:");
    for (const std::string& s : r.as_built) append(out, wrapped(with_stop(capitalised(harmless(s))), "  ", "    "));
  }
  return out;
}

Lines answer(const Result& r, Look look) {
  const Counts& c = r.counts;
  const std::size_t n = c.given();
  std::string said;
  switch (r.answer) {
    case Answer::pass:
    case Answer::pass_if:
      said = n == 1 ? "the one link you gave holds." : fmt::format("all {} links you gave hold.", n);
      break;
    case Answer::fail:
      // Some may be strong enough and fail by their sheet.
      said = fmt::format("{} of the {} you gave {}.  {} pass, {} not judged.", c.fail, counted(n, "link", "links"),
                         std::ranges::any_of(r.links, fails_its_sheet) ? c.fail == 1 ? "fails" : "fail"
                         : c.fail == 1                                 ? "is too weak"
                                                                       : "are too weak",
                         c.pass, c.not_judged);
      break;
    case Answer::not_judged:
      said = n == 0 ? "the job gives no link that can be judged."
                    : fmt::format("{} of the {} you gave {} not judged.  {} pass, {} fail.", c.not_judged,
                                  counted(n, "link", "links"), c.not_judged == 1 ? "is" : "are", c.pass, c.fail);
      break;
  }
  const std::string head = answer_words(r);
  Lines lines = wrapped(fmt::format("{}   {}", head, said), "", "   ");
  const bool bad = r.answer == Answer::fail || r.answer == Answer::not_judged;
  if (lines.front().starts_with(head))
    lines.front() = (bad ? red(head, look) : bold(head, look)) + lines.front().substr(head.size());
  return lines;
}

Lines excess(const Result& r, std::size_t most) {
  if (r.excess.empty()) return {};
  std::string what;
  for (const std::string& e : r.excess) what += (what.empty() ? "" : "; ") + harmless(e);
  return at_most(wrapped(with_stop(fmt::format("{} does not cover this house: {}", harmless(r.site.method), what)) +
                         " No link is judged by it."),
                 most);
}

std::string made_of(const Link& l, const Units& u) {
  const LinkPart* most = nullptr;
  for (const LinkPart& p : l.parts)
    if (p.made_of.size() > 1 && (!most || (p.use && most->use && p.use->value > most->use->value))) most = &p;
  if (!most) return {};
  std::string s;
  for (const MadeOf& m : most->made_of) {
    if (short_number(m.value, u) == short_number(Value{0.0, m.value.kind}, u)) continue;
    s += fmt::format("{}{} {}", s.empty() ? "" : ", ", short_number(m.value, u), harmless(m.what));
  }
  return s.empty() ? s : fmt::format("{} {}: {}", harmless(l.where.words), harmless(most->part), s);
}

// "wall A, the front"; "walls A and C"; nothing where no wall is meant.
std::string walls_words(const std::vector<const Link*>& links) {
  std::vector<std::string> walls;
  for (const Link* l : links)
    if (!l->where.wall.empty() && std::ranges::find(walls, l->where.wall) == walls.end())
      walls.push_back(l->where.wall);
  if (walls.empty() || links.front()->kind == "line spacing") return {};
  if (walls.size() == 1) return wall_words(links.front()->where);
  std::ranges::sort(walls);
  if (walls.size() > 6) return fmt::format("{} walls", walls.size());
  std::string s = "walls ";
  for (std::size_t i = 0; i < walls.size(); ++i)
    s += (i == 0 ? "" : i + 1 == walls.size() ? " and " : ", ") + harmless(walls[i]);
  return s;
}
// Links whose figures read alike: one row for all of them.
struct Alike {
  std::vector<const Link*> links;
  std::string figures;
};
std::vector<Alike> alike(const std::vector<const Link*>& links, const Units& u) {
  std::vector<Alike> rows;
  for (const Link* l : links) {
    std::string figures = use_words(*l);
    for (const LinkPart& p : l->parts)
      if (p.role != Role::reported) figures += fmt::format("|{} {}", p.part, cell(p, u));
    auto found = std::ranges::find(rows, figures, &Alike::figures);
    if (found == rows.end()) found = rows.insert(rows.end(), Alike{{}, std::move(figures)});
    found->links.push_back(l);
  }
  for (Alike& a : rows) std::ranges::sort(a.links);  // they are elements of one vector: in its order
  return rows;
}
struct Failing {
  std::string kind;
  bool by_its_sheet;  // strong enough, and a condition is not met
  std::vector<const Link*> links;
  std::vector<Alike> rows;
  std::size_t take;
};

Lines too_weak(const Result& r, const Weak& d, const Units& u, Look look) {
  std::vector<const Link*> failing;
  for (const Link& l : r.links)
    if (l.verdict == Verdict::fail) failing.push_back(&l);
  if (failing.empty()) return {};
  std::ranges::stable_sort(failing, [](const Link* a, const Link* b) { return badness(*a) > badness(*b); });
  std::vector<Failing> groups;
  for (const Link* l : failing) {
    const bool by_its_sheet = fails_its_sheet(*l);
    auto g = std::ranges::find_if(
        groups, [&](const Failing& x) { return x.kind == l->kind && x.by_its_sheet == by_its_sheet; });
    if (g == groups.end()) g = groups.insert(groups.end(), Failing{l->kind, by_its_sheet, {}, {}, 0});
    g->links.push_back(l);
  }
  for (Failing& g : groups) g.rows = alike(g.links, u);
  // Few rows, spread over the kinds: the worst of each first, then the next ones.
  const std::size_t most_groups = std::min(groups.size(), d.kinds);
  std::size_t rows = 0, told = 0;
  for (bool more = true; more && rows < d.rows;) {
    more = false;
    for (std::size_t g = 0; g < most_groups && rows < d.rows; ++g)
      if (groups[g].take < groups[g].rows.size()) {
        told += groups[g].rows[groups[g].take].links.size();
        ++groups[g].take;
        ++rows;
        more = true;
      }
  }
  Lines out;
  for (const Failing& g : groups) {
    if (g.take == 0) continue;
    std::vector<const Link*> shown;
    std::vector<std::size_t> more;
    for (std::size_t i = 0; i < g.take; ++i) {
      shown.push_back(g.rows[i].links.front());
      more.push_back(g.rows[i].links.size() - 1);
    }
    const Link& first = *shown.front();
    const std::size_t n = g.links.size();
    const std::string wall = walls_words(g.links);
    const std::string head =
        fmt::format("{}: {} {}{}{}",
                    !g.by_its_sheet ? "Too weak"
                    : n == 1        ? "Does not meet its sheet"
                                    : "Do not meet their sheet",
                    small_number(n), kind_words(first.kind, n != 1), wall.empty() ? "" : " on ", wall);
    std::string unit = first.parts.empty() ? "" : unit_word(first.parts.front().demand.kind, u);
    const bool one_wall =
        std::ranges::all_of(g.links, [&](const Link* l) { return l->where.wall == first.where.wall; });
    if (places_differ(shown))
      unit += fmt::format("{}{}{}", unit.empty() ? "" : ", ", one_wall ? "" : "places in ", place_unit(u)) +
              (one_wall ? " " + from_words(first.where) : "");
    constexpr std::string_view in_words = "places in ";  // left out where there is no room for it
    if (const std::size_t at = unit.find(in_words);
        at != std::string::npos && columns(head) + columns(unit) + 2 > page_width)
      unit.erase(at, in_words.size());
    if (columns(head) + columns(unit) + 2 <= page_width) out.push_back(padded(head, page_width - columns(unit)) + unit);
    else append(out, at_most(wrapped(fmt::format("{} ({})", head, unit), "", "   "), 2));
    append(out, table(shown, u, look, false, more));
    std::vector<std::string> reasons;
    for (const Link* l : shown) {
      const std::string s = why_words(*l);
      if (std::ranges::find(reasons, s) == reasons.end()) reasons.push_back(s);
    }
    Lines why;
    for (std::size_t i = 0; i < reasons.size(); ++i)
      append(why, wrapped(with_stop(reasons[i]), i == 0 ? "  Why: " : "       ", "       "));
    append(out, at_most(std::move(why), d.reasons));
    if (d.made_of > 0 && !g.by_its_sheet)
      append(out, at_most(wrapped(made_of(first, u), "       ", "       "), d.made_of));
  }
  const std::size_t rest = failing.size() - told;
  if (rest == 0) return out;
  std::string kinds;
  std::vector<std::pair<std::string, std::size_t>> unshown;  // a kind may stand in two groups
  for (const Failing& g : groups) {
    std::size_t n = g.links.size();
    for (std::size_t i = 0; i < g.take; ++i) n -= g.rows[i].links.size();
    const auto known = std::ranges::find(unshown, g.kind, &std::pair<std::string, std::size_t>::first);
    if (known != unshown.end()) known->second += n;
    else if (n > 0) unshown.emplace_back(g.kind, n);
  }
  for (const auto& [kind, n] : unshown)
    kinds += fmt::format("{}{} {}", kinds.empty() ? "" : ", ", n, kind_words(kind, n != 1));
  const std::string_view are = rest == 1 ? "is" : "are";
  std::string line = fmt::format("  {} of the {} {} not shown: {} (--all).", rest, failing.size(), are, kinds);
  if (columns(line) > page_width)
    line = fmt::format("  {} of the {} {} not shown; --all lists every one.", rest, failing.size(), are);
  out.push_back(std::move(line));
  return out;
}

// "four hold-downs, one brace".
std::string links_words(const Result& r, const std::vector<std::size_t>& links) {
  std::vector<std::pair<std::string, std::size_t>> kinds;
  for (const std::size_t i : links) {
    const std::string& kind = r.links.at(i).kind;
    auto known = std::ranges::find(kinds, kind, &std::pair<std::string, std::size_t>::first);
    if (known == kinds.end()) known = kinds.insert(kinds.end(), {kind, 0});
    ++known->second;
  }
  std::string s;
  for (const auto& [kind, n] : kinds)
    s += fmt::format("{}{} {}", s.empty() ? "" : ", ", small_number(n), kind_words(kind, n != 1));
  return s;
}
std::string change_words(const Remedy& x, const Units& u) {
  std::string s;
  for (const Remedy::Swap& swap : x.swaps) {
    const std::string where = chosen_words({"-", swap.now.by, swap.now.at});
    s += s.empty() ? "" : ", and ";
    s += x.spacing ? fmt::format("{} at most {} apart ({})", harmless(swap.fixing), size_text(*x.spacing, u), where)
                   : fmt::format("{} for {} ({})", harmless(swap.fixing), harmless(swap.now.name), where);
  }
  if (x.deeper)
    s += fmt::format("{} {} {}, not {}", x.deeper->what, size_text(x.deeper->to, u), x.deeper->thick ? "thick" : "deep",
                     size_text(x.deeper->now, u));
  if (x.braces.empty()) return s;
  s += fmt::format("{}in wall {} ", s.empty() ? "" : ", and ", harmless(x.wall));
  for (std::size_t i = 0; i < x.braces.size(); ++i) {
    const Remedy::More& b = x.braces[i];
    s += i == 0 ? "" : i + 1 == x.braces.size() ? " and " : ", ";
    s += b.longer.empty() ? fmt::format("one more brace of {}", harmless(b.fixing))
                          : fmt::format("brace {} longer", harmless(b.longer));
    s += fmt::format(", {} to {}", place(b.from, u), place(b.to, u));
  }
  return s;
}
// "36.4 kN in pull and 19.6 kN in slide": figures to look for in a sheet, as they stand there.
std::string needed_words(const Result& r, const Remedies::Needed& n, const Units& u) {
  std::string figures;
  for (std::size_t i = 0; i < n.holds.size(); ++i) {
    const Remedies::Holds& h = n.holds[i];
    const std::string number =
        u.name == us.name ? fmt::format("{:.0f}", in(h.value, u)) : fmt::format("{:.1f}", in(h.value, u));
    figures += i == 0 ? "" : i + 1 == n.holds.size() ? " and " : ", ";
    figures += fmt::format("{} {}{}", number, printed(h.value.kind, u).symbol,
                           n.holds.size() == 1 && h.part == "racking" ? "" : fmt::format(" in {}", h.part));
  }
  return fmt::format(
      "Nothing in the file that was tried mends {}; one like {} ({}) but good for {} (design) would, at most {} used",
      links_words(r, n.links), harmless(n.now.name), chosen_words({"-", n.now.by, n.now.at}), figures,
      percent_up(n.greatest_use.value));
}
// What would make them hold: one line a change, and what the whole house then does.
Lines would_hold(const Result& r, std::size_t most, const Units& u) {
  const Remedies& all = r.remedies;
  if (all.each.empty() && all.none_for.empty() && all.needed.empty()) return {};
  Lines changes;
  for (const Remedy& x : all.each)
    append(changes, wrapped(fmt::format("{}: {}, at most {}", change_words(x, u), links_words(r, x.links),
                                        percent_up(x.greatest_use.value)),
                            "  ", "    "));
  std::string none;
  for (const std::string& kind : all.none_for)
    if (const std::string plural(kind_words(kind, true)); none.find(plural) == std::string::npos)
      none += (none.empty() ? "" : ", ") + plural;
  std::string end;
  const auto say = [&](const std::string& sentence) { end += (end.empty() ? "" : " ") + with_stop(sentence); };
  if (all.together) {
    const Counts& c = *all.together;
    const std::string_view with = all.each.size() == 1 ? "With it" : "With all of that";
    std::string then = c.fail == 0 ? fmt::format("{} no link fails", with)
                                   : fmt::format("{} {} of {} still {}", with, c.fail,
                                                 counted(c.given(), "link", "links"), c.fail == 1 ? "fails" : "fail");
    if (c.not_judged > 0) then += fmt::format(", {} not judged", c.not_judged);
    say(then);
  }
  for (const Remedies::StrongEnough& s : all.strong_enough)
    say(fmt::format("{} is strong enough for the {}, but {} needs {}, here {}", harmless(s.fixing),
                    kind_words(s.kind, true), harmless(s.unmet.name), harmless(s.unmet.needs), harmless(s.unmet.has)));
  if (!none.empty() && all.strong_enough.empty())
    say(fmt::format("No other fixing of the file, nor more bracing in the wall, that was tried mends the {}", none));
  for (const Remedies::Needed& n : all.needed) say(needed_words(r, n, u));
  Lines out{changes.empty() ? "What would hold:" : "What would hold, tried on the whole house:"};
  // What helps comes first; of what is said of it the end is cut, where there is no room.
  const std::size_t room = most > 2 ? most - 2 : 1;
  if (changes.size() > room) {
    changes.resize(room - 1);
    changes.push_back(fmt::format("  {}; --all lists {}.", counted(all.each.size(), "change helps", "changes help"),
                                  all.each.size() == 1 ? "it" : "them"));
  }
  append(out, changes);
  append(out, wrapped(end, "  ", "  "));
  return at_most(std::move(out), most);
}

// Links that were not judged, by reason: how many of which kind, and what to add.
Lines unjudged(const Result& r, std::size_t most, const Units& u) {
  if (!r.excess.empty()) return {};  // one reason for all, said above
  struct Kind_of {
    std::string kind, key;
    std::size_t n;
    const Link* first;
  };
  struct Reason {
    std::string why;
    std::vector<Kind_of> kinds;
    std::size_t n;
    bool others;
  };
  constexpr std::string_view others = "`by_others`";
  std::vector<Reason> reasons;
  for (const Link& l : r.links) {
    if (l.verdict != Verdict::not_judged) continue;
    const std::string why = why_words(l);
    const auto [key, may_be_others] = key_to_add(l);
    auto found = std::ranges::find(reasons, why, &Reason::why);
    if (found == reasons.end()) found = reasons.insert(reasons.end(), Reason{why, {}, 0, false});
    ++found->n;
    found->others = found->others || may_be_others;
    auto kind = std::ranges::find_if(found->kinds,
                                     [&, &own = key](const Kind_of& k) { return k.kind == l.kind && k.key == own; });
    if (kind == found->kinds.end()) kind = found->kinds.insert(found->kinds.end(), Kind_of{l.kind, key, 0, &l});
    ++kind->n;
  }
  if (reasons.empty()) return {};
  std::ranges::stable_sort(reasons, [](const Reason& a, const Reason& b) { return a.n > b.n; });
  // In full with the kinds of link, or in short with their number and the keys alone.
  const auto in_full = [&](const Reason& x) {
    std::string s = capitalised(x.why) + ": ";
    bool first = true;
    for (const Kind_of& k : x.kinds) {
      s += fmt::format("{}{} {}", first ? "" : ", ", k.n,
                       k.n == 1 && x.kinds.size() == 1
                           ? fmt::format("{} ({})", kind_words(k.kind, false), place_words(*k.first, u))
                           : kind_words(k.kind, k.n != 1));
      if (!k.key.empty()) s += fmt::format(" (add {})", kept_together(k.key));
      first = false;
    }
    if (x.others) s += fmt::format("; {} may say who answers", others);
    return wrapped(with_stop(s), "  ", "    ");
  };
  const auto in_short = [&](const Reason& x) {
    std::vector<std::string> keys;
    for (const Kind_of& k : x.kinds)
      if (!k.key.empty() && std::ranges::find(keys, k.key) == keys.end()) keys.push_back(k.key);
    if (x.others) keys.emplace_back(others);
    std::string list;
    for (std::size_t i = 0; i < keys.size(); ++i)
      list += (i == 0 ? "; add " : i + 1 == keys.size() ? " or " : ", ") + kept_together(keys[i]);
    return wrapped(with_stop(fmt::format("{}: {}{}", counted(x.n, "link", "links"), x.why, list)), "  ", "    ");
  };
  std::size_t full = 0;
  for (const Reason& x : reasons) full += in_full(x).size();
  const auto said = [&](const Reason& x) { return full <= most ? in_full(x) : in_short(x); };
  Lines out{"Not judged:"};
  std::size_t shown = 0, links = 0, left_out = 0;
  for (const Reason& x : reasons) {
    const Lines one = said(x);
    if (most == all_of_it || shown + one.size() <= most || (shown == 0 && most > 0)) {
      append(out, most == all_of_it ? one : at_most(one, std::max<std::size_t>(2, most)));
      shown += one.size();
    } else {
      ++left_out;
      links += x.n;
    }
  }
  if (shown == 0)
    return {fmt::format("Not judged: {} for {}; --all lists them.", counted(links, "link", "links"),
                        counted(left_out, "reason", "reasons"))};
  if (left_out > 0)
    out.push_back(
        fmt::format("  {} more for {}; --all lists them.", links, counted(left_out, "other reason", "other reasons")));
  return out;
}

bool rests(const Link& l) { return !l.rests_on_memory.empty(); }
Lines nearest(const Result& r, std::size_t most, const Units& u) {
  if (r.nearest.empty()) return {};
  const std::size_t n = std::min(r.nearest.size(), most);
  bool mark = false;
  for (std::size_t i = 0; i < n; ++i) mark = mark || rests(r.links.at(r.nearest[i]));
  // In two columns where the words are short enough, read across.
  // shorter: 1 leaves the kind out of the place, 2 gives the kind in its short form.
  const auto set_in = [&](std::size_t across, int shorter) {
    const auto kind = [&](const Link& l) { return shorter > 1 ? harmless(l.kind) : kind_words(l.kind, false); };
    const auto place = [&](const Link& l) {
      SpokenPlace p = place_of(l, u);
      if (shorter > 0) p.words = without_kind(std::move(p.words), l);
      return p;
    };
    const auto whole = [&](const Link& l) {
      const SpokenPlace p = place(l);
      return p.words + p.at;
    };
    std::vector<std::size_t> kind_wide(across, 0), place_wide(across, 0);
    std::size_t total = 0;
    for (std::size_t i = 0; i < n; ++i) {
      const Link& l = r.links.at(r.nearest[i]);
      kind_wide[i % across] = std::max(kind_wide[i % across], columns(kind(l)));
      place_wide[i % across] = std::max(place_wide[i % across], columns(whole(l)));
    }
    for (std::size_t i = 0; i < across; ++i)
      total += 2 + kind_wide[i] + 2 + place_wide[i] + 2 + 7 + (mark ? 2 : 0) + (i > 0 ? 1 : 0);
    if (total > page_width && (across > 1 || shorter < 2)) return Lines{};
    if (total > page_width) place_wide[0] -= std::min(place_wide[0] - 1, total - page_width);
    Lines out;
    for (std::size_t i = 0; i < n; ++i) {
      const Link& l = r.links.at(r.nearest[i]);
      const std::size_t c = i % across;
      if (c == 0) out.emplace_back();
      out.back() += fmt::format("{}  {}  {}  {}{}", c > 0 ? " " : "", padded(kind(l), kind_wide[c]),
                                padded(place_within(place(l), place_wide[c]), place_wide[c]), right(use_words(l), 7),
                                !mark      ? ""
                                : rests(l) ? " m"
                                           : "  ");
    }
    return out;
  };
  Lines out = set_in(2, 0);
  for (int shorter = 0; out.empty() && shorter <= 2; ++shorter) out = set_in(1, shorter);
  const bool failing = std::ranges::any_of(r.links, [](const Link& l) { return l.verdict == Verdict::fail; });
  const std::string head = failing ? "Nearest to the limit among the rest" : "Nearest to the limit";
  const std::string note = mark ? "m: rests on a figure from memory" : "";
  out.insert(out.begin(), note.empty() ? head : padded(head, page_width - columns(note)) + note);
  return out;
}

// Names as far as they fit, then how many more there are. What does not fit even with one name goes without the foot,
// and its end is cut.
Lines names_within(std::string_view head, const std::vector<std::string>& items, std::size_t most,
                   std::string_view foot, std::string_view between = ", ") {
  const auto set = [&](std::size_t n, std::string_view after) {
    std::string s;
    for (std::size_t i = 0; i < n; ++i) s += fmt::format("{}{}", i == 0 ? "" : between, items[i]);
    if (n < items.size()) s += fmt::format("{}{} more (--all)", between, items.size() - n);
    return wrapped(fmt::format("{} {}{}", head, with_stop(std::move(s)), after), "", "  ");
  };
  for (const std::string_view after : {foot, std::string_view()})
    for (std::size_t n = items.size(); n > 0; --n)
      if (Lines lines = set(n, after); most == all_of_it || lines.size() <= most) return lines;
  return at_most(set(1, {}), most);
}

Lines by_others(const Result& r, std::size_t most) {
  std::vector<std::pair<std::string, std::string>> people;  // who, and what they answer for
  std::vector<std::string> kinds;                           // as the job writes them
  for (const ByOthers& b : r.by_others) {
    const auto n = static_cast<std::size_t>(std::ranges::count_if(r.links, [&](const Link& l) {
      return l.verdict == Verdict::by_others &&
             (l.why.code == "veranda-by-others" ? b.what == "veranda" : l.kind == b.what);
    }));
    const std::string what =
        b.what == "veranda"
            ? fmt::format("{} of verandas and of what they hang on", counted(n, "link", "links"))
            : fmt::format("{}{}", n == 0 ? "" : fmt::format("{} ", n), kind_words(harmless(b.what), n != 1));
    const std::string who = harmless(b.who);
    kinds.push_back(harmless(b.what));
    const auto known = std::ranges::find(people, who, &std::pair<std::string, std::string>::first);
    if (known == people.end()) people.emplace_back(who, what);
    else known->second += ", " + what;
  }
  if (people.empty()) return {};
  std::vector<std::string> items;
  for (const auto& [who, what] : people) items.push_back(fmt::format("{}: {}", who, what));
  // When not all of it has room, what is handed over matters more than the names of those who took it.
  Lines whole = names_within("By others, as the job says:", items, all_of_it, "", "; ");
  return whole.size() <= most ? whole : names_within("By others (--all):", kinds, most, "");
}
Lines not_looked_at(const Result& r, std::size_t most) {
  if (r.not_looked_at.empty()) return {};
  if (most == all_of_it) {
    Lines out{"Not looked at:"};
    for (const NotLookedAt& n : r.not_looked_at) {
      std::string s = harmless(n.what);
      if (!n.why.empty()) s += ": " + harmless(n.why);
      if (!n.key_to_add.empty()) s += fmt::format("; add `{}`", harmless(n.key_to_add));
      append(out, wrapped(with_stop(s), "  ", "    "));
    }
    return out;
  }
  std::vector<std::string> items;
  for (const NotLookedAt& n : r.not_looked_at) items.push_back(harmless(n.what));
  return names_within("Not looked at:", items, most, "");
}
Lines memory(const Result& r, std::size_t most) {
  std::vector<std::string> open, done;
  for (const FromMemory& f : r.from_memory) {
    if (f.links == 0 && !f.checked) continue;
    std::string said = harmless(f.figure);
    if (most == all_of_it && !f.value.empty() && f.figure.find(f.value) == std::string::npos)
      said += fmt::format(" ({})", harmless(f.value));
    if (f.checked) done.push_back(fmt::format("{} ({})", said, harmless(f.who)));
    else open.push_back(said);
  }
  Lines out;
  if (!open.empty()) {
    const std::string head = fmt::format(
        "{}:", counted(open.size(), "figure is from memory, not checked", "figures are from memory, not checked"));
    append(out, names_within(head, open, most,
                             open.size() == 1 ? " List it under [checked] once compared with a bought copy."
                                              : " List them under [checked] once compared with a bought copy."));
  }
  if (!done.empty()) {
    if (most == all_of_it) append(out, names_within("From memory, checked as the job says:", done, all_of_it, ""));
    else
      out.push_back(fmt::format("{} checked as the job says (--all lists who).",
                                counted(done.size(), "figure from memory,", "figures from memory,")));
  }
  return out;
}
Lines cautions(const Result& r, std::size_t most) {
  Lines out;
  if (most == all_of_it) {
    for (const Caution& c : r.cautions) append(out, wrapped(with_stop(harmless(c.text)), "Caution: ", "  "));
    return out;
  }
  // As many whole sentences as the lines hold; those on invented fixings first, then what was typed in instead of
  // worked out, and neither is ever left out.
  const auto always = [](const Caution& c) { return c.code == "demo-fixings" || c.code == "veranda-typed-in"; };
  std::vector<std::string> sentences;
  for (const bool must : {true, false})
    for (const Caution& c : r.cautions)
      if (always(c) == must) sentences.push_back(with_stop(harmless(c.text)));
  const auto least = static_cast<std::size_t>(std::ranges::count_if(r.cautions, always));
  for (std::size_t n = sentences.size(); n > 0; --n) {
    std::string s;
    for (std::size_t i = 0; i < n; ++i) s += (i == 0 ? "" : " ") + sentences[i];
    if (n < sentences.size()) s += " " + kept_together(fmt::format("{} more (--all).", sentences.size() - n));
    out = wrapped(s, "Caution: ", "  ");
    if (out.size() <= std::max<std::size_t>(most, 1) || n == least) return out;
  }
  return sentences.empty()
             ? Lines{}
             : Lines{fmt::format("{}: --all gives the words.", counted(sentences.size(), "caution", "cautions"))};
}
const Link* worth_explaining(const Result& r) {
  const Link* worst = nullptr;
  for (const Link& l : r.links)
    if (l.verdict == Verdict::fail && (!worst || badness(l) > badness(*worst) * (1.0 + 1e-9))) worst = &l;
  if (!worst && !r.nearest.empty()) worst = &r.links.at(r.nearest.front());
  if (!worst && !r.links.empty()) worst = &r.links.front();
  return worst;
}
Lines next(const Result& r, bool whole) {
  const std::string method = r.site_asked.empty() ? "" : fmt::format("--method {} ", shell_word(r.site_asked));
  const std::string file = method + shell_word(r.file);
  std::vector<std::string> said;
  if (const Link* l = worth_explaining(r)) {
    const bool several =
        std::ranges::count_if(r.links, [&](const Link& x) { return x.where.words == l->where.words; }) > 1;
    said.push_back(fmt::format("belay explain {} \"{}{}\"", file, harmless(l->where.words),
                               several ? ' ' + kind_words(l->kind, false) : ""));
  }
  if (!whole) said.push_back(fmt::format("belay check --all {}", file));
  if (whole) said.push_back(fmt::format("belay show {}", file));
  std::string one;
  for (const std::string& s : said) one += (one.empty() ? "" : "     ") + s;
  Lines out;
  if (columns(one) + 7 <= page_width) return {"Next:  " + one};
  for (std::size_t i = 0; i < said.size(); ++i) out.push_back((i == 0 ? "Next:  " : "       ") + said[i]);
  return out;
}
bool pencil_rule_needed(const Result& r) {
  return std::ranges::any_of(r.links, [](const Link& l) { return l.use.has_value(); });
}

// The last lines of every page.
Lines ending(const Result& r, const Units& u, bool whole) {
  Lines out = next(r, whole);
  if (pencil_rule_needed(r))
    out.push_back(fmt::format("Forces to the nearest {} {}, use rounded up.", u.name == us.name ? "whole" : "0.01",
                              unit_word(Kind::force, u)));
  out.emplace_back(last_words);
  return out;
}

// One section of the first screen: what it shows at each level of detail, from the least.
struct Section {
  std::function<Lines(std::size_t level)> at;
  Lines shown;
};
}  // namespace

std::string first_screen(const Result& r, Look look) {
  const Units& u = units_of(r.print);
  enum { head, answered, outside, weak, mended, open, near, remembered, handed_over, unseen, warned, end, sections };
  static constexpr std::array weak_levels{Weak{1, 1, 2, 0}, Weak{2, 2, 2, 0}, Weak{2, 3, 2, 0}, Weak{3, 4, 2, 0},
                                          Weak{3, 5, 3, 2}, Weak{4, 8, 3, 3}, Weak{6, 9, 3, 3}, Weak{8, 12, 4, 3}};
  static constexpr std::array<std::size_t, 5> open_levels{0, 2, 4, 5, 7}, near_levels{1, 2, 4, 6, 8};
  std::array<Section, sections> page;
  page[head].at = [&](std::size_t level) { return title(r, level + 2); };
  page[answered].at = [&](std::size_t) { return answer(r, look); };
  page[outside].at = [&](std::size_t level) { return excess(r, level + 2); };
  page[weak].at = [&](std::size_t level) { return too_weak(r, weak_levels[level], u, look); };
  page[mended].at = [&](std::size_t level) { return would_hold(r, 3 + level, u); };
  page[open].at = [&](std::size_t level) { return unjudged(r, open_levels[level], u); };
  page[near].at = [&](std::size_t level) { return nearest(r, near_levels[level], u); };
  page[remembered].at = [&](std::size_t level) { return memory(r, level + 1); };
  page[handed_over].at = [&](std::size_t level) { return by_others(r, level + 1); };
  page[unseen].at = [&](std::size_t level) { return not_looked_at(r, level + 1); };
  page[warned].at = [&](std::size_t level) { return cautions(r, level); };
  page[end].at = [&](std::size_t) { return ending(r, u, false); };
  constexpr std::size_t fixed_gaps = 3;  // under the title, under the answer, above the next command
  std::size_t lines = fixed_gaps;
  for (Section& s : page) {
    s.shown = s.at(0);
    lines += s.shown.size();
  }
  // The screen is filled in this order; a step that does not fit is left out.
  struct Step {
    int section;
    std::size_t level;
  };
  static constexpr std::array steps{
      Step{head, 1},       Step{head, 2},    Step{weak, 1},        Step{warned, 1},      Step{outside, 1},
      Step{mended, 1},     Step{mended, 2},  Step{weak, 2},        Step{weak, 3},        Step{open, 1},
      Step{remembered, 1}, Step{warned, 2},  Step{unseen, 1},      Step{handed_over, 1}, Step{mended, 3},
      Step{mended, 4},     Step{open, 2},    Step{near, 1},        Step{weak, 4},        Step{remembered, 2},
      Step{near, 2},       Step{open, 3},    Step{weak, 5},        Step{handed_over, 2}, Step{unseen, 2},
      Step{warned, 3},     Step{near, 3},    Step{weak, 6},        Step{open, 4},        Step{remembered, 3},
      Step{warned, 4},     Step{near, 4},    Step{handed_over, 3}, Step{weak, 7},        Step{remembered, 4},
      Step{warned, 6},     Step{outside, 3}, Step{head, 4}};
  for (const Step& step : steps) {
    Section& s = page[static_cast<std::size_t>(step.section)];
    if (s.shown.empty()) continue;
    Lines more = s.at(step.level);
    if (lines - s.shown.size() + more.size() > screen_lines) continue;
    lines = lines - s.shown.size() + more.size();
    s.shown = std::move(more);
  }
  // Blank lines between sections while there is room.
  Lines out;
  for (std::size_t i = 0; i < sections; ++i) {
    if (page[i].shown.empty()) continue;
    const bool fixed = i == answered || i == end;
    const bool under_answer = i > outside && i < end && !out.empty() &&
                              (page[answered].shown.back() == out.back() ||
                               (!page[outside].shown.empty() && page[outside].shown.back() == out.back()));
    const bool wished = i == open || i == near || i == remembered ||
                        (i > remembered && i < end && page[remembered].shown.empty() && !page[near].shown.empty() &&
                         page[near].shown.back() == out.back());
    if (fixed || under_answer) {
      out.emplace_back();
    } else if (wished && lines < screen_lines) {
      out.emplace_back();
      ++lines;
    }
    append(out, page[i].shown);
  }
  return joined(out);
}

std::string every_link(const Result& r, Look look) {
  const Units& u = units_of(r.print);
  Lines out = title(r, all_of_it);
  gap(out);
  append(out, answer(r, look));
  append(out, excess(r, all_of_it));
  std::vector<const Link*> links;
  for (const Link& l : r.links) links.push_back(&l);
  std::vector<Group> groups = grouped(links);
  std::vector<std::string> places;
  for (const Group& g : groups)
    if (std::ranges::find(places, g.place) == places.end()) places.push_back(g.place);
  for (const std::string& there : places) {
    gap(out);
    const auto first = std::ranges::find(groups, there, &Group::place);
    const Where& where = first->links.front()->where;
    const std::string head = place_heading(where);
    const std::string unit = where.wall.empty() ? "" : fmt::format("places in {} {}", place_unit(u), from_words(where));
    out.push_back(padded(bold(head, look), page_width - columns(unit)) + unit);
    for (const Group& g : groups) {
      if (g.place != there) continue;
      gap(out);
      const std::string force =
          g.links.front()->parts.empty() ? "" : unit_word(g.links.front()->parts.front().demand.kind, u);
      out.push_back(fmt::format("{}{}", kind_words(g.kind, g.links.size() != 1),
                                force.empty() ? "" : fmt::format(" ({})", force)));
      Lines rows = table(g.links, u, look, true, {}, Presses::always);
      const bool told_apart = rows.empty();
      append(out, told_apart ? table(g.links, u, look, true, {}, Presses::never) : rows);
      // What is the same for several links is said once, with how many it holds for.
      std::vector<std::pair<std::string, std::vector<const Link*>>> notes;
      const auto note = [&](const std::string& s, const Link* l) {
        if (s.empty()) return;
        auto found = std::ranges::find(notes, s, &std::pair<std::string, std::vector<const Link*>>::first);
        if (found == notes.end()) found = notes.insert(notes.end(), {s, {}});
        if (found->second.empty() || found->second.back() != l) found->second.push_back(l);
      };
      for (const Link* l : g.links)
        if (l->fixing.given())
          note(fmt::format("Fixing: {} ({}){}", harmless(l->fixing.name), chosen_words(l->fixing),
                           l->fixing_demo ? ", invented, not for construction" : ""),
               l);
      for (const Link* l : g.links)
        for (const LinkPart& p : l->parts)
          if (told_apart && presses_down(*l, p)) note(press_words(p, u), l);
      for (const Link* l : g.links)
        if (l->verdict != Verdict::pass) note(fmt::format("{}: {}", words(l->verdict), why_words(*l)), l);
      for (const Link* l : g.links)
        for (const Condition& c : l->conditions) note("Condition: " + condition_words(c), l);
      for (const Link* l : g.links) {
        const std::string c = case_words(l->load_case);
        if (!c.empty()) note("The case that decides: " + c, l);
      }
      for (const auto& [said, whom] : notes) {
        std::string s = said;
        if (whom.size() < g.links.size()) {
          if (whom.size() <= 4) {
            std::string names;
            for (const Link* l : whom) names += (names.empty() ? "" : ", ") + harmless(l->where.words);
            s += fmt::format(" [{}]", names);
          } else {
            s += fmt::format(" [{} of them]", whom.size());
          }
        }
        append(out, wrapped(with_stop(std::move(s)), "    ", "      "));
      }
    }
  }
  gap(out);
  append(out, would_hold(r, all_of_it, u));
  gap(out);
  append(out, nearest(r, all_of_it, u));
  gap(out);
  for (const Lines& part :
       {memory(r, all_of_it), by_others(r, all_of_it), not_looked_at(r, all_of_it), cautions(r, all_of_it)})
    append(out, part);
  gap(out);
  append(out, ending(r, u, true));
  return joined(out);
}

}  // namespace belay
