#include <fmt/format.h>

#include "render/shared/words.h"
#include "render/why/why.h"
#include "render/why/words.h"
#include "service/cautions.h"
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

std::string why_as_text(const service::Explanations& why) {
  std::string text;
  for (const service::Explanation& each : why.points) {
    const Explained explained = in_words(each, *why.fleet, why.as_of);
    const service::Point& point = each.point;
    const std::string& doing = point.follow_up != nullptr ? point.follow_up->doing : point.task->doing;
    if (!text.empty()) text += '\n';
    text += fmt::format("{} {}, on {}: {}\n", service::cleaned(point.machine->key), task_of(point), to_text(why.as_of),
                        service::cleaned(doing));
    for (const service::MachineUse& use : why.not_in_use) add(text, "machine", {words_of(use.state)});
    add(text, "rule", {explained.rule});
    add(text, "facts", explained.facts);
    add(text, "sums", explained.sums);
    add(text, "ahead", explained.ahead);
    add(text, "so", {explained.ruling});
    std::vector<std::string> notes = remarks_of(point);
    std::erase(notes, sooner_words(point));  // said of the days ahead
    add(text, "note", notes);
    std::vector<std::string> cautions;
    for (const std::string& written : point.task->all_cautions) {
      cautions.push_back(service::cleaned(service::caution_sentence(written)));
    }
    add(text, "mind", cautions);
    std::vector<std::string> gaps;
    for (const service::Gap& gap : why.gaps) gaps.push_back(service::cleaned(gap.say));
    add(text, "unknown", gaps);
    if (!each.source.empty()) add(text, "source", {service::cleaned(each.source)});
  }
  if (why.left_off > 0) {
    text += '\n' + wrapped("",
                           fmt::format("The worst of it; and {} more: whichever due {} --all", why.left_off,
                                       service::cleaned(why.points.front().point.machine->key)),
                           columns, 0);
  }
  return text;
}

}  // namespace cli
