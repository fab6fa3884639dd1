// Reading of quantities. Strict, so that what is read is what was meant; the messages are for the person who typed it.
#include "belay/units.hpp"
#include "units/characters.hpp"
#include "units/tables.hpp"
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <vector>

namespace belay {
namespace {

constexpr std::string_view digits = "0123456789";
bool is_digit(char c) { return digits.find(c) != std::string_view::npos; }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
std::string lower(std::string_view s) {
  std::string out(s);
  std::ranges::transform(out, out.begin(), [](char c) { return lower(c); });
  return out;
}
std::string_view trim(std::string_view s) {
  const std::size_t first = s.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return s.substr(first, s.find_last_not_of(' ') - first + 1);
}
// What a message repeats of the text: never more than a line, and nothing that a terminal would obey.
std::string shown(std::string_view s) {
  constexpr std::size_t most = 40;
  std::size_t end = std::min(s.size(), most);
  while (end > 0 && end < s.size() && (static_cast<unsigned char>(s[end]) & 0xC0U) == 0x80U) --end;  // whole letters
  return fmt::format("`{}{}`", without_controls(s.substr(0, end), '?'), end < s.size() ? "..." : "");
}
std::string with_article(Kind kind) {
  const std::string_view name = kind_name(kind);
  return fmt::format("{} {}", name.starts_with('a') ? "an" : "a", name);
}
std::string fit(Kind kind) {
  return kind == Kind::ratio ? "it is written without a unit" : "units that fit: " + units_that_fit(kind);
}
std::string example(Kind kind) {
  switch (kind) {
    case Kind::ratio: return "0.85";
    case Kind::length: return "2.7 m";
    case Kind::area: return "12.5 m2";
    case Kind::area_moment: return "3.2 m3";
    case Kind::angle: return "22.5 deg";
    case Kind::speed: return "50 m/s";
    case Kind::pressure: return "0.40 kPa";
    case Kind::density: return "1.2 kg/m3";
    case Kind::force: return "12.5 kN";
    case Kind::line_load: return "6.4 kN/m";
    case Kind::moment: return "3.5 kNm";
    case Kind::weight_density: return "24 kN/m3";
    case Kind::stiffness: return "1.2 kN/mm";
    case Kind::sheet_stiffness: return "0.8 kN/mm/m";
  }
  return {};
}

// A decimal number at the front of a text: sign, digits, perhaps a point with digits, perhaps an exponent.
struct Front {
  std::string_view number, rest;
};
std::size_t count_digits(std::string_view s, std::size_t from) {
  const std::size_t end = s.find_first_not_of(digits, from);
  return (end == std::string_view::npos ? s.size() : end) - from;
}
std::optional<Front> split(std::string_view s) {
  std::size_t i = !s.empty() && (s[0] == '-' || s[0] == '+') ? 1 : 0;
  const std::size_t whole = count_digits(s, i);
  if (whole == 0) return std::nullopt;
  i += whole;
  if (i + 1 < s.size() && s[i] == '.' && is_digit(s[i + 1])) i += 1 + count_digits(s, i + 1);
  if (i + 1 < s.size() && lower(s[i]) == 'e') {
    const std::size_t sign = s[i + 1] == '-' || s[i + 1] == '+' ? 1 : 0;
    if (const std::size_t n = count_digits(s, i + 1 + sign); n > 0) i += 1 + sign + n;
  }
  return Front{s.substr(0, i), s.substr(i)};
}
std::optional<double> read_number(std::string_view s) {
  if (s.starts_with('+')) s.remove_prefix(1);
  double x = 0.0;
  const auto [end, fault] = std::from_chars(s.data(), s.data() + s.size(), x);
  if (fault != std::errc() || end != s.data() + s.size() || !std::isfinite(x)) return std::nullopt;
  return x;
}
// The exponent as typed, without a sign: "12" of "1e-12"; empty when there is none.
std::string_view exponent(std::string_view number) {
  const std::size_t e = number.find_first_of("eE");
  return e == std::string_view::npos ? std::string_view{} : number.substr(number.find_first_of(digits, e));
}

// Letters to change, add or leave out to get from one text to the other.
std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
      corner = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, change});
    }
  }
  return row[b.size()];
}
// The right spelling nearest to a wrong one, among those that fit; nothing when none is near. Letters of the other case
// count for little, so that `KPA` leads to `kPa`.
const Spelling* nearest(std::string_view typed, Kind kind) {
  const Spelling* best = nullptr;
  std::size_t least = 4000;
  if (typed.size() > 16) return nullptr;
  const std::string small = lower(typed);
  for (const Spelling& s : spellings()) {
    if (s.kind != kind) continue;
    std::size_t d = distance(small, lower(s.text));
    // One slip in a short unit, two in a long one; a word that goes on after a unit of three letters ("degrees").
    if (s.text.size() >= 3 && small.starts_with(lower(s.text))) d = std::min<std::size_t>(d, 1);
    if (d > (typed.size() <= 3 ? 1U : 2U) || d >= std::max(typed.size(), s.text.size())) continue;
    // Of equal ones that of the same length, then that with a capital where one was typed: `GPa` is nearest to `MPa`.
    const auto capital = [](std::string_view t) { return !t.empty() && t[0] >= 'A' && t[0] <= 'Z'; };
    const std::size_t weight = 4 * (100 * d + distance(typed, s.text)) + (typed.size() == s.text.size() ? 0U : 2U) +
                               (capital(typed) == capital(s.text) ? 0U : 1U);
    if (weight < least) {
      least = weight;
      best = &s;
    }
  }
  return best;
}
const Spelling* spelled(std::string_view unit, Kind kind) {
  const auto all = spellings();
  const auto found = std::ranges::find_if(all, [&](const Spelling& s) { return s.kind == kind && s.text == unit; });
  return found == all.end() ? nullptr : &*found;
}

