#include "render/shared/resources_words.h"

#include <fmt/format.h>

namespace cli {

using service::cleaned;
using service::to_text;

std::string hours_words(double hours) {
  if (hours > 0 && hours < 0.95) return fmt::format("{:.0f} min", hours * 60);
  return fmt::format("{:.1f} h", hours);
}

std::string quantity(service::PartAmount amount, const std::string& unit) {
  const std::string number = to_text(amount);
  return unit.empty() || unit == "piece" || unit == "pieces" ? number : number + ' ' + cleaned(unit);
}

std::string time_words(const service::Resources& resources) {
  if (!resources.time) return "time not said";
  const auto minutes = resources.time->count();
  std::string text;
  if (minutes >= 60) text = fmt::format("{} h", minutes / 60);
  if (minutes % 60 > 0 || minutes == 0) text += fmt::format("{}{} min", text.empty() ? "" : " ", minutes % 60);
  if (resources.people > 1) text += fmt::format(" x {} people", resources.people);
  return text;
}

std::vector<std::string> part_words(const service::Resources& resources) {
  std::vector<std::string> words;
  for (const auto& [key, pieces] : resources.parts) {
    words.push_back(pieces == service::PartAmount::units(1) ? cleaned(key)
                                                            : fmt::format("{} {}", to_text(pieces), cleaned(key)));
  }
  return words;
}

std::vector<std::string> fluid_words(const service::Resources& resources) {
  std::vector<std::string> words;
  for (const auto& [key, amount] : resources.fluids) {
    words.push_back(fmt::format("{} {}", quantity(amount.amount, amount.unit), cleaned(key)));
  }
  return words;
}

std::string parts_words(const service::Resources& resources) {
  std::vector<std::string> words = part_words(resources);
  for (std::string& fluid : fluid_words(resources)) words.push_back(std::move(fluid));
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string odds_words(double odds) {
  if (odds >= 0.995) return "over 99 %";
  if (odds < 0.01) return "under 1 %";
  return fmt::format("{:.0f} %", odds * 100);
}

std::string left_out(const std::vector<std::pair<const service::Machine*, std::string>>& unknown,
                     const std::vector<const service::Machine*>& standing) {
  std::string text;
  std::vector<std::pair<std::string, std::vector<std::string>>> by_machine;
  for (const auto& [machine, point] : unknown) {
    if (by_machine.empty() || by_machine.back().first != machine->key) by_machine.push_back({machine->key, {}});
    by_machine.back().second.push_back(cleaned(point));
  }
  for (const auto& [machine, points] : by_machine) {
    text +=
        fmt::format("  {}: not known when {} {} due: whichever find-out {}\n", cleaned(machine),
                    points.size() == 1 ? points.front()
                                       : service::counted(static_cast<std::int64_t>(points.size()), "task", "tasks"),
                    points.size() == 1 ? "comes" : "come", cleaned(machine));
  }
  for (const service::Machine* machine : standing) {
    text += fmt::format("  {}: stands, and nobody said until when\n", cleaned(machine->key));
  }
  return text.empty() ? "" : "\nNot in it\n" + text;
}

}  // namespace cli
