#include "workload/lock_off.h"

#include <algorithm>

#include "workload/job_tasks.h"

namespace service::load {
namespace {

constexpr std::string_view starts_by_itself = "automatic-start";
constexpr std::string_view has_power = "electricity";

// What the work of one day wants locked off.
struct Locks {
  bool start = false;
  bool power = false;

  void add(const std::vector<std::string>& cautions) {
    start = start || holds(cautions, starts_by_itself);
    power = power || holds(cautions, has_power);
  }
  bool any() const { return start || power; }
};

Locks of_the_day(const MachineSheet& page) {
  Locks locks;
  for (const SheetTask& entry : page.tasks) {
    if (!entry.is_later()) locks.add(entry.task->all_cautions);
  }
  for (const auto* looks : {&page.checks_owed, &page.measure_again}) {
    for (const SheetLook& look : *looks) locks.add(look.task->all_cautions);
  }
  for (const SheetCaution& caution : page.cautions) {
    if (caution.at_seen) locks.add({caution.written});
  }
  return locks;
}

// Goes back on behind the work, and on a machine that must not run not before it is back, whatever work is done.
std::vector<SheetAfter> behind(const MachineSheet& page, const Locks& locks,
                               const std::vector<const SheetTask*>& tasks) {
  std::vector<SheetAfter> after;
  const bool stays = page.stays_locked();
  const bool mended = page.not_to_run && !stays;
  after.push_back({AfterKind::tools_out, {}});
  after.push_back({AfterKind::guards_on, {}});
  after.push_back({AfterKind::everybody_clear, {}, false, mended});
  if (stays && locks.any()) after.push_back({AfterKind::stays_locked, {}});
  for (const SheetTask* entry : tasks) {
    for (const SheetCheck& check : entry->checks) after.push_back({AfterKind::check, check, stays, mended});
  }
  if (stays) return after;
  if (locks.power) after.push_back({AfterKind::power_back, {}, false, mended});
  if (locks.start) after.push_back({AfterKind::automatic_start_back, {}, false, mended});
  return after;
}

}  // namespace

void lock_off(const Fleet& fleet, MachineSheet& page) {
  Locks of_machine;
  if (page.stays_locked()) {
    for (const Task& task : fleet.schedule_of(*page.machine).tasks) of_machine.add(task.all_cautions);
  }
  const Locks today = of_the_day(page);
  page.locked_off = today.start || of_machine.start;
  page.power_off = today.power || of_machine.power;
  std::vector<const SheetTask*> of_day;
  for (std::size_t i = 0; i < page.tasks.size();) {
    const auto end = end_of(page.tasks[i]);
    std::vector<const SheetTask*> same;
    for (; i < page.tasks.size() && end_of(page.tasks[i]) == end; ++i) same.push_back(&page.tasks[i]);
    if (!end) {
      of_day = std::move(same);
      continue;
    }
    SheetLater later{same.front()->waits.front(), {}, of_machine.start, of_machine.power, {}};
    Locks locks = of_machine;
    for (const SheetTask* entry : same) {
      later.tasks.push_back(entry->name);
      locks.add(entry->task->all_cautions);
    }
    later.locked_off = locks.start;
    later.power_off = locks.power;
    later.afterwards = behind(page, locks, same);
    page.later_work.push_back(std::move(later));
  }
  page.afterwards = behind(page, {page.locked_off, page.power_off}, of_day);
}

}  // namespace service::load
