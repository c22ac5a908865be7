// Lists that are read out of a record machine after machine. Random worlds stand in kept_books_test.cpp.
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <string>
#include <vector>

#include "property/one_by_one.h"
#include "service/kept_books.h"
#include "support/temporary_folder.h"

namespace {

using service::Access;
using service::Day;
using service::Fact;
using service::FactKind;
using service::Record;

Day day_in(int month) { return *service::parse_day(fmt::format("2025-{:02}-01", month)); }

// Three kinds side by side; machines of which nothing is written, that left, at three sites; all is well at one.
std::shared_ptr<const service::Fleet> three_kinds() {
  service::FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\nsites:\n  yard: {name: Yard, customer: One}\n  hill: {name: Hill, customer: Two}\n"
      "  lane: {name: Lane, customer: Three}\nmachines:\n"
      "  a: {schedule: pump, site: yard, in-service: 2024-01-01}\n"
      "  b: {schedule: saw, site: hill, bought: 2024-01-01}\n"
      "  c: {schedule: pump, site: hill, in-service: 2024-01-01}\n"
      "  d: {schedule: fan, site: yard}\n"
      "  e: {schedule: saw, site: yard, in-service: 2024-01-01}\n"
      "  f: {schedule: fan, site: yard, in-service: 2024-01-01, left: 2025-06-01}\n"
      "  g: {schedule: pump, site: yard, in-service: 2024-01-01}\n"
      "  h: {schedule: fan, site: yard, in-service: 2024-01-01}\n"
      "  i: {schedule: fan, site: lane, in-service: 2024-01-01}\n";
  for (const std::string kind : {"pump", "saw", "fan"}) {
    files.texts["schedules/" + kind + ".yaml"] =
        "schedule: " + kind +
        "\nmeters: {engine: {unit: h}}\ntasks:\n"
        "  oil: {do: Change oil, every: {hours: 250, months: 12}}\n"
        "  guards: {do: Look at the guards, every: {months: 3}, safety: true}\n"
        "  filter: {do: Change filter, every: {months: 60}}\n"
        "  belt: {do: Change belt, every: {signs: [squeals]}}\n";
  }
  return std::make_shared<const service::Fleet>(service::read_fleet(files));
}

Fact fact_of(FactKind kind, const std::string& machine, Day day, int number) {
  Fact fact;
  fact.kind = kind;
  fact.machine = machine;
  fact.on = day;
  fact.id = {service::make_command_id(1'767'225'600'000, {}), number};
  fact.entered = 1'767'225'600'000;
  fact.entered_by = "ann";
  fact.origin = "test";
  return fact;
}

std::vector<Fact> facts() {
  std::vector<Fact> all;
  int number = 0;
  const auto add = [&](FactKind kind, const std::string& machine, int month) -> Fact& {
    return all.emplace_back(fact_of(kind, machine, day_in(month), ++number));
  };
  int hours = 100;
  for (const std::string machine : {"h", "c", "g", "b", "a", "e", "f", "gone"}) {
    for (int month = 1; month <= 9; month += 2)
      add(FactKind::reading, machine, month).at = service::Amount::units(hours += 60);
    if (machine == "g" || machine == "a") add(FactKind::service, machine, 8).task = "oil";
  }
  for (const char* task : {"oil", "guards", "filter"}) add(FactKind::service, "i", 3).task = task;
  add(FactKind::reading, "i", 3).at = service::Amount::units(90);
  add(FactKind::sign, "g", 7).name = "squeals";
  add(FactKind::sign, "b", 7).name = "strange noise";
  add(FactKind::sign, "a", 8).name = "smells";
  add(FactKind::out_of_use, "h", 8).note = "fan cracked";
  add(FactKind::out_of_use, "a", 8).note = "hose split";
  add(FactKind::laid_up, "e", 8);
  Fact strike = fact_of(FactKind::strike, "", Day{}, 1);
  strike.on = {};
  strike.strikes = all[2].id;
  strike.id = {service::make_command_id(1'767'225'700'000, {}), 1};
  all.push_back(strike);
  return all;
}

void keep(Record& record, const service::Fleet& fleet, const std::vector<Fact>& facts) {
  const service::BookKeeper keeper(fleet);
  record.append(
      {}, false, [&](const std::vector<Fact>&) { return facts; }, &keeper);
}

std::vector<std::string> codes_of(const service::Failure& failure) {
  std::vector<std::string> codes;
  for (const auto& diagnostic : failure.diagnostics()) codes.push_back(diagnostic.code + ' ' + diagnostic.message);
  return codes;
}

template <class Ask>
std::vector<std::string> failure_of(Ask ask) {
  try {
    ask();
  } catch (const service::Failure& failure) {
    return codes_of(failure);
  }
  return {};
}

}  // namespace

TEST_CASE("machines of several kinds come in the order of the fleet file, whichever kind is read first") {
  const auto fleet = three_kinds();
  const test::TemporaryFolder folder;
  Record::create(folder / "record.db");
  auto record = Record::open(folder / "record.db", Access::write);
  keep(record, *fleet, facts());
  std::size_t let_go = 0;
  for (const int month : {3, 8, 9, 12}) {
    const Day as_of = day_in(month) + std::chrono::days{3};
    let_go += test::hold_one_by_one(fleet, record, as_of);
    let_go += test::hold_one_by_one(fleet, record, as_of, {{{"c", "e"}}});
    // Where only one of them is told of anything, it is still told at which of their sites.
    let_go += test::hold_one_by_one(fleet, record, as_of, {{{"c", "i"}}});
    let_go += test::hold_one_by_one(fleet, record, as_of, service::scope_of_site(*fleet, "yard"));
  }
  CHECK(let_go > 50);
}

TEST_CASE("damage is told as whoever reads all facts tells it") {
  const auto fleet = three_kinds();
  const test::TemporaryFolder folder;
  const auto file = folder / "record.db";
  Record::create(file);
  {
    auto record = Record::open(file, Access::write);
    keep(record, *fleet, facts());
  }
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &database) == SQLITE_OK);
  REQUIRE(sqlite3_exec(database, "DELETE FROM derived; UPDATE fact SET n = n + 900 WHERE n IN (4, 17, 33)", nullptr,
                       nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(database);
  const auto record = Record::open(file, Access::read);
  const Day as_of = day_in(12);
  const auto alike =
      failure_of([&] { (void)due_list(service::take_list_snapshot(fleet, record, as_of, true), {as_of}); });
  CHECK(alike.size() >= 3);
  CHECK((failure_of([&] { (void)due_list_of(record, fleet, as_of, true, {}, {as_of}); }) == alike));
}
