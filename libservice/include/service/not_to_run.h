// Which machines of an answer nobody may run, and why: those out of use, and those of which something forbids it
// (`run_ban.h`). Whatever else is told of such a machine, each of its rows says so: who reads one row alone must not
// start it.
#pragma once

#include <unordered_set>
#include <vector>

#include "service/due_list.h"
#include "service/run_ban.h"

#pragma GCC visibility push(default)

namespace service {

// Why nobody may run a machine, with all of the reasons.
struct RunBan {
  const Machine* machine = nullptr;
  const UseState* state = nullptr;    // null: in use but for what follows; may be laid up as well
  std::vector<const Point*> points;   // that forbid it, in the order of the list
  std::vector<const SeenSign*> seen;  // likewise
  bool out_of_use() const { return state != nullptr && state->kind == UseKind::out_of_use; }
  bool forbidden_by(const Point& point) const;
};

// Those out of use first, then in the order of the fleet file. Points into the list.
std::vector<RunBan> run_bans(const DueList& list);

// The machines alone. Points into the fleet of the list of which it is made, and is no part of that list.
class NotToRun {
 public:
  NotToRun() = default;
  explicit NotToRun(const DueList& list, const Site* site = nullptr);  // `site`: of that alone

  bool holds(const Machine& machine) const;

  // In the order of `run_bans`.
  const std::vector<const Machine*>& machines() const { return machines_; }

 private:
  std::vector<const Machine*> machines_;
  std::unordered_set<const Machine*> held_;
};

}  // namespace service

#pragma GCC visibility pop
