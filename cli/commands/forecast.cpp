// `forecast`: use now and ahead, the next due days, and whether the forecast was right so far.
#include "render/forecast/forecast.h"

#include <fmt/format.h>

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"
#include "render/replay/replay.h"

namespace cli {

int forecast(Context& context) {
  const Arguments& arguments = context.arguments;
  Asking asking(context);
  const service::Day to = outlook_option(arguments, outlook_horizon, asking.today());
  if (arguments.has("replay")) {
    for (const char* option : {"within", "first"}) {
      if (!arguments.has(option)) continue;
      wrong("options-clash", fmt::format("`--replay` and `--{}` do not go together", option),
            "the past is asked as far as the book answers, of all machines; leave one out");
    }
    asking.write(replay_formats, ReplayAnswer{asking.replay(), asking.today()});
    return 0;
  }
  ForecastAnswer answer;
  answer.forecast = service::forecast(asking.snapshot(), to, asking.forecaster());
  answer.closely = !arguments.words.empty() || arguments.has("machine");
  if (const auto first = first_option(arguments)) keep_first(answer.forecast, *first);
  const service::Forecast& told = answer.forecast;
  asking.write(forecast_formats, answer, told.meters_left_off + told.days_left_off + told.points_left_off);
  return 0;
}

}  // namespace cli
