#include "fleet/reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <unordered_set>

#include "fleet/value_checks.h"

namespace service::fleet {
namespace {

constexpr Wanted a_text{code::not_one_value, "a text", "write it behind the colon"};
constexpr Wanted a_name{code::bad_name, "a name", "write it behind the colon"};
constexpr Wanted a_count{code::bad_number, "a whole number", "write digits only"};
constexpr Wanted minutes_wanted{code::bad_length_of_time, "a length of time", "write 50 min, 1 h or 1 h 30 min"};
constexpr Wanted days_wanted{code::bad_number_of_days, "a number of days", "write 21 days or 3 weeks"};
constexpr Wanted a_percentage{code::bad_percent, "a percentage", "write it like 10%"};
constexpr Wanted a_quantity{code::bad_quantity, "a quantity with its unit", "write it like 11.5 L"};
constexpr Wanted a_speed{code::bad_speed, "a speed", "write it like 48 km/h"};
constexpr Wanted true_or_false{code::bad_yes_or_no, "true or false", "write true or false, without quotes"};

bool blank(std::string_view text) { return text.find_first_not_of(" \t\n") == std::string_view::npos; }

// "11.5 L": a number, one blank, the rest.
struct NumberAndWord {
  std::string_view number;
  std::string_view word;
};

std::optional<NumberAndWord> number_and_word(std::string_view text) {
  const std::size_t gap = text.find(' ');
  if (gap == std::string_view::npos || gap + 1 == text.size() || text[gap + 1] == ' ') return std::nullopt;
  return NumberAndWord{text.substr(0, gap), text.substr(gap + 1)};
}

Parsed<std::int64_t> parse_percent_hundredths(std::string_view text) {
  if (!text.ends_with('%')) return {{}, "has no % at its end"};
  text.remove_suffix(1);
  if (text.ends_with(' ')) text.remove_suffix(1);
  return parse_hundredths(text);
}

Parsed<Quantity> parse_quantity(std::string_view text) {
  const auto parts = number_and_word(text);
  if (!parts) return {{}, "is not a number, a blank and a unit"};
  const auto amount = parse_exact<PartAmount>(parts->number);
  if (!amount) return {{}, fmt::format("begins with a number that {}", amount.problem)};
  return {Quantity{*amount, std::string(parts->word)}, {}};
}

Parsed<Speed> parse_speed(std::string_view text) {
  const auto parts = number_and_word(text);
  if (!parts || parts->word != "km/h") return {{}, "is not a number, a blank and km/h"};
  return parse_exact<Speed>(parts->number);
}

Parsed<bool> parse_true_or_false(std::string_view text) {
  if (text == "true") return {true, {}};
  if (text == "false") return {false, {}};
  return {{}, "is neither"};
}

}  // namespace

Parsed<int> parse_days_or_weeks(std::string_view text) {
  const auto parts = number_and_word(text);
  const bool weeks = parts && (parts->word == "weeks" || parts->word == "week");
  const bool days = parts && (parts->word == "days" || parts->word == "day");
  if (!weeks && !days) return {{}, "is not a number of days or weeks"};
  const auto count = parse_count(parts->number);
  if (!count) return {{}, fmt::format("begins with a number that {}", count.problem)};
  return {*count * (weeks ? 7 : 1), {}};
}

Spot Reader::spot(const Field& field) const {
  return spot(field.value->kind == Node::Kind::nothing ? field.key : field.value->span);
}

void Reader::error(const char* code, const Spot& spot, std::string message, std::string hint) const {
  diagnostics_.error(code, spot, std::move(message), std::move(hint));
}

void Reader::complain(const Field& field, const Wanted& wanted, std::string_view text, std::string_view problem) const {
  error(wanted.code, spot(field),
        fmt::format("`{}` needs {}, but {} {}", cleaned(field.name), wanted.what, in_quotes(text), problem),
        std::string(wanted.hint));
}

void Reader::complain_range(const Field& field, std::string_view text, std::string_view least,
                            std::string_view most) const {
  error(code::out_of_range, spot(field), fmt::format("`{}` cannot be {}", cleaned(field.name), text),
        most.empty() ? fmt::format("write {}", least) : fmt::format("write a value from {} to {}", least, most));
}

const Node* Reader::scalar(const Field& field, const Wanted& wanted) const {
  const Node& node = *field.value;
  switch (node.kind) {
    case Node::Kind::broken:
      return nullptr;
    case Node::Kind::scalar:
      if (!blank(node.text)) return &node;
      [[fallthrough]];
    case Node::Kind::nothing:
      error(code::empty_value, spot(field), fmt::format("`{}` has no value", cleaned(field.name)),
            fmt::format("write {}, or leave the key out", wanted.what));
      return nullptr;
    case Node::Kind::list:
    case Node::Kind::map:
      error(code::not_one_value, spot(field),
            fmt::format("`{}` needs {}, but this is a {}", cleaned(field.name), wanted.what,
                        node.kind == Node::Kind::list ? "list" : "map"),
            std::string(wanted.hint));
      return nullptr;
  }
  return nullptr;
}

std::optional<std::vector<Field>> Reader::map(const Field& field, std::string_view hint) const {
  const Node& node = *field.value;
  if (node.kind == Node::Kind::broken) return std::nullopt;
  if (node.kind == Node::Kind::nothing) {
    error(code::empty_value, spot(field), fmt::format("`{}` has no value", cleaned(field.name)), std::string(hint));
    return std::nullopt;
  }
  if (node.kind != Node::Kind::map) {
    error(code::not_a_map, spot(field),
          fmt::format("`{}` needs keys and values, but this is {}", cleaned(field.name),
                      node.kind == Node::Kind::list ? "a list" : in_quotes(node.text)),
          std::string(hint));
    return std::nullopt;
  }
  std::vector<Field> fields;
  fields.reserve(node.entries.size());
  for (const Entry& entry : node.entries) fields.push_back({entry.key.text, entry.key.span, &entry.value});
  return fields;
}

std::vector<Field> Reader::list(const Field& field, std::string_view hint) const {
  const Node& node = *field.value;
  if (node.kind == Node::Kind::broken) return {};
  if (node.kind == Node::Kind::nothing) {
    error(code::empty_value, spot(field), fmt::format("`{}` has no value", cleaned(field.name)), std::string(hint));
    return {};
  }
  if (node.kind != Node::Kind::list) {
    error(code::not_a_list, spot(field),
          fmt::format("`{}` needs a list, but this is {}", cleaned(field.name),
                      node.kind == Node::Kind::map ? "a map" : in_quotes(node.text)),
          std::string(hint));
    return {};
  }
  std::vector<Field> fields;
  fields.reserve(node.items.size());
  for (const Node& item : node.items) {
    fields.push_back({field.name, item.kind == Node::Kind::nothing ? field.key : item.span, &item});
  }
  return fields;
}

bool Reader::good_name(std::string_view name, const Spot& where) const { return check_name(name, where, diagnostics_); }

std::optional<std::string> Reader::text(const Field& field) const {
  const Node* const node = scalar(field, a_text);
  return node == nullptr ? std::nullopt : std::optional(node->text);
}

std::optional<std::string> Reader::line(const Field& field) const {
  auto read = text(field);
  if (!read || read->find_first_of("\n\r\t") == std::string::npos) return read;
  error(code::control_character, spot(field), fmt::format("`{}` holds a line break or a tab", cleaned(field.name)),
        "write it as one word, or a few with blanks between");
  return std::nullopt;
}

std::optional<std::string> Reader::name(const Field& field) const {
  const Node* const node = scalar(field, a_name);
  if (node == nullptr || !good_name(node->text, spot(field))) return std::nullopt;
  return node->text;
}

std::optional<bool> Reader::yes_or_no(const Field& field) const {
  const Node* const node = scalar(field, true_or_false);
  if (node == nullptr) return std::nullopt;
  if (!node->plain) {
    complain(field, true_or_false, node->text, "is a text in quotes");
    return std::nullopt;
  }
  return parsed(field, parse_true_or_false, true_or_false);
}

std::optional<std::int64_t> Reader::hundredths(const Field& field, Limits limits) const {
  const auto read = parsed(field, parse_hundredths, wanted::number);
  if (!read || (*read >= std::int64_t{limits.least} * 100 && *read <= std::int64_t{limits.most} * 100)) return read;
  complain_range(field, hundredths_to_text(*read), std::to_string(limits.least), std::to_string(limits.most));
  return std::nullopt;
}

std::optional<std::int64_t> Reader::positive_hundredths(const Field& field) const {
  const auto read = parsed(field, parse_hundredths, wanted::number);
  if (!read || *read > 0) return read;
  complain_range(field, hundredths_to_text(*read), "a number above 0", {});
  return std::nullopt;
}

std::optional<int> Reader::count(const Field& field, Limits limits) const {
  const auto read = parsed(field, parse_count, a_count);
  if (!read || (*read >= limits.least && *read <= limits.most)) return read;
  complain_range(field, std::to_string(*read), std::to_string(limits.least), std::to_string(limits.most));
  return std::nullopt;
}

std::optional<Day> Reader::day(const Field& field) const { return parsed(field, parse_day, wanted::day); }
std::optional<DaySpan> Reader::day_span(const Field& field) const {
  return parsed(field, parse_day_span, wanted::day_span);
}

std::optional<std::chrono::minutes> Reader::minutes(const Field& field) const {
  return parsed(field, parse_minutes, minutes_wanted);
}

std::optional<int> Reader::days(const Field& field, Limits limits) const {
  const auto read = parsed(field, parse_days_or_weeks, days_wanted);
  if (!read || (*read >= limits.least && *read <= limits.most)) return read;
  complain_range(field, counted(*read, "day", "days"), std::to_string(limits.least),
                 counted(limits.most, "day", "days"));
  return std::nullopt;
}

std::optional<int> Reader::percent_hundredths(const Field& field, Limits limits) const {
  const auto read = parsed(field, parse_percent_hundredths, a_percentage);
  if (!read) return std::nullopt;
  if (*read >= std::int64_t{limits.least} * 100 && *read <= std::int64_t{limits.most} * 100)
    return static_cast<int>(*read);
  complain_range(field, hundredths_to_text(*read) + '%', fmt::format("{}%", limits.least),
                 fmt::format("{}%", limits.most));
  return std::nullopt;
}

std::optional<Quantity> Reader::quantity(const Field& field) const {
  auto read = parsed(field, parse_quantity, a_quantity);
  if (!read || read->amount.hundredths > 0) return read;
  complain_range(field, field.value->text, "an amount above 0", {});
  return std::nullopt;
}

std::optional<Speed> Reader::speed(const Field& field) const {
  const auto read = parsed(field, parse_speed, a_speed);
  if (!read || (read->hundredths > 0 && *read <= Speed::units(300))) return read;
  complain_range(field, field.value->text, "1 km/h", "300 km/h");
  return std::nullopt;
}

std::optional<std::size_t> Reader::choice(const Field& field, const std::vector<std::string>& words) const {
  const std::string all = listed(words, "or");
  const Wanted wanted{code::bad_choice, all, all};
  const Node* const node = scalar(field, wanted);
  if (node == nullptr) return std::nullopt;
  const auto found = std::find(words.begin(), words.end(), node->text);
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  const std::string hint = nearest_or(node->text, words, fmt::format("write {}", all));
  complain(field, {code::bad_choice, all, hint}, node->text,
           words.size() == 1 ? "is something else" : "is none of them");
  return std::nullopt;
}

std::vector<std::string> Reader::texts(const Field& field) const {
  std::vector<std::string> read;
  for (const Field& item : list(field, "write a list: [one, two]")) {
    if (auto one = text(item)) read.push_back(std::move(*one));
  }
  return read;
}

std::vector<Mention> Reader::distinct_mentions(const Field& field) const {
  std::vector<Mention> read;
  std::unordered_set<std::string> seen;
  for (const Field& item : list(field, "write a list of names: [one, two]")) {
    auto one = name(item);
    if (!one) continue;
    if (seen.insert(*one).second) {
      read.push_back({std::move(*one), spot(item)});
    } else {
      error(code::repeated_value, spot(item), fmt::format("`{}` is twice in the list", *one), "keep one of them");
    }
  }
  return read;
}

std::vector<std::string> Reader::distinct_names(const Field& field) const {
  std::vector<std::string> names;
  for (Mention& mention : distinct_mentions(field)) names.push_back(std::move(mention.name));
  return names;
}

std::vector<Day> Reader::days_list(const Field& field) const {
  std::vector<Day> read;
  for (const Field& item : list(field, "write a list of days: [2026-05-04, 2026-05-05]")) {
    if (const auto one = day(item)) read.push_back(*one);
  }
  return read;
}

}  // namespace service::fleet
