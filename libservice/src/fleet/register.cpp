#include "fleet/register.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "fleet/csv_rows.h"
#include "fleet/guard.h"
#include "fleet/reader.h"

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

template <class T>
std::optional<T> parsed(const Reader& reader, const CsvField& field, const std::string& plain,
                        Parsed<T> (*parse)(std::string_view), const Wanted& wanted) {
  const std::string text = field.value();
  auto read = parse(plain);
  if (!read) {
    reader.error(wanted.code, reader.spot(field.span),
                 fmt::format("{} was wanted, but {} {}", wanted.what, in_quotes(text), read.problem),
                 std::string(wanted.hint));
  }
  return read.value;
}

std::optional<Amount> amount_in(const Reader& reader, const CsvField& field, const Dialect& dialect) {
  return parsed(reader, field, plain_number(field.value(), dialect), parse_amount, wanted::number);
}

void read_conditions(const Reader& reader, const CsvField& field, Row& row) {
  constexpr std::string_view separators = " ;";
  std::vector<std::string>& conditions = row.draft.machine.conditions;
  std::size_t from = field.text.find_first_not_of(separators);
  while (from != std::string_view::npos) {
    const std::size_t to = std::min(field.text.find_first_of(separators, from), field.text.size());
    const std::string one(field.text.substr(from, to - from));
    const std::size_t inside =
        static_cast<std::size_t>(field.text.data() - reader.source().line(field.span.line).data());
    const Spot spot = reader.spot({field.span.line, static_cast<int>(inside + from), static_cast<int>(one.size())});
    if (std::find(conditions.begin(), conditions.end(), one) != conditions.end()) {
      reader.error(code::repeated_value, spot, fmt::format("`{}` is twice in the list", cleaned(one)),
                   "keep one of them");
    } else if (reader.good_name(one, spot)) {
      conditions.push_back(one);
      reader.draft.conditions.push_back({one, spot});
    }
    from = field.text.find_first_not_of(separators, to);
  }
}

void read_per_year(const Reader& reader, const CsvField& field, Row& row) {
  row.draft.machine.expect.per_year = amount_in(reader, field, *row.dialect);
}

constexpr Column known_columns[] = {
    {"machine",
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.key = f.value();
       row.draft.key = r.spot(f.span);
       r.good_name(row.draft.machine.key, row.draft.key);
     },
     Column::Holds::text, true},
    {"name", [](const Reader&, const CsvField& f, Row& row) { row.draft.machine.name = f.value(); }},
    {"schedule",
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.schedule = f.value();
       row.draft.schedule = r.spot(f.span);
     },
     Column::Holds::text, true},
    {"site",
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.site = f.value();
       r.draft.mentions_of(Noun::site).push_back({row.draft.machine.site, r.spot(f.span)});
     }},
    {"in-service", [](const Reader&, const CsvField& f, Row& row) { row.in_service = &f; }, Column::Holds::day},
    {"at", [](const Reader&, const CsvField& f, Row& row) { row.at = &f; }, Column::Holds::number},
    {"bought", [](const Reader&, const CsvField& f, Row& row) { row.bought = &f; }, Column::Holds::day},
    {"bought-at", [](const Reader&, const CsvField& f, Row& row) { row.bought_at = &f; }, Column::Holds::number},
    {"serial", [](const Reader&, const CsvField& f, Row& row) { row.draft.machine.serial = f.value(); }},
    {"conditions", read_conditions},
    {"left",
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.left = parsed(r, f, plain_day(f.value(), *row.dialect), parse_day, wanted::day);
       row.draft.left = r.spot(f.span);
     },
     Column::Holds::day},
    {"per-year", read_per_year, Column::Holds::number},
};

void read_start(const Reader& reader, StartKind kind, const CsvField* on, const CsvField* at, const Dialect& dialect,
                MachineDraft& into) {
  const bool fresh = kind == StartKind::in_service;
  if (at != nullptr && on == nullptr) {
    reader.error(code::missing_key, reader.spot(at->span), "a meter value needs the day on which it was shown",
                 fmt::format("fill in the column `{}`", fresh ? "in-service" : "bought"));
  }
  const auto value = at == nullptr ? std::nullopt : amount_in(reader, *at, dialect);
  if (on == nullptr) return;
  if (into.start) {
    reader.error(code::two_starts, reader.spot(on->span), "a machine was either put in service new or bought used",
                 "fill in `in-service` for a new one, `bought` for a used one");
    return;
  }
  into.start = reader.spot(on->span);
  if (at != nullptr) into.start_at = reader.spot(at->span);
  const auto day = parsed(reader, *on, plain_day(on->value(), dialect), parse_day_span, wanted::day_span);
  if (!day) return;
  into.machine.start = {kind, *day, value || !fresh ? value : Amount{}};
}

