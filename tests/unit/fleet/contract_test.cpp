// A fleet with all that a user would write of a tractor, read to the right values.
#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <vector>

#include "service/fleet.h"
#include "unit/fleet/texts.h"

namespace {

using namespace service;
using fleet_texts::words;

constexpr std::string_view contract_fleet = R"(# fleet.yaml
fleet: Skarvey estate               # invented, on an island that is on no map
time-zone: Europe/Oslo
grace: 5%
mail: {to: [office@skarvey.example], from: whichever@skarvey.example, weekly-word: monday}
sites:
  yard: {name: Home yard, at: [54.10, 3.20]}
seasons:
  harvest: {from: 08-01, to: 09-20}     # one may run over New Year
machines:
  loader:
    name: Loader tractor
    schedule: diesel-tractor
    site: yard
    in-service: {on: 2011-03-01, at: 0}
    meters: {engine: {unit: h, rolls-over-at: 10000}}
    expect: {per-year: 450, harvest: 180}
    conditions: [dusty]
    change: {engine-oil: {every: {hours: 200}}}    # this machine differs
)";

constexpr std::string_view contract_schedule = R"(# schedules/diesel-tractor.yaml
schedule: diesel-tractor
meters: {engine: {unit: h}}         # what its machines have, unless they say otherwise
tasks:
  engine-oil:
    do: Change engine oil and oil filter
    every: {hours: 250, months: 12}
    first: {hours: 50}
    takes: 50 min
    parts: {oil-filter-a: 1}
    fluids: {engine-oil-15w40: 11.5 L}
    cautions: [hot-fluid, used-oil]
    follow-up: {check-leaks: {do: "Run to temperature and look for leaks", within: {hours: 1}}}
)";

Fleet contract() {
  return read_fleet({{},
                     {{"fleet.yaml", std::string(contract_fleet)},
                      {"schedules/diesel-tractor.yaml", std::string(contract_schedule)}}});
}

}  // namespace

TEST_CASE("the weekly word comes on Monday unless told, and may be turned off") {
  const auto word = [](const std::string& mail) {
    const auto fleet = fleet_texts::fleet_of(fleet_texts::one_machine + mail, fleet_texts::one_task);
    return fleet.mail.weekly_word ? static_cast<int>(*fleet.mail.weekly_word) : -1;
  };
  CHECK(word("") == 0);
  CHECK(word("mail: {to: [a@b]}\n") == 0);
  CHECK(word("mail: {to: [a@b], weekly-word: wed}\n") == 2);
  CHECK(word("mail: {to: [a@b], weekly-word: off}\n") == -1);
}

TEST_CASE("whom to tell is known where the rest of the files is wrong") {
  const auto to = [](const std::string& text) {
    const auto mail = service::mail_of({{}, {{"fleet.yaml", text}}});
    std::string all;
    if (!mail) return all;
    for (const std::string& one : mail->to) all += one + ' ';
    return all;
  };
  CHECK(to("fleet: x\nmail: {to: [a@b, c@d]}\nmachines: nonsense\n") == "a@b c@d ");
  // It ends in the middle, so that there is no tree.
  CHECK(to("fleet: x\nmail:\n  to: [a@b]\n\n# x\n  from: c@d\nmachines:\n  p: {schedule: \"x\n") == "a@b ");
  CHECK(to("\xEF\xBB\xBFmail: {to: [a@b]}\r\nfleet: [\r\n") == "a@b ");
  // One address is no good: the others hear of it.
  CHECK(to("mail: {to: [a b, c@d]}\n") == "c@d ");
  CHECK(to("fleet: x\n").empty());
  CHECK(to("mail: {to: []}\n").empty());
  CHECK(to("mail: {to: [\n").empty());
  CHECK(to("").empty());
  CHECK(to("sites: {mail: {to: [a@b]}}\n").empty());
}

