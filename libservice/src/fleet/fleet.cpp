// Looking things up in a fleet, and the words for its values.
#include "service/fleet.h"

#include <algorithm>
#include <array>
#include <type_traits>

#include "fleet/codes.h"
#include "fleet/index.h"

namespace service {
namespace {

template <class Things, class NameOf>
auto* find_by(const Things& things, std::string_view name, NameOf name_of) {
  const auto found = std::find_if(things.begin(), things.end(), [&](const auto& one) { return name_of(one) == name; });
  return found == things.end() ? decltype(&*found){nullptr} : &*found;
}

constexpr auto by_key = [](const auto& thing) -> const std::string& { return thing.key; };
constexpr auto by_name = [](const auto& thing) -> const std::string& { return thing.name; };

// By the index where it knows these things, else one by one: a fleet may also be put together by hand.
template <class Things, class NameOf>
auto* look_up(const Things& things, const FleetIndex::Positions* positions, std::string_view name, NameOf name_of) {
  if (positions == nullptr || positions->size() != things.size()) return find_by(things, name, name_of);
  const auto found = positions->find(name);
  if (found == positions->end()) return decltype(&things.front()){nullptr};
  return name_of(things[found->second]) == name ? &things[found->second] : find_by(things, name, name_of);
}

template <class Thing>
const std::string& name_of(const Thing& thing) {
  if constexpr (std::is_same_v<Thing, Season>) {
    return thing.key;
  } else {
    return thing.name;
  }
}

template <class Thing>
Named<Thing> named(const std::vector<Thing>& things, const Thing* by_its_key, std::string_view written) {
  if (by_its_key != nullptr) return {by_its_key, {}, {}};
  const std::string folded = folded_name(written);
  Named<Thing> found;
  std::vector<std::string> keys;
  std::vector<std::string> names;
  for (const Thing& thing : things) {
    keys.push_back(thing.key);
    names.push_back(folded_name(name_of(thing)));
    const bool by_key = name_written(written, {&thing.key, 1}).has_value();
    if (by_key || (!folded.empty() && names.back() == folded)) found.several.push_back(&thing);
  }
  if (found.several.size() == 1) return {found.several.front(), {}, {}};
  if (!found.several.empty()) return found;
  found.near = nearest(written, keys);
  if (!found.near.empty()) return found;
  for (const std::string& name : nearest(folded, names)) {
    for (std::size_t i = 0; i < names.size(); ++i) {
      const bool told = std::find(found.near.begin(), found.near.end(), keys[i]) != found.near.end();
      if (names[i] == name && !told) found.near.push_back(keys[i]);
    }
  }
  return found;
}

}  // namespace

namespace fleet {

void make_index(Fleet& fleet) {
  const auto positions = [](const auto& things, auto name_of) {
    FleetIndex::Positions by;
    by.reserve(things.size());
    for (std::size_t i = 0; i < things.size(); ++i) by.emplace(name_of(things[i]), i);
    return by;
  };
  fleet.index = std::make_shared<FleetIndex>(FleetIndex{
      positions(fleet.machines, by_key), positions(fleet.schedules, by_name), positions(fleet.sites, by_key)});
}

}  // namespace fleet

std::string to_text(const CalendarSpan& span) {
  switch (span.unit) {
    case CalendarUnit::days:
      return counted(span.count, "day", "days");
    case CalendarUnit::weeks:
      return counted(span.count, "week", "weeks");
    case CalendarUnit::months:
      return counted(span.count, "month", "months");
    case CalendarUnit::years:
      return counted(span.count, "year", "years");
  }
  return {};
}

Day after(Day from, const CalendarSpan& span) {
  if (span.unit == CalendarUnit::days) return from + std::chrono::days{span.count};
  if (span.unit == CalendarUnit::weeks) return from + std::chrono::days{7 * span.count};
  return add_months(from, (span.unit == CalendarUnit::years ? 12 : 1) * span.count);
}

SeasonDays days_of(const Season& season, int year) {
  const auto in_year = [](MonthDay day) { return day.month * 100 + day.day; };
  const int over_new_year = in_year(season.to) < in_year(season.from) ? 1 : 0;
  return {season.from.in_year(year), season.to.in_year(year + over_new_year)};
}

LimbKind kind_of(const Limb& limb) { return static_cast<LimbKind>(limb.index()); }

std::string_view to_text(LimbKind kind) {
  constexpr std::array<std::string_view, std::variant_size_v<Limb>> words = {"usage",    "calendar", "changes",
                                                                             "measured", "sign",     "season"};
  return words[static_cast<std::size_t>(kind)];
}

const Task* Schedule::task(std::string_view task_name) const { return find_by(tasks, task_name, by_name); }

const Meter* Machine::meter(std::string_view meter_name) const { return find_by(meters, meter_name, by_name); }

const Meter* Machine::first_meter() const { return meters.empty() ? nullptr : &meters.front(); }

const TaskChange* Machine::change_to(std::string_view task) const {
  const auto found =
      std::find_if(change.begin(), change.end(), [&](const TaskChange& each) { return each.task == task; });
  return found == change.end() ? nullptr : &*found;
}

const Meter* Machine::first_hour_meter() const {
  return find_by(meters, "h", [](const Meter& meter) -> const std::string& { return meter.unit; });
}

const Machine* Fleet::machine(std::string_view key) const {
  return look_up(machines, index ? &index->machines : nullptr, key, by_key);
}

const Schedule* Fleet::schedule(std::string_view schedule_name) const {
  return look_up(schedules, index ? &index->schedules : nullptr, schedule_name, by_name);
}

const Season* Fleet::season(std::string_view key) const { return find_by(seasons, key, by_key); }

const Site* Fleet::site(std::string_view key) const {
  return look_up(sites, index ? &index->sites : nullptr, key, by_key);
}

Named<Machine> machine_named(const Fleet& fleet, std::string_view written) {
  return named(fleet.machines, fleet.machine(written), written);
}

Named<Site> site_named(const Fleet& fleet, std::string_view written) {
  return named(fleet.sites, fleet.site(written), written);
}

Named<Season> season_named(const Fleet& fleet, std::string_view written) {
  return named(fleet.seasons, fleet.season(written), written);
}

const Schedule& Fleet::schedule_of(const Machine& machine) const {
  const Schedule* const found = schedule(machine.schedule);
  if (found != nullptr) return *found;
  throw Failure(FailureKind::internal,
                Diagnostic{fleet::code::unknown_schedule, "the machine `" + machine.key + "` has no schedule", {}});
}

}  // namespace service
