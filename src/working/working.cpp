#include "belay/working.hpp"
#include <bit>
#include <cstdint>
#include <map>

namespace belay {
namespace {

// A figure of a working: its symbol and its very bits. Two figures of one symbol that differ in the last bit are two.
using Figure = std::tuple<std::string, Kind, std::uint64_t>;
Figure figure(const std::string& symbol, Value v) { return {symbol, v.kind, std::bit_cast<std::uint64_t>(v.si)}; }

}  // namespace

bool Working::goes_on_as(const std::string& from, Value v, std::string_view symbol, std::string_view words) {
  const Figure wanted = figure(named(from), v);
  for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
    if (figure(step->symbol, step->result) == wanted) {
      step->symbol = named(symbol);
      if (!step->words.starts_with(words))
        step->words = std::string(words) + (step->words.empty() ? "" : ": ") + step->words;
      return true;
    }
    if (std::any_of(step->operands.begin(), step->operands.end(),
                    [&](const Operand& o) { return figure(o.symbol, o.value) == wanted; }))
      return false;
  }
  return false;
}

namespace {

// Leaves out what was stated or looked up and told already, in the same words, while no other figure has taken its
// symbol.
std::vector<Step> without_repeats(std::vector<Step> steps) {
  std::vector<Step> once;
  std::map<std::string, std::size_t> last;  // by symbol: where in `once`
  for (Step& step : steps) {
    const bool stated = step.kind == StepKind::given || step.kind == StepKind::lookup;
    const auto before = last.find(step.symbol);
    if (stated && before != last.end()) {
      const Step& b = once[before->second];
      if (b.kind == step.kind && figure(b.symbol, b.result) == figure(step.symbol, step.result) &&
          b.words == step.words && b.source == step.source)
        continue;
    }
    last[step.symbol] = once.size();
    once.push_back(std::move(step));
  }
  return once;
}

}  // namespace

// Walks back from the last step. What a kept step rests on is wanted; the latest earlier step that yields it is kept
// and settles the want, so that a figure told twice stays once for those who come after it.
void keep_what_leads_to_the_end(Working& w) {
  if (!w.steps.empty()) keep_what_leads_to(w, {w.steps.size() - 1});
}

void keep_what_leads_to(Working& w, const std::vector<std::size_t>& ends) {
  std::set<Figure> wanted;
  for (const std::size_t e : ends) wanted.insert(figure(w.steps[e].symbol, w.steps[e].result));
  std::vector<Step> kept;
  for (auto step = w.steps.rbegin(); step != w.steps.rend(); ++step) {
    if (wanted.erase(figure(step->symbol, step->result)) == 0) continue;
    for (const Operand& o : step->operands) wanted.insert(figure(o.symbol, o.value));
    kept.push_back(std::move(*step));
  }
  std::reverse(kept.begin(), kept.end());
  w.steps = without_repeats(std::move(kept));
}

std::string orphan(const Working& w) {
  std::set<Figure> told;
  for (const Step& step : w.steps) {
    for (const Operand& o : step.operands)
      if (!told.contains(figure(o.symbol, o.value)))
        return fmt::format("`{}` = {} in `{}`", o.symbol, text(o.value, *w.units), step.symbol);
    told.insert(figure(step.symbol, step.result));
  }
  return {};
}

}  // namespace belay
