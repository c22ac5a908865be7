// Quantities, days, strict readers of both, and the one way to report what is wrong.
//
// Nothing here knows about machines. Everything else is built from these values:
//
//   Amount    usage of a meter, exact, in hundredths of the meter's own unit (for an hour meter: of an hour);
//             Money, PartAmount, Distance, Speed and Factor likewise, each a type of its own
//   Measure   something measured (restriction, tread depth), exact, in millionths of its unit
//   Day       a civil day, no time and no zone
//   DaySpan   a day written at reduced precision: `2009`, `2009-05` or `2009-05-17`
//   Failure   the only exception this library throws; it carries diagnostics
//
// No floating point takes part in any decision. None of these functions reads the clock, the locale or the environment.
#pragma once

#include <chrono>
#include <compare>
#include <cstdint>
#include <optional>
#include <ratio>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace service {

// --- Usage -------------------------------------------------------------------------------------------------

// Hundredths of an hour as a duration, for the places where a meter's hours meet the clock's.
using Hours = std::chrono::duration<std::int64_t, std::ratio<36>>;

// An exact quantity, in hundredths of its unit. Quantities of different kinds neither add up nor stand in for each
// other. Values read from outside are never negative and at most 1,000,000,000 units, so sums and products with a
// percentage fit.
template <class Kind>
struct Exact {
  std::int64_t hundredths = 0;

  static constexpr Exact units(std::int64_t count) { return {count * 100}; }

  friend constexpr auto operator<=>(Exact, Exact) = default;
  friend constexpr Exact operator+(Exact a, Exact b) { return {a.hundredths + b.hundredths}; }
  friend constexpr Exact operator-(Exact a, Exact b) { return {a.hundredths - b.hundredths}; }
  constexpr Exact operator-() const { return {-hundredths}; }
};

using Amount = Exact<struct UsageKind>;           // usage, or a value shown by a meter, in the meter's unit
using PartAmount = Exact<struct PartAmountKind>;  // of a part or fluid, in its unit: pieces, L, kg
using Money = Exact<struct MoneyKind>;            // in the fleet's currency
using Distance = Exact<struct DistanceKind>;      // km
using Speed = Exact<struct SpeedKind>;            // km/h
using Factor = Exact<struct FactorKind>;          // a multiple: 1.3 is 130

// The amount on an hour meter that a span of clock time is.
constexpr Amount on_hour_meter(Hours hours) { return {hours.count()}; }

// `1250`, `1250.5`, `1250.25`, `-3`: as few decimals as are exact.
std::string hundredths_to_text(std::int64_t hundredths);
template <class Kind>
std::string to_text(Exact<Kind> quantity) {
  return hundredths_to_text(quantity.hundredths);
}

// With at least one decimal (`1250.0`, `11.4`, `0.25`), as people write hours.
std::string to_text_tenths(Amount amount);

// --- Measurements ------------------------------------------------------------------------------------------

struct Measure {
  std::int64_t millionths = 0;
  friend constexpr auto operator<=>(Measure, Measure) = default;
};

std::string to_text(Measure measure);

// --- Days --------------------------------------------------------------------------------------------------

using Day = std::chrono::sys_days;

constexpr Day day_of(int year, unsigned month, unsigned day) {
  return std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{day};
}

constexpr int days_between(Day from, Day to) { return static_cast<int>((to - from).count()); }

std::string to_text(Day day);  // 2026-03-01

// Same day of the month, that many months on (or back), clamped to the month's last day:
// 31 Jan + 1 month = 28 or 29 Feb. Never chain it: 31 Jan + 2 months = 31 Mar, but (31 Jan + 1) + 1 = 28 Mar.
Day add_months(Day anchor, int months);

Day last_of_month(Day day);

// ISO 8601 reduced precision. `2009` is the span 2009-01-01 .. 2009-12-31. Due arithmetic uses `first`, the cautious
// end.
struct DaySpan {
  Day first{};
  Day last{};

  constexpr DaySpan() = default;
  constexpr DaySpan(Day day) : first(day), last(day) {}  // NOLINT(google-explicit-constructor): a day is a span of one
  constexpr DaySpan(Day from, Day to) : first(from), last(to) {}
  constexpr bool whole_day() const { return first == last; }
  friend constexpr bool operator==(const DaySpan&, const DaySpan&) = default;
};

std::string to_text(const DaySpan& span);  // as short as it was written: 2009, 2009-05, 2009-05-17

// A day of every year, for seasons. 29 February is 28 February in common years.
struct MonthDay {
  unsigned month = 1;
  unsigned day = 1;
  Day in_year(int year) const;
  friend constexpr bool operator==(const MonthDay&, const MonthDay&) = default;
};

// --- Strict readers ----------------------------------------------------------------------------------------
//
// One reader each for the command line, the fleet files and CSV, so that a value is right everywhere or nowhere.
// The whole text must be the value: no blanks around it, no thousands marks, no `0x10`, `1e3`, `nan`, no empty text.

// Either a value, or in one clause what is wrong with the text ("has more than two decimals").
template <class T>
struct Parsed {
  std::optional<T> value;
  std::string problem;

  explicit operator bool() const { return value.has_value(); }
  const T& operator*() const { return *value; }
};

Parsed<std::int64_t> parse_hundredths(std::string_view text);       // at most two decimals
Parsed<Measure> parse_measure(std::string_view text);               // at most six decimals, may be negative
Parsed<int> parse_count(std::string_view text);                     // 0 to 1,000,000
Parsed<Day> parse_day(std::string_view text);                       // 2026-03-01, years 1900 to 2199
Parsed<DaySpan> parse_day_span(std::string_view text);              // also 2026-03 and 2026
Parsed<MonthDay> parse_month_day(std::string_view text);            // 08-01
Parsed<std::chrono::minutes> parse_minutes(std::string_view text);  // 50 min, 1 h, 1 h 30 min
Parsed<int> parse_span_days(std::string_view text);  // 30d, 6w (whole days); months need an anchor, see parse_horizon

