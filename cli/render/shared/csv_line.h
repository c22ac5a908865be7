// How the lists of all answers are written as CSV: by the library's one writer.
#pragma once

#include "service/csv.h"

namespace cli {

using service::csv_line;
using service::csv_text;

}  // namespace cli