TEST_CASE("a fleet file says what its owner wrote") {
  const Fleet fleet = contract();
  CHECK(fleet.name == "Skarvey estate");
  CHECK(fleet.time_zone == "Europe/Oslo");
  CHECK(fleet.grace.percent_hundredths.value_or(-1) == 500);
  CHECK(fleet.stale_after_days == 60);
  REQUIRE(fleet.mail.to.size() == 1);
  CHECK(fleet.mail.to[0] == "office@skarvey.example");
  CHECK(fleet.mail.from == "whichever@skarvey.example");
  REQUIRE(fleet.mail.weekly_word.has_value());
  CHECK(static_cast<int>(*fleet.mail.weekly_word) == 0);
  const Site* const yard = fleet.site("yard");
  REQUIRE(yard != nullptr);
  CHECK(yard->name == "Home yard");
  REQUIRE(yard->at.has_value());
  CHECK(yard->at->latitude == 54'100'000);
  CHECK(yard->at->longitude == 3'200'000);
  CHECK(yard->open.has_value() == false);
  const Season* const harvest = fleet.season("harvest");
  REQUIRE(harvest != nullptr);
  CHECK(to_text(harvest->from.in_year(2026)) == "2026-08-01");
  CHECK(to_text(harvest->to.in_year(2026)) == "2026-09-20");
}

TEST_CASE("a machine says what its owner wrote") {
  const Fleet fleet = contract();
  const Machine* const loader = fleet.machine("loader");
  REQUIRE(loader != nullptr);
  CHECK(loader->name == "Loader tractor");
  CHECK(loader->schedule == "diesel-tractor");
  CHECK(loader->site == "yard");
  CHECK(static_cast<int>(loader->start.kind) == static_cast<int>(StartKind::in_service));
  CHECK(to_text(loader->start.on) == "2011-03-01");
  REQUIRE(loader->start.at.has_value());
  CHECK(loader->start.at->hundredths == 0);
  REQUIRE(loader->meters.size() == 1);
  CHECK(loader->meters[0].name == "engine");
  CHECK(to_text(loader->meters[0].rolls_over_at.value_or(Amount{})) == "10000");
  CHECK(to_text(loader->expect.per_year.value_or(Amount{})) == "450");
  REQUIRE(loader->expect.by_season.size() == 1);
  CHECK(loader->expect.by_season[0].first == "harvest");
  CHECK(to_text(loader->expect.by_season[0].second) == "180");
  REQUIRE(loader->conditions.size() == 1);
  CHECK(loader->conditions[0] == "dusty");
  REQUIRE(loader->change.size() == 1);
  CHECK(loader->change[0].task == "engine-oil");
  CHECK(words(loader->change[0].every) == "hours 200");
  CHECK(loader->place.line == 11);
  CHECK(loader->place.column == 3);
  CHECK(fleet.schedule_of(*loader).name == "diesel-tractor");
}

TEST_CASE("a task says what its owner wrote") {
  const Fleet fleet = contract();
  const Task* const task = fleet.schedule("diesel-tractor")->task("engine-oil");
  REQUIRE(task != nullptr);
  CHECK(task->doing == "Change engine oil and oil filter");
  CHECK(words(task->every) == "hours 250, 12 months");
  CHECK(words(task->first) == "hours 50");
  CHECK(task->takes.value_or(std::chrono::minutes{0}).count() == 50);
  REQUIRE(task->parts.size() == 1);
  CHECK(task->parts[0].first == "oil-filter-a");
  CHECK(to_text(task->parts[0].second) == "1");
  REQUIRE(task->fluids.size() == 1);
  CHECK(task->fluids[0].first == "engine-oil-15w40");
  CHECK(to_text(task->fluids[0].second.amount) == "11.5");
  CHECK(task->fluids[0].second.unit == "L");
  REQUIRE(task->cautions.size() == 2);
  CHECK(task->cautions[1] == "used-oil");
  REQUIRE(task->follow_ups.size() == 1);
  CHECK(task->follow_ups[0].name == "check-leaks");
  CHECK(task->follow_ups[0].doing == "Run to temperature and look for leaks");
  CHECK(words(task->follow_ups[0].within) == "hours 1");
  CHECK(task->place.file == "schedules/diesel-tractor.yaml");
  CHECK(task->place.line == 5);
  CHECK(task->safety == false);
  CHECK(task->people == 1);
}

TEST_CASE("a condition that no task knows is a remark, not a mistake") {
  const Fleet fleet = contract();
  REQUIRE(fleet.remarks.size() == 1);
  CHECK(fleet.remarks[0].code == "condition-unused");
  CHECK(static_cast<int>(fleet.remarks[0].severity) == static_cast<int>(Severity::remark));
}
