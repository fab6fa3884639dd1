#include "report/working_page.hpp"
#include "report/steps.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace belay {

namespace {
using Lines = std::vector<std::string>;
const std::string& indent = step_indent;

// Kind and place, the kind said once, and how it ends: "Why the hold-down A1 left, at 120 fails"; a kind of many words
// stands off: "Why the distance between bracing lines, A to C, is for others to answer".
std::string title_words(const Link& l, const Units& u) {
  std::string place = place_words(l, u);
  const std::string kind = kind_words(l.kind, false);
  for (const std::string& said : {harmless(l.kind) + ' ', std::string(l.kind == "line spacing" ? "spacing " : "")})
    if (!said.empty() && place.starts_with(said)) place.erase(0, said.size());
  const bool off = std::ranges::count(kind, ' ') > 1;
  const std::string_view is = l.kind == "ground" ? "are" : "is";
  const std::string ends = l.verdict == Verdict::pass         ? "holds"
                           : l.verdict == Verdict::fail       ? "fails"
                           : l.verdict == Verdict::not_judged ? fmt::format("{} not judged", is)
                                                              : fmt::format("{} for others to answer", is);
  return fmt::format("Why the {}{} {}{} {}", kind, off ? "," : "", place, off ? "," : "", ends);
}

// What adds most to a pull: where a change helps most.
std::string greatest_of_the_pull(const Link& l, const Units& u) {
  const auto pull = std::ranges::find(l.parts, "pull", &LinkPart::part);
  if (l.kind != "hold-down" || pull == l.parts.end() || pull->made_of.size() < 2) return {};
  const MadeOf& most = *std::ranges::max_element(pull->made_of, {}, [](const MadeOf& m) { return m.value.si; });
  if (!(most.value.si > 0.0) || !(pull->demand.si > 0.0)) return {};
  return fmt::format("{} is {}: {} of {}.",
                     most.value.si > 0.5 * pull->demand.si ? "Most of the pull" : "The greatest part of the pull",
                     harmless(most.what), short_number(most.value, u),
                     fmt::format("{} {}", short_number(pull->demand, u), unit_word(pull->demand.kind, u)));
}

std::string room_words(const RoomToMove& room, const Units& u) {
  return fmt::format(
      "Along the wall it may stand from {} to {}, everything else as it is: tried in steps of {}, {} each way at most.",
      place(room.from, u), place(room.to, u), size_text(room.step, u), size_text(room.most, u));
}
void conclusion(Lines& out, const Result& r, const Link& l, const Units& u, Look look, const Lines& room) {
  out.emplace_back();
  out.push_back(bold("What it has to hold, and what it can", look));
  if (l.fixing.given()) {
    std::string s = fmt::format("{}: {}", harmless(l.fixing.name), chosen_words(l.fixing));
    if (!l.fixing_source.empty()) s += fmt::format("; source: {}", harmless(l.fixing_source));
    if (l.fixing_demo) s += "; invented, not for construction";
    for (std::string& line : wrapped(with_stop(s), indent, indent)) out.push_back(std::move(line));
  }
  std::size_t wide = 0;
  for (const LinkPart& p : l.parts)
    if (p.role != Role::reported) wide = std::max(wide, columns(p.part));
  for (const LinkPart& p : l.parts) {
    if (p.role == Role::reported) continue;  // it has no part in the verdict
    std::string s = indent + padded(harmless(p.part), wide) + "  ";
    if (p.role == Role::combined) s += fmt::format("together by the rule \"{}\"", harmless(p.rule));
    else
      s += p.capacity ? fmt::format("{} / {}", text(p.demand, u), text(*p.capacity, u))
                      : fmt::format("{}, no capacity to set against it", text(p.demand, u));
    const std::string use = p.use ? percent_up(p.use->value) : "";
    if (columns(s) + columns(use) + 2 <= page_width) out.push_back(padded(s, page_width - columns(use)) + use);
    else {
      out.push_back(s);
      out.push_back(right(use, page_width));
    }
    // What presses comes in other cases than what lifts.
    if (p.part == "press" && p.capacity && p.greatest.si > p.demand.si)
      out.push_back(fmt::format("{}    {}  at most, in another case", indent, right(text(p.greatest, u), 12)));
    if (p.made_of.size() > 1)
      for (const MadeOf& m : p.made_of) {
        const std::string from = m.from.empty() ? "" : fmt::format(" ({})", harmless(m.from));
        for (std::string& line :
             wrapped(fmt::format("{}{}", harmless(m.what), from),
                     fmt::format("{}    {}  ", indent, right(text(m.value, u), 12)), indent + std::string(18, ' ')))
          out.push_back(std::move(line));
      }
  }
  for (const Condition& c : l.conditions) {
    const std::string s = "Condition: " + condition_words(c);
    for (std::string& line : wrapped(with_stop(s), indent, indent + "  ")) out.push_back(std::move(line));
  }
  out.emplace_back();
  const std::string verdict(words(l.verdict));
  const std::string percent = use_words(l);  // none that looks like a pass where the link fails in spite of it
  const std::string use = percent == "-" ? "" : "   " + percent;
  Lines said = wrapped(fmt::format("{}{}   {}", verdict, use, with_stop(why_words(l))), "", "   ");
  if (!said.empty() && said.front().starts_with(verdict))
    said.front() =
        (l.verdict == Verdict::pass ? bold(verdict, look) : red(verdict, look)) + said.front().substr(verdict.size());
  out.insert(out.end(), said.begin(), said.end());
  out.insert(out.end(), room.begin(), room.end());
  const std::string add = words(key_to_add(l));
  for (std::string& line : wrapped(greatest_of_the_pull(l, u), "", "  ")) out.push_back(std::move(line));
  if (!add.empty())
    for (std::string& line : wrapped(fmt::format("To have it judged add {}.", add), "", "  "))
      out.push_back(std::move(line));
  if (!l.rests_on_memory.empty()) {
    std::string names;
    for (const std::string& m : l.rests_on_memory) names += (names.empty() ? "" : ", ") + harmless(m);
    for (std::string& line :
         wrapped(with_stop(fmt::format(
                     "It rests on figures from memory that nobody has compared with a bought copy: {}", names)),
                 "", "  "))
      out.push_back(std::move(line));
  }
  for (const std::string& e : r.excess)
    for (std::string& line :
         wrapped(with_stop(fmt::format("Outside what {} covers: {}", harmless(r.site.method), harmless(e))), "", "  "))
      out.push_back(std::move(line));
  out.emplace_back();
  for (const Caution& c : r.cautions)
    for (std::string& line : wrapped(with_stop(harmless(c.text)), "Caution: ", "  ")) out.push_back(std::move(line));
  if (u.name == us.name) out.push_back("lbf: pounds of force, lb on the first screen.");
  out.push_back("Each number is rounded as printed; the sums run on the unrounded ones.");
  out.emplace_back(last_words);
}
}  // namespace

