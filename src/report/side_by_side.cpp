#include "report/side_by_side.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <iterator>
#include <limits>
#include <utility>

namespace belay {

namespace {
using Lines = std::vector<std::string>;
using Row = std::vector<const Link*>;

void append(Lines& to, Lines more) {
  to.insert(to.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}
const Link& any_of(const Row& row) {
  return **std::ranges::find_if(row, [](const Link* l) { return l != nullptr; });
}
bool refused(const Link& l) { return l.why.code == "basis-differs"; }

// The part with the greatest use; null where none has one.
const LinkPart* by_use(const Link* l) {
  const LinkPart* most = nullptr;
  if (l)
    for (const LinkPart& p : l->parts)
      if (p.role == Role::single && p.use && (!most || p.use->value > most->use->value)) most = &p;
  return most;
}
const LinkPart* by_name(const Link& l, const std::string& part) {
  const auto found =
      std::ranges::find_if(l.parts, [&](const LinkPart& p) { return p.role == Role::single && p.part == part; });
  return found == l.parts.end() ? nullptr : &*found;
}

// What a column is called: the job's own word stands before it where two of them have one method.
std::string column_name(const std::vector<UnderMethod>& under, std::size_t i) {
  const std::string own = method_words(under[i].result.site);
  for (std::size_t k = 0; k < under.size(); ++k)
    if (k != i && method_words(under[k].result.site) == own)
      return fmt::format("{} ({})", own, harmless(under[i].site.name));
  return own;
}
std::string verdict_words(const Link& l) {
  if (refused(l)) return "basis differs";
  switch (l.verdict) {
    case Verdict::pass: return "PASS";
    case Verdict::fail: return "FAIL";
    case Verdict::not_judged: return "not judged";
    case Verdict::by_others: return "by others";
  }
  return "not judged";
}
bool shows_something(const Row& row) {
  for (std::size_t i = 0; i < row.size(); ++i)
    if (const LinkPart* p = deciding_part(row, i); p && p->demand.si > 0.0) return true;
  return std::ranges::any_of(row, [](const Link* l) { return l && l->verdict == Verdict::fail; });
}
// For order alone.
std::pair<double, double> badness(const Row& row) {
  double use = 0.0, demand = 0.0;
  for (std::size_t i = 0; i < row.size(); ++i) {
    if (!row[i]) continue;
    if (row[i]->use) use = std::max(use, row[i]->use->value);
    else if (row[i]->verdict == Verdict::fail) use = std::numeric_limits<double>::infinity();
    if (const LinkPart* p = deciding_part(row, i)) demand = std::max(demand, p->demand.si);
  }
  return {use, demand};
}

struct Chosen_rows {
  std::vector<Row> rows;
  std::size_t of, by_others;  // all that there are; of them those that others answer for, left out
};
Chosen_rows chosen(const std::vector<UnderMethod>& under, bool all) {
  std::vector<Row> rows = rows_of(under);
  const std::size_t of = rows.size();
  if (all) return {std::move(rows), of, 0};
  const auto others = [](const Row& row) {
    return std::ranges::all_of(row, [](const Link* l) { return !l || l->verdict == Verdict::by_others; });
  };
  const std::size_t handed_over = std::erase_if(rows, others);
  std::erase_if(rows, [](const Row& row) { return !shows_something(row); });
  std::vector<Row> worst;
  for (Row& row : rows) {
    const Link& l = any_of(row);
    const auto known = std::ranges::find_if(
        worst, [&](const Row& w) { return any_of(w).kind == l.kind && any_of(w).where.wall == l.where.wall; });
    if (known == worst.end()) worst.push_back(std::move(row));
    else if (badness(row) > badness(*known)) *known = std::move(row);
  }
  return {std::move(worst), of, handed_over};
}

// ---- the table

struct Cell {
  std::string demand, part, verdict;
};
Cell cell(const Row& row, std::size_t column, const Units& u) {
  const Link* l = row[column];
  if (!l) return {"-", "", ""};
  const LinkPart* p = deciding_part(row, column);
  const bool own_unit = p && p->demand.kind != Kind::force && p->demand.kind != Kind::line_load;
  return {!p         ? "-"
          : own_unit ? trimmed_text(p->greatest, u)
                     : short_number(p->greatest, u),
          p ? harmless(p->part) : "", verdict_words(*l)};
}
// Links of one kind, in the order in which force comes down.
std::vector<std::pair<std::string, std::vector<const Row*>>> by_kind(const std::vector<Row>& rows) {
  std::vector<std::pair<std::string, std::vector<const Row*>>> kinds;
  const auto group = [&](const std::string& kind) -> std::vector<const Row*>& {
    for (auto& [known, list] : kinds)
      if (known == kind) return list;
    kinds.emplace_back(kind, std::vector<const Row*>{});
    return kinds.back().second;
  };
  for (const Kind_of_link& k : kinds_of_link())
    for (const Row& row : rows)
      if (any_of(row).kind == k.kind) group(std::string(k.kind)).push_back(&row);
  for (const Row& row : rows)
    if (std::ranges::none_of(kinds_of_link(), [&](const Kind_of_link& k) { return k.kind == any_of(row).kind; }))
      group(any_of(row).kind).push_back(&row);
  return kinds;
}

using Kind_rows = std::pair<std::string, std::vector<const Row*>>;

// The part that decides all links of a kind under every method; "" where they differ. Then it stands with the kind.
std::string one_part(const std::vector<const Row*>& list, const Units& u) {
  std::string part;
  for (const Row* row : list)
    for (std::size_t i = 0; i < row->size(); ++i) {
      const std::string own = cell(*row, i, u).part;
      if (own.empty()) continue;
      if (part.empty()) part = own;
      if (part != own) return {};
    }
  return part;
}

// demand, part: how wide they stand within the column.
struct Column {
  Lines head;
  std::size_t demand, part, wide;
};
Column column(const std::vector<UnderMethod>& under, std::size_t i, const std::vector<Kind_rows>& kinds,
              const Units& u) {
  constexpr std::size_t least = 14;
  Column c{{}, 0, 0, least};
  for (const auto& [kind, list] : kinds) {
    const bool with_part = one_part(list, u).empty();
    for (const Row* row : list) {
      const Cell x = cell(*row, i, u);
      c.demand = std::max(c.demand, columns(x.demand));
      if (with_part) c.part = std::max(c.part, columns(x.part));
    }
  }
  for (const auto& [kind, list] : kinds) {
    const std::size_t part = one_part(list, u).empty() ? c.part + 1 : 0;
    for (const Row* row : list) c.wide = std::max(c.wide, c.demand + 1 + part + columns(cell(*row, i, u).verdict));
  }
  const SiteSaid& site = under[i].result.site;
  c.head = wrapped(column_name(under, i), "", "", c.wide);
  append(c.head, wrapped(kept_together("q " + trimmed_text(value(site.q), u)), "", "", c.wide));
  append(c.head, wrapped(harmless(site.basis.substr(0, site.basis.find(" ("))), "", "", c.wide));
  return c;
}

// Columns that stand in one table, from the first to before the last, behind names of that width.
struct Span {
  std::size_t from, to, label;
};
// As many methods as stand beside the names of the links; of more, as many in each table.
std::vector<Span> spans(const std::vector<Column>& cols) {
  constexpr std::size_t least_label = 24, most_label = 40;
  const std::size_t n = cols.size();
  std::size_t widest = 0, most = 1;
  for (const Column& c : cols) widest = std::max(widest, c.wide);
  while (most < n && 2 + least_label + (most + 1) * (2 + widest) <= page_width) ++most;
  const std::size_t tables = (n + most - 1) / most, in_each = (n + tables - 1) / tables;
  std::vector<Span> out;
  for (std::size_t from = 0; from < n; from += in_each) {
    const std::size_t to = std::min(n, from + in_each);
    std::size_t figures = 2;
    for (std::size_t i = from; i < to; ++i) figures += 2 + cols[i].wide;
    out.push_back({from, to, std::min(most_label, page_width > figures ? page_width - figures : least_label)});
  }
  return out;
}

Lines head_of(const std::vector<Column>& cols, const Span& s, const Units& u) {
  std::size_t lines = 0;
  for (std::size_t i = s.from; i < s.to; ++i) lines = std::max(lines, cols[i].head.size());
  Lines out;
  for (std::size_t h = 0; h < lines; ++h) {
    std::string line = "  " + padded(h + 1 == lines ? unit_word(Kind::force, u) : "", s.label);
    for (std::size_t i = s.from; i < s.to; ++i)
      line += "  " + padded(h < cols[i].head.size() ? cols[i].head[h] : "", cols[i].wide);
    out.push_back(std::move(line));
  }
  return out;
}
Lines row_of(const Row& row, bool with_part, const std::vector<Column>& cols, const Span& s, const Units& u,
             Look look) {
  Lines out;
  SpokenPlace place = place_of(any_of(row), u);
  place.words = without_kind(std::move(place.words), any_of(row));
  std::string name = place_within(place, s.label);
  if (columns(name) > s.label) {  // a place is never cut: it stands above its numbers
    out = wrapped(name, "  ", "    ");
    name.clear();
  }
  std::string line = "  " + padded(name, s.label);
  for (std::size_t i = s.from; i < s.to; ++i) {
    const Cell x = cell(row, i, u);
    std::string own = right(x.demand, cols[i].demand) + ' ';
    if (with_part) own += padded(x.part, cols[i].part + 1);
    const std::size_t wide = columns(own) + columns(x.verdict);
    own += row[i] && row[i]->verdict == Verdict::fail ? red(x.verdict, look) : x.verdict;
    line += "  " + own + std::string(cols[i].wide - std::min(cols[i].wide, wide), ' ');
  }
  out.push_back(std::move(line));
  return out;
}

Lines table(const std::vector<UnderMethod>& under, const std::vector<Row>& rows, const Units& u, Look look) {
  const std::vector<Kind_rows> kinds = by_kind(rows);
  std::vector<Column> cols;
  for (std::size_t i = 0; i < under.size(); ++i) cols.push_back(column(under, i, kinds, u));
  Lines out;
  for (const Span& s : spans(cols)) {
    if (s.from > 0) out.emplace_back();
    append(out, head_of(cols, s, u));
    for (const auto& [kind, list] : kinds) {
      const std::string part = one_part(list, u);
      const std::string words = kind_words(kind, list.size() != 1);
      out.push_back(bold(part.empty() ? words : fmt::format("{}, {}", words, part), look));
      for (const Row* row : list) append(out, row_of(*row, part.empty(), cols, s, u, look));
    }
  }
  return out;
}

// ---- under the table

std::string factors(const CombinationSaid& c) {
  return fmt::format("{} (weight x {}, wind x {})", harmless(c.name), number(value(c.dead), metric),
                     number(value(c.wind), metric));
}
Lines answers(const std::vector<UnderMethod>& under, const Units& u, Look look) {
  Lines out;
  for (std::size_t i = 0; i < under.size(); ++i) {
    const Result& r = under[i].result;
    const std::string head = answer_words(r);
    std::string site = wind_words(r.site, u);
    if (!r.site.given_by.empty()) site += fmt::format("{}({})", site.empty() ? "" : " ", harmless(r.site.given_by));
    append(out, wrapped(fmt::format("{}: {}", column_name(under, i), with_stop(site)), "", "  "));
    Lines said = wrapped(fmt::format("{}   {} pass, {} fail, {} not judged, {} by others.", head, r.counts.pass,
                                     r.counts.fail, r.counts.not_judged, r.counts.by_others),
                         "  ", "    ");
    const bool bad = r.answer == Answer::fail || r.answer == Answer::not_judged;
    if (const std::size_t at = said.front().find(head); at != std::string::npos)
      said.front().replace(at, head.size(), bad ? red(head, look) : bold(head, look));
    append(out, std::move(said));
    std::string limits;
    for (const std::string& e : r.excess) limits += (limits.empty() ? "" : "; ") + harmless(e);
    if (!limits.empty()) append(out, wrapped(with_stop("Does not cover this house: " + limits), "  ", "    "));
    if (const auto n = std::ranges::count_if(r.links, refused); n > 0)
      append(out, wrapped(fmt::format("{} no verdict: the sheets' capacities are on another basis than the loads of "
                                      "this method ({}).",
                                      counted(static_cast<std::size_t>(n), "link gets", "links get"),
                                      harmless(r.site.basis)),
                          "  ", "    "));
  }
  return out;
}
Lines deciding(const std::vector<UnderMethod>& under) {
  Lines out;
  for (std::size_t i = 0; i < under.size(); ++i)
    for (const Decides& d : under[i].decides)
      append(out, wrapped(with_stop(fmt::format("{}: {}, for {}; {}", column_name(under, i), factors(d.combination),
                                                counted(d.links, "link", "links"), harmless(d.combination.source))),
                          "  ", "    "));
  return out;
}
}  // namespace

std::vector<std::vector<const Link*>> rows_of(const std::vector<UnderMethod>& under) {
  std::vector<Row> rows;
  for (std::size_t i = 0; i < under.size(); ++i)
    for (const Link& l : under[i].result.links) {
      auto found = std::ranges::find_if(rows, [&](const Row& row) { return any_of(row).id == l.id; });
      if (found == rows.end()) found = rows.insert(rows.end(), Row(under.size(), nullptr));
      (*found)[i] = &l;
    }
  return rows;
}
const LinkPart* deciding_part(const std::vector<const Link*>& row, std::size_t column) {
  const Link* l = row[column];
  if (!l) return nullptr;
  // What lifts a truss is what a reader looks for, whichever part of its bracket is used most.
  if (const LinkPart* lift = l->kind == "bracket" || l->kind == "girder bracket" ? by_name(*l, "uplift") : nullptr)
    return lift;
  if (const LinkPart* own = by_use(l)) return own;
  for (const Link* other : row)
    if (const LinkPart* p = by_use(other))
      if (const LinkPart* same = by_name(*l, p->part)) return same;
  const LinkPart* most = nullptr;
  for (const LinkPart& p : l->parts)
    if (p.role == Role::single && (!most || p.demand.si > most->demand.si)) most = &p;
  return most;
}
int worst_exit(const std::vector<UnderMethod>& under) {
  int worst = 0;
  for (const UnderMethod& u : under) worst = std::max(worst, u.result.exit_code());
  return worst;
}

std::vector<std::string> why_they_differ(const std::vector<UnderMethod>& under) {
  std::vector<std::string> out;
  const Units& u = units_of(under.front().result.print);
  if (under.size() < 2) return {"The job states one site alone: there is nothing to compare it with."};
  std::vector<std::string> limit, allowable;
  for (std::size_t i = 0; i < under.size(); ++i)
    (under[i].result.site.basis == words(Basis::allowable) ? allowable : limit).push_back(column_name(under, i));
  if (!limit.empty() && !allowable.empty())
    out.push_back(fmt::format(
        "The columns do not speak of the same thing: {} {} strengths (limit state), {} allowable capacities; a number "
        "of the one is not to be set beside a number of the other without the factor between them.",
        and_list(limit), limit.size() == 1 ? "asks for" : "ask for", and_list(allowable)));
  std::vector<std::string> wind, pressures;
  bool wind_alike = true;
  std::optional<double> first_factor;
  double least = 0.0, greatest = 0.0;
  for (std::size_t i = 0; i < under.size(); ++i) {
    const Pressure q = under[i].result.site.q;
    pressures.push_back(fmt::format("{} by {}", trimmed_text(value(q), u), column_name(under, i)));
    const double x = in(value(q), u);
    least = i == 0 ? x : std::min(least, x);
    greatest = i == 0 ? x : std::max(greatest, x);
    if (under[i].decides.empty()) continue;
    const double factor = under[i].decides.front().combination.wind;
    if (first_factor) wind_alike = wind_alike && factor == *first_factor;
    else first_factor = factor;
    wind.push_back(fmt::format("{} by {} ({})", number(value(factor), metric), column_name(under, i),
                               harmless(under[i].decides.front().combination.name)));
  }
  if (least > 0.0)
    out.push_back(fmt::format("The gust pressure is {}: {}.", and_list(pressures),
                              greatest / least < 1.005
                                  ? std::string("nearly the same")
                                  : fmt::format("the greatest is {:.2f} times the least", greatest / least)));
  if (wind.size() == under.size() && wind_alike)
    out.push_back(fmt::format("In the combinations that decide most links the wind is multiplied by {} in all of them.",
                              number(value(*first_factor), metric)));
  else if (wind.size() > 1)
    out.push_back(
        fmt::format("In the combination that decides most links the wind is multiplied by {}.", and_list(wind)));
  std::vector<std::string> lifts, areas;
  std::string bracket;
  for (std::size_t i = 0; i < under.size(); ++i)
    if (const auto& b = under[i].bracket) {
      bracket = harmless(b->words);
      lifts.push_back(fmt::format("{} by {} ({}; wind x q is {})", trimmed_text(value(b->uplift), u),
                                  column_name(under, i), harmless(b->combination.name),
                                  trimmed_text(value(b->factored), u)));
      areas.push_back(trimmed_text(value(b->as_area), u));
    }
  if (lifts.size() > 1)
    out.push_back(
        fmt::format("The net uplift on bracket {} is {}. That is the multiplied pressure on {}: what those "
                    "areas differ by comes from the methods' coefficients of lift and from how much of the "
                    "roof's weight each counts.",
                    bracket, and_list(lifts), and_list(areas)));
  for (std::size_t i = 0; i < under.size(); ++i)
    if (!under[i].result.excess.empty())
      out.push_back(
          fmt::format("{} does not cover this house: its numbers stand outside its limits.", column_name(under, i)));
  return out;
}

std::string side_by_side(const std::vector<UnderMethod>& under, bool all, Look look) {
  const Result& first = under.front().result;
  const Units& u = units_of(first.print);
  Lines out;
  append(out, wrapped(fmt::format("{}   {}", harmless(first.title), harmless(first.drawn)), "", "  "));
  append(out, wrapped(mirrored_words(first.mirror)));
  out.push_back(bold("What each link has to hold, method by method", look));
  out.emplace_back();
  append(out, answers(under, u, look));
  out.emplace_back();
  const Chosen_rows rows = chosen(under, all);
  append(out, table(under, rows.rows, u, look));
  if (!all) {
    std::string said = fmt::format("  The worst of each kind on each wall: {} of {} links", rows.rows.size(), rows.of);
    if (rows.by_others > 0) said += fmt::format(", without {} that others answer for", rows.by_others);
    append(out, wrapped(said + "; --all gives every one.", "  ", "    "));
  }
  const Lines combinations = deciding(under);
  if (!combinations.empty()) {
    out.emplace_back();
    out.push_back(bold("The combinations that decide", look));
    append(out, combinations);
  }
  out.emplace_back();
  out.push_back(bold("Why the columns differ", look));
  std::string why;
  for (const std::string& s : why_they_differ(under)) why += (why.empty() ? "" : " ") + s;
  append(out, wrapped(why, "  ", "  "));
  out.emplace_back();
  // Said once, however many methods say it.
  std::vector<std::string> cautions, unseen;
  const auto once = [](std::vector<std::string>& list, const std::string& what) {
    if (std::ranges::find(list, what) == list.end()) list.push_back(what);
  };
  for (std::size_t i = 0; i < under.size(); ++i) {
    for (const Caution& c : under[i].result.cautions) {
      const bool own = c.code == "method";
      if (own) once(cautions, fmt::format("{}: {}", column_name(under, i), with_stop(harmless(c.text))));
      else if (all || c.code == "demo-fixings" || c.code == "veranda-typed-in")
        once(cautions, with_stop(harmless(c.text)));
    }
    for (const NotLookedAt& n : under[i].result.not_looked_at) once(unseen, harmless(n.what));
  }
  for (const std::string& c : cautions) append(out, wrapped(c, "Caution: ", "  "));
  if (!unseen.empty()) append(out, wrapped(with_stop(and_list(unseen)), "Not looked at by any of them: ", "  "));
  const std::string file = shell_word(first.file);
  for (std::size_t i = 0; i < under.size(); ++i)
    out.push_back(fmt::format("{}belay check --method {} {}", i == 0 ? "Next:  " : "       ",
                              shell_word(under[i].site.name), file));
  out.push_back(
      fmt::format("Forces to the nearest {} {}.", u.name == us.name ? "whole" : "0.01", unit_word(Kind::force, u)));
  out.emplace_back(last_words);
  return joined(out);
}

}  // namespace belay
