#include "visits/crew_days.h"

#include <fmt/format.h>

#include <algorithm>

#include "visits/opening.h"

namespace service {
namespace visits {
namespace {

bool holds(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

void insist_on_costs(const Fleet& fleet) {
  if (fleet.crews.empty()) {
    throw Failure(
        FailureKind::bad_fleet,
        Diagnostic{"no-crews", "fleet.yaml names no crews, so nobody can be sent anywhere",
                   R"(add them under `crews:`, such as van: {start: yard, hours: {mon-fri: "08:00-16:30"}})"});
  }
  if (fleet.costs.hour && fleet.costs.km) return;
  throw Failure(FailureKind::bad_fleet,
                Diagnostic{"no-costs",
                           fmt::format("fleet.yaml does not say what {} of driving costs, so no plan is better than "
                                       "another",
                                       fleet.costs.hour ? "a km" : "an hour"),
                           "write costs: {hour: 44, km: 0.55}, with figures of your own"});
}

void insist_on_crews(const Fleet& fleet, const std::vector<std::string>& named) {
  std::vector<std::string> keys;
  for (const Crew& crew : fleet.crews) keys.push_back(crew.key);
  for (const std::string& name : named) {
    if (holds(keys, name)) continue;
    throw Failure(FailureKind::usage, Diagnostic{"no-such-crew", fmt::format("there is no crew `{}`", cleaned(name)),
                                                 names_instead(name, keys, "the fleet has none")});
  }
}

// How many people, as a need is called.
std::string people_word(int people) {
  return people == 2 ? std::string("two-people") : std::to_string(people) + "-people";
}

}  // namespace

std::vector<CrewDay> crew_days_of(const Fleet& fleet, const WeekAsk& ask) {
  insist_on_costs(fleet);
  insist_on_crews(fleet, ask.without);
  std::vector<CrewDay> days;
  for (int i = 0; i < ask.days; ++i) {
    const Day on = ask.from + std::chrono::days{i};
    for (const Crew& crew : fleet.crews) {
      const auto hours = crew.hours.find(weekday_of(on));
      if (hours == crew.hours.end() || hours->second.empty() || holds(ask.without, crew.key)) continue;
      if (std::find(crew.off.begin(), crew.off.end(), on) != crew.off.end()) continue;
      days.push_back({&crew, on, hours->second.front(), crew.duty});
    }
  }
  if (days.empty()) {
    throw Failure(FailureKind::bad_data,
                  Diagnostic{"no-crew-days",
                             fmt::format("no crew works from {} to {}", to_text(ask.from),
                                         to_text(ask.from + std::chrono::days{std::max(ask.days, 1) - 1})),
                             "ask about other days, or look at `hours` and `off` of the crews"});
  }
  return days;
}

Needs both(const Needs& a, const Needs& b) {
  Needs needs{a.skills, std::max(a.people, b.people)};
  needs.skills.insert(needs.skills.end(), b.skills.begin(), b.skills.end());
  std::sort(needs.skills.begin(), needs.skills.end());
  needs.skills.erase(std::unique(needs.skills.begin(), needs.skills.end()), needs.skills.end());
  return needs;
}

std::vector<std::string> words_of(const Needs& needs) {
  std::vector<std::string> words = needs.skills;
  if (needs.people > 1) words.push_back(people_word(needs.people));
  std::sort(words.begin(), words.end());
  return words;
}

bool can(const Crew& crew, const Needs& needs) {
  return crew.people >= needs.people &&
         std::all_of(needs.skills.begin(), needs.skills.end(),
                     [&](const std::string& need) { return holds(crew.qualified_for, need); });
}

bool any_can(const std::vector<CrewDay>& days, const Needs& needs) {
  return std::any_of(days.begin(), days.end(), [&](const CrewDay& day) { return can(*day.crew, needs); });
}

std::optional<PutOffReason> why_nobody_can(const std::vector<CrewDay>& crew_days, const Needs& needs,
                                           const std::optional<std::pair<Day, Day>>& days,
                                           const std::function<bool(Day)>& open) {
  if (!any_can(crew_days, needs)) return PutOffReason::not_qualified;
  if (!days) return PutOffReason::closed;
  bool works = false;
  for (const CrewDay& day : crew_days) {
    if (day.on < days->first || day.on > days->second || !can(*day.crew, needs)) continue;
    if (open(day.on)) return std::nullopt;
    works = true;
  }
  return works ? PutOffReason::closed : PutOffReason::no_crew;
}

std::vector<std::string> lacking(const std::vector<CrewDay>& days, const Needs& needs) {
  std::vector<std::string> none_has;
  for (const std::string& skill : needs.skills) {
    if (!any_can(days, {{skill}, 1})) none_has.push_back(skill);
  }
  if (!any_can(days, {{}, needs.people})) none_has.push_back(people_word(needs.people));
  std::sort(none_has.begin(), none_has.end());
  return none_has.empty() ? words_of(needs) : none_has;
}

}  // namespace visits

Day week_horizon(const Fleet& fleet, const WeekAsk& ask) {
  return visits::crew_days_of(fleet, ask).back().on + std::chrono::days{ask.join_days.value_or(0)};
}

}  // namespace service
