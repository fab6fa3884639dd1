// Saying what is wrong with a job: slips with their places, and the nearest right spelling.
#pragma once
#include "job/nearest.hpp"
#include "job/raw.hpp"
#include "job/settle.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

class Slips {
 public:
  // After so many slips no more spellings are looked for: the file is no job, and looking takes time.
  static constexpr std::size_t most_advice = 100;
  explicit Slips(const std::vector<std::string>& unread) : unread_paths(unread) {}
  std::vector<Slip> slips;

  void slip(std::string path, std::string code, std::string message, std::string help = {}) {
    slips.push_back({Whose::job, std::move(path), false, 0, 0, std::move(code), std::move(message), std::move(help)});
  }
  void slip_on_key(std::string path, std::string code, std::string message, std::string help = {}) {
    slip(std::move(path), std::move(code), std::move(message), std::move(help));
    slips.back().on_key = true;
  }
  void slip_in(std::string path, std::size_t at, std::size_t size, std::string code, std::string message,
               std::string help = {}) {
    slip(std::move(path), std::move(code), std::move(message), std::move(help));
    slips.back().at = at;
    slips.back().size = size;
  }
  // A key was written but could not be read: that is said already.
  bool unread(std::string_view path) const {
    return std::any_of(unread_paths.begin(), unread_paths.end(), [&](const std::string& u) {
      return u == path ||
             (u.size() > path.size() && u.starts_with(path) && (u[path.size()] == '.' || u[path.size()] == '['));
    });
  }
  bool unread_itself(std::string_view path) const {
    return std::find(unread_paths.begin(), unread_paths.end(), path) != unread_paths.end();
  }
  void missing(const std::string& path, const std::string& what) {
    if (!unread(path)) slip(path, "missing-key", what);
  }
  // "did you mean ...?", or nothing.
  template <class Words> std::string advice(std::string_view wrong, const Words& words) const {
    if (slips.size() > most_advice) return {};
    if (!wrong.empty() && wrong.front() >= '0' && wrong.front() <= '9') return {};  // a near number is another one
    const std::string_view near_word = nearest(wrong, words);
    return near_word.empty() ? std::string() : fmt::format("did you mean `{}`?", near_word);
  }
  // The same, or all words there are, when they are few.
  template <class Words>
  std::string advice_or_list(std::string_view wrong, const Words& words, std::string_view what) const {
    std::string help = advice(wrong, words);
    if (!help.empty() || std::size(words) == 0 || std::size(words) > 12) return help;
    const std::vector<std::string_view> views(std::begin(words), std::end(words));
    return fmt::format("{}: {}", what, listed(views));
  }
  // Not one of the words that may stand here.
  bool is_word(const raw::Maybe<std::string>& text, const std::string& path, std::span<const std::string_view> words,
               std::string_view code, const std::string& what) {
    if (!text || std::find(words.begin(), words.end(), *text) != words.end()) return text.has_value();
    const std::string help = advice(*text, words);
    slip(path, std::string(code), fmt::format("`{}` is not {}: {}", *text, what, listed(words)), help);
    return false;
  }

 private:
  const std::vector<std::string>& unread_paths;  // that were written but not read
};

}  // namespace belay
