// What a command line says of the numbers and days of a file.
#pragma once

#include "parser.h"
#include "service/spreadsheet.h"

namespace cli {

// --decimal and --dates. Fails with usage.
service::Dialect told_dialect(const Arguments& arguments);

}  // namespace cli
