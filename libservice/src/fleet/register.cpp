#include "fleet/register.h"

#include <algorithm>

#include "fleet/csv_table.h"
#include "fleet/guard.h"

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
  TableColumn column;
  void (*read)(const Reader& reader, const CsvField& field, Row& row);  // of a field that is not empty
};

std::optional<Amount> amount_in(const Reader& reader, const CsvField& field, const Dialect& dialect) {
  return value_in(reader, field, plain_number(field.text, dialect), parse_amount, wanted::number);
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

using Holds = TableColumn::Holds;

constexpr Column known_columns[] = {
    {{"machine", Holds::text, true},
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.key = f.text;
       row.draft.key = spot_of(r, f);
       r.good_name(row.draft.machine.key, row.draft.key);
     }},
    {{"name"}, [](const Reader&, const CsvField& f, Row& row) { row.draft.machine.name = text_of_cell(f.text); }},
    {{"schedule", Holds::text, true},
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.schedule = f.text;
       row.draft.schedule = spot_of(r, f);
     }},
    {{"site"},
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.site = f.text;
       r.draft.mentions_of(Noun::site).push_back({row.draft.machine.site, spot_of(r, f)});
     }},
    {{"in-service", Holds::day}, [](const Reader&, const CsvField& f, Row& row) { row.in_service = &f; }},
    {{"in-service-at", Holds::number}, [](const Reader&, const CsvField& f, Row& row) { row.at = &f; }},
    {{"bought", Holds::day}, [](const Reader&, const CsvField& f, Row& row) { row.bought = &f; }},
    {{"bought-at", Holds::number}, [](const Reader&, const CsvField& f, Row& row) { row.bought_at = &f; }},
    {{"serial"}, [](const Reader&, const CsvField& f, Row& row) { row.draft.machine.serial = text_of_cell(f.text); }},
    {{"conditions"}, read_condition_list},
    {{"left", Holds::day},
     [](const Reader& r, const CsvField& f, Row& row) {
       row.draft.machine.left = value_in(r, f, plain_day(f.text, *row.dialect), parse_day, wanted::day);
       row.draft.left = spot_of(r, f);
     }},
    {{"per-year", Holds::number}, read_per_year},
    {{"notes"}, [](const Reader&, const CsvField& f, Row& row) { row.draft.machine.notes = text_of_cell(f.text); }},
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
  const auto day = value_in(reader, *on, plain_day(on->text, dialect), parse_day_span, wanted::day_span);
  if (!day) return;
  into.machine.start = {kind, *day, value || !fresh ? value : Amount{}};
}

void read_row(const Reader& reader, const TableRow& fields, const Dialect& dialect) {
  Row row;
  row.dialect = &dialect;
  row.draft.key = fields.spot;
  for (std::size_t i = 0; i < fields.fields.size(); ++i) {
    if (fields.fields[i] != nullptr) known_columns[i].read(reader, *fields.fields[i], row);
  }
  MachineDraft& machine = row.draft;
  read_row_start(reader, StartKind::in_service, row.in_service, row.at, dialect, machine);
  read_row_start(reader, StartKind::bought, row.bought, row.bought_at, dialect, machine);
  if (machine.machine.name.empty()) machine.machine.name = machine.machine.key;
  machine.machine.place = machine.key.place();
  machine.machine.place.text = {};  // shown beside what a machine does differently, of which a row says nothing
  reader.draft.machines.push_back(std::move(machine));
}

void read_rows(const Reader& reader) {
  std::vector<TableColumn> columns;
  for (const Column& known : known_columns) columns.push_back(known.column);
  CsvTable table(reader,
                 {columns, "write the header `machine,name,schedule,site,in-service,in-service-at`, or delete the file",
                  name_today});
  if (!table.begin()) {
    reader.draft.unsure_of(Noun::machine) = true;
    return;
  }
  TableRow row;
  while (table.next(row)) read_row(reader, row, table.dialect());
  if (table.passed_over()) reader.draft.unsure_of(Noun::machine) = true;
}

}  // namespace

void read_register(const Source& source, Diagnostics& diagnostics, Draft& draft) {
  if (fit_to_read(source, register_limit, diagnostics)) {
    read_rows(Reader(source, diagnostics, draft));
  } else {
    draft.unsure_of(Noun::machine) = true;
  }
}

}  // namespace service::fleet
