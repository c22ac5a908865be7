#include "render/forecast_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "render/headings.h"
#include "render/words.h"
#include "terminal/band.h"
#include "terminal/table.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::Amount;
using service::MeterAhead;
using service::Point;
using service::UsageSpan;

constexpr std::array<const char*, 12> months{"January", "February", "March",     "April",   "May",      "June",
                                             "July",    "August",   "September", "October", "November", "December"};

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
  if (days == 0) return "read today";
  return fmt::format("read {}, {} ago", to_text(meter.last->day), service::counted(days, "day", "days"));
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
  for (const MeterAhead& meter : forecast.meters) {
    const std::string unit = service::cleaned(meter.meter->unit);
    if (!meter.expected) {
      nothing +=
          fmt::format("  {}: {}, so nothing is said of its use\n", name_of(meter),
                      meter.last ? "one value, and neither its owner nor its kind says more" : "nobody ever read it");
      continue;
    }
    const auto more = [&](int ahead_months) -> std::string {
      const UsageSpan* span = nearest_to(meter, service::add_months(as_of, ahead_months));
      if (span == nullptr || span->day < service::add_months(as_of, ahead_months)) return "";
      const Amount now = meter.now->p50;
      return fmt::format("+{} ({} to {})", about(span->p50 - now, unit),
                         whole_units(std::max(Amount{}, span->p10 - now)),
                         whole_units(std::max(Amount{}, span->p90 - now)));
    };
    rows.push_back({name_of(meter), when_read(meter, as_of), span_words(*meter.now, unit), more(1), more(3),
                    meter.grounds ? fmt::format("{:.0f} {}", meter.grounds->per_year, unit) : ""});
  }
  std::string text = rows.size() > 1 ? table(rows) : "";
  if (!nothing.empty()) text += "\nNot known\n" + nothing;
  return text;
}

std::string closely(const MeterAhead& meter, const Look& look) {
  const std::string unit = service::cleaned(meter.meter->unit);
  const auto columns = static_cast<std::size_t>(look.columns);
  std::string text = '\n' + heading(look, name_of(meter));
  if (meter.last) {
    text += fmt::format("  last known  {} on {}\n", with_unit(meter.last->usage, unit), to_text(meter.last->day));
  }
  if (!meter.expected) {
    return text + (meter.last
                       ? "  One value alone, and neither its owner nor its kind says how it is used: nothing is said "
                         "of its use ahead.\n"
                       : "  Nobody ever read it, so nothing is said of its use. Read the meter: whichever reading "
                         "MACHINE VALUE\n");
  }
  text += fmt::format("  today       {}\n", span_words(*meter.now, unit));
  if (meter.grounds) {
    text +=
        wrapped("  from now    ",
                fmt::format("{:.0f} {} in a mean year, {}", meter.grounds->per_year, unit, busy_months(*meter.grounds)),
                columns, 14);
    text += wrapped("  learnt      ", words_of(*meter.grounds, unit), columns, 14);
  }
  double most = 0;
  for (const UsageSpan& span : meter.ahead) most = std::max(most, units(span.p90 - meter.now->p50));
  text += fmt::format("\n  use from today on, at even odds and in eight cases of ten\n");
  std::vector<Row> rows;
  for (const UsageSpan& span : meter.ahead) {
    const Band band{units(span.p10 - meter.now->p50), units(span.p50 - meter.now->p50),
                    units(span.p90 - meter.now->p50)};
    rows.push_back({"by " + to_text(span.day), fmt::format("+{:.0f} {}", std::max(0.0, band.middle), unit),
                    fmt::format("{:.0f} to {:.0f}", std::max(0.0, band.low), std::max(0.0, band.high)),
                    band_bar(look, band, most, 40)});
  }
  return text + table(rows, "  ");
}

std::string next_points(const Forecast& forecast) {
  std::vector<const Point*> points;
  for (const Point& point : forecast.list.points) {
    if (point.due_on && *point.due_on <= forecast.to) points.push_back(&point);
  }
  std::stable_sort(points.begin(), points.end(),
                   [](const Point* a, const Point* b) { return *a->due_on < *b->due_on; });
  std::vector<Row> rows;
  for (const Point* point : points) {
    const bool reached = point->standing == service::Standing::overdue || point->standing == service::Standing::due;
    const auto& [p10, p50, p90] = point->due_span;
    rows.push_back({service::cleaned(point->machine->key), task_of(*point),
                    reached ? words_of(point->standing) : to_text(*point->due_on),
                    reached                      ? when(*point, forecast.list.as_of)
                    : p10 && p90 && *p10 != *p90 ? fmt::format("{} to {}", to_text(*p10), to_text(*p90))
                    : p10 && !p90                ? fmt::format("{} to beyond five years", to_text(*p10))
                                                 : "for certain"});
  }
  return rows.empty() ? "  Nothing comes due by then.\n" : table(rows, "  ");
}

}  // namespace

