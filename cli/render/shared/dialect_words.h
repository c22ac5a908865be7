// How a file of somebody's spreadsheet was read, in words.
#pragma once

#include <string>

#include "service/spreadsheet.h"

namespace cli {

std::string separator_word(char separator);  // `semicolons`

// `, decimal comma (told by `1250,5`), day first in days`; empty where no field of the file needs it. What the user
// told is marked as such.
std::string dialect_words(const service::Dialect& dialect, const std::string& number_settled_by,
                          const std::string& dates_settled_by, const service::Dialect& told = {});

// What says the same on the command line: ` --decimal comma --dates day-first`.
std::string dialect_options(const service::Dialect& dialect);

}  // namespace cli
