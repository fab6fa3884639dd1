// Reading files: the checksum, the built-in tables, the field table.
#include "files/embedded.hpp"
#include "files/fields.hpp"
#include "files/read.hpp"
#include "files/sha256.hpp"
#include "job/settle.hpp"
#include "job_text.hpp"
#include <algorithm>
#include <set>
#include <thread>

using namespace belay;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

TEST_CASE("SHA-256 gives the published digests") {
  // NIST, examples with intermediate values for FIPS 180-4: one block, two blocks; and the empty message.
  CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  // FIPS 180-2, appendix B.3.
  CHECK(sha256(std::string(1000000, 'a')) == "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  // Around the padding's block boundary every length has its own digest.
  std::set<std::string> digests;
  for (std::size_t n = 50; n < 130; ++n) digests.insert(sha256(std::string(n, 'x')));
  CHECK(digests.size() == 80);
}

TEST_CASE("a house carries the checksum of its job's bytes") {
  CHECK(test::good(test::good_job).sha256 == sha256(test::good_job));
  CHECK(test::good(std::string(test::good_job) + "# a remark\n").sha256 != sha256(test::good_job));
}

TEST_CASE("every built-in method and practice table loads, and every figure says where it comes from") {
  std::size_t tables = 0;
  for (const Embedded& e : embedded()) {
    if (e.name.starts_with("fixings/")) continue;
    INFO(e.name);
    ++tables;
    Table t;
    CHECK_NOTHROW(t = table(e.name));
    CHECK(t.file == e.name);
    CHECK_FALSE(t.method.empty());
    CHECK_FALSE(t.edition.empty());
    REQUIRE_FALSE(t.entries.empty());
    CHECK(t.entries.size() <= 64);
    std::set<std::string> figures;
    for (std::size_t i = 0; i < t.entries.size(); ++i) {
      const Entry& x = t.entries[i];
      INFO(x.key);
      CHECK(x.index == i);
      CHECK((i == 0 || t.entries[i - 1].key < x.key));
      CHECK_FALSE(x.source.empty());
      CHECK_FALSE(x.clause.empty());
      CHECK(figures.insert(x.figure).second);  // a job lists figures by these names
      for (const auto& [name, column] : x.columns) CHECK_FALSE(column.empty());
    }
  }
  CHECK(tables >= 5);
  CHECK(&table("practice/common.toml") == &table("practice/common.toml"));  // parsed once
  CHECK_THROWS_WITH(table("methods/none.toml"), Contains("methods/none.toml"));
}

TEST_CASE("tables may be asked for from several threads at once") {
  std::vector<const Table*> seen(4);
  std::vector<std::thread> threads;
  for (auto& s : seen) threads.emplace_back([&s] { s = &table("methods/as-4055-2021.toml"); });
  for (auto& t : threads) t.join();
  for (const Table* t : seen) CHECK(t == seen[0]);
}

TEST_CASE("a table's columns are numbers, quantities of any kind, lists and text") {
  const Table t = read_table_file(R"(
method = "M"
edition = "1"
source = "book"
[b]
figure = "B 1"
clause = "cl. 2"
how = "reproduces table 3"
x = 0.5
n = 3
p = "16 psf"
h = ["3 ft", "2.7 m"]
c = [1, 2.5]
form = "with gust"
year = "2021"
[a]
figure = "A 1"
source = "other book"
clause = "cl. 1"
how = "from memory"
)",
                                  "methods/m.toml");
  REQUIRE(t.entries.size() == 2);
  CHECK(t.entries[0].key == "a");
  CHECK(t.entries[0].source == "other book");
  CHECK(t.entries[0].from_memory());
  const Entry& b = t.entries[1];
  CHECK(b.source == "book");
  CHECK_FALSE(b.from_memory());
  CHECK(b.columns.at("x").at(0) == Value{0.5, Kind::ratio});
  CHECK(b.columns.at("n").at(0) == Value{3.0, Kind::ratio});
  CHECK(b.columns.at("p").at(0).kind == Kind::pressure);
  CHECK_THAT(b.columns.at("p").at(0).si, WithinRel(16 * 47.88025898, 1e-9));  // 1 lbf/ft^2 in Pa, NIST SP 811
  CHECK(b.columns.at("h").at(0).kind == Kind::length);
  CHECK_THAT(b.columns.at("h").at(0).si, WithinAbs(0.9144, 1e-12));
  CHECK(b.columns.at("c").size() == 2);
  CHECK(b.texts.at("form") == "with gust");
  CHECK(b.texts.at("year") == "2021");  // a number between quotes is text
}

TEST_CASE("a table borrows entries of others, from any folder, under their own name") {
  const std::string head = "method = \"M\"\nedition = \"1\"\nsource = \"s\"\n";
  const Table t = read_table_file(head +
                                      "[[borrowed]]\nfrom = \"concrete/aci-318-19\"\nkeys = [\"aci_cone\"]\n"
                                      "[[borrowed]]\nfrom = \"concrete/en-1992-4-2018\"\nkeys = [\"*\"]\n",
                                  "methods/m.toml");
  CHECK(t.has("aci_cone"));
  CHECK_FALSE(t.has("aci_edge"));
  CHECK(t.source("aci_cone") == "ACI 318-19 17.6.2.1, 17.6.2.2.1 (from memory)");
  CHECK(t.source("en_cone") == "EN 1992-4:2018 7.2.1.4 (from memory)");
  CHECK(t.mark("en_cone") != t.mark("aci_cone"));
}

