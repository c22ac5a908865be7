// `parts`: what to have in stock, and by when to order it.
#include "render/parts/parts.h"

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"
#include "service/season.h"

namespace cli {
namespace {

void tell(Asking& asking, service::PartsList list, std::optional<std::size_t> first) {
  if (first) keep_first(list, *first);
  asking.write(parts_formats, list, list.left_off);
}

}  // namespace

int parts(Context& context) {
  const Arguments& arguments = context.arguments;
  Asking asking(context);
  const auto first = first_option(arguments);
  asking.read_whole_fleet();  // stock is the whole fleet's
  if (const auto before = arguments.value("before")) {
    if (arguments.has("within")) {
      wrong("options-clash", "`--before` and `--within` do not go together",
            "a season's work ends where the season begins; leave one of them out");
    }
    const service::Season& season = the_season(asking.fleet(), *before);
    tell(asking, parts_before(asking.snapshot(), {&season}, asking.forecaster()), first);
    return 0;
  }
  const service::Day to = outlook_option(arguments, parts_horizon, asking.today());
  tell(asking, parts_list(asking.snapshot(), to, asking.forecaster(), asking.progress("drawing the ways ahead")),
       first);
  return 0;
}

}  // namespace cli
