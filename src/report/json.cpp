#include "report/json.hpp"
#include "belay/units.hpp"
#include "report/page.hpp"
#include "report/side_by_side.hpp"
#include <algorithm>
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

// What every object of ours is written with.
template <class Writer> class Form {
 public:
  Form(Writer& w, const Units& u) : w_(w), u_(u) {}

 protected:
  Writer& w_;
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
  void ratio(std::string_view k, double x) {
    key(k);
    figure(digits(x));
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
    if (!x || u_.name == us.name) {
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

  static std::string_view answer(Answer a) {
    switch (a) {
      case Answer::pass: return "PASS";
      case Answer::pass_if: return "PASS IF";
      case Answer::fail: return "FAIL";
      case Answer::not_judged: return "NOT JUDGED";
    }
    return "NOT JUDGED";
  }
  // of: anything that names its job.
  template <class Of> void job(const Of& of) {
    object("job", [&] {
      text("title", of.title);
      text("drawn", of.drawn);
      text("file", of.file);
      text("sha256", of.sha256);
      text("mirror", !of.mirror ? "" : *of.mirror == Mirror::left_right ? "left-right" : "front-back");
    });
  }
  void site(const SiteSaid& s) {
    text("method", s.method);
    text("edition", s.edition);
    text("class", s.wind_class);
    text("says", s.says);
    truth("typed_in", !s.typed_in.empty());
    text("given_by", s.given_by);
    text("basis", s.basis);
    gust("gust", s.gust);
    quantity("pressure", belay::value(s.q));
  }
  // Null where the method has none in hand.
  void gust(std::string_view k, std::optional<Speed> v) {
    quantity(k, v && *v > zero<Speed>() ? std::optional<Value>(belay::value(*v)) : std::nullopt);
  }
  void counts(const Counts& c, std::string_view under = "counts") {
    object(under, [&] {
      count("pass", c.pass);
      count("fail", c.fail);
      count("not_judged", c.not_judged);
      count("by_others", c.by_others);
      count("total", c.given());
    });
  }
  void from_memory(const std::vector<FromMemory>& figures) {
    list("from_memory", figures, [&](const FromMemory& f) {
      w_.StartObject();
      text("figure", f.figure);
      text("value", f.value);
      text("source", f.source);
      count("links", f.links);
      truth("checked", f.checked);
      text("who", f.who);
      w_.EndObject();
    });
  }
  void not_looked_at(const std::vector<NotLookedAt>& matters) {
    list("not_looked_at", matters, [&](const NotLookedAt& n) {
      w_.StartObject();
      text("what", n.what);
      text("why", n.why);
      text("key_to_add", n.key_to_add);
      w_.EndObject();
    });
  }
  void words_of(std::string_view k, const std::vector<std::string>& items) {
    list(k, items, [&](const std::string& s) { w_.String(s); });
  }
  void combination(const CombinationSaid& c) {
    text("name", c.name);
    ratio("dead", c.dead);
    ratio("wind", c.wind);
    text("source", c.source);
  }
};

template <class Writer> class Told : Form<Writer> {
  using F = Form<Writer>;
  using F::text, F::truth, F::count, F::use, F::quantity, F::key, F::object, F::list, F::answer, F::job, F::site,
      F::counts, F::from_memory, F::not_looked_at, F::place_on_wall;
  using F::w_;

 public:
  Told(Writer& w, const Result& r) : F(w, units_of(r.print)), r_(r) {}

  // What would make failing links hold. greatest_space: of the anchors named by `fixing`, where that is what changes.
  void remedies() {
    const Remedies& all = r_.remedies;
    list("remedies", all.each, [&](const Remedy& x) {
      w_.StartObject();
      list("links", x.links, [&](std::size_t i) { w_.String(r_.links.at(i).id); });
      list("swaps", x.swaps, [&](const Remedy::Swap& s) {
        w_.StartObject();
        text("instead_of", s.now.name);
        text("by", s.now.by);
        text("at", s.now.at);
        text("fixing", s.fixing);
        w_.EndObject();
      });
      quantity("greatest_space", x.spacing ? std::optional<Value>(belay::value(*x.spacing)) : std::nullopt);
      text("wall", x.wall);
      list("braces", x.braces, [&](const Remedy::More& b) {
        w_.StartObject();
        text("longer", b.longer);
        text("fixing", b.fixing);
        F::place_on_wall("from", b.from);
        F::place_on_wall("to", b.to);
        w_.EndObject();
      });
      if (x.deeper) {
        F::object("deeper", [&] {
          text("what", x.deeper->what);
          quantity("now", std::optional<Value>(belay::value(x.deeper->now)));
          quantity("to", std::optional<Value>(belay::value(x.deeper->to)));
        });
      }
      use("greatest_use", x.greatest_use);
      counts(x.then, "then");
      w_.EndObject();
    });
    F::words_of("no_remedy_for", all.none_for);
    list("strong_enough_but", all.strong_enough, [&](const Remedies::StrongEnough& s) {
      w_.StartObject();
      text("kind", s.kind);
      text("fixing", s.fixing);
      text("condition", s.unmet.name);
      text("needs", s.unmet.needs);
      text("has", s.unmet.has);
      w_.EndObject();
    });
    list("would_need", all.needed, [&](const Remedies::Needed& n) {
      w_.StartObject();
      text("kind", n.kind);
      list("links", n.links, [&](std::size_t i) { w_.String(r_.links.at(i).id); });
      text("like", n.now.name);
      text("by", n.now.by);
      text("at", n.now.at);
      list("holds", n.holds, [&](const Remedies::Holds& h) {
        w_.StartObject();
        text("part", h.part);
        quantity("design", std::optional(h.value));
        w_.EndObject();
      });
      use("greatest_use", n.greatest_use);
      counts(n.then, "then");
      w_.EndObject();
    });
    if (all.together) return counts(*all.together, "with_all_remedies");
    key("with_all_remedies");
    w_.Null();
  }

  void all() {
    w_.StartObject();
    text("format", "belay-result/1");
    text("tool", r_.tool);
    list("tables", std::vector<std::string>{r_.table}, [&](const std::string& t) { w_.String(t); });
    job(r_);
    blocks();
    list("tried", r_.tried, [&](const TriedChange& t) {
      w_.StartObject();
      text("key", t.key);
      text("value", t.value);
      text("before", t.before);
      text("at", t.at);
      w_.EndObject();
    });
    F::words_of("as_built", r_.as_built);
    object("site", [&] { site(r_.site); });
    text("verdict", answer(r_.answer));
    key("exit_code");
    w_.Int(r_.exit_code());
    counts(r_.counts);
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
    not_looked_at(r_.not_looked_at);
    from_memory(r_.from_memory);
    remedies();
    list("by_others", r_.by_others, [&](const ByOthers& b) {
      w_.StartObject();
      text("what", b.what);
      text("who", b.who);
      w_.EndObject();
    });
    object("roof", [&] { roof(r_.roof); });
    text("last", last_words);
    w_.EndObject();
  }

 private:
  const Result& r_;

  void point(const PlanPoint& p) {
    quantity("across", belay::value(p.across));
    quantity("up", belay::value(p.up));
    quantity("above", belay::value(p.above));
  }
  void points(std::string_view k, const std::vector<PlanPoint>& outline) {
    list(k, outline, [&](const PlanPoint& p) {
      w_.StartObject();
      point(p);
      w_.EndObject();
    });
  }
  void chosen(std::string_view k, const Chosen& c) {
    object(k, [&] {
      text("name", c.name);
      text("chosen_by", c.by);
      text("at", c.at);
    });
  }
  void member(const MemberSaid& m) {
    w_.StartObject();
    text("words", m.words);
    text("mark", m.mark);
    text("kind", m.kind);
    text("hip_end", m.hip_end);
    text("clear_of", m.clear_of);
    count("plies", static_cast<std::size_t>(std::max(0, m.plies)));
    object("from", [&] { point(m.from); });
    object("to", [&] { point(m.to); });
    list("bearings", m.bearings, [&](const BearingSaid& b) {
      w_.StartObject();
      text("words", b.words);
      text("on", b.on);
      object("at", [&] { point(b.at); });
      w_.EndObject();
    });
    chosen("bracket", m.bracket);
    chosen("onto", m.onto);
    quantity("roof_area", belay::value(m.roof));
    list("carries", m.carries, [&](const std::vector<PlanPoint>& piece) {
      w_.StartObject();
      points("outline", piece);
      w_.EndObject();
    });
    w_.EndObject();
  }
  void roof_brace(const RoofBraceSaid& b) {
    w_.StartObject();
    text("name", b.name);
    text("slope", b.slope);
    quantity("foot", belay::value(b.foot));
    quantity("head", belay::value(b.head));
    quantity("up_to", belay::value(b.level));
    quantity("length", belay::value(b.length));
    quantity("to_ridge", belay::value(b.to_ridge));
    truth("pair", b.pair);
    chosen("fixing", b.fixing);
    w_.EndObject();
  }
  // Of one block nothing is said of its own: the roof and the walls say it all.
  void blocks() {
    if (r_.blocks.empty()) return;
    list("blocks", r_.blocks, [&](const BlockSaid& b) {
      w_.StartObject();
      text("name", b.name);
      for (const auto& [name, length] : {std::pair{"left", b.left},
                                         {"front", b.front},
                                         {"across", b.across},
                                         {"up", b.up},
                                         {"level", b.level},
                                         {"height", b.height}})
        place_on_wall(name, length);
      w_.EndObject();
    });
  }
  // As it was understood, for a drawing: places in plan from the block's left front corner, heights above the bearings.
  void roof(const RoofSaid& said) {
    text("shape", said.shape);
    quantity("mean_height", belay::value(said.mean_height));
    quantity("top", belay::value(said.top));
    list("planes", said.planes, [&](const PlaneSaid& p) {
      w_.StartObject();
      text("kind", p.kind);
      text("falls", p.falls);
      quantity("slope", belay::value(p.slope));
      points("outline", p.outline);
      w_.EndObject();
    });
    list("lines", said.lines, [&](const RoofLineSaid& l) {
      w_.StartObject();
      text("kind", l.kind);
      object("from", [&] { point(l.from); });
      object("to", [&] { point(l.to); });
      w_.EndObject();
    });
    list("members", said.members, [&](const MemberSaid& m) { member(m); });
    // Only of a job that states some.
    if (!said.braces.empty()) list("braces", said.braces, [&](const RoofBraceSaid& b) { roof_brace(b); });
  }

  static std::string_view role(Role x) {
    switch (x) {
      case Role::single: return "judged";
      case Role::component: return "within another";
      case Role::combined: return "together";
      case Role::reported: return "told";
    }
    return "judged";
  }

  static std::string_view met(Met m) { return m == Met::yes ? "yes" : m == Met::no ? "no" : "not stated"; }

  void part(const LinkPart& p) {
    w_.StartObject();
    text("part", p.part);
    text("role", role(p.role));
    quantity("demand", p.demand);
    quantity("greatest_demand", p.greatest);
    quantity("capacity", p.capacity);
    use("use", p.use);
    text("rule", p.rule);
    text("gives", p.gives ? p.gives->code : std::string());
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
      text("ceiling", l.load_case.ceiling);
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

// The sites of one job, one after the other.
template <class Writer> class Sites : Form<Writer> {
  using F = Form<Writer>;
  using F::text, F::quantity, F::object, F::list, F::gust, F::words_of;
  using F::w_, F::u_;

 public:
  Sites(Writer& w, const std::vector<SiteWorkedOut>& sites)
      : F(w, units_of(sites.front().sheet.print)), sites_(sites) {}

  void all() {
    const SiteSheet& first = sites_.front().sheet;
    w_.StartObject();
    text("format", "belay-site/1");
    text("tool", first.tool);
    F::job(first);
    list("sites", sites_, [&](const SiteWorkedOut& s) { one(s); });
    text("last", last_words);
    w_.EndObject();
  }

 private:
  const std::vector<SiteWorkedOut>& sites_;

  void one(const SiteWorkedOut& x) {
    const SiteSheet& s = x.sheet;
    w_.StartObject();
    text("name", s.name);
    text("table", s.table);
    object("site", [&] { F::site(s.site); });
    gust("service_gust", s.service_gust);
    list("faces", std::vector(s.faces.begin(), s.faces.end()), [&](const FaceSaid& f) {
      w_.StartObject();
      text("face", words(f.side));
      gust("gust", f.gust);
      quantity("pressure", belay::value(f.q));
      text("from", f.from);
      gust("worked_out", f.worked_out);
      w_.EndObject();
    });
    list("directions", s.directions, [&](const DirectionSaid& d) {
      w_.StartObject();
      text("name", d.name);
      list("factors", d.factors, [&](const FactorSaid& f) {
        w_.StartObject();
        text("symbol", f.symbol);
        text("words", f.words);
        quantity("value", f.value);
        w_.EndObject();
      });
      gust("gust", d.gust);
      w_.EndObject();
    });
    list("combinations", s.combinations, [&](const CombinationSaid& c) {
      w_.StartObject();
      F::combination(c);
      w_.EndObject();
    });
    list("steps", x.working.steps, [&](const Step& step) {
      w_.StartObject();
      text("heading", step.heading);
      text("kind", kind(step.kind));
      text("symbol", step.symbol);
      text("words", step.words);
      text("formula", step.formula);
      text("numbers", step.numbers);
      quantity("result", step.result);
      text("source", step.source);
      list("operands", step.operands, [&](const Operand& o) {
        w_.StartObject();
        text("symbol", o.symbol);
        quantity("value", o.value);
        w_.EndObject();
      });
      w_.EndObject();
    });
    words_of("excess", s.excess);
    words_of("cautions", s.cautions);
    F::not_looked_at(s.not_looked_at);
    F::from_memory(s.from_memory);
    w_.EndObject();
  }
  static std::string_view kind(StepKind k) {
    switch (k) {
      case StepKind::given: return "given";
      case StepKind::formula: return "formula";
      case StepKind::sum: return "sum";
      case StepKind::choice: return "choice";
      case StepKind::lookup: return "looked up";
    }
    return "given";
  }
};

// One house under several methods.
template <class Writer> class Methods : Form<Writer> {
  using F = Form<Writer>;
  using F::text, F::quantity, F::object, F::list, F::count, F::use, F::key, F::words_of;
  using F::w_;

 public:
  Methods(Writer& w, const std::vector<UnderMethod>& under)
      : F(w, units_of(under.front().result.print)), under_(under) {}

  void all() {
    const Result& first = under_.front().result;
    w_.StartObject();
    text("format", "belay-methods/1");
    text("tool", first.tool);
    F::job(first);
    key("exit_code");
    w_.Int(worst_exit(under_));
    list("methods", under_, [&](const UnderMethod& m) { method(m); });
    list("links", rows_of(under_), [&](const std::vector<const Link*>& row) { link(row); });
    words_of("why_they_differ", why_they_differ(under_));
    text("last", last_words);
    w_.EndObject();
  }

 private:
  const std::vector<UnderMethod>& under_;

  void method(const UnderMethod& m) {
    const Result& r = m.result;
    w_.StartObject();
    text("name", m.site.name);
    text("table", r.table);
    object("site", [&] { F::site(r.site); });
    text("verdict", F::answer(r.answer));
    key("exit_code");
    w_.Int(r.exit_code());
    F::counts(r.counts);
    list("combinations", m.decides, [&](const Decides& d) {
      w_.StartObject();
      F::combination(d.combination);
      count("links", d.links);
      w_.EndObject();
    });
    words_of("excess", r.excess);
    list("cautions", r.cautions, [&](const Caution& c) {
      w_.StartObject();
      text("code", c.code);
      text("text", c.text);
      w_.EndObject();
    });
    F::not_looked_at(r.not_looked_at);
    F::from_memory(r.from_memory);
    w_.EndObject();
  }
  // row: the link under each method; null where a method has no such link.
  void link(const std::vector<const Link*>& row) {
    const Link& any = **std::ranges::find_if(row, [](const Link* l) { return l != nullptr; });
    w_.StartObject();
    text("id", any.id);
    text("kind", any.kind);
    text("words", any.where.words);
    text("wall", any.where.wall);
    text("fixing", any.fixing.name);
    key("under");
    w_.StartArray();
    for (std::size_t i = 0; i < row.size(); ++i) {
      const Link* l = row[i];
      const LinkPart* p = deciding_part(row, i);
      w_.StartObject();
      text("name", under_[i].site.name);
      text("part", p ? p->part : std::string());
      quantity("demand", p ? std::optional<Value>(p->greatest) : std::nullopt);
      use("use", l ? l->use : std::nullopt);
      text("verdict", l ? words(l->verdict) : std::string_view());
      text("combination", l ? l->load_case.combination : std::string());
      text("why", l ? why_words(*l) : std::string());
      w_.EndObject();
    }
    w_.EndArray();
    w_.EndObject();
  }
};

// Any of the three as text.
template <template <class> class Of, class What> std::string written(const What& what, bool spread) {
  rapidjson::StringBuffer out;
  if (spread) {
    rapidjson::PrettyWriter<rapidjson::StringBuffer> w(out);
    w.SetIndent(' ', 2);
    Of<rapidjson::PrettyWriter<rapidjson::StringBuffer>> told(w, what);
    told.all();
  } else {
    rapidjson::Writer<rapidjson::StringBuffer> w(out);
    Of<rapidjson::Writer<rapidjson::StringBuffer>> told(w, what);
    told.all();
  }
  return std::string(out.GetString(), out.GetSize()) + '\n';
}
}  // namespace

std::string json(const Result& r, bool spread) { return written<Told>(r, spread); }
std::string json(const std::vector<SiteWorkedOut>& sites, bool spread) { return written<Sites>(sites, spread); }
std::string json(const std::vector<UnderMethod>& under, bool spread) { return written<Methods>(under, spread); }

}  // namespace belay
