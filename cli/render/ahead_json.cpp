#include "render/ahead_json.h"

#include <cmath>

#include "render/cautions.h"
#include "render/json_parts.h"
#include "render/season_text.h"

namespace cli {
namespace {

using service::PartNeed;
using service::SeasonItem;
using service::Spread;

// Odds and means are estimates: more digits would claim to know more.
double rounded(double value, double digits) { return std::round(value * digits) / digits; }
Json share_or_null(const std::optional<double>& share) { return share ? Json(rounded(*share, 10'000)) : Json(nullptr); }

Json span_as_json(const service::DueSpan& span) {
  return {{"p10", day_or_null(span.p10)}, {"p50", day_or_null(span.p50)}, {"p90", day_or_null(span.p90)}};
}

Json spread_as_json(const Spread& spread) {
  return {{"mean", rounded(spread.mean, 1000)},
          {"p10", rounded(spread.p10, 1000)},
          {"p50", rounded(spread.p50, 1000)},
          {"p90", rounded(spread.p90, 1000)}};
}

Json usage_as_json(const service::UsageSpan& span) {
  return {{"on", to_text(span.day)}, {"p10", number(span.p10)}, {"p50", number(span.p50)}, {"p90", number(span.p90)}};
}

Json meter_as_json(const service::MeterAhead& meter) {
  Json json{{"machine", meter.machine->key}, {"meter", meter.meter->name}, {"unit", meter.meter->unit}};
  json["last"] = meter.last ? Json{{"on", to_text(meter.last->day)}, {"at", number(meter.last->usage)}} : Json(nullptr);
  json["now"] = meter.now ? usage_as_json(*meter.now) : Json(nullptr);
  json["ahead"] = Json::array();
  for (const auto& span : meter.ahead) json["ahead"].push_back(usage_as_json(span));
  if (!meter.grounds) {
    json["learnt"] = nullptr;
    return json;
  }
  const service::Grounds& grounds = *meter.grounds;
  Json months = Json::array();
  for (const double share : grounds.months) months.push_back(rounded(share, 10'000));
  json["learnt"] = {{"per_year", rounded(grounds.per_year, 10)},
                    {"so_far", rounded(grounds.so_far, 10)},
                    {"months", std::move(months)},
                    {"years", rounded(grounds.years, 100)},
                    {"stretches", grounds.stretches},
                    {"others", grounds.others},
                    {"expected", grounds.expected},
                    {"expected_seasons", grounds.expected_seasons},
                    {"lump", rounded(grounds.lump, 10)},
                    {"idle", rounded(grounds.idle, 1000)}};
  return json;
}

Json place_of(const service::Point& point) {
  return {{"machine", point.machine->key}, {"task", point.name}, {"position", text_or_null(point.position)}};
}

Json score_as_json(const service::ReplayScore& score) {
  const bool any = score.answered > 0;
  const auto days = [&](double value) { return any ? Json(rounded(value, 100)) : Json(nullptr); };
  return {{"answered", score.answered},
          {"open", score.open},
          {"inside", score.inside},
          {"loss", days(score.loss)},
          {"mean_rate_loss", days(score.straight)},
          {"same_days_loss", days(score.same_days)}};
}

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

Json need_as_json(const PartNeed& need) {
  Json json{{"part", need.key},
            {"listed", need.part != nullptr},
            {"what", need.part != nullptr ? text_or_null(need.part->what) : Json(nullptr)},
            {"number", need.part != nullptr ? text_or_null(need.part->number) : Json(nullptr)},
            {"supplier", need.part != nullptr ? text_or_null(need.part->supplier) : Json(nullptr)},
            {"fluid", need.fluid},
            {"unit", text_or_null(need.unit)},
            {"need", number(need.need)},
            {"perhaps", number(need.more)},
            {"stock", number_or_null(need.stock)},
            {"counted_on", day_or_null(need.counted_on)},
            {"short", number(need.short_by)},
            {"buy", number(need.buy)},
            {"packs", number_or_null(need.packs)},
            {"missed_from", day_or_null(need.short_on)},
            {"order_by", day_or_null(need.order_by)},
            {"price", number_or_null(need.price)}};
  json["uses"] = Json::array();
  for (const auto& use : need.uses) {
    json["uses"].push_back({{"machine", use.machine->key},
                            {"task", use.point},
                            {"round", use.round},
                            {"amount", number(use.amount)},
                            {"likely", use.likely},
                            {"due_span", span_as_json(use.due)}});
  }
  return json;
}

Json unknown_as_json(const std::vector<std::pair<const service::Machine*, std::string>>& unknown) {
  Json json = Json::array();
  for (const auto& [machine, point] : unknown) json.push_back({{"machine", machine->key}, {"task", point}});
  return json;
}

Json keys_of(const std::vector<const service::Machine*>& machines) {
  Json json = Json::array();
  for (const service::Machine* machine : machines) json.push_back(machine->key);
  return json;
}

}  // namespace

std::string forecast_as_json(const Forecast& forecast) {
  const service::DueList& list = forecast.list;
  Json json{{"fleet", list.fleet->name}, {"as_of", to_text(list.as_of)}, {"to", to_text(forecast.to)}};
  json["meters"] = Json::array();
  for (const auto& meter : forecast.meters) json["meters"].push_back(meter_as_json(meter));
  json["points"] = Json::array();
  for (const service::Point& point : list.points) {
    if (!point.due_on || *point.due_on > forecast.to) continue;
    Json row = place_of(point);
    row["standing"] = service::to_text(point.standing);
    row["due_on"] = day_or_null(point.due_on);
    row["due_span"] = span_as_json(point.due_span);
    json["points"].push_back(std::move(row));
  }
  json["gaps"] = Json::array();
  for (const auto& gap : list.gaps) json["gaps"].push_back(gap_as_json(gap));
  return dumped(json);
}

std::string replay_as_json(const service::Replay& replay, service::Day as_of) {
  Json json{{"fleet", replay.fleet->name}, {"as_of", to_text(as_of)}, {"days", Json::array()}};
  for (const auto day : replay.days) json["days"].push_back(to_text(day));
  json["machines"] = Json::array();
  for (const auto& row : replay.machines) {
    Json one{{"machine", row.machine->key}, {"schedule", row.kind}};
    one.update(score_as_json(row.score));
    json["machines"].push_back(std::move(one));
  }
  json["kinds"] = Json::array();
  for (const auto& row : replay.kinds) {
    Json one{{"schedule", row.kind}};
    one.update(score_as_json(row.score));
    json["kinds"].push_back(std::move(one));
  }
  json["all"] = score_as_json(replay.all);
  return dumped(json);
}

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

std::string parts_as_json(const service::PartsList& list) {
  Json json{{"fleet", list.fleet->name},
            {"as_of", to_text(list.as_of)},
            {"to", to_text(list.to)},
            {"currency", text_or_null(list.fleet->currency)},
            {"parts", Json::array()}};
  for (const PartNeed& need : list.needs) json["parts"].push_back(need_as_json(need));
  json["unknown"] = unknown_as_json(list.unknown);
  json["stands"] = keys_of(list.standing);
  return dumped(json);
}

}  // namespace cli
