// How it is said that nobody may run a machine.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "service/not_to_run.h"

namespace cli {

// Above all of them.
inline constexpr std::string_view not_to_run_title = "Do not run";

// Below that title: `out of use since 2026-05-21: fork worn`, `before this is mended: hoses, leak seen 2026-06-11`.
std::string ban_words(const service::RunBan& ban);

// What is to be mended first: `hoses, leak seen 2026-06-11; strange knocking noise, seen 2026-06-14`.
std::string to_mend_words(const service::RunBan& ban);

// Each in short, in the same words but without days and notes, for where there is little room: `out of use`, `hoses,
// leak seen`, `tyre@front-right, tread-depth 15 mm, limit 15 mm`, `fork found worn`.
std::vector<std::string> short_causes(const service::RunBan& ban);

// In a line by itself: `do not run it: out of use since 2026-05-21: fork worn`, `do not run it before this is mended:
// hoses, leak seen 2026-06-11`.
std::string why_not_to_run(const service::RunBan& ban);

// On a page that leaves by itself, at the machine: `do not run it before this is mended: hoses, leak seen 2026-06-11`.
// Of one that is out of use for another reason: `do not run it`.
std::string stop_words(const service::RunBan& ban);
std::string stop_words(const service::DueList& list, const service::Machine& machine);  // empty: it may be run

// In a row of its machine, where the machine does not stand as others do: `out of use: do not run it`, `do not run it
// before this is mended: hoses, leak seen 2026-06-11` (not in the row that says so itself), `laid up until 2026-11-01`.
// Empty where it may be run. `ban`: null: it may, but for being laid up. `point`: null: a line of several.
std::string state_in_row(const service::UseState* state, const service::RunBan* ban, const service::Point* point);

// How the machines of a list stand, for whoever asks about each of its rows. Points into the list.
class MachineStates {
 public:
  explicit MachineStates(const service::DueList& list);
  MachineStates(const MachineStates&) = delete;
  MachineStates& operator=(const MachineStates&) = delete;

  const std::vector<service::RunBan>& bans() const { return bans_; }
  const service::UseState* state_of(const service::Machine& machine) const;  // null: in use
  const service::RunBan* ban_of(const service::Machine& machine) const;      // null: it may be run
  std::string in_row(const service::Machine& machine, const service::Point* point) const;

 private:
  std::vector<service::RunBan> bans_;
  std::unordered_map<std::string_view, const service::RunBan*> ban_by_key_;
  std::unordered_map<std::string_view, const service::UseState*> state_by_key_;
};

// Of some, that of this machine; null: it may be run.
const service::RunBan* ban_of(const std::vector<service::RunBan>& bans, const service::Machine& machine);

}  // namespace cli
