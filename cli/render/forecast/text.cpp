#include <fmt/format.h>

#include <algorithm>

#include "render/forecast/forecast.h"
#include "render/forecast/words.h"
#include "render/shared/cautions.h"
#include "render/shared/grounds_words.h"
#include "render/shared/headings.h"
#include "render/shared/point_rows.h"
#include "render/shared/resources_words.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"
#include "service/run_ban.h"
#include "terminal/band.h"
#include "terminal/table.h"
#include "terminal/width.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::MeterAhead;
using service::Point;
using service::UsageSpan;

std::string when_read(const MeterAhead& meter, service::Day as_of) {
  if (!meter.last) return "never read";
  const int days = service::days_between(meter.last->day, as_of);
  const bool only_start = meter.grounds && meter.grounds->readings == 0;
  const char* const what = only_start ? "known since" : "read";
  return days == 0 ? fmt::format("{} today", what) : fmt::format("{} {}", what, to_text(meter.last->day));
}

// The span below its middle.
std::string below(const std::optional<UsageSpan>& span) {
  return span && span->p10 != span->p90
             ? fmt::format("{} to {}", whole_units(span->shown.p10), whole_units(span->shown.p90))
             : "";
}

std::string lines_of_meters(const service::Forecast& forecast, const Look& look) {
  std::vector<Row> rows{{"", "today", "in a month", "in three months", "in a mean year"}};
  std::string nothing;
  std::string look_at;
  std::vector<std::string> lifetimes;
  const auto then = [](const std::optional<UsageSpan>& span, const std::string& unit) {
    return span ? about(span->shown.p50, unit) : std::string();
  };
  for (const service::MeterForecast& each : forecast.meters) {
    const MeterAhead& meter = each.ahead;
    const std::string unit = service::cleaned(meter.meter->unit);
    if (!meter.now) {
      nothing +=
          fmt::format("  {}: {}, so nothing is said of its use\n", name_of(meter),
                      meter.last ? "one value, and neither its owner nor its kind says more" : "nobody ever read it");
      continue;
    }
    rows.push_back({name_of(meter), about(meter.now->shown.p50, unit), then(each.in_a_month, unit),
                    then(each.in_three_months, unit),
                    meter.grounds ? fmt::format("{:.0f} {}", meter.grounds->per_year, unit) : ""});
    rows.push_back({"  " + when_read(meter, forecast.as_of), below(meter.now), below(each.in_a_month),
                    below(each.in_three_months), ""});
    if (shows_less(meter)) lifetimes.push_back(fmt::format("{} {}", name_of(meter), about(meter.now->p50, unit)));
    if (const std::string odd = meter.grounds ? words_of(each.lately, *meter.grounds, unit) : ""; !odd.empty()) {
      look_at += fmt::format("  {}: {}\n", name_of(meter), odd);
    }
  }
  std::string text = rows.size() > 1 ? table(rows, "", static_cast<std::size_t>(look.columns)) : "";
  if (rows.size() > 1) {
    text += "\nWhat the meters will show; below each value, eight cases of ten lie within.\n";
    if (!lifetimes.empty()) {
      text += wrapped("", fmt::format("Changed or gone round; lifetime use today: {}.", fmt::join(lifetimes, ", ")),
                      static_cast<std::size_t>(look.columns), 0);
    }
    text += fmt::format("One machine closely: {} forecast MACHINE\n", look.command);
  }
  if (!look_at.empty()) text += "\nLook again\n" + look_at;
  if (!nothing.empty()) text += (text.empty() ? "Never read\n" : "\nNever read\n") + nothing;
  return text;
}

std::string closely(const service::MeterForecast& forecast, const Look& look) {
  const MeterAhead& meter = forecast.ahead;
  const std::string unit = service::cleaned(meter.meter->unit);
  const auto columns = static_cast<std::size_t>(look.columns);
  std::string text = '\n' + heading(look, name_of(meter));
  for (const auto& [name, words] : meter_lines(forecast, look.command)) {
    text += wrapped("  " + padded(name, name.empty() ? 0 : 12), words, columns, name.empty() ? 6 : 14);
  }
  if (!meter.now) return text;
  double most = 0;
  const double from = units(meter.now->p10);
  for (const UsageSpan& span : meter.ahead) most = std::max(most, units(span.p90) - from);
  text +=
      "\n  what the meter shows by a day, at even odds and in eight cases of ten;\n  the bars begin at today's low "
      "end\n";
  std::vector<Row> rows;
  for (const UsageSpan& span : meter.ahead) {
    const Band band{units(span.p10) - from, units(span.p50) - from, units(span.p90) - from};
    rows.push_back({"by " + to_text(span.day), about(span.shown.p50, unit),
                    fmt::format("{} to {}", whole_units(span.shown.p10), whole_units(span.shown.p90)),
                    band_bar(look, band, most, 40)});
  }
  return text + table(rows, "  ", columns);
}

