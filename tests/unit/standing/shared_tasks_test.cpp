// Tasks that machines share are those that each would have by itself.
#include "standing/shared_tasks.h"

#include <doctest/doctest.h>

#include <set>
#include <string>

#include "support/world.h"

namespace {

// Which meter each limb counts, and how far apart.
std::string told(const std::vector<service::MachineTask>& tasks) {
  std::string text;
  for (const service::MachineTask& task : tasks) {
    text += task.task->name;
    for (const service::LimbChoice& choice : task.every) {
      for (const auto& limb : choice.candidates) {
        const auto* usage = std::get_if<service::UsageLimb>(&limb);
        if (usage != nullptr) text += ' ' + usage->meter.value_or("none") + ' ' + to_text(usage->every);
      }
    }
    text += '\n';
  }
  return text;
}

// Machines one after the other: each third has changes of its own, each fifth is dusty, and meters have so many names.
test::World machines(int number, int meters) {
  service::FleetFiles files;
  std::string fleet = "fleet: Test\nmachines:\n";
  for (int i = 0; i < number; ++i) {
    fleet +=
        "  m" + std::to_string(i) + ": {schedule: kind, meters: {hours" + std::to_string(i % meters) + ": {unit: h}}";
    if (i % 3 == 0) fleet += ", change: {oil: {every: {hours: " + std::to_string(50 + i) + "}}}";
    if (i % 5 == 0) fleet += ", conditions: [dusty]";
    fleet += "}\n";
  }
  files.texts["fleet.yaml"] = fleet;
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  oil: {do: Oil, every: {hours: 250, months: 12}, in: {dusty: {hours: 125}}}\n"
      "  filter: {do: Filter, every: {hours: 500}}\n";
  return test::World(files);
}

}  // namespace

TEST_CASE("machines share tasks only where these hold for both, however many sorts there are") {
  for (const int meters : {1, 7, 40}) {
    CAPTURE(meters);
    const test::World world = machines(90, meters);
    service::SharedTasks shared(world.fleet());
    std::set<const void*> different;
    for (const service::Machine& machine : world.fleet().machines) {
      CAPTURE(machine.key);
      const auto tasks = shared.of(machine);
      CHECK(told(*tasks) == told(tasks_of(world.fleet(), machine)));
      if (machine.change.empty()) different.insert(tasks.get());
    }
    if (meters < 8) CHECK(different.size() == static_cast<std::size_t>(2 * meters));  // dusty or not
  }
}
