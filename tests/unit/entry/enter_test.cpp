// Entering through the library alone: what is stored, what is refused, and what it changed.
#include <doctest/doctest.h>

#include "office.h"

using namespace entry_test;

// What somebody writes who uses the library: read a fleet, open a record, enter a fact, look at what it changed.
TEST_CASE("a service is entered and the due list before and after is compared") {
  test::TemporaryFolder folder;
  const auto fleet = std::make_shared<const service::Fleet>(service::read_fleet(estate()));
  service::Record::create(folder.path() / "record.db");
  auto record = service::Record::open(folder.path() / "record.db", service::Access::write);

  service::Fact fact;
  fact.kind = service::FactKind::service;
  fact.machine = "loader";
  fact.task = "oil";
  fact.on = service::day_of(2026, 6, 1);
  fact.at = service::Amount::units(400);

  const service::Writer ann{"ann", [] { return std::int64_t{1'781'500'000'000}; },
                            [] {
                              return std::array<std::uint8_t, 10>{7, 7, 7};
                            }};
  const auto entered =
      service::enter(fleet, record, service::entry_of("service book", {fact}, service::day_of(2026, 6, 15)), ann);

  REQUIRE(entered.added.size() == 1);
  const service::PointChange* oil = nullptr;
  for (const service::PointChange& change : entered.changes) {
    if (change.after != nullptr && change.after->name == "oil") oil = &change;
  }
  REQUIRE(oil != nullptr);
  CHECK(oil->before->standing == service::Standing::overdue);  // twelve months since it was put in service
  CHECK(oil->after->standing == service::Standing::later);
  CHECK(record.facts().size() == 1);
  CHECK(record.facts()[0].entered_by == "ann");
  CHECK(record.facts()[0].origin == "service book");
}

TEST_CASE("what was entered stays valid in a copy, when the record is closed and the first is gone") {
  std::optional<service::Entered> copy;
  {
    Office office;
    const auto entered = office.enter({done("loader", "oil", "2026-06-01", "400")});
    copy = entered;
  }
  bool told = false;
  for (const service::PointChange& change : copy->changes) {
    if (change.after != nullptr && change.after->machine->key == "loader") told = true;
  }
  CHECK(told);
  REQUIRE(copy->machines.size() == 1);
  CHECK(copy->machines.front() == "loader");
}

TEST_CASE("a dry run decides everything and stores nothing") {
  Office office;
  auto request = service::entry_of("test", {done("loader", "oil", "2026-06-01", "400")}, day("2026-06-15"), true);
  request.dry_run = true;
  const auto entered = office.enter(request);
  CHECK(entered.added.size() == 1);
  CHECK_FALSE(entered.changes.empty());
  CHECK(office.record.facts().empty());
}

TEST_CASE("a refusal stores nothing, and says whether a name was mistyped or the data is bad") {
  Office office;
  office.enter({reading("loader", "2026-06-01", "400")});
  CHECK(office.failure(std::vector{reading("loader", "2026-06-10", "300")}) == "65 reading-falls");
  CHECK(office.failure(std::vector{reading("loder", "2026-06-10", "500")}) == "64 unknown-machine");
  CHECK(office.failure(std::vector{reading("loader", "2026-06-16", "500")}) == "65 future");
  CHECK(office.record.facts().size() == 1);
}

TEST_CASE("one mistyped task of several facts is said once") {
  Office office;
  try {
    office.enter({done("loader", "oyl", "2026-06-01"), done("loader", "oyl", "2026-06-01")});
    FAIL("it was stored");
  } catch (const service::Failure& failure) {
    CHECK(failure.diagnostics().size() == 1);
  }
}

TEST_CASE("a refused reading says what it could be, as data") {
  Office office;
  const auto first = office.enter({reading("loader", "2026-06-01", "400")}).added.front();
  try {
    office.enter({reading("loader", "2026-06-10", "300")});
    FAIL("it was stored");
  } catch (const service::Failure& failure) {
    const auto& cures = failure.diagnostics().front().cures;
    REQUIRE(cures.size() == 4);
    CHECK(cures[0].kind == service::CureKind::mend_value);
    CHECK(cures[1].kind == service::CureKind::change_meter);
    CHECK(cures[1].value("machine") == "loader");
    CHECK(cures[1].value("meter") == "engine");
    CHECK(cures[1].value("last") == "400");
    CHECK(cures[1].value("on") == "2026-06-10");
    CHECK(cures[2].kind == service::CureKind::roll_over);
    CHECK(cures[3].kind == service::CureKind::strike_fact);
    CHECK(cures[3].value("fact") == service::to_text(first.id));
    CHECK(cures[3].value("nothing").empty());
    CHECK(failure.diagnostics().front().hint.empty());
  }
}

