#include "fleet/register.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "base/csv_reader.h"
#include "fleet/guard.h"
#include "fleet/reader.h"
#include "service/csv.h"

namespace service::fleet {
namespace {

// A row while it is read. A start and its meter value stand in columns of their own, in any order.
struct Row {
  MachineDraft draft;
  const CsvField* in_service = nullptr;
  const CsvField* at = nullptr;
  const CsvField* bought = nullptr;
  const CsvField* bought_at = nullptr;
  const Dialect* dialect = nullptr;  // how the file writes numbers and days
};

struct Column {
  std::string_view name;
  void (*read)(const Reader& reader, const CsvField& field, Row& row);  // of a field that is not empty
  enum class Holds { text, day, number } holds = Holds::text;
  bool required = false;
};

Spot spot_of(const Reader& reader, const CsvField& field) {
  Span span = reader.source().span_at(field.from);
  span.width = std::max(1, static_cast<int>(field.to - field.from));
  return reader.spot(span);
}

template <class T>
std::optional<T> parsed(const Reader& reader, const CsvField& field, const std::string& plain,
                        Parsed<T> (*parse)(std::string_view), const Wanted& wanted) {
  auto read = parse(plain);
  if (!read) {
    reader.error(wanted.code, spot_of(reader, field),
                 fmt::format("{} was wanted, but {} {}", wanted.what, in_quotes(field.text), read.problem),
                 std::string(wanted.hint));
  }
  return read.value;
}

std::optional<Amount> amount_in(const Reader& reader, const CsvField& field, const Dialect& dialect) {
  return parsed(reader, field, plain_number(field.text, dialect), parse_amount, wanted::number);
}

void read_condition_list(const Reader& reader, const CsvField& field, Row& row) {
  constexpr std::string_view separators = " ;";
  std::vector<std::string>& conditions = row.draft.machine.conditions;
  const Spot all = spot_of(reader, field);
  std::string_view written = reader.source().text().substr(field.from, field.to - field.from);
  int column = all.span.column;
  if (written.starts_with('"')) {
    written = written.substr(1, written.size() - 2);
    ++column;
  }
  std::size_t from = written.find_first_not_of(separators);
  while (from != std::string_view::npos) {
    const std::size_t to = std::min(written.find_first_of(separators, from), written.size());
    const std::string one(written.substr(from, to - from));
    const Spot spot = reader.spot({all.span.line, column + static_cast<int>(from), static_cast<int>(one.size())});
    if (std::find(conditions.begin(), conditions.end(), one) != conditions.end()) {
      reader.error(code::repeated_value, spot, fmt::format("`{}` is twice in the list", cleaned(one)),
                   "keep one of them");
    } else if (reader.good_name(one, spot)) {
      conditions.push_back(one);
      reader.draft.conditions.push_back({one, spot});
    }
    from = written.find_first_not_of(separators, to);
  }
}

void read_per_year(const Reader& reader, const CsvField& field, Row& row) {
  row.draft.machine.expect.per_year = amount_in(reader, field, *row.dialect);
}

constexpr Column known_columns[] = {
    {"machine",
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.key = f.text;
       row.draft.key = spot_of(r, f);
       r.good_name(row.draft.machine.key, row.draft.key);
     },
     Column::Holds::text, true},
    {"name", [](const Reader&, const CsvField& f, Row& row) { row.draft.machine.name = text_of_cell(f.text); }},
    {"schedule",
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.schedule = f.text;
       row.draft.schedule = spot_of(r, f);
     },
     Column::Holds::text, true},
    {"site",
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.site = f.text;
       r.draft.mentions_of(Noun::site).push_back({row.draft.machine.site, spot_of(r, f)});
     }},
    {"in-service", [](const Reader&, const CsvField& f, Row& row) { row.in_service = &f; }, Column::Holds::day},
    {"in-service-at", [](const Reader&, const CsvField& f, Row& row) { row.at = &f; }, Column::Holds::number},
    {"bought", [](const Reader&, const CsvField& f, Row& row) { row.bought = &f; }, Column::Holds::day},
    {"bought-at", [](const Reader&, const CsvField& f, Row& row) { row.bought_at = &f; }, Column::Holds::number},
    {"serial", [](const Reader&, const CsvField& f, Row& row) { row.draft.machine.serial = text_of_cell(f.text); }},
    {"conditions", read_condition_list},
    {"left",
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.left = parsed(r, f, plain_day(f.text, *row.dialect), parse_day, wanted::day);
       row.draft.left = spot_of(r, f);
     },
     Column::Holds::day},
    {"per-year", read_per_year, Column::Holds::number},
    {"notes", [](const Reader&, const CsvField& f, Row& row) { row.draft.machine.notes = text_of_cell(f.text); }},
};

