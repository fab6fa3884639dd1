// The field table: one row for each key that may be written, with what the reader and the help in its messages need.
// The rows stand beside the structs that they fill (job_fields.cpp, fixings_fields.cpp); the walker is one plain
// function.
#pragma once
#include "belay/units.hpp"
#include "files/document.hpp"
#include "files/toml.hpp"
#include "job/raw.hpp"
#include <array>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace belay {

// What the walk through one file carries along.
struct Reading {
  const Document& document;
  raw::Drawing drawing;
  std::vector<Problem>& problems;
  std::vector<std::string> unread;  // paths that were missing, unknown or not readable
  std::string path;                 // of what is being read
  std::string_view key;             // its last step
  toml::source_region key_at;       // where that key stands
  void problem(const toml::source_region& at, std::string code, std::string message, std::string help = {}) {
    problems.push_back(document.problem(at, std::move(code), std::move(message), std::move(help)));
  }
};

// Limits that hold however the value is written.
enum class Bound : unsigned char { any, positive, not_negative };
struct Field {
  std::string_view key, doc;  // doc: one sentence, no full stop
  std::string_view takes;     // "a length", "text", "a table"...
  bool required;
  Bound bound;
  // What is believed: a length beyond it must be written with its unit, anything else beyond it is an error. firm: a
  // length too, since its unit is written as a rule (a thickness, a figure of a sheet).
  bool limited, firm;
  Value least, greatest;
  std::span<const std::string_view> words;  // the only words that may stand here; none: any text
  std::span<const Field> (*inside)();       // the rows of a table; null: no table
  // Converts and stores. False: it could not, and has said why.
  bool (*read)(void* object, const toml::node&, Reading&, const Field&);
  // A required key that another one stands for, and one that is required only beside another.
  std::string_view unless = {}, beside = {};

  constexpr Field needed_unless(std::string_view other) const {
    Field f = needed();
    f.unless = other;
    return f;
  }
  constexpr Field needed_beside(std::string_view other) const {
    Field f = needed();
    f.beside = other;
    return f;
  }
  constexpr Field needed() const {
    Field f = *this;
    f.required = true;
    return f;
  }
  constexpr Field may_lack() const {
    Field f = *this;
    f.required = false;
    return f;
  }
  constexpr Field within(Bound b) const {
    Field f = *this;
    f.bound = b;
    return f;
  }
  constexpr Field believed(Value from, Value to) const {
    Field f = *this;
    f.limited = true;
    f.least = from;
    f.greatest = to;
    return f;
  }
  constexpr Field firmly(Value from, Value to) const {
    Field f = believed(from, to);
    f.firm = true;
    return f;
  }
  constexpr Field one_of(std::span<const std::string_view> w) const {
    Field f = *this;
    f.words = w;
    return f;
  }
};

// The rows of a struct: specialised beside its table.
template <class T> struct Rows;  // static std::span<const Field> list()
// How one kind of leaf is read: specialised once per kind.
template <class T> struct Codec;

template <class M> struct member_of;
template <class C, class T> struct member_of<T C::*> {
  using object = C;
  using type = T;
};
template <class T> inline constexpr bool may_be_absent = false;
template <class T> inline constexpr bool may_be_absent<std::optional<T>> = true;
template <class K, class T> inline constexpr bool may_be_absent<std::map<K, T>> = true;
template <class T> inline constexpr bool may_be_absent<std::vector<T>> = true;

