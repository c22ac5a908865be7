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
  const bool only_start = meter.grounds && meter.grounds->stretches == 0;
  const char* const what = only_start ? "known since" : "read";
  if (days == 0) return fmt::format("{} today", what);
  return fmt::format("{} {}, {} ago", what, to_text(meter.last->day), service::counted(days, "day", "days"));
}

// Lately so much more or less than ever before that somebody should look at the last reading.
std::string odd_rate(const service::Grounds& grounds, const std::string& unit) {
  if (grounds.stretches < 4 || grounds.so_far <= 0) return "";
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
    text = "from no readings of its own";
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
    text += '\n' + heading(look, "Due next, at even odds; in one case of ten sooner than the span, in one later") +
            next_points(forecast);
  } else if (!forecast.meters.empty()) {
    text += '\n' + line_a_meter(forecast);
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
