#include "render/shared/mend_json.h"

namespace cli {

Json to_mend_as_json(const std::vector<service::WaitsToMend>& waiting, const service::Fleet& fleet,
                     const service::NotToRun& stopped) {
  return array_of(waiting, [&](const service::WaitsToMend& one) {
    Json json = seen_as_json(*one.seen, fleet, stopped);
    json["task"] = text_or_null(one.task);
    json["position"] = text_or_null(one.position);
    json["found"] = to_text(one.found);
    json["call"] = one.call == nullptr ? Json(nullptr) : Json(one.call->key);
    return json;
  });
}

}  // namespace cli
