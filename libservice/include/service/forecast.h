// The answer to "how will it go on": use of every meter ahead, and what comes due next. Usage is in the meter's own
// unit. Every day ahead is an estimate; nothing here decides a standing by facts.
#pragma once

#include <memory>
#include <string_view>
#include <vector>

#include "service/base.h"
#include "service/due_list.h"
#include "service/not_to_run.h"
#include "service/snapshot.h"
#include "service/usage.h"

#pragma GCC visibility push(default)

namespace service {

// Lately so much more or less use than ever before that somebody should look at the last reading.
enum class UseLately { as_before, much_more, much_less };

UseLately use_lately(const Grounds& grounds);

std::string_view to_text(UseLately lately);  // `much-more`

// A meter that was used so much more or less lately: the days ahead that rest on it are as wrong as its last reading.
struct OddUse {
  const Machine* machine = nullptr;
  const Meter* meter = nullptr;
  UseLately lately = UseLately::as_before;
  Grounds grounds;
};

// Of a machine's meters, in its order. Points into the fleet.
std::vector<OddUse> odd_uses(const Machine& machine, const Aheads& aheads);

// The months with half as much use again as a mean month, where they hold much of the year. Empty: spread over it.
struct BusyMonths {
  std::vector<unsigned> months;  // 1 to 12
  double share = 0;              // of the year's use
};

BusyMonths busy_months(const Grounds& grounds);

struct ForecastPoint {
  Point point;
  DayKind kind = DayKind::span;
};

struct MeterForecast {
  MeterAhead ahead;  // on the same day of every month, and on the last day
  // Lifetime usage as it is known of the year before, oldest first: the day on which that begins, where usage is known
  // by then, and every day from there on that a value is known of.
  std::vector<Knot> known;
  bool first_between = false;  // the first of them lies between two values: it is reckoned, nobody read it
  std::vector<Day> doubtful;   // days of which the value is hard to believe, or contradicted
  UseState state;              // of its machine: one that stands uses nothing until it is back
  UseLately lately = UseLately::as_before;
  std::optional<BusyMonths> busy;       // where anything is expected
  std::optional<UsageSpan> in_a_month;  // none beyond the last day
  std::optional<UsageSpan> in_three_months;
};

// Points into the fleet, which it keeps.
struct Forecast {
  std::shared_ptr<const Fleet> fleet;
  Day as_of;
  Day to;
  Scope scope;  // what was asked about
  std::vector<MeterForecast> meters;
  std::vector<ForecastPoint> points;  // that come due by `to` at even odds, by day
  std::vector<PointName> unknown;     // without record, or with a limb that cannot be reckoned
  std::vector<Gap> gaps;
  std::vector<MachineUse> not_in_use;
  NotToRun not_to_run;
  // What `keep_first` left off.
  std::size_t meters_left_off = 0;
  std::size_t days_left_off = 0;  // ahead, of those meters
  std::size_t points_left_off = 0;
  std::size_t left_off() const { return meters_left_off + points_left_off; }
};

// Of the machines of the scope. `to`: not before as-of; more than `horizon_months` ahead nothing is said.
Forecast forecast(const Snapshot& snapshot, Day to, const Forecaster& forecaster);

// Only the first meters, and the first points of each standing.
void keep_first(Forecast& forecast, std::size_t first);

}  // namespace service

#pragma GCC visibility pop
