#include <fmt/format.h>

#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"
#include "render/why/why.h"
#include "render/why/words.h"
#include "service/cautions.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

void add(std::string& text, std::string_view head, const std::vector<std::string>& lines, std::size_t columns) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    text += wrapped(fmt::format("  {:<7} ", i == 0 ? head : ""), lines[i], columns, 10);
  }
}

// What was seen of the machine, whatever it is asked about.
std::vector<std::string> seen_of(const service::Explanations& why) {
  std::vector<std::string> lines;
  for (const service::SeenSign& seen : why.seen) {
    lines.push_back(fmt::format("{} [{}]; {}", words_of(seen), short_text(seen.fact),
                                seen.looked_on ? "nobody has found it good since" : "nobody has looked at it yet"));
  }
  return lines;
}

}  // namespace

std::string why_as_text(const service::Explanations& why, const Look& look) {
  const auto columns = static_cast<std::size_t>(look.columns == 0 ? 80 : look.columns);
  std::string text;
  for (const service::Explanation& each : why.points) {
    const Explained explained = in_words(each, *why.fleet, why.as_of);
    const service::Point& point = each.point;
    const std::string& doing = point.follow_up != nullptr ? point.follow_up->doing : point.task->doing;
    const bool is_first = text.empty();  // all are of one machine
    if (!is_first) text += '\n';
    text += fmt::format("{} {}, on {}: {}\n", service::cleaned(point.machine->key), task_of(point), to_text(why.as_of),
                        service::cleaned(doing));
    std::vector<std::string> machine;
    for (const service::MachineUse& use : why.not_in_use) machine.push_back(words_of(use.state));
    if (is_first && !point.machine->notes.empty())
      machine.push_back("notes: " + service::cleaned(point.machine->notes));
    add(text, "machine", machine, columns);
    add(text, "rule", {explained.rule}, columns);
    add(text, "facts", explained.facts, columns);
    add(text, "sums", explained.sums, columns);
    add(text, "ahead", explained.ahead, columns);
    add(text, "so", {explained.ruling}, columns);
    std::vector<std::string> notes = remarks_of(point);
    std::erase(notes, sooner_words(point));  // said of the days ahead
    add(text, "note", notes, columns);
    if (const service::RunBan* const ban = why.not_to_run.ban_of(*point.machine)) {
      add(text, "run", {why_not_to_run(*ban)}, columns);
    }
    std::vector<std::string> cautions;
    for (const std::string& written : point.task->all_cautions) {
      cautions.push_back(service::cleaned(service::caution_sentence(written)));
    }
    add(text, "mind", cautions, columns);
    add(text, "seen", seen_of(why), columns);
    std::vector<std::string> doubts;
    std::vector<std::string> gaps;
    for (const service::Gap& gap : why.gaps) {
      (gap.kind == service::GapKind::doubtful ? doubts : gaps).push_back(service::cleaned(gap.say));
    }
    add(text, "doubt", doubts, columns);
    add(text, "unknown", gaps, columns);
    if (!each.source.empty()) add(text, "source", {service::cleaned(each.source)}, columns);
  }
  if (why.left_off > 0) {
    text += '\n' + wrapped("",
                           fmt::format("The worst of it; and {} more: {} due {} --all", why.left_off, look.command,
                                       service::cleaned(why.points.front().point.machine->key)),
                           columns, 0);
  }
  return text;
}

}  // namespace cli