std::string busy_months(const service::Grounds& grounds) {
  std::vector<std::size_t> busy;
  double share = 0;
  for (std::size_t i = 0; i < months.size(); ++i) {
    if (grounds.months.at(i) < 1.5 / 12) continue;
    busy.push_back(i);
    share += grounds.months.at(i);
  }
  if (busy.empty() || busy.size() > 5 || share < 0.4) return "spread over the year";
  std::string text = fmt::format("{:.0f} % of it in ", share * 100);
  for (std::size_t i = 0; i < busy.size(); ++i) {
    if (i > 0) text += i + 1 == busy.size() ? " and " : ", ";
    text += months.at(busy[i]);
  }
  return text;
}

std::string words_of(const service::Grounds& grounds, const std::string& unit) {
  std::string text;
  if (grounds.stretches == 0) {
    text = "no two readings to learn from";
  } else {
    text = fmt::format("from {:.1f} years of readings", grounds.years);
  }
  if (grounds.others > 0) {
    text += fmt::format(" and {} of its kind", service::counted(grounds.others, "other machine", "other machines"));
  }
  if (grounds.expected) text += "; its owner says how much a year";
  if (grounds.expected_seasons) text += grounds.expected ? ", and by season" : "; its owner says how much by season";
  text += fmt::format("; use comes in lumps of about {:.0f} {}", std::max(1.0, grounds.lump), unit);
  if (grounds.idle > 0.02) text += fmt::format("; it may be standing idle ({:.0f} %)", grounds.idle * 100);
  return text;
}

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
    text +=
        '\n' + heading(look, "Due next, at even odds; sooner or later in one case of ten each") + next_points(forecast);
  } else if (!forecast.meters.empty()) {
    text += '\n' + line_a_meter(forecast);
    text += "\nIn brackets: eight cases of ten lie within. One machine closely: whichever forecast MACHINE\n";
  }
  return text;
}

std::string replay_as_text(const service::Replay& replay, service::Day as_of, const Look& look) {
  std::string text = heading(look, fmt::format("{}, {}: was the forecast right so far?",
                                               service::cleaned(replay.fleet->name), to_text(as_of)));
  if (replay.days.empty()) {
    return text + "\nThe book holds no year of readings yet, so there is no past to ask.\n";
  }
  text += wrapped("",
                  fmt::format("Asked again on {} from {} to {}, with what was known by then: {} that the book answers, "
                              "{} that it does not yet and that are left out.",
                              service::counted(static_cast<std::int64_t>(replay.days.size()), "day", "days"),
                              to_text(replay.days.front()), to_text(replay.days.back()),
                              service::counted(replay.all.answered, "due day", "due days"), replay.all.open),
                  static_cast<std::size_t>(look.columns), 0);
  std::vector<Row> rows{{"", "answered", "within the span", "loss, days", "mean rate", "same days", ""}};
  const auto add = [&](const std::string& name, const service::ReplayScore& score) {
    if (score.answered == 0) {
      rows.push_back({name, "0", "", "", "", "", "nothing answered yet"});
      return;
    }
    std::string verdict;
    if (score.straight < score.loss && score.straight <= score.same_days)
      verdict = "the mean rate is better here";
    else if (score.same_days < score.loss)
      verdict = "the same days of last year are better here";
    rows.push_back({name, std::to_string(score.answered),
                    fmt::format("{:.0f} %", 100.0 * score.inside / score.answered), fmt::format("{:.1f}", score.loss),
                    fmt::format("{:.1f}", score.straight), fmt::format("{:.1f}", score.same_days), verdict});
  };
  for (const auto& row : replay.machines) add(service::cleaned(row.machine->key), row.score);
  for (const auto& row : replay.kinds) add("all " + service::cleaned(row.kind), row.score);
  add("all", replay.all);
  text += '\n' + table(rows) + '\n';
  text += wrapped("",
                  "Within the span: 80 % is meant; far more is too careful, far less too sure. Loss: how far off the "
                  "three days (early end, middle, late end) were, less is better; beside it the losses of two plain "
                  "rules that name one day: the mean rate of the year before, and the same days of last year.",
                  static_cast<std::size_t>(look.columns), 0);
  return text;
}

}  // namespace cli
