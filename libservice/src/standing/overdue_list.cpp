// What cron mails. Every point and gap comes at most once, under the heading that says what to do about it. What
// forbids to run its machine comes in any case.
#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <string>

#include "service/due_list.h"
#include "service/run_ban.h"
#include "standing/shown.h"

namespace service {

std::optional<OverdueHeading> overdue_heading_of(const Point& point) {
  if (point.standing == Standing::overdue) return OverdueHeading::overdue;
  if (point.past_grace_by_estimate) return OverdueHeading::read_the_meter;
  if (point.standing == Standing::no_record || !point.unknown.empty()) return OverdueHeading::find_out;
  if (forbids_running(point)) return OverdueHeading::do_not_run;
  return std::nullopt;
}

std::vector<OverdueEntry> overdue_list(const DueList& list) {
  std::vector<OverdueEntry> entries;
  std::set<std::string> idle_machines;
  for (const MachineUse& use : list.not_in_use) {
    if (use.state.kind == UseKind::out_of_use) {
      entries.push_back({OverdueHeading::out_of_use, nullptr, nullptr, &use, nullptr});
    } else {
      idle_machines.insert(use.machine->key);
    }
  }
  for (const SeenSign& seen : list.seen) {
    entries.push_back({OverdueHeading::seen, nullptr, nullptr, nullptr, &seen});
  }
  for (const Gap& gap : list.gaps) {
    entries.push_back({OverdueHeading::find_out, nullptr, &gap, nullptr, nullptr});
  }
  for (const Point& point : list.points) {
    auto heading = overdue_heading_of(point);
    if (!heading) continue;
    if (idle_machines.contains(point.machine->key)) {
      heading = OverdueHeading::laid_up;
    } else if (point.put_off && *heading != OverdueHeading::find_out && *heading != OverdueHeading::do_not_run) {
      heading = OverdueHeading::put_off;
    }
    entries.push_back({*heading, &point, nullptr, nullptr, nullptr});
  }
  std::stable_sort(entries.begin(), entries.end(),
                   [](const OverdueEntry& a, const OverdueEntry& b) { return a.heading < b.heading; });
  return entries;
}

std::vector<OverdueBlock> overdue_blocks(const DueList& list) {
  std::vector<OverdueBlock> blocks;
  for (const OverdueEntry& entry : overdue_list(list)) {
    if (blocks.empty() || blocks.back().heading != entry.heading) blocks.push_back({entry.heading, {}});
    blocks.back().entries.push_back(entry);
  }
  return blocks;
}

std::string_view to_text(OverdueHeading heading) {
  // In the order of the enumerators.
  constexpr std::array<std::string_view, 8> names{"out-of-use",     "do-not-run", "overdue", "seen",
                                                  "read-the-meter", "find-out",   "put-off", "laid-up"};
  return names.at(static_cast<std::size_t>(heading));
}

}  // namespace service
