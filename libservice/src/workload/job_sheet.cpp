#include "service/job_sheet.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <set>

#include "service/minding.h"
#include "service/run_ban.h"
#include "workload/job_tasks.h"
#include "workload/use_ahead.h"

namespace service {

std::string_view to_text(AfterKind kind) {
  constexpr std::array<std::string_view, 7> names{
      "tools-out", "guards-on", "everybody-clear", "check", "power-back", "automatic-start-back", "stays-locked"};
  return names[static_cast<std::size_t>(kind)];
}

namespace {

constexpr std::string_view starts_by_itself = "automatic-start";
constexpr std::string_view has_power = "electricity";

std::vector<SheetMeter> meters_of(const Snapshot& snapshot, const Machine& machine, const std::vector<Gap>& gaps) {
  const Histories histories = meter_histories(snapshot, machine);
  std::vector<SheetMeter> meters;
  for (const Meter& meter : machine.meters) {
    SheetMeter entry{&meter, std::nullopt, std::nullopt};
    for (const Gap& gap : gaps) {
      if (gap.machine == machine.key && gap.meter == meter.name) entry.gaps.push_back(&gap);
    }
    const auto history = histories.find(meter.name);
    if (history != histories.end() && history->second.last_known()) {
      const KnownUsage& last = *history->second.last_known();
      entry.shown = history->second.shown_at(last.usage);
      entry.on = last.day;
    }
    meters.push_back(entry);
  }
  return meters;
}

// Machines as somebody comes to them: site by site, those without one last.
std::vector<const Machine*> by_site(const Fleet& fleet, const Scope& scope, Day on) {
  std::vector<const Machine*> machines;
  const auto add = [&](std::string_view site) {
    for (const Machine& machine : fleet.machines) {
      if (machine.site == site && scope.holds(machine.key) && kept_on(machine, on)) machines.push_back(&machine);
    }
  };
  for (const Site& site : fleet.sites) add(site.key);
  add("");
  return machines;
}

SheetCaution& caution_of(MachineSheet& sheet, const std::string& written) {
  auto of = std::find_if(sheet.cautions.begin(), sheet.cautions.end(),
                         [&](const SheetCaution& caution) { return caution.written == written; });
  if (of == sheet.cautions.end()) of = sheet.cautions.insert(of, {written, {}});
  return *of;
}

void add_cautions(MachineSheet& sheet, const Task& task, const std::string& name) {
  for (const std::string& written : task.all_cautions) {
    SheetCaution& of = caution_of(sheet, written);
    if (std::find(of.tasks.begin(), of.tasks.end(), name) == of.tasks.end()) of.tasks.push_back(name);
  }
}

void add_part(const Fleet& fleet, std::vector<SheetPart>& parts, const std::string& key, bool fluid,
              const std::string& unit, PartAmount amount) {
  auto of = std::find_if(parts.begin(), parts.end(), [&](const SheetPart& part) {
    return part.key == key && part.fluid == fluid && part.unit == unit;
  });
  if (of == parts.end()) {
    const auto listed =
        std::find_if(fleet.parts.begin(), fleet.parts.end(), [&](const Part& part) { return part.key == key; });
    of = parts.insert(of, {key, listed == fleet.parts.end() ? nullptr : &*listed, fluid, unit, {}});
  }
  of->amount = of->amount + amount;
}

void add_labour(SheetLabour& labour, const std::string& name, std::optional<std::chrono::minutes> time, int people,
                const std::vector<std::string>& tools) {
  labour.tasks.push_back(name);
  labour.people = std::max(labour.people, people);
  load::add_each(labour.tools, tools);
  if (!time) return;
  labour.minutes += time->count();
  labour.labour_minutes += time->count() * people;
}

void add_up(const Fleet& fleet, MachineSheet& sheet) {
  for (const SheetTask& entry : sheet.tasks) {
    const bool later = entry.waits_wholly();
    SheetLabour& labour = entry.competent_person ? sheet.competent : later ? sheet.later : sheet.labour;
    add_labour(labour, entry.name, entry.resources.time, entry.resources.people, entry.tools);
    if (later) load::add_each(sheet.labour.tools, entry.tools);
    if (!entry.resources.time) labour.no_time.push_back(entry.name);
    for (const SheetCheck& check : entry.checks) {
      if (check.check->takes) sheet.check_minutes += check.check->takes->count();
    }
    for (const auto& [key, amount] : entry.resources.parts) add_part(fleet, sheet.parts, key, false, "", amount);
    for (const auto& [key, quantity] : entry.resources.fluids) {
      add_part(fleet, sheet.parts, key, true, quantity.unit, quantity.amount);
    }
    add_cautions(sheet, *entry.task, entry.name);
  }
  for (const auto* looks : {&sheet.checks_owed, &sheet.measure_again}) {
    for (const SheetLook& look : *looks) {
      add_labour(sheet.labour, look.name, look.time, look.people, look.tools);
      // Of measuring alone no schedule says a time.
      if (!look.time && look.check != nullptr) sheet.labour.no_time.push_back(look.name);
      add_cautions(sheet, *look.task, look.name);
    }
  }
  for (const SeenSign* seen : sheet.seen) {
    for (const std::string& written : cautions_of(fleet, *seen)) caution_of(sheet, written).at_seen = true;
  }
  std::stable_sort(sheet.parts.begin(), sheet.parts.end(),
                   [](const SheetPart& a, const SheetPart& b) { return a.fluid != b.fluid ? b.fluid : a.key < b.key; });
  std::stable_sort(sheet.cautions.begin(), sheet.cautions.end(), [](const SheetCaution& a, const SheetCaution& b) {
    return catalogue_place(a.written) < catalogue_place(b.written);
  });
}

// What is locked off goes back on when all work is done, and on a machine that must not run not before it is back,
// whatever work is done.
void lock_off(const Fleet& fleet, MachineSheet& sheet) {
  const auto on_page = [&](std::string_view caution) {
    return std::any_of(sheet.cautions.begin(), sheet.cautions.end(),
                       [&](const SheetCaution& of) { return of.written == caution; });
  };
  const std::vector<Task>& tasks = fleet.schedule_of(*sheet.machine).tasks;
  const auto on_machine = [&](std::string_view caution) {
    return std::any_of(tasks.begin(), tasks.end(), [&](const Task& task) {
      return std::find(task.all_cautions.begin(), task.all_cautions.end(), caution) != task.all_cautions.end();
    });
  };
  sheet.locked_off = on_page(starts_by_itself) || (sheet.stays_locked() && on_machine(starts_by_itself));
  sheet.power_off = on_page(has_power) || (sheet.stays_locked() && on_machine(has_power));
}

void add_afterwards(MachineSheet& sheet) {
  for (const AfterKind kind : {AfterKind::tools_out, AfterKind::guards_on, AfterKind::everybody_clear}) {
    sheet.afterwards.push_back({kind, {}});
  }
  const bool stays = sheet.stays_locked();
  if (stays && (sheet.locked_off || sheet.power_off)) sheet.afterwards.push_back({AfterKind::stays_locked, {}});
  for (const SheetTask& entry : sheet.tasks) {
    for (const SheetCheck& check : entry.checks) sheet.afterwards.push_back({AfterKind::check, check, stays});
  }
  if (stays) return;
  if (sheet.power_off) sheet.afterwards.push_back({AfterKind::power_back, {}});
  if (sheet.locked_off) sheet.afterwards.push_back({AfterKind::automatic_start_back, {}});
}

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

// The value that is written down with a service: of the meter that brings it due first.
const Meter* meter_told_with(const Point& point) {
  const LimbStanding* usage = nullptr;
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind == LimbKind::usage && usage == nullptr) usage = &limb;
  }
  const Meter* meter = usage == nullptr ? nullptr : point.machine->meter(usage->name);
  return meter == nullptr ? point.machine->first_meter() : meter;
}

