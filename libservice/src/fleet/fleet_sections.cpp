#include "fleet/fleet_sections.h"

#include "fleet/keys.h"
#include "fleet/schedules.h"
#include "fleet/travel_table.h"
#include "fleet/value_checks.h"
#include "fleet/week_hours.h"

namespace service::fleet {
namespace {

// Reads a map of things that people named, each by the same table. Where it cannot be read, nothing is said later
// about names that are missing.
template <class Thing, std::size_t N>
void read_named(const Reader& reader, const Field& field, std::string_view what, const Key<Thing> (&keys)[N],
                std::vector<Thing>& into, std::optional<Noun> noun) {
  const auto fields = reader.map(field, fmt::format("write the {}, each under its name", field.name));
  if (!fields) {
    if (noun) reader.draft.unsure_of(*noun) = true;
    return;
  }
  for (const Field& one : *fields) {
    reader.good_name(one.name, reader.spot(one.key));
    Thing thing;
    thing.key = one.name;
    read_keys(reader, one, what, keys, thing);
    into.push_back(std::move(thing));
  }
}

// A name of something else in the fleet.
std::string mention(const Reader& reader, const Field& field, Noun noun) {
  auto name = reader.text(field);
  if (!name) return {};
  reader.draft.mentions_of(noun).push_back({*name, reader.spot(field)});
  return std::move(*name);
}

// --- Sites and seasons -------------------------------------------------------------------------------------

constexpr Wanted a_coordinate{code::bad_coordinates, "latitude and longitude in degrees", "write [54.10, 3.20]"};

void read_coordinates(const Reader& reader, const Field& field, Site& into) {
  const std::vector<Field> items = reader.list(field, a_coordinate.hint);
  std::vector<Measure> degrees;
  for (const Field& item : items) {
    if (const auto one = reader.parsed(item, parse_measure, a_coordinate)) degrees.push_back(*one);
  }
  if (field.value->kind != Node::Kind::list || degrees.size() != items.size()) return;
  const auto within = [](Measure value, std::int64_t most) {
    return value.millionths >= -most * 1'000'000 && value.millionths <= most * 1'000'000;
  };
  if (degrees.size() == 2 && within(degrees[0], 90) && within(degrees[1], 180)) {
    into.at = Coordinates{degrees[0].millionths, degrees[1].millionths};
  } else {
    reader.error(code::bad_coordinates, reader.spot(field),
                 "a place is a latitude (-90 to 90) and a longitude (-180 to 180)", std::string(a_coordinate.hint));
  }
}

void read_closed(const Reader& reader, const Field& field, Site& into) {
  for (const Field& item : reader.list(field, "write days and seasons: [2026-05-04, harvest]")) {
    const auto text = reader.text(item);
    if (!text) continue;
    const bool like_a_day =
        text->size() > 4 && (*text)[4] == '-' && text->find_first_not_of("0123456789-") == std::string::npos;
    if (like_a_day) {
      if (const auto day = reader.day(item)) into.closed_on.push_back(*day);
    } else {
      into.closed_in.push_back(mention(reader, item, Noun::season));
    }
  }
}

constexpr Key<Site> site_keys[] = {
    {"name", [](const Reader& r, const Field& f, Site& s) { s.name = r.text(f).value_or(""); }},
    {"at", read_coordinates},
    {"set-up", [](const Reader& r, const Field& f, Site& s) { s.set_up = r.minutes(f).value_or(s.set_up); }},
    {"open", [](const Reader& r, const Field& f, Site& s) { s.open = read_week_hours(r, f); }},
    {"closed", read_closed},
    {"contact", [](const Reader& r, const Field& f, Site& s) { s.contact = r.text(f).value_or(""); }},
    {"access", [](const Reader& r, const Field& f, Site& s) { s.access = r.text(f).value_or(""); }},
    {"customer", [](const Reader& r, const Field& f, Site& s) { s.customer = r.text(f).value_or(""); }},
};

constexpr Wanted a_day_of_year{code::bad_day_of_year, "a day of the year", "write the month and the day: 08-01"};

constexpr Key<Season> season_keys[] = {
    {"from",
     [](const Reader& r, const Field& f, Season& s) {
       s.from = r.parsed(f, parse_month_day, a_day_of_year).value_or(s.from);
     },
     Need::required},
    {"to",
     [](const Reader& r, const Field& f, Season& s) {
       s.to = r.parsed(f, parse_month_day, a_day_of_year).value_or(s.to);
     },
     Need::required},
};

// --- Parts -------------------------------------------------------------------------------------------------

constexpr Limits lead_time_limits{0, 3650};

constexpr Key<Part> part_keys[] = {
    {"number", [](const Reader& r, const Field& f, Part& p) { p.number = r.text(f).value_or(""); }},
    {"what", [](const Reader& r, const Field& f, Part& p) { p.what = r.text(f).value_or(""); }},
    {"unit", [](const Reader& r, const Field& f, Part& p) { p.unit = r.text(f).value_or(""); }},
    {"pack", [](const Reader& r, const Field& f, Part& p) { p.pack = r.positive<PartAmount>(f); }},
    {"price", [](const Reader& r, const Field& f, Part& p) { p.price = r.exact<Money>(f); }},
    {"lead-time", [](const Reader& r, const Field& f, Part& p) { p.lead_days = r.days(f, lead_time_limits); }},
    {"stock", [](const Reader& r, const Field& f, Part& p) { p.stock = r.exact<PartAmount>(f); }},
    {"supplier", [](const Reader& r, const Field& f, Part& p) { p.supplier = r.text(f).value_or(""); }},
};

// --- Crews, travel and costs -------------------------------------------------------------------------------

void read_crew_hours(const Reader& reader, const Field& field, Crew& into) {
  into.hours = read_week_hours(reader, field);
  for (const auto& [weekday, spans] : into.hours) {
    if (spans.size() <= 1) continue;
    reader.error(code::overlapping_hours, reader.spot(field.key), "a crew has one span of hours a day",
                 "write from the start to the end of the day; the break goes under `meal:`");
    return;
  }
}

void read_carried(const Reader& reader, const Field& field, Crew& into) {
  into.carries = read_part_counts(reader, field);
  for (const auto& [part, pieces] : into.carries) reader.draft.carried.push_back({part, reader.spot(field.key)});
}

constexpr Key<Crew> crew_keys[] = {
    {"name", [](const Reader& r, const Field& f, Crew& c) { c.name = r.text(f).value_or(""); }},
    {"start", [](const Reader& r, const Field& f, Crew& c) { c.start = mention(r, f, Noun::site); }, Need::required},
    {"end", [](const Reader& r, const Field& f, Crew& c) { c.end = mention(r, f, Noun::site); }},
    {"hours", read_crew_hours, Need::required},
    {"duty", [](const Reader& r, const Field& f, Crew& c) { c.duty = r.minutes(f); }},
    {"meal", [](const Reader& r, const Field& f, Crew& c) { c.meal = r.minutes(f).value_or(c.meal); }},
    {"qualified-for", [](const Reader& r, const Field& f, Crew& c) { c.qualified_for = r.distinct_names(f); }},
    {"carries", read_carried},
    {"off", [](const Reader& r, const Field& f, Crew& c) { c.off = r.days_list(f); }},
    {"people",
     [](const Reader& r, const Field& f, Crew& c) {
       c.people = r.count(f, {1, 100}).value_or(1);
     }},
    {"speed", [](const Reader& r, const Field& f, Crew& c) { c.speed = r.speed(f); }},
    {"per-hour", [](const Reader& r, const Field& f, Crew& c) { c.per_hour = r.exact<Money>(f); }},
    {"per-km", [](const Reader& r, const Field& f, Crew& c) { c.per_km = r.exact<Money>(f); }},
};

void read_table_name(const Reader& reader, const Field& field, Travel& into) {
  const auto name = reader.text(field);
  if (!name) return;
  if (is_table_name(*name)) {
    into.table = *name;
    reader.draft.travel_table = reader.spot(field);
  } else {
    reader.error(code::bad_file_name, reader.spot(field),
                 fmt::format("{} cannot be the travel table", in_quotes(*name)),
                 "write the name of a CSV file in the same folder: travel.csv");
  }
}

constexpr Key<Travel> travel_keys[] = {
    {"road-factor",
     [](const Reader& r, const Field& f, Travel& t) {
       t.road_factor = r.exact<Factor>(f, {1, 10}).value_or(t.road_factor);
     }},
    {"speed", [](const Reader& r, const Field& f, Travel& t) { t.speed = r.speed(f).value_or(t.speed); }},
    {"table", read_table_name},
};

std::optional<int> whole_percent(const Reader& reader, const Field& field) {
  const auto hundredths = reader.percent_hundredths(field, {0, 10'000});
  if (!hundredths || *hundredths % 100 == 0) return hundredths ? std::optional(*hundredths / 100) : std::nullopt;
  reader.complain(field, {code::bad_percent, "whole percents", "write it like 300%"}, field.value->text,
                  "has decimals");
  return std::nullopt;
}

constexpr Key<Costs> cost_keys[] = {
    {"hour", [](const Reader& r, const Field& f, Costs& c) { c.hour = r.exact<Money>(f); }},
    {"km", [](const Reader& r, const Field& f, Costs& c) { c.km = r.exact<Money>(f); }},
    {"late", [](const Reader& r, const Field& f, Costs& c) { c.late_percent = whole_percent(r, f); }},
    {"later-trip", [](const Reader& r, const Field& f, Costs& c) { c.later_trip_percent = whole_percent(r, f); }},
};

// --- Calls -------------------------------------------------------------------------------------------------

constexpr Key<Call> call_keys[] = {
    {"site", [](const Reader& r, const Field& f, Call& c) { c.site = mention(r, f, Noun::site); }},
    {"machine", [](const Reader& r, const Field& f, Call& c) { c.machine = mention(r, f, Noun::machine); }},
    {"do", [](const Reader& r, const Field& f, Call& c) { c.doing = r.text(f).value_or(""); }, Need::required},
    {"takes", [](const Reader& r, const Field& f, Call& c) { c.takes = r.minutes(f).value_or(c.takes); },
     Need::required},
    {"wait", [](const Reader& r, const Field& f, Call& c) { c.wait = r.exact<Money>(f); }},
    {"from", [](const Reader& r, const Field& f, Call& c) { c.from = r.day(f); }},
    {"by", [](const Reader& r, const Field& f, Call& c) { c.by = r.day(f); }},
    {"between", [](const Reader& r, const Field& f, Call& c) { c.between = read_clock_spans(r, f); }},
    {"safety", [](const Reader& r, const Field& f, Call& c) { c.safety = r.yes_or_no(f).value_or(false); }},
    {"needs", [](const Reader& r, const Field& f, Call& c) { c.needs = r.distinct_names(f); }},
};

void check_call_as_written(const Reader& reader, const Entry& written, const Call& call) {
  if (written.value.kind != Node::Kind::map) return;
  const auto given = [&](std::string_view key) {
    return std::any_of(written.value.entries.begin(), written.value.entries.end(),
                       [&](const Entry& entry) { return entry.key.text == key; });
  };
  check_call(call, given("site"), given("machine"), reader.spot(written.key.span), reader.diagnostics());
}

}  // namespace

void read_sites(const Reader& reader, const Field& field) {
  std::vector<Site>& sites = reader.draft.fleet.sites;
  read_named(reader, field, "a site", site_keys, sites, Noun::site);
  for (Site& site : sites) {
    if (site.name.empty()) site.name = site.key;
  }
}

void read_seasons(const Reader& reader, const Field& field) {
  read_named(reader, field, "a season", season_keys, reader.draft.fleet.seasons, Noun::season);
  for (const Entry& season : field.value->entries) {
    check_season_name(season.key.text, reader.spot(season.key.span), reader.diagnostics());
  }
}

void read_parts(const Reader& reader, const Field& field) {
  Draft& draft = reader.draft;
  draft.lists_parts = field.value->kind == Node::Kind::map;
  read_named(reader, field, "a part", part_keys, draft.fleet.parts, Noun::part);
  for (const Entry& entry : field.value->entries)
    draft.parts_listed.push_back({entry.key.text, reader.spot(entry.key.span)});
}

void read_crews(const Reader& reader, const Field& field) {
  std::vector<Crew>& crews = reader.draft.fleet.crews;
  read_named(reader, field, "a crew", crew_keys, crews, std::nullopt);
  for (Crew& crew : crews) {
    if (crew.name.empty()) crew.name = crew.key;
    if (crew.end.empty()) crew.end = crew.start;
  }
}

void read_travel(const Reader& reader, const Field& field) {
  read_keys(reader, field, "`travel`", travel_keys, reader.draft.fleet.travel.emplace());
}

std::string travel_table_in(const Reader& reader, const Node& root) {
  Travel travel;
  for (const Entry& entry : root.entries) {
    if (entry.key.text != "travel") continue;
    read_keys(reader, {"travel", entry.key.span, &entry.value}, "`travel`", travel_keys, travel);
  }
  return travel.table;
}

void read_costs(const Reader& reader, const Field& field) {
  read_keys(reader, field, "`costs`", cost_keys, reader.draft.fleet.costs);
}

void read_calls(const Reader& reader, const Field& field) {
  std::vector<Call>& calls = reader.draft.fleet.calls;
  read_named(reader, field, "a call", call_keys, calls, std::nullopt);
  for (std::size_t i = 0; i < calls.size(); ++i) check_call_as_written(reader, field.value->entries[i], calls[i]);
}

}  // namespace service::fleet
