#include "usage/learning.h"

#include <algorithm>
#include <cmath>

#include "usage/constants.h"
#include "usage/standstills.h"

namespace service::usage {
namespace {

std::vector<ReadingGap> gaps_of(const MeterHistory& history, std::span<const Fact> facts) {
  std::vector<ReadingGap> gaps;
  const auto& knots = history.knots();
  if (knots.empty()) return gaps;
  const auto standstills = standstills_of(facts, knots.back().day);
  for (std::size_t i = 1; i < knots.size(); ++i) {
    ReadingGap gap{knots[i - 1].day,
                   knots[i].day,
                   static_cast<double>((knots[i].usage - knots[i - 1].usage).hundredths) / 100,
                   {}};
    gap.days = days_in_use(gap.from, gap.to, standstills);
    if (gap.days.empty()) {
      if (gap.use <= 0) continue;  // it stood, and was known to
      gap.days = days_by_bin(gap.from, gap.to);
    }
    gaps.push_back(std::move(gap));
  }
  return gaps;
}

// A day's mean use of the kind is the unit of all that is learnt: hours, kilometres and bales are alike.
double unit_of(const std::vector<Trace>& traces) {
  double use = 0;
  double days = 0;
  double expected = 0;
  int expecting = 0;
  for (const Trace& trace : traces) {
    for (const ReadingGap& gap : trace.gaps) {
      // Years without a reading say little of what a day's use is now.
      const double length = days_between(gap.from, gap.to);
      const double counted = std::min(length, year_days);
      use += gap.use * counted / std::max(length, 1.0);
      days += counted;
    }
    if (trace.expected_rate) expected += *trace.expected_rate;
    expecting += trace.expected_rate ? 1 : 0;
  }
  if (days > 0 && use > 0) return use / days;
  return expecting > 0 && expected > 0 ? expected / expecting : 1;
}

}  // namespace

LearntMeter learn(const Fleet& fleet, const std::vector<const Machine*>& kin, const BookOf& book_of,
                  const std::string& meter, LatenessAsked lateness_asked) {
  std::vector<Trace> traces;
  Lateness lateness;
  bool services = false;
  for (const Machine* member : kin) {
    const Machine& machine = *member;
    const Meter* own = machine.meter(meter);
    if (own == nullptr) continue;
    const auto book = book_of(machine);
    Trace trace;
    trace.machine = machine.key;
    trace.gaps = gaps_of(book->history(*own), book->facts());
    if (machine.first_meter() == own) {
      if (machine.expect.per_year) {
        trace.expected_rate = static_cast<double>(machine.expect.per_year->hundredths) / 100 / year_days;
      }
      trace.expected_shape = expected_profile(machine.expect, fleet);
    }
    traces.push_back(std::move(trace));
    if (lateness_asked == LatenessAsked::no) continue;
    const Lateness& late = book->lateness(*own);
    lateness.insert(lateness.end(), late.begin(), late.end());
    services = services || book->serviced();
  }
  LearntMeter learnt;
  learnt.unit = unit_of(traces);
  for (Trace& trace : traces) {
    for (ReadingGap& gap : trace.gaps) gap.use /= learnt.unit;
    if (trace.expected_rate) *trace.expected_rate /= learnt.unit;
  }
  learnt.machines = PooledModel(std::move(traces)).take_learnt();
  learnt.late = LateServices(std::move(lateness), services);
  return learnt;
}

}  // namespace service::usage
