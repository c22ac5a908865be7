#include <fmt/format.h>

#include "render/season/rows.h"
#include "render/season/season.h"
#include "render/shared/csv_rows.h"
#include "render/shared/figures.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

template <class Share>  // a share, or odds
std::string share(const std::optional<Share>& share) {
  return share ? decimal(share_of(*share)) : "";
}

void add_item(CsvTable& table, const char* row, const service::SeasonItem& item, const service::SeasonPlan& plan,
              std::string_view reason) {
  const service::Resources& takes = item.resources;
  std::vector<std::string> checks;
  for (const service::FollowUp* check : item.checks) checks.push_back(check->name);
  std::vector<std::string> signs;
  for (const service::SeenSign& seen : item.to_mend) signs.push_back(seen.sign);
  CsvCells cells = cells_of(row, item.point, *plan.fleet);
  add_standing(cells, item.point);
  cells.insert(cells.end(), {{"reason", std::string(reason)},
                             {"odds", decimal(share_of(item.odds))},
                             {"odds_before", decimal(share_of(item.odds_before))},
                             {"odds_done", share(item.odds_done)},
                             {"do_by", service::to_text(item.do_by)},
                             {"gives_up", share(item.gives_up)},
                             {"again", yes_or_no(item.again())},
                             {"round", std::to_string(item.round)},
                             {"between", std::to_string(item.between.size())},
                             {"never_wait", yes_or_no(item.never_waits())},
                             {"unknown", joined_kinds(item.point.unknown)},
                             {"includes", csv_text(included_words(item, "; "))},
                             {"included_in", csv_text(item.included_in ? task_of(*item.included_in) : "")},
                             {"to_mend", joined_names(signs)},
                             {"group", std::string(to_text(item.group()))},
                             {"checks", csv_text(fmt::format("{}", fmt::join(checks, "; ")))},
                             {"waits_for", csv_text(awaited_words(item, "; "))},
                             {"takes_minutes", takes.time ? std::to_string(takes.time->count()) : ""},
                             {"takes_people", std::to_string(takes.people)},
                             {"takes_parts", csv_text(fmt::format("{}", fmt::join(part_words(takes), ", ")))},
                             {"takes_fluids", csv_text(fmt::format("{}", fmt::join(fluid_words(takes), ", ")))}});
  table.add(cells);
}

void add_point(CsvTable& table, const char* row, const service::Point& point, const service::Fleet& fleet,
               CsvCells more) {
  CsvCells cells = cells_of(row, point, fleet);
  for (auto& cell : more) cells.push_back(std::move(cell));
  table.add(cells);
}

}  // namespace

std::string season_as_csv(const service::SeasonPlan& plan) {
  const service::Fleet& fleet = *plan.fleet;
  CsvTable table = table_of(columns_with({"row",
                                          "machine",
                                          "site",
                                          "customer",
                                          "task",
                                          "position",
                                          "standing",
                                          "by_estimate",
                                          "safety",
                                          "odds",
                                          "do_by",
                                          "due_span_p10",
                                          "due_span_p50",
                                          "due_span_p90",
                                          "gives_up",
                                          "again",
                                          "round",
                                          "between",
                                          "includes",
                                          "checks",
                                          "waits_for",
                                          "takes_minutes",
                                          "takes_people",
                                          "takes_parts",
                                          "takes_fluids",
                                          "unknown",
                                          "sooner_if",
                                          "measure_again",
                                          "meter",
                                          "kind",
                                          "state",
                                          "since",
                                          "until",
                                          "note",
                                          "say",
                                          "reason",
                                          "odds_before",
                                          "odds_done",
                                          "competent_person",
                                          "cautions",
                                          "overdue",
                                          "due",
                                          "no_record",
                                          "seen",
                                          "sign",
                                          "on",
                                          "fact",
                                          "found",
                                          "put_off_until",
                                          "put_off_at",
                                          "put_off_shown",
                                          "put_off_by",
                                          "put_off_note",
                                          "put_off_by_estimate",
                                          "never_wait",
                                          "do_not_run",
                                          "doubtful",
                                          "included_in",
                                          "group",
                                          "past_grace_by_estimate",
                                          "to_mend",
                                          "again_on"},
                                         {columns_of_standing(), columns_of_gaps(), columns_of_seen(),
                                          columns_of_machines(), columns_of_stopped()}),
                            plan.not_to_run, fleet);
  for (const auto& item : plan.beforehand) add_item(table, "beforehand", item, plan, service::to_text(item.reason));
  for (const auto& item : plan.have_ready) add_item(table, "have-ready", item, plan, "");
  for (const auto& item : plan.put_off) add_item(table, "put-off", item, plan, "");
  for (const service::SeasonAbsent& absent : plan.absent) {
    for (const auto& item : absent.items) add_item(table, "absent", item, plan, "");
  }
  for (const auto& rest : plan.not_before_end) {
    add_point(table, "not-before-end", rest.point, fleet,
              {{"odds", share(rest.odds)},
               {"sooner_if", joined_names(rest.point.sooner_if)},
               {"measure_again", joined_names(rest.point.measure_again)},
               {"doubtful", yes_or_no(rest.point.doubtful)}});
  }
  for (const service::Point& point : plan.find_out) {
    add_point(table, "find-out", point, fleet,
              {{"standing", std::string(service::to_text(point.standing))}, {"unknown", joined_kinds(point.unknown)}});
  }
  for (const service::Gap& gap : plan.gaps) add_gap(table, gap, fleet);
  for (const service::SeenSign& seen : plan.seen) add_seen(table, seen, fleet);
  for (const service::MachineUse& use : plan.not_in_use) add_machine(table, use, fleet);
  add_stopped(table, plan.not_to_run, fleet);
  for (const service::OtherMachine& other : plan.others) {
    CsvCells cells = cells_of("other", *other.machine, fleet);
    cells.insert(cells.end(), {{"overdue", std::to_string(other.overdue)},
                               {"due", std::to_string(other.due)},
                               {"no_record", std::to_string(other.no_record)},
                               {"unknown", std::to_string(other.unknown)},
                               {"seen", std::to_string(other.seen)}});
    table.add(cells);
  }
  return table.text();
}

}  // namespace cli
