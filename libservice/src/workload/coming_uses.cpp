#include "workload/coming_uses.h"

#include <algorithm>
#include <map>

#include "service/minding.h"
#include "service/run_ban.h"
#include "workload/path_sums.h"

namespace service::load {
namespace {

// Over all sample paths, those in which it does not come at all at the end.
std::optional<Day> day_at(const std::vector<Day>& sorted, std::size_t percent) {
  const std::size_t rank = (sample_paths * percent + 99) / 100 - 1;
  return rank < sorted.size() ? std::optional{sorted[rank]} : std::nullopt;
}

const Point* today_of(const Outlook& outlook, const OutlookPoint& point) {
  const auto& today = outlook.today();
  const auto found = std::find_if(today.begin(), today.end(), [&](const Point& each) {
    return each.name == point.name && each.position == point.position;
  });
  return found == today.end() ? nullptr : &*found;
}

std::optional<Day> not_before(std::optional<Day> day, Day earliest) {
  return day ? std::optional{std::max(*day, earliest)} : day;
}

// By point, those whose service includes a service of it.
std::vector<std::vector<std::size_t>> including(const Schedule& schedule, const std::vector<OutlookPoint>& points) {
  std::vector<std::vector<std::size_t>> all(points.size());
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (points[i].follow_up != nullptr) continue;
    const auto names = counted_as(schedule, points[i].name);
    for (std::size_t k = 0; k < points.size(); ++k) {
      const bool elsewhere =
          !points[i].position.empty() && !points[k].position.empty() && points[i].position != points[k].position;
      if (points[k].name == points[i].name || elsewhere) continue;
      if (std::find(names.begin(), names.end(), points[k].name) != names.end()) all[i].push_back(k);
    }
  }
  return all;
}

bool may_run(const Snapshot& snapshot, const Machine& machine, const Outlook& outlook) {
  const auto forbids = [](const auto& each) { return forbids_running(each); };
  return use_state(snapshot, machine).kind != UseKind::out_of_use &&
         std::none_of(outlook.today().begin(), outlook.today().end(), forbids) &&
         std::none_of(outlook.seen().begin(), outlook.seen().end(), forbids);
}

// The days of one round of a point, over the paths on which it comes.
struct RoundDays {
  std::vector<Day> days;
  std::size_t included = 0;  // on so many of them another one had included it before
};

std::map<std::pair<std::size_t, int>, RoundDays> by_round(const Schedule& schedule, const Outlook& outlook,
                                                          const Drawn& drawn) {
  const auto includes = including(schedule, outlook.points());
  std::map<std::pair<std::size_t, int>, RoundDays> all;  // point and round
  for (const auto& services : drawn) {
    std::vector<bool> served(outlook.points().size(), false);
    for (const ComingService& service : services) {
      const auto& others = includes[service.point];
      RoundDays& round = all[{service.point, service.round}];
      round.days.push_back(service.day);
      round.included += std::any_of(others.begin(), others.end(), [&](std::size_t k) { return served[k]; }) ? 1U : 0U;
      served[service.point] = true;
    }
  }
  for (auto& [which, round] : all) std::sort(round.days.begin(), round.days.end());
  return all;
}

// All services of a machine that may come due by a day, each with its span.
// `from`: as-of, or the day on which a machine that is laid up is back; what is due already is done then.
void add_services(const Snapshot& snapshot, const Machine& machine, const Outlook& outlook, const Drawn& drawn,
                  Day from, Day to, std::vector<Use>& uses) {
  const Fleet& fleet = snapshot.fleet();
  const bool runs = may_run(snapshot, machine, outlook);
  for (const auto& [which, round] : by_round(fleet.schedule_of(machine), outlook, drawn)) {
    const OutlookPoint& point = outlook.points()[which.first];
    PartUse use;
    use.machine = &machine;
    use.task = point.name;
    use.position = point.position;
    use.round = which.second;
    use.done = {day_at(round.days, 10), day_at(round.days, 50), day_at(round.days, 90)};
    // The next service of a point has the span that the due list says, and is done then unless it is put off, or
    // another one is likely to include it.
    const Point* now = today_of(outlook, point);
    use.doubtful = now != nullptr && now->doubtful;
    const Point* today = which.second == 1 ? now : nullptr;
    const bool has_span = today != nullptr && today->due_span.p50;
    use.due = has_span ? today->due_span : use.done;
    const bool included = 2 * round.included > round.days.size();
    // What was found worn or failed is mended on the first day, whenever it comes due.
    const bool mended = today != nullptr && !to_mend(outlook.seen(), *today).empty();
    if (has_span && use.done.p50 && !included && !today->put_off && !mended) {
      use.done = {not_before(use.due.p10, from), not_before(use.due.p50, from), not_before(use.due.p90, from)};
    }
    if (!use.done.p10 || *use.done.p10 > to) continue;
    use.likely = use.done.p50 && *use.done.p50 <= to;
    const UseRank rank = today != nullptr ? rank_of(*today, runs, mended) : UseRank{!runs};
    add_uses(uses, resources_of(machine, *point.task, point.follow_up), use, rank);
  }
}

}  // namespace

std::vector<Use> coming_uses(const Snapshot& snapshot, Day to, const Forecaster& forecaster, const Progress& progress,
                             const Unsaid& unsaid) {
  std::vector<Use> uses;
  const auto add = [&](const Machine& machine, const Outlook& outlook, const Drawn& drawn) {
    const Day back = use_state(snapshot, machine).until.value_or(snapshot.as_of());
    add_services(snapshot, machine, outlook, drawn, std::max(back, snapshot.as_of()), to, uses);
  };
  each_outlook(snapshot, to, Detail::everything, forecaster, progress, unsaid, add);
  return uses;
}

}  // namespace service::load
