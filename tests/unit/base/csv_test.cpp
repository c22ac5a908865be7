// CSV: one writer, one reader, and the apostrophe that keeps a spreadsheet from computing.
#include "service/csv.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <string>
#include <vector>

#include "base/csv_reader.h"

using service::csv_line;
using service::csv_text;
using service::CsvLines;
using service::CsvReader;
using service::CsvRow;
using service::text_of_cell;

namespace {

using Texts = std::vector<std::string>;

// What a spreadsheet takes for a formula, said once more.
const Texts starts = {"=",           "+", "-", "@", "\t", "\r", "\n", "\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D",
                      "\xEF\xBC\xA0"};

bool would_compute(std::string_view cell) {
  return std::any_of(starts.begin(), starts.end(), [&](const std::string& start) { return cell.starts_with(start); });
}

std::vector<Texts> read(const std::string& text, CsvLines lines = CsvLines::many_a_field) {
  std::vector<Texts> rows;
  CsvReader reader(text, 0, lines);
  for (CsvRow row; reader.next(row);) {
    CHECK(row.problems.empty());
    rows.emplace_back();
    for (const auto& field : row.fields) rows.back().emplace_back(field.text);
  }
  return rows;
}

// Texts of what matters to CSV, and of anything.
rc::Gen<std::string> any_text() {
  const auto piece = rc::gen::oneOf(
      rc::gen::elementOf(starts), rc::gen::elementOf(Texts{"'", "''", "\"", "\"\"", ",", ";", " ", "\r\n", "a", "1"}),
      rc::gen::map(rc::gen::inRange(1, 256), [](int byte) { return std::string(1, static_cast<char>(byte)); }));
  return rc::gen::map(rc::gen::container<Texts>(piece), [](const Texts& pieces) {
    std::string text;
    for (const std::string& each : pieces) text += each;
    return text;
  });
}

std::string problems_of(const std::string& text, CsvLines lines) {
  std::string found;
  CsvReader reader(text, 0, lines);
  for (CsvRow row; reader.next(row);) {
    for (const auto& problem : row.problems) {
      found += std::to_string(static_cast<int>(problem.kind)) + " at " + std::to_string(problem.at) + "; ";
    }
  }
  return found;
}

}  // namespace

TEST_CASE("any texts come back from a file as they went into it") {
  CHECK(rc::check("texts come back", [] {
    const auto rows = *rc::gen::container<std::vector<Texts>>(rc::gen::nonEmpty(rc::gen::container<Texts>(any_text())));
    const std::string end = *rc::gen::elementOf(Texts{"\n", "\r\n"});
    std::string file = csv_line({"one", "two"}, end);
    for (const Texts& row : rows) {
      Texts cells;
      for (const std::string& text : row) cells.push_back(csv_text(text));
      file += csv_line(cells, end);
    }
    const auto again = read(file);
    RC_ASSERT(again.size() == rows.size() + 1);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      RC_ASSERT(again[i + 1].size() == rows[i].size());
      for (std::size_t k = 0; k < rows[i].size(); ++k) {
        RC_ASSERT(std::string(text_of_cell(again[i + 1][k])) == rows[i][k]);
      }
    }
  }));
}

TEST_CASE("no cell of text begins as a formula does") {
  CHECK(rc::check("no formula starts", [] {
    const std::string written = csv_text(*any_text());
    RC_ASSERT(!would_compute(written));
    const auto rows = read("a,b\n" + csv_line({written, "x"}));
    RC_ASSERT(rows.size() == 2U);
    RC_ASSERT(!would_compute(rows[1][0]));
  }));
}

TEST_CASE("the apostrophe is put in front of formulas, and of apostrophes before formulas, and nowhere else") {
  for (const auto& [text, cell] : std::vector<std::pair<std::string, std::string>>{{"=1+1", "'=1+1"},
                                                                                   {"'=1+1", "''=1+1"},
                                                                                   {"''=1+1", "'''=1+1"},
                                                                                   {"'tis", "'tis"},
                                                                                   {"''", "''"},
                                                                                   {"plain", "plain"},
                                                                                   {"", ""},
                                                                                   {"a=1", "a=1"},
                                                                                   {"\xEF\xBC\x9D"
                                                                                    "1",
                                                                                    "'\xEF\xBC\x9D"
                                                                                    "1"}}) {
    CHECK(csv_text(text) == cell);
    CHECK(text_of_cell(cell) == text);
  }
  CHECK(text_of_cell("-5") == "-5");
}

