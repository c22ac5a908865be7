// The day of the last backup, kept beside the record: the weekly word tells its age.
#pragma once

#include <filesystem>
#include <optional>

#include "run.h"

namespace cli {

// Where it cannot be kept, that is said beside the answer: the backup itself stands.
void note_backup(Context& context, const std::filesystem::path& folder);

// None: no backup is known of.
std::optional<service::Day> last_backup(const std::filesystem::path& folder);

}  // namespace cli
