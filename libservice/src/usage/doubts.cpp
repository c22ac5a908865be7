// Values that are possible and yet unlike their meter.
#include <algorithm>

#include "service/usage.h"
#include "usage/ahead.h"
#include "usage/learning.h"
#include "usage/slips.h"

namespace service {
namespace {

constexpr std::int64_t long_day_hours = 16;
constexpr int least_span = 120;  // days of own facts, before anything is expected of them
constexpr Probability hardly{0.0005};

// From one value to the next. Changes of the meter are steps of no length: a roll-over is recorded on the day of the
// reading that shows it, and use is measured from reading to reading.
struct Step {
  const Fact* fact = nullptr;
  std::optional<FactId> earlier;
  Day from;
  Day to;
  Amount shown_before;
  Amount usage_before;
  Amount usage;

  Amount used() const { return usage - usage_before; }
  int days() const { return days_between(from, to) + 1; }  // the day of the first value may be worked too
};

class Walk {
 public:
  Walk(const Fleet& fleet, const Machine& machine, const Meter& meter, std::span<const Fact> facts)
      : fleet_(fleet), machine_(machine), meter_(meter), facts_(facts), history_(machine, meter, facts) {
    take_steps();
  }

  std::vector<Doubt> doubts() const {
    std::vector<Doubt> standing;
    std::optional<Amount> above;  // the newest usage that nobody doubts: whatever lies below it is settled
    std::optional<Amount> sure;   // one that somebody is sure of settles its equals, too
    for (std::size_t i = steps_.size(); i-- > 0;) {
      const Step& step = steps_[i];
      if ((above && step.usage < *above) || (sure && step.usage <= *sure)) break;
      const bool confirmed = is_sure(*step.fact);
      if (confirmed) sure = step.usage;
      auto doubt = confirmed ? std::nullopt : doubt_of(i);
      if (doubt) {
        standing.push_back(*doubt);
      } else {
        above = step.usage;
      }
    }
    std::reverse(standing.begin(), standing.end());
    return standing;
  }

 private:
  void take_steps() {
    struct Last {
      std::optional<FactId> fact;
      Day day;
      Amount shown;
      Amount usage;

      // What the meter shows at a use since then, though a value that was read without its tenths says less.
      Amount holds(Amount later_usage) const { return shown + (later_usage - usage); }
    };
    std::optional<Last> last;
    for (const MeterEvent& event : meter_events(machine_, meter_, facts_)) {
      if (event.fact == nullptr) {
        const Amount usage = last ? std::max(last->usage, last->usage + (event.shown - last->shown)) : event.shown;
        last = Last{std::nullopt, event.day, last ? last->holds(usage) : event.shown, usage};
        continue;
      }
      const auto usage = history_.usage_of(event.fact->id);
      if (!usage) continue;
      if (last) {
        steps_.push_back({event.fact, last->fact, last->day, event.day, last->shown, last->usage, *usage});
      }
      if (event.fresh) {
        if (last) last->shown = *event.fresh - (*usage - last->usage);  // as the new meter would have shown it
        continue;
      }
      last = Last{event.fact->id, event.day, last ? last->holds(*usage) : event.shown, *usage};
    }
  }

  bool is_sure(const Fact& fact) const {
    return std::any_of(facts_.begin(), facts_.end(), [&](const Fact& other) {
      const bool same_value = other.on.first == fact.on.first && other.at == fact.at && other.last == fact.last;
      return other.sure && same_value && shown_by(other, machine_, meter_);
    });
  }

  bool ran_long(const Step& step) const {
    return meter_.unit == "h" && step.used() > on_hour_meter(std::chrono::hours{long_day_hours} * step.days());
  }

  // A machine that works in two shifts does so again.
  bool ran_too_long(std::size_t i) const {
    if (!ran_long(steps_[i])) return false;
    const auto long_ones = std::count_if(steps_.begin(), steps_.begin() + static_cast<std::ptrdiff_t>(i),
                                         [&](const Step& step) { return ran_long(step); });
    return i == 0 || 3 * static_cast<std::size_t>(long_ones) < i;
  }

