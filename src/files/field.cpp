#include "files/field.hpp"
#include "job/nearest.hpp"
#include "job/path.hpp"
#include "job/run.hpp"
#include "units/characters.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace belay {
namespace {

constexpr Length longest = 1000.0 * metre;  // nothing of a house is longer

std::string_view what_it_is(const toml::node& n) {
  switch (n.type()) {
    case toml::node_type::table: return "a table";
    case toml::node_type::array: return "a list";
    case toml::node_type::string: return "text";
    case toml::node_type::integer: return "a whole number";
    case toml::node_type::floating_point: return "a decimal";
    case toml::node_type::boolean: return "true or false";
    case toml::node_type::date:
    case toml::node_type::time:
    case toml::node_type::date_time: return "a date";
    default: return "nothing";
  }
}

// An example of each kind as it is written, for help.
std::string_view example(Kind k) {
  switch (k) {
    case Kind::length: return "2700 mm";
    case Kind::angle: return "22.5 deg";
    case Kind::speed: return "50 m/s";
    case Kind::pressure: return "0.40 kPa";
    case Kind::force: return "6.0 kN";
    case Kind::line_load: return "6.0 kN/m";
    case Kind::density: return "1.25 kg/m^3";
    case Kind::weight_density: return "24 kN/m3";
    case Kind::stiffness: return "1.2 kN/mm";
    case Kind::sheet_stiffness: return "0.8 kN/mm/m";
    default: return "1.0";
  }
}

std::string said(Value v, const Reading& r) {
  if (v.kind == Kind::length && r.drawing != raw::Drawing::none) return as_drawn(quantity<Length>(v), r.drawing);
  if (v.kind == Kind::pressure && v.si >= 1e6)  // of concrete
    return strength_text(quantity<Pressure>(v), r.drawing == raw::Drawing::feet ? us : metric);
  return text(v, metric);
}

// Limits of a value that was read. `carries_unit`: the file writes the unit, which widens what is believed of a length.
bool within_limits(Value v, bool carries_unit, const toml::node& n, Reading& r, const Field& f) {
  const auto refuse = [&](std::string code, std::string message, std::string help = {}) {
    r.problem(n.source(), std::move(code), std::move(message), std::move(help));
    return false;
  };
  const Value none{0.0, v.kind};
  if (f.bound != Bound::any && v.si < none.si)
    return refuse("negative", fmt::format("`{}` cannot be negative: {}", r.key, f.doc));
  if (f.bound == Bound::positive && v.si == none.si)
    return refuse("not-positive", fmt::format("`{}` must be more than 0: {}", r.key, f.doc));
  // A hill's slopes are longer than anything of a house.
  const double most = f.limited ? std::max(value(longest).si, f.greatest.si) : value(longest).si;
  if (v.kind == Kind::length && std::abs(v.si) > most)
    return refuse("unbelievable-length", fmt::format("`{}` is more than {} km", r.key, most / 1000.0));
  if (!f.limited || (v.si >= f.least.si && v.si <= f.greatest.si)) return true;
  const std::string limits = fmt::format("from {} to {}", said(f.least, r), said(f.greatest, r));
  if (v.kind == Kind::length && !f.firm) {
    if (carries_unit) return true;
    return refuse("unbelievable-length",
                  fmt::format("`{}` of {} is hard to believe: {} is usual", r.key, said(v, r), limits),
                  fmt::format("if it is meant, write it with its unit: \"{} mm\"", place(quantity<Length>(v), metric)));
  }
  if (v.kind == Kind::ratio) return refuse("out-of-range", fmt::format("`{}` goes {}: {}", r.key, limits, f.doc));
  return refuse("unbelievable-value", fmt::format("`{}` of {} is not believed: {}", r.key, said(v, r), limits));
}

}  // namespace

std::string path_under(const Reading& r, std::string_view key) { return under(r.path, key); }
std::string path_under(const Reading& r, std::size_t index) { return under(r.path, index); }

bool wrong_type(const toml::node& n, Reading& r, const Field& f, std::string help) {
  r.problem(n.source(), "wrong-type", fmt::format("`{}` takes {}, not {}", r.key, f.takes, what_it_is(n)),
            help.empty() ? std::string(f.doc) : std::move(help));
  return false;
}

