#include "render/shared/json_parts.h"

#include "render/shared/cures.h"
#include "render/shared/figures.h"
#include "render/shared/words.h"
#include "service/cautions.h"
#include "service/minding.h"

namespace cli {
namespace {

using service::LimbKind;
using service::LimbStanding;

Json sightings_as_json(const std::vector<service::Sighting>& sightings) {
  return array_of(sightings, [](const service::Sighting& one) {
    return Json{{"on", to_text(one.on.first)},
                {"until", to_text(one.on.last)},
                {"fact", to_text(one.fact)},
                {"note", text_or_null(one.note)}};
  });
}

Json again_or_null(const service::Sighting* again) {
  return again == nullptr ? Json(nullptr) : Json(to_text(again->on.first));
}

// The newest look that found it worn or failed: its day, who looked, where that is written, and its fact.
void add_look(Json& json, const std::optional<service::Day>& on, const std::string& by,
              const std::optional<service::FactId>& fact) {
  json["looked_on"] = day_or_null(on);
  json["looked_by"] = text_or_null(by);
  json["looked_fact"] = fact ? Json(to_text(*fact)) : Json(nullptr);
}

void add_limb_figures(Json& json, const LimbStanding& limb, const service::Point& point) {
  switch (limb.kind) {
    case LimbKind::usage:
      json["meter"] = limb.name;
      json["unit"] = limb.unit;
      json["every"] = number_or_null(limb.every);
      json["used"] = number_or_null(limb.used);
      json["left"] = number_or_null(limb.left);
      json["estimated_used"] = number_or_null(limb.estimated_used);
      json["estimated_left"] = number_or_null(limb.estimated_left);
      json["estimated_from"] = day_or_null(estimated_from(limb, point));
      json["due_at"] = number_or_null(limb.due_at);
      json["due_shown"] = number_or_null(limb.due_shown);
      break;
    case LimbKind::calendar:
      json["every"] = limb.span ? Json(to_text(*limb.span)) : Json(nullptr);
      break;
    case LimbKind::changes:
      json["task"] = limb.name;
      json["every"] = limb.limit_count;
      json["count"] = limb.count ? Json(*limb.count) : Json(nullptr);
      json["left"] = limb.count ? Json(limb.limit_count - *limb.count) : Json(nullptr);
      break;
    case LimbKind::measured:
      json["name"] = limb.name;
      json["unit"] = limb.unit;
      json["limit"] = number(limb.limit);
      json["above"] = limb.above;
      json["value"] = number_or_null(limb.measured);
      break;
    case LimbKind::sign:
      json["signs"] = limb.signs;
      json["seen"] = text_or_null(limb.seen);
      json["found"] = limb.found ? Json(to_text(*limb.found)) : Json(nullptr);
      add_sightings(json, limb.open_sign());
      break;
    case LimbKind::season:
      json["season"] = limb.name;
      json["lead_days"] = limb.lead_days;
      break;
  }
  json["due_on"] = day_or_null(limb.due_on);
  if (limb.kind != LimbKind::calendar && limb.kind != LimbKind::season) return;
  json["left_days"] = limb.left_days ? Json(*limb.left_days) : Json(nullptr);
}

Json fitted_as_json(const service::Fitted& fitted) {
  Json json;
  json["on"] = to_text(fitted.on.first);
  json["until"] = to_text(fitted.on.last);
  json["at"] = number_or_null(fitted.at);
  json["meter"] = text_or_null(fitted.meter);
  json["basis"] = to_text(fitted.basis);
  return json;
}

Json put_off_as_json(const service::PutOff& put_off) {
  return {{"until", day_or_null(put_off.until)},    {"at", number_or_null(put_off.at)},
          {"shown", number_or_null(put_off.shown)}, {"meter", text_or_null(put_off.meter)},
          {"by", text_or_null(put_off.by)},         {"note", text_or_null(put_off.why)},
          {"by_estimate", put_off.by_estimate}};
}

}  // namespace

void add_sightings(Json& json, const service::NoticedSign* sign) {
  json["note"] = sign == nullptr ? Json(nullptr) : text_or_null(sign->note());
  json["again_on"] = sign == nullptr ? Json(nullptr) : again_or_null(sign->again());
  json["sightings"] = sign == nullptr ? Json::array() : sightings_as_json(sign->sightings);
  const service::SignLook* const look = sign == nullptr || sign->looks.empty() ? nullptr : &sign->looks.back();
  add_look(json, look == nullptr ? std::nullopt : std::optional(look->on), look == nullptr ? "" : look->by,
           look == nullptr ? std::nullopt : std::optional(look->fact));
}

Json put_off_or_null(const std::optional<service::PutOff>& put_off) {
  return put_off ? put_off_as_json(*put_off) : Json(nullptr);
}

Json number(service::Measure measure) { return static_cast<double>(measure.millionths) / 1e6; }
Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }
Json day_or_null(const std::optional<service::Day>& day) { return day ? Json(to_text(*day)) : Json(nullptr); }

