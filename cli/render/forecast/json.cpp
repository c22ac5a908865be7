#include <algorithm>

#include "render/forecast/forecast.h"
#include "render/shared/figures.h"
#include "render/shared/json_answers.h"
#include "render/shared/not_to_run.h"

namespace cli {
namespace {

Json usage_as_json(const service::UsageSpan& span) {
  const auto& shown = span.shown;
  return {{"on", to_text(span.day)},
          {"p10", number(span.p10)},
          {"p50", number(span.p50)},
          {"p90", number(span.p90)},
          {"shown", {{"p10", number(shown.p10)}, {"p50", number(shown.p50)}, {"p90", number(shown.p90)}}}};
}

Json meter_as_json(const service::MeterForecast& forecast, const service::Fleet& fleet) {
  const service::MeterAhead& meter = forecast.ahead;
  Json json = machine_of(*meter.machine, fleet);
  json["meter"] = meter.meter->name;
  json["unit"] = meter.meter->unit;
  json["last"] = nullptr;
  if (meter.last) {
    json["last"] = {{"on", to_text(meter.last->day)},
                    {"at", number(meter.last->usage)},
                    {"shown", number_or_null(meter.last_shown)}};
  }
  const auto& doubtful = forecast.doubtful;
  json["known"] = array_of(forecast.known, [&](const service::Knot& knot) {
    return Json{{"on", to_text(knot.day)},
                {"at", number(knot.usage)},
                {"between", forecast.first_between && &knot == &forecast.known.front()},
                {"doubtful", std::find(doubtful.begin(), doubtful.end(), knot.day) != doubtful.end()}};
  });
  json["state"] = to_text(forecast.state.kind);
  json["until"] = day_or_null(forecast.state.until);
  json["now"] = meter.now ? usage_as_json(*meter.now) : Json(nullptr);
  json["ahead"] = array_of(meter.ahead, usage_as_json);
  if (!meter.grounds) {
    json["learnt"] = nullptr;
    return json;
  }
  const service::Grounds& grounds = *meter.grounds;
  json["learnt"] = {{"per_year", usage_of(grounds.per_year)},
                    {"so_far", usage_of(grounds.so_far)},
                    {"months", array_of(grounds.months, [](double share) { return share_of(share); })},
                    {"readings", grounds.readings},
                    {"years", years_of(grounds.years)},
                    {"start", grounds.start},
                    {"stretches", grounds.gaps},
                    {"others", grounds.others},
                    {"expected", grounds.expected},
                    {"expected_seasons", grounds.expected_seasons},
                    {"lump", usage_of(grounds.dispersion)},
                    {"idle", share_of(grounds.idle)}};
  return json;
}

}  // namespace

Json forecast_answer(const ForecastAnswer& answer) {
  const service::Forecast& forecast = answer.forecast;
  Json json = head_of(*forecast.fleet, forecast.as_of, forecast.scope);
  json["to"] = to_text(forecast.to);
  json["cautions"] = base_cautions_as_json();
  json["meters"] = array_of(forecast.meters,
                            [&](const service::MeterForecast& meter) { return meter_as_json(meter, *forecast.fleet); });
  json["points"] = array_of(forecast.points, [&](const service::ForecastPoint& each) {
    Json row = place_of(each.point, *forecast.fleet);
    mark(row, each.point);
    row["standing"] = service::to_text(each.point.standing);
    row["by_estimate"] = each.point.by_estimate;
    row["past_grace_by_estimate"] = each.point.past_grace_by_estimate;
    row["do_not_run"] = forecast.not_to_run.holds(*each.point.machine);
    row["put_off"] = put_off_or_null(each.point.put_off);
    row["due_on"] = day_or_null(each.point.due_on);
    row["due_span"] = span_as_json(each.point.due_span);
    add_observed(row, each.point);
    return row;
  });
  std::vector<const service::Point*> points;
  for (const service::ForecastPoint& each : forecast.points) points.push_back(&each.point);
  json["caution_sentences"] = sentences_of(cautions_of(points));
  json["unknown"] = places_of(forecast.unknown, *forecast.fleet);
  json["gaps"] = gaps_as_json(forecast.gaps, *forecast.fleet);
  json["not_in_use"] = not_in_use_as_json(forecast.not_in_use, *forecast.fleet, forecast.not_to_run);
  json["not_to_run"] = bans_as_json(forecast.not_to_run.bans(), *forecast.fleet);
  json["left_off"] = forecast.left_off();
  mark_rows(json, *forecast.fleet, forecast.not_to_run);
  return json;
}

std::string forecast_as_json(const ForecastAnswer& answer) { return dumped(forecast_answer(answer)); }

}  // namespace cli
