#include "render/backup/backup.h"
#include "render/shared/json_parts.h"

namespace cli {

std::string backup_as_json(const BackupAnswer& backup) {
  return dumped({{"backup", backup.file}, {"facts", backup.facts}});
}

}  // namespace cli
