#include "visits/kept_order.h"

#include <algorithm>
#include <optional>
#include <vector>

#include "routing/timing.h"
#include "visits/round_order.h"

namespace service::visits {
namespace {

using routing::Route;

// The stops of the plan that was kept for that crew-day.
const std::vector<GivenStop>* stops_of(const Week& week, const CrewDay& day) {
  for (const GivenRound& round : week.kept->rounds) {
    if (round.crew == day.crew->key && round.on == day.on) return &round.stops;
  }
  return nullptr;
}

class KeptOrder {
 public:
  KeptOrder(const Week& week, const WeekProblem& of, std::size_t shift)
      : week_(week), of_(of), day_(week.crew_days[shift]), shift_(of.problem.shifts[shift]), number_(shift) {}

  // None: there is no such order, or it costs more, in money or in what a crew would rather not have.
  std::optional<Route> of(const Route& route) const {
    const auto* const stops = stops_of(week_, day_);
    if (stops == nullptr || route.size() < 2) return std::nullopt;
    std::vector<std::pair<std::size_t, int>> kept;  // by their place
    Route fresh;
    for (const int job : route) {
      const auto place = place_of(*stops, job);
      if (place) {
        kept.emplace_back(*place, job);
      } else {
        fresh.push_back(job);
      }
    }
    std::stable_sort(kept.begin(), kept.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    Route ordered;
    for (const auto& [place, job] : kept) ordered.push_back(job);
    for (const int job : fresh) {
      auto longer = with_job(of_.problem, shift_, ordered, job);
      if (!longer) return std::nullopt;
      ordered = std::move(*longer);
    }
    if (travel_of(of_.problem, shift_, ordered) > travel_of(of_.problem, shift_, route)) return std::nullopt;
    if (!times_of(of_.problem, shift_, ordered)) return std::nullopt;
    return faults_of(week_, of_, number_, ordered) <= faults_of(week_, of_, number_, route) ? std::optional(ordered)
                                                                                            : std::nullopt;
  }

 private:
  std::optional<std::size_t> place_of(const std::vector<GivenStop>& stops, int job) const {
    const auto& from = week_.visits[of_.visits[static_cast<std::size_t>(job)]].came_from;
    if (!from || from->crew != day_.crew->key || from->on != day_.on) return std::nullopt;
    const auto stop =
        std::find_if(stops.begin(), stops.end(), [&](const GivenStop& one) { return one.visit == from->stop; });
    if (stop == stops.end()) return std::nullopt;
    return static_cast<std::size_t>(stop - stops.begin());
  }

  const Week& week_;
  const WeekProblem& of_;
  const CrewDay& day_;
  const routing::Shift& shift_;
  std::size_t number_;
};

}  // namespace

routing::Plan with_kept_order(const Week& week, const WeekProblem& of, routing::Plan plan) {
  if (!week.kept) return plan;
  for (std::size_t shift = 0; shift < plan.size(); ++shift) {
    if (auto route = KeptOrder(week, of, shift).of(plan[shift])) plan[shift] = std::move(*route);
  }
  return plan;
}

}  // namespace service::visits
