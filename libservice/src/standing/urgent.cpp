#include "standing/urgent.h"

#include <algorithm>
#include <utility>

#include "service/run_ban.h"

namespace service {
namespace {

bool is_only_unknown(const OverdueEntry& entry) {
  return entry.heading == OverdueHeading::find_out && !forbids_running(entry);
}

void add_one(std::vector<HeadingCount>& counts, OverdueHeading heading) {
  const auto at = std::find_if(counts.begin(), counts.end(), [&](const auto& one) { return one.heading >= heading; });
  if (at != counts.end() && at->heading == heading) {
    ++at->lines;
  } else {
    counts.insert(at, {heading, 1});
  }
}

// As people read them below: all that nobody knows of a machine is one.
void add_left_off(std::vector<HeadingCount>& counts, const UrgentLine& line) {
  bool told_unknown = false;
  for (const OverdueEntry& entry : line.entries) {
    if (is_only_unknown(entry) && std::exchange(told_unknown, true)) continue;
    add_one(counts, entry.heading);
  }
}

}  // namespace

bool forbids_running(const OverdueEntry& entry) {
  if (entry.use != nullptr) return entry.heading == OverdueHeading::out_of_use;
  if (entry.seen != nullptr) return forbids_running(*entry.seen);
  return entry.point != nullptr && forbids_running(*entry.point);
}

// Whatever somebody saw in his own words may be the brakes, and whatever is overdue on a machine that is back in use
// may be what put it out of use.
bool must_not_wait(const OverdueEntry& entry, bool is_back) {
  if (forbids_running(entry) || entry.seen != nullptr) return true;
  if (entry.point == nullptr) return false;
  const bool past = entry.heading == OverdueHeading::overdue || entry.heading == OverdueHeading::read_the_meter;
  if (past && is_back) return true;
  return (past || entry.heading == OverdueHeading::find_out) && never_waits(*entry.point);
}

std::vector<UrgentLine> urgent_lines(const std::vector<OverdueEntry>& urgent, const NotToRun& not_to_run,
                                     const Fleet& fleet) {
  std::vector<UrgentLine> lines;
  for (const OverdueEntry& entry : urgent) {
    const Machine* const machine = machine_of(entry, fleet);
    const auto line =
        std::find_if(lines.begin(), lines.end(), [&](const UrgentLine& each) { return each.machine == machine; });
    if (line != lines.end()) {
      line->entries.push_back(entry);
    } else {
      lines.push_back({machine, {entry}, 0, machine == nullptr ? nullptr : not_to_run.ban_of(*machine)});
    }
  }
  for (UrgentLine& line : lines) {
    const auto others = std::stable_partition(line.entries.begin(), line.entries.end(),
                                              [](const OverdueEntry& entry) { return forbids_running(entry); });
    line.causes = static_cast<std::size_t>(others - line.entries.begin());
  }
  std::stable_partition(lines.begin(), lines.end(), [](const UrgentLine& line) { return line.ban != nullptr; });
  return lines;
}

UrgentHead urgent_head(const OverdueNews& news, std::size_t room) {
  const std::size_t machines = news.first.size();
  const auto stopped = static_cast<std::size_t>(
      std::count_if(news.first.begin(), news.first.end(), [](const UrgentLine& line) { return line.ban != nullptr; }));
  std::size_t shown = std::max(stopped, std::min(room, machines));
  if (shown + 1 == machines) shown = machines;
  UrgentHead head;
  head.machines_left_off = machines - shown;
  for (std::size_t i = 0; i < machines; ++i) {
    const UrgentLine& line = news.first[i];
    if (i < shown) {
      head.lines.push_back(&line);
    } else {
      add_left_off(head.left_off, line);
    }
  }
  return head;
}

}  // namespace service
