#include "service/forecast.h"

#include <algorithm>
#include <array>
#include <numeric>

namespace service {
namespace {

// The same day of every month ahead, and the last day.
std::vector<Day> days_ahead(Day from, Day to) {
  std::vector<Day> days;
  for (int months = 1; add_months(from, months) <= to; ++months) days.push_back(add_months(from, months));
  if (days.empty() || days.back() < to) days.push_back(to);
  return days;
}

std::optional<UsageSpan> span_on(const MeterAhead& meter, Day day) {
  const auto found =
      std::find_if(meter.ahead.begin(), meter.ahead.end(), [&](const UsageSpan& span) { return span.day == day; });
  return found == meter.ahead.end() ? std::nullopt : std::optional{*found};
}

// A year back from as-of.
std::vector<Knot> known_of(const MeterHistory& history, Day as_of) {
  constexpr int a_year = -12;
  const Day from = add_months(as_of, a_year);
  std::vector<Knot> known;
  if (const auto usage = history.on(from)) known.push_back({from, *usage});
  for (const Knot& knot : history.knots()) {
    if (knot.day > from && knot.day <= as_of) known.push_back(knot);
  }
  return known;
}

// Days of values that are hard to believe, or contradict what was known.
std::vector<Day> doubtful_days(const Snapshot& snapshot, const MeterAhead& meter, const MeterHistory& history) {
  std::vector<Day> days;
  for (const Doubt& doubt :
       standing_doubts(snapshot.fleet(), *meter.machine, *meter.meter, snapshot.facts_of(meter.machine->key))) {
    days.push_back(doubt.to);
  }
  for (const Contradiction& contradiction : history.contradictions()) days.push_back(contradiction.day);
  return days;
}

MeterForecast forecast_of(const Snapshot& snapshot, MeterAhead&& ahead) {
  const Day as_of = snapshot.as_of();
  const MeterHistory history(*ahead.machine, *ahead.meter, snapshot.facts_of(ahead.machine->key));
  MeterForecast meter;
  meter.known = known_of(history, as_of);
  meter.first_between = !meter.known.empty() && std::none_of(history.knots().begin(), history.knots().end(),
                                                             [&](const Knot& knot) { return knot == meter.known[0]; });
  meter.doubtful = doubtful_days(snapshot, ahead, history);
  meter.state = use_state(snapshot, *ahead.machine);
  meter.ahead = std::move(ahead);
  meter.in_a_month = span_on(meter.ahead, add_months(as_of, 1));
  meter.in_three_months = span_on(meter.ahead, add_months(as_of, 3));
  if (meter.ahead.grounds) {
    meter.lately = use_lately(*meter.ahead.grounds);
    meter.busy = busy_months(*meter.ahead.grounds);
  }
  return meter;
}

}  // namespace

UseLately use_lately(const Grounds& grounds) {
  // Ours, no source: below four stretches or within these bounds there is nothing to wonder at.
  constexpr int enough_stretches = 4;
  constexpr double much_more = 1.8;
  constexpr double much_less = 0.4;
  if (grounds.gaps < enough_stretches || grounds.so_far <= 0) return UseLately::as_before;
  const double times = grounds.per_year / grounds.so_far;
  if (times >= much_more) return UseLately::much_more;
  return times <= much_less ? UseLately::much_less : UseLately::as_before;
}

std::string_view to_text(UseLately lately) {
  constexpr std::array<std::string_view, 3> names{"as-before", "much-more", "much-less"};  // in their order
  return names.at(static_cast<std::size_t>(lately));
}

std::vector<OddUse> odd_uses(const Machine& machine, const Aheads& aheads) {
  std::vector<OddUse> odd;
  for (const Meter& meter : machine.meters) {
    const auto ahead = aheads.find(meter.name);
    const Grounds* const grounds = ahead == aheads.end() ? nullptr : ahead->second->grounds();
    if (grounds == nullptr) continue;
    const UseLately lately = use_lately(*grounds);
    if (lately != UseLately::as_before) odd.push_back({&machine, &meter, lately, *grounds});
  }
  return odd;
}

BusyMonths busy_months(const Grounds& grounds) {
  constexpr double half_as_much_again = 1.5 / 12;
  constexpr std::size_t most = 5;
  constexpr double much = 0.4;
  BusyMonths busy;
  for (std::size_t i = 0; i < grounds.months.size(); ++i) {
    if (grounds.months.at(i) < half_as_much_again) continue;
    busy.months.push_back(static_cast<unsigned>(i) + 1);
    busy.share += grounds.months.at(i);
  }
  if (busy.months.size() > most || busy.share < much) return {};
  return busy;
}

Forecast forecast(const Snapshot& snapshot, Day to, const Forecaster& forecaster) {
  DueList list = due_list(snapshot, {to, {}, Detail::coming}, forecaster);
  Forecast answer;
  answer.fleet = snapshot.fleet_ptr();
  answer.as_of = snapshot.as_of();
  answer.to = to;
  answer.scope = snapshot.scope();
  answer.not_to_run = NotToRun(list);
  for (MeterAhead& meter : meters_ahead(snapshot, days_ahead(answer.as_of, to), forecaster)) {
    answer.meters.push_back(forecast_of(snapshot, std::move(meter)));
  }
  for (Point& point : list.points) {
    if (point.standing == Standing::no_record || !point.unknown.empty()) answer.unknown.push_back(name_of(point));
    if (!point.due_on || *point.due_on > to) continue;
    const DayKind kind = day_kind(point);
    answer.points.push_back({std::move(point), kind});
  }
  std::stable_sort(answer.points.begin(), answer.points.end(),
                   [](const ForecastPoint& a, const ForecastPoint& b) { return *a.point.due_on < *b.point.due_on; });
  answer.gaps = std::move(list.gaps);
  answer.not_in_use = std::move(list.not_in_use);
  return answer;
}

void keep_first(Forecast& forecast, std::size_t first) {
  const auto days = [&] {
    return std::accumulate(forecast.meters.begin(), forecast.meters.end(), std::size_t{0},
                           [](std::size_t sum, const MeterForecast& meter) { return sum + meter.ahead.ahead.size(); });
  };
  const std::size_t all_days = days();
  forecast.meters_left_off += keep_first(forecast.meters, std::optional(first));
  forecast.days_left_off += all_days - days();
  forecast.points_left_off +=
      keep_first(forecast.points, std::optional(first), [](const ForecastPoint& each) { return each.point.standing; });
}

}  // namespace service
