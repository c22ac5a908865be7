#include "render/shared/not_to_run.h"

#include <algorithm>

namespace cli {

using service::Fleet;
using service::NotToRun;

Json machine_as_json(const service::MachineUse& use, const Fleet& fleet, const NotToRun& stopped) {
  Json json = machine_as_json(use, fleet);
  json["do_not_run"] = stopped.holds(*use.machine);
  return json;
}

Json seen_as_json(const std::vector<service::SeenSign>& seen, const Fleet& fleet, const NotToRun& stopped) {
  return array_of(seen, [&](const service::SeenSign& each) { return seen_as_json(each, fleet, stopped); });
}

Json not_in_use_as_json(const std::vector<service::MachineUse>& machines, const Fleet& fleet, const NotToRun& stopped) {
  return array_of(machines, [&](const service::MachineUse& use) { return machine_as_json(use, fleet, stopped); });
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

Json stopped_as_json(const NotToRun& stopped, const std::vector<service::MachineUse>& not_in_use, const Fleet& fleet) {
  return array_of(stopped.machines(), [&](const service::Machine* machine) {
    Json json = machine_of(*machine, fleet);
    json["out_of_use"] = std::any_of(not_in_use.begin(), not_in_use.end(), [&](const service::MachineUse& use) {
      return use.machine == machine && use.state.kind == service::UseKind::out_of_use;
    });
    return json;
  });
}

}  // namespace cli
