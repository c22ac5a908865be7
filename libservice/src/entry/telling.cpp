#include "service/telling.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "entry/task_positions.h"
#include "service/entry.h"
#include "service/near_safety.h"
#include "service/typed.h"

namespace service {
namespace {

[[noreturn]] void wrong(std::string code, std::string message, std::string hint) {
  throw Failure(FailureKind::usage, {std::move(code), std::move(message), std::move(hint)});
}

std::vector<std::string> task_names(const Schedule& schedule) {
  std::vector<std::string> names;
  for (const Task& task : schedule.tasks) {
    names.push_back(task.name);
    for (const FollowUp& check : task.follow_ups) names.push_back(task.name + '/' + check.name);
  }
  return names;
}

std::string_view trimmed(std::string_view text) {
  const auto from = text.find_first_not_of(' ');
  return from == std::string_view::npos ? "" : text.substr(from, text.find_last_not_of(' ') - from + 1);
}

// What stands before the @ and behind it.
std::pair<std::string, std::optional<std::string>> parted_at(std::string_view written) {
  const auto at = written.find('@');
  if (at == std::string_view::npos) return {std::string(written), std::nullopt};
  return {std::string(written.substr(0, at)), std::string(written.substr(at + 1))};
}

}  // namespace

const Machine& machine_told(const Fleet& fleet, const std::string& written) {
  const auto named = machine_named(fleet, written);
  if (named.one != nullptr) return *named.one;
  if (!named.several.empty()) {
    std::vector<std::string> keys;
    for (const Machine* machine : named.several) keys.push_back(machine->key);
    const std::string last = keys.back();
    keys.pop_back();
    wrong("several-names", fmt::format("`{}` may mean {} machines", written, named.several.size()),
          fmt::format("write which: {} or {}", fmt::join(keys, ", "), last));
  }
  Diagnostic unknown{"unknown-machine", fmt::format("there is no machine `{}` in this fleet", written), ""};
  if (const auto* season = season_named(fleet, written).one) {
    unknown.hint = fmt::format("`{}` is a season", written);
    unknown.cures = {{CureKind::ask_season, {{"season", season->key}}}};
  } else if (!named.near.empty()) {
    unknown.hint = did_you_mean(named.near);
  } else {
    std::vector<std::string> keys;
    for (const Machine& machine : fleet.machines) keys.push_back(machine.key);
    unknown.hint = names_instead("", keys, "the fleet lists no machines");
  }
  throw Failure(FailureKind::usage, std::move(unknown));
}

TaskTold task_told(const Fleet& fleet, const Machine& machine, const std::string& written) {
  const auto [name, position] = parted_at(written);
  const auto names = task_names(fleet.schedule_of(machine));
  const auto meant = name_written(name, names);
  if (!meant) {
    wrong("unknown-task", fmt::format("{} has no task `{}`", machine.key, name),
          names_instead(name, names, "its schedule has no tasks"));
  }
  TaskTold told{*meant, ""};
  if (!position) return told;
  const auto positions = entry::positions_of(fleet, machine, told.task);
  const auto where = name_written(*position, positions);
  if (!where) {
    wrong("unknown-position", fmt::format("{} of {} has no position `{}`", told.task, machine.key, *position),
          names_instead(*position, positions, "this task has no positions; leave out what follows the @"));
  }
  told.position = *where;
  return told;
}

std::optional<TaskTold> task_if_told(const Fleet& fleet, const Machine& machine, std::string_view written) {
  const auto [name, position] = parted_at(written);
  const auto meant = name_written(trimmed(name), task_names(fleet.schedule_of(machine)));
  if (!meant) return std::nullopt;
  if (!position) return TaskTold{*meant, ""};
  const auto where = name_written(trimmed(*position), entry::positions_of(fleet, machine, *meant));
  if (!where) return std::nullopt;
  return TaskTold{*meant, *where};
}

std::string meter_told(const Machine& machine, const std::string& written) {
  std::vector<std::string> names;
  for (const Meter& meter : machine.meters) names.push_back(meter.name);
  if (const auto name = name_written(written, names)) return *name;
  wrong("unknown-meter", fmt::format("{} has no meter `{}`", machine.key, written),
        names_instead(written, names, "it has no meters"));
}

Amount amount_told(const std::string& written, const std::string& what) {
  const auto amount = typed_amount(written);
  if (!amount) {
    wrong("bad-number", fmt::format("{} `{}` {}", what, written, amount.problem), std::string(forms_of_numbers));
  }
  return *amount;
}

std::string sign_told(std::span<const std::string> words) {
  std::string sign;
  for (const std::string& word : words) sign += (sign.empty() || word.empty() ? "" : " ") + word;
  if (sign.find_first_not_of(' ') == std::string::npos) {
    wrong("empty-sign", "no sign is named: its name is empty", "say in a few words what was seen");
  }
  return sign;
}

Fact measurement_told(std::string_view written) {
  const auto equals = written.find('=');
  Fact fact;
  fact.kind = FactKind::measurement;
  fact.name = trimmed(written.substr(0, equals));
  if (fact.name.empty()) {
    wrong("empty-name", fmt::format("`{}` does not say what was measured", written),
          "write it as NAME=VALUE, such as restriction=4.5");
  }
  const auto value = typed_measure(trimmed(written.substr(equals + 1)));
  if (!value) {
    wrong("bad-number", fmt::format("the value in `{}` {}", written, value.problem),
          "write it as NAME=VALUE, such as restriction=4.5");
  }
  fact.value = *value;
  return fact;
}

bool all_told(std::string_view written, std::size_t positions) {
  const std::string folded = folded_name(written);
  return folded == "all" || folded == "all positions" || (folded == "both" && positions == 2);
}

std::optional<SignTold> seen_sign_told(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts,
                                       std::string_view written) {
  std::vector<SignTold> known;
  for (const ListedSign& sign : listed_signs(fleet, machine)) known.push_back({sign.name, sign.safety});
  const KeptAsSeen kept_as_seen(fleet, machine);
  for (const Fact& fact : facts) {
    if (auto kept = kept_as_seen.of(fact)) known.push_back({std::move(kept->name), kept->safety});
  }
  std::vector<std::string> names;
  for (const SignTold& sign : known) names.push_back(sign.name);
  const auto name = name_written(written, names);
  if (!name) return std::nullopt;
  const bool safety =
      may_be_of_safety(fleet, machine, *name) ||
      std::any_of(known.begin(), known.end(), [&](const SignTold& sign) { return sign.name == *name && sign.safety; });
  return SignTold{*name, safety};
}

std::vector<Fact> with_checks(const Fleet& fleet, const Machine& machine, std::vector<Fact> services) {
  std::vector<Fact> checks = checks_after(fleet, machine, services);
  std::erase_if(checks, [&](const Fact& check) {
    return std::any_of(services.begin(), services.end(), [&](const Fact& service) {
      return service.task == check.task && service.position == check.position;
    });
  });
  services.insert(services.end(), std::make_move_iterator(checks.begin()), std::make_move_iterator(checks.end()));
  return services;
}

}  // namespace service
