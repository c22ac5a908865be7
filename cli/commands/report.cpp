// `report`: all of a fleet on one day, as a page for the owner and the contractor.
#include "render/report/report.h"

#include "asking.h"
#include "commands/commands.h"

namespace cli {
namespace {

// Markup helps nobody on a terminal, so there the digest is written.
std::string form_of(const Context& context) {
  const bool on_terminal = context.world.terminal && !context.arguments.has("output");
  return context.arguments.value("format").value_or(on_terminal ? "text" : "html");
}

}  // namespace

int report(Context& context) {
  const Arguments& arguments = context.arguments;
  Asking asking(context);
  service::ReportAsk ask;
  ask.due_within = horizon_option(arguments, due_horizon, asking.today());
  ask.parts_to = horizon_option(arguments, parts_horizon, asking.today());
  ask.ahead_to = horizon_option(arguments, outlook_horizon, asking.today());
  if (const auto season = arguments.value("season")) ask.season = &the_season(asking.fleet(), *season);
  const auto& facts = asking.read_whole_book();
  const auto told =
      service::report(asking.snapshot(), facts, ask, asking.forecaster(), asking.progress("drawing the ways ahead"));
  context.out = written_as(form_of(context), report_formats, told, context.look);
  return arguments.has("exit-code") && needs_doing(told.due) ? 1 : 0;
}

}  // namespace cli
