// How the work of a job sheet is typed in.
#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "render/shared/sign_words.h"
#include "render/sheet/wait_words.h"
#include "render/sheet/words.h"
#include "service/run_ban.h"

namespace cli {
namespace {

using service::cleaned;
using service::MachineSheet;
using service::Point;
using service::SheetTask;

constexpr std::string_view new_in_say =
    "Done (leave out what was not; how the old part was: a line of its own with --found good, worn or failed):";
constexpr std::string_view only_looked_say =
    "Only looked over or checked, and good (found worn or failed: a line of its own with --found worn or "
    "--found failed):";
constexpr std::string_view mended_say = "Mended, tried, and good now (not yet: leave it out, and nobody runs it):";
constexpr std::string_view renewed_say =
    "Renewed or put right, tried, and good now, and what it measures now (not yet: leave the first line out{}):";
constexpr std::string_view put_right_say =
    "Renewed or put right, tried, and good now (not yet: leave it out, and nobody runs it):";
constexpr std::string_view alone_say =
    "Where not all of that is done, but this alone, which is for safety and overdue:";
constexpr std::string_view looked_say = "What was seen, and is good now (else add --found worn or --found failed):";
constexpr std::string_view back_when_safe_say =
    "When it is safe again, and only then, with the name of whoever says so; until then nobody runs it:";
constexpr std::string_view back_say = "When it goes back to work:";
constexpr std::string_view measured_say =
    "Measured, where the part was not renewed; after the lines above, for a service ends what was measured before it:";

std::string say_of(const service::SheetEntry& entry) {
  std::string text(entry.mends         ? mended_say
                   : entry.lifts_ban   ? put_right_say
                   : entry.puts_in_new ? new_in_say
                                       : only_looked_say);
  if (entry.past_limit) {
    const bool stands = std::any_of(entry.measures.begin(), entry.measures.end(),
                                    [](const auto& measure) { return service::forbids_running(*measure.point); });
    text = fmt::format(renewed_say, stands ? ", and nobody runs it" : "");
  }
  return entry.wait ? fmt::format("Put off, so not before {}. {}", end_words(*entry.wait), text) : text;
}

// `whichever done combine engine-oil --at VALUE --by WHO --on DAY`.
std::string entry_command(const MachineSheet& sheet, const service::SheetEntry& entry, const std::string& command) {
  std::vector<std::string> names;
  for (const Point* point : entry.points) names.push_back(task_of(*point));
  const service::Meter* first = sheet.machine->first_meter();
  std::string value = entry.meter == nullptr ? "" : " --at VALUE";
  if (entry.meter != nullptr && entry.meter != first) value += " --meter " + quoted(cleaned(entry.meter->name));
  return fmt::format("{} done {} {}{} --by {} --on DAY", command, cleaned(sheet.machine->key), joined(names, " "),
                     value, entry.competent_person ? "\"WHO IS QUALIFIED\"" : "WHO");
}

std::string measure_command(const service::SheetMeasure& measure, const std::string& command) {
  const std::string& position = measure.point->position;
  return fmt::format("{} saw {} {}=____{} --on DAY", command, cleaned(measure.point->machine->key),
                     cleaned(measure.limb->name), position.empty() ? "" : " --position " + quoted(cleaned(position)));
}

}  // namespace

std::vector<TypedLines> typed_lines(const MachineSheet& sheet, const std::string& command) {
  std::vector<TypedLines> typed;
  const auto say = [&](std::string_view text, std::string line) {
    if (typed.empty() || typed.back().say != text) typed.push_back({std::string(text), {}});
    typed.back().commands.push_back(std::move(line));
  };
  std::vector<const service::SheetEntry*> entries;
  for (const service::SheetEntry& entry : sheet.entries) entries.push_back(&entry);
  std::stable_sort(entries.begin(), entries.end(), [](const service::SheetEntry* a, const service::SheetEntry* b) {
    const auto rank = [](const service::SheetEntry* entry) {
      const auto from = entry->wait ? std::optional(entry->wait->from) : std::nullopt;
      return std::tuple{from, !entry->past_limit, !entry->mends, !entry->lifts_ban, !entry->puts_in_new};
    };
    return rank(a) < rank(b);
  });
  for (const service::SheetEntry* entry : entries) {
    const std::string text = say_of(*entry);
    say(text, entry_command(sheet, *entry, command));
    for (const service::SheetMeasure& measure : entry->measures) say(text, measure_command(measure, command));
  }
  for (const service::SheetEntry& entry : sheet.alone) {
    say(alone_say, entry_command(sheet, entry, command));
    for (const service::SheetMeasure& measure : entry.measures) say(alone_say, measure_command(measure, command));
  }
  for (const service::SeenSign* seen : sheet.to_look_at) say(looked_say, command_to_look(*seen, command));
  std::vector<std::string> said;
  const auto measured = [&](const service::SheetMeasure& measure) {
    std::string line = measure_command(measure, command);
    if (std::find(said.begin(), said.end(), line) != said.end()) return;
    said.push_back(line);
    say(measured_say, std::move(line));
  };
  for (const SheetTask& task : sheet.tasks) std::for_each(task.measures.begin(), task.measures.end(), measured);
  for (const service::SheetLook& look : sheet.measure_again) {
    std::for_each(look.measures.begin(), look.measures.end(), measured);
  }
  const std::string back = fmt::format("{} back {}", command, cleaned(sheet.machine->key));
  if (sheet.out_of_use()) say(back_when_safe_say, back + " --note \"SAFE, SAYS WHO\" --on DAY");
  if (sheet.laid_up()) say(back_say, back + " --on DAY");
  return typed;
}

}  // namespace cli
