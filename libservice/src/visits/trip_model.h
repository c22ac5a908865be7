// The work of one site, and all crew-days that could go there: whoever may do a service, on whichever day.
#pragma once

#include <compare>
#include <optional>
#include <vector>

#include "visits/trip_groups.h"
#include "visits/trip_path.h"

namespace service::visits::trip {

constexpr int nowhere = -1;

// One crew on one day at the site.
struct TripSlot {
  Day on;
  CrewTrip crew;
  Cost cost = 0;  // of the trip
};

struct SiteModel {
  const Fleet* fleet = nullptr;
  const Site* site = nullptr;
  std::vector<TripPoint> points;         // in the order of the due list
  std::vector<TripSlot> slots;           // by day, the cheapest first
  std::vector<std::vector<bool>> may;    // [point][slot]: by that crew, on that day, beside what else is done
  std::vector<std::vector<Cost>> costs;  // likewise: of its waiting and of its life given up
  std::vector<Cost> left;                // of each point: what leaving it out costs
  std::vector<bool> urgent;              // of each point: it never waits
  std::vector<int> own;                  // of each point: the slot that does it on its own day, by itself
  // Of each point: those that it stands for, and those that stand for it.
  std::vector<std::vector<int>> includes;
  std::vector<std::vector<int>> included_in;

  int late_days(int point, int at) const;  // of what never waits, behind the first day on which somebody can do it
  bool goes_with_others(int point) const { return !included_in[slot(point)].empty(); }
};

// Of the points of all its groups.
SiteModel model_of(const Fleet& fleet, const SiteWork& work);

// On which slot each point is done.
using Places = std::vector<int>;

// Smaller is better: what never waits and goes nowhere, or waits; what else goes nowhere; what includes another and is
// done before it, so that it is done twice; money, with that of what goes nowhere.
struct Rank {
  int unsafe = 0;
  int late_days = 0;
  int left = 0;
  int twice = 0;
  Cost cost = 0;
  friend auto operator<=>(const Rank&, const Rank&) = default;
};

Rank rank_of(const SiteModel& model, const Places& places);

// Whether a trip has time for these.
bool has_time(const SiteModel& model, int at, const std::vector<int>& points);

std::vector<const Point*> points_of(const SiteModel& model, const std::vector<int>& numbers);

// By slot.
std::vector<std::vector<int>> trips_of(const SiteModel& model, const Places& places);

// What moves along where a service is done elsewhere: all that it stands for on that trip.
std::vector<int> with_included(const SiteModel& model, int point, const std::vector<int>& trip);

}  // namespace service::visits::trip
