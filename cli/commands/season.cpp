// `season`: what to do before a season, and what can wait.
#include "render/season/season.h"

#include <fmt/format.h>

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"

namespace cli {
namespace {

const service::Season& season_named(const service::Fleet& fleet, const std::string& written) {
  if (const service::Season* season = fleet.season(written)) return *season;
  std::vector<std::string> names;
  for (const service::Season& season : fleet.seasons) names.push_back(season.key);
  wrong("unknown-season", fmt::format("there is no season `{}` in this fleet", written),
        service::names_instead(written, names, "add one to fleet.yaml: seasons: {harvest: {from: 08-01, to: 09-20}}"));
}

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

double odds_of(const Arguments& arguments) {
  const auto written = arguments.value("odds");
  if (!written) return 0.2;
  std::string digits = *written;
  if (digits.ends_with('%')) digits.pop_back();
  const auto percent = service::parse_amount(digits);
  if (!percent || (*percent).hundredths <= 0 || (*percent).hundredths > 10'000) {
    wrong("bad-odds", fmt::format("`--odds {}` is no share above 0 and up to 100 %", *written),
          "write percent, such as 20 or 20%");
  }
  return static_cast<double>((*percent).hundredths) / 10'000;
}

}  // namespace

int season(Context& context) {
  const Arguments& arguments = context.arguments;
  Asking asking(context, 1);
  const service::Season& season = season_named(asking.fleet(), arguments.words[0]);
  const auto year = year_of(arguments);
  const double odds = odds_of(arguments);
  asking.write(season_formats, season_plan(asking.snapshot(), season, year, odds, asking.forecaster()));
  return 0;
}

}  // namespace cli
