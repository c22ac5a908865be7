#include "fleet/made_in_code.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <unordered_set>
#include <utility>

#include "fleet/conclude.h"
#include "fleet/limb_sizes.h"
#include "fleet/value_checks.h"

namespace service::fleet {
namespace {

// Each key is a name, and given once. In files the reader of YAML sees to the second.
template <class Things, class KeyOf, class SpotOf>
void check_keys(const Things& things, KeyOf key_of, std::string_view what, SpotOf spot_of, Diagnostics& diagnostics) {
  std::unordered_set<std::string> seen;
  for (const auto& thing : things) {
    const std::string& key = key_of(thing);
    check_name(key, spot_of(thing), diagnostics);
    if (seen.insert(key).second) continue;
    diagnostics.error(code::duplicate_key, spot_of(thing),
                      fmt::format("the {} `{}` is given twice", what, cleaned(key)), "give each its own name");
  }
}

constexpr auto key_of = [](const auto& thing) -> const std::string& { return thing.key; };
constexpr auto name_of = [](const auto& thing) -> const std::string& { return thing.name; };

// What is wrong with the size of a limb, and the sizes that there are.
struct BadSize {
  std::string is;
  std::string advice;
};

std::optional<BadSize> bad_count(int count, int least, int most) {
  if (count >= least && count <= most) return std::nullopt;
  return BadSize{std::to_string(count), fmt::format("a value from {} to {}", least, most)};
}

struct SizeOf {
  std::optional<BadSize> operator()(const UsageLimb& limb) const {
    if (limb.every > Amount{}) return std::nullopt;
    return BadSize{to_text(limb.every), "a number above 0"};
  }
  std::optional<BadSize> operator()(const CalendarLimb& limb) const {
    return bad_count(limb.every.count, 1, most_of(limb.every.unit));
  }
  std::optional<BadSize> operator()(const ChangesLimb& limb) const { return bad_count(limb.count, 1, most_changes); }
  std::optional<BadSize> operator()(const MeasuredLimb&) const { return std::nullopt; }
  std::optional<BadSize> operator()(const SignLimb&) const { return std::nullopt; }
  std::optional<BadSize> operator()(const SeasonLimb& limb) const { return bad_count(limb.lead_days, 0, longest_lead); }
};

void check_interval(const std::vector<Limb>& limbs, const char* key, const Spot& spot, Diagnostics& diagnostics) {
  int calendar_limbs = 0;
  for (const Limb& limb : limbs) {
    if (const auto bad = std::visit(SizeOf{}, limb)) {
      diagnostics.error(code::out_of_range, spot,
                        fmt::format("the {} limb of `{}` cannot be {}", to_text(kind_of(limb)), key, bad->is),
                        "write " + bad->advice);
    }
    const auto* const sign = std::get_if<SignLimb>(&limb);
    if (sign != nullptr && sign->signs.empty()) {
      diagnostics.error(code::no_limb, spot, fmt::format("a sign limb of `{}` names no sign", key), "name the signs");
    }
    if (kind_of(limb) == LimbKind::calendar && ++calendar_limbs == 2) {
      diagnostics.error(code::two_calendar_units, spot, fmt::format("`{}` has two calendar limbs", key),
                        "keep the one that the manual gives");
    }
  }
}

void check_filled(const std::vector<Limb>& limbs, const char* key, const Spot& spot, Diagnostics& diagnostics) {
  if (limbs.empty()) diagnostics.error(code::no_limb, spot, fmt::format("`{}` names no limb", key), "give it limbs");
}

void check_follow_up(const FollowUp& check, const Spot& spot, Diagnostics& diagnostics) {
  check_filled(check.within, "within", spot, diagnostics);
  for (const Limb& limb : check.within) {
    const LimbKind kind = kind_of(limb);
    if (kind == LimbKind::usage || kind == LimbKind::calendar) continue;
    diagnostics.error(
        code::wrong_limb, spot,
        fmt::format("a {} limb cannot say when the check `{}` is owed", to_text(kind), cleaned(check.name)),
        "use hours, usage, days, weeks or months");
  }
}

void check_positions(const std::vector<std::string>& positions, const Spot& spot, Diagnostics& diagnostics) {
  std::unordered_set<std::string> seen;
  for (const std::string& position : positions) check_position(position, seen, spot, diagnostics);
}

}  // namespace

MadeInCode::MadeInCode(Fleet fleet, Diagnostics& diagnostics, Draft& draft) : diagnostics_(diagnostics), draft_(draft) {
  const Spot whole = spot_of("the fleet");
  draft_.fleet = std::move(fleet);
  draft_.fleet.index.reset();
  draft_.fleet.files_checksum.reset();
  draft_.fleet.remarks.clear();
  const auto at_whole = [&](const auto&) { return whole; };
  check_keys(draft_.fleet.sites, key_of, "site", at_whole, diagnostics_);
  check_keys(draft_.fleet.seasons, key_of, "season", at_whole, diagnostics_);
  check_keys(draft_.fleet.parts, key_of, "part", at_whole, diagnostics_);
  check_keys(draft_.fleet.crews, key_of, "crew", at_whole, diagnostics_);
  check_keys(draft_.fleet.calls, key_of, "call", at_whole, diagnostics_);
  check_keys(draft_.fleet.schedules, name_of, "schedule", at_whole, diagnostics_);
  note_grace(draft_.fleet.grace, whole);
  take_sites(whole);
  take_surroundings();
  for (Schedule& schedule : std::exchange(draft_.fleet.schedules, {})) take_schedule(std::move(schedule));
  for (Machine& machine : std::exchange(draft_.fleet.machines, {})) take_machine(std::move(machine));
}

Spot MadeInCode::spot_of(std::string whose) {
  sources_.push_back(std::make_unique<Source>(Source::in_code(std::move(whose), static_cast<int>(sources_.size()))));
  return {sources_.back().get(), whole_file};
}

void MadeInCode::mention(Noun noun, const std::string& name, const Spot& spot) {
  if (!name.empty()) draft_.mentions_of(noun).push_back({name, spot});
}

void MadeInCode::take_sites(const Spot& whole) {
  for (Site& site : draft_.fleet.sites) {
    if (site.name.empty()) site.name = site.key;
    if (site.closed_in.empty()) continue;
    const Spot spot = spot_of(fmt::format("the site `{}`", cleaned(site.key)));
    for (const std::string& season : site.closed_in) mention(Noun::season, season, spot);
  }
  for (const Season& season : draft_.fleet.seasons) check_season_name(season.key, whole, diagnostics_);
  draft_.lists_parts = !draft_.fleet.parts.empty();
  for (const Part& part : draft_.fleet.parts) draft_.parts_listed.push_back({part.key, whole});
}

void MadeInCode::take_surroundings() {
  for (Crew& crew : draft_.fleet.crews) {
    const Spot spot = spot_of(fmt::format("the crew `{}`", cleaned(crew.key)));
    if (crew.name.empty()) crew.name = crew.key;
    if (crew.end.empty()) crew.end = crew.start;
    mention(Noun::site, crew.start, spot);
    mention(Noun::site, crew.end, spot);
    for (const auto& carried : crew.carries) {
      mention(Noun::part, carried.first, spot);
      draft_.carried.push_back({carried.first, spot});
    }
  }
  if (draft_.fleet.travel) {
    const Spot spot = spot_of("the travel table");
    std::set<std::pair<std::string, std::string>> seen;
    for (const TravelRow& way : draft_.fleet.travel->rows) {
      mention(Noun::site, way.from, spot);
      mention(Noun::site, way.to, spot);
      check_way(way, seen, spot, diagnostics_);
    }
  }
  for (const Call& call : draft_.fleet.calls) {
    const Spot spot = spot_of(fmt::format("the call `{}`", cleaned(call.key)));
    mention(Noun::site, call.site, spot);
    mention(Noun::machine, call.machine, spot);
    check_call(call, !call.site.empty(), !call.machine.empty(), spot, diagnostics_);
  }
}

void MadeInCode::take_schedule(Schedule schedule) {
  ScheduleDraft draft;
  const Spot spot = spot_of(fmt::format("the schedule `{}`", cleaned(schedule.name)));
  const auto at_schedule = [&](const auto&) { return spot; };
  check_keys(schedule.meters, name_of, "meter", at_schedule, diagnostics_);
  check_keys(schedule.tasks, name_of, "task", at_schedule, diagnostics_);
  check_has_tasks(!schedule.tasks.empty(), spot, diagnostics_);
  for (Task& task : std::exchange(schedule.tasks, {})) draft.tasks.push_back(take_task(std::move(task), schedule.name));
  draft.schedule = std::move(schedule);
  draft_.schedules.push_back(std::move(draft));
}

TaskDraft MadeInCode::take_task(Task task, const std::string& schedule) {
  TaskDraft draft;
  const Spot spot = spot_of(fmt::format("the task `{}` of the schedule `{}`", cleaned(task.name), cleaned(schedule)));
  const auto at_task = [&](const auto&) { return spot; };
  check_filled(task.every, "every", spot, diagnostics_);
  note_interval(task.every, "every", spot, draft.limbs);
  note_interval(task.first, "first", spot, draft.limbs);
  for (const auto& [condition, limbs] : task.in) {
    check_name(condition, spot, diagnostics_);
    check_filled(limbs, "in", spot, diagnostics_);
    note_interval(limbs, "in", spot, draft.limbs);
    draft_.conditions_named.insert(condition);
  }
  check_keys(task.follow_ups, name_of, "check", at_task, diagnostics_);
  for (const FollowUp& check : task.follow_ups) {
    check_follow_up(check, spot, diagnostics_);
    note_interval(check.within, "within", spot, draft.limbs);
  }
  if (task.grace) {
    note_grace(*task.grace, spot);
    draft.grace = spot;
  }
  if (task.until_month_end) draft.until = spot;
  for (const std::string& covered : task.covers) draft.covers.push_back({covered, spot});
  check_positions(task.positions, spot, diagnostics_);
  for (const std::string& written : task.cautions) check_caution(written, spot, diagnostics_);
  for (const auto& part : task.parts) mention(Noun::part, part.first, spot);
  for (const auto& fluid : task.fluids) mention(Noun::part, fluid.first, spot);
  draft.task = std::move(task);
  return draft;
}

void MadeInCode::take_machine(Machine machine) {
  MachineDraft draft;
  const Spot spot = spot_of(fmt::format("the machine `{}`", cleaned(machine.key)));
  check_name(machine.key, spot, diagnostics_);
  check_keys(
      machine.meters, name_of, "meter", [&](const auto&) { return spot; }, diagnostics_);
  if (machine.name.empty()) machine.name = machine.key;
  if (machine.schedule.empty()) {
    diagnostics_.error(code::missing_key, spot, "it has no schedule", "name the schedule that it follows");
  }
  draft.key = draft.schedule = spot;
  draft.left = draft.expect = draft.start = spot;
  draft.own_meters = !machine.meters.empty();
  mention(Noun::site, machine.site, spot);
  for (const auto& season : machine.expect.by_season) mention(Noun::season, season.first, spot);
  for (const std::string& condition : machine.conditions) draft_.conditions.push_back({condition, spot});
  // A machine put in service new begins at nothing on any meter; another value needs a meter that shows it.
  if (machine.start.kind == StartKind::in_service && !machine.start.at) machine.start.at = Amount{};
  if (machine.start.at && *machine.start.at != Amount{}) draft.start_at = spot;
  for (TaskChange& change : std::exchange(machine.change, {})) {
    draft.changes.push_back(take_change(std::move(change), machine.key));
  }
  draft.machine = std::move(machine);
  draft_.machines.push_back(std::move(draft));
}

ChangeDraft MadeInCode::take_change(TaskChange change, const std::string& machine) {
  ChangeDraft draft;
  draft.spot = spot_of(fmt::format("the task `{}` of the machine `{}`", cleaned(change.task), cleaned(machine)));
  if (!change.every.empty()) draft.every = draft.spot;
  if (!change.first.empty()) draft.first = draft.spot;
  note_interval(change.every, "every", draft.spot, draft.limbs);
  note_interval(change.first, "first", draft.spot, draft.limbs);
  if (change.grace) {
    note_grace(*change.grace, draft.spot);
    draft.grace = draft.spot;
  }
  if (change.positions) check_positions(*change.positions, draft.spot, diagnostics_);
  if (change.parts) {
    for (const auto& part : *change.parts) mention(Noun::part, part.first, draft.spot);
  }
  if (change.fluids) {
    for (const auto& fluid : *change.fluids) mention(Noun::part, fluid.first, draft.spot);
  }
  draft.change = std::move(change);
  return draft;
}

void MadeInCode::note_interval(const std::vector<Limb>& limbs, const char* key, const Spot& spot, LimbNotes& notes) {
  ++notes.intervals;
  check_interval(limbs, key, spot, diagnostics_);
  for (const Limb& limb : limbs) {
    if (const auto* const usage = std::get_if<UsageLimb>(&limb)) {
      notes.meters.push_back({usage->meter.value_or(std::string()), spot, notes.intervals});
    } else if (const auto* const changes = std::get_if<ChangesLimb>(&limb)) {
      notes.changes.push_back({changes->task, spot});
    } else if (const auto* const season = std::get_if<SeasonLimb>(&limb)) {
      mention(Noun::season, season->season, spot);
    }
  }
}

void MadeInCode::note_grace(const Grace& grace, const Spot& spot) {
  for (const auto& usage : grace.usage) draft_.grace_meters.push_back({usage.first, spot});
}

}  // namespace service::fleet

namespace service {

Fleet checked(Fleet made) {
  fleet::Diagnostics diagnostics;
  fleet::Draft draft;
  const fleet::MadeInCode taken_apart(std::move(made), diagnostics, draft);
  return fleet::conclude(std::move(draft), diagnostics, taken_apart.whole());
}

}  // namespace service