// What a column was called once.
std::string_view name_today(std::string_view name) { return name == "at" ? "in-service-at" : name; }

void read_row_start(const Reader& reader, StartKind kind, const CsvField* on, const CsvField* at,
                    const Dialect& dialect, MachineDraft& into) {
  const bool fresh = kind == StartKind::in_service;
  if (at != nullptr && on == nullptr) {
    reader.error(code::missing_key, spot_of(reader, *at), "a meter value needs the day on which it was shown",
                 fmt::format("fill in the column `{}`", fresh ? "in-service" : "bought"));
  }
  const auto value = at == nullptr ? std::nullopt : amount_in(reader, *at, dialect);
  if (on == nullptr) return;
  if (into.start) {
    reader.error(code::two_starts, spot_of(reader, *on), "a machine was either put in service new or bought used",
                 "fill in `in-service` for a new one, `bought` for a used one");
    return;
  }
  into.start = spot_of(reader, *on);
  if (at != nullptr) into.start_at = spot_of(reader, *at);
  const auto day = parsed(reader, *on, plain_day(on->text, dialect), parse_day_span, wanted::day_span);
  if (!day) return;
  into.machine.start = {kind, *day, value || !fresh ? value : Amount{}};
}

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

class RegisterReader {
 public:
  RegisterReader(const Source& source, Diagnostics& diagnostics, Draft& draft)
      : reader_(source, diagnostics, draft), rows_(source.text(), 0, CsvLines::one_a_row) {}

  void read() {
    CsvRow row;
    if (!next(row)) {
      reader_.error(code::empty_file, reader_.spot(Span{}), "the file holds nothing",
                    "write the header `machine,name,schedule,site,in-service,in-service-at`, or delete the file");
      return;
    }
    if (!read_header(row.fields) || !settle_dialect()) {
      reader_.draft.unsure_of(Noun::machine) = true;
      return;
    }
    while (next(row)) {
      cut_empty_end(row.fields);
      read_row(row.fields);
    }
    if (passed_over_) reader_.draft.unsure_of(Noun::machine) = true;
  }

 private:
  // Spreadsheets save rows that were once used as nothing but commas.
  bool is_blank(const CsvRow& row) const {
    const std::string_view written = reader_.source().text().substr(row.from, row.to - row.from);
    return written.find_first_not_of(" \t,;") == std::string_view::npos;
  }

  // The next row that is not blank; false at the end. Rows with bad quotes are reported and passed over.
  bool next(CsvRow& row) {
    while (rows_.next(row)) {
      if (is_blank(row)) continue;
      if (row.problems.empty()) return true;
      tell_of_quote(reader_, row.problems.front());
      passed_over_ = true;
    }
    return false;
  }

  // Spreadsheets save columns that were once used: fields beyond the named ones, with nothing in them.
  void cut_empty_end(std::vector<CsvField>& fields) const {
    while (fields.size() > columns_.size() && fields.back().text.empty()) fields.pop_back();
  }

