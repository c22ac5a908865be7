#include "render/shared/json_parts.h"

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

std::string_view state_name(service::UseKind kind) {
  switch (kind) {
    case service::UseKind::out_of_use:
      return "out-of-use";
    case service::UseKind::laid_up:
      return "laid-up";
    case service::UseKind::in_use:
      return "in-use";
  }
  return "in-use";
}

Json machine_as_json(const service::MachineUse& use) {
  return {{"machine", use.machine->key},
          {"state", state_name(use.state.kind)},
          {"since", day_or_null(use.state.since)},
          {"until", day_or_null(use.state.until)}};
}

Json head_of(const service::DueList& list) {
  Json json;
  json["fleet"] = list.fleet->name;
  json["as_of"] = to_text(list.as_of);
  return json;
}

Json share_or_null(const std::optional<double>& share) { return share ? Json(rounded(*share, 10'000)) : Json(nullptr); }

Json span_as_json(const service::DueSpan& span) {
  return {{"p10", day_or_null(span.p10)}, {"p50", day_or_null(span.p50)}, {"p90", day_or_null(span.p90)}};
}

Json place_of(const service::Point& point) {
  return {{"machine", point.machine->key}, {"task", point.name}, {"position", text_or_null(point.position)}};
}

Json need_as_json(const service::PartNeed& need) {
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

std::string dumped(const Json& json) { return json.dump(1, ' ', false, Json::error_handler_t::replace) + '\n'; }
std::string dumped_line(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n'; }

}  // namespace cli
