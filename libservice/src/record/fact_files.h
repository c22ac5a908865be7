// The two forms of a file of facts.
#pragma once

#include <cstddef>
#include <string_view>

#include "base/places.h"
#include "service/record.h"

namespace service::record {

// `from` is behind a byte order mark. Diagnostics, rows and the rejected go into `read`.
void read_csv(std::string_view text, std::size_t from, const Places& places, const Dialect& told,
              const Progress& progress, FactsRead& read);
void read_json_lines(std::string_view text, std::size_t from, const Places& places, const Progress& progress,
                     FactsRead& read);

}  // namespace service::record
