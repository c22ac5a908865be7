#include "render/forecast/forecast.h"
#include "render/shared/figures.h"
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
  json["ahead"] = array_of(meter.ahead, usage_as_json);
  if (!meter.grounds) {
    json["learnt"] = nullptr;
    return json;
  }
  const service::Grounds& grounds = *meter.grounds;
  json["learnt"] = {{"per_year", usage_of(grounds.per_year)},
                    {"so_far", usage_of(grounds.so_far)},
                    {"months", array_of(grounds.months, share_of)},
                    {"years", years_of(grounds.years)},
                    {"stretches", grounds.gaps},
                    {"others", grounds.others},
                    {"expected", grounds.expected},
                    {"expected_seasons", grounds.expected_seasons},
                    {"lump", usage_of(grounds.dispersion)},
                    {"idle", share_of(grounds.idle)}};
  return json;
}

}  // namespace

std::string forecast_as_json(const Forecast& forecast) {
  const service::DueList& list = forecast.list;
  Json json = head_of(*list.fleet, list.as_of);
  json["to"] = to_text(forecast.to);
  json["meters"] = array_of(forecast.meters, meter_as_json);
  json["points"] = Json::array();
  for (const service::Point& point : list.points) {
    if (!point.due_on || *point.due_on > forecast.to) continue;
    Json row = place_of(point);
    row["standing"] = service::to_text(point.standing);
    row["due_on"] = day_or_null(point.due_on);
    row["due_span"] = span_as_json(point.due_span);
    json["points"].push_back(std::move(row));
  }
  json["gaps"] = gaps_as_json(list.gaps);
  json["not_in_use"] = not_in_use_as_json(list.not_in_use);
  return dumped(json);
}

}  // namespace cli
