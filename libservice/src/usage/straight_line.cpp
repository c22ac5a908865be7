// The plainest expectations: usage goes on at the mean rate of the year before the last reading, or as it did on the
// same days of that year. They answer all odds alike.
#include <algorithm>

#include "service/usage.h"
#include "usage/halving.h"
#include "usage/nothing.h"

namespace service {
namespace {

constexpr int window_days = 365;
constexpr int short_history_days =
    28;  // below this `expect:` knows better than a few odd days (common practice, no source)

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
    const Day from = std::max(knots.front().day, last - std::chrono::days{window_days});
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

// Known for certain, or so it seems: the odds of a level go from 0 to 1 on one day.
class CertainOdds : public ReachOdds {
 public:
  explicit CertainOdds(std::optional<Day> reached) : reached_(reached) {}
  Probability by(Day day) const override { return Probability{reached_ && day >= *reached_ ? 1.0 : 0.0}; }

 private:
  std::optional<Day> reached_;
};

// One line into the future; the kinds of line differ in `used_after`.
class CertainLine : public UsageAhead {
 public:
  CertainLine(const AheadQuestion& question, Knot last)
      : last_(last), as_of_(question.as_of), end_(add_months(question.as_of, horizon_months)) {
    if (question.state.kind == UseKind::in_use) return;
    idle_from_ = std::max(last_.day, question.state.since.value_or(last_.day));
    idle_to_ = question.state.until ? std::max(*idle_from_, *question.state.until) : end_ + std::chrono::days{1};
  }

  std::optional<Amount> on(Day day, Quantile /*quantile*/) const override {
    return last_.usage + used_after(days_of_use(day));
  }

  std::optional<Day> reaches(Amount level, Quantile quantile) const override {
    if (level <= last_.usage) return last_.day;
    if (*on(end_, quantile) < level) return std::nullopt;
    return usage::first_day(last_.day, end_, [&](Day day) { return *on(day, quantile) >= level; });
  }

  std::unique_ptr<const ReachOdds> odds(Amount level, std::optional<Amount> /*every*/) const override {
    return std::make_unique<CertainOdds>(reaches(level, Quantile::p50));
  }

  std::unique_ptr<const UsagePath> draw(Draws& /*random*/, Probability /*season*/, int days) const override {
    std::vector<Amount> usage;
    for (int day = 0; day <= days; ++day) usage.push_back(*on(as_of_ + std::chrono::days{day}, Quantile::p50));
    return std::make_unique<UsagePath>(as_of_, 1, std::move(usage));
  }

 protected:
  virtual Amount used_after(std::int64_t days) const = 0;
  Knot last_;

 private:
  std::int64_t days_of_use(Day day) const {
    const int all = days_between(last_.day, day);
    if (all <= 0) return 0;
    if (!idle_from_) return all;
    return all - std::max(0, days_between(*idle_from_, std::min(day, *idle_to_)));
  }

  Day as_of_;
  Day end_;
  std::optional<Day> idle_from_;
  std::optional<Day> idle_to_;
};

class StraightLine : public CertainLine {
 public:
  StraightLine(const AheadQuestion& question, Knot last, Rate rate) : CertainLine(question, last), rate_(rate) {}

 protected:
  Amount used_after(std::int64_t days) const override {
    return {(2 * rate_.hundredths * days + rate_.days) / (2 * rate_.days)};
  }

 private:
  Rate rate_;
};

class SameDaysAgain : public CertainLine {
 public:
  SameDaysAgain(const AheadQuestion& question, Knot last) : CertainLine(question, last), history_(question.history) {}

 protected:
  Amount used_after(std::int64_t days) const override {
    const Day start = last_.day - std::chrono::days{window_days};
    const Amount year = last_.usage - *history_.on(start);
    const Amount part = *history_.on(start + std::chrono::days{days % window_days}) - *history_.on(start);
    return part + Amount{year.hundredths * (days / window_days)};
  }

 private:
  const MeterHistory& history_;
};

std::unique_ptr<const UsageAhead> on_a_line(const AheadQuestion& question) {
  const auto rate = rate_of(question);
  if (question.history.empty() || !rate) return usage::nothing_expected();
  return std::make_unique<StraightLine>(question, question.history.knots().back(), *rate);
}

}  // namespace

Forecaster straight_line() { return on_a_line; }

Forecaster same_days_again() {
  return [](const AheadQuestion& question) -> std::unique_ptr<const UsageAhead> {
    const auto& knots = question.history.knots();
    const bool has_year = !knots.empty() && days_between(knots.front().day, knots.back().day) >= window_days;
    if (!has_year) return on_a_line(question);
    return std::make_unique<SameDaysAgain>(question, knots.back());
  };
}

}  // namespace service
