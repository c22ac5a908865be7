#include "render/shared/resources_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/shared/words.h"

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

std::string people_words(const service::Point& point) {
  const int people = resources_of(*point.machine, *point.task, point.follow_up).people;
  if (people < 2) return "";
  return people == 2 ? "two people" : fmt::format("{} people", people);
}

std::vector<std::string> list_remarks(const service::Point& point) {
  std::vector<std::string> remarks = remarks_of(point);
  if (std::string people = people_words(point); !people.empty()) remarks.push_back(std::move(people));
  return remarks;
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

std::string order_words(std::optional<service::Day> order_by, int late_days, service::Day as_of) {
  if (!order_by) return "";
  if (late_days > 0) return fmt::format("today, late by {}", service::counted(late_days, "day", "days"));
  return *order_by == as_of ? "today" : to_text(*order_by);
}

namespace {

// `3 L not in stock`, `1 short: 1 in stock, kept for loader (2026-05-04)`; of a plan that keeps another one `in stock
// after what was done before`.
std::string missing_words(const service::PartLack& lack) {
  const std::string missing = quantity(lack.short_by, lack.unit);
  const char* const after = lack.taken_before > service::PartAmount{} ? " after what was done before" : "";
  if (!lack.is_kept()) return fmt::format("{} not in stock{}", missing, after);
  std::vector<std::string> for_whom;
  for (const service::KeptFor& kept : lack.kept_for) {
    for_whom.push_back(fmt::format("{} ({})", cleaned(kept.machine), to_text(kept.on)));
  }
  return fmt::format("{} short: {} in stock{}, kept for {}", missing, quantity(lack.in_stock, lack.unit), after,
                     for_whom.empty() ? "other work" : listed(for_whom, "and"));
}

}  // namespace

std::string lack_words(const service::PartLack& lack, service::Day as_of) {
  if (!lack.counted) return not_counted;
  const std::string order = order_words(lack.order_by, lack.late_days, as_of);
  const std::string by = order.starts_with("today") ? "order " : "order by ";
  const std::string text = missing_words(lack) + (lack.is_kept() ? "; " : ", ");
  if (lack.not_listed) return text + "and not in `parts`, for the machine is laid up or out of use";
  if (lack.comes_late()) return fmt::format("{}not there before {}: {}{}", text, to_text(*lack.there), by, order);
  return fmt::format("{}{}{}{}", text, by, order, lack.there ? "" : "; nobody knows how long it takes to come");
}

std::string odds_words(service::Probability odds) {
  if (odds.value >= 0.995) return "over 99 %";
  if (odds.value < 0.01) return "under 1 %";
  return fmt::format("{:.0f} %", odds.value * 100);
}

std::string stands_words(const service::UseState& state) {
  return state.until ? fmt::format("stands until {}; counted from then on", to_text(*state.until))
                     : "stands, and nobody said until when";
}

std::vector<std::string> left_out_lines(const std::vector<service::PointName>& unknown,
                                        const std::vector<service::MachineUse>& not_in_use,
                                        const std::string& command) {
  std::vector<std::string> lines;
  std::vector<const service::Machine*> told;
  for (const service::PointName& first : unknown) {  // machine by machine
    if (std::find(told.begin(), told.end(), first.machine) != told.end()) continue;
    told.push_back(first.machine);
    const std::string machine = cleaned(first.machine->key);
    const auto count = std::count_if(unknown.begin(), unknown.end(),
                                     [&](const auto& point) { return point.machine == first.machine; });
    std::vector<std::string> safety;
    bool competent = false;
    for (const service::PointName& point : unknown) {
      if (point.machine != first.machine || !(point.safety || point.competent_person)) continue;
      safety.push_back(task_of(point));
      competent = competent || point.competent_person;
    }
    const std::string marked =
        safety.empty() ? "" : fmt::format(", {}: {}", never_wait_words(competent), fmt::join(safety, ", "));
    lines.push_back(fmt::format("{}: not known when {} {} due{}: {} find-out {}", machine,
                                count == 1 ? task_of(first) : service::counted(count, "task", "tasks"),
                                count == 1 ? "comes" : "come", marked, command, machine));
  }
  for (const service::MachineUse& use : not_in_use) {
    lines.push_back(fmt::format("{}: {}", cleaned(use.machine->key), stands_words(use.state)));
  }
  return lines;
}

std::string left_out(const std::vector<service::PointName>& unknown, const std::vector<service::MachineUse>& not_in_use,
                     const std::string& command) {
  std::string text;
  for (const std::string& line : left_out_lines(unknown, not_in_use, command)) text += "  " + line + '\n';
  return text.empty() ? "" : "\nNot in it\n" + text;
}

}  // namespace cli
