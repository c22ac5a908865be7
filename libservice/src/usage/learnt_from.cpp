// A forecaster that has learnt from the machines of each kind.
#include <map>
#include <memory>
#include <utility>

#include "service/machine_book.h"
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

class BooksOfSnapshot : public BookSource {
 public:
  explicit BooksOfSnapshot(const Snapshot& kin) : kin_(kin) {}
  std::shared_ptr<const MachineBook> book_of(const Machine& machine) const override {
    return service::book_of(kin_, machine);
  }

 private:
  const Snapshot& kin_;
};

using LearntMeters = std::map<std::pair<std::string, std::string>, usage::LearntMeter>;

// The one place where anybody asks what a kind teaches about a meter.
const usage::LearntMeter& learnt_about(const AheadQuestion& question, LearntMeters& kinds, const BookSource& kin,
                                       Day as_of) {
  const auto [at, is_new] = kinds.try_emplace({question.machine.schedule, question.meter.name});
  if (is_new) {
    at->second = usage::learn(
        question.fleet, machines_of(question.fleet, question.machine.schedule),
        [&kin](const Machine& machine) { return kin.book_of(machine); }, question.meter.name, as_of);
  }
  return at->second;
}

Forecaster forecaster_from(std::shared_ptr<const BookSource> kin, Day as_of) {
  return [kin = std::move(kin), as_of, kinds = std::make_shared<LearntMeters>()](
             const AheadQuestion& question) -> std::unique_ptr<const UsageAhead> {
    if (question.history.empty()) return usage::nothing_expected();
    const usage::LearntMeter& meter = learnt_about(question, *kinds, *kin, as_of);
    const usage::Learnt* learnt = meter.pooled->of(question.machine.key);
    if (learnt == nullptr) return usage::nothing_expected();
    return usage::ahead_of({*learnt, meter.pooled, question.history, question.state, question.as_of, meter.unit});
  };
}

}  // namespace

Forecaster learnt_from(const Snapshot& kin) {
  return forecaster_from(std::make_shared<const BooksOfSnapshot>(kin), kin.as_of());
}

Forecaster learnt_from(const BookSource& kin, Day as_of) {
  return forecaster_from({std::shared_ptr<const BookSource>(), &kin}, as_of);
}

}  // namespace service
