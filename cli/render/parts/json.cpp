#include "render/parts/parts.h"
#include "render/shared/json_parts.h"

namespace cli {

using service::PartNeed;

std::string parts_as_json(const service::PartsList& list) {
  Json json{{"fleet", list.fleet->name},
            {"as_of", to_text(list.as_of)},
            {"to", to_text(list.to)},
            {"currency", text_or_null(list.fleet->currency)},
            {"parts", Json::array()}};
  for (const PartNeed& need : list.needs) json["parts"].push_back(need_as_json(need));
  json["unknown"] = unknown_as_json(list.unknown);
  json["stands"] = keys_of(list.standing);
  return dumped(json);
}

}  // namespace cli
