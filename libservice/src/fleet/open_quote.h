// Quotes that are not closed on their own line.
//
// YAML lets quoted text run over lines. One forgotten quote can then swallow whole machines up to the next quote in
// the file, and the rest still reads well. So here quoted text ends on its line, and longer text is written with `|`.
#pragma once

#include <optional>
#include <string_view>

#include "fleet/diagnostics.h"

namespace service::fleet {

bool opens_quote(std::string_view rest_of_line);

// The length of the quoted text at the start, quotes included; nothing where it is not closed or not quoted.
std::optional<std::size_t> end_of_quoted(std::string_view rest_of_line);

// The first quote from one place up to another that is not closed on its line.
std::optional<Span> open_quote_between(const Source& source, Span from, Span to);

void report_open_quote(const Source& source, Span span, Diagnostics& diagnostics);

}  // namespace service::fleet
