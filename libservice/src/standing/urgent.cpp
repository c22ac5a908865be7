#include "standing/urgent.h"

#include <algorithm>
#include <map>
#include <set>

#include "service/run_ban.h"

namespace service {
namespace {

bool is_only_unknown(const OverdueEntry& entry) {
  return entry.heading == OverdueHeading::find_out && !forbids_running(entry);
}

// Before all others what leads its machine, of these the machines that nobody may run; then what forbids to run one.
int rank_of(const UrgentLine& line) {
  const bool forbids = forbids_running(line.entries.front());
  if (line.leads) return line.stopped ? 0 : 1;
  return forbids ? 2 : line.stopped ? 3 : 4;
}

// What forbids it, else what stands first.
void say_which_lead(std::vector<UrgentLine>& lines) {
  std::map<const Machine*, UrgentLine*> worst;
  for (UrgentLine& line : lines) {
    UrgentLine*& led = worst[line.machine];
    const bool forbids = forbids_running(line.entries.front());
    if (led == nullptr || (forbids && !forbids_running(led->entries.front()))) led = &line;
  }
  for (const auto& [machine, line] : worst) line->leads = true;
}

void add_line(std::vector<HeadingCount>& counts, OverdueHeading heading) {
  const auto at = std::find_if(counts.begin(), counts.end(), [&](const auto& one) { return one.heading >= heading; });
  if (at != counts.end() && at->heading == heading) {
    ++at->lines;
  } else {
    counts.insert(at, {heading, 1});
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
    const auto line = std::find_if(lines.begin(), lines.end(), [&](const UrgentLine& each) {
      return each.machine == machine && is_only_unknown(entry) && is_only_unknown(each.entries.front());
    });
    if (line != lines.end()) {
      line->entries.push_back(entry);
    } else {
      lines.push_back({machine, {entry}, machine != nullptr && not_to_run.holds(*machine)});
    }
  }
  say_which_lead(lines);
  std::stable_sort(lines.begin(), lines.end(),
                   [](const UrgentLine& a, const UrgentLine& b) { return rank_of(a) < rank_of(b); });
  return lines;
}

UrgentHead urgent_head(const OverdueNews& news, std::size_t room) {
  const auto count = [&](auto counted) {
    return static_cast<std::size_t>(std::count_if(news.first.begin(), news.first.end(), counted));
  };
  const std::size_t machines = count([](const UrgentLine& line) { return line.leads; });
  const std::size_t stopped = count([](const UrgentLine& line) { return line.leads && line.stopped; });
  std::size_t shown = std::max(stopped, std::min(room, machines));
  if (shown + 1 == machines) shown = machines;
  const std::size_t second = shown == machines && room > machines ? room - machines : 0;
  UrgentHead head;
  head.machines_left_off = machines - shown;
  std::set<const Machine*> left_off;
  for (std::size_t i = 0; i < news.first.size(); ++i) {
    const UrgentLine& line = news.first[i];
    if (line.leads ? i < shown : i < machines + second) {
      head.lines.push_back({&line});
      continue;
    }
    if (line.leads) left_off.insert(line.machine);
    if (left_off.contains(line.machine)) {
      add_line(head.left_off, line.entries.front().heading);
      continue;
    }
    const auto led = std::find_if(head.lines.begin(), head.lines.end(),
                                  [&](const UrgentHead::Line& each) { return each.line->machine == line.machine; });
    led->more += line.entries.size();
  }
  return head;
}

}  // namespace service
