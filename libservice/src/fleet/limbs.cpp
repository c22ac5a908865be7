#include "fleet/limbs.h"

#include <algorithm>
#include <iterator>

#include "fleet/keys.h"
#include "fleet/limb_sizes.h"

namespace service::fleet {
namespace {

constexpr std::string_view limbs_hint = "write it like {hours: 250, months: 12}";

// The limbs of one interval while they are read.
struct Interval {
  std::vector<Limb> limbs;
  LimbNotes* notes = nullptr;
  Limbs allowed = Limbs::all;
  std::string calendar_unit;  // the one given so far
};

void read_usage_limb(const Reader& reader, const Field& field, std::optional<std::string> meter, Interval& into) {
  into.notes->meters.push_back({meter.value_or(std::string()), reader.spot(field.key), into.notes->intervals});
  if (const auto every = reader.positive<Amount>(field)) into.limbs.emplace_back(UsageLimb{std::move(meter), *every});
}

// The entries of a limb that takes several; one that names none would be an interval without an end.
std::vector<Field> entries_of(const Reader& reader, const Field& field, std::string_view hint) {
  auto fields = reader.map(field, hint);
  if (!fields) return {};
  if (fields->empty()) {
    reader.error(code::no_limb, reader.spot(field), fmt::format("`{}` is empty", cleaned(field.name)),
                 std::string(hint));
  }
  return std::move(*fields);
}

void read_hours(const Reader& reader, const Field& field, Interval& into) {
  read_usage_limb(reader, field, std::nullopt, into);
}

void read_usage(const Reader& reader, const Field& field, Interval& into) {
  for (const Field& meter : entries_of(reader, field, "write the meter and its usage: {separator: 300}")) {
    if (!reader.good_name(meter.name, reader.spot(meter.key))) continue;
    read_usage_limb(reader, meter, std::string(meter.name), into);
  }
}

template <CalendarUnit unit>
void read_calendar(const Reader& reader, const Field& field, Interval& into) {
  const auto count = reader.count(field, {1, most_of(unit)});
  if (!into.calendar_unit.empty()) {
    reader.error(
        code::two_calendar_units, reader.spot(field.key),
        fmt::format("`{}` stands beside `{}`; an interval has one calendar unit", field.name, into.calendar_unit),
        "keep the one that the manual gives");
    return;
  }
  into.calendar_unit = field.name;
  if (count) into.limbs.emplace_back(CalendarLimb{{unit, *count}});
}

bool refused(const Reader& reader, const Field& field, const Interval& into) {
  if (into.allowed == Limbs::all) return false;
  reader.error(code::wrong_limb, reader.spot(field.key),
               fmt::format("`{}` cannot say when a check after a task is owed", field.name),
               "use hours, usage, days, weeks or months");
  return true;
}

void read_changes(const Reader& reader, const Field& field, Interval& into) {
  if (refused(reader, field, into)) return;
  for (const Field& task : entries_of(reader, field, "write the task and the number of times: {air-primary: 3}")) {
    into.notes->changes.push_back({std::string(task.name), reader.spot(task.key)});
    if (const auto count = reader.count(task, {1, most_changes})) {
      into.limbs.emplace_back(ChangesLimb{std::string(task.name), *count});
    }
  }
}

struct MeasuredDraft {
  std::optional<Measure> above;
  std::optional<Measure> below;
  bool above_given = false;
  bool below_given = false;
  std::string unit;
};

constexpr Key<MeasuredDraft> measured_keys[] = {
    {"above",
     [](const Reader& r, const Field& f, MeasuredDraft& m) {
       m.above_given = true;
       m.above = r.parsed(f, parse_measure, wanted::number);
     }},
    {"below",
     [](const Reader& r, const Field& f, MeasuredDraft& m) {
       m.below_given = true;
       m.below = r.parsed(f, parse_measure, wanted::number);
     }},
    {"unit", [](const Reader& r, const Field& f, MeasuredDraft& m) { m.unit = r.line(f).value_or(""); },
     Need::required},
};

void read_measured(const Reader& reader, const Field& field, Interval& into) {
  if (refused(reader, field, into)) return;
  constexpr std::string_view hint = "write what is measured and its limit: {restriction: {above: 25, unit: inH2O}}";
  for (const Field& name : entries_of(reader, field, hint)) {
    reader.good_name(name.name, reader.spot(name.key));
    MeasuredDraft draft;
    read_keys(reader, name, "a measured limit", measured_keys, draft);
    if (name.value->kind == Node::Kind::map && draft.above_given == draft.below_given) {
      reader.error(code::above_or_below, reader.spot(name.key),
                   fmt::format("`{}` needs either `above` or `below`", cleaned(name.name)),
                   "write `above:` for what rises to its limit, `below:` for what wears away");
      continue;
    }
    const auto limit = draft.above_given ? draft.above : draft.below;
    if (limit) into.limbs.emplace_back(MeasuredLimb{std::string(name.name), draft.above_given, *limit, draft.unit});
  }
}

void read_signs(const Reader& reader, const Field& field, Interval& into) {
  if (refused(reader, field, into)) return;
  auto signs = reader.distinct_names(field);
  if (!signs.empty()) {
    into.limbs.emplace_back(SignLimb{std::move(signs)});
  } else if (field.value->kind == Node::Kind::list && field.value->items.empty()) {
    reader.error(code::no_limb, reader.spot(field), "`signs` is empty", "write the signs: [leak, hard-start]");
  }
}

Parsed<int> parse_lead(std::string_view text) {
  constexpr std::string_view before = " before";
  if (!text.ends_with(before)) return {{}, "does not end with the word before"};
  text.remove_suffix(before.size());
  return parse_days_or_weeks(text);
}

constexpr Wanted a_lead{code::bad_number_of_days, "a time before the season", "write 14 days before or 2 weeks before"};

void read_season(const Reader& reader, const Field& field, Interval& into) {
  if (refused(reader, field, into)) return;
  constexpr std::string_view hint = "write the season and the time before it: {harvest: 14 days before}";
  for (const Field& season : entries_of(reader, field, hint)) {
    reader.draft.mentions_of(Noun::season).push_back({std::string(season.name), reader.spot(season.key)});
    const auto lead = reader.parsed(season, parse_lead, a_lead);
    if (!lead) continue;
    if (*lead > longest_lead) {
      reader.complain_range(season, counted(*lead, "day before", "days before"), "0", "364 days before");
    } else {
      into.limbs.emplace_back(SeasonLimb{std::string(season.name), *lead});
    }
  }
}

constexpr Key<Interval> limb_keys[] = {
    {"hours", read_hours},
    {"usage", read_usage},
    {"days", read_calendar<CalendarUnit::days>},
    {"weeks", read_calendar<CalendarUnit::weeks>},
    {"months", read_calendar<CalendarUnit::months>},
    {"years", read_calendar<CalendarUnit::years>},
    {"changes", read_changes},
    {"measured", read_measured},
    {"signs", read_signs},
    {"season", read_season},
};

// What a check after a task can be owed by; the rest is read to be refused by name.
constexpr Key<Interval> within_keys[] = {
    {"hours", read_hours},
    {"usage", read_usage},
    {"days", read_calendar<CalendarUnit::days>},
    {"weeks", read_calendar<CalendarUnit::weeks>},
    {"months", read_calendar<CalendarUnit::months>},
    {"years", read_calendar<CalendarUnit::years>},
};

bool names_limb_of_tasks_alone(const Node& interval) {
  return std::any_of(interval.entries.begin(), interval.entries.end(), [](const Entry& entry) {
    const auto is_called = [&](const Key<Interval>& key) { return key.name == entry.key.text; };
    return std::any_of(std::begin(limb_keys), std::end(limb_keys), is_called) &&
           std::none_of(std::begin(within_keys), std::end(within_keys), is_called);
  });
}

struct GraceDraft {
  Grace grace;
  bool days_given = false;
};

void read_grace_days(const Reader& reader, const Field& field, GraceDraft& into, int days_each, int most) {
  const auto count = reader.count(field, {0, most});
  if (into.days_given) {
    reader.error(code::two_calendar_units, reader.spot(field.key), "`days` and `weeks` stand side by side", "keep one");
  } else if (count) {
    into.grace.days = *count * days_each;
  }
  into.days_given = true;
}

void read_grace_usage(const Reader& reader, const Field& field, GraceDraft& into) {
  const auto meters = reader.map(field, "write the meter and its usage: {separator: 10}");
  if (!meters) return;
  for (const Field& meter : *meters) {
    reader.draft.grace_meters.push_back({std::string(meter.name), reader.spot(meter.key)});
    if (const auto amount = reader.exact<Amount>(meter)) into.grace.usage.emplace(meter.name, *amount);
  }
}

constexpr Key<GraceDraft> grace_keys[] = {
    {"hours", [](const Reader& r, const Field& f, GraceDraft& g) { g.grace.hours = r.exact<Amount>(f); }},
    {"usage", read_grace_usage},
    {"days",
     [](const Reader& r, const Field& f, GraceDraft& g) { read_grace_days(r, f, g, 1, most_of(CalendarUnit::days)); }},
    {"weeks",
     [](const Reader& r, const Field& f, GraceDraft& g) { read_grace_days(r, f, g, 7, most_of(CalendarUnit::weeks)); }},
    {"changes",
     [](const Reader& r, const Field& f, GraceDraft& g) {
       g.grace.changes = r.count(f, {0, most_changes});
     }},
};

constexpr Key<Meter> meter_keys[] = {
    {"unit", [](const Reader& r, const Field& f, Meter& m) { m.unit = r.line(f).value_or(""); }, Need::required},
    {"rolls-over-at", [](const Reader& r, const Field& f, Meter& m) { m.rolls_over_at = r.positive<Amount>(f); }},
};

}  // namespace

std::vector<Limb> read_limbs(const Reader& reader, const Field& field, Limbs allowed, LimbNotes& notes) {
  Interval interval;
  interval.notes = &notes;
  interval.allowed = allowed;
  ++notes.intervals;
  if (field.value->kind != Node::Kind::map) {
    reader.map(field, limbs_hint);
    return {};
  }
  if (field.value->entries.empty()) {
    reader.error(code::no_limb, reader.spot(field), fmt::format("`{}` names no limb", cleaned(field.name)),
                 std::string(limbs_hint));
    return {};
  }
  if (allowed == Limbs::all || names_limb_of_tasks_alone(*field.value)) {
    read_keys(reader, field, "an interval", limb_keys, interval);
  } else {
    read_keys(reader, field, "an interval", within_keys, interval);
  }
  return std::move(interval.limbs);
}

std::optional<Grace> read_grace(const Reader& reader, const Field& field) {
  const Node::Kind kind = field.value->kind;
  if (kind == Node::Kind::scalar) {
    Grace grace;
    grace.percent_hundredths = reader.percent_hundredths(field, {0, 100});
    return grace;
  }
  if (kind != Node::Kind::map) {
    reader.map(field, "write 10%, or {hours: 10, days: 14}");
    return std::nullopt;
  }
  GraceDraft draft;
  read_keys(reader, field, "a grace", grace_keys, draft);
  return draft.grace;
}

std::vector<Meter> read_meters(const Reader& reader, const Field& field) {
  std::vector<Meter> meters;
  const auto fields = reader.map(field, "write {engine: {unit: h}}, or {} for a machine without a meter");
  if (!fields) return meters;
  for (const Field& one : *fields) {
    reader.good_name(one.name, reader.spot(one.key));
    Meter meter;
    meter.name = one.name;
    read_keys(reader, one, "a meter", meter_keys, meter);
    meters.push_back(std::move(meter));
  }
  return meters;
}

}  // namespace service::fleet
