// Which machines of an answer nobody may run, and why: those out of use, and those of which something forbids it
// (`run_ban.h`). Whatever else is told of such a machine, each of its rows says so: who reads one row alone must not
// start it.
#pragma once

#include <functional>
#include <memory>
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
  bool forbidden_by(const Point& point) const;  // by name, so of any list
};

// Those out of use first, then in the order of the fleet file. Points into the list.
std::vector<RunBan> run_bans(const DueList& list);

// The same, kept: a value that an answer holds though its list is gone. Copies share what they keep. It points into the
// fleet of the list of which it is made, and into no list.
class NotToRun {
 public:
  NotToRun() = default;
  explicit NotToRun(const DueList& list, const Site* site = nullptr);              // `site`: of that alone
  NotToRun(const DueList& list, const std::function<bool(const Machine&)>& told);  // of these alone

  bool holds(const Machine& machine) const { return ban_of(machine) != nullptr; }

  // Null: it may be run. Lives as long as this, or any copy of it.
  const RunBan* ban_of(const Machine& machine) const;

  // In the order of `run_bans`. Likewise.
  const std::vector<RunBan>& bans() const;

 private:
  struct Kept;
  std::shared_ptr<const Kept> kept_;  // null: none
};

}  // namespace service

#pragma GCC visibility pop
