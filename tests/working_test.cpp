// Workings: formulas that tell themselves, checked against GNU Units from what they print; keeping what leads to the
// end; orphans. The formulas here are samples for the mechanism; those of the program are checked where they stand.
#include "belay/working.hpp"
#include "recompute.hpp"
#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace belay;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

constexpr auto gust_pressure = formula<Pressure>("q", "gust pressure", "statics", {"rho", "V"},
                                                 [](auto rho, auto V) { return 0.5 * rho * square(V); });
constexpr auto net = formula<Pressure>("p", "net pressure", "sample", {"q", "C_pe", "C_pi"},
                                       [](auto q, auto Ce, auto Ci) { return q * (Ce - Ci); });
constexpr auto end_force = formula<Force>("R_A", "end force", "moments about B", {"w", "L", "o"},
                                          [](auto w, auto L, auto o) { return w * square(L + o) / (2.0 * L); });
constexpr auto run =
    formula<Length>("l", "length of brace", "sample", {"F", "r"}, [](auto F, auto r) { return F / r; });
constexpr auto height_factor = formula<double>("K_z", "height", "sample", {"z", "z_g", "alpha"},
                                               [](auto z, auto zg, auto a) { return 2.01 * power(z / zg, 2.0 / a); });
constexpr auto strap = formula<Force>("F", "along", "statics", {"T", "h", "b"},
                                      [](auto T, auto h, auto b) { return T * cosine(arctangent(h / b)); });
constexpr auto log_area = formula<double>("C", "by area", "sample", {"A", "A_1"},
                                          [](auto A, auto A1) { return -0.9 + 0.1 * log_ten(A / A1); });
constexpr auto slopes = formula<double>("s", "sample", "sample", {"a", "b"},
                                        [](auto a, auto b) { return sine(a) / tangent(b) - cosine(b - a); });
constexpr auto away =
    formula<Force>("N", "sample", "sample", {"F", "C"}, [](auto F, auto C) { return -F * (1.0 - C) - F * C; });
constexpr auto both =
    formula<Force>("R", "resultant", "statics", {"H", "V"}, [](auto H, auto V) { return hypotenuse(H, V); });
constexpr auto root = formula<double>("k", "sample", "sample", {"F", "R"},
                                      [](auto F, auto R) { return square_root(F / R) + square(F / R); });
constexpr auto moment_arm = formula<Length>("z", "sample", "sample", {"M", "w", "L"},
                                            [](auto M, auto w, auto L) { return M / (w * L) - L / (w / w); });

Force kN(double x) { return Force::from_value(1000.0 * x); }
Length m(double x) { return Length::from_value(x); }
Pressure kPa(double x) { return Pressure::from_value(1000.0 * x); }
Angle degrees(double x) { return Angle::from_value(x * 3.14159265358979323846 / 180.0); }

// One of everything that a formula may be made of, with numbers of either sign.
Working samples(const Units& u) {
  Working w(u);
  for (const double sign : {1.0, -1.0}) {
    const Pressure q = gust_pressure(&w, Density::from_value(1.2), Speed::from_value(sign * 50.123));
    const Pressure p = net(&w, q, sign * -0.99, as("C_pi,dominant", sign * 1.0 / 3.0));
    end_force(&w, p * m(0.9), m(7.8), m(0.45));
    run(&w, kN(sign * 5.0), kN(2.4) / m(1.0));
    strap(&w, kN(sign * 12.345), m(2.7), m(sign * 1.8));
    slopes(&w, degrees(sign * 22.5), degrees(31.7));
    away(&w, kN(sign * 3.3), sign * 0.123456);
    both(&w, kN(sign * 3.029), kN(24.751));
    moment_arm(&w, kN(7.7) * m(1.0), kN(sign * 3.1) / m(1.0), m(2.2));
    total<Force>(&w, "V", "sum", "statics", {as("V_1", kN(sign * 1.2345)), as("V_2", kN(-2.0)), as("V_3", kN(0.5))});
    greatest<Force>(&w, "V_max", "worst", "statics", {as("V_1", kN(sign)), as("V_2", kN(-2.0))});
  }
  height_factor(&w, m(5.123), m(365.76), 7.0);
  height_factor(&w, m(5.123), m(274.32), 9.51234);
  log_area(&w, Area::from_value(12.3), Area::from_value(0.93));
  root(&w, kN(3.3), kN(5.0));
  return w;
}
std::string numbers(const Working& w) { return w.steps.back().numbers; }
std::string symbols(const Working& w) { return w.steps.back().formula; }
Step step(std::string symbol, double x, std::vector<Operand> operands = {}) {
  return {StepKind::formula, {}, std::move(symbol), {}, {}, {}, {}, value(x), std::move(operands)};
}
std::string symbols_of(const Working& w) {
  std::string all;
  for (const Step& s : w.steps) all += (all.empty() ? "" : " ") + s.symbol;
  return all;
}

}  // namespace

