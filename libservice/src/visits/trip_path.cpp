#include "visits/trip_path.h"

#include <algorithm>
#include <numeric>

namespace service::visits::trip {
namespace {

constexpr int no_day = -1;

std::size_t at(int number) { return static_cast<std::size_t>(number); }

// Units that are linked, whichever way; one that is not is alone.
std::vector<std::vector<int>> bundles_of(const PathProblem& problem) {
  std::vector<int> leader(problem.units.size());
  std::iota(leader.begin(), leader.end(), 0);
  const auto leader_of = [&](int unit) {
    while (leader[at(unit)] != unit) unit = leader[at(unit)];
    return unit;
  };
  for (const PathLink& link : problem.links) {
    const int a = leader_of(link.inner);
    const int b = leader_of(link.outer);
    leader[at(std::max(a, b))] = std::min(a, b);
  }
  std::vector<std::vector<int>> by_leader(problem.units.size());
  for (int unit = 0; unit < static_cast<int>(problem.units.size()); ++unit) {
    by_leader[at(leader_of(unit))].push_back(unit);
  }
  std::erase_if(by_leader, [](const auto& bundle) { return bundle.empty(); });
  return by_leader;
}

class Path {
 public:
  explicit Path(const PathProblem& problem) : problem_(problem), days_(static_cast<int>(problem.trips.size())) {
    alone_.resize(problem.trips.size());
    for (const PathUnit& unit : problem.units) best_.push_back(unit.best());
    for (const auto& bundle : bundles_of(problem)) {
      if (bundle.size() == 1) {
        alone_[at(best_[at(bundle.front())])].push_back(bundle.front());
      } else {
        bundles_.push_back(bundle);
      }
    }
    links_of_.resize(problem.units.size());
    for (const PathLink& link : problem.links) links_of_[at(link.outer)].push_back(link.inner);
  }

  PathPlan find() {
    std::vector<Cost> cheapest(at(days_ + 1), impossible);  // until a trip on that day; last: until the end
    std::vector<int> before(at(days_ + 1), no_day);
    for (int to = 0; to <= days_; ++to) {
      const Cost trip = to < days_ ? problem_.trips[at(to)] : 0;
      for (int from = to < days_ ? no_day : 0; from < to; ++from) {
        const Cost cost = (from == no_day ? 0 : cheapest[at(from)]) + trip + between(from, to);
        if (cost >= cheapest[at(to)]) continue;
        cheapest[at(to)] = cost;
        before[at(to)] = from;
      }
    }
    PathPlan plan{cheapest[at(days_)], std::vector<int>(problem_.units.size(), no_day)};
    day_of_ = &plan.day_of;
    for (int to = days_; to != no_day; to = before[at(to)]) between(before[at(to)], to);
    day_of_ = nullptr;
    return plan;
  }

 private:
  // What the units cost whose best day is behind one trip, and no later than the next. No trip before: `no_day`; none
  // behind: the number of days. Notes their days where that was asked for.
  Cost between(int from, int to) {
    Cost cost = 0;
    for (int best = from + 1; best <= std::min(to, days_ - 1); ++best) {
      for (const int unit : alone_[at(best)]) cost += cheaper_end(unit, from, to);
    }
    for (const auto& bundle : bundles_) cost += linked(bundle, from, to);
    return std::min(cost, impossible);
  }

  Cost cost_at(int unit, int day) const {
    return day == no_day || day == days_ ? impossible : problem_.units[at(unit)].at(day);
  }

  void note(int unit, int day) {
    if (day_of_ != nullptr) (*day_of_)[at(unit)] = day;
  }

  Cost cheaper_end(int unit, int from, int to) {
    const Cost early = cost_at(unit, from);
    const Cost late = cost_at(unit, to);
    note(unit, early < late ? from : to);
    return std::min(early, late);
  }

  // Where one that includes others is done at the earlier end, so are those.
  Cost linked(const std::vector<int>& bundle, int from, int to) {
    std::vector<int> members;
    for (const int unit : bundle) {
      if (best_[at(unit)] > from && best_[at(unit)] <= to) members.push_back(unit);
    }
    const auto among = [&](int unit) { return std::find(members.begin(), members.end(), unit) != members.end(); };
    std::vector<int> outers;
    for (const int unit : members) {
      const auto& inner = links_of_[at(unit)];
      if (std::any_of(inner.begin(), inner.end(), among)) outers.push_back(unit);
    }
    Cost least = members.empty() ? 0 : impossible;
    std::vector<int> ends;
    for (unsigned early = 0; early < 1U << outers.size() && !members.empty(); ++early) {
      std::vector<int> days;
      const Cost cost = parted(members, outers, early, from, to, days);
      if (!ends.empty() && cost >= least) continue;
      least = cost;
      ends = days;
    }
    for (std::size_t i = 0; i < members.size(); ++i) note(members[i], ends[i]);
    return least;
  }

  // `early` has a bit for each of those that include others: it is done at the earlier end.
  Cost parted(const std::vector<int>& members, const std::vector<int>& outers, unsigned early, int from, int to,
              std::vector<int>& days) const {
    std::vector<bool> must(problem_.units.size());
    for (std::size_t k = 0; k < outers.size(); ++k) {
      if ((early >> k & 1U) == 0) continue;
      for (const int inner : links_of_[at(outers[k])]) must[at(inner)] = true;
    }
    Cost cost = 0;
    for (const int unit : members) {
      const auto outer = std::find(outers.begin(), outers.end(), unit);
      bool goes_early = must[at(unit)] || cost_at(unit, from) < cost_at(unit, to);
      if (outer != outers.end()) {
        goes_early = (early >> (outer - outers.begin()) & 1U) != 0;
        if (must[at(unit)] && !goes_early) cost += impossible;
      }
      const int day = goes_early ? from : to;
      cost += cost_at(unit, day);
      days.push_back(day);
    }
    return cost;
  }

  const PathProblem& problem_;
  int days_;
  std::vector<int> best_;                // of each unit
  std::vector<std::vector<int>> alone_;  // units without links, by their best day
  std::vector<std::vector<int>> bundles_;
  std::vector<std::vector<int>> links_of_;  // of each unit: what it includes
  std::vector<int>* day_of_ = nullptr;      // where days are noted
};

}  // namespace

int PathUnit::best() const {
  int best = first;
  for (int day = first; day <= last; ++day) {
    if (at(day) < at(best)) best = day;
  }
  return best;
}

PathPlan shortest_path(const PathProblem& problem) { return Path(problem).find(); }

}  // namespace service::visits::trip
