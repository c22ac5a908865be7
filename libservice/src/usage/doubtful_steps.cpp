// Readings that somebody should look at.
#include <algorithm>
#include <functional>

#include "service/usage.h"

namespace service {
namespace {

struct Step {
  const Fact* fact;
  Day from;
  Day to;
  Amount used;
  int days() const { return days_between(from, to) + 1; }  // the day of the first reading may be worked too
};

// Hundredths a day, rounded up.
std::int64_t rate(const Step& step) { return (step.used.hundredths + step.days() - 1) / step.days(); }

}  // namespace

std::vector<DoubtfulStep> doubtful_steps(const Machine& machine, const Meter& meter, std::span<const Fact> facts) {
  constexpr std::int64_t long_day = 1600;  // 16 h
  constexpr std::int64_t times_above = 3;
  constexpr std::size_t enough = 8;  // steps before one may be called unlike the others
  const MeterHistory history(machine, meter, facts);
  std::vector<Step> steps;
  std::optional<Knot> last;
  for (const MeterEvent& event : meter_events(machine, meter, facts)) {
    if (event.fact == nullptr) {
      last = Knot{event.day, event.shown};
      continue;
    }
    const auto usage = history.usage_of(event.fact->id);
    if (!usage) continue;
    if (last && *usage > last->usage && !event.fresh)
      steps.push_back({event.fact, last->day, event.day, *usage - last->usage});
    last = Knot{event.day, *usage};
  }
  // The third highest rate, so that one outlier cannot hide another.
  std::vector<std::int64_t> rates;
  for (const Step& step : steps) rates.push_back(rate(step));
  std::int64_t usual = 0;
  if (rates.size() > enough) {
    std::nth_element(rates.begin(), rates.begin() + 2, rates.end(), std::greater<>());
    usual = rates[2];
  }
  std::vector<DoubtfulStep> doubtful;
  for (const Step& step : steps) {
    // Within a day or two a rate says little.
    const bool unlike_others = steps.size() > enough && step.days() > 3 && rate(step) > times_above * usual;
    if ((meter.unit == "h" && rate(step) > long_day) || unlike_others) {
      doubtful.push_back({step.fact->id, step.from, step.to, step.used});
    }
  }
  return doubtful;
}

}  // namespace service
