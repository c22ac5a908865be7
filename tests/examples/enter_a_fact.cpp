// Entering: a reading and a service go into the book, each says what it changed, and the second is taken back.
//
//   Fact -> EntryRequest -> enter(fleet, record, request, writer) -> Entered: facts added, points changed
//
// usage: enter_a_fact FLEET_FOLDER      (with a facts.csv in it, see sample_copy.h)
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <exception>
#include <memory>
#include <string>
#include <vector>

#include "sample_copy.h"
#include "service/base.h"
#include "service/entry.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"
#include "service/standing.h"

namespace {

using service::to_text;

std::string standing_of(const service::Point* point) {
  return point == nullptr ? "not there" : std::string(to_text(point->standing));
}

// What a new fact did to the due lists of the machines that it is about.
void print(const char* title, const service::Entered& entered) {
  const auto added = static_cast<std::int64_t>(entered.added.size());
  std::printf("%s: %s added\n", title, service::counted(added, "fact", "facts").c_str());
  for (const std::string& said : entered.said) std::printf("  understood: %s\n", said.c_str());
  for (const service::Fact& fact : entered.added) {
    const auto step = service::meter_step(entered, fact);
    if (!step || !step->used) continue;
    std::printf("  %s of %s: %s %s more in %d days\n", step->meter.c_str(), step->machine.c_str(),
                to_text(*step->used).c_str(), step->unit.c_str(), step->days);
  }
  for (const service::PointChange& change : entered.changes) {
    const service::Point& named = change.after != nullptr ? *change.after : *change.before;
    std::printf("  %s: %s -> %s\n", service::point_label(named.name, named.position).c_str(),
                standing_of(change.before).c_str(), standing_of(change.after).c_str());
  }
}

service::Fact reading(const char* machine, service::Day on, service::Amount at) {
  service::Fact fact;
  fact.kind = service::FactKind::reading;
  fact.machine = machine;
  fact.on = on;
  fact.at = at;
  return fact;
}

service::Fact service_of(const char* machine, const char* task, service::Day on, service::Amount at) {
  service::Fact fact = reading(machine, on, at);
  fact.kind = service::FactKind::service;
  fact.task = task;
  return fact;
}

// Taking back strikes the facts of a command; the book keeps them, legible. The library decides which command it is:
// only one's own, and only of the last day.
void take_back(const std::shared_ptr<const service::Fleet>& fleet, service::Record& record,
               const service::Writer& writer) {
  const service::Undo undo = service::decide_undo(record.facts(), {writer.name, writer.milliseconds(), {}});
  if (undo.verdict != service::UndoVerdict::take_back) {
    std::printf("Nothing is taken back\n");
    return;
  }
  std::vector<service::Fact> strikes;
  for (const service::Fact& fact : undo.command->standing) {
    strikes.push_back(service::strike_of(fact.id, example::today));
  }
  const auto request = service::entry_of(std::string(service::undo_origin), strikes, example::today, true);
  print("Taken back", service::enter(fleet, record, request, writer));
}

int enter(const std::filesystem::path& sample) {
  const example::SampleCopy copy(sample);
  const auto fleet =
      std::make_shared<const service::Fleet>(service::read_fleet(service::load_fleet_files(copy.folder())));
  service::Record record = service::Record::open(copy.record(), service::Access::write);
  const service::Writer writer = example::writer();
  const auto enter_one = [&](const char* origin, const service::Fact& fact) {
    return service::enter(fleet, record, service::entry_of(origin, {fact}, example::today, true), writer);
  };

  // When `enter` returns, the fact is on the disk.
  print("A reading", enter_one("reading", reading("generator-main", example::today, {215'600})));
  print("A service", enter_one("done", service_of("generator-main", "engine-oil", example::today, {215'600})));
  take_back(fleet, record, writer);

  // A fact that cannot be true beside the others is refused, and nothing is stored. What could be done instead comes
  // as data.
  try {
    enter_one("reading", reading("generator-main", example::today, {115'600}));
  } catch (const service::Failure& failure) {
    const service::Diagnostic& what = failure.diagnostics().front();
    std::printf("Refused: %s\n", what.message.c_str());
    for (const service::Cure& cure : what.cures) std::printf("  cure: %s\n", std::string(to_text(cure.kind)).c_str());
  }

  const std::vector<service::Fact> book = record.facts();
  const std::vector<bool> struck = service::struck(book);
  std::printf("The book: %zu facts, struck: %d\n", book.size(),
              static_cast<int>(std::count(struck.begin(), struck.end(), true)));
  return 0;
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    std::fprintf(stderr, "usage: enter_a_fact FLEET_FOLDER\n");
    return 64;
  }
  try {
    return enter(words[1]);
  } catch (const service::Failure& failure) {
    for (const service::Diagnostic& each : failure.diagnostics()) std::fprintf(stderr, "%s\n", each.message.c_str());
    return static_cast<int>(failure.kind());
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 70;
  }
}