TEST_CASE("working: a formula computes the same bits with and without a working") {
  for (int i = 1; i < 500; ++i) {
    Working w;
    const double x = 0.37 * i;
    const Length z = m(x), g = m(365.76 + x);
    REQUIRE(height_factor(&w, z, g, 9.5) == height_factor(nullptr, z, g, 9.5));
    REQUIRE(net(&w, kPa(x), -x, 0.2) == net(nullptr, kPa(x), -x, 0.2));
    REQUIRE(end_force(&w, kN(x) / m(1.0), z, g) == end_force(nullptr, kN(x) / m(1.0), z, g));
    REQUIRE(w.steps.size() == 3);
    REQUIRE(quantity<Pressure>(w.steps[1].result) == net(nullptr, kPa(x), -x, 0.2));
  }
}

TEST_CASE("working: what a step says") {
  Working w;
  w.heading("Pressure");
  net(&w, kPa(1.5), as("C_pe,R", -0.9), 0.2);
  const Step& s = w.steps.back();
  CHECK(s.heading == "Pressure");
  CHECK(s.symbol == "p");
  CHECK(s.words == "net pressure");
  CHECK(s.source == "sample");
  CHECK(s.formula == "q * (C_pe,R - C_pi)");
  CHECK(s.numbers == "1.5000 kPa * (-0.9 - 0.2)");
  CHECK(text(s.result, metric) == "-1.6500 kPa");
  REQUIRE(s.operands.size() == 3);
  CHECK(s.operands[1].symbol == "C_pe,R");
  CHECK(s.operands[1].value == value(-0.9));
  net.told(&w, "p_2", "cl. 9", kPa(1.5), -0.9, 0.2);
  CHECK(w.steps.back().symbol == "p_2");
  CHECK(w.steps.back().source == "cl. 9");
}

