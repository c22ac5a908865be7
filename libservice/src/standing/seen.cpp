#include "standing/seen.h"

#include <algorithm>
#include <tuple>

namespace service {
namespace {

bool may_be_kept(const Fact& fact) {
  return fact.kind == FactKind::sign || fact.kind == FactKind::measurement ||
         (fact.kind == FactKind::service && found_bad(fact));
}

struct Open {
  SeenSign seen;
  const Fact* service = nullptr;       // what was found worn or failed, where it is that
  std::vector<std::string> positions;  // of it, where nothing better was found since
  // The end of a month or year by which alone it is known, and the fact of that which was entered last: what was done
  // before that end may have been done before it.
  std::optional<Day> maybe_until;
  const Fact* vague = nullptr;

  bool maybe_after(const Fact& fact) const { return maybe_until && fact.on.first <= *maybe_until; }
};

bool entered_before(const Fact& a, const Fact& b) { return std::tie(a.entered, a.id) < std::tie(b.entered, b.id); }

class Keeping {
 public:
  explicit Keeping(const MachineView& view) : view_(view), kept_as_seen_(view.snapshot.fleet(), view.machine) {}

  void take(const Fact& fact) {
    if (fact.kind == FactKind::looked_at) look(fact);
    auto kept = kept_as_seen_.of(fact);
    if (fact.kind == FactKind::service && (kept || !found_bad(fact))) do_again(fact);
    if (kept) keep(fact, std::move(*kept));
  }

  std::vector<SeenSign> still_open() && {
    std::vector<SeenSign> seen;
    for (Open& open : open_) seen.push_back(std::move(open.seen));
    return seen;
  }

 private:
  void keep(const Fact& fact, Kept kept) {
    const bool is_service = fact.kind == FactKind::service;
    auto at = std::find_if(open_.begin(), open_.end(), [&](const Open& open) {
      return open.seen.sign == kept.name && (open.service != nullptr) == is_service;
    });
    if (at == open_.end()) {
      Open fresh;
      fresh.seen = {&view_.machine, std::move(kept.name), fact.on,      fact.id,    fact.id,
                    fact.note,      std::nullopt,         std::nullopt, kept.safety};
      at = open_.insert(open_.end(), std::move(fresh));
    } else if (!fact.note.empty()) {
      at->seen.note = fact.note;
    }
    at->seen.newest = fact.id;
    if (!fact.on.whole_day()) {
      at->maybe_until = std::max(at->maybe_until.value_or(fact.on.last), fact.on.last);
      if (at->vague == nullptr || entered_before(*at->vague, fact)) at->vague = &fact;
    }
    if (!is_service) return;
    at->service = &fact;
    at->positions = fact.position.empty() ? positions_of(fact) : std::vector{fact.position};
  }

  // All the positions of a task, or of the task that a check follows; one without a name where it has none.
  std::vector<std::string> positions_of(const Fact& fact) const {
    const Task* task = task_named(view_.schedule, fact.task).task;
    const auto found = std::find_if(view_.tasks.begin(), view_.tasks.end(),
                                    [&](const MachineTask& each) { return each.task == task; });
    if (found == view_.tasks.end() || found->positions.empty()) return {""};
    return found->positions;
  }

  void look(const Fact& fact) {
    const Found found = fact.found.value_or(Found::good);
    if (found == Found::good) {
      std::erase_if(open_, [&](const Open& open) {
        // Whoever named it when it was in the book already meant it, whatever the day.
        return open.seen.sign == fact.name && !(open.maybe_after(fact) && entered_before(fact, *open.vague));
      });
      return;
    }
    for (Open& open : open_) {
      if (open.seen.sign != fact.name) continue;
      open.seen.found = found;
      open.seen.looked_on = fact.on.first;
      open.seen.note = fact.note;
    }
  }

  // A later service of the same point that was found neither worn nor failed answers it there. Found failed that was
  // worn, or worn that had failed, it is kept as that from then on.
  void do_again(const Fact& fact) {
    std::erase_if(open_, [&](Open& open) {
      if (open.service == nullptr || open.maybe_after(fact)) return false;
      const bool otherwise = open.service->task == fact.task && open.service->found != fact.found;
      if (found_bad(fact) ? !otherwise : !counts_for(*open.service, fact)) return false;
      std::erase_if(open.positions, [&](const std::string& position) {
        return position.empty() || fact.position.empty() || fact.position == position;
      });
      return open.positions.empty();
    });
  }

  bool counts_for(const Fact& failed, const Fact& later) const {
    const auto names = counted_as(view_.schedule, failed.task);  // of a check: that check alone
    return std::find(names.begin(), names.end(), later.task) != names.end();
  }

  const MachineView& view_;
  KeptAsSeen kept_as_seen_;
  std::vector<Open> open_;
};

}  // namespace

std::vector<SeenSign> seen_of(const MachineView& view) {
  if (std::none_of(view.facts.begin(), view.facts.end(), may_be_kept)) return {};
  Keeping keeping(view);
  for (const Fact& fact : view.facts) keeping.take(fact);
  return std::move(keeping).still_open();
}

}  // namespace service
