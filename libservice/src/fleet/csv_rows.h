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
      : source_(source), findings_(findings), separator_(csv_separator(source.line(0))) {}

  // From where the other one stands, telling its mistakes elsewhere.
  CsvRows(const CsvRows& other, Findings& findings)
      : source_(other.source_), findings_(findings), separator_(other.separator_), line_(other.line_) {}

  // The next row that is not blank; false at the end. Rows with bad quotes are reported and passed over.
  bool next(std::vector<CsvField>& fields);
  bool passed_over() const { return passed_over_; }

 private:
  bool split(std::vector<CsvField>& fields);

  const Source& source_;
  Findings& findings_;
  char separator_;
  int line_ = -1;
  bool passed_over_ = false;
};

}  // namespace service::fleet
