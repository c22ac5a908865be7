#include "record/fact_files.h"

namespace service {

using namespace record;

FactsRead read_facts(std::string_view bytes, const std::string& file, const Dialect& told, const Progress& progress) {
  FactsRead read;
  const auto unreadable = [&](std::string code, std::string message, std::string hint) {
    read.unreadable = true;
    read.diagnostics.push_back({std::move(code), std::move(message), std::move(hint), Place{file, 1, 1, 1, {}}});
    return read;
  };
  read.understood.utf16 = is_utf16(bytes);
  const auto decoded = read.understood.utf16 ? from_utf16(bytes) : std::nullopt;
  if (read.understood.utf16 && !decoded) {
    return unreadable("not-utf8", "the file is UTF-16 text that is cut off or broken", "save it as CSV in UTF-8");
  }
  const std::string_view text = decoded ? *decoded : bytes;
  const Places places(text, file);
  const std::size_t from = text.starts_with("\xef\xbb\xbf") ? 3 : 0;
  const std::size_t first = text.find_first_not_of(" \t\r\n", from);
  if (first == std::string_view::npos) {
    return unreadable("empty-file", "the file is empty", "it needs at least a header row of columns");
  }
  read.understood.json_lines = text[first] == '{';
  if (read.understood.json_lines) {
    read_json_lines(text, from, places, progress, read);
  } else {
    read_csv(text, from, places, told, progress, read);
  }
  return read;
}

}  // namespace service
