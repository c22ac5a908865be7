#include <doctest/doctest.h>

#include <algorithm>
#include <map>

#include "unit/record/support.h"

using namespace service;
using record_test::mistakes_of;

namespace {

// A value for every column of contents, good for every kind that has it.
const std::vector<std::pair<std::string, std::string>> values = {{"machine", "loader"},
                                                                 {"on", "2026-03-01"},
                                                                 {"meter", "engine"},
                                                                 {"at", "1250.5"},
                                                                 {"task", "oil"},
                                                                 {"position", "left"},
                                                                 {"name", "leak"},
                                                                 {"value", "3.25"},
                                                                 {"unit", "mm"},
                                                                 {"last", "9999.5"},
                                                                 {"first", "0"},
                                                                 {"until", "2026-04-01"},
                                                                 {"part", "filter"},
                                                                 {"found", "worn"},
                                                                 {"by", "ann"},
                                                                 {"note", "a note"},
                                                                 {"strikes", "00000000010000000000000001-1"}};

struct Rule {
  std::string kind;
  std::vector<std::string> needs;
  std::vector<std::string> may;
};

const std::vector<Rule> rules = {
    {"reading", {"machine", "on", "at"}, {"meter"}},
    {"service", {"machine", "on", "task"}, {"at", "meter", "position", "found", "by", "note"}},
    {"sign", {"machine", "on", "name"}, {"note"}},
    {"measurement", {"machine", "on", "name", "value"}, {"unit", "position"}},
    {"meter-change", {"machine", "on", "last", "first"}, {"meter"}},
    {"put-off", {"machine", "on", "task", "until"}, {"at", "position", "by", "note"}},
    {"laid-up", {"machine", "on"}, {"until", "note"}},
    {"out-of-use", {"machine", "on"}, {"note"}},
    {"back", {"machine", "on"}, {"note"}},
    {"count", {"part", "on", "value"}, {}},
    {"strike", {"strikes"}, {"on", "note"}}};

using Row = std::map<std::string, std::string>;

bool holds(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

Row row_of(const Rule& rule, bool with_may) {
  Row row{{"kind", rule.kind}};
  for (const auto& [column, value] : values) {
    if (holds(rule.needs, column) || (with_may && holds(rule.may, column))) row[column] = value;
  }
  return row;
}

FactsRead read(const Row& row) {
  std::string header;
  std::string fields;
  for (const auto& [column, value] : row) {
    header += "," + column;
    fields += "," + value;
  }
  header.erase(0, 1);
  fields.erase(0, 1);
  return read_facts(header + "\n" + fields + "\n", "facts.csv");
}

// The codes of the mistakes and the columns that their messages name.
std::string told(const FactsRead& read) {
  std::string all;
  for (const Diagnostic& mistake : read.diagnostics) {
    const std::size_t from = mistake.message.find('`');
    const std::size_t to = mistake.message.find('`', from + 1);
    all += mistake.code + " " + mistake.message.substr(from + 1, to - from - 1) + "\n";
  }
  return all;
}

}  // namespace

TEST_CASE("each kind is read with what it needs, and with all that it may have") {
  for (const Rule& rule : rules) {
    CAPTURE(rule.kind);
    for (const bool with_may : {false, true}) {
      const FactsRead rows = read(row_of(rule, with_may));
      CHECK(told(rows) == "");
      REQUIRE(rows.rows.size() == 1);
      CHECK(to_text(rows.rows[0].fact.kind) == rule.kind);
    }
  }
}

TEST_CASE("each need of each kind is missed by name") {
  for (const Rule& rule : rules) {
    for (const std::string& need : rule.needs) {
      CAPTURE(rule.kind);
      CAPTURE(need);
      Row row = row_of(rule, rule.kind == "service");  // a service of needs alone would be a blank of a find-out list
      row["note"];                                     // and the row must have a field at least
      row[need].clear();
      if (rule.kind == "put-off" && need == "until") row["at"].clear();
      CHECK(told(read(row)) == "missing-value " + need + "\n");
    }
  }
}

TEST_CASE("each column that a kind does not use is refused by name") {
  int refused = 0;
  for (const Rule& rule : rules) {
    for (const auto& [column, value] : values) {
      if (holds(rule.needs, column) || holds(rule.may, column)) continue;
      CAPTURE(rule.kind);
      Row row = row_of(rule, false);
      row[column] = value;
      CHECK(told(read(row)) == "unused-column " + column + "\n");
      ++refused;
    }
  }
  CHECK(refused == 135);
}

TEST_CASE("a put-off may last until a meter value instead of a day") {
  CHECK(told(read({{"kind", "put-off"}, {"machine", "m"}, {"on", "2026-01-01"}, {"task", "oil"}, {"at", "50"}})) == "");
}

TEST_CASE("a put-off whose end cannot be read is told that and nothing else") {
  const Row row{{"kind", "put-off"}, {"machine", "m"}, {"on", "2026-01-01"}, {"task", "oil"}, {"at", "5o"}};
  CHECK(told(read(row)) == "bad-value at\n");
}

TEST_CASE("readings, measurements and meter changes need a whole day, the others do not") {
  for (const Rule& rule : rules) {
    for (const std::string on : {"2026", "2026-03"}) {
      CAPTURE(rule.kind);
      Row row = row_of(rule, true);
      row["on"] = on;
      const bool whole = rule.kind == "reading" || rule.kind == "measurement" || rule.kind == "meter-change";
      CHECK(read(row).diagnostics.size() == (whole ? 1U : 0U));
      if (whole) CHECK(read(row).diagnostics[0].code == "needs-whole-day");
    }
  }
}

TEST_CASE("every value is read strictly") {
  struct Case {
    std::string kind;
    std::string column;
    std::string value;
  };
  for (const Case& each :
       {Case{"reading", "on", "2026-02-29"}, Case{"reading", "on", "01/03/26"}, Case{"reading", "at", "-1"},
        Case{"reading", "at", "0x10"}, Case{"reading", "at", "nan"}, Case{"reading", "at", "1250.555"},
        Case{"reading", "at", " 1250"}, Case{"meter-change", "last", "-1"}, Case{"meter-change", "first", "1e3"},
        Case{"measurement", "value", "1.0000001"}, Case{"measurement", "value", ""},
        Case{"put-off", "until", "2026-03"}, Case{"service", "found", "Good"}, Case{"strike", "strikes", "1"}}) {
    CAPTURE(each.column);
    CAPTURE(each.value);
    for (const Rule& rule : rules) {
      if (rule.kind != each.kind) continue;
      Row row = row_of(rule, true);
      row[each.column] = each.value;
      CHECK(told(read(row)) == (each.value.empty() ? "missing-value " : "bad-value ") + each.column + "\n");
    }
  }
}

TEST_CASE("a count is not negative, a measurement may be") {
  const FactsRead negative = read({{"kind", "count"}, {"part", "p"}, {"on", "2026-01-01"}, {"value", "-1"}});
  CHECK(mistakes_of(negative) == "2:20 negative-value");
  CHECK(told(read({{"kind", "count"}, {"part", "p"}, {"on", "2026-01-01"}, {"value", "0"}})) == "");
  CHECK(told(read({{"kind", "measurement"}, {"machine", "m"}, {"on", "2026-01-01"}, {"name", "n"}, {"value", "-1"}})) ==
        "");
}

TEST_CASE("all mistakes of a row are told at once") {
  const Row row{{"kind", "reading"}, {"machine", "m"}, {"on", "2026-13-01"}, {"at", "x"}, {"part", "p"}};
  CHECK(told(read(row)) == "bad-value on\nbad-value at\nunused-column part\n");
}
