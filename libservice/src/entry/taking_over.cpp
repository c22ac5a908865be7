// A fleet out of somebody's spreadsheet: which rows are machines, what their fields say, and all that must be asked
// back.
#include "service/taking_over.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "entry/others_columns.h"
#include "entry/others_figures.h"
#include "entry/others_sheet.h"
#include "entry/others_words.h"
#include "entry/taken_files.h"
#include "service/snapshot.h"
#include "service/usage.h"

namespace service {
namespace entry {
namespace {

bool is_number(TakenColumn column) {
  return column == TakenColumn::at || column == TakenColumn::in_service_at || column == TakenColumn::bought_at ||
         column == TakenColumn::per_year;
}

bool is_day(TakenColumn column) {
  return column == TakenColumn::on || column == TakenColumn::in_service || column == TakenColumn::bought;
}

class TakingOver {
 public:
  TakingOver(std::string_view bytes, const TakeOverAsk& ask)
      : ask_(ask),
        sheet_(read_sheet(bytes, ask.file, [&](const SheetRow& row) { return looks_like_header(row, ask.columns); })),
        places_(sheet_.text, ask.file) {}

  TakenOver run() {
    out_.file = ask_.file;
    out_.today = ask_.today;
    out_.encoding = sheet_.encoding;
    out_.separator = sheet_.separator;
    out_.read_on = ask_.read_on.value_or(ask_.today);
    out_.columns = understand_columns(sheet_, ask_);
    sort_rows();
    settle_dialect();
    settle_thousands();
    settle_days_of_readings();
    for (Row& row : rows_) read_values(row);
    find_twice();
    give_keys();
    make_fleet();
    if (!bad_.empty() && !ask_.skip_bad) throw Failure(FailureKind::bad_data, all_that_is_bad());
    hand_over();
    return std::move(out_);
  }

 private:
  // A row that names a machine.
  struct Row {
    const SheetRow* sheet = nullptr;
    TakenMachine machine;
    std::string known_by;      // its name in plain letters, by which it is known again
    std::optional<Amount> at;  // a reading
    std::string unit;          // of it, where one is written
    std::optional<Day> on;     // its day, where it gives one
    bool out = false;          // put aside
  };

  // Something that must be asked back, and in which row; of a row as a whole no field is told.
  struct Bad {
    const SheetRow* row = nullptr;
    TakenOver::FieldLeftOut field;
  };

  void bad_in_order_of_lines() {
    const auto line = [](const Bad& bad) { return bad.field.what.place ? bad.field.what.place->line : 0; };
    std::stable_sort(bad_.begin(), bad_.end(), [&](const Bad& a, const Bad& b) { return line(a) < line(b); });
  }

  std::vector<Diagnostic> all_that_is_bad() {
    bad_in_order_of_lines();
    std::vector<Diagnostic> all;
    for (Bad& bad : bad_) all.push_back(std::move(bad.field.what));
    return all;
  }

  const SheetField* field(const SheetRow& row, TakenColumn column) const {
    for (std::size_t i = 0; i < out_.columns.size() && i < row.fields.size(); ++i) {
      if (out_.columns[i].column == column && !stands_for_nothing(row.fields[i].text) && !row.fields[i].text.empty()) {
        return &row.fields[i];
      }
    }
    return nullptr;
  }

  std::string text(const SheetRow& row, TakenColumn column) const {
    const SheetField* const found = field(row, column);
    return found == nullptr ? "" : found->text;
  }

  // --- What must be asked back ---

  void ask_back(const SheetRow& row, std::size_t at, std::string code, std::string message, std::string hint,
                std::vector<Cure> cures = {}) {
    cures.push_back({CureKind::leave_out});
    bad_.push_back({&row, {}});
    bad_.back().field.what = {std::move(code), std::move(message), std::move(hint),
                              places_.at(at),  Severity::error,    std::move(cures)};
  }

  // `besides`: what goes with the field where it is left out.
  void ask_back(const Row& row, TakenColumn column, std::string code, std::string message, std::string hint,
                std::string besides = "") {
    const SheetField& asked = *field(*row.sheet, column);
    ask_back(*row.sheet, asked.from, std::move(code), std::move(message), std::move(hint));
    TakenOver::FieldLeftOut& out = bad_.back().field;
    out.value = asked.text;
    out.besides = std::move(besides);
    for (const TakenOver::Column& one : out_.columns) {
      if (one.column == column) out.heading = one.heading;
    }
  }