// Any exact quantity, as parse_hundredths.
template <class Quantity>
Parsed<Quantity> parse_exact(std::string_view text) {
  auto read = parse_hundredths(text);
  if (!read) return {{}, std::move(read.problem)};
  return {Quantity{*read}, {}};
}
inline Parsed<Amount> parse_amount(std::string_view text) { return parse_exact<Amount>(text); }

// A horizon seen from a day: 30d, 6w, 3m. The result is the last day inside it.
Parsed<Day> parse_horizon(std::string_view text, Day from);

// --- Text --------------------------------------------------------------------------------------------------

// The nearest of the names within a small edit distance of what was written, most similar first, at most three.
std::vector<std::string> nearest(std::string_view written, std::span<const std::string> names);

// "did you mean `a` or `b`?", or an empty text where nothing is near.
std::string did_you_mean(std::string_view written, std::span<const std::string> names);

// The same, or else the other advice.
std::string nearest_or(std::string_view written, std::span<const std::string> names, std::string otherwise);

// What to say of a name that is not there: the nearest ones; else all of them where they are few, else how many there
// are; `none` where there are no names at all.
std::string names_instead(std::string_view written, std::span<const std::string> names, std::string_view none);

// "1 day", "2 days"; "1 machine", "3 machines".
std::string counted(std::int64_t count, std::string_view one, std::string_view many);

// True for well-formed UTF-8 without surrogates and overlong forms; else the byte offset of the first bad byte.
std::optional<std::size_t> first_bad_utf8(std::string_view text);

// Control characters (C0, DEL, C1) and bidirectional overrides made harmless, for showing text from files.
std::string cleaned(std::string_view text);

// --- Text from spreadsheets --------------------------------------------------------------------------------

// UTF-16 with a byte order mark as UTF-8, and any other text as it is. Nothing where the UTF-16 is broken.
std::optional<std::string> from_utf16(std::string_view bytes);
bool is_utf16(std::string_view bytes);

// What to do about text that is not UTF-8; says which encoding it looks like.
std::string encoding_hint(std::string_view text);

// A heading as people write it (`Machine `, `IN-SERVICE`) as the name of a column.
std::string column_name(std::string_view heading);

enum class DecimalMark { point, comma };
enum class DateOrder { day_first, month_first };

// How the numbers and days of one file are written. Nothing: no field of the file needs it.
struct Dialect {
  std::optional<DecimalMark> decimal;
  std::optional<DateOrder> dates;
};

// `1.250,5` as `1250.5`, `03/04/2025` as `2025-04-03`: the form that the strict readers take. What is no number or day
// in this dialect comes back as it is.
std::string plain_number(std::string_view text, const Dialect& dialect);
std::string plain_day(std::string_view text, const Dialect& dialect);

// Finds the dialect of a file from all its numbers and days together, for one field alone often does not tell: `1.250`
// is 1250 or 1.25. It never guesses: where the whole file allows two readings, or contradicts itself, that is a
// finding.
class DialectSurvey {
 public:
  explicit DialectSurvey(Dialect told = {}) : told_(told) {}  // what its user says about the file

  // `at` is handed back with what is found about the field.
  void number(std::string_view text, std::size_t at);
  void day(std::string_view text, std::size_t at);

  struct Finding {
    std::size_t at = 0;
    std::string code;  // `two-readings`, `mixed-dialect`
    std::string message;
    std::string hint;
  };
  std::vector<Finding> findings() const;

  // What holds where there are no findings.
  Dialect dialect() const;

  // The field that settled it: `1250,5`. Empty where it was told, or where nothing needed settling.
  const std::string& number_settled_by() const { return numbers_.settled_by(); }
  const std::string& dates_settled_by() const { return days_.settled_by(); }

 private:
  // One question with two possible answers, asked of many fields.
  class Choice {
   public:
    void see(std::string_view text, std::size_t at, const std::optional<std::string>& first,
             const std::optional<std::string>& second);
    std::optional<bool> is_second(std::optional<bool> told) const;
    const std::string& settled_by() const;

    struct Field {
      std::string text;
      std::size_t at = 0;
      std::string first;
      std::string second;
    };
    std::optional<Field> only_first;
    std::optional<Field> only_second;
    std::optional<Field> either;
  };

  Dialect told_;
  Choice numbers_;
  Choice days_;
};

// --- What is wrong -----------------------------------------------------------------------------------------

// Where in a file. Lines and columns count from 1, columns in characters. `text` is that source line as it was written.
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
  int width = 1;
  std::string text;
};

enum class Severity { error, remark };

struct Diagnostic {
  std::string code;     // stable name of the mistake, such as `unknown-key`: the same in tests and documents
  std::string message;  // what is wrong, one sentence without a full stop
  std::string hint;     // what to do about it
  std::optional<Place> place = std::nullopt;
  Severity severity = Severity::error;
};

// What kind of failure it was. The values are the exit statuses of the command (sysexits).
enum class Trouble {
  usage = 64,
  bad_data = 65,
  not_found = 66,
  internal = 70,
  io = 74,
  busy = 75,
  bad_fleet = 78,
};

class Failure : public std::runtime_error {
 public:
  Failure(Trouble trouble, std::vector<Diagnostic> diagnostics);
  Failure(Trouble trouble, Diagnostic diagnostic);

  Trouble trouble() const { return trouble_; }
  const std::vector<Diagnostic>& diagnostics() const { return diagnostics_; }

 private:
  Trouble trouble_;
  std::vector<Diagnostic> diagnostics_;
};

}  // namespace service
