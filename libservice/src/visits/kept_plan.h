// What a plan that is kept says of the week that is planned anew.
#pragma once

#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "service/rounds.h"

namespace service::visits {

// What its rounds of days before the week have done.
class DoneBefore {
 public:
  // Keeps what it points to.
  DoneBefore(const std::optional<GivenPlan>& kept, Day from);

  // A point of a stop that names its tasks.
  bool holds(const Point& point) const;
  // All of a visit whose stop did not name its tasks; and calls.
  bool holds(const std::string& visit) const;

  // Fills what its rounds did of these points and of these visits, which are in no visit of the week; and what of that
  // is not in the book.
  void fill_done(Week& week, const std::vector<Visit>& taken_out) const;

  // The names of all those visits, in the order of the plan.
  const std::vector<std::string>& visits() const { return visits_; }

 private:
  std::set<std::tuple<std::string, std::string, std::string>> points_;  // machine, task, position
  std::set<std::string> whole_;
  std::vector<const GivenRound*> rounds_;
  Day made_on_;  // from that day on the book may have what it did
  std::vector<std::string> visits_;
};

// Of `Week::done` what was at that site, as the kept plan says, else where it stands now.
std::vector<std::string> done_at(const Week& week, const Site& site);

// Tells of each visit which stop it comes from.
void fill_came_from(Week& week);

// The changes of a plan (`RoundsPlan::changes`); of one to ring up in the order of the plan that was kept, what was
// promised first, then what is new. A stop that is split has a line for each visit that comes from it; one whose work
// is done along with that of another stop has a line of its own.
std::vector<PlanChange> changes_of(const RoundsPlan& plan);

// Names whom to ring up about it: a contact may stand for several sites. They stand by this.
std::string whom_of(const PlanChange& change);

}  // namespace service::visits
