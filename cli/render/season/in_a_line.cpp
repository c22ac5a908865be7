#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "render/parts/words.h"
#include "render/season/season.h"
#include "render/shared/doubt_words.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::SeasonPlan;
using service::to_text;

// `brakes of tractor-loader counted with its big-service`: rows of the list that are in no figure by themselves.
std::string counted_with(const service::SeasonSums& sums) {
  std::vector<std::string> all;
  for (const service::SeasonCounted& row : sums.counted_with) {
    all.push_back(fmt::format("{} of {} counted with its {}", task_of(row.name),
                              service::cleaned(row.name.machine->key), task_of(row.in)));
  }
  return fmt::format("{}", fmt::join(all, ", "));
}

std::string sums_of(const service::SeasonSums& sums, bool never_wait) {
  std::string text = service::counted(static_cast<std::int64_t>(sums.points), "point", "points");
  if (never_wait && sums.never_wait > 0) text += fmt::format(", {} of them safety or statutory", sums.never_wait);
  if (const std::string with = counted_with(sums); !with.empty()) text += fmt::format(" ({})", with);
  text += fmt::format("; {} of work", hours_words(static_cast<double>(sums.labour_minutes) / 60));
  if (sums.several_people) text += " (two people count twice)";
  if (!sums.no_time.empty()) {
    text += fmt::format(" (and {} no time)", service::counted(static_cast<std::int64_t>(sums.no_time.size()),
                                                              "task that says", "tasks that say"));
  }
  if (sums.pieces > 0) text += fmt::format(", {}", service::counted(sums.pieces, "part", "parts"));
  return text;
}

// `pump-trailer does not work in harvest; 1 task is overdue on it: whichever due pump-trailer.`
std::string not_at_work(const service::OtherMachine& other, const std::string& season, const std::string& command) {
  std::vector<std::string> counts;
  const auto say = [&](int count, const char* what) {
    if (count == 0) return;
    const std::string tasks = counts.empty() ? service::counted(count, "task", "tasks") : std::to_string(count);
    counts.push_back(fmt::format("{} {} {}", tasks, count == 1 ? "is" : "are", what));
  };
  say(other.overdue, "overdue");
  say(other.due, "due");
  say(other.no_record, "without record");
  say(other.unknown, "not known in part");
  const std::string machine = service::cleaned(other.machine->key);
  if (other.seen > 0) {
    counts.push_back(fmt::format("{} seen and not looked at", service::counted(other.seen, "thing", "things")));
  }
  return fmt::format("{0} does not work in {1}; {2}: {3} due {0}.", machine, season,
                     counts.empty() ? "its tasks" : listed(counts, "and") + " on it", command);
}

// Of machines alone that do not work in it.
std::string none_at_work(const SeasonPlan& plan, const std::string& command) {
  std::vector<std::string> said;
  for (const service::OtherMachine& other : plan.others) {
    said.push_back(not_at_work(other, service::cleaned(plan.season->key), command));
  }
  return fmt::format("{}", fmt::join(said, " "));
}

// Of safety and statutory tasks that nobody can tell of.
std::string never_wait_not_known(const SeasonPlan& plan) {
  const auto count = static_cast<std::int64_t>(plan.find_out_never_wait);
  if (count == 0) return "";
  return fmt::format("Find out first: of {} too little is known.",
                     service::counted(count, "safety or statutory task", "safety or statutory tasks"));
}

std::vector<std::string> work_of(const SeasonPlan& plan, const std::string& command) {
  if (plan.at_work == 0 && plan.beforehand.empty() && !plan.others.empty()) return {none_at_work(plan, command)};
  const bool all_known = plan.find_out.empty() && plan.gaps.empty() && plan.seen.empty();
  std::string text;
  if (plan.beforehand.empty()) {
    text = fmt::format("{}{} needs doing {}{}{}", plan.put_off.empty() ? "Nothing" : "Nothing else",
                       all_known ? "" : " that is known", plan.under_way() ? "now" : "before " + to_text(plan.from),
                       plan.not_in_use.empty() ? "" : " on what is in use",
                       all_known ? "." : "; find out what is not known.");
  } else {
    text = fmt::format("{}: {}.", plan.under_way() ? "Do now" : "Do before " + to_text(plan.from),
                       sums_of(plan.before_sums, true));
  }
  std::vector<std::string> sentences{text};
  if (std::string unknown = never_wait_not_known(plan); !unknown.empty()) sentences.push_back(std::move(unknown));
  if (!plan.have_ready.empty()) sentences.push_back(fmt::format("Have ready: {}.", sums_of(plan.ready_sums, false)));
  if (!plan.put_off.empty()) {
    sentences.push_back(
        fmt::format("Put off beyond {}: {}.", service::cleaned(plan.season->key),
                    service::counted(static_cast<std::int64_t>(plan.put_off.size()), "point", "points")));
  }
  return sentences;
}

