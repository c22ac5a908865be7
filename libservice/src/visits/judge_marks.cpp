// Marks of a plan by which people keep away from a machine. Only what they deny is judged: who is kept away for nothing
// comes to no harm.
#include <fmt/format.h>

#include <algorithm>

#include "service/rounds_list.h"
#include "visits/judge_parts.h"

namespace service::visits {
namespace {

bool denies(const std::optional<bool>& said, bool is) { return said == false && is; }

void judge(const GivenMarks& said, const GivenMarks& is, const std::string& where, Faults& faults) {
  const auto fault = [&](const char* says) { faults.add(PlanRule::safety, where, says); };
  if (denies(said.safety, *is.safety)) fault("says it is not for safety; it is");
  if (denies(said.do_not_run, *is.do_not_run)) {
    fault("says that its machine may be run; nobody may run it before it is mended or back in use");
  }
  if (denies(said.keep_out_of_use, *is.keep_out_of_use)) {
    fault("says that it need not be kept out of use; it has to be until that is done");
  }
}

}  // namespace

void judge_marks(const Week& week, JudgedRound& round, std::size_t stop, Faults& faults) {
  const Visit& visit = week.visits[*round.way.stops[stop].visit];
  const GivenStop& given = round.given->stops[stop];
  const std::string where = round.where_of(stop);
  const Day on = round.given->on;
  const bool not_run = forbids_running(*week.list, visit);
  const bool keep_out = !keep_out_of_use(visit, on).empty() || keep_out_until_made(visit);
  judge(given.marks, {visit.safety, not_run, keep_out}, where, faults);
  if (!given.tasks) return;
  for (const GivenTask& task : *given.tasks) {
    const auto is_it = [&](const Point* one) { return one->name == task.task && one->position == task.position; };
    const auto point = std::find_if(visit.points.begin(), visit.points.end(), is_it);
    if (point == visit.points.end()) continue;  // said already
    judge(task.marks, {is_safety(**point), not_run, keep_out_of_use(**point, on)},
          fmt::format("{} {}", where, cleaned(point_label(task.task, task.position))), faults);
  }
}

void judge_marks(const Week& week, const GivenPutOff& given, std::size_t visit, const std::string& where,
                 Faults& faults) {
  const Visit& of = week.visits[visit];
  judge(given.marks, {of.safety, forbids_running(*week.list, of), keep_out_of_use(of)}, where, faults);
}

}  // namespace service::visits