  std::optional<Doubt> doubt_of(std::size_t i) const {
    const Step& step = steps_[i];
    if (step.used() <= Amount{}) return std::nullopt;
    const bool too_long = ran_too_long(i);
    const auto before = facts_before(*step.fact);
    const auto book = std::make_shared<const MachineBook>(fleet_, machine_, before);
    const auto ahead = spans_enough(before) ? expected_from(book, step) : nullptr;
    const Day by = step.to + std::chrono::days{1};
    const auto odds = ahead != nullptr ? ahead->odds(step.usage, std::nullopt) : nullptr;
    if (!too_long && (odds == nullptr || odds->by(by) >= hardly)) return std::nullopt;
    Doubt doubt;
    doubt.fact = step.fact->id;
    doubt.earlier = step.earlier;
    doubt.from = step.from;
    doubt.to = step.to;
    doubt.shown_before = step.shown_before;
    doubt.shown = step.shown_before + step.used();
    doubt.used = step.used();
    if (ahead == nullptr) return doubt;
    const auto shown = [&](Quantile quantile) -> std::optional<Amount> {
      const auto usage = ahead->on(step.to, quantile);
      return usage ? std::optional(step.shown_before + (*usage - step.usage_before)) : std::nullopt;
    };
    doubt.p10 = shown(Quantile::p10);
    doubt.p50 = shown(Quantile::p50);
    doubt.p90 = shown(Quantile::p90);
    if (doubt.p50) {
      doubt.likely = usage::slip_behind(doubt.shown, *doubt.p50, [&](Amount candidate) {
        if (candidate < step.shown_before) return false;
        const auto reached = ahead->odds(step.usage_before + (candidate - step.shown_before), std::nullopt);
        return reached != nullptr && reached->by(by) >= Probability{0.05};
      });
    }
    return doubt;
  }

  std::span<const Fact> facts_before(const Fact& fact) const {
    const auto at = static_cast<std::size_t>(&fact - facts_.data());
    return facts_.first(at);
  }

  bool spans_enough(std::span<const Fact> facts) const {
    std::optional<Day> first;
    Day last{};
    for (const Fact& fact : facts) {
      const bool shows = (fact.kind == FactKind::reading || fact.kind == FactKind::service) && fact.at;
      if (!shows || !fact.on.whole_day() || !shown_by(fact, machine_, meter_)) continue;
      if (!first) first = fact.on.first;
      last = fact.on.first;
    }
    return first && days_between(*first, last) >= least_span;
  }

  // Without its kind: what is like this machine is what it did itself.
  std::unique_ptr<const UsageAhead> expected_from(const std::shared_ptr<const MachineBook>& before,
                                                  const Step& step) const {
    const MeterHistory& known = before->history(meter_);
    if (known.empty()) return nullptr;
    auto learnt = usage::learn(
        fleet_, {&machine_}, [&](const Machine&) { return before; }, meter_.name, usage::LatenessAsked::no);
    const auto own = learnt.machines.find(machine_.key);
    if (own == learnt.machines.end()) return nullptr;
    return usage::ahead_of({std::make_shared<const usage::Learnt>(std::move(own->second)),
                            std::make_shared<const usage::LateServices>(std::move(learnt.late)), known, UseState{},
                            step.to, learnt.unit});
  }

  const Fleet& fleet_;
  const Machine& machine_;
  const Meter& meter_;
  std::span<const Fact> facts_;
  MeterHistory history_;
  std::vector<Step> steps_;
};

}  // namespace

std::vector<Doubt> standing_doubts(const Fleet& fleet, const Machine& machine, const Meter& meter,
                                   std::span<const Fact> facts) {
  return Walk(fleet, machine, meter, facts).doubts();
}

}  // namespace service
