// A fleet out of somebody's spreadsheet: which rows are machines, what their fields say, and all that must be asked
// back.
#include "service/taking_over.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "entry/others_columns.h"
#include "entry/others_sheet.h"
#include "entry/others_words.h"
#include "entry/taken_files.h"
#include "service/snapshot.h"
#include "service/usage.h"

namespace service {
namespace entry {
namespace {

// A figure as it is written, the unit behind it taken off.
struct Figure {
  std::string number;
  std::string unit;
};

Figure figure_of(std::string_view text) {
  const std::size_t end = std::min(text.find_first_not_of("0123456789.,' -"), text.size());
  Figure figure{std::string(text.substr(0, end)), std::string(text.substr(end))};
  while (figure.number.ends_with(' ')) figure.number.pop_back();
  if (figure.number.find_first_of("0123456789") == std::string::npos) return {std::string(text), ""};
  return figure;
}

// Spreadsheets write a time behind a day, mostly midnight.
std::string without_time(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos) return std::string(text);
  const std::size_t before = text.find_first_of(" T");
  return std::string(before < colon ? text.substr(0, before) : text);
}

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
    for (Row& row : rows_) read_values(row);
    find_twice();
    give_keys();
    // What is wrong with the file is told before anything is made of it; what the book says against it, after.
    const bool sound = bad_.empty() || ask_.skip_bad;
    if (sound) make_fleet();
    if (!bad_.empty() && !ask_.skip_bad) throw Failure(FailureKind::bad_data, in_order_of_lines(std::move(bad_)));
    hand_over();
    return std::move(out_);
  }

 private:
  // A row that names a machine.
  struct Row {
    const SheetRow* sheet = nullptr;
    TakenMachine machine;
    std::string words;         // its name as words, by which it is known again
    std::optional<Amount> at;  // a reading
    std::string unit;          // of it, where one is written
    std::optional<Day> on;     // its day, where it gives one
    bool out = false;          // put aside
  };

