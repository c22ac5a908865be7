// The cheapest days on which to go to one site: a shortest path over its open days.
//
// What has to be done together is a unit, with a cost for each day that falls until its best day and rises from then
// on. So it is done at the last trip before its best day, or at the first on that day or after, and between two trips
// that follow each other the units with a best day in between decide without regard to all others.
#pragma once

#include <limits>
#include <vector>

#include "visits/exact.h"

namespace service::visits::trip {

// Parts of a tenth of a penny, fine enough that what is compared is not rounded; below, the cost of one penny.
using Cost = Wide;
constexpr Cost one_penny = Cost{10} << 32U;
constexpr Cost impossible = Cost{1} << 110U;  // more than all that can be asked for

// Days are numbers of the site's open days.
struct PathUnit {
  int first = 0;  // the days on which it may be done, both inclusive
  int last = 0;
  std::vector<Cost> costs;  // of each day

  Cost at(int day) const { return day < first || day > last ? impossible : costs[static_cast<std::size_t>(day)]; }
  int best() const;  // the first of the days that cost least
};

// `inner` is done no later than `outer`, which includes it; its best day is earlier. (Where it is not, both are one
// unit.)
struct PathLink {
  int inner = 0;
  int outer = 0;
};

struct PathProblem {
  std::vector<Cost> trips;  // what going on each day costs
  std::vector<PathUnit> units;
  std::vector<PathLink> links;
};

struct PathPlan {
  Cost value = 0;
  std::vector<int> day_of;  // of each unit
};

// Of all sets of days, and of all ways to share out the units to them, the cheapest: with at least one unit. Takes time
// by the square of the days and by the units; and twice as much for each more of linked units that include others.
PathPlan shortest_path(const PathProblem& problem);

// How many of these linked units include others, at most: more are to be made one unit.
constexpr int most_outers = 10;

}  // namespace service::visits::trip
