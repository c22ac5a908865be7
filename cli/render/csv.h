// The book of a machine as CSV.
#pragma once

#include <string>

namespace cli {

struct Book;

std::string history_as_csv(const Book& book);

}  // namespace cli
