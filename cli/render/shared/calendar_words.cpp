#include "render/shared/calendar_words.h"

#include <fmt/format.h>

#include "render/overdue/words.h"
#include "render/shared/cautions.h"
#include "render/shared/ics.h"
#include "render/shared/point_rows.h"
#include "render/shared/resources_words.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"
#include "service/minding.h"
#include "service/not_to_run.h"

namespace cli {
namespace {

using service::CalendarEvent;
using service::EventKind;

std::string name_of(const service::Machine& machine) {
  return machine.name.empty() || machine.name == machine.key ? machine.key
                                                             : fmt::format("{} ({})", machine.name, machine.key);
}

std::string lines_of(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + '\n';
  return text;
}

// As the subject of a mail has it.
std::string count_words(const service::CalendarCount& count) {
  using service::OverdueHeading;
  switch (count.what) {
    case service::Counted::not_to_run:
      return not_to_run_words(count.lines);
    case service::Counted::overdue:
      return counted_under(OverdueHeading::overdue, count.lines);
    case service::Counted::due:
      return fmt::format("{} due", count.lines);
    case service::Counted::seen:
      return counted_under(OverdueHeading::seen, count.lines);
    case service::Counted::read_the_meter:
      return counted_under(OverdueHeading::read_the_meter, count.lines);
    case service::Counted::find_out:
      return counted_under(OverdueHeading::find_out, count.lines);
    case service::Counted::put_off:
      return counted_under(OverdueHeading::put_off, count.lines);
    case service::Counted::coming:
      return fmt::format("{} coming", count.lines);
    case service::Counted::later:
      return fmt::format("{} later", count.lines);
    case service::Counted::laid_up:
      break;
  }
  return counted_under(OverdueHeading::laid_up, count.lines);
}

class Words {
 public:
  Words(const service::Calendar& calendar, const service::DueList& list, const CalendarTexts& texts,
        const std::string& command)
      : calendar_(calendar), list_(list), stopped_(list), texts_(texts), command_(command) {}

  IcsEvent event(const CalendarEvent& event) const {
    IcsEvent ics{event.uid, event.on, event.sequence, event.changed, "", "", "", {}};
    say(event, ics);
    if (const service::RunBan* const ban = ban_of(event)) {
      ics.summary = "do not run: " + ics.summary;
      ics.description = fmt::format("{}: {}\n{}", not_to_run_title, ban_words(*ban), ics.description);
      ics.categories.emplace_back("do-not-run");
    }
    if (event.heading) {
      const std::string heading{to_text(*event.heading)};
      std::erase(ics.categories, heading);
      ics.categories.insert(ics.categories.begin(), heading);
    }
    // Each of them may send somebody to a machine.
    ics.description += steps_in_lines();
    return ics;
  }

 private:
  // A telephone shows the beginning of a title, and nobody may run it.
  // Whoever opens an entry has no list at hand that says why.
  const service::RunBan* ban_of(const CalendarEvent& event) const {
    const service::Machine* const machine = event.point != nullptr  ? event.point->machine
                                            : event.use != nullptr  ? event.use->machine
                                            : event.seen != nullptr ? event.seen->machine
                                            : event.no_record       ? event.no_record->machine
                                            : event.gap             ? list_.fleet->machine(event.gap->gap->machine)
                                                                    : nullptr;
    return machine == nullptr ? nullptr : stopped_.ban_of(*machine);
  }

  void say(const CalendarEvent& event, IcsEvent& ics) const {
    switch (event.kind) {
      case EventKind::summary:
        return summary(ics);
      case EventKind::not_in_use:
        return machine(event, ics);
      case EventKind::point:
        return point(*event.point, false, ics);
      case EventKind::find_out:
        return point(*event.point, true, ics);
      case EventKind::no_record:
        about(*event.no_record->machine, ics);
        ics.summary = fmt::format("{}: no record", event.no_record->machine->key);
        ics.description += no_record_words(*event.no_record, command_) + '\n';
        ics.categories = {std::string(to_text(service::Standing::no_record))};
        return;
      case EventKind::seen:
        about(*event.seen->machine, ics);
        ics.summary = fmt::format("{}: {}: {}", event.seen->machine->key, title_of(service::OverdueHeading::seen),
                                  event.seen->sign);
        ics.description += words_of(*event.seen) + '\n' + cautions_in_lines(cautions_of(*list_.fleet, *event.seen));
        ics.categories = {"seen"};
        return;
      case EventKind::gap:
        return gap(*event.gap, ics);
      case EventKind::round:
        return;  // of no list of points
    }
  }

  void summary(IcsEvent& ics) const {
    const std::string counts = counts_in_words(calendar_.counts);
    ics.summary =
        fmt::format("{}: {}", whose_list(*list_.fleet, list_.scope), counts.empty() ? texts_.nothing : counts);
    ics.description = fmt::format("As of {}. {}\nA calendar without this line on today was not renewed.\n",
                                  to_text(list_.as_of), texts_.counts);
  }

