#include <fmt/format.h>

#include "render/backup/backup.h"
#include "service/base.h"
#include "terminal/shell_word.h"

namespace cli {

std::string backup_as_text(const BackupAnswer& backup, const Look& look) {
  return fmt::format(
      "Backed up to {0}: {1}, every one read back.\n"
      "To use it, put it in place of record.db in the fleet's folder; or: {2} merge {3}\n",
      service::cleaned(backup.file), service::counted(static_cast<std::int64_t>(backup.facts), "fact", "facts"),
      look.command, shell_word(service::cleaned(backup.file)));
}

}  // namespace cli
