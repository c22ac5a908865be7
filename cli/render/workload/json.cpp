#include "render/shared/figures.h"
#include "render/shared/json_answers.h"
#include "render/shared/not_to_run.h"
#include "render/workload/workload.h"

namespace cli {
namespace {

Json spread_as_json(const service::Spread& spread) {
  return {{"mean", mean_of(spread.mean)},
          {"p10", mean_of(spread.p10)},
          {"p50", mean_of(spread.p50)},
          {"p90", mean_of(spread.p90)}};
}

Json part_as_json(const service::WorkloadPart& part) {
  Json json{{"part", part.key}, {"unit", text_or_null(part.unit)}};
  json.update(spread_as_json(part.amount));
  json["price"] = number_or_null(part.price);
  json["cost"] =
      part.price ? Json(mean_of(part.amount.mean * static_cast<double>(part.price->hundredths) / 100)) : Json(nullptr);
  return json;
}

template <class Sums>
Json sums_of(const Sums& sums) {
  return {{"labour_hours", spread_as_json(sums.labour_hours)},
          {"services", spread_as_json(sums.services)},
          {"cost", spread_as_json(sums.cost)},
          {"pieces", spread_as_json(sums.pieces)},
          {"parts", array_of(sums.parts, part_as_json)},
          {"fluids", array_of(sums.fluids, part_as_json)}};
}

Json row_as_json(const service::WorkloadRow& row) {
  Json json{{"from", to_text(row.from)}, {"to", to_text(row.to)}};
  json.update(sums_of(row));
  return json;
}

Json load_of(const service::WorkloadMachine& machine, const service::Fleet& fleet) {
  Json json = machine_of(*machine.machine, fleet);
  json["labour_hours"] = spread_as_json(machine.labour_hours);
  json["services"] = {{"mean", mean_of(machine.services)}};
  return json;
}

}  // namespace

Json workload_answer(const service::Workload& load) {
  Json json = head_of(*load.fleet, load.as_of, load.scope);
  json["to"] = to_text(load.to);
  json["cautions"] = base_cautions_as_json();
  json["by"] = load.step == service::Step::week ? "week" : "month";
  json["sample_paths"] = load.sample_paths;
  json["currency"] = text_or_null(load.fleet->currency);
  json["rows"] = array_of(load.rows, row_as_json);
  json["in_all"] = sums_of(load);
  json["machines"] =
      array_of(load.machines, [&](const service::WorkloadMachine& machine) { return load_of(machine, *load.fleet); });
  json["unknown"] = places_of(load.unknown, *load.fleet);
  json["not_in_use"] = not_in_use_as_json(load.not_in_use, *load.fleet, load.not_to_run);
  json["not_to_run"] = bans_as_json(load.not_to_run.bans(), *load.fleet);
  json["gaps"] = gaps_as_json(load.gaps, *load.fleet);
  json["doubtful"] = load.doubtful;
  json["no_time"] = places_of(load.no_time, *load.fleet);
  json["no_price"] = load.no_price;
  json["labour_priced"] = load.labour_priced;
  json["left_off"] = load.left_off();
  mark_rows(json, *load.fleet, load.not_to_run);
  return json;
}

std::string workload_as_json(const service::Workload& load) { return dumped(workload_answer(load)); }

}  // namespace cli
