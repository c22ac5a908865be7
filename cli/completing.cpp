#include "completing.h"

#include <algorithm>
#include <set>

#include "session.h"

namespace cli {
namespace {

using Names = std::vector<std::string>;

// The command line as far as it is typed. Values that belong to options are told apart from words.
struct Typed {
  const Command* command = nullptr;
  Arguments arguments;
  const Option* open = nullptr;  // the option whose value is being typed
};

Names option_names(const Typed& typed) {
  Names names{"--help"};
  const auto add = [&](std::span<const Option> options) {
    for (const Option& option : options) {
      if (!option.repeats && typed.arguments.has(option.name)) continue;
      names.push_back("--" + std::string(option.name));
    }
  };
  if (typed.command != nullptr) add(typed.command->options);
  for (const Option& option : global_options()) {
    if (typed.command != nullptr && !takes(*typed.command, option)) continue;
    if (!typed.arguments.has(option.name)) names.push_back("--" + std::string(option.name));
  }
  if (typed.command == nullptr) names.emplace_back("--version");
  return names;
}

const Option* option_named(const Typed& typed, std::string_view name) {
  const auto find = [&](std::span<const Option> options) -> const Option* {
    const auto at = std::find_if(options.begin(), options.end(), [&](const Option& o) { return o.name == name; });
    return at == options.end() ? nullptr : &*at;
  };
  const Option* own = typed.command == nullptr ? nullptr : find(typed.command->options);
  return own != nullptr ? own : find(global_options());
}

Typed read(const std::vector<std::string>& words) {
  Typed typed;
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    const std::string& word = words[i];
    if (!word.starts_with("--")) {
      if (typed.command == nullptr) {
        typed.command = find_command(word);
      } else {
        typed.arguments.words.push_back(word);
      }
      continue;
    }
    const auto equals = word.find('=');
    const Option* option = option_named(typed, std::string_view(word).substr(2, equals - 2));
    if (option == nullptr) continue;
    auto& values = typed.arguments.options[std::string(option->name)];
    if (option->value.empty()) continue;
    if (equals != std::string::npos) {
      values.push_back(word.substr(equals + 1));
    } else if (i + 2 < words.size()) {
      values.push_back(words[++i]);
    } else {
      typed.open = option;
    }
  }
  return typed;
}

// `good|worn|failed`: words to choose from. `30d|6w` and `DAY|+50h` only show forms.
Names choices(std::string_view value) {
  Names names;
  if (value.find('|') == std::string_view::npos) return names;
  for (std::size_t from = 0; from <= value.size();) {
    const std::size_t end = std::min(value.find('|', from), value.size());
    names.emplace_back(value.substr(from, end - from));
    from = end + 1;
  }
  const bool plain = std::all_of(names.begin(), names.end(), [](const std::string& name) {
    return name.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == std::string::npos;
  });
  return plain ? names : Names{};
}

// Completing never complains: without a readable fleet there are no names of its own.
std::optional<Session> fleet_of(const Context& context, const Typed& typed) {
  Arguments arguments;
  if (const auto found = typed.arguments.options.find("fleet"); found != typed.arguments.options.end()) {
    arguments.options.insert(*found);
  }
  arguments.options["as-of"] = {"2000-01-01"};  // no day matters here, and no time zone need be known
  const Context asking{context.world, arguments, {}, {}, false};
  try {
    return open_fleet(asking);
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

Names machine_names(const service::Fleet& fleet) {
  Names names;
  for (const service::Machine& machine : fleet.machines) names.push_back(machine.key);
  return names;
}

// The machine that is named first.
const service::Machine* machine_of(const service::Fleet& fleet, const Typed& typed) {
  return typed.arguments.words.empty() ? nullptr : machine_named(fleet, typed.arguments.words[0]).one;
}

Names task_names(const service::Fleet& fleet, const Typed& typed) {
  const auto* machine = machine_of(fleet, typed);
  Names names;
  if (machine == nullptr) return names;
  for (const service::MachineTask& task : tasks_of(fleet, *machine)) {
    names.push_back(task.task->name);
    for (const std::string& position : task.positions) names.push_back(task.task->name + '@' + position);
    for (const service::FollowUp& check : task.task->follow_ups) names.push_back(task.task->name + '/' + check.name);
  }
  return names;
}

// Signs, and names of measurements with the sign that parts them from their value.
Names noticed_names(const service::Fleet& fleet, const Typed& typed) {
  const auto* machine = machine_of(fleet, typed);
  std::set<std::string> names;
  if (machine == nullptr) return {};
  for (const service::MachineTask& task : tasks_of(fleet, *machine)) {
    for (const service::LimbChoice& choice : task.every) {
      if (const auto* sign = std::get_if<service::SignLimb>(&choice.candidates.front())) {
        names.insert(sign->signs.begin(), sign->signs.end());
      }
      if (const auto* measured = std::get_if<service::MeasuredLimb>(&choice.candidates.front())) {
        names.insert(measured->name + '=');
      }
    }
  }
  return {names.begin(), names.end()};
}

Names meter_names(const service::Fleet& fleet, const Typed& typed) {
  Names names;
  if (const auto* machine = machine_of(fleet, typed)) {
    for (const service::Meter& meter : machine->meters) names.push_back(meter.name);
  }
  return names;
}

// What the table calls a value or word tells what it can be.
Names names_for(std::string_view called, const Context& context, const Typed& typed) {
  if (called == "COMMAND") return command_names();
  if (called == "FORMAT") {
    return typed.command == nullptr ? Names{} : Names(typed.command->formats.begin(), typed.command->formats.end());
  }
  if (Names fixed = choices(called); !fixed.empty()) return fixed;
  const auto session = fleet_of(context, typed);
  if (!session) return {};
  const service::Fleet& fleet = *session->fleet;
  if (called == "MACHINE") return machine_names(fleet);
  if (called.starts_with("TASK")) return task_names(fleet, typed);
  if (called.starts_with("SIGN")) return noticed_names(fleet, typed);
  if (called == "METER") return meter_names(fleet, typed);
  Names names;
  if (called == "SITE") {
    for (const service::Site& site : fleet.sites) names.push_back(site.key);
  }
  if (called == "SEASON") {
    for (const service::Season& season : fleet.seasons) names.push_back(season.key);
  }
  if (called == "CREW") {
    for (const service::Crew& crew : fleet.crews) names.push_back(crew.key);
  }
  if (called == "PART") {
    for (const service::Part& part : fleet.parts) names.push_back(part.key);
  }
  return names;
}

// Shells take `--format=js` and `fork@le` apart at the sign; some hand on three words, some one.
void put_together(std::vector<std::string>& words) {
  for (std::size_t i = 1; i < words.size(); ++i) {
    if (words[i] == "=" && words[i - 1].starts_with("--")) {
      words.erase(words.begin() + static_cast<std::ptrdiff_t>(i));
      if (i == words.size()) words.emplace_back();
    } else if (words[i] == "@") {
      words[i - 1] += '@' + (i + 1 < words.size() ? words[i + 1] : "");
      const auto from = words.begin() + static_cast<std::ptrdiff_t>(i);
      words.erase(from, from + (i + 1 < words.size() ? 2 : 1));
      --i;
    }
  }
}

}  // namespace

std::vector<std::string> candidates(const Context& context, std::vector<std::string> words) {
  if (words.empty()) words.emplace_back();
  put_together(words);
  const Typed typed = read(words);
  std::string begun = words.back();
  std::string before;
  Names names;
  const auto equals = begun.find('=');
  if (typed.open != nullptr) {
    names = names_for(typed.open->value, context, typed);
  } else if (begun.starts_with("--") && equals != std::string::npos) {
    before = begun.substr(0, equals + 1);
    begun.erase(0, equals + 1);
    if (const Option* option = option_named(typed, before.substr(2, equals - 2))) {
      names = names_for(option->value, context, typed);
    }
  } else if (begun.starts_with('-')) {
    names = option_names(typed);
  } else if (typed.command == nullptr) {
    names = command_names();
  } else if (!typed.command->words.empty()) {
    const auto& expected = typed.command->words;
    const std::size_t at = typed.arguments.words.size();
    const bool there = at < expected.size() || expected.back().repeats;
    if (there) names = names_for(expected[std::min(at, expected.size() - 1)].name, context, typed);
  }
  std::erase_if(names, [&](const std::string& name) { return !name.starts_with(begun); });
  for (std::string& name : names) name.insert(0, before);
  return names;
}

std::string completion_script(const std::string& shell) {
  if (shell == "bash") {
    return R"sh(# Completion of whichever in bash: source <(whichever completion bash)
_whichever() {
  local candidate sign
  COMPREPLY=()
  while IFS= read -r candidate; do
    # bash has taken the word apart at a sign, and wants what stands behind it.
    for sign in = @; do
      if [ "${COMP_WORDS[COMP_CWORD]}" = "$sign" ] || [ "${COMP_WORDS[COMP_CWORD-1]}" = "$sign" ]; then
        candidate="${candidate#*"$sign"}"
      fi
    done
    COMPREPLY+=("$(printf '%q' "$candidate")")
    [[ "$candidate" == *= ]] && compopt -o nospace
  done < <(whichever complete -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
  }
complete -o default -F _whichever whichever
)sh";
  }
  if (shell == "zsh") {
    return R"sh(#compdef whichever
# Completion of whichever in zsh: put this into a file _whichever in a folder of $fpath
_whichever() {
  local -a found
  found=("${(@f)$(whichever complete -- "${(@)words[2,CURRENT]}" 2>/dev/null)}")
  if [[ -n "${found[1]}" ]]; then
    compadd -Q -a found
  else
    _files
  fi
}
if [[ "${funcstack[1]}" == "_whichever" ]]; then
  _whichever "$@"
else
  compdef _whichever whichever
fi
)sh";
  }
  if (shell == "fish") {
    return R"sh(# Completion of whichever in fish: whichever completion fish | source
function __whichever_candidates
  set -l before (commandline -opc)[2..]
  set -l typed (commandline -ct)
  whichever complete -- $before "$typed" 2>/dev/null
end
complete -c whichever -f
complete -c whichever -k -a '(__whichever_candidates)'
complete -c whichever -F -n 'test -z "$(__whichever_candidates)"'
)sh";
  }
  return {};
}

}  // namespace cli
