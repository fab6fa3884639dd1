#include "cli/address.hpp"
#include "job/nearest.hpp"
#include "report/page.hpp"
#include <algorithm>
#include <array>
#include <set>
#include <utility>

namespace belay {

namespace {
using Words = std::vector<std::string>;

bool in_word(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (static_cast<unsigned char>(c) & 0x80U) != 0;
}
// Lower-case words; a point between figures belongs to the number, and "2.0" is "2".
Words words_of(std::string_view s) {
  Words out;
  std::string w;
  const auto close = [&] {
    if (w.size() > 2 && w.ends_with(".0")) w.resize(w.size() - 2);
    if (!w.empty()) out.push_back(std::move(w));
    w.clear();
  };
  for (std::size_t i = 0; i < s.size(); ++i) {
    const char c = s[i] >= 'A' && s[i] <= 'Z' ? static_cast<char>(s[i] - 'A' + 'a') : s[i];
    const bool point = c == '.' && !w.empty() && w.back() >= '0' && w.back() <= '9' && i + 1 < s.size() &&
                       s[i + 1] >= '0' && s[i + 1] <= '9';
    if (in_word(c) || point) w += c;
    else close();
  }
  close();
  return out;
}
bool filler(std::string_view w) {
  static constexpr std::array<std::string_view, 10> list{"at", "wall", "mm",   "the",  "of",
                                                         "on", "end",  "from", "link", "under"};
  return std::ranges::find(list, w) != list.end();
}
bool a_number(const std::string& w) {
  return !w.empty() && std::ranges::all_of(w, [](char c) { return c >= '0' && c <= '9'; });
}
Words without_fillers(Words w) {
  std::erase_if(w, filler);
  return w;
}
// "a brace 2 left": wall and number are one name, "a2".
Words with_brace_named(const Words& w) {
  const auto brace = std::ranges::find(w, std::string("brace"));
  if (brace == w.end() || brace == w.begin() || brace + 1 == w.end() || !a_number(*(brace + 1))) return {};
  Words out(w.begin(), brace - 1);
  out.push_back(*(brace - 1) + *(brace + 1));
  out.insert(out.end(), brace + 2, w.end());
  return out;
}
// "T1 at 2-0 front", "T1 at 2-6 1/2 front": a place as a drawing in feet and inches writes it, as this page prints it.
std::string with_feet_read(std::string_view typed, const Units& u) {
  std::vector<std::string> parts;
  for (const char c : std::string(typed) + ' ') {
    if (c == ' ') parts.emplace_back();
    else if (parts.empty()) parts.emplace_back(1, c);
    else parts.back() += c;
  }
  std::string out, why;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    std::optional<Length> place_of_it = parse_feet_inches(parts[i], why);
    if (place_of_it && i + 1 < parts.size())
      if (const auto longer = parse_feet_inches(parts[i] + ' ' + parts[i + 1], why)) {
        place_of_it = longer;
        ++i;
      }
    out += (out.empty() ? "" : " ") + (place_of_it ? place(*place_of_it, u) : parts[i]);
  }
  return out;
}
bool within(const Words& some, const Words& all) {
  Words rest = all;
  return std::ranges::all_of(some, [&](const std::string& w) {
    const auto at = std::ranges::find(rest, w);
    if (at == rest.end()) return false;
    rest.erase(at);
    return true;
  });
}
void add(Words& to, const Words& more) { to.insert(to.end(), more.begin(), more.end()); }

// own: the link's words, and those of the same place under another name. more: what may be said besides. small: words
// of its kind that are no address.
struct Known {
  std::vector<Words> own;
  Words kind, more, small;
};
Known known(const Link& l, const Units& u) {
  Known k;
  k.own.push_back(without_fillers(words_of(l.where.words)));
  for (const std::string& s : l.where.also) k.own.push_back(without_fillers(words_of(s)));
  k.own.push_back(without_fillers(words_of(l.id)));
  k.kind = words_of(l.kind);
  add(k.kind, words_of(kind_words(l.kind, false)));
  add(k.kind, words_of(kind_words(l.kind, true)));
  // Small words of a kind ("slab and ground under a fixing") are no address: a wall may be called A.
  const auto small = std::stable_partition(k.kind.begin(), k.kind.end(), [](const std::string& w) {
    static constexpr std::array<std::string_view, 7> list{"a", "and", "of", "or", "to", "from", "between"};
    return std::ranges::find(list, w) == list.end();
  });
  k.small.assign(small, k.kind.end());
  k.kind.erase(small, k.kind.end());
  if (l.where.from_start) add(k.more, words_of(place(*l.where.from_start, u)));
  // The floor is left out while there is one alone: "ground" means the link under a fixing.
  for (const std::string& s : {l.where.wall, l.where.face, l.where.block}) add(k.more, words_of(s));
  return k;
}
std::string one_line(const Words& w) {
  Words sorted = w;
  std::ranges::sort(sorted);
  std::string s;
  for (const std::string& x : sorted) s += (s.empty() ? "" : " ") + x;
  return s;
}
// 3: its own words and no other; 2: its own words and nothing but what may be added; 1: all that was typed belongs to
// it; 0: not this one.
int fit(const Words& typed, const Known& k) {
  if (typed.empty()) return 0;
  const auto whole = [&](const Words& own) {
    if (own.empty() || !within(own, typed)) return false;
    Words rest = typed;
    for (const std::string& w : own) rest.erase(std::ranges::find(rest, w));
    Words may = k.kind;
    add(may, k.more);
    add(may, k.small);  // once its own words are said, all of its kind's may be: the list of several writes them out
    return within(rest, may);
  };
  // "ground under ground A1 left": of a fixing on the ground floor, nothing but "ground" once more.
  const auto same = [&](const Words& own) { return own.size() == typed.size() && within(own, typed); };
  if (std::ranges::any_of(k.own, same)) return 3;
  if (std::ranges::any_of(k.own, whole)) return 2;
  const auto part = [&](const Words& own) {
    Words all = own;
    add(all, k.kind);
    add(all, k.more);
    return within(typed, all);
  };
  return std::ranges::any_of(k.own, part) ? 1 : 0;
}
}  // namespace

