#include "report/screen.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <limits>

namespace belay {

namespace {
using Lines = std::vector<std::string>;

// How much of each section is shown. The first of these that fits the screen is taken; `--all` leaves nothing out.
struct Detail { std::size_t title, rows, reasons, made_of, nearest, unjudged, notes, names, cautions; bool airy; };
constexpr std::size_t all_of_it = static_cast<std::size_t>(-1);
constexpr Detail everything{all_of_it, all_of_it, all_of_it, all_of_it, all_of_it, all_of_it, all_of_it, all_of_it, all_of_it, true};
constexpr std::array details{
    Detail{3, 10, 4, 3, 8, 6, 3, 5, 5, true}, Detail{3, 8, 4, 3, 8, 5, 3, 4, 4, true}, Detail{3, 8, 4, 2, 6, 5, 3, 4, 3, false}, Detail{2, 6, 3, 2, 6, 4, 2, 3, 3, false},
    Detail{2, 6, 2, 1, 4, 3, 2, 2, 2, false}, Detail{2, 5, 2, 0, 4, 3, 2, 2, 2, false}, Detail{2, 4, 2, 0, 4, 2, 1, 2, 2, false}, Detail{2, 4, 1, 0, 2, 2, 1, 1, 1, false},
    Detail{2, 3, 1, 0, 2, 2, 1, 1, 1, false}, Detail{1, 2, 1, 0, 2, 1, 1, 1, 1, false}, Detail{1, 2, 1, 0, 2, 0, 0, 1, 0, false}, Detail{1, 1, 1, 0, 1, 0, 0, 1, 0, false},
};

// At most `most` of the lines; when lines are left out the last one says so.
Lines at_most(Lines lines, std::size_t most) {
  if (lines.size() <= most) return lines;
  lines.resize(most);
  if (!lines.empty()) lines.back() = clipped(lines.back(), page_width - 4) + (columns(lines.back()) <= page_width - 4 ? " ..." : "");
  return lines;
}
void append(Lines& to, const Lines& more) { to.insert(to.end(), more.begin(), more.end()); }
void gap(Lines& to) {
  if (!to.empty() && !to.back().empty()) to.emplace_back();
}

// For order alone: what has failed without a use has nothing to hold it and comes first.
double badness(const Link& l) { return l.use ? l.use->value : std::numeric_limits<double>::infinity(); }

std::string cell(const LinkPart& p, const Units& u) {
  if (is_combined(p)) return p.use ? percent_up(p.use->value) : "-";
  const bool own_unit = p.demand.kind != Kind::force && p.demand.kind != Kind::line_load && p.demand.kind != Kind::ratio;
  if (!p.capacity) return own_unit ? trimmed_text(p.demand, u) : short_number(p.demand, u);
  return fmt::format("{} of {}", short_number(p.demand, u), own_unit ? trimmed_text(*p.capacity, u) : trimmed(*p.capacity, u));
}
std::string use_cell(const Link& l) { return l.use ? percent_up(l.use->value) : "-"; }

std::string wall_words(const Where& w) {
  if (w.wall.empty()) return {};
  const std::string wall = fmt::format("wall {}", harmless(w.wall));
  if (w.face.empty()) return wall;
  return w.face == "inside" ? wall + ", inside" : fmt::format("{}, the {}", wall, harmless(w.face));
}
bool along_a_side(const Where& w) { return w.face == "left" || w.face == "right"; }
bool places_differ(const std::vector<const Link*>& links) {
  return std::ranges::any_of(links, [&](const Link* l) { return l->where.from_start.has_value(); });
}
std::string from_words(const Where& w) {
  return w.face == "inside" || w.face.empty() ? "from the wall's left or front end" : along_a_side(w) ? "from its front end" : "from its left end";
}

// Links of one kind on one wall.
struct Group { std::string wall, kind; std::vector<const Link*> links; };
std::vector<Group> grouped(const std::vector<const Link*>& links) {
  std::vector<Group> groups;
  for (const Link* l : links) {
    auto g = std::ranges::find_if(groups, [&](const Group& x) { return x.wall == l->where.wall && x.kind == l->kind; });
    if (g == groups.end()) g = groups.insert(groups.end(), Group{l->where.wall, l->kind, {}});
    g->links.push_back(l);
  }
  return groups;
}

// Rows of a group as columns: place, one column a part, use. Parts that act together are seen in the use.
Lines table(const std::vector<const Link*>& links, const Units& u, Look look, bool with_verdict) {
  std::vector<std::string> parts;
  bool all_together = true;
  std::string together_name = "together";
  for (const Link* l : links) {
    bool together = false;
    for (const LinkPart& p : l->parts) {
      if (is_combined(p)) {
        together = together || (p.use && l->use && p.use->value == l->use->value);
        together_name = harmless(p.part);
      } else if (!is_inside_another(p, *l) && std::ranges::find(parts, p.part) == parts.end()) {
        parts.push_back(p.part);
      }
    }
    all_together = all_together && together;
  }
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> head{""};
  for (const std::string& p : parts) head.push_back(harmless(p));
  head.emplace_back(all_together ? together_name : "use");
  if (with_verdict) head.emplace_back("");
  rows.push_back(head);
  for (const Link* l : links) {
    std::vector<std::string> row{place_words(*l, u)};
    for (const std::string& name : parts) {
      const auto p = std::ranges::find_if(l->parts, [&](const LinkPart& x) { return x.part == name && !is_combined(x); });
      row.push_back(p == l->parts.end() ? "-" : cell(*p, u));
    }
    row.push_back(use_cell(*l));
    if (with_verdict) row.emplace_back(words(l->verdict));
    rows.push_back(std::move(row));
  }
  std::vector<std::size_t> wide(head.size(), 0);
  for (const auto& row : rows)
    for (std::size_t i = 0; i < row.size(); ++i) wide[i] = std::max(wide[i], columns(row[i]));
  std::size_t total = 0;
  for (std::size_t i = 0; i < wide.size(); ++i) total += wide[i] + 2;
  const std::size_t last = wide.size() - (with_verdict ? 2 : 1);
  // Too wide for the page: the place is shortened first; a row that still does not fit is written over two lines.
  if (total > page_width && wide[0] > 24) {
    const std::size_t less = std::min(total - page_width, wide[0] - 24);
    wide[0] -= less;
    total -= less;
  }
  Lines out;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const auto& row = rows[r];
    const bool fails = r > 0 && links[r - 1]->verdict == Verdict::fail;
    if (total > page_width && r > 0) {
      out.push_back(clipped("  " + row[0], page_width));
      std::string more;
      for (std::size_t i = 1; i < row.size(); ++i)
        if (!row[i].empty()) more += (more.empty() ? "" : "; ") + (head[i].empty() ? row[i] : head[i] + ' ' + row[i]);
      append(out, wrapped(more, "    ", "    "));
      continue;
    }
    if (total > page_width) continue;
    std::string line = "  " + padded(clipped(row[0], wide[0]), wide[0]);
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

Lines title(const Result& r, const Detail& d) {
  std::string site = harmless(r.site.wind_class);
  if (!r.site.given_by.empty()) site += fmt::format("{}({})", site.empty() ? "" : " ", harmless(r.site.given_by));
  std::string method = harmless(r.site.method);
  if (!r.site.edition.empty() && method.find(r.site.edition) == std::string::npos) method += fmt::format(":{}", harmless(r.site.edition));
  std::string line = harmless(r.title);
  for (const std::string& s : {harmless(r.drawn), site, method})
    if (!s.empty()) line += "   " + s;
  return at_most(wrapped(line), d.title);
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
      said = fmt::format("{} of the {} you gave {} too weak.  {} pass, {} not judged.", c.fail, counted(n, "link", "links"), c.fail == 1 ? "is" : "are", c.pass, c.not_judged);
      break;
    case Answer::not_judged:
      said = n == 0 ? "the job gives no link that can be judged."
                    : fmt::format("{} of the {} you gave {} not judged.  {} pass, {} fail.", c.not_judged, counted(n, "link", "links"), c.not_judged == 1 ? "is" : "are", c.pass, c.fail);
      break;
  }
  const std::string head = answer_words(r);
  Lines lines = wrapped(fmt::format("{}   {}", head, said), "", "   ");
  const bool bad = r.answer == Answer::fail || r.answer == Answer::not_judged;
  if (lines.front().starts_with(head)) lines.front() = (bad ? red(head, look) : bold(head, look)) + lines.front().substr(head.size());
  return lines;
}

Lines excess(const Result& r, const Detail& d) {
  if (r.excess.empty()) return {};
  std::string what;
  for (const std::string& e : r.excess) what += (what.empty() ? "" : "; ") + harmless(e);
  return at_most(wrapped(with_stop(fmt::format("{} does not cover this house: {}", harmless(r.site.method), what)) + " No link is judged by it."), d.notes == all_of_it ? all_of_it : d.notes + 1);
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

Lines too_weak(const Result& r, const Detail& d, const Units& u, Look look) {
  std::vector<const Link*> failing;
  for (const Link& l : r.links)
    if (l.verdict == Verdict::fail) failing.push_back(&l);
  if (failing.empty()) return {};
  std::ranges::stable_sort(failing, [](const Link* a, const Link* b) { return badness(*a) > badness(*b); });
  const std::size_t in_all = failing.size();
  // Few rows, spread over the groups: the worst of each kind on each wall first, then the next ones.
  std::vector<Group> groups = grouped(failing);
  std::size_t rows = 0, shown_groups = 0;
  std::vector<std::size_t> take(groups.size(), 0);
  const std::size_t most_groups = d.rows == all_of_it ? groups.size() : std::max<std::size_t>(1, d.rows / 2);
  for (bool more = true; more && rows < d.rows;) {
    more = false;
    for (std::size_t g = 0; g < groups.size() && g < most_groups && rows < d.rows; ++g)
      if (take[g] < groups[g].links.size()) {
        ++take[g];
        ++rows;
        more = true;
      }
  }
  Lines out;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (take[g] == 0) continue;
    ++shown_groups;
    const std::vector<const Link*> shown(groups[g].links.begin(), groups[g].links.begin() + static_cast<std::ptrdiff_t>(take[g]));
    const Link& first = *shown.front();
    const std::size_t n = groups[g].links.size();
    const std::string wall = wall_words(first.where);
    const std::string head = fmt::format("Too weak: {} {}{}{}", small_number(n), kind_words(first.kind, n != 1), wall.empty() ? "" : " on ", wall);
    std::string unit = first.parts.empty() ? "" : unit_word(first.parts.front().demand.kind, u);
    if (places_differ(shown)) unit += fmt::format("{}{} {}", unit.empty() ? "" : ", ", place_unit(u), from_words(first.where));
    if (columns(head) + columns(unit) + 2 <= page_width)
      out.push_back(padded(head, page_width - columns(unit)) + unit);
    else
      append(out, at_most(wrapped(fmt::format("{} ({})", head, unit), "", "   "), 2));
    append(out, table(shown, u, look, false));
    std::vector<std::string> reasons;
    for (const Link* l : shown) {
      const std::string s = why_words(*l);
      if (std::ranges::find(reasons, s) == reasons.end()) reasons.push_back(s);
    }
    Lines why;
    for (std::size_t i = 0; i < reasons.size(); ++i) append(why, wrapped(with_stop(reasons[i]), i == 0 ? "  Why: " : "       ", "       "));
    append(out, at_most(std::move(why), d.reasons));
    if (d.made_of > 0) append(out, at_most(wrapped(made_of(first, u), "       ", "       "), d.made_of));
  }
  if (rows < in_all) out.push_back(fmt::format("  {} more {} too weak; --all lists every one.", in_all - rows, in_all - rows == 1 ? "is" : "are"));
  return out;
}

// Links that were not judged, by kind, reason and what to add.
Lines unjudged(const Result& r, const Detail& d, const Units& u) {
  if (!r.excess.empty()) return {};                      // one reason for all, said above
  struct Reason { std::string kind, why, key; std::size_t n; const Link* first; };
  std::vector<Reason> reasons;
  for (const Link& l : r.links) {
    if (l.verdict != Verdict::not_judged) continue;
    const std::string why = why_words(l), key = key_to_add(l);
    auto found = std::ranges::find_if(reasons, [&](const Reason& x) { return x.kind == l.kind && x.why == why && x.key == key; });
    if (found == reasons.end()) found = reasons.insert(reasons.end(), Reason{l.kind, why, key, 0, &l});
    ++found->n;
  }
  if (reasons.empty()) return {};
  std::ranges::stable_sort(reasons, [](const Reason& a, const Reason& b) { return a.n > b.n; });
  const auto said = [&](const Reason& x) {
    std::string s = fmt::format("{} {}: {}", x.n, kind_words(x.kind, x.n != 1), x.why);
    if (!x.key.empty()) s += fmt::format("; add {}", x.key);
    if (x.n == 1) s += fmt::format(" ({})", place_words(*x.first, u));
    return wrapped(with_stop(s), "  ", "     ");
  };
  Lines out{"Not judged:"};
  std::size_t shown = 0, links = 0, left_out = 0;
  for (const Reason& x : reasons) {
    const Lines one = said(x);
    if (d.unjudged == all_of_it || shown + one.size() <= d.unjudged || (shown == 0 && d.unjudged > 0)) {
      append(out, d.unjudged == all_of_it ? one : at_most(one, std::max<std::size_t>(2, d.unjudged)));
      shown += one.size();
    } else {
      ++left_out;
      links += x.n;
    }
  }
  if (shown == 0) return {fmt::format("Not judged: {} for {}; --all lists them.", counted(links, "link", "links"), counted(left_out, "reason", "reasons"))};
  if (left_out > 0) out.push_back(fmt::format("  {} more for {}; --all lists them.", links, counted(left_out, "other reason", "other reasons")));
  return out;
}

bool rests(const Link& l) { return !l.rests_on_memory.empty(); }
Lines nearest(const Result& r, const Detail& d, const Units& u) {
  if (r.nearest.empty()) return {};
  const std::size_t n = std::min(r.nearest.size(), d.nearest);
  bool mark = false;
  for (std::size_t i = 0; i < n; ++i) mark = mark || rests(r.links.at(r.nearest[i]));
  // In two columns where the words are short enough, read across.
  const auto set_in = [&](std::size_t across) {
    std::vector<std::size_t> kind_wide(across, 0), place_wide(across, 0);
    std::size_t total = 0;
    for (std::size_t i = 0; i < n; ++i) {
      const Link& l = r.links.at(r.nearest[i]);
      kind_wide[i % across] = std::max(kind_wide[i % across], columns(kind_words(l.kind, false)));
      place_wide[i % across] = std::max(place_wide[i % across], columns(place_words(l, u)));
    }
    for (std::size_t i = 0; i < across; ++i) total += 2 + kind_wide[i] + 2 + place_wide[i] + 2 + 7 + (mark ? 2 : 0) + (i > 0 ? 1 : 0);
    if (total > page_width && across > 1) return Lines{};
    if (total > page_width) place_wide[0] -= std::min(place_wide[0] - 1, total - page_width);
    Lines out;
    for (std::size_t i = 0; i < n; ++i) {
      const Link& l = r.links.at(r.nearest[i]);
      const std::size_t c = i % across;
      if (c == 0) out.emplace_back();
      out.back() += fmt::format("{}  {}  {}  {}{}", c > 0 ? " " : "", padded(kind_words(l.kind, false), kind_wide[c]), padded(clipped(place_words(l, u), place_wide[c]), place_wide[c]), right(use_cell(l), 7), !mark ? "" : rests(l) ? " m" : "  ");
    }
    return out;
  };
  Lines out = set_in(2);
  if (out.empty()) out = set_in(1);
  const bool failing = std::ranges::any_of(r.links, [](const Link& l) { return l.verdict == Verdict::fail; });
  const std::string head = failing ? "Nearest to the limit among the rest" : "Nearest to the limit";
  const std::string note = mark ? "m: rests on a figure from memory" : "";
  out.insert(out.begin(), note.empty() ? head : padded(head, page_width - columns(note)) + note);
  return out;
}

std::string listed(const std::vector<std::string>& items) {
  std::string s;
  for (const std::string& i : items) s += (s.empty() ? "" : ", ") + i;
  return s;
}
// Names as far as they fit, then how many more there are.
Lines names_within(std::string_view head, const std::vector<std::string>& items, std::size_t most, std::string_view foot) {
  for (std::size_t n = items.size();; --n) {
    std::vector<std::string> shown(items.begin(), items.begin() + static_cast<std::ptrdiff_t>(n));
    if (n < items.size()) shown.push_back(n == 0 ? "named by --all" : fmt::format("{} more (--all)", items.size() - n));
    Lines lines = wrapped(fmt::format("{} {}{}", head, with_stop(listed(shown)), foot), "", "  ");
    if (lines.size() <= most) return lines;
    if (n == 0) return at_most(std::move(lines), std::max<std::size_t>(most, 2));
  }
}

Lines by_others(const Result& r, const Detail& d) {
  if (r.by_others.empty()) return {};
  std::vector<std::string> items;
  for (const ByOthers& b : r.by_others) {
    const auto n = static_cast<std::size_t>(std::ranges::count_if(r.links, [&](const Link& l) { return l.verdict == Verdict::by_others && l.kind == b.what; }));
    items.push_back(fmt::format("{}{} ({})", n == 0 ? "" : fmt::format("{} ", n), kind_words(harmless(b.what), n != 1), harmless(b.who)));
  }
  return names_within("By others, as the job says:", items, d.names, "");
}
Lines not_looked_at(const Result& r, const Detail& d) {
  if (r.not_looked_at.empty()) return {};
  if (d.names == all_of_it) {
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
  return names_within("Not looked at:", items, d.names, "");
}
Lines memory(const Result& r, const Detail& d) {
  std::vector<std::string> open, done;
  for (const FromMemory& f : r.from_memory) {
    if (f.links == 0 && !f.checked) continue;
    std::string said = harmless(f.figure);
    if (!f.value.empty() && f.figure.find(f.value) == std::string::npos) said += fmt::format(" {}", harmless(f.value));
    if (f.checked)
      done.push_back(fmt::format("{} ({})", said, harmless(f.who)));
    else
      open.push_back(said);
  }
  Lines out;
  if (!open.empty()) {
    const std::string head = fmt::format("{}:", counted(open.size(), "figure is from memory, not checked", "figures are from memory, not checked"));
    append(out, names_within(head, open, d.names, open.size() == 1 ? " List it under [checked] once compared with a bought copy." : " List them under [checked] once compared with a bought copy."));
  }
  if (!done.empty()) {
    if (d.names == all_of_it)
      append(out, names_within("From memory, checked as the job says:", done, all_of_it, ""));
    else
      out.push_back(fmt::format("{} checked as the job says (--all lists who).", counted(done.size(), "figure from memory,", "figures from memory,")));
  }
  return out;
}
Lines cautions(const Result& r, const Detail& d) {
  Lines out;
  std::size_t shown = 0;
  for (const Caution& c : r.cautions) {
    const Lines one = wrapped(with_stop(harmless(c.text)), "Caution: ", "  ");
    if (d.cautions != all_of_it && out.size() + one.size() > (d.cautions == 0 ? 0 : std::max<std::size_t>(d.cautions, shown == 0 ? 2 : 0))) break;
    append(out, one);
    ++shown;
  }
  if (shown < r.cautions.size()) out.push_back(fmt::format("{}: --all gives the words.", counted(r.cautions.size() - shown, shown == 0 ? "caution" : "more caution", shown == 0 ? "cautions" : "more cautions")));
  return out;
}
const Link* worth_explaining(const Result& r) {
  const Link* worst = nullptr;
  for (const Link& l : r.links)
    if (l.verdict == Verdict::fail && (!worst || badness(l) > badness(*worst))) worst = &l;
  if (!worst && !r.nearest.empty()) worst = &r.links.at(r.nearest.front());
  if (!worst && !r.links.empty()) worst = &r.links.front();
  return worst;
}
std::string typed(std::string_view word) {               // as it may be typed in a shell
  const std::string s = harmless(word);
  if (!s.empty() && s.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._/+-:") == std::string::npos) return s;
  std::string out = "'";
  for (const char c : s) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}
Lines next(const Result& r, bool whole) {
  const std::string file = typed(r.file);
  std::vector<std::string> said;
  if (const Link* l = worth_explaining(r)) {
    const bool several = std::ranges::count_if(r.links, [&](const Link& x) { return x.where.words == l->where.words; }) > 1;
    said.push_back(fmt::format("belay explain {} \"{}{}\"", file, harmless(l->where.words), several ? ' ' + kind_words(l->kind, false) : ""));
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

Lines foot(const Result& r, const Detail& d, const Units& u, bool whole) {
  Lines out;
  const auto section = [&](const Lines& lines) {
    if (lines.empty()) return;
    append(out, lines);
  };
  section(nearest(r, d, u));
  if (d.airy) gap(out);
  section(memory(r, d));
  section(by_others(r, d));
  section(not_looked_at(r, d));
  section(cautions(r, d));
  gap(out);
  section(next(r, whole));
  if (pencil_rule_needed(r)) out.push_back(fmt::format("Forces to the nearest {} {}, use rounded up.", u.name == us.name ? "whole" : "0.01", unit_word(Kind::force, u)));
  out.emplace_back(last_words);
  return out;
}

Lines first_page(const Result& r, const Detail& d, const Units& u, Look look) {
  Lines out = title(r, d);
  gap(out);
  append(out, answer(r, look));
  append(out, excess(r, d));
  gap(out);
  append(out, too_weak(r, d, u, look));
  if (d.airy) gap(out);
  append(out, unjudged(r, d, u));
  if (d.airy) gap(out);
  append(out, foot(r, d, u, false));
  return out;
}

Lines conditions(const Link& l) {
  Lines out;
  for (const Condition& c : l.conditions) {
    std::string s = harmless(c.name);
    if (!c.needs.empty()) s += fmt::format(" {}", harmless(c.needs));
    switch (c.met) {
      case Met::yes: s += fmt::format(", has {}", harmless(c.has)); break;
      case Met::no: s += fmt::format(", NOT MET: has {}", harmless(c.has)); break;
      case Met::not_stated: s += c.key.empty() ? ", NOT STATED" : fmt::format(", NOT STATED: add `{}`", harmless(c.key)); break;
    }
    out.push_back(std::move(s));
  }
  return out;
}
std::string case_words(const CaseName& c) {
  std::string s;
  for (const std::string& part : {c.wind, c.inside.empty() ? c.inside : fmt::format("inside {}", c.inside), c.combination})
    if (!part.empty()) s += (s.empty() ? "" : "; ") + (columns(part) < 24 ? kept_together(harmless(part)) : harmless(part));
  return s;
}
}  // namespace

std::string first_screen(const Result& r, Look look) {
  const Units& u = units_of(r.print);
  Lines page;
  for (const Detail& d : details) {
    page = first_page(r, d, u, look);
    if (page.size() <= screen_lines) return joined(page);
  }
  // Not reached by any house we know of; should one do it, the head and the foot are kept and the middle is cut.
  const std::size_t tail = 6, head = screen_lines - tail - 1;
  Lines cut(page.begin(), page.begin() + static_cast<std::ptrdiff_t>(head));
  cut.emplace_back("... (--all shows the rest)");
  cut.insert(cut.end(), page.end() - static_cast<std::ptrdiff_t>(tail), page.end());
  return joined(cut);
}

std::string every_link(const Result& r, Look look) {
  const Units& u = units_of(r.print);
  Lines out = title(r, everything);
  gap(out);
  append(out, answer(r, look));
  append(out, excess(r, everything));
  std::vector<const Link*> links;
  for (const Link& l : r.links) links.push_back(&l);
  std::vector<Group> groups = grouped(links);
  std::vector<std::string> walls;
  for (const Group& g : groups)
    if (std::ranges::find(walls, g.wall) == walls.end()) walls.push_back(g.wall);
  for (const std::string& wall : walls) {
    gap(out);
    const auto first = std::ranges::find(groups, wall, &Group::wall);
    const Where& where = first->links.front()->where;
    std::string head = wall.empty() ? "The whole house" : wall_words(where);
    head.front() = head.front() == 'w' ? 'W' : head.front();
    const std::string unit = wall.empty() ? "" : fmt::format("places in {} {}", place_unit(u), from_words(where));
    out.push_back(padded(bold(head, look), page_width - columns(unit)) + unit);
    for (const Group& g : groups) {
      if (g.wall != wall) continue;
      gap(out);
      const std::string force = g.links.front()->parts.empty() ? "" : unit_word(g.links.front()->parts.front().demand.kind, u);
      out.push_back(fmt::format("{}{}", kind_words(g.kind, g.links.size() != 1), force.empty() ? "" : fmt::format(" ({})", force)));
      append(out, table(g.links, u, look, true));
      // What is the same for several links is said once, with how many it holds for.
      std::vector<std::pair<std::string, std::vector<const Link*>>> notes;
      const auto note = [&](std::string s, const Link* l) {
        if (s.empty()) return;
        auto found = std::ranges::find(notes, s, &std::pair<std::string, std::vector<const Link*>>::first);
        if (found == notes.end()) found = notes.insert(notes.end(), {std::move(s), {}});
        if (found->second.empty() || found->second.back() != l) found->second.push_back(l);
      };
      for (const Link* l : g.links) {
        if (l->fixing.given()) note(fmt::format("Fixing: {} ({}){}", harmless(l->fixing.name), chosen_words(l->fixing), l->fixing_demo ? ", invented, not for construction" : ""), l);
        if (l->verdict != Verdict::pass) note(fmt::format("{}: {}", words(l->verdict), why_words(*l)), l);
        for (const std::string& c : conditions(*l)) note("Condition: " + c, l);
        const std::string c = case_words(l->load_case);
        if (!c.empty()) note("Worst with the wind: " + c, l);
      }
      for (const auto& [said, whom] : notes) {
        std::string s = said;
        if (whom.size() < g.links.size()) {
          if (whom.size() <= 4) {
            std::vector<std::string> names;
            for (const Link* l : whom) names.push_back(harmless(l->where.words));
            s += fmt::format(" [{}]", listed(names));
          } else {
            s += fmt::format(" [{} of them]", whom.size());
          }
        }
        append(out, wrapped(with_stop(std::move(s)), "    ", "      "));
      }
    }
  }
  gap(out);
  append(out, foot(r, everything, u, true));
  return joined(out);
}

}  // namespace belay
