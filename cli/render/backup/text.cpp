#include <fmt/format.h>

#include "render/backup/backup.h"
#include "service/base.h"

namespace cli {

std::string backup_as_text(const BackupAnswer& backup, const Look&) {
  return fmt::format(
      "Backed up to {0}: {1}, every one read back.\n"
      "To use it, put it in place of record.db in the fleet's folder; or: whichever merge {0}\n",
      service::cleaned(backup.file), service::counted(static_cast<std::int64_t>(backup.facts), "fact", "facts"));
}

}  // namespace cli