  void ask_back_row(const SheetRow& row, std::string code, std::string why, std::string hint,
                    std::vector<Cure> cures = {}) {
    if (ask_.skip_bad) {
      out_.aside.push_back({row.line, row.raw, std::move(why)});
    } else {
      ask_back(row, row.from, std::move(code), std::move(why), std::move(hint), std::move(cures));
    }
  }

  // --- Which rows are machines ---

  void put_aside(const SheetRow& row, std::string why) { out_.aside.push_back({row.line, row.raw, std::move(why)}); }

  bool is_header_again(const SheetRow& row) const {
    for (std::size_t i = 0; i < out_.columns.size(); ++i) {
      const std::string text = i < row.fields.size() ? row.fields[i].text : "";
      if (as_words(text) != as_words(out_.columns[i].heading)) return false;
    }
    return true;
  }

  // Headings in two lines, one below the other: all that is there is a heading, and one says what its column does not.
  bool is_second_header(const SheetRow& row) const {
    bool says_more = false;
    for (std::size_t i = 0; i < row.fields.size(); ++i) {
      if (row.fields[i].text.empty()) continue;
      const auto meant = guess_column(row.fields[i].text);
      if (!meant) return false;
      says_more = says_more || meant != out_.columns[i].column;
    }
    return says_more;
  }

  // Something is said that only machines have.
  bool says_of_a_machine(const SheetRow& row) const {
    for (const TakenColumn column : {TakenColumn::schedule, TakenColumn::site, TakenColumn::serial, TakenColumn::on,
                                     TakenColumn::in_service, TakenColumn::bought}) {
      if (field(row, column) != nullptr) return true;
    }
    return false;
  }

  static bool begins_with_total(const std::string& words) {
    return is_total_word(words) || is_total_word(words.substr(0, words.find(' ')));
  }

  void sort_rows() {
    for (const SheetRow& row : sheet_.above) put_aside(row, "it stands above the header");
    for (const SheetRow& row : sheet_.rows) sort(row);
    if (rows_.empty() && bad_.empty()) {
      ask_back(sheet_.header, sheet_.header.from, "no-machines", "no row names a machine",
               "look whether it is the right file");
    }
  }

  void sort(const SheetRow& row) {
    if (row.quotes_wrong) {
      return ask_back_row(row, "bad-quote", "its quotes are wrong, so nobody knows where its fields end",
                          "put the whole field in quotes, and write a quote inside of it twice");
    }
    if (row.fields.size() > out_.columns.size()) {
      return ask_back_row(
          row, "ragged-row",
          fmt::format("the row has {}, but the header has {}",
                      counted(static_cast<std::int64_t>(row.fields.size()), "field", "fields"), out_.columns.size()),
          "write a heading above each column; put a field that holds a separator in quotes");
    }
    if (is_header_again(row)) return put_aside(row, "it is the header again");
    const std::string key = text(row, TakenColumn::machine);
    std::string name = text(row, TakenColumn::name);
    if (name.empty()) name = key;
    const std::string words = as_words(name);
    if (name.empty() && is_second_header(row)) {
      return ask_back_row(row, "second-header", "the row holds headings and no machine, so the header has two lines",
                          "write one heading above each column, all in one line");
    }
    if (!says_of_a_machine(row)) {
      const bool total = std::any_of(row.fields.begin(), row.fields.end(),
                                     [](const SheetField& each) { return is_total_word(as_words(each.text)); });
      if (total || begins_with_total(words)) return put_aside(row, "it is a total");
      if (name.ends_with(':')) return put_aside(row, "it is a heading");
      if (name.empty()) return put_aside(row, "it names no machine");
    } else if (name.empty()) {
      return ask_back_row(row, "no-name", "the row names no machine, and yet says something of one",
                          "write the machine's name, or take the row out");
    }
    Row taken;
    taken.sheet = &row;
    taken.machine.name = name;
    taken.known_by = in_plain_letters(key.empty() ? name : key);
    taken.machine.key = key.empty() ? name : key;  // made a name later
    taken.machine.schedule = text(row, TakenColumn::schedule);
    taken.machine.site = text(row, TakenColumn::site);
    taken.machine.serial = text(row, TakenColumn::serial);
    taken.machine.notes = text(row, TakenColumn::notes);
    rows_.push_back(std::move(taken));
  }

