// A forecaster that has learnt from the machines of each kind.
#include <map>
#include <memory>
#include <utility>

#include "service/learnt_kind.h"
#include "service/machine_book.h"
#include "service/usage.h"
#include "usage/ahead.h"
#include "usage/learnt_use.h"
#include "usage/nothing.h"

namespace service {
namespace {

class BooksOfSnapshot : public BookSource {
 public:
  explicit BooksOfSnapshot(const Snapshot& kin) : kin_(kin) {}
  std::shared_ptr<const MachineBook> book_of(const Machine& machine) const override {
    return service::book_of(kin_, machine);
  }
  std::shared_ptr<const LearntKind> learnt_of(const std::string& schedule) const override {
    return kin_.learnt_of(schedule);
  }

 private:
  const Snapshot& kin_;
};

using Kinds = std::map<std::string, std::shared_ptr<const LearntKind>>;

// The one place where anybody asks what a kind teaches: what was learnt before, else by its machines' books.
const LearntKind& learnt_about(const AheadQuestion& question, Kinds& kinds, const BookSource& kin) {
  const std::string& schedule = question.machine.schedule;
  auto& kind = kinds[schedule];
  if (kind == nullptr) kind = kin.learnt_of(schedule);
  if (kind == nullptr) {
    kind = LearntKind::from(question.fleet, schedule, [&kin](const Machine& machine) { return kin.book_of(machine); });
  }
  return *kind;
}

Forecaster forecaster_from(std::shared_ptr<const BookSource> kin) {
  return [kin = std::move(kin),
          kinds = std::make_shared<Kinds>()](const AheadQuestion& question) -> std::unique_ptr<const UsageAhead> {
    if (question.history.empty()) return usage::nothing_expected();
    auto use = learnt_about(question, *kinds, *kin).of(question.machine.key, question.meter.name);
    if (use.learnt == nullptr) return usage::nothing_expected();
    return usage::ahead_of(
        {std::move(use.learnt), std::move(use.late), question.history, question.state, question.as_of, use.unit});
  };
}

}  // namespace

Forecaster learnt_from(const Snapshot& kin) { return forecaster_from(std::make_shared<const BooksOfSnapshot>(kin)); }

Forecaster learnt_from(const BookSource& kin) { return forecaster_from({std::shared_ptr<const BookSource>(), &kin}); }

}  // namespace service
