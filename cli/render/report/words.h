// What a report holds, in a line a part: the digest, and beside the contents of the page.
#pragma once

#include <string>
#include <string_view>

#include "service/report.h"

namespace cli {

// Of the part that comes first: the overdue list, and what must not wait beside it.
inline constexpr std::string_view overdue_title = "Overdue, safety soon, and not known";

std::string soon_title();  // `Safety and statutory: due, or within 7 days`

// Of a report of some machines: that orders are the whole fleet's, and how much is not known elsewhere.
std::string fleet_figures(const service::Report& report);

// How the same is asked again: `report --site mere --season pumping`.
std::string asked_words(const service::Report& report);

std::string known_words(const service::Report& report);     // `14 machines; what is known goes up to 2026-06-13.`
std::string overdue_counts(const service::Report& report);  // of that list: `2 not to be run, 7 overdue`
std::string soon_counts(const service::Report& report);  // beside it: `3 safety or statutory tasks due, or within ...`
// `By the plan before harvest 65.9 h of work fall before 2026-08-01; ...`: why the months say something else. Empty
// where there is no such plan.
std::string beside_months_words(const service::Report& report);

std::string not_to_run_names(
    const service::Report& report);  // `telehandler-yard (out of use), telehandler-store (hoses)`

// Of the part that comes first, as many as the page has lines: `2 not to be run, 7 overdue, 3 safety or statutory
// soon`.
std::string first_counts(const service::Report& report);
std::string due_counts(const service::Report& report);       // `9 overdue, 4 due, 12 coming, by 2026-07-15`
std::string season_counts(const service::Report& report);    // `harvest, 2026-08-01 to ...: 49 to do before it, ...`
std::string workload_counts(const service::Report& report);  // `159.7 h (152.0 to 166.9), 165 services, to 2027-06-15`
std::string parts_counts(const service::Report& report);     // `10 to order, 34 in stock, to 2026-09-15`
std::string machines_counts(const service::Report& report);  // `14, with 412 entries in their books`

}  // namespace cli
