// `parts`: what to have in stock, and by when to order it.
#include "render/parts/parts.h"

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"
#include "service/season.h"

namespace cli {

int parts(Context& context) {
  const Arguments& arguments = context.arguments;
  Asking asking(context);
  asking.read_whole_fleet();  // stock is the whole fleet's
  if (const auto before = arguments.value("before")) {
    if (arguments.has("within")) {
      wrong("options-clash", "`--before` and `--within` do not go together",
            "a season's work ends where the season begins; leave one of them out");
    }
    const service::Season& season = season_named(asking.fleet(), *before);
    asking.write(parts_formats, parts_before(asking.snapshot(), {&season}, asking.forecaster()));
    return 0;
  }
  const service::Day to = outlook_option(arguments, "3m", asking.today());
  asking.write(parts_formats,
               parts_list(asking.snapshot(), to, asking.forecaster(), asking.progress("drawing the ways ahead")));
  return 0;
}

}  // namespace cli
