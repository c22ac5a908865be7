// `forecast`: use now and ahead, the next due days, and whether the forecast was right so far.
#include "render/forecast/forecast.h"

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"
#include "render/replay/replay.h"

namespace cli {
namespace {

// The same day of every month ahead, and the last day.
std::vector<service::Day> days_ahead(service::Day from, service::Day to) {
  std::vector<service::Day> days;
  for (int months = 1; service::add_months(from, months) <= to; ++months) {
    days.push_back(service::add_months(from, months));
  }
  if (days.empty() || days.back() < to) days.push_back(to);
  return days;
}

}  // namespace

int forecast(Context& context) {
  const Arguments& arguments = context.arguments;
  Asking asking(context);
  const service::Day to = outlook_option(arguments, "12m", asking.today());
  if (arguments.has("replay")) {
    if (arguments.has("within")) {
      wrong("options-clash", "`--replay` and `--within` do not go together",
            "the past is asked as far as the book answers; leave one out");
    }
    asking.write(replay_formats, ReplayAnswer{asking.replay(), asking.today()});
    return 0;
  }
  Forecast answer;
  answer.list = due_list(asking.snapshot(), {to, {}}, asking.forecaster());
  answer.to = to;
  answer.meters = meters_ahead(asking.snapshot(), days_ahead(asking.today(), to), asking.forecaster());
  answer.closely = !arguments.words.empty() || arguments.has("machine");
  asking.write(forecast_formats, answer);
  return 0;
}

}  // namespace cli
