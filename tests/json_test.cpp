// The JSON form, read back by RapidJSON's document reader, which shares nothing with the writer but its name.
#include "report/json.hpp"
#include "hand_made.hpp"
#include <catch2/catch.hpp>
#include <limits>
#include <rapidjson/document.h>
#include <set>
#include <stdexcept>

using namespace belay;
using Catch::Matchers::WithinAbs;
namespace hm = belay::hand_made;

namespace {
rapidjson::Document read_back(const std::string& text) {
  rapidjson::Document d;
  d.Parse<rapidjson::kParseFullPrecisionFlag | rapidjson::kParseValidateEncodingFlag>(text.data(), text.size());
  INFO(text);
  REQUIRE(!d.HasParseError());
  return d;
}
// Every key with its path; the elements of a list share one path.
void keys(const rapidjson::Value& v, const std::string& path, std::set<std::string>& out) {
  if (v.IsObject())
    for (const auto& m : v.GetObject()) {
      const std::string at = path + "." + m.name.GetString();
      out.insert(at);
      // A quantity or null: its own keys may be absent with it.
      if (!(m.value.IsObject() && m.value.MemberCount() == 2 && m.value.HasMember("unit"))) keys(m.value, at, out);
    }
  if (v.IsArray())
    for (const auto& e : v.GetArray()) keys(e, path + "[]", out);
}
std::set<std::string> keys(const rapidjson::Value& v) {
  std::set<std::string> out;
  keys(v, "", out);
  return out;
}
}  // namespace

TEST_CASE("the object says what the result says") {
  const auto d = read_back(json(hm::saltbush(), true));
  CHECK(std::string(d["format"].GetString()) == "belay-result/1");
  CHECK(std::string(d["verdict"].GetString()) == "FAIL");
  CHECK(d["exit_code"].GetInt() == 1);
  CHECK(d["counts"]["fail"].GetUint64() == 2);
  CHECK(d["counts"]["total"].GetUint64() == 6);
  CHECK(std::string(d["job"]["drawn"].GetString()) == "plan 2403-A2 rev C, to frame");
  CHECK(std::string(d["site"]["pressure"]["unit"].GetString()) == "kPa");
  CHECK_THAT(d["site"]["pressure"]["value"].GetDouble(), WithinAbs(1.5, 1e-12));
  const auto& l = d["links"][0];
  CHECK(std::string(l["id"].GetString()) == "A2/left");
  CHECK_THAT(l["where"]["from_start"]["value"].GetDouble(), WithinAbs(10900.0, 0.0));
  CHECK(std::string(l["where"]["from_start"]["unit"].GetString()) == "mm");
  CHECK(std::string(l["parts"][0]["demand"]["unit"].GetString()) == "kN");
  CHECK_THAT(l["parts"][0]["demand"]["value"].GetDouble(), WithinAbs(24.751, 1e-9));
  // 24.751/26 + 3.029/14 = 1.16831868..., rounded up at the sixth decimal.
  CHECK_THAT(l["use"].GetDouble(), WithinAbs(1.168319, 1e-12));
  CHECK(l["parts"][2]["capacity"].IsNull());
  CHECK(std::string(l["why"]["code"].GetString()) == "together");
  CHECK(d["links"][4]["use"].IsNull());
  CHECK(std::string(d["links"][4]["verdict"].GetString()) == "NOT JUDGED");
  CHECK(std::string(d["nearest"][0]["id"].GetString()) == "line/E");
}

TEST_CASE("made_of adds up to the demand that it explains") {
  const auto d = read_back(json(hm::saltbush(), false));
  std::size_t checked = 0;
  for (const auto& l : d["links"].GetArray())
    for (const auto& p : l["parts"].GetArray()) {
      if (p["made_of"].Empty()) continue;
      double sum = 0.0;
      for (const auto& m : p["made_of"].GetArray()) sum += m["value"]["value"].GetDouble();
      CHECK_THAT(sum, WithinAbs(p["demand"]["value"].GetDouble(), 1e-6));
      ++checked;
    }
  CHECK(checked == 1);
}

