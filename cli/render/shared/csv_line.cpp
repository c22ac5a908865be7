#include "render/shared/csv_line.h"

#include <fmt/format.h>

namespace cli {

std::string csv_line(const std::vector<std::string>& cells) { return fmt::format("{}\r\n", fmt::join(cells, ",")); }

std::string csv_text(std::string_view text) {
  std::string cell;
  const std::string_view starters = "=+-@\t\r\n";
  const bool full_width =
      text.starts_with("＝") || text.starts_with("＋") || text.starts_with("－") || text.starts_with("＠");
  if (!text.empty() && (starters.find(text.front()) != std::string_view::npos || full_width)) cell = '\'';
  bool quoted = text.find_first_of(",;\"\r\n\t") != std::string_view::npos;
  quoted = quoted || (!text.empty() && (text.front() == ' ' || text.back() == ' '));
  for (const char c : text) {
    if (c == '"') cell += '"';
    cell += c;
  }
  return quoted ? '"' + cell + '"' : cell;
}

std::string decimal(double value) { return fmt::format("{:.3f}", value); }
std::string share(const std::optional<double>& value) { return value ? fmt::format("{:.4f}", *value) : ""; }

}  // namespace cli
