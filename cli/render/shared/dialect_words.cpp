#include "render/shared/dialect_words.h"

#include <fmt/format.h>

#include "service/text.h"

namespace cli {
namespace {

std::string told_by(const std::string& field, bool by_user) {
  if (by_user) return " (as you said)";
  return field.empty() ? "" : fmt::format(" (told by `{}`)", service::cleaned(field));
}

}  // namespace

std::string separator_word(char separator) {
  if (separator == ';') return "semicolons";
  return separator == '\t' ? "tabs" : "commas";
}

std::string dialect_words(const service::Dialect& dialect, const std::string& number_settled_by,
                          const std::string& dates_settled_by, const service::Dialect& told) {
  std::string words;
  if (dialect.decimal) {
    words += fmt::format(", decimal {}{}", *dialect.decimal == service::DecimalMark::comma ? "comma" : "point",
                         told_by(number_settled_by, told.decimal.has_value()));
  }
  if (dialect.dates) {
    words += fmt::format(", {} first in days{}", *dialect.dates == service::DateOrder::day_first ? "day" : "month",
                         told_by(dates_settled_by, told.dates.has_value()));
  }
  return words;
}

std::string dialect_options(const service::Dialect& dialect) {
  std::string options;
  if (dialect.decimal) {
    options += fmt::format(" --decimal {}", *dialect.decimal == service::DecimalMark::comma ? "comma" : "point");
  }
  if (dialect.dates) {
    options +=
        fmt::format(" --dates {}", *dialect.dates == service::DateOrder::day_first ? "day-first" : "month-first");
  }
  return options;
}

}  // namespace cli
