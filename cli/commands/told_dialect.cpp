#include "commands/told_dialect.h"

#include <fmt/format.h>

#include <initializer_list>
#include <optional>
#include <utility>

#include "service/diagnostics.h"

namespace cli {
namespace {

template <class Value>
std::optional<Value> one_of(const Arguments& arguments, const char* option,
                            std::initializer_list<std::pair<const char*, Value>> choices) {
  const auto written = arguments.value(option);
  if (!written) return std::nullopt;
  std::vector<std::string> names;
  for (const auto& [name, value] : choices) {
    if (*written == name) return value;
    names.emplace_back(name);
  }
  throw service::Failure(service::FailureKind::usage,
                         {"bad-choice", fmt::format("`--{} {}` is not understood", option, *written),
                          fmt::format("write {}", fmt::join(names, " or "))});
}

}  // namespace

service::Dialect told_dialect(const Arguments& arguments) {
  using service::DateOrder;
  using service::DecimalMark;
  return {one_of<DecimalMark>(arguments, "decimal", {{"point", DecimalMark::point}, {"comma", DecimalMark::comma}}),
          one_of<DateOrder>(arguments, "dates",
                            {{"day-first", DateOrder::day_first}, {"month-first", DateOrder::month_first}})};
}

}  // namespace cli
