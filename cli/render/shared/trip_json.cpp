#include "render/shared/trip_json.h"

#include "render/shared/safety_left_words.h"

namespace cli {

double km_of(int tenths) { return static_cast<double>(tenths) / 10; }

Json key_or_null(const service::Machine* machine) { return machine == nullptr ? Json(nullptr) : Json(machine->key); }
Json key_or_null(const service::Call* call) { return call == nullptr ? Json(nullptr) : Json(call->key); }

// Of a fluid in two units: one behind the other.
Json fluids_as_json(const std::vector<std::pair<std::string, service::Quantity>>& fluids) {
  Json json = Json::object();
  for (const auto& [key, amount] : fluids) {
    const std::string text = to_text(amount.amount) + (amount.unit.empty() ? "" : ' ' + amount.unit);
    json[key] = json.contains(key) ? json[key].get<std::string>() + " + " + text : text;
  }
  return json;
}

Json parts_as_json(const std::vector<std::pair<std::string, service::PartAmount>>& parts) {
  Json json = Json::object();
  for (const auto& [key, pieces] : parts) {
    json[key] = pieces.hundredths % 100 == 0 ? Json(pieces.hundredths / 100) : number(pieces);
  }
  return json;
}

Json short_as_json(const std::vector<service::ShortPart>& parts) {
  return array_of(parts, [](const service::ShortPart& part) {
    return Json{{"part", part.key},
                {"unit", text_or_null(part.unit)},
                {"short_by", number(part.short_by)},
                {"short_on", to_text(part.short_on)},
                {"there", day_or_null(part.there)}};
  });
}

Json lack_as_json(const service::PartLack& lack) {
  return {{"part", lack.key},
          {"unit", text_or_null(lack.unit)},
          {"counted", lack.counted},
          {"short_by", lack.counted ? Json(number(lack.short_by)) : Json(nullptr)},
          {"short_on", day_or_null(lack.short_on)},
          {"order_by", day_or_null(lack.order_by)},
          {"late_days", lack.late_days},
          {"there", day_or_null(lack.there)},
          {"in_stock", number(lack.in_stock)},
          {"kept_for", array_of(lack.kept_for,
                                [](const service::KeptFor& kept) {
                                  return Json{{"machine", kept.machine}, {"on", to_text(kept.on)}};
                                })},
          {"not_listed", lack.not_listed}};
}

Json takes_as_json(const service::Resources& takes) {
  Json fluids = Json::object();
  for (const auto& [key, amount] : takes.fluids) {
    fluids[key] = {{"amount", number(amount.amount)}, {"unit", amount.unit}};
  }
  return {{"minutes", takes.time ? Json(takes.time->count()) : Json(nullptr)},
          {"people", takes.people},
          {"parts", parts_as_json(takes.parts)},
          {"fluids", std::move(fluids)}};
}

Json safety_left_as_json(const std::vector<service::SafetyLeft>& left, service::Day as_of, std::string_view not_made,
                         const service::NotToRun& stopped) {
  return array_of(left, [&](const service::SafetyLeft& one) {
    return Json{{"machine", one.point.machine->key},
                {"task", text_or_null(one.point.task)},
                {"position", text_or_null(one.point.position)},
                {"call", key_or_null(one.call)},
                {"why", service::to_text(one.why)},
                {"due_on", day_or_null(one.due_on)},
                {"on", day_or_null(one.on)},
                {"crew", one.crew == nullptr ? Json(nullptr) : Json(one.crew->key)},
                {"reason", one.reason ? Json(service::to_text(*one.reason)) : Json(nullptr)},
                {"keep_out_of_use", keep_out_of_use(one)},
                {"say", safety_left_words(one, as_of, not_made)},
                {"do_not_run", stopped.holds(*one.point.machine)}};
  });
}

namespace {

// Until when it waits, and who said so and why.
void add_what_was_said(Json& json, const service::NotPlanned& row) {
  json["until"] = row.put_off != nullptr ? day_or_null(row.put_off->until)
                  : row.use != nullptr   ? day_or_null(row.use->until)
                                         : Json(nullptr);
  json["by"] = row.put_off != nullptr ? text_or_null(row.put_off->by) : Json(nullptr);
  json["note"] = row.put_off != nullptr ? text_or_null(row.put_off->why)
                 : row.use != nullptr   ? text_or_null(row.use->note)
                                        : Json(nullptr);
}

}  // namespace

Json not_planned_as_json(const service::NotPlanned& row, const service::Fleet& fleet) {
  const service::Machine* const machine = row.point.machine;
  const std::string& at = machine != nullptr ? machine->site : row.call->site;
  const service::Site* const site = fleet.site(at);
  Json json{{"machine", key_or_null(machine)},
            {"task", text_or_null(row.point.task)},
            {"position", text_or_null(row.point.position)},
            {"reason", service::to_text(row.reason)},
            {"call", key_or_null(row.call)},
            {"site", text_or_null(at)},
            {"customer", site == nullptr ? Json(nullptr) : text_or_null(site->customer)},
            {"safety", row.point.safety},
            {"competent_person", row.point.competent_person}};
  add_what_was_said(json, row);
  return json;
}

}  // namespace cli
