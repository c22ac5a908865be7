// Which kinds were learnt before of the very states that are kept now.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "service/kept_books.h"

namespace service {

// Of the kinds in a scope, on a day. Used within one view of the record. The keeper and the fleet must outlive it.
class HeldKinds {
 public:
  HeldKinds(const BookKeeper& keeper, const Fleet& fleet, const Scope& scope, Day as_of);

  // To be told the state of each machine of these kinds of which something is recorded.
  void note(const KeptState& state);

  // To be asked once, after all of them were noted, or by the other one, which reads and notes them itself.
  LearntKinds of_noted(const Record& record);
  LearntKinds of_their_states(const Record& record);

 private:
  struct Kind {
    KeptGroup group;
    bool may_hold = true;
  };
  struct Member {
    Kind* kind = nullptr;
    KeptMember* member = nullptr;
  };

  const BookKeeper& keeper_;
  Day as_of_;
  std::vector<Kind> kinds_;
  std::map<std::string_view, Member, std::less<>> members_;
};

}  // namespace service
