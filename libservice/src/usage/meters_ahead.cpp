#include <algorithm>

#include "service/in_scope.h"
#include "service/usage.h"

namespace service {
namespace {

void tell_shown(UsageSpan& span, const MeterHistory& history) {
  span.shown = {history.shown_at(span.p10), history.shown_at(span.p50), history.shown_at(span.p90)};
}

std::optional<UsageSpan> span_on(const UsageAhead& ahead, Day day) {
  const auto p10 = ahead.on(day, Quantile::p10);
  const auto p50 = ahead.on(day, Quantile::p50);
  const auto p90 = ahead.on(day, Quantile::p90);
  if (!p10 || !p50 || !p90) return std::nullopt;
  return UsageSpan{day, *p10, *p50, *p90};
}

}  // namespace

Aheads aheads_of(const Snapshot& snapshot, const Machine& machine, const Histories& histories,
                 const Forecaster& forecaster) {
  return aheads_of(snapshot.fleet(), machine, histories, use_state(snapshot, machine), snapshot.as_of(), forecaster);
}

Aheads aheads_of(const Fleet& fleet, const Machine& machine, const Histories& histories, const UseState& state,
                 Day as_of, const Forecaster& forecaster) {
  Aheads aheads;
  for (const Meter& meter : machine.meters) {
    const MeterHistory& history = histories.find(meter.name)->second;
    aheads.emplace(meter.name, forecaster({fleet, machine, meter, history, state, as_of}));
  }
  return aheads;
}

std::vector<MeterAhead> meters_ahead(const Snapshot& snapshot, const std::vector<Day>& days,
                                     const Forecaster& forecaster) {
  std::vector<MeterAhead> all;
  const InScope scope(snapshot.scope());
  for (const Machine& machine : snapshot.fleet().machines) {
    if (!scope.holds(machine.key) || !kept_on(machine, snapshot.as_of())) continue;
    const Histories histories = meter_histories(snapshot, machine);
    const Aheads aheads = aheads_of(snapshot, machine, histories, forecaster);
    for (const Meter& meter : machine.meters) {
      const MeterHistory& history = histories.find(meter.name)->second;
      MeterAhead one;
      one.machine = &machine;
      one.meter = &meter;
      if (!history.empty()) {
        one.last = history.knots().back();
        one.last_shown = history.shown_at(one.last->usage);
      }
      const auto& ahead = aheads.find(meter.name)->second;
      one.now = span_on(*ahead, snapshot.as_of());
      for (const Day day : days) {
        auto span = span_on(*ahead, day);
        if (!span) continue;
        // Each day has a spread of its own; what was reached stays reached.
        const UsageSpan& before = one.ahead.empty() ? *one.now : one.ahead.back();
        span->p10 = std::max(span->p10, before.p10);
        span->p50 = std::max(span->p50, before.p50);
        span->p90 = std::max(span->p90, before.p90);
        one.ahead.push_back(*span);
      }
      if (one.now) tell_shown(*one.now, history);
      for (UsageSpan& span : one.ahead) tell_shown(span, history);
      if (ahead->grounds() != nullptr) one.grounds = *ahead->grounds();
      all.push_back(std::move(one));
    }
  }
  return all;
}

}  // namespace service