class RegisterReader {
 public:
  RegisterReader(const Source& source, Findings& findings, Draft& draft)
      : reader_(source, findings, draft), rows_(source, findings) {}

  void read() {
    std::vector<CsvField> fields;
    if (!rows_.next(fields)) {
      reader_.error(code::empty_file, reader_.spot(Span{}), "the file holds nothing",
                    "write the header `machine,name,schedule,site,in-service,at`, or delete the file");
      return;
    }
    if (!read_header(fields)) {
      reader_.draft.unsure_of(Noun::machine) = true;
      return;
    }
    if (!settle_dialect()) {
      reader_.draft.unsure_of(Noun::machine) = true;
      return;
    }
    while (rows_.next(fields)) {
      cut_empty_end(fields);
      read_row(fields);
    }
    if (rows_.passed_over()) reader_.draft.unsure_of(Noun::machine) = true;
  }

 private:
  // Spreadsheets save columns that were once used: fields beyond the named ones, with nothing in them.
  void cut_empty_end(std::vector<CsvField>& fields) const {
    while (fields.size() > columns_.size() && fields.back().text.empty()) fields.pop_back();
  }

  // How the file writes numbers and days, from all rows before one is believed.
  bool settle_dialect() {
    Findings said_again;  // mistakes of quotes are told by the reading that follows
    CsvRows ahead(rows_, said_again);
    DialectSurvey survey;
    std::vector<Span> spans;
    std::vector<CsvField> fields;
    while (ahead.next(fields)) {
      cut_empty_end(fields);
      if (fields.size() != columns_.size()) continue;
      for (std::size_t i = 0; i < fields.size(); ++i) {
        if (columns_[i] == nullptr || fields[i].text.empty() || columns_[i]->holds == Column::Holds::text) continue;
        const bool number = columns_[i]->holds == Column::Holds::number;
        number ? survey.number(fields[i].value(), spans.size()) : survey.day(fields[i].value(), spans.size());
        spans.push_back(fields[i].span);
      }
    }
    const auto findings = survey.findings();
    for (const DialectSurvey::Finding& finding : findings) {
      reader_.error(finding.code == code::two_readings ? code::two_readings : code::mixed_dialect,
                    reader_.spot(spans[finding.at]), finding.message,
                    "write numbers as 1250.5 without a mark between thousands, and days as 2026-03-01");
    }
    dialect_ = survey.dialect();
    return findings.empty();
  }

  // Without the columns that machines cannot do without, no row is read.
  bool read_header(const std::vector<CsvField>& fields) {
    std::vector<std::string> names;
    for (const Column& column : known_columns) names.emplace_back(column.name);
    std::size_t named = fields.size();
    while (named > 0 && fields[named - 1].text.empty()) --named;
    for (const CsvField& field : std::span(fields).first(named)) {
      const std::string name = column_name(field.value());
      const auto* const known = std::find_if(std::begin(known_columns), std::end(known_columns),
                                             [&](const Column& column) { return column.name == name; });
      const Spot spot = reader_.spot(field.span);
      if (known == std::end(known_columns)) {
        reader_.error(code::unknown_column, spot, fmt::format("there is no column {}", in_quotes(name)),
                      nearest_or(name, names, "the columns are " + listed(names, "and")));
        columns_.push_back(nullptr);
      } else if (std::find(columns_.begin(), columns_.end(), known) != columns_.end()) {
        reader_.error(code::duplicate_column, spot, fmt::format("the column `{}` is here twice", name),
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
      reader_.error(code::missing_column, reader_.spot(fields[0].span),
                    fmt::format("there is no column `{}`", column.name), "name it in the header, the first line");
    }
    return complete;
  }

  void read_row(const std::vector<CsvField>& fields) {
    const Span start{fields[0].span.line, 0, fields.back().span.column + fields.back().span.width};
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
        reader_.error(code::empty_value, reader_.spot(fields[i].span),
                      fmt::format("`{}` has no value", columns_[i]->name), "fill it in, or delete the row");
      }
    }
    MachineDraft& machine = row.draft;
    read_start(reader_, StartKind::in_service, row.in_service, row.at, dialect_, machine);
    read_start(reader_, StartKind::bought, row.bought, row.bought_at, dialect_, machine);
    if (machine.machine.name.empty()) machine.machine.name = machine.machine.key;
    machine.machine.place = machine.key.place();
    reader_.draft.machines.push_back(std::move(machine));
  }

  Reader reader_;
  CsvRows rows_;
  Dialect dialect_;
  std::vector<const Column*> columns_;  // in the order of the header; null for one that is not read
};

}  // namespace

void read_register(const Source& source, Findings& findings, Draft& draft) {
  if (fit_to_read(source, register_limit, findings)) {
    RegisterReader(source, findings, draft).read();
  } else {
    draft.unsure_of(Noun::machine) = true;
  }
}

}  // namespace service::fleet
