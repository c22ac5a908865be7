// `forecast`: use now and ahead, the next due days, and whether the forecast was right so far.
#include "render/forecast/forecast.h"

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"
#include "render/replay/replay.h"

namespace cli {

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
  ForecastAnswer answer;
  answer.forecast = service::forecast(asking.snapshot(), to, asking.forecaster());
  answer.closely = !arguments.words.empty() || arguments.has("machine");
  asking.write(forecast_formats, answer);
  return 0;
}

}  // namespace cli
