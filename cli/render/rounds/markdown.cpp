#include "render/shared/markdown.h"

#include <fmt/format.h>

#include "render/overdue/words.h"
#include "render/rounds/rounds.h"
#include "render/rounds/words.h"
#include "render/shared/cautions.h"
#include "render/shared/mend_words.h"
#include "render/shared/point_markdown.h"
#include "render/shared/resources_words.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"
#include "service/cautions.h"

namespace cli {
namespace {

using service::Round;
using service::RoundStop;

std::string row(const std::vector<std::string>& cells) {
  std::string text = "|";
  for (const std::string& cell : cells) text += cell.empty() ? "  |" : ' ' + markdown_cell(cell) + " |";
  return text + '\n';
}

std::string item(std::string_view text) { return fmt::format("- {}\n", markdown_cell(text)); }

std::string item(std::string_view name, std::string_view text) {
  return fmt::format("- **{}**: {}\n", markdown_cell(name), markdown_cell(text));
}

std::string joined(const std::vector<std::string>& lines) { return fmt::format("{}", fmt::join(lines, "; ")); }

// Every step, for it is read on the way.
std::string steps() {
  const service::BaseCautions& base = service::base_cautions();
  std::string text = "Before you touch a machine:\n\n";
  int number = 0;
  for (const std::string_view step : base.steps) text += fmt::format("{}. {}\n", ++number, markdown_cell(step));
  return text + fmt::format("\nAfterwards: {}.\n", markdown_cell(base.afterwards));
}

std::string way_in(const service::Site& site) {
  std::vector<std::string> said;
  if (!site.access.empty()) said.push_back("access: " + site.access);
  if (!site.contact.empty()) said.push_back("contact: " + site.contact);
  return joined(said);
}

std::string stop_row(const RoundsList& list, const Round& round, const RoundStop& stop) {
  const Visit& visit = list.week().visits[stop.visit];
  std::vector<std::string> what = job_lines(list, visit);
  for (const service::SeenSign* seen : to_look_at(list, visit)) {
    what.push_back("look before it runs: " + words_of(*seen));
  }
  std::vector<std::string> beside;
  for (std::string words : {not_in_use_words(list, round, visit), lay_up_over_words(list, round, visit)}) {
    if (!words.empty()) beside.push_back(std::move(words));
  }
  if (std::string ban = not_to_run_words(list, visit); !ban.empty()) beside.push_back(std::move(ban));
  for (std::string& each : keep_out_lines(list, round, stop)) beside.push_back(std::move(each));
  for (const std::string& each :
       {marks_of(visit), mind_words(service::cautions_of(*list.week().list, visit)), way_in(*visit.site)}) {
    if (!each.empty()) beside.push_back(each);
  }
  if (const std::string also = also_there_words(list, round, visit); !also.empty()) beside.push_back(also);
  if (stop.promised) beside.emplace_back("promised for this day");
  for (const std::string& each : lack_lines(lacks_of(list, stop), list.week().as_of)) beside.push_back(each);
  for (const service::WaitsToMend* one : waiting_at(list, round, stop))
    beside.push_back(mend_words(*one, visit.machine));
  return row({clock_words(stop.arrives), clock_words(stop.starts), clock_words(stop.ends), site_words(*visit.site),
              what_words(visit), joined(what), takes_words(visit), joined(beside)});
}

std::string page(const RoundsList& list, const Round& round) {
  const service::CrewDay& day = list.week().crew_days[round.crew_day];
  std::string text = fmt::format("\n## {}, {}\n\n", markdown_cell(crew_words(*day.crew)), day_words(day.on));
  if (list.site == nullptr) {
    text += fmt::format("Leave {} at {}; back at {} by {}. {}.\n\n", markdown_cell(site_words(start_of(list, round))),
                        clock_words(round.leaves), markdown_cell(site_words(end_of(list, round))),
                        clock_words(round.back), sums_of(list, round));
    if (const std::string words = two_goes_words(round); !words.empty()) text += markdown_cell(words) + ".\n\n";
    for (const std::string& each : load_lines(list, round)) text += "- load " + markdown_cell(each) + '\n';
    if (const std::string words = fills_up_words(round.fills_up); !words.empty())
      text += "- " + markdown_cell(words) + '\n';
    if (!round.parts.empty() || !round.fluids.empty()) text += '\n';
  }
  text += row({"arrive", "begin", "done by", "site", "machine", "do", "takes", "mind"}) +
          "| --- | --- | --- | --- | --- | --- | --- | --- |\n";
  for (const RoundStop& stop : round.stops) text += stop_row(list, round, stop);
  const auto cautions = cautions_of(list, round);
  if (!cautions.empty()) text += '\n';
  for (const std::string& caution : cautions) text += item(caution_in_full(caution));
  return text;
}

std::string section(std::string_view title, const std::string& items) {
  return items.empty() ? "" : fmt::format("\n## {}\n\n{}", title, items);
}

std::string left_out(const RoundsList& list) {
  std::string text;
  for (const service::NotThisWeek& out : list.plan.not_this_week) {
    const Visit& visit = list.week().visits[out.visit];
    const std::string keep_out = keep_out_words(list, visit);
    text +=
        item(called(visit), fmt::format("{}{}; {}. {}", keep_out.empty() ? "" : keep_out + "; ", why_words(list, out),
                                        left_out_words(list, out), joined(job_lines(list, visit))));
  }
  return text;
}

std::string points(const std::vector<service::PointName>& names, const std::string& command) {
  std::string text;
  for (const std::string& each : left_out_lines(names, {}, command)) text += item(each);
  return text;
}

}  // namespace

std::string rounds_as_markdown(const RoundsAnswer& answer, const std::string& command) {
  const RoundsList& list = answer.list;
  const service::Week& week = list.week();
  std::string text =
      fmt::format("# {}: rounds {} to {}\n\n", markdown_cell(whose_rounds(list)), to_text(week.from), to_text(week.to));
  std::string stopped = markdown_stopped(list.not_to_run.bans());
  for (const service::MachineUse* use : list.not_in_use) {
    if (use->state.kind == service::UseKind::laid_up) stopped += markdown_machine(*use);
  }
  text += stopped.empty() ? stopped : stopped + '\n';
  text += fmt::format("As of {}: {}", to_text(week.as_of), counts_of(list));
  for (const std::string& words : {cost_words(list), bound_words(list), not_in_book_words(list),
                                   still_listed_words(list), kept_out_words(list), lacking_words(list.loads)}) {
    if (!words.empty()) text += ' ' + markdown_cell(words);
  }
  text += '\n';
  std::string changes;
  for (const ChangedFor& one : changes_by_whom(list)) {
    changes += item(one.whom);
    for (const auto& [visit, words] : one.changes) changes += "  " + item(visit, words);
  }
  text += section("Changed since the plan that was kept", changes);
  if (!list.plan.rounds.empty()) text += '\n' + steps();
  for (const Round& round : list.plan.rounds) text += page(list, round);
  text += section("Not this week", left_out(list));
  std::string not_planned;
  for (const service::NotPlanned& each : week.not_planned) not_planned += item(whose(each), not_planned_words(each));
  text += section("Not planned", not_planned);
  text += section("No record: somebody must look", points(week.no_record, command));
  text += section("Not wholly known", points(week.unknown, command));
  std::string seen;
  for (const service::SeenSign* sign : seen_beside_mending(list)) seen += markdown_seen(*sign);
  text += section(title_of(service::OverdueHeading::seen), seen);
  for (const MendBlock& block : mend_blocks(waiting_elsewhere(list))) {
    std::string lines;
    for (const auto& [machine, said] : block.lines) lines += item(machine, said);
    text += section(block.heading, lines);
  }
  text += section("Not known", markdown_gaps(list.gaps));
  std::string remarks;
  for (const std::string& remark : remark_lines(list)) remarks += item(remark);
  if (list.left_off > 0) remarks += fmt::format("- and {} more, left off by --first\n", list.left_off);
  return text + section("Taken for granted", remarks);
}

std::string judged_as_markdown(const JudgedAnswer& answer) {
  std::string text = fmt::format("# {}: the plan {}\n\n{}\n", markdown_cell(answer.week->fleet->name),
                                 markdown_cell(answer.file), answer.judged.ok() ? "No fault." : "Faults:\n");
  for (const service::PlanFault& fault : answer.judged.faults) text += item(fault_words(fault));
  std::string beside;
  if (answer.judged.value) beside += item(value_words(*answer.week, *answer.judged.value));
  for (const std::string& each :
       {follow_on_words(answer.judged), safety_left_out_words(answer.judged), not_judged_words(answer.not_judged)}) {
    if (!each.empty()) beside += item(each);
  }
  return beside.empty() ? text : text + '\n' + beside;
}

}  // namespace cli
