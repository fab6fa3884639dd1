// What each command does, as plain functions: they read, ask the engineering, and print. Nothing is computed here.
#pragma once
#include "cli/terminal.hpp"
#include <string>
#include <vector>

namespace belay {

// 0: every link of every job holds on checked figures. 1: some link fails, is not judged or rests on an unchecked
// figure. 2: the input cannot be used, or the result cannot be written. 3: our own fault. Of several jobs the highest
// counts. `show`, `explain` and `site` say 0 when they have said what was asked.
namespace exit_code {
inline constexpr int good = 0, short_of_it = 1, unusable = 2, our_fault = 3;
}

enum class Format : unsigned char { text, json };
struct Ask {
  std::vector<std::string> jobs;  // none: job.toml of the folder
  bool all;                       // every link, not the first screen; every direction of a site
  Format format;                  // json: one object, or one a line when there are several jobs
  Colour colour;
  std::string method = {};                // which of the job's sites: its word for it, "all"; "": the job's own choice
  std::vector<std::string> changes = {};  // "KEY = VALUE", tried without touching the file
};

int check_jobs(const Ask&);
int show_job(const Ask&);
int tell_sites(const Ask&);
// `words`: the job and the link's words as typed; the job may be left out when the folder has a job.toml.
int explain_link(const Ask&, const std::vector<std::string>& words);

// A message for standard error, "belay: ..." with its line end.
void complain(std::string_view message, Colour);
struct CannotWrite {
  int why;
};                           // errno
void put(std::string_view);  // to standard output, flushed; throws CannotWrite

}  // namespace belay
