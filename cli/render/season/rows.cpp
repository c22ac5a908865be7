#include "render/season/rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "render/shared/resources_words.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"
#include "service/run_ban.h"
#include "terminal/table.h"
#include "terminal/width.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::Point;
using service::SeasonItem;
using service::SeasonPlan;

std::string mark_of(const SeasonItem& item) {
  return std::string(item.safety ? "S" : "") + (item.competent_person ? "C" : "") + (item.point.doubtful ? "D" : "");
}

// What is due or to be mended is; odds are for what is not.
std::string odds_of(const SeasonItem& item) {
  if (!item.to_mend.empty()) return "to mend";
  if (item.point.standing == service::Standing::overdue) return "overdue";
  if (item.point.standing == service::Standing::due) return item.point.by_estimate ? "due?" : "due";
  return item.odds.value >= 0.995 ? ">99 %" : fmt::format("{:.0f} %", item.odds.value * 100);
}

std::string hours_of(std::int64_t minutes, int people) {
  const std::string text =
      minutes < 60 ? fmt::format("{} min", minutes) : fmt::format("{:.3g} h", static_cast<double>(minutes) / 60);
  return people > 1 ? fmt::format("{} x{}", text, people) : text;
}

// One row: a service, or the same at several positions.
struct Said {
  const SeasonItem* item = nullptr;
  std::string odds;
  std::string lost;
  std::vector<std::string> positions;
  std::int64_t minutes = 0;
};

std::vector<Said> said_of(const std::vector<SeasonItem>& items) {
  std::vector<Said> all;
  for (const SeasonItem& item : items) {
    Said said{&item, odds_of(item), item.gives_up ? fmt::format("{:.0f} %", *item.gives_up * 100) : "-", {}, 0};
    const Point& point = item.point;
    auto alike = std::find_if(all.begin(), all.end(), [&](const Said& other) {
      const Point& its = other.item->point;
      return !point.position.empty() && !its.position.empty() && its.machine == point.machine &&
             its.name == point.name && other.item->do_by == item.do_by && other.odds == said.odds &&
             other.lost == said.lost && !point.put_off && !its.put_off && its.measure_again == point.measure_again &&
             its.past_grace_by_estimate == point.past_grace_by_estimate && item.covered.empty() &&
             other.item->covered.empty() && item.included_in == other.item->included_in &&
             item.round == other.item->round && item.to_mend.empty() && other.item->to_mend.empty() &&
             item.waits_for.empty() && other.item->waits_for.empty();
    });
    if (alike == all.end()) alike = all.insert(all.end(), std::move(said));
    if (!point.position.empty()) alike->positions.push_back(point.position);
    if (item.resources.time) alike->minutes += item.resources.time->count();
  }
  return all;
}

std::string again_words(const SeasonItem& item) {
  if (!item.again()) return "";
  return item.round == 2 ? " again" : fmt::format(" again ({})", item.round);
}

std::string task_cell(const Said& said) {
  const Point& point = said.item->point;
  const std::string again = again_words(*said.item);
  if (said.positions.size() < 2) return task_of(point) + again;
  return service::cleaned(fmt::format("{} ({})", point.name, said.positions.size())) + again;
}

// On the day of the work itself, looking for leaks say.
bool at_once(const service::FollowUp& check) {
  return std::any_of(check.within.begin(), check.within.end(), [](const service::Limb& limb) {
    const auto* usage = std::get_if<service::UsageLimb>(&limb);
    return usage != nullptr && usage->every <= service::Amount::units(2);
  });
}

// The checks that follow it after some work.
std::string checks_words(const SeasonItem& item) {
  std::vector<std::string> checks;
  for (const service::FollowUp* check : item.checks) {
    if (at_once(*check)) continue;
    if (std::find(checks.begin(), checks.end(), check->name) == checks.end()) checks.push_back(check->name);
  }
  return checks.empty() ? "" : fmt::format("then {}", fmt::join(checks, ", "));
}

// Its own sign or value, or how it was found, forbids to run the machine.
bool own_limb_says_why(const SeasonItem& item) { return forbids_running(item.point) && !item.again(); }

bool says_why(const SeasonItem& item) {
  return own_limb_says_why(item) || std::any_of(item.to_mend.begin(), item.to_mend.end(),
                                                [](const auto& seen) { return service::forbids_running(seen); });
}

