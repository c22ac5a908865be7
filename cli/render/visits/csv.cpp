#include <fmt/format.h>

#include "render/shared/csv_rows.h"
#include "render/shared/mend_words.h"
#include "render/shared/resources_words.h"
#include "render/shared/trip_csv.h"
#include "render/shared/trip_words.h"
#include "render/shared/words.h"
#include "render/visits/visits.h"
#include "render/visits/words.h"

namespace cli {
namespace {

using service::VisitsPlan;

// In the order in which they are read; what fewer ask for stands behind.
std::vector<std::string> first_columns() {
  return columns_with({"row",
                       "on",
                       "site",
                       "customer",
                       "crew",
                       "machine",
                       "task",
                       "position",
                       "do",
                       "due_on",
                       "early_days",
                       "late_days",
                       "early",
                       "late",
                       "reason",
                       "why",
                       "cautions",
                       "trip_cost",
                       "work_min",
                       "drive_min",
                       "km",
                       "set_up_min",
                       "parts",
                       "fluids",
                       "takes_minutes",
                       "takes_people",
                       "takes_parts",
                       "takes_fluids",
                       "contact",
                       "access",
                       "safety",
                       "competent_person",
                       "do_not_run",
                       "keep_out_of_use",
                       "standing",
                       "by_estimate",
                       "past_grace_by_estimate",
                       "doubtful",
                       "due_span_p10",
                       "due_span_p50",
                       "due_span_p90",
                       "included_in_task",
                       "included_in_position",
                       "own_day",
                       "own_cost",
                       "full_day",
                       "lacking",
                       "sites",
                       "trips",
                       "minutes",
                       "has_minutes",
                       "meter",
                       "kind",
                       "state",
                       "since",
                       "until",
                       "sign",
                       "fact",
                       "found",
                       "note",
                       "again_on",
                       "say",
                       "call",
                       "full_by",
                       "next_best_on",
                       "next_best_crew",
                       "next_best_made",
                       "next_best_cost",
                       "also_there",
                       "limit",
                       "longest_stay_min",
                       "part",
                       "unit",
                       "short_by",
                       "short_on",
                       "there",
                       "short"},
                      {columns_of_unknown(), columns_of_gaps(), columns_of_to_mend(), columns_of_seen(),
                       columns_of_machines(), columns_of_stopped()});
}

// What came later stands behind the older ones, for a program may count them.
std::vector<std::string> columns() {
  std::vector<std::string> columns = first_columns();
  for (const char* later : {"safety_left", "by", "fills_up"}) columns.emplace_back(later);
  return columns;
}

std::string joined(const std::vector<std::string>& words, const char* between) {
  return csv_text(fmt::format("{}", fmt::join(words, between)));
}

// As the parts to load are written.
std::string fills_up(const SiteVisit& visit) {
  service::Resources load;
  load.parts = visit.fills_up;
  return joined(part_words(load), ", ");
}

service::Resources load_of(const SiteVisit& visit) {
  service::Resources load;
  load.parts = visit.parts;
  load.fluids = visit.fluids;
  return load;
}

class Rows {
 public:
  explicit Rows(const VisitsList& list)
      : list_(list),
        plan_(list.plan),
        fleet_(list.fleet()),
        stopped_(*plan_.list),
        table_(table_of(columns(), stopped_, fleet_)) {}

  void visit(const SiteVisit& visit) {
    CsvCells cells = cells_at("visit", visit);
    const service::Resources load = load_of(visit);
    cells.insert(cells.end(), {{"customer", csv_text(visit.site->customer)},
                               {"trip_cost", to_text(visit.trip_cost)},
                               {"early", to_text(visit.early)},
                               {"late", to_text(visit.late)},
                               {"work_min", std::to_string(visit.work_minutes)},
                               {"drive_min", std::to_string(visit.drive_minutes)},
                               {"km", service::hundredths_to_text(std::int64_t{visit.tenths_of_km} * 10)},
                               {"set_up_min", std::to_string(visit.set_up_minutes)},
                               {"parts", joined(part_words(load), ", ")},
                               {"fluids", joined(fluid_words(load), ", ")},
                               {"fills_up", fills_up(visit)},
                               {"contact", csv_text(visit.site->contact)},
                               {"access", csv_text(visit.site->access)},
                               {"safety", yes_or_no(visit.safety)},
                               {"also_there", also_there(visit)},
                               {"cautions", joined(visit.cautions, "; ")},
                               {"safety_left", safety_left(visit)},
                               {"short", joined(lack_lines(lacks_of(list_, visit), plan_.as_of), "; ")}});
    table_.add(cells);
    for (const TripTask& task : visit.tasks) one(visit, task);
  }

