// A CSV file of the fleet folder: a header that names columns, and the rows under it. What is wrong with its form is
// told here; what the fields mean is for others.
#pragma once

#include <fmt/format.h>

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/csv_reader.h"
#include "fleet/reader.h"
#include "service/csv.h"

namespace service::fleet {

struct TableColumn {
  std::string_view name;
  enum class Holds { text, day, number } holds = Holds::text;
  bool required = false;
};

struct TableRow {
  Spot spot;                            // all of it
  std::vector<const CsvField*> fields;  // by column; null where the file has no such column or nothing stands there
};

class CsvTable {
 public:
  struct Form {
    std::span<const TableColumn> columns;
    std::string_view empty_hint;                                      // what to write into a file that holds nothing
    std::string_view (*name_today)(std::string_view name) = nullptr;  // of a column that had another name once
  };

  CsvTable(const Reader& reader, const Form& form);

  // Reads the header, and from all rows how the file writes numbers and days. False where no row can be believed.
  bool begin();

  // The next row that can be taken apart; where something required is empty, that is said. False at the end. The fields
  // live until the next one.
  bool next(TableRow& row);

  // Some row could not be taken apart, so that not all that the file tells is known.
  bool passed_over() const { return passed_over_; }
  const Dialect& dialect() const { return dialect_; }

 private:
  bool next_written();
  bool is_blank() const;
  void cut_empty_end(std::vector<CsvField>& fields) const;
  bool settle_dialect();
  bool read_header();

  const Reader& reader_;
  Form form_;
  CsvReader rows_;
  CsvRow row_;
  bool passed_over_ = false;
  Dialect dialect_;
  std::vector<const TableColumn*> header_;  // in the order of the file; null for one that is not read
};

Spot spot_of(const Reader& reader, const CsvField& field);

// `plain` is the field as the strict reader takes it.
template <class T>
std::optional<T> value_in(const Reader& reader, const CsvField& field, const std::string& plain,
                          Parsed<T> (*parse)(std::string_view), const Wanted& wanted) {
  auto read = parse(plain);
  if (!read) {
    reader.error(wanted.code, spot_of(reader, field),
                 fmt::format("{} was wanted, but {} {}", wanted.what, in_quotes(field.text), read.problem),
                 std::string(wanted.hint));
  }
  return read.value;
}

}  // namespace service::fleet
