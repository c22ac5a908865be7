// What it costs to do a service on another day than the one on which it is due.
#pragma once

#include <optional>
#include <set>
#include <string>

#include "service/due_list.h"
#include "service/rounds.h"
#include "visits/exact.h"

namespace service::visits {

// A service with the figures that its costs are made of.
struct PointWorth {
  Day due_on;
  int life_days = 1;  // of the interval under way; being late by so many is skipping it altogether
  Money value;        // parts and fluids, and the hours of one crew
  Money late;         // what skipping it once altogether would cost on average
  // From when waiting loses something, where that is not the due day: of what has to be done before its machine is
  // back.
  std::optional<Day> late_from = {};
  Day wanted_on() const { return late_from.value_or(due_on); }
};

// From when it was fitted until that day; a year where that is not known.
int life_days_of(const Point& point, Day due_on);

// The interval under way as it is written, were it due on that day: longer than its life where it was done late and is
// due by the due point before (`counts-from`). Of a service, not of a check.
int interval_days_of(const Point& point, Day due_on);

// Parts and fluids without a price count as nothing, and are named in `no_price`. The point is of the list.
PointWorth worth_of(const DueList& list, const Point& point, std::set<std::string>& no_price);

// Late: skipping a service once altogether costs `late`, the first day after it was due two thirds of an even share of
// that, a day at a whole interval over four thirds; so does every day beyond that. A check that follows a service is
// skipped altogether when the next service retires it: its interval is that of the service. What is lost already as of
// today is not charged again.
// Early: the share of its value that its life given up is.
// In hundredths of the currency, not rounded.
Fraction late_share(const PointWorth& worth, Day as_of, Day done_on);
Fraction early_share(const PointWorth& worth, Day done_on);

inline Money late_cost(const PointWorth& worth, Day as_of, Day done_on) {
  return {half_up(late_share(worth, as_of, done_on))};
}
inline Money early_cost(const PointWorth& worth, Day done_on) { return {half_up(early_share(worth, done_on))}; }

inline Money waiting_cost(const PointWorth& worth, Day as_of, Day done_on) {
  return late_cost(worth, as_of, done_on) + early_cost(worth, done_on);
}

// Of a call; nothing where it does not say what a day of waiting costs.
Money waiting_cost(const Call& call, Day as_of, Day done_on);

}  // namespace service::visits
