#include "render/season/season.h"
#include "render/shared/cautions.h"
#include "render/shared/figures.h"
#include "render/shared/json_parts.h"

namespace cli {
namespace {

using service::SeasonItem;

Json resources_as_json(const service::Resources& resources) {
  Json parts = Json::object();
  for (const auto& [key, pieces] : resources.parts) parts[key] = number(pieces);
  Json fluids = Json::object();
  for (const auto& [key, amount] : resources.fluids)
    fluids[key] = {{"amount", number(amount.amount)}, {"unit", amount.unit}};
  return {{"minutes", resources.time ? Json(resources.time->count()) : Json(nullptr)},
          {"people", resources.people},
          {"parts", std::move(parts)},
          {"fluids", std::move(fluids)}};
}

Json item_as_json(const SeasonItem& item) {
  Json json = place_of(item.point);
  json["standing"] = service::to_text(item.standing);
  json["by_estimate"] = item.point.by_estimate;
  json["safety"] = item.safety;
  json["odds"] = share_of(item.odds);
  json["do_by"] = to_text(item.do_by);
  json["due_span"] = span_as_json(item.point.due_span);
  json["gives_up"] = share_or_null(item.given_up);
  json["again"] = odds_or_null(item.again);
  json["hardly_helps"] = item.hardly_helps;
  json["includes"] = array_of(item.covered, [](const service::PointName& point) {
    return Json{{"task", point.task}, {"position", text_or_null(point.position)}};
  });
  json["takes"] = resources_as_json(item.resources);
  return json;
}

Json unknown_as_json(const service::Point& point) {
  Json json = place_of(point);
  json["unknown"] = kinds_of(point.unknown);
  return json;
}

}  // namespace

std::string season_as_json(const service::SeasonPlan& plan) {
  Json json = head_of(*plan.fleet, plan.as_of);
  json["season"] = plan.season->key;
  json["from"] = to_text(plan.from);
  json["to"] = to_text(plan.to);
  json["threshold"] = share_of(plan.threshold);
  json["under_way"] = plan.under_way();
  json["cautions"] = base_cautions();
  json["not_in_use"] = not_in_use_as_json(plan.not_in_use);
  json["beforehand"] = array_of(plan.beforehand, item_as_json);
  json["can_wait"] = array_of(plan.can_wait, item_as_json);
  json["unlikely_before_end"] = plan.unlikely_before_end;
  json["unknown"] = array_of(plan.unknown, unknown_as_json);
  json["gaps"] = gaps_as_json(plan.gaps);
  json["labour_hours"] = mean_of(static_cast<double>(plan.labour_minutes) / 60);
  json["no_time"] = Json::array();
  for (const SeasonItem& item : plan.beforehand) {
    if (!item.resources.time) json["no_time"].push_back(place_of(item.point));
  }
  json["parts"] = array_of(plan.parts, need_as_json);
  json["say"] = season_in_a_line(plan);
  return dumped(json);
}

}  // namespace cli
