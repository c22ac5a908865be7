// `why`: the facts, the rule and the sums behind one standing.
#include "render/why/why.h"

#include <fmt/format.h>

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"
#include "service/telling.h"

namespace cli {
namespace {

// A check that follows another task is there only once that task was done.
[[noreturn]] void no_point(const service::Machine& machine, const service::TaskTold& named, service::Day as_of) {
  const bool check = named.task.find('/') != std::string::npos;
  wrong("no-point", fmt::format("{} of {} has no standing on {}", named.task, machine.key, service::to_text(as_of)),
        check ? fmt::format("it is owed once, after {} was done, and not where that was told of later",
                            named.task.substr(0, named.task.find('/')))
              : "the machine was not kept on that day, or the task has no positions on it");
}

[[noreturn]] void no_points(const service::Machine& machine, service::Day as_of) {
  wrong("no-point", fmt::format("{} has no service point on {}", machine.key, service::to_text(as_of)),
        "the machine was not kept on that day, or its schedule has no tasks");
}

}  // namespace

int why(Context& context) {
  const auto& words = context.arguments.words;
  Asking asking(context, words.size());
  const auto& machine = the_machine(asking.fleet(), words[0]);
  asking.narrow_to(machine);
  if (words.size() == 1) {
    const auto worst = explain_worst(asking.snapshot(), asking.forecaster());
    if (worst.points.empty()) no_points(machine, asking.today());
    asking.write(why_formats, worst);
    return 0;
  }
  const service::TaskTold named = service::task_told(asking.fleet(), machine, words[1]);
  const auto answer = explain(asking.snapshot(), named.task, named.position, asking.forecaster());
  if (answer.points.empty()) no_point(machine, named, asking.today());
  asking.write(why_formats, answer);
  return 0;
}

}  // namespace cli
