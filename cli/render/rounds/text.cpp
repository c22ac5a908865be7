// The week for people. Each round is a page of its own, to be read out before it starts; what is not done this week and
// what is not known stands behind the pages.
#include <fmt/format.h>

#include <algorithm>

#include "render/overdue/words.h"
#include "render/rounds/rounds.h"
#include "render/rounds/words.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/mend_words.h"
#include "render/shared/point_rows.h"
#include "render/shared/resources_words.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::cleaned;
using service::Round;
using service::RoundStop;

class Writer {
 public:
  Writer(const RoundsList& list, const Look& look) : list_(list), look_(look), columns_(columns_of(look)) {}

  void head() {
    const service::Week& week = list_.week();
    text_ += heading(look_, fmt::format("{}, {}: rounds {} to {}", whose_rounds(list_), to_text(week.as_of),
                                        to_text(week.from), to_text(week.to)));
    const std::string stopped = stopped_first(list_.not_to_run.bans(), look_);
    text_ += stopped.empty() ? stopped : stopped + '\n';
    line("", counts_of(list_));
    line("", cost_words(list_));
    line("", bound_words(list_));
    line("", not_in_book_words(list_));
    line("", still_listed_words(list_));
    line("", kept_out_words(list_));
    line("", lacking_words(list_.loads));
    if (list_.plan.rounds.empty()) {
      text_ += '\n';
      line("", list_.plan.not_this_week.empty() ? "Nobody is sent anywhere: nothing that is known is wanted."
                                                : "Nobody is sent anywhere.");
    }
  }

  void changes() {
    if (!list_.week().kept) return;
    title("Changed since the plan that was kept");
    if (list_.plan.changes.empty()) line("  ", "Nothing: every visit has its crew and day.");
    for (const ChangedFor& one : changes_by_whom(list_)) {
      line("  ", one.whom);
      for (const auto& [visit, words] : one.changes) line("    - ", fmt::format("{}: {}", visit, words));
    }
  }

  void page(const Round& round) {
    rule();
    const service::CrewDay& day = list_.week().crew_days[round.crew_day];
    text_ += heading(look_, fmt::format("{}, {}", crew_words(*day.crew), day_words(day.on)));
    if (list_.site == nullptr) {
      line("", fmt::format("Leave {} at {}; back at {} by {}.", cli::site_words(start_of(list_, round)),
                           clock_words(round.leaves), cli::site_words(end_of(list_, round)), clock_words(round.back)));
      line("", sums_of(list_, round) + ".");
      if (const std::string words = two_goes_words(round); !words.empty()) line("", words + ".");
      load(round);
    }
    text_ += '\n' + steps_before(look_) + '\n';
    const service::Site* before = list_.site == nullptr ? &start_of(list_, round) : nullptr;
    std::size_t number = 0;
    for (const RoundStop& one : round.stops) before = stop(round, one, ++number, before);
    if (list_.site == nullptr) {
      line("", before == &end_of(list_, round)
                   ? fmt::format("The round ends there, at {}.", clock_words(round.back))
                   : fmt::format("Then {}: {}, {}; back by {}.", cli::site_words(end_of(list_, round)),
                                 span_words(round.home.minutes), km_words(round.home.tenths_of_km),
                                 clock_words(round.back)));
    }
    text_ += what_to_mind(cli::cautions_of(list_, round), look_) + '\n' + afterwards("", columns_);
    const auto machines = machines_of(list_, round);
    if (machines.empty()) return;
    line("", fmt::format("Steps, tools and blanks are on the job sheets: {} sheet {}", look_.command,
                         fmt::join(machines, " ")));
    line("", sheets_later_words(list_, round));
  }

  void behind_pages() {
    const std::size_t pages_end = text_.size();
    left_out();
    not_planned();
    points("No record: somebody must look, for nobody knows whether it is due", list_.week().no_record);
    points("Not due by what is known, but not all of it is known", list_.week().unknown);
    seen();
    to_mend();
    if (!list_.gaps.empty()) text_ += not_known(list_.gaps, look_);
    const auto remarks = remark_lines(list_);
    if (!remarks.empty()) text_ += '\n';
    for (const std::string& remark : remarks) line("", remark + ".");
    if (list_.left_off > 0) text_ += fmt::format("\nAnd {} more, left off by --first.\n", list_.left_off);
    const bool parted = !list_.plan.rounds.empty() && text_.size() > pages_end;
    if (parted) text_.insert(pages_end, '\n' + std::string(columns_, '=') + '\n');
  }

  std::string take() { return std::move(text_); }

 private:
  void line(std::string_view before, std::string_view text) {
    if (!text.empty()) text_ += wrapped(before, text, columns_, before.size());
  }

  void title(std::string_view text) { text_ += '\n' + heading(look_, text); }

  void rule() { text_ += '\n' + std::string(columns_, '=') + "\n\n"; }

  void load(const Round& round) {
    title("To load");
    const auto lines = load_lines(list_, round);
    for (const std::string& each : lines) line("  [ ] ", each);
    if (lines.empty()) line("  ", "Nothing beside what is always on board.");
    line("  ", fills_up_words(round.fills_up));
  }