  // How the file writes numbers and days, from all rows before one is believed.
  bool settle_dialect() {
    CsvReader ahead = rows_;  // what is wrong with quotes is told by the reading that follows
    DialectSurvey survey;
    std::vector<Span> spans;
    CsvRow row;
    while (ahead.next(row)) {
      std::vector<CsvField>& fields = row.fields;
      cut_empty_end(fields);
      if (is_blank(row) || !row.problems.empty() || fields.size() != columns_.size()) continue;
      for (std::size_t i = 0; i < fields.size(); ++i) {
        if (columns_[i] == nullptr || fields[i].text.empty() || columns_[i]->holds == Column::Holds::text) continue;
        const bool number = columns_[i]->holds == Column::Holds::number;
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

  // Without the columns that machines cannot do without, no row is read.
  bool read_header(const std::vector<CsvField>& fields) {
    std::vector<std::string> names;
    for (const Column& column : known_columns) names.emplace_back(column.name);
    std::size_t named = fields.size();
    while (named > 0 && fields[named - 1].text.empty()) --named;
    for (const CsvField& field : std::span(fields).first(named)) {
      const std::string name = column_name(field.text);
      const auto* const known = std::find_if(std::begin(known_columns), std::end(known_columns),
                                             [&](const Column& column) { return column.name == name_today(name); });
      const Spot spot = spot_of(reader_, field);
      if (known == std::end(known_columns)) {
        reader_.error(code::unknown_column, spot, fmt::format("there is no column {}", in_quotes(name)),
                      nearest_or(name, names, "the columns are " + listed(names, "and")));
        columns_.push_back(nullptr);
      } else if (std::find(columns_.begin(), columns_.end(), known) != columns_.end()) {
        reader_.error(code::duplicate_column, spot, fmt::format("the column `{}` is here twice", known->name),
                      "keep one of them");
        columns_.push_back(nullptr);
      } else {
        columns_.push_back(known);
      }
    }
    bool complete = true;
    for (const Column& column : known_columns) {
      if (!column.required || std::find(columns_.begin(), columns_.end(), &column) != columns_.end()) continue;
      complete = false;
      reader_.error(code::missing_column, spot_of(reader_, fields[0]),
                    fmt::format("there is no column `{}`", column.name), "name it in the header, the first line");
    }
    return complete;
  }

  void read_row(const std::vector<CsvField>& fields) {
    Span start = reader_.source().span_at(fields.front().from);
    start.width = std::max(1, static_cast<int>(fields.back().to - fields.front().from));
    if (fields.size() != columns_.size()) {
      reader_.error(code::ragged_row, reader_.spot(start),
                    fmt::format("the row has {}, but the header has {}",
                                counted(static_cast<std::int64_t>(fields.size()), "field", "fields"), columns_.size()),
                    "put a field that holds a separator in quotes, and write a separator for each empty field");
      reader_.draft.unsure_of(Noun::machine) = true;
      return;  // its values stand under the wrong names
    }
    Row row;
    row.dialect = &dialect_;
    row.draft.key = reader_.spot(start);
    for (std::size_t i = 0; i < fields.size(); ++i) {
      if (columns_[i] == nullptr) continue;
      if (!fields[i].text.empty()) {
        columns_[i]->read(reader_, fields[i], row);
      } else if (columns_[i]->required) {
        reader_.error(code::empty_value, spot_of(reader_, fields[i]),
                      fmt::format("`{}` has no value", columns_[i]->name), "fill it in, or delete the row");
      }
    }
    MachineDraft& machine = row.draft;
    read_row_start(reader_, StartKind::in_service, row.in_service, row.at, dialect_, machine);
    read_row_start(reader_, StartKind::bought, row.bought, row.bought_at, dialect_, machine);
    if (machine.machine.name.empty()) machine.machine.name = machine.machine.key;
    machine.machine.place = machine.key.place();
    reader_.draft.machines.push_back(std::move(machine));
  }

  Reader reader_;
  CsvReader rows_;
  bool passed_over_ = false;
  Dialect dialect_;
  std::vector<const Column*> columns_;  // in the order of the header; null for one that is not read
};

}  // namespace

void read_register(const Source& source, Diagnostics& diagnostics, Draft& draft) {
  if (fit_to_read(source, register_limit, diagnostics)) {
    RegisterReader(source, diagnostics, draft).read();
  } else {
    draft.unsure_of(Noun::machine) = true;
  }
}

}  // namespace service::fleet