  // --- Numbers and days ---

  // Of all fields together; only where that leaves no doubt one of them is believed.
  void settle_dialect() {
    DialectSurvey survey(ask_.told);
    for (const Row& row : rows_) {
      for (std::size_t i = 0; i < row.sheet->fields.size(); ++i) {
        const auto column = out_.columns[i].column;
        const SheetField& each = row.sheet->fields[i];
        if (!column || stands_for_nothing(each.text)) continue;
        if (is_number(*column)) survey.number(figure_of(each.text).number, each.from);
        if (is_day(*column)) survey.day(without_time(each.text), each.from);
      }
    }
    const auto unsettled = survey.diagnostics();
    for (const DialectSurvey::FieldDiagnostic& one : unsettled) {
      must_be_told(sheet_.header, one.at, one.code, one.message, one.hint, one.cures);
    }
    if (!unsettled.empty()) stop_if_untold();
    out_.dialect = survey.dialect();
    out_.number_settled_by = survey.number_settled_by();
    out_.dates_settled_by = survey.dates_settled_by();
  }

  // What nobody can read before it is told, with --skip-bad or without.
  void must_be_told(const SheetRow& row, std::size_t at, std::string code, std::string message, std::string hint,
                    std::vector<Cure> cures) {
    ask_back(row, at, std::move(code), std::move(message), std::move(hint));
    bad_.back().field.what.cures = std::move(cures);
  }

  void stop_if_untold() {
    if (!bad_.empty()) throw Failure(FailureKind::bad_data, all_that_is_bad());
  }

  // In a column where some have marks between thousands, `1.250` is as likely one thousand as one.
  void settle_thousands() {
    if (ask_.told.decimal || !out_.dialect.decimal) return;
    const DecimalMark decimal = *out_.dialect.decimal;
    const std::size_t asked_before = bad_.size();
    for (std::size_t i = 0; i < out_.columns.size(); ++i) {
      if (!out_.columns[i].column || !is_number(*out_.columns[i].column)) continue;
      std::vector<std::pair<const SheetRow*, std::string>> either;
      std::string grouped;
      for (const Row& row : rows_) {
        if (i >= row.sheet->fields.size()) continue;
        const std::string number = figure_of(row.sheet->fields[i].text).number;
        if (may_be_thousands(number, decimal)) either.emplace_back(row.sheet, number);
        if (grouped.empty() && has_thousands(number, decimal)) grouped = number;
      }
      if (grouped.empty()) continue;
      const bool point = decimal == DecimalMark::point;
      for (const auto& [row, number] : either) {
        must_be_told(*row, row->fields[i].from, "two-readings",
                     fmt::format("`{}` can be {} or {}: `{}` in the same column has a mark between its thousands",
                                 number, plain_number(number, out_.dialect),
                                 plain_number(number, {point ? DecimalMark::comma : DecimalMark::point, {}}), grouped),
                     "write it without a mark between thousands",
                     {{CureKind::tell_decimal_mark, {{"decimal", point ? "point" : "comma"}}}});
      }
    }
    if (bad_.size() > asked_before) stop_if_untold();
  }

  // Readings that give no day would be taken for those of one day, though a column may say when each was taken.
  void settle_days_of_readings() {
    if (ask_.read_on || !has_readings_without_day()) return;
    const std::size_t asked_before = bad_.size();
    for (std::size_t i = 0; i < out_.columns.size(); ++i) {
      const TakenOver::Column& column = out_.columns[i];
      if (column.column || column.heading.empty() || !holds_days(i)) continue;
      must_be_told(sheet_.header, sheet_.header.fields[i].from, "days-of-what",
                   fmt::format("the readings have no days, and `{}` holds days: nobody knows whether the meters were "
                               "read on them",
                               cleaned(column.heading)),
                   "", {{CureKind::tell_columns, {{"heading", column.heading}, {"column", "on"}}}});
    }
    if (bad_.size() > asked_before) stop_if_untold();
  }

