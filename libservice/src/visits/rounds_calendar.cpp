// A plan of a week as the events of a calendar.
#include <algorithm>
#include <set>

#include "base/event_name.h"
#include "service/rounds_list.h"

namespace service {
namespace {

std::string uid_of_visit(const Week& week, const std::string& name, std::optional<Day> counts_from) {
  return event_name_of({week.fleet->name, "visit", name, counts_from ? to_text(*counts_from) : ""});
}

std::string uid_of_round(const Week& week, const std::string& crew, Day on) {
  return event_name_of({week.fleet->name, "round", crew, to_text(on)});
}

// As its plan says it, else as that plan must have said it; none where nobody can tell from which day it counted.
std::optional<std::string> uid_of(const Week& week, const GivenStop& stop) {
  if (stop.uid && !stop.uid->empty()) return stop.uid;
  for (const Visit& visit : week.visits) {
    if (visit.name == stop.visit) return event_uid(week, visit);
  }
  return stop.visit.starts_with("call ") ? std::optional(uid_of_visit(week, stop.visit, {})) : std::nullopt;
}

bool is_told(const RoundsList& list, const GivenStop& stop) {
  return list.site == nullptr || (stop.site && *stop.site == list.site->key);
}

// What the kept plan had from the first day of the week on, and this calendar has not.
void add_cancelled(Calendar& calendar, const RoundsList& list, const CalendarVersion& version) {
  const Week& week = list.week();
  if (!week.kept) return;
  std::set<std::string> named;
  for (const CalendarEvent& event : calendar.events) named.insert(event.uid);
  const auto cancel = [&](const std::string& uid, const GivenRound& round, const GivenStop* stop) {
    if (!named.insert(uid).second) return;
    CalendarEvent& event = calendar.events.emplace_back();
    event = {EventKind::round, uid, round.on, version.sequence, version.changed};
    event.hours = "cancelled";
    event.cancelled = true;
    event.kept_round = &round;
    event.kept_stop = stop;
  };
  for (const GivenRound& round : week.kept->rounds) {
    if (round.on < week.from) continue;
    if (list.site == nullptr) cancel(uid_of_round(week, round.crew, round.on), round, nullptr);
    for (const GivenStop& stop : round.stops) {
      const auto uid = is_told(list, stop) ? uid_of(week, stop) : std::nullopt;
      if (uid) cancel(*uid, round, &stop);
    }
  }
}

std::string hours_of(const Crew& crew, int from, int to) {
  return crew.key + ' ' + std::to_string(from) + '-' + std::to_string(to);
}

}  // namespace

std::string event_uid(const Week& week, const Visit& visit) {
  std::optional<Day> counts_from;
  for (const Point* point : visit.points) {
    if (!point->fitted) continue;
    counts_from = std::min(point->fitted->on.first, counts_from.value_or(point->fitted->on.first));
  }
  return uid_of_visit(week, visit.name, counts_from);
}

CalendarVersion version_of(const RoundsList& list, const CalendarVersion& version) {
  const auto& kept = list.week().kept;
  // Of one that does not say it, no more is known than that no facts but these were there.
  return kept ? version_after(version, kept->sequence.value_or(version.sequence)) : version;
}

std::int64_t sequence_of(const Calendar& calendar) {
  std::int64_t highest = 0;
  for (const CalendarEvent& event : calendar.events) highest = std::max(highest, event.sequence);
  return highest;
}

Calendar rounds_calendar(const RoundsList& list, const CalendarVersion& of_facts) {
  const Week& week = list.week();
  const CalendarVersion version = version_of(list, of_facts);
  Calendar calendar;
  const auto add = [&](EventKind kind, Day on, std::string name, std::string hours = "") {
    calendar.events.push_back({kind, std::move(name), on, version.sequence, version.changed});
    calendar.events.back().hours = std::move(hours);
  };
  add(EventKind::summary, week.as_of,
      event_name_of({week.fleet->name, "rounds", list.site == nullptr ? "" : list.site->key, to_text(week.from)}));
  for (const Round& round : list.plan.rounds) {
    const CrewDay& day = week.crew_days[round.crew_day];
    if (list.site == nullptr) {
      add(EventKind::round, day.on, uid_of_round(week, day.crew->key, day.on),
          hours_of(*day.crew, round.leaves, round.back));
    }
    for (const RoundStop& stop : round.stops) {
      add(EventKind::round, day.on, event_uid(week, week.visits[stop.visit]),
          hours_of(*day.crew, stop.starts, stop.ends));
    }
  }
  add_cancelled(calendar, list, version);
  return calendar;
}

}  // namespace service
