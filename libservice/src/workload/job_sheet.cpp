#include "service/job_sheet.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <set>

#include "service/minding.h"
#include "service/run_ban.h"
#include "workload/job_order.h"
#include "workload/job_tasks.h"
#include "workload/lock_off.h"
#include "workload/run_rules.h"
#include "workload/sheet_machines.h"
#include "workload/sheet_stock.h"
#include "workload/sheet_sums.h"
#include "workload/typed_entries.h"
#include "workload/use_ahead.h"

namespace service {

std::string_view to_text(AfterKind kind) {
  constexpr std::array<std::string_view, 7> names{
      "tools-out", "guards-on", "everybody-clear", "check", "power-back", "automatic-start-back", "stays-locked"};
  return names[static_cast<std::size_t>(kind)];
}

namespace {

SheetLook& look_of(std::vector<SheetLook>& looks, const Point& point) {
  const auto there =
      std::find_if(looks.begin(), looks.end(), [&](const SheetLook& look) { return look.name == point.name; });
  if (there != looks.end()) return *there;
  SheetLook look;
  look.task = point.task;
  look.check = point.follow_up;
  look.name = point.name;
  if (point.follow_up != nullptr) {
    look.time = point.follow_up->takes;
  } else {
    look.people = point.task->people;
  }
  look.needs = point.task->needs;
  look.tools = load::tools_of(*point.task, point.follow_up);
  return looks.emplace_back(std::move(look));
}

bool nothing_known_of(const Point& point) {
  return point.standing == Standing::no_record || (!is_due(point) && !point.unknown.empty());
}

class Maker {
 public:
  Maker(const Snapshot& snapshot, const DueList& list, Day within, const Forecaster& forecaster)
      : snapshot_(snapshot), list_(list), within_(within), use_(snapshot, forecaster) {
    for (const Point& point : list.points) points_[point.machine].push_back(&point);
  }

  MachineSheet of(const Machine& machine) {
    MachineSheet sheet;
    sheet.machine = &machine;
    sheet.site = list_.fleet->site(machine.site);
    sheet.state = list_.state_of(machine);
    sheet.meters = load::meters_of(snapshot_, machine, list_.gaps);
    for (const SeenSign& seen : list_.seen) {
      if (seen.machine == &machine) sheet.seen.push_back(&seen);
    }
    for (const Gap& gap : list_.gaps) {
      if (gap.machine == machine.key) sheet.gaps.push_back(&gap);
    }
    for (const SeenSign* seen : sheet.seen) {
      if (forbids_running(*seen)) sheet.forbidden_by_seen.push_back(seen);
    }
    const auto there = points_.find(&machine);
    if (there != points_.end()) add_points(sheet, there->second);
    sheet.not_to_run = sheet.out_of_use() || !sheet.forbidden_by.empty() || !sheet.forbidden_by_seen.empty();
    load::say_what_is_unsafe(sheet, *list_.fleet);
    load::in_order(sheet);
    load::say_run_rules(sheet, *list_.fleet);
    load::add_up(*list_.fleet, sheet);
    load::lock_off(*list_.fleet, sheet);
    load::add_entries(sheet, list_.seen, there == points_.end() ? std::vector<const Point*>{} : there->second);
    return sheet;
  }

 private:
  void add_points(MachineSheet& sheet, const std::vector<const Point*>& points) {
    load::Todo todo{{}, {}, points};
    for (const Point* point : points) {
      if (forbids_running(*point)) {
        sheet.forbidden_by.push_back(point);
      } else if (never_waits(*point) && point->standing == Standing::overdue) {
        sheet.overdue_safety.push_back(point);
      }
      const bool comes = point->standing == Standing::coming && point->due_on && *point->due_on <= within_;
      const bool bad = !to_mend(list_.seen, *point).empty();
      if (!is_due(*point) && !comes && !bad) continue;
      if (point->put_off) {
        const auto wait = wait_of(*point);
        if (!wait || wait->from > within_) continue;
        todo.waits.push_back(*wait);
      }
      todo.points.push_back(point);
    }
    sheet.tasks = load::sheet_tasks(*list_.fleet, *sheet.machine, todo, list_.as_of);
    for (SheetTask& entry : sheet.tasks) {
      const std::set<const SeenSign*> mended = mended_by(entry);
      std::copy_if(sheet.seen.begin(), sheet.seen.end(), std::back_inserter(entry.found_bad),
                   [&](const SeenSign* seen) { return mended.contains(seen); });
    }
    for (const Point* point : points) sort_in(sheet, *point, todo.points);
    sheet.nothing_known = !points.empty() && std::all_of(points.begin(), points.end(),
                                                         [](const Point* point) { return nothing_known_of(*point); });
  }

  // What was found worn or failed of its points, and of those that it includes.
  std::set<const SeenSign*> mended_by(const SheetTask& entry) const {
    std::set<const SeenSign*> all;
    const auto add = [&](const std::vector<const Point*>& points) {
      for (const Point* point : points) {
        for (const SeenSign* seen : to_mend(list_.seen, *point)) all.insert(seen);
      }
    };
    add(entry.points);
    for (const SheetIncluded& included : entry.included) add(included.points);
    return all;
  }

  // Until the day or the use until which something is put off, whichever comes first, use as it is expected. What is
  // expected does not lie before the day asked about: the use may be reached, but nobody read it.
  std::optional<SheetWait> wait_of(const Point& point) {
    const PutOff& put_off = *point.put_off;
    std::optional<SheetWait> wait;
    if (put_off.until) wait = SheetWait{&point, *put_off.until, false};
    if (!put_off.at || within_ <= list_.as_of) return wait;
    const Aheads& ahead = use_.ahead_of(*point.machine);
    const auto meter = ahead.find(put_off.meter);
    const auto reached = meter == ahead.end() ? std::nullopt : meter->second->reaches(*put_off.at, Quantile::p50);
    if (!reached) return wait;
    const Day from = std::max(*reached, list_.as_of);
    return wait && wait->from <= from ? wait : SheetWait{&point, from, true};
  }

