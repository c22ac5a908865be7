#include <fmt/format.h>

#include "render/shared/words.h"
#include "render/why/why.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

constexpr std::size_t columns = 80;

void add(std::string& text, std::string_view head, const std::vector<std::string>& lines) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    text += wrapped(fmt::format("  {:<7} ", i == 0 ? head : ""), lines[i], columns, 10);
  }
}

}  // namespace

std::string why_as_text(const WhyAnswer& why) {
  const service::DueList& list = why.list;
  std::string text;
  for (const Explained& explained : why.points) {
    const service::Point& point = *explained.point;
    const std::string& doing = point.follow_up != nullptr ? point.follow_up->doing : point.task->doing;
    if (!text.empty()) text += '\n';
    text += fmt::format("{} {}, on {}: {}\n", service::cleaned(point.machine->key), task_of(point), to_text(list.as_of),
                        service::cleaned(doing));
    if (const auto* state = list.state_of(*point.machine)) add(text, "machine", {words_of(*state)});
    add(text, "rule", {explained.rule});
    add(text, "facts", explained.facts);
    add(text, "sums", explained.sums);
    add(text, "ahead", explained.ahead);
    add(text, "so", {explained.ruling});
    add(text, "note", remarks_of(point));
    std::vector<std::string> gaps;
    for (const service::Gap& gap : list.gaps) gaps.push_back(service::cleaned(gap.say));
    add(text, "unknown", gaps);
    if (!point.task->notes.empty()) add(text, "source", {service::cleaned(point.task->notes)});
  }
  return text;
}

}  // namespace cli