TEST_CASE("quotes stand where a cell could be cut or lose its blanks") {
  CHECK(csv_text("plain text") == "plain text");
  CHECK(csv_text("a,b") == "\"a,b\"");
  CHECK(csv_text("a;b") == "\"a;b\"");
  CHECK(csv_text("say \"x\"") == "\"say \"\"x\"\"\"");
  CHECK(csv_text("two\nlines") == "\"two\nlines\"");
  CHECK(csv_text(" a") == "\" a\"");
  CHECK(csv_text("a ") == "\"a \"");
  CHECK(csv_line({"a", "", "b"}) == "a,,b\r\n");
  CHECK(csv_line({"a"}, "\n") == "a\n");
  CHECK(csv_line({""}, "\n") == "\"\"\n");  // an empty line would be no row
}

TEST_CASE("the separator is read off the header, behind a line that says so") {
  CHECK(service::csv_separator("a,b;c") == ',');
  CHECK(service::csv_separator("a;b,c") == ';');
  CHECK(service::csv_separator("a\tb") == '\t');
  CHECK(service::csv_separator("\"a;b\",c") == ',');
  CHECK(service::csv_separator("kind") == ',');
  CHECK((read("a;b,c\n1;2\n") == std::vector<Texts>{{"a", "b,c"}, {"1", "2"}}));
  CHECK((read("sep=;\r\na;b\r\n1;2") == std::vector<Texts>{{"a", "b"}, {"1", "2"}}));
  CHECK((read("sep=;\na;b\n") == std::vector<Texts>{{"a", "b"}}));
}

TEST_CASE("each row and field knows its place") {
  const std::string text = "a,\"b\"\r\n\r\n\"x\ny\",\"\"\"z\"\n";
  CsvReader reader(text, 0, CsvLines::many_a_field);
  CsvRow row;
  REQUIRE(reader.next(row));
  CHECK(text.substr(row.from, row.to - row.from) == "a,\"b\"");
  REQUIRE(reader.next(row));
  CHECK(text.substr(row.from, row.to - row.from) == "\"x\ny\",\"\"\"z\"");
  REQUIRE(row.fields.size() == 2);
  CHECK(row.fields[0].text == "x\ny");
  CHECK(row.fields[1].text == "\"z");
  CHECK(text.substr(row.fields[1].from, row.fields[1].to - row.fields[1].from) == "\"\"\"z\"");
  CHECK_FALSE(reader.next(row));
}

TEST_CASE("what is wrong with quotes is told with its place, and the next line is read") {
  struct Row {
    std::string text;
    std::string many;  // where a field may have several lines
    std::string one;   // where it may not
  };
  for (const Row& row :
       {Row{"a,b\"c\n", "0 at 3; ", "0 at 3; "}, Row{"a,\"b\"c\n", "1 at 5; ", "1 at 5; "},
        Row{"a,\"b\nc,d\n", "2 at 2; ", "2 at 2; "}, Row{"a,\"b\"\"\nc,d\n", "2 at 2; ", "2 at 2; "},
        Row{"\"a\n\"b\n", "1 at 0; ", "2 at 0; 2 at 3; "}, Row{"\"a\r\nb\",c\n", "", "2 at 0; 0 at 5; "},
        Row{"\"a\n\"\"b\n\"\"c\n", "2 at 0; 1 at 5; 1 at 9; ", "2 at 0; 1 at 5; 1 at 9; "}}) {
    CAPTURE(row.text);
    CHECK(problems_of(row.text, CsvLines::many_a_field) == row.many);
    CHECK(problems_of(row.text, CsvLines::one_a_row) == row.one);
  }
}
