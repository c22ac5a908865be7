#include "visits/trip_crews.h"

#include <algorithm>
#include <map>
#include <set>

namespace service::visits::trip {
namespace {

// So many sets of crews that stay at home are tried in any case: of up to four crews all. With little work more are, as
// long as sets times services times crew-days are no more than these.
constexpr std::size_t few_sets = 14;
constexpr std::size_t many_sets = 64;
constexpr std::size_t most_to_try = 60'000;

std::size_t most_sets(const SiteWork& work) {
  std::size_t slots = 0;
  std::size_t points = 0;
  for (const TripDay& day : work.days) slots += day.crews.size();
  for (const Group& group : work.groups) points += group.points.size();
  return std::clamp(most_to_try / std::max<std::size_t>(1, slots * points), few_sets, many_sets);
}

// How many crews stay at home together at most.
std::size_t most_at_home(std::size_t crews, std::size_t most_sets) {
  std::size_t sets = 0;
  std::size_t of_size = 1;
  for (std::size_t size = 1; size < crews; ++size) {
    of_size = of_size * (crews - size + 1) / size;
    sets += of_size;
    if (sets > most_sets) return std::max<std::size_t>(1, size - 1);
  }
  return crews;
}

using Crews = std::set<const Crew*>;

class Restricting {
 public:
  Restricting(const Fleet& fleet, const std::vector<CrewDay>& crew_days, const std::vector<TripPoint>& points,
              const SiteWork& whole)
      : fleet_(fleet), crew_days_(crew_days), points_(points), most_sets_(most_sets(whole)) {}

  std::size_t at_home(std::size_t crews) const { return most_at_home(crews, most_sets_); }

  SitePlans plan(const SiteWork& work, const Crews& without) {
    const auto crews = crews_of(work);
    const bool again = without.size() < at_home(crews.size() + without.size());
    const Asked asked = without.empty() ? Asked::plan_and_bound : Asked::plan;
    if (crews.size() < 2 || !again) return plan_site(fleet_, work, {}, asked);
    return plan_site(
        fleet_, work, [&] { return by_fewer(work, crews, without); }, asked);
  }

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

 private:
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
  std::size_t most_sets_;
  std::map<Crews, std::optional<SitePlan>> plans_;  // by those left out
};

}  // namespace

SitePlans plan_site_by_any(const Fleet& fleet, const std::vector<CrewDay>& crew_days,
                           const std::vector<TripPoint>& points, const SiteWork& work) {
  Restricting restricting(fleet, crew_days, points, work);
  SitePlans plans = restricting.plan(work, {});
  const std::size_t crews = restricting.crews_of(work).size();
  const std::size_t at_home = plans.by_fewer ? restricting.at_home(crews) : 0;
  if (plans.bound != plans.best.sums.total() && crews > 1 && at_home < crews) {
    plans.crews_tried = CrewsTried{at_home, crews};
  }
  return plans;
}

}  // namespace service::visits::trip