// `comes due 2 times more before the season: by 2026-05-16, 2026-07-07`: as the list of parts has it.
std::string between_words(const SeasonItem& item) {
  std::vector<std::string> days;
  for (const service::SeasonBetween& once : item.between) {
    if (once.due.p10) days.push_back(to_text(*once.due.p10));
  }
  return fmt::format("comes due {} more before the season: by {}",
                     service::counted(static_cast<std::int64_t>(item.between.size()), "time", "times"),
                     fmt::join(days, ", "));
}

// What else whoever does it must know.
std::string remarks_of(const Said& said) {
  std::vector<std::string> remarks;
  const SeasonItem& item = *said.item;
  if (item.point.doubtful) remarks.emplace_back(rests_on_doubt);
  for (const service::SeenSign& seen : item.to_mend) remarks.push_back(words_of(seen));
  if (own_limb_says_why(item)) remarks.emplace_back(not_before_mended);
  if (item.point.past_grace_by_estimate) remarks.push_back(estimate_words(item.point));
  if (said.positions.size() > 1 && said.positions.size() < item.point.task->positions.size()) {
    remarks.push_back(fmt::format("at {}", fmt::join(said.positions, ", ")));
  }
  if (item.included_in)
    remarks.push_back(fmt::format("{} includes it, and has its work and parts", task_of(*item.included_in)));
  if (!item.covered.empty()) remarks.push_back("includes " + included_words(item, ", "));
  if (!item.waits_for.empty()) remarks.push_back(awaited_words(item, ", "));
  if (const std::string checks = checks_words(item); !checks.empty() && !item.again()) remarks.push_back(checks);
  if (!item.point.measure_again.empty()) {
    remarks.push_back(fmt::format("measure {} again", listed(item.point.measure_again, "and")));
  }
  if (!item.between.empty()) remarks.push_back(between_words(item));
  if (item.while_laid_up()) remarks.emplace_back("laid up: before it goes back to work");
  if (item.point.put_off) {
    service::PutOff put_off = *item.point.put_off;
    put_off.why.clear();  // why, the due list tells
    remarks.push_back("put off " + words_of(put_off, *item.point.machine));
  }
  return service::cleaned(fmt::format("{}", fmt::join(remarks, "; ")));
}

std::string line_of(const Row& cells, const std::vector<std::size_t>& widths, std::size_t from, std::size_t to) {
  std::string line;
  for (std::size_t i = from; i < to; ++i) {
    if (i > from) line += i == 1 ? " " : "  ";
    line += i + 1 == to ? cells[i] : padded(cells[i], widths[i]);
  }
  return line + '\n';
}

}  // namespace

std::string included_words(const SeasonItem& item, const char* between) {
  std::vector<std::string> all;
  for (const service::SeasonIncluded& included : item.covered) {
    std::vector<std::string> marks;
    const bool is_due = included.standing == service::Standing::overdue || included.standing == service::Standing::due;
    if (is_due) marks.push_back(words_of(included.standing));
    if (included.name.safety) marks.emplace_back("safety");
    if (included.name.competent_person) marks.emplace_back("by a competent person");
    if (included.own_row) marks.emplace_back("in a row of its own");
    const std::string more = marks.empty() ? "" : fmt::format(" ({})", fmt::join(marks, ", "));
    all.push_back(task_of(included.name) + more);
  }
  return fmt::format("{}", fmt::join(all, between));
}

std::string awaited_words(const SeasonItem& item, const char* between) {
  std::vector<std::string> all;
  for (const service::SeasonAwaited& awaited : item.waits_for) {
    all.push_back(fmt::format("{} not there before {}{}", awaited.part, to_text(awaited.from),
                              awaited.counted ? "" : fmt::format(" ({})", not_counted)));
  }
  return fmt::format("{}", fmt::join(all, between));
}

std::vector<SeasonRow> rows_in_words(const std::vector<SeasonItem>& items, const service::NotToRun& stopped) {
  std::vector<SeasonRow> rows;
  for (const Said& said : said_of(items)) {
    const SeasonItem& item = *said.item;
    const service::RunBan* const ban = says_why(item) ? nullptr : stopped.ban_of(*item.point.machine);
    rows.push_back({&item, mark_of(item), to_text(item.do_by), task_cell(said), said.odds, said.lost,
                    item.resources.time ? hours_of(said.minutes, item.resources.people) : "not said",
                    ban == nullptr ? "" : why_not_to_run(*ban), remarks_of(said)});
  }
  return rows;
}