  bool has_readings_without_day() const {
    return std::any_of(rows_.begin(), rows_.end(), [&](const Row& row) { return is_there(row, TakenColumn::at); }) &&
           std::none_of(out_.columns.begin(), out_.columns.end(),
                        [](const TakenOver::Column& column) { return column.column == TakenColumn::on; });
  }

  // Whole days and nothing else, in some row at least.
  bool holds_days(std::size_t column) const {
    bool any = false;
    for (const Row& row : rows_) {
      const std::string text = column < row.sheet->fields.size() ? row.sheet->fields[column].text : "";
      if (text.empty() || stands_for_nothing(text)) continue;
      const auto is_day = [&](DateOrder order) {
        const auto read = parse_day_span(plain_day(without_time(text), {{}, order}));
        return read && (*read).whole_day();
      };
      if (!is_day(DateOrder::day_first) && !is_day(DateOrder::month_first)) return false;
      any = true;
    }
    return any;
  }

  bool is_there(const Row& row, TakenColumn column) const { return field(*row.sheet, column) != nullptr; }

  std::string written(const Row& row, TakenColumn column) const {
    return '`' + cleaned(text(*row.sheet, column)) + '`';
  }

  std::optional<Amount> amount(const Row& row, TakenColumn column, const std::string& besides = "",
                               std::string* unit = nullptr) {
    if (!is_there(row, column)) return std::nullopt;
    const Figure figure = figure_of(text(*row.sheet, column));
    const std::string words = as_words(figure.unit);
    const bool hours = words.empty() || is_hours(words, column == TakenColumn::per_year);
    auto read = parse_amount(plain_number(figure.number, out_.dialect));
    if (words.find_first_of("0123456789") != std::string::npos) read = {{}, "is more than one number"};
    std::string hint = "write a number, with its unit or without";
    if (read && leaves_a_doubt(figure)) {
      read = {{}, "is not a number alone"};
      hint = "write the number that is meant, and a doubt into a column of notes";
    }
    if (read && (hours || unit != nullptr)) {
      if (unit != nullptr) *unit = hours ? (words.empty() ? "" : "h") : figure.unit;
      return *read;
    }
    ask_back(row, column, "bad-number", written(row, column) + ' ' + (read ? "is not in hours" : read.problem),
             std::move(hint), besides);
    return std::nullopt;
  }

  std::optional<DaySpan> days(const Row& row, TakenColumn column, const std::string& besides = "") {
    if (!is_there(row, column)) return std::nullopt;
    auto read = parse_day_span(plain_day(without_time(text(*row.sheet, column)), out_.dialect));
    const bool whole = column == TakenColumn::on;
    if (!read || (whole && !(*read).whole_day())) {
      ask_back(row, column, "bad-day",
               written(row, column) + ' ' + (read ? "is not a whole day, as a reading needs it" : read.problem),
               "write a day as 2026-03-01", besides);
      return std::nullopt;
    }
    // A machine that comes later would be on no list until then.
    if (!whole && (*read).first > ask_.today) {
      ask_back(row, column, "future-start",
               fmt::format("{} is after {}, the day asked about", written(row, column), to_text(ask_.today)),
               "mend the day; a machine that is still to come is left out until it is there", besides);
      return std::nullopt;
    }
    return *read;
  }

  void read_values(Row& row) {
    row.at = amount(row, TakenColumn::at, "", &row.unit);
    if (is_there(row, TakenColumn::on) && is_there(row, TakenColumn::at)) {
      const std::string besides = row.at ? "the reading " + written(row, TakenColumn::at) : "";
      if (const auto read = days(row, TakenColumn::on, besides)) {
        row.on = read->first;
      } else {
        row.at.reset();  // a value without its day would be taken for one of today
      }
    }
    row.machine.per_year = amount(row, TakenColumn::per_year);
    read_start(row);
  }

  // With a day that is left out goes what the meter showed then.
  std::string value_of(const Row& row, TakenColumn column) const {
    return is_there(row, column) ? "the hours then, " + written(row, column) : "";
  }