// Whole text, number and what stands where the unit should: what is wrong with that unit.
std::string wrong_unit(std::string_view unit, Kind kind) {
  const auto all = spellings();
  if (kind == Kind::ratio) {
    if (unit == "%") return "a percentage is not read: write 0.05 for 5 %";
    return fmt::format("a plain number has no unit, and {} follows it", shown(unit));
  }
  for (const Spelling& s : all)
    if (s.text == unit)
      return fmt::format("{} is a unit of {} and {} is wanted; {}", shown(unit), kind_name(s.kind), with_article(kind),
                         fit(kind));
  if (unit.find_first_of(digits) == 0 || (unit.front() == '-' && unit.size() > 1 && is_digit(unit[1])))
    return fmt::format("one number and one unit are read, such as \"{}\", and {} follows the number", example(kind),
                       shown(unit));
  for (const Spelling& s : all)  // a right unit with something after it
    if (s.kind == kind && unit.size() > s.text.size() + 1 && unit.starts_with(s.text) && unit[s.text.size()] == ' ')
      return fmt::format("one number and one unit are read, such as \"{}\", and {} follows `{}`{}", example(kind),
                         shown(trim(unit.substr(s.text.size()))), s.text,
                         s.text == "ft" ? "; feet with inches are written \"8 ft 6 in\"" : "");
  if (const Spelling* s = nearest(unit, kind))
    return fmt::format("{} is not a unit here; did you mean `{}`? {}", shown(unit), s->text, fit(kind));
  return fmt::format("{} is not a unit here; {}", shown(unit), fit(kind));
}
// What is wrong with a text that does not begin with a number.
std::string no_number(std::string_view s, Kind kind) {
  const std::string_view bare = !s.empty() && (s[0] == '-' || s[0] == '+') ? s.substr(1) : s;
  if (s.empty()) return fmt::format("nothing is written; {} looks like \"{}\"", with_article(kind), example(kind));
  if (s.starts_with("\xE2\x88\x92") || s.starts_with("\xE2\x80\x93"))
    return fmt::format("{} begins with a dash that is not the minus sign of the keyboard; write `-`", shown(s));
  if (bare.size() > 1 && bare[0] == '.' && is_digit(bare[1]))
    return fmt::format("write a digit before the point: {}",
                       shown(fmt::format("{}0{}", s.substr(0, s.size() - bare.size()), bare)));
  const std::string small = lower(bare);
  if (small.starts_with("nan") || small.starts_with("inf"))
    return fmt::format("{} is not a number that something in a building can have; {} looks like \"{}\"", shown(s),
                       with_article(kind), example(kind));
  return fmt::format("{} does not begin with a number; {} looks like \"{}\"", shown(s), with_article(kind),
                     example(kind));
}
// A comma after the digits: the decimal point of many languages, or the mark of thousands.
std::string comma(std::string_view whole, const Front& f) {
  const std::string_view after = f.rest.substr(1);
  const std::size_t n = count_digits(after, 0);
  const std::string point = fmt::format("{}.{}", f.number, after);
  if (n == 0) return fmt::format("{} has a comma; numbers are written with a decimal point", shown(whole));
  if (n == 3 && f.number.find('.') == std::string_view::npos)
    return fmt::format("a comma is not read in a number: {} may be {} or {}", shown(whole), shown(point),
                       shown(fmt::format("{}{}", f.number, after)));
  return fmt::format("{} has a decimal comma; write a point: {}", shown(whole), shown(point));
}

// Inches into a length, by the exact 127/5000.
Length inches(double x) { return Length::from_value(x * factors::inch.numerator / factors::inch.denominator); }