  static std::vector<Diagnostic> in_order_of_lines(std::vector<Diagnostic> all) {
    const auto line = [](const Diagnostic& what) { return what.place ? what.place->line : 0; };
    std::stable_sort(all.begin(), all.end(),
                     [&](const Diagnostic& a, const Diagnostic& b) { return line(a) < line(b); });
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

  void ask_back(std::size_t at, std::string code, std::string message, std::string hint) {
    bad_.push_back({std::move(code),
                    std::move(message),
                    std::move(hint),
                    places_.at(at),
                    Severity::error,
                    {{CureKind::leave_out}}});
  }

  void ask_back_row(const SheetRow& row, std::string code, std::string why, std::string hint) {
    if (ask_.skip_bad) {
      out_.aside.push_back({row.line, row.raw, std::move(why)});
    } else {
      ask_back(row.from, std::move(code), std::move(why), std::move(hint));
    }
  }

  // --- Which rows are machines ---

  void put_aside(const SheetRow& row, std::string why) { out_.aside.push_back({row.line, row.raw, std::move(why)}); }

  bool is_header_again(const SheetRow& row) const {
    return std::equal(row.fields.begin(), row.fields.end(), sheet_.header.fields.begin(), sheet_.header.fields.end(),
                      [](const SheetField& a, const SheetField& b) { return as_words(a.text) == as_words(b.text); });
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
      ask_back(sheet_.header.from, "no-machines", "no row names a machine", "look whether it is the right file");
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
          "put a field that holds a separator in quotes");
    }
    if (is_header_again(row)) return put_aside(row, "it is the header again");
    const std::string key = text(row, TakenColumn::machine);
    std::string name = text(row, TakenColumn::name);
    if (name.empty()) name = key;
    const std::string words = as_words(name);
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
    taken.words = key.empty() ? words : as_words(key);
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
    std::vector<Diagnostic> unsettled;
    for (const DialectSurvey::FieldDiagnostic& one : survey.diagnostics()) {
      unsettled.push_back({one.code, one.message, one.hint, places_.at(one.at), Severity::error, one.cures});
    }
    if (!unsettled.empty()) throw Failure(FailureKind::bad_data, std::move(unsettled));
    out_.dialect = survey.dialect();
    out_.number_settled_by = survey.number_settled_by();
    out_.dates_settled_by = survey.dates_settled_by();
  }

  std::optional<Amount> amount(const Row& row, TakenColumn column, std::string* unit = nullptr) {
    const SheetField* const found = field(*row.sheet, column);
    if (found == nullptr) return std::nullopt;
    const Figure figure = figure_of(found->text);
    const std::string words = as_words(figure.unit);
    const bool hours = words.empty() || is_hours(words, column == TakenColumn::per_year);
    auto read = parse_amount(plain_number(figure.number, out_.dialect));
    if (words.find_first_of("0123456789") != std::string::npos) read = {{}, "is more than one number"};
    if (read && (hours || unit != nullptr)) {
      if (unit != nullptr) *unit = hours ? (words.empty() ? "" : "h") : figure.unit;
      return *read;
    }
    ask_back(found->from, "bad-number",
             read ? fmt::format("`{}` is not in hours", cleaned(found->text))
                  : fmt::format("`{}` {}", cleaned(found->text), read.problem),
             "write a number, with its unit or without");
    return std::nullopt;
  }

  std::optional<DaySpan> days(const Row& row, TakenColumn column) {
    const SheetField* const found = field(*row.sheet, column);
    if (found == nullptr) return std::nullopt;
    auto read = parse_day_span(plain_day(without_time(found->text), out_.dialect));
    const bool whole = column == TakenColumn::on;
    if (read && (!whole || (*read).whole_day())) return *read;
    ask_back(
        found->from, "bad-day",
        fmt::format("`{}` {}", cleaned(found->text), read ? "is not a whole day, as a reading needs it" : read.problem),
        "write a day as 2026-03-01");
    return std::nullopt;
  }

  void read_values(Row& row) {
    row.at = amount(row, TakenColumn::at, &row.unit);
    if (const SheetField* const on = field(*row.sheet, TakenColumn::on); on != nullptr && row.at) {
      if (const auto read = days(row, TakenColumn::on)) {
        row.on = read->first;
      } else {
        row.at.reset();  // a value without its day would be taken for one of today
      }
    }
    row.machine.per_year = amount(row, TakenColumn::per_year);
    read_start(row);
  }

  void read_start(Row& row) {
    const auto in_service = days(row, TakenColumn::in_service);
    const auto bought = days(row, TakenColumn::bought);
    const auto in_service_at = amount(row, TakenColumn::in_service_at);
    const auto bought_at = amount(row, TakenColumn::bought_at);
    if (in_service && bought) {
      return ask_back(field(*row.sheet, TakenColumn::bought)->from, "two-starts",
                      "a machine was either put in service new or bought used", "leave one of the two days out");
    }
    if (in_service_at && !in_service) ask_for_day(row, TakenColumn::in_service_at);
    if (bought_at && !bought) ask_for_day(row, TakenColumn::bought_at);
    if (in_service) row.machine.start = {StartKind::in_service, *in_service, in_service_at};
    if (bought) row.machine.start = {StartKind::bought, *bought, bought_at};
  }

  void ask_for_day(const Row& row, TakenColumn column) {
    ask_back(field(*row.sheet, column)->from, "missing-day", "what the meter showed needs the day on which it did",
             "give the day in a column of its own");
  }

  // --- Names ---

  // The same name is the same machine, unless each has a serial number of its own.
  static bool same_machine(const Row& a, const Row& b) {
    const std::string& one = a.machine.serial;
    const std::string& other = b.machine.serial;
    return a.words == b.words && (one.empty() || other.empty() || as_words(one) == as_words(other));
  }

  void find_twice() {
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (rows_[j].out || !same_machine(rows_[i], rows_[j])) continue;
        rows_[i].out = true;
        ask_back_row(
            *rows_[i].sheet, "machine-twice",
            fmt::format("`{}` is there already, on line {}", cleaned(rows_[i].machine.name), rows_[j].sheet->line),
            "take one of the two rows out, or give each a serial number or a name of its own");
        break;
      }
    }
    std::erase_if(rows_, [](const Row& row) { return row.out; });
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
    std::set<std::string> given;
    for (Row& row : rows_) {
      const int line = row.sheet->line;
      const std::string key = key_of(row.machine.key, "machine", line);
      row.machine.key = key;
      for (int n = 2; !given.insert(row.machine.key).second; ++n) row.machine.key = fmt::format("{}-{}", key, n);
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

  void make_fleet() {
    std::vector<TakenMachine> machines;
    FleetFiles all;
    all.texts = ask_.schedules;
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
    propose_readings();
  }

  // A value in km is no reading of an hour meter.
  bool fits_meter(const Row& row) {
    const Machine& machine = *out_.fleet->machine(row.machine.key);
    const Meter* const meter = machine.first_meter();
    const std::string wanted = meter == nullptr ? "" : meter->unit;
    if (meter != nullptr && (row.unit.empty() || row.unit == wanted)) return true;
    ask_back(field(*row.sheet, TakenColumn::at)->from, "other-unit",
             meter == nullptr ? fmt::format("the machines of schedule `{}` have no meter", machine.schedule)
                              : fmt::format("that is in {}, and the meter of schedule `{}` counts in {}",
                                            cleaned(row.unit), machine.schedule, wanted),
             "name another schedule for the machine, or leave the value out");
    return false;
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
      reading.place = places_.at(field(*row.sheet, TakenColumn::at)->from);
      proposals.push_back(std::move(reading));
      of.push_back(&row);
    }
    Judgement judged = judge(*out_.fleet, {}, proposals, Stamp{}, ask_.today);
    for (const std::size_t refused : judged.refused_rows) of[refused]->at.reset();
    for (Diagnostic& what : judged.refused) {
      what.cures.push_back({CureKind::leave_out});
      bad_.push_back(std::move(what));
    }
    for (std::size_t i = 0; i < of.size(); ++i) {
      if (of[i]->at) out_.readings.push_back(proposals[i].fact);
    }
    const Snapshot now(out_.fleet, whole_book(std::move(judged.accepted)), ask_.today, true);
    out_.list = std::make_shared<const DueList>(due_list(now, {ask_.today, {}, Detail::standings}, straight_line()));
  }

  void hand_over() {
    for (const Row& row : rows_) {
      TakenOver::MachineTaken one{row.sheet->line,  row.machine.key, row.machine.name, row.machine.schedule,
                                  row.machine.site, row.at,          std::nullopt};
      if (row.at) one.on = row.on.value_or(out_.read_on);
      if (row.at && !row.on) ++out_.without_day;
      out_.machines.push_back(std::move(one));
    }
    std::stable_sort(out_.aside.begin(), out_.aside.end(),
                     [](const auto& a, const auto& b) { return a.line < b.line; });
    out_.left_out = in_order_of_lines(std::move(bad_));
  }

  const TakeOverAsk& ask_;
  Sheet sheet_;
  Places places_;
  std::vector<Row> rows_;
  std::map<std::string, std::string> sites_;  // by key: the name
  std::vector<Diagnostic> bad_;
  TakenOver out_;
};

}  // namespace
}  // namespace entry

TakenOver take_over(std::string_view bytes, const TakeOverAsk& ask) { return entry::TakingOver(bytes, ask).run(); }

}  // namespace service
