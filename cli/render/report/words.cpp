#include "render/report/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/due/due.h"
#include "render/overdue/words.h"
#include "render/parts/words.h"
#include "render/shared/words.h"

namespace cli {

using service::counted;
using service::Report;

std::string known_words(const Report& report) {
  const std::string machines = counted(report.due.machines, "machine", "machines");
  if (!report.known_until) return machines + "; nothing is recorded of them yet.";
  return fmt::format("{}; what is known goes up to {}.", machines, to_text(*report.known_until));
}

std::string overdue_counts(const Report& report) {
  std::vector<std::string> parts;
  for (const service::OverdueBlock& block : overdue_blocks(report.due)) {
    parts.push_back(fmt::format("{} {}", block.entries.size(), short_title_of(block.heading)));
  }
  return parts.empty() ? "empty: all is well, and all is known" : fmt::format("{}", fmt::join(parts, ", "));
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
                                 to_text(plan.from), to_text(plan.to), plan.beforehand.size(),
                                 plan.under_way() ? "to do now" : "to do before it", plan.have_ready.size());
  if (!plan.put_off.empty()) text += fmt::format(", {} put off beyond it", plan.put_off.size());
  if (!plan.find_out.empty()) text += fmt::format(", {} to find out", plan.find_out.size());
  return text;
}

std::string workload_counts(const Report& report) {
  const service::Workload& load = report.workload;
  if (load.machines.empty()) return "nothing is to be reckoned";
  return fmt::format("{:.1f} h of work ({:.1f} to {:.1f}) in {:.0f} services, to {}", load.labour_hours.mean,
                     load.labour_hours.p10, load.labour_hours.p90, load.services.mean, to_text(load.to));
}

std::string parts_counts(const Report& report) {
  const auto& needs = report.parts.needs;
  const auto to_order =
      std::count_if(needs.begin(), needs.end(), [](const service::PartNeed& need) { return need.is_short(); });
  const PartsTables tables = parts_tables(report.parts);
  return fmt::format("{} to order, {} perhaps short, {} in stock; for services to {}", to_order,
                     tables.perhaps.size() - 1, tables.enough.size() - 1, to_text(report.parts.to));
}

std::string machines_counts(const Report& report) {
  std::size_t lines = 0;
  for (const service::Book& book : report.books) lines += book.lines.size();
  return fmt::format("{}, with {} in their books", report.books.size(),
                     counted(static_cast<std::int64_t>(lines), "entry", "entries"));
}

}  // namespace cli
