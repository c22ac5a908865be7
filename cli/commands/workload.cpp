// `workload`: what the months ahead will take.
#include "render/workload/workload.h"

#include <fmt/format.h>

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"

namespace cli {
namespace {

service::Step step_of(const Arguments& arguments) {
  const std::string by = arguments.value("by").value_or("month");
  if (by == "week") return service::Step::week;
  if (by == "month") return service::Step::month;
  wrong("bad-choice", fmt::format("`--by {}` is not understood", by), "write week or month");
}

}  // namespace

int workload(Context& context) {
  Asking asking(context);
  const service::Day to = outlook_option(context.arguments, outlook_horizon, asking.today());
  const service::Step step = step_of(context.arguments);
  const auto first = first_option(context.arguments);
  auto load =
      service::workload(asking.snapshot(), to, step, asking.forecaster(), asking.progress("drawing the ways ahead"));
  if (first) keep_first(load, *first);
  asking.write(workload_formats, load, load.rows_left_off);
  return 0;
}

}  // namespace cli