template <auto First, auto... Rest> constexpr auto& member(typename member_of<decltype(First)>::object& object) {
  if constexpr (sizeof...(Rest) == 0) return object.*First;
  else return member<Rest...>(object.*First);
}
// A row for a member (or a member's member), read by a codec of its own or by that of its type.
template <class By, auto First, auto... Rest> constexpr Field field_by(std::string_view key, std::string_view doc) {
  using Object = typename member_of<decltype(First)>::object;
  using T = std::remove_reference_t<decltype(member<First, Rest...>(std::declval<Object&>()))>;
  return {key,
          doc,
          By::takes,
          !may_be_absent<T>,
          Bound::any,
          false,
          false,
          {0, Kind::ratio},
          {0, Kind::ratio},
          {},
          By::inside,
          [](void* o, const toml::node& n, Reading& r, const Field& f) {
            return By::read(member<First, Rest...>(*static_cast<Object*>(o)), n, r, f);
          }};
}
template <auto First, auto... Rest> constexpr Field field(std::string_view key, std::string_view doc) {
  using Object = typename member_of<decltype(First)>::object;
  using T = std::remove_reference_t<decltype(member<First, Rest...>(std::declval<Object&>()))>;
  return field_by<Codec<T>, First, Rest...>(key, doc);
}
// A key that the interface has, but that cannot be worked out yet: an error, never ignored.
constexpr Field not_yet(std::string_view key, std::string_view doc) {
  return {key,
          doc,
          "nothing yet",
          false,
          Bound::any,
          false,
          false,
          {0, Kind::ratio},
          {0, Kind::ratio},
          {},
          nullptr,
          [](void*, const toml::node&, Reading& r, const Field& f) {
            r.problem(r.key_at, "not-yet",
                      std::string("`").append(f.key).append("` cannot be worked out yet: ").append(f.doc));
            return false;
          }};
}

// Reads a table by its rows. Keys that no row has go to `other` (true: it took the key); else they are unknown. A
// missing key and an unknown one that is nearly the same are said once. False: it is no table.
using Other = bool (*)(void* object, std::string_view key, const toml::node&, Reading&);
bool read_rows(void* object, std::span<const Field>, const toml::node&, Reading&, Other other = nullptr);

// --- leaves, not templates -------------------------------------------------------------------------------------------
bool read_text(std::string& to, const toml::node&, Reading&, const Field&);
bool read_flag(bool& to, const toml::node&, Reading&, const Field&);
bool read_whole(int& to, const toml::node&, Reading&, const Field&);
bool read_ratio(double& to, const toml::node&, Reading&, const Field&);
std::optional<Value> read_value(Kind, const toml::node&, Reading&, const Field&);
bool wrong_type(const toml::node&, Reading&, const Field&, std::string help = {});  // says so; false
// Steps into a key or a place of a list for the time of one reading; what fails there is noted in `unread`.
template <class Read> bool step_into(Reading& r, std::string path, Read read) {
  const std::size_t problems = r.problems.size(), unread = r.unread.size();
  path.swap(r.path);
  const bool good = read();
  if ((!good || r.problems.size() > problems) && r.unread.size() == unread) r.unread.push_back(r.path);
  path.swap(r.path);
  return good;
}
std::string path_under(const Reading&, std::string_view key);
std::string path_under(const Reading&, std::size_t index);

