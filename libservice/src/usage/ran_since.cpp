// Use of a machine while it is laid up or out of use, as its meters tell it.
#include <algorithm>
#include <span>

#include "service/usage.h"

namespace service {
namespace {

// Between two values; nothing where the meter may show no use at all.
std::optional<Amount> used_between(const MeterHistory& history, const Knot& from, const Knot& to) {
  if (to.usage <= from.usage) return std::nullopt;
  if (may_be_no_use(history.shown_at(from.usage), history.shown_at(to.usage))) return std::nullopt;
  return to.usage - from.usage;
}

// From when to when a machine stood, and when that was said last.
struct Stood {
  Day since;
  Day said_last;
  std::optional<Day> until;  // a planned return that has come: from that day on it counts as in use
};

std::optional<Stood> stood_of(const UseState& state) {
  if (!state.said_last) return std::nullopt;
  if (state.kind != UseKind::in_use) return Stood{*state.since, *state.said_last, std::nullopt};
  if (!state.ran_out) return std::nullopt;
  return Stood{state.ran_out->since, *state.said_last, state.ran_out->until};
}

std::optional<RanSince> ran_by(const Meter& meter, const MeterHistory& history, const Stood& stood) {
  const auto by_day = [](Day day, const Knot& knot) { return day < knot.day; };
  const std::span<const Knot> knots = history.knots();
  const auto after = std::upper_bound(knots.begin(), knots.end(), stood.said_last, by_day);
  const auto end = !stood.until ? knots.end()
                                : std::lower_bound(after, knots.end(), *stood.until,
                                                   [](const Knot& knot, Day day) { return knot.day < day; });
  if (after == end) return std::nullopt;
  const Knot& newest = *(end - 1);
  const Knot* const before = after == knots.begin() ? nullptr : &*(after - 1);
  const auto ran = [&](const Knot& from) -> std::optional<RanSince> {
    const auto used = used_between(history, from, newest);
    if (!used) return std::nullopt;
    const auto& last = history.last_known();
    RanSince one{meter.name, meter.unit, *used, from.day, from.day >= stood.since, {}, {}};
    if (last && last->day == newest.day) one.fact = last->fact;
    return one;
  };
  if (before != nullptr && before->day >= stood.since) return ran(*before);
  auto certain = ran(*after);
  auto all = before == nullptr ? std::nullopt : ran(*before);
  if (!all) return certain;
  if (certain) all->at_least = certain->used;
  return all;
}

}  // namespace

std::vector<RanSince> ran_since(const Machine& machine, const UseState& state, const Histories& histories) {
  std::vector<RanSince> all;
  const auto stood = stood_of(state);
  if (!stood) return all;
  for (const Meter& meter : machine.meters) {
    const auto history = histories.find(meter.name);
    if (history == histories.end() || history->second.empty()) continue;
    if (auto ran = ran_by(meter, history->second, *stood)) all.push_back(std::move(*ran));
  }
  return all;
}

UseState state_told(const Snapshot& snapshot, const Machine& machine) {
  UseState state = use_state(snapshot, machine);
  if (state.said_last) state.ran = ran_since(machine, state, meter_histories(snapshot, machine));
  return state;
}

}  // namespace service
