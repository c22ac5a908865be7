// What one fact did: to a meter, to a delay, to the use of a machine.
#include <doctest/doctest.h>

#include "office.h"

using namespace entry_test;
using service::UseProblem;
using test::text_or_none;

TEST_CASE("a reading is set against what the meter showed before") {
  Office office;
  const auto first = office.enter({reading("pump", "2025-02-09", "60")});
  const auto step = service::meter_step(first, first.added.front());
  REQUIRE(step.has_value());
  CHECK(text_or_none(step->from) == "0");  // in service new
  CHECK(service::to_text(step->to) == "60");
  CHECK(text_or_none(step->used) == "60");
  CHECK(step->days == 30);
  CHECK(step->unit == "h");

  const auto same_day = office.enter({reading("pump", "2025-02-09", "61.5")});
  CHECK(service::meter_step(same_day, same_day.added.front())->days == 0);
  CHECK(text_or_none(service::meter_step(same_day, same_day.added.front())->used) == "1.5");
}

TEST_CASE("use is counted through a change of the meter") {
  Office office;
  office.enter({reading("pump", "2025-02-09", "60")});
  Fact change = use(FactKind::meter_change, "pump", "2025-03-01");
  change.last = amount("70");
  change.first = amount("5");
  office.enter({change});
  const auto entered = office.enter({reading("pump", "2025-03-11", "25")});
  const auto step = service::meter_step(entered, entered.added.front());
  REQUIRE(step.has_value());
  CHECK(text_or_none(step->from) == "5");
  CHECK(text_or_none(step->used) == "20");
  CHECK(step->days == 10);
}

TEST_CASE("facts that show no value did nothing to a meter") {
  Office office;
  const auto entered = office.enter({done("loader", "oil", "2026-06"), use(FactKind::laid_up, "pump", "2026-06-01")});
  for (const Fact& fact : entered.added) CHECK_FALSE(service::meter_step(entered, fact).has_value());
}

TEST_CASE("the newest reading of each meter is told before and after") {
  Office office;
  office.enter({reading("loader", "2026-06-01", "400")});
  const auto entered = office.enter({reading("loader", "2026-05-01", "380"), reading("pump", "2026-06-02", "9")});
  const auto newest = service::newest_readings(entered);
  REQUIRE(newest.size() == 2);
  CHECK(newest[0].machine == "loader");
  CHECK((newest[0].before == newest[0].after));  // the older value changes nothing
  CHECK(service::to_text(newest[0].after->shown) == "400");
  CHECK(newest[1].machine == "pump");
  CHECK(service::to_text(newest[1].before->day) == "2025-01-10");
  CHECK(service::to_text(newest[1].after->day) == "2026-06-02");
}

namespace {

service::FleetFiles yard() {
  service::FleetFiles files;
  files.texts["fleet.yaml"] = "fleet: Test\nmachines:\n  lift: {schedule: lift, in-service: {on: 2024-03-02, at: 0}}\n";
  files.texts["schedules/lift.yaml"] =
      "schedule: lift\nmeters: {engine: {unit: h}}\ntasks:\n"
      "  oil: {do: Oil, every: {hours: 250}, fluids: {oil-a: 5 L}, cautions: [automatic-start],\n"
      "    follow-up: {leaks: {do: Look, within: {hours: 1}}}}\n"
      "  chain: {do: Chain, every: {months: 12}, positions: [left, right],\n"
      "    follow-up: {slack: {do: Try, within: {hours: 9}}}}\n"
      "  big: {do: Big, every: {hours: 1000}, parts: {belt: 1}, covers: [oil, chain]}\n"
      "  fence: {do: Fence, every: {months: 12}}\n";
  return files;
}

std::string names_of(const std::vector<Fact>& facts) {
  std::string names;
  for (const Fact& fact : facts) names += service::point_label(fact.task, fact.position) + ' ';
  return names;
}

}  // namespace

TEST_CASE("what to write on a new element is its day and what the meter shows") {
  const Office office(yard());
  const auto label = service::element_label(done("lift", "oil", "2026-06", "400"), *office.fleet);
  REQUIRE(label.has_value());
  REQUIRE(label->on.has_value());
  CHECK(service::to_text(*label->on) == "2026-06");
  CHECK(text_or_none(label->at) == "400");
  CHECK(label->unit == "h");
  CHECK(service::element_label(done("lift", "big", "2026-06", "400"), *office.fleet).has_value());
  for (const char* const nothing_new : {"chain", "fence", "oil/leaks"}) {
    CHECK_FALSE(service::element_label(done("lift", nothing_new, "2026-06", "400"), *office.fleet).has_value());
  }
}

