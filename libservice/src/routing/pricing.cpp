#include "routing/pricing.h"

#include <algorithm>
#include <map>
#include <set>

#include "routing/labels.h"
#include "routing/timing.h"

namespace service::routing {
namespace {

constexpr std::size_t few_labels = 100;  // at a stop: too few to tell apart what has been done

void sort_by_reduced(std::vector<Found>& rounds) {
  std::sort(rounds.begin(), rounds.end(), [](const Found& a, const Found& b) {
    return a.reduced != b.reduced ? a.reduced < b.reduced : a.route < b.route;
  });
}

template <class Stops>
Priced price_with(const Problem& problem, const ShiftKind& kind, std::size_t number, const Prices& prices,
                  const WayHome& home, const Memory& memory, const Thoroughness& thoroughness) {
  const bool thorough = thoroughness.labels_a_stop == 0;
  const bool loose = !thorough && thoroughness.labels_a_stop < few_labels;
  Labels<Stops> labels(kind, number, prices, home, &memory, loose ? Dominance::loose : Dominance::exact, 0);
  Priced priced;
  priced.proven = labels.run(thoroughness.labels_a_stop, thoroughness.most_labels, thoroughness.stop) && thorough;
  std::vector<std::pair<Mills, int>> closed;
  for (std::size_t i = 0; i < labels.all().size(); ++i) {
    if (const auto reduced = labels.closed(labels.all()[i]); reduced && *reduced < 0) {
      closed.emplace_back(*reduced, static_cast<int>(i));
    }
  }
  std::sort(closed.begin(), closed.end());
  if (!closed.empty()) priced.least = closed.front().first;
  // What was not looked at is told from below: of all labels where none that could follow was dropped.
  if (!priced.proven) {
    const Mills whole = home.least() - prices.kinds[number];
    priced.least =
        std::min<Mills>(0, thorough ? std::max(whole, std::min(priced.least, labels.least_unseen())) : whole);
  }
  std::set<Route> sets;  // one order of the same jobs is enough
  for (const auto& [reduced, label] : closed) {
    if (priced.found.size() >= thoroughness.wanted) break;
    const auto& last = labels.all()[static_cast<std::size_t>(label)];
    Found found{labels.route_of(last), labels.cost_of(last), reduced};
    Route set = found.route;
    std::sort(set.begin(), set.end());
    if (!sets.insert(std::move(set)).second || !times_of(problem, *kind.shift, found.route)) continue;
    priced.found.push_back(std::move(found));
  }
  return priced;
}

template <class Stops>
Listed list_with(const Problem& problem, const ShiftKind& kind, std::size_t number, const Prices& prices,
                 const WayHome& home, Mills at_most, std::size_t most_labels, const std::function<bool()>& stop) {
  // Where times are reckoned from below, a round that looks better may not be possible, and must not hide one that is.
  Labels<Stops> labels(kind, number, prices, home, nullptr, kind.duty_exact ? Dominance::same_stops : Dominance::none,
                       at_most + 1);
  Listed listed;
  listed.all = labels.run(0, most_labels, stop);
  if (!listed.all) return listed;
  std::map<Route, Found> cheapest;
  for (const auto& label : labels.all()) {
    const auto reduced = labels.closed(label);
    if (!reduced || *reduced > at_most) continue;
    Found found{labels.route_of(label), labels.cost_of(label), *reduced};
    Route set = found.route;
    std::sort(set.begin(), set.end());
    const auto known = cheapest.find(set);
    if (known != cheapest.end() && known->second.cost <= found.cost) continue;
    if (times_of(problem, *kind.shift, found.route)) cheapest[std::move(set)] = std::move(found);
  }
  for (auto& [set, found] : cheapest) listed.rounds.push_back(std::move(found));
  sort_by_reduced(listed.rounds);
  return listed;
}

// The least size that holds all stops: sets are compared often.
template <class Result, class With64, class With128, class With256, class With512>
Result by_size(std::size_t stops, Result too_many, With64&& with64, With128&& with128, With256&& with256,
               With512&& with512) {
  if (stops <= 64) return with64();
  if (stops <= 128) return with128();
  if (stops <= 256) return with256();
  if (stops <= 512) return with512();
  return too_many;
}

}  // namespace

Priced price(const Problem& problem, const ShiftKind& kind, std::size_t number, const Prices& prices,
             const WayHome& home, const Memory& memory, const Thoroughness& thoroughness) {
  Priced too_many;
  too_many.least = std::min<Mills>(0, home.least() - prices.kinds[number]);
  const auto with = [&](auto size) {
    return price_with<std::bitset<decltype(size)::value>>(problem, kind, number, prices, home, memory, thoroughness);
  };
  return by_size(
      kind.stops.size(), too_many, [&] { return with(std::integral_constant<std::size_t, 64>{}); },
      [&] { return with(std::integral_constant<std::size_t, 128>{}); },
      [&] { return with(std::integral_constant<std::size_t, 256>{}); },
      [&] { return with(std::integral_constant<std::size_t, 512>{}); });
}

Listed list_rounds(const Problem& problem, const ShiftKind& kind, std::size_t number, const Prices& prices,
                   const WayHome& home, Mills at_most, std::size_t most_labels, const std::function<bool()>& stop) {
  const auto with = [&](auto size) {
    return list_with<std::bitset<decltype(size)::value>>(problem, kind, number, prices, home, at_most, most_labels,
                                                         stop);
  };
  return by_size(
      kind.stops.size(), Listed{}, [&] { return with(std::integral_constant<std::size_t, 64>{}); },
      [&] { return with(std::integral_constant<std::size_t, 128>{}); },
      [&] { return with(std::integral_constant<std::size_t, 256>{}); },
      [&] { return with(std::integral_constant<std::size_t, 512>{}); });
}

}  // namespace service::routing
