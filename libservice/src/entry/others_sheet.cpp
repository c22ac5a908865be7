#include "entry/others_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "base/csv_reader.h"
#include "service/csv.h"

namespace service::entry {
namespace {

constexpr std::string_view utf8_mark = "\xef\xbb\xbf";

[[noreturn]] void refuse(const std::string& file, std::string code, std::string message, std::string hint) {
  throw Failure(FailureKind::bad_data, {std::move(code), cleaned(file) + ' ' + std::move(message), std::move(hint)});
}

std::pair<std::string, TextEncoding> decoded(std::string_view bytes, const std::string& file) {
  constexpr std::string_view hint = "save it as CSV with the encoding UTF-8";
  if (is_utf16(bytes)) {
    auto text = from_utf16(bytes);
    if (!text) refuse(file, "bad-text", "is broken UTF-16", std::string(hint));
    return {std::move(*text), TextEncoding::utf16};
  }
  if (bytes.find('\0') != std::string_view::npos) refuse(file, "bad-text", "is no text", std::string(hint));
  if (!first_bad_utf8(bytes)) return {std::string(bytes), TextEncoding::utf8};
  auto text = from_windows_1252(bytes);
  if (!text) refuse(file, "bad-text", "is neither UTF-8, UTF-16 nor Windows-1252", std::string(hint));
  return {std::move(*text), TextEncoding::windows_1252};
}

bool is_blank(const SheetRow& row) {
  return std::all_of(row.fields.begin(), row.fields.end(), [](const SheetField& field) { return field.text.empty(); });
}

enum class EmptyEnd { cut, keep };

SheetRow taken(const CsvRow& row, std::string_view text, const Places& places, EmptyEnd end = EmptyEnd::cut) {
  SheetRow out;
  out.from = row.from;
  out.line = places.line_of(row.from);
  out.raw = text.substr(row.from, row.to - row.from);
  out.quotes_wrong = !row.problems.empty();
  for (const CsvField& field : row.fields) out.fields.push_back({in_one_line(text_of_cell(field.text)), field.from});
  while (end == EmptyEnd::cut && !out.fields.empty() && out.fields.back().text.empty()) out.fields.pop_back();
  return out;
}

struct Header {
  std::size_t from = 0;
  char separator = ',';
};

constexpr std::array<char, 3> separators{';', '\t', ','};

// Of a first row that nobody knows: what parts it into most fields.
char likeliest_separator(std::string_view text, std::size_t from) {
  char likeliest = separators.front();
  std::size_t most = 0;
  for (const char separator : separators) {
    CsvReader reader(text, from, CsvLines::one_a_row, separator);
    CsvRow row;
    if (!reader.next(row) || row.fields.size() <= most) continue;
    most = row.fields.size();
    likeliest = separator;
  }
  return likeliest;
}

// Each line is tried as a header by itself, for a title above it would hide what parts the fields; and with each
// separator, for a heading may hold another one.
Header find_header(const std::string& text, std::size_t from, const Places& places,
                   const std::function<bool(const SheetRow& row)>& is_header) {
  constexpr int most_lines = 30;
  std::size_t at = from;
  for (int line = 0; line < most_lines && at < text.size(); ++line) {
    for (const char separator : separators) {
      CsvReader reader(text, at, CsvLines::many_a_field, separator);
      CsvRow row;
      if (reader.next(row) && row.problems.empty() && is_header(taken(row, text, places))) return {row.from, separator};
    }
    const std::size_t end = text.find('\n', at);
    if (end == std::string::npos) break;
    at = end + 1;
  }
  return {from, likeliest_separator(text, from)};
}

}  // namespace

std::string in_one_line(std::string_view text) {
  constexpr std::array<std::string_view, 4> blanks{"\u00a0", "\u202f", "\u2007", "\u2009"};
  std::string line;
  const auto blank = [&] {
    if (!line.empty() && line.back() != ' ') line += ' ';
  };
  while (!text.empty()) {
    const auto wide =
        std::find_if(blanks.begin(), blanks.end(), [&](std::string_view b) { return text.starts_with(b); });
    if (wide != blanks.end()) {
      blank();
      text.remove_prefix(wide->size());
      continue;
    }
    const auto byte = static_cast<unsigned char>(text.front());
    if (byte <= 0x20) {
      blank();
    } else if (byte != 0x7f) {
      line += text.front();
    }
    text.remove_prefix(1);
  }
  if (line.ends_with(' ')) line.pop_back();
  return line;
}

Sheet read_sheet(std::string_view bytes, const std::string& file,
                 const std::function<bool(const SheetRow& row)>& is_header) {
  Sheet sheet;
  std::tie(sheet.text, sheet.encoding) = decoded(bytes, file);
  const Places places(sheet.text, file);
  const std::size_t begin = sheet.text.starts_with(utf8_mark) ? utf8_mark.size() : 0;
  const Header header = find_header(sheet.text, begin, places, is_header);
  CsvRow row;
  if (header.from > begin) {
    const std::string_view before = std::string_view(sheet.text).substr(0, header.from);
    for (CsvReader above(before, begin, CsvLines::one_a_row, header.separator); above.next(row);) {
      if (SheetRow title = taken(row, sheet.text, places); !is_blank(title)) sheet.above.push_back(std::move(title));
    }
  }
  CsvReader reader(sheet.text, header.from, CsvLines::many_a_field, header.separator);
  sheet.separator = reader.separator();
  if (!reader.next(row)) refuse(file, "empty-file", "holds nothing", "save the list of machines as CSV");
  sheet.header = taken(row, sheet.text, places, EmptyEnd::keep);
  while (reader.next(row)) {
    if (SheetRow next = taken(row, sheet.text, places); !is_blank(next)) sheet.rows.push_back(std::move(next));
  }
  return sheet;
}

}  // namespace service::entry
