// `why`: the facts, the rule and the sums behind one standing.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/explaining.h"
#include "render/json.h"
#include "render/why_text.h"
#include "render/words.h"
#include "session.h"

namespace cli {
namespace {

// A check that follows another task is there only once that task was done.
[[noreturn]] void no_point(const service::Machine& machine, const TaskName& named, service::Day as_of) {
  const bool check = named.task.find('/') != std::string::npos;
  throw service::Failure(
      service::Trouble::usage,
      {"no-point", fmt::format("{} of {} has no standing on {}", named.task, machine.key, to_text(as_of)),
       check ? fmt::format("it is owed once, after {} was done", named.task.substr(0, named.task.find('/')))
             : "the machine was not kept on that day, or the task has no positions on it"});
}

}  // namespace

int why(Context& context) {
  const Session session = open_fleet(context);
  const auto& machine = machine_named(*session.fleet, context.arguments.words[0]);
  const TaskName named = task_named(*session.fleet, machine, context.arguments.words[1]);
  const auto record = open_record(session.folder, service::Access::read);
  const auto snapshot = snapshot_of(session, record, only(machine));
  const auto forecaster = service::learnt_from(snapshot);
  const auto list = due_list(snapshot, {session.today + std::chrono::days{30}, {}}, forecaster);
  std::vector<Explained> explained;
  for (const service::Point& point : list.points) {
    if (point.name != named.task) continue;
    if (!named.position.empty() && point.position != named.position) continue;
    explained.push_back(explain(snapshot, list, point, forecaster));
  }
  if (explained.empty()) no_point(machine, named, session.today);
  const bool json = context.arguments.value("format").value_or("text") == "json";
  context.out = json ? why_as_json(list, explained) : why_as_text(list, explained);
  return 0;
}

}  // namespace cli
