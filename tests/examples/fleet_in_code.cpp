// A fleet without files: filled in by a program, checked by the rules by which files are, and asked what is due from
// facts that the program holds in memory.
//
// usage: fleet_in_code
#include <cstdio>
#include <exception>
#include <memory>
#include <utility>
#include <vector>

#include "service/due_list.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"
#include "service/standing.h"

namespace {

using service::Amount;
using service::CalendarUnit;
using service::Day;
using service::day_of;
using service::to_text;

// Two hoists of one kind: their hook every 12 months, their rope every 100 hours or 24 months, whichever comes first.
service::Fleet two_hoists() {
  service::Task hook;
  hook.name = "hook";
  hook.doing = "Look over the hook and its catch";
  hook.every = {service::CalendarLimb{{CalendarUnit::months, 12}}};
  hook.safety = true;  // never put off, and no grace

  service::Task rope;
  rope.name = "rope";
  rope.doing = "Change the rope";
  rope.every = {service::UsageLimb{std::nullopt, Amount::units(100)},
                service::CalendarLimb{{CalendarUnit::months, 24}}};

  service::Schedule hoist;
  hoist.name = "hoist";
  hoist.meters = {{"engine", "h", std::nullopt}};
  hoist.tasks = {hook, rope};

  service::Fleet fleet;
  fleet.name = "Two hoists";
  fleet.schedules = {hoist};
  for (const char* key : {"hoist-a", "hoist-b"}) {
    service::Machine machine;
    machine.key = key;
    machine.schedule = "hoist";
    machine.start = {service::StartKind::in_service, day_of(2025, 3, 10), Amount{}};
    fleet.machines.push_back(machine);
  }
  return fleet;
}

// `checked` fills in what follows from the rest, or says all that is wrong, as a file would have been told.
void print_mistakes(service::Fleet fleet) {
  try {
    service::checked(std::move(fleet));
    std::printf("nothing is wrong\n");
  } catch (const service::Failure& failure) {
    for (const service::Diagnostic& each : failure.diagnostics()) {
      std::printf("  %s: %s\n", each.code.c_str(), each.message.c_str());
    }
  }
}

// Facts that came from somewhere else than a record need ids of their own: a time, and bytes that nobody else draws.
// Here a counter will do, for these facts meet no others.
service::Fact fact(int number, service::FactKind kind, const char* machine, Day on, Amount at) {
  service::Fact made;
  made.kind = kind;
  made.machine = machine;
  made.on = on;
  made.at = at;
  made.entered = number;
  made.id = {service::make_command_id(number, {}), 1};
  return made;
}

int ask() {
  service::Fleet wrong = two_hoists();
  wrong.machines[1].schedule = "hosit";
  wrong.machines[1].site = "yard";
  std::printf("With two names wrong:\n");
  print_mistakes(wrong);

  const auto fleet = std::make_shared<const service::Fleet>(service::checked(two_hoists()));
  using service::FactKind;
  std::vector<service::Fact> facts{
      fact(1, FactKind::reading, "hoist-a", day_of(2025, 12, 1), Amount::units(104)),
      fact(2, FactKind::reading, "hoist-b", day_of(2025, 12, 1), Amount::units(40)),
      fact(3, FactKind::service, "hoist-a", day_of(2025, 12, 8), Amount::units(105)),
  };
  facts.back().task = "rope";

  // `whole_book` says that these are all facts that there are, so nothing about their kind is missing.
  const Day as_of = day_of(2026, 2, 1);
  const service::Snapshot snapshot(fleet, service::whole_book(facts), as_of, true);
  const service::DueList list = service::due_list(snapshot, service::add_months(as_of, 2));
  std::printf("On %s:\n", to_text(as_of).c_str());
  for (const service::Point& point : list.points) {
    std::printf("  %-7s %s of %s", std::string(to_text(point.standing)).c_str(), point.name.c_str(),
                point.machine->key.c_str());
    if (point.due_on)
      std::printf(", %s%s", service::is_expected(point) ? "about " : "", to_text(*point.due_on).c_str());
    std::printf("\n");
  }
  for (const service::Gap& gap : list.gaps) {
    std::printf("  not known: %s: %s\n", gap.machine.c_str(), gap.say.c_str());
  }
  return 0;
}

}  // namespace

int main() {
  try {
    return ask();
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 70;
  }
}
