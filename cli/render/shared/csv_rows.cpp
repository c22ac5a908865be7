#include "render/shared/csv_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"
#include "service/minding.h"
#include "service/workload.h"

namespace cli {
namespace {

void add_put_off(CsvCells& cells, const service::Point& point) {
  if (!point.put_off) return;
  cells.insert(cells.end(), {{"put_off_until", figure(point.put_off->until)},
                             {"put_off_at", figure(point.put_off->at)},
                             {"put_off_shown", figure(point.put_off->shown)},
                             {"put_off_by", csv_text(point.put_off->by)},
                             {"put_off_note", csv_text(point.put_off->why)},
                             {"put_off_by_estimate", yes_or_no(point.put_off->by_estimate)}});
}

void add_look(CsvCells& cells, service::Day on, const std::string& by, const service::FactId& fact) {
  cells.insert(cells.end(), {{"looked_on", to_text(on)}, {"looked_by", csv_text(by)}, {"looked_fact", to_text(fact)}});
}

// `2026-06-10: drips; 2026-06-12`: each time that something was seen.
std::string joined_sightings(const std::vector<service::Sighting>& sightings) {
  std::vector<std::string> times;
  for (const service::Sighting& one : sightings) {
    times.push_back(one.note.empty() ? to_text(one.on.first) : fmt::format("{}: {}", to_text(one.on.first), one.note));
  }
  return csv_text(fmt::format("{}", fmt::join(times, "; ")));
}

std::string with_semicolons(const std::vector<std::string>& texts) {
  std::string all;
  for (const std::string& text : texts) all.append(&text == texts.data() ? "" : "; ").append(text);
  return all;
}

// Of a row about a point; the most that it has, for room.
constexpr std::size_t most_cells = 64;

// Of a list with headings, with the one under which the row stands.
void add_under(CsvTable& table, std::string_view heading, CsvCells cells) {
  if (!heading.empty()) cells.emplace_back("heading", heading);
  table.add(cells);
}

constexpr auto of_gaps =
    std::to_array<std::string_view>({"row", "machine", "site", "customer", "fact", "meter", "kind", "since", "say"});
constexpr auto of_seen = std::to_array<std::string_view>({"row", "machine", "site", "customer", "sign", "on", "until",
                                                          "fact", "note", "found", "do_not_run", "say", "again_on",
                                                          "sightings", "looked_on", "looked_by", "looked_fact"});
constexpr auto of_machines = std::to_array<std::string_view>(
    {"row", "machine", "site", "customer", "state", "since", "until", "note", "do_not_run", "say"});
constexpr auto of_stopped =
    std::to_array<std::string_view>({"row", "machine", "site", "customer", "do_not_run", "say"});
constexpr auto of_unknown = std::to_array<std::string_view>(
    {"row", "machine", "site", "customer", "task", "position", "safety", "competent_person"});
constexpr auto of_standing = std::to_array<std::string_view>({"row",           "machine",
                                                              "site",          "customer",
                                                              "task",          "position",
                                                              "safety",        "competent_person",
                                                              "cautions",      "standing",
                                                              "by_estimate",   "due_span_p10",
                                                              "due_span_p50",  "due_span_p90",
                                                              "sooner_if",     "measure_again",
                                                              "put_off_until", "put_off_at",
                                                              "put_off_shown", "put_off_by",
                                                              "put_off_note",  "put_off_by_estimate",
                                                              "doubtful",      "past_grace_by_estimate"});

}  // namespace

CsvColumns columns_of_gaps() { return of_gaps; }
CsvColumns columns_of_seen() { return of_seen; }
CsvColumns columns_of_machines() { return of_machines; }
CsvColumns columns_of_stopped() { return of_stopped; }
CsvColumns columns_of_unknown() { return of_unknown; }
CsvColumns columns_of_standing() { return of_standing; }

std::vector<std::string> columns_with(std::vector<std::string> first, std::initializer_list<CsvColumns> rows) {
  for (const CsvColumns row : rows) {
    for (const std::string_view column : row) {
      if (std::find(first.begin(), first.end(), column) == first.end()) first.emplace_back(column);
    }
  }
  return first;
}

CsvTable table_of(std::vector<std::string> columns, const service::NotToRun& stopped, const service::Fleet& fleet) {
  return {std::move(columns), [&stopped, &fleet](std::string_view key) -> std::optional<bool> {
            const service::Machine* const machine = fleet.machine(key);
            return machine == nullptr ? std::nullopt : std::optional(stopped.holds(*machine));
          }};
}

std::vector<std::string> point_columns() {
  return columns_with(
      {"row",
       "machine",
       "site",
       "customer",
       "task",
       "position",
       "standing",
       "by_estimate",
       "past_grace_by_estimate",
       "ruled_by",
       "due_on",
       "due_span_p10",
       "due_span_p50",
       "due_span_p90",
       "sooner_if",
       "measure_again",
       "usage_every",
       "usage_used",
       "usage_left",
       "usage_estimated_used",
       "usage_estimated_left",
       "usage_unit",
       "calendar_every",
       "calendar_due_on",
       "calendar_left_days",
       "fitted_on",
       "fitted_until",
       "fitted_at",
       "unknown",
       "put_off_until",
       "put_off_at",
       "put_off_shown",
       "put_off_by",
       "put_off_note",
       "meter",
       "kind",
       "state",
       "since",
       "until",
       "note",
       "sign",
       "on",
       "fact",
       "found",
       "say",
       "safety",
       "competent_person",
       "cautions",
       "put_off_by_estimate",
       "usage_meter",
       "fitted_meter",
       "do_not_run",
       "doubtful",
       "people",
       "usage_estimated_from",
       "again_on"},
      {columns_of_standing(), columns_of_seen(), columns_of_gaps(), columns_of_machines(), columns_of_stopped()});
}

// One cell after another: a list of them would be copied, and there may be millions of rows.
CsvCells cells_of(const service::Point& point, const service::Fleet& fleet) {
  CsvCells cells = cells_of("point", point, fleet);
  cells.reserve(most_cells);
  add_standing(cells, point);
  cells.emplace_back("ruled_by", point.ruled_by ? to_text(point.limbs[*point.ruled_by].kind) : "");
  cells.emplace_back("due_on", figure(point.due_on));
  cells.emplace_back("unknown", joined_kinds(point.unknown));
  cells.emplace_back("people", std::to_string(resources_of(*point.machine, *point.task, point.follow_up).people));
  cells.emplace_back("say", csv_text(with_semicolons(limb_words(point))));
  if (const auto* usage = service::limb_of(point, service::LimbKind::usage)) {
    cells.emplace_back("usage_every", figure(usage->every));
    cells.emplace_back("usage_used", figure(usage->used));
    cells.emplace_back("usage_left", figure(usage->left));
    cells.emplace_back("usage_estimated_used", figure(usage->estimated_used));
    cells.emplace_back("usage_estimated_left", figure(usage->estimated_left));
    cells.emplace_back("usage_estimated_from", figure(estimated_from(*usage, point)));
    cells.emplace_back("usage_unit", csv_text(usage->unit));
    cells.emplace_back("usage_meter", csv_text(usage->name));
  }
  if (const auto* calendar = service::limb_of(point, service::LimbKind::calendar)) {
    cells.emplace_back("calendar_every", figure(calendar->span));
    cells.emplace_back("calendar_due_on", figure(calendar->due_on));
    cells.emplace_back("calendar_left_days", calendar->left_days ? std::to_string(*calendar->left_days) : "");
  }
  if (point.fitted) {
    cells.emplace_back("fitted_on", to_text(point.fitted->on.first));
    cells.emplace_back("fitted_until", to_text(point.fitted->on.last));
    cells.emplace_back("fitted_at", figure(point.fitted->at));
    cells.emplace_back("fitted_meter", csv_text(point.fitted->meter));
  }
  if (const auto* limb = service::limb_of(point, service::LimbKind::sign)) add_open_sign(cells, *limb);
  return cells;
}

void add_point(CsvTable& table, const service::Point& point, const service::Fleet& fleet, std::string_view heading) {
  add_under(table, heading, cells_of(point, fleet));
}

void add_gap(CsvTable& table, const service::Gap& gap, const service::Fleet& fleet, std::string_view heading) {
  const service::Machine* machine = fleet.machine(gap.machine);
  add_under(table, heading,
            {{"row", "gap"},
             {"machine", csv_text(gap.machine)},
             {"site", machine == nullptr ? "" : csv_text(machine->site)},
             {"customer", machine == nullptr ? "" : csv_text(customer_of(fleet, *machine))},
             {"fact", gap.facts.empty() ? "" : to_text(gap.facts.front())},
             {"meter", csv_text(gap.meter)},
             {"kind", std::string(to_text(gap.kind))},
             {"since", figure(gap.since)},
             {"say", csv_text(gap.say)}});
}

void add_seen(CsvTable& table, const service::SeenSign& seen, const service::Fleet& fleet, std::string_view heading) {
  const auto found = found_of(fleet, seen);
  CsvCells cells = cells_of("seen", *seen.machine, fleet);
  add_sightings(cells, seen);
  cells.insert(cells.end(), {{"found", std::string(found ? to_text(*found) : "")}, {"say", csv_text(words_of(seen))}});
  add_under(table, heading, std::move(cells));
}

void add_machine(CsvTable& table, const service::MachineUse& use, const service::Fleet& fleet,
                 std::string_view heading) {
  CsvCells cells = cells_of("machine", *use.machine, fleet);
  cells.insert(cells.end(), {{"state", std::string(service::to_text(use.state.kind))},
                             {"since", figure(use.state.since)},
                             {"until", figure(use.state.until)},
                             {"note", csv_text(use.state.note)},
                             {"say", csv_text(words_of(use.state))}});
  add_under(table, heading, std::move(cells));
}

void add_stopped(CsvTable& table, const service::NotToRun& stopped, const service::Fleet& fleet) {
  for (const service::RunBan& ban : stopped.bans()) {
    CsvCells cells = cells_of("not-to-run", *ban.machine, fleet);
    cells.emplace_back("say", csv_text(why_not_to_run(ban)));
    table.add(cells);
  }
}

void add_unknown(CsvTable& table, const std::vector<service::PointName>& points, const service::Fleet& fleet,
                 std::string_view row) {
  for (const service::PointName& point : points) table.add(cells_of(row, point, fleet));
}

CsvCells cells_of(std::string_view row, const service::Machine& machine, const service::Fleet& fleet) {
  CsvCells cells;
  cells.emplace_back("row", row);
  cells.emplace_back("machine", csv_text(machine.key));
  cells.emplace_back("site", csv_text(machine.site));
  cells.emplace_back("customer", csv_text(customer_of(fleet, machine)));
  return cells;
}

CsvCells cells_of(std::string_view row, const service::PointName& point, const service::Fleet& fleet) {
  CsvCells cells = cells_of(row, *point.machine, fleet);
  cells.insert(cells.end(), {{"task", csv_text(point.task)},
                             {"position", csv_text(point.position)},
                             {"safety", yes_or_no(point.safety)},
                             {"competent_person", yes_or_no(point.competent_person)}});
  return cells;
}

CsvCells cells_of(std::string_view row, const service::Point& point, const service::Fleet& fleet) {
  CsvCells cells = cells_of(row, *point.machine, fleet);
  cells.emplace_back("task", csv_text(point.name));
  cells.emplace_back("position", csv_text(point.position));
  cells.emplace_back("safety", yes_or_no(is_safety(point)));
  cells.emplace_back("competent_person", yes_or_no(by_competent_person(point)));
  cells.emplace_back("cautions", joined_names(point.task->all_cautions));
  return cells;
}

void add_standing(CsvCells& cells, const service::Point& point) {
  cells.emplace_back("standing", to_text(point.standing));
  cells.emplace_back("by_estimate", yes_or_no(point.by_estimate));
  cells.emplace_back("past_grace_by_estimate", yes_or_no(point.past_grace_by_estimate));
  cells.emplace_back("due_span_p10", figure(point.due_span.p10));
  cells.emplace_back("due_span_p50", figure(point.due_span.p50));
  cells.emplace_back("due_span_p90", figure(point.due_span.p90));
  cells.emplace_back("sooner_if", joined_names(point.sooner_if));
  cells.emplace_back("measure_again", joined_names(point.measure_again));
  cells.emplace_back("doubtful", yes_or_no(point.doubtful));
  add_put_off(cells, point);
}

void add_sightings(CsvCells& cells, const service::SeenSign& seen) {
  cells.insert(cells.end(), {{"sign", csv_text(seen.sign)},
                             {"on", to_text(seen.on.first)},
                             {"until", to_text(seen.on.last)},
                             {"fact", to_text(seen.fact)},
                             {"note", csv_text(seen.note)},
                             {"again_on", seen.again() == nullptr ? "" : to_text(seen.again()->on.first)},
                             {"sightings", joined_sightings(seen.sightings)}});
  if (seen.looked_on && seen.looked_fact) add_look(cells, *seen.looked_on, seen.looked_by, *seen.looked_fact);
}

void add_open_sign(CsvCells& cells, const service::LimbStanding& limb) {
  const service::NoticedSign* const sign = limb.open_sign();
  if (sign == nullptr) return;
  cells.insert(cells.end(), {{"sign", csv_text(sign->name)},
                             {"on", to_text(sign->first().on.first)},
                             {"until", to_text(sign->first().on.last)},
                             {"fact", to_text(sign->first().fact)},
                             {"note", csv_text(sign->note())},
                             {"found", std::string(limb.found ? to_text(*limb.found) : "")},
                             {"again_on", sign->again() == nullptr ? "" : to_text(sign->again()->on.first)},
                             {"sightings", joined_sightings(sign->sightings)}});
  if (sign->looks.empty()) return;
  const service::SignLook& look = sign->looks.back();
  add_look(cells, look.on, look.by, look.fact);
}

std::string joined_names(const std::vector<std::string>& names) {
  return csv_text(with_semicolons(names));  // a name may hold blanks
}

std::string joined_kinds(const std::vector<service::LimbKind>& kinds) {
  std::vector<std::string_view> names;
  for (const auto kind : kinds) names.push_back(to_text(kind));
  return fmt::format("{}", fmt::join(names, " "));
}

}  // namespace cli
