// `visits`: on which days of the weeks ahead to go to each site.
#include "render/visits/visits.h"

#include "asking.h"
#include "commands/commands.h"

namespace cli {

int visits(Context& context) {
  const Arguments& arguments = context.arguments;
  Asking asking(context);
  const service::Scope scope = asking.scope();
  asking.widen();  // a trip is to a site, with all its work; the scope chooses what is told
  const auto first = first_option(arguments);
  service::VisitsAsk ask{outlook_option(arguments, visits_horizon, asking.today())};
  for (const std::string& crew : arguments.values("without")) ask.without.push_back(crew_told(asking.fleet(), crew));
  auto list = visits_list(asking.snapshot(), asking.forecaster(), ask, scope);
  hold_against_stock(list, parts_list(asking.snapshot(), list.plan.to, asking.forecaster()));
  const bool to_do = needs_doing(list);
  if (first) keep_first(list, *first);
  asking.write(visits_formats, list, list.left_off);
  return arguments.has("exit-code") && to_do ? 1 : 0;
}

}  // namespace cli