std::string day_words(const service::ForecastPoint& each, service::Day as_of) {
  const auto& [p10, p50, p90] = each.point.due_span;
  switch (each.kind) {
    case service::DayKind::reached: {
      std::string text = when(each.point, as_of);
      const std::string estimate = estimate_words(each.point);
      if (!estimate.empty()) text += ", " + estimate;
      if (each.point.by_estimate && p90 && *p90 > as_of) {
        text += fmt::format("; in nine cases of ten by {}", to_text(*p90));
      }
      return text;
    }
    case service::DayKind::beyond:
      return to_text(*p10) + " to beyond five years";
    case service::DayKind::span:
      return p10 == p90 ? "sooner in less than one case of ten" : fmt::format("{} to {}", to_text(*p10), to_text(*p90));
    case service::DayKind::at_latest:
      return service::unforeseen(each.point) ? "at the latest; by use nothing can be said" : "at the latest";
    case service::DayKind::certain:
      break;
  }
  return "for certain";
}

std::string next_points(const service::Forecast& forecast, const Look& look) {
  std::vector<Row> rows;
  for (const service::ForecastPoint& each : forecast.points) {
    const Point& point = each.point;
    std::string span = day_words(each, forecast.as_of);
    if (const std::string sooner = sooner_words(point); !sooner.empty()) span += "; " + sooner;
    if (!point.measure_again.empty()) span += fmt::format("; measure {} again", listed(point.measure_again, "and"));
    for (const std::string& word : marks_of(point)) span += "; " + word;
    if (forbids_running(point)) span += fmt::format("; {}", not_before_mended);
    if (point.put_off) span += "; put off " + words_of(*point.put_off, *point.machine);
    rows.push_back({service::cleaned(point.machine->key), task_of(point),
                    each.kind == service::DayKind::reached ? words_of(point.standing) : to_text(*point.due_on), span});
  }
  if (rows.empty()) {
    const bool all_known = forecast.unknown.empty() && forecast.gaps.empty();
    return fmt::format("  {} comes due by then.\n", all_known ? "Nothing" : "Nothing that is known");
  }
  return table(rows, "  ", static_cast<std::size_t>(look.columns));
}

}  // namespace

std::string forecast_as_text(const ForecastAnswer& answer, const Look& look) {
  const service::Forecast& forecast = answer.forecast;
  std::string text = heading(look, fmt::format("{}, {}: use ahead to {}", whose_list(*forecast.fleet, forecast.scope),
                                               to_text(forecast.as_of), to_text(forecast.to)));
  text += stopped_first(forecast.not_to_run.bans(), look);
  if (const auto lines = machines_that(forecast.not_in_use, service::UseKind::laid_up); !lines.empty()) {
    text += '\n' + heading(look, "Laid up") + said_rows(lines, look);
  }
  if (forecast.meters.empty()) text += "\nNo machine here has a meter, so no use is to be expected.\n";
  if (answer.closely) {
    for (const service::MeterForecast& meter : forecast.meters) text += closely(meter, look);
    text += '\n' + heading(look, "Due next, at even odds; in one case of ten sooner than the span, in one later") +
            next_points(forecast, look);
  } else if (!forecast.meters.empty()) {
    text += '\n' + lines_of_meters(forecast, look);
  }
  text += left_out(forecast.unknown, {}, look.command) + not_known(forecast.gaps, forecast.unknown, look);
  const std::size_t left_off = answer.closely ? forecast.left_off() : forecast.meters_left_off;
  if (left_off > 0) text += fmt::format("\nAnd {} more, left off by --first.\n", left_off);
  return text;
}

}  // namespace cli
