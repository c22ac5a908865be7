#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "render/season/season.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/point_rows.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"
#include "terminal/table.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::Point;
using service::SeasonItem;
using service::SeasonPlan;

std::string share_words(const std::optional<double>& share) {
  return share ? fmt::format("{:.0f} %", *share * 100) : "not known";
}

std::string why_now(const SeasonItem& item) {
  std::vector<std::string> remarks;
  const Point& point = item.point;
  if (item.use == service::UseKind::out_of_use) remarks.emplace_back("out of use: do not run");
  if (item.use == service::UseKind::laid_up) remarks.emplace_back("laid up: before it goes back to work");
  if (item.standing == service::Standing::overdue) remarks.emplace_back("overdue");
  if (item.standing == service::Standing::due) {
    remarks.emplace_back(point.by_estimate ? "due by estimate: read the meter" : "due");
  }
  if (item.safety) remarks.emplace_back("safety");
  if (point.task->competent_person) remarks.emplace_back("by a competent person");
  if (point.put_off) remarks.push_back("put off " + words_of(*point.put_off));
  if (!item.covered.empty()) {
    remarks.push_back("includes " + service::cleaned(names_of(item.covered, ", ")));
  }
  if (item.comes_again) {
    remarks.push_back(fmt::format("{}: {}",
                                  item.hardly_helps
                                      ? "doing it now hardly helps, for it comes due before the end all the same"
                                      : "comes due again before the end",
                                  odds_words(*item.again)));
  }
  if (!point.task->cautions.empty() && point.follow_up == nullptr) {
    remarks.push_back("mind: " + service::cleaned(fmt::format("{}", fmt::join(point.task->cautions, ", "))));
  }
  return fmt::format("{}", fmt::join(remarks, "; "));
}

// What is due is due; odds are for what is not.
std::string odds_of(const SeasonItem& item) {
  if (item.point.standing == service::Standing::overdue) return "overdue";
  if (item.point.standing == service::Standing::due && !item.point.by_estimate) return "due";
  return odds_words(item.odds);
}

std::string rows_of(const std::vector<SeasonItem>& items, const Look& look) {
  std::vector<Row> rows{{"do by", "machine", "task", "odds", "gives up today", "takes", "parts"}};
  std::vector<std::string> remarks{""};
  for (const SeasonItem& item : items) {
    rows.push_back({to_text(item.do_by), service::cleaned(item.point.machine->key), task_of(item.point), odds_of(item),
                    share_words(item.given_up), time_words(item.resources), ""});
    std::string below = parts_words(item.resources);
    const std::string remark = why_now(item);
    if (!remark.empty()) below += (below.empty() ? "" : " · ") + remark;
    remarks.push_back(below);
    rows.back().pop_back();
  }
  rows.front().pop_back();
  const std::string lines = table(rows, "  ");
  std::string text;
  std::size_t from = 0;
  for (const std::string& remark : remarks) {
    const std::size_t end = lines.find('\n', from);
    text += lines.substr(from, end - from + 1);
    from = end + 1;
    if (!remark.empty()) text += wrapped("      ", remark, static_cast<std::size_t>(look.columns), 6);
  }
  return text;
}

std::string waiting(const SeasonPlan& plan) {
  std::vector<Row> rows;
  for (const SeasonItem& item : plan.can_wait) {
    rows.push_back({service::cleaned(item.point.machine->key), task_of(item.point), odds_words(item.odds),
                    item.point.due_span.p50 ? "about " + to_text(*item.point.due_span.p50) : "beyond five years"});
  }
  return table(rows, "  ");
}

std::string unknown_rows(const SeasonPlan& plan, const Look& look) {
  std::vector<std::pair<std::string, std::string>> rows;
  std::set<std::string> told;
  for (const service::Gap& gap : plan.gaps) {
    rows.emplace_back(whose(gap), gap.say);
  }
  for (const Point& point : plan.unknown) {
    if (!told.insert(point.machine->key).second) continue;
    const auto count = std::count_if(plan.unknown.begin(), plan.unknown.end(),
                                     [&](const Point& other) { return other.machine == point.machine; });
    rows.emplace_back(
        point.machine->key,
        count == 1 ? fmt::format("{}: nothing to go by; whichever find-out {}", task_of(point), point.machine->key)
                   : fmt::format("{} with nothing to go by; whichever find-out {}",
                                 service::counted(count, "task", "tasks"), point.machine->key));
  }
  return said_rows(rows, look);
}

}  // namespace

std::string season_as_text(const SeasonPlan& plan, const Look& look) {
  std::string text =
      heading(look, fmt::format("{}, {}: {} {}, {} to {}", service::cleaned(plan.fleet->name), to_text(plan.as_of),
                                plan.under_way() ? "in" : "before", service::cleaned(plan.season->key),
                                to_text(plan.from), to_text(plan.to)));
  text += wrapped("", base_cautions_sentence(), static_cast<std::size_t>(look.columns), 0);
  std::vector<std::pair<std::string, std::string>> out;
  for (const service::MachineUse& use : plan.not_in_use) out.emplace_back(use.machine->key, words_of(use.state));
  if (!out.empty()) text += '\n' + heading(look, "Not in use") + said_rows(out, look);
  if (!plan.beforehand.empty()) {
    text += '\n' +
            heading(look, fmt::format(
                              "{}: {}", plan.under_way() ? "Do now" : "Do beforehand",
                              service::counted(static_cast<std::int64_t>(plan.beforehand.size()), "point", "points"))) +
            rows_of(plan.beforehand, look);
  }
  if (!plan.can_wait.empty())
    text += '\n' + heading(look, "Can wait, with the odds that they come due before it ends") + waiting(plan);
  if (!plan.unknown.empty() || !plan.gaps.empty()) {
    text += '\n' + heading(look, "Not known until somebody reads the meter or finds out") + unknown_rows(plan, look);
  }
  if (plan.unlikely_before_end > 0) {
    text += fmt::format("\n{} hardly {} due before the season's end: in less than one case of a hundred each.\n",
                        service::counted(plan.unlikely_before_end, "other point", "other points"),
                        plan.unlikely_before_end == 1 ? "comes" : "come");
  }
  return text + '\n' + wrapped("", season_in_a_line(plan), static_cast<std::size_t>(look.columns), 0);
}

}  // namespace cli