Found find_link(const Result& r, std::string_view typed) {
  const Units& u = units_of(r.print);
  std::vector<Known> links;
  for (const Link& l : r.links) links.push_back(known(l, u));
  const Words all = words_of(typed);
  const Words plain = without_fillers(all), braced = without_fillers(with_brace_named(all)),
              feet = without_fillers(words_of(with_feet_read(typed, u)));
  Found found;
  int best = 1;
  for (std::size_t i = 0; i < links.size(); ++i) {
    const int f = std::max({fit(plain, links[i]), fit(braced, links[i]), fit(feet, links[i])});
    if (f < best || f == 0) continue;
    if (f > best) found.links.clear();
    best = f;
    found.links.push_back(i);
  }
  if (!found.links.empty()) return found;
  // Nothing fits: the addresses with the fewest letters to change, whatever the order of the words.
  const std::string asked = one_line(plain);
  std::vector<std::pair<std::size_t, std::size_t>> order;
  for (std::size_t i = 0; i < links.size(); ++i) {
    Words with_kind = links[i].own.front();
    add(with_kind, words_of(kind_words(r.links[i].kind, false)));
    constexpr std::size_t far = 40;
    order.emplace_back(
        std::min(distance(asked, one_line(links[i].own.front()), far), distance(asked, one_line(with_kind), far)), i);
  }
  std::ranges::sort(order);
  std::set<std::string> seen;
  for (const auto& [d, i] : order)
    if (found.near.size() < 5 && seen.insert(r.links[i].where.words).second) found.near.push_back(i);
  return found;
}

}  // namespace belay
