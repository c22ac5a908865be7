#include "render/shared/figures.h"

#include <fmt/format.h>

#include <cmath>

namespace cli {
namespace {

double rounded(double value, double per_unit) { return std::round(value * per_unit) / per_unit; }

}  // namespace

double share_of(double share) { return rounded(share, 10'000); }
double mean_of(double mean) { return rounded(mean, 1000); }
double days_of(double days) { return rounded(days, 100); }
double years_of(double years) { return rounded(years, 100); }
double usage_of(double usage) { return rounded(usage, 10); }

std::string decimal(double rounded) { return fmt::format("{}", rounded); }

}  // namespace cli
