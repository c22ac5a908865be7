// Each service is given a price. A trip may then take, of all services, whichever set its hours hold, and is worth what
// their prices are above what they cost on its day, less what the trip costs. All prices together, less what trips are
// worth at most, is what no plan costs less than, whatever the prices are: in a plan every service is on one trip, so
// each is paid once and fetched once. Prices are raised where no trip wants a service and lowered where several do.
//
// And the work of all does not fit into fewer trips than the longest of these hold: so many are counted, also where
// they are worth nothing. All of it in whole numbers, so that it proves the same everywhere.
#include "visits/trip_bound.h"

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <tuple>

namespace service::visits::trip {
namespace {

using Mills = std::int64_t;  // thousandths of a penny
constexpr Mills mills = 1000;

constexpr int most_rounds = 400;
// Of points and slots, looked at in all rounds together.
constexpr std::size_t most_looks = 3'000'000;
// A step is so much of the gap, at first; it is halved after so many rounds without a better bound.
constexpr Mills whole_step = 1024;
constexpr int patience = 12;

Mills mills_of(Cost cost) { return static_cast<Mills>(cost * mills / one_penny); }

struct Offered {
  int minutes = 0;
  int point = 0;
  Mills cost = 0;
};

struct Offer {
  Mills cost = 0;
  int room = 0;
  std::vector<Offered> items;
};

class Bound {
 public:
  Bound(const SiteModel& model, const Places& places) : model_(model) {
    const bool in_time = rank_of(model, places).late_days == 0;
    unit_ = 0;
    for (int point = 0; point < static_cast<int>(places.size()); ++point) {
      if (places[slot(point)] == nowhere) continue;
      points_.push_back(point);
      unit_ = std::gcd(unit_, minutes_of(point));
    }
    unit_ = std::max(unit_, 1);
    for (int at = 0; at < static_cast<int>(model.slots.size()); ++at) add_trip(at, in_time);
    start_from(places);
  }

  Cost run() {
    if (points_.empty() || trips_.empty()) return 0;
    const std::size_t looks = std::max<std::size_t>(1, points_.size() * trips_.size());
    const int rounds = std::min<int>(most_rounds, static_cast<int>(most_looks / looks));
    Mills step = whole_step * 2;
    int without = 0;
    for (int round = 0; round < rounds; ++round) {
      const Mills bound = look();
      if (bound > best_) {
        best_ = bound;
        best_prices_ = prices_;
        without = 0;
      } else if (++without == patience) {
        without = 0;
        step /= 2;
        prices_ = best_prices_;
        if (step == 0) break;
        look();
      }
      if (!change_prices(bound, step)) break;
    }
    return std::max<Mills>(best_, 0) * one_penny / mills;
  }

 private:
  // What is included where both are done on one trip may take no time.
  int minutes_of(int point) const { return model_.goes_with_others(point) ? 0 : model_.points[slot(point)].minutes; }

  void add_trip(int at, bool in_time) {
    const TripSlot& one = model_.slots[slot(at)];
    Offer trip{mills_of(one.cost), one.crew.room / unit_, {}};
    for (std::size_t i = 0; i < points_.size(); ++i) {
      const int point = points_[i];
      if (!model_.may[slot(point)][slot(at)] || (in_time && model_.late_days(point, at) > 0)) continue;
      trip.items.push_back(
          {minutes_of(point) / unit_, static_cast<int>(i), mills_of(model_.costs[slot(point)][slot(at)])});
    }
    if (!trip.items.empty()) trips_.push_back(std::move(trip));
  }

  // What each costs in the plan, with its share of its trip by the time it takes.
  void start_from(const Places& places) {
    const auto trips = trips_of(model_, places);
    for (const int point : points_) {
      const int at = places[slot(point)];
      std::int64_t all = 0;
      for (const int other : trips[slot(at)]) all += minutes_of(other) + 1;
      const Mills trip = mills_of(model_.slots[slot(at)].cost);
      prices_.push_back(mills_of(model_.costs[slot(point)][slot(at)]) + trip * (minutes_of(point) + 1) / all);
      value_ += mills_of(model_.costs[slot(point)][slot(at)]);
    }
    for (std::size_t at = 0; at < trips.size(); ++at) {
      if (!trips[at].empty()) value_ += mills_of(model_.slots[at].cost);
    }
    std::int64_t work = 0;
    int longest = 1;
    for (const int point : points_) work += minutes_of(point) / unit_;
    for (const Offer& trip : trips_) longest = std::max(longest, trip.room);
    least_trips_ = static_cast<std::size_t>((work + longest - 1) / longest);
    wanted_.resize(points_.size());
  }

