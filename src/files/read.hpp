// From files to a house: the only room that knows TOML. Whatever is wrong comes back as problems with their places, all
// of a file's at once; only a file that is not TOML at all stops at the first.
#pragma once
#include "belay/job.hpp"
#include "wind/table.hpp"
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

// What is wrong, and where. line, column: from 1, columns in code points (a tab is one); 0: the file as a whole.
// length: code points to underline. code: a slug in words, "run-too-short". help: what to do, may be empty.
struct Problem {
  std::string file;
  unsigned line, column, length;
  std::string code, message, help, source_line;
};
// A house, or problems: never both, never neither.
struct Opened {
  std::optional<House> house;
  std::vector<Problem> problems;
};

// The largest job or fixings file that is read, in bytes.
inline constexpr std::size_t largest_file = 128UL * 1024;
// Problems beyond this many are counted in one last problem, "too-many-problems": nobody reads more at once.
inline constexpr std::size_t most_problems = 200;

// Reads a job and its fixings file, which is looked for beside the job, then among the embedded `fixings/NAME`.
// method: by which of several sites the house is judged ("asce-7-16", "ASCE 7-16"); "all": the house stands with the
// first, and its fixings' basis is not compared with any; "": as the job says.
// changes: each `KEY = VALUE` is put into the job's text before it is read (see files/tried.hpp); the file stays as it
// is.
Opened open_job(const std::string& path, std::string_view method = {}, const std::vector<std::string>& changes = {});

// The same from memory. `file`: the job's name for messages. `other_file`: the text of a fixings file by the name that
// the job gives, or nothing.
Opened read_job(std::string_view text, std::string_view file,
                const std::function<std::optional<std::string>(std::string_view name)>& other_file,
                std::string_view method = {});

// The problems as a person reads them: place, message, the source line with a caret under it, help. `colour`: with the
// terminal's escape codes. No escape or control character of the file itself ever passes through.
std::string render(const std::vector<Problem>&, bool colour);

// An embedded table ("methods/as-4055-2021.toml"), parsed once, on first use; may be called from several threads.
// Throws std::runtime_error naming file and key when it is unknown or faulty: our own fault.
const Table& table(std::string_view name);
// The same from memory, not kept.
Table read_table_file(std::string_view text, std::string_view name);

}  // namespace belay
