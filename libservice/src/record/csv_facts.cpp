// Facts from CSV and to CSV.
#include <fmt/format.h>

#include <optional>

#include "record/csv.h"
#include "record/fact_files.h"
#include "record/fact_rows.h"

namespace service {
namespace record {
namespace {

using Header = std::vector<Column>;

// Which column each field is; nothing where the header has a mistake, for then no row can be believed.
std::optional<Header> read_header(const CsvRow& row, const Places& places, FactsRead& read) {
  Header header;
  const std::size_t told = read.mistakes.size();
  const auto tell = [&](std::size_t at, std::string code, std::string message, std::string hint) {
    read.mistakes.push_back({std::move(code), std::move(message), std::move(hint), places.at(at)});
  };
  for (const CsvProblem& problem : row.problems) tell(problem.at, problem.code, problem.message, problem.hint);
  for (const CsvField& field : row.fields) {
    const auto column = parse_column(field.text);
    if (!column) {
      const std::string near = nearest_column(field.text);
      tell(field.from, "unknown-column",
           field.text.empty() ? "a column has no name" : fmt::format("unknown column `{}`", cleaned(field.text)),
           near.empty() ? "take the column out; `export` shows the names of all columns" : near);
      continue;
    }
    for (const Column earlier : header) {
      if (earlier != *column) continue;
      tell(field.from, "duplicate-column", fmt::format("the column `{}` is there twice", field.text),
           "take one of the two out");
      break;
    }
    header.push_back(*column);
  }
  if (read.mistakes.size() != told) return std::nullopt;
  return header;
}

// True where the row is a fact, or nothing; else its mistakes are told.
bool read_row(CsvRow& row, const Header& header, const Places& places, FactsRead& read) {
  for (const CsvProblem& problem : row.problems) {
    read.mistakes.push_back({problem.code, problem.message, problem.hint, places.at(problem.at)});
  }
  if (!row.problems.empty()) return false;
  if (row.fields.size() != header.size()) {
    const bool several_lines = places.line_of(row.from) != places.line_of(row.to);
    read.mistakes.push_back(
        {"ragged-row",
         fmt::format("the row has {}, and the header has {}",
                     counted(static_cast<std::int64_t>(row.fields.size()), "field", "fields"), header.size()),
         several_lines ? "the row runs over several lines: look for a quote too many"
                       : "give each column a field, empty where it does not apply; quote what holds a comma",
         places.at(row.from)});
    return false;
  }
  CellRow cells;
  cells.from = row.from;
  for (std::size_t i = 0; i < header.size(); ++i) {
    Cell& cell = cells.cells[index_of(header[i])];
    cell.from = row.fields[i].from;
    const bool is_text = text_member(header[i]) != nullptr;
    cell.text = is_text ? std::string(unguarded_text(row.fields[i].text)) : std::move(row.fields[i].text);
  }
  return take_row(cells, places, read);
}

}  // namespace

void read_csv(std::string_view text, std::size_t from, const Places& places, FactsRead& read) {
  CsvReader reader(text, from);
  CsvRow row;
  if (!reader.next(row)) return;
  read.header = text.substr(row.from, row.to - row.from);
  const auto header = read_header(row, places, read);
  if (!header) return;
  while (reader.next(row)) {
    if (!read_row(row, *header, places, read)) read.rejected.emplace_back(text.substr(row.from, row.to - row.from));
  }
}

}  // namespace record

std::string facts_to_csv(const std::vector<Fact>& facts) {
  using namespace record;
  std::string csv;
  for (std::size_t i = 0; i < column_count; ++i) {
    if (i != 0) csv += ',';
    csv += to_text(column_at(i));
  }
  csv += '\n';
  for (const Fact& fact : facts) {
    for (std::size_t i = 0; i < column_count; ++i) {
      if (i != 0) csv += ',';
      const Column column = column_at(i);
      if (!has(fact, column)) continue;
      const std::string text = text_of(fact, column);
      csv += csv_field(text_member(column) != nullptr ? guarded_text(text) : text);
    }
    csv += '\n';
  }
  return csv;
}

}  // namespace service
