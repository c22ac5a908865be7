#include <fmt/format.h>

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

void add_item(CsvTable& table, const char* row, const service::SeasonItem& item) {
  const auto& span = item.point.due_span;
  const service::Resources& takes = item.resources;
  table.add({{"row", row},
             {"machine", csv_text(item.point.machine->key)},
             {"task", csv_text(item.point.name)},
             {"position", csv_text(item.point.position)},
             {"standing", std::string(service::to_text(item.standing))},
             {"by_estimate", yes_or_no(item.point.by_estimate)},
             {"safety", yes_or_no(item.safety)},
             {"odds", decimal(share_of(item.odds))},
             {"do_by", service::to_text(item.do_by)},
             {"due_span_p10", figure(span.p10)},
             {"due_span_p50", figure(span.p50)},
             {"due_span_p90", figure(span.p90)},
             {"gives_up", share(item.given_up)},
             {"again", share(item.again)},
             {"hardly_helps", yes_or_no(item.hardly_helps)},
             {"includes", csv_text(names_of(item.covered, " "))},
             {"takes_minutes", takes.time ? std::to_string(takes.time->count()) : ""},
             {"takes_people", std::to_string(takes.people)},
             {"takes_parts", csv_text(fmt::format("{}", fmt::join(part_words(takes), ", ")))},
             {"takes_fluids", csv_text(fmt::format("{}", fmt::join(fluid_words(takes), ", ")))}});
}

}  // namespace

std::string season_as_csv(const service::SeasonPlan& plan) {
  CsvTable table({"row",         "machine",      "task",         "position",     "standing",      "by_estimate",
                  "safety",      "odds",         "do_by",        "due_span_p10", "due_span_p50",  "due_span_p90",
                  "gives_up",    "again",        "hardly_helps", "includes",     "takes_minutes", "takes_people",
                  "takes_parts", "takes_fluids", "unknown",      "meter",        "kind",          "state",
                  "since",       "until",        "note",         "say"});
  for (const auto& item : plan.beforehand) add_item(table, "beforehand", item);
  for (const auto& item : plan.can_wait) add_item(table, "can-wait", item);
  for (const service::Point& point : plan.unknown) {
    table.add({{"row", "unknown"},
               {"machine", csv_text(point.machine->key)},
               {"task", csv_text(point.name)},
               {"position", csv_text(point.position)},
               {"unknown", joined_kinds(point.unknown)}});
  }
  for (const service::Gap& gap : plan.gaps) add_gap(table, gap);
  for (const service::MachineUse& use : plan.not_in_use) add_machine(table, use);
  return table.text();
}

}  // namespace cli
