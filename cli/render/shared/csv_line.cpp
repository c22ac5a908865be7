#include "render/shared/csv_line.h"

#include <fmt/format.h>

namespace cli {

std::string decimal(double value) { return fmt::format("{:.3f}", value); }
std::string share(const std::optional<double>& value) { return value ? fmt::format("{:.4f}", *value) : ""; }

}  // namespace cli
