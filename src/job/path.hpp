// Places in a job as text, so that code which knows no file can say where something stands: `wall.A.run`,
// `block.main.trusses[1].at[3]`, `checked."AS 4055 uplift"`. A key that is not plain is quoted as TOML would.
#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

std::string under(std::string_view path, std::string_view key);  // path.key
std::string under(std::string_view path, std::size_t index);     // path[index], counted from 0
// One step of a path: a key, or an index (then `key` is empty).
struct PathStep {
  std::string key;
  std::size_t index;
};
std::vector<PathStep> steps_of(std::string_view path);

}  // namespace belay