  void read_start(Row& row) {
    using Column = TakenColumn;
    const auto in_service = days(row, Column::in_service, value_of(row, Column::in_service_at));
    const auto bought = days(row, Column::bought, value_of(row, Column::bought_at));
    // Without its hours a machine in service is taken to have begun at 0; one whose hours are wrong is not.
    const std::string day = "the day, " + written(row, Column::in_service);
    const auto in_service_at = amount(row, Column::in_service_at, in_service ? day : "");
    const auto bought_at = amount(row, Column::bought_at);
    if (in_service && bought) {
      return ask_back(row, Column::bought, "two-starts",
                      "a machine was either put in service new or bought used, and both days are given",
                      "leave one of the two days out", day);
    }
    if (in_service_at && !is_there(row, Column::in_service)) ask_for_day(row, Column::in_service_at);
    if (bought_at && !is_there(row, Column::bought)) ask_for_day(row, Column::bought_at);
    const bool hours_wrong = is_there(row, Column::in_service_at) && !in_service_at;
    if (in_service && !hours_wrong) row.machine.start = {StartKind::in_service, *in_service, in_service_at};
    if (bought) row.machine.start = {StartKind::bought, *bought, bought_at};
  }

  void ask_for_day(const Row& row, TakenColumn column) {
    ask_back(row, column, "missing-day",
             fmt::format("{}: what the meter showed needs the day on which it did", written(row, column)),
             "give the day in a column of its own");
  }

  // --- Names ---

  // The same name is the same machine, unless each has a serial number of its own.
  static bool same_machine(const Row& a, const Row& b) {
    const std::string& one = a.machine.serial;
    const std::string& other = b.machine.serial;
    return a.known_by == b.known_by && (one.empty() || other.empty() || as_words(one) == as_words(other));
  }

  void find_twice() {
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (rows_[j].out || !same_machine(rows_[i], rows_[j])) continue;
        rows_[i].out = true;
        ask_back_row(
            *rows_[i].sheet, "machine-twice",
            fmt::format("`{}` is there already, on line {}", cleaned(rows_[i].machine.name), rows_[j].sheet->line),
            "take one of the two rows out, or give each a serial number or a name of its own", by_number(i, j));
        break;
      }
    }
    std::erase_if(rows_, [](const Row& row) { return row.out; });
  }

  // Where a column that is left alone tells two rows apart by a number.
  std::vector<Cure> by_number(std::size_t one, std::size_t other) const {
    const auto at = [&](std::size_t row, std::size_t column) {
      const auto& fields = rows_[row].sheet->fields;
      return column < fields.size() ? fields[column].text : "";
    };
    for (std::size_t i = 0; i < out_.columns.size(); ++i) {
      const TakenOver::Column& column = out_.columns[i];
      if (column.column || !is_number_of_machines(heading_words(column.heading))) continue;
      if (at(one, i).empty() || at(other, i).empty() || at(one, i) == at(other, i)) continue;
      return {{CureKind::tell_columns, {{"heading", column.heading}, {"column", "machine"}}}};
    }
    return {};
  }

  // A name as people type it, short and of plain letters; `what-LINE` where nothing is left of it.
  static std::string key_of(const std::string& name, const std::string& what, int line) {
    constexpr std::size_t longest = 32;
    std::string key = as_name(in_plain_letters(name));
    if (key.size() > longest) {
      const std::size_t hyphen = key.rfind('-', longest);
      key.resize(hyphen == std::string::npos ? longest : hyphen);
    }
    return key.empty() ? fmt::format("{}-{}", what, line) : key;
  }

  void give_keys() {
    std::map<std::string, std::size_t> given;  // the rows that have the keys
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      Row& row = rows_[i];
      const int line = row.sheet->line;
      const std::string key = key_of(row.machine.key, "machine", line);
      row.machine.key = key;
      for (int n = 2; !given.emplace(row.machine.key, i).second; ++n) row.machine.key = fmt::format("{}-{}", key, n);
      if (row.machine.key != key) out_.alike.push_back({given.at(key), i});
      row.machine.schedule =
          row.machine.schedule.empty() ? ask_.schedule : key_of(row.machine.schedule, "schedule", line);
      if (!row.machine.site.empty()) {
        const std::string site = key_of(row.machine.site, "site", line);
        sites_.emplace(site, row.machine.site);
        row.machine.site = site;
      }
    }
  }

