// Decimal commas and day-first dates: read where a file leaves no doubt about them.
#include <algorithm>
#include <array>

#include "service/base.h"

namespace service {
namespace {

bool digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// The mark between thousands at the beginning of the text; how many bytes it takes.
std::size_t thousands_mark(std::string_view text, char mark) {
  constexpr std::array<std::string_view, 4> blanks{" ", "\u00a0", "\u202f", "'"};
  if (text.starts_with(mark)) return 1;
  for (const std::string_view blank : blanks) {
    if (text.starts_with(blank)) return blank.size();
  }
  return 0;
}

// With a point and no marks between thousands; nothing where it is no number by these marks.
std::optional<std::string> number_by(std::string_view text, char decimal, char thousands) {
  std::string plain;
  if (text.starts_with('-')) {
    plain = "-";
    text.remove_prefix(1);
  }
  const std::size_t mark = text.find(decimal);
  std::string_view units = text.substr(0, mark);
  const std::size_t first = std::min(units.find_first_not_of("0123456789"), units.size());
  if (first == 0) return std::nullopt;
  plain += units.substr(0, first);
  const bool grouped = first < units.size();
  if (grouped && (first > 3 || units.front() == '0')) return std::nullopt;
  units.remove_prefix(first);
  std::string_view same;  // one mark between all groups
  while (!units.empty()) {
    const std::size_t length = thousands_mark(units, thousands);
    if (length == 0 || !digits(units.substr(length, 3)) || units.size() < length + 3) return std::nullopt;
    if (same.empty()) same = units.substr(0, length);
    if (units.substr(0, length) != same) return std::nullopt;
    plain += units.substr(length, 3);
    units.remove_prefix(length + 3);
  }
  if (mark == std::string_view::npos) return plain;
  const std::string_view decimals = text.substr(mark + 1);
  if (!digits(decimals)) return std::nullopt;
  return plain + '.' + std::string(decimals);
}

std::optional<std::string> number_by(std::string_view text, DecimalMark decimal) {
  return decimal == DecimalMark::point ? number_by(text, '.', ',') : number_by(text, ',', '.');
}

// Three numbers between equal marks, or two.
struct Parts {
  std::array<std::string_view, 3> part;
  std::size_t count = 0;
  char mark = 0;
};

std::optional<Parts> parts_of(std::string_view text) {
  Parts parts;
  while (true) {
    const std::size_t end = text.find_first_of("/.-");
    if (parts.count == 3 || !digits(text.substr(0, end))) return std::nullopt;
    parts.part[parts.count++] = text.substr(0, end);
    if (end == std::string_view::npos) break;
    if (parts.mark != 0 && parts.mark != text[end]) return std::nullopt;
    parts.mark = text[end];
    text.remove_prefix(end + 1);
  }
  if (parts.count < 2) return std::nullopt;
  return parts;
}

std::optional<std::string> iso(std::string_view year, std::string_view month, std::string_view day) {
  if (year.size() != 4 || month.size() > 2 || day.size() > 2) return std::nullopt;
  const auto two = [](std::string_view number) { return (number.size() == 1 ? "0" : "") + std::string(number); };
  std::string text = std::string(year) + '-' + two(month);
  if (!day.empty()) text += '-' + two(day);
  if (!parse_day_span(text)) return std::nullopt;
  return text;
}

std::optional<std::string> day_by(std::string_view text, DateOrder order) {
  if (parse_day_span(text)) return std::string(text);
  const auto parts = parts_of(text);
  if (!parts) return std::nullopt;
  const auto& [a, b, c] = parts->part;
  if (parts->count == 2) return a.size() == 4 ? iso(a, b, "") : iso(b, a, "");  // month and year, in either order
  if (a.size() == 4) return iso(a, b, c);
  return order == DateOrder::day_first ? iso(c, b, a) : iso(c, a, b);
}

DialectSurvey::FieldDiagnostic mixed(const std::string& text, std::size_t at, std::string_view is,
                                     std::string_view against, std::string_view cure) {
  return {at, "mixed-dialect",
          '`' + cleaned(text) + "` is written with " + std::string(is) + ", and " + std::string(against),
          std::string(cure)};
}

}  // namespace

std::string plain_number(std::string_view text, const Dialect& dialect) {
  // Undecided means that no number of the file differs by the mark.
  return number_by(text, dialect.decimal.value_or(DecimalMark::point)).value_or(std::string(text));
}

std::string plain_day(std::string_view text, const Dialect& dialect) {
  return day_by(text, dialect.dates.value_or(DateOrder::day_first)).value_or(std::string(text));
}

void DialectSurvey::Choice::see(std::string_view text, std::size_t at, const std::optional<std::string>& first,
                                const std::optional<std::string>& second) {
  if (!first && !second) return;  // no such value at all: the strict readers say so
  if (first && second && *first == *second) return;
  auto& kept = first && second ? either : first ? only_first : only_second;
  if (!kept) kept = Field{std::string(text), at, first.value_or(""), second.value_or("")};
}

std::optional<bool> DialectSurvey::Choice::is_second(std::optional<bool> told) const {
  if (told) return told;
  if (only_first) return false;
  if (only_second) return true;
  return std::nullopt;
}

const std::string& DialectSurvey::Choice::settled_by() const {
  static const std::string nothing;
  if (only_first) return only_first->text;
  return only_second ? only_second->text : nothing;
}

void DialectSurvey::number(std::string_view text, std::size_t at) {
  numbers_.see(text, at, number_by(text, DecimalMark::point), number_by(text, DecimalMark::comma));
}

void DialectSurvey::day(std::string_view text, std::size_t at) {
  days_.see(text, at, day_by(text, DateOrder::day_first), day_by(text, DateOrder::month_first));
}

std::vector<DialectSurvey::FieldDiagnostic> DialectSurvey::diagnostics() const {
  std::vector<FieldDiagnostic> found;
  const auto look = [&](const Choice& choice, std::optional<bool> told, std::string_view first, std::string_view second,
                        CureKind cure, const std::string& otherwise) {
    if (told) {
      const auto& other = *told ? choice.only_first : choice.only_second;
      if (other) {
        found.push_back(mixed(other->text, other->at, *told ? first : second,
                              "the file is said to be written with " + std::string(*told ? second : first),
                              "mend that field, or leave out what was said of the file"));
      }
    } else if (choice.only_first && choice.only_second) {
      const bool second_is_later = choice.only_first->at < choice.only_second->at;
      const auto& later = second_is_later ? *choice.only_second : *choice.only_first;
      const auto& earlier = second_is_later ? *choice.only_first : *choice.only_second;
      found.push_back(
          mixed(later.text, later.at, second_is_later ? second : first,
                '`' + cleaned(earlier.text) + "` before it with " + std::string(second_is_later ? first : second),
                "write the whole file in one way"));
    } else if (choice.either && !choice.only_first && !choice.only_second) {
      found.push_back({choice.either->at,
                       "two-readings",
                       '`' + cleaned(choice.either->text) + "` can be " + choice.either->first + " or " +
                           choice.either->second + ", and nothing in the file tells which",
                       otherwise,
                       {{cure}}});
    }
  };
  look(numbers_, told_.decimal ? std::optional(*told_.decimal == DecimalMark::comma) : std::nullopt, "a decimal point",
       "a decimal comma", CureKind::tell_decimal_mark, "write it without a mark between thousands");
  look(days_, told_.dates ? std::optional(*told_.dates == DateOrder::month_first) : std::nullopt, "the day first",
       "the month first", CureKind::tell_date_order, "write days as 2026-03-01");
  return found;
}

Dialect DialectSurvey::dialect() const {
  Dialect dialect = told_;
  if (const auto comma = numbers_.is_second({}); comma && !dialect.decimal) {
    dialect.decimal = *comma ? DecimalMark::comma : DecimalMark::point;
  }
  if (const auto month = days_.is_second({}); month && !dialect.dates) {
    dialect.dates = *month ? DateOrder::month_first : DateOrder::day_first;
  }
  return dialect;
}

}  // namespace service
