// `backup`: a copy of the record, verified.
#include "render/backup/backup.h"

#include "answering.h"
#include "backup_day.h"
#include "commands/commands.h"
#include "session.h"

namespace cli {

int backup(Context& context) {
  const std::string& written = context.arguments.words[0];
  const auto folder = fleet_folder(context);
  const auto record = open_record(context, folder, service::Access::read);
  const auto target = (context.world.folder / written).lexically_normal();
  record.backup(target);
  context.stored = true;
  // The copy is counted, not the record: that is what somebody will have to rely on.
  const auto facts = service::Record::open(target, service::Access::read).facts();
  note_backup(context, folder);
  put_answer(context, backup_formats, BackupAnswer{written, facts.size()});
  return 0;
}

}  // namespace cli
