// `due`: what is due, what comes next, and what is not known.
#include <fmt/format.h>

#include "commands/commands.h"
#include "render/csv.h"
#include "render/due_text.h"
#include "render/json.h"
#include "render/markdown.h"
#include "session.h"
#include "terminal/look.h"

namespace cli {
namespace {

std::optional<std::size_t> first_of(const Arguments& arguments) {
  const auto written = arguments.value("first");
  if (!written) return std::nullopt;
  const auto count = service::parse_count(*written);
  if (!count || *count == 0) {
    throw service::Failure(
        service::Trouble::usage,
        {"bad-number", fmt::format("`--first {}` {}", *written, count ? "shows nothing" : count.problem),
         "write how many points to show, such as 10"});
  }
  return static_cast<std::size_t>(*count);
}

std::string text_of(const Context& context, const service::DueList& list, const DueView& view) {
  const std::string format = context.arguments.value("format").value_or("text");
  const bool overdue = context.arguments.has("overdue");
  if (format == "json") return overdue ? overdue_as_json(list) : due_as_json(list, view.first);
  const Look look = look_of(context.world, context.arguments);
  if (overdue) return overdue_as_text(list, look);
  if (format == "csv") return due_as_csv(list, view.first);
  if (format == "md") return due_as_markdown(list, view);
  return due_as_text(list, view, look);
}

// The overdue list is one answer; options that would cut or widen it would make its silence mean something else.
void check_overdue(const Arguments& arguments) {
  if (!arguments.has("overdue")) return;
  for (const char* option : {"within", "all", "first"}) {
    if (!arguments.has(option)) continue;
    throw service::Failure(
        service::Trouble::usage,
        {"options-clash", fmt::format("`--overdue` and `--{}` do not go together", option), "leave one of them out"});
  }
  const std::string format = arguments.value("format").value_or("text");
  if (format != "text" && format != "json") {
    throw service::Failure(service::Trouble::usage,
                           {"options-clash", fmt::format("the overdue list is not written as {}", format),
                            "it is written as text or json"});
  }
}

}  // namespace

int due(Context& context) {
  check_overdue(context.arguments);
  const Session session = open_fleet(context);
  const auto horizon = horizon_option(context.arguments, "30d", session.today);
  DueView view;
  view.all = context.arguments.has("all");
  view.first = first_of(context.arguments);
  const auto scope = scope_of(context.arguments, *session.fleet);
  const auto record = open_record(session.folder, service::Access::read);
  const auto snapshot = snapshot_of(session, record, scope);
  view.newest_fact = snapshot.newest_fact();
  const std::string format = context.arguments.value("format").value_or("text");
  const bool all = view.all || format == "json" || format == "csv";
  const auto detail = context.arguments.has("overdue") ? service::Detail::standings
                      : all                            ? service::Detail::everything
                                                       : service::Detail::coming;
  const auto list = due_list(snapshot, {horizon, {}, detail});
  context.out = text_of(context, list, view);
  return context.arguments.has("exit-code") && needs_doing(list) ? 1 : 0;
}

}  // namespace cli
