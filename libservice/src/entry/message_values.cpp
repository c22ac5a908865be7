#include "entry/message_values.h"

#include <algorithm>
#include <cstdint>

namespace service::entry {
namespace {

constexpr std::int64_t seconds_a_hundredth = 36;
constexpr std::int64_t seconds_a_day = 24LL * 60 * 60;

bool both_timed(const LineValue& one, const LineValue& other) { return one.second && other.second; }

// From one to the other; negative: backwards. Of whole days where one has no time.
std::int64_t seconds_between(const LineValue& one, const LineValue& other) {
  const std::int64_t days = days_between(one.on, other.on);
  return days * seconds_a_day + (both_timed(one, other) ? *other.second - *one.second : 0);
}

// How long an hour meter may have run from the earlier one to the later one.
Amount room(const LineValue& earlier, const LineValue& later) {
  const std::int64_t seconds = seconds_between(earlier, later);
  if (!both_timed(earlier, later)) return Amount{(seconds + seconds_a_day) / seconds_a_hundredth};
  return Amount{seconds / seconds_a_hundredth} + late_by;
}

// Contradictions that stand while some values are left aside.
class Contradictions {
 public:
  Contradictions(const Meter& meter, std::span<const LineValue> values)
      : against_(values.size(), std::vector<bool>(values.size(), false)), counts_(values.size(), 0) {
    for (std::size_t i = 0; i < values.size(); ++i) {
      for (std::size_t k = i + 1; k < values.size(); ++k) {
        if (apart(meter, values[i], values[k]) == Apart::no) continue;
        against_[i][k] = against_[k][i] = true;
        ++counts_[i];
        ++counts_[k];
      }
    }
  }

  std::vector<std::size_t> of(std::size_t value) const {
    std::vector<std::size_t> others;
    for (std::size_t i = 0; i < against_.size() && counts_[value] > others.size(); ++i) {
      if (against_[value][i]) others.push_back(i);
    }
    return others;
  }

  void leave_aside(std::size_t value) {
    for (const std::size_t other : of(value)) {
      against_[value][other] = against_[other][value] = false;
      --counts_[other];
    }
    counts_[value] = 0;
  }

  // That which contradicts more others than any other does, and more than one.
  std::optional<std::size_t> odd_one() const {
    const auto most = std::max_element(counts_.begin(), counts_.end());
    if (most == counts_.end() || *most < 2 || std::count(most, counts_.end(), *most) > 1) return std::nullopt;
    return static_cast<std::size_t>(most - counts_.begin());
  }

 private:
  std::vector<std::vector<bool>> against_;
  std::vector<std::size_t> counts_;
};

}  // namespace

Apart apart(const Meter& meter, const LineValue& one, const LineValue& other) {
  const std::int64_t between = seconds_between(one, other);
  const bool other_first = between < 0;
  const LineValue& earlier = other_first ? other : one;
  const LineValue& later = other_first ? one : other;
  const Amount use = later.at - earlier.at;
  if (use < Amount{}) {
    const bool rolled = meter.rolls_over_at && use + *meter.rolls_over_at <= room(earlier, later);
    return !rolled && -use > late_by ? Apart::falls : Apart::no;
  }
  return meter.unit == "h" && use > room(earlier, later) ? Apart::more_than_time : Apart::no;
}

std::vector<NotCertain> not_certain(const Meter& meter, std::span<const LineValue> values) {
  Contradictions left(meter, values);
  std::vector<NotCertain> all;
  const auto leave_aside = [&](std::size_t value, std::size_t other) {
    all.push_back({value, other, true});
    left.leave_aside(value);
  };
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values[i].sure) continue;
    const auto others = left.of(i);
    const auto sure = std::find_if(others.begin(), others.end(), [&](std::size_t other) { return values[other].sure; });
    if (sure != others.end()) leave_aside(i, *sure);
  }
  for (auto odd = left.odd_one(); odd; odd = left.odd_one()) leave_aside(*odd, left.of(*odd).front());
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (const auto others = left.of(i); !others.empty()) all.push_back({i, others.front(), false});
  }
  return all;
}

}  // namespace service::entry