template <> struct Codec<std::string> {
  static constexpr std::string_view takes = "text";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(std::string& to, const toml::node& n, Reading& r, const Field& f) { return read_text(to, n, r, f); }
};
template <> struct Codec<bool> {
  static constexpr std::string_view takes = "true or false";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(bool& to, const toml::node& n, Reading& r, const Field& f) { return read_flag(to, n, r, f); }
};
template <> struct Codec<int> {
  static constexpr std::string_view takes = "a whole number";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(int& to, const toml::node& n, Reading& r, const Field& f) { return read_whole(to, n, r, f); }
};
template <> struct Codec<double> {
  static constexpr std::string_view takes = "a number";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(double& to, const toml::node& n, Reading& r, const Field& f) { return read_ratio(to, n, r, f); }
};
constexpr std::string_view takes_a(Kind k) {
  switch (k) {
    case Kind::length: return "a length";
    case Kind::angle: return "an angle";
    case Kind::speed: return "a speed";
    case Kind::pressure: return "a pressure";
    case Kind::force: return "a force";
    case Kind::line_load: return "a force per length";
    case Kind::area: return "an area";
    case Kind::area_moment: return "a moment of an area";
    case Kind::density: return "a density";
    case Kind::moment: return "a moment";
    case Kind::weight_density: return "a weight of a volume";
    case Kind::stiffness: return "a stiffness";
    case Kind::sheet_stiffness: return "a stiffness for each length";
    case Kind::ratio: return "a number";
  }
  return "a quantity";
}
template <class Unit> struct Codec<Quantity<Unit>> {
  static constexpr Kind kind = kind_of<Quantity<Unit>>::value;
  static constexpr std::string_view takes = takes_a(kind);
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(Quantity<Unit>& to, const toml::node& n, Reading& r, const Field& f) {
    const std::optional<Value> v = read_value(kind, n, r, f);
    if (v) to = quantity<Quantity<Unit>>(*v);
    return v.has_value();
  }
};
template <class T> struct Codec<std::optional<T>> {
  static constexpr std::string_view takes = Codec<T>::takes;
  static constexpr std::span<const Field> (*inside)() = Codec<T>::inside;
  static bool read(std::optional<T>& to, const toml::node& n, Reading& r, const Field& f) {
    T value{};
    const bool good = Codec<T>::read(value, n, r, f);
    if (good) to = std::move(value);
    return good;
  }
};
// A struct with rows: a table.
template <class T>
requires requires { Rows<T>::list(); }
struct Codec<T> {
  static constexpr std::string_view takes = "a table";
  static constexpr std::span<const Field> (*inside)() = &Rows<T>::list;
  static bool read(T& to, const toml::node& n, Reading& r, const Field&) {
    return read_rows(&to, Rows<T>::list(), n, r);
  }
};
// A table whose keys are names.
template <class T> struct Codec<std::map<std::string, T>> {
  static constexpr std::string_view takes = "a table";
  static constexpr std::span<const Field> (*inside)() = Codec<T>::inside;
  static bool read(std::map<std::string, T>& to, const toml::node& n, Reading& r, const Field& f) {
    const toml::table* table = n.as_table();
    if (table == nullptr) return wrong_type(n, r, f);
    for (const auto& entry : *table) {
      r.key = entry.first.str();
      r.key_at = entry.first.source();
      T value{};
      const std::string name(entry.first.str());
      if (step_into(r, path_under(r, name), [&] { return Codec<T>::read(value, entry.second, r, f); }))
        to.emplace(name, std::move(value));
    }
    return true;
  }
};
// A list; what cannot be read in it keeps its place when the element is optional, and is left out otherwise.
template <class T> struct Codec<std::vector<T>> {
  static constexpr std::string_view takes = "a list";
  static constexpr std::span<const Field> (*inside)() = Codec<T>::inside;
  static bool read(std::vector<T>& to, const toml::node& n, Reading& r, const Field& f) {
    const toml::array* list = n.as_array();
    if (list == nullptr && n.is_table() && Codec<T>::inside != nullptr) {  // one table for a list of one
      T value{};
      const bool good = step_into(r, path_under(r, std::size_t{0}), [&] { return Codec<T>::read(value, n, r, f); });
      to.push_back(std::move(value));
      return good;
    }
    if (list == nullptr) return wrong_type(n, r, f);
    for (std::size_t i = 0; i < list->size(); ++i) {
      T value{};
      step_into(r, path_under(r, i), [&] { return Codec<T>::read(value, *list->get(i), r, f); });
      to.push_back(std::move(value));
    }
    return true;
  }
};
template <class T> struct Codec<std::array<T, 2>> {
  static constexpr std::string_view takes = "a list of two";
  static constexpr std::span<const Field> (*inside)() = nullptr;
  static bool read(std::array<T, 2>& to, const toml::node& n, Reading& r, const Field& f) {
    const toml::array* list = n.as_array();
    if (list == nullptr) return wrong_type(n, r, f, std::string("[a, b]: ").append(f.doc));
    if (list->size() != 2) {
      r.problem(n.source(), "wrong-type",
                std::string("`")
                    .append(r.key)
                    .append("` takes a list of two, and ")
                    .append(std::to_string(list->size()))
                    .append(list->size() == 1 ? " stands in it" : " stand in it"),
                std::string("[a, b]: ").append(f.doc));
      return false;
    }
    for (std::size_t i = 0; i < 2; ++i)
      step_into(r, path_under(r, i), [&] { return Codec<T>::read(to[i], *list->get(i), r, f); });
    return true;
  }
};

}  // namespace belay
