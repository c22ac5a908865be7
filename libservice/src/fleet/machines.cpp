#include "fleet/machines.h"

#include "fleet/keys.h"
#include "fleet/limbs.h"
#include "fleet/schedules.h"

namespace service::fleet {
namespace {

struct StartDraft {
  std::optional<DaySpan> on;
  std::optional<Amount> at;
  std::optional<Spot> at_spot;
};

constexpr Key<StartDraft> start_keys[] = {
    {"on", [](const Reader& r, const Field& f, StartDraft& d) { d.on = r.day_span(f); }, Need::required},
    {"at",
     [](const Reader& r, const Field& f, StartDraft& d) {
       d.at = r.exact<Amount>(f);
       d.at_spot = r.spot(f.key);
     }},
};

void read_start(const Reader& reader, const Field& field, StartKind kind, MachineDraft& into) {
  if (into.start) {
    reader.error(code::two_starts, reader.spot(field.key), "a machine was either put in service new or bought used",
                 "keep `in-service:` for a new one, `bought:` for a used one");
    return;
  }
  into.start = reader.spot(field.key);
  StartDraft draft;
  if (field.value->kind == Node::Kind::map) {
    read_keys(reader, field, fmt::format("`{}`", field.name), start_keys, draft);
  } else {
    draft.on = reader.day_span(field);
  }
  into.start_at = draft.at_spot;
  if (!draft.on) return;
  // A new machine's meter starts at nothing; what a used one showed is not known until somebody says so.
  if (!draft.at && kind == StartKind::in_service) draft.at = Amount{};
  into.machine.start = {kind, *draft.on, draft.at};
}

void read_expect(const Reader& reader, const Field& field, MachineDraft& into) {
  const auto fields = reader.map(field, "write {per-year: 450, harvest: 180}");
  if (!fields) return;
  into.expect = reader.spot(field.key);
  Expect& expect = into.machine.expect;
  for (const Field& one : *fields) {
    const auto amount = reader.exact<Amount>(one);
    if (one.name == "per-year") {
      expect.per_year = amount;
    } else {
      reader.draft.mentions_of(Noun::season).push_back({std::string(one.name), reader.spot(one.key)});
      if (amount) expect.by_season.emplace_back(one.name, *amount);
    }
  }
}

constexpr Key<ChangeDraft> change_keys[] = {
    {"every",
     [](const Reader& r, const Field& f, ChangeDraft& d) {
       d.change.every = read_limbs(r, f, Limbs::all, d.limbs);
       d.every = r.spot(f.key);
     }},
    {"first",
     [](const Reader& r, const Field& f, ChangeDraft& d) {
       d.change.first = read_limbs(r, f, Limbs::all, d.limbs);
       d.first = r.spot(f.key);
     }},
    {"grace",
     [](const Reader& r, const Field& f, ChangeDraft& d) {
       d.change.grace = read_grace(r, f);
       d.grace = r.spot(f.key);
     }},
    {"positions", [](const Reader& r, const Field& f, ChangeDraft& d) { d.change.positions = read_positions(r, f); }},
    {"takes", [](const Reader& r, const Field& f, ChangeDraft& d) { d.change.takes = r.minutes(f); }},
    {"parts", [](const Reader& r, const Field& f, ChangeDraft& d) { d.change.parts = read_part_counts(r, f); }},
    {"fluids", [](const Reader& r, const Field& f, ChangeDraft& d) { d.change.fluids = read_fluids(r, f); }},
    {"notes", [](const Reader& r, const Field& f, ChangeDraft& d) { d.change.notes = r.text(f); }},
};

void read_change(const Reader& reader, const Field& field, MachineDraft& into) {
  const auto fields = reader.map(field, "write the task and what differs: {engine-oil: {every: {hours: 200}}}");
  if (!fields) return;
  for (const Field& one : *fields) {
    ChangeDraft draft;
    draft.change.task = one.name;
    draft.spot = reader.spot(one.key);
    read_keys(reader, one, "a change to a task", change_keys, draft);
    into.changes.push_back(std::move(draft));
  }
}

void read_conditions(const Reader& reader, const Field& field, MachineDraft& into) {
  for (Mention& condition : reader.distinct_mentions(field)) {
    into.machine.conditions.push_back(condition.name);
    reader.draft.conditions.push_back(std::move(condition));
  }
}

constexpr Key<MachineDraft> machine_keys[] = {
    {"name",
     [](const Reader& r, const Field& f, MachineDraft& d) { d.machine.name = r.text(f).value_or(d.machine.key); }},
    {"schedule",
     [](const Reader& r, const Field& f, MachineDraft& d) {
       d.machine.schedule = r.text(f).value_or("");
       d.schedule = r.spot(f);
     },
     Need::required},
    {"site",
     [](const Reader& r, const Field& f, MachineDraft& d) {
       d.machine.site = r.text(f).value_or("");
       if (!d.machine.site.empty()) r.draft.mentions_of(Noun::site).push_back({d.machine.site, r.spot(f)});
     }},
    {"in-service",
     [](const Reader& r, const Field& f, MachineDraft& d) { read_start(r, f, StartKind::in_service, d); }},
    {"bought", [](const Reader& r, const Field& f, MachineDraft& d) { read_start(r, f, StartKind::bought, d); }},
    {"left",
     [](const Reader& r, const Field& f, MachineDraft& d) {
       d.machine.left = r.day(f);
       d.left = r.spot(f);
     }},
    {"meters",
     [](const Reader& r, const Field& f, MachineDraft& d) {
       d.machine.meters = read_meters(r, f);
       d.own_meters = true;
     }},
    {"expect", read_expect},
    {"conditions", read_conditions},
    {"change", read_change},
    {"serial", [](const Reader& r, const Field& f, MachineDraft& d) { d.machine.serial = r.text(f).value_or(""); }},
    {"notes", [](const Reader& r, const Field& f, MachineDraft& d) { d.machine.notes = r.text(f).value_or(""); }},
};

}  // namespace

void read_machines(const Reader& reader, const Field& field) {
  const auto fields = reader.map(field, "write the machines, each under its name");
  if (!fields) {
    reader.draft.unsure_of(Noun::machine) = true;
    return;
  }
  reader.draft.machines.reserve(fields->size());
  for (const Field& one : *fields) {
    reader.good_name(one.name, reader.spot(one.key));
    MachineDraft draft;
    draft.machine.key = one.name;
    draft.machine.name = one.name;
    draft.key = reader.spot(one.key);
    draft.machine.place = draft.key.place();
    read_keys(reader, one, "a machine", machine_keys, draft);
    reader.draft.machines.push_back(std::move(draft));
  }
}

}  // namespace service::fleet
