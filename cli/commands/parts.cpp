// `parts`: what to have in stock, and by when to order it.
#include "render/parts/parts.h"

#include "asking.h"
#include "commands/commands.h"

namespace cli {

int parts(Context& context) {
  Asking asking(context);
  const service::Day to = outlook_option(context.arguments, "3m", asking.today());
  PartsAnswer answer;
  answer.list = parts_list(asking.snapshot(), to, asking.forecaster(), asking.progress("drawing the ways ahead"));
  answer.not_in_use = asking.states_of(answer.list.standing);
  answer.some_machines = asking.scope().machines.has_value();
  asking.write(parts_formats, answer);
  return 0;
}

}  // namespace cli
