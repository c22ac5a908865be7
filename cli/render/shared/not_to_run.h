// Rows of an answer that knows which machines nobody may run: each row of such a machine says so (`do_not_run`).
#pragma once

#include <vector>

#include "render/shared/json_parts.h"
#include "service/not_to_run.h"

namespace cli {

Json machine_as_json(const service::MachineUse& use, const service::Fleet& fleet, const service::NotToRun& stopped);
Json seen_as_json(const std::vector<service::SeenSign>& seen, const service::Fleet& fleet,
                  const service::NotToRun& stopped);
Json not_in_use_as_json(const std::vector<service::MachineUse>& machines, const service::Fleet& fleet,
                        const service::NotToRun& stopped);

// Each row of an answer's lists that is about a machine says whether nobody may run that, of whatever kind it is, as in
// CSV (`table_of`): put in where its own writer did not, and null where it names no machine of the fleet. Rows of
// `not_to_run` say why.
void mark_rows(Json& answer, const service::Fleet& fleet, const service::NotToRun& stopped);

// Why nobody may run a machine: `{machine, site, customer, out_of_use, points, seen}`; and of several.
Json ban_as_json(const service::RunBan& ban, const service::Fleet& fleet);
Json bans_as_json(const std::vector<service::RunBan>& bans, const service::Fleet& fleet);

}  // namespace cli
