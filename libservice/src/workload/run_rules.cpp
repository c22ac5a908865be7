#include "workload/run_rules.h"

#include <algorithm>

#include "service/minding.h"
#include "service/run_ban.h"
#include "workload/job_tasks.h"

namespace service::load {
namespace {

bool is_or_includes(const SheetTask& entry, const Task* task) {
  return entry.task == task || std::any_of(entry.included.begin(), entry.included.end(),
                                           [&](const SheetIncluded& included) { return included.task == task; });
}

// What the page says is unsafe, and which of its tasks are about that.
class Unsafe {
 public:
  Unsafe(const MachineSheet& page, const Fleet& fleet) : page_(page) {
    for (const SeenSign* seen : page.seen) {
      if (const Task* task = found_bad_task(fleet, *seen)) found_bad_.push_back(task);
    }
    for (const SeenSign* seen : page.forbidden_by_seen) {
      const Task* task = found_bad_task(fleet, *seen);
      all_known_ = all_known_ && task != nullptr && is_done(*task);
    }
    for (const Point* point : page.forbidden_by) all_known_ = all_known_ && is_done(*point->task);
  }

  bool is_about(const SheetTask& entry) const {
    return entry.sign_seen || mends(entry) || (page_.out_of_use() && is_overdue_safety(entry));
  }

  // Tasks of the page mend each thing that forbids to run it.
  bool all_known() const { return all_known_; }

  bool mends(const SheetTask& entry) const {
    const bool bad = std::any_of(found_bad_.begin(), found_bad_.end(),
                                 [&](const Task* task) { return is_or_includes(entry, task); });
    const bool sign = std::any_of(page_.forbidden_by.begin(), page_.forbidden_by.end(),
                                  [&](const Point* point) { return is_or_includes(entry, point->task); });
    return bad || sign;
  }

 private:
  bool is_done(const Task& task) const {
    return std::any_of(page_.tasks.begin(), page_.tasks.end(),
                       [&](const SheetTask& entry) { return is_or_includes(entry, &task); });
  }

  const MachineSheet& page_;
  std::vector<const Task*> found_bad_;
  bool all_known_ = true;
};

// Of a check nobody can tell.
bool runs(const SheetTask& entry) { return entry.runs; }
bool runs(const SheetLook& look) { return look.check != nullptr || runs_it(*look.task); }

// Until somebody says that it may run: no step runs it, and who knows of none need not look for one.
template <class Work>
RunRule not_run(const Work& work) {
  return runs(work) ? RunRule::not_at_all : RunRule::at_rest;
}

template <class Rule>
void say_each(MachineSheet& page, const Rule& rule_of) {
  for (SheetTask& entry : page.tasks) entry.run_rule = rule_of(entry);
  for (auto* looks : {&page.checks_owed, &page.measure_again}) {
    for (SheetLook& look : *looks) look.run_rule = rule_of(look);
  }
}

}  // namespace

bool is_overdue_safety(const SheetTask& entry) {
  return !entry.overdue_safety.empty() || std::any_of(entry.points.begin(), entry.points.end(), [](const Point* point) {
    return is_safety(*point) && point->standing == Standing::overdue;
  });
}

void say_what_is_unsafe(MachineSheet& page, const Fleet& fleet) {
  const Unsafe unsafe(page, fleet);
  for (SheetTask& entry : page.tasks) entry.unsafe = unsafe.is_about(entry);
  for (const Point* point : page.forbidden_by) {
    for (const LimbStanding* limb : forbidding_limbs(*point)) {
      page.to_mend.push_back(waits_to_mend(fleet, *point, *limb, page.state));
    }
  }
  for (const SeenSign* seen : page.forbidden_by_seen) page.to_mend.push_back(waits_to_mend(fleet, *seen, page.state));
}

void say_run_rules(MachineSheet& page, const Fleet& fleet) {
  const Unsafe unsafe(page, fleet);
  if (page.not_to_run && page.stays_locked()) {
    // No repair brings it back: somebody has to say that it is.
    say_each(page, [](const auto& work) { return not_run(work); });
    return;
  }
  if (page.laid_up()) {
    say_each(page, [](const auto& work) { return runs(work) ? RunRule::once_put_back : RunRule::free; });
    return;
  }
  if (!page.not_to_run) return;
  // What stands behind the last repair waits for all of it, where tasks of the page mend each thing that forbids to run
  // it. Else no task is that far.
  const auto behind = [&](const auto& work) {
    if (!unsafe.all_known()) return not_run(work);
    return runs(work) ? RunRule::after_mending : RunRule::free;
  };
  say_each(page, behind);
  bool is_behind = true;
  for (auto entry = page.tasks.rbegin(); entry != page.tasks.rend(); ++entry) {
    const bool mends = unsafe.mends(*entry);
    // A repair with another one to come, or that does not say that it runs, allows nothing.
    const bool last = mends && is_behind && unsafe.all_known();
    is_behind = is_behind && !mends;
    if (last && entry->says_running) {
      entry->run_rule = RunRule::once_mended;
    } else if (!is_behind) {
      entry->run_rule = not_run(*entry);  // and what stands before it
    }
  }
}

}  // namespace service::load
