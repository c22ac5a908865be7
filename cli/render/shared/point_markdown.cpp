#include "render/shared/point_markdown.h"

#include <fmt/format.h>

#include "render/shared/markdown.h"
#include "render/shared/point_rows.h"
#include "render/shared/resources_words.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::Standing;

std::string row(const std::vector<std::string>& cells) {
  std::string text = "|";
  for (const std::string& cell : cells) text += cell.empty() ? "  |" : ' ' + markdown_cell(cell) + " |";
  return text + '\n';
}

std::string words(const std::vector<std::string>& parts) { return fmt::format("{}", fmt::join(parts, "; ")); }

}  // namespace

std::string markdown_points(const std::vector<const service::Point*>& points,
                            const std::vector<service::NoRecord>& no_record, const service::DueList& list,
                            const std::string& command) {
  if (points.empty() && no_record.empty()) return "";
  std::string text =
      "| standing | machine | site | task | by | day | remarks |\n| --- | --- | --- | --- | --- | --- | --- |\n";
  const MachineStates states(list);
  const auto remarks = [&](const service::Machine& machine, const service::Point* point,
                           std::vector<std::string> others) {
    std::string state = states.in_row(machine, point);
    if (!state.empty()) others.insert(others.begin(), std::move(state));
    return words(others);
  };
  std::string lines;
  for (const service::NoRecord& line : no_record) {
    lines += row({words_of(Standing::no_record), line.machine->key, site_words(*list.fleet, *line.machine), "", "", "",
                  remarks(*line.machine, nullptr, {no_record_words(line, command)})});
  }
  for (const service::Point* point : points) {
    if (point->standing == Standing::coming || point->standing == Standing::later) text += std::exchange(lines, "");
    text += row({words_of(point->standing), point->machine->key, site_words(*list.fleet, *point->machine),
                 task_of(*point), words(limb_words(*point)), when(*point, list.as_of),
                 remarks(*point->machine, point, list_remarks(*point))});
  }
  return text + lines;
}

std::string markdown_gaps(const std::vector<const service::Gap*>& gaps) {
  std::string text;
  for (const service::GapLine& line : gap_lines(gaps)) {
    text += fmt::format("- **{}**: {}\n", markdown_cell(whose(line)), markdown_cell(line.gap->say));
  }
  return text;
}

std::string markdown_machine(const service::MachineUse& use) {
  return fmt::format("- **{}**: {}\n", markdown_cell(use.machine->key), markdown_cell(words_of(use.state)));
}

std::string markdown_seen(const service::SeenSign& seen) {
  return fmt::format("- **{}**: {}\n", markdown_cell(seen.machine->key), markdown_cell(words_of(seen)));
}

}  // namespace cli
