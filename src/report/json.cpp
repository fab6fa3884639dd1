#include "report/json.hpp"
#include "belay/units.hpp"
#include "report/page.hpp"
#include <cmath>
#include <fmt/format.h>
#define RAPIDJSON_HAS_STDSTRING 1
#include <rapidjson/prettywriter.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>
#include <stdexcept>

namespace belay {

namespace {
// Nine digits carry more than any input of ours and hide the last bits, which differ between C libraries.
std::string digits(double x) {
  if (!std::isfinite(x)) throw std::logic_error("a number of the result is not finite");
  return fmt::format("{:.9g}", x + 0.0 == 0.0 ? 0.0 : x);
}
std::string use_digits(double use) {
  if (!std::isfinite(use)) throw std::logic_error("a use of the result is not finite");
  constexpr double last = 1e6;
  double up = std::ceil(use * last - 1e-6) / last;  // the 1e-6 keeps 0.95 from becoming 0.950001 by its last bit
  if (use > 1.0 && !(up > 1.0)) up = 1.0 + 1.0 / last;
  return digits(up);
}

template <class Writer> class Told {
 public:
  Told(Writer& w, const Result& r) : w_(w), r_(r), u_(units_of(r.print)) {}

  void all() {
    w_.StartObject();
    text("format", "belay-result/1");
    text("tool", r_.tool);
    list("tables", std::vector<std::string>{r_.table}, [&](const std::string& t) { w_.String(t); });
    object("job", [&] {
      text("title", r_.title);
      text("drawn", r_.drawn);
      text("file", r_.file);
      text("sha256", r_.sha256);
    });
    object("site", [&] {
      text("method", r_.site.method);
      text("edition", r_.site.edition);
      text("class", r_.site.wind_class);
      text("given_by", r_.site.given_by);
      text("basis", r_.site.basis);
      quantity("gust", belay::value(r_.site.gust));
      quantity("pressure", belay::value(r_.site.q));
    });
    text("verdict", answer());
    key("exit_code");
    w_.Int(r_.exit_code());
    object("counts", [&] {
      count("pass", r_.counts.pass);
      count("fail", r_.counts.fail);
      count("not_judged", r_.counts.not_judged);
      count("by_others", r_.counts.by_others);
      count("total", r_.counts.given());
    });
    list("links", r_.links, [&](const Link& l) { link(l); });
    list("nearest", r_.nearest, [&](std::size_t i) {
      const Link& l = r_.links.at(i);
      w_.StartObject();
      text("id", l.id);
      text("kind", l.kind);
      use("use", l.use);
      w_.EndObject();
    });
    list("excess", r_.excess, [&](const std::string& e) { w_.String(e); });
    list("cautions", r_.cautions, [&](const Caution& c) {
      w_.StartObject();
      text("code", c.code);
      text("text", c.text);
      w_.EndObject();
    });
    list("not_looked_at", r_.not_looked_at, [&](const NotLookedAt& n) {
      w_.StartObject();
      text("what", n.what);
      text("why", n.why);
      text("key_to_add", n.key_to_add);
      w_.EndObject();
    });
    list("from_memory", r_.from_memory, [&](const FromMemory& f) {
      w_.StartObject();
      text("figure", f.figure);
      text("value", f.value);
      text("source", f.source);
      count("links", f.links);
      truth("checked", f.checked);
      text("who", f.who);
      w_.EndObject();
    });
    list("by_others", r_.by_others, [&](const ByOthers& b) {
      w_.StartObject();
      text("what", b.what);
      text("who", b.who);
      w_.EndObject();
    });
    text("last", last_words);
    w_.EndObject();
  }

 private:
  Writer& w_;
  const Result& r_;
  const Units& u_;

  void key(std::string_view k) { w_.Key(k.data(), static_cast<rapidjson::SizeType>(k.size())); }
  void text(std::string_view k, std::string_view s) {
    key(k);
    w_.String(s.data(), static_cast<rapidjson::SizeType>(s.size()));
  }
  void truth(std::string_view k, bool b) {
    key(k);
    w_.Bool(b);
  }
  void count(std::string_view k, std::size_t n) {
    key(k);
    w_.Uint64(n);
  }
  void figure(const std::string& s) { w_.RawValue(s.data(), s.size(), rapidjson::kNumberType); }
  void use(std::string_view k, const std::optional<Use>& x) {
    key(k);
    if (x) figure(use_digits(x->value));
    else w_.Null();
  }
  void quantity(std::string_view k, std::optional<Value> v) {
    key(k);
    if (!v) {
      w_.Null();
      return;
    }
    w_.StartObject();
    key("value");
    figure(digits(in(*v, u_)));
    text("unit", printed(v->kind, u_).symbol);
    w_.EndObject();
  }
  void place_on_wall(std::string_view k, const std::optional<Length>& x) {
    if (!x || r_.print == Print::us) {
      quantity(k, x ? std::optional<Value>(belay::value(*x)) : std::nullopt);
      return;
    }
    key(k);
    w_.StartObject();
    key("value");
    figure(place(*x, u_));
    text("unit", place_unit(u_));
    w_.EndObject();
  }
  template <class Inside> void object(std::string_view k, Inside inside) {
    key(k);
    w_.StartObject();
    inside();
    w_.EndObject();
  }
  template <class T, class One> void list(std::string_view k, const std::vector<T>& items, One one) {
    key(k);
    w_.StartArray();
    for (const T& x : items) one(x);
    w_.EndArray();
  }

  std::string_view answer() const {
    switch (r_.answer) {
      case Answer::pass: return "PASS";
      case Answer::pass_if: return "PASS IF";
      case Answer::fail: return "FAIL";
      case Answer::not_judged: return "NOT JUDGED";
    }
    return "NOT JUDGED";
  }
  static std::string_view met(Met m) { return m == Met::yes ? "yes" : m == Met::no ? "no" : "not stated"; }

  void part(const LinkPart& p) {
    w_.StartObject();
    text("part", p.part);
    quantity("demand", p.demand);
    quantity("capacity", p.capacity);
    use("use", p.use);
    text("rule", p.rule);
    list("made_of", p.made_of, [&](const MadeOf& m) {
      w_.StartObject();
      text("what", m.what);
      quantity("value", m.value);
      text("from", m.from);
      w_.EndObject();
    });
    w_.EndObject();
  }
  void link(const Link& l) {
    w_.StartObject();
    text("id", l.id);
    text("kind", l.kind);
    text("verdict", words(l.verdict));
    use("use", l.use);
    object("where", [&] {
      text("block", l.where.block);
      text("floor", l.where.floor);
      text("wall", l.where.wall);
      text("face", l.where.face);
      place_on_wall("from_start", l.where.from_start);
      text("words", l.where.words);
      list("also", l.where.also, [&](const std::string& s) { w_.String(s); });
    });
    object("fixing", [&] {
      text("name", l.fixing.name);
      text("chosen_by", l.fixing.by);
      text("at", l.fixing.at);
      text("source", l.fixing_source);
      truth("demo", l.fixing_demo);
    });
    object("case", [&] {
      text("id", l.load_case.id);
      text("wind", l.load_case.wind);
      text("inside", l.load_case.inside);
      text("combination", l.load_case.combination);
    });
    list("parts", l.parts, [&](const LinkPart& p) { part(p); });
    list("conditions", l.conditions, [&](const Condition& c) {
      w_.StartObject();
      text("name", c.name);
      text("needs", c.needs);
      text("has", c.has);
      text("met", met(c.met));
      text("key_to_add", c.key);
      w_.EndObject();
    });
    list("rests_on_memory", l.rests_on_memory, [&](const std::string& s) { w_.String(s); });
    object("why", [&] {
      text("code", l.why.code);
      text("subject", l.why.subject);
      text("words", why_words(l));
      text("to_add", words(key_to_add(l)));
    });
    w_.EndObject();
  }
};
}  // namespace

std::string json(const Result& r, bool spread) {
  rapidjson::StringBuffer out;
  if (spread) {
    rapidjson::PrettyWriter<rapidjson::StringBuffer> w(out);
    w.SetIndent(' ', 2);
    Told told(w, r);
    told.all();
  } else {
    rapidjson::Writer<rapidjson::StringBuffer> w(out);
    Told told(w, r);
    told.all();
  }
  return std::string(out.GetString(), out.GetSize()) + '\n';
}

}  // namespace belay
