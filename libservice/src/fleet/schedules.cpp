#include "fleet/schedules.h"

#include <unordered_set>

#include "fleet/keys.h"
#include "fleet/limbs.h"
#include "fleet/value_checks.h"

namespace service::fleet {
namespace {

void read_every(const Reader& reader, const Field& field, TaskDraft& into) {
  into.task.every = read_limbs(reader, field, Limbs::all, into.limbs);
}

void read_first(const Reader& reader, const Field& field, TaskDraft& into) {
  into.task.first = read_limbs(reader, field, Limbs::all, into.limbs);
}

void read_in(const Reader& reader, const Field& field, TaskDraft& into) {
  const auto conditions = reader.map(field, "write the condition and its limbs: {dusty: {hours: 125}}");
  if (!conditions) return;
  for (const Field& condition : *conditions) {
    reader.good_name(condition.name, reader.spot(condition.key));
    reader.draft.conditions_named.emplace(condition.name);
    into.task.in.emplace_back(condition.name, read_limbs(reader, condition, Limbs::all, into.limbs));
  }
}

void read_task_grace(const Reader& reader, const Field& field, TaskDraft& into) {
  into.task.grace = read_grace(reader, field);
  into.grace = reader.spot(field.key);
}

void read_counts_from(const Reader& reader, const Field& field, TaskDraft& into) {
  constexpr CountsFrom meanings[] = {CountsFrom::done, CountsFrom::due, CountsFrom::earlier};
  if (const auto chosen = reader.choice(field, {"done", "due", "earlier"})) into.task.counts_from = meanings[*chosen];
}

void read_until(const Reader& reader, const Field& field, TaskDraft& into) {
  into.task.until_month_end = reader.choice(field, {"month-end"}).has_value();
  into.until = reader.spot(field.key);
}

void read_by_whom(const Reader& reader, const Field& field, TaskDraft& into) {
  into.task.competent_person = reader.choice(field, {"competent-person"}).has_value();
}

void read_covers(const Reader& reader, const Field& field, TaskDraft& into) {
  into.covers = reader.distinct_mentions(field);
  for (const Mention& covered : into.covers) into.task.covers.push_back(covered.name);
}

void read_cautions(const Reader& reader, const Field& field, TaskDraft& into) {
  for (const Field& item : reader.list(field, "write a list: [hot-fluid, \"Mind the geese\"]")) {
    auto one = reader.text(item);
    if (one && check_caution(*one, reader.spot(item), reader.diagnostics())) {
      into.task.cautions.push_back(std::move(*one));
    }
  }
}

struct FollowUpDraft {
  FollowUp follow_up;
  LimbNotes* limbs = nullptr;
};

constexpr Key<FollowUpDraft> follow_up_keys[] = {
    {"do", [](const Reader& r, const Field& f, FollowUpDraft& d) { d.follow_up.doing = r.text(f).value_or(""); },
     Need::required},
    {"within",
     [](const Reader& r, const Field& f, FollowUpDraft& d) {
       d.follow_up.within = read_limbs(r, f, Limbs::usage_and_calendar, *d.limbs);
     },
     Need::required},
    {"takes", [](const Reader& r, const Field& f, FollowUpDraft& d) { d.follow_up.takes = r.minutes(f); }},
    {"tools", [](const Reader& r, const Field& f, FollowUpDraft& d) { d.follow_up.tools = r.texts(f); }},
};

void read_follow_ups(const Reader& reader, const Field& field, TaskDraft& into) {
  const auto fields = reader.map(field, "write {check-leaks: {do: Look for leaks, within: {hours: 1}}}");
  if (!fields) return;
  for (const Field& one : *fields) {
    reader.good_name(one.name, reader.spot(one.key));
    FollowUpDraft draft;
    draft.follow_up.name = one.name;
    draft.limbs = &into.limbs;
    read_keys(reader, one, "a check after a task", follow_up_keys, draft);
    into.task.follow_ups.push_back(std::move(draft.follow_up));
  }
}

constexpr Key<TaskDraft> task_keys[] = {
    {"do", [](const Reader& r, const Field& f, TaskDraft& d) { d.task.doing = r.text(f).value_or(""); },
     Need::required},
    {"every", read_every, Need::required},
    {"first", read_first},
    {"in", read_in},
    {"grace", read_task_grace},
    {"safety", [](const Reader& r, const Field& f, TaskDraft& d) { d.task.safety = r.yes_or_no(f).value_or(false); }},
    {"counts-from", read_counts_from},
    {"until", read_until},
    {"covers", read_covers},
    {"follow-up", read_follow_ups},
    {"positions", [](const Reader& r, const Field& f, TaskDraft& d) { d.task.positions = read_positions(r, f); }},
    {"takes", [](const Reader& r, const Field& f, TaskDraft& d) { d.task.takes = r.minutes(f); }},
    {"late", [](const Reader& r, const Field& f, TaskDraft& d) { d.task.late = r.exact<Money>(f); }},
    {"needs", [](const Reader& r, const Field& f, TaskDraft& d) { d.task.needs = r.distinct_names(f); }},
    {"people",
     [](const Reader& r, const Field& f, TaskDraft& d) {
       d.task.people = r.count(f, {1, 100}).value_or(1);
     }},
    {"by-whom", read_by_whom},
    {"parts", [](const Reader& r, const Field& f, TaskDraft& d) { d.task.parts = read_part_counts(r, f); }},
    {"fluids", [](const Reader& r, const Field& f, TaskDraft& d) { d.task.fluids = read_fluids(r, f); }},
    {"tools", [](const Reader& r, const Field& f, TaskDraft& d) { d.task.tools = r.texts(f); }},
    {"cautions", read_cautions},
    {"steps", [](const Reader& r, const Field& f, TaskDraft& d) { d.task.steps = r.texts(f); }},
    {"notes", [](const Reader& r, const Field& f, TaskDraft& d) { d.task.notes = r.text(f).value_or(""); }},
};

void read_tasks(const Reader& reader, const Field& field, ScheduleDraft& into) {
  const auto fields = reader.map(field, "write the tasks, each under its name");
  into.tasks_unsure = !fields;
  if (!fields) return;
  check_has_tasks(!fields->empty(), reader.spot(field), reader.diagnostics());
  for (const Field& one : *fields) {
    reader.good_name(one.name, reader.spot(one.key));
    TaskDraft draft;
    draft.task.name = one.name;
    draft.task.place = reader.spot(one.key).place();
    read_keys(reader, one, "a task", task_keys, draft);
    into.tasks.push_back(std::move(draft));
  }
}

void read_name(const Reader& reader, const Field& field, ScheduleDraft& into) {
  const auto name = reader.name(field);
  if (!name || *name == into.schedule.name) return;
  reader.error(code::schedule_name, reader.spot(field),
               fmt::format("the schedule is called `{}`, but its file `{}.yaml`", *name, cleaned(into.schedule.name)),
               fmt::format("write `schedule: {}`, or rename the file", cleaned(into.schedule.name)));
}

constexpr Key<ScheduleDraft> schedule_keys[] = {
    {"schedule", read_name, Need::required},
    {"meters", [](const Reader& r, const Field& f, ScheduleDraft& d) { d.schedule.meters = read_meters(r, f); }},
    {"tasks", read_tasks, Need::required},
    {"example",
     [](const Reader& r, const Field& f, ScheduleDraft& d) { d.schedule.example = r.yes_or_no(f).value_or(false); }},
};

}  // namespace

std::vector<std::pair<std::string, PartAmount>> read_part_counts(const Reader& reader, const Field& field) {
  std::vector<std::pair<std::string, PartAmount>> parts;
  const auto fields = reader.map(field, "write the part and how many: {oil-filter-a: 1}");
  if (!fields) return parts;
  for (const Field& one : *fields) {
    reader.good_name(one.name, reader.spot(one.key));
    reader.draft.mentions_of(Noun::part).push_back({std::string(one.name), reader.spot(one.key)});
    if (const auto count = reader.positive<PartAmount>(one)) parts.emplace_back(one.name, *count);
  }
  return parts;
}

std::vector<std::pair<std::string, Quantity>> read_fluids(const Reader& reader, const Field& field) {
  std::vector<std::pair<std::string, Quantity>> fluids;
  const auto fields = reader.map(field, "write the fluid and how much: {engine-oil-15w40: 11.5 L}");
  if (!fields) return fluids;
  for (const Field& one : *fields) {
    reader.good_name(one.name, reader.spot(one.key));
    reader.draft.mentions_of(Noun::part).push_back({std::string(one.name), reader.spot(one.key)});
    if (auto quantity = reader.quantity(one)) fluids.emplace_back(one.name, std::move(*quantity));
  }
  return fluids;
}

std::vector<std::string> read_positions(const Reader& reader, const Field& field) {
  std::vector<std::string> positions;
  std::unordered_set<std::string> seen;
  for (const Field& item : reader.list(field, "write the positions: [front-left, front-right]")) {
    auto one = reader.text(item);
    if (!one) continue;
    if (!check_position(*one, seen, reader.spot(item), reader.diagnostics())) continue;
    positions.push_back(std::move(*one));
  }
  if (field.value->kind == Node::Kind::list && field.value->items.empty()) {
    reader.error(code::empty_value, reader.spot(field), "`positions` has no value",
                 "write the positions, or leave the key out");
  }
  return positions;
}

ScheduleDraft read_schedule(const Reader& reader, const Node& root, const std::string& stem) {
  ScheduleDraft draft;
  // The file's name is the one that counts, so that machines find their schedule whatever stands inside.
  draft.schedule.name = stem;
  draft.schedule.meters = {{"engine", "h", std::nullopt}};
  draft.tasks_unsure = true;
  read_keys(reader, {reader.source().name(), {}, &root}, "a schedule", schedule_keys, draft);
  return draft;
}

}  // namespace service::fleet