  void about(const service::Machine& machine, IcsEvent& ics) const {
    ics.location = site_words(*list_.fleet, machine);
    ics.description = name_of(machine) + '\n';
  }

  // `brakes: on 2026-09-03; safety; 81 days left of 12 months`
  std::vector<std::string> due_by_then(const CalendarEvent& event) const {
    std::vector<std::string> lines;
    for (const service::Point* point : event.due_by_then) {
      std::string text = fmt::format("{}: {}", task_of(*point), when(*point, list_.as_of));
      for (const std::string& mark : marks_of(*point)) text += "; " + mark;
      for (const std::string& limb : limb_words(*point)) text += "; " + limb;
      if (point->put_off) text += "; put off " + words_of(*point->put_off, *point->machine);
      lines.push_back(std::move(text));
    }
    return lines;
  }

  void machine(const CalendarEvent& event, IcsEvent& ics) const {
    const service::MachineUse& use = *event.use;
    about(*use.machine, ics);
    const bool out = use.state.kind == service::UseKind::out_of_use;
    ics.summary = out               ? fmt::format("{}: out of use", use.machine->key)
                  : use.state.until ? fmt::format("{}: to be back in use", use.machine->key)
                                    : fmt::format("{}: laid up", use.machine->key);
    ics.description += words_of(use.state) + '\n';
    std::vector<std::string> before;
    for (const service::Point* each : event.before_back) before.push_back(words_of_what_is_wrong(*each));
    for (const service::SeenSign* seen : event.seen_before_back) before.push_back(words_of(*seen));
    if (!before.empty()) ics.description += "See to these before it works:\n" + lines_of(before);
    if (!event.due_by_then.empty()) {
      ics.description += "Due by that day:\n" + lines_of(due_by_then(event));
    }
    std::vector<const service::Point*> points = event.before_back;
    points.insert(points.end(), event.due_by_then.begin(), event.due_by_then.end());
    ics.description += cautions_in_lines(cautions_of(points));
    ics.categories = {std::string(to_text(use.state.kind))};
  }

  void point(const service::Point& point, bool to_find_out, IcsEvent& ics) const {
    about(*point.machine, ics);
    std::string standing = words_of(point.standing);
    if (const std::string estimate = estimate_words(point); !estimate.empty()) {
      standing += (point.past_grace_by_estimate ? ", " : " ") + estimate;
    }
    if (to_find_out) standing = "find out";
    ics.summary = fmt::format("{} {}: {}", point.machine->key, task_of(point), standing);
    for (const std::string& mark : marks_of(point)) ics.summary += ", " + mark;
    if (const std::string people = people_words(point); !people.empty()) ics.summary += ", " + people;
    if (point.put_off) ics.summary += ", put off";
    // Who looks at a day must not take it for work of that day, nor run what is not to be run.
    const service::UseState* state = list_.state_of(*point.machine);
    if (state != nullptr && state->kind == service::UseKind::laid_up) ics.summary += ", laid up";
    ics.categories = {std::string(to_text(point.standing))};
    for (const std::string& mark : marks_of(point)) ics.categories.push_back(mark);
    ics.description += (point.follow_up != nullptr ? point.follow_up->doing : point.task->doing) + '\n';
    const std::string day = when(point, list_.as_of);
    ics.description += fmt::format("{}{}{}\n", words_of(point.standing), day.empty() ? "" : " ", day);
    ics.description += lines_of(limb_words(point)) + lines_of(remarks_of(point));
    if (state != nullptr) ics.description += words_of(*state) + '\n';
    ics.description += cautions_in_lines(point.task->all_cautions);
  }

  void gap(const service::GapLine& line, IcsEvent& ics) const {
    const service::Machine* machine = list_.fleet->machine(line.gap->machine);
    if (machine != nullptr && line.machines == 1) about(*machine, ics);
    ics.summary = fmt::format("{}: not known: {}", whose(line), line.gap->say);
    ics.description += line.gap->say + '\n';
    ics.categories = {"gap", std::string(to_text(line.gap->kind))};
  }

  const service::Calendar& calendar_;
  const service::DueList& list_;
  service::NotToRun stopped_;
  const CalendarTexts& texts_;
  const std::string& command_;
};

}  // namespace

std::string counts_in_words(const std::vector<service::CalendarCount>& counts) {
  std::vector<std::string> words;
  for (const service::CalendarCount& count : counts) words.push_back(count_words(count));
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string calendar_as_ics(const service::Calendar& calendar, const service::DueList& list, const CalendarTexts& texts,
                            const std::string& command) {
  const Words words(calendar, list, texts, command);
  std::vector<IcsEvent> events;
  for (const CalendarEvent& event : calendar.events) events.push_back(words.event(event));
  return ics_calendar(fmt::format("{}: {}", whose_list(*list.fleet, list.scope), texts.called), events);
}

}  // namespace cli
