#include "commands/found_option.h"

#include <fmt/format.h>

#include "mistakes.h"

namespace cli {

std::optional<service::Found> found_option(const Arguments& arguments) {
  const auto written = arguments.value("found");
  if (!written) return std::nullopt;
  if (const auto found = service::parse_found(*written)) return found;
  const std::vector<std::string> names{"good", "worn", "failed"};
  wrong("bad-found", fmt::format("`--found {}` is not understood", *written),
        service::nearest_or(*written, names, "write good, worn or failed"));
}

}  // namespace cli
