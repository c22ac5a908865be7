// Which cautions a service carries.
#include "fleet/all_cautions.h"

#include <algorithm>
#include <string_view>

#include "service/cautions.h"

namespace service::fleet {
namespace {

// The task and all that it covers, directly or not. (With a list of its own: a chain of covers may be longer than the
// call stack is deep.)
std::vector<const Task*> with_what_it_covers(const Schedule& schedule, const Task& task) {
  std::vector<const Task*> tasks{&task};
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    for (const std::string& name : tasks[i]->covers) {
      const Task* const covered = schedule.task(name);
      if (covered != nullptr && std::ranges::find(tasks, covered) == tasks.end()) tasks.push_back(covered);
    }
  }
  return tasks;
}

}  // namespace

std::vector<std::string> cautions_carried(const Schedule& schedule, const Task& task) {
  const std::vector<const Task*> tasks = with_what_it_covers(schedule, task);
  std::vector<std::string> all;
  const auto add = [&](std::string_view one) {
    if (std::ranges::find(all, one) == all.end()) all.emplace_back(one);
  };
  for (const Caution& known : caution_catalogue()) {
    for (const Task* each : tasks) {
      if (std::ranges::find(each->cautions, known.name) != each->cautions.end()) add(known.name);
    }
  }
  for (const Task* each : tasks) {
    for (const std::string& own : each->cautions) add(own);
  }
  return all;
}

}  // namespace service::fleet