// "6 in" or "6.5 in" behind whole feet. Nothing, and no reason, when the text has not that form.
std::optional<Value> feet_then_inches(const Front& feet, std::string& why) {
  std::string_view s = trim(feet.rest);
  if (!s.starts_with("ft")) return std::nullopt;
  s = trim(s.substr(2));
  const auto f = split(s);
  if (!f || trim(f->rest) != "in" || !is_digit(s.front())) return std::nullopt;
  const auto whole = read_number(feet.number), rest = read_number(f->number);
  if (!whole || !rest || feet.number.find_first_of(".eE") != std::string_view::npos ||
      f->number.find_first_of("eE") != std::string_view::npos) {
    why = "feet that inches follow are a whole number, such as \"8 ft 6 in\"";
    return std::nullopt;
  }
  if (*rest >= 12.0) {
    why = fmt::format("{} inches are a foot or more; write the feet with the feet", shown(f->number));
    return std::nullopt;
  }
  const double all = std::abs(*whole) * 12.0 + *rest;
  return value(inches(feet.number.starts_with('-') ? -all : all));
}

}  // namespace

std::optional<Value> parse_quantity(std::string_view s, Kind kind, std::string& why) {
  s = trim(s);
  const auto fail = [&why](std::string reason) {
    why = std::move(reason);
    return std::nullopt;
  };
  const auto f = split(s);
  if (!f) return fail(no_number(s, kind));
  if (f->rest.starts_with(',')) return fail(comma(s, *f));
  if (f->rest.starts_with('.'))
    return fail(f->rest.size() == 1 || !is_digit(f->rest[1])
                    ? fmt::format("write a digit after the point, or no point: {}", shown(f->number))
                    : fmt::format("{} has more than one decimal point", shown(s)));
  if (exponent(f->number).size() > 1)
    return fail(fmt::format("the exponent of `{}` is out of reach: at most 9, one digit", f->number.substr(0, 40)));
  const auto x = read_number(f->number);
  if (!x) return fail(fmt::format("{} is not a number that can be read", shown(f->number)));

  const std::string_view unit = trim(f->rest);
  if (kind == Kind::ratio) {
    if (!unit.empty()) return fail(wrong_unit(unit, kind));
    return value(*x);
  }
  if (unit.empty())
    return fail(fmt::format("{} has no unit; {} needs one: {}", shown(s), with_article(kind), units_that_fit(kind)));
  if (const Spelling* u = spelled(unit, kind)) {
    const double si = *x * u->numerator / u->denominator;
    if (!std::isfinite(si)) return fail(fmt::format("{} is out of reach", shown(s)));
    return Value{si, kind};
  }
  if (kind == Kind::length) {
    std::string reason;
    if (auto both = feet_then_inches(*f, reason)) return both;
    if (!reason.empty()) return fail(std::move(reason));
  }
  return fail(wrong_unit(unit, kind));
}

std::optional<Length> parse_feet_inches(std::string_view s, std::string& why) {
  s = trim(s);
  constexpr std::string_view form = "feet and inches are written \"12-6\", \"12-6.5\" or \"12-6 1/2\"";
  const auto fail = [&](std::string_view reason) {
    why = fmt::format("{} {}; {}", shown(s), reason, form);
    return std::nullopt;
  };
  constexpr std::size_t most_digits = 6;
  const std::size_t feet_digits = count_digits(s, 0);
  if (feet_digits == 0) return fail("does not begin with feet");
  if (feet_digits > most_digits) return fail("has too many feet");
  const std::string_view feet = s.substr(0, feet_digits);
  if (feet_digits == s.size()) return fail(fmt::format("has no inches, which are never left out (`{}-0`)", s));
  if (s[feet_digits] == ',') return fail("has a comma");
  if (s[feet_digits] != '-') return fail("has no `-` between feet and inches");
  const std::string_view rest = s.substr(feet_digits + 1);
  const auto f = split(rest);
  if (!f || !is_digit(rest.front())) return fail("has no inches after the `-`");
  if (f->number.find_first_of("eE") != std::string_view::npos) return fail("has an exponent");
  if (f->rest.starts_with(',')) return fail("has a comma where inches have a decimal point");
  const auto whole_feet = read_number(feet);
  auto in = read_number(f->number);
  if (!whole_feet || !in) return fail("cannot be read");
  if (!f->rest.empty()) {
    const std::string_view part = trim(f->rest);
    const std::size_t n = count_digits(part, 0);
    const std::size_t slash = n < part.size() && part[n] == '/' ? n : std::string_view::npos;
    const bool whole = f->number.find('.') == std::string_view::npos;
    if (!f->rest.starts_with(' ') || !whole || n == 0 || slash == std::string_view::npos || n > 2)
      return fail(fmt::format("has {} after the inches", shown(part)));
    const auto top = read_number(part.substr(0, n)), bottom = read_number(part.substr(n + 1));
    constexpr std::array parts{2.0, 4.0, 8.0, 16.0, 32.0, 64.0};  // of an inch, as on a tape
    if (!top || !bottom || !is_digit(part[n + 1]) || std::ranges::find(parts, *bottom) == parts.end())
      return fail("has a part of an inch that is not in halves, quarters, eighths, down to 64ths");
    if (*top >= *bottom) return fail("has a part of an inch that is an inch or more");
    *in += *top / *bottom;
  }
  if (*in >= 12.0) return fail("has 12 inches or more, which are a foot");
  return inches(*whole_feet * 12.0 + *in);
}

}  // namespace belay
