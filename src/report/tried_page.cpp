#include "report/tried_page.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <set>

namespace belay {

namespace {
using Lines = std::vector<std::string>;

void append(Lines& to, const Lines& more) { to.insert(to.end(), more.begin(), more.end()); }

std::string counts_words(const Result& r) {
  const Counts& c = r.counts;
  return fmt::format("{}: {} pass, {} fail, {} not judged", answer_words(r), c.pass, c.fail, c.not_judged);
}
// before: null where it was not there.
struct Pair {
  const Link *before, *after;
};
double use_of(const Link& l) { return l.use ? l.use->value : 0.0; }
double greater_use(const Pair& p) { return std::max(p.before ? use_of(*p.before) : 0.0, use_of(*p.after)); }
std::string use_or_verdict(const Link& l) {
  const std::string use = use_words(l);
  return use == "-" ? std::string(words(l.verdict)) : use;
}

// By its place, where it has one: numbers change with what stands before. Of what a brace above presses, its own.
std::string stands(const Link& l, const Units& u) {
  const std::string_view below = l.where.words.starts_with("compression below ") ? " below" : "";
  return l.where.from_start ? fmt::format("{} {}{}", l.where.wall, place(*l.where.from_start, u), below) : l.id;
}
// Those links with what they were and are, the greatest use now first.
Lines listed(std::string_view head, std::vector<Pair> pairs, std::size_t most, const Units& u) {
  if (pairs.empty()) return {};
  std::ranges::stable_sort(pairs, [](const Pair& a, const Pair& b) { return greater_use(a) > greater_use(b); });
  Lines out{std::string(head)};
  std::size_t kind = 0, place = 0;
  const std::size_t n = std::min(pairs.size(), most);
  for (std::size_t i = 0; i < n; ++i) {
    kind = std::max(kind, columns(kind_words(pairs[i].after->kind, false)));
    place = std::max(place, columns(place_words(*pairs[i].after, u)));
  }
  constexpr std::size_t figures = 30;
  // Where both have no room, the kind is cut and not the name: by that people find the place.
  constexpr std::size_t least_kind = 12, both = page_width - 6 - figures;
  place = std::min(place, both - std::min(kind, least_kind));
  kind = std::min(kind, both - place);
  for (std::size_t i = 0; i < n; ++i) {
    const Pair& p = pairs[i];
    out.push_back(fmt::format("  {}  {}  {}{}", padded(clipped(kind_words(p.after->kind, false), kind), kind),
                              padded(place_within(place_of(*p.after, u), place), place),
                              p.before ? right(use_or_verdict(*p.before), 10) + " -> " : "", use_or_verdict(*p.after)));
  }
  if (pairs.size() > n) out.push_back(fmt::format("  {} more", pairs.size() - n));
  std::vector<std::string> reasons;
  for (std::size_t i = 0; i < n; ++i)
    if (const Link& l = *pairs[i].after; l.verdict == Verdict::fail || l.verdict == Verdict::not_judged)
      if (const std::string why = why_words(l); (!pairs[i].before || l.verdict != pairs[i].before->verdict) &&
                                                std::ranges::find(reasons, why) == reasons.end())
        reasons.push_back(why);
  for (const std::string& why : reasons) append(out, wrapped(with_stop(why), "  Why: ", "       "));
  return out;
}

}  // namespace

std::string tried_page(const Result& before, const Result& after, Look look) {
  const Units& u = units_of(after.print);
  std::multimap<std::pair<std::string, std::string>, const Link*> old;
  for (const Link& l : before.links) old.emplace(std::pair{l.kind, stands(l, u)}, &l);
  std::vector<Pair> new_fails, holds, fails, open, judged, more, less;
  std::size_t fresh = 0;
  std::set<const Link*> met;
  for (const Link& l : after.links) {
    // Of several at one place the one of the same name, if it is there.
    auto [from, to] = old.equal_range({l.kind, stands(l, u)});
    if (from == to) {
      ++fresh;
      if (l.verdict == Verdict::fail) new_fails.push_back({nullptr, &l});
      continue;
    }
    for (auto i = from; i != to; ++i)
      if (i->second->id == l.id) from = i;
    const Link& was = *from->second;
    met.insert(&was);
    old.erase(from);
    const Pair pair{&was, &l};
    if (l.verdict != was.verdict)
      (l.verdict == Verdict::fail         ? fails
       : l.verdict == Verdict::not_judged ? open
       : was.verdict == Verdict::fail     ? holds
                                          : judged)
          .push_back(pair);
    else if (use_of(l) > use_of(was) + 5e-4) more.push_back(pair);
    else if (use_of(l) < use_of(was) - 5e-4) less.push_back(pair);
  }
  const std::size_t gone = before.links.size() - met.size();

  Lines out = wrapped(fmt::format("{}   {}", harmless(after.title), site_line(after.site, u)));
  out.emplace_back();
  append(out, tried_words(after.tried));
  out.emplace_back();
  append(out, wrapped(fmt::format("As it is   {}", counts_words(before)), "", "           "));
  Lines then = wrapped(fmt::format("With that  {}", counts_words(after)), "", "           ");
  const std::string answer = answer_words(after);
  if (const auto at = then.front().find(answer); at != std::string::npos)
    then.front().replace(
        at, answer.size(),
        after.answer == Answer::fail || after.answer == Answer::not_judged ? red(answer, look) : bold(answer, look));
  append(out, then);
  out.emplace_back();
  constexpr std::size_t rows = 6;
  append(out, listed("Now fail:", fails, 2 * rows, u));
  append(out, listed("Not there before, and fail:", new_fails, rows, u));
  append(out, listed("Now not judged:", open, rows, u));
  append(out, listed("Now hold:", holds, 2 * rows, u));
  append(out, listed("Judged otherwise:", judged, rows, u));
  append(out, listed("Used more:", more, rows, u));
  append(out, listed("Used less:", less, rows, u));
  if (fresh + gone > 0)
    append(out, wrapped(fmt::format("{} that {} not there before; {} no more.", counted(fresh, "link", "links"),
                                    fresh == 1 ? "was" : "were",
                                    gone == 1 ? "1 is there" : fmt::format("{} are there", gone))));
  if (fails.empty() && open.empty() && holds.empty() && judged.empty() && more.empty() && less.empty() &&
      fresh + gone == 0)
    out.emplace_back("Nothing changes.");
  out.emplace_back();
  append(out, wrapped("The file is as it was. What was not looked at, and every caution, holds for this as for the "
                      "house as it is: belay check --all lists them. Uses rounded up."));
  out.emplace_back(last_words);
  return joined(out);
}

}  // namespace belay
