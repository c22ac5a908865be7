// The names of what people see and measure on which a machine's tasks come due, and names that are near to one.
#include <algorithm>
#include <variant>

#include "service/snapshot.h"

namespace service {
namespace {

// The named thing of a list, made where it is not there yet.
template <class Thing>
Thing& named(std::vector<Thing>& things, const std::string& name) {
  const auto known = std::find_if(things.begin(), things.end(), [&](const Thing& thing) { return thing.name == name; });
  if (known != things.end()) return *known;
  things.emplace_back().name = name;
  return things.back();
}

template <class Thing>
void by_name(std::vector<Thing>& things) {
  std::sort(things.begin(), things.end(), [](const Thing& a, const Thing& b) { return a.name < b.name; });
}

template <class Thing>
std::vector<std::string> names_of(const std::vector<Thing>& things) {
  std::vector<std::string> names;
  for (const Thing& thing : things) names.push_back(thing.name);
  return names;
}

// Every limb of this kind in all intervals of a machine's tasks.
template <class Kind, class Use>
void each_limb(const Fleet& fleet, const Machine& machine, Use use) {
  for (const MachineTask& task : tasks_of(fleet, machine)) {
    for (const auto* choices : {&task.every, &task.first}) {
      for (const LimbChoice& choice : *choices) {
        if (const auto* limb = std::get_if<Kind>(&choice.candidates.front())) use(task, *limb);
      }
    }
  }
}

void add_each_once(std::vector<std::string>& list, const std::string& word) {
  if (std::find(list.begin(), list.end(), word) == list.end()) list.push_back(word);
}

// The name whose words all stand among those that are written: the one of most words.
std::optional<std::string> among_words(std::string_view written, const std::vector<std::string>& names) {
  const auto words = folded_words(written);
  std::optional<std::string> found;
  std::size_t most = 0;
  for (const std::string& name : names) {
    const auto its = folded_words(name);
    const bool all = std::all_of(its.begin(), its.end(), [&](const std::string& word) {
      return std::find(words.begin(), words.end(), word) != words.end();
    });
    if (!all || its.size() <= most) continue;
    most = its.size();
    found = name;
  }
  return found;
}

std::optional<std::string> near_of(std::string_view written, const std::vector<std::string>& names) {
  if (auto among = among_words(written, names)) return among;
  const auto near = nearest(written, names);
  return near.empty() ? std::nullopt : std::optional(near.front());
}

}  // namespace

std::vector<ListedSign> listed_signs(const Fleet& fleet, const Machine& machine) {
  std::vector<ListedSign> signs;
  each_limb<SignLimb>(fleet, machine, [&](const MachineTask& task, const SignLimb& limb) {
    for (const std::string& name : limb.signs) {
      ListedSign& sign = named(signs, name);
      sign.safety = sign.safety || never_waits(*task.task, nullptr);
    }
  });
  by_name(signs);
  return signs;
}

std::vector<MeasuredName> measured_names(const Fleet& fleet, const Machine& machine) {
  std::vector<MeasuredName> all;
  each_limb<MeasuredLimb>(fleet, machine, [&](const MachineTask& task, const MeasuredLimb& limb) {
    MeasuredName& measured = named(all, limb.name);
    add_each_once(measured.units, limb.unit);
    for (const std::string& position : task.positions) add_each_once(measured.positions, position);
  });
  by_name(all);
  return all;
}

std::optional<NearName> near_name(const Fleet& fleet, const Machine& machine, FactKind kind, std::string_view written) {
  const auto signs = names_of(listed_signs(fleet, machine));
  if (kind == FactKind::measurement) {
    const auto measured = names_of(measured_names(fleet, machine));
    if (name_written(written, measured)) return std::nullopt;
    if (auto near = near_of(written, measured)) return NearName{*near, true};
  } else if (name_written(written, signs)) {
    return std::nullopt;
  }
  if (auto near = near_of(written, signs)) return NearName{*near, false};
  return std::nullopt;
}

}  // namespace service
