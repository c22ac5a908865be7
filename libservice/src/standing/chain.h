// Where the current interval of a limb starts: the chain of due points through all services, by `counts-from`.
#pragma once

#include <optional>
#include <vector>

#include "standing/services.h"
#include "standing/view.h"

namespace service {

// --- Calendar ----------------------------------------------------------------------------------------------

// A day of a chain, kept as its original anchor and the months since, so that clamped days are never added to.
struct ChainDay {
  Day anchor{};
  int months = 0;

  Day day() const { return months == 0 ? anchor : add_months(anchor, months); }
  ChainDay plus(const CalendarSpan& span) const;
};

// One calendar interval from a start: which of the candidate spans rules, when it is due and overdue.
struct CalendarInterval {
  CalendarSpan span;
  ChainDay next;  // the start of the interval that follows in the chain
  Day due;        // with the month's rest where the limb runs to the month's end
  int grace_days = 0;
};

// What else decides a calendar limb's days.
struct CalendarRule {
  bool until_month_end = false;
  const Grace& grace;
};

CalendarInterval calendar_interval(const ChainDay& start, const LimbChoice& choice, const CalendarRule& rule);

// The start after a service on a day that ended the interval `ended`. `follows`: the limb of the interval after it.
ChainDay next_start(const CalendarInterval& ended, Day done, const LimbChoice& follows, const CalendarRule& rule,
                    CountsFrom counts_from);

// --- Usage -------------------------------------------------------------------------------------------------

// The start after a service at a usage of `done`, of an interval that was due at `due`.
Amount next_usage_start(Amount due, Amount grace, Amount done, Amount follows, CountsFrom counts_from);

// --- Both kinds --------------------------------------------------------------------------------------------

// Nothing where the start is not known. `services` oldest first.
std::optional<ChainDay> calendar_start(const MachineView& view, const MachineTask& task,
                                       const std::vector<ServiceDay>& services);

std::optional<Amount> usage_start(const MachineView& view, const MachineTask& task,
                                  const std::vector<ServiceDay>& services, const std::string& meter);

Amount usage_grace(const MachineView& view, const Grace& grace, const std::string& meter, Amount every);

// In the running-in interval: in service new, and not serviced yet.
bool running_in(const MachineView& view, const std::vector<ServiceDay>& services);

const std::vector<LimbChoice>& limbs_now(const MachineView& view, const MachineTask& task,
                                         const std::vector<ServiceDay>& services);

}  // namespace service
