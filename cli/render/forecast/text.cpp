#include <fmt/format.h>

#include <algorithm>

#include "render/forecast/forecast.h"
#include "render/shared/grounds_words.h"
#include "render/shared/headings.h"
#include "render/shared/words.h"
#include "terminal/band.h"
#include "terminal/table.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::Amount;
using service::MeterAhead;
using service::Point;
using service::UsageSpan;

std::string name_of(const MeterAhead& meter) {
  const std::string machine = service::cleaned(meter.machine->key);
  return meter.machine->meters.size() > 1 ? machine + ' ' + service::cleaned(meter.meter->name) : machine;
}

double units(Amount amount) { return static_cast<double>(amount.hundredths) / 100; }

std::string whole_units(Amount amount) { return fmt::format("{:.0f}", units(amount)); }

// `2163 h (2151 to 2180)`.
std::string span_words(const UsageSpan& span, const std::string& unit) {
  if (span.p10 == span.p90) return about(span.p50, unit);
  return fmt::format("{} ({} to {})", about(span.p50, unit), whole_units(span.p10), whole_units(span.p90));
}

std::string when_read(const MeterAhead& meter, service::Day as_of) {
  if (!meter.last) return "never read";
  const int days = service::days_between(meter.last->day, as_of);
  const bool only_start = meter.grounds && meter.grounds->gaps == 0;
  const char* const what = only_start ? "known since" : "read";
  if (days == 0) return fmt::format("{} today", what);
  return fmt::format("{} {}, {} ago", what, to_text(meter.last->day), service::counted(days, "day", "days"));
}

// Lately so much more or less than ever before that somebody should look at the last reading.
std::string odd_rate(const service::Grounds& grounds, const std::string& unit) {
  if (grounds.gaps < 4 || grounds.so_far <= 0) return "";
  const double times = grounds.per_year / grounds.so_far;
  if (times < 1.8 && times > 0.4) return "";
  return fmt::format("lately {} than the {:.0f} {} a year so far: is the last reading right?",
                     times > 1 ? "much more" : "much less", grounds.so_far, unit);
}

const UsageSpan* nearest_to(const MeterAhead& meter, service::Day day) {
  const UsageSpan* best = nullptr;
  for (const UsageSpan& span : meter.ahead) {
    if (span.day <= day) best = &span;
  }
  return best;
}

std::string line_a_meter(const Forecast& forecast) {
  const service::Day as_of = forecast.list.as_of;
  std::vector<Row> rows{{"", "", "today", "in a month", "in three months", "in a mean year"}};
  std::string nothing;
  std::string look_at;
  for (const MeterAhead& meter : forecast.meters) {
    const std::string unit = service::cleaned(meter.meter->unit);
    if (!meter.now) {
      nothing +=
          fmt::format("  {}: {}, so nothing is said of its use\n", name_of(meter),
                      meter.last ? "one value, and neither its owner nor its kind says more" : "nobody ever read it");
      continue;
    }
    const auto then = [&](int ahead_months) -> std::string {
      const service::Day day = service::add_months(as_of, ahead_months);
      const UsageSpan* span = nearest_to(meter, day);
      return span == nullptr || span->day < day ? "" : span_words(*span, unit);
    };
    rows.push_back({name_of(meter), when_read(meter, as_of), span_words(*meter.now, unit), then(1), then(3),
                    meter.grounds ? fmt::format("{:.0f} {}", meter.grounds->per_year, unit) : ""});
    if (const std::string odd = meter.grounds ? odd_rate(*meter.grounds, unit) : ""; !odd.empty()) {
      look_at += fmt::format("  {}: {}\n", name_of(meter), odd);
    }
  }
  std::string text = rows.size() > 1 ? table(rows) : "";
  if (rows.size() > 1)
    text += "\nIn brackets: eight cases of ten lie within. One machine closely: whichever forecast MACHINE\n";
  if (!look_at.empty()) text += "\nLook again\n" + look_at;
  if (!nothing.empty()) text += (text.empty() ? "Not known\n" : "\nNot known\n") + nothing;
  return text;
}

