#include "event_numbers.h"

#include <fmt/format.h>

#include <string>

#include "output.h"

namespace cli {
namespace {

constexpr const char* what_holds =
    "the calendar is whole; an event that moves once more today may be taken for the old one, and tomorrow all are "
    "newer";

void remark(Context& context, const std::string& message) {
  context.also.push_back({"events-not-remembered", message, what_holds, {}, service::Severity::remark});
}

service::EventNumbers numbers_before(Context& context, const std::filesystem::path& file) {
  std::string text;
  try {
    text = read_file(file);
  } catch (const service::Failure& failure) {
    if (failure.kind() != service::FailureKind::not_found) remark(context, failure.diagnostics().front().message);
    return {};
  }
  auto numbers = service::parse_event_numbers(text);
  if (!numbers) remark(context, fmt::format("{} {}", file.string(), numbers.problem));
  return numbers.value.value_or(service::EventNumbers{});
}

}  // namespace

void number_as_remembered(service::Calendar& calendar, Context& context, const std::filesystem::path& folder) {
  number_events(calendar, numbers_before(context, folder / service::event_numbers_file));
}

void number_and_remember(service::Calendar& calendar, Context& context, const std::filesystem::path& folder) {
  const std::filesystem::path file = folder / service::event_numbers_file;
  const service::EventNumbers before = numbers_before(context, file);
  const service::EventNumbers numbers = number_events(calendar, before);
  if (numbers == before) return;
  constexpr unsigned for_its_owner_alone = 0600;
  try {
    service::write_file(file, to_text(numbers), for_its_owner_alone, service::IfThere::replace, what_holds);
  } catch (const service::Failure& failure) {
    remark(context, failure.diagnostics().front().message);
  }
}

}  // namespace cli