  // --- What comes of it ---

  // Also where something must be asked back already: then for what the meters and the book say against the rest, so
  // that all of it is told at once.
  void make_fleet() {
    if (rows_.empty()) return;
    try {
      build();
      if (drop_impossible()) build();
      propose_readings();
      if (ask_for_services()) {
        build();
        list();
      }
    } catch (const Failure&) {
      if (bad_.empty() || ask_.skip_bad) throw;
    }
  }

  void build() {
    std::vector<TakenMachine> machines;
    FleetFiles all;
    all.texts = ask_.schedules;
    out_.example_schedules.clear();
    for (const Row& row : rows_) {
      machines.push_back(row.machine);
      const std::string name = fmt::format("schedules/{}.yaml", row.machine.schedule);
      if (all.texts.contains(name)) continue;
      all.texts[name] = out_.files[name] = with_name(ask_.starter, row.machine.schedule);
      out_.example_schedules.push_back(row.machine.schedule);
    }
    out_.files["fleet.yaml"] = fleet_text(ask_, sites_);
    out_.files["register.csv"] = register_text(machines);
    for (const char* name : {"fleet.yaml", "register.csv"}) all.texts[name] = out_.files[name];
    out_.fleet = std::make_shared<const Fleet>(read_fleet(all));
  }

  const Meter* meter_of(const Row& row) const { return out_.fleet->machine(row.machine.key)->first_meter(); }

  // Figures that no hour meter shows. What is more than the hours since it went into service is the judge's.
  bool drop_impossible() {
    constexpr Amount hours_of_a_year = Amount::units(8760);
    constexpr Amount most_on_a_meter = Amount::units(1'000'000);
    bool dropped = false;
    for (Row& row : rows_) {
      const Meter* const meter = meter_of(row);
      if (meter == nullptr || meter->unit != "h") continue;
      const auto drop = [&](std::optional<Amount>& value, Amount most, TakenColumn column, std::string_view why) {
        if (!value || *value <= most) return;
        ask_back(row, column, "impossible", written(row, column) + ' ' + std::string(why), "mend the figure");
        value.reset();
        dropped = true;
      };
      drop(row.machine.per_year, hours_of_a_year, TakenColumn::per_year, "is more than the 8760 hours of a year");
      drop(row.at, most_on_a_meter, TakenColumn::at, "is more hours than any machine ran");
      const bool new_one = row.machine.start.kind == StartKind::in_service;
      const TakenColumn column = new_one ? TakenColumn::in_service_at : TakenColumn::bought_at;
      if (row.machine.start.at && *row.machine.start.at > most_on_a_meter) {
        drop(row.machine.start.at, most_on_a_meter, column, "is more hours than any machine ran");
        if (new_one) row.machine.start = {};  // not from 0
      }
    }
    return dropped;
  }

  // A value in km is no reading of an hour meter.
  bool fits_meter(const Row& row) {
    const Meter* const meter = meter_of(row);
    const std::string wanted = meter == nullptr ? "" : meter->unit;
    if (meter != nullptr && (row.unit.empty() || row.unit == wanted)) return true;
    ask_back(row, TakenColumn::at, "other-unit",
             meter == nullptr
                 ? fmt::format("the machines of schedule `{}` have no meter", row.machine.schedule)
                 : fmt::format("{} is in {}, and the meter of schedule `{}` counts in {}",
                               written(row, TakenColumn::at), cleaned(row.unit), row.machine.schedule, wanted),
             "name another schedule for the machine, or leave the value out");
    return false;
  }

  // What the judge says of it, with a cure that is one in a spreadsheet.
  void ask_back_reading(const Row& row, const Diagnostic& what) {
    const bool by_start = what.code == "before-machine" || what.code == "reading-falls" || what.code == "reading-jumps";
    ask_back(row, TakenColumn::at, what.code, what.message,
             by_start                ? "mend the hours, their day, or the day and hours at which the machine came"
             : what.code == "future" ? "mend the day of the reading"
             : what.code == "reading-beyond" ? "mend the hours: is a decimal point missing?"
                                             : "mend the hours or their day");
  }