bool read_text(std::string& to, const toml::node& n, Reading& r, const Field& f) {
  const auto* s = n.as_string();
  if (s == nullptr) return wrong_type(n, r, f);
  const std::string& text = s->get();
  if (std::all_of(text.begin(), text.end(), [](char c) { return c == ' '; })) {
    r.problem(n.source(), "empty-text", fmt::format("`{}` is empty: {}", r.key, f.doc));
    return false;
  }
  if (holds_control(text)) {
    r.problem(n.source(), "control-character",
              fmt::format("`{}` holds a line end, a control character or one that cannot be seen", r.key));
    return false;
  }
  if (!f.words.empty() && std::find(f.words.begin(), f.words.end(), text) == f.words.end()) {
    const std::string_view near = nearest(text, f.words);
    r.problem(n.source(), "unknown-word", fmt::format("`{}` is {}, not `{}`", r.key, listed(f.words), text),
              near.empty() ? std::string(f.doc) : fmt::format("did you mean `{}`?", near));
    return false;
  }
  to = text;
  return true;
}

bool read_flag(bool& to, const toml::node& n, Reading& r, const Field& f) {
  const auto* b = n.as_boolean();
  if (b == nullptr) return wrong_type(n, r, f);
  to = b->get();
  return true;
}

bool read_whole(int& to, const toml::node& n, Reading& r, const Field& f) {
  const auto* i = n.as_integer();
  if (i == nullptr) return wrong_type(n, r, f);
  const std::int64_t x = i->get();
  const auto least = static_cast<std::int64_t>(f.least.si), greatest = static_cast<std::int64_t>(f.greatest.si);
  if (x < least || x > greatest) {
    r.problem(n.source(), "out-of-range", fmt::format("`{}` goes from {} to {}: {}", r.key, least, greatest, f.doc));
    return false;
  }
  to = static_cast<int>(x);
  return true;
}

bool read_ratio(double& to, const toml::node& n, Reading& r, const Field& f) {
  if (const auto* i = n.as_integer()) to = static_cast<double>(i->get());
  else if (const auto* d = n.as_floating_point()) to = d->get();
  else return wrong_type(n, r, f);
  if (!std::isfinite(to)) {
    r.problem(n.source(), "not-a-number", fmt::format("`{}` is no number that can be reckoned with", r.key));
    return false;
  }
  return within_limits(value(to), false, n, r, f);
}

std::optional<Value> read_value(Kind kind, const toml::node& n, Reading& r, const Field& f) {
  const auto refuse = [&](std::string code, std::string message, std::string help) {
    r.problem(n.source(), std::move(code), std::move(message), std::move(help));
    return std::nullopt;
  };
  const bool length = kind == Kind::length;
  std::optional<Value> out;
  bool carries_unit = false;
  if (const auto* s = n.as_string()) {
    const std::string& text = s->get();
    std::string why;
    const bool feet = length && r.drawing == raw::Drawing::feet && !text.empty() && text[0] >= '0' && text[0] <= '9' &&
                      text.find('-') != std::string::npos;
    if (feet) {
      if (const auto l = parse_feet_inches(text, why)) out = value(*l);
    } else {
      out = parse_quantity(text, kind, why);
      carries_unit = true;
    }
    if (!out && length && r.drawing == raw::Drawing::mm && !text.empty() &&
        text.find_first_not_of("0123456789") == std::string::npos)
      return refuse("quoted-number", fmt::format("`{}`: a bare length stands without quotes", r.key), text);
    if (!out) {
      for (std::size_t k = 0; k < kinds; ++k) {
        const auto other = static_cast<Kind>(k);
        std::string unused;
        if (other == kind || other == Kind::ratio || !parse_quantity(text, other, unused)) continue;
        return refuse("wrong-unit",
                      fmt::format("`{}` takes {}; \"{}\" is {}", r.key, takes_a(kind), text, takes_a(other)),
                      fmt::format("units that fit: {}", units_that_fit(kind)));
      }
      const bool has_example = f.doc.find("such as") != std::string_view::npos;
      return refuse("not-a-quantity", why,
                    has_example ? std::string(f.doc) : fmt::format("{}, such as \"{}\"", f.doc, example(kind)));
    }
  } else if (n.is_number()) {
    const auto* d = n.as_floating_point();
    if (d != nullptr && !std::isfinite(d->get()))
      return refuse("not-a-number", fmt::format("`{}` is no number that can be reckoned with", r.key),
                    std::string(f.doc));
    if (!length)
      return refuse("bare-number", fmt::format("`{}` is {} and carries its unit", r.key, takes_a(kind)),
                    fmt::format("text such as \"{}\"", example(kind)));
    if (r.drawing == raw::Drawing::none)
      return refuse(
          "bare-number", fmt::format("`{}` has no unit", r.key),
          fmt::format("text such as \"{}\"; or drawing = \"mm\" under [job] for bare millimetres", example(kind)));
    if (r.drawing == raw::Drawing::feet)
      return refuse("bare-number",
                    fmt::format("`{}` has no unit: a drawing in feet and inches has no bare numbers", r.key),
                    "text such as \"12-6\" or \"12 ft 6 in\"");
    std::string code, why;
    if (d != nullptr) {
      // The words are the same as in a run: "drawings in mm have whole numbers; 2.7 m is 2700".
      read_length(fmt::format("{:.10g}", std::abs(d->get())).find_first_of(".e") == std::string::npos
                      ? fmt::format("{:.1f}", std::abs(d->get()))
                      : fmt::format("{:.10g}", std::abs(d->get())),
                  r.drawing, code, why);
      return refuse("decimal-length",
                    why.empty() || code != "decimal-length" ? std::string("drawings in mm have whole numbers") : why,
                    std::string(f.doc));
    }
    const std::int64_t mm = n.as_integer()->get();
    if (mm > 1000000 || mm < -1000000)
      return refuse("unbelievable-length", fmt::format("`{}` is more than 1 km", r.key), std::string(f.doc));
    out = value(metre * static_cast<double>(mm) / 1000.0);
  } else {
    wrong_type(n, r, f);
    return std::nullopt;
  }
  if (!within_limits(*out, carries_unit, n, r, f)) return std::nullopt;
  return out;
}

