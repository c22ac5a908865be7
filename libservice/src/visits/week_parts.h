// The steps by which a week is made, each on what the ones before have filled in.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "service/rounds.h"
#include "visits/kept_plan.h"
#include "visits/point_cost.h"

namespace service::visits {

// What services are worth, reckoned once each.
class Worths {
 public:
  explicit Worths(const DueList& list) : list_(list) {}
  const PointWorth& of(const Point& point);
  std::vector<std::string> no_price() const { return {no_price_.begin(), no_price_.end()}; }

 private:
  const DueList& list_;
  std::map<const Point*, PointWorth> worths_;
  std::set<std::string> no_price_;
};

// Takes out visits to sites that no crew can get to and back from, and says so.
void take_out_without_way(Week& week);

// What a visit costs on each crew-day, and when it may be made; promises aside.
void fill_options(const Week& week, Visit& visit, Worths& worths);

// What leaving each visit out costs.
void fill_put_off(Week& week, Worths& worths);

// On which crew-days a visit fits in alone.
std::vector<bool> fits_alone(const Week& week, std::size_t visit);

// The first four reasons why a visit cannot be made.
void fill_impossible(Week& week);

// Splits visits with work for safety that are unreachable (`Visit::impossible`): as much of that as fits in alone
// becomes a visit of its own, `tractor+safety`, so that it is not left out because of other work at its machine.
void set_safety_apart(Week& week, const DoneBefore& done, Worths& worths);

// Ties promised visits to their crew-days.
void keep_promises(Week& week);

// Lets points that come due soon after join the visits of their machines where that costs less than their share of a
// later trip, and takes no crew-day away on which the visit fits in without them.
void join_points(Week& week, const std::vector<const Point*>& may_join, Worths& worths);

}  // namespace service::visits
