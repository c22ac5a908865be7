// The names of what people see and measure on which a machine's tasks come due, and names that are near to one.
#include <algorithm>
#include <variant>

#include "service/snapshot.h"
#include "service/typed.h"

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

// `brakes` is the `brake` of a name, and the other way round.
bool same_word(std::string_view a, std::string_view b) {
  const auto is_plural = [](std::string_view one, std::string_view many) {
    constexpr std::size_t short_word = 2;
    return one.size() > short_word && many.size() == one.size() + 1 && many.ends_with('s') && many.starts_with(one);
  };
  return a == b || is_plural(a, b) || is_plural(b, a);
}

// The name whose words all stand among those that are written: the one of most words.
std::optional<std::string> among_words(std::string_view written, const std::vector<std::string>& names) {
  const auto words = folded_words(written);
  std::optional<std::string> found;
  std::size_t most = 0;
  for (const std::string& name : names) {
    const auto its = folded_words(name);
    const bool all = std::all_of(its.begin(), its.end(), [&](const std::string& word) {
      return std::any_of(words.begin(), words.end(), [&](const std::string& one) { return same_word(one, word); });
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

// The value that these words are, with one of the units behind it or without: `6.2`, `6.2 kPa`, `6.2kPa`.
std::optional<std::pair<Measure, std::string>> value_in(std::string words, const std::vector<std::string>& units) {
  std::string unit;
  for (const std::string& each : units) {
    const std::string folded = folded_name(each);
    if (folded.empty() || !words.ends_with(folded)) continue;
    words.resize(words.size() - folded.size());
    if (words.ends_with(' ')) words.pop_back();
    unit = each;
    break;
  }
  const auto value = typed_measure(words);
  if (!value) return std::nullopt;
  return std::pair{*value, std::move(unit)};
}

// `restriction 6.2`: what is measured, in words and not as NAME=VALUE.
std::optional<NearName> measured_in_words(std::string_view written, const std::vector<MeasuredName>& all) {
  const auto words = folded_words(written);
  for (const MeasuredName& measured : all) {
    const auto name = folded_words(measured.name);
    const bool begins = words.size() > name.size() && std::equal(name.begin(), name.end(), words.begin());
    if (!begins) continue;
    std::string rest;
    for (std::size_t i = name.size(); i < words.size(); ++i) rest += (rest.empty() ? "" : " ") + words[i];
    if (auto found = value_in(rest, measured.units)) {
      auto& [value, unit] = *found;
      return NearName{measured.name, true, value, unit == measured.units.front() ? "" : std::move(unit)};
    }
  }
  return std::nullopt;
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
  const auto measured = measured_names(fleet, machine);
  if (kind == FactKind::measurement) {
    const auto names = names_of(measured);
    if (name_written(written, names)) return std::nullopt;
    if (auto near = near_of(written, names)) return NearName{*near, true};
  } else if (name_written(written, signs)) {
    return std::nullopt;
  } else if (auto in_words = measured_in_words(written, measured)) {
    return in_words;
  }
  if (auto near = near_of(written, signs)) return NearName{*near, false};
  return std::nullopt;
}

}  // namespace service
