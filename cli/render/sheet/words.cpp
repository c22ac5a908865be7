#include "render/sheet/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <tuple>

#include "render/shared/cautions.h"
#include "render/shared/label_words.h"
#include "render/shared/resources_words.h"
#include "render/shared/sign_words.h"
#include "render/shared/words.h"
#include "service/cautions.h"
#include "service/run_ban.h"

namespace cli {
namespace {

using service::cleaned;
using service::MachineSheet;
using service::Point;
using service::SheetTask;

std::string joined(const std::vector<std::string>& words, std::string_view between) {
  return fmt::format("{}", fmt::join(words, between));
}

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

constexpr std::string_view new_in_say =
    "Done (leave out what was not; how the old part was: a line of its own with --found good, worn or failed):";
constexpr std::string_view only_looked_say =
    "Only looked over or checked, and good (found worn or failed: a line of its own with --found worn or "
    "--found failed):";
constexpr std::string_view mended_say = "Mended, tried, and good now (not yet: leave it out, and nobody runs it):";
constexpr std::string_view alone_say =
    "Where not all of that is done, but this alone, which is for safety and overdue:";
constexpr std::string_view looked_say = "What was seen, and is good now (else add --found worn or --found failed):";
constexpr std::string_view back_when_safe_say =
    "When it is safe again, and only then, with the name of whoever says so; until then nobody runs it:";
constexpr std::string_view back_say = "When it goes back to work:";
constexpr std::string_view measured_say =
    "Measured, where the part was not renewed; after the lines above, for a service ends what was measured before it:";

std::string say_of(const service::SheetEntry& entry) {
  std::string text(entry.mends ? mended_say : entry.puts_in_new ? new_in_say : only_looked_say);
  return entry.from ? fmt::format("Put off, so not before {}. {}", to_text(*entry.from), text) : text;
}

// `whichever done combine engine-oil --at VALUE --by WHO --on DAY`.
std::string entry_command(const MachineSheet& sheet, const service::SheetEntry& entry, const std::string& command) {
  std::vector<std::string> names;
  for (const Point* point : entry.points) names.push_back(task_of(*point));
  const service::Meter* first = sheet.machine->first_meter();
  std::string value = entry.meter == nullptr ? "" : " --at VALUE";
  if (entry.meter != nullptr && entry.meter != first) value += " --meter " + quoted(cleaned(entry.meter->name));
  return fmt::format("{} done {} {}{} --by {} --on DAY", command, cleaned(sheet.machine->key), joined(names, " "),
                     value, entry.competent_person ? "\"WHO IS QUALIFIED\"" : "WHO");
}

std::string measure_command(const service::SheetMeasure& measure, const std::string& command) {
  const std::string& position = measure.point->position;
  return fmt::format("{} saw {} {}=____{} --on DAY", command, cleaned(measure.point->machine->key),
                     cleaned(measure.limb->name), position.empty() ? "" : " --position " + quoted(cleaned(position)));
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
constexpr std::array<std::string_view, 6> stage_words{
    "what wants it cold",    "what is done at rest", "what is begun cold and then run",
    "what needs it running", "what drains warm",     "what tries that it stops, holds or carries"};

// `automatic start`, `the power`, and whether it is more than one.
std::string locked_words(const MachineSheet& sheet) {
  if (sheet.locked_off && sheet.power_off) return "automatic start and the power";
  return sheet.locked_off ? "automatic start" : "the power";
}

std::string with_capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

void add(std::vector<Remark>& remarks, std::string heading, std::vector<std::string> lines) {
  if (!lines.empty()) remarks.push_back({std::move(heading), std::move(lines)});
}

}  // namespace

std::string name_of(const service::Machine& machine) {
  return cleaned(machine.name.empty() ? machine.key : machine.name);
}

std::string page_head(const MachineSheet& sheet, service::Day day) {
  const service::Machine& machine = *sheet.machine;
  std::string text = name_of(machine);
  if (!machine.name.empty() && machine.name != machine.key) text += " (" + cleaned(machine.key) + ')';
  text += " · " + to_text(day);
  if (sheet.out_of_use()) return text + " · OUT OF USE: do not run";
  if (sheet.laid_up()) return text + " · LAID UP: do not run";
  return sheet.not_to_run ? text + " · DO NOT RUN before it is mended" : text;
}

std::vector<std::string> stop_lines(const MachineSheet& sheet) {
  std::vector<std::string> lines;
  if (sheet.state != nullptr) lines.push_back("Do not run: " + words_of(*sheet.state));
  std::vector<std::string> unsafe;
  std::vector<std::string> past_limit;
  for (const Point* point : sheet.forbidden_by) {
    for (const service::LimbStanding* limb : service::forbidding_limbs(*point)) {
      const bool sign = limb->kind == service::LimbKind::sign;
      (sign ? unsafe : past_limit).push_back(fmt::format("{}, {}", task_of(*point), words_of(*limb, *point)));
    }
  }
  for (const service::SeenSign* seen : sheet.forbidden_by_seen) unsafe.push_back(seen_words(*seen));
  if (!unsafe.empty()) lines.push_back("Do not run it before this is mended: " + joined(unsafe, "; "));
  if (!past_limit.empty()) {
    lines.push_back(fmt::format("At or past its limit, for safety: {}; not to be used before it is put right",
                                joined(past_limit, "; ")));
  }
  std::vector<std::string> strange;
  for (const service::SeenSign* seen : sheet.seen) {
    if (!forbids_running(*seen)) strange.push_back(words_of(*seen));
  }
  if (!strange.empty()) lines.push_back("Look before it runs: " + joined(strange, "; "));
  std::vector<std::string> unknown;
  for (const Point* point : sheet.look_first()) unknown.push_back(task_of(*point));
  if (!unknown.empty()) {
    lines.push_back(fmt::format("Not known, for safety: {} (no record); look at {} before it works",
                                joined(unknown, ", "), unknown.size() == 1 ? "it" : "them"));
  }
  return lines;
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

std::vector<std::string> doubts_of(const service::SheetMeter& meter) {
  std::vector<std::string> lines;
  for (const service::Gap* gap : meter.gaps) lines.push_back(cleaned(gap->say));
  return lines;
}

std::string doing_of(const SheetTask& task) {
  return cleaned(task.check != nullptr ? task.check->doing : task.task->doing);
}

std::vector<std::string> marks_of(const SheetTask& task) {
  std::vector<std::string> marks;
  for (const service::SheetWait& wait : task.waits) {
    const std::string where = task.points.size() > 1 ? cleaned(wait.point->position) + ' ' : "";
    marks.push_back(fmt::format("{}from {}, not before: put off", where, to_text(wait.from)));
  }
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
  const auto by_stage = [](const SheetTask& task) { return !task.unsafe && !task.examines() && !task.waits_wholly(); };
  if (any([](const SheetTask& task) { return task.unsafe && !task.examines(); }))
    order.emplace_back("what is unsafe or a sign was seen of");
  for (std::size_t stage = 0; stage < stage_words.size(); ++stage) {
    const auto there = [&](const SheetTask& task) {
      return by_stage(task) && static_cast<std::size_t>(task.stage) == stage;
    };
    if (any(there)) order.emplace_back(stage_words[stage]);
  }
  if (any([](const SheetTask& task) { return task.waits_wholly(); })) order.emplace_back("what is put off until a day");
  if (any([](const SheetTask& task) { return task.examines(); }))
    order.emplace_back("what a competent person examines");
  std::string text;
  if (order.size() > 1) {
    text = fmt::format("In this order: {}. What lies behind the same cover does not stand together for that.",
                       joined(order, "; "));
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

std::string tasks_heading(const MachineSheet& sheet) {
  if (!sheet.laid_up()) return "To do";
  return fmt::format("Laid up{}: do not run. Before it goes back to work:",
                     sheet.state->until ? " until " + to_text(*sheet.state->until) : "");
}

std::string gate_words(service::RunRule rule, const MachineSheet& sheet) {
  switch (rule) {
    case service::RunRule::once_mended:
      return "Run it only for these steps, after it is mended, and with everybody clear.";
    case service::RunRule::not_at_all:
      if (sheet.laid_up())
        return "Laid up, and not to be run before it is mended: leave the steps that run or drive it for the day it "
               "goes back, mended.";
      return fmt::format("{}: leave out the steps that run or drive it until then.",
                         sheet.out_of_use() ? "Out of use until somebody says that it is safe"
                                            : "Not to be run before what makes it unsafe is mended");
    case service::RunRule::once_put_back:
      return "Laid up: do the steps that run it only after what the lay-up took off is put back; else leave them for "
             "the day it goes back.";
    case service::RunRule::free:
      break;
  }
  return "";
}

std::string cold_words(const SheetTask& task) {
  return task.cold_again ? "Only with it cold: where anything before this ran it, let it go quite cold first." : "";
}

std::string lock_words(const MachineSheet& sheet) {
  if (!sheet.locked_off && !sheet.power_off) return "";
  const bool both = sheet.locked_off && sheet.power_off;
  const std::string stays =
      fmt::format("{} {} locked off and tagged", with_capital(locked_words(sheet)), both ? "stay" : "stays");
  if (sheet.stays_locked()) {
    return stays + " until the machine is back: leave out whatever step would put " + (both ? "them" : "it") +
           " back on for good.";
  }
  if (sheet.tasks.empty()) return "";
  std::string text = stays + ", from the first task to the last";
  if (sheet.power_off) text += "; the power is on only for steps that run it";
  return text + '.';
}

std::vector<std::string> afterwards_of(const MachineSheet& sheet) {
  std::vector<std::string> lines;
  for (const service::SheetAfter& after : sheet.afterwards) {
    switch (after.kind) {
      case service::AfterKind::tools_out:
        lines.emplace_back("Tools out");
        break;
      case service::AfterKind::guards_on:
        lines.emplace_back("Guards on");
        break;
      case service::AfterKind::everybody_clear:
        lines.emplace_back(sheet.stays_locked() ? "Everybody clear" : "Everybody clear before it starts");
        break;
      case service::AfterKind::check:
        lines.push_back(fmt::format("{}{}: {}", after.once_back ? "After it is back: " : "",
                                    check_name(*sheet.machine, after.check), cleaned(after.check.check->doing)));
        break;
      case service::AfterKind::power_back:
        lines.emplace_back("Lock and tag off the power, by whoever put them on");
        break;
      case service::AfterKind::automatic_start_back:
        lines.emplace_back("Automatic start back on, last, with all above ticked and everybody clear");
        break;
      case service::AfterKind::stays_locked:
        lines.push_back(fmt::format("{} {} locked off and tagged, and so left until the machine is back",
                                    with_capital(locked_words(sheet)),
                                    sheet.locked_off && sheet.power_off ? "are" : "is"));
        break;
    }
  }
  return lines;
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
  return task.label ? "" : "found worn or failed: add --found where it is typed in; it is not mended by this.";
}

std::string owed_words(const Point& check, service::Day as_of) {
  return fmt::format("{}{}: {} ({})", task_of(check), is_safety(check) ? ", safety" : "",
                     cleaned(check.follow_up->doing), standing_words(check, as_of));
}

std::string part_words(const service::SheetPart& part) {
  const std::string unit = part.unit.empty() && part.part != nullptr ? part.part->unit : part.unit;
  std::string text = fmt::format("{} {}", quantity(part.amount, unit), cleaned(part.key));
  if (part.part == nullptr) return text + ", not listed";
  if (!part.part->number.empty()) text += ", no. " + cleaned(part.part->number);
  if (!part.part->what.empty()) text += ", " + cleaned(part.part->what);
  return text;
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
    if (task.waits_wholly()) names.push_back(fmt::format("{} from {}", cleaned(task.name), to_text(task.done_on)));
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
  each(sheet.measure_again, near_limit_words);
  add(remarks, std::string(near_limit_heading), std::move(lines));
  for (Remark& remark : remarks_of(sheet, command)) remarks.push_back(std::move(remark));
  return remarks;
}

std::string near_limit_words(const Point& point) {
  return fmt::format("{}: {}", task_of(point), joined(limb_words(point), " · "));
}

std::vector<TypedLines> typed_lines(const MachineSheet& sheet, const std::string& command) {
  std::vector<TypedLines> typed;
  const auto say = [&](std::string_view text, std::string line) {
    if (typed.empty() || typed.back().say != text) typed.push_back({std::string(text), {}});
    typed.back().commands.push_back(std::move(line));
  };
  std::vector<const service::SheetEntry*> entries;
  for (const service::SheetEntry& entry : sheet.entries) entries.push_back(&entry);
  std::stable_sort(entries.begin(), entries.end(), [](const service::SheetEntry* a, const service::SheetEntry* b) {
    const auto rank = [](const service::SheetEntry* entry) {
      return std::tuple{entry->from, !entry->mends, !entry->puts_in_new};
    };
    return rank(a) < rank(b);
  });
  for (const service::SheetEntry* entry : entries) say(say_of(*entry), entry_command(sheet, *entry, command));
  for (const service::SheetEntry& entry : sheet.alone) say(alone_say, entry_command(sheet, entry, command));
  for (const service::SeenSign* seen : sheet.seen) say(looked_say, command_to_look(*seen, command));
  std::vector<std::string> said;
  const auto measured = [&](const service::SheetMeasure& measure) {
    std::string line = measure_command(measure, command);
    if (std::find(said.begin(), said.end(), line) != said.end()) return;
    said.push_back(line);
    say(measured_say, std::move(line));
  };
  for (const SheetTask& task : sheet.tasks) std::for_each(task.measures.begin(), task.measures.end(), measured);
  for (const service::SheetLook& look : sheet.measure_again) {
    std::for_each(look.measures.begin(), look.measures.end(), measured);
  }
  const std::string back = fmt::format("{} back {}", command, cleaned(sheet.machine->key));
  if (sheet.out_of_use()) say(back_when_safe_say, back + " --note \"SAFE, SAYS WHO\" --on DAY");
  if (sheet.laid_up()) say(back_say, back + " --on DAY");
  return typed;
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
