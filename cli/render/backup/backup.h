// That a copy of the record was made.
#pragma once

#include <cstddef>
#include <string>

#include "render/shared/formats.h"

namespace cli {

struct BackupAnswer {
  std::string file;       // as it was named
  std::size_t facts = 0;  // read back from it
};

std::string backup_as_text(const BackupAnswer& backup, const Look& look);
std::string backup_as_json(const BackupAnswer& backup);

inline constexpr Format<BackupAnswer> backup_formats[] = {{"text", backup_as_text}, {"json", backup_as_json}};

}  // namespace cli
