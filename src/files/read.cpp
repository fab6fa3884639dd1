#include "files/read.hpp"
#include "files/document.hpp"
#include "files/embedded.hpp"
#include "files/fields.hpp"
#include "files/sha256.hpp"
#include "files/tried.hpp"
#include "job/nearest.hpp"
#include "job/path.hpp"
#include "job/settle.hpp"
#include "wind/methods.hpp"
#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <memory>

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

// `key = "..."` among the lines before a table's first entry.
std::string head_text(std::string_view text, std::string_view key) {
  for (std::string_view rest = text; !rest.empty() && !rest.starts_with('[');) {
    const std::string_view line = rest.substr(0, rest.find('\n'));
    const std::size_t from = line.find('"'), to = line.rfind('"');
    if (line.starts_with(key) && from < to) return std::string(line.substr(from + 1, to - from - 1));
    rest.remove_prefix(std::min(rest.size(), line.size() + 1));
  }
  return {};
}
// Every method that a table is built in for: its family is the file's name without the edition. Only the heads of the
// tables are looked at: a job needs one of them.
std::vector<KnownMethod> known_methods() {
  std::vector<KnownMethod> found;
  constexpr std::string_view folder = "methods/", end = ".toml";
  for (const Embedded& e : embedded()) {
    if (!e.name.starts_with(folder)) continue;
    const std::string method = head_text(e.text, "method"), edition = head_text(e.text, "edition");
    const std::string_view file = e.name.substr(folder.size(), e.name.size() - folder.size() - end.size());
    found.push_back({std::string(file.substr(0, file.size() - edition.size() - 1)), edition,
                     method.ends_with(edition) ? method : fmt::format("{}:{}", method, edition), [name = e.name] {
                       const Table& t = table(name);
                       return SiteWords{as_nzs::regions(t), as_nzs::terrains(t), as_nzs::zones(t)};
                     }});
  }
  return found;
}

// Empty when the method or the practice table holds such a figure from memory; else the nearest, or what there is.
std::string unless_a_figure(std::string_view figure, const std::vector<NamedSite>& sites) {
  std::vector<std::string_view> names;
  std::vector<const Table*> tables{&table("practice/common.toml")};
  for (const NamedSite& s : sites) tables.push_back(&table(table_for(s.site)));
  for (const Table* t : tables)
    for (const Entry& e : t->entries) {
      if (!e.from_memory()) continue;
      if (e.figure == figure) return {};
      names.push_back(e.figure);
    }
  const std::string_view near = nearest(figure, names);
  return near.empty() ? "the names are those that `belay check --all` gives" : fmt::format("did you mean `{}`?", near);
}

// Puts the source lines in, and counts those that are too many.
void show_lines(std::vector<Problem>& problems, const Document& job,
                const std::vector<std::unique_ptr<Document>>& others) {
  if (problems.size() > most_problems) {
    const std::size_t more = problems.size() - most_problems;
    problems.resize(most_problems);
    problems.push_back({job.file(), 0, 0, 0, "too-many-problems", fmt::format("and {} more problems", more), {}, {}});
  }
  for (Problem& p : problems)
    if (p.line != 0) {
      const auto other = std::find_if(others.begin(), others.end(), [&](const auto& d) { return d->file() == p.file; });
      p.source_line = (other != others.end() ? **other : job).line(p.line);
    }
}

// Whether some ground fits both rows. A region without its number ("A") is every region of that letter.
bool share_a_site(const ClassRow& a, const ClassRow& b) {
  const auto share = [](const std::vector<std::string>& x, const std::vector<std::string>& y, const auto& fit) {
    return x.empty() || y.empty() || std::any_of(x.begin(), x.end(), [&](const std::string& one) {
             return std::any_of(y.begin(), y.end(), [&](const std::string& other) { return fit(one, other); });
           });
  };
  const auto same = [](const std::string& x, const std::string& y) { return x == y; };
  const auto region = [](const std::string& x, const std::string& y) {
    return as4055::fits_region(x, y) || as4055::fits_region(y, x);
  };
  return share(a.region, b.region, region) && share(a.terrain, b.terrain, same) &&
         share(a.topography, b.topography, same) && share(a.shielding, b.shielding, same);
}
// The wind classes of a user's own table that a job names.
ClassTable settled(const raw::ClassTableKeys& keys, const Document& document, std::vector<Problem>& problems) {
  ClassTable t{document.file(), keys.source.value_or(""), {}};
  for (std::size_t i = 0; i < keys.rows.size(); ++i) {
    const raw::ClassRowKeys& row = keys.rows[i];
    const std::string path = under("row", i);
    if (!row.wind_class) continue;  // said already
    const auto classes = wind_classes();
    if (std::find(classes.begin(), classes.end(), *row.wind_class) == classes.end())
      problems.push_back(
          document.problem(document.find(under(path, "class"), false, 0, 0), "unknown-class",
                           fmt::format("`{}` is not a wind class of AS 4055: {}", *row.wind_class, listed(classes))));
    t.rows.push_back({row.region, row.terrain, row.topography, row.shielding, *row.wind_class, document.place(path)});
    const auto other = std::find_if(t.rows.begin(), t.rows.end() - 1, [&](const ClassRow& r) {
      return r.wind_class != t.rows.back().wind_class && share_a_site(r, t.rows.back());
    });
    if (other != t.rows.end() - 1)
      problems.push_back(document.problem(document.find(under(path, "class"), false, 0, 0), "rows-disagree",
                                          fmt::format("this row says {}, and the row at {} says {} for the same ground",
                                                      *row.wind_class, other->at, other->wind_class)));
  }
  return t;
}

