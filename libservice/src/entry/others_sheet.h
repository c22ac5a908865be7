// A spreadsheet of somebody else's as rows of trimmed fields, its header found, and nothing of what they mean.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/places.h"
#include "service/taking_over.h"

namespace service::entry {

struct SheetField {
  std::string text;  // in one line, without blanks around it
  std::size_t from = 0;
};

struct SheetRow {
  std::vector<SheetField> fields;
  std::size_t from = 0;
  int line = 0;
  std::string raw;
  bool quotes_wrong = false;  // nobody knows where its fields end
};

struct Sheet {
  TextEncoding encoding = TextEncoding::utf8;
  std::string text;  // as UTF-8
  char separator = ',';
  std::vector<SheetRow> above;  // titles and the like, before the header
  SheetRow header;              // its fields without heading too, also at its end
  std::vector<SheetRow> rows;   // without those that are blank
};

// The header is the first row that `is_header` takes for one; else the first row. Fails with bad_data where it is no
// text, or holds nothing.
Sheet read_sheet(std::string_view bytes, const std::string& file,
                 const std::function<bool(const SheetRow& row)>& is_header);

// Line breaks and blanks of all kinds as one blank each, none at either end, control characters left out.
std::string in_one_line(std::string_view text);

}  // namespace service::entry
