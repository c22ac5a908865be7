#include "record/fact_rows.h"

#include <fmt/format.h>

#include "record/rules.h"

namespace service::record {
namespace {

// `7100 h`: the number is right, and stands there alone.
bool has_unit(std::string_view text) {
  const std::size_t end = text.find_first_not_of("0123456789.,");
  return end != 0 && end != std::string_view::npos && text.find_first_of("0123456789", end) == std::string_view::npos;
}

// Spreadsheets on some systems break lines inside a field with CR LF.
std::string with_plain_breaks(const std::string& text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\r' || i + 1 == text.size() || text[i + 1] != '\n') plain += text[i];
  }
  return plain;
}

class RowTaker {
 public:
  RowTaker(const CellRow& row, const Places& places, std::vector<Diagnostic>& diagnostics)
      : row_(row), places_(places), diagnostics_(diagnostics), told_(diagnostics.size()) {}

  bool there(Column column) const { return !cell(column).text.empty(); }
  bool all_blank() const;
  bool is_unanswered() const;

  // The fact, where nothing is wrong with the row.
  std::optional<Fact> take();

 private:
  const Cell& cell(Column column) const { return row_.cells[index_of(column)]; }
  void tell(Column column, std::string code, std::string message, std::string hint);
  bool read_kind(Fact& fact);
  void read_values(Fact& fact);
  void check_entry(const Fact& fact);
  void check_kind(const Fact& fact);

  const CellRow& row_;
  const Places& places_;
  std::vector<Diagnostic>& diagnostics_;
  std::size_t told_;  // diagnostics before this row
  std::array<bool, column_count> bad_{};
};

void RowTaker::tell(Column column, std::string code, std::string message, std::string hint) {
  bad_[index_of(column)] = true;
  diagnostics_.push_back({std::move(code), std::move(message), std::move(hint),
                          places_.at(there(column) ? cell(column).from : row_.from)});
}

bool RowTaker::all_blank() const {
  for (const Cell& each : row_.cells) {
    if (!each.text.empty()) return false;
  }
  return true;
}

// A find-out list comes with machine and task, and with blanks for day and value. Whoever filled in neither, nor who
// did it or what was found, told nothing.
bool RowTaker::is_unanswered() const {
  const auto kind = parse_fact_kind(cell(Column::kind).text);
  if (kind != FactKind::reading && kind != FactKind::service && kind != FactKind::measurement) return false;
  for (const Column answer : {Column::on, Column::at, Column::value, Column::found, Column::by, Column::note,
                              Column::until, Column::id, Column::strikes}) {
    if (there(answer)) return false;
  }
  return there(Column::machine);
}

bool RowTaker::read_kind(Fact& fact) {
  if (!there(Column::kind)) {
    tell(Column::kind, "missing-value", "a row needs `kind`", "say what kind of fact it is, such as reading");
    return false;
  }
  const std::string problem = set(fact, Column::kind, cell(Column::kind).text);
  if (problem.empty()) return true;
  tell(Column::kind, "bad-value", fmt::format("`kind` {}: `{}`", problem, cleaned(cell(Column::kind).text)),
       "the kinds are reading, service, sign, measurement, meter-change, put-off, laid-up, out-of-use, back, count, "
       "strike, looked-at");
  return false;
}

void RowTaker::read_values(Fact& fact) {
  for (std::size_t i = index_of(Column::kind) + 1; i < column_count; ++i) {
    const Column column = column_at(i);
    if (!there(column)) continue;
    const std::string text = column == Column::note ? with_plain_breaks(cell(column).text) : cell(column).text;
    std::string problem = text_problem(column, text);
    if (problem.empty()) problem = set(fact, column, text);
    if (problem.empty()) continue;
    const bool is_text = text_member(column) != nullptr;
    const bool unit = is_number(column) && has_unit(text);
    if (unit) problem = "is not the number alone";  // a decimal comma before it may be right in this file
    const std::string hint = first_bad_utf8(text) ? encoding_hint(text)
                             : unit               ? "write the number alone, without its unit"
                                                  : "mend it in this row";
    tell(column, is_text ? "bad-text" : "bad-value",
         is_text ? fmt::format("`{}` {}", to_text(column), problem)
                 : fmt::format("`{}` {}: `{}`", to_text(column), problem, cleaned(text.substr(0, 60))),
         hint);
  }
}

// How it came into the book: all of it with an id, none of it without.
void RowTaker::check_entry(const Fact& fact) {
  if (!there(Column::id)) {
    for (const Column column : {Column::entered, Column::entered_by, Column::origin, Column::batch}) {
      if (!there(column)) continue;
      tell(column, "entry-without-id", fmt::format("`{}` belongs to a fact that has an `id`", to_text(column)),
           "leave it out; the record says itself when and by whom a fact was entered");
    }
    return;
  }
  if (!there(Column::entered)) {
    tell(Column::entered, "missing-value", "a row with an `id` needs `entered`",
         "take the row as `export` wrote it, or leave `id` out");
  }
  if (there(Column::batch) && !bad_[index_of(Column::id)] &&
      cell(Column::batch).text != service::to_text(fact.id.command)) {
    tell(Column::batch, "bad-value", "`batch` is not the command of the `id`", "take the row as `export` wrote it");
  }
}

void RowTaker::check_kind(const Fact& fact) {
  // A fact cannot be without its day, so that the row has none is seen here.
  if (!there(Column::on) && use_of(fact.kind, Column::on) == Use::needed) {
    tell(Column::on, "missing-value", fmt::format("a fact of kind {} needs `on`", service::to_text(fact.kind)),
         fact.kind == FactKind::service
             ? "give the day on which it was done; a year is enough (2023), and a row without any answer may stay blank"
             : "give the day; a year or a month is enough where the day is not known and the kind allows it");
  }
  for (ColumnDiagnostic& diagnostic : column_diagnostics(fact)) {
    // A value that could not be read is there, and what is wrong with it is told.
    const bool told =
        bad_[index_of(diagnostic.column)] || (diagnostic.column == Column::until && bad_[index_of(Column::at)]);
    if (!told)
      tell(diagnostic.column, std::move(diagnostic.code), std::move(diagnostic.message), std::move(diagnostic.hint));
  }
}

std::optional<Fact> RowTaker::take() {
  Fact fact;
  const bool has_kind = read_kind(fact);
  read_values(fact);
  check_entry(fact);
  if (has_kind) check_kind(fact);
  if (diagnostics_.size() != told_) return std::nullopt;
  return fact;
}

}  // namespace

bool take_row(const CellRow& row, const Places& places, FactsRead& read) {
  RowTaker taker(row, places, read.diagnostics);
  if (taker.all_blank()) return true;
  if (taker.is_unanswered()) {
    ++read.blanks;
    return true;
  }
  auto fact = taker.take();
  if (!fact) return false;
  read.rows.push_back(
      {std::move(*fact), taker.there(Column::id), places.at(row.from), {}, taker.there(Column::history)});
  return true;
}

}  // namespace service::record
