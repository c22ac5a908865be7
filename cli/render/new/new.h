// Which files a new fleet was given, and how a spreadsheet was understood that it comes from.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "render/shared/formats.h"
#include "service/taking_over.h"

namespace cli {

struct MadeAnswer {
  std::string folder;  // as it was named
  std::vector<std::string> files;
  std::optional<service::TakenOver> taken = {};
  bool dry_run = false;  // nothing was written
};

std::string made_as_text(const MadeAnswer& made, const Look& look);
std::string made_as_json(const MadeAnswer& made);

inline constexpr Format<MadeAnswer> new_formats[] = {{"text", made_as_text}, {"json", made_as_json}};

}  // namespace cli
