// The schedules that come with the command: the sample's, and the one that `new` writes. People copy them, so what they
// say of safe work is held by rules.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "commands/starter.h"
#include "service/cautions.h"
#include "service/fleet.h"

namespace cli_test {

inline service::Fleet sample_fleet() {
  return service::read_fleet(service::load_fleet_files(std::filesystem::path(SOURCE_DIR) / "sample-fleet"));
}

inline service::Fleet starter_fleet() {
  std::string fleet(cli::starter_fleet);
  fleet.replace(fleet.find("DAY"), 3, "2026-03-01");
  return service::read_fleet(
      {{}, {{"fleet.yaml", fleet}, {"schedules/example.yaml", std::string(cli::starter_schedule)}}});
}

inline std::string lower(std::string_view text) {
  std::string low(text);
  std::ranges::transform(low, low.begin(),
                         [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return low;
}

// Whole words, a plural's s aside: `jack` is in "not on the jack" and "on jacks", not in "life jackets".
inline std::size_t place_of(std::string_view words, std::string_view text, std::size_t from = 0) {
  const auto inside = [&](std::size_t at) {
    return at < text.size() && std::isalpha(static_cast<unsigned char>(text[at])) != 0;
  };
  for (std::size_t at = text.find(words, from); at != std::string_view::npos; at = text.find(words, at + 1)) {
    std::size_t end = at + words.size();
    if (end < text.size() && text[end] == 's') ++end;
    if ((at == 0 || !inside(at - 1)) && !inside(end)) return at;
  }
  return std::string_view::npos;
}

inline bool says(std::string_view text, std::string_view words) {
  return place_of(words, text) != std::string_view::npos;
}

// A task as somebody at the machine reads it, in small letters.
struct ShippedTask {
  const service::Schedule* schedule = nullptr;
  const service::Task* task = nullptr;
  std::string name;
  std::string doing;
  std::vector<std::string> steps;
  std::vector<std::string> checks;  // that follow it
  std::string tools;
  std::vector<std::string> cautions;  // those of what it covers too

  std::string all_steps() const {
    std::string text;
    for (const std::string& step : steps) text += step + '\n';
    return text;
  }
  std::string text() const {
    std::string text = all_steps();
    for (const std::string& check : checks) text += check + '\n';
    return text;
  }
  bool warns_of(std::string_view caution) const { return std::ranges::find(cautions, caution) != cautions.end(); }
};

inline std::vector<ShippedTask> tasks_of(const service::Fleet& fleet) {
  std::vector<ShippedTask> tasks;
  for (const service::Schedule& schedule : fleet.schedules) {
    for (const service::Task& task : schedule.tasks) {
      ShippedTask one{&schedule,        &task, schedule.name + ' ' + task.name, lower(task.doing), {}, {}, {},
                      task.all_cautions};
      for (const std::string& step : task.steps) one.steps.push_back(lower(step));
      for (const service::FollowUp& check : task.follow_ups) one.checks.push_back(lower(check.doing));
      for (const std::string& tool : task.tools) one.tools += lower(tool) + '\n';
      tasks.push_back(std::move(one));
    }
  }
  return tasks;
}

// Asks `rule` (task, add) of each task of the sample and of the starter; what it adds is what is wrong.
template <typename Rule>
std::string wrong_in_shipped(const Rule& rule) {
  std::string wrong;
  for (const service::Fleet& fleet : {sample_fleet(), starter_fleet()}) {
    for (const ShippedTask& task : tasks_of(fleet)) {
      rule(task, [&](std::string_view what) { (wrong += task.name + ": ").append(what) += '\n'; });
    }
  }
  return wrong;
}

}  // namespace cli_test
