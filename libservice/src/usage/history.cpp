#include <algorithm>

#include "service/usage.h"
#include "usage/halving.h"

namespace service {

std::string_view to_text(Basis basis) {
  switch (basis) {
    case Basis::recorded:
      return "recorded";
    case Basis::interpolated:
      return "interpolated";
    case Basis::last_known:
      return "last-known";
    case Basis::in_service:
      return "in-service";
    case Basis::unknown:
      break;
  }
  return "unknown";
}

MeterHistory::MeterHistory(const Machine& machine, const Meter& meter, std::span<const Fact> facts) {
  Amount offset;
  rolls_over_at_ = meter.rolls_over_at;
  std::optional<Knot> last_reading;
  const auto too_much = [&](const Knot& from, const Knot& to) {
    const Amount most = on_hour_meter(std::chrono::hours{24} * (days_between(from.day, to.day) + 1));
    return meter.unit == "h" && to.usage - from.usage > most;
  };
  std::vector<std::pair<const Fact*, Amount>> segments;  // a change of the meter and the offset from then on
  for (const MeterEvent& event : meter_events(machine, meter, facts)) {
    const std::optional<FactId> id = event.fact != nullptr ? std::optional{event.fact->id} : std::nullopt;
    Amount usage = event.shown + offset;
    if (!knots_.empty() && read_to_whole_unit(usage - offset, knots_.back().usage - offset)) {
      usage = knots_.back().usage;
    }
    if (!knots_.empty() && usage < knots_.back().usage) {
      // Two copies of the book disagree. The higher usage holds, the cautious end, until one of them is struck.
      contradictions_.push_back({event.day, usage, last_known_->usage, id, last_known_->fact});
      usage = knots_.back().usage;
    } else {
      if (last_reading && too_much(*last_reading, {event.day, usage})) {
        contradictions_.push_back({event.day, usage, last_reading->usage, id, last_known_->fact});
      }
      last_known_ = KnownUsage{event.day, usage, id};
    }
    // Use is measured from reading to reading: a roll-over is recorded with the reading that shows it, not when it was.
    if (!event.fresh) last_reading = Knot{event.day, usage};
    if (knots_.empty()) from_start_ = !id;
    if (!knots_.empty() && knots_.back().day == event.day) {
      knots_.back().usage = usage;
    } else {
      knots_.push_back({event.day, usage});
    }
    if (event.fresh) {
      offset = usage - *event.fresh;
      segments.emplace_back(event.fact, offset);
    }
    if (id) {
      by_fact_.emplace(*id, usage);
      read_ = true;
    }
  }
  offset_ = offset;
  for (const Fact& fact : facts) {
    if (fact.kind != FactKind::service || fact.on.whole_day() || !fact.at || !shown_by(fact, machine, meter)) continue;
    Amount shift;
    for (const auto& [change, from_then_on] : segments) {
      if (before(*change, fact)) shift = from_then_on;
    }
    by_fact_.emplace(fact.id, *fact.at + shift);
  }
}

Amount MeterHistory::shown_at(Amount usage) const {
  const Amount shown = usage - offset_;
  return rolls_over_at_ && shown > *rolls_over_at_ ? shown - *rolls_over_at_ : shown;
}

std::optional<Amount> MeterHistory::on(Day day) const {
  const auto next = std::upper_bound(knots_.begin(), knots_.end(), day,
                                     [](Day wanted, const Knot& knot) { return wanted < knot.day; });
  if (next == knots_.begin()) return std::nullopt;
  const Knot& from = *(next - 1);
  if (next == knots_.end() || from.day == day) return from.usage;
  // Usage never falls, so half away from zero is half up.
  const std::int64_t days = days_between(from.day, next->day);
  const std::int64_t part = days_between(from.day, day) * (next->usage - from.usage).hundredths;
  return from.usage + Amount{(2 * part + days) / (2 * days)};
}

Basis MeterHistory::basis_on(Day day) const {
  if (knots_.empty() || day < knots_.front().day) return Basis::unknown;
  return day > knots_.back().day ? Basis::last_known : Basis::interpolated;
}

std::optional<Day> MeterHistory::first_day_at(Amount level) const {
  const auto reached = std::lower_bound(knots_.begin(), knots_.end(), level,
                                        [](const Knot& knot, Amount wanted) { return knot.usage < wanted; });
  if (reached == knots_.end()) return std::nullopt;
  if (reached == knots_.begin()) return reached->day;
  return usage::first_day((reached - 1)->day, reached->day, [&](Day day) { return *on(day) >= level; });
}

std::optional<Amount> MeterHistory::usage_of(const FactId& fact) const {
  const auto found = by_fact_.find(fact);
  if (found == by_fact_.end()) return std::nullopt;
  return found->second;
}

Histories meter_histories(const Snapshot& snapshot, const Machine& machine) {
  Histories histories;
  for (const Meter& meter : machine.meters) {
    histories.emplace(meter.name, MeterHistory(machine, meter, snapshot.facts_of(machine.key)));
  }
  return histories;
}

}  // namespace service