TEST_CASE("working: precedence and brackets") {
  const auto tell = [](auto sum, double a, double b, double c) {
    Working w;
    Formula<double, 3, decltype(sum)>{"x", "", "", {"a", "b", "c"}, sum}(&w, a, b, c);
    return symbols(w) + " | " + numbers(w);
  };
  CHECK(tell([](auto a, auto b, auto c) { return a - (b - c); }, 1, 2, 3) == "a - (b - c) | 1 - (2 - 3)");
  CHECK(tell([](auto a, auto b, auto c) { return a - b - c; }, 1, -2, 3) == "a - b - c | 1 - (-2) - 3");
  CHECK(tell([](auto a, auto b, auto c) { return a + (b - c); }, 1, 2, 3) == "a + b - c | 1 + 2 - 3");
  CHECK(tell([](auto a, auto b, auto c) { return a / (b * c); }, 1, 2, 3) == "a / (b * c) | 1 / (2 * 3)");
  CHECK(tell([](auto a, auto b, auto c) { return a / (b / c); }, 1, 2, 3) == "a / (b / c) | 1 / (2 / 3)");
  CHECK(tell([](auto a, auto b, auto c) { return a * (b / c); }, 1, 2, 3) == "a * b / c | 1 * 2 / 3");
  CHECK(tell([](auto a, auto b, auto c) { return (a + b) * c; }, 1, 2, -3) == "(a + b) * c | (1 + 2) * (-3)");
  CHECK(tell([](auto a, auto b, auto c) { return a * (b + c); }, -1, 2, 3) == "a * (b + c) | -1 * (2 + 3)");
  CHECK(tell([](auto a, auto b, auto c) { return a + b * c; }, 1, -2, 3) == "a + b * c | 1 + (-2 * 3)");
  CHECK(tell([](auto a, auto b, auto c) { return -(a + b) / c; }, 1, 2, 3) == "-(a + b) / c | -(1 + 2) / 3");
  CHECK(tell([](auto a, auto b, auto c) { return -a * b - c; }, -1, 2, 3) == "-a * b - c | -(-1) * 2 - 3");
  CHECK(tell([](auto a, auto b, auto c) { return square(a + b) * c; }, 1, 2, 3) == "(a + b)^2 * c | (1 + 2)^2 * 3");
  CHECK(tell([](auto a, auto b, auto c) { return square(a) * b * c; }, -1, 2, 3) == "a^2 * b * c | (-1)^2 * 2 * 3");
  CHECK(tell([](auto a, auto b, auto c) { return power(a / b, 1.0 / c); }, 1, 2, 3) ==
        "(a / b)^(1 / c) | (1 / 2)^(1 / 3)");
  CHECK(tell([](auto a, auto b, auto c) { return 2 * a + b - c; }, 1, 2, 3) == "2 * a + b - c | 2 * 1 + 2 - 3");
}

TEST_CASE("working: what divides by a rate stands in brackets, because a unit's slash would divide once more") {
  Working w;
  run(&w, kN(5.0), kN(2.0) / m(1.0));
  CHECK(symbols(w) == "F / r");
  CHECK(numbers(w) == "5.000 kN / (2.000 kN/m)");
  run(&w, kN(5.0), kN(-2.0) / m(1.0));
  CHECK(numbers(w) == "5.000 kN / (-2.000 kN/m)");
}

TEST_CASE("working: sums, choices and what was given") {
  Working w;
  CHECK(total<Force>(&w, "V", "sum", "statics", {as("V_1", kN(1.0)), as("V_2", kN(-2.5))}) == kN(-1.5));
  CHECK(symbols(w) == "V_1 + V_2");
  CHECK(numbers(w) == "1.000 kN + (-2.500 kN)");
  CHECK(w.steps.back().kind == StepKind::sum);
  CHECK(total<Force>(&w, "V", "sum", "statics", {}) == kN(0.0));
  CHECK(w.steps.back().kind == StepKind::given);
  CHECK(total<Force>(nullptr, "V", "sum", "statics", {as("V_1", kN(1.0))}) == kN(1.0));
  CHECK(greatest<Force>(&w, "V", "", "", {as("a", kN(1.0)), as("b", kN(2.0)), as("c", kN(2.0))}) == kN(2.0));
  CHECK(symbols(w) == "b");  // a tie goes to the first
  CHECK(w.steps.back().operands.size() == 3);
  CHECK(least<Force>(&w, "V", "", "", {as("a", kN(1.0)), as("b", kN(1.0))}) == kN(1.0));
  CHECK(symbols(w) == "a");
  given(&w, "h", "height", m(2.7), "house.toml:3");
  CHECK(w.steps.back().kind == StepKind::given);
  CHECK(w.steps.back().numbers.empty());
  looked_up(&w, "K", "factor", 0.85, "Table 1");
  CHECK(w.steps.back().kind == StepKind::lookup);
  CHECK(w.first("q"));
  CHECK_FALSE(w.first("q"));
}

TEST_CASE("working: GNU Units works every printed sample out to its printed result, metric and US") {
  REQUIRE(recompute::units_works());
  for (const Units* u : {&metric, &us}) {
    const auto outcome = recompute::recompute(samples(*u));
    INFO(u->name << ", worst share of the room " << outcome.worst);
    for (const auto& miss : outcome.misses) FAIL_CHECK(miss);
    CHECK(outcome.checked == 24);
    CHECK(outcome.worst > 0.0);
    CHECK(outcome.worst <= 1.0);
  }
}

