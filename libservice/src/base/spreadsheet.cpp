// Headings as spreadsheets save them.
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

}  // namespace service
