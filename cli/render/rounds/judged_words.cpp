// A plan that was judged.
#include <fmt/format.h>

#include <algorithm>

#include "render/parts/words.h"
#include "render/rounds/words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::cleaned;
using service::counted;

}  // namespace

std::string value_words(const service::Week& week, const service::PlanValue& value) {
  const std::string cost = fmt::format("It costs {}", money_words(value.total, *week.fleet));
  if (value.safety_put_off == 0) return cost + ", and no work for safety is left out.";
  return fmt::format("{}, and leaves out {} for safety.", cost, counted(value.safety_put_off, "visit", "visits"));
}

std::string not_judged_words(const std::vector<std::string>& fields) {
  if (fields.empty()) return "";
  constexpr std::size_t most = 4;
  std::vector<std::string> names;
  for (const std::string& field : fields) names.push_back(cleaned(field));
  const auto count = static_cast<std::int64_t>(names.size());
  if (names.size() > most) {
    names.resize(most - 1);
    names.push_back(fmt::format("{} more, which --format json names", fields.size() - names.size()));
  }
  return fmt::format("Not judged {} that no rule goes by: {}.",
                     count == 1 ? "is 1 field" : fmt::format("are {} fields", count), listed(names, "and"));
}

std::string safety_left_out_words(const service::PlanJudgement& judged) {
  if (judged.safety_left_out.empty()) return "";
  std::vector<std::string> names;
  for (const std::string& name : judged.safety_left_out) names.push_back(cleaned(name));
  return fmt::format("For safety, left out, and possible this week: {}.", listed(names, "and"));
}

std::string fault_words(const service::PlanFault& fault) {
  std::string text = std::string(to_text(fault.rule)) + ": ";
  if (!fault.where.empty()) text += cleaned(fault.where) + ": ";
  text += cleaned(fault.says);
  const auto behind = static_cast<std::int64_t>(fault.follow_on.size());
  if (behind == 0) return text;
  return text + fmt::format(" ({} from this)", behind == 1 ? "1 more follows" : fmt::format("{} more follow", behind));
}

std::string follow_on_words(const service::PlanJudgement& judged) {
  const bool any = std::any_of(judged.faults.begin(), judged.faults.end(),
                               [](const service::PlanFault& fault) { return !fault.follow_on.empty(); });
  return any ? "What is wrong only because of such a fault is counted with it; --format json names it." : "";
}

}  // namespace cli
