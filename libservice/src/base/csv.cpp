#include "service/csv.h"

#include <algorithm>
#include <array>

namespace service {
namespace {

// What any of them, or an apostrophe in front of one, begins with.
constexpr std::string_view first_bytes_of_formulas = "=+-@\t\r\n\xef'";

bool starts_formula(std::string_view text) {
  constexpr std::array<std::string_view, 11> starts = {"=",  "+",      "-",      "@",      "\t",    "\r",
                                                       "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20"};
  return std::any_of(starts.begin(), starts.end(), [&](std::string_view start) { return text.starts_with(start); });
}

// Whether it would start a formula, were it not for the apostrophes in front.
bool starts_formula_behind_apostrophes(std::string_view text) {
  if (text.empty() || first_bytes_of_formulas.find(text.front()) == std::string_view::npos) return false;
  return starts_formula(text.substr(std::min(text.find_first_not_of('\''), text.size())));
}

// Wherever it stands in a cell.
bool needs_quotes(char c) { return c == ',' || c == ';' || c == '"' || c == '\r' || c == '\n' || c == '\t'; }

}  // namespace

std::string csv_text(std::string_view text) {
  std::string cell;
  if (starts_formula_behind_apostrophes(text)) cell = '\'';
  bool quoted = std::any_of(text.begin(), text.end(), needs_quotes);
  quoted = quoted || text.starts_with(' ') || text.ends_with(' ');
  if (!quoted) return cell.append(text);
  for (const char c : text) {
    if (c == '"') cell += '"';
    cell += c;
  }
  return '"' + cell + '"';
}

std::string_view text_of_cell(std::string_view cell) {
  const bool is_guarded = cell.starts_with('\'') && starts_formula_behind_apostrophes(cell);
  return is_guarded ? cell.substr(1) : cell;
}

std::string csv_line(const std::vector<std::string>& cells, std::string_view end) {
  const std::vector<std::string_view> views(cells.begin(), cells.end());
  return csv_line(std::span(views), end);
}

std::string csv_line(std::span<const std::string_view> cells, std::string_view end) {
  // A line with nothing on it is no row.
  if (cells.size() == 1 && cells.front().empty()) return "\"\"" + std::string(end);
  std::size_t size = cells.size() + end.size();
  for (const std::string_view cell : cells) size += cell.size();
  std::string line;
  line.reserve(size);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i != 0) line += ',';
    line += cells[i];
  }
  return line.append(end);
}

}  // namespace service
