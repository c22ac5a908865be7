#include <fmt/format.h>

#include "render/find_out/find_out.h"
#include "render/shared/csv_line.h"
#include "service/not_to_run.h"

namespace cli {

using service::to_text;

std::string find_out_as_csv(const FindOutAnswer& answer) {
  std::string text = csv_line({"kind", "machine", "on", "meter", "at", "task", "position", "name", "value", "unit",
                               "by", "note", "history", "cautions", "do_not_run"});
  const service::NotToRun stopped(answer.list);
  for (const service::MachineQuestions& asked : answer.machines) {
    for (const service::Question& question : asked.questions) {
      const service::Point* point = question.point;
      const bool is_service = question.kind == service::FactKind::service;
      const bool measurement = question.kind == service::FactKind::measurement;
      text += csv_line({std::string(to_text(question.kind)), csv_text(asked.machine->key), "",
                        measurement ? "" : csv_text(question.meter), "", is_service ? csv_text(point->name) : "",
                        point == nullptr ? "" : csv_text(point->position), measurement ? csv_text(question.name) : "",
                        "", measurement ? csv_text(question.unit) : "", "", "", is_service ? "yes" : "",
                        point == nullptr ? "" : csv_text(fmt::format("{}", fmt::join(point->task->all_cautions, "; "))),
                        yes_or_no(stopped.holds(*asked.machine))});
    }
  }
  return text;
}

}  // namespace cli
