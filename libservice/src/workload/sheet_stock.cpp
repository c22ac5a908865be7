#include "workload/sheet_stock.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <tuple>

#include "workload/coming_uses.h"
#include "workload/job_tasks.h"
#include "workload/lacking.h"
#include "workload/needs.h"
#include "workload/prices.h"

namespace service::load {
namespace {

using Keys = std::set<std::string_view>;

void add_keys(Keys& keys, const Resources& resources) {
  for (const auto& [key, pieces] : resources.parts) keys.insert(key);
  for (const auto& [key, quantity] : resources.fluids) keys.insert(key);
}

// The parts of the fleet's list that some task of the pages takes.
Keys taken_by(const Fleet& fleet, const std::vector<MachineSheet>& pages) {
  Keys keys;
  for (const MachineSheet& page : pages) {
    for (const SheetTask& task : page.tasks) add_keys(keys, task.resources);
  }
  const Prices prices(fleet);
  std::erase_if(keys, [&](std::string_view key) { return prices.part(std::string(key)) == nullptr; });
  return keys;
}

// All machines that may take one of them.
Scope takers_of(const Fleet& fleet, const Keys& keys) {
  Scope scope{std::vector<std::string>{}};
  for (const Machine& machine : fleet.machines) {
    const auto& tasks = fleet.schedule_of(machine).tasks;
    const bool takes = std::any_of(tasks.begin(), tasks.end(), [&](const Task& task) {
      const Resources resources = resources_of(machine, task);
      const auto is_one = [&](const auto& taken) { return keys.contains(taken.first); };
      return std::any_of(resources.parts.begin(), resources.parts.end(), is_one) ||
             std::any_of(resources.fluids.begin(), resources.fluids.end(), is_one);
    });
    if (takes) scope.machines->push_back(machine.key);
  }
  return scope;
}

// The next service of a point.
using NextService = std::tuple<const Machine*, std::string_view, std::string_view>;

NextService service_of(const Point& point) { return {point.machine, point.name, point.position}; }

// What each next service lacks.
class Lacks {
 public:
  Lacks(const Snapshot& snapshot, Day to, const Forecaster& forecaster, const std::vector<MachineSheet>& pages)
      : as_of_(snapshot.as_of()) {
    const Snapshot takers = snapshot.within(takers_of(snapshot.fleet(), taken_by(snapshot.fleet(), pages)));
    std::vector<PointName> unknown;
    std::vector<MachineUse> standing;
    std::vector<Gap> gaps;
    const std::vector<Use> listed = coming_uses(takers, to, forecaster, {}, {unknown, standing, gaps});
    for (const MachineUse& one : standing) standing_.push_back(one.machine);
    needs_ = needs_of(snapshot, listed);
    for (const PartNeed& need : needs_) add(need, Listed::yes);
    // Work that the list of parts does not count, as on a machine out of use, stands behind all else of its day.
    std::vector<Use> uses = beside(pages);
    if (uses.empty()) return;
    uses.insert(uses.end(), listed.begin(), listed.end());
    with_rest_ = needs_of(snapshot, std::move(uses));
    for (const PartNeed& need : with_rest_) add(need, Listed::no);
  }

  std::vector<PartLack> of(const SheetTask& task) const {
    std::vector<PartLack> lacks;
    for (const Point* point : task.points) {
      const auto own = by_service_.find(service_of(*point));
      if (own == by_service_.end()) continue;
      for (const PartLack& lack : own->second) add_lack(lacks, lack);
    }
    return lacks;
  }

 private:
  enum class Listed { no, yes };

  std::vector<Use> beside(const std::vector<MachineSheet>& pages) const {
    std::vector<Use> uses;
    for (const MachineSheet& page : pages) {
      for (const SheetTask& task : page.tasks) {
        for (const Point* point : task.points) {
          if (listed_.contains(service_of(*point))) continue;
          PartUse use;
          use.machine = point->machine;
          use.task = point->name;
          use.position = point->position;
          use.done = {task.done_on, task.done_on, task.done_on};
          use.likely = true;
          use.ready = true;
          add_uses(uses, resources_of(*point->machine, *point->task, point->follow_up), use);
        }
      }
    }
    return uses;
  }

  // Of the uses that stand in the list of parts, or of those that do not.
  void add(const PartNeed& need, Listed listed) {
    if (need.part == nullptr) return;
    const auto is_one = [&](const PartUse& use) {
      const bool beside = !listed_.contains({use.machine, use.task, use.position});
      return use.round == 1 && use.likely && (listed == Listed::yes || beside);
    };
    for (const PartUse& use : need.uses) {
      if (!is_one(use)) continue;
      const NextService which{use.machine, use.task, use.position};
      if (listed == Listed::yes) listed_.insert(which);
      if (need.stock) continue;
      PartLack not_counted;
      not_counted.key = need.key;
      not_counted.unit = need.unit;
      add_lack(by_service_[which], not_counted);
    }
    if (!need.stock) return;
    for (const Lacking& lacking : lacking_of(need)) {
      const PartUse& use = *lacking.use;
      if (!is_one(use)) continue;
      PartLack lack = lack_of(need, lacking, *use.done.p10, as_of_);
      if (listed == Listed::no) leave_order_out(lack, *use.machine);
      add_lack(by_service_[{use.machine, use.task, use.position}], lack);
    }
  }

  // What it is ordered by is what the list of parts says of it: nothing for a machine that stands.
  void leave_order_out(PartLack& lack, const Machine& machine) const {
    if (std::find(standing_.begin(), standing_.end(), &machine) != standing_.end()) {
      lack.not_listed = true;
      lack.order_by.reset();
      lack.late_days = 0;
      return;
    }
    const auto same = std::find_if(needs_.begin(), needs_.end(), [&](const PartNeed& need) {
      return need.key == lack.key && need.unit == lack.unit && need.order_by;
    });
    if (same == needs_.end()) return;
    lack.order_by = same->order_by;
    lack.late_days = same->late_days;
  }

  Day as_of_;
  std::vector<const Machine*> standing_;
  // What is kept below views their names.
  std::vector<PartNeed> needs_;
  std::vector<PartNeed> with_rest_;
  std::set<NextService> listed_;
  std::map<NextService, std::vector<PartLack>> by_service_;
};

void add_to_part(MachineSheet& page, const SheetTask& task, const PartLack& lack) {
  for (SheetPart& part : page.parts) {
    const bool other_unit = part.fluid && part.unit != lack.unit;  // then it is not the part that the fleet lists
    if (part.key != lack.key || other_unit || end_of(part.wait) != end_of(task)) continue;
    std::vector<PartLack> sum;
    if (part.lack) sum.push_back(*part.lack);
    add_lack(sum, lack);
    part.lack = sum.front();
    return;
  }
}

}  // namespace

void hold_against_stock(const Snapshot& snapshot, Day to, const Forecaster& forecaster,
                        std::vector<MachineSheet>& pages) {
  if (taken_by(snapshot.fleet(), pages).empty()) return;
  insist_on_whole(snapshot);
  const Lacks lacks(snapshot, to, forecaster, pages);
  for (MachineSheet& page : pages) {
    for (SheetTask& task : page.tasks) {
      task.lacks = lacks.of(task);
      for (const PartLack& lack : task.lacks) add_to_part(page, task, lack);
    }
  }
}

}  // namespace service::load
