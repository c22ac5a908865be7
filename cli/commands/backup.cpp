// `backup`: a copy of the record, verified.
#include <fmt/format.h>

#include "commands/commands.h"
#include "render/json.h"
#include "session.h"

namespace cli {

int backup(Context& context) {
  const std::string& written = context.arguments.words[0];
  const auto record = open_record(fleet_folder(context), service::Access::read);
  const auto target = (context.world.folder / written).lexically_normal();
  record.backup(target);
  context.stored = true;
  // The copy is counted, not the record: that is what somebody will have to rely on.
  const auto facts = service::Record::open(target, service::Access::read).facts();
  if (context.arguments.value("format").value_or("text") == "json") {
    context.out = backup_as_json(written, static_cast<int>(facts.size()));
    return 0;
  }
  context.out = fmt::format("Backed up to {}: {}, every one read back.\n", service::cleaned(written),
                            service::counted(static_cast<std::int64_t>(facts.size()), "fact", "facts"));
  context.out += fmt::format("To use it, put it in place of record.db in the fleet's folder; or: whichever merge {}\n",
                             service::cleaned(written));
  return 0;
}

}  // namespace cli
