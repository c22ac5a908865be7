// How one limb of a point stands on the day.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "service/standing.h"
#include "standing/chain.h"
#include "standing/services.h"
#include "standing/view.h"

namespace service {

// What a limb is counted from.
struct Since {
  const Fact* service = nullptr;  // the fitting service; null where there is none
  std::optional<Day> day;         // of the fitting, of going into service, or of buying (signs and measurements only)
  bool fitted = false;            // false: used machine without any service, only signs and measurements are judged
};

// Whether a fact lies after the fitting, in the order of facts.
bool lies_since(const Fact& fact, const Since& since);

// Without what is only told of today's estimate: `tell_today`.
LimbStanding usage_standing(const MachineView& view, const UsageLimb& limb, std::optional<Amount> start,
                            std::optional<Amount> fitted_at, Amount grace);
// Adds to each of the limbs that count use what it has used and has left by today's estimate: of points that are shown.
void tell_today(Point& point, const MachineView& view);

LimbStanding calendar_standing(const MachineView& view, const LimbChoice& choice, const CalendarRule& rule,
                               const std::optional<ChainDay>& start);
LimbStanding changes_standing(const MachineView& view, const ChangesLimb& limb, const Since& since, const Grace& grace);
LimbStanding measured_standing(const MachineView& view, const MeasuredLimb& limb, const Since& since,
                               const std::string& position);
LimbStanding sign_standing(const MachineView& view, const SignLimb& limb, const Since& since, const Grace& grace);

// When a task that was done on a day is due for a season next.
Day season_due(const Season& season, int lead_days, Day done);

LimbStanding season_standing(const MachineView& view, const SeasonLimb& limb, const Since& since, const Grace& grace);

}  // namespace service
