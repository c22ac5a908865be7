#include "standing/seen.h"

#include <algorithm>
#include <iterator>
#include <tuple>

namespace service {
namespace {

bool may_be_kept(const Fact& fact) {
  return fact.kind == FactKind::sign || fact.kind == FactKind::measurement ||
         ((fact.kind == FactKind::service || fact.kind == FactKind::looked_at) && found_bad(fact));
}

// What was seen by one name: open, or answered and there to be brought back.
struct Thing {
  SeenSign seen;
  bool open = true;
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
  explicit Keeping(const MachineView& view) : view_(view), kept_as_seen_(view.fleet, view.machine) {}

  void take(const Fact& fact) {
    if (fact.kind == FactKind::looked_at) look(fact);
    auto kept = kept_as_seen_.of(fact);
    if (fact.kind == FactKind::service && (kept || !found_bad(fact))) do_again(fact);
    if (kept) keep(fact, std::move(*kept));
  }

  std::vector<SeenSign> still_open() && {
    std::vector<SeenSign> seen;
    for (Thing& thing : things_) {
      if (thing.open) seen.push_back(std::move(thing.seen));
    }
    return seen;
  }

 private:
  void keep(const Fact& fact, Kept kept) {
    const bool is_service = fact.kind == FactKind::service;
    auto at = std::find_if(things_.begin(), things_.end(), [&](const Thing& thing) {
      return thing.seen.sign == kept.name && (thing.service != nullptr) == is_service;
    });
    if (at != things_.end() && at->open) {
      // What a look found is that look's word: whoever sees it again has his own.
      if (!fact.note.empty() && !at->seen.looked_on) at->seen.note = fact.note;
      at->seen.sightings.push_back({fact.on, fact.id, fact.note});
    } else {
      if (at != things_.end()) things_.erase(at);
      at = things_.insert(things_.end(), first_seen(fact, std::move(kept)));
    }
    at->seen.newest = fact.id;
    if (!fact.on.whole_day()) {
      at->maybe_until = std::max(at->maybe_until.value_or(fact.on.last), fact.on.last);
      if (at->vague == nullptr || entered_before(*at->vague, fact)) at->vague = &fact;
    }
    if (!is_service) return;
    at->service = &fact;
    at->positions = positions_of(fact);
  }

  Thing first_seen(const Fact& fact, Kept kept) const {
    Thing thing;
    thing.seen = {&view_.machine, std::move(kept.name), fact.on,      fact.id,     fact.id,
                  fact.note,      std::nullopt,         std::nullopt, kept.safety, {{fact.on, fact.id, fact.note}}};
    return thing;
  }

  // Seen by a look alone, whose note is what it found.
  Thing first_looked_at(const Fact& look, Kept kept) const {
    Thing thing = first_seen(look, std::move(kept));
    thing.seen.sightings.front().note.clear();
    return thing;
  }

  // That of a service, else all the positions of its task, or of the task that a check follows; one without a name
  // where it has none.
  std::vector<std::string> positions_of(const Fact& fact) const {
    if (!fact.position.empty()) return {fact.position};
    const Task* task = task_named(view_.schedule, fact.task).task;
    const auto found = std::find_if(view_.tasks.begin(), view_.tasks.end(),
                                    [&](const MachineTask& each) { return each.task == task; });
    if (found == view_.tasks.end() || found->positions.empty()) return {""};
    return found->positions;
  }

  void look(const Fact& fact) {
    const Found found = fact.found.value_or(Found::good);
    if (found == Found::good) {
      for (Thing& thing : things_) {
        // Whoever named it when it was in the book already meant it, whatever the day.
        const bool before_it = thing.maybe_after(fact) && entered_before(fact, *thing.vague);
        if (thing.seen.sign == fact.name && !before_it) thing.open = false;
      }
      return;
    }
    bring_back(fact);
    for (Thing& thing : things_) {
      if (thing.seen.sign != fact.name) continue;
      thing.seen.found = found;
      thing.seen.looked_on = fact.on.first;
      thing.seen.looked_by = fact.by;
      thing.seen.looked_fact = fact.id;
      thing.seen.note = fact.note;
    }
  }

  // Found worn or failed, what was answered stands again, and what nobody had seen is seen. A listed sign is not kept
  // here: its tasks come due.
  void bring_back(const Fact& look) {
    std::vector<Thing> again;
    bool is_known = kept_as_seen_.is_listed(look.name);
    for (const Thing& thing : things_) {
      if (thing.seen.sign != look.name) continue;
      is_known = true;
      if (thing.open) continue;
      Thing one = first_looked_at(look, {look.name, thing.seen.safety});
      one.service = thing.service;
      if (one.service != nullptr) one.positions = positions_of(*one.service);
      again.push_back(std::move(one));
    }
    if (!is_known) again.push_back(first_looked_at(look, {look.name, false}));
    std::erase_if(things_, [&](const Thing& thing) { return thing.seen.sign == look.name && !thing.open; });
    std::move(again.begin(), again.end(), std::back_inserter(things_));
  }

  // A later service of the same point that was found neither worn nor failed answers it there. Found failed that was
  // worn, or worn that had failed, it is kept as that from then on.
  void do_again(const Fact& fact) {
    for (Thing& thing : things_) {
      if (!thing.open || thing.service == nullptr || thing.maybe_after(fact)) continue;
      const bool otherwise = thing.service->task == fact.task && thing.service->found != fact.found;
      if (found_bad(fact) ? !otherwise : !counts_for(*thing.service, fact)) continue;
      std::erase_if(thing.positions, [&](const std::string& position) {
        return position.empty() || fact.position.empty() || fact.position == position;
      });
      thing.open = !thing.positions.empty();
    }
  }

  bool counts_for(const Fact& failed, const Fact& later) const {
    const auto names = counted_as(view_.schedule, failed.task);  // of a check: that check alone
    return std::find(names.begin(), names.end(), later.task) != names.end();
  }

  const MachineView& view_;
  KeptAsSeen kept_as_seen_;
  std::vector<Thing> things_;
};

}  // namespace

std::vector<SeenSign> seen_of(const MachineView& view) {
  if (std::none_of(view.facts.begin(), view.facts.end(), may_be_kept)) return {};
  Keeping keeping(view);
  for (const Fact& fact : view.facts) keeping.take(fact);
  return std::move(keeping).still_open();
}

}  // namespace service