  // What is no task of the sheet and yet to be told.
  static void sort_in(MachineSheet& sheet, const Point& point, const std::vector<const Point*>& todo) {
    const bool done = std::find(todo.begin(), todo.end(), &point) != todo.end();
    const bool renewed = std::any_of(sheet.tasks.begin(), sheet.tasks.end(), [&](const SheetTask& entry) {
      return std::find(entry.renewed_checks.begin(), entry.renewed_checks.end(), &point) != entry.renewed_checks.end();
    });
    if (point.standing == Standing::no_record || !point.unknown.empty()) sheet.find_out.push_back(&point);
    if (point.put_off && !done) sheet.put_off.push_back(&point);
    if (done || point.put_off || point.standing == Standing::no_record) return;
    if (point.follow_up != nullptr && !renewed) look_of(sheet.checks_owed, point).points.push_back(&point);
    if (point.measure_again.empty()) return;
    SheetLook& look = look_of(sheet.measure_again, point);
    look.points.push_back(&point);
    for (const LimbStanding& limb : point.limbs) {
      const bool near =
          std::find(point.measure_again.begin(), point.measure_again.end(), limb.name) != point.measure_again.end();
      if (limb.kind == LimbKind::measured && near) look.measures.push_back({&point, &limb});
    }
  }

  const Snapshot& snapshot_;
  const DueList& list_;
  Day within_;
  load::UseAhead use_;
  std::map<const Machine*, std::vector<const Point*>> points_;
};

// What a sheet tells though it does not come due by its last day has its day all the same, as every answer has it.
void date_what_is_told(DueList& list, const Snapshot& snapshot, const Forecaster& forecaster) {
  const auto undated = [&](const Point& point) {
    const bool told = !point.measure_again.empty() || point.follow_up != nullptr || point.put_off ||
                      !point.unknown.empty() || !to_mend(list.seen, point).empty();
    return told && !point.due_on && point.standing != Standing::no_record;
  };
  Scope scope{std::vector<std::string>{}};
  for (const Point& point : list.points) {
    if (undated(point)) load::add_each(*scope.machines, {point.machine->key});
  }
  if (scope.machines->empty()) return;
  DueList dated = due_list(snapshot.within(scope), DueAsk{list.within, {}, Detail::everything}, forecaster);
  for (Point& point : list.points) {
    if (!undated(point)) continue;
    const auto same = std::find_if(dated.points.begin(), dated.points.end(),
                                   [&](const Point& other) { return name_of(other) == name_of(point); });
    if (same == dated.points.end()) continue;
    point.due_on = same->due_on;
    point.due_span = same->due_span;
    point.ruled_by = same->ruled_by;
    point.limbs = std::move(same->limbs);
  }
}

}  // namespace

bool MachineSheet::has_remarks() const {
  return state != nullptr || !checks_owed.empty() || !measure_again.empty() || !put_off.empty() || !find_out.empty() ||
         !gaps.empty();
}

std::vector<const Point*> MachineSheet::due_and_put_off() const {
  std::vector<const Point*> points;
  std::copy_if(put_off.begin(), put_off.end(), std::back_inserter(points),
               [](const Point* point) { return is_due(*point); });
  return points;
}

std::vector<std::string> MachineSheet::to_mend_names() const {
  std::vector<std::string> names;
  for (const WaitsToMend& one : to_mend) load::add_each(names, {label_of(one)});
  return names;
}

std::vector<const Point*> MachineSheet::look_first() const {
  std::vector<const Point*> points;
  std::copy_if(find_out.begin(), find_out.end(), std::back_inserter(points), [&](const Point* point) {
    const bool done = std::any_of(tasks.begin(), tasks.end(), [&](const SheetTask& entry) {
      return std::find(entry.points.begin(), entry.points.end(), point) != entry.points.end();
    });
    return never_waits(*point) && point->standing == Standing::no_record && !done;
  });
  return points;
}

bool JobSheet::has_work() const {
  return std::any_of(pages.begin(), pages.end(), [](const MachineSheet& page) { return page.has_work(); });
}

JobSheet job_sheet(const Snapshot& snapshot, const JobSheetAsk& ask, const Forecaster& forecaster) {
  JobSheet sheet;
  const Detail detail = ask.within > snapshot.as_of() ? Detail::coming : Detail::standings;
  DueList list = due_list(snapshot, DueAsk{ask.within, {}, detail}, forecaster);
  date_what_is_told(list, snapshot, forecaster);
  sheet.list = std::make_shared<const DueList>(std::move(list));
  Maker maker(snapshot, *sheet.list, ask.within, forecaster);
  std::set<std::string_view> on_pages;
  for (const Machine* machine : load::by_site(snapshot.fleet(), snapshot.scope(), snapshot.as_of())) {
    MachineSheet page = maker.of(*machine);
    if (page.has_work() || ask.named) {
      on_pages.insert(machine->key);
      sheet.pages.push_back(std::move(page));
    } else if (page.has_remarks()) {
      sheet.others.push_back(std::move(page));
    }
  }
  const Day to = std::max(ask.within, ask.parts_to.value_or(ask.within));
  load::hold_against_stock(snapshot, std::min(to, add_months(sheet.list->as_of, horizon_months)), forecaster,
                           sheet.pages);
  for (const Gap& gap : sheet.list->gaps) {
    if (!on_pages.contains(gap.machine)) sheet.gaps.push_back(&gap);
  }
  return sheet;
}

}  // namespace service