TEST_CASE("a faulty table is our own fault, named by file and key") {
  const std::string head = "method = \"M\"\nedition = \"1\"\nsource = \"s\"\n";
  const std::string entry = "figure = \"f\"\nclause = \"c\"\nhow = \"read\"\n";
  const auto fault = [](const std::string& text, const std::string& words) {
    INFO(text);
    CHECK_THROWS_WITH(read_table_file(text, "methods/m.toml"), Contains("methods/m.toml") && Contains(words));
  };
  CHECK_NOTHROW(read_table_file(head + "[a]\n" + entry, "methods/m.toml"));
  fault("edition = \"1\"\nsource = \"s\"\n", "method");
  fault("method = \"M\"\nsource = \"s\"\n", "edition");
  fault("method = \"M\"\nedition = \"1\"\n", "source");
  fault(head + "[a]\nclause = \"c\"\nhow = \"read\"\n", "a.figure");
  fault(head + "[a]\nfigure = \"f\"\nhow = \"read\"\n", "a.clause");
  fault(head + "[a]\nfigure = \"f\"\nclause = \"c\"\n", "a.how");
  fault(head + "[a]\nfigure = \"f\"\nclause = \"c\"\nhow = \"guessed\"\n", "guessed");
  fault(head + "[a]\n" + entry + "x = nan\n", "a.x");
  fault(head + "[a]\n" + entry + "x = true\n", "a.x");
  fault(head + "[a]\n" + entry + "x = []\n", "a.x");
  fault(head + "[a]\n" + entry + "x = [\"one\", \"two\"]\n", "a.x");
  fault(head + "[a]\n" + entry + "x = [1, \"2 m\"]\n", "a.x");
  fault(head + "[a]\n" + entry + "x = { y = 1 }\n", "a.x");
  fault(head + "a = 1\n", "a");
  fault(head + "[borrowed]\nfrom = \"as-4055-2021\"\n", "borrowed.keys");
  fault(head + "borrowed = [1]\n", "borrowed");
  fault(head + "[a\n", "line 4");
  fault("", "empty");
  std::string many = head;
  for (int i = 0; i < 65; ++i) many += fmt::format("[a{:02}]\n{}", i, entry);
  fault(many, "more than 64");
}

TEST_CASE("the built-in fixings are demos, every sort of them, and read without a problem") {
  std::size_t files = 0;
  for (const Embedded& e : embedded()) {
    if (!e.name.starts_with("fixings/")) continue;
    INFO(e.name);
    ++files;
    std::vector<Problem> problems;
    const Document document(e.text, e.name, largest_file, problems);
    const Fixings f = read_fixings_keys(document, problems);
    INFO(render(problems, false));
    CHECK(problems.empty());
    CHECK(f.status == "demo");
    const auto all = [](const auto& entries) {
      CHECK_FALSE(entries.empty());
      for (const auto& x : entries) {
        CHECK(x.terms.name.starts_with("demo-"));
        CHECK(x.terms.demo);
        CHECK(x.terms.source == "invented");
        CHECK_FALSE(x.terms.at.empty());
      }
    };
    all(f.brackets);
    all(f.ties);
    all(f.plates);
    all(f.anchors);
    all(f.straps);
    all(f.sheets);
    all(f.rated);
    all(f.linings);
  }
  CHECK(files >= 2);
}

TEST_CASE("what an entry of a fixings file says arrives as it was said") {
  const House h = test::good(test::good_job);
  const Anchor* rod = find(h.fixings.anchors, "demo-rod");
  REQUIRE(rod != nullptr);
  CHECK(rod->pull == quantity<Force>(Value{26000.0, Kind::force}));
  CHECK(rod->how == How::bonded);
  CHECK(rod->together == Together::five_thirds);
  CHECK(rod->terms.basis == FigureIs::characteristic);
  CHECK(rod->terms.phi == 0.8);
  CHECK_FALSE(rod->terms.gamma_M.has_value());
  CHECK(rod->terms.at == "demo-test.toml:22");
  CHECK_FALSE(rod->least_edge.has_value());
  CHECK(find(h.fixings.anchors, "demo-bolt")->concrete == quantity<Pressure>(Value{20e6, Kind::pressure}));
  CHECK(find(h.fixings.straps, "demo-single")->terms.acts_as() == Basis::allowable);
  // A name that begins with demo- is a demo whatever the file says of itself.
  const House sheets =
      test::good(test::good_job, test::with(test::good_fixings, "status = \"demo\"", "status = \"from sheets\""));
  CHECK(find(sheets.fixings.anchors, "demo-rod")->terms.demo);
}

TEST_CASE("the demo jobs are read") {
  const Opened o = open_job(std::string(BELAY_JOBS) + "/saltbush-cottage.toml");
  INFO(render(o.problems, false));
  REQUIRE(o.house.has_value());
  CHECK(o.house->walls.size() == 5);
  CHECK(o.house->trusses.size() == 15);
  CHECK(o.house->fixings.file == "demo-light-steel.toml");
}

namespace {

void check_rows(std::span<const Field> rows, std::size_t depth, std::size_t& count) {
  REQUIRE(depth < 8);
  std::set<std::string_view> keys;
  for (const Field& f : rows) {
    INFO(f.key);
    ++count;
    CHECK_FALSE(f.key.empty());
    CHECK(keys.insert(f.key).second);
    CHECK_FALSE(f.doc.empty());
    CHECK(f.doc.back() != '.');
    CHECK_FALSE(f.takes.empty());
    CHECK(f.read != nullptr);
    if (f.limited) CHECK(f.least.kind == f.greatest.kind);
    if (f.inside != nullptr) check_rows(f.inside(), depth + 1, count);
  }
}

}  // namespace

TEST_CASE("every key has one row with a sentence of its own") {
  std::size_t count = 0;
  check_rows(job_rows(), 0, count);
  check_rows(fixings_rows(), 0, count);
  CHECK(count > 150);
}
