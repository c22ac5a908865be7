// `season`: what to do before a season, and what can wait.
#include "render/season/season.h"

#include <fmt/format.h>

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"

namespace cli {
namespace {

std::optional<int> year_of(const Arguments& arguments) {
  const auto written = arguments.value("year");
  if (!written) return std::nullopt;
  const auto year = service::parse_count(*written);
  if (!year || *year < 1900 || *year > 2200) {
    wrong("bad-year", fmt::format("`--year {}` is no year from 1900 to 2200", *written),
          "write the year in which the season begins, such as 2026");
  }
  return *year;
}

service::Probability odds_of(const Arguments& arguments) {
  const auto written = arguments.value("odds");
  if (!written) return service::SeasonAsk{}.threshold;
  std::string digits = *written;
  if (digits.ends_with('%')) digits.pop_back();
  const auto percent = service::typed_amount(digits);
  if (!percent || (*percent).hundredths <= 0 || (*percent).hundredths > 10'000) {
    wrong("bad-odds", fmt::format("`--odds {}` is no share above 0 and up to 100 %", *written),
          "write percent, such as 20 or 20%");
  }
  const bool is_share = !written->ends_with('%') && (*percent).hundredths < 100;
  if (is_share) {
    wrong("bad-odds",
          fmt::format("`--odds {}` could be {} % or {} %", *written,
                      to_text(service::Amount{(*percent).hundredths * 100}), digits),
          fmt::format("write {}% or {}%", to_text(service::Amount{(*percent).hundredths * 100}), to_text(*percent)));
  }
  return service::Probability{static_cast<double>((*percent).hundredths) / 10'000};
}

}  // namespace

int season(Context& context) {
  const Arguments& arguments = context.arguments;
  Asking asking(context, 1);
  const service::Season& season = the_season(asking.fleet(), arguments.words[0]);
  const auto year = year_of(arguments);
  const service::Probability odds = odds_of(arguments);
  asking.read_whole_fleet();  // stock is the whole fleet's
  const auto first = first_option(arguments);
  auto plan = season_plan(asking.snapshot(), {&season, year, odds}, asking.forecaster());
  if (first) keep_first(plan, *first);
  asking.write(season_formats, plan, plan.left_off);
  return 0;
}

}  // namespace cli
