// `forecast`: use now and ahead, the next due days, and whether the forecast was right so far.
#include <fmt/format.h>

#include <algorithm>

#include "commands/commands.h"
#include "commands/progress.h"
#include "render/ahead_csv.h"
#include "render/ahead_json.h"
#include "render/forecast_text.h"
#include "session.h"
#include "terminal/look.h"

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

int replay_past(Context& context, const Session& session, const service::Record& record, const service::Scope& scope) {
  const auto facts = record.facts(service::kin_of(*session.fleet, scope));
  const auto past = service::replay(session.fleet, facts, session.today, scope, progress(context, "asking the past"));
  const std::string format = context.arguments.value("format").value_or("text");
  if (format == "json") {
    context.out = replay_as_json(past, session.today);
  } else if (format == "csv") {
    context.out = replay_as_csv(past);
  } else {
    context.out = replay_as_text(past, session.today, look_of(context.world, context.arguments));
  }
  return 0;
}

}  // namespace

int forecast(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const service::Day to = outlook_option(arguments, "12m", session.today);
  const service::Scope scope = scope_of_words(arguments, *session.fleet);
  if (arguments.has("replay") && arguments.has("within")) {
    throw service::Failure(service::Trouble::usage, {"options-clash", "`--replay` and `--within` do not go together",
                                                     "the past is asked as far as the book answers; leave one out"});
  }
  const auto record = open_record(session.folder, service::Access::read);
  if (arguments.has("replay")) return replay_past(context, session, record, scope);
  const auto snapshot = snapshot_of(session, record, scope);
  const auto forecaster = service::learnt_from(snapshot);
  Forecast answer;
  answer.list = due_list(snapshot, {to, {}}, forecaster);
  answer.to = to;
  answer.meters = meters_ahead(snapshot, days_ahead(session.today, to), forecaster);
  answer.closely = !arguments.words.empty();
  const std::string format = arguments.value("format").value_or("text");
  if (format == "json") {
    context.out = forecast_as_json(answer);
  } else if (format == "csv") {
    context.out = forecast_as_csv(answer);
  } else {
    context.out = forecast_as_text(answer, look_of(context.world, arguments));
  }
  return 0;
}

}  // namespace cli