  void not_possible(const service::NotPossible& out) {
    CsvCells cells = of_point("not-possible", *out.point);
    cells.insert(cells.end(), {{"reason", std::string(service::to_text(out.reason))},
                               {"why", csv_text(why_words(list_, out))},
                               {"lacking", joined_names(out.lacking)},
                               {"keep_out_of_use", yes_or_no(keep_out_of_use(out))}});
    if (out.reason == service::PutOffReason::unreachable && !out.days_full) {
      cells.insert(cells.end(), {{"limit", std::string(service::to_text(out.limit))},
                                 {"longest_stay_min", std::to_string(std::max(0, out.longest_stay))}});
    }
    table_.add(cells);
  }

  void points(const char* row, const std::vector<service::PointName>& points) {
    add_unknown(table_, points, fleet_, row);
  }

  void not_planned(const service::NotPlanned& row) {
    CsvCells cells = cells_of("not-planned", row.point, fleet_);
    cells.insert(cells.end(), {{"reason", std::string(service::to_text(row.reason))},
                               {"say", csv_text(not_planned_words(list_, row))}});
    add_what_was_said(cells, row);
    table_.add(cells);
  }

  void crowded(const service::CrowdedDay& day) {
    std::vector<std::string> sites;
    for (const service::Site* site : day.sites) sites.push_back(site->key);
    table_.add({{"row", "crowded"},
                {"on", service::to_text(day.on)},
                {"crew", csv_text(day.crew->key)},
                {"sites", joined(sites, "; ")},
                {"trips", std::to_string(day.trips)},
                {"minutes", std::to_string(day.minutes)},
                {"has_minutes", std::to_string(day.has_minutes)},
                {"say", csv_text(crowded_words(day))}});
  }

  void call(const service::Call& call) {
    const service::Machine* const machine = fleet_.machine(call.machine);
    const service::Site* const site = fleet_.site(machine == nullptr ? call.site : machine->site);
    table_.add({{"row", "call"},
                {"call", csv_text(call.key)},
                {"site", site == nullptr ? "" : csv_text(site->key)},
                {"customer", site == nullptr ? "" : csv_text(site->customer)},
                {"machine", machine == nullptr ? "" : csv_text(machine->key)},
                {"do", csv_text(call.doing)},
                {"since", figure(call.from)},
                {"until", figure(call.by)},
                {"safety", yes_or_no(call.safety)},
                {"keep_out_of_use", yes_or_no(call.safety)},
                {"say", csv_text(call_words(list_, call))}});
  }

  void short_part(const service::ShortPart& part) {
    table_.add({{"row", "short"},
                {"part", csv_text(part.key)},
                {"unit", csv_text(part.unit)},
                {"short_by", to_text(part.short_by)},
                {"short_on", service::to_text(part.short_on)},
                {"there", figure(part.there)},
                {"say", csv_text(short_words(part))}});
  }

  void known() {
    for (const service::Gap& gap : list_.asked->gaps) add_gap(table_, gap, fleet_);
    for (const service::SeenSign* seen : list_.seen) add_seen(table_, *seen, fleet_);
    for (const service::WaitsToMend& one : list_.to_mend) add_to_mend(table_, one, fleet_);
    for (const service::MachineUse* use : list_.not_in_use) add_machine(table_, *use, fleet_);
    add_stopped(table_, list_.not_to_run, fleet_);
  }

  const std::string& text() const { return table_.text(); }

 private:
  static CsvCells cells_at(std::string_view row, const SiteVisit& visit) {
    return {{"row", std::string(row)},
            {"on", service::to_text(visit.on)},
            {"site", csv_text(visit.site->key)},
            {"crew", csv_text(visit.crew->key)}};
  }

  // `loader: lorry`
  static std::string also_there(const SiteVisit& visit) {
    std::vector<std::string> machines;
    for (const service::SharedMachine& one : visit.shared) {
      std::vector<std::string> crews;
      for (const service::Crew* crew : one.others) crews.push_back(crew->key);
      machines.push_back(fmt::format("{}: {}", one.machine->key, fmt::join(crews, ", ")));
    }
    return joined(machines, "; ");
  }

