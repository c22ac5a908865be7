// A forecaster that has learnt from the machines of each kind.
#include <map>
#include <memory>

#include "service/usage.h"
#include "usage/ahead.h"
#include "usage/learning.h"
#include "usage/nothing.h"

namespace service {
namespace {

std::vector<const Machine*> machines_of(const Fleet& fleet, const std::string& schedule) {
  std::vector<const Machine*> all;
  for (const Machine& machine : fleet.machines) {
    if (machine.schedule == schedule) all.push_back(&machine);
  }
  return all;
}

}  // namespace

Forecaster learnt_from(const Snapshot& kin) {
  using LearntMeters = std::map<std::pair<std::string, std::string>, usage::LearntMeter>;
  return [&kin, kinds = std::make_shared<LearntMeters>()](
             const AheadQuestion& question) -> std::unique_ptr<const UsageAhead> {
    if (question.history.empty()) return usage::nothing_expected();
    const auto [at, is_new] = kinds->try_emplace({question.machine.schedule, question.meter.name});
    if (is_new) {
      at->second = usage::learn(
          question.fleet, machines_of(question.fleet, question.machine.schedule),
          [&kin](const Machine& machine) { return book_of(kin, machine); }, question.meter.name, kin.as_of());
    }
    const usage::Learnt* learnt = at->second.pooled->of(question.machine.key);
    if (learnt == nullptr) return usage::nothing_expected();
    return usage::ahead_of(
        {*learnt, at->second.pooled, question.history, question.state, question.as_of, at->second.unit});
  };
}

}  // namespace service
