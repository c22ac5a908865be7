// All meters in the order of a walk: where to read what.
#include <algorithm>

#include "service/job_sheet.h"
#include "workload/sheet_machines.h"

namespace service {

std::size_t ReadingRound::meters() const {
  std::size_t count = 0;
  for (const RoundSite& site : sites) {
    for (const RoundMachine& machine : site.machines) count += machine.meters.size();
  }
  return count;
}

ReadingRound reading_round(const Snapshot& snapshot) {
  ReadingRound round;
  // No odds are asked, so nothing need be learnt.
  round.list = std::make_shared<const DueList>(
      due_list(snapshot, DueAsk{snapshot.as_of(), {}, Detail::standings}, straight_line()));
  const std::vector<RunBan> bans = run_bans(*round.list);
  for (const Machine* machine : load::by_site(snapshot.fleet(), snapshot.scope(), snapshot.as_of())) {
    if (machine->meters.empty()) {
      round.without_meters.push_back(machine);
      continue;
    }
    RoundMachine entry{
        machine, round.list->state_of(*machine), load::meters_of(snapshot, *machine, round.list->gaps), {}, {}, {}};
    for (const Gap& gap : round.list->gaps) {
      if (gap.machine == machine->key && !gap.meter.empty()) entry.gaps.push_back(&gap);
    }
    for (const SeenSign& seen : round.list->seen) {
      if (seen.machine == machine) entry.seen.push_back(&seen);
    }
    const auto ban =
        std::find_if(bans.begin(), bans.end(), [&](const RunBan& each) { return each.machine == machine; });
    if (ban != bans.end()) entry.ban = *ban;
    const Site* site = snapshot.fleet().site(machine->site);
    if (round.sites.empty() || round.sites.back().site != site) round.sites.push_back({site, {}});
    round.sites.back().machines.push_back(std::move(entry));
  }
  return round;
}

}  // namespace service
