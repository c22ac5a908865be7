#include "render/forecast/forecast.h"
#include "render/shared/json_parts.h"

namespace cli {
namespace {

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

}  // namespace cli
