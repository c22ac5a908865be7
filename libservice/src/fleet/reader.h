// Strict readers of single values in a YAML file. Each either gives the value or reports what is wrong and gives none.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fleet/draft.h"
#include "fleet/yaml_tree.h"

namespace service::fleet {

// A value under the key that it belongs to. Items of a list keep the list's key.
struct Field {
  std::string_view name;
  Span key;
  const Node* value = nullptr;
};

// What a value should have been: for messages.
struct Wanted {
  const char* code;
  std::string_view what;  // "a day"
  std::string_view hint;  // "write the day as YYYY-MM-DD"
};

namespace wanted {
inline constexpr Wanted day{code::bad_day, "a day", "write the day as YYYY-MM-DD"};
inline constexpr Wanted day_span{code::bad_day, "a day, month or year", "write YYYY-MM-DD, YYYY-MM or YYYY"};
inline constexpr Wanted number{code::bad_number, "a number", "write digits, and a point before the decimals"};
}  // namespace wanted

struct Limits {
  std::int64_t least = 0;
  std::int64_t most = 1'000'000'000;
};

inline constexpr Limits any_amount{0, 1'000'000'000};

class Reader {
 public:
  Reader(const Source& source, Diagnostics& diagnostics, Draft& draft)
      : draft(draft), source_(source), diagnostics_(diagnostics) {}

  Draft& draft;

  const Source& source() const { return source_; }
  Diagnostics& diagnostics() const { return diagnostics_; }
  Spot spot(Span span) const { return {&source_, span}; }
  Spot spot(const Field& field) const;  // of the value; of the key where there is no value
  void error(const char* code, const Spot& spot, std::string message, std::string hint) const;

  // Shapes. Nothing where the value has another one.
  const Node* scalar(const Field& field, const Wanted& wanted) const;
  std::optional<std::vector<Field>> map(const Field& field, std::string_view hint) const;
  std::vector<Field> list(const Field& field, std::string_view hint) const;

  // Keys that people choose (of machines, tasks, parts): lower-case letters, digits and hyphens.
  bool good_name(std::string_view name, const Spot& spot) const;

  template <class T>
  std::optional<T> parsed(const Field& field, Parsed<T> (*parse)(std::string_view), const Wanted& wanted) const {
    const Node* const node = scalar(field, wanted);
    if (node == nullptr) return std::nullopt;
    Parsed<T> read = parse(node->text);
    if (!read) complain(field, wanted, node->text, read.problem);
    return read.value;
  }

  std::optional<std::string> text(const Field& field) const;
  std::optional<std::string> line(const Field& field) const;  // a text without line breaks and tabs
  std::optional<std::string> name(const Field& field) const;  // a key that people chose, as a value
  std::optional<bool> yes_or_no(const Field& field) const;
  std::optional<std::int64_t> hundredths(const Field& field, Limits limits = any_amount) const;  // limits in units
  std::optional<std::int64_t> positive_hundredths(const Field& field) const;
  template <class Exactly>
  std::optional<Exactly> exact(const Field& field, Limits limits = any_amount) const {
    const auto read = hundredths(field, limits);
    return read ? std::optional{Exactly{*read}} : std::nullopt;
  }
  template <class Exactly>
  std::optional<Exactly> positive(const Field& field) const {
    const auto read = positive_hundredths(field);
    return read ? std::optional{Exactly{*read}} : std::nullopt;
  }
  std::optional<int> count(const Field& field, Limits limits) const;
  std::optional<Day> day(const Field& field) const;
  std::optional<DaySpan> day_span(const Field& field) const;
  std::optional<std::chrono::minutes> minutes(const Field& field) const;
  std::optional<int> days(const Field& field, Limits limits) const;  // 21 days, 3 weeks
  std::optional<int> percent_hundredths(const Field& field, Limits limits) const;
  std::optional<Quantity> quantity(const Field& field) const;  // 11.5 L
  std::optional<Speed> speed(const Field& field) const;        // 48 km/h
  std::optional<std::size_t> choice(const Field& field, const std::vector<std::string>& words) const;

  std::vector<std::string> texts(const Field& field) const;           // a list of texts
  std::vector<std::string> distinct_names(const Field& field) const;  // a list of keys that people chose
  std::vector<Mention> distinct_mentions(const Field& field) const;   // the same with their places
  std::vector<Day> days_list(const Field& field) const;

  // `"May 1"` instead of what was wanted.
  void complain(const Field& field, const Wanted& wanted, std::string_view text, std::string_view problem) const;
  void complain_range(const Field& field, std::string_view text, std::string_view least, std::string_view most) const;

 private:
  const Source& source_;
  Diagnostics& diagnostics_;
};

// "21 days", "3 weeks".
Parsed<int> parse_days_or_weeks(std::string_view text);

}  // namespace service::fleet
