// CSV as RFC 4180 has it, and nothing of what its fields mean.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace service::record {

struct CsvField {
  std::string text;
  std::size_t from = 0;  // offset in the file of its first byte (of the quote, where it is quoted)
};

struct CsvProblem {
  std::string code;
  std::string message;
  std::string hint;
  std::size_t at = 0;
};

struct CsvRow {
  std::vector<CsvField> fields;
  std::vector<CsvProblem> problems;  // a row with any is not to be believed
  std::size_t from = 0;              // offsets in the file, without the line end
  std::size_t to = 0;
};

class CsvReader {
 public:
  // `from` is behind a byte order mark. The separator is the first of comma, semicolon and tab in the first line.
  CsvReader(std::string_view text, std::size_t from);

  // The next row that is not an empty line; false at the end. Goes on at the next line after a quote never closed.
  bool next(CsvRow& row);

  char separator() const { return separator_; }

 private:
  void read_row(CsvRow& row);
  void read_field(CsvRow& row, CsvField& field);
  void read_quoted(CsvRow& row, CsvField& field);
  bool at_line_end() const;
  void skip_line_end();

  std::string_view text_;
  std::size_t at_;
  char separator_ = ',';
  bool gave_up_ = false;
};

// The field as it goes into a file, quoted only where it must be.
std::string csv_field(std::string_view text);

// A spreadsheet takes for a formula what starts with = + - @, tab, CR, LF, or a full-width = + - @. Such a field gets
// an apostrophe in front, and so does one that has apostrophes there already, so that taking one off is lossless.
std::string guarded_text(std::string_view text);
std::string_view unguarded_text(std::string_view text);

}  // namespace service::record
