#include "fleet/csv_rows.h"

#include <algorithm>

#include "fleet/open_quote.h"

namespace service::fleet {

std::string CsvField::value() const {
  std::string value;
  value.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    value += text[i];
    if (escaped && text[i] == '"') ++i;
  }
  return value;
}

bool CsvRows::next(std::vector<CsvField>& fields) {
  while (++line_ < source_.lines()) {
    // Spreadsheets save rows that were once used as nothing but commas.
    if (source_.line(line_).find_first_not_of(" \t,;") == std::string_view::npos) continue;
    if (split(fields)) return true;
    passed_over_ = true;
  }
  return false;
}

bool CsvRows::split(std::vector<CsvField>& fields) {
  fields.clear();
  const std::string_view line = source_.line(line_);
  std::size_t at = 0;
  while (true) {
    const Span start{line_, static_cast<int>(at), 1};
    if (at < line.size() && line[at] == '"') {
      std::size_t end = at + 1;
      bool escaped = false;
      while (end < line.size() && (line[end] != '"' || (end + 1 < line.size() && line[end + 1] == '"'))) {
        if (line[end] == '"') escaped = true;
        end += line[end] == '"' ? 2 : 1;
      }
      if (end >= line.size()) {
        findings_.error(code::bad_quote, {&source_, start}, "the quote opened here is not closed on this line",
                        R"(close it; a quote inside of a quoted field is written twice: "")");
        return false;
      }
      fields.push_back(
          {line.substr(at + 1, end - at - 1), {line_, start.column, static_cast<int>(end + 1 - at)}, escaped});
      at = end + 1;
      if (at < line.size() && line[at] != separator_) {
        findings_.error(code::bad_quote, {&source_, {line_, static_cast<int>(at), 1}},
                        "a quoted field ends before this, and no separator follows",
                        R"(put the whole field in quotes; a quote inside of it is written twice: "")");
        return false;
      }
    } else {
      const std::size_t end = std::min(line.find(separator_, at), line.size());
      const std::string_view text = line.substr(at, end - at);
      const std::size_t quote = text.find('"');
      if (quote != std::string_view::npos) {
        findings_.error(code::bad_quote, {&source_, {line_, static_cast<int>(at + quote), 1}},
                        "a quote stands inside of a field that is not in quotes",
                        R"(put the whole field in quotes, and write the quote twice: "")");
        return false;
      }
      fields.push_back({text, {line_, start.column, std::max(1, static_cast<int>(text.size()))}, false});
      at = end;
    }
    if (at >= line.size()) return true;
    ++at;  // the separator; a field follows it even at the end of the line
  }
}

}  // namespace service::fleet