TEST_CASE("keys do not come and go with the verdict") {
  Result r = hm::saltbush();
  const Link pattern = r.links[0];
  std::set<std::string> first;
  for (const Verdict v : {Verdict::pass, Verdict::fail, Verdict::not_judged, Verdict::by_others}) {
    Link l = pattern;
    l.verdict = v;
    if (v != Verdict::pass && v != Verdict::fail) {
      l.use.reset();
      l.where.from_start.reset();
      l.fixing = Chosen{};
      for (LinkPart& p : l.parts) {
        p.use.reset();
        p.capacity.reset();
      }
    }
    r.links = {l};
    r.nearest = {0};
    r.answer = v == Verdict::pass ? Answer::pass : v == Verdict::fail ? Answer::fail : Answer::not_judged;
    const auto found = keys(read_back(json(r, false)));
    if (first.empty()) first = found;
    CHECK(found == first);
  }
  // With nothing in its lists a result still has every key of the top.
  Result empty = hm::all_good();
  empty.links.clear();
  empty.nearest.clear();
  empty.cautions.clear();
  empty.not_looked_at.clear();
  const auto few = read_back(json(empty, false));
  const auto many = read_back(json(hm::saltbush(), false));
  CHECK(few.MemberCount() == many.MemberCount());
  for (const auto& m : many.GetObject()) CHECK(few.HasMember(m.name));
}

TEST_CASE("one line for one job of many, many lines for one") {
  const std::string line = json(hm::saltbush(), false), spread = json(hm::saltbush(), true);
  CHECK(std::count(line.begin(), line.end(), '\n') == 1);
  CHECK(line.back() == '\n');
  CHECK(std::count(spread.begin(), spread.end(), '\n') > 100);
  CHECK(read_back(line) == read_back(spread));
  CHECK(line == json(hm::saltbush(), false));
}

TEST_CASE("US print gives pounds and feet") {
  Result r = hm::saltbush();
  r.print = Print::us;
  const auto d = read_back(json(r, false));
  CHECK(std::string(d["links"][0]["parts"][0]["demand"]["unit"].GetString()) == "lbf");
  // 1 lbf = 4.4482216152605 N by definition; nine digits are kept.
  CHECK_THAT(d["links"][0]["parts"][0]["demand"]["value"].GetDouble(), WithinAbs(24751.0 / 4.4482216152605, 1e-5));
  CHECK(std::string(d["links"][0]["where"]["from_start"]["unit"].GetString()) == "ft");
  CHECK_THAT(d["links"][0]["where"]["from_start"]["value"].GetDouble(), WithinAbs(10.9 / 0.3048, 1e-6));
}

TEST_CASE("a use above 1 never reads 1, and one of 1 reads 1") {
  Result r = hm::all_good();
  r.links[0].use = Use{1.0 + 1e-12};
  r.links[1].use = Use{1.0};
  const auto d = read_back(json(r, false));
  CHECK(d["links"][0]["use"].GetDouble() > 1.0);
  CHECK_THAT(d["links"][1]["use"].GetDouble(), WithinAbs(1.0, 0.0));
}

TEST_CASE("what is not finite is our own fault and is never written") {
  Result r = hm::all_good();
  r.links[0].parts[0].demand.si = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(json(r, false), std::logic_error);
  r = hm::all_good();
  r.links[0].use = Use{std::numeric_limits<double>::infinity()};
  CHECK_THROWS_AS(json(r, false), std::logic_error);
}

TEST_CASE("text from a job arrives unchanged") {
  Result r = hm::all_good();
  r.title = "\"quoted\"\n\xC3\xA9 \\ \x01";
  const auto d = read_back(json(r, false));
  CHECK(std::string(d["job"]["title"].GetString()) == r.title);
}
