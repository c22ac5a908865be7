#include "near_commands.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>
#include <string_view>
#include <vector>

#include "command_table.h"
#include "service/base.h"

namespace cli {
namespace {

struct Bridge {
  std::vector<std::string_view> typed;
  std::string_view hint;  // `{0}` stands for how printed commands begin
};

// Words for which people reach, and the command that answers.
const std::vector<Bridge>& bridges() {
  static const std::vector<Bridge> all{
      {{"list", "ls", "todo", "do", "tasks", "status", "today", "now"},
       "what is due: {0} due; every point: {0} due --all"},
      {{"overdue", "late"}, "the overdue list: {0} due --overdue"},
      {{"next", "coming", "soon", "upcoming"}, "what comes next: {0} due --within 3m"},
      {{"order", "orders", "buy", "shopping", "stock"}, "what to order, and by when: {0} parts"},
      {{"show", "info", "look", "looks", "view", "machine", "machines", "point"},
       "a machine's points: {0} due MACHINE; its worst one: {0} why MACHINE; its book: {0} history "
       "MACHINE"},
      {{"explain", "how", "reason"}, "the sums behind a standing: {0} why MACHINE TASK"},
      {{"log", "book", "facts", "record"}, "the book of a machine: {0} history MACHINE"},
      {{"read", "readings", "meter"},
       "what was read: {0} history MACHINE; to write a value down: {0} reading MACHINE VALUE"},
      {{"unknown", "missing", "gaps", "ask"}, "what is not known: {0} find-out"},
      {{"plan", "prepare", "before"},
       "what to do before a season: {0} season SEASON; a week for the crews: {0} rounds --from DAY"},
      {{"week", "route", "routes", "round", "crew", "crews", "van"}, "a week for the crews: {0} rounds --from DAY"},
      {{"visit", "trip", "trips", "bundle", "when", "weeks"},
       "when to go to each site: {0} visits; a week for the crews: {0} rounds --from DAY"},
      {{"hours", "usage", "use"}, "use now and ahead: {0} forecast"},
      {{"cost", "costs", "labour", "work"}, "hours of work and money ahead: {0} workload"},
  };
  return all;
}

// Commands that write can all be tried first.
bool writes(const Command& command) {
  return std::any_of(command.options.begin(), command.options.end(),
                     [](const Option& option) { return option.name == "dry-run"; });
}

bool writes(const std::string& name) {
  const Command* command = find_command(name);
  return command != nullptr && writes(*command);
}

}  // namespace

std::string instead_of_command(const std::string& written, const std::string& command) {
  for (const Bridge& bridge : bridges()) {
    if (std::find(bridge.typed.begin(), bridge.typed.end(), written) != bridge.typed.end()) {
      return fmt::format(fmt::runtime(bridge.hint), command);
    }
  }
  std::vector<std::string> names = command_names();
  // Of names that are as near as each other, `nearest` keeps the order.
  std::stable_partition(names.begin(), names.end(), [](const std::string& name) { return !writes(name); });
  auto near = service::nearest(written, names);
  if (!near.empty() && !writes(near.front())) std::erase_if(near, [](const std::string& name) { return writes(name); });
  return near.empty() ? "`whichever help` lists the commands" : service::did_you_mean(near);
}

}  // namespace cli