bool read_rows(void* object, std::span<const Field> rows, const toml::node& node, Reading& r, Other other) {
  const toml::table* table = node.as_table();
  if (table == nullptr) {
    r.problem(node.source(), "wrong-type", fmt::format("`{}` takes a table, not {}", r.key, what_it_is(node)));
    return false;
  }
  const std::string_view own_key = r.key;
  std::vector<const toml::key*> unknown;
  for (const auto& entry : *table) {
    const toml::key& key = entry.first;
    const toml::node& value = entry.second;
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const Field& f) { return f.key == key.str(); });
    r.key = key.str();
    r.key_at = key.source();
    if (row != rows.end()) {
      step_into(r, under(r.path, key.str()), [&] { return row->read(object, value, r, *row); });
    } else {
      bool taken = false;
      if (other != nullptr)
        step_into(r, under(r.path, key.str()), [&] { return (taken = other(object, key.str(), value, r)) || true; });
      if (!taken) unknown.push_back(&key);
    }
  }
  r.key = own_key;
  std::vector<const Field*> missing;
  for (const Field& f : rows) {
    const bool wanted = f.required && (f.unless.empty() || !table->contains(f.unless)) &&
                        (f.beside.empty() || table->contains(f.beside));
    if (wanted && !table->contains(f.key)) missing.push_back(&f);
  }
  for (const toml::key* key : unknown) {
    r.unread.push_back(under(r.path, key->str()));
    std::vector<std::string_view> missing_words, words;
    for (const Field* f : missing) missing_words.push_back(f->key);
    for (const Field& f : rows)
      if (!table->contains(f.key)) words.push_back(f.key);
    if (const std::string_view meant = nearest(key->str(), missing_words); !meant.empty()) {
      const auto f = std::find_if(missing.begin(), missing.end(), [&](const Field* m) { return m->key == meant; });
      r.unread.push_back(under(r.path, meant));
      r.problem(key->source(), "unknown-key", fmt::format("unknown key `{}`, and `{}` is missing", key->str(), meant),
                fmt::format("did you mean `{}` ({})?", meant, (*f)->doc));
      missing.erase(f);
      continue;
    }
    std::string help;
    if (const std::string_view near = nearest(key->str(), words); !near.empty()) {
      const auto f = std::find_if(rows.begin(), rows.end(), [&](const Field& row) { return row.key == near; });
      help = fmt::format("did you mean `{}` ({})?", near, f->doc);
    } else {
      std::vector<std::string_view> all;
      for (const Field& f : rows) all.push_back(f.key);
      help = fmt::format("keys here: {}", listed(all));
    }
    r.problem(key->source(), "unknown-key", fmt::format("unknown key `{}`", key->str()), std::move(help));
  }
  for (const Field* f : missing) {
    r.unread.push_back(under(r.path, f->key));
    const Spot at = r.path.empty() ? Spot{1, 1, 1} : r.document.spot(node.source());
    r.problems.push_back(r.document.problem(at, "missing-key", fmt::format("`{}` is missing: {}", f->key, f->doc),
                                            fmt::format("it takes {}", f->takes)));
  }
  return true;
}

}  // namespace belay
