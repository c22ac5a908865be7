// Facts from CSV and to CSV.
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <span>

#include "base/csv_reader.h"
#include "record/fact_files.h"
#include "record/fact_rows.h"
#include "service/csv.h"

namespace service {
namespace record {
namespace {

// None: for people, as the cautions of a list to find out, and that nobody may run the machine; nothing is read from
// it. Columns without a name at the end of the header are left out.
using Header = std::vector<std::optional<Column>>;

constexpr std::string_view for_people[] = {"cautions", "do-not-run"};

bool is_for_people(std::string_view name) {
  return std::find(std::begin(for_people), std::end(for_people), name) != std::end(for_people);
}

void tell_of_quotes(const CsvRow& row, const Places& places, FactsRead& read) {
  const auto tell = [&](std::size_t at, const char* code, const char* message, const char* hint) {
    read.diagnostics.push_back({code, message, hint, places.at(at)});
  };
  for (const CsvProblem& problem : row.problems) {
    switch (problem.kind) {
      case CsvProblemKind::bare_quote:
        tell(problem.at, "bare-quote", "a quote stands inside a field that does not begin with one",
             "put quotes around the whole field, and write a quote inside it twice");
        break;
      case CsvProblemKind::text_after_quote:
        tell(problem.at, "text-after-quote", "text follows the quote that closes this field",
             "write a quote inside a quoted field twice");
        break;
      case CsvProblemKind::unclosed_quote:
        tell(problem.at, "unclosed-quote", "this quote is never closed", "close the field with a quote");
        break;
    }
  }
}

// Which column each field is; nothing where something is wrong with the header, for then no row can be believed.
std::optional<Header> read_header(const CsvRow& row, const Places& places, FactsRead& read) {
  Header header;
  const std::size_t told = read.diagnostics.size();
  const auto tell = [&](std::size_t at, std::string code, std::string message, std::string hint) {
    read.diagnostics.push_back({std::move(code), std::move(message), std::move(hint), places.at(at)});
  };
  tell_of_quotes(row, places, read);
  std::size_t named = row.fields.size();
  while (named > 0 && row.fields[named - 1].text.empty()) --named;
  for (const CsvField& field : std::span(row.fields).first(named)) {
    const auto column = parse_column(column_name(field.text));
    if (!column && is_for_people(column_name(field.text))) {
      header.emplace_back();
      continue;
    }
    if (!column) {
      tell(field.from, "unknown-column",
           field.text.empty() ? "a column has no name" : fmt::format("unknown column `{}`", cleaned(field.text)),
           nearest_column(column_name(field.text), "take the column out; `export` shows the names of all columns"));
      continue;
    }
    for (const auto& earlier : header) {
      if (earlier != column) continue;
      tell(field.from, "duplicate-column", fmt::format("the column `{}` is there twice", field.text),
           "take one of the two out");
      break;
    }
    header.push_back(column);
  }
  if (read.diagnostics.size() != told) return std::nullopt;
  return header;
}

// Spreadsheets save columns that were once used: fields beyond the named ones, with nothing in them.
void cut_empty_end(CsvRow& row, std::size_t columns) {
  while (row.fields.size() > columns && row.fields.back().text.empty()) row.fields.pop_back();
}

bool is_day(Column column) { return column == Column::on || column == Column::until; }

// How numbers and days are written, from a reader that stands behind the header; false where the file leaves it open.
bool settle_dialect(CsvReader reader, const Header& header, const Places& places, const Dialect& told,
                    FactsRead& read) {
  DialectSurvey survey(told);
  std::string last_day;  // lists are mostly by days, and what one tells it tells once
  CsvRow row;
  while (reader.next(row)) {
    cut_empty_end(row, header.size());
    if (!row.problems.empty() || row.fields.size() != header.size()) continue;  // its fields may be others'
    for (std::size_t i = 0; i < header.size(); ++i) {
      const CsvField& field = row.fields[i];
      if (field.text.empty() || !header[i]) continue;
      if (is_number(*header[i])) survey.number(field.text, field.from);
      if (is_day(*header[i]) && field.text != last_day) {
        survey.day(field.text, field.from);
        last_day = field.text;
      }
    }
  }
  const auto diagnostics = survey.diagnostics();
  for (const DialectSurvey::FieldDiagnostic& diagnostic : diagnostics) {
    read.diagnostics.push_back({diagnostic.code, diagnostic.message, diagnostic.hint, places.at(diagnostic.at),
                                Severity::error, diagnostic.cures});
  }
  read.unreadable = !diagnostics.empty();
  read.understood.dialect = survey.dialect();
  read.understood.number_settled_by = survey.number_settled_by();
  read.understood.dates_settled_by = survey.dates_settled_by();
  return diagnostics.empty();
}

// True where the row is a fact, or nothing; else what is wrong with it is told.
bool read_row(CsvRow& row, const Header& header, bool plain, const Places& places, FactsRead& read) {
  tell_of_quotes(row, places, read);
  if (!row.problems.empty()) return false;
  cut_empty_end(row, header.size());
  if (row.fields.size() != header.size()) {
    const bool several_lines = places.line_of(row.from) != places.line_of(row.to);
    read.diagnostics.push_back(
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
    if (!header[i]) continue;
    const Column column = *header[i];
    Cell& cell = cells.cells[index_of(column)];
    cell.from = row.fields[i].from;
    if (text_member(column) != nullptr) {
      cell.text = text_of_cell(row.fields[i].text);
    } else if (!plain && is_number(column)) {
      cell.text = plain_number(row.fields[i].text, read.understood.dialect);
    } else if (!plain && is_day(column)) {
      cell.text = plain_day(row.fields[i].text, read.understood.dialect);
    } else {
      cell.text = std::move(row.fields[i].text);
    }
  }
  return take_row(cells, places, read);
}

}  // namespace

void read_csv(std::string_view text, std::size_t from, const Places& places, const Dialect& told,
              const Progress& progress, FactsRead& read) {
  CsvReader reader(text, from, CsvLines::many_a_field);
  read.understood.separator = reader.separator();
  CsvRow row;
  if (!reader.next(row)) return;
  read.header = text.substr(row.from, row.to - row.from);
  const auto header = read_header(row, places, read);
  if (!header) {
    read.unreadable = true;
    return;
  }
  // What `export` wrote is plain: there `4.125` is no 4125.
  const bool plain = std::find(header->begin(), header->end(), Column::id) != header->end();
  if (!plain && !settle_dialect(reader, *header, places, told, read)) return;
  read.rows.reserve(places.lines());  // no more than these, and rows are large
  while (reader.next(row)) {
    if (progress) progress(row.from, text.size());
    const std::string_view raw = text.substr(row.from, row.to - row.from);
    if (!read_row(row, *header, plain, places, read)) {
      read.rejected.push_back({places.line_of(row.from), std::string(raw)});
    } else if (!read.rows.empty() && read.rows.back().raw.empty()) {
      read.rows.back().raw = raw;
    }
  }
}

}  // namespace record

std::string facts_to_csv(const std::vector<Fact>& facts) {
  using namespace record;
  constexpr std::string_view line_end = "\n";
  std::vector<std::string> cells;
  for (std::size_t i = 0; i < column_count; ++i) cells.emplace_back(to_text(column_at(i)));
  std::string csv = csv_line(cells, line_end);
  for (const Fact& fact : facts) {
    for (std::size_t i = 0; i < column_count; ++i) {
      const Column column = column_at(i);
      cells[i] = has(fact, column) ? text_of(fact, column) : "";
      if (text_member(column) != nullptr) cells[i] = csv_text(cells[i]);
    }
    csv += csv_line(cells, line_end);
  }
  return csv;
}

}  // namespace service
