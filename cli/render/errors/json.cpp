#include "render/errors/errors.h"
#include "render/shared/json_parts.h"

namespace cli {

std::string errors_as_json(std::span<const service::Diagnostic> diagnostics, const std::string& command) {
  std::string lines;
  for (const service::Diagnostic& diagnostic : diagnostics) {
    lines += dumped_line({{"error", diagnostic_as_json(diagnostic, command)}});
  }
  return lines;
}

}  // namespace cli
