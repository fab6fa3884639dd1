// Working: the sums as a person can follow them. A formula is a value: symbol, words, clause, the names of its operands
// and one generic lambda. Called with a null Working it is that lambda and nothing else; called with a Working the same
// lambda runs once more on Terms, which compute and write themselves down. So no formula is written twice.
#pragma once
#include "belay/units.hpp"
#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <functional>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

namespace belay {

struct Operand {
  std::string symbol;
  Value value;
};

enum class StepKind : unsigned char { given, formula, sum, choice, lookup };

// One line of a working. `formula` and `numbers` are the same expression in symbols and in printed numbers; the numbers
// are a valid expression of GNU Units. A given has neither. A choice lists its candidates as operands; its result is
// one.
struct Step {
  StepKind kind;
  std::string heading;                // the part of the story that this step belongs to
  std::string symbol, words, source;  // source: clause, table or the place in the job
  std::string formula, numbers;
  Value result;
  std::vector<Operand> operands;
  const Units* units = nullptr;  // in which its numbers are printed, where it is told in others than the page
};

class Working {
 public:
  explicit Working(const Units& u = metric) : units(&u) {}
  const Units* units;
  std::vector<Step> steps;
  // What is told of one block of several carries its name behind each symbol ("q,garage") and heading; "": no more.
  void in_block(std::string name) { block_ = std::move(name); }
  std::string named(std::string_view symbol) const {
    return block_.empty() ? std::string(symbol) : fmt::format("{},{}", symbol, block_);
  }
  void heading(const std::string& words) { heading_ = block_.empty() ? words : fmt::format("{}, {}", words, block_); }
  const std::string& heading() const { return heading_; }
  // True the first time a thing is named: lets a stage tell an upstream result once, however often it is used.
  bool first(const std::string& thing) { return told_.insert(named(thing)).second; }
  void add(Step s) {
    s.heading = heading_;
    s.units = units;
    steps.push_back(std::move(s));
  }
  // The figure `from` goes on under another name: a sum of one row or a choice of one is no step. The step that told it
  // takes the new symbol, and the new words before its own. False, and nothing changed, when no step told it or when
  // one has used it already.
  bool goes_on_as(const std::string& from, Value, std::string_view symbol, std::string_view words);

 private:
  std::string heading_, block_;
  std::set<std::string> told_;
};

// For its own life a working is told in the small units that go with its own. Null: nothing.
class InSmallUnits {
 public:
  explicit InSmallUnits(Working* w) : w_(w), before_(w ? w->units : nullptr) {
    if (w_) w_->units = &small_units(*before_);
  }
  ~InSmallUnits() {
    if (w_) w_->units = before_;
  }
  InSmallUnits(const InSmallUnits&) = delete;
  InSmallUnits& operator=(const InSmallUnits&) = delete;

