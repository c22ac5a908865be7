#include "fleet/open_quote.h"

#include <algorithm>

namespace service::fleet {
namespace {

// Where a value or key may begin: at the start of the line, or behind one of the marks that come before values.
bool at_start_of_value(std::string_view line, std::size_t column) {
  const std::size_t last = column == 0 ? std::string_view::npos : line.find_last_not_of(" \t", column - 1);
  if (last == std::string_view::npos) return true;
  const char before = line[last];
  const bool in_brackets = before == '[' || before == '{' || before == ',';
  return in_brackets || (last + 1 < column && (before == ':' || before == '-' || before == '?'));
}

// The column of an unclosed quote, looking from a column on.
std::optional<std::size_t> open_quote_in(std::string_view line, std::size_t from) {
  std::size_t i = from;
  while (i < line.size()) {
    const char c = line[i];
    if (c == '#' && (i == 0 || line[i - 1] == ' ' || line[i - 1] == '\t')) return std::nullopt;
    if ((c == '"' || c == '\'') && at_start_of_value(line, i)) {
      const auto length = end_of_quoted(line.substr(i));
      if (!length) return i;
      i += *length;
    } else {
      ++i;
    }
  }
  return std::nullopt;
}

}  // namespace

bool opens_quote(std::string_view rest_of_line) {
  return rest_of_line.starts_with('"') || rest_of_line.starts_with('\'');
}

std::optional<std::size_t> end_of_quoted(std::string_view rest_of_line) {
  if (!opens_quote(rest_of_line)) return std::nullopt;
  const char quote = rest_of_line.front();
  for (std::size_t i = 1; i < rest_of_line.size(); ++i) {
    if (quote == '"' && rest_of_line[i] == '\\') {
      ++i;
    } else if (rest_of_line[i] == quote) {
      const bool doubled = quote == '\'' && i + 1 < rest_of_line.size() && rest_of_line[i + 1] == quote;
      if (!doubled) return i + 1;
      ++i;
    }
  }
  return std::nullopt;
}

std::optional<Span> open_quote_between(const Source& source, Span from, Span to) {
  for (int line = from.line; line <= std::min(to.line, source.lines() - 1); ++line) {
    const auto start = line == from.line ? static_cast<std::size_t>(from.column) : 0;
    if (const auto column = open_quote_in(source.line(line), start)) return Span{line, static_cast<int>(*column), 1};
  }
  return std::nullopt;
}

void report_open_quote(const Source& source, Span span, Diagnostics& diagnostics) {
  diagnostics.error(code::unclosed_quote, {&source, span}, "the quote opened here is not closed on this line",
                    "close it; for text of several lines write `key: |` and the text indented below it");
}

}  // namespace service::fleet
