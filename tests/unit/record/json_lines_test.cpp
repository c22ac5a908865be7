#include <doctest/doctest.h>

#include <clocale>

#include "unit/record/support.h"

using namespace service;
using record_test::facts_of;
using record_test::mistakes_of;

namespace {

FactsRead read(const std::string& text) { return read_facts(text, "facts.jsonl"); }

}  // namespace

TEST_CASE("facts survive a file of JSON Lines, and the file survives them") {
  const std::vector<Fact> facts = record_test::hard_facts();
  const std::string lines = facts_to_json_lines(facts);
  const FactsRead again = read(lines);
  CHECK(mistakes_of(again) == "");
  CHECK(again.understood.json_lines);
  REQUIRE(again.rows.size() == facts.size());
  for (std::size_t i = 0; i < facts.size(); ++i) {
    CAPTURE(i);
    CHECK(same_content(again.rows[i].fact, facts[i]));
    CHECK(again.rows[i].has_id);
    CHECK(again.rows[i].place.line == static_cast<int>(i) + 1);
  }
  CHECK(facts_to_json_lines(facts_of(again)) == lines);
  CHECK(facts_to_csv(facts_of(again)) == facts_to_csv(facts));
}

TEST_CASE("JSON is written one fact a line, keys in order, empty ones left out, numbers as numbers") {
  const std::string id = to_text(record_test::command(5));
  CHECK(facts_to_json_lines({record_test::hard_facts().front()}) ==
        R"({"kind":"reading","machine":"loader","on":"2026-03-01","meter":"engine","at":1250.5,"id":")" + id +
            R"(-1","entered":"2026-01-01T00:00:00.005Z","entered-by":"=cmd","origin":"old, \"book\".csv","batch":")" +
            id + "\"}\n");
}

TEST_CASE("numbers are taken by their digits") {
  struct Row {
    std::string literal;
    std::int64_t hundredths;
  };
  for (const Row& row : {Row{"1250.5", 125'050}, Row{"0.1", 10}, Row{"999999999.99", 99'999'999'999},
                         Row{"1000000000", 100'000'000'000}, Row{"\"1250.25\"", 125'025}, Row{"7.10", 710}}) {
    CAPTURE(row.literal);
    const auto rows = facts_of(
        read("{\"kind\": \"reading\", \"machine\": \"m\", \"on\": \"2026-01-01\", \"at\": " + row.literal + "}"));
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].at->hundredths == row.hundredths);
  }
}

TEST_CASE("a decimal comma in the host's locale changes no number") {
  const std::string before = std::setlocale(LC_NUMERIC, nullptr);
  const bool has_comma = std::setlocale(LC_NUMERIC, "de_DE.UTF-8") != nullptr;
  const auto rows = facts_of(read(R"({"kind": "reading", "machine": "m", "on": "2026-01-01", "at": 1250.5})"));
  const std::string again = facts_to_json_lines(rows);
  std::setlocale(LC_NUMERIC, before.c_str());
  if (!has_comma) MESSAGE("the locale de_DE.UTF-8 is not installed; only the plain one was tried");
  CHECK(again == "{\"kind\":\"reading\",\"machine\":\"m\",\"on\":\"2026-01-01\",\"at\":1250.5}\n");
}

TEST_CASE("a number where a text is expected is that text") {
  const auto rows = facts_of(read(R"({"kind": "service", "machine": 7, "on": 2009, "task": "oil", "position": 2})"));
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].machine == "7");
  CHECK(to_text(rows[0].on) == "2009");
  CHECK(rows[0].position == "2");
}

TEST_CASE("texts of JSON carry no spreadsheet apostrophes") {
  const auto rows = facts_of(read(R"({"kind": "back", "machine": "m", "on": "2026-01-01", "note": "'=x"})"));
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].note == "'=x");
}

