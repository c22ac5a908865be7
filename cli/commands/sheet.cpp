// `sheet`: the job sheet that is taken to the machine; with --readings, the meters to read on a walk round.
#include "render/sheet/sheet.h"

#include <fmt/format.h>

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"

namespace cli {

int sheet(Context& context) {
  const Arguments& arguments = context.arguments;
  Asking asking(context);
  if (arguments.has("readings")) {
    if (arguments.has("within")) {
      wrong("options-clash", "`--readings` and `--within` do not go together",
            "a list of meters has no horizon; leave one of them out");
    }
    const auto round = reading_round(asking.snapshot());
    asking.write(readings_formats, round);
    return arguments.has("exit-code") && needs_doing(*round.list) ? 1 : 0;
  }
  const service::Day within = horizon_option(arguments, "0d", asking.today());
  const bool named = !arguments.words.empty() || arguments.has("machine");
  asking.read_whole_fleet();                                                             // stock is the whole fleet's
  const service::Day parts_to = *service::parse_horizon(parts_horizon, asking.today());  // as `parts` has it
  const auto job = job_sheet(asking.snapshot(), {within, named, parts_to}, asking.forecaster());
  asking.write(sheet_formats, job);
  return arguments.has("exit-code") && needs_doing(*job.list) ? 1 : 0;
}

}  // namespace cli
