// Pieces that several JSON answers share. For the files that write JSON alone.
#pragma once

#include <nlohmann/json.hpp>

#include "service/due_list.h"
#include "service/not_to_run.h"
#include "service/record.h"
#include "service/workload.h"

namespace cli {

using service::to_text;
using Json = nlohmann::ordered_json;

// Hundredths and millionths print exactly: a double of their size has digits to spare for the shortest decimal.
template <class Kind>
Json number(service::Exact<Kind> quantity) {
  return static_cast<double>(quantity.hundredths) / 100.0;
}
Json number(service::Measure measure);
Json text_or_null(const std::string& text);

template <class T>
Json number_or_null(const std::optional<T>& value) {
  return value ? number(*value) : Json(nullptr);
}
Json day_or_null(const std::optional<service::Day>& day);

Json share_or_null(const std::optional<double>& share);
Json odds_or_null(const std::optional<service::Probability>& odds);

// Each thing of a list, as this makes it.
template <class Things, class Write>
Json array_of(const Things& things, const Write& write) {
  Json json = Json::array();
  for (const auto& thing : things) json.push_back(write(thing));
  return json;
}

// --- What has the same keys in every answer ---

Json head_of(const service::Fleet& fleet, service::Day as_of);
Json head_of(const service::Fleet& fleet, service::Day as_of, const service::Scope& scope);  // of a list
Json place_of(const service::Point& point);                                                  // machine, task, position
Json place_of(const service::Point& point, const service::Fleet& fleet);  // machine, site, customer, task, position
Json machine_of(const service::Machine& machine, const service::Fleet& fleet);  // machine, site, customer
Json place_of(const service::PointName& point);
Json place_of(const service::PointName& point, const service::Fleet& fleet);  // with site and customer
Json places_of(const std::vector<service::PointName>& points, const service::Fleet& fleet);
Json base_cautions_as_json();                                 // all steps, and what comes afterwards
void mark(Json& json, const service::Point& point);           // safety, competent_person, and its own cautions
Json sentences_of(const std::vector<std::string>& cautions);  // of those that the catalogue has
Json put_off_or_null(const std::optional<service::PutOff>& put_off);
Json span_as_json(const service::DueSpan& span);             // three days
void add_observed(Json& json, const service::Point& point);  // sooner_if, measure_again, doubtful
Json kinds_of(const std::vector<service::LimbKind>& kinds);
// Each row of a machine that nobody may run says so (`do_not_run`), whether by this or by something else.
Json point_as_json(const service::Point& point, const service::Fleet& fleet, const service::NotToRun& stopped);
Json gap_as_json(const service::Gap& gap, const service::Fleet& fleet);
Json gaps_as_json(const std::vector<service::Gap>& gaps, const service::Fleet& fleet);
Json seen_as_json(const service::SeenSign& seen, const service::Fleet& fleet, const service::NotToRun& stopped);
// note, again_on and sightings, as of what is kept as seen; null: of a sign that nobody saw there is nothing.
void add_sightings(Json& json, const service::NoticedSign* sign);
Json fact_as_json(const service::Fact& fact);
Json diagnostic_as_json(const service::Diagnostic& diagnostic, const std::string& command);  // command: see Look
Json need_as_json(const service::PartNeed& need, const service::Fleet& fleet);

std::string dumped(const Json& json);  // indented, with a line end
std::string dumped_line(const Json& json);

}  // namespace cli
