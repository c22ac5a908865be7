// `rounds`: who goes where in a week; a plan that somebody has, kept as far as it can be, or judged.
#include "render/rounds/rounds.h"

#include <fmt/format.h>

#include <algorithm>

#include "asking.h"
#include "commands/commands.h"
#include "mistakes.h"
#include "output.h"
#include "render/parts/words.h"
#include "render/rounds/plan_reader.h"
#include "service/base.h"
#include "terminal/interrupt.h"
#include "terminal/shell_word.h"

namespace cli {
namespace {

using service::Day;
using service::GivenPlan;

constexpr int longest_week = 31;

// How much is tried where time decides when it ends.
constexpr int effort_with_time = 10;

std::optional<ReadPlan> plan_named(const Context& context, const char* option) {
  const auto name = context.arguments.value(option);
  if (!name) return std::nullopt;
  return *name == "-" ? read_plan(context.world.read_input(), "standard input")
                      : read_plan(read_file(context.world.folder / *name), *name);
}

// A plan that is to be kept has to be understood whole: who is left out of it would be sent away unasked.
GivenPlan insist_whole(ReadPlan read, const std::string& file, const service::Fleet& fleet) {
  std::vector<service::Diagnostic> wrong_shapes;
  std::vector<service::PlanFault> unread;
  for (const service::UnreadRound& round : read.plan.unread) {
    unread.push_back({service::PlanRule::form, round.where, round.says});
  }
  if (std::string other = of_other_fleet(fleet, read.plan); !other.empty()) {
    unread.push_back({service::PlanRule::form, "plan", std::move(other)});
  }
  read.faults.insert(read.faults.begin(), unread.begin(), unread.end());
  for (const service::PlanFault& fault : read.faults) {
    wrong_shapes.push_back({"plan-form",
                            fmt::format("{}: {}{}{}", file, fault.where, fault.where.empty() ? "" : ": ", fault.says),
                            "mend it, or keep a plan as `rounds --format json` writes it"});
  }
  if (!wrong_shapes.empty()) throw service::Failure(service::FailureKind::bad_data, std::move(wrong_shapes));
  return std::move(read.plan);
}

// A misspelt promise would be lost in silence.
void insist_known(const GivenPlan& kept, const std::string& file, const service::Fleet& fleet, Day from) {
  std::vector<service::Diagnostic> unknown;
  for (const service::PlanFault& fault : promised_to_nobody(fleet, kept, from)) {
    unknown.push_back({"plan-unknown-visit", fmt::format("{}: {}: {}", file, fault.where, fault.says),
                       "mend the name, or take that stop out of the plan and ring up whom it was promised to"});
  }
  if (!unknown.empty()) throw service::Failure(service::FailureKind::bad_data, std::move(unknown));
}

Day next_monday(Day today) {
  const Day tomorrow = today + std::chrono::days{1};
  return tomorrow + (std::chrono::Monday - std::chrono::weekday{tomorrow});
}

Day from_of(const Asking& asking, const GivenPlan* judged) {
  const Arguments& arguments = asking.arguments();
  if (!arguments.has("from") && judged != nullptr && judged->from) return *judged->from;
  if (!arguments.has("from")) {
    wrong("no-from", "`rounds` needs the first day of the week",
          fmt::format("say it, as in: rounds --from {}", service::to_text(next_monday(asking.today()))));
  }
  return day_option(arguments, "from", asking.today());
}

int days_of(const Arguments& arguments, Day from, const GivenPlan* judged, const GivenPlan* kept) {
  if (const auto written = arguments.value("days")) {
    const auto days = service::parse_count(*written);
    if (days && *days >= 1 && *days <= longest_week) return *days;
    wrong("bad-number", fmt::format("`--days {}` is no number of days from 1 to {}", *written, longest_week),
          "write how many days the plan is of, such as 7");
  }
  // The end of a plan stays where it is, though it is looked at on a later day.
  // One that was made by hand may say none, and is judged as what the plan that is kept would be made to.
  for (const GivenPlan* plan : {judged, kept}) {
    if (plan == nullptr || !plan->to) continue;
    if (plan == judged && plan->from && from < *plan->from) continue;  // another week is asked about
    const int days = service::days_between(from, *plan->to) + 1;
    if (days >= 1 && days <= longest_week) return days;
  }
  return service::WeekAsk{}.days;
}

// Points that come due so long after the last crew-day may join a visit.
std::optional<int> join_days_of(const Arguments& arguments, const service::Fleet& fleet, const service::WeekAsk& ask) {
  if (!arguments.has("within")) return std::nullopt;
  const Day last = week_horizon(fleet, ask);
  return service::days_between(last, horizon_option(arguments, "0d", last));
}

std::optional<std::int64_t> time_of(const Arguments& arguments) {
  const auto written = arguments.value("time");
  if (!written) return std::nullopt;
  const std::size_t digits = std::min(written->find_first_not_of("0123456789"), written->size());
  const std::string unit = written->substr(digits);
  const auto count = service::parse_count(written->substr(0, digits));
  if (count && *count > 0 && unit == "s") return std::int64_t{*count} * 1000;
  if (count && *count > 0 && unit == "min") return std::int64_t{*count} * 60'000;
  wrong("bad-time", fmt::format("`--time {}` is no time to plan in", *written), "write it as 10s or 2min");
}

service::RoundsPlan plan_in_time(Context& context, service::Week week) {
  const auto most = time_of(context.arguments);
  const auto fleet = week.fleet;
  const std::int64_t begun = context.world.elapsed();
  const Interrupt interrupt;
  service::Effort effort;
  if (most) effort.times = effort_with_time;
  effort.stop = [&] {
    if (interrupt.asked_for()) return service::StoppedBy::interrupt;
    const bool up = most && context.world.elapsed() - begun >= *most;
    return up ? service::StoppedBy::time : service::StoppedBy::nothing;
  };
  effort.progress = [&](const service::PlanProgress& now) {
    if (!context.progress.is_wanted()) return;
    context.progress.say(fmt::format("planning: {} so far, none is below {}; Ctrl-C takes the best so far",
                                     money_words(now.value.total, *fleet), money_words(now.bound.total, *fleet)));
  };
  return plan_rounds(std::move(week), effort);
}

// A calendar says no plan: whoever keeps the old one again, makes another calendar of the same number.
void say_what_to_keep(Context& context) {
  context.also.push_back({"keep-the-newest",
                          "this calendar is of a new plan; the next one is told apart from it only by that plan",
                          "keep the newest plan: ask the same with --format json, and --keep that next time",
                          {},
                          service::Severity::remark});
}

void insist_alone(const Arguments& arguments) {
  for (const char* other : {"time", "site", "first"}) {
    if (!arguments.has(other)) continue;
    wrong("options-clash", fmt::format("`--check` and `--{}` do not go together", other),
          "a plan is judged as a whole; leave one of them out");
  }
  if (arguments.value("format") == "ics") {
    wrong("options-clash", "what was judged is no calendar", "take text, json, csv or md");
  }
}

std::string of_other_days(const Context& context, const service::Week& week, const GivenPlan& plan) {
  if (!plan.as_of || *plan.as_of == week.as_of) return "";
  return fmt::format(
      "The plan is of {0}, and it is judged by what is known on {1}. As it was then: {2} rounds --check "
      "{3} --as-of {0}",
      service::to_text(*plan.as_of), service::to_text(week.as_of), context.look.command,
      shell_word(context.arguments.value("check").value_or("")));
}

int judge(Context& context, const service::Week& week, ReadPlan read) {
  JudgedAnswer answer{&week, judge_plan(week, read.plan), context.arguments.value("check").value_or(""),
                      of_other_days(context, week, read.plan), std::move(read.unread)};
  auto& faults = answer.judged.faults;
  faults.insert(faults.begin(), read.faults.begin(), read.faults.end());
  if (read.lacks_some) answer.judged.value.reset();
  put_answer(context, judged_formats, answer);
  return context.arguments.has("exit-code") && !answer.judged.ok() ? 1 : 0;
}

}  // namespace

int rounds(Context& context) {
  const Arguments& arguments = context.arguments;
  Asking asking(context, arguments.words.size());
  const auto site_name = arguments.value("site");
  const service::Site* const site = site_name ? &the_site(asking.fleet(), *site_name) : nullptr;
  asking.widen();  // a plan is of all sites; a site chooses what is told of it
  const auto first = first_option(arguments);
  time_of(arguments);  // a mistake in it is told before anything is read
  auto judged = plan_named(context, "check");
  if (judged) insist_alone(arguments);

  service::WeekAsk ask;
  if (auto kept = plan_named(context, "keep")) {
    ask.keep = insist_whole(std::move(*kept), *arguments.value("keep"), asking.fleet());
  }
  ask.from = from_of(asking, judged ? &judged->plan : nullptr);
  if (ask.from < asking.today()) {
    wrong("from-is-over",
          fmt::format("the week would begin on {}, before the day asked about, {}", service::to_text(ask.from),
                      service::to_text(asking.today())),
          "begin it today or later with --from DAY, or ask as of an earlier day with --as-of DAY");
  }
  if (ask.keep) insist_known(*ask.keep, *arguments.value("keep"), asking.fleet(), ask.from);
  ask.days = days_of(arguments, ask.from, judged ? &judged->plan : nullptr, ask.keep ? &*ask.keep : nullptr);
  for (const std::string& crew : arguments.values("without")) ask.without.push_back(crew_told(asking.fleet(), crew));
  ask.join_days = join_days_of(arguments, asking.fleet(), ask);

  const service::Day horizon = week_horizon(asking.fleet(), ask);
  auto due = std::make_shared<const service::DueList>(
      due_list(asking.snapshot(), {horizon, {}, service::Detail::coming}, asking.forecaster()));
  service::Week week = week_of_work(asking.snapshot(), std::move(due), ask);
  if (judged) return judge(context, week, std::move(*judged));

  RoundsAnswer answer{rounds_list(plan_in_time(context, std::move(week)), site)};
  hold_against_stock(answer.list,
                     parts_list(asking.snapshot(), std::max(horizon, answer.list.week().to), asking.forecaster()));
  const bool to_do = needs_doing(answer.list);
  if (first) keep_first(answer.list, *first);
  const std::string format = arguments.value("format").value_or("text");
  // What was handed out today counts for the plan too, so that a calendar of the plan that keeps it is above that.
  if (format == "json") {
    answer.sequence = sequence_of(asking.numbered_for_looking(rounds_calendar(answer.list, asking.version())));
  }
  if (format == "ics") answer.calendar = asking.numbered(rounds_calendar(answer.list, asking.version()));
  if (format == "ics" && !answer.list.plan.changes.empty()) say_what_to_keep(context);
  asking.write(rounds_formats, answer, answer.list.left_off);
  return arguments.has("exit-code") && to_do ? 1 : 0;
}

}  // namespace cli
