#include "report/site_page.hpp"
#include "report/steps.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <iterator>
#include <utility>

namespace belay {

namespace {
using Lines = std::vector<std::string>;

void append(Lines& to, Lines more) {
  to.insert(to.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}
void heading(Lines& to, std::string_view words, Look look) {
  to.emplace_back();
  to.push_back(bold(words, look));
}
bool same(Speed a, Speed b) { return std::abs(static_cast<double>(a / b) - 1.0) < 1e-9; }

// ---- what the site is

Lines what_it_is(const SiteSheet& s, const Units& u, Look look) {
  Lines out;
  if (const std::string title = fmt::format("{}   {}", harmless(s.title), harmless(s.drawn)); !s.title.empty())
    append(out, wrapped(title, "", "  "));
  append(out, wrapped(mirrored_words(s.mirror)));
  const std::string name = s.name.empty() ? "" : fmt::format(" ({})", harmless(s.name));
  for (const std::string& line : wrapped(fmt::format("The wind at the house by {}{}", method_words(s.site), name)))
    out.push_back(bold(line, look));
  out.emplace_back();
  std::string site = wind_words(s.site, u);
  if (!s.site.given_by.empty())
    site += fmt::format("{}given by {}", site.empty() ? "" : ", ", harmless(s.site.given_by));
  append(out, wrapped(with_stop(capitalised(site)), "", "  "));
  if (!s.site.typed_in.empty())
    for (const std::string& line :
         wrapped(s.site.typed_in == "pressure" ? "THE PRESSURE WAS TYPED IN BY AN ENGINEER. IT WAS NOT WORKED OUT HERE."
                                               : "THE GUST WAS TYPED IN BY AN ENGINEER. IT WAS NOT WORKED OUT HERE."))
      out.push_back(red(line, look));
  append(out, wrapped(fmt::format("Its loads are set against {} capacities.", harmless(s.site.basis)), "", "  "));
  std::string limits;
  for (const std::string& e : s.excess) limits += (limits.empty() ? "" : "; ") + harmless(e);
  if (!limits.empty())
    append(out, wrapped(with_stop(fmt::format("{} does not cover this house: {}", method_words(s.site), limits)) +
                            " No link is judged by it.",
                        "", "  "));
  return out;
}

// ---- the faces

std::string gust_and_pressure(Speed gust, Pressure q, const Units& u) {
  std::string out = gust > zero<Speed>() ? trimmed_text(value(gust), u) + ", " : "";
  return out + trimmed_text(value(q), u);
}
// Whether a face's wind comes from that direction: "NE", "between N and NE".
bool comes_from(const std::string& from, std::string_view direction) {
  return (' ' + from + ' ').find(fmt::format(" {} ", direction)) != std::string::npos;
}
std::vector<const DirectionSaid*> directions_of(const SiteSheet& s, const std::string& from) {
  std::vector<const DirectionSaid*> found;
  for (const DirectionSaid& d : s.directions)
    if (comes_from(from, d.name)) found.push_back(&d);
  return found;
}
bool from_every_direction_alike(const SiteSheet& s) {
  return std::ranges::all_of(s.directions,
                             [&](const DirectionSaid& d) { return same(d.gust, s.directions.front().gust); });
}
// "45 m/s (regional gust) x 0.8 (direction)": factors in their order, with their words.
std::string factors_words(const DirectionSaid& d, Speed gust, const Units& u) {
  std::string out;
  for (const FactorSaid& f : d.factors) {
    out += fmt::format("{}{}", out.empty() ? "" : d.product ? " x " : ", ", kept_together(trimmed_text(f.value, u)));
    if (!f.words.empty()) out += fmt::format(" ({})", harmless(f.words));
  }
  if (!out.empty() && d.product && !same(*d.product, gust))
    out += fmt::format("; that is {}, taken as {}", kept_together(trimmed_text(value(*d.product), u)),
                       kept_together(trimmed_text(value(gust), u)));
  return out;
}
std::string faces_words(const std::vector<const FaceSaid*>& faces) {
  if (faces.size() == 4) return "Onto every face of the house";
  std::vector<std::string> names;
  for (const FaceSaid* f : faces) names.push_back(fmt::format("the {}", words(f->side)));
  return "Onto " + and_list(names);
}
Lines faces(const SiteSheet& s, const Units& u) {
  if (std::ranges::none_of(s.faces, [](const FaceSaid& f) { return f.q > zero<Pressure>(); }))
    return {"  No gust could be found for this site."};
  std::vector<std::vector<const FaceSaid*>> alike;
  for (const FaceSaid& f : s.faces) {
    const auto known = std::ranges::find_if(alike, [&](const std::vector<const FaceSaid*>& group) {
      return group.front()->gust == f.gust && group.front()->q == f.q && group.front()->from == f.from;
    });
    if (known == alike.end()) alike.push_back({&f});
    else known->push_back(&f);
  }
  Lines out;
  for (const std::vector<const FaceSaid*>& group : alike) {
    const FaceSaid& f = *group.front();
    std::string said = fmt::format("{}: {}", faces_words(group), gust_and_pressure(f.gust, f.q, u));
    std::vector<const DirectionSaid*> from = directions_of(s, f.from);
    if (!from.empty() && from_every_direction_alike(s)) {
      from.resize(1);
      said += ", from every direction alike";
    } else if (!f.from.empty())
      said += fmt::format(", from {}{}", from.size() == 1 && from[0]->name == f.from ? "the " : "", harmless(f.from));
    std::vector<std::pair<std::string, std::vector<std::string>>> ways;  // factors, and the directions that have them
    for (const DirectionSaid* d : from) {
      std::string factors = factors_words(*d, from.size() == 1 ? f.gust : d->gust, u);
      if (factors.empty()) continue;
      if (from.size() > 1)
        factors +=
            (d->product && same(*d->product, d->gust) ? " = " : ", ") + kept_together(trimmed_text(value(d->gust), u));
      auto way = std::ranges::find(ways, factors, &std::pair<std::string, std::vector<std::string>>::first);
      if (way == ways.end()) way = ways.insert(ways.end(), {factors, {}});
      way->second.push_back("the " + harmless(d->name));
    }
    for (std::size_t i = 0; i < ways.size(); ++i)
      said += fmt::format("{}{}{}", i == 0 ? ": " : "; ",
                          ways.size() > 1 ? fmt::format("from {} ", and_list(ways[i].second)) : "", ways[i].first);
    if (from.size() > 1 && f.worked_out > zero<Speed>())
      said += fmt::format("; at the edge of the face's sector {}, taken as {}, the least",
                          kept_together(trimmed_text(value(f.worked_out), u)),
                          kept_together(trimmed_text(value(f.gust), u)));
    append(out, wrapped(with_stop(said), "  ", "    "));
  }
  if (s.service_gust)
    append(out, wrapped(fmt::format("In service (what bends or cracks, not what breaks): {}.",
                                    trimmed_text(value(*s.service_gust), u)),
                        "  ", "    "));
  return out;
}

// ---- every direction's factors

// A symbol that names its direction ("M_s,NE") stands in the head of the column without it.
std::string column_symbol(const FactorSaid& f, const std::string& direction) {
  for (const char* between : {",", "_"})
    if (const std::string end = between + direction; f.symbol.size() > end.size() && f.symbol.ends_with(end))
      return harmless(f.symbol.substr(0, f.symbol.size() - end.size()));
  return harmless(f.symbol);
}
Lines grid(const SiteSheet& s, const Units& u) {
  // meanings: what the factor stands for, with the directions where it is that.
  struct Column {
    std::string symbol, unit;
    std::vector<std::pair<std::string, std::vector<std::string>>> meanings;
    std::vector<std::string> cells;
    std::size_t wide;
  };
  std::vector<Column> table;
  const auto put = [&](std::size_t row, const std::string& symbol, const std::string& said, Value v) {
    auto c = std::ranges::find(table, symbol, &Column::symbol);
    if (c == table.end())
      c = table.insert(table.end(), {symbol, unit_word(v.kind, u), {}, Lines(s.directions.size(), "-"), 0});
    c->cells[row] = trimmed(v, u);
    if (said.empty()) return;
    auto m = std::ranges::find(c->meanings, said, &std::pair<std::string, std::vector<std::string>>::first);
    if (m == c->meanings.end()) m = c->meanings.insert(c->meanings.end(), {said, {}});
    m->second.push_back(harmless(s.directions[row].name));
  };
  for (std::size_t i = 0; i < s.directions.size(); ++i) {
    const DirectionSaid& d = s.directions[i];
    for (const FactorSaid& f : d.factors) put(i, column_symbol(f, d.name), harmless(f.words), f.value);
  }
  for (std::size_t i = 0; i < s.directions.size(); ++i) put(i, "gust", "", value(s.directions[i].gust));
  std::size_t first = 4;
  for (const DirectionSaid& d : s.directions) first = std::max(first, columns(harmless(d.name)));
  for (Column& c : table) {
    c.wide = std::max(columns(c.symbol), columns(c.unit));
    for (const std::string& cell : c.cells) c.wide = std::max(c.wide, columns(cell));
  }
  // Columns that one line does not hold go on in a second table.
  Lines out;
  for (std::size_t from = 0, to = 0; from < table.size(); from = to) {
    std::size_t wide = 2 + first;
    for (to = from; to < table.size() && (to == from || wide + 2 + table[to].wide <= page_width); ++to)
      wide += 2 + table[to].wide;
    if (from > 0) out.emplace_back();
    std::string symbols = "  " + padded("from", first), unit_row = "  " + std::string(first, ' ');
    for (std::size_t i = from; i < to; ++i) {
      symbols += "  " + right(table[i].symbol, table[i].wide);
      unit_row += "  " + right(table[i].unit, table[i].wide);
    }
    out.push_back(symbols);
    if (unit_row.find_first_not_of(' ') != std::string::npos) out.push_back(unit_row);
    for (std::size_t row = 0; row < s.directions.size(); ++row) {
      std::string line = "  " + padded(harmless(s.directions[row].name), first);
      for (std::size_t i = from; i < to; ++i) line += "  " + right(table[i].cells[row], table[i].wide);
      out.push_back(line);
    }
  }
  std::string meanings;
  for (const Column& c : table)
    for (const auto& [said, from] : c.meanings)
      meanings += fmt::format("{}{}: {}{}", meanings.empty() ? "" : "; ", c.symbol, said,
                              c.meanings.size() > 1 ? " from " + and_list(from) : "");
  append(out, wrapped(with_stop(meanings), "  ", "    "));
  return out;
}

// ---- the steps

// All of them, or those of the windiest face alone where the faces differ.
Lines steps(const SiteWorkedOut& x, bool all, Look look) {
  const auto every = [](const std::string&) { return true; };
  Lines out = steps_told(all ? x.working : x.windiest, x.sheet.from_memory, look, every);
  if (out.empty()) out = {"", "There is no sum to show for this site."};
  if (!all && x.windiest.steps.size() < x.working.steps.size()) {
    const FaceSaid& face = *std::ranges::max_element(x.sheet.faces, {}, &FaceSaid::q);
    out.emplace_back();
    append(out, wrapped(fmt::format("These steps lead to the windiest face, the {}; --all tells all of them.",
                                    words(face.side)),
                        "", "  "));
  }
  return out;
}

// ---- what goes with it

Lines combinations(const SiteSheet& s) {
  Lines out;
  std::size_t wide = 0;
  for (const CombinationSaid& c : s.combinations) wide = std::max(wide, columns(harmless(c.name)));
  wide = std::min<std::size_t>(wide, 30);
  for (const CombinationSaid& c : s.combinations)
    append(out, wrapped(fmt::format("weight x {}, wind x {}   {}", number(value(c.dead), metric),
                                    number(value(c.wind), metric), harmless(c.source)),
                        fmt::format("  {}  ", padded(harmless(c.name), wide)), std::string(wide + 6, ' ')));
  return out;
}
Lines memory(const SiteSheet& s) {
  Lines out;
  for (const FromMemory& f : s.from_memory) {
    std::string said = harmless(f.figure);
    if (!f.value.empty() && f.figure.find(f.value) == std::string::npos)
      said += fmt::format(" ({})", harmless(f.value));
    append(out, wrapped(fmt::format(
                            "{}: {}", said,
                            f.checked ? fmt::format("checked, as the job says: {}", harmless(f.who)) : "not checked"),
                        "  m ", "    "));
  }
  if (out.empty()) return {"  None."};
  if (std::ranges::any_of(s.from_memory, [](const FromMemory& f) { return !f.checked; }))
    append(out, wrapped("List them under [checked] once compared with a bought copy.", "  ", "    "));
  return out;
}
Lines unseen(const SiteSheet& s) {
  Lines out;
  for (const NotLookedAt& n : s.not_looked_at) {
    std::string said = harmless(n.what);
    if (!n.why.empty()) said += ": " + harmless(n.why);
    if (!n.key_to_add.empty()) said += fmt::format("; add `{}`", harmless(n.key_to_add));
    append(out, wrapped(with_stop(said), "  ", "    "));
  }
  return out;
}
}  // namespace

std::string site_page(const SiteWorkedOut& x, bool all, Look look) {
  const SiteSheet& s = x.sheet;
  const Units& u = *x.working.units;
  Lines out = what_it_is(s, u, look);
  heading(out, "On each face", look);
  append(out, faces(s, u));
  if (all && !s.directions.empty()) {
    heading(out, "From every direction", look);
    append(out, grid(s, u));
  }
  append(out, steps(x, all, look));
  if (!s.combinations.empty()) {
    heading(out, fmt::format("Combinations of {}", method_words(s.site)), look);
    append(out, combinations(s));
  }
  heading(out, "Figures from memory behind this gust", look);
  append(out, memory(s));
  out.emplace_back();
  for (const std::string& c : s.cautions) append(out, wrapped(with_stop(harmless(c)), "Caution: ", "  "));
  if (!s.not_looked_at.empty()) {
    heading(out, "Not looked at", look);
    append(out, unseen(s));
  }
  out.emplace_back();
  const std::string method = s.name.empty() ? "" : fmt::format("--method {} ", shell_word(s.name));
  const std::string file = shell_word(s.file);
  out.push_back(fmt::format("Next:  belay check {}{}", method, file));
  if (!all && !s.directions.empty()) out.push_back(fmt::format("       belay site --all {}{}", method, file));
  out.emplace_back("Each number is rounded as printed; the sums run on the unrounded ones.");
  out.emplace_back(last_words);
  return joined(out);
}

}  // namespace belay
