#include "job/nearest.hpp"
#include <algorithm>

namespace belay {
namespace {

char small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool begins(std::string_view word, std::string_view with) {
  return with.size() >= 3 && word.size() > with.size() &&
         std::equal(with.begin(), with.end(), word.begin(), [](char a, char b) { return small(a) == small(b); });
}

template <class Word> std::string_view nearest_of(std::string_view wrong, std::span<const Word> words) {
  const std::size_t limit = wrong.size() <= 2 ? 0 : wrong.size() <= 4 ? 1 : 2;
  std::string_view best;
  std::size_t least = limit + 1;
  bool tie = false;
  for (const std::string_view w : words) {
    const std::size_t d = distance(wrong, w, limit);
    tie = d == least ? d <= limit && w != best : tie && d > least;
    if (d < least) {
      least = d;
      best = w;
    }
  }
  if (tie) return {};
  if (best.empty())
    for (const std::string_view w : words)
      if (begins(w, wrong) || begins(wrong, w)) return w;
  return best;
}

}  // namespace

std::size_t distance(std::string_view a, std::string_view b, std::size_t limit) {
  if (std::max(a.size(), b.size()) - std::min(a.size(), b.size()) > limit || a.size() > 200) return limit + 1;
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = small(a[i - 1]) == small(b[j - 1]);
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + (same ? 0 : 1)});
      if (i > 1 && j > 1 && small(a[i - 1]) == small(b[j - 2]) && small(a[i - 2]) == small(b[j - 1]))
        now[j] = std::min(now[j], before[j - 2] + 1);
    }
    before.swap(last);
    last.swap(now);
  }
  return std::min(last[b.size()], limit + 1);
}

std::string_view nearest(std::string_view wrong, std::span<const std::string_view> words) {
  return nearest_of(wrong, words);
}
std::string_view nearest(std::string_view wrong, std::span<const std::string> words) {
  return nearest_of(wrong, words);
}

std::string listed(std::span<const std::string_view> words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " or " : ", ";
    out += '`';
    out += words[i];
    out += '`';
  }
  return out;
}

}  // namespace belay
