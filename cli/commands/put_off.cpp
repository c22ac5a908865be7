// `put-off`: decided to wait, until a day or a meter value. It stays overdue, under its own heading.
#include <fmt/format.h>

#include <algorithm>

#include "commands/commands.h"
#include "commands/writing.h"
#include "service/telling.h"

namespace cli {
namespace {

// As it is written: a day, so much more use, or what the meter will show.
struct Until {
  std::optional<service::Day> day;
  std::string written;  // `+50h`, `2200h`
};

[[noreturn]] void usage(std::string code, std::string message, std::string hint) {
  throw service::Failure(service::FailureKind::usage, {std::move(code), std::move(message), std::move(hint)});
}

constexpr const char* forms =
    "write a day as 2026-08-01 or +14d, more use as +50h, or a meter value with its unit as 2200h";

// `+50`, or so much of what some meter counts: `+50h`, `2200 h`. All else is to be a day.
bool is_use(const std::string& written, const service::Fleet& fleet) {
  const std::size_t from = written.starts_with('+') ? 1 : 0;
  const std::size_t unit_at = std::min(written.find_first_not_of("0123456789.,", from), written.size());
  if (unit_at == from) return false;
  std::string unit = written.substr(unit_at);
  unit.erase(0, unit.find_first_not_of(' '));
  if (unit.empty()) return from == 1;
  return std::any_of(fleet.machines.begin(), fleet.machines.end(), [&](const service::Machine& machine) {
    return std::any_of(machine.meters.begin(), machine.meters.end(),
                       [&](const service::Meter& meter) { return meter.unit == unit; });
  });
}

// The day and the use, each at most once.
Until until_of(const Arguments& arguments, const service::Fleet& fleet, service::Day today) {
  Until until;
  for (const std::string& written : arguments.values("until")) {
    const bool use = is_use(written, fleet);
    if (use ? !until.written.empty() : until.day.has_value()) {
      usage("given-twice", fmt::format("`--until {}` is one too many", written),
            "give one day, one use, or one of each");
    }
    if (use) {
      until.written = written;
      continue;
    }
    const auto day = service::typed_until(written, today);
    if (!day) usage("bad-until", fmt::format("`--until {}` {}", written, day.problem), forms);
    until.day = *day;
  }
  if (!until.day && until.written.empty()) usage("missing-option", "`put-off` needs --until: until when", forms);
  return until;
}

// `+50h`, `+50` or `2200h`.
service::UseUntil use_of(const std::string& written) {
  const std::size_t from = written.starts_with('+') ? 1 : 0;
  const std::size_t unit_at = std::min(written.find_first_not_of("0123456789.,", from), written.size());
  const auto amount = service::typed_amount(std::string_view(written).substr(from, unit_at - from));
  if (!amount) usage("bad-until", fmt::format("`--until {}` {}", written, amount.problem), forms);
  std::string unit = written.substr(unit_at);
  unit.erase(0, unit.find_first_not_of(' '));
  return {from == 1, *amount, unit};
}

[[noreturn]] void no_end(const service::PutOffEnd& end, const std::string& written, const service::TaskTold& named,
                         const service::Machine& machine) {
  switch (end.problem) {
    case service::UseProblem::no_meter:
      usage("no-meter", fmt::format("{} of {} does not come due by use", named.task, machine.key), "give a day");
    case service::UseProblem::other_unit:
      usage("other-unit",
            fmt::format("`--until {}`: meter `{}` counts in {}", written, end.meter->name, end.meter->unit),
            fmt::format("say it in {}, or give a day", end.meter->unit));
    case service::UseProblem::nothing_known:
      usage("no-usage",
            fmt::format("nothing is known of meter `{}`, so `--until {}` has no end", end.meter->name, written),
            "read the meter first, or give a day");
    case service::UseProblem::already_shown:
      break;
  }
  usage("bad-until",
        fmt::format("meter `{}` shows {} {} already", end.meter->name, to_text(end.shown), end.meter->unit),
        "give a value that is still ahead");
}

}  // namespace

int put_off(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const auto& machine = the_machine(*session.fleet, arguments.words[0]);
  const Until until = until_of(arguments, *session.fleet, session.today);
  std::vector<service::TaskTold> tasks;
  for (std::size_t i = 1; i < arguments.words.size(); ++i) {
    tasks.push_back(service::task_told(*session.fleet, machine, arguments.words[i]));
  }
  service::Fact fact = fact_about(context, session, service::FactKind::put_off, machine);
  if (fact.by.empty()) fact.by = entered_by(context.world);  // a decision is somebody's
  fact.until = until.day;

  auto record = open_record(context, session.folder, service::Access::write);
  const auto propose = [&](const service::Extract& known) {
    const service::Snapshot now(session.fleet, known, session.today, session.day_is_given, only(machine));
    std::vector<service::Proposal> proposals;
    for (const service::TaskTold& named : tasks) {
      fact.task = named.task;
      fact.position = named.position;
      fact.at.reset();
      if (!until.written.empty()) {
        const service::UseUntil use = use_of(until.written);
        const auto end = put_off_end(now, machine, named.task, named.position, use);
        if (!end.usage) no_end(end, until.written, named, machine);
        fact.at = end.usage;
      }
      proposals.push_back({fact, false, std::nullopt});
    }
    return proposals;
  };
  Written written = write(context, session, record, request_of(context, session, only(machine), propose));
  if (!written.entered.added.empty()) {
    if (fact.note.empty()) written.next.emplace_back("No reason is kept; --note TEXT would keep one.");
    written.next.emplace_back("It stays what it is on the due list. Doing it ends the delay.");
  }
  tell(context, written);
  return 0;
}

}  // namespace cli