TEST_CASE("working: the second opinion sees a wrong number, a wrong unit and what cannot be evaluated") {
  Working w;
  net(&w, kPa(1.5), -0.9, 0.2);
  const auto misses = [](Step s) {
    const std::vector<Step> one{std::move(s)};
    return recompute::recompute(one, metric).misses;
  };
  const Step good = w.steps.back();
  REQUIRE(misses(good).empty());
  Step off = good;  // two last places: more than the room that 1.5000 kPa leaves
  off.result.si = -1650.2;
  REQUIRE(misses(off).size() == 1);
  CHECK_THAT(misses(off).front(), StartsWith("p: 1.5000 kPa * (-0.9 - 0.2) = -1.6502 kPa, but GNU Units has -1.65"));
  Step unit = good;
  unit.result.kind = Kind::force;
  CHECK(misses(unit).size() == 1);
  Step slip = good;  // brackets forgotten
  slip.numbers = "1.5000 kPa * -0.9 - 0.2";
  CHECK(misses(slip).size() == 1);
  Step turned = good;  // reciprocal units are no match
  turned.numbers = "1 / (1.65 kPa)";
  CHECK(misses(turned).size() == 1);
  Step torn = good;
  torn.numbers = "1.5000 kPa * (-0.9 - 0.2";
  const std::vector<Step> mixed{good, torn, good, off, good};
  const auto outcome = recompute::recompute(mixed, metric);
  CHECK(outcome.checked == 5);
  CHECK(outcome.misses.size() == 2);
}

TEST_CASE("working: the room is what the printed digits leave open") {
  const auto room =
      recompute::rounded("2.01 * (5.123 m / 365.760 m)^(2 / 9.5123) + 0.9 * 1.2000 kg/m^3 - (3 m)^2", metric);
  REQUIRE(room.size() == 5);
  CHECK(room[0].half == 0.0005);
  CHECK(room[2].decimals == 4);
  CHECK(room[4].half == 0.5);
  CHECK(recompute::moved("2 * 5.123 m", {4, 5, 0.0005, 3}, -1.0) == "2 * (5.1225) m");
  CHECK(recompute::rounded("2 * 0.9 + 1e-05", metric).empty());
}

TEST_CASE("working: only what leads to the end is kept, in its order") {
  Working w;
  w.steps = {step("a", 1.0),
             step("b", 2.0),
             step("unused", 3.0),
             step("c", 3.0, {{"a", value(1.0)}, {"b", value(2.0)}}),
             step("side", 4.0, {{"c", value(3.0)}}),
             step("d", 5.0, {{"c", value(3.0)}})};
  keep_what_leads_to_the_end(w);
  CHECK(symbols_of(w) == "a b c d");
  CHECK(orphan(w).empty());

  // By symbol and bits: another value under the same symbol is another figure, and so is minus zero.
  w.steps = {step("a", 1.0), step("a", std::nextafter(1.0, 2.0)), step("a", 0.0), step("z", 1.0, {{"a", value(1.0)}})};
  keep_what_leads_to_the_end(w);
  REQUIRE(w.steps.size() == 2);
  CHECK(w.steps[0].result == value(1.0));

  // Told twice: the latest before its use is kept; an earlier use keeps the earlier one.
  w.steps = {step("a", 1.0), step("a", 1.0), step("z", 1.0, {{"a", value(1.0)}})};
  w.steps[1].source = "latest";
  keep_what_leads_to_the_end(w);
  REQUIRE(w.steps.size() == 2);
  CHECK(w.steps[0].source == "latest");
  w.steps = {step("a", 1.0), step("b", 2.0, {{"a", value(1.0)}}), step("a", 1.0),
             step("z", 1.0, {{"a", value(1.0)}, {"b", value(2.0)}})};
  keep_what_leads_to_the_end(w);
  CHECK(symbols_of(w) == "a b a z");

  // Of a choice all candidates are kept.
  Working c;
  given(&c, "a", "", 1.0, "");
  given(&c, "b", "", 2.0, "");
  given(&c, "n", "", 3.0, "");
  greatest<double>(&c, "x", "", "", {as("a", 1.0), as("b", 2.0)});
  keep_what_leads_to_the_end(c);
  CHECK(symbols_of(c) == "a b x");

  Working none;
  keep_what_leads_to_the_end(none);
  CHECK(none.steps.empty());
}

