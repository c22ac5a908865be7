#include "render/shared/mend_json.h"

#include "render/shared/mend_words.h"

namespace cli {
namespace {

// With the keys of one that was seen.
Json measured_as_json(const service::WaitsToMend& one, const service::Fleet& fleet, const service::NotToRun& stopped) {
  Json json = machine_of(*one.machine, fleet);
  json["sign"] = measured_words(*one.limb);
  json["on"] = day_or_null(one.limb->noticed_on);
  json["until"] = day_or_null(one.limb->noticed_on);
  json["fact"] = one.limb->fact ? Json(to_text(*one.limb->fact)) : Json(nullptr);
  json["note"] = nullptr;
  json["do_not_run"] = stopped.holds(*one.machine);
  json["again_on"] = nullptr;
  json["sightings"] = Json::array();
  return json;
}

}  // namespace

Json to_mend_as_json(const std::vector<service::WaitsToMend>& waiting, const service::Fleet& fleet,
                     const service::NotToRun& stopped) {
  return array_of(waiting, [&](const service::WaitsToMend& one) {
    Json json = one.seen != nullptr ? seen_as_json(*one.seen, fleet, stopped) : measured_as_json(one, fleet, stopped);
    json["task"] = text_or_null(one.task);
    json["position"] = text_or_null(one.position);
    json["found"] = one.found ? Json(to_text(*one.found)) : Json(nullptr);
    json["name"] = one.limb == nullptr ? Json(nullptr) : Json(one.limb->name);
    json["value"] = one.limb == nullptr ? Json(nullptr) : number_or_null(one.limb->measured);
    json["limit"] = one.limb == nullptr ? Json(nullptr) : number(one.limb->limit);
    json["unit"] = one.limb == nullptr ? Json(nullptr) : text_or_null(one.limb->unit);
    json["call"] = one.call == nullptr ? Json(nullptr) : Json(one.call->key);
    return json;
  });
}

}  // namespace cli