void add_entry(std::vector<SheetEntry>& entries, const Point& point, SheetEntry of) {
  of.meter = meter_told_with(point);
  of.competent_person = by_competent_person(point);
  auto entry = std::find_if(entries.begin(), entries.end(), [&](const SheetEntry& other) {
    return other.meter == of.meter && other.competent_person == of.competent_person &&
           other.puts_in_new == of.puts_in_new && other.mends == of.mends && other.from == of.from;
  });
  if (entry == entries.end()) entry = entries.insert(entry, std::move(of));
  entry->points.push_back(&point);
}

// Of a point of the task: what is put in, what is mended by it, and not before when.
SheetEntry entry_of(const SheetTask& task, const Point& point) {
  SheetEntry of;
  of.puts_in_new = task.label.has_value();
  of.mends = std::any_of(task.found_bad.begin(), task.found_bad.end(),
                         [&](const SeenSign* seen) { return is_found_bad(point, *seen); });
  for (const SheetWait& wait : task.waits) {
    if (wait.point == &point) of.from = wait.from;
  }
  return of;
}

void add_entries(MachineSheet& sheet) {
  for (const SheetTask& task : sheet.tasks) {
    for (const Point* point : task.points) add_entry(sheet.entries, *point, entry_of(task, *point));
    for (const Point* point : task.overdue_safety) {
      SheetEntry of;
      of.puts_in_new = puts_in_new(*sheet.machine, {point->task, nullptr});
      add_entry(sheet.alone, *point, std::move(of));
    }
  }
  for (const SheetLook& look : sheet.checks_owed) {
    for (const Point* check : look.points) add_entry(sheet.entries, *check, {});
  }
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
    sheet.meters = meters_of(snapshot_, machine, list_.gaps);
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
    load::in_order(sheet, *list_.fleet);
    add_up(*list_.fleet, sheet);
    lock_off(*list_.fleet, sheet);
    add_afterwards(sheet);
    add_entries(sheet);
    return sheet;
  }

 private:
  void add_points(MachineSheet& sheet, const std::vector<const Point*>& points) {
    std::vector<const Point*> todo;
    std::vector<SheetWait> waits;
    for (const Point* point : points) {
      if (forbids_running(*point)) sheet.forbidden_by.push_back(point);
      const bool comes = point->standing == Standing::coming && point->due_on && *point->due_on <= within_;
      const bool bad = std::any_of(sheet.seen.begin(), sheet.seen.end(),
                                   [&](const SeenSign* seen) { return is_found_bad(*point, *seen); });
      if (!is_due(*point) && !comes && !bad) continue;
      if (point->put_off) {
        const auto from = end_of(*point);
        if (!from || *from > within_) continue;
        waits.push_back({point, *from});
      }
      todo.push_back(point);
    }
    sheet.tasks = load::sheet_tasks(*list_.fleet, *sheet.machine, todo, points, list_.as_of);
    for (SheetTask& entry : sheet.tasks) {
      std::copy_if(waits.begin(), waits.end(), std::back_inserter(entry.waits), [&](const SheetWait& wait) {
        return std::find(entry.points.begin(), entry.points.end(), wait.point) != entry.points.end();
      });
      wait_for(entry);
      std::copy_if(sheet.seen.begin(), sheet.seen.end(), std::back_inserter(entry.found_bad),
                   [&](const SeenSign* seen) { return mends(entry, *seen); });
    }
    for (const Point* point : points) sort_in(sheet, *point, todo);
    sheet.nothing_known = !points.empty() && std::all_of(points.begin(), points.end(),
                                                         [](const Point* point) { return nothing_known_of(*point); });
  }

  static bool mends(const SheetTask& entry, const SeenSign& seen) {
    const auto any = [&](const std::vector<const Point*>& points) {
      return std::any_of(points.begin(), points.end(), [&](const Point* point) { return is_found_bad(*point, seen); });
    };
    return any(entry.points) || std::any_of(entry.included.begin(), entry.included.end(),
                                            [&](const SheetIncluded& included) { return any(included.points); });
  }

  void wait_for(SheetTask& entry) const {
    if (!entry.waits_wholly()) return;
    for (const SheetWait& wait : entry.waits) entry.done_on = std::max(entry.done_on, wait.from);
    if (entry.again) entry.again = due_again(*list_.fleet, *entry.points.front()->machine, *entry.task, entry.done_on);
  }

  // The day or the use until which something is put off, whichever comes first, use as it is expected.
  std::optional<Day> end_of(const Point& point) {
    const PutOff& put_off = *point.put_off;
    std::optional<Day> end = put_off.until;
    if (!put_off.at || within_ <= list_.as_of) return end;
    const Aheads& ahead = use_.ahead_of(*point.machine);
    const auto meter = ahead.find(put_off.meter);
    const auto reached = meter == ahead.end() ? std::nullopt : meter->second->reaches(*put_off.at, Quantile::p50);
    if (reached) end = end ? std::min(*end, *reached) : reached;
    return end;
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
  sheet.list = std::make_shared<const DueList>(due_list(snapshot, DueAsk{ask.within, {}, detail}, forecaster));
  Maker maker(snapshot, *sheet.list, ask.within, forecaster);
  std::set<std::string_view> on_pages;
  for (const Machine* machine : by_site(snapshot.fleet(), snapshot.scope(), snapshot.as_of())) {
    MachineSheet page = maker.of(*machine);
    if (page.has_work() || ask.named) {
      on_pages.insert(machine->key);
      sheet.pages.push_back(std::move(page));
    } else if (page.has_remarks()) {
      sheet.others.push_back(std::move(page));
    }
  }
  for (const Gap& gap : sheet.list->gaps) {
    if (!on_pages.contains(gap.machine)) sheet.gaps.push_back(&gap);
  }
  return sheet;
}

std::size_t ReadingRound::meters() const {
  std::size_t count = 0;
  for (const RoundSite& site : sites) {
    for (const RoundMachine& machine : site.machines) count += machine.meters.size();
  }
  return count;
}

ReadingRound reading_round(const Snapshot& snapshot) {
  ReadingRound round;
  // No odds are asked, so nothing need be learnt.
  round.list = std::make_shared<const DueList>(
      due_list(snapshot, DueAsk{snapshot.as_of(), {}, Detail::standings}, straight_line()));
  for (const Machine* machine : by_site(snapshot.fleet(), snapshot.scope(), snapshot.as_of())) {
    if (machine->meters.empty()) {
      round.without_meters.push_back(machine);
      continue;
    }
    RoundMachine entry{machine, round.list->state_of(*machine), meters_of(snapshot, *machine, round.list->gaps), {}};
    for (const Gap& gap : round.list->gaps) {
      if (gap.machine == machine->key && !gap.meter.empty()) entry.gaps.push_back(&gap);
    }
    const Site* site = snapshot.fleet().site(machine->site);
    if (round.sites.empty() || round.sites.back().site != site) round.sites.push_back({site, {}});
    round.sites.back().machines.push_back(std::move(entry));
  }
  return round;
}

}  // namespace service
