#include "render/json_parts.h"

namespace cli {
namespace {

using service::LimbKind;
using service::LimbStanding;

void add_limb_figures(Json& json, const LimbStanding& limb) {
  switch (limb.kind) {
    case LimbKind::usage:
      json["meter"] = limb.name;
      json["unit"] = limb.unit;
      json["every"] = number_or_null(limb.every);
      json["used"] = number_or_null(limb.used);
      json["left"] = number_or_null(limb.left);
      json["due_at"] = number_or_null(limb.due_at);
      json["due_shown"] = number_or_null(limb.due_shown);
      json["due_on"] = day_or_null(limb.due_on);
      return;
    case LimbKind::calendar:
      json["every"] = limb.span ? Json(to_text(*limb.span)) : Json(nullptr);
      json["due_on"] = day_or_null(limb.due_on);
      break;
    case LimbKind::changes:
      json["task"] = limb.name;
      json["every"] = limb.limit_count;
      json["count"] = limb.count ? Json(*limb.count) : Json(nullptr);
      json["left"] = limb.count ? Json(limb.limit_count - *limb.count) : Json(nullptr);
      json["due_on"] = day_or_null(limb.due_on);
      return;
    case LimbKind::measured:
      json["name"] = limb.name;
      json["unit"] = limb.unit;
      json["limit"] = number(limb.limit);
      json["above"] = limb.above;
      json["value"] = number_or_null(limb.measured);
      json["due_on"] = day_or_null(limb.due_on);
      return;
    case LimbKind::sign:
      json["signs"] = limb.signs;
      json["seen"] = text_or_null(limb.seen);
      json["due_on"] = day_or_null(limb.due_on);
      return;
    case LimbKind::season:
      json["season"] = limb.name;
      json["lead_days"] = limb.lead_days;
      json["due_on"] = day_or_null(limb.due_on);
      break;
  }
  json["left_days"] = limb.left_days ? Json(*limb.left_days) : Json(nullptr);
}

Json fitted_as_json(const service::Fitted& fitted) {
  return {{"on", to_text(fitted.on.first)},
          {"until", to_text(fitted.on.last)},
          {"at", number_or_null(fitted.at)},
          {"basis", to_text(fitted.basis)}};
}

Json put_off_as_json(const service::PutOff& put_off) {
  return {{"until", day_or_null(put_off.until)},
          {"at", number_or_null(put_off.at)},
          {"shown", number_or_null(put_off.shown)},
          {"by", text_or_null(put_off.by)},
          {"why", text_or_null(put_off.why)}};
}

}  // namespace

Json number(service::Measure measure) { return static_cast<double>(measure.millionths) / 1e6; }
Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }
Json day_or_null(const std::optional<service::Day>& day) { return day ? Json(to_text(*day)) : Json(nullptr); }

Json point_as_json(const service::Point& point) {
  Json json;
  json["machine"] = point.machine->key;
  json["task"] = point.name;
  json["position"] = text_or_null(point.position);
  json["standing"] = to_text(point.standing);
  json["by_estimate"] = point.by_estimate;
  json["ruled_by"] = point.ruled_by ? Json(to_text(point.limbs[*point.ruled_by].kind)) : Json(nullptr);
  json["due_on"] = day_or_null(point.due_on);
  json["unknown"] = Json::array();
  for (const LimbKind kind : point.unknown) json["unknown"].push_back(to_text(kind));
  json["put_off"] = point.put_off ? put_off_as_json(*point.put_off) : Json(nullptr);
  json["due_span"] = {{"p10", day_or_null(point.due_span.p10)},
                      {"p50", day_or_null(point.due_span.p50)},
                      {"p90", day_or_null(point.due_span.p90)}};
  json["fitted"] = point.fitted ? fitted_as_json(*point.fitted) : Json(nullptr);
  json["limbs"] = Json::array();
  for (const LimbStanding& limb : point.limbs) {
    Json part;
    part["kind"] = to_text(limb.kind);
    add_limb_figures(part, limb);
    json["limbs"].push_back(std::move(part));
  }
  return json;
}

Json gap_as_json(const service::Gap& gap) {
  return {{"machine", text_or_null(gap.machine)},
          {"kind", to_text(gap.kind)},
          {"since", day_or_null(gap.since)},
          {"say", gap.say},
          {"meter", text_or_null(gap.meter)}};
}

// The one form in which facts travel, read back so that it can stand inside another answer.
Json fact_as_json(const service::Fact& fact) {
  Json json = Json::parse(service::facts_to_json_lines({fact}), nullptr, false);
  return json.is_discarded() ? Json(nullptr) : json;
}

std::string dumped(const Json& json) { return json.dump(1, ' ', false, Json::error_handler_t::replace) + '\n'; }
std::string dumped_line(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n'; }

}  // namespace cli
