// Use ahead as a test tells it: usage today, and the odds of any level, with and without the silence of the record.
#pragma once

#include <memory>
#include <optional>

#include "service/usage.h"

namespace test {

struct TellAhead {
  service::Amount today;
  service::Probability plain;   // of any level, on any day
  service::Probability silent;  // the same where an interval is named
};

class ToldAhead : public service::UsageAhead {
 public:
  explicit ToldAhead(TellAhead tell) : tell_(tell) {}
  std::optional<service::Amount> on(service::Day, service::Quantile) const override { return tell_.today; }
  std::optional<service::Day> reaches(service::Amount, service::Quantile) const override { return std::nullopt; }
  std::unique_ptr<const service::ReachOdds> odds(service::Amount, std::optional<service::Amount> every) const override {
    return std::make_unique<Always>(every ? tell_.silent : tell_.plain);
  }
  std::unique_ptr<const service::UsagePath> draw(service::Draws&, service::Probability, int) const override {
    return nullptr;
  }

 private:
  class Always : public service::ReachOdds {
   public:
    explicit Always(service::Probability odds) : odds_(odds) {}
    service::Probability by(service::Day) const override { return odds_; }

   private:
    service::Probability odds_;
  };
  TellAhead tell_;
};

inline service::Forecaster told_ahead(TellAhead tell) {
  return [tell](const service::AheadQuestion&) { return std::make_unique<ToldAhead>(tell); };
}

}  // namespace test
