#include "workload/done_on.h"

#include <algorithm>

namespace service::load {
namespace {

class DoneOn : public ReachOdds {
 public:
  explicit DoneOn(Day day) : day_(day) {}

  void add(Day due) { certain_ = certain_ ? std::min(*certain_, due) : due; }
  void add(std::unique_ptr<const ReachOdds> odds) { usage_.push_back(std::move(odds)); }

  Probability by(Day day) const override {
    if (day <= day_) return {};
    if (certain_ && day >= *certain_) return Probability{1};
    double not_yet = 1;
    for (const auto& odds : usage_) not_yet *= 1 - odds->by(day).value;
    return Probability{std::clamp(1 - not_yet, 0.0, 1.0)};
  }

  std::optional<Day> likely(Probability level) const override {
    std::optional<Day> likely = certain_;
    for (const auto& odds : usage_) {
      const auto own = odds->likely(level);
      if (own && (!likely || *own < *likely)) likely = own;
    }
    return likely;
  }

 private:
  Day day_;
  std::optional<Day> certain_;
  std::vector<std::unique_ptr<const ReachOdds>> usage_;
};

}  // namespace

std::unique_ptr<const ReachOdds> done_on(UseAhead& use, const Point& point, Day day) {
  if (point.follow_up != nullptr) return nullptr;
  const auto task = task_of(use.snapshot().fleet(), *point.machine, point.task->name);
  if (!task) return nullptr;
  const Aheads& ahead = use.ahead_of(*point.machine);
  auto again = std::make_unique<DoneOn>(day);
  bool known = false;
  for (const LimbChoice& choice : task->every) {
    for (const Limb& limb : choice.candidates) {
      if (const auto* calendar = std::get_if<CalendarLimb>(&limb)) {
        again->add(after(day, calendar->every));
        known = true;
      } else if (const auto* usage = std::get_if<UsageLimb>(&limb)) {
        const auto meter = ahead.find(usage->meter.value_or(""));
        auto odds = meter == ahead.end() ? nullptr : meter->second->odds_since(day, usage->every);
        if (!odds) continue;
        again->add(std::move(odds));
        known = true;
      } else if (std::holds_alternative<SeasonLimb>(limb)) {
        known = true;  // done since the last such season ended, it serves the coming one
      }
    }
  }
  if (!known) return nullptr;
  return again;
}

}  // namespace service::load
