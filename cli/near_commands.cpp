#include "near_commands.h"

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
  std::string_view hint;
};

// Words for which people reach, and the command that answers.
const std::vector<Bridge>& bridges() {
  static const std::vector<Bridge> all{
      {{"list", "ls", "todo", "do", "tasks", "status", "today", "now"},
       "what is due: whichever due; every point: whichever due --all"},
      {{"overdue", "late"}, "the overdue list: whichever due --overdue"},
      {{"next", "coming", "soon", "upcoming"}, "what comes next: whichever due --within 3m"},
      {{"order", "orders", "buy", "shopping", "stock"}, "what to order, and by when: whichever parts"},
      {{"show", "info", "look", "looks", "view", "machine", "machines", "point"},
       "a machine's points: whichever due MACHINE; its worst one: whichever why MACHINE; its book: whichever history "
       "MACHINE"},
      {{"explain", "how", "reason"}, "the sums behind a standing: whichever why MACHINE TASK"},
      {{"log", "book", "facts", "record"}, "the book of a machine: whichever history MACHINE"},
      {{"read", "readings", "meter"},
       "what was read: whichever history MACHINE; to write a value down: whichever reading MACHINE VALUE"},
      {{"unknown", "missing", "gaps", "ask"}, "what is not known: whichever find-out"},
      {{"plan", "prepare", "before"}, "what to do before a season: whichever season SEASON"},
      {{"hours", "usage", "use"}, "use now and ahead: whichever forecast"},
      {{"cost", "costs", "labour", "work"}, "hours of work and money ahead: whichever workload"},
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

std::string instead_of_command(const std::string& written) {
  for (const Bridge& bridge : bridges()) {
    if (std::find(bridge.typed.begin(), bridge.typed.end(), written) != bridge.typed.end()) {
      return std::string(bridge.hint);
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
