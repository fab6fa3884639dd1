#include "files/read.hpp"
#include "files/document.hpp"
#include "files/embedded.hpp"
#include "files/fields.hpp"
#include "files/sha256.hpp"
#include "job/nearest.hpp"
#include "job/path.hpp"
#include "job/settle.hpp"
#include "wind/wind.hpp"
#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>

namespace belay {
namespace {

// Name: for messages.
struct OtherFile {
  std::string name, text;
};
// Why a file cannot be read: a problem's code and message. No code: nothing is wrong.
struct Unreadable {
  std::string code, message;
};
using Find = std::function<std::optional<OtherFile>(std::string_view name, Unreadable& why)>;

// The rules of thumb for what a job leaves unsaid.
Defaults defaults_of(const Table& practice) {
  return {.door_height = practice.get<Length>("door", "least_height"),
          .wide_door = practice.get<Length>("door", "wide_from"),
          .wide_door_height = practice.get<Length>("door", "least_height_of_wide"),
          .anchor_spacing = practice.get<Length>("anchor_spacing", "greatest"),
          .hold_down_in = practice.get<Length>("hold_down", "in_from_end")};
}

// The names of the embedded fixings files, without their folder.
std::vector<std::string_view> built_in_fixings() {
  std::vector<std::string_view> out;
  for (const Embedded& e : embedded())
    if (e.name.starts_with("fixings/")) out.push_back(e.name.substr(8));
  return out;
}

// Empty when the method or the practice table holds such a figure from memory; else the nearest, or what there is.
std::string unless_a_figure(std::string_view figure, const std::string& method) {
  std::vector<std::string_view> names;
  for (const Table* t : {&table(method), &table("practice/common.toml")})
    for (const Entry& e : t->entries) {
      if (!e.from_memory()) continue;
      if (e.figure == figure) return {};
      names.push_back(e.figure);
    }
  const std::string_view near = nearest(figure, names);
  return near.empty() ? "the names are those that `belay check --all` gives" : fmt::format("did you mean `{}`?", near);
}

// Puts the source lines in, and counts those that are too many.
void show_lines(std::vector<Problem>& problems, const Document& job, const Document* fixings) {
  if (problems.size() > most_problems) {
    const std::size_t more = problems.size() - most_problems;
    problems.resize(most_problems);
    problems.push_back({job.file(), 0, 0, 0, "too-many-problems", fmt::format("and {} more problems", more), {}, {}});
  }
  for (Problem& p : problems)
    if (p.line != 0) p.source_line = (fixings != nullptr && p.file == fixings->file() ? *fixings : job).line(p.line);
}

Opened read_with(std::string_view text, std::string_view file, const Find& find) {
  Opened out;
  std::vector<std::string> files{std::string(file)};
  const Document document(text, file, largest_file, out.problems);
  if (!document.good()) {
    show_lines(out.problems, document, nullptr);
    return out;
  }
  const raw::Job job = read_job_keys(document, out.problems);

  // The fixings file, as far as it can be read: what it lacks is no slip of the job's.
  std::optional<Document> other;
  std::optional<Fixings> fixings;
  if (job.job.fixings) {
    const std::string path = "job.fixings";
    const auto say = [&](std::string code, std::string message, std::string help = {}) {
      out.problems.push_back(
          document.problem(document.find(path, false, 0, 0), std::move(code), std::move(message), std::move(help)));
    };
    Unreadable why;
    if (job.job.fixings->find_first_of("/\\") != std::string::npos || job.job.fixings->starts_with(".")) {
      say("bad-file-name", fmt::format("`{}` is no plain file name", *job.job.fixings),
          "the fixings file stands beside the job: its name without folders");
    } else if (const std::optional<OtherFile> found = find(*job.job.fixings, why)) {
      files.push_back(found->name);
      other.emplace(found->text, found->name, largest_file, out.problems);
      if (other->good()) fixings = read_fixings_keys(*other, out.problems);
    } else {
      std::string help = "it stands neither beside the job nor among the built-in files";
      if (const auto names = built_in_fixings(); !names.empty()) help += fmt::format(" ({})", fmt::join(names, ", "));
      if (why.code.empty()) say("no-fixings-file", fmt::format("no fixings file `{}`", *job.job.fixings), help);
      else say(std::move(why.code), fmt::format("`{}` {}", *job.job.fixings, why.message));
    }
  }

  Settled settled = settle(
      job, fixings ? &*fixings : nullptr, [&](std::string_view path) { return document.place(path); },
      defaults_of(table("practice/common.toml")));
  for (Slip& s : settled.slips) {
    const Document& d = s.file == Whose::fixings && other ? *other : document;
    out.problems.push_back(
        d.problem(d.find(s.path, s.on_key, s.at, s.size), std::move(s.code), std::move(s.message), std::move(s.help)));
  }
  if (settled.house)
    for (const CheckedFigure& c : settled.house->checked)
      if (const std::string help = unless_a_figure(c.figure, table_for(settled.house->site)); !help.empty())
        out.problems.push_back(document.problem(document.find("checked", false, 0, 0), "unknown-figure",
                                                fmt::format("`{}` is no figure from memory of this method", c.figure),
                                                help));
  sort_problems(out.problems, files);
  show_lines(out.problems, document, other ? &*other : nullptr);
  if (!out.problems.empty()) return out;
  if (!settled.house) {
    out.problems.push_back({std::string(file), 0, 0, 0, "not-understood", "the job could not be understood", {}, {}});
    return out;
  }
  out.house = std::move(settled.house);
  out.house->file = file;
  out.house->sha256 = sha256(text);
  return out;
}

// The bytes of a file that may be read, or why not. At most one byte more than is allowed is read.
std::optional<std::string> bytes_of(const std::filesystem::path& path, Unreadable& why) {
  const auto refuse = [&](std::string code, std::string message) {
    why = {std::move(code), std::move(message)};
    return std::nullopt;
  };
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (status.type() == std::filesystem::file_type::not_found) return refuse("no-such-file", "there is no such file");
  if (status.type() == std::filesystem::file_type::directory) return refuse("a-folder", "is a folder, not a file");
  if (status.type() != std::filesystem::file_type::regular) return refuse("cannot-be-read", "is no ordinary file");
  std::ifstream in(path, std::ios::binary);
  std::string text(largest_file + 1, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (in.bad() || (in.fail() && !in.eof())) return refuse("cannot-be-read", "cannot be read");
  text.resize(static_cast<std::size_t>(in.gcount()));
  if (text.size() > largest_file) {
    const auto size = std::filesystem::file_size(path, error);
    return refuse("file-too-large",
                  fmt::format("has {} bytes: more than {} are not read", error ? text.size() : size, largest_file));
  }
  return text;
}

}  // namespace

Opened read_job(std::string_view text, std::string_view file,
                const std::function<std::optional<std::string>(std::string_view)>& other_file) {
  return read_with(text, file, [&](std::string_view name, Unreadable&) -> std::optional<OtherFile> {
    if (auto other = other_file(name)) return OtherFile{std::string(name), std::move(*other)};
    return std::nullopt;
  });
}

Opened open_job(const std::string& path) {
  Unreadable why;
  const std::filesystem::path job(path);
  const std::optional<std::string> text = bytes_of(job, why);
  if (!text) return {std::nullopt, {{path, 0, 0, 0, std::move(why.code), std::move(why.message), {}, {}}}};
  return read_with(*text, path, [&](std::string_view name, Unreadable& other_why) -> std::optional<OtherFile> {
    const std::filesystem::path beside = job.parent_path() / std::string(name);
    std::error_code error;
    if (std::filesystem::exists(beside, error)) {
      auto other = bytes_of(beside, other_why);
      if (!other) return std::nullopt;
      return OtherFile{beside.string(), std::move(*other)};
    }
    if (const Embedded* built_in = embedded("fixings/" + std::string(name)))
      return OtherFile{std::string(name), std::string(built_in->text)};
    return std::nullopt;
  });
}

}  // namespace belay
