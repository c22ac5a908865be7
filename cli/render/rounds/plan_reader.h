// A plan as somebody has it: what `rounds --format json` wrote, or what was made by hand in that form. Keys that the
// form does not have are passed over.
#pragma once

#include <string>
#include <vector>

#include "service/rounds.h"

namespace cli {

struct ReadPlan {
  service::GivenPlan plan;
  // Of rule `form`: where something has another shape, and which it needs; but of crew and day of a round, which the
  // plan says (`GivenPlan::unread`).
  std::vector<service::PlanFault> faults;
  // A round, a stop or something put off could not be read and is not in the plan, so that its sums mean nothing.
  bool lacks_some = false;
  std::vector<std::string> unread;  // which fields are there and not judged: `rounds[].stops[].cautions`
};

// Fails with bad_data where the text is no JSON at all. `file`: how to call it.
ReadPlan read_plan(const std::string& text, const std::string& file);

}  // namespace cli
