// The command line: what may be typed, and the exit codes. The only file that knows CLI11.
#include "cli/commands.hpp"
#include "job/nearest.hpp"
#include <CLI/CLI.hpp>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <fmt/format.h>
#include <sstream>

#ifndef BELAY_VERSION
#define BELAY_VERSION "0.1.0"
#endif

namespace belay {
namespace {

constexpr std::array<std::string_view, 4> commands{"check", "show", "explain", "site"};

constexpr std::string_view about =
    "Belay says whether a light-framed house is tied down and braced for its wind.\n"
    "\n"
    "  belay check house.toml                 does every link hold? On one screen\n"
    "  belay check --all house.toml           every link, with its place and its use\n"
    "  belay check --format json *.toml       for programs: one JSON object a line\n"
    "  belay show house.toml                  says the house back, before any sum\n"
    "  belay explain house.toml \"A2 left\"     every step of one link\n"
    "  belay site house.toml                  how the wind at the house comes about\n"
    "  belay check --method all house.toml    by each of its sites, side by side\n"
    "\n"
    "Exit codes: 0 every link holds on checked figures; 1 some link fails, is not\n"
    "judged or rests on an unchecked figure; 2 the input cannot be used; 3 a fault of\n"
    "ours.\n"
    "Local code and a licensed engineer come before what is printed here.\n";
constexpr std::string_view about_check =
    "Gives one verdict for each link between the roof and the ground.\n"
    "\n"
    "  belay check                            the job.toml of this folder\n"
    "  belay check house.toml                 the answer on one screen\n"
    "  belay check --all house.toml           every link\n"
    "  belay check --format json house.toml   for other programs\n"
    "  belay check --method NAME house.toml   by that one of the job's sites\n"
    "  belay check --method all house.toml    by each of them, side by side\n"
    "  belay check house.toml --if 'unless_noted.jamb = \"demo-rod-16\"'\n"
    "                                         what changes if it is tried so\n"
    "\n"
    "Several jobs: a bad one does not stop the others, the highest exit code counts,\n"
    "and JSON is one object a line.\n";
constexpr std::string_view about_show =
    "Says the house back as it was understood: walls with their running positions,\n"
    "trusses with their bearings, the place of every fixing. Nothing is checked.\n"
    "\n"
    "  belay show house.toml\n";
constexpr std::string_view about_explain =
    "Prints the steps of one link, from the first formula to the verdict.\n"
    "\n"
    "  belay explain house.toml \"A2 left\"             the end of a brace\n"
    "  belay explain house.toml T1 at 3600 front      what stands at a truss bearing\n"
    "  belay explain house.toml \"A jamb D1 right\"     beside an opening\n"
    "\n"
    "Words may stand in any order. Where a place stands for several links add the\n"
    "kind: \"bracket T1 at 3600 front\".\n";

constexpr std::string_view about_site =
    "Prints how the wind at the house comes about: what the job states, the gust and\n"
    "its pressure on each face, every step with its source.\n"
    "\n"
    "  belay site house.toml                  each of the job's sites in turn\n"
    "  belay site --all house.toml            every direction, in a table too\n"
    "  belay site --method NAME house.toml    that one of the job's sites\n"
    "  belay site --format json house.toml    for other programs\n";

// The command that was typed, if any: the first word that is no option. `at`: its index in the arguments.
struct Typed {
  std::string word;
  std::size_t at;
};
std::optional<Typed> command_of(const std::vector<std::string>& arguments) {
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const std::string& a = arguments[i];
    if (a == "--color") {
      ++i;
      continue;
    }
    if (a.empty() || a.front() != '-') return Typed{a, i};
  }
  return std::nullopt;
}

int run(std::vector<std::string> arguments) {
  // `belay help`, `belay help check`.
  if (const auto t = command_of(arguments); t && t->word == "help") {
    arguments.erase(arguments.begin() + static_cast<std::ptrdiff_t>(t->at));
    arguments.emplace_back("--help");
  }
  const auto typed = command_of(arguments);

  Ask ask{.jobs = {}, .all = false, .format = Format::text, .colour = Colour::automatic};
  std::vector<std::string> words;
  std::string format = "text", colour = "auto";
  CLI::App app{std::string(about), "belay"};
  app.set_version_flag("--version", std::string("belay ") + BELAY_VERSION, "print the version");
  app.require_subcommand(0, 1);
  app.get_formatter()->column_width(26);
  const auto take_colour = [&](CLI::App& a) {
    a.add_option("--color", colour, "auto: at a terminal, unless NO_COLOR is set")->option_text("auto|always|never");
    a.set_help_flag("-h,--help", "print this help");
  };
  const auto command = [&](std::string_view name, std::string_view shortly, std::string_view own) {
    // The long words stand at the head of the command's own help, the short ones in the list of commands.
    CLI::App* c = app.add_subcommand(std::string(name), std::string(typed && typed->word == name ? own : shortly));
    c->allow_extras();
    take_colour(*c);
    return c;
  };
  take_colour(app);
  app.allow_extras();
  CLI::App* check = command("check", "one verdict for each link, the answer on one screen", about_check);
  check->add_option("JOB", ask.jobs, "job files; none: job.toml of this folder")->option_text("...");
  check->add_flag("--all", ask.all, "every link, not the first screen alone");
  check->add_option("--format", format, "text for people, json for programs")->option_text("text|json");
  CLI::App* show = command("show", "says the house back before any sum", about_show);
  show->add_option("JOB", ask.jobs, "job files; none: job.toml of this folder")->option_text("...");
  CLI::App* explain = command("explain", "every step of one link", about_explain);
  explain->add_option("WORDS", words, "the job file, then the link as spoken")->option_text("JOB LINK");

  CLI::App* site = command("site", "how the wind at the house comes about", about_site);
  site->add_option("JOB", ask.jobs, "job files; none: job.toml of this folder")->option_text("...");
  site->add_flag("--all", ask.all, "every direction, not those alone that decide a face");
  site->add_option("--format", format, "text for people, json for programs")->option_text("text|json");
  for (CLI::App* c : {check, explain})
    c->add_option("--if", ask.changes, "try it so, the file stays as it is")
        ->option_text("'KEY = VALUE'")
        ->allow_extra_args(false);
  constexpr std::string_view which = "one of the job's sites by its name";
  const auto named = [](const std::string& name) {
    return name.empty() ? std::string("an empty name: which of the job's sites?") : std::string();
  };
  check->add_option("--method", ask.method, std::string(which) + ", or all of them")
      ->option_text("NAME|all")
      ->check(named, "", "");
  for (CLI::App* c : {show, explain})
    c->add_option("--method", ask.method, std::string(which))->option_text("NAME")->check(named, "", "");
  site->add_option("--method", ask.method, std::string(which))->option_text("NAME|all")->check(named, "", "");

  const auto one_of = [&](std::string_view option, const std::string& value,
                          std::initializer_list<std::string_view> may) {
    if (std::ranges::find(may, std::string_view(value)) != may.end()) return true;
    const std::vector<std::string_view> list(may);
    complain(fmt::format("`{} {}`: it may be {}.", option, harmless(value), listed(list)), Colour::automatic);
    return false;
  };

  if (typed && std::ranges::find(commands, std::string_view(typed->word)) == commands.end()) {
    const std::string_view meant = nearest(typed->word, std::span<const std::string_view>(commands));
    std::string said = fmt::format("`{}` is not a command; there are {}.", harmless(typed->word), listed(commands));
    if (!meant.empty()) said += fmt::format("\n       Did you mean `belay {}`?", meant);
    else if (typed->word.ends_with(".toml"))
      said += fmt::format("\n       Did you mean `belay check {}`?", harmless(typed->word));
    complain(said, Colour::automatic);
    return exit_code::unusable;
  }
  try {
    std::ranges::reverse(arguments);  // as CLI11 wants them
    app.parse(arguments);
  } catch (const CLI::ParseError& e) {
    std::ostringstream out, err;
    const bool asked_for = app.exit(e, out, err) == 0;  // help and version
    if (asked_for) {
      put(out.str());
      return exit_code::good;
    }
    complain(fmt::format("{}\n       `belay {}--help` says what may be typed.", harmless(e.what()),
                         typed ? typed->word + ' ' : ""),
             Colour::automatic);
    return exit_code::unusable;
  }
  CLI::App* chosen = nullptr;
  for (CLI::App* c : {check, show, explain, site})
    if (c->parsed()) chosen = c;
  std::vector<std::string> extra = app.remaining(false);
  if (chosen)
    for (std::string& s : chosen->remaining(false)) extra.push_back(std::move(s));
  std::erase(extra, "--");
  if (!extra.empty()) {
    std::vector<std::string> options;
    for (const CLI::Option* o : (chosen ? chosen : &app)->get_options())
      for (const std::string& l : o->get_lnames()) options.push_back("--" + l);
    const std::string& wrong = extra.front();
    const std::string_view meant = nearest(wrong.substr(0, wrong.find('=')), std::span<const std::string>(options));
    complain(fmt::format("`{}` is not an option of `belay{}`.{}\n       `belay {}--help` says what may be typed.",
                         harmless(wrong), chosen ? ' ' + chosen->get_name() : "",
                         meant.empty() ? "" : fmt::format(" Did you mean `{}`?", meant),
                         chosen ? chosen->get_name() + ' ' : ""),
             Colour::automatic);
    return exit_code::unusable;
  }
  if (!one_of("--color", colour, {"auto", "always", "never"}) || !one_of("--format", format, {"text", "json"}))
    return exit_code::unusable;
  ask.colour = colour == "always" ? Colour::always : colour == "never" ? Colour::never : Colour::automatic;
  ask.format = format == "json" ? Format::json : Format::text;
  if (!chosen) {
    write_out(stderr, app.help());
    return exit_code::unusable;
  }
  if (chosen == check) return check_jobs(ask);
  if (chosen == show) return show_job(ask);
  if (chosen == site) return tell_sites(ask);
  return explain_link(ask, words);
}

}  // namespace
}  // namespace belay

int main(int count, char** arguments) {
  using namespace belay;
  std::signal(SIGPIPE, SIG_IGN);  // a closed pipe is a failed write, which has its exit code
  try {
    return run(std::vector<std::string>(arguments + (count > 0 ? 1 : 0), arguments + count));
  } catch (const CannotWrite& e) {
    if (e.why == EPIPE) return exit_code::unusable;  // the reader has gone and wants no more words either
    complain(fmt::format("the result could not be written: {}", std::strerror(e.why)), Colour::automatic);
    return exit_code::unusable;
  } catch (const std::exception& e) {
    complain(fmt::format("a fault of ours: {}", harmless(e.what())), Colour::automatic);
    return exit_code::our_fault;
  }
}
