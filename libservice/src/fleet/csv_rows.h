// Rows of comma-separated text (RFC 4180), each field with its place. Stricter in one thing: a quoted field ends on its
// line, because one forgotten quote could otherwise swallow the rows up to the next one.
#pragma once

#include <vector>

#include "fleet/findings.h"

namespace service::fleet {

struct CsvField {
  std::string_view text;  // without its quotes; doubled quotes are still double where `escaped`
  Span span;
  bool escaped = false;
  std::string value() const;
};

class CsvRows {
 public:
  // The separator is the first of comma, semicolon and tab in the first line.
  CsvRows(const Source& source, Findings& findings)
      : source_(source),
        findings_(findings),
        line_(separator_line(source.text()) > 0 ? 0 : -1),
        separator_(csv_separator(source.line(line_ + 1))) {}

  // From where the other one stands, telling its mistakes elsewhere.
  CsvRows(const CsvRows& other, Findings& findings)
      : source_(other.source_), findings_(findings), line_(other.line_), separator_(other.separator_) {}

  // The next row that is not blank; false at the end. Rows with bad quotes are reported and passed over.
  bool next(std::vector<CsvField>& fields);
  bool passed_over() const { return passed_over_; }

 private:
  bool split(std::vector<CsvField>& fields);

  const Source& source_;
  Findings& findings_;
  int line_;
  char separator_;
  bool passed_over_ = false;
};

}  // namespace service::fleet
