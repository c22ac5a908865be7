#include "usage/nothing.h"

namespace service::usage {
namespace {

class NothingExpected : public UsageAhead {
 public:
  std::optional<Amount> on(Day /*day*/, Quantile /*quantile*/) const override { return std::nullopt; }
  std::optional<Day> reaches(Amount /*level*/, Quantile /*quantile*/) const override { return std::nullopt; }
  std::unique_ptr<const ReachOdds> odds(Amount /*level*/, std::optional<Amount> /*every*/) const override {
    return nullptr;
  }
  std::unique_ptr<const UsagePath> draw(Draws& /*random*/, Probability /*season*/, int /*days*/) const override {
    return nullptr;
  }
};

}  // namespace

std::unique_ptr<const UsageAhead> nothing_expected() { return std::make_unique<NothingExpected>(); }

}  // namespace service::usage
