// The plainest expectation: usage goes on at the mean rate of the year before the last reading.
#include <algorithm>

#include "service/usage.h"

namespace service {
namespace {

constexpr int window_days = 365;
constexpr int short_history_days =
    28;  // below this `expect:` knows better than a few odd days (common practice, no source)
constexpr int horizon_months = 60;

// So many hundredths in so many days of use.
struct Rate {
  std::int64_t hundredths = 0;
  std::int64_t days = 1;
};

std::optional<Rate> rate_of(const AheadQuestion& question) {
  const auto& knots = question.history.knots();
  std::optional<Rate> seen;
  int seen_days = 0;
  if (!knots.empty()) {
    const Day last = knots.back().day;
    const Day from = std::max(knots.front().day, last - date::days{window_days});
    seen_days = days_between(from, last);
    if (seen_days > 0) seen = Rate{(knots.back().usage - *question.history.on(from)).hundredths, seen_days};
  }
  if (seen && seen_days >= short_history_days) return seen;
  const Meter* first = question.machine.first_meter();
  if (question.machine.expect.per_year && first != nullptr && first->name == question.meter.name) {
    return Rate{question.machine.expect.per_year->hundredths, window_days};
  }
  return seen;
}

class StraightLine : public UsageAhead {
 public:
  StraightLine(const AheadQuestion& question, Knot last, Rate rate)
      : last_(last), rate_(rate), end_(add_months(question.as_of, horizon_months)) {
    if (question.state.kind == UseKind::in_use) return;
    idle_from_ = std::max(last_.day, question.state.since.value_or(last_.day));
    idle_to_ = question.state.until ? std::max(*idle_from_, *question.state.until) : end_ + date::days{1};
  }

  std::optional<Amount> on(Day day, Odds /*odds*/) const override {
    return last_.usage + Amount{(2 * rate_.hundredths * days_of_use(day) + rate_.days) / (2 * rate_.days)};
  }

  std::optional<Day> reaches(Amount level, Odds odds) const override {
    if (level <= last_.usage) return last_.day;
    if (*on(end_, odds) < level) return std::nullopt;
    Day below = last_.day;
    Day at = end_;
    while (days_between(below, at) > 1) {
      const Day middle = below + date::days{days_between(below, at) / 2};
      (*on(middle, odds) < level ? below : at) = middle;
    }
    return at;
  }

 private:
  std::int64_t days_of_use(Day day) const {
    const int all = days_between(last_.day, day);
    if (all <= 0) return 0;
    if (!idle_from_) return all;
    return all - std::max(0, days_between(*idle_from_, std::min(day, *idle_to_)));
  }

  Knot last_;
  Rate rate_;
  Day end_;
  std::optional<Day> idle_from_;
  std::optional<Day> idle_to_;
};

class NothingExpected : public UsageAhead {
 public:
  std::optional<Amount> on(Day /*day*/, Odds /*odds*/) const override { return std::nullopt; }
  std::optional<Day> reaches(Amount /*level*/, Odds /*odds*/) const override { return std::nullopt; }
};

}  // namespace

Forecaster straight_line() {
  return [](const AheadQuestion& question) -> std::unique_ptr<const UsageAhead> {
    const auto rate = rate_of(question);
    if (question.history.empty() || !rate) return std::make_unique<NothingExpected>();
    return std::make_unique<StraightLine>(question, question.history.knots().back(), *rate);
  };
}

}  // namespace service
