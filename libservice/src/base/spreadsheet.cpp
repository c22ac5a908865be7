// Text as spreadsheets save it: headings, and what separates fields.
#include "service/base.h"

namespace service {

std::string column_name(std::string_view heading) {
  while (heading.starts_with(' ')) heading.remove_prefix(1);
  while (heading.ends_with(' ')) heading.remove_suffix(1);
  std::string name;
  for (const char c : heading) {
    const bool capital = c >= 'A' && c <= 'Z';
    name += capital ? static_cast<char>(c - 'A' + 'a') : c == ' ' || c == '_' ? '-' : c;
  }
  return name;
}

std::size_t separator_line(std::string_view text) {
  if (!text.starts_with("sep=") || text.size() < 6 || (text[5] != '\n' && text.substr(5, 2) != "\r\n")) return 0;
  return text[5] == '\n' ? 6 : 7;
}

char csv_separator(std::string_view header) {
  bool quoted = false;
  for (const char c : header) {
    if (c == '"') quoted = !quoted;
    if (!quoted && (c == ',' || c == ';' || c == '\t')) return c;
  }
  return ',';
}

}  // namespace service
