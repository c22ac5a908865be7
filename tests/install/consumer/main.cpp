// A fleet made by a program, asked what is due; and a mistake, caught by its type.
#include <cstdio>
#include <memory>
#include <vector>

#include "service/due_list.h"
#include "service/fleet.h"
#include "service/snapshot.h"

namespace {

service::Fleet one_pump() {
  service::Fleet fleet;
  service::Task oil;
  oil.name = "oil";
  oil.doing = "Change the oil";
  oil.every = {service::CalendarLimb{{service::CalendarUnit::months, 12}}};
  fleet.schedules = {{"pump", {{"engine", "h", std::nullopt}}, {oil}}};
  service::Machine pump;
  pump.key = "pump-1";
  pump.schedule = "pump";
  pump.start = {service::StartKind::in_service, service::day_of(2025, 5, 1), std::nullopt};
  fleet.machines = {pump};
  return fleet;
}

}  // namespace

int main() {
  const auto fleet = std::make_shared<const service::Fleet>(service::checked(one_pump()));
  const service::Day today = service::day_of(2026, 5, 1);
  const auto list = service::due_list(service::Snapshot(fleet, {}, today, true), today);
  for (const service::Point& point : list.points) {
    std::printf("%s %s: due on %s\n", point.machine->key.c_str(), point.name.c_str(),
                point.due_on ? service::to_text(*point.due_on).c_str() : "?");
  }
  service::Fleet wrong = one_pump();
  wrong.machines[0].site = "yrad";
  try {
    service::checked(wrong);
  } catch (const service::Failure& failure) {
    std::printf("refused: %s\n", failure.diagnostics().front().message.c_str());
  }
}