TEST_CASE("working: one row is no sum and one candidate no choice: the figure goes on under the new name") {
  Working w;
  given(&w, "a", "a stated thing", 1.0, "the job");
  given(&w, "b", "another", 2.0, "the job");
  CHECK(total<double>(&w, "s", "all of it", "sum", {as("a", 1.0)}) == 1.0);
  CHECK(symbols_of(w) == "s b");
  CHECK(w.steps[0].words == "all of it: a stated thing");
  CHECK(greatest<double>(&w, "S", "all of it", "sum", {as("s", 1.0)}) == 1.0);
  CHECK(symbols_of(w) == "S b");
  CHECK(w.steps[0].words == "all of it: a stated thing");  // not said twice
  CHECK(w.steps[0].kind == StepKind::given);

  // What a step has used keeps its name, and so does what was not told, or told with other bits: then the step is told.
  w.steps = {step("a", 1.0), step("z", 2.0, {{"a", value(1.0)}})};
  total<double>(&w, "s", "", "", {as("a", 1.0)});
  CHECK(symbols_of(w) == "a z s");
  CHECK(w.steps.back().kind == StepKind::sum);
  least<double>(&w, "t", "", "", {as("nowhere", 1.0)});
  CHECK(symbols_of(w) == "a z s t");
  w.steps = {step("a", -0.0)};
  CHECK_FALSE(std::signbit(total<double>(&w, "s", "", "", {as("a", -0.0)})));
  CHECK(symbols_of(w) == "a s");
}

TEST_CASE("working: what is stated is told once for as long as its symbol stands for it") {
  const auto tell = [](Working& w, const std::string& words, double x) { given(&w, "a", words, x, "the job"); };
  const auto use = [](Working& w, const std::string& symbol, double x) {
    w.steps.push_back(step(symbol, x, {{"a", value(x)}}));
  };
  Working w;
  tell(w, "length", 1.0);
  use(w, "y", 1.0);
  tell(w, "length", 1.0);
  use(w, "z", 1.0);
  keep_what_leads_to(w, {1, 3});
  CHECK(symbols_of(w) == "a y z");
  CHECK(orphan(w).empty());

  // Told again: in other words; and after another value under the same symbol.
  Working v;
  tell(v, "length", 1.0);
  use(v, "y", 1.0);
  tell(v, "length of the other", 1.0);
  use(v, "z", 1.0);
  tell(v, "length", 3.0);
  use(v, "x", 3.0);
  tell(v, "length of the other", 1.0);
  use(v, "u", 1.0);
  keep_what_leads_to(v, {1, 3, 5, 7});
  CHECK(symbols_of(v) == "a y a z a x a u");
  CHECK(orphan(v).empty());
}

TEST_CASE("working: an orphan is found by symbol, bits and order") {
  Working w;
  w.steps = {step("a", 1.0), step("z", 2.0, {{"a", value(1.0)}})};
  CHECK(orphan(w).empty());
  w.steps = {step("a", 1.0), step("z", 2.0, {{"b", value(1.0)}})};
  CHECK(orphan(w) == "`b` = 1 in `z`");
  w.steps = {step("a", 1.0), step("z", 2.0, {{"a", value(std::nextafter(1.0, 2.0))}})};
  CHECK_THAT(orphan(w), Contains("`a`"));
  w.steps = {step("z", 2.0, {{"a", value(1.0)}}), step("a", 1.0)};
  CHECK_THAT(orphan(w), Contains("`z`"));
  w.steps = {step("a", 1.0), step("z", 2.0, {{"a", value(m(1.0))}})};
  CHECK(orphan(w) == "`a` = 1.000 m in `z`");
}
