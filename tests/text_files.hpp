// Files, lines and commands for the tests.
#pragma once
#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <string_view>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace belay::test {

// All bytes of a file. Throws when it cannot be read.
inline std::string read_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(in), {}};
}

// Lines without their ends; what follows the last end is a line when it is not empty.
inline std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    lines.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  return lines;
}

// A folder of our own, gone at the end.
class Folder {
 public:
  Folder()
      : path_(std::filesystem::temp_directory_path() /
              ("belay-tests-" + std::to_string(::getpid()) + "-" + std::to_string(next_++))) {
    std::filesystem::create_directories(path_);
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  const std::filesystem::path& path() const { return path_; }
  std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
    return (path_ / name).string();
  }

 private:
  static inline int next_ = 0;
  std::filesystem::path path_;
};

// What a shell command printed on standard output, and its exit code (128: it was killed).
struct Printed {
  int code;
  std::string out;
};
inline Printed run_command(const std::string& command) {
  std::FILE* pipe = ::popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot start " + command);
  Printed printed{0, {}};
  std::array<char, 4096> some{};
  for (std::size_t n = 0; (n = std::fread(some.data(), 1, some.size(), pipe)) > 0;) printed.out.append(some.data(), n);
  const int status = ::pclose(pipe);
  printed.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
  return printed;
}

}  // namespace belay::test