// The texts of the other files stay as long as their documents.
struct OtherFiles {
  const Document& job;
  const Find& find;
  std::vector<Problem>& problems;
  std::vector<std::string> names;
  std::vector<std::unique_ptr<Document>> documents;

  // The file that the job names at `path`; null where it cannot be used, which is said.
  const Document* open(const std::string& name, const std::string& path, std::string_view what,
                       const std::string& unknown_help) {
    const auto say = [&](std::string code, std::string message, std::string help = {}) {
      problems.push_back(
          job.problem(job.find(path, false, 0, 0), std::move(code), std::move(message), std::move(help)));
    };
    Unreadable why;
    if (name.find_first_of("/\\") != std::string::npos || name.starts_with(".")) {
      say("bad-file-name", fmt::format("`{}` is no plain file name", name),
          fmt::format("the {} file stands beside the job: its name without folders", what));
    } else if (const std::optional<OtherFile> found = find(name, why)) {
      names.push_back(found->name);
      documents.push_back(std::make_unique<Document>(found->text, found->name, largest_file, problems));
      return documents.back().get();
    } else if (why.code.empty()) {
      say(fmt::format("no-{}-file", what == "fixings" ? "fixings" : "class-table"),
          fmt::format("no {} file `{}`", what, name), unknown_help);
    } else {
      say(std::move(why.code), fmt::format("`{}` {}", name, why.message));
    }
    return nullptr;
  }
};

Opened read_with(std::string_view text, std::string_view file, const Find& find, std::string_view choice) {
  Opened out;
  std::vector<std::string> files{std::string(file)};
  const Document document(text, file, largest_file, out.problems);
  if (!document.good()) {
    show_lines(out.problems, document, {});
    return out;
  }
  const raw::Job job = read_job_keys(document, out.problems);

  OtherFiles others{document, find, out.problems, {}, {}};
  // The fixings file, as far as it can be read: what it lacks is no slip of the job's.
  const Document* other = nullptr;
  std::optional<Fixings> fixings;
  if (job.job.fixings) {
    std::string help = "it stands neither beside the job nor among the built-in files";
    if (const auto names = built_in_fixings(); !names.empty()) help += fmt::format(" ({})", fmt::join(names, ", "));
    other = others.open(*job.job.fixings, "job.fixings", "fixings", help);
    if (other != nullptr && other->good()) fixings = read_fixings_keys(*other, out.problems);
  }
  Sites sites{known_methods(), {}, std::string(choice)};
  const auto class_table = [&](const raw::SiteKeys& keys, const std::string& path) {
    if (!keys.class_table || sites.class_tables.contains(*keys.class_table)) return;
    const Document* d = others.open(*keys.class_table, under(path, "class_table"), "class table",
                                    "it stands beside the job; README shows how one is written");
    if (d != nullptr && d->good())
      sites.class_tables.emplace(*keys.class_table, settled(read_class_table_keys(*d, out.problems), *d, out.problems));
  };
  class_table(job.site, "site");
  for (const auto& [name, keys] : job.site.by_method) class_table(keys, under("site", name));

  Settled house = settle(
      job, fixings ? &*fixings : nullptr, [&](std::string_view path) { return document.place(path); },
      defaults_of(table("practice/common.toml")), sites);
  for (Slip& s : house.slips) {
    const Document& d = s.file == Whose::fixings && other != nullptr ? *other : document;
    out.problems.push_back(
        d.problem(d.find(s.path, s.on_key, s.at, s.size), std::move(s.code), std::move(s.message), std::move(s.help)));
  }
  if (house.house)
    for (const CheckedFigure& c : house.house->checked)
      if (const std::string help = unless_a_figure(c.figure, house.house->sites); !help.empty())
        out.problems.push_back(document.problem(document.find("checked", false, 0, 0), "unknown-figure",
                                                fmt::format("`{}` is no figure from memory of this method", c.figure),
                                                help));
  files.insert(files.end(), others.names.begin(), others.names.end());
  sort_problems(out.problems, files);
  show_lines(out.problems, document, others.documents);
  if (!out.problems.empty()) return out;
  if (!house.house) {
    out.problems.push_back({std::string(file), 0, 0, 0, "not-understood", "the job could not be understood", {}, {}});
    return out;
  }
  out.house = std::move(house.house);
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
                const std::function<std::optional<std::string>(std::string_view)>& other_file,
                std::string_view method) {
  const Find find = [&](std::string_view name, Unreadable&) -> std::optional<OtherFile> {
    if (auto other = other_file(name)) return OtherFile{std::string(name), std::move(*other)};
    return std::nullopt;
  };
  return read_with(text, file, find, method);
}

Opened open_job(const std::string& path, std::string_view method, const std::vector<std::string>& changes) {
  Unreadable why;
  const std::filesystem::path job(path);
  std::optional<std::string> text = bytes_of(job, why);
  if (!text) return {std::nullopt, {{path, 0, 0, 0, std::move(why.code), std::move(why.message), {}, {}}}};
  const Find find = [&](std::string_view name, Unreadable& other_why) -> std::optional<OtherFile> {
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
  };
  std::vector<Tried> tried;
  for (const std::string& change : changes) {
    Changed c = with_change(*text, path, change);
    if (!c.problems.empty()) return {std::nullopt, std::move(c.problems)};
    *text = std::move(c.text);
    if (c.tried) tried.push_back(*std::move(c.tried));
  }
  Opened opened = read_with(*text, path, find, method);
  if (opened.house)
    for (const Tried& t : tried)
      opened.house->tried.push_back(
          {t.key, t.value, t.before, t.line == 0 ? std::string() : fmt::format("{}:{}", path, t.line)});
  return opened;
}

}  // namespace belay
