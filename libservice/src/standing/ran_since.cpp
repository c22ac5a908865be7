#include "standing/ran_since.h"

#include <algorithm>

namespace service {
namespace {

// Between two values; nothing where the meter may show no use at all.
std::optional<Amount> used_between(const MeterHistory& history, const Knot& from, const Knot& to) {
  if (to.usage <= from.usage) return std::nullopt;
  if (may_be_no_use(history.shown_at(from.usage), history.shown_at(to.usage))) return std::nullopt;
  return to.usage - from.usage;
}

std::optional<RanSince> ran_by(const Meter& meter, const MeterHistory& history, const UseState& state) {
  const auto& knots = history.knots();
  const auto after = std::upper_bound(knots.begin(), knots.end(), *state.said_last,
                                      [](Day said, const Knot& knot) { return said < knot.day; });
  if (after == knots.end()) return std::nullopt;
  const Knot& newest = knots.back();
  const Knot* const before = after == knots.begin() ? nullptr : &*(after - 1);
  const auto ran = [&](const Knot& from) -> std::optional<RanSince> {
    const auto used = used_between(history, from, newest);
    if (!used) return std::nullopt;
    return RanSince{meter.name, meter.unit, *used, from.day, from.day >= *state.since, history.last_known()->fact};
  };
  // What was certainly run while it stood is told before what may have been run on its last days of work.
  if (before == nullptr || before->day < *state.since) {
    if (auto certain = ran(*after)) return certain;
  }
  return before == nullptr ? std::nullopt : ran(*before);
}

}  // namespace

std::vector<RanSince> ran_since(const Machine& machine, const UseState& state, const Histories& histories) {
  std::vector<RanSince> all;
  if (state.kind == UseKind::in_use || !state.said_last) return all;
  for (const Meter& meter : machine.meters) {
    const auto history = histories.find(meter.name);
    if (history == histories.end() || history->second.empty()) continue;
    if (auto ran = ran_by(meter, history->second, state)) all.push_back(std::move(*ran));
  }
  return all;
}

}  // namespace service
