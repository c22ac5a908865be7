// Rows of CSV (RFC 4180), and nothing of what their fields mean.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace service {

struct CsvField {
  std::string text;      // out of its quotes
  std::size_t from = 0;  // offsets in the file, its quotes within
  std::size_t to = 0;
};

enum class CsvProblemKind {
  bare_quote,        // a quote inside a field that does not begin with one
  text_after_quote,  // text behind the quote that closes a field
  unclosed_quote
};

struct CsvProblem {
  CsvProblemKind kind = CsvProblemKind::bare_quote;
  std::size_t at = 0;
};

struct CsvRow {
  std::vector<CsvField> fields;
  std::vector<CsvProblem> problems;  // a row with any is not to be believed
  std::size_t from = 0;              // offsets in the file, without the line end
  std::size_t to = 0;
};

// Whether a field in quotes may run over several lines. Where nothing that is listed has several lines, it may not: one
// forgotten quote would swallow the rows up to the next one.
enum class CsvLines { many_a_field, one_a_row };

class CsvReader {
 public:
  // `from` is behind a byte order mark; a line `sep=;` there is passed over. The separator is the first of comma,
  // semicolon and tab in the first line, unless told. `text` must outlive it.
  CsvReader(std::string_view text, std::size_t from, CsvLines lines, std::optional<char> separator = {});

  // The next row that is not an empty line; false at the end. Goes on at the next line after a quote never closed.
  bool next(CsvRow& row);

  char separator() const { return separator_; }

 private:
  void read_row(CsvRow& row);
  void read_field(CsvRow& row, CsvField& field);
  void read_quoted(CsvRow& row, CsvField& field);
  bool at_line_end() const;
  void skip_line_end();
  std::size_t line_end(std::size_t from) const;

  std::string_view text_;
  std::size_t at_;
  CsvLines lines_;
  char separator_ = ',';
  bool gave_up_ = false;
};

// The first of comma, semicolon and tab outside of quotes in a header row; a comma where there is none.
char csv_separator(std::string_view header);

// Some spreadsheets say on a first line of their own what parts the fields: `sep=;`. How long that line is, with its
// end.
std::size_t separator_line(std::string_view text);

}  // namespace service
