// A plan in figures, and what it takes for granted.
#include <fmt/format.h>

#include "render/parts/words.h"
#include "render/rounds/words.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"
#include "service/broken_promise.h"

namespace cli {
namespace {

using service::cleaned;
using service::counted;
using service::Round;

}  // namespace

std::string counts_of(const RoundsList& list) {
  const service::RoundsPlan& plan = list.plan;
  std::size_t stops = 0;
  for (const Round& round : plan.rounds) stops += round.stops.size();
  std::vector<std::string> parts{counted(static_cast<std::int64_t>(plan.rounds.size()), "round", "rounds"),
                                 counted(static_cast<std::int64_t>(stops), "visit", "visits")};
  const auto add = [&](std::size_t count, std::string_view what) {
    if (count > 0) parts.push_back(fmt::format("{} {}", count, what));
  };
  const std::size_t broken = broken_promises(plan).size();
  add(broken, broken == 1 ? "promise broken" : "promises broken");
  add(plan.not_this_week.size(), "not this week");
  add(list.week().not_planned.size(), "not planned");
  add(list.week().no_record.size(), "without record");
  add(list.week().unknown.size(), "not wholly known");
  add(list.week().not_in_book.size(), "taken as done and not in the book");
  return fmt::format("{}.", fmt::join(parts, ", "));
}

std::string cost_words(const RoundsList& list) {
  if (list.site != nullptr) return "";  // of the whole week, which is no concern of one customer
  const service::RoundsPlan& plan = list.plan;
  return fmt::format("It costs {}: {} on the way, {} for waiting, {} for what is not this week.",
                     money_of(list, plan.value.total), plain(plan.travel), plain(plan.waiting), plain(plan.put_off));
}

std::string bound_words(const RoundsList& list) {
  if (list.site != nullptr) return "";  // likewise
  const service::RoundsPlan& plan = list.plan;
  const int left = plan.value.safety_put_off;
  const std::string no_plan =
      plan.promises_kept + plan.promises_broken == 0
          ? "No plan"
          : fmt::format("No plan that keeps {} promises", plan.promises_broken == 0 ? "the" : "as many");
  const std::string safety = left == 0 ? ""
                                       : fmt::format("{} for safety {} not this week. ",
                                                     counted(left, "visit", "visits"), left == 1 ? "is" : "are");
  const char* const promised = plan.promises_broken > 0 ? " with what can be kept of the promises"
                               : plan.promises_kept > 0 ? " with what was promised"
                                                        : "";
  std::string text;
  if (plan.proven) {
    text = left == 0 ? fmt::format("{} can cost less than {}: this one is proven to be the best{}.", no_plan,
                                   plain(plan.bound.total), promised)
                     : fmt::format(
                           "{}{} leaves out fewer of these, and none that leaves out as many costs less than {}: this "
                           "one is proven to be the best{}.",
                           safety, no_plan, plain(plan.bound.total), promised);
  } else if (plan.gap_known) {
    text = fmt::format("{}{} can cost less than {}: a better one can save {} at most ({:.1f} %).", safety, no_plan,
                       plain(plan.bound.total), plain(plan.value.total - plan.bound.total),
                       static_cast<double>(plan.gap_millionths) / 10'000);
  } else {
    text = fmt::format(
        "{}That it cannot be fewer is not proven: all that is certain is that no plan leaves out fewer "
        "than {}.",
        safety, plan.bound.safety_put_off);
  }
  if (plan.stopped == service::StoppedBy::time) text += " The time was up: with more of it there may be a better one.";
  if (plan.stopped == service::StoppedBy::effort) {
    text +=
        " The effort set for it is used up: with more, such as --time 2min, there may be a better one, or more proven.";
  }
  if (plan.stopped == service::StoppedBy::interrupt) text += " It was interrupted: this is the best so far.";
  return text;
}

std::vector<std::string> remark_lines(const RoundsList& list) {
  std::vector<std::string> lines;
  const service::Week& week = list.week();
  if (!week.done.empty()) {
    std::vector<std::string> names;
    for (const std::string& name : week.done) names.push_back(cleaned(name));
    lines.push_back(
        fmt::format("Taken as done before {}, whatever the book says: {}", to_text(week.from), listed(names, "and")));
  }
  if (const service::VisitLoad taken = taken_before(list); !taken.parts.empty() || !taken.fluids.empty()) {
    std::vector<std::string> words = piece_words(taken.parts);
    for (const auto& [key, poured] : taken.fluids) {
      words.push_back(fmt::format("{} {}", quantity(poured.amount, poured.unit), cleaned(key)));
    }
    lines.push_back(
        fmt::format("What is to load is held against stock less what these took and stock does not show: {}",
                    listed(words, "and")));
  }
  if (list.carried) lines.emplace_back(carried_words);
  for (std::string& line : without_figures(week.no_time, week.no_price)) lines.push_back(std::move(line));
  return lines;
}

}  // namespace cli
