#include "render/sheet/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "render/shared/cautions.h"
#include "render/shared/doubt_words.h"
#include "render/shared/label_words.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"
#include "render/sheet/wait_words.h"
#include "service/cautions.h"

namespace cli {
namespace {

using service::cleaned;
using service::MachineSheet;
using service::Point;
using service::SheetTask;

std::string minutes_words(std::int64_t minutes) {
  service::Resources resources;
  resources.time = std::chrono::minutes(minutes);
  return time_words(resources);
}

// When a check is owed: `within 1.0 h`, `within 10.0 h or 7 days`.
std::string within_words(const service::Machine& machine, const service::FollowUp& check) {
  std::vector<std::string> ends;
  for (const service::Limb& limb : check.within) {
    if (const auto* usage = std::get_if<service::UsageLimb>(&limb)) {
      const service::Meter* meter = usage->meter ? machine.meter(*usage->meter) : machine.first_hour_meter();
      ends.push_back(with_unit(usage->every, meter == nullptr ? "h" : meter->unit) +
                     (machine.meters.size() > 1 && meter != nullptr ? " by " + meter_words(machine, meter->name) : ""));
    } else if (const auto* calendar = std::get_if<service::CalendarLimb>(&limb)) {
      ends.push_back(to_text(calendar->every));
    }
  }
  return ends.empty() ? "" : ", within " + joined(ends, " or ");
}

// `brakes, tyre@rear`, what never waits named again behind them.
std::string names_with_safety(const std::vector<const Point*>& points) {
  std::vector<std::string> names;
  std::vector<std::string> safety;
  bool competent = false;
  for (const Point* point : points) {
    names.push_back(task_of(*point));
    if (!never_waits(*point)) continue;
    safety.push_back(task_of(*point));
    competent = competent || by_competent_person(*point);
  }
  std::string text = joined(names, ", ");
  if (!safety.empty()) text += fmt::format("; {}: {}", never_wait_words(competent), joined(safety, ", "));
  return text;
}

// `hydraulic-oil is overdue, put off until 2026-07-04`.
std::string waiting_words(const Point& point) {
  service::PutOff put_off = *point.put_off;
  put_off.why.clear();
  put_off.by.clear();
  return fmt::format("{} is {}, put off {}", task_of(point), words_of(point.standing),
                     words_of(put_off, *point.machine));
}

void add_who(std::vector<std::string>& marks, int people, const std::vector<std::string>& needs) {
  if (people > 1) marks.push_back(fmt::format("{} people: not for one alone", people));
  if (!needs.empty()) marks.push_back("for somebody qualified for " + listed(needs, "and"));
}

// What people do in each stage, in the order in which they come.
constexpr std::array<std::string_view, 6> stage_words{"what wants it cold",
                                                      "what is done at rest",
                                                      "what is begun cold and then run",
                                                      "what is run in a step of its own",
                                                      "what drains warm",
                                                      "what tries that it stops, holds or carries"};

void add(std::vector<Remark>& remarks, std::string heading, std::vector<std::string> lines) {
  if (!lines.empty()) remarks.push_back({std::move(heading), std::move(lines)});
}

}  // namespace

std::string name_of(const service::Machine& machine) {
  return cleaned(machine.name.empty() ? machine.key : machine.name);
}

std::string stop_mark(const MachineSheet& sheet) {
  if (sheet.out_of_use()) return "OUT OF USE: do not run";
  const std::string laid_up = sheet.laid_up() ? "LAID UP: not before it is back" : "";
  if (!sheet.not_to_run) return laid_up;
  return "DO NOT RUN before this is mended" + (laid_up.empty() ? "" : "; " + laid_up);
}

std::string page_head(const MachineSheet& sheet, service::Day day) {
  const service::Machine& machine = *sheet.machine;
  std::string text = name_of(machine);
  if (!machine.name.empty() && machine.name != machine.key) text += " (" + cleaned(machine.key) + ')';
  text += " · " + to_text(day);
  const std::string mark = stop_mark(sheet);
  return mark.empty() ? text : text + " · " + mark;
}

std::string site_of(const service::Site& site) {
  std::string text = cleaned(site.name.empty() ? site.key : site.name);
  if (!site.customer.empty() && site.customer != site.name) text += ", for " + cleaned(site.customer);
  return text;
}

std::string site_of(const MachineSheet& sheet) { return sheet.site == nullptr ? "" : site_of(*sheet.site); }

std::string last_words(const service::SheetMeter& meter) {
  if (!meter.shown || !meter.on) return "never read";
  return fmt::format("{} on {}", with_unit(*meter.shown, meter.meter->unit), to_text(*meter.on));
}

std::string blank_words(const service::SheetMeter& meter) {
  return fmt::format("{} {}", blank_value, cleaned(meter.meter->unit));
}

std::vector<MeterDoubt> doubts_of(const service::SheetMeter& meter, const std::string& command) {
  std::vector<MeterDoubt> doubts;
  for (const service::Gap* gap : meter.gaps) doubts.push_back({cleaned(gap->say), if_it_shows_less(*gap, command)});
  return doubts;
}

std::string doing_of(const SheetTask& task) {
  return cleaned(task.check != nullptr ? task.check->doing : task.task->doing);
}

std::vector<std::string> marks_of(const SheetTask& task) {
  std::vector<std::string> marks;
  if (task.is_later()) marks.push_back(fmt::format("from {}, not before: put off", end_words(task.waits.front())));
  for (const service::SeenSign* seen : task.found_bad) marks.push_back("to mend: " + cleaned(seen->sign));
  if (task.safety) marks.emplace_back("safety");
  if (task.competent_person) marks.emplace_back("by a competent person, who is named");
  add_who(marks, task.resources.people, task.needs);
  return marks;
}

std::vector<std::string> marks_of(const service::SheetLook& look) {
  std::vector<std::string> marks;
  add_who(marks, look.people, look.needs);
  return marks;
}

std::string step_words(const service::SheetStep& step) {
  const std::string text = cleaned(step.text);
  return step.of == nullptr ? text : fmt::format("{}: {}", cleaned(step.of->name), text);
}

std::string standing_words(const Point& point, service::Day as_of) {
  std::vector<std::string> parts;
  if (std::string day = when(point, as_of); !day.empty()) parts.push_back(std::move(day));
  for (std::string& words : limb_words(point)) parts.push_back(std::move(words));
  for (std::string& remark : remarks_of(point)) {
    const bool said = remark == "safety" || remark == "by a competent person" || remark == not_before_mended;
    if (!said) parts.push_back(std::move(remark));
  }
  return joined(parts, " · ");
}

std::string takes_words(const SheetTask& task) {
  std::string text = time_words(task.resources);
  if (const std::string parts = parts_words(task.resources); !parts.empty()) text += "; " + parts;
  return text;
}

std::string stock_words(const SheetTask& task, service::Day as_of) {
  std::vector<std::string> lines;
  for (const service::PartLack& lack : task.lacks) {
    if (lack.is_short()) lines.push_back(fmt::format("{}: {}", cleaned(lack.key), lack_words(lack, as_of)));
  }
  return joined(lines, "; ");
}

std::string included_words(const service::SheetIncluded& included) {
  std::string text = cleaned(included.task->name);
  if (!included.points.empty()) text += fmt::format(" ({} by itself)", words_of(included.points.front()->standing));
  return text + ": " + cleaned(included.task->doing);
}

std::string check_name(const service::Machine& machine, const service::SheetCheck& check) {
  return cleaned(check.task->name + '/' + check.check->name) + within_words(machine, *check.check);
}

std::string renewed_words(const SheetTask& task) {
  std::vector<std::string> names;
  for (const Point* check : task.renewed_checks) names.push_back(task_of(*check));
  if (names.empty()) return "";
  return fmt::format("Still owed after its last service, and asked for anew by this one: {}", joined(names, ", "));
}

std::string name_of(const service::SheetCaution& caution) {
  const service::Caution* const named = service::caution(caution.written);
  return named == nullptr ? "" : fmt::format("{}: ", named->name);
}

std::string sentence_of(const service::SheetCaution& caution) {
  std::string sentence = cleaned(service::caution_sentence(caution.written));
  return service::caution(caution.written) == nullptr ? sentence : sentence + '.';
}

std::string again_words(const SheetTask& task) {
  if (task.again) return due_again_words(*task.again, task.done_on);
  return task.task->counts_from == service::CountsFrom::done
             ? ""
             : "it may count from its due point: told when it is typed in";
}

std::string tasks_of(const service::SheetCaution& caution, const MachineSheet& sheet) {
  if (sheet.tasks.size() + sheet.checks_owed.size() + sheet.measure_again.size() + sheet.seen.size() == 1) return "";
  std::string text = cleaned(joined(caution.tasks, ", "));
  if (caution.at_seen) text += std::string(text.empty() ? "" : ", and at ") + "the look at what was seen";
  return text;
}

std::string order_words(const MachineSheet& sheet) {
  if (sheet.tasks.size() < 2) return "";
  const auto any = [&](const auto& is) { return std::any_of(sheet.tasks.begin(), sheet.tasks.end(), is); };
  std::vector<std::string> order;
  const auto by_stage = [](const SheetTask& task) { return !task.unsafe && !task.examines() && !task.is_later(); };
  if (any([](const SheetTask& task) { return task.unsafe && !task.examines() && !task.is_later(); }))
    order.emplace_back("what is unsafe or a sign was seen of");
  for (std::size_t stage = 0; stage < stage_words.size(); ++stage) {
    const auto there = [&](const SheetTask& task) {
      return by_stage(task) && static_cast<std::size_t>(task.stage) == stage;
    };
    if (any(there)) order.emplace_back(stage_words[stage]);
  }
  if (any([](const SheetTask& task) { return task.examines(); }))
    order.emplace_back("what a competent person examines");
  if (any([](const SheetTask& task) { return task.is_later(); })) order.emplace_back("what is put off until a day");
  std::string text;
  if (order.size() > 1) {
    text = fmt::format("In this order: {}. What lies behind the same cover does not stand together for that.",
                       joined(order, "; "));
    const bool may_run = !sheet.not_to_run && !sheet.stays_locked();
    if (may_run && any([](const SheetTask& task) { return task.says_running && !task.is_later(); })) {
      text += " Nobody starts it before a step says so.";
    }
  }
  std::vector<std::string> overdue;
  for (const SheetTask& task : sheet.tasks) {
    const bool late = std::any_of(task.points.begin(), task.points.end(), [](const Point* point) {
      return never_waits(*point) && point->standing == service::Standing::overdue;
    });
    if (late) overdue.push_back(cleaned(task.name));
    for (const Point* point : task.overdue_safety) overdue.push_back(task_of(*point));
  }
  if (!overdue.empty()) {
    text += fmt::format("{}Overdue and for safety, so not left for want of time: {}.", text.empty() ? "" : " ",
                        joined(overdue, ", "));
  }
  return text;
}

std::vector<std::string> overdue_within(const SheetTask& task, service::Day as_of) {
  std::vector<std::string> lines;
  for (const Point* point : task.overdue_safety) {
    const std::string alone = time_words(service::resources_of(*point->machine, *point->task));
    lines.push_back(fmt::format("Includes {}, safety: {} {} {}. Not the whole today? Then this alone{}{}",
                                task_of(*point), mark_of(point->standing), words_of(point->standing),
                                standing_words(*point, as_of), alone.empty() ? "" : ": ", alone));
  }
  return lines;
}

MeasureWords measure_words(const service::SheetMeasure& measure) {
  const std::string unit = cleaned(measure.limb->unit);
  const std::string where = measure.point->position.empty() ? "" : cleaned(measure.point->position) + ": ";
  return {where + cleaned(measure.limb->name),
          fmt::format("{}{}(limit {} {})", unit, unit.empty() ? "" : " ", to_text(measure.limb->limit), unit)};
}

std::string only_looks_words(const SheetTask& task) {
  return task.renews ? "" : "found worn or failed: add --found where it is typed in; it is not mended by this.";
}

std::string owed_words(const Point& check, service::Day as_of) {
  return fmt::format("{}{}: {} ({})", task_of(check), is_safety(check) ? ", safety" : "",
                     cleaned(check.follow_up->doing), standing_words(check, as_of));
}

std::string part_words(const service::SheetPart& part, service::Day as_of) {
  const std::string unit = part.unit.empty() && part.part != nullptr ? part.part->unit : part.unit;
  std::string text = fmt::format("{} {}", quantity(part.amount, unit), cleaned(part.key));
  if (part.part == nullptr) text += ", not listed";
  if (part.part != nullptr && !part.part->number.empty()) text += ", no. " + cleaned(part.part->number);
  if (part.part != nullptr && !part.part->what.empty()) text += ", " + cleaned(part.part->what);
  if (part.wait) text += "; not before " + end_words(*part.wait);
  return part.lack ? fmt::format("{}; {}", text, lack_words(*part.lack, as_of)) : text;
}

namespace {

std::string time_of(const service::SheetLabour& labour) {
  if (labour.minutes == 0) return "";
  if (labour.labour_minutes == labour.minutes) return minutes_words(labour.minutes) + " of work";
  return fmt::format("{} there, {} of labour", minutes_words(labour.minutes), minutes_words(labour.labour_minutes));
}

}  // namespace

std::string labour_words(const MachineSheet& sheet) {
  const service::SheetLabour& labour = sheet.labour;
  if (labour.tasks.empty()) return "";
  std::vector<std::string> parts;
  std::string time = time_of(labour);
  if (sheet.check_minutes > 0)
    time +=
        fmt::format("{}{} for the checks afterwards", time.empty() ? "" : ", and ", minutes_words(sheet.check_minutes));
  if (!time.empty()) parts.push_back(std::move(time));
  if (labour.people > 1) parts.push_back(fmt::format("{} people, not for one alone", labour.people));
  if (!labour.no_time.empty())
    parts.push_back(fmt::format("{}no time is said: {}", labour.minutes == 0 ? "" : "not in it, for ",
                                cleaned(joined(labour.no_time, ", "))));
  if (!sheet.measure_again.empty()) parts.emplace_back("of the measuring again no time is said");
  return joined(parts, "; ");
}

std::string later_words(const MachineSheet& sheet) {
  std::vector<std::string> parts;
  std::vector<std::string> names;
  for (const SheetTask& task : sheet.tasks) {
    if (!task.is_later()) continue;
    names.push_back(fmt::format("{} from {}", cleaned(task.name), end_words(task.waits.front())));
  }
  if (names.empty()) return "";
  parts.push_back(joined(names, ", "));
  const service::SheetLabour& labour = sheet.later;
  if (std::string time = time_of(labour); !time.empty()) parts.push_back(std::move(time));
  if (labour.people > 1) parts.push_back(fmt::format("{} people, not for one alone", labour.people));
  if (!labour.no_time.empty()) parts.push_back("no time is said: " + cleaned(joined(labour.no_time, ", ")));
  return joined(parts, "; ");
}

std::string competent_words(const MachineSheet& sheet) {
  const service::SheetLabour& labour = sheet.competent;
  if (labour.tasks.empty()) return "";
  std::vector<std::string> parts{cleaned(joined(labour.tasks, ", "))};
  if (std::string time = time_of(labour); !time.empty()) parts.push_back(std::move(time));
  if (labour.people > 1) parts.push_back(fmt::format("{} people, not for one alone", labour.people));
  if (!labour.no_time.empty()) parts.push_back("no time is said: " + cleaned(joined(labour.no_time, ", ")));
  if (!labour.tools.empty()) parts.push_back("brings " + cleaned(joined(labour.tools, ", ")));
  return joined(parts, "; ");
}

std::vector<Remark> remarks_of(const MachineSheet& sheet, const std::string& command) {
  std::vector<Remark> remarks;
  std::vector<std::string> lines;
  for (const Point* point : sheet.put_off) {
    lines.push_back(fmt::format("{}: {}, put off {}", task_of(*point), words_of(point->standing),
                                words_of(*point->put_off, *sheet.machine)));
  }
  add(remarks, "Not today: put off", std::move(lines));
  lines.clear();
  if (!sheet.find_out.empty()) {
    lines.push_back(fmt::format("no record, or not wholly known: {}. To fill in: {} find-out {}",
                                names_with_safety(sheet.find_out), command, cleaned(sheet.machine->key)));
  }
  for (const service::GapLine& line : gap_lines(sheet.gaps)) lines.push_back(cleaned(line.gap->say));
  add(remarks, "Not known", std::move(lines));
  return remarks;
}

std::vector<Remark> remarks_without_page(const MachineSheet& sheet, service::Day as_of, const std::string& command) {
  std::vector<Remark> remarks;
  std::vector<std::string> lines;
  const auto each = [&](const std::vector<service::SheetLook>& looks, const auto& words) {
    for (const service::SheetLook& look : looks) {
      const std::vector<std::string> marks = marks_of(look);
      const std::string who = marks.empty() ? "" : "; " + joined(marks, "; ");
      const std::string mind = mind_words(look.task->all_cautions);
      for (const Point* point : look.points) lines.push_back(words(*point) + who + (mind.empty() ? "" : "; " + mind));
    }
  };
  each(sheet.checks_owed, [&](const Point& point) { return owed_words(point, as_of); });
  add(remarks, std::string(owed_heading), std::move(lines));
  lines.clear();
  each(sheet.measure_again, [&](const Point& point) { return near_limit_words(point, as_of); });
  add(remarks, std::string(near_limit_heading), std::move(lines));
  for (Remark& remark : remarks_of(sheet, command)) remarks.push_back(std::move(remark));
  return remarks;
}

std::string near_limit_words(const Point& point, service::Day as_of) {
  std::vector<std::string> parts;
  if (std::string day = when(point, as_of); !day.empty()) parts.push_back(std::move(day));
  for (std::string& words : limb_words(point)) parts.push_back(std::move(words));
  return fmt::format("{}: {}", task_of(point), joined(parts, " · "));
}

std::string nothing_words(const service::JobSheet& sheet) {
  const service::DueList& list = *sheet.list;
  if (list.machines == 0) return "No machine is there to make a sheet for.";
  const std::string day = list.within > list.as_of
                              ? fmt::format("up to {}, asked on {}", to_text(list.within), to_text(list.as_of))
                              : "on " + to_text(list.as_of);
  const std::string nothing_seen = "nothing was seen that nobody has looked at";
  std::vector<std::string> waiting;
  for (const MachineSheet& other : sheet.others) {
    for (const Point* point : other.due_and_put_off()) {
      waiting.push_back(fmt::format("{} {}", cleaned(other.machine->key), waiting_words(*point)));
    }
  }
  if (!waiting.empty()) return fmt::format("No work {}, for it is put off: {}.", day, joined(waiting, "; "));
  const auto unknown = std::count_if(sheet.others.begin(), sheet.others.end(),
                                     [](const MachineSheet& other) { return other.nothing_known; });
  if (unknown > 0 && unknown == list.machines)
    return fmt::format("What is due {} is not known; {}.", day, nothing_seen);
  std::string text =
      fmt::format("Nothing is due {}{}, and {}.", day, unknown > 0 ? " where that is known" : "", nothing_seen);
  const bool known = list.gaps.empty() && sheet.others.empty() && sheet.pages.empty();
  if (known) return text + fmt::format(" Of {} all is known.", service::counted(list.machines, "machine", "machines"));
  return text;
}

std::string nothing_words(const MachineSheet& sheet, const service::JobSheet& of) {
  std::vector<std::string> waiting;
  for (const Point* point : sheet.due_and_put_off()) waiting.push_back(waiting_words(*point));
  if (!waiting.empty()) {
    return fmt::format("No work today: {}.{}", joined(waiting, "; "),
                       sheet.measure_again.empty() ? "" : " But there is something to measure: see below.");
  }
  const std::string day =
      fmt::format("{} {}", of.list->within > of.list->as_of ? "up to" : "on", to_text(of.list->within));
  if (sheet.nothing_known) return fmt::format("What is due {} is not known: see below.", day);
  std::string text = fmt::format("Nothing is due {}.", day);
  if (sheet.has_remarks()) text += " But see below.";
  return text;
}

}  // namespace cli