TEST_CASE("blank lines, CR LF and a byte order mark do not matter") {
  const FactsRead rows = read("\xef\xbb\xbf\r\n{\"kind\":\"back\",\"machine\":\"m\",\"on\":\"2026-01-01\"}\r\n  \r\n");
  CHECK(mistakes_of(rows) == "");
  REQUIRE(rows.rows.size() == 1);
  CHECK(rows.rows[0].place.line == 2);
}

TEST_CASE("what is no fact in JSON is told with its line") {
  const std::string good = R"({"kind": "back", "machine": "m", "on": "2026-01-01"})";
  struct Row {
    std::string line;
    std::string mistakes;
  };
  for (const Row& row :
       {Row{R"({"kind": "back", "machine": "m")", "2:32 bad-json"},
        Row{R"({"kind": "back"} {"kind": "back"})", "2:18 bad-json"},
        Row{R"({"kind": 'back'})", "2:10 bad-json"},
        Row{R"({"kind": "back",})", "2:17 bad-json"},
        Row{R"([{"kind": "back"}])", "2:1 not-an-object"},
        Row{"5", "2:1 not-an-object"},
        Row{"\"back\"", "2:1 not-an-object"},
        Row{"null", "2:1 not-an-object"},
        Row{R"({"kind": "back", "machine": {"a": 1}, "on": "2026-01-01"})", "2:18 bad-value"},
        Row{R"({"kind": "back", "machine": ["m"], "on": "2026-01-01"})", "2:18 bad-value"},
        Row{R"({"kind": "back", "machine": null, "on": true})", "2:18 bad-value, 2:35 bad-value"},
        Row{R"({"kind": "back", "machin": "m", "on": "2026-01-01"})", "2:18 unknown-column"},
        Row{R"({"kind": "back", "machine": "m", "machine": "n", "on": "2026-01-01"})", "2:18 duplicate-column"},
        Row{R"({"kind": "reading", "machine": "m", "on": "2026-01-01", "at": 1e3})", "2:57 bad-value"},
        Row{R"({"kind": "reading", "machine": "m", "on": "2026-01-01", "at": 1.5E2})", "2:57 bad-value"},
        Row{R"({"kind": "reading", "machine": "m", "on": "2026-01-01", "at": 1e999})", "2:67 bad-json"},
        Row{R"({"kind": "reading", "machine": "m", "on": "2026-01-01", "at": NaN})", "2:63 bad-json"},
        Row{R"({"kind": "reading", "machine": "m", "on": "2026-01-01", "at": -1})", "2:57 bad-value"},
        Row{R"({"kind": "reading", "machine": "m", "on": "2026-01-01", "at": 1.001})", "2:57 bad-value"},
        Row{R"({"kind": "reading", "machine": "m", "on": "2026-01-01", "at": 18446744073709551616})", "2:57 bad-value"},
        Row{"{\"kind\": \"back\", \"machine\": \"\xff\", \"on\": \"2026-01-01\"}", "2:30 not-utf8"},
        Row{R"({"kind": "back", "machine": "\ud800", "on": "2026-01-01"})", "2:36 bad-json"},
        Row{R"({"kind": "back", "machine": "a\u0000b", "on": "2026-01-01"})", "2:18 bad-text"},
        Row{R"({"kind": "back", "machine": "a\nb", "on": "2026-01-01"})", "2:18 bad-text"},
        Row{R"({"kind": "back", "machine": "m"})", "2:1 missing-value"}}) {
    CAPTURE(row.line);
    const FactsRead rows = read(good + "\n" + row.line + "\n" + good + "\n");
    CHECK(mistakes_of(rows) == row.mistakes);
    CHECK(rows.rows.size() == 2);
    CHECK(rows.rejected.size() == 1);
    if (!rows.rejected.empty()) CHECK(rows.rejected[0].raw == row.line);
  }
}

TEST_CASE("a line nested very deeply is refused and costs no stack") {
  const std::string deep = "{\"kind\":" + std::string(1'000'000, '[') + "\n";
  CHECK(mistakes_of(read(deep)) == "1:2 bad-value");
}
