#include "cli/commands.hpp"
#include "belay/check.hpp"
#include "cli/address.hpp"
#include "files/read.hpp"
#include "report/json.hpp"
#include "report/said_back.hpp"
#include "report/screen.hpp"
#include "report/side_by_side.hpp"
#include "report/site_page.hpp"
#include "report/tried_page.hpp"
#include "report/working_page.hpp"
#include "wind/wind.hpp"
#include <algorithm>
#include <cerrno>
#include <cstring>
#include <exception>
#include <filesystem>
#include <fmt/format.h>

namespace belay {

void complain(std::string_view message, Colour colour) {
  write_out(stderr, fmt::format("{} {}\n", bold("belay:", look_of(stderr, colour)), message));
}
void put(std::string_view text) {
  if (!write_out(stdout, text)) throw CannotWrite{errno};
}

namespace {
// Runs it; a fault of ours is said plainly, with what was being done, and gives 3.
template <class Doing> int guarded(std::string_view what, Colour colour, Doing doing) {
  std::string fault;
  try {
    return doing();
  } catch (const CannotWrite&) {
    throw;  // ends the whole run, not one job
  } catch (const std::bad_alloc&) { fault = "there was not enough memory"; } catch (const std::exception& e) {
    fault = e.what();
  }
  complain(fmt::format(
               "a fault of ours while {}: {}\n       No answer was given for it. Please report this with the job file.",
               what, harmless(fault)),
           colour);
  return exit_code::our_fault;
}

constexpr std::string_view default_job = "job.toml";
constexpr std::string_view practice_table = "practice/common.toml";
constexpr std::string_view every_method = "all";

bool is_there(std::string_view path) {
  std::error_code none;
  return std::filesystem::exists(std::filesystem::path(path), none);
}

// The job, with everything that is wrong with it said on standard error. Nothing: it cannot be used.
// method: as in Ask.
std::optional<House> usable_house(const std::string& path, std::string_view method, Colour colour,
                                  const std::vector<std::string>& changes = {}) {
  Opened opened = open_job(path, method, changes);
  if (!opened.problems.empty()) write_out(stderr, render(opened.problems, look_of(stderr, colour).colour));
  if (!opened.house && opened.problems.empty()) complain(fmt::format("{} cannot be used", harmless(path)), colour);
  return std::move(opened.house);
}

// The jobs that were named, or the folder's own.
std::optional<std::vector<std::string>> named(const Ask& ask) {
  if (!ask.jobs.empty()) return ask.jobs;
  if (is_there(default_job)) return std::vector{std::string(default_job)};
  complain(
      fmt::format(
          "no job was named, and this folder has no {}.\n       For example: belay check jobs/saltbush-cottage.toml",
          default_job),
      ask.colour);
  return std::nullopt;
}

Result checked(const House& h) { return check(h, table(table_for(h.site)), table(practice_table)); }

std::vector<UnderMethod> under_all(const House& house) {
  std::vector<const Table*> methods;
  for (const NamedSite& s : house.sites) methods.push_back(&table(table_for(s.site)));
  return under_each(house, methods, table(practice_table));
}
// What one job's page or object is, and the exit code that goes with it.
struct Said {
  std::string text;
  int code;
};
Said check_of(const House& house, const Ask& ask, bool spread, Look look) {
  const bool json_wanted = ask.format == Format::json;
  if (ask.method == every_method) {
    const std::vector<UnderMethod> under = under_all(house);
    return {json_wanted ? json(under, spread) : side_by_side(under, ask.all, look), worst_exit(under)};
  }
  Result r = checked(house);
  r.remedies = remedies(house, table(table_for(house.site)), table(practice_table), r);
  r.site_asked = ask.method;
  if (!ask.changes.empty() && !json_wanted && !ask.all)
    if (const auto as_it_is = open_job(house.file, ask.method).house)
      return {tried_page(checked(*as_it_is), r, look), r.exit_code()};
  return {json_wanted ? json(r, spread) : ask.all ? every_link(r, look) : first_screen(r, look), r.exit_code()};
}
// The site that the house is judged by, or each in turn.
Said sites_said(House house, const Ask& ask, bool spread, Look look) {
  const bool each = ask.method.empty() || ask.method == every_method;
  std::vector<NamedSite> sites = house.sites;
  const std::string chosen = stated_at(house.site);
  if (!each) std::erase_if(sites, [&](const NamedSite& s) { return stated_at(s.site) != chosen; });
  std::vector<SiteWorkedOut> worked_out;
  for (const NamedSite& s : sites) {
    house.site = s.site;
    worked_out.push_back(site_of(house, table(table_for(s.site)), units_of(house.print)));
    if (house.sites.size() > 1) worked_out.back().sheet.name = s.name;
  }
  if (ask.format == Format::json) return {json(worked_out, spread), exit_code::good};
  std::string pages;
  for (const SiteWorkedOut& x : worked_out) pages += (pages.empty() ? "" : "\n\n") + site_page(x, ask.all, look);
  return {std::move(pages), exit_code::good};
}

// Each job in turn: a bad one does not stop the others, and the highest exit code counts.
template <class Say> int each_job(const Ask& ask, std::string_view doing, std::string_view method, Say say) {
  const auto jobs = named(ask);
  if (!jobs) return exit_code::unusable;
  const bool several = jobs->size() > 1;
  const Look look = look_of(stdout, ask.colour);
  int worst = exit_code::good;
  bool first = true;
  for (const std::string& job : *jobs) {
    const int code = guarded(fmt::format("{} {}", doing, harmless(job)), ask.colour, [&] {
      const auto house = usable_house(job, method, ask.colour, ask.changes);
      if (!house) return exit_code::unusable;
      const Said said = say(*house, !several, look);
      if (several && ask.format == Format::text)
        put(fmt::format("{}{}\n{}", first ? "" : "\n", bold(fmt::format("{}:", harmless(job)), look), said.text));
      else put(said.text);
      first = false;
      return said.code;
    });
    worst = std::max(worst, code);
  }
  return worst;
}
}  // namespace

int check_jobs(const Ask& ask) {
  if (!ask.changes.empty() && ask.method == every_method) {
    complain("`--if` tries a change by one of the job's sites: name it, not `--method all`.", ask.colour);
    return exit_code::unusable;
  }
  return each_job(ask, "checking", ask.method,
                  [&](const House& house, bool spread, Look look) { return check_of(house, ask, spread, look); });
}

int tell_sites(const Ask& ask) {
  // Without a word for one of them all are told: the job is opened for all of them.
  return each_job(ask, "telling the site of", ask.method.empty() ? every_method : std::string_view(ask.method),
                  [&](const House& house, bool spread, Look look) { return sites_said(house, ask, spread, look); });
}

namespace {
bool one_method(const Ask& ask) {
  if (ask.method != every_method) return true;
  complain("`--method all` is for `belay check` and `belay site`: name one of the job's sites.", ask.colour);
  return false;
}
}  // namespace

int show_job(const Ask& ask) {
  if (!one_method(ask)) return exit_code::unusable;
  const auto jobs = named(ask);
  if (!jobs) return exit_code::unusable;
  int worst = exit_code::good;
  bool first = true;
  for (const std::string& job : *jobs) {
    const int code = guarded(fmt::format("saying back {}", harmless(job)), ask.colour, [&] {
      const auto house = usable_house(job, ask.method, ask.colour);
      if (!house) return exit_code::unusable;
      const std::vector<RoofSaid> roofs = roofs_of(*house);
      put((first ? "" : "\n") + said_back(*house, set_out(*house, table(practice_table)), roofs.front(),
                                          look_of(stdout, ask.colour), {roofs.begin() + 1, roofs.end()}));
      first = false;
      return exit_code::good;
    });
    worst = std::max(worst, code);
  }
  return worst;
}

namespace {
std::string to_type(const Link& l) { return fmt::format("{} {}", harmless(l.where.words), kind_words(l.kind, false)); }
std::string list_of(const Result& r, const std::vector<std::size_t>& links) {
  constexpr std::size_t most = 12;
  const Units& u = units_of(r.print);
  std::string out;
  for (std::size_t i = 0; i < links.size() && i < most; ++i) {
    const Link& l = r.links[links[i]];
    std::string line = fmt::format("  \"{}\"", to_type(l));
    if (l.where.from_start)
      line = fmt::format("{}   wall {}, {}{}", padded(line, 36), harmless(l.where.wall), place(*l.where.from_start, u),
                         u.name == us.name ? "" : " mm");
    out += line + '\n';
  }
  if (links.size() > most) out += fmt::format("  and {} more\n", links.size() - most);
  return out;
}
}  // namespace

int explain_link(const Ask& ask, const std::vector<std::string>& words) {
  if (!one_method(ask)) return exit_code::unusable;
  if (words.empty()) {
    complain(
        "say which link: belay explain JOB LINK, for example\n       belay explain jobs/saltbush-cottage.toml \"A2 "
        "left\"",
        ask.colour);
    return exit_code::unusable;
  }
  std::string job = words.front();
  std::size_t from = 1;
  const bool a_file = is_there(job) || job.ends_with(".toml");
  if (!a_file && is_there(default_job)) {
    job = default_job;
    from = 0;
  }
  std::string typed;
  for (std::size_t i = from; i < words.size(); ++i) typed += (typed.empty() ? "" : " ") + words[i];
  return guarded(fmt::format("explaining {} of {}", harmless(typed), harmless(job)), ask.colour, [&] {
    const auto house = usable_house(job, ask.method, ask.colour, ask.changes);
    if (!house) return exit_code::unusable;
    const Table& method = table(table_for(house->site));
    const Table& practice = table(practice_table);
    const Result r = check(*house, method, practice);
    if (typed.find_first_not_of(' ') == std::string::npos) {
      complain(fmt::format("say which link of {}, for example:\n{}       `belay check --all {}` lists every one.",
                           harmless(job),
                           r.links.empty() ? "" : list_of(r, {r.nearest.empty() ? std::size_t{0} : r.nearest.front()}),
                           harmless(job)),
               ask.colour);
      return exit_code::unusable;
    }
    const Found found = find_link(r, typed);
    if (found.links.size() == 1) {
      const std::size_t link = found.links.front();
      const Working w = explain(*house, method, practice, r, link, units_of(r.print));
      put(working_page(r, link, w, look_of(stdout, ask.colour), room_to_move(*house, method, practice, r, link)));
      return exit_code::good;
    }
    if (found.links.empty())
      complain(fmt::format("no link of this house is called `{}`.{}\n{}`belay check --all {}` lists every one.",
                           harmless(typed), found.near.empty() ? "" : " The nearest:", list_of(r, found.near),
                           harmless(job)),
               ask.colour);
    else
      complain(fmt::format("`{}` may be any of {} links; say which:\n{}", harmless(typed), found.links.size(),
                           list_of(r, found.links)),
               ask.colour);
    return exit_code::unusable;
  });
}

}  // namespace belay
