#include <fmt/format.h>

#include "render/due/due.h"
#include "render/shared/csv_rows.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::LimbKind;
using service::Point;

void add_point(CsvTable& table, const Point& point) {
  CsvCells cells{{"row", "point"},
                 {"machine", csv_text(point.machine->key)},
                 {"task", csv_text(point.name)},
                 {"position", csv_text(point.position)},
                 {"standing", std::string(to_text(point.standing))},
                 {"by_estimate", yes_or_no(point.by_estimate)},
                 {"ruled_by", std::string(point.ruled_by ? to_text(point.limbs[*point.ruled_by].kind) : "")},
                 {"due_on", figure(point.due_on)},
                 {"due_span_p10", figure(point.due_span.p10)},
                 {"due_span_p50", figure(point.due_span.p50)},
                 {"due_span_p90", figure(point.due_span.p90)},
                 {"sooner_if", joined_names(point.sooner_if)},
                 {"measure_again", joined_names(point.measure_again)},
                 {"unknown", joined_kinds(point.unknown)},
                 {"say", csv_text(fmt::format("{}", fmt::join(limb_words(point), "; ")))}};
  add_marks(cells, point);
  if (const auto* usage = service::limb_of(point, LimbKind::usage)) {
    cells.insert(cells.end(), {{"usage_every", figure(usage->every)},
                               {"usage_used", figure(usage->used)},
                               {"usage_left", figure(usage->left)},
                               {"usage_estimated_used", figure(usage->estimated_used)},
                               {"usage_estimated_left", figure(usage->estimated_left)},
                               {"usage_unit", csv_text(usage->unit)}});
  }
  if (const auto* calendar = service::limb_of(point, LimbKind::calendar)) {
    cells.insert(cells.end(),
                 {{"calendar_every", figure(calendar->span)},
                  {"calendar_due_on", figure(calendar->due_on)},
                  {"calendar_left_days", calendar->left_days ? std::to_string(*calendar->left_days) : ""}});
  }
  if (point.fitted) {
    cells.insert(cells.end(), {{"fitted_on", to_text(point.fitted->on.first)},
                               {"fitted_until", to_text(point.fitted->on.last)},
                               {"fitted_at", figure(point.fitted->at)}});
  }
  if (point.put_off) {
    cells.insert(cells.end(),
                 {{"put_off_until", figure(point.put_off->until)}, {"put_off_at", figure(point.put_off->at)}});
  }
  table.add(cells);
}

}  // namespace

std::string due_as_csv(const DueAnswer& due) {
  CsvTable table({"row",
                  "machine",
                  "task",
                  "position",
                  "standing",
                  "by_estimate",
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
                  "cautions"});
  for (const Point* point : due.every().points) add_point(table, *point);
  for (const service::SeenSign& seen : due.list.seen) add_seen(table, seen);
  for (const service::Gap& gap : due.list.gaps) add_gap(table, gap);
  for (const service::MachineUse& use : due.list.not_in_use) add_machine(table, use);
  return table.text();
}

}  // namespace cli
