#include "render/shared/not_to_run.h"

namespace cli {

using service::Fleet;
using service::NotToRun;

Json point_as_json(const service::Point& point, const Fleet& fleet, const NotToRun& stopped) {
  Json json = point_as_json(point, fleet);
  json["do_not_run"] = stopped.holds(*point.machine);
  return json;
}

Json seen_as_json(const service::SeenSign& seen, const Fleet& fleet, const NotToRun& stopped) {
  Json json = seen_as_json(seen, fleet);
  json["do_not_run"] = stopped.holds(*seen.machine);
  return json;
}

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

}  // namespace cli