std::string bought_words(const service::PartNeed& need) {
  std::string text = to_buy(need) + ' ' + service::cleaned(need.key);
  if (need.late_days > 0) text += fmt::format(" ({} late)", service::counted(need.late_days, "day", "days"));
  return text;
}

std::vector<std::pair<std::string, std::string>> orders_in_words(const std::vector<service::PartNeed>& needs,
                                                                 service::Day as_of) {
  std::map<service::Day, std::vector<std::string>> by_day;
  for (const service::PartNeed& need : needs) {
    if (need.order_by) by_day[*need.order_by].push_back(bought_words(need));
  }
  std::vector<std::pair<std::string, std::string>> orders;
  for (const auto& [day, what] : by_day) {
    orders.emplace_back(day == as_of ? "today" : to_text(day), fmt::format("{}", fmt::join(what, ", ")));
  }
  return orders;
}

// What is to be ordered, by day.
std::string orders_of(const SeasonPlan& plan) {
  std::string text;
  for (const auto& [day, what] : season_orders(plan)) {
    text += fmt::format("{}{}: {}", text.empty() ? "Order " : "; ", day == "today" ? day : "by " + day, what);
  }
  return text.empty() ? text : text + '.';
}

// `; to order for it today: 1 drum-bar-set (35 days late)`.
std::string orders_for(const service::SeasonAbsent& absent, service::Day as_of) {
  std::string text;
  for (const auto& [day, what] : orders_in_words(absent.orders, as_of)) {
    text +=
        fmt::format("{}{}: {}", text.empty() ? "; to order for it " : "; ", day == "today" ? day : "by " + day, what);
  }
  return text;
}

std::string stands_so(const service::UseState& state) {
  if (state.kind == service::UseKind::out_of_use) return "out of use";
  return state.until ? "laid up until " + to_text(*state.until) : "laid up";
}

// What a machine that stands throughout would take: what is not on the list is not all well.
std::string absent_words(const service::SeasonAbsent& absent, const SeasonPlan& plan) {
  std::string takes = absent.sums.points == 0 ? "nothing that is known comes due on it" : sums_of(absent.sums, true);
  if (absent.find_out > 0) {
    takes += fmt::format("; of {} too little is known",
                         service::counted(static_cast<std::int64_t>(absent.find_out), "task", "tasks"));
  }
  return fmt::format("Not in it: {}, {}. If it is to work in {}: {}{}.", service::cleaned(absent.machine->key),
                     stands_so(absent.state), service::cleaned(plan.season->key), takes,
                     orders_for(absent, plan.as_of));
}

}  // namespace

std::vector<std::pair<std::string, std::string>> season_orders(const SeasonPlan& plan) {
  return orders_in_words(plan.parts, plan.as_of);
}

std::vector<std::string> season_in_sentences(const SeasonPlan& plan, const std::string& command) {
  std::vector<std::string> sentences = work_of(plan, command);
  if (std::string doubts = doubt_words(plan.doubts, "rows and orders"); !doubts.empty()) {
    sentences.insert(sentences.begin(), std::move(doubts));
  }
  for (const service::SeasonAbsent& absent : plan.absent) sentences.push_back(absent_words(absent, plan));
  return sentences;
}

std::string season_in_a_line(const SeasonPlan& plan, const std::string& command) {
  std::vector<std::string> sentences = season_in_sentences(plan, command);
  if (std::string orders = orders_of(plan); !orders.empty()) sentences.push_back(std::move(orders));
  return fmt::format("{}", fmt::join(sentences, " "));
}

}  // namespace cli
