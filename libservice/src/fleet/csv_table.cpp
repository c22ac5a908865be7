#include "fleet/csv_table.h"

#include <algorithm>

#include "service/text.h"

namespace service::fleet {
namespace {

void tell_of_quote(const Reader& reader, const CsvProblem& problem) {
  const Spot spot = reader.spot(reader.source().span_at(problem.at));
  switch (problem.kind) {
    case CsvProblemKind::bare_quote:
      return reader.error(code::bad_quote, spot, "a quote stands inside of a field that is not in quotes",
                          R"(put the whole field in quotes, and write the quote twice: "")");
    case CsvProblemKind::text_after_quote:
      return reader.error(code::bad_quote, spot, "a quoted field ends before this, and no separator follows",
                          R"(put the whole field in quotes; a quote inside of it is written twice: "")");
    case CsvProblemKind::unclosed_quote:
      return reader.error(code::bad_quote, spot, "the quote opened here is not closed on this line",
                          R"(close it; a quote inside of a quoted field is written twice: "")");
  }
}

// Spreadsheets save rows that were once used as nothing but commas.
bool is_blank_line(std::string_view written) { return written.find_first_not_of(" \t,;") == std::string_view::npos; }

}  // namespace

Spot spot_of(const Reader& reader, const CsvField& field) {
  Span span = reader.source().span_at(field.from);
  span.width = std::max(1, static_cast<int>(field.to - field.from));
  return reader.spot(span);
}

CsvTable::CsvTable(const Reader& reader, const Form& form)
    : reader_(reader), form_(form), rows_(reader.source().text(), 0, CsvLines::one_a_row) {}

bool CsvTable::is_blank() const {
  return is_blank_line(reader_.source().text().substr(row_.from, row_.to - row_.from));
}

// The next row that is not blank; false at the end. Rows with bad quotes are reported and passed over.
bool CsvTable::next_written() {
  while (rows_.next(row_)) {
    if (is_blank()) continue;
    if (row_.problems.empty()) return true;
    tell_of_quote(reader_, row_.problems.front());
    passed_over_ = true;
  }
  return false;
}

// Spreadsheets save columns that were once used: fields beyond the named ones, with nothing in them.
void CsvTable::cut_empty_end(std::vector<CsvField>& fields) const {
  while (fields.size() > header_.size() && fields.back().text.empty()) fields.pop_back();
}

bool CsvTable::begin() {
  if (next_written()) return read_header() && settle_dialect();
  reader_.error(code::empty_file, reader_.spot(Span{}), "the file holds nothing", std::string(form_.empty_hint));
  return false;
}

// How the file writes numbers and days, from all rows before one is believed.
bool CsvTable::settle_dialect() {
  CsvReader ahead = rows_;  // what is wrong with quotes is told by the reading that follows
  DialectSurvey survey;
  std::vector<Span> spans;
  CsvRow row;
  while (ahead.next(row)) {
    std::vector<CsvField>& fields = row.fields;
    cut_empty_end(fields);
    const bool blank = is_blank_line(reader_.source().text().substr(row.from, row.to - row.from));
    if (blank || !row.problems.empty() || fields.size() != header_.size()) continue;
    for (std::size_t i = 0; i < fields.size(); ++i) {
      if (header_[i] == nullptr || fields[i].text.empty() || header_[i]->holds == TableColumn::Holds::text) continue;
      const bool number = header_[i]->holds == TableColumn::Holds::number;
      number ? survey.number(fields[i].text, spans.size()) : survey.day(fields[i].text, spans.size());
      spans.push_back(spot_of(reader_, fields[i]).span);
    }
  }
  const auto diagnostics = survey.diagnostics();
  for (const DialectSurvey::FieldDiagnostic& diagnostic : diagnostics) {
    reader_.error(diagnostic.code == code::two_readings ? code::two_readings : code::mixed_dialect,
                  reader_.spot(spans[diagnostic.at]), diagnostic.message,
                  "write numbers as 1250.5 without a mark between thousands, and days as 2026-03-01");
  }
  dialect_ = survey.dialect();
  return diagnostics.empty();
}

// Without the columns that are required, no row is read.
bool CsvTable::read_header() {
  std::vector<std::string> names;
  for (const TableColumn& column : form_.columns) names.emplace_back(column.name);
  const std::vector<CsvField>& fields = row_.fields;
  std::size_t named = fields.size();
  while (named > 0 && fields[named - 1].text.empty()) --named;
  for (const CsvField& field : std::span(fields).first(named)) {
    const std::string name = column_name(field.text);
    const std::string_view today = form_.name_today != nullptr ? form_.name_today(name) : std::string_view(name);
    const auto known = std::find_if(form_.columns.begin(), form_.columns.end(),
                                    [&](const TableColumn& column) { return column.name == today; });
    const Spot spot = spot_of(reader_, field);
    if (known == form_.columns.end()) {
      reader_.error(code::unknown_column, spot, fmt::format("there is no column {}", in_quotes(name)),
                    nearest_or(name, names, "the columns are " + listed(names, "and")));
      header_.push_back(nullptr);
    } else if (std::find(header_.begin(), header_.end(), &*known) != header_.end()) {
      reader_.error(code::duplicate_column, spot, fmt::format("the column `{}` is here twice", known->name),
                    "keep one of them");
      header_.push_back(nullptr);
    } else {
      header_.push_back(&*known);
    }
  }
  bool complete = true;
  for (const TableColumn& column : form_.columns) {
    if (!column.required || std::find(header_.begin(), header_.end(), &column) != header_.end()) continue;
    complete = false;
    reader_.error(code::missing_column, spot_of(reader_, fields[0]),
                  fmt::format("there is no column `{}`", column.name), "name it in the header, the first line");
  }
  return complete;
}

bool CsvTable::next(TableRow& row) {
  while (next_written()) {
    std::vector<CsvField>& fields = row_.fields;
    cut_empty_end(fields);
    Span whole = reader_.source().span_at(fields.front().from);
    whole.width = std::max(1, static_cast<int>(fields.back().to - fields.front().from));
    row.spot = reader_.spot(whole);
    if (fields.size() != header_.size()) {
      reader_.error(code::ragged_row, row.spot,
                    fmt::format("the row has {}, but the header has {}",
                                counted(static_cast<std::int64_t>(fields.size()), "field", "fields"), header_.size()),
                    "put a field that holds a separator in quotes, and write a separator for each empty field");
      passed_over_ = true;
      continue;  // its values stand under the wrong names
    }
    row.fields.assign(form_.columns.size(), nullptr);
    for (std::size_t i = 0; i < fields.size(); ++i) {
      if (header_[i] == nullptr) continue;
      if (!fields[i].text.empty()) {
        row.fields[static_cast<std::size_t>(header_[i] - form_.columns.data())] = &fields[i];
      } else if (header_[i]->required) {
        reader_.error(code::empty_value, spot_of(reader_, fields[i]),
                      fmt::format("`{}` has no value", header_[i]->name), "fill it in, or delete the row");
      }
    }
    return true;
  }
  return false;
}

}  // namespace service::fleet
