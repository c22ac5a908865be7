#include "visits/trip_crews.h"

#include <algorithm>
#include <map>
#include <set>

namespace service::visits::trip {
namespace {

// Of more crews than these only one is left out at a time.
constexpr std::size_t few_crews = 4;

using Crews = std::set<const Crew*>;

class Restricting {
 public:
  Restricting(const Fleet& fleet, const std::vector<CrewDay>& crew_days, const std::vector<TripPoint>& points)
      : fleet_(fleet), crew_days_(crew_days), points_(points) {}

  SitePlans plan(const SiteWork& work, const Crews& without) {
    const auto crews = crews_of(work);
    const bool again = without.empty() || crews.size() + without.size() <= few_crews;
    if (crews.size() < 2 || !again) return plan_site(fleet_, work, {});
    return plan_site(fleet_, work, [&] { return by_fewer(work, crews, without); });
  }

 private:
  // In the order of the fleet file.
  std::vector<const Crew*> crews_of(const SiteWork& work) const {
    Crews there;
    for (const TripDay& day : work.days) {
      for (const CrewTrip& crew : day.crews) there.insert(crew.crew);
    }
    std::vector<const Crew*> crews;
    for (const Crew& crew : fleet_.crews) {
      if (there.contains(&crew)) crews.push_back(&crew);
    }
    return crews;
  }

  std::vector<SitePlan> by_fewer(const SiteWork& work, const std::vector<const Crew*>& crews, const Crews& without) {
    std::vector<SitePlan> plans;
    for (const Crew* crew : crews) {
      Crews fewer = without;
      fewer.insert(crew);
      const auto known = plans_.find(fewer);
      const auto plan = known != plans_.end() ? known->second : plan_without(work, fewer);
      if (known == plans_.end()) plans_.emplace(fewer, plan);
      if (plan) plans.push_back(*plan);
    }
    return plans;
  }

  std::optional<SitePlan> plan_without(const SiteWork& of, const Crews& without) {
    std::vector<CrewDay> days;
    std::copy_if(crew_days_.begin(), crew_days_.end(), std::back_inserter(days),
                 [&](const CrewDay& day) { return !without.contains(day.crew); });
    const SiteWork work = groups_of(fleet_, days, points_, of.to);
    if (work.groups.empty()) return std::nullopt;
    return plan(work, without).best;
  }

  const Fleet& fleet_;
  const std::vector<CrewDay>& crew_days_;
  const std::vector<TripPoint>& points_;
  std::map<Crews, std::optional<SitePlan>> plans_;  // by those left out
};

}  // namespace

SitePlans plan_site_by_any(const Fleet& fleet, const std::vector<CrewDay>& crew_days,
                           const std::vector<TripPoint>& points, const SiteWork& work) {
  return Restricting(fleet, crew_days, points).plan(work, {});
}

}  // namespace service::visits::trip
