#include "job/path.hpp"
#include <algorithm>

namespace belay {
namespace {

bool plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
}

}  // namespace

std::string under(std::string_view path, std::string_view key) {
  std::string out(path);
  if (!out.empty()) out += '.';
  if (!key.empty() && std::all_of(key.begin(), key.end(), plain)) return out.append(key);
  out += '"';
  for (const char c : key) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out += '"';
}

std::string under(std::string_view path, std::size_t index) {
  return std::string(path) + '[' + std::to_string(index) + ']';
}

std::vector<PathStep> steps_of(std::string_view path) {
  std::vector<PathStep> out;
  for (std::size_t i = 0; i < path.size();) {
    if (path[i] == '.') {
      ++i;
    } else if (path[i] == '[') {
      std::size_t index = 0;
      for (++i; i < path.size() && path[i] != ']'; ++i) index = index * 10 + static_cast<std::size_t>(path[i] - '0');
      ++i;
      out.push_back({{}, index});
    } else if (path[i] == '"') {
      std::string key;
      for (++i; i < path.size() && path[i] != '"'; ++i) {
        if (path[i] == '\\' && i + 1 < path.size()) ++i;
        key += path[i];
      }
      ++i;
      out.push_back({key, 0});
    } else {
      const std::size_t end = std::min(path.find_first_of(".[", i), path.size());
      out.push_back({std::string(path.substr(i, end - i)), 0});
      i = end;
    }
  }
  return out;
}

}  // namespace belay