TEST_CASE("a fact outside of what was read is not judged as if nothing were known") {
  Office office;
  auto request = service::entry_of("test", {reading("loader", "2026-06-01", "400")}, day("2026-06-15"), true);
  request.scope = {std::vector<std::string>{"pump"}};
  CHECK(office.failure(request) == "70 scope-too-small");
  CHECK(office.record.facts().empty());
}

TEST_CASE("a value of the book that what is entered puts in doubt was not in doubt before") {
  Office office;
  office.enter({reading("loader", "2026-04-01", "100"), reading("loader", "2026-05-01", "110"),
                reading("loader", "2026-06-01", "600")});
  const auto history = office.enter({done("loader", "hoses", "2025-09-01", "60")});
  REQUIRE(history.doubts.size() == 1);  // the readings before it span 120 days now
  CHECK(history.doubts.front().say.starts_with("600.0 h on 2026-06-01 is hard to believe"));
  CHECK((history.newly_doubted == std::vector{history.doubts.front().facts.front()}));
  const auto again = office.enter({done("loader", "oil", "2025-10-01", "70")});
  CHECK(again.doubts.size() == 1);
  CHECK(again.newly_doubted.empty());
  const auto higher = office.enter({reading("loader", "2026-06-02", "620"), reading("loader", "2026-06-03", "650")});
  CHECK(higher.newly_doubted.empty());  // what is entered is new altogether
}

TEST_CASE("with skip_bad the good rows are stored, the bad ones handed back, and the caller is asked first") {
  Office office;
  const std::string text =
      "kind,machine,on,at\nreading,loader,2026-06-01,400\nreading,loader,2026-06-99,410\nreading,loader,2026-06-10,"
      "300\n"
      "reading,pump,2026-06-01,9\n";
  const auto read = service::read_facts(text, "list.csv");
  CHECK(office.failure(service::entry_of_file(read, "import list.csv", day("2026-06-15"), true, false)) ==
        "65 bad-value");
  CHECK(office.record.facts().empty());

  auto request = service::entry_of_file(read, "import list.csv", day("2026-06-15"), true, true);
  int asked = 0;
  request.before_leaving_out = [&] {
    ++asked;
    CHECK(office.record.facts().empty());
  };
  const auto entered = office.enter(request);
  CHECK(asked == 1);
  CHECK(entered.added.size() == 2);
  REQUIRE(entered.refused.size() == 2);
  CHECK(entered.refused[0].place->line == 3);
  CHECK(entered.refused[1].code == "reading-falls");
  CHECK(service::rejects_of(read, entered.refused_rows) ==
        "kind,machine,on,at\nreading,loader,2026-06-99,410\nreading,loader,2026-06-10,300\n");

  request.before_leaving_out = [&] { ++asked; };
  const auto again = office.enter(request);
  CHECK(asked == 2);
  CHECK(again.added.empty());
  CHECK(again.already_there == 2);
}

TEST_CASE("a strike holds although the clock went back") {
  Office office;
  const auto wrong = office.enter({reading("loader", "2026-06-01", "400")}).added.front();
  office.now -= 86'400'000;
  const auto strike = office.enter({service::strike_of(wrong.id, day("2026-06-15"), "typed wrong")});
  REQUIRE(strike.added.size() == 1);
  CHECK(wrong.id < strike.added.front().id);
  CHECK(strike.added.front().entered < wrong.entered);
  CHECK(service::unstruck(office.record.facts()).size() == 1);  // the strike itself
  REQUIRE(strike.machines.size() == 1);
  CHECK(strike.machines.front() == "loader");
  REQUIRE(service::target_of(strike, strike.added.front()) != nullptr);
  CHECK(service::target_of(strike, strike.added.front())->id == wrong.id);
}
