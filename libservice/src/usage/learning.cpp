#include "usage/learning.h"

#include <algorithm>
#include <cmath>

#include "usage/constants.h"
#include "usage/standstills.h"

namespace service::usage {
namespace {

std::vector<ReadingGap> gaps_of(const MeterHistory& history, const std::vector<Standstill>& standstills) {
  std::vector<ReadingGap> gaps;
  const auto& knots = history.knots();
  for (std::size_t i = 1; i < knots.size(); ++i) {
    ReadingGap gap{knots[i - 1].day,
                   knots[i].day,
                   static_cast<double>((knots[i].usage - knots[i - 1].usage).hundredths) / 100,
                   {}};
    gap.days = days_in_use(gap.from, gap.to, standstills);
    if (gap.days.empty()) {
      if (gap.use <= 0) continue;  // it stood, and was known to
      gap.days = days_by_bin(gap.from, gap.to);
    }
    gaps.push_back(std::move(gap));
  }
  return gaps;
}

// The interval of a task on a meter.
std::optional<Amount> interval_on(const MachineTask& task, const std::string& meter) {
  std::optional<Amount> every;
  for (const LimbChoice& choice : task.every) {
    const auto* limb = std::get_if<UsageLimb>(&choice.candidates.front());
    if (limb != nullptr && limb->meter == meter) every = limb->every;
  }
  return every && every->hundredths > 0 ? every : std::nullopt;
}

// Use between one service of a point and the next over the interval, where both were written down with the meter's
// value. A service of a covering task ends the interval of what it covers as much as one of the task itself.
void add_lateness(std::span<const ServiceDay> services, Amount every, const MeterHistory& history, Lateness& lateness) {
  std::optional<Amount> fitted;
  for (const ServiceDay& service : services) {
    const Fact& fact = service.spoken_for();
    const auto usage = fact.at ? history.usage_of(fact.id) : std::nullopt;
    if (fitted && usage && *usage > *fitted) {
      lateness.push_back(static_cast<double>((*usage - *fitted).hundredths) / static_cast<double>(every.hundredths));
    }
    fitted = usage;
  }
}

void add_lateness(const Fleet& fleet, const Machine& machine, const MeterHistory& history, const std::string& meter,
                  std::span<const Fact> facts, Lateness& lateness) {
  const Schedule& schedule = fleet.schedule_of(machine);
  for (const MachineTask& task : tasks_of(fleet, machine)) {
    const auto every = interval_on(task, meter);
    if (!every) continue;
    const std::vector<std::string> nowhere{""};
    for (const std::string& position : task.positions.empty() ? nowhere : task.positions) {
      add_lateness(services_of(facts, schedule, task.task->name, position), *every, history, lateness);
    }
  }
}

// A day's mean use of the kind is the unit of all that is learnt: hours, kilometres and bales are alike.
double unit_of(const std::vector<Trace>& traces) {
  double use = 0;
  double days = 0;
  double expected = 0;
  int expecting = 0;
  for (const Trace& trace : traces) {
    for (const ReadingGap& gap : trace.gaps) {
      // Years without a reading say little of what a day's use is now.
      const double length = days_between(gap.from, gap.to);
      const double counted = std::min(length, year_days);
      use += gap.use * counted / std::max(length, 1.0);
      days += counted;
    }
    if (trace.expected_rate) expected += *trace.expected_rate;
    expecting += trace.expected_rate ? 1 : 0;
  }
  if (days > 0 && use > 0) return use / days;
  return expecting > 0 && expected > 0 ? expected / expecting : 1;
}

}  // namespace

LearntMeter learn(const Fleet& fleet, const std::vector<KinFacts>& kin, const std::string& meter, Day as_of,
                  LatenessAsked lateness_asked) {
  std::vector<Trace> traces;
  Lateness lateness;
  bool services = false;
  for (const auto& [member, facts] : kin) {
    const Machine& machine = *member;
    const Meter* own = machine.meter(meter);
    if (own == nullptr) continue;
    const MeterHistory history(machine, *own, facts);
    Trace trace;
    trace.machine = machine.key;
    trace.gaps = gaps_of(history, standstills_of(facts, as_of));
    if (machine.first_meter() == own) {
      if (machine.expect.per_year) {
        trace.expected_rate = static_cast<double>(machine.expect.per_year->hundredths) / 100 / year_days;
      }
      trace.expected_shape = expected_profile(machine.expect, fleet);
    }
    traces.push_back(std::move(trace));
    if (lateness_asked == LatenessAsked::no) continue;
    add_lateness(fleet, machine, history, meter, facts, lateness);
    services = services ||
               std::any_of(facts.begin(), facts.end(), [](const Fact& fact) { return fact.kind == FactKind::service; });
  }
  LearntMeter learnt;
  learnt.unit = unit_of(traces);
  for (Trace& trace : traces) {
    for (ReadingGap& gap : trace.gaps) gap.use /= learnt.unit;
    if (trace.expected_rate) *trace.expected_rate /= learnt.unit;
  }
  learnt.pooled = std::make_shared<const PooledModel>(std::move(traces), std::move(lateness), services);
  return learnt;
}

}  // namespace service::usage