// Key after key, here and in what it is made of: a list of them would be copied, and there may be millions of points.
Json point_as_json(const service::Point& point, const service::Fleet& fleet, const service::NotToRun& stopped) {
  Json json = place_of(point, fleet);
  mark(json, point);
  json["standing"] = to_text(point.standing);
  json["do_not_run"] = stopped.holds(*point.machine);
  json["by_estimate"] = point.by_estimate;
  json["past_grace_by_estimate"] = point.past_grace_by_estimate;
  json["ruled_by"] = point.ruled_by ? Json(to_text(point.limbs[*point.ruled_by].kind)) : Json(nullptr);
  json["due_on"] = day_or_null(point.due_on);
  json["unknown"] = kinds_of(point.unknown);
  json["people"] = resources_of(*point.machine, *point.task, point.follow_up).people;
  add_observed(json, point);
  json["put_off"] = put_off_or_null(point.put_off);
  json["due_span"] = span_as_json(point.due_span);
  json["fitted"] = point.fitted ? fitted_as_json(*point.fitted) : Json(nullptr);
  json["limbs"] = array_of(point.limbs, [&](const LimbStanding& limb) {
    Json part;
    part["kind"] = to_text(limb.kind);
    add_limb_figures(part, limb, point);
    return part;
  });
  return json;
}

Json gap_as_json(const service::Gap& gap, const service::Fleet& fleet) {
  const service::Machine* machine = fleet.machine(gap.machine);
  return {{"machine", text_or_null(gap.machine)},
          {"site", machine == nullptr ? Json(nullptr) : text_or_null(machine->site)},
          {"customer", machine == nullptr ? Json(nullptr) : text_or_null(customer_of(fleet, *machine))},
          {"kind", to_text(gap.kind)},
          {"since", day_or_null(gap.since)},
          {"say", gap.say},
          {"fact", gap.facts.empty() ? Json(nullptr) : Json(to_text(gap.facts.front()))},
          {"meter", text_or_null(gap.meter)}};
}

// The one form in which facts travel, read back so that it can stand inside another answer.
Json fact_as_json(const service::Fact& fact) {
  Json json = Json::parse(service::facts_to_json_lines({fact}), nullptr, false);
  return json.is_discarded() ? Json(nullptr) : json;
}

Json gaps_as_json(const std::vector<service::Gap>& gaps, const service::Fleet& fleet) {
  return array_of(gaps, [&](const service::Gap& gap) { return gap_as_json(gap, fleet); });
}

Json machine_of(const service::Machine& machine, const service::Fleet& fleet) {
  const service::Site* site = fleet.site(machine.site);
  Json json;
  json["machine"] = machine.key;
  json["site"] = text_or_null(machine.site);
  json["customer"] = site == nullptr ? Json(nullptr) : text_or_null(site->customer);
  return json;
}

Json seen_as_json(const service::SeenSign& seen, const service::Fleet& fleet, const service::NotToRun& stopped) {
  Json json = machine_of(*seen.machine, fleet);
  json["sign"] = seen.sign;
  json["on"] = to_text(seen.on.first);
  json["until"] = to_text(seen.on.last);
  json["fact"] = to_text(seen.fact);
  json["note"] = text_or_null(seen.note);
  const auto found = found_of(fleet, seen);
  json["found"] = found ? Json(to_text(*found)) : Json(nullptr);
  json["do_not_run"] = stopped.holds(*seen.machine);
  json["again_on"] = again_or_null(seen.again());
  json["sightings"] = sightings_as_json(seen.sightings);
  add_look(json, seen.looked_on, seen.looked_by, seen.looked_fact);
  return json;
}

Json head_of(const service::Fleet& fleet, service::Day as_of) {
  return {{"fleet", fleet.name}, {"as_of", to_text(as_of)}};
}

Json head_of(const service::Fleet& fleet, service::Day as_of, const service::Scope& scope) {
  Json json = head_of(fleet, as_of);
  json["scope"] = nullptr;
  if (!scope.site.empty()) {
    json["scope"] = {{"site", scope.site}};
  } else if (scope.machines) {
    json["scope"] = {{"machines", *scope.machines}};
  }
  return json;
}

Json base_cautions_as_json() {
  const service::BaseCautions& base = service::base_cautions();
  Json json = Json::array();
  for (const std::string_view step : base.steps) json.push_back(step);
  json.push_back("afterwards: " + std::string(base.afterwards));
  return json;
}