  // The bound at these prices; and how many trips want each service.
  Mills look() {
    struct Worth {
      Mills cost;  // less what it is worth
      std::size_t trip;
      std::vector<int> takes;
    };
    std::vector<Worth> worths;
    for (std::size_t i = 0; i < trips_.size(); ++i) {
      std::vector<int> takes;
      const Mills most = most_worth(trips_[i], takes);
      worths.push_back({trips_[i].cost - most, i, std::move(takes)});
    }
    std::sort(worths.begin(), worths.end(),
              [](const Worth& a, const Worth& b) { return std::tie(a.cost, a.trip) < std::tie(b.cost, b.trip); });
    std::fill(wanted_.begin(), wanted_.end(), 0);
    Mills bound = std::accumulate(prices_.begin(), prices_.end(), Mills{0});
    for (std::size_t i = 0; i < worths.size() && (i < least_trips_ || worths[i].cost < 0); ++i) {
      bound += worths[i].cost;
      for (const int item : worths[i].takes) ++wanted_[slot(item)];
    }
    return bound;
  }

  // Of all sets of services for which there is time, by the minute.
  Mills most_worth(const Offer& trip, std::vector<int>& takes) const {
    Mills sure = 0;
    int minutes = 0;
    std::vector<Offered> items;  // at what they are worth
    for (const Offered& item : trip.items) {
      const Mills worth = prices_[slot(item.point)] - item.cost;
      if (worth <= 0) continue;
      if (item.minutes == 0) {
        sure += worth;
        takes.push_back(item.point);
        continue;
      }
      items.push_back({item.minutes, item.point, worth});
      minutes += item.minutes;
    }
    if (minutes <= trip.room) {
      for (const Offered& item : items) {
        sure += item.cost;
        takes.push_back(item.point);
      }
      return sure;
    }
    const auto columns = static_cast<std::size_t>(trip.room) + 1;
    std::vector<Mills> best(columns);
    std::vector<bool> taken(items.size() * columns);
    for (std::size_t i = 0; i < items.size(); ++i) {
      for (int room = trip.room; room >= items[i].minutes; --room) {
        const Mills with = best[slot(room - items[i].minutes)] + items[i].cost;
        if (with <= best[slot(room)]) continue;
        best[slot(room)] = with;
        taken[i * columns + slot(room)] = true;
      }
    }
    int room = trip.room;
    for (std::size_t i = items.size(); i-- > 0;) {
      if (!taken[i * columns + slot(room)]) continue;
      takes.push_back(items[i].point);
      room -= items[i].minutes;
    }
    return sure + best.back();
  }

  bool change_prices(Mills bound, Mills step) {
    std::int64_t apart = 0;
    for (const int trips : wanted_) apart += std::int64_t{1 - trips} * (1 - trips);
    if (apart == 0) return false;  // a plan, and so the best
    const Cost gap = std::max<Mills>(value_ - bound, mills);
    const auto by = static_cast<Mills>(gap * step / (Cost{whole_step} * apart));
    for (std::size_t i = 0; i < prices_.size(); ++i) prices_[i] += by * (1 - wanted_[i]);
    return by != 0;
  }

  const SiteModel& model_;
  int unit_ = 1;  // minutes: all work is so many of these
  std::vector<int> points_;
  std::vector<Offer> trips_;
  std::vector<Mills> prices_;  // by number in `points_`, as all below
  std::vector<Mills> best_prices_;
  std::vector<int> wanted_;
  std::size_t least_trips_ = 0;
  Mills value_ = 0;  // of the plan
  Mills best_ = 0;
};

}  // namespace

Cost bound_of(const SiteModel& model, const Places& places) { return Bound(model, places).run(); }

}  // namespace service::visits::trip
