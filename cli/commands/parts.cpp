// `parts`: what to have in stock, and by when to order it.
#include "render/parts/parts.h"

#include "asking.h"
#include "commands/commands.h"

namespace cli {

int parts(Context& context) {
  Asking asking(context);
  const service::Day to = outlook_option(context.arguments, "3m", asking.today());
  asking.write(parts_formats,
               parts_list(asking.snapshot(), to, asking.forecaster(), asking.progress("drawing the ways ahead")));
  return 0;
}

}  // namespace cli
