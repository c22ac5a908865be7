// What a reading takes off the overdue list: points, doubts, and what was not known.
#pragma once

#include <map>
#include <memory>
#include <set>
#include <string>

#include "service/entry.h"

namespace service::entry {

struct TakesOff {
  bool any = false;     // something that stands on the overdue list
  bool safety = false;  // something of it never waits
};

// The book on a day, and what stands on the overdue list of its machines. Each machine is reckoned once.
class ListsOf {
 public:
  ListsOf(std::shared_ptr<const Fleet> fleet, const Extract& known, Day today, bool day_is_given)
      : fleet_(std::move(fleet)), known_(known), today_(today), day_is_given_(day_is_given) {}

  // What this one alone takes off, as the judge lets it through; nothing where he does not.
  TakesOff taken_off_by(const Fact& reading, const Stamp& stamp);

 private:
  using Names = std::map<std::string, bool>;  // of points and gaps; whether they never wait

  Names names_on(const std::string& machine, const std::vector<Fact>& facts) const;

  std::shared_ptr<const Fleet> fleet_;
  const Extract& known_;
  Day today_;
  bool day_is_given_;
  std::map<std::string, Names> before_;  // by machine
};

}  // namespace service::entry
