#include <algorithm>

#include "service/usage.h"
#include "usage/halving.h"

namespace service {
namespace {

// By id; where a fact is told of twice, what was said first holds.
void put_in_order(std::vector<UsageOfFact>& all) {
  std::stable_sort(all.begin(), all.end(), [](const UsageOfFact& a, const UsageOfFact& b) { return a.fact < b.fact; });
  const auto end =
      std::unique(all.begin(), all.end(), [](const UsageOfFact& a, const UsageOfFact& b) { return a.fact == b.fact; });
  all.erase(end, all.end());
}

}  // namespace

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
  parts_.rolls_over_at = meter.rolls_over_at;
  std::optional<Knot> last_reading;
  const auto too_much = [&](const Knot& from, const Knot& to) {
    const Amount most = on_hour_meter(std::chrono::hours{24} * (days_between(from.day, to.day) + 1));
    return meter.unit == "h" && to.usage - from.usage > most;
  };
  std::vector<std::pair<const Fact*, Amount>> segments;  // a change of the meter and the offset from then on
  for (const MeterEvent& event : meter_events(machine, meter, facts)) {
    const std::optional<FactId> id = event.fact != nullptr ? std::optional{event.fact->id} : std::nullopt;
    Amount usage = event.shown + offset;
    if (!parts_.knots.empty() && read_to_whole_unit(usage - offset, parts_.knots.back().usage - offset)) {
      usage = parts_.knots.back().usage;
    }
    if (!parts_.knots.empty() && usage < parts_.knots.back().usage) {
      // Two copies of the book disagree. The higher usage holds, the cautious end, until one of them is struck.
      parts_.contradictions.push_back({event.day, usage, parts_.last_known->usage, id, parts_.last_known->fact});
      usage = parts_.knots.back().usage;
    } else {
      if (last_reading && too_much(*last_reading, {event.day, usage})) {
        parts_.contradictions.push_back({event.day, usage, last_reading->usage, id, parts_.last_known->fact});
      }
      parts_.last_known = KnownUsage{event.day, usage, id};
    }
    // Use is measured from reading to reading: a roll-over is recorded with the reading that shows it, not when it was.
    if (!event.fresh) last_reading = Knot{event.day, usage};
    if (parts_.knots.empty()) parts_.from_start = !id;
    if (!parts_.knots.empty() && parts_.knots.back().day == event.day) {
      parts_.knots.back().usage = usage;
    } else {
      parts_.knots.push_back({event.day, usage});
    }
    if (event.fresh) {
      offset = usage - *event.fresh;
      segments.emplace_back(event.fact, offset);
    }
    if (id) {
      parts_.by_fact.push_back({*id, usage});
      parts_.read = true;
    }
  }
  parts_.offset = offset;
  for (const Fact& fact : facts) {
    if (fact.kind != FactKind::service || fact.on.whole_day() || !fact.at || !shown_by(fact, machine, meter)) continue;
    Amount shift;
    for (const auto& [change, from_then_on] : segments) {
      if (before(*change, fact)) shift = from_then_on;
    }
    parts_.by_fact.push_back({fact.id, *fact.at + shift});
  }
  put_in_order(parts_.by_fact);
}

Amount MeterHistory::shown_at(Amount usage) const {
  const Amount shown = usage - parts_.offset;
  return parts_.rolls_over_at && shown > *parts_.rolls_over_at ? shown - *parts_.rolls_over_at : shown;
}

std::optional<Amount> MeterHistory::on(Day day) const {
  const auto next = std::upper_bound(parts_.knots.begin(), parts_.knots.end(), day,
                                     [](Day wanted, const Knot& knot) { return wanted < knot.day; });
  if (next == parts_.knots.begin()) return std::nullopt;
  const Knot& from = *(next - 1);
  if (next == parts_.knots.end() || from.day == day) return from.usage;
  // Usage never falls, so half away from zero is half up.
  const std::int64_t days = days_between(from.day, next->day);
  const std::int64_t part = days_between(from.day, day) * (next->usage - from.usage).hundredths;
  return from.usage + Amount{(2 * part + days) / (2 * days)};
}

Basis MeterHistory::basis_on(Day day) const {
  if (parts_.knots.empty() || day < parts_.knots.front().day) return Basis::unknown;
  return day > parts_.knots.back().day ? Basis::last_known : Basis::interpolated;
}

std::optional<Day> MeterHistory::first_day_at(Amount level) const {
  const auto reached = std::lower_bound(parts_.knots.begin(), parts_.knots.end(), level,
                                        [](const Knot& knot, Amount wanted) { return knot.usage < wanted; });
  if (reached == parts_.knots.end()) return std::nullopt;
  if (reached == parts_.knots.begin()) return reached->day;
  return usage::first_day((reached - 1)->day, reached->day, [&](Day day) { return *on(day) >= level; });
}

std::optional<Amount> MeterHistory::usage_of(const FactId& fact) const {
  const auto& all = parts_.by_fact;
  const auto found = std::lower_bound(all.begin(), all.end(), fact,
                                      [](const UsageOfFact& one, const FactId& wanted) { return one.fact < wanted; });
  if (found == all.end() || found->fact != fact) return std::nullopt;
  return found->usage;
}

}  // namespace service
