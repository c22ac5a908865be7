// Lists as CSV (RFC 4180) that a spreadsheet can open without starting a formula.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "service/standing.h"

namespace cli {

struct Book;

std::string csv_line(const std::vector<std::string>& cells);  // with its line end

// One cell of text: quoted where needed; what would start a formula is led by an apostrophe.
std::string csv_text(std::string_view text);

// Points, gaps and machines out of use or laid up, told apart by the first column.
std::string due_as_csv(const service::DueList& list, std::optional<std::size_t> first);
std::string history_as_csv(const Book& book);

// The columns that `import` reads, with blanks for day and value. A row left blank stays unknown.
std::string find_out_as_csv(const service::DueList& list);

}  // namespace cli