std::string_view group_words(service::SeasonGroup group) {
  switch (group) {
    case service::SeasonGroup::mend:
      return "Found worn or failed, and not mended since";
    case service::SeasonGroup::overdue:
      return "Overdue";
    case service::SeasonGroup::due:
      return "Due now";
    case service::SeasonGroup::never_waits:
      return "Safety and statutory, by day";
    case service::SeasonGroup::rest:
      return "The rest, by day";
    case service::SeasonGroup::put_off:
      return "Put off, by the day on which that ends";
  }
  return "";
}

std::string season_rows(const std::vector<SeasonItem>& items, const service::NotToRun& stopped, const char* day,
                        const Look& look, bool grouped) {
  std::vector<Row> rows{{"", day, "machine", "task", "odds", "lost", "takes"}};
  const auto all = rows_in_words(items, stopped);
  for (const SeasonRow& row : all) {
    rows.push_back(
        {row.mark, row.day, service::cleaned(row.item->point.machine->key), row.task, row.odds, row.lost, row.takes});
  }
  const auto widths = column_widths(rows);
  std::size_t whole = 2 * widths.size() - 3;
  for (const std::size_t width : widths) whole += width;
  const auto columns = static_cast<std::size_t>(look.columns);
  const std::size_t names = 4;  // mark, day, machine and task stand in the first line in any case
  const bool folds = columns != 0 && whole > columns;
  const std::string indent(widths[0] + 3, ' ');
  std::string text;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (grouped && i > 0 && (i == 1 || all[i - 1].item->group() != all[i - 2].item->group())) {
      text += fmt::format("{}{}\n", i == 1 ? "" : "\n", group_words(all[i - 1].item->group()));
    }
    text += line_of(rows[i], widths, 0, folds ? names : rows[i].size());
    if (folds) text += indent + line_of(rows[i], widths, names, rows[i].size());
    if (i == 0) continue;
    std::string remarks = all[i - 1].stopped;
    if (!remarks.empty() && !all[i - 1].remarks.empty()) remarks += "; ";
    remarks += all[i - 1].remarks;
    if (!remarks.empty()) text += wrapped(indent, remarks, columns, indent.size());
  }
  return text;
}

std::string season_legend(const SeasonPlan& plan, const std::string& command) {
  const auto marked = [&](const auto& has) {
    return std::any_of(plan.beforehand.begin(), plan.beforehand.end(), has) ||
           std::any_of(plan.have_ready.begin(), plan.have_ready.end(), has) ||
           std::any_of(plan.put_off.begin(), plan.put_off.end(), has);
  };
  std::string text;
  if (marked([](const SeasonItem& item) { return item.safety; })) text += "S: safety. ";
  if (marked([](const SeasonItem& item) { return item.competent_person; })) text += "C: by a competent person. ";
  if (marked([](const SeasonItem& item) { return item.point.doubtful; })) {
    text += fmt::format("D: {}. ", rests_on_doubt);
  }
  if (marked([](const SeasonItem& item) { return odds_of(item) == "due?"; })) {
    text += "due?: by estimate its use alone has brought it due; read the meter. ";
  }
  return text + columns_legend(plan, command);
}

std::string columns_legend(const SeasonPlan& plan, const std::string& command) {
  const bool mends = std::any_of(plan.beforehand.begin(), plan.beforehand.end(),
                                 [](const SeasonItem& item) { return !item.to_mend.empty(); });
  return fmt::format(
      "odds: that it comes due before {0} ends if nobody does it; overdue and due: that it "
      "has. {2}again: once more (3: a third time), after it was done before. x2: by two people, "
      "whose hours count twice in the sums. "
      "lost: how much of its life is given up by doing it on that day; -: nobody can "
      "say. then: checks after some work. What odds rest on: {1} why MACHINE TASK. "
      "What to buy: {1} parts --before {0}.",
      service::cleaned(plan.season->key), command,
      mends ? "to mend: found worn or failed, whenever it comes due. " : "");
}

}  // namespace cli
