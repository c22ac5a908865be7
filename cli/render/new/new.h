// Which files a new fleet was given.
#pragma once

#include <string>
#include <vector>

#include "render/shared/formats.h"

namespace cli {

struct MadeAnswer {
  std::string folder;  // as it was named
  std::vector<std::string> files;
};

std::string made_as_text(const MadeAnswer& made);
std::string made_as_json(const MadeAnswer& made);

inline constexpr Format<MadeAnswer> new_formats[] = {{"text", made_as_text}, {"json", made_as_json}};

}  // namespace cli