  // `loader: brakes: no record; pump: ...`
  std::string safety_left(const SiteVisit& visit) const {
    std::vector<std::string> lines;
    const service::Machine* before = nullptr;
    for (const service::SafetyLeft& one : visit.safety_left) {
      if (one.point.machine == before) continue;
      before = one.point.machine;
      for (const std::string& each : safety_left_lines(list_, visit, *before)) {
        lines.push_back(fmt::format("{}: {}", before->key, each));
      }
    }
    return joined(lines, "; ");
  }

  CsvCells of_point(std::string_view row, const service::Point& point) const {
    CsvCells cells = cells_of(row, point, fleet_);
    cells.insert(cells.end(),
                 {{"do", csv_text(point.follow_up != nullptr ? point.follow_up->doing : point.task->doing)},
                  {"due_on", figure(point.due_on)},
                  {"standing", std::string(service::to_text(point.standing))}});
    return cells;
  }

  void one(const SiteVisit& visit, const TripTask& task) {
    const service::Point& point = *task.point;
    const service::Resources takes = takes_of(task);
    CsvCells cells = of_point("task", point);
    cells.insert(cells.end(), {{"on", service::to_text(visit.on)},
                               {"crew", csv_text(visit.crew->key)},
                               {"early_days", std::to_string(task.early_days)},
                               {"late_days", std::to_string(task.late_days)},
                               {"early", to_text(task.early)},
                               {"late", to_text(task.late)},
                               {"reason", std::string(service::to_text(task.why))},
                               {"why", csv_text(why_words(list_, visit, task))},
                               {"takes_minutes", takes.time ? std::to_string(takes.time->count()) : ""},
                               {"takes_people", std::to_string(takes.people)},
                               {"takes_parts", joined(part_words(takes), ", ")},
                               {"takes_fluids", joined(fluid_words(takes), ", ")},
                               {"contact", csv_text(visit.site->contact)},
                               {"access", csv_text(visit.site->access)},
                               {"by_estimate", yes_or_no(point.by_estimate)},
                               {"past_grace_by_estimate", yes_or_no(point.past_grace_by_estimate)},
                               {"doubtful", yes_or_no(point.doubtful)},
                               {"due_span_p10", figure(point.due_span.p10)},
                               {"due_span_p50", figure(point.due_span.p50)},
                               {"due_span_p90", figure(point.due_span.p90)},
                               {"included_in_task", task.with == nullptr ? "" : csv_text(task.with->name)},
                               {"included_in_position", task.with == nullptr ? "" : csv_text(task.with->position)},
                               {"own_day", service::to_text(task.own_day)},
                               {"own_cost", to_text(task.own_cost)},
                               {"full_day", figure(task.full_day)},
                               {"keep_out_of_use", yes_or_no(keep_out_of_use(task))},
                               {"safety_left", joined(safety_left_lines(list_, visit, *point.machine), "; ")}});
    cells.emplace_back("short", joined(lack_lines(lacks_of(list_, task), plan_.as_of), "; "));
    if (task.full_by) cells.emplace_back("full_by", std::string(service::to_text(*task.full_by)));
    if (const auto& next = task.next_best) {
      cells.insert(cells.end(), {{"next_best_on", service::to_text(next->on)},
                                 {"next_best_crew", csv_text(next->crew->key)},
                                 {"next_best_made", yes_or_no(next->made)},
                                 {"next_best_cost", to_text(next->cost)}});
    }
    table_.add(cells);
  }

  const VisitsList& list_;
  const VisitsPlan& plan_;
  const service::Fleet& fleet_;
  service::NotToRun stopped_;
  CsvTable table_;
};

}  // namespace

std::string visits_as_csv(const VisitsList& list) {
  const VisitsPlan& plan = list.plan;
  Rows rows(list);
  for (const SiteVisit& visit : plan.visits) rows.visit(visit);
  for (const service::NotPossible& out : plan.not_possible) rows.not_possible(out);
  rows.points("no-record", plan.no_record);
  rows.points("unknown", plan.unknown);
  for (const service::NotPlanned& row : plan.not_planned) rows.not_planned(row);
  rows.known();
  for (const service::CrowdedDay& day : list.crowded) rows.crowded(day);
  rows.points("again", list.again);
  for (const service::ShortPart& part : list.short_parts) rows.short_part(part);
  for (const service::Call* call : list.calls) rows.call(*call);
  return rows.text();
}

}  // namespace cli
