// The nearest right spelling of a wrong word.
#pragma once
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

// Letters to insert, drop, change or swap with a neighbour, to make one word of the other; case does not count.
// More than `limit` is said as limit + 1.
std::size_t distance(std::string_view, std::string_view, std::size_t limit = 3);

// The word of least distance, when it is one alone and near enough to be meant: at most 2 letters off, at most 1 in a
// word of up to 4 letters, none in a word of 2, or one that begins with the other (3 letters or more). Nothing near:
// "".
std::string_view nearest(std::string_view wrong, std::span<const std::string_view> words);
std::string_view nearest(std::string_view wrong, std::span<const std::string> words);

// "`a`, `b` or `c`".
std::string listed(std::span<const std::string_view> words);

}  // namespace belay
