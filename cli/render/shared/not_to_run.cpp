#include "render/shared/not_to_run.h"

namespace cli {

using service::Fleet;
using service::NotToRun;

namespace {

Json reasons_as_json(const std::vector<service::UseReason>& reasons) {
  return array_of(reasons, [](const service::UseReason& reason) {
    return Json{{"on", to_text(reason.on)}, {"note", reason.note}};
  });
}

Json lay_up_as_json(const service::LayUp& laid_up) {
  return {{"since", to_text(laid_up.since)},
          {"until", day_or_null(laid_up.until)},
          {"reasons", reasons_as_json(laid_up.reasons)}};
}

}  // namespace

Json machine_as_json(const service::MachineUse& use, const Fleet& fleet, const NotToRun& stopped) {
  Json json = machine_of(*use.machine, fleet);
  json["state"] = to_text(use.state.kind);
  json["since"] = day_or_null(use.state.since);
  json["until"] = day_or_null(use.state.until);
  json["note"] = text_or_null(use.state.note);
  json["reasons"] = reasons_as_json(use.state.reasons);
  json["laid_up"] = use.state.laid_up ? lay_up_as_json(*use.state.laid_up) : Json(nullptr);
  json["do_not_run"] = stopped.holds(*use.machine);
  return json;
}

Json seen_as_json(const std::vector<service::SeenSign>& seen, const Fleet& fleet, const NotToRun& stopped) {
  return array_of(seen, [&](const service::SeenSign& each) { return seen_as_json(each, fleet, stopped); });
}

Json not_in_use_as_json(const std::vector<service::MachineUse>& machines, const Fleet& fleet, const NotToRun& stopped) {
  return array_of(machines, [&](const service::MachineUse& use) { return machine_as_json(use, fleet, stopped); });
}

void mark_rows(Json& answer, const Fleet& fleet, const NotToRun& stopped) {
  for (auto rows = answer.begin(); rows != answer.end(); ++rows) {
    if (rows.value().is_object()) mark_rows(rows.value(), fleet, stopped);
    if (rows.key() == "not_to_run" || !rows.value().is_array()) continue;
    for (Json& row : rows.value()) {
      if (!row.is_object() || row.contains("do_not_run") || !row.contains("machine")) continue;
      const Json& key = row["machine"];
      const service::Machine* const machine = key.is_string() ? fleet.machine(key.get<std::string>()) : nullptr;
      row["do_not_run"] = machine == nullptr ? Json(nullptr) : Json(stopped.holds(*machine));
    }
  }
}

Json ban_as_json(const service::RunBan& ban, const Fleet& fleet) {
  Json json = machine_of(*ban.machine, fleet);
  json["out_of_use"] = ban.out_of_use();
  json["points"] = array_of(ban.points, [](const service::Point* point) {
    return Json{{"task", point->name}, {"position", text_or_null(point->position)}};
  });
  json["seen"] = array_of(ban.seen, [](const service::SeenSign* seen) { return seen->sign; });
  return json;
}

Json bans_as_json(const std::vector<service::RunBan>& bans, const Fleet& fleet) {
  return array_of(bans, [&](const service::RunBan& ban) { return ban_as_json(ban, fleet); });
}

}  // namespace cli