  void propose_readings() {
    std::vector<Proposal> proposals;
    std::vector<Row*> of;
    for (Row& row : rows_) {
      if (!row.at) continue;
      if (!fits_meter(row)) {
        row.at.reset();
        continue;
      }
      Proposal reading;
      reading.fact.kind = FactKind::reading;
      reading.fact.machine = row.machine.key;
      reading.fact.at = row.at;
      reading.fact.on = row.on.value_or(out_.read_on);
      proposals.push_back(std::move(reading));
      of.push_back(&row);
    }
    Judgement judged = judge(*out_.fleet, {}, proposals, Stamp{}, ask_.today);
    for (std::size_t i = 0; i < judged.refused.size(); ++i) {
      Row& row = *of[judged.refused_rows[i]];
      ask_back_reading(row, judged.refused[i]);
      row.at.reset();
    }
    for (std::size_t i = 0; i < of.size(); ++i) {
      if (of[i]->at) out_.readings.push_back(proposals[i].fact);
    }
    accepted_ = std::move(judged.accepted);
    list();
  }

  void list() {
    const Snapshot now(out_.fleet, whole_book(accepted_), ask_.today, true);
    out_.list = std::make_shared<const DueList>(due_list(now, {ask_.today, {}, Detail::standings}, straight_line()));
  }

  // A machine put in service new is overdue for each service that nobody wrote down since. Of one that has been at work
  // for long, of which a spreadsheet tells no service, that would be said of nearly all and be wrong of most: it is
  // taken over as a used one is, whose services are asked for.
  bool ask_for_services() {
    std::set<std::string> long_in_service;
    for (const Point& point : out_.list->points) {
      const bool since_new = point.fitted && point.fitted->basis == Basis::in_service;
      if (since_new && is_due(point)) long_in_service.insert(point.machine->key);
    }
    for (Row& row : rows_) {
      if (!long_in_service.contains(row.machine.key)) continue;
      Start& start = row.machine.start;
      start = {StartKind::bought, start.on, start.at.value_or(Amount{})};
      out_.services_not_known.push_back(row.machine.key);
    }
    return !long_in_service.empty();
  }

  void hand_over() {
    std::map<const SheetRow*, std::string> keys;
    for (const Row& row : rows_) {
      keys[row.sheet] = row.machine.key;
      TakenOver::MachineTaken one{row.sheet->line,  row.machine.key, row.machine.name, row.machine.schedule,
                                  row.machine.site, row.at,          std::nullopt,     row.machine.notes};
      if (row.at) one.on = row.on.value_or(out_.read_on);
      if (row.at && !row.on) ++out_.without_day;
      out_.machines.push_back(std::move(one));
    }
    std::stable_sort(out_.aside.begin(), out_.aside.end(),
                     [](const auto& a, const auto& b) { return a.line < b.line; });
    bad_in_order_of_lines();
    for (Bad& bad : bad_) {
      bad.field.machine = keys[bad.row];
      out_.left_out.push_back(std::move(bad.field));
    }
    std::erase_if(out_.columns, [&](const TakenOver::Column& column) { return !column.column && is_empty(column); });
  }

  bool is_empty(const TakenOver::Column& column) const {
    const auto at = static_cast<std::size_t>(column.number) - 1;
    return column.heading.empty() && std::none_of(sheet_.rows.begin(), sheet_.rows.end(), [&](const SheetRow& row) {
             return at < row.fields.size() && !row.fields[at].text.empty();
           });
  }

  const TakeOverAsk& ask_;
  Sheet sheet_;
  Places places_;
  std::vector<Row> rows_;
  std::map<std::string, std::string> sites_;  // by key: the name
  std::vector<Bad> bad_;
  std::vector<Fact> accepted_;
  TakenOver out_;
};

}  // namespace
}  // namespace entry

TakenOver take_over(std::string_view bytes, const TakeOverAsk& ask) { return entry::TakingOver(bytes, ask).run(); }

}  // namespace service
