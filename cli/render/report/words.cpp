#include "render/report/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "render/due/due.h"
#include "render/overdue/words.h"
#include "render/parts/words.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"
#include "service/overdue_news.h"
#include "terminal/shell_word.h"

namespace cli {

using service::counted;
using service::Report;

std::string known_words(const Report& report) {
  const std::string machines = counted(report.due.machines, "machine", "machines");
  if (!report.known_until) return machines + "; nothing is recorded of them yet.";
  return fmt::format("{}; what is known goes up to {}.", machines, to_text(*report.known_until));
}

std::string soon_title() { return fmt::format("Safety and statutory: due, or within {} days", service::soon.count()); }

std::string fleet_figures(const Report& report) {
  if (!report.scope.machines) return "";
  std::string text = figures_of_fleet();
  if (report.gaps_elsewhere == 0) return text;
  const auto count = static_cast<std::int64_t>(report.gaps_elsewhere);
  return text + fmt::format(" They rest on {} not known of machines that this report is not about.",
                            counted(count, "thing that is", "things that are"));
}

std::string asked_words(const Report& report) {
  std::string words = "report";
  if (!report.scope.site.empty()) {
    words += " --site " + shell_word(report.scope.site);
  } else if (report.scope.machines) {
    for (const std::string& machine : *report.scope.machines) words += ' ' + shell_word(machine);
  }
  const bool at_hand = report.season && report.season->season == season_at_hand(*report.fleet, report.as_of);
  if (report.season && !at_hand) words += " --season " + shell_word(report.season->season->key);
  return words;
}

namespace {

// As many as the page has lines.
std::string count_of(const service::HeadingCount& count) {
  // Other machines may be laid up with nothing that is due on them.
  if (count.heading == service::OverdueHeading::laid_up) {
    return fmt::format("{} on what is laid up",
                       counted(static_cast<std::int64_t>(count.lines), "thing to do", "things to do"));
  }
  return fmt::format("{} {}", count.lines, short_title_of(count.heading));
}

std::string counts_or_well(const std::vector<std::string>& counts) {
  return counts.empty() ? "empty: all is well, and all is known" : fmt::format("{}", fmt::join(counts, ", "));
}

// What forbids it, by name alone.
std::string why_not(const service::RunBan& ban) {
  std::vector<std::string> why;
  if (ban.out_of_use()) why.emplace_back("out of use");
  for (const service::Point* point : ban.points) why.push_back(task_of(*point));
  for (const service::SeenSign* seen : ban.seen) why.push_back(service::cleaned(seen->sign));
  return fmt::format("{}", fmt::join(why, ", "));
}

}  // namespace

std::string overdue_counts(const Report& report) {
  const service::OverdueCounts all = overdue_counts(report.due);
  std::vector<std::string> counts;
  if (all.not_to_run > 0) counts.push_back(not_to_run_words(all.not_to_run));
  for (const service::HeadingCount& count : all.others) counts.push_back(count_of(count));
  if (counts.empty() && !due_soon(report).empty()) return "empty";
  return counts_or_well(counts);
}

std::string soon_counts(const Report& report) {
  const auto count = static_cast<std::int64_t>(due_soon(report).size());
  if (count == 0) return "";
  return fmt::format("{} due, or within {}, beside that list",
                     counted(count, "safety or statutory task", "safety or statutory tasks"),
                     counted(service::soon.count(), "day", "days"));
}

std::string not_to_run_names(const Report& report) {
  std::vector<std::string> names;
  for (const service::RunBan& ban : run_bans(report.due)) {
    names.push_back(fmt::format("{} ({})", service::cleaned(ban.machine->key), why_not(ban)));
  }
  return fmt::format("{}", fmt::join(names, ", "));
}

std::string first_counts(const Report& report) {
  const service::OverdueCounts all = overdue_counts(report.due);
  std::vector<std::string> counts;
  if (all.not_to_run > 0) counts.push_back(not_to_run_words(all.not_to_run));
  const auto soon = due_soon(report).size();
  bool told_soon = soon == 0;
  const auto tell_soon = [&] {
    if (!std::exchange(told_soon, true)) counts.push_back(fmt::format("{} safety or statutory soon", soon));
  };
  for (const service::HeadingCount& count : all.others) {
    if (count.heading > service::OverdueHeading::overdue) tell_soon();
    counts.push_back(count_of(count));
  }
  tell_soon();
  return counts_or_well(counts);
}

std::string due_counts(const Report& report) {
  const service::DueRows rows = rows_of(report.due, {});
  std::string text = counts_words(rows);
  if (rows.counts.empty()) return "nothing";
  text.pop_back();
  return fmt::format("{}; looking ahead to {}", text, to_text(report.due.within));
}

std::string season_counts(const Report& report) {
  if (!report.season) return "the fleet file lists no seasons";
  const service::SeasonPlan& plan = *report.season;
  std::string text = fmt::format("{}, {} to {}: {} {}, {} to have ready", service::cleaned(plan.season->key),
                                 to_text(plan.from), to_text(plan.to), plan.before_sums.points,
                                 plan.under_way() ? "to do now" : "to do before it", plan.have_ready.size());
  if (!plan.put_off.empty()) text += fmt::format(", {} put off beyond it", plan.put_off.size());
  if (!plan.find_out.empty()) text += fmt::format(", {} to find out", plan.find_out.size());
  return text;
}

std::string workload_counts(const Report& report) {
  const service::Workload& load = report.workload;
  if (load.machines.empty()) return "nothing is to be reckoned";
  std::string text =
      fmt::format("{:.1f} h of work ({:.1f} to {:.1f}) in {:.0f} services, to {}", load.labour_hours.mean,
                  load.labour_hours.p10, load.labour_hours.p90, load.services.mean, to_text(load.to));
  if (load.doubtful) text += fmt::format("; some of it {}", rests_on_doubt);
  return text;
}

std::string beside_months_words(const Report& report) {
  if (!report.beside_months) return "";
  return fmt::format(
      "By the plan before {} {} of work fall before {}; here each point is done on the day it comes due.",
      service::cleaned(report.season->season->key),
      hours_words(static_cast<double>(report.beside_months->labour_minutes) / 60),
      to_text(report.beside_months->before));
}

std::string parts_counts(const Report& report) {
  const auto counts = [](const service::PartsList& list) {
    const PartsTables tables = parts_tables(list);
    const std::size_t others = tables.others.size() - 1;
    const std::string more = others == 0 ? "" : fmt::format(", {} more for other work before then", others);
    return fmt::format("{} to order{}, {} perhaps short, {} in stock", tables.shorts.size() - 1, more,
                       tables.perhaps.size() - 1, tables.enough.size() - 1);
  };
  std::string text = fmt::format(
      "{} {}", counts(report.parts),
      report.parts.before == nullptr ? "for services " + parts_span(report.parts) : parts_span(report.parts));
  if (!report.parts_beyond) return text;
  return text + fmt::format("; beyond that, to {}: {}", to_text(report.parts_beyond->to), counts(*report.parts_beyond));
}

std::string machines_counts(const Report& report) {
  std::size_t lines = 0;
  for (const service::Book& book : report.books) lines += book.lines.size();
  return fmt::format("{}, with {} in their books", report.books.size(),
                     counted(static_cast<std::int64_t>(lines), "entry", "entries"));
}

}  // namespace cli