std::string working_page(const Result& r, std::size_t index, const Working& w, Look look,
                         const std::optional<RoomToMove>& room) {
  const Link& l = r.links.at(index);
  const Units& u = *w.units;
  Lines out, room_said;
  for (const std::string& line : wrapped(title_words(l, u), "", "  ")) out.push_back(bold(line, look));
  std::string facts = harmless(r.title);
  const std::string wall = wall_words(l.where);
  if (!wall.empty()) facts += "   " + wall;
  if (l.where.from_start) facts += fmt::format("   places in {} {}", place_unit(u), from_words(l.where));
  for (std::string& line : wrapped(facts, "", "  ")) out.push_back(std::move(line));
  for (std::string& line : wrapped(mirrored_words(r.mirror))) out.push_back(std::move(line));
  for (std::string& line : tried_words(r.tried)) out.push_back(std::move(line));
  for (std::string& line : wrapped(with_stop(fmt::format("The wind: {}", site_line(r.site, u))), "", "  "))
    out.push_back(std::move(line));
  const std::string worst = case_words(l.load_case);
  if (!worst.empty())
    for (std::string& line : wrapped(with_stop("The case that decides: " + worst), "", "  "))
      out.push_back(std::move(line));
  for (std::string& line : steps_told(w, r.from_memory, look)) out.push_back(std::move(line));
  if (w.steps.empty()) {
    out.emplace_back();
    out.emplace_back("There is no sum to show for this link.");
  }
  if (room)
    for (std::string& line : wrapped(room_words(*room, u), "", "  ")) room_said.push_back(std::move(line));
  conclusion(out, r, l, u, look, room_said);
  return joined(out);
}

}  // namespace belay
