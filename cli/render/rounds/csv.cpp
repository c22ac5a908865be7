#include <fmt/format.h>

#include "render/rounds/rounds.h"
#include "render/rounds/words.h"
#include "render/shared/csv_rows.h"
#include "render/shared/mend_words.h"
#include "render/shared/resources_words.h"
#include "render/shared/safety_left_words.h"
#include "render/shared/trip_csv.h"
#include "render/shared/words.h"
#include "service/broken_promise.h"
#include "service/ring_ups.h"
#include "service/run_ban.h"
#include "service/safety_left.h"
#include "service/shared_machines.h"

namespace cli {
namespace {

// In the order in which a driver reads them; what fewer ask for stands behind, and what came later behind that.
std::vector<std::string> columns() {
  auto columns = columns_with({"crew",
                               "on",
                               "visit",
                               "site",
                               "arrives",
                               "starts",
                               "ends",
                               "cautions",
                               "row",
                               "leaves",
                               "back",
                               "customer",
                               "machine",
                               "call",
                               "tasks",
                               "do",
                               "takes_parts",
                               "takes_fluids",
                               "takes_minutes",
                               "takes_people",
                               "contact",
                               "access",
                               "promised",
                               "safety",
                               "competent_person",
                               "do_not_run",
                               "drive_min",
                               "km",
                               "set_up_min",
                               "work_min",
                               "waiting",
                               "reason",
                               "why",
                               "until",
                               "cost",
                               "keep_out_of_use",
                               "task",
                               "position",
                               "meter",
                               "kind",
                               "state",
                               "since",
                               "sign",
                               "fact",
                               "found",
                               "note",
                               "say",
                               "was_crew",
                               "was_on",
                               "is_crew",
                               "is_on",
                               "needs",
                               "again_on",
                               "also_there",
                               "broken_by",
                               "short"},
                              {columns_of_unknown(), columns_of_gaps(), columns_of_to_mend(), columns_of_seen(),
                               columns_of_machines(), columns_of_stopped()});
  for (const char* later : {"was_starts", "is_starts", "ring_up", "safety_left", "by"}) columns.emplace_back(later);
  return columns;
}

std::string joined(const std::vector<std::string>& words, const char* between) {
  return csv_text(fmt::format("{}", fmt::join(words, between)));
}

std::string km_text(int tenths) { return service::hundredths_to_text(std::int64_t{tenths} * 10); }

// What every visit has, made or not.
CsvCells cells_of(std::string_view row, const RoundsList& list, const Visit& visit) {
  const service::DueList& due = *list.week().list;
  service::VisitLoad load = load_of(visit);
  service::Resources takes;
  takes.parts = std::move(load.parts);
  takes.fluids = std::move(load.fluids);
  std::vector<std::string> tasks;
  for (const service::Point* point : visit.points) tasks.push_back(task_of(*point));
  return {{"row", std::string(row)},
          {"visit", csv_text(visit.name)},
          {"site", csv_text(visit.site->key)},
          {"cautions", joined(service::cautions_of(due, visit), "; ")},
          {"customer", csv_text(visit.site->customer)},
          {"machine", visit.machine == nullptr ? "" : csv_text(visit.machine->key)},
          {"call", visit.call == nullptr ? "" : csv_text(visit.call->key)},
          {"tasks", joined(tasks, "; ")},
          {"do", joined(job_lines(list, visit), "; ")},
          {"takes_parts", joined(part_words(takes), ", ")},
          {"takes_fluids", joined(fluid_words(takes), ", ")},
          {"takes_minutes", std::to_string(visit.work_minutes)},
          {"takes_people", std::to_string(visit.people)},
          {"contact", csv_text(visit.site->contact)},
          {"access", csv_text(visit.site->access)},
          {"needs", joined_names(visit.needs)},
          {"safety", yes_or_no(visit.safety)},
          {"do_not_run", yes_or_no(forbids_running(due, visit))}};
}

// Crews that work at the same machine that day.
std::string also_there(const RoundsList& list, const service::Round& round, const service::RoundStop& stop) {
  std::vector<std::string> crews;
  for (const service::SharedMachine& one : shared_machines(list.plan, round)) {
    if (one.machine != list.week().visits[stop.visit].machine) continue;
    for (const service::Crew* crew : one.others) crews.push_back(crew->key);
  }
  return joined_names(crews);
}

void add_stop(CsvTable& table, const RoundsList& list, const service::Round& round, const service::RoundStop& stop) {
  const service::CrewDay& day = list.week().crew_days[round.crew_day];
  const auto left = safety_left(list.plan, round, stop);
  const Visit& visit = list.week().visits[stop.visit];
  CsvCells cells = cells_of("stop", list, visit);
  cells.insert(cells.end(), {{"crew", csv_text(day.crew->key)},
                             {"on", service::to_text(day.on)},
                             {"arrives", clock_words(stop.arrives)},
                             {"starts", clock_words(stop.starts)},
                             {"ends", clock_words(stop.ends)},
                             {"leaves", clock_words(round.leaves)},
                             {"back", clock_words(round.back)},
                             {"promised", yes_or_no(stop.promised)},
                             {"drive_min", std::to_string(stop.leg.minutes)},
                             {"km", km_text(stop.leg.tenths_of_km)},
                             {"set_up_min", std::to_string(stop.set_up_minutes)},
                             {"work_min", std::to_string(stop.work_minutes)},
                             {"waiting", to_text(stop.waiting)},
                             {"keep_out_of_use", yes_or_no(!keep_out_of_use(visit, day.on).empty() ||
                                                           keep_out_until_made(visit) || keep_out_of_use(left))},
                             {"safety_left", joined(safety_left_lines(left, list.week().as_of, not_this_week), "; ")},
                             {"also_there", also_there(list, round, stop)},
                             {"short", joined(lack_lines(lacks_of(list, stop), list.week().as_of), "; ")}});
  table.add(cells);
}

void add_left_out(CsvTable& table, const RoundsList& list, const service::NotThisWeek& out) {
  const Visit& visit = list.week().visits[out.visit];
  CsvCells cells = cells_of("put-off", list, visit);
  cells.insert(cells.end(), {{"reason", std::string(service::to_text(out.reason))},
                             {"why", csv_text(why_words(list, out))},
                             {"until", service::to_text(out.until)},
                             {"cost", to_text(out.cost)},
                             {"keep_out_of_use", yes_or_no(keep_out_of_use(visit))}});
  if (const auto broken = broken_promise(list.plan, out)) {
    cells.emplace_back("broken_by", std::string(to_text(rule_of(broken->why))));
  }
  table.add(cells);
}

void add_not_planned(CsvTable& table, const service::NotPlanned& row, const service::Fleet& fleet) {
  CsvCells cells{{"row", "not-planned"}};
  if (row.point.machine != nullptr) cells = cli::cells_of("not-planned", *row.point.machine, fleet);
  cells.insert(cells.end(), {{"call", row.call == nullptr ? "" : csv_text(row.call->key)},
                             {"task", csv_text(row.point.task)},
                             {"position", csv_text(row.point.position)},
                             {"safety", yes_or_no(row.point.safety)},
                             {"competent_person", yes_or_no(row.point.competent_person)},
                             {"reason", std::string(service::to_text(row.reason))},
                             {"say", csv_text(not_planned_words(row))}});
  add_what_was_said(cells, row);
  table.add(cells);
}

void add_not_in_book(CsvTable& table, const RoundsList& list, const service::NotInBook& one) {
  CsvCells cells = cli::cells_of("not-in-book", *one.point, *list.week().fleet);
  const bool keep_out = keep_out_of_use(one, list.week().to);
  cells.insert(cells.end(), {{"visit", csv_text(one.visit)},
                             {"crew", one.crew == nullptr ? "" : csv_text(one.crew->key)},
                             {"on", service::to_text(one.on)},
                             {"keep_out_of_use", yes_or_no(keep_out)},
                             {"say", csv_text(not_in_book_words(list, one, keep_out))}});
  table.add(cells);
}

void add_still_listed(CsvTable& table, const service::CallStillListed& one) {
  table.add({{"row", "not-in-book"},
             {"visit", csv_text("call " + one.call->key)},
             {"call", csv_text(one.call->key)},
             {"site", csv_text(one.site->key)},
             {"customer", csv_text(one.site->customer)},
             {"machine", one.machine == nullptr ? "" : csv_text(one.machine->key)},
             {"crew", one.crew == nullptr ? "" : csv_text(one.crew->key)},
             {"on", service::to_text(one.on)},
             {"do", csv_text(one.call->doing)},
             {"safety", yes_or_no(one.call->safety)},
             {"keep_out_of_use", yes_or_no(keep_out_of_use(one))},
             {"say", csv_text(still_listed_words(one))}});
}

// `call`: the number of the ring-up in which it is told, from 1.
void add_change(CsvTable& table, const RoundsList& list, const service::PlanChange& change, std::size_t call) {
  const auto crew = [](const auto& at) { return at ? csv_text(at->first) : ""; };
  const auto day = [](const auto& at) { return at ? service::to_text(at->second) : ""; };
  const service::Site* const site = change.site;
  table.add({{"row", "change"},
             {"visit", csv_text(change.visit)},
             {"site", site == nullptr ? "" : csv_text(site->key)},
             {"customer", site == nullptr ? "" : csv_text(site->customer)},
             {"contact", site == nullptr ? "" : csv_text(site->contact)},
             {"was_crew", crew(change.was)},
             {"was_on", day(change.was)},
             {"is_crew", crew(change.is)},
             {"is_on", day(change.is)},
             {"was_starts", change.was_starts ? clock_words(*change.was_starts) : ""},
             {"is_starts", change.is_starts ? clock_words(*change.is_starts) : ""},
             {"say", csv_text(change_words(list, change))},
             {"ring_up", std::to_string(call)}});
}

}  // namespace

std::string rounds_as_csv(const RoundsAnswer& answer) {
  const RoundsList& list = answer.list;
  const service::Week& week = list.week();
  const service::Fleet& fleet = *week.fleet;
  CsvTable table = table_of(columns(), list.not_to_run, fleet);
  for (const service::Round& round : list.plan.rounds) {
    for (const service::RoundStop& stop : round.stops) add_stop(table, list, round, stop);
  }
  for (const service::NotThisWeek& out : list.plan.not_this_week) add_left_out(table, list, out);
  add_unknown(table, week.no_record, fleet, "no-record");
  add_unknown(table, week.unknown, fleet);
  for (const service::NotPlanned& row : week.not_planned) add_not_planned(table, row, fleet);
  for (const service::NotInBook& one : week.not_in_book) add_not_in_book(table, list, one);
  for (const service::CallStillListed& one : week.calls_still_listed) add_still_listed(table, one);
  for (const service::Gap* gap : list.gaps) add_gap(table, *gap, fleet);
  for (const service::SeenSign* seen : list.seen) add_seen(table, *seen, fleet);
  for (const service::WaitsToMend& one : list.to_mend) add_to_mend(table, one, fleet);
  for (const service::MachineUse* use : list.not_in_use) add_machine(table, *use, fleet);
  add_stopped(table, list.not_to_run, fleet);
  std::size_t call = 0;
  for (const service::RingUp& ring_up : ring_ups(list.plan)) {
    ++call;
    for (const std::size_t number : ring_up.changes) add_change(table, list, list.plan.changes[number], call);
  }
  for (const service::ShortPart& part : list.short_parts) {
    table.add({{"row", "short"}, {"takes_parts", csv_text(part.key)}, {"say", csv_text(short_words(part))}});
  }
  return table.text();
}

std::string judged_as_csv(const JudgedAnswer& answer) {
  CsvTable table({"rule", "where", "says", "follow_on"});
  const auto add = [&](const service::PlanFault& fault, std::string follow_on) {
    table.add({{"rule", std::string(service::to_text(fault.rule))},
               {"where", csv_text(fault.where)},
               {"says", csv_text(fault.says)},
               {"follow_on", std::move(follow_on)}});
  };
  for (const service::PlanFault& fault : answer.judged.faults) {
    add(fault, "");
    for (const service::PlanFault& figure : fault.follow_on) add(figure, "yes");
  }
  return table.text();
}

}  // namespace cli
