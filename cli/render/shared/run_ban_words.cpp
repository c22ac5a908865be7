#include "render/shared/run_ban_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/shared/words.h"

namespace cli {

using service::RunBan;

std::string to_mend_words(const RunBan& ban) {
  std::vector<std::string> parts;
  for (const service::Point* point : ban.points) {
    std::vector<std::string> reasons{service::cleaned(task_of(*point))};
    for (const service::LimbStanding* limb : service::forbidding_limbs(*point)) {
      reasons.push_back(words_of(*limb, *point));
    }
    parts.push_back(fmt::format("{}", fmt::join(reasons, ", ")));
  }
  for (const service::SeenSign* seen : ban.seen) parts.push_back(seen_words(*seen));
  return fmt::format("{}", fmt::join(parts, "; "));
}

std::vector<std::string> short_causes(const RunBan& ban) {
  std::vector<std::string> causes;
  if (ban.out_of_use()) causes.emplace_back("out of use");
  for (const service::Point* point : ban.points) {
    std::string text = service::cleaned(task_of(*point));
    for (const service::LimbStanding* limb : service::forbidding_limbs(*point)) {
      text += limb->kind == service::LimbKind::sign ? fmt::format(", {} seen", service::cleaned(limb->seen))
                                                    : ", " + words_of(*limb, *point);
    }
    causes.push_back(std::move(text));
  }
  for (const service::SeenSign* seen : ban.seen) {
    const bool looked = seen->found && seen->looked_on;
    causes.push_back(service::cleaned(seen->sign) + (looked ? fmt::format(", found {}", to_text(*seen->found)) : ""));
  }
  return causes;
}

std::string ban_words(const RunBan& ban) {
  std::vector<std::string> parts;
  if (ban.out_of_use()) parts.push_back(words_of(*ban.state));
  if (std::string mend = to_mend_words(ban); !mend.empty()) parts.push_back("before this is mended: " + mend);
  if (ban.state != nullptr && !ban.out_of_use()) parts.push_back(words_of(*ban.state));
  return fmt::format("{}", fmt::join(parts, "; "));
}

std::string why_not_to_run(const RunBan& ban) {
  return ban.out_of_use() ? "do not run it: " + ban_words(ban) : stop_words(ban);
}

std::string stop_words(const RunBan& ban) {
  const std::string mend = to_mend_words(ban);
  return mend.empty() ? "do not run it" : fmt::format("{}: {}", not_before_mended, mend);
}

std::string stop_words(const service::DueList& list, const service::Machine& machine) {
  const std::vector<RunBan> bans = run_bans(list);
  const RunBan* const ban = ban_of(bans, machine);
  return ban == nullptr ? "" : stop_words(*ban);
}

std::string state_in_row(const service::UseState* state, const RunBan* ban, const service::Point* point) {
  if (ban != nullptr && ban->out_of_use()) return "out of use: do not run it";
  std::vector<std::string> parts;
  if (ban != nullptr && (point == nullptr || !ban->forbidden_by(*point))) {
    parts.push_back(fmt::format("{}: {}", not_before_mended, to_mend_words(*ban)));
  }
  if (state != nullptr && state->kind == service::UseKind::laid_up) {
    parts.push_back(state->until ? "laid up until " + to_text(*state->until) : "laid up");
  }
  return fmt::format("{}", fmt::join(parts, "; "));
}

MachineStates::MachineStates(const service::DueList& list) : bans_(run_bans(list)) {
  for (const RunBan& ban : bans_) ban_by_key_.emplace(ban.machine->key, &ban);
  for (const service::MachineUse& use : list.not_in_use) state_by_key_.emplace(use.machine->key, &use.state);
}

const service::UseState* MachineStates::state_of(const service::Machine& machine) const {
  const auto found = state_by_key_.find(machine.key);
  return found == state_by_key_.end() ? nullptr : found->second;
}

const RunBan* MachineStates::ban_of(const service::Machine& machine) const {
  const auto found = ban_by_key_.find(machine.key);
  return found == ban_by_key_.end() ? nullptr : found->second;
}

std::string MachineStates::in_row(const service::Machine& machine, const service::Point* point) const {
  return state_in_row(state_of(machine), ban_of(machine), point);
}

const RunBan* ban_of(const std::vector<RunBan>& bans, const service::Machine& machine) {
  const auto found =
      std::find_if(bans.begin(), bans.end(), [&](const RunBan& ban) { return ban.machine->key == machine.key; });
  return found == bans.end() ? nullptr : &*found;
}

}  // namespace cli