void mark(Json& json, const service::Point& point) {
  json["safety"] = is_safety(point);
  json["competent_person"] = by_competent_person(point);
  json["cautions"] = point.task->all_cautions;
}

Json sentences_of(const std::vector<std::string>& cautions) {
  Json json = Json::array();
  for (const std::string& written : cautions) {
    const service::Caution* const named = service::caution(written);
    if (named != nullptr) json.push_back({{"name", named->name}, {"sentence", named->sentence}});
  }
  return json;
}

Json share_or_null(const std::optional<double>& share) { return share ? Json(share_of(*share)) : Json(nullptr); }

Json odds_or_null(const std::optional<service::Probability>& odds) {
  return odds ? Json(share_of(*odds)) : Json(nullptr);
}

Json span_as_json(const service::DueSpan& span) {
  Json json;
  json["p10"] = day_or_null(span.p10);
  json["p50"] = day_or_null(span.p50);
  json["p90"] = day_or_null(span.p90);
  return json;
}

void add_observed(Json& json, const service::Point& point) {
  json["sooner_if"] = point.sooner_if;
  json["measure_again"] = point.measure_again;
  json["doubtful"] = point.doubtful;
}

Json place_of(const service::Point& point) { return place_of(service::name_of(point)); }

Json place_of(const service::Point& point, const service::Fleet& fleet) {
  Json json = machine_of(*point.machine, fleet);
  json["task"] = point.name;
  json["position"] = text_or_null(point.position);
  return json;
}

Json diagnostic_as_json(const service::Diagnostic& diagnostic, const std::string& command) {
  const auto& place = diagnostic.place;
  return {{"code", diagnostic.code},
          {"message", diagnostic.message},
          {"hint", text_or_null(hint_of(diagnostic, command))},
          {"file", place ? text_or_null(place->file) : Json(nullptr)},
          {"line", place && place->line > 0 ? Json(place->line) : Json(nullptr)},
          {"column", place && place->column > 0 ? Json(place->column) : Json(nullptr)}};
}

Json need_as_json(const service::PartNeed& need, const service::Fleet& fleet) {
  Json json{{"part", need.key},
            {"listed", need.part != nullptr},
            {"what", need.part != nullptr ? text_or_null(need.part->what) : Json(nullptr)},
            {"number", need.part != nullptr ? text_or_null(need.part->number) : Json(nullptr)},
            {"supplier", need.part != nullptr ? text_or_null(need.part->supplier) : Json(nullptr)},
            {"fluid", need.fluid},
            {"unit", text_or_null(need.unit)},
            {"need", number(need.need)},
            {"more", number(need.more)},
            {"stock", number_or_null(need.stock)},
            {"counted_on", day_or_null(need.counted_on)},
            {"short_by", number(need.short_by)},
            {"buy", number(need.buy)},
            {"packs", number_or_null(need.packs)},
            {"missed_from", day_or_null(need.short_on)},
            {"order_by", day_or_null(need.order_by)},
            {"late_days", need.late_days},
            {"price", number_or_null(need.price)},
            {"cost", number_or_null(need.cost)},
            {"ready", number(need.ready)},
            {"doubtful", need.doubtful}};
  json["uses"] = array_of(need.uses, [&](const service::PartUse& use) {
    Json part = machine_of(*use.machine, fleet);
    part["task"] = use.task;
    part["position"] = text_or_null(use.position);
    part["round"] = use.round;
    part["amount"] = number(use.amount);
    part["likely"] = use.likely;
    part["ready"] = use.ready;
    part["other_work"] = use.other_work;
    part["doubtful"] = use.doubtful;
    part["due_span"] = span_as_json(use.due);
    part["do_by"] = day_or_null(use.done.p10);
    return part;
  });
  return json;
}

Json place_of(const service::PointName& point) {
  return {{"machine", point.machine->key},
          {"task", point.task},
          {"position", text_or_null(point.position)},
          {"safety", point.safety},
          {"competent_person", point.competent_person}};
}

Json place_of(const service::PointName& point, const service::Fleet& fleet) {
  Json json = machine_of(*point.machine, fleet);
  json.update(place_of(point));
  return json;
}

Json places_of(const std::vector<service::PointName>& points, const service::Fleet& fleet) {
  return array_of(points, [&](const service::PointName& point) { return place_of(point, fleet); });
}

Json kinds_of(const std::vector<LimbKind>& kinds) {
  return array_of(kinds, [](LimbKind kind) { return to_text(kind); });
}

std::string dumped(const Json& json) { return json.dump(1, ' ', false, Json::error_handler_t::replace) + '\n'; }
std::string dumped_line(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n'; }

}  // namespace cli
