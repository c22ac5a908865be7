#include "visits/trip_groups.h"

#include <algorithm>
#include <map>

#include "visits/opening.h"

namespace service::visits::trip {
namespace {

class SiteDays {
 public:
  SiteDays(const Fleet& fleet, const std::vector<CrewDay>& crew_days, const Site& site)
      : fleet_(fleet), crew_days_(crew_days), site_(site) {}

  const std::vector<TripDay>& of(const Needs& needs) {
    const auto found = days_.find(needs);
    if (found != days_.end()) return found->second;
    return days_.emplace(needs, trip_days(fleet_, crew_days_, site_, needs, 0)).first->second;
  }

  // Those that are of use for all of these: a crew-day that holds none of them is none.
  std::vector<TripDay> for_all(const std::vector<TripPoint>& points) const {
    Needs needs;
    int least = points.front().minutes;
    for (const TripPoint& point : points) {
      needs = both(needs, point.needs);
      least = std::min(least, point.minutes);
    }
    return trip_days(fleet_, crew_days_, site_, needs, least);
  }

  // Those on which somebody could do one of these, by whoever could do some.
  std::vector<TripDay> of_use(const std::vector<TripPoint>& points) const {
    std::vector<TripDay> days = trip_days(fleet_, crew_days_, site_, Needs{}, 0);
    for (TripDay& day : days) {
      std::erase_if(day.crews, [&](const CrewTrip& crew) {
        return std::none_of(points.begin(), points.end(), [&](const TripPoint& point) {
          return longest_behind(crew.hours) >= point.minutes && can(*crew.crew, point.needs);
        });
      });
    }
    std::erase_if(days, [](const TripDay& day) { return day.crews.empty(); });
    return days;
  }

  NotPossible why_not(const TripPoint& point) const {
    NotPossible why;
    why.point = point.point;
    why.from = point.earliest;
    const Day last = point.left ? *point.left - std::chrono::days{1} : Day::max();
    const auto reason = why_nobody_can(crew_days_, point.needs, std::pair(point.earliest, last),
                                       [&](Day on) { return !opening_on(fleet_, site_, on).empty(); });
    why.reason = reason.value_or(PutOffReason::unreachable);
    if (why.reason == PutOffReason::not_qualified) why.lacking = lacking(crew_days_, point.needs);
    if (reason) return why;
    for (const CrewDay& day : crew_days_) {
      if (day.on >= point.earliest && day.on <= last && can(*day.crew, point.needs)) {
        add_limit(why, day, point.minutes);
      }
    }
    return why;
  }

  // How long somebody can stay that day at most, and whether the gate is why it is not long enough.
  void add_limit(NotPossible& why, const CrewDay& day, int minutes) const {
    const auto open = opening_on(fleet_, site_, day.on);
    const auto trip = trip_of(fleet_, *day.crew, site_);
    if (open.empty() || !trip) return;
    const TripHours hours = hours_of(day, *trip, open);
    why.longest_stay = std::max(why.longest_stay, longest_stay(hours));
    if (longest_stay(without_gate(hours)) >= minutes) why.limit = TimeLimit::opening;
  }

  std::vector<const Crew*> crews_for(const Needs& needs) const {
    std::vector<const Crew*> crews;
    for (const CrewDay& day : crew_days_) {
      if (can(*day.crew, needs) && std::find(crews.begin(), crews.end(), day.crew) == crews.end()) {
        crews.push_back(day.crew);
      }
    }
    std::sort(crews.begin(), crews.end(), [](const Crew* a, const Crew* b) { return a->key < b->key; });
    return crews;
  }

 private:
  const Fleet& fleet_;
  const std::vector<CrewDay>& crew_days_;
  const Site& site_;
  std::map<Needs, std::vector<TripDay>> days_;
};

// Whether all can be done on these days, and what never waits no later than by whoever could do it alone.
bool served(const std::vector<TripPoint>& points, const std::vector<TripDay>& days, SiteDays& site_days) {
  return std::all_of(points.begin(), points.end(), [&](const TripPoint& point) {
    const auto window = window_of(point, days);
    if (!window || !never_waits(*point.point)) return window.has_value();
    const auto& alone = site_days.of(point.needs);
    return days[static_cast<std::size_t>(window->own)].on ==
           alone[static_cast<std::size_t>(window_of(point, alone)->own)].on;
  });
}

std::vector<std::vector<TripPoint>> by_crews(std::vector<TripPoint> points, const SiteDays& site_days) {
  std::vector<std::pair<std::vector<const Crew*>, std::vector<TripPoint>>> sorted;
  for (TripPoint& point : points) {
    const auto crews = site_days.crews_for(point.needs);
    auto same = std::find_if(sorted.begin(), sorted.end(), [&](const auto& one) { return one.first == crews; });
    if (same == sorted.end()) same = sorted.insert(sorted.end(), {crews, {}});
    same->second.push_back(std::move(point));
  }
  std::vector<std::vector<TripPoint>> groups;
  for (auto& [crews, alike] : sorted) groups.push_back(std::move(alike));
  return groups;
}

}  // namespace

std::optional<Window> window_of(const TripPoint& point, const std::vector<TripDay>& days) {
  Window window{static_cast<int>(days.size()), -1, -1, -1};
  int last_that_holds = -1;
  for (int i = 0; i < static_cast<int>(days.size()); ++i) {
    const TripDay& day = days[static_cast<std::size_t>(i)];
    if (day.on < point.earliest || (point.left && day.on >= *point.left)) continue;
    window.first = std::min(window.first, i);
    window.last_of_all = i;
    if (day.longest_stay() >= point.minutes) last_that_holds = i;
  }
  if (last_that_holds < 0) return std::nullopt;
  const auto from_due = first_day(days, std::max(point.wanted, point.earliest), point.minutes);
  const bool in_time = from_due && *from_due <= window.last_of_all;
  window.own = in_time ? *from_due : last_that_holds;
  window.last = in_time && never_waits(*point.point) ? window.own : window.last_of_all;
  return window;
}

SiteWork groups_of(const Fleet& fleet, const std::vector<CrewDay>& crew_days, std::vector<TripPoint> points, Day to) {
  SiteWork work;
  work.to = to;
  if (points.empty()) return work;
  const Site& site = *fleet.site(points.front().point->machine->site);
  SiteDays site_days(fleet, crew_days, site);
  std::erase_if(points, [&](const TripPoint& point) {
    if (window_of(point, site_days.of(point.needs))) return false;
    work.not_possible.push_back(site_days.why_not(point));
    return true;
  });
  if (points.empty()) return work;
  work.days = site_days.of_use(points);
  std::vector<TripDay> whole = site_days.for_all(points);
  if (served(points, whole, site_days)) {
    work.groups.push_back({&site, std::move(points), std::move(whole)});
    return work;
  }
  for (auto& alike : by_crews(std::move(points), site_days)) {
    auto days = site_days.for_all(alike);
    work.groups.push_back({&site, std::move(alike), std::move(days)});
  }
  return work;
}

}  // namespace service::visits::trip
