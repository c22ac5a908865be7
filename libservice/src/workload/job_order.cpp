#include "workload/job_order.h"

#include <algorithm>
#include <tuple>

#include "workload/job_tasks.h"
#include "workload/run_rules.h"

namespace service::load {

void in_order(MachineSheet& page) {
  // The work of the day before that of later ones. Then what is unsafe, for it may be why the machine should not run;
  // then by what the work does to the machine. Of what needs it running, what has hot surfaces to reach comes before
  // others have warmed them.
  std::stable_sort(page.tasks.begin(), page.tasks.end(), [](const SheetTask& a, const SheetTask& b) {
    const auto rank = [](const SheetTask& entry) {
      const bool wants_cool = entry.stage == JobStage::running && holds(entry.task->cautions, "hot-surface");
      return std::tuple{entry.is_later(),      end_of(entry), entry.examines(),          !entry.unsafe,
                        entry.stage,           !wants_cool,   !is_overdue_safety(entry), !entry.safety,
                        entry.included.empty()};
    };
    return rank(a) < rank(b);
  });
  for (std::size_t i = 1; i < page.tasks.size(); ++i) {
    SheetTask& entry = page.tasks[i];
    entry.cold_again = entry.stage == JobStage::cold || entry.stage == JobStage::from_cold;
  }
}

}  // namespace service::load
