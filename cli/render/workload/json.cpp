#include "render/shared/json_parts.h"
#include "render/workload/workload.h"

namespace cli {
namespace {

using service::Spread;

Json spread_as_json(const Spread& spread) {
  return {{"mean", rounded(spread.mean, 1000)},
          {"p10", rounded(spread.p10, 1000)},
          {"p50", rounded(spread.p50, 1000)},
          {"p90", rounded(spread.p90, 1000)}};
}

}  // namespace

std::string workload_as_json(const service::Workload& load) {
  Json json{{"fleet", load.fleet->name}, {"as_of", to_text(load.as_of)},
            {"to", to_text(load.to)},    {"by", load.step == service::Step::week ? "week" : "month"},
            {"ways", load.ways},         {"currency", text_or_null(load.fleet->currency)},
            {"rows", Json::array()}};
  for (const auto& row : load.rows) {
    json["rows"].push_back({{"from", to_text(row.from)},
                            {"to", to_text(row.to)},
                            {"labour_hours", spread_as_json(row.labour_hours)},
                            {"services", spread_as_json(row.services)},
                            {"cost", spread_as_json(row.cost)}});
  }
  json["in_all"] = {{"labour_hours", spread_as_json(load.labour_hours)},
                    {"services", spread_as_json(load.services)},
                    {"cost", spread_as_json(load.cost)}};
  for (const auto& [name, parts] : {std::pair{"parts", &load.parts}, std::pair{"fluids", &load.fluids}}) {
    json[name] = Json::array();
    for (const auto& part : *parts) {
      json[name].push_back({{"part", part.key}, {"unit", text_or_null(part.unit)}, {"mean", rounded(part.mean, 1000)}});
    }
  }
  json["machines"] = Json::array();
  for (const auto& machine : load.machines) {
    json["machines"].push_back({{"machine", machine.machine->key},
                                {"labour_hours", spread_as_json(machine.labour_hours)},
                                {"services", rounded(machine.services, 1000)}});
  }
  json["unknown"] = unknown_as_json(load.unknown);
  json["stands"] = keys_of(load.standing);
  json["no_time"] = unknown_as_json(load.no_time);
  json["no_price"] = load.no_price;
  json["labour_priced"] = load.labour_priced;
  return dumped(json);
}

}  // namespace cli