 private:
  Working* w_;
  const Units* before_;
};
// In which a step is printed, on a page in those units.
inline const Units& units_of(const Step& s, const Units& page) { return s.units ? *s.units : page; }

// Keeps the steps that the last one rests on (by symbol and bits), in their order. What was stated or looked up is told
// once for as long as its symbol stands for it.
void keep_what_leads_to_the_end(Working&);
// The same for several ends, given by their indices in `steps`.
void keep_what_leads_to(Working&, const std::vector<std::size_t>& ends);
// The first operand that is no result of an earlier step, by symbol and bits, with the step that uses it; "" when there
// is none.
std::string orphan(const Working&);

// A quantity under the caller's own name: in the printed formula `name` stands instead of the formula's operand name.
template <class T> struct As {
  std::string name;
  T quantity;
};
template <class T> As<T> as(std::string name, const T& q) { return {std::move(name), q}; }
template <class T> const T& plain(const T& x) { return x; }
template <class T> const T& plain(const As<T>& x) { return x.quantity; }

// A Term stands in a formula where a quantity would. rank: 0 atom, 1 product, 2 sum.
template <class T> struct Term {
  T value;
  std::string symbols, numbers;
  int rank;
};
template <class T> inline constexpr bool is_term = false;
template <class T> inline constexpr bool is_term<Term<T>> = true;
template <class A, class B>
concept AnyTerm = is_term<A> || is_term<B>;

template <class T> Term<T> lift(const Term<T>& t) { return t; }
inline Term<double> lift(double d) { return {d, fmt::format("{}", d), fmt::format("{}", d), 0}; }
inline std::string bracket(const std::string& s, bool needed) { return needed ? '(' + s + ')' : s; }
inline bool negative(const std::string& s) { return !s.empty() && s.front() == '-'; }
// A "/" outside all brackets, as in "2.000 kN/m": for GNU Units what divides by it must stand in brackets.
inline bool has_slash(const std::string& s) {
  int depth = 0;
  for (const char c : s) {
    depth += c == '(' ? 1 : c == ')' ? -1 : 0;
    if (c == '/' && depth == 0) return true;
  }
  return false;
}
// A ratio of like quantities is a plain number.
template <class T> const T& settled(const T& x) { return x; }
inline double settled(const Quantity<si::dimensionless>& x) { return x.value(); }
template <class T, class A, class B>
Term<T> join(T v, const Term<A>& a, const char* op, const Term<B>& b, int rank, bool keeps_right) {
  const auto right = [&](const std::string& s) {
    return bracket(s, b.rank > rank || (keeps_right && b.rank == rank) || negative(s));
  };
  const bool by_a_rate = rank == 1 && keeps_right && b.rank == 0 && has_slash(b.numbers);
  return {v, bracket(a.symbols, a.rank > rank) + op + right(b.symbols),
          bracket(a.numbers, a.rank > rank) + op + (by_a_rate ? bracket(b.numbers, true) : right(b.numbers)), rank};
}
template <class A, class B>
requires AnyTerm<A, B>
auto operator+(const A& a, const B& b) {
  auto x = lift(a);
  auto y = lift(b);
  return join(x.value + y.value, x, " + ", y, 2, false);
}
template <class A, class B>
requires AnyTerm<A, B>
auto operator-(const A& a, const B& b) {
  auto x = lift(a);
  auto y = lift(b);
  return join(x.value - y.value, x, " - ", y, 2, true);
}
template <class A, class B>
requires AnyTerm<A, B>
auto operator*(const A& a, const B& b) {
  auto x = lift(a);
  auto y = lift(b);
  return join(settled(x.value * y.value), x, " * ", y, 1, false);
}
template <class A, class B>
requires AnyTerm<A, B>
auto operator/(const A& a, const B& b) {
  auto x = lift(a);
  auto y = lift(b);
  return join(settled(x.value / y.value), x, " / ", y, 1, true);
}
template <class T> Term<T> operator-(const Term<T>& t) {
  return {-t.value, '-' + bracket(t.symbols, t.rank > 1 || negative(t.symbols)),
          '-' + bracket(t.numbers, t.rank > 1 || negative(t.numbers)), 1};
}

// The functions that formulas may use, for quantities and for Terms alike.
template <class T> constexpr auto square(const T& x) { return x * x; }
template <class T> auto square(const Term<T>& t) {
  auto v = settled(t.value * t.value);
  return Term<decltype(v)>{v, bracket(t.symbols, t.rank > 0 || negative(t.symbols)) + "^2", '(' + t.numbers + ")^2", 0};
}
inline double power(double x, double n) { return std::pow(x, n); }
template <class A, class B>
requires AnyTerm<A, B> Term<double> power(const A& a, const B& b) {
  auto x = lift(a);
  auto y = lift(b);
  return {power(x.value, y.value),
          bracket(x.symbols, x.rank > 0 || negative(x.symbols)) + '^' +
              bracket(y.symbols, y.rank > 0 || negative(y.symbols)),
          '(' + x.numbers + ")^(" + y.numbers + ')', 0};
}
inline double cosine(Angle a) { return std::cos(a.value()); }
inline double sine(Angle a) { return std::sin(a.value()); }
inline double tangent(Angle a) { return std::tan(a.value()); }
inline Term<double> cosine(const Term<Angle>& t) {
  return {cosine(t.value), "cos(" + t.symbols + ')', "cos(" + t.numbers + ')', 0};
}
inline Term<double> sine(const Term<Angle>& t) {
  return {sine(t.value), "sin(" + t.symbols + ')', "sin(" + t.numbers + ')', 0};
}
inline Term<double> tangent(const Term<Angle>& t) {
  return {tangent(t.value), "tan(" + t.symbols + ')', "tan(" + t.numbers + ')', 0};
}
inline Angle arctangent(double x) { return Angle::from_value(std::atan(x)); }
inline Term<Angle> arctangent(const Term<double>& t) {
  return {arctangent(t.value), "atan(" + t.symbols + ')', "atan(" + t.numbers + ')', 0};
}
inline double log_ten(double x) { return std::log10(x); }
inline Term<double> log_ten(const Term<double>& t) {
  return {std::log10(t.value), "log(" + t.symbols + ')', "log(" + t.numbers + ')', 0};
}
inline double natural_log(double x) { return std::log(x); }
inline Term<double> natural_log(const Term<double>& t) {
  return {std::log(t.value), "ln(" + t.symbols + ')', "ln(" + t.numbers + ')', 0};
}
inline double exponential(double x) { return std::exp(x); }
inline Term<double> exponential(const Term<double>& t) {
  return {std::exp(t.value), "exp(" + t.symbols + ')', "exp(" + t.numbers + ')', 0};
}
inline double square_root(double x) { return std::sqrt(x); }
inline Term<double> square_root(const Term<double>& t) {
  return {std::sqrt(t.value), "sqrt(" + t.symbols + ')', "sqrt(" + t.numbers + ')', 0};
}
template <class Unit> Quantity<Unit> square_root(const decltype(Quantity<Unit>() * Quantity<Unit>())& x) {
  return Quantity<Unit>::from_value(std::sqrt(x.value()));
}
inline Force hypotenuse(Force a, Force b) {
  return Force::from_value(std::sqrt(a.value() * a.value() + b.value() * b.value()));
}
inline Term<Force> hypotenuse(const Term<Force>& a, const Term<Force>& b) {
  return {hypotenuse(a.value, b.value),
          fmt::format("sqrt({}^2 + {}^2)", bracket(a.symbols, a.rank > 0), bracket(b.symbols, b.rank > 0)),
          fmt::format("sqrt(({})^2 + ({})^2)", a.numbers, b.numbers), 0};
}

// A formula. `source` is a clause or table of the standard, or "statics". `words` say in plain words what it yields.
template <class Result, std::size_t N, class Sum> struct Formula {
  std::string_view symbol, words, source;
  std::array<std::string_view, N> names;
  Sum sum;
  template <class... T> Result operator()(Working* working, const T&... operand) const {
    static_assert(sizeof...(T) == N, "one operand for each name");
    const Result result = sum(plain(operand)...);
    if (working) [[unlikely]]
      tell(*working, symbol, words, source, result, operand...);
    return result;
  }
  // The same under another symbol and source: an edition's own clause, a numbered row.
  template <class... T>
  Result told(Working* working, std::string_view own_symbol, std::string_view own_source, const T&... operand) const {
    static_assert(sizeof...(T) == N, "one operand for each name");
    const Result result = sum(plain(operand)...);
    if (working) [[unlikely]]
      tell(*working, own_symbol, words, own_source, result, operand...);
    return result;
  }
  // The same with words of its own too: which pressure, which share.
  template <class... T>
  Result told_as(Working* working, std::string_view own_symbol, std::string_view own_words, std::string_view own_source,
                 const T&... operand) const {
    static_assert(sizeof...(T) == N, "one operand for each name");
    const Result result = sum(plain(operand)...);
    if (working) [[unlikely]]
      tell(*working, own_symbol, own_words, own_source, result, operand...);
    return result;
  }
  template <class... T>
  [[gnu::noinline, gnu::cold]] void tell(Working& w, std::string_view own_symbol, std::string_view own_words,
                                         std::string_view own_source, const Result& r, const T&... operand) const {
    const auto write = [&]<std::size_t... I>(std::index_sequence<I...>) {
      auto t = sum(term(w, names[I], operand)...);
      w.add({StepKind::formula,
             {},
             w.named(own_symbol),
             std::string(own_words),
             std::string(own_source),
             std::move(t.symbols),
             std::move(t.numbers),
             belay::value(r),
             {used(w, names[I], operand)...}});
    };
    write(std::index_sequence_for<T...>());
  }

 private:
  template <class T> static Term<T> term(const Working& w, std::string_view name, const T& q) {
    return {q, w.named(name), text(belay::value(q), *w.units), 0};
  }
  template <class T> static Term<T> term(const Working& w, std::string_view, const As<T>& a) {
    return {a.quantity, w.named(a.name), text(belay::value(a.quantity), *w.units), 0};
  }
  template <class T> static Operand used(const Working& w, std::string_view name, const T& q) {
    return {w.named(name), belay::value(q)};
  }
  template <class T> static Operand used(const Working& w, std::string_view, const As<T>& a) {
    return {w.named(a.name), belay::value(a.quantity)};
  }
};
template <class Result, std::size_t N, class Sum>
constexpr auto formula(std::string_view symbol, std::string_view words, std::string_view source,
                       const std::string_view (&names)[N], Sum sum) {
  return Formula<Result, N, Sum>{symbol, words, source, std::to_array(names), sum};
}

// Something that was stated, measured from the job or read from a table, with its place.
template <class T>
const T& given(Working* w, std::string_view symbol, std::string_view words, const T& x, std::string_view source) {
  if (w) [[unlikely]]
    w->add({StepKind::given, {}, w->named(symbol), std::string(words), std::string(source), {}, {}, value(x), {}});
  return x;
}
// A row or column found in a table, with the entry that was used.
template <class T>
const T& looked_up(Working* w, std::string_view symbol, std::string_view words, const T& x, std::string_view source) {
  if (w) [[unlikely]]
    w->add({StepKind::lookup, {}, w->named(symbol), std::string(words), std::string(source), {}, {}, value(x), {}});
  return x;
}
// Adds up named rows in their order. One row alone goes on under the sum's symbol, where it can.
template <class T>
T total(Working* w, std::string_view symbol, std::string_view words, std::string_view source,
        const std::vector<As<T>>& rows) {
  T sum = T();
  for (const auto& r : rows) sum += r.quantity;
  if (w && !(rows.size() == 1 && w->goes_on_as(rows.front().name, value(sum), symbol, words))) [[unlikely]] {
    Step s{StepKind::sum, {}, w->named(symbol), std::string(words), std::string(source), {}, {}, value(sum), {}};
    for (const auto& r : rows) {
      const std::string n = text(value(r.quantity), *w->units);
      s.formula += (s.formula.empty() ? "" : " + ") + w->named(r.name);
      s.numbers += (s.numbers.empty() ? "" : " + ") + bracket(n, n.front() == '-' && !s.numbers.empty());
      s.operands.push_back({w->named(r.name), value(r.quantity)});
    }
    if (rows.empty()) {
      s.formula = "0";
      s.numbers = text(value(sum), *w->units);
      s.kind = StepKind::given;
      s.formula.clear();
      s.numbers.clear();
    }
    w->add(std::move(s));
  }
  return sum;
}
// The greatest (or least) of named candidates; ties go to the first. One alone goes on under the choice's symbol, where
// it can. Precondition: at least one.
template <class T, class Better>
T chosen(Working* w, std::string_view symbol, std::string_view words, std::string_view source,
         const std::vector<As<T>>& candidates, Better better) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < candidates.size(); ++i)
    if (better(candidates[i].quantity, candidates[best].quantity)) best = i;
  if (w && !(candidates.size() == 1 &&
             w->goes_on_as(candidates.front().name, value(candidates.front().quantity), symbol, words))) [[unlikely]] {
    Step s{StepKind::choice,
           {},
           w->named(symbol),
           std::string(words),
           std::string(source),
           w->named(candidates[best].name),
           text(value(candidates[best].quantity), *w->units),
           value(candidates[best].quantity),
           {}};
    for (const auto& c : candidates) s.operands.push_back({w->named(c.name), value(c.quantity)});
    w->add(std::move(s));
  }
  return candidates[best].quantity;
}
template <class T>
T greatest(Working* w, std::string_view symbol, std::string_view words, std::string_view source,
           const std::vector<As<T>>& c) {
  return chosen<T>(w, symbol, words, source, c, std::greater<T>());
}
template <class T>
T least(Working* w, std::string_view symbol, std::string_view words, std::string_view source,
        const std::vector<As<T>>& c) {
  return chosen<T>(w, symbol, words, source, c, std::less<T>());
}

}  // namespace belay
