#include "render/shared/ics.h"

#include <fmt/format.h>

#include "render/rounds/rounds.h"
#include "render/rounds/words.h"
#include "render/shared/cautions.h"
#include "render/shared/mend_words.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"
#include "today.h"

namespace cli {
namespace {

using service::Round;
using service::RoundStop;

class Events {
 public:
  explicit Events(const RoundsAnswer& answer) : list_(answer.list), named_(answer.calendar.events) {
    week();
    for (const Round& one : list_.plan.rounds) {
      if (list_.site == nullptr) round(one);
      for (const RoundStop& each : one.stops) stop(one, each);
    }
    while (events_.size() < named_.size()) cancelled(named_[events_.size()]);
  }

  const std::vector<IcsEvent>& made() const { return events_; }

 private:
  // The next one in the order of the calendar.
  IcsEvent& add() {
    const service::CalendarEvent& named = named_[events_.size()];
    IcsEvent& event = events_.emplace_back();
    event.uid = named.uid;
    event.on = named.on;
    event.sequence = named.sequence;
    event.changed = named.changed;
    return event;
  }

  IcsTimes between(service::Day on, int from, int to) const {
    const std::string& zone = list_.week().fleet->time_zone;
    return {moment_there(on, from, zone), moment_there(on, to, zone)};
  }

  void cancelled(const service::CalendarEvent& named) {
    const service::GivenRound& round = *named.kept_round;
    const service::GivenStop* const stop = named.kept_stop;
    IcsEvent& event = add();
    event.cancelled = true;
    const auto from = stop == nullptr ? round.leaves : stop->starts;
    const auto to = stop == nullptr ? round.back : stop->ends;
    if (from && to && *from < *to) event.times = between(round.on, *from, *to);
    const std::string crew = service::cleaned(round.crew);
    event.summary = stop == nullptr ? fmt::format("cancelled: {}: round", crew)
                                    : fmt::format("cancelled: {} ({})", service::cleaned(stop->visit), crew);
    event.description = fmt::format("Planned before for {} on {}, and not made then.\n", crew, to_text(round.on));
    for (const service::PlanChange& change : list_.plan.changes) {
      if (stop == nullptr || change.visit != stop->visit) continue;
      event.description += fmt::format("Changed: {}: {}\n", change.visit, change_words(list_, change));
    }
    event.categories = {stop == nullptr ? "round" : "visit", round.crew};
  }

  // What is not done must not be lost for not having a day.
  void week() {
    const service::Week& week = list_.week();
    IcsEvent& event = add();
    event.summary = fmt::format("{}: rounds {} to {}", whose_rounds(list_), to_text(week.from), to_text(week.to));
    event.description = fmt::format("As of {}. {}\n", to_text(week.as_of), counts_of(list_));
    for (const std::string& words : {cost_words(list_), bound_words(list_), not_in_book_words(list_),
                                     still_listed_words(list_), kept_out_words(list_)}) {
      if (!words.empty()) event.description += words + '\n';
    }
    const auto [out_of_use, to_be_mended] = stopped_lines(list_.not_to_run.bans());
    for (const auto& [machine, words] : out_of_use) {
      event.description += fmt::format("{}: {}: {}\n", not_to_run_title, machine, words);
    }
    for (const auto& [machine, words] : to_be_mended) {
      event.description += fmt::format("{}: {}: {}\n", not_before_mended_title, machine, words);
    }
    for (const service::MachineUse* use : list_.not_in_use) {
      if (use->state.kind == service::UseKind::out_of_use) continue;
      event.description += fmt::format("{}: {}\n", use->machine->key, words_of(use->state));
    }
    for (const ChangedFor& one : changes_by_whom(list_)) {
      event.description += fmt::format("Changed; {}:\n", one.whom);
      for (const auto& [visit, words] : one.changes) event.description += fmt::format("- {}: {}\n", visit, words);
    }
    for (const service::NotThisWeek& out : list_.plan.not_this_week) {
      const Visit& visit = week.visits[out.visit];
      const std::string keep_out = keep_out_words(list_, visit);
      event.description += fmt::format("Not this week: {}: {}{}\n", called(visit), why_words(list_, out),
                                       keep_out.empty() ? "" : "; " + keep_out);
    }
    for (const service::NotPlanned& row : week.not_planned) {
      event.description += fmt::format("Not planned: {}: {}\n", whose(row), not_planned_words(row));
    }
    for (const auto* names : {&week.no_record, &week.unknown}) {
      for (const service::PointName& point : *names) {
        event.description += fmt::format("{}: {} {}\n", names == &week.no_record ? "No record" : "Not wholly known",
                                         point.machine->key, task_of(point));
      }
    }
    for (const service::SeenSign* seen : seen_beside_mending(list_)) {
      event.description += fmt::format("Seen: {}: {}\n", seen->machine->key, words_of(*seen));
    }
    for (const MendBlock& block : mend_blocks(waiting_elsewhere(list_))) {
      for (const auto& [machine, said] : block.lines) {
        event.description += fmt::format("{}: {}: {}\n", block.heading, machine, said);
      }
    }
    for (const service::GapLine& gap : gap_lines(list_.gaps)) {
      event.description += fmt::format("Not known: {}: {}\n", cli::whose(gap), gap.gap->say);
    }
    for (const std::string& remark : remark_lines(list_)) event.description += remark + ".\n";
    event.description += steps_in_lines();
    event.categories = {"rounds"};
  }

