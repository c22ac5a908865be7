#include "visits/problem_of.h"

#include <algorithm>
#include <map>

namespace service::visits {
namespace {

// Where nothing tells how far it is, nobody gets there on any day.
constexpr routing::Leg no_way{1'000'000, 0};

class Places {
 public:
  int of(const Site& site) {
    const auto [found, fresh] = numbers_.try_emplace(site.key, static_cast<int>(sites_.size()));
    if (fresh) sites_.push_back(&site);
    return found->second;
  }
  const std::vector<const Site*>& sites() const { return sites_; }

 private:
  std::map<std::string, int> numbers_;
  std::vector<const Site*> sites_;
};

routing::Profile profile_of(const Fleet& fleet, const Crew& crew, const std::vector<const Site*>& sites) {
  routing::Profile profile;
  profile.places = static_cast<int>(sites.size());
  for (const Site* from : sites) {
    for (const Site* to : sites) {
      const auto leg = leg_of(fleet, crew, *from, *to);
      profile.legs.push_back(leg ? routing::Leg{leg->minutes, cost_of(fleet, crew, *leg).hundredths} : no_way);
    }
    profile.set_ups.push_back({static_cast<int>(from->set_up.count()), set_up_cost(fleet, crew, *from).hundredths});
  }
  return profile;
}

routing::Option option_of(const VisitOption& option) {
  routing::Option to{option.possible, option.waiting.hundredths, {}};
  for (const ClockSpan& span : option.spans) to.spans.push_back({span.from, span.to});
  return to;
}

routing::Rank rank_of(const Week& week, std::size_t visit) {
  if (week.visits[visit].promised) return routing::Rank::promise;
  return week.visits[visit].safety ? routing::Rank::safety : routing::Rank::money;
}

}  // namespace

WeekProblem problem_of(const Week& week, std::vector<std::size_t> visits) {
  const Fleet& fleet = *week.fleet;
  WeekProblem made{{}, std::move(visits)};
  Places places;
  for (const CrewDay& day : week.crew_days) {
    places.of(*fleet.site(day.crew->start));
    places.of(*fleet.site(day.crew->end));
  }
  for (const std::size_t number : made.visits) {
    const Visit& visit = week.visits[number];
    made.problem.jobs.push_back(
        {places.of(*visit.site), visit.work_minutes, week.visits[number].put_off.hundredths, rank_of(week, number), 0});
  }
  std::map<const Crew*, int> profiles;
  for (std::size_t d = 0; d < week.crew_days.size(); ++d) {
    const CrewDay& day = week.crew_days[d];
    const auto [profile, fresh] = profiles.try_emplace(day.crew, static_cast<int>(made.problem.profiles.size()));
    if (fresh) made.problem.profiles.push_back(profile_of(fleet, *day.crew, places.sites()));
    routing::Shift shift;
    shift.profile = profile->second;
    shift.start = places.of(*fleet.site(day.crew->start));
    shift.end = places.of(*fleet.site(day.crew->end));
    shift.opens = day.hours.from;
    shift.closes = day.hours.to;
    if (day.duty) shift.duty = static_cast<int>(day.duty->count());
    shift.meal = static_cast<int>(day.crew->meal.count());
    for (const std::size_t number : made.visits) shift.options.push_back(option_of(week.visits[number].options[d]));
    made.problem.shifts.push_back(std::move(shift));
  }
  return made;
}

bool never_made(const Week& week, std::size_t visit) {
  return week.visits[visit].impossible && *week.visits[visit].impossible != PutOffReason::unreachable;
}

WeekProblem problem_of(const Week& week) {
  std::vector<std::size_t> can_be_made;
  for (std::size_t i = 0; i < week.visits.size(); ++i) {
    if (!never_made(week, i)) can_be_made.push_back(i);
  }
  return problem_of(week, std::move(can_be_made));
}

}  // namespace service::visits
