#include "render/new/new.h"
#include "render/shared/json_parts.h"

namespace cli {
namespace {

using service::TakenOver;

Json column_as_json(const TakenOver::Column& column) {
  return {{"number", column.number},
          {"header", column.heading},
          {"column", column.column ? Json(to_text(*column.column)) : Json(nullptr)},
          {"told", column.told}};
}

Json left_out_as_json(const TakenOver::FieldLeftOut& field) {
  Json json = diagnostic_as_json(field.what, "whichever");
  json["machine"] = field.machine;
  json["header"] = field.heading;
  json["value"] = field.value;
  json["besides"] = text_or_null(field.besides);
  return json;
}

Json aside_as_json(const TakenOver::RowAside& row) { return {{"line", row.line}, {"row", row.row}, {"why", row.why}}; }

Json machine_as_json(const TakenOver::MachineTaken& machine) {
  return {{"line", machine.line},
          {"machine", machine.key},
          {"name", machine.name},
          {"schedule", machine.schedule},
          {"site", text_or_null(machine.site)},
          {"at", number_or_null(machine.at)},
          {"on", day_or_null(machine.on)},
          {"notes", text_or_null(machine.notes)}};
}

std::string separator(char c) { return c == '\t' ? "tab" : std::string(1, c); }

Json taken_as_json(const TakenOver& taken) {
  const auto& [decimal, dates] = taken.dialect;
  Json json{{"file", taken.file},
            {"encoding", to_text(taken.encoding)},
            {"separator", separator(taken.separator)},
            {"decimal", nullptr},
            {"dates", nullptr},
            {"columns", array_of(taken.columns, column_as_json)},
            {"aside", array_of(taken.aside, aside_as_json)},
            {"left_out", array_of(taken.left_out, left_out_as_json)},
            {"machines", array_of(taken.machines, machine_as_json)},
            {"alike",
             array_of(taken.alike,
                      [&](const TakenOver::Alike& pair) -> Json {
                        return {{"machine", taken.machines[pair.later].key}, {"alike", taken.machines[pair.first].key}};
                      })},
            {"services_not_known", taken.services_not_known},
            {"readings", taken.readings.size()},
            {"readings_without_day", taken.without_day},
            {"read_on", to_text(taken.read_on)},
            {"example_schedules", taken.example_schedules}};
  if (decimal) json["decimal"] = *decimal == service::DecimalMark::comma ? "comma" : "point";
  if (dates) json["dates"] = *dates == service::DateOrder::day_first ? "day-first" : "month-first";
  std::size_t blanks = 0;
  const auto asked = find_out(*taken.list);
  for (const service::MachineQuestions& machine : asked) blanks += machine.questions.size();
  json["to_find_out"] = {{"blanks", blanks}, {"machines", asked.size()}};
  return json;
}

}  // namespace

std::string made_as_json(const MadeAnswer& made) {
  return dumped({{"folder", made.folder},
                 {"made", made.files},
                 {"dry_run", made.dry_run},
                 {"taken_over", made.taken ? taken_as_json(*made.taken) : Json(nullptr)}});
}

}  // namespace cli
