#include "render/shared/mend_json.h"

#include "render/shared/mend_words.h"

namespace cli {
namespace {

// With the keys of one that was seen; so is a listed sign.
Json limb_as_json(const service::WaitsToMend& one, const service::Fleet& fleet, const service::NotToRun& stopped) {
  Json json = machine_of(*one.machine, fleet);
  json["sign"] = one.measured() ? measured_words(*one.limb) : one.limb->seen;
  json["on"] = day_or_null(one.limb->noticed_on);
  json["until"] = day_or_null(one.limb->noticed_on);
  json["fact"] = one.limb->fact ? Json(to_text(*one.limb->fact)) : Json(nullptr);
  json["do_not_run"] = stopped.holds(*one.machine);
  add_sightings(json, one.limb->open_sign());
  return json;
}

}  // namespace

Json to_mend_as_json(const std::vector<service::WaitsToMend>& waiting, const service::Fleet& fleet,
                     const service::NotToRun& stopped) {
  return array_of(waiting, [&](const service::WaitsToMend& one) {
    Json json = one.seen != nullptr ? seen_as_json(*one.seen, fleet, stopped) : limb_as_json(one, fleet, stopped);
    json["task"] = text_or_null(one.task);
    json["position"] = text_or_null(one.position);
    json["found"] = one.found ? Json(to_text(*one.found)) : Json(nullptr);
    json["name"] = one.measured() ? Json(one.limb->name) : Json(nullptr);
    json["value"] = one.measured() ? number_or_null(one.limb->measured) : Json(nullptr);
    json["limit"] = one.measured() ? number(one.limb->limit) : Json(nullptr);
    json["unit"] = one.measured() ? text_or_null(one.limb->unit) : Json(nullptr);
    json["call"] = one.call == nullptr ? Json(nullptr) : Json(one.call->key);
    return json;
  });
}

}  // namespace cli