  void round(const Round& round) {
    const service::CrewDay& day = list_.week().crew_days[round.crew_day];
    IcsEvent& event = add();
    event.times = between(day.on, round.leaves, round.back);
    event.summary = fmt::format("{}: {}", crew_words(*day.crew),
                                service::counted(static_cast<std::int64_t>(round.stops.size()), "stop", "stops"));
    event.location = site_words(start_of(list_, round));
    event.description = fmt::format("Leave {} at {}; back at {} by {}.\n{}.\n", site_words(start_of(list_, round)),
                                    clock_words(round.leaves), site_words(end_of(list_, round)),
                                    clock_words(round.back), sums_of(list_, round));
    if (const std::string words = two_goes_words(round); !words.empty()) event.description += words + ".\n";
    for (const std::string& line : load_lines(list_, round)) event.description += fmt::format("Load: {}\n", line);
    if (const std::string words = fills_up_words(round.fills_up); !words.empty()) event.description += words + '\n';
    for (const RoundStop& stop : round.stops) {
      const Visit& visit = list_.week().visits[stop.visit];
      event.description +=
          fmt::format("{} {}: {}\n", clock_words(stop.arrives), site_words(*visit.site), what_words(visit));
    }
    event.description += cautions_in_lines(cautions_of(list_, round)) + steps_in_lines();
    event.categories = {"round", day.crew->key};
  }

  void stop(const Round& round, const RoundStop& stop) {
    const service::CrewDay& day = list_.week().crew_days[round.crew_day];
    const Visit& visit = list_.week().visits[stop.visit];
    const service::DueList& due = *list_.week().list;
    const std::string stopped = not_to_run_words(list_, visit);
    IcsEvent& event = add();
    event.times = between(day.on, stop.starts, stop.ends);
    event.summary = fmt::format("{}{}: {} ({})", stopped.empty() ? "" : "do not run: ", site_words(*visit.site),
                                what_words(visit), crew_words(*day.crew));
    event.location = site_words(*visit.site);
    for (const std::string& words : {not_in_use_words(list_, round, visit), lay_up_over_words(list_, round, visit)}) {
      if (!words.empty()) event.description += words + '\n';
    }
    if (!stopped.empty()) event.description += stopped + '\n';
    for (const std::string& each : keep_out_lines(list_, round, stop)) event.description += each + '\n';
    event.description += times_words(stop, nullptr) + '\n';
    if (stop.promised) event.description += "Promised for this day.\n";
    if (!visit.site->access.empty()) event.description += "Access: " + visit.site->access + '\n';
    if (!visit.site->contact.empty()) event.description += "Contact: " + visit.site->contact + '\n';
    for (const std::string& job : job_lines(list_, visit)) event.description += job + '\n';
    for (const service::SeenSign* seen : to_look_at(list_, visit)) {
      event.description += "Look before it runs: " + words_of(*seen) + '\n';
    }
    if (const std::string marks = marks_of(visit); !marks.empty()) event.description += marks + '\n';
    event.description += fmt::format("Takes {}\n", takes_words(visit));
    for (const std::string& lack : lack_lines(lacks_of(list_, stop), list_.week().as_of)) {
      event.description += lack + '\n';
    }
    for (const service::WaitsToMend* one : waiting_at(list_, round, stop))
      event.description += mend_words(*one, visit.machine) + '\n';
    event.description += cautions_in_lines(service::cautions_of(due, visit)) + steps_in_lines();
    event.categories = {"visit", day.crew->key};
    if (visit.safety) event.categories.emplace_back("safety");
  }

  const RoundsList& list_;
  const std::vector<service::CalendarEvent>& named_;
  std::vector<IcsEvent> events_;
};

}  // namespace

std::string rounds_as_ics(const RoundsAnswer& answer, const std::string& /*command*/) {
  return ics_calendar(fmt::format("{}: rounds", whose_rounds(answer.list)), Events(answer).made());
}

}  // namespace cli
