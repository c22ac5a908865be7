#include "record/fact_files.h"

namespace service {

using namespace record;

FactsRead read_facts(std::string_view text, const std::string& file) {
  FactsRead read;
  if (text.starts_with("\xff\xfe") || text.starts_with("\xfe\xff")) {
    read.mistakes.push_back(
        {"not-utf8", "the file is UTF-16 text", "save it as CSV in UTF-8", Place{file, 1, 1, 1, {}}});
    return read;
  }
  const Places places(text, file);
  const std::size_t from = text.starts_with("\xef\xbb\xbf") ? 3 : 0;
  const std::size_t first = text.find_first_not_of(" \t\r\n", from);
  if (first == std::string_view::npos) {
    read.mistakes.push_back(
        {"empty-file", "the file is empty", "it needs at least a header row of columns", Place{file, 1, 1, 1, {}}});
    return read;
  }
  read.json_lines = text[first] == '{';
  if (read.json_lines) {
    read_json_lines(text, from, places, read);
  } else {
    read_csv(text, from, places, read);
  }
  return read;
}

}  // namespace service
