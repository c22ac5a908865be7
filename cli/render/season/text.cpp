#include <fmt/format.h>

#include "render/overdue/words.h"
#include "render/season/cautions.h"
#include "render/season/lines.h"
#include "render/season/rows.h"
#include "render/season/season.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/point_rows.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::SeasonPlan;

std::string season_of(const SeasonPlan& plan) { return service::cleaned(plan.season->key); }

// The likeliest first, with odds; those under 1 % together.
std::string rest_block(const SeasonPlan& plan, const Look& look) {
  std::string text;
  for (const RestLines& block : rest_lines(plan)) {
    if (!block.heading.empty()) text += fmt::format("  {}:\n", block.heading);
    text += said_rows(block.lines, look);
  }
  for (const std::string& line : rest_remarks(plan)) text += wrapped("  ", line, columns_of(look), 2);
  return text;
}

std::vector<std::string> named(const std::vector<service::OtherMachine>& others) {
  std::vector<std::string> keys;
  for (const service::OtherMachine& other : others) keys.push_back(service::cleaned(other.machine->key));
  return keys;
}

// All of them in one line that is folded.
std::string others_line(const SeasonPlan& plan, const Look& look) {
  std::vector<std::string> machines;
  for (const auto& other : plan.others) machines.push_back(other_words(other));
  return wrapped("   ", fmt::format("{}", fmt::join(machines, "; ")), columns_of(look), 3);
}

std::string laid_up(const SeasonPlan& plan, const Look& look) {
  const SaidLines lines = laid_up_lines(plan);
  return lines.empty() ? "" : '\n' + heading(look, "Laid up") + said_rows(lines, look);
}

}  // namespace

std::string season_as_text(const SeasonPlan& plan, const Look& look) {
  const std::string season = season_of(plan);
  std::string text =
      heading(look, fmt::format("{}, {}: {} {}, {} to {}", whose_list(*plan.fleet, plan.scope), to_text(plan.as_of),
                                plan.under_way() ? "in" : "before", season, to_text(plan.from), to_text(plan.to)));
  const std::string stopped = stopped_first(plan.not_to_run.bans(), look);
  text += stopped;
  text += (stopped.empty() ? "" : "\n") + wrapped("", season_in_a_line(plan, look.command), columns_of(look), 0);
  text += '\n' + in_a_line(look) + laid_up(plan, look);
  if (!plan.seen.empty()) {
    SaidLines lines;
    for (const service::SeenSign& seen : plan.seen) lines.push_back(line_of(seen));
    text += '\n' + heading(look, title_of(service::OverdueHeading::seen)) + said_rows(lines, look);
  }
  if (!plan.beforehand.empty()) {
    text += '\n' +
            heading(look, plan.under_way() ? "Do now, or by the day in front" : fmt::format("Do before {}", season)) +
            season_rows(plan.beforehand, plan.not_to_run, "do by", look, true);
  }
  if (!plan.have_ready.empty()) {
    text += '\n' + heading(look, fmt::format("Have ready: comes due in {} all the same", season)) +
            season_rows(plan.have_ready, plan.not_to_run, "have by", look);
  }
  if (!plan.put_off.empty()) {
    text += '\n' + heading(look, fmt::format("Put off beyond {}: in no sums and orders", season)) +
            season_rows(plan.put_off, plan.not_to_run, "until", look);
  }
  if (!plan.beforehand.empty() || !plan.have_ready.empty() || !plan.put_off.empty()) {
    text += '\n' + wrapped("", season_legend(plan, look.command), static_cast<std::size_t>(look.columns), 0);
  }
  if (const SaidLines lines = look_again_lines(plan); !lines.empty()) {
    text += '\n' + heading(look, "Look again") + said_rows(lines, look);
  }
  if (!plan.find_out.empty() || !plan.gaps.empty()) {
    text += '\n' + heading(look, "Not known until somebody reads the meter or finds out") +
            said_rows(find_out_lines(plan, look), look);
  }
  if (!plan.not_before_end.empty()) {
    text += '\n' +
            heading(look, fmt::format("Less than {:.0f} % odds of coming due before {} ends",
                                      plan.threshold.value * 100, season)) +
            rest_block(plan, look);
  }
  if (!plan.others.empty()) {
    text += '\n' +
            heading(look, fmt::format("Not at work in {}; what is due on them: {} due {}", season, look.command,
                                      fmt::join(named(plan.others), " "))) +
            others_line(plan, look);
  }
  if (plan.left_off > 0) text += fmt::format("\nAnd {} more, left off by --first.\n", plan.left_off);
  return text + '\n' + all_steps(look) + season_cautions(plan, look);
}

}  // namespace cli