std::string closely(const MeterAhead& meter, const Look& look) {
  const std::string unit = service::cleaned(meter.meter->unit);
  const auto columns = static_cast<std::size_t>(look.columns);
  std::string text = '\n' + heading(look, name_of(meter));
  if (meter.last) {
    text += fmt::format("  last known  {} on {}\n", with_unit(meter.last->usage, unit), to_text(meter.last->day));
  }
  if (!meter.now) {
    if (!meter.last) {
      return text +
             fmt::format(
                 "  Nobody ever read it, so nothing is said of its use. Read the meter: whichever reading {} VALUE\n",
                 service::cleaned(meter.machine->key));
    }
    return text +
           "  One value alone, and neither its owner nor its kind says how it is used: nothing is said of its use.\n";
  }
  text += fmt::format("  today       {}\n", span_words(*meter.now, unit));
  if (meter.grounds) {
    text +=
        wrapped("  from now    ",
                fmt::format("{:.0f} {} in a mean year, {}", meter.grounds->per_year, unit, busy_months(*meter.grounds)),
                columns, 14);
    text += wrapped("  learnt      ", words_of(*meter.grounds, unit), columns, 14);
    const std::string odd = odd_rate(*meter.grounds, unit);
    if (!odd.empty()) text += wrapped("  look again  ", odd, columns, 14);
  }
  double most = 0;
  const double from = units(meter.now->p10);
  for (const UsageSpan& span : meter.ahead) most = std::max(most, units(span.p90) - from);
  text += "\n  use of its life by a day, at even odds and in eight cases of ten; the bars begin at today's low end\n";
  std::vector<Row> rows;
  for (const UsageSpan& span : meter.ahead) {
    const Band band{units(span.p10) - from, units(span.p50) - from, units(span.p90) - from};
    rows.push_back({"by " + to_text(span.day), about(span.p50, unit),
                    fmt::format("{} to {}", whole_units(span.p10), whole_units(span.p90)),
                    band_bar(look, band, most, 40)});
  }
  return text + table(rows, "  ");
}

// A usage limb of which nothing can be said may come sooner than the day that is certain.
bool may_be_sooner(const Point& point) {
  return std::any_of(point.limbs.begin(), point.limbs.end(), [](const service::LimbStanding& limb) {
    return limb.kind == service::LimbKind::usage && !limb.due_on;
  });
}

std::string next_points(const Forecast& forecast) {
  std::vector<const Point*> points;
  for (const Point& point : forecast.list.points) {
    if (point.due_span.p50 && *point.due_span.p50 <= forecast.to) points.push_back(&point);
  }
  std::stable_sort(points.begin(), points.end(),
                   [](const Point* a, const Point* b) { return *a->due_span.p50 < *b->due_span.p50; });
  std::vector<Row> rows;
  for (const Point* point : points) {
    const bool is_reached = reached(*point);
    const auto& [p10, p50, p90] = point->due_span;
    std::string span = "for certain";
    if (is_reached) {
      span = when(*point, forecast.list.as_of);
    } else if (!p90) {
      span = to_text(*p10) + " to beyond five years";
    } else if (*p10 != *p90) {
      span = fmt::format("{} to {}", to_text(*p10), to_text(*p90));
    } else if (may_be_sooner(*point)) {
      span = "at the latest; by use nothing can be said";
    }
    if (point->by_estimate) span += ", due by estimate: read the meter";
    rows.push_back({service::cleaned(point->machine->key), task_of(*point),
                    is_reached ? words_of(point->standing) : to_text(*p50), span});
  }
  return rows.empty() ? "  Nothing comes due by then.\n" : table(rows, "  ");
}

}  // namespace

std::string forecast_as_text(const Forecast& forecast, const Look& look) {
  const service::DueList& list = forecast.list;
  std::string text = heading(look, fmt::format("{}, {}: use ahead to {}", service::cleaned(list.fleet->name),
                                               to_text(list.as_of), to_text(forecast.to)));
  for (const service::MachineUse& use : list.not_in_use) {
    text += fmt::format("  {}: {}\n", service::cleaned(use.machine->key), words_of(use.state));
  }
  if (forecast.meters.empty()) text += "\nNo machine here has a meter, so no use is to be expected.\n";
  if (forecast.closely) {
    for (const MeterAhead& meter : forecast.meters) text += closely(meter, look);
    text += '\n' + heading(look, "Due next, at even odds; in one case of ten sooner than the span, in one later") +
            next_points(forecast);
  } else if (!forecast.meters.empty()) {
    text += '\n' + line_a_meter(forecast);
  }
  return text;
}

}  // namespace cli
