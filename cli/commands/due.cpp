// `due`: what is due, what comes next, and what is not known.
#include "render/due/due.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <utility>

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"
#include "output.h"
#include "render/overdue/overdue.h"

namespace cli {
namespace {

// The overdue list is one answer; options that would cut or widen it would make its silence mean something else.
void check_overdue(const Arguments& arguments) {
  if (!arguments.has("overdue")) return;
  for (const char* option : {"within", "all", "first"}) {
    if (!arguments.has(option)) continue;
    wrong("options-clash", fmt::format("`--overdue` and `--{}` do not go together", option),
          "the overdue list is whole or it is nothing, for its silence means that all is well; leave one of them out");
  }
  const auto names = names_of(overdue_formats);
  const std::string format = arguments.value("format").value_or("text");
  if (std::find(names.begin(), names.end(), format) == names.end()) {
    wrong("options-clash", fmt::format("the overdue list is not written as {}", format),
          fmt::format("it is written as {}", fmt::join(names, " or ")));
  }
}

// Days ahead are reckoned for what is shown.
service::Detail detail_of(const Arguments& arguments) {
  const std::string format = arguments.value("format").value_or("text");
  if (arguments.has("overdue")) return service::Detail::standings;
  const bool all = arguments.has("all") || format == "json" || format == "csv" || format == "ics";
  return all ? service::Detail::everything : service::Detail::coming;
}

// People are shown no more than that. A calendar counts what it does not show.
service::Keep keep_of(const Arguments& arguments) {
  const std::string format = arguments.value("format").value_or("text");
  if (format == "ics") return service::Keep::all;
  if (arguments.has("overdue")) return service::Keep::overdue;
  return arguments.has("all") ? service::Keep::all : service::Keep::not_later;
}

int status_of(const Arguments& arguments, const service::DueList& list) {
  return arguments.has("exit-code") && needs_doing(list) ? 1 : 0;
}

// The list itself holds no more than what is told around its points.
int long_due(Context& context, Asking& asking, const LongFormat& format, service::DueAsk ask) {
  const auto first = first_option(context.arguments);
  const auto points = std::make_shared<PointTexts>(format.write, first, temporary_folder(context.world));
  ask.keep = service::Keep::forbidding;
  ask.each = [&](const service::DueList& of_machine) { points->add(of_machine); };
  DueAnswer rest;
  rest.list = asking.due_list(ask);
  points->put_in_order();
  if (format.name == "csv" && points->left_off() > 0) tell_left_off(context, points->left_off());
  const int status = status_of(context.arguments, rest.list);
  context.pieces = [rest = std::move(rest), points, put = format.put](const Put& to) { put(rest, *points, to); };
  return status;
}

}  // namespace

int due(Context& context) {
  const Arguments& arguments = context.arguments;
  check_overdue(arguments);
  Asking asking(context);
  const auto horizon = horizon_option(arguments, due_horizon, asking.today());
  DueAnswer answer;
  answer.all = arguments.has("all");
  answer.first = first_option(arguments);
  service::DueAsk ask{horizon, {}, detail_of(arguments)};
  const LongFormat* const long_format =
      arguments.has("overdue") ? nullptr : long_due_format(arguments.value("format").value_or(""));
  if (long_format != nullptr) return long_due(context, asking, *long_format, std::move(ask));
  ask.keep = keep_of(arguments);
  answer.list = asking.due_list(ask);
  answer.newest_fact = answer.list.newest_fact;
  const int status = status_of(arguments, answer.list);
  const bool as_calendar = arguments.value("format") == "ics";
  if (arguments.has("overdue")) {
    OverdueAnswer overdue{std::move(answer.list)};
    if (as_calendar) overdue.calendar = asking.numbered(overdue_calendar(overdue.list, asking.version()));
    asking.write(overdue_formats, overdue);
    return status;
  }
  if (as_calendar) {
    answer.calendar = asking.numbered(due_calendar(answer.list, answer.in_calendar(), asking.version()));
  }
  asking.write(due_formats, answer, answer.every().left_off);
  return status;
}

}  // namespace cli