  // Returns where it is. The way in, and whom to ask for, is read out once where several visits are at one site.
  const service::Site* stop(const Round& round, const RoundStop& stop, std::size_t number,
                            const service::Site* before) {
    const Visit& visit = list_.week().visits[stop.visit];
    const bool there_already = before == visit.site;
    line(fmt::format("{}. ", number), fmt::format("{}: {}", cli::site_words(*visit.site), what_words(visit)));
    line("   ", times_words(stop, there_already ? nullptr : before));
    if (stop.promised) line("   ", "Promised for this day.");
    if (number == 1 || !there_already) {
      if (!visit.site->access.empty()) line("   ", "Access: " + cleaned(visit.site->access));
      if (!visit.site->contact.empty()) line("   ", "Contact: " + cleaned(visit.site->contact));
    }
    line("   !! ", not_in_use_words(list_, round, visit));
    line("   !! ", not_to_run_words(list_, visit));
    for (const std::string& each : keep_out_lines(list_, round, stop)) line("   !! ", each);
    line("   !! ", also_there_words(list_, round, visit));
    line("   - ", lay_up_over_words(list_, round, visit));
    for (const std::string& job : job_lines(list_, visit)) line("   - ", job);
    for (const service::SeenSign* seen : to_look_at(list_, visit)) {
      line("   - ", "look before it runs: " + words_of(*seen));
    }
    line("   ", marks_of(visit));
    line("   ", "Takes " + takes_words(visit));
    for (const std::string& each : lack_lines(lacks_of(list_, stop), list_.week().as_of)) line("   * ", each);
    for (const service::WaitsToMend* one : waiting_at(list_, round, stop))
      line("   * ", mend_words(*one, visit.machine));
    line("   ", mind_words(service::cautions_of(*list_.week().list, visit)));
    text_ += '\n';
    return visit.site;
  }

  void left_out() {
    if (list_.plan.not_this_week.empty()) return;
    title("Not this week");
    for (const service::NotThisWeek& out : list_.plan.not_this_week) {
      const Visit& visit = list_.week().visits[out.visit];
      line("  ", fmt::format("{} at {}: {}; {}.", called(visit), cli::site_words(*visit.site), why_words(list_, out),
                             left_out_words(list_, out)));
      line("    !! ", keep_out_words(list_, visit));
      for (const std::string& job : job_lines(list_, visit)) line("    - ", job);
    }
  }

  void not_planned() {
    if (list_.week().not_planned.empty()) return;
    title("Not planned");
    SaidLines lines;
    for (const service::NotPlanned& row : list_.week().not_planned) {
      lines.emplace_back(cli::whose(row), not_planned_words(row));
    }
    text_ += said_rows(lines, look_);
  }

  // A line a machine.
  void points(std::string_view called, const std::vector<service::PointName>& names) {
    if (names.empty()) return;
    title(called);
    SaidLines lines;
    for (const std::string& each : left_out_lines(names, {}, look_.command)) lines.emplace_back("", each);
    for (const auto& [machine, said] : lines) line("  ", said);
  }

  void seen() {
    const auto seen = seen_beside_mending(list_);
    if (seen.empty()) return;
    title(title_of(service::OverdueHeading::seen));
    SaidLines lines;
    for (const service::SeenSign* sign : seen) lines.push_back(line_of(*sign));
    text_ += said_rows(lines, look_);
  }

  void to_mend() {
    for (const MendBlock& block : mend_blocks(waiting_elsewhere(list_))) {
      title(block.heading);
      text_ += said_rows(block.lines, look_);
    }
  }

  const RoundsList& list_;
  const Look& look_;
  std::size_t columns_;
  std::string text_;
};

}  // namespace

std::string rounds_as_text(const RoundsAnswer& answer, const Look& look) {
  Writer out(answer.list, look);
  out.head();
  out.changes();
  for (const Round& round : answer.list.plan.rounds) out.page(round);
  out.behind_pages();
  return out.take();
}

std::string judged_as_text(const JudgedAnswer& answer, const Look& look) {
  const service::Week& week = *answer.week;
  const service::PlanJudgement& judged = answer.judged;
  const std::size_t columns = columns_of(look);
  std::string text =
      heading(look, fmt::format("{}, {}: the plan {} of {} to {}", cleaned(week.fleet->name), to_text(week.as_of),
                                cleaned(answer.file), to_text(week.from), to_text(week.to)));
  text += wrapped("",
                  judged.ok()
                      ? "No fault: it keeps all rules, and each figure of time, way, money and load that it gives is "
                        "right."
                      : service::counted(static_cast<std::int64_t>(judged.faults.size()), "fault", "faults") + ".",
                  columns, 0);
  if (judged.value) text += wrapped("", value_words(week, *judged.value), columns, 0);
  if (const std::string words = safety_left_out_words(judged); !words.empty()) text += wrapped("", words, columns, 0);
  if (!answer.other_days.empty()) text += '\n' + wrapped("", answer.other_days, columns, 0);
  if (const std::string words = not_judged_words(answer.not_judged); !words.empty()) {
    text += '\n' + wrapped("", words, columns, 0);
  }
  if (!judged.ok()) text += '\n';
  for (const service::PlanFault& fault : judged.faults) {
    text += wrapped("  ", fault_words(fault), columns, 4);
  }
  if (const std::string words = follow_on_words(judged); !words.empty()) text += '\n' + wrapped("", words, columns, 0);
  return text;
}

}  // namespace cli
