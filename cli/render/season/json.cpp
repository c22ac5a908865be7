#include "render/season/season.h"
#include "render/shared/cautions.h"
#include "render/shared/json_parts.h"

namespace cli {
namespace {

using service::PartNeed;
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
  json["odds"] = rounded(item.odds, 10'000);
  json["do_by"] = to_text(item.do_by);
  json["due_span"] = span_as_json(item.point.due_span);
  json["gives_up"] = share_or_null(item.given_up);
  json["again"] = share_or_null(item.again);
  json["includes"] = item.covered;
  json["takes"] = resources_as_json(item.resources);
  return json;
}

}  // namespace

std::string season_as_json(const service::SeasonPlan& plan) {
  Json json{{"fleet", plan.fleet->name},     {"season", plan.season->key},
            {"as_of", to_text(plan.as_of)},  {"from", to_text(plan.from)},
            {"to", to_text(plan.to)},        {"threshold", rounded(plan.threshold, 10'000)},
            {"under_way", plan.under_way()}, {"cautions", base_cautions()}};
  json["not_in_use"] = Json::array();
  for (const auto& use : plan.not_in_use) {
    const bool out = use.state.kind == service::UseKind::out_of_use;
    json["not_in_use"].push_back({{"machine", use.machine->key},
                                  {"state", out ? "out-of-use" : "laid-up"},
                                  {"until", day_or_null(use.state.until)}});
  }
  for (const auto& [name, items] : {std::pair{"beforehand", &plan.beforehand}, std::pair{"can_wait", &plan.can_wait}}) {
    json[name] = Json::array();
    for (const SeasonItem& item : *items) json[name].push_back(item_as_json(item));
  }
  json["not_before"] = plan.not_before;
  json["unknown"] = Json::array();
  for (const service::Point& point : plan.unknown) {
    Json row = place_of(point);
    row["unknown"] = Json::array();
    for (const auto kind : point.unknown) row["unknown"].push_back(service::to_text(kind));
    json["unknown"].push_back(std::move(row));
  }
  json["gaps"] = Json::array();
  for (const auto& gap : plan.gaps) json["gaps"].push_back(gap_as_json(gap));
  json["labour_hours"] = rounded(static_cast<double>(plan.labour_minutes) / 60, 1000);
  json["without_time"] = plan.without_time;
  json["parts"] = Json::array();
  for (const PartNeed& need : plan.parts) json["parts"].push_back(need_as_json(need));
  json["say"] = season_in_a_line(plan);
  return dumped(json);
}

}  // namespace cli