TEST_CASE("the checks after services are proposed as done with them, those of what they cover too") {
  const Office office(yard());
  const auto& lift = *office.fleet->machine("lift");
  const auto checks = [&](const std::vector<Fact>& services) { return checks_after(*office.fleet, lift, services); };
  Fact oil = done("lift", "oil", "2026-06-01", "400");
  oil.found = service::Found::worn;
  const auto of_oil = checks({oil});
  REQUIRE(of_oil.size() == 1);
  CHECK(of_oil[0].task == "oil/leaks");
  CHECK_FALSE(of_oil[0].found.has_value());  // the element was worn, not the look for leaks
  CHECK(text_or_none(of_oil[0].at) == "400");
  CHECK(names_of(checks({done("lift", "big", "2026-06-01", "")})) == "oil/leaks chain/slack ");
  Fact left = done("lift", "chain", "2026-06-01", "");
  left.position = "left";
  CHECK(names_of(checks({left})) == "chain/slack@left ");
  CHECK(names_of(checks({oil, done("lift", "big", "2026-06-01", "")})) == "oil/leaks chain/slack ");
  CHECK(checks({done("lift", "fence", "2026-06-01", "")}).empty());
}

TEST_CASE("automatic start goes back on after every service that carries its caution") {
  Office office(yard());
  const auto locked_off = [&](std::string_view task) {
    return was_locked_off(office.enter({done("lift", task, "2026-06-01", "")}));
  };
  CHECK(locked_off("oil"));
  CHECK(locked_off("oil/leaks"));
  CHECK(locked_off("big"));  // covers the oil
  CHECK_FALSE(locked_off("fence"));
  CHECK_FALSE(was_locked_off(office.enter({reading("lift", "2026-06-02", "10")})));
}

TEST_CASE("a delay by use ends at a usage, through the change of a meter too") {
  Office office;
  office.enter({reading("loader", "2026-05-01", "400")});
  Fact change = use(FactKind::meter_change, "loader", "2026-05-02");
  change.last = amount("400");
  change.first = amount("10");
  office.enter({change});
  office.enter({reading("loader", "2026-06-01", "30")});  // usage 420
  const auto& loader = *office.fleet->machine("loader");
  const auto now = office.snapshot();
  const auto end = [&](bool more, std::string_view by, std::string unit, std::string_view task = "oil") {
    return service::put_off_end(now, loader, task, "", {more, amount(by), std::move(unit)});
  };
  CHECK(text_or_none(end(true, "50", "h").usage) == "470");
  CHECK(text_or_none(end(true, "50", "").usage) == "470");
  CHECK(text_or_none(end(false, "45", "h").usage) == "435");
  CHECK(end(false, "30", "h").problem == UseProblem::already_shown);
  CHECK(service::to_text(end(false, "30", "h").shown) == "30");
  CHECK(end(false, "45", "").problem == UseProblem::other_unit);
  CHECK(end(true, "50", "km").problem == UseProblem::other_unit);
  CHECK(end(true, "50", "h", "hoses").problem == UseProblem::no_meter);
  CHECK((end(true, "50", "h", "hoses").meter == nullptr));
  CHECK(end(true, "50", "h").meter->name == "engine");
}

TEST_CASE("a delay by use has no end where nothing is known of the meter") {
  auto files = estate();
  files.texts["fleet.yaml"] = "fleet: Test\nmachines:\n  loader: {schedule: tractor}\n";
  Office office(files);
  const auto end =
      service::put_off_end(office.snapshot(), *office.fleet->machine("loader"), "oil", "", {true, amount("50"), "h"});
  CHECK_FALSE(end.usage.has_value());
  CHECK(end.problem == UseProblem::nothing_known);
}

TEST_CASE("laying up, taking out of use and bringing back say whether there is anything to write down") {
  Office office;
  office.enter({use(FactKind::out_of_use, "pump", "2026-06-01")});
  const auto& pump = *office.fleet->machine("pump");
  const service::Extract known = service::whole_book(office.record.facts());
  const auto change = [&](FactKind kind, std::string_view on) {
    return service::use_change(office.fleet, known, pump, use(kind, "pump", on));
  };
  CHECK(change(FactKind::back, "2026-06-02").changes);
  CHECK_FALSE(change(FactKind::back, "2026-05-31").changes);  // it was in use that day
  CHECK_FALSE(change(FactKind::out_of_use, "2026-06-02").changes);
  CHECK(change(FactKind::laid_up, "2026-06-02").changes);
  CHECK(change(FactKind::laid_up, "2026-06-02").stays_out_of_use);
  CHECK_FALSE(change(FactKind::laid_up, "2026-05-31").stays_out_of_use);
  CHECK(change(FactKind::back, "2026-06-02").before.kind == service::UseKind::out_of_use);
}

TEST_CASE("a lay-up that stands already is a change where another return is planned") {
  Office office;
  Fact first = use(FactKind::laid_up, "pump", "2026-03-09");
  first.until = day("2026-11-01");
  office.enter({first});
  const auto& pump = *office.fleet->machine("pump");
  const service::Extract known = service::whole_book(office.record.facts());
  Fact again = use(FactKind::laid_up, "pump", "2026-06-15");
  const auto without_end = service::use_change(office.fleet, known, pump, again);
  CHECK(without_end.changes);
  REQUIRE(without_end.before.laid_up.has_value());
  CHECK((*without_end.before.laid_up == service::LayUp{day("2026-03-09"), day("2026-11-01")}));
  again.until = first.until;
  CHECK_FALSE(service::use_change(office.fleet, known, pump, again).changes);
}
